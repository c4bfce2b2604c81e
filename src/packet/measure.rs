//! Lengths as people read them: inches in vulgar fractions, or centimetres and millimetres.
//!
//! | what | in inches | metric |
//! | --- | --- | --- |
//! | a length | to the nearest 1/16 | to the nearest mm; below 2 cm to the nearest ½ mm |
//! | what somebody relies on (overhang, slack) | down to 1/16 | down to the mm |
//! | a rough cut, fabric to buy | exact: these are whole eighths, or steps of 5 mm, before they come here | the same |
//! | a cut to size, and the strip it is cut from | exact: a fraction where it stands on a mark, else three decimals | to a tenth of a mm |

use super::words::Words;
use crate::geometry::{Angle, Length};
use crate::model::Units;

/// What a length must exceed a step by before it counts as longer: what arithmetic leaves behind, far below any thread.
const NOISE: f64 = 1e-6;

/// Writes lengths in one language and one system of units.
#[derive(Clone, Copy)]
pub struct Measures<'w> {
    words: &'w Words,
    units: Units,
}

impl<'w> Measures<'w> {
    /// Writes lengths in these words and units.
    #[must_use]
    pub const fn new(words: &'w Words, units: Units) -> Self {
        Self { words, units }
    }

    /// A length, rounded to the nearest step: `2½ in`, `6.4 cm`, `7.5 mm`.
    #[must_use]
    pub fn length(self, length: Length) -> String {
        match self.units {
            Units::Inches => self.words.measure_inches(self.sixteenths(length, f64::round)),
            Units::Metric => self.metric(length, f64::round),
        }
    }

    /// A length that somebody relies on, rounded down to the step: `⅜ in`. Below one step: `less than 1⁄16 in`.
    #[must_use]
    pub fn at_least(self, length: Length) -> String {
        let step = match self.units {
            Units::Inches => Length::inches(1.0 / 16.0),
            Units::Metric => Length::millimetres(1.0),
        };
        if !self.is_a_step(length) {
            return self.words.measure_less(self.length(step));
        }
        match self.units {
            Units::Inches => self.words.measure_inches(self.sixteenths(length, |steps| (steps + NOISE).floor())),
            Units::Metric => self.metric(length, |steps| (steps + NOISE).floor()),
        }
    }

    /// Whether a length that somebody relies on is at least the smallest step in which it is told.
    #[must_use]
    pub fn is_a_step(self, length: Length) -> bool {
        let step = match self.units {
            Units::Inches => Length::inches(1.0 / 16.0),
            Units::Metric => Length::millimetres(1.0),
        };
        length.to_inches() + NOISE >= step.to_inches()
    }

    /// Width by height, the unit said once: `2½ × 3 in`, `6.5 × 8 cm`.
    #[must_use]
    pub fn rectangle(self, width: Length, height: Length) -> String {
        match self.units {
            Units::Inches => {
                let number = |length| self.sixteenths(length, f64::round);
                self.words.measure_inches(self.words.measure_by(number(width), number(height)))
            }
            Units::Metric => {
                let number = |length: Length| self.decimal(length.to_millimetres().round() / 10.0);
                self.words.measure_centimetres(self.words.measure_by(number(width), number(height)))
            }
        }
    }

    /// A length that is cut exactly: as [`Self::length`] where it stands on a mark of a ruler, else in decimals: `3.271 in`, `8.33 cm`.
    #[must_use]
    pub fn exact(self, length: Length) -> String {
        if self.is_on_a_mark(length) {
            return self.length(length);
        }
        match self.units {
            Units::Inches => self.words.measure_inches(self.exact_number(length)),
            Units::Metric => self.words.measure_centimetres(self.exact_number(length)),
        }
    }

    /// Width by height of what is cut exactly, the unit said once: `2½ × 3.271 in`.
    #[must_use]
    pub fn exact_rectangle(self, width: Length, height: Length) -> String {
        if self.is_on_a_mark(width) && self.is_on_a_mark(height) {
            return self.rectangle(width, height);
        }
        let sides = self.words.measure_by(self.exact_number(width), self.exact_number(height));
        match self.units {
            Units::Inches => self.words.measure_inches(sides),
            Units::Metric => self.words.measure_centimetres(sides),
        }
    }

    /// Whether a length stands on a mark of a ruler, to the width of a hair.
    fn is_on_a_mark(self, length: Length) -> bool {
        let marks = match self.units {
            Units::Inches => length.to_inches() * 16.0,
            Units::Metric => length.to_millimetres(),
        };
        (marks - marks.round()).abs() < 0.02
    }

    /// A length in inches or centimetres, without its unit.
    fn exact_number(self, length: Length) -> String {
        let (number, decimals) = match self.units {
            Units::Inches if self.is_on_a_mark(length) => return self.sixteenths(length, f64::round),
            Units::Inches => (length.to_inches(), 3),
            Units::Metric => (length.to_millimetres() / 10.0, 2),
        };
        let digits = format!("{number:.decimals$}");
        let digits = digits.trim_end_matches('0').trim_end_matches('.');
        digits.replace('.', &self.words.measure_decimal())
    }

    /// Lengths one after another, the unit said once: `2½, 3, 3½ in`.
    #[must_use]
    pub fn row(self, lengths: &[Length]) -> String {
        let numbers: Vec<String> = lengths
            .iter()
            .map(|&length| match self.units {
                Units::Inches => self.sixteenths(length, f64::round),
                Units::Metric => self.decimal(length.to_millimetres().round() / 10.0),
            })
            .collect();
        let row = self.words.row(&numbers);
        match self.units {
            Units::Inches => self.words.measure_inches(row),
            Units::Metric => self.words.measure_centimetres(row),
        }
    }

    /// Fabric off the bolt: `1⅛ yd`, `30 cm`.
    #[must_use]
    pub fn fabric(self, length: Length) -> String {
        match self.units {
            Units::Inches => self.words.measure_yards(mixed((length.to_inches() / 36.0 * 16.0).round())),
            Units::Metric => self.words.measure_centimetres(self.decimal(length.to_millimetres().round() / 10.0)),
        }
    }

    /// A part of something in percent, to the nearest tenth, without its sign: `5`, `2.5`.
    #[must_use]
    pub fn percent(self, part: f64) -> String {
        self.decimal((part * 1_000.0).round() / 10.0)
    }

    /// An angle that somebody relies on, rounded down to whole degrees; none below one degree.
    #[must_use]
    pub fn at_least_degrees(self, angle: Angle) -> Option<String> {
        let degrees = (angle.to_degrees().abs() + NOISE).floor();
        (degrees >= 1.0).then(|| self.words.measure_degrees(whole(degrees)))
    }

    /// An angle to the nearest degree: `30°`.
    #[must_use]
    pub fn degrees(self, angle: Angle) -> String {
        // No minus before a zero.
        self.words.measure_degrees(whole(angle.to_degrees().round() + 0.0))
    }

    /// The units that it writes.
    #[must_use]
    pub const fn units(self) -> Units {
        self.units
    }

    /// The words that it writes with.
    #[must_use]
    pub const fn words(self) -> &'w Words {
        self.words
    }

    #[expect(
        clippy::unused_self,
        reason = "stands beside its metric twin, which asks the catalogue for its decimal sign"
    )]
    fn sixteenths(self, length: Length, round: impl Fn(f64) -> f64) -> String {
        mixed(round(length.to_inches() * 16.0))
    }

    fn metric(self, length: Length, round: impl Fn(f64) -> f64) -> String {
        let millimetres = length.to_millimetres();
        if millimetres.abs() < 20.0 - NOISE {
            let halves = (millimetres * 2.0).round() / 2.0;
            // A half is kept only where the length is one (an allowance of 7.5 mm), never where it would round up.
            let exact = (halves - millimetres).abs() < 1e-3;
            self.words.measure_millimetres(self.decimal(if exact { halves } else { round(millimetres) }))
        } else {
            self.words.measure_centimetres(self.decimal(round(millimetres) / 10.0))
        }
    }

    /// A number with at most one decimal.
    fn decimal(self, number: f64) -> String {
        let tenths = format!("{:.1}", if number == 0.0 { 0.0 } else { number });
        tenths.strip_suffix(".0").map_or_else(|| tenths.replace('.', &self.words.measure_decimal()), str::to_owned)
    }
}

/// A length in inches as a mixed fraction, to the nearest sixteenth, without its unit.
#[must_use]
pub fn sixteenths(length: Length) -> String {
    mixed((length.to_inches() * 16.0).round())
}

/// A whole number without a decimal point.
fn whole(number: f64) -> String {
    format!("{number:.0}")
}

/// So many sixteenths as a mixed fraction: `2½`, `3⁄16`.
///
/// The face and most screens have single characters for eighths; sixteenths are set from raised and lowered digits, so that they look alike.
fn mixed(sixteenths: f64) -> String {
    let sign = if sixteenths < 0.0 { "−" } else { "" };
    let sixteenths = sixteenths.abs();
    let wholes = (sixteenths / 16.0).floor();
    let fraction = match sixteenths % 16.0 {
        1.0 => "¹⁄₁₆",
        2.0 => "⅛",
        3.0 => "³⁄₁₆",
        4.0 => "¼",
        5.0 => "⁵⁄₁₆",
        6.0 => "⅜",
        7.0 => "⁷⁄₁₆",
        8.0 => "½",
        9.0 => "⁹⁄₁₆",
        10.0 => "⅝",
        11.0 => "¹¹⁄₁₆",
        12.0 => "¾",
        13.0 => "¹³⁄₁₆",
        14.0 => "⅞",
        15.0 => "¹⁵⁄₁₆",
        _ => "",
    };
    if wholes == 0.0 && !fraction.is_empty() {
        format!("{sign}{fraction}")
    } else {
        format!("{sign}{wholes:.0}{fraction}")
    }
}

#[cfg(test)]
mod tests {
    use super::Measures;
    use crate::geometry::{Angle, Length};
    use crate::model::Units;
    use crate::packet::words::Words;

    #[test]
    fn inches_are_mixed_fractions() {
        let words = Words::english();
        let measures = Measures::new(&words, Units::Inches);
        for (inches, text) in [
            (2.5, "2½\u{a0}in"),
            (0.25, "¼\u{a0}in"),
            (0.0, "0\u{a0}in"),
            (3.0, "3\u{a0}in"),
            (1.1875, "1³⁄₁₆\u{a0}in"),
            (2.99, "3\u{a0}in"),
            (0.96, "¹⁵⁄₁₆\u{a0}in"),
            (-0.5, "−½\u{a0}in"),
        ] {
            assert_eq!(measures.length(Length::inches(inches)), text);
        }
        assert_eq!(measures.rectangle(Length::inches(2.5), Length::inches(3.125)), "2½\u{a0}×\u{a0}3⅛\u{a0}in");
        assert_eq!(measures.fabric(Length::inches(40.5)), "1⅛\u{a0}yd");
    }

    #[test]
    fn what_is_relied_on_is_rounded_down() {
        let words = Words::english();
        let inches = Measures::new(&words, Units::Inches);
        assert_eq!(inches.at_least(Length::inches(0.374)), "⁵⁄₁₆\u{a0}in");
        assert_eq!(inches.at_least(Length::inches(0.375 - 1e-12)), "⅜\u{a0}in");
        assert_eq!(inches.at_least(Length::inches(0.06)), "less than ¹⁄₁₆\u{a0}in");
        let metric = Measures::new(&words, Units::Metric);
        assert_eq!(metric.at_least(Length::millimetres(13.8)), "13\u{a0}mm");
        assert_eq!(metric.at_least(Length::millimetres(23.9)), "2.3\u{a0}cm");
        assert_eq!(inches.at_least_degrees(Angle::degrees(3.9)), Some("3°".to_owned()));
        assert_eq!(inches.at_least_degrees(Angle::degrees(0.9)), None);
    }

    #[test]
    fn metric_is_centimetres_for_cloth_and_millimetres_for_allowances() {
        let words = Words::english();
        let measures = Measures::new(&words, Units::Metric);
        assert_eq!(measures.length(Length::millimetres(7.5)), "7.5\u{a0}mm");
        assert_eq!(measures.length(Length::millimetres(6.0)), "6\u{a0}mm");
        assert_eq!(measures.length(Length::millimetres(203.4)), "20.3\u{a0}cm");
        assert_eq!(
            measures.rectangle(Length::millimetres(65.0), Length::millimetres(80.0)),
            "6.5\u{a0}×\u{a0}8\u{a0}cm"
        );
        assert_eq!(measures.fabric(Length::millimetres(300.0)), "30\u{a0}cm");
    }
}
