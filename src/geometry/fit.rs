//! In which turn a convex polygon fits a rectangle.

use super::{Angle, Point, Polygon, Vector};

/// What an extent may exceed a room by and still count as fitting it, for rounding, in the unit of the frame.
const ROUNDING: f64 = 1e-9;

impl Polygon {
    /// A clockwise turn after which it is at most this wide and this high; `None` where there is none.
    ///
    /// Prefers no turn, then a quarter turn, then its longest edge level, then that edge upright, then the least turn. Exact: as it turns, width and
    /// height are each the extent of one pair of corners, |d| cos(turn + phase), as long as no edge comes to lie level or upright (Shamos 1978,
    /// rotating calipers). Between two such turns the extents are concave, so what fits there is bounded by those turns and by the turns in which an
    /// extent equals the room. O(n log n).
    #[must_use]
    pub fn turn_to_fit(&self, width: f64, height: f64) -> Option<Angle> {
        let room = (width, height);
        let longest = self.edges().max_by(|a, b| a.length().total_cmp(&b.length()))?;
        let level = -(longest.end - longest.start).angle().to_degrees();
        let first = [0.0, 90.0, level, level + 90.0].into_iter().map(|turn| Angle::degrees(turn.rem_euclid(180.0)));
        let preferred = first.into_iter().find(|&turn| fits(self.turned_extent(turn), room));
        preferred.or_else(|| self.least_turn_to_fit(room))
    }

    /// How wide and how high it is after a clockwise turn. O(n).
    #[must_use]
    pub fn turned_extent(&self, turn: Angle) -> (f64, f64) {
        let (across, down) = axes(turn);
        let along = |(least, greatest): (f64, f64)| greatest - least;
        (along(self.extent(across)), along(self.extent(down)))
    }

    fn least_turn_to_fit(&self, room: (f64, f64)) -> Option<Angle> {
        // All turns, in degrees, in which an edge is level or upright; half a turn changes nothing.
        let angles = self.edges().map(|edge| (edge.end - edge.start).angle().to_degrees());
        let mut critical: Vec<f64> =
            angles.flat_map(|angle| [-angle, 90.0 - angle].map(|turn| turn.rem_euclid(180.0))).collect();
        critical.sort_by(f64::total_cmp);
        critical.dedup();
        let first = *critical.first()?;
        let ends = critical.iter().copied().skip(1).chain([first + 180.0]);
        let mut calipers: Option<Calipers> = None;
        for (from, to) in critical.iter().copied().zip(ends) {
            let middle = Angle::degrees(f64::midpoint(from, to));
            let held = match calipers.take() {
                Some(before) => before.turned(self.corners(), middle),
                None => Calipers::new(self.corners(), middle)?,
            };
            let (wide, high) = held.spans(self.corners());
            let extent = |turn: Angle| {
                let (across, down) = axes(turn);
                (wide.dot(across), high.dot(down))
            };
            let mut bounds = vec![from, to];
            // The height is the width a quarter turn later.
            bounds.extend(turns_of_extent(wide, room.0, 0.0).into_iter().flatten());
            bounds.extend(turns_of_extent(high, room.1, -90.0).into_iter().flatten());
            bounds.iter_mut().skip(2).for_each(|turn| *turn = from + (*turn - from).rem_euclid(360.0));
            bounds.retain(|&turn| turn <= to);
            bounds.sort_by(f64::total_cmp);
            // Rather well within what fits than at its bound.
            let between = bounds.windows(2).map(|pair| f64::midpoint(pair[0], pair[1]));
            let mut tried = between.chain(bounds.iter().copied()).map(Angle::degrees);
            if let Some(turn) = tried.find(|&turn| fits(extent(turn), room)) {
                return Some(turn);
            }
            calipers = Some(held);
        }
        None
    }
}

fn fits((wide, high): (f64, f64), (width, height): (f64, f64)) -> bool {
    wide <= width + ROUNDING && high <= height + ROUNDING
}

/// The directions, in a polygon, that a clockwise turn makes level and upright.
fn axes(turn: Angle) -> (Vector, Vector) {
    let (sin, cos) = turn.sin_cos();
    (Vector::new(cos, -sin), Vector::new(sin, cos))
}

/// The turns, in degrees, in which a span that is level at `ahead` is seen as long as this; none where it never is.
fn turns_of_extent(span: Vector, room: f64, ahead: f64) -> Option<[f64; 2]> {
    let length = span.length();
    if length <= 0.0 || room > length || room < 0.0 {
        return None;
    }
    let aside = Angle::radians(libm::acos(room / length)).to_degrees();
    let phase = span.angle().to_degrees() + ahead;
    // Turned anticlockwise by its own angle, a span is level.
    Some([-phase - aside, -phase + aside])
}

/// The corners, by index, that lie farthest to the right, the left, below and above after a turn.
struct Calipers {
    farthest: [usize; 4],
}

impl Calipers {
    fn ways(turn: Angle) -> [Vector; 4] {
        let (across, down) = axes(turn);
        [across, -across, down, -down]
    }

    fn new(corners: &[Point], turn: Angle) -> Option<Self> {
        let mut farthest = [0; 4];
        for (held, way) in farthest.iter_mut().zip(Self::ways(turn)) {
            let reach = |&k: &usize| corners[k].to_vector().dot(way);
            *held = (0..corners.len()).max_by(|a, b| reach(a).total_cmp(&reach(b)))?;
        }
        Some(Self { farthest })
    }

    /// The same after a farther turn: as it turns clockwise, the farthest corners run anticlockwise.
    fn turned(mut self, corners: &[Point], turn: Angle) -> Self {
        let before = |k: usize| (k + corners.len() - 1) % corners.len();
        for (held, way) in self.farthest.iter_mut().zip(Self::ways(turn)) {
            let reach = |k: usize| corners[k].to_vector().dot(way);
            let mut steps = 0;
            while steps < corners.len() && reach(before(*held)) > reach(*held) {
                *held = before(*held);
                steps += 1;
            }
        }
        self
    }

    /// From the leftmost to the rightmost and from the uppermost to the lowest of them, in the polygon's frame.
    fn spans(&self, corners: &[Point]) -> (Vector, Vector) {
        let [right, left, below, above] = self.farthest.map(|k| corners[k]);
        (right - left, below - above)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::fits;
    use crate::geometry::{Angle, Point, Polygon, Tolerance, Transform};

    fn tolerance() -> Tolerance {
        Tolerance::of_extent(10.0)
    }

    fn any_polygon() -> impl Strategy<Value = Polygon> {
        proptest::collection::vec((0.0..10.0f64, 0.0..10.0f64), 3..10).prop_filter_map("needs area", |corners| {
            Polygon::hull(corners.into_iter().map(|(x, y)| Point::new(x, y)), tolerance())
        })
    }

    fn rectangle(wide: f64, high: f64) -> Polygon {
        Polygon::rectangle(Point::new(0.0, 0.0), Point::new(wide, high)).unwrap()
    }

    #[test]
    fn turns_are_preferred_as_said() {
        let turn = |polygon: &Polygon, room: (f64, f64)| polygon.turn_to_fit(room.0, room.1).map(Angle::to_degrees);
        assert_eq!(turn(&rectangle(2.0, 1.0), (3.0, 3.0)), Some(0.0));
        assert_eq!(turn(&rectangle(2.0, 1.0), (1.0, 2.0)), Some(90.0));
        assert_eq!(turn(&rectangle(2.0, 1.0), (1.9, 0.9)), None);
        let aslant = Transform::turn(Angle::degrees(30.0), Point::default()).apply_to_polygon(&rectangle(8.0, 1.0));
        let level = turn(&aslant, (8.0, 1.0)).unwrap();
        assert!((level - 150.0).abs() < 1e-9, "{level}");
    }

    #[test]
    fn a_needle_longer_than_both_sides_lies_along_the_diagonal() {
        let needle = rectangle(10.0, 0.05);
        let turn = needle.turn_to_fit(8.0, 7.0).unwrap();
        assert!(fits(needle.turned_extent(turn), (8.0, 7.0)));
        assert!(needle.turn_to_fit(8.0, 5.9).is_none());
    }

    proptest! {
        #[test]
        fn what_it_finds_fits(p in any_polygon(), width in 0.5..12.0f64, height in 0.5..12.0f64) {
            if let Some(turn) = p.turn_to_fit(width, height) {
                let (from, to) = Transform::turn(turn, Point::new(1.0, 2.0)).apply_to_polygon(&p).bounds();
                prop_assert!(to.x - from.x <= width + 1e-8 && to.y - from.y <= height + 1e-8);
            }
        }

        #[test]
        fn it_misses_no_turn(p in any_polygon(), width in 0.5..12.0f64, height in 0.5..12.0f64) {
            if p.turn_to_fit(width, height).is_none() {
                for step in 0..720 {
                    let (wide, high) = p.turned_extent(Angle::degrees(f64::from(step) * 0.25));
                    prop_assert!(wide > width || high > height, "it fits at {} degrees", f64::from(step) * 0.25);
                }
            }
        }

        /// A room just as large as the polygon in some turn holds it, however little play that leaves.
        #[test]
        fn a_room_made_for_one_turn_is_found(p in any_polygon(), degrees in 0.0..180.0f64) {
            let (wide, high) = p.turned_extent(Angle::degrees(degrees));
            prop_assert!(p.turn_to_fit(wide, high).is_some());
        }

        #[test]
        fn mirror_images_and_turned_ones_fit_alike(
            p in any_polygon(), width in 0.5..12.0f64, height in 0.5..12.0f64, degrees in 0.0..360.0f64,
        ) {
            let found = p.turn_to_fit(width, height).is_some();
            let mirror = Transform::from_matrix([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);
            let turned = mirror.then(Transform::turn(Angle::degrees(degrees), Point::default())).apply_to_polygon(&p);
            prop_assert_eq!(turned.turn_to_fit(width, height).is_some(), found);
            prop_assert_eq!(p.turn_to_fit(height, width).is_some(), found);
        }
    }
}
