//! Foundations larger than the page: their parts, and the marks by which these are glued together.

use crate::geometry::{Length, Point, Polygon, Segment, Transform, Vector};
use crate::packet::label::{Label, box_at, upright};
use crate::packet::page::{Colour, Layer, Path, Stroke, Weight};

use super::split::Split;
use super::{Drawing, GREY, LAP};

/// The edge of a part that lies on top, along which it is cut: thick and light, like no other line on paper. In printer's points.
const THICK: f64 = 4.0;
/// How much wider and higher than words their ground is, in inches.
const GROUND: f64 = 0.04;
const LIGHT: Colour = Colour::grey(175);

/// How long the arms of a cross are, in inches.
const ARM: f64 = 0.09;

/// One part of a foundation that is larger than the page, in the frame of the drawing.
pub(super) struct Part {
    split: Split,
    index: usize,
    open: Option<Polygon>,
    bare: Option<Polygon>,
}

impl Part {
    pub(super) fn new(split: &Split, placed: Transform, index: usize) -> Self {
        let split = split.framed(placed);
        let (open, bare) = (split.open(index, false), split.open(index, true));
        Self { split, index, open, bare }
    }

    pub(super) fn index(&self) -> usize {
        self.index
    }

    /// Its number, from 1.
    pub(super) fn number(&self) -> u32 {
        number(self.index)
    }

    /// The number of all parts.
    pub(super) fn of(&self) -> u32 {
        u32::try_from(self.split.parts.len()).unwrap_or(u32::MAX)
    }

    /// What is cut out.
    pub(super) fn area(&self) -> &Polygon {
        &self.split.parts[self.index]
    }

    /// All parts without what laps.
    pub(super) fn cells(&self) -> &[Polygon] {
        &self.split.cells
    }

    /// What is left beside the strips in which parts lap.
    pub(super) fn open(&self) -> Option<&Polygon> {
        self.open.as_ref()
    }

    /// What is left beside the strips that other parts are glued over.
    pub(super) fn bare(&self) -> Option<&Polygon> {
        self.bare.as_ref()
    }

    /// Whether a section, or strip of a pieced one, is numbered in it at any rate; by its place among all of them.
    pub(super) fn is_main(&self, area: usize) -> bool {
        self.split.mains.get(area) == Some(&self.index)
    }
}

fn number(index: usize) -> u32 {
    u32::try_from(index + 1).unwrap_or(u32::MAX)
}

/// A line at which a part laps another.
pub(super) struct Glued {
    line: Segment,
    /// Into the part, of length 1.
    inward: Vector,
    /// The number of the other part.
    other: u32,
    /// Whether this part lies on top of the other.
    on_top: bool,
}

impl Drawing<'_> {
    /// Where a part is glued to its neighbours: crosses, and the edges and lines at which they meet, of which all words keep clear.
    pub(super) fn draw_laps(&mut self, part: &Part) -> Vec<Glued> {
        let mut drawn = Vec::new();
        for lap in &part.split.laps {
            if ![lap.below, lap.above].contains(&part.index) {
                continue;
            }
            let Some(middle) = lap.middle.line() else { continue };
            for (at, letter) in &lap.marks {
                self.cross(*at, letter, middle.direction());
            }
            let on_top = lap.above == part.index;
            // Wholly within the part, of which half of a line on its edge would lie outside.
            let aside = if on_top { THICK / 144.0 } else { 0.0 };
            let chord = |aside: f64| lap.strip.chord(middle.shifted_right(aside), self.tolerance);
            let Some(line) = chord(aside - LAP / 2.0).or_else(|| chord(0.02 - LAP / 2.0)) else { continue };
            let right = middle.direction().quarter_turned();
            if on_top {
                self.lines.push(Path::lines([line], Stroke::plain(THICK, LIGHT), Layer::Cutting));
                let (before, after) = (right * -aside, right * aside);
                self.inside.add(&[line.start + before, line.start + after, line.end + after, line.end + before]);
            } else {
                let pen = Stroke::plain(1.0, Colour::BLACK).dashed(&[8.0, 2.5, 1.5, 2.5]);
                self.lines.push(Path::lines([line], pen, Layer::Cutting));
                self.inside.add(&[line.start, line.end]);
                // Where the paper that is covered ends.
                let end = Stroke::plain(0.5, GREY).dashed(&[1.0, 2.0]);
                self.lines.extend(chord(LAP / 2.0).map(|line| Path::lines([line], end, Layer::Cutting)));
            }
            let (inward, other) = if on_top { (right, lap.below) } else { (-right, lap.above) };
            drawn.push(Glued { line, inward, other: number(other), on_top });
        }
        drawn
    }

    /// Says what to do at the lines where parts lap, and which part lies on top.
    pub(super) fn label_laps(&mut self, laps: Vec<Glued>) {
        let words = self.subject.words;
        for lap in laps {
            let (line, into, out) = (lap.line, lap.inward, -lap.inward);
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

    /// A cross that lies on its twin with the same letter when two parts are glued, however these are turned on their sheets.
    fn cross(&mut self, at: Point, letter: &str, along: Vector) {
        let pen = Stroke::plain(0.6, Colour::BLACK);
        let arm = |way: Vector| Segment::new(at - way * ARM, at + way * ARM);
        self.marks.push(Path::lines([arm(along), arm(along.quarter_turned())], pen, Layer::Marks).into());
        let cross = [along, along.quarter_turned(), -along, -along.quarter_turned()].map(|way| at + way * (ARM + 0.01));
        let label = Label::words(letter, Length::points(6.5), Weight::Regular, Colour::BLACK);
        // Between two arms, at the middle of the letter's box, in the quarter that is freest.
        let quarters = [(1.0, -1.0), (1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0)];
        let places = quarters.map(|(a, b)| at + (along * a + along.quarter_turned() * b) * 0.085);
        let is_free = |centre: &Point| self.is_free(&label.box_at(*centre, 0.0), 0.01, true);
        let centre = places.into_iter().find(is_free).unwrap_or(places[0]);
        label.draw(centre, 0.0, &mut self.marks);
        for corners in [cross, label.box_at(centre, 0.0)] {
            self.inside.add(&corners);
            self.crosses.add(&corners);
        }
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
