//! Words of the faults of points, lines and outlines.

use super::{Code, Fault};
use crate::notation::source::Span;

/// Two points that coincide where a line is asked for.
#[must_use]
pub fn line_without_length(span: Span) -> Fault {
    Fault::new(Code::NoSuchPoint, "the two points of this line are the same point", span)
        .with_help("name two points that lie apart")
}

/// Lines that never meet.
#[must_use]
pub fn lines_do_not_meet(span: Span) -> Fault {
    Fault::new(Code::NoSuchPoint, "these two lines are parallel and never meet", span)
        .with_help("name two lines that cross")
}

/// A number that arithmetic took out of bounds.
#[must_use]
pub fn out_of_bounds(span: Span) -> Fault {
    Fault::new(Code::NumberOutOfRange, "this does not come to a number that can be drawn", span)
        .with_help("look for a division by nothing, or for numbers much larger than the grid")
}

/// An outline with fewer than three corners, or without area.
#[must_use]
pub fn degenerate_outline(span: Span, what: &str, corners: usize) -> Fault {
    let message = if corners < 3 {
        format!("{what} has fewer than three corners")
    } else {
        format!("{what} covers no area: its corners lie on one line or on one spot")
    };
    Fault::new(Code::DegenerateOutline, message, span).with_help("name at least three corners that span an area")
}

/// An outline that crosses itself. `first` and `second` are the corners at which the crossing edges begin.
#[must_use]
pub fn crossing_outline(span: Span, what: &str, first: Span, second: Span) -> Fault {
    Fault::new(Code::CrossingOutline, format!("{what} crosses itself"), span)
        .with_label(first, "the edge that begins here…")
        .with_label(second, "…is crossed by the edge that begins here")
        .with_help("go round the outline corner by corner, in one direction")
}

/// An outline that turns inward.
#[must_use]
pub fn concave_outline(span: Span, what: &str, corner: Span) -> Fault {
    Fault::new(Code::ConcaveOutline, format!("{what} turns inward"), span)
        .with_label(corner, "at this corner")
        .with_help("a straight seam cannot go round an inward corner: divide the area in two at this corner")
}

/// An outline of a block that does not touch the sides of its grid.
#[must_use]
pub fn outline_off_grid(span: Span, side: &str, distance: &str) -> Fault {
    Fault::new(Code::OutlineOffGrid, format!("the outline misses the {side} side of the grid by {distance}"), span)
        .with_help("the finished size is that of the grid, so the outline has to touch all four of its sides: change the outline or the grid")
}

/// Corners that are suspiciously close.
#[must_use]
pub fn near_points(span: Span, other: Span, distance: &str) -> Fault {
    Fault::new(Code::NearPoints, format!("two corners lie only {distance} apart"), span)
        .saying("a corner of this…")
        .with_label(other, "…and a corner of this")
        .with_help("let both use one named point, so that their seams meet")
}
