//! Editions as numbers, and how far a revision raises them.

use std::fmt;

/// An edition: a major and a minor number, compared as numbers. `1.10` is higher than `1.9`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Edition {
    /// Rises when papers are to be printed or pieces to be cut again.
    pub major: u32,
    /// Rises when anything else changes that a reader may see.
    pub minor: u32,
}

impl Edition {
    /// Reads `1.2`: two whole numbers without leading zeros, a full stop between them, and nothing else.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let (major, minor) = text.split_once('.')?;
        Some(Self { major: whole(major)?, minor: whole(minor)? })
    }

    /// The least edition above this one that a change of this weight asks for.
    #[must_use]
    pub const fn raised(self, needed: Raise) -> Self {
        match needed {
            Raise::None | Raise::Minor => Self { minor: self.minor.saturating_add(1), ..self },
            Raise::Major => Self { major: self.major.saturating_add(1), minor: 0 },
        }
    }
}

impl fmt::Display for Edition {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{}", self.major, self.minor)
    }
}

/// A whole number without leading zeros or signs.
fn whole(digits: &str) -> Option<u32> {
    let is_plain = digits.bytes().all(|digit| digit.is_ascii_digit()) && (digits == "0" || !digits.starts_with('0'));
    digits.parse().ok().filter(|_| is_plain)
}

/// How far a change raises the edition.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Raise {
    /// Nothing changed that a reader may see.
    #[default]
    None,
    /// Something changed; what was printed and cut before still serves.
    Minor,
    /// Papers are to be printed or pieces to be cut again.
    Major,
}

impl Raise {
    /// The word for it in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::Minor => "minor",
            Self::Major => "major",
        }
    }
}

/// Why an edition is no step from the one before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TooSmall {
    /// It is the same, and nothing changed.
    NothingChanged,
    /// It is not as high as this one, which is the least that will do.
    Below(Edition),
}

/// Whether an edition is far enough above the one before for a change of this weight.
///
/// # Errors
/// Why it is not.
pub fn judge(former: Edition, now: Edition, needed: Raise) -> Result<(), TooSmall> {
    let is_enough = match needed {
        Raise::None | Raise::Minor => now > former,
        Raise::Major => now.major > former.major,
    };
    match needed {
        _ if is_enough => Ok(()),
        Raise::None if now == former => Err(TooSmall::NothingChanged),
        _ => Err(TooSmall::Below(former.raised(needed))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn edition(text: &str) -> Edition {
        Edition::parse(text).expect("an edition")
    }

    #[test]
    fn editions_are_two_whole_numbers() {
        for right in ["0.1", "1.0", "1.10", "12.34", "0.0", "4294967295.0"] {
            assert_eq!(edition(right).to_string(), right);
        }
        for wrong in [
            "",
            "1",
            "1.",
            ".1",
            "1.0.0",
            "01.0",
            "1.00",
            "1.01",
            "+1.0",
            "-1.0",
            "1,0",
            " 1.0",
            "1.0 ",
            "1 .0",
            "v1.0",
            "1.a",
            "first",
            "٣.١",
            "4294967296.0",
        ] {
            assert_eq!(Edition::parse(wrong), None, "{wrong:?}");
        }
    }

    #[test]
    fn editions_are_compared_by_number() {
        let ascending = ["0.1", "0.9", "0.10", "1.0", "1.9", "1.10", "2.0", "10.0"].map(edition);
        assert!(ascending.is_sorted());
    }

    #[test]
    fn every_step_is_judged() {
        use Raise::{Major, Minor, None};
        let below = |least: &str| Err(TooSmall::Below(edition(least)));
        for (now, needed, wanted) in [
            // The same edition.
            ("1.1", None, Err(TooSmall::NothingChanged)),
            ("1.1", Minor, below("1.2")),
            ("1.1", Major, below("2.0")),
            // A lower one.
            ("1.0", None, below("1.2")),
            ("1.0", Minor, below("1.2")),
            ("0.9", Major, below("2.0")),
            ("0.99", Minor, below("1.2")),
            // A higher minor number.
            ("1.2", None, Ok(())),
            ("1.2", Minor, Ok(())),
            ("1.10", Minor, Ok(())),
            ("1.2", Major, below("2.0")),
            ("1.99", Major, below("2.0")),
            // A higher major number, whatever the minor one is.
            ("2.0", None, Ok(())),
            ("2.0", Minor, Ok(())),
            ("2.0", Major, Ok(())),
            ("2.5", Major, Ok(())),
            ("10.0", Major, Ok(())),
        ] {
            assert_eq!(judge(edition("1.1"), edition(now), needed), wanted, "{now} for {needed:?}");
        }
        // Where no number is left above, nothing overflows.
        let last = Edition { major: u32::MAX, minor: u32::MAX };
        assert_eq!(judge(last, last, Major), Err(TooSmall::Below(Edition { major: u32::MAX, minor: 0 })));
    }
}
