//! Strips across the width of the fabric, pieces from strips, and what to buy.
//!
//! A plain layout for now: pieces in order of falling height, each into the first strip that has room (Coffman, Garey, Johnson and Tarjan 1980,
//! first fit by decreasing height).

use crate::geometry::Length;

/// Equal pieces to be cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Item {
    /// Width of a piece.
    pub width: Length,
    /// Height of a piece.
    pub height: Length,
    /// How many.
    pub count: u32,
    /// Whether it may be laid either way. Otherwise its height runs along the selvedge, or across it with `crosswise`.
    pub free: bool,
    /// Whether its height runs across the selvedge.
    pub crosswise: bool,
}

/// A piece in a strip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LaidPiece {
    /// Which, by index among the items.
    pub item: usize,
    /// How far from the end of the strip.
    pub x: Length,
    /// Whether its height runs along the strip.
    pub turned: bool,
}

/// A strip.
#[derive(Debug, Clone, PartialEq)]
pub struct LaidStrip {
    /// How wide it is cut, along the selvedge.
    pub width: Length,
    /// Its pieces, from one end to the other.
    pub pieces: Vec<LaidPiece>,
}

/// Strips for all pieces of a fabric.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    /// The strips, widest first.
    pub strips: Vec<LaidStrip>,
    /// Their widths together.
    pub length: Length,
    /// No layout is shorter: the area of the pieces over the width, or the widest strip.
    pub lower_bound: Length,
    /// The items of which a piece is longer than the fabric is wide, however it is laid.
    pub too_wide: Vec<usize>,
}

/// Lays all pieces in strips across a fabric of this width. O(pieces × strips).
#[must_use]
pub fn strips(items: &[Item], width: Length) -> Layout {
    struct Lie {
        item: usize,
        along: Length,
        across: Length,
        turned: bool,
    }
    let mut lies: Vec<Lie> = items
        .iter()
        .enumerate()
        .map(|(index, item)| {
            // Free pieces lie with their longer side along the strip, unless only the other way fits.
            let turned = if item.free { item.height > item.width } else { item.crosswise };
            let (along, across) = if turned { (item.height, item.width) } else { (item.width, item.height) };
            let too_long = item.free && along > width && across <= width;
            if too_long {
                Lie { item: index, along: across, across: along, turned: !turned }
            } else {
                Lie { item: index, along, across, turned }
            }
        })
        .collect();
    lies.sort_by(|a, b| {
        let keys = b.across.to_inches().total_cmp(&a.across.to_inches());
        keys.then(b.along.to_inches().total_cmp(&a.along.to_inches())).then(a.item.cmp(&b.item))
    });
    let slack = Length::inches(1e-6);
    let mut laid: Vec<(LaidStrip, Length)> = Vec::new();
    let mut too_wide = Vec::new();
    for lie in &lies {
        if lie.along > width + slack {
            too_wide.push(lie.item);
        }
        // Strips before this one have no room for this piece, so they have none for the next of its kind.
        let mut from = 0;
        for _ in 0..items[lie.item].count {
            let found = laid[from..].iter().position(|(_, used)| *used + lie.along <= width + slack);
            let index = found.map_or(laid.len(), |found| from + found);
            if index == laid.len() {
                laid.push((LaidStrip { width: lie.across, pieces: Vec::new() }, Length::ZERO));
            }
            let (strip, used) = &mut laid[index];
            strip.pieces.push(LaidPiece { item: lie.item, x: *used, turned: lie.turned });
            *used = *used + lie.along;
            from = index;
        }
    }
    let strips: Vec<LaidStrip> = laid.into_iter().map(|(strip, _)| strip).collect();
    let length = strips.iter().map(|strip| strip.width).sum();
    let area: f64 = items.iter().map(|i| i.width.to_inches() * i.height.to_inches() * f64::from(i.count)).sum();
    let widest = strips.first().map_or(Length::ZERO, |strip| strip.width);
    let lower_bound = Length::inches(area / width.to_inches()).max(widest).min(length);
    too_wide.sort_unstable();
    Layout { strips, length, lower_bound, too_wide }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{Item, strips};
    use crate::geometry::Length;

    fn item(width: f64, height: f64, count: u32, free: bool) -> Item {
        Item { width: Length::inches(width), height: Length::inches(height), count, free, crosswise: false }
    }

    #[test]
    fn what_is_longer_than_the_fabric_is_wide_is_said() {
        assert_eq!(strips(&[item(50.0, 45.0, 1, true)], Length::inches(40.0)).too_wide, [0]);
        assert!(strips(&[item(50.0, 3.0, 1, true)], Length::inches(40.0)).too_wide.is_empty());
        assert_eq!(strips(&[item(50.0, 3.0, 1, false)], Length::inches(40.0)).too_wide, [0]);
    }

    proptest! {
        #[test]
        fn every_piece_lies_in_one_strip_without_overlap(
            sizes in proptest::collection::vec((1u32..80, 1u32..80, 1u32..9, any::<bool>()), 1..12),
        ) {
            let items: Vec<Item> =
                sizes.iter().map(|&(w, h, n, free)| item(f64::from(w) / 8.0, f64::from(h) / 8.0, n, free)).collect();
            let width = Length::inches(21.0);
            let layout = strips(&items, width);
            let mut counts = vec![0_u32; items.len()];
            for strip in &layout.strips {
                let mut end = Length::ZERO;
                for piece in &strip.pieces {
                    let item = items[piece.item];
                    let (along, across) = if piece.turned { (item.height, item.width) } else { (item.width, item.height) };
                    prop_assert!(piece.turned <= item.free);
                    prop_assert!(piece.x >= end && across <= strip.width);
                    end = piece.x + along;
                    counts[piece.item] += 1;
                }
                prop_assert!(end <= width + Length::inches(1e-6));
            }
            prop_assert_eq!(counts, items.iter().map(|item| item.count).collect::<Vec<_>>());
            prop_assert!(layout.lower_bound <= layout.length);
        }
    }
}
