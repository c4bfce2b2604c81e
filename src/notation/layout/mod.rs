//! One canonical layout for every source: what `piecewright fmt` writes.
//!
//! It is made from the flat run of entries that the grammar finds, not from the tree: each entry is a run of words, with blanks, line ends and
//! comments between them (`reading`). Words get their plain form (`plain`), entries become lines (`lines`), neighbouring lines are set
//! in columns (`columns`). So a rule that the grammar learns is laid out without a change here; only one whose lines should stand in columns of their
//! own is named in `columns`.
//!
//! Nothing but places and spelling changes: the new text is read again, and if it were any other run of words, the old one would stay. Where the braces do
//! not pair or a text is not closed (`trust`), nobody knows what belongs where, and the text stays too.

mod columns;
mod lines;
mod plain;
mod reading;
mod trust;

use super::parse;
use super::source::{SourceText, Sources};
use crate::fault::Fault;
use reading::Reading;

/// A source in its canonical layout.
#[derive(Debug)]
pub struct Formatted {
    /// The text as it should stand.
    pub text: String,
    /// What the notation finds wrong with this text, in order of place. Names, shapes and sizes are not looked at.
    pub faults: Vec<Fault>,
    /// The text under the name of its source, for showing the faults.
    pub sources: Sources,
    /// Whether the text could be laid out. Where braces do not pair or a text is not closed, it stands as it was, and a fault says so.
    pub laid_out: bool,
}

/// Lays a source out. `name` is what faults call it.
///
/// Every word, text, number and comment is kept, in order; the syntax tree stays equal but for places. What the notation does not understand
/// stays as it is written, under its indentation. Laying out twice is laying out once. O(n), but for the faults as in [`parse()`].
#[must_use]
pub fn format(name: &str, text: &str) -> Formatted {
    let (_, before) = parse(0, text);
    let (text, faults, laid_out) = match laid_out(text, &before) {
        Some(laid_out) if laid_out == text => (laid_out, before, true),
        Some(laid_out) => {
            let (_, after) = parse(0, &laid_out);
            (laid_out, after, true)
        }
        None => (text.to_owned(), before, false),
    };
    let mut sources = Sources::default();
    sources.add(SourceText::new(name, text.as_str()));
    Formatted { text, faults, sources, laid_out }
}

/// The text in its layout; `None` where the braces or quotes cannot be trusted.
fn laid_out(text: &str, faults: &[Fault]) -> Option<String> {
    let before = Reading::of(text)?;
    if !trust::braces_pair(text, &before, faults) {
        return None;
    }
    let mut lines = lines::lines(text, &before.entries);
    columns::align(&mut lines);
    let laid_out = lines::print(&lines);
    if laid_out == text {
        return Some(laid_out);
    }
    // Odd characters may hide a word of the notation in a name (`a\u{AD}s`); nothing is risked for their sake.
    let same = Reading::of(&laid_out).is_some_and(|after| after.says_the_same(&before));
    Some(if same { laid_out } else { text.to_owned() })
}

#[cfg(test)]
mod tests;
