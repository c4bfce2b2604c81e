//! The best of all ways to settle a number of choices, by bucket elimination: R. Dechter, "Bucket elimination: a unifying framework for reasoning",
//! Artificial Intelligence 113 (1999).
//!
//! What is to be made as great as possible is a sum of factors, each of which looks at a few of the choices. One choice after the other is
//! eliminated: the factors that look at it are added up and replaced by one that tells, for all ways to settle the other choices they look at, the
//! best that can still be had. Read backward, the choices of that best are the answer. The tables stay small while the graph of choices that meet in
//! a factor is narrow.

use std::collections::BTreeSet;
use std::ops::Add;

/// The most other choices on which the choice that is eliminated may depend.
const MOST_WIDTH: usize = 16;

/// The most rows of all tables of one elimination together.
const MOST_ROWS: usize = 1 << 20;

/// What a way to settle the choices is worth: first how many match points nest, then how much is pressed toward the darker side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Worth {
    /// Match points that nest.
    pub nested: u32,
    /// Seam length times difference of lightness, in thousandths, of all joins that are pressed toward their darker side.
    pub darkness: u64,
}

impl Add for Worth {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self {
            nested: self.nested.saturating_add(other.nested),
            darkness: self.darkness.saturating_add(other.darkness),
        }
    }
}

/// A factor written out: row `r` is what it is worth where choice `scope[k]` is bit `k` of `r`.
struct Table {
    scope: Vec<usize>,
    rows: Vec<Worth>,
}

impl Table {
    /// Which row it is, where choice `k` of `among` is bit `k` of `row`. `among` holds all of the scope.
    fn row(places: &[usize], row: usize) -> usize {
        places.iter().enumerate().fold(0, |sum, (bit, &place)| sum | (row >> place & 1) << bit)
    }

    /// Where the choices of the scope stand in a list of choices.
    fn places(&self, among: &[usize]) -> Vec<usize> {
        self.scope.iter().filter_map(|choice| among.iter().position(|other| other == choice)).collect()
    }
}

/// A choice that is eliminated: the others on which it depends, and for all ways to settle these, whether it is best made.
struct Bucket {
    choice: usize,
    others: Vec<usize>,
    made: Vec<bool>,
}

/// How each of `count` choices is made so that the sum of the factors is greatest; none where the tables would outgrow their budget.
///
/// `scopes` tells for each factor the choices at which it looks, ascending; `worth` what a factor is worth, from its scope settled in this order. Of
/// ways that are worth the same the one is taken in which the choices eliminated last are not made. O(choices² + rows × factors of a choice).
pub fn best(count: usize, scopes: &[Vec<usize>], worth: impl Fn(usize, &[bool]) -> Worth) -> Option<Vec<bool>> {
    let order = order(count, scopes)?;
    let mut tables: Vec<Table> = scopes
        .iter()
        .enumerate()
        .map(|(factor, scope)| {
            let settled = |row: usize| (0..scope.len()).map(|bit| row >> bit & 1 == 1).collect::<Vec<bool>>();
            let rows = (0..1_usize << scope.len()).map(|row| worth(factor, &settled(row))).collect();
            Table { scope: scope.clone(), rows }
        })
        .collect();
    let mut buckets = Vec::with_capacity(count);
    for choice in order {
        let (concerned, rest): (Vec<Table>, Vec<Table>) =
            tables.into_iter().partition(|table| table.scope.contains(&choice));
        tables = rest;
        let looked_at: BTreeSet<usize> = concerned.iter().flat_map(|table| table.scope.iter().copied()).collect();
        let others: Vec<usize> = looked_at.into_iter().filter(|&other| other != choice).collect();
        // The choice itself is the highest bit.
        let mut among = others.clone();
        among.push(choice);
        let places: Vec<Vec<usize>> = concerned.iter().map(|table| table.places(&among)).collect();
        let sum = |row: usize| {
            let of = concerned.iter().zip(&places).map(|(table, places)| table.rows[Table::row(places, row)]);
            of.fold(Worth::default(), Add::add)
        };
        let half = 1_usize << others.len();
        let (mut rows, mut made) = (Vec::with_capacity(half), Vec::with_capacity(half));
        for row in 0..half {
            let (without, with) = (sum(row), sum(row | half));
            rows.push(without.max(with));
            made.push(with > without);
        }
        tables.push(Table { scope: others.clone(), rows });
        buckets.push(Bucket { choice, others, made });
    }
    let mut settled = vec![false; count];
    for bucket in buckets.iter().rev() {
        let row =
            bucket.others.iter().enumerate().fold(0, |sum, (bit, &other)| sum | usize::from(settled[other]) << bit);
        settled[bucket.choice] = bucket.made[row];
    }
    Some(settled)
}

/// The order of elimination: each time the choice that meets the fewest others, the first of equals. None where the tables would outgrow their budget.
fn order(count: usize, scopes: &[Vec<usize>]) -> Option<Vec<usize>> {
    let mut meets: Vec<BTreeSet<usize>> = vec![BTreeSet::new(); count];
    let mut rows = 0_usize;
    for scope in scopes {
        rows = rows.saturating_add(1_usize.checked_shl(u32::try_from(scope.len()).ok()?)?);
        if scope.len() > MOST_WIDTH + 1 || rows > MOST_ROWS {
            return None;
        }
        for &choice in scope {
            meets[choice].extend(scope.iter().copied().filter(|&other| other != choice));
        }
    }
    let mut left: BTreeSet<usize> = (0..count).collect();
    let mut order = Vec::with_capacity(count);
    while let Some(choice) = left.iter().copied().min_by_key(|&choice| meets[choice].len()) {
        let others = std::mem::take(&mut meets[choice]);
        rows += 1_usize.checked_shl(u32::try_from(others.len()).ok()?)?;
        if others.len() > MOST_WIDTH || rows > MOST_ROWS {
            return None;
        }
        for &other in &others {
            meets[other].extend(others.iter().copied().filter(|&third| third != other));
            meets[other].remove(&choice);
        }
        left.remove(&choice);
        order.push(choice);
    }
    Some(order)
}

#[cfg(test)]
mod tests {
    use super::{MOST_WIDTH, Worth, best};

    fn differ(nested: bool) -> Worth {
        Worth { nested: u32::from(nested), darkness: 0 }
    }

    #[test]
    fn a_ring_of_choices_that_should_differ_gives_up_one_where_it_is_odd() {
        for count in 3..9 {
            let scopes: Vec<Vec<usize>> = (0..count)
                .map(|k| {
                    let mut pair = vec![k, (k + 1) % count];
                    pair.sort_unstable();
                    pair
                })
                .collect();
            let made = best(count, &scopes, |_, pair| differ(pair[0] != pair[1])).unwrap();
            let differing = (0..count).filter(|&k| made[k] != made[(k + 1) % count]).count();
            assert_eq!(differing, count - count % 2);
        }
    }

    #[test]
    fn nesting_outweighs_any_darkness_and_darkness_decides_what_nesting_leaves() {
        let scopes = [vec![0, 1], vec![0], vec![1]];
        let worth = |factor: usize, made: &[bool]| match factor {
            0 => differ(made[0] != made[1]),
            1 => Worth { nested: 0, darkness: if made[0] { u64::MAX / 4 } else { 0 } },
            _ => Worth { nested: 0, darkness: if made[0] { u64::MAX / 2 } else { 0 } },
        };
        assert_eq!(best(2, &scopes, worth), Some(vec![false, true]));
    }

    #[test]
    fn what_meets_too_many_others_is_not_tried() {
        let all: Vec<usize> = (0..MOST_WIDTH + 2).collect();
        let nothing = |_: usize, _: &[bool]| Worth::default();
        assert_eq!(best(all.len(), std::slice::from_ref(&all), nothing), None);
        let pairs: Vec<Vec<usize>> = all.iter().flat_map(|&a| (a + 1..all.len()).map(move |b| vec![a, b])).collect();
        assert_eq!(best(all.len(), &pairs, nothing), None);
        assert!(best(all.len() - 1, &[all[..=MOST_WIDTH].to_vec()], nothing).is_some());
    }
}
