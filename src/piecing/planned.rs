//! Patches to units: what the planner decides, written into the pattern as if its author had drawn it.

use std::borrow::Cow;

use super::plan::{self, Asked, Bench, Budget, Divided, Drawing, NoPlan, Plan, PlanTree};
use super::standing::{Standing, standing};
use crate::fault::{Fault, patches as words};
use crate::geometry::{Polygon, Transform};
use crate::notation::source::Span;
use crate::pattern::{Block, CutWish, Patch, Pattern, Placement, Section, StatedJoin, Unit, UnitKind, corner_source};

/// A pattern that has units only, and the plan of each block that had patches.
pub type Planned<'p> = (Cow<'p, Pattern>, Vec<Option<Plan>>);

/// The pattern with units in the place of patches: the same where it has none. `benches` say what sewing on paper takes, block by block.
///
/// # Errors
/// Blocks whose patches cannot be sewn with straight seams, or are too many; names for units that the planner does not make.
pub fn planned<'p>(pattern: &'p Pattern, benches: &[Bench<'_>], budget: Budget) -> Result<Planned<'p>, Vec<Fault>> {
    if pattern.blocks.iter().all(|block| block.patches.is_empty()) {
        return Ok((Cow::Borrowed(pattern), vec![None; pattern.blocks.len()]));
    }
    let mut faults = Vec::new();
    let mut whole = pattern.clone();
    let mut plans = Vec::with_capacity(whole.blocks.len());
    let keys: Vec<&str> = pattern.fabrics.iter().map(|fabric| fabric.key.as_str()).collect();
    for (block, bench) in whole.blocks.iter_mut().zip(benches) {
        if block.patches.is_empty() {
            plans.push(None);
            continue;
        }
        match plan_block(block, &Asked { wishes: &pattern.wishes, bench, budget }, &keys) {
            Ok(plan) => plans.push(Some(plan)),
            Err(found) => faults.extend(found),
        }
    }
    if faults.is_empty() { Ok((Cow::Owned(whole), plans)) } else { Err(faults) }
}

/// Larger stuck regions are not searched for a ring of groups.
const MOST_IN_RING: usize = 32;

/// Makes units of the patches of a block.
fn plan_block(block: &mut Block, asked: &Asked<'_>, keys: &[&str]) -> Result<Plan, Vec<Fault>> {
    let patches = std::mem::take(&mut block.patches);
    let standing = standing(block, asked.bench);
    let placed = standing.len();
    let areas: Vec<Polygon> = standing
        .iter()
        .map(|group| group.outline.clone())
        .chain(patches.iter().map(|patch| patch.polygon.clone()))
        .collect();
    let fabrics: Vec<usize> = stand_ins(block, &standing).chain(patches.iter().map(|patch| patch.fabric)).collect();
    let fixed: Vec<u32> = standing.iter().map(|group| group.papers).collect();
    let drawing = Drawing { areas: &areas, fabrics: &fabrics, fixed: &fixed, tolerance: block.tolerance };
    let made = match plan::plan(&drawing, asked) {
        Ok(mut made) => {
            // What stands in groups has foundations of its own.
            let all = (0..block.placements.len()).collect::<Vec<_>>();
            made.count_foundations(distinct(&fabrics[..placed]), foundations(block, &all));
            made
        }
        Err(NoPlan::TooMany(many)) => {
            return Err(vec![words::too_many_patches(block.span, many, plan::MOST_PATCHES)]);
        }
        Err(NoPlan::Stuck(regions)) => return Err(vec![stuck(block, &drawing, &standing, (&patches, keys), &regions)]),
    };
    let called = called(block, &areas, &made, &standing)?;
    let units = made.tree.units();
    // A placement of what each area belongs to by now.
    let mut home: Vec<usize> = standing.iter().map(|group| group.places.first().copied().unwrap_or(0)).collect();
    home.resize(areas.len(), 0);
    for family in &made.families {
        let Some((&first, patches_of_unit)) = family.first().and_then(|first| Some((first, units.get(*first)?))) else {
            continue;
        };
        if patches_of_unit.iter().any(|&area| area < placed) {
            continue;
        }
        let sections: Vec<Section> = patches_of_unit
            .iter()
            .filter_map(|&area| patches.get(area.checked_sub(placed)?))
            .map(|patch| Section {
                fabric: patch.fabric,
                polygon: patch.polygon.clone(),
                pieced: Vec::new(),
                cut: CutWish::default(),
                motif: None,
                span: patch.span,
                notes: Vec::new(),
                own_step: None,
            })
            .collect();
        let corners = sections.iter().flat_map(|section| section.polygon.corners()).copied();
        let (Some(outline), Some(name)) = (Polygon::hull(corners, block.tolerance), called.get(first)) else {
            continue;
        };
        for &unit in family {
            let transform = made.likes.get(unit).map_or(Transform::IDENTITY, |(_, map)| *map);
            for &area in units.get(unit).copied().into_iter().flatten() {
                home[area] = block.placements.len();
            }
            let here = called.get(unit).unwrap_or(name);
            block.placements.push(Placement {
                name: here.place.replacen('#', " ", 1),
                unit: block.units.len(),
                transform,
                recolour: Vec::new(),
                outline: transform.apply_to_polygon(&outline),
                span: here.span,
            });
        }
        let (name, span) = (name.unit.clone(), name.span);
        block.units.push(Unit {
            kind: UnitKind::Paper,
            name,
            span,
            outline,
            sections,
            up_is_units: false,
            cut: CutWish::default(),
            notes: Vec::new(),
        });
    }
    // What the source states stands; the rest is joined as planned.
    let span = block.span;
    block.joins.extend(joins(&made.tree, &home, span));
    Ok(made)
}

/// What makes a foundation: the unit, whether it is mirrored, and its fabrics where they are exchanged.
fn foundation(place: &Placement) -> (usize, bool, Vec<(usize, usize)>) {
    (place.unit, place.transform.is_mirroring(), place.recolour.clone())
}

/// How many foundations the units at these places have; plain pieces have none.
pub(super) fn foundations(block: &Block, places: &[usize]) -> u32 {
    let mut all: Vec<_> = places
        .iter()
        .filter_map(|&place| block.placements.get(place))
        .filter(|place| block.units.get(place.unit).is_some_and(|unit| unit.kind == UnitKind::Paper))
        .map(foundation)
        .collect();
    all.sort();
    all.dedup();
    u32::try_from(all.len()).unwrap_or(u32::MAX)
}

/// How many different numbers there are.
fn distinct(numbers: &[usize]) -> u32 {
    let distinct: std::collections::BTreeSet<usize> = numbers.iter().copied().collect();
    u32::try_from(distinct.len()).unwrap_or(u32::MAX)
}

/// Numbers that stand for the fabrics of what is drawn: equal for units that share a foundation. No fabric has such a number.
fn stand_ins<'b>(block: &'b Block, standing: &'b [Standing]) -> impl Iterator<Item = usize> + 'b {
    let of = |group: &Standing| match group.places.as_slice() {
        [only] => block.placements.get(*only).map(foundation),
        _ => None,
    };
    standing.iter().enumerate().map(move |(number, group)| {
        let own = of(group);
        let first = own.and_then(|own| standing.iter().position(|other| of(other).as_ref() == Some(&own)));
        usize::MAX - first.unwrap_or(number)
    })
}

/// How a unit of a plan is called.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Called {
    /// The name of the unit: the same for all that are alike.
    pub unit: String,
    /// How a source calls it where it stands: `sea#2`.
    pub place: String,
    /// Where it is named; the block's name where it is not.
    pub span: Span,
}

/// How the units of a plan are called, from left to right: as the source says with `unit NAME around P`, else `paper-1`, `paper-2` and so on.
/// The first areas stand already.
///
/// # Errors
/// Names at points where no patch is, and two names for one unit.
pub fn called(block: &Block, areas: &[Polygon], plan: &Plan, standing: &[Standing]) -> Result<Vec<Called>, Vec<Fault>> {
    let units = plan.tree.units();
    let placed = standing.len();
    let named = named(block, areas, &units, placed)?;
    let mut taken: Vec<String> = block.units.iter().map(|unit| unit.name.clone()).collect();
    taken.extend(block.unit_names.iter().map(|named| named.name.clone()));
    let mut called: Vec<Option<Called>> = vec![None; units.len()];
    let mut number = 0_usize;
    // Papers are numbered from left to right as the tree has them.
    let mut families: Vec<&Vec<usize>> = plan.families.iter().collect();
    families.sort_by_key(|family| family.iter().min().copied());
    for family in families {
        let group = family.first().and_then(|&first| standing.get(*units.get(first)?.first()?));
        if let (Some(group), [unit]) = (group, family.as_slice()) {
            let span =
                group.places.first().and_then(|&place| block.placements.get(place)).map_or(block.span, |p| p.span);
            called[*unit] = Some(Called { unit: group.name.clone(), place: group.name.clone(), span });
            continue;
        }
        let of_source = family.iter().find_map(|&unit| named.get(unit)?.clone());
        let (name, span) = of_source.unwrap_or_else(|| {
            let mut name = String::new();
            while name.is_empty() || taken.contains(&name) {
                number += 1;
                name = format!("paper-{number}");
            }
            (name, block.span)
        });
        for (k, &unit) in family.iter().enumerate() {
            let own = named.get(unit).and_then(Option::as_ref).filter(|(own, _)| *own != name);
            let place = match own {
                Some((own, _)) => own.clone(),
                None if family.len() > 1 => format!("{name}#{}", k + 1),
                None => name.clone(),
            };
            let span = own.map_or(span, |(_, span)| *span);
            if let Some(called) = called.get_mut(unit) {
                *called = Some(Called { unit: name.clone(), place, span });
            }
        }
    }
    Ok(called.into_iter().flatten().collect())
}

/// The name that the source gives to each planned unit, with its place.
fn named(
    block: &Block,
    areas: &[Polygon],
    units: &[&[usize]],
    placed: usize,
) -> Result<Vec<Option<(String, Span)>>, Vec<Fault>> {
    let mut names: Vec<Option<(String, Span)>> = vec![None; units.len()];
    let mut faults = Vec::new();
    for named in &block.unit_names {
        let holds = |area: &Polygon| area.holds(named.point, block.tolerance) == Some(true);
        let area = areas.iter().position(holds).filter(|&area| area >= placed);
        let unit = area.and_then(|area| units.iter().position(|unit| unit.contains(&area)));
        match unit.and_then(|unit| names.get_mut(unit)) {
            None => faults.push(words::unit_name_astray(named.span, &named.name)),
            Some(Some((first, span))) => faults.push(words::unit_named_twice(named.span, &named.name, (first, *span))),
            Some(name) => *name = Some((named.name.clone(), named.span)),
        }
    }
    if faults.is_empty() { Ok(names) } else { Err(faults) }
}

/// Regions that cannot be sewn, with what would free them.
fn stuck(
    block: &Block,
    drawing: &Drawing<'_>,
    standing: &[Standing],
    (patches, keys): (&[Patch], &[&str]),
    regions: &[Vec<usize>],
) -> Fault {
    let placed = standing.len();
    let place = |area: usize| standing.get(area).and_then(|group| block.placements.get(*group.places.first()?));
    let span = |area: &usize| -> Span {
        let patch = area.checked_sub(placed).and_then(|patch| patches.get(patch));
        patch.map_or_else(|| place(*area).map_or(block.span, |place| place.span), |patch| patch.span)
    };
    let stuck: Vec<Span> = regions.iter().flatten().map(span).collect();
    // All regions, or none: half a cure would be refused again.
    let cures: Option<Vec<plan::Cure>> = regions.iter().map(|region| plan::cure(drawing, region)).collect();
    let cures: Vec<words::Cure> = cures
        .into_iter()
        .flatten()
        .flat_map(|cure| cure.divided)
        .filter_map(|divided| Some(cured(&divided, patches.get(divided.patch.checked_sub(placed)?)?, keys)))
        .collect();
    // What would do without an added seam, were the locked patches drawn as units.
    let first = regions.first().into_iter().flatten();
    let areas: Vec<Polygon> = first.filter_map(|&area| drawing.areas.get(area).cloned()).collect();
    let leaf = match plan::propose(&areas, block.tolerance) {
        Some(plan::Proposal::Ring(_)) => Some(words::Leaf::Ring),
        Some(plan::Proposal::Inset(_)) => Some(words::Leaf::Inset),
        None if areas.len() <= MOST_IN_RING && plan::is_ring_of_groups(&areas, block.tolerance) => {
            Some(words::Leaf::Ring)
        }
        None => None,
    };
    words::cannot_plan(block.span, &block.name, &stuck, (&cures, leaf))
}

/// A divided patch as the lines that state it.
fn cured(divided: &Divided, patch: &Patch, keys: &[&str]) -> words::Cure {
    let key = keys.get(patch.fabric).copied().unwrap_or_default();
    let seams =
        divided.seams.iter().map(|seam| format!("seam {} -- {}", corner_source(seam.start), corner_source(seam.end)));
    let parts = divided.parts.iter().map(|part| format!("patch {key} around {}", corner_source(part.centroid())));
    words::Cure { patch: patch.span, lines: seams.chain(parts).collect() }
}

/// The joins of a plan, leaves first, as a source would state them.
fn joins(tree: &PlanTree, home: &[usize], span: Span) -> Vec<StatedJoin> {
    let mut stated = Vec::new();
    if let PlanTree::Join { left, right, .. } = tree {
        stated.extend(joins(left, home, span));
        stated.extend(joins(right, home, span));
        let any = |part: &PlanTree| part.units().first().and_then(|unit| home.get(*unit.first()?).copied());
        if let (Some(left), Some(right)) = (any(left), any(right)) {
            stated.push(StatedJoin {
                members: vec![(left, span), (right, span)],
                name: None,
                press: None,
                span,
                notes: Vec::new(),
                own_step: None,
            });
        }
    }
    stated
}
