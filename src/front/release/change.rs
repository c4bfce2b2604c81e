//! What changed of a packet since the release before, and how far that raises the edition. The only place of a release that compares models.

use super::edition::Raise;
use crate::model::{Block, Facts, Model};

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

    /// Adds what changed elsewhere.
    pub fn extend(&mut self, other: Self) {
        self.needed = self.needed.max(other.needed);
        for reason in other.reasons {
            self.add(Raise::None, reason);
        }
    }
}

/// What changed from one model to another of the same pattern, size and colouring.
pub fn between(was: &Model, now: &Model) -> Change {
    let mut change = Change::default();
    for block in &was.blocks {
        match now.blocks.iter().find(|other| other.name == block.name) {
            None => change.add(Raise::Major, format!("block `{}` is gone", block.name)),
            Some(other) if !same_papers(block, other) => {
                change.add(Raise::Major, format!("papers of block `{}` are others", block.name));
            }
            Some(_) => {}
        }
    }
    for block in now.blocks.iter().filter(|block| !was.blocks.iter().any(|other| other.name == block.name)) {
        change.add(Raise::Minor, format!("block `{}` is new", block.name));
    }
    if change.is_empty() && without_edition(was) != without_edition(now) {
        change.add(Raise::Minor, String::from("what is cut, sewn or told is not the same"));
    }
    change
}

/// Whether papers of one still fit those of the other.
fn same_papers(was: &Block, now: &Block) -> bool {
    was.units == now.units && was.variants.len() == now.variants.len()
}

/// A model without what changes with every edition.
fn without_edition(model: &Model) -> Model {
    let facts = Facts { edition: String::new(), date: None, history: Vec::new(), ..model.facts.clone() };
    Model { facts, ..model.clone() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::packet::sample_steps as sample;

    #[test]
    fn changes_are_weighed() {
        let was = sample::model();
        assert!(between(&was, &was).is_empty());
        let mut now = was.clone();
        now.facts.edition = String::from("9.9");
        now.facts.date = Some(String::from("2026-11-01"));
        assert!(between(&was, &now).is_empty(), "an edition is no change");
        now.facts.notes.push(String::from("Sewn by the sea."));
        assert_eq!(between(&was, &now).needed, Raise::Minor);
        now.blocks[0].units[0].sections.pop();
        assert_eq!(between(&was, &now).needed, Raise::Major);
        now.blocks.clear();
        assert_eq!(between(&was, &now).needed, Raise::Major);
        assert_eq!(between(&now, &was).needed, Raise::Minor);
    }

    #[test]
    fn the_heaviest_change_counts_and_each_is_told_once() {
        let mut all = Change::default();
        let (small, large) = (sample::model(), sample::model());
        all.extend(between(&small, &large));
        assert!(all.is_empty());
        all.add(Raise::Major, "papers".into());
        let mut other = Change::default();
        other.add(Raise::Minor, "papers".into());
        other.add(Raise::Minor, "words".into());
        all.extend(other);
        assert_eq!((all.needed, all.reasons), (Raise::Major, vec!["papers".into(), "words".into()]));
    }
}
