//! What no filling can beat.

use super::core::{Core, TINY};
use super::number::whole;

/// No filling prints fewer sheets: all copies, each with half the gap round it, have together the area of so many pages with half the gap round them.
pub(super) fn printed(core: &Core) -> u32 {
    let area: f64 = core.areas.iter().zip(&core.copies).map(|(area, &copies)| area * f64::from(copies)).sum();
    let pages = if core.room > 0.0 { (area / core.room - TINY).ceil() } else { 0.0 };
    whole(pages).max(u32::from(core.total() > 0))
}

/// No filling has fewer different sheets.
pub(super) fn different(core: &Core) -> u32 {
    u32::from(core.total() > 0)
}

/// No filling of a roll is shorter: the areas of all copies over the width. Nothing is told for pages.
pub(super) fn length(core: &Core) -> f64 {
    if core.page.medium == super::Medium::Pages || core.page.width <= 0.0 {
        return 0.0;
    }
    let copies = core.copies.iter().zip(&core.outlines);
    copies.map(|(&copies, outline)| outline.area() * f64::from(copies)).sum::<f64>() / core.page.width
}
