//! Places for one more variant on a page: the arrangement of its no-fit polygons and its inner-fit rectangle.
//!
//! How far a variant reaches into what lies there (its penetration depths, weighed and summed) is, within every cell of that arrangement, a concave function of its place. So its
//! least values are at the corners of the arrangement: corners of the rectangle and of the polygons, and their crossings. The places where nothing is
//! touched that lie furthest in any direction are among them too.

use super::core::{Core, Item, TINY};
use super::nofit::{Edge, NoFits};
use super::number::Steps;

/// Edges are looked at four at a time.
const WIDE: usize = 4;

/// Four edges of an obstacle, as lines: what of them is asked most.
#[derive(Debug, Clone, Copy)]
struct Lines {
    nx: [f64; WIDE],
    ny: [f64; WIDE],
    c: [f64; WIDE],
}

/// Lines that hold everything: what fills up the last four.
const NO_LINES: Lines = Lines { nx: [0.0; WIDE], ny: [0.0; WIDE], c: [1e9; WIDE] };

impl Lines {
    /// How far a place lies outside the line that it lies furthest outside of.
    #[inline]
    fn outside(&self, x: f64, y: f64) -> [f64; WIDE] {
        std::array::from_fn(|i| self.nx[i] * x + self.ny[i] * y - self.c[i])
    }
}

/// What should not be overlapped: a no-fit polygon about the place of an item.
#[derive(Debug, Clone, Copy)]
struct Obstacle {
    /// Its edges.
    first: usize,
    last: usize,
    /// Its edges as lines.
    lines: usize,
    end: usize,
    /// The upright rectangle round it.
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
    /// What an inch of depth in it counts.
    weight: f64,
}

impl Obstacle {
    fn meets(&self, other: &Self) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }
}

/// A corner of the arrangement, and the obstacles that it lies on the edge of.
#[derive(Debug, Clone, Copy)]
struct Corner {
    x: f64,
    y: f64,
    on: [usize; 2],
}

/// The arrangement for one variant; kept to save its memory.
#[derive(Debug, Clone, Default)]
pub(super) struct Arrangement {
    edges: Vec<Edge>,
    lines: Vec<Lines>,
    obstacles: Vec<Obstacle>,
    /// For each edge a bound.
    bounds: Vec<f64>,
    /// The inner-fit rectangle: from 0, 0 to here.
    right: f64,
    bottom: f64,
}

impl Arrangement {
    /// Begins anew with a variant on a page `height` high.
    pub fn begin(&mut self, core: &Core, variant: usize, height: f64) {
        self.edges.clear();
        self.lines.clear();
        self.obstacles.clear();
        let outline = &core.variants[variant];
        self.right = (core.page.width - outline.width).max(0.0);
        self.bottom = (height - outline.height).max(0.0);
    }

    /// Adds an item as an obstacle; an inch of depth in it counts `weight`.
    pub fn add(&mut self, core: &Core, nofits: &mut NoFits, item: &Item, variant: usize, weight: f64) {
        let first = self.edges.len();
        let lines = self.lines.len();
        let (mut left, mut top, mut right, mut bottom) =
            (f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY);
        for edge in nofits.get(core, item.variant, variant) {
            let (x, y) = (edge.x + item.x, edge.y + item.y);
            left = left.min(x);
            right = right.max(x);
            top = top.min(y);
            bottom = bottom.max(y);
            self.edges.push(Edge { x, y, c: edge.c + edge.nx * item.x + edge.ny * item.y, ..*edge });
        }
        let apart = left >= self.right + TINY || right <= -TINY || top >= self.bottom + TINY || bottom <= -TINY;
        if apart {
            self.edges.truncate(first);
            return;
        }
        for four in self.edges[first..].chunks(WIDE) {
            let mut lines = NO_LINES;
            for (i, edge) in four.iter().enumerate() {
                (lines.nx[i], lines.ny[i], lines.c[i]) = (edge.nx, edge.ny, edge.c);
            }
            self.lines.push(lines);
        }
        let (last, end) = (self.edges.len(), self.lines.len());
        self.obstacles.push(Obstacle { first, last, lines, end, left, top, right, bottom, weight });
    }

    /// How deep a place lies inside an obstacle; nothing within [`TINY`] of its edge.
    #[inline]
    fn depth(&self, obstacle: &Obstacle, x: f64, y: f64) -> f64 {
        if x <= obstacle.left || x >= obstacle.right || y <= obstacle.top || y >= obstacle.bottom {
            return 0.0;
        }
        let mut most = [f64::NEG_INFINITY; WIDE];
        for lines in &self.lines[obstacle.lines..obstacle.end] {
            let far = lines.outside(x, y);
            for i in 0..WIDE {
                most[i] = if far[i] > most[i] { far[i] } else { most[i] };
            }
        }
        let most = most[0].max(most[1]).max(most[2].max(most[3]));
        if most > -TINY { 0.0 } else { -most }
    }

    /// The weighed sum of depths at a corner; more than `enough` where it is no less than that.
    fn cost(&self, corner: &Corner, enough: f64) -> f64 {
        let mut sum = 0.0;
        for (index, obstacle) in self.obstacles.iter().enumerate() {
            if index == corner.on[0] || index == corner.on[1] {
                continue;
            }
            sum += obstacle.weight * self.depth(obstacle, corner.x, corner.y);
            if sum >= enough {
                return f64::INFINITY;
            }
        }
        sum
    }

    /// For each edge what the weighed sum of depths is at least anywhere on it: along an edge, the depth in an obstacle that holds both its ends is concave. Endless for edges beside the
    /// inner-fit rectangle; not gone on with where it is `enough` already.
    fn bounds(&mut self, enough: f64, steps: &mut Steps) {
        let mut bounds = std::mem::take(&mut self.bounds);
        bounds.clear();
        bounds.extend(self.edges.iter().map(|edge| if self.misses(edge) { f64::INFINITY } else { 0.0 }));
        let mut work = self.edges.len();
        for (index, own) in self.obstacles.iter().enumerate() {
            for (other, obstacle) in self.obstacles.iter().enumerate() {
                if other == index || !own.meets(obstacle) {
                    continue;
                }
                // The depth at the start of an edge, if it was needed already.
                let mut known = None;
                for (at, bound) in (own.first..).zip(&mut bounds[own.first..own.last]) {
                    if *bound >= enough {
                        known = None;
                        continue;
                    }
                    let edge = &self.edges[at];
                    let start = known.unwrap_or_else(|| self.depth(obstacle, edge.x, edge.y));
                    let next = if at + 1 == own.last { own.first } else { at + 1 };
                    let end = self.depth(obstacle, self.edges[next].x, self.edges[next].y);
                    known = Some(end);
                    *bound += obstacle.weight * if start < end { start } else { end };
                    work += 4;
                }
            }
        }
        steps.take(work);
        self.bounds = bounds;
    }

    /// Whether an edge lies beside the inner-fit rectangle.
    fn misses(&self, edge: &Edge) -> bool {
        let (x, y) = (edge.x + edge.dx, edge.y + edge.dy);
        (edge.x < 0.0 && x < 0.0)
            || (edge.y < 0.0 && y < 0.0)
            || (edge.x > self.right && x > self.right)
            || (edge.y > self.bottom && y > self.bottom)
    }

    /// Calls for every corner of the arrangement within the inner-fit rectangle where the weighed sum of depths may be less than `enough`; the call tells what is enough from then on.
    fn corners(&mut self, steps: &mut Steps, mut enough: f64, mut call: impl FnMut(&Self, Corner) -> f64) {
        self.bounds(enough, steps);
        let (right, bottom) = (self.right, self.bottom);
        let none = usize::MAX;
        for (x, y) in [(0.0, 0.0), (right, 0.0), (0.0, bottom), (right, bottom)] {
            enough = call(self, Corner { x, y, on: [none, none] });
        }
        let inside = |x: f64, y: f64| x >= 0.0 && x <= right && y >= 0.0 && y <= bottom;
        let mut work = 4;
        for (index, obstacle) in self.obstacles.iter().enumerate() {
            let on = [index, none];
            for at in obstacle.first..obstacle.last {
                let edge = &self.edges[at];
                work += 10;
                let before = if at == obstacle.first { obstacle.last - 1 } else { at - 1 };
                let hopeless = self.bounds[at] >= enough;
                if !(hopeless || self.bounds[before] >= enough) && inside(edge.x, edge.y) {
                    enough = call(self, Corner { x: edge.x, y: edge.y, on });
                }
                if hopeless {
                    continue;
                }
                for side in [0.0, right] {
                    if (edge.x < side) != (edge.x + edge.dx < side) {
                        let y = edge.y + edge.dy * ((side - edge.x) / edge.dx);
                        if y >= 0.0 && y <= bottom {
                            enough = call(self, Corner { x: side, y, on });
                        }
                    }
                }
                for side in [0.0, bottom] {
                    if (edge.y < side) != (edge.y + edge.dy < side) {
                        let x = edge.x + edge.dx * ((side - edge.y) / edge.dy);
                        if x >= 0.0 && x <= right {
                            enough = call(self, Corner { x, y: side, on });
                        }
                    }
                }
            }
        }
        for (i, one) in self.obstacles.iter().enumerate() {
            for at in one.first..one.last {
                work += 1;
                if self.bounds[at] >= enough {
                    continue;
                }
                let edge = &self.edges[at];
                let (x, y) = (edge.x + edge.dx, edge.y + edge.dy);
                let (left, right) = if edge.x < x { (edge.x, x) } else { (x, edge.x) };
                let (top, bottom) = if edge.y < y { (edge.y, y) } else { (y, edge.y) };
                for (j, other) in self.obstacles.iter().enumerate().skip(i + 1) {
                    work += 2;
                    if left >= other.right || right <= other.left || top >= other.bottom || bottom <= other.top {
                        continue;
                    }
                    work += 16;
                    let (enter, leave) = clip(edge, &self.lines[other.lines..other.end]);
                    if enter > leave {
                        continue;
                    }
                    for t in [enter, leave] {
                        let (x, y) = (edge.x + edge.dx * t, edge.y + edge.dy * t);
                        if t > 0.0 && t < 1.0 && inside(x, y) {
                            enough = call(self, Corner { x, y, on: [i, j] });
                        }
                    }
                }
            }
        }
        steps.take(work);
    }

    /// The free place with the least score.
    pub fn best(&mut self, steps: &mut Steps, score: impl Fn(f64, f64) -> f64) -> Option<(f64, f64, f64)> {
        let mut best: Option<(f64, f64, f64)> = None;
        let mut tried = 0;
        self.corners(steps, TINY, |at, corner| {
            let value = score(corner.x, corner.y);
            if best.is_none_or(|(least, ..)| value < least) {
                tried += 1;
                if at.cost(&corner, TINY) == 0.0 {
                    best = Some((value, corner.x, corner.y));
                }
            }
            TINY
        });
        steps.take(tried * (20 + self.obstacles.len() * 3));
        best
    }

    /// The place with the least weighed sum of depths, if that is less than `enough`.
    pub fn least(&mut self, steps: &mut Steps, enough: f64) -> Option<(f64, f64, f64)> {
        let mut best = None;
        let mut least = enough;
        let mut tried = 0;
        self.corners(steps, enough, |at, corner| {
            tried += 1;
            if least > 0.0 {
                let cost = at.cost(&corner, least);
                if cost < least {
                    least = cost;
                    best = Some((cost, corner.x, corner.y));
                }
            }
            least
        });
        steps.take(tried * (20 + self.obstacles.len() * 3));
        best
    }
}

/// Where an edge enters and leaves a convex polygon, as fractions of its length (Cyrus and Beck 1978); it leaves before it enters where it misses it.
#[inline]
fn clip(edge: &Edge, polygon: &[Lines]) -> (f64, f64) {
    let (mut enter, mut leave) = ([f64::NEG_INFINITY; WIDE], [f64::INFINITY; WIDE]);
    for lines in polygon {
        for i in 0..WIDE {
            let speed = lines.nx[i] * edge.dx + lines.ny[i] * edge.dy;
            let outside = lines.nx[i] * edge.x + lines.ny[i] * edge.y - lines.c[i];
            // Along the line the fraction is infinite: never entered from outside, never left from inside.
            let t = -outside / speed;
            let enters = speed < 0.0 || (speed == 0.0 && outside > 0.0);
            let t = if speed == 0.0 { f64::INFINITY } else { t };
            enter[i] = if enters && t > enter[i] { t } else { enter[i] };
            leave[i] = if !enters && t < leave[i] { t } else { leave[i] };
        }
    }
    let most = |a: f64, b: f64| if a > b { a } else { b };
    let least = |a: f64, b: f64| if a < b { a } else { b };
    (
        most(most(enter[0], enter[1]), most(enter[2], enter[3])),
        least(least(leave[0], leave[1]), least(leave[2], leave[3])),
    )
}
