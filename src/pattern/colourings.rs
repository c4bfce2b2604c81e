//! Colourings: other fabrics for the whole pattern.

use std::collections::{BTreeMap, BTreeSet};

use crate::fault::{Fault, names};
use crate::notation::source::Span;
use crate::notation::syntax;

use super::allow::Site;
use super::unit::Fabrics;
use super::{Block, Pattern};

/// Colourings of one pattern at the most.
const MOST_COLOURINGS: usize = 20;

/// Other fabrics for the whole pattern.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Colouring {
    /// The key by which a build asks for it.
    pub key: String,
    /// The name that the packet prints.
    pub title: String,
    /// Which fabrics become which, all at once, by index in [`Pattern::fabrics`].
    pub fabrics: Vec<(usize, usize)>,
}

impl Colouring {
    /// What a fabric becomes.
    #[must_use]
    pub fn fabric(&self, drawn: usize) -> usize {
        self.fabrics.iter().find(|(from, _)| *from == drawn).map_or(drawn, |&(_, to)| to)
    }
}

/// A colouring with its places in the source: of its key, and of each fabric that it exchanges.
pub struct Placed {
    pub colouring: Colouring,
    exchanged: Vec<Span>,
}

/// Binds the fabrics of the colourings.
pub fn colourings(lines: &[(&syntax::Colouring, Span)], fabrics: &mut Fabrics, faults: &mut Vec<Fault>) -> Vec<Placed> {
    let mut keys: BTreeMap<&str, Span> = BTreeMap::new();
    let mut titles: BTreeMap<&str, Span> = BTreeMap::new();
    let mut placed = Vec::new();
    if let Some((_, span)) = lines.get(MOST_COLOURINGS) {
        let most = u32::try_from(MOST_COLOURINGS).unwrap_or(u32::MAX);
        faults.push(crate::fault::sizes::count_out_of_range(*span, "the number of colourings", 1, most));
        return placed;
    }
    for (line, _) in lines {
        for (name, span, taken) in
            [(&line.key.value, line.key.span, &mut keys), (&line.title.value, line.title.span, &mut titles)]
        {
            if let Some(&first) = taken.get(name.as_str()) {
                faults.push(names::doubled_name(span, name, Some(first)));
            }
            taken.insert(name, span);
        }
        let mut pairs = Vec::new();
        let mut exchanged: BTreeMap<usize, Span> = BTreeMap::new();
        for (from, to) in &line.exchanges {
            // Both are looked for, so that the faults of both are seen.
            let (found, other) = (fabrics.find(from), fabrics.find(to));
            match (found, other) {
                (Ok(found), Ok(other)) => {
                    if let Some(&first) = exchanged.get(&found) {
                        faults.push(names::exchanged_twice(from.span, &from.value, first));
                        continue;
                    }
                    exchanged.insert(found, from.span);
                    pairs.push((found, other, from.span));
                }
                (found, other) => faults.extend([found.err(), other.err()].into_iter().flatten().map(|fault| *fault)),
            }
        }
        placed.push(Placed {
            exchanged: pairs.iter().map(|&(.., span)| span).collect(),
            colouring: Colouring {
                key: line.key.value.clone(),
                title: line.title.value.clone(),
                fabrics: pairs.iter().map(|&(from, to, _)| (from, to)).collect(),
            },
        });
    }
    placed
}

/// Warnings of fabrics that a colouring exchanges and no block has. O(exchanges + sections × places).
pub fn idle(placed: &[Placed], blocks: &[Block], fabric_key: impl Fn(usize) -> String) -> Vec<(Site, Fault)> {
    if placed.is_empty() {
        return Vec::new();
    }
    let mut sewn = BTreeSet::new();
    for block in blocks {
        for place in &block.placements {
            let sections = block.units.get(place.unit).into_iter().flat_map(|unit| &unit.sections);
            sewn.extend(
                sections.flat_map(|section| section.fabrics().collect::<Vec<_>>()).map(|fabric| place.fabric(fabric)),
            );
        }
    }
    let mut found = Vec::new();
    for Placed { colouring, exchanged } in placed {
        for (&(from, _), &span) in colouring.fabrics.iter().zip(exchanged) {
            if !sewn.contains(&from) {
                found.push((Site::default(), names::idle_exchange(span, &colouring.key, &fabric_key(from))));
            }
        }
    }
    found
}

impl Pattern {
    /// The pattern in one of its colourings, by index in [`Self::colourings`]; as drawn if there is no such one.
    ///
    /// Only fabrics change: sections keep the fabric they are drawn in, and [`Self::fabric`] and the placements tell what it becomes.
    #[must_use]
    pub fn coloured(&self, index: usize) -> Self {
        let mut coloured = self.clone();
        let Some(colouring) = self.colourings.get(index) else { return coloured };
        for place in coloured.blocks.iter_mut().flat_map(|block| &mut block.placements) {
            let became = (0..self.fabrics.len()).map(|drawn| (drawn, colouring.fabric(place.fabric(drawn))));
            place.recolour = became.filter(|(drawn, became)| drawn != became).collect();
        }
        coloured.colouring = Some(index);
        coloured
    }

    /// What a fabric in which a section is drawn is in the colouring of this pattern, where no place recolours it.
    #[must_use]
    pub fn fabric(&self, drawn: usize) -> usize {
        let colouring = self.colouring.and_then(|index| self.colourings.get(index));
        colouring.map_or(drawn, |colouring| colouring.fabric(drawn))
    }
}
