//! What the sewer has already: what can be cut from it, and what is short.

use crate::cutting::{Item, LaidStrip, strips};
use crate::geometry::Length;
use crate::model::{OwnCloth, Strip};
use crate::pattern::{OwnedPiece, Stock, fat_eighth, fat_quarter};

use super::Planner;

/// Into so many steps a length of cloth is divided when strips are chosen for it.
const STEPS: usize = 10_000;
/// Of so many strips at the most they are chosen.
const MOST_STRIPS: usize = 2_000;

impl Planner<'_> {
    /// What the sewer's own pieces of a fabric give, one after the other in the order of the source; none where there are none.
    pub(super) fn own_cloth(&self, fabric: usize) -> Option<OwnCloth> {
        let owned = self.pattern.owned.iter().filter(|owned| owned.fabric == fabric);
        let pieces: Vec<OwnedPiece> =
            owned.flat_map(|owned| std::iter::repeat_n(owned.piece, owned.count as usize)).collect();
        if pieces.is_empty() {
            return None;
        }
        let mut left = self.items.clone();
        let mut used = Vec::with_capacity(pieces.len());
        for piece in pieces {
            let (width, length) = self.usable(piece);
            let layout = strips(&left, width, self.budget());
            let fitting: Vec<&LaidStrip> = layout.strips.iter().filter(|strip| fits(&left, strip, width)).collect();
            let chosen = fullest(&left, &fitting, length);
            for laid in chosen.iter().flat_map(|strip| &strip.pieces) {
                left[laid.item].count = left[laid.item].count.saturating_sub(1);
            }
            used.push((piece, chosen.into_iter().map(|strip| self.told(strip, 0)).collect::<Vec<Strip>>()));
        }
        let enough = left.iter().all(|item| item.count == 0);
        let rest = Planner { items: left, of: self.of.clone(), ..*self };
        let planned = match self.stock {
            Stock::Bolt(widths) => rest.off_the_bolt(widths),
            Stock::FatQuarters | Stock::FatEighths => rest.in_sheets(),
        };
        Some(OwnCloth { used, short: (!enough).then_some(planned.buy), rest: planned.strips })
    }

    /// Usable width and length of an owned piece of cloth once it is washed and squared up.
    fn usable(&self, piece: OwnedPiece) -> (Length, Length) {
        let units = self.pattern.units;
        let (width, length) = match piece {
            OwnedPiece::Length(length) => {
                let width = match self.stock {
                    Stock::Bolt(widths) => widths.first().copied().unwrap_or(Length::inches(40.0)),
                    Stock::FatQuarters | Stock::FatEighths => fat_quarter(units).0 * 2.0,
                };
                (width, length - self.pattern.cloth.squaring)
            }
            OwnedPiece::FatQuarter => fat_quarter(units),
            OwnedPiece::FatEighth => fat_eighth(units),
            OwnedPiece::Scrap(width, length) => (width, length),
        };
        (width, (length / self.unwashed()).max(Length::ZERO))
    }
}

/// Whether a strip lies within cloth of this width: a single piece may be longer.
fn fits(items: &[Item], strip: &LaidStrip, width: Length) -> bool {
    strip.pieces.iter().all(|piece| {
        let item = &items[piece.item];
        let along = if piece.turned { item.height } else { item.width };
        (piece.x + along).to_inches() <= width.to_inches() + 1e-6
    })
}

/// Of these strips, those that lie one above the other within a length and hold the most cloth in pieces (0-1 knapsack by dynamic programming).
/// O(strips × steps).
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "steps are few, and clamped"
)]
fn fullest<'s>(items: &[Item], strips: &[&'s LaidStrip], length: Length) -> Vec<&'s LaidStrip> {
    let strips = strips.get(..MOST_STRIPS).unwrap_or(strips);
    let step = length.to_inches() / STEPS as f64;
    // A strip takes whole steps, rounded up, so that what is chosen does fit.
    let high = |strip: &LaidStrip| ((strip.width.to_inches() / step) - 1e-6).ceil().clamp(0.0, 1e9) as usize;
    let room = if step > 0.0 { STEPS } else { 0 };
    let area = |strip: &LaidStrip| -> f64 {
        strip.pieces.iter().map(|p| items[p.item].width.to_inches() * items[p.item].height.to_inches()).sum()
    };
    // The most area within so much length, and whether the last strip looked at is in it.
    let mut best = vec![0.0_f64; room + 1];
    let mut taken = vec![vec![false; room + 1]; strips.len()];
    for (strip, taken) in strips.iter().zip(&mut taken) {
        let (high, worth) = (high(strip), area(strip));
        for within in (high..=room).rev() {
            let with = best[within - high] + worth;
            if with > best[within] + 1e-9 {
                best[within] = with;
                taken[within] = true;
            }
        }
    }
    let (mut within, mut chosen) = (room, Vec::new());
    for (strip, taken) in strips.iter().zip(&taken).rev() {
        if taken[within] {
            chosen.push(*strip);
            within -= high(strip);
        }
    }
    chosen.reverse();
    chosen
}
