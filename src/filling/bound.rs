//! What no filling can beat.

use super::core::{Core, TINY};
use super::number::{count, whole};
use super::{Medium, Turning};
use crate::geometry::{Point, Polygon, Tolerance, Vector};

/// Distances must be short by more than this for a pair to count as one that fits on no page.
const SURE: f64 = 1e-6;
/// Of more shapes than this pairs are not looked at.
const MANY: usize = 60;

/// No filling prints fewer sheets: all copies, each with half the gap round it, have together the area of so many pages with half the gap round them; and
/// copies of which no two fit on a page together need a page each.
pub(super) fn printed(core: &Core) -> u32 {
    let pages = (core.fullness() - TINY).ceil();
    let apart = core.apart.iter().map(|&shape| core.copies[shape]).fold(0, u32::saturating_add);
    whole(pages).max(apart).max(u32::from(core.total() > 0))
}

/// No filling that prints `most` sheets or fewer has fewer different ones: each shape lies on one of them, as often as it must when each is printed as often as can be.
pub(super) fn different(core: &Core, most: u32) -> u32 {
    if core.total() == 0 {
        return 0;
    }
    let apart = count(core.apart.len()).max(1);
    let suffices = |sheets: &u32| {
        let times = most.saturating_sub(sheets - 1).max(1);
        let each = core.areas.iter().zip(&core.copies);
        let area: f64 = each.map(|(area, copies)| area * f64::from(copies.div_ceil(times))).sum();
        area <= core.room * (f64::from(*sheets) + TINY)
    };
    (apart..=most.max(apart)).find(suffices).unwrap_or(apart)
}

/// No filling of a roll is shorter: the areas of all copies over the width. Nothing is told for pages.
pub(super) fn length(core: &Core) -> f64 {
    if core.page.medium == Medium::Pages || core.page.width <= 0.0 {
        return 0.0;
    }
    let copies = core.copies.iter().zip(&core.outlines);
    copies.map(|(&copies, outline)| outline.area() * f64::from(copies)).sum::<f64>() / core.page.width
}

/// Shapes of which no two copies, of one or of two of them, fit on a page together. Found only where the turns are few; wanted copies decide which.
pub(super) fn apart(core: &Core, turning: Turning) -> Vec<usize> {
    let mut shapes: Vec<usize> = (0..core.copies.len()).filter(|&shape| core.copies[shape] > 0).collect();
    if turning == Turning::Freely || shapes.len() > MANY {
        return Vec::new();
    }
    shapes.sort_by(|&a, &b| core.copies[b].cmp(&core.copies[a]).then(a.cmp(&b)));
    let mut apart: Vec<usize> = Vec::new();
    for shape in shapes {
        let alone = core.copies[shape] == 1 || !together(core, shape, shape);
        if alone && apart.iter().all(|&other| !together(core, shape, other)) {
            apart.push(shape);
        }
    }
    apart
}

/// Whether copies of two shapes may fit on a page together.
fn together(core: &Core, one: usize, other: usize) -> bool {
    core.of_shape[one].iter().any(|&a| core.of_shape[other].iter().any(|&b| beside(core, a, b)))
}

/// Whether two variants may fit on a page together. How far they can be apart is greatest where both lie in corners of the page: the distance to a convex polygon, here the
/// one of all displacements at which they overlap, is greatest at a corner of the rectangle of displacements.
fn beside(core: &Core, one: usize, other: usize) -> bool {
    let (a, b) = (&core.variants[one], &core.variants[other]);
    let room = |size: f64, page: f64| (page - size).max(0.0);
    let x = [-room(a.width, core.page.width), room(b.width, core.page.width)];
    let y = [-room(a.height, core.page.height), room(b.height, core.page.height)];
    let differences = a.bare.iter().flat_map(|&p| b.bare.iter().map(move |&q| Point::default() + (p + -q)));
    // Shapes too small for the tolerance have no such polygon: they may fit.
    let Some(overlapping) = Polygon::hull(differences, Tolerance::of_extent(SURE)) else { return true };
    x.into_iter().flat_map(|x| y.map(|y| Vector::new(x, y))).any(|at| {
        let place = Point::default() + at;
        let inside = overlapping.edges().map(|edge| edge.distance(place)).fold(f64::INFINITY, f64::min);
        let outside = overlapping.distance_outside(place);
        outside > 0.0 && outside >= core.gap - SURE || (outside == 0.0 && core.gap == 0.0 && inside <= SURE)
    })
}
