//! Words of the faults of the packet.

use super::{Code, Fault};
use crate::notation::source::Span;

/// Letters that the typeface of the packet lacks.
#[must_use]
pub fn missing_letter(words: &str, letters: &[char]) -> Fault {
    let letters = letters.iter().take(8).map(|letter| format!("`{letter}`")).collect::<Vec<_>>().join(", ");
    Fault::nowhere(Code::MissingLetter, format!("the packet cannot print {letters} in \"{words}\"")).with_help(
        "its typeface has the letters of the Latin, Greek and Cyrillic scripts: write these words in one of them",
    )
}

/// A foundation larger than the page; `paper` is its name and the room on it.
#[must_use]
pub fn large_foundation(span: Span, unit: &str, size: &str, paper: (&str, &str)) -> Fault {
    let (paper, room) = paper;
    Fault::new(Code::LargeFoundation, format!("the foundation of unit `{unit}` is {size} and does not fit on one page"), span)
        .with_help(format!("a page of {paper} has room for {room}, so it is printed in lapped parts to be glued; to spare that, divide the unit, choose a larger paper or finish the block smaller"))
}

/// A piece that a cutting machine cannot hold; `sizes` are its own and the mat's.
#[must_use]
pub fn larger_than_mat(what: &str, name: &str, sizes: (&str, &str)) -> Fault {
    let (size, mat) = sizes;
    Fault::nowhere(Code::LargerThanMat, format!("{what} {name} is {size} and does not fit on a mat of {mat}"))
        .with_help("name the size of a larger mat with `--mat`, or cut this piece by hand: it is in the packet")
}

/// A document that could not be written, which is no fault of the source.
#[must_use]
pub fn not_written(reason: &str) -> Fault {
    Fault::nowhere(Code::MissingLetter, format!("the packet cannot be written: {reason}"))
        .with_help("this is a fault of the program; please report it with the source")
}
