//! The cloth that a sewer has already: `have` lines, in a source or beside it.

use crate::fault::{self, Fault, cutting as words, files};
use crate::geometry::Length;
use crate::notation::source::{MAX_SOURCE_BYTES, SourceText, Sources, Span, Spanned};
use crate::notation::syntax::{Have, HavePiece, Item, Name, PhysicalLength};

use super::Pattern;
use super::bounds::MOST_FAULTS;
use super::cloth::{Owned, OwnedPiece};
use super::grid::checked_length;
use super::scope::Resolved;
use super::statements::checked_count;

/// Pieces of cloth that a sewer has at the most.
pub const MOST_OWNED: u32 = 1_000;
/// The widest piece of cloth.
const WIDEST: Length = Length::inches(120.0);
/// The longest: 100 yards, more than a bolt.
const LONGEST: Length = Length::inches(3_600.0);

/// Resolves a `have` line; `find` looks the fabric up.
pub fn owned(line: &Have, find: impl Fn(&Name) -> Resolved<usize>) -> Resolved<Owned> {
    let fabric = find(&line.fabric)?;
    let along = |written: &PhysicalLength| checked_length(written, "the length of cloth", LONGEST);
    let (count, piece) = match &line.piece {
        HavePiece::Length(length) => (1, OwnedPiece::Length(along(length)?)),
        HavePiece::Scrap(across, length) => {
            let across = checked_length(across, "the width of cloth", WIDEST)?;
            (1, OwnedPiece::Scrap(across, along(length)?))
        }
        HavePiece::FatQuarters(count) => (number_of(count)?, OwnedPiece::FatQuarter),
        HavePiece::FatEighths(count) => (number_of(count)?, OwnedPiece::FatEighth),
    };
    Ok(Owned { fabric, count, piece })
}

fn number_of(count: &Spanned<u32>) -> Resolved<u32> {
    checked_count(count, "the number of pieces of cloth", 1, MOST_OWNED)
}

/// Adds a piece of cloth to those that there are, if it is not too much.
pub fn add(all: &mut Vec<Owned>, one: Owned, span: Span) -> Resolved<()> {
    let together = all.iter().fold(one.count, |sum, other| sum.saturating_add(other.count));
    if together > MOST_OWNED {
        return Err(Box::new(words::too_much_cloth(span, MOST_OWNED)));
    }
    all.push(one);
    Ok(())
}

/// Adds the cloth that a text beside the pattern tells of, in `have` lines; `name` is what faults call the text. Gives what is wrong with it.
pub fn add_owned(pattern: &mut Pattern, sources: &mut Sources, name: &str, text: &str) -> Vec<Fault> {
    if text.len() > MAX_SOURCE_BYTES {
        return vec![files::source_too_large(None, name)];
    }
    let file = sources.add(SourceText::new(name, text));
    let (tree, mut faults) = crate::notation::parse(file, text);
    let keys: Vec<&str> = pattern.fabrics.iter().map(|fabric| fabric.key.as_str()).collect();
    let find = |key: &Name| {
        let found = keys.iter().position(|known| *known == key.value);
        found.ok_or_else(|| Box::new(words::no_such_fabric(key.span, &key.value, &keys)))
    };
    let mut all = std::mem::take(&mut pattern.owned);
    for item in &tree.items {
        if faults.len() >= MOST_FAULTS {
            break;
        }
        let taken = match &item.value {
            Item::Have(line) => owned(line, find).and_then(|one| add(&mut all, one, item.span)),
            _ => Err(Box::new(words::not_owned_cloth(item.span))),
        };
        faults.extend(taken.err().map(|fault| *fault));
    }
    pattern.owned = all;
    fault::sort(&mut faults);
    faults
}
