//! Which pieces are cut otherwise: in another size, shape, fabric or number, new, or no longer.

use crate::geometry::Length;
use crate::model::{Block, Cut, Model, Shape, Variant};

use super::alike::{Form, Likeness, same_length};
use super::foundations::matched;
use super::{Change, CutChange, Pairs, Piece};

/// Adds all pieces that are cut otherwise. What is only cut more or less often because its foundation is sewn so is told with the foundation.
pub(super) fn compare(was: &Model, now: &Model, pairs: &Pairs, changes: &mut Vec<Change>) {
    for (block, pair) in pairs.blocks.iter().enumerate() {
        let (before, after) = (pair.was.and_then(|at| was.blocks.get(at)), pair.now.and_then(|at| now.blocks.get(at)));
        for &(a, b) in &pair.variants {
            let old = before.zip(a).and_then(|(block, at)| Some((block, block.variants.get(at)?)));
            let new = after.zip(b).and_then(|(block, at)| Some((block, block.variants.get(at)?)));
            let sewn = |found: &(&Block, &Variant)| found.1.sewn > 0;
            let (old, new) = (old.filter(sewn), new.filter(sewn));
            let Some(variant) = b.filter(|_| new.is_some()).or(a) else { continue };
            for (section, strip, was, now) in of_foundation(old, new, pairs) {
                changes.push(Change::Cut(CutChange {
                    block,
                    variant,
                    section: section + 1,
                    strip: strip.map(|s| s + 1),
                    was,
                    now,
                }));
            }
        }
    }
}

type Found = (usize, Option<usize>, Option<Piece>, Option<Piece>);

fn of_foundation(was: Option<(&Block, &Variant)>, now: Option<(&Block, &Variant)>, pairs: &Pairs) -> Vec<Found> {
    let mut found = Vec::new();
    let order = match (was, now) {
        (Some((a, x)), Some((b, y))) => {
            let (before, after) = (Form::of(a, x), Form::of(b, y));
            match before.likeness(&after) {
                Likeness::Same(order) => order,
                Likeness::Other => matched(&before, &after),
            }
        }
        (None, Some((_, variant))) => vec![usize::MAX; variant.fabrics.len()],
        _ => Vec::new(),
    };
    let cuts = |side: Option<(&Block, &Variant)>| {
        let all =
            side.into_iter().flat_map(|(_, variant)| variant.cuts.iter().map(|cut| (cut.clone(), piece(variant, cut))));
        all.collect::<Vec<(Cut, Piece)>>()
    };
    let (mut before, after) = (cuts(was), cuts(now));
    let sewn_alike = was.zip(now).is_some_and(|((_, a), (_, b))| a.sewn == b.sewn);
    for (cut, piece) in after {
        let section = order.get(cut.section).copied().unwrap_or(usize::MAX);
        let is = |(other, _): &(Cut, Piece)| other.section == section && other.strip == cut.strip;
        // Of several turns of one section the same turn first.
        let nearest = before.iter().enumerate().filter(|(_, old)| is(old)).min_by(|(_, (a, _)), (_, (b, _))| {
            let off = |other: &Cut| (other.turn.to_degrees() - cut.turn.to_degrees()).abs();
            off(a).total_cmp(&off(b))
        });
        let old = nearest.map(|(at, _)| at).map(|at| before.remove(at).1);
        let is_as_it_was = old.is_some_and(|old| {
            let same_fabric = pairs.fabric_was(piece.fabric) == Some(old.fabric);
            same_fabric && same_size(&old, &piece) && (old.count == piece.count || !sewn_alike)
        });
        if !is_as_it_was {
            found.push((cut.section, cut.strip, old, Some(piece)));
        }
    }
    found.extend(before.into_iter().map(|(cut, piece)| (cut.section, cut.strip, Some(piece), None)));
    found
}

fn piece(variant: &Variant, cut: &Cut) -> Piece {
    Piece {
        fabric: variant.fabric_of(cut.section, cut.strip).unwrap_or_default(),
        shape: cut.shape,
        width: cut.width,
        height: cut.height,
        count: cut.count,
    }
}

/// Whether two pieces have the same shape and size.
fn same_size(a: &Piece, b: &Piece) -> bool {
    let trims = |piece: &Piece| match piece.shape {
        Shape::Trapezoid { trim } => trim.map(Length::to_inches),
        _ => [0.0; 2],
    };
    std::mem::discriminant(&a.shape) == std::mem::discriminant(&b.shape)
        && same_length(a.width.to_inches(), b.width.to_inches())
        && same_length(a.height.to_inches(), b.height.to_inches())
        && trims(a).iter().zip(trims(b)).all(|(x, y)| same_length(*x, y))
}

/// Whether a piece may not be had from one that was cut for the former: it is longer or higher, or of another shape. A rectangle gives every piece that it holds.
pub(super) fn needs_more(was: &Piece, now: &Piece) -> bool {
    if same_size(was, now) {
        return false;
    }
    let holds = |a: f64, b: f64| b <= a || same_length(a, b);
    let within =
        holds(was.width.to_inches(), now.width.to_inches()) && holds(was.height.to_inches(), now.height.to_inches());
    let from_it = match (was.shape, now.shape) {
        (Shape::Rectangle, Shape::Rectangle | Shape::Trapezoid { .. })
        | (Shape::HalfSquare, Shape::HalfSquare)
        | (Shape::QuarterSquare, Shape::QuarterSquare) => within,
        (Shape::Trapezoid { trim: [a, b] }, Shape::Trapezoid { trim: [c, d] }) => {
            let same_trims = same_length(a.to_inches(), c.to_inches()) && same_length(b.to_inches(), d.to_inches());
            within && same_trims && same_length(was.height.to_inches(), now.height.to_inches())
        }
        _ => false,
    };
    !from_it
}
