//! Whether a shape fits on a page at all.

use super::Turning;
use super::core::TINY;
use crate::geometry::{Angle, Point, Polygon, Segment, Transform};

/// A turn in which an outline fits into a rectangle: none at all if it does, then a quarter, then one that lays an edge level or upright, then any.
/// `None` where it fits in no turn allowed.
///
/// Exact for convex outlines: between two turns that lay an edge level or upright, width and height of a turning outline are sinusoids in the turn,
/// so if there is a turn that fits, there is one where an edge is level or upright or where some two corners are just as far apart as the room allows. O(n³).
#[must_use]
pub fn fits(outline: &Polygon, width: f64, height: f64, turning: Turning) -> Option<Angle> {
    let fit = |turn: &Angle| {
        let (low, high) = Transform::turn(*turn, Point::default()).apply_to_polygon(outline).bounds();
        high.x - low.x <= width + TINY && high.y - low.y <= height + TINY
    };
    let quarters = [0.0, 90.0, 180.0, 270.0].map(Angle::degrees);
    match turning {
        Turning::Fixed => return Some(Angle::default()).filter(fit),
        Turning::Quarters => return quarters.into_iter().find(fit),
        Turning::Freely => {}
    }
    let direction = |edge: Segment| (edge.end - edge.start).angle().to_degrees();
    let level = outline
        .edges()
        .flat_map(|edge| quarters.map(|quarter| Angle::degrees(quarter.to_degrees() - direction(edge)).within_turn()));
    quarters.into_iter().chain(level).find(fit).or_else(|| {
        let corners = outline.corners();
        let pairs = corners.iter().flat_map(|&a| corners.iter().map(move |&b| b - a));
        let tight = pairs.flat_map(|across| {
            let (length, angle) = (across.length(), across.angle().to_degrees());
            [(width, 0.0), (height, 90.0)].into_iter().flat_map(move |(room, axis)| {
                let bend = if length > room { Angle::radians(libm::acos(room / length)).to_degrees() } else { 0.0 };
                let hits = if length > room { 2 } else { 0 };
                [axis - angle + bend, axis - angle - bend]
                    .into_iter()
                    .take(hits)
                    .map(|degrees| Angle::degrees(degrees).within_turn())
            })
        });
        tight.into_iter().find(fit)
    })
}
