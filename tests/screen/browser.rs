//! A headless Chromium, driven through its pipe: messages of the `DevTools` protocol, each ended by a zero byte.
//!
//! Every wait ends: a browser that says nothing for [`PATIENCE`] fails the test, and a browser that is no longer used is ended.

use std::io::{BufRead as _, BufReader, Write as _};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::{Duration, Instant};
use std::{env, fs, thread};

use serde_json::{Value, json};
use tempfile::TempDir;

/// How long a browser may take to answer.
const PATIENCE: Duration = Duration::from_mins(1);

/// What the tests of a page need beside this repository.
pub struct Tools {
    chromium: PathBuf,
    /// The script that looks for barriers.
    pub axe: String,
}

/// The tools; nothing where one is missing, which is said, and is a failure where `CI_TOOLS=required` is set.
pub fn tools() -> Option<Tools> {
    let path = env::var_os("PATH").unwrap_or_default();
    let chromium = env::split_paths(&path).map(|folder| folder.join("chromium")).find(|file| file.is_file());
    let axe = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/screen/node_modules/axe-core/axe.min.js");
    let missing = match (chromium, fs::read_to_string(axe)) {
        (Some(chromium), Ok(axe)) => return Some(Tools { chromium, axe }),
        (None, _) => "chromium",
        (_, Err(_)) => "axe-core (npm ci in tests/screen)",
    };
    assert!(env::var("CI_TOOLS").as_deref() != Ok("required"), "{missing} is missing");
    eprintln!("{missing} is missing: the page is not looked at in a browser");
    None
}

/// A browser with one page open.
pub struct Browser {
    process: Child,
    to: ChildStdin,
    from: Receiver<Value>,
    last: u64,
    session: String,
    /// The pages that are loaded, by the names of their loaders.
    loaded: Vec<String>,
    /// What the page complained of so far: exceptions, errors in the console, refused or failed requests.
    pub complaints: Vec<String>,
    /// What the page asked the network for so far.
    pub requests: Vec<String>,
    _profile: TempDir,
}

impl Browser {
    /// Starts a browser with an empty profile.
    pub fn start(tools: &Tools) -> Self {
        let profile = tempfile::tempdir().expect("a folder for the profile");
        let flags = [
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-dev-shm-usage",
            "--disable-sync",
            "--no-first-run",
            "--remote-debugging-pipe",
        ];
        // The browser reads commands from descriptor 3 and answers on 4; a shell puts them there.
        let mut process = Command::new("sh")
            .args(["-c", "exec \"$0\" \"$@\" 3<&0 4>&1 </dev/null >/dev/null 2>/dev/null"])
            .arg(&tools.chromium)
            .args(flags)
            .arg(format!("--user-data-dir={}", profile.path().display()))
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("a shell");
        let to = process.stdin.take().expect("it was piped");
        let mut answers = BufReader::new(process.stdout.take().expect("it was piped"));
        let (sender, from) = channel();
        thread::spawn(move || {
            let mut message = Vec::new();
            while answers.read_until(0, &mut message).is_ok_and(|read| read > 0) {
                message.pop();
                let Ok(value) = serde_json::from_slice(&message) else { break };
                if sender.send(value).is_err() {
                    break;
                }
                message.clear();
            }
        });
        let mut browser = Self {
            process,
            to,
            from,
            last: 0,
            session: String::new(),
            loaded: Vec::new(),
            complaints: Vec::new(),
            requests: Vec::new(),
            _profile: profile,
        };
        let target = browser.call("Target.createTarget", &json!({ "url": "about:blank" }));
        let attached = json!({ "targetId": target["targetId"], "flatten": true });
        let session = browser.call("Target.attachToTarget", &attached);
        session["sessionId"].as_str().expect("a session").clone_into(&mut browser.session);
        for domain in ["Page", "Runtime", "Log", "Network"] {
            browser.call(&format!("{domain}.enable"), &json!({}));
        }
        browser.call("Page.setLifecycleEventsEnabled", &json!({ "enabled": true }));
        browser
    }

    /// Calls a method of the protocol and waits for its answer.
    pub fn call(&mut self, method: &str, parameters: &Value) -> Value {
        self.last += 1;
        let mut message = json!({ "id": self.last, "method": method, "params": parameters });
        if !self.session.is_empty() {
            message["sessionId"] = json!(self.session);
        }
        let mut bytes = message.to_string().into_bytes();
        bytes.push(0);
        self.to.write_all(&bytes).unwrap_or_else(|error| panic!("{method}: the browser is gone: {error}"));
        let deadline = Instant::now() + PATIENCE;
        loop {
            let answer = self.next(method, deadline);
            if answer["id"] != json!(self.last) {
                self.note(&answer);
                continue;
            }
            assert!(answer["error"].is_null(), "{method}: {}", answer["error"]);
            return answer["result"].clone();
        }
    }

    /// Opens a page and waits until it is there; the same page again is loaded anew.
    pub fn open(&mut self, file: &Path) {
        // The answer comes when the new page has taken the place of the old one.
        let answer = self.call("Page.navigate", &json!({ "url": format!("file://{}", file.display()) }));
        assert!(answer["errorText"].is_null(), "{}: {answer}", file.display());
        let loader = answer["loaderId"].as_str().unwrap_or_default();
        let deadline = Instant::now() + PATIENCE;
        while !self.loaded.iter().any(|loaded| loaded == loader) {
            let event = self.next("Page.navigate", deadline);
            self.note(&event);
        }
    }

    /// What an expression gives; a promise is waited for.
    pub fn evaluate(&mut self, expression: &str) -> Value {
        self.run(expression, true)
    }

    /// What an expression gives at once, also where the page may run no script: there a promise would never come true.
    pub fn glance(&mut self, expression: &str) -> Value {
        self.run(expression, false)
    }

    fn run(&mut self, expression: &str, wait: bool) -> Value {
        let parameters = json!({ "expression": expression, "awaitPromise": wait, "returnByValue": true });
        let answer = self.call("Runtime.evaluate", &parameters);
        assert!(answer["exceptionDetails"].is_null(), "{}", answer["exceptionDetails"]);
        answer["result"]["value"].clone()
    }

    /// Shows the page on a screen this wide, in this scheme of colours.
    pub fn show(&mut self, width: u32, scheme: &str) {
        let metrics = json!({ "width": width, "height": 800, "deviceScaleFactor": 1, "mobile": false });
        self.call("Emulation.setDeviceMetricsOverride", &metrics);
        let features = json!([
            { "name": "prefers-color-scheme", "value": scheme },
            { "name": "prefers-reduced-motion", "value": "reduce" },
        ]);
        self.call("Emulation.setEmulatedMedia", &json!({ "features": features }));
        // Two frames later everything is laid out, and what watches sizes has seen them.
        self.evaluate("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))");
    }

    fn next(&mut self, what: &str, deadline: Instant) -> Value {
        match self.from.recv_timeout(deadline.saturating_duration_since(Instant::now())) {
            Ok(message) => message,
            Err(RecvTimeoutError::Timeout) => panic!("{what}: the browser says nothing for {} s", PATIENCE.as_secs()),
            Err(RecvTimeoutError::Disconnected) => panic!("{what}: the browser has ended"),
        }
    }

    fn note(&mut self, event: &Value) {
        let parameters = &event["params"];
        match event["method"].as_str() {
            Some("Runtime.exceptionThrown") => self.complaints.push(parameters["exceptionDetails"].to_string()),
            Some("Runtime.consoleAPICalled") if parameters["type"] == "error" => {
                self.complaints.push(parameters["args"].to_string());
            }
            Some("Log.entryAdded") if parameters["entry"]["level"] == "error" => {
                self.complaints.push(parameters["entry"]["text"].to_string());
            }
            Some("Page.lifecycleEvent") if parameters["name"] == "load" => {
                self.loaded.push(parameters["loaderId"].as_str().unwrap_or_default().to_owned());
            }
            Some("Network.requestWillBeSent") => {
                let address = parameters["request"]["url"].as_str().unwrap_or_default();
                if !address.starts_with("file:") && !address.starts_with("data:") && !address.starts_with("about:") {
                    self.requests.push(address.to_owned());
                }
            }
            _ => {}
        }
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        // Asked to close it takes its helpers with it and lets go of its profile. It may have ended already; either way it is not left behind.
        let _ = self.to.write_all(b"{\"id\":0,\"method\":\"Browser.close\"}\0");
        let deadline = Instant::now() + Duration::from_secs(5);
        while matches!(self.process.try_wait(), Ok(None)) && Instant::now() < deadline {
            thread::sleep(Duration::from_millis(10));
        }
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}
