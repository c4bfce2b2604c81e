//! The cover: title, what the block looks like, facts at a glance, and what is in the packet.

use super::super::document::{Cover, Document, Figure};
use super::super::leaf::Place;
use super::super::page::{Align, Colour, Item, Text, Weight};
use super::super::words::Words;
use super::lines::Type;
use super::set;
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
/// At least so much of the page is left to the pictures, in inches.
const PICTURES: f64 = 2.2;

/// The cover as one slab of the size of the page.
pub(super) fn cover(document: &Document, cover: &Cover, contents: &[Entry], words: &Words, frame: &Frame) -> Slab {
    let mut page = Slab::default();
    let top = 0.75;
    let mut head = head(document, cover, frame);
    let foot = foot(cover, contents, words, frame, frame.height - 0.8 - top - head.height - PICTURES);
    let room = frame.height - 0.8 - top - head.height - foot.height - 0.5;
    about(cover, frame, room - PICTURES, &mut head);
    page.take_in(&head, Vector::new(frame.left, top));
    let foot_top = frame.height - 0.8 - foot.height;
    let pictures_top = top + head.height + 0.2;
    let pictures = pictures(cover, frame, foot_top - 0.3 - pictures_top);
    // In the middle of what is left, a little above it.
    let spare = (foot_top - 0.3 - pictures_top - pictures.height).max(0.0);
    page.take_in(&pictures, Vector::new(frame.left, pictures_top + spare * 0.3));
    page.take_in(&foot, Vector::new(frame.left, foot_top));
    page
}

fn head(document: &Document, cover: &Cover, frame: &Frame) -> Slab {
    let mut slab = Slab::default();
    let logo = cover.logo.as_ref().map(|logo| within(logo, LOGO));
    let measure = frame.wide - logo.as_ref().map_or(0.0, |logo| logo.width.to_inches() + 0.3);
    if let Some(logo) = &logo {
        slab.drawing(logo, Point::new(frame.wide - logo.width.to_inches(), 0.0));
    }
    let mut kind = TITLE;
    let mut title = kind.set(&[(&document.title, Weight::Bold)], measure);
    if title.len() > 2 {
        kind = LONG_TITLE;
        title = kind.set(&[(&document.title, Weight::Bold)], measure);
    }
    for line in &title {
        slab.line(kind, line, 0.0);
    }
    slab.height += 0.06;
    for line in LINE.set(&[(&cover.line, Weight::Regular)], measure) {
        slab.line(LINE, &line, 0.0);
    }
    if let Some(logo) = logo {
        slab.height = slab.height.max(logo.height.to_inches());
    }
    slab
}

/// The publisher's words, as far as there is room; the rest stands with the terms.
fn about(cover: &Cover, frame: &Frame, room: f64, head: &mut Slab) {
    let measure = frame.wide.min(5.6);
    for words in &cover.words {
        let lines = Type::BODY.set(&[(words, Weight::Regular)], measure);
        #[expect(clippy::cast_precision_loss, reason = "a handful of lines")]
        let high = lines.len() as f64 * Type::BODY.line() + 0.1;
        if high > room {
            break;
        }
        head.height += 0.1;
        for line in &lines {
            head.line(Type::BODY, line, 0.0);
        }
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
    let figures: Vec<&Figure> = cover.photo.iter().chain(&cover.fronts).take(6).collect();
    let gap = 0.25;
    let caption = |figure: &Figure| if figure.caption.is_empty() { 0.0 } else { Type::SMALL.line() + 0.04 };
    // The number of columns that shows the smallest picture largest.
    let best = (1..=figures.len().min(3)).map(|columns| {
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
            slab.drawing(&drawing, Point::new(x, y));
            let mut below = y + drawing.height.to_inches();
            if !figure.caption.is_empty() {
                let words = Type::SMALL.cut_short(&figure.caption, Weight::Regular, wide);
                let at = Point::new(x, below + 0.04 + Type::SMALL.baseline());
                let text = Text { colour: Type::SMALL.colour, ..Text::line(at, &words, 8.0, Weight::Regular) };
                slab.items.push(Item::Text(text));
                below += caption(figure);
            }
            lowest = lowest.max(below);
            x += if row.len() == 1 { 0.0 } else { drawing.width.to_inches().max(wide * 0.4) + gap };
        }
        y = lowest + gap;
        slab.height = lowest;
    }
    slab
}

/// Facts on the left, contents on the right.
fn foot(cover: &Cover, contents: &[Entry], words: &Words, frame: &Frame, room: f64) -> Slab {
    let column = (frame.wide - 0.4) / 2.0;
    let mut slab = Slab::default();
    let mut left = titled(&words.facts_title(), column);
    // What finds no room here stands in the packet itself.
    let mut count = cover.facts.len();
    let mut facts = set::facts(&cover.facts, column);
    while facts.height > room && count > 1 {
        count -= 1;
        facts = set::facts(&cover.facts[..count], column);
    }
    left.take_in(&facts, Vector::new(0.0, left.height));
    left.height += facts.height;
    slab.take_in(&left, Vector::default());
    let mut right = titled(&words.nav_title(), column);
    let fitting = contents.iter().take_while({
        let mut height = right.height;
        move |_| {
            height += Type::CLOSE.line() + 0.02;
            height <= room.max(1.5)
        }
    });
    for entry in fitting {
        let top = right.height;
        let number = entry.page.to_string();
        let title = Type::CLOSE.cut_short(&entry.title, Weight::Regular, column - 0.4);
        if let [line] = Type::CLOSE.set(&[(&title, Weight::Regular)], column).as_slice() {
            right.line(Type::CLOSE, line, 0.0);
        }
        let baseline = Point::new(column, top + Type::CLOSE.baseline());
        let text = Text::line(baseline, &number, Type::CLOSE.points, Weight::Regular);
        right.items.push(Item::Text(Text { align: Align::End, ..text }));
        right.links.push(line_link(Point::new(0.0, top), column, Type::CLOSE.line(), &entry.place));
        right.height += 0.02;
    }
    slab.take_in(&right, Vector::new(column + 0.4, 0.0));
    slab.height = left.height.max(right.height);
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
