//! What is fastened to a part of the pattern: notes, own steps, silenced warnings.

use super::super::source::Spanned;
use super::{Name, Text};

/// What a note, a step or an `allow` is fastened to.
#[derive(Debug, Clone, PartialEq)]
pub enum Target {
    /// A section, by number.
    Section(Spanned<u32>),
    /// A join, by name.
    Join(Name),
}

/// A note.
#[derive(Debug, Clone, PartialEq)]
pub struct Note {
    /// What it is fastened to, if not to the part it stands in.
    pub target: Option<Target>,
    /// Its words.
    pub text: Text,
}

/// The author's own words for a step.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnStep {
    /// The step it replaces.
    pub target: Target,
    /// Its words.
    pub text: Text,
}

/// `allow CODE`
#[derive(Debug, Clone, PartialEq)]
pub struct Allow {
    /// The code of the warning.
    pub code: Name,
    /// What it is fastened to, if not to the part it stands in.
    pub target: Option<Target>,
}
