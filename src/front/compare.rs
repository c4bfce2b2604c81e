//! Two sources compared as what they compile to.

use crate::pattern::{Effort, Shelf};
use crate::revision::Revision;

use super::{Checked, Options, compile};

/// A source to compare.
#[derive(Clone, Copy)]
pub struct Text<'s> {
    /// What faults call it.
    pub name: &'s str,
    /// What it says.
    pub text: &'s str,
    /// Where its shared files come from.
    pub shelf: &'s dyn Shelf,
}

/// Two sources and what changed from one to the other.
#[derive(Debug)]
pub struct Compared {
    /// The earlier source.
    pub was: Checked,
    /// The later one.
    pub now: Checked,
    /// What changed; nothing when either has errors.
    pub revision: Option<Revision>,
}

/// Compares two sources at the size and in the colouring that is asked for, as a build compiles them.
#[must_use]
pub fn compare(was: &Text<'_>, now: &Text<'_>, options: &Options) -> Compared {
    let checked = |of: &Text<'_>| compile(of.name, of.text, of.shelf, options, Effort::Usual);
    let (was, now) = (checked(was), checked(now));
    let revision = match (&was.model, &now.model) {
        (Some(before), Some(after)) if was.ok() && now.ok() => {
            let mut revision = Revision::between(before, after);
            revision.compare_sizes(&was.sizes, &now.sizes);
            Some(revision)
        }
        _ => None,
    };
    Compared { was, now, revision }
}
