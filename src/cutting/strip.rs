//! The strips of a pieced section: what each must cover, and its cut along the seams between them.

use crate::geometry::{Length, Line, Point, Polygon, Segment, Vector};

use super::slack::{slide, turn};
use super::{Laid, Measures, Play, cut_to_size};

/// What each strip needs: of what its section needs, all that lies on its own side of the lines within, and one allowance past them.
///
/// `lines` are those between neighbouring strips, directed so that the next strip lies on the right. `None` where a strip would need nothing.
#[must_use]
pub fn strip_needs(needed: &Polygon, lines: &[Line], measures: &Measures) -> Option<Vec<Polygon>> {
    let (allowance, near) = (measures.allowance.to_inches(), measures.tolerance);
    (0..=lines.len())
        .map(|k| {
            let beyond = match k.checked_sub(1).and_then(|before| lines.get(before)) {
                Some(line) => needed.cut(line.shifted_right(-allowance), near).1?,
                None => needed.clone(),
            };
            match lines.get(k) {
                Some(line) => beyond.cut(line.shifted_right(allowance), near).0,
                None => Some(beyond),
            }
        })
        .collect()
}

/// A strip between the seams at which it is sewn to its neighbours.
#[derive(Debug, Clone, Copy)]
pub struct Between {
    /// The seam to the strip before it; the strip lies on its right.
    pub before: Option<Segment>,
    /// The seam to the next strip; the strip lies on its left.
    pub after: Option<Segment>,
}

impl Between {
    /// The seam on whose right the strip lies: to the strip before it, or else to the next.
    #[must_use]
    pub fn seam(self) -> Option<Segment> {
        self.before.or_else(|| self.after.map(Segment::reversed))
    }
}

/// Lays the cut of a strip along its seams.
///
/// An edge along a seam lies exactly one allowance past it: a strip between two others is cut exactly as wide as it needs to be. All strips of a section
/// (`whole` is what that needs) are equally long, so that they are sewn end on end; the ends and an outer edge get the ease, and what rounding adds.
/// `up` is the direction of the print, along the seams or across them; none for one without. `None` for a strip without a seam.
#[must_use]
pub fn lay_strip(
    whole: &Polygon,
    needed: &Polygon,
    between: Between,
    up: Option<Vector>,
    measures: &Measures,
) -> Option<Laid> {
    let seam = between.seam()?;
    let way = seam.line()?.direction();
    let into = way.quarter_turned();
    let (allowance, ease) = (measures.allowance.to_inches(), measures.ease.to_inches());
    let grown = |length: f64| Length::inches(length).rounded_up_to(measures.rounding).to_inches();
    let (from, to) = whole.extent(way);
    let long = grown(to - from + 2.0 * ease);
    let from = f64::midpoint(from, to) - long / 2.0;
    let at = |seam: Segment| seam.start.to_vector().dot(into);
    let near = at(seam) - allowance;
    let far = match (between.before, between.after) {
        (Some(_), Some(after)) => at(after) + allowance,
        _ => near + grown(needed.extent(into).1 + ease - near),
    };
    let corner = |x: f64, y: f64| Point::default() + way * x + into * y;
    let corners = [corner(from, near), corner(from + long, near), corner(from + long, far), corner(from, far)];
    let rectangle = Polygon::try_new(&corners, measures.tolerance).ok()?;
    let laid = cut_to_size(&rectangle, Some(up.unwrap_or(-into)))?;
    // Under a seam half an allowance counts as enough.
    let half = allowance / 2.0;
    let must = needed.cut(seam.line()?.shifted_right(-half), measures.tolerance).1?;
    let must = match between.before.and(between.after).and_then(Segment::line) {
        Some(after) => must.cut(after.shifted_right(half), measures.tolerance).0?,
        None => must,
    };
    let slide = |direction: Vector| Length::inches(slide(&rectangle, &must, direction));
    let play = Play {
        overhang: None,
        along: [slide(-way), slide(way)],
        across: [slide(-into), slide(into)],
        turn: turn(&rectangle, &must, seam.middle()),
    };
    Some(Laid { play, ..laid })
}

#[cfg(test)]
mod tests {
    use super::{Between, lay_strip, strip_needs};
    use crate::cutting::Measures;
    use crate::geometry::{Length, Line, Point, Polygon, Segment, Tolerance, Vector};

    fn measures() -> Measures {
        Measures {
            allowance: Length::inches(0.25),
            ease: Length::inches(0.25),
            rounding: Length::inches(0.125),
            tolerance: Tolerance::of_extent(6.0),
        }
    }

    fn level(y: f64) -> Segment {
        Segment::new(Point::new(0.0, y), Point::new(6.0, y))
    }

    /// Six inches wide and four high, of three strips: down to 1, down to 2.2, down to 4.
    fn strips() -> (Polygon, Vec<Polygon>) {
        let needed = Polygon::rectangle(Point::new(-0.25, -0.25), Point::new(6.25, 4.25)).unwrap();
        let lines: Vec<Line> = [1.0, 2.2].iter().map(|&y| level(y).line().unwrap()).collect();
        let needs = strip_needs(&needed, &lines, &measures()).unwrap();
        (needed, needs)
    }

    #[test]
    fn strips_need_an_allowance_past_their_seams() {
        let (_, needs) = strips();
        let bounds: Vec<(f64, f64)> = needs.iter().map(|need| need.extent(Vector::new(0.0, 1.0))).collect();
        for ((from, to), (a, b)) in bounds.into_iter().zip([(-0.25, 1.25), (0.75, 2.45), (1.95, 4.25)]) {
            assert!((from - a).abs() < 1e-9 && (to - b).abs() < 1e-9);
        }
    }

    #[test]
    fn strips_are_equally_long_and_one_between_others_exactly_as_wide_as_it_needs_to_be() {
        let (whole, needs) = strips();
        let between = [
            Between { before: None, after: Some(level(1.0)) },
            Between { before: Some(level(1.0)), after: Some(level(2.2)) },
            Between { before: Some(level(2.2)), after: None },
        ];
        let laid: Vec<_> = between
            .iter()
            .zip(&needs)
            .map(|(&between, need)| lay_strip(&whole, need, between, None, &measures()).unwrap())
            .collect();
        // 6 1/2 and twice the ease.
        assert!(laid.iter().all(|laid| (laid.width.to_inches() - 7.0).abs() < 1e-9));
        let heights: Vec<f64> = laid.iter().map(|laid| laid.height.to_inches()).collect();
        // 1 1/2 and ease; 1.2 and two allowances; 2.3 and ease, rounded up.
        for (height, wanted) in heights.into_iter().zip([1.75, 1.7, 2.625]) {
            assert!((height - wanted).abs() < 1e-9, "{height}, not {wanted}");
        }
    }

    #[test]
    fn a_print_along_the_seams_turns_the_figures_about() {
        let (whole, needs) = strips();
        let between = Between { before: None, after: Some(level(1.0)) };
        let laid = lay_strip(&whole, &needs[0], between, Some(Vector::new(1.0, 0.0)), &measures()).unwrap();
        assert!((laid.height.to_inches() - 7.0).abs() < 1e-9 && (laid.width.to_inches() - 1.75).abs() < 1e-9);
        assert!(laid.up.x > 0.0);
    }
}
