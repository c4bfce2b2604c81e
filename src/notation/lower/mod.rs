//! From what the grammar recognised to the nodes of the syntax tree, one statement at a time.
//!
//! Every function takes the pair of one rule by value and gives its node, or `None` where it has reported a fault that leaves no node.
//! Two nodes of one statement are both made before either is asked for, so that the faults of both are seen.

mod cutting;
mod numbers;
mod places;
mod points;
mod sheets;
mod statements;

use super::grammar::Rule;
use super::source::{Span, Spanned};
use super::syntax::{Name, Text};
use super::words;
use crate::fault::{Fault, text as words_of};
use pest::iterators::{Pair, Pairs};

pub(super) use numbers::VULGAR;
pub(super) use statements::Said;

/// How many faults are kept, so that a file that is no source at all does not fill the memory with them.
pub(super) const MOST_FAULTS: usize = 1_000;

/// Turns pairs into nodes and gathers the faults met on the way.
pub(super) struct Lower<'t> {
    pub(super) file: u32,
    pub(super) text: &'t str,
    pub(super) faults: Vec<Fault>,
}

impl Lower<'_> {
    /// Where a pair stands.
    pub(super) fn span(&self, pair: &Pair<'_, Rule>) -> Span {
        let span = pair.as_span();
        Span::new(self.file, span.start()..span.end())
    }

    pub(super) fn report(&mut self, fault: Fault) {
        if self.faults.len() < MOST_FAULTS {
            self.faults.push(fault);
        }
    }

    fn name(&self, pair: &Pair<'_, Rule>) -> Name {
        Spanned::new(plain_name(pair.as_str()), self.span(pair))
    }

    /// What stands between the quotes.
    fn text(&mut self, pair: &Pair<'_, Rule>) -> Text {
        let span = self.span(pair);
        let mut chars = pair.as_str().char_indices();
        chars.next();
        chars.next_back();
        let inner = chars.as_str();
        if !inner.contains(|c: char| c == '\\' || c.is_control()) {
            return Spanned::new(inner.to_owned(), span);
        }
        let mut value = String::with_capacity(inner.len());
        while let Some((at, c)) = chars.next() {
            match c {
                '\\' => match chars.next() {
                    Some((_, c @ ('\\' | '"' | '“' | '”' | '„' | '‟'))) => value.push(c),
                    Some((_, c)) => {
                        let start = span.start as usize + at;
                        let place = Span::new(self.file, start..start + 1 + c.len_utf8());
                        self.report(words_of::unknown_escape(place, c));
                    }
                    None => {}
                },
                c if c.is_control() => {}
                c => value.push(c),
            }
        }
        Spanned::new(value, span)
    }
}

/// The pairs inside this one that are not mere words and marks.
pub(super) fn parts(pair: Pair<'_, Rule>) -> Parts<'_> {
    Parts(pair.into_inner())
}

/// See [`parts`].
pub(super) struct Parts<'i>(Pairs<'i, Rule>);

impl<'i> Iterator for Parts<'i> {
    type Item = Pair<'i, Rule>;

    fn next(&mut self) -> Option<Self::Item> {
        self.0.by_ref().find(|pair| !words::is_mark(pair.as_rule()))
    }
}

/// A name without what a word processor hid in it.
pub(super) fn plain_name(written: &str) -> String {
    if written.is_ascii() {
        return written.to_owned();
    }
    let plain = |c| match c {
        '‐' | '‑' | '–' | '−' => Some('-'),
        '\u{AD}'
        | '\u{200B}'..='\u{200F}'
        | '\u{2060}'..='\u{2064}'
        | '\u{FEFF}'
        | '\u{202A}'..='\u{202E}'
        | '\u{2066}'..='\u{2069}' => None,
        c => Some(c),
    };
    written.chars().filter_map(plain).collect()
}
