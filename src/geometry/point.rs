//! Places, displacements, angles.

use std::ops::{Add, Mul, Neg, Sub};

/// A place in the plane, in the unit of its frame.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

/// A displacement in the plane, in the unit of its frame.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Vector {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

/// An angle, clockwise as seen.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Angle {
    degrees: f64,
}

impl Angle {
    /// So many degrees.
    #[must_use]
    pub const fn degrees(degrees: f64) -> Self {
        Self { degrees }
    }

    /// So many radians.
    #[must_use]
    pub fn radians(radians: f64) -> Self {
        Self { degrees: radians * (180.0 / std::f64::consts::PI) }
    }

    /// The angle in degrees.
    #[must_use]
    pub const fn to_degrees(self) -> f64 {
        self.degrees
    }

    /// Sine and cosine, exact at whole multiples of a quarter turn.
    #[must_use]
    pub fn sin_cos(self) -> (f64, f64) {
        let turned = self.degrees.rem_euclid(360.0);
        if turned == 0.0 {
            (0.0, 1.0)
        } else if turned == 90.0 {
            (1.0, 0.0)
        } else if turned == 180.0 {
            (0.0, -1.0)
        } else if turned == 270.0 {
            (-1.0, 0.0)
        } else {
            libm::sincos(turned * (std::f64::consts::PI / 180.0))
        }
    }

    /// The same direction within one full turn: at least 0, below 360 degrees.
    #[must_use]
    pub fn within_turn(self) -> Self {
        let turned = self.degrees.rem_euclid(360.0);
        Self { degrees: if turned >= 360.0 { 0.0 } else { turned } }
    }
}

impl Point {
    /// The place at x, y.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The distance to another place.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        (other - self).length()
    }

    /// The place that fraction of the way toward another; 0 is here, 1 is there, and both may be overshot.
    #[must_use]
    pub fn along(self, other: Self, fraction: f64) -> Self {
        // Weighted so that both ends are met exactly and `a.along(b, 1/2)` equals `b.along(a, 1/2)`.
        Self::new(self.x * (1.0 - fraction) + other.x * fraction, self.y * (1.0 - fraction) + other.y * fraction)
    }

    /// Half way to another place.
    #[must_use]
    pub fn middle(self, other: Self) -> Self {
        self.along(other, 0.5)
    }

    /// The displacement from the origin to here.
    #[must_use]
    pub const fn to_vector(self) -> Vector {
        Vector { x: self.x, y: self.y }
    }

    /// Whether both coordinates are numbers within all bounds.
    #[must_use]
    pub fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }
}

impl Vector {
    /// The displacement by x, y.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The unit vector at a compass bearing: 0 points up, 90 degrees to the right.
    #[must_use]
    pub fn at_bearing(angle: Angle) -> Self {
        let (sin, cos) = angle.sin_cos();
        Self::new(sin, -cos)
    }

    /// Its length. Coordinates are far from the bounds at which squares overflow, so the plain root does, and it is exact to the last bit everywhere.
    #[must_use]
    pub fn length(self) -> f64 {
        (self.x * self.x + self.y * self.y).sqrt()
    }

    /// The scalar product.
    #[must_use]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// The cross product: positive where `other` points clockwise of this one, as seen.
    #[must_use]
    pub fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// A quarter turn clockwise, as seen.
    #[must_use]
    pub const fn quarter_turned(self) -> Self {
        Self { x: -self.y, y: self.x }
    }

    /// The same direction at length 1, or `None` for a displacement without length.
    #[must_use]
    pub fn unit(self) -> Option<Self> {
        let length = self.length();
        (length > 0.0 && length.is_finite()).then(|| self * (1.0 / length))
    }

    /// The angle from the x axis, clockwise as seen.
    #[must_use]
    pub fn angle(self) -> Angle {
        Angle::radians(libm::atan2(self.y, self.x))
    }
}

impl Add<Vector> for Point {
    type Output = Self;
    fn add(self, by: Vector) -> Self {
        Self::new(self.x + by.x, self.y + by.y)
    }
}

impl Sub<Vector> for Point {
    type Output = Self;
    fn sub(self, by: Vector) -> Self {
        Self::new(self.x - by.x, self.y - by.y)
    }
}

impl Sub for Point {
    type Output = Vector;
    fn sub(self, other: Self) -> Vector {
        Vector::new(self.x - other.x, self.y - other.y)
    }
}

impl Add for Vector {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y)
    }
}

impl Neg for Vector {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y)
    }
}

impl Mul<f64> for Vector {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self::new(self.x * factor, self.y * factor)
    }
}

#[cfg(test)]
mod tests {
    use super::{Angle, Point, Vector};

    #[test]
    fn quarter_turns_are_exact() {
        for (degrees, sin, cos) in [(0.0, 0.0, 1.0), (90.0, 1.0, 0.0), (-90.0, -1.0, 0.0), (540.0, 0.0, -1.0)] {
            assert_eq!(Angle::degrees(degrees).sin_cos(), (sin, cos), "at {degrees}");
        }
    }

    #[test]
    fn bearings_run_clockwise_from_up() {
        assert_eq!(Vector::at_bearing(Angle::degrees(0.0)), Vector::new(0.0, -1.0));
        assert_eq!(Vector::at_bearing(Angle::degrees(90.0)), Vector::new(1.0, 0.0));
    }

    #[test]
    fn a_quarter_turn_is_clockwise_as_seen() {
        let right = Vector::new(1.0, 0.0);
        assert_eq!(right.quarter_turned(), Vector::new(0.0, 1.0));
        assert!(right.cross(right.quarter_turned()) > 0.0);
    }

    #[test]
    fn both_ends_of_a_way_are_met_exactly() {
        let (a, b) = (Point::new(0.1, 0.7), Point::new(3.3, -2.9));
        assert_eq!(a.along(b, 0.0), a);
        assert_eq!(a.along(b, 1.0), b);
        assert_eq!(a.middle(b), b.middle(a));
    }
}
