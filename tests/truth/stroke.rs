//! Where a straight stroke lies in a raster: finer than a pixel, from the greys of its edges.
//!
//! A stroke that is nearer to level than to upright is looked at column by column: the middle of the ink in a column is where the middle of the stroke
//! crosses the middle of the column, exactly, where greys are the covered share of a pixel. A line through these middles by least squares is the stroke.
//! Upright strokes are looked at row by row. Only columns are taken that show one dark band as thick as the pen, with white on both sides.

use piecewright::geometry::{Line, Point, Segment};

use crate::raster::{DENSITY, Raster};

/// What a stroke is drawn with.
#[derive(Debug, Clone, Copy)]
pub struct Pen {
    /// Its width, in pixels.
    pub width: f64,
    /// How dark it is, from 0 to 1.
    pub ink: f64,
}

impl Pen {
    /// A pen of a width in printer's points and a grey.
    pub const fn points(points: f64, grey: u8) -> Self {
        Self { width: points / 72.0 * DENSITY, ink: 1.0 - grey as f64 / 255.0 }
    }
}

/// White pixels beside a stroke, so many at first, then fewer where its surroundings are crowded.
const WHITE: [f64; 4] = [5.0, 3.0, 2.0, 1.2];
/// So many columns at least make a line.
const FEWEST: usize = 12;
/// So much ink is none.
const NO_INK: f64 = 0.04;
/// How far the thickness of a stroke may differ from one column to the next, in pixels.
const UNEVEN: f64 = 0.35;

/// Where a stroke was found.
#[derive(Debug, Clone, Copy)]
pub struct Found {
    /// Its middle line, from the first column to the last.
    pub stretch: Segment,
}

impl Found {
    pub fn line(&self) -> Line {
        self.stretch.line().expect("a stretch of several columns")
    }
}

/// Finds the stroke that should run along a stretch, in pixels, and is covered by no other stroke: these lie at those other stretches.
pub fn find(raster: &Raster, stretch: Segment, pen: Pen, others: &[(Segment, Pen)]) -> Option<Found> {
    let way = stretch.end - stretch.start;
    let level = way.x.abs() >= way.y.abs();
    let turned = |point: Point| if level { point } else { Point::new(point.y, point.x) };
    let mut ends = [turned(stretch.start), turned(stretch.end)];
    if ends[0].x > ends[1].x {
        ends.swap(0, 1);
    }
    let [start, end] = ends;
    let near: Vec<(Segment, f64)> = others
        .iter()
        .filter(|(other, _)| distance(*other, stretch) < 12.0)
        .map(|(other, of)| {
            let clear = f64::midpoint(of.width, pen.width) + 1.5;
            (Segment::new(turned(other.start), turned(other.end)), clear)
        })
        .collect();
    let ink = |x: i64, y: i64| if level { raster.ink(x, y) } else { raster.ink(y, x) };
    let slope = (end.y - start.y) / (end.x - start.x);
    let steepness = (1.0 + slope * slope).sqrt();
    WHITE.into_iter().find_map(|white| {
        let mut columns = Vec::new();
        // A slanted stroke begins and ends within the width of its pen.
        let (from, to) = (start.x + pen.width / 2.0 + 1.0, end.x - pen.width / 2.0 - 1.0);
        for x in whole(from.ceil())..whole((to - 0.5).ceil()) {
            let middle = at(x) + 0.5;
            let y = start.y + slope * (middle - start.x);
            let there = Point::new(middle, y);
            if near.iter().any(|(other, clear)| other.distance(there) < *clear) {
                continue;
            }
            let reach = (pen.width / 2.0 + white) * steepness + slope.abs() / 2.0;
            let (above, below) = (whole((y - reach).floor()), whole((y + reach).floor()));
            if ink(x, above) > NO_INK || ink(x, below) > NO_INK {
                continue;
            }
            let (mut thick, mut moment) = (0.0, 0.0);
            for row in above..=below {
                let dark = ink(x, row);
                thick += dark;
                moment += dark * (at(row) + 0.5);
            }
            let expected = pen.width * pen.ink * steepness;
            // A stroke that a program moves to whole pixels is a whole number of them thick.
            if (thick - expected).abs() <= expected * 0.1 + 0.5 * pen.ink {
                columns.push((middle, moment / thick, thick));
            }
        }
        let mut thickness: Vec<f64> = columns.iter().map(|column| column.2).collect();
        thickness.sort_by(f64::total_cmp);
        let usual = *thickness.get(thickness.len() / 2)?;
        columns.retain(|column| (column.2 - usual).abs() <= UNEVEN * pen.ink * steepness);
        let (first, last) = (columns.first()?.0, columns.last()?.0);
        let (offset, slope) = regression(&columns).filter(|_| columns.len() >= FEWEST)?;
        let on = |x: f64| turned(Point::new(x, offset + slope * x));
        Some(Found { stretch: Segment::new(on(first), on(last)) })
    })
}

/// The least distance of two stretches that do not cross; 0 or more than it where they do.
fn distance(a: Segment, b: Segment) -> f64 {
    let meet = a.line().zip(b.line()).and_then(|(a, b)| a.meet(b));
    let cross = meet.filter(|&at| a.distance(at) < 1.0 && b.distance(at) < 1.0);
    let ends = [a.distance(b.start), a.distance(b.end), b.distance(a.start), b.distance(a.end)];
    if cross.is_some() { 0.0 } else { ends.into_iter().fold(f64::INFINITY, f64::min) }
}

/// The line y = a + b x that lies nearest to points by least squares.
fn regression(points: &[(f64, f64, f64)]) -> Option<(f64, f64)> {
    let (mut count, mut x_mean, mut y_mean) = (0.0, 0.0, 0.0);
    for (x, y, _) in points {
        count += 1.0;
        x_mean += (x - x_mean) / count;
        y_mean += (y - y_mean) / count;
    }
    let (mut covariance, mut variance) = (0.0, 0.0);
    for (x, y, _) in points {
        covariance += (x - x_mean) * (y - y_mean);
        variance += (x - x_mean) * (x - x_mean);
    }
    let slope = covariance / variance;
    slope.is_finite().then_some((y_mean - slope * x_mean, slope))
}

#[expect(clippy::cast_possible_truncation, reason = "pixels of a page are few")]
pub fn whole(pixels: f64) -> i64 {
    pixels as i64
}

#[expect(clippy::cast_precision_loss, reason = "pixels of a page are few")]
fn at(pixels: i64) -> f64 {
    pixels as f64
}
