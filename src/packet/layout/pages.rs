//! Slabs to pages: where to break, so that no heading stands alone and no page holds only two lines.

use super::slab::Slab;

/// A page at the end of a run that holds less than this is given more from the page before, in inches.
const LEAST: f64 = 1.6;

/// Which slabs stand on which page: the index of the first of each page. O(n).
///
/// Slabs that keep the next stay with it as long as together they fit a page of this height; a slab higher than a page stands on one of its own.
#[must_use]
pub fn broken(slabs: &[Slab], height: f64) -> Vec<usize> {
    let chains = chains(slabs);
    let mut starts = Vec::new();
    // Which chains begin a page, so that the last break can be moved.
    let mut chain_starts: Vec<usize> = Vec::new();
    let mut y = f64::INFINITY;
    for (number, &(from, to)) in chains.iter().enumerate() {
        let first_before = slabs[from].before;
        let whole = extent(&slabs[from..to], false);
        if y + first_before + whole <= height + 1e-9 {
            y += first_before + whole;
            continue;
        }
        starts.push(from);
        chain_starts.push(number);
        y = head_height(&slabs[from]) + whole;
        if y > height + 1e-9 {
            // A chain longer than a page is broken where it must be.
            y = head_height(&slabs[from]);
            for (index, slab) in slabs.iter().enumerate().take(to).skip(from) {
                let before = if index == from { 0.0 } else { slab.before };
                if index > from && y + before + slab.height > height + 1e-9 {
                    starts.push(index);
                    y = head_height(slab) + slab.height;
                } else {
                    y += before + slab.height;
                }
            }
        }
    }
    even_out(slabs, &chains, &chain_starts, height, &mut starts);
    starts
}

/// Moves the last break up where the last page would hold next to nothing.
fn even_out(slabs: &[Slab], chains: &[(usize, usize)], chain_starts: &[usize], height: f64, starts: &mut [usize]) {
    let (Some(&last), Some(&[before, _])) = (starts.last(), starts.get(starts.len().saturating_sub(2)..)) else {
        return;
    };
    if chain_starts.last().and_then(|&chain| chains.get(chain)).map(|chain| chain.0) != Some(last) {
        return;
    }
    let mut at = last;
    while extent(&slabs[at..], true) < LEAST {
        let Some(&(from, _)) = chains.iter().find(|&&(_, to)| to == at) else { return };
        // The page before keeps at least as much.
        if from <= before || extent(&slabs[before..from], true) < LEAST || extent(&slabs[from..], true) > height {
            return;
        }
        at = from;
    }
    if let Some(start) = starts.last_mut() {
        *start = at;
    }
}

/// Runs of slabs that want to stand together.
fn chains(slabs: &[Slab]) -> Vec<(usize, usize)> {
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

/// The height of slabs one below the other, without the white above the first; with its head where it begins a page.
fn extent(slabs: &[Slab], begins_page: bool) -> f64 {
    let before: f64 = slabs.iter().skip(1).map(|slab| slab.before).sum();
    let heads = if begins_page { slabs.first().map_or(0.0, head_height) } else { 0.0 };
    heads + before + slabs.iter().map(|slab| slab.height).sum::<f64>()
}

/// The height of what is set above a slab again where a page begins with it.
#[must_use]
pub fn head_height(slab: &Slab) -> f64 {
    slab.head.as_ref().map_or(0.0, |head| head.height)
}

#[cfg(test)]
mod tests {
    use super::broken;
    use crate::packet::layout::slab::Slab;

    fn slab(height: f64, keeps_next: bool) -> Slab {
        Slab { height, keeps_next, before: 0.1, ..Slab::default() }
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
}
