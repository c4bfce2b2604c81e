//! Right isosceles triangles.

use super::{Point, Polygon, Segment};

/// How far a leg may be from as long as the other, or their corner from square, as a part of the leg.
const NEARLY: f64 = 1e-3;

/// A right isosceles triangle, clockwise as seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RightTriangle {
    /// The corner with the right angle.
    pub square: Point,
    /// The corner that follows it clockwise.
    pub next: Point,
    /// The third.
    pub last: Point,
}

impl RightTriangle {
    /// A polygon as a right isosceles triangle; none where it is anything else.
    #[must_use]
    pub fn of(polygon: &Polygon) -> Option<Self> {
        let &[a, b, c] = polygon.corners() else { return None };
        [[a, b, c], [b, c, a], [c, a, b]].into_iter().map(|[square, next, last]| Self { square, next, last }).find(
            |at| {
                let (one, other) = (at.next - at.square, at.last - at.square);
                let leg = one.length().max(other.length());
                (one.length() - other.length()).abs() <= NEARLY * leg && one.dot(other).abs() <= NEARLY * leg * leg
            },
        )
    }

    /// Its long side, clockwise.
    #[must_use]
    pub const fn long_side(self) -> Segment {
        Segment::new(self.next, self.last)
    }

    /// Its short sides, clockwise.
    #[must_use]
    pub const fn short_sides(self) -> [Segment; 2] {
        [Segment::new(self.last, self.square), Segment::new(self.square, self.next)]
    }
}

#[cfg(test)]
mod tests {
    use super::RightTriangle;
    use crate::geometry::{Point, Polygon, Tolerance};

    fn is_one(corners: [(f64, f64); 3]) -> bool {
        let corners = corners.map(|(x, y)| Point::new(x, y));
        RightTriangle::of(&Polygon::try_new(&corners, Tolerance::of_extent(8.0)).unwrap()).is_some()
    }

    #[test]
    fn right_isosceles_triangles_are_known_in_any_turn() {
        assert!(is_one([(0.0, 0.0), (4.0, 0.0), (4.0, 4.0)]));
        assert!(is_one([(0.0, 4.0), (4.0, 0.0), (8.0, 4.0)]));
        // Two sides of one length, but no square corner; a square corner, but sides of two lengths.
        assert!(!is_one([(0.0, 4.0), (4.0, 1.0), (8.0, 4.0)]));
        assert!(!is_one([(0.0, 0.0), (3.0, 0.0), (0.0, 4.0)]));
        assert!(RightTriangle::of(&Polygon::rectangle(Point::default(), Point::new(4.0, 4.0)).unwrap()).is_none());
    }
}
