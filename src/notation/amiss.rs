//! What is wrong with a stretch of text that the grammar takes for no statement.
//!
//! The stretch is parsed once more by itself; the furthest rule that failed tells the place and what would have fitted there.

use super::grammar::{Grammar, Rule};
use super::lower::{Lower, VULGAR, plain_name};
use super::near::nearest;
use super::source::Span;
use super::words;
use crate::fault::{Fault, text as words_of};
use pest::Parser;
use pest::error::{ErrorVariant, InputLocation};
use std::ops::Range;

/// How many things that would have fitted are told at most.
const MOST_EXPECTED: usize = 6;

/// Finds the fault of a stretch of the text. `help` tells what lines may start with where it stands.
pub(super) fn explain(low: &Lower<'_>, range: Range<usize>, help: &str) -> Fault {
    let stretch = low.text.get(range.clone()).unwrap_or("").trim_end();
    Stretch { low, start: range.start, text: stretch }.explain(help)
}

struct Stretch<'s, 't> {
    low: &'s Lower<'t>,
    start: usize,
    text: &'t str,
}

impl Stretch<'_, '_> {
    fn span(&self, start: usize, end: usize) -> Span {
        Span::new(self.low.file, self.start + start..self.start + end)
    }

    fn explain(&self, help: &str) -> Fault {
        let first = token(self.text);
        let word = plain_name(first);
        let starts_with_letter = word.starts_with(char::is_alphabetic);
        if starts_with_letter && !words::FIRST.contains(&word.as_str()) {
            let meant = words::OTHER_WORDS.iter().find(|(other, _)| word.eq_ignore_ascii_case(other));
            let near = meant.map(|&(_, meant)| meant).or_else(|| nearest(&word, words::FIRST));
            return words_of::unknown_word(self.span(0, first.len()), first, near, help);
        }
        let Some((at, rules)) = self.furthest() else {
            return words_of::not_understood(self.span(0, first.len()), first, &[]);
        };
        if at == 0 && !starts_with_letter {
            return self.odd_start(first, help);
        }
        let rest = self.text.get(at..).unwrap_or("");
        let found = token(rest);
        let before = self.text.get(..at).unwrap_or("").trim_end();
        let last = last_token(before);
        let expected = expected(&rules);
        if let Some(fault) = self.single_dash(&rules, before, found) {
            return fault;
        }
        if found.is_empty() {
            return words_of::incomplete(self.span(before.len() - last.len(), before.len()), last, &expected);
        }
        let span = self.span(at, at + found.len());
        if let Some(quote @ ('"' | '“' | '”' | '„' | '‟')) = rest.chars().next()
            && Grammar::parse(Rule::text, rest).is_err()
        {
            return words_of::unclosed_text(self.span(at, at + quote.len_utf8()), quote);
        }
        if found.starts_with('_') && at == before.len() {
            let name = self.text.get(at - last.len()..at + found.len()).unwrap_or(found);
            return words_of::underscore(self.span(at - last.len(), at + found.len()), name);
        }
        if let Some(fault) = self.lacking_fabric(at, found, before) {
            return fault;
        }
        if let Some(fault) = self.number_trouble(at, found, before, last) {
            return fault;
        }
        if word == "history" && last.starts_with(|c: char| c.is_ascii_digit()) {
            let date = self.text.get(before.len() - last.len()..).unwrap_or(last);
            let date = date.split(['"', '“', '„']).next().unwrap_or(last).trim_end();
            let start = before.len() - last.len();
            return words_of::bad_date(self.span(start, start + date.len()), date);
        }
        if word == "date" {
            let date = self.text.get(first.len()..).unwrap_or("").trim_start();
            return words_of::bad_date(self.span(self.text.len() - date.len(), self.text.len()), date);
        }
        if rules.contains(&Rule::colour) && !found.starts_with('"') {
            return words_of::bad_colour(span, found, None);
        }
        if let Some(fault) = self.misspelling(at, found, &rules, before, last) {
            return fault;
        }
        if rules.contains(&Rule::text) && found != "with" && !rest.contains(['"', '\\', '“', '”', '„', '‟']) {
            return words_of::lacks_quotes(self.span(at, self.text.len()), rest);
        }
        words_of::not_understood(span, found, &expected)
    }

    /// Where the furthest rule failed, and which rules were looked for there.
    fn furthest(&self) -> Option<(usize, Vec<Rule>)> {
        let error = Grammar::parse(Rule::alone, self.text).err()?;
        let (InputLocation::Pos(at) | InputLocation::Span((at, _))) = error.location;
        match error.variant {
            ErrorVariant::ParsingError { positives, .. } => Some((at.min(self.text.len()), positives)),
            ErrorVariant::CustomError { .. } => None,
        }
    }

    /// The stretch starts with neither a word nor a number.
    fn odd_start(&self, first: &str, help: &str) -> Fault {
        let span = self.span(0, first.len());
        if let Some(quote @ ('"' | '“' | '”' | '„' | '‟')) = first.chars().next()
            && Grammar::parse(Rule::text, self.text).is_err()
        {
            return words_of::unclosed_text(self.span(0, quote.len_utf8()), quote);
        }
        words_of::odd_start(span, first, help)
    }

    /// A word that is almost one of those looked for, or one right before the place that is almost a word with which points and lines start:
    /// that one was taken for a name.
    fn misspelling(&self, at: usize, found: &str, rules: &[Rule], before: &str, last: &str) -> Option<Fault> {
        if found.len() > 2 {
            let likely: Vec<String> = rules.iter().flat_map(|&rule| words::first_words(rule)).collect();
            if let Some(near) = nearest(found, likely.iter().map(String::as_str)) {
                return Some(words_of::misspelt(self.span(at, at + found.len()), found, near));
            }
        }
        let goes_on = found.starts_with(|c: char| c.is_alphanumeric());
        let near = nearest(last, words::LEADING).filter(|near| goes_on && last.len() > 2 && *near != last)?;
        Some(words_of::misspelt(self.span(before.len() - last.len(), before.len()), last, near))
    }

    /// One hyphen with blanks round it, which makes a sum, where points were to be joined.
    fn single_dash(&self, rules: &[Rule], before: &str, found: &str) -> Option<Fault> {
        let at = if rules.contains(&Rule::comma) && (found.is_empty() || found.starts_with('-')) {
            before.find(" - ")? + 1
        } else if found.starts_with(',') && !rules.contains(&Rule::comma) {
            // `0, 0 - 8, 0`: the sum is complete, and a third number stands after it.
            before.rfind(" - ").filter(|&at| !before.get(at..).unwrap_or("").contains("--"))? + 1
        } else {
            return None;
        };
        Some(words_of::single_dash(self.span(at, at + 1)))
    }

    /// The number of a section with points right after it.
    fn lacking_fabric(&self, at: usize, found: &str, before: &str) -> Option<Fault> {
        let rest = self.text.get(at..)?;
        let digits = before.len() - before.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        // `1 1/4, 2` reads like one number, and a comma after it.
        let (number, points) = match before.get(digits..)? {
            "" => (before, rest.contains(',')),
            fraction if fraction.starts_with(' ') && found == "," && !fraction.contains(char::is_alphabetic) => {
                (before.get(..digits)?, true)
            }
            _ => return None,
        };
        let starts = |text: &str| text.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '-' | '−' | '.'));
        (digits > 0 && points && (found == "," || starts(found)) && !found.starts_with("--"))
            .then(|| words_of::lacks_fabric(self.span(0, digits), number))
    }

    /// Numbers that stand side by side or lack a digit beside their point.
    fn number_trouble(&self, at: usize, found: &str, before: &str, last: &str) -> Option<Fault> {
        let digit = |text: &str| text.starts_with(|c: char| c.is_ascii_digit());
        let is_number =
            |text: &str| digit(text) || text.starts_with(|c| VULGAR.iter().any(|(vulgar, ..)| *vulgar == c));
        if let Some(point) = found.strip_prefix('.') {
            let glued = before.len() == at && before.ends_with(|c: char| c.is_ascii_digit());
            let digits = point.len() - point.trim_start_matches(|c: char| c.is_ascii_digit()).len();
            let (start, end) = (if glued { at - last.len() } else { at }, at + 1 + digits);
            let written = self.text.get(start..end)?;
            let cure = match (glued, digits) {
                (true, 0) => Some(last.to_owned()),
                (false, 1..) => Some(format!("0{written}")),
                _ => None,
            };
            return cure.map(|cure| words_of::bare_point(self.span(start, end), written, cure));
        }
        let signed = found.strip_prefix(['-', '−']).unwrap_or(found);
        if is_number(signed) && is_number(last) && at > before.len() {
            let start = before.len() - last.len();
            let end = at + found.len();
            return Some(words_of::numbers_side_by_side(self.span(start, end), self.text.get(start..end)?));
        }
        None
    }
}

/// What would have fitted, in the words of the trade, none twice.
fn expected(rules: &[Rule]) -> Vec<String> {
    // Where a point is to be defined, its name or its numbers are but two of many ways.
    let defining = rules.contains(&Rule::kw_middle);
    let mut phrases: Vec<String> = Vec::new();
    for &rule in rules {
        let covered = match rule {
            Rule::coordinates | Rule::point | Rule::sum | Rule::term | Rule::name | Rule::number => defining,
            // Where anything else fits, more arithmetic was hardly meant.
            Rule::operator => rules.len() > 1,
            Rule::path => rules.contains(&Rule::kw_beyond),
            _ => false,
        };
        if let Some(phrase) = words::phrase(rule).filter(|phrase| !covered && !phrases.contains(phrase)) {
            phrases.push(phrase);
        }
    }
    phrases.truncate(MOST_EXPECTED);
    phrases
}

/// The word, number, text or mark with which the text starts; empty only if the text is.
fn token(text: &str) -> &str {
    let mut chars = text.char_indices();
    let Some((_, first)) = chars.next() else { return "" };
    let word = |c: char| {
        c.is_alphanumeric()
            || matches!(c, '-' | '_' | '\'' | '\u{AD}' | '\u{200B}'..='\u{200F}' | '\u{300}'..='\u{36F}')
    };
    let end = match first {
        '"' | '“' | '„' => {
            let close = |c| if first == '"' { c == '"' } else { matches!(c, '”' | '“' | '‟') };
            chars.find(|&(_, c)| close(c)).map_or(text.len(), |(at, c)| at + c.len_utf8())
        }
        '-' if text.starts_with("--") => 2,
        '#' | '-' | '.' => chars.find(|&(_, c)| !word(c)).map_or(text.len(), |(at, _)| at),
        c if c.is_ascii_digit() => {
            chars.find(|&(_, c)| !(word(c) || matches!(c, '.' | '/'))).map_or(text.len(), |(at, _)| at)
        }
        c if word(c) => chars.find(|&(_, c)| !word(c)).map_or(text.len(), |(at, _)| at),
        c => c.len_utf8(),
    };
    text.get(..end).unwrap_or(text)
}

/// The last word, number, text or mark of the text; empty only if the text is.
fn last_token(text: &str) -> &str {
    let mut rest = text.trim_start();
    loop {
        let token = token(rest);
        let next = rest.get(token.len()..).unwrap_or("").trim_start();
        if next.is_empty() {
            return token;
        }
        rest = next;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn takes_tokens_whole() {
        for (text, first) in [
            ("", ""),
            ("eave-r -- cap", "eave-r"),
            ("-- cap", "--"),
            ("1/2 along", "1/2"),
            ("#22314e one-way", "#22314e"),
            ("\"Night sky\" x", "\"Night sky\""),
            ("“Night sky” x", "“Night sky”"),
            ("\"open", "\"open"),
            ("möwe, 2", "möwe"),
            (", 2", ","),
        ] {
            assert_eq!(token(text), first);
        }
        assert_eq!(last_token("point cap 12"), "12");
        assert_eq!(last_token("  unit"), "unit");
        assert_eq!(last_token(""), "");
    }
}
