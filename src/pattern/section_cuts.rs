//! What a unit says of how its pieces are cut, and which of its sections are cut round a motif.

use std::collections::BTreeMap;

use crate::fault::{cutting as words, names};
use crate::geometry::{Point, Polygon, RightTriangle};
use crate::notation::source::{Span, Spanned};
use crate::notation::syntax::{self, CutFor, CutLine, UnitItem};

use super::Section;
use super::block::Context;
use super::cuts::{CutShape, CutWish};
use super::cutting::{Seen, Thing, cut_words, ease};
use super::scope::{Resolved, Scope};
use super::steps::number_words;

/// A section that is to be cut round a motif.
pub struct Motif {
    number: Spanned<u32>,
    /// Where the middle of the motif lies, and where that stands; none for the middle of the section.
    at: Option<(Point, Span)>,
    span: Span,
}

/// Binds the names of a `fussy` line.
pub fn motif(scope: &Scope<'_>, line: &syntax::Fussy, span: Span) -> Resolved<Motif> {
    let at = line.at.as_ref().map(|point| scope.point(point).map(|at| (at, point.span()))).transpose()?;
    Ok(Motif { number: line.number.clone(), at, span })
}

/// Tells the sections of a unit how they are cut; gives what holds for the whole unit. Faults go to the context.
pub fn fasten(context: &mut Context<'_>, source: &syntax::Unit, motifs: &[Motif], sections: &mut [Section]) -> CutWish {
    let mut whole = CutWish::default();
    let mut seen = Seen::default();
    for item in &source.items {
        if context.full() {
            return whole;
        }
        let result = match &item.value {
            UnitItem::Cut(line) => {
                let wish = of(line.target.as_ref(), sections.len()).and_then(|(section, of)| {
                    let mut wish = section.map_or(whole, |k| sections[k].cut);
                    cut_words(line, &mut wish, &mut seen, (section, &of))?;
                    fits(line, section, source, sections)?;
                    Ok((section, wish))
                });
                wish.map(|(section, wish)| *section.map_or(&mut whole, |k| &mut sections[k].cut) = wish)
            }
            UnitItem::Ease(line) => {
                let size = of(line.target.as_ref(), sections.len()).and_then(|(section, of)| {
                    seen.once((section, Thing::Ease), item.span, &of)?;
                    Ok((section, ease(&line.size, context.units)?))
                });
                size.map(|(section, ease)| section.map_or(&mut whole, |k| &mut sections[k].cut).ease = Some(ease))
            }
            _ => Ok(()),
        };
        if let Err(fault) = result {
            context.faults.push(*fault);
        }
    }
    let mut first_of: BTreeMap<usize, Span> = BTreeMap::new();
    for motif in motifs {
        if context.full() {
            break;
        }
        match middle(context, motif, sections, &mut first_of) {
            Ok((k, middle)) => sections[k].motif = Some(middle),
            Err(fault) => context.faults.push(*fault),
        }
    }
    whole
}

/// The section that a line speaks of, by index, and the words for it; none for the whole unit.
fn of(target: Option<&CutFor>, count: usize) -> Resolved<(Option<usize>, String)> {
    match target {
        None => Ok((None, String::new())),
        Some(CutFor::Fabric(key)) => Err(Box::new(words::fabric_inside(key.span, &key.value))),
        Some(CutFor::Section(number)) => Ok((Some(index(number, count)?), format!(" of section {}", number.value))),
    }
}

fn index(number: &Spanned<u32>, count: usize) -> Resolved<usize> {
    let unknown = || Box::new(names::unknown_name(number.span, "section", &number.value.to_string(), []));
    (number.value as usize).checked_sub(1).filter(|&k| k < count).ok_or_else(unknown)
}

/// Whether the shape that a line asks for fits the section that it speaks of, or any of the unit.
fn fits(line: &CutLine, section: Option<usize>, source: &syntax::Unit, sections: &[Section]) -> Resolved<()> {
    let shape_of = |word: &str| CutShape::ALL.into_iter().find(|shape| shape.word() == word);
    for (word, shape) in line.words.iter().filter_map(|word| Some((word, shape_of(&word.value)?))) {
        let of_square = matches!(shape, CutShape::HalfSquare | CutShape::QuarterSquare);
        let Some(k) = section else {
            let any = sections.iter().any(|own| own.pieced.is_empty() && RightTriangle::of(&own.polygon).is_some());
            if of_square && !any {
                return Err(Box::new(words::no_half_squares(word.span, &word.value, &source.name.value)));
            }
            continue;
        };
        let number = u32::try_from(k + 1).unwrap_or(u32::MAX);
        let own = &sections[k];
        if !own.pieced.is_empty() {
            return Err(Box::new(words::shape_of_pieced(word.span, &word.value, number, own.span)));
        }
        if of_square && RightTriangle::of(&own.polygon).is_none() {
            let is = (own.span, shape_words(&own.polygon));
            return Err(Box::new(words::not_half_a_square(word.span, &word.value, number, (is.0, &is.1))));
        }
    }
    Ok(())
}

/// The section that is cut round a motif, by index, and where the middle of the motif lies.
fn middle(
    context: &Context<'_>,
    motif: &Motif,
    sections: &[Section],
    first_of: &mut BTreeMap<usize, Span>,
) -> Resolved<(usize, Point)> {
    let k = index(&motif.number, sections.len())?;
    let (number, own) = (motif.number.value, &sections[k]);
    if let Some(first) = first_of.insert(k, motif.span) {
        let what = format!("the motif of section {number}");
        return Err(Box::new(words::said_twice(motif.span, &what, first)));
    }
    if !own.pieced.is_empty() {
        return Err(Box::new(words::motif_of_pieced(motif.number.span, number, own.span)));
    }
    let (at, span) = motif.at.unwrap_or((own.polygon.centroid(), motif.number.span));
    if own.polygon.holds(at, context.ground.tolerance) != Some(true) {
        return Err(Box::new(words::motif_outside(span, number, own.span)));
    }
    Ok((k, at))
}

/// What an area is that is no half of a square.
fn shape_words(area: &Polygon) -> String {
    let sides: Vec<String> = area.edges().map(|edge| number_words(edge.length())).collect();
    match sides.as_slice() {
        [a, b, c] => format!("it is a triangle with sides of {a}, {b} and {c} steps"),
        sides => format!("it has {} corners", sides.len()),
    }
}

#[cfg(test)]
mod tests {
    use super::shape_words;
    use crate::geometry::{Point, Polygon, Tolerance};

    #[test]
    fn what_is_no_half_of_a_square_is_told_by_its_sides() {
        let corners = [(0.0, 0.0), (3.0, 0.0), (0.0, 4.0)].map(|(x, y)| Point::new(x, y));
        let uneven = Polygon::try_new(&corners, Tolerance::of_extent(8.0)).unwrap();
        assert_eq!(shape_words(&uneven), "it is a triangle with sides of 3, 5 and 4 steps");
    }
}
