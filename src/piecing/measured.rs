//! What a block could be sewn with at the least, against what its source asks for.

use super::plan::{self, Asked, Bench, Drawing, NoPlan, Plan};
use super::planned::foundations;
use super::standing::{Standing, leaves, papers};
use crate::geometry::Polygon;
use crate::pattern::Block;

/// A block, measured against the best plan of its areas.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// The areas: what stands, then the sections of all other places in order, then the patches.
    pub areas: Vec<Polygon>,
    /// Their fabrics, by index in [`crate::pattern::Pattern::fabrics`]; of what stands, a number that no fabric has.
    pub fabrics: Vec<usize>,
    /// What stands as the source has it: rings, inset corners, plain pieces, units with pieced sections.
    pub standing: Vec<Standing>,
    /// The papers that the units of the source take, where it has units for all of the block; one that does not fit the page counts as its sheets.
    pub own: Option<u32>,
    /// The best plan of the areas.
    pub best: Plan,
}

/// So many looks, of a region at an area, are spent on one block to find out whether fewer papers would do.
const MOST_LOOKS: u64 = 6_000_000;

/// How many papers fewer would do for a block whose units its author drew, and how many regions were looked at to find that out.
///
/// `None` where that is not known within the budget of regions, where straight seams alone cannot sew it, and where the planner makes its units.
#[must_use]
pub fn spare_papers(block: &Block, bench: &Bench<'_>, budget: u64) -> (Option<u32>, u64) {
    if !block.patches.is_empty() || budget == 0 {
        return (None, 0);
    }
    let own = own_papers(block, bench);
    let ground = Ground::of(block, bench);
    // Each region is held against every line of the drawing: of large drawings fewer are looked at.
    let budget = budget.min(MOST_LOOKS / (ground.areas.len() as u64).max(1));
    let (fewest, regions) = plan::fewest_papers(&ground.drawing(block), bench, budget);
    (fewest.map(|fewest| own.saturating_sub(fewest)), regions)
}

/// The papers that the units of a block take; one that does not fit the page counts as its sheets.
fn own_papers(block: &Block, bench: &Bench<'_>) -> u32 {
    (0..block.placements.len()).map(|place| papers(block, bench, place)).fold(0, u32::saturating_add)
}

/// What is planned of a block.
struct Ground {
    standing: Vec<Standing>,
    /// The papers of what stands.
    fixed: Vec<u32>,
    areas: Vec<Polygon>,
    fabrics: Vec<usize>,
}

impl Ground {
    fn of(block: &Block, bench: &Bench<'_>) -> Self {
        let standing = leaves(block, bench);
        let fixed = standing.iter().map(|group| group.papers).collect();
        let stands = |place: usize| standing.iter().any(|group| group.places.contains(&place));
        let others = block.placements.iter().enumerate().filter(|(number, _)| !stands(*number));
        let sections = others.flat_map(|(_, place)| {
            let sections = block.units[place.unit].sections.iter();
            sections.map(|section| (place.transform.apply_to_polygon(&section.polygon), place.fabric(section.fabric)))
        });
        let groups = standing.iter().enumerate().map(|(number, group)| (group.outline.clone(), usize::MAX - number));
        let patches = block.patches.iter().map(|patch| (patch.polygon.clone(), patch.fabric));
        let (areas, fabrics) = groups.chain(sections).chain(patches).unzip();
        Self { standing, fixed, areas, fabrics }
    }

    fn drawing(&self, block: &Block) -> Drawing<'_> {
        Drawing { areas: &self.areas, fabrics: &self.fabrics, fixed: &self.fixed, tolerance: block.tolerance }
    }
}

/// Measures a block: all its sections are planned anew, as if they were patches, but those of rings, inset corners, plain pieces and units with pieced sections, which stay.
///
/// # Errors
/// As [`plan::plan`].
pub fn measured(block: &Block, asked: &Asked<'_>) -> Result<Measured, NoPlan> {
    let ground = Ground::of(block, asked.bench);
    let mut best = plan::plan(&ground.drawing(block), asked)?;
    let within: Vec<usize> = ground.standing.iter().flat_map(|group| group.places.iter().copied()).collect();
    let groups = u32::try_from(ground.standing.len()).unwrap_or(u32::MAX);
    best.count_foundations(groups, foundations(block, &within));
    let own = block.patches.is_empty().then(|| own_papers(block, asked.bench));
    let Ground { standing, areas, fabrics, .. } = ground;
    Ok(Measured { areas, fabrics, standing, own, best })
}
