//! The catalogue: every word that a packet prints, by message, from one file for each language.
//!
//! Each message is a method of [`Words`] whose parameters are the message's variables, so that a message that does not exist, a variable that is
//! forgotten and a message that nobody prints are found by the compiler. That a catalogue holds just these messages is checked when it is read.

mod messages;

use std::collections::BTreeSet;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

use messages::messages;

/// The words in English.
const ENGLISH: &str = include_str!("../../assets/words/en.ftl");

/// The words in German.
const GERMAN: &str = include_str!("../../assets/words/de.ftl");

/// The words of a packet in one language.
pub struct Words {
    language: LanguageIdentifier,
    bundle: FluentBundle<FluentResource>,
}

/// What is wrong with a catalogue.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum CatalogueFault {
    /// It is no catalogue as Fluent understands them; what the reader said.
    Unreadable(String),
    /// This message is missing.
    Missing(&'static str),
    /// This message asks for a variable that nobody gives.
    UnknownVariable(&'static str),
    /// This message is never printed.
    Unknown(String),
}

impl Words {
    /// The languages in which there are words, by their codes of ISO 639.
    pub const LANGUAGES: [&str; 2] = ["en", "de"];

    /// The words in a language; `None` where there are none.
    #[must_use]
    pub fn of(language: &str) -> Option<Self> {
        match language {
            "en" => Some(Self::english()),
            "de" => Some(Self::read("de".parse().unwrap_or_default(), GERMAN).0),
            _ => None,
        }
    }

    /// The words in English.
    #[must_use]
    pub fn english() -> Self {
        // That the catalogue within the program is whole is a test, not a question at run time.
        Self::read("en".parse().unwrap_or_default(), ENGLISH).0
    }

    /// The words of a catalogue in any language.
    ///
    /// # Errors
    /// Everything that is missing, unknown or unreadable in it, in order.
    pub fn try_new(language: LanguageIdentifier, catalogue: &str) -> Result<Self, Vec<CatalogueFault>> {
        let (words, unreadable) = Self::read(language, catalogue);
        let mut faults: BTreeSet<CatalogueFault> = unreadable.into_iter().map(CatalogueFault::Unreadable).collect();
        for (name, variables) in messages() {
            match words.message(name, variables.iter().map(|&v| (v, FluentValue::from(1)))) {
                None => _ = faults.insert(CatalogueFault::Missing(name)),
                Some((_, complaints)) if complaints > 0 => _ = faults.insert(CatalogueFault::UnknownVariable(name)),
                Some(_) => {}
            }
        }
        let known: BTreeSet<String> = messages().map(|(name, _)| id_of(name)).collect();
        faults.extend(
            ids_in(catalogue).filter(|id| !known.contains(*id)).map(|id| CatalogueFault::Unknown(id.to_owned())),
        );
        if faults.is_empty() { Ok(words) } else { Err(faults.into_iter().collect()) }
    }

    /// The language, as HTML and PDF name it: `en`.
    #[must_use]
    pub fn language(&self) -> String {
        self.language.to_string()
    }

    /// A list as it is read: "roof, lamp, and base".
    #[must_use]
    pub fn list<S: AsRef<str>>(&self, things: &[S]) -> String {
        self.joined(things, [Self::list_two, Self::list_more, Self::list_last])
    }

    /// Bare numbers as a list, kept apart from their own decimal signs: "8.5, 9, and 10" in English, "8,5; 9 und 10" in German.
    #[must_use]
    pub fn row<S: AsRef<str>>(&self, numbers: &[S]) -> String {
        self.joined(numbers, [Self::row_two, Self::row_more, Self::row_last])
    }

    /// Things joined by the messages for two, for one more, and for the last of several.
    fn joined<S: AsRef<str>>(
        &self,
        things: &[S],
        [two, more, last_of]: [fn(&Self, String, String) -> String; 3],
    ) -> String {
        let owned = |thing: &S| thing.as_ref().to_owned();
        match things {
            [] => String::new(),
            [one] => owned(one),
            [first, second] => two(self, owned(first), owned(second)),
            [first, middle @ .., last] => {
                let start = middle.iter().fold(owned(first), |list, next| more(self, list, owned(next)));
                last_of(self, start, owned(last))
            }
        }
    }

    /// A place and the mark of its foundation: `roof (A)`; `A` alone where it is called by its mark.
    #[must_use]
    pub fn place(&self, name: &str, mark: &str) -> String {
        if is_called_by_mark(name, mark) { name.to_owned() } else { self.join_place(name, mark) }
    }

    /// A foundation by its mark and its unit: `A · roof`; `A` alone where the unit is called by its mark.
    #[must_use]
    pub fn foundation(&self, mark: &str, unit: &str) -> String {
        if is_called_by_mark(unit, mark) { mark.to_owned() } else { self.steps_foundation(mark, unit) }
    }

    fn read(language: LanguageIdentifier, catalogue: &str) -> (Self, Vec<String>) {
        let (resource, mut faults) = match FluentResource::try_new(catalogue.to_owned()) {
            Ok(resource) => (resource, Vec::new()),
            Err((resource, faults)) => (resource, faults.iter().map(ToString::to_string).collect()),
        };
        let mut bundle = FluentBundle::new_concurrent(vec![language.clone()]);
        // Isolating marks round every variable would be printed as boxes on paper.
        bundle.set_use_isolating(false);
        if let Err(doubled) = bundle.add_resource(resource) {
            faults.extend(doubled.iter().map(ToString::to_string));
        }
        (Self { language, bundle }, faults)
    }

    /// A message with its variables in place, and how many of its variables were not given.
    fn message<'v>(
        &self,
        name: &str,
        variables: impl Iterator<Item = (&'static str, FluentValue<'v>)>,
    ) -> Option<(String, usize)> {
        let pattern = self.bundle.get_message(&id_of(name))?.value()?;
        let mut arguments = FluentArgs::new();
        for (name, value) in variables {
            arguments.set(name, value);
        }
        let mut complaints = Vec::new();
        let words = self.bundle.format_pattern(pattern, Some(&arguments), &mut complaints).into_owned();
        Some((words, complaints.len()))
    }
}

/// Whether a name is no more than a mark, a hand's letter and the number of a place left out: `A`, `A 2` of `A` or `Ab`.
fn is_called_by_mark(name: &str, mark: &str) -> bool {
    let own = name.split(' ').next().unwrap_or_default();
    let unit = mark.trim_end_matches(|letter: char| letter.is_lowercase());
    !own.is_empty() && own == unit
}

/// The id in a catalogue of the message that a method prints.
fn id_of(name: &str) -> String {
    name.replace('_', "-")
}

/// The ids of the messages in a catalogue.
fn ids_in(catalogue: &str) -> impl Iterator<Item = &str> {
    catalogue
        .lines()
        .filter(|line| line.starts_with(|c: char| c.is_ascii_alphabetic()))
        .filter_map(|line| line.split_once('='))
        .map(|(id, _)| id.trim())
}

#[cfg(test)]
mod tests;
