//! What changed of a pattern since the release before: packet by packet, and how far all of it raises the edition.

use crate::model::Model;
use crate::packet::words::Words;
use crate::revision::{Change as Changed, Raise, Revision, told};

/// What changed of a pattern.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Change {
    /// How far it raises the edition.
    pub needed: Raise,
    /// What it is, in words, each once.
    pub reasons: Vec<String>,
}

impl Change {
    /// Whether nothing changed.
    pub fn is_empty(&self) -> bool {
        self.reasons.is_empty() && self.needed == Raise::None
    }

    /// Adds a change.
    pub fn add(&mut self, needed: Raise, reason: String) {
        self.needed = self.needed.max(needed);
        if !self.reasons.contains(&reason) {
            self.reasons.push(reason);
        }
    }

    /// Adds what changed of a packet. The reasons are told once: of the first packet that raises the edition so far.
    pub fn extend(&mut self, was: &Model, now: &Model, revision: &Revision) {
        let needed = revision.raise();
        if needed > self.needed {
            self.reasons = reasons(was, now, revision);
            self.needed = needed;
        }
    }
}

/// The gravest changes in words.
fn reasons(was: &Model, now: &Model, revision: &Revision) -> Vec<String> {
    let needed = revision.raise();
    let gravest = |change: &&Changed| revision.raise_of(change) == needed;
    let changes = revision.changes.iter().filter(gravest).cloned().collect();
    let told = told(was, now, &Revision { changes, ..revision.clone() }, &Words::english());
    told.parts.into_iter().flat_map(|part| part.lines).map(|line| in_one(line.trim_end_matches('.'))).collect()
}

/// Several sentences as one, so that it can stand in a list. What stands between quotation marks stays as it is.
fn in_one(sentences: &str) -> String {
    let mut one = String::with_capacity(sentences.len());
    let (mut quoted, mut rest) = (false, sentences);
    while let Some(letter) = rest.chars().next() {
        quoted = letter == '“' || quoted && letter != '”';
        if let Some(next) = rest.strip_prefix(". ").filter(|_| !quoted) {
            one.push_str(" – ");
            rest = next;
        } else {
            one.push(letter);
            rest = &rest[letter.len_utf8()..];
        }
    }
    one
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::packet::sample_steps as sample;

    fn change(was: &Model, now: &Model) -> Change {
        let mut change = Change::default();
        change.extend(was, now, &Revision::between(was, now));
        change
    }

    #[test]
    fn a_reason_has_no_full_stop_within() {
        assert_eq!(in_one("A: Drawn anew. Section 2 lies elsewhere"), "A: Drawn anew – Section 2 lies elsewhere");
        assert_eq!(in_one("“Sewn. Pressed.” is new. 1.5 in"), "“Sewn. Pressed.” is new – 1.5 in");
    }

    #[test]
    fn changes_are_weighed() {
        let was = sample::model();
        assert!(change(&was, &was).is_empty());
        let mut now = was.clone();
        now.facts.edition = String::from("9.9");
        now.facts.date = Some(String::from("2026-11-01"));
        assert!(change(&was, &now).is_empty(), "an edition is no change");
        now.facts.notes.push(String::from("Sewn by the sea."));
        assert_eq!(change(&was, &now).needed, Raise::Minor);
        now.blocks.clear();
        assert_eq!(change(&was, &now).needed, Raise::Minor, "nobody prints again what is gone");
        assert_eq!(change(&now, &was).needed, Raise::Major);
    }

    #[test]
    fn the_heaviest_change_counts_and_each_is_told_once() {
        let (was, mut now) = (sample::model(), sample::model());
        now.facts.notes.push(String::from("Sewn by the sea."));
        let mut all = change(&was, &now);
        let minor = all.reasons.clone();
        assert_eq!(minor, ["The note: “Sewn by the sea.” is new"]);
        all.extend(&was, &now, &Revision::between(&was, &now));
        assert_eq!(all.reasons, minor, "the same of another size");
        let mut empty = was.clone();
        empty.blocks.clear();
        all.extend(&empty, &was, &Revision::between(&empty, &was));
        assert_eq!(all.needed, Raise::Major);
        assert!(!all.reasons.contains(&minor[0]), "words do not ask for so much");
        all.add(Raise::Minor, "8 in is gone".into());
        all.add(Raise::Minor, "8 in is gone".into());
        assert_eq!(all.reasons.iter().filter(|reason| *reason == "8 in is gone").count(), 1);
    }
}
