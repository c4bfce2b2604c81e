//! Whether the sections of a unit go on one after the other, each with one straight seam.

use crate::geometry::{Polygon, Segment, Side, Tolerance};

/// Units of more sections than this are not searched for another order.
const MAX_ORDER_SEARCH: usize = 300;

/// A section that does not go on with one straight seam. Sections are counted from 0.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stuck {
    /// The section.
    pub section: usize,
    /// The earlier sections that it touches, each with the number of the line along which it does.
    pub meets: Vec<(usize, usize)>,
    /// An order of all sections that would do.
    pub order: Option<Vec<usize>>,
    /// Where no order does: the sections of which none can be the last.
    pub locked: Vec<usize>,
}

/// The seam of each section, none for the first; directed so that the section lies on its right.
///
/// `areas` tile the outline, in the order of sewing. Taken from the last to the first, each must be cut off the rest by one straight line. O(n × corners²).
///
/// # Errors
/// The last section for which that fails.
pub fn peel(outline: &Polygon, areas: &[&Polygon], tolerance: Tolerance) -> Result<Vec<Option<Segment>>, Stuck> {
    let mut seams = vec![None; areas.len()];
    let mut rest = outline.clone();
    for section in (1..areas.len()).rev() {
        match rest.split_off(areas[section], tolerance) {
            Some((seam, left)) => {
                seams[section] = Some(seam);
                rest = left;
            }
            None => return Err(stuck(&rest, areas, section, tolerance)),
        }
    }
    Ok(seams)
}

fn stuck(rest: &Polygon, areas: &[&Polygon], section: usize, tolerance: Tolerance) -> Stuck {
    let mut meets = Vec::new();
    let mut lines = 0;
    for line in areas[section].edges().filter_map(Segment::line) {
        let touching: Vec<usize> = (0..section)
            .filter(|&other| {
                areas[other].side(line, tolerance) == Some(Side::Left)
                    && contact(areas[section], areas[other], tolerance)
                    && areas[other].edges().any(|edge| {
                        line.side(edge.start, tolerance) == Side::On && line.side(edge.end, tolerance) == Side::On
                    })
            })
            .collect();
        if !touching.is_empty() {
            meets.extend(touching.into_iter().map(|other| (other, lines)));
            lines += 1;
        }
    }
    let (order, locked) = another_order(rest, areas, section, tolerance);
    Stuck { section, meets, order, locked }
}

/// Whether two areas share a stretch of their outlines.
fn contact(a: &Polygon, b: &Polygon, tolerance: Tolerance) -> bool {
    a.edges().filter_map(|edge| Some((edge, edge.line()?))).any(|(edge, line)| {
        b.edges().any(|other| {
            line.side(other.start, tolerance) == Side::On && line.side(other.end, tolerance) == Side::On && {
                let (p, q) = (line.position(other.start), line.position(other.end));
                let shared = p.max(q).min(edge.length()) - p.min(q).max(0.0);
                shared > tolerance.distance()
            }
        })
    })
}

/// An order that would do: any section that can come off may come off (a possible cut is always safe), the highest number first,
/// so that the order stays near the author's. Sections after `last` are off already.
fn another_order(
    rest: &Polygon,
    areas: &[&Polygon],
    last: usize,
    tolerance: Tolerance,
) -> (Option<Vec<usize>>, Vec<usize>) {
    let mut left: Vec<usize> = (0..=last).collect();
    if left.len() > MAX_ORDER_SEARCH {
        return (None, Vec::new());
    }
    let mut rest = rest.clone();
    let mut taken: Vec<usize> = ((last + 1)..areas.len()).rev().collect();
    while left.len() > 1 {
        let found = left.iter().rposition(|&section| rest.split_off(areas[section], tolerance).is_some());
        let Some(position) = found else { return (None, left) };
        let section = left.remove(position);
        if let Some((_, smaller)) = rest.split_off(areas[section], tolerance) {
            rest = smaller;
        }
        taken.push(section);
    }
    taken.extend(left);
    taken.reverse();
    (Some(taken), Vec::new())
}

#[cfg(test)]
mod tests {
    use super::peel;
    use crate::geometry::{Point, Polygon, Tolerance};

    fn rectangle(x: f64, y: f64, width: f64, height: f64) -> Polygon {
        Polygon::rectangle(Point::new(x, y), Point::new(x + width, y + height)).unwrap()
    }

    #[test]
    fn strips_peel_and_seams_have_their_section_on_the_right() {
        let strips: Vec<Polygon> = (0..4).map(|k| rectangle(0.0, f64::from(k), 8.0, 1.0)).collect();
        let outline = rectangle(0.0, 0.0, 8.0, 4.0);
        let areas: Vec<&Polygon> = strips.iter().collect();
        let seams = peel(&outline, &areas, Tolerance::of_extent(8.0)).unwrap();
        assert!(seams[0].is_none());
        for (seam, area) in seams.iter().zip(&areas).skip(1) {
            let seam = seam.unwrap();
            assert!((seam.length() - 8.0).abs() < 1e-12);
            assert!(seam.line().unwrap().distance_right(area.centroid()) > 0.0);
        }
    }

    #[test]
    fn a_wrong_order_gets_one_that_does() {
        // Two squares side by side and a strip below both: the strip must come last.
        let areas = [rectangle(0.0, 0.0, 4.0, 4.0), rectangle(0.0, 4.0, 8.0, 4.0), rectangle(4.0, 0.0, 4.0, 4.0)];
        let areas: Vec<&Polygon> = areas.iter().collect();
        let stuck = peel(&rectangle(0.0, 0.0, 8.0, 8.0), &areas, Tolerance::of_extent(8.0)).unwrap_err();
        assert_eq!(stuck.section, 2);
        assert_eq!(stuck.order, Some(vec![0, 2, 1]));
        assert_eq!(stuck.meets, [(1, 0), (0, 1)]);
    }

    #[test]
    fn a_pinwheel_ring_is_locked() {
        let areas = [
            rectangle(1.0, 1.0, 1.0, 1.0),
            rectangle(0.0, 0.0, 2.0, 1.0),
            rectangle(2.0, 0.0, 1.0, 2.0),
            rectangle(1.0, 2.0, 2.0, 1.0),
            rectangle(0.0, 1.0, 1.0, 2.0),
        ];
        let areas: Vec<&Polygon> = areas.iter().collect();
        let stuck = peel(&rectangle(0.0, 0.0, 3.0, 3.0), &areas, Tolerance::of_extent(3.0)).unwrap_err();
        assert_eq!(stuck.order, None);
        assert_eq!(stuck.locked, [0, 1, 2, 3, 4]);
    }
}
