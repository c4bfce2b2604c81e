//! The source and the shared files that it uses, read and parsed.

use std::sync::Arc;

use crate::fault::{Fault, files, names, pictures as faults};
use crate::notation::source::{MAX_SOURCE_BYTES, SourceText, Sources, Span};
use crate::notation::syntax::{File, Item, PictureLine, Text};
use crate::notation::{self};
use crate::picture::{self, Picture, PictureFault};

/// Where shared files come from; the library itself touches no files.
pub trait Shelf {
    /// The text of a file, named relative to the project's folder with forward slashes.
    ///
    /// # Errors
    /// Why it cannot be read.
    fn read(&self, path: &str) -> Result<String, ReadFault>;

    /// The bytes of a file of at most `most` bytes, named likewise. A shelf without pictures has none.
    ///
    /// # Errors
    /// Why it cannot be read; [`ReadFault::TooLarge`] where it has more bytes.
    fn read_bytes(&self, path: &str, most: usize) -> Result<Vec<u8>, ReadFault> {
        let _ = (path, most);
        Err(ReadFault::NotFound)
    }
}

/// Why a shared file cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReadFault {
    /// There is none.
    NotFound,
    /// It lies outside the project's folder.
    Outside,
    /// It is not UTF-8.
    NotText,
    /// It is beyond [`MAX_SOURCE_BYTES`], or what else it may be at the most.
    TooLarge,
    /// Another reason, in words.
    Other(String),
}

/// More shared files than this are refused.
const MAX_FILES: usize = 64;

/// A source with all that it uses.
#[derive(Debug, Default)]
pub struct Reading {
    /// The texts.
    pub sources: Sources,
    /// Their syntax trees, by the same numbers.
    pub files: Vec<File>,
    /// What is wrong with them.
    pub faults: Vec<Fault>,
    /// The pictures that they show.
    pub pictures: Pictures,
}

/// A picture, or what is wrong with its file; none where no line names one.
pub(super) type Looked = Option<Result<Arc<Picture>, Box<Fault>>>;

/// The pictures of a pattern.
#[derive(Debug, Default)]
pub struct Pictures {
    pub(super) logo: Looked,
    pub(super) photo: Looked,
}

/// Reads and parses a source and, once each, the files that it and they use.
#[must_use]
pub fn read_sources(name: &str, text: &str, shelf: &dyn Shelf) -> Reading {
    let mut reading = Reading::default();
    if text.len() > MAX_SOURCE_BYTES {
        reading.sources.add(SourceText::new(name, ""));
        reading.files.push(File::default());
        reading.faults.push(files::source_too_large(None, name));
        return reading;
    }
    let mut open = vec![normalised("", name).unwrap_or_else(|| name.to_owned())];
    take_in(&mut reading, name, text, shelf, &mut open);
    reading.pictures = pictures(&reading, shelf);
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        reading.faults.push(files::empty_source(Span::new(0, 0..0), name));
    }
    reading
}

/// Parses one text and takes in what it uses. `open` are the paths of the files that are being read, outermost first.
fn take_in(reading: &mut Reading, name: &str, text: &str, shelf: &dyn Shelf, open: &mut Vec<String>) {
    let file = reading.sources.add(SourceText::new(name, text));
    let (tree, faults) = notation::parse(file, text);
    reading.faults.extend(faults);
    let uses: Vec<Text> = tree
        .items
        .iter()
        .filter_map(|item| if let Item::Use(path) = &item.value { Some(path.clone()) } else { None })
        .collect();
    reading.files.push(tree);
    for path in uses {
        use_file(reading, &path, shelf, open);
    }
}

fn use_file(reading: &mut Reading, path: &Text, shelf: &dyn Shelf, open: &mut Vec<String>) {
    let (span, written) = (path.span, path.value.as_str());
    let folder = match open.len() {
        // The main source is named as the user named it; what it uses is found in the project's folder.
        0 | 1 => "",
        _ => open.last().and_then(|user| user.rsplit_once('/')).map_or("", |(folder, _)| folder),
    };
    let Some(wanted) = normalised(folder, written) else {
        reading.faults.push(files::use_outside(span, written));
        return;
    };
    if let Some(from) = open.iter().position(|path| *path == wanted) {
        let chain: Vec<&str> = open[from..].iter().map(String::as_str).collect();
        reading.faults.push(files::use_cycle(span, &chain));
        return;
    }
    if reading.sources.iter().skip(1).any(|source| source.name() == wanted) {
        return;
    }
    if reading.files.len() >= MAX_FILES {
        reading.faults.push(files::use_not_found(span, written, Some("there are too many shared files already")));
        return;
    }
    match shelf.read(&wanted) {
        Ok(text) if text.len() > MAX_SOURCE_BYTES => reading.faults.push(files::source_too_large(Some(span), written)),
        Ok(text) => {
            open.push(wanted.clone());
            take_in(reading, &wanted, &text, shelf, open);
            open.pop();
        }
        Err(ReadFault::NotFound) => reading.faults.push(files::use_not_found(span, written, None)),
        Err(ReadFault::Outside) => reading.faults.push(files::use_outside(span, written)),
        Err(ReadFault::NotText) => reading.faults.push(files::not_text(Some(span), written, None)),
        Err(ReadFault::TooLarge) => reading.faults.push(files::source_too_large(Some(span), written)),
        Err(ReadFault::Other(reason)) => reading.faults.push(files::use_not_found(span, written, Some(&reason))),
    }
}

/// Looks at the pictures that the pattern shows: of each kind the one that the outermost file names, and no other.
fn pictures(reading: &Reading, shelf: &dyn Shelf) -> Pictures {
    let first = |line: fn(&Item) -> Option<&PictureLine>| {
        let named = reading.files.iter().enumerate().find_map(|(number, file)| {
            let line = file.items.iter().find_map(|item| line(&item.value))?;
            Some((number, line))
        });
        named.map(|(number, line)| {
            let user = reading.sources.iter().nth(number).filter(|_| number > 0).map_or("", SourceText::name);
            let folder = user.rsplit_once('/').map_or("", |(folder, _)| folder);
            picture(&line.path, folder, shelf)
        })
    };
    Pictures {
        logo: first(|item| if let Item::Logo(line) = item { Some(line) } else { None }),
        photo: first(|item| if let Item::Photo(line) = item { Some(line) } else { None }),
    }
}

fn picture(path: &Text, folder: &str, shelf: &dyn Shelf) -> Result<Arc<Picture>, Box<Fault>> {
    let (span, written) = (path.span, path.value.as_str());
    let unfit = |why| Box::new(faults::picture_unfit(span, written, why));
    let wanted = normalised(folder, written).ok_or_else(|| Box::new(faults::picture_outside(span, written)))?;
    let bytes = shelf.read_bytes(&wanted, picture::MOST_BYTES).map_err(|fault| match fault {
        ReadFault::TooLarge => unfit(PictureFault::Bytes),
        ReadFault::Outside => Box::new(faults::picture_outside(span, written)),
        ReadFault::Other(reason) => Box::new(faults::picture_not_found(span, written, Some(&reason))),
        ReadFault::NotFound | ReadFault::NotText => Box::new(faults::picture_not_found(span, written, None)),
    })?;
    Picture::try_new(&bytes).map(Arc::new).map_err(unfit)
}

/// The path from the project's folder, without `.` and `..`; `None` where it leads out of it.
fn normalised(folder: &str, path: &str) -> Option<String> {
    if path.starts_with('/') || path.contains('\\') || path.get(1..2) == Some(":") {
        return None;
    }
    let mut parts: Vec<&str> = Vec::new();
    for part in folder.split('/').chain(path.split('/')) {
        match part {
            "" | "." => {}
            ".." => _ = parts.pop()?,
            part => parts.push(part),
        }
    }
    (!parts.is_empty()).then(|| parts.join("/"))
}

/// The statements of shared files that do not belong there.
pub(super) fn misplaced(item: &Item, span: Span) -> Option<Fault> {
    word_of_pattern(item).map(|word| names::not_in_shared_file(span, word))
}

/// Whether a statement belongs to a pattern and to no shared file.
#[must_use]
pub fn is_of_pattern(item: &Item) -> bool {
    word_of_pattern(item).is_some()
}

/// The first word of a statement that belongs to a pattern and to no shared file.
fn word_of_pattern(item: &Item) -> Option<&'static str> {
    Some(match item {
        Item::Title(_) => "pattern",
        Item::Edition(_) => "edition",
        Item::Date(_) => "date",
        Item::Finished(_) => "finished",
        Item::Sizes(_) => "sizes",
        Item::Block(_) => "block",
        Item::Allow(_) => "allow",
        Item::Colouring(_) => "colouring",
        Item::Skill(_)
        | Item::Contact(_)
        | Item::Report(_)
        | Item::History(_)
        | Item::About(_)
        | Item::Tool(_)
        | Item::Language(_)
        | Item::Logo(_)
        | Item::Photo(_)
        | Item::Author(_)
        | Item::Licence(_)
        | Item::Allowance(_)
        | Item::Ease(_)
        | Item::Cut(_)
        | Item::TurnSlack(_)
        | Item::Cloth(_)
        | Item::Squaring(_)
        | Item::Shrinkage(_)
        | Item::Cutting(_)
        | Item::Have(_)
        | Item::Paper(_)
        | Item::Sheets(_)
        | Item::Wishes(_)
        | Item::Fabric(_)
        | Item::Use(_)
        | Item::Measure(_)
        | Item::Note(_) => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::normalised;

    #[test]
    fn paths_stay_within_the_project() {
        assert_eq!(normalised("", "palette.piece").as_deref(), Some("palette.piece"));
        assert_eq!(normalised("shared", "../palette.piece").as_deref(), Some("palette.piece"));
        assert_eq!(normalised("", "a/./b//c.piece").as_deref(), Some("a/b/c.piece"));
        for outside in ["../palette.piece", "/etc/hosts", "a/../../b", "C:/x", "..\\x", ""] {
            assert_eq!(normalised("", outside), None, "{outside}");
        }
    }
}
