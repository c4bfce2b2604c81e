//! Patterns of today beside those of the release before: what changed, and whether their editions rise as far as that asks for.

use std::collections::BTreeSet;

use super::Refused;
use super::change::Change;
use super::compiled::{AtSize, Compiled, words};
use super::former::Former;
use super::manifest::{PacketTold, PatternTold};
use crate::fault::{Fault, release as faults};
use crate::model::Model;
use crate::revision::{Edition, Raise, Revision, TooSmall, judge};

/// What became of a pattern since the release before.
pub struct Step<'f> {
    /// The pattern as it was.
    pub was: &'f PatternTold,
    /// What changed.
    pub change: Change,
    /// The sizes and colourings that came or went.
    pub offers: Vec<Offer>,
    /// For each packet of today, the packet as it was.
    pub packets: Vec<Option<Before<'f>>>,
}

/// A size or colouring that is new, or no longer published.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Offer {
    /// A size.
    Size {
        /// As it is printed.
        label: String,
        /// Whether it went.
        gone: bool,
    },
    /// A colouring.
    Colouring {
        /// Its title.
        title: String,
        /// Whether it went.
        gone: bool,
    },
}

impl Offer {
    /// Whether it is no longer published.
    pub const fn is_gone(&self) -> bool {
        match self {
            Self::Size { gone, .. } | Self::Colouring { gone, .. } => *gone,
        }
    }
}

/// A packet as it was.
pub struct Before<'f> {
    /// What the release before tells of it.
    pub told: &'f PacketTold,
    /// Its model, compiled anew, and what changed since; nothing where it is not compiled any more.
    pub revised: Option<(Model, Revision)>,
}

/// What became of all patterns.
#[derive(Default)]
pub struct Steps<'f> {
    /// For each pattern of today what became of it; nothing of one that is new.
    pub of: Vec<Option<Step<'f>>>,
    /// What else there is to say.
    pub notes: Vec<String>,
}

/// Compares all patterns with the release before. They have no errors.
pub fn steps<'f>(
    patterns: &[Compiled],
    former: &'f Former,
    progress: &mut dyn FnMut(&str),
) -> Result<Steps<'f>, Refused> {
    let today: Vec<(&str, &str)> = patterns.iter().map(|pattern| (pattern.name.as_str(), pattern.title())).collect();
    let found = former.patterns(&today);
    if found.iter().all(Option::is_none) {
        return Err(strange(&today, former));
    }
    let mut steps = Steps::default();
    for (pattern, was) in patterns.iter().zip(found) {
        let step = match was {
            None => {
                steps.notes.push(format!("{} is new", pattern.name));
                None
            }
            Some(was) => {
                progress(&format!("comparing {} with edition {}", pattern.name, was.edition));
                Some(step(pattern, was, former, &mut steps.notes)?)
            }
        };
        steps.of.push(step);
    }
    let kept: BTreeSet<&str> = steps.of.iter().flatten().map(|step| step.was.name.as_str()).collect();
    for gone in former.manifest().patterns.iter().filter(|pattern| !kept.contains(pattern.name.as_str())) {
        steps.notes.push(format!("{} was in the release before and is not in this one", gone.name));
    }
    Ok(steps)
}

/// Says that a release before has none of these patterns.
fn strange(today: &[(&str, &str)], former: &Former) -> Refused {
    let listed = |names: Vec<&str>| if names.is_empty() { String::from("none") } else { names.join(", ") };
    let told = listed(former.manifest().patterns.iter().map(|pattern| pattern.name.as_str()).collect());
    let asked = listed(today.iter().map(|(name, _)| *name).collect());
    Refused::new(
        format!("the release before is of other patterns: it has {told}, and what is to be released is {asked}"),
        "name with `--since` the latest release of these patterns, or leave it out for a first one",
    )
}

/// The sizes and colourings in which one pattern is published and the other is not.
fn offers(was: &Compiled, now: &Compiled) -> Vec<Offer> {
    let sizes = |these: &Compiled, others: &Compiled, gone: bool| {
        let (these, others) = (these.sizes(), others.sizes());
        let apart = these.into_iter().filter(|size| !others.contains(size));
        apart.map(|size| Offer::Size { label: size.to_owned(), gone }).collect::<Vec<_>>()
    };
    let colourings = |these: &Compiled, others: &Compiled, gone: bool| {
        let (these, others) = (these.colourings(), others.colourings());
        let apart = these.into_iter().filter(|(key, _)| !others.iter().any(|(other, _)| other == key));
        apart.map(|(_, title)| Offer::Colouring { title: title.to_owned(), gone }).collect::<Vec<_>>()
    };
    let all = [sizes(was, now, true), colourings(was, now, true), sizes(now, was, false), colourings(now, was, false)];
    all.concat()
}

fn step<'f>(
    pattern: &Compiled,
    was: &'f PatternTold,
    former: &'f Former,
    notes: &mut Vec<String>,
) -> Result<Step<'f>, Refused> {
    let compiled = former.compiled(was)?;
    let mut step = Step { was, change: Change::default(), offers: offers(&compiled, pattern), packets: Vec::new() };
    let mut otherwise = false;
    for now in &pattern.models {
        let told = was.packets.iter().find(|told| told.size == now.size && told.colouring == now.colouring);
        let before = compiled.models.iter().find(|model| model.size == now.size && model.colouring == now.colouring);
        let revised = if let (Some(told), Some(before)) = (told, before) {
            otherwise |= !former.compiles_alike(told, &before.model);
            let revision = Revision::between(&before.model, &now.model);
            step.change.extend(&before.model, &now.model, &revision);
            Some((before.model.clone(), revision))
        } else {
            step.change.add(Raise::Minor, format!("{} is new", now.words()));
            None
        };
        step.packets.push(told.map(|told| Before { told, revised }));
    }
    let is_gone = |told: &&PacketTold| {
        !pattern.models.iter().any(|now: &AtSize| told.size == now.size && told.colouring == now.colouring)
    };
    for gone in was.packets.iter().filter(is_gone) {
        step.change.add(Raise::Minor, format!("{} is gone", words(&gone.size, gone.colouring.as_deref())));
    }
    if otherwise {
        notes.push(format!(
            "{} {} compiles otherwise with this version of the program ({}) than with the one that made it ({}): \
             what that changed is not told",
            was.name,
            was.edition,
            env!("CARGO_PKG_VERSION"),
            former.manifest().version
        ));
    }
    Ok(step)
}

impl Steps<'_> {
    /// What is wrong with the editions, by the index of the pattern.
    pub fn judged(&self, patterns: &[(Edition, &Compiled)], former: &Former) -> Vec<(usize, Fault)> {
        let dropped = former.manifest().patterns.len() > self.of.iter().flatten().count();
        let same = |step: &Option<Step<'_>>| step.as_ref().is_some_and(|step| step.change.is_empty());
        let nothing_changed = !dropped && self.of.iter().all(same);
        let mut found = Vec::new();
        for (index, (step, (now, pattern))) in self.of.iter().zip(patterns).enumerate() {
            let Some(step) = step else { continue };
            let Some(was) = Edition::parse(&step.was.edition) else { continue };
            let span = pattern.edition_span();
            let fault = match judge(was, *now, step.change.needed) {
                _ if nothing_changed => Some(faults::nothing_changed(span, &step.was.edition)),
                // Among several patterns, one may stay as it is.
                Ok(()) | Err(TooSmall::NothingChanged) => None,
                Err(TooSmall::Below(least)) => {
                    let (now, least) = (now.to_string(), least.to_string());
                    Some(faults::edition_too_small(span, (&step.was.edition, &now), &least, &step.change.reasons))
                }
            };
            found.extend(fault.map(|fault| (index, fault)));
        }
        found
    }
}
