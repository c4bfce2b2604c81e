//! Between whole numbers and floats, and the fixed generator of numbers that look random.
//!
//! Floats only guide the search. Every whole number that becomes one lies below 2^53, where floats are exact; what is claimed of a plan is reckoned in
//! whole numbers.

/// A whole number as a float.
#[expect(clippy::cast_precision_loss, reason = "what is put here lies below 2^53")]
pub(super) fn float(number: u64) -> f64 {
    number as f64
}

/// The whole part of a float; nothing for what is no number or below nothing.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "floats saturate")]
pub(super) fn whole(number: f64) -> u64 {
    number.max(0.0) as u64
}

/// A count or a length of a slice.
pub(super) fn size(number: u64) -> usize {
    usize::try_from(number).unwrap_or(usize::MAX)
}

/// A length of a slice as a number.
pub(super) fn number(size: usize) -> u64 {
    u64::try_from(size).unwrap_or(u64::MAX)
}

/// The greatest common divisor; of nothing and a number, the number.
pub(super) fn common(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { common(b, a % b) }
}

/// Puts what is counted into order, equal things together.
pub(super) fn merge<T: Ord, N: Ord + Copy + std::ops::AddAssign>(counted: &mut Vec<(T, N)>) {
    counted.sort_unstable();
    counted.dedup_by(|later, first| {
        let same = later.0 == first.0;
        if same {
            first.1 += later.1;
        }
        same
    });
}

/// Numbers that look random and are the same at every run (Steele, Lea and Flood 2014, `SplitMix64`).
#[derive(Debug, Clone)]
pub(super) struct Dice(pub u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let a = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let b = (a ^ (a >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        b ^ (b >> 31)
    }

    /// From 0 to below 1.
    pub fn roll(&mut self) -> f64 {
        float(self.next() >> 11) / float(1 << 53)
    }

    /// A place in a slice of this length; 0 in an empty one.
    pub fn below(&mut self, length: usize) -> usize {
        size(self.next() % number(length).max(1))
    }
}

/// What work is left, counted in steps of about a nanosecond each.
#[derive(Debug, Clone)]
pub(super) struct Steps {
    left: u64,
}

impl Steps {
    pub fn new(left: u64) -> Self {
        Self { left }
    }

    pub fn take(&mut self, steps: usize) {
        self.left = self.left.saturating_sub(number(steps));
    }

    pub fn are_left(&self) -> bool {
        self.left > 0
    }

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
