//! Pieces that may turn less than the pattern asks for.

use crate::fault::{Fault, sewing};
use crate::geometry::{Angle, Length};
use crate::pattern::{Pattern, Site, number_words};

use super::cuts::roomier;
use super::{Cut, Model, Units};

/// Warns of every section of which a piece may turn less than the pattern asks for, with the cut that may.
pub(super) fn little_turns(pattern: &Pattern, model: &Model, found: &mut Vec<(Site, Fault)>) {
    let Some(least) = pattern.least_turn else { return };
    for (index, (source, block)) in pattern.blocks.iter().zip(&model.blocks).enumerate() {
        let mut said = std::collections::BTreeSet::new();
        for (variant_index, variant) in block.variants.iter().enumerate().filter(|(_, of)| block.has_paper(of)) {
            let name = &block.unit_of(variant).name;
            let Some((unit_index, unit)) = source.units.iter().enumerate().find(|(_, unit)| unit.name == *name) else {
                continue;
            };
            // Strips of a pieced section are sewn end on end, not laid by eye.
            for cut in variant.cuts.iter().filter(|cut| cut.strip.is_none()) {
                let turn = least_of(cut);
                let Some(section) = unit.sections.get(cut.section) else { continue };
                // Of the ways in which a section is cut, the first one tells enough.
                if turn.to_degrees() >= least.to_degrees() - 1e-9 || !said.insert((unit_index, cut.section)) {
                    continue;
                }
                let cure = roomier(pattern, source, block, (variant_index, cut), least);
                let cure = cure.map(|(ease, roomy)| {
                    let line = format!("ease {} for {}", length(ease, model.units), cut.section + 1);
                    (size(cut, model.units), size(&roomy, model.units), line)
                });
                let words = cure.as_ref().map(|(now, wanted, line)| (now.as_str(), wanted.as_str(), line.as_str()));
                let (degrees, least) = (degrees(turn), number_words(least.to_degrees()));
                let fault = sewing::little_turn(section.span, (cut.section + 1, &degrees), &least, words);
                found.push((Site::section(index, unit_index, cut.section), fault));
            }
        }
    }
}

fn least_of(cut: &Cut) -> Angle {
    let [one, other] = cut.slack.turn;
    if one < other { one } else { other }
}

/// Degrees in tenths, never more than there are.
fn degrees(angle: Angle) -> String {
    number_words((angle.to_degrees() * 10.0 + 1e-6).floor() / 10.0)
}

/// The size of a cut as a source would write it: `3 1/4 in x 2 in`.
fn size(cut: &Cut, units: Units) -> String {
    format!("{} x {}", length(cut.width, units), length(cut.height, units))
}

fn length(length: Length, units: Units) -> String {
    match units {
        Units::Inches => format!("{} in", number_words(length.to_inches())),
        Units::Metric => format!("{} mm", number_words((length.to_millimetres() * 10.0).round() / 10.0)),
    }
}
