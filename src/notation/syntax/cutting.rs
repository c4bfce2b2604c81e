//! How pieces are cut and from what cloth, as it is written.

use super::super::source::Spanned;
use super::{Name, PhysicalLength, PointRef};

/// What a line about cutting speaks of, if not of all round it.
#[derive(Debug, Clone, PartialEq)]
pub enum CutFor {
    /// A section, by number.
    Section(Spanned<u32>),
    /// A fabric, by key.
    Fabric(Name),
}

/// How pieces are cut.
#[derive(Debug, Clone, PartialEq)]
pub struct CutLine {
    /// How they are turned, what they are cut as, or both; at least one word.
    pub words: Vec<Name>,
    /// Which pieces.
    pub target: Option<CutFor>,
}

/// An ease.
#[derive(Debug, Clone, PartialEq)]
pub struct EaseLine {
    /// How much.
    pub size: EaseSize,
    /// Of which pieces.
    pub target: Option<CutFor>,
}

/// The ways to give an ease.
#[derive(Debug, Clone, PartialEq)]
pub enum EaseSize {
    /// `1/4 in`
    Length(PhysicalLength),
    /// `snug`, `usual` or `roomy`
    Word(Name),
}

/// A section that is cut round a motif of its fabric.
#[derive(Debug, Clone, PartialEq)]
pub struct Fussy {
    /// The number of the section.
    pub number: Spanned<u32>,
    /// Where the middle of the motif lies, if not in the middle of the section.
    pub at: Option<PointRef>,
}

/// How fabric is bought.
#[derive(Debug, Clone, PartialEq)]
pub struct ClothLine {
    /// How.
    pub stock: ClothStock,
    /// Which fabric, if not all.
    pub fabric: Option<Name>,
}

/// The ways to buy fabric.
#[derive(Debug, Clone, PartialEq)]
pub enum ClothStock {
    /// Off a bolt of one of these usable widths; at least one.
    Widths(Vec<PhysicalLength>),
    /// `fat-quarters` or `fat-eighths`
    Word(Name),
}

/// Cloth that the sewer has already.
#[derive(Debug, Clone, PartialEq)]
pub struct Have {
    /// What it is.
    pub piece: HavePiece,
    /// The key of its fabric.
    pub fabric: Name,
}

/// The ways to say what a piece of cloth is.
#[derive(Debug, Clone, PartialEq)]
pub enum HavePiece {
    /// `1/2 yd`: off a bolt, across its whole width.
    Length(PhysicalLength),
    /// `10 in x 12 in`: across the bolt, along the selvedge.
    Scrap(PhysicalLength, PhysicalLength),
    /// `3 fat-quarters`
    FatQuarters(Spanned<u32>),
    /// `1 fat-eighth`
    FatEighths(Spanned<u32>),
}
