//! A step: what to do on the left, what it looks like on the right.

use super::super::super::document::Step;
use super::super::super::page::{Colour, Layer, Path, Stroke, Weight};
use super::super::lines::{Run, Type};
use super::super::slab::Slab;
use super::figures::captioned;
use super::{GUTTER, RULE, mark, paragraph, tick_box};
use crate::geometry::{Point, Segment, Vector};

/// The share of the width that the words have.
const WORDS: f64 = 0.485;
/// What a swatch and its number take at the right of the title, in inches.
const MARK: f64 = 0.42;
/// A step of more lines than this may be broken over pages, in inches.
const LONGEST: f64 = 6.0;

/// The slabs of a step: one, unless an author's words are very long.
pub(super) fn step(step: &Step, wide: f64) -> Vec<Slab> {
    let measure = if step.figures.is_empty() { wide.min(super::PROSE) } else { wide * WORDS };
    let mut slabs = vec![Slab { before: 0.16, ..Slab::default() }];
    let indent = 0.2;
    if let Some(first) = slabs.first_mut() {
        rule_above(first, wide);
        tick_box(Point::new(0.0, first.height + Type::SUBHEADING.baseline() - 0.1), &mut first.items);
        let room = if step.fabric.is_some() { MARK } else { 0.0 };
        if let Some(fabric) = step.fabric {
            mark(fabric, Point::new(measure - room, first.height + 0.02), Type::SUBHEADING.line() - 0.06, first);
        }
        for line in Type::SUBHEADING.set(&[(&step.title, Weight::Bold)], measure - indent - room) {
            first.line(Type::SUBHEADING, &line, indent);
        }
        facts(step, measure, first);
        first.place(&step.place);
    }
    for paragraph in step.text.iter().flat_map(|paragraph| self::paragraph(paragraph, Type::CLOSE, measure)) {
        let Some(slab) = slabs.last_mut() else { break };
        if slab.height + paragraph.height > LONGEST {
            slabs.push(paragraph);
        } else {
            slab.take_in(&paragraph, Vector::new(0.0, slab.height + paragraph.before * 0.6));
            slab.height += paragraph.before * 0.6 + paragraph.height;
        }
    }
    if let Some(first) = slabs.first_mut() {
        figures(step, measure, wide, first);
    }
    slabs
}

fn rule_above(slab: &mut Slab, wide: f64) {
    let rule = Segment::new(Point::new(0.0, 0.0), Point::new(wide, 0.0));
    slab.items.push(Path::lines([rule], Stroke::plain(0.4, RULE), Layer::Page).into());
    slab.height += 0.07;
}

/// The facts in one run of text: names soft, values strong.
fn facts(step: &Step, measure: f64, slab: &mut Slab) {
    for fact in &step.facts {
        let name = format!("{}:", fact.name);
        let runs: [Run<'_>; 2] = [(&name, Weight::Regular), (&fact.value, Weight::Bold)];
        let kind = Type { colour: Colour::grey(60), ..Type::SMALL };
        for line in kind.set(&runs, measure) {
            slab.line(kind, &line, 0.0);
        }
    }
}

fn figures(step: &Step, measure: f64, wide: f64, slab: &mut Slab) {
    let left = measure + GUTTER;
    let room = wide - left;
    let between = 0.12;
    let width = if step.figures.len() == 1 { room } else { (room - between) / 2.0 };
    let mut y = 0.09;
    for pair in step.figures.chunks(2) {
        let mut lowest: f64 = 0.0;
        let mut x = left;
        for figure in pair {
            let high = captioned(figure, Point::new(x, y), width, slab);
            lowest = lowest.max(high);
            x += width + between;
        }
        y += lowest + 0.08;
    }
    slab.height = slab.height.max(y);
}
