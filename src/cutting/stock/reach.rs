//! Lengths that can be: every length is a sum of heights of strips.

use super::core::Core;
use super::number::{Steps, number, size};

/// The most cells of a table of lengths, times heights.
const CELLS: u64 = 20_000_000;

/// The lengths that can be, up to some length.
#[derive(Debug)]
pub(super) struct Reach {
    /// For each length whether it can be; none where the table would grow too large.
    reached: Vec<bool>,
}

impl Reach {
    /// Lengths less than this one. One of the strips is at least as high as the piece that is highest when all lie flat.
    pub fn new(core: &Core, length: u64, steps: &mut Steps) -> Self {
        if length.saturating_mul(number(core.heights.len())) > CELLS {
            return Self { reached: Vec::new() };
        }
        let flat = core.kinds.iter().filter_map(|kind| Some(kind.ways.first()?.from)).max().unwrap_or(0);
        let mut reached = vec![false; size(length)];
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
        Self { reached }
    }

    /// The least length that can be and is no less than `bound`, if it is less than `length`; else `length`.
    pub fn raised(&self, bound: u64, length: u64) -> u64 {
        if bound >= length || self.reached.is_empty() {
            return bound;
        }
        (bound..length).find(|&sum| self.reached.get(size(sum)) != Some(&false)).unwrap_or(length)
    }
}
