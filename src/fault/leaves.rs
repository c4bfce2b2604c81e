//! Words of the faults of leaves outside the tree of straight cuts: rings with a partial seam, inset corners.

use super::{Code, Fault};
use crate::notation::source::Span;

/// A member with its place in the source and its name.
type Member<'n> = (Span, &'n str);

fn listed(names: &[&str]) -> String {
    names.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ")
}

fn not_a_ring(span: Span, why: String) -> Fault {
    Fault::new(Code::NotARing, why, span)
}

/// A member of a ring that does not lie along the centre.
#[must_use]
pub fn ring_apart((span, name): Member<'_>, centre: &str) -> Fault {
    not_a_ring(span, format!("`{name}` lies along no edge of the centre `{centre}`")).with_help(
        "the first name is the centre; each of the others lies along one edge of it. Leave this one out and join it before or after",
    )
}

/// A member of a ring that covers only a part of the centre's edge.
#[must_use]
pub fn ring_short((span, name): Member<'_>, centre: &str) -> Fault {
    not_a_ring(span, format!("`{name}` covers only a part of an edge of the centre `{centre}`")).with_help(
        "each one round the centre covers one whole edge of it: join what lies along that edge first, and name the group",
    )
}

/// Two members of a ring along one edge of the centre.
#[must_use]
pub fn ring_shared((first_span, first): Member<'_>, (span, name): Member<'_>, centre: &str) -> Fault {
    not_a_ring(span, format!("`{first}` and `{name}` lie along the same edge of the centre `{centre}`"))
        .with_label(first_span, format!("`{first}`"))
        .with_help(format!("join them first: `join {first} {name}`, then either name stands for both"))
}

/// An edge of the centre that no member lies along.
#[must_use]
pub fn ring_uncovered(span: Span, centre: &str) -> Fault {
    not_a_ring(span, format!("an edge of the centre `{centre}` has nothing along it"))
        .with_help("a ring goes all the way round its centre: name what lies along each of its edges")
}

/// A member of a ring at which its neighbour does not stop.
#[must_use]
pub fn ring_no_stop((span, name): Member<'_>, (other_span, other): Member<'_>, centre: &str) -> Fault {
    not_a_ring(span, format!("`{name}` does not run on past the centre `{centre}` on one side alone, along the end of `{other}`"))
        .with_label(other_span, format!("`{other}` ends here"))
        .with_help(
            "in a ring each one ends flush with the centre at one corner and runs on past it at the other, where the one before ends against it; all run on the same way round",
        )
}

/// A member of a ring whose edge differs from what it is sewn to.
#[must_use]
pub fn ring_uneven((span, name): Member<'_>, (other_span, other): Member<'_>, centre: &str) -> Fault {
    not_a_ring(
        span,
        format!("the edge of `{name}` has not the length of the centre `{centre}` and the end of `{other}` together"),
    )
    .with_label(other_span, format!("`{other}`"))
    .with_help("joined edges lie on one line and have one length: join to the shorter what is missing on it first")
}

/// A ring or an inset corner that is not convex.
#[must_use]
pub fn not_convex(span: Span, names: &[&str], ring: bool) -> Fault {
    let code = if ring { Code::NotARing } else { Code::NotAnInset };
    Fault::new(code, format!("{} are not convex together", listed(names)), span)
        .with_help("no straight seam can go on outside it: join to its parts first what fills the notch")
}

/// A ring of which two neighbours in the line are none in the drawing.
#[must_use]
pub fn ring_skipped((first_span, first): Member<'_>, (span, name): Member<'_>) -> Fault {
    Fault::new(Code::RingOrder, format!("`{name}` does not lie next to `{first}` on the way round"), span)
        .with_label(first_span, format!("`{first}`"))
        .with_help("name those round the centre one after the other, as they lie, each straight after its neighbour")
}

/// A ring named the wrong way round: its centre, the first round it, and the others.
#[must_use]
pub fn ring_wrong_way(centre: &str, first: &str, others: &[Member<'_>], span: Span) -> Fault {
    // The first of the ring stays the first.
    let turned: Vec<&str> = others.iter().rev().map(|of| of.1).collect();
    let (at, second) = others.first().copied().unwrap_or((span, ""));
    let edits = others.iter().zip(&turned).map(|(of, name)| (of.0, (*name).to_owned())).collect();
    Fault::new(Code::RingOrder, format!("the ring round `{centre}` is named the wrong way round"), at)
        .saying(format!(
            "`{second}` cannot follow `{first}`: its edge runs on past the centre on the other side, where nothing is yet"
        ))
        .with_help(format!(
            "each one runs on along the end of the one before: write `partial {centre} {first} {}`",
            turned.join(" ")
        ))
        .with_fix("name them the other way round", true, edits)
}

/// A ring or an inset corner that straight seams would join.
#[must_use]
pub fn plain_join_will_do(span: Span, names: &[&str]) -> Fault {
    Fault::new(Code::PlainJoinWillDo, format!("straight seams join {}", listed(names)), span)
        .saying("nothing locks these")
        .with_help("write `join` lines, or take the line out: what the source does not join, the compiler joins")
}

fn not_an_inset(span: Span, why: String) -> Fault {
    Fault::new(Code::NotAnInset, why, span)
}

/// Two parts of an inset corner without an edge against each other.
#[must_use]
pub fn inset_apart((first_span, first): Member<'_>, (span, name): Member<'_>) -> Fault {
    not_an_inset(span, format!("`{first}` and `{name}` do not lie against each other"))
        .with_label(first_span, format!("`{first}`"))
        .with_help("in an inset corner each of the three has an edge against each of the others")
}

/// Three parts that do not meet in a point.
#[must_use]
pub fn inset_no_point(span: Span, names: &[&str]) -> Fault {
    not_an_inset(span, format!("the seams between {} do not meet in one point", listed(names)))
        .with_help("in an inset corner three seams run outward from one point")
}

/// Two parts of an inset corner whose edges differ.
#[must_use]
pub fn inset_uneven((first_span, first): Member<'_>, (span, name): Member<'_>) -> Fault {
    not_an_inset(span, format!("the edges of `{first}` and `{name}` against each other differ in length"))
        .with_label(first_span, format!("`{first}`"))
        .with_help("joined edges lie on one line and have one length: join other groups first")
}

/// `pressed toward` something else than the centre of a ring.
#[must_use]
pub fn pressed_in_ring(span: Span, name: &str, centre: &str) -> Fault {
    Fault::new(Code::UnknownName, format!("`{name}` is not the centre of this ring"), span).with_help(format!(
        "all seams of a ring are pressed one way round: `pressed toward {centre}`, `pressed open`, or without a word toward the ring"
    ))
}
