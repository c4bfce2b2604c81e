//! A pattern at every size and in every colouring. It is read once, and proved once for each colouring.

use std::collections::BTreeSet;

use crate::fault::{self, Code, Fault, Severity};
use crate::front::{Options, proved, stem, take};
use crate::model::{Facts, Model};
use crate::notation;
use crate::notation::source::{Sources, Span};
use crate::notation::syntax::{Item, Text};
use crate::pattern::{Effort, Pattern, Shelf};

/// A pattern at every size and in every colouring.
pub struct Compiled {
    /// The name of its source without folders and ending.
    pub name: String,
    /// All texts that were read.
    pub sources: Sources,
    /// What is the matter with it.
    pub faults: Gathered,
    /// What the publisher says; nothing where it could not be resolved.
    pub facts: Option<Facts>,
    /// Its models: every size as drawn, then every size in each colouring. Not all of them where there are errors.
    pub models: Vec<AtSize>,
}

/// A model of a pattern.
pub struct AtSize {
    /// The size, as it is printed.
    pub size: String,
    /// The key of the colouring; none as drawn.
    pub colouring: Option<String>,
    /// The model.
    pub model: Model,
}

impl AtSize {
    /// Which of a pattern's packets it is: `8 in, dawn`.
    pub fn words(&self) -> String {
        words(&self.size, self.colouring.as_deref())
    }
}

/// Which of a pattern's packets one is.
pub fn words(size: &str, colouring: Option<&str>) -> String {
    colouring.map_or_else(|| size.to_owned(), |colouring| format!("{size}, {colouring}"))
}

impl Compiled {
    /// Compiles a source to all its models.
    pub fn of((name, text): (&str, &str), shelf: &dyn Shelf, options: &Options) -> Self {
        let taken = take(name, text, shelf);
        let mut compiled = Self {
            name: stem(name),
            sources: taken.sources,
            faults: Gathered::default(),
            facts: None,
            models: Vec::new(),
        };
        compiled.faults.add(taken.faults, None);
        let Some(mut pattern) = taken.pattern else { return compiled };
        pattern.effort = if options.thorough { Effort::Thorough } else { Effort::Usual };
        let keys = pattern.colourings.iter().map(|colouring| Some(colouring.key.clone()));
        for colouring in std::iter::once(None).chain(keys) {
            compiled.in_colouring(pattern.clone(), colouring, &taken.warnings, options);
        }
        compiled.facts = Some(pattern.facts);
        compiled
    }

    /// Adds all sizes in one colouring.
    fn in_colouring(
        &mut self,
        mut pattern: Pattern,
        colouring: Option<String>,
        warnings: &[(crate::pattern::Site, Fault)],
        options: &Options,
    ) {
        let options = Options { colouring, ..options.clone() };
        if let Err(wrong) = options.apply(&mut pattern, &mut self.sources) {
            return self.faults.add(wrong, None);
        }
        let proved = match proved(&pattern, options.budget()) {
            Ok(proved) => proved,
            Err(stuck) => return self.faults.add(stuck, None),
        };
        for (index, size) in pattern.sizes.iter().enumerate() {
            let (model, mut faults) = proved.model(index, &options, warnings.to_vec());
            let at = words(&size.label, options.colouring.as_deref());
            let Some(model) = model else { continue };
            faults.extend(options.words(&model).err().map(|fault| *fault));
            let is_first = self.models.is_empty();
            self.faults.add(faults, (!is_first).then_some(at.as_str()));
            self.models.push(AtSize { size: size.label.clone(), colouring: options.colouring.clone(), model });
        }
    }

    /// Whether nothing hinders a release.
    pub fn is_sound(&self) -> bool {
        !self.faults.has_errors() && self.facts.is_some() && !self.models.is_empty()
    }

    /// Its title; empty where it could not be resolved.
    pub fn title(&self) -> &str {
        self.facts.as_ref().map_or("", |facts| facts.title.as_str())
    }

    /// The sizes in which it is published, each once.
    pub fn sizes(&self) -> Vec<&str> {
        let mut sizes: Vec<&str> = Vec::new();
        for at in &self.models {
            if !sizes.contains(&at.size.as_str()) {
                sizes.push(&at.size);
            }
        }
        sizes
    }

    /// Its colourings, each once, by key and title.
    pub fn colourings(&self) -> Vec<(&str, &str)> {
        let mut colourings: Vec<(&str, &str)> = Vec::new();
        for at in &self.models {
            let Some(key) = at.colouring.as_deref() else { continue };
            if !colourings.iter().any(|(known, _)| *known == key) {
                colourings.push((key, at.model.colouring.as_deref().unwrap_or(key)));
            }
        }
        colourings
    }

    /// The place of the edition in the source.
    pub fn edition_span(&self) -> Span {
        let line = self.sources.get(0).and_then(|source| edition_line(source.text()));
        line.map_or_else(|| Span::new(0, 0..0), |line| line.span)
    }
}

/// The edition that a source states.
pub fn edition_line(text: &str) -> Option<Text> {
    let (file, _) = notation::parse(0, text);
    file.items.into_iter().find_map(|item| if let Item::Edition(line) = item.value { Some(line) } else { None })
}

/// The faults of a pattern: one that is found at several sizes is told once.
#[derive(Default)]
pub struct Gathered {
    all: Vec<Fault>,
    // Of which kind and where: what a fault says of measures differs from size to size.
    known: BTreeSet<(Code, Vec<Span>, String)>,
}

impl Gathered {
    /// Adds what was found, each thing once; `at` tells where, if it is not found where the pattern is drawn.
    pub fn add(&mut self, mut found: Vec<Fault>, at: Option<&str>) {
        fault::sort(&mut found);
        let key = |fault: &Fault| {
            let places: Vec<Span> = fault.labels.iter().map(|label| label.span).collect();
            let words = if places.is_empty() { fault.message.clone() } else { String::new() };
            (fault.code, places, words)
        };
        found.retain(|fault| !self.known.contains(&key(fault)));
        self.known.extend(found.iter().map(key));
        for mut fault in found {
            if let Some(at) = at {
                fault.message = format!("{} ({at})", fault.message);
            }
            self.all.push(fault);
        }
    }

    /// Whether one of them is an error.
    pub fn has_errors(&self) -> bool {
        self.all.iter().any(|fault| fault.severity() == Severity::Error)
    }

    /// All of them, in order of place.
    pub fn into_sorted(mut self) -> Vec<Fault> {
        fault::sort(&mut self.all);
        self.all
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn faults_of_several_sizes_are_told_once() {
        let at = |start: usize| Span::new(0, start..start + 1);
        let narrow = |start, words: &str| Fault::new(Code::NarrowSection, words, at(start));
        let mut gathered = Gathered::default();
        gathered.add(vec![narrow(5, "1/8 in wide")], None);
        gathered.add(vec![narrow(5, "1/16 in wide"), narrow(2, "1/4 in wide")], Some("6 in"));
        gathered.add(vec![narrow(2, "1/4 in wide")], Some("6 in, dawn"));
        gathered.add(vec![Fault::nowhere(Code::MissingLetter, "a"), Fault::nowhere(Code::MissingLetter, "b")], None);
        gathered.add(vec![Fault::nowhere(Code::MissingLetter, "b")], Some("6 in"));
        assert!(gathered.has_errors());
        let told: Vec<String> = gathered.into_sorted().into_iter().map(|fault| fault.message).collect();
        assert_eq!(told, ["a", "b", "1/4 in wide (6 in)", "1/8 in wide"]);
    }

    #[test]
    fn the_edition_is_found_in_its_line() {
        let text = "pattern \"Gull\" // edition \"9.9\"\n  edition  \"1.2\"\n";
        let line = edition_line(text).expect("an edition");
        assert_eq!((line.value.as_str(), &text[line.span.range()]), ("1.2", "\"1.2\""));
        assert!(edition_line("pattern \"Gull\"\n").is_none());
    }
}
