//! Whether a foundation is printed whole or in lapped parts.

use crate::geometry::{Point, Polygon, Transform};
use crate::model::Model;
use crate::packet::words::Words;

use super::{Foundation, Subject, extent, parts_of_extent, turns, turns_of};

/// The foundation of a unit, whole where it fits the room on a sheet either way, else in lapped parts.
#[must_use]
pub fn foundation(
    model: &Model,
    (block, variant): (usize, usize),
    (wide, high): (f64, f64),
    words: &Words,
) -> Vec<Foundation> {
    let subject = |turn| Subject { model, block, variant, turn, words };
    let turns = turns(&model.blocks[block], &model.blocks[block].variants[variant]);
    for turn in turns {
        let (width, height) = extent(model, block, variant, turn);
        if width <= wide && height <= high {
            let whole = subject(turn).whole(wide, high);
            if whole.width <= wide && whole.height <= high {
                return vec![whole];
            }
        }
    }
    // Of equally few parts those of the earlier turn.
    let fewest = turns.into_iter().min_by_key(|&turn| subject(turn).count_parts(wide, high));
    fewest.map(|turn| subject(turn).parts(wide, high)).unwrap_or_default()
}

/// Whether a foundation has to be split to fit the room on a sheet; quicker than drawing it.
#[must_use]
pub fn needs_splitting(model: &Model, (wide, high): (f64, f64), block: usize, variant: usize) -> bool {
    turns(&model.blocks[block], &model.blocks[block].variants[variant]).into_iter().all(|turn| {
        let (width, height) = extent(model, block, variant, turn);
        width > wide || height > high
    })
}

/// How many lapped parts the foundation of a unit with this outline and cutting line takes in this room, by its size alone; 1 where it fits whole.
/// Its mirror image takes as many.
#[must_use]
pub fn parts_of(outline: &Polygon, cutting_line: &Polygon, (wide, high): (f64, f64)) -> u32 {
    let extents = turns_of(outline.edges()).map(|turn| {
        let (from, to) = Transform::turn(turn, Point::default()).apply_to_polygon(cutting_line).bounds();
        (to.x - from.x, to.y - from.y)
    });
    if extents.iter().any(|&(width, height)| width <= wide && height <= high) {
        return 1;
    }
    extents.into_iter().map(|extent| parts_of_extent(extent, (wide, high))).min().unwrap_or(1)
}
