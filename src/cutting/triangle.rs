//! Right isosceles sections, cut as half or a quarter of a square.

use crate::geometry::{Length, Line, Point, Polygon, RightTriangle, Segment, Tolerance, Vector};

use super::rough::Shape;
use super::slack::play;
use super::{Laid, Measures};

/// Lays half (or a quarter) of a square round the needed region of a right isosceles section.
///
/// The sides of the piece are parallel to those of the section, as far out as the needed region and the ease ask for; the side along the seam lies exactly
/// one allowance past it. The side of the square is rounded up, and what that adds goes to the other sides. So the square follows from the needed region.
/// `seam` is directed so that the section lies on its right. `None` for a seam without length.
#[must_use]
pub fn lay_triangle(
    needed: &Polygon,
    section: RightTriangle,
    seam: Option<Segment>,
    quarter: bool,
    measures: &Measures,
) -> Option<Laid> {
    let [before, after] = section.short_sides();
    let seam_line = match seam {
        Some(seam) => Some(seam.line()?),
        None => None,
    };
    let lies_on = |side: Segment| {
        let on = |point: Point| seam_line.is_some_and(|line| measures.tolerance.is_zero(line.distance_right(point)));
        on(side.start) && on(side.end)
    };
    let sides = [section.long_side(), before, after];
    let along_seam = sides.map(lies_on);
    // A line round the needed region on each side, the region on its right.
    let mut lines = [None; 3];
    for ((line, side), on_seam) in lines.iter_mut().zip(sides).zip(along_seam) {
        let own = side.line()?;
        let out = if on_seam {
            measures.allowance.to_inches()
        } else {
            let past = needed.corners().iter().map(|&corner| -own.distance_right(corner));
            past.fold(f64::NEG_INFINITY, f64::max) + measures.ease.to_inches()
        };
        *line = Some(own.shifted_right(-out));
    }
    let [long, before, after] = lines;
    let (long, before, after) = (long?, before?, after?);
    let leg = before.meet(after)?.distance(after.meet(long)?);
    let root = core::f64::consts::SQRT_2;
    let to_square = if quarter { root } else { 1.0 };
    let square = Length::inches(leg * to_square).rounded_up_to(measures.rounding);
    // The leg grows by the distances that the short sides move out, and by √2 of what the long side does.
    let grows = square.to_inches() / to_square - leg;
    let shares = match along_seam {
        [true, ..] => [0.0, 0.5, 0.5],
        [_, true, _] => [0.5 / root, 0.0, 0.5],
        [_, _, true] => [0.5 / root, 0.5, 0.0],
        _ => [1.0 / (2.0 + root); 3],
    };
    let out = |line: Line, share: f64| line.shifted_right(-share * grows);
    let (long, before, after) = (out(long, shares[0]), out(before, shares[1]), out(after, shares[2]));
    let at = RightTriangle { square: before.meet(after)?, next: after.meet(long)?, last: long.meet(before)? };
    let RightTriangle { square: corner, next, last } = at;
    // The side along the seam in front; else one that lies on the grain.
    let corners = match along_seam {
        [true, ..] => [next, last, corner],
        [_, true, _] => [last, corner, next],
        [_, _, true] => [corner, next, last],
        _ if quarter => [next, last, corner],
        _ => [corner, next, last],
    };
    let on_grain: Vector = if quarter { last - next } else { next - corner };
    let cover = Polygon::try_new(&corners, Tolerance::of_extent(square.to_inches())).ok()?;
    Some(Laid {
        shape: if quarter { Shape::QuarterSquare } else { Shape::HalfSquare },
        width: square,
        height: square,
        up: -on_grain.unit()?.quarter_turned(),
        play: play(&cover, needed, seam, (corners[1] - corners[0]).unit()?, measures)?,
        corners: corners.to_vec(),
    })
}
