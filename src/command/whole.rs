//! Single files written whole or not at all: beside their place first, then renamed.

use std::fs::{self, File};
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};

use super::{Trouble, reason};

/// What the name of a file ends in while it is written.
const UNFINISHED: &str = "piecewright";

/// Puts bytes in the place of a file, or makes it.
pub fn write(path: &Path, bytes: &[u8]) -> Result<(), Trouble> {
    let fail = |error: &std::io::Error| match error.kind() {
        ErrorKind::NotFound => {
            Trouble::new(format!("there is no folder `{}`", path.parent().unwrap_or(path).display()))
        }
        _ => Trouble::new(format!("`{}` cannot be written: {}", path.display(), reason(error))),
    };
    if path.is_dir() {
        return Err(Trouble::new(format!("`{}` is a folder, not the name of a file", path.display())));
    }
    // Of a link, the file that it leads to.
    let real = fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
    let mut beside = real.as_os_str().to_owned();
    beside.push(format!(".{}.{UNFINISHED}", std::process::id()));
    let beside = PathBuf::from(beside);
    let written = File::create_new(&beside).and_then(|mut file| file.write_all(bytes).and_then(|()| file.sync_all()));
    let renamed = written.and_then(|()| fs::rename(&beside, &real));
    if renamed.is_err() {
        _ = fs::remove_file(&beside);
    }
    renamed.map_err(|error| fail(&error))
}
