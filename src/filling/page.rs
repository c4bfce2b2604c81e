//! Places for one more variant on a page: the arrangement of its no-fit polygons and its inner-fit rectangle.
//!
//! How far a variant reaches into what lies there (its penetration depth, summed) is, within every cell of that arrangement, a concave function of its place. So its least values
//! are at the corners of the arrangement: corners of the rectangle and of the polygons, and their crossings. The places where nothing is touched that lie
//! furthest in any direction are among them too.

use super::core::{Core, Item, TINY};
use super::nofit::{Edge, NoFits};
use super::number::Steps;

/// What must not be overlapped: a no-fit polygon about the place of an item.
#[derive(Debug, Clone, Copy)]
struct Obstacle {
    /// Its edges.
    first: usize,
    last: usize,
    /// The upright rectangle round it.
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
}

impl Obstacle {
    fn meets(&self, other: &Self) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }
}

/// The arrangement for one variant; kept to save its memory.
#[derive(Debug, Clone, Default)]
pub(super) struct Arrangement {
    edges: Vec<Edge>,
    obstacles: Vec<Obstacle>,
    /// The inner-fit rectangle: from 0, 0 to here.
    right: f64,
    bottom: f64,
}

impl Arrangement {
    /// Sets it up for a variant beside items on a page `height` high.
    pub fn set(&mut self, core: &Core, nofits: &mut NoFits, items: &[Item], variant: usize, height: f64) {
        self.edges.clear();
        self.obstacles.clear();
        let outline = &core.variants[variant];
        self.right = (core.page.width - outline.width).max(0.0);
        self.bottom = (height - outline.height).max(0.0);
        for item in items {
            let first = self.edges.len();
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
            let obstacle = Obstacle { first, last: self.edges.len(), left, top, right, bottom };
            if left < self.right && right > 0.0 && top < self.bottom && bottom > 0.0
                || (left < self.right + TINY && right > -TINY && top < self.bottom + TINY && bottom > -TINY)
            {
                self.obstacles.push(obstacle);
            } else {
                self.edges.truncate(first);
            }
        }
    }

    /// How deep a place lies inside an obstacle; nothing within [`TINY`] of its edge.
    fn depth(&self, obstacle: &Obstacle, x: f64, y: f64) -> f64 {
        if x <= obstacle.left || x >= obstacle.right || y <= obstacle.top || y >= obstacle.bottom {
            return 0.0;
        }
        let mut nearest = f64::NEG_INFINITY;
        for edge in &self.edges[obstacle.first..obstacle.last] {
            nearest = nearest.max(edge.nx * x + edge.ny * y - edge.c);
            if nearest > -TINY {
                return 0.0;
            }
        }
        -nearest
    }

    /// Whether nothing is overlapped at a place.
    pub fn is_free(&self, x: f64, y: f64) -> bool {
        self.obstacles.iter().all(|obstacle| self.depth(obstacle, x, y) == 0.0)
    }

    /// Calls for every corner of the arrangement within the inner-fit rectangle.
    pub fn corners(&self, steps: &mut Steps, mut call: impl FnMut(f64, f64)) {
        let (right, bottom) = (self.right, self.bottom);
        for (x, y) in [(0.0, 0.0), (right, 0.0), (0.0, bottom), (right, bottom)] {
            call(x, y);
        }
        let inside = |x: f64, y: f64| x >= 0.0 && x <= right && y >= 0.0 && y <= bottom;
        let mut work = 4;
        for obstacle in &self.obstacles {
            for edge in &self.edges[obstacle.first..obstacle.last] {
                work += 8;
                if inside(edge.x, edge.y) {
                    call(edge.x, edge.y);
                }
                for side in [0.0, right] {
                    if (edge.x < side) != (edge.x + edge.dx < side) {
                        let y = edge.y + edge.dy * ((side - edge.x) / edge.dx);
                        if y >= 0.0 && y <= bottom {
                            call(side, y);
                        }
                    }
                }
                for side in [0.0, bottom] {
                    if (edge.y < side) != (edge.y + edge.dy < side) {
                        let x = edge.x + edge.dx * ((side - edge.y) / edge.dy);
                        if x >= 0.0 && x <= right {
                            call(x, side);
                        }
                    }
                }
            }
        }
        for (i, one) in self.obstacles.iter().enumerate() {
            for other in &self.obstacles[i + 1..] {
                work += 1;
                if !one.meets(other) {
                    continue;
                }
                work += (one.last - one.first) * (other.last - other.first);
                for edge in &self.edges[one.first..one.last] {
                    let Some((enter, leave)) = clip(edge, &self.edges[other.first..other.last]) else { continue };
                    for t in [enter, leave] {
                        let (x, y) = (edge.x + edge.dx * t, edge.y + edge.dy * t);
                        if t > 0.0 && t < 1.0 && inside(x, y) {
                            call(x, y);
                        }
                    }
                }
            }
        }
        steps.take(work * 3);
    }

    /// The free place with the least score; the score of a place must not depend on what lies on the page.
    pub fn best(&self, steps: &mut Steps, score: impl Fn(f64, f64) -> f64) -> Option<(f64, f64, f64)> {
        let mut best: Option<(f64, f64, f64)> = None;
        let mut tried = 0;
        self.corners(steps, |x, y| {
            let value = score(x, y);
            if best.is_none_or(|(least, ..)| value < least) {
                tried += 1;
                if self.is_free(x, y) {
                    best = Some((value, x, y));
                }
            }
        });
        steps.take(tried * self.obstacles.len() * 4);
        best
    }
}

/// Where an edge enters and leaves a convex polygon, as fractions of its length (Cyrus and Beck 1978); `None` where it misses it.
fn clip(edge: &Edge, polygon: &[Edge]) -> Option<(f64, f64)> {
    let (mut enter, mut leave) = (f64::NEG_INFINITY, f64::INFINITY);
    for side in polygon {
        let speed = side.nx * edge.dx + side.ny * edge.dy;
        let outside = side.nx * edge.x + side.ny * edge.y - side.c;
        if speed < 0.0 {
            enter = enter.max(outside / -speed);
        } else if speed > 0.0 {
            leave = leave.min(outside / -speed);
        } else if outside > 0.0 {
            return None;
        }
    }
    (enter <= leave && enter < 1.0 && leave > 0.0).then_some((enter, leave))
}
