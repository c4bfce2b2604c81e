//! What the publisher says of a pattern and of itself, gathered from the pattern and its shared files.

use std::collections::BTreeMap;

use crate::fault::names;
use crate::notation::source::Span;
use crate::notation::syntax::{Date, History, Item, PictureLine, Text};

use super::facts::{Edition, Facts, Image};
use super::files::Pictures;
use super::scope::Resolved;

/// The publisher's lines, gathered. Files come in from the outermost shared one to the pattern itself, so that the last word is the pattern's.
#[derive(Default)]
pub struct Publisher<'s> {
    pub author: Option<&'s Text>,
    licence: Option<&'s Text>,
    skill: Option<&'s Text>,
    contact: Option<&'s Text>,
    report: Option<&'s Text>,
    /// With the file that says so: one that speaks overrules those before it.
    about: (Option<u32>, Vec<&'s Text>),
    tools: Vec<&'s Text>,
    history: Vec<&'s History>,
    editions: BTreeMap<&'s str, Span>,
    logo: Option<&'s PictureLine>,
    photo: Option<&'s PictureLine>,
}

impl<'s> Publisher<'s> {
    /// Takes a line in that is the publisher's, and passes over any other.
    pub fn gather(&mut self, item: &'s Item, span: Span) -> Resolved<()> {
        match item {
            Item::Author(text) => self.author = Some(text),
            Item::Licence(text) => self.licence = Some(text),
            Item::Skill(text) => self.skill = Some(text),
            Item::Contact(text) => self.contact = Some(text),
            Item::Report(text) => self.report = Some(text),
            Item::About(text) => {
                if self.about.0 != Some(span.file) {
                    self.about = (Some(span.file), Vec::new());
                }
                self.about.1.push(text);
            }
            Item::Tool(text) => self.tools.push(text),
            Item::History(line) => {
                let edition = line.edition.value.as_str();
                if let Some(&first) = self.editions.get(edition) {
                    return Err(Box::new(names::doubled_edition(line.edition.span, edition, first)));
                }
                self.editions.insert(edition, line.edition.span);
                self.history.push(line);
            }
            Item::Logo(line) => self.logo = Some(line),
            Item::Photo(line) => self.photo = Some(line),
            _ => {}
        }
        Ok(())
    }

    /// What was gathered, and the faults of the pictures that are shown.
    pub fn facts(&self, pictures: &Pictures, faults: &mut Vec<crate::fault::Fault>) -> Facts {
        let text = |text: Option<&Text>| text.map(|text| text.value.clone());
        let texts = |texts: &[&Text]| texts.iter().map(|text| text.value.clone()).collect();
        let mut image = |line: Option<&PictureLine>, found: &super::files::Looked| match (line, found) {
            (Some(line), Some(Ok(picture))) => {
                Some(Image { picture: picture.clone(), shows: line.shows.value.clone() })
            }
            (Some(_), Some(Err(fault))) => {
                faults.push((**fault).clone());
                None
            }
            _ => None,
        };
        Facts {
            author: text(self.author),
            licence: text(self.licence),
            skill: text(self.skill),
            contact: text(self.contact),
            report: text(self.report),
            about: texts(&self.about.1),
            tools: texts(&self.tools),
            history: self.history(),
            logo: image(self.logo, &pictures.logo),
            photo: image(self.photo, &pictures.photo),
            ..Facts::default()
        }
    }

    /// The editions, ascending where all have numbers; else as they are read, those of shared files in front.
    fn history(&self) -> Vec<Edition> {
        let mut lines = self.history.clone();
        lines.sort_by_key(|line| {
            let file = line.edition.span.file;
            (file == 0, file)
        });
        let mut history: Vec<Edition> = lines.into_iter().map(edition).collect();
        if history.iter().all(|edition| edition.number().is_some()) {
            history.sort_by_key(Edition::number);
        }
        history
    }
}

fn edition(line: &History) -> Edition {
    Edition {
        edition: line.edition.value.clone(),
        date: line.date.as_ref().map(|date| date_words(date.value)),
        words: line.words.value.clone(),
    }
}

/// `2026-11-01`
pub fn date_words(date: Date) -> String {
    format!("{:04}-{:02}-{:02}", date.year, date.month, date.day)
}
