//! A plan as a tree of lines.

use std::fmt::Write as _;

use super::Told;
use crate::pattern::corner_source;
use crate::piecing::plan::PlanTree;

impl Told<'_> {
    /// The tree, a line each, indented by two blanks a level: joins with the number by which they are sewn, papers with their fabrics in the order of sewing.
    pub(super) fn tree(&self) -> String {
        let (mut text, mut unit) = (String::new(), 0);
        self.branch(&self.measured.best.tree, 0, 0, &mut unit, &mut text);
        text
    }

    /// Tells a part of the tree, of which `before` joins are sewn earlier; gives the number of joins in it.
    fn branch(&self, part: &PlanTree, depth: usize, before: usize, unit: &mut usize, text: &mut String) -> usize {
        let indent = "  ".repeat(depth);
        // Writing to a string cannot fail.
        match part {
            PlanTree::Unit(areas) => {
                let fabrics: Vec<&str> = areas.iter().map(|&area| self.key(area)).collect();
                let place = self.called.get(*unit).map_or("", |called| called.place.as_str());
                let sewn = if areas.iter().any(|&area| self.stands(area)) {
                    "as drawn".to_owned()
                } else {
                    fabrics.join(", ")
                };
                let _ = writeln!(text, "{indent}{place}: {sewn}");
                *unit += 1;
                0
            }
            PlanTree::Join { seam, left, right } => {
                let [on_left, on_right] = [left, right].map(|side| side.units().len() - 1);
                let (from, to) = (corner_source(self.corner(seam.start)), corner_source(self.corner(seam.end)));
                let number = before + on_left + on_right + 1;
                let _ = writeln!(text, "{indent}join {number}, along {from} -- {to}");
                let left = self.branch(left, depth + 1, before, unit, text);
                let right = self.branch(right, depth + 1, before + left, unit, text);
                left + right + 1
            }
        }
    }
}
