//! The planner: patches of a drawing to the best tree of straight cuts.
//!
//! Every region that straight cuts leave is convex and is known by its set of patches. Papers and match points add up over the tree, so the least of
//! both, in this order, is found exactly by dynamic programming over those sets (`search`); a cut is a line along edges that runs through no patch of
//! its region (`lines`). Any possible cut is safe, so whether a drawing can be sewn at all, and what is stuck, is decided greedily.

mod bits;
mod cure;
mod lines;
mod propose;
mod search;

pub use cure::{Cure, Divided, cure};
pub use propose::{Proposal, propose};
pub use search::Cost;

use crate::geometry::{Line, Polygon, Segment, Tolerance};
use bits::Bits;
use search::{Leaves, Made, Search};

/// The most patches of a drawing that the planner takes.
pub const MOST_PATCHES: usize = 512;

/// So many regions are looked at without `--thorough`.
pub const BUDGET: u64 = 2_000_000;

/// A plan: the tree of straight cuts, what it costs, and what is proved of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// The tree.
    pub tree: PlanTree,
    /// Its papers and match points.
    pub cost: Cost,
    /// Whether no tree has fewer papers, and none with as few has fewer match points.
    pub proved: bool,
    /// How many regions were looked at.
    pub regions: usize,
}

/// The tree of a plan.
#[derive(Debug, Clone, PartialEq)]
pub enum PlanTree {
    /// Patches sewn on one paper, in the order of sewing.
    Unit(Vec<usize>),
    /// Two parts joined.
    Join {
        /// The seam between them.
        seam: Segment,
        /// What lies on its left.
        left: Box<PlanTree>,
        /// What lies on its right.
        right: Box<PlanTree>,
    },
}

impl PlanTree {
    /// The units in it, from left to right.
    #[must_use]
    pub fn units(&self) -> Vec<&[usize]> {
        match self {
            Self::Unit(patches) => vec![patches],
            Self::Join { left, right, .. } => {
                let mut all = left.units();
                all.extend(right.units());
                all
            }
        }
    }
}

/// Why a drawing cannot be planned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoPlan {
    /// There are more patches than the planner takes.
    TooMany(usize),
    /// The regions that no straight cut divides, each by its patches: every way of cutting ends with these.
    Stuck(Vec<Vec<usize>>),
}

/// Plans a drawing: patches that tile a convex outline.
///
/// `sheets` says how many sheets of paper a unit of these patches takes. O(regions × lines × patches / 64); regions are bounded by the budget.
///
/// # Errors
/// [`NoPlan::TooMany`] beyond [`MOST_PATCHES`]; [`NoPlan::Stuck`] where no tree of straight cuts exists.
pub fn plan(
    patches: &[Polygon],
    tolerance: Tolerance,
    sheets: &dyn Fn(&[usize]) -> u32,
    budget: u64,
) -> Result<Plan, NoPlan> {
    plan_round(patches, 0, tolerance, sheets, budget)
}

/// The same for a drawing of which the first `fixed` areas are units already: each stays a paper of its own.
///
/// # Errors
/// As [`plan`].
pub fn plan_round(
    patches: &[Polygon],
    fixed: usize,
    tolerance: Tolerance,
    sheets: &dyn Fn(&[usize]) -> u32,
    budget: u64,
) -> Result<Plan, NoPlan> {
    // Sets of the smallest size that holds the patches.
    match patches.len() {
        0..=64 => planned::<1>(patches, fixed, tolerance, sheets, budget),
        65..=128 => planned::<2>(patches, fixed, tolerance, sheets, budget),
        129..=384 => planned::<6>(patches, fixed, tolerance, sheets, budget),
        385..=MOST_PATCHES => planned::<8>(patches, fixed, tolerance, sheets, budget),
        many => Err(NoPlan::TooMany(many)),
    }
}

fn planned<const W: usize>(
    patches: &[Polygon],
    fixed: usize,
    tolerance: Tolerance,
    sheets: &dyn Fn(&[usize]) -> u32,
    budget: u64,
) -> Result<Plan, NoPlan> {
    let lines = lines::lines::<W>(patches, &[], tolerance);
    let whole = Bits::<W>::below(patches.len());
    let stuck = stuck(&lines, whole);
    if !stuck.is_empty() {
        return Err(NoPlan::Stuck(stuck));
    }
    let of_unit = |unit: &Bits<W>| sheets(&unit.numbers().collect::<Vec<_>>());
    let mut search =
        Search::new(&lines, tolerance, Leaves::Patches { sheets: &of_unit, fixed: Bits::below(fixed) }, budget);
    let Some(cost) = search.cost(whole) else { return Err(NoPlan::Stuck(vec![whole.numbers().collect()])) };
    let tree = tree(&mut search, &lines, whole);
    let Some(tree) = tree else { return Err(NoPlan::Stuck(vec![whole.numbers().collect()])) };
    Ok(Plan { tree, cost, proved: search.complete(), regions: search.regions() })
}

/// The best way to join units: the tree with the fewest match points, of equal ones the one whose last seams are longest.
///
/// `outlines` are the units where they stand, `parts` their sections. `None` beyond the budget or [`MOST_PATCHES`], and where they cannot be joined.
/// O(regions × lines × units / 64).
#[must_use]
pub fn join(outlines: &[Polygon], parts: &[Vec<Polygon>], tolerance: Tolerance, budget: u64) -> Option<PlanTree> {
    match outlines.len() {
        0..=64 => joined::<1>(outlines, parts, tolerance, budget),
        65..=128 => joined::<2>(outlines, parts, tolerance, budget),
        129..=MOST_PATCHES => joined::<8>(outlines, parts, tolerance, budget),
        _ => None,
    }
}

fn joined<const W: usize>(
    outlines: &[Polygon],
    parts: &[Vec<Polygon>],
    tolerance: Tolerance,
    budget: u64,
) -> Option<PlanTree> {
    let lines = lines::lines::<W>(outlines, parts, tolerance);
    let whole = Bits::<W>::below(outlines.len());
    let mut search = Search::new(&lines, tolerance, Leaves::Units, budget);
    search.cost(whole)?;
    if search.complete() { tree(&mut search, &lines, whole) } else { None }
}

/// The regions that are left when every cut that is possible has been made: single patches are not told.
fn stuck<const W: usize>(lines: &[lines::CutLine<W>], whole: Bits<W>) -> Vec<Vec<usize>> {
    let mut open = vec![whole];
    let mut found = Vec::new();
    while let Some(region) = open.pop() {
        if region.count() <= 1 {
            continue;
        }
        match lines.iter().find_map(|line| line.cut(&region)) {
            Some(left) => open.extend([region.without(&left), left]),
            None => found.push(region.numbers().collect()),
        }
    }
    found.sort();
    found
}

fn tree<const W: usize>(search: &mut Search<'_, W>, lines: &[lines::CutLine<W>], region: Bits<W>) -> Option<PlanTree> {
    match search.made(region) {
        Made::Stuck => None,
        Made::Unit => {
            let mut order = Vec::new();
            let mut rest = region;
            while let Some(number) = search.peels(rest) {
                let left = lines.get(number as usize)?.cut(&rest)?;
                let right = rest.without(&left);
                let (off, stays) = if right.count() == 1 { (right, left) } else { (left, right) };
                order.extend(off.numbers());
                rest = stays;
            }
            order.extend(rest.numbers());
            order.reverse();
            Some(PlanTree::Unit(order))
        }
        Made::Joined(number) => {
            let line = lines.get(number as usize)?;
            let left = line.cut(&region)?;
            let (from, to) = line.chord(&region)?;
            let along: Line = line.line;
            Some(PlanTree::Join {
                seam: Segment::new(along.at(from), along.at(to)),
                left: Box::new(tree(search, lines, left)?),
                right: Box::new(tree(search, lines, region.without(&left))?),
            })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{BUDGET, Cost, NoPlan, Plan, plan};
    use crate::geometry::{Point, Polygon, Tolerance};

    fn rectangle(x: f64, y: f64, width: f64, height: f64) -> Polygon {
        Polygon::rectangle(Point::new(x, y), Point::new(x + width, y + height)).unwrap()
    }

    fn planned(patches: &[Polygon]) -> Plan {
        plan(patches, Tolerance::of_extent(8.0), &|_| 1, BUDGET).unwrap()
    }

    #[test]
    fn strips_are_one_paper() {
        let strips: Vec<Polygon> = (0..5).map(|k| rectangle(0.0, f64::from(k), 8.0, 1.0)).collect();
        assert_eq!(planned(&strips).cost, Cost { papers: 1, match_points: 0 });
    }

    #[test]
    fn a_four_patch_is_two_papers_and_one_match_point() {
        let four = [(0.0, 0.0), (4.0, 0.0), (0.0, 4.0), (4.0, 4.0)].map(|(x, y)| rectangle(x, y, 4.0, 4.0));
        assert_eq!(planned(&four).cost, Cost { papers: 2, match_points: 1 });
    }

    #[test]
    fn four_staggered_bricks_with_a_strip_down_the_side_need_three_papers() {
        let bricks = [
            rectangle(0.0, 0.0, 2.0, 2.0),
            rectangle(2.0, 0.0, 4.0, 2.0),
            rectangle(0.0, 2.0, 4.0, 2.0),
            rectangle(4.0, 2.0, 2.0, 2.0),
            rectangle(6.0, 0.0, 1.0, 4.0),
        ];
        let plan = planned(&bricks);
        assert_eq!((plan.cost, plan.proved), (Cost { papers: 3, match_points: 0 }, true));
        assert_eq!(plan.tree.units().len(), 3);
    }

    #[test]
    fn a_ring_round_a_centre_is_stuck_and_told() {
        let ring = [
            rectangle(1.0, 1.0, 1.0, 1.0),
            rectangle(0.0, 0.0, 2.0, 1.0),
            rectangle(2.0, 0.0, 1.0, 2.0),
            rectangle(1.0, 2.0, 2.0, 1.0),
            rectangle(0.0, 1.0, 1.0, 2.0),
            rectangle(3.0, 0.0, 1.0, 3.0),
        ];
        let stuck = plan(&ring, Tolerance::of_extent(4.0), &|_| 1, BUDGET).unwrap_err();
        assert_eq!(stuck, NoPlan::Stuck(vec![vec![0, 1, 2, 3, 4]]));
    }

    #[test]
    fn a_unit_that_takes_two_sheets_is_divided_where_that_costs_no_more() {
        let strips: Vec<Polygon> = (0..4).map(|k| rectangle(0.0, f64::from(k), 8.0, 1.0)).collect();
        let sheets = |unit: &[usize]| if unit.len() > 3 { 3 } else { 1 };
        let plan = plan(&strips, Tolerance::of_extent(8.0), &sheets, BUDGET).unwrap();
        assert_eq!(plan.cost.papers, 2);
        assert_eq!(plan.tree.units().len(), 2);
    }
}
