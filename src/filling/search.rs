//! The search for fewer sheets: times and counts are chosen by [`assign`], then what is assigned to each sheet is laid and separated.

use super::assign::{assign, partitions};
use super::bound;
use super::core::{Core, Plan};
use super::number::{Dice, Steps, count, size};
use super::separate::Separation;

/// Plans with so many different sheets at most are looked for, beside those with every sheet different.
const DIFFERENT: usize = 5;
/// Ways to print a number of sheets as a number of different ones that are weighed.
const PARTITIONS: usize = 120;
/// Of them the best are tried.
const TRIED: usize = 10;
/// Ways are tried whose fullest sheet is fuller by no more than this than that of the best.
const NEAR: f64 = 0.05;
/// What a different sheet more counts, as a share of a sheet.
const ONE_MORE: f64 = 0.004;
/// Sheets as full as this are hardly ever found.
const HOPELESS: f64 = 0.93;
/// Steps of one trial, and rounds without success after which it ends.
const TRIAL: u64 = 30_000_000;
const PATIENCE: usize = 70;
/// More copies than this are left as they are.
const MOST_COPIES: u64 = 100_000;
/// Of more items than this nothing is separated.
const MOST_ITEMS: u32 = 450;

/// A search that goes on.
#[derive(Debug)]
pub(super) struct Search<'a> {
    core: &'a Core,
    dice: Dice,
    pub best: Plan,
}

impl<'a> Search<'a> {
    pub fn new(core: &'a Core, best: Plan) -> Self {
        Self { core, dice: Dice(1), best }
    }

    /// Fewer printed sheets, then fewer different ones of those.
    pub fn fewest_printed(&mut self, steps: &mut Steps) {
        let least = bound::printed(self.core);
        while self.best.printed() > least && steps.are_left() {
            let printed = self.best.printed() - 1;
            // Some work is left for fewer different sheets.
            let mut part = steps.split(steps.left() / 4 * 3);
            let found = self.reach(printed..=printed, 1..=size(printed), &mut part);
            steps.rejoin(&part);
            if !found {
                break;
            }
        }
        self.fewest_different(self.best.printed(), steps);
    }

    /// Fewer different sheets, of which no more than `most` are printed.
    pub fn fewest_different(&mut self, most: u32, steps: &mut Steps) {
        let mut different = size(bound::different(self.core, most)).max(1);
        let least = bound::printed(self.core).max(1);
        while different < self.best.sheets.len() && steps.are_left() {
            let mut part = steps.split(steps.left() / 2);
            let from = least.max(self.best.printed().min(most)).max(count(different));
            if self.reach(from..=most, different..=different, &mut part) {
                break;
            }
            steps.rejoin(&part);
            different += 1;
        }
    }

    /// Looks for a plan with such numbers of printed and different sheets; takes the first found.
    fn reach(
        &mut self,
        printed: std::ops::RangeInclusive<u32>,
        different: std::ops::RangeInclusive<usize>,
        steps: &mut Steps,
    ) -> bool {
        let ways = self.ways(printed, different, steps);
        let Some(&(best, _)) = ways.first() else { return false };
        if best > 1.0 {
            return false;
        }
        let mut part = steps.split(if best > HOPELESS { TRIAL / 2 } else { u64::MAX });
        let mut round = 0;
        let mut found = false;
        'search: while part.are_left() {
            for (_, times) in &ways {
                if self.trial(times, TRIAL + TRIAL / 3 * round, &mut part) {
                    found = true;
                    break 'search;
                }
                if !part.are_left() {
                    break;
                }
            }
            round += 1;
        }
        steps.rejoin(&part);
        found
    }

    /// The times worth a trial, with what their fullest sheets need; the best first.
    fn ways(
        &mut self,
        printed: std::ops::RangeInclusive<u32>,
        different: std::ops::RangeInclusive<usize>,
        steps: &mut Steps,
    ) -> Vec<(f64, Vec<u32>)> {
        let core = self.core;
        let mut ways: Vec<(f64, Vec<u32>)> = Vec::new();
        if core.total() > MOST_COPIES {
            return ways;
        }
        for printed in printed {
            for number in different.clone() {
                let every = number == size(printed) && core.total() <= u64::from(MOST_ITEMS);
                if number > size(printed) || (number > DIFFERENT && !every) {
                    continue;
                }
                for times in partitions(printed, number, PARTITIONS) {
                    if !steps.are_left() {
                        break;
                    }
                    let assignment = assign(core, &times, 1, &mut self.dice, steps);
                    let items: u32 = assignment.counts.iter().flatten().sum();
                    if items <= MOST_ITEMS {
                        let more = ONE_MORE * super::number::float(number);
                        ways.push((assignment.fullest + more, times));
                    }
                }
            }
        }
        ways.sort_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.cmp(&b.1)));
        let best = ways.first().map_or(0.0, |way| way.0);
        ways.retain(|way| way.0 <= best + NEAR);
        ways.truncate(TRIED);
        ways
    }

    /// Tries to lay all copies on sheets printed so many times each.
    fn trial(&mut self, times: &[u32], most: u64, steps: &mut Steps) -> bool {
        let core = self.core;
        let mut part = steps.split(most);
        let assignment = assign(core, times, 2, &mut self.dice, &mut part);
        let mut separation = Separation::new(core, self.dice.next());
        let mut found = false;
        if assignment.fullest <= 1.0 {
            separation.lay(&assignment, &mut part);
            found = separation.run(PATIENCE, &mut part);
        }
        steps.rejoin(&part);
        if std::env::var("TRACE").is_ok() {
            eprintln!("{times:?} {:.3} {found}", assignment.fullest);
        }
        if found {
            self.best = Plan { sheets: separation.sheets() };
        }
        found
    }
}
