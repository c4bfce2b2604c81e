//! The tree of straight cuts: the proof that a pattern can be sewn, and everything that is read off it.
//!
//! A unit is sewn section by section, each cut off what is sewn so far by one straight line (`peel`). The units of a block are joined two groups at a
//! time, each time along one straight seam (`joins`); where an author says so, a ring round a centre or three groups that meet in a point are a leaf of
//! that tree, with seams of their own (`round`, `joins/leaves`). All work in the grid steps of the pattern, so that every finished size decides alike.

mod ends;
mod joins;
mod measured;
mod peel;
mod pieced;
pub mod plan;
mod planned;
pub mod pressing;
mod round;
mod standing;

pub use measured::{Measured, measured, spare_papers};
pub use pieced::{inner_seams, pressed_to_next};
pub use planned::{Called, Planned, called, planned};
pub use pressing::{Cause, Nesting};
pub use standing::{Standing, standing};

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
    /// Whether the pressing is proved best: [`pressing::press`].
    pub pressing_proved: bool,
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
    /// A leaf that no straight cut divides: a ring round a centre, or three parts that meet in a point.
    Round {
        /// Its joins, in the order of sewing: of a ring one for each part but the centre, of three parts one between each two.
        joins: Vec<usize>,
        /// Its parts. Of a ring the centre, then the others in the order of sewing; of three parts the one that is set in, then the other two.
        parts: Vec<Tree>,
    },
}

impl Tree {
    /// The placements in it, from left to right; those of a ring or an inset corner in the order of its parts.
    #[must_use]
    pub fn placements(&self) -> Vec<usize> {
        match self {
            Self::Unit(placement) => vec![*placement],
            Self::Join { left, right, .. } => {
                let mut all = left.placements();
                all.extend(right.placements());
                all
            }
            Self::Round { parts, .. } => parts.iter().flat_map(Self::placements).collect(),
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

/// How a seam between two groups is sewn. Places are in the frame of the join.
#[derive(Debug, Clone, PartialEq)]
pub enum JoinKind {
    /// From edge to edge at once.
    Straight,
    /// The first seam of a ring: sewn in part, and finished when the ring is closed.
    Partial {
        /// The part that is sewn first, from where stitching begins to where it stops.
        first: Segment,
        /// Where the edge of the centre ends, toward which it is left open.
        corner: Point,
        /// The join after which it is finished, by index.
        after: usize,
        /// What comes to lie along it only then, by index among the placements, ascending.
        last: Vec<usize>,
    },
    /// One of three seams that meet in a point.
    Inset {
        /// The point: no stitch goes past it.
        point: Point,
    },
}

/// A seam between two groups, in steps of the block.
#[derive(Debug, Clone, PartialEq)]
pub struct Join {
    /// How it is sewn.
    pub kind: JoinKind,
    /// The name that the source gives it.
    pub name: Option<String>,
    /// The statement that asks for it, by index among the stated joins of the block, if one does.
    pub stated: Option<usize>,
    /// What lies on its left, by index among the placements, ascending. Of a ring: what the seam itself joins, the centre and the neighbour on one side.
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
    /// Whether the allowances of the two sides nest, and if not, why.
    pub nesting: Nesting,
    /// Layers of fabric there once it is sewn: two for each seam that ends there, the join itself counted twice.
    pub layers: u32,
    /// Whether it is a four-way meeting whose allowances can be turned one way round: two joins that nest end there and no other seam, and what
    /// turns over is neither stated, nor does it lie toward tips or at a later match point.
    pub spins: bool,
}

impl MatchPoint {
    /// Whether the allowances of the two sides point opposite ways along the join.
    #[must_use]
    pub fn nests(&self) -> bool {
        self.nesting == Nesting::Nests
    }
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
                let pressing_proved = pressing::press(pattern, block, &all, &mut joins);
                blocks.push(BlockProof { seams, joins, pressing_proved, tree });
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
    use super::{JoinKind, Nesting, Press, prove};
    use crate::geometry::Point;
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
        assert!(point.nests(), "the first two joins are pressed opposite ways");
        assert_eq!((point.layers, point.spins), (8, true));
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
        let point = proof.joins[2].match_points[0];
        assert_eq!((point.nesting, point.spins), (Nesting::Open, false));
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

    const RING: &str = "unit a {\noutline 0, 0 -- 5, 0 -- 5, 3 -- 0, 3\n1 sea around 1, 1\n}\nunit b {\noutline 5, 0 -- 8, 0 -- 8, 5 -- 5, 5\n1 sky around 6, 1\n}\nunit c {\noutline 3, 5 -- 8, 5 -- 8, 8 -- 3, 8\n1 sea around 6, 6\n}\nunit d {\noutline 0, 3 -- 3, 3 -- 3, 8 -- 0, 8\n1 sky around 1, 6\n}\nunit hub {\noutline 3, 3 -- 5, 3 -- 5, 5 -- 3, 5\n1 sky around 4, 4\n}";

    #[test]
    fn a_ring_begins_with_half_an_edge_and_is_pressed_one_way_round() {
        // The seams of a and c are level, with a above and c below; those of b and d upright, with b on the right and d on the left.
        let toward_ring = [Press::Left, Press::Right, Press::Right, Press::Left];
        let pressed = |words: &str| {
            let joins = proof(&format!("{RING}\npartial hub a b c d{words}")).joins;
            joins.iter().map(|join| join.press).collect::<Vec<_>>()
        };
        assert_eq!(pressed(""), toward_ring);
        let toward_hub = [Press::Right, Press::Left, Press::Left, Press::Right];
        assert_eq!(pressed(" as wheel pressed toward hub"), toward_hub);
        assert_eq!(pressed(" pressed open"), [Press::Open; 4]);
        let proof = proof(&format!("{RING}\npartial hub a b c d"));
        let JoinKind::Partial { first, corner, after, last } = &proof.joins[0].kind else { panic!("a partial seam") };
        assert!(first.start.distance(Point::new(5.0, 3.0)) < 1e-9 && first.end.distance(Point::new(4.0, 3.0)) < 1e-9);
        assert!(corner.distance(Point::new(3.0, 3.0)) < 1e-9);
        assert_eq!((*after, last.as_slice()), (3, [3].as_slice()));
        assert!(proof.joins[1..].iter().all(|join| join.kind == JoinKind::Straight && join.seam.length() == 5.0));
        assert_eq!(proof.tree.placements(), [4, 0, 1, 2, 3]);
    }

    #[test]
    fn layers_of_a_partial_seam_are_those_of_the_finished_ring() {
        let striped = RING.replace(
            "outline 0, 0 -- 5, 0 -- 5, 3 -- 0, 3\n1 sea around 1, 1",
            "outline 0, 0 -- 5, 0 -- 5, 3 -- 0, 3\n1 sea around 1, 1\n2 sky beyond upright 3",
        );
        let proof = proof(&format!("{striped}\npartial hub a b c d"));
        let point = proof.joins[0].match_points[0];
        assert!(point.at.distance(Point::new(3.0, 3.0)) < 1e-9);
        // The stripe, the seam between hub and d, and the seam itself twice.
        assert_eq!(point.layers, 8);
    }

    #[test]
    fn an_inset_corner_turns_one_way_round_its_point_unless_it_is_told_otherwise() {
        let three = "unit a {\noutline 0, 0 -- 8, 0 -- 4, 4\n1 sea around 4, 1\n}\nunit b {\noutline 0, 0 -- 4, 4 -- 4, 8 -- 0, 8\n1 sky around 1, 6\n}\nunit c {\noutline 8, 0 -- 8, 8 -- 4, 8 -- 4, 4\n1 sky around 7, 6\n}";
        let toward = |words: &str| -> Vec<Vec<usize>> {
            let joins = proof(&format!("{three}\ninset a b c{words}")).joins;
            let side = |join: super::Join| match join.press {
                Press::Left => join.left,
                Press::Right => join.right,
                Press::Open => Vec::new(),
            };
            assert!(joins.iter().all(|join| join.kind == JoinKind::Inset { point: Point::new(4.0, 4.0) }));
            joins.into_iter().map(side).collect()
        };
        // Between b and c, a and b, a and c. Clockwise round the point, a is followed by c and c by b.
        assert_eq!(toward(""), [[1], [0], [2]]);
        assert_eq!(toward(" pressed toward b"), [[1], [1], [2]]);
        assert_eq!(toward(" pressed toward c"), [[2], [1], [2]]);
        assert_eq!(toward(" pressed toward a"), [[1], [0], [0]]);
        assert!(toward(" pressed open").iter().all(Vec::is_empty));
    }

    #[test]
    fn a_unit_that_touches_the_join_with_a_corner_has_its_seams_there() {
        let wedges = "unit left {\noutline 0, 4 -- 0, 0 -- 4, 4\n1 sea around 1, 3\n}\nunit top {\noutline 0, 0 -- 8, 0 -- 4, 4\n1 sky around 4, 1\n}\nunit right {\noutline 8, 0 -- 8, 4 -- 4, 4\n1 sea around 7, 3\n}";
        let below = "unit wall {\noutline 0, 4 -- 8, 4 -- 8, 8 -- 0, 8\n1 sky around 4, 6\n}";
        let tip = proof(&format!("{wedges}\n{below}")).joins.pop().unwrap();
        // Two joins end there from above, each on one side of the middle wedge.
        assert_eq!((tip.match_points.len(), tip.tips.len(), tip.press), (0, 1, Press::Right));
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
        assert!(join.match_points[0].nests(), "left above, right below");
        assert_eq!(join.match_points[0].layers, 8);
        let other = proof(&units("beyond upright 3 around 5, 1", at_right)).joins.remove(0);
        assert!(!other.match_points[0].nests(), "both at the right");
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
