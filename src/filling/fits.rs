//! Whether a shape fits on a page at all.

use super::Turning;
use super::core::TINY;
use crate::geometry::{Angle, Point, Polygon, Segment, Transform};

/// A turn in which an outline fits into a rectangle: none at all if it does, then a quarter, then one that lays an edge level or upright, then any.
/// `None` where it fits in no turn allowed.
///
/// Exact for convex outlines, as [`Polygon::turn_to_fit`] is. O(n²).
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
    quarters.into_iter().chain(level).find(fit).or_else(|| outline.turn_to_fit(width, height))
}
