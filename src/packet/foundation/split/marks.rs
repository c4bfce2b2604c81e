//! The crosses by which lapped parts are laid on each other: at least two to every lap, with a letter of their own.

use crate::geometry::{Point, Segment};

use super::faults::Drawn;
use super::{Lap, Split};

/// Lower case, as the marks of foundations are capitals; without letters that are read as digits or as crosses.
const LETTERS: [char; 21] =
    ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'j', 'k', 'm', 'n', 'p', 'q', 'r', 's', 'u', 'v', 'w', 'y', 'z'];
/// Laps longer than this have a third cross, in inches.
const LONG: f64 = 7.0;
/// Crosses stand on no shorter stretch than this where there is a longer one, in inches.
const SHORT: f64 = 0.9;
/// How far a cross keeps from seams where it can, and from the ends of its stretch, in inches.
const CLEAR: f64 = 0.14;
/// Of the stretch that two parts alone show, crosses are sought on what lies within the allowance, in inches.
const ALLOWANCE: f64 = 0.35;

/// Gives every lap its crosses.
pub(super) fn mark(split: &mut Split, drawn: &Drawn) {
    let mut letters = (0..).map(letter);
    for lap in 0..split.laps.len() {
        let marks = places(stretch(split, lap), &drawn.seams).into_iter().zip(&mut letters).collect();
        split.laps[lap].marks = marks;
    }
}

/// The n-th letter; after the last they begin anew with a number.
fn letter(n: usize) -> String {
    let letter = LETTERS[n % LETTERS.len()];
    if n < LETTERS.len() { letter.to_string() } else { format!("{letter}{}", n / LETTERS.len() + 1) }
}

/// Where the crosses of a lap stand: on what of its middle its two parts alone show, on all of its middle where that is short, and slantwise across the
/// strip where that is short too.
fn stretch(split: &Split, lap: usize) -> Segment {
    let Lap { middle, strip, .. } = &split.laps[lap];
    let corners = strip.corners();
    let pairs = (0..corners.len()).flat_map(|i| (0..i).map(move |j| Segment::new(corners[i], corners[j])));
    let slantwise = pairs.max_by(|a, b| a.length().total_cmp(&b.length())).unwrap_or(*middle);
    [alone(split, lap), *middle].into_iter().find(|stretch| stretch.length() >= SHORT).unwrap_or(slantwise)
}

/// The longest stretch of a lap's middle that its two parts alone show.
fn alone(split: &Split, lap: usize) -> Segment {
    const STEPS: u16 = 64;
    let lap = &split.laps[lap];
    let at = |k: u16| lap.middle.start.along(lap.middle.end, f64::from(k) / f64::from(STEPS));
    let others = || split.parts.iter().enumerate().filter(|(k, _)| *k != lap.below && *k != lap.above);
    let (mut best, mut begun): (Option<(u16, u16)>, Option<u16>) = (None, None);
    for k in 0..=STEPS {
        if others().all(|(_, part)| part.distance_outside(at(k)) > 0.0) {
            let from = *begun.get_or_insert(k);
            if best.is_none_or(|(a, b)| k - from > b - a) {
                best = Some((from, k));
            }
        } else {
            begun = None;
        }
    }
    best.map_or(lap.middle, |(from, to)| Segment::new(at(from), at(to)))
}

/// Two or three places along a stretch, clear of seams where there are such places.
fn places(stretch: Segment, seams: &[Segment]) -> Vec<Point> {
    let length = stretch.length().max(1e-6);
    // Within the allowance stand words; a short stretch is none too long without them.
    let end = if length > 4.0 * ALLOWANCE { ALLOWANCE } else { length * 0.2 };
    let shares: &[f64] = if length > LONG { &[0.2, 0.5, 0.8] } else { &[0.22, 0.78] };
    let distance = |at: Point| seams.iter().map(|seam| seam.distance(at)).fold(f64::INFINITY, f64::min);
    let mut found: Vec<Point> = Vec::new();
    for share in shares {
        let home = (length * share).clamp(end, length - end);
        let offsets = (0_u8..=12).flat_map(|k| [1.0, -1.0].map(|sign| sign * f64::from(k) * 0.1));
        let tried = offsets.map(|offset| home + offset).filter(|&at| at >= end - 1e-9 && at <= length - end + 1e-9);
        let tried = tried.map(|at| stretch.start.along(stretch.end, at / length));
        // Crosses near each other hold a part no better than one.
        let apart = (length * 0.4).min(0.8);
        let mut best: Option<(f64, Point)> = None;
        for at in tried.filter(|at| found.iter().all(|other| other.distance(*at) > apart)) {
            let clear = distance(at).min(CLEAR);
            if best.is_none_or(|(most, _)| clear > most + 1e-9) {
                best = Some((clear, at));
            }
        }
        found.push(best.map_or_else(|| stretch.start.along(stretch.end, *share), |(_, at)| at));
    }
    found
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::{CLEAR, letter, places};
    use crate::geometry::{Point, Segment};

    #[test]
    fn letters_are_all_different() {
        let letters: BTreeSet<String> = (0..200).map(letter).collect();
        assert_eq!(letters.len(), 200);
        assert!(letters.iter().all(|letter| letter.chars().all(|c| !c.is_uppercase())));
    }

    #[test]
    fn crosses_keep_clear_of_seams_and_apart() {
        let stretch = Segment::new(Point::new(0.0, 0.0), Point::new(0.0, 4.0));
        let seams = [0.9, 3.1].map(|y| Segment::new(Point::new(-1.0, y), Point::new(1.0, y)));
        let found = places(stretch, &seams);
        assert_eq!(found.len(), 2);
        assert!(found.iter().all(|at| seams.iter().all(|seam| seam.distance(*at) >= CLEAR)), "{found:?}");
        assert!(found[0].distance(found[1]) > 1.0);
        assert_eq!(places(Segment::new(Point::new(0.0, 0.0), Point::new(9.0, 0.0)), &[]).len(), 3);
        assert_eq!(places(Segment::new(Point::new(0.0, 0.0), Point::new(0.3, 0.0)), &[]).len(), 2);
    }
}
