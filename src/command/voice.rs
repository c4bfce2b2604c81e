//! The only place that prints. A reader who has closed the pipe (`piecewright check … | head`) is not told more, and nothing breaks.

use std::io::{self, ErrorKind, IsTerminal, Write};

use super::arguments::Colour;
use super::{Outcome, Trouble, reason};

/// Standard output and standard error.
#[derive(Debug, Default)]
pub struct Voice {
    // Set once standard output has failed; nothing is said from then on.
    silenced: Option<io::Error>,
    // Whether standard error has failed: nobody is left to tell.
    unheard: bool,
}

impl Voice {
    /// Writes to standard output.
    pub fn say(&mut self, text: &str) {
        if self.silenced.is_none() && !text.is_empty() {
            let mut out = io::stdout().lock();
            self.silenced = out.write_all(text.as_bytes()).and_then(|()| out.flush()).err();
        }
    }

    /// Writes to standard error.
    pub fn tell(&mut self, text: &str) {
        self.unheard = self.unheard || io::stderr().lock().write_all(text.as_bytes()).is_err();
    }

    /// Says why the tool could not do its work.
    pub fn complain(&mut self, trouble: &Trouble) {
        let help = trouble.help.as_ref().map(|help| format!("  help: {help}\n")).unwrap_or_default();
        self.tell(&format!("piecewright: {}\n{help}", trouble.message));
    }

    /// The outcome of the run, once all is said: a closed pipe changes nothing, a full disk does.
    pub fn finish(mut self, outcome: Outcome) -> Outcome {
        match self.silenced.take() {
            Some(error) if error.kind() != ErrorKind::BrokenPipe => {
                self.complain(&Trouble::new(format!("standard output cannot be written: {}", reason(&error))));
                Outcome::Trouble
            }
            _ => outcome,
        }
    }
}

/// One of the two streams, and what it can show.
#[derive(Debug, Clone, Copy)]
pub struct Screen {
    /// Whether a person looks at it.
    pub terminal: bool,
    /// Whether to use colours.
    pub colour: bool,
}

impl Screen {
    /// Standard output.
    pub fn output(colour: Colour) -> Self {
        Self::new(io::stdout().is_terminal(), colour)
    }

    /// Standard error.
    pub fn error(colour: Colour) -> Self {
        Self::new(io::stderr().is_terminal(), colour)
    }

    fn new(terminal: bool, colour: Colour) -> Self {
        let colour = match colour {
            Colour::Always => true,
            Colour::Never => false,
            Colour::Auto => {
                let set = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty());
                terminal && set("NO_COLOR").is_none() && set("TERM").is_none_or(|term| term != "dumb")
            }
        };
        Self { terminal, colour }
    }
}
