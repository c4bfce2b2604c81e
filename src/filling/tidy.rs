//! Plans made tidy: nothing that is spare, nothing that hangs in the middle of a page.

use super::core::{Core, Item, Plan};
use super::nofit::NoFits;
use super::number::Steps;
use super::page::Arrangement;

/// Pages with more items than this are left as they are.
const MOST_ITEMS: usize = 60;
/// How often all items of a page are moved up.
const PASSES: usize = 3;
/// What an inch to the right counts beside one down.
const RIGHT: f64 = 0.02;

/// Takes out what is spare and prints nothing in vain, moves all up and to the left, and puts the fullest sheets first.
pub(super) fn tidy(core: &Core, plan: &mut Plan) {
    trim(core, plan);
    let mut nofits = NoFits::new(core);
    let mut arrangement = Arrangement::default();
    for sheet in &mut plan.sheets {
        if sheet.items.len() <= MOST_ITEMS {
            lift(core, &mut sheet.items, &mut nofits, &mut arrangement);
        }
    }
    let area = |items: &[Item]| items.iter().map(|item| core.areas[core.shape(item)]).sum::<f64>();
    plan.sheets.sort_by(|a, b| area(&b.items).total_cmp(&area(&a.items)));
}

/// Prints each sheet only as often as it is needed, then drops items of which enough are printed without them.
pub(super) fn trim(core: &Core, plan: &mut Plan) {
    let mut covered = vec![0_u64; core.copies.len()];
    for sheet in &plan.sheets {
        for item in &sheet.items {
            covered[core.shape(item)] += u64::from(sheet.times);
        }
    }
    let wanted: Vec<u64> = core.copies.iter().map(|&copies| u64::from(copies)).collect();
    for sheet in plan.sheets.iter_mut().rev() {
        let counts = core.counts(&sheet.items);
        let spare = counts.iter().enumerate().filter(|(_, count)| **count > 0);
        let times =
            spare.map(|(shape, &count)| (covered[shape] - wanted[shape].min(covered[shape])) / u64::from(count)).min();
        let times = u32::try_from(times.unwrap_or(0)).unwrap_or(u32::MAX).min(sheet.times);
        sheet.times -= times;
        for (covered, count) in covered.iter_mut().zip(counts) {
            *covered -= u64::from(count) * u64::from(times);
        }
        let times = u64::from(sheet.times);
        sheet.items.retain(|item| {
            let shape = core.shape(item);
            let spare = covered[shape] >= wanted[shape] + times;
            if spare {
                covered[shape] -= times;
            }
            !spare
        });
    }
    plan.sheets.retain(|sheet| sheet.times > 0 && !sheet.items.is_empty());
}

/// Moves items to where they lie higher, of those further left.
fn lift(core: &Core, items: &mut [Item], nofits: &mut NoFits, arrangement: &mut Arrangement) {
    let mut steps = Steps::new(u64::MAX);
    for _ in 0..PASSES {
        let mut moved = false;
        items.sort_by(|a, b| a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x)));
        for i in 0..items.len() {
            let own = items[i];
            arrangement.begin(core, own.variant, core.page.height);
            for (j, other) in items.iter().enumerate() {
                if j != i {
                    arrangement.add(core, nofits, other, own.variant, 1.0);
                }
            }
            let score = |x: f64, y: f64| y + RIGHT * x;
            if let Some((value, x, y)) = arrangement.best(&mut steps, score)
                && value < score(own.x, own.y) - 1e-6
            {
                items[i] = Item { x, y, ..own };
                moved = true;
            }
        }
        if !moved {
            break;
        }
    }
}
