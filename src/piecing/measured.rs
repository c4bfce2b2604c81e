//! What a block could be sewn with at the least, against what its source asks for.

use super::plan::{self, Cost, NoPlan, Plan};
use crate::geometry::Polygon;
use crate::pattern::{Block, UnitKind};

/// A block, measured against the best plan of its areas.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// The areas: the sections of all places in order, then the patches.
    pub areas: Vec<Polygon>,
    /// The papers that the units of the source take, where it has units for all of the block.
    pub own: Option<u32>,
    /// The best plan of the areas.
    pub best: Plan,
}

impl Measured {
    /// How many papers fewer would do.
    #[must_use]
    pub fn spare(&self) -> u32 {
        let Cost { papers, .. } = self.best.cost;
        self.own.map_or(0, |own| own.saturating_sub(papers))
    }
}

/// Measures a block: all its sections are planned anew, as if they were patches.
///
/// # Errors
/// As [`plan::plan`].
pub fn measured(block: &Block, budget: u64) -> Result<Measured, NoPlan> {
    let placed = block.placements.iter().flat_map(|place| {
        let sections = block.units[place.unit].sections.iter();
        sections.map(|section| place.transform.apply_to_polygon(&section.polygon))
    });
    let areas: Vec<Polygon> = placed.chain(block.patches.iter().map(|patch| patch.polygon.clone())).collect();
    let best = plan::plan(&areas, block.tolerance, &|_| 1, budget)?;
    let on_paper = block.placements.iter().filter(|place| block.units[place.unit].kind == UnitKind::Paper).count();
    let own = block.patches.is_empty().then(|| u32::try_from(on_paper).unwrap_or(u32::MAX));
    Ok(Measured { areas, own, best })
}
