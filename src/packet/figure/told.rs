//! What figures show, in words: places, lists of fabrics, and how much is sewn.

use crate::geometry::{Length, Point, Polygon};
use crate::model::{Block, Model, Placement, Variant};
use crate::packet::label::Label;
use crate::packet::page::{Colour, Weight};
use crate::packet::words::Words;

/// Above this many things a description counts instead of listing.
pub(super) const MANY: usize = 12;

/// Where a place lies in an upright rectangle: a key of the catalogue, such as `upper-left`.
fn place_in((from, to): (Point, Point), at: Point) -> &'static str {
    let third = |from: f64, to: f64, at: f64| {
        let part = (at - from) / (to - from).max(1e-9);
        if part < 0.36 {
            0
        } else if part <= 0.64 {
            1
        } else {
            2
        }
    };
    match (third(from.x, to.x, at.x), third(from.y, to.y, at.y)) {
        (0, 0) => "upper-left",
        (1, 0) => "upper",
        (_, 0) => "upper-right",
        (0, 1) => "left",
        (1, 1) => "middle",
        (_, 1) => "right",
        (0, _) => "lower-left",
        (1, _) => "lower",
        (_, _) => "lower-right",
    }
}

/// Where an area lies within another: "at the upper left".
pub(super) fn whereabouts(within: &Polygon, area: &Polygon, words: &Words) -> String {
    place_of(within, area.centroid(), words)
}

/// Where a point lies within an area: "at the upper left".
#[must_use]
pub fn place_of(within: &Polygon, at: Point, words: &Words) -> String {
    words.figure_where(place_in(within.bounds(), at))
}

/// How a unit is marked where it stands, best first: by its mark in one of these sizes, and by its place's name below that where the unit stands in
/// several places.
pub(super) fn marks(block: &Block, place: &Placement, variant: &Variant, sizes: &[f64]) -> Vec<Label> {
    let bold = |points: f64| Label::words(&variant.mark, Length::points(points), Weight::Bold, Colour::BLACK);
    let name = |points: f64| Label::words(&place.name, Length::points(points), Weight::Regular, Colour::BLACK);
    let mut labels = Vec::new();
    if is_one_of_several(block, variant) {
        for &points in sizes {
            let small = [7.0, 6.0, 5.0, 4.5].into_iter().filter(|&small| small < points * 0.9);
            labels.extend(small.map(|small| bold(points).above(&name(small), 0.01)));
        }
        labels.extend([7.0, 6.0, 5.0, 4.5].map(|small| bold(small).beside(&name(small), 0.03)));
        labels.extend([6.0, 5.0, 4.5].map(name));
    }
    labels.extend(sizes.iter().copied().map(bold));
    labels
}

/// How a plain piece is marked in a map, best first: with the words that it has no paper, then as a unit is.
pub(super) fn plain_marks(
    block: &Block,
    place: &Placement,
    variant: &Variant,
    sizes: &[f64],
    words: &Words,
) -> Vec<Label> {
    let bold = |points: f64| Label::words(&variant.mark, Length::points(points), Weight::Bold, Colour::BLACK);
    let small = |words: &str, points: f64| Label::words(words, Length::points(points), Weight::Regular, Colour::BLACK);
    let mut labels = Vec::new();
    for &points in sizes {
        let told = [6.5, 6.0, 5.5, 5.0].into_iter().filter(|&small| small < points * 0.9);
        for size in told {
            let without = small(&words.map_plain(), size);
            if is_one_of_several(block, variant) {
                labels.push(bold(points).above(&small(&place.name, size).above(&without, 0.01), 0.01));
            } else {
                labels.push(bold(points).above(&without, 0.01));
            }
            labels.push(bold(points).beside(&without, 0.08));
        }
    }
    labels.extend(marks(block, place, variant, sizes));
    labels
}

/// Whether the unit of a foundation stands in several places of its block.
fn is_one_of_several(block: &Block, variant: &Variant) -> bool {
    let units = block.placements.iter().filter_map(|place| block.variants.get(place.variant)).map(|other| other.unit);
    units.filter(|&unit| unit == variant.unit).count() > 1
}

/// What a fabric is called.
pub(super) fn fabric_name(model: &Model, fabric: Option<&usize>) -> String {
    fabric.and_then(|&fabric| model.fabrics.get(fabric)).map(|fabric| fabric.name.clone()).unwrap_or_default()
}

/// What the fabrics of a section are called: one, or those of its strips in order.
pub(super) fn fabric_names(model: &Model, variant: &Variant, section: usize, words: &Words) -> String {
    let names = variant.fabrics_of(section).iter().map(|fabric| fabric_name(model, Some(fabric)));
    words.list(&names.collect::<Vec<_>>())
}

/// The fabrics of a block in the order of their marks, after a change of fabrics.
pub(super) fn fabrics_of(model: &Model, block: &Block, changed: impl Fn(usize) -> usize, words: &Words) -> String {
    let used = |index: usize| {
        block.variants.iter().any(|variant| {
            (0..variant.fabrics.len()).flat_map(|k| variant.fabrics_of(k)).any(|&fabric| changed(fabric) == index)
        })
    };
    let names: Vec<&str> = model
        .fabrics
        .iter()
        .enumerate()
        .filter(|(index, _)| used(*index))
        .map(|(_, fabric)| fabric.name.as_str())
        .collect();
    words.list(&names)
}

/// The sections of a foundation, each with its fabric; none where they are too many to listen to.
pub(super) fn sections_of(model: &Model, variant: &Variant, words: &Words) -> Option<String> {
    (variant.fabrics.len() <= MANY).then(|| {
        let one = |k: usize| words.figure_section(k + 1, fabric_names(model, variant, k, words));
        words.list(&(0..variant.fabrics.len()).map(one).collect::<Vec<_>>())
    })
}

#[cfg(test)]
mod tests {
    use super::place_in;
    use crate::geometry::Point;

    #[test]
    fn places_are_told_by_thirds() {
        let within = (Point::new(0.0, 0.0), Point::new(9.0, 3.0));
        assert_eq!(place_in(within, Point::new(1.0, 0.5)), "upper-left");
        assert_eq!(place_in(within, Point::new(4.5, 1.5)), "middle");
        assert_eq!(place_in(within, Point::new(8.0, 1.5)), "right");
        assert_eq!(place_in(within, Point::new(4.5, 2.9)), "lower");
    }
}
