//! A revision in words, by consequence: for a terminal, for Markdown, and for the page that tells sewers.

mod cuts;

use crate::geometry::Length;
use crate::model::{Amount, Block, Model, Placement, Press, Purchase, Units, Variant};
use crate::packet::chart::{amount_words, purchase_words};
use crate::packet::figure::place_of;
use crate::packet::measure::Measures;
use crate::packet::steps::{join_side, told_together};
use crate::packet::words::Words;

pub(super) use cuts::cut_rows;

use super::{
    Alteration, Beside, BuyChange, Change, Consequence, FoundationChange, Recoloured, Redrawn, Revision, Said,
    SewChange, Sewn, StillFits, WordsChange,
};

/// A revision in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Told {
    /// Between which editions.
    pub title: String,
    /// The changes, by consequence, those without any left out.
    pub parts: Vec<ToldPart>,
    /// Which foundations stay as they are; none where none does, or nothing changed at all.
    pub same: Option<String>,
}

/// The changes of one consequence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToldPart {
    /// The consequence.
    pub consequence: Consequence,
    /// What to do.
    pub heading: String,
    /// Sentences, each on its own.
    pub lines: Vec<String>,
}

/// Tells a revision between two models.
#[must_use]
pub fn told(was: &Model, now: &Model, revision: &Revision, words: &Words) -> Told {
    let teller = Teller { was, now, revision, measures: Measures::new(words, now.units) };
    let parts = Consequence::ALL.into_iter().filter_map(|consequence| {
        let lines = teller.lines(consequence);
        let heading = words.change_heading(consequence.word());
        (!lines.is_empty()).then_some(ToldPart { consequence, heading, lines })
    });
    let parts: Vec<ToldPart> = parts.collect();
    let same = teller.same().filter(|_| !parts.is_empty());
    Told {
        title: {
            let (from, to) = (&was.facts.edition, &now.facts.edition);
            words.change_title(from, to, if from == to { "yes" } else { "no" })
        },
        same,
        parts,
    }
}

/// What to do with what is already printed, cut or sewn by the earlier model: a sentence for each case.
#[must_use]
pub fn already(was: &Model, now: &Model, revision: &Revision, words: &Words) -> Vec<String> {
    let teller = Teller { was, now, revision, measures: Measures::new(words, now.units) };
    let mut cases: Vec<(&'static str, String)> = Vec::new();
    for change in &revision.changes {
        let (keys, name) = match change {
            Change::Foundation(change) => (cases_of(change), teller.foundation(change)),
            Change::Sew(SewChange { block, what: Sewn::Pressed { now: at, .. } }) => {
                let join = teller.block_now(*block).and_then(|block| teller.join(block, *at));
                (vec!["pressed"], join.unwrap_or_default())
            }
            Change::Sew(SewChange { block, what: Sewn::Placed(at) }) => {
                let name = teller.block_now(*block).and_then(|block| {
                    let place = block.placements.get(*at)?;
                    Some(words.place(&place.name, &block.variants.get(place.variant)?.mark))
                });
                (vec!["placed"], name.unwrap_or_default())
            }
            _ => continue,
        };
        cases.extend(keys.into_iter().map(|case| (case, name.clone())));
    }
    let told = told_together(cases.into_iter()).into_iter();
    told.map(|(case, names)| words.change_already(case, words.list(&names), names.len())).collect()
}

/// The foundations whose former papers mislead, by name.
#[must_use]
pub(super) fn misleading(was: &Model, now: &Model, revision: &Revision, words: &Words) -> Vec<String> {
    let teller = Teller { was, now, revision, measures: Measures::new(words, now.units) };
    let changes = revision.changes.iter().filter_map(|change| match change {
        // Papers that only lack new words serve as well as the new ones.
        Change::Foundation(change) if change.misleads() && change.was.is_some() => Some(change),
        _ => None,
    });
    changes.filter_map(|change| Some(teller.named(teller.found_was(change)?))).collect()
}

/// What a change means for what is printed, cut and sewn already, by the keys of the catalogue.
fn cases_of(change: &FoundationChange) -> Vec<&'static str> {
    if change.now.is_none() {
        return vec!["gone"];
    }
    if change.was.is_none() {
        return vec!["new"];
    }
    let mut cases: Vec<&'static str> = Vec::new();
    for alteration in &change.alterations {
        let case = match alteration {
            Alteration::Redrawn(redrawn) => match redrawn.fit {
                StillFits::Fits => "fits",
                StillFits::MeetsElsewhere => "meets",
                StillFits::Not => "not",
            },
            Alteration::Renumbered(_) => "renumbered",
            // What is sewn anew anyway gets its fabrics then.
            Alteration::Recoloured(_) if cases.contains(&"not") => continue,
            Alteration::Recoloured(_) => "recoloured",
            Alteration::Renamed { taken: true } => "taken",
            Alteration::Relabelled(beside) if beside.contains(&Beside::Fabrics) => "fabrics",
            // New papers bear it all.
            Alteration::Renamed { .. } | Alteration::Relabelled(_) if change.misleads() => continue,
            Alteration::Renamed { .. } | Alteration::Relabelled(_) => "relabelled",
            Alteration::Counted { .. } => continue,
        };
        cases.push(case);
    }
    cases
}

/// Which foundation of which block, in which of the models.
type Found<'m> = (&'m Block, &'m Variant);

struct Teller<'m> {
    was: &'m Model,
    now: &'m Model,
    revision: &'m Revision,
    measures: Measures<'m>,
}

impl<'m> Teller<'m> {
    fn words(&self) -> &'m Words {
        self.measures.words()
    }

    fn lines(&self, consequence: Consequence) -> Vec<String> {
        let changes = self.revision.changes.iter().filter(|change| change.consequence() == consequence);
        if consequence == Consequence::Cut {
            return self.cuts();
        }
        let told = changes.filter_map(|change| match change {
            Change::Foundation(change) => Some(self.changed(change)),
            Change::Cut(_) => None,
            Change::Buy(change) => Some(self.bought(change)),
            Change::Sew(change) => self.sewn(change),
            Change::Words(change) => (!is_of_a_plan(change)).then(|| self.said(change)),
        });
        let mut told: Vec<String> = told.collect();
        let plans = self.revision.changes.iter().filter_map(|change| match change {
            Change::Words(change) if consequence == Consequence::Words && is_of_a_plan(change) => {
                Some(change.of.as_str())
            }
            _ => None,
        });
        let plans: Vec<&str> = plans.collect();
        told.extend((!plans.is_empty()).then(|| words_of_plans(&plans, self.words())));
        told
    }

    fn block_was(&self, pair: usize) -> Option<&'m Block> {
        self.was.blocks.get(self.revision.pairs.blocks.get(pair)?.was?)
    }

    fn block_now(&self, pair: usize) -> Option<&'m Block> {
        self.now.blocks.get(self.revision.pairs.blocks.get(pair)?.now?)
    }

    fn found_was(&self, change: &FoundationChange) -> Option<Found<'m>> {
        let block = self.block_was(change.block)?;
        Some((block, block.variants.get(change.was?)?))
    }

    fn found_now(&self, change: &FoundationChange) -> Option<Found<'m>> {
        let block = self.block_now(change.block)?;
        Some((block, block.variants.get(change.now?)?))
    }

    /// A thing of a block, with the block's name where there are several.
    fn in_block(&self, block: &str, what: String) -> String {
        if self.now.blocks.len().max(self.was.blocks.len()) > 1 {
            self.words().change_in_block(block, what)
        } else {
            what
        }
    }

    fn named(&self, (block, variant): Found<'_>) -> String {
        let name = self.words().foundation(&variant.mark, &block.unit_of(variant).name);
        self.in_block(&block.name, name)
    }

    /// What a foundation is called now, or was.
    fn foundation(&self, change: &FoundationChange) -> String {
        let found = self.found_now(change).or_else(|| self.found_was(change));
        found.map(|found| self.named(found)).unwrap_or_default()
    }

    /// The foundations that stay as they are, block by block, by their marks.
    fn unchanged(&self) -> Vec<(&'m str, Vec<String>)> {
        let mut names = Vec::new();
        for (pair_index, pair) in self.revision.pairs.blocks.iter().enumerate() {
            let Some(block) = pair.now.and(self.block_now(pair_index)) else { continue };
            let told = |index: usize| {
                self.revision.changes.iter().any(|change| match change {
                    Change::Foundation(change) => change.block == pair_index && change.now == Some(index),
                    _ => false,
                })
            };
            let stays =
                |(index, variant): &(usize, &Variant)| variant.sewn > 0 && block.has_paper(variant) && !told(*index);
            let marks = block.variants.iter().enumerate().filter(stays).map(|(_, variant)| variant.mark.clone());
            names.push((block.name.as_str(), marks.collect::<Vec<String>>()));
        }
        names.retain(|(_, marks)| !marks.is_empty());
        names
    }

    /// That they stay; nothing where none does.
    fn same(&self) -> Option<String> {
        let words = self.words();
        let unchanged = self.unchanged();
        let count: usize = unchanged.iter().map(|(_, marks)| marks.len()).sum();
        let told: Vec<String> =
            unchanged.iter().map(|(block, marks)| self.in_block(block, words.list(marks))).collect();
        (count > 0).then(|| words.change_same(words.list(&told), count))
    }

    fn changed(&self, change: &FoundationChange) -> String {
        let words = self.words();
        let name = self.foundation(change);
        let (Some(was), Some(now)) = (self.found_was(change), self.found_now(change)) else {
            return match self.found_now(change) {
                Some((_, variant)) => words.change_added(name, variant.sewn),
                None => words.change_removed(name),
            };
        };
        let told = change.alterations.iter().map(|alteration| match alteration {
            Alteration::Redrawn(redrawn) => self.redrawn(redrawn, now),
            Alteration::Renumbered(moved) => {
                let mark = &now.1.mark;
                let each = moved
                    .iter()
                    .map(|(now, was)| words.change_renumbered_one(format!("{mark}{now}"), format!("{mark}{was}")));
                words.change_renumbered(words.list(&each.collect::<Vec<_>>()))
            }
            Alteration::Recoloured(sections) => self.recoloured(sections, &now.1.mark),
            Alteration::Renamed { taken } => words.change_renamed(self.named(was), if *taken { "yes" } else { "no" }),
            Alteration::Relabelled(beside) => {
                let told = beside.iter().map(|beside| words.change_beside(beside.word()));
                let serves = if beside.contains(&Beside::Fabrics) { "no" } else { "yes" };
                words.change_relabelled(words.list(&told.collect::<Vec<_>>()), serves)
            }
            Alteration::Counted { now: count, was: before } => {
                let has_paper = if now.0.has_paper(now.1) { "yes" } else { "no" };
                words.change_counted(*count, *before, has_paper)
            }
        });
        words.change_foundation(name, told.collect::<Vec<_>>().join(" "))
    }

    fn redrawn(&self, redrawn: &Redrawn, now: Found<'_>) -> String {
        let words = self.words();
        let least = match self.now.units {
            Units::Inches => Length::inches(1.0 / 16.0),
            Units::Metric => Length::millimetres(1.0),
        };
        let distance = if redrawn.farthest.to_inches() < least.to_inches() / 2.0 {
            words.change_by_less(self.measures.length(least))
        } else {
            words.change_by(self.measures.length(redrawn.farthest))
        };
        let (before, after) = redrawn.counts;
        if before != after {
            return words.change_redrawn_sections(after, before, distance);
        }
        let most = redrawn.most.map(|number| format!("{}{number}", now.1.mark));
        let Some(most) = most.filter(|_| !redrawn.sections.is_empty()) else {
            return words.change_redrawn_edge(distance);
        };
        if redrawn.sections.len() == after && after > 1 {
            return words.change_redrawn_all(distance, most);
        }
        let sections: Vec<String> = redrawn.sections.iter().map(|number| format!("{}{number}", now.1.mark)).collect();
        words.change_redrawn(words.list(&sections), distance, most, sections.len())
    }

    fn recoloured(&self, sections: &[Recoloured], mark: &str) -> String {
        let words = self.words();
        let each = sections.iter().map(|one| ((one.now, one.was), format!("{mark}{}", one.section)));
        let told = told_together(each).into_iter().map(|((now, was), names)| {
            words.change_recoloured(words.list(&names), self.fabric_now(now), self.fabric_was(was), names.len())
        });
        told.collect::<Vec<_>>().join(" ")
    }

    fn fabric_now(&self, fabric: usize) -> &'m str {
        self.now.fabrics.get(fabric).map_or("", |fabric| &fabric.name)
    }

    fn fabric_was(&self, fabric: usize) -> &'m str {
        self.was.fabrics.get(fabric).map_or("", |fabric| &fabric.name)
    }

    fn bought(&self, change: &BuyChange) -> String {
        let words = self.words();
        let whole = |buy: Purchase| purchase_words(buy, self.measures);
        let fabric = if change.now.is_some() { self.fabric_now(change.fabric) } else { self.fabric_was(change.fabric) };
        let told = match (change.was, change.now) {
            (Some(was), Some(now)) => {
                // Where the amounts are the same, it is the fat quarter or eighth that will do, or not.
                let of = |buy: Purchase| {
                    if was.amount == now.amount { whole(buy) } else { amount_words(buy.amount, self.measures) }
                };
                words.change_buy(fabric, of(now), of(was), more_or_less(was.amount, now.amount))
            }
            (None, Some(now)) => words.change_buy_new(fabric, whole(now)),
            (Some(was), None) => words.change_buy_none(fabric, whole(was)),
            (None, None) => String::new(),
        };
        change.colouring.as_ref().map_or_else(|| told.clone(), |title| words.change_buy_colouring(title, told.as_str()))
    }

    /// A join by its heading.
    fn join(&self, block: &Block, at: usize) -> Option<String> {
        let words = self.words();
        let join = block.joins.get(at)?;
        let (left, right) =
            (join_side(block, at, &join.left, self.measures), join_side(block, at, &join.right, self.measures));
        let heading = match &join.name {
            Some(name) => words.join_heading_named(at + 1, name, left, right),
            None => words.join_heading(at + 1, left, right),
        };
        Some(self.in_block(&block.name, heading))
    }

    /// Which way a join is pressed, as a sentence.
    fn pressed(&self, block: &Block, at: usize) -> Option<String> {
        let (words, join) = (self.words(), block.joins.get(at)?);
        let side = |places: &[usize]| words.join_press_toward(join_side(block, at, places, self.measures));
        Some(match join.press {
            Press::Left => side(&join.left),
            Press::Right => side(&join.right),
            Press::Open => words.join_press_open(),
        })
    }

    /// What stands at a place where something else stood, or stood otherwise.
    fn placed(&self, (was, now): (&Block, &Block), pair: usize, at: usize) -> Option<String> {
        let words = self.words();
        let place = now.placements.get(at)?;
        let variant = now.variants.get(place.variant)?;
        let centre = place.outline.centroid();
        let far = |other: &Placement| other.outline.centroid().distance(centre);
        let former = was.placements.iter().min_by(|a, b| far(a).total_cmp(&far(b)))?;
        let of = was.variants.get(former.variant)?;
        let here = place_of(&now.outline, centre, words);
        let name = self.in_block(&now.name, words.place(&place.name, &variant.mark));
        let same =
            self.revision.pairs.blocks.get(pair)?.variants.contains(&(Some(former.variant), Some(place.variant)));
        Some(if same {
            words.change_placed_turned(name, here)
        } else {
            words.change_placed(name, here, words.place(&former.name, &of.mark))
        })
    }

    fn sewn(&self, change: &SewChange) -> Option<String> {
        let words = self.words();
        let (was, now) = (self.block_was(change.block)?, self.block_now(change.block)?);
        Some(match &change.what {
            Sewn::Joined(at) => words.change_joined(self.join(now, *at)?),
            Sewn::Unjoined(at) => words.change_unjoined(self.join(was, *at)?),
            Sewn::Reordered(joins) => {
                let all: Vec<String> = joins.iter().filter_map(|&at| self.join(now, at)).collect();
                words.change_reordered(words.list(&all), all.len())
            }
            Sewn::Pressed { now: at, was: before } => {
                words.change_pressed(self.join(now, *at)?, self.pressed(now, *at)?, self.pressed(was, *before)?)
            }
            Sewn::Met { now: at, .. } => words.change_met(self.join(now, *at)?),
            Sewn::Placed(at) => self.placed((was, now), change.block, *at)?,
            Sewn::StripsPressed(variant, section) => words.change_strips_pressed(
                self.in_block(&now.name, format!("{}{section}", now.variants.get(*variant)?.mark)),
            ),
            Sewn::SectionStep(variant, section) => {
                words.change_step(self.in_block(&now.name, format!("{}{section}", now.variants.get(*variant)?.mark)))
            }
            Sewn::JoinStep(at) => words.change_step(self.join(now, *at)?),
        })
    }

    fn said(&self, change: &WordsChange) -> String {
        let words = self.words();
        let what =
            words.change_said(change.about.word(), change.of.as_str(), if change.of.is_empty() { "no" } else { "yes" });
        let told = match (&change.was, &change.now) {
            (Some(was), Some(now)) => words.change_said_instead(what, now, was),
            (None, Some(now)) => words.change_said_new(what, now),
            (Some(was), None) => words.change_said_gone(what, was),
            (None, None) => words.change_said_other(what),
        };
        // What is quoted may end its sentence itself.
        let quoted = told.strip_suffix('.').map(|rest| rest.trim_end_matches(['”', '“'])).unwrap_or_default();
        if quoted.ends_with(['.', '!', '?']) { told.trim_end_matches('.').to_owned() } else { told }
    }
}

/// Whether words are about the plan of strips of a fabric: such are told together.
fn is_of_a_plan(change: &WordsChange) -> bool {
    change.about == Said::Cutting && !change.of.is_empty()
}

fn words_of_plans(fabrics: &[&str], words: &Words) -> String {
    words.change_plans(words.list(fabrics), fabrics.len())
}

/// A key of the catalogue: whether one amount is more than another, where that can be said.
fn more_or_less(was: Amount, now: Amount) -> &'static str {
    let order = match (was, now) {
        (Amount::Length(a), Amount::Length(b)) => b.to_inches().partial_cmp(&a.to_inches()),
        (Amount::FatQuarters(a), Amount::FatQuarters(b)) | (Amount::FatEighths(a), Amount::FatEighths(b)) => {
            Some(b.cmp(&a))
        }
        _ => None,
    };
    match order {
        Some(std::cmp::Ordering::Greater) => "more",
        Some(std::cmp::Ordering::Less) => "less",
        _ => "other",
    }
}
