//! What is in a packet, part by part: fills the document.
//!
//! | file | parts |
//! | --- | --- |
//! | `cover` | the cover: pictures, facts, the level |
//! | `begin` | tools, cautions, the technique on one page |
//! | `fabric` | swatches, what to buy |
//! | `cutting` | the cutting chart, labels to pin on |
//! | `printing` | how to print and check, the units and where they stand, the foundations |
//! | `sewing` | the steps |
//! | `closing` | colouring pages, terms and contact, what the words mean, the tester's report, editions |

mod begin;
mod closing;
mod cover;
mod cutting;
mod fabric;
pub mod level;
mod printing;
mod sewing;

use super::chart::Chart;
use super::compose::BlockFigures;
use super::document::{
    Cell, Column, Content, Document, Element, Heading, Manner, Mark, Medium, Paragraph, Part, Start, Table,
};
use super::leaf::Place;
use super::measure::Measures;
use super::page::Colour;
use super::sheets::{Printing, Sheet};
use super::steps::Steps;
use super::words::Words;
use crate::model::{Fabric, Model};

/// For whom a packet is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Audience {
    /// For those who sew.
    #[default]
    Sewers,
    /// For those who try a pattern before it is published: every page says so, and there is a report to fill in.
    Testers,
}

/// How much of a packet is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Extent {
    /// All of it.
    #[default]
    Whole,
    /// The foundations only.
    Sheets,
}

/// What is known when the document is filled.
#[derive(Clone, Copy)]
pub struct Desk<'m> {
    /// The model.
    pub model: &'m Model,
    /// For whom.
    pub audience: Audience,
    /// How much of it.
    pub extent: Extent,
    /// How lengths are written, and in which words.
    pub measures: Measures<'m>,
    /// The chart in words.
    pub chart: &'m Chart,
    /// The cloth of each fabric to scale.
    pub cloth: &'m [Vec<super::page::Page>],
    /// The steps in words.
    pub steps: &'m Steps,
    /// The figures of each block.
    pub figures: &'m [BlockFigures],
    /// The figures of the technique.
    pub primer: &'m [super::page::Page],
    /// The sheets of foundations.
    pub printing: &'m Printing,
}

/// Fills the document of a packet.
#[must_use]
pub fn document(desk: &Desk<'_>) -> Document {
    let words = desk.words();
    let facts = &desk.model.facts;
    let parts = match desk.extent {
        Extent::Sheets => printing::foundations(desk).into_iter().collect(),
        Extent::Whole => whole(desk),
    };
    Document {
        title: facts.title.clone(),
        running: words.running(&facts.edition, desk.size()),
        stamp: (desk.audience == Audience::Testers).then(|| words.tester_stamp()),
        parts,
    }
}

fn whole(desk: &Desk<'_>) -> Vec<Part> {
    let mut parts = vec![cover::cover(desk), begin::before(desk), begin::primer(desk)];
    parts.push(fabric::fabrics(desk));
    parts.extend(cutting::parts(desk));
    parts.push(printing::printing(desk));
    parts.push(printing::units(desk));
    parts.extend(printing::foundations(desk));
    parts.extend(sewing::parts(desk));
    parts.extend(closing::parts(desk));
    parts
}

impl<'m> Desk<'m> {
    fn words(&self) -> &'m Words {
        self.measures.words()
    }

    /// The size, with the colouring where it is not the one of the drawing.
    fn size(&self) -> String {
        let size = &self.model.size;
        self.model.colouring.as_ref().map_or_else(|| size.clone(), |colouring| format!("{size}  ·  {colouring}"))
    }

    /// Whether the packet has steps for its sheets to lead to.
    fn has_steps(&self) -> bool {
        self.extent == Extent::Whole
    }

    /// The ids of the sheets on which a foundation is, in order.
    fn sheets_of(&self, block: usize, variant: usize) -> Vec<&'m str> {
        let holds = |sheet: &&Sheet| sheet.foundations.iter().any(|f| (f.block, f.variant) == (block, variant));
        self.printing.sheets.iter().filter(holds).map(|sheet| sheet.id.as_str()).collect()
    }
}

/// A part of elements that follow each other, in print and on a screen.
fn part(place: &str, title: String, start: Start, elements: Vec<Element>) -> Part {
    Part { place: Place::new(place), title, start, medium: Medium::Both, content: Content::Flow(elements) }
}

fn heading(depth: u8, words: String) -> Element {
    Element::Heading(Heading { depth, words, fabric: None, place: None, bookmarked: false })
}

fn paragraph(words: String) -> Element {
    Element::Paragraph(plain(words))
}

fn plain(words: String) -> Paragraph {
    Paragraph { words, manner: Manner::Plain }
}

fn quiet(words: String) -> Element {
    Element::Paragraph(Paragraph { words, manner: Manner::Quiet })
}

fn labelled(label: String, words: &str) -> Paragraph {
    Paragraph { words: words.to_owned(), manner: Manner::Labelled(label) }
}

/// The notes of an author.
fn notes<'n>(notes: &'n [String], words: &'n Words) -> impl Iterator<Item = Element> + 'n {
    notes.iter().map(|note| Element::Paragraph(labelled(words.note_label(), note)))
}

fn column(head: String, share: f64) -> Column {
    Column { head, share }
}

fn cell(words: impl Into<String>) -> Cell {
    Cell { fabric: None, words: words.into() }
}

fn mark(fabric: &Fabric) -> Mark {
    Mark { number: fabric.mark, colour: Colour(fabric.colour) }
}

fn table(caption: String, columns: Vec<Column>, rows: Vec<Vec<Cell>>) -> Element {
    Element::Table(Table { caption, caption_seen: true, columns, rows })
}

/// A table whose heads say enough for those who see it.
fn unseen(caption: String, columns: Vec<Column>, rows: Vec<Vec<Cell>>) -> Element {
    Element::Table(Table { caption, caption_seen: false, columns, rows })
}

/// The place of the steps of a batch, by its block and its first foundation.
fn batch_place(block: usize, variant: usize) -> Place {
    Place::numbered("sew", &[block + 1, variant + 1])
}

/// The place of a sheet.
fn sheet_place(id: &str) -> Place {
    Place::new(&format!("sheet-{id}"))
}
