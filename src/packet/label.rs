//! Where a label fits: in a convex area, along an edge, or beside a figure.

use super::page::{Align, Colour, Item, Layer, Path, Stroke, Text, Weight};
use super::typeface::{self, CAPITALS};
use crate::geometry::{Angle, Length, Point, Polygon, Segment, Tolerance, Vector};

/// A place for a label.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// Where its middle lies.
    pub centre: Point,
    /// Degrees clockwise by which it is turned: above -90, at most 90, so that it is never upside down.
    pub turn: f64,
    /// How far it stays away from the edges of the area.
    pub clearance: f64,
}

/// The place where a box of this width and height, turned so, stays as far as it can from the edges of a convex area; `None` where it
/// cannot keep `least` away from all of them. O(n²).
#[must_use]
pub fn fit(area: &Polygon, width: f64, height: f64, turn: f64, least: f64) -> Option<Spot> {
    let turn = upright(turn);
    let (along, down) = axes(turn);
    let (top_left, bottom_right) = area.bounds();
    let extent = (bottom_right.x - top_left.x).max(bottom_right.y - top_left.y);
    let tolerance = Tolerance::of_extent(extent);
    // The middle may lie wherever the box clears every edge: the area moved in by the box's reach toward that edge and the clearance.
    let room = |clearance: f64| {
        let reach = |inward: Vector| f64::midpoint(width * inward.dot(along).abs(), height * inward.dot(down).abs());
        area.shrunk_by(|inward| reach(inward) + clearance, tolerance)
    };
    let mut best = room(least)?;
    // No place is farther from all edges than half of the narrower side; twelve halvings leave less than the width of a pen.
    let narrower = (bottom_right.x - top_left.x).min(bottom_right.y - top_left.y);
    let (mut clear, mut blocked) = (least, (narrower / 2.0).max(least));
    for _ in 0..12 {
        let between = f64::midpoint(clear, blocked);
        match room(between) {
            Some(smaller) => {
                best = smaller;
                clear = between;
            }
            None => blocked = between,
        }
    }
    Some(Spot { centre: best.centroid(), turn, clearance: clear })
}

/// Whether a convex area holds a box of this width and height `least` away from all its edges, level or along its longest edge. O(n²).
#[must_use]
pub fn has_room(area: &Polygon, width: f64, height: f64, least: f64) -> bool {
    let (from, to) = area.bounds();
    let tolerance = Tolerance::of_extent((to.x - from.x).max(to.y - from.y));
    [0.0, length_direction(area)].into_iter().any(|turn| {
        let (along, down) = axes(turn);
        let reach = |inward: Vector| f64::midpoint(width * inward.dot(along).abs(), height * inward.dot(down).abs());
        area.shrunk_by(|inward| reach(inward) + least, tolerance).is_some()
    })
}

/// The same turn, or the half turn from it, so that text reads from the left or from below.
#[must_use]
pub fn upright(turn: f64) -> f64 {
    let turn = Angle::degrees(turn).within_turn().to_degrees();
    let half = if turn >= 180.0 { turn - 180.0 } else { turn };
    // A hair past upright still reads from below: otherwise rounding would turn labels on straight edges about.
    if half > 89.999 { half - 180.0 } else { half }
}

/// The direction along the text and the direction down from it.
#[must_use]
pub fn axes(turn: f64) -> (Vector, Vector) {
    let (sin, cos) = Angle::degrees(turn).sin_cos();
    (Vector::new(cos, sin), Vector::new(-sin, cos))
}

/// The direction in which an area is longest: that of its longest diagonal's nearest edge would waver, so that of its longest edge.
#[must_use]
pub fn length_direction(area: &Polygon) -> f64 {
    let longest = area.edges().max_by(|a, b| a.length().total_cmp(&b.length()));
    longest.map_or(0.0, |edge| (edge.end - edge.start).angle().to_degrees())
}

/// The corners of a box of this width and height about a spot.
#[must_use]
pub fn box_at(centre: Point, width: f64, height: f64, turn: f64) -> [Point; 4] {
    let (along, down) = axes(turn);
    let (x, y) = (along * (width / 2.0), down * (height / 2.0));
    [centre + -x + -y, centre + x + -y, centre + x + y, centre + -x + y]
}

/// Convex shapes that labels must keep clear of.
#[derive(Debug, Clone, Default)]
pub struct Obstacles {
    /// Each with the upright rectangle round it.
    shapes: Vec<(Vec<Point>, (Point, Point))>,
}

impl Obstacles {
    /// Adds a convex shape: a polygon, or the two ends of a line.
    pub fn add(&mut self, corners: &[Point]) {
        self.shapes.push((corners.to_vec(), bounds(corners)));
    }

    /// Whether a convex shape keeps `gap` away from all of them. O(n).
    #[must_use]
    pub fn are_clear_of(&self, corners: &[Point], gap: f64) -> bool {
        let (from, to) = bounds(corners);
        let far = |(a, b): &(Point, Point)| {
            a.x - to.x >= gap || from.x - b.x >= gap || a.y - to.y >= gap || from.y - b.y >= gap
        };
        self.shapes.iter().all(|(shape, round)| far(round) || apart(shape, corners, gap))
    }
}

fn bounds(corners: &[Point]) -> (Point, Point) {
    let least = Point::new(f64::INFINITY, f64::INFINITY);
    let most = Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY);
    corners.iter().fold((least, most), |(a, b), p| {
        (Point::new(a.x.min(p.x), a.y.min(p.y)), Point::new(b.x.max(p.x), b.y.max(p.y)))
    })
}

/// Whether some line keeps two convex shapes at least `gap` apart: one at right angles to an edge of either, or along it for single lines.
#[must_use]
pub fn apart(a: &[Point], b: &[Point], gap: f64) -> bool {
    let parts = |shape: &[Point], axis: Vector| {
        shape
            .iter()
            .map(|corner| corner.to_vector().dot(axis))
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(l, g), d| (l.min(d), g.max(d)))
    };
    let separates = |axis: Vector| {
        let ((a0, a1), (b0, b1)) = (parts(a, axis), parts(b, axis));
        b0 - a1 >= gap || a0 - b1 >= gap
    };
    [a, b].into_iter().any(|shape| {
        shape
            .iter()
            .zip(shape.iter().cycle().skip(1))
            .filter_map(|(&p, &q)| (q - p).unit())
            .any(|direction| separates(direction.quarter_turned()) || (shape.len() == 2 && separates(direction)))
    })
}

/// A label of a few lines: words, ringed numbers and arrows, laid out about its middle.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// How wide it is, in inches.
    pub width: f64,
    /// How high it is, in inches.
    pub height: f64,
    parts: Vec<Part>,
}

#[derive(Debug, Clone, PartialEq)]
struct Part {
    /// From the label's middle to the part's.
    at: Vector,
    shape: Shape,
    colour: Colour,
}

#[derive(Debug, Clone, PartialEq)]
enum Shape {
    Words { words: String, size: Length, weight: Weight },
    Ring { radius: f64 },
    Arrow(Arrow),
}

/// An arrow in a label.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrow {
    /// Where it points, of length 1, in the frame of the label as it is read.
    pub up: Vector,
    /// How long it is, in inches.
    pub long: f64,
    /// Whether it has a head at either end.
    pub two_way: bool,
}

impl Arrow {
    /// How far its heads reach to either side.
    fn head(self) -> f64 {
        (self.long * 0.16).clamp(0.03, 0.045)
    }

    /// Its lines, about the origin of the label's frame: the shaft first, from its tail to its tip.
    fn lines(self) -> Vec<(Vector, Vector)> {
        let (tip, side) = (self.up * (self.long / 2.0), self.up.quarter_turned() * self.head());
        let back = self.up * (self.head() * 1.5);
        let mut lines = vec![(-tip, tip), (tip, tip + -back + side), (tip, tip + -back + -side)];
        if self.two_way {
            lines.extend([(-tip, -tip + back + side), (-tip, -tip + back + -side)]);
        }
        lines
    }
}

impl Label {
    /// One line of words.
    #[must_use]
    pub fn words(words: &str, size: Length, weight: Weight, colour: Colour) -> Self {
        let width = typeface::width(words, size, weight).to_inches();
        let shape = Shape::Words { words: words.to_owned(), size, weight };
        Self::of(width, size.to_inches() * (CAPITALS + 0.2), vec![Part { at: Vector::default(), shape, colour }])
    }

    /// Words in lines no wider than this, one below the other.
    #[must_use]
    pub fn wrapped(words: &str, width: Length, size: Length, colour: Colour) -> Self {
        let lines = typeface::wrapped(words, width, size, Weight::Regular);
        let mut lines = lines.iter().map(|line| Self::words(line, size, Weight::Regular, colour));
        let first = lines.next().unwrap_or_else(|| Self::of(0.0, 0.0, Vec::new()));
        lines.fold(first, |above, line| above.above(&line, size.to_inches() * 0.2))
    }

    /// A number in a ring: the mark of a fabric.
    #[must_use]
    pub fn ringed(number: u32, size: Length, colour: Colour) -> Self {
        let radius = size.to_inches() * 0.5;
        let words = number.to_string();
        let size = if words.len() > 1 { size * 0.62 } else { size * 0.74 };
        let shapes = [Shape::Ring { radius }, Shape::Words { words, size, weight: Weight::Regular }];
        let parts = shapes.map(|shape| Part { at: Vector::default(), shape, colour });
        Self::of(radius * 2.0, radius * 2.0, parts.to_vec())
    }

    /// An arrow.
    #[must_use]
    pub fn arrow(arrow: Arrow, colour: Colour) -> Self {
        let (up, across) = (arrow.up, arrow.up.quarter_turned());
        let reach = |way: Vector| up.dot(way).abs() * arrow.long + across.dot(way).abs() * 2.0 * arrow.head();
        let part = Part { at: Vector::default(), shape: Shape::Arrow(arrow), colour };
        Self::of(reach(Vector::new(1.0, 0.0)), reach(Vector::new(0.0, 1.0)), vec![part])
    }

    const fn of(width: f64, height: f64, parts: Vec<Part>) -> Self {
        Self { width, height, parts }
    }

    /// Another label to its right.
    #[must_use]
    pub fn beside(&self, right: &Self, gap: f64) -> Self {
        let width = self.width + gap + right.width;
        let shift = Vector::new((width - self.width) / -2.0, 0.0);
        let right_shift = Vector::new((width - right.width) / 2.0, 0.0);
        Self {
            width,
            height: self.height.max(right.height),
            parts: self.shifted(shift).chain(right.shifted(right_shift)).collect(),
        }
    }

    /// Another label below it.
    #[must_use]
    pub fn above(&self, lower: &Self, gap: f64) -> Self {
        let height = self.height + gap + lower.height;
        let shift = Vector::new(0.0, (height - self.height) / -2.0);
        let lower_shift = Vector::new(0.0, (height - lower.height) / 2.0);
        Self {
            width: self.width.max(lower.width),
            height,
            parts: self.shifted(shift).chain(lower.shifted(lower_shift)).collect(),
        }
    }

    fn shifted(&self, by: Vector) -> impl Iterator<Item = Part> + use<> {
        self.parts.clone().into_iter().map(move |part| Part { at: part.at + by, ..part })
    }

    /// How far its box reaches from its middle in a direction of length 1, when it is turned so.
    #[must_use]
    pub fn reach(&self, way: Vector, turn: f64) -> f64 {
        let (along, down) = axes(turn);
        f64::midpoint(way.dot(along).abs() * self.width, way.dot(down).abs() * self.height)
    }

    /// The corners of its box with its middle at a place.
    #[must_use]
    pub fn box_at(&self, centre: Point, turn: f64) -> [Point; 4] {
        box_at(centre, self.width, self.height, turn)
    }

    /// Draws it with its middle at a place.
    pub fn draw(&self, centre: Point, turn: f64, items: &mut Vec<Item>) {
        let (along, down) = axes(turn);
        let place = |from: Vector| centre + along * from.x + down * from.y;
        for Part { at, shape, colour } in &self.parts {
            match shape {
                Shape::Ring { radius } => {
                    let pen = Stroke::plain(0.5, *colour);
                    items.push(Path::circle(place(*at), *radius, None, Some(pen), Layer::Marks).into());
                }
                // Type is centred by its capitals and digits.
                Shape::Words { words, size, weight } => items.push(Item::Text(Text {
                    at: place(*at) + down * (size.to_inches() * CAPITALS / 2.0),
                    words: words.clone(),
                    size: *size,
                    weight: *weight,
                    colour: *colour,
                    align: Align::Middle,
                    turn,
                    layer: Layer::Marks,
                })),
                Shape::Arrow(arrow) => {
                    let lines = arrow.lines().into_iter().map(|(a, b)| Segment::new(place(*at + a), place(*at + b)));
                    let pen = Stroke::plain(0.8, *colour).rounded();
                    items.push(Path::lines(lines, pen, Layer::Marks).into());
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{apart, box_at, fit, upright};
    use crate::geometry::{Point, Polygon, Tolerance};

    #[test]
    fn a_box_stands_in_the_middle_of_a_square() {
        let square = Polygon::rectangle(Point::new(0.0, 0.0), Point::new(2.0, 2.0)).unwrap();
        let spot = fit(&square, 1.0, 0.5, 0.0, 0.1).unwrap();
        assert!((spot.clearance - 0.5).abs() < 1e-3, "{spot:?}");
        assert!((spot.centre.x - 1.0).abs() < 1e-2);
        assert!(fit(&square, 2.0, 0.5, 0.0, 0.1).is_none());
    }

    #[test]
    fn text_is_never_upside_down() {
        for (turn, read) in [(0.0, 0.0), (180.0, 0.0), (90.0, -90.0), (270.0, -90.0), (135.0, -45.0), (-30.0, -30.0)] {
            assert!((upright(turn) - read).abs() < 1e-9, "{turn}");
        }
    }

    #[test]
    fn shapes_that_cross_are_not_apart() {
        let bar = box_at(Point::new(0.0, 0.0), 4.0, 0.2, 0.0);
        let post = box_at(Point::new(0.0, 0.0), 4.0, 0.2, 90.0);
        let line = [Point::new(-1.0, -1.0), Point::new(1.0, 1.0)];
        assert!(!apart(&bar, &post, 0.0) && !apart(&bar, &line, 0.0));
        assert!(apart(&bar, &[Point::new(3.0, 0.0), Point::new(5.0, 0.0)], 0.5));
    }

    proptest! {
        #[test]
        fn a_fitted_box_lies_within_its_area(
            corners in proptest::collection::vec((0.0..4.0f64, 0.0..4.0f64), 3..9),
            width in 0.1..1.0f64, height in 0.05..0.5f64, turn in -90.0..90.0f64,
        ) {
            let tolerance = Tolerance::of_extent(4.0);
            let points = corners.into_iter().map(|(x, y)| Point::new(x, y));
            let Some(area) = Polygon::hull(points, tolerance) else { return Ok(()) };
            if let Some(spot) = fit(&area, width, height, turn, 0.02) {
                for corner in box_at(spot.centre, width, height, spot.turn) {
                    prop_assert_eq!(area.distance_outside(corner), 0.0);
                }
            }
        }
    }
}
