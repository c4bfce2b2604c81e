//! Dice for drawings that look as if they came by chance; tests and benches throw the same.

/// Numbers that look random and are the same at every run (Knuth's MMIX generator).
pub struct Dice(pub u64);

impl Dice {
    /// From 0 to 1.
    pub fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        #[expect(clippy::cast_precision_loss, reason = "24 bits fit")]
        let share = (self.0 >> 40) as f64 / f64::from(1_u32 << 24);
        share
    }

    /// A whole number below `count`.
    pub fn below(&mut self, count: usize) -> usize {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            clippy::cast_precision_loss,
            reason = "small"
        )]
        let number = (self.roll() * count as f64) as usize;
        number.min(count - 1)
    }
}
