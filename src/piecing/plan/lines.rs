//! The lines along which patches can be cut apart, and what each of them does.

use std::collections::BTreeMap;

use super::bits::Bits;
use crate::geometry::{Line, Polygon, Segment, Side, Tolerance};

/// A line along edges of patches.
#[derive(Debug, Clone)]
pub struct CutLine<const W: usize> {
    /// The line.
    pub line: Line,
    /// The patches that lie wholly on its left.
    pub left: Bits<W>,
    /// The patches through which it runs.
    pub crossed: Bits<W>,
    /// The patches of each side that have an edge on it: from where to where along it, in order; none overlaps another.
    touching: [Vec<(f64, f64, usize)>; 2],
    /// Where patches of both sides meet on it, in order along it.
    meetings: Vec<f64>,
}

/// The lines of all edges, each once, in an order that depends on nothing but the drawing. O(lines × parts × corners).
///
/// `parts` are what each patch consists of, if that is finer: the sections of a unit, whose seams end on its outline.
pub fn lines<const W: usize>(patches: &[Polygon], parts: &[Vec<Polygon>], tolerance: Tolerance) -> Vec<CutLine<W>> {
    let mut distinct: BTreeMap<(i64, i64), Line> = BTreeMap::new();
    for line in patches.iter().flat_map(Polygon::edges).filter_map(Segment::line) {
        // One of the two directions.
        let direction = line.direction();
        let against = direction.x < -1e-9 || (direction.x.abs() <= 1e-9 && direction.y < 0.0);
        let line = if against { line.reversed() } else { line };
        let from_origin = line.distance_right(crate::geometry::Point::default());
        #[expect(clippy::cast_possible_truncation, reason = "floats saturate; a shared key only drops a twin")]
        let key = (
            (line.direction().angle().to_degrees() * 1e4).round() as i64,
            (from_origin / tolerance.distance() / 4.0).round() as i64,
        );
        distinct.entry(key).or_insert(line);
    }
    let found = distinct.into_values().map(|line| cut_line(line, patches, parts, tolerance));
    // A line that crosses all, or has all on one side, cuts nothing.
    found.filter(|line: &CutLine<W>| line.touching.iter().any(|side| !side.is_empty())).collect()
}

/// The ways in which a part peels, whatever is left: the number of the line, the patch that comes off, and the rest.
pub fn peelings<const W: usize>(
    lines: &[CutLine<W>],
    part: Bits<W>,
) -> impl Iterator<Item = (u32, Bits<W>, Bits<W>)> + '_ {
    let cuts = (0..).zip(lines).filter_map(move |(number, line)| Some((number, line.cut(&part)?)));
    cuts.flat_map(move |(number, left)| {
        let right = part.without(&left);
        [(number, left, right), (number, right, left)].into_iter().filter(|(_, off, _)| off.count() == 1)
    })
}

fn cut_line<const W: usize>(
    line: Line,
    patches: &[Polygon],
    parts: &[Vec<Polygon>],
    tolerance: Tolerance,
) -> CutLine<W> {
    let (mut left, mut crossed) = (Bits::EMPTY, Bits::EMPTY);
    let mut touching = [Vec::new(), Vec::new()];
    for (number, patch) in patches.iter().enumerate() {
        let side = match patch.side(line, tolerance) {
            None => {
                crossed.insert(number);
                continue;
            }
            Some(side) => usize::from(side == Side::Right),
        };
        if side == 0 {
            left.insert(number);
        }
        let whole = std::slice::from_ref(patch);
        for part in parts.get(number).filter(|parts| !parts.is_empty()).map_or(whole, Vec::as_slice) {
            let on = part.edges().find(|edge| {
                line.side(edge.start, tolerance) == Side::On && line.side(edge.end, tolerance) == Side::On
            });
            if let Some(edge) = on {
                let (a, b) = (line.position(edge.start), line.position(edge.end));
                touching[side].push((a.min(b), a.max(b), number));
            }
        }
    }
    for side in &mut touching {
        side.sort_by(|a, b| a.0.total_cmp(&b.0));
    }
    let meetings = meetings(&touching, tolerance);
    CutLine { line, left, crossed, touching, meetings }
}

/// Where patches of both sides meet on a line: a place at which one patch of a side ends and the next begins is the end of a seam between them.
fn meetings(touching: &[Vec<(f64, f64, usize)>; 2], tolerance: Tolerance) -> Vec<f64> {
    let ends = |side: &[(f64, f64, usize)]| -> Vec<f64> {
        let pairs = side.windows(2).filter(|pair| tolerance.is_zero(pair[1].0 - pair[0].1));
        pairs.map(|pair| pair[0].1).collect()
    };
    let (left, right) = (ends(&touching[0]), ends(&touching[1]));
    let mut found = Vec::new();
    let mut at = 0;
    for place in left {
        while right.get(at).is_some_and(|other| *other < place - tolerance.distance()) {
            at += 1;
        }
        if right.get(at).is_some_and(|other| tolerance.is_zero(other - place)) {
            found.push(place);
        }
    }
    found
}

impl<const W: usize> CutLine<W> {
    /// The part of a region on the left of the line, if the line cuts it: runs through none of its patches and has some on either side.
    #[inline]
    pub fn cut(&self, region: &Bits<W>) -> Option<Bits<W>> {
        if region.meets(&self.crossed) {
            return None;
        }
        let left = region.and(&self.left);
        (!left.is_empty() && left != *region).then_some(left)
    }

    /// From where to where along the line a region that it cuts lies on it.
    pub fn chord(&self, region: &Bits<W>) -> Option<(f64, f64)> {
        let of_region = |touch: &&(f64, f64, usize)| region.contains(touch.2);
        let ends = self.touching.iter().filter_map(|side| {
            let (first, last) = (side.iter().find(of_region)?, side.iter().rev().find(of_region)?);
            Some((first.0, last.1))
        });
        ends.reduce(|(from, to), (other_from, other_to)| (from.min(other_from), to.max(other_to)))
    }

    /// Whether patches of both sides that belong to a region lie on the line.
    pub fn touches(&self, region: &Bits<W>) -> bool {
        self.touching.iter().all(|side| side.iter().any(|(_, _, number)| region.contains(*number)))
    }

    /// The patches of a region that lie against one of its patches from the other side of the line.
    pub fn opposite<'l>(&'l self, region: &'l Bits<W>, patch: usize) -> impl Iterator<Item = usize> + 'l {
        let of_patch = self.touching.iter().enumerate().find_map(|(side, touching)| {
            touching.iter().find(|(_, _, number)| *number == patch).map(|touch| (side, *touch))
        });
        of_patch.into_iter().flat_map(move |(side, (from, to, _))| {
            let others = self.touching[1 - side].iter();
            others
                .filter(move |(start, end, number)| *start < to && *end > from && region.contains(*number))
                .map(|(_, _, number)| *number)
        })
    }

    /// The seam along which a region that it cuts is sewn together.
    pub fn seam(&self, region: &Bits<W>) -> Option<Segment> {
        self.chord(region).map(|(from, to)| Segment::new(self.line.at(from), self.line.at(to)))
    }

    /// How long the seam is along which a region that it cuts is sewn together.
    pub fn length(&self, region: &Bits<W>) -> f64 {
        self.chord(region).map_or(0.0, |(from, to)| to - from)
    }

    /// The match points of the join along the line by which a region with this chord is sewn together: places strictly inside it where seams of both
    /// sides end. What lies along a convex region's chord is all the region's, so neither tree of its sides matters.
    pub fn match_points(&self, (from, to): (f64, f64), tolerance: Tolerance) -> u32 {
        let inside = |place: &&f64| **place > from + tolerance.distance() && **place < to - tolerance.distance();
        u32::try_from(self.meetings.iter().filter(inside).count()).unwrap_or(u32::MAX)
    }
}
