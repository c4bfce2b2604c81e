//! How a source is written anew: whole or not at all.

use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use super::super::{Trouble, reason};

/// How many names are tried for the file beside a source.
const TRIES: u32 = 100;

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
