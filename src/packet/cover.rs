//! The first pages: the block from the front, the facts, the unit map, the cautions.

use crate::geometry::{Length, Point, Vector};
use crate::model::Model;

use super::figure::{block_front, unit_map};
use super::page::{Colour, Item, Page, Text, Weight};
use super::typeface;
use super::words::Words;

fn text(x: f64, y: f64, words: &str, points: f64, weight: Weight, colour: Colour) -> Item {
    Item::Text(Text { colour, ..Text::line(Point::new(x, y), words, points, weight) })
}

/// A page being filled from the top.
struct Column {
    items: Vec<Item>,
    left: f64,
    wide: f64,
    y: f64,
}

impl Column {
    fn lines(&mut self, words: &str, points: f64, weight: Weight, colour: Colour) {
        let lines = typeface::wrapped(words, Length::inches(self.wide), Length::points(points), weight);
        for line in lines {
            self.items.push(text(self.left, self.y, &line, points, weight, colour));
            self.y += points / 72.0 * 1.32;
        }
    }

    fn figure(&mut self, page: &Page, x: f64) {
        let shift = Vector::new(self.left + x, self.y);
        self.items.extend(page.items.iter().map(|item| item.moved(shift)));
    }
}

/// The pages before the chart.
#[must_use]
pub fn pages(model: &Model, facts: &[(String, String)], cautions: &[String], words: &Words) -> Vec<Page> {
    let (width, height) = model.paper.size();
    let margin = model.paper.margin().to_inches() + 0.15;
    let wide = width.to_inches() - 2.0 * margin;
    let bottom = height.to_inches() - margin;
    let soft = Colour::grey(90);
    let page =
        |title: String, column: Column| Page { width, height, title, description: String::new(), items: column.items };
    let mut pages = Vec::new();

    let mut first = Column { items: Vec::new(), left: margin, wide, y: margin + 0.4 };
    first.lines(&model.facts.title, 30.0, Weight::Bold, Colour::BLACK);
    let edition = match &model.facts.date {
        Some(date) => words.packet_dated(&model.facts.edition, date),
        None => words.packet_edition(&model.facts.edition),
    };
    let author = model.facts.author.as_ref().map(|author| format!("  ·  {author}")).unwrap_or_default();
    first.lines(&format!("{edition}  ·  {}{author}", model.size), 11.0, Weight::Regular, soft);
    first.y += 0.15;
    let count = model.blocks.len().max(1);
    #[expect(clippy::cast_precision_loss, reason = "a handful of blocks")]
    let columns = count.min(3) as f64;
    let gap = 0.3;
    let figure_wide = ((wide - gap * (columns - 1.0)) / columns).min(4.9);
    let mut row_high: f64 = 0.0;
    let mut x = 0.0;
    // At most two rows of pictures; the unit maps show every block.
    for block in model.blocks.iter().take(6) {
        let figure = block_front(model, block, Length::inches(figure_wide), words);
        if x + figure_wide > wide + 1e-9 {
            first.y += row_high + gap;
            (x, row_high) = (0.0, 0.0);
        }
        if first.y + figure.height.to_inches() > bottom - 2.0 {
            break;
        }
        first.figure(&figure, x);
        row_high = row_high.max(figure.height.to_inches());
        x += figure_wide + gap;
    }
    first.y += row_high + 0.45;
    for (name, value) in facts {
        let lines = typeface::wrapped(value, Length::inches(wide - 1.8), Length::points(10.0), Weight::Regular);
        if first.y > bottom {
            break;
        }
        first.items.push(text(margin, first.y, name, 10.0, Weight::Regular, soft));
        for line in lines {
            first.items.push(text(margin + 1.8, first.y, &line, 10.0, Weight::Regular, Colour::BLACK));
            first.y += 0.185;
        }
    }
    pages.push(page(model.facts.title.clone(), first));

    for block in &model.blocks {
        let mut map = Column { items: Vec::new(), left: margin, wide, y: margin + 0.3 };
        map.lines(&block.name, 18.0, Weight::Bold, Colour::BLACK);
        map.lines(&words.map_caption(), 10.0, Weight::Regular, soft);
        map.y += 0.1;
        let figure = unit_map(model, block, Length::inches(wide.min(5.8)), words);
        map.figure(&figure, 0.0);
        map.y += figure.height.to_inches() + 0.35;
        for note in block.notes.iter().chain(&model.facts.notes) {
            if map.y < bottom - 0.4 {
                map.lines(note, 10.0, Weight::Regular, Colour::BLACK);
            }
        }
        pages.push(page(block.name.clone(), map));
    }

    let mut care = Column { items: Vec::new(), left: margin, wide, y: margin + 0.3 };
    care.lines(&words.cautions_title(), 18.0, Weight::Bold, Colour::BLACK);
    for caution in cautions {
        care.y += 0.08;
        care.lines(caution, 10.5, Weight::Regular, Colour::BLACK);
    }
    pages.push(page(words.cautions_title(), care));
    pages
}
