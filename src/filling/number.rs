//! Counted work, the fixed generator of numbers that look random, and casts between counts.

/// A count as an index.
pub(super) fn size(number: u32) -> usize {
    usize::try_from(number).unwrap_or(usize::MAX)
}

/// An index as a count.
pub(super) fn count(size: usize) -> u32 {
    u32::try_from(size).unwrap_or(u32::MAX)
}

/// A length of a slice as steps.
pub(super) fn long(size: usize) -> u64 {
    u64::try_from(size).unwrap_or(u64::MAX)
}

/// An index as a float.
pub(super) fn float(size: usize) -> f64 {
    f64::from(count(size))
}

/// The whole part of a float; nothing for what is no number or below nothing.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "floats saturate")]
pub(super) fn whole(number: f64) -> u32 {
    number.max(0.0) as u32
}

/// Numbers that look random and are the same at every run (Steele, Lea and Flood 2014, `SplitMix64`).
#[derive(Debug, Clone)]
pub(super) struct Dice(pub u64);

impl Dice {
    /// A number of 64 bits.
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let a = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let b = (a ^ (a >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        b ^ (b >> 31)
    }

    /// From 0 to below 1.
    #[expect(clippy::cast_precision_loss, reason = "53 bits fit")]
    pub fn roll(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A place in a slice of this length; 0 in an empty one.
    pub fn below(&mut self, length: usize) -> usize {
        usize::try_from(self.next() % long(length).max(1)).unwrap_or(0)
    }
}

impl Dice {
    /// Puts a list into an order by chance (Fisher and Yates).
    pub fn shuffle<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            let other = self.below(last + 1);
            list.swap(last, other);
        }
    }
}

/// What work is left, counted in steps of about a nanosecond each.
#[derive(Debug, Clone)]
pub(super) struct Steps {
    left: u64,
}

impl Steps {
    /// So much work.
    pub fn new(left: u64) -> Self {
        Self { left }
    }

    /// Counts work that was done.
    pub fn take(&mut self, steps: usize) {
        self.left = self.left.saturating_sub(long(steps));
    }

    /// Whether any are left.
    pub fn are_left(&self) -> bool {
        self.left > 0
    }

    /// How many are left.
    pub fn left(&self) -> u64 {
        self.left
    }

    /// Parts with a share of what is left, to be given back with [`Steps::rejoin`].
    pub fn split(&mut self, most: u64) -> Self {
        let part = self.left.min(most);
        self.left -= part;
        Self { left: part }
    }

    pub fn rejoin(&mut self, part: &Self) {
        self.left += part.left;
    }
}
