//! The line in `.gitattributes` that says how patterns are compared.

use std::fs;
use std::io::ErrorKind;
use std::path::Path;

use super::super::repository::Repository;
use super::super::{Trouble, reason, start};
use super::Done;

/// The file at the repository's root.
const FILE: &str = ".gitattributes";
/// What is written: a line that says whose it is, and the attribute.
const OWN: [&str; 2] =
    ["# Written by `piecewright git install`; `piecewright git remove` takes it out.", "*.piece diff=piecewright"];

/// Writes the attribute, unless patterns have it already.
pub fn add(repository: &Repository, top: &Path) -> Result<Done, Trouble> {
    let told = repository.ask(&["check-attr", "-z", "diff", "--", "pattern.piece"])?;
    let value = told.split(|&byte| byte == 0).nth(2).unwrap_or_default();
    match value {
        b"piecewright" => return Ok(Done::Nothing),
        b"unspecified" | b"" => {}
        other => {
            let other = String::from_utf8_lossy(other);
            return Ok(Done::Left(
                Trouble::new(format!(
                    "`*.piece` has the attribute `diff` already, with the value `{other}`, and keeps it"
                ))
                .with_help(format!("to have patterns compared as patterns, make it `{}`", OWN[1])),
            ));
        }
    }
    let path = top.join(FILE);
    if fs::symlink_metadata(&path).is_ok_and(|data| data.is_symlink()) {
        return Ok(Done::Left(
            Trouble::new(format!("`{FILE}` is a symbolic link, and git follows none there"))
                .with_help(format!("put a file in its place, with the line `{}`", OWN[1])),
        ));
    }
    let before = read(&path)?;
    start::replace(&path, with_own(&before)).map_err(|error| unwritable(&error))?;
    Ok(Done::Told(format!("wrote {FILE}: {}", OWN[1])))
}

/// Takes the attribute out where it was written by [`add`]; a file with nothing else in it goes with it.
pub fn take_out(top: &Path) -> Result<Done, Trouble> {
    let path = top.join(FILE);
    let before = read(&path)?;
    let Some(after) = without_own(&before) else { return Ok(Done::Nothing) };
    let written = if after.is_empty() { fs::remove_file(&path) } else { start::replace(&path, &after) };
    written.map_err(|error| unwritable(&error))?;
    Ok(Done::Told(format!("took `{}` out of {FILE}", OWN[1])))
}

fn read(path: &Path) -> Result<Vec<u8>, Trouble> {
    match fs::read(path) {
        Ok(bytes) => Ok(bytes),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(Vec::new()),
        Err(error) => Err(Trouble::new(format!("`{FILE}` cannot be read: {}", reason(&error)))),
    }
}

fn unwritable(error: &std::io::Error) -> Trouble {
    Trouble::new(format!("`{FILE}` cannot be written: {}", reason(error)))
}

/// The lines of a file with the own ones after them. Where the last line has no end it stays so, so that it can be restored.
fn with_own(before: &[u8]) -> Vec<u8> {
    let end = if before.windows(2).any(|pair| pair == b"\r\n") { "\r\n" } else { "\n" };
    let own = OWN.join(end);
    let added =
        if before.is_empty() || before.ends_with(b"\n") { format!("{own}{end}") } else { format!("{end}{own}") };
    [before, added.as_bytes()].concat()
}

/// The file without the own lines; nothing where they are not there, one right after the other.
fn without_own(before: &[u8]) -> Option<Vec<u8>> {
    let lines: Vec<&[u8]> = before.split_inclusive(|&byte| byte == b'\n').collect();
    let bare = |line: &&[u8]| line.trim_ascii_end() == OWN[0].as_bytes();
    let at = (0..lines.len()).find(|&at| {
        lines.get(at).is_some_and(bare)
            && lines.get(at + 1).is_some_and(|line| line.trim_ascii_end() == OWN[1].as_bytes())
    })?;
    let (above, below) = (lines.get(..at)?.concat(), lines.get(at + 2..)?.concat());
    let ended = lines.get(at + 1).is_some_and(|line| line.ends_with(b"\n"));
    let above = if ended {
        above
    } else {
        let above = above.strip_suffix(b"\n").unwrap_or(&above);
        above.strip_suffix(b"\r").unwrap_or(above).to_vec()
    };
    Some([above, below].concat())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_there_is_restored_to_the_byte() {
        let files: [&[u8]; 7] = [b"", b"*.png binary\n", b"*.png binary", b"a\r\nb\r\n", b"a\r\nb", b"\xff\n\n", b"\n"];
        for before in files {
            let after = with_own(before);
            assert!(after.starts_with(before));
            assert_eq!(without_own(&after).as_deref(), Some(before));
            let more = [&after, b"\n*.svg text\n".as_slice()].concat();
            assert!(without_own(&more).is_some_and(|rest| rest.ends_with(b"*.svg text\n")));
        }
        assert_eq!(without_own(b"*.piece diff=piecewright\n"), None);
        assert_eq!(without_own(OWN[0].as_bytes()), None);
    }
}
