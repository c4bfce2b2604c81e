//! Elements of a document to slabs.

mod figures;
mod labels;
mod step;
mod table;

use std::rc::Rc;

use super::super::document::{Element, Fact, FormLine, Heading, List, Manner, Mark, Paragraph, Reference, Sign, Table};
use super::super::hatch;
use super::super::label::Label;
use super::super::leaf::Kind;
use super::super::page::{Colour, Item, Layer, Path, Stroke, Weight};
use super::lines::{Measure, Run, Type};
use super::slab::Slab;
use crate::geometry::{Length, Point, Polygon, Segment, Vector};

/// The accent of the packet: rules and signs, never the only carrier of a meaning.
pub const ACCENT: Colour = Colour([29, 91, 121]);
/// The pen of rules.
pub const RULE: Colour = Colour::grey(165);
/// Lines of running text are no longer than this, in inches.
const PROSE: f64 = 5.6;
/// The white between columns.
const GUTTER: f64 = 0.28;

/// So many lines a heading has at the most before it is set smaller.
const HEADING_LINES: usize = 3;

/// What there is room for on a page, in inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// From left to right.
    pub wide: f64,
    /// From top to bottom.
    pub high: f64,
}

/// The slabs of an element in a column.
#[must_use]
pub fn element(element: &Element, room: Room) -> Vec<Slab> {
    let wide = room.wide;
    let prose = wide.min(PROSE);
    match element {
        Element::Heading(heading) => self::heading(heading, wide),
        Element::Paragraph(paragraph) => self::paragraph(paragraph, Type::BODY, Measure::of(prose), 0),
        Element::List(list) => self::list(list, prose),
        Element::Facts(facts) => {
            let mut slabs = self::facts(facts, prose);
            if let Some(first) = slabs.first_mut() {
                first.before = 0.08;
            }
            slabs
        }
        Element::Table(table) => table::table(table, wide),
        Element::Swatches(swatches) => figures::swatches(swatches, wide),
        Element::Figures(figures) => figures::row(figures, room),
        Element::Tiles(tiles) => figures::tiles(tiles, wide),
        Element::Labels(labels) => labels::labels(labels, wide),
        Element::Step(step) => step::step(step, wide),
        Element::Form(lines) => lines.iter().map(|line| form_line(line, wide)).collect(),
        Element::See(references) => see(references, wide),
    }
}

/// Two short tables beside each other, if they save room so.
#[must_use]
pub fn side_by_side(left: &Table, right: &Table, wide: f64) -> Option<[Slab; 2]> {
    table::side_by_side(left, right, wide)
}

/// The heading of a part.
#[must_use]
pub fn part_heading(title: &str, wide: f64) -> Slab {
    let mut slab = Slab { keeps_next: true, before: 0.5, ..Slab::default() };
    let lines = Type::PART.set(&[(title, Weight::Bold)], wide);
    if lines.len() <= HEADING_LINES {
        slab.lines(Type::PART, &lines, 0.0);
    } else {
        slab.lines(Type::HEADING, &Type::HEADING.set_cut_short(title, Weight::Bold, wide, 2 * HEADING_LINES), 0.0);
    }
    slab.height += 0.08;
    let rule = Segment::new(Point::new(0.0, slab.height), Point::new(0.6, slab.height));
    slab.items.push(Path::lines([rule], Stroke::plain(2.0, ACCENT), Layer::Page).into());
    slab.height += 0.16;
    slab.told(Kind::Heading, 0, wide)
}

/// A heading: in one piece, unless it is as long as a paragraph, and then set as one.
fn heading(heading: &Heading, wide: f64) -> Vec<Slab> {
    let (kind, before) = if heading.depth <= 2 { (Type::HEADING, 0.3) } else { (Type::SUBHEADING, 0.2) };
    let mut slab = Slab { keeps_next: true, ..Slab::default() };
    let indent =
        heading.fabric.map_or(0.0, |fabric| mark(fabric, Point::new(0.0, 0.02), kind.line() - 0.04, &mut slab));
    let set = kind.set(&[(&heading.words, Weight::Bold)], wide - indent);
    let mut slabs = if set.len() <= HEADING_LINES {
        slab.lines(kind, &set, indent);
        slab.height += 0.03;
        vec![slab.told(Kind::Heading, 0, wide)]
    } else {
        let runs = [(heading.words.as_str(), Weight::Bold)];
        let mut slabs = lines(&runs, Type::BODY, Measure::of(wide.min(PROSE) - indent), indent, 0);
        if let Some(first) = slabs.first_mut() {
            first.take_in(&slab, Vector::default());
        }
        if let Some(last) = slabs.last_mut() {
            last.keeps_next = true;
        }
        slabs
    };
    if let Some(first) = slabs.first_mut() {
        first.before = before;
        if heading.bookmarked {
            first.bookmark(heading.depth, &heading.words);
        }
        if let Some(place) = &heading.place {
            first.place(place);
        }
    }
    slabs
}

/// A swatch of this size with its ringed number beside it; gives how far both reach from the left.
fn mark(fabric: Mark, at: Point, size: f64, slab: &mut Slab) -> f64 {
    swatch(fabric, at, (size * 1.4, size), &mut slab.items);
    let label = Label::ringed(fabric.number, Length::points((size * 72.0 * 0.72).clamp(6.0, 10.0)), Colour::BLACK);
    let left = at.x + size * 1.4 + 0.05;
    label.draw(Point::new(left + label.width / 2.0, at.y + size / 2.0), 0.0, &mut slab.items);
    left + label.width + 0.07
}

/// A fabric in an upright rectangle.
fn swatch(fabric: Mark, at: Point, (width, height): (f64, f64), items: &mut Vec<Item>) {
    let Some(area) = Polygon::rectangle(at, Point::new(at.x + width, at.y + height)) else { return };
    hatch::fabric(&area, fabric.number, fabric.colour.0, items);
    items.push(Path::polygon(&area, None, Some(Stroke::plain(0.5, Colour::grey(60))), Layer::Page).into());
}

/// The slabs of a paragraph: its lines, at least two of them on each side of a break.
fn paragraph(paragraph: &Paragraph, kind: Type, measure: Measure, member: usize) -> Vec<Slab> {
    let words = paragraph.words.as_str();
    match &paragraph.manner {
        Manner::Plain => lines(&[(words, Weight::Regular)], kind, measure, 0.0, member),
        Manner::Quiet => lines(&[(words, Weight::Regular)], Type::SMALL, measure, 0.0, member),
        Manner::Led(lead) => lines(&[(lead, Weight::Bold), (words, Weight::Regular)], kind, measure, 0.0, member),
        Manner::Labelled(label) => {
            let label = format!("{label}:");
            let runs = [(label.as_str(), Weight::Bold), (words, Weight::Regular)];
            let mut slabs = lines(&runs, kind, measure.less(0.14), 0.14, member);
            let last = slabs.len().saturating_sub(1);
            for (number, slab) in slabs.iter_mut().enumerate() {
                // One bar along all lines.
                let from = if number == 0 { 0.02 } else { 0.0 };
                let to = slab.height - if number == last { 0.02 } else { 0.0 };
                let bar = Segment::new(Point::new(0.03, from), Point::new(0.03, to));
                slab.items.push(Path::lines([bar], Stroke::plain(1.6, ACCENT), Layer::Page).into());
            }
            slabs
        }
    }
}

/// Lines as slabs that never leave one line alone on a page.
fn lines(runs: &[Run<'_>], kind: Type, measure: Measure, indent: f64, member: usize) -> Vec<Slab> {
    let set = kind.set_round(runs, measure);
    let count = set.len();
    let mut slabs = Vec::with_capacity(count);
    for (number, line) in set.iter().enumerate() {
        let mut slab = Slab { before: if number == 0 { 0.07 } else { 0.0 }, ..Slab::default() };
        slab.line(kind, line, indent);
        slab.keeps_next = number + 1 < count && (number == 0 || number + 2 == count);
        slabs.push(slab.told(Kind::Line, member, indent + line.width()));
    }
    slabs
}

/// A list of so many items stands on one page.
const AT_A_GLANCE: usize = 4;

fn list(list: &List, measure: f64) -> Vec<Slab> {
    let mut slabs = Vec::new();
    let indent = 0.24;
    for (number, item) in (1..).zip(&list.items) {
        let measure = Measure::of(measure - indent);
        let mut of_item = lines(&[(item, Weight::Regular)], Type::BODY, measure, indent, slabs.len());
        if let Some(first) = of_item.first_mut() {
            sign(list.sign, number, first);
        }
        slabs.append(&mut of_item);
    }
    // A short list is read at a glance, so it stands on one page.
    if list.items.len() <= AT_A_GLANCE {
        let last = slabs.len().saturating_sub(1);
        for slab in slabs.iter_mut().take(last) {
            slab.keeps_next = true;
        }
    }
    slabs
}

fn sign(sign: Sign, number: u32, slab: &mut Slab) {
    let middle = Type::BODY.baseline() - 0.044;
    match sign {
        Sign::Dot => {
            let dot = Path::circle(Point::new(0.07, middle), 0.022, Some(ACCENT), None, Layer::Page);
            slab.items.push(dot.into());
        }
        Sign::Number => {
            let set = Type::BODY.set(&[(&format!("{number}."), Weight::Bold)], 0.3);
            if let Some(line) = set.first() {
                Type::BODY.draw(line, Point::default(), &mut slab.items);
            }
        }
        Sign::Box => tick_box(Point::new(0.015, middle - 0.055), &mut slab.items),
    }
}

/// A box to tick off.
fn tick_box(at: Point, items: &mut Vec<Item>) {
    let size = 0.11;
    if let Some(square) = Polygon::rectangle(at, Point::new(at.x + size, at.y + size)) {
        items.push(Path::polygon(&square, None, Some(Stroke::plain(0.8, ACCENT)), Layer::Page).into());
    }
}

/// A fact of more lines is cut short.
const FACT_LINES: usize = 8;

/// Where the values of facts begin.
fn fact_indent(facts: &[Fact], measure: f64) -> f64 {
    let widest = facts.iter().map(|fact| Type::CLOSE.width(&fact.name, Weight::Regular)).fold(0.0, f64::max);
    (widest + 0.2).min(measure * 0.5)
}

/// The facts that are cut short in a column of this width.
pub fn cut_facts(facts: &[Fact], measure: f64) -> impl Iterator<Item = &Fact> {
    let room = measure - fact_indent(facts, measure);
    facts.iter().filter(move |fact| Type::CLOSE.set(&[(&fact.value, Weight::Regular)], room).len() > FACT_LINES)
}

/// Names in one column, values in the other; a slab for each.
#[must_use]
pub fn facts(facts: &[Fact], measure: f64) -> Vec<Slab> {
    let indent = fact_indent(facts, measure);
    let name_kind = Type { colour: Colour::grey(90), ..Type::CLOSE };
    let each = facts.iter().enumerate().map(|(number, fact)| {
        let mut slab = Slab::default();
        slab.lines(name_kind, &name_kind.set_cut_short(&fact.name, Weight::Regular, indent - 0.1, FACT_LINES), 0.0);
        let below_names = std::mem::take(&mut slab.height);
        let values = Type::CLOSE.set_cut_short(&fact.value, Weight::Regular, measure - indent, FACT_LINES);
        slab.lines(Type::CLOSE, &values, indent);
        slab.height = slab.height.max(below_names) + 0.02;
        slab.told(Kind::Piece, number, measure)
    });
    each.collect()
}

fn form_line(form: &FormLine, wide: f64) -> Slab {
    let mut slab = Slab { before: 0.12, ..Slab::default() };
    let indent = if form.lines <= 1 { wide * 0.38 } else { 0.0 };
    let measure = if form.lines <= 1 { indent - 0.1 } else { wide };
    for line in Type::BODY.set(&[(&form.label, Weight::Regular)], measure) {
        slab.line(Type::BODY, &line, 0.0);
    }
    if form.lines > 1 {
        slab.height += 0.12;
    }
    for number in 0..form.lines.max(1) {
        let y = if form.lines <= 1 { slab.height - 0.02 } else { slab.height + 0.28 * f64::from(number) + 0.1 };
        let rule = Segment::new(Point::new(indent, y), Point::new(wide, y));
        slab.items.push(Path::lines([rule], Stroke::plain(0.5, RULE), Layer::Page).into());
    }
    if form.lines > 1 {
        slab.height += 0.28 * f64::from(form.lines);
    }
    slab.told(Kind::Piece, 0, wide)
}

/// Links, one after another, in as many lines as they need.
fn see(references: &[Reference], wide: f64) -> Vec<Slab> {
    let kind = Type { colour: ACCENT, ..Type::SMALL };
    let mut slabs: Vec<Slab> = Vec::new();
    let mut reach = f64::INFINITY;
    for (number, reference) in references.iter().enumerate() {
        let runs = [("→", Weight::Regular), (reference.words.as_str(), Weight::Regular)];
        for line in kind.set(&runs, wide) {
            if reach + line.width() > wide {
                let before = if number == 0 { 0.05 } else { 0.0 };
                slabs.push(Slab { before, height: kind.line(), ..Slab::default() });
                reach = 0.0;
            }
            let Some(slab) = slabs.last_mut() else { continue };
            kind.draw(&line, Point::new(reach, 0.0), &mut slab.items);
            slab.link(Point::new(reach, 0.0), Point::new(reach + line.width(), kind.line()), &reference.target);
            reach += line.width() + GUTTER;
        }
    }
    let told = slabs.into_iter().enumerate().map(|(number, slab)| slab.told(Kind::Piece, number, wide));
    told.collect()
}

/// A slab that stands above others again where a page begins with one of them.
fn repeated(head: Slab) -> Rc<Slab> {
    Rc::new(Slab { bookmarks: Vec::new(), places: Vec::new(), ..head })
}
