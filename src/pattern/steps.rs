//! Numbers and corners in grid steps, in words for faults and as a source states them.

use crate::fault::sections::Extent;
use crate::geometry::{Point, Polygon};

/// A number as a designer would write it: a whole or mixed fraction of up to sixteenths where it is one, else three decimals.
#[must_use]
pub fn number_words(number: f64) -> String {
    let rounded = (number * 1_000.0).round() / 1_000.0;
    for denominator in [1_u32, 2, 3, 4, 8, 16] {
        let parts = number * f64::from(denominator);
        if (parts - parts.round()).abs() < 1e-6 * f64::from(denominator) && parts.abs() < 1e9 {
            #[expect(clippy::cast_possible_truncation, reason = "bounded just above")]
            let parts = parts.round() as i64;
            let denominator = i64::from(denominator);
            let (whole, rest) = (parts.abs() / denominator, parts.abs() % denominator);
            let sign = if parts < 0 { "-" } else { "" };
            return match (whole, rest) {
                (whole, 0) => format!("{sign}{whole}"),
                (0, rest) => format!("{sign}{rest}/{denominator}"),
                (whole, rest) => format!("{sign}{whole} {rest}/{denominator}"),
            };
        }
    }
    format!("{rounded}")
}

/// A place as a designer would write it.
#[must_use]
pub fn corner_words(point: Point) -> String {
    format!("{}, {}", number_words(point.x), number_words(point.y))
}

/// A distance in steps: `3 1/2 steps`, but `1 step` and `1/2 step`.
#[must_use]
pub fn steps_words(distance: f64) -> String {
    let number = number_words(distance);
    let one = number == "1" || (number.contains('/') && !number.contains(' '));
    if one { format!("{number} step") } else { format!("{number} steps") }
}

/// Where some area is and how large.
#[must_use]
pub fn extent_words(parts: &[Polygon]) -> Extent {
    let boxes = parts.iter().map(Polygon::bounds);
    let (from, to) = boxes.fold(
        (Point::new(f64::INFINITY, f64::INFINITY), Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY)),
        |(from, to), (a, b)| (Point::new(from.x.min(a.x), from.y.min(a.y)), Point::new(to.x.max(b.x), to.y.max(b.y))),
    );
    let largest = parts.iter().max_by(|a, b| a.area().total_cmp(&b.area()));
    Extent {
        middle: largest.map_or_else(String::new, |part| corner_words(part.centroid())),
        size: format!("{} x {}", number_words(to.x - from.x), number_words(to.y - from.y)),
    }
}

/// A corner as a source states it, in steps to a millionth: `4, 2.5`.
#[must_use]
pub fn corner_source(corner: Point) -> String {
    let number = |value: f64| {
        let digits = format!("{value:.6}");
        let digits = digits.trim_end_matches('0').trim_end_matches('.');
        if digits == "-0" { String::from("0") } else { digits.to_owned() }
    };
    format!("{}, {}", number(corner.x), number(corner.y))
}

#[cfg(test)]
mod tests {
    use super::number_words;

    #[test]
    fn numbers_read_as_a_designer_writes_them() {
        for (number, words) in [
            (3.0, "3"),
            (0.5, "1/2"),
            (2.75, "2 3/4"),
            (-1.5, "-1 1/2"),
            (0.0, "0"),
            (1.0 / 3.0, "1/3"),
            (0.123_4, "0.123"),
        ] {
            assert_eq!(number_words(number), words);
        }
    }
}
