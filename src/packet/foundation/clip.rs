//! What of lines and dots lies in a part of a foundation.

use crate::geometry::{Line, Point, Polygon, Segment};
use crate::packet::page::{Path, Piece, Subpath};

/// Lines this near to the edge of the part lie in it, in inches.
const ON_EDGE: f64 = 1e-6;

/// The stretches of a path's lines that lie in a convex area, and of its curves and filled areas those that lie there whole; `None` where nothing does.
pub(super) fn clipped(path: &Path, area: &Polygon) -> Option<Path> {
    let edges: Vec<Line> = area.edges().filter_map(Segment::line).collect();
    let subpaths: Vec<Subpath> =
        path.subpaths.iter().flat_map(|subpath| in_area(subpath, path.fill.is_some(), &edges)).collect();
    (!subpaths.is_empty()).then(|| Path { subpaths, ..path.clone() })
}

fn in_area(subpath: &Subpath, filled: bool, edges: &[Line]) -> Vec<Subpath> {
    let holds = |point: Point| edges.iter().all(|edge| edge.distance_right(point) >= -ON_EDGE);
    if subpath.places().all(holds) {
        return vec![subpath.clone()];
    }
    let straight = |piece: &Piece| if let Piece::Line(to) = piece { Some(*to) } else { None };
    let corners: Option<Vec<Point>> = subpath.pieces.iter().map(straight).collect();
    let Some(corners) = corners.filter(|_| !filled) else { return Vec::new() };
    let mut corners: Vec<Point> = std::iter::once(subpath.start).chain(corners).collect();
    if subpath.closed {
        corners.push(subpath.start);
    }
    let mut runs: Vec<Vec<Point>> = Vec::new();
    for pair in corners.windows(2) {
        let Some(seen) = stretch(Segment::new(pair[0], pair[1]), edges) else { continue };
        match runs.last_mut() {
            Some(run) if run.last() == Some(&seen.start) => run.push(seen.end),
            _ => runs.push(vec![seen.start, seen.end]),
        }
    }
    // Round the beginning of a closed path too a run goes on.
    if subpath.closed
        && runs.len() > 1
        && runs.first().and_then(|run| run.first()) == runs.last().and_then(|run| run.last())
        && let Some(mut last) = runs.pop()
    {
        last.extend(runs[0].iter().skip(1));
        runs[0] = last;
    }
    let open = |run: Vec<Point>| {
        let (&start, rest) = run.split_first()?;
        Some(Subpath { start, pieces: rest.iter().copied().map(Piece::Line).collect(), closed: false })
    };
    runs.into_iter().filter_map(open).collect()
}

/// What of a stretch lies on the right of all edges; its ends stay what they are where they do.
fn stretch(of: Segment, edges: &[Line]) -> Option<Segment> {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for edge in edges {
        let (start, end) = (edge.distance_right(of.start) + ON_EDGE, edge.distance_right(of.end) + ON_EDGE);
        if start < 0.0 && end < 0.0 {
            return None;
        }
        if start < 0.0 {
            from = from.max(start / (start - end));
        } else if end < 0.0 {
            to = to.min(start / (start - end));
        }
    }
    let at = |share: f64| {
        if share <= 0.0 {
            of.start
        } else if share >= 1.0 {
            of.end
        } else {
            of.start.along(of.end, share)
        }
    };
    (to - from > 1e-9).then(|| Segment::new(at(from), at(to)))
}

#[cfg(test)]
mod tests {
    use super::clipped;
    use crate::geometry::{Point, Polygon, Segment};
    use crate::packet::page::{Colour, Layer, Path, Stroke};

    fn square(from: f64, to: f64) -> Polygon {
        Polygon::rectangle(Point::new(from, from), Point::new(to, to)).unwrap()
    }

    fn pen() -> Stroke {
        Stroke::plain(1.0, Colour::BLACK)
    }

    #[test]
    fn lines_end_at_the_edge() {
        let line = Segment::new(Point::new(-1.0, 1.0), Point::new(5.0, 1.0));
        let seen = clipped(&Path::lines([line], pen(), Layer::Seams), &square(0.0, 2.0)).unwrap();
        let ends: Vec<Point> = seen.subpaths[0].places().collect();
        assert!(ends[0].distance(Point::new(0.0, 1.0)) < 1e-5 && ends[1].distance(Point::new(2.0, 1.0)) < 1e-5);
        assert!(clipped(&Path::lines([line], pen(), Layer::Seams), &square(2.0, 3.0)).is_none());
    }

    #[test]
    fn an_outline_stays_in_one_piece_round_its_corners() {
        // The first corner of the outline is seen, the opposite one is not.
        let outline = Path::polygon(&square(0.0, 4.0), None, Some(pen()), Layer::Cutting);
        let seen = clipped(&outline, &square(-1.0, 2.0)).unwrap();
        assert_eq!(seen.subpaths.len(), 1);
        assert_eq!(seen.subpaths[0].pieces.len(), 2);
        assert!(!seen.subpaths[0].closed);
    }

    #[test]
    fn dots_are_seen_whole_or_not() {
        let dot = |x: f64| Path::circle(Point::new(x, 1.0), 0.1, Some(Colour::BLACK), None, Layer::Marks);
        assert_eq!(clipped(&dot(1.0), &square(0.0, 2.0)), Some(dot(1.0)));
        assert!(clipped(&dot(1.95), &square(0.0, 2.0)).is_none());
    }
}
