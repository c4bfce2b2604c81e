//! Maps of the plane onto itself: turns, mirrorings, shifts, and even scalings.

use super::{Angle, Line, Point, Polygon, Segment, Vector};

/// An affine map, written as SVG writes it: `[a b c d e f]` sends (x, y) to (a x + c y + e, b x + d y + f).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Transform {
    /// The six numbers.
    matrix: [f64; 6],
}

impl Transform {
    /// The map that changes nothing.
    pub const IDENTITY: Self = Self { matrix: [1.0, 0.0, 0.0, 1.0, 0.0, 0.0] };

    /// A map from its six numbers.
    #[must_use]
    pub const fn from_matrix(matrix: [f64; 6]) -> Self {
        Self { matrix }
    }

    /// The six numbers.
    #[must_use]
    pub const fn to_matrix(self) -> [f64; 6] {
        self.matrix
    }

    /// A shift.
    #[must_use]
    pub const fn shift(by: Vector) -> Self {
        Self { matrix: [1.0, 0.0, 0.0, 1.0, by.x, by.y] }
    }

    /// An even scaling about the origin.
    #[must_use]
    pub const fn scale(factor: f64) -> Self {
        Self { matrix: [factor, 0.0, 0.0, factor, 0.0, 0.0] }
    }

    /// A turn about a place, clockwise as seen.
    #[must_use]
    pub fn turn(angle: Angle, about: Point) -> Self {
        let (sin, cos) = angle.sin_cos();
        let about = about.to_vector();
        let linear = Self { matrix: [cos, sin, -sin, cos, 0.0, 0.0] };
        linear.after(Self::shift(-about)).then(Self::shift(about))
    }

    /// A mirroring over a line.
    #[must_use]
    pub fn mirror(over: Line) -> Self {
        let d = over.direction();
        let (cos2, sin2) = (d.x * d.x - d.y * d.y, 2.0 * d.x * d.y);
        let linear = Self { matrix: [cos2, sin2, sin2, -cos2, 0.0, 0.0] };
        let origin = over.origin().to_vector();
        linear.after(Self::shift(-origin)).then(Self::shift(origin))
    }

    /// First `self`, then `next`.
    #[must_use]
    pub fn then(self, next: Self) -> Self {
        next.after(self)
    }

    /// First `first`, then `self`.
    #[must_use]
    pub fn after(self, first: Self) -> Self {
        let [a, b, c, d, e, f] = self.matrix;
        let [g, h, i, j, k, l] = first.matrix;
        Self {
            matrix: [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f],
        }
    }

    /// The place that a place is sent to.
    #[must_use]
    pub fn apply(self, point: Point) -> Point {
        let [a, b, c, d, e, f] = self.matrix;
        Point::new(a * point.x + c * point.y + e, b * point.x + d * point.y + f)
    }

    /// The displacement that a displacement is sent to.
    #[must_use]
    pub fn apply_to_vector(self, vector: Vector) -> Vector {
        let [a, b, c, d, ..] = self.matrix;
        Vector::new(a * vector.x + c * vector.y, b * vector.x + d * vector.y)
    }

    /// The stretch that a stretch is sent to.
    #[must_use]
    pub fn apply_to_segment(self, segment: Segment) -> Segment {
        Segment::new(self.apply(segment.start), self.apply(segment.end))
    }

    /// The polygon that a polygon is sent to; its corners are put in clockwise order again where the map mirrors. O(n).
    ///
    /// The map must not flatten the plane.
    #[must_use]
    pub fn apply_to_polygon(self, polygon: &Polygon) -> Polygon {
        polygon.transformed(self)
    }

    /// The determinant of its linear part: the factor by which areas grow, negative where it mirrors.
    #[must_use]
    pub fn determinant(self) -> f64 {
        let [a, b, c, d, ..] = self.matrix;
        a * d - b * c
    }

    /// Whether it turns the plane over.
    #[must_use]
    pub fn is_mirroring(self) -> bool {
        self.determinant() < 0.0
    }

    /// The map that undoes this one; `None` where this one flattens the plane.
    #[must_use]
    pub fn inverse(self) -> Option<Self> {
        let [a, b, c, d, e, f] = self.matrix;
        let determinant = self.determinant();
        if determinant == 0.0 || !determinant.is_finite() {
            return None;
        }
        let (ia, ib, ic, id) = (d / determinant, -b / determinant, -c / determinant, a / determinant);
        Some(Self { matrix: [ia, ib, ic, id, -(ia * e + ic * f), -(ib * e + id * f)] })
    }

    /// The angle by which it turns the x axis.
    #[must_use]
    pub fn angle(self) -> Angle {
        self.apply_to_vector(Vector::new(1.0, 0.0)).angle()
    }
}

#[cfg(test)]
mod tests {
    use super::Transform;
    use crate::geometry::{Angle, Line, Point, Vector};

    fn close(a: Point, b: Point) -> bool {
        a.distance(b) < 1e-12
    }

    #[test]
    fn turns_are_clockwise_as_seen() {
        let turn = Transform::turn(Angle::degrees(90.0), Point::new(1.0, 1.0));
        assert!(close(turn.apply(Point::new(2.0, 1.0)), Point::new(1.0, 2.0)));
        assert!(!turn.is_mirroring());
    }

    #[test]
    fn a_mirroring_undoes_itself_and_turns_over() {
        let line = Line::through(Point::new(0.0, 3.0), Point::new(2.0, 4.0)).unwrap();
        let mirror = Transform::mirror(line);
        let point = Point::new(5.0, -1.0);
        assert!(close(mirror.apply(mirror.apply(point)), point));
        assert!(close(mirror.apply(point), line.mirrored(point)));
        assert!(mirror.is_mirroring());
    }

    #[test]
    fn the_inverse_undoes_and_order_is_as_said() {
        let turn = Transform::turn(Angle::degrees(33.0), Point::new(2.0, 5.0));
        let shift = Transform::shift(Vector::new(3.0, 0.5));
        let both = turn.then(shift);
        let point = Point::new(-4.0, 0.25);
        assert!(close(both.apply(point), shift.apply(turn.apply(point))));
        assert!(close(both.inverse().unwrap().apply(both.apply(point)), point));
    }
}
