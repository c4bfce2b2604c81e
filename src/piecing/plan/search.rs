//! The best tree of straight cuts, by dynamic programming over regions: sets of patches that straight cuts leave.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

use super::bits::Bits;
use super::lines::CutLine;
use crate::geometry::Tolerance;

/// What a tree costs: papers, then match points. Less is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Cost {
    /// Papers to print.
    pub papers: u32,
    /// Match points of all joins.
    pub match_points: u32,
}

impl Cost {
    fn with(self, other: Self, match_points: u32) -> Self {
        Self {
            papers: self.papers.saturating_add(other.papers),
            match_points: self.match_points.saturating_add(other.match_points).saturating_add(match_points),
        }
    }
}

/// By so much a seam must be longer than another to count as longer, in steps: what arithmetic leaves behind.
const LONGER: f64 = 1e-6;

/// How a region is made best.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Made {
    /// It is a unit: one paper.
    Unit,
    /// It is joined along this line.
    Joined(u32),
    /// No straight cut divides it, or leaves something that no cut divides.
    Stuck,
}

/// A region of the search.
#[derive(Debug, Clone, Copy)]
struct Entry {
    cost: Cost,
    made: Made,
    /// The line by which the region peels, if it is a unit of several patches.
    peels: Option<u32>,
}

/// Regions that have been looked at; never walked in order. Hashed alike on every machine, by the multiplier of Knuth's multiplicative hashing
/// (The Art of Computer Programming 3, 6.4) for 64 bits.
type Known<const W: usize> = HashMap<Bits<W>, Entry, BuildHasherDefault<Mixing>>;

/// Mixes the words of a set.
#[derive(Default)]
struct Mixing(u64);

impl Hasher for Mixing {
    fn finish(&self) -> u64 {
        self.0 ^ (self.0 >> 32)
    }

    fn write(&mut self, bytes: &[u8]) {
        for chunk in bytes.chunks(8) {
            let mut word = [0; 8];
            word[..chunk.len()].copy_from_slice(chunk);
            self.write_u64(u64::from_le_bytes(word));
        }
    }

    fn write_u64(&mut self, word: u64) {
        self.0 = (self.0.rotate_left(29) ^ word).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    }

    fn write_usize(&mut self, _: usize) {}
}

/// What the leaves of a tree are.
#[derive(Clone, Copy)]
pub enum Leaves<'l, const W: usize> {
    /// Patches, of which those that peel make one paper.
    Patches {
        /// How many sheets such a paper takes.
        sheets: &'l dyn Fn(&Bits<W>) -> u32,
        /// Those that are units already.
        fixed: Bits<W>,
    },
    /// Units, each a paper of its own.
    Units,
}

/// The search over the regions of a drawing.
pub struct Search<'l, const W: usize> {
    lines: &'l [CutLine<W>],
    tolerance: Tolerance,
    leaves: Leaves<'l, W>,
    known: Known<W>,
    /// How many more regions may be looked at.
    budget: u64,
}

impl<'l, const W: usize> Search<'l, W> {
    /// A search among the cuts along these lines; `budget` bounds the regions looked at.
    pub fn new(lines: &'l [CutLine<W>], tolerance: Tolerance, leaves: Leaves<'l, W>, budget: u64) -> Self {
        Self { lines, tolerance, leaves, known: Known::default(), budget }
    }

    fn sheets(&self, unit: &Bits<W>) -> u32 {
        match self.leaves {
            Leaves::Patches { sheets, .. } => sheets(unit),
            Leaves::Units => 1,
        }
    }

    /// How many regions were looked at.
    pub fn regions(&self) -> usize {
        self.known.len()
    }

    /// Whether the budget was enough, so that what was found is best.
    pub const fn complete(&self) -> bool {
        self.budget > 0
    }

    /// What the best tree of a region costs; `None` where it cannot be sewn with straight seams alone.
    ///
    /// `papers(R) = 1` if R is a unit, else the least of `papers(A) + papers(B)` over its cuts; match points likewise, with those of the cut.
    pub fn cost(&mut self, region: Bits<W>) -> Option<Cost> {
        let entry = self.look(region);
        (entry.made != Made::Stuck).then_some(entry.cost)
    }

    /// How a region is made.
    pub fn made(&mut self, region: Bits<W>) -> Made {
        self.look(region).made
    }

    /// The line by which a unit peels: on one side of it lies a single patch.
    pub fn peels(&mut self, region: Bits<W>) -> Option<u32> {
        self.look(region).peels
    }

    fn look(&mut self, region: Bits<W>) -> Entry {
        if let Some(&entry) = self.known.get(&region) {
            return entry;
        }
        let entry = self.judge(region);
        self.known.insert(region, entry);
        self.budget = self.budget.saturating_sub(1);
        entry
    }

    fn judge(&mut self, region: Bits<W>) -> Entry {
        let paper = Cost { papers: 1, match_points: 0 };
        if region.count() <= 1 {
            let cost = Cost { papers: self.sheets(&region), match_points: 0 };
            return Entry { cost, made: Made::Unit, peels: None };
        }
        let mut best =
            Entry { cost: Cost { papers: u32::MAX, match_points: u32::MAX }, made: Made::Stuck, peels: None };
        let lines = self.lines;
        // A unit: some cut splits off a single patch, and what is left is a unit. Any such patch may come off first, for every convex part of a
        // unit is a unit.
        let peels = match self.leaves {
            Leaves::Patches { fixed, .. } => !region.meets(&fixed),
            Leaves::Units => false,
        };
        let peel = (0..).zip(lines).filter(|_| peels).find_map(|(number, line)| {
            let left = line.cut(&region)?;
            let right = region.without(&left);
            match (left.count(), right.count()) {
                (_, 1) => Some((number, left)),
                (1, _) => Some((number, right)),
                _ => None,
            }
        });
        if let Some((number, rest)) = peel
            && self.is_unit(rest)
        {
            let cost = Cost { papers: self.sheets(&region), match_points: 0 };
            best = Entry { cost, made: Made::Unit, peels: Some(number) };
            if cost == paper {
                return best;
            }
        }
        for (number, line) in (0..).zip(lines) {
            let Some(left) = line.cut(&region) else { continue };
            let right = region.without(&left);
            let Some(of_left) = self.cost(left) else { continue };
            if of_left.papers > best.cost.papers {
                continue;
            }
            let Some(of_right) = self.cost(right) else { continue };
            if of_left.papers.saturating_add(of_right.papers) > best.cost.papers {
                continue;
            }
            let cost = of_left.with(of_right, line.match_points(&region, self.tolerance));
            // Of equal cuts the longest: short joins are sewn first.
            let longer = || match best.made {
                Made::Joined(other) => line.length(&region) > lines[other as usize].length(&region) + LONGER,
                Made::Unit | Made::Stuck => false,
            };
            if cost < best.cost || (cost == best.cost && longer()) {
                best = Entry { cost, made: Made::Joined(number), ..best };
            }
            if self.budget == 0 {
                // What is found is a tree, if not the best one.
                break;
            }
        }
        best
    }

    fn is_unit(&mut self, region: Bits<W>) -> bool {
        region.count() <= 1 || self.look(region).peels.is_some()
    }
}
