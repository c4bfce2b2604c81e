//! Pieced sections: strips that are sewn together first and go on as one piece.
//!
//! Each line takes from the strip that it runs through; since all lines of a section are parallel, they divide it into strips side by side, and their
//! order in the source does not matter. A line takes the side without the middle of its section, unless the author names a point.

use std::collections::BTreeMap;

use crate::fault::{names, pieced as words};
use crate::geometry::{Line, Point, Polygon, Tolerance};
use crate::notation::source::{Span, Spanned};
use crate::notation::syntax;

use super::block::Context;
use super::scope::{Resolved, Scope};
use super::{PiecedStrip, Section};

/// Strips of one section at the most.
const MAX_STRIPS: usize = 100;

/// A strip that is asked for.
pub struct Asked {
    number: Spanned<u32>,
    fabric: usize,
    line: Line,
    /// A point on its side of the line, and where that stands.
    side: Option<(Point, Span)>,
    /// Where the line stands.
    line_span: Span,
    span: Span,
}

/// Binds the names of a `pieced` line.
pub fn asked(context: &mut Context<'_>, scope: &Scope<'_>, source: &syntax::Pieced, span: Span) -> Resolved<Asked> {
    let fabric = context.fabrics.find(&source.fabric);
    let line = scope.line(&source.line);
    let side = source.around.as_ref().map(|point| scope.point(point).map(|at| (at, point.span()))).transpose();
    let (number, line_span) = (source.number.clone(), source.line.span);
    Ok(Asked { number, fabric: fabric?, line: line?, side: side?, line_span, span })
}

/// Divides the sections of a unit into the strips that are asked for. Faults go to the context.
pub fn divide(context: &mut Context<'_>, sections: &mut [Section], asked: &[Asked]) {
    let mut by_number: BTreeMap<u32, Vec<&Asked>> = BTreeMap::new();
    for one in asked {
        by_number.entry(one.number.value).or_default().push(one);
    }
    let tolerance = context.ground.tolerance;
    for (number, own) in by_number {
        let Some(section) = (number as usize).checked_sub(1).and_then(|k| sections.get_mut(k)) else {
            let unknown = |one: &&Asked| names::unknown_name(one.number.span, "section", &number.to_string(), []);
            context.faults.extend(own.iter().map(unknown));
            continue;
        };
        match strips(section, &own, tolerance) {
            Ok(strips) => section.pieced = strips,
            Err(fault) => context.faults.push(*fault),
        }
    }
}

/// The strips of a section, side by side.
fn strips(section: &Section, asked: &[&Asked], tolerance: Tolerance) -> Resolved<Vec<PiecedStrip>> {
    let (Some(first), area) = (asked.first(), &section.polygon) else { return Ok(Vec::new()) };
    if asked.len() >= MAX_STRIPS {
        let most = u32::try_from(MAX_STRIPS - 1).unwrap_or(u32::MAX);
        let what = "the number of strips that a section is pieced with";
        return Err(Box::new(crate::fault::sizes::count_out_of_range(first.span, what, 1, most)));
    }
    let lead = directed(first.line);
    let across = lead.direction().quarter_turned();
    // The bounds of each strip across the lines, its fabric, and where it is stated.
    let mut bands: Vec<(f64, f64, usize, Span)> =
        vec![(f64::NEG_INFINITY, f64::INFINITY, section.fabric, section.span)];
    let mut cuts: Vec<(f64, Line, Span)> = Vec::new();
    for one in asked {
        let line = directed(one.line);
        check_line(area, line, lead, one, tolerance)?;
        let at = (line.origin() - lead.origin()).dot(across);
        if let Some((.., other)) = cuts.iter().find(|(other, ..)| tolerance.is_zero(other - at)) {
            return Err(Box::new(words::line_twice(one.line_span, one.number.value, *other)));
        }
        let (home, named) = match one.side {
            Some((point, span)) => (point, Some(span)),
            None => (area.centroid(), None),
        };
        let distance = line.distance_right(home);
        if tolerance.is_zero(distance) {
            return Err(Box::new(words::side_unclear(one.line_span, one.number.value, named)));
        }
        // Without a point, the side on which the middle of the section does not lie.
        let takes_right = (distance > 0.0) == named.is_some();
        let Some(through) = bands.iter().position(|&(from, to, ..)| from < at && at < to) else { continue };
        let (from, to, fabric, span) = bands[through];
        let parts = if takes_right {
            [(from, at, fabric, span), (at, to, one.fabric, one.span)]
        } else {
            [(from, at, one.fabric, one.span), (at, to, fabric, span)]
        };
        bands.splice(through..=through, parts);
        cuts.push((at, line, one.line_span));
    }
    cuts.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut rest = area.clone();
    let mut strips = Vec::with_capacity(bands.len());
    for (k, &(.., fabric, span)) in bands.iter().enumerate() {
        let Some(&(_, line, line_span)) = cuts.get(k) else {
            strips.push(PiecedStrip { fabric, polygon: rest.clone(), seam: None, span });
            break;
        };
        // What lies before the line lies on its left.
        let (Some(polygon), Some(beyond)) = rest.cut(line, tolerance) else {
            return Err(Box::new(words::line_astray(line_span, first.number.value, false)));
        };
        strips.push(PiecedStrip { fabric, polygon, seam: area.chord(line, tolerance), span });
        rest = beyond;
    }
    Ok(strips)
}

/// The same line, directed to the right, or upward where it is upright: strips run from the top down, or from left to right.
fn directed(line: Line) -> Line {
    let way = line.direction();
    let upright = way.x.abs() <= 1e-3 * way.y.abs();
    if (upright && way.y > 0.0) || (!upright && way.x < 0.0) { line.reversed() } else { line }
}

/// A line that runs through the section, and beside the other lines of its strips.
fn check_line(area: &Polygon, line: Line, lead: Line, asked: &Asked, tolerance: Tolerance) -> Resolved<()> {
    let number = asked.number.value;
    if !matches!(area.cut(line, tolerance), (Some(_), Some(_))) {
        let along_edge = area.edges().any(|edge| {
            tolerance.is_zero(line.distance_right(edge.start)) && tolerance.is_zero(line.distance_right(edge.end))
        });
        return Err(Box::new(words::line_astray(asked.line_span, number, along_edge)));
    }
    let (from, to) = area.extent(lead.direction());
    let slant = line.direction().cross(lead.direction()).abs() * (to - from);
    if !tolerance.is_zero(slant) {
        return Err(Box::new(words::not_parallel(asked.line_span, number)));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::{Asked, strips};
    use crate::fault::Fault;
    use crate::geometry::{Line, Point, Polygon, Tolerance};
    use crate::notation::source::{Span, Spanned};
    use crate::pattern::{PiecedStrip, Section};

    fn span() -> Span {
        Span::new(0, 0..1)
    }

    fn square() -> Section {
        let polygon = Polygon::rectangle(Point::new(0.0, 0.0), Point::new(8.0, 8.0)).unwrap();
        let cut = crate::pattern::CutWish::default();
        Section {
            fabric: 0,
            polygon,
            pieced: Vec::new(),
            cut,
            motif: None,
            span: span(),
            notes: Vec::new(),
            own_step: None,
        }
    }

    fn level(y: f64, fabric: usize, side: Option<f64>) -> Asked {
        Asked {
            number: Spanned::new(1, span()),
            fabric,
            line: Line::through(Point::new(5.0, y), Point::new(0.0, y)).unwrap(),
            side: side.map(|y| (Point::new(1.0, y), span())),
            line_span: span(),
            span: span(),
        }
    }

    fn divided(asked: &[Asked]) -> Result<Vec<PiecedStrip>, Box<Fault>> {
        strips(&square(), &asked.iter().collect::<Vec<_>>(), Tolerance::of_extent(8.0))
    }

    fn fabrics(asked: &[Asked]) -> Vec<usize> {
        divided(asked).unwrap().iter().map(|strip| strip.fabric).collect()
    }

    #[test]
    fn a_line_takes_the_side_without_the_middle_from_the_strip_it_runs_through() {
        assert_eq!(fabrics(&[level(1.0, 1, None)]), [1, 0]);
        assert_eq!(fabrics(&[level(7.0, 1, None)]), [0, 1]);
        assert_eq!(fabrics(&[level(2.0, 1, None), level(1.0, 2, None), level(6.0, 3, None)]), [2, 1, 0, 3]);
        // The order of the lines does not matter.
        assert_eq!(fabrics(&[level(1.0, 2, None), level(6.0, 3, None), level(2.0, 1, None)]), [2, 1, 0, 3]);
    }

    #[test]
    fn a_point_settles_the_side() {
        assert_eq!(fabrics(&[level(1.0, 1, Some(3.0))]), [0, 1]);
        assert_eq!(fabrics(&[level(4.0, 1, Some(3.0))]), [1, 0]);
        assert!(divided(&[level(4.0, 1, None)]).is_err());
    }

    #[test]
    fn strips_tile_their_section_and_the_next_lies_on_the_right_of_each_seam() {
        let strips = divided(&[level(2.0, 1, None), level(7.0, 2, None)]).unwrap();
        assert!((strips.iter().map(|strip| strip.polygon.area()).sum::<f64>() - 64.0).abs() < 1e-9);
        for pair in strips.windows(2) {
            let line = pair[0].seam.unwrap().line().unwrap();
            assert!(line.distance_right(pair[1].polygon.centroid()) > 0.0);
            assert!(line.distance_right(pair[0].polygon.centroid()) < 0.0);
        }
        assert!(strips[2].seam.is_none());
    }
}
