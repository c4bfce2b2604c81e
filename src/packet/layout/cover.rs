//! The cover: title, what the block looks like, facts at a glance, and what is in the packet.

use super::super::document::{Cover, Document, Element, Figure, Manner, Paragraph};
use super::super::leaf::{Kind, Place};
use super::super::page::{Align, Colour, Item, Text, Weight};
use super::super::words::Words;
use super::lines::Type;
use super::set::{self, Room};
use super::slab::Slab;
use super::{Frame, line_link};
use crate::geometry::{Point, Vector};

/// A line of the table of contents.
pub(super) struct Entry {
    /// The part.
    pub title: String,
    /// The number of the page on which it begins.
    pub page: usize,
    /// Where it is.
    pub place: Place,
}

/// The title of the pattern.
const TITLE: Type = Type { points: 34.0, leading: 38.0, colour: Colour::BLACK };
/// Where it takes more than two lines.
const LONG_TITLE: Type = Type { points: 20.0, leading: 24.0, colour: Colour::BLACK };
/// The line below it.
const LINE: Type = Type { points: 11.0, leading: 15.0, colour: Colour::grey(90) };
/// The logo is fitted into this, in inches.
const LOGO: (f64, f64) = (1.5, 0.8);
/// So many pictures are shown at the most.
const PICTURES_SHOWN: usize = 24;
/// Contents that are longer stand on a page of their own, in inches.
const LISTED: f64 = 4.2;
/// At least so much of the page is left to the pictures, in inches.
const PICTURES: f64 = 2.2;

/// The title has no more lines, and neither has the line below it.
const HEAD_LINES: usize = 6;
/// The top of what is set.
const TOP: f64 = 0.75;
/// What stays free at the foot of the page.
const BOTTOM: f64 = 0.8;

/// What finds room on the cover, known before the numbers of the pages are.
pub(super) struct Plan {
    head: Slab,
    /// How many facts stand on it.
    facts: usize,
    /// How many of these stand on the left.
    left: usize,
    /// Whether the contents stand on it.
    lists: bool,
    /// What stands on it only in part.
    cut: Vec<Element>,
}

impl Plan {
    /// Plans the cover of a packet with so many parts.
    pub fn new(document: &Document, cover: &Cover, parts: usize, frame: &Frame) -> Self {
        let head = head(document, cover, frame);
        let above = Type::SUBHEADING.line() + 0.04;
        let room = frame.height - BOTTOM - TOP - head.height - PICTURES - 0.5 - above;
        let lines = u32::try_from(parts).map_or(f64::INFINITY, f64::from);
        // A long list leaves the cover to the pictures.
        let lists = lines * (Type::CLOSE.line() + 0.02) <= room.min(LISTED);
        let all = set::facts(&cover.facts, column(frame));
        let fitting = |from: usize| {
            let mut high = 0.0;
            let fits = |slab: &&Slab| {
                high += slab.before + slab.height;
                high <= room
            };
            all.iter().skip(from).take_while(fits).count()
        };
        let left = fitting(0);
        let facts = if lists { left } else { left + fitting(left) };
        // Two columns of facts are evenly long.
        let left = if lists { left } else { left.min(facts.div_ceil(2)) };
        Self { head, facts, left, lists, cut: cut(document, cover, frame) }
    }

    /// The cover as one slab of the size of the page.
    pub fn cover(&self, cover: &Cover, contents: &[Entry], words: &Words, frame: &Frame) -> Slab {
        let mut page = Slab::default();
        let mut head = self.head.clone();
        let foot = self.foot(cover, contents, words, frame);
        let room = frame.height - BOTTOM - TOP - head.height - foot.height - 0.5;
        about(cover, frame, room - PICTURES, &mut head);
        page.take_in(&head, Vector::new(frame.left, TOP));
        let foot_top = frame.height - BOTTOM - foot.height;
        let pictures_top = TOP + head.height + 0.2;
        let pictures = pictures(cover, frame, foot_top - 0.3 - pictures_top);
        // In the middle of what is left, a little above it.
        let spare = (foot_top - 0.3 - pictures_top - pictures.height).max(0.0);
        page.take_in(&pictures, Vector::new(frame.left, pictures_top + spare * 0.3));
        page.take_in(&foot, Vector::new(frame.left, foot_top));
        page
    }

    /// What found no room: the contents, further facts.
    pub fn rest(&self, cover: &Cover, contents: &[Entry], words: &Words, room: Room) -> Vec<Slab> {
        let wide = room.wide;
        let mut slabs = Vec::new();
        if !self.lists {
            slabs.push(set::part_heading(&words.nav_title(), wide));
            slabs.extend(contents.iter().map(|entry| listed(entry, wide.min(5.6))));
        }
        let further = cover.facts.get(self.facts..).unwrap_or_default();
        if !further.is_empty() || !self.cut.is_empty() {
            slabs.push(set::part_heading(&words.facts_title(), wide));
            slabs.extend(set::facts(further, wide));
        }
        let mut elements: Vec<Vec<Slab>> = slabs.into_iter().map(|slab| vec![slab]).collect();
        elements.extend(self.cut.iter().map(|element| set::element(element, room)));
        // Numbered from the end: those of the parts are numbered already.
        for (number, slabs) in elements.iter_mut().enumerate() {
            for area in slabs.iter_mut().flat_map(|slab| &mut slab.areas) {
                area.element = usize::MAX - number;
            }
        }
        elements.concat()
    }

    /// Facts on the left, contents or further facts on the right.
    fn foot(&self, cover: &Cover, contents: &[Entry], words: &Words, frame: &Frame) -> Slab {
        let column = column(frame);
        let mut left = titled(&words.facts_title(), column);
        let mut right = Slab::default();
        let facts = set::facts(&cover.facts, column);
        let (on_left, others) = facts.split_at(self.left.min(facts.len()));
        let titles = left.height;
        left.append(on_left);
        if self.lists {
            right = titled(&words.nav_title(), column);
            right.append(&contents.iter().map(|entry| listed(entry, column)).collect::<Vec<_>>());
        } else if let Some(others) = others.get(..self.facts - self.left) {
            right.height = titles;
            right.append(others);
        }
        let mut slab = Slab { height: left.height.max(right.height), ..Slab::default() };
        slab.take_in(&left, Vector::default());
        slab.take_in(&right, Vector::new(column + 0.4, 0.0));
        slab
    }
}

/// Title, line and facts that are too long for the cover, whole.
fn cut(document: &Document, cover: &Cover, frame: &Frame) -> Vec<Element> {
    let measure = head_measure(cover, frame);
    let paragraph = |words: &str, manner| Element::Paragraph(Paragraph { words: words.to_owned(), manner });
    let long = |kind: Type, words: &str, weight| kind.set(&[(words, weight)], measure).len() > HEAD_LINES;
    let mut cut = Vec::new();
    if long(LONG_TITLE, &document.title, Weight::Bold) {
        cut.push(paragraph(&document.title, Manner::Plain));
    }
    if long(LINE, &cover.line, Weight::Regular) {
        cut.push(paragraph(&cover.line, Manner::Plain));
    }
    let facts = set::cut_facts(&cover.facts, column(frame));
    cut.extend(facts.map(|fact| paragraph(&fact.value, Manner::Led(format!("{}:", fact.name)))));
    cut
}

/// How wide the title is set: beside the logo.
fn head_measure(cover: &Cover, frame: &Frame) -> f64 {
    let logo = cover.logo.as_ref().map(|logo| within(logo, LOGO));
    frame.wide - logo.map_or(0.0, |logo| logo.width.to_inches() + 0.3)
}

/// How wide facts and contents are.
fn column(frame: &Frame) -> f64 {
    (frame.wide - 0.4) / 2.0
}

/// A line of the contents.
fn listed(entry: &Entry, wide: f64) -> Slab {
    let mut slab = Slab::default();
    let title = Type::CLOSE.cut_short(&entry.title, Weight::Regular, wide - 0.4);
    slab.lines(Type::CLOSE, &Type::CLOSE.set(&[(&title, Weight::Regular)], wide), 0.0);
    let text = Text::line(
        Point::new(wide, Type::CLOSE.baseline()),
        &entry.page.to_string(),
        Type::CLOSE.points,
        Weight::Regular,
    );
    slab.items.push(Item::Text(Text { align: Align::End, ..text }));
    slab.links.push(line_link(Point::default(), wide, Type::CLOSE.line(), &entry.place));
    slab.height = slab.height.max(Type::CLOSE.line()) + 0.02;
    slab.told(Kind::Piece, 0, wide)
}

fn head(document: &Document, cover: &Cover, frame: &Frame) -> Slab {
    let mut slab = Slab::default();
    let logo = cover.logo.as_ref().map(|logo| within(logo, LOGO));
    let measure = head_measure(cover, frame);
    if let Some(logo) = &logo {
        slab.drawing(logo, Point::new(frame.wide - logo.width.to_inches(), 0.0));
    }
    let title = TITLE.set(&[(&document.title, Weight::Bold)], measure);
    if title.len() <= 2 {
        slab.lines(TITLE, &title, 0.0);
    } else {
        slab.lines(LONG_TITLE, &LONG_TITLE.set_cut_short(&document.title, Weight::Bold, measure, HEAD_LINES), 0.0);
    }
    slab.height += 0.06;
    slab.lines(LINE, &LINE.set_cut_short(&cover.line, Weight::Regular, measure, HEAD_LINES), 0.0);
    if let Some(logo) = logo {
        slab.height = slab.height.max(logo.height.to_inches());
    }
    slab
}

/// The publisher's words, as far as there is room; the rest stands with the terms.
fn about(cover: &Cover, frame: &Frame, room: f64, head: &mut Slab) {
    let most = head.height + room;
    for words in &cover.words {
        let mut paragraph = Slab { before: 0.1, ..Slab::default() };
        let lines = Type::BODY.set(&[(words, Weight::Regular)], frame.wide.min(5.6));
        paragraph.lines(Type::BODY, &lines, 0.0);
        if head.height + paragraph.before + paragraph.height > most {
            break;
        }
        head.append(&[paragraph]);
    }
}

/// A figure fitted into an area.
fn within(figure: &Figure, (wide, high): (f64, f64)) -> super::Page {
    let (width, height) = (figure.drawing.width.to_inches(), figure.drawing.height.to_inches());
    let factor = (wide / width.max(1e-9)).min(high / height.max(1e-9));
    figure.drawing.scaled(factor)
}

/// Photograph and fronts in rows, as large as the room allows.
fn pictures(cover: &Cover, frame: &Frame, room: f64) -> Slab {
    let mut slab = Slab::default();
    let figures: Vec<&Figure> = cover.photo.iter().chain(&cover.fronts).take(PICTURES_SHOWN).collect();
    let gap = 0.25;
    let caption = |figure: &Figure| if figure.caption.is_empty() { 0.0 } else { Type::SMALL.line() + 0.04 };
    // The number of columns that shows the smallest picture largest.
    let best = (1..=figures.len().min(8)).map(|columns| {
        let rows = figures.len().div_ceil(columns);
        let count = |n: usize| f64::from(u32::try_from(n).unwrap_or(u32::MAX));
        let wide = (frame.wide - gap * count(columns - 1)) / count(columns);
        let high = (room - gap * count(rows - 1)) / count(rows);
        let least = figures.iter().map(|figure| {
            let drawn = within(figure, (wide, (high - caption(figure)).max(0.2)));
            drawn.width.to_inches() * drawn.height.to_inches()
        });
        (columns, wide, high, least.fold(f64::INFINITY, f64::min))
    });
    let Some((columns, wide, high, _)) = best.reduce(|a, b| if b.3 > a.3 + 1e-9 { b } else { a }) else {
        return slab;
    };
    let mut y = 0.0;
    for row in figures.chunks(columns.max(1)) {
        let mut x = 0.0;
        let mut lowest: f64 = 0.0;
        for figure in row {
            let drawing = within(figure, (wide, (high - caption(figure)).max(0.2)));
            // A caption may be a little wider than a narrow drawing.
            let reach = if row.len() == 1 { wide } else { drawing.width.to_inches().max(wide * 0.4) };
            slab.drawing(&drawing, Point::new(x, y));
            let mut below = y + drawing.height.to_inches();
            if !figure.caption.is_empty() {
                let words = Type::SMALL.cut_short(&figure.caption, Weight::Regular, reach);
                let at = Point::new(x, below + 0.04 + Type::SMALL.baseline());
                let text = Text { colour: Type::SMALL.colour, ..Text::line(at, &words, 8.0, Weight::Regular) };
                slab.items.push(Item::Text(text));
                below += caption(figure);
            }
            lowest = lowest.max(below);
            x += reach + gap;
        }
        y = lowest + gap;
        slab.height = lowest;
    }
    slab
}

fn titled(title: &str, wide: f64) -> Slab {
    let mut slab = Slab::default();
    for line in Type::SUBHEADING.set(&[(title, Weight::Bold)], wide) {
        slab.line(Type::SUBHEADING, &line, 0.0);
    }
    slab.height += 0.04;
    slab
}
