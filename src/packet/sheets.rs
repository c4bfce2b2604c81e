//! Sheets: foundations on paper by a plain fill, one after the other, shelf by shelf; sheets that come out alike are one sheet printed several times.

use crate::geometry::{Length, Point, Polygon, Segment, Transform, Vector};
use crate::model::{JoinKind, Model, Paper};

use super::contents::Audience;
use super::foundation::{Foundation, foundation};
use super::page::{Align, Colour, Item, Layer, Page, Path, Stroke, Text, Weight};
use super::words::Words;

/// What is kept for the heading of a sheet, in inches.
const HEAD: f64 = 1.05;
/// What is kept for the bar at its foot.
const FOOT: f64 = 0.36;
/// The gap between foundations, for the scissors.
const GAP: f64 = 0.12;

/// A sheet to print.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// `1`, `2`, ….
    pub id: String,
    /// The paper.
    pub paper: Paper,
    /// How often to print it.
    pub times: u32,
    /// What is on it.
    pub foundations: Vec<SheetFoundation>,
    /// The page.
    pub page: Page,
}

/// A foundation on its sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetFoundation {
    /// The block, by index.
    pub block: usize,
    /// The foundation, by index in its block.
    pub variant: usize,
    /// Which part of how many.
    pub part: Option<(u32, u32)>,
    /// From the unit's frame to the sheet's.
    pub matrix: Transform,
    /// What is cut out, in the sheet's frame.
    pub cutting_line: Polygon,
}

/// The area of a page for foundations: its upper left corner, width and height in inches.
#[must_use]
pub fn room(paper: Paper) -> (Point, f64, f64) {
    let (width, height) = paper.size();
    let margin = paper.margin().to_inches();
    let (wide, high) = (width.to_inches() - 2.0 * margin, height.to_inches() - 2.0 * margin - HEAD - FOOT);
    (Point::new(margin, margin + HEAD), wide, high)
}

/// A foundation by its number, and where it lies.
type Places = Vec<(usize, Point)>;

/// All sheets of a pattern: as many copies of each foundation as are sewn.
#[must_use]
pub fn sheets(model: &Model, words: &Words, audience: Audience) -> Vec<Sheet> {
    let (origin, wide, high) = room(model.paper);
    let mut foundations: Vec<Foundation> = Vec::new();
    let mut copies: Vec<(usize, u32)> = Vec::new();
    for (block_index, block) in model.blocks.iter().enumerate() {
        let sewn =
            block.variants.iter().enumerate().filter(|(_, variant)| variant.sewn > 0 && block.has_paper(variant));
        for (variant_index, variant) in sewn {
            for foundation in foundation(model, block_index, variant_index, (wide, high), words) {
                copies.push((foundations.len(), variant.sewn));
                foundations.push(foundation);
            }
        }
    }
    let mut filled: Vec<(Places, u32)> = Vec::new();
    let mut fill = Fill { wide, high, page: Vec::new(), x: 0.0, y: 0.0, shelf: 0.0 };
    for (index, count) in copies {
        for _ in 0..count {
            if let Some(page) = fill.place(index, &foundations[index]) {
                merge(&mut filled, page);
            }
        }
    }
    merge(&mut filled, fill.page);
    filled.retain(|(places, _)| !places.is_empty());
    let total = filled.len();
    let drawn = filled.into_iter().enumerate().map(|(number, (places, times))| {
        let on_sheet: Vec<(&Foundation, Vector)> =
            places.iter().map(|&(index, at)| (&foundations[index], origin.to_vector() + at.to_vector())).collect();
        let pieced = on_sheet.iter().any(|(foundation, _)| {
            let block = &model.blocks[foundation.block];
            block.unit_of(&block.variants[foundation.variant]).sections.iter().any(|s| !s.pieced.is_empty())
        });
        sheet(model, words, Numbers { number: number + 1, total, times, audience, pieced }, &on_sheet)
    });
    drawn.collect()
}

/// Adds a page, or counts it again if it is like the one before.
fn merge(filled: &mut Vec<(Places, u32)>, page: Places) {
    match filled.iter_mut().find(|(places, _)| *places == page) {
        Some((_, times)) => *times += 1,
        None => filled.push((page, 1)),
    }
}

/// A page being filled.
struct Fill {
    wide: f64,
    high: f64,
    page: Places,
    x: f64,
    y: f64,
    shelf: f64,
}

impl Fill {
    /// Places a foundation; hands over the full page where it begins a new one.
    fn place(&mut self, index: usize, foundation: &Foundation) -> Option<Places> {
        if self.x > 0.0 && self.x + foundation.width > self.wide + 1e-9 {
            self.y += self.shelf + GAP;
            (self.x, self.shelf) = (0.0, 0.0);
        }
        let mut full = None;
        if !self.page.is_empty() && self.y + foundation.height > self.high + 1e-9 {
            full = Some(std::mem::take(&mut self.page));
            (self.x, self.y, self.shelf) = (0.0, 0.0, 0.0);
        }
        self.page.push((index, Point::new(self.x, self.y)));
        self.x += foundation.width + GAP;
        self.shelf = self.shelf.max(foundation.height);
        full
    }
}

/// Which sheet of how many, and how often it is printed.
#[derive(Clone, Copy)]
struct Numbers {
    number: usize,
    total: usize,
    times: u32,
    audience: Audience,
    /// Whether a section on it is pieced.
    pieced: bool,
}

fn sheet(model: &Model, words: &Words, numbers: Numbers, foundations: &[(&Foundation, Vector)]) -> Sheet {
    let Numbers { number, total, times, .. } = numbers;
    let (width, height) = model.paper.size();
    let mut items = heading(model, words, numbers);
    let mut on_it = Vec::new();
    for (foundation, shift) in foundations {
        items.extend(foundation.items.iter().map(|item| item.moved(*shift)));
        let moved = Transform::shift(*shift);
        on_it.push(SheetFoundation {
            block: foundation.block,
            variant: foundation.variant,
            part: foundation.part,
            matrix: foundation.matrix.then(moved),
            cutting_line: moved.apply_to_polygon(&foundation.cutting_line),
        });
    }
    items.extend(bars(model.paper, words));
    let page = Page { width, height, title: words.sheet_title(number, total), description: String::new(), items };
    Sheet { id: number.to_string(), paper: model.paper, times, foundations: on_it, page }
}

fn text(at: (f64, f64), words: &str, points: f64, weight: Weight, align: Align) -> Item {
    let colour = if weight == Weight::Bold { Colour::BLACK } else { Colour::grey(70) };
    Item::Text(Text { colour, align, ..Text::line(Point::new(at.0, at.1), words, points, weight) })
}

/// How wide words are, in inches; their size in printer's points.
fn wide(words: &str, points: f64, weight: Weight) -> f64 {
    super::typeface::width(words, Length::points(points), weight).to_inches()
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
fn heading(model: &Model, words: &Words, numbers: Numbers) -> Vec<Item> {
    let Numbers { number, total, times, audience, pieced } = numbers;
    let margin = model.paper.margin().to_inches();
    let right = model.paper.size().0.to_inches() - margin;
    // Left of the one-inch square.
    let edge = right - 1.15;
    let printed = words.sheet_times(times);
    let title_wide = edge - margin - wide(&printed, 16.0, Weight::Bold) - 0.2;
    let title = cut_short(&model.facts.title, title_wide, 16.0, Weight::Bold);
    let edition = words.sheet_edition(&model.facts.edition, &model.size);
    let edition = match audience {
        Audience::Sewers => edition,
        Audience::Testers => format!("{edition}  ·  {}", words.tester_stamp()),
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
    let lines =
        lines.iter().flat_map(|line| super::typeface::wrapped(line, measure, Length::points(7.5), Weight::Regular));
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
pub fn bar_lengths(paper: Paper) -> (u32, u32) {
    let length = paper.size().0.to_inches() - 2.0 * paper.margin().to_inches();
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
fn bars(paper: Paper, words: &Words) -> Vec<Item> {
    let (width, height) = paper.size();
    let margin = paper.margin().to_inches();
    let (left, y) = (margin, height.to_inches() - margin - 0.22);
    let length = width.to_inches() - 2.0 * margin;
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
