//! A problem brought to its core: equal demands as one kind, lengths and widths in their largest common units, the heights a strip may have.

use std::collections::{BTreeMap, BTreeSet};

use super::number::{common, number, size};
use super::{Demand, Problem, Refusal};

/// The most cells that all rows of the table over the width may have together.
const CELLS: u64 = 4 << 20;
/// Ways to lay a kind of pieces. Of two, the first lies flat (lower and wider), the second upright.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Way {
    /// Along the strip, in units of the core.
    pub width: u64,
    /// The index of the lowest height of a strip in which it is laid like this.
    pub from: usize,
    /// The index of the first height from which it is not any more, because the other way is narrower.
    pub to: usize,
    /// The width of the demand as laid, in units of the problem.
    pub along: u32,
}

/// Equal pieces.
#[derive(Debug, Clone)]
pub(super) struct Kind {
    /// One or two ways to lay a piece, by rising height, that never hold in one strip.
    pub ways: Vec<Way>,
    /// How many.
    pub count: u64,
    /// The demands of this kind, by index.
    pub demands: Vec<usize>,
}

impl Kind {
    /// How a piece is laid in a strip of this height; none if it is too high.
    pub fn way_at(&self, height: usize) -> Option<&Way> {
        self.ways.iter().find(|way| (way.from..way.to).contains(&height))
    }

    /// How wide a piece is in a strip of this height; none if it is too high.
    pub fn width_at(&self, height: usize) -> Option<u64> {
        self.way_at(height).map(|way| way.width)
    }

    /// The lowest height from which a piece is laid as it is at this height.
    pub fn lowest_at(&self, height: usize) -> usize {
        self.way_at(height).map_or(0, |way| way.from)
    }
}

/// Where the sums of widths are told apart: at all units or at the sums that can be reached.
#[derive(Debug, Clone)]
pub(super) enum Grid {
    /// At 0, 1, … up to the width.
    Units(usize),
    /// At these sums, rising, the first 0.
    Sums(Vec<u64>),
}

impl Grid {
    /// How many places there are.
    pub fn len(&self) -> usize {
        match self {
            Self::Units(last) => last + 1,
            Self::Sums(sums) => sums.len(),
        }
    }

    /// The farthest place that leaves room for this width before the given place.
    pub fn before(&self, place: usize, width: u64) -> Option<usize> {
        match self {
            Self::Units(_) => place.checked_sub(size(width)),
            Self::Sums(sums) => {
                let room = sums.get(place)?.checked_sub(width)?;
                sums.partition_point(|sum| *sum <= room).checked_sub(1)
            }
        }
    }
}

/// How widths that need too large a table are rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rounding {
    /// Down: what is laid may not fit, but no bound is too high.
    Relaxed,
    /// Up: what is laid fits.
    Tight,
}

/// The problem to solve.
#[derive(Debug, Clone)]
pub(super) struct Core {
    /// How wide the cloth is.
    pub width: u64,
    pub grid: Grid,
    /// Heights of strips, rising, in units of `unit`.
    pub heights: Vec<u64>,
    /// What a height of one is in the problem.
    pub unit: u64,
    pub kinds: Vec<Kind>,
    /// The most pieces in a strip.
    pub most: u64,
    /// Whether widths were rounded.
    pub rounded: bool,
}

impl Core {
    /// # Errors
    /// [`Refusal`] as told there.
    pub fn new(problem: &Problem, rounding: Rounding) -> Result<Self, Refusal> {
        let lies = lies(problem)?;
        let heights: BTreeSet<u32> = lies.keys().flatten().map(|&(_, height)| height).collect();
        let unit = heights.iter().fold(0, |unit, &height| common(unit, u64::from(height))).max(1);
        let index: BTreeMap<u32, usize> = heights.iter().enumerate().map(|(index, &height)| (height, index)).collect();
        let mut kinds: Vec<Kind> = lies
            .into_iter()
            .map(|(lies, demands)| {
                let mut ways: Vec<Way> = lies
                    .iter()
                    .filter_map(|&(along, height)| {
                        let from = *index.get(&height)?;
                        Some(Way { width: u64::from(along), from, to: heights.len(), along })
                    })
                    .collect();
                if let [flat, upright] = ways.as_mut_slice() {
                    flat.to = upright.from;
                }
                let count = demands.iter().map(|&index| u64::from(problem.demands[index].count)).sum();
                Kind { ways, count, demands }
            })
            .collect();
        kinds.sort_by_key(|kind| {
            let way = |at: usize| kind.ways.get(at).map(|way| (way.from, way.width));
            std::cmp::Reverse((way(0), way(1)))
        });
        let heights = heights.iter().map(|&height| u64::from(height) / unit).collect();
        let mut core = Self {
            width: u64::from(problem.width),
            grid: Grid::Units(0),
            heights,
            unit,
            kinds,
            most: 1,
            rounded: false,
        };
        core.set_grid(rounding);
        Ok(core)
    }

    /// Divides widths by their common unit and lays out the table; rounds widths where it would grow too large.
    fn set_grid(&mut self, rounding: Rounding) {
        let unit = self.ways().fold(0, |unit, way| common(unit, way.width)).max(1);
        self.width /= unit;
        self.ways_mut().for_each(|way| way.width /= unit);
        let rows: u64 = self
            .kinds
            .iter()
            .flat_map(|kind| kind.ways.iter().map(|way| self.copies(way.width, kind.count)))
            .map(|copies| u64::from(copies.checked_ilog2().unwrap_or(0)) + 1)
            .sum();
        let places = (CELLS / rows.max(1)).clamp(512, 1 << 14);
        if self.width < places.min(2_048) {
            self.grid = Grid::Units(size(self.width));
        } else if let Some(sums) = self.sums(size(places)) {
            if let Some((width, ways)) = self.coarser(&sums, places) {
                self.ways_mut().zip(ways).for_each(|(way, coarse)| way.width = coarse);
                self.grid = Grid::Units(size(width));
                self.width = width;
                return self.set_most();
            }
            // A sum costs about six times as much as a unit.
            let dense = self.width < places && number(sums.len()) * 6 > self.width;
            self.grid = if dense { Grid::Units(size(self.width)) } else { Grid::Sums(sums) };
        } else {
            let (width, places) = (self.width, places - 1);
            let rounded = |way: u64| match rounding {
                Rounding::Relaxed => way * places / width,
                Rounding::Tight => (way * places).div_ceil(width),
            };
            self.ways_mut().for_each(|way| way.width = rounded(way.width));
            self.width = places;
            self.grid = Grid::Units(size(places));
            self.rounded = true;
        }
        self.set_most();
    }

    fn set_most(&mut self) {
        let narrowest = self.ways().map(|way| way.width).min().unwrap_or(1);
        self.most = self.copies(narrowest, self.kinds.iter().map(|kind| kind.count).sum()).max(1);
    }

    /// How many of so many pieces of this width fit side by side.
    pub fn copies(&self, width: u64, count: u64) -> u64 {
        self.width.checked_div(width).map_or(count, |most| most.min(count))
    }

    fn ways(&self) -> impl Iterator<Item = &Way> {
        self.kinds.iter().flat_map(|kind| &kind.ways)
    }

    fn ways_mut(&mut self) -> impl Iterator<Item = &mut Way> {
        self.kinds.iter_mut().flat_map(|kind| &mut kind.ways)
    }

    /// A smaller width of the cloth and widths of the ways for it, rounded up, for which just the same pieces fit side by side as before.
    ///
    /// Most widths are multiples of some unit; a few odd ones only need a little more than the unit below. Whatever fits the rounded widths fits the
    /// true ones; the other way round is made sure by finding the widest that pieces that truly fit together ever get.
    fn coarser(&self, sums: &[u64], places: u64) -> Option<(u64, Vec<u64>)> {
        let units: Vec<u64> = self.ways().map(|way| common(way.width, self.width)).collect();
        let shared = |unit: &u64| self.ways().filter(|way| way.width % unit == 0).count();
        let unit = units.iter().copied().filter(|unit| shared(unit) * 2 > units.len()).max()?;
        [1, 2, 3, 4, 6, 8, 12, 16, 24, 32].iter().find_map(|parts| {
            let width = self.width / unit * parts;
            let ways: Vec<u64> = self.ways().map(|way| (way.width * width).div_ceil(self.width)).collect();
            (width < places && self.widest(sums, &ways) <= width).then_some((width, ways))
        })
    }

    /// The most that these widths of the ways sum up to where the true widths fit.
    fn widest(&self, sums: &[u64], ways: &[u64]) -> u64 {
        let mut widest = vec![0_u64; sums.len()];
        let counts = self.kinds.iter().flat_map(|kind| kind.ways.iter().map(|_| kind.count));
        for ((way, count), &coarse) in self.ways().zip(counts).zip(ways) {
            let mut left = self.copies(way.width, count);
            let mut times = 1;
            while left > 0 {
                times = times.min(left);
                let mut before = sums.len();
                for place in (0..sums.len()).rev() {
                    let Some(room) = sums[place].checked_sub(way.width * times) else { break };
                    while before > 0 && sums.get(before).is_none_or(|sum| *sum > room) {
                        before -= 1;
                    }
                    widest[place] = widest[place].max(widest[before] + coarse * times);
                }
                left -= times;
                times *= 2;
            }
        }
        widest.last().copied().unwrap_or(0)
    }

    /// The sums of widths that can be reached within the width, at most `most` of them.
    fn sums(&self, most: usize) -> Option<Vec<u64>> {
        let mut sums = vec![0_u64];
        for kind in &self.kinds {
            for way in &kind.ways {
                let mut fresh = sums.clone();
                for _ in 0..self.copies(way.width, kind.count) {
                    fresh = fresh.iter().map(|sum| sum + way.width).filter(|sum| *sum <= self.width).collect();
                    fresh.retain(|sum| sums.binary_search(sum).is_err());
                    if fresh.is_empty() {
                        break;
                    }
                    sums.extend(&fresh);
                    sums.sort_unstable();
                    if sums.len() > most {
                        return None;
                    }
                }
            }
        }
        Some(sums)
    }

    /// How many of each kind.
    pub fn counts(&self) -> Vec<u64> {
        self.kinds.iter().map(|kind| kind.count).collect()
    }
}

/// The ways to lay demands, each a width along the strip and a height that strips may have, by rising height; and which demands are laid so.
type Lies = BTreeMap<Vec<(u32, u32)>, Vec<usize>>;

fn lies(problem: &Problem) -> Result<Lies, Refusal> {
    let mut lies = Lies::new();
    let (mut misfits, mut length) = (Vec::new(), 0_u64);
    for (index, demand) in problem.demands.iter().enumerate() {
        if demand.count == 0 {
            continue;
        }
        let mut ways: Vec<(u32, u32)> = ways(demand)
            .into_iter()
            .filter(|&(along, _)| along <= problem.width)
            .filter_map(|(along, height)| Some((along, problem.strip_height(height)?)))
            .collect();
        ways.sort_unstable_by_key(|&(along, height)| (height, along));
        // What is neither lower nor narrower is never needed.
        ways.dedup_by(|second, first| second.1 == first.1 || second.0 >= first.0);
        if ways.is_empty() || demand.width == 0 || demand.height == 0 {
            misfits.push(index);
            continue;
        }
        let highest = ways.iter().map(|way| u64::from(way.1)).max().unwrap_or(0);
        length = length.saturating_add(highest.saturating_mul(u64::from(demand.count)));
        lies.entry(ways).or_default().push(index);
    }
    if !misfits.is_empty() {
        return Err(Refusal::Misfits(misfits));
    }
    if length >> 50 > 0 {
        return Err(Refusal::TooMuch);
    }
    Ok(lies)
}

/// Width along the strip and height of a piece, as it is and turned where it may be.
pub(super) fn ways(demand: &Demand) -> Vec<(u32, u32)> {
    let mut ways = vec![(demand.width, demand.height)];
    if demand.turnable && demand.width != demand.height {
        ways.push((demand.height, demand.width));
    }
    ways
}
