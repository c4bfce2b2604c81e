//! Labels to cut apart: a fixed grid of boxes that share their borders.

use super::super::super::document::PinLabel;
use super::super::super::leaf::Kind;
use super::super::super::page::{Colour, Layer, Path, Stroke, Weight};
use super::super::lines::Type;
use super::super::slab::Slab;
use super::mark;
use crate::geometry::{Point, Polygon};

/// Labels beside each other.
const COLUMNS: u8 = 3;
/// How high a label is, in inches.
const HIGH: f64 = 1.45;
/// What stays free within its border, in inches.
const WITHIN: f64 = 0.1;
/// Lines of sections on a label at the most.
const SECTION_LINES: usize = 3;
/// Lines of the size on a label at the most: what they take, the sections lack.
const SIZE_LINES: usize = 3;

/// Labels in rows.
pub(super) fn labels(labels: &[PinLabel], wide: f64) -> Vec<Slab> {
    let width = wide / f64::from(COLUMNS);
    let rows = labels.chunks(usize::from(COLUMNS)).enumerate().map(|(number, row)| {
        let mut slab = Slab { before: if number == 0 { 0.16 } else { 0.0 }, ..Slab::default() };
        let mut left = 0.0;
        for label in row {
            one(label, left, width, &mut slab);
            left += width;
        }
        slab.height = HIGH;
        slab.told(Kind::Piece, number, wide)
    });
    rows.collect()
}

fn one(label: &PinLabel, left: f64, width: f64, slab: &mut Slab) {
    if let Some(border) = Polygon::rectangle(Point::new(left, 0.0), Point::new(left + width, HIGH)) {
        let pen = Stroke::plain(0.5, Colour::grey(150));
        slab.items.push(Path::polygon(&border, None, Some(pen), Layer::Page).into());
    }
    let (from, room) = (left + WITHIN, width - 2.0 * WITHIN);
    let reach = mark(label.mark, Point::new(from, WITHIN + 0.01), 0.17, slab);
    slab.height = WITHIN + 0.02;
    let short = |kind: Type, told: &str, weight: Weight, room: f64| kind.cut_short(told, weight, room);
    let name = short(Type::CLOSE, &label.fabric, Weight::Regular, from + room - reach);
    set(&name, Type::CLOSE, Weight::Regular, (reach, from + room - reach), slab);
    slab.height += 0.04;
    let size = Type::SUBHEADING.set_cut_short(&label.size, Weight::Bold, room, SIZE_LINES);
    slab.lines(Type::SUBHEADING, &size, from);
    set(&label.count, Type::CLOSE, Weight::Regular, (from, room), slab);
    // Each label has the same room, however long its size.
    let lines = (SECTION_LINES + 1).saturating_sub(size.len()).max(1);
    let told = sections(&label.sections, room, lines);
    for line in Type::CLOSE.set_cut_short(&told, Weight::Regular, room, lines) {
        slab.line(Type::CLOSE, &line, from);
    }
    slab.height = HIGH - WITHIN - Type::SMALL.line() + 0.03;
    let pattern = short(Type::SMALL, &label.pattern, Weight::Regular, room);
    set(&pattern, Type::SMALL, Weight::Regular, (from, room), slab);
}

/// A line of words, cut off where there is no room for it.
fn set(told: &str, kind: Type, weight: Weight, (from, room): (f64, f64), slab: &mut Slab) {
    if let Some(line) = kind.set_cut_short(told, weight, room, 1).first() {
        slab.line(kind, line, from);
    }
}

/// As many sections as there is room for, and how many more there are.
fn sections(all: &[String], room: f64, lines: usize) -> String {
    let whole = all.join(", ");
    let fits = |told: &str| Type::CLOSE.set(&[(told, Weight::Regular)], room).len() <= lines;
    if fits(&whole) {
        return whole;
    }
    let shortened = |shown: usize| format!("{}, … + {}", all[..shown].join(", "), all.len() - shown);
    // The longest beginning that fits, by halving.
    let (mut least, mut most) = (1, all.len().max(1));
    while least + 1 < most {
        let middle = usize::midpoint(least, most);
        if fits(&shortened(middle)) { least = middle } else { most = middle }
    }
    if all.is_empty() { whole } else { shortened(least.min(all.len())) }
}
