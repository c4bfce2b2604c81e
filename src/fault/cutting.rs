//! Words of the faults of how pieces are cut, and of the cloth they are cut from.

use super::{Code, Fault};
use crate::notation::source::Span;

/// A thing that is said twice of the same pieces: how they are turned, their ease, their cloth.
#[must_use]
pub fn said_twice(span: Span, what: &str, first: Span) -> Fault {
    Fault::new(Code::DoubledStatement, format!("{what} is said twice"), span)
        .saying("said again here")
        .with_label(first, "first said here")
        .with_help("keep the one that holds and take the other out")
}

/// `cut … for 3` outside all units.
#[must_use]
pub fn section_outside(span: Span, number: u32) -> Fault {
    super::names::target_misplaced(
        span,
        &format!("section {number}"),
        "outside the blocks, name a fabric by its key: `for night`; a line for a section belongs in its unit",
    )
}

/// `cut … for night` inside a unit.
#[must_use]
pub fn fabric_inside(span: Span, key: &str) -> Fault {
    super::names::target_misplaced(
        span,
        &format!("fabric `{key}`"),
        "inside a unit, name a section by its number: `for 3`; a line for a fabric stands outside the blocks",
    )
}

/// A section that is to be cut as half or a quarter of a square and is neither.
#[must_use]
pub fn not_half_a_square(span: Span, word: &str, number: u32, (section, is): (Span, &str)) -> Fault {
    let square = square(word);
    Fault::new(Code::NotHalfASquare, format!("section {number} is not {square}: {is}"), span)
        .saying("to be cut as one by this word")
        .with_label(section, format!("section {number}"))
        .with_help(format!(
            "{square} has two sides of one length and a square corner between them; \
             write `cut triangles for {number}`, which cuts one only where it fits, or take the word out"
        ))
}

/// A unit without any section that is half or a quarter of a square, all of which are to be cut as one.
#[must_use]
pub fn no_half_squares(span: Span, word: &str, unit: &str) -> Fault {
    let square = square(word);
    Fault::new(Code::NotHalfASquare, format!("no section of unit `{unit}` is {square}"), span)
        .saying("to be cut as one by this word")
        .with_help(format!(
            "{square} has two sides of one length and a square corner between them; \
             write `cut triangles`, which cuts one only where it fits, or take the word out"
        ))
}

fn square(word: &str) -> &'static str {
    if word == "quarter-square" { "a quarter of a square" } else { "half of a square" }
}

/// A shape for a section that is sewn together of strips.
#[must_use]
pub fn shape_of_pieced(span: Span, word: &str, number: u32, section: Span) -> Fault {
    Fault::new(Code::CutUnfit, format!("section {number} is pieced, so it cannot be cut as `{word}`"), span)
        .with_label(section, format!("section {number} is sewn together of strips"))
        .with_help("its strips are cut as strips: take the word out, or let another section be pieced")
}

/// A motif for a section that is sewn together of strips.
#[must_use]
pub fn motif_of_pieced(span: Span, number: u32, section: Span) -> Fault {
    Fault::new(Code::CutUnfit, format!("section {number} is pieced, so it cannot be cut round a motif"), span)
        .with_label(section, format!("section {number} is sewn together of strips"))
        .with_help("take the line out, or cut another section round the motif")
}

/// A motif whose middle does not lie in its section.
#[must_use]
pub fn motif_outside(span: Span, number: u32, section: Span) -> Fault {
    Fault::new(Code::CutUnfit, format!("the middle of the motif does not lie inside section {number}"), span)
        .with_label(section, format!("section {number}"))
        .with_help("give a point inside the section, or leave out `at` for the middle of the section")
}

/// A number beyond its bounds; `bounds` says what it may be: `more than 0 and at most 45 degrees`.
#[must_use]
pub fn out_of_bounds(span: Span, what: &str, bounds: &str) -> Fault {
    Fault::new(Code::NumberOutOfRange, format!("{what} is {bounds}"), span).with_help("correct the number")
}

/// A width of cloth that is named twice in one line.
#[must_use]
pub fn width_twice(span: Span, first: Span) -> Fault {
    Fault::new(Code::DoubledStatement, "this width is named twice", span)
        .with_label(first, "first named here")
        .with_help("name each width once, the main one in front: `cloth 40 in, 54 in`")
}

/// Cloth that a sewer has, without a unit: `1/2 night`.
#[must_use]
pub fn owned_lacks_unit(span: Span, number: &str, fabric: &str) -> Fault {
    let number = number.trim();
    Fault::new(Code::BadLength, format!("`{number}` needs a unit"), span).with_help(format!(
        "write `have {number} yd {fabric}`, `have {number} fat-quarters {fabric}` or a width and a length: `have 10 in x 12 in {fabric}`"
    ))
}

/// A fabric that the pattern does not have, where a line beside it speaks of one.
#[must_use]
pub fn no_such_fabric(span: Span, key: &str, known: &[&str]) -> Fault {
    /// So many fabrics are told.
    const MOST_TOLD: usize = 20;
    let fault = super::names::unknown_name(span, "fabric", key, known.iter().copied());
    if !fault.fixes.is_empty() {
        return fault;
    }
    let told: Vec<String> = known.iter().take(MOST_TOLD).map(|key| format!("`{key}`")).collect();
    fault.with_help(format!("the fabrics of this pattern are {}", told.join(", ")))
}

/// More pieces of cloth than are looked at.
#[must_use]
pub fn too_much_cloth(span: Span, most: u32) -> Fault {
    Fault::new(Code::CountOutOfRange, format!("all the cloth that you have may be {most} pieces at the most"), span)
        .with_help("leave out what will not be used for this pattern")
}

/// A line among the cloth that a sewer has that says something else.
#[must_use]
pub fn not_owned_cloth(span: Span) -> Fault {
    Fault::new(Code::MisplacedStatement, "here stands only cloth that you have", span)
        .with_help("write `have` lines such as `have 1/2 yd night`, and nothing else but comments")
}

/// More than the wishes of one `sheets` line, where only these may stand.
#[must_use]
pub fn more_than_sheets(span: Span) -> Fault {
    Fault::new(Code::MisplacedStatement, "here stand only wishes for the sheets", span)
        .with_help("write `on tabloid, margin 1/4 in` or the like: what a `sheets` line says behind its first word")
}

/// Something else than an exchange of fabrics, where only one may stand.
#[must_use]
pub fn not_an_exchange(span: Span) -> Fault {
    Fault::new(Code::MisplacedStatement, "here stand only fabrics that become others", span)
        .with_help("write `night as rose, glow as pearl`: the night of the pattern becomes rose, its glow pearl")
}

/// A number of people that is no class.
#[must_use]
pub fn no_such_class(people: u32, most: u32) -> Fault {
    Fault::nowhere(Code::CountOutOfRange, format!("a class of {people} people is asked for"))
        .with_help(format!("ask for `--class 1` up to `--class {most}`"))
}

/// More pieces for a class than are worked out at once.
#[must_use]
pub fn too_large_class(people: u32, pieces: u64, most: u64) -> Fault {
    let message = format!("for a class of {people} people this pattern comes to {pieces} pieces of fabric");
    Fault::nowhere(Code::CountOutOfRange, message)
        .with_help(format!("at most {most} pieces are worked out at once: ask for fewer people with `--class`"))
}
