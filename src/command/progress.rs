//! A line that says what long work is doing; only for a person, only after a second, gone at the end.

use std::io::{self, Write};
use std::sync::{Arc, Condvar, Mutex, PoisonError};
use std::thread::{self, JoinHandle};
use std::time::Duration;

/// How long work may take unnoticed, and how often the line is written anew.
const PATIENCE: Duration = Duration::from_secs(1);
const REFRESH: Duration = Duration::from_millis(100);
/// Back to the start of the line, and the line emptied.
const ERASE: &str = "\r\u{1b}[2K";

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
        let writer = visible
            .then(|| thread::Builder::new().spawn(move || write(&seen.0, &seen.1, PATIENCE, &mut io::stderr())).ok())
            .flatten();
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

/// Writes what is being done to `screen`, from `pause` on until all is done.
fn write(state: &Mutex<State>, woken: &Condvar, mut pause: Duration, screen: &mut impl Write) {
    let mut state = state.lock().unwrap_or_else(PoisonError::into_inner);
    let mut written = String::new();
    while !state.done {
        let (next, waited) = woken.wait_timeout(state, pause).unwrap_or_else(PoisonError::into_inner);
        state = next;
        if waited.timed_out() && !state.done {
            pause = REFRESH;
            if state.doing != written {
                written.clone_from(&state.doing);
                _ = write!(screen, "{ERASE}{written} …").and_then(|()| screen.flush());
            }
        }
    }
    if !written.is_empty() {
        _ = write!(screen, "{ERASE}").and_then(|()| screen.flush());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Runs the writer with this patience over work of 300 ms, and gives what a person would have been sent.
    fn watched(patience: Duration) -> String {
        let shared = Arc::<(Mutex<State>, Condvar)>::default();
        let progress = Progress { shared: Arc::clone(&shared), writer: None };
        progress.doing("cutting");
        let writer = thread::spawn(move || {
            let mut screen = Vec::new();
            write(&shared.0, &shared.1, patience, &mut screen);
            String::from_utf8(screen).expect("text")
        });
        thread::sleep(Duration::from_millis(300));
        drop(progress);
        writer.join().expect("ends")
    }

    #[test]
    fn long_work_is_told_and_the_line_erased() {
        assert_eq!(watched(Duration::from_millis(1)), "\r\u{1b}[2Kcutting …\r\u{1b}[2K");
    }

    #[test]
    fn short_work_goes_unnoticed() {
        assert_eq!(watched(Duration::from_mins(1)), "");
    }
}
