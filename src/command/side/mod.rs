//! The sides of a comparison: what OLD and NEW of a command line name.
//!
//! A path that is there is read from the disk ([`disk`]): a file, `-`, or a folder with all patterns in it and below. What is no path is read through
//! git ([`revision`]): `HEAD~1:patterns/gull.piece`, `v1:patterns`, `HEAD:` for all, `:gull.piece` as it is staged.

mod disk;
pub mod revision;

use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use piecewright::{ReadFault, Shelf};

use super::Trouble;
use super::input::{self, Content};
use piecewright::release::is_pattern;

/// git's word for what is not there.
pub const NOTHING: &str = "/dev/null";

/// One source of a side, ready to be compiled.
pub struct Side {
    /// Its path within the named folder, with forward slashes; of a single source, its file's name. By it the two sides are matched.
    pub key: String,
    /// What faults call it: `HEAD~1:patterns/gull.piece`.
    pub name: String,
    /// What was read.
    pub content: Content,
    /// The project's folder, as faults name it.
    pub folder: PathBuf,
    /// The shared files of the project, of the same time as the source.
    pub shelf: Box<dyn Shelf>,
}

/// What an argument names.
pub enum Named {
    /// A single source.
    One(Side),
    /// All patterns of a folder and below, in order of their keys. Links and other repositories in it are left out.
    Folder(Vec<Side>),
}

/// Reads what an argument names. `project` is the folder that `use` lines start from instead of the source's own; in a revision, the same folder as it was then.
pub fn read(argument: &str, project: Option<&Path>) -> Result<Named, Trouble> {
    let path = Path::new(argument);
    if argument == NOTHING {
        return Ok(Named::Folder(Vec::new()));
    }
    let is_there = match fs::symlink_metadata(path) {
        Ok(_) => true,
        // Why it cannot be read is told by who tries.
        Err(error) => error.kind() == ErrorKind::PermissionDenied,
    };
    if input::is_standard(path) || is_there { disk::read(path, project) } else { revision::read(argument, project) }
}

impl Side {
    /// Whether it is to be compared: a pattern, or what cannot be read so that nobody knows.
    fn is_pattern(&self) -> bool {
        match &self.content {
            Content::Text(text) => is_pattern(text),
            Content::Unfit(..) => true,
        }
    }
}

/// A shelf without files.
pub struct Bare;

impl Shelf for Bare {
    fn read(&self, _: &str) -> Result<String, ReadFault> {
        Err(ReadFault::NotFound)
    }
}

/// Whether a path from the named folder leads through one that is hidden.
fn is_hidden(key: &str) -> bool {
    key.rsplit_once('/').is_some_and(|(folders, _)| folders.split('/').any(|folder| folder.starts_with('.')))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_hidden_is_told_by_its_folders() {
        assert!(is_hidden(".drafts/gull.piece") && is_hidden("a/.b/gull.piece"));
        assert!(!is_hidden(".gull.piece") && !is_hidden("a/gull.piece"));
    }

    #[test]
    fn nothing_is_an_empty_folder() {
        assert!(matches!(read(NOTHING, None), Ok(Named::Folder(sides)) if sides.is_empty()));
    }
}
