//! What the piece of each section must cover.

use crate::geometry::{Length, Polygon, Segment, Tolerance};

/// What one section needs.
#[derive(Debug, Clone, PartialEq)]
pub struct Need {
    /// The section, with every seam line that ends on the unit's outline carried straight on to the cutting line.
    pub extended: Polygon,
    /// The extended section grown by the allowance (mitred, blunted at twice the allowance), clipped to the cutting line.
    pub needed: Polygon,
}

/// What every section of a unit needs, in the order of sewing.
///
/// `cutting_line` is the outline grown by the allowance; `seams` are directed so that their sections lie on their right, none for the first.
/// The cutting line is taken apart by the same lines in the same order as the unit is, so that what is sewn later covers the allowance of what is sewn
/// earlier just as it does on paper. `None` where a line misses what is left, which does not happen for seams of the unit itself.
#[must_use]
pub fn needs(
    cutting_line: &Polygon,
    seams: &[Option<Segment>],
    allowance: Length,
    tolerance: Tolerance,
) -> Option<Vec<Need>> {
    let mut rest = cutting_line.clone();
    let mut extended = Vec::with_capacity(seams.len());
    for seam in seams.iter().skip(1).rev() {
        let (left, right) = rest.cut((*seam)?.line()?, tolerance);
        extended.push(right?);
        rest = left?;
    }
    extended.push(rest);
    extended.reverse();
    extended
        .into_iter()
        .map(|extended| {
            let needed = extended.grown(allowance.to_inches()).intersection(cutting_line, tolerance)?;
            Some(Need { extended, needed })
        })
        .collect()
}
