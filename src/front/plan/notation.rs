//! A plan as units, places and joins in the notation.

use std::fmt::Write as _;

use super::Told;
use super::placing::placing;
use crate::geometry::{Polygon, Tolerance};
use crate::pattern::corner_source;
use crate::piecing::plan::PlanTree;

impl Told<'_> {
    /// Units, their further places, and joins as a source would state them, each line indented as within a block.
    pub(super) fn notation(&self) -> String {
        let best = &self.measured.best;
        let units = best.tree.units();
        let mut text = String::new();
        let mut families: Vec<&Vec<usize>> = best.families.iter().collect();
        families.sort_by_key(|family| family.iter().min().copied());
        for family in families {
            let Some((&first, further)) = family.split_first() else { continue };
            let (Some(areas), Some(called)) = (units.get(first), self.called.get(first)) else { continue };
            if areas.iter().any(|&area| self.stands(area)) {
                continue;
            }
            self.unit(&called.unit, areas, &mut text);
            for &unit in further {
                let (Some((_, transform)), Some(here)) = (best.likes.get(unit), self.called.get(unit)) else {
                    continue;
                };
                let name = if here.place.contains('#') { String::new() } else { format!(" as {}", here.place) };
                // Writing to a string cannot fail.
                let _ = writeln!(text, "  place {}{name} {}", called.unit, placing(*transform));
            }
        }
        self.joins(&best.tree, &mut 0, &mut text);
        text
    }

    /// Papers of one rectangle, as the plain pieces that would do in their place.
    pub(super) fn proposals(&self) -> Vec<String> {
        let units = self.measured.best.tree.units();
        let alone = units.into_iter().zip(self.called).filter_map(|(unit, called)| match unit {
            [area] if !self.stands(*area) => Some((*area, called)),
            _ => None,
        });
        alone
            .filter_map(|(area, called)| Some((area, self.measured.areas.get(area)?, called)))
            .filter(|(_, polygon, _)| is_rectangle(polygon, self.block.tolerance))
            .map(|(area, polygon, called)| {
                format!("plain {} {} {}", called.place.replace('#', "-"), self.key(area), path(polygon))
            })
            .collect()
    }

    /// States the joins of a part of the tree; gives the name by which a join speaks of it.
    fn joins(&self, part: &PlanTree, unit: &mut usize, text: &mut String) -> String {
        match part {
            PlanTree::Unit(_) => {
                let called = self.called.get(*unit);
                *unit += 1;
                called.map(|called| called.place.clone()).unwrap_or_default()
            }
            PlanTree::Join { left, right, .. } => {
                let left = self.joins(left, unit, text);
                let right = self.joins(right, unit, text);
                let _ = writeln!(text, "  join {left} {right}");
                left
            }
        }
    }

    fn unit(&self, name: &str, areas: &[usize], text: &mut String) {
        let polygons = areas.iter().filter_map(|&area| self.measured.areas.get(area));
        let corners = polygons.flat_map(Polygon::corners).copied();
        let Some(outline) = Polygon::hull(corners, self.block.tolerance) else { return };
        let _ = writeln!(text, "  unit {name} {{\n    outline {}", path(&outline));
        for (number, &area) in (1..).zip(areas) {
            let Some(polygon) = self.measured.areas.get(area) else { continue };
            let _ = writeln!(text, "    {number} {} {}", self.key(area), path(polygon));
        }
        for (number, &area) in (1..).zip(areas) {
            text.push_str(&self.cut_lines(number, area));
        }
        text.push_str("  }\n");
    }
}

fn is_rectangle(polygon: &Polygon, tolerance: Tolerance) -> bool {
    let ways: Vec<_> = polygon.edges().map(|edge| edge.end - edge.start).collect();
    let square = |k: usize| {
        let (a, b) = (ways[k], ways[(k + 1) % ways.len()]);
        tolerance.is_zero(a.dot(b) / a.length().max(b.length()).max(f64::MIN_POSITIVE))
    };
    ways.len() == 4 && (0..4).all(square)
}

/// A path as the notation has it.
fn path(polygon: &Polygon) -> String {
    polygon.corners().iter().map(|&point| corner_source(point)).collect::<Vec<_>>().join(" -- ")
}
