//! What a lap may harm, and how much that weighs.
//!
//! Costs are in parts that are hard to glue: 100 is as bad as a lap can be, 1 is a matter of taste.

use std::ops::RangeInclusive;

use crate::geometry::{Angle, Line, Point, Polygon, Segment, Vector};
use crate::packet::label::has_room;

use super::super::LAP;
use super::fine;

/// A seam runs along a lap, so that nothing tells whether its parts are shifted along it and the line to sew on is glued: for every lap's length.
const ALONG: f64 = 60.0;
/// It runs in the very middle besides.
const ON_MIDDLE: f64 = 400.0;
/// Seams meet in the strip, where paper lies double and a point must be exact: for each meeting.
const MEETING: f64 = 6.0;
/// A section loses the last place for its number.
const UNNAMED: f64 = 30.0;
/// A part is next to nothing but strip.
const SLIVER: f64 = 80.0;
/// No seam crosses the lap, by which its parts line up.
const UNCROSSED: f64 = 3.0;
/// The lap runs neither along nor square to the foundation's longest edge.
const ASKEW: f64 = 2.0;
/// What is glued, for every inch.
const GLUED: f64 = 0.4;
/// One part is twice as large as its share.
const UNEQUAL: f64 = 12.0;

/// Seams this near to the strip count as in it, in inches.
const NEAR: f64 = 0.1;
/// A seam runs along a lap up to this many degrees from it, and up to this many on its middle.
const PARALLEL: (f64, f64) = (15.0, 6.0);
/// A seam lies on the middle of a lap if it comes as near as this, in inches.
const MIDDLE: f64 = 0.12;
/// Parts narrower than this beside the strip are slivers, in inches.
const NARROW: f64 = 1.25;
/// How wide and how high the number of a section is with its fabric's mark, in inches.
const LABEL: (f64, f64) = (0.36, 0.13);

/// What is drawn on a foundation.
pub(super) struct Drawn {
    pub(super) seams: Vec<Segment>,
    /// Where seams end: on each other or on the outline.
    meetings: Vec<Point>,
    /// What bears a number.
    pub(super) areas: Vec<Polygon>,
    /// Along the longest edge.
    along: Vector,
}

impl Drawn {
    pub(super) fn new(seams: Vec<Segment>, areas: Vec<Polygon>, outline: &Polygon) -> Self {
        let mut meetings: Vec<Point> = Vec::new();
        for end in seams.iter().flat_map(|seam| [seam.start, seam.end]) {
            if meetings.iter().all(|other| other.distance(end) > NEAR) {
                meetings.push(end);
            }
        }
        let longest = outline.edges().max_by(|a, b| a.length().total_cmp(&b.length()));
        let along = longest.and_then(|edge| (edge.end - edge.start).unit()).unwrap_or(Vector::new(1.0, 0.0));
        Self { seams, meetings, areas, along }
    }

    /// What a lap of an area costs, but for numbers that it runs through and for unequal parts. O(n) in what is drawn.
    pub(super) fn cost(&self, area: &Polygon, middle: Line) -> f64 {
        let Some(chord) = area.chord(middle, fine()) else { return f64::INFINITY };
        let way = middle.direction().quarter_turned();
        let (from, to) = area.extent(way);
        let at = middle.origin().to_vector().dot(way);
        let narrow = (at - LAP / 2.0 - from).min(to - at - LAP / 2.0);
        let askew = self.along.cross(way).abs().min(self.along.dot(way).abs()) > 0.01;
        let held = |point: &&Point| middle.distance_right(**point).abs() < LAP / 2.0 + NEAR / 2.0;
        let meetings = self.meetings.iter().filter(held).filter(|&&point| area.distance_outside(point) == 0.0).count();
        self.along_seams(area, middle, chord.length())
            + MEETING * f64::from(u32::try_from(meetings).unwrap_or(u32::MAX))
            + SLIVER * ((NARROW - narrow) / NARROW).max(0.0)
            + if askew { ASKEW } else { 0.0 }
            + GLUED * chord.length()
    }

    /// What it costs that parts are not equal, if the left of a lap comes apart into the best of these numbers of them.
    pub(super) fn inequality(area: &Polygon, middle: Line, of_left: RangeInclusive<u32>, parts: u32) -> f64 {
        UNEQUAL * unequal(area, middle, of_left, parts)
    }

    /// What the seams in and near a strip cost that run along it; and that none crosses it.
    fn along_seams(&self, area: &Polygon, middle: Line, length: f64) -> f64 {
        let mut cost = 0.0;
        let mut crossed = false;
        for seam in self.seams.iter().filter_map(|&seam| within(area, seam)) {
            let Some(along) = (seam.end - seam.start).unit() else { continue };
            let slant = middle.direction().cross(along).abs();
            let within = near(seam, middle, LAP / 2.0 + NEAR);
            if within <= 0.0 {
                continue;
            }
            if slant < Angle::degrees(PARALLEL.0).sin_cos().0 {
                cost += ALONG * (within / length.max(0.5)).min(1.0);
                if slant < Angle::degrees(PARALLEL.1).sin_cos().0 && near(seam, middle, MIDDLE) > 0.0 {
                    cost += ON_MIDDLE;
                }
            } else {
                crossed = true;
            }
        }
        cost + if crossed { 0.0 } else { UNCROSSED }
    }

    /// What the numbers cost that find no room any more on either side of a strip.
    pub(super) fn unnamed(&self, area: &Polygon, middle: Line) -> f64 {
        let lost = |section: &&Polygon| {
            let (_, right) = section.cut(middle.shifted_right(LAP / -2.0), fine());
            let Some(strip) = right.and_then(|right| right.cut(middle.shifted_right(LAP / 2.0), fine()).0) else {
                return false;
            };
            let sides = [
                section.cut(middle.shifted_right(LAP / -2.0), fine()).0,
                section.cut(middle.shifted_right(LAP / 2.0), fine()).1,
            ];
            let Some(seen) = section.intersection(area, fine()).filter(|_| strip.intersection(area, fine()).is_some())
            else {
                return false;
            };
            let open = sides.into_iter().flatten().filter_map(|side| side.intersection(area, fine()));
            let mut named = open.map(|open| is_named(&open));
            is_named(&seen) && !named.any(|named| named)
        };
        UNNAMED * f64::from(u32::try_from(self.areas.iter().filter(lost).count()).unwrap_or(u32::MAX))
    }
}

/// Whether a number has room in an area.
pub(super) fn is_named(area: &Polygon) -> bool {
    has_room(area, LABEL.0, LABEL.1, 0.02)
}

/// By what share the parts on one side of a lap exceed an equal share, if the left holds the best number of these.
fn unequal(area: &Polygon, middle: Line, of_left: RangeInclusive<u32>, parts: u32) -> f64 {
    let (whole, share) = (area.area(), area.area() / f64::from(parts));
    let left = area.cut(middle, fine()).0.map_or(0.0, |left| left.area());
    let excess = |k: u32| (left / f64::from(k)).max((whole - left) / f64::from(parts - k)) / share - 1.0;
    of_left.map(excess).fold(f64::INFINITY, f64::min)
}

/// What of a stretch lies in an area; `None` where that is next to nothing.
pub(super) fn within(area: &Polygon, stretch: Segment) -> Option<Segment> {
    let line = stretch.line()?;
    let chord = area.chord(line, fine())?;
    let (from, to) = (line.position(chord.start).max(0.0), line.position(chord.end).min(stretch.length()));
    (to - from > 0.05).then(|| Segment::new(line.at(from), line.at(to)))
}

/// How much of a stretch lies within a distance of a line.
fn near(stretch: Segment, line: Line, distance: f64) -> f64 {
    let (from, to) = (line.distance_right(stretch.start), line.distance_right(stretch.end));
    if (to - from).abs() < 1e-9 {
        return if from.abs() <= distance { stretch.length() } else { 0.0 };
    }
    let at = |aside: f64| ((aside - from) / (to - from)).clamp(0.0, 1.0);
    (at(distance) - at(-distance)).abs() * stretch.length()
}

#[cfg(test)]
mod tests {
    use super::{Drawn, near, unequal};
    use crate::geometry::{Line, Point, Polygon, Segment, Vector};

    fn rectangle(wide: f64, high: f64) -> Polygon {
        Polygon::rectangle(Point::new(0.0, 0.0), Point::new(wide, high)).unwrap()
    }

    fn upright(x: f64) -> Line {
        Line::toward(Point::new(x, 0.0), Vector::new(0.0, -1.0)).unwrap()
    }

    #[test]
    fn a_lap_on_a_seam_costs_more_than_one_beside_it_and_that_more_than_one_afar() {
        let area = rectangle(16.0, 8.0);
        let seam = Segment::new(Point::new(8.0, 0.0), Point::new(8.0, 8.0));
        let drawn = Drawn::new(vec![seam], vec![rectangle(8.0, 8.0)], &area);
        let cost = |x: f64| drawn.cost(&area, upright(x)) + Drawn::inequality(&area, upright(x), 1..=1, 2);
        assert!(cost(8.0) > cost(8.25) && cost(8.25) > cost(8.6), "{} {} {}", cost(8.0), cost(8.25), cost(8.6));
        assert!(cost(8.6) < cost(12.0), "about equal parts");
    }

    #[test]
    fn a_lap_through_the_only_place_for_a_number_costs() {
        let area = rectangle(16.0, 8.0);
        let narrow = Polygon::rectangle(Point::new(4.0, 2.0), Point::new(4.5, 2.5)).unwrap();
        let drawn = Drawn::new(Vec::new(), vec![narrow], &area);
        assert!(drawn.unnamed(&area, upright(4.2)) > 0.0);
        assert_eq!(drawn.unnamed(&area, upright(6.0)), 0.0);
        assert_eq!(drawn.unnamed(&area, upright(4.9)), 0.0);
    }

    #[test]
    fn what_lies_near_a_line_is_measured_along_the_stretch() {
        let slanted = Segment::new(Point::new(-1.0, 0.0), Point::new(1.0, 2.0));
        let half = near(slanted, upright(0.0), 0.5);
        assert!((half - 2.0_f64.sqrt()).abs() < 1e-9, "{half}");
        assert!(unequal(&rectangle(3.0, 1.0), upright(1.0), 1..=2, 3).abs() < 1e-9);
    }
}
