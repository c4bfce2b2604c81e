//! Strips from sheets, such as fat quarters: as few sheets as are found, and of the last as little as is found.

use std::collections::BTreeSet;

use super::core::{Core, Rounding};
use super::few::heights;
use super::greedy::{Cut, length};
use super::master::Master;
use super::number::{Steps, number};
use super::pack::pack;
use super::price::Pricer;
use super::search::{Dive, Search};
use super::told::strips;
use super::{Budget, Problem, Refusal, Strip};

/// The most strips that are packed one by one.
const STRIPS: u64 = 20_000;
/// How often other strips are tried to spare the last sheet, once there are as few sheets as can be.
const SPARING: usize = 60;

/// Strips from one sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// The strips, the highest first.
    pub strips: Vec<Strip>,
    /// Their heights together.
    pub length: u64,
}

/// Sheets for all pieces.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheets {
    /// The sheets, the fullest first.
    pub sheets: Vec<Sheet>,
    /// No plan takes fewer sheets.
    pub bound: u64,
    /// Whether no plan takes fewer sheets than this one.
    pub proved: bool,
}

/// Plans the sheets of the problem's width and this height for all pieces.
///
/// # Errors
/// [`Refusal`] as told there; a piece that is higher than a sheet is a misfit too, and more than 20,000 strips are too much.
pub fn sheets(problem: &Problem, height: u32, budget: Budget) -> Result<Sheets, Refusal> {
    let low: BTreeSet<u32> = heights(problem).into_iter().filter(|side| *side <= height).collect();
    let problem = Problem { heights: Some(low), ..problem.clone() };
    let core = Core::new(&problem, Rounding::Tight)?;
    if core.kinds.is_empty() {
        return Ok(Sheets { sheets: Vec::new(), bound: 0, proved: true });
    }
    let mut search = Search::new(&core);
    if search.best.iter().map(|(_, times)| times).sum::<u64>() > STRIPS {
        return Err(Refusal::TooMuch);
    }
    let mut steps = Steps::new(budget.0);
    let room = u64::from(height) / core.unit;
    let relaxed = if core.rounded { Core::new(&problem, Rounding::Relaxed)? } else { core.clone() };
    let mut part = steps.split(steps.left() / 4);
    let bound = bound(&relaxed, room, &mut part);
    steps.rejoin(&part);
    let best = least(&core, &mut search, (room, bound), &mut steps);
    let proved = number(best.len()) <= bound;
    let mut cuts = best;
    cuts.sort_by_key(|cut| std::cmp::Reverse(length(&core, cut)));
    let told = strips(&core, &problem, &cuts);
    let sheets = cuts.iter().zip(told).map(|(cut, strips)| Sheet { strips, length: length(&core, cut) * core.unit });
    Ok(Sheets { sheets: sheets.collect(), bound, proved })
}

/// Packs one short plan after the other; of those with the fewest sheets, the one that takes least of the last.
fn least(core: &Core, search: &mut Search, (room, bound): (u64, u64), steps: &mut Steps) -> Vec<Cut> {
    let rank = |packed: &[Cut]| (packed.len(), packed.iter().map(|cut| length(core, cut)).min().unwrap_or(0));
    let mut best = pack(core, &search.best, room, steps);
    search.root(steps);
    let counts = core.counts();
    let mut tried = 0_usize;
    while steps.are_left() && (number(best.len()) > bound || tried < SPARING) {
        if tried < 4 {
            let seeds = search.pool.clone();
            let dive = Dive { counts: &counts, seeds: &seeds, most: search.length, chance: 0.2 };
            if let Some(cut) = search.dive(&dive, steps) {
                search.keep(cut);
            }
        } else {
            search.renew_part(2 + tried % 9, steps);
        }
        tried += 1;
        let packed = pack(core, &search.best, room, steps);
        if rank(&packed) < rank(&best) {
            best = packed;
        }
    }
    best
}

/// No plan takes fewer sheets: for functions of heights that add up to no more than one on any sheet (Fekete and Schepers 2001), the least sum over
/// strips for all pieces, as for lengths.
fn bound(core: &Core, room: u64, steps: &mut Steps) -> u64 {
    let mut best = 1;
    let mut measured = |heights: Vec<u64>, whole: u64| {
        if whole == 0 || heights.iter().all(|height| *height == 0) || !steps.are_left() {
            return;
        }
        let costs = Core { heights, ..core.clone() };
        let mut master = Master::new(&costs, &costs.counts(), &[], &[]);
        let mut pricer = Pricer::new(&costs);
        master.generate(&mut pricer, steps);
        best = best.max(master.bound.div_ceil(whole));
    };
    measured(core.heights.clone(), room);
    // Strips higher than half a sheet count whole as far as lower ones than the rest of the sheet count for nothing.
    let mut least: Vec<u64> = core.heights.iter().copied().filter(|height| height * 2 <= room).collect();
    least.extend(core.heights.iter().filter(|height| **height * 2 > room).map(|height| room - height + 1));
    least.sort_unstable();
    least.dedup();
    for least in least.into_iter().filter(|least| least * 2 <= room + 1) {
        let count = |&height: &u64| {
            if height > room - least {
                room
            } else if height < least {
                0
            } else {
                height
            }
        };
        measured(core.heights.iter().map(count).collect(), room);
    }
    for parts in 1..=4 {
        let count = |&height: &u64| {
            let whole = (parts + 1) * height;
            if whole % room == 0 { parts * height } else { whole / room * room }
        };
        measured(core.heights.iter().map(count).collect(), parts * room);
    }
    best
}
