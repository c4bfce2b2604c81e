//! Foundations larger than the page: windows that lap, and the marks by which the parts are glued together.

use crate::geometry::{Length, Point, Polygon, Segment, Vector};
use crate::packet::label::{Label, axes};
use crate::packet::page::{Colour, Layer, Path, Stroke, Weight};

use super::{Drawing, GREY, LAP};

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
    pub(super) columns: u32,
    pub(super) rows: u32,
    pub(super) number: u32,
    pub(super) of: u32,
}

impl Part {
    pub(super) fn window(&self) -> Option<Polygon> {
        Polygon::rectangle(self.corner, self.corner + Vector::new(self.width, self.height))
    }

    /// The window without the strips in which parts lap.
    pub(super) fn open(&self) -> Option<Polygon> {
        let lap = |more: bool| if more { LAP } else { 0.0 };
        let (left, above) = (lap(self.column > 0), lap(self.row > 0));
        let (right, below) = (lap(self.column + 1 < self.columns), lap(self.row + 1 < self.rows));
        let far = self.corner + Vector::new(self.width - right, self.height - below);
        Polygon::rectangle(self.corner + Vector::new(left, above), far)
    }
}

impl Drawing<'_> {
    /// Where a part is glued to its neighbours: lines and crosses, of which all words keep clear. Gives the lines, each with whether another part
    /// is glued on there.
    pub(super) fn draw_laps(&mut self, part: &Part) -> Vec<(Segment, bool)> {
        let (left, top) = (part.corner.x, part.corner.y);
        let (right, bottom) = (left + part.width, top + part.height);
        let glue_pen = Stroke::plain(0.5, GREY).dashed(&[1.5, 2.0]);
        let line = |a: (f64, f64), b: (f64, f64)| Segment::new(Point::new(a.0, a.1), Point::new(b.0, b.1));
        // Both parts of a lap have their crosses at the same places, along the middle of the strip.
        let half = LAP / 2.0;
        let across = [(part.column > 0, left + half), (part.column + 1 < part.columns, right - half)];
        let down = [(part.row > 0, top + half), (part.row + 1 < part.rows, bottom - half)];
        for (_, x) in across.into_iter().filter(|(laps, _)| *laps) {
            self.cross_on(line((x, top), (x, bottom)));
        }
        for (_, y) in down.into_iter().filter(|(laps, _)| *laps) {
            self.cross_on(line((left, y), (right, y)));
        }
        let mut seams = Vec::new();
        if part.column + 1 < part.columns {
            seams.push((line((right - LAP, top), (right - LAP, bottom)), true));
        }
        if part.row + 1 < part.rows {
            seams.push((line((left, bottom - LAP), (right, bottom - LAP)), true));
        }
        if part.column > 0 {
            seams.push((line((left, top), (left, bottom)), false));
        }
        if part.row > 0 {
            seams.push((line((left, top), (right, top)), false));
        }
        let mut drawn = Vec::new();
        for (seam, glued) in seams {
            let Some(seam) = seam.line().and_then(|line| self.cutting.chord(line, self.tolerance)) else { continue };
            let pen = if glued { glue_pen.clone() } else { Stroke::plain(0.5, GREY) };
            self.lines.push(Path::lines([seam], pen, Layer::Cutting).into());
            self.inside.add(&[seam.start, seam.end]);
            drawn.push((seam, glued));
        }
        drawn
    }

    /// Says what to do along the lines where parts lap.
    pub(super) fn label_laps(&mut self, part: &Part, seams: Vec<(Segment, bool)>) {
        for (seam, glued) in seams {
            let sideways = (seam.end.y - seam.start.y).abs() > (seam.end.x - seam.start.x).abs();
            if glued {
                let (dx, dy) = if sideways { (LAP / 2.0, 0.0) } else { (0.0, LAP / 2.0) };
                let middle = seam.middle() + Vector::new(dx, dy);
                let next = if sideways { part.number + 1 } else { part.number + part.columns };
                let words = self.subject.words.part_glue(next.min(part.of));
                self.lap_label(&words, middle, if sideways { -90.0 } else { 0.0 }, seam.length());
            } else {
                let (dx, dy) = if sideways { (0.07, 0.0) } else { (0.0, 0.07) };
                self.lap_label(
                    &self.subject.words.part_cut(),
                    seam.middle() + Vector::new(dx, dy),
                    if sideways { -90.0 } else { 0.0 },
                    seam.length(),
                );
            }
        }
    }

    /// Two crosses on what of the unit lies along a stretch, so that its parts neither shift nor turn.
    fn cross_on(&mut self, stretch: Segment) {
        let Some(line) = stretch.line() else { return };
        let Some(chord) = self.cutting.chord(line, self.tolerance) else { return };
        let (from, to) = (line.position(chord.start).max(0.0), line.position(chord.end).min(stretch.length()));
        if to > from {
            for quarter in [0.25, 0.75] {
                self.cross(line.at(from + (to - from) * quarter));
            }
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

    /// Names a part within what is seen of it; false where there is no room.
    pub(super) fn label_open(&mut self, words: &str, part: &Part) -> bool {
        let middle = self.visible.centroid();
        let label = Label::words(words, Length::points(6.0), Weight::Bold, Colour::BLACK);
        let offsets = [0.0, 0.3, -0.3, 0.6, -0.6, 1.2, -1.2];
        let mut places = offsets.into_iter().flat_map(|down| {
            [(0.0, part.width), (-90.0, part.height)]
                .map(|(turn, length)| (middle + Vector::new(0.0, down), turn, length))
        });
        places.any(|(near, turn, length)| self.put_along(&label, near, turn, length))
    }

    /// Puts words along a strip, where they run into nothing; only where they find no such place across a seam line.
    fn lap_label(&mut self, words: &str, near: Point, turn: f64, length: f64) {
        let label = Label::words(words, Length::points(6.0), Weight::Regular, GREY);
        self.put_along(&label, near, turn, length);
    }

    fn put_along(&mut self, label: &Label, near: Point, turn: f64, length: f64) -> bool {
        let (along, down) = axes(turn);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a page is a few inches long")]
        let steps = (length / 2.0 / 0.1).clamp(0.0, 400.0) as u32;
        for avoid_seams in [true, false] {
            for step in 0..=steps {
                for (sign, aside) in [(1.0, 0.0), (-1.0, 0.0), (1.0, 0.15), (-1.0, 0.15), (1.0, -0.15), (-1.0, -0.15)] {
                    let centre = near + along * (sign * f64::from(step) * 0.1) + down * aside;
                    let corners = label.box_at(centre, turn);
                    let within = corners.iter().all(|corner| self.visible.holds(*corner, self.tolerance) == Some(true));
                    let clear = within
                        && self.inside.are_clear_of(&corners, 0.01)
                        && (!avoid_seams || self.seams.are_clear_of(&corners, 0.01));
                    if clear {
                        label.draw(centre, turn, &mut self.marks);
                        self.inside.add(&corners);
                        return true;
                    }
                }
            }
        }
        false
    }
}
