//! How hard a pattern is to sew, by a published formula.
//!
//! One of each block is counted: a point for each piece, two for each join, two for each tip, three for each match point, and two more for each
//! piece that must be laid to within five degrees, as each pieced section must. Up to 15 points are level 1, up to 40 level 2, up to 80 level 3, up to 150 level 4, more
//! than that level 5. The rule is our own; the reference of the notation states it for authors, and every packet for sewers.

use crate::model::{Block, Model};

/// A piece that may turn by less than this, in degrees, counts extra.
const LITTLE_TURN: f64 = 5.0;
/// The most points of each level but the last.
const MOST: [u32; 4] = [15, 40, 80, 150];

/// What makes a pattern easy or hard.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Level {
    /// Pieces of one of each block.
    pub pieces: u32,
    /// Joins.
    pub joins: u32,
    /// Match points.
    pub match_points: u32,
    /// Tips.
    pub tips: u32,
    /// Pieces that must be laid to within five degrees.
    pub exact_pieces: u32,
}

impl Level {
    /// The level of a pattern. O(pieces).
    #[must_use]
    pub fn of(model: &Model) -> Self {
        model.blocks.iter().map(Self::of_block).fold(Self::default(), |a, b| Self {
            pieces: a.pieces + b.pieces,
            joins: a.joins + b.joins,
            match_points: a.match_points + b.match_points,
            tips: a.tips + b.tips,
            exact_pieces: a.exact_pieces + b.exact_pieces,
        })
    }

    fn of_block(block: &Block) -> Self {
        let mut level = Self { joins: count(block.joins.len()), ..Self::default() };
        for placement in &block.placements {
            let Some(variant) = block.variants.get(placement.variant) else { continue };
            level.pieces += count(variant.pieces());
            if !block.has_paper(variant) {
                continue;
            }
            for section in 0..variant.fabrics.len() {
                let mut turns = variant.cuts.iter().filter(|cut| cut.section == section).flat_map(|cut| cut.slack.turn);
                // A pieced section is laid with its seams on their lines.
                let pieced = variant.fabrics_of(section).len() > 1;
                level.exact_pieces += u32::from(pieced || turns.any(|turn| turn.to_degrees() < LITTLE_TURN));
            }
        }
        for join in &block.joins {
            level.match_points += count(join.match_points.len());
            level.tips += count(join.tips.len());
        }
        level
    }

    /// The points of the formula.
    #[must_use]
    pub const fn points(self) -> u32 {
        self.pieces + 2 * self.joins + 2 * self.tips + 3 * self.match_points + 2 * self.exact_pieces
    }

    /// The level, from 1 to 5.
    #[must_use]
    pub fn number(self) -> u32 {
        1 + count(MOST.iter().filter(|&&most| self.points() > most).count())
    }
}

fn count(of: usize) -> u32 {
    u32::try_from(of).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::Level;

    #[test]
    fn points_and_levels_are_those_of_the_formula() {
        let level = Level { pieces: 10, joins: 3, match_points: 2, tips: 1, exact_pieces: 4 };
        assert_eq!(level.points(), 10 + 6 + 6 + 2 + 8);
        assert_eq!(level.number(), 2);
        let with_pieces = |pieces| Level { pieces, ..Level::default() }.number();
        assert_eq!([15, 16, 40, 41, 80, 81, 150, 151].map(with_pieces), [1, 2, 2, 3, 3, 4, 4, 5]);
    }
}
