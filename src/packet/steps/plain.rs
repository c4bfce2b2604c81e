//! A plain piece: cut, marked, and that is all before it is joined.

use super::{BatchSteps, Move, Step};
use crate::model::{Block, Cut, Model, PrintDirection, Variant};
use crate::packet::measure::Measures;

/// The one step of a plain piece; `variants` holds its index among those of the block.
pub(super) fn batch(
    model: &Model,
    block: &Block,
    variant: &Variant,
    variants: Vec<usize>,
    measures: Measures<'_>,
) -> BatchSteps {
    let words = measures.words();
    let unit = block.unit_of(variant);
    let names: Vec<&str> = block
        .placements
        .iter()
        .filter(|placement| variants.contains(&placement.variant))
        .map(|placement| placement.name.as_str())
        .collect();
    let places = (names.len() > 1).then(|| words.steps_places(words.list(&names)));
    BatchSteps {
        variants,
        title: words.foundation(&variant.mark, &unit.name),
        intro: std::iter::once(words.plain_count(variant.sewn)).chain(places).collect(),
        notes: unit.notes.clone(),
        steps: step(model, variant, measures).into_iter().collect(),
        trim: Vec::new(),
    }
}

fn step(model: &Model, variant: &Variant, measures: Measures<'_>) -> Option<Step> {
    let words = measures.words();
    let fabric = *variant.fabrics.first()?;
    let cloth = model.fabrics.get(fabric)?;
    let allowance = measures.length(model.allowance);
    let mut cutting = vec![words.plain_cut(&allowance)];
    if cloth.print.direction != PrintDirection::None {
        cutting.push(words.plain_print());
        cutting.extend((variant.cuts.len() > 1).then(|| words.plain_several()));
    }
    let marking = words.plain_look(&variant.mark, allowance);
    Some(Step {
        title: words.section_heading(&variant.mark, &cloth.name),
        facts: facts(&variant.cuts, measures),
        text: vec![Move::new(words.move_cut(), &cutting), Move::new(words.move_mark(), &[marking])],
        cautions: Vec::new(),
        own: false,
        fabric: Some(fabric),
        flipped: false,
        notes: Vec::new(),
    })
}

/// The size, or the sizes by the turn in which the piece stands.
fn facts(cuts: &[Cut], measures: Measures<'_>) -> Vec<(String, String)> {
    let words = measures.words();
    let alike = cuts.iter().all(|cut| cuts.first().is_none_or(|f| (f.width, f.height) == (cut.width, cut.height)));
    let told = cuts.iter().take(if alike { 1 } else { cuts.len() }).map(|cut| {
        let size = words.fact_cut_exact(measures.exact_rectangle(cut.width, cut.height));
        let value = if alike { size } else { words.fact_cut_turned(size, measures.degrees(cut.turn)) };
        (words.fact_cut(), value)
    });
    told.collect()
}
