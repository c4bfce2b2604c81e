//! Reading a source: with a cap, as UTF-8, not empty.

use piecewright::packet::sheets::Former;
use std::fs::File;
use std::io::{self, ErrorKind, Read};
use std::path::{Path, PathBuf};

use piecewright::fault::{Fault, files};
use piecewright::notation::source::{MAX_SOURCE_BYTES, SourceText, Sources, Span};

use super::{Trouble, reason};

/// A source as the command line named it.
#[derive(Debug)]
pub struct Input {
    /// The name by which faults call it.
    pub name: String,
    /// What was read.
    pub content: Content,
    /// The folder that its `use` lines start from unless `--project` says otherwise.
    pub folder: PathBuf,
}

/// What was read.
#[derive(Debug)]
pub enum Content {
    /// A text to compile.
    Text(String),
    /// What cannot be compiled, and why.
    Unfit(Sources, Fault),
}

/// Whether the command line means standard input.
pub fn is_standard(path: &Path) -> bool {
    path.as_os_str() == "-"
}

/// Reads the source at this path, or standard input for `-`.
pub fn read(path: &Path) -> Result<Input, Trouble> {
    let (name, folder, bytes) = if is_standard(path) {
        let bytes = capped(io::stdin().lock())
            .map_err(|error| Trouble::new(format!("standard input cannot be read: {}", reason(&error))))?;
        (String::from("standard input"), PathBuf::from("."), bytes)
    } else {
        let name = path.display().to_string();
        let bytes = File::open(path).and_then(capped).map_err(|error| match error.kind() {
            ErrorKind::NotFound => Trouble::new(format!("there is no file `{name}`"))
                .with_help("is it in another folder? `piecewright new NAME.piece` writes a source to start from"),
            _ if path.is_dir() => Trouble::new(format!("`{name}` is a folder, not a source"))
                .with_help("name the source in it, such as `gull.piece`"),
            _ => Trouble::new(format!("`{name}` cannot be read: {}", reason(&error))),
        })?;
        (name, folder_of(path), bytes)
    };
    let content = content(&name, bytes);
    Ok(Input { name, content, folder })
}

/// Reads the file of the cloth that a sewer has.
pub fn stash(path: &Path) -> Result<String, Trouble> {
    let name = path.display();
    let bytes = File::open(path).and_then(capped).map_err(|error| match error.kind() {
        ErrorKind::NotFound => Trouble::new(format!("there is no file `{name}` of the cloth that you have"))
            .with_help("write a file with lines such as `have 1/2 yd night`, and name it behind `--stash`"),
        _ => Trouble::new(format!("the cloth that you have cannot be read from `{name}`: {}", reason(&error))),
    })?;
    String::from_utf8(bytes).map_err(|_| {
        Trouble::new(format!("`{name}` is no text in UTF-8"))
            .with_help("save it from a text editor as plain text, in UTF-8")
    })
}

/// The largest `model.json` that is read, in bytes.
const LARGEST_MODEL: u64 = 1 << 28;

/// Reads the sheets of a packet that was built before.
pub fn former(folder: &Path) -> Result<Former, Trouble> {
    let path = folder.join("model.json");
    let name = folder.display();
    let mut text = String::new();
    let read = File::open(&path).and_then(|file| file.take(LARGEST_MODEL).read_to_string(&mut text));
    read.map_err(|error| match error.kind() {
        ErrorKind::NotFound => Trouble::new(format!("there is no `model.json` in `{name}`"))
            .with_help("name the folder of a whole packet that this program built: behind `--since`"),
        _ => Trouble::new(format!("the sheets of `{name}` cannot be read: {}", reason(&error))),
    })?;
    Former::read(&text).map_err(|why| {
        Trouble::new(format!("`{}` tells of no sheets: {why}", path.display())).with_help(
            "build that packet again with this program, or leave `--since` out: then sheets are filled from scratch",
        )
    })
}

/// The folder that a file lies in; of a symbolic link, the folder of the link.
pub fn folder_of(path: &Path) -> PathBuf {
    match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent.to_path_buf(),
        _ => PathBuf::from("."),
    }
}

/// Reads at most one byte more than a source may have.
pub fn capped(from: impl Read) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    from.take(MAX_SOURCE_BYTES as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// What the bytes of a source are; those of one that was [`capped`] may be one too many.
pub fn content(name: &str, bytes: Vec<u8>) -> Content {
    let unfit = |text: &str, fault: Fault| {
        let mut sources = Sources::default();
        sources.add(SourceText::new(name, text));
        Content::Unfit(sources, fault)
    };
    if bytes.len() > MAX_SOURCE_BYTES {
        return unfit("", files::source_too_large(None, name));
    }
    match String::from_utf8(bytes) {
        Ok(text) if text.trim_start_matches('\u{feff}').trim().is_empty() => {
            unfit(&text, files::empty_source(Span::new(0, 0..0), name))
        }
        Ok(text) => Content::Text(text),
        Err(error) => {
            // The text up to the fault is true to the byte; the rest is there to be looked at.
            let at = error.utf8_error().valid_up_to();
            let text = String::from_utf8_lossy(error.as_bytes());
            let span = Span::new(0, at..at + char::REPLACEMENT_CHARACTER.len_utf8());
            unfit(&text, files::not_text(Some(span), name, Some(at)))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fault_of(bytes: &[u8]) -> (Sources, Fault) {
        match content("gull.piece", bytes.to_vec()) {
            Content::Unfit(sources, fault) => (sources, fault),
            Content::Text(text) => panic!("read as {text:?}"),
        }
    }

    #[test]
    fn a_foreign_encoding_is_placed_to_the_byte() {
        let (sources, fault) = fault_of(b"pattern \"Gull\"\n// M\xf6we\n");
        let span = fault.span().expect("a place");
        assert_eq!(span.start, 19);
        assert_eq!(sources.slice(span), "\u{fffd}");
        assert!(fault.message.ends_with("byte 19"), "{}", fault.message);
    }

    #[test]
    fn nothing_and_too_much_are_refused() {
        assert_eq!(fault_of(b"").1.code.slug(), "empty-source");
        assert_eq!(fault_of("\u{feff} \r\n".as_bytes()).1.code.slug(), "empty-source");
        let endless = capped(io::repeat(b'x')).expect("reads");
        assert_eq!(endless.len(), MAX_SOURCE_BYTES + 1);
        assert_eq!(fault_of(&endless).1.code.slug(), "source-too-large");
        assert!(matches!(content("gull.piece", vec![b'x'; MAX_SOURCE_BYTES]), Content::Text(_)));
    }
}
