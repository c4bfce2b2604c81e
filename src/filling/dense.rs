//! Full pages made by chance, largest shapes first more or less: those that are fullest are kept, so that what is left has more room.

use std::collections::BTreeSet;

use super::core::{Core, Item, Sheet};
use super::greedy::Filler;
use super::known::Known;
use super::number::{Dice, Steps};
use super::separate::Separation;

/// How far chance changes the area by which a shape has its turn: up to this share.
const NOISE: f64 = 0.6;
/// How often a shape is laid at most before others have their turn.
const CAPS: [u32; 7] = [1, 2, 2, 3, 4, u32::MAX, u32::MAX];
/// What a place further right counts beside one further down.
const SLANTS: [f64; 7] = [0.02, 0.1, 0.3, 0.7, 1.5, 5.0, 30.0];
/// Steps for making pages, each time one is to be chosen.
const MAKING: u64 = 8_000_000;
/// How far chance changes how full a page counts, and what printing it once more counts, up to four times.
const CHANCE: f64 = 0.03;
const AGAIN: f64 = 0.02;
/// Steps for squeezing more onto the fullest pages, each time one is to be chosen, and for one such trial; and rounds without success after which it ends.
const SQUEEZING: u64 = 6_000_000;
const SQUEEZE: u64 = 1_000_000;
const PATIENCE: usize = 20;
/// So many of the fullest pages are squeezed, by no more than this share of the room at a time, and never fuller than this.
const FULLEST: usize = 20;
const MORE: f64 = 0.05;
const FULL: f64 = 0.97;
/// So many pages are remembered.
const MOST: usize = 2_000;

/// Pages made.
#[derive(Debug, Default)]
pub(super) struct Dense {
    pages: Vec<(f64, Vec<u32>, Vec<Item>)>,
    seen: BTreeSet<u64>,
}

impl Dense {
    /// Chooses full pages, each printed as often as it is wanted whole, until `rest` sheets are left of so many; takes them from what is wanted.
    pub fn choose(
        &mut self,
        core: &mut Core,
        known: &Known,
        (mut sheets, rest): (u32, u32),
        (dice, steps): (&mut Dice, &mut Steps),
    ) -> Vec<Sheet> {
        let mut chosen: Vec<Sheet> = Vec::new();
        while sheets > rest && steps.are_left() {
            let mut part = steps.split(if self.pages.len() < 300 { MAKING } else { MAKING / 3 });
            let wanted = core.copies.clone();
            let mut filler = Filler::new(core);
            while part.are_left() && self.pages.len() < MOST {
                self.make(&mut filler, &wanted, known, dice, &mut part);
            }
            steps.rejoin(&part);
            let mut part = steps.split(SQUEEZING);
            while part.are_left() && !self.pages.is_empty() {
                self.squeeze(core, known, dice, &mut part);
            }
            steps.rejoin(&part);
            let mut best: Option<(f64, usize, u32)> = None;
            for (index, (fill, counts, _)) in self.pages.iter().enumerate() {
                let whole =
                    counts.iter().zip(&wanted).filter(|(count, _)| **count > 0).map(|(count, more)| more / count);
                let times = whole.min().unwrap_or(0).min(sheets - rest);
                if times > 0 {
                    let score = fill + CHANCE * dice.roll() + AGAIN * f64::from(times.min(4));
                    if best.is_none_or(|(most, ..)| score > most) {
                        best = Some((score, index, times));
                    }
                }
            }
            steps.take(self.pages.len() * 10);
            let Some((_, index, times)) = best else { break };
            let (_, counts, items) = &self.pages[index];
            for (copies, count) in core.copies.iter_mut().zip(counts) {
                *copies -= count * times;
            }
            chosen.push(Sheet { items: items.clone(), times });
            sheets -= times;
        }
        chosen
    }

    /// Makes one page of what is wanted.
    fn make(&mut self, filler: &mut Filler<'_>, wanted: &[u32], known: &Known, dice: &mut Dice, steps: &mut Steps) {
        let core = filler.core;
        let kinds = (0..wanted.len()).filter(|&shape| wanted[shape] > 0);
        let mut keyed: Vec<(f64, usize)> =
            kinds.map(|shape| (core.areas[shape] * (1.0 + NOISE * (2.0 * dice.roll() - 1.0)), shape)).collect();
        keyed.sort_by(|a, b| b.0.total_cmp(&a.0));
        let order: Vec<usize> = keyed.into_iter().map(|(_, shape)| shape).collect();
        let caps: Vec<u32> = wanted.iter().map(|&more| more.min(CAPS[dice.below(CAPS.len())])).collect();
        filler.slant = SLANTS[dice.below(SLANTS.len())];
        let mut items = Vec::new();
        filler.fill_up(&mut items, &order, &caps, 1, steps);
        // Then what the caps held back.
        let held: Vec<u32> = wanted.iter().zip(core.counts(&items)).map(|(more, count)| more - count).collect();
        filler.fill_up(&mut items, &order, &held, 1, steps);
        let counts = core.counts(&items);
        let area: f64 = items.iter().map(|item| core.areas[core.shape(item)]).sum();
        steps.take(500);
        if self.seen.insert(known.page(&counts)) {
            self.pages.push((area / core.room, counts, items));
        }
    }

    /// Exchanges up to two items of one of the fullest pages for up to two that take more room, and keeps the page if what then overlaps can be separated.
    fn squeeze(&mut self, core: &Core, known: &Known, dice: &mut Dice, steps: &mut Steps) {
        steps.take(self.pages.len() * 4 + 500);
        let whole = |counts: &[u32]| counts.iter().zip(&core.copies).all(|(count, more)| count <= more);
        let mut fullest: Vec<usize> = (0..self.pages.len()).filter(|&page| whole(&self.pages[page].1)).collect();
        fullest.sort_by(|&a, &b| self.pages[b].0.total_cmp(&self.pages[a].0).then(a.cmp(&b)));
        fullest.truncate(FULLEST);
        let Some(&page) = fullest.get(dice.below(fullest.len())) else { return };
        let (fill, mut counts, mut items) = self.pages[page].clone();
        let mut more = 0.0;
        for _ in 0..dice.below(3).min(items.len()) {
            let item = items.swap_remove(dice.below(items.len()));
            let shape = core.shape(&item);
            counts[shape] -= 1;
            more -= core.areas[shape] / core.room;
        }
        let mut add = Vec::new();
        for _ in 0..=dice.below(2) {
            let shape = dice.below(counts.len());
            if counts[shape] < core.copies[shape] {
                counts[shape] += 1;
                more += core.areas[shape] / core.room;
                add.push(shape);
            }
        }
        let key = known.page(&counts);
        if more <= 0.0 || more > MORE || fill + more > FULL || self.seen.contains(&key) {
            return;
        }
        let mut separation = Separation::new(core, dice.next());
        separation.take(&[Sheet { items, times: 1 }], &[core.page.height]);
        let mut part = steps.split(SQUEEZE);
        for shape in add {
            separation.add(shape, &mut part);
        }
        if separation.run(PATIENCE, &mut part)
            && let Some(sheet) = separation.sheets().pop()
        {
            self.seen.insert(key);
            self.pages.push((fill + more, core.counts(&sheet.items), sheet.items));
        }
        steps.rejoin(&part);
    }
}
