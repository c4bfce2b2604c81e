//! The steps: every batch of foundations, the joins, the finished block.

use super::super::compose::{BlockFigures, StepFigures};
use super::super::document::{
    Element, Fact, Figure, Heading, List, Manner, Paragraph, Part, Reference, Sign, Start, Step,
};
use super::super::leaf::{Place, Target};
use super::super::steps::{self, BatchSteps, BlockSteps};
use super::{Desk, batch_place, heading, labelled, mark, notes, paragraph, part, sheet_place};
use crate::model::{Block, JoinKind};

/// A part for each block.
pub(super) fn parts(desk: &Desk<'_>) -> Vec<Part> {
    let words = desk.words();
    let several = desk.model.blocks.len() > 1;
    let blocks = desk.model.blocks.iter().zip(&desk.steps.blocks).zip(desk.figures).enumerate();
    let told = blocks.filter(|(_, ((_, steps), _))| !steps.batches.is_empty());
    told.enumerate()
        .map(|(number, (index, ((block, steps), figures)))| {
            let mut elements = Vec::new();
            if number == 0 {
                elements.push(paragraph(desk.steps.convention.clone()));
                elements.push(paragraph(words.steps_key()));
            }
            Sewing { desk, index, block, steps, figures }.tell(&mut elements);
            let title = if several { words.steps_title_of(&steps.title) } else { words.steps_title() };
            let place = if number == 0 { String::from("steps") } else { format!("steps-{}", index + 1) };
            part(&place, title, Start::NewPage, elements)
        })
        .collect()
}

/// A block whose steps are told.
struct Sewing<'d> {
    desk: &'d Desk<'d>,
    index: usize,
    block: &'d Block,
    steps: &'d BlockSteps,
    figures: &'d BlockFigures,
}

impl Sewing<'_> {
    fn tell(&self, elements: &mut Vec<Element>) {
        let words = self.desk.words();
        elements.extend(notes(&self.steps.notes, words));
        for batch in &self.steps.batches {
            self.batch(batch, elements);
        }
        if !self.steps.joins.is_empty() {
            elements.push(titled(2, words.joins_heading(), Place::numbered("joins", &[self.index + 1])));
            elements.extend(self.steps.joins_intro.iter().cloned().map(paragraph));
            elements.push(paragraph(words.joins_key()));
            if self.block.joins.iter().any(|join| join.kind != JoinKind::Straight) {
                elements.push(paragraph(words.joins_key_leaves()));
            }
            for (at, (step, drawings)) in self.steps.joins.iter().zip(&self.figures.joins).enumerate() {
                // The order of a ring or an inset corner stands before its first seam.
                let caption = |from_last: usize| {
                    if from_last == 0 { words.figure_front_caption() } else { words.figure_order_caption() }
                };
                let figures = drawings
                    .iter()
                    .enumerate()
                    .map(|(k, drawing)| Figure { drawing: drawing.clone(), caption: caption(drawings.len() - 1 - k) });
                let place = Place::numbered("join", &[self.index + 1, at + 1]);
                elements.push(self.step(step, place, figures.collect()));
            }
        }
        if !self.steps.finish.is_empty() {
            elements.push(titled(2, words.block_heading(), Place::numbered("finished", &[self.index + 1])));
            elements.push(Element::List(List { sign: Sign::Box, items: self.steps.finish.clone() }));
        }
    }

    fn batch(&self, batch: &BatchSteps, elements: &mut Vec<Element>) {
        let words = self.desk.words();
        let first = batch.variants.first().copied().unwrap_or(0);
        elements.push(titled(2, batch.title.clone(), batch_place(self.index, first)));
        // Each sheet once, with the papers that are on it.
        let mut sheets: Vec<(&str, Vec<&str>)> = Vec::new();
        for &variant in &batch.variants {
            let mark = self.block.variants.get(variant).map_or("", |variant| variant.mark.as_str());
            for sheet in self.desk.sheets_of(self.index, variant) {
                match sheets.iter_mut().find(|(other, _)| *other == sheet) {
                    Some((_, marks)) => marks.push(mark),
                    None => sheets.push((sheet, vec![mark])),
                }
            }
        }
        let references = sheets.into_iter().map(|(sheet, marks)| Reference {
            words: words.see_sheet(words.list(&marks), words.sheet_in_text(sheet)),
            target: Target::Place(sheet_place(sheet)),
        });
        let references: Vec<Reference> = references.collect();
        elements.extend((!references.is_empty()).then_some(Element::See(references)));
        elements.extend(batch.intro.iter().cloned().map(paragraph));
        elements.extend(batch.variants.iter().filter_map(|&variant| self.parts(variant)).map(paragraph));
        elements.extend(notes(&batch.notes, words));
        for (k, step) in batch.steps.iter().enumerate() {
            let place = Place::numbered("step", &[self.index + 1, first + 1, k + 1]);
            elements.push(self.step(step, place, self.step_figures(batch, k, step.flipped)));
        }
        // A plain piece is cut to size: there is nothing to trim.
        if !batch.trim.is_empty() {
            elements.push(heading(3, words.trim_heading()));
            elements.push(Element::List(List { sign: Sign::Box, items: batch.trim.clone() }));
        }
    }

    /// How a foundation that is printed in parts becomes one paper.
    fn parts(&self, variant: usize) -> Option<String> {
        let foundations = self.desk.printing.sheets.iter().flat_map(|sheet| &sheet.foundations);
        let mut of_variant = foundations.filter(|f| (f.block, f.variant) == (self.index, variant));
        let (_, parts) = of_variant.next()?.part?;
        Some(self.desk.words().steps_parts(&self.block.variants.get(variant)?.mark, parts))
    }

    /// The printed side in each hand of the batch, then the front of the first.
    fn step_figures(&self, batch: &BatchSteps, k: usize, flipped: bool) -> Vec<Figure> {
        let words = self.desk.words();
        let drawn = |variant: usize| self.figures.steps.get(variant).and_then(|steps| steps.get(k));
        let mut figures = Vec::new();
        if let Some(strips) = batch.variants.first().and_then(|&at| drawn(at)?.strips.as_ref()) {
            figures.push(Figure { drawing: strips.clone(), caption: words.figure_strips_caption() });
        }
        let mut hands: Vec<bool> = Vec::new();
        let several = {
            let mirrored = |&at: &usize| self.block.variants.get(at).map(|variant| variant.mirrored);
            batch.variants.iter().any(|at| mirrored(at) != batch.variants.first().and_then(mirrored))
        };
        for &at in &batch.variants {
            let printed = drawn(at).and_then(|figures| figures.printed.as_ref());
            let (Some(variant), Some(printed)) = (self.block.variants.get(at), printed) else { continue };
            if hands.contains(&variant.mirrored) {
                continue;
            }
            hands.push(variant.mirrored);
            let caption = match (several, flipped) {
                (true, true) => words.figure_flipped_caption_of(&variant.mark),
                (true, false) => words.figure_printed_caption_of(&variant.mark),
                (false, true) => words.figure_flipped_caption(),
                (false, false) => words.figure_printed_caption(),
            };
            figures.push(Figure { drawing: printed.clone(), caption });
        }
        if let Some(&at) = batch.variants.first()
            && let (Some(variant), Some(StepFigures { front, .. })) = (self.block.variants.get(at), drawn(at))
        {
            let caption = if batch.variants.len() > 1 {
                words.figure_front_caption_of(&variant.mark)
            } else {
                words.figure_front_caption()
            };
            figures.push(Figure { drawing: front.clone(), caption });
        }
        figures
    }

    fn step(&self, step: &steps::Step, place: Place, figures: Vec<Figure>) -> Element {
        let words = self.desk.words();
        let told = step.text.iter().map(|part| {
            let label = if step.own { Some(words.own_label()) } else { None };
            let manner = match (label, &part.name) {
                (Some(label), _) => Manner::Labelled(label),
                (None, Some(name)) => Manner::Led(name.clone()),
                (None, None) => Manner::Plain,
            };
            Paragraph { words: part.words.clone(), manner }
        });
        let mut text: Vec<Paragraph> = told.collect();
        text.extend(step.cautions.iter().map(|caution| labelled(words.care_label(), caution)));
        text.extend(step.notes.iter().map(|note| labelled(words.note_label(), note)));
        let facts = step.facts.iter().map(|(name, value)| Fact { name: name.clone(), value: value.clone() });
        let fabric = step.fabric.and_then(|fabric| self.desk.model.fabrics.get(fabric)).map(mark);
        let (title, facts) = (step.title.clone(), facts.collect());
        Element::Step(Box::new(Step { place, title, fabric, facts, text, figures }))
    }
}

fn titled(depth: u8, words: String, place: Place) -> Element {
    Element::Heading(Heading { depth, words, fabric: None, place: Some(place), bookmarked: true })
}
