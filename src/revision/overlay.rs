//! What of a block moved, for the picture of both models over each other.

use crate::geometry::{Length, Point, Polygon, Vector};
use crate::model::{Block, Model};
use crate::packet::figure::{Overlay, overlay};
use crate::packet::page::{Item, Page, Text, Weight};
use crate::packet::typeface::wrapped;
use crate::packet::words::Words;

use super::alike::{same_area, same_place};
use super::{Alteration, BlockPair, Change, Revision};

/// The height of a caption, in inches.
const CAPTION: f64 = 0.3;
/// What stays free at the left and right of words, in inches.
const MARGIN: f64 = 0.12;

/// A picture of each block whose lines or fabrics are others, of this width, with its pair by index: the former lines beneath the new ones, and what moved marked.
#[must_use]
pub fn overlays(was: &Model, now: &Model, revision: &Revision, width: Length, words: &Words) -> Vec<(usize, Page)> {
    let mut pages = Vec::new();
    for (index, pair) in revision.pairs.blocks.iter().enumerate() {
        if !revision.changes.iter().any(|change| is_seen(change, index)) {
            continue;
        }
        let (before, after) = (pair.was.and_then(|at| was.blocks.get(at)), pair.now.and_then(|at| now.blocks.get(at)));
        let drawn = overlay_of(revision, index, pair, (before, after));
        let name = after.or(before).map_or("", |block| block.name.as_str());
        pages.extend(overlay(&drawn, name, width, words).map(|page| (index, page)));
    }
    pages
}

/// Pictures below each other, each under its caption, with a line that says how they are read; none for no pictures.
#[must_use]
pub fn album(pictures: &[(String, Page)], words: &Words) -> Option<Page> {
    let width = pictures
        .iter()
        .map(|(_, page)| page.width)
        .fold(None, |widest: Option<Length>, width| Some(widest.map_or(width, |other| other.max(width))))?;
    let mut items = Vec::new();
    let mut high = 0.0;
    let line = |at: f64, words: &str, points: f64, weight| {
        Item::Text(Text::line(Point::new(MARGIN, at), words, points, weight))
    };
    for (caption, page) in pictures {
        items.push(line(high + CAPTION * 0.7, caption, 11.0, Weight::Bold));
        let shift = Vector::new(0.0, high + CAPTION);
        items.extend(page.items.iter().map(|item| item.moved(shift)));
        high += CAPTION + page.height.to_inches();
    }
    // Other typefaces, which a viewer may take instead, are wider.
    let measure = Length::inches((width.to_inches() - 2.0 * MARGIN) * 0.8);
    for line_words in wrapped(&words.correction_picture_key(), measure, Length::points(8.0), Weight::Regular) {
        high += 0.16;
        items.push(line(high, &line_words, 8.0, Weight::Regular));
    }
    let description = pictures.iter().map(|(_, page)| page.description.as_str()).collect::<Vec<_>>().join(" ");
    let title = pictures.iter().map(|(caption, _)| caption.as_str()).collect::<Vec<_>>().join(", ");
    Some(Page { width, height: Length::inches(high + MARGIN), title, description, items })
}

/// Whether a change shows in the picture of a block.
fn is_seen(change: &Change, block: usize) -> bool {
    match change {
        Change::Foundation(change) if change.block == block => {
            change.was.is_none()
                || change.now.is_none()
                || change.alterations.iter().any(|of| matches!(of, Alteration::Redrawn(_) | Alteration::Recoloured(_)))
        }
        Change::Sew(change) => change.block == block && matches!(change.what, super::Sewn::Placed(_)),
        _ => false,
    }
}

/// The areas of a block, each with the foundation that it is of.
fn areas(block: Option<&Block>) -> Vec<(usize, Polygon)> {
    let mut found = Vec::new();
    for place in block.into_iter().flat_map(|block| &block.placements) {
        let Some(block) = block else { continue };
        let Some(variant) = block.variants.get(place.variant) else { continue };
        let areas = block.unit_of(variant).areas(variant);
        found.extend(areas.map(|(_, area)| (place.variant, place.transform.apply_to_polygon(area))));
    }
    found
}

fn overlay_of(
    revision: &Revision,
    index: usize,
    pair: &BlockPair,
    (was, now): (Option<&Block>, Option<&Block>),
) -> Overlay {
    let (before, after) = (areas(was), areas(now));
    let is_new = |(_, area): &&(usize, Polygon)| !before.iter().any(|(_, other)| same_area(other, area));
    let is_gone = |(_, area): &&(usize, Polygon)| !after.iter().any(|(_, other)| same_area(other, area));
    let recoloured = |variant: usize, area: &Polygon| {
        let unit = now.and_then(|block| Some((block, block.variants.get(variant)?)));
        revision.changes.iter().any(|change| match change {
            Change::Foundation(change) if change.block == index && change.now == Some(variant) => {
                change.alterations.iter().any(|of| match of {
                    Alteration::Recoloured(sections) => unit.is_some_and(|(block, of)| {
                        let sections =
                            sections.iter().filter_map(|one| block.unit_of(of).sections.get(one.section - 1));
                        let places = || block.placements.iter().filter(|place| place.variant == variant);
                        sections.flat_map(|section| section.areas().map(|a| (a, places())).collect::<Vec<_>>()).any(
                            |(a, mut places)| places.any(|place| same_area(&place.transform.apply_to_polygon(a), area)),
                        )
                    }),
                    _ => false,
                })
            }
            _ => false,
        })
    };
    let tinted = after.iter().filter(|one| is_new(one) || recoloured(one.0, &one.1)).map(|(_, area)| area.clone());
    let gone: Vec<Polygon> = before.iter().filter(is_gone).map(|(_, area)| area.clone()).collect();
    Overlay {
        outline: now.or(was).map(|block| block.outline.clone()),
        lines: after.iter().map(|(_, area)| area.clone()).collect(),
        units: now.into_iter().flat_map(|block| &block.placements).map(|place| place.outline.clone()).collect(),
        changed: tinted.collect(),
        former: gone,
        moved: moved(revision, index, pair, (was, now)),
        marks: marks(revision, index, pair, now),
    }
}

/// The marks of foundations that changed, each with the place that is named.
fn marks(revision: &Revision, index: usize, pair: &BlockPair, now: Option<&Block>) -> Vec<(Polygon, String)> {
    let Some((block, at)) = now.zip(pair.now) else { return Vec::new() };
    debug_assert_eq!(revision.pairs.blocks.get(index).and_then(|pair| pair.now), Some(at));
    let places = block.placements.iter().filter(|place| revision.is_printed_anew(at, place.variant));
    places.filter_map(|place| Some((place.outline.clone(), block.variants.get(place.variant)?.mark.clone()))).collect()
}

/// Corners that are where none was, place by place, each with the nearest corner of the former place that is no longer one: from where to where. A corner that is new and has none so near
/// stands alone.
fn moved(
    revision: &Revision,
    index: usize,
    pair: &BlockPair,
    (was, now): (Option<&Block>, Option<&Block>),
) -> Vec<(Point, Point)> {
    let (Some(was), Some(now)) = (was, now) else { return Vec::new() };
    let mut found: Vec<(Point, Point)> = Vec::new();
    for &(before, after) in &pair.placements {
        let Some(farthest) = now.placements.get(after).and_then(|place| farthest(revision, index, place.variant))
        else {
            continue;
        };
        let (from, to) = (corners(was, before), corners(now, after));
        let mut left: Vec<Point> = from.iter().filter(|p| !to.iter().any(|q| same_place(**p, *q))).copied().collect();
        for &corner in to.iter().filter(|q| !from.iter().any(|p| same_place(*p, **q))) {
            let nearest =
                (0..left.len()).min_by(|&a, &b| left[a].distance(corner).total_cmp(&left[b].distance(corner)));
            let near = nearest.filter(|&at| left[at].distance(corner) <= farthest * 1.001);
            let origin = near.map_or(corner, |at| left.swap_remove(at));
            if !found.iter().any(|(_, other)| same_place(*other, corner)) {
                found.push((origin, corner));
            }
        }
    }
    found
}

/// How far a corner of a foundation moved at the most, in inches; none where it was not redrawn.
fn farthest(revision: &Revision, block: usize, variant: usize) -> Option<f64> {
    revision.changes.iter().find_map(|change| match change {
        Change::Foundation(change) if change.block == block && change.now == Some(variant) => {
            change.alterations.iter().find_map(|alteration| match alteration {
                Alteration::Redrawn(redrawn) => Some(redrawn.farthest.to_inches()),
                _ => None,
            })
        }
        _ => None,
    })
}

/// The corners of the areas of a place, each once.
fn corners(block: &Block, place: usize) -> Vec<Point> {
    let mut found: Vec<Point> = Vec::new();
    let Some(place) = block.placements.get(place) else { return found };
    let Some(variant) = block.variants.get(place.variant) else { return found };
    for (_, area) in block.unit_of(variant).areas(variant) {
        for &corner in place.transform.apply_to_polygon(area).corners() {
            if !found.iter().any(|&other| same_place(other, corner)) {
                found.push(corner);
            }
        }
    }
    found
}
