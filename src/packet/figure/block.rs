//! The block from the front: in its fabrics, in others, as outlines to colour, and as the map of its units.

use super::canvas::{Canvas, Room};
use super::{name_sizes, told};
use crate::geometry::{Length, Polygon, Tolerance, Transform};
use crate::model::{Block, Model};
use crate::packet::page::{Colour, Page, Stroke, Weight};
use crate::packet::words::Words;

/// How light the units of a map are, so that neighbours differ.
const TINTS: [u8; 4] = [255, 240, 226, 212];
/// How far within the edges of a plain piece its dots lie, in inches on the page.
const PLAIN_INSET: f64 = 0.045;
/// From this width in inches on names that find no room within a map stand beside it.
const ROOMY: f64 = 2.2;

/// The block from the front, in its fabrics.
#[must_use]
pub fn block_front(model: &Model, block: &Block, width: Length, words: &Words) -> Page {
    let fabrics = told::fabrics_of(model, block, |fabric| fabric, words);
    in_fabrics(model, block, width, |fabric| fabric, words.front_alt(&block.name, fabrics))
}

/// The block from the front with fabrics exchanged: for each pair, the second, by index in [`Model::fabrics`], in the place of the first.
#[must_use]
pub fn block_coloured(
    model: &Model,
    block: &Block,
    colouring: &[(usize, usize)],
    width: Length,
    words: &Words,
) -> Page {
    let changed =
        |fabric: usize| colouring.iter().find(|(from, _)| *from == fabric).map_or(fabric, |&(_, instead)| instead);
    let fabrics = told::fabrics_of(model, block, changed, words);
    in_fabrics(model, block, width, changed, words.coloured_alt(&block.name, fabrics))
}

/// The outlines of the block, to try colours on with crayons.
#[must_use]
pub fn colouring_page(_model: &Model, block: &Block, width: Length, words: &Words) -> Page {
    let mut canvas = canvas(block, width.to_inches(), 0.03);
    let sections = sections(block);
    let placed = block.placements.iter().filter_map(|place| block.variants.get(place.variant));
    let count: usize = placed.map(|variant| variant.fabrics.len()).sum();
    let pen = Stroke::plain(0.4, Colour::grey(90)).rounded();
    canvas.outlines(sections.iter().map(|(_, area)| area), None, Some(pen));
    canvas.outline(&block.outline, None, Stroke::plain(0.8, Colour::grey(60)));
    canvas.page(block.name.clone(), words.colouring_alt(&block.name, count))
}

/// The block from the front, with the marks of its units and the numbers of its sections.
///
/// From 2.2 in on every section is named, in it or beside it, as long as type of 4.5 points finds room. O(n²) in its sections.
#[must_use]
pub fn unit_map(_model: &Model, block: &Block, width: Length, words: &Words) -> Page {
    let wide = width.to_inches();
    let map = map_with(block, (wide, words), &[]);
    // Places whose names find no room beside those of their sections are named before them, if all of these still find theirs.
    let names_first = (!map.unnamed.is_empty() && wide > ROOMY).then(|| map_with(block, (wide, words), &map.unnamed));
    let better = names_first.filter(|again| again.lost <= map.lost && again.unnamed.len() < map.unnamed.len());
    better.unwrap_or(map).canvas.page(block.name.clone(), map_words(block, words))
}

/// A map as drawn.
struct Map {
    canvas: Canvas,
    /// The places, by index, that stand there without their names although their units stand in several.
    unnamed: Vec<usize>,
    /// How many sections have no name.
    lost: usize,
}

/// The map of units, with the names of these places written first, by index.
fn map_with(block: &Block, (wide, words): (f64, &Words), early: &[usize]) -> Map {
    // Names that find no room within their sections stand beside the block.
    let roomy = wide > ROOMY;
    let mut canvas = canvas(block, wide, if roomy { 0.22 } else { 0.03 });
    for (tint, level) in tints(block).into_iter().zip(TINTS) {
        canvas.outlines(tint, Some(Colour::grey(level)), None);
    }
    let (mut sections, mut inner) = (Vec::new(), Vec::new());
    for place in &block.placements {
        let Some(variant) = block.variants.get(place.variant) else { continue };
        for section in &block.unit_of(variant).sections {
            sections.push(place.transform.apply_to_polygon(&section.polygon));
            let seams = section.pieced.iter().filter_map(|strip| strip.seam);
            inner.extend(seams.map(|seam| place.transform.apply_to_segment(seam)));
        }
    }
    canvas.outlines(&sections, None, Some(Stroke::plain(0.35, Colour::grey(110))));
    for seam in inner {
        canvas.inner_seam(seam, 0.35, Colour::grey(110));
    }
    canvas.outlines(block.placements.iter().map(|place| &place.outline), None, Some(Stroke::plain(1.2, Colour::BLACK)));
    for place in early.iter().filter_map(|&index| block.placements.get(index)) {
        canvas.name_along_edge(&place.outline, &place.name, &[6.0, 5.5, 5.0, 4.5]);
    }
    let marks: &[f64] = if roomy { &[18.0, 15.0, 12.0, 10.0, 8.0, 7.0] } else { &[11.0, 9.0, 8.0, 7.0] };
    let (mut first, mut last, mut plain) = (Vec::new(), Vec::new(), Vec::new());
    for (index, place) in block.placements.iter().enumerate() {
        let Some(variant) = block.variants.get(place.variant) else { continue };
        if !block.has_paper(variant) {
            // Dots within its edges tell it from a unit on paper, even where there is no room for words.
            let inset = PLAIN_INSET / canvas.scale;
            let inner = place.outline.shrunk_by(|_| inset, Tolerance::of_extent(wide / canvas.scale));
            if let Some(inner) = &inner {
                canvas.outline(inner, None, Stroke::plain(0.8, Colour::grey(90)).dashed(&[0.8, 2.0]));
            }
            plain.push((place, variant, inner));
            continue;
        }
        let sections = block.unit_of(variant).sections.iter().enumerate();
        let mut named: Vec<(Polygon, String)> = sections
            .map(|(k, s)| (place.transform.apply_to_polygon(&s.polygon), format!("{}{}", variant.mark, k + 1)))
            .collect();
        // The largest section of a unit has room for its name beside the unit's mark; the others choose before the mark does.
        named.sort_by(|a, b| a.0.area().total_cmp(&b.0.area()));
        let Some(largest) = named.pop() else { continue };
        last.push((index, place, variant, largest));
        first.extend(named);
    }
    let name_all = |canvas: &mut Canvas, sections: &[(Polygon, String)]| {
        let sizes = &name_sizes(wide)[1..];
        let mut without_room = Vec::new();
        for (area, name) in sections {
            let named = [sizes, &[4.5]].into_iter().any(|s| canvas.name(area, name, Weight::Regular, s, false));
            if !named {
                without_room.push((area, name));
            }
        }
        // In a narrow map names from elsewhere would hide more than they tell.
        without_room.retain(|(area, name)| !roomy || !canvas.leader(area, &block.outline, name, Weight::Regular));
        without_room.len()
    };
    for (place, variant, inner) in plain {
        let labels = told::plain_marks(block, place, variant, marks, words);
        let within = inner.is_some_and(|inner| canvas.mark(&inner, labels.iter().cloned(), |_| true));
        if !within && !canvas.mark(&place.outline, labels, |_| true) {
            canvas.leader(&place.outline, &block.outline, &variant.mark, Weight::Bold);
        }
    }
    let mut lost = name_all(&mut canvas, &first);
    let mut unnamed = Vec::new();
    for (index, place, variant, (area, name)) in &last {
        let still = |canvas: &Canvas| canvas.has_room(area, name, 4.5);
        let said = early.contains(index);
        let labels = told::marks(block, place, variant, marks);
        let without = labels.len() - marks.len();
        let named = !said && canvas.mark(&place.outline, labels.iter().take(without).cloned(), still);
        if !named {
            canvas.mark(&place.outline, labels.into_iter().skip(without), still);
            // A mark alone does not tell the places of a unit apart.
            if without > 0 && !said {
                unnamed.push(*index);
            }
        }
    }
    let last: Vec<(Polygon, String)> = last.into_iter().map(|(.., section)| section).collect();
    lost += name_all(&mut canvas, &last);
    Map { canvas, unnamed, lost }
}

fn map_words(block: &Block, words: &Words) -> String {
    if block.placements.len() > told::MANY {
        return words.map_alt_many(&block.name, block.placements.len());
    }
    let units: Vec<String> = block
        .placements
        .iter()
        .filter_map(|place| {
            let variant = block.variants.get(place.variant)?;
            let here = told::whereabouts(&block.outline, &place.outline, words);
            let by_mark = words.place(&place.name, &variant.mark) == place.name;
            Some(if by_mark {
                format!("{} {here}", place.name)
            } else if block.has_paper(variant) {
                words.map_unit(&variant.mark, &place.name, here)
            } else {
                words.map_unit_plain(&variant.mark, &place.name, here)
            })
        })
        .collect();
    words.map_alt(&block.name, words.list(&units))
}

fn canvas(block: &Block, wide: f64, border: f64) -> Canvas {
    let room = Room { width: wide, most_high: wide * 1.4, beside: border, above: border };
    Canvas::new(block.outline.bounds(), Transform::IDENTITY, room)
}

/// All sections and strips where they stand in the block, each with its fabric.
fn sections(block: &Block) -> Vec<(usize, Polygon)> {
    let mut found = Vec::new();
    for place in &block.placements {
        let Some(variant) = block.variants.get(place.variant) else { continue };
        let areas = block.unit_of(variant).areas(variant);
        found.extend(areas.map(|(fabric, area)| (fabric, place.transform.apply_to_polygon(area))));
    }
    found
}

fn in_fabrics(
    model: &Model,
    block: &Block,
    width: Length,
    changed: impl Fn(usize) -> usize,
    description: String,
) -> Page {
    let mut canvas = canvas(block, width.to_inches(), 0.03);
    let sections: Vec<(usize, Polygon)> =
        sections(block).into_iter().map(|(fabric, area)| (changed(fabric), area)).collect();
    canvas.fabrics(model, &sections);
    canvas.outlines(sections.iter().map(|(_, area)| area), None, Some(Stroke::plain(0.3, Colour::grey(60))));
    canvas.outline(&block.outline, None, Stroke::plain(0.8, Colour::BLACK));
    canvas.page(block.name.clone(), description)
}

/// The outlines of the units in as many groups as there are tints, neighbours in different ones where that goes on simply. O(n²).
fn tints(block: &Block) -> [Vec<&Polygon>; TINTS.len()] {
    let near = block.width.max(block.height).to_inches() * 1e-3;
    let touch = |a: &Polygon, b: &Polygon| {
        a.edges().any(|edge| {
            b.edges().any(|other| {
                // Side by side along a stretch, not only at a corner.
                let inner = [edge.middle(), edge.start.along(edge.end, 0.1), edge.start.along(edge.end, 0.9)];
                let outer = [other.middle(), other.start.along(other.end, 0.1), other.start.along(other.end, 0.9)];
                inner.iter().any(|&p| other.distance(p) < near) || outer.iter().any(|&p| edge.distance(p) < near)
            })
        })
    };
    let mut groups: [Vec<&Polygon>; TINTS.len()] = Default::default();
    for place in &block.placements {
        let free = groups.iter().position(|group| !group.iter().any(|other| touch(&place.outline, other)));
        if let Some(group) = groups.get_mut(free.unwrap_or(0)) {
            group.push(&place.outline);
        }
    }
    groups
}
