//! The whole packet of a model: what it says, its printed pages on each paper, its figures.

use crate::geometry::Length;
use crate::model::{Block, Model, Paper, Variant};

use super::chart;
use super::contents::{self, Audience, Desk, Extent};
use super::document::Document;
use super::figure::{
    MotifWindow, View, block_coloured, block_front, cloth, colouring_page, join_front, order_front, primer, unit_map,
    windows,
};
use super::layout::{self, Laid};
use super::leaf::{Area, Leaf};
use super::measure::Measures;
use super::page::Page;
use super::sheets::{Former, Printing, sheets};
use super::steps::{Steps, steps};
use super::words::Words;

/// How wide the figure of a step is.
const STEP: Length = Length::inches(1.72);
/// How wide it is where a step shows the printed side in either hand: three stand in a row.
const STEP_IN_BOTH_HANDS: Length = Length::inches(1.38);
/// How wide a plain piece is drawn: it stands alone, and is often long.
const PLAIN: Length = Length::inches(3.4);
/// How wide the figure of a join is.
const JOIN: Length = Length::inches(3.4);
/// How wide the figures of the technique are.
const PRIMER: Length = Length::inches(2.1);
/// How wide the block is drawn from the front, and its units.
const FRONT: Length = Length::inches(5.0);
/// How wide the block is drawn to be coloured.
const OUTLINE: Length = Length::inches(6.4);
/// How wide each colouring is drawn.
const COLOURING: Length = Length::inches(3.3);
/// How wide a foundation is drawn for a screen.
const REDUCED: Length = Length::inches(2.6);

/// What is asked of a packet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Brief {
    /// For whom it is.
    pub audience: Audience,
    /// How much of it is made.
    pub extent: Extent,
}

/// A packet.
#[derive(Debug, Clone, PartialEq)]
pub struct Packet {
    /// What it says, with the sheets of the main paper.
    pub document: Document,
    /// Its printed pages, on each paper that the model asks for, the main one in front.
    pub prints: Vec<Print>,
    /// The steps in words.
    pub steps: Steps,
    /// The figures of each block.
    pub figures: Vec<BlockFigures>,
    /// The cloth of each fabric to scale, as in [`Model::cutting`].
    pub cloth: Vec<Vec<Page>>,
    /// The windows by which motifs are cut.
    pub windows: Vec<MotifWindow>,
}

/// The printed packet on one paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Print {
    /// The paper.
    pub paper: Paper,
    /// The sheets of foundations.
    pub printing: Printing,
    /// All pages, those sheets among them.
    pub leaves: Vec<Leaf>,
    /// By page: what stands where.
    pub areas: Vec<Vec<Area>>,
}

/// The figures of a block.
#[derive(Debug, Clone, PartialEq)]
pub struct BlockFigures {
    /// From the front.
    pub front: Page,
    /// Its units.
    pub map: Page,
    /// In outline.
    pub outline: Page,
    /// By colouring besides the one that is built.
    pub colourings: Vec<Page>,
    /// By foundation: reduced.
    pub foundations: Vec<Page>,
    /// By foundation and section.
    pub steps: Vec<Vec<StepFigures>>,
    /// By pass of [`Block::passes`]: where a ring or an inset corner begins, its order; then what is sewn.
    pub joins: Vec<Vec<Page>>,
}

/// The figures of the step of a section.
#[derive(Debug, Clone, PartialEq)]
pub struct StepFigures {
    /// From the front; of a plain piece, the piece itself.
    pub front: Page,
    /// From the printed side; none of a plain piece.
    pub printed: Option<Page>,
    /// The strips of a pieced section, sewn together; none of others.
    pub strips: Option<Page>,
}

/// Composes the packet of a model; foundations stay where they lay on the sheets of a former packet where that takes no more paper. `progress` is told what is being done.
#[must_use]
pub fn compose(
    model: &Model,
    brief: Brief,
    words: &Words,
    former: Option<&Former>,
    progress: &mut dyn FnMut(&str),
) -> Packet {
    let measures = Measures::new(words, model.units);
    progress("drawing figures");
    let figures: Vec<BlockFigures> =
        model.blocks.iter().map(|block| block_figures(model, block, brief, measures)).collect();
    let drawn = match brief.extent {
        Extent::Whole => primer(PRIMER, words),
        Extent::Sheets => Vec::new(),
    };
    progress("writing steps");
    let windows = windows(model, words);
    let chart = chart::chart(model, &windows, measures);
    let cloth: Vec<Vec<Page>> = model.cutting.iter().map(|cutting| cloth(model, cutting, measures)).collect();
    let steps = steps(model, measures);
    let mut documents = Vec::with_capacity(model.papers.len());
    for &paper in &model.papers {
        progress("filling sheets");
        let on_paper = Model { paper, ..model.clone() };
        let printing = sheets(&on_paper, words, brief.audience, former);
        let desk = Desk {
            model: &on_paper,
            audience: brief.audience,
            extent: brief.extent,
            measures,
            chart: &chart,
            cloth: &cloth,
            steps: &steps,
            figures: &figures,
            primer: &drawn,
            printing: &printing,
        };
        let document = contents::document(&desk);
        progress("setting pages");
        let Laid { leaves, areas } = layout::laid(&document, paper, words);
        documents.push((document, Print { paper, printing, leaves, areas }));
    }
    let (mut said, prints): (Vec<Document>, Vec<Print>) = documents.into_iter().unzip();
    let document = if said.is_empty() { Document::default() } else { said.swap_remove(0) };
    Packet { document, prints, steps, figures, cloth, windows }
}

fn block_figures(model: &Model, block: &Block, brief: Brief, measures: Measures<'_>) -> BlockFigures {
    let words = measures.words();
    let whole = brief.extent == Extent::Whole;
    let view = |variant, width| View { model, block, variant, width, words };
    // What is not sewn is not shown either.
    let shown = |sewn: u32| whole && sewn > 0;
    BlockFigures {
        front: block_front(model, block, FRONT, words),
        map: unit_map(model, block, FRONT, words),
        outline: colouring_page(model, block, OUTLINE, words),
        colourings: model
            .colourings
            .iter()
            .filter(|colouring| whole && model.colouring.as_ref() != Some(&colouring.title))
            .map(|colouring| block_coloured(model, block, &colouring.fabrics, COLOURING, words))
            .collect(),
        foundations: block.variants.iter().map(|variant| view(variant, REDUCED).foundation_reduced()).collect(),
        steps: block
            .variants
            .iter()
            .map(|variant| {
                let other_hand = |other: &Variant| other.unit == variant.unit && other.mirrored != variant.mirrored;
                let both_hands = block.variants.iter().any(other_hand);
                let sections = if shown(variant.sewn) { 0..variant.fabrics.len() } else { 0..0 };
                let figures = |k| {
                    // More figures than two stand in narrower columns.
                    let several = both_hands || variant.fabrics_of(k).len() > 1;
                    let view = view(variant, if several { STEP_IN_BOTH_HANDS } else { STEP });
                    if block.has_paper(variant) {
                        let (front, printed) = (view.step_front(k), Some(view.step_printed(k)));
                        StepFigures { front, printed, strips: view.strips(k) }
                    } else {
                        let front = View { width: PLAIN, ..view }.plain_piece();
                        StepFigures { front, printed: None, strips: None }
                    }
                };
                sections.map(figures).collect()
            })
            .collect(),
        joins: if block.variants.iter().all(|variant| shown(variant.sewn)) {
            let drawn = block.passes().into_iter().map(|pass| {
                // Two stand in a row as those of a step do.
                let order = order_front(model, block, pass, STEP, words);
                let width = if order.is_some() { STEP } else { JOIN };
                order.into_iter().chain([join_front(model, block, pass, width, words)]).collect()
            });
            drawn.collect()
        } else {
            Vec::new()
        },
    }
}
