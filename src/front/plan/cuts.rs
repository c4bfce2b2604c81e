//! What a source says of how the sections of its units are cut, told again where a plan numbers them anew.

use std::fmt::Write as _;

use super::Told;

use crate::geometry::{Length, Point, RightTriangle};
use crate::model::Units;
use crate::pattern::{CutShape, CutWish, Lie, Placement, Section, Unit, corner_source};

impl Told<'_> {
    /// The lines of a planned unit about how the section of this number is cut, which is the area; empty where its source says nothing, and for a patch.
    pub(super) fn cut_lines(&self, number: usize, area: usize) -> String {
        let mut text = String::new();
        let Some((place, unit, section)) = self.drawn(area) else { return text };
        let CutWish { lie, shape, ease } = section.cut.or(of_unit(unit, section));
        let words: Vec<&str> = lie.map(Lie::word).into_iter().chain(shape.map(CutShape::word)).collect();
        // Writing to a string cannot fail.
        if !words.is_empty() {
            let _ = writeln!(text, "    cut {} for {number}", words.join(", "));
        }
        if let Some(ease) = ease {
            let _ = writeln!(text, "    ease {} for {number}", self.length(ease));
        }
        if let Some(motif) = section.motif {
            let _ = writeln!(text, "    fussy for {number} at {}", corner_source(place.transform.apply(motif)));
        }
        text
    }

    /// The section that an area is, with its unit and where it stands; none for what stands as a whole and for patches.
    fn drawn(&self, area: usize) -> Option<(&Placement, &Unit, &Section)> {
        let standing = &self.measured.standing;
        let stands = |place: usize| standing.iter().any(|group| group.places.contains(&place));
        // As the areas are ordered: place by place, section by section.
        let others = self.block.placements.iter().enumerate().filter(|(place, _)| !stands(*place));
        let sections = others.flat_map(|(_, place)| {
            let unit = self.block.units.get(place.unit);
            unit.into_iter().flat_map(move |unit| unit.sections.iter().map(move |section| (place, unit, section)))
        });
        sections.into_iter().nth(area.checked_sub(standing.len())?)
    }

    /// A length as a source states it.
    fn length(&self, length: Length) -> String {
        let (number, unit) = match self.pattern.units {
            Units::Inches => (length.to_inches(), "in"),
            Units::Metric => (length.to_millimetres(), "mm"),
        };
        let pair = corner_source(Point::new(number, 0.0));
        format!("{} {unit}", pair.split(',').next().unwrap_or_default())
    }
}

/// What a unit says of one of its sections: that all are cut as half or a quarter of a square holds for those that are one.
fn of_unit(unit: &Unit, section: &Section) -> CutWish {
    let of_square = matches!(unit.cut.shape, Some(CutShape::HalfSquare | CutShape::QuarterSquare));
    let fits = !of_square || RightTriangle::of(&section.polygon).is_some();
    CutWish { shape: unit.cut.shape.filter(|_| fits), ..unit.cut }
}
