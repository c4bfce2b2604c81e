//! What a block could be sewn with at the least, against what its source asks for.

use super::plan::{self, Asked, Bench, Drawing, NoPlan, Plan};
use crate::geometry::Polygon;
use crate::pattern::{Block, Wish};

/// A block, measured against the best plan of its areas.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// The areas: the sections of all places in order, then the patches.
    pub areas: Vec<Polygon>,
    /// Their fabrics, by index in [`crate::pattern::Pattern::fabrics`].
    pub fabrics: Vec<usize>,
    /// The papers that the units of the source take, where it has units for all of the block; one that does not fit the page counts as its sheets.
    pub own: Option<u32>,
    /// The best plan of the areas.
    pub best: Plan,
}

impl Measured {
    /// How many papers fewer would do.
    #[must_use]
    pub fn spare(&self) -> u32 {
        self.own.map_or(0, |own| own.saturating_sub(self.best.cost(Wish::Papers)))
    }
}

/// The papers of a block whose units take more of them than it needs, and how many regions were looked at to find that out.
///
/// `None` where its papers are the fewest, where that is not known within the budget of regions, and where the planner makes its units.
#[must_use]
pub fn fewer_papers(block: &Block, bench: &Bench<'_>, budget: u64) -> (Option<u32>, u64) {
    if !block.patches.is_empty() || block.placements.len() < 2 || budget == 0 {
        return (None, 0);
    }
    let own = block.placements.iter().map(|place| (bench.sheets)(&place.outline)).fold(0, u32::saturating_add);
    let (areas, fabrics) = areas(block);
    let drawing = Drawing { areas: &areas, fabrics: &fabrics, fixed: &[], tolerance: block.tolerance };
    let (fewest, regions) = plan::fewest_papers(&drawing, bench, budget);
    (fewest.filter(|fewest| *fewest < own).map(|_| own), regions)
}

/// The areas of a block and their fabrics: the sections of all places in order, then the patches.
fn areas(block: &Block) -> (Vec<Polygon>, Vec<usize>) {
    let placed = block.placements.iter().flat_map(|place| {
        let sections = block.units[place.unit].sections.iter();
        sections.map(|section| (place.transform.apply_to_polygon(&section.polygon), place.fabric(section.fabric)))
    });
    let patches = block.patches.iter().map(|patch| (patch.polygon.clone(), patch.fabric));
    placed.chain(patches).unzip()
}

/// Measures a block: all its sections are planned anew, as if they were patches.
///
/// # Errors
/// As [`plan::plan`].
pub fn measured(block: &Block, asked: &Asked<'_>) -> Result<Measured, NoPlan> {
    let (areas, fabrics) = areas(block);
    let drawing = Drawing { areas: &areas, fabrics: &fabrics, fixed: &[], tolerance: block.tolerance };
    let best = plan::plan(&drawing, asked)?;
    let sheets = block.placements.iter().map(|place| (asked.bench.sheets)(&place.outline));
    let own = block.patches.is_empty().then(|| sheets.fold(0, u32::saturating_add));
    Ok(Measured { areas, fabrics, own, best })
}
