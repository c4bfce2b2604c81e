//! The plain form of each word: what a word processor made of it is undone, and of two spellings one is taken.

use std::borrow::Cow;
use std::fmt::Write as _;
use std::ops::Range;

use crate::notation::characters;
use crate::notation::grammar::Rule;
use crate::notation::lower::{VULGAR, plain_name};
use crate::notation::source::is_line_end;

/// Whether the grammar takes a character for a blank.
pub(super) fn is_blank(c: char) -> bool {
    matches!(
        c,
        ' ' | '\t'
            | '\u{A0}'
            | '\u{AD}'
            | '\u{1680}'
            | '\u{2000}'..='\u{200F}'
            | '\u{202A}'..='\u{202F}'
            | '\u{205F}'..='\u{2064}'
            | '\u{2066}'..='\u{2069}'
            | '\u{3000}'
            | '\u{FEFF}'
    )
}

/// The plain form of a word of this rule. It is read as the same rule, and means the same.
pub(super) fn plain(rule: Rule, written: &str) -> Cow<'_, str> {
    match rule {
        Rule::name | Rule::date if !written.is_ascii() => Cow::Owned(plain_name(written)),
        Rule::number => number(written),
        Rule::text => text(written),
        Rule::deg => Cow::Borrowed("deg"),
        Rule::percent => Cow::Borrowed("%"),
        Rule::kw_x => Cow::Borrowed("x"),
        Rule::dashes => Cow::Borrowed("--"),
        Rule::minus => Cow::Borrowed("-"),
        Rule::operator if written == "−" => Cow::Borrowed("-"),
        Rule::bad => stretch(written),
        _ => Cow::Borrowed(written),
    }
}

/// Whether the blanks round a word decide whether a fault is told of it: a sign of arithmetic that is crowded, a comma right between digits,
/// a long dash that may as well be a minus.
pub(super) fn is_delicate(text: &str, rule: Rule, range: &Range<usize>) -> bool {
    let before = text.get(..range.start).and_then(|text| text.chars().next_back());
    let after = text.get(range.end..).and_then(|text| text.chars().next());
    match rule {
        Rule::operator => [before, after].iter().flatten().any(|c| !c.is_whitespace()),
        Rule::comma => [before, after].iter().all(|c| c.is_some_and(|c| c.is_ascii_digit())),
        Rule::dashes => {
            let written = text.get(range.clone()).and_then(|text| text.chars().next());
            written.is_some_and(|c| c != '-' && characters::dash(text, range.start, c) == "-")
        }
        _ => false,
    }
}

/// A number with one blank before its fraction, and this fraction in digits.
fn number(written: &str) -> Cow<'_, str> {
    if written.bytes().all(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b'/')) {
        return Cow::Borrowed(written);
    }
    let mut number = String::with_capacity(written.len() + 2);
    for c in written.chars() {
        let part = !number.is_empty() && !number.ends_with(' ');
        if let Some((_, over, under)) = VULGAR.iter().find(|(vulgar, ..)| *vulgar == c) {
            number.push_str(if part { " " } else { "" });
            // Writing to a string cannot fail.
            _ = write!(number, "{over}/{under}");
        } else if is_blank(c) {
            number.push_str(if part { " " } else { "" });
        } else {
            number.push(if c == '⁄' { '/' } else { c });
        }
    }
    Cow::Owned(number)
}

/// A text between straight quotes.
fn text(written: &str) -> Cow<'_, str> {
    if written.starts_with('"') {
        return Cow::Borrowed(written);
    }
    let mut inner = written.chars();
    inner.next();
    inner.next_back();
    let mut text = String::with_capacity(written.len());
    text.push('"');
    while let Some(c) = inner.next() {
        match c {
            '\\' => text.extend([Some(c), inner.next()].into_iter().flatten()),
            '"' => text.push_str("\\\""),
            c => text.push(c),
        }
    }
    text.push('"');
    Cow::Owned(text)
}

/// A stretch of the text as it is written, but for the ends of its lines.
pub(super) fn stretch(written: &str) -> Cow<'_, str> {
    let blank = [' ', '\t'];
    if !written.contains(is_line_end) {
        return Cow::Borrowed(written.trim_end_matches(blank));
    }
    let one = written.replace("\r\n", "\n");
    let lines: Vec<&str> = one.split(is_line_end).map(|line| line.trim_end_matches(blank)).collect();
    Cow::Owned(lines.join("\n"))
}

#[cfg(test)]
mod tests {
    use pest::Parser;

    use super::*;
    use crate::notation::grammar::Grammar;

    #[test]
    fn blanks_are_those_of_the_grammar() {
        for c in '\0'..=char::MAX {
            assert_eq!(is_blank(c), Grammar::parse(Rule::blank, &c.to_string()).is_ok(), "U+{:04X}", u32::from(c));
        }
    }

    #[test]
    fn words_take_their_plain_form() {
        for (rule, written, form) in [
            (Rule::number, "12   1/4", "12 1/4"),
            (Rule::number, "12\u{A0}\u{200B}1⁄4", "12 1/4"),
            (Rule::number, "1½", "1 1/2"),
            (Rule::number, "1 ⅞", "1 7/8"),
            (Rule::number, "⅒", "1/10"),
            (Rule::number, "2.50", "2.50"),
            (Rule::name, "eave‑r\u{AD}s", "eave-rs"),
            (Rule::date, "2026–11–01", "2026-11-01"),
            (Rule::text, "“A \"6 in\" \\“square\\”\\\\”", r#""A \"6 in\" \“square\”\\""#),
            (Rule::text, "\"A “6 in”  square\"", "\"A “6 in”  square\""),
            (Rule::deg, "°", "deg"),
            (Rule::percent, "percent", "%"),
            (Rule::kw_x, "×", "x"),
            (Rule::dashes, "—", "--"),
            (Rule::minus, "−", "-"),
            (Rule::operator, "−", "-"),
            (Rule::operator, "*", "*"),
            (Rule::bad, "what\tis, \r\n  this \u{2028}", "what\tis,\n  this\n"),
        ] {
            assert_eq!(plain(rule, written), form, "{written}");
            assert_eq!(plain(rule, form), form, "{form}");
        }
    }
}
