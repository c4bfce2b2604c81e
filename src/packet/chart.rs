//! The cutting chart: what to buy, the strips, the pieces; in words, and as pages.

use crate::geometry::{Length, Point};
use crate::model::{FabricCutting, Model, Print, PrintDirection, Strip};

use super::label::Label;
use super::measure::Measures;
use super::page::{Align, Colour, Item, Layer, Page, Path, Stroke, Text, Weight};
use super::typeface;

/// The chart of a pattern.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chart {
    /// How to read it.
    pub intro: Vec<String>,
    /// The fabrics, in the order of the model.
    pub fabrics: Vec<FabricChart>,
}

/// The chart of one fabric.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FabricChart {
    /// Its name.
    pub name: String,
    /// Its mark.
    pub mark: u32,
    /// Its colour.
    pub colour: [u8; 3],
    /// What its print asks for; empty where it has no direction.
    pub print: String,
    /// What to buy.
    pub buy: String,
    /// How much of the length the strips use.
    pub uses: String,
    /// The length below which no layout goes.
    pub bound: String,
    /// How many pieces in all.
    pub total: String,
    /// The strips: number or numbers, width, pieces from end to end.
    pub strips: Vec<[String; 3]>,
    /// The pieces: size, how many, for which sections.
    pub pieces: Vec<[String; 3]>,
}

/// The chart of a model in words.
#[must_use]
pub fn chart(model: &Model, measures: Measures<'_>) -> Chart {
    let words = measures.words();
    let fabrics: Vec<FabricChart> = model.cutting.iter().map(|cutting| fabric(model, cutting, measures)).collect();
    let directional = fabrics.iter().any(|fabric| !fabric.print.is_empty());
    let print = directional.then(|| words.chart_intro_print());
    Chart { intro: std::iter::once(words.chart_intro()).chain(print).collect(), fabrics }
}

fn fabric(model: &Model, cutting: &FabricCutting, measures: Measures<'_>) -> FabricChart {
    let words = measures.words();
    let fabric = &model.fabrics[cutting.fabric];
    let length = measures.fabric(cutting.buy.length);
    FabricChart {
        name: fabric.name.clone(),
        mark: fabric.mark,
        colour: fabric.colour,
        print: print(fabric.print, measures),
        buy: match (cutting.buy.fat_eighth, cutting.buy.fat_quarter) {
            (true, _) => words.chart_buy_fat_eighth(length),
            (false, true) => words.chart_buy_fat_quarter(length),
            (false, false) => length,
        },
        uses: words.chart_uses_value(measures.length(cutting.length)),
        bound: measures.length(cutting.lower_bound),
        total: words.chart_pieces_total(cutting.pieces.iter().map(|group| group.count).sum::<u32>()),
        strips: strips(cutting, measures),
        pieces: cutting
            .pieces
            .iter()
            .map(|group| [measures.rectangle(group.width, group.height), group.count.to_string(), group.label.clone()])
            .collect(),
    }
}

fn print(print: Print, measures: Measures<'_>) -> String {
    let words = measures.words();
    match (print.direction, print.across) {
        (PrintDirection::None, _) => String::new(),
        (PrintDirection::OneWay, false) => words.chart_one_way(),
        (PrintDirection::TwoWay, false) => words.chart_two_way(),
        (PrintDirection::OneWay, true) => words.chart_one_way_across(),
        (PrintDirection::TwoWay, true) => words.chart_two_way_across(),
    }
}

/// The strips, equal neighbours told together.
fn strips(cutting: &FabricCutting, measures: Measures<'_>) -> Vec<[String; 3]> {
    let words = measures.words();
    let alike = |a: &Strip, b: &Strip| {
        let content = |strip: &Strip| strip.pieces.iter().map(|piece| (piece.group, piece.turned)).collect::<Vec<_>>();
        a.width == b.width && content(a) == content(b)
    };
    let mut rows = Vec::new();
    let mut at = 0;
    while let Some(strip) = cutting.strips.get(at) {
        let count = cutting.strips[at..].iter().take_while(|other| alike(strip, other)).count().max(1);
        let number =
            if count == 1 { words.chart_strip_one(at + 1) } else { words.chart_strip_range(at + 1, at + count) };
        let mut runs: Vec<(usize, bool, u32)> = Vec::new();
        for piece in &strip.pieces {
            match runs.last_mut() {
                Some((group, turned, n)) if (*group, *turned) == (piece.group, piece.turned) => *n += 1,
                _ => runs.push((piece.group, piece.turned, 1)),
            }
        }
        let told: Vec<String> = runs
            .into_iter()
            .map(|(group, turned, n)| {
                let group = &cutting.pieces[group];
                let size = measures.rectangle(group.width, group.height);
                if turned { words.chart_strip_run_turned(n, size) } else { words.chart_strip_run(n, size) }
            })
            .collect();
        rows.push([number, measures.length(strip.width), told.join("; ")]);
        at += count;
    }
    rows
}

/// A page being filled from the top.
struct Sheet<'m> {
    model: &'m Model,
    measures: Measures<'m>,
    pages: Vec<Vec<Item>>,
    y: f64,
}

/// The columns of a table: where each begins and how wide it is, in inches from the left margin.
const COLUMNS: [(f64, f64); 3] = [(0.0, 1.35), (1.4, 0.95), (2.4, 5.0)];
const BODY: f64 = 9.0;
const LINE: f64 = 0.16;

/// The chart as pages of the model's paper.
#[must_use]
pub fn pages(model: &Model, chart: &Chart, measures: Measures<'_>) -> Vec<Page> {
    let words = measures.words();
    let mut sheet = Sheet { model, measures, pages: Vec::new(), y: f64::INFINITY };
    sheet.need(1.0);
    sheet.write(0.0, &words.chart_title(), 16.0, Weight::Bold);
    sheet.y += 0.3;
    for line in &chart.intro {
        sheet.paragraph(line);
    }
    for fabric in &chart.fabrics {
        sheet.fabric(fabric);
    }
    let total = sheet.pages.len();
    let (width, height) = model.paper.size();
    let margin = model.paper.margin().to_inches();
    let facts = &model.facts;
    let foot = words.chart_page(&facts.title, &facts.edition, &model.size);
    let pages = sheet.pages.into_iter().enumerate().map(|(number, mut items)| {
        let y = height.to_inches() - margin;
        items.push(text(margin, y, &foot, 8.0, Weight::Regular, Align::Start));
        let numbered = words.chart_page_number(number + 1, total);
        items.push(text(width.to_inches() - margin, y, &numbered, 8.0, Weight::Regular, Align::End));
        Page { width, height, title: words.chart_title(), description: String::new(), items }
    });
    pages.collect()
}

fn text(x: f64, y: f64, words: &str, points: f64, weight: Weight, align: Align) -> Item {
    Item::Text(Text { align, ..Text::line(Point::new(x, y), words, points, weight) })
}

impl Sheet<'_> {
    fn margin(&self) -> f64 {
        self.model.paper.margin().to_inches()
    }

    /// Begins a new page unless so much is left on this one.
    fn need(&mut self, height: f64) {
        let bottom = self.model.paper.size().1.to_inches() - self.margin() - 0.35;
        if self.y + height > bottom {
            self.pages.push(Vec::new());
            self.y = self.margin() + 0.25;
        }
    }

    fn push(&mut self, item: Item) {
        if let Some(page) = self.pages.last_mut() {
            page.push(item);
        }
    }

    fn write(&mut self, x: f64, words: &str, points: f64, weight: Weight) {
        let item = text(self.margin() + x, self.y, words, points, weight, Align::Start);
        self.push(item);
    }

    fn wide(&self) -> f64 {
        self.model.paper.size().0.to_inches() - 2.0 * self.margin()
    }

    fn paragraph(&mut self, words: &str) {
        let lines = typeface::wrapped(words, Length::inches(self.wide()), Length::points(BODY), Weight::Regular);
        for line in lines {
            self.need(LINE);
            self.write(0.0, &line, BODY, Weight::Regular);
            self.y += LINE;
        }
        self.y += 0.06;
    }

    fn fabric(&mut self, fabric: &FabricChart) {
        let words = self.measures.words();
        // The heading, what to buy, and the first rows stay together.
        self.need(1.9);
        self.y += 0.28;
        let (left, top) = (self.margin(), self.y - 0.17);
        if let Some(swatch) =
            crate::geometry::Polygon::rectangle(Point::new(left, top), Point::new(left + 0.42, top + 0.42))
        {
            let mut items = Vec::new();
            super::hatch::fabric(&swatch, fabric.mark, fabric.colour, &mut items);
            items.push(Path::polygon(&swatch, None, Some(Stroke::plain(0.5, Colour::BLACK)), Layer::Page).into());
            for item in items {
                self.push(item);
            }
        }
        let ring = Label::ringed(fabric.mark, Length::points(12.0), Colour::BLACK);
        let mut items = Vec::new();
        ring.draw(Point::new(left + 0.64, self.y - 0.055), 0.0, &mut items);
        for item in items {
            self.push(item);
        }
        let name =
            typeface::wrapped(&fabric.name, Length::inches(self.wide() - 2.6), Length::points(12.0), Weight::Bold);
        self.write(0.82, name.first().map_or("", String::as_str), 12.0, Weight::Bold);
        let right = self.margin() + self.wide();
        let buy = format!("{}: {}", words.chart_buy(), fabric.buy);
        self.push(text(right, self.y, &buy, 10.0, Weight::Bold, Align::End));
        self.y += 0.19;
        let mut facts = vec![
            fabric.total.clone(),
            format!("{}: {}", words.chart_uses(), fabric.uses),
            format!("{} {}", words.chart_bound(), fabric.bound),
        ];
        facts.extend((!fabric.print.is_empty()).then(|| fabric.print.clone()));
        self.write(0.82, &facts.join("  ·  "), 8.0, Weight::Regular);
        self.y += 0.3;
        let strips = [words.chart_strip(), words.chart_strip_width(), words.chart_strip_pieces()];
        self.table(&strips, &fabric.strips);
        let pieces = [words.chart_size(), words.chart_count(), words.chart_for()];
        self.table(&pieces, &fabric.pieces);
    }

    /// A table whose rows are never split and whose head is repeated on every page.
    fn table(&mut self, head: &[String; 3], rows: &[[String; 3]]) {
        let mut fresh = true;
        for row in rows {
            let cells: Vec<Vec<String>> = row
                .iter()
                .zip(COLUMNS)
                .map(|(cell, (x, width))| {
                    let width = width.min(self.wide() - x);
                    typeface::wrapped(cell, Length::inches(width), Length::points(BODY), Weight::Regular)
                })
                .collect();
            #[expect(clippy::cast_precision_loss, reason = "a handful of lines")]
            let height = cells.iter().map(Vec::len).max().unwrap_or(1) as f64 * LINE;
            let before = self.pages.len();
            self.need(height + if fresh { 0.25 } else { 0.05 });
            if fresh || self.pages.len() > before {
                for (words, (x, _)) in head.iter().zip(COLUMNS) {
                    self.write(x, words, 8.0, Weight::Bold);
                }
                let (left, y) = (self.margin(), self.y + 0.05);
                let rule = crate::geometry::Segment::new(Point::new(left, y), Point::new(left + self.wide(), y));
                self.push(Path::lines([rule], Stroke::plain(0.4, Colour::grey(120)), Layer::Page).into());
                self.y += 0.2;
                fresh = false;
            }
            let top = self.y;
            for (lines, (x, _)) in cells.iter().zip(COLUMNS) {
                self.y = top;
                for line in lines {
                    self.write(x, line, BODY, Weight::Regular);
                    self.y += LINE;
                }
            }
            self.y = top + height;
        }
        self.y += 0.12;
    }
}
