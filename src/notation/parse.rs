//! The front door of the notation: a text in, its tree and its faults out.

use super::characters;
use super::grammar::{Grammar, Rule};
use super::structure;
use super::syntax::File;
use crate::fault::{self, Fault};
use pest::Parser;

/// Reads one source. The tree holds every statement that could be understood, whatever surrounds it; the faults are in order of place.
///
/// Never fails and never panics, whatever the text. O(n) but for what looking into each faulty line costs;
/// no more than a thousand faults of characters and a thousand of statements are told.
/// An empty text makes an empty tree and no fault.
#[must_use]
pub fn parse(file: u32, text: &str) -> (File, Vec<Fault>) {
    let mut faults = characters::check(file, text);
    let tree = match Grammar::parse(Rule::file, text) {
        Ok(mut pairs) => {
            let entries = pairs.next().into_iter().flat_map(pest::iterators::Pair::into_inner);
            let entries = entries.filter(|entry| entry.as_rule() != Rule::line_end).collect();
            let (tree, found) = structure::build(file, text, entries, &faults);
            faults.extend(found);
            tree
        }
        // Cannot be: the grammar takes any text.
        Err(_) => File::default(),
    };
    fault::sort(&mut faults);
    (tree, faults)
}
