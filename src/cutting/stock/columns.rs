//! All strips that a plan of some length may be made of, found from prices of the pieces: where all pieces are worth nearly the length, no strip may be
//! worth much less than its height.
//!
//! Prices are whole numbers of [`PARTS`] parts of a unit of length, and no strip is worth more than its height; so what is left out is proved useless.

use super::core::Core;
use super::number::{Steps, float, whole};
use super::simplex::{self, Simplex};

/// Parts of a unit of length in which pieces are priced.
pub(super) const PARTS: u64 = 1 << 24;
/// The most strips that are listed.
const COLUMNS: usize = 24_000;
/// The most strips that one look at all of them brings into the programme.
const BATCH: usize = 12;
/// The most looks.
const LOOKS: usize = 40;

/// What a piece of each kind is worth, in parts. No strip is worth more than its height.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Prices(pub Vec<u64>);

impl Prices {
    /// The area of a piece over the width of the cloth, the way it takes least.
    pub fn area(core: &Core) -> Self {
        let area = |kind: &super::core::Kind| {
            let ways = kind.ways.iter().map(|way| core.heights[way.from] * PARTS * way.width / core.width.max(1));
            ways.min().unwrap_or(0)
        };
        Self(core.kinds.iter().map(area).collect())
    }

    /// What so many pieces of each kind are worth.
    pub fn worth(&self, counts: &[u64]) -> u64 {
        self.0.iter().zip(counts).fold(0, |worth, (price, &count)| worth.saturating_add(price.saturating_mul(count)))
    }
}

/// A strip that no other piece of those asked would fit into.
#[derive(Debug, Clone)]
pub(super) struct Column {
    /// The index of its height.
    pub height: usize,
    /// Kinds and how many of each.
    pub pieces: Vec<(usize, u64)>,
}

impl Column {
    /// By how much the height is more than what pieces in the strip are worth, as far as they are left.
    pub fn loss(&self, core: &Core, prices: &Prices, left: &[u64]) -> u64 {
        let worth = self.pieces.iter().map(|&(kind, count)| prices.0[kind] * count.min(left[kind]));
        (core.heights[self.height] * PARTS).saturating_sub(worth.sum())
    }
}

/// The strips whose worth is not farther below their height than `slack` by any of the prices; none if there are too many or no steps are left.
pub(super) fn columns(core: &Core, prices: &[Prices], slacks: &[u64], steps: &mut Steps) -> Option<Vec<Column>> {
    let first = prices.first()?;
    let (mut found, counts) = (Vec::new(), core.counts());
    for height in 0..core.heights.len() {
        let mut live: Vec<Live> = Vec::new();
        for (kind, it) in core.kinds.iter().enumerate() {
            if let Some(way) = it.way_at(height).filter(|way| way.width <= core.width) {
                let price = first.0[kind];
                live.push(Live { kind, width: way.width, price, count: it.count, own: way.from == height });
            }
        }
        // The worth of what fits beside is bounded by the kind that is worth most for its width.
        live.sort_by(|a, b| (b.price * a.width).cmp(&(a.price * b.width)).then(a.kind.cmp(&b.kind)));
        let Some(last) = live.iter().rposition(|live| live.own) else { continue };
        let mut listing = Listing {
            core,
            prices,
            slacks,
            live: &live,
            last,
            height,
            pieces: Vec::new(),
            counts: &counts,
            found: &mut found,
        };
        if !listing.grow(0, core.width, 0, steps) {
            return None;
        }
    }
    Some(found)
}

/// A kind that fits a strip of the height looked at.
struct Live {
    kind: usize,
    width: u64,
    price: u64,
    count: u64,
    /// Whether the strip needs its height for it.
    own: bool,
}

/// The search for strips of one height.
struct Listing<'l> {
    core: &'l Core,
    prices: &'l [Prices],
    slacks: &'l [u64],
    live: &'l [Live],
    /// The last kind that needs the height.
    last: usize,
    height: usize,
    /// Kinds by place and how many of each.
    pieces: Vec<(usize, u64)>,
    /// All pieces.
    counts: &'l [u64],
    found: &'l mut Vec<Column>,
}

impl Listing<'_> {
    /// Tries all numbers of the kinds from a place on; whether all were listed.
    fn grow(&mut self, place: usize, room: u64, worth: u64, steps: &mut Steps) -> bool {
        steps.take(20);
        let Some(live) = self.live.get(place) else {
            self.list(room, steps);
            return self.found.len() <= COLUMNS && steps.are_left();
        };
        let need = (self.core.heights[self.height] * PARTS).saturating_sub(self.slacks[0] + worth);
        if live.price * room < need * live.width {
            return true;
        }
        let most = (room / live.width).min(live.count);
        let has_own = |listing: &Self| listing.pieces.iter().any(|&(place, _)| listing.live[place].own);
        for count in (0..=most).rev() {
            if count == 0 && place == self.last && !has_own(self) {
                break;
            }
            if count > 0 {
                self.pieces.push((place, count));
            }
            let whole = self.grow(place + 1, room - count * live.width, worth + count * live.price, steps);
            if count > 0 {
                self.pieces.pop();
            }
            if !whole {
                return false;
            }
        }
        true
    }

    /// Lists the strip if nothing more fits and all prices allow it.
    fn list(&mut self, room: u64, steps: &mut Steps) {
        steps.take(20 + 10 * self.live.len());
        let held = |place: usize| self.pieces.iter().find(|piece| piece.0 == place).map_or(0, |piece| piece.1);
        let fits = |(place, live): (usize, &Live)| live.width <= room && held(place) < live.count;
        if self.live.iter().enumerate().any(fits) {
            return;
        }
        let pieces = self.pieces.iter().map(|&(place, count)| (self.live[place].kind, count)).collect();
        let column = Column { height: self.height, pieces };
        let counts = &self.counts;
        if self.prices.iter().zip(self.slacks).all(|(prices, slack)| column.loss(self.core, prices, counts) <= *slack) {
            self.found.push(column);
        }
    }
}

/// The best prices for pieces that are left where only these strips may be cut, each given with what it loses by prices for more pieces: no strip is
/// worth more than its height, as far as its pieces are left.
pub(super) fn rest_prices<'c, I: Iterator<Item = (u64, &'c Column)>>(
    core: &Core,
    open: impl Fn() -> I,
    left: &[u64],
    steps: &mut Steps,
) -> Prices {
    let kinds: Vec<usize> = (0..left.len()).filter(|&kind| left[kind] > 0).collect();
    let mut row = vec![None; left.len()];
    kinds.iter().enumerate().for_each(|(place, &kind)| row[kind] = Some(place));
    let highest = float(core.heights.last().copied().unwrap_or(1).max(1));
    let cost = |column: &Column| float(core.heights[column.height]) / highest;
    let programmed = |column: &Column| {
        let pieces = column.pieces.iter().filter_map(|&(kind, count)| Some((row[kind]?, float(count.min(left[kind])))));
        simplex::Column { cost: cost(column), entries: pieces.collect() }
    };
    let asked: Vec<f64> = kinds.iter().map(|&kind| float(left[kind])).collect();
    // A piece without a strip is dearer than any strip.
    let dear = (0..kinds.len()).map(|row| simplex::Column { cost: 2.0, entries: vec![(row, 1.0)] });
    let mut simplex = Simplex::new(&asked, dear.collect());
    (0..kinds.len()).for_each(|row| simplex.add(simplex::Column { cost: 0.0, entries: vec![(row, -1.0)] }));
    let likely = open().filter(|(loss, _)| *loss < PARTS >> 10);
    likely.take(4 * BATCH).for_each(|(_, column)| simplex.add(programmed(column)));
    for _ in 0..LOOKS {
        simplex.optimise(steps);
        let worth = |column: &Column| -> f64 {
            let pieces = column
                .pieces
                .iter()
                .filter_map(|&(kind, count)| Some(simplex.prices()[row[kind]?] * float(count.min(left[kind]))));
            pieces.sum()
        };
        let mut better: Vec<(f64, &Column)> = Vec::new();
        let mut looked = 0;
        for (_, column) in open() {
            looked += 1;
            let gain = worth(column) - cost(column);
            if gain > 1e-7 {
                better.push((gain, column));
            }
        }
        steps.take(500 + 20 * looked);
        if better.is_empty() || !steps.are_left() {
            break;
        }
        better.sort_by(|a, b| b.0.total_cmp(&a.0));
        better.iter().take(BATCH).for_each(|(_, column)| simplex.add(programmed(column)));
    }
    let price = |row: usize| {
        whole(simplex.prices()[row] * highest * float(PARTS)).min(core.heights.last().copied().unwrap_or(0) * 2 * PARTS)
    };
    let mut prices = Prices(row.iter().map(|row| row.map_or(0, price)).collect());
    // Rounding, or too few looks, may have left strips that are worth a little more than their height.
    let mut ratio = (1, 1);
    for (_, column) in open() {
        let worth: u64 = column.pieces.iter().map(|&(kind, count)| prices.0[kind] * count.min(left[kind])).sum();
        let height = core.heights[column.height] * PARTS;
        if u128::from(worth) * u128::from(ratio.0) > u128::from(height) * u128::from(ratio.1) {
            ratio = (height, worth);
        }
    }
    let scaled = |price: u64| u64::try_from(u128::from(price) * u128::from(ratio.0) / u128::from(ratio.1)).unwrap_or(0);
    prices.0.iter_mut().for_each(|price| *price = scaled(*price));
    prices
}

/// Whether whole numbers hold all that is reckoned here, and the search is not too deep.
pub(super) fn is_small(core: &Core, length: u64, strips: u64) -> bool {
    let highest = core.heights.last().copied().unwrap_or(0).max(length);
    highest.saturating_mul(core.width) < 1 << 38 && strips <= 200 && core.kinds.len() <= 64
}
