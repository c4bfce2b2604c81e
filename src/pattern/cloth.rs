//! The cloth that a pattern is cut from: how it is sold, how wide it is, what is lost of it.

use super::facts::Units;
use crate::geometry::Length;

/// How a fabric is bought.
#[derive(Debug, Clone, PartialEq)]
pub enum Stock {
    /// Off a bolt, in one of these usable widths from selvedge to selvedge, the main one in front. At least one.
    Bolt(Vec<Length>),
    /// In fat quarters: half a width of the bolt, half a yard long.
    FatQuarters,
    /// In fat eighths: half a width of the bolt, a quarter of a yard long.
    FatEighths,
}

/// The cloth of a pattern, where a fabric does not say otherwise.
#[derive(Debug, Clone, PartialEq)]
pub struct Cloth {
    /// How it is bought.
    pub stock: Stock,
    /// What squaring up takes off each fabric that comes off a bolt.
    pub squaring: Length,
    /// By how much it shrinks when it is washed, as a part of its length: 0.05 for one inch in twenty.
    pub shrinkage: f64,
    /// Which plan for cutting is preferred.
    pub plan: CuttingPlan,
}

/// Which plan for cutting is preferred.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CuttingPlan {
    /// The one that takes the least length of cloth.
    LeastCloth,
    /// One with few widths of strips, as long as it takes at most a tenth more.
    FewWidths,
}

/// How far plans for cutting are searched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Effort {
    /// Hardly: to look a source through.
    Quick,
    /// As for a packet.
    Usual,
    /// Sixteen times as far.
    Thorough,
}

impl Cloth {
    /// What is usual where people measure in these units.
    #[must_use]
    pub fn usual(units: Units) -> Self {
        let (width, squaring) = match units {
            Units::Inches => (Length::inches(40.0), Length::inches(2.0)),
            Units::Metric => (Length::millimetres(1_020.0), Length::millimetres(50.0)),
        };
        let plan = CuttingPlan::LeastCloth;
        Self { stock: Stock::Bolt(vec![width]), squaring, shrinkage: 0.05, plan }
    }
}

/// What shops cut lengths off a bolt in: an eighth of a yard, or 10 cm.
#[must_use]
pub fn shop_step(units: Units) -> Length {
    match units {
        Units::Inches => Length::inches(4.5),
        Units::Metric => Length::millimetres(100.0),
    }
}

/// Usable width (across the bolt) and length (along the selvedge) of a fat quarter.
#[must_use]
pub fn fat_quarter(units: Units) -> (Length, Length) {
    match units {
        Units::Inches => (Length::inches(21.0), Length::inches(17.5)),
        Units::Metric => (Length::millimetres(530.0), Length::millimetres(485.0)),
    }
}

/// Usable width (across the bolt) and length (along the selvedge) of a fat eighth.
#[must_use]
pub fn fat_eighth(units: Units) -> (Length, Length) {
    match units {
        Units::Inches => (Length::inches(21.0), Length::inches(8.5)),
        Units::Metric => (Length::millimetres(530.0), Length::millimetres(235.0)),
    }
}

/// A piece of cloth that a sewer has already.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Owned {
    /// Which fabric, by index in the pattern's list.
    pub fabric: usize,
    /// How many of it.
    pub count: u32,
    /// What it is.
    pub piece: OwnedPiece,
}

/// What a piece of cloth is that a sewer has.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OwnedPiece {
    /// A length off the bolt, in the fabric's main usable width.
    Length(Length),
    /// A fat quarter.
    FatQuarter,
    /// A fat eighth.
    FatEighth,
    /// Any other: across the bolt, along the selvedge.
    Scrap(Length, Length),
}
