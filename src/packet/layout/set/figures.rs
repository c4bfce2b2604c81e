//! Figures beside each other, tiles of figures and words, swatches.

use super::super::super::document::{Figure, Swatch, Tile};
use super::super::super::page::{Colour, Layer, Path, Stroke, Weight};
use super::super::lines::Type;
use super::super::slab::Slab;
use super::{GUTTER, mark, swatch};
use crate::geometry::{Point, Polygon};

/// Figures beside each other; those for which there is no room stand in further rows.
pub(super) fn row(figures: &[Figure], wide: f64) -> Vec<Slab> {
    let mut slabs = Vec::new();
    let mut from = 0;
    while from < figures.len() {
        let mut reach = 0.0;
        let mut to = from;
        while let Some(figure) = figures.get(to) {
            let width = figure.drawing.width.to_inches();
            if to > from && reach + width > wide + 1e-6 {
                break;
            }
            reach += width + GUTTER;
            to += 1;
        }
        let mut slab = Slab { before: 0.12, ..Slab::default() };
        let mut left = 0.0;
        for figure in &figures[from..to] {
            let width = figure.drawing.width.to_inches().min(wide);
            let high = captioned(figure, Point::new(left, 0.0), width, &mut slab);
            slab.height = slab.height.max(high);
            left += width + GUTTER;
        }
        slabs.push(slab);
        from = to;
    }
    slabs
}

/// Draws a figure of this width with its caption; gives its height.
pub(super) fn captioned(figure: &Figure, at: Point, width: f64, slab: &mut Slab) -> f64 {
    let drawing = figure.drawing.fitted(width);
    slab.drawing(&drawing, at);
    let mut y = at.y + drawing.height.to_inches();
    if !figure.caption.is_empty() {
        y += 0.02;
        for line in Type::SMALL.set(&[(&figure.caption, Weight::Regular)], width) {
            Type::SMALL.draw(&line, Point::new(at.x, y), &mut slab.items);
            y += Type::SMALL.line();
        }
    }
    y - at.y
}

/// Tiles in rows, each as high as its highest.
pub(super) fn tiles(tiles: &[Tile], wide: f64) -> Vec<Slab> {
    let columns: u8 = if wide >= 6.5 { 4 } else { 3 };
    let width = (wide - GUTTER * f64::from(columns - 1)) / f64::from(columns);
    let mut slabs = Vec::new();
    for row in tiles.chunks(usize::from(columns)) {
        let mut slab = Slab { before: 0.14, ..Slab::default() };
        let drawings: Vec<_> = row.iter().map(|tile| tile.figure.drawing.fitted(width)).collect();
        let figure_high = drawings.iter().map(|drawing| drawing.height.to_inches()).fold(0.0, f64::max);
        let mut lowest: f64 = 0.0;
        let mut left = 0.0;
        for (tile, drawing) in row.iter().zip(&drawings) {
            // Figures stand on one line, words begin on one.
            slab.drawing(drawing, Point::new(left, figure_high - drawing.height.to_inches()));
            slab.height = figure_high + 0.05;
            for line in Type::SUBHEADING.set(&[(&tile.title, Weight::Bold)], width) {
                slab.line(Type::SUBHEADING, &line, left);
            }
            for line in Type::CLOSE.set(&[(&tile.words, Weight::Regular)], width) {
                slab.line(Type::CLOSE, &line, left);
            }
            lowest = lowest.max(slab.height);
            left += width + GUTTER;
        }
        slab.height = lowest;
        slabs.push(slab);
    }
    slabs
}

/// Fabrics in rows, each with a box for a cutting.
pub(super) fn swatches(swatches: &[Swatch], wide: f64) -> Vec<Slab> {
    let columns: u8 = if wide >= 6.0 { 3 } else { 2 };
    let width = (wide - GUTTER * f64::from(columns - 1)) / f64::from(columns);
    let mut slabs = Vec::new();
    for row in swatches.chunks(usize::from(columns)) {
        let mut slab = Slab { before: 0.16, ..Slab::default() };
        let mut lowest: f64 = 0.0;
        let mut left = 0.0;
        for fabric in row {
            let (small, room) = (0.62, width - 0.62 - 0.08);
            swatch(fabric.mark, Point::new(left, 0.0), (small, 0.9), &mut slab.items);
            if let Some(space) =
                Polygon::rectangle(Point::new(left + small + 0.08, 0.0), Point::new(left + small + 0.08 + room, 0.9))
            {
                let pen = Stroke::plain(0.6, Colour::grey(130)).dashed(&[3.0, 2.0]);
                slab.items.push(Path::polygon(&space, None, Some(pen), Layer::Page).into());
            }
            slab.height = 0.94;
            let mut ring = Slab::default();
            let indent = ring_only(fabric, &mut ring);
            slab.take_in(&ring, Point::new(left, slab.height).to_vector());
            for line in Type::CLOSE.set(&[(&fabric.name, Weight::Bold)], width - indent) {
                slab.line(Type::CLOSE, &line, left + indent);
            }
            for words in &fabric.lines {
                for line in Type::SMALL.set(&[(words, Weight::Regular)], width) {
                    slab.line(Type::SMALL, &line, left);
                }
            }
            lowest = lowest.max(slab.height);
            left += width + GUTTER;
        }
        slab.height = lowest;
        slabs.push(slab);
    }
    slabs
}

/// The ringed number of a fabric alone, at the left of a line; gives how far it reaches.
fn ring_only(fabric: &Swatch, slab: &mut Slab) -> f64 {
    let mut whole = Slab::default();
    let reach = mark(fabric.mark, Point::default(), 0.16, &mut whole);
    let swatch = 0.16 * 1.4 + 0.05;
    let label = super::Label::ringed(fabric.mark.number, super::Length::points(8.0), Colour::BLACK);
    label.draw(Point::new(label.width / 2.0, Type::CLOSE.line() / 2.0), 0.0, &mut slab.items);
    reach - swatch
}
