//! The fewest added seams that free a stuck region.
//!
//! An added seam divides one patch: along the extension of a drawn line, or through two of its corners. Cures are tried by the number of patches they
//! divide, so that the first found divides the fewest. That is exact where the ways to divide so many times are not more than are tried; larger
//! regions than `MOST_PATCHES` get no cure.

use super::{Bits, Drawing, lines, stuck};
use crate::geometry::{Line, Polygon, Segment, Tolerance};

/// So many ways to divide patches are tried for one region.
const TRIES: usize = 40_000;
/// So many times patches are divided at the most.
const MOST_SPLITS: usize = 3;
/// Regions of more patches are not cured.
const MOST_PATCHES: usize = 48;

/// How a stuck region is freed.
#[derive(Debug, Clone, PartialEq)]
pub struct Cure {
    /// The patches that are divided, ascending.
    pub divided: Vec<Divided>,
}

/// A patch that added seams divide.
#[derive(Debug, Clone, PartialEq)]
pub struct Divided {
    /// The patch, by its number in the drawing.
    pub patch: usize,
    /// The seams, in the order in which they divide it.
    pub seams: Vec<Segment>,
    /// What becomes of it.
    pub parts: Vec<Polygon>,
}

/// A seam that may be added.
#[derive(Clone)]
struct Added {
    seam: Segment,
    /// The piece that it divides.
    piece: usize,
    halves: [Polygon; 2],
}

/// A patch of the region, or what an added seam has left of one.
#[derive(Clone)]
struct Piece {
    area: Polygon,
    patch: usize,
}

/// The fewest added seams that free a region, by the numbers of its patches; `None` where three are too few, the region is too large, or the budget ran out.
///
/// Units that stand already are not divided. Of cures that divide equally often the one whose narrowest part is widest.
#[must_use]
pub fn cure(drawing: &Drawing<'_>, region: &[usize]) -> Option<Cure> {
    if region.len() > MOST_PATCHES {
        return None;
    }
    let (fixed, tolerance) = (drawing.fixed.len(), drawing.tolerance);
    let pieces: Vec<Piece> =
        region.iter().filter_map(|&patch| Some(Piece { area: drawing.areas.get(patch)?.clone(), patch })).collect();
    (1..=MOST_SPLITS).find_map(|splits| {
        let mut tried = Tried { fixed, tolerance, left: TRIES, best: None };
        tried.deepen(&pieces, &mut Vec::new(), splits);
        tried.best.map(|(_, cure)| cure)
    })
}

/// The ways tried so far.
struct Tried {
    fixed: usize,
    tolerance: Tolerance,
    left: usize,
    /// The best cure so far, and how wide its narrowest part is.
    best: Option<(f64, Cure)>,
}

impl Tried {
    /// Tries all ways to divide so many pieces more.
    fn deepen(&mut self, pieces: &[Piece], seams: &mut Vec<(usize, Segment)>, splits: usize) {
        for Added { seam, piece, halves: [first, second] } in candidates(pieces, self.fixed, self.tolerance) {
            if self.left == 0 {
                return;
            }
            self.left -= 1;
            let mut divided = pieces.to_vec();
            let patch = divided[piece].patch;
            divided[piece].area = first;
            divided.push(Piece { area: second, patch });
            seams.push((patch, seam));
            if splits > 1 {
                self.deepen(&divided, seams, splits - 1);
            } else if is_free(&divided, self.tolerance) {
                self.keep(&divided, seams);
            }
            seams.pop();
        }
    }

    fn keep(&mut self, pieces: &[Piece], seams: &[(usize, Segment)]) {
        let mut patches: Vec<usize> = seams.iter().map(|(patch, _)| *patch).collect();
        patches.sort_unstable();
        patches.dedup();
        let of = |patch: usize| Divided {
            patch,
            seams: seams.iter().filter(|(other, _)| *other == patch).map(|(_, seam)| *seam).collect(),
            parts: pieces.iter().filter(|piece| piece.patch == patch).map(|piece| piece.area.clone()).collect(),
        };
        let divided: Vec<Divided> = patches.into_iter().map(of).collect();
        let narrowest = divided.iter().flat_map(|of| &of.parts).map(Polygon::width).fold(f64::INFINITY, f64::min);
        if self.best.as_ref().is_none_or(|(widest, _)| narrowest > widest + self.tolerance.distance()) {
            self.best = Some((narrowest, Cure { divided }));
        }
    }
}

/// Whether straight cuts divide the pieces down to single ones.
fn is_free(pieces: &[Piece], tolerance: Tolerance) -> bool {
    let areas: Vec<Polygon> = pieces.iter().map(|piece| piece.area.clone()).collect();
    let lines = lines::lines::<2>(&areas, &[], tolerance);
    stuck(&lines, Bits::below(areas.len())).is_empty()
}

/// The seams that may be added, each with the piece that it divides: extensions of edges of other pieces into it, then its own diagonals.
fn candidates(pieces: &[Piece], fixed: usize, tolerance: Tolerance) -> Vec<Added> {
    let mut found: Vec<Added> = Vec::new();
    for (number, piece) in pieces.iter().enumerate().filter(|(_, piece)| piece.patch >= fixed) {
        let extensions = pieces.iter().flat_map(|other| other.area.edges()).filter(|edge| {
            // An edge that ends on this piece and points into it.
            [edge.start, edge.end].iter().any(|end| piece.area.edges().any(|own| tolerance.is_zero(own.distance(*end))))
        });
        let extensions = extensions.filter_map(Segment::line);
        let corners = piece.area.corners();
        let diagonals = corners
            .iter()
            .enumerate()
            .flat_map(|(k, &a)| corners.iter().skip(k + 2).filter_map(move |&b| Line::through(a, b)));
        for line in extensions.chain(diagonals) {
            let Some(chord) = piece.area.chord(line, tolerance) else { continue };
            let (Some(left), Some(right)) = piece.area.cut(line, tolerance) else { continue };
            if !found.iter().any(|added| added.piece == number && is_same(added.seam, chord, tolerance)) {
                found.push(Added { seam: chord, piece: number, halves: [left, right] });
            }
        }
    }
    found
}

fn is_same(a: Segment, b: Segment, tolerance: Tolerance) -> bool {
    let near = |a: crate::geometry::Point, b: crate::geometry::Point| tolerance.is_zero(a.distance(b));
    (near(a.start, b.start) && near(a.end, b.end)) || (near(a.start, b.end) && near(a.end, b.start))
}

#[cfg(test)]
mod tests {
    use super::cure;
    use crate::geometry::{Point, Polygon, Tolerance};
    use crate::piecing::plan::Drawing;

    fn rectangle(x: f64, y: f64, width: f64, height: f64) -> Polygon {
        Polygon::rectangle(Point::new(x, y), Point::new(x + width, y + height)).unwrap()
    }

    #[test]
    fn one_seam_through_a_brick_frees_a_ring() {
        let ring = [
            rectangle(1.0, 1.0, 1.0, 1.0),
            rectangle(0.0, 0.0, 2.0, 1.0),
            rectangle(2.0, 0.0, 1.0, 2.0),
            rectangle(1.0, 2.0, 2.0, 1.0),
            rectangle(0.0, 1.0, 1.0, 2.0),
        ];
        let tolerance = Tolerance::of_extent(3.0);
        let drawing = Drawing { areas: &ring, fabrics: &[0; 5], fixed: &[], tolerance };
        let cured = cure(&drawing, &[0, 1, 2, 3, 4]).unwrap();
        let [only] = cured.divided.as_slice() else { panic!("one patch is divided: {cured:?}") };
        assert_eq!((only.seams.len(), only.parts.len()), (1, 2));
        let parts: f64 = only.parts.iter().map(Polygon::area).sum();
        assert!((parts - ring[only.patch].area()).abs() < 1e-9);
        // Units that stand already are not divided.
        assert_eq!(cure(&Drawing { fixed: &[1; 5], ..drawing }, &[0, 1, 2, 3, 4]), None);
    }
}
