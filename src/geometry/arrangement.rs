//! Segments to the areas that they enclose.

use std::collections::{BTreeMap, BTreeSet};

use super::{Point, Segment, Tolerance};

/// What segments make together.
#[derive(Debug, Clone, PartialEq)]
pub struct Arrangement {
    /// The bounded areas, each by its corners, clockwise as seen, corners within straight stretches left out. In order of the highest, then the
    /// leftmost corner.
    pub faces: Vec<Vec<Point>>,
    /// The segments of which some stretch bounds no area, by index: they end in nothing, or hang together with nothing.
    pub loose: Vec<usize>,
}

/// The areas that segments enclose. Segments may cross, overlap and end on each other; what is nearer than the tolerance is one point.
///
/// O(n² log n) in the segments and their crossings. The union of the segments should hang together: of an area with others inside it that touch nothing, the holes are not told.
#[must_use]
pub fn arrangement(segments: &[Segment], tolerance: Tolerance) -> Arrangement {
    let mut nodes = Nodes { points: Vec::new(), cells: BTreeMap::new(), tolerance };
    for &segment in segments {
        for point in stops(segment, segments, tolerance) {
            nodes.node(point);
        }
    }
    // By pair of nodes: the segments that run there. A segment runs through every node that is near it, so that all that pass a node agree on it
    // (snap rounding: Hobby 1999).
    let mut edges: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (index, &segment) in segments.iter().enumerate() {
        let on = nodes.along(segment);
        for pair in on.windows(2).filter(|pair| pair[0] != pair[1]) {
            let key = (pair[0].min(pair[1]), pair[0].max(pair[1]));
            let along = edges.entry(key).or_default();
            if !along.contains(&index) {
                along.push(index);
            }
        }
    }
    let loose = take_loose(&mut edges);
    let faces = faces(&nodes.points, &edges, tolerance);
    Arrangement { faces, loose }
}

/// The points at which a segment begins, ends, or meets another, in order along it.
fn stops(segment: Segment, segments: &[Segment], tolerance: Tolerance) -> Vec<Point> {
    let Some(line) = segment.line() else { return Vec::new() };
    let length = segment.length();
    let mut at = vec![0.0, length];
    let mut add = |position: f64| {
        if position > 0.0 && position < length {
            at.push(position);
        }
    };
    for other in segments {
        for end in [other.start, other.end] {
            if tolerance.is_zero(line.distance_right(end)) {
                add(line.position(end));
            }
        }
        let (a, b) = (line.distance_right(other.start), line.distance_right(other.end));
        // However near its end a segment crosses: what is too near to tell apart becomes one node.
        let crosses = (a > 0.0 && b < 0.0) || (a < 0.0 && b > 0.0);
        if crosses {
            let crossing = other.start.along(other.end, a / (a - b));
            add(line.position(crossing));
        }
    }
    at.sort_by(f64::total_cmp);
    at.into_iter().map(|position| line.at(position)).collect()
}

/// Points, those nearer than the tolerance counted as one.
struct Nodes {
    points: Vec<Point>,
    cells: BTreeMap<(i64, i64), Vec<usize>>,
    tolerance: Tolerance,
}

impl Nodes {
    /// The nodes near a segment, in order along it.
    fn along(&self, segment: Segment) -> Vec<usize> {
        let Some(line) = segment.line() else { return Vec::new() };
        let near = |point: Point| self.tolerance.is_zero(segment.distance(point));
        let on = self.points.iter().enumerate().filter(|(_, point)| near(**point));
        let mut placed: Vec<(f64, usize)> = on.map(|(node, &point)| (line.position(point), node)).collect();
        placed.sort_by(|a, b| a.0.total_cmp(&b.0));
        placed.into_iter().map(|(_, node)| node).collect()
    }

    fn node(&mut self, point: Point) -> usize {
        let size = self.tolerance.distance().max(f64::MIN_POSITIVE) * 4.0;
        #[expect(
            clippy::cast_possible_truncation,
            reason = "floats saturate; far points share a cell, and are still told apart"
        )]
        let cell = |value: f64| (value / size).floor() as i64;
        let (x, y) = (cell(point.x), cell(point.y));
        for dx in -1..=1 {
            for dy in -1..=1 {
                let near = self.cells.get(&(x.saturating_add(dx), y.saturating_add(dy)));
                let same = |&&node: &&usize| self.tolerance.is_zero(self.points[node].distance(point));
                if let Some(&node) = near.and_then(|near| near.iter().find(same)) {
                    return node;
                }
            }
        }
        self.points.push(point);
        let node = self.points.len() - 1;
        self.cells.entry((x, y)).or_default().push(node);
        node
    }
}

/// Takes away edges that end in nothing, and those that their going leaves so; tells whose they were.
fn take_loose(edges: &mut BTreeMap<(usize, usize), Vec<usize>>) -> Vec<usize> {
    let mut loose = BTreeSet::new();
    loop {
        let mut degree: BTreeMap<usize, usize> = BTreeMap::new();
        for (a, b) in edges.keys() {
            *degree.entry(*a).or_default() += 1;
            *degree.entry(*b).or_default() += 1;
        }
        let before = edges.len();
        edges.retain(|(a, b), of| {
            let ends = degree.get(a) == Some(&1) || degree.get(b) == Some(&1);
            if ends {
                loose.extend(of.iter().copied());
            }
            !ends
        });
        if edges.len() == before {
            return loose.into_iter().collect();
        }
    }
}

/// The bounded faces: from each edge always on along the next edge clockwise, so that the face stays on the right.
fn faces(points: &[Point], edges: &BTreeMap<(usize, usize), Vec<usize>>, tolerance: Tolerance) -> Vec<Vec<Point>> {
    let mut around: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for &(a, b) in edges.keys() {
        around.entry(a).or_default().push(b);
        around.entry(b).or_default().push(a);
    }
    for (&node, neighbours) in &mut around {
        let bearing = |&other: &usize| (points[other] - points[node]).angle().to_degrees();
        neighbours.sort_by(|a, b| bearing(a).total_cmp(&bearing(b)));
    }
    let mut walked: BTreeSet<(usize, usize)> = BTreeSet::new();
    let mut found = Vec::new();
    let both_ways = edges.keys().flat_map(|&(a, b)| [(a, b), (b, a)]);
    for start in both_ways {
        if walked.contains(&start) {
            continue;
        }
        let mut ring = Vec::new();
        let (mut from, mut to) = start;
        while walked.insert((from, to)) {
            ring.push(points[from]);
            let Some(neighbours) = around.get(&to) else { break };
            // Coming into a node, the next edge clockwise before the way back keeps the face on the right.
            let back = neighbours.iter().position(|&other| other == from).unwrap_or(0);
            let next = neighbours[(back + neighbours.len() - 1) % neighbours.len()];
            (from, to) = (to, next);
        }
        let area = doubled_area(&ring);
        if area > tolerance.area() {
            found.push(without_straight(&ring, tolerance));
        }
    }
    found.retain(|face| face.len() >= 3);
    for face in &mut found {
        let first =
            (0..face.len()).min_by(|&a, &b| face[a].y.total_cmp(&face[b].y).then(face[a].x.total_cmp(&face[b].x)));
        face.rotate_left(first.unwrap_or(0));
    }
    found.sort_by(|a, b| a[0].y.total_cmp(&b[0].y).then(a[0].x.total_cmp(&b[0].x)));
    found
}

/// Twice the area of a ring: positive where it runs clockwise as seen.
fn doubled_area(ring: &[Point]) -> f64 {
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).map(|(a, b)| a.x * b.y - b.x * a.y).sum()
}

/// A ring without the corners at which it does not turn: one after the other, so that two of them that make a turn together are not both taken.
fn without_straight(ring: &[Point], tolerance: Tolerance) -> Vec<Point> {
    let mut kept = ring.to_vec();
    let mut at = 0;
    while kept.len() > 2 && at < kept.len() {
        let count = kept.len();
        let (before, after) = (kept[(at + count - 1) % count], kept[(at + 1) % count]);
        if Segment::new(before, after).line().is_none_or(|line| tolerance.is_zero(line.distance_right(kept[at]))) {
            kept.remove(at);
            // The corner before may be straight now.
            at = at.saturating_sub(1);
        } else {
            at += 1;
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{Arrangement, arrangement};
    use crate::geometry::{Point, Polygon, Segment, Tolerance};

    fn square(size: f64) -> Vec<Segment> {
        Polygon::rectangle(Point::new(0.0, 0.0), Point::new(size, size)).unwrap().edges().collect()
    }

    fn line(a: (f64, f64), b: (f64, f64)) -> Segment {
        Segment::new(Point::new(a.0, a.1), Point::new(b.0, b.1))
    }

    fn made(extra: &[Segment]) -> Arrangement {
        let mut segments = square(8.0);
        segments.extend_from_slice(extra);
        arrangement(&segments, Tolerance::of_extent(8.0))
    }

    #[test]
    fn a_square_is_one_area_and_a_cross_makes_four() {
        assert_eq!(made(&[]).faces.len(), 1);
        let cross = made(&[line((4.0, 0.0), (4.0, 8.0)), line((0.0, 4.0), (8.0, 4.0))]);
        assert_eq!(cross.faces.len(), 4);
        assert_eq!(cross.faces[0], [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)].map(|(x, y)| Point::new(x, y)));
        assert_eq!(cross.loose, Vec::<usize>::new());
    }

    #[test]
    fn a_seam_that_ends_in_nothing_is_loose_and_one_that_ends_on_another_is_not() {
        let made = made(&[line((4.0, 0.0), (4.0, 8.0)), line((4.0, 4.0), (8.0, 4.0)), line((2.0, 0.0), (2.0, 3.0))]);
        assert_eq!((made.faces.len(), made.loose), (3, vec![6]));
    }

    #[test]
    fn edges_that_lie_on_each_other_count_once() {
        let made = made(&[line((0.0, 4.0), (8.0, 4.0)), line((2.0, 4.0), (8.0, 4.0)), line((0.0, 4.0), (5.0, 4.0))]);
        assert_eq!(made.faces.len(), 2);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(300))]

        #[test]
        fn areas_of_lines_across_a_square_fill_it(
            ends in proptest::collection::vec((0.0..4.0f64, 0.0..4.0f64), 0..12),
        ) {
            // A place along the square's outline, by a number from 0 to 4.
            let at = |t: f64| {
                let (side, share) = (t.floor(), 8.0 * (t - t.floor()));
                match side {
                    0.0 => (share, 0.0),
                    1.0 => (8.0, share),
                    2.0 => (8.0 - share, 8.0),
                    _ => (0.0, 8.0 - share),
                }
            };
            let lines: Vec<Segment> = ends.iter().map(|&(a, b)| line(at(a), at(b))).collect();
            let made = made(&lines);
            let area: f64 = made.faces.iter().map(|face| super::doubled_area(face) / 2.0).sum();
            prop_assert!((area - 64.0).abs() < 0.2, "{area}");
            // Straight lines across a convex area leave convex areas.
            for face in &made.faces {
                let whole = Polygon::hull(face.iter().copied(), Tolerance::of_extent(8.0));
                if let Some(whole) = whole {
                    prop_assert!((whole.area() - super::doubled_area(face) / 2.0).abs() < 0.1);
                }
            }
        }
    }
}
