//! Exhaustive search for problems that are small enough: is there a plan of this length? If not, of the next that can be? And so on up to the best.
//!
//! Strip by strip, always for the first kind of which pieces are left. What is found too little for some pieces is remembered, so that no set of pieces
//! is searched twice for the same length (iterative deepening with a table of positions, Korf 1985; Reinefeld and Marsland 1994).

use super::columns::{Column, PARTS, Prices, columns, is_small, length_for};
use super::core::Core;
use super::greedy::Cut;
use super::number::{Steps, number, size};
use super::price::Pattern;
use super::search::Search;

/// The most places of the table of positions, as a power of two.
const PLACES: u32 = 18;

impl Search<'_> {
    /// Raises the bound from length to length until a plan of that length is found, or no steps are left, or there are too many strips.
    pub fn exact(&mut self, steps: &mut Steps) {
        let strips: u64 = self.best.iter().map(|(_, times)| times).sum();
        if self.rough.is_some() || self.core.rounded || self.is_proved() || !is_small(self.core, self.length, strips) {
            return;
        }
        let Some(mut positions) = Positions::new(self.core, steps.left()) else { return };
        let counts = self.core.counts();
        while !self.is_proved() && steps.are_left() {
            let slack = |prices: &Prices| (self.bound * PARTS).checked_sub(prices.worth(&counts));
            let slacks: Option<Vec<u64>> = self.prices.iter().map(slack).collect();
            if let Some(slacks) = slacks {
                let Some(columns) = columns(self.core, &self.prices, &slacks, steps) else { return };
                let mut tree = Tree::new(self.core, &self.prices, &columns, &mut positions);
                match tree.covers(self.bound, steps) {
                    None => return,
                    Some(true) => {
                        let cut = tree.cut();
                        self.keep(cut);
                        return;
                    }
                    Some(false) => {}
                }
            }
            self.bound = self.reach.raised(self.bound + 1, self.length);
        }
    }
}

/// For sets of pieces, lengths known to be too little. Of two sets in one place, the later is kept.
struct Positions {
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
    prices: &'t [Prices],
    columns: &'t [Column],
    /// The columns that hold each kind, those that lose least first.
    holding: Vec<Vec<usize>>,
    /// Kinds as they are to be covered.
    order: Vec<usize>,
    positions: &'t mut Positions,
    /// The pieces left to be covered, their key, and their worth by each of the prices.
    left: Vec<u64>,
    key: u128,
    worths: Vec<u64>,
    /// The strips taken, each with its pieces that were left.
    taken: Vec<Pattern>,
    /// Strips to be tried, node upon node: what they lose in all, and which.
    tries: Vec<(u64, usize)>,
}

impl<'t> Tree<'t> {
    fn new(core: &'t Core, prices: &'t [Prices], columns: &'t [Column], positions: &'t mut Positions) -> Self {
        let mut holding = vec![Vec::new(); core.kinds.len()];
        let mut by_loss: Vec<usize> = (0..columns.len()).collect();
        by_loss.sort_by_key(|&column| columns[column].loss);
        for column in by_loss {
            columns[column].pieces.iter().for_each(|&(kind, _)| holding[kind].push(column));
        }
        let left = core.counts();
        let mut order: Vec<usize> = (0..left.len()).collect();
        // A strip is no higher than the highest piece it covers: with the highest first, fewest strips are left to choose from.
        order.sort_by_key(|&kind| std::cmp::Reverse(core.kinds[kind].ways.first().map(|way| way.from)));
        let key = left.iter().zip(&positions.radixes).map(|(&count, radix)| u128::from(count) * radix).sum();
        let worths = prices.iter().map(|prices| prices.worth(&left)).collect();
        let (taken, tries) = (Vec::new(), Vec::new());
        Self { core, prices, columns, holding, order, positions, left, key, worths, taken, tries }
    }

    /// Whether strips of this length together cover what is left; none if no steps are left. If so, they are those taken.
    fn covers(&mut self, length: u64, steps: &mut Steps) -> Option<bool> {
        let Some(&kind) = self.order.iter().find(|&&kind| self.left[kind] > 0) else { return Some(true) };
        if !steps.are_left() {
            return None;
        }
        let start = self.tries.len();
        self.gather(kind, length, steps);
        let end = self.tries.len();
        self.tries[start..].sort_unstable();
        for at in start..end {
            let column = &self.columns[self.tries[at].1];
            let rest = length - self.core.heights[column.height];
            let pattern = self.take(column);
            if !self.positions.fails(self.key, rest) && self.least() <= rest {
                self.taken.push(pattern.clone());
                if self.covers(rest, steps)? {
                    return Some(true);
                }
                self.taken.pop();
            }
            self.put_back(&pattern);
        }
        self.tries.truncate(start);
        self.positions.note(self.key, length);
        Some(false)
    }

    /// Gathers the strips that cover pieces of a kind and leave no more than can be covered within the length.
    fn gather(&mut self, kind: usize, length: u64, steps: &mut Steps) {
        let Some(slack) = (length * PARTS).checked_sub(self.worths[0]) else { return };
        let mut looked = 0;
        for &at in &self.holding[kind] {
            let column = &self.columns[at];
            if column.loss > slack {
                break;
            }
            looked += 1 + column.pieces.len();
            if let Some(loss) = self.loss(column, length) {
                self.tries.push((loss, at));
            }
        }
        steps.take(30 + 8 * looked + 60 * (self.tries.len()));
    }

    /// How much of the slack a strip takes; none if it is too much by any of the prices, or if a lower or a fuller strip does as well.
    fn loss(&self, column: &Column, length: u64) -> Option<u64> {
        let rest = length.checked_sub(self.core.heights[column.height])? * PARTS;
        let covered = |&(kind, count): &(usize, u64)| (kind, count.min(self.left[kind]));
        let mut first = None;
        for (prices, worth) in self.prices.iter().zip(&self.worths) {
            let worth: u64 =
                worth - column.pieces.iter().map(covered).map(|(kind, count)| prices.0[kind] * count).sum::<u64>();
            let left = rest.checked_sub(worth)?;
            first = first.or(Some(left));
        }
        let lowest = |&(kind, _): &(usize, u64)| self.core.kinds[kind].lowest_at(column.height);
        let own = |piece: &&(usize, u64)| self.left[piece.0] > 0 && lowest(piece) == column.height;
        column.pieces.iter().find(own)?;
        Some(u64::MAX - first?)
    }

    /// A length that what is left needs at least.
    fn least(&self) -> u64 {
        self.worths.iter().map(|&worth| length_for(worth)).max().unwrap_or(0)
    }

    /// Takes a strip: its pieces as far as they are left.
    fn take(&mut self, column: &Column) -> Pattern {
        let covered = column.pieces.iter().map(|&(kind, count)| (kind, count.min(self.left[kind])));
        let pattern = Pattern { height: column.height, pieces: covered.filter(|piece| piece.1 > 0).collect() };
        for &(kind, count) in &pattern.pieces {
            self.left[kind] -= count;
            self.key -= u128::from(count) * self.positions.radixes[kind];
            self.worths.iter_mut().zip(self.prices).for_each(|(worth, prices)| *worth -= prices.0[kind] * count);
        }
        pattern
    }

    fn put_back(&mut self, pattern: &Pattern) {
        for &(kind, count) in &pattern.pieces {
            self.left[kind] += count;
            self.key += u128::from(count) * self.positions.radixes[kind];
            self.worths.iter_mut().zip(self.prices).for_each(|(worth, prices)| *worth += prices.0[kind] * count);
        }
    }

    /// The strips taken.
    fn cut(&self) -> Cut {
        let mut cut: Cut = Vec::new();
        let mut taken = self.taken.clone();
        taken.iter_mut().for_each(|pattern| pattern.pieces.sort_unstable());
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
