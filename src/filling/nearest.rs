//! How near two outlines come: by the plain definition, apart from the solver, so that it can check what the solver says.

use crate::geometry::{Point, Polygon, Segment};

/// The least distance between two outlines, in the unit of the frame; 0 where the shapes overlap or touch. O(n m).
#[must_use]
pub fn nearest(a: &Polygon, b: &Polygon) -> f64 {
    if overlap(a, b, 0.0) {
        return 0.0;
    }
    // Where they do not overlap, one of the two nearest places is a corner.
    let from = |corners: &[Point], other: &Polygon| {
        corners
            .iter()
            .flat_map(|&corner| other.edges().map(move |edge| edge.distance(corner)))
            .fold(f64::INFINITY, f64::min)
    };
    from(a.corners(), b).min(from(b.corners(), a))
}

/// Whether two outlines reach into each other by more than a distance: no edge of either has all of the other on its outer side. O(n m).
pub(super) fn overlap(a: &Polygon, b: &Polygon, more_than: f64) -> bool {
    let apart = |one: &Polygon, other: &Polygon| {
        one.edges()
            .filter_map(Segment::line)
            .any(|line| other.corners().iter().all(|&corner| line.distance_right(corner) <= more_than))
    };
    !apart(a, b) && !apart(b, a)
}
