//! Hatching that tells fabrics apart on a grey printer: each fabric has lines of its own direction and distance, by its mark.

use crate::geometry::{Angle, Line, Point, Polygon, Segment, Tolerance, Vector};

use super::page::{Colour, FillRule, Item, Layer, Path, Stroke, Subpath};

/// A hatching.
struct Hatch {
    /// The directions of its lines, in degrees.
    directions: &'static [f64],
    /// The distance of its lines, in inches.
    distance: f64,
    /// Dashes and gaps in printer's points; empty for whole lines.
    dashes: &'static [f64],
}

const fn hatch(directions: &'static [f64], distance: f64, dashes: &'static [f64]) -> Hatch {
    Hatch { directions, distance, dashes }
}

const DASHES: &[f64] = &[4.0, 2.5];
const DOTS: &[f64] = &[0.6, 2.4];

/// The first ten fabrics have whole lines, the next ten dashes or dots.
const HATCHES: [Hatch; 20] = [
    hatch(&[], 0.0, &[]),
    hatch(&[45.0], 0.09, &[]),
    hatch(&[-45.0], 0.09, &[]),
    hatch(&[0.0], 0.08, &[]),
    hatch(&[90.0], 0.08, &[]),
    hatch(&[45.0, -45.0], 0.14, &[]),
    hatch(&[0.0, 90.0], 0.13, &[]),
    hatch(&[22.5], 0.05, &[]),
    hatch(&[-67.5], 0.12, &[]),
    hatch(&[67.5, -22.5], 0.17, &[]),
    hatch(&[0.0], 0.05, DOTS),
    hatch(&[45.0], 0.08, DASHES),
    hatch(&[-45.0], 0.08, DASHES),
    hatch(&[0.0], 0.07, DASHES),
    hatch(&[90.0], 0.07, DASHES),
    hatch(&[45.0, -45.0], 0.12, DASHES),
    hatch(&[0.0, 90.0], 0.11, DASHES),
    hatch(&[22.5], 0.05, DASHES),
    hatch(&[-67.5], 0.09, DOTS),
    hatch(&[67.5, -22.5], 0.15, DASHES),
];

/// Draws a fabric in an area: its colour, and the hatching of its mark in a tone that shows on it.
pub fn fabric(area: &Polygon, mark: u32, colour: [u8; 3], items: &mut Vec<Item>) {
    areas(std::slice::from_ref(area), mark, colour, 1.0, items);
}

/// Draws a fabric in several areas that do not overlap, as two paths at the most. `open` widens the distances of the hatching.
pub fn areas(areas: &[Polygon], mark: u32, colour: [u8; 3], open: f64, items: &mut Vec<Item>) {
    let colour = Colour(colour);
    let subpaths: Vec<Subpath> = areas.iter().filter_map(|area| Subpath::round_corners(area.corners())).collect();
    if subpaths.is_empty() {
        return;
    }
    items.push(
        Path { subpaths, fill: Some(colour), rule: FillRule::EvenOdd, stroke: None, layer: Layer::Fabric }.into(),
    );
    let Some(hatch) = HATCHES.get((mark as usize).saturating_sub(1) % HATCHES.len()) else { return };
    let ink =
        if colour.lightness() < 0.5 { colour.toward(Colour::WHITE, 0.38) } else { colour.toward(Colour::BLACK, 0.3) };
    let run = |&degrees: &f64| areas.iter().flat_map(move |area| lines(area, degrees, hatch.distance * open));
    let lines: Vec<Segment> = hatch.directions.iter().flat_map(run).collect();
    if !lines.is_empty() {
        let width = if hatch.dashes.is_empty() { 0.35 } else { 0.5 };
        items.push(Path::lines(lines, Stroke::plain(width, ink).dashed(hatch.dashes), Layer::Fabric).into());
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
        assert_ne!(drawn(1), drawn(11), "a pattern of many fabrics");
        for item in drawn(6) {
            let Item::Path(path) = item else { panic!("only paths") };
            for place in path.subpaths.iter().flat_map(super::super::page::Subpath::places) {
                assert!((-1e-9..=1.0 + 1e-9).contains(&place.x) && (-1e-9..=1.0 + 1e-9).contains(&place.y));
            }
        }
    }
}
