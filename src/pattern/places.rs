//! Where units stand: as drawn, or again turned, mirrored, moved, recoloured, in rows and round points.

use std::collections::BTreeMap;

use crate::fault::{names, sizes, units as words};
use crate::geometry::{Angle, Polygon, Transform, Vector};
use crate::notation::source::Span;
use crate::notation::syntax::{self, Change, Place, PlaceRef};

use super::allow::Site;
use super::block::Context;
use super::scope::{Resolved, Scope};
use super::statements::checked_count;
use super::tiling;
use super::unit::Drawn;
use super::{Placement, UnitKind, corner_words, extent_words, plain};

/// Places of one block at the most.
const MAX_PLACES: usize = 5_000;

/// The places of a block, and what they may be called.
#[derive(Default)]
pub struct Places {
    /// By unit, each unit's in the order of the source.
    pub all: Vec<Placement>,
    by_name: BTreeMap<String, Vec<usize>>,
}

/// What a `place` line makes of its unit, before it is named.
struct Placed {
    transform: Transform,
    recolour: Vec<(usize, usize)>,
    span: Span,
    name: Option<String>,
}

/// Works out all places of a block. `lines` are its `place` statements with their places in the source.
pub fn places(
    context: &mut Context<'_>,
    scope: &Scope<'_>,
    drawn: &[Drawn],
    lines: &[(&Place, Span)],
) -> Option<Places> {
    let before = context.faults.len();
    let mut by_unit: Vec<Vec<Placed>> = drawn
        .iter()
        .map(|drawn| {
            let placed =
                Placed { transform: Transform::IDENTITY, recolour: Vec::new(), span: drawn.unit.span, name: None };
            if drawn.in_place { vec![placed] } else { Vec::new() }
        })
        .collect();
    let mut total = drawn.len();
    for &(line, span) in lines {
        if context.full() {
            return None;
        }
        let Some(unit) = drawn.iter().position(|drawn| drawn.unit.name == line.unit.value) else {
            let known = drawn.iter().map(|drawn| drawn.unit.name.as_str());
            context.faults.push(names::unknown_name(line.unit.span, "unit", &line.unit.value, known));
            continue;
        };
        match place(context, scope, line, span, drawn[unit].in_place) {
            Ok(more) if total + more.len() > MAX_PLACES => {
                let most = u32::try_from(MAX_PLACES).unwrap_or(u32::MAX);
                context.faults.push(sizes::count_out_of_range(span, "the number of places of a block", 1, most));
            }
            Ok(more) => {
                total += more.len();
                by_unit[unit].extend(more);
            }
            Err(fault) => context.faults.push(*fault),
        }
    }
    if let Some((what, most)) = context.spent.places(total) {
        let span = lines.last().map_or_else(|| drawn.first().map(|drawn| drawn.unit.span), |&(_, span)| Some(span));
        context.faults.extend(span.map(|span| sizes::count_out_of_range(span, what, 1, most)));
    }
    if context.spent.over() {
        return None;
    }
    let mut places = Places::default();
    for (index, (drawn, placed)) in drawn.iter().zip(by_unit).enumerate() {
        if placed.is_empty() {
            let site = Site::unit(context.block, index);
            context.warnings.push((site, names::unused_name(drawn.unit.span, "unit", &drawn.unit.name)));
        }
        if let Some((stated, span)) = drawn.sewn
            && placed.len() != stated as usize
        {
            let spans: Vec<Span> = placed.iter().map(|placed| placed.span).collect();
            let count = u32::try_from(placed.len()).unwrap_or(u32::MAX);
            context.faults.push(sizes::sewn_differs(span, &drawn.unit.name, stated, count, &spans));
        }
        let several = placed.len() > 1;
        for (number, placed) in (1_u32..).zip(placed) {
            let name = match &placed.name {
                Some(name) => name.clone(),
                None if several => format!("{} {number}", drawn.unit.name),
                None => drawn.unit.name.clone(),
            };
            let index_here = places.all.len();
            places.by_name.entry(drawn.unit.name.clone()).or_default().push(index_here);
            if let Some(own) = placed.name.filter(|own| *own != drawn.unit.name) {
                places.by_name.entry(own).or_default().push(index_here);
            }
            let outline = placed.transform.apply_to_polygon(&drawn.unit.outline);
            let transform = match drawn.unit.kind {
                UnitKind::Paper => placed.transform,
                UnitKind::Plain => plain::unmirrored(&drawn.unit.outline, placed.transform),
            };
            let (recolour, span) = (placed.recolour, placed.span);
            places.all.push(Placement { name, unit: index, transform, recolour, outline, span });
        }
    }
    check_names(context, drawn, lines);
    (context.faults.len() == before).then_some(places)
}

/// Names of places are not those of units or of other places.
fn check_names(context: &mut Context<'_>, drawn: &[Drawn], lines: &[(&Place, Span)]) {
    let mut taken: BTreeMap<&str, Span> = drawn.iter().map(|d| (d.unit.name.as_str(), d.unit.span)).collect();
    for name in lines.iter().filter_map(|(line, _)| line.name.as_ref()) {
        if let Some(&first) = taken.get(name.value.as_str()) {
            context.faults.push(names::doubled_name(name.span, &name.value, Some(first)));
        }
        taken.insert(&name.value, name.span);
    }
}

/// What one `place` line makes.
fn place(
    context: &mut Context<'_>,
    scope: &Scope<'_>,
    line: &Place,
    span: Span,
    drawn_in_place: bool,
) -> Resolved<Vec<Placed>> {
    let mut transform = Transform::IDENTITY;
    let mut recolour: Vec<(usize, usize)> = Vec::new();
    let mut repeats: Option<Vec<Transform>> = None;
    let mut moved = false;
    for change in &line.changes {
        match &change.value {
            Change::Moved(by) => transform = transform.then(Transform::shift(scope.coordinates(by)?.to_vector())),
            Change::Turned(angle, about) => {
                transform = transform.then(Transform::turn(scope.angle(&angle.value)?, scope.point(about)?));
            }
            Change::Mirrored(over) => transform = transform.then(Transform::mirror(scope.line(over)?)),
            Change::Recoloured(pairs) => {
                for (from, to) in pairs {
                    recolour.push((context.fabrics.find(from)?, context.fabrics.find(to)?));
                }
            }
            Change::Round(count, about) => {
                let count = checked_count(count, "the number of places", 1, 1_000)?;
                let about = scope.point(about)?;
                let turn = |k| Transform::turn(Angle::degrees(360.0 * f64::from(k) / f64::from(count)), about);
                repeats = Some((0..count).map(turn).collect());
                continue;
            }
            Change::Every(count, by) => {
                let count = checked_count(count, "the number of places", 1, 1_000)?;
                let by = scope.coordinates(by)?.to_vector();
                let shift = |k| Transform::shift(Vector::new(by.x * f64::from(k), by.y * f64::from(k)));
                repeats = Some((0..count).map(shift).collect());
                continue;
            }
        }
        moved = true;
    }
    let own = line.name.as_ref().map(|name| name.value.clone());
    let Some(repeats) = repeats else { return Ok(vec![Placed { transform, recolour, span, name: own }]) };
    // Where the line says no more than how often, its first place is the one where the unit is drawn.
    let skip = usize::from(drawn_in_place && !moved);
    let placed = repeats.into_iter().enumerate().skip(skip).map(|(k, repeat)| Placed {
        transform: transform.then(repeat),
        recolour: recolour.clone(),
        span,
        name: own.as_ref().map(|own| format!("{own}-{}", k + 1)),
    });
    Ok(placed.collect())
}

impl Places {
    /// The place that a join means.
    pub fn find(&self, place: &PlaceRef) -> Resolved<usize> {
        let (name, span) = (place.name.value.as_str(), place.span());
        let Some(found) = self.by_name.get(name) else {
            let known = self.by_name.keys().map(String::as_str);
            return Err(Box::new(names::unknown_name(span, "place", name, known)));
        };
        match (&place.number, found.as_slice()) {
            (None, &[only]) => Ok(only),
            (None, several) => Err(Box::new(names::unclear_place(span, name, several.len()))),
            (Some(number), several) => (number.value as usize)
                .checked_sub(1)
                .and_then(|k| several.get(k).copied())
                .ok_or_else(|| Box::new(names::unknown_name(span, "place", &format!("{name}#{}", number.value), []))),
        }
    }

    /// Whether a name is that of a unit or a place.
    pub fn has(&self, name: &str) -> bool {
        self.by_name.contains_key(name)
    }
}

/// Checks that the places tile the block.
pub fn check_tiling(context: &mut Context<'_>, source: &syntax::Block, outline: &Polygon, places: &[Placement]) {
    let tolerance = context.ground.tolerance;
    let before = context.faults.len();
    for place in places {
        if let Some((distance, corner)) = tiling::furthest_outside(outline, &place.outline, tolerance) {
            let distance = super::steps_words(distance);
            context.faults.push(words::unit_outside_block(
                place.span,
                &place.called(),
                &corner_words(corner),
                &distance,
            ));
        }
    }
    if context.faults.len() > before {
        // A unit that went astray lies over others and leaves a gap, which is not worth saying too.
        return;
    }
    let outlines: Vec<Polygon> = places.iter().map(|place| place.outline.clone()).collect();
    for (a, b, common) in tiling::overlaps(&outlines, tolerance) {
        let (a, b) = (&places[a.min(b)], &places[a.max(b)]);
        let extent = extent_words(&[common]);
        context.faults.push(words::unit_overlap((&a.called(), a.span), (&b.called(), b.span), &extent));
    }
    if context.faults.len() == before {
        let open = tiling::gaps(outline, &outlines, tolerance);
        if !open.is_empty() {
            context.faults.push(words::block_gap(source.name.span, &source.name.value, &extent_words(&open)));
        }
    }
}
