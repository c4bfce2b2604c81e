//! Cloth that comes in fat quarters or eighths: the plan, and how many to buy.

use crate::cutting::sheets;
use crate::geometry::Length;
use crate::model::{Amount, Purchase, Strip};
use crate::pattern::{Stock, fat_eighth, fat_quarter};

use super::{Planned, Planner};

impl Planner<'_> {
    /// The plan for fat quarters, or eighths, with as few of them as are found.
    pub(super) fn in_sheets(&self) -> Planned {
        let units = self.pattern.units;
        let eighths = *self.stock == Stock::FatEighths;
        let (width, usable) = if eighths { fat_eighth(units) } else { fat_quarter(units) };
        let layout = sheets(&self.items, (width, usable / self.unwashed()), self.budget());
        let count = u32::try_from(layout.sheets.len()).unwrap_or(u32::MAX);
        let strips: Vec<Strip> = layout
            .sheets
            .iter()
            .enumerate()
            .flat_map(|(sheet, strips)| strips.iter().map(move |strip| self.told(strip, sheet)))
            .collect();
        let length: Length = strips.iter().map(|strip| strip.width).sum();
        let by_area = Length::inches(self.area() / width.to_inches());
        Planned {
            strips,
            sheet: (width, Some(usable)),
            length,
            lower_bound: by_area.min(length),
            fewest_sheets: Some(layout.fewest),
            price: None,
            buy: Purchase {
                amount: if eighths { Amount::FatEighths(count) } else { Amount::FatQuarters(count) },
                fat_quarter: count == 1 && !eighths,
                fat_eighth: count == 1 && eighths,
            },
            other_widths: Vec::new(),
        }
    }
}
