//! How much a source may ask for: what a few words multiply is bounded before it is made.

/// After so many faults a source is not looked through any further.
pub const MOST_FAULTS: usize = 1_000;

/// Further sizes of a pattern at the most.
pub const MOST_SIZES: usize = 20;

/// Sections that are drawn in all blocks at the most.
const MOST_SECTIONS: usize = 100_000;

/// Places in all blocks at the most.
const MOST_PLACES: usize = 20_000;

/// Pieces of fabric in all copies of all blocks at the most.
pub const MOST_PIECES: u64 = 500_000;

/// What the blocks of a pattern have come to so far.
#[derive(Debug, Default)]
pub struct Spent {
    sections: usize,
    places: usize,
    pieces: u64,
}

/// What there is too much of, as a fault says it, and how much there may be.
pub type TooMuch = (&'static str, u32);

impl Spent {
    /// Adds the sections of a unit; too much is told once.
    pub fn sections(&mut self, more: usize) -> Option<TooMuch> {
        Self::add(&mut self.sections, more, MOST_SECTIONS, "the number of sections in all units")
    }

    /// Adds the places of a block; too much is told once.
    pub fn places(&mut self, more: usize) -> Option<TooMuch> {
        Self::add(&mut self.places, more, MOST_PLACES, "the number of places in all blocks")
    }

    /// Adds the pieces of a block with all its copies; if that is too much for the first time, tells how many they are together.
    pub fn pieces(&mut self, more: u64) -> Option<u64> {
        let before = self.pieces;
        self.pieces = before.saturating_add(more);
        (before <= MOST_PIECES && self.pieces > MOST_PIECES).then_some(self.pieces)
    }

    /// Whether it was too much already.
    pub const fn over(&self) -> bool {
        self.sections > MOST_SECTIONS || self.places > MOST_PLACES || self.pieces > MOST_PIECES
    }

    fn add(spent: &mut usize, more: usize, most: usize, what: &'static str) -> Option<TooMuch> {
        let before = *spent;
        *spent = before.saturating_add(more);
        (before <= most && *spent > most).then(|| (what, u32::try_from(most).unwrap_or(u32::MAX)))
    }
}
