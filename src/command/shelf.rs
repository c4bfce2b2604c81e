//! The shared files of a project: those in its folder or below, and no others.

use std::fs::{self, File};
use std::io::{ErrorKind, Read};
use std::path::{Component, Path, PathBuf};

use piecewright::notation::source::MAX_SOURCE_BYTES;
use piecewright::{ReadFault, Shelf};

use super::{Trouble, reason};

/// The folder of a project.
#[derive(Debug)]
pub struct Folder {
    // Invariant: canonical.
    root: PathBuf,
}

impl Folder {
    /// The project's folder at this path.
    pub fn open(path: &Path) -> Result<Self, Trouble> {
        let fail = |why: &str| Trouble::new(format!("the project's folder `{}` cannot be used: {why}", path.display()));
        let root = fs::canonicalize(path).map_err(|error| match error.kind() {
            ErrorKind::NotFound => fail("there is none"),
            _ => fail(&reason(&error)),
        })?;
        if root.is_dir() { Ok(Self { root }) } else { Err(fail("it is a file")) }
    }

    /// The folder itself, without symbolic links.
    pub fn root(&self) -> &Path {
        &self.root
    }
}

impl Folder {
    /// The bytes of a file of the project, of at most so many bytes.
    fn bytes(&self, path: &str, most: usize) -> Result<Vec<u8>, ReadFault> {
        let outside = || ReadFault::Outside;
        // Before the file system is asked, so that nothing is learnt about files elsewhere: no root, no drive, no way up past the folder.
        let mut depth = 0_usize;
        for component in Path::new(path).components() {
            depth = match component {
                Component::Normal(_) => depth + 1,
                Component::CurDir => depth,
                Component::ParentDir => depth.checked_sub(1).ok_or_else(outside)?,
                Component::RootDir | Component::Prefix(_) => return Err(outside()),
            };
        }
        let other = |error: &std::io::Error| match error.kind() {
            ErrorKind::NotFound | ErrorKind::NotADirectory => ReadFault::NotFound,
            _ => ReadFault::Other(reason(error)),
        };
        // And after it, because a symbolic link may lead anywhere.
        let real = fs::canonicalize(self.root.join(path)).map_err(|error| other(&error))?;
        if !real.starts_with(&self.root) {
            return Err(outside());
        }
        // Not a pipe or a device, which might never end or never begin.
        if !fs::metadata(&real).map_err(|error| other(&error))?.is_file() {
            return Err(ReadFault::Other(String::from("it is not a file")));
        }
        let mut bytes = Vec::new();
        let read = File::open(&real).and_then(|file| file.take(most as u64 + 1).read_to_end(&mut bytes));
        read.map_err(|error| other(&error))?;
        if bytes.len() > most { Err(ReadFault::TooLarge) } else { Ok(bytes) }
    }
}

impl Shelf for Folder {
    fn read(&self, path: &str) -> Result<String, ReadFault> {
        String::from_utf8(self.bytes(path, MAX_SOURCE_BYTES)?).map_err(|_| ReadFault::NotText)
    }

    fn read_bytes(&self, path: &str, most: usize) -> Result<Vec<u8>, ReadFault> {
        self.bytes(path, most)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_of_the_project_are_read_and_no_others() {
        let around = tempfile::tempdir().expect("a folder");
        let project = around.path().join("harbour");
        fs::create_dir_all(project.join("shared")).expect("makes folders");
        fs::write(project.join("shared/palette.piece"), "fabric").expect("writes");
        fs::write(around.path().join("secret.piece"), "secret").expect("writes");
        fs::write(project.join("gull.png"), [0xff, 0xfe]).expect("writes");
        let shelf = Folder::open(&project).expect("opens");
        assert_eq!(shelf.read("shared/palette.piece"), Ok("fabric".into()));
        assert_eq!(shelf.read("shared/../shared/palette.piece"), Ok("fabric".into()));
        assert_eq!(shelf.read("none.piece"), Err(ReadFault::NotFound));
        assert_eq!(shelf.read("gull.png"), Err(ReadFault::NotText));
        assert_eq!(shelf.read_bytes("gull.png", 2), Ok(vec![0xff, 0xfe]));
        assert_eq!(shelf.read_bytes("gull.png", 1), Err(ReadFault::TooLarge));
        assert_eq!(shelf.read_bytes("../secret.piece", 9), Err(ReadFault::Outside));
        let outside = Err(ReadFault::Outside);
        assert_eq!(shelf.read("../secret.piece"), outside);
        assert_eq!(shelf.read("../harbour/shared/palette.piece"), outside);
        assert_eq!(shelf.read(&around.path().join("secret.piece").display().to_string()), outside);
        assert!(matches!(shelf.read("shared"), Err(ReadFault::Other(_))));
        #[cfg(unix)]
        {
            std::os::unix::fs::symlink("../secret.piece", project.join("link.piece")).expect("links");
            assert_eq!(shelf.read("link.piece"), outside);
        }
    }
}
