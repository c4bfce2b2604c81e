//! Which sources the command line means when it names folders.

use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::input::is_standard;
use super::{Trouble, reason};

/// What the name of a source ends in.
pub const ENDING: &str = "piece";

/// All sources that the arguments name, each once, in the order of the arguments and by name within folders.
///
/// Folders are searched for `*.piece`; those whose names start with a dot are left out, and links to folders are not followed. What cannot be searched
/// is told to `complain`.
pub fn all(arguments: &[PathBuf], complain: &mut dyn FnMut(Trouble)) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for path in arguments {
        if is_standard(path) || !path.is_dir() {
            found.push(path.clone());
        } else {
            search(path, &mut found, complain);
        }
    }
    let mut seen = BTreeSet::new();
    // A file that is not there is told of when it is read.
    found.retain(|path| seen.insert(fs::canonicalize(path).unwrap_or_else(|_| path.clone())));
    found
}

/// Adds the sources in a folder and below, in order.
pub fn search(folder: &Path, found: &mut Vec<PathBuf>, complain: &mut dyn FnMut(Trouble)) {
    let entries = fs::read_dir(folder).and_then(Iterator::collect::<io::Result<Vec<_>>>);
    let entries = match entries {
        Ok(entries) => entries,
        Err(error) => {
            complain(Trouble::new(format!("the folder `{}` cannot be read: {}", folder.display(), reason(&error))));
            return;
        }
    };
    let mut entries: Vec<_> = entries.iter().map(|entry| (entry.path(), entry.file_type())).collect();
    entries.sort_by(|(a, _), (b, _)| a.cmp(b));
    for (path, kind) in entries {
        let hidden = path.file_name().is_none_or(|name| name.to_string_lossy().starts_with('.'));
        // Of a link, what it leads to is asked; a link to a folder might lead back here.
        let is_folder = kind.is_ok_and(|kind| kind.is_dir());
        if is_folder && !hidden {
            search(&path, found, complain);
        } else if path.extension().is_some_and(|ending| ending == ENDING) && path.is_file() {
            found.push(path);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folders_are_searched_in_order_and_nothing_twice() {
        let desk = tempfile::tempdir().expect("a folder");
        for name in ["b.piece", "a/z.piece", "a/.hidden/no.piece", ".git/no.piece", "a/notes.txt", "c.piece/in.piece"] {
            let path = desk.path().join(name);
            fs::create_dir_all(path.parent().expect("a parent")).expect("makes folders");
            fs::write(path, "pattern \"A\"\n").expect("writes");
        }
        let mut troubles = 0;
        let named = [desk.path().join("b.piece"), desk.path().to_path_buf(), desk.path().join("none.piece")];
        let found = all(&named, &mut |_| troubles += 1);
        let found: Vec<_> = found.iter().map(|path| path.strip_prefix(desk.path()).expect("within")).collect();
        assert_eq!(found, ["b.piece", "a/z.piece", "c.piece/in.piece", "none.piece"].map(Path::new));
        assert_eq!(troubles, 0);
    }
}
