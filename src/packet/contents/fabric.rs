//! Fabrics with room for cuttings, and what to buy.

use super::super::document::{Cell, Element, Mark, Part, Start, Swatch};
use super::super::page::Colour;
use super::cutting::mark_of;
use super::{Desk, cell, column, paragraph, part, quiet, table};

/// The fabrics.
pub(super) fn fabrics(desk: &Desk<'_>) -> Part {
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
        column(words.chart_buy(), 2.6),
        column(words.chart_uses(), 1.8),
        column(words.chart_pieces(), 1.2),
    ];
    let mut elements = vec![
        paragraph(words.fabrics_intro()),
        Element::Swatches(swatches.collect()),
        table(words.chart_shopping_caption(), columns, rows.collect()),
        paragraph(chart.total.join(" ")),
        quiet(chart.how.join(" ")),
    ];
    let coloured = chart.colourings.iter().map(|colouring| {
        let rows = colouring.fabrics.iter().map(|fabric| {
            let mark = Mark { number: fabric.mark, colour: Colour(fabric.colour) };
            let name = Cell { fabric: Some(mark), words: fabric.name.clone() };
            vec![name, cell(&fabric.in_place), cell(&fabric.buy)]
        });
        let columns = vec![
            column(words.chart_fabric(), 3.2),
            column(words.chart_in_place(), 3.0),
            column(words.chart_buy(), 2.6),
        ];
        table(words.chart_colouring_caption(&colouring.title), columns, rows.collect())
    });
    elements.extend(coloured);
    part("fabrics", words.fabrics_title(), Start::NewPage, elements)
}
