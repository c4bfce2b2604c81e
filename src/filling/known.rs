//! What was found out about sheets: which numbers of shapes lie on a page together, and which were tried in vain.

use std::collections::BTreeMap;

use super::core::{Core, Item};
use super::number::{Dice, long};

/// A page with known numbers of shapes on it counts as full as this.
const LAID: f64 = 0.75;
/// A page tried in vain counts as so much fuller each time.
const VAIN: f64 = 0.02;

/// What is known of pages, by the numbers of shapes on them.
#[derive(Debug, Clone, Default)]
pub(super) struct Known {
    /// A number for each shape; a page has the sum of those of its items as its key.
    keys: Vec<u64>,
    laid: BTreeMap<u64, Vec<Item>>,
    vain: BTreeMap<u64, u32>,
}

impl Known {
    pub fn new(core: &Core) -> Self {
        let keys = (0..core.copies.len()).map(|shape| Dice(long(shape)).next()).collect();
        Self { keys, ..Self::default() }
    }

    /// The key of so many of a shape; keys are added, wrapping.
    pub fn key(&self, shape: usize, count: u32) -> u64 {
        self.keys[shape].wrapping_mul(u64::from(count))
    }

    /// The key of a page.
    pub fn page(&self, counts: &[u32]) -> u64 {
        counts.iter().enumerate().fold(0, |sum: u64, (shape, &count)| sum.wrapping_add(self.key(shape, count)))
    }

    /// How full a page counts by what is known.
    pub fn fill(&self, key: u64, fill: f64) -> f64 {
        if self.laid.contains_key(&key) {
            return fill.min(LAID);
        }
        let vain = self.vain.get(&key).copied().unwrap_or(0);
        fill + VAIN * f64::from(vain)
    }

    /// How a page was laid.
    pub fn laid(&self, counts: &[u32]) -> Option<&Vec<Item>> {
        self.laid.get(&self.page(counts))
    }

    /// Remembers a page that was laid.
    pub fn learn(&mut self, counts: &[u32], items: &[Item]) {
        let key = self.page(counts);
        self.vain.remove(&key);
        self.laid.entry(key).or_insert_with(|| items.to_vec());
    }

    /// Remembers a page tried in vain.
    pub fn miss(&mut self, counts: &[u32]) {
        let key = self.page(counts);
        if !self.laid.contains_key(&key) {
            *self.vain.entry(key).or_insert(0) += 1;
        }
    }
}
