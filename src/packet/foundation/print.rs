//! Which way prints with a direction run on a foundation: an arrow for its up, one with two heads where up and down are alike.

use crate::geometry::{Length, Point, Segment, Tolerance, Vector};
use crate::model::PrintDirection;
use crate::packet::label::{Label, box_at};
use crate::packet::page::{Layer, Path, Stroke, Weight};

use super::laps::Part;
use super::{Drawing, GREY};

/// How long the arrow is, in inches.
const LONG: f64 = 0.34;
/// How far its heads reach to either side, in inches.
const HEAD: f64 = 0.045;
/// Between the arrow and its word, in inches.
const BESIDE: f64 = 0.03;

/// Which way the prints of a foundation run, where all of them run one way.
#[derive(Clone, Copy)]
struct Run {
    /// Up, of length 1, in the unit's frame.
    up: Vector,
    /// Whether up and down are alike in all of them.
    two_way: bool,
}

impl Drawing<'_> {
    /// Draws the arrow in what is seen of the outline, where it runs into no label and across no seam if it can; left out where it finds no room, and where
    /// the print runs differently from place to place of the unit.
    pub(super) fn draw_print(&mut self, part: Option<&Part>) {
        let Some(run) = self.run() else { return };
        let Some(up) = self.printed.apply_to_vector(run.up).unit() else { return };
        let words = self.subject.words;
        let word = if run.two_way { words.print_two_way() } else { words.print_up() };
        let label = Label::words(&word, Length::points(6.0), Weight::Regular, GREY);
        let turn = up.angle().to_degrees() + 90.0;
        // The word stands level to the right of the arrow's middle, or below it where that is level.
        let aside = Vector::new(1.0, 0.0);
        let reach = up.dot(aside).abs() * LONG / 2.0 + up.cross(aside).abs() * HEAD;
        let aside = aside * (reach + BESIDE + label.width / 2.0);
        let unit = self.subject.block().unit_of(self.subject.variant());
        let outline = self.printed.apply_to_polygon(&unit.outline);
        let open = part.and_then(Part::open).and_then(|open| outline.intersection(&open, self.tolerance));
        let within = match part {
            Some(_) => open,
            None => Some(outline),
        };
        let Some(within) = within else { return };
        let boxes = |at: Point| [box_at(at, 2.0 * HEAD, LONG, turn), label.box_at(at + aside, 0.0)];
        let (from, to) = within.bounds();
        let middle = within.centroid();
        let tolerance = Tolerance::of_extent((to.x - from.x).max(to.y - from.y));
        let mut best: Option<(f64, Point)> = None;
        let steps = 24;
        for avoid_seams in [true, false] {
            for (i, j) in (1..steps).flat_map(|i| (1..steps).map(move |j| (i, j))) {
                let part = |k: i32| f64::from(k) / f64::from(steps);
                let at = Point::new(from.x + (to.x - from.x) * part(i), from.y + (to.y - from.y) * part(j));
                let distance = at.distance(middle);
                if best.is_some_and(|(least, _)| least <= distance) {
                    continue;
                }
                let free = boxes(at).iter().all(|corners| {
                    corners.iter().all(|&corner| within.holds(corner, tolerance) == Some(true))
                        && self.inside.are_clear_of(corners, 0.03)
                        && (!avoid_seams || self.seams.are_clear_of(corners, 0.02))
                });
                if free {
                    best = Some((distance, at));
                }
            }
            if best.is_some() {
                break;
            }
        }
        let Some((_, at)) = best else { return };
        let (tail, tip) = (at + up * (-LONG / 2.0), at + up * (LONG / 2.0));
        let barb = |end: Point, way: Vector, side: f64| {
            Segment::new(end, end + way * -0.07 + way.quarter_turned() * (side * HEAD))
        };
        let mut lines = vec![Segment::new(tail, tip), barb(tip, up, 1.0), barb(tip, up, -1.0)];
        if run.two_way {
            lines.extend([barb(tail, -up, 1.0), barb(tail, -up, -1.0)]);
        }
        self.marks.push(Path::lines(lines, Stroke::plain(0.8, GREY).rounded(), Layer::Marks).into());
        label.draw(at + aside, 0.0, &mut self.marks);
        for corners in boxes(at) {
            self.inside.add(&corners);
        }
    }

    /// Which way the prints run; none where no fabric has a direction, or where it depends on the section or on how the unit is turned.
    fn run(&self) -> Option<Run> {
        let variant = self.subject.variant();
        let mut found: Option<Run> = None;
        for cut in &variant.cuts {
            let fabric = variant.fabrics.get(cut.section).and_then(|&fabric| self.subject.model.fabrics.get(fabric))?;
            let two_way = match fabric.print.direction {
                PrintDirection::None => continue,
                PrintDirection::TwoWay => true,
                PrintDirection::OneWay => false,
            };
            let [top, _, _, bottom] = cut.corners;
            let up = (top - bottom).unit()?;
            found = match found {
                None => Some(Run { up, two_way }),
                // Two-way prints are alike in both directions; a one-way print among them says which is up.
                Some(run) if run.up.cross(up).abs() > 1e-3 => return None,
                Some(run) if run.up.dot(up) > 0.0 => Some(Run { up: run.up, two_way: run.two_way && two_way }),
                Some(run) if run.two_way => Some(Run { up, two_way }),
                Some(run) if two_way => Some(run),
                Some(_) => return None,
            };
        }
        found
    }
}
