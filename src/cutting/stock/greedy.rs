//! Quick plans: strip after strip from the highest piece on, each filled with what fits (Coffman, Garey, Johnson and Tarjan 1980).

use super::core::Core;
use super::price::Pattern;

/// Strips and how often each is cut.
pub(super) type Cut = Vec<(Pattern, u64)>;

/// The strips' heights together, in units of the core.
pub(super) fn length(core: &Core, cut: &Cut) -> u64 {
    cut.iter().map(|(pattern, times)| core.heights[pattern.height] * times).sum()
}

/// Cuts all pieces, the highest first, and each strip as often as its pieces last.
pub(super) fn greedy(core: &Core, counts: &[u64]) -> Cut {
    let mut left = counts.to_vec();
    let mut cut = Cut::new();
    // Kinds stand by falling height of their first way.
    while let Some(kind) = (0..left.len()).find(|&kind| left[kind] > 0) {
        let height = core.kinds[kind].ways.first().map_or(0, |way| way.from);
        let first = Pattern { height, pieces: vec![(kind, 1)] };
        let pattern = filled(core, first, &left);
        cut.push(take(&mut left, pattern, u64::MAX));
    }
    cut
}

/// Puts what fits of the pieces left into the room that a strip has, the highest first.
pub(super) fn filled(core: &Core, mut pattern: Pattern, left: &[u64]) -> Pattern {
    let mut room = pattern.room(core);
    let mut kinds: Vec<(usize, usize)> = (0..left.len())
        .filter(|&kind| left[kind] > 0 && core.kinds[kind].width_at(pattern.height).is_some())
        .map(|kind| (core.kinds[kind].lowest_at(pattern.height), kind))
        .collect();
    kinds.sort_unstable_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(&b.1)));
    for (_, kind) in kinds {
        let Some(width) = core.kinds[kind].width_at(pattern.height).filter(|width| *width <= room) else { continue };
        let used = pattern.pieces.iter().find(|piece| piece.0 == kind).map_or(0, |piece| piece.1);
        let count = room.checked_div(width).unwrap_or(u64::MAX).min(left[kind].saturating_sub(used));
        if count > 0 {
            room -= count * width;
            match pattern.pieces.iter_mut().find(|piece| piece.0 == kind) {
                Some(piece) => piece.1 += count,
                None => pattern.pieces.push((kind, count)),
            }
        }
    }
    pattern.pieces.sort_unstable();
    pattern
}

/// Takes the pieces of a strip from what is left, as often as they last and at most `times`.
pub(super) fn take(left: &mut [u64], pattern: Pattern, times: u64) -> (Pattern, u64) {
    let lasts = pattern.pieces.iter().map(|&(kind, count)| left[kind] / count.max(1)).min().unwrap_or(0);
    let times = times.min(lasts);
    for &(kind, count) in &pattern.pieces {
        left[kind] -= count * times;
    }
    (pattern, times)
}
