//! Small sources, and beside each line the faults that it must raise. What compiles obeys the laws.
//!
//! A file in `fixtures/` is a test. `//~ error[code]: message` or `//~ warning[code]: message` stands at the end of the line where the fault's first
//! label begins. In a line of its own, `//~ ^ error[…]: …` speaks of the nearest line above that is no such line, `//~ nowhere error[…]: …` of a fault
//! without a place, and `//~ help: …` gives the help of the fault named before it. Every fault must be expected and every expectation must come true,
//! in this order. Shared files are those in `fixtures/shared/`, with expectations of their own.

mod support;

use std::fs;
use std::path::Path;

use piecewright::fault::{Fault, Severity};
use piecewright::notation::source::{SourceText, Sources};
use piecewright::{ReadFault, Shelf, check};
use support::laws::check_laws;

datatest_stable::harness! {
    { test = fixture, root = "tests/fixtures", pattern = r"^[^/]+\.piece$" },
}

/// The folder of the shared files.
struct Shared;

impl Shelf for Shared {
    fn read(&self, path: &str) -> Result<String, ReadFault> {
        if path.starts_with("../") {
            return Err(ReadFault::Outside);
        }
        fs::read_to_string(Path::new("tests/fixtures/shared").join(path)).map_err(|_| ReadFault::NotFound)
    }

    fn read_bytes(&self, path: &str, most: usize) -> Result<Vec<u8>, ReadFault> {
        if path.starts_with("../") {
            return Err(ReadFault::Outside);
        }
        let bytes = fs::read(Path::new("tests/fixtures/shared").join(path)).map_err(|_| ReadFault::NotFound)?;
        if bytes.len() > most { Err(ReadFault::TooLarge) } else { Ok(bytes) }
    }
}

/// A fault in the words of an expectation.
#[derive(Debug, PartialEq)]
struct Told {
    // File and line, from 0 and 1; nothing for a fault without a place.
    place: Option<(u32, usize)>,
    words: String,
    help: Option<String>,
}

/// What the comments of a source expect.
fn expected(file: u32, source: &SourceText) -> Result<Vec<Told>, String> {
    let mut all: Vec<Told> = Vec::new();
    let mut spoken_of = 0;
    for (number, line) in (1..).zip(source.text().lines()) {
        let Some((front, words)) = line.split_once("//~") else {
            spoken_of = number;
            continue;
        };
        if !front.trim().is_empty() {
            spoken_of = number;
        }
        let words = words.trim();
        if let Some(help) = words.strip_prefix("help: ") {
            let fault = all.last_mut().ok_or_else(|| format!("line {number}: the help of which fault?"))?;
            fault.help = Some(help.to_owned());
            continue;
        }
        let (place, words) = match words.split_once(' ') {
            Some(("^", words)) => (Some((file, spoken_of)), words),
            Some(("nowhere", words)) => (None, words),
            _ => (Some((file, spoken_of)), words),
        };
        if !["error[", "warning[", "hint["].iter().any(|start| words.starts_with(start)) {
            return Err(format!("line {number}: no expectation is written `{words}`"));
        }
        all.push(Told { place, words: words.to_owned(), help: None });
    }
    Ok(all)
}

fn told(fault: &Fault, sources: &Sources) -> Told {
    let place = fault.span().and_then(|span| {
        let source = sources.iter().nth(span.file as usize)?;
        Some((span.file, source.line_column(span.start as usize).line))
    });
    let severity = match fault.severity() {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Hint => "hint",
    };
    Told { place, words: format!("{severity}[{}]: {}", fault.code.slug(), fault.message), help: fault.help.clone() }
}

fn fixture(path: &Path) -> datatest_stable::Result<()> {
    let text = fs::read_to_string(path)?;
    let checked = check("fixture.piece", &text, &Shared);
    let mut wanted = Vec::new();
    for (file, source) in (0..).zip(checked.sources.iter()) {
        wanted.extend(expected(file, source)?);
    }
    // Where no place decides the order, none is asked for.
    wanted.sort_by_key(|told| told.place);
    // Hints say nothing of what is wrong; where none is spoken of, none is asked for.
    let hinted = wanted.iter().any(|told| told.words.starts_with("hint["));
    let faults = checked.faults.iter().filter(|fault| hinted || fault.severity() != Severity::Hint);
    let mut found: Vec<Told> = faults.map(|fault| told(fault, &checked.sources)).collect();
    found.sort_by_key(|told| told.place);
    for (found, wanted) in found.iter_mut().zip(&wanted) {
        if wanted.help.is_none() {
            found.help = None;
        }
    }
    if let Some(model) = checked.model.as_ref().filter(|_| checked.ok()) {
        check_laws(&path.display().to_string(), model);
    }
    if found == wanted { Ok(()) } else { Err(format!("expected {wanted:#?}\nfound {found:#?}").into()) }
}
