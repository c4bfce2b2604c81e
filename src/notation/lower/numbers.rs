//! Numbers, sums, angles, lengths, colours, dates.

use super::super::grammar::Rule;
use super::super::source::Spanned;
use super::super::syntax::{
    Angle, Date, Finished, FinishedSize, LengthUnit, MAX_NUMBER, Operator, PhysicalLength, Sum, Term, TermValue,
};
use super::{Lower, parts, plain_name};
use crate::fault::text as words_of;
use pest::iterators::Pair;

/// The fractions that are one character.
pub(in super::super) const VULGAR: [(char, f64, f64); 19] = [
    ('¼', 1.0, 4.0),
    ('½', 1.0, 2.0),
    ('¾', 3.0, 4.0),
    ('⅐', 1.0, 7.0),
    ('⅑', 1.0, 9.0),
    ('⅒', 1.0, 10.0),
    ('⅓', 1.0, 3.0),
    ('⅔', 2.0, 3.0),
    ('⅕', 1.0, 5.0),
    ('⅖', 2.0, 5.0),
    ('⅗', 3.0, 5.0),
    ('⅘', 4.0, 5.0),
    ('⅙', 1.0, 6.0),
    ('⅚', 5.0, 6.0),
    ('⅛', 1.0, 8.0),
    ('⅜', 3.0, 8.0),
    ('⅝', 5.0, 8.0),
    ('⅞', 7.0, 8.0),
    ('↉', 0.0, 3.0),
];

/// Why the words of a number make none.
enum Unfit {
    OverZero,
    /// `12 8/3`: a whole number and one that is not less than one.
    SideBySide,
}

impl Lower<'_> {
    pub(super) fn number(&mut self, pair: &Pair<'_, Rule>) -> Option<Spanned<f64>> {
        let (written, span) = (pair.as_str(), self.span(pair));
        match value(written) {
            Ok(number) if number.abs() <= MAX_NUMBER => return Some(Spanned::new(number, span)),
            Ok(_) => self.report(words_of::number_out_of_range(span, MAX_NUMBER)),
            Err(Unfit::OverZero) => self.report(words_of::over_zero(span, written)),
            Err(Unfit::SideBySide) => self.report(words_of::numbers_side_by_side(span, written)),
        }
        None
    }

    /// A number that counts; `what` says in a few words what is counted.
    pub(super) fn whole(&mut self, pair: &Pair<'_, Rule>, what: &str) -> Option<Spanned<u32>> {
        let number = self.number(pair)?;
        if let Ok(count) = pair.as_str().parse() {
            return Some(Spanned::new(count, number.span));
        }
        self.report(words_of::count_out_of_range(number.span, pair.as_str(), what));
        None
    }

    pub(super) fn sum(&mut self, pair: Pair<'_, Rule>) -> Option<Sum> {
        let span = self.span(&pair);
        let mut inner = parts(pair);
        let first = self.term(inner.next()?);
        let mut rest = Vec::new();
        let mut whole = true;
        while let (Some(operator), Some(term)) = (inner.next(), inner.next()) {
            let sign = self.operator(&operator);
            match self.term(term) {
                Some(term) => rest.push((sign, term)),
                None => whole = false,
            }
        }
        let first = first?;
        whole.then_some(Sum { first, rest, span })
    }

    fn operator(&mut self, pair: &Pair<'_, Rule>) -> Operator {
        let span = self.span(pair);
        let range = span.range();
        let blank = |c: Option<char>| c.is_none_or(char::is_whitespace);
        let before = self.text.get(..range.start).and_then(|text| text.chars().next_back());
        let after = self.text.get(range.end..).and_then(|text| text.chars().next());
        if !blank(before) || !blank(after) {
            self.report(words_of::crowded_operator(span, pair.as_str()));
        }
        match pair.as_str() {
            "+" => Operator::Plus,
            "*" => Operator::Times,
            "/" => Operator::Over,
            _ => Operator::Minus,
        }
    }

    fn term(&mut self, pair: Pair<'_, Rule>) -> Option<Term> {
        let span = self.span(&pair);
        let mut negative = false;
        for inner in parts(pair) {
            match inner.as_rule() {
                Rule::minus => negative = true,
                Rule::number => {
                    let value = TermValue::Number(self.number(&inner)?.value);
                    return Some(Term { negative, value, span });
                }
                _ => return Some(Term { negative, value: TermValue::Measure(plain_name(inner.as_str())), span }),
            }
        }
        None
    }

    pub(super) fn angle(&mut self, pair: Pair<'_, Rule>) -> Option<Angle> {
        let span = self.span(&pair);
        let sum = self.sum(parts(pair).next()?)?;
        Some(Spanned::new(sum, span))
    }

    pub(super) fn length(&mut self, pair: Pair<'_, Rule>) -> Option<PhysicalLength> {
        let span = self.span(&pair);
        let (mut negative, mut number, mut unit) = (false, None, None);
        for inner in parts(pair) {
            match inner.as_rule() {
                Rule::minus => negative = true,
                Rule::number => number = Some(inner),
                _ => unit = Some(inner),
            }
        }
        let written = number?;
        let number = self.number(&written);
        let Some(unit) = unit else {
            self.report(words_of::lacks_unit(span, written.as_str()));
            return None;
        };
        let unit = self.length_unit(&unit, written.as_str());
        let (mut number, unit) = (number?, unit?);
        if negative {
            number.value = -number.value;
            number.span.start = span.start;
        }
        Some(PhysicalLength { number, unit, span })
    }

    fn length_unit(&mut self, pair: &Pair<'_, Rule>, number: &str) -> Option<LengthUnit> {
        match pair.as_str() {
            "in" => Some(LengthUnit::Inch),
            "yd" => Some(LengthUnit::Yard),
            "cm" => Some(LengthUnit::Centimetre),
            "mm" => Some(LengthUnit::Millimetre),
            other => {
                let meant = match other.to_lowercase().as_str() {
                    "\"" | "inch" | "inches" | "ins" | "in" => Some("in"),
                    "yard" | "yards" | "yds" | "yd" => Some("yd"),
                    "centimetre" | "centimetres" | "centimeter" | "centimeters" | "cms" | "cm" => Some("cm"),
                    "millimetre" | "millimetres" | "millimeter" | "millimeters" | "mms" | "mm" => Some("mm"),
                    _ => None,
                };
                self.report(words_of::bad_length(self.span(pair), other, number, meant));
                None
            }
        }
    }

    pub(super) fn finished_size(&mut self, pair: Pair<'_, Rule>) -> Option<Finished> {
        let span = self.span(&pair);
        let mut inner = parts(pair);
        let first = inner.next()?;
        let size = if first.as_rule() == Rule::side_size {
            FinishedSize::Side(self.length(parts(first).next()?)?)
        } else {
            let width = self.length(first);
            match inner.next() {
                Some(height) => {
                    let height = self.length(height);
                    FinishedSize::Rectangle(width?, height?)
                }
                None => FinishedSize::Square(width?),
            }
        };
        Some(Finished { size, span })
    }

    pub(super) fn colour(&mut self, pair: &Pair<'_, Rule>) -> Option<Spanned<[u8; 3]>> {
        let span = self.span(pair);
        let digits = pair.as_str().get(1..).unwrap_or("");
        if digits.len() == 6
            && let Some(value) = hexadecimal(digits)
        {
            let [_, red, green, blue] = value.to_be_bytes();
            return Some(Spanned::new([red, green, blue], span));
        }
        // The short form of the web, each digit standing for two.
        let doubled = (digits.len() == 3 && hexadecimal(digits).is_some())
            .then(|| digits.chars().fold(String::from("#"), |all, digit| all + &digit.to_string().repeat(2)));
        self.report(words_of::bad_colour(span, pair.as_str(), doubled));
        None
    }

    pub(super) fn date(&mut self, pair: &Pair<'_, Rule>) -> Option<Spanned<Date>> {
        let span = self.span(pair);
        match date(&plain_name(pair.as_str())) {
            Some(date) if date.day <= days(date.year, date.month) && date.day > 0 => Some(Spanned::new(date, span)),
            Some(date) => {
                self.report(words_of::no_such_day(span, pair.as_str(), days(date.year, date.month)));
                None
            }
            None => {
                self.report(words_of::bad_date(span, pair.as_str()));
                None
            }
        }
    }
}

fn hexadecimal(digits: &str) -> Option<u32> {
    // `from_str_radix` takes a sign; a colour does not.
    digits.bytes().all(|byte| byte.is_ascii_hexdigit()).then(|| u32::from_str_radix(digits, 16).ok()).flatten()
}

fn date(written: &str) -> Option<Date> {
    let mut parts = written.split('-');
    let mut part = |length: usize| parts.next().filter(|part| part.len() == length);
    let (year, month, day) = (part(4)?, part(2)?, part(2)?);
    let date = Date { year: year.parse().ok()?, month: month.parse().ok()?, day: day.parse().ok()? };
    parts.next().is_none().then_some(date)
}

/// How many days a month has; none if there is no such month or year.
fn days(year: u16, month: u8) -> u8 {
    match month {
        _ if year == 0 => 0,
        2 if year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400)) => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => 0,
    }
}

/// The value of the words of a number; infinite if too large.
fn value(written: &str) -> Result<f64, Unfit> {
    if let Ok(number) = written.parse() {
        return Ok(number);
    }
    let number = |digits: &str| digits.trim().parse::<f64>().unwrap_or(0.0);
    let fraction = |over: &str, under: &str| match number(under) {
        0.0 => Err(Unfit::OverZero),
        // Both may be beyond all bounds; then so is the fraction.
        under => Some(number(over) / under).filter(|value| !value.is_nan()).map_or(Ok(f64::INFINITY), Ok),
    };
    if let Some(last) = written.chars().next_back()
        && let Some(&(_, over, under)) = VULGAR.iter().find(|(c, ..)| *c == last)
    {
        let whole = written.get(..written.len() - last.len_utf8()).unwrap_or("");
        return Ok(leading(whole) + over / under);
    }
    let Some((front, under)) = written.split_once(['/', '⁄']) else { return Ok(leading(written)) };
    match front.rsplit_once(|c: char| !c.is_ascii_digit()) {
        Some((whole, over)) => match fraction(over, under)? {
            part if part < 1.0 => Ok(leading(whole) + part),
            _ => Err(Unfit::SideBySide),
        },
        None => fraction(front, under),
    }
}

/// The number whose digits stand in front, blanks after it left out.
fn leading(written: &str) -> f64 {
    written.trim_end_matches(|c: char| !c.is_ascii_digit()).parse().unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_every_form_of_number() {
        let read = |written: &str| value(written).ok();
        for (written, expected) in [
            ("3", 3.0),
            ("2.5", 2.5),
            ("3/4", 0.75),
            ("1 1/4", 1.25),
            ("12   1/4", 12.25),
            ("12\u{A0}1/4", 12.25),
            ("½", 0.5),
            ("1½", 1.5),
            ("1 ⅞", 1.875),
            ("7⁄8", 0.875),
            ("007", 7.0),
        ] {
            assert_eq!(read(written), Some(expected), "{written}");
        }
        assert!(read(&"9".repeat(400)).is_some_and(f64::is_infinite));
        assert!(read(&format!("{0}/{0}", "9".repeat(400))).is_some_and(f64::is_infinite));
        assert!(matches!(value("1/0"), Err(Unfit::OverZero)));
        assert!(matches!(value("12 8/3"), Err(Unfit::SideBySide)));
    }

    #[test]
    fn knows_the_calendar() {
        assert_eq!([days(2024, 2), days(2026, 2), days(1900, 2), days(2000, 2)], [29, 28, 28, 29]);
        assert_eq!([days(2026, 4), days(2026, 12), days(2026, 13), days(2026, 0)], [30, 31, 0, 0]);
        assert_eq!(date("2026-11-01"), Some(Date { year: 2026, month: 11, day: 1 }));
        for wrong in ["2026-11-1", "26-11-01", "2026/11/01", "2026-11-01-01", "2026-11"] {
            assert_eq!(date(wrong), None, "{wrong}");
        }
    }
}
