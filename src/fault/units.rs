//! Words of the faults of units in their block, and of joins.

use super::sections::Extent;
use super::{Code, Fault};
use crate::notation::source::Span;

/// A place of a unit that reaches outside its block.
#[must_use]
pub fn unit_outside_block(span: Span, place: &str, corner: &str, distance: &str) -> Fault {
    Fault::new(Code::UnitOutsideBlock, format!("`{place}` reaches outside the block"), span)
        .with_help(format!("its corner at {corner} lies {distance} outside"))
}

/// Part of the block that no unit covers.
#[must_use]
pub fn block_gap(span: Span, block: &str, gap: &Extent) -> Fault {
    Fault::new(Code::BlockGap, format!("block `{block}` has a gap of {} steps round {}", gap.size, gap.middle), span)
        .saying("no unit covers it")
        .with_help("add a unit there, or place one again")
}

/// Two places that cover the same area.
#[must_use]
pub fn unit_overlap(first: (&str, Span), second: (&str, Span), overlap: &Extent) -> Fault {
    let fault = Fault::new(
        Code::UnitOverlap,
        format!("`{}` and `{}` overlap by {} steps round {}", first.0, second.0, overlap.size, overlap.middle),
        second.1,
    )
    .with_help("move one of them, or let their outlines share one line");
    if first.1 == second.1 {
        fault
    } else {
        fault.saying(format!("`{}` lies over `{}`", second.0, first.0)).with_label(first.1, format!("`{}`", first.0))
    }
}

/// Regions that no straight seam divides. `line` sews a ring or an inset corner among them, if there is one.
#[must_use]
pub fn cannot_join(span: Span, block: &str, stuck: &[(String, Span)], line: Option<&str>) -> Fault {
    let names = stuck.iter().map(|(name, _)| format!("`{name}`")).collect::<Vec<_>>().join(", ");
    let mut fault = Fault::new(
        Code::CannotJoin,
        format!("the units of block `{block}` cannot all be joined by straight seams"),
        span,
    );
    for (name, place) in stuck.iter().take(12) {
        fault = fault.with_label(*place, format!("`{name}` is locked in"));
    }
    let why = format!("no straight line runs between {names} from edge to edge");
    fault.with_help(match line {
        None => format!("{why}: they stop at one another like bricks in a ring. Carry one of their edges on as a seam through the next unit"),
        Some(line) if line.starts_with("partial") => format!(
            "{why}: they stop at one another like bricks in a ring. Carry one of their edges on as a seam through the next unit, or sew the ring with a partial seam: add the line `{line}`"
        ),
        Some(line) => format!(
            "{why}: three meet in a point. Carry one of their edges on as a seam through the next unit, or set one into the corner of the other two: add the line `{line}`"
        ),
    })
}

/// A stated join that no straight seam can make.
#[must_use]
pub fn join_not_straight(span: Span, left: &str, right: &str, why: &str) -> Fault {
    Fault::new(Code::JoinNotStraight, format!("`{left}` and `{right}` cannot be joined by one straight seam"), span)
        .saying(why.to_owned())
        .with_help("joined edges lie on one line and have one length: join other groups first")
}

/// A join of things that are joined already.
#[must_use]
pub fn already_joined(span: Span, left: &str, right: &str) -> Fault {
    Fault::new(Code::AlreadyJoined, format!("`{left}` and `{right}` are joined already by this line"), span)
        .with_help("a place stands for the whole group that it has been sewn into; take the join out or name another")
}

/// A join of one thing.
#[must_use]
pub fn join_of_one(span: Span) -> Fault {
    Fault::new(Code::JoinNotStraight, "a join needs at least two things to join", span)
        .with_help("write for instance `join roof lamp as head`")
}

/// `pressed toward` something that the join does not touch.
#[must_use]
pub fn pressed_elsewhere(span: Span, name: &str) -> Fault {
    Fault::new(Code::UnknownName, format!("`{name}` is on neither side of this join"), span)
        .with_help("name one of the two things that the line joins")
}
