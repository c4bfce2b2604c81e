//! The best strip of every height for given prices of pieces: one bounded knapsack over the width of the cloth, swept by height (Gilmore and Gomory
//! 1965).
//!
//! Prices are whole numbers kept in floats, small enough that sums are exact; so the values found are exact too, and bounds may rest on them.

use super::core::{Core, Grid};
use super::number::{Steps, float, merge, number, size};

/// Pieces side by side in a strip.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Pattern {
    /// The index of the strip's height.
    pub height: usize,
    /// Kinds and how many of each, by rising kind.
    pub pieces: Vec<(usize, u64)>,
}

impl Pattern {
    /// What is left of the width.
    pub fn room(&self, core: &Core) -> u64 {
        let used = |&(kind, count): &(usize, u64)| core.kinds[kind].width_at(self.height).unwrap_or(0) * count;
        core.width.saturating_sub(self.pieces.iter().map(used).sum())
    }

    /// The same pieces in a strip no higher than they need.
    pub fn lowered(mut self, core: &Core) -> Self {
        self.height = self.pieces.iter().map(|&(kind, _)| core.kinds[kind].lowest_at(self.height)).max().unwrap_or(0);
        self
    }
}

/// What the prices are worth.
#[derive(Debug, Default)]
pub(super) struct Priced {
    /// For each height a strip may have, its index and the greatest worth of the pieces in such a strip.
    pub values: Vec<(usize, f64)>,
    /// Strips worth more than asked, with that difference as a share of the strip's height.
    pub patterns: Vec<(f64, Pattern)>,
}

/// One row of the table: `times` pieces of a kind at once, or as many as fit.
#[derive(Debug, Clone, Copy)]
struct Row {
    kind: usize,
    width: u64,
    profit: f64,
    times: u64,
    endless: bool,
    /// By place among the worths, where pieces are not worth the same one by one.
    uneven: Option<usize>,
}

/// A way with the heights at which it holds, as a range among those looked at.
#[derive(Debug, Clone, Copy)]
struct Live {
    kind: usize,
    width: u64,
    profit: f64,
    uneven: Option<usize>,
    from: usize,
    to: usize,
}

/// What makes pieces of a kind worth more, or less.
#[derive(Debug, Clone, Copy)]
pub(super) struct Change {
    pub kind: usize,
    /// The index of the height of strips from which it does.
    pub from: usize,
    /// For so many pieces in a strip, once; none for each piece.
    pub least: Option<u64>,
    /// By how much.
    pub worth: f64,
}

/// The table over the width.
#[derive(Debug)]
pub(super) struct Pricer<'c> {
    core: &'c Core,
    rows: Vec<Row>,
    /// The greatest worth within each width, row by row; before the first row nothing is worth anything.
    cells: Vec<f64>,
    /// What 0, 1, … pieces of a kind are worth, where that does not just add up.
    worths: Vec<Vec<f64>>,
}

/// What is asked of a pricing.
pub(super) struct Asked<'a> {
    /// How many pieces of each kind there are.
    pub counts: &'a [u64],
    /// What a piece is worth, whole numbers.
    pub prices: &'a [f64],
    /// What is worth more or less in strips that are high enough.
    pub changes: &'a [Change],
    /// What a strip must be worth more than to be told, by the index of its height.
    pub above: &'a [f64],
}

impl<'c> Pricer<'c> {
    pub fn new(core: &'c Core) -> Self {
        Self { core, rows: Vec::new(), cells: vec![0.0; core.grid.len()], worths: Vec::new() }
    }

    /// Prices strips of all heights that one of the pieces can have.
    pub fn price(&mut self, asked: &Asked, steps: &mut Steps) -> Priced {
        let kinds = || self.core.kinds.iter().enumerate().filter(|(kind, _)| asked.counts[*kind] > 0);
        let mut heights: Vec<usize> = kinds().flat_map(|(_, kind)| kind.ways.iter().map(|way| way.from)).collect();
        heights.sort_unstable();
        heights.dedup();
        self.worths.clear();
        let mut live: Vec<Live> = Vec::new();
        let mut nested = false;
        for (index, kind) in kinds() {
            let changes = || asked.changes.iter().filter(|change| change.kind == index);
            // While there are more pieces than fit upright, those laid flat never do any better and may stay in the table.
            let narrow = kind.ways.last().map_or(0, |way| way.width);
            let bites = kind.ways.len() > 1 && self.core.width / narrow.max(1) > asked.counts[index];
            let apart = bites || changes().next().is_some();
            nested |= apart;
            for way in &kind.ways {
                let mut starts = vec![way.from];
                starts.extend(changes().map(|change| change.from).filter(|from| (way.from + 1..way.to).contains(from)));
                starts.sort_unstable();
                starts.dedup();
                for (place, &from) in starts.iter().enumerate() {
                    let more: f64 = changes()
                        .filter(|change| change.least.is_none() && change.from <= from)
                        .map(|change| change.worth)
                        .sum();
                    let to = if apart { *starts.get(place + 1).unwrap_or(&way.to) } else { self.core.heights.len() };
                    let profit = asked.prices[index] + more;
                    let once: Vec<(u64, f64)> = changes()
                        .filter(|change| change.from <= from)
                        .filter_map(|change| Some((change.least?, change.worth)))
                        .collect();
                    let uneven = (!once.is_empty()).then(|| {
                        let most = self.core.copies(way.width, asked.counts[index]);
                        let worth = |count: u64| {
                            let held = once.iter().filter(|(least, _)| *least <= count);
                            profit * float(count) + held.map(|(_, worth)| worth).sum::<f64>()
                        };
                        self.worths.push((0..=most).map(worth).collect());
                        self.worths.len() - 1
                    });
                    live.push(Live {
                        kind: index,
                        width: way.width,
                        profit,
                        uneven,
                        from: heights.partition_point(|&height| height < from),
                        to: heights.partition_point(|&height| height < to),
                    });
                }
            }
        }
        live.retain(|live| live.profit > 0.0 || live.uneven.is_some());
        live.sort_by_key(|live| live.from);
        self.rows.clear();
        let mut priced = Priced::default();
        if nested {
            self.divide(&heights, 0, &live, asked, (&mut priced, steps));
        } else {
            let mut live = live.into_iter().peekable();
            for (place, &height) in heights.iter().enumerate() {
                while let Some(way) = live.next_if(|live| live.from <= place) {
                    self.add(way, asked, steps);
                }
                self.read(height, asked, &mut priced);
            }
        }
        priced
    }

    /// Prices a range of heights that starts at a place, halving it until all ways hold throughout.
    fn divide(
        &mut self,
        heights: &[usize],
        start: usize,
        live: &[Live],
        asked: &Asked,
        (priced, steps): (&mut Priced, &mut Steps),
    ) {
        let (end, rows) = (start + heights.len(), self.rows.len());
        let (whole, part): (Vec<Live>, Vec<Live>) = live
            .iter()
            .filter(|way| way.from < end && way.to > start)
            .partition(|way| way.from <= start && way.to >= end);
        for way in whole {
            self.add(way, asked, steps);
        }
        if let [height] = heights {
            self.read(*height, asked, priced);
        } else {
            let (lower, upper) = heights.split_at(heights.len() / 2);
            self.divide(lower, start, &part, asked, (priced, steps));
            self.divide(upper, start + lower.len(), &part, asked, (priced, steps));
        }
        self.rows.truncate(rows);
    }

    /// Adds the rows for a way: one if pieces do not run out, else one for each power of two.
    fn add(&mut self, way: Live, asked: &Asked, steps: &mut Steps) {
        let (count, profit) = (asked.counts[way.kind], way.profit);
        let most = self.core.copies(way.width, count);
        let mut row = Row { kind: way.kind, width: way.width, profit, times: 1, endless: false, uneven: way.uneven };
        if way.uneven.is_some() {
            self.push(row, steps);
            return;
        }
        if most > 1 && self.core.width.checked_div(way.width).is_some_and(|fit| count >= fit) {
            row.endless = true;
            self.push(row, steps);
            return;
        }
        let mut left = most;
        while left > 0 {
            row.times = row.times.min(left);
            self.push(row, steps);
            left -= row.times;
            row.times *= 2;
        }
    }

    fn push(&mut self, row: Row, steps: &mut Steps) {
        let places = self.core.grid.len();
        let at = self.rows.len() * places;
        self.rows.push(row);
        if self.cells.len() < at + 2 * places {
            self.cells.resize(at + 2 * places, 0.0);
        }
        let (old, new) = self.cells[at..at + 2 * places].split_at_mut(places);
        if let Some(worths) = row.uneven.and_then(|uneven| self.worths.get(uneven)) {
            for (place, new) in new.iter_mut().enumerate() {
                let (mut before, mut best) = (place, old[place]);
                for worth in &worths[1..] {
                    let Some(place) = self.core.grid.before(before, row.width) else { break };
                    before = place;
                    best = best.max(old[before] + worth);
                }
                *new = best;
            }
            steps.take(places * worths.len());
            return;
        }
        let (shift, gain) = (row.width * row.times, row.profit * float(row.times));
        match &self.core.grid {
            Grid::Units(_) => {
                let shift = size(shift).min(places);
                if row.endless {
                    new.copy_from_slice(old);
                    for place in shift..places {
                        let with = new[place - shift] + gain;
                        if with > new[place] {
                            new[place] = with;
                        }
                    }
                    steps.take(places);
                } else {
                    new[..shift].copy_from_slice(&old[..shift]);
                    for ((new, old), before) in new[shift..].iter_mut().zip(&old[shift..]).zip(old.iter()) {
                        let with = before + gain;
                        *new = if with > *old { with } else { *old };
                    }
                    steps.take(places / 2);
                }
            }
            Grid::Sums(sums) => {
                let mut before = 0;
                for (place, &sum) in sums.iter().enumerate() {
                    new[place] = old[place];
                    let Some(room) = sum.checked_sub(shift) else { continue };
                    while sums.get(before + 1).is_some_and(|sum| *sum <= room) {
                        before += 1;
                    }
                    let with = gain + if row.endless { new[before] } else { old[before] };
                    if with > new[place] {
                        new[place] = with;
                    }
                }
                steps.take(3 * places);
            }
        }
    }

    fn cell(&self, row: usize, place: usize) -> f64 {
        self.cells[row * self.core.grid.len() + place]
    }

    /// Notes the value of a height, and its strip if it is worth enough and more than any lower one.
    fn read(&mut self, height: usize, asked: &Asked, priced: &mut Priced) {
        let value = self.cell(self.rows.len(), self.core.grid.len() - 1);
        let above = asked.above[height];
        let better = priced.values.last().is_none_or(|&(lower, worth)| value > worth || above < asked.above[lower]);
        priced.values.push((height, value));
        if value > above && better {
            let share = (value - above) / float(self.core.heights[height]);
            priced.patterns.push((share, self.best(height)));
        }
    }

    /// The pieces of the best strip under all rows.
    fn best(&self, height: usize) -> Pattern {
        let mut place = self.core.grid.len() - 1;
        let mut pieces: Vec<(usize, u64)> = Vec::new();
        let mut row = self.rows.len();
        while row > 0 {
            let Row { kind, width, mut times, endless, uneven, .. } = self.rows[row - 1];
            if self.cell(row, place) == self.cell(row - 1, place) {
                row -= 1;
                continue;
            }
            let mut before = self.core.grid.before(place, width * times).unwrap_or(0);
            if let Some(worths) = uneven.and_then(|uneven| self.worths.get(uneven)) {
                let rest = |place: usize, times: usize| self.cell(row - 1, place) + worths[times];
                let mut count = 1;
                while rest(before, count) != self.cell(row, place) && count + 1 < worths.len() {
                    count += 1;
                    before = self.core.grid.before(before, width).unwrap_or(0);
                }
                times = number(count);
            }
            match pieces.last_mut() {
                Some((last, count)) if *last == kind => *count += times,
                _ => pieces.push((kind, times)),
            }
            place = before;
            if !endless {
                row -= 1;
            }
        }
        merge(&mut pieces);
        Pattern { height, pieces }
    }
}
