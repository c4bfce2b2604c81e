//! Match points, tips, and which way every join is pressed.
//!
//! A join is pressed away from its tips; else so that as many match points nest as can be found by turning one join after the other until none
//! improves; else toward the darker side. Where the author settled it, it stands. The search is not exhaustive, so the result is not proved best.

use std::collections::BTreeMap;

use crate::geometry::{Line, Point, Segment, Side, Tolerance};
use crate::pattern::{Block, Pattern};

use super::ends::{Ending, ends, gathered, matches};
use super::{Join, JoinKind, MatchPoint, Press};

/// Rounds of turning joins at the most.
const MAX_ROUNDS: usize = 20;

/// A match point before the pressing is known: what ends there from the left and from the right.
struct Meeting {
    at: Point,
    sides: [Vec<Known>; 2],
}

/// Which way an allowance points along the join.
#[derive(Clone, Copy)]
enum Known {
    /// Along it or against it, whatever is pressed.
    Fixed(bool),
    /// By the pressing of an earlier join; `true` if under its left side means along.
    By(usize, bool),
    /// Not known.
    Open,
}

/// Fills in match points, tips and pressing of all joins of a block.
pub fn press(pattern: &Pattern, block: &Block, seams: &[Vec<Option<Segment>>], joins: &mut [Join]) {
    let mut meetings: Vec<Vec<Meeting>> = Vec::with_capacity(joins.len());
    let between = earliest_joins(joins);
    let mut fixed = vec![false; joins.len()];
    for index in 0..joins.len() {
        let Some(line) = joins[index].seam.line() else {
            meetings.push(Vec::new());
            continue;
        };
        let (found, tip_sides) = meet(block, seams, joins, index, line, &between);
        meetings.push(found);
        // A ring and an inset corner lie flat only as they are pressed when they are made.
        let settled = |stated| block.leaves.contains_key(&stated) || block.joins[stated].press.is_some();
        let stated = joins[index].stated.is_some_and(settled);
        fixed[index] = stated;
        if !stated {
            joins[index].press = match tip_sides {
                // Away from the side on which the tips are.
                [true, false] => Press::Right,
                [false, true] => Press::Left,
                _ => darker_side(pattern, block, &joins[index], line),
            };
            fixed[index] = tip_sides == [true, false] || tip_sides == [false, true];
        }
    }
    turn_for_nesting(&meetings, joins, &fixed);
    for (index, found) in meetings.iter().enumerate() {
        let point = |meeting: &Meeting| MatchPoint {
            at: meeting.at,
            nests: nests(meeting, joins),
            layers: layers(block, seams, joins, index, meeting.at),
        };
        let points: Vec<MatchPoint> = found.iter().map(point).collect();
        joins[index].match_points = points;
    }
}

/// For each two places, the join that first brings them together.
fn earliest_joins(joins: &[Join]) -> impl Fn(usize, usize) -> Option<usize> + use<> {
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

/// The match points of one join; sets its tips and loose ends, and tells on which sides the tips are.
fn meet(
    block: &Block,
    seams: &[Vec<Option<Segment>>],
    joins: &mut [Join],
    index: usize,
    line: Line,
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

/// Which way the allowances of one side point, if they agree.
fn points_along(side: &[Known], joins: &[Join]) -> Option<bool> {
    let way = |known: &Known| match *known {
        Known::Fixed(ahead) => Some(ahead),
        Known::By(join, left_is_ahead) => match joins[join].press {
            Press::Left => Some(left_is_ahead),
            Press::Right => Some(!left_is_ahead),
            Press::Open => None,
        },
        Known::Open => None,
    };
    let first = way(side.first()?)?;
    side.iter().all(|known| way(known) == Some(first)).then_some(first)
}

fn nests(meeting: &Meeting, joins: &[Join]) -> bool {
    match (points_along(&meeting.sides[0], joins), points_along(&meeting.sides[1], joins)) {
        (Some(left), Some(right)) => left != right,
        _ => false,
    }
}

/// The layers of fabric at a point of a join when it is sewn: two for each seam that ends there; one that runs through counts twice, as this join does.
fn layers(block: &Block, seams: &[Vec<Option<Segment>>], joins: &[Join], index: usize, at: Point) -> u32 {
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

/// Turns joins whose turning makes more match points nest, until none does.
fn turn_for_nesting(meetings: &[Vec<Meeting>], joins: &mut [Join], fixed: &[bool]) {
    let mut concerns: Vec<Vec<(usize, usize)>> = vec![Vec::new(); joins.len()];
    for (index, found) in meetings.iter().enumerate() {
        for (k, meeting) in found.iter().enumerate() {
            for known in meeting.sides.iter().flatten() {
                if let Known::By(join, _) = known {
                    concerns[*join].push((index, k));
                }
            }
        }
    }
    for _ in 0..MAX_ROUNDS {
        let mut turned = false;
        for join in 0..joins.len() {
            let opposite = match joins[join].press {
                Press::Left => Press::Right,
                Press::Right => Press::Left,
                Press::Open => continue,
            };
            if fixed[join] {
                continue;
            }
            let count = |joins: &[Join]| concerns[join].iter().filter(|&&(i, k)| nests(&meetings[i][k], joins)).count();
            let before = count(joins);
            let kept = std::mem::replace(&mut joins[join].press, opposite);
            if count(joins) > before {
                turned = true;
            } else {
                joins[join].press = kept;
            }
        }
        if !turned {
            break;
        }
    }
}

/// The side whose fabrics along the seam are darker on the average.
fn darker_side(pattern: &Pattern, block: &Block, join: &Join, line: Line) -> Press {
    let lightness = |places: &[usize]| -> f64 {
        let (mut sum, mut weight) = (0.0, 0.0);
        for &place in places {
            let placement = &block.placements[place];
            for section in &block.units[placement.unit].sections {
                let area = placement.transform.apply_to_polygon(&section.polygon);
                let length: f64 = area
                    .edges()
                    .filter(|edge| on(line, edge.start, block.tolerance) && on(line, edge.end, block.tolerance))
                    .map(Segment::length)
                    .sum();
                let fabric = placement.fabric(section.fabric);
                sum += length * pattern.fabrics.get(fabric).map_or(50.0, crate::pattern::facts::Fabric::lightness);
                weight += length;
            }
        }
        if weight > 0.0 { sum / weight } else { 50.0 }
    };
    if lightness(&join.right) < lightness(&join.left) - 1e-9 { Press::Right } else { Press::Left }
}

fn on(line: Line, point: Point, tolerance: Tolerance) -> bool {
    line.side(point, tolerance) == Side::On
}
