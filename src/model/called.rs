//! What units are called that nobody has named: the planner's names mean nothing to those who sew, so the packet calls such units by their marks.

use super::Model;
use crate::pattern::Pattern;

/// Calls the units that nobody has named by their marks: `A`, and `A 1`, `A 2` where they stand in several places.
///
/// `pattern` is the pattern of this model, its patches planned: units without a name of their own stand at the name of their block.
pub fn call_by_marks(pattern: &Pattern, model: &mut Model) {
    for (source, block) in pattern.blocks.iter().zip(&mut model.blocks) {
        let nameless: Vec<&str> =
            source.units.iter().filter(|unit| unit.span == source.span).map(|unit| unit.name.as_str()).collect();
        for index in 0..block.units.len() {
            let (name, mark) = (block.units[index].name.clone(), block.units[index].mark.clone());
            if !nameless.contains(&name.as_str()) || block.units.iter().any(|unit| unit.name == mark) {
                continue;
            }
            block.units[index].name.clone_from(&mark);
            let renamed = |text: &str| text.strip_prefix(name.as_str()).map(|rest| format!("{mark}{rest}"));
            let variants: Vec<bool> = block.variants.iter().map(|variant| variant.unit == index).collect();
            for variant in block.variants.iter_mut().filter(|variant| variant.unit == index) {
                variant.id = renamed(&variant.id).unwrap_or_else(|| variant.id.clone());
            }
            for place in block.placements.iter_mut().filter(|place| variants.get(place.variant) == Some(&true)) {
                place.id = renamed(&place.id).unwrap_or_else(|| place.id.clone());
                place.name = renamed(&place.name).unwrap_or_else(|| place.name.clone());
            }
        }
    }
}
