//! What stands on every sheet beside the foundations: the heading with the check square, and the bar at the foot.

use crate::geometry::{Length, Point, Segment};
use crate::model::{JoinKind, Model};
use crate::packet::page::{Align, Colour, Item, Layer, Page, Path, Stroke, Text, Weight};
use crate::packet::typeface;
use crate::packet::words::Words;

use super::arrange::FilledSheet;
use super::bed::Bed;

/// Which sheet of how many, and how often it is printed.
#[derive(Clone, Copy)]
pub(super) struct Numbers<'s> {
    /// Counted from 1.
    pub number: usize,
    /// How many there are.
    pub total: usize,
    /// How often it is printed.
    pub times: u32,
    /// What it is marked with.
    pub stamp: Option<&'s str>,
    /// Whether a section on it is pieced.
    pub pieced: bool,
}

/// A sheet as it is printed.
pub(super) fn page(model: &Model, words: &Words, numbers: Numbers<'_>, (bed, filled): (Bed, &FilledSheet)) -> Page {
    let (width, height) = bed.sheet(filled.reach);
    let mut items = heading(model, words, numbers, bed);
    items.extend(filled.foundations.iter().flat_map(|foundation| foundation.items.iter().cloned()));
    items.extend(bars(bed, height, words));
    Page { width, height, title: words.sheet_title(numbers.number, numbers.total), description: String::new(), items }
}

fn text(at: (f64, f64), words: &str, points: f64, weight: Weight, align: Align) -> Item {
    let colour = if weight == Weight::Bold { Colour::BLACK } else { Colour::grey(70) };
    Item::Text(Text { colour, align, ..Text::line(Point::new(at.0, at.1), words, points, weight) })
}

/// How wide words are, in inches; their size in printer's points.
fn wide(words: &str, points: f64, weight: Weight) -> f64 {
    typeface::width(words, Length::points(points), weight).to_inches()
}

/// Words in at most this width in inches, cut short with an ellipsis where they are wider.
fn cut_short(words: &str, measure: f64, points: f64, weight: Weight) -> String {
    if wide(words, points, weight) <= measure {
        return words.to_owned();
    }
    let mut kept = String::new();
    let mut reach = wide("…", points, weight);
    for letter in words.chars() {
        reach += wide(letter.encode_utf8(&mut [0; 4]), points, weight);
        if reach > measure {
            break;
        }
        kept.push(letter);
    }
    format!("{}…", kept.trim_end())
}

/// Pattern, edition, size, sheet, how often to print it, which side to sew on, and the square by which the print is checked.
fn heading(model: &Model, words: &Words, numbers: Numbers<'_>, bed: Bed) -> Vec<Item> {
    let Numbers { number, total, times, stamp, pieced } = numbers;
    let margin = bed.margin.to_inches();
    let right = bed.paper.size().0.to_inches() - margin;
    // Left of the one-inch square.
    let edge = right - 1.15;
    let printed = words.sheet_times(times);
    let title_wide = edge - margin - wide(&printed, 16.0, Weight::Bold) - 0.2;
    let title = cut_short(&model.facts.title, title_wide, 16.0, Weight::Bold);
    let edition = words.sheet_edition(&model.facts.edition, &model.size);
    let edition = match stamp {
        None => edition,
        Some(stamp) => format!("{edition}  ·  {stamp}"),
    };
    let numbered = words.sheet_number(number, total);
    let edition =
        cut_short(&edition, edge - margin - wide(&numbered, 9.0, Weight::Regular) - 0.2, 9.0, Weight::Regular);
    let mut items = vec![
        text((margin, margin + 0.2), &title, 16.0, Weight::Bold, Align::Start),
        text((margin, margin + 0.4), &edition, 9.0, Weight::Regular, Align::Start),
        text((edge, margin + 0.2), &printed, 16.0, Weight::Bold, Align::End),
        text((edge, margin + 0.4), &numbered, 9.0, Weight::Regular, Align::End),
    ];
    let measure = Length::inches(edge - margin - 0.1);
    let mut joins = model.blocks.iter().flat_map(|block| &block.joins);
    let stops = joins.any(|join| matches!(join.kind, JoinKind::Partial { .. }));
    let ticks = if stops { words.sheet_ticks_stop() } else { words.sheet_ticks() };
    let strips = pieced.then(|| words.sheet_strips());
    let lines: Vec<String> = [words.sheet_side(), words.sheet_check(), ticks].into_iter().chain(strips).collect();
    let lines = lines.iter().flat_map(|line| typeface::wrapped(line, measure, Length::points(7.5), Weight::Regular));
    for (k, line) in (0_u8..).zip(lines) {
        items.push(text((margin, margin + 0.58 + f64::from(k) * 0.125), &line, 7.5, Weight::Regular, Align::Start));
    }
    let square = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)].map(|(x, y)| Point::new(right - 1.0 + x, margin + y));
    items.push(Path::area(&square, None, Some(Stroke::plain(0.7, Colour::BLACK)), Layer::Page).into());
    items.push(text((right - 0.5, margin + 0.54), &words.bar_inches(1), 9.0, Weight::Regular, Align::Middle));
    items
}

/// How long the bar along the page is: in inches, and in centimetres.
#[must_use]
pub fn bar_lengths(bed: Bed) -> (u32, u32) {
    let length = bed.room().0;
    (whole_units(length, 1.0), whole_units(length, 1.0 / 2.54))
}

/// How many whole units a length holds.
fn whole_units(length: f64, unit: f64) -> u32 {
    let mut count = 0_u32;
    while f64::from(count + 1) * unit <= length + 1e-9 {
        count += 1;
    }
    count
}

/// The bar along the page: inches above, centimetres below.
fn bars(bed: Bed, height: Length, words: &Words) -> Vec<Item> {
    let margin = bed.margin.to_inches();
    let (left, y) = (margin, height.to_inches() - margin - 0.22);
    let length = bed.room().0;
    let pen = || Stroke::plain(0.7, Colour::BLACK);
    let mut items: Vec<Item> = Vec::new();
    let mut scale = |unit: f64, up: f64, said: fn(&Words, u32) -> String| {
        let count = whole_units(length, unit);
        let mut lines = vec![Segment::new(Point::new(left, y), Point::new(left + f64::from(count) * unit, y))];
        for k in 0..=count {
            let x = left + f64::from(k) * unit;
            let long = if k == 0 || k == count || k % 5 == 0 { 0.1 } else { 0.06 };
            lines.push(Segment::new(Point::new(x, y), Point::new(x, y + up * long)));
        }
        items.push(Path::lines(lines, pen(), Layer::Page).into());
        let x = left + f64::from(count) * unit - 0.05;
        let baseline = if up < 0.0 { y - 0.045 } else { y + 0.125 };
        items.push(text((x, baseline), &said(words, count), 7.5, Weight::Regular, Align::End));
    };
    scale(1.0, -1.0, Words::bar_inches);
    scale(1.0 / 2.54, 1.0, Words::bar_centimetres);
    items
}
