//! What foundations are printed on and how sheets are filled, as it is written.

use super::super::source::Spanned;
use super::{Name, PhysicalLength};

/// One of the wishes of a `sheets` line.
#[derive(Debug, Clone, PartialEq)]
pub enum SheetsWish {
    /// `on tabloid or a3`; at least one.
    On(Vec<Spanned<SheetMedium>>),
    /// `margin 1/4 in`
    Margin(PhysicalLength),
    /// `gap 1/8 in`
    Gap(PhysicalLength),
    /// `fewest-different within 10 %`
    FewestDifferent(Spanned<f64>),
    /// `blocks-apart`
    Word(Name),
}

/// What foundations are printed on.
#[derive(Debug, Clone, PartialEq)]
pub enum SheetMedium {
    /// `tabloid`
    Paper(Name),
    /// `roll 24 in x 60 in`: its width, and how long a sheet off it may be.
    Roll(PhysicalLength, Option<PhysicalLength>),
}
