//! The one place that says how near is the same.

/// How near two things must be to count as one, in the unit of the frame at hand.
///
/// It grows with the figure, so that a figure decides alike at every size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tolerance {
    same: f64,
}

impl Tolerance {
    /// The tolerance for a figure whose longer side is `extent`: corners nearer than a ten-thousandth of it are one corner.
    #[must_use]
    pub fn of_extent(extent: f64) -> Self {
        Self { same: extent.abs() / 10_000.0 }
    }

    /// Distances up to this count as none.
    #[must_use]
    pub fn distance(self) -> f64 {
        self.same
    }

    /// Distances up to this (but above [`Self::distance`]) are suspiciously small: a five-hundredth of the extent.
    #[must_use]
    pub fn suspicious(self) -> f64 {
        self.same * 20.0
    }

    /// Areas up to this count as none: a strip of the tolerance's width, ten thousand times as long as wide.
    #[must_use]
    pub fn area(self) -> f64 {
        self.same * self.same * 10_000.0
    }

    /// Whether a distance counts as none.
    #[must_use]
    pub fn is_zero(self, distance: f64) -> bool {
        distance.abs() <= self.same
    }

    /// The tolerance in a frame whose unit is so many times smaller: a length of 1 there is `1 / factor` here.
    #[must_use]
    pub fn scaled(self, factor: f64) -> Self {
        Self { same: self.same * factor.abs() }
    }
}
