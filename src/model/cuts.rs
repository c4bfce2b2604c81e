//! The rough cuts of every foundation, and all that is cut from one fabric.

use std::collections::BTreeMap;

use crate::cutting::{
    Between, Cloth, Item, Laid, Measures, Orientation, cut_to_size, lay, lay_strip, purchase, strips,
};
use crate::geometry::{Angle, Length, Segment, Tolerance, Vector};
use crate::pattern::Pattern;

use super::build::Sized;
use super::{
    Block, Cut, FabricCutting, Fit, PieceGroup, PieceUse, Print, PrintDirection, Purchase, Slack, Strip, StripPiece,
    UnitKind, Units, Variant,
};

/// Edges that lie further off both threads than this are on the bias.
const BIAS: f64 = 22.5;

/// The rough cuts of a foundation: by section, then by turn. `order` gives the pattern's unit for each of the block's.
pub(super) fn cuts(sized: &Sized<'_>, block: &Block, variant: usize, order: &[usize]) -> Option<Vec<Cut>> {
    let of = &block.variants[variant];
    let unit = &block.units[of.unit];
    let measures = measures(sized.pattern, sized.source.tolerance.scaled(sized.scale));
    let mut cuts = Vec::new();
    let own_up = sized.source.units[order[of.unit]].up_is_units;
    for (index, section) in unit.sections.iter().enumerate() {
        if !section.pieced.is_empty() {
            strip_cuts(sized, block, variant, index, own_up, &mut cuts)?;
            continue;
        }
        let print = sized.pattern.fabrics[of.fabrics[index]].print;
        for (turn, up, places) in ups(block, variant, print, own_up) {
            let orientation = up.map_or(Orientation::AlongSeam, Orientation::Up);
            let laid = match unit.kind {
                UnitKind::Paper => lay(&section.needed, section.seam, orientation, &measures)?,
                UnitKind::Plain => cut_to_size(&section.needed, up)?,
            };
            let bias_edges = bias_edges(&section.polygon, laid.up);
            cuts.push(cut(&laid, (index, None), turn, places * sized.source.copies, of.mirrored, print, bias_edges));
        }
    }
    Some(cuts)
}

/// The cuts of the strips of a pieced section, strip by strip.
fn strip_cuts(
    sized: &Sized<'_>,
    block: &Block,
    variant: usize,
    index: usize,
    own_up: bool,
    cuts: &mut Vec<Cut>,
) -> Option<()> {
    let of = &block.variants[variant];
    let section = &block.units[of.unit].sections[index];
    let measures = measures(sized.pattern, sized.source.tolerance.scaled(sized.scale));
    for (k, strip) in section.pieced.iter().enumerate() {
        let before = k.checked_sub(1).and_then(|before| section.pieced[before].seam);
        let between = Between { before, after: strip.seam };
        let print = sized.pattern.fabrics[of.fabric_of(index, Some(k))?].print;
        for (turn, up, places) in ups(block, variant, print, own_up) {
            let laid = lay_strip(&section.needed, &strip.needed, between, up, &measures)?;
            let bias_edges = bias_edges(&strip.polygon, laid.up);
            let at = (index, Some(k));
            cuts.push(cut(&laid, at, turn, places * sized.source.copies, of.mirrored, print, bias_edges));
        }
    }
    Some(())
}

/// The measures by which pieces of a pattern are cut; the tolerance is in inches.
#[must_use]
pub fn measures(pattern: &Pattern, tolerance: Tolerance) -> Measures {
    Measures {
        allowance: pattern.allowance,
        ease: pattern.ease,
        rounding: match pattern.units {
            Units::Inches => Length::inches(0.125),
            Units::Metric => Length::millimetres(5.0),
        },
        tolerance,
    }
}

/// The ways the print of a section must point in the unit's frame, each with the turn it is for and the number of places in the block.
fn ups(block: &Block, variant: usize, print: Print, own_up: bool) -> Vec<(Angle, Option<Vector>, u32)> {
    let places = block.placements.iter().filter(|place| place.variant == variant);
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    if print.direction == PrintDirection::None {
        return vec![(Angle::default(), None, count(places.count()))];
    }
    let up = Vector::new(0.0, -1.0);
    if own_up {
        return vec![(Angle::default(), Some(up), count(places.count()))];
    }
    let mut found: Vec<(Angle, Option<Vector>, u32)> = Vec::new();
    for place in places {
        let Some(back) = place.transform.inverse() else { continue };
        let here = back.apply_to_vector(up);
        // The bearing of the block's up in the unit's frame runs against the turn of the unit.
        let bearing = libm::atan2(here.x, -here.y);
        let full = if print.direction == PrintDirection::TwoWay { 180.0 } else { 360.0 };
        let degrees = (-Angle::radians(bearing).to_degrees()).rem_euclid(full);
        let degrees = (degrees * 1e6).round() / 1e6;
        let turn = Angle::degrees(if degrees >= full { 0.0 } else { degrees });
        match found.iter_mut().find(|(other, ..)| *other == turn) {
            Some((_, _, places)) => *places += 1,
            None => found.push((turn, Some(Vector::at_bearing(Angle::degrees(-turn.to_degrees()))), 1)),
        }
    }
    found.sort_by(|a, b| a.0.to_degrees().total_cmp(&b.0.to_degrees()));
    found
}

fn cut(
    laid: &Laid,
    (section, strip): (usize, Option<usize>),
    turn: Angle,
    count: u32,
    mirrored: bool,
    print: Print,
    bias_edges: Vec<usize>,
) -> Cut {
    // Seen from the printed side, with the section beyond the line, the seam starts on the left; a mirrored unit has it the other way round.
    let hand = |pair: [Length; 2]| if mirrored { [pair[1], pair[0]] } else { pair };
    // The lengthwise threads run up and down the strip's width, which is the height of the piece, unless the print runs across.
    let lengthwise = if print.across { laid.up.quarter_turned() } else { laid.up };
    // Rounded first, so that what is level but for a hair's breadth is level.
    let grain = ((lengthwise.angle().to_degrees() * 1e6).round() / 1e6).rem_euclid(180.0);
    Cut {
        section,
        strip,
        turn,
        count,
        width: laid.width,
        height: laid.height,
        corners: laid.corners,
        overhang: laid.overhang.map(hand),
        slack: Slack { along: hand(laid.along), across: laid.across, turn: laid.turn },
        grain: Angle::degrees(if grain >= 180.0 { 0.0 } else { grain }),
        bias_edges,
    }
}

fn bias_edges(section: &crate::geometry::Polygon, up: Vector) -> Vec<usize> {
    let off = |edge: Segment| {
        let along = up.angle().to_degrees() - (edge.end - edge.start).angle().to_degrees();
        let within = along.rem_euclid(90.0);
        within.min(90.0 - within)
    };
    section.edges().enumerate().filter(|(_, edge)| off(*edge) > BIAS + 1e-9).map(|(index, _)| index).collect()
}

/// The pieces of a fabric by width, height and how nearly they are cut: how many, and for what.
type Sizes = BTreeMap<(u64, u64, Fit), (u32, Vec<PieceUse>)>;

/// All that is cut, fabric by fabric.
pub(super) fn cutting(pattern: &Pattern, blocks: &[Block]) -> Vec<FabricCutting> {
    let cloth = Cloth::usual(pattern.units);
    let mut by_fabric: Vec<Sizes> = vec![BTreeMap::new(); pattern.fabrics.len()];
    for (block_index, block) in blocks.iter().enumerate() {
        for (variant_index, variant) in block.variants.iter().enumerate() {
            for cut in variant.cuts.iter().filter(|cut| cut.count > 0) {
                let Some(fabric) = variant.fabric_of(cut.section, cut.strip) else { continue };
                let fit = fit(block, variant, cut);
                let entry = by_fabric[fabric].entry((key(cut.width), key(cut.height), fit)).or_default();
                entry.0 = entry.0.saturating_add(cut.count);
                let used = PieceUse { block: block_index, variant: variant_index, section: cut.section };
                // The turns of one section stand together.
                if entry.1.last() != Some(&used) {
                    entry.1.push(used);
                }
            }
        }
    }
    let fabrics = by_fabric.into_iter().enumerate().filter(|(_, pieces)| !pieces.is_empty());
    fabrics
        .map(|(fabric, pieces)| {
            let print = pattern.fabrics[fabric].print;
            let mut groups: Vec<PieceGroup> = pieces
                .into_iter()
                .map(|((width, height, fit), (count, uses))| PieceGroup {
                    fit,
                    label: label(blocks, &uses),
                    width: length(width),
                    height: length(height),
                    count,
                    uses,
                })
                .collect();
            groups.sort_by(|a, b| {
                let area = |group: &PieceGroup| group.width.to_inches() * group.height.to_inches();
                area(b).total_cmp(&area(a)).then_with(|| a.uses.cmp(&b.uses))
            });
            let items: Vec<Item> = groups
                .iter()
                .map(|group| Item {
                    width: group.width,
                    height: group.height,
                    count: group.count,
                    free: print.direction == PrintDirection::None,
                    crosswise: print.across,
                })
                .collect();
            let layout = strips(&items, cloth.width);
            let (length, fat_quarter, fat_eighth) = purchase(&items, &layout, &cloth);
            let strip_pieces = |pieces: &[crate::cutting::LaidPiece]| {
                let piece = |p: &crate::cutting::LaidPiece| StripPiece {
                    group: p.item,
                    x: p.x,
                    y: Length::ZERO,
                    turned: p.turned,
                };
                pieces.iter().map(piece).collect()
            };
            let strips =
                layout.strips.iter().map(|s| Strip { width: s.width, pieces: strip_pieces(&s.pieces) }).collect();
            FabricCutting {
                fabric,
                pieces: groups,
                strips,
                length: layout.length,
                lower_bound: layout.lower_bound,
                buy: Purchase { length, fat_quarter, fat_eighth },
            }
        })
        .collect()
}

/// How nearly a piece is cut.
fn fit(block: &Block, variant: &Variant, cut: &Cut) -> Fit {
    if !block.has_paper(variant) {
        return Fit::Exact;
    }
    let strips = block.unit_of(variant).sections.get(cut.section).map_or(0, |section| section.pieced.len());
    // The first and the last strip have an outer edge.
    if cut.strip.is_some_and(|strip| strip > 0 && strip + 1 < strips) { Fit::Strip } else { Fit::Rough }
}

/// A length as a key, to a ten-thousandth of an inch.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "cuts are positive and far below the bounds"
)]
fn key(length: Length) -> u64 {
    (length.to_inches() * 10_000.0).round().max(0.0) as u64
}

#[expect(clippy::cast_precision_loss, reason = "keys are small")]
fn length(key: u64) -> Length {
    Length::inches(key as f64 / 10_000.0)
}

/// The sections that pieces are for: `A3, B2`, and of plain pieces the mark alone; with the name of the block where there are several.
fn label(blocks: &[Block], uses: &[PieceUse]) -> String {
    let one = |used: &PieceUse| {
        let block = &blocks[used.block];
        let variant = &block.variants[used.variant];
        let mark = match block.unit_of(variant).kind {
            UnitKind::Paper => format!("{}{}", variant.mark, used.section + 1),
            UnitKind::Plain => variant.mark.clone(),
        };
        if blocks.len() > 1 { format!("{} {mark}", block.name) } else { mark }
    };
    uses.iter().map(one).collect::<Vec<_>>().join(", ")
}
