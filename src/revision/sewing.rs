//! What is sewn in another way: which joins there are, when and how they are sewn and pressed, where foundations stand, the author's own steps.

use std::collections::BTreeSet;

use crate::model::{Block, Join, JoinKind, Model, Press};

use super::alike::{Form, Likeness, same_area, same_line, same_place};
use super::{BlockPair, Change, Pairs, SewChange, Sewn};

/// Adds all that is sewn in another way in the blocks that both models have.
pub(super) fn compare(was: &Model, now: &Model, pairs: &Pairs, changes: &mut Vec<Change>) {
    for (block, pair) in pairs.blocks.iter().enumerate() {
        if let Some((was, now)) = pair.both(was, now) {
            let found = joins(pair, was, now).into_iter().chain(placed(pair, was, now)).chain(steps(pair, was, now));
            changes.extend(found.map(|what| Change::Sew(SewChange { block, what })));
        }
    }
}

type Side = BTreeSet<usize>;

/// What a join joins, by places of the later block; none where a place is gone.
fn sides_was(pair: &BlockPair, join: &Join) -> Option<[Side; 2]> {
    let side = |places: &[usize]| places.iter().map(|&place| pair.placement_now(place)).collect::<Option<Side>>();
    Some([side(&join.left)?, side(&join.right)?])
}

fn sides(join: &Join) -> [Side; 2] {
    [join.left.iter().copied().collect(), join.right.iter().copied().collect()]
}

/// The joins of both blocks that join the same: index before, index now, and whether left and right have changed places.
pub(super) fn joined_alike(pair: &BlockPair, was: &Block, now: &Block) -> Vec<(usize, usize, bool)> {
    let mut left: Vec<(usize, [Side; 2])> =
        was.joins.iter().enumerate().filter_map(|(at, join)| Some((at, sides_was(pair, join)?))).collect();
    let mut found = Vec::new();
    for (at, join) in now.joins.iter().enumerate() {
        let [a, b] = sides(join);
        let same = |(_, [x, y]): &(usize, [Side; 2])| (*x == a && *y == b) || (*x == b && *y == a);
        if let Some(index) = left.iter().position(same) {
            let (before, [x, _]) = left.remove(index);
            found.push((before, at, x != a));
        }
    }
    // What is joined may be other papers than before, and yet the seam the same. Seams run upward, so that left is left.
    for (at, join) in now.joins.iter().enumerate() {
        let is_free = |&before: &usize| !found.iter().any(|(other, _, _)| *other == before);
        let same = |&before: &usize| same_line(was.joins[before].seam, join.seam);
        if !found.iter().any(|(_, other, _)| *other == at)
            && let Some(before) = (0..was.joins.len()).filter(is_free).find(same)
        {
            found.push((before, at, false));
        }
    }
    found.sort_by_key(|&(_, at, _)| at);
    found
}

fn joins(pair: &BlockPair, was: &Block, now: &Block) -> Vec<Sewn> {
    let alike = joined_alike(pair, was, now);
    let mut found = Vec::new();
    found.extend((0..now.joins.len()).filter(|at| !alike.iter().any(|(_, now, _)| now == at)).map(Sewn::Joined));
    found.extend((0..was.joins.len()).filter(|at| !alike.iter().any(|(was, _, _)| was == at)).map(Sewn::Unjoined));
    let moved = out_of_order(&alike.iter().map(|(was, _, _)| *was).collect::<Vec<_>>());
    if !moved.is_empty() {
        found.push(Sewn::Reordered(moved.into_iter().map(|at| alike[at].1).collect()));
    }
    for &(before, after, turned) in &alike {
        let (a, b) = (&was.joins[before], &now.joins[after]);
        let press = match (a.press, turned) {
            (Press::Left, true) => Press::Right,
            (Press::Right, true) => Press::Left,
            (press, _) => press,
        };
        if press != b.press {
            found.push(Sewn::Pressed { now: after, was: before });
        }
        if !met_alike(a, b, &alike) {
            found.push(Sewn::Met { now: after, was: before });
        }
        if a.own_step != b.own_step {
            found.push(Sewn::JoinStep(after));
        }
    }
    found
}

/// Whether two joins are made in the same manner, and as many points meet along them, alike.
fn met_alike(was: &Join, now: &Join, alike: &[(usize, usize, bool)]) -> bool {
    let manner = match (&was.kind, &now.kind) {
        (JoinKind::Straight, JoinKind::Straight) | (JoinKind::Inset { .. }, JoinKind::Inset { .. }) => true,
        (JoinKind::Partial { after: a, .. }, JoinKind::Partial { after: b, .. }) => {
            alike.iter().any(|(was, now, _)| (was, now) == (a, b))
        }
        _ => false,
    };
    let same_points = |same_way: bool| {
        let count = was.match_points.len();
        (0..count).all(|k| {
            let other = if same_way { k } else { count - 1 - k };
            let (a, b) = (&was.match_points[k], &now.match_points[other]);
            (a.nesting, a.layers, a.spins) == (b.nesting, b.layers, b.spins)
        })
    };
    manner
        && was.tips.len() == now.tips.len()
        && was.match_points.len() == now.match_points.len()
        && (same_points(true) || same_points(false))
}

/// Which of some numbers must be taken out so that the rest ascends, the fewest, by index. O(n²).
fn out_of_order(numbers: &[usize]) -> Vec<usize> {
    // The longest ascending run that ends at each number, and what stands before it in that run.
    let mut runs: Vec<(usize, Option<usize>)> = Vec::with_capacity(numbers.len());
    for (at, number) in numbers.iter().enumerate() {
        let before = (0..at)
            .filter(|&other| numbers[other] < *number)
            .max_by_key(|&other| (runs[other].0, std::cmp::Reverse(other)));
        runs.push((before.map_or(1, |other| runs[other].0 + 1), before));
    }
    let mut kept = BTreeSet::new();
    let mut at = (0..numbers.len()).max_by_key(|&at| (runs[at].0, std::cmp::Reverse(at)));
    while let Some(index) = at {
        kept.insert(index);
        at = runs[index].1;
    }
    (0..numbers.len()).filter(|index| !kept.contains(index)).collect()
}

/// Foundations that are as they were and stand elsewhere, or turned.
fn placed(pair: &BlockPair, was: &Block, now: &Block) -> Vec<Sewn> {
    let mut found = Vec::new();
    for &(before, after) in &pair.placements {
        let (a, b) = (&was.placements[before], &now.placements[after]);
        let (unit, other) = (was.unit_of(&was.variants[a.variant]), now.unit_of(&now.variants[b.variant]));
        let (old, new) = (&was.variants[a.variant], &now.variants[b.variant]);
        let is_redrawn = Form::of(was, old).likeness(&Form::of(now, new)) == Likeness::Other;
        let all_as_they_stood = || {
            unit.sections.iter().all(|section| {
                let from = a.transform.apply_to_polygon(&section.polygon);
                other.sections.iter().any(|now| same_area(&from, &b.transform.apply_to_polygon(&now.polygon)))
            })
        };
        // What was drawn anew says nothing of its place unless its outline is as it was.
        let as_it_stood = if is_redrawn {
            !same_shape(&unit.outline, &other.outline) || same_area(&a.outline, &b.outline)
        } else {
            all_as_they_stood()
        };
        if !as_it_stood {
            found.push(Sewn::Placed(after));
        }
    }
    let is_new = |at: &usize| {
        let known =
            |&(was, of): &(Option<usize>, Option<usize>)| was.is_some() && of == Some(now.placements[*at].variant);
        !pair.placements.iter().any(|(_, after)| after == at) && pair.variants.iter().any(known)
    };
    found.extend((0..now.placements.len()).filter(is_new).map(Sewn::Placed));
    found
}

/// Whether two areas have the same shape, up to a move: the same way round from some corner on.
fn same_shape(a: &crate::geometry::Polygon, b: &crate::geometry::Polygon) -> bool {
    let (a, b) = (a.corners(), b.corners());
    a.len() == b.len()
        && (0..b.len()).any(|from| {
            let shift = b[from] - a[0];
            (0..a.len()).all(|k| same_place(a[k] + shift, b[(from + k) % b.len()]))
        })
}

/// The author's own steps, and how strips within sections are pressed.
fn steps(pair: &BlockPair, was: &Block, now: &Block) -> Vec<Sewn> {
    let mut found = Vec::new();
    for &(before, after) in &pair.variants {
        let (Some(before), Some(after)) = (before, after) else { continue };
        let (Some(old), Some(new)) = (was.variants.get(before), now.variants.get(after)) else { continue };
        let (a, b) = (was.unit_of(old), now.unit_of(new));
        for (k, (x, y)) in a.sections.iter().zip(&b.sections).enumerate() {
            let pressed = |section: &crate::model::Section| {
                section.pieced.iter().map(|strip| strip.pressed_to_next).collect::<Vec<_>>()
            };
            if x.pieced.len() == y.pieced.len() && pressed(x) != pressed(y) {
                found.push(Sewn::StripsPressed(after, k + 1));
            }
            if x.own_step != y.own_step {
                found.push(Sewn::SectionStep(after, k + 1));
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::out_of_order;

    #[test]
    fn as_few_as_can_be_are_out_of_order() {
        assert_eq!(out_of_order(&[0, 1, 2, 3]), Vec::<usize>::new());
        assert_eq!(out_of_order(&[3, 0, 1, 2]), [0]);
        assert_eq!(out_of_order(&[0, 2, 1]), [2]);
        assert_eq!(out_of_order(&[]), Vec::<usize>::new());
        assert_eq!(out_of_order(&[2, 1, 0]).len(), 2);
    }
}
