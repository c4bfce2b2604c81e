//! The one type family of everything printed, Source Sans 3: how wide its lines are, and which letters it has.

use std::sync::LazyLock;

use ttf_parser::Face;

use super::page::{Align, Text, Weight};
use crate::geometry::{Angle, Length, Point, Vector};

static REGULAR: &[u8] = include_bytes!("../../assets/fonts/SourceSans3-Regular.ttf");
static BOLD: &[u8] = include_bytes!("../../assets/fonts/SourceSans3-Bold.ttf");

// Held as options so that nothing here can panic; a test asserts that both parse.
static REGULAR_FACE: LazyLock<Option<Face<'static>>> = LazyLock::new(|| Face::parse(REGULAR, 0).ok());
static BOLD_FACE: LazyLock<Option<Face<'static>>> = LazyLock::new(|| Face::parse(BOLD, 0).ok());

/// The family's name as stylesheets write it.
pub const FAMILY: &str = "Source Sans 3";

/// How high capitals and digits stand above the baseline, in sizes of the type.
pub const CAPITALS: f64 = 0.66;

/// How far the tallest letters reach above the baseline, in sizes of the type.
pub const ASCENT: f64 = 0.75;

/// How far letters reach below the baseline, in sizes of the type.
pub const DESCENT: f64 = 0.22;

/// The file of a weight.
#[must_use]
pub fn file(weight: Weight) -> &'static [u8] {
    match weight {
        Weight::Regular => REGULAR,
        Weight::Bold => BOLD,
    }
}

/// The parsed face of a weight.
#[must_use]
pub fn face(weight: Weight) -> Option<&'static Face<'static>> {
    match weight {
        Weight::Regular => REGULAR_FACE.as_ref(),
        Weight::Bold => BOLD_FACE.as_ref(),
    }
}

/// How wide a line of text is, without kerning: as both backends set it.
#[must_use]
pub fn width(words: &str, size: Length, weight: Weight) -> Length {
    let Some(face) = face(weight) else { return Length::ZERO };
    let units: f64 = words
        .chars()
        .filter_map(|letter| face.glyph_index(letter))
        .filter_map(|glyph| face.glyph_hor_advance(glyph))
        .map(f64::from)
        .sum();
    size * (units / f64::from(face.units_per_em()))
}

/// The letters that the family lacks, each once, in the order in which they occur.
#[must_use]
pub fn missing_letters(words: &str) -> Vec<char> {
    let mut missing = Vec::new();
    for letter in words.chars() {
        let known = [Weight::Regular, Weight::Bold]
            .into_iter()
            .all(|weight| face(weight).is_some_and(|face| face.glyph_index(letter).is_some()));
        if !known && !missing.contains(&letter) {
            missing.push(letter);
        }
    }
    missing
}

/// Breaks words at blanks, but never at no-break blanks, into lines no wider than `measure`; a single word wider than that stands alone on its line.
#[must_use]
pub fn wrapped(words: &str, measure: Length, size: Length, weight: Weight) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split([' ', '\n', '\t']).filter(|word| !word.is_empty()) {
        if let Some(line) = lines.last_mut() {
            let longer = format!("{line} {word}");
            if width(&longer, size, weight) <= measure {
                *line = longer;
                continue;
            }
        }
        lines.push(word.to_owned());
    }
    lines
}

/// The corners of the box round a line of text, from the tallest letters down to the descenders, clockwise from its upper left.
#[must_use]
pub fn text_box(text: &Text) -> [Point; 4] {
    let (sin, cos) = Angle::degrees(text.turn).sin_cos();
    let (along, down) = (Vector::new(cos, sin), Vector::new(-sin, cos));
    let (size, length) = (text.size.to_inches(), width(&text.words, text.size, text.weight).to_inches());
    let before = match text.align {
        Align::Start => 0.0,
        Align::Middle => length / 2.0,
        Align::End => length,
    };
    let start = text.at - along * before;
    let (up, low) = (down * (-ASCENT * size), down * (DESCENT * size));
    [start + up, start + along * length + up, start + along * length + low, start + low]
}

#[cfg(test)]
mod tests {
    use super::{face, missing_letters, width, wrapped};
    use crate::geometry::Length;
    use crate::packet::page::Weight;

    #[test]
    fn both_weights_are_there_and_bold_is_wider() {
        let size = Length::points(10.0);
        let regular = width("Storm Lantern", size, Weight::Regular);
        let bold = width("Storm Lantern", size, Weight::Bold);
        assert!(face(Weight::Regular).is_some() && face(Weight::Bold).is_some());
        assert!(regular > Length::points(50.0) && bold > regular && bold < Length::points(80.0));
    }

    #[test]
    fn digits_are_all_of_one_width() {
        let size = Length::points(10.0);
        assert_eq!(width("1111", size, Weight::Regular), width("8888", size, Weight::Regular));
    }

    #[test]
    fn letters_that_are_not_there_are_named_once() {
        assert_eq!(missing_letters("Möwe ½ × → 8¾″"), Vec::<char>::new());
        assert_eq!(missing_letters("灯台 灯"), vec!['灯', '台']);
    }

    #[test]
    fn lines_break_at_blanks_and_keep_the_measure() {
        let (measure, size) = (Length::inches(1.0), Length::points(10.0));
        let lines = wrapped("the harbour lights go out one by one", measure, size, Weight::Regular);
        assert!(lines.len() > 1);
        assert!(lines.iter().all(|line| width(line, size, Weight::Regular) <= measure));
        assert_eq!(lines.join(" "), "the harbour lights go out one by one");
    }
}
