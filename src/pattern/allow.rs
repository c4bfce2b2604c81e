//! Which warnings a source silences, and where.

use std::collections::{BTreeMap, BTreeSet};

use crate::fault::{Code, Fault, names};
use crate::notation::source::Span;

/// A part of the pattern, from the whole down to one section or join.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Site {
    /// The block, by index; none for the whole pattern.
    pub block: Option<usize>,
    /// The unit, by index in its block.
    pub unit: Option<usize>,
    /// The section or join.
    pub part: Option<Part>,
}

/// A section of a unit or a join of a block.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
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

    /// The sites that this one lies in, itself first.
    fn around(self) -> impl Iterator<Item = Self> {
        let blocks = [self.block, None];
        let units = [self.unit, None];
        let parts = [self.part, None];
        blocks.into_iter().flat_map(move |block| {
            units.into_iter().flat_map(move |unit| parts.into_iter().map(move |part| Self { block, unit, part }))
        })
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
/// O((lines + warnings) log lines).
#[must_use]
pub fn sift(allows: &[Allow], warnings: Vec<(Site, Fault)>, used: &mut [bool]) -> Vec<Fault> {
    // Several lines may say the same: all of them count as used.
    let mut by_site: BTreeMap<(Code, Site), (bool, Vec<usize>)> = BTreeMap::new();
    for (index, allow) in allows.iter().enumerate() {
        by_site.entry((allow.code, allow.site)).or_default().1.push(index);
    }
    let mut kept = Vec::new();
    for (site, fault) in warnings {
        let mut silenced = false;
        for around in site.around() {
            if let Some((hit, _)) = by_site.get_mut(&(fault.code, around)) {
                (silenced, *hit) = (true, true);
            }
        }
        if !silenced {
            kept.push(fault);
        }
    }
    for index in by_site.into_values().filter(|(hit, _)| *hit).flat_map(|(_, lines)| lines) {
        if let Some(used) = used.get_mut(index) {
            *used = true;
        }
    }
    kept
}

/// A warning for every `allow` line that silenced nothing, unless an `allow unused-allow` speaks of it.
#[must_use]
pub fn unused_allows(allows: &[Allow], used: &[bool]) -> Vec<Fault> {
    let speaking: BTreeSet<Site> =
        allows.iter().filter(|allow| allow.code == Code::UnusedAllow).map(|allow| allow.site).collect();
    let spoken_for = |site: Site| site.around().any(|around| speaking.contains(&around));
    let unused = allows
        .iter()
        .zip(used)
        .filter(|(allow, used)| !**used && allow.code != Code::UnusedAllow && !spoken_for(allow.site));
    unused.map(|(allow, _)| names::unused_allow(allow.span, allow.code.slug())).collect()
}
