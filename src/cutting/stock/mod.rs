//! Rectangles from strips: cloth is cut right across into strips, each as high as its highest piece, pieces are cut from a strip side by side and
//! trimmed to their height.
//!
//! In the field's words: two-stage, non-exact guillotine strip cutting.

mod branch;
mod columns;
mod core;
mod exact;
mod few;
mod greedy;
mod master;
mod number;
mod pack;
mod price;
mod reach;
mod search;
mod sheets;
mod simplex;
#[cfg(test)]
mod small_tests;
#[cfg(test)]
mod tests;
mod told;

pub use few::{FewHeights, few_heights};
pub use sheets::{Sheet, Sheets, sheets};

use std::collections::BTreeSet;

use self::core::{Core, Rounding};
use self::number::Steps;
use self::search::Search;

/// Equal pieces to be cut. Lengths are whole numbers of any unit, the same throughout a problem.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Demand {
    /// Width of a piece, along the strip.
    pub width: u32,
    /// Height of a piece, across the strip.
    pub height: u32,
    /// How many.
    pub count: u32,
    /// Whether a piece may be laid turned by a quarter.
    pub turnable: bool,
}

/// What is to be cut.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Problem {
    /// The width of the cloth.
    pub width: u32,
    /// The pieces.
    pub demands: Vec<Demand>,
    /// The heights that strips may have; none for any. Given some, a strip may be higher than its highest piece.
    pub heights: Option<BTreeSet<u32>>,
}

impl Problem {
    /// The height of the lowest strip for a piece of this height.
    fn strip_height(&self, height: u32) -> Option<u32> {
        match &self.heights {
            None => Some(height),
            Some(heights) => heights.range(height..).next().copied(),
        }
    }
}

/// How much work may be done, in steps of about a nanosecond.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Budget(u64);

impl Budget {
    /// Hardly any: for a plan that is valid and no more.
    pub const NONE: Self = Self(0);
    /// For every day.
    pub const USUAL: Self = Self(80_000_000);
    /// Sixteen times that.
    pub const THOROUGH: Self = Self(16 * Self::USUAL.0);
}

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refusal {
    /// The demands, by index, whose pieces fit no way or have no area.
    Misfits(Vec<usize>),
    /// All pieces one above the other would be longer than 2^50.
    TooMuch,
}

/// Equal pieces in a strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pieces {
    /// Which, by index among the demands.
    pub demand: usize,
    /// Whether width and height are swapped.
    pub turned: bool,
    /// How many side by side.
    pub count: u32,
}

/// Equal strips.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Strip {
    /// How high it is cut.
    pub height: u32,
    /// Its pieces, the highest first.
    pub pieces: Vec<Pieces>,
    /// How often it is cut.
    pub times: u32,
}

/// Strips for all pieces.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// The strips, the highest first.
    pub strips: Vec<Strip>,
    /// Their heights together.
    pub length: u64,
    /// No plan is shorter.
    pub bound: u64,
    /// Whether no plan is shorter than this one.
    pub proved: bool,
}

/// Plans the strips for all pieces, as short together as the budget allows. A larger budget than the usual one never gives a longer plan than that.
///
/// # Errors
/// [`Refusal`] as told there.
pub fn plan(problem: &Problem, budget: Budget) -> Result<Plan, Refusal> {
    if budget.0 <= Budget::USUAL.0 {
        return plan_within(problem, budget);
    }
    let usual = plan_within(problem, Budget::USUAL)?;
    if usual.proved {
        return Ok(usual);
    }
    let more = plan_within(problem, budget)?;
    let bound = usual.bound.max(more.bound);
    let best = if more.length < usual.length { more } else { usual };
    Ok(Plan { bound, proved: bound == best.length, ..best })
}

/// One search within a budget.
fn plan_within(problem: &Problem, budget: Budget) -> Result<Plan, Refusal> {
    let core = Core::new(problem, Rounding::Tight)?;
    let mut steps = Steps::new(budget.0);
    let mut search = Search::new(&core);
    if core.rounded {
        let (bound, work) = root_bound(problem, Budget(budget.0 / 4))?;
        steps = Steps::new(budget.0.saturating_sub(work));
        search.rough = Some(bound / core.unit);
    }
    search.run(&mut steps);
    let length = search.length * core.unit;
    let bound = (search.bound * core.unit).max(area_bound(problem)).min(length);
    Ok(Plan {
        strips: told::strips(&core, problem, std::slice::from_ref(&search.best)).into_iter().flatten().collect(),
        length,
        bound,
        proved: bound == length,
    })
}

/// A bound from the fractional problem alone, and the steps it took.
fn root_bound(problem: &Problem, budget: Budget) -> Result<(u64, u64), Refusal> {
    let core = Core::new(problem, Rounding::Relaxed)?;
    let mut search = Search::new(&core);
    let mut steps = Steps::new(budget.0);
    if !core.kinds.is_empty() {
        search.root(&mut steps);
    }
    Ok((search.bound * core.unit, budget.0 - steps.left()))
}

/// The area of all pieces over the width, rounded up.
fn area_bound(problem: &Problem) -> u64 {
    let area = |demand: &Demand| u128::from(demand.width) * u128::from(demand.height) * u128::from(demand.count);
    let area: u128 = problem.demands.iter().map(area).sum();
    u64::try_from(area.div_ceil(u128::from(problem.width.max(1)))).unwrap_or(0)
}
