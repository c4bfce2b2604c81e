//! The pieces of each fabric: equal ones counted together, and the rectangles they are cut from.

use std::collections::BTreeMap;

use crate::geometry::Length;
use crate::model::{Blank, Block, Cut, Fit, PieceGroup, PieceUse, Shape, UnitKind, Variant};
use crate::pattern::Pattern;

/// What makes pieces equal: shape, width, height, what is trimmed, how nearly they are cut.
type Key = (u8, u64, u64, [i64; 2], Fit);

/// The pieces of a fabric: how many, and for what.
type Sizes = BTreeMap<Key, (Shape, u32, Vec<PieceUse>)>;

/// The pieces of all fabrics, by their index; largest first.
pub(super) fn by_fabric(pattern: &Pattern, blocks: &[Block]) -> Vec<Vec<PieceGroup>> {
    let mut by_fabric: Vec<Sizes> = vec![BTreeMap::new(); pattern.fabrics.len()];
    for (block_index, block) in blocks.iter().enumerate() {
        for (variant_index, variant) in block.variants.iter().enumerate() {
            for cut in variant.cuts.iter().filter(|cut| cut.count > 0) {
                let Some(fabric) = variant.fabric_of(cut.section, cut.strip) else { continue };
                let count = cut.count.saturating_mul(pattern.people);
                let entry = by_fabric[fabric].entry(key(block, variant, cut)).or_insert((cut.shape, 0, Vec::new()));
                entry.1 = entry.1.saturating_add(count);
                let used = PieceUse { block: block_index, variant: variant_index, section: cut.section };
                // The turns of one section stand together.
                if entry.2.last() != Some(&used) {
                    entry.2.push(used);
                }
            }
        }
    }
    by_fabric.into_iter().map(|sizes| groups(blocks, sizes)).collect()
}

fn groups(blocks: &[Block], sizes: Sizes) -> Vec<PieceGroup> {
    let group = |((_, width, height, _, fit), (shape, count, uses)): (Key, (Shape, u32, Vec<PieceUse>))| {
        let (width, height) = (length(width), length(height));
        PieceGroup {
            fit,
            shape,
            label: label(blocks, &uses),
            width,
            height,
            count,
            blanks: if fit == Fit::Motif { Vec::new() } else { blanks(shape, (width, height), count) },
            uses,
        }
    };
    let mut groups: Vec<PieceGroup> = sizes.into_iter().map(group).collect();
    groups.sort_by(|a, b| {
        let area = |group: &PieceGroup| group.width.to_inches() * group.height.to_inches();
        area(b).total_cmp(&area(a)).then_with(|| a.uses.cmp(&b.uses))
    });
    groups
}

/// The rectangles from which so many pieces are cut. Of halves and quarters the last square may give more than is needed; trapezoids are cut two by two,
/// head to tail where they are trimmed most, and the odd one by itself.
fn blanks(shape: Shape, (width, height): (Length, Length), count: u32) -> Vec<Blank> {
    match shape {
        Shape::Rectangle => vec![Blank { width, height, count, gives: 1 }],
        Shape::HalfSquare => vec![Blank { width, height, count: count.div_ceil(2), gives: 2 }],
        Shape::QuarterSquare => vec![Blank { width, height, count: count.div_ceil(4), gives: 4 }],
        Shape::Trapezoid { trim: [left, right] } => {
            let most = left.to_inches().abs().max(right.to_inches().abs());
            let pair = Length::inches(2.0 * width.to_inches() - most);
            let pairs = Blank { width: pair, height, count: count / 2, gives: 2 };
            let odd = Blank { width, height, count: count % 2, gives: 1 };
            [pairs, odd].into_iter().filter(|blank| blank.count > 0).collect()
        }
    }
}

/// How nearly a piece is cut.
fn fit(block: &Block, variant: &Variant, cut: &Cut) -> Fit {
    if !block.has_paper(variant) {
        return Fit::Exact;
    }
    if cut.motif.is_some() {
        return Fit::Motif;
    }
    let strips = block.unit_of(variant).sections.get(cut.section).map_or(0, |section| section.pieced.len());
    // The first and the last strip have an outer edge.
    if cut.strip.is_some_and(|strip| strip > 0 && strip + 1 < strips) { Fit::Strip } else { Fit::Rough }
}

fn key(block: &Block, variant: &Variant, cut: &Cut) -> Key {
    let (shape, trim) = match cut.shape {
        Shape::Rectangle => (0, [0; 2]),
        Shape::HalfSquare => (1, [0; 2]),
        Shape::QuarterSquare => (2, [0; 2]),
        Shape::Trapezoid { trim } => (3, trim.map(fine)),
    };
    (shape, fine(cut.width).unsigned_abs(), fine(cut.height).unsigned_abs(), trim, fit(block, variant, cut))
}

/// A length to a millionth of an inch.
#[expect(clippy::cast_possible_truncation, reason = "floats saturate, and cuts are far below the bounds")]
fn fine(length: Length) -> i64 {
    (length.to_inches() * 1e6).round() as i64
}

#[expect(clippy::cast_precision_loss, reason = "keys are small")]
fn length(key: u64) -> Length {
    Length::inches(key as f64 / 1e6)
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
