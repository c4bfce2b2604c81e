//! What goes on which sheet, by counts and areas alone: sheets with given times are given numbers of every shape, so that all copies are there and no sheet
//! is much fuller than another.
//!
//! Times that share the copies well are what makes few different sheets at little paper: shapes wanted 4, 8 and 12 times go on a sheet printed four times, or on two printed two
//! and three times.

use super::core::Core;
use super::known::Known;
use super::number::{Dice, Steps, count};

/// Ways to spread one shape over the sheets that are looked at.
const WAYS: usize = 150;
/// Ways that are gone through before some are taken by chance.
const WORK: usize = 4_000;

/// How many of each shape lie on each sheet.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Assignment {
    /// How often each sheet is printed.
    pub times: Vec<u32>,
    /// By sheet and shape.
    pub counts: Vec<Vec<u32>>,
    /// The share of the room that the fullest sheet needs.
    pub fullest: f64,
}

/// Spreads all copies over sheets printed so many times each: from some spreads by chance, each shape in turn is spread anew as is best beside the others; the most even result counts.
pub(super) fn assign(
    core: &Core,
    known: &Known,
    times: &[u32],
    tries: usize,
    (dice, steps): (&mut Dice, &mut Steps),
) -> Assignment {
    let kinds = core.copies.len();
    let ways: Vec<Vec<Vec<u32>>> = core.copies.iter().map(|&copies| ways(copies, times, dice)).collect();
    let share: Vec<f64> = core.areas.iter().map(|area| area / core.room).collect();
    let mut order: Vec<usize> = (0..kinds).filter(|&kind| core.copies[kind] > 0).collect();
    order.sort_by(|&a, &b| {
        let weight = |kind: usize| share[kind] * f64::from(core.copies[kind]);
        weight(b).total_cmp(&weight(a)).then(a.cmp(&b))
    });
    let change = |fill: &mut [f64], keys: &mut [u64], kind: usize, way: usize, sign: f64| {
        for ((fill, key), &count) in fill.iter_mut().zip(keys).zip(&ways[kind][way]) {
            *fill += sign * f64::from(count) * share[kind];
            let more = known.key(kind, count);
            *key = if sign > 0.0 { key.wrapping_add(more) } else { key.wrapping_sub(more) };
        }
    };
    let mut best: Option<(f64, Vec<usize>, Vec<f64>)> = None;
    for attempt in 0..tries {
        let mut chosen: Vec<usize> = vec![0; kinds];
        let mut fill = vec![0.0; times.len()];
        let mut keys = vec![0_u64; times.len()];
        for &kind in &order {
            chosen[kind] = if attempt == 0 { 0 } else { dice.below(ways[kind].len()) };
            change(&mut fill, &mut keys, kind, chosen[kind], 1.0);
        }
        let mut current = f64::INFINITY;
        for _ in 0..20 {
            let before = current;
            for &kind in &order {
                change(&mut fill, &mut keys, kind, chosen[kind], -1.0);
                let mut least = (f64::INFINITY, chosen[kind]);
                for (way, counts) in ways[kind].iter().enumerate() {
                    let mut sum = 0.0;
                    for ((&fill, key), &count) in fill.iter().zip(&keys).zip(counts) {
                        let key = key.wrapping_add(known.key(kind, count));
                        sum += eighth(known.fill(key, fill + f64::from(count) * share[kind]));
                    }
                    if sum < least.0 {
                        least = (sum, way);
                    }
                }
                steps.take(ways[kind].len() * times.len() * 10);
                (current, chosen[kind]) = least;
                change(&mut fill, &mut keys, kind, chosen[kind], 1.0);
            }
            if current >= before * (1.0 - 1e-9) {
                break;
            }
        }
        if best.as_ref().is_none_or(|(least, ..)| current < *least) {
            best = Some((current, chosen, fill));
        }
    }
    let (_, chosen, fill) = best.unwrap_or((0.0, vec![0; kinds], vec![0.0; times.len()]));
    let on_sheet = |sheet: usize| (0..kinds).map(|kind| ways[kind][chosen[kind]][sheet]).collect();
    Assignment {
        times: times.to_vec(),
        counts: (0..times.len()).map(on_sheet).collect(),
        fullest: fill.into_iter().fold(0.0, f64::max),
    }
}

/// The eighth power: in a sum of these the greatest tells.
fn eighth(number: f64) -> f64 {
    let square = number * number;
    let fourth = square * square;
    fourth * fourth
}

/// Ways to spread so many copies over sheets; those with the fewest spares first.
fn ways(copies: u32, times: &[u32], dice: &mut Dice) -> Vec<Vec<u32>> {
    let mut found: Vec<Vec<u32>> = Vec::new();
    let mut work = 0;
    every(copies, times, &mut Vec::new(), &mut found, &mut work);
    if work > WORK {
        found = (0..WAYS).map(|_| by_chance(copies, times, dice)).collect();
    }
    let printed =
        |way: &Vec<u32>| way.iter().zip(times).map(|(count, times)| u64::from(*count) * u64::from(*times)).sum::<u64>();
    found.sort_by(|a, b| printed(a).cmp(&printed(b)).then_with(|| b.cmp(a)));
    found.dedup();
    found.truncate(WAYS);
    found
}

/// Every way in which the last sheet holds what the others leave over.
fn every(left: u32, times: &[u32], way: &mut Vec<u32>, found: &mut Vec<Vec<u32>>, work: &mut usize) {
    *work += 1;
    if *work > WORK {
        return;
    }
    let Some(&each) = times.get(way.len()) else {
        found.push(way.clone());
        return;
    };
    let most = left.div_ceil(each);
    let least = if way.len() + 1 == times.len() { most } else { 0 };
    for count in least..=most {
        way.push(count);
        every(left.saturating_sub(count.saturating_mul(each)), times, way, found, work);
        way.pop();
        if *work > WORK {
            return;
        }
    }
}

/// One way, copy after copy laid where chance will; in bulk while many are left.
fn by_chance(copies: u32, times: &[u32], dice: &mut Dice) -> Vec<u32> {
    let mut way = vec![0; times.len()];
    let total: u32 = times.iter().fold(0, |sum: u32, &each| sum.saturating_add(each)).max(1);
    let mut left = copies;
    let bulk = (left / total).saturating_sub(1);
    if bulk > 0 {
        way.fill(bulk);
        left -= bulk * total;
    }
    let least = times.iter().copied().min().unwrap_or(1);
    while left > 0 {
        let sheet = dice.below(times.len());
        // One on a sheet that gives more than is left only where all do.
        if times[sheet] <= left || left < least {
            way[sheet] += 1;
            left = left.saturating_sub(times[sheet]);
        }
    }
    way
}

/// Ways to print `printed` sheets as `different` ones, the most even first, at most `most` of them.
pub(super) fn partitions(printed: u32, different: usize, most: usize) -> Vec<Vec<u32>> {
    let mut found = Vec::new();
    split(printed, count(different), printed, &mut Vec::new(), &mut found, most);
    found
}

fn split(left: u32, parts: u32, largest: u32, now: &mut Vec<u32>, found: &mut Vec<Vec<u32>>, most: usize) {
    if found.len() >= most {
        return;
    }
    if parts == 0 {
        if left == 0 {
            found.push(now.clone());
        }
        return;
    }
    let highest = largest.min(left.saturating_sub(parts - 1));
    for part in left.div_ceil(parts)..=highest {
        now.push(part);
        split(left - part, parts - 1, part, now, found, most);
        now.pop();
    }
}
