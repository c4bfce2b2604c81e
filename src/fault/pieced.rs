//! Words of the faults of pieced sections, whose strips are sewn together before they go on.

use super::{Code, Fault};
use crate::notation::source::Span;

/// A line that does not run through its section: past it, or along its edge.
#[must_use]
pub fn line_astray(span: Span, number: u32, along_edge: bool) -> Fault {
    let (why, cure) = if along_edge {
        (
            "runs along the edge of",
            "what lies past an edge is another section: carry the line through the inside of this one",
        )
    } else {
        (
            "does not run through",
            "a pieced section is divided by a line that runs right across it: give it a place inside, or another section",
        )
    };
    Fault::new(Code::PiecedUnfit, format!("this line {why} section {number}"), span).with_help(cure)
}

/// A line that is not parallel to the other lines of its section.
#[must_use]
pub fn not_parallel(span: Span, number: u32) -> Fault {
    Fault::new(Code::PiecedUnfit, format!("the strips of section {number} are not parallel"), span).with_help(
        "strips that are sewn together before they go on have parallel seams; make what slants a section of its own",
    )
}

/// Two lines of a section at one place.
#[must_use]
pub fn line_twice(span: Span, number: u32, first: Span) -> Fault {
    Fault::new(Code::PiecedUnfit, format!("section {number} is pieced along this line already"), span)
        .with_label(first, "here")
        .with_help("leave nothing between two lines: take one of them out, or move it")
}

/// A line that does not tell its sides apart: the middle of the section lies on it, or the point that should say.
#[must_use]
pub fn side_unclear(span: Span, number: u32, named: Option<Span>) -> Fault {
    match named {
        Some(point) => {
            Fault::new(Code::PiecedUnfit, "this point lies on the line, so it names neither side", point)
                .with_label(span, "the line")
                .with_help("give a point inside the strip")
        }
        None => Fault::new(Code::PiecedUnfit, format!("this line runs through the middle of section {number}"), span)
            .saying("which side is meant?")
            .with_help("a strip takes the side without the middle; where there is none, name a point in the strip: `… beyond A -- B around X, Y`"),
    }
}

/// A print with a direction in a strip whose seams slant where it stands; `colouring` is the line that puts it there, if it is not drawn so.
#[must_use]
pub fn slanting_print(span: Span, place: &str, fabric: &str, colouring: Option<Span>) -> Fault {
    let fault = Fault::new(
        Code::PiecedUnfit,
        format!("the print of `{fabric}` cannot stand upright in this strip, whose seam slants in `{place}`"),
        span,
    )
    .with_help("a strip is cut along its seam, so its print would slant too: let the line run level or upright, take a fabric without a direction, or make the strip a section of its own");
    match colouring {
        Some(line) => fault.with_label(line, format!("here it becomes `{fabric}`")),
        None => fault,
    }
}

/// A strip between two others whose exact width stands on no mark of a ruler; `off` are the finished sizes with what is off at each.
#[must_use]
pub fn off_the_ruler(span: Span, number: usize, off: &[String], marks: &str, more: usize) -> Fault {
    let more = super::plain::more_sizes(more);
    Fault::new(
        Code::OffTheRuler,
        format!("a strip of section {number} is cut to a width that stands on no mark of a ruler: {}{more}", off.join("; ")),
        span,
    )
    .with_help(format!(
        "a strip between two others is cut exactly, so its width should be whole {marks}: move its lines, choose other finished sizes, or make it a section of its own"
    ))
}
