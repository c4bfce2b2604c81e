//! Fabrics with room for cuttings, what to buy, and the cutting chart.

use super::super::chart::FabricChart;
use super::super::document::{Cell, Element, Heading, Mark, Part, Start, Swatch};
use super::super::page::Colour;
use super::{Desk, cell, column, paragraph, part, quiet, table, unseen};
use crate::model::Stock;
use crate::pattern::{fat_eighth, fat_quarter};

/// The fabrics, and the chart.
pub(super) fn parts(desk: &Desk<'_>) -> [Part; 2] {
    [fabrics(desk), cutting(desk)]
}

fn mark_of(fabric: &FabricChart) -> Mark {
    Mark { number: fabric.mark, colour: Colour(fabric.colour) }
}

fn fabrics(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let chart = desk.chart;
    let swatches = chart.fabrics.iter().map(|fabric| Swatch {
        mark: mark_of(fabric),
        name: fabric.name.clone(),
        lines: std::iter::once(fabric.print.clone()).filter(|print| !print.is_empty()).collect(),
    });
    let rows = chart.fabrics.iter().map(|fabric| {
        let name = Cell { fabric: Some(mark_of(fabric)), words: fabric.name.clone() };
        vec![name, cell(&fabric.buy), cell(&fabric.uses), cell(&fabric.total)]
    });
    let columns = vec![
        column(words.chart_fabric(), 3.2),
        column(words.chart_buy(), 2.4),
        column(words.chart_uses(), 1.8),
        column(words.chart_pieces(), 1.2),
    ];
    let elements = vec![
        paragraph(words.fabrics_intro()),
        Element::Swatches(swatches.collect()),
        table(words.chart_shopping_caption(), columns, rows.collect()),
        quiet(how_counted(desk)),
    ];
    part("fabrics", words.fabrics_title(), Start::NewPage, elements)
}

/// From what cloth the amounts are counted.
fn how_counted(desk: &Desk<'_>) -> String {
    let (cloth, units) = (&desk.model.cloth, desk.model.units);
    let fat = |(width, length)| desk.measures.rectangle(length, width);
    let width = if let Stock::Bolt(widths) = &cloth.stock { widths.first().copied() } else { None };
    let (usable, squaring) = (desk.measures.length(width.unwrap_or_default()), desk.measures.length(cloth.squaring));
    desk.words().chart_shopping_how(usable, squaring, fat(fat_quarter(units)), fat(fat_eighth(units)))
}

fn cutting(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let mut elements: Vec<Element> = desk.chart.intro.iter().cloned().map(paragraph).collect();
    for fabric in &desk.chart.fabrics {
        elements.push(Element::Heading(Heading {
            depth: 2,
            words: fabric.name.clone(),
            fabric: Some(mark_of(fabric)),
            place: None,
            bookmarked: true,
        }));
        let facts =
            [&fabric.total, &words.chart_uses_of(&fabric.uses), &words.chart_bound_of(&fabric.bound), &fabric.print];
        let facts: Vec<&str> = facts.into_iter().map(String::as_str).filter(|fact| !fact.is_empty()).collect();
        elements.push(quiet(facts.join("  ·  ")));
        let rows = |rows: &[[String; 3]]| rows.iter().map(|row| row.iter().map(cell).collect()).collect();
        let columns = vec![
            column(words.chart_strip(), 1.0),
            column(words.chart_strip_width(), 1.1),
            column(words.chart_strip_pieces(), 5.0),
        ];
        elements.push(unseen(words.chart_strips_caption(&fabric.name), columns, rows(&fabric.strips)));
        let columns =
            vec![column(words.chart_size(), 1.6), column(words.chart_count(), 1.0), column(words.chart_for(), 4.5)];
        elements.push(unseen(words.chart_pieces_caption(&fabric.name), columns, rows(&fabric.pieces)));
    }
    part("cutting", words.chart_title(), Start::NewPage, elements)
}
