//! A model of which only a part is sewn: one unit, with the cutting that it takes. What is left out keeps its place, so that edges still say what
//! they meet.

use super::{Model, cutting};
use crate::pattern::Pattern;

/// Keeps the unit of this name in all blocks: the others are sewn no times, and nothing is cut for them.
///
/// `pattern` is the pattern of this model. O(pieces).
pub fn keep_unit(pattern: &Pattern, model: &mut Model, unit: &str) {
    for block in &mut model.blocks {
        let units = &block.units;
        for variant in &mut block.variants {
            if units.get(variant.unit).is_none_or(|of| of.name != unit) {
                variant.sewn = 0;
                variant.cuts.iter_mut().for_each(|cut| cut.count = 0);
            }
        }
    }
    model.cutting = cutting::cutting(pattern, &model.blocks);
    model.in_colourings.clear();
}
