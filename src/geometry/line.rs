//! Straight lines without end, and segments.

use super::{Point, Tolerance, Vector};

/// A straight line without end. It has a direction; its *left* is what lies anticlockwise of that direction, as seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    origin: Point,
    // Invariant: length 1.
    direction: Vector,
}

/// Which side of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Anticlockwise of its direction, as seen.
    Left,
    /// Within the tolerance of it.
    On,
    /// Clockwise of its direction, as seen.
    Right,
}

impl Side {
    /// The other side; on the line stays on the line.
    #[must_use]
    pub const fn opposite(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::On => Self::On,
            Self::Right => Self::Left,
        }
    }
}

/// A straight stretch between two places.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    /// Where it begins.
    pub start: Point,
    /// Where it ends.
    pub end: Point,
}

impl Line {
    /// The line through two places, directed from the first to the second; `None` where they coincide.
    #[must_use]
    pub fn through(a: Point, b: Point) -> Option<Self> {
        (b - a).unit().map(|direction| Self { origin: a, direction })
    }

    /// The line through a place in a direction; `None` for a direction without length.
    #[must_use]
    pub fn toward(origin: Point, direction: Vector) -> Option<Self> {
        direction.unit().map(|direction| Self { origin, direction })
    }

    /// A place on the line.
    #[must_use]
    pub const fn origin(self) -> Point {
        self.origin
    }

    /// Its direction, of length 1.
    #[must_use]
    pub const fn direction(self) -> Vector {
        self.direction
    }

    /// The same line, directed the other way.
    #[must_use]
    pub fn reversed(self) -> Self {
        Self { origin: self.origin, direction: -self.direction }
    }

    /// The line moved by a distance to its right (to its left if negative).
    #[must_use]
    pub fn shifted_right(self, distance: f64) -> Self {
        Self { origin: self.origin + self.direction.quarter_turned() * distance, direction: self.direction }
    }

    /// How far a place lies to the right of the line; negative to the left.
    #[must_use]
    pub fn distance_right(self, point: Point) -> f64 {
        self.direction.cross(point - self.origin)
    }

    /// How far along the line a place lies, from [`Self::origin`].
    #[must_use]
    pub fn position(self, point: Point) -> f64 {
        self.direction.dot(point - self.origin)
    }

    /// The place at a distance along the line from [`Self::origin`].
    #[must_use]
    pub fn at(self, position: f64) -> Point {
        self.origin + self.direction * position
    }

    /// On which side a place lies.
    #[must_use]
    pub fn side(self, point: Point, tolerance: Tolerance) -> Side {
        let distance = self.distance_right(point);
        if tolerance.is_zero(distance) {
            Side::On
        } else if distance > 0.0 {
            Side::Right
        } else {
            Side::Left
        }
    }

    /// The foot of the perpendicular from a place.
    #[must_use]
    pub fn foot(self, point: Point) -> Point {
        self.at(self.position(point))
    }

    /// The mirror image of a place.
    #[must_use]
    pub fn mirrored(self, point: Point) -> Point {
        point - self.direction.quarter_turned() * (2.0 * self.distance_right(point))
    }

    /// Where two lines meet; `None` where they are parallel (within a hundred-thousandth of a radian).
    #[must_use]
    pub fn meet(self, other: Self) -> Option<Point> {
        let cross = self.direction.cross(other.direction);
        if cross.abs() < 1e-5 {
            return None;
        }
        let position = (other.origin - self.origin).cross(other.direction) / cross;
        let point = self.at(position);
        point.is_finite().then_some(point)
    }
}

impl Segment {
    /// The stretch from one place to another.
    #[must_use]
    pub const fn new(start: Point, end: Point) -> Self {
        Self { start, end }
    }

    /// Its length.
    #[must_use]
    pub fn length(self) -> f64 {
        self.start.distance(self.end)
    }

    /// Its middle.
    #[must_use]
    pub fn middle(self) -> Point {
        self.start.middle(self.end)
    }

    /// The same stretch from end to start.
    #[must_use]
    pub const fn reversed(self) -> Self {
        Self { start: self.end, end: self.start }
    }

    /// The line it lies on, directed from start to end; `None` for a stretch without length.
    #[must_use]
    pub fn line(self) -> Option<Line> {
        Line::through(self.start, self.end)
    }

    /// The place of the stretch that is nearest to `point`.
    #[must_use]
    pub fn nearest(self, point: Point) -> Point {
        let Some(line) = self.line() else { return self.start };
        line.at(line.position(point).clamp(0.0, self.length()))
    }

    /// The distance from a place to the nearest place of the stretch.
    #[must_use]
    pub fn distance(self, point: Point) -> f64 {
        self.nearest(point).distance(point)
    }
}

#[cfg(test)]
mod tests {
    use super::{Line, Side};
    use crate::geometry::{Point, Tolerance};

    #[test]
    fn the_right_of_a_line_that_runs_right_is_below() {
        let line = Line::through(Point::new(0.0, 0.0), Point::new(1.0, 0.0)).unwrap();
        let tolerance = Tolerance::of_extent(1.0);
        assert_eq!(line.side(Point::new(0.3, 1.0), tolerance), Side::Right);
        assert_eq!(line.side(Point::new(0.3, -1.0), tolerance), Side::Left);
        assert_eq!(line.side(Point::new(7.0, 0.000_05), tolerance), Side::On);
        assert_eq!(line.shifted_right(2.0).distance_right(Point::new(0.0, 2.0)), 0.0);
    }

    #[test]
    fn lines_meet_mirror_and_drop_feet() {
        let a = Line::through(Point::new(0.0, 0.0), Point::new(2.0, 2.0)).unwrap();
        let b = Line::through(Point::new(0.0, 2.0), Point::new(2.0, 0.0)).unwrap();
        assert!(a.meet(b).unwrap().distance(Point::new(1.0, 1.0)) < 1e-12);
        assert!(a.meet(a.shifted_right(1.0)).is_none());
        assert!(a.mirrored(Point::new(1.0, 0.0)).distance(Point::new(0.0, 1.0)) < 1e-12);
        assert!(a.foot(Point::new(2.0, 0.0)).distance(Point::new(1.0, 1.0)) < 1e-12);
    }
}
