//! A STAND-IN for the front door, to be deleted as a whole: its shape is the contract that the command is written against; what it
//! does is only enough for the command's tests.

use crate::fault::{self, Code, Fault, Severity};
use crate::model::Paper;
use crate::notation::source::{SourceText, Sources, Span};

/// Where shared files come from; the library does no I/O.
pub trait Shelf {
    /// The text of a file, named relative to the project's folder with forward slashes.
    ///
    /// # Errors
    /// Why it cannot be read.
    fn read(&self, path: &str) -> Result<String, ReadFault>;
}

/// Why a shared file cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReadFault {
    /// There is none.
    NotFound,
    /// It is not UTF-8.
    NotText,
    /// It is beyond the greatest size.
    TooLarge,
    /// Another reason, in words.
    Other(String),
}

/// What may be chosen for a build.
#[derive(Debug, Clone, Default)]
pub struct Options {
    /// The finished size to build, such as `10 in`; nothing for the source's own.
    pub size: Option<String>,
    /// The paper; nothing for the source's own.
    pub paper: Option<Paper>,
    /// Whether to search longer.
    pub thorough: bool,
}

/// A source that was looked through.
#[derive(Debug)]
pub struct Checked {
    /// All texts that were read.
    pub sources: Sources,
    /// What is the matter, in order of place.
    pub faults: Vec<Fault>,
}

impl Checked {
    /// Whether there is no error.
    #[must_use]
    pub fn ok(&self) -> bool {
        self.faults.iter().all(|fault| fault.severity() == Severity::Warning)
    }
}

/// One file of a packet.
#[derive(Debug, Clone)]
pub struct Artifact {
    /// Its path in the packet, with forward slashes.
    pub path: String,
    /// What it holds.
    pub bytes: Vec<u8>,
}

/// What a build made.
#[derive(Debug)]
pub struct Built {
    /// All texts that were read.
    pub sources: Sources,
    /// What is the matter, in order of place.
    pub faults: Vec<Fault>,
    /// The packet's files; nothing when there are errors.
    pub artifacts: Option<Vec<Artifact>>,
}

/// Looks a source through.
#[must_use]
pub fn check(name: &str, text: &str, shelf: &dyn Shelf) -> Checked {
    let mut sources = Sources::default();
    sources.add(SourceText::new(name, text));
    let mut faults = Vec::new();
    for (at, _) in text.match_indices("8,5 in") {
        let span = Span::new(0, at..at + 3);
        faults.push(
            Fault::new(Code::DecimalComma, "`8,5` is written with a decimal comma", span)
                .with_help("write 8.5 or 8 1/2")
                .with_fix("write `8.5`", true, vec![(span, "8.5".into())]),
        );
    }
    if let Some(at) = text.find("fabric spare") {
        let span = Span::new(0, at + 7..at + 12);
        faults.push(Fault::new(Code::UnusedName, "the fabric `spare` is never used", span));
    }
    for (at, _) in text.match_indices("\nuse \"") {
        let start = at + 6;
        let Some(path) = text.get(start..).and_then(|rest| rest.split('"').next()) else { continue };
        let span = Span::new(0, start..start + path.len());
        match shelf.read(path) {
            Ok(text) => _ = sources.add(SourceText::new(path, text)),
            Err(ReadFault::NotFound) => faults.push(fault::files::use_not_found(span, path, None)),
            Err(ReadFault::NotText) => faults.push(fault::files::not_text(Some(span), path, None)),
            Err(ReadFault::TooLarge) => faults.push(fault::files::source_too_large(Some(span), path)),
            Err(ReadFault::Other(reason)) => faults.push(fault::files::use_not_found(span, path, Some(&reason))),
        }
    }
    fault::sort(&mut faults);
    Checked { sources, faults }
}

/// Builds a packet.
pub fn build(name: &str, text: &str, shelf: &dyn Shelf, _: &Options, progress: &mut dyn FnMut(&str)) -> Built {
    progress("reading");
    let checked = check(name, text, shelf);
    let artifacts = checked.ok().then(|| {
        let artifact = |path: &str, bytes: &[u8]| Artifact { path: path.into(), bytes: bytes.into() };
        vec![
            artifact("packet.pdf", b"%PDF-1.7"),
            artifact("packet.html", b"<!doctype html>"),
            artifact("sheets/1.svg", b"<svg/>"),
        ]
    });
    Built { sources: checked.sources, faults: checked.faults, artifacts }
}
