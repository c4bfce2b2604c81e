//! Where seams of two papers end at one point of a join: there the order of sewing decides whether their allowances nest.

use std::collections::BTreeMap;

use super::{Drawing, PlanTree};
use crate::geometry::{Line, Point, Segment, Side, Vector};

/// A point strictly inside a join at which seams within a paper of each side end.
#[derive(Debug, Clone, PartialEq)]
pub struct Meeting {
    /// Where.
    pub at: Point,
    /// The direction of the join.
    pub along: Vector,
    /// The papers whose seams end there, by number: on its left, on its right.
    pub papers: [usize; 2],
}

/// The meetings of all joins of a tree, each paper counted from left to right. O(joins × patches).
pub fn meetings(drawing: &Drawing<'_>, tree: &PlanTree) -> Vec<Meeting> {
    let mut paper_of = BTreeMap::new();
    for (number, unit) in tree.units().into_iter().enumerate() {
        paper_of.extend(unit.iter().map(|&patch| (patch, number)));
    }
    let mut found = Vec::new();
    of_tree(drawing, tree, &paper_of, &mut found);
    found
}

fn of_tree(drawing: &Drawing<'_>, tree: &PlanTree, paper_of: &BTreeMap<usize, usize>, found: &mut Vec<Meeting>) {
    let PlanTree::Join { seam, left, right } = tree else { return };
    of_tree(drawing, left, paper_of, found);
    of_tree(drawing, right, paper_of, found);
    let Some(line) = seam.line() else { return };
    let sides = [left, right].map(|side| ends(drawing, *seam, line, &side.units().concat(), paper_of));
    for &(position, left) in &sides[0] {
        let across = sides[1].iter().find(|(other, _)| drawing.tolerance.is_zero(other - position));
        if let Some(&(_, right)) = across {
            found.push(Meeting { at: line.at(position), along: line.direction(), papers: [left, right] });
        }
    }
}

/// Where two patches of one paper meet on a join, strictly inside it: how far along, and which paper.
fn ends(
    drawing: &Drawing<'_>,
    seam: Segment,
    line: Line,
    patches: &[usize],
    paper_of: &BTreeMap<usize, usize>,
) -> Vec<(f64, usize)> {
    let tolerance = drawing.tolerance;
    let mut touching: Vec<(f64, f64, usize)> = Vec::new();
    for &patch in patches {
        let Some(area) = drawing.areas.get(patch) else { continue };
        let on = |point: Point| line.side(point, tolerance) == Side::On;
        if let Some(edge) = area.edges().find(|edge| on(edge.start) && on(edge.end)) {
            let (a, b) = (line.position(edge.start), line.position(edge.end));
            touching.push((a.min(b), a.max(b), patch));
        }
    }
    touching.sort_by(|a, b| a.0.total_cmp(&b.0));
    let inside = |place: f64| place > tolerance.distance() && place < seam.length() - tolerance.distance();
    touching
        .windows(2)
        .filter(|pair| tolerance.is_zero(pair[1].0 - pair[0].1) && inside(pair[0].1))
        .filter_map(|pair| {
            let (before, after) = (paper_of.get(&pair[0].2)?, paper_of.get(&pair[1].2)?);
            (before == after).then_some((pair[0].1, *before))
        })
        .collect()
}
