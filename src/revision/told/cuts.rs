//! How pieces are cut otherwise, in words: pieces that change alike are told together.

use std::collections::BTreeSet;

use crate::packet::measure::Measures;
use crate::packet::shape::shaped;
use crate::packet::steps::told_together;
use crate::packet::words::Words;

use super::super::{Change, CutChange, FoundationChange, Piece, Revision};
use super::{Found, Teller};
use crate::model::Model;

/// How pieces are cut otherwise, as the rows of a table: for which sections, how now, how before, and what is to be done with pieces that are cut already.
#[must_use]
pub(in crate::revision) fn cut_rows(was: &Model, now: &Model, revision: &Revision, words: &Words) -> Vec<[String; 4]> {
    let teller = Teller { was, now, revision, measures: Measures::new(words, now.units) };
    let rows = teller.cut_cases().into_iter().map(|(case, names)| {
        let sections = words.list(&names);
        let none = || String::from("–");
        match case {
            CutCase::All { come: true } => [sections, words.change_row_all(), none(), none()],
            CutCase::All { come: false } => {
                [sections, none(), words.change_row_all(), words.change_row_already("unneeded")]
            }
            CutCase::Sized { now, was, count, already } => [
                sections,
                words.change_pieces_of(words.change_pieces(count, names.len()), now),
                was,
                words.change_row_already(already),
            ],
            CutCase::Counted { size, now, was } => [
                sections,
                words.change_pieces_of(words.change_pieces(now, names.len()), size),
                words.change_row_pieces(was),
                none(),
            ],
            CutCase::More { now, was } => [sections, words.change_row_more(now), words.change_row_times(was), none()],
            CutCase::Come { now, count } => {
                [sections, words.change_pieces_of(words.change_pieces(count, names.len()), now), none(), none()]
            }
            CutCase::Gone { was } => [sections, none(), was, words.change_row_already("unneeded")],
        }
    });
    rows.collect()
}

impl<'m> Teller<'m> {
    /// How pieces are cut otherwise, each with the sections that it is about: pieces that change alike stand together.
    pub(super) fn cut_cases(&self) -> Vec<(CutCase, Vec<String>)> {
        let each = self.revision.changes.iter().filter_map(|change| {
            let Change::Cut(change) = change else { return None };
            let case = self.cut_case(change)?;
            let name = match &case {
                CutCase::All { .. } | CutCase::More { .. } => self.named(self.of_cut(change)?),
                _ => self.section(change)?,
            };
            Some((case, name))
        });
        let mut groups = told_together(each);
        // Pieces of one section for several turns have the same name.
        for (_, names) in &mut groups {
            let mut known = BTreeSet::new();
            names.retain(|name| known.insert(name.clone()));
        }
        groups
    }

    pub(super) fn cuts(&self) -> Vec<String> {
        let words = self.words();
        let cases = self.cut_cases();
        let mut told: Vec<String> = cases
            .iter()
            .map(|(case, names)| {
                let (count, names) = (names.len(), words.list(names));
                match case {
                    CutCase::All { come: true } => words.change_cut_all(names, count),
                    CutCase::All { come: false } => words.change_cut_none(names, count),
                    CutCase::Sized { now, was, count: pieces, .. } => {
                        words.change_cut(names, now.as_str(), was.as_str(), words.change_pieces(*pieces, count))
                    }
                    CutCase::Counted { size, now, was } => words.change_cut_count(names, *now, *was, size.as_str()),
                    CutCase::More { now, was } => words.change_cut_more(names, *now, *was),
                    CutCase::Come { now, count: pieces } => {
                        words.change_cut_new(names, now.as_str(), words.change_pieces(*pieces, count))
                    }
                    CutCase::Gone { was } => words.change_cut_gone(names, was.as_str()),
                }
            })
            .collect();
        // What to do with pieces that are cut already is told once for all that it is true of.
        for already in ["short", "enough"] {
            let of =
                cases.iter().filter(|(case, _)| matches!(case, CutCase::Sized { already: of, .. } if *of == already));
            let names: Vec<&String> = of.flat_map(|(_, names)| names).collect();
            told.extend((!names.is_empty()).then(|| words.change_cut_already_for(already, words.list(&names))));
        }
        told
    }

    /// The foundation of a piece: of the earlier model where it is gone.
    fn of_cut(&self, change: &CutChange) -> Option<Found<'m>> {
        let pair = self.revision.pairs.blocks.get(change.block)?;
        let is_there = pair.variants.iter().any(|(_, now)| *now == Some(change.variant) && now.is_some());
        let gone_whole = !is_there || self.block_now(change.block).is_none() || self.is_gone(change);
        let block = if gone_whole { self.block_was(change.block)? } else { self.block_now(change.block)? };
        Some((block, block.variants.get(change.variant)?))
    }

    /// Whether the whole foundation of a piece is gone: then it is told by its index in the earlier model.
    fn is_gone(&self, change: &CutChange) -> bool {
        self.revision.changes.iter().any(|other| match other {
            Change::Foundation(other) => {
                other.block == change.block
                    && other.now.is_none()
                    && other.was == Some(change.variant)
                    && change.now.is_none()
            }
            _ => false,
        })
    }

    /// The section of a piece, or its strip; where its mark or number was another, with the one before: labels on pieces that are cut bear that.
    fn section(&self, change: &CutChange) -> Option<String> {
        let words = self.words();
        let of = |mark: &str, section: usize| {
            let section = format!("{mark}{section}");
            match change.strip {
                Some(strip) => words.change_strip(section, strip),
                None => section,
            }
        };
        let (block, variant) = self.of_cut(change)?;
        let former = change.was_section.and_then(|section| Some(of(&self.former_mark(change)?, section)));
        let now = change.now.as_ref().map(|_| of(&variant.mark, change.section));
        let name = match (now, former) {
            (Some(now), Some(former)) if now != former => words.change_section_was(now, former),
            (Some(name), _) | (None, Some(name)) => name,
            (None, None) => of(&variant.mark, change.section),
        };
        Some(self.in_block(&block.name, name))
    }

    /// The mark that the foundation of a piece had.
    fn former_mark(&self, change: &CutChange) -> Option<String> {
        let block = self.block_was(change.block)?;
        if self.is_gone(change) {
            return block.variants.get(change.variant).map(|variant| variant.mark.clone());
        }
        let pair = self.revision.pairs.blocks.get(change.block)?;
        let (was, _) = pair.variants.iter().find(|(_, now)| *now == Some(change.variant))?;
        block.variants.get((*was)?).map(|variant| variant.mark.clone())
    }

    fn cut_case(&self, change: &CutChange) -> Option<CutCase> {
        let of_new = self.revision.changes.iter().any(|other| match other {
            Change::Foundation(other) => {
                other.block == change.block
                    && other.was.is_none()
                    && other.now == Some(change.variant)
                    && change.was.is_none()
            }
            _ => false,
        });
        Some(match (&change.was, &change.now) {
            (None, Some(_)) if of_new => CutCase::All { come: true },
            (Some(_), None) if self.is_gone(change) => CutCase::All { come: false },
            (Some(was), Some(now)) => {
                let same_fabric = self.revision.pairs.fabric_was(now.fabric) == Some(was.fabric);
                let (before, after) =
                    (self.piece(was, self.fabric_was(was.fabric)), self.piece(now, self.fabric_now(now.fabric)));
                if same_fabric && (was.shape, was.width, was.height) == (now.shape, now.width, now.height) {
                    let block = self.revision.pairs.blocks.get(change.block)?.now?;
                    match self.revision.change_of(block, change.variant).and_then(FoundationChange::counted) {
                        Some((now, was)) => CutCase::More { now, was },
                        None => CutCase::Counted { size: after, now: now.count, was: was.count },
                    }
                } else {
                    let before = if same_fabric { self.size(was) } else { before };
                    let pieces = |count: u32| self.words().change_pieces(count, 1);
                    let before = if was.count == now.count {
                        before
                    } else {
                        self.words().change_pieces_of(pieces(was.count), before)
                    };
                    let already = match (same_fabric, change.grew(&self.revision.pairs)) {
                        (false, _) => "fabric",
                        (true, true) => "short",
                        (true, false) => "enough",
                    };
                    CutCase::Sized { now: after, was: before, count: now.count, already }
                }
            }
            (None, Some(now)) => CutCase::Come { now: self.piece(now, self.fabric_now(now.fabric)), count: now.count },
            (Some(was), None) => CutCase::Gone { was: self.piece(was, self.fabric_was(was.fabric)) },
            (None, None) => return None,
        })
    }

    fn size(&self, piece: &Piece) -> String {
        shaped(piece.shape, (piece.width, piece.height), self.measures)
    }

    fn piece(&self, piece: &Piece, fabric: &str) -> String {
        self.words().change_piece(fabric, self.size(piece))
    }
}

/// How pieces are cut otherwise, in words.
#[derive(PartialEq, Eq)]
pub(super) enum CutCase {
    /// All pieces of a foundation are new, or no longer cut.
    All { come: bool },
    /// In another size, shape or fabric, so many for each section. With what is to be said of pieces that are cut already, by the key of the catalogue.
    Sized { now: String, was: String, count: u32, already: &'static str },
    /// As they were, but in another number.
    Counted { size: String, now: u32, was: u32 },
    /// As they were, for so many foundations now, and so many before.
    More { now: u32, was: u32 },
    /// New, so many for each section.
    Come { now: String, count: u32 },
    /// No longer cut.
    Gone { was: String },
}
