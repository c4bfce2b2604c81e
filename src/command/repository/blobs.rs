//! What files hold, asked for by number: one run of git answers for all of them.

use std::cell::RefCell;
use std::io::{self, BufRead, BufReader, Read, Write};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

use super::super::Trouble;
use super::{is_id, not_run};

/// How long the line before the bytes may be.
const LONGEST_HEAD: u64 = 256;

/// The objects of a repository.
#[derive(Debug, Default)]
pub struct Blobs {
    // Nothing before the first question, and after one whose answer was not heard to its end.
    talk: RefCell<Option<Talk>>,
}

/// A git that waits for the next question.
#[derive(Debug)]
struct Talk {
    child: Child,
    to: ChildStdin,
    from: BufReader<ChildStdout>,
}

impl Blobs {
    /// The bytes of an object, at most one more than `most`. `start` is the git to ask where none waits.
    pub fn read(&self, start: impl Fn() -> Command, id: &str, most: usize) -> Result<Vec<u8>, Trouble> {
        let unreadable = |why: &str| {
            Trouble::new(format!("git cannot read the object {id}: {why}"))
                .with_help("is the clone whole? `git fsck` tells what is missing")
        };
        if !is_id(id) {
            return Err(unreadable("it has no number"));
        }
        let mut talk = match self.talk.borrow_mut().take() {
            Some(talk) => talk,
            None => Talk::new(start())?,
        };
        let bytes = talk.bytes(id, most).map_err(|error| unreadable(&super::reason(&error)))?;
        let Some((bytes, is_whole)) = bytes else { return Err(unreadable("there is none")) };
        if is_whole {
            *self.talk.borrow_mut() = Some(talk);
        }
        Ok(bytes)
    }
}

impl Talk {
    fn new(mut command: Command) -> Result<Self, Trouble> {
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::null());
        let mut child = command.spawn().map_err(|error| not_run(&error))?;
        match (child.stdin.take(), child.stdout.take()) {
            (Some(to), Some(from)) => Ok(Self { child, to, from: BufReader::new(from) }),
            _ => Err(Trouble::new("git cannot be spoken to")),
        }
    }

    /// The bytes of an object and whether they are all; nothing where there is no such object.
    fn bytes(&mut self, id: &str, most: usize) -> io::Result<Option<(Vec<u8>, bool)>> {
        writeln!(self.to, "{id}")?;
        self.to.flush()?;
        let mut head = String::new();
        (&mut self.from).take(LONGEST_HEAD).read_line(&mut head)?;
        let Some(size) = head.trim_end().rsplit(' ').next().and_then(|size| size.parse::<u64>().ok()) else {
            return Ok(None);
        };
        let wanted = size.min(most as u64 + 1);
        let mut bytes = Vec::new();
        (&mut self.from).take(wanted).read_to_end(&mut bytes)?;
        if bytes.len() as u64 != wanted {
            return Err(io::ErrorKind::UnexpectedEof.into());
        }
        let is_whole = wanted == size;
        if is_whole {
            // The line end behind the bytes.
            self.from.read_exact(&mut [0])?;
        }
        Ok(Some((bytes, is_whole)))
    }
}

impl Drop for Talk {
    fn drop(&mut self) {
        // It may be in the midst of an answer that nobody wants to hear.
        _ = self.child.kill();
        _ = self.child.wait();
    }
}
