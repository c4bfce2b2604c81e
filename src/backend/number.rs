//! Numbers as drawings write them: three decimals at most, no trailing zeros, never `-0`.

/// A number in thousandths: what is written of it, and all by which two numbers can differ in a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Thousandths(i64);

impl Thousandths {
    /// The nearest; what is no number is nothing, and what is beyond all paper is cut off there.
    pub(super) fn of(value: f64) -> Self {
        const LIMIT: f64 = 1e12;
        if value.is_nan() {
            return Self(0);
        }
        #[expect(clippy::cast_possible_truncation, reason = "clamped to what fits")]
        Self((value * 1000.0).round_ties_even().clamp(-LIMIT, LIMIT) as i64)
    }

    /// A whole number.
    pub(super) const fn whole(value: i32) -> Self {
        Self(value as i64 * 1000)
    }

    /// The number that is written.
    #[expect(clippy::cast_precision_loss, reason = "smaller than 2^53")]
    pub(super) fn value(self) -> f64 {
        self.0 as f64 / 1000.0
    }

    /// Its digits.
    pub(super) fn digits(self) -> Digits {
        let mut digits = Digits { bytes: [0; 24], first: 24 };
        let (mut whole, mut rest) = (self.0.unsigned_abs() / 1000, self.0.unsigned_abs() % 1000);
        let last = |number: u64| b'0' + (number % 10) as u8;
        if rest > 0 {
            let mut places = 3;
            while rest.is_multiple_of(10) {
                rest /= 10;
                places -= 1;
            }
            for _ in 0..places {
                digits.put_before(last(rest));
                rest /= 10;
            }
            digits.put_before(b'.');
        }
        loop {
            digits.put_before(last(whole));
            whole /= 10;
            if whole == 0 {
                break;
            }
        }
        if self.0 < 0 {
            digits.put_before(b'-');
        }
        digits
    }
}

/// A number in plain digits of ASCII, without a place of its own in memory: drawings have millions.
#[derive(Debug, Clone, Copy)]
pub(super) struct Digits {
    bytes: [u8; 24],
    first: usize,
}

impl Digits {
    fn put_before(&mut self, byte: u8) {
        self.first = self.first.saturating_sub(1);
        if let Some(place) = self.bytes.get_mut(self.first) {
            *place = byte;
        }
    }

    pub(super) fn as_bytes(&self) -> &[u8] {
        self.bytes.get(self.first..).unwrap_or_default()
    }

    pub(super) fn as_str(&self) -> &str {
        std::str::from_utf8(self.as_bytes()).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::Thousandths;

    fn written(value: f64) -> String {
        Thousandths::of(value).digits().as_str().to_owned()
    }

    #[test]
    fn numbers_are_short_and_never_minus_nothing() {
        let pairs = [
            (-0.000_04, "0"),
            (612.0, "612"),
            (0.125, "0.125"),
            (-3.1, "-3.1"),
            (0.05, "0.05"),
            (-0.001, "-0.001"),
            (1000.0, "1000"),
            (100.01, "100.01"),
            (f64::NAN, "0"),
            (f64::INFINITY, "1000000000"),
            (f64::NEG_INFINITY, "-1000000000"),
        ];
        for (value, digits) in pairs {
            assert_eq!(written(value), digits);
        }
    }

    #[test]
    fn numbers_read_back_to_half_a_thousandth() {
        for k in -20_000..20_000 {
            let value = f64::from(k) * 0.013_7;
            let read: f64 = written(value).parse().unwrap();
            assert!((read - value).abs() <= 0.000_500_1, "{value} {read}");
            assert_eq!(read, Thousandths::of(value).value());
        }
    }
}
