//! Words of the faults of sections and units.

use super::{Code, Fault};
use crate::notation::source::Span;

/// Where something is and how large, in words for a message.
#[derive(Debug, Clone, PartialEq)]
pub struct Extent {
    /// The middle, in steps: `3, 4 1/2`.
    pub middle: String,
    /// Width and height, in steps: `2 x 1/2`.
    pub size: String,
}

/// A number that is missing or doubled in the order of sewing.
#[must_use]
pub fn section_number_missing(span: Span, unit: &str, missing: u32) -> Fault {
    Fault::new(Code::SectionNumbers, format!("unit `{unit}` has no section {missing}"), span)
        .with_help("the numbers are the order of sewing: count 1, 2, 3, … without a gap")
}

/// Two sections of one number.
#[must_use]
pub fn section_number_doubled(span: Span, number: u32, first: Span) -> Fault {
    Fault::new(Code::SectionNumbers, format!("section {number} is there twice"), span)
        .saying("again here")
        .with_label(first, "first here")
        .with_help("the numbers are the order of sewing: give each section its own")
}

/// A unit without sections.
#[must_use]
pub fn no_sections(span: Span, unit: &str) -> Fault {
    Fault::new(Code::SectionNumbers, format!("unit `{unit}` has no sections"), span)
        .with_help("add at least one, for instance `1 FABRIC around X, Y`")
}

/// A corner outside the unit.
#[must_use]
pub fn corner_outside_unit(span: Span, number: u32, corner: &str, distance: &str) -> Fault {
    Fault::new(Code::CornerOutsideUnit, format!("section {number} reaches outside its unit"), span)
        .with_help(format!("the corner {corner} lies {distance} outside the outline"))
}

/// Part of a unit that no section covers.
#[must_use]
pub fn section_gap(span: Span, unit: &str, gap: &Extent) -> Fault {
    Fault::new(
        Code::SectionGap,
        format!("unit `{unit}` has a gap of {} steps round {}", gap.size, gap.middle),
        span,
    )
    .saying("no section covers it")
    .with_help("let the neighbouring sections share their corners, or write the later one as `beyond` a line, which leaves no gap")
}

/// Two sections that cover the same area.
#[must_use]
pub fn section_overlap(first: (u32, Span), second: (u32, Span), overlap: &Extent) -> Fault {
    Fault::new(
        Code::SectionOverlap,
        format!("sections {} and {} overlap by {} steps round {}", first.0, second.0, overlap.size, overlap.middle),
        second.1,
    )
    .saying(format!("section {} lies over section {}", second.0, first.0))
    .with_label(first.1, format!("section {}", first.0))
    .with_help("let them share the corners of one seam line")
}

/// A `beyond` line that runs through section 1.
#[must_use]
pub fn line_through_first(span: Span, number: u32, first: Span) -> Fault {
    Fault::new(Code::LineThroughFirst, format!("the line of section {number} runs through section 1"), span)
        .saying("so neither side is the one without section 1")
        .with_label(first, "section 1")
        .with_help("move the line to an edge of section 1, or past it")
}

/// A `beyond` line with nothing beyond it.
#[must_use]
pub fn nothing_beyond(span: Span, number: u32) -> Fault {
    Fault::new(Code::NothingBeyond, format!("nothing is left for section {number} beyond this line"), span).with_help(
        "the line has to cross what sections 1 up to this one cover: later sections have already taken what lies beyond theirs",
    )
}

/// A `beyond` line that takes all there is.
#[must_use]
pub fn nothing_this_side(span: Span, number: u32) -> Fault {
    Fault::new(Code::NothingBeyond, format!("section {number} would take all that is left"), span)
        .with_help("the line has to leave something on the side of section 1")
}

/// `around` on another section than the first.
#[must_use]
pub fn around_not_first(span: Span, number: u32) -> Fault {
    Fault::new(Code::NotLeftOver, format!("section {number} cannot be what is left over"), span)
        .with_help("only section 1 is written with `around`; write this one as a polygon or with `beyond`")
}

/// Section 1 that is not what the others leave.
#[must_use]
pub fn not_left_over(span: Span, why: &str) -> Fault {
    Fault::new(Code::NotLeftOver, format!("section 1 is not what the later sections leave: {why}"), span)
        .with_help("write it as `around` a point inside what is left, or correct the polygon")
}

/// A polygon that is no straight cut off what the later sections leave, in a unit with `beyond` lines.
pub fn not_one_cut(span: Span, number: u32) -> Fault {
    Fault::new(Code::NotOneSeam, format!("section {number} does not go on with one straight seam"), span).with_help(
        "of what the later sections leave, it has to be all that lies on one side of one line: \
         sew it later, correct its corners, or write it as `beyond` its seam",
    )
}

/// A section that does not go on with one straight seam.
pub struct NotOneSeam<'a> {
    /// Its number and place.
    pub section: (u32, Span),
    /// The earlier sections that it meets, each with the number of the line (from 0) along which it does.
    pub meets: &'a [(u32, Span, usize)],
    /// An order of the unit's sections that would do, by their numbers now.
    pub order: Option<&'a [u32]>,
    /// Where no order would do: the sections that are stuck.
    pub stuck: &'a [(u32, Span)],
}

/// A section that does not go on with one straight seam: which lines, and what would do.
pub fn not_one_seam(facts: &NotOneSeam<'_>) -> Fault {
    let (number, span) = facts.section;
    let mut fault =
        Fault::new(Code::NotOneSeam, format!("section {number} does not go on with one straight seam"), span);
    let stuck = || facts.stuck.iter().filter(|(other, _)| *other != number);
    if facts.order.is_none() && stuck().next().is_some() {
        fault = fault.saying("this section and those marked lock one another in");
        for &(other, place) in stuck().take(12) {
            fault = fault.with_label(place, format!("section {other}"));
        }
        return fault.with_help(
            "no order of sewing will do: draw one of these sections through to the edge of the unit, or divide the unit in two",
        );
    }
    // Told in the order in which they stand, the first line that is told of is "one line".
    let mut meets: Vec<_> = facts.meets.iter().take(6).collect();
    meets.sort_by_key(|(_, place, _)| *place);
    let mut lines: Vec<usize> = Vec::new();
    let several = meets.iter().any(|(_, _, line)| meets.first().is_some_and(|(_, _, first)| first != line));
    for &(other, place, line) in meets {
        let at = lines.iter().position(|known| *known == line).unwrap_or_else(|| {
            lines.push(line);
            lines.len() - 1
        });
        let words = match at {
            _ if !several => {
                format!("section {other} reaches past the end of the seam of section {number}, or not to its end")
            }
            0 => format!("section {other} meets section {number} along one line"),
            1 => format!("section {other} meets it along another line"),
            _ => format!("section {other} meets it along yet another line"),
        };
        fault = fault.with_label(place, words);
    }
    if let Some(order) = facts.order {
        let order = order.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ");
        return fault.with_help(format!("this order of sewing would do: {order}"));
    }
    fault.with_help("sew it earlier or later, or divide the unit in two")
}
