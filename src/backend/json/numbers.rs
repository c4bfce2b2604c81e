//! Lengths, angles, places and matrices as numbers of `model.json`: six decimals.

use crate::geometry::{Angle, Length, Point, Polygon, Segment, Transform};

/// A point, across and down.
pub(super) type Place = [f64; 2];
/// The corners of a polygon.
pub(super) type Corners = Vec<Place>;

/// Six decimals, and no minus before a zero.
pub(super) fn number(number: f64) -> f64 {
    let rounded = (number * 1e6).round() / 1e6;
    if rounded == 0.0 { 0.0 } else { rounded }
}

pub(super) fn length(length: Length) -> f64 {
    number(length.to_inches())
}

pub(super) fn angle(angle: Angle) -> f64 {
    number(angle.to_degrees())
}

pub(super) fn place(point: Point) -> Place {
    [number(point.x), number(point.y)]
}

pub(super) fn segment(segment: Segment) -> [Place; 2] {
    [place(segment.start), place(segment.end)]
}

pub(super) fn corners(polygon: &Polygon) -> Corners {
    polygon.corners().iter().copied().map(place).collect()
}

pub(super) fn matrix(transform: Transform) -> [f64; 6] {
    transform.to_matrix().map(number)
}
