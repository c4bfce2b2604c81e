//! No-fit polygons: where one variant must not lie beside another.
//!
//! Variant B at b overlaps variant A at a exactly when b − a lies inside the Minkowski sum of A and the mirror image of B (Minkowski difference). Both are convex, so the sum
//! has the edges of both in the order of their directions: O(n + m).

use super::core::Core;
use crate::geometry::Vector;

/// An edge of a no-fit polygon, with all that is asked of it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Edge {
    /// Where it begins.
    pub x: f64,
    pub y: f64,
    /// From there to its end.
    pub dx: f64,
    pub dy: f64,
    /// The normal outward, of length 1.
    pub nx: f64,
    pub ny: f64,
    /// The scalar product of the normal with any place on the edge.
    pub c: f64,
}

/// The no-fit polygons that were asked for.
#[derive(Debug, Clone, Default)]
pub(super) struct NoFits {
    /// Where the edges of a pair begin and how many there are, by first and second variant.
    table: Vec<(u32, u32)>,
    variants: usize,
    edges: Vec<Edge>,
}

/// So many edges are remembered; then all are forgotten.
const MOST: usize = 1_500_000;
/// Pairs of more variants than this are not remembered.
const MANY: usize = 3_000;

impl NoFits {
    pub fn new(core: &Core) -> Self {
        let variants = if core.variants.len() <= MANY { core.variants.len() } else { 0 };
        Self { table: vec![(0, 0); variants * variants], variants, edges: Vec::new() }
    }

    /// The edges of the no-fit polygon of a pair, about the place of the first.
    pub fn get(&mut self, core: &Core, first: usize, second: usize) -> &[Edge] {
        let key = (first < self.variants && second < self.variants).then_some(first * self.variants + second);
        if let Some(key) = key {
            let (start, count) = self.table[key];
            if count > 0 {
                let start = start as usize;
                return &self.edges[start..start + count as usize];
            }
        }
        if self.edges.len() > MOST || key.is_none() {
            self.table.fill((0, 0));
            self.edges.clear();
        }
        let start = self.edges.len();
        sum(&core.variants[first].grown, &core.variants[second].grown, &mut self.edges);
        let count = self.edges.len() - start;
        if let Some(key) = key {
            self.table[key] = (super::number::count(start), super::number::count(count));
        }
        &self.edges[start..]
    }
}

/// Appends the edges of the sum of `a` and the mirror image of `b`; both begin with their highest corner.
fn sum(a: &[Vector], b: &[Vector], edges: &mut Vec<Edge>) {
    let (n, m) = (a.len(), b.len());
    // The mirror image begins with the image of the lowest corner, of several the rightmost.
    let low = (0..m).max_by(|&i, &j| b[i].y.total_cmp(&b[j].y).then(b[i].x.total_cmp(&b[j].x))).unwrap_or(0);
    let side_a = |i: usize| a[(i + 1) % n] + -a[i % n];
    let side_b = |j: usize| b[(low + j) % m] + -b[(low + j + 1) % m];
    let mut at = a[0] + -b[low % m];
    let (mut i, mut j) = (0, 0);
    let mut push = |at: &mut Vector, side: Vector| {
        let Some(unit) = side.unit() else { return };
        let normal = -unit.quarter_turned();
        edges.push(Edge { x: at.x, y: at.y, dx: side.x, dy: side.y, nx: normal.x, ny: normal.y, c: normal.dot(*at) });
        *at = *at + side;
    };
    while i < n || j < m {
        if i == n {
            push(&mut at, side_b(j));
            j += 1;
        } else if j == m {
            push(&mut at, side_a(i));
            i += 1;
        } else {
            let (one, other) = (side_a(i), side_b(j));
            let turn = one.cross(other);
            if turn.abs() <= 1e-12 * one.length() * other.length() && one.dot(other) > 0.0 {
                push(&mut at, one + other);
                i += 1;
                j += 1;
            } else if turn > 0.0 {
                push(&mut at, one);
                i += 1;
            } else {
                push(&mut at, other);
                j += 1;
            }
        }
    }
}
