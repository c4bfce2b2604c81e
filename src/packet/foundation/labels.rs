//! Where the words on a foundation stand: in what they name where it can hold them, else beside the paper with a leader line.

use crate::geometry::{Angle, Length, Point, Polygon, Segment, Vector};
use crate::packet::label::{Label, Spot, fit, length_direction, upright};
use crate::packet::page::{Colour, Layer, Path, Stroke, Weight};

use super::{Drawing, GREY, Named};

/// Sizes of section labels that are tried, largest first, in printer's points.
const LABEL_SIZES: [f64; 6] = [10.0, 9.0, 8.0, 7.0, 6.0, 5.0];
/// How far a label keeps from lines, in inches.
const CLEAR: f64 = 0.02;

impl Drawing<'_> {
    /// The name of a section and the mark of its fabric, or of its strip's.
    fn name(&self, named: Named, points: f64) -> [Label; 2] {
        let variant = self.subject.variant();
        let name = format!("{}{}", variant.mark, named.section + 1);
        let fabric = variant.fabric_of(named.section, named.strip).unwrap_or(variant.fabrics[named.section]);
        let fabric = self.subject.model.fabrics[fabric].mark;
        let size = Length::points(points);
        let words = Label::words(&name, size, Weight::Bold, Colour::BLACK);
        let ring = Label::ringed(fabric, size, Colour::BLACK);
        [words.beside(&ring, points / 72.0 * 0.3), words.above(&ring, points / 72.0 * 0.15)]
    }

    /// What may stand in a section, best first: with the arrow of its print where that has a direction.
    fn section_labels(&self, named: Named, turn: f64) -> Vec<Label> {
        let mut labels = Vec::new();
        if let Some(run) = self.run(named) {
            let large = [10.0, 9.0, 8.0];
            let with_word = large.map(|points| (points, true)).into_iter();
            let alone = large.map(|points| (points, false)).into_iter();
            let small = [(7.0, true), (7.0, false), (6.0, false), (5.0, false)];
            for (points, with_word) in with_word.chain(alone).chain(small) {
                let arrow = self.arrow(run, points, turn, with_word);
                for name in self.name(named, points) {
                    labels.push(name.above(&arrow, 0.05));
                    labels.push(name.beside(&arrow, 0.07));
                }
            }
        }
        labels.extend(LABEL_SIZES.iter().flat_map(|&points| self.name(named, points)));
        labels
    }

    /// Puts a section's label into it; false where it cannot hold it.
    pub(super) fn label_section(&mut self, named: Named, area: &Polygon) -> bool {
        let turns = [0.0, upright(length_direction(area))];
        let [level, along] = turns.map(|turn| self.section_labels(named, turn));
        for labels in level.into_iter().zip(along) {
            for (label, turn) in <[Label; 2]>::from(labels).into_iter().zip(turns) {
                let spot = fit(area, label.width, label.height, turn, CLEAR);
                if let Some(spot) = spot.and_then(|spot| self.beside_crosses(&label, area, spot)) {
                    let corners = label.box_at(spot.centre, spot.turn);
                    label.draw(spot.centre, spot.turn, &mut self.marks);
                    self.inside.add(&corners);
                    return true;
                }
            }
        }
        false
    }

    /// The spot, or the nearest to it from which a label keeps clear of the crosses of laps, within its area.
    fn beside_crosses(&self, label: &Label, area: &Polygon, spot: Spot) -> Option<Spot> {
        let tolerance = self.tolerance;
        let around = (0_u8..8).map(|k| Vector::at_bearing(Angle::degrees(f64::from(k) * 45.0)));
        let steps = (1_u8..=4).map(|step| f64::from(step) * 0.12);
        let moves = steps.flat_map(|step| around.clone().map(move |way| way * step));
        let spots = std::iter::once(Vector::default()).chain(moves).map(|by| Spot { centre: spot.centre + by, ..spot });
        let mut spots = spots.filter(|spot| self.crosses.are_clear_of(&label.box_at(spot.centre, spot.turn), CLEAR));
        spots.find(|spot| label.box_at(spot.centre, spot.turn).iter().all(|c| area.holds(*c, tolerance) == Some(true)))
    }

    /// Puts a section's label beside the paper, with a leader line to the section: the shortest that runs through no other label. Only where there is
    /// none may it cross one, and where the paper holds none beside it, and it may not grow, the label stands in another section.
    pub(super) fn label_beside(&mut self, named: Named, area: &Polygon, may_grow: bool) {
        let [label, _] = self.name(named, 8.0);
        let centre = area.centroid();
        let homes: Vec<Point> = std::iter::once(centre)
            .chain(area.corners().iter().map(|&corner| centre.along(corner, 0.55)))
            .chain(area.edges().map(|edge| centre.along(edge.middle(), 0.55)))
            .collect();
        // Rather across other lines than past what the paper holds.
        let tries = [true, false].map(|strict| (strict, true)).into_iter().chain(may_grow.then_some((false, false)));
        let found = tries.into_iter().find_map(|(strict, held)| self.beside(&label, &homes, strict, held));
        let Some((home, centre, end)) = found else {
            self.label_elsewhere(named, &homes);
            return;
        };
        self.marks.push(Path::lines([Segment::new(home, end)], Stroke::plain(0.4, GREY), Layer::Marks).into());
        self.marks.push(Path::circle(home, 0.014, Some(Colour::BLACK), None, Layer::Marks).into());
        label.draw(centre, 0.0, &mut self.marks);
        self.reach_out(&label.box_at(centre, 0.0));
        self.outside.add(&[home, end]);
        self.inside.add(&[home, end]);
    }

    /// Puts a section's label into another section, the nearest that has room, with a leader line; else, small, on the section itself.
    fn label_elsewhere(&mut self, named: Named, homes: &[Point]) {
        let Some(&home) = homes.first() else { return };
        for points in [7.0, 6.0, 5.0] {
            let [label, _] = self.name(named, points);
            let mut best: Option<(f64, Point)> = None;
            for centre in lattice(&self.visible, 0.1) {
                let corners = label.box_at(centre, 0.0);
                let distance = home.distance(centre);
                if best.is_none_or(|(least, _)| distance < least) && self.is_free(&corners, 0.02, true) {
                    best = Some((distance, centre));
                }
            }
            if let Some((distance, centre)) = best {
                let way = (centre - home).unit().unwrap_or(Vector::new(0.0, -1.0));
                let end = home + way * (distance - label.reach(way, 0.0) - 0.02);
                self.marks.push(Path::lines([Segment::new(home, end)], Stroke::plain(0.4, GREY), Layer::Marks).into());
                self.marks.push(Path::circle(home, 0.014, Some(Colour::BLACK), None, Layer::Marks).into());
                label.draw(centre, 0.0, &mut self.marks);
                self.inside.add(&label.box_at(centre, 0.0));
                self.inside.add(&[home, end]);
                return;
            }
        }
        let [label, _] = self.name(named, 4.0);
        label.draw(home, 0.0, &mut self.marks);
        self.inside.add(&label.box_at(home, 0.0));
    }

    /// Whether a convex shape lies on the paper, clear of all labels and marks and, where asked, of all seams.
    pub(super) fn is_free(&self, corners: &[Point], gap: f64, off_seams: bool) -> bool {
        self.inside.are_clear_of(corners, gap)
            && (!off_seams || self.seams.are_clear_of(corners, gap))
            && corners.iter().all(|corner| self.visible.holds(*corner, self.tolerance) == Some(true))
    }

    /// Where a leader line begins, where the label's middle lies, and where the line ends at the label.
    fn beside(&self, label: &Label, homes: &[Point], strict: bool, held: bool) -> Option<(Point, Point, Point)> {
        let mut best: Option<(f64, (Point, Point, Point))> = None;
        for reach in [0.12, 0.25, 0.4, 0.6, 0.9, 1.3] {
            for &home in homes {
                for direction in 0..72 {
                    let way = Vector::at_bearing(Angle::degrees(f64::from(direction) * 5.0));
                    let Some(exit) = exit(&self.visible, home, way) else { continue };
                    let half = label.reach(way, 0.0);
                    let centre = exit + way * (reach + half);
                    let distance = home.distance(centre);
                    if best.is_some_and(|(least, _)| least <= distance) {
                        continue;
                    }
                    let end = centre - way * (half + 0.02);
                    let corners = label.box_at(centre, 0.0);
                    let clear = self.outside.are_clear_of(&corners, 0.03) && (!held || self.may_reach(&corners));
                    if clear && (!strict || self.inside.are_clear_of(&[home, end], 0.006)) {
                        best = Some((distance, (home, centre, end)));
                    }
                }
            }
            if best.is_some() {
                break;
            }
        }
        best.map(|(_, found)| found)
    }
}

/// Places all over a convex area, row by row from its upper left.
pub(super) fn lattice(area: &Polygon, step: f64) -> impl Iterator<Item = Point> {
    let (from, to) = area.bounds();
    let along = move |from: f64, to: f64| {
        (1_u16..2_000).map(move |k| from + f64::from(k) * step).take_while(move |&at| at < to)
    };
    along(from.y, to.y).flat_map(move |y| along(from.x, to.x).map(move |x| Point::new(x, y)))
}

/// Where a ray from inside a convex area leaves it.
pub(super) fn exit(area: &Polygon, from: Point, way: Vector) -> Option<Point> {
    area.edges()
        .filter_map(Segment::line)
        .filter_map(|line| {
            let speed = line.direction().cross(way);
            let clearance = line.distance_right(from);
            (speed < -1e-9 && clearance >= 0.0).then(|| clearance / -speed)
        })
        .fold(None, |least: Option<f64>, distance| Some(least.map_or(distance, |least| least.min(distance))))
        .map(|distance| from + way * distance)
}
