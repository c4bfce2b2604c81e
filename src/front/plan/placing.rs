//! How a source says where a unit stands that is drawn once and stands there again.

use crate::geometry::{Point, Transform, Vector};
use crate::pattern::corner_source;

/// Less than this is nothing, in steps or as a sine: what arithmetic leaves behind.
const NOTHING: f64 = 1e-7;
/// How far apart the points are by which a mirror line is given, in steps: near enough to lie in the drawing, far enough to give its direction.
const APART: f64 = 16.0;

/// The words after `place NAME` for a map of the plane that keeps lengths: `turned 90 deg about 4, 4`.
pub(super) fn placing(transform: Transform) -> String {
    let [a, b, .., e, f] = transform.to_matrix();
    let shift = Vector::new(e, f);
    if transform.is_mirroring() {
        return mirrored(Vector::new(a, b), shift);
    }
    if b.abs() < NOTHING && a > 0.0 {
        return moved(shift);
    }
    // The place that stays where it is: (1 - R) x = shift.
    let determinant = (1.0 - a) * (1.0 - a) + b * b;
    let about = Point::new(((1.0 - a) * e - b * f) / determinant, (b * e + (1.0 - a) * f) / determinant);
    let degrees = libm::atan2(b, a).to_degrees().rem_euclid(360.0);
    format!("turned {} deg about {}", number(degrees), corner_source(about))
}

/// A mirroring, and a shift along its line where it has one. `image` is where the mirroring sends the direction to the right.
fn mirrored(image: Vector, shift: Vector) -> String {
    let half = libm::atan2(image.y, image.x) / 2.0;
    let along = Vector::new(libm::cos(half), libm::sin(half));
    let across = along.quarter_turned();
    let foot = Point::default() + across * (shift.dot(across) / 2.0);
    let line = if along.x.abs() < NOTHING {
        format!("upright {}", number(foot.x))
    } else if along.y.abs() < NOTHING {
        format!("level {}", number(foot.y))
    } else {
        format!("{} -- {}", corner_source(foot), corner_source(foot + along * APART))
    };
    let rest = along * shift.dot(along);
    let after = if rest.length() < NOTHING { String::new() } else { format!(" {}", moved(rest)) };
    format!("mirrored over {line}{after}")
}

fn moved(by: Vector) -> String {
    format!("moved {}", corner_source(Point::default() + by))
}

/// A number as a source states it, to a millionth.
fn number(value: f64) -> String {
    let pair = corner_source(Point::new(value, 0.0));
    pair.split(',').next().unwrap_or_default().to_owned()
}

#[cfg(test)]
mod tests {
    use super::placing;
    use crate::geometry::{Angle, Line, Point, Transform, Vector};

    #[test]
    fn maps_are_told_as_a_source_tells_them() {
        let turn = Transform::turn(Angle::degrees(90.0), Point::new(4.0, 2.0));
        assert_eq!(placing(turn), "turned 90 deg about 4, 2");
        assert_eq!(placing(Transform::shift(Vector::new(4.0, -0.5))), "moved 4, -0.5");
        let upright = Line::through(Point::new(3.0, 0.0), Point::new(3.0, 1.0)).unwrap();
        assert_eq!(placing(Transform::mirror(upright)), "mirrored over upright 3");
        let glide = Transform::mirror(upright).then(Transform::shift(Vector::new(0.0, 2.0)));
        assert_eq!(placing(glide), "mirrored over upright 3 moved 0, 2");
        let slanted = Line::through(Point::new(0.0, 8.0), Point::new(8.0, 0.0)).unwrap();
        assert!(placing(Transform::mirror(slanted)).starts_with("mirrored over 4, 4 -- "));
    }
}
