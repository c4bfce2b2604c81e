//! Whether areas tile another: what overlaps, what is left open.

use crate::fault::sections::Extent;
use crate::geometry::{Point, Polygon, Tolerance};

use super::extent_words;

/// As many pairs of areas that overlap as are told at once: areas that lie in a heap overlap each with each.
const MOST_OVERLAPS: usize = 20;

/// Pairs of areas that overlap, the first twenty found from left to right, with what they have in common.
/// O(n log n + pairs whose bounding boxes meet across).
pub fn overlaps(areas: &[Polygon], tolerance: Tolerance) -> Vec<(usize, usize, Polygon)> {
    let mut boxes: Vec<_> = areas.iter().map(Polygon::bounds).enumerate().collect();
    boxes.sort_by(|(_, a), (_, b)| a.0.x.total_cmp(&b.0.x));
    let mut found = Vec::new();
    'sweep: for (k, &(i, (from, to))) in boxes.iter().enumerate() {
        for &(j, (other_from, other_to)) in &boxes[k + 1..] {
            if other_from.x >= to.x {
                break;
            }
            if other_from.y < to.y
                && from.y < other_to.y
                && let Some(common) = areas[i].intersection(&areas[j], tolerance)
            {
                found.push((i, j, common));
                if found.len() == MOST_OVERLAPS {
                    break 'sweep;
                }
            }
        }
    }
    found.sort_by_key(|&(i, j, _)| (i.max(j), i.min(j)));
    found
}

/// What areas that do not overlap leave open of a whole, in convex parts. O(n) where they tile it.
pub fn gaps(whole: &Polygon, areas: &[Polygon], tolerance: Tolerance) -> Vec<Polygon> {
    let covered: f64 = areas.iter().map(Polygon::area).sum();
    if (whole.area() - covered).abs() <= tolerance.area() / 1_000.0 {
        return Vec::new();
    }
    let mut open = vec![whole.clone()];
    for area in areas {
        open = open.iter().flat_map(|part| part.without(area, tolerance)).collect();
    }
    open
}

/// The corner of an area that lies furthest outside another, and how far; nothing if all lie within.
pub fn furthest_outside(whole: &Polygon, area: &Polygon, tolerance: Tolerance) -> Option<(f64, Point)> {
    area.corners()
        .iter()
        .map(|&corner| (whole.distance_outside(corner), corner))
        .filter(|(distance, _)| !tolerance.is_zero(*distance))
        .max_by(|a, b| a.0.total_cmp(&b.0))
}

/// Where two areas differ.
pub fn difference(a: &Polygon, b: &Polygon, tolerance: Tolerance) -> Extent {
    let mut parts = if a.intersection(b, tolerance).is_some() { a.without(b, tolerance) } else { vec![a.clone()] };
    parts.extend(b.without(a, tolerance));
    extent_words(&parts)
}

#[cfg(test)]
mod tests {
    use super::{gaps, overlaps};
    use crate::geometry::{Point, Polygon, Tolerance};

    fn rectangle(x: f64, y: f64, width: f64, height: f64) -> Polygon {
        Polygon::rectangle(Point::new(x, y), Point::new(x + width, y + height)).unwrap()
    }

    #[test]
    fn tiles_leave_nothing_and_cover_nothing_twice() {
        let tolerance = Tolerance::of_extent(8.0);
        let whole = rectangle(0.0, 0.0, 8.0, 8.0);
        let tiles = [rectangle(0.0, 0.0, 3.0, 8.0), rectangle(3.0, 0.0, 5.0, 5.0), rectangle(3.0, 5.0, 5.0, 3.0)];
        assert!(overlaps(&tiles, tolerance).is_empty());
        assert!(gaps(&whole, &tiles, tolerance).is_empty());
        let open: f64 = gaps(&whole, &tiles[..2], tolerance).iter().map(Polygon::area).sum();
        assert!((open - 15.0).abs() < 1e-9);
        let common = overlaps(&[rectangle(0.0, 0.0, 4.0, 4.0), rectangle(3.0, 3.0, 4.0, 4.0)], tolerance);
        assert_eq!(common.len(), 1);
        assert!((common[0].2.area() - 1.0).abs() < 1e-9);
    }
}
