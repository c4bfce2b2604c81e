//! The end of a join from which lengths along it are told, in words and in figures alike.

use super::words::Words;
use crate::geometry::{Point, Segment};
use crate::model::{Join, JoinKind};

/// What the end of a join is called, as seen from the front.
pub(super) type EndWord = fn(&Words) -> String;

/// The place of that end, and what it is called: the upper one of a join that is rather upright, else the one where the seam starts; of a partial seam the
/// one where its first part begins.
pub(super) fn measured_from(join: &Join) -> (Point, EndWord) {
    if let JoinKind::Partial { first, .. } = join.kind {
        return (first.start, end_word(join, first.start));
    }
    let run = join.seam.end - join.seam.start;
    if run.y.abs() >= run.x.abs() {
        let upper = if run.y < 0.0 { join.seam.end } else { join.seam.start };
        (upper, Words::join_end_upper)
    } else if run.x >= 0.0 {
        (join.seam.start, Words::join_end_left)
    } else {
        (join.seam.start, Words::join_end_right)
    }
}

/// What the end of a join is called that is nearest to a place.
pub(super) fn end_word(join: &Join, place: Point) -> EndWord {
    let other = other_end(join, place);
    let this = other_end(join, other);
    let run = this - other;
    match (run.y.abs() >= run.x.abs(), run.y < 0.0, run.x < 0.0) {
        (true, true, _) => Words::join_end_upper,
        (true, false, _) => Words::join_end_lower,
        (_, _, true) => Words::join_end_left,
        _ => Words::join_end_right,
    }
}

/// The end of a join that is farther from a place.
pub(super) fn other_end(join: &Join, place: Point) -> Point {
    let Segment { start, end } = join.seam;
    if place.distance(start) < place.distance(end) { end } else { start }
}

#[cfg(test)]
mod tests {
    use super::measured_from;
    use crate::geometry::{Point, Segment};
    use crate::model::{Join, JoinKind, Press};
    use crate::packet::words::Words;

    #[test]
    fn lengths_are_told_from_the_end_that_is_named() {
        let join = |from: (f64, f64), to: (f64, f64)| Join {
            kind: JoinKind::Straight,
            name: None,
            left: vec![0],
            right: vec![1],
            seam: Segment::new(Point::new(from.0, from.1), Point::new(to.0, to.1)),
            press: Press::Open,
            press_stated: false,
            match_points: Vec::new(),
            tips: Vec::new(),
            notes: Vec::new(),
            own_step: None,
        };
        let words = Words::english();
        // Upright joins run upward: y runs down, so the upper end is where they end.
        let (at, called) = measured_from(&join((4.0, 8.0), (4.0, 0.0)));
        assert_eq!((at, called(&words).as_str()), (Point::new(4.0, 0.0), "upper"));
        let (at, called) = measured_from(&join((0.0, 3.0), (8.0, 3.0)));
        assert_eq!((at, called(&words).as_str()), (Point::new(0.0, 3.0), "left"));
        let (at, called) = measured_from(&join((8.0, 3.0), (0.0, 2.0)));
        assert_eq!((at, called(&words).as_str()), (Point::new(8.0, 3.0), "right"));
    }
}
