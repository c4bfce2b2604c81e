//! Leaves outside the tree of straight cuts, as geometry: a ring round a centre, and three areas that meet in a point.
//!
//! A ring: every edge of a convex centre is covered by the edge of one member, which ends with it at one corner of the centre, flush, and runs on past
//! the other, where it has the end of its neighbour against it. All members run on the same way round. So every seam is straight, and no straight
//! line divides the whole. An inset corner: three areas, each two of which share an edge from one point outward, no two of those in one line.

use crate::geometry::{Line, Point, Polygon, Segment, Side, Tolerance};

/// The seam of one member of a ring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RingSeam {
    /// All of it, from the corner of the centre where the member is flush to the outer end.
    pub seam: Segment,
    /// Where the edge of the centre ends along it.
    pub centre_end: Point,
}

/// Why areas make no ring round a centre. Members by their number in the order of sewing, from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoRing {
    /// The member lies along no edge of the centre.
    Apart(usize),
    /// The member covers only a part of an edge of the centre.
    Short(usize),
    /// Two members lie along one edge of the centre.
    Shared(usize, usize),
    /// An edge of the centre has no member.
    Uncovered,
    /// The second is named after the first, but does not lie next to it on the way round.
    Skipped(usize, usize),
    /// They lie in a ring, but named against the way in which each seam is straight.
    WrongWay,
    /// The first does not run on past the centre to where the second ends, so that the second would not stop at it.
    NoStop(usize, usize),
    /// The edge of the first is longer or shorter than the centre and the end of the second together.
    Uneven(usize, usize),
    /// Together they are not convex.
    NotConvex,
}

/// The seams of a ring, by member. `members` go round in the order of sewing. O(corners²).
///
/// # Errors
/// Why there is none, the first reason found.
pub fn ring(centre: &Polygon, members: &[&Polygon], tolerance: Tolerance) -> Result<Vec<RingSeam>, NoRing> {
    let edges: Vec<Segment> = centre.edges().collect();
    // By member: its edge of the centre, and how far its own reaches along it.
    let mut along: Vec<(usize, f64, f64)> = Vec::with_capacity(members.len());
    for (k, member) in members.iter().enumerate() {
        let facing = edges.iter().enumerate().find_map(|(number, &edge)| {
            let line = edge.line()?;
            let (from, to) = facing(line, member, tolerance)?;
            (from.max(0.0) + tolerance.distance() < to.min(edge.length())).then_some((number, from, to))
        });
        let (number, from, to) = facing.ok_or(NoRing::Apart(k))?;
        if let Some(other) = along.iter().position(|&(taken, ..)| taken == number) {
            return Err(NoRing::Shared(other, k));
        }
        along.push((number, from, to));
    }
    let short = |&(number, from, to): &(usize, f64, f64)| {
        let length = edges[number].length();
        from > tolerance.distance() || to < length - tolerance.distance()
    };
    if let Some(k) = along.iter().position(short) {
        return Err(NoRing::Short(k));
    }
    let n = edges.len();
    if along.len() < n {
        return Err(NoRing::Uncovered);
    }
    let before = |k: usize| (k + n - 1) % n;
    let next_is = |k: usize, step: usize| along[k].0 == (along[before(k)].0 + step) % n;
    let clockwise = next_is(1, 1);
    let step = if clockwise { 1 } else { n - 1 };
    if let Some(k) = (1..n).find(|&k| !next_is(k, step)) {
        return Err(NoRing::Skipped(k - 1, k));
    }
    // How far each runs on past its edge of the centre: toward the member before it, and toward the one after it.
    let past = |k: usize| {
        let (number, from, to) = along[k];
        let (start, end) = (-from, to - edges[number].length());
        if clockwise { [start, end] } else { [end, start] }
    };
    let reaches = |by: f64| by > tolerance.distance();
    if (0..n).all(|k| !reaches(past(k)[0]) && reaches(past(k)[1])) {
        return Err(NoRing::WrongWay);
    }
    if let Some(k) = (0..n).find(|&k| !reaches(past(k)[0]) || reaches(past(k)[1])) {
        return Err(NoRing::NoStop(k, before(k)));
    }
    let mut seams = Vec::with_capacity(n);
    for (k, &(number, from, to)) in along.iter().enumerate() {
        let edge = edges[number];
        let (Some(line), length) = (edge.line(), edge.length()) else { return Err(NoRing::Uncovered) };
        // The end of the neighbour lies on the same line, on the other side of it than the member.
        let end = facing(line.reversed(), members[before(k)], tolerance).map(|(a, b)| (-b, -a));
        let rest = if clockwise { (from, 0.0) } else { (length, to) };
        let meets = end.is_some_and(|end| tolerance.is_zero(end.0 - rest.0) && tolerance.is_zero(end.1 - rest.1));
        if !meets {
            return Err(NoRing::Uneven(k, before(k)));
        }
        let (seam, centre_end) = if clockwise {
            (Segment::new(edge.end, line.at(from)), edge.start)
        } else {
            (Segment::new(edge.start, line.at(to)), edge.end)
        };
        seams.push(RingSeam { seam, centre_end });
    }
    let whole = convex(members.iter().copied().chain([centre]), tolerance);
    if whole { Ok(seams) } else { Err(NoRing::NotConvex) }
}

/// Three areas that meet in a point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corner {
    /// The point.
    pub point: Point,
    /// The seam between the second and the third area, from the point outward.
    pub between: Segment,
    /// The seams of the first with the second and with the third, from the point outward.
    pub legs: [Segment; 2],
}

/// Why three areas make no inset corner; areas by their number, from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoCorner {
    /// Two of them have no edge against each other.
    Apart(usize, usize),
    /// Their edges do not come together in one point.
    NoPoint,
    /// The edges of two of them against each other differ.
    Uneven(usize, usize),
    /// Together they are not convex.
    NotConvex,
}

/// The seams of an inset corner. O(corners²).
///
/// # Errors
/// Why there is none, the first reason found.
pub fn corner(areas: [&Polygon; 3], tolerance: Tolerance) -> Result<Corner, NoCorner> {
    let shared = |i: usize, j: usize| shared(areas[i], areas[j], tolerance).ok_or(NoCorner::Apart(i, j));
    let (first, second, between) = (shared(0, 1)?, shared(0, 2)?, shared(1, 2)?);
    let near = |a: Point, b: Point| tolerance.is_zero(a.distance(b));
    let outward = |seam: Segment, point: Point| {
        if near(seam.start, point) {
            Some(seam)
        } else if near(seam.end, point) {
            Some(seam.reversed())
        } else {
            None
        }
    };
    let found = [first.seam.start, first.seam.end].into_iter().find_map(|point| {
        let legs = [outward(first.seam, point)?, outward(second.seam, point)?];
        Some(Corner { point, between: outward(between.seam, point)?, legs })
    });
    let corner = found.ok_or(NoCorner::NoPoint)?;
    for (shared, i, j) in [(first, 0, 1), (second, 0, 2), (between, 1, 2)] {
        if !shared.whole {
            return Err(NoCorner::Uneven(i, j));
        }
    }
    if !convex(areas, tolerance) {
        return Err(NoCorner::NotConvex);
    }
    // Two of them in one line are a straight cut.
    let rays = [corner.between, corner.legs[0], corner.legs[1]];
    let straight = (0..3).any(|k| {
        let line = rays[k].line();
        line.is_some_and(|line| line.side(rays[(k + 1) % 3].end, tolerance) == Side::On)
    });
    if straight { Err(NoCorner::NoPoint) } else { Ok(corner) }
}

/// Whether straight seams join all of some areas: each cut runs along an edge and through none of them. O(n² corners) for each cut.
pub fn straight_seams_join(areas: &[&Polygon], tolerance: Tolerance) -> bool {
    if !convex(areas.iter().copied(), tolerance) {
        return false;
    }
    let mut open: Vec<Vec<&Polygon>> = vec![areas.to_vec()];
    while let Some(region) = open.pop() {
        if region.len() < 2 {
            continue;
        }
        let cut = region.iter().flat_map(|area| area.edges()).filter_map(Segment::line).find_map(|line| {
            let sides: Option<Vec<Side>> = region.iter().map(|area| area.side(line, tolerance)).collect();
            let sides = sides?;
            let of = |wanted: Side| -> Vec<&Polygon> {
                region.iter().zip(&sides).filter(|(_, side)| **side == wanted).map(|(area, _)| *area).collect()
            };
            let (left, right) = (of(Side::Left), of(Side::Right));
            (!left.is_empty() && !right.is_empty()).then_some([left, right])
        });
        match cut {
            Some(parts) => open.extend(parts),
            None => return false,
        }
    }
    true
}

/// Whether areas that do not overlap are convex together.
fn convex<'a>(areas: impl IntoIterator<Item = &'a Polygon>, tolerance: Tolerance) -> bool {
    let (mut corners, mut sum) = (Vec::new(), 0.0);
    for area in areas {
        corners.extend_from_slice(area.corners());
        sum += area.area();
    }
    Polygon::hull(corners, tolerance).is_some_and(|hull| (hull.area() - sum).abs() <= tolerance.area())
}

/// An edge that two areas have against each other.
#[derive(Clone, Copy)]
struct Shared {
    /// What they share of it.
    seam: Segment,
    /// Whether that is all of the edge of both.
    whole: bool,
}

fn shared(a: &Polygon, b: &Polygon, tolerance: Tolerance) -> Option<Shared> {
    a.edges().find_map(|edge| {
        let line = edge.line()?;
        let (from, to) = facing(line, b, tolerance)?;
        let (first, last) = (from.max(0.0), to.min(edge.length()));
        let whole = tolerance.is_zero(from) && tolerance.is_zero(to - edge.length());
        (last - first > tolerance.distance())
            .then(|| Shared { seam: Segment::new(line.at(first), line.at(last)), whole })
    })
}

/// From where to where an area on the left of a line has an edge on it, in positions along the line.
pub fn facing(line: Line, area: &Polygon, tolerance: Tolerance) -> Option<(f64, f64)> {
    let on = |point: Point| line.side(point, tolerance) == Side::On;
    let edge = area.edges().find(|edge| on(edge.start) && on(edge.end))?;
    if area.side(line, tolerance) != Some(Side::Left) {
        return None;
    }
    let (a, b) = (line.position(edge.start), line.position(edge.end));
    Some((a.min(b), a.max(b)))
}
