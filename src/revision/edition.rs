//! Editions as numbers, `major.minor`, and by how much a revision raises them.

use std::fmt;

/// By how much an edition must rise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Raise {
    /// Nothing changed but the edition itself.
    None,
    /// Its second number.
    Minor,
    /// Its first number.
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

/// An edition: `1.2`. Later ones are greater.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Edition {
    /// Rises when papers are to be printed or pieces to be cut again.
    pub major: u32,
    /// Rises with anything else.
    pub minor: u32,
}

impl Edition {
    /// Reads `major.minor`: two whole numbers without leading zeros.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let (major, minor) = text.split_once('.')?;
        let number = |digits: &str| {
            let plain =
                digits.bytes().all(|digit| digit.is_ascii_digit()) && (digits == "0" || !digits.starts_with('0'));
            digits.parse().ok().filter(|_| plain)
        };
        Some(Self { major: number(major)?, minor: number(minor)? })
    }

    /// The lowest edition after this one that is enough for a revision; none where there is nothing to revise.
    #[must_use]
    pub fn raised(self, raise: Raise) -> Option<Self> {
        match raise {
            Raise::None => None,
            Raise::Minor => Some(Self { minor: self.minor.saturating_add(1), ..self }),
            Raise::Major => Some(Self { major: self.major.saturating_add(1), minor: 0 }),
        }
    }

    /// Whether a later edition is raised by enough.
    #[must_use]
    pub fn is_enough_after(self, former: Self, raise: Raise) -> bool {
        former.raised(raise).is_some_and(|least| self >= least)
    }
}

impl fmt::Display for Edition {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{}", self.major, self.minor)
    }
}

#[cfg(test)]
mod tests {
    use super::{Edition, Raise};

    fn edition(text: &str) -> Edition {
        Edition::parse(text).unwrap()
    }

    #[test]
    fn editions_are_two_whole_numbers() {
        assert_eq!(edition("1.10"), Edition { major: 1, minor: 10 });
        assert_eq!(edition("0.0").to_string(), "0.0");
        for wrong in ["", "1", "1.", ".1", "1.2.3", "01.2", "1.02", "+1.2", "1.-2", "a.b", "1. 2", "4294967296.0"] {
            assert_eq!(Edition::parse(wrong), None, "{wrong}");
        }
        assert!(edition("1.10") > edition("1.9") && edition("2.0") > edition("1.10"));
    }

    #[test]
    fn an_edition_rises_by_what_changed() {
        let enough = |former, now, raise| edition(now).is_enough_after(edition(former), raise);
        for (former, now, none, minor, major) in [
            ("1.1", "1.0", false, false, false),
            ("1.1", "1.1", false, false, false),
            ("1.1", "1.2", false, true, false),
            ("1.1", "1.10", false, true, false),
            ("1.1", "2.0", false, true, true),
            ("1.1", "2.3", false, true, true),
            ("1.1", "0.9", false, false, false),
        ] {
            assert_eq!(enough(former, now, Raise::None), none, "{former} {now}");
            assert_eq!(enough(former, now, Raise::Minor), minor, "{former} {now}");
            assert_eq!(enough(former, now, Raise::Major), major, "{former} {now}");
        }
    }
}
