//! Which four-way meetings can be spun.
//!
//! "In a four-way meeting press the first two joins opposite ways; the last can then be spun": the few stitches of the first two that hold their
//! allowances are opened, and all allowances turn one way round. A meeting can be spun where
//!
//! - exactly four seams come together: the join itself, twice, and one earlier join from each side. A seam inside a unit is no such seam: its
//!   stitches stay in the paper of the unit, and its allowance lies caught under the newest piece. That of a join is free: the paper in it comes out
//!   before the join is pressed;
//! - the two earlier joins are pressed opposite ways, that is, they nest; neither they nor the join itself lie open;
//! - what turns over may turn over. Beyond the crossing the allowances of the join lie under its other side, up to the next meeting that is spun or to
//!   the end. They must not at a tip, if tips or the author have decided how the join is pressed, nor at an end where it meets others later, for there
//!   its pressing is counted on.
//!
//! So two meetings that are spun one after the other on a join turn opposite ways round. As many as possible are taken. An author who has stated the
//! pressing has stated how the join lies where nothing is spun.

use crate::geometry::{Line, Point};
use crate::piecing::Press;

use super::meetings::{Held, Meeting};

/// What a join is asked for its spins.
pub(super) struct Spinning<'a> {
    pub line: Line,
    pub press: Press,
    pub held: Held,
    /// Its tips, in order along it.
    pub tips: &'a [Point],
    /// Whether its start and its end lie at match points of later joins.
    pub met_later: [bool; 2],
}

/// A point of the join at which the side of its allowances matters.
enum Stop {
    /// It could be spun, by its index among the meetings: under `Press` before it, under the other side beyond.
    Meeting(usize, Press),
    /// There the allowances lie as they are pressed.
    Held,
}

/// Which of its meetings are spun. `fours` tells for each meeting whether just four seams come together there; `press` how each join is pressed.
pub(super) fn spins(
    spinning: &Spinning<'_>,
    meetings: &[Meeting],
    fours: &[bool],
    press: &impl Fn(usize) -> Press,
) -> Vec<bool> {
    let mut spun = vec![false; meetings.len()];
    if spinning.press == Press::Open {
        return spun;
    }
    let mut stops: Vec<(f64, Stop)> = Vec::new();
    for (index, (meeting, four)) in meetings.iter().zip(fours).enumerate() {
        // Where the left one points along the join, all turn clockwise: before it the join lies under its left side, beyond under its right.
        if let Some(along) = meeting.of_two_joins(press).filter(|_| *four && meeting.nests(press)) {
            let before = if along { Press::Left } else { Press::Right };
            stops.push((spinning.line.position(meeting.at), Stop::Meeting(index, before)));
        }
    }
    if spinning.held != Held::Free {
        stops.extend(spinning.tips.iter().map(|&tip| (spinning.line.position(tip), Stop::Held)));
    }
    stops.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut stops: Vec<Stop> = stops.into_iter().map(|(_, stop)| stop).collect();
    let [start, end] = spinning.met_later;
    if start {
        stops.insert(0, Stop::Held);
    }
    if end {
        stops.push(Stop::Held);
    }
    for index in most(&stops, spinning.press) {
        spun[index] = true;
    }
    spun
}

/// The most meetings that can be spun one after the other, in order.
fn most(stops: &[Stop], press: Press) -> Vec<usize> {
    // By the side under which the allowances lie by now: the meetings spun so far, if that can be.
    let sides = [press, other(press)];
    let mut ways: [Option<Vec<usize>>; 2] = [Some(Vec::new()), Some(Vec::new())];
    for stop in stops {
        match stop {
            Stop::Held => ways[1] = None,
            Stop::Meeting(index, before) => {
                let from = usize::from(*before != sides[0]);
                let Some(mut spun) = ways[from].clone() else { continue };
                spun.push(*index);
                let beyond = &mut ways[1 - from];
                if beyond.as_ref().is_none_or(|known| known.len() < spun.len()) {
                    *beyond = Some(spun);
                }
            }
        }
    }
    let [as_pressed, turned] = ways.map(Option::unwrap_or_default);
    if turned.len() > as_pressed.len() { turned } else { as_pressed }
}

fn other(press: Press) -> Press {
    match press {
        Press::Left => Press::Right,
        Press::Right => Press::Left,
        Press::Open => Press::Open,
    }
}

#[cfg(test)]
mod tests {
    use super::Press::{self, Left, Right};
    use super::{Stop, most};

    #[test]
    fn meetings_that_are_spun_one_after_the_other_turn_opposite_ways() {
        let stops = |befores: &[Press]| -> Vec<Stop> {
            befores.iter().enumerate().map(|(index, &before)| Stop::Meeting(index, before)).collect()
        };
        assert_eq!(most(&stops(&[Left, Right, Left]), Left), [0, 1, 2]);
        assert_eq!(most(&stops(&[Left, Left, Right]), Right).len(), 2);
        assert_eq!(most(&stops(&[Left, Left, Left]), Left).len(), 1);
    }

    #[test]
    fn what_must_lie_as_it_is_pressed_does() {
        let between = |before: Press| vec![Stop::Held, Stop::Meeting(0, before), Stop::Held];
        assert_eq!(most(&between(Left), Left), [0_usize; 0]);
        assert_eq!(most(&[Stop::Held, Stop::Meeting(0, Left)], Left), [0]);
        assert_eq!(most(&[Stop::Held, Stop::Meeting(0, Left)], Right), [0_usize; 0]);
        assert_eq!(most(&[Stop::Meeting(0, Left), Stop::Held], Right), [0]);
    }
}
