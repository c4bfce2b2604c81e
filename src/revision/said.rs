//! What the packet says otherwise: the publisher's lines, notes, names, sizes, fabrics, paper.

use crate::geometry::Length;
use crate::model::{Fabric, FabricCutting, Facts, Image, Model, PieceGroup, Print, PrintDirection, Units};
use crate::pattern::number_words;

use super::{BlockPair, Change, Pairs, Said, WordsChange};

/// Adds all that is said otherwise.
pub(super) fn compare(was: &Model, now: &Model, pairs: &Pairs, changes: &mut Vec<Change>) {
    let mut said = Saying { changes: Vec::new() };
    said.facts(&was.facts, &now.facts);
    said.model(was, now);
    said.fabrics(was, now, pairs);
    said.colourings(was, now, pairs);
    for pair in &pairs.blocks {
        said.block(was, now, pair);
    }
    said.cutting(was, now, pairs);
    changes.extend(said.changes.into_iter().map(Change::Words));
}

/// What is reckoned differs by less than is printed.
pub(super) fn unseen() -> Change {
    Change::Words(WordsChange { about: Said::Unseen, of: String::new(), was: None, now: None })
}

/// One thing that is said otherwise.
pub(super) fn one(about: Said, of: &str, was: Option<String>, now: Option<String>) -> Change {
    Change::Words(WordsChange { about, of: of.to_owned(), was, now })
}

/// The sizes in which a pattern is published.
pub(super) fn sizes(was: &[String], now: &[String]) -> Change {
    let all = |sizes: &[String]| Some(sizes.join(", "));
    Change::Words(WordsChange { about: Said::Sizes, of: String::new(), was: all(was), now: all(now) })
}

struct Saying {
    changes: Vec<WordsChange>,
}

impl Saying {
    /// One thing that may be said, before and now.
    fn one(&mut self, about: Said, of: &str, was: Option<String>, now: Option<String>) {
        if was != now {
            self.changes.push(WordsChange { about, of: of.to_owned(), was, now });
        }
    }

    /// Several things, of which those that both have are told of no more.
    fn several(&mut self, about: Said, of: &str, was: &[String], now: &[String]) {
        if was == now {
            return;
        }
        let gone: Vec<&String> = was.iter().filter(|words| !now.contains(words)).collect();
        let come: Vec<&String> = now.iter().filter(|words| !was.contains(words)).collect();
        if gone.is_empty() && come.is_empty() {
            // In another order, or more often.
            self.one(about, of, Some(was.join(" / ")), Some(now.join(" / ")));
        }
        for at in 0..gone.len().max(come.len()) {
            self.one(about, of, gone.get(at).map(|&words| words.clone()), come.get(at).map(|&words| words.clone()));
        }
    }

    fn facts(&mut self, was: &Facts, now: &Facts) {
        // So that a fact that is added later is not forgotten here.
        let Facts {
            title,
            edition,
            author,
            date,
            licence,
            notes,
            skill,
            contact,
            report,
            about,
            tools,
            history,
            logo,
            photo,
        } = now;
        self.one(Said::Title, "", Some(was.title.clone()), Some(title.clone()));
        self.one(Said::Edition, "", Some(was.edition.clone()), Some(edition.clone()));
        self.one(Said::Date, "", was.date.clone(), date.clone());
        self.one(Said::Author, "", was.author.clone(), author.clone());
        self.one(Said::Licence, "", was.licence.clone(), licence.clone());
        self.one(Said::Skill, "", was.skill.clone(), skill.clone());
        self.one(Said::Contact, "", was.contact.clone(), contact.clone());
        self.one(Said::Report, "", was.report.clone(), report.clone());
        self.several(Said::About, "", &was.about, about);
        self.several(Said::Tools, "", &was.tools, tools);
        self.several(Said::Note, "", &was.notes, notes);
        let editions = |all: &[crate::model::Edition]| {
            let told = all.iter().map(|edition| match &edition.date {
                Some(date) => format!("{} ({date}): {}", edition.edition, edition.words),
                None => format!("{}: {}", edition.edition, edition.words),
            });
            told.collect::<Vec<String>>()
        };
        self.several(Said::History, "", &editions(&was.history), &editions(history));
        self.image(Said::Logo, was.logo.as_ref(), logo.as_ref());
        self.image(Said::Photo, was.photo.as_ref(), photo.as_ref());
    }

    fn image(&mut self, about: Said, was: Option<&Image>, now: Option<&Image>) {
        if was != now {
            let shows = |image: Option<&Image>| image.map(|image| image.shows.clone());
            self.changes.push(WordsChange { about, of: String::new(), was: shows(was), now: shows(now) });
        }
    }

    fn model(&mut self, was: &Model, now: &Model) {
        let length = |length: Length| {
            Some(match now.units {
                Units::Inches => format!("{} in", number_words(length.to_inches())),
                Units::Metric => format!("{} mm", number_words(length.to_millimetres())),
            })
        };
        self.one(Said::Finished, "", Some(was.size.clone()), Some(now.size.clone()));
        self.one(Said::Allowance, "", length(was.allowance), length(now.allowance));
        self.one(Said::Ease, "", length(was.ease), length(now.ease));
        self.one(Said::People, "", Some(was.people.to_string()), Some(now.people.to_string()));
        self.one(Said::Language, "", was.language.clone(), now.language.clone());
        let units = |model: &Model| Some(String::from(if model.units == Units::Inches { "in" } else { "cm" }));
        self.one(Said::Units, "", units(was), units(now));
        let papers = |model: &Model| model.papers.iter().map(|paper| paper.name()).collect::<Vec<_>>().join(", ");
        self.one(Said::Paper, "", Some(papers(was)), Some(papers(now)));
        if was.sheets != now.sheets {
            self.changes.push(WordsChange { about: Said::Paper, of: String::new(), was: None, now: None });
        }
        if was.effort != now.effort {
            self.changes.push(WordsChange { about: Said::Proofs, of: String::new(), was: None, now: None });
        }
    }

    fn fabrics(&mut self, was: &Model, now: &Model, pairs: &Pairs) {
        for (index, fabric) in now.fabrics.iter().enumerate() {
            let before = pairs.fabric_was(index).and_then(|at| was.fabrics.get(at));
            match before {
                // In words they may be the same and yet differ, as in how they are cut.
                Some(before) if before != fabric => {
                    let (from, to) = (fabric_words(before), fabric_words(fabric));
                    let differ = from != to;
                    self.changes.push(WordsChange {
                        about: Said::Fabric,
                        of: fabric.name.clone(),
                        was: Some(from).filter(|_| differ),
                        now: Some(to).filter(|_| differ),
                    });
                }
                Some(_) => {}
                None => self.one(Said::Fabric, &fabric.name, None, Some(fabric_words(fabric))),
            }
        }
        for (index, fabric) in was.fabrics.iter().enumerate() {
            if pairs.fabric_now(index).is_none() {
                self.one(Said::Fabric, &fabric.name, Some(fabric_words(fabric)), None);
            }
        }
    }

    fn colourings(&mut self, was: &Model, now: &Model, pairs: &Pairs) {
        self.one(Said::Colouring, "", was.colouring.clone(), now.colouring.clone());
        let name = |model: &Model, fabric: usize| {
            model.fabrics.get(fabric).map_or("", |fabric| fabric.name.as_str()).to_owned()
        };
        let words = |model: &Model, fabrics: &[(usize, usize)]| {
            let changes = fabrics.iter().map(|&(from, to)| format!("{} → {}", name(model, from), name(model, to)));
            changes.collect::<Vec<_>>().join("; ")
        };
        for colouring in &now.colourings {
            let before = was.colourings.iter().find(|other| other.title == colouring.title);
            let same = before.is_some_and(|before| {
                let was_of = |&(from, to): &(usize, usize)| Some((pairs.fabric_was(from)?, pairs.fabric_was(to)?));
                colouring.fabrics.iter().map(was_of).collect::<Option<Vec<_>>>().as_ref() == Some(&before.fabrics)
            });
            if !same {
                let before = before.map(|before| words(was, &before.fabrics));
                self.changes.push(WordsChange {
                    about: Said::Colouring,
                    of: colouring.title.clone(),
                    was: before,
                    now: Some(words(now, &colouring.fabrics)),
                });
            }
        }
        for colouring in &was.colourings {
            if !now.colourings.iter().any(|other| other.title == colouring.title) {
                self.one(Said::Colouring, &colouring.title, Some(words(was, &colouring.fabrics)), None);
            }
        }
    }

    fn block(&mut self, was: &Model, now: &Model, pair: &BlockPair) {
        let Some((was, now)) = pair.both(was, now) else {
            let of = |model: &Model, at: Option<usize>| {
                at.and_then(|at| model.blocks.get(at)).map(|block| block.name.clone())
            };
            self.one(Said::Block, "", of(was, pair.was), of(now, pair.now));
            return;
        };
        self.one(Said::Block, "", Some(was.name.clone()), Some(now.name.clone()));
        self.one(Said::Finished, &now.name, Some(was.finished.clone()), Some(now.finished.clone()));
        self.several(Said::Note, &now.name, &was.notes, &now.notes);
        let mut told = Vec::new();
        for &(before, after) in &pair.variants {
            let (Some(old), Some(new)) =
                (before.and_then(|at| was.variants.get(at)), after.and_then(|at| now.variants.get(at)))
            else {
                continue;
            };
            if told.contains(&new.unit) {
                continue;
            }
            told.push(new.unit);
            let (a, b) = (was.unit_of(old), now.unit_of(new));
            self.several(Said::Note, &b.name, &a.notes, &b.notes);
            for (k, (x, y)) in a.sections.iter().zip(&b.sections).enumerate() {
                self.several(Said::Note, &format!("{}{}", new.mark, k + 1), &x.notes, &y.notes);
            }
        }
        for (before, after, _) in super::sewing::joined_alike(pair, was, now) {
            let (a, b) = (&was.joins[before], &now.joins[after]);
            self.one(Said::Join, "", a.name.clone(), b.name.clone());
            self.several(Said::Note, &b.name.clone().unwrap_or_default(), &a.notes, &b.notes);
        }
        if was.pressing_proved != now.pressing_proved || was.division != now.division {
            self.changes.push(WordsChange { about: Said::Proofs, of: now.name.clone(), was: None, now: None });
        }
    }

    /// Strips that are laid out anew for the same pieces, and other cloth.
    fn cutting(&mut self, was: &Model, now: &Model, pairs: &Pairs) {
        for cutting in &now.cutting {
            let before = was.cutting.iter().find(|other| pairs.fabric_was(cutting.fabric) == Some(other.fabric));
            // Other pieces are told of as such.
            if let Some(before) = before
                && same_pieces(before, cutting)
                && !planned_alike(before, cutting)
            {
                let of = now.fabrics.get(cutting.fabric).map_or("", |fabric| fabric.name.as_str()).to_owned();
                self.changes.push(WordsChange { about: Said::Cutting, of, was: None, now: None });
            }
        }
        if was.cloth != now.cloth {
            self.changes.push(WordsChange { about: Said::Cutting, of: String::new(), was: None, now: None });
        }
    }
}

/// Whether as many pieces of the same shapes and sizes are cut.
fn same_pieces(was: &FabricCutting, now: &FabricCutting) -> bool {
    let same = |a: &PieceGroup, b: &PieceGroup| {
        (a.fit, a.shape, a.width, a.height, a.count) == (b.fit, b.shape, b.width, b.height, b.count)
    };
    was.pieces.len() == now.pieces.len()
        && now.pieces.iter().all(|group| was.pieces.iter().any(|other| same(group, other)))
}

/// Whether the same strips are cut from the same cloth.
fn planned_alike(was: &FabricCutting, now: &FabricCutting) -> bool {
    let told = |cutting: &FabricCutting| FabricCutting {
        fabric: 0,
        buy: was.buy,
        pieces: cutting
            .pieces
            .iter()
            .map(|group| PieceGroup { label: String::new(), uses: Vec::new(), ..group.clone() })
            .collect(),
        ..cutting.clone()
    };
    told(was) == told(now)
}

fn fabric_words(fabric: &Fabric) -> String {
    let [r, g, b] = fabric.colour;
    let Print { direction, across } = fabric.print;
    let direction = match direction {
        PrintDirection::None => "",
        PrintDirection::TwoWay => ", two-way",
        PrintDirection::OneWay => ", one-way",
    };
    let across = if across { ", across" } else { "" };
    format!("{} #{r:02x}{g:02x}{b:02x}{direction}{across}", fabric.name)
}
