//! What a block could be sewn with at the least, against what its source asks for.

use super::plan::{self, Asked, Drawing, NoPlan, Plan};
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

/// Measures a block: all its sections are planned anew, as if they were patches.
///
/// # Errors
/// As [`plan::plan`].
pub fn measured(block: &Block, asked: &Asked<'_>) -> Result<Measured, NoPlan> {
    let placed = block.placements.iter().flat_map(|place| {
        let sections = block.units[place.unit].sections.iter();
        sections.map(|section| (place.transform.apply_to_polygon(&section.polygon), place.fabric(section.fabric)))
    });
    let patches = block.patches.iter().map(|patch| (patch.polygon.clone(), patch.fabric));
    let (areas, fabrics): (Vec<Polygon>, Vec<usize>) = placed.chain(patches).unzip();
    let drawing = Drawing { areas: &areas, fabrics: &fabrics, fixed: &[], tolerance: block.tolerance };
    let best = plan::plan(&drawing, asked)?;
    let sheets = block.placements.iter().map(|place| (asked.bench.sheets)(&place.outline));
    let own = block.patches.is_empty().then(|| sheets.fold(0, u32::saturating_add));
    Ok(Measured { areas, fabrics, own, best })
}
