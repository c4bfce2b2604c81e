//! What the planner makes of a source: the tree of straight cuts of each block, and the units that it stands for, in the notation.

use std::fmt::Write as _;

use crate::geometry::{Polygon, Tolerance};
use crate::pattern::{Block, Pattern, corner_source};
use crate::piecing::plan::{BUDGET, NoPlan, PlanTree};
use crate::piecing::{self, Measured};

/// The plan of a block.
#[derive(Debug, Clone, PartialEq)]
pub struct BlockPlan {
    /// The block's name.
    pub block: String,
    /// How many papers the units of the source take; none where it leaves units to the planner.
    pub own: Option<u32>,
    /// How many papers would do.
    pub papers: u32,
    /// How many match points the joins of these have.
    pub match_points: u32,
    /// Whether it is proved that no plan needs fewer papers, and none with as few has fewer match points.
    pub proved: bool,
    /// The tree, a line each, indented by two blanks a level.
    pub tree: String,
    /// The units and joins as a source would state them, each line indented as within a block.
    pub notation: String,
}

/// The plans of all blocks of a pattern; `None` for one that straight seams cannot sew, or that has too many areas.
pub(super) fn plans(pattern: &Pattern) -> Vec<Option<BlockPlan>> {
    pattern.blocks.iter().map(|block| plan(pattern, block)).collect()
}

fn plan(pattern: &Pattern, block: &Block) -> Option<BlockPlan> {
    let measured = match piecing::measured(block, BUDGET) {
        Ok(measured) => measured,
        Err(NoPlan::TooMany(_) | NoPlan::Stuck(_)) => return None,
    };
    let fabrics = fabrics(block);
    let keys = |area: usize| {
        let fabric = fabrics.get(area).and_then(|&fabric| pattern.fabrics.get(fabric));
        fabric.map_or("", |fabric| fabric.key.as_str())
    };
    let (tree, notation) = (String::new(), String::new());
    let mut told = Told { measured: &measured, keys: &keys, tolerance: block.tolerance, papers: 0, tree, notation };
    told.part(&measured.best.tree, 0);
    let (tree, notation) = (told.tree, told.notation);
    let cost = measured.best.cost;
    Some(BlockPlan {
        block: block.name.clone(),
        own: measured.own,
        papers: cost.papers,
        match_points: cost.match_points,
        proved: measured.best.proved,
        tree,
        notation,
    })
}

/// The fabric of each area of [`Measured::areas`].
fn fabrics(block: &Block) -> Vec<usize> {
    let placed = block
        .placements
        .iter()
        .flat_map(|place| block.units[place.unit].sections.iter().map(|section| place.fabric(section.fabric)));
    placed.chain(block.patches.iter().map(|patch| patch.fabric)).collect()
}

/// A plan while it is told.
struct Told<'p> {
    measured: &'p Measured,
    keys: &'p dyn Fn(usize) -> &'p str,
    tolerance: Tolerance,
    papers: usize,
    tree: String,
    notation: String,
}

impl Told<'_> {
    /// Tells a part of the tree; gives the name by which a join speaks of it.
    fn part(&mut self, part: &PlanTree, depth: usize) -> String {
        let indent = "  ".repeat(depth);
        // Writing to a string cannot fail.
        match part {
            PlanTree::Unit(areas) => {
                self.papers += 1;
                let name = format!("paper-{}", self.papers);
                let sections: Vec<&str> = areas.iter().map(|&area| (self.keys)(area)).collect();
                let _ = writeln!(self.tree, "{indent}{name}: {}", sections.join(", "));
                self.unit(&name, areas);
                name
            }
            PlanTree::Join { seam, left, right } => {
                let _ = writeln!(
                    self.tree,
                    "{indent}joined along {} -- {}",
                    corner_source(seam.start),
                    corner_source(seam.end)
                );
                let left = self.part(left, depth + 1);
                let right = self.part(right, depth + 1);
                let _ = writeln!(self.notation, "  join {left} {right}");
                left
            }
        }
    }

    fn unit(&mut self, name: &str, areas: &[usize]) {
        let polygons = areas.iter().filter_map(|&area| self.measured.areas.get(area));
        let corners = polygons.flat_map(Polygon::corners).copied();
        let Some(outline) = Polygon::hull(corners, self.tolerance) else { return };
        let _ = writeln!(self.notation, "  unit {name} {{\n    outline {}", path(&outline));
        for (number, &area) in (1..).zip(areas) {
            let Some(polygon) = self.measured.areas.get(area) else { continue };
            let _ = writeln!(self.notation, "    {number} {} {}", (self.keys)(area), path(polygon));
        }
        self.notation.push_str("  }\n");
    }
}

/// A path as the notation has it.
fn path(polygon: &Polygon) -> String {
    polygon.corners().iter().map(|&point| corner_source(point)).collect::<Vec<_>>().join(" -- ")
}
