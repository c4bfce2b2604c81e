//! Sections with slanting ends, cut as a rectangle along the seam whose ends are trimmed.

use crate::geometry::{Length, Line, Point, Polygon, Segment, Vector};

use super::rough::{Shape, side};
use super::slack::play;
use super::{Laid, Measures};

/// Lays a trapezoid round a needed region, its parallel sides along the seam.
///
/// The edge along the seam lies exactly one allowance past it, the others have the ease. Each end is the line that leaves the least area, flush with an
/// edge of the needed region. The width and height are rounded up, what is trimmed is rounded down. `seam` is directed so that the section lies on its
/// right. `None` for a seam without length, and where nothing is trimmed: there a rectangle is the thing.
#[must_use]
pub fn lay_trapezoid(needed: &Polygon, seam: Segment, measures: &Measures) -> Option<Laid> {
    let line = seam.line()?;
    let (way, into) = (line.direction(), line.direction().quarter_turned());
    let (near, far) = side(needed, into, Some(line), measures);
    let ends =
        [(-way, near, far), (way, near, far)].map(|(out, near, far)| end(needed, (out, into), (near, far), measures));
    let [start, finish] = ends;
    let (from, to) = (-start.0.max(start.1), finish.0.max(finish.1));
    let width = Length::inches(to - from).rounded_up_to(measures.rounding);
    let extra = (width.to_inches() - (to - from)) / 2.0;
    let (from, to) = (from - extra, to + extra);
    let step = measures.rounding.to_inches();
    // What may be trimmed at the edge that is the shorter one; the slant grows flatter, and stays outside.
    let trim = |(at_near, at_far): (f64, f64)| {
        let off = ((at_near - at_far).abs() / step + 1e-9).floor() * step;
        if at_near >= at_far { off } else { -off }
    };
    let trims = [trim(start), trim(finish)];
    if trims.iter().all(|trim| trim.abs() < step) {
        return None;
    }
    let corner = |x: f64, y: f64| Point::default() + way * x + into * y;
    let (at_near, at_far) = (|trim: f64| (-trim).max(0.0), |trim: f64| trim.max(0.0));
    let corners = vec![
        corner(from + at_near(trims[0]), near),
        corner(to - at_near(trims[1]), near),
        corner(to - at_far(trims[1]), far),
        corner(from + at_far(trims[0]), far),
    ];
    let cover = Polygon::try_new(&corners, measures.tolerance).ok()?;
    if cover.corners().len() != 4 {
        return None;
    }
    Some(Laid {
        shape: Shape::Trapezoid { trim: trims.map(Length::inches) },
        width,
        height: Length::inches(far - near),
        corners,
        up: -into,
        play: play(&cover, needed, Some(seam), way, measures)?,
    })
}

/// How far an end reaches in its outward direction, at the near edge and at the far edge: the line with the least area, with ease.
fn end(needed: &Polygon, (out, into): (Vector, Vector), (near, far): (f64, f64), measures: &Measures) -> (f64, f64) {
    let ease = measures.ease.to_inches();
    let square = needed.extent(out).1 + ease;
    let mut best = (square, square);
    for edge in needed.edges() {
        let Some(own) = edge.line() else { continue };
        let outward = -own.direction().quarter_turned();
        // Only lines that close this end, and not too slanting: a tip sharper than a quarter of a right angle is nobody's to cut.
        if outward.dot(out) < 0.38 {
            continue;
        }
        let line: Line = own.shifted_right(-ease);
        // Where the line meets an edge at the height y: origin · outward is what every point of it has.
        let level = line.origin().to_vector().dot(outward);
        let at = |y: f64| (level - y * into.dot(outward)) / out.dot(outward);
        let (at_near, at_far) = (at(near), at(far));
        // Beyond the square end nothing is gained by a slant.
        if at_near + at_far < best.0 + best.1 - 1e-9 {
            best = (at_near, at_far);
        }
    }
    best
}
