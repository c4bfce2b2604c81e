//! Cloth that comes off a bolt: the plan, and what to buy.

use crate::cutting::{Layout, few_widths, strips};
use crate::geometry::Length;
use crate::model::{Amount, Purchase};
use crate::pattern::{CuttingPlan, fat_eighth, fat_quarter, shop_step};

use super::{Planned, Planner};

/// A plan with few widths of strips may take so much more cloth than the shortest.
const DEARER: f64 = 0.1;

impl Planner<'_> {
    /// The plan for cloth in the first of these widths, and what to buy in each.
    pub(super) fn off_the_bolt(&self, widths: &[Length]) -> Planned {
        let width = widths.first().copied().unwrap_or(Length::inches(40.0));
        let shortest = strips(&self.items, width, self.budget());
        let few = (self.pattern.cloth.plan == CuttingPlan::FewWidths)
            .then(|| few_widths(&self.items, width, shortest.length * (1.0 + DEARER), self.budget()))
            .flatten();
        let price = few.as_ref().map(|few| few.length - shortest.length);
        let (bound, layout) = (shortest.lower_bound, few.unwrap_or(shortest));
        let others = widths.iter().skip(1).map(|&other| {
            // What fits narrower cloth fits wider cloth as well.
            let laid = strips(&self.items, other, self.budget());
            let length = if other >= width { laid.length.min(layout.length) } else { laid.length };
            (other, self.purchase(length))
        });
        Planned {
            other_widths: others.collect(),
            strips: self.all_told(&layout),
            sheet: (width, None),
            length: layout.length,
            lower_bound: bound.min(layout.length),
            fewest_sheets: None,
            price,
            buy: self.purchase(layout.length),
        }
    }

    /// What to buy for strips of this length together: it shrinks, it is squared up, and shops cut whole steps. And whether a fat quarter or a fat eighth
    /// is enough.
    pub(super) fn purchase(&self, length: Length) -> Purchase {
        let (cloth, units) = (&self.pattern.cloth, self.pattern.units);
        // Nothing is bought where all pieces are cut round motifs.
        let bought = if self.items.is_empty() { Length::ZERO } else { length * self.unwashed() + cloth.squaring };
        let small = !self.items.is_empty();
        Purchase {
            amount: Amount::Length(bought.rounded_up_to(shop_step(units))),
            fat_quarter: small && self.fits(fat_quarter(units)),
            fat_eighth: small && self.fits(fat_eighth(units)),
        }
    }

    /// Whether all pieces can be cut from one piece of cloth of this usable width and length.
    fn fits(&self, (width, length): (Length, Length)) -> bool {
        let washed = length / self.unwashed();
        if self.area() > width.to_inches() * washed.to_inches() {
            return false;
        }
        let Layout { length, too_wide, .. } = strips(&self.items, width, self.budget());
        too_wide.is_empty() && length <= washed
    }
}
