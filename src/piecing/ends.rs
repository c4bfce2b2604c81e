//! The seams that end on a line: what has to be matched where two groups are joined.

use crate::geometry::{Line, Point, Segment, Side, Tolerance};
use crate::pattern::Block;

/// What ends at a point of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ending {
    /// A seam of a unit. Its allowance points along the line (`true`) or against it.
    Seam(bool),
    /// A join between two units that lie next to each other round the point, by their places: before and after it as one goes along the line.
    Between(usize, usize),
}

/// A point of a line at which a seam ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct End {
    /// How far along the line.
    pub position: f64,
    /// What ends there.
    pub ending: Ending,
}

/// The seams of these places that end on a line strictly between two positions, in order along it.
///
/// The places lie on one side of the line; one of which only a corner lies on it has its seams there as well. `seams` are those of the units, by
/// unit. O(n log n) in their seams.
pub fn ends(
    block: &Block,
    seams: &[Vec<Option<Segment>>],
    places: &[usize],
    line: Line,
    (first, last): (f64, f64),
) -> Vec<End> {
    let tolerance = block.tolerance;
    let within = |position: f64| position > first + tolerance.distance() && position < last - tolerance.distance();
    let mut found = Vec::new();
    let mut edges: Vec<(f64, f64, usize)> = Vec::new();
    // Those that touch the line with a corner, and the way to their middle from there, measured along the line: they lie round it in this order.
    let mut corners: Vec<(f64, f64, usize)> = Vec::new();
    for &place in places {
        let placement = &block.placements[place];
        let on_line =
            placement.outline.edges().find(|edge| on(line, edge.start, tolerance) && on(line, edge.end, tolerance));
        let corner = placement.outline.corners().iter().copied().find(|&corner| on(line, corner, tolerance));
        if let Some(edge) = on_line {
            let (p, q) = (line.position(edge.start), line.position(edge.end));
            edges.push((p.min(q), p.max(q), place));
        } else if let Some(corner) = corner {
            let way = (placement.outline.centroid() - corner).unit();
            corners.push((line.position(corner), way.map_or(0.0, |way| way.dot(line.direction())), place));
        } else {
            continue;
        }
        for seam in seams[placement.unit].iter().flatten() {
            let placed = placement.transform.apply_to_segment(*seam);
            // Its section lies on the right of the seam as drawn, on the left where the unit is mirrored.
            let section_right = !placement.transform.is_mirroring();
            for end in [placed.start, placed.end] {
                if on(line, end, tolerance)
                    && within(line.position(end))
                    && let Some(seam_line) = placed.line()
                {
                    let ahead = seam_line.distance_right(end + line.direction()) > 0.0;
                    found.push(End { position: line.position(end), ending: Ending::Seam(ahead == section_right) });
                }
            }
        }
    }
    edges.sort_by(|a, b| a.0.total_cmp(&b.0));
    corners.sort_by(|a, b| a.1.total_cmp(&b.1));
    for pair in edges.windows(2).filter(|pair| within(pair[0].1)) {
        let position = pair[0].1;
        let mut before = pair[0].2;
        let between = corners.iter().filter(|corner| tolerance.is_zero(corner.0 - position)).map(|corner| corner.2);
        for after in between.chain([pair[1].2]) {
            found.push(End { position, ending: Ending::Between(before, after) });
            before = after;
        }
    }
    found.sort_by(|a, b| a.position.total_cmp(&b.position));
    found
}

fn on(line: Line, point: Point, tolerance: Tolerance) -> bool {
    line.side(point, tolerance) == Side::On
}

/// Ends of one side gathered by point: its position, and what ends there.
pub fn gathered(ends: &[End], tolerance: Tolerance) -> Vec<(f64, Vec<Ending>)> {
    let mut points: Vec<(f64, Vec<Ending>)> = Vec::new();
    for end in ends {
        match points.last_mut() {
            Some((position, endings)) if tolerance.is_zero(end.position - *position) => endings.push(end.ending),
            _ => points.push((end.position, vec![end.ending])),
        }
    }
    points
}

/// The points at which ends of both sides lie.
pub fn matches<'e>(
    left: &'e [(f64, Vec<Ending>)],
    right: &'e [(f64, Vec<Ending>)],
    tolerance: Tolerance,
) -> Vec<(f64, &'e [Ending], &'e [Ending])> {
    let mut found = Vec::new();
    let mut j = 0;
    for (position, endings) in left {
        while j < right.len() && right[j].0 < position - tolerance.distance() {
            j += 1;
        }
        if let Some((other, others)) = right.get(j)
            && tolerance.is_zero(other - position)
        {
            found.push((*position, endings.as_slice(), others.as_slice()));
        }
    }
    found
}
