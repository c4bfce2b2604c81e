//! Lengths that can be: every length is a sum of heights of strips.

use super::core::Core;
use super::number::{Steps, number, size};

/// The most cells of a table of lengths, times heights.
const CELLS: u64 = 20_000_000;

/// The least sum of heights of strips that is no less than `bound`, if it is less than `length`; else `length`.
///
/// One of the strips is at least as high as the piece that is highest when all lie flat. Where the table would grow too large, `bound` itself.
pub(super) fn raised(core: &Core, bound: u64, length: u64, steps: &mut Steps) -> u64 {
    let lengths = length + 1;
    if bound >= length || lengths.saturating_mul(number(core.heights.len())) > CELLS {
        return bound;
    }
    let flat = core.kinds.iter().filter_map(|kind| Some(kind.ways.first()?.from)).max().unwrap_or(0);
    let mut reached = vec![false; size(lengths)];
    for &height in core.heights.iter().skip(flat) {
        if let Some(cell) = reached.get_mut(size(height)) {
            *cell = true;
        }
    }
    for &height in &core.heights {
        let height = size(height);
        for sum in height..reached.len() {
            if reached[sum - height] {
                reached[sum] = true;
            }
        }
        steps.take(reached.len());
    }
    (bound..length).find(|&sum| reached[size(sum)]).unwrap_or(length)
}
