//! A step: what to do on the left, what it looks like on the right.

use std::borrow::Cow;

use super::super::super::document::{Fact, Step};
use super::super::super::leaf::Kind;
use super::super::super::page::{Colour, Layer, Page, Path, Stroke, Weight};
use super::super::lines::{Measure, Run, Type};
use super::super::slab::Slab;
use super::figures::captioned;
use super::{GUTTER, PROSE, RULE, lines, mark, paragraph, tick_box};
use crate::geometry::{Point, Segment, Vector};

/// Words that reach farther below the figures than this run on under them, in inches.
const OVERHANG: f64 = 0.6;
/// So much below the figures may stand on another page, in inches: less is kept with them.
const LONG: f64 = 1.8;
/// What a swatch and its number take at the right of the title, in inches.
const MARK: f64 = 0.42;
/// From the top of a step to its figures: the rule, and white.
const ABOVE: f64 = 0.09;
/// The white between figures.
const BETWEEN: f64 = 0.12;

/// How words and figures share the width.
#[derive(Clone, Copy)]
struct Share {
    /// The share of the words.
    words: f64,
    /// So many figures stand beside each other.
    abreast: u8,
}

/// One figure or two, and words of a good measure.
const TWO: Share = Share { words: 0.485, abreast: 2 };
/// More figures in one row, beside words in a narrower column.
const THREE: Share = Share { words: 0.35, abreast: 3 };

/// The slabs of a step: one, unless its words are very long.
pub(super) fn step(step: &Step, wide: f64) -> Vec<Slab> {
    let share = if step.figures.len() > 2 { THREE } else { TWO };
    let measure = if step.figures.is_empty() { wide.min(PROSE) } else { wide * share.words };
    let figures = figures(step, share, measure, wide);
    let mut words = words(step, measure, measure, 0.0);
    if extent(&words) > figures.height + OVERHANG {
        words = self::words(step, measure, wide.min(PROSE), figures.height);
    }
    let is_long = extent(&words) > figures.height + LONG;
    let mut first = Slab { before: 0.16, ..Slab::default() };
    rule_above(&mut first, wide);
    first.place(&step.place);
    tick_box(Point::new(0.0, first.height + Type::SUBHEADING.baseline() - 0.1), &mut first.items);
    if let Some(fabric) = step.fabric {
        let at = Point::new(measure - MARK, first.height + 0.02);
        mark(fabric, at, Type::SUBHEADING.line() - 0.06, &mut first);
    }
    let mut rest = words.into_iter().peekable();
    let mut keeps = true;
    while let Some(slab) = rest.next_if(|_| !is_long || keeps || first.height < figures.height) {
        first.height += slab.before;
        first.take_in(&slab, Vector::new(0.0, first.height));
        first.height += slab.height;
        keeps = slab.keeps_next;
    }
    first.take_in(&figures, Vector::default());
    first.height = first.height.max(figures.height);
    std::iter::once(first.told(Kind::Step, 0, wide)).chain(rest).collect()
}

/// The height of the words of a step, with the rule above them.
fn extent(words: &[Slab]) -> f64 {
    RULED + words.iter().map(|slab| slab.before + slab.height).sum::<f64>()
}

/// What the rule above a step takes.
const RULED: f64 = 0.07;

fn rule_above(slab: &mut Slab, wide: f64) {
    let rule = Segment::new(Point::new(0.0, 0.0), Point::new(wide, 0.0));
    slab.items.push(Path::lines([rule], Stroke::plain(0.4, RULE), Layer::Page).into());
    slab.height += RULED;
}

/// The words line by line: narrow down to a height, wide below it.
fn words(step: &Step, narrow: f64, wide: f64, beside: f64) -> Vec<Slab> {
    let measure = |kind: Type, above: f64| {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "some lines of a page")]
        let beside = ((beside - above) / kind.line()).ceil().clamp(0.0, 1e3) as usize;
        Measure { beside, narrow, wide }
    };
    let indent = 0.2;
    let room = narrow - indent - step.fabric.map_or(0.0, |_| MARK);
    let title = Type::SUBHEADING.set(&[(&step.title, Weight::Bold)], room);
    let mut slabs = Vec::new();
    for line in &title {
        let mut slab = Slab { keeps_next: slabs.len() < 12, ..Slab::default() };
        slab.line(Type::SUBHEADING, line, indent);
        slabs.push(slab.told(Kind::Heading, 0, narrow));
    }
    for (number, Fact { name, value }) in step.facts.iter().enumerate() {
        let name = format!("{name}:");
        let runs: [Run<'_>; 2] = [(&name, Weight::Regular), (value, Weight::Bold)];
        let kind = Type { colour: Colour::grey(60), ..Type::SMALL };
        let set = lines(&runs, kind, Measure::of(narrow), 0.0, number);
        slabs.extend(set.into_iter().map(|slab| Slab { before: 0.0, keeps_next: true, ..slab }));
    }
    for (number, paragraph) in (step.facts.len()..).zip(&step.text) {
        let above = extent(&slabs);
        let set = self::paragraph(paragraph, Type::CLOSE, measure(Type::CLOSE, above), number);
        slabs.extend(set.into_iter().map(|slab| Slab { before: slab.before * 0.6, ..slab }));
    }
    slabs
}

fn figures(step: &Step, share: Share, measure: f64, wide: f64) -> Slab {
    let mut slab = Slab::default();
    let left = measure + GUTTER;
    let abreast = share.abreast.min(u8::try_from(step.figures.len()).unwrap_or(u8::MAX)).max(1);
    let width = (wide - left - BETWEEN * f64::from(abreast - 1)) / f64::from(abreast);
    let mut y = ABOVE;
    for row in step.figures.chunks(usize::from(abreast)) {
        let mut lowest: f64 = 0.0;
        let mut x = left;
        for figure in row {
            let drawing: Cow<'_, Page> = figure.drawing.fitted(width);
            lowest = lowest.max(captioned(&drawing, &figure.caption, Point::new(x, y), &mut slab));
            x += width + BETWEEN;
        }
        y += lowest + 0.08;
    }
    slab.height = if step.figures.is_empty() { 0.0 } else { y };
    slab
}
