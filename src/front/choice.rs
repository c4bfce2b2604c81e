//! What may be chosen for a build, and what it makes of the pattern: a size, a colouring, a number of blocks, a unit.

use crate::fault::{self, Fault};
use crate::model::{self, Model, Paper};

use crate::packet::words::Words;
use crate::packet::{Audience, Brief, Extent};
use crate::pattern::{self, MOST_PIECES, Pattern};
use crate::piecing::plan::Budget;

/// What may be chosen for a build.
#[derive(Debug, Clone, Default)]
pub struct Options {
    /// The finished size to build, as the source writes it, such as `10 in`; nothing for the size it is drawn for.
    pub size: Option<String>,
    /// The papers, the main one in front; nothing for the source's own.
    pub papers: Vec<Paper>,
    /// The colouring, by its key or its title; nothing for the one the pattern is drawn in.
    pub colouring: Option<String>,
    /// The language, by its code of ISO 639; nothing for the source's own.
    pub language: Option<String>,
    /// So many of each block as the pattern says, times this; nothing for once.
    pub blocks: Option<u32>,
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

    /// Applies to the pattern what must be known before its model is made; gives the index of the size.
    pub(super) fn apply(&self, pattern: &mut Pattern) -> Result<usize, Vec<Fault>> {
        let mut faults = Vec::new();
        match self.colouring_index(pattern) {
            Ok(Some(index)) => *pattern = pattern.coloured(index),
            Ok(None) => {}
            Err(fault) => faults.push(*fault),
        }
        if let Some(blocks) = self.blocks {
            faults.extend(multiply(pattern, blocks));
        }
        match self.size_index(pattern) {
            Ok(size) if faults.is_empty() => Ok(size),
            Ok(_) => Err(faults),
            Err(fault) => Err(faults.into_iter().chain([*fault]).collect()),
        }
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
    let mut pieces: u64 = 0;
    for block in &mut pattern.blocks {
        block.copies = block.copies.saturating_mul(times);
        let of_place = |place: &pattern::Placement| block.units.get(place.unit).map_or(0, pattern::Unit::pieces);
        let of_block: usize = block.placements.iter().map(of_place).sum();
        pieces = pieces.saturating_add((of_block as u64).saturating_mul(u64::from(block.copies)));
    }
    (times == 0 || pieces > MOST_PIECES).then(|| fault::sizes::too_many_blocks(times, pieces, MOST_PIECES))
}
