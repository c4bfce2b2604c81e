//! The manners without drawings: a line each, or sentences for a screen reader.

use std::fmt::Write;

use piecewright::fault::Fault;

use super::page::{Page, first_place, harmless_words};
use super::severity_word;

/// The most characters of a line that are quoted.
const LONGEST_QUOTE: usize = 120;

/// One line: `file:line:column: error[code]: message`; without the place where there is none.
pub fn concise(text: &mut String, fault: &Fault, pages: &[Page]) {
    if let Some((page, span)) = first_place(fault, pages) {
        let place = page.place(page.range(span).start);
        _ = write!(text, "{}:{}:{}: ", page.name, place.line, place.column);
    }
    let message = harmless_words(&fault.message).replace('\n', " ");
    _ = writeln!(text, "{}[{}]: {message}", severity_word(fault.severity()), fault.code.slug());
}

/// Sentences: the fault, each place with the words that stand there, and what to do.
pub fn plain(text: &mut String, fault: &Fault, pages: &[Page], off: Option<&str>) {
    let message = harmless_words(&fault.message);
    _ = writeln!(text, "{}[{}]: {message}", severity_word(fault.severity()), fault.code.slug());
    for label in &fault.labels {
        let Some(page) = pages.get(label.span.file as usize) else { continue };
        let range = page.range(label.span);
        let place = page.place(range.start);
        let line = page.line_range(page.line_of(range.start));
        let words = page.text(range.start..range.end.min(line.end).max(range.start));
        _ = write!(text, "  {}, line {}, column {}", page.name, place.line, place.column);
        if !words.trim().is_empty() {
            _ = write!(text, ", at \"{}\"", shortened(words));
        }
        if !label.text.is_empty() {
            _ = write!(text, ": {}", harmless_words(&label.text));
        }
        text.push('\n');
        let whole = page.text(line).trim();
        if !whole.is_empty() && whole != words.trim() {
            _ = writeln!(text, "    the line is: {}", shortened(whole));
        }
    }
    if let Some(help) = &fault.help {
        _ = writeln!(text, "  help: {}", harmless_words(help));
    }
    if let Some(off) = off {
        _ = writeln!(text, "  help: {off}");
    }
    text.push('\n');
}

fn shortened(words: &str) -> String {
    match words.char_indices().nth(LONGEST_QUOTE) {
        Some((end, _)) => format!("{} …", words.get(..end).unwrap_or_default()),
        None => words.into(),
    }
}
