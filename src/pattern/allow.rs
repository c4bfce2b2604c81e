//! Which warnings a source silences, and where.

use crate::fault::{Code, Fault, names};
use crate::notation::source::Span;

/// A part of the pattern, from the whole down to one section or join.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Site {
    /// The block, by index; none for the whole pattern.
    pub block: Option<usize>,
    /// The unit, by index in its block.
    pub unit: Option<usize>,
    /// The section or join.
    pub part: Option<Part>,
}

/// A section of a unit or a join of a block.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// By index in its unit.
    Section(usize),
    /// By index among the joins that the source states.
    Join(usize),
}

impl Site {
    /// A whole block.
    #[must_use]
    pub fn block(block: usize) -> Self {
        Self { block: Some(block), ..Self::default() }
    }

    /// A whole unit.
    #[must_use]
    pub fn unit(block: usize, unit: usize) -> Self {
        Self { block: Some(block), unit: Some(unit), part: None }
    }

    /// A section.
    #[must_use]
    pub fn section(block: usize, unit: usize, section: usize) -> Self {
        Self { block: Some(block), unit: Some(unit), part: Some(Part::Section(section)) }
    }

    /// A join that the source states.
    #[must_use]
    pub fn join(block: usize, join: usize) -> Self {
        Self { block: Some(block), unit: None, part: Some(Part::Join(join)) }
    }

    /// Whether another site lies within this one.
    fn holds(self, other: Self) -> bool {
        (self.block.is_none() || self.block == other.block)
            && (self.unit.is_none() || self.unit == other.unit)
            && (self.part.is_none() || self.part == other.part)
    }
}

/// An `allow` line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Allow {
    /// The warning that it silences.
    pub code: Code,
    /// Where it holds.
    pub site: Site,
    /// Where it stands.
    pub span: Span,
}

/// Drops the warnings that are silenced where they arise, and notes in `used` which of the `allow` lines silenced any.
#[must_use]
pub fn sift(allows: &[Allow], warnings: Vec<(Site, Fault)>, used: &mut [bool]) -> Vec<Fault> {
    let mut kept = Vec::new();
    for (site, fault) in warnings {
        let mut silenced = false;
        for (allow, used) in allows.iter().zip(used.iter_mut()) {
            if allow.code == fault.code && allow.site.holds(site) {
                (silenced, *used) = (true, true);
            }
        }
        if !silenced {
            kept.push(fault);
        }
    }
    kept
}

/// A warning for every `allow` line that silenced nothing, unless an `allow unused-allow` speaks of it.
#[must_use]
pub fn unused_allows(allows: &[Allow], used: &[bool]) -> Vec<Fault> {
    let spoken_for = |site: Site| allows.iter().any(|other| other.code == Code::UnusedAllow && other.site.holds(site));
    let unused = allows
        .iter()
        .zip(used)
        .filter(|(allow, used)| !**used && allow.code != Code::UnusedAllow && !spoken_for(allow.site));
    unused.map(|(allow, _)| names::unused_allow(allow.span, allow.code.slug())).collect()
}
