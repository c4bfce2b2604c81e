//! A document to leaves: one grid for all pages, a running title above, the number of the page below.
//!
//! `set` makes slabs of elements, `pages` says where pages break, `cover` draws the first page; here the leaves are put together and numbered.

mod cover;
mod lines;
mod pages;
mod set;
mod slab;

use super::document::{Content, Document, Element, Medium, Part, Start};
use super::leaf::{Bookmark, Leaf, Link, Place};
use super::page::{Align, Colour, Item, Layer, Page, Path, Stroke, Text, Weight};
use super::words::Words;
use crate::geometry::{Length, Point, Segment, Vector};
use crate::model::Paper;
use lines::Type;
use slab::Slab;

/// The area of a page that elements fill, in inches.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Frame {
    width: f64,
    height: f64,
    left: f64,
    top: f64,
    wide: f64,
    high: f64,
}

impl Frame {
    const SIDE: f64 = 0.65;
    const TOP: f64 = 0.92;
    const FOOT: f64 = 0.86;

    fn of(paper: Paper) -> Self {
        let (width, height) = paper.size();
        let (width, height) = (width.to_inches(), height.to_inches());
        let (wide, high) = (width - 2.0 * Self::SIDE, height - Self::TOP - Self::FOOT);
        Self { width, height, left: Self::SIDE, top: Self::TOP, wide, high }
    }

    fn corner(&self) -> Point {
        Point::new(self.left, self.top)
    }
}

/// The leaves of a document on this paper, in order. O(n) in what is set.
#[must_use]
pub fn leaves(document: &Document, paper: Paper, words: &Words) -> Vec<Leaf> {
    let frame = Frame::of(paper);
    let mut book = Book { frame, document, leaves: Vec::new(), cover: None, run: Vec::new() };
    for (index, part) in document.parts.iter().enumerate().filter(|(_, part)| part.medium != Medium::Screen) {
        match &part.content {
            Content::Cover(_) => {
                book.flush();
                book.cover = Some((book.leaves.len(), index));
                book.leaves.push(Draft { part: index, drawn: false, leaf: frame.blank(&part.title) });
            }
            Content::Leaves(drawn) => {
                book.flush();
                book.take_in(index, part, drawn);
            }
            Content::Flow(elements) => {
                if part.start == Start::NewPage {
                    book.flush();
                }
                let mut heading = set::part_heading(&part.title, frame.wide);
                heading.bookmark(1, &part.title);
                heading.place(&part.place);
                book.run.push((index, heading));
                book.run.extend(flow(elements, frame.wide).into_iter().map(|slab| (index, slab)));
            }
        }
    }
    book.flush();
    book.finish(words)
}

/// The slabs of elements that follow each other. What introduces a step or a table stays with it, as long as it is short.
fn flow(elements: &[Element], wide: f64) -> Vec<Slab> {
    /// So much may be held together before what it introduces, in inches.
    const INTRODUCTION: f64 = 3.2;
    let mut slabs: Vec<Slab> = Vec::new();
    let mut introduction: Option<usize> = None;
    for element in elements {
        let set = set::element(element, wide);
        match element {
            Element::Heading(_) => introduction = introduction.or(Some(slabs.len())),
            Element::Paragraph(_) | Element::See(_) => {}
            _ => {
                if let Some(from) = introduction.take() {
                    let held = &mut slabs[from..];
                    if held.iter().map(|slab| slab.before + slab.height).sum::<f64>() <= INTRODUCTION {
                        for slab in held {
                            slab.keeps_next = true;
                        }
                    }
                }
            }
        }
        slabs.extend(set);
    }
    slabs
}

impl Frame {
    fn blank(&self, title: &str) -> Leaf {
        let page = Page {
            width: Length::inches(self.width),
            height: Length::inches(self.height),
            title: title.to_owned(),
            description: String::new(),
            items: Vec::new(),
        };
        Leaf { page, label: String::new(), bookmarks: Vec::new(), places: Vec::new(), links: Vec::new() }
    }
}

/// A leaf that is not numbered yet.
struct Draft {
    part: usize,
    /// Whether it came drawn, with a heading of its own.
    drawn: bool,
    leaf: Leaf,
}

struct Book<'d> {
    frame: Frame,
    document: &'d Document,
    leaves: Vec<Draft>,
    cover: Option<(usize, usize)>,
    /// Slabs that are not on pages yet, each with its part.
    run: Vec<(usize, Slab)>,
}

impl Book<'_> {
    /// Puts the slabs of the run on pages.
    fn flush(&mut self) {
        let (parts, slabs): (Vec<usize>, Vec<Slab>) = std::mem::take(&mut self.run).into_iter().unzip();
        let starts = pages::broken(&slabs, self.frame.high);
        for (number, &from) in starts.iter().enumerate() {
            let to = starts.get(number + 1).copied().unwrap_or(slabs.len());
            let part = parts.get(from).copied().unwrap_or(0);
            let title = self.document.parts.get(part).map_or("", |part| part.title.as_str());
            let mut whole = Slab::default();
            for (index, slab) in slabs.iter().enumerate().take(to).skip(from) {
                if index == from {
                    if let Some(head) = &slab.head {
                        whole.take_in(head, Vector::default());
                        whole.height += head.height;
                    }
                } else {
                    whole.height += slab.before;
                }
                whole.take_in(slab, Vector::new(0.0, whole.height));
                whole.height += slab.height;
            }
            let mut leaf = self.frame.blank(title);
            let mut placed = Slab::default();
            placed.take_in(&whole, self.frame.corner().to_vector());
            leaf.page.items = placed.items;
            (leaf.bookmarks, leaf.places, leaf.links) = (placed.bookmarks, placed.places, placed.links);
            self.leaves.push(Draft { part, drawn: false, leaf });
        }
    }

    /// Takes in leaves that are drawn already; the part is bookmarked on the first.
    fn take_in(&mut self, index: usize, part: &Part, drawn: &[Leaf]) {
        for (number, leaf) in drawn.iter().enumerate() {
            let mut leaf = leaf.clone();
            if number == 0 {
                leaf.bookmarks.insert(0, Bookmark { depth: 1, title: part.title.clone(), at: Point::default() });
                leaf.places.push((part.place.clone(), Point::default()));
            }
            self.leaves.push(Draft { part: index, drawn: true, leaf });
        }
    }

    /// Numbers the leaves, gives them their running titles, and draws the cover, which tells the numbers.
    fn finish(mut self, words: &Words) -> Vec<Leaf> {
        let numbers: Vec<(usize, usize)> =
            self.leaves.iter().enumerate().map(|(number, draft)| (draft.part, number + 1)).collect();
        if let Some((at, index)) = self.cover
            && let Some(Part { content: Content::Cover(content), place, .. }) = self.document.parts.get(index)
        {
            let contents = self.contents(index, &numbers);
            let slab = cover::cover(self.document, content, &contents, words, &self.frame);
            if let Some(draft) = self.leaves.get_mut(at) {
                draft.leaf.page.items = slab.items;
                draft.leaf.links = slab.links;
                draft.leaf.places.push((place.clone(), Point::default()));
                let bookmark = Bookmark { depth: 1, title: self.document.title.clone(), at: Point::default() };
                draft.leaf.bookmarks.push(bookmark);
            }
        }
        let total = self.leaves.len();
        let (frame, document) = (self.frame, self.document);
        let finished = self.leaves.into_iter().enumerate().map(|(number, mut draft)| {
            if draft.leaf.label.is_empty() {
                draft.leaf.label = (number + 1).to_string();
            }
            if !draft.drawn {
                let is_cover = self.cover.is_some_and(|(at, _)| at == number);
                let part = document.parts.get(draft.part).map_or("", |part| part.title.as_str());
                let mut around = if is_cover { Vec::new() } else { running_title(&frame, document, part) };
                around.extend(foot(&frame, document, &words.page_of(number + 1, total)));
                // What runs round the page is read after it.
                draft.leaf.page.items.extend(around);
            }
            draft.leaf
        });
        finished.collect()
    }

    /// The parts that a reader may look for, with the number of the page on which each begins.
    fn contents(&self, cover: usize, numbers: &[(usize, usize)]) -> Vec<cover::Entry> {
        let parts = self.document.parts.iter().enumerate();
        let listed = parts.filter(|&(index, part)| index != cover && part.medium != Medium::Screen);
        listed
            .filter_map(|(index, part)| {
                // A part that begins in the middle of a page is on the page that has its place.
                let page = self
                    .leaves
                    .iter()
                    .position(|draft| draft.leaf.places.iter().any(|(place, _)| *place == part.place))
                    .map(|at| at + 1)
                    .or_else(|| numbers.iter().find(|(of, _)| *of == index).map(|&(_, page)| page))?;
                Some(cover::Entry { title: part.title.clone(), page, place: part.place.clone() })
            })
            .collect()
    }
}

fn running_title(frame: &Frame, document: &Document, part: &str) -> Vec<Item> {
    let y = 0.64;
    let right = frame.left + frame.wide;
    let part = Type::SMALL.cut_short(part, Weight::Regular, frame.wide * 0.34);
    let rest = frame.wide - Type::SMALL.width(&part, Weight::Regular) - 0.3;
    let running = format!("  ·  {}", document.running);
    let running = Type::SMALL.cut_short(&running, Weight::Regular, rest * 0.6);
    let room = rest - Type::SMALL.width(&running, Weight::Regular);
    let title = Type::SMALL.cut_short(&document.title, Weight::Bold, room);
    let after = frame.left + Type::SMALL.width(&title, Weight::Bold);
    let rule = Segment::new(Point::new(frame.left, y + 0.07), Point::new(right, y + 0.07));
    vec![
        small(Point::new(frame.left, y), &title, Weight::Bold, Align::Start),
        small(Point::new(after, y), &running, Weight::Regular, Align::Start),
        small(Point::new(right, y), &part, Weight::Regular, Align::End),
        Path::lines([rule], Stroke::plain(0.4, set::RULE), Layer::Page).into(),
    ]
}

fn foot(frame: &Frame, document: &Document, numbered: &str) -> Vec<Item> {
    let y = frame.height - 0.56;
    let mut items = vec![small(Point::new(frame.left + frame.wide, y), numbered, Weight::Regular, Align::End)];
    let stamp = document.stamp.as_deref().map(|stamp| Type::SMALL.cut_short(stamp, Weight::Bold, frame.wide - 1.2));
    items.extend(stamp.map(|stamp| small(Point::new(frame.left, y), &stamp, Weight::Bold, Align::Start)));
    items
}

fn small(at: Point, words: &str, weight: Weight, align: Align) -> Item {
    let colour = if weight == Weight::Bold { Colour::grey(50) } else { Colour::grey(90) };
    Item::Text(Text { colour, align, ..Text::line(at, words, 8.0, weight) })
}

/// A link over a line of text.
fn line_link(from: Point, wide: f64, high: f64, place: &Place) -> Link {
    Link { from, to: Point::new(from.x + wide, from.y + high), target: super::leaf::Target::Place(place.clone()) }
}
