//! What to buy for the strips of a fabric.

use crate::cutting::{Item, Layout, strips};
use crate::geometry::Length;
use crate::model::{Amount, Purchase, Units};
use crate::pattern::{Pattern, Stock, fat_eighth, fat_quarter, shop_step};

/// The usable width of what strips are cut from.
pub(super) fn width(stock: &Stock, units: Units) -> Length {
    match stock {
        Stock::Bolt(widths) => widths.first().copied().unwrap_or(Length::inches(40.0)),
        Stock::FatQuarters => fat_quarter(units).0,
        Stock::FatEighths => fat_eighth(units).0,
    }
}

/// What to buy for a layout: the length off the bolt (with squaring up and shrinkage, rounded up to what shops cut), and whether a fat quarter or a fat
/// eighth is enough.
pub(super) fn purchase(pattern: &Pattern, items: &[Item], layout: &Layout) -> Purchase {
    let grown = 1.0 + pattern.cloth.shrinkage;
    let length = (layout.length * grown + pattern.cloth.squaring).rounded_up_to(shop_step(pattern.units));
    let fits = |(width, height): (Length, Length)| {
        let small = strips(items, width);
        small.too_wide.is_empty() && small.length * grown <= height
    };
    Purchase {
        amount: Amount::Length(length),
        fat_quarter: fits(fat_quarter(pattern.units)),
        fat_eighth: fits(fat_eighth(pattern.units)),
    }
}
