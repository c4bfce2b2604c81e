//! The best tree of straight cuts, by dynamic programming over regions: sets of patches that straight cuts leave.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

use super::bits::Bits;
use super::lines::{CutLine, peelings};
use crate::geometry::Tolerance;
use crate::pattern::Wish;

/// What adds up over a tree. Less is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Cost {
    /// Papers to print; one that does not fit the page counts as its sheets.
    pub papers: u32,
    /// Match points of all joins.
    pub match_points: u32,
    /// Seams shorter than half an inch, in units and between them. Counted only where a search minds them.
    pub short_seams: u32,
}

/// One of the sums of a [`Cost`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sum {
    /// [`Cost::papers`]
    Papers,
    /// [`Cost::match_points`]
    MatchPoints,
    /// [`Cost::short_seams`]
    ShortSeams,
}

/// The sums of a cost in the order in which they are weighed; what is not weighed is 0.
pub type Key = [u32; 3];

impl Wish {
    /// The sum that it weighs, if it weighs one.
    #[must_use]
    pub const fn sum(self) -> Option<Sum> {
        match self {
            Self::Papers => Some(Sum::Papers),
            Self::MatchPoints => Some(Sum::MatchPoints),
            Self::LongSeams => Some(Sum::ShortSeams),
            Self::EqualPapers | Self::Nesting | Self::DarkerSide | Self::TurnSlack => None,
        }
    }
}

impl Cost {
    /// A tree as bad as can be.
    const WORST: Self = Self { papers: u32::MAX, match_points: u32::MAX, short_seams: u32::MAX };

    /// The cost of two parts together.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self {
            papers: self.papers.saturating_add(other.papers),
            match_points: self.match_points.saturating_add(other.match_points),
            short_seams: self.short_seams.saturating_add(other.short_seams),
        }
    }

    /// One of its sums.
    #[must_use]
    pub const fn sum(self, which: Sum) -> u32 {
        match which {
            Sum::Papers => self.papers,
            Sum::MatchPoints => self.match_points,
            Sum::ShortSeams => self.short_seams,
        }
    }

    /// Its sums in an order of weighing; at most three.
    #[must_use]
    pub fn key(self, order: &[Sum]) -> Key {
        let mut key = [0; 3];
        for (place, &which) in key.iter_mut().zip(order) {
            *place = self.sum(which);
        }
        key
    }
}

/// By so much a seam must be longer than another to count as longer, in steps: what arithmetic leaves behind.
pub const LONGER: f64 = 1e-6;

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
    /// Whether the region peels: whether it is a unit of several patches.
    peels: bool,
}

/// The same as it is kept: there may be millions, and what fits one line of a processor's cache is found twice as fast.
#[derive(Debug, Clone, Copy)]
struct Kept {
    papers: u16,
    match_points: u16,
    short_seams: u16,
    peels: bool,
    /// The line of the join; beyond all lines for a unit and for what is stuck.
    made: u32,
}

impl Kept {
    const UNIT: u32 = u32::MAX;
    const STUCK: u32 = u32::MAX - 1;
}

impl From<Entry> for Kept {
    fn from(entry: Entry) -> Self {
        let small = |sum: u32| u16::try_from(sum).unwrap_or(u16::MAX);
        Self {
            papers: small(entry.cost.papers),
            match_points: small(entry.cost.match_points),
            short_seams: small(entry.cost.short_seams),
            peels: entry.peels,
            made: match entry.made {
                Made::Unit => Self::UNIT,
                Made::Stuck => Self::STUCK,
                Made::Joined(line) => line,
            },
        }
    }
}

impl From<Kept> for Entry {
    fn from(kept: Kept) -> Self {
        Self {
            cost: Cost {
                papers: u32::from(kept.papers),
                match_points: u32::from(kept.match_points),
                short_seams: u32::from(kept.short_seams),
            },
            made: match kept.made {
                Kept::UNIT => Made::Unit,
                Kept::STUCK => Made::Stuck,
                line => Made::Joined(line),
            },
            peels: kept.peels,
        }
    }
}

/// Regions and what is known of each; never walked in order. Hashed alike on every machine, by the multiplier of Knuth's multiplicative hashing
/// (The Art of Computer Programming 3, 6.4) for 64 bits.
pub type Known<T, const W: usize> = HashMap<Bits<W>, T, BuildHasherDefault<Mixing>>;

/// Mixes the words of a set.
#[derive(Default)]
pub struct Mixing(u64);

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

    #[inline]
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

/// What is searched, and how far.
pub struct Terms<'l, const W: usize> {
    /// The lines along which there are cuts.
    pub lines: &'l [CutLine<W>],
    /// How near is the same.
    pub tolerance: Tolerance,
    /// What the leaves of the tree are.
    pub leaves: Leaves<'l, W>,
    /// What is weighed, in this order.
    pub order: &'l [Sum],
    /// Below this a seam is short, in steps.
    pub short: f64,
    /// No region takes fewer papers: 1, but 0 where something that stands takes none.
    pub least_papers: u32,
    /// How many regions may be looked at.
    pub budget: u64,
}

/// The search over the regions of a drawing.
pub struct Search<'l, const W: usize> {
    terms: Terms<'l, W>,
    known: Known<Kept, W>,
    /// The fewest short seams within units.
    short_in: Known<u32, W>,
    /// How many more regions may be looked at.
    left: u64,
    /// The most papers of a region that was searched wholly: no region that holds it needs fewer.
    least_papers: u32,
    /// Whether some unit takes more than one sheet.
    on_several_sheets: bool,
}

impl<'l, const W: usize> Search<'l, W> {
    /// A search on these terms.
    pub fn new(terms: Terms<'l, W>) -> Self {
        let left = terms.budget;
        Self {
            terms,
            known: Known::default(),
            short_in: Known::default(),
            left,
            least_papers: 1,
            on_several_sheets: false,
        }
    }

    /// How many sheets a unit takes.
    fn sheets(&mut self, unit: &Bits<W>) -> u32 {
        let sheets = match self.terms.leaves {
            Leaves::Patches { sheets, .. } => sheets(unit),
            Leaves::Units => 1,
        };
        self.on_several_sheets |= sheets > 1;
        sheets
    }

    /// How many regions were looked at.
    pub fn regions(&self) -> usize {
        self.known.len()
    }

    /// Whether the budget was enough, so that what was found is best.
    pub const fn complete(&self) -> bool {
        self.left > 0
    }

    /// No tree of the whole has fewer papers: papers(part) ≤ papers(whole) for convex parts, as long as each fits one sheet.
    pub const fn least_papers(&self) -> u32 {
        if self.on_several_sheets { 1 } else { self.least_papers }
    }

    /// What the best tree of a region costs; `None` where it cannot be sewn with straight seams alone.
    ///
    /// `papers(R) = 1` if R is a unit, else the least of `papers(A) + papers(B)` over its cuts; the other sums likewise, with what the cut adds.
    pub fn cost(&mut self, region: Bits<W>) -> Option<Cost> {
        let entry = self.look(region);
        (entry.made != Made::Stuck).then_some(entry.cost)
    }

    /// The same of a region that was looked at already.
    pub fn known_cost(&self, region: &Bits<W>) -> Option<Cost> {
        let entry = Entry::from(*self.known.get(region)?);
        (entry.made != Made::Stuck).then_some(entry.cost)
    }

    /// How a region is made.
    pub fn made(&mut self, region: Bits<W>) -> Made {
        self.look(region).made
    }

    /// Whether a region can be sewn on one paper.
    pub fn is_unit(&mut self, region: Bits<W>) -> bool {
        region.count() <= 1 || self.look(region).peels
    }

    /// What a region costs that is sewn on one paper.
    pub fn unit_cost(&mut self, region: &Bits<W>) -> Cost {
        let minds = self.terms.order.contains(&Sum::ShortSeams);
        let short_seams = if minds { self.short_seams(*region) } else { 0 };
        Cost { papers: self.sheets(region), match_points: 0, short_seams }
    }

    /// What a join along a line adds to its two parts.
    pub fn join_cost(&self, line: &CutLine<W>, region: &Bits<W>) -> Cost {
        line.chord(region).map_or(Cost::default(), |chord| self.cost_of_join(line, chord))
    }

    fn cost_of_join(&self, line: &CutLine<W>, chord: (f64, f64)) -> Cost {
        let minds = self.terms.order.contains(&Sum::ShortSeams);
        Cost {
            papers: 0,
            match_points: line.match_points(chord, self.terms.tolerance),
            short_seams: u32::from(minds && self.is_short_length(chord.1 - chord.0)),
        }
    }

    /// Whether the seam of a region along a line is short.
    pub fn is_short(&self, line: &CutLine<W>, region: &Bits<W>) -> bool {
        self.is_short_length(line.length(region))
    }

    fn is_short_length(&self, length: f64) -> bool {
        length < self.terms.short * (1.0 - 1e-9)
    }

    /// The fewest short seams with which a unit is sewn, over all its orders.
    pub fn short_seams(&mut self, region: Bits<W>) -> u32 {
        if region.count() <= 1 {
            return 0;
        }
        if let Some(&known) = self.short_in.get(&region) {
            return known;
        }
        let lines = self.terms.lines;
        let mut fewest = u32::MAX;
        for (number, _, rest) in peelings(lines, region) {
            let short = lines.get(number as usize).is_some_and(|line| self.is_short(line, &region));
            fewest = fewest.min(self.short_seams(rest).saturating_add(u32::from(short)));
            if fewest == 0 || self.left == 0 {
                break;
            }
        }
        self.left = self.left.saturating_sub(1);
        self.short_in.insert(region, fewest);
        fewest
    }

    fn look(&mut self, region: Bits<W>) -> Entry {
        if let Some(&entry) = self.known.get(&region) {
            return entry.into();
        }
        let entry = self.judge(region);
        self.known.insert(region, entry.into());
        self.left = self.left.saturating_sub(1);
        // What is finished while budget is left was searched wholly, and so were all its parts.
        if self.left > 0 && entry.made != Made::Stuck {
            self.least_papers = self.least_papers.max(entry.cost.papers);
        }
        entry
    }

    fn judge(&mut self, region: Bits<W>) -> Entry {
        if region.count() <= 1 {
            let cost = Cost { papers: self.sheets(&region), ..Cost::default() };
            return Entry { cost, made: Made::Unit, peels: false };
        }
        let mut best = Entry { cost: Cost::WORST, made: Made::Stuck, peels: false };
        let (lines, order) = (self.terms.lines, self.terms.order);
        if self.peels(region) {
            let cost = self.unit_cost(&region);
            best = Entry { cost, made: Made::Unit, peels: true };
            if beats_all_joins(cost, order) {
                return best;
            }
        }
        // One paper gives way only to what is better, not to a longer seam.
        let mut longest = f64::INFINITY;
        let first = |cost: Cost| order.first().map_or(0, |&which| cost.sum(which));
        // What the other side of a cut comes to at the least in what is weighed first.
        let least = if order.first() == Some(&Sum::Papers) { self.terms.least_papers } else { 0 };
        let count = region.count();
        for (number, line) in (0..).zip(lines) {
            let Some(left) = line.cut(&region) else { continue };
            let right = region.without(&left);
            // The larger part first: it says more, and the smaller one is met so often that it is near at hand.
            let (large, small) = if left.count() * 2 > count { (left, right) } else { (right, left) };
            let Some(of_large) = self.cost(large) else { continue };
            if first(of_large).saturating_add(least) > first(best.cost) {
                continue;
            }
            let Some(of_small) = self.cost(small) else { continue };
            let parts = of_large.and(of_small);
            if first(parts) > first(best.cost) {
                continue;
            }
            let Some(chord) = line.chord(&region) else { continue };
            let length = chord.1 - chord.0;
            let cost = parts.and(self.cost_of_join(line, chord));
            let (key, best_key) = (cost.key(order), best.cost.key(order));
            // Of equal cuts the longest: short joins are sewn first.
            if best.made == Made::Stuck || key < best_key || (key == best_key && length > longest + LONGER) {
                best = Entry { cost, made: Made::Joined(number), ..best };
                longest = length;
            }
            if self.left == 0 {
                // What is found is a tree, if not the best one.
                break;
            }
        }
        best
    }

    /// Whether a region is a unit: some cut splits off a single patch, and what is left is a unit. Any such patch may come off first, for every convex
    /// part of a unit is a unit.
    fn peels(&mut self, region: Bits<W>) -> bool {
        let may = match self.terms.leaves {
            Leaves::Patches { fixed, .. } => !region.meets(&fixed),
            Leaves::Units => false,
        };
        if !may {
            return false;
        }
        let count = region.count();
        let rest = self.terms.lines.iter().find_map(|line| {
            let left = line.cut(&region)?;
            match left.count() {
                1 => Some(region.without(&left)),
                most if most + 1 == count => Some(left),
                _ => None,
            }
        });
        rest.is_some_and(|rest| self.is_unit(rest))
    }
}

/// Whether no join can be as good as one paper of this cost: a join has two papers at the least.
fn beats_all_joins(unit: Cost, order: &[Sum]) -> bool {
    for which in order {
        match which {
            Sum::Papers if unit.papers < 2 => return true,
            Sum::MatchPoints => {}
            Sum::ShortSeams if unit.short_seams == 0 => {}
            Sum::Papers | Sum::ShortSeams => return false,
        }
    }
    // Nothing is weighed in which a join could be better.
    true
}
