//! The seams within pieced sections: which way each is pressed. Where they end on the outline of their unit they are seam ends like any other.

use crate::geometry::Segment;
use crate::pattern::{Pattern, PiecedStrip, Unit};

/// Whether the allowances between two neighbouring strips are pressed toward the second: the darker one, as the unit is drawn.
#[must_use]
pub fn pressed_to_next(pattern: &Pattern, strip: &PiecedStrip, next: &PiecedStrip) -> bool {
    let lightness = |strip: &PiecedStrip| {
        pattern.fabrics.get(pattern.fabric(strip.fabric)).map_or(50.0, crate::pattern::facts::Fabric::lightness)
    };
    lightness(next) <= lightness(strip)
}

/// The seams within the pieced sections of a unit, each directed so that its allowances lie on its right. O(strips).
pub fn inner_seams<'p>(pattern: &'p Pattern, unit: &'p Unit) -> impl Iterator<Item = Segment> + 'p {
    let pairs = unit.sections.iter().flat_map(|section| section.pieced.windows(2));
    pairs.filter_map(|pair| {
        let [strip, next] = pair else { return None };
        // As drawn the next strip lies on the right.
        strip.seam.map(|seam| if pressed_to_next(pattern, strip, next) { seam } else { seam.reversed() })
    })
}
