//! Places of units and the joins between them, as they are written.

use super::super::source::{Span, Spanned};
use super::{Angle, Coordinates, LineRef, Name, PointRef};

/// A further place of a unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// The unit.
    pub unit: Name,
    /// Its name there.
    pub name: Option<Name>,
    /// The words that follow, in order.
    pub changes: Vec<Spanned<Change>>,
}

/// A word of a `place` line.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// `moved 4, 0`
    Moved(Coordinates),
    /// `turned 90 deg about P`
    Turned(Angle, PointRef),
    /// `mirrored over LINE`
    Mirrored(LineRef),
    /// `with a as b, c as d`
    Recoloured(Vec<(Name, Name)>),
    /// `8 in all round P`
    Round(Spanned<u32>, PointRef),
    /// `4 in all every 4, 0`
    Every(Spanned<u32>, Coordinates),
}

/// A place where a join calls it.
#[derive(Debug, Clone, PartialEq)]
pub struct PlaceRef {
    /// The name.
    pub name: Name,
    /// The number after `#`.
    pub number: Option<Spanned<u32>>,
}

impl PlaceRef {
    /// Where it stands.
    #[must_use]
    pub fn span(&self) -> Span {
        self.number.as_ref().map_or(self.name.span, |number| self.name.span.to(number.span))
    }
}

/// What a join is, by the word with which its line starts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JoinKind {
    /// `join roof lamp`
    Straight,
    /// `partial core north east south west`
    Partial,
    /// `inset bow port starboard`
    Inset,
}

/// A join.
#[derive(Debug, Clone, PartialEq)]
pub struct Join {
    /// What it is.
    pub kind: JoinKind,
    /// What is joined: two or more; a centre and at least three round it; or three, the one that is set in in front.
    pub members: Vec<PlaceRef>,
    /// The name of the join and of the group it makes.
    pub name: Option<Name>,
    /// How it is pressed.
    pub press: Option<Spanned<Pressing>>,
}

/// The author's word on pressing.
#[derive(Debug, Clone, PartialEq)]
pub enum Pressing {
    /// `pressed open`
    Open,
    /// `pressed toward NAME`
    Toward(PlaceRef),
}
