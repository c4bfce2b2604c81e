//! What the publisher says of a pattern, and its fabrics: plain facts that every later room passes on.

use std::sync::Arc;

use super::cloth::Stock;
use super::cuts::CutWish;
use crate::geometry::Length;
use crate::picture::Picture;

/// What the publisher says of the pattern.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Facts {
    /// The title.
    pub title: String,
    /// The edition.
    pub edition: String,
    /// Who publishes it.
    pub author: Option<String>,
    /// The day of this edition, `2026-11-01`.
    pub date: Option<String>,
    /// Terms of use.
    pub licence: Option<String>,
    /// Notes on the whole pattern.
    pub notes: Vec<String>,
    /// How skilled one should be, in the author's words.
    pub skill: Option<String>,
    /// How to reach the publisher.
    pub contact: Option<String>,
    /// Where to report a fault in the pattern.
    pub report: Option<String>,
    /// The publisher's words about itself or the pattern, a paragraph each.
    pub about: Vec<String>,
    /// Tools and notions that the pattern needs beyond the usual.
    pub tools: Vec<String>,
    /// What the editions brought: ascending where all have numbers, else in the order of the source.
    pub history: Vec<Edition>,
    /// The publisher's sign.
    pub logo: Option<Image>,
    /// A photograph of what is sewn.
    pub photo: Option<Image>,
}

/// What an edition brought.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edition {
    /// The edition.
    pub edition: String,
    /// Its day, `2026-11-01`.
    pub date: Option<String>,
    /// What it brought.
    pub words: String,
}

impl Edition {
    /// Its number, where it is two whole numbers with a point between: `1.10`, which comes after `1.9`.
    #[must_use]
    pub fn number(&self) -> Option<(u32, u32)> {
        let whole = |digits: &str| {
            let is_number = digits.bytes().all(|byte| byte.is_ascii_digit());
            digits.parse().ok().filter(|_| is_number)
        };
        let (major, minor) = self.edition.split_once('.')?;
        Some((whole(major)?, whole(minor)?))
    }
}

/// A picture and what it shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Image {
    /// The picture.
    pub picture: Arc<Picture>,
    /// What it shows, for those who cannot see it. Not blank.
    pub shows: String,
}

/// A dark allowance shows through a piece that is lighter by more than this, in steps of CIE L*.
pub const SHOWS_THROUGH: f64 = 45.0;

/// Inches or millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Units {
    /// Inches and yards; cuts in eighths.
    Inches,
    /// Centimetres and millimetres; cuts in steps of 5 mm.
    Metric,
}

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 8 1/2 × 11 in.
    Letter,
    /// 210 × 297 mm.
    A4,
}

impl Paper {
    /// Width and height, upright.
    #[must_use]
    pub fn size(self) -> (Length, Length) {
        match self {
            Self::Letter => (Length::inches(8.5), Length::inches(11.0)),
            Self::A4 => (Length::millimetres(210.0), Length::millimetres(297.0)),
        }
    }

    /// What a home printer leaves blank on every side: half an inch is safe on all.
    #[must_use]
    pub const fn margin(self) -> Length {
        Length::inches(0.5)
    }

    /// The word for it in sources and file names.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Letter => "letter",
            Self::A4 => "a4",
        }
    }

    /// What people call it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Letter => "Letter",
            Self::A4 => "A4",
        }
    }

    /// The paper with this word.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        [Self::Letter, Self::A4].into_iter().find(|paper| paper.word() == word)
    }
}

/// A fabric.
#[derive(Debug, Clone, PartialEq)]
pub struct Fabric {
    /// The key in the source.
    pub key: String,
    /// The mark that stands for it on paper, counted from 1. The packet draws a ring round it, so that it is never taken for a unit.
    pub mark: u32,
    /// The name that the packet prints.
    pub name: String,
    /// Red, green, blue.
    pub colour: [u8; 3],
    /// What its print allows.
    pub print: Print,
    /// How its pieces are cut, as far as the source says so.
    pub cut: CutWish,
    /// How it is bought; none for as the pattern's cloth is.
    pub stock: Option<Stock>,
}

impl Fabric {
    /// How light its colour looks, from 0 (black) to 100 (white): L* of CIE 1976 for sRGB under D65.
    #[must_use]
    pub fn lightness(&self) -> f64 {
        let linear = |channel: u8| {
            let c = f64::from(channel) / 255.0;
            if c <= 0.040_45 { c / 12.92 } else { libm::pow((c + 0.055) / 1.055, 2.4) }
        };
        let [r, g, b] = self.colour.map(linear);
        let y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
        if y > 216.0 / 24_389.0 { 116.0 * libm::cbrt(y) - 16.0 } else { y * 24_389.0 / 27.0 }
    }
}

/// Which way a fabric's print runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Print {
    /// Whether it has a direction.
    pub direction: PrintDirection,
    /// Whether its up runs across the selvedge instead of along it.
    pub across: bool,
}

/// How much of a direction a print has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PrintDirection {
    /// None: any turn will do.
    None,
    /// A direction but no up: a half turn is free.
    TwoWay,
    /// An up.
    OneWay,
}

#[cfg(test)]
mod tests {
    use super::{CutWish, Fabric, Print, PrintDirection};

    #[test]
    fn lightness_runs_from_black_to_white() {
        let lightness = |colour| {
            let print = Print { direction: PrintDirection::None, across: false };
            Fabric {
                key: String::new(),
                mark: 1,
                name: String::new(),
                colour,
                print,
                cut: CutWish::default(),
                stock: None,
            }
            .lightness()
        };
        assert!(lightness([0, 0, 0]).abs() < 1e-9);
        assert!((lightness([255, 255, 255]) - 100.0).abs() < 1e-3);
        assert!((lightness([119, 119, 119]) - 50.0).abs() < 0.5, "middle grey looks half as light as white");
    }
}
