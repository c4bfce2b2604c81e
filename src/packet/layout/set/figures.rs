//! Figures beside each other, tiles of figures and words, swatches.

use super::super::super::document::{Figure, Swatch, Tile};
use super::super::super::leaf::Kind;
use super::super::super::page::{Colour, Layer, Page, Path, Stroke, Weight};
use super::super::lines::Type;
use super::super::slab::Slab;
use super::{GUTTER, Room, mark, swatch};
use crate::geometry::{Point, Polygon};

/// What a heading and a few lines above a figure need at the most: no figure is so high that they stand alone.
const ABOVE: f64 = 1.6;
/// A caption has no more lines.
const CAPTION_LINES: usize = 6;

/// Figures beside each other; those for which there is no room stand in further rows.
pub(super) fn row(figures: &[Figure], room: Room) -> Vec<Slab> {
    let drawings: Vec<_> = figures
        .iter()
        .map(|figure| {
            let (width, height) = (figure.drawing.width.to_inches(), figure.drawing.height.to_inches());
            let most = (room.high - ABOVE) * width / height.max(1e-9);
            figure.drawing.fitted(room.wide.min(most))
        })
        .collect();
    let mut slabs = Vec::new();
    let mut from = 0;
    while from < figures.len() {
        let mut reach = 0.0;
        let mut to = from;
        while let Some(drawing) = drawings.get(to) {
            let width = drawing.width.to_inches();
            if to > from && reach + width > room.wide + 1e-6 {
                break;
            }
            reach += width + GUTTER;
            to += 1;
        }
        let mut slab = Slab { before: 0.12, ..Slab::default() };
        let mut left = 0.0;
        for (figure, drawing) in figures.iter().zip(&drawings).take(to).skip(from) {
            let high = captioned(drawing, &figure.caption, Point::new(left, 0.0), &mut slab);
            slab.height = slab.height.max(high);
            left += drawing.width.to_inches() + GUTTER;
        }
        slabs.push(slab.told(Kind::Piece, slabs.len(), room.wide));
        from = to;
    }
    slabs
}

/// Draws a figure with its caption below it; gives the height of both.
pub(super) fn captioned(drawing: &Page, caption: &str, at: Point, slab: &mut Slab) -> f64 {
    slab.drawing(drawing, at);
    let mut y = at.y + drawing.height.to_inches();
    if !caption.is_empty() {
        y += 0.02;
        for line in Type::SMALL.set_cut_short(caption, Weight::Regular, drawing.width.to_inches(), CAPTION_LINES) {
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
        slabs.push(slab.told(Kind::Piece, slabs.len(), wide));
    }
    slabs
}

/// A name beside a swatch has no more lines.
const NAME_LINES: usize = 5;

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
            // The whole name heads the cutting.
            let name = Type::CLOSE.set_cut_short(&fabric.name, Weight::Bold, width - indent, NAME_LINES);
            slab.lines(Type::CLOSE, &name, left + indent);
            for words in &fabric.lines {
                for line in Type::SMALL.set(&[(words, Weight::Regular)], width) {
                    slab.line(Type::SMALL, &line, left);
                }
            }
            lowest = lowest.max(slab.height);
            left += width + GUTTER;
        }
        slab.height = lowest;
        slabs.push(slab.told(Kind::Piece, slabs.len(), wide));
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
