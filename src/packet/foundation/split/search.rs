//! Where a foundation is cut: of all ways to cut it into as few parts as it takes, one with the least faults that a bounded search finds.

use crate::geometry::{Line, Polygon, Vector};

use super::super::LAP;
use super::count::{LEAST, Room, across, after, before, ways};
use super::faults::Drawn;

/// How far two places of a lap that are tried lie apart, in inches.
const STEP: f64 = 0.15;
/// So many places along one way are tried at the most.
const MOST_PLACES: u32 = 64;
/// So many counts of parts are made before the first lap that will do is taken.
const MOST_STEPS: u32 = 2_000;
/// Laps nearer to each other than this are alike, in inches.
const ALIKE: f64 = 0.3;
/// No foundation is cut so often one half in the other.
const DEEPEST: u32 = 40;

/// How an area is cut.
#[derive(Debug, Clone)]
pub(in super::super) enum Tree {
    /// Not at all.
    Part(Polygon),
    /// By a lap: what lies left of its middle and half the lap more, and the same right of it.
    Lap { middle: Line, halves: Box<[Tree; 2]> },
}

/// The best way found.
pub(super) fn best(area: &Polygon, room: &Room, drawn: &Drawn) -> Tree {
    let mut search = Search { room, drawn, steps: 0 };
    let parts = room.parts(area);
    search.best(area, parts, DEEPEST).1
}

struct Search<'s> {
    room: &'s Room,
    drawn: &'s Drawn,
    /// How often parts were counted.
    steps: u32,
}

/// A lap that may be made.
struct Candidate {
    way: Vector,
    at: f64,
    cost: f64,
    /// What of that is for unequal parts, at least.
    inequality: f64,
}

impl Search<'_> {
    /// What the best way costs to cut an area into so many parts, and the way.
    fn best(&mut self, area: &Polygon, parts: u32, depth: u32) -> (f64, Tree) {
        if parts < 2 || depth == 0 {
            return (0.0, Tree::Part(area.clone()));
        }
        let mut best: Option<(f64, Tree)> = None;
        let mut tried: Vec<(Vector, f64)> = Vec::new();
        // Where rounding leaves no way to cut so few, the one that comes nearest.
        let mut nearest: Option<(u32, Candidate)> = None;
        for candidate in self.candidates(area, parts) {
            let full = if self.steps > MOST_STEPS { 1 } else { width(parts) };
            if tried.len() >= full || best.as_ref().is_some_and(|(least, _)| *least <= candidate.cost) {
                break;
            }
            let like = |&(way, at): &(Vector, f64)| way == candidate.way && (at - candidate.at).abs() < ALIKE;
            if parts > 2 && tried.iter().any(like) {
                continue;
            }
            let Some((left, right)) = halves(area, candidate.way, candidate.at) else { continue };
            let (of_left, of_right) = (self.count(&left), self.count(&right));
            if of_left + of_right > parts {
                if nearest.as_ref().is_none_or(|(fewest, _)| of_left + of_right < *fewest) {
                    nearest = Some((of_left + of_right, candidate));
                }
                continue;
            }
            tried.push((candidate.way, candidate.at));
            let Some(middle) = across(candidate.way, candidate.at) else { continue };
            let inequality = Drawn::inequality(area, middle, of_left..=of_left, of_left + of_right);
            let candidate = Candidate { cost: candidate.cost - candidate.inequality + inequality, ..candidate };
            let found = self.lapped(area, &candidate, [(&left, of_left), (&right, of_right)], depth);
            if let Some(found) = found
                && best.as_ref().is_none_or(|(least, _)| found.0 < *least)
            {
                best = Some(found);
            }
        }
        if best.is_none()
            && let Some((_, candidate)) = nearest
            && let Some((left, right)) = halves(area, candidate.way, candidate.at)
        {
            let (of_left, of_right) = (self.count(&left), self.count(&right));
            best = self.lapped(area, &candidate, [(&left, of_left), (&right, of_right)], depth);
        }
        best.unwrap_or_else(|| self.best(area, parts + 1, depth - 1))
    }

    fn lapped(
        &mut self,
        area: &Polygon,
        candidate: &Candidate,
        [left, right]: [(&Polygon, u32); 2],
        depth: u32,
    ) -> Option<(f64, Tree)> {
        let middle = across(candidate.way, candidate.at)?;
        let (cost_left, left) = self.best(left.0, left.1, depth - 1);
        let (cost_right, right) = self.best(right.0, right.1, depth - 1);
        let cost = candidate.cost + self.drawn.unnamed(area, middle) + cost_left + cost_right;
        Some((cost, Tree::Lap { middle, halves: Box::new([left, right]) }))
    }

    fn count(&mut self, area: &Polygon) -> u32 {
        self.steps += 1;
        self.room.parts(area)
    }

    /// The laps that are tried, the best first: at equal steps along every way, where one part reaches farthest from either end, and where rows of
    /// parts lap.
    fn candidates(&self, area: &Polygon, parts: u32) -> Vec<Candidate> {
        let mut found = Vec::new();
        for way in ways(area).into_iter().map(ahead) {
            let (from, to) = area.extent(way);
            let mut places = Vec::new();
            let steps = count_of((to - from) / STEP).min(MOST_PLACES);
            places.extend((1..steps).map(|k| from + (to - from) * f64::from(k) / f64::from(steps)));
            places.extend(self.room.farthest(area, way).map(|reach| reach - LAP / 2.0));
            places.extend(self.room.farthest(area, -way).map(|reach| -reach + LAP / 2.0));
            for rows in self.room.rows(area, way) {
                let high = (to - from + LAP * f64::from(rows - 1)) / f64::from(rows);
                places.extend((1..rows).map(|row| from + f64::from(row) * (high - LAP) + LAP / 2.0));
            }
            places.retain(|at| at - from > LAP / 2.0 + LEAST / 2.0 && to - at > LAP / 2.0 + LEAST / 2.0);
            found.extend(places.into_iter().filter_map(|at| self.candidate(area, way, at, parts)));
        }
        // A stable sort, so that of equals the one along the longer edge is the first.
        found.sort_by(|a, b| a.cost.total_cmp(&b.cost));
        found
    }

    /// A lap; `None` where the sizes of both sides tell already that they come apart into more parts.
    fn candidate(&self, area: &Polygon, way: Vector, at: f64, parts: u32) -> Option<Candidate> {
        let middle = across(way, at)?;
        let (left, right) = halves(area, way, at)?;
        let (of_left, of_right) = (self.room.least(&left).max(1), self.room.least(&right).max(1));
        if of_left + of_right > parts {
            return None;
        }
        let inequality = Drawn::inequality(area, middle, of_left..=parts - of_right, parts);
        Some(Candidate { way, at, cost: self.drawn.cost(area, middle) + inequality, inequality })
    }
}

/// How many laps are looked at farther for an area of so many parts.
fn width(parts: u32) -> usize {
    match parts {
        0..=2 => 12,
        3..=5 => 8,
        6..=9 => 4,
        _ => 1,
    }
}

fn halves(area: &Polygon, way: Vector, at: f64) -> Option<(Polygon, Polygon)> {
    Some((before(area, way, at + LAP / 2.0)?, after(area, way, at - LAP / 2.0)?))
}

/// The same way to the right or down, so that parts are numbered as one reads.
fn ahead(way: Vector) -> Vector {
    let leading = if way.x.abs() > way.y.abs() + 1e-9 { way.x } else { way.y };
    if leading < 0.0 { -way } else { way }
}

fn count_of(number: f64) -> u32 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to what fits")]
    let number = number.clamp(2.0, 1e4) as u32;
    number
}
