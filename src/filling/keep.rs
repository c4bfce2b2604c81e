//! Foundations kept where they were in the last release, where that costs no sheet.

use super::core::{Core, Item, Plan, Sheet, TINY};
use super::greedy::Filler;
use super::nearest::overlap;
use super::number::Steps;
use super::{Filled, FormerSheet, Place, Task, Wish, fill, nearest, solve, told};
use crate::geometry::Polygon;

/// Former places stand that reach out of the page or into each other by no more than this, in inches.
const NEAR: f64 = 3e-5;

/// Lays all copies, those of former sheets where they were; what [`fill`] says where that is better by the first wish.
///
/// Places that no longer stand (outside the page, too near to one before, of a shape that is gone, turned as is not allowed) are as if they were missing. Copies too many are dropped.
///
/// # Errors
/// As for [`fill`].
pub fn fill_keeping(task: &Task, former: &[FormerSheet]) -> Result<Filled, usize> {
    let anew = fill(task)?;
    let mut core = Core::new(task)?;
    let mut sheets: Vec<Sheet> = former.iter().map(|sheet| standing(&mut core, task, sheet)).collect();
    let mut left = core.copies.clone();
    for sheet in &mut sheets {
        settle(&core, sheet, &mut left);
    }
    sheets.retain(|sheet| !sheet.items.is_empty() && sheet.times > 0);
    if sheets.is_empty() {
        return Ok(anew);
    }
    let mut steps = Steps::new(task.effort.0 / 4);
    let mut filler = Filler::new(&core);
    let order = core.by_area();
    for sheet in &mut sheets {
        let before = core.counts(&sheet.items);
        let wanted: Vec<u32> = left.iter().map(|more| more.div_ceil(sheet.times).saturating_mul(sheet.times)).collect();
        filler.fill_up(&mut sheet.items, &order, &wanted, sheet.times, &mut steps);
        for (shape, count) in core.counts(&sheet.items).into_iter().enumerate() {
            left[shape] = left[shape].saturating_sub((count - before[shape]).saturating_mul(sheet.times));
        }
    }
    core.copies = left;
    sheets.extend(solve(&core, task).sheets);
    core.copies = task.shapes.iter().map(|shape| shape.copies).collect();
    let kept = Filled { kept: true, ..told(&core, &Plan { sheets }) };
    let worse = match task.wish {
        Wish::FewestPrinted if task.page.medium == super::Medium::Roll => kept.length() > anew.length() + TINY,
        Wish::FewestPrinted => kept.printed() > anew.printed(),
        Wish::FewestDifferent { .. } => kept.printed() > anew.printed() || kept.different() > anew.different(),
    };
    Ok(if worse { anew } else { kept })
}

/// What of a former sheet stands.
fn standing(core: &mut Core, task: &Task, former: &FormerSheet) -> Sheet {
    let mut laid: Vec<Polygon> = Vec::new();
    let mut sheet = Sheet { items: Vec::new(), times: former.times };
    for place in &former.places {
        let Some((item, outline)) = item(core, task, place) else { continue };
        let beside = |other: &Polygon| nearest(other, &outline) >= core.gap - NEAR && !overlap(other, &outline, NEAR);
        if laid.iter().all(beside) {
            laid.push(outline);
            sheet.items.push(item);
        }
    }
    sheet
}

/// A former place as an item, and the outline there.
fn item(core: &mut Core, task: &Task, place: &Place) -> Option<(Item, Polygon)> {
    let shape = task.shapes.get(place.shape).filter(|shape| shape.copies > 0)?;
    let variant = core.add_as_is(place.shape, place.turn, task.turning)?;
    let at = place.shift + -core.variants[variant].origin;
    let (width, height) = (core.variants[variant].width, core.variants[variant].height);
    let within = at.x >= -NEAR
        && at.y >= -NEAR
        && at.x + width <= core.page.width + NEAR
        && at.y + height <= core.page.height + NEAR;
    within.then(|| (Item { variant, x: at.x, y: at.y }, place.transform().apply_to_polygon(&shape.outline)))
}

/// Drops copies too many from a sheet and prints it no more often than it is wanted; takes what it gives from what is left.
fn settle(core: &Core, sheet: &mut Sheet, left: &mut [u32]) {
    let mut counts = vec![0_u32; left.len()];
    let times = sheet.times;
    sheet.items.retain(|item| {
        let shape = core.shape(item);
        let wanted = counts[shape].saturating_mul(times) < left[shape];
        counts[shape] += u32::from(wanted);
        wanted
    });
    let needed = |(shape, &count): (usize, &u32)| if count == 0 { 0 } else { left[shape].div_ceil(count) };
    sheet.times = times.min(counts.iter().enumerate().map(needed).max().unwrap_or(0));
    for (more, count) in left.iter_mut().zip(counts) {
        *more = more.saturating_sub(count.saturating_mul(sheet.times));
    }
}
