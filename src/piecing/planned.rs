//! Patches to units: what the planner decides, written into the pattern as if its author had drawn it.

use std::borrow::Cow;

use super::plan::{self, Divided, NoPlan, PlanTree};
use crate::fault::{Fault, patches as words};
use crate::geometry::{Polygon, Transform};
use crate::notation::source::Span;
use crate::pattern::{Block, Patch, Pattern, Placement, Section, StatedJoin, Unit, UnitKind, corner_source};

/// The pattern with units in the place of patches: the same where it has none.
///
/// # Errors
/// Blocks whose patches cannot be sewn with straight seams, or are too many.
pub fn planned(pattern: &Pattern) -> Result<Cow<'_, Pattern>, Vec<Fault>> {
    if pattern.blocks.iter().all(|block| block.patches.is_empty()) {
        return Ok(Cow::Borrowed(pattern));
    }
    let mut faults = Vec::new();
    let mut whole = pattern.clone();
    let keys: Vec<&str> = pattern.fabrics.iter().map(|fabric| fabric.key.as_str()).collect();
    for block in whole.blocks.iter_mut().filter(|block| !block.patches.is_empty()) {
        if let Err(fault) = plan_block(block, &keys) {
            faults.push(*fault);
        }
    }
    if faults.is_empty() { Ok(Cow::Owned(whole)) } else { Err(faults) }
}

/// Makes units of the patches of a block.
fn plan_block(block: &mut Block, keys: &[&str]) -> Result<(), Box<Fault>> {
    let patches = std::mem::take(&mut block.patches);
    let fixed = block.placements.len();
    let areas: Vec<Polygon> = block
        .placements
        .iter()
        .map(|place| place.outline.clone())
        .chain(patches.iter().map(|patch| patch.polygon.clone()))
        .collect();
    let made = plan::plan_round(&areas, fixed, block.tolerance, &|_| 1, plan::BUDGET);
    let made = made.map_err(|reason| {
        Box::new(match reason {
            NoPlan::TooMany(many) => words::too_many_patches(block.span, many, plan::MOST_PATCHES),
            NoPlan::Stuck(regions) => {
                let span = |area: &usize| -> Span {
                    area.checked_sub(fixed)
                        .and_then(|patch| patches.get(patch))
                        .map_or_else(|| block.placements.get(*area).map_or(block.span, |place| place.span), |p| p.span)
                };
                let stuck: Vec<Span> = regions.iter().flatten().map(span).collect();
                // All regions, or none: half a cure would be refused again.
                let cures: Option<Vec<plan::Cure>> =
                    regions.iter().map(|region| plan::cure(&areas, region, fixed, block.tolerance)).collect();
                let cures: Vec<words::Cure> = cures
                    .into_iter()
                    .flatten()
                    .flat_map(|cure| cure.divided)
                    .filter_map(|divided| Some(cured(&divided, patches.get(divided.patch.checked_sub(fixed)?)?, keys)))
                    .collect();
                words::cannot_plan(block.span, &block.name, &stuck, &cures)
            }
        })
    })?;
    // Which placement an area belongs to by now.
    let mut home: Vec<usize> = (0..fixed).collect();
    home.resize(areas.len(), 0);
    for areas_of_unit in made.tree.units() {
        if areas_of_unit.iter().all(|&area| area < fixed) {
            continue;
        }
        let sections: Vec<Section> = areas_of_unit
            .iter()
            .filter_map(|&area| patches.get(area.checked_sub(fixed)?))
            .map(|patch| Section {
                fabric: patch.fabric,
                polygon: patch.polygon.clone(),
                pieced: Vec::new(),
                span: patch.span,
                notes: Vec::new(),
                own_step: None,
            })
            .collect();
        let corners = sections.iter().flat_map(|section| section.polygon.corners()).copied();
        let Some(outline) = Polygon::hull(corners, block.tolerance) else { continue };
        let name = free_name(block);
        for &area in areas_of_unit {
            home[area] = block.placements.len();
        }
        block.placements.push(Placement {
            name: name.clone(),
            unit: block.units.len(),
            transform: Transform::IDENTITY,
            recolour: Vec::new(),
            outline: outline.clone(),
            span: block.span,
        });
        block.units.push(Unit {
            kind: UnitKind::Paper,
            name,
            span: block.span,
            outline,
            sections,
            up_is_units: false,
            notes: Vec::new(),
        });
    }
    // What the source states stands; the rest is joined as planned.
    if block.joins.is_empty() {
        let span = block.span;
        block.joins = joins(&made.tree, &home, span);
    }
    Ok(())
}

/// A divided patch as the lines that state it.
fn cured(divided: &Divided, patch: &Patch, keys: &[&str]) -> words::Cure {
    let key = keys.get(patch.fabric).copied().unwrap_or_default();
    let seams =
        divided.seams.iter().map(|seam| format!("seam {} -- {}", corner_source(seam.start), corner_source(seam.end)));
    let parts = divided.parts.iter().map(|part| format!("patch {key} around {}", corner_source(part.centroid())));
    words::Cure { patch: patch.span, lines: seams.chain(parts).collect() }
}

/// A name that no unit has: `paper-1`, `paper-2`, ….
fn free_name(block: &Block) -> String {
    let taken = |name: &String| block.units.iter().any(|unit| unit.name == *name);
    let mut number = 1_usize;
    loop {
        let name = format!("paper-{number}");
        if !taken(&name) {
            return name;
        }
        number += 1;
    }
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
