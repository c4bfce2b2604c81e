//! What there is to know of a release besides: a sentence each, for whoever makes it.

use std::collections::BTreeMap;

use super::compiled::Compiled;
use super::weigh::{Offer, Step};

/// What is worth a second look before these patterns are published.
pub fn notes(patterns: &[Compiled], steps: &[Option<Step<'_>>]) -> Vec<String> {
    let mut notes = same_titles(patterns);
    for (pattern, step) in patterns.iter().zip(steps) {
        let gone = step.iter().flat_map(|step| &step.offers).filter(|offer| offer.is_gone());
        notes.extend(gone.map(|offer| match offer {
            Offer::Size { label, .. } => format!("{}: the size {label} is no longer published", pattern.name),
            Offer::Colouring { title, .. } => {
                format!("{}: the colouring “{title}” is no longer published", pattern.name)
            }
        }));
        notes.extend(untold_edition(pattern, step.as_ref()));
    }
    notes
}

/// Patterns that readers cannot tell apart by their titles.
fn same_titles(patterns: &[Compiled]) -> Vec<String> {
    let mut named: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for pattern in patterns {
        named.entry(pattern.title()).or_default().push(&pattern.name);
    }
    let several = named.into_iter().filter(|(_, names)| names.len() > 1);
    several.map(|(title, names)| format!("{} bear the same title: “{title}”", names.join(", "))).collect()
}

/// An edition of which the history says nothing: where there is a history, or readers have another edition.
fn untold_edition(pattern: &Compiled, step: Option<&Step<'_>>) -> Option<String> {
    let facts = pattern.facts.as_ref()?;
    let is_later = step.is_some_and(|step| step.was.edition != facts.edition);
    let is_told = facts.history.iter().any(|line| line.edition == facts.edition);
    let is_wanted = is_later || !facts.history.is_empty();
    (is_wanted && !is_told).then(|| format!("{}: no history line tells of edition {}", pattern.name, facts.edition))
}
