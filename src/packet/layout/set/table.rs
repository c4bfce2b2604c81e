//! Tables: rows are never split, and the head is repeated on every page.

use super::super::super::document::{Cell, Table};
use super::super::super::leaf::Kind;
use super::super::super::page::{Layer, Path, Stroke, Weight};
use super::super::lines::{Line, Type};
use super::super::slab::Slab;
use super::{GUTTER, RULE, mark, repeated};
use crate::geometry::{Point, Segment, Vector};

/// The white between columns.
const BETWEEN: f64 = 0.12;
/// A row with a cell to be filled in by hand is at least so high.
const BY_HAND: f64 = 0.34;

/// A row of more lines is broken: no other row is.
const ROW_LINES: usize = 36;

/// Tables beside each other are no higher, in inches: they are not broken.
const SHORT: f64 = 2.4;

/// Two tables beside each other, each as one slab with its columns as wide as their words, if both are short and that saves room. Only tables
/// without a caption that is seen.
pub(super) fn side_by_side(left: &Table, right: &Table, wide: f64) -> Option<[Slab; 2]> {
    if left.caption_seen || right.caption_seen || left.rows.len() + right.rows.len() > 24 {
        return None;
    }
    let half = (wide - GUTTER) / 2.0;
    let below: f64 = [left, right].iter().flat_map(|one| table(one, wide)).map(|slab| slab.before + slab.height).sum();
    let beside = [(left, 0.0), (right, half + GUTTER)].map(|(one, x)| {
        let columns = columns_by_words(one, half);
        let mut slab = Slab { before: 0.1, ..Slab::default() };
        let rows = one.rows.iter().enumerate();
        let rows =
            rows.flat_map(|(number, cells)| row(cells, &columns, half).into_iter().map(move |slab| (number, slab)));
        let rows = rows.map(|(number, slab)| slab.told(Kind::Row, number, half));
        for piece in std::iter::once(head(one, &columns, half)).chain(rows) {
            slab.take_in(&piece, Vector::new(x, slab.height));
            slab.height += piece.height;
        }
        slab
    });
    let high = beside[0].height.max(beside[1].height);
    (high <= SHORT && high < below * 0.8).then_some(beside)
}

/// Columns as wide as their words, the last with what is left.
fn columns_by_words(table: &Table, wide: f64) -> Vec<(f64, f64)> {
    let last = table.columns.len().saturating_sub(1);
    let mut left = 0.0;
    let mut found = Vec::with_capacity(table.columns.len());
    for (number, column) in table.columns.iter().enumerate() {
        let head = Type::SMALL.width(&column.head, Weight::Bold);
        let weight = if number == 0 { Weight::Bold } else { Weight::Regular };
        let cells = table.rows.iter().filter_map(|row| row.get(number));
        let words = cells.map(|cell| Type::CLOSE.width(&cell.words, weight)).fold(head, f64::max);
        let width = if number == last { wide - left } else { (words + 0.01).min(wide * 0.32) };
        found.push((left, width));
        left += width + BETWEEN;
    }
    found
}

/// The slabs of a table: caption, head, rows.
pub(super) fn table(table: &Table, wide: f64) -> Vec<Slab> {
    let columns = columns(table, wide);
    let mut slabs = Vec::new();
    if table.caption_seen {
        let mut caption = Slab { before: 0.16, keeps_next: true, ..Slab::default() };
        let lines = Type::CLOSE.set_cut_short(&table.caption, Weight::Bold, wide, 4);
        caption.lines(Type::CLOSE, &lines, 0.0);
        slabs.push(caption.told(Kind::Heading, 0, wide));
    }
    let head = head(table, &columns, wide);
    let again = repeated(head.clone());
    slabs.push(Slab { before: if table.caption_seen { 0.02 } else { 0.12 }, keeps_next: true, ..head });
    let last = table.rows.len().saturating_sub(1);
    for (number, cells) in table.rows.iter().enumerate() {
        let mut pieces = row(cells, &columns, wide);
        let whole = pieces.len() == 1;
        for piece in &mut pieces {
            piece.head = Some(again.clone());
            // Neither the first row nor the last stands alone.
            piece.keeps_next = whole && number < last && (number == 0 || number + 1 == last);
        }
        slabs.extend(pieces.into_iter().map(|piece| piece.told(Kind::Row, number, wide)));
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
    slab.told(Kind::Head, 0, wide)
}

/// A row: in one piece, unless it is longer than anything that is meant for a table.
fn row(cells: &[Cell], columns: &[(f64, f64)], wide: f64) -> Vec<Slab> {
    let mut marks = Slab::default();
    let set: Vec<(f64, Vec<Line>)> = cells
        .iter()
        .zip(columns)
        .enumerate()
        .map(|(number, (cell, &(x, width)))| {
            let left = cell.fabric.map_or(x, |fabric| mark(fabric, Point::new(x, 0.035), 0.14, &mut marks));
            let weight = if number == 0 { Weight::Bold } else { Weight::Regular };
            (left, Type::CLOSE.set(&[(&cell.words, weight)], width - (left - x)))
        })
        .collect();
    let by_hand = cells.iter().any(|cell| cell.words.is_empty() && cell.fabric.is_none());
    let most = set.iter().map(|(_, lines)| lines.len()).max().unwrap_or(0);
    let pieces = most.div_ceil(ROW_LINES).max(1);
    let mut slabs = Vec::with_capacity(pieces);
    for piece in 0..pieces {
        let mut slab = if piece == 0 { std::mem::take(&mut marks) } else { Slab::default() };
        let mut lowest = if by_hand && pieces == 1 { BY_HAND } else { 0.0 };
        for (x, lines) in &set {
            slab.height = 0.02;
            for line in lines.iter().skip(piece * ROW_LINES).take(ROW_LINES) {
                slab.line(Type::CLOSE, line, *x);
            }
            lowest = slab.height.max(lowest);
        }
        slab.height = lowest + 0.02;
        if piece + 1 == pieces {
            rule(&mut slab, wide, 0.3);
        }
        slab.height += 0.01;
        slabs.push(slab);
    }
    slabs
}

fn rule(slab: &mut Slab, wide: f64, points: f64) {
    let rule = Segment::new(Point::new(0.0, slab.height), Point::new(wide, slab.height));
    slab.items.push(Path::lines([rule], Stroke::plain(points, RULE), Layer::Page).into());
}
