//! The tree of straight cuts: the proof that a pattern can be sewn, and everything that is read off it.
//!
//! A unit is sewn section by section, each cut off what is sewn so far by one straight line (`peel`). The units of a block are joined two groups at a
//! time, each time along one straight seam (`joins`). Both work in the grid steps of the pattern, so that every finished size decides alike.

mod ends;
mod joins;
mod measured;
mod peel;
mod pieced;
pub mod plan;
mod planned;
mod pressing;

pub use measured::{Measured, measured};
pub use pieced::{inner_seams, pressed_to_next};
pub use planned::planned;

use crate::fault::{Fault, sections};
use crate::geometry::{Point, Segment};
use crate::notation::source::Span;
use crate::pattern::{Block, Pattern};

/// How every block of a pattern is sewn.
#[derive(Debug, Clone, PartialEq)]
pub struct Proof {
    /// By block.
    pub blocks: Vec<BlockProof>,
}

/// How one block is sewn.
#[derive(Debug, Clone, PartialEq)]
pub struct BlockProof {
    /// By unit: the seam of each section, none for section 1. Directed so that the section lies on its right.
    pub seams: Vec<Vec<Option<Segment>>>,
    /// The joins, in the order of sewing.
    pub joins: Vec<Join>,
    /// The tree.
    pub tree: Tree,
}

/// The tree of straight cuts of a block, as it is sewn: leaves first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Tree {
    /// One unit, by index among the placements of the block.
    Unit(usize),
    /// Two parts sewn together.
    Join {
        /// The join, by index among those of the block.
        join: usize,
        /// What lies on its left.
        left: Box<Tree>,
        /// What lies on its right.
        right: Box<Tree>,
    },
}

impl Tree {
    /// The placements in it, from left to right.
    #[must_use]
    pub fn placements(&self) -> Vec<usize> {
        match self {
            Self::Unit(placement) => vec![*placement],
            Self::Join { left, right, .. } => {
                let mut all = left.placements();
                all.extend(right.placements());
                all
            }
        }
    }
}

/// Which way the allowances of a join are pressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Press {
    /// Both under the left side.
    Left,
    /// Both under the right side.
    Right,
    /// Apart.
    Open,
}

/// A seam between two groups, in steps of the block.
#[derive(Debug, Clone, PartialEq)]
pub struct Join {
    /// The name that the source gives it.
    pub name: Option<String>,
    /// The statement that asks for it, by index among the stated joins of the block, if one does.
    pub stated: Option<usize>,
    /// What lies on its left, by index among the placements, ascending.
    pub left: Vec<usize>,
    /// What lies on its right.
    pub right: Vec<usize>,
    /// Its line. It runs upward, or to the right where it is level; left and right are as seen on that way.
    pub seam: Segment,
    /// Which way it is pressed.
    pub press: Press,
    /// Where seams of both sides end at one point strictly inside it, in order along it.
    pub match_points: Vec<MatchPoint>,
    /// Where two or more seams of one side end and none of the other.
    pub tips: Vec<Point>,
    /// Where seams of the left and of the right side end alone.
    pub loose_ends: [Vec<Point>; 2],
}

/// A point of a join at which seams of both sides end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MatchPoint {
    /// Where.
    pub at: Point,
    /// Whether the allowances of the two sides point opposite ways along the join.
    pub nests: bool,
    /// Layers of fabric there once it is sewn: two for each seam that ends there, the join itself counted twice.
    pub layers: u32,
}

/// Proves that a pattern can be sewn.
///
/// # Errors
/// Every section that does not go on with one straight seam, and every block whose units no straight seams can join.
pub fn prove(pattern: &Pattern) -> Result<Proof, Vec<Fault>> {
    let mut faults = Vec::new();
    let mut blocks = Vec::with_capacity(pattern.blocks.len());
    for block in &pattern.blocks {
        let before = faults.len();
        let seams = seams(block, &mut faults);
        if faults.len() > before {
            continue;
        }
        // Where units are joined the seams within pieced sections count too.
        let all: Vec<Vec<Option<Segment>>> = (seams.iter().zip(&block.units))
            .map(|(seams, unit)| seams.iter().copied().chain(inner_seams(pattern, unit).map(Some)).collect())
            .collect();
        match joins::plan(block, &all) {
            Ok((mut joins, tree)) => {
                pressing::press(pattern, block, &all, &mut joins);
                blocks.push(BlockProof { seams, joins, tree });
            }
            Err(fault) => faults.push(*fault),
        }
    }
    if faults.is_empty() { Ok(Proof { blocks }) } else { Err(faults) }
}

/// The seams of all units of a block.
fn seams(block: &Block, faults: &mut Vec<Fault>) -> Vec<Vec<Option<Segment>>> {
    let mut all = Vec::with_capacity(block.units.len());
    for unit in &block.units {
        let areas: Vec<_> = unit.sections.iter().map(|section| &section.polygon).collect();
        match peel::peel(&unit.outline, &areas, block.tolerance) {
            Ok(seams) => all.push(seams),
            Err(stuck) => {
                let number = |index: usize| u32::try_from(index + 1).unwrap_or(u32::MAX);
                let place = |index: usize| -> Span { unit.sections[index].span };
                let meets: Vec<_> =
                    stuck.meets.iter().map(|&(other, line)| (number(other), place(other), line)).collect();
                let order: Option<Vec<u32>> = stuck.order.map(|order| order.into_iter().map(number).collect());
                let locked: Vec<_> = stuck.locked.iter().map(|&index| (number(index), place(index))).collect();
                faults.push(sections::not_one_seam(&sections::NotOneSeam {
                    section: (number(stuck.section), place(stuck.section)),
                    meets: &meets,
                    order: order.as_deref(),
                    stuck: &locked,
                }));
            }
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::{Press, prove};
    use crate::pattern::{ReadFault, Shelf, read_sources, resolve};

    struct Bare;

    impl Shelf for Bare {
        fn read(&self, _: &str) -> Result<String, ReadFault> {
            Err(ReadFault::NotFound)
        }
    }

    fn proof(block: &str) -> super::BlockProof {
        let head =
            "pattern \"A\"\nedition \"1\"\nfinished 6 in\nfabric sea \"Sea\" #6b9db8\nfabric sky \"Sky\" #a9cbe0\n";
        let reading = read_sources("a.piece", &format!("{head}block quay 8 x 8 {{\n{block}\n}}\n"), &Bare);
        let (pattern, faults, _) = resolve(&reading);
        assert!(reading.faults.is_empty() && faults.is_empty(), "{faults:?}");
        prove(&pattern.unwrap()).unwrap().blocks.remove(0)
    }

    const QUARTERS: &str = "unit quarter {\noutline 0, 0 -- 4, 0 -- 4, 4 -- 0, 4\n1 sea around 1, 1\n}\nplace quarter 4 in all round centre";

    #[test]
    fn a_four_patch_meets_once_nests_and_has_eight_layers() {
        let proof = proof(QUARTERS);
        assert_eq!(proof.joins.len(), 3);
        let last = &proof.joins[2];
        assert_eq!(last.match_points.len(), 1);
        let point = last.match_points[0];
        assert!(point.nests, "the first two joins are pressed opposite ways");
        assert_eq!(point.layers, 8);
        assert_ne!(proof.joins[0].press, proof.joins[1].press);
    }

    #[test]
    fn all_seams_that_end_at_a_point_are_counted() {
        let wedges = "unit wedge {\noutline centre -- corner-1 -- 4, 0\n1 sea around 3, 1\n}\nunit other {\noutline centre -- 4, 0 -- corner-2\n1 sky around 5, 1\n}\nplace wedge 4 in all round centre\nplace other 4 in all round centre";
        let proof = proof(wedges);
        let last = proof.joins.last().unwrap();
        assert_eq!(last.match_points.iter().map(|point| point.layers).max(), Some(16));
    }

    #[test]
    fn stated_pressing_stands_and_an_open_join_nests_with_nothing() {
        let stated =
            "join quarter#1 quarter#2 as upper pressed open\njoin quarter#3 quarter#4 as lower\njoin upper lower";
        let proof = proof(&format!("{QUARTERS}\n{stated}"));
        assert_eq!(proof.joins[0].press, Press::Open);
        assert!(!proof.joins[2].match_points[0].nests);
    }

    #[test]
    fn tips_are_told_from_match_points_and_pressed_away_from() {
        let roof = "unit roof {\noutline 0, 0 -- 8, 0 -- 8, 4 -- 0, 4\n1 sea around 4, 1\n2 sky beyond 0, 0 -- 4, 4\n3 sky beyond 8, 0 -- 4, 4\n}\nunit wall {\noutline 0, 4 -- 8, 4 -- 8, 8 -- 0, 8\n1 sky around 4, 6\n}";
        let proof = proof(roof);
        let join = &proof.joins[0];
        assert_eq!((join.match_points.len(), join.tips.len()), (0, 1));
        // The seam runs to the right, so the roof is on its left.
        assert_eq!(join.press, Press::Right);
    }

    #[test]
    fn a_seam_within_a_pieced_section_is_a_seam_end_that_lies_toward_the_darker_strip() {
        let units = |line: &str, lower: &str| {
            format!(
                "unit a {{\noutline 0, 0 -- 8, 0 -- 8, 4 -- 0, 4\n1 sky around 6, 1\npieced 1 sea {line}\n}}\nunit b {{\noutline 0, 4 -- 8, 4 -- 8, 8 -- 0, 8\n1 sky around 1, 6\n{lower}\n}}"
            )
        };
        // Below, the allowance lies under section 2, at the right of the point.
        let at_right = "2 sea beyond 3, 4 -- 4, 8";
        // Above, under the darker strip: at the left of the point, since what lies beyond the line is sea.
        let above = "beyond upright 3";
        let join = proof(&units(above, at_right)).joins.remove(0);
        assert_eq!(join.match_points.len(), 1);
        assert!(join.match_points[0].nests, "left above, right below");
        assert_eq!(join.match_points[0].layers, 8);
        let other = proof(&units("beyond upright 3 around 5, 1", at_right)).joins.remove(0);
        assert!(!other.match_points[0].nests, "both at the right");
        let beside = proof(&units("beyond upright 2", at_right)).joins.remove(0);
        assert!(beside.match_points.is_empty());
        assert_eq!(beside.loose_ends.map(|ends| ends.len()), [1, 1]);
    }

    #[test]
    fn short_joins_come_first() {
        let bricks = "unit a {\noutline 0, 0 -- 3, 0 -- 3, 4 -- 0, 4\n1 sea around 1, 1\n}\nunit b {\noutline 3, 0 -- 8, 0 -- 8, 4 -- 3, 4\n1 sky around 5, 1\n}\nunit c {\noutline 0, 4 -- 5, 4 -- 5, 8 -- 0, 8\n1 sky around 1, 6\n}\nunit d {\noutline 5, 4 -- 8, 4 -- 8, 8 -- 5, 8\n1 sea around 6, 6\n}";
        let lengths: Vec<f64> = proof(bricks).joins.iter().map(|join| join.seam.length()).collect();
        assert_eq!(lengths, [4.0, 4.0, 8.0]);
    }
}
