//! Rough cuts are laid, sewn and flipped as a sewer does it, on units that look as if they came by chance: the flipped piece covers what the section needs
//! at its ideal place and at each end of its slack, one at a time; just beyond, it fails.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

#[path = "support/dice.rs"]
mod dice;

use dice::Dice;
use piecewright::cutting::{Laid, Measures, Orientation, Shape, lay, lay_trapezoid, lay_triangle, needs};
use piecewright::geometry::{
    Angle, Length, Line, Point, Polygon, RightTriangle, Segment, Tolerance, Transform, Vector,
};

/// How near is the same, where a piece is said to cover, as an extent: half a millionth of an inch.
const NEAR: f64 = 5e-3;
/// How far beyond its slack a piece is moved, in inches and in degrees.
const BEYOND: (f64, f64) = (1e-4, 0.1);

fn measures(dice: &mut Dice) -> Measures {
    let ease = [0.125, 0.25, 0.5][dice.below(3)];
    let [allowance, rounding] = [[0.25, 0.125], [7.5 / 25.4, 5.0 / 25.4]][dice.below(2)];
    Measures {
        allowance: Length::inches(allowance),
        ease: Length::inches(ease),
        rounding: Length::inches(rounding),
        tolerance: Tolerance::of_extent(6.0),
    }
}

/// A section as it is sewn on: its area, its seam with the section on the right, what it needs.
struct Sewn {
    polygon: Polygon,
    seam: Option<Segment>,
    needed: Polygon,
}

/// A unit of up to five sections: an outline, and lines that each take off what lies on their right.
fn unit(dice: &mut Dice, measures: &Measures) -> Option<Vec<Sewn>> {
    let near = measures.tolerance;
    let corners: Vec<Point> =
        (0..3 + dice.below(4)).map(|_| Point::new(dice.roll() * 6.0, dice.roll() * 6.0)).collect();
    let outline = Polygon::hull(corners, near).filter(|outline| outline.area() > 4.0)?;
    let (mut rest, mut taken) = (outline.clone(), Vec::new());
    for _ in 0..=dice.below(4) {
        let (from, to) = rest.bounds();
        let mut point = || Point::new(from.x + dice.roll() * (to.x - from.x), from.y + dice.roll() * (to.y - from.y));
        let Some(line) = Line::through(point(), point()) else { continue };
        let (Some(left), Some(right)) = rest.cut(line, near) else { continue };
        if left.area() < 1.0 || right.area() < 0.4 || right.width() < 0.25 {
            continue;
        }
        taken.push((right, rest.chord(line, near)?));
        rest = left;
    }
    sewn(&outline, rest, taken, measures)
}

/// The sections of a unit, from the first; `taken` tells what is taken off the outline, the last to be sewn in front.
fn sewn(outline: &Polygon, first: Polygon, taken: Vec<(Polygon, Segment)>, measures: &Measures) -> Option<Vec<Sewn>> {
    let areas = std::iter::once((first, None)).chain(taken.into_iter().rev().map(|(area, seam)| (area, Some(seam))));
    let (areas, seams): (Vec<Polygon>, Vec<Option<Segment>>) = areas.unzip();
    let cutting_line = outline.grown(measures.allowance.to_inches());
    let needs = needs(&cutting_line, &seams, measures.allowance, measures.tolerance)?;
    let sections = areas.into_iter().zip(seams).zip(needs);
    Some(sections.map(|((polygon, seam), need)| Sewn { polygon, seam, needed: need.needed }).collect())
}

/// A square with a corner cut off at 45 degrees, or cut from corner to corner, or a quarter of it: its sections are right isosceles triangles.
fn triangles(dice: &mut Dice, measures: &Measures) -> Option<Vec<Sewn>> {
    let side = 1.0 + dice.roll() * 4.0;
    let turn = Transform::turn(Angle::degrees(dice.roll() * 360.0), Point::new(1.0, 2.0));
    let corner = |x: f64, y: f64| turn.apply(Point::new(x * side, y * side));
    let polygon = |corners: &[Point]| Polygon::try_new(corners, measures.tolerance).ok();
    let [a, b, c, d] = [corner(0.0, 0.0), corner(1.0, 0.0), corner(1.0, 1.0), corner(0.0, 1.0)];
    let whole = polygon(&[a, b, c, d])?;
    let middle = a.middle(c);
    match dice.below(3) {
        // The corner at b, as large as chance has it.
        0 => {
            let share = 0.3 + dice.roll() * 0.6;
            let (p, q) = (b.along(a, share), b.along(c, share));
            let rest = polygon(&[a, p, q, c, d])?;
            sewn(&whole, rest, vec![(polygon(&[p, b, q])?, Segment::new(q, p))], measures)
        }
        // Two halves.
        1 => sewn(&whole, polygon(&[a, c, d])?, vec![(polygon(&[a, b, c])?, Segment::new(c, a))], measures),
        // A half in two quarters: the seam lies along a short side.
        _ => {
            let half = polygon(&[a, b, c])?;
            let seam = Segment::new(middle, b);
            sewn(&half, polygon(&[a, b, middle])?, vec![(polygon(&[middle, b, c])?, seam)], measures)
        }
    }
}

/// The piece as a sewer cuts it: from its measures alone, its edge along the seam from the origin to the right, the section below.
fn as_cut(laid: &Laid) -> Option<Polygon> {
    let [width, height] = [laid.width, laid.height].map(Length::to_inches);
    let corners = match laid.shape {
        Shape::Rectangle => vec![(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)],
        Shape::HalfSquare | Shape::QuarterSquare => return None,
        Shape::Trapezoid { trim: [start, end] } => {
            let [start, end] = [start, end].map(Length::to_inches);
            vec![
                ((-start).max(0.0), 0.0),
                (width - (-end).max(0.0), 0.0),
                (width - end.max(0.0), height),
                (start.max(0.0), height),
            ]
        }
    };
    Polygon::try_new(
        &corners.into_iter().map(|(x, y)| Point::new(x, y)).collect::<Vec<_>>(),
        Tolerance::of_extent(NEAR),
    )
    .ok()
}

/// Lays the cut of a section right sides together, sews it on its line, flips it open, and looks.
fn sews_true(section: &Sewn, laid: &Laid, measures: &Measures, at: &str) {
    let near = Tolerance::of_extent(NEAR);
    let flipped = Polygon::try_new(&laid.corners, near).expect("a cut has area");
    // Lines that pass a corner within the tolerance run through it, so what is needed is itself no better known.
    assert!(flipped.covers(&section.needed, measures.tolerance), "{at}: it does not cover at its ideal place");
    let Some(seam) = section.seam else { return };
    let line = seam.line().expect("a seam has length");
    let half = measures.allowance.to_inches() / 2.0;
    let must = section.needed.cut(line.shifted_right(-half), measures.tolerance).1.expect("a needed region");
    // Face down it lies over what is sewn already: the mirror image of where it will lie.
    let flip = Transform::mirror(line);
    let face_down = flip.apply_to_polygon(&flipped);
    let along = line.direction();
    let away = along.quarter_turned();
    let lies = |map: Transform| flip.apply_to_polygon(&map.apply_to_polygon(&face_down)).covers(&must, near);
    let [to_start, to_end] = laid.play.along.map(Length::to_inches);
    let [back, forth] = laid.play.across.map(Length::to_inches);
    let shift = |by: Vector| Transform::shift(by);
    // Face down, toward the section is what will be away from it.
    for (what, slack, way) in [
        ("to its start", to_start, -along),
        ("to its end", to_end, along),
        ("back", back, away),
        ("forth", forth, -away),
    ] {
        assert!(lies(shift(way * slack)), "{at}: it does not cover at the end of its slack {what}");
        assert!(!lies(shift(way * (slack + BEYOND.0))), "{at}: it still covers beyond its slack {what}");
    }
    for (what, sign, slack) in [("anticlockwise", 1.0, laid.play.turn[0]), ("clockwise", -1.0, laid.play.turn[1])] {
        let turned = |by: f64| Transform::turn(Angle::degrees(sign * by), seam.middle());
        let degrees = slack.to_degrees();
        assert!(lies(turned(degrees)), "{at}: it does not cover when turned {what} as far as it may");
        let beyond = degrees >= 179.9 || !lies(turned(degrees + BEYOND.1));
        assert!(beyond, "{at}: it still covers when turned {what} further than {degrees}");
    }
}

/// An edge along the seam lies one allowance past it, and from the measures and the overhang alone one finds the same place.
fn is_found_by_its_measures(seam: Segment, laid: &Laid, measures: &Measures, at: &str) {
    let (Some(piece), Some([left, _])) = (as_cut(laid), laid.play.overhang) else { return };
    let line = seam.line().expect("a seam has length");
    let way = line.direction();
    // The overhang is told on the line itself, an allowance inside the edge.
    let on_line =
        Line::through(Point::new(0.0, measures.allowance.to_inches()), Point::new(1.0, measures.allowance.to_inches()));
    let chord =
        piece.chord(on_line.expect("two points"), Tolerance::of_extent(NEAR)).expect("the line crosses the piece");
    let origin =
        seam.start + way * (-left.to_inches() - chord.start.x) + way.quarter_turned() * -measures.allowance.to_inches();
    for (corner, laid) in piece.corners().iter().zip(rotated(&laid.corners, origin, way)) {
        assert!(corner.distance(laid) < 2e-6, "{at}: {corner:?} is laid at {laid:?}");
    }
}

/// Corners as seen from an origin, with this direction to the right; as a polygon orders them.
fn rotated(corners: &[Point], origin: Point, way: Vector) -> Vec<Point> {
    let seen = |corner: &Point| {
        let from = *corner - origin;
        Point::new(from.dot(way), from.dot(way.quarter_turned()))
    };
    let seen: Vec<Point> = corners.iter().map(seen).collect();
    Polygon::try_new(&seen, Tolerance::of_extent(NEAR)).expect("a cut has area").corners().to_vec()
}

#[test]
fn rough_cuts_of_random_sections_cover_at_the_ends_of_their_slack_and_fail_beyond() {
    let (mut rectangles, mut askew, mut trapezoids) = (0, 0, 0);
    for seed in 1..=3_000 {
        let mut dice = Dice(seed);
        let measures = measures(&mut dice);
        let Some(sections) = unit(&mut dice, &measures) else { continue };
        for (k, section) in sections.iter().enumerate() {
            let at = format!("seed {seed}, section {}", k + 1);
            let laid = lay(&section.needed, section.seam, Orientation::AlongSeam, &measures).expect("a cut");
            sews_true(section, &laid, &measures, &at);
            rectangles += 1;
            let up = Vector::at_bearing(Angle::degrees(dice.roll() * 360.0));
            let turned = lay(&section.needed, section.seam, Orientation::Up(up), &measures).expect("a cut");
            sews_true(section, &turned, &measures, &format!("{at}, askew"));
            askew += 1;
            let Some(seam) = section.seam else { continue };
            is_found_by_its_measures(seam, &laid, &measures, &at);
            if let Some(trimmed) = lay_trapezoid(&section.needed, seam, &measures) {
                sews_true(section, &trimmed, &measures, &format!("{at}, trimmed"));
                is_found_by_its_measures(seam, &trimmed, &measures, &format!("{at}, trimmed"));
                trapezoids += 1;
            }
        }
    }
    assert!(rectangles > 5_000 && askew > 5_000 && trapezoids > 1_000, "{rectangles}, {askew}, {trapezoids}");
}

#[test]
fn halves_and_quarters_of_squares_cover_at_the_ends_of_their_slack_and_fail_beyond() {
    let mut seen = [0; 2];
    for seed in 1..=1_500 {
        let mut dice = Dice(seed);
        let measures = measures(&mut dice);
        for (k, section) in triangles(&mut dice, &measures).expect("a unit").iter().enumerate() {
            let Some(triangle) = RightTriangle::of(&section.polygon) else { continue };
            for quarter in [false, true] {
                let at = format!("seed {seed}, section {}, quarter: {quarter}", k + 1);
                let laid = lay_triangle(&section.needed, triangle, section.seam, quarter, &measures).expect("a cut");
                sews_true(section, &laid, &measures, &at);
                seen[usize::from(quarter)] += 1;
                let steps = laid.width.to_inches() / measures.rounding.to_inches();
                assert!((steps - steps.round()).abs() < 1e-6, "{at}: a square of whole steps");
                // A smaller square would have less than the ease on some side, or not lie one allowance past its seam.
                let less = laid.width - measures.rounding;
                let least = least_square(section, triangle, quarter, &measures);
                assert!(least > less.to_inches() + 1e-6, "{at}: {least} would do, not {}", laid.width.to_inches());
                assert!(least <= laid.width.to_inches() + 1e-6, "{at}: {least} is needed");
            }
        }
    }
    assert!(seen.iter().all(|&seen| seen > 1_500), "{seen:?}");
}

/// The side of the smallest square of which half (or a quarter) holds the needed region with ease, by the distances of the region from the three sides.
fn least_square(section: &Sewn, triangle: RightTriangle, quarter: bool, measures: &Measures) -> f64 {
    let [one, other] = triangle.short_sides();
    let reach = |side: Segment| {
        let line = side.line().expect("a side has length");
        let seam = section.seam.and_then(Segment::line);
        let along =
            seam.is_some_and(|seam| [side.start, side.end].iter().all(|&end| seam.distance_right(end).abs() < 1e-6));
        if along {
            return measures.allowance.to_inches();
        }
        let past = section.needed.corners().iter().map(|&corner| -line.distance_right(corner));
        past.fold(f64::NEG_INFINITY, f64::max) + measures.ease.to_inches()
    };
    let root = std::f64::consts::SQRT_2;
    let leg = one.length() + reach(one) + reach(other) + root * reach(triangle.long_side());
    if quarter { leg * root } else { leg }
}
