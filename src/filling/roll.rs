//! Sheets cut from a roll: as short together as can be found.

use super::core::{Core, Item, Plan, Sheet, TINY};
use super::number::{Dice, Steps};
use super::separate::Separation;

/// More items than this are left as the pages have them.
const MOST_ITEMS: usize = 300;
/// The shares of its length by which a sheet is shortened, in turn.
const SHORTER: [f64; 6] = [0.1, 0.05, 0.025, 0.012, 0.006, 0.003];
/// Steps of one trial, and rounds without success after which it ends.
const TRIAL: u64 = 25_000_000;
const PATIENCE: usize = 50;

/// The length of all printed sheets of a plan together.
pub(super) fn length(core: &Core, plan: &Plan) -> f64 {
    plan.sheets.iter().map(|sheet| core.length(&sheet.items) * f64::from(sheet.times)).sum()
}

/// Shortens a plan: everything is printed by itself, and the sheets are shortened one after another while what lies on all of them can still be separated.
pub(super) fn shorten(core: &Core, plan: &Plan, steps: &mut Steps) -> Plan {
    let items: u64 =
        plan.sheets.iter().map(|sheet| u64::from(sheet.times) * super::number::long(sheet.items.len())).sum();
    if items > super::number::long(MOST_ITEMS) {
        return plan.clone();
    }
    let once =
        |sheet: &Sheet| (0..sheet.times).map(|_| Sheet { items: sheet.items.clone(), times: 1 }).collect::<Vec<_>>();
    let mut best = Plan { sheets: plan.sheets.iter().flat_map(once).collect() };
    let mut dice = Dice(3);
    let mut level = 0;
    while level < SHORTER.len() && steps.are_left() && length(core, &best) > super::bound::length(core) + TINY {
        let mut sheets = best.sheets.clone();
        // The shortest sheet comes last and is shortened.
        sheets.sort_by(|a, b| core.length(&b.items).total_cmp(&core.length(&a.items)));
        let mut heights: Vec<f64> = sheets.iter().map(|sheet| core.length(&sheet.items)).collect();
        let least = sheets.last().map_or(0.0, |sheet| lowest(core, &sheet.items));
        let Some(last) = heights.last_mut() else { break };
        let all: f64 = sheets.iter().map(|sheet| core.length(&sheet.items)).sum();
        let target = (*last - SHORTER[level] * all.min(*last * 2.0)).max(least);
        if target > *last - 1e-3 {
            break;
        }
        *last = target;
        let mut separation = Separation::new(core, dice.next());
        separation.take(&sheets, &heights);
        let mut part = steps.split(TRIAL);
        let separated = separation.run(PATIENCE, &mut part);
        steps.rejoin(&part);
        let found = Plan { sheets: separation.sheets() };
        if separated && length(core, &found) < length(core, &best) {
            best = found;
        } else {
            level += 1;
        }
    }
    if length(core, &best) < length(core, plan) - TINY { best } else { plan.clone() }
}

/// The least height of a sheet on which each of some items alone would lie, as it is turned.
fn lowest(core: &Core, items: &[Item]) -> f64 {
    items.iter().map(|item| core.variants[item.variant].height).fold(0.0, f64::max)
}
