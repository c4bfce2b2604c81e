//! A folder of its own for a test of the command, and how a run on it ended.

#![allow(dead_code, reason = "each test uses its own part of this")]
#![allow(clippy::expect_used, clippy::panic, reason = "a test that cannot go on fails")]

use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// The command.
pub const PROGRAM: &str = env!("CARGO_BIN_EXE_piecewright");

/// A folder of its own for a test.
pub struct Desk {
    /// The folder, which goes with the desk.
    pub folder: tempfile::TempDir,
}

/// How a run ended.
pub struct Ran {
    /// Its exit code; none where it was killed.
    pub code: Option<i32>,
    /// What it wrote to standard output.
    pub out: String,
    /// What it wrote to standard error.
    pub err: String,
}

impl Desk {
    /// An empty one.
    pub fn new() -> Self {
        Self { folder: tempfile::tempdir().expect("a folder") }
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub fn text(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).expect("is there")
    }

    pub fn put(&self, name: &str, text: impl AsRef<[u8]>) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("makes folders");
        fs::write(path, text).expect("writes");
    }

    /// Changes words of a file that stand there.
    pub fn change(&self, name: &str, old: &str, new: &str) {
        let text = self.text(name);
        assert!(text.contains(old), "`{old}` in `{name}`");
        self.put(name, text.replacen(old, new, 1));
    }

    /// All files and folders, hidden ones too.
    pub fn all(&self) -> Vec<String> {
        let mut found = Vec::new();
        walk(self.folder.path(), self.folder.path(), &mut |name, _| found.push(name));
        found.sort();
        found
    }

    /// All files in a folder, by path.
    pub fn files(&self, name: &str) -> BTreeMap<String, Vec<u8>> {
        let mut found = BTreeMap::new();
        walk(&self.path(name), &self.path(name), &mut |name, path| {
            if !path.is_dir() {
                found.insert(name, fs::read(path).expect("reads"));
            }
        });
        found
    }

    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(PROGRAM);
        command.args(arguments).current_dir(self.folder.path()).stdin(Stdio::null());
        command.env_remove("NO_COLOR").env_remove("CLICOLOR_FORCE").env_remove("FORCE_COLOR");
        command
    }

    pub fn run(&self, arguments: &[&str]) -> Ran {
        Ran::from(self.command(arguments).output().expect("runs"))
    }

    /// Runs what must succeed.
    pub fn done(&self, arguments: &[&str]) -> Ran {
        let ran = self.run(arguments);
        assert_eq!(ran.code, Some(0), "{arguments:?}: {}{}", ran.out, ran.err);
        ran
    }

    pub fn run_with_input(&self, arguments: &[&str], input: &[u8]) -> Ran {
        let mut command = self.command(arguments);
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().expect("starts");
        // A program that needs no more closes the pipe.
        _ = child.stdin.take().expect("a pipe").write_all(input);
        Ran::from(child.wait_with_output().expect("ends"))
    }
}

impl From<Output> for Ran {
    fn from(output: Output) -> Self {
        let text = |bytes| String::from_utf8(bytes).expect("text");
        let ran = Self { code: output.status.code(), out: text(output.stdout), err: text(output.stderr) };
        assert!(!ran.err.contains("panicked") && !ran.err.contains("os error"), "{}", ran.err);
        ran
    }
}

/// Visits all that lies in a folder and below, by its path from the root with forward slashes.
fn walk(root: &Path, folder: &Path, visit: &mut impl FnMut(String, &Path)) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        visit(path.strip_prefix(root).expect("within").display().to_string().replace('\\', "/"), &path);
        if path.is_dir() {
            walk(root, &path, visit);
        }
    }
}
