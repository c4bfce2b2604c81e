//! How pieces are to be cut, as far as a source says so: for the pattern, a fabric, a unit or a section.

use crate::geometry::{Length, Point};

/// How a rough cut is turned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lie {
    /// An edge along its seam: the easiest to lay.
    AlongSeam,
    /// Its edges along the block's upright and level: outer edges of a square block are stable.
    OnGrain,
    /// As [`Self::AlongSeam`], but a section with an outer edge of the block has this edge on the grain.
    OuterEdges,
    /// However the least cloth is taken.
    LeastCloth,
}

impl Lie {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::AlongSeam, Self::OnGrain, Self::OuterEdges, Self::LeastCloth];

    /// The word for it in a source.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::AlongSeam => "along-seam",
            Self::OnGrain => "on-grain",
            Self::OuterEdges => "outer-edges-on-grain",
            Self::LeastCloth => "least-cloth",
        }
    }
}

/// What a rough cut is cut as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CutShape {
    /// A rectangle.
    Rectangle,
    /// Half of a square, cut once from corner to corner: its short sides on the grain.
    HalfSquare,
    /// A quarter of a square, cut twice from corner to corner: its long side on the grain.
    QuarterSquare,
    /// Half or a quarter of a square where the section is a right isosceles triangle, whichever puts the outer edge on the grain, or with no outer
    /// edge keeps the longest seam off the bias; else a rectangle.
    Triangles,
    /// A rectangle along the seam with its ends trimmed to the slant of the section, where that spares cloth.
    Trapezoid,
}

impl CutShape {
    /// All of them.
    pub const ALL: [Self; 5] =
        [Self::Rectangle, Self::HalfSquare, Self::QuarterSquare, Self::Triangles, Self::Trapezoid];

    /// The word for it in a source.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Rectangle => "rectangle",
            Self::HalfSquare => "half-square",
            Self::QuarterSquare => "quarter-square",
            Self::Triangles => "triangles",
            Self::Trapezoid => "trapezoid",
        }
    }
}

/// What a source says of cutting in one place; what it does not say is none.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct CutWish {
    /// How cuts are turned.
    pub lie: Option<Lie>,
    /// What they are cut as.
    pub shape: Option<CutShape>,
    /// Their ease.
    pub ease: Option<Length>,
}

impl CutWish {
    /// This, and what it does not say from further out.
    #[must_use]
    pub fn or(self, outer: Self) -> Self {
        Self { lie: self.lie.or(outer.lie), shape: self.shape.or(outer.shape), ease: self.ease.or(outer.ease) }
    }
}

/// How the piece of a section is cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CutRule {
    /// How it is turned, where the print of its fabric leaves a choice.
    pub lie: Lie,
    /// What it is cut as.
    pub shape: CutShape,
    /// Its ease.
    pub ease: Length,
    /// Where the middle of its motif lies, in grid steps of the block; none where it is cut from anywhere in the cloth.
    pub motif: Option<Point>,
}
