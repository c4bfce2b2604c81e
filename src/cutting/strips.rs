//! Pieces to be cut as a problem of [`super::stock`], in whole ten-thousandths of an inch or whole hundredths of a millimetre, and its plans as lengths
//! again.

use super::stock::{self, Budget, Demand, Plan, Problem};
use crate::geometry::Length;

/// Equal pieces to be cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Item {
    /// Width of a piece.
    pub width: Length,
    /// Height of a piece.
    pub height: Length,
    /// How many.
    pub count: u32,
    /// Whether it may be laid either way. Otherwise its height runs along the selvedge, or across it with `crosswise`.
    pub free: bool,
    /// Whether its height runs across the selvedge.
    pub crosswise: bool,
}

/// A piece in a strip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LaidPiece {
    /// Which, by index among the items.
    pub item: usize,
    /// How far from the end of the strip.
    pub x: Length,
    /// Whether its height runs along the strip.
    pub turned: bool,
}

/// A strip.
#[derive(Debug, Clone, PartialEq)]
pub struct LaidStrip {
    /// How wide it is cut, along the selvedge.
    pub width: Length,
    /// Its pieces, from one end to the other, the widest cuts of the strip in front.
    pub pieces: Vec<LaidPiece>,
}

/// Strips for all pieces of a fabric.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    /// The strips, widest first.
    pub strips: Vec<LaidStrip>,
    /// Their widths together.
    pub length: Length,
    /// No layout in strips is shorter.
    pub lower_bound: Length,
    /// The items of which a piece is longer than the fabric is wide, however it is laid: each of their pieces lies in a strip of its own.
    pub too_wide: Vec<usize>,
}

impl Layout {
    /// Whether no layout in strips is shorter.
    #[must_use]
    pub fn is_proved(&self) -> bool {
        self.lower_bound == self.length
    }
}

/// The whole units in which a problem is told. Cuts that are multiples of 5 mm are whole numbers in the one, those of 1/8 in in the other, and only whole
/// numbers have proofs that are exact.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Unit {
    /// Ten-thousandths of an inch.
    Inch,
    /// Hundredths of a millimetre.
    Metric,
}

impl Unit {
    /// Hundredths of a millimetre where all lengths are whole tenths of one.
    fn of(lengths: impl IntoIterator<Item = Length>) -> Self {
        let is_whole = |length: Length| {
            let tenths = length.to_millimetres() * 10.0;
            // Lengths that came by inches are known to a ten-thousandth of one.
            (tenths - tenths.round()).abs() < 0.02
        };
        let is_eighths = |length: Length| (length.to_inches() * 8.0).fract() == 0.0;
        let lengths: Vec<Length> = lengths.into_iter().collect();
        let metric =
            lengths.iter().all(|&length| is_whole(length)) && !lengths.iter().all(|&length| is_eighths(length));
        if metric { Self::Metric } else { Self::Inch }
    }

    /// So many of it has a length.
    fn count(self, length: Length) -> f64 {
        match self {
            Self::Inch => length.to_inches() * 10_000.0,
            Self::Metric => (length.to_millimetres() * 10.0).round() * 10.0,
        }
    }

    /// A length in whole units.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "floats saturate, and cuts are positive"
    )]
    fn whole(self, length: Length) -> u32 {
        self.count(length).round() as u32
    }

    /// The same, rounded down: for the length of a sheet, so that what fits it does fit.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "floats saturate, and sheets are positive"
    )]
    fn whole_down(self, length: Length) -> u32 {
        match self {
            Self::Inch => (length.to_inches() * 10_000.0 + 1e-6).floor() as u32,
            Self::Metric => (length.to_millimetres() * 100.0 + 1e-6).floor() as u32,
        }
    }

    #[expect(clippy::cast_precision_loss, reason = "lengths of cloth are far below the bounds")]
    fn length(self, whole: u64) -> Length {
        match self {
            Self::Inch => Length::inches(whole as f64 / 10_000.0),
            Self::Metric => Length::millimetres(whole as f64 / 100.0),
        }
    }
}

/// Lays all pieces in strips across cloth of this usable width.
#[must_use]
pub fn strips(items: &[Item], width: Length, budget: Budget) -> Layout {
    let table = Table::new(items, (width, None));
    let plan = stock::plan(&table.problem, budget).unwrap_or_else(|_| one_by_one(&table.problem));
    table.layout(&plan)
}

/// Lays all pieces in strips of as few different widths as are found, together no longer than `most`; none if none are found.
#[must_use]
pub fn few_widths(items: &[Item], width: Length, most: Length, budget: Budget) -> Option<Layout> {
    let table = Table::new(items, (width, None));
    let most = u64::from(table.unit.whole_down(most - table.longer()));
    let few = stock::few_heights(&table.problem, most, budget).ok().flatten()?;
    Some(table.layout(&few.plan))
}

/// Strips from sheets of cloth.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetLayout {
    /// The strips of each sheet, widest first.
    pub sheets: Vec<Vec<LaidStrip>>,
    /// No layout in strips takes fewer sheets.
    pub fewest: usize,
}

/// Lays all pieces in strips from sheets of this usable width and length; pieces that no sheet holds have one each for themselves.
#[must_use]
pub fn sheets(items: &[Item], (width, length): (Length, Length), budget: Budget) -> SheetLayout {
    let table = Table::new(items, (width, Some(length)));
    let alone = table.alone().map(|strip| vec![strip]);
    let Ok(planned) = stock::sheets(&table.problem, table.unit.whole_down(length), budget) else {
        let strips = table.layout(&one_by_one(&table.problem)).strips;
        return SheetLayout { sheets: strips.into_iter().map(|strip| vec![strip]).collect(), fewest: 1 };
    };
    let told = planned.sheets.iter().map(|sheet| sheet.strips.iter().flat_map(|strip| table.told(strip)).collect());
    let mut sheets: Vec<Vec<LaidStrip>> = told.collect();
    // Of as few sheets the shortest strips are the better ones, and sheets only look for few.
    let shortest = stock::plan(&table.problem, budget).map(|plan| table.problem_strips(&plan)).unwrap_or_default();
    if let Some(packed) = packed(shortest, length, sheets.len()) {
        sheets = packed;
    }
    sheets.extend(alone);
    let fewest = usize::try_from(planned.bound).unwrap_or(usize::MAX).saturating_add(table.alone().count());
    SheetLayout { fewest: fewest.min(sheets.len()), sheets }
}

/// Strips put into at most so many sheets of this length, each into the first that has room, the widest in front (Johnson 1973, first fit decreasing);
/// none where they do not fit.
fn packed(strips: Vec<LaidStrip>, length: Length, most: usize) -> Option<Vec<Vec<LaidStrip>>> {
    let mut sheets: Vec<(Length, Vec<LaidStrip>)> = Vec::new();
    for strip in strips {
        let slack = Length::inches(1e-6);
        if let Some((used, sheet)) = sheets.iter_mut().find(|(used, _)| *used + strip.width <= length + slack) {
            *used = *used + strip.width;
            sheet.push(strip);
        } else if sheets.len() < most {
            sheets.push((strip.width, vec![strip]));
        } else {
            return None;
        }
    }
    let complete = !sheets.is_empty();
    complete.then(|| sheets.into_iter().map(|(_, strips)| strips).collect())
}

/// Items on the cloth, as a problem in whole units.
struct Table<'i> {
    items: &'i [Item],
    unit: Unit,
    problem: Problem,
    /// The items that fit the cloth, in the order of the problem's demands.
    fitting: Vec<usize>,
    /// The others.
    too_wide: Vec<usize>,
}

impl<'i> Table<'i> {
    /// For cloth of this usable width, and of this usable length where that is not free.
    fn new(items: &'i [Item], (width, length): (Length, Option<Length>)) -> Self {
        let unit = Unit::of(items.iter().flat_map(|item| [item.width, item.height]).chain([width]));
        let (wide, high) = (unit.whole(width), length.map_or(u32::MAX, |length| unit.whole_down(length)));
        let sides = |item: &Item| {
            let (along, across) = (unit.whole(item.width), unit.whole(item.height));
            if is_swapped(item) { (across, along) } else { (along, across) }
        };
        let fits = |item: &Item| {
            let (along, across) = sides(item);
            (along <= wide && across <= high) || (item.free && across <= wide && along <= high)
        };
        let (fitting, too_wide): (Vec<usize>, Vec<usize>) = (0..items.len()).partition(|&index| fits(&items[index]));
        let demand = |&index: &usize| {
            let (width, height) = sides(&items[index]);
            Demand { width, height, count: items[index].count, turnable: items[index].free }
        };
        let problem = Problem { width: wide, demands: fitting.iter().map(demand).collect(), heights: None };
        Self { items, unit, problem, fitting, too_wide }
    }

    /// The strips of pieces that are too large, each by itself: the shorter side along the selvedge, where there is a choice.
    fn alone(&self) -> impl Iterator<Item = LaidStrip> {
        self.too_wide.iter().flat_map(|&index| {
            let item = &self.items[index];
            let turned = if item.free { item.height > item.width } else { item.crosswise };
            let width = if turned { item.width } else { item.height };
            let piece = LaidPiece { item: index, x: Length::ZERO, turned };
            std::iter::repeat_n(LaidStrip { width, pieces: vec![piece] }, item.count as usize)
        })
    }

    /// What the pieces that are too large take.
    fn longer(&self) -> Length {
        self.alone().map(|strip| strip.width).sum()
    }

    /// The strips of a plan, without the pieces that are too large.
    fn problem_strips(&self, plan: &Plan) -> Vec<LaidStrip> {
        plan.strips.iter().flat_map(|strip| self.told(strip)).collect()
    }

    fn layout(&self, plan: &Plan) -> Layout {
        Layout {
            strips: self.alone().chain(self.problem_strips(plan)).collect(),
            length: self.unit.length(plan.length) + self.longer(),
            lower_bound: self.unit.length(plan.bound) + self.longer(),
            too_wide: self.too_wide.clone(),
        }
    }

    /// A strip of the problem, as often as it is cut.
    fn told(&self, strip: &stock::Strip) -> impl Iterator<Item = LaidStrip> + use<> {
        let (mut pieces, mut x) = (Vec::new(), 0_u32);
        for run in &strip.pieces {
            let (Some(&item), Some(demand)) = (self.fitting.get(run.demand), self.problem.demands.get(run.demand))
            else {
                continue;
            };
            let along = if run.turned { demand.height } else { demand.width };
            for _ in 0..run.count {
                let turned = run.turned != is_swapped(&self.items[item]);
                pieces.push(LaidPiece { item, x: self.unit.length(u64::from(x)), turned });
                x = x.saturating_add(along);
            }
        }
        let one = LaidStrip { width: self.unit.length(u64::from(strip.height)), pieces };
        std::iter::repeat_n(one, strip.times as usize)
    }
}

/// Whether an item lies unturned in the problem when its height runs along the strip.
const fn is_swapped(item: &Item) -> bool {
    !item.free && item.crosswise
}

/// A plan that never fails: each piece in a strip of its own. For problems beyond all bounds.
fn one_by_one(problem: &Problem) -> Plan {
    let strip = |(demand, of): (usize, &Demand)| {
        let turned = of.width > problem.width;
        let height = if turned { of.width } else { of.height };
        stock::Strip { height, pieces: vec![stock::Pieces { demand, turned, count: 1 }], times: of.count }
    };
    let strips: Vec<stock::Strip> = problem.demands.iter().enumerate().map(strip).collect();
    let length = strips.iter().map(|strip| u64::from(strip.height) * u64::from(strip.times)).sum();
    Plan { strips, length, bound: 0, proved: false }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{Item, strips};
    use crate::cutting::stock::Budget;
    use crate::geometry::Length;

    fn item(width: f64, height: f64, count: u32, free: bool, crosswise: bool) -> Item {
        Item { width: Length::inches(width), height: Length::inches(height), count, free, crosswise }
    }

    #[test]
    fn what_is_longer_than_the_fabric_is_wide_lies_by_itself() {
        let forty = Length::inches(40.0);
        let laid = strips(&[item(50.0, 45.0, 2, true, false), item(4.0, 3.0, 10, true, false)], forty, Budget::USUAL);
        assert_eq!(laid.too_wide, [0]);
        assert_eq!((laid.strips.len(), laid.length.to_inches()), (3, 93.0));
        assert!(laid.is_proved());
        assert!(strips(&[item(50.0, 3.0, 1, true, false)], forty, Budget::USUAL).too_wide.is_empty());
        assert_eq!(strips(&[item(50.0, 3.0, 1, false, false)], forty, Budget::USUAL).too_wide, [0]);
        assert!(strips(&[item(50.0, 3.0, 1, false, true)], forty, Budget::USUAL).too_wide.is_empty());
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]

        #[test]
        fn every_piece_lies_in_one_strip_without_overlap(
            sizes in proptest::collection::vec((1u32..80, 1u32..80, 1u32..9, any::<bool>(), any::<bool>()), 1..8),
        ) {
            let sized = |&(w, h, n, free, crosswise): &(u32, u32, u32, bool, bool)| {
                item(f64::from(w) / 8.0, f64::from(h) / 8.0, n, free, crosswise)
            };
            let items: Vec<Item> = sizes.iter().map(sized).collect();
            let width = Length::inches(21.0);
            let layout = strips(&items, width, Budget::USUAL);
            let mut counts = vec![0_u32; items.len()];
            for strip in &layout.strips {
                let mut end = 0.0;
                for piece in &strip.pieces {
                    let item = items[piece.item];
                    let (along, across) = if piece.turned { (item.height, item.width) } else { (item.width, item.height) };
                    prop_assert!(item.free || piece.turned == item.crosswise);
                    prop_assert!(piece.x.to_inches() >= end - 1e-9 && across <= strip.width);
                    end = (piece.x + along).to_inches();
                    counts[piece.item] += 1;
                }
                prop_assert!(end <= width.to_inches() + 1e-9);
            }
            prop_assert_eq!(counts, items.iter().map(|item| item.count).collect::<Vec<_>>());
            prop_assert!(layout.lower_bound <= layout.length);
        }
    }
}
