//! Convex polygons: the only areas this program cuts, sews and prints.

use super::{Line, Point, Segment, Side, Tolerance, Transform, Vector};

/// A convex polygon with area, clockwise as seen, no corner repeated, none on a straight edge.
#[derive(Debug, Clone, PartialEq)]
pub struct Polygon {
    // Invariant: at least three corners, clockwise, each a right turn.
    corners: Vec<Point>,
}

/// Why a closed path is not the outline of a convex polygon. Numbers count the corners of the path from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OutlineFault {
    /// Fewer than three corners that differ.
    TooFewCorners,
    /// The corners lie on one line.
    NoArea,
    /// The edges that begin at these two corners cross or touch.
    Crosses(usize, usize),
    /// The path turns inward at this corner.
    Concave(usize),
}

/// Paths of more corners than this are searched for a crossing only up to here.
const MAX_CROSSING_SEARCH: usize = 2_000;

impl Polygon {
    /// The polygon with this closed path as its outline, in either direction; the first corner is not repeated at the end.
    ///
    /// Corners within the tolerance of the one before count once, and corners on a straight edge are dropped. O(n) for a good outline.
    ///
    /// # Errors
    /// The reason, with the numbers of the corners it is about.
    pub fn try_new(path: &[Point], tolerance: Tolerance) -> Result<Self, OutlineFault> {
        let mut kept: Vec<usize> = Vec::with_capacity(path.len());
        for (i, &point) in path.iter().enumerate() {
            if kept.last().is_none_or(|&j| !tolerance.is_zero(path[j].distance(point))) {
                kept.push(i);
            }
        }
        while kept.len() > 1 && tolerance.is_zero(path[kept[0]].distance(path[kept[kept.len() - 1]])) {
            kept.pop();
        }
        if kept.len() < 3 {
            return Err(OutlineFault::TooFewCorners);
        }
        let signed_area = signed_area(kept.iter().map(|&i| path[i]));
        let perimeter: f64 = cyclic_pairs(&kept).map(|(i, j)| path[i].distance(path[j])).sum();
        if signed_area.abs() <= tolerance.distance() * perimeter / 2.0 {
            return Err(crossing(path, &kept).unwrap_or(OutlineFault::NoArea));
        }
        if signed_area < 0.0 {
            kept.reverse();
        }
        // A corner within the tolerance of the straight line between its neighbours is none; one that turns left is a fault.
        let mut concave = None;
        // A path that goes round once runs downward in one stretch and upward in another; one that goes round twice does so twice.
        let mut reversals = 0;
        let mut downward = None;
        let mut corners = Vec::with_capacity(kept.len());
        for k in 0..kept.len() {
            let before = path[kept[(k + kept.len() - 1) % kept.len()]];
            let here = path[kept[k]];
            let after = path[kept[(k + 1) % kept.len()]];
            let (incoming, outgoing) = (here - before, after - here);
            if outgoing.y != 0.0 {
                reversals += usize::from(downward.is_some_and(|was| was != (outgoing.y > 0.0)));
                downward = Some(outgoing.y > 0.0);
            }
            let straight = Line::through(before, after)
                .is_some_and(|line| tolerance.is_zero(line.distance_right(here)))
                && incoming.dot(outgoing) > 0.0;
            if straight {
                continue;
            }
            if incoming.cross(outgoing) < 0.0 {
                concave = concave.or(Some(kept[k]));
            }
            corners.push(here);
        }
        if concave.is_some() || reversals > 2 {
            return Err(
                crossing(path, &kept).unwrap_or_else(|| concave.map_or(OutlineFault::NoArea, OutlineFault::Concave))
            );
        }
        if corners.len() < 3 { Err(OutlineFault::NoArea) } else { Ok(Self { corners }) }
    }

    /// The rectangle between two opposite corners; `None` where it has no area.
    #[must_use]
    pub fn rectangle(a: Point, b: Point) -> Option<Self> {
        let (left, right) = (a.x.min(b.x), a.x.max(b.x));
        let (top, bottom) = (a.y.min(b.y), a.y.max(b.y));
        (right > left && bottom > top).then(|| Self {
            corners: vec![
                Point::new(left, top),
                Point::new(right, top),
                Point::new(right, bottom),
                Point::new(left, bottom),
            ],
        })
    }

    /// The smallest convex polygon round some places (Andrew 1979, monotone chains); `None` where they lie on one line. O(n log n).
    #[must_use]
    pub fn hull(points: impl IntoIterator<Item = Point>, tolerance: Tolerance) -> Option<Self> {
        let mut points: Vec<Point> = points.into_iter().collect();
        points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
        let mut chain: Vec<Point> = Vec::with_capacity(points.len() * 2);
        for pass in 0..2 {
            let floor = chain.len();
            let mut extend = |point: Point| {
                while chain.len() >= floor + 2 {
                    let (a, b) = (chain[chain.len() - 2], chain[chain.len() - 1]);
                    if (b - a).cross(point - b) > 0.0 {
                        break;
                    }
                    chain.pop();
                }
                chain.push(point);
            };
            if pass == 0 {
                points.iter().copied().for_each(&mut extend);
            } else {
                points.iter().rev().copied().for_each(&mut extend);
            }
            chain.pop();
        }
        Self::try_new(&chain, tolerance).ok()
    }

    /// Its corners, clockwise.
    #[must_use]
    pub fn corners(&self) -> &[Point] {
        &self.corners
    }

    /// Its edges, clockwise, the first from the first corner; the inside is on the right of each.
    pub fn edges(&self) -> impl Iterator<Item = Segment> + '_ {
        let n = self.corners.len();
        (0..n).map(move |i| Segment::new(self.corners[i], self.corners[(i + 1) % n]))
    }

    /// Its area. O(n).
    #[must_use]
    pub fn area(&self) -> f64 {
        signed_area(self.corners.iter().copied())
    }

    /// Its centre of gravity. O(n).
    #[must_use]
    pub fn centroid(&self) -> Point {
        let origin = self.corners[0];
        let (mut sum, mut weight) = (Vector::default(), 0.0);
        for pair in self.corners[1..].windows(2) {
            let (a, b) = (pair[0] - origin, pair[1] - origin);
            let area = a.cross(b);
            sum = sum + (a + b) * (area / 3.0);
            weight += area;
        }
        origin + sum * (1.0 / weight)
    }

    /// The upper left and the lower right corner of the upright rectangle round it. O(n).
    #[must_use]
    pub fn bounds(&self) -> (Point, Point) {
        let (left, right) = self.extent(Vector::new(1.0, 0.0));
        let (top, bottom) = self.extent(Vector::new(0.0, 1.0));
        (Point::new(left, top), Point::new(right, bottom))
    }

    /// The least and the greatest scalar product of its places with a direction. O(n).
    #[must_use]
    pub fn extent(&self, direction: Vector) -> (f64, f64) {
        self.corners
            .iter()
            .map(|corner| corner.to_vector().dot(direction))
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(least, greatest), d| (least.min(d), greatest.max(d)))
    }

    /// Its width where it is narrowest: the least distance of two parallel lines that hold it between them. O(n²).
    #[must_use]
    pub fn width(&self) -> f64 {
        self.edges()
            .filter_map(Segment::line)
            .map(|line| self.corners.iter().map(|&c| line.distance_right(c)).fold(0.0, f64::max))
            .fold(f64::INFINITY, f64::min)
    }

    /// Where a place lies: `Some(true)` inside, `None` on the outline within the tolerance, `Some(false)` outside. O(n).
    #[must_use]
    pub fn holds(&self, point: Point, tolerance: Tolerance) -> Option<bool> {
        if self.edges().any(|edge| tolerance.is_zero(edge.distance(point))) {
            return None;
        }
        Some(self.edges().filter_map(Segment::line).all(|line| line.distance_right(point) > 0.0))
    }

    /// How far a place lies outside; 0 within or on the outline. O(n).
    #[must_use]
    pub fn distance_outside(&self, point: Point) -> f64 {
        if self.edges().filter_map(Segment::line).all(|line| line.distance_right(point) >= 0.0) {
            return 0.0;
        }
        self.edges().map(|edge| edge.distance(point)).fold(f64::INFINITY, f64::min)
    }

    /// Whether another polygon lies within this one, outlines touching allowed. O(n m).
    #[must_use]
    pub fn covers(&self, other: &Self, tolerance: Tolerance) -> bool {
        self.edges()
            .filter_map(Segment::line)
            .all(|line| other.corners.iter().all(|&corner| line.side(corner, tolerance) != Side::Left))
    }

    /// Its edge on which a segment lies whole; `None` where it lies on none. O(n).
    #[must_use]
    pub fn edge_under(&self, segment: Segment, tolerance: Tolerance) -> Option<Segment> {
        self.edges().find(|edge| [segment.start, segment.end].iter().all(|&end| tolerance.is_zero(edge.distance(end))))
    }

    /// On which side of a line it lies; `None` where the line runs through it. O(n).
    #[must_use]
    pub fn side(&self, line: Line, tolerance: Tolerance) -> Option<Side> {
        let (mut left, mut right) = (false, false);
        for &corner in &self.corners {
            match line.side(corner, tolerance) {
                Side::Left => left = true,
                Side::Right => right = true,
                Side::On => {}
            }
        }
        match (left, right) {
            (true, false) => Some(Side::Left),
            (false, true) => Some(Side::Right),
            _ => None,
        }
    }

    /// The parts to the left and to the right of a line. Corners within the tolerance of the line count as on it. O(n).
    #[must_use]
    pub fn cut(&self, line: Line, tolerance: Tolerance) -> (Option<Self>, Option<Self>) {
        let n = self.corners.len();
        let sides: Vec<Side> = self.corners.iter().map(|&corner| line.side(corner, tolerance)).collect();
        let (mut left, mut right) = (Vec::with_capacity(n + 1), Vec::with_capacity(n + 1));
        for i in 0..n {
            let j = (i + 1) % n;
            let (here, there) = (self.corners[i], self.corners[j]);
            match sides[i] {
                Side::Left => left.push(here),
                Side::Right => right.push(here),
                Side::On => {
                    left.push(here);
                    right.push(here);
                }
            }
            if sides[i] != Side::On && sides[j] == sides[i].opposite() {
                let (d, e) = (line.distance_right(here), line.distance_right(there));
                let crossing = here.along(there, d / (d - e));
                left.push(crossing);
                right.push(crossing);
            }
        }
        let part = |corners: Vec<Point>, side: Side| {
            sides.contains(&side).then(|| Self::try_new(&corners, tolerance).ok()).flatten()
        };
        (part(left, Side::Left), part(right, Side::Right))
    }

    /// What it has in common with another; `None` where that has no area. O(n m).
    #[must_use]
    pub fn intersection(&self, other: &Self, tolerance: Tolerance) -> Option<Self> {
        other.edges().filter_map(Segment::line).try_fold(self.clone(), |rest, line| rest.cut(line, tolerance).1)
    }

    /// What is left of it without another, in convex parts. O(n m).
    #[must_use]
    pub fn without(&self, other: &Self, tolerance: Tolerance) -> Vec<Self> {
        if self.intersection(other, tolerance).is_none() {
            return vec![self.clone()];
        }
        let mut parts = Vec::new();
        let mut rest = Some(self.clone());
        for line in other.edges().filter_map(Segment::line) {
            let Some(whole) = rest else { break };
            let (outside, inside) = whole.cut(line, tolerance);
            parts.extend(outside);
            rest = inside;
        }
        parts
    }

    /// What is left when a part is taken off by one straight cut, and the cut, directed so that the part lies on its right.
    /// `None` where no straight line has the part on one side and all the rest on the other. O(n m).
    #[must_use]
    pub fn split_off(&self, part: &Self, tolerance: Tolerance) -> Option<(Segment, Self)> {
        if !self.covers(part, tolerance) {
            return None;
        }
        part.edges().filter_map(Segment::line).find_map(|line| {
            let (Some(rest), Some(taken)) = self.cut(line, tolerance) else { return None };
            let chord = self.chord(line, tolerance)?;
            part.covers(&taken, tolerance).then_some((chord, rest))
        })
    }

    /// The stretch of a line that lies within it; `None` where the line misses it or only touches a corner. O(n).
    #[must_use]
    pub fn chord(&self, line: Line, tolerance: Tolerance) -> Option<Segment> {
        let (mut first, mut last) = (f64::INFINITY, f64::NEG_INFINITY);
        let mut note = |point: Point| {
            let position = line.position(point);
            first = first.min(position);
            last = last.max(position);
        };
        for edge in self.edges() {
            let (here, there) = (line.side(edge.start, tolerance), line.side(edge.end, tolerance));
            if here == Side::On {
                note(edge.start);
            } else if there == here.opposite() {
                let (d, e) = (line.distance_right(edge.start), line.distance_right(edge.end));
                note(edge.start.along(edge.end, d / (d - e)));
            }
        }
        (last - first > tolerance.distance()).then(|| Segment::new(line.at(first), line.at(last)))
    }

    /// Grows it by `margin` on every side and rejoins the edges with mitres, blunted square to the bisector where a mitre would reach
    /// past twice the margin from its corner (corners sharper than 60°).
    ///
    /// `margin` is in the unit of the frame and at least 0. The result is clockwise. O(n).
    #[must_use]
    pub fn grown(&self, margin: f64) -> Self {
        let n = self.corners.len();
        if margin <= 0.0 {
            return self.clone();
        }
        // Every edge has length, as no corner is repeated, so the lines are all there.
        let lines: Vec<Line> = self.edges().filter_map(Segment::line).map(|line| line.shifted_right(-margin)).collect();
        if lines.len() != n {
            return self.clone();
        }
        let mut corners = Vec::with_capacity(n * 2);
        for i in 0..n {
            let (incoming, outgoing) = (lines[(i + n - 1) % n], lines[i]);
            let corner = self.corners[i];
            let mitre = incoming.meet(outgoing);
            match mitre {
                Some(mitre) if mitre.distance(corner) <= 2.0 * margin * (1.0 + 1e-9) => corners.push(mitre),
                _ => {
                    let outward = (incoming.direction() + -outgoing.direction()).unit();
                    let Some(outward) = outward else { continue };
                    let blunt = Line::toward(corner + outward * (2.0 * margin), outward.quarter_turned());
                    let Some(blunt) = blunt else { continue };
                    corners.extend(incoming.meet(blunt));
                    corners.extend(outgoing.meet(blunt));
                }
            }
        }
        Self { corners }
    }

    /// Moves every edge inward by its own distance, given by the direction of its inner normal; `None` where nothing is left. O(n²).
    #[must_use]
    pub fn shrunk_by(&self, distance: impl Fn(Vector) -> f64, tolerance: Tolerance) -> Option<Self> {
        self.edges().filter_map(Segment::line).try_fold(self.clone(), |rest, line| {
            let inward = line.direction().quarter_turned();
            rest.cut(line.shifted_right(distance(inward)), tolerance).1
        })
    }

    /// Where a map sends it; clockwise again where the map mirrors.
    pub(super) fn transformed(&self, transform: Transform) -> Self {
        let mut corners: Vec<Point> = self.corners.iter().map(|&corner| transform.apply(corner)).collect();
        if transform.is_mirroring() {
            // Keeps the first corner first.
            corners[1..].reverse();
        }
        Self { corners }
    }
}

/// Twice nothing where anticlockwise and clockwise parts cancel; positive for a path that runs clockwise as seen.
fn signed_area(points: impl Iterator<Item = Point> + Clone) -> f64 {
    let Some(origin) = points.clone().next() else { return 0.0 };
    let rest = points.map(|p| p - origin);
    rest.clone().zip(rest.skip(1)).map(|(a, b)| a.cross(b)).sum::<f64>() / 2.0
}

fn cyclic_pairs(items: &[usize]) -> impl Iterator<Item = (usize, usize)> + '_ {
    (0..items.len()).map(|k| (items[k], items[(k + 1) % items.len()]))
}

/// The first two edges of the path that cross or touch without being neighbours.
fn crossing(path: &[Point], kept: &[usize]) -> Option<OutlineFault> {
    let mut ordered = kept.to_vec();
    ordered.sort_unstable();
    ordered.truncate(MAX_CROSSING_SEARCH);
    let edges: Vec<(usize, Segment)> =
        cyclic_pairs(&ordered).map(|(i, j)| (i, Segment::new(path[i], path[j]))).collect();
    for (k, &(i, first)) in edges.iter().enumerate() {
        for (l, &(j, second)) in edges.iter().enumerate().skip(k + 2) {
            let neighbours = k == 0 && l + 1 == edges.len();
            if !neighbours && segments_meet(first, second) {
                return Some(OutlineFault::Crosses(i, j));
            }
        }
    }
    None
}

fn segments_meet(a: Segment, b: Segment) -> bool {
    let turn = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    let (s, t) = (turn(a.start, a.end, b.start), turn(a.start, a.end, b.end));
    let (u, v) = (turn(b.start, b.end, a.start), turn(b.start, b.end, a.end));
    s * t <= 0.0 && u * v <= 0.0 && !(s == 0.0 && t == 0.0 && u == 0.0 && v == 0.0 && apart(a, b))
}

/// Whether two stretches of one line share no place.
fn apart(a: Segment, b: Segment) -> bool {
    let along = a.end - a.start;
    let at = |p: Point| along.dot(p - a.start);
    let (b0, b1) = (at(b.start), at(b.end));
    b0.max(b1) < 0.0 || b0.min(b1) > at(a.end)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{OutlineFault, Polygon};
    use crate::geometry::{Angle, Line, Point, Tolerance, Transform, Vector};

    const TOLERANCE: f64 = 100.0;

    fn tolerance() -> Tolerance {
        Tolerance::of_extent(TOLERANCE)
    }

    fn path(corners: &[(f64, f64)]) -> Vec<Point> {
        corners.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    fn polygon(corners: &[(f64, f64)]) -> Polygon {
        Polygon::try_new(&path(corners), tolerance()).unwrap()
    }

    #[test]
    fn outlines_are_made_clockwise_and_straight_corners_dropped() {
        let p = polygon(&[(0.0, 0.0), (0.0, 4.0), (4.0, 4.0), (4.0, 2.0), (4.0, 0.0)]);
        assert_eq!(p.corners().len(), 4);
        assert!((p.area() - 16.0).abs() < 1e-12);
    }

    #[test]
    fn bad_outlines_say_where() {
        let fault = |corners: &[(f64, f64)]| Polygon::try_new(&path(corners), tolerance()).unwrap_err();
        assert_eq!(fault(&[(0.0, 0.0), (4.0, 0.0)]), OutlineFault::TooFewCorners);
        assert_eq!(fault(&[(0.0, 0.0), (4.0, 0.0), (9.0, 0.0)]), OutlineFault::NoArea);
        assert_eq!(fault(&[(0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 4.0)]), OutlineFault::Crosses(0, 2));
        assert_eq!(fault(&[(0.0, 0.0), (4.0, 0.0), (1.0, 1.0), (0.0, 4.0)]), OutlineFault::Concave(2));
    }

    #[test]
    fn a_star_drawn_in_one_stroke_crosses() {
        let star: Vec<Point> = (0..5)
            .map(|k| Point::new(50.0, 50.0) + Vector::at_bearing(Angle::degrees(144.0 * f64::from(k))) * 40.0)
            .collect();
        assert!(matches!(Polygon::try_new(&star, tolerance()), Err(OutlineFault::Crosses(..))));
    }

    #[test]
    fn growing_a_square_mitres_and_growing_a_needle_blunts() {
        let square = polygon(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]);
        assert_eq!(square.grown(1.0).bounds(), (Point::new(-1.0, -1.0), Point::new(5.0, 5.0)));
        let needle = polygon(&[(0.0, 0.0), (40.0, 4.0), (0.0, 8.0)]);
        let grown = needle.grown(1.0);
        assert_eq!(grown.corners().len(), 4);
        assert!((grown.bounds().1.x - 42.0).abs() < 1e-9, "the tip ends twice the margin past the corner");
        assert!(grown.covers(&needle, tolerance()));
    }

    #[test]
    fn chords_run_from_edge_to_edge() {
        let square = polygon(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]);
        let line = Line::through(Point::new(-1.0, 1.0), Point::new(1.0, 1.0)).unwrap();
        let chord = square.chord(line, tolerance()).unwrap();
        assert_eq!((chord.start, chord.end), (Point::new(0.0, 1.0), Point::new(4.0, 1.0)));
        let corner = Line::through(Point::new(-1.0, 1.0), Point::new(1.0, -1.0)).unwrap();
        assert!(square.chord(corner, tolerance()).is_none());
    }

    #[test]
    fn a_part_splits_off_only_by_one_straight_cut() {
        let square = polygon(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]);
        let corner = polygon(&[(2.0, 0.0), (4.0, 0.0), (4.0, 2.0)]);
        let (cut, rest) = square.split_off(&corner, tolerance()).unwrap();
        assert!((rest.area() - 14.0).abs() < 1e-12);
        assert!(cut.line().unwrap().distance_right(corner.centroid()) > 0.0);
        let quarter = polygon(&[(2.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0)]);
        assert!(square.split_off(&quarter, tolerance()).is_none());
    }

    fn any_polygon() -> impl Strategy<Value = Polygon> {
        proptest::collection::vec((0.0..100.0f64, 0.0..100.0f64), 3..12)
            .prop_filter_map("needs area", |corners| Polygon::hull(path(&corners), tolerance()))
    }

    fn any_line() -> impl Strategy<Value = Line> {
        ((0.0..100.0f64, 0.0..100.0f64), 0.0..360.0f64).prop_filter_map("needs length", |((x, y), degrees)| {
            Line::toward(Point::new(x, y), Vector::at_bearing(Angle::degrees(degrees)))
        })
    }

    proptest! {
        #[test]
        fn a_cut_keeps_the_area(p in any_polygon(), line in any_line()) {
            let (left, right) = p.cut(line, tolerance());
            let parts: f64 = left.iter().chain(&right).map(Polygon::area).sum();
            // What a cut within the tolerance of an edge drops is at most a strip of that width.
            prop_assert!((parts - p.area()).abs() < 300.0 * tolerance().distance());
        }

        #[test]
        fn a_polygon_and_what_is_left_of_it_without_another_add_up(p in any_polygon(), q in any_polygon()) {
            let common = p.intersection(&q, tolerance()).map_or(0.0, |c| c.area());
            let left: f64 = p.without(&q, tolerance()).iter().map(Polygon::area).sum();
            prop_assert!((common + left - p.area()).abs() < 1_000.0 * tolerance().distance());
        }

        #[test]
        fn area_is_kept_under_turns_and_mirrorings(p in any_polygon(), line in any_line(), degrees in 0.0..360.0f64) {
            let map = Transform::turn(Angle::degrees(degrees), Point::new(3.0, 4.0)).then(Transform::mirror(line));
            let image = map.apply_to_polygon(&p);
            prop_assert!((image.area() - p.area()).abs() < 1e-6);
        }

        #[test]
        fn a_grown_polygon_covers_and_stays_near(p in any_polygon(), margin in 0.1..5.0f64) {
            let grown = p.grown(margin);
            prop_assert!(grown.covers(&p, tolerance()));
            for &corner in grown.corners() {
                let outside = p.distance_outside(corner);
                prop_assert!(outside <= margin * 2.237 && outside >= margin * 0.99, "{outside} at margin {margin}");
            }
        }
    }
}
