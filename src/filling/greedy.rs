//! First plans: page after page is filled with the largest shapes first, each where it lies highest, and printed as often as it is wanted whole.

use super::Medium;
use super::core::{Core, Item, Plan, Sheet};
use super::nofit::NoFits;
use super::number::Steps;
use super::page::Arrangement;

/// No page is filled with more items than this.
const MOST_ITEMS: usize = 4_000;
/// Pages with more items than this are filled in rows.
const CAREFUL: usize = 80;

/// What fills pages: the no-fit polygons and the room to work in.
#[derive(Debug)]
pub(super) struct Filler<'a> {
    pub core: &'a Core,
    pub nofits: NoFits,
    pub arrangement: Arrangement,
    /// What a place further right counts beside one further down.
    pub slant: f64,
}

impl<'a> Filler<'a> {
    pub fn new(core: &'a Core) -> Self {
        Self { core, nofits: NoFits::new(core), arrangement: Arrangement::default(), slant: 0.1 }
    }

    /// Lays one more of a shape where it ends highest, of those leftmost.
    pub fn lay(&mut self, items: &mut Vec<Item>, shape: usize, height: f64, steps: &mut Steps) -> bool {
        let core = self.core;
        let mut best: Option<(f64, Item)> = None;
        for &variant in &core.of_shape[shape] {
            let outline = &core.variants[variant];
            if outline.height > height + super::core::TINY {
                continue;
            }
            self.arrangement.begin(core, variant, height);
            for item in items.iter() {
                self.arrangement.add(core, &mut self.nofits, item, variant, 1.0);
            }
            let slant = self.slant;
            let found = self.arrangement.best(steps, |x, y| y + outline.height + (x + outline.width) * slant);
            if let Some((value, x, y)) = found
                && best.is_none_or(|(least, _)| value < least - super::core::TINY)
            {
                best = Some((value, Item { variant, x, y }));
            }
        }
        items.extend(best.map(|(_, item)| item));
        best.is_some()
    }

    /// Fills up a page with what is left, in this order of shapes, each as often as it is left for `times` sheets.
    pub fn fill_up(&mut self, items: &mut Vec<Item>, order: &[usize], left: &[u32], times: u32, steps: &mut Steps) {
        for &shape in order {
            let mut more = left[shape] / times.max(1);
            while more > 0
                && items.len() < CAREFUL
                && steps.are_left()
                && self.lay(items, shape, self.core.page.height, steps)
            {
                more -= 1;
            }
        }
    }

    /// Sheets for what is left.
    pub fn sheets(&mut self, mut left: Vec<u32>, steps: &mut Steps) -> Vec<Sheet> {
        let core = self.core;
        let order = core.by_area();
        let mut sheets = Vec::new();
        while left.iter().any(|&more| more > 0) {
            let mut items = Vec::new();
            if steps.are_left() {
                self.fill_up(&mut items, &order, &left, 1, steps);
            }
            if items.len() >= CAREFUL || items.is_empty() {
                let rows = rows(core, &order, &left);
                if rows.len() > items.len() {
                    items = rows;
                }
            }
            let counts = core.counts(&items);
            let times =
                counts.iter().zip(&left).filter(|(count, _)| **count > 0).map(|(count, more)| more / count).min();
            let Some(times) = times else { break };
            for (more, count) in left.iter_mut().zip(&counts) {
                *more -= count * times;
            }
            sheets.push(Sheet { items, times });
        }
        sheets
    }
}

/// What a place further right counts beside one further down, in first plans.
const SLANTS: [f64; 5] = [0.1, 0.02, 0.5, 2.0, 20.0];

/// A first plan: the best of a few.
pub(super) fn plan(core: &Core, steps: &mut Steps) -> Plan {
    let mut filler = Filler::new(core);
    let mut best: Option<Plan> = None;
    let cost = |plan: &Plan| match core.page.medium {
        Medium::Pages => f64::from(plan.printed()),
        Medium::Roll => super::roll::length(core, plan),
    };
    for slant in SLANTS {
        if best.is_some() && !steps.are_left() {
            break;
        }
        filler.slant = slant;
        let plan = Plan { sheets: filler.sheets(core.copies.clone(), steps) };
        let better = best.as_ref().is_none_or(|best| {
            let order = cost(&plan).total_cmp(&cost(best));
            order.then(plan.sheets.len().cmp(&best.sheets.len())).is_lt()
        });
        if better {
            best = Some(plan);
        }
    }
    best.unwrap_or_default()
}

/// A page filled in rows, upright rectangle beside upright rectangle: for many small shapes, and where no steps are left.
fn rows(core: &Core, order: &[usize], left: &[u32]) -> Vec<Item> {
    let mut items: Vec<Item> = Vec::new();
    let (mut x, mut y, mut below) = (0.0, 0.0, 0.0_f64);
    for &shape in order {
        let Some(&variant) = core.of_shape[shape].first() else { continue };
        let outline = &core.variants[variant];
        for _ in 0..left[shape] {
            if items.len() >= MOST_ITEMS {
                return items;
            }
            if x + outline.width > core.page.width && x > 0.0 {
                (x, y) = (0.0, below);
            }
            if y + outline.height > core.page.height && !items.is_empty() {
                break;
            }
            items.push(Item { variant, x, y });
            x += outline.width + core.gap;
            below = below.max(y + outline.height + core.gap);
        }
    }
    items
}
