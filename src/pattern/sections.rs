//! What each section of a unit covers, from the three ways to say so.
//!
//! Where any section is said by a line, the unit is taken apart from the last section to the first: each takes its share of what is left.

use crate::fault::{Fault, sections};
use crate::geometry::{Line, Point, Polygon, Tolerance};
use crate::notation::source::Span;

use super::tiling;

/// What a section says it covers.
#[derive(Debug, Clone)]
pub enum Claim {
    /// This polygon.
    Polygon(Polygon),
    /// All that lies beyond a line, on the side without section 1.
    Beyond(Line, Span),
    /// All that lies on the right of a line.
    RightOf(Line, Span),
    /// All that the others leave; a point in it.
    Rest(Point, Span),
}

/// A section before its area is known.
#[derive(Debug, Clone)]
pub struct Claimed {
    /// Its number.
    pub number: u32,
    /// What it says.
    pub claim: Claim,
    /// Where it stands.
    pub span: Span,
}

/// The areas of sections 1, 2, …, in order; `claims` are sorted by number and have no gaps.
pub fn areas(
    outline: &Polygon,
    claims: &[Claimed],
    tolerance: Tolerance,
    faults: &mut Vec<Fault>,
) -> Option<Vec<Polygon>> {
    let polygons: Option<Vec<Polygon>> = claims
        .iter()
        .map(|claimed| if let Claim::Polygon(polygon) = &claimed.claim { Some(polygon.clone()) } else { None })
        .collect();
    let before = faults.len();
    let areas = match polygons {
        Some(polygons) => polygons,
        None => by_taking_apart(outline, claims, tolerance, faults)?,
    };
    let placed: Vec<(u32, Span)> = claims.iter().map(|claimed| (claimed.number, claimed.span)).collect();
    inside(outline, &areas, &placed, tolerance, faults);
    if faults.len() == before {
        overlaps(&areas, &placed, tolerance, faults);
    }
    (faults.len() == before).then_some(areas)
}

fn by_taking_apart(
    outline: &Polygon,
    claims: &[Claimed],
    tolerance: Tolerance,
    faults: &mut Vec<Fault>,
) -> Option<Vec<Polygon>> {
    let (first, later) = claims.split_first()?;
    let home = match &first.claim {
        Claim::Polygon(polygon) => polygon.centroid(),
        Claim::Rest(point, _) => *point,
        Claim::Beyond(_, span) | Claim::RightOf(_, span) => {
            faults.push(sections::not_left_over(*span, "it has no section before it to be cut from"));
            return None;
        }
    };
    // A polygon that reaches outside would otherwise be told as some consequence of it.
    let before = faults.len();
    for claimed in claims {
        if let Claim::Polygon(polygon) = &claimed.claim {
            inside(outline, std::slice::from_ref(polygon), &[(claimed.number, claimed.span)], tolerance, faults);
        }
    }
    if faults.len() > before {
        return None;
    }
    let mut rest = outline.clone();
    let mut areas = Vec::with_capacity(claims.len());
    for claimed in later.iter().rev() {
        let number = claimed.number;
        let (line, span) = match &claimed.claim {
            Claim::Polygon(polygon) => {
                if let Some((_, left)) = rest.split_off(polygon, tolerance) {
                    rest = left;
                    areas.push(polygon.clone());
                    continue;
                }
                faults.push(sections::not_one_cut(claimed.span, number));
                return None;
            }
            Claim::Rest(..) => {
                faults.push(sections::around_not_first(claimed.span, number));
                return None;
            }
            Claim::RightOf(line, span) => (*line, *span),
            Claim::Beyond(line, span) => {
                let distance = line.distance_right(home);
                let cuts_first =
                    matches!(&first.claim, Claim::Polygon(polygon) if polygon.side(*line, tolerance).is_none());
                if tolerance.is_zero(distance) || cuts_first {
                    faults.push(sections::line_through_first(*span, number, first.span));
                    return None;
                }
                (if distance > 0.0 { line.reversed() } else { *line }, *span)
            }
        };
        // The section lies on the right of the line.
        match rest.cut(line, tolerance) {
            (Some(left), Some(taken)) => {
                rest = left;
                areas.push(taken);
            }
            (Some(_), None) => {
                faults.push(sections::nothing_beyond(span, number));
                return None;
            }
            (None, _) => {
                faults.push(sections::nothing_this_side(span, number));
                return None;
            }
        }
    }
    match &first.claim {
        Claim::Polygon(polygon) if !(polygon.covers(&rest, tolerance) && rest.covers(polygon, tolerance)) => {
            let other = tiling::difference(&rest, polygon, tolerance);
            faults.push(sections::not_left_over(first.span, &format!("they differ round {}", other.middle)));
            return None;
        }
        Claim::Rest(point, span) if rest.holds(*point, tolerance) != Some(true) => {
            faults.push(sections::not_left_over(*span, "the point does not lie inside it"));
            return None;
        }
        _ => areas.push(rest),
    }
    areas.reverse();
    Some(areas)
}

fn inside(outline: &Polygon, areas: &[Polygon], placed: &[(u32, Span)], tolerance: Tolerance, faults: &mut Vec<Fault>) {
    for (area, &(number, span)) in areas.iter().zip(placed) {
        if let Some((distance, corner)) = tiling::furthest_outside(outline, area, tolerance) {
            let distance = super::steps_words(distance);
            faults.push(sections::corner_outside_unit(span, number, &super::corner_words(corner), &distance));
        }
    }
}

fn overlaps(areas: &[Polygon], placed: &[(u32, Span)], tolerance: Tolerance, faults: &mut Vec<Fault>) {
    for (a, b, common) in tiling::overlaps(areas, tolerance) {
        let (a, b) = (a.min(b), a.max(b));
        faults.push(sections::section_overlap(placed[a], placed[b], &super::extent_words(&[common])));
    }
}

#[cfg(test)]
mod tests {
    use super::{Claim, Claimed, areas};
    use crate::fault::Code;
    use crate::geometry::{Line, Point, Polygon, Tolerance};
    use crate::notation::source::Span;

    fn at(x: f64, y: f64) -> Point {
        Point::new(x, y)
    }

    fn line(a: (f64, f64), b: (f64, f64)) -> Line {
        Line::through(at(a.0, a.1), at(b.0, b.1)).unwrap()
    }

    fn claimed(claims: Vec<Claim>) -> Vec<Claimed> {
        let span = Span::new(0, 0..1);
        (1..).zip(claims).map(|(number, claim)| Claimed { number, claim, span }).collect()
    }

    fn run(claims: Vec<Claim>) -> (Option<Vec<Polygon>>, Vec<Code>) {
        let outline = Polygon::rectangle(at(0.0, 0.0), at(8.0, 8.0)).unwrap();
        let mut faults = Vec::new();
        let areas = areas(&outline, &claimed(claims), Tolerance::of_extent(8.0), &mut faults);
        (areas, faults.iter().map(|fault| fault.code).collect())
    }

    fn beyond(a: (f64, f64), b: (f64, f64)) -> Claim {
        Claim::Beyond(line(a, b), Span::new(0, 0..1))
    }

    fn around(x: f64, y: f64) -> Claim {
        Claim::Rest(at(x, y), Span::new(0, 0..1))
    }

    #[test]
    fn later_sections_take_from_earlier_ones() {
        let (areas, faults) =
            run(vec![around(1.0, 1.0), beyond((4.0, 0.0), (4.0, 8.0)), beyond((0.0, 4.0), (8.0, 4.0))]);
        assert_eq!(faults, []);
        let sizes: Vec<f64> = areas.unwrap().iter().map(Polygon::area).collect();
        assert_eq!(sizes, [16.0, 16.0, 32.0]);
    }

    #[test]
    fn lines_that_cannot_be_meant_are_faults() {
        assert_eq!(run(vec![around(4.0, 1.0), beyond((4.0, 0.0), (4.0, 8.0))]).1, [Code::LineThroughFirst]);
        assert_eq!(run(vec![around(4.0, 1.0), beyond((8.0, 0.0), (8.0, 8.0))]).1, [Code::NothingBeyond]);
        assert_eq!(run(vec![around(9.0, 1.0), beyond((4.0, 0.0), (4.0, 8.0))]).1, [Code::NotLeftOver]);
        let taken = vec![around(1.0, 1.0), beyond((6.0, 0.0), (6.0, 8.0)), beyond((4.0, 0.0), (4.0, 8.0))];
        assert_eq!(run(taken).1, [Code::NothingBeyond]);
    }
}
