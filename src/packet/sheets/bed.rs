//! What a sheet of foundations is printed on, and how much of it is free for them.

use crate::geometry::{Length, Point};
use crate::model::{Model, Paper, SheetPaper, SheetRules};

/// What is kept for the heading of a sheet, in inches.
const HEAD: f64 = 1.05;
/// What is kept for the bar at its foot.
const FOOT: f64 = 0.36;

/// What a sheet of foundations is printed on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bed {
    /// The paper.
    pub paper: SheetPaper,
    /// What stays blank on every side.
    pub margin: Length,
}

impl Bed {
    /// What foundations are printed on beside a packet on this paper.
    #[must_use]
    pub fn of(rules: &SheetRules, packet: Paper) -> Self {
        Self { paper: rules.paper(packet), margin: rules.margin }
    }

    /// What they are printed on beside the packet of a model.
    #[must_use]
    pub fn under(model: &Model) -> Self {
        Self::of(&model.sheets, model.paper)
    }

    /// Width and height of what foundations have for themselves, in inches; on a roll of the longest sheet.
    #[must_use]
    pub fn room(self) -> (f64, f64) {
        let (width, height) = self.paper.size();
        let margin = self.margin.to_inches();
        (width.to_inches() - 2.0 * margin, height.to_inches() - 2.0 * margin - HEAD - FOOT)
    }

    /// The upper left corner of that room, in inches from the upper left corner of the paper.
    #[must_use]
    pub fn corner(self) -> Point {
        let margin = self.margin.to_inches();
        Point::new(margin, margin + HEAD)
    }

    /// Width and height of a sheet on which foundations reach so many inches down their room: of a roll only what they take.
    #[must_use]
    pub fn sheet(self, reach: f64) -> (Length, Length) {
        let (width, height) = self.paper.size();
        if self.paper.is_roll() {
            (width, Length::inches(2.0 * self.margin.to_inches() + HEAD + FOOT + reach).min(height))
        } else {
            (width, height)
        }
    }
}
