//! Tables: rows are never split, and the head is repeated on every page.

use super::super::super::document::{Cell, Table};
use super::super::super::page::{Layer, Path, Stroke, Weight};
use super::super::lines::Type;
use super::super::slab::Slab;
use super::{RULE, mark, repeated};
use crate::geometry::{Point, Segment};

/// The white between columns.
const BETWEEN: f64 = 0.12;
/// A row with a cell to be filled in by hand is at least so high.
const BY_HAND: f64 = 0.34;

/// The slabs of a table: caption, head, rows.
pub(super) fn table(table: &Table, wide: f64) -> Vec<Slab> {
    let columns = columns(table, wide);
    let mut slabs = Vec::new();
    if table.caption_seen {
        let mut caption = Slab { before: 0.16, keeps_next: true, ..Slab::default() };
        for line in Type::CLOSE.set(&[(&table.caption, Weight::Bold)], wide) {
            caption.line(Type::CLOSE, &line, 0.0);
        }
        slabs.push(caption);
    }
    let head = head(table, &columns, wide);
    let again = repeated(head.clone());
    slabs.push(Slab { before: if table.caption_seen { 0.02 } else { 0.12 }, keeps_next: true, ..head });
    let last = table.rows.len().saturating_sub(1);
    for (number, cells) in table.rows.iter().enumerate() {
        let mut row = row(cells, &columns, wide);
        row.head = Some(again.clone());
        // Neither the first row nor the last stands alone.
        row.keeps_next = number < last && (number == 0 || number + 1 == last);
        slabs.push(row);
    }
    slabs
}

/// Where each column begins and how wide it is.
fn columns(table: &Table, wide: f64) -> Vec<(f64, f64)> {
    let shares: f64 = table.columns.iter().map(|column| column.share).sum();
    let mut left = 0.0;
    let mut found = Vec::with_capacity(table.columns.len());
    for column in &table.columns {
        let width = wide * column.share / shares.max(1e-9);
        found.push((left, width - BETWEEN));
        left += width;
    }
    found
}

fn head(table: &Table, columns: &[(f64, f64)], wide: f64) -> Slab {
    let mut slab = Slab::default();
    let set: Vec<_> = table
        .columns
        .iter()
        .zip(columns)
        .map(|(column, &(_, width))| Type::SMALL.set(&[(&column.head, Weight::Bold)], width))
        .collect();
    let most = set.iter().map(Vec::len).max().unwrap_or(0);
    for (lines, &(x, _)) in set.iter().zip(columns) {
        // Heads stand on the rule, however many lines their neighbours have.
        slab.height = 0.0;
        for _ in lines.len()..most {
            slab.height += Type::SMALL.line();
        }
        for line in lines {
            slab.line(Type::SMALL, line, x);
        }
    }
    slab.height += 0.03;
    rule(&mut slab, wide, 0.9);
    slab.height += 0.03;
    slab
}

fn row(cells: &[Cell], columns: &[(f64, f64)], wide: f64) -> Slab {
    let mut slab = Slab::default();
    let mut lowest: f64 = 0.0;
    for (number, (cell, &(x, width))) in cells.iter().zip(columns).enumerate() {
        slab.height = 0.02;
        let indent = match cell.fabric {
            Some(fabric) => mark(fabric, Point::new(x, 0.035), 0.14, &mut slab) - x,
            None => 0.0,
        };
        let weight = if number == 0 { Weight::Bold } else { Weight::Regular };
        for line in Type::CLOSE.set(&[(&cell.words, weight)], width - indent) {
            slab.line(Type::CLOSE, &line, x + indent);
        }
        lowest = lowest.max(slab.height);
        if cell.words.is_empty() && cell.fabric.is_none() {
            lowest = lowest.max(BY_HAND);
        }
    }
    slab.height = lowest + 0.02;
    rule(&mut slab, wide, 0.3);
    slab.height += 0.01;
    slab
}

fn rule(slab: &mut Slab, wide: f64, points: f64) {
    let rule = Segment::new(Point::new(0.0, slab.height), Point::new(wide, slab.height));
    slab.items.push(Path::lines([rule], Stroke::plain(points, RULE), Layer::Page).into());
}
