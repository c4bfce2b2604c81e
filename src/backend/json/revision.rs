//! What changed between two models as JSON, described by `docs/revision.schema.json`. Lengths are inches at the later model's size.

use serde::Serialize;

use super::cloth::{Buy, buy, shape, trim};
use super::numbers::{length, place};
use super::{fabric_key, layout::Layout};
use crate::model::{Block, Model, Variant};
use crate::revision::{
    Alteration, BuyChange, Change, CutChange, FoundationChange, Piece, Revision, SewChange, Sewn, StillFits, Told,
    WordsChange,
};

/// The number of the shape; it rises when a reader of the old shape would misread the new one.
const SCHEMA: u32 = 1;

/// A pattern on both sides of a comparison.
#[derive(Debug, Clone, Copy)]
pub struct Compared<'m> {
    /// By what the two sides were matched.
    pub key: &'m str,
    /// The earlier model; none where the pattern is new.
    pub was: Option<&'m Model>,
    /// The later model; none where the pattern is gone.
    pub now: Option<&'m Model>,
    /// What changed, and in words; none where the pattern is new or gone.
    pub revision: Option<(&'m Revision, &'m Told)>,
}

/// Patterns that were compared as a JSON text that ends in a line feed.
#[must_use]
pub fn revisions(patterns: &[Compared<'_>]) -> String {
    let mut bytes = Vec::new();
    let mut serializer = serde_json::Serializer::with_formatter(&mut bytes, Layout::default());
    let root = Root { schema: SCHEMA, patterns: patterns.iter().map(pattern).collect() };
    // Writing numbers, texts and lists into memory cannot fail.
    let written = root.serialize(&mut serializer);
    debug_assert!(written.is_ok());
    bytes.push(b'\n');
    String::from_utf8(bytes).unwrap_or_default()
}

#[derive(Serialize)]
struct Root<'m> {
    schema: u32,
    patterns: Vec<Pattern<'m>>,
}

#[derive(Serialize)]
struct Pattern<'m> {
    key: &'m str,
    state: &'static str,
    was: Option<Side<'m>>,
    now: Option<Side<'m>>,
    raise: &'static str,
    changes: Vec<ChangeShape<'m>>,
    told: Vec<ToldShape<'m>>,
}

#[derive(Serialize)]
struct Side<'m> {
    title: &'m str,
    edition: &'m str,
    size: &'m str,
    colouring: Option<&'m str>,
}

#[derive(Serialize)]
struct ToldShape<'m> {
    consequence: &'static str,
    lines: &'m [String],
}

/// Each kind with its own keys.
#[derive(Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
enum ChangeShape<'m> {
    Foundation {
        consequence: &'static str,
        raise: &'static str,
        block: &'m str,
        was: Option<Foundation<'m>>,
        now: Option<Foundation<'m>>,
        redrawn: Option<Redrawn>,
        renumbered: Vec<[usize; 2]>,
        recoloured: Vec<Recoloured<'m>>,
        renamed: bool,
        relabelled: Vec<&'static str>,
        counted: bool,
    },
    Cut {
        consequence: &'static str,
        raise: &'static str,
        block: &'m str,
        foundation: &'m str,
        section: usize,
        was_section: Option<usize>,
        strip: Option<usize>,
        was: Option<PieceShape<'m>>,
        now: Option<PieceShape<'m>>,
        may_come_up_short: bool,
    },
    Buy {
        consequence: &'static str,
        raise: &'static str,
        fabric: &'m str,
        colouring: Option<&'m str>,
        was: Option<Buy>,
        now: Option<Buy>,
    },
    Sewing {
        consequence: &'static str,
        raise: &'static str,
        block: &'m str,
        what: &'static str,
        joins: Vec<usize>,
        foundation: Option<&'m str>,
        section: Option<usize>,
        placement: Option<&'m str>,
    },
    Words {
        consequence: &'static str,
        raise: &'static str,
        about: &'static str,
        of: Option<&'m str>,
        was: Option<&'m str>,
        now: Option<&'m str>,
    },
}

#[derive(Serialize)]
struct Foundation<'m> {
    id: &'m str,
    mark: &'m str,
    unit: &'m str,
    sewn: u32,
}

#[derive(Serialize)]
struct Redrawn {
    farthest: f64,
    at: super::numbers::Place,
    sections: Vec<usize>,
    still_fits: &'static str,
}

#[derive(Serialize)]
struct Recoloured<'m> {
    section: usize,
    was: &'m str,
    now: &'m str,
}

#[derive(Serialize)]
struct PieceShape<'m> {
    fabric: &'m str,
    shape: &'static str,
    width: f64,
    height: f64,
    trim: Option<[f64; 2]>,
    count: u32,
}

fn pattern<'m>(of: &Compared<'m>) -> Pattern<'m> {
    let side = |model: &'m Model| Side {
        title: &model.facts.title,
        edition: &model.facts.edition,
        size: &model.size,
        colouring: model.colouring.as_deref(),
    };
    let state = match (of.was, of.now, of.revision) {
        (None, _, _) => "added",
        (_, None, _) => "removed",
        (_, _, Some((revision, _))) if revision.is_empty() => "same",
        _ => "changed",
    };
    let shown = Shown::of(of);
    Pattern {
        key: of.key,
        state,
        was: of.was.map(side),
        now: of.now.map(side),
        raise: of.revision.map_or("major", |(revision, _)| revision.raise().word()),
        changes: shown
            .map(|shown| shown.revision.changes.iter().map(|change| shown.change(change)).collect())
            .unwrap_or_default(),
        told: of
            .revision
            .map(|(_, told)| {
                let part = |part: &'m crate::revision::ToldPart| ToldShape {
                    consequence: part.consequence.word(),
                    lines: &part.lines,
                };
                told.parts.iter().map(part).collect()
            })
            .unwrap_or_default(),
    }
}

/// A revision with the models that its indices point into.
struct Shown<'m> {
    was: &'m Model,
    now: &'m Model,
    revision: &'m Revision,
}

impl<'m> Shown<'m> {
    fn of(compared: &Compared<'m>) -> Option<Self> {
        Some(Self { was: compared.was?, now: compared.now?, revision: compared.revision?.0 })
    }

    fn block_was(&self, pair: usize) -> Option<&'m Block> {
        self.was.blocks.get(self.revision.pairs.blocks.get(pair)?.was?)
    }

    fn block_now(&self, pair: usize) -> Option<&'m Block> {
        self.now.blocks.get(self.revision.pairs.blocks.get(pair)?.now?)
    }

    fn block(&self, pair: usize) -> &'m str {
        self.block_now(pair).or_else(|| self.block_was(pair)).map_or("", |block| &block.name)
    }

    fn change(&self, change: &'m Change) -> ChangeShape<'m> {
        let consequence = change.consequence().word();
        let raise = self.revision.raise_of(change).word();
        match change {
            Change::Foundation(of) => self.foundation(of, consequence, raise),
            Change::Cut(of) => self.cut(of, consequence, raise),
            Change::Buy(of) => self.buy(of, consequence, raise),
            Change::Sew(of) => self.sewing(of, consequence, raise),
            Change::Words(WordsChange { about, of, was, now }) => ChangeShape::Words {
                consequence,
                raise,
                about: about.word(),
                of: Some(of.as_str()).filter(|of| !of.is_empty()),
                was: was.as_deref(),
                now: now.as_deref(),
            },
        }
    }

    fn foundation(&self, of: &'m FoundationChange, consequence: &'static str, raise: &'static str) -> ChangeShape<'m> {
        let told = |block: Option<&'m Block>, index: Option<usize>| {
            let block = block?;
            let variant: &'m Variant = block.variants.get(index?)?;
            let unit = block.unit_of(variant);
            Some(Foundation { id: &variant.id, mark: &variant.mark, unit: &unit.name, sewn: variant.sewn })
        };
        let (mut redrawn, mut renumbered, mut recoloured) = (None, Vec::new(), Vec::new());
        let (mut renamed, mut relabelled, mut counted) = (false, Vec::new(), false);
        for alteration in &of.alterations {
            match alteration {
                Alteration::Redrawn(found) => {
                    redrawn = Some(Redrawn {
                        farthest: length(found.farthest),
                        at: place(found.at),
                        sections: found.sections.clone(),
                        still_fits: match found.fit {
                            StillFits::Fits => "fits",
                            StillFits::MeetsElsewhere => "meets-elsewhere",
                            StillFits::Not => "no",
                        },
                    });
                }
                Alteration::Renumbered(moved) => renumbered = moved.iter().map(|&(now, was)| [now, was]).collect(),
                Alteration::Recoloured(sections) => {
                    let shape = |one: &crate::revision::Recoloured| Recoloured {
                        section: one.section,
                        was: fabric_key(self.was, one.was),
                        now: fabric_key(self.now, one.now),
                    };
                    recoloured = sections.iter().map(shape).collect();
                }
                Alteration::Renamed { .. } => renamed = true,
                Alteration::Relabelled(beside) => relabelled = beside.iter().map(|beside| beside.word()).collect(),
                Alteration::Counted { .. } => counted = true,
            }
        }
        ChangeShape::Foundation {
            consequence,
            raise,
            block: self.block(of.block),
            was: told(self.block_was(of.block), of.was),
            now: told(self.block_now(of.block), of.now),
            redrawn,
            renumbered,
            recoloured,
            renamed,
            relabelled,
            counted,
        }
    }

    fn cut(&self, of: &'m CutChange, consequence: &'static str, raise: &'static str) -> ChangeShape<'m> {
        let piece = |model: &'m Model, piece: &Piece| PieceShape {
            fabric: fabric_key(model, piece.fabric),
            shape: shape(piece.shape),
            width: length(piece.width),
            height: length(piece.height),
            trim: trim(piece.shape),
            count: piece.count,
        };
        let pair = self.revision.pairs.blocks.get(of.block);
        let is_now = pair.is_some_and(|pair| pair.variants.iter().any(|(_, now)| *now == Some(of.variant)));
        let block = if is_now { self.block_now(of.block) } else { self.block_was(of.block) };
        ChangeShape::Cut {
            consequence,
            raise,
            block: self.block(of.block),
            foundation: block.and_then(|block| block.variants.get(of.variant)).map_or("", |variant| &variant.id),
            section: of.section,
            was_section: of.was_section,
            strip: of.strip,
            was: of.was.as_ref().map(|of| piece(self.was, of)),
            now: of.now.as_ref().map(|of| piece(self.now, of)),
            may_come_up_short: of.grew(&self.revision.pairs),
        }
    }

    fn buy(&self, of: &'m BuyChange, consequence: &'static str, raise: &'static str) -> ChangeShape<'m> {
        ChangeShape::Buy {
            consequence,
            raise,
            fabric: fabric_key(if of.now.is_some() { self.now } else { self.was }, of.fabric),
            colouring: of.colouring.as_deref(),
            was: of.was.map(|amount| buy(self.was, amount)),
            now: of.now.map(|amount| buy(self.now, amount)),
        }
    }

    fn sewing(&self, of: &'m SewChange, consequence: &'static str, raise: &'static str) -> ChangeShape<'m> {
        let block = self.block_now(of.block);
        let id =
            |variant: usize| block.and_then(|block| block.variants.get(variant)).map(|variant| variant.id.as_str());
        let (mut foundation, mut section, mut placement, mut joins) = (None, None, None, Vec::new());
        let what = match &of.what {
            Sewn::Joined(at) => {
                joins.push(at + 1);
                "joined"
            }
            Sewn::Unjoined(at) => {
                joins.push(at + 1);
                "unjoined"
            }
            Sewn::Reordered(all) => {
                joins.extend(all.iter().map(|at| at + 1));
                "reordered"
            }
            Sewn::Pressed { now, .. } => {
                joins.push(now + 1);
                "pressed"
            }
            Sewn::Met { now, .. } => {
                joins.push(now + 1);
                "met"
            }
            Sewn::Placed(at) => {
                placement = block.and_then(|block| block.placements.get(*at)).map(|place| place.id.as_str());
                "placed"
            }
            Sewn::StripsPressed(variant, of) => {
                (foundation, section) = (id(*variant), Some(*of));
                "strips-pressed"
            }
            Sewn::SectionStep(variant, of) => {
                (foundation, section) = (id(*variant), Some(*of));
                "step"
            }
            Sewn::JoinStep(at) => {
                joins.push(at + 1);
                "step"
            }
        };
        ChangeShape::Sewing {
            consequence,
            raise,
            block: self.block(of.block),
            what,
            joins,
            foundation,
            section,
            placement,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Compared, revisions};
    use crate::backend::schema;
    use crate::packet::sample_steps as sample;
    use crate::packet::words::Words;
    use crate::revision::{Revision, told};

    const SCHEMA_TEXT: &str = include_str!("../../../docs/revision.schema.json");

    #[test]
    fn every_state_is_told_as_the_schema_says() {
        let was = sample::model();
        let mut now = was.clone();
        now.facts.notes.push(String::from("Sewn by the sea."));
        now.blocks[0].variants[0].sewn += 1;
        let (same, other) = (Revision::between(&was, &was), Revision::between(&was, &now));
        let words = Words::english();
        let (no_words, in_words) = (told(&was, &was, &same, &words), told(&was, &now, &other, &words));
        let of = |was, now, revision| Compared { key: "gull.piece", was, now, revision };
        let text = revisions(&[
            of(Some(&was), Some(&was), Some((&same, &no_words))),
            of(Some(&was), Some(&now), Some((&other, &in_words))),
            of(None, Some(&now), None),
            of(Some(&was), None, None),
        ]);
        assert_eq!(schema::fault(SCHEMA_TEXT, &text), None);
        let told: serde_json::Value = serde_json::from_str(&text).expect("JSON");
        let states: Vec<&str> =
            told["patterns"].as_array().expect("a list").iter().filter_map(|one| one["state"].as_str()).collect();
        assert_eq!(states, ["same", "changed", "added", "removed"]);
        assert!(schema::fault(SCHEMA_TEXT, &text.replace("\"added\"", "\"found\"")).is_some());
    }

    #[test]
    fn the_schema_promises_every_key_and_no_other() {
        schema::promises_every_key_and_no_other(SCHEMA_TEXT);
    }
}
