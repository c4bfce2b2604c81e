//! The cut of a plain piece: exactly its size.

use crate::geometry::{Angle, Length, Point, Polygon, Vector};

use super::{Laid, Play, Shape};

/// The cut that is the rectangle itself: no ease, no slack. Its height runs along `up`, the print's; without one its width is the longer side.
///
/// `None` for anything but a rectangle, in any turn.
#[must_use]
pub fn cut_to_size(rectangle: &Polygon, up: Option<Vector>) -> Option<Laid> {
    let &[a, b, c, d] = rectangle.corners() else { return None };
    let turned = [[a, b, c, d], [b, c, d, a], [c, d, a, b], [d, a, b, c]];
    // How well a choice of the first corner does: of equal ones the first stands.
    let merit = |corners: &[Point; 4]| match up {
        Some(up) => (corners[1] - corners[2]).unit().map_or(0.0, |way| way.dot(up)),
        None => corners[0].distance(corners[1]),
    };
    let better = |best: [Point; 4], next: [Point; 4]| {
        if merit(&next) > merit(&best) + 1e-9 { next } else { best }
    };
    let corners = turned.into_iter().reduce(better)?;
    let play =
        Play { overhang: None, along: [Length::ZERO; 2], across: [Length::ZERO; 2], turn: [Angle::default(); 2] };
    Some(Laid {
        shape: Shape::Rectangle,
        width: Length::inches(corners[0].distance(corners[1])),
        height: Length::inches(corners[1].distance(corners[2])),
        up: corners[1] - corners[2],
        corners: corners.to_vec(),
        play,
    })
}

#[cfg(test)]
mod tests {
    use super::cut_to_size;
    use crate::geometry::{Angle, Point, Polygon, Transform, Vector};

    fn strip() -> Polygon {
        Polygon::rectangle(Point::new(1.0, 2.0), Point::new(2.5, 8.0)).unwrap()
    }

    #[test]
    fn the_longer_side_is_the_width_and_nothing_is_added() {
        for degrees in [0.0, 33.0, 90.0, 200.0] {
            let turned = Transform::turn(Angle::degrees(degrees), Point::default()).apply_to_polygon(&strip());
            let laid = cut_to_size(&turned, None).unwrap();
            assert!((laid.width.to_inches() - 6.0).abs() < 1e-9 && (laid.height.to_inches() - 1.5).abs() < 1e-9);
            assert!(laid.corners.iter().all(|corner| turned.corners().contains(corner)));
        }
    }

    #[test]
    fn a_print_stands_upright_whichever_side_is_longer() {
        let laid = cut_to_size(&strip(), Some(Vector::new(0.0, -1.0))).unwrap();
        assert!((laid.height.to_inches() - 6.0).abs() < 1e-9 && laid.up.y < 0.0 && laid.up.x.abs() < 1e-9);
        let across = cut_to_size(&strip(), Some(Vector::new(1.0, 0.0))).unwrap();
        assert!((across.height.to_inches() - 1.5).abs() < 1e-9 && across.up.x > 0.0);
    }

    #[test]
    fn only_rectangles_have_four_corners() {
        let corners = [Point::new(0.0, 0.0), Point::new(2.0, 0.0), Point::new(0.0, 2.0)];
        let triangle = Polygon::hull(corners, crate::geometry::Tolerance::of_extent(2.0)).unwrap();
        assert!(cut_to_size(&triangle, None).is_none());
    }
}
