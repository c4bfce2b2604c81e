//! Leaves that could free a stuck region: the planner may propose a ring or an inset corner, never choose one.

use super::super::round;
use crate::geometry::{Polygon, Tolerance};

/// Areas of more than this number are not searched.
const MOST_AREAS: usize = 512;

/// A leaf that could be sewn where no straight cut runs; areas by their number, in the order in which a source names them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Proposal {
    /// A ring: the centre, then those round it in the order of sewing.
    Ring(Vec<usize>),
    /// Three areas that meet in a point: the one that is set in, then the two into whose corner it is set.
    Inset([usize; 3]),
}

impl Proposal {
    /// The areas, as a source names them.
    #[must_use]
    pub fn members(&self) -> &[usize] {
        match self {
            Self::Ring(members) => members,
            Self::Inset(members) => members,
        }
    }
}

/// A ring among the areas of a stuck region, or else three of them that meet in a point; `None` where there is neither.
///
/// Of several the one with the lowest number in the middle, or in front. The areas do not overlap. O(n² corners).
#[must_use]
pub fn propose(areas: &[Polygon], tolerance: Tolerance) -> Option<Proposal> {
    if areas.len() > MOST_AREAS {
        return None;
    }
    let ring = (0..areas.len()).find_map(|centre| ring_round(areas, centre, tolerance)).map(Proposal::Ring);
    ring.or_else(|| inset(areas, tolerance).map(Proposal::Inset))
}

/// Whether a ring round one of the areas is among them whose members are sewn together of several.
#[must_use]
pub fn is_ring_of_groups(areas: &[Polygon], tolerance: Tolerance) -> bool {
    (0..areas.len()).any(|centre| {
        let mut groups: Vec<Polygon> = areas.to_vec();
        let middle = groups.remove(centre);
        while let Some((a, b, both)) = two_that_are_one(&groups, tolerance) {
            // The later one first: the other keeps its place.
            groups.swap_remove(a.max(b));
            groups[a.min(b)] = both;
            let with_middle: Vec<Polygon> = std::iter::once(middle.clone()).chain(groups.iter().cloned()).collect();
            if ring_round(&with_middle, 0, tolerance).is_some() {
                return true;
            }
        }
        false
    })
}

/// Two areas that are convex together, by their numbers, and what they are together.
fn two_that_are_one(areas: &[Polygon], tolerance: Tolerance) -> Option<(usize, usize, Polygon)> {
    (0..areas.len()).find_map(|a| {
        (a + 1..areas.len()).find_map(|b| {
            let corners = areas[a].corners().iter().chain(areas[b].corners()).copied();
            let hull = Polygon::hull(corners, tolerance)?;
            let parts = areas[a].area() + areas[b].area();
            ((hull.area() - parts).abs() <= tolerance.area()).then_some((a, b, hull))
        })
    })
}

/// The ring round one of the areas: it, and those round it from the one with the lowest number on, in the order of sewing.
fn ring_round(areas: &[Polygon], centre: usize, tolerance: Tolerance) -> Option<Vec<usize>> {
    let middle = areas.get(centre)?;
    // By edge of the centre, clockwise, the one area that covers it.
    let mut round = Vec::new();
    for edge in middle.edges() {
        let line = edge.line()?;
        let mut covering = areas.iter().enumerate().filter(|&(other, area)| {
            let reach = if other == centre { None } else { round::facing(line, area, tolerance) };
            reach.is_some_and(|(from, to)| from <= tolerance.distance() && to >= edge.length() - tolerance.distance())
        });
        round.push(covering.next()?.0);
    }
    let first = round.iter().enumerate().min_by_key(|(_, area)| **area).map(|(at, _)| at)?;
    round.rotate_left(first);
    let backward: Vec<usize> = round.iter().take(1).chain(round.iter().skip(1).rev()).copied().collect();
    let found = [round, backward].into_iter().find(|order| {
        let members: Vec<&Polygon> = order.iter().filter_map(|&area| areas.get(area)).collect();
        round::ring(middle, &members, tolerance).is_ok()
    });
    found.map(|order| std::iter::once(centre).chain(order).collect())
}

/// The first three areas that meet in a point and make an inset corner.
fn inset(areas: &[Polygon], tolerance: Tolerance) -> Option<[usize; 3]> {
    areas.iter().enumerate().find_map(|(first, area)| {
        area.corners().iter().find_map(|corner| {
            let mut others =
                areas.iter().enumerate().skip(first + 1).filter(|(_, other)| {
                    other.corners().iter().any(|point| tolerance.is_zero(point.distance(*corner)))
                });
            let ((second, b), (third, c)) = (others.next()?, others.next()?);
            let alone = others.next().is_none();
            (alone && round::corner([area, b, c], tolerance).is_ok()).then_some([first, second, third])
        })
    })
}

#[cfg(test)]
mod tests {
    use super::{Proposal, propose};
    use crate::geometry::{Line, Point, Polygon, Tolerance, Transform};

    fn rectangle(x: f64, y: f64, width: f64, height: f64) -> Polygon {
        Polygon::rectangle(Point::new(x, y), Point::new(x + width, y + height)).unwrap()
    }

    fn pinwheel() -> Vec<Polygon> {
        vec![
            rectangle(0.0, 1.0, 1.0, 2.0),
            rectangle(0.0, 0.0, 2.0, 1.0),
            rectangle(1.0, 1.0, 1.0, 1.0),
            rectangle(2.0, 0.0, 1.0, 2.0),
            rectangle(1.0, 2.0, 2.0, 1.0),
        ]
    }

    #[test]
    fn a_ring_is_told_with_its_centre_in_front_and_in_the_order_of_sewing() {
        let tolerance = Tolerance::of_extent(3.0);
        assert_eq!(propose(&pinwheel(), tolerance), Some(Proposal::Ring(vec![2, 0, 1, 3, 4])));
        let over = Line::through(Point::new(1.5, 0.0), Point::new(1.5, 3.0)).unwrap();
        let mirrored: Vec<Polygon> =
            pinwheel().iter().map(|area| Transform::mirror(over).apply_to_polygon(area)).collect();
        assert_eq!(propose(&mirrored, tolerance), Some(Proposal::Ring(vec![2, 0, 1, 3, 4])));
        // With more round it.
        let mut framed = vec![rectangle(-1.0, -1.0, 1.0, 4.0)];
        framed.extend(pinwheel());
        assert_eq!(propose(&framed, Tolerance::of_extent(4.0)), Some(Proposal::Ring(vec![3, 1, 2, 4, 5])));
    }

    #[test]
    fn three_diamonds_are_told_as_an_inset_corner() {
        let outer: Vec<Point> = (0..6)
            .map(|k| {
                let angle = f64::from(k) * std::f64::consts::FRAC_PI_3;
                Point::new(libm::cos(angle), libm::sin(angle))
            })
            .collect();
        let tolerance = Tolerance::of_extent(2.0);
        let middle = Point::default();
        let diamond =
            |k: usize| Polygon::try_new(&[middle, outer[k], outer[k + 1], outer[(k + 2) % 6]], tolerance).unwrap();
        let diamonds = [diamond(0), diamond(2), diamond(4)];
        assert_eq!(propose(&diamonds, tolerance), Some(Proposal::Inset([0, 1, 2])));
    }

    #[test]
    fn what_straight_cuts_divide_is_no_leaf() {
        let tolerance = Tolerance::of_extent(2.0);
        let bricks = [rectangle(0.0, 0.0, 1.0, 1.0), rectangle(1.0, 0.0, 1.0, 1.0), rectangle(0.0, 1.0, 2.0, 1.0)];
        assert_eq!(propose(&bricks, tolerance), None);
        // A ring with one brick cut in two is a ring no longer.
        let mut ring = pinwheel();
        ring[1] = rectangle(0.0, 0.0, 1.0, 1.0);
        ring.push(rectangle(1.0, 0.0, 1.0, 1.0));
        assert_eq!(propose(&ring, Tolerance::of_extent(3.0)), None);
    }
}
