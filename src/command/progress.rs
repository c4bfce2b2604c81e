//! A line that says what long work is doing; only for a person, only after a second, gone at the end.

use std::io::{self, Write};
use std::sync::{Arc, Condvar, Mutex, PoisonError};
use std::thread::{self, JoinHandle};
use std::time::Duration;

/// How long work may take unnoticed, and how often the line is written anew.
const PATIENCE: Duration = Duration::from_secs(1);
const REFRESH: Duration = Duration::from_millis(100);

#[derive(Debug, Default)]
struct State {
    doing: String,
    done: bool,
}

/// The line, as long as it lives.
#[derive(Debug)]
pub struct Progress {
    shared: Arc<(Mutex<State>, Condvar)>,
    writer: Option<JoinHandle<()>>,
}

impl Progress {
    /// Starts to wait, if `visible`; otherwise does nothing at all.
    pub fn start(visible: bool) -> Self {
        let shared = Arc::<(Mutex<State>, Condvar)>::default();
        let seen = Arc::clone(&shared);
        // Work that hangs in one step says nothing by itself: so the line is written beside it.
        let writer = visible.then(|| thread::Builder::new().spawn(move || write(&seen.0, &seen.1)).ok()).flatten();
        Self { shared, writer }
    }

    /// Says what is being done now.
    pub fn doing(&self, what: &str) {
        let mut state = self.shared.0.lock().unwrap_or_else(PoisonError::into_inner);
        what.clone_into(&mut state.doing);
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.shared.0.lock().unwrap_or_else(PoisonError::into_inner).done = true;
        self.shared.1.notify_all();
        if let Some(writer) = self.writer.take() {
            _ = writer.join();
        }
    }
}

fn write(state: &Mutex<State>, woken: &Condvar) {
    let mut state = state.lock().unwrap_or_else(PoisonError::into_inner);
    let mut written = String::new();
    let mut pause = PATIENCE;
    while !state.done {
        let (next, waited) = woken.wait_timeout(state, pause).unwrap_or_else(PoisonError::into_inner);
        state = next;
        if waited.timed_out() && !state.done {
            pause = REFRESH;
            if state.doing != written {
                written.clone_from(&state.doing);
                print(&format!("{written} …"));
            }
        }
    }
    if !written.is_empty() {
        print("");
    }
}

/// Puts a text in place of the line that stands there.
fn print(text: &str) {
    _ = write!(io::stderr().lock(), "\r\u{1b}[2K{text}");
}
