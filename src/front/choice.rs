//! What may be chosen for a build, and what it makes of the pattern: a size, a colouring, a number of blocks, a class, a unit, the cloth there is.

use crate::fault::{self, Fault};
use crate::model::{self, Model, Paper};
use crate::notation::source::Sources;
use crate::packet::sheets::Former;
use crate::packet::words::Words;
use crate::packet::{Audience, Brief, Extent};
use crate::pattern::{self, MOST_PIECES, Pattern};
use crate::piecing::plan::Budget;

/// People in a class at the most.
const MOST_PEOPLE: u32 = 1_000;

/// What may be chosen for a build.
#[derive(Debug, Clone, Default)]
pub struct Options {
    /// The finished size to build, as the source writes it, such as `10 in`; nothing for the size it is drawn for.
    pub size: Option<String>,
    /// The papers, the main one in front; nothing for the source's own.
    pub papers: Vec<Paper>,
    /// How sheets are filled, in the words of a `sheets` line behind its first: `on tabloid, margin 1/4 in`. Overrules the source.
    pub sheets: Option<String>,
    /// The sheets of a packet that was built before: foundations stay where they lay on them where that takes no more paper.
    pub since: Option<Former>,
    /// The colouring, by its key or its title; nothing for the one the pattern is drawn in.
    pub colouring: Option<String>,
    /// The language, by its code of ISO 639; nothing for the source's own.
    pub language: Option<String>,
    /// So many of each block as the pattern says, times this; nothing for once.
    pub blocks: Option<u32>,
    /// Fabrics that the sewer exchanges, in the words of a `colouring` line behind its `with`: `night as rose, glow as pearl`.
    pub with: Option<String>,
    /// Cloth that the sewer has, each in the words of a `have` line without its first: `1/2 yd night`. Adds to what the source says.
    pub have: Vec<String>,
    /// A text of `have` lines and comments, with the name by which faults call it.
    pub stash: Option<(String, String)>,
    /// For a class of so many people; nothing for one.
    pub people: Option<u32>,
    /// Only the unit of this name; nothing for all.
    pub unit: Option<String>,
    /// For whom the packet is.
    pub audience: Audience,
    /// How much of it is made.
    pub extent: Extent,
    /// Whether the planner searches sixteen times as far as usual.
    pub thorough: bool,
}

impl Options {
    /// What is asked of the packet.
    pub(super) const fn brief(&self) -> Brief {
        Brief { audience: self.audience, extent: self.extent }
    }

    /// How far the planner searches.
    pub(super) const fn budget(&self) -> Budget {
        if self.thorough { Budget::THOROUGH } else { Budget::USUAL }
    }

    /// Applies to the pattern what must be known before its model is made; gives the index of the size. What is read on the way joins the sources.
    pub(super) fn apply(&self, pattern: &mut Pattern, sources: &mut Sources) -> Result<usize, Vec<Fault>> {
        let mut faults = Vec::new();
        match self.colouring_index(pattern) {
            Ok(index) => match &self.with {
                None => index.into_iter().for_each(|index| *pattern = pattern.coloured(index)),
                Some(words) => match pattern::exchange(pattern, sources, index, ("--with", words)) {
                    Ok(own) => *pattern = pattern.coloured(own),
                    Err(found) => faults.extend(found),
                },
            },
            Err(fault) => faults.push(*fault),
        }
        if let Some(words) = &self.sheets {
            faults.extend(pattern::overrule(pattern, sources, ("--sheets", words)));
        }
        faults.extend(self.owned(pattern, sources));
        if let Some(blocks) = self.blocks {
            faults.extend(multiply(pattern, blocks));
        }
        if let Some(people) = self.people {
            faults.extend(gather_class(pattern, people));
        }
        match self.size_index(pattern) {
            Ok(size) if faults.is_empty() => Ok(size),
            Ok(_) => Err(faults),
            Err(fault) => Err(faults.into_iter().chain([*fault]).collect()),
        }
    }

    /// Adds the cloth that there is to what the source says of it.
    fn owned(&self, pattern: &mut Pattern, sources: &mut Sources) -> Vec<Fault> {
        let mut faults = Vec::new();
        for piece in &self.have {
            let found = pattern::add_owned(pattern, sources, "--have", &format!("have {piece}"));
            // Nobody mends a command line by a change of a source.
            faults.extend(found.into_iter().map(|fault| Fault { fixes: Vec::new(), ..fault }));
        }
        if let Some((name, text)) = &self.stash {
            faults.extend(pattern::add_owned(pattern, sources, name, text));
        }
        faults
    }

    /// Applies to the model what concerns only the packet.
    pub(super) fn narrow(&self, pattern: &Pattern, model: &mut Model) -> Result<(), Box<Fault>> {
        if let Some(&main) = self.papers.first() {
            model.paper = main;
            model.papers.clone_from(&self.papers);
        }
        if let Some(unit) = &self.unit {
            let names: Vec<&str> =
                pattern.blocks.iter().flat_map(|block| &block.units).map(|unit| unit.name.as_str()).collect();
            if !names.contains(&unit.as_str()) {
                return Err(Box::new(fault::names::no_such_unit(unit, &names)));
            }
            let mut named = pattern.blocks.iter().flat_map(|block| &block.units).filter(|other| other.name == *unit);
            if named.all(|other| other.kind == pattern::UnitKind::Plain) {
                return Err(Box::new(fault::plain::no_unit_of_its_own(unit)));
            }
            model::keep_unit(pattern, model, unit);
        }
        Ok(())
    }

    /// The words of the packet.
    pub(super) fn words(&self, model: &Model) -> Result<Words, Box<Fault>> {
        let Some(language) = self.language.as_deref().or(model.language.as_deref()) else {
            return Ok(Words::english());
        };
        Words::of(language).ok_or_else(|| Box::new(fault::names::no_such_language(language, &Words::LANGUAGES)))
    }

    /// The index of the size that is asked for.
    fn size_index(&self, pattern: &Pattern) -> Result<usize, Box<Fault>> {
        let Some(wanted) = &self.size else { return Ok(0) };
        let plain = |text: &str| text.replace('×', "x").chars().filter(|c| !c.is_whitespace()).collect::<String>();
        pattern.sizes.iter().position(|size| plain(&size.label) == plain(wanted)).ok_or_else(|| {
            let labels: Vec<&str> = pattern.sizes.iter().map(|size| size.label.as_str()).collect();
            Box::new(fault::sizes::no_such_size(wanted, &labels))
        })
    }

    /// The index of the colouring that is asked for, if one is.
    fn colouring_index(&self, pattern: &Pattern) -> Result<Option<usize>, Box<Fault>> {
        let Some(wanted) = self.colouring.as_deref().map(str::trim) else { return Ok(None) };
        let by_key = pattern.colourings.iter().position(|colouring| colouring.key == wanted);
        let by_title = || pattern.colourings.iter().position(|colouring| colouring.title == wanted);
        by_key.or_else(by_title).map(Some).ok_or_else(|| {
            let known: Vec<(&str, &str)> =
                pattern.colourings.iter().map(|colouring| (colouring.key.as_str(), colouring.title.as_str())).collect();
            Box::new(fault::names::no_such_colouring(wanted, &known))
        })
    }
}

/// Makes so many of each block for each that the pattern asks for.
fn multiply(pattern: &mut Pattern, times: u32) -> Option<Fault> {
    for block in &mut pattern.blocks {
        block.copies = block.copies.saturating_mul(times);
    }
    let pieces = pieces(pattern);
    (times == 0 || pieces > MOST_PIECES).then(|| fault::sizes::too_many_blocks(times, pieces, MOST_PIECES))
}

/// Makes a pattern one for a class; the cloth is for all of them.
fn gather_class(pattern: &mut Pattern, people: u32) -> Option<Fault> {
    if !(1..=MOST_PEOPLE).contains(&people) {
        return Some(fault::cutting::no_such_class(people, MOST_PEOPLE));
    }
    pattern.people = people;
    let pieces = pieces(pattern).saturating_mul(u64::from(people));
    (pieces > MOST_PIECES).then(|| fault::cutting::too_large_class(people, pieces, MOST_PIECES))
}

/// How many pieces of fabric all copies of all blocks come to for one person.
fn pieces(pattern: &Pattern) -> u64 {
    let of_block = |block: &pattern::Block| {
        let of_place = |place: &pattern::Placement| block.units.get(place.unit).map_or(0, pattern::Unit::pieces);
        let once = block.placements.iter().map(of_place).sum::<usize>() + block.patches.len();
        (once as u64).saturating_mul(u64::from(block.copies))
    };
    pattern.blocks.iter().map(of_block).fold(0, u64::saturating_add)
}
