//! Figures of very long things, broken off: only the stretches of which a figure tells are shown, moved together.

use crate::geometry::{Line, Point, Polygon, Segment, Tolerance, Vector};

/// What is longer than so many times its width is broken off.
const LONG: f64 = 3.9;
/// How much is shown beyond what a figure tells of, for one of the width.
const BESIDE: f64 = 0.45;
/// The gap between two stretches, for one of the width.
const GAP: f64 = 0.16;
/// What is left out must be worth it: no more than this part is shown.
const WORTH: f64 = 0.8;

/// The stretches of a thing that are shown, in its own frame; none where all of it is.
#[derive(Debug, Clone, Default)]
pub(super) struct Broken {
    stretches: Vec<Stretch>,
    tolerance: Option<Tolerance>,
}

#[derive(Debug, Clone)]
struct Stretch {
    window: Polygon,
    shift: Vector,
    /// Where it is broken off, moved.
    breaks: Vec<Line>,
}

impl Broken {
    /// What is shown of a long thing in a figure that tells of a part of it: that part and a little more, or both ends of that where it is long too.
    ///
    /// Both ends of a line that runs along the thing stay in line with each other.
    pub fn new(whole: &Polygon, part: &[Point], in_line: Option<Line>, tolerance: Tolerance) -> Self {
        Self::stretches(whole, part, in_line, tolerance).unwrap_or_default()
    }

    fn stretches(whole: &Polygon, part: &[Point], in_line: Option<Line>, tolerance: Tolerance) -> Option<Self> {
        let longest = whole.edges().max_by(|a, b| a.length().total_cmp(&b.length()))?;
        let line = longest.line()?;
        let (along, across) = (line.direction(), line.direction().quarter_turned());
        let (low, high) = extent(whole.corners(), along);
        let (left, right) = extent(whole.corners(), across);
        let wide = right - left;
        if high - low < LONG * wide {
            return None;
        }
        let (from, to) = extent(part, along);
        let beside = BESIDE * wide;
        // What is left of an end is shown rather than broken off by a hair.
        let near = |at: f64| {
            let at = if at - low < beside { low.min(from) - beside } else { at };
            if high - at < beside { high.max(to) + beside } else { at }
        };
        let (first, last) = (near(from - beside), near(to + beside));
        let middle = 2.6 * wide;
        let worth = WORTH * (high - low);
        let one = (last - first <= worth).then(|| vec![(first, last, 0.0)]);
        let two = || {
            // Whatever ends in the first half is seen with the first end, and all else with the last.
            let half = f64::midpoint(from, to);
            let at = |point: &Point| point.to_vector().dot(along);
            let left = part.iter().map(at).filter(|&at| at <= half).fold(first, f64::max);
            let right = part.iter().map(at).filter(|&at| at > half).fold(last, f64::min);
            let inner = (first + middle / 2.0).max(left + beside);
            let outer = (last - middle / 2.0).min(right - beside);
            let gap = inner + GAP * wide - outer;
            (outer - inner >= high - low - worth).then(|| vec![(first, inner, 0.0), (outer, last, gap)])
        };
        let ends = if last - first <= middle * 1.25 { one.or_else(two) } else { two().or(one) }?;
        let (nearest, farthest) = extent(part, across);
        let (left, right) = (left.min(nearest) - wide, right.max(farthest) + wide);
        let nearer = in_line.map(Line::direction).filter(|way| way.dot(along).abs() > 0.8);
        let nearer = nearer.map_or(along, |way| way * (1.0 / way.dot(along)));
        let stretches = ends.into_iter().filter_map(|(from, to, shift)| {
            let corner = |a: f64, b: f64| Point::default() + along * a + across * b;
            let corners = [corner(from, left), corner(to, left), corner(to, right), corner(from, right)];
            let window = Polygon::hull(corners, tolerance)?;
            let ends = [from, to].into_iter().filter(|&at| at > low && at < high);
            let breaks = ends.filter_map(|at| Line::toward(corner(at, 0.0) + nearer * shift, across)).collect();
            Some(Stretch { window, shift: nearer * shift, breaks })
        });
        Some(Self { stretches: stretches.collect(), tolerance: Some(tolerance) })
    }

    /// What is shown of an area.
    pub fn areas(&self, area: &Polygon) -> Vec<Polygon> {
        let Some(tolerance) = self.tolerance else { return vec![area.clone()] };
        let seen = self.stretches.iter().filter_map(|stretch| {
            let seen = area.intersection(&stretch.window, tolerance)?;
            Some(crate::geometry::Transform::shift(stretch.shift).apply_to_polygon(&seen))
        });
        seen.collect()
    }

    /// What is shown of a line.
    pub fn lines(&self, segment: Segment) -> Vec<Segment> {
        let Some(tolerance) = self.tolerance else { return vec![segment] };
        let seen = self.stretches.iter().filter_map(|stretch| {
            let line = segment.line()?;
            let chord = stretch.window.chord(line, tolerance)?;
            let (from, to) = (line.position(chord.start).max(0.0), line.position(chord.end).min(segment.length()));
            (to > from).then(|| Segment::new(line.at(from) + stretch.shift, line.at(to) + stretch.shift))
        });
        seen.collect()
    }

    /// Where a place of the thing is shown: as part of the stretch that lies nearest.
    pub fn place(&self, point: Point) -> Point {
        let nearest = self
            .stretches
            .iter()
            .min_by(|a, b| a.window.distance_outside(point).total_cmp(&b.window.distance_outside(point)));
        nearest.map_or(point, |stretch| point + stretch.shift)
    }

    /// Where areas are broken off, as they are shown.
    pub fn edges(&self, areas: &[&Polygon]) -> Vec<Segment> {
        let Some(tolerance) = self.tolerance else { return Vec::new() };
        let mut edges = Vec::new();
        for stretch in &self.stretches {
            for line in &stretch.breaks {
                let back = Line::toward(line.origin() + -stretch.shift, line.direction());
                let chords = areas.iter().filter_map(|area| area.chord(back?, tolerance));
                edges.extend(chords.map(|c| Segment::new(c.start + stretch.shift, c.end + stretch.shift)));
            }
        }
        edges
    }
}

fn extent(points: &[Point], way: Vector) -> (f64, f64) {
    let along = points.iter().map(|point| point.to_vector().dot(way));
    along.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), at| (a.min(at), b.max(at)))
}

#[cfg(test)]
mod tests {
    use super::Broken;
    use crate::geometry::{Point, Polygon, Tolerance};

    fn strip(from: f64, to: f64) -> Polygon {
        Polygon::rectangle(Point::new(from, 0.0), Point::new(to, 1.0)).unwrap()
    }

    #[test]
    fn a_long_strip_is_broken_off_about_what_is_told_and_a_short_one_is_not() {
        let tolerance = Tolerance::of_extent(10.0);
        let shown = |whole: f64, from: f64, to: f64| {
            let broken = Broken::new(&strip(0.0, whole), strip(from, to).corners(), None, tolerance);
            let areas = broken.areas(&strip(0.0, whole));
            (areas.len(), areas.iter().map(Polygon::area).sum::<f64>(), broken.edges(&[&strip(0.0, whole)]).len())
        };
        assert_eq!(shown(3.0, 1.0, 2.0), (1, 3.0, 0));
        let (pieces, area, breaks) = shown(10.0, 4.0, 5.0);
        assert!(pieces == 1 && breaks == 2 && (area - 1.9).abs() < 1e-9, "{area}");
        let (pieces, area, breaks) = shown(10.0, 0.0, 10.0);
        assert!(pieces == 2 && breaks == 2 && area < 4.0, "{area}");
    }
}
