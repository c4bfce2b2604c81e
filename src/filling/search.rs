//! The search for fewer sheets: times and counts are chosen by [`assign`], then what is assigned to each sheet is laid and separated.

use super::assign::{assign, partitions};
use super::bound;
use super::core::{Core, Plan, Sheet, TINY};
use super::dense::Dense;
use super::known::Known;
use super::number::{self, Dice, Steps, count, size};
use super::separate::Separation;

/// Plans with so many different sheets at most are looked for, beside those with every sheet different.
const DIFFERENT: usize = 5;
/// Ways to print a number of sheets as a number of different ones that are weighed.
const PARTITIONS: usize = 80;
/// For each number of different ones, this part of the steps left may go into weighing.
const WEIGHING: u64 = 50;
/// Of them the best are tried.
const TRIED: usize = 10;
/// Ways are tried whose fullest sheet is fuller by no more than this than that of the best.
const NEAR: f64 = 0.05;
/// What a different sheet more counts, as a share of a sheet.
const ONE_MORE: f64 = 0.01;
/// Sheets as full as this are hardly ever found: all together, and the fullest.
const HOPELESS: f64 = 0.895;
const FULLEST: f64 = 0.94;
/// Sheets as full as this, all together, are likely found.
const LIKELY: f64 = 0.84;
/// Where more sheets than this are printed, numbers of sheets are leapt over, so often at most.
const FEW: u32 = 12;
const LEAPS: usize = 2;
/// Merges of sheets tried after each round of trials for fewer different ones.
const MERGES: usize = 4;
/// Steps of one trial, and rounds without success after which it ends.
const TRIAL: u64 = 150_000_000;
const PATIENCE: usize = 60;
/// More copies than this are left as they are.
const MOST_COPIES: u64 = 100_000;
/// Steps that every trial counts at least.
const LEAST: u32 = 20_000;
/// Of more items than this nothing is separated.
const MOST_ITEMS: u32 = 450;

/// Times of sheets, and what the fullest of them needs.
type Way = (f64, Vec<u32>);

/// A search that goes on.
#[derive(Debug)]
pub(super) struct Search<'a> {
    core: &'a Core,
    dice: Dice,
    known: Known,
    dense: Dense,
    pub best: Plan,
}

impl<'a> Search<'a> {
    /// On from a plan; `seed` is for the dice.
    pub fn new(core: &'a Core, best: Plan, seed: u64) -> Self {
        Self { core, dice: Dice(seed), known: Known::new(core), dense: Dense::default(), best }
    }

    /// Fewer printed sheets, then fewer different ones of those.
    pub fn fewest_printed(&mut self, steps: &mut Steps) {
        let least = bound::printed(self.core);
        // Where many are printed, not one less at a time: first what is likely, then half way from there.
        let mut likely = least.max(number::whole((self.core.fullness() / LIKELY).ceil()));
        for _ in 0..LEAPS {
            if self.best.printed() <= FEW || likely + 1 >= self.best.printed() {
                break;
            }
            let mut part = steps.split(steps.left() / 12);
            if !self.reach(likely..=likely, 1..=DIFFERENT, &mut part) {
                likely = likely.midpoint(self.best.printed());
            }
            steps.rejoin(&part);
        }
        while self.best.printed() > least && steps.are_left() {
            let printed = self.best.printed() - 1;
            // Some work is left for fewer different sheets.
            let reserve = if self.repeats() { steps.left() / 4 } else { 0 };
            let mut part = steps.split(steps.left() - reserve);
            let found = self.reach(printed..=printed, 1..=size(printed).max(DIFFERENT), &mut part);
            steps.rejoin(&part);
            if !found {
                break;
            }
        }
        self.fewest_different(self.best.printed(), steps);
    }

    /// Whether some shape is wanted more than once, so that a sheet printed more than once may be worth it.
    fn repeats(&self) -> bool {
        self.core.copies.iter().any(|&copies| copies > 1)
    }

    /// Fewer different sheets, of which no more than `most` are printed: every number of them has its turn, the fewest first.
    pub fn fewest_different(&mut self, most: u32, steps: &mut Steps) {
        let lowest = size(bound::different(self.core, most)).max(1);
        let from = bound::printed(self.core).max(self.best.printed().min(most));
        let mut all: Vec<(usize, Vec<Way>)> = Vec::new();
        for different in lowest..self.best.sheets.len().min(DIFFERENT + 1) {
            let ways = self.ways(from..=most, different..=different, steps);
            if ways.first().is_some_and(|way| way.0 < FULLEST) {
                all.push((different, ways));
            }
        }
        let mut round = 0;
        while steps.are_left() && lowest < self.best.sheets.len() && self.repeats() {
            for (different, ways) in &all {
                let (_, times) = &ways[round % ways.len()];
                if *different < self.best.sheets.len() && self.trial(times, TRIAL / 4 * 3, steps) {
                    break;
                }
            }
            for _ in 0..MERGES {
                if steps.are_left() && lowest < self.best.sheets.len() {
                    self.merge(steps);
                }
            }
            round += 1;
        }
    }

    /// Looks for a plan with such numbers of printed and different sheets; takes the first found.
    fn reach(
        &mut self,
        printed: std::ops::RangeInclusive<u32>,
        different: std::ops::RangeInclusive<usize>,
        steps: &mut Steps,
    ) -> bool {
        let ways = self.ways(printed.clone(), different.clone(), steps);
        let Some(&(best, _)) = ways.first() else { return false };
        if best > 1.0 + NEAR {
            return false;
        }
        let share = self.core.fullness() / f64::from(*printed.end());
        let mut part = steps.split(if share > HOPELESS || best > 1.0 { TRIAL / 2 } else { u64::MAX });
        let least = (*printed.start(), *different.end());
        let mut found = false;
        let mut turn = 0;
        while !found && part.are_left() {
            let round = u64::from(count(turn / ways.len()));
            let (_, times) = &ways[turn % ways.len()];
            found = self.trial(times, TRIAL + TRIAL / 3 * round, &mut part);
            let dense = match least.0 {
                _ if least.1 < size(least.0).min(DIFFERENT) => 0,
                printed if self.repeats() => (printed / 3).min(3),
                // Where nothing is printed twice, full pages help less.
                printed => u32::from(printed > 1 && turn % 4 == 3),
            };
            for _ in 0..dense {
                found = found || (part.are_left() && self.with_dense(least.0, &mut part));
            }
            turn += 1;
        }
        steps.rejoin(&part);
        found
    }

    /// Tries to print so many sheets, some of them full pages made by chance.
    fn with_dense(&mut self, printed: u32, steps: &mut Steps) -> bool {
        let rest = (1 + count(self.dice.below(3))).min(printed - 1).max(1);
        let mut core = self.core.clone();
        let sheets = self.dense.choose(&mut core, &self.known, (printed, rest), (&mut self.dice, steps));
        let left = printed - sheets.iter().map(|sheet| sheet.times).sum::<u32>();
        self.beside(&core, sheets, left, 1..=3, steps)
    }

    /// Tries to replace two or three different sheets by one less.
    fn merge(&mut self, steps: &mut Steps) {
        let mut kept = self.best.sheets.clone();
        let mut taken = Vec::new();
        for _ in 0..(2 + self.dice.below(2)).min(kept.len()) {
            taken.push(kept.swap_remove(self.dice.below(kept.len())));
        }
        let mut core = self.core.clone();
        for sheet in &kept {
            for (copies, count) in core.copies.iter_mut().zip(self.core.counts(&sheet.items)) {
                *copies = copies.saturating_sub(count.saturating_mul(sheet.times));
            }
        }
        let printed = taken.iter().map(|sheet| sheet.times).sum();
        let different = taken.len() - 1;
        self.beside(&core, kept, printed, different..=different, steps);
    }

    /// Tries to lay what is wanted beside sheets that are kept on so many more; takes the plan if that comes about.
    fn beside(
        &mut self,
        wanted: &Core,
        kept: Vec<Sheet>,
        printed: u32,
        different: std::ops::RangeInclusive<usize>,
        steps: &mut Steps,
    ) -> bool {
        let mut inner = Search::new(wanted, Plan::default(), self.dice.next());
        std::mem::swap(&mut inner.known, &mut self.known);
        let ways = inner.ways(printed..=printed, different, steps);
        let mut found = false;
        for (fullest, times) in ways.iter().take(2) {
            found = found || (*fullest < FULLEST && inner.trial(times, TRIAL * 3 / 4, steps));
        }
        std::mem::swap(&mut inner.known, &mut self.known);
        if found {
            let rest = std::mem::take(&mut inner.best);
            self.best = Plan { sheets: kept.into_iter().chain(rest.sheets).collect() };
        }
        steps.take(size(LEAST));
        found
    }

    /// The times worth a trial, with what their fullest sheets need; the best first.
    fn ways(
        &mut self,
        printed: std::ops::RangeInclusive<u32>,
        different: std::ops::RangeInclusive<usize>,
        steps: &mut Steps,
    ) -> Vec<Way> {
        let core = self.core;
        let mut ways: Vec<Way> = Vec::new();
        if core.total() > MOST_COPIES {
            return ways;
        }
        for printed in printed {
            for number_of in different.clone() {
                let every = number_of == size(printed) && core.total() <= u64::from(MOST_ITEMS);
                if number_of > size(printed) || (number_of > DIFFERENT && !every) {
                    continue;
                }
                let mut part = steps.split(steps.left() / WEIGHING);
                for times in partitions(printed, number_of, PARTITIONS) {
                    if !part.are_left() {
                        break;
                    }
                    let assignment = assign(core, &self.known, &times, 1, (&mut self.dice, &mut part));
                    let items: u32 = assignment.counts.iter().flatten().sum();
                    if items <= MOST_ITEMS {
                        let more = ONE_MORE * number::float(number_of);
                        ways.push((assignment.fullest + more, times));
                    }
                }
                steps.rejoin(&part);
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
        let assignment = assign(core, &self.known, times, 3, (&mut self.dice, &mut part));
        let mut separation = Separation::new(core, self.dice.next());
        let mut found = false;
        part.take(size(LEAST));
        if assignment.fullest <= 1.0 + TINY {
            separation.lay(&assignment, &self.known, &mut part);
            found = separation.run(PATIENCE, &mut part);
        }
        steps.rejoin(&part);
        self.learn(&mut separation);
        if found {
            self.best = Plan { sheets: separation.sheets() };
        }
        found
    }

    /// Remembers which sheets were laid and which not.
    fn learn(&mut self, separation: &mut Separation<'_>) {
        for page in 0..separation.times().len() {
            let (items, free) = separation.page(page);
            let counts = self.core.counts(&items);
            let times = separation.times();
            // What lies on a page can go to others printed as often: that it was tried in vain says little.
            let alone = times.iter().filter(|&&other| other == times[page]).count() == 1;
            if free {
                self.known.learn(&counts, &items);
            } else if alone {
                self.known.miss(&counts);
            }
        }
    }
}
