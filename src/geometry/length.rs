//! The one type for physical lengths.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// A physical length. Held in inches, so that the trade's eighths are exact.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Length {
    inches: f64,
}

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self { inches: 0.0 };

    /// So many inches.
    #[must_use]
    pub const fn inches(inches: f64) -> Self {
        Self { inches }
    }

    /// So many millimetres (25.4 to the inch).
    #[must_use]
    pub fn millimetres(millimetres: f64) -> Self {
        Self { inches: millimetres / 25.4 }
    }

    /// So many printer's points (72 to the inch).
    #[must_use]
    pub const fn points(points: f64) -> Self {
        Self { inches: points / 72.0 }
    }

    /// The length in inches.
    #[must_use]
    pub const fn to_inches(self) -> f64 {
        self.inches
    }

    /// The length in millimetres.
    #[must_use]
    pub fn to_millimetres(self) -> f64 {
        self.inches * 25.4
    }

    /// The length in printer's points.
    #[must_use]
    pub fn to_points(self) -> f64 {
        self.inches * 72.0
    }

    /// The least whole multiple of `step` that is not shorter; what exceeds a multiple by less than a millionth of an inch does not count.
    ///
    /// `step` is positive.
    #[must_use]
    pub fn rounded_up_to(self, step: Self) -> Self {
        let steps = ((self.inches - 1e-6) / step.inches).ceil();
        Self { inches: steps * step.inches }
    }

    /// The greater of two.
    #[must_use]
    pub fn max(self, other: Self) -> Self {
        if other > self { other } else { self }
    }

    /// The lesser of two.
    #[must_use]
    pub fn min(self, other: Self) -> Self {
        if other < self { other } else { self }
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::inches(self.inches + other.inches)
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::inches(self.inches - other.inches)
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self::inches(-self.inches)
    }
}

impl Mul<f64> for Length {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self::inches(self.inches * factor)
    }
}

impl Div<f64> for Length {
    type Output = Self;
    fn div(self, divisor: f64) -> Self {
        Self::inches(self.inches / divisor)
    }
}

impl Div for Length {
    type Output = f64;
    fn div(self, other: Self) -> f64 {
        self.inches / other.inches
    }
}

impl std::iter::Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::Length;

    #[test]
    fn rounding_up_keeps_what_is_already_a_multiple() {
        let eighth = Length::inches(0.125);
        assert_eq!(Length::inches(2.5).rounded_up_to(eighth), Length::inches(2.5));
        assert_eq!(Length::inches(2.500_000_1).rounded_up_to(eighth), Length::inches(2.5));
        assert_eq!(Length::inches(2.51).rounded_up_to(eighth), Length::inches(2.625));
    }

    #[test]
    fn units_convert_both_ways() {
        assert!((Length::millimetres(25.4).to_inches() - 1.0).abs() < 1e-12);
        assert!((Length::points(36.0).to_inches() - 0.5).abs() < 1e-12);
        assert!((Length::inches(2.0).to_millimetres() - 50.8).abs() < 1e-12);
    }
}
