//! A plan as units, places and joins in the notation.

use std::fmt::Write as _;

use super::Told;
use super::placing::placing;
use crate::geometry::Polygon;
use crate::pattern::corner_source;
use crate::piecing::plan::PlanTree;

impl Told<'_> {
    /// Units and joins as a source would state them, each line indented as within a block.
    pub(super) fn notation(&self) -> String {
        let (mut text, mut unit) = (String::new(), 0);
        self.part(&self.measured.best.tree, &mut unit, &mut text);
        text
    }

    /// States a part of the tree; gives the name by which a join speaks of it.
    fn part(&self, part: &PlanTree, unit: &mut usize, text: &mut String) -> String {
        match part {
            PlanTree::Unit(areas) => {
                let number = *unit;
                *unit += 1;
                let Some(called) = self.called.get(number) else { return String::new() };
                match self.measured.best.likes.get(number) {
                    Some((first, transform)) if *first != number => {
                        let name =
                            if called.place.contains('#') { String::new() } else { format!(" as {}", called.place) };
                        // Writing to a string cannot fail.
                        let _ = writeln!(text, "  place {}{name} {}", called.unit, placing(*transform));
                    }
                    _ => self.unit(&called.unit, areas, text),
                }
                called.place.clone()
            }
            PlanTree::Join { left, right, .. } => {
                let left = self.part(left, unit, text);
                let right = self.part(right, unit, text);
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
        text.push_str("  }\n");
    }
}

/// A path as the notation has it.
fn path(polygon: &Polygon) -> String {
    polygon.corners().iter().map(|&point| corner_source(point)).collect::<Vec<_>>().join(" -- ")
}
