//! Patches of a block: areas that are not numbered, drawn as polygons or as what lies between seam lines. The planner makes units of them.

use crate::fault::patches as words;
use crate::geometry::{Point, Polygon, Segment, Tolerance, arrangement};
use crate::notation::source::Span;
use crate::notation::syntax::{self, BlockItem, LineValue, Shape};

use super::block::Context;
use super::places::Places;
use super::scope::{Resolved, Scope};
use super::{Patch, corner_words, extent_words};

/// A `patch` line that names an area by a point in it, or as a polygon.
struct Claim {
    fabric: usize,
    area: Area,
    span: Span,
}

/// How a patch says where it lies.
enum Area {
    Polygon(Polygon),
    Around(Point),
}

/// The patches of a block, and whether it has any: with the units that stand in it they tile it.
///
/// Every area between the block's edges, its units, its polygons and its seam lines must be claimed by exactly one `patch` line.
pub fn patches(
    context: &mut Context<'_>,
    scope: &Scope<'_>,
    source: &syntax::Block,
    whole: &Polygon,
    places: &Places,
) -> Vec<Patch> {
    let before = context.faults.len();
    let tolerance = context.ground.tolerance;
    let mut seams: Vec<(Segment, Span)> = Vec::new();
    let mut claims: Vec<Claim> = Vec::new();
    for item in &source.items {
        if context.full() {
            return Vec::new();
        }
        let result = match &item.value {
            BlockItem::SeamLine(line) => seam(context, scope, line, whole).map(|seam| seams.push((seam, item.span))),
            BlockItem::Patch { fabric, shape } => {
                claim(context, scope, fabric, shape, item.span).map(|claim| claims.push(claim))
            }
            _ => Ok(()),
        };
        if let Err(fault) = result {
            context.faults.push(*fault);
        }
    }
    if context.faults.len() > before {
        return Vec::new();
    }
    let mut segments: Vec<Segment> = seams.iter().map(|(segment, _)| *segment).collect();
    segments.extend(whole.edges());
    segments.extend(places.all.iter().flat_map(|place| place.outline.edges()));
    let polygons = claims.iter().filter_map(|claim| match &claim.area {
        Area::Polygon(polygon) => Some(polygon),
        Area::Around(_) => None,
    });
    segments.extend(polygons.flat_map(Polygon::edges));
    let made = arrangement(&segments, tolerance);
    for &loose in made.loose.iter().filter(|&&loose| loose < seams.len()) {
        context.faults.push(words::seam_loose(seams[loose].1));
    }
    let mut found = Vec::new();
    let mut used = vec![false; claims.len()];
    for face in &made.faces {
        let Ok(area) = Polygon::try_new(face, tolerance) else {
            let corner = face.first().map(|corner| corner_words(*corner)).unwrap_or_default();
            context.faults.push(words::area_turns_inward(source.name.span, &corner));
            continue;
        };
        let centre = area.centroid();
        let in_unit = places.all.iter().any(|place| place.outline.holds(centre, tolerance) == Some(true));
        let outside = whole.holds(centre, tolerance) != Some(true);
        if in_unit || outside {
            continue;
        }
        let claiming: Vec<usize> = (0..claims.len()).filter(|&k| claims[k].claims(&area, tolerance)).collect();
        for &claim in &claiming {
            used[claim] = true;
        }
        match claiming.as_slice() {
            [] => {
                let extent = extent_words(std::slice::from_ref(&area));
                context.faults.push(words::area_unnamed(source.name.span, &extent));
            }
            [only] => found.push(Patch { fabric: claims[*only].fabric, polygon: area, span: claims[*only].span }),
            [first, second, ..] => {
                context.faults.push(words::area_named_twice(claims[*first].span, claims[*second].span));
            }
        }
    }
    for (claim, used) in claims.iter().zip(used) {
        if !used && context.faults.len() == before {
            context.faults.push(words::patch_astray(claim.span));
        }
    }
    if context.faults.len() > before { Vec::new() } else { found }
}

/// A seam line across the block: from point to point, or from edge to edge of the block where it is `upright` or `level`.
fn seam(context: &mut Context<'_>, scope: &Scope<'_>, line: &syntax::LineRef, whole: &Polygon) -> Resolved<Segment> {
    if let LineValue::Through(a, b) = &line.value {
        let (from, to) = scope.line_through((a, b))?;
        return Ok(Segment::new(context.corners.snap(from), context.corners.snap(to)));
    }
    let along = scope.line(line)?;
    whole.chord(along, context.ground.tolerance).ok_or_else(|| Box::new(words::seam_outside(line.span)))
}

fn claim(
    context: &mut Context<'_>,
    scope: &Scope<'_>,
    fabric: &syntax::Name,
    shape: &Shape,
    span: Span,
) -> Resolved<Claim> {
    let fabric = context.fabrics.find(fabric)?;
    let area = match shape {
        Shape::Polygon(path) => {
            let tolerance = context.ground.tolerance;
            let corners = &mut context.corners;
            Area::Polygon(scope.outline(path, "the patch", tolerance, |point| corners.snap(point))?)
        }
        Shape::Around(point) => Area::Around(scope.point(point)?),
        Shape::Beyond(line) => return Err(Box::new(words::patch_beyond(line.span))),
    };
    Ok(Claim { fabric, area, span })
}

impl Claim {
    fn claims(&self, area: &Polygon, tolerance: Tolerance) -> bool {
        match &self.area {
            Area::Around(point) => area.holds(*point, tolerance) == Some(true),
            Area::Polygon(polygon) => polygon.holds(area.centroid(), tolerance) == Some(true),
        }
    }
}

/// Whether a line of a block draws patches.
pub const fn draws_patches(item: &BlockItem) -> bool {
    matches!(item, BlockItem::Patch { .. } | BlockItem::SeamLine(_))
}
