//! Which pieces are cut otherwise: in another size, shape, fabric or number, new, or no longer.

use crate::geometry::Length;
use crate::model::{Block, Cut, Model, Shape, Variant};

use super::alike::{Form, Likeness, same_length};
use super::foundations::matched;
use super::{Change, CutChange, Pairs, Piece};

/// Adds all pieces that are cut otherwise.
pub(super) fn compare(was: &Model, now: &Model, pairs: &Pairs, changes: &mut Vec<Change>) {
    for (block, pair) in pairs.blocks.iter().enumerate() {
        let (before, after) = (pair.was.and_then(|at| was.blocks.get(at)), pair.now.and_then(|at| now.blocks.get(at)));
        for &(a, b) in &pair.variants {
            let old = before.zip(a).and_then(|(block, at)| Some((block, block.variants.get(at)?)));
            let new = after.zip(b).and_then(|(block, at)| Some((block, block.variants.get(at)?)));
            let sewn = |found: &(&Block, &Variant)| found.1.sewn > 0;
            let (old, new) = (old.filter(sewn), new.filter(sewn));
            let Some(variant) = b.filter(|_| new.is_some()).or(a) else { continue };
            let of = |Found { section, was_section, strip, was, now }| {
                let number = |section: usize| section + 1;
                Change::Cut(CutChange {
                    block,
                    variant,
                    section: number(section),
                    was_section: was_section.map(number),
                    strip: strip.map(number),
                    was,
                    now,
                })
            };
            changes.extend(of_foundation(old, new, pairs).into_iter().map(of));
        }
    }
}

/// A piece that is cut otherwise, sections and strips counted from 0.
struct Found {
    section: usize,
    was_section: Option<usize>,
    strip: Option<usize>,
    was: Option<Piece>,
    now: Option<Piece>,
}

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
        let all = side.into_iter();
        let all = all.flat_map(|(_, variant)| variant.cuts.iter().map(|cut| (cut.clone(), piece(variant, cut))));
        all.collect::<Vec<(Cut, Piece)>>()
    };
    let (mut before, after) = (cuts(was), cuts(now));
    for (cut, piece) in after {
        let section = order.get(cut.section).copied().unwrap_or(usize::MAX);
        let is = |(other, _): &(Cut, Piece)| other.section == section && other.strip == cut.strip;
        // Of several turns of one section the same turn first.
        let nearest = before.iter().enumerate().filter(|(_, old)| is(old)).min_by(|(_, (a, _)), (_, (b, _))| {
            let off = |other: &Cut| (other.turn.to_degrees() - cut.turn.to_degrees()).abs();
            off(a).total_cmp(&off(b))
        });
        let old = nearest.map(|(at, _)| at).map(|at| before.remove(at));
        let is_as_it_was = old.as_ref().is_some_and(|(_, old)| {
            pairs.fabric_was(piece.fabric) == Some(old.fabric) && same_size(old, &piece) && old.count == piece.count
        });
        if !is_as_it_was {
            let was_section = old.as_ref().map(|(old, _)| old.section);
            let was = old.map(|(_, piece)| piece);
            found.push(Found { section: cut.section, was_section, strip: cut.strip, was, now: Some(piece) });
        }
    }
    found.extend(before.into_iter().map(|(cut, piece)| Found {
        section: cut.section,
        was_section: Some(cut.section),
        strip: cut.strip,
        was: Some(piece),
        now: None,
    }));
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
