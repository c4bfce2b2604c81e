//! The rough cut of a section: how large, where it is laid, how far it may stray.

use crate::geometry::{Length, Line, Point, Polygon, Segment, Tolerance, Vector};

use super::slack::{Play, play};

/// How a rectangle is turned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Orientation {
    /// Its width along the seam; for section 1 along that edge of its needed region which makes it smallest.
    AlongSeam,
    /// Its height along this direction, in the frame of the unit: the print's up.
    Up(Vector),
}

/// What a piece is cut as.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// A rectangle.
    Rectangle,
    /// Half of a square, cut once from corner to corner.
    HalfSquare,
    /// A quarter of a square, cut twice from corner to corner.
    QuarterSquare,
    /// A rectangle whose ends are trimmed to a slant.
    Trapezoid {
        /// How much is trimmed off the start and the end of its width: of the edge farther from its seam, or where negative of the edge along it.
        trim: [Length; 2],
    },
}

/// A rough cut where it is laid.
#[derive(Debug, Clone, PartialEq)]
pub struct Laid {
    /// What it is cut as.
    pub shape: Shape,
    /// Its width; of half or a quarter of a square the side of the square.
    pub width: Length,
    /// Its height; of half or a quarter of a square the side of the square.
    pub height: Length,
    /// Its corners, clockwise; from the first to the second runs its width, or what of it is left.
    pub corners: Vec<Point>,
    /// The direction of its height.
    pub up: Vector,
    /// How far it may stray.
    pub play: Play,
}

/// Measures for laying a cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measures {
    /// The seam allowance.
    pub allowance: Length,
    /// The ease on sides that do not lie along the seam.
    pub ease: Length,
    /// What cuts are rounded up to.
    pub rounding: Length,
    /// How near is the same.
    pub tolerance: Tolerance,
}

/// Lays the smallest rectangle round a needed region.
///
/// `seam` is directed so that the section lies on its right; none for section 1. An edge parallel to the seam is laid exactly one allowance past the
/// line; every other side gets the ease. What rounding adds goes to the side away from the seam, and equally to both ends. `None` for a seam without length.
#[must_use]
pub fn lay(needed: &Polygon, seam: Option<Segment>, orientation: Orientation, measures: &Measures) -> Option<Laid> {
    let seam_line = match seam {
        Some(seam) => Some(seam.line()?),
        None => None,
    };
    let across = match (orientation, seam_line) {
        (Orientation::Up(up), _) => -up.unit()?,
        (Orientation::AlongSeam, Some(line)) => line.direction(),
        (Orientation::AlongSeam, None) => smallest(needed)?,
    };
    // `across` is the direction of the width; `down` points from the edge along which the width is told to the opposite one.
    let (across, down) = match orientation {
        Orientation::Up(_) => (Vector::new(across.y, -across.x), across),
        Orientation::AlongSeam => (across, across.quarter_turned()),
    };
    let (from_x, to_x) = side(needed, across, seam_line, measures);
    let (from_y, to_y) = side(needed, down, seam_line, measures);
    let corner = |x: f64, y: f64| Point::default() + across * x + down * y;
    let corners = vec![corner(from_x, from_y), corner(to_x, from_y), corner(to_x, to_y), corner(from_x, to_y)];
    let rectangle = Polygon::try_new(&corners, measures.tolerance).ok()?;
    Some(Laid {
        shape: Shape::Rectangle,
        width: Length::inches(to_x - from_x),
        height: Length::inches(to_y - from_y),
        corners,
        up: -down,
        play: play(&rectangle, needed, seam, across, measures)?,
    })
}

/// The direction of the edge along which the rectangle round a region is smallest (Freeman and Shapira 1975); of equal ones the longest edge.
fn smallest(region: &Polygon) -> Option<Vector> {
    let mut best: Option<(f64, f64, Vector)> = None;
    for edge in region.edges() {
        let direction = edge.line()?.direction();
        let (a, b) = region.extent(direction);
        let (c, d) = region.extent(direction.quarter_turned());
        let (area, length) = ((b - a) * (d - c), edge.length());
        let better = best.is_none_or(|(least, longest, _)| {
            area < least * (1.0 - 1e-9) || (area < least * (1.0 + 1e-9) && length > longest * (1.0 + 1e-9))
        });
        if better {
            best = Some((area, length, direction));
        }
    }
    best.map(|(_, _, direction)| direction)
}

/// From where to where the rectangle reaches along one of its directions, in whole steps of the rounding.
pub(super) fn side(needed: &Polygon, direction: Vector, seam: Option<Line>, measures: &Measures) -> (f64, f64) {
    let (mut from, mut to) = needed.extent(direction);
    let ease = measures.ease.to_inches();
    let grown = |length: f64| Length::inches(length).rounded_up_to(measures.rounding).to_inches();
    // Which end of this side lies along the seam, if one does.
    let toward_section = seam.map_or(0.0, |line| line.direction().quarter_turned().dot(direction));
    // By the sine of the angle between them: a cosine would take a few hundred-thousandths of a turn for none.
    if let Some(line) = seam.filter(|line| line.direction().dot(direction).abs() < 1e-9) {
        let inner = line.origin().to_vector().dot(direction) - toward_section * measures.allowance.to_inches();
        return if toward_section > 0.0 {
            (inner, inner + grown(to + ease - inner))
        } else {
            (inner - grown(inner - (from - ease)), inner)
        };
    }
    (from, to) = (from - ease, to + ease);
    let extra = (grown(to - from) - (to - from)) / 2.0;
    (from - extra, to + extra)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{Laid, Measures, Orientation, lay};
    use crate::geometry::{Angle, Length, Point, Polygon, Segment, Tolerance, Transform, Vector};

    fn measures() -> Measures {
        Measures {
            allowance: Length::inches(0.25),
            ease: Length::inches(0.25),
            rounding: Length::inches(0.125),
            tolerance: Tolerance::of_extent(1.0),
        }
    }

    fn rectangle(laid: &Laid) -> Polygon {
        Polygon::try_new(&laid.corners, measures().tolerance).unwrap()
    }

    /// A section on the right of a seam along the x axis, in a unit that is a wide rectangle round it.
    fn section() -> impl Strategy<Value = (Polygon, Segment)> {
        (0.5..4.0f64, 0.3..3.0f64, -1.0..1.0f64, 0.2..4.0f64, 0.0..360.0f64).prop_filter_map(
            "needs area",
            |(length, height, lean, top, turned)| {
                let corners = [
                    Point::new(0.0, 0.0),
                    Point::new(length, 0.0),
                    Point::new(lean + top, height),
                    Point::new(lean, height),
                ];
                let turn = Transform::turn(Angle::degrees(turned), Point::new(0.3, 0.7));
                let section = Polygon::try_new(&corners, measures().tolerance).ok()?;
                let seam = Segment::new(corners[0], corners[1]);
                Some((turn.apply_to_polygon(&section), turn.apply_to_segment(seam)))
            },
        )
    }

    fn needed(section: &Polygon) -> Polygon {
        section.grown(0.25)
    }

    /// What must stay covered when the piece strays: as the trade has it, half an allowance under the seam.
    fn must(section: &Polygon, seam: Segment) -> Polygon {
        needed(section).cut(seam.line().unwrap().shifted_right(-0.125), measures().tolerance).1.unwrap()
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(2_000))]

        #[test]
        fn a_cut_covers_at_the_ends_of_its_slack_and_fails_beyond((section, seam) in section(), up in 0.0..360.0f64, askew: bool) {
            let orientation = if askew { Orientation::Up(Vector::at_bearing(Angle::degrees(up))) } else { Orientation::AlongSeam };
            let laid = lay(&needed(&section), Some(seam), orientation, &measures()).unwrap();
            let must = must(&section, seam);
            let tight = Tolerance::of_extent(1e-3);
            let line = seam.line().unwrap();
            let covers = |map: Transform| map.apply_to_polygon(&rectangle(&laid)).covers(&must, tight);
            prop_assert!(rectangle(&laid).covers(&needed(&section), Tolerance::of_extent(1e-2)));
            let along = |distance: f64| Transform::shift(line.direction() * distance);
            let across = |distance: f64| Transform::shift(line.direction().quarter_turned() * distance);
            let turn = |degrees: f64| Transform::turn(Angle::degrees(degrees), seam.middle());
            for (way, slack, map) in [
                (-1.0, laid.play.along[0], &along as &dyn Fn(f64) -> Transform),
                (1.0, laid.play.along[1], &along),
                (-1.0, laid.play.across[0], &across),
                (1.0, laid.play.across[1], &across),
            ] {
                prop_assert!(covers(map(way * slack.to_inches())));
                prop_assert!(!covers(map(way * (slack.to_inches() + 1e-4))));
            }
            for (way, slack) in [(-1.0, laid.play.turn[0]), (1.0, laid.play.turn[1])] {
                let degrees = slack.to_degrees();
                prop_assert!(covers(turn(way * degrees)));
                prop_assert!(degrees >= 180.0 || !covers(turn(way * (degrees + 0.01))));
            }
        }

        #[test]
        fn cuts_are_whole_eighths_and_lie_one_allowance_past_the_line((section, seam) in section()) {
            let laid = lay(&needed(&section), Some(seam), Orientation::AlongSeam, &measures()).unwrap();
            for length in [laid.width, laid.height] {
                let eighths = length.to_inches() * 8.0;
                prop_assert!((eighths - eighths.round()).abs() < 1e-6);
            }
            let line = seam.line().unwrap();
            for corner in &laid.corners[..2] {
                prop_assert!((line.distance_right(*corner) + 0.25).abs() < 1e-9);
            }
            prop_assert!((laid.corners[0].distance(laid.corners[1]) - laid.width.to_inches()).abs() < 1e-9);
        }
    }

    #[test]
    fn a_strip_gets_ease_on_three_sides() {
        let strip = Polygon::rectangle(Point::new(0.0, 0.0), Point::new(4.0, 1.0)).unwrap();
        let seam = Segment::new(Point::new(0.0, 0.0), Point::new(4.0, 0.0));
        let laid = lay(&needed(&strip), Some(seam), Orientation::AlongSeam, &measures()).unwrap();
        // 4 + 2 × (allowance + ease) by 1 + 2 × allowance + ease.
        assert_eq!((laid.width.to_inches(), laid.height.to_inches()), (5.0, 1.75));
        assert_eq!(laid.play.overhang, Some([Length::inches(0.5), Length::inches(0.5)]));
        assert_eq!(laid.play.along, [Length::inches(0.25), Length::inches(0.25)]);
        assert_eq!(laid.play.across, [Length::inches(0.25), Length::inches(0.125)]);
    }
}
