//! What the edges of a foundation meet, and where joins are ticked: in the unit's frame.

use crate::geometry::{Line, Point, Segment, Side, Tolerance, Vector};
use crate::model::{Block, Join, JoinKind, Placement, Variant};

/// A stretch of an edge of a unit's outline.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// The edge, by the corner of the outline at which it begins.
    pub edge: usize,
    /// Its place, in the unit's frame, in the direction of the edge.
    pub segment: Segment,
    /// What it is sewn to.
    pub meets: Meets,
}

/// What a stretch of an edge is sewn to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Meets {
    /// Nothing: it is an edge of the block.
    Edge,
    /// Foundations, by their marks; whether there are more than are named.
    Foundations(Vec<String>, bool),
}

/// Where a tick crosses the allowance.
#[derive(Debug, Clone, PartialEq)]
pub struct Tick {
    /// Its foot on the outline, in the unit's frame.
    pub at: Point,
    /// The direction in which it leaves the outline, of length 1.
    pub outward: Vector,
    /// What is there.
    pub sign: Sign,
}

/// What a tick marks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    /// Seams of both sides end there.
    Match,
    /// Seams of one side end there.
    Tip,
    /// The first part of a partial seam stops there.
    Stop,
}

/// At most so many neighbours are named at one edge.
const NAMED: usize = 2;

fn tolerance(block: &Block) -> Tolerance {
    Tolerance::of_extent(block.width.max(block.height).to_inches())
}

fn places<'a>(block: &'a Block, variant: &'a Variant) -> impl Iterator<Item = (usize, &'a Placement)> + 'a {
    block.placements.iter().enumerate().filter(move |(_, placement)| {
        block
            .variants
            .get(placement.variant)
            .is_some_and(|placed| std::ptr::eq(placed, variant) || placed.id == variant.id)
    })
}

/// The stretches of all edges, clockwise as drawn, with what they meet.
///
/// A foundation that is placed several times with other neighbours gets one stretch for each edge that names them together. O(n²) in the edges
/// of the block's units.
#[must_use]
pub fn stretches(block: &Block, variant: &Variant) -> Vec<Stretch> {
    let same = tolerance(block);
    let mut found: Vec<Vec<Stretch>> =
        places(block, variant).map(|(index, _)| stretches_at(block, variant, index)).collect();
    let Some(first) = found.pop() else { return Vec::new() };
    let alike = |other: &Vec<Stretch>| {
        other.len() == first.len()
            && other.iter().zip(&first).all(|(a, b)| {
                a.edge == b.edge && a.meets == b.meets && same.is_zero(a.segment.middle().distance(b.segment.middle()))
            })
    };
    if found.iter().all(alike) {
        return first;
    }
    found.push(first);
    let edges = block.unit_of(variant).outline.edges().enumerate();
    edges.map(|(edge, segment)| Stretch { edge, segment, meets: together(&found, edge) }).collect()
}

/// All that an edge meets, at one place or another.
fn together(found: &[Vec<Stretch>], edge: usize) -> Meets {
    let mut names: Vec<String> = Vec::new();
    for stretch in found.iter().flatten().filter(|stretch| stretch.edge == edge) {
        if let Meets::Foundations(marks, _) = &stretch.meets {
            for mark in marks {
                if !names.contains(mark) {
                    names.push(mark.clone());
                }
            }
        }
    }
    if names.is_empty() {
        return Meets::Edge;
    }
    names.sort();
    let more = names.len() > NAMED;
    names.truncate(NAMED);
    Meets::Foundations(names, more)
}

fn stretches_at(block: &Block, variant: &Variant, place: usize) -> Vec<Stretch> {
    let same = tolerance(block);
    let Some(placement) = block.placements.get(place) else { return Vec::new() };
    let mut stretches = Vec::new();
    for (edge, drawn) in block.unit_of(variant).outline.edges().enumerate() {
        let image = placement.transform.apply_to_segment(drawn);
        let Some(line) = image.line() else { continue };
        let length = image.length();
        let mut covered: Vec<(f64, f64, Meets)> = Vec::new();
        for (other, neighbour) in block.placements.iter().enumerate().filter(|&(other, _)| other != place) {
            for facing in neighbour.outline.edges() {
                if let Some((from, to)) = shared(line, length, facing, same) {
                    let mark = block.variant_at(other).mark.clone();
                    covered.push((from, to, Meets::Foundations(vec![mark], false)));
                }
            }
        }
        covered.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut reached = 0.0;
        let mut add = |from: f64, to: f64, meets: Meets| {
            let at = |position: f64| drawn.start.along(drawn.end, position / length);
            stretches.push(Stretch { edge, segment: Segment::new(at(from), at(to)), meets });
        };
        for (from, to, meets) in covered {
            if from - reached > same.suspicious() {
                add(reached, from, Meets::Edge);
            }
            add(from, to, meets);
            reached = reached.max(to);
        }
        if length - reached > same.suspicious() {
            add(reached, length, Meets::Edge);
        }
    }
    stretches
}

/// The stretch of a line, from 0 to `length`, that an edge shares with it.
fn shared(line: Line, length: f64, edge: Segment, same: Tolerance) -> Option<(f64, f64)> {
    if line.side(edge.start, same) != Side::On || line.side(edge.end, same) != Side::On {
        return None;
    }
    let (a, b) = (line.position(edge.start), line.position(edge.end));
    let (from, to) = (a.min(b).max(0.0), a.max(b).min(length));
    (to - from > same.suspicious()).then_some((from, to))
}

/// The ticks of a foundation: the match points and tips of the joins that it is part of, and where it is sewn in part, at any of its places. Each stands once.
#[must_use]
pub fn ticks(block: &Block, variant: &Variant) -> Vec<Tick> {
    let same = tolerance(block);
    let mut ticks: Vec<Tick> = Vec::new();
    for (index, placement) in places(block, variant) {
        let Some(back) = placement.transform.inverse() else { continue };
        for join in block.joins.iter().filter(|join| join.left.contains(&index) || join.right.contains(&index)) {
            let seam = back.apply_to_segment(join.seam);
            let Some(line) = seam.line() else { continue };
            // The one edge that lies on the join.
            let Some(edge) =
                block.unit_of(variant).outline.edges().find(|edge| shared(line, seam.length(), *edge, same).is_some())
            else {
                continue;
            };
            let Some(along) = edge.line() else { continue };
            for (point, sign) in ticked(join) {
                let at = back.apply(point);
                let known = ticks.iter().any(|tick| same.is_zero(tick.at.distance(at)));
                if !known && edge.distance(at) <= same.distance() {
                    ticks.push(Tick { at, outward: -along.direction().quarter_turned(), sign });
                }
            }
        }
    }
    ticks
}

fn ticked(join: &Join) -> impl Iterator<Item = (Point, Sign)> + '_ {
    let matches = join.match_points.iter().map(|point| (point.at, Sign::Match));
    let stop = if let JoinKind::Partial { first, .. } = join.kind { Some((first.end, Sign::Stop)) } else { None };
    matches.chain(join.tips.iter().map(|&tip| (tip, Sign::Tip))).chain(stop)
}

#[cfg(test)]
mod tests {
    use super::{Meets, Sign, stretches, ticks};
    use crate::geometry::Segment;
    use crate::model::JoinKind;
    use crate::packet::sample::lantern;

    fn meets(marks: &[&str]) -> Meets {
        Meets::Foundations(marks.iter().map(|&mark| mark.to_owned()).collect(), false)
    }

    #[test]
    fn an_edge_is_divided_where_its_neighbours_change() {
        let model = lantern(0.5);
        let block = &model.blocks[0];
        let found = stretches(block, &block.variants[0]);
        let told: Vec<&Meets> = found.iter().map(|stretch| &stretch.meets).collect();
        let edge = Meets::Edge;
        let (sides, lamp) = ([meets(&["Bb"]), meets(&["Ba"])], meets(&["C"]));
        assert_eq!(told, [&edge, &edge, &sides[0], &lamp, &sides[1], &edge]);
    }

    #[test]
    fn match_points_and_tips_are_ticked_outward() {
        let model = lantern(0.5);
        let block = &model.blocks[0];
        let found = ticks(block, &block.variants[0]);
        assert_eq!(found.iter().filter(|tick| tick.sign == Sign::Match).count(), 2);
        assert_eq!(found.len(), 3);
        assert!(found.iter().all(|tick| tick.outward.y > 0.999));
    }

    #[test]
    fn where_the_first_part_of_a_seam_stops_is_ticked_on_both_papers() {
        let mut model = lantern(0.5);
        let block = &mut model.blocks[0];
        let join = block.joins.last_mut().unwrap();
        let (before, stop) = (join.kind.clone(), join.seam.start.along(join.seam.end, 0.3));
        let first = Segment::new(join.seam.start, stop);
        join.kind = JoinKind::Partial { first, corner: join.seam.end, after: 0, last: Vec::new() };
        assert_ne!(before, join.kind);
        let sides = [join.left.clone(), join.right.clone()];
        let block = &model.blocks[0];
        for side in sides {
            let stops = side.iter().filter(|&&place| {
                let placement = &block.placements[place];
                let found = ticks(block, block.variant_at(place));
                found
                    .iter()
                    .any(|tick| tick.sign == Sign::Stop && placement.transform.apply(tick.at).distance(stop) < 1e-6)
            });
            assert_eq!(stops.count(), 1);
        }
    }
}
