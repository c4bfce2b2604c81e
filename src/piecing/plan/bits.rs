//! Sets of patches as bits.

use std::hash::{Hash, Hasher};

/// A set of the numbers below 64 × `W`.
#[derive(Debug, Clone, Copy)]
pub struct Bits<const W: usize>([u64; W]);

// Compared and hashed word by word in place: the search does little else, and the derived code calls out for it.
impl<const W: usize> PartialEq for Bits<W> {
    #[inline]
    fn eq(&self, other: &Self) -> bool {
        (0..W).fold(0, |differ, word| differ | (self.0[word] ^ other.0[word])) == 0
    }
}

impl<const W: usize> Eq for Bits<W> {}

impl<const W: usize> Hash for Bits<W> {
    #[inline]
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.0.iter().for_each(|&word| state.write_u64(word));
    }
}

impl<const W: usize> Bits<W> {
    /// The empty set.
    pub const EMPTY: Self = Self([0; W]);

    /// The numbers below `count`.
    pub fn below(count: usize) -> Self {
        let mut all = Self::EMPTY;
        (0..count).for_each(|number| all.insert(number));
        all
    }

    /// Adds a number; numbers beyond the set are left out.
    pub fn insert(&mut self, number: usize) {
        if let Some(word) = self.0.get_mut(number / 64) {
            *word |= 1 << (number % 64);
        }
    }

    /// Whether a number is in it.
    #[inline]
    pub fn contains(&self, number: usize) -> bool {
        self.0.get(number / 64).is_some_and(|word| word & (1 << (number % 64)) != 0)
    }

    /// What is in both.
    #[inline]
    pub fn and(&self, other: &Self) -> Self {
        Self(std::array::from_fn(|word| self.0[word] & other.0[word]))
    }

    /// What is in this but not in the other.
    #[inline]
    pub fn without(&self, other: &Self) -> Self {
        Self(std::array::from_fn(|word| self.0[word] & !other.0[word]))
    }

    /// Whether they have something in common.
    #[inline]
    pub fn meets(&self, other: &Self) -> bool {
        self.0.iter().zip(&other.0).any(|(a, b)| a & b != 0)
    }

    /// Whether it is empty.
    #[inline]
    pub fn is_empty(&self) -> bool {
        self.0.iter().all(|&word| word == 0)
    }

    /// How many numbers are in it.
    #[inline]
    pub fn count(&self) -> u32 {
        self.0.iter().map(|word| word.count_ones()).sum()
    }

    /// The numbers in it, ascending.
    pub fn numbers(&self) -> impl Iterator<Item = usize> + '_ {
        self.0.iter().enumerate().flat_map(|(index, &word)| {
            let mut rest = word;
            std::iter::from_fn(move || {
                (rest != 0).then(|| {
                    let bit = rest.trailing_zeros() as usize;
                    rest &= rest - 1;
                    index * 64 + bit
                })
            })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::Bits;

    #[test]
    fn sets_do_what_sets_do() {
        let all = Bits::<2>::below(70);
        assert_eq!(all.count(), 70);
        let mut odd = Bits::<2>::EMPTY;
        (0..70).filter(|n| n % 2 == 1).for_each(|n| odd.insert(n));
        assert_eq!(all.without(&odd).count(), 35);
        assert_eq!(all.and(&odd), odd);
        assert!(!all.without(&odd).meets(&odd) && odd.meets(&all));
        assert_eq!(odd.numbers().collect::<Vec<_>>(), (0..70).filter(|n| n % 2 == 1).collect::<Vec<_>>());
        assert!(all.without(&all).is_empty());
    }
}
