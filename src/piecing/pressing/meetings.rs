//! What meets at a match point: which way the allowances of either side point, whether they nest, and why they do not.

use std::collections::BTreeMap;

use crate::geometry::{Line, Point, Segment};
use crate::pattern::Block;
use crate::piecing::ends::{Ending, ends, gathered, matches};
use crate::piecing::{Join, JoinKind, Press};

/// Whether the allowances of the two sides nest at a match point, and if not, why.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Nesting {
    /// Those of the two sides point opposite ways along the join.
    Nests,
    /// All point the same way.
    SameWay(Cause),
    /// Several seams of one side end there, and their allowances point different ways.
    Mixed,
    /// An allowance lies open there, and an open join nests with nothing.
    Open,
}

/// Why the allowances of both sides point the same way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cause {
    /// They lie as the order of sewing inside the units has laid them.
    Units,
    /// The author has stated how an earlier join is pressed.
    Stated,
    /// An earlier join is pressed away from its tips.
    Tips,
    /// An earlier join could be pressed so that they nest, but no more match points would nest on the whole: others share that join.
    GivenUp,
}

/// What holds the pressing of a join.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Held {
    /// Nothing.
    Free,
    /// The author's word.
    Stated,
    /// Tips on one side, from which it is pressed away.
    Tips,
}

/// A match point before the pressing is known: what ends there from the left and from the right.
#[derive(Debug, Clone)]
pub(super) struct Meeting {
    /// The join on which it lies.
    pub join: usize,
    /// Where.
    pub at: Point,
    /// The allowances of the left and of the right side; at least one each.
    pub sides: [Vec<Known>; 2],
}

/// Which way an allowance points along the join.
#[derive(Debug, Clone, Copy)]
pub(super) enum Known {
    /// Along it or against it, whatever is pressed.
    Fixed(bool),
    /// By the pressing of an earlier join; `true` if under its left side means along.
    By(usize, bool),
    /// Not known.
    Open,
}

impl Known {
    /// Whether it points along the join; none where it lies open.
    pub fn along(self, press: &impl Fn(usize) -> Press) -> Option<bool> {
        match self {
            Self::Fixed(along) => Some(along),
            Self::By(join, left_is_along) => match press(join) {
                Press::Left => Some(left_is_along),
                Press::Right => Some(!left_is_along),
                Press::Open => None,
            },
            Self::Open => None,
        }
    }
}

impl Meeting {
    fn all(&self) -> impl Iterator<Item = Known> + '_ {
        self.sides.iter().flatten().copied()
    }

    /// The earlier joins whose pressing decides there, ascending.
    pub fn joins(&self) -> Vec<usize> {
        let mut joins: Vec<usize> = self
            .all()
            .filter_map(|known| match known {
                Known::By(join, _) => Some(join),
                Known::Fixed(_) | Known::Open => None,
            })
            .collect();
        joins.sort_unstable();
        joins.dedup();
        joins
    }

    /// Whether the allowances of the two sides point opposite ways with this pressing.
    pub fn nests(&self, press: &impl Fn(usize) -> Press) -> bool {
        let [left, right] = [0, 1].map(|side| agreed(&self.sides[side], press));
        left.is_some() && right.is_some() && left != right
    }

    /// Whether they can nest where the joins for which `free` holds may be pressed to either side, and the others are pressed so.
    pub fn can_nest(&self, free: &impl Fn(usize) -> bool, press: &impl Fn(usize) -> Press) -> bool {
        let asks = |left_along: bool| {
            let mut asked: BTreeMap<usize, bool> = BTreeMap::new();
            [left_along, !left_along].into_iter().zip(&self.sides).all(|(wanted, side)| {
                side.iter().all(|&known| match known {
                    Known::By(join, left_is_along) if free(join) => {
                        let to_left = left_is_along == wanted;
                        *asked.entry(join).or_insert(to_left) == to_left
                    }
                    _ => known.along(press) == Some(wanted),
                })
            })
        };
        asks(true) || asks(false)
    }

    /// Whether they nest with this pressing, and if not, why.
    pub fn nesting(&self, held: &[Held], press: &impl Fn(usize) -> Press) -> Nesting {
        if self.all().any(|known| known.along(press).is_none()) {
            return Nesting::Open;
        }
        let [left, right] = [0, 1].map(|side| agreed(&self.sides[side], press));
        if left.is_none() || right.is_none() {
            return Nesting::Mixed;
        }
        if left != right {
            return Nesting::Nests;
        }
        let could = |loosened: &[Held]| self.can_nest(&|join| loosened.contains(&held[join]), press);
        Nesting::SameWay(if could(&[Held::Free]) {
            Cause::GivenUp
        } else if could(&[Held::Free, Held::Stated]) {
            Cause::Stated
        } else if could(&[Held::Free, Held::Stated, Held::Tips]) {
            Cause::Tips
        } else {
            Cause::Units
        })
    }

    /// Where exactly one earlier join ends from each side: whether the allowance of the left one points along the join.
    pub fn of_two_joins(&self, press: &impl Fn(usize) -> Press) -> Option<bool> {
        match [self.sides[0].as_slice(), self.sides[1].as_slice()] {
            [[left @ Known::By(..)], [Known::By(..)]] => left.along(press),
            _ => None,
        }
    }
}

/// Which way the allowances of one side point along the join, if they agree.
fn agreed(side: &[Known], press: &impl Fn(usize) -> Press) -> Option<bool> {
    let first = side.first()?.along(press)?;
    side.iter().all(|known| known.along(press) == Some(first)).then_some(first)
}

/// For each two places, the join that first brings them together.
pub(super) fn earliest_joins(joins: &[Join]) -> impl Fn(usize, usize) -> Option<usize> + use<> {
    let members: Vec<(Vec<usize>, Vec<usize>)> =
        joins.iter().map(|join| (join.left.clone(), join.right.clone())).collect();
    let mut of_place: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (index, (left, right)) in members.iter().enumerate() {
        for &place in left.iter().chain(right) {
            of_place.entry(place).or_default().push(index);
        }
    }
    move |a, b| {
        of_place.get(&a)?.iter().copied().find(|&index| {
            let (left, right) = &members[index];
            (left.binary_search(&a).is_ok() && right.binary_search(&b).is_ok())
                || (left.binary_search(&b).is_ok() && right.binary_search(&a).is_ok())
        })
    }
}

/// The match points of one join, in order along it; sets its tips and loose ends, and tells on which sides the tips are.
pub(super) fn meet(
    block: &Block,
    seams: &[Vec<Option<Segment>>],
    joins: &mut [Join],
    (index, line): (usize, Line),
    between: &impl Fn(usize, usize) -> Option<usize>,
) -> (Vec<Meeting>, [bool; 2]) {
    let tolerance = block.tolerance;
    let range = (0.0, joins[index].seam.length());
    let left = gathered(&ends(block, seams, &joins[index].left, line, range), tolerance);
    let right = gathered(&ends(block, seams, &joins[index].right, line, range), tolerance);
    let known = |ending: &Ending| match *ending {
        Ending::Seam(ahead) => Known::Fixed(ahead),
        Ending::Between(before, after) => match between(before, after) {
            // Under its left side means along this join if its left side is what comes after the point.
            Some(join) => Known::By(join, joins[join].left.binary_search(&after).is_ok()),
            None => Known::Open,
        },
    };
    let meetings: Vec<Meeting> = matches(&left, &right, tolerance)
        .into_iter()
        .map(|(position, l, r)| Meeting {
            join: index,
            at: line.at(position),
            sides: [l.iter().map(known).collect(), r.iter().map(known).collect()],
        })
        .collect();
    let matched = |position: f64| meetings.iter().any(|m| tolerance.is_zero(line.position(m.at) - position));
    let mut tips = Vec::new();
    let mut tip_sides = [false, false];
    let mut loose = [Vec::new(), Vec::new()];
    for (side, points) in [&left, &right].into_iter().enumerate() {
        for (position, endings) in points.iter().filter(|(position, _)| !matched(*position)) {
            if endings.len() > 1 {
                tips.push((*position, line.at(*position)));
                tip_sides[side] = true;
            }
            loose[side].push(line.at(*position));
        }
    }
    tips.sort_by(|a, b| a.0.total_cmp(&b.0));
    joins[index].tips = tips.into_iter().map(|(_, at)| at).collect();
    joins[index].loose_ends = loose;
    (meetings, tip_sides)
}

/// The layers of fabric at a point of a join when it is sewn: two for each seam that ends there; one that runs through counts twice, as this join does.
pub(super) fn layers(
    block: &Block,
    seams: &[Vec<Option<Segment>>],
    joins: &[Join],
    (index, at): (usize, Point),
) -> u32 {
    let near = block.tolerance;
    let rays = |seam: Segment| -> u32 {
        if [seam.start, seam.end].iter().any(|end| near.is_zero(end.distance(at))) {
            1
        } else if near.is_zero(seam.distance(at)) {
            2
        } else {
            0
        }
    };
    let join = &joins[index];
    // The partial seam of a ring is finished when all others of the ring are sewn.
    let until = if let JoinKind::Partial { after, .. } = join.kind { after + 1 } else { index };
    let earlier = joins.iter().take(until).enumerate().filter(|&(other, _)| other != index).filter(|(_, other)| {
        let mut places = other.left.iter().chain(&other.right);
        places.any(|place| join.left.binary_search(place).is_ok() || join.right.binary_search(place).is_ok())
    });
    let of_joins: u32 = earlier.map(|(_, other)| rays(other.seam)).sum();
    let places = join.left.iter().chain(&join.right).map(|&place| &block.placements[place]);
    let near_by = places.filter(|place| place.outline.holds(at, near) != Some(false));
    let of_units: u32 = near_by
        .flat_map(|place| seams[place.unit].iter().flatten().map(|seam| place.transform.apply_to_segment(*seam)))
        .map(rays)
        .sum();
    2 * (2 + of_joins + of_units)
}
