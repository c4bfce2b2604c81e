//! Words of the faults of sizes and counts.

use super::{Code, Fault};
use crate::notation::source::Span;

/// A length that makes no sense. `why` completes "this length …".
#[must_use]
pub fn bad_length(span: Span, what: &str, why: &str, help: &str) -> Fault {
    Fault::new(Code::BadLength, format!("{what} {why}"), span).with_help(help.to_owned())
}

/// A finished size given in a manner that the grid does not have.
#[must_use]
pub fn finished_unclear(span: Span, grid: &str, example: &str) -> Fault {
    Fault::new(Code::FinishedUnclear, format!("this finished size can be misread for {grid}"), span)
        .with_help(format!("write it as `finished {example}`"))
}

/// A finished size whose sides are in another ratio than the grid's.
#[must_use]
pub fn finished_ratio(span: Span, given: &str, grid: &str, example: &str) -> Fault {
    Fault::new(Code::FinishedRatio, format!("{given} is not in the proportion of the grid {grid}"), span)
        .with_help(format!("write `finished {example}`, or change the grid"))
}

/// A further size of another proportion than the finished size.
pub fn sizes_ratio(span: Span, given: &str, finished: &str) -> Fault {
    Fault::new(Code::FinishedRatio, format!("{given} is not in the proportion of the finished size {finished}"), span)
        .with_help("a further size is larger or smaller in both directions by the same factor")
}

/// A further size given in another manner than the finished size.
#[must_use]
pub fn sizes_differ_in_manner(span: Span, example: &str) -> Fault {
    Fault::new(Code::FinishedUnclear, "this further size is not written in the manner of `finished`", span)
        .with_help(format!("write it like `{example}`"))
}

/// A count beyond reason.
#[must_use]
pub fn count_out_of_range(span: Span, what: &str, least: u32, most: u32) -> Fault {
    Fault::new(Code::CountOutOfRange, format!("{what} must be a whole number from {least} to {most}"), span)
        .with_help("correct the number")
}

/// A grid without size.
#[must_use]
pub fn empty_grid(span: Span) -> Fault {
    Fault::new(Code::NumberOutOfRange, "a grid needs a width and a height greater than nothing", span)
        .with_help("write for instance `16 x 16`")
}

/// `once`, `twice`, `3 times`
fn times(count: u32) -> String {
    match count {
        0 => "never".to_owned(),
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        more => format!("{more} times"),
    }
}

/// A count that the author states and the places contradict.
#[must_use]
pub fn sewn_differs(span: Span, unit: &str, stated: u32, placed: u32, places: &[Span]) -> Fault {
    let mut fault = Fault::new(
        Code::SewnDiffers,
        format!("unit `{unit}` is said to be sewn {}, but is placed {}", times(stated), times(placed)),
        span,
    )
    .with_help(format!("write `sewn {placed}`, or correct the places"));
    for &place in places.iter().take(4) {
        fault = fault.with_label(place, "placed here");
    }
    fault.with_fix(format!("write `sewn {placed}`"), false, vec![(span, placed.to_string())])
}

/// A size that the pattern is not published in.
#[must_use]
pub fn no_such_size(wanted: &str, sizes: &[&str]) -> Fault {
    Fault::nowhere(Code::FinishedUnclear, format!("the pattern is not published in the size `{wanted}`"))
        .with_help(format!("its sizes are: {}; add one to the line `sizes`", sizes.join("; ")))
}

/// A number of blocks that nobody sews.
#[must_use]
pub fn too_many_blocks(times: u32, pieces: u64, most: u64) -> Fault {
    let message = if times == 0 {
        String::from("a packet for no blocks is no packet")
    } else {
        format!("{times} times the blocks of this pattern come to {pieces} pieces of fabric")
    };
    Fault::nowhere(Code::CountOutOfRange, message)
        .with_help(format!("ask for 1 or more; at most {most} pieces are worked out at once"))
}

/// More pieces than any quilt has.
#[must_use]
pub fn too_many_pieces(span: Span, pieces: u64, most: u64) -> Fault {
    Fault::new(Code::CountOutOfRange, format!("the copies of this block come to {pieces} pieces of fabric"), span)
        .with_help(format!("at most {most} are worked out at once: state fewer copies"))
}

/// Blocks that come to more pieces than any quilt has only together.
#[must_use]
pub fn too_many_pieces_in_all(span: Span, pieces: u64, most: u64) -> Fault {
    let message = format!("with this block the pattern comes to {pieces} pieces of fabric");
    Fault::new(Code::CountOutOfRange, message, span)
        .with_help(format!("at most {most} are worked out at once: state fewer copies, or make two patterns of it"))
}
