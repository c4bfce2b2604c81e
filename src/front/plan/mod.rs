//! What the planner makes of a source: the tree of straight cuts of each block, the units that it stands for, and figures of both.

mod cuts;
mod notation;
mod placing;
mod tree;
mod write;

use crate::geometry::{Length, Point, Polygon};
use crate::packet::figure::{PlanFigure, plan_figure, stuck_figure};
use crate::packet::page::Page;
use crate::packet::words::Words;
use crate::pattern::{Block, Pattern, Wish};
use crate::piecing::plan::{self, Asked, Bench, Budget, Drawing, Weighed};
use crate::piecing::{self, Called, Measured};

pub(super) use write::written;

/// How wide a figure of a plan is.
const FIGURE: Length = Length::inches(6.0);

/// The plan of a block.
#[derive(Debug, Clone, PartialEq)]
pub struct BlockPlan {
    /// The block's name.
    pub block: String,
    /// How many papers the units of the source take; none where it leaves units to the planner.
    pub own: Option<u32>,
    /// What the plan costs, wish by wish, the heaviest in front.
    pub weighed: Vec<Weighed>,
    /// The tree, a line each, indented by two blanks a level.
    pub tree: String,
    /// The units and joins as a source would state them, each line indented as within a block.
    pub notation: String,
    /// What would do without paper, if the author says so: lines of the notation.
    pub proposals: Vec<String>,
    /// Whether parts of it stand as the source has them, which is not weighed.
    pub stands: bool,
    /// The block with its papers tinted, the order of sewing in each, and the joins numbered in theirs.
    pub figure: Page,
}

impl BlockPlan {
    /// What the plan costs by a wish.
    #[must_use]
    pub fn cost(&self, wish: Wish) -> u32 {
        Weighed::cost_of(wish, &self.weighed)
    }

    /// Whether it is proved that nothing is better by this wish and all heavier ones.
    #[must_use]
    pub fn is_proved(&self, wish: Wish) -> bool {
        Weighed::is_proved_in(wish, &self.weighed)
    }
}

/// The plans of all blocks of a pattern; `None` for one that straight seams cannot sew, or that has too many areas.
pub(super) fn plans(pattern: &Pattern, benches: &[Bench<'_>], budget: Budget) -> Vec<Option<BlockPlan>> {
    let blocks = pattern.blocks.iter().zip(benches);
    blocks.map(|(block, bench)| planned(pattern, block, &Asked { wishes: &pattern.wishes, bench, budget })).collect()
}

/// The papers of a block as its author has it, the fewest that would do, and the tree of the plan with these.
pub(super) fn papers_and_tree(pattern: &Pattern, block: &Block, asked: &Asked<'_>) -> Option<(u32, u32, String)> {
    let measured = piecing::measured(block, asked).ok()?;
    let called = piecing::called(block, &measured.areas, &measured.best, &measured.standing).ok()?;
    let told = Told { pattern, block, measured: &measured, called: &called };
    Some((measured.own?, measured.best.cost(Wish::Papers), told.tree()))
}

fn planned(pattern: &Pattern, block: &Block, asked: &Asked<'_>) -> Option<BlockPlan> {
    let measured = piecing::measured(block, asked).ok()?;
    let called = piecing::called(block, &measured.areas, &measured.best, &measured.standing).ok()?;
    let told = Told { pattern, block, measured: &measured, called: &called };
    Some(BlockPlan {
        block: block.name.clone(),
        own: measured.own,
        weighed: measured.best.weighed.clone(),
        tree: told.tree(),
        notation: told.notation(),
        proposals: told.proposals(),
        stands: !measured.standing.is_empty(),
        figure: plan_figure(&told.figure(), FIGURE, &Words::english()),
    })
}

/// The figures of blocks that cannot be planned: what is stuck, and the seams that would free it.
pub(super) fn stuck(pattern: &Pattern) -> Vec<Page> {
    let blocks = pattern.blocks.iter().filter(|block| !block.patches.is_empty());
    let figures = blocks.filter_map(|block| {
        let groups = piecing::standing(block, &Bench::boundless());
        let fixed: Vec<u32> = groups.iter().map(|group| group.papers).collect();
        let groups = groups.into_iter().map(|group| group.outline);
        let areas: Vec<_> = groups.chain(block.patches.iter().map(|patch| patch.polygon.clone())).collect();
        let drawing = Drawing { areas: &areas, fabrics: &[], fixed: &fixed, tolerance: block.tolerance };
        let regions = plan::stuck_regions(&drawing);
        let cures: Vec<_> = regions.iter().filter_map(|region| plan::cure(&drawing, region)).collect();
        let seams: Vec<_> = cures.iter().flat_map(|cure| &cure.divided).flat_map(|of| of.seams.clone()).collect();
        let figure = stuck_figure((&block.name, &block.outline), &areas, &regions, &seams, FIGURE, &Words::english());
        (!regions.is_empty()).then_some(figure)
    });
    figures.collect()
}

/// A plan being told.
struct Told<'p> {
    pattern: &'p Pattern,
    block: &'p Block,
    measured: &'p Measured,
    /// By unit from left to right.
    called: &'p [Called],
}

impl Told<'_> {
    /// Whether an area stands as the source has it.
    fn stands(&self, area: usize) -> bool {
        area < self.measured.standing.len()
    }

    /// The corner of the drawing at a point that was computed.
    fn corner(&self, point: Point) -> Point {
        let corners = self.measured.areas.iter().flat_map(Polygon::corners).chain(self.block.outline.corners());
        let near = corners.copied().filter(|corner| self.block.tolerance.is_zero(corner.distance(point)));
        near.min_by(|a, b| a.distance(point).total_cmp(&b.distance(point))).unwrap_or(point)
    }

    /// The key of the fabric of an area.
    fn key(&self, area: usize) -> &str {
        let fabric = self.measured.fabrics.get(area).and_then(|&fabric| self.pattern.fabrics.get(fabric));
        fabric.map_or("", |fabric| fabric.key.as_str())
    }

    fn figure(&self) -> PlanFigure<'_> {
        let tree = &self.measured.best.tree;
        let (mut papers, mut standing) = (Vec::new(), Vec::new());
        for (unit, called) in tree.units().into_iter().zip(self.called) {
            let group = unit.first().and_then(|&area| self.measured.standing.get(area));
            if let Some(group) = group {
                let places = group.places.iter().filter_map(|&place| self.block.placements.get(place));
                standing.push((called.place.as_str(), places.map(|place| &place.outline).collect()));
            } else {
                let areas = unit.iter().filter_map(|&area| self.measured.areas.get(area)).collect();
                papers.push((called.place.as_str(), areas));
            }
        }
        PlanFigure { name: &self.block.name, outline: &self.block.outline, papers, standing, joins: tree.joins() }
    }
}
