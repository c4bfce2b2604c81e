//! One JSON object a line, for programs. Fields may be added; those that are there stay.

use piecewright::fault::Fault;
use piecewright::notation::source::Span;
use serde::Serialize;

use super::page::Page;
use super::severity_word;
use crate::command::explain;

#[derive(Serialize)]
struct Line<'a> {
    code: &'static str,
    /// The heading of the code's manual page.
    name: String,
    severity: &'static str,
    message: &'a str,
    file: &'a str,
    /// Absent where the fault lies in no place of the file.
    #[serde(flatten)]
    place: Option<Place>,
    labels: Vec<Label<'a>>,
    help: Option<&'a str>,
    fixes: Vec<Fix<'a>>,
}

/// Lines and columns count from 1, columns in characters; bytes count from 0; ends are exclusive.
#[derive(Serialize)]
struct Place {
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    start_byte: usize,
    end_byte: usize,
}

#[derive(Serialize)]
struct Label<'a> {
    file: &'a str,
    #[serde(flatten)]
    place: Place,
    text: &'a str,
}

#[derive(Serialize)]
struct Fix<'a> {
    title: &'a str,
    /// Whether it can be made unseen.
    safe: bool,
    edits: Vec<Edit<'a>>,
}

#[derive(Serialize)]
struct Edit<'a> {
    file: &'a str,
    #[serde(flatten)]
    place: Place,
    replacement: &'a str,
}

/// Writes a fault as a line of JSON.
pub fn write(text: &mut String, fault: &Fault, pages: &[Page]) {
    let located = |span: Span| {
        let page = pages.get(span.file as usize)?;
        let range = page.range(span);
        let (start, end) = (page.place(range.start), page.place(range.end));
        let place = Place {
            line: start.line,
            column: start.column,
            end_line: end.line,
            end_column: end.column,
            start_byte: range.start,
            end_byte: range.end,
        };
        Some((page.name.as_str(), place))
    };
    let (file, place) = match fault.span().and_then(located) {
        Some((file, place)) => (file, Some(place)),
        None => (pages.first().map_or("", |page| page.name.as_str()), None),
    };
    let labels = fault
        .labels
        .iter()
        .filter_map(|one| located(one.span).map(|(file, place)| Label { file, place, text: &one.text }));
    let fixes = fault.fixes.iter().map(|fix| {
        let edits = fix
            .edits
            .iter()
            .filter_map(|(span, replacement)| located(*span).map(|(file, place)| Edit { file, place, replacement }));
        Fix { title: &fix.title, safe: fix.safe, edits: edits.collect() }
    });
    let line = Line {
        code: fault.code.slug(),
        name: explain::heading(fault.code),
        severity: severity_word(fault.severity()),
        message: &fault.message,
        file,
        place,
        labels: labels.collect(),
        help: fault.help.as_deref(),
        fixes: fixes.collect(),
    };
    // Strings and numbers alone cannot fail to be written.
    if let Ok(line) = serde_json::to_string(&line) {
        text.push_str(&line);
        text.push('\n');
    }
}
