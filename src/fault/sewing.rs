//! Words of the warnings about what is hard to sew.

use super::{Code, Fault};
use crate::notation::source::Span;

/// A section narrower than a quarter of an inch; it is called `section 3`, or what else it is.
#[must_use]
pub fn narrow_section(span: Span, section: &str, width: &str) -> Fault {
    Fault::new(Code::NarrowSection, format!("{section} is only {width} wide when finished"), span)
        .with_help("sections under 1/4 in are hard to sew truly: widen it, or finish the block larger")
}

/// A seam shorter than half an inch.
#[must_use]
pub fn short_seam(span: Span, number: usize, length: &str) -> Fault {
    Fault::new(Code::ShortSeam, format!("the seam of section {number} is only {length} long"), span)
        .with_help("seams under 1/2 in are hard to start and stop truly: let the section take a longer line, or finish the block larger")
}

/// A partial seam of which so little stays open that the last of its ring cannot be sewn past it.
#[must_use]
pub fn short_partial(span: Span, length: &str, allowance: &str) -> Fault {
    Fault::new(Code::ShortSeam, format!("only {length} of the centre's edge stay open until this ring is closed"), span)
        .with_help(format!(
            "less than an allowance ({allowance}) is too little to fold the first one away from the last seam: begin the ring on a longer edge of its centre, or finish the block larger"
        ))
}

/// A tip sharper than 20 degrees.
#[must_use]
pub fn sharp_tip(span: Span, number: usize, degrees: &str, corner: &str) -> Fault {
    Fault::new(Code::SharpTip, format!("section {number} has a tip of {degrees} degrees at {corner}"), span).with_help(
        "fabric frays and bulks in tips sharper than 20 degrees: open the angle, or let a later section blunt the tip",
    )
}

/// Too many layers at one point.
#[must_use]
pub fn thick_point(span: Span, at: &str, layers: u32) -> Fault {
    Fault::new(Code::ThickPoint, format!("{layers} layers of fabric lie at {at}"), span).with_help(
        "above 12 layers a needle struggles and the block does not lie flat: let some seams end beside the point",
    )
}

/// A much darker allowance under a light piece.
#[must_use]
pub fn dark_under_light(span: Span, number: usize, light: &str, dark: &str, earlier: Span) -> Fault {
    Fault::new(
        Code::DarkUnderLight,
        format!("the dark allowance of {dark} lies under {light} of section {number}"),
        span,
    )
    .with_label(earlier, "its allowance is folded under the lighter piece")
    .with_help(
        "it may show through: sew the lighter section first, or have the dark allowance trimmed a little narrower",
    )
}

/// Seam ends of two sides that nearly meet.
#[must_use]
pub fn near_miss(span: Span, join: &str, at: &str, distance: &str) -> Fault {
    Fault::new(Code::NearMiss, format!("two seams miss each other by {distance} on the join of {join}, at {at}"), span)
        .with_help("it will look like a mistake of the sewer: let both end at one named point, or further apart")
}

/// A cut wider than the fabric.
#[must_use]
pub fn wide_cut(span: Span, label: &str, size: &str, fabric: &str) -> Fault {
    Fault::new(Code::WideCut, format!("the cut {size} for {label} is longer than {fabric} is wide"), span)
        .with_help("it will have to be pieced from two lengths: divide the section, or finish the block smaller")
}

/// A warning that `more` further sections of the same `strips` line share with the one that it tells of.
#[must_use]
pub fn shared(mut fault: Fault, more: usize) -> Fault {
    let sections = if more == 1 { "1 more of these strips".to_owned() } else { format!("{more} more of these strips") };
    fault.message = format!("{}; it is much the same with {sections}", fault.message);
    fault
}

/// A piece that may turn less than the pattern asks for; `cure` is the cut that may, and the line that asks for it.
#[must_use]
pub fn little_turn(
    span: Span,
    (section, degrees): (usize, &str),
    least: &str,
    cure: Option<(&str, &str, &str)>,
) -> Fault {
    let message = format!("the piece of section {section} covers only while it is turned by {degrees} degrees or less");
    let help = match cure {
        Some((now, wanted, line)) => format!(
            "this pattern asks for {least} degrees: cut {wanted} instead of {now}, by writing `{line}` in its unit"
        ),
        None => format!(
            "this pattern asks for {least} degrees, and no larger cut gives that much, because its edge lies one allowance past a long line: divide the section, or ask for less"
        ),
    };
    Fault::new(Code::LittleTurn, message, span).with_help(help)
}
