//! Slabs to pages: where to break, so that no heading stands alone and no page holds only two lines.

use super::slab::Slab;

/// A page that holds less than this is short, in inches.
const LEAST: f64 = 1.6;

/// What such a page costs, in pages.
const SHORT: u32 = 8;

/// Which slabs stand on which page: the index of the first of each page. Of all ways to break, one with the fewest pages and short pages, and of
/// these the one that fills the first pages most. O(n·k) with k slabs on a page.
///
/// Slabs that keep the next stay with it as long as together they fit a page of this height; a slab higher than a page stands on one of its own.
#[must_use]
pub fn broken(slabs: &[&Slab], height: f64) -> Vec<usize> {
    let chains = fitting(slabs, height);
    let mut best: Vec<(u32, usize)> = vec![(0, chains.len()); chains.len() + 1];
    for from in (0..chains.len()).rev() {
        let mut y = head_height(slabs[chains[from].0]);
        let mut least = (u32::MAX, from + 1);
        for to in from + 1..=chains.len() {
            let (first, end) = chains[to - 1];
            y += if to == from + 1 { 0.0 } else { slabs[first].before } + extent(&slabs[first..end]);
            if to > from + 1 && y > height + 1e-9 {
                break;
            }
            let cost = best[to].0.saturating_add(if y < LEAST { SHORT } else { 1 });
            if cost <= least.0 {
                least = (cost, to);
            }
        }
        best[from] = least;
    }
    let mut starts = Vec::new();
    let mut at = 0;
    while let Some(&(first, _)) = chains.get(at) {
        starts.push(first);
        at = best[at].1;
    }
    starts
}

/// Runs of slabs that want to stand together; those that do not fit a page are broken where they must be.
fn fitting(slabs: &[&Slab], height: f64) -> Vec<(usize, usize)> {
    let mut fitting = Vec::new();
    for (from, to) in chains(slabs) {
        let mut start = from;
        let mut y = head_height(slabs[from]);
        for (index, slab) in slabs.iter().enumerate().take(to).skip(from) {
            let more = if index == start { 0.0 } else { slab.before } + slab.height;
            if index > start && y + more > height + 1e-9 {
                fitting.push((start, index));
                start = index;
                y = head_height(slab) + slab.height;
            } else {
                y += more;
            }
        }
        fitting.push((start, to));
    }
    fitting
}

/// Runs of slabs that want to stand together.
fn chains(slabs: &[&Slab]) -> Vec<(usize, usize)> {
    let mut chains = Vec::new();
    let mut from = 0;
    for (index, slab) in slabs.iter().enumerate() {
        if !slab.keeps_next || index + 1 == slabs.len() {
            chains.push((from, index + 1));
            from = index + 1;
        }
    }
    chains
}

/// The height of slabs one below the other, without the white above the first.
fn extent(slabs: &[&Slab]) -> f64 {
    let before: f64 = slabs.iter().skip(1).map(|slab| slab.before).sum();
    before + slabs.iter().map(|slab| slab.height).sum::<f64>()
}

/// The height of what is set above a slab again where a page begins with it.
#[must_use]
pub fn head_height(slab: &Slab) -> f64 {
    slab.head.as_ref().map_or(0.0, |head| head.height)
}

#[cfg(test)]
mod tests {
    use crate::packet::layout::slab::Slab;

    fn slab(height: f64, keeps_next: bool) -> Slab {
        Slab { height, keeps_next, before: 0.1, ..Slab::default() }
    }

    fn broken(slabs: &[Slab], height: f64) -> Vec<usize> {
        super::broken(&slabs.iter().collect::<Vec<_>>(), height)
    }

    #[test]
    fn a_heading_goes_with_what_it_heads() {
        let slabs = [slab(7.0, false), slab(0.3, true), slab(2.0, false)];
        assert_eq!(broken(&slabs, 8.0), [0, 1]);
        assert_eq!(broken(&slabs, 10.0), [0]);
    }

    #[test]
    fn what_is_higher_than_a_page_is_broken_where_it_must_be() {
        let slabs: Vec<Slab> = (0..10).map(|_| slab(1.0, true)).collect();
        let starts = broken(&slabs, 4.5);
        assert_eq!(starts, [0, 4, 8]);
        assert_eq!(broken(&[slab(20.0, false), slab(1.0, false)], 4.5), [0, 1]);
    }

    #[test]
    fn the_last_page_holds_more_than_two_lines() {
        let slabs: Vec<Slab> = (0..9).map(|_| slab(1.0, false)).collect();
        // Eight fit; the ninth would stand alone.
        assert_eq!(broken(&slabs, 8.8), [0, 7]);
        assert_eq!(broken(&[], 8.8), [0; 0]);
    }

    #[test]
    fn no_page_in_the_middle_is_short_where_that_can_be_helped() {
        // Seven fit, but then one stands alone before what is high.
        let mut slabs: Vec<Slab> = (0..8).map(|_| slab(1.0, false)).collect();
        slabs.push(slab(7.5, false));
        assert_eq!(broken(&slabs, 7.7), [0, 6, 8]);
    }
}
