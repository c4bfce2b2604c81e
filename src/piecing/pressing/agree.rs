//! Joins pressed so that match points nest, one after the other as long as none contradicts another.
//!
//! A match point nests when all allowances of its left side point one way and all of its right side the other: each two of them are asked to point
//! alike or to differ, whatever is pressed. So what one match point asks ties joins together, each to be pressed like another or unlike it. Where all
//! match points of a group can be tied without contradiction, all nest, and every pressing with which all nest keeps these ties: no other is better,
//! however wide the graph. Where some contradict, what is found is a good start to go on from.

use super::meetings::{Known, Meeting};
use crate::piecing::Press;

/// Things tied to each other, alike or unlike.
struct Ties {
    /// What each hangs on, and whether it is unlike that.
    on: Vec<(usize, bool)>,
}

impl Ties {
    /// On what one hangs in the end, and whether it is unlike that.
    fn root(&self, mut one: usize) -> (usize, bool) {
        let mut unlike = false;
        while self.on[one].0 != one {
            unlike ^= self.on[one].1;
            one = self.on[one].0;
        }
        (one, unlike)
    }

    /// Ties two, if that contradicts nothing. Of two roots the lower stays one.
    fn tie(&mut self, a: usize, b: usize, unlike: bool) -> bool {
        let ((a, a_unlike), (b, b_unlike)) = (self.root(a), self.root(b));
        let unlike = unlike ^ a_unlike ^ b_unlike;
        if a == b {
            return !unlike;
        }
        self.on[a.max(b)] = (a.min(b), unlike);
        true
    }
}

/// Whether each of `free` joins is pressed to its right so that one match point after the other nests, and whether all do.
///
/// `choice` tells which of the free joins a join is; the others are pressed as `press` says. What the ties leave open, goes toward the darker side:
/// `darker` tells for each free join how much is won by pressing it to its right; below zero, to its left. O((joins + match points) × depth of ties).
pub fn agree<'m>(
    meetings: impl Iterator<Item = &'m Meeting>,
    choice: &impl Fn(usize) -> Option<usize>,
    press: &impl Fn(usize) -> Press,
    darker: &[i64],
) -> (Vec<bool>, bool) {
    // The first is what points along whatever is pressed; then the free joins, pressed to their right.
    let mut ties = Ties { on: (0..=darker.len()).map(|one| (one, false)).collect() };
    let mut all = true;
    for meeting in meetings {
        let sides = meeting.sides.iter().zip([false, true]);
        let asked = sides.flat_map(|(side, right)| {
            side.iter().filter_map(move |&known| {
                let (one, unlike) = match known {
                    Known::By(join, left_is_along) if choice(join).is_some() => (choice(join)? + 1, left_is_along),
                    _ => (0, !known.along(press)?),
                };
                Some((one, unlike ^ right))
            })
        });
        let asked: Vec<(usize, bool)> = asked.collect();
        for pair in asked.windows(2) {
            all &= ties.tie(pair[0].0, pair[1].0, pair[0].1 ^ pair[1].1);
        }
    }
    // What pressing each root to its right wins for all that hang on it.
    let mut won = vec![0_i64; darker.len() + 1];
    for (join, &wish) in darker.iter().enumerate() {
        let (root, unlike) = ties.root(join + 1);
        won[root] = won[root].saturating_add(if unlike { -wish } else { wish });
    }
    let right = (1..=darker.len()).map(|one| {
        let (root, unlike) = ties.root(one);
        (root == 0 || won[root] > 0) ^ unlike
    });
    (right.collect(), all)
}
