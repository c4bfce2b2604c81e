//! A block: its ground, its points, its units, where they stand, and the joins that the source states.

use std::collections::BTreeMap;

use crate::fault::{Code, Fault, names, patches as planned_words, points, sizes, units as words};
use crate::geometry::{Length, Polygon};
use crate::notation::source::Span;
use crate::notation::syntax::{self, BlockItem, Finished, JoinKind, Pressing, Target};

use super::allow::{Allow, Site};
use super::bounds::{MOST_FAULTS, MOST_PIECES, Spent};
use super::corners::Corners;
use super::facts::Units;
use super::grid::{Ground, ground};
use super::patches;
use super::places::{self, Places};
use super::plain::plain;
use super::scope::{Resolved, Scope};
use super::statements::checked_count;
use super::unit::{Drawn, Fabrics, unit};
use super::{Block, Leaf, Manner, StatedJoin, StatedPress, UnitName, centre_of};

/// What the parts of a block share while they are resolved.
pub struct Context<'a> {
    /// The number of the block.
    pub block: usize,
    /// Which units the pattern is written in.
    pub units: Units,
    /// Its ground.
    pub ground: Ground,
    /// Its corners so far.
    pub corners: Corners,
    /// The fabrics.
    pub fabrics: &'a mut Fabrics,
    /// Errors so far.
    pub faults: &'a mut Vec<Fault>,
    /// Warnings so far.
    pub warnings: &'a mut Vec<(Site, Fault)>,
    /// `allow` lines so far.
    pub allows: &'a mut Vec<Allow>,
    /// What the blocks have come to so far.
    pub spent: &'a mut Spent,
}

impl Context<'_> {
    /// Whether so much is wrong, or so much asked for, that nothing more is looked at.
    pub fn full(&self) -> bool {
        self.faults.len() >= MOST_FAULTS || self.spent.over()
    }
}

/// The statements of a block that may stand but once, found.
#[derive(Default)]
struct Once<'s> {
    finished: Option<(&'s Finished, Span)>,
    copies: Option<(u32, Span)>,
    outline: Option<(Polygon, Span)>,
}

impl<'s> Once<'s> {
    fn finish(&mut self, finished: &'s Finished, span: Span) -> Resolved<()> {
        if let Some((_, first)) = self.finished {
            return Err(Box::new(names::doubled_statement(span, "finished", first)));
        }
        self.finished = Some((finished, span));
        Ok(())
    }
}

/// Resolves a block; `pattern_finished` is the size for blocks that state none.
pub fn block(
    source: &syntax::Block,
    outer: &Scope<'_>,
    pattern_finished: Option<&Finished>,
    context: &mut Context<'_>,
) -> Option<Block> {
    let before = context.faults.len();
    let mut scope = Scope::new(Some(outer));
    set_built_in(&mut scope, &context.ground.outline);
    let mut once = Once::default();
    let mut drawn = Vec::new();
    let mut seen_units: BTreeMap<&str, Span> = BTreeMap::new();
    let mut unit_count = 0;
    let has_patches = source.items.iter().any(|item| patches::draws_patches(&item.value));
    for item in &source.items {
        if context.full() {
            return None;
        }
        let result = match &item.value {
            BlockItem::Point(point) => scope.define_point(point),
            BlockItem::Row(row) => scope.define_row(row),
            BlockItem::Measure(measure) => scope.define_measure(measure),
            BlockItem::Outline(path) => outline(context, &mut scope, path, item.span, &mut once),
            BlockItem::Finished(finished) => once.finish(finished, item.span),
            BlockItem::Copies(count) => match once.copies {
                Some((_, first)) => Err(Box::new(names::doubled_statement(item.span, "copies", first))),
                None => checked_count(count, "the number of copies", 1, 10_000)
                    .map(|count| once.copies = Some((count, item.span))),
            },
            BlockItem::Unit(source) => {
                unit_count += 1;
                named_once(&mut seen_units, &source.name)
                    .map(|()| drawn.extend(unit(context, &scope, source, unit_count - 1)))
            }
            BlockItem::Plain(source) => {
                unit_count += 1;
                let piece = named_once(&mut seen_units, &source.name).and_then(|()| plain(context, &scope, source));
                piece.map(|piece| drawn.push(piece))
            }
            // These speak of units, which may stand below.
            BlockItem::Place(_)
            | BlockItem::Join(_)
            | BlockItem::Note(_)
            | BlockItem::Step(_)
            | BlockItem::Allow(_)
            | BlockItem::Patch { .. }
            | BlockItem::SeamLine(_)
            | BlockItem::UnitName { .. } => Ok(()),
        };
        if let Err(fault) = result {
            context.faults.push(*fault);
        }
    }
    let size = size(source, &once, pattern_finished, context);
    if unit_count == 0 && !has_patches {
        let part = format!("block `{}`", source.name.value);
        let example = "unit roof { … }";
        context.faults.push(names::missing_statement(Some(source.name.span), "unit", &part, example));
    }
    if drawn.len() < unit_count || (unit_count == 0 && !has_patches) {
        return None;
    }
    let lines: Vec<(&syntax::Place, Span)> = source
        .items
        .iter()
        .filter_map(|item| if let BlockItem::Place(place) = &item.value { Some((place, item.span)) } else { None })
        .collect();
    let places = places::places(context, &scope, &drawn, &lines)?;
    let whole = once.outline.as_ref().map_or_else(|| context.ground.outline.clone(), |(outline, _)| outline.clone());
    let mut patches = Vec::new();
    if context.faults.len() == before {
        if has_patches {
            patches = patches::patches(context, &scope, source, &whole, &places);
        } else {
            places::check_tiling(context, source, &whole, &places.all);
        }
    }
    let unit_names = unit_names(context, &scope, source, (&places, has_patches));
    let joins_from = context.faults.len();
    let (joins, leaves, notes) = joins(context, source, &places);
    point_to_planner(context.faults.iter_mut().skip(joins_from), &unit_names);
    for (span, kind, name) in scope.unused() {
        context.warnings.push((Site::block(context.block), names::unused_name(span, kind, name)));
    }
    let (copies, copies_span) = once.copies.unwrap_or((1, source.name.span));
    count_pieces(context, (copies, copies_span), &drawn, &places, patches.len());
    let (step, manner) = size?;
    (context.faults.len() == before).then(|| Block {
        name: source.name.value.clone(),
        span: source.name.span,
        copies,
        step,
        manner,
        outline: whole,
        tolerance: context.ground.tolerance,
        units: drawn.into_iter().map(|drawn| drawn.unit).collect(),
        patches,
        names: if has_patches { scope.named() } else { Vec::new() },
        unit_names,
        placements: places.all,
        joins,
        leaves,
        notes,
    })
}

/// Says of lines that speak of a unit which the planner will make why it is not known yet.
fn point_to_planner<'f>(faults: impl Iterator<Item = &'f mut Fault>, unit_names: &[UnitName]) {
    for fault in faults.filter(|fault| fault.code == Code::UnknownName) {
        if unit_names.iter().any(|named| fault.message.contains(&format!("`{}`", named.name))) {
            fault.help = Some(planned_words::NAMED_BY_PLANNER.to_owned());
            fault.fixes.clear();
        }
    }
}

/// The names for units that the planner will make; none twice, and none that a place or a unit has.
fn unit_names(
    context: &mut Context<'_>,
    scope: &Scope<'_>,
    source: &syntax::Block,
    (places, has_patches): (&Places, bool),
) -> Vec<UnitName> {
    let mut found: Vec<UnitName> = Vec::new();
    for item in &source.items {
        let BlockItem::UnitName { name, point } = &item.value else { continue };
        if context.full() {
            break;
        }
        let taken = found.iter().find(|other| other.name == name.value).map(|other| other.span);
        let of_place = || places.all.iter().find(|place| place.name == name.value).map(|place| place.span);
        if let Some(first) = taken.or_else(of_place) {
            context.faults.push(names::doubled_name(name.span, &name.value, Some(first)));
            continue;
        }
        match scope.point(point) {
            Ok(_) if !has_patches => context.faults.push(planned_words::nothing_to_name(item.span, &name.value)),
            Ok(point) => found.push(UnitName { name: name.value.clone(), point, span: item.span }),
            Err(fault) => context.faults.push(*fault),
        }
    }
    found
}

/// Takes the name of a unit or plain piece in, which no other may have.
fn named_once<'s>(seen: &mut BTreeMap<&'s str, Span>, name: &'s syntax::Name) -> Resolved<()> {
    if let Some(&first) = seen.get(name.value.as_str()) {
        return Err(Box::new(names::doubled_name(name.span, &name.value, Some(first))));
    }
    seen.insert(&name.value, name.span);
    Ok(())
}

/// Counts the pieces of fabric in all copies of a block; the number of copies comes with its place.
fn count_pieces(
    context: &mut Context<'_>,
    (copies, span): (u32, Span),
    drawn: &[Drawn],
    places: &Places,
    patches: usize,
) {
    let in_units: usize = places.all.iter().map(|place| drawn[place.unit].unit.pieces()).sum();
    let once = (in_units + patches) as u64;
    let pieces = once.saturating_mul(u64::from(copies));
    if let Some(together) = context.spent.pieces(pieces) {
        context.faults.push(if pieces > MOST_PIECES {
            sizes::too_many_pieces(span, pieces, MOST_PIECES)
        } else {
            sizes::too_many_pieces_in_all(span, together, MOST_PIECES)
        });
    }
}

/// The ground of a block, or nothing if its grid is at fault.
pub fn ground_of(source: &syntax::Block, faults: &mut Vec<Fault>) -> Option<Ground> {
    ground(&source.grid).map_err(|fault| faults.push(*fault)).ok()
}

fn set_built_in(scope: &mut Scope<'_>, outline: &Polygon) {
    scope.clear_built_in();
    scope.set_built_in("centre", centre_of(outline));
    // Clockwise from the leftmost of the topmost corners.
    let corners = outline.corners();
    let first = (0..corners.len())
        .min_by(|&a, &b| corners[a].y.total_cmp(&corners[b].y).then(corners[a].x.total_cmp(&corners[b].x)))
        .unwrap_or(0);
    for (number, corner) in (1..).zip(corners.iter().cycle().skip(first).take(corners.len())) {
        scope.set_built_in(format!("corner-{number}"), *corner);
    }
}

fn outline(
    context: &mut Context<'_>,
    scope: &mut Scope<'_>,
    path: &syntax::Path,
    span: Span,
    once: &mut Once<'_>,
) -> Resolved<()> {
    if let Some((_, first)) = &once.outline {
        return Err(Box::new(names::doubled_statement(span, "outline", *first)));
    }
    let tolerance = context.ground.tolerance;
    let drawn = scope.outline(path, "the outline of the block", tolerance, |point| context.corners.snap(point))?;
    let (from, to) = drawn.bounds();
    let sides = [
        ("left", from.x),
        ("upper", from.y),
        ("right", to.x - context.ground.width),
        ("lower", to.y - context.ground.height),
    ];
    if let Some((side, distance)) = sides.into_iter().find(|(_, distance)| !tolerance.is_zero(*distance)) {
        let distance = super::steps_words(distance.abs());
        return Err(Box::new(points::outline_off_grid(path.span, side, &distance)));
    }
    set_built_in(scope, &drawn);
    context.ground.outline = drawn.clone();
    once.outline = Some((drawn, span));
    Ok(())
}

fn size(
    source: &syntax::Block,
    once: &Once<'_>,
    pattern_finished: Option<&Finished>,
    context: &mut Context<'_>,
) -> Option<(Length, Manner)> {
    let Some(finished) = once.finished.map(|(finished, _)| finished).or(pattern_finished) else {
        let part = format!("block `{}`", source.name.value);
        context.faults.push(names::missing_statement(Some(source.name.span), "finished size", &part, "finished 8 in"));
        return None;
    };
    context.ground.step(finished).map_err(|fault| context.faults.push(*fault)).ok()
}

/// The stated joins with what is fastened to them, which of them are leaves, and the notes on the block.
fn joins(
    context: &mut Context<'_>,
    source: &syntax::Block,
    places: &Places,
) -> (Vec<StatedJoin>, BTreeMap<usize, Leaf>, Vec<String>) {
    let mut joins: Vec<StatedJoin> = Vec::new();
    let mut leaves = BTreeMap::new();
    let mut groups: BTreeMap<String, (usize, Span)> = BTreeMap::new();
    // The names of joins at fault: that there is no such join later is a consequence.
    let mut failed: Vec<&str> = Vec::new();
    for item in &source.items {
        if context.full() {
            break;
        }
        let BlockItem::Join(join) = &item.value else { continue };
        match stated_join(join, item.span, places, &groups) {
            Ok(stated) => {
                if let Some(name) = &join.name {
                    let taken = groups.get(&name.value).map(|&(_, span)| span);
                    if taken.is_some() || places.has(&name.value) {
                        let first = taken.or_else(|| places.all.iter().find(|p| p.name == name.value).map(|p| p.span));
                        context.faults.push(names::doubled_name(name.span, &name.value, first.or(Some(item.span))));
                    }
                    groups.insert(name.value.clone(), (stated.members[0].0, name.span));
                }
                let leaf = match join.kind {
                    JoinKind::Straight => None,
                    JoinKind::Partial => Some(Leaf::Ring),
                    JoinKind::Inset => Some(Leaf::Inset),
                };
                leaves.extend(leaf.map(|leaf| (joins.len(), leaf)));
                joins.push(stated);
            }
            Err(fault) => {
                if !join.members.iter().any(|place| failed.contains(&place.name.value.as_str())) {
                    context.faults.push(*fault);
                }
                failed.extend(join.name.as_ref().map(|name| name.value.as_str()));
            }
        }
    }
    let find = |target: &Target| -> Resolved<usize> {
        match target {
            Target::Join(name) => {
                joins.iter().position(|join| join.name.as_ref() == Some(&name.value)).ok_or_else(|| {
                    let known = groups.keys().map(String::as_str);
                    Box::new(names::unknown_name(name.span, "join", &name.value, known))
                })
            }
            Target::Section(number) => Err(Box::new(names::target_misplaced(
                number.span,
                &format!("section {}", number.value),
                "in the block, name a join; a line for a section belongs in its unit",
            ))),
        }
    };
    let mut notes = Vec::new();
    let mut fastened: Vec<(usize, Option<String>, Option<String>)> = Vec::new();
    for item in &source.items {
        let result = match &item.value {
            BlockItem::Note(syntax::Note { target: None, text }) => {
                notes.push(text.value.clone());
                Ok(())
            }
            BlockItem::Note(syntax::Note { target: Some(target), text }) => {
                find(target).map(|k| fastened.push((k, Some(text.value.clone()), None)))
            }
            BlockItem::Step(step) => {
                find(&step.target).map(|k| fastened.push((k, None, Some(step.text.value.clone()))))
            }
            BlockItem::Allow(allow) => {
                let site = match &allow.target {
                    None => Ok(Site::block(context.block)),
                    Some(target) => find(target).map(|k| Site::join(context.block, k)),
                };
                site.and_then(|site| context.allow(&allow.code, site, item.span))
            }
            _ => Ok(()),
        };
        if let Err(fault) = result {
            context.faults.push(*fault);
        }
    }
    for (k, note, own_step) in fastened {
        joins[k].notes.extend(note);
        joins[k].own_step = own_step.or(joins[k].own_step.take());
    }
    (joins, leaves, notes)
}

fn stated_join(
    join: &syntax::Join,
    span: Span,
    places: &Places,
    groups: &BTreeMap<String, (usize, Span)>,
) -> Resolved<StatedJoin> {
    // The name of a group stands for any of its members, and so for all it has been sewn into.
    let find = |place: &syntax::PlaceRef| match groups.get(&place.name.value) {
        Some(&(member, _)) if place.number.is_none() => Ok(member),
        _ => places.find(place),
    };
    let members: Vec<(usize, Span)> =
        join.members.iter().map(|place| find(place).map(|found| (found, place.span()))).collect::<Resolved<_>>()?;
    if members.len() < 2 {
        return Err(Box::new(words::join_of_one(span)));
    }
    let press = match &join.press {
        None => None,
        Some(press) => Some(match &press.value {
            Pressing::Open => StatedPress::Open,
            Pressing::Toward(place) => StatedPress::Toward(find(place)?, place.span()),
        }),
    };
    let name = join.name.as_ref().map(|name| name.value.clone());
    Ok(StatedJoin { members, name, press, span, notes: Vec::new(), own_step: None })
}
