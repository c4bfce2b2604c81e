//! Column generation: the least length of strips, in fractions of strips, that yields all pieces, and a bound proved from the prices of the pieces
//! (Gilmore and Gomory 1961, Farley 1990).

use super::columns::{PARTS, Prices};
use super::core::Core;
use super::number::{Steps, float, number, whole};
use super::price::{Asked, Change, Pattern, Priced, Pricer};
use super::simplex::{Column, Simplex};

/// The most strips that one pricing brings in.
const BATCH: usize = 48;
/// After so many pricings that changed nothing, rounding is at work and no more is tried.
const IDLE: usize = 40;

/// What a limit counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Counted {
    /// Strips.
    Strips,
    /// Pieces of a kind.
    Pieces(usize),
    /// Strips that hold at least so many pieces of a kind.
    Holding(usize, u64),
}

impl Counted {
    /// How much of it there is in a strip.
    pub fn within(self, pattern: &Pattern) -> u64 {
        let pieces = |kind: usize| pattern.pieces.iter().find(|piece| piece.0 == kind).map_or(0, |piece| piece.1);
        match self {
            Self::Strips => 1,
            Self::Pieces(kind) => pieces(kind),
            Self::Holding(kind, least) => u64::from(pieces(kind) >= least),
        }
    }
}

/// How much there is to be in strips of at least some height.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Limit {
    pub of: Counted,
    /// The index of the least height of strips that count.
    pub from: usize,
    pub amount: u64,
    /// At least so much, or else at most.
    pub at_least: bool,
}

impl Limit {
    /// How much of what the limit counts there is in a strip.
    pub fn within(&self, pattern: &Pattern) -> u64 {
        if pattern.height < self.from { 0 } else { self.of.within(pattern) }
    }
}

/// Prices, and by how much they are to be scaled so that no strip is worth more than its height.
#[derive(Debug)]
pub(super) struct Proof {
    /// What all pieces are worth, scaled.
    length: i128,
    prices: Vec<f64>,
    cost: i128,
    value: i128,
}

/// The programme over the strips found so far.
#[derive(Debug)]
pub(super) struct Master<'c> {
    core: &'c Core,
    counts: Vec<u64>,
    /// The row of each kind of which there are pieces.
    row: Vec<Option<usize>>,
    limits: Vec<Limit>,
    simplex: Simplex,
    /// What the columns stand for; none for what is cut too often and the like.
    patterns: Vec<Option<Pattern>>,
    /// What a price of one is in whole numbers.
    scale: f64,
    /// Once the bound is as high as this, it is high enough.
    pub enough: u64,
    /// No plan is shorter, in units of the core.
    pub bound: u64,
    /// What proved the bound, and whatever bettered it on the way, the best last.
    pub proofs: Vec<Proof>,
    /// Whether no strip is left that would make the fractional plan shorter.
    pub converged: bool,
}

impl<'c> Master<'c> {
    pub fn new(core: &'c Core, counts: &[u64], limits: &[Limit], seeds: &[Pattern]) -> Self {
        let kinds: Vec<usize> = (0..counts.len()).filter(|&kind| counts[kind] > 0).collect();
        let mut row = vec![None; counts.len()];
        kinds.iter().enumerate().for_each(|(place, &kind)| row[kind] = Some(place));
        let singles: Vec<Pattern> = kinds.iter().map(|&kind| single(core, kind, counts[kind])).collect();
        let column = |pattern: &Pattern| column(core, &row, limits, pattern);
        let mut columns: Vec<Column> = singles.iter().map(column).collect();
        let mut asked: Vec<f64> = kinds.iter().map(|&kind| float(counts[kind])).collect();
        let amounts: Vec<f64> = asked.iter().zip(&columns).map(|(asked, column)| asked / column.entries[0].1).collect();
        let dear = 1.0 + 2.0 * columns.iter().zip(&amounts).map(|(column, amount)| column.cost * amount).sum::<f64>();
        let mut patterns: Vec<Option<Pattern>> = singles.into_iter().map(Some).collect();
        let mut slack = Vec::new();
        for (place, limit) in limits.iter().enumerate() {
            let counted = |pattern: &Option<Pattern>| pattern.as_ref().map_or(0, |pattern| limit.within(pattern));
            let there: f64 = patterns.iter().zip(&amounts).map(|(it, amount)| float(counted(it)) * amount).sum();
            let sign = if limit.at_least { -1.0 } else { 1.0 };
            let entry = |amount: f64| vec![(kinds.len() + place, amount)];
            let kept = if limit.at_least { there >= float(limit.amount) } else { there <= float(limit.amount) };
            if kept {
                columns.push(Column { cost: 0.0, entries: entry(sign) });
            } else {
                columns.push(Column { cost: dear, entries: entry(-sign) });
                slack.push(Column { cost: 0.0, entries: entry(sign) });
            }
            asked.push(float(limit.amount));
            patterns.push(None);
        }
        let mut simplex = Simplex::new(&asked, columns);
        let over = (0..kinds.len()).map(|row| Column { cost: 0.0, entries: vec![(row, -1.0)] });
        for column in slack.into_iter().chain(over) {
            simplex.add(column);
            patterns.push(None);
        }
        let most = highest(core) * float(core.most);
        let mut scale = 1.0;
        while scale * most < float(1 << 44) && scale < float(1 << 40) {
            scale *= 2.0;
        }
        let limits = limits.to_vec();
        let mut master = Self {
            core,
            counts: counts.to_vec(),
            row,
            limits,
            simplex,
            patterns,
            scale,
            enough: u64::MAX,
            bound: 0,
            proofs: Vec::new(),
            converged: false,
        };
        for seed in seeds {
            let clip = |&(kind, count): &(usize, u64)| (kind, count.min(counts[kind]));
            let pieces: Vec<(usize, u64)> = seed.pieces.iter().map(clip).filter(|piece| piece.1 > 0).collect();
            if !pieces.is_empty() {
                master.add(Pattern { height: seed.height, pieces }.lowered(core));
            }
        }
        master
    }

    fn add(&mut self, pattern: Pattern) {
        self.simplex.add(column(self.core, &self.row, &self.limits, &pattern));
        self.patterns.push(Some(pattern));
    }

    /// Adds strips until none is left that helps, the bound is as high as the plan is long, or no steps are left.
    pub fn generate(&mut self, pricer: &mut Pricer, steps: &mut Steps) {
        self.simplex.optimise(steps);
        let (mut cost, mut idle) = (self.simplex.cost(), 0);
        let unit = self.scale * highest(self.core);
        while steps.are_left() && idle < IDLE {
            let most = float(1 << 50) / float(self.core.most);
            let prices: Vec<f64> = self
                .row
                .iter()
                .map(|row| row.map_or(0.0, |row| (self.simplex.prices()[row] * unit).floor().clamp(0.0, most)))
                .collect();
            let kinds = self.simplex.prices().len() - self.limits.len();
            let most = (float(1 << 51) / float(number(self.limits.len()) + 1)).floor();
            let fines: Vec<f64> = self
                .limits
                .iter()
                .zip(&self.simplex.prices()[kinds..])
                .map(|(limit, price)| {
                    // A little less, so that rounding does not make a strip of one piece worth more than it costs.
                    let fine = ((price - 1e-9) * unit).floor().clamp(-most, most);
                    if limit.at_least { fine.max(0.0) } else { fine.min(0.0) }
                })
                .collect();
            let above: Vec<f64> = (0..self.core.heights.len())
                .map(|height| {
                    let fines = self.limits.iter().zip(&fines);
                    let counted = fines.filter(|(limit, _)| limit.of == Counted::Strips && limit.from <= height);
                    float(self.core.heights[height]) * self.scale - counted.map(|(_, fine)| fine).sum::<f64>()
                })
                .collect();
            let near: Vec<f64> = above.iter().map(|above| above + unit * 2e-9).collect();
            let changes: Vec<Change> = self
                .limits
                .iter()
                .zip(&fines)
                .filter_map(|(limit, &worth)| {
                    let (kind, least) = match limit.of {
                        Counted::Strips => return None,
                        Counted::Pieces(kind) => (kind, None),
                        Counted::Holding(kind, least) => (kind, Some(least)),
                    };
                    Some(Change { kind, from: limit.from, least, worth })
                })
                .collect();
            let asked = Asked { counts: &self.counts, prices: &prices, changes: &changes, above: &near };
            let mut priced = pricer.price(&asked, steps);
            let bound = self.proved(&priced, &prices, &above, &fines);
            self.bound = self.bound.max(bound);
            self.converged = priced.patterns.is_empty();
            if self.converged || self.bound >= self.least().min(self.enough) {
                return;
            }
            priced.patterns.sort_by(|a, b| b.0.total_cmp(&a.0));
            priced.patterns.truncate(BATCH);
            for (_, pattern) in priced.patterns {
                self.add(pattern);
            }
            self.simplex.optimise(steps);
            idle = if self.simplex.cost() < cost - 1e-10 { 0 } else { idle + 1 };
            cost = self.simplex.cost();
        }
    }

    /// The least whole length that is no shorter than the fractional plan, but for rounding.
    pub fn least(&self) -> u64 {
        whole((self.cost() * (1.0 - 1e-10) - 1e-6).ceil())
    }

    /// The length of the fractional plan.
    pub fn cost(&self) -> f64 {
        self.simplex.cost() * highest(self.core)
    }

    /// The prices that proved the best bounds, the best first.
    pub fn dual(&self, most: usize) -> Vec<Prices> {
        let parts = i128::from(PARTS);
        let scale = integer(self.scale).max(1);
        // Both factors of the product are below 2^52.
        let price = |proof: &Proof, price: f64| {
            let most = integer(price) * proof.cost / proof.value;
            u64::try_from(most * parts / scale).unwrap_or(0)
        };
        let proofs = self.proofs.iter().rev().take(most);
        proofs.map(|proof| Prices(proof.prices.iter().map(|&it| price(proof, it)).collect())).collect()
    }

    /// The strips of the fractional plan and how many of each.
    pub fn solution(&self) -> Vec<(f64, Pattern)> {
        let known = |(column, amount): (usize, f64)| Some((amount, self.patterns[column].clone()?));
        self.simplex.solution().filter_map(known).collect()
    }

    /// The strips whose worth is not farther below their cost than this.
    pub fn near(&self, gap: f64) -> Vec<Pattern> {
        let near = |column: &usize| self.simplex.reduced(*column) * highest(self.core) <= gap;
        (0..self.patterns.len()).filter(near).filter_map(|column| self.patterns[column].clone()).collect()
    }

    /// The bound that the prices prove, in whole numbers throughout: prices are scaled so that no strip is worth more than its height, less what the
    /// limits charge for it; all pieces at those prices are worth no more than any plan is long.
    fn proved(&mut self, priced: &Priced, prices: &[f64], above: &[f64], fines: &[f64]) -> u64 {
        let charged = |strips: bool| {
            let limits =
                self.limits.iter().zip(fines).filter(move |(limit, _)| (limit.of == Counted::Strips) == strips);
            limits.map(|(limit, &fine)| i128::from(limit.amount) * integer(fine)).sum::<i128>()
        };
        let worth: i128 =
            self.counts.iter().zip(prices).map(|(&count, &price)| i128::from(count) * integer(price)).sum();
        let worth = (worth + charged(false)).max(0);
        let mut ratio: Option<(i128, i128)> = None;
        for &(height, value) in &priced.values {
            let (cost, value) = (integer(above[height]), integer(value));
            if cost < 0 {
                return 0;
            }
            if value > 0 && ratio.is_none_or(|(least, over)| cost * over < least * value) {
                ratio = Some((cost, value));
            }
        }
        let Some((cost, value)) = ratio else { return 0 };
        // What is shifted out only makes the bound lower.
        let shift = (256 - worth.leading_zeros() - cost.leading_zeros()).saturating_sub(126);
        let pieces = ((worth >> shift) * cost / value) << shift;
        if self.limits.is_empty() && self.proofs.last().is_none_or(|best| best.length < pieces) {
            self.proofs.push(Proof { length: pieces, prices: prices.to_vec(), cost, value });
        }
        let scale = integer(self.scale).max(1);
        let length = pieces + charged(true);
        let length = length.div_euclid(scale) + i128::from(length.rem_euclid(scale) > 0);
        u64::try_from(length).unwrap_or(0)
    }
}

/// A whole number that a float holds.
#[expect(clippy::cast_possible_truncation, reason = "prices are whole and below 2^53")]
fn integer(number: f64) -> i128 {
    number as i128
}

/// The strip with as many pieces of a kind as fit, the way that takes least length a piece.
fn single(core: &Core, kind: usize, count: u64) -> Pattern {
    let strips = core.kinds[kind].ways.iter().map(|way| (way.from, core.copies(way.width, count).max(1)));
    let best = strips.reduce(|best, other| {
        let length = |strip: (usize, u64), times: u64| u128::from(core.heights[strip.0]) * u128::from(times);
        if length(other, best.1) < length(best, other.1) { other } else { best }
    });
    let (height, count) = best.unwrap_or((0, 1));
    Pattern { height, pieces: vec![(kind, count)] }
}

/// The greatest height, in which costs are measured so that they are near one.
fn highest(core: &Core) -> f64 {
    float(core.heights.last().copied().unwrap_or(1).max(1))
}

/// The column of a strip: its pieces, and one for each limit that counts it.
fn column(core: &Core, row: &[Option<usize>], limits: &[Limit], pattern: &Pattern) -> Column {
    let rows = row.iter().flatten().count();
    let pieces = pattern.pieces.iter().filter_map(|&(kind, count)| Some((row[kind]?, float(count))));
    let limits = limits.iter().enumerate().map(|(place, limit)| (rows + place, float(limit.within(pattern))));
    Column {
        cost: float(core.heights[pattern.height]) / highest(core),
        entries: pieces.chain(limits.filter(|entry| entry.1 > 0.0)).collect(),
    }
}
