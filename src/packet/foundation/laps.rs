//! Foundations larger than the page: windows that lap, and the marks by which the parts are glued together.

use crate::geometry::{Length, Point, Polygon, Segment, Vector};
use crate::packet::label::{Label, box_at, upright};
use crate::packet::page::{Colour, Layer, Path, Stroke, Weight};

use super::{Drawing, LAP};

/// The edge of a part that lies on top, along which it is cut: thick and light, like no other line on paper. In printer's points.
const THICK: f64 = 4.0;
/// How much wider and higher than words their ground is, in inches.
const GROUND: f64 = 0.04;
const LIGHT: Colour = Colour::grey(175);

/// How many lapped pieces of at most `room` make up a length.
pub(super) fn pieces(length: f64, room: f64) -> u32 {
    let mut count = 1_u32;
    while count < 64 && (length + LAP * f64::from(count - 1)) / f64::from(count) > room {
        count += 1;
    }
    count
}

/// One part of a foundation that is larger than the page: a window on it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Part {
    pub(super) corner: Point,
    pub(super) width: f64,
    pub(super) height: f64,
    pub(super) column: u32,
    pub(super) row: u32,
    pub(super) number: u32,
    pub(super) of: u32,
    /// The numbers of the parts that it laps: on its left, above, on its right, below.
    pub(super) beside: [Option<u32>; 4],
}

impl Part {
    pub(super) fn window(&self) -> Option<Polygon> {
        Polygon::rectangle(self.corner, self.corner + Vector::new(self.width, self.height))
    }

    /// The window without the strips in which parts lap.
    pub(super) fn open(&self) -> Option<Polygon> {
        let [left, above, right, below] = self.beside.map(|beside| if beside.is_some() { LAP } else { 0.0 });
        let far = self.corner + Vector::new(self.width - right, self.height - below);
        Polygon::rectangle(self.corner + Vector::new(left, above), far)
    }
}

/// A side of a part at which it laps another.
pub(super) struct Lap {
    /// The side, from above or from the left.
    side: Segment,
    /// Into the part, of length 1.
    inward: Vector,
    /// The number of the other part.
    other: u32,
    /// Whether this part lies on top of the other.
    on_top: bool,
}

impl Part {
    fn laps(&self) -> impl Iterator<Item = Lap> + use<> {
        let (from, to) = (self.corner, self.corner + Vector::new(self.width, self.height));
        let (right, down) = (Vector::new(1.0, 0.0), Vector::new(0.0, 1.0));
        let (far_above, far_left) = (Point::new(to.x, from.y), Point::new(from.x, to.y));
        // Later parts lie on top of earlier ones.
        let sides = [
            (Segment::new(from, far_left), right, true),
            (Segment::new(from, far_above), down, true),
            (Segment::new(far_above, to), -right, false),
            (Segment::new(far_left, to), -down, false),
        ];
        let lap = |((side, inward, on_top), other): ((Segment, Vector, bool), Option<u32>)| {
            Some(Lap { side, inward, other: other?, on_top })
        };
        sides.into_iter().zip(self.beside).filter_map(lap)
    }
}

impl Drawing<'_> {
    /// Where a part is glued to its neighbours: crosses, and the edges and lines at which they meet, of which all words keep clear.
    pub(super) fn draw_laps(&mut self, part: &Part) -> Vec<(Lap, Segment)> {
        let mut drawn = Vec::new();
        for lap in part.laps() {
            // Both parts of a lap have their crosses at the same places, along the middle of the strip.
            self.cross_on(shifted(lap.side, lap.inward * (LAP / 2.0)));
            if lap.on_top {
                // Wholly within the window, which would take half of a line on its edge.
                let Some(edge) = self.on_part(shifted(lap.side, lap.inward * (THICK / 144.0))) else { continue };
                self.lines.push(Path::lines([edge], Stroke::plain(THICK, LIGHT), Layer::Cutting).into());
                let inner = lap.inward * (THICK / 72.0);
                self.inside.add(&[edge.start, edge.start + inner, edge.end + inner, edge.end]);
                drawn.push((lap, edge));
            } else {
                let Some(line) = self.on_part(shifted(lap.side, lap.inward * LAP)) else { continue };
                let pen = Stroke::plain(1.0, Colour::BLACK).dashed(&[8.0, 2.5, 1.5, 2.5]);
                self.lines.push(Path::lines([line], pen, Layer::Cutting).into());
                self.inside.add(&[line.start, line.end]);
                drawn.push((lap, line));
            }
        }
        drawn
    }

    /// Says what to do at the lines where parts lap, and which part lies on top.
    pub(super) fn label_laps(&mut self, laps: Vec<(Lap, Segment)>) {
        let words = self.subject.words;
        for (lap, line) in laps {
            let (into, out) = (lap.inward, -lap.inward);
            if lap.on_top {
                self.lap_label(&words.part_cut(lap.other), line, &[(into, 1.6), (into, 4.0)]);
            } else {
                // In the strip that is covered, else on this side of it.
                self.lap_label(&words.part_glue(lap.other), line, &[(out, LAP), (into, 1.6), (into, 4.0)]);
            }
        }
    }

    /// Names a part within what is seen of it; false where there is no room.
    pub(super) fn label_open(&mut self, words: &str) -> bool {
        let label = Label::words(words, Length::points(6.0), Weight::Bold, Colour::BLACK);
        let (from, to) = self.visible.bounds();
        let (middle, reach) = (self.visible.centroid(), (to - from) * 0.5);
        for clear in [true, false] {
            for (turn, (i, j)) in [0.0, -90.0].into_iter().flat_map(|turn| spiral().map(move |at| (turn, at))) {
                let centre = middle + Vector::new(reach.x * i, reach.y * j);
                let corners = label.box_at(centre, turn);
                let within = corners.iter().all(|c| self.visible.holds(*c, self.tolerance) == Some(true));
                let free = self.inside.are_clear_of(&corners, 0.015);
                if within && free && (!clear || self.seams.are_clear_of(&corners, 0.015)) {
                    label.draw(centre, turn, &mut self.marks);
                    self.inside.add(&corners);
                    return true;
                }
            }
        }
        false
    }

    /// What of a stretch lies on the unit's paper and in the part.
    fn on_part(&self, stretch: Segment) -> Option<Segment> {
        let line = stretch.line()?;
        let chord = self.cutting.chord(line, self.tolerance)?;
        let (from, to) = (line.position(chord.start).max(0.0), line.position(chord.end).min(stretch.length()));
        (to > from).then(|| Segment::new(line.at(from), line.at(to)))
    }

    /// Two crosses on what of the unit lies along a stretch, so that its parts neither shift nor turn.
    fn cross_on(&mut self, stretch: Segment) {
        let Some(Segment { start, end }) = self.on_part(stretch) else { return };
        for quarter in [0.25, 0.75] {
            self.cross(start.along(end, quarter));
        }
    }

    /// A cross that lies on its twin when two parts are glued.
    fn cross(&mut self, at: Point) {
        let arm = |x: f64, y: f64| Segment::new(at - Vector::new(x, y), at + Vector::new(x, y));
        let pen = Stroke::plain(0.6, Colour::BLACK);
        self.lines.push(Path::lines([arm(0.09, 0.0), arm(0.0, 0.09)], pen, Layer::Marks).into());
        self.inside.add(&[
            at - Vector::new(0.1, 0.1),
            at + Vector::new(0.1, -0.1),
            at + Vector::new(0.1, 0.1),
            at + Vector::new(-0.1, 0.1),
        ]);
    }

    /// Puts words beside a line, in the first of these directions from it and no farther than that: in type as large as runs into nothing, on a white
    /// ground; only where there is no such place across a seam line.
    fn lap_label(&mut self, words: &str, line: Segment, asides: &[(Vector, f64)]) {
        let tries = [true, false].into_iter().flat_map(|clear| asides.iter().map(move |&aside| (clear, aside)));
        let found = tries.into_iter().find_map(|(clear, (way, far))| self.lap_place(words, line, way, far, clear));
        let Some((label, centre, turn)) = found else { return };
        let ground = box_at(centre, label.width + GROUND, label.height + GROUND, turn);
        self.marks.push(Path::area(&ground, Some(Colour::WHITE), None, Layer::Marks).into());
        label.draw(centre, turn, &mut self.marks);
        self.inside.add(&ground);
    }

    fn lap_place(&self, words: &str, line: Segment, way: Vector, far: f64, clear: bool) -> Option<(Label, Point, f64)> {
        let direction = line.line()?.direction();
        let along = upright(direction.angle().to_degrees());
        let shapes = [(along, 9.0), (along, 2.0), (0.0, 2.0), (along, 1.2), (0.0, 1.2), (0.0, 0.8), (0.0, 0.42)];
        let shapes = [7.0, 6.5, 6.0, 5.5, 5.0].into_iter().flat_map(|points| shapes.map(|shape| (points, shape)));
        for (points, (turn, wide)) in shapes {
            let label = Label::wrapped(words, Length::inches(wide), Length::points(points), Colour::BLACK);
            let half = label.reach(way, turn) + GROUND / 2.0;
            let mut reach = half + 0.02;
            while reach + half <= far {
                let mut centres = places(line.length()).map(|at| line.middle() + direction * at + way * reach);
                let found = centres.find(|&centre| {
                    let ground = box_at(centre, label.width + GROUND, label.height + GROUND, turn);
                    let within = |c: &Point| self.visible.holds(*c, self.tolerance) == Some(true);
                    ground.iter().all(within)
                        && self.inside.are_clear_of(&ground, 0.01)
                        && (!clear || self.seams.are_clear_of(&ground, 0.01))
                });
                if let Some(centre) = found {
                    return Some((label, centre, turn));
                }
                reach += 0.08;
            }
        }
        None
    }
}

/// Places from the middle of a square outward to its edges, which lie 1 from it.
fn spiral() -> impl Iterator<Item = (f64, f64)> {
    let steps = [0.0, 0.1, -0.1, 0.2, -0.2, 0.3, -0.3, 0.45, -0.45, 0.6, -0.6, 0.75, -0.75, 0.9, -0.9];
    steps.into_iter().flat_map(move |j| steps.map(|i| (i, j)))
}

/// Places along a stretch of this length, from its middle outward.
fn places(length: f64) -> impl Iterator<Item = f64> {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a page is a few inches long")]
    let steps = (length / 2.0 / 0.08).clamp(0.0, 400.0) as u32;
    (0..=steps).flat_map(|step| [1.0, -1.0].map(|sign| sign * f64::from(step) * 0.08))
}

fn shifted(segment: Segment, by: Vector) -> Segment {
    Segment::new(segment.start + by, segment.end + by)
}
