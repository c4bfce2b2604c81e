//! The shared files of a state: those in the project's folder or below, as they were at that time.

use std::rc::Rc;

use piecewright::notation::source::MAX_SOURCE_BYTES;
use piecewright::{ReadFault, Shelf};

use super::{Kind, Listing, Repository, normalised};

/// A project's folder in a state of the repository.
#[derive(Debug, Clone)]
pub struct Shelved {
    repository: Rc<Repository>,
    files: Rc<Listing>,
    // The project's folder, from where the files are listed from.
    folder: String,
}

impl Shelved {
    /// The files of a listing that lie in this folder of it.
    pub fn new(repository: &Rc<Repository>, files: &Rc<Listing>, folder: &str) -> Self {
        Self { repository: Rc::clone(repository), files: Rc::clone(files), folder: folder.to_owned() }
    }

    /// The path from where the files are listed from; nothing where it leads out of the project's folder.
    pub fn path(&self, path: &str) -> Option<String> {
        let within = normalised("", path).filter(|within| !within.is_empty() && !path.starts_with('/'))?;
        Some(if self.folder.is_empty() { within } else { format!("{}/{within}", self.folder) })
    }

    fn bytes(&self, path: &str, most: usize) -> Result<Vec<u8>, ReadFault> {
        let path = self.path(path).ok_or(ReadFault::Outside)?;
        let Some(entry) = self.files.get(&path) else {
            return Err(self.missing(&path));
        };
        let other = |why: &str| Err(ReadFault::Other(why.to_owned()));
        match entry.kind {
            Kind::File => {
                let bytes = self.repository.bytes(entry, most).map_err(|trouble| ReadFault::Other(trouble.message))?;
                if bytes.len() > most { Err(ReadFault::TooLarge) } else { Ok(bytes) }
            }
            Kind::Link => other("it is a symbolic link, and these are not followed in a revision"),
            Kind::Submodule | Kind::Folder => other("it is not a file"),
            Kind::Unmerged => other("its merge is not finished"),
        }
    }

    /// Why there is no file: the way to it may lead over a link or into another repository.
    fn missing(&self, path: &str) -> ReadFault {
        let mut folder = path;
        while let Some((above, _)) = folder.rsplit_once('/') {
            folder = above;
            match self.files.get(folder).map(|entry| entry.kind) {
                Some(Kind::Link) => return ReadFault::Other(format!("`{folder}` is a symbolic link")),
                Some(Kind::Submodule) => return ReadFault::Other(format!("`{folder}` is a submodule")),
                _ => {}
            }
        }
        ReadFault::NotFound
    }
}

impl Shelf for Shelved {
    fn read(&self, path: &str) -> Result<String, ReadFault> {
        String::from_utf8(self.bytes(path, MAX_SOURCE_BYTES)?).map_err(|_| ReadFault::NotText)
    }

    fn read_bytes(&self, path: &str, most: usize) -> Result<Vec<u8>, ReadFault> {
        self.bytes(path, most)
    }
}
