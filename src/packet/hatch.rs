//! Hatching that tells fabrics apart on a grey printer: each fabric has lines of its own direction and distance, by its mark.

use crate::geometry::{Angle, Line, Point, Polygon, Segment, Tolerance, Vector};

use super::page::{Colour, Item, Layer, Path, Stroke};

/// A hatching: directions in degrees, and the distance of its lines in inches.
const HATCHES: [(&[f64], f64); 10] = [
    (&[], 0.0),
    (&[45.0], 0.09),
    (&[-45.0], 0.09),
    (&[0.0], 0.08),
    (&[90.0], 0.08),
    (&[45.0, -45.0], 0.14),
    (&[0.0, 90.0], 0.13),
    (&[22.5], 0.05),
    (&[-67.5], 0.12),
    (&[67.5, -22.5], 0.17),
];

/// Draws a fabric in an area: its colour, and the hatching of its mark in a tone that shows on it.
pub fn fabric(area: &Polygon, mark: u32, colour: [u8; 3], items: &mut Vec<Item>) {
    let colour = Colour(colour);
    items.push(Path::polygon(area, Some(colour), None, Layer::Fabric).into());
    let index = (mark as usize).saturating_sub(1) % HATCHES.len();
    let (directions, distance) = HATCHES[index];
    let ink =
        if colour.lightness() < 50.0 { colour.toward(Colour::WHITE, 0.38) } else { colour.toward(Colour::BLACK, 0.3) };
    let lines: Vec<Segment> = directions.iter().flat_map(|&degrees| lines(area, degrees, distance)).collect();
    if !lines.is_empty() {
        items.push(Path::lines(lines, Stroke::plain(0.35, ink), Layer::Fabric).into());
    }
}

/// Parallel lines across an area, on one grid for all areas of a drawing. O(lines × corners).
fn lines(area: &Polygon, degrees: f64, distance: f64) -> Vec<Segment> {
    let way = Vector::at_bearing(Angle::degrees(degrees + 90.0));
    let across = way.quarter_turned();
    let (from, to) = area.extent(across);
    let tolerance = Tolerance::of_extent((to - from).max(0.01));
    let mut found = Vec::new();
    let mut k = (from / distance).ceil();
    while k * distance < to && found.len() < 2_000 {
        let origin = Point::default() + across * (k * distance);
        found.extend(Line::toward(origin, way).and_then(|line| area.chord(line, tolerance)));
        k += 1.0;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::fabric;
    use crate::geometry::{Point, Polygon};
    use crate::packet::page::Item;

    #[test]
    fn neighbouring_marks_are_hatched_differently_within_their_area() {
        let area = Polygon::rectangle(Point::new(0.0, 0.0), Point::new(1.0, 1.0)).unwrap();
        let drawn = |mark| {
            let mut items = Vec::new();
            fabric(&area, mark, [200, 180, 90], &mut items);
            items
        };
        assert_ne!(drawn(1), drawn(2));
        assert_ne!(drawn(2), drawn(3));
        for item in drawn(6) {
            let Item::Path(path) = item else { panic!("only paths") };
            for place in path.subpaths.iter().flat_map(super::super::page::Subpath::places) {
                assert!((-1e-9..=1.0 + 1e-9).contains(&place.x) && (-1e-9..=1.0 + 1e-9).contains(&place.y));
            }
        }
    }
}
