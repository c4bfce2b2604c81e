//! Which sources are laid out, and how each is written: whole or not at all.

use std::collections::BTreeSet;
use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use super::super::input::is_standard;
use super::super::{Trouble, reason};

/// How many names are tried for the file beside a source.
const TRIES: u32 = 100;

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

/// Adds the sources in a folder and below.
fn search(folder: &Path, found: &mut Vec<PathBuf>, complain: &mut dyn FnMut(Trouble)) {
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
        } else if path.extension().is_some_and(|ending| ending == "piece") && path.is_file() {
            found.push(path);
        }
    }
}

/// Puts a text in the place of a file: written beside it first, with its permissions, then renamed. Of a link, the file that it leads to.
pub fn write(path: &Path, text: &str) -> Result<(), Trouble> {
    let fail = |error: &io::Error| Trouble::new(format!("`{}` cannot be written: {}", path.display(), reason(error)));
    let real = fs::canonicalize(path).map_err(|error| fail(&error))?;
    let permissions = fs::metadata(&real).map_err(|error| fail(&error))?.permissions();
    if permissions.readonly() {
        return Err(Trouble::new(format!("`{}` may only be read", path.display()))
            .with_help("allow it to be written, or see what would change with `--diff`"));
    }
    let (beside, file) = create_beside(&real).map_err(|error| fail(&error))?;
    let written = fill(file, text, permissions).and_then(|()| fs::rename(&beside, &real));
    if written.is_err() {
        _ = fs::remove_file(&beside);
    }
    written.map_err(|error| fail(&error))
}

/// A new file in the folder of another, under a name that nothing has.
fn create_beside(real: &Path) -> io::Result<(PathBuf, File)> {
    let name = real.file_name().unwrap_or_default();
    let mut taken = io::Error::from(ErrorKind::AlreadyExists);
    for number in 0..TRIES {
        let mut beside = std::ffi::OsString::from(".");
        beside.push(name);
        beside.push(format!(".{}-{number}", std::process::id()));
        let beside = real.with_file_name(beside);
        match OpenOptions::new().write(true).create_new(true).open(&beside) {
            Ok(file) => return Ok((beside, file)),
            Err(error) if error.kind() == ErrorKind::AlreadyExists => taken = error,
            Err(error) => return Err(error),
        }
    }
    Err(taken)
}

fn fill(mut file: File, text: &str, permissions: fs::Permissions) -> io::Result<()> {
    file.set_permissions(permissions)?;
    file.write_all(text.as_bytes())?;
    file.sync_all()
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

    #[test]
    fn what_lies_beside_is_never_written_over() {
        let desk = tempfile::tempdir().expect("a folder");
        let source = desk.path().join("gull.piece");
        fs::write(&source, "old").expect("writes");
        let (first, _) = create_beside(&source).expect("creates");
        let (second, _) = create_beside(&source).expect("creates");
        assert_ne!(first, second);
        write(&source, "new").expect("writes");
        assert_eq!(fs::read_to_string(&source).expect("reads"), "new");
        assert_eq!(fs::read_dir(desk.path()).expect("a folder").count(), 3);
    }
}
