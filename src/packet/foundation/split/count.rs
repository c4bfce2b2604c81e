//! How few parts that lap a convex area comes apart into, by its shape alone.
//!
//! Only what turns and mirrors with the area is looked at: the directions of its edges, and what lies square to them. So an area, its mirror image
//! and both in any turn come apart into as many parts.

use crate::geometry::{Line, Point, Polygon, Segment, Vector};

use super::super::LAP;
use super::fine;

/// A part holds at least so much beside its first lap, in inches.
pub(super) const LEAST: f64 = 0.25;
/// Edges shorter than this share of the longest give no direction to a lap: blunted tips.
const SHORT: f64 = 0.25;
/// Directions that differ by less than this, in radians, are one.
const ALIKE: f64 = 1e-3;
/// How often the stretch is halved in which the farthest lap is sought.
const HALVINGS: u32 = 14;

/// The room of a sheet, in inches.
pub(in super::super) struct Room {
    width: f64,
    height: f64,
}

impl Room {
    pub(in super::super) fn new((width, height): (f64, f64)) -> Self {
        Self { width, height }
    }

    /// Whether it holds an area in some turn. O(n²), and n log n more where neither an edge along a side of it nor size decides.
    pub(super) fn holds(&self, area: &Polygon) -> bool {
        let (width, height) = (self.width, self.height);
        // A convex area within another has no longer outline than that.
        let outline: f64 = area.edges().map(Segment::length).sum();
        if outline > 2.0 * (width + height) + 1e-6 || area.area() > width * height + 1e-6 {
            return false;
        }
        let mut narrowest = f64::INFINITY;
        for along in area.edges().filter_map(|edge| (edge.end - edge.start).unit()) {
            let span = |way: Vector| area.extent(way).1 - area.extent(way).0;
            let (long, wide) = (span(along), span(along.quarter_turned()));
            if (long <= width && wide <= height) || (long <= height && wide <= width) {
                return true;
            }
            narrowest = narrowest.min(wide);
        }
        narrowest <= width.min(height) + 1e-6 && area.turn_to_fit(width, height).is_some()
    }

    /// No fewer parts hold an area: by their size, by its length, and by the corners of which no part holds two.
    pub(super) fn least(&self, area: &Polygon) -> u32 {
        let diagonal = Vector::new(self.width, self.height).length() + 1e-6;
        let by_size = whole((area.area() / (self.width * self.height).max(1.0) - 1e-9).ceil());
        by_size.max(pieces(diameter(area), diagonal)).max(apart(area.corners(), diagonal))
    }

    /// The number of parts. Up to three exactly the fewest that laps along its [`ways`] give; beyond that the fewest of rows of parts, in equal rows
    /// or with one part taken off first. Some thousand steps at most.
    pub(super) fn parts(&self, area: &Polygon) -> u32 {
        if self.holds(area) {
            return 1;
        }
        let least = self.least(area).max(2);
        let mut most = self.in_rows(area);
        if let Some(few) = (least..most.min(4)).find(|&parts| self.divides(area, parts)) {
            return few;
        }
        if least.max(4) < most {
            let rests = both(ways(area)).filter_map(|way| after(area, way, self.farthest(area, way)? - LAP));
            most = rests.map(|rest| 1 + self.in_rows(&rest)).fold(most, u32::min);
        }
        most
    }

    /// Whether so many parts do, 2 or 3: taking off as much as one part holds leaves the least.
    fn divides(&self, area: &Polygon, parts: u32) -> bool {
        both(ways(area)).any(|way| {
            let Some(reach) = self.farthest(area, way) else { return false };
            let Some(rest) = after(area, way, reach - LAP) else { return true };
            self.least(&rest) < parts && (self.holds(&rest) || (parts > 2 && self.divides(&rest, parts - 1)))
        })
    }

    /// How far along a way one part can reach from where the area begins; `None` where it holds next to nothing of it.
    pub(super) fn farthest(&self, area: &Polygon, way: Vector) -> Option<f64> {
        let (from, to) = area.extent(way);
        let holds = |reach: f64| before(area, way, reach).is_some_and(|slab| self.holds(&slab));
        let (mut near, mut far) = (from + LAP + LEAST, to);
        if near >= far || !holds(near) {
            return None;
        }
        for _ in 0..HALVINGS {
            let between = f64::midpoint(near, far);
            if holds(between) {
                near = between;
            } else {
                far = between;
            }
        }
        Some(near)
    }

    /// The parts in rows, whichever way these run.
    fn in_rows(&self, area: &Polygon) -> u32 {
        let rows = ways(area).into_iter().flat_map(|way| self.rows(area, way).map(move |rows| (way, rows)));
        rows.map(|(way, rows)| slabs(area, way, rows).map(|slab| self.in_row(&slab, way)).sum()).min().unwrap_or(1)
    }

    /// In how many rows along a way parts may stand.
    pub(super) fn rows(&self, area: &Polygon, way: Vector) -> std::ops::RangeInclusive<u32> {
        let (from, to) = area.extent(way);
        let (short, long) = (self.width.min(self.height), self.width.max(self.height));
        pieces(to - from, long)..=pieces(to - from, short)
    }

    /// How many parts side by side make a row.
    fn in_row(&self, slab: &Polygon, way: Vector) -> u32 {
        let extent = |way: Vector| slab.extent(way).1 - slab.extent(way).0;
        let (high, long) = (extent(way), extent(way.quarter_turned()));
        let lying = [(self.width, self.height), (self.height, self.width)].into_iter();
        let parts = lying.filter(|(deep, _)| high <= deep + 1e-9).map(|(_, wide)| pieces(long, wide)).min();
        match parts {
            Some(1) => 1,
            _ if diameter(slab) <= self.width + self.height && self.holds(slab) => 1,
            // No row is higher than the longer side of the room, but for rounding.
            Some(parts) => parts,
            None => pieces(long, self.width.min(self.height)),
        }
    }
}

/// The directions across which an area may be cut: along and square to its longer edges, the longest first.
pub(super) fn ways(area: &Polygon) -> Vec<Vector> {
    let mut edges: Vec<Segment> = area.edges().collect();
    edges.sort_by(|a, b| b.length().total_cmp(&a.length()));
    let least = edges.first().map_or(0.0, |edge| edge.length() * SHORT);
    edges.retain(|edge| edge.length() >= least);
    let mut found: Vec<Vector> = Vec::new();
    for along in edges.into_iter().filter_map(|edge| (edge.end - edge.start).unit()) {
        for way in [along, along.quarter_turned()] {
            if found.iter().all(|other| other.cross(way).abs() > ALIKE) {
                found.push(way);
            }
        }
    }
    found
}

fn both(ways: Vec<Vector>) -> impl Iterator<Item = Vector> {
    ways.into_iter().flat_map(|way| [way, -way])
}

/// The distance of its two corners that are farthest from each other.
fn diameter(area: &Polygon) -> f64 {
    let corners = area.corners();
    let pairs = (0..corners.len()).flat_map(|i| (0..i).map(move |j| corners[i].distance(corners[j])));
    pairs.fold(0.0, f64::max)
}

/// How many corners are found that lie farther from each other than this, going round from each corner in both directions.
fn apart(corners: &[Point], distance: f64) -> u32 {
    let n = corners.len();
    let round = |start: usize, back: bool| {
        let mut chosen: Vec<Point> = Vec::new();
        for k in 0..n {
            let corner = corners[(start + if back { n - k } else { k }) % n];
            if chosen.iter().all(|other| other.distance(corner) > distance) {
                chosen.push(corner);
            }
        }
        chosen.len()
    };
    let most = (0..n).flat_map(|start| [false, true].map(|back| round(start, back))).max();
    u32::try_from(most.unwrap_or(1)).unwrap_or(u32::MAX)
}

/// The line square to a way at a distance along it; what lies farther is on its right.
pub(super) fn across(way: Vector, at: f64) -> Option<Line> {
    Line::toward(Point::default() + way * at, (-way).quarter_turned())
}

/// What of an area lies before a place along a way.
pub(super) fn before(area: &Polygon, way: Vector, at: f64) -> Option<Polygon> {
    area.cut(across(way, at)?, fine()).0
}

/// What of an area lies after a place along a way.
pub(super) fn after(area: &Polygon, way: Vector, at: f64) -> Option<Polygon> {
    area.cut(across(way, at)?, fine()).1
}

/// An area in equal rows that lap.
fn slabs(area: &Polygon, way: Vector, rows: u32) -> impl Iterator<Item = Polygon> {
    let (from, to) = area.extent(way);
    let high = (to - from + LAP * f64::from(rows - 1)) / f64::from(rows);
    (0..rows).filter_map(move |row| {
        let top = from + f64::from(row) * (high - LAP);
        let below = if row == 0 { Some(area.clone()) } else { after(area, way, top) };
        if row + 1 == rows { below } else { before(&below?, way, top + high) }
    })
}

/// How many lapped pieces of at most `room` make up a length.
pub(super) fn pieces(length: f64, room: f64) -> u32 {
    whole(((length - LAP) / (room - LAP).max(LEAST) - 1e-9).ceil()).max(1)
}

fn whole(number: f64) -> u32 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a block is no larger than a house")]
    let number = number.clamp(0.0, 1e4) as u32;
    number
}
