//! Sheets: foundations on paper. As many copies of each are printed as are sewn, on as few sheets as the search finds.

mod arrange;
mod bed;
mod face;
mod former;

pub use bed::Bed;
pub use face::bar_lengths;
pub use former::Former;

use crate::geometry::{Length, Polygon, Transform};
use crate::model::Model;

use super::contents::Audience;
use super::page::Page;
use super::words::Words;
use arrange::{Arranged, arrange};

/// A sheet to print.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// `1`, `2`, ….
    pub id: String,
    /// What it is printed on.
    pub bed: Bed,
    /// How often to print it.
    pub times: u32,
    /// What is on it.
    pub foundations: Vec<SheetFoundation>,
    /// The page.
    pub page: Page,
}

/// A foundation on its sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetFoundation {
    /// The block, by index.
    pub block: usize,
    /// The foundation, by index in its block.
    pub variant: usize,
    /// Which part of how many.
    pub part: Option<(u32, u32)>,
    /// From the unit's frame to the sheet's.
    pub matrix: Transform,
    /// What is cut out, in the sheet's frame.
    pub cutting_line: Polygon,
}

/// All sheets of a packet on one paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Printing {
    /// The sheets, in order.
    pub sheets: Vec<Sheet>,
    /// What is printed more often than it is sewn, in the order of the foundations.
    pub spares: Vec<Spare>,
    /// No filling prints fewer sheets.
    pub at_least: u32,
    /// No filling has fewer different ones.
    pub at_least_different: u32,
    /// No filling takes less of the roll, heads and margins included; nothing on single sheets.
    pub at_least_length: Length,
    /// How many foundations on the sheets, each counted as often as it stands on them, lie where they lay before; nothing where none was to be kept, or keeping them would have taken
    /// more paper.
    pub kept: Option<usize>,
}

impl Printing {
    /// How many sheets are printed.
    #[must_use]
    pub fn printed(&self) -> u32 {
        self.sheets.iter().fold(0, |sum, sheet| sum.saturating_add(sheet.times))
    }

    /// The width of the roll that it is printed on and the length it takes of it; nothing for single sheets.
    #[must_use]
    pub fn roll(&self) -> Option<(Length, Length)> {
        let first = self.sheets.first().filter(|sheet| sheet.bed.paper.is_roll())?;
        let length =
            self.sheets.iter().fold(Length::ZERO, |sum, sheet| sum + sheet.page.height * f64::from(sheet.times));
        Some((first.page.width, length))
    }

    /// The length that it takes of a roll, and the least that any filling takes; nothing for single sheets.
    #[must_use]
    pub fn lengths(&self) -> Option<(Length, Length)> {
        self.roll().map(|(_, length)| (length, self.at_least_length))
    }
}

/// Copies of a foundation, or of a part of one, that are printed and not sewn: the sheet that holds them is printed for others.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spare {
    /// The block, by index.
    pub block: usize,
    /// The foundation, by index in its block.
    pub variant: usize,
    /// Which part of how many.
    pub part: Option<(u32, u32)>,
    /// How many.
    pub count: u32,
}

/// All sheets of a pattern. What lay on the sheets of a former packet stays there where that takes no more paper.
#[must_use]
pub fn sheets(model: &Model, words: &Words, audience: Audience, former: Option<&Former>) -> Printing {
    let stamp = (audience == Audience::Testers).then(|| words.tester_stamp());
    stamped(model, words, stamp.as_deref(), former)
}

/// The same, with what each sheet is marked with beside its edition.
#[must_use]
pub fn stamped(model: &Model, words: &Words, stamp: Option<&str>, former: Option<&Former>) -> Printing {
    let bed = Bed::under(model);
    let Arranged { filled, spares, at_least, at_least_different, at_least_length, kept } =
        arrange(model, words, bed, former);
    let total = filled.len();
    let drawn = filled.iter().enumerate().map(|(number, sheet)| {
        let pieced = sheet.foundations.iter().any(|foundation| {
            let block = &model.blocks[foundation.block];
            block.unit_of(&block.variants[foundation.variant]).sections.iter().any(|s| !s.pieced.is_empty())
        });
        let numbers = face::Numbers { number: number + 1, total, times: sheet.times, stamp, pieced };
        let foundations = sheet.foundations.iter().map(|foundation| SheetFoundation {
            block: foundation.block,
            variant: foundation.variant,
            part: foundation.part,
            matrix: foundation.matrix,
            cutting_line: foundation.cutting_line.clone(),
        });
        Sheet {
            id: (number + 1).to_string(),
            bed,
            times: sheet.times,
            foundations: foundations.collect(),
            page: face::page(model, words, numbers, (bed, sheet)),
        }
    });
    let at_least_length = Length::inches(at_least_length);
    Printing { sheets: drawn.collect(), spares, at_least, at_least_different, at_least_length, kept }
}
