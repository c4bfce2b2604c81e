//! How far a cut may stray from its ideal place before it bares something.

use crate::geometry::{Angle, Length, Line, Point, Polygon, Segment, Vector};

use super::Measures;

/// How far a cut may stray, each way alone with the rest at the ideal place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Play {
    /// How far it reaches past the start and the end of the seam; none without a seam.
    pub overhang: Option<[Length; 2]>,
    /// How far it may slide along the seam: toward its start, toward its end.
    pub along: [Length; 2],
    /// How far it may slide across: away from the section, into the section.
    pub across: [Length; 2],
    /// How far it may turn about the middle of the seam: anticlockwise, clockwise.
    pub turn: [Angle; 2],
}

/// What a cut for a needed region must still cover when it strays: under the seam half an allowance counts as enough.
///
/// `seam` is directed so that the section lies on its right. `None` where nothing of the region lies there.
pub(super) fn must(needed: &Polygon, seam: Option<Line>, measures: &Measures) -> Option<Polygon> {
    match seam {
        Some(line) => needed.cut(line.shifted_right(-measures.allowance.to_inches() / 2.0), measures.tolerance).1,
        None => Some(needed.clone()),
    }
}

/// The play of a convex cover for a needed region. Along and across are the seam's; without one `way` tells what along is.
pub(super) fn play(
    cover: &Polygon,
    needed: &Polygon,
    seam: Option<Segment>,
    way: Vector,
    measures: &Measures,
) -> Option<Play> {
    let line = match seam {
        Some(seam) => Some(seam.line()?),
        None => None,
    };
    let must = must(needed, line, measures)?;
    let way = line.map_or(way, Line::direction);
    let into = way.quarter_turned();
    let pivot = seam.map_or_else(|| needed.centroid(), Segment::middle);
    let slide = |direction: Vector| Length::inches(slide(cover, &must, direction));
    let overhang = seam.zip(line).and_then(|(seam, line)| {
        let chord = cover.chord(line, measures.tolerance)?;
        let reach = |from: f64, to: f64| Length::inches((to - from).max(0.0));
        Some([reach(line.position(chord.start), 0.0), reach(seam.length(), line.position(chord.end))])
    });
    Some(Play {
        overhang,
        along: [slide(-way), slide(way)],
        across: [slide(-into), slide(into)],
        turn: turn(cover, &must, pivot),
    })
}

/// How far a convex cover may slide in a direction before it bares something.
pub(super) fn slide(cover: &Polygon, must: &Polygon, direction: Vector) -> f64 {
    cover
        .edges()
        .filter_map(Segment::line)
        .filter_map(|line| {
            let inward = line.direction().quarter_turned();
            let speed = inward.dot(direction);
            let clearance =
                must.corners().iter().map(|&corner| line.distance_right(corner)).fold(f64::INFINITY, f64::min);
            (speed > 1e-9).then(|| clearance.max(0.0) / speed)
        })
        .fold(f64::INFINITY, f64::min)
}

/// How far a convex cover may turn about a point before it bares something: anticlockwise, clockwise; half a turn at the most.
///
/// A corner at distance r from the pivot, seen at angle α from the inner normal of an edge that lies at offset h from the pivot, stays covered while
/// r cos(α ∓ θ) ≥ h.
pub(super) fn turn(cover: &Polygon, must: &Polygon, pivot: Point) -> [Angle; 2] {
    let half_turn = std::f64::consts::PI;
    let (mut anticlockwise, mut clockwise) = (half_turn, half_turn);
    for line in cover.edges().filter_map(Segment::line) {
        let inward = line.direction().quarter_turned();
        let offset = -line.distance_right(pivot);
        for &corner in must.corners() {
            let arm = corner - pivot;
            let radius = arm.length();
            if radius <= offset.abs() && offset <= 0.0 {
                continue;
            }
            let reach = libm::acos((offset / radius).clamp(-1.0, 1.0));
            let angle = libm::atan2(inward.cross(arm), inward.dot(arm));
            clockwise = clockwise.min((reach + angle).max(0.0));
            anticlockwise = anticlockwise.min((reach - angle).max(0.0));
        }
    }
    [Angle::radians(anticlockwise), Angle::radians(clockwise)]
}
