//! Which units are alike: the same drawing in the same fabrics, turned and shifted, but not mirrored. Alike units are sewn on copies of one foundation.

use std::collections::BTreeMap;

use super::Drawing;
use crate::geometry::{Point, Polygon, Segment, Transform, Vector};

/// How one unit lies on another that is alike.
#[derive(Debug, Clone, PartialEq)]
pub struct Match {
    /// From the first unit to the second.
    pub transform: Transform,
    /// The patch of the second under each patch of the first, in the order of the first.
    pub patches: Vec<usize>,
}

/// How the second unit is the first one moved, or mirrored and moved; `None` where they are not alike. Of several ways the one that turns least.
///
/// Both are given by the numbers of their patches. O(edges × patches²).
pub fn congruent(drawing: &Drawing<'_>, first: &[usize], second: &[usize], mirrored: bool) -> Option<Match> {
    if first.len() != second.len() {
        return None;
    }
    let flip = if mirrored { Transform::from_matrix([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0]) } else { Transform::IDENTITY };
    let from = flip.apply_to_polygon(&outline(drawing, first)?);
    let to = outline(drawing, second)?;
    if from.corners().len() != to.corners().len() || !near_area(drawing, from.area(), to.area()) {
        return None;
    }
    let base = from.edges().next()?;
    let mut ways: Vec<(f64, Transform)> = to.edges().filter_map(|edge| onto(drawing, base, edge)).collect();
    ways.sort_by(|a, b| a.0.total_cmp(&b.0));
    ways.into_iter().find_map(|(_, way)| {
        let transform = flip.then(way);
        let patches = under(drawing, first, second, transform)?;
        Some(Match { transform, patches })
    })
}

/// The outline of a unit.
pub fn outline(drawing: &Drawing<'_>, unit: &[usize]) -> Option<Polygon> {
    let polygons = unit.iter().filter_map(|&patch| drawing.areas.get(patch));
    Polygon::hull(polygons.flat_map(Polygon::corners).copied(), drawing.tolerance)
}

fn near_area(drawing: &Drawing<'_>, a: f64, b: f64) -> bool {
    (a - b).abs() <= drawing.tolerance.area()
}

/// The turn and shift that lays one stretch on another of the same length, and by how much it turns, in degrees.
fn onto(drawing: &Drawing<'_>, from: Segment, to: Segment) -> Option<(f64, Transform)> {
    if !drawing.tolerance.is_zero(from.length() - to.length()) {
        return None;
    }
    let (a, b) = (from.line()?.direction(), to.line()?.direction());
    // Quarter turns exactly.
    let exact = |value: f64| if (value - value.round()).abs() < 1e-9 { value.round() } else { value };
    let (cos, sin) = (exact(a.dot(b)), exact(a.cross(b)));
    let turn = Transform::from_matrix([cos, sin, -sin, cos, 0.0, 0.0]);
    let shift: Vector = to.start - turn.apply(from.start);
    Some((libm::atan2(sin, cos).abs().to_degrees(), turn.then(Transform::shift(shift))))
}

/// The patch of the second unit under each of the first.
fn under(drawing: &Drawing<'_>, first: &[usize], second: &[usize], transform: Transform) -> Option<Vec<usize>> {
    let mut free: Vec<usize> = second.to_vec();
    let fabric = |patch: usize| drawing.fabrics.get(patch);
    first
        .iter()
        .map(|&patch| {
            let moved = transform.apply_to_polygon(drawing.areas.get(patch)?);
            let same = |&other: &usize| {
                fabric(patch) == fabric(other)
                    && drawing.areas.get(other).is_some_and(|area| coincide(drawing, &moved, area))
            };
            let at = free.iter().position(same)?;
            Some(free.swap_remove(at))
        })
        .collect()
}

/// Whether two polygons have the same corners.
fn coincide(drawing: &Drawing<'_>, a: &Polygon, b: &Polygon) -> bool {
    let near = |a: Point, b: Point| drawing.tolerance.is_zero(a.distance(b));
    let (a, b) = (a.corners(), b.corners());
    a.len() == b.len() && (0..b.len()).any(|shift| (0..a.len()).all(|k| near(a[k], b[(k + shift) % b.len()])))
}

/// What alike units have in common before they are laid on each other: the fabrics of their patches, ascending, and their area in coarse steps.
type Shelf = (Vec<usize>, i64);

/// The kinds of units met so far: alike ones are of one kind.
pub struct Kinds<'d> {
    drawing: &'d Drawing<'d>,
    /// One unit of each kind.
    first: Vec<Vec<usize>>,
    shelves: BTreeMap<Shelf, Vec<usize>>,
}

impl<'d> Kinds<'d> {
    /// No kinds yet.
    pub const fn new(drawing: &'d Drawing<'d>) -> Self {
        Self { drawing, first: Vec::new(), shelves: BTreeMap::new() }
    }

    /// The number of the kind of a unit, which is a new one if no unit like it was met.
    pub fn of(&mut self, unit: &[usize]) -> usize {
        let mut fabrics: Vec<usize> =
            unit.iter().map(|&patch| self.drawing.fabrics.get(patch).copied().unwrap_or(0)).collect();
        fabrics.sort_unstable();
        let area: f64 = unit.iter().filter_map(|&patch| self.drawing.areas.get(patch)).map(Polygon::area).sum();
        #[expect(clippy::cast_possible_truncation, reason = "floats saturate; a shared shelf only costs time")]
        let step = (area / (8.0 * self.drawing.tolerance.area())).round() as i64;
        for near in [step, step.saturating_sub(1), step.saturating_add(1)] {
            let known = self.shelves.get(&(fabrics.clone(), near)).into_iter().flatten();
            let alike = known.copied().find(|&kind| congruent(self.drawing, &self.first[kind], unit, false).is_some());
            if let Some(kind) = alike {
                return kind;
            }
        }
        let kind = self.first.len();
        self.first.push(unit.to_vec());
        self.shelves.entry((fabrics, step)).or_default().push(kind);
        kind
    }
}

#[cfg(test)]
mod tests {
    use super::{Kinds, congruent};
    use crate::geometry::{Point, Polygon, Tolerance};
    use crate::piecing::plan::Drawing;

    fn polygon(corners: &[(f64, f64)]) -> Polygon {
        let corners: Vec<Point> = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
        Polygon::try_new(&corners, Tolerance::of_extent(8.0)).unwrap()
    }

    #[test]
    fn turned_units_are_alike_and_mirrored_ones_are_not() {
        let areas = [
            polygon(&[(0.0, 0.0), (3.0, 0.0), (0.0, 1.0)]),
            // The same a quarter turn on, and the same mirrored.
            polygon(&[(5.0, 0.0), (5.0, 3.0), (4.0, 0.0)]),
            polygon(&[(0.0, 4.0), (3.0, 4.0), (3.0, 5.0)]),
        ];
        let drawing = Drawing { areas: &areas, fabrics: &[0, 0, 0], fixed: &[], tolerance: Tolerance::of_extent(8.0) };
        let mut kinds = Kinds::new(&drawing);
        assert_eq!([0, 1, 2].map(|patch| kinds.of(&[patch])), [0, 0, 1]);
        assert!(congruent(&drawing, &[0], &[2], true).unwrap().transform.is_mirroring());
        // In another fabric it is another foundation.
        let drawing = Drawing { fabrics: &[0, 1, 0], ..drawing };
        assert!(congruent(&drawing, &[0], &[1], false).is_none());
    }
}
