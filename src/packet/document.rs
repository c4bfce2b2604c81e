//! What the packet says, in order, before it has pages: the one tree from which both the printed pages and the page for a screen are made.
//!
//! A document knows headings, paragraphs, tables, figures and steps; it knows neither paper nor markup. `contents` fills it, `layout` sets it on
//! leaves, `backend::html` writes it as HTML.

use super::leaf::{Leaf, Place, Target};
use super::page::{Colour, Page};

/// A packet in reading order.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Document {
    /// The title of the pattern.
    pub title: String,
    /// What stands at the head of every printed page beside the title: edition and size.
    pub running: String,
    /// What every page is marked with, where the packet is not for everybody: that it is a tester's.
    pub stamp: Option<String>,
    /// The parts, in order.
    pub parts: Vec<Part>,
}

/// A part of the packet: a chapter.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// Where links to it lead.
    pub place: Place,
    /// Its heading.
    pub title: String,
    /// Where it begins in print.
    pub start: Start,
    /// Where it is read.
    pub medium: Medium,
    /// What is in it.
    pub content: Content,
}

/// Where a part begins in print.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Start {
    /// On a new page.
    NewPage,
    /// Where the last one ends, if there is room for its beginning.
    Here,
    /// Where the last one ends, if there is room for all of it, else on a new page; one larger than a page as [`Self::Here`].
    Together,
}

/// Where a part is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Medium {
    /// In print and on a screen.
    Both,
    /// In print only, such as sheets to sew on.
    Print,
    /// On a screen only.
    Screen,
}

/// What is in a part.
#[derive(Debug, Clone, PartialEq)]
pub enum Content {
    /// The cover.
    Cover(Box<Cover>),
    /// Elements that follow each other.
    Flow(Vec<Element>),
    /// Pages that are drawn already, at exact size.
    Leaves(Vec<Leaf>),
}

/// The first page.
#[derive(Debug, Clone, PartialEq)]
pub struct Cover {
    /// Edition, size, author: a line below the title.
    pub line: String,
    /// The publisher's sign.
    pub logo: Option<Figure>,
    /// A photograph of the finished block.
    pub photo: Option<Figure>,
    /// Each block from the front.
    pub fronts: Vec<Figure>,
    /// Facts at a glance.
    pub facts: Vec<Fact>,
    /// The publisher's words.
    pub words: Vec<String>,
}

/// A name and a value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fact {
    /// What it is.
    pub name: String,
    /// The value.
    pub value: String,
}

/// Something in the flow of a part.
#[derive(Debug, Clone, PartialEq)]
pub enum Element {
    /// A heading within the part.
    Heading(Heading),
    /// A paragraph.
    Paragraph(Paragraph),
    /// A list.
    List(List),
    /// Names and values, a line each.
    Facts(Vec<Fact>),
    /// A table.
    Table(Table),
    /// Fabrics with room for cuttings.
    Swatches(Vec<Swatch>),
    /// Figures beside each other, as many as there is room for.
    Figures(Vec<Figure>),
    /// Small figures, each with a heading and words of its own, in rows.
    Tiles(Vec<Tile>),
    /// Labels to cut apart and pin on.
    Labels(Vec<PinLabel>),
    /// A step of the sewing.
    Step(Box<Step>),
    /// Lines to be filled in by hand.
    Form(Vec<FormLine>),
    /// A line of links to elsewhere in the packet.
    See(Vec<Reference>),
}

/// A heading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Heading {
    /// 2 for what stands directly in the part, 3 below it.
    pub depth: u8,
    /// The heading.
    pub words: String,
    /// The fabric that it is about: its swatch stands before the words.
    pub fabric: Option<Mark>,
    /// Where links to it lead.
    pub place: Option<Place>,
    /// Whether it is bookmarked.
    pub bookmarked: bool,
}

/// A fabric as it is marked on paper: a number in a ring, with its colour and hatching.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Mark {
    /// The number.
    pub number: u32,
    /// The colour.
    pub colour: Colour,
}

/// A paragraph.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Paragraph {
    /// The words.
    pub words: String,
    /// How it is set.
    pub manner: Manner,
}

/// How a paragraph is set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Manner {
    /// As running text.
    Plain,
    /// Small and pale: what only explains.
    Quiet,
    /// As running text, led by a word in bold: a move of a step.
    Led(String),
    /// Set off, with a label: a note, the designer's own words, a warning.
    Labelled(String),
}

/// A list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct List {
    /// What stands before each item.
    pub sign: Sign,
    /// The items.
    pub items: Vec<String>,
}

/// What stands before an item of a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    /// A dot.
    Dot,
    /// Its number.
    Number,
    /// A box to tick off; on a screen it can be ticked, and is remembered.
    Box,
}

/// A table. Its first column holds the heads of its rows.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// What it is about.
    pub caption: String,
    /// Whether the caption is seen, or only read out.
    pub caption_seen: bool,
    /// The heads of its columns.
    pub columns: Vec<Column>,
    /// Its rows, each as long as the columns.
    pub rows: Vec<Vec<Cell>>,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Its head.
    pub head: String,
    /// Its share of the width that is there.
    pub share: f64,
}

/// A cell of a table.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Cell {
    /// The fabric that it is about: its mark stands before the words.
    pub fabric: Option<Mark>,
    /// The words; empty for a cell that is filled in by hand.
    pub words: String,
}

/// A fabric with room for a cutting of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Swatch {
    /// Its mark.
    pub mark: Mark,
    /// Its name.
    pub name: String,
    /// What is to be known of it.
    pub lines: Vec<String>,
}

/// A figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// What is drawn; its description says what it shows.
    pub drawing: Page,
    /// The caption; empty where the words beside it say all.
    pub caption: String,
}

/// A small figure with words.
#[derive(Debug, Clone, PartialEq)]
pub struct Tile {
    /// The figure.
    pub figure: Figure,
    /// Its heading.
    pub title: String,
    /// What it tells.
    pub words: String,
}

/// A label to pin on a stack of pieces.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PinLabel {
    /// The fabric.
    pub mark: Mark,
    /// Its name.
    pub fabric: String,
    /// Shape and size of the pieces.
    pub size: String,
    /// How many.
    pub count: String,
    /// The sections that they are for, one by one.
    pub sections: Vec<String>,
    /// The pattern, and its size.
    pub pattern: String,
}

/// A step of the sewing.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Where links to it lead, and under which name a screen remembers that it is done.
    pub place: Place,
    /// What it is about.
    pub title: String,
    /// The fabric that it is about.
    pub fabric: Option<Mark>,
    /// The numbers to have at hand.
    pub facts: Vec<Fact>,
    /// What to do, a paragraph each.
    pub text: Vec<Paragraph>,
    /// What it looks like.
    pub figures: Vec<Figure>,
}

/// A line to be filled in by hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FormLine {
    /// What to write.
    pub label: String,
    /// Over how many lines.
    pub lines: u8,
}

/// A link with its words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reference {
    /// The words.
    pub words: String,
    /// Where it leads.
    pub target: Target,
}
