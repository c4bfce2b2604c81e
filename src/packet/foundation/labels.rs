//! Where the words on a foundation stand: in what they name where it can hold them, else beside the paper with a leader line.

use crate::geometry::{Angle, Length, Point, Polygon, Segment, Vector};
use crate::packet::edges::{Meets, Stretch, stretches};
use crate::packet::label::{Label, box_at, fit, length_direction, upright};
use crate::packet::page::{Colour, Layer, Path, Stroke, Weight};

use super::laps::Part;
use super::{Drawing, GREY};

/// Sizes of section labels that are tried, largest first, in printer's points.
const LABEL_SIZES: [f64; 5] = [10.0, 9.0, 8.0, 7.0, 6.0];
/// Sizes of the labels in the allowance.
const EDGE_SIZES: [f64; 3] = [7.0, 6.0, 5.0];
/// How far labels on one line keep from each other, in inches.
const ASIDE: f64 = 0.1;
/// How far a label keeps from lines, in inches.
const CLEAR: f64 = 0.02;

impl Drawing<'_> {
    fn section_labels(&self, k: usize) -> Vec<Label> {
        let variant = self.subject.variant();
        let name = format!("{}{}", variant.mark, k + 1);
        let fabric = self.subject.model.fabrics[variant.fabrics[k]].mark;
        let mut labels = Vec::new();
        for points in LABEL_SIZES {
            let size = Length::points(points);
            let words = Label::words(&name, size, Weight::Bold, Colour::BLACK);
            let ring = Label::ringed(fabric, size, Colour::BLACK);
            labels.push(words.beside(&ring, points / 72.0 * 0.3));
            labels.push(words.above(&ring, points / 72.0 * 0.15));
        }
        labels
    }

    /// Puts a section's label into it; false where it cannot hold it.
    pub(super) fn label_section(&mut self, k: usize, area: &Polygon) -> bool {
        let along = upright(length_direction(area));
        for label in self.section_labels(k) {
            for turn in [0.0, along] {
                if let Some(spot) = fit(area, label.width, label.height, turn, CLEAR) {
                    let corners = label.box_at(spot.centre, spot.turn);
                    label.draw(spot.centre, spot.turn, &mut self.marks);
                    self.inside.add(&corners);
                    return true;
                }
            }
        }
        false
    }

    /// Puts a section's label beside the paper, with a leader line to the section: the shortest that runs through no other label. Only where there is
    /// none may it cross one.
    pub(super) fn label_beside(&mut self, k: usize, area: &Polygon) {
        let Some(label) = self.section_labels(k).into_iter().nth(4) else { return };
        let centre = area.centroid();
        let homes: Vec<Point> = std::iter::once(centre)
            .chain(area.corners().iter().map(|&corner| centre.along(corner, 0.55)))
            .chain(area.edges().map(|edge| centre.along(edge.middle(), 0.55)))
            .collect();
        let found = [true, false].into_iter().find_map(|strict| self.beside(&label, &homes, strict));
        let Some((home, centre, end)) = found else { return };
        self.marks.push(Path::lines([Segment::new(home, end)], Stroke::plain(0.4, GREY), Layer::Marks).into());
        self.marks.push(Path::circle(home, 0.014, Some(Colour::BLACK), None, Layer::Marks).into());
        label.draw(centre, 0.0, &mut self.marks);
        self.outside.add(&label.box_at(centre, 0.0));
        self.outside.add(&[home, end]);
        self.inside.add(&[home, end]);
    }

    /// Where a leader line begins, where the label's middle lies, and where the line ends at the label.
    fn beside(&self, label: &Label, homes: &[Point], strict: bool) -> Option<(Point, Point, Point)> {
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
                    let clear = self.outside.are_clear_of(&label.box_at(centre, 0.0), 0.03);
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

    /// The name of the foundation along its longest edge, and along every edge what it meets.
    pub(super) fn label_edges(&mut self, part: Option<&Part>) {
        let (model, block, variant) = (self.subject.model, self.subject.block(), self.subject.variant());
        let unit = block.unit_of(variant);
        let words = self.subject.words;
        let mut edges: Vec<Segment> = unit.outline.edges().map(|edge| self.printed.apply_to_segment(edge)).collect();
        if part.is_some() {
            edges = edges.into_iter().filter_map(|edge| self.seen(edge)).collect();
        }
        edges.sort_by(|a, b| b.length().total_cmp(&a.length()));
        let names = match part {
            Some(part) => {
                let short = words.part_name(&variant.mark, part.number, part.of);
                let (title, edition) = (&model.facts.title, &model.facts.edition);
                [words.part_name_long(&variant.mark, part.number, part.of, title, edition), short.clone(), short]
            }
            None => [
                words.foundation_name_long(&variant.mark, &unit.name, &model.facts.title, &model.facts.edition),
                words.foundation_name_middle(&variant.mark, &unit.name, &model.facts.edition),
                words.foundation_name_short(&variant.mark, &model.facts.edition),
            ],
        };
        let named = names.iter().any(|name| edges.iter().any(|edge| self.label_along(name, *edge, Weight::Bold)));
        // A part from the middle of a foundation has no edge to be named along.
        let named = named || part.is_some_and(|part| names.iter().any(|name| self.label_open(name, part)));
        if !named && let Some(name) = names.last() {
            self.label_outside_edge(name, &edges, Weight::Bold);
        }
        let mut stretches = stretches(block, variant);
        stretches.sort_by(|a, b| a.segment.length().total_cmp(&b.segment.length()));
        for Stretch { segment, meets, .. } in stretches {
            let words = match meets {
                Meets::Edge => words.edge_of_block(),
                Meets::Foundations(marks, true) => words.edge_to_more(marks.join(", ")),
                Meets::Foundations(marks, false) => words.edge_to(marks.join(", ")),
            };
            let segment = self.printed.apply_to_segment(segment);
            let Some(segment) = self.seen(segment) else { continue };
            if !self.label_along(&words, segment, Weight::Regular) {
                self.label_outside_edge(&words, &[segment], Weight::Regular);
            }
        }
    }

    /// What of a stretch of the outline lies in the part; nothing where that is next to nothing.
    fn seen(&self, segment: Segment) -> Option<Segment> {
        let line = segment.line()?;
        let chord = self.visible.chord(line, self.tolerance)?;
        let (from, to) = (line.position(chord.start).max(0.0), line.position(chord.end).min(segment.length()));
        (to - from > 0.3 || to - from > segment.length() * 0.9).then(|| Segment::new(line.at(from), line.at(to)))
    }

    /// Puts words into the allowance along a stretch of the outline, in the largest size and nearest to its middle that is free.
    fn label_along(&mut self, words: &str, stretch: Segment, weight: Weight) -> bool {
        let Some(line) = stretch.line() else { return false };
        // The allowance lies on the left of an edge that runs clockwise, on the right in a mirrored drawing.
        let inner = self.cutting.centroid();
        let outward = if line.distance_right(inner) > 0.0 {
            -line.direction().quarter_turned()
        } else {
            line.direction().quarter_turned()
        };
        let allowance = self.subject.model.allowance.to_inches();
        let turn = upright(line.direction().angle().to_degrees());
        for points in EDGE_SIZES {
            let label = Label::words(words, Length::points(points), weight, Colour::BLACK);
            let room = stretch.length() - label.width;
            if room < 0.02 || label.height > allowance - 0.04 {
                continue;
            }
            // Where there is room, what stands beside it on the same line is not read as one with it.
            let near = [2.0 * ASIDE, 0.0].into_iter().find_map(|aside| {
                let middles = outward_from_middle(stretch.length(), room);
                middles.map(|middle| line.at(middle) + outward * (allowance / 2.0)).find(|&centre| {
                    let corners = label.box_at(centre, turn);
                    let within = corners.iter().all(|corner| self.visible.holds(*corner, self.tolerance) == Some(true));
                    within && self.inside.are_clear_of(&box_at(centre, label.width + aside, label.height, turn), 0.015)
                })
            });
            if let Some(centre) = near {
                label.draw(centre, turn, &mut self.marks);
                self.inside.add(&label.box_at(centre, turn));
                return true;
            }
        }
        false
    }

    /// Puts words beside the cutting line, along the first of these stretches where they are free.
    fn label_outside_edge(&mut self, words: &str, stretches: &[Segment], weight: Weight) {
        let allowance = self.subject.model.allowance.to_inches();
        let inner = self.cutting.centroid();
        let label = Label::words(words, Length::points(6.0), weight, Colour::BLACK);
        for reach in [0.04, 0.14, 0.24, 0.4] {
            for stretch in stretches {
                let Some(line) = stretch.line() else { continue };
                let outward = if line.distance_right(inner) > 0.0 {
                    -line.direction().quarter_turned()
                } else {
                    line.direction().quarter_turned()
                };
                for turn in [upright(line.direction().angle().to_degrees()), 0.0] {
                    for shift in [0.0, 0.25, -0.25, 0.5, -0.5] {
                        let half = label.reach(outward, turn);
                        let middle = line.at(stretch.length() * (0.5 + shift));
                        let centre = middle + outward * (allowance + reach + half);
                        let corners = label.box_at(centre, turn);
                        if self.outside.are_clear_of(&corners, 0.02) {
                            let leader =
                                Segment::new(middle + outward * (allowance * 0.75), centre - outward * (half + 0.01));
                            self.marks.push(Path::lines([leader], Stroke::plain(0.3, GREY), Layer::Marks).into());
                            label.draw(centre, turn, &mut self.marks);
                            self.outside.add(&corners);
                            return;
                        }
                    }
                }
            }
        }
    }
}

/// Places along a stretch for the middle of a label that has so much room to move, the nearest to its middle first.
fn outward_from_middle(length: f64, room: f64) -> impl Iterator<Item = f64> {
    let steps = (room / 2.0 / 0.04).floor().clamp(0.0, 200.0);
    let offsets = (0_u8..=200).map(f64::from).take_while(move |&offset| offset <= steps);
    offsets.flat_map(move |offset| [1.0, -1.0].map(|sign| length / 2.0 + sign * offset * 0.04))
}

/// Where a ray from inside a convex area leaves it.
fn exit(area: &Polygon, from: Point, way: Vector) -> Option<Point> {
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
