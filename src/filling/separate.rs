//! Items that overlap are separated: guided local search.
//!
//! After arXiv 2509.13329 (2025): all items lie on a given number of pages, overlapping; in turn each that overlaps another moves to where its weighed depths are least, and what still
//! overlaps weighs more in the next round. For convex outlines the least depth over a whole page is found exactly, at a corner of an [`Arrangement`]. Items
//! of like size on different pages also change places, which single moves between full pages seldom do. What gets stuck is disturbed and goes on.

use super::assign::Assignment;
use super::core::{Core, Item, Sheet, TINY};
use super::known::Known;
use super::nofit::NoFits;
use super::number::{Dice, Steps};
use super::page::Arrangement;

/// Factors by which the weight of a pair grows in a round in which it overlaps: the first for all, the second on top for the deepest.
const GROWTH: (f64, f64) = (1.25, 0.85);
/// The factor by which weights fall back in a round.
const DECAY: f64 = 0.97;
/// Exchanges tried for an item that still overlaps after its move.
const EXCHANGES: usize = 2;
/// Items change places whose areas differ by less than this share of their mean.
const LIKE: f64 = 0.5;

/// So many changes in vain end a separation.
const STRIKES: usize = 10;
/// A state is nearer than another by a change for the better if its overlaps come to less than this part.
const NEARER: f64 = 0.999;

/// Where items lay, and how deep they overlapped there, all together.
#[derive(Debug)]
struct State {
    overlap: f64,
    items: Vec<Item>,
    page: Vec<usize>,
    covered: Vec<u32>,
}

/// Items on pages, overlapping.
#[derive(Debug)]
pub(super) struct Separation<'a> {
    core: &'a Core,
    nofits: NoFits,
    arrangement: Arrangement,
    dice: Dice,
    items: Vec<Item>,
    /// The page of each item.
    page: Vec<usize>,
    /// How often each page is printed, and how high it is.
    times: Vec<u32>,
    heights: Vec<f64>,
    /// How many of each shape are printed.
    covered: Vec<u32>,
    /// What an inch of depth counts between two items: now, and at least.
    weights: Vec<f64>,
    base: Vec<f64>,
}

impl<'a> Separation<'a> {
    pub fn new(core: &'a Core, seed: u64) -> Self {
        Self {
            core,
            nofits: NoFits::new(core),
            arrangement: Arrangement::default(),
            dice: Dice(seed),
            items: Vec::new(),
            page: Vec::new(),
            times: Vec::new(),
            heights: Vec::new(),
            covered: Vec::new(),
            weights: Vec::new(),
            base: Vec::new(),
        }
    }

    /// Takes over sheets as they are, each on a page so high; what reaches out below is pushed in.
    pub fn take(&mut self, sheets: &[Sheet], heights: &[f64]) {
        let core = self.core;
        self.items.clear();
        self.page.clear();
        self.times = sheets.iter().map(|sheet| sheet.times).collect();
        self.heights = heights.to_vec();
        self.covered = vec![0; core.copies.len()];
        for (page, sheet) in sheets.iter().enumerate() {
            for &item in &sheet.items {
                let y = item.y.min((heights[page] - core.variants[item.variant].height).max(0.0));
                self.items.push(Item { y, ..item });
                self.page.push(page);
                self.covered[core.shape(&item)] += sheet.times;
            }
        }
        let size = |item: &Item| core.areas[core.shape(item)].sqrt();
        self.base =
            self.items.iter().flat_map(|one| self.items.iter().map(move |other| size(one) * size(other))).collect();
        self.weights.clone_from(&self.base);
    }

    /// Lays what is assigned to each sheet, the largest first, each where it overlaps least.
    pub fn lay(&mut self, assignment: &Assignment, known: &Known, steps: &mut Steps) {
        let core = self.core;
        let order = core.by_area();
        let mut sheets = Vec::new();
        self.take(&[], &[]);
        for (counts, &times) in assignment.counts.iter().zip(&assignment.times) {
            if let Some(items) = known.laid(counts) {
                sheets.push(Sheet { items: items.clone(), times });
                continue;
            }
            let mut items: Vec<Item> = Vec::new();
            for &shape in &order {
                for _ in 0..counts[shape] {
                    let others: Vec<(Item, f64)> = items.iter().map(|item| (*item, 1.0)).collect();
                    items.extend(
                        self.least(shape, &others, core.page.height, f64::INFINITY, steps).map(|(_, item)| item),
                    );
                }
            }
            sheets.push(Sheet { items, times });
        }
        let heights = vec![core.page.height; sheets.len()];
        self.take(&sheets, &heights);
    }

    /// Lays one more of a shape on the only page, where it overlaps least.
    pub fn add(&mut self, shape: usize, steps: &mut Steps) {
        let others: Vec<(Item, f64)> = self.items.iter().map(|item| (*item, 1.0)).collect();
        let Some((_, item)) = self.least(shape, &others, self.core.page.height, f64::INFINITY, steps) else { return };
        let items = self.items.iter().copied().chain([item]).collect();
        self.take(&[Sheet { items, times: 1 }], &[self.core.page.height]);
    }

    /// Its sheets.
    pub fn sheets(&self) -> Vec<Sheet> {
        let mut sheets: Vec<Sheet> = self.times.iter().map(|&times| Sheet { items: Vec::new(), times }).collect();
        for (item, &page) in self.items.iter().zip(&self.page) {
            sheets[page].items.push(*item);
        }
        sheets.retain(|sheet| !sheet.items.is_empty());
        sheets
    }

    /// How often each page is printed.
    pub fn times(&self) -> &[u32] {
        &self.times
    }

    /// What lies on a page, and whether nothing overlaps there.
    pub fn page(&mut self, page: usize) -> (Vec<Item>, bool) {
        let on: Vec<usize> = (0..self.items.len()).filter(|&i| self.page[i] == page).collect();
        let free = on.iter().all(|&i| self.cost(i) == 0.0);
        (on.iter().map(|&i| self.items[i]).collect(), free)
    }

    /// The place for a shape beside others, each with its weight, that costs least, if that is less than `enough`.
    fn least(
        &mut self,
        shape: usize,
        others: &[(Item, f64)],
        height: f64,
        enough: f64,
        steps: &mut Steps,
    ) -> Option<(f64, Item)> {
        let core = self.core;
        let mut best = None;
        let mut least = enough;
        for &variant in &core.of_shape[shape] {
            if core.variants[variant].height > height + TINY || least <= 0.0 {
                continue;
            }
            self.arrangement.begin(core, variant, height);
            for (item, weight) in others {
                self.arrangement.add(core, &mut self.nofits, item, variant, *weight);
            }
            if let Some((cost, x, y)) = self.arrangement.least(steps, least) {
                least = cost;
                best = Some((cost, Item { variant, x, y }));
            }
        }
        best
    }

    /// What lies on a page beside an item, and how it weighs for that.
    fn beside(&self, i: usize, without: usize, page: usize) -> Vec<(Item, f64)> {
        let n = self.items.len();
        (0..n)
            .filter(|&j| j != i && j != without && self.page[j] == page)
            .map(|j| (self.items[j], self.weights[i * n + j]))
            .collect()
    }

    /// How deep two items reach into each other.
    fn depth(&mut self, i: usize, j: usize) -> f64 {
        let (one, other) = (self.items[i], self.items[j]);
        let (x, y) = (other.x - one.x, other.y - one.y);
        let mut most = f64::NEG_INFINITY;
        for edge in self.nofits.get(self.core, one.variant, other.variant) {
            most = most.max(edge.nx * x + edge.ny * y - edge.c);
            if most > -TINY {
                return 0.0;
            }
        }
        -most
    }

    /// What an item costs where it lies.
    fn cost(&mut self, i: usize) -> f64 {
        let n = self.items.len();
        let mut cost = 0.0;
        for j in 0..n {
            if j != i && self.page[j] == self.page[i] {
                cost += self.depth(i, j) * self.weights[i * n + j];
            }
        }
        cost
    }

    /// Moves an item to where it costs least, on any page on which enough of its shape are still printed.
    fn relocate(&mut self, i: usize, cost: f64, steps: &mut Steps) {
        let shape = self.core.shape(&self.items[i]);
        let own = self.page[i];
        let pages = self.times.len();
        let mut best = (cost, self.items[i], own);
        let start = self.dice.below(pages);
        // Its own page first: what it finds there bounds the search of the others.
        let others = (0..pages).map(|k| (start + k) % pages).filter(|&page| page != own);
        for page in std::iter::once(own).chain(others) {
            let kept = self.covered[shape] - self.times[own] + self.times[page];
            // Of many pages some are looked at.
            let looked = page == own || pages <= 10 || self.dice.below(pages) < 9;
            if (page != own && kept < self.core.copies[shape]) || !looked || best.0 <= 0.0 {
                continue;
            }
            let others = self.beside(i, i, page);
            if let Some((cost, item)) = self.least(shape, &others, self.heights[page], best.0, steps) {
                best = (cost, item, page);
            }
        }
        (_, self.items[i], self.page[i]) = best;
        self.covered[shape] = self.covered[shape] - self.times[own] + self.times[best.2];
    }

    /// Lets an item change places with others of like size on pages printed as often, where that costs less.
    fn exchange(&mut self, i: usize, steps: &mut Steps) {
        let core = self.core;
        let n = self.items.len();
        let mut left = EXCHANGES;
        for _ in 0..6 * EXCHANGES {
            let j = self.dice.below(n);
            let (own, other) = (self.page[i], self.page[j]);
            let (one, two) = (core.shape(&self.items[i]), core.shape(&self.items[j]));
            let (a, b) = (core.areas[one], core.areas[two]);
            if own == other
                || one == two
                || self.times[own] != self.times[other]
                || (a - b).abs() > LIKE * (a + b) / 2.0
            {
                continue;
            }
            let cost = self.cost(i);
            steps.take(n * 12);
            if cost == 0.0 || left == 0 {
                return;
            }
            left -= 1;
            let before = cost + self.cost(j);
            let there = self.beside(i, j, other);
            let Some((cost, item)) = self.least(one, &there, self.heights[other], before, steps) else { continue };
            let here = self.beside(j, i, own);
            let Some((_, back)) = self.least(two, &here, self.heights[own], before - cost, steps) else { continue };
            (self.items[i], self.items[j]) = (item, back);
            self.page.swap(i, j);
        }
    }

    /// Takes away items of which enough are printed without them.
    fn spare(&mut self) {
        let n = self.items.len();
        let mut stays = vec![true; n];
        for (i, stays) in stays.iter_mut().enumerate() {
            let (shape, times) = (self.core.shape(&self.items[i]), self.times[self.page[i]]);
            if self.covered[shape] - times >= self.core.copies[shape] {
                self.covered[shape] -= times;
                *stays = false;
            }
        }
        if stays.iter().all(|&stays| stays) {
            return;
        }
        let kept: Vec<usize> = (0..n).filter(|&i| stays[i]).collect();
        let rest = |all: &[f64]| kept.iter().flat_map(|&i| kept.iter().map(move |&j| all[i * n + j])).collect();
        self.weights = rest(&self.weights);
        self.base = rest(&self.base);
        self.items = kept.iter().map(|&i| self.items[i]).collect();
        self.page = kept.iter().map(|&i| self.page[i]).collect();
    }

    /// Separates what overlaps; whether that came about within the steps. Where nothing comes nearer to it for so many rounds, two large items change places in the state that was
    /// nearest, and it goes on from there; it ends after [`STRIKES`] such changes in vain.
    pub fn run(&mut self, patience: usize, steps: &mut Steps) -> bool {
        let mut nearest: Option<State> = None;
        let mut strikes = 0;
        while let Err(state) = self.go_on(patience, steps) {
            if !steps.are_left() {
                return false;
            }
            let overlap = nearest.as_ref().map_or(f64::INFINITY, |nearest| nearest.overlap);
            strikes = if state.overlap < overlap * NEARER { 0 } else { strikes + 1 };
            let fewer = nearest.as_ref().is_some_and(|nearest| nearest.items.len() != state.items.len());
            if state.overlap < overlap || fewer {
                nearest = Some(state);
            }
            let Some(nearest) = nearest.as_ref().filter(|nearest| nearest.items.len() == self.items.len()) else {
                return false;
            };
            if strikes > STRIKES {
                return false;
            }
            self.items.clone_from(&nearest.items);
            self.page.clone_from(&nearest.page);
            self.covered.clone_from(&nearest.covered);
            self.weights.clone_from(&self.base);
            self.disturb();
        }
        true
    }

    /// Lets two large items on pages printed as often change places.
    fn disturb(&mut self) {
        let core = self.core;
        let n = self.items.len();
        let mut order: Vec<usize> = (0..n).collect();
        let area = |i: usize| core.areas[core.shape(&self.items[i])];
        order.sort_by(|&a, &b| area(b).total_cmp(&area(a)));
        let large = (n * 2 / 3).max(2).min(n);
        let centre = |item: &Item| {
            let variant = &core.variants[item.variant];
            (item.x + variant.width / 2.0, item.y + variant.height / 2.0)
        };
        let put = |item: Item, (x, y): (f64, f64), height: f64| {
            let variant = &core.variants[item.variant];
            let within = |at: f64, room: f64| at.clamp(0.0, room.max(0.0));
            let x = within(x - variant.width / 2.0, core.page.width - variant.width);
            Item { x, y: within(y - variant.height / 2.0, height - variant.height), ..item }
        };
        for _ in 0..20 {
            let (i, j) = (order[self.dice.below(large)], order[self.dice.below(large)]);
            let (one, other) = (self.items[i], self.items[j]);
            let (here, there) = (self.page[i], self.page[j]);
            if i == j || core.shape(&one) == core.shape(&other) || self.times[here] != self.times[there] {
                continue;
            }
            self.items[i] = put(one, centre(&other), self.heights[there]);
            self.items[j] = put(other, centre(&one), self.heights[here]);
            self.page.swap(i, j);
            return;
        }
    }

    /// Separates until nothing overlaps, or the depths have not summed to less than ever before for so many rounds.
    ///
    /// # Errors
    /// The state that was nearest to it.
    fn go_on(&mut self, patience: usize, steps: &mut Steps) -> Result<(), State> {
        let mut nearest = self.state(f64::INFINITY);
        let mut idle = 0;
        while steps.are_left() {
            self.spare();
            let n = self.items.len();
            let mut pairs = Vec::new();
            for i in 0..n {
                for j in i + 1..n {
                    if self.page[i] == self.page[j] {
                        let depth = self.depth(i, j);
                        if depth > 0.0 {
                            pairs.push((i, j, depth));
                        }
                    }
                }
            }
            steps.take(n * n / 2);
            if pairs.is_empty() {
                return Ok(());
            }
            let overlap: f64 = pairs.iter().map(|&(.., depth)| depth).sum();
            if overlap < nearest.overlap {
                idle = 0;
                nearest = self.state(overlap);
            } else {
                idle += 1;
            }
            if idle > patience {
                break;
            }
            self.weigh(&pairs);
            let mut order: Vec<usize> = pairs.iter().flat_map(|&(i, j, _)| [i, j]).collect();
            order.sort_unstable();
            order.dedup();
            self.dice.shuffle(&mut order);
            for i in order {
                // It may have become free by what others did.
                let cost = self.cost(i);
                steps.take(n * 6);
                if cost > 0.0 && steps.are_left() {
                    self.relocate(i, cost, steps);
                    if self.times.len() > 1 {
                        self.exchange(i, steps);
                    }
                }
            }
        }
        Err(nearest)
    }

    fn state(&self, overlap: f64) -> State {
        let (items, page, covered) = (self.items.clone(), self.page.clone(), self.covered.clone());
        State { overlap, items, page, covered }
    }

    /// Lets pairs that overlap weigh more, all others less.
    fn weigh(&mut self, pairs: &[(usize, usize, f64)]) {
        let n = self.items.len();
        let deepest = pairs.iter().map(|&(.., depth)| depth).fold(0.0, f64::max);
        for &(i, j, depth) in pairs {
            let weight = self.weights[i * n + j] * (GROWTH.0 + GROWTH.1 * depth / deepest) / DECAY;
            self.weights[i * n + j] = weight;
            self.weights[j * n + i] = weight;
        }
        for (weight, base) in self.weights.iter_mut().zip(&self.base) {
            *weight = (*weight * DECAY).max(*base);
        }
    }
}
