//! What a plan is to be like: the wishes that the planner weighs, and their order.

use super::scope::Resolved;
use crate::fault::patches as words;
use crate::notation::syntax::Name;

/// A wish for the plan of a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wish {
    /// Few papers. Costs the papers; one that does not fit the page counts as its sheets.
    Papers,
    /// Few match points. Costs the match points.
    MatchPoints,
    /// Papers that are alike up to turning, in the same fabrics. Costs the foundations that differ.
    EqualPapers,
    /// No seams shorter than half an inch. Costs those that are.
    LongSeams,
    /// Allowances that nest where seams of two papers meet at a join. Costs the points at which they do not.
    Nesting,
    /// Allowances under the darker piece. Costs, seam by seam, the steps of CIE L* by which the darkest allowance under the newest piece is darker than
    /// would not show ([`super::facts::SHOWS_THROUGH`]).
    DarkerSide,
    /// Pieces that may be turned a little and still cover their section. Costs the whole degrees by which each falls short of ten.
    TurnSlack,
}

impl Wish {
    /// All wishes as they are weighed where the source does not say.
    pub const USUAL: [Self; 7] = [
        Self::Papers,
        Self::MatchPoints,
        Self::EqualPapers,
        Self::LongSeams,
        Self::Nesting,
        Self::DarkerSide,
        Self::TurnSlack,
    ];

    /// The word for it in a source.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Papers => "papers",
            Self::MatchPoints => "match-points",
            Self::EqualPapers => "equal-papers",
            Self::LongSeams => "long-seams",
            Self::Nesting => "nesting",
            Self::DarkerSide => "darker-side",
            Self::TurnSlack => "turn-slack",
        }
    }

    /// Whether it is about the tree of cuts; else it is about the order of sewing, which is settled after the tree.
    #[must_use]
    pub const fn is_about_the_tree(self) -> bool {
        matches!(self, Self::Papers | Self::MatchPoints | Self::EqualPapers | Self::LongSeams)
    }
}

/// The order of all wishes, those that a source names in front.
///
/// # Errors
/// A wish that is named twice, or one about the tree that stands after one about the order of sewing.
pub(super) fn wishes(named: &[Name]) -> Resolved<Vec<Wish>> {
    let mut order: Vec<(Wish, &Name)> = Vec::new();
    for name in named {
        let Some(wish) = Wish::USUAL.into_iter().find(|wish| wish.word() == name.value) else { continue };
        if let Some((_, first)) = order.iter().find(|(other, _)| *other == wish) {
            return Err(Box::new(words::wish_twice(name.span, &name.value, first.span)));
        }
        let sewing = order.iter().find(|(other, _)| !other.is_about_the_tree());
        if let Some((_, before)) = sewing.filter(|_| wish.is_about_the_tree()) {
            return Err(Box::new(words::wish_too_late(name.span, &name.value, (&before.value, before.span))));
        }
        order.push((wish, name));
    }
    let named: Vec<Wish> = order.into_iter().map(|(wish, _)| wish).collect();
    let rest = Wish::USUAL.into_iter().filter(|wish| !named.contains(wish));
    let (tree, sewing): (Vec<Wish>, Vec<Wish>) = named.iter().copied().chain(rest).partition(|w| w.is_about_the_tree());
    Ok([tree, sewing].concat())
}
