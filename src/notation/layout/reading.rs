//! A source as a flat run of entries, each a run of words with what stands between them.

use std::borrow::Cow;
use std::ops::Range;

use pest::Parser;
use pest::iterators::Pair;

use super::plain::{self, plain};
use crate::notation::grammar::{Grammar, Rule};
use crate::notation::source::is_line_end;

/// A source, read for its layout.
pub(super) struct Reading<'t> {
    /// Its statements, heads, braces and stretches that were not understood, in order.
    pub(super) entries: Vec<Entry<'t>>,
    /// All comments but those within stretches that were not understood, in order, with their slashes.
    comments: Vec<&'t str>,
}

/// One entry.
pub(super) struct Entry<'t> {
    /// Which of the grammar's entries it is.
    pub(super) rule: Rule,
    /// Where it stands, in bytes.
    pub(super) range: Range<usize>,
    /// Its words and marks; at least one.
    pub(super) words: Vec<Word<'t>>,
    /// The rules that it consists of, from the outside in.
    rules: Vec<Rule>,
}

/// A word, number, text or mark.
pub(super) struct Word<'t> {
    /// Its rule; none for a mark that is written right into a rule of the grammar.
    pub(super) rule: Option<Rule>,
    /// Its plain form.
    pub(super) text: Cow<'t, str>,
    /// What stands between the word before and this one.
    pub(super) before: Vec<Bit<'t>>,
    /// Whether anything at all stands there.
    pub(super) apart: bool,
    /// Whether a fault speaks of the blanks round it, or their absence, so that these must stay.
    pub(super) delicate: bool,
}

/// What may stand between words, blanks left out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Bit<'t> {
    /// The end of a line.
    LineEnd,
    /// A comment with its slashes and without blanks at its end.
    Comment(&'t str),
    /// A mark that has no rule of its own.
    Mark(&'t str),
}

impl<'t> Reading<'t> {
    /// Reads a text. `None` cannot be: the grammar takes any. O(n).
    pub(super) fn of(text: &'t str) -> Option<Self> {
        let file = Grammar::parse(Rule::file, text).ok()?.next()?;
        let entries = file.into_inner().filter(|pair| !matches!(pair.as_rule(), Rule::line_end | Rule::EOI));
        let entries: Vec<Entry<'t>> = entries.map(|pair| Entry::of(text, pair)).collect();
        let mut comments = Vec::new();
        let mut at = 0;
        for entry in &entries {
            comments.extend(comments_in(bits(text, at..entry.range.start)));
            comments.extend(entry.words.iter().flat_map(|word| comments_in(word.before.iter().copied())));
            at = entry.range.end;
        }
        comments.extend(comments_in(bits(text, at..text.len())));
        Some(Self { entries, comments })
    }

    /// Whether both say the same: the same entries of the same words in the same order, and the same comments.
    pub(super) fn says_the_same(&self, other: &Self) -> bool {
        let same_word = |(a, b): (&Word<'_>, &Word<'_>)| a.rule == b.rule && a.text == b.text;
        let same = |(a, b): (&Entry<'_>, &Entry<'_>)| {
            a.rules == b.rules && a.words.len() == b.words.len() && a.words.iter().zip(&b.words).all(same_word)
        };
        self.comments == other.comments
            && self.entries.len() == other.entries.len()
            && self.entries.iter().zip(&other.entries).all(same)
    }
}

fn comments_in<'t>(bits: impl Iterator<Item = Bit<'t>>) -> impl Iterator<Item = &'t str> {
    bits.filter_map(|bit| if let Bit::Comment(comment) = bit { Some(comment) } else { None })
}

impl<'t> Entry<'t> {
    fn of(text: &'t str, pair: Pair<'t, Rule>) -> Self {
        let (rule, span) = (pair.as_rule(), pair.as_span());
        let mut rules = vec![rule];
        let mut words: Vec<Word<'t>> = Vec::new();
        let mut at = span.start();
        let inner = pair.into_inner();
        if inner.is_empty() {
            words.push(Word::of(text, Some(rule), span.start()..span.end(), Vec::new(), false));
            at = span.end();
        }
        for pair in inner.flatten() {
            let (rule, span) = (pair.as_rule(), pair.as_span());
            rules.push(rule);
            if pair.into_inner().is_empty() && span.start() < span.end() {
                add_word(text, &mut words, at..span.start(), Some((rule, span.start()..span.end())));
                at = span.end();
            }
        }
        add_word(text, &mut words, at..span.end(), None);
        Self { rule, range: span.start()..span.end(), words, rules }
    }

    /// Whether this is a stretch that was not understood.
    pub(super) fn is_bad(&self) -> bool {
        self.rule == Rule::bad
    }
}

/// Adds the word of a rule, and before it the marks without a rule that stand in `gap`.
fn add_word<'t>(text: &'t str, words: &mut Vec<Word<'t>>, gap: Range<usize>, word: Option<(Rule, Range<usize>)>) {
    let mut before = Vec::new();
    let mut at = gap.start;
    for (bit, range) in placed_bits(text, gap) {
        if let Bit::Mark(_) = bit {
            let apart = range.start > at;
            at = range.end;
            words.push(Word::of(text, None, range, std::mem::take(&mut before), apart));
        } else {
            before.push(bit);
        }
    }
    if let Some((rule, range)) = word {
        let apart = range.start > at;
        words.push(Word::of(text, Some(rule), range, before, apart));
    }
}

impl<'t> Word<'t> {
    fn of(text: &'t str, rule: Option<Rule>, range: Range<usize>, before: Vec<Bit<'t>>, apart: bool) -> Self {
        let delicate = rule.is_none_or(|rule| plain::is_delicate(text, rule, &range));
        let written = text.get(range).unwrap_or("");
        let text = match rule {
            Some(rule) if !(delicate && rule == Rule::dashes) => plain(rule, written),
            _ => Cow::Borrowed(written),
        };
        Self { rule, text, before, apart, delicate }
    }

    /// Whether a blank stands between a word and the one that follows it on its line.
    pub(super) fn stands_off(&self, last: &Word<'_>) -> bool {
        match (last.rule, self.rule) {
            (_, Some(Rule::comma)) | (Some(Rule::minus), _) => false,
            // Together they would be the two dashes between points.
            (Some(Rule::operator), Some(Rule::minus)) => true,
            _ if last.delicate || self.delicate => self.apart,
            (_, Some(Rule::length_unit)) => self.text != "\"",
            _ => true,
        }
    }
}

/// What stands in a stretch between words, blanks left out.
pub(super) fn bits(text: &str, range: Range<usize>) -> impl Iterator<Item = Bit<'_>> {
    placed_bits(text, range).map(|(bit, _)| bit)
}

/// The same, each with its place in the text.
pub(super) fn placed_bits(text: &str, range: Range<usize>) -> impl Iterator<Item = (Bit<'_>, Range<usize>)> {
    let mut at = range.start;
    let stretch = text.get(..range.end).unwrap_or("");
    std::iter::from_fn(move || {
        let rest = stretch.get(at..)?;
        let rest = rest.trim_start_matches(plain::is_blank);
        let start = stretch.len() - rest.len();
        let first = rest.chars().next()?;
        let (bit, length) = if is_line_end(first) {
            (Bit::LineEnd, if rest.starts_with("\r\n") { 2 } else { first.len_utf8() })
        } else if rest.starts_with("//") {
            let comment = rest.split(is_line_end).next().unwrap_or(rest).trim_end_matches(plain::is_blank);
            (Bit::Comment(comment), comment.len())
        } else {
            let is_over = |(at, c): (usize, char)| plain::is_blank(c) || is_line_end(c) || rest[at..].starts_with("//");
            let length = rest.char_indices().find(|&at| is_over(at)).map_or(rest.len(), |(at, _)| at);
            (Bit::Mark(rest.get(..length).unwrap_or(rest)), length)
        };
        at = start + length;
        Some((bit, start..at))
    })
}
