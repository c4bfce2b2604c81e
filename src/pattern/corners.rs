//! One corner where two nearly coincide.

use std::collections::BTreeMap;

use crate::geometry::{Point, Tolerance};

/// The corners of a block so far. A new one within the tolerance of an earlier one becomes that one.
pub struct Corners {
    tolerance: Tolerance,
    cells: BTreeMap<(i64, i64), Vec<Point>>,
}

impl Corners {
    /// No corners yet.
    pub fn new(tolerance: Tolerance) -> Self {
        Self { tolerance, cells: BTreeMap::new() }
    }

    #[expect(clippy::cast_possible_truncation, reason = "floats saturate, and far cells may well be shared")]
    fn cell(&self, point: Point) -> (i64, i64) {
        let size = self.tolerance.distance().max(f64::MIN_POSITIVE) * 2.0;
        ((point.x / size).floor() as i64, (point.y / size).floor() as i64)
    }

    /// The earlier corner that this one is, or itself. O(log n).
    pub fn snap(&mut self, point: Point) -> Point {
        let (column, row) = self.cell(point);
        for dx in -1..=1 {
            for dy in -1..=1 {
                let near = self.cells.get(&(column.saturating_add(dx), row.saturating_add(dy)));
                let found = near.into_iter().flatten().find(|p| self.tolerance.is_zero(p.distance(point)));
                if let Some(&found) = found {
                    return found;
                }
            }
        }
        self.cells.entry((column, row)).or_default().push(point);
        point
    }
}

#[cfg(test)]
mod tests {
    use super::Corners;
    use crate::geometry::{Point, Tolerance};

    #[test]
    fn near_corners_become_one_and_distant_ones_stay() {
        let mut corners = Corners::new(Tolerance::of_extent(16.0));
        let first = corners.snap(Point::new(8.0, 3.0));
        assert_eq!(corners.snap(Point::new(8.001, 2.999)), first);
        let other = Point::new(8.01, 3.0);
        assert_eq!(corners.snap(other), other);
    }
}
