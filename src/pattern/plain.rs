//! A plain piece: a rectangle of one fabric that is cut to size and joined as it is, without paper.

use crate::fault::{Fault, pieced, plain as words};
use crate::geometry::{Line, Point, Polygon, Tolerance, Transform, Vector};
use crate::notation::source::Span;
use crate::notation::syntax;

use super::block::Context;
use super::colourings::Colouring;
use super::cuts::CutWish;
use super::facts::{Fabric, PrintDirection};
use super::scope::{Resolved, Scope};
use super::unit::Drawn;
use super::{Block, Section, Unit, UnitKind, corner_words};

/// How far the edges of a piece may slant before a print with a direction slants visibly in it, in degrees.
const UPRIGHT: f64 = 1e-3;

/// Resolves a plain piece. Like a unit it stands where it is drawn.
pub fn plain(context: &mut Context<'_>, scope: &Scope<'_>, source: &syntax::Plain) -> Resolved<Drawn> {
    let fabric = context.fabrics.find(&source.fabric);
    let name = source.name.value.clone();
    let (tolerance, corners) = (context.ground.tolerance, &mut context.corners);
    let drawn = scope.outline(&source.path, &format!("the plain piece `{name}`"), tolerance, |p| corners.snap(p));
    let (fabric, outline) = (fabric?, drawn?);
    if let Some(corner) = not_a_rectangle(&outline, tolerance) {
        let count = outline.corners().len();
        return Err(Box::new(words::not_a_rectangle(source.path.span, &name, count, &corner_words(corner))));
    }
    let span = source.name.span;
    let section = Section {
        fabric,
        polygon: outline.clone(),
        pieced: Vec::new(),
        cut: CutWish::default(),
        motif: None,
        span,
        notes: Vec::new(),
        own_step: None,
    };
    let (sections, notes) = (vec![section], Vec::new());
    let cut = CutWish::default();
    let unit = Unit { kind: UnitKind::Plain, name, span, outline, sections, up_is_units: false, cut, notes };
    Ok(Drawn { unit, sewn: None, in_place: true })
}

/// A corner at which an outline fails to be that of a rectangle, in any turn.
fn not_a_rectangle(outline: &Polygon, tolerance: Tolerance) -> Option<Point> {
    let corners = outline.corners();
    let &[a, b, c, d] = corners else { return corners.last().copied() };
    let off = |p: Point, q: Point, r: Point| -> f64 {
        let Some(line) = Line::through(p, q) else { return f64::INFINITY };
        // How far the next corner lies from where the right angle would have it.
        (line.position(r) - p.distance(q)).abs()
    };
    let turns = [(a, b, c), (b, c, d), (c, d, a), (d, a, b)];
    turns.into_iter().find(|&(p, q, r)| !tolerance.is_zero(off(p, q, r))).map(|(_, corner, _)| corner)
}

/// The same place without the mirroring, which a rectangle does not need: so the cuts of both hands are of one kind.
pub fn unmirrored(outline: &Polygon, transform: Transform) -> Transform {
    if !transform.is_mirroring() {
        return transform;
    }
    let middle = outline.centroid();
    let own = outline.edges().next().and_then(|edge| Line::toward(middle, edge.end - edge.start));
    own.map_or(transform, |line| Transform::mirror(line).then(transform))
}

/// Faults of plain pieces and of strips whose print could not stand upright: those that lie slanting in the block, in a fabric with a direction, as
/// drawn or in a colouring.
pub fn slanting_prints(blocks: &[Block], fabrics: &[Fabric], colourings: &[(&Colouring, Span)]) -> Vec<Fault> {
    let mut found: Vec<Fault> = Vec::new();
    let directed = |fabric: usize| {
        fabrics.get(fabric).filter(|fabric| fabric.print.direction != PrintDirection::None).map(|fabric| &fabric.key)
    };
    // The fabric with a direction that comes to lie there, and the colouring that puts it there.
    let lies = |drawn: usize| match directed(drawn) {
        Some(key) => Some((key, None)),
        None => colourings.iter().find_map(|(colouring, span)| Some((directed(colouring.fabric(drawn))?, Some(*span)))),
    };
    for (block, place) in blocks.iter().flat_map(|block| block.placements.iter().map(move |place| (block, place))) {
        let unit = &block.units[place.unit];
        if unit.kind == UnitKind::Plain {
            let slanting = place.outline.edges().next().is_some_and(|edge| slants(edge.end - edge.start));
            let fabric = unit.sections.first().map(|section| place.fabric(section.fabric));
            if let Some((key, colouring)) = fabric.filter(|_| slanting).and_then(lies) {
                found.push(words::slanting_print(place.span, &place.called(), key, colouring));
            }
        }
        for section in &unit.sections {
            // All lines of a section are parallel.
            let Some(seam) = section.pieced.first().and_then(|strip| strip.seam) else { continue };
            let map = if unit.up_is_units { Transform::IDENTITY } else { place.transform };
            if !slants(map.apply_to_vector(seam.end - seam.start)) {
                continue;
            }
            for strip in &section.pieced {
                if let Some((key, colouring)) = lies(place.fabric(strip.fabric)) {
                    found.push(pieced::slanting_print(strip.span, &place.called(), key, colouring));
                }
            }
        }
    }
    found
}

/// Whether a direction runs neither level nor upright.
fn slants(way: Vector) -> bool {
    let off = way.angle().to_degrees().rem_euclid(90.0);
    off.min(90.0 - off) > UPRIGHT
}

/// A fault where a pattern has nothing to print: all of it is plain pieces.
pub fn without_paper(blocks: &[Block]) -> Option<Fault> {
    let has_paper = |block: &Block| {
        !block.patches.is_empty()
            || block.placements.iter().any(|place| block.units[place.unit].kind == UnitKind::Paper)
    };
    let first = blocks.first()?;
    (!blocks.iter().any(has_paper)).then(|| words::without_paper(first.span))
}
