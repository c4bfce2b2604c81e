//! The small map on every part of a foundation: the whole with all its parts and their numbers, this one grey.

use crate::geometry::{Angle, Length, Point, Polygon, Transform, Vector};
use crate::packet::label::{Label, fit};
use crate::packet::page::{Colour, Layer, Path, Stroke, Weight};

use super::Drawing;
use super::labels::{exit, lattice};
use super::laps::Part;

/// How long its longer side may be, the best first, in inches.
const SIZES: [f64; 7] = [1.0, 0.85, 0.7, 0.6, 0.5, 0.4, 0.3];
/// So many parts are told on a map of these sizes.
const FEW: f64 = 9.0;
/// How far it keeps from seams and words, in inches; and where there is no such place.
const CLEAR: f64 = 0.1;
const LEAST_CLEAR: f64 = 0.03;
/// Sizes of its numbers that are tried, largest first, in printer's points.
const NUMBERS: [f64; 5] = [7.0, 6.0, 5.0, 4.0, 3.2];
const THIS: Colour = Colour::grey(190);
const PEN: Colour = Colour::grey(60);

impl Drawing<'_> {
    /// Puts the map into a free place of the part, as large as it can be there; beside the part where none is free, or where only a much smaller one
    /// would be; across seam lines where neither has room.
    pub(super) fn draw_map(&mut self, part: &Part) {
        // Many parts are told on a larger map.
        let factor = (f64::from(part.of()) / FEW).sqrt().clamp(1.0, 2.5);
        let sizes = SIZES.map(|size| size * factor);
        let (large, small) = sizes.split_at(4);
        let within = |sizes: &[f64], gap: f64, off_seams: bool| {
            sizes.iter().find_map(|&size| self.map_within(&scale(&self.cutting, size), gap, off_seams))
        };
        let beside = || sizes.iter().find_map(|&size| self.map_beside(&scale(&self.cutting, size)));
        let off_seams = within(large, CLEAR, true).or_else(beside);
        let off_seams = off_seams.or_else(|| within(small, CLEAR, true)).or_else(|| within(&sizes, LEAST_CLEAR, true));
        // Lines are to be seen through it.
        let ground = off_seams.map(|_| Colour::WHITE);
        let Some(map) = off_seams.or_else(|| within(small, LEAST_CLEAR, false)) else { return };
        for (k, cell) in part.cells().iter().enumerate() {
            let cell = map.apply_to_polygon(cell);
            let fill = if k == part.index() { Some(THIS) } else { ground };
            self.marks.push(Path::polygon(&cell, fill, Some(Stroke::plain(0.5, PEN)), Layer::Page).into());
            let number = (k + 1).to_string();
            let label = |points: f64| Label::words(&number, Length::points(points), Weight::Bold, Colour::BLACK);
            let spot = NUMBERS.iter().find_map(|&points| {
                let label = label(points);
                fit(&cell, label.width, label.height, 0.0, 0.01).map(|spot| (label, spot.centre))
            });
            let (label, centre) = spot.unwrap_or_else(|| (label(NUMBERS[4]), cell.centroid()));
            label.draw(centre, 0.0, &mut self.marks);
        }
        let corners = map.apply_to_polygon(&self.cutting).corners().to_vec();
        self.inside.add(&corners);
        self.reach_out(&corners);
    }

    /// Where the map lies in the part, clear of words and marks.
    fn map_within(&self, map: &Map, gap: f64, off_seams: bool) -> Option<Transform> {
        lattice(&self.visible, 0.15).map(|centre| map.at(centre)).find(|at| {
            let corners = at.apply_to_polygon(&map.outline);
            self.is_free(corners.corners(), gap, off_seams)
        })
    }

    /// Where the map lies beside the part, as near as it can, where the paper holds it.
    fn map_beside(&self, map: &Map) -> Option<Transform> {
        let middle = self.visible.centroid();
        let mut best: Option<(f64, Transform)> = None;
        for direction in 0..36 {
            let way = Vector::at_bearing(Angle::degrees(f64::from(direction) * 10.0));
            let Some(edge) = exit(&self.visible, middle, way) else { continue };
            for reach in [0.3, 0.45, 0.6, 0.8, 1.0, 1.4] {
                let centre = edge + way * reach;
                let at = map.at(centre);
                let corners = at.apply_to_polygon(&map.outline);
                let is_free = self.outside.are_clear_of(corners.corners(), CLEAR) && self.may_reach(corners.corners());
                if is_free && best.as_ref().is_none_or(|(least, _)| reach < *least) {
                    best = Some((reach, at));
                }
            }
        }
        best.map(|(_, at)| at)
    }
}

/// A map of some size.
struct Map {
    /// The foundation.
    outline: Polygon,
    middle: Point,
    factor: f64,
}

impl Map {
    /// From the foundation's frame to the map with its middle at a place.
    fn at(&self, centre: Point) -> Transform {
        let scaled = Transform::scale(self.factor);
        scaled.then(Transform::shift(centre - scaled.apply(self.middle)))
    }
}

fn scale(outline: &Polygon, size: f64) -> Map {
    let (from, to) = outline.bounds();
    let factor = size / (to.x - from.x).max(to.y - from.y).max(0.1);
    Map { outline: outline.clone(), middle: from.middle(to), factor }
}
