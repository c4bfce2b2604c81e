//! Words of the faults of patches, of seam lines across a block, and of what the planner makes of them.

use super::sections::Extent;
use super::{Code, Fault};
use crate::notation::source::Span;

/// A seam line that ends in nothing.
#[must_use]
pub fn seam_loose(span: Span) -> Fault {
    Fault::new(Code::SeamLoose, "this seam ends in nothing", span)
        .with_help("a seam runs from line to line: carry it on to another seam, to a unit or to the edge of the block")
}

/// A seam line that does not cross the block.
#[must_use]
pub fn seam_outside(span: Span) -> Fault {
    Fault::new(Code::SeamLoose, "this seam does not run through the block", span)
        .with_help("give it a place within the block")
}

/// An area that turns inward.
#[must_use]
pub fn area_turns_inward(span: Span, corner: &str) -> Fault {
    Fault::new(Code::PatchUnfit, format!("the area at {corner} turns inward"), span)
        .saying("no straight seam sews it on")
        .with_help("carry one of the seams round it on through it")
}

/// A patch that is told by what lies beyond a line.
#[must_use]
pub fn patch_beyond(span: Span) -> Fault {
    Fault::new(Code::PatchUnfit, "a patch has no number, so nothing lies beyond a line of it", span).with_help(
        "draw it as a polygon, or draw the line as `seam A -- B` and name the area: `patch FABRIC around X, Y`",
    )
}

/// A patch line whose point or polygon lies in no area.
#[must_use]
pub fn patch_astray(span: Span) -> Fault {
    Fault::new(Code::PatchUnfit, "this patch lies in no area of its own", span)
        .with_help("it lies outside the block, on a seam, or in a unit: give it a point within the area that it names")
}

/// An area that no patch names.
#[must_use]
pub fn area_unnamed(span: Span, area: &Extent) -> Fault {
    Fault::new(Code::AreaUnnamed, format!("an area of {} steps round {} has no fabric", area.size, area.middle), span)
        .saying("no patch and no unit covers it")
        .with_help(format!("add `patch FABRIC around {}`", area.middle))
}

/// An area that two patches name.
#[must_use]
pub fn area_named_twice(first: Span, second: Span) -> Fault {
    Fault::new(Code::AreaNamedTwice, "this patch names an area that has a fabric already", second)
        .with_label(first, "named here")
        .with_help("take one of them out, or draw the seam that divides the area")
}

/// A patch that is divided to free a stuck region.
pub struct Cure {
    /// The line of the patch.
    pub patch: Span,
    /// What to write in its place: the seams that divide it, then a patch for each part.
    pub lines: Vec<String>,
}

/// What would do for stuck patches without an added seam.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leaf {
    /// A ring closed by a partial seam.
    Ring,
    /// Three that meet in a point.
    Inset,
}

/// Patches that no straight cuts divide.
#[must_use]
pub fn cannot_plan(span: Span, block: &str, stuck: &[Span], (cures, leaf): (&[Cure], Option<Leaf>)) -> Fault {
    let mut fault = Fault::new(
        Code::CannotPlan,
        format!("the patches of block `{block}` cannot all be sewn with straight seams"),
        span,
    );
    for place in stuck.iter().take(12) {
        let divided = cures.iter().any(|cure| cure.patch == *place);
        fault = fault.with_label(*place, if divided { "locked in; divide this one" } else { "locked in" });
    }
    let why =
        "no straight line runs between these patches from edge to edge: they stop at one another like bricks in a ring";
    let or = match leaf {
        Some(Leaf::Ring) => {
            ". Or draw the patches of the ring as units and close it by a partial seam: `partial CENTRE A B C D as ring`"
        }
        Some(Leaf::Inset) => {
            ". Or draw the three patches as units and set one into the corner of the others: `inset A B C as bay`"
        }
        None => "",
    };
    if cures.is_empty() {
        return fault.with_help(format!("{why}. Carry one of the seams between them on through the next patch{or}"));
    }
    let told: Vec<String> = cures
        .iter()
        .map(|cure| cure.lines.iter().map(|line| format!("`{line}`")).collect::<Vec<_>>().join(", "))
        .collect();
    let edits = cures.iter().map(|cure| (cure.patch, cure.lines.join("\n  "))).collect();
    fault
        .with_help(format!(
            "{why}. The fewest seams that free them: in the place of the marked line write {}{or}",
            told.join("; in the place of another ")
        ))
        .with_fix("carry a seam on through the patch", false, edits)
}

/// More papers than a block needs; the papers it has and those that would do, and the tree of the plan.
#[must_use]
pub fn fewer_papers(span: Span, block: &str, (own, fewest): (u32, u32), tree: &str) -> Fault {
    let most = 16;
    let mut lines: Vec<&str> = tree.lines().take(most).collect();
    if tree.lines().count() > most {
        lines.push("...");
    }
    let papers = if fewest == 1 { "1 paper".to_owned() } else { format!("{fewest} papers") };
    Fault::new(Code::FewerPapers, format!("{papers} would do for block `{block}`; it has {own}"), span).with_help(format!(
        "sew what can go on one paper on one paper. This is a plan with the fewest; `piecewright plan` draws it:\n{}",
        lines.join("\n")
    ))
}

/// What to do where a line speaks of a unit that the planner will make.
pub const NAMED_BY_PLANNER: &str = "the planner makes this unit only when all lines are read, so no line can speak of it yet: `piecewright plan FILE --write` puts it into the source, where joins and notes may name it";

/// A name for a planned unit in a block that has nothing to plan.
#[must_use]
pub fn nothing_to_name(span: Span, name: &str) -> Fault {
    Fault::new(Code::UnitNameAstray, format!("`{name}` names a planned unit, but the block has nothing to plan"), span)
        .with_help(format!(
            "draw the unit itself: `unit {name} {{ ... }}`, or draw the block with `patch` and `seam` lines"
        ))
}

/// A name for a planned unit at a point where there is none.
#[must_use]
pub fn unit_name_astray(span: Span, name: &str) -> Fault {
    Fault::new(Code::UnitNameAstray, format!("`{name}` names what lies at a point where no patch is"), span)
        .with_help("give it a point within a patch: not on a seam, not in a unit that is drawn already")
}

/// Two names for one planned unit.
#[must_use]
pub fn unit_named_twice(span: Span, name: &str, (first, first_span): (&str, Span)) -> Fault {
    Fault::new(Code::UnitNameAstray, format!("`{name}` and `{first}` name the same planned unit"), span)
        .with_label(first_span, "named here")
        .with_help("the planner sews what lies at both points on one paper: keep one of the names")
}

/// A wish that is named twice.
#[must_use]
pub fn wish_twice(span: Span, wish: &str, first: Span) -> Fault {
    Fault::new(Code::DoubledStatement, format!("the wish `{wish}` is named twice"), span)
        .with_label(first, "first named here")
        .with_help("name each wish once, the heaviest in front")
}

/// A wish about the tree that stands behind one about the order of sewing.
#[must_use]
pub fn wish_too_late(span: Span, wish: &str, (before, before_span): (&str, Span)) -> Fault {
    Fault::new(Code::WishTooLate, format!("`{wish}` cannot be weighed after `{before}`"), span)
        .saying("this decides what the papers are")
        .with_label(before_span, "this decides in which order each paper is sewn, once the papers are settled")
        .with_help(format!("name `{wish}` first: papers, match-points, equal-papers and long-seams stand before nesting, darker-side and turn-slack"))
}

/// More patches than the planner takes.
#[must_use]
pub fn too_many_patches(span: Span, count: usize, most: usize) -> Fault {
    Fault::new(Code::CannotPlan, format!("{count} patches are too many to plan at once"), span)
        .with_help(format!("at most {most} are planned in one block: draw some of them as units of your own"))
}
