//! The whole packet of a model: pages, sheets, figures, chart and steps.

use crate::geometry::Length;
use crate::model::Model;

use super::chart::{self, Chart};
use super::cover;
use super::figure::{View, block_front, join_front, unit_map};
use super::measure::Measures;
use super::page::Page;
use super::sheets::{Sheet, sheets};
use super::steps::{Steps, steps};
use super::words::Words;

/// How wide figures are, in inches.
const FIGURE: Length = Length::inches(3.2);

/// A packet.
#[derive(Debug, Clone, PartialEq)]
pub struct Packet {
    /// The printed pages: cover, chart, sheets.
    pub pages: Vec<Page>,
    /// The sheets among them.
    pub sheets: Vec<Sheet>,
    /// The chart in words.
    pub chart: Chart,
    /// The steps in words.
    pub steps: Steps,
    /// The figures of each block.
    pub figures: Vec<BlockFigures>,
    /// Facts at a glance: what, and the value.
    pub facts: Vec<(String, String)>,
    /// The technique, a paragraph each.
    pub primer: Vec<String>,
    /// The cautions; the first introduces the others.
    pub cautions: Vec<String>,
}

/// The figures of a block.
#[derive(Debug, Clone, PartialEq)]
pub struct BlockFigures {
    /// From the front.
    pub front: Page,
    /// Its units.
    pub map: Page,
    /// By foundation: reduced.
    pub foundations: Vec<Page>,
    /// By foundation and section: from the front, from the printed side.
    pub steps: Vec<Vec<(Page, Page)>>,
    /// By join.
    pub joins: Vec<Page>,
}

/// Composes the packet of a model. `progress` is told what is being done.
#[must_use]
pub fn compose(model: &Model, words: &Words, progress: &mut dyn FnMut(&str)) -> Packet {
    let measures = Measures::new(words, model.units);
    progress("filling sheets");
    let sheets = sheets(model, words);
    progress("drawing figures");
    let figures = figures(model, words);
    progress("writing steps");
    let chart = chart::chart(model, measures);
    let steps = steps(model, measures);
    let facts = facts(model, measures);
    let cautions = cautions(words);
    let mut pages = cover::pages(model, &facts, &cautions, words);
    pages.extend(chart::pages(model, &chart, measures));
    pages.extend(sheets.iter().map(|sheet| sheet.page.clone()));
    Packet { pages, sheets, chart, steps, figures, facts, primer: primer(model, measures), cautions }
}

fn figures(model: &Model, words: &Words) -> Vec<BlockFigures> {
    let blocks = model.blocks.iter().map(|block| {
        let views: Vec<View<'_>> =
            block.variants.iter().map(|variant| View { model, block, variant, width: FIGURE, words }).collect();
        BlockFigures {
            front: block_front(model, block, FIGURE, words),
            map: unit_map(model, block, FIGURE, words),
            foundations: views.iter().map(View::foundation_reduced).collect(),
            steps: views
                .iter()
                .map(|view| {
                    let sections = 0..block.unit_of(view.variant).sections.len();
                    sections.map(|k| (view.step_front(k), view.step_printed(k))).collect()
                })
                .collect(),
            joins: block.joins.iter().map(|join| join_front(model, block, join, FIGURE, words)).collect(),
        }
    });
    blocks.collect()
}

fn facts(model: &Model, measures: Measures<'_>) -> Vec<(String, String)> {
    let words = measures.words();
    let mut facts = Vec::new();
    for block in &model.blocks {
        let size = if block.copies > 1 {
            words.facts_block_copies(&block.finished, block.copies)
        } else {
            block.finished.clone()
        };
        let name = if model.blocks.len() > 1 { words.facts_block(&block.name) } else { words.facts_finished() };
        facts.push((name, size));
    }
    let variants = || model.blocks.iter().flat_map(|block| block.variants.iter().map(move |variant| (block, variant)));
    let foundations: u32 = variants().map(|(_, variant)| variant.sewn).sum();
    let pieces = variants().map(|(block, variant)| {
        u32::try_from(block.unit_of(variant).sections.len()).unwrap_or(u32::MAX).saturating_mul(variant.sewn)
    });
    let pieces = pieces.fold(0, u32::saturating_add);
    let joins = model.blocks.iter().map(|block| block.joins.len() * block.copies as usize);
    let joins: usize = joins.sum();
    facts.extend([
        (words.facts_foundations(), words.facts_count(foundations)),
        (words.facts_sections(), words.facts_count(pieces)),
        (words.facts_joins(), words.facts_count(joins)),
        (words.facts_fabrics(), words.facts_count(model.cutting.len())),
        (words.facts_allowance(), measures.length(model.allowance)),
    ]);
    facts.extend(model.facts.licence.clone().map(|licence| (words.facts_terms(), licence)));
    facts
}

fn primer(model: &Model, measures: Measures<'_>) -> Vec<String> {
    let words = measures.words();
    let allowance = measures.length(model.allowance);
    vec![
        words.primer_print(),
        words.primer_sides(),
        words.primer_machine(),
        words.primer_first(&allowance),
        words.primer_order(),
        words.primer_fold(&allowance),
        words.primer_sew(),
        words.primer_look(&allowance),
        words.primer_press(),
        words.primer_trim(),
        words.primer_paper(),
    ]
}

fn cautions(words: &Words) -> Vec<String> {
    vec![
        words.cautions_intro(),
        words.caution_cutter(),
        words.caution_iron(),
        words.caution_print(),
        words.caution_tape(),
        words.caution_bleed(),
        words.caution_needle(),
        words.caution_pins(),
        words.caution_magnets(),
        words.caution_children(),
    ]
}
