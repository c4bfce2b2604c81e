//! A document to leaves: one grid for all pages, a running title above, the number of the page below.
//!
//! `set` makes slabs of elements, `pages` says where pages break, `cover` draws the first page; here the leaves are put together and numbered.

mod cover;
mod lines;
mod pages;
mod set;
mod slab;

use super::document::{Content, Document, Element, Medium, Part, Start};
use super::leaf::{Area, Bookmark, Leaf, Link, Place};
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
    const FOOT: f64 = 0.8;

    fn of(paper: Paper) -> Self {
        let (width, height) = paper.size();
        let (width, height) = (width.to_inches(), height.to_inches());
        let (wide, high) = (width - 2.0 * Self::SIDE, height - Self::TOP - Self::FOOT);
        Self { width, height, left: Self::SIDE, top: Self::TOP, wide, high }
    }

    fn room(&self) -> set::Room {
        set::Room { wide: self.wide, high: self.high }
    }

    fn corner(&self) -> Point {
        Point::new(self.left, self.top)
    }
}

/// A document on its pages.
#[derive(Debug, Clone, PartialEq)]
pub struct Laid {
    /// The pages, in order.
    pub leaves: Vec<Leaf>,
    /// By page: what stands where; nothing on pages that came drawn.
    pub areas: Vec<Vec<Area>>,
}

/// Sets a document on leaves of this paper. O(n) in what is set.
#[must_use]
pub fn laid(document: &Document, paper: Paper, words: &Words) -> Laid {
    let frame = Frame::of(paper);
    let mut book = Book { frame, document, leaves: Vec::new(), cover: None, run: Vec::new(), elements: 0 };
    for (index, part) in document.parts.iter().enumerate().filter(|(_, part)| part.medium != Medium::Screen) {
        match &part.content {
            Content::Cover(_) => {
                book.flush();
                book.cover = Some((book.leaves.len(), index));
                book.leaves.push(Draft::new(index, frame.blank(&part.title)));
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
                let from = book.run.len();
                book.flow(index, heading, elements);
                if part.start == Start::Together {
                    book.keep_together(from);
                }
            }
        }
    }
    book.flush();
    book.finish(words)
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
    areas: Vec<Area>,
}

struct Book<'d> {
    frame: Frame,
    document: &'d Document,
    leaves: Vec<Draft>,
    cover: Option<(usize, usize)>,
    /// Slabs that are not on pages yet, each with its part.
    run: Vec<(usize, Slab)>,
    /// How many elements are set.
    elements: usize,
}

impl Draft {
    fn new(part: usize, leaf: Leaf) -> Self {
        Self { part, drawn: false, leaf, areas: Vec::new() }
    }
}

impl Book<'_> {
    /// Adds the slabs of elements that follow each other to the run. What introduces a step or a table stays with it, as long as it is short.
    fn flow(&mut self, part: usize, heading: Slab, elements: &[Element]) {
        /// So much may be held together before what it introduces, in inches.
        const INTRODUCTION: f64 = 3.2;
        /// So much of the height of a page a figure may take, with a heading above it and a table below.
        const BESIDE_TABLE: f64 = 0.72;
        let room = self.frame.room();
        self.add(part, vec![heading]);
        let mut introduction: Option<usize> = None;
        let mut elements = elements.iter().peekable();
        while let Some(element) = elements.next() {
            match element {
                Element::Heading(_) => introduction = introduction.or(Some(self.run.len())),
                Element::Paragraph(_) | Element::See(_) => {}
                _ => {
                    if let Some(held) = introduction.take().and_then(|from| self.run.get_mut(from..))
                        && held.iter().map(|(_, slab)| slab.before + slab.height).sum::<f64>() <= INTRODUCTION
                    {
                        for (_, slab) in held {
                            slab.keeps_next = true;
                        }
                    }
                }
            }
            match (element, elements.peek()) {
                (Element::Table(left), Some(Element::Table(right))) => {
                    if let Some([left, right]) = set::side_by_side(left, right, room.wide) {
                        self.pair(part, left, &right);
                        elements.next();
                        continue;
                    }
                    self.add(part, set::element(element, room));
                }
                // The table that tells of a figure stands with it.
                (Element::Figures(_), Some(Element::Table(_))) => {
                    self.add(part, set::element(element, set::Room { high: room.high * BESIDE_TABLE, ..room }));
                }
                _ => self.add(part, set::element(element, room)),
            }
        }
    }

    /// Keeps the slabs of the run from this one on on one page, if they fit it.
    fn keep_together(&mut self, from: usize) {
        let Some([slabs @ .., last]) = self.run.get_mut(from..) else { return };
        let white_above = slabs.first().map_or(0.0, |(_, first)| first.before);
        let high: f64 = slabs.iter().map(|(_, slab)| slab.before + slab.height).sum();
        if high - white_above + last.1.before + last.1.height <= self.frame.high {
            for (_, slab) in slabs {
                slab.keeps_next = true;
            }
        }
    }

    /// Adds two elements that stand beside each other, the second drawn where it stands.
    fn pair(&mut self, part: usize, mut left: Slab, right: &Slab) {
        let among = left.areas.len();
        left.take_in(right, Vector::default());
        left.height = left.height.max(right.height);
        for area in left.areas.iter_mut().skip(among) {
            area.element = 1;
        }
        let element = self.elements;
        self.elements += 2;
        for area in &mut left.areas {
            area.element += element;
        }
        self.run.push((part, left));
    }

    /// Adds the slabs of one element to the run.
    fn add(&mut self, part: usize, slabs: Vec<Slab>) {
        let element = self.elements;
        self.elements += 1;
        self.run.extend(slabs.into_iter().map(|mut slab| {
            for area in &mut slab.areas {
                area.element = element;
            }
            (part, slab)
        }));
    }

    /// Puts the slabs of the run on pages.
    fn flush(&mut self) {
        let run = std::mem::take(&mut self.run);
        let drafts = self.paged(&run);
        self.leaves.extend(drafts);
    }

    /// Slabs on pages, each with its part.
    fn paged(&self, run: &[(usize, Slab)]) -> Vec<Draft> {
        let (parts, slabs): (Vec<usize>, Vec<&Slab>) = run.iter().map(|(part, slab)| (*part, slab)).unzip();
        let starts = pages::broken(&slabs, self.frame.high);
        let mut drafts = Vec::with_capacity(starts.len());
        for (number, &from) in starts.iter().enumerate() {
            let to = starts.get(number + 1).copied().unwrap_or(slabs.len());
            let part = parts.get(from).copied().unwrap_or(0);
            let title = self.document.parts.get(part).map_or("", |part| part.title.as_str());
            let mut page = Slab::default();
            let mut y = 0.0;
            for (index, slab) in slabs.iter().enumerate().take(to).skip(from) {
                if index > from {
                    y += slab.before;
                } else if let Some(head) = &slab.head {
                    page.take_in(head, self.frame.corner().to_vector());
                    let element = slab.areas.first().map_or(0, |area| area.element);
                    page.areas.iter_mut().for_each(|area| area.element = element);
                    y += head.height;
                }
                page.take_in(slab, self.frame.corner().to_vector() + Vector::new(0.0, y));
                y += slab.height;
            }
            let mut draft = Draft::new(part, self.frame.blank(title));
            draft.leaf.page.items = page.items;
            (draft.leaf.bookmarks, draft.leaf.places, draft.leaf.links) = (page.bookmarks, page.places, page.links);
            draft.areas = page.areas;
            drafts.push(draft);
        }
        drafts
    }

    /// Takes in leaves that are drawn already; the part is bookmarked on the first.
    fn take_in(&mut self, index: usize, part: &Part, drawn: &[Leaf]) {
        for (number, leaf) in drawn.iter().enumerate() {
            let mut leaf = leaf.clone();
            if number == 0 {
                leaf.bookmarks.insert(0, Bookmark { depth: 1, title: part.title.clone(), at: Point::default() });
                leaf.places.push((part.place.clone(), Point::default()));
            }
            self.leaves.push(Draft { drawn: true, ..Draft::new(index, leaf) });
        }
    }

    /// Numbers the leaves, gives them their running titles, and draws the cover, which tells the numbers.
    fn finish(mut self, words: &Words) -> Laid {
        self.cover(words);
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
            (draft.leaf, draft.areas)
        });
        let (leaves, areas) = finished.unzip();
        Laid { leaves, areas }
    }

    /// Draws the cover. Facts and contents that find no room on it stand on pages after it.
    fn cover(&mut self, words: &Words) {
        let Some((at, index)) = self.cover else { return };
        let Some(Part { content: Content::Cover(content), place, .. }) = self.document.parts.get(index) else { return };
        let plan = cover::Plan::new(self.document, content, self.contents(index).len(), &self.frame);
        let listed = |book: &Self, contents: &[cover::Entry]| {
            let slabs = plan.rest(content, contents, words, book.frame.room());
            book.paged(&slabs.into_iter().map(|slab| (index, slab)).collect::<Vec<_>>())
        };
        // The pages of the list are counted by the list: first they are put in, then they are filled.
        let (before, after) = (at + 1, listed(self, &self.contents(index)).len());
        let blank = (0..after).map(|_| Draft::new(index, self.frame.blank(&words.nav_title())));
        self.leaves.splice(before..before, blank.collect::<Vec<_>>());
        let contents = self.contents(index);
        let filled = listed(self, &contents);
        self.leaves.splice(before..before + after, filled);
        let slab = plan.cover(content, &contents, words, &self.frame);
        if let Some(draft) = self.leaves.get_mut(at) {
            draft.leaf.page.items = slab.items;
            draft.leaf.links = slab.links;
            draft.areas = slab.areas;
            draft.leaf.places.push((place.clone(), Point::default()));
            let bookmark = Bookmark { depth: 1, title: self.document.title.clone(), at: Point::default() };
            draft.leaf.bookmarks.push(bookmark);
        }
    }

    /// The parts that a reader may look for, with the number of the page on which each begins.
    fn contents(&self, cover: usize) -> Vec<cover::Entry> {
        let parts = self.document.parts.iter().enumerate();
        let listed = parts.filter(|&(index, part)| index != cover && part.medium != Medium::Screen);
        let pages: Vec<(&Place, usize)> = (1..)
            .zip(&self.leaves)
            .flat_map(|(number, draft)| draft.leaf.places.iter().map(move |(place, _)| (place, number)))
            .collect();
        listed
            .filter_map(|(_, part)| {
                let &(_, page) = pages.iter().find(|(place, _)| **place == part.place)?;
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
