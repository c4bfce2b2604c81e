//! The grid of a block: its extent in steps, its outline, and what one step measures.

use crate::fault::{names, sizes};
use crate::geometry::{Angle, Length, Point, Polygon, Tolerance, Vector};
use crate::notation::source::Spanned;
use crate::notation::syntax::{Finished, FinishedSize, Grid, LengthUnit, PhysicalLength};

use super::Manner;
use super::facts::Units;
use super::scope::Resolved;
use super::steps::number_words;

/// The greatest finished size of a block, either way.
const MAX_FINISHED: Length = Length::inches(200.0);

/// The regular figures and how many corners they have.
const FIGURES: &[(&str, u32)] = &[("triangle", 3), ("pentagon", 5), ("hexagon", 6), ("octagon", 8)];

/// A grid with its outline.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    /// Width in steps.
    pub width: f64,
    /// Height in steps.
    pub height: f64,
    /// The outline that the grid alone makes.
    pub outline: Polygon,
    /// How near is the same.
    pub tolerance: Tolerance,
    /// The side of a regular figure, in steps.
    pub side: Option<f64>,
}

/// What a written length measures.
pub fn length(written: &PhysicalLength) -> Length {
    let number = written.number.value;
    match written.unit {
        LengthUnit::Inch => Length::inches(number),
        LengthUnit::Yard => Length::inches(number * 36.0),
        LengthUnit::Centimetre => Length::millimetres(number * 10.0),
        LengthUnit::Millimetre => Length::millimetres(number),
    }
}

/// Whether a length is written in metric units.
pub fn units(written: &PhysicalLength) -> Units {
    match written.unit {
        LengthUnit::Inch | LengthUnit::Yard => Units::Inches,
        LengthUnit::Centimetre | LengthUnit::Millimetre => Units::Metric,
    }
}

/// A written length between bounds.
pub fn checked_length(written: &PhysicalLength, what: &str, most: Length) -> Resolved<Length> {
    let length = length(written);
    let fault = |why: &str, help: &str| Box::new(sizes::bad_length(written.span, what, why, help));
    if length <= Length::ZERO {
        return Err(fault("must be greater than nothing", "write a length such as `8 in` or `20 cm`"));
    }
    if length > most {
        return Err(fault("cannot be as large as this", "check the number and its unit"));
    }
    Ok(length)
}

/// The ground that a grid makes.
pub fn ground(grid: &Spanned<Grid>) -> Resolved<Ground> {
    let (outline, side) = match &grid.value {
        Grid::Rectangle(width, height) => {
            let outline = Polygon::rectangle(Point::default(), Point::new(width.value, height.value));
            (outline.filter(|_| width.value > 0.0 && height.value > 0.0), None)
        }
        Grid::Regular { figure, side } => {
            let Some(&(_, corners)) = FIGURES.iter().find(|(word, _)| *word == figure.value) else {
                let known: Vec<&str> = FIGURES.iter().map(|(word, _)| *word).collect();
                return Err(Box::new(names::unknown_word(figure.span, &figure.value, "regular figure", &known)));
            };
            ((side.value > 0.0).then(|| regular(corners, side.value)).flatten(), Some(side.value))
        }
    };
    let outline = outline.ok_or_else(|| Box::new(sizes::empty_grid(grid.span)))?;
    let (_, to) = outline.bounds();
    Ok(Ground { width: to.x, height: to.y, tolerance: Tolerance::of_extent(to.x.max(to.y)), outline, side })
}

/// A regular figure that stands on a side, its bounding box at the origin, its first corner the leftmost of the topmost.
fn regular(corners: u32, side: f64) -> Option<Polygon> {
    let step = 360.0 / f64::from(corners);
    let (half_sin, _) = Angle::degrees(step / 2.0).sin_cos();
    let radius = side / (2.0 * half_sin);
    let at =
        |k: u32| Point::default() + Vector::at_bearing(Angle::degrees(180.0 + step * (f64::from(k) + 0.5))) * radius;
    let points: Vec<Point> = (0..corners).map(at).collect();
    let tolerance = Tolerance::of_extent(radius);
    let around = Polygon::try_new(&points, tolerance).ok()?;
    let (from, _) = around.bounds();
    let first = (0..points.len()).min_by(|&a, &b| {
        let (p, q) = (points[a], points[b]);
        if tolerance.is_zero(p.y - q.y) { p.x.total_cmp(&q.x) } else { p.y.total_cmp(&q.y) }
    })?;
    // What lies on the bounding box lies on it exactly.
    let exact = |value: f64| if tolerance.is_zero(value) { 0.0 } else { value };
    let moved = points.iter().cycle().skip(first).take(points.len()).map(|p| *p - from.to_vector());
    Polygon::try_new(&moved.map(|p| Point::new(exact(p.x), exact(p.y))).collect::<Vec<_>>(), tolerance).ok()
}

impl Ground {
    /// How the finished size of this grid is written, for faults.
    fn example(&self) -> String {
        if self.side.is_some() {
            String::from("side 4 in")
        } else if self.width == self.height {
            String::from("8 in")
        } else {
            let scale = 8.0 / self.width.max(self.height);
            format!("{} in x {} in", number_words(self.width * scale), number_words(self.height * scale))
        }
    }

    fn grid_words(&self) -> String {
        match self.side {
            Some(side) => format!("a figure with sides of {} steps", number_words(side)),
            None => format!("a grid of {} x {}", number_words(self.width), number_words(self.height)),
        }
    }

    /// What one step measures when the block is finished in this size.
    pub fn step(&self, finished: &Finished) -> Resolved<(Length, Manner)> {
        let checked = |written| checked_length(written, "a finished size", MAX_FINISHED);
        let unclear = || Box::new(sizes::finished_unclear(finished.span, &self.grid_words(), &self.example()));
        match (&finished.size, self.side) {
            (FinishedSize::Side(side), Some(steps)) => Ok((checked(side)? / steps, Manner::Side(steps))),
            (FinishedSize::Square(side), None) if self.width == self.height => {
                Ok((checked(side)? / self.width, Manner::Square))
            }
            (FinishedSize::Rectangle(width, height), None) => {
                let (wide, high) = (checked(width)?, checked(height)?);
                if ((wide / high) / (self.width / self.height) - 1.0).abs() > 1e-4 {
                    let right = number_words(width.number.value * self.height / self.width);
                    return Err(Box::new(sizes::finished_ratio(
                        finished.span,
                        &finished_words(&finished.size),
                        &format!("{} x {}", number_words(self.width), number_words(self.height)),
                        &format!("{0} {2} x {1} {2}", number_words(width.number.value), right, unit_word(width.unit)),
                    )));
                }
                let manner = if self.width == self.height { Manner::Square } else { Manner::Rectangle };
                Ok((wide / self.width, manner))
            }
            _ => Err(unclear()),
        }
    }
}

/// The word for a unit of length.
pub const fn unit_word(unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Inch => "in",
        LengthUnit::Yard => "yd",
        LengthUnit::Centimetre => "cm",
        LengthUnit::Millimetre => "mm",
    }
}

/// A finished size as it is printed.
pub fn finished_words(size: &FinishedSize) -> String {
    let words = |length: &PhysicalLength| format!("{} {}", number_words(length.number.value), unit_word(length.unit));
    match size {
        FinishedSize::Square(side) => words(side),
        FinishedSize::Rectangle(width, height) => format!("{} × {}", words(width), words(height)),
        FinishedSize::Side(side) => format!("side {}", words(side)),
    }
}

#[cfg(test)]
mod tests {
    use super::regular;

    #[test]
    fn regular_figures_stand_on_a_side_at_the_origin() {
        for (corners, side) in [(3_u32, 8.0), (5, 6.0), (6, 8.0), (8, 5.0)] {
            let figure = regular(corners, side).unwrap();
            assert_eq!(figure.corners().len(), corners as usize);
            for edge in figure.edges() {
                assert!((edge.length() - side).abs() < 1e-9);
            }
            let (from, to) = figure.bounds();
            assert!(from.x == 0.0 && from.y == 0.0, "{from:?}");
            let bottom = figure.edges().filter(|e| (e.start.y - to.y).abs() < 1e-9 && (e.end.y - to.y).abs() < 1e-9);
            assert_eq!(bottom.count(), 1, "one side lies level at the bottom");
        }
    }
}
