//! What goes to those who have the former edition: a page that tells what changed, and sheets that hold only the papers that did.

use crate::geometry::{Length, Point};
use crate::model::{Model, Paper};
use crate::packet::document::{
    Cell, Column, Content, Document, Element, Figure, Heading, List, Manner, Medium, Paragraph, Part, Sign, Start,
    Table,
};
use crate::packet::layout::{Laid, laid};
use crate::packet::leaf::{Bookmark, Leaf, Place};
use crate::packet::sheets::{Printing, Sheet, stamped};
use crate::packet::words::Words;

use super::told::{already, cut_rows, told};
use super::{Consequence, Revision, overlays};

/// How wide the picture of a block is: two stand beside each other.
const PICTURE: Length = Length::inches(3.4);

/// What goes to those who have the former edition.
#[derive(Debug, Clone, PartialEq)]
pub struct Correction {
    /// What it says, with the sheets of the main paper.
    pub document: Document,
    /// Its printed pages on each paper of the later model, the main one in front.
    pub prints: Vec<CorrectionPrint>,
}

/// A correction on one paper.
#[derive(Debug, Clone, PartialEq)]
pub struct CorrectionPrint {
    /// The paper.
    pub paper: Paper,
    /// The sheets of the papers that changed; none where no paper did.
    pub printing: Printing,
    /// All pages.
    pub leaves: Vec<Leaf>,
}

/// The correction from one model to the other, which says of each foundation in which edition it last changed.
#[must_use]
pub fn correction(was: &Model, now: &Model, revision: &Revision, words: &Words) -> Correction {
    let changed = only_changed(now, revision);
    let mut documents = Vec::with_capacity(now.papers.len());
    for &paper in &now.papers {
        let stamp = words.correction_stamp(&was.facts.edition);
        let printing = stamped(&Model { paper, ..changed.clone() }, words, Some(&stamp), None);
        let document = document((was, now), revision, &printing, words);
        let Laid { leaves, .. } = laid(&document, paper, words);
        documents.push((document, CorrectionPrint { paper, printing, leaves }));
    }
    let (mut said, prints): (Vec<Document>, Vec<CorrectionPrint>) = documents.into_iter().unzip();
    let document = if said.is_empty() { Document::default() } else { said.swap_remove(0) };
    Correction { document, prints }
}

/// The later model with nothing to sew but what must be printed anew, and of what is sewn more often than before the copies that are more. Marks and neighbours stay.
fn only_changed(now: &Model, revision: &Revision) -> Model {
    let mut model = now.clone();
    for (block_index, block) in model.blocks.iter_mut().enumerate() {
        for (index, variant) in block.variants.iter_mut().enumerate() {
            if !revision.misleads(block_index, index) {
                variant.sewn = revision.more_copies(block_index, index);
            }
        }
    }
    model
}

fn document((was, now): (&Model, &Model), revision: &Revision, printing: &Printing, words: &Words) -> Document {
    let size =
        now.colouring.as_ref().map_or_else(|| now.size.clone(), |colouring| format!("{}  ·  {colouring}", now.size));
    let facts = &now.facts;
    let mut elements =
        vec![paragraph(words.correction_intro(&facts.title, size.as_str(), &was.facts.edition, &facts.edition))];
    let changed = revision.for_readers();
    let told = told(was, now, &changed, words);
    elements.extend(printing.sheets.is_empty().then(|| paragraph(words.correction_nothing())));
    let already = already(was, now, revision, words);
    if !already.is_empty() {
        elements.extend([heading(words.correction_already()), list(already)]);
    }
    for part in &told.parts {
        elements.push(heading(part.heading.clone()));
        elements.push(match part.consequence {
            Consequence::Cut => cuts(was, now, revision, words),
            _ => list(part.lines.clone()),
        });
    }
    elements.extend(told.same.map(paragraph));
    elements.extend(pictures(was, now, revision, words));
    let mut parts = vec![Part {
        place: Place::new("changes"),
        title: words.correction_title(&facts.edition),
        start: Start::NewPage,
        medium: Medium::Both,
        content: Content::Flow(elements),
    }];
    if !printing.sheets.is_empty() {
        let names = super::told::misleading(was, now, revision, words);
        let on_paper = words.correction_print(
            printing.sheets.len(),
            words.list(&names),
            if names.is_empty() { "no" } else { "yes" },
        );
        for (medium, told) in [(Medium::Print, on_paper), (Medium::Screen, words.correction_elsewhere())] {
            parts.push(Part {
                place: Place::new("print"),
                title: words.correction_how(),
                start: Start::Here,
                medium,
                content: Content::Flow(vec![paragraph(told)]),
            });
        }
        parts.push(Part {
            place: Place::new("sheets"),
            title: words.correction_sheets(),
            start: Start::NewPage,
            medium: Medium::Print,
            content: Content::Leaves(printing.sheets.iter().map(|sheet| leaf(now, sheet, words)).collect()),
        });
    }
    Document {
        title: facts.title.clone(),
        running: words.running(&facts.edition, size),
        stamp: Some(words.correction_stamp(&was.facts.edition)),
        parts,
    }
}

/// The pieces that are cut otherwise, as a table.
fn cuts(was: &Model, now: &Model, revision: &Revision, words: &Words) -> Element {
    let column = |head: String, share: f64| Column { head, share };
    let cell = |words: String| Cell { fabric: None, words };
    let rows = cut_rows(was, now, revision, words);
    Element::Table(Table {
        caption: words.change_heading(Consequence::Cut.word()),
        caption_seen: false,
        columns: vec![
            column(words.correction_sections(), 1.6),
            column(words.correction_now(), 2.2),
            column(words.correction_before(), 1.8),
            column(words.correction_cut_already(), 2.4),
        ],
        rows: rows.into_iter().map(|row| row.map(cell).to_vec()).collect(),
    })
}

/// The blocks before and after, over each other.
fn pictures(was: &Model, now: &Model, revision: &Revision, words: &Words) -> Vec<Element> {
    let several = now.blocks.len() > 1;
    let figures: Vec<Figure> = overlays(was, now, revision, PICTURE, words)
        .into_iter()
        .map(|(_, drawing)| {
            let caption = if several { words.correction_picture(&drawing.title) } else { String::new() };
            Figure { drawing, caption }
        })
        .collect();
    if figures.is_empty() {
        return Vec::new();
    }
    let key = Element::Paragraph(Paragraph { words: words.correction_picture_key(), manner: Manner::Quiet });
    vec![Element::Figures(figures), key]
}

fn leaf(now: &Model, sheet: &Sheet, words: &Words) -> Leaf {
    let name = words.sheet_name(&sheet.id);
    let marks = sheet
        .foundations
        .iter()
        .filter_map(|on| Some(now.blocks.get(on.block)?.variants.get(on.variant)?.mark.clone()));
    let mut marks: Vec<String> = marks.collect();
    marks.dedup();
    Leaf {
        page: sheet.page.clone(),
        label: name.clone(),
        bookmarks: vec![Bookmark {
            depth: 2,
            title: words.sheet_bookmark(&name, words.list(&marks)),
            at: Point::default(),
        }],
        places: vec![(Place::new(&format!("sheet-{}", sheet.id)), Point::default())],
        links: Vec::new(),
    }
}

fn paragraph(words: String) -> Element {
    Element::Paragraph(Paragraph { words, manner: Manner::Plain })
}

fn heading(words: String) -> Element {
    Element::Heading(Heading { depth: 2, words, fabric: None, place: None, bookmarked: false })
}

fn list(items: Vec<String>) -> Element {
    Element::List(List { sign: Sign::Dot, items })
}
