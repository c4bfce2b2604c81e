//! Words of the faults of plain pieces, which are cut to size and sewn without paper.

use super::{Code, Fault};
use crate::notation::source::Span;

/// A plain piece that is no rectangle.
#[must_use]
pub fn not_a_rectangle(span: Span, name: &str, corners: usize, corner: &str) -> Fault {
    let why = if corners == 4 {
        format!("its corner at {corner} is no right angle")
    } else {
        format!("it has {corners} corners that count")
    };
    Fault::new(Code::PlainUnfit, format!("the plain piece `{name}` is no rectangle"), span)
        .saying(why)
        .with_help("a plain piece is a rectangle, for it is cut by the ruler alone; draw it as a unit on paper")
}

/// A print with a direction in a piece that lies slanting; `colouring` is the line that puts it there, if it is not drawn so.
#[must_use]
pub fn slanting_print(span: Span, place: &str, fabric: &str, colouring: Option<Span>) -> Fault {
    let fault = Fault::new(
        Code::PlainUnfit,
        format!("the print of `{fabric}` cannot stand upright in the plain piece `{place}`, which lies slanting"),
        span,
    )
    .with_help("cut to size it would run slanting too: turn the piece by quarters only, take a fabric without a direction, or draw the piece as a unit on paper");
    match colouring {
        Some(line) => fault.with_label(line, format!("here it becomes `{fabric}`")),
        None => fault,
    }
}

/// A plain piece in a ring or an inset corner, whose seams start and stop at marks that only paper has.
#[must_use]
pub fn in_a_leaf(span: Span, name: &str) -> Fault {
    Fault::new(Code::PlainUnfit, format!("the plain piece `{name}` cannot be part of a ring or an inset corner"), span)
        .saying("the first of its seams stops at a mark, which only paper bears")
        .with_help("draw the piece as a unit on paper")
}

/// A pattern of plain pieces alone.
#[must_use]
pub fn without_paper(span: Span) -> Fault {
    Fault::new(Code::PlainUnfit, "nothing of this pattern is sewn on paper: all of it is plain pieces", span)
        .with_help("draw at least one part as a unit, so that there is a paper to print")
}

/// A plain piece where a single unit is to be built.
#[must_use]
pub fn no_unit_of_its_own(name: &str) -> Fault {
    Fault::nowhere(Code::PlainUnfit, format!("`{name}` is a plain piece: it has no paper to build a packet of"))
        .with_help("name a unit on paper, or build the whole packet: the cutting chart tells its size")
}

/// A plain piece whose exact size stands on no mark of a ruler; `sizes` are the finished sizes with what is off at each.
#[must_use]
pub fn off_the_ruler(span: Span, name: &str, off: &[String], marks: &str, more: usize) -> Fault {
    let more = more_sizes(more);
    Fault::new(
        Code::OffTheRuler,
        format!("the plain piece `{name}` is cut to a size that stands on no mark of a ruler: {}{more}", off.join("; ")),
        span,
    )
    .with_help(format!(
        "it is cut exactly, so its sides should be whole {marks}: move its edges, choose other finished sizes, or draw it as a unit on paper, which is trimmed on a printed line"
    ))
}

/// That it is so at further sizes.
pub(super) fn more_sizes(more: usize) -> String {
    match more {
        0 => String::new(),
        1 => String::from("; so it is at 1 more size"),
        more => format!("; so it is at {more} more sizes"),
    }
}
