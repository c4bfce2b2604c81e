//! Exhaustive search for problems that are small enough: is there a plan of this length? If not, of the next that can be? And so on up to the best.
//!
//! Strip by strip, always for the kind that fewest strips hold, each part of the pieces with prices of its own. What is found too little for some
//! pieces is remembered, so that no set of pieces is searched twice for the same length (iterative deepening with a table of positions, Korf 1985;
//! Reinefeld and Marsland 1994).

use std::cmp::Reverse;

use super::columns::{Column, PARTS, Prices, columns, is_small, rest_prices};
use super::core::Core;
use super::greedy::Cut;
use super::number::{Steps, number, size};
use super::price::Pattern;
use super::search::Search;

/// The most places of the table of positions, as an exponent of two.
const PLACES: u32 = 18;
/// Of what lies between bound and best, that part is passed over from one length asked for to the next.
const TARGETS: u64 = 24;
/// How many lengths between bound and best are asked for first, from the greatest on.
const PROBES: u64 = 3;
/// The greatest length for which sums of heights are told apart.
const SUMS: u64 = 10_000;

impl Search<'_> {
    /// Raises the bound from length to length until a plan of that length is found, or no steps are left, or there are too many strips; with `probe`,
    /// looks for plans between bound and best first.
    pub fn exact(&mut self, probe: bool, steps: &mut Steps) {
        let strips: u64 = self.best.iter().map(|(_, times)| times).sum();
        if self.rough.is_some() || self.core.rounded || self.is_proved() || !is_small(self.core, self.length, strips) {
            return;
        }
        if self.positions.is_none() {
            self.positions = Positions::new(self.core, steps.left());
        }
        let Some(mut positions) = self.positions.take() else { return };
        let mut probes = if probe { PROBES } else { 0 };
        while !self.is_proved() && steps.are_left() {
            let gap = self.length - self.bound;
            // Where units are fine, not every length is asked for.
            let lowest = (self.bound + gap / TARGETS).min(self.length - 1);
            let between = self.bound + gap * probes / (PROBES + 1);
            let probing = between > lowest;
            let target = between.max(lowest);
            let mut part = steps.split(if probing { steps.left() / 8 } else { u64::MAX });
            let found = self.ask(target, &mut positions, &mut part);
            steps.rejoin(&part);
            match found {
                Found::Nothing => self.bound = self.reach.raised(target + 1, self.length),
                Found::Plan(cut) => self.keep(cut),
                Found::Unknown if !probing => break,
                Found::Unknown => probes -= 1,
            }
        }
        self.positions = Some(positions);
    }

    /// Whether there is a plan of no more than this length.
    fn ask(&self, length: u64, positions: &mut Positions, steps: &mut Steps) -> Found {
        let counts = self.core.counts();
        let slacks = self.prices.iter().map(|prices| (length * PARTS).checked_sub(prices.worth(&counts)));
        let Some(slacks) = slacks.collect::<Option<Vec<u64>>>() else { return Found::Nothing };
        let Some(columns) = columns(self.core, &self.prices, &slacks, steps) else { return Found::Unknown };
        let mut tree = Tree::new(self.core, &columns, positions, (length, steps));
        match tree.covers(length, 0, &self.prices[0], steps) {
            None => Found::Unknown,
            Some(true) => Found::Plan(tree.cut()),
            Some(false) => Found::Nothing,
        }
    }
}

/// What is found out about a length.
enum Found {
    /// A plan of it.
    Plan(Cut),
    /// That there is none.
    Nothing,
    Unknown,
}

/// For sets of pieces, lengths known to be too little. Of two sets in one place, the later is kept.
#[derive(Debug)]
pub(super) struct Positions {
    /// What a piece of each kind adds to the key of a set.
    radixes: Vec<u128>,
    /// The key of a set and one more than the length; nothing for an empty place.
    places: Vec<(u128, u64)>,
}

impl Positions {
    /// A table that is not larger than there are steps to fill it; none if sets cannot be told by a number.
    fn new(core: &Core, steps: u64) -> Option<Self> {
        let mut radix = 1_u128;
        let mut radixes = Vec::new();
        for kind in &core.kinds {
            radixes.push(radix);
            radix = radix.checked_mul(u128::from(kind.count) + 1)?;
        }
        let most = u64::try_from(radix).unwrap_or(u64::MAX).min(steps / 64).min(1 << PLACES);
        Some(Self { radixes, places: vec![(0, 0); size(most.next_power_of_two())] })
    }

    fn place(&self, key: u128) -> usize {
        let low = u64::try_from(key & u128::from(u64::MAX)).unwrap_or(0);
        let high = u64::try_from(key >> 64).unwrap_or(0);
        let mixed = (low ^ high.rotate_left(32)).wrapping_mul(0x9e37_79b9_7f4a_7c15);
        size((mixed ^ (mixed >> 32)) & number(self.places.len() - 1))
    }

    /// Whether so little is known to be too little.
    fn fails(&self, key: u128, length: u64) -> bool {
        let (held, least) = self.places[self.place(key)];
        held == key && length < least
    }

    fn note(&mut self, key: u128, length: u64) {
        let place = self.place(key);
        self.places[place] = (key, length + 1);
    }
}

/// The search for strips that cover all pieces.
struct Tree<'t> {
    core: &'t Core,
    columns: &'t [Column],
    positions: &'t mut Positions,
    /// The greatest sum of strips' heights no greater than each length.
    sums: Vec<u64>,
    /// The pieces left to be covered, and their key.
    left: Vec<u64>,
    key: u128,
    /// The strips taken, each with its pieces that were left.
    taken: Vec<Pattern>,
    /// Strips that may still be taken, node upon node: what they lose in all, and which.
    open: Vec<(u64, usize)>,
}

impl<'t> Tree<'t> {
    fn new(
        core: &'t Core,
        columns: &'t [Column],
        positions: &'t mut Positions,
        (length, steps): (u64, &mut Steps),
    ) -> Self {
        let left = core.counts();
        let key = left.iter().zip(&positions.radixes).map(|(&count, radix)| u128::from(count) * radix).sum();
        let open = (0..columns.len()).map(|column| (0, column)).collect();
        let sums = sums(core, columns, length, steps);
        Self { core, columns, positions, sums, left, key, taken: Vec::new(), open }
    }

    /// Whether strips of this length together, of those open from a place on, cover what is left; none if no steps are left. If so, they are those
    /// taken. By the prices no open strip is worth more than its height.
    ///
    /// Where a strip was tried in vain, no plan holds it, and it is not open any more to those tried after it. So what is found too little for some
    /// pieces is too little whichever strips are open.
    fn covers(&mut self, length: u64, from: usize, prices: &Prices, steps: &mut Steps) -> Option<bool> {
        if self.left.iter().all(|count| *count == 0) {
            return Some(true);
        }
        if !steps.are_left() {
            return None;
        }
        let length = self.sums.get(size(length)).copied().unwrap_or(length);
        let start = self.open.len();
        self.open.extend_from_within(from..);
        self.sift(start, length, prices, steps);
        if self.open.len() == start {
            self.positions.note(self.key, length);
            return Some(false);
        }
        let open = || self.open[start..].iter().map(|&(loss, column)| (loss, &self.columns[column]));
        let own = rest_prices(self.core, open, &self.left, steps);
        self.sift(start, length, &own, steps);
        let tries = self.choose(start, steps);
        for at in start..start + tries {
            let column = &self.columns[self.open[at].1];
            if self.is_poor(column) {
                continue;
            }
            let rest = length - self.core.heights[column.height];
            let pattern = self.take(column);
            if !self.positions.fails(self.key, rest) {
                self.taken.push(pattern.clone());
                if self.covers(rest, at, &own, steps)? {
                    return Some(true);
                }
                self.taken.pop();
            }
            self.put_back(&pattern);
        }
        self.open.truncate(start);
        self.positions.note(self.key, length);
        Some(false)
    }

    /// Closes those strips, of the ones open from a place on, that leave more than can be covered within the length, or do no better than lower ones.
    fn sift(&mut self, start: usize, length: u64, prices: &Prices, steps: &mut Steps) {
        let looked = self.open.len() - start;
        steps.take(50 + 20 * looked);
        let slack = (length * PARTS).checked_sub(prices.worth(&self.left));
        let mut kept = start;
        for at in start..self.open.len() {
            let column = self.open[at].1;
            let loss = self.columns[column].loss(self.core, prices, &self.left);
            if slack.is_some_and(|slack| loss <= slack) && self.needs_height(&self.columns[column]) {
                self.open[kept] = (loss, column);
                kept += 1;
            }
        }
        self.open.truncate(kept);
    }

    /// Whether one of the pieces left needs the height of a strip.
    fn needs_height(&self, column: &Column) -> bool {
        let needs = |kind: usize| self.core.kinds[kind].lowest_at(column.height) == column.height;
        column.pieces.iter().any(|&(kind, _)| self.left[kind] > 0 && needs(kind))
    }

    /// Chooses a kind, one that few open strips hold, and puts the strips that hold it first, those first that lose least; tells how many these are.
    fn choose(&mut self, start: usize, steps: &mut Steps) -> usize {
        let open = self.open.len() - start;
        steps.take(open * (10 + 4 * size(u64::from(open.max(1).ilog2()))));
        let mut holding = vec![0_usize; self.left.len()];
        for &(_, column) in &self.open[start..] {
            self.columns[column].pieces.iter().for_each(|&(kind, _)| holding[kind] += 1);
        }
        let kinds = (0..self.left.len()).filter(|&kind| self.left[kind] > 0);
        let highest = |kind: usize| self.core.kinds[kind].ways.first().map_or(0, |way| way.from);
        let Some(kind) = kinds.min_by_key(|&kind| (holding[kind], Reverse(highest(kind)))) else { return 0 };
        let columns = self.columns;
        let (loss, holds) =
            (|it: &(u64, usize)| it.0, |it: &(u64, usize)| columns[it.1].pieces.iter().any(|piece| piece.0 == kind));
        self.open[start..].sort_unstable_by_key(|it| (!holds(it), loss(it), it.1));
        holding[kind]
    }

    /// Whether pieces that are left still fit into the strip, because some of its own are covered already: then another strip does better.
    fn is_poor(&self, column: &Column) -> bool {
        let held = |kind: usize| column.pieces.iter().find(|piece| piece.0 == kind).map_or(0, |piece| piece.1);
        let width = |kind: usize| self.core.kinds[kind].width_at(column.height);
        let used = column.pieces.iter().map(|&(kind, count)| count.min(self.left[kind]) * width(kind).unwrap_or(0));
        let room = self.core.width.saturating_sub(used.sum());
        (0..self.left.len()).any(|kind| self.left[kind] > held(kind) && width(kind).is_some_and(|width| width <= room))
    }

    /// Takes a strip: its pieces as far as they are left.
    fn take(&mut self, column: &Column) -> Pattern {
        let covered = column.pieces.iter().map(|&(kind, count)| (kind, count.min(self.left[kind])));
        let pattern = Pattern { height: column.height, pieces: covered.filter(|piece| piece.1 > 0).collect() };
        for &(kind, count) in &pattern.pieces {
            self.left[kind] -= count;
            self.key -= u128::from(count) * self.positions.radixes[kind];
        }
        pattern
    }

    fn put_back(&mut self, pattern: &Pattern) {
        for &(kind, count) in &pattern.pieces {
            self.left[kind] += count;
            self.key += u128::from(count) * self.positions.radixes[kind];
        }
    }

    /// The strips taken.
    fn cut(&self) -> Cut {
        let mut cut: Cut = Vec::new();
        let mut taken = self.taken.clone();
        for pattern in &mut taken {
            pattern.pieces.sort_unstable();
        }
        taken.sort_unstable();
        for pattern in taken {
            match cut.last_mut() {
                Some((last, times)) if *last == pattern => *times += 1,
                _ => cut.push((pattern, 1)),
            }
        }
        cut
    }
}

/// For each length up to a greatest, the greatest sum of heights of such strips that is no greater; nothing where there are too many lengths.
fn sums(core: &Core, columns: &[Column], length: u64, steps: &mut Steps) -> Vec<u64> {
    if length > SUMS {
        return Vec::new();
    }
    let mut reached = vec![false; size(length) + 1];
    reached[0] = true;
    let mut heights: Vec<usize> = columns.iter().map(|column| size(core.heights[column.height])).collect();
    heights.sort_unstable();
    heights.dedup();
    steps.take(reached.len() * (heights.len() + 2) + 10 * columns.len());
    for height in heights {
        for sum in height..reached.len() {
            reached[sum] |= reached[sum - height];
        }
    }
    let mut greatest = 0;
    let lengths = (0..).zip(reached);
    lengths
        .map(|(sum, reached)| {
            greatest = if reached { sum } else { greatest };
            greatest
        })
        .collect()
}
