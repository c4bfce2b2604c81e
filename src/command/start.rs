//! `piecewright new`: a small pattern to start from.

use std::fs::{self, OpenOptions};
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};

use super::arguments::New;
use super::input::is_standard;
use super::voice::Voice;
use super::{Outcome, Trouble, reason};

/// The pattern, with the title that is replaced.
const PATTERN: &str = include_str!("start.piece");
const TITLE: &str = "Harbour Light";

/// Writes the pattern; never over a file that is there, unless by force.
pub fn run(asked: &New, voice: &mut Voice) -> Result<Outcome, Trouble> {
    if is_standard(&asked.file) {
        voice.say(PATTERN);
        return Ok(Outcome::Fine);
    }
    let path = with_ending(&asked.file)?;
    let name = path.display();
    let text = PATTERN.replacen(TITLE, &title(&path), 1);
    let fail = |error: &std::io::Error| match error.kind() {
        ErrorKind::AlreadyExists => Trouble::new(format!("`{name}` is there already"))
            .with_help("choose another name, or write over it with `--force`"),
        ErrorKind::NotFound => {
            Trouble::new(format!("there is no folder `{}`", path.parent().unwrap_or(&path).display()))
        }
        _ => Trouble::new(format!("`{name}` cannot be written: {}", reason(error))),
    };
    if asked.force && fs::symlink_metadata(&path).is_ok() {
        replace(&path, &text).map_err(|error| fail(&error))?;
    } else {
        let write = |mut file: fs::File| file.write_all(text.as_bytes());
        OpenOptions::new().write(true).create_new(true).open(&path).and_then(write).map_err(|error| fail(&error))?;
    }
    voice.say(&format!("wrote {name}\nlook at it in a text editor, then try: piecewright build {name}\n"));
    Ok(Outcome::Fine)
}

/// Writes beside the file and renames, so that a full disk costs nothing.
pub(super) fn replace(path: &Path, text: impl AsRef<[u8]>) -> std::io::Result<()> {
    let mut beside = path.as_os_str().to_owned();
    beside.push(".piecewright");
    let written = fs::write(&beside, text).and_then(|()| fs::rename(&beside, path));
    if written.is_err() {
        _ = fs::remove_file(&beside);
    }
    written
}

/// The path with `.piece` at its end.
fn with_ending(path: &Path) -> Result<PathBuf, Trouble> {
    match path.extension() {
        _ if path.file_name().is_none() => Err(Trouble::new(format!("`{}` is not the name of a file", path.display()))),
        None => Ok(path.with_extension("piece")),
        Some(ending) if ending == "piece" => Ok(path.to_path_buf()),
        Some(_) => Err(Trouble::new(format!("`{}` does not end in `.piece`", path.display()))
            .with_help(format!("try `{}`", path.with_extension("piece").display()))),
    }
}

/// The title that a file's name suggests: `storm-lantern.piece` gives `Storm Lantern`.
fn title(path: &Path) -> String {
    let stem = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let words = stem.split(|letter: char| !letter.is_alphanumeric() && letter != '\'').filter(|word| !word.is_empty());
    let words = words.map(|word| {
        let mut letters = word.chars();
        letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
    });
    let title = words.collect::<Vec<_>>().join(" ");
    if title.is_empty() { TITLE.into() } else { title }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn titles_are_read_off_names() {
        assert_eq!(title(Path::new("sea/storm-lantern.piece")), "Storm Lantern");
        assert_eq!(title(Path::new("möwe_2.piece")), "Möwe 2");
        assert_eq!(title(Path::new("\"\\\n.piece")), TITLE);
        assert_eq!(PATTERN.matches(TITLE).count(), 1);
    }

    #[test]
    fn the_ending_is_added_but_not_changed() {
        assert_eq!(with_ending(Path::new("gull")).ok(), Some(PathBuf::from("gull.piece")));
        assert!(with_ending(Path::new("gull.txt")).is_err());
        assert!(with_ending(Path::new("..")).is_err());
    }
}
