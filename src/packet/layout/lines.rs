//! Words to lines: runs of regular and bold type, broken at blanks to a measure.

use std::sync::LazyLock;

use super::super::page::{Colour, Item, Text, Weight};
use super::super::typeface;
use crate::geometry::{Length, Point};

/// Words in one weight.
pub type Run<'a> = (&'a str, Weight);

/// How wide lines may be, in inches: so many lines narrow, beside something, and wide from there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// How many lines are narrow.
    pub beside: usize,
    /// How wide these are.
    pub narrow: f64,
    /// How wide all others are.
    pub wide: f64,
}

impl Measure {
    /// The same for all lines.
    #[must_use]
    pub const fn of(wide: f64) -> Self {
        Self { beside: 0, narrow: wide, wide }
    }

    /// The same, less an indent.
    #[must_use]
    pub fn less(self, indent: f64) -> Self {
        Self { narrow: self.narrow - indent, wide: self.wide - indent, ..self }
    }

    fn of_line(self, number: usize) -> f64 {
        if number < self.beside { self.narrow } else { self.wide }
    }
}

/// A line of type: its runs, each with the distance of its beginning from the beginning of the line, in inches.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Line {
    runs: Vec<(f64, String, Weight)>,
    width: f64,
}

impl Line {
    /// How wide it is, in inches.
    #[must_use]
    pub const fn width(&self) -> f64 {
        self.width
    }
}

/// Type of one size, colour and distance of lines.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Type {
    /// The size, in printer's points.
    pub points: f64,
    /// From baseline to baseline, in printer's points.
    pub leading: f64,
    /// The colour.
    pub colour: Colour,
}

/// Grey that reads well in print.
const SOFT: Colour = Colour::grey(90);

impl Type {
    /// Running text.
    pub const BODY: Self = Self { points: 9.5, leading: 13.0, colour: Colour::BLACK };
    /// Text beside figures and in tables.
    pub const CLOSE: Self = Self { points: 9.0, leading: 12.0, colour: Colour::BLACK };
    /// What only explains.
    pub const SMALL: Self = Self { points: 8.0, leading: 10.5, colour: SOFT };
    /// The heading of a part.
    pub const PART: Self = Self { points: 20.0, leading: 24.0, colour: Colour::BLACK };
    /// A heading in a part.
    pub const HEADING: Self = Self { points: 13.0, leading: 16.0, colour: Colour::BLACK };
    /// A heading below that.
    pub const SUBHEADING: Self = Self { points: 10.5, leading: 14.0, colour: Colour::BLACK };

    /// From baseline to baseline, in inches.
    #[must_use]
    pub const fn line(self) -> f64 {
        self.leading / 72.0
    }

    /// From the top of a line to its baseline, in inches: what is above the letters is shared with what is below.
    #[must_use]
    pub const fn baseline(self) -> f64 {
        (self.leading - self.points) / 2.0 / 72.0 + self.points * 0.77 / 72.0
    }

    /// How wide words are, in inches.
    #[must_use]
    pub fn width(self, words: &str, weight: Weight) -> f64 {
        words.chars().map(|letter| advance(letter, weight)).sum::<f64>() * self.points / 72.0
    }

    /// Lines of these runs, none wider than the measure in inches. Breaks at blanks, never at no-break blanks; a single word wider than the
    /// measure is broken between letters. O(n).
    #[must_use]
    pub fn set(self, runs: &[Run<'_>], measure: f64) -> Vec<Line> {
        self.set_round(runs, Measure::of(measure))
    }

    /// The same round something that takes away from the measure of the first lines.
    #[must_use]
    pub fn set_round(self, runs: &[Run<'_>], measure: Measure) -> Vec<Line> {
        let mut setter = Setter { kind: self, measure, lines: Vec::new(), line: Line::default() };
        for &(words, weight) in runs {
            for word in words.split([' ', '\n', '\t']).filter(|word| !word.is_empty()) {
                setter.word(word, weight);
            }
        }
        setter.end_line();
        setter.lines
    }

    /// At most so many lines; the last is cut short with an ellipsis where there are more.
    #[must_use]
    pub fn set_cut_short(self, words: &str, weight: Weight, measure: f64, most: usize) -> Vec<Line> {
        let mut lines = self.set(&[(words, weight)], measure);
        if lines.len() > most {
            lines.truncate(most);
            if let Some((_, last, _)) = lines.last_mut().and_then(|line| line.runs.last_mut()) {
                *last = self.cut_short(&format!("{last} …"), weight, measure);
            }
            if let Some(line) = lines.last_mut() {
                line.width =
                    line.runs.iter().map(|(at, words, weight)| at + self.width(words, *weight)).fold(0.0, f64::max);
            }
        }
        lines
    }

    /// One line, cut short with an ellipsis where it is wider than the measure in inches.
    #[must_use]
    pub fn cut_short(self, words: &str, weight: Weight, measure: f64) -> String {
        if self.width(words, weight) <= measure {
            return words.to_owned();
        }
        let room = measure - self.width("…", weight);
        let mut kept = String::new();
        let mut wide = 0.0;
        for letter in words.chars() {
            wide += advance(letter, weight) * self.points / 72.0;
            if wide > room {
                break;
            }
            kept.push(letter);
        }
        format!("{}…", kept.trim_end())
    }

    /// Draws a line with the top of its leading at this place.
    pub fn draw(self, line: &Line, at: Point, items: &mut Vec<Item>) {
        for (x, words, weight) in &line.runs {
            let place = Point::new(at.x + x, at.y + self.baseline());
            items.push(Item::Text(Text { colour: self.colour, ..Text::line(place, words, self.points, *weight) }));
        }
    }
}

struct Setter {
    kind: Type,
    measure: Measure,
    lines: Vec<Line>,
    line: Line,
}

impl Setter {
    /// How wide the line may be that is being set.
    fn room(&self) -> f64 {
        self.measure.of_line(self.lines.len())
    }

    fn word(&mut self, word: &str, weight: Weight) {
        let wide = self.kind.width(word, weight);
        let blank = if self.line.runs.is_empty() { 0.0 } else { self.kind.width(" ", weight) };
        if self.line.width + blank + wide <= self.room() + 1e-9 {
            self.append(word, weight, blank, wide);
        } else {
            self.end_line();
            if wide <= self.room() {
                self.append(word, weight, 0.0, wide);
            } else {
                self.broken(word, weight);
            }
        }
    }

    fn append(&mut self, word: &str, weight: Weight, blank: f64, wide: f64) {
        let start = self.line.width + blank;
        match self.line.runs.last_mut() {
            Some((_, words, of)) if *of == weight => {
                words.push(' ');
                words.push_str(word);
            }
            _ => self.line.runs.push((start, word.to_owned(), weight)),
        }
        self.line.width = start + wide;
    }

    /// A word that no line can hold, letter by letter.
    fn broken(&mut self, word: &str, weight: Weight) {
        let mut part = String::new();
        let mut wide = 0.0;
        for letter in word.chars() {
            let more = advance(letter, weight) * self.kind.points / 72.0;
            if !part.is_empty() && wide + more > self.room() {
                self.append(&std::mem::take(&mut part), weight, 0.0, wide);
                self.end_line();
                wide = 0.0;
            }
            part.push(letter);
            wide += more;
        }
        self.append(&part, weight, 0.0, wide);
    }

    fn end_line(&mut self) {
        if !self.line.runs.is_empty() {
            self.lines.push(std::mem::take(&mut self.line));
        }
    }
}

/// The width of a letter in sizes of the type; most letters of a packet are in the table.
fn advance(letter: char, weight: Weight) -> f64 {
    static COMMON: LazyLock<[[f64; 256]; 2]> = LazyLock::new(|| {
        [Weight::Regular, Weight::Bold].map(|weight| {
            std::array::from_fn(|code| {
                let letter = u8::try_from(code).map_or(' ', char::from);
                typeface::width(letter.encode_utf8(&mut [0; 4]), Length::inches(1.0), weight).to_inches()
            })
        })
    });
    let table = &COMMON[usize::from(weight == Weight::Bold)];
    u8::try_from(u32::from(letter))
        .ok()
        .and_then(|code| table.get(usize::from(code)).copied())
        .unwrap_or_else(|| typeface::width(letter.encode_utf8(&mut [0; 4]), Length::inches(1.0), weight).to_inches())
}

#[cfg(test)]
mod tests {
    use super::{Line, Type};
    use crate::geometry::Length;
    use crate::packet::page::Weight;
    use crate::packet::typeface;

    fn words(lines: &[Line]) -> Vec<String> {
        lines.iter().map(|line| line.runs.iter().map(|run| run.1.as_str()).collect::<Vec<_>>().join(" ")).collect()
    }

    #[test]
    fn lines_keep_the_measure_and_lose_no_word() {
        let text = "The beam goes round and the boats come home before the weather turns against them.";
        let lines = Type::BODY.set(&[("Note:", Weight::Bold), (text, Weight::Regular)], 1.5);
        assert!(lines.len() > 3);
        assert!(lines.iter().all(|line| line.width <= 1.5 + 1e-9));
        assert_eq!(words(&lines).join(" "), format!("Note: {text}"));
    }

    #[test]
    fn widths_are_those_of_the_face() {
        let face = typeface::width("Möwe ½ × → 8¾ in", Length::points(9.5), Weight::Bold).to_inches();
        assert!((Type::BODY.width("Möwe ½ × → 8¾ in", Weight::Bold) - face).abs() < 1e-9);
    }

    #[test]
    fn a_word_without_blanks_is_broken_and_whole() {
        let long = "Nebelhornleuchtturmwärterhausgartenzaunlattenstreichfarbe";
        let lines = Type::BODY.set(&[(long, Weight::Regular)], 1.0);
        assert!(lines.len() > 2 && lines.iter().all(|line| line.width <= 1.0 + 1e-9));
        assert_eq!(words(&lines).concat(), long);
    }

    #[test]
    fn what_is_cut_short_says_so() {
        let short = Type::BODY.cut_short("The long way home round the outer light", Weight::Regular, 1.0);
        assert!(short.ends_with('…') && Type::BODY.width(&short, Weight::Regular) <= 1.0 + 1e-9, "{short}");
        assert_eq!(Type::BODY.cut_short("Home", Weight::Regular, 1.0), "Home");
    }
}
