//! What sewing on paper takes, for the planner: pages, pieces and fabrics as later rooms know them, at the size that a pattern is drawn for.
//!
//! A plan belongs to the pattern, not to a build: it does not depend on the size, paper or colouring that is asked for.

use crate::cutting::{Orientation, lay, needs};
use crate::geometry::{Angle, Length, Segment, Transform, Vector};
use crate::model::{self, PrintDirection};
use crate::packet::foundation::parts_of;
use crate::packet::sheets::Bed;
use crate::pattern::facts::Fabric;
use crate::pattern::{Block, Pattern};
use crate::piecing::plan::Bench;

/// Below this a seam is short.
const SHORT: Length = Length::inches(0.5);

/// The benches of all blocks.
pub(super) fn benches(pattern: &Pattern) -> Vec<Bench<'_>> {
    pattern.blocks.iter().map(|block| bench(pattern, block)).collect()
}

fn bench<'p>(pattern: &'p Pattern, block: &'p Block) -> Bench<'p> {
    let scale = block.step.to_inches();
    let scaled = Transform::scale(scale);
    let allowance = pattern.allowance.to_inches();
    let tolerance = block.tolerance.scaled(scale);
    let measures = model::measures(pattern, tolerance);
    let rooms: Vec<(f64, f64)> = pattern.papers.iter().map(|&paper| Bed::of(&pattern.sheets, paper).room()).collect();
    let least_room = rooms.iter().map(|(wide, high)| wide.min(*high)).fold(f64::INFINITY, f64::min);
    Bench {
        sheets: Box::new(move |outline| {
            let cutting_line = scaled.apply_to_polygon(outline).grown(allowance);
            rooms.iter().map(|&room| parts_of(&cutting_line, room)).max().unwrap_or(1)
        }),
        // A mitre reaches two allowances past its corner at the most.
        fits: ((least_room - 4.0 * allowance) / scale).max(0.0),
        short: SHORT.to_inches() / scale,
        needed: Box::new(move |outline, seams| {
            let seams: Vec<Option<Segment>> =
                seams.iter().map(|seam| seam.map(|seam| scaled.apply_to_segment(seam))).collect();
            let cutting_line = scaled.apply_to_polygon(outline).grown(allowance);
            let needs = needs(&cutting_line, &seams, pattern.allowance, tolerance)?;
            Some(needs.into_iter().map(|need| need.needed).collect())
        }),
        turn: Box::new(move |needed, seam, fabric| {
            let directed = pattern.fabrics.get(fabric).is_some_and(|of| of.print.direction != PrintDirection::None);
            let orientation = if directed { Orientation::Up(Vector::new(0.0, -1.0)) } else { Orientation::AlongSeam };
            let laid = lay(needed, seam.map(|seam| scaled.apply_to_segment(seam)), orientation, &measures);
            laid.map_or(0.0, |laid| laid.play.turn.into_iter().map(Angle::to_degrees).fold(f64::INFINITY, f64::min))
        }),
        lightness: Box::new(move |fabric| pattern.fabrics.get(fabric).map_or(50.0, Fabric::lightness)),
    }
}
