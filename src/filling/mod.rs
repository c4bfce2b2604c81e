//! Convex shapes laid on pages so that the fewest sheets are printed: what is to be laid, how, and what comes out.
//!
//! In the field's words: two-dimensional irregular bin packing of convex pieces, with multiplicities as in cutting stock with set-ups. A sheet that is printed m times gives m of
//! everything on it, so the copies wanted decide what goes together. Everything is counted in steps, so that the same task gives the same sheets everywhere.

mod assign;
mod bound;
mod core;
mod dense;
mod fits;
mod greedy;
mod keep;
mod known;
mod nearest;
mod nofit;
mod number;
mod page;
mod roll;
mod search;
mod separate;
#[cfg(test)]
mod tests;
mod tidy;

pub use fits::fits;
pub use keep::fill_keeping;
pub use nearest::nearest;

use std::thread;

use self::core::{Core, Plan};
use self::number::{Steps, count};
use crate::geometry::{Angle, Point, Polygon, Transform, Vector};

/// A shape to be printed.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// Its outline in inches, in a frame of its own.
    pub outline: Polygon,
    /// How many are wanted.
    pub copies: u32,
}

/// What is printed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Medium {
    /// Single sheets; their number counts.
    Pages,
    /// Sheets cut from a roll, as long as what is on them; their length together counts.
    Roll,
}

/// The room for shapes on a sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Page {
    /// Its width in inches.
    pub width: f64,
    /// Its height in inches; on a roll the longest that a sheet may be.
    pub height: f64,
    /// What it is cut from.
    pub medium: Medium,
}

/// How shapes may be turned. They are never mirrored.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Turning {
    /// Not at all.
    Fixed,
    /// By quarters of a turn.
    Quarters,
    /// By any angle.
    Freely,
}

/// What is wished first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Wish {
    /// The fewest sheets printed (on a roll the least length), and of those the fewest different ones.
    FewestPrinted,
    /// The fewest different sheets for which no more are printed than the fewest found and a share of them on top, rounded down (on a roll: no more length).
    FewestDifferent {
        /// The share on top: 0.1 for a tenth more. Below 0 counts as 0.
        surplus: f64,
    },
}

/// How much work may be done by each search, in steps of two or three nanoseconds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Budget(u64);

/// The dice of the searches that go on side by side: in the usual round, and in the thorough one behind it.
const SEEDS: [[u64; 2]; 2] = [[4, 6], [5, 7]];

impl Budget {
    /// For a first look.
    pub const QUICK: Self = Self(40_000_000);
    /// For every day: less than a second.
    pub const USUAL: Self = Self(230_000_000);
    /// The usual, and then some nine times that.
    pub const THOROUGH: Self = Self(2_000_000_000);

    /// The rounds of searches: how much work each may do, and their dice.
    fn rounds(self) -> Vec<(u64, &'static [u64])> {
        let usual = (self.0.min(Self::USUAL.0), if self < Self::USUAL { &SEEDS[0][..1] } else { &SEEDS[0][..] });
        let thorough = (self > Self::USUAL).then_some((self.0, &SEEDS[1][..]));
        std::iter::once(usual).chain(thorough).collect()
    }
}

/// What is to be laid on what.
#[derive(Debug, Clone, PartialEq)]
pub struct Task {
    /// The shapes.
    pub shapes: Vec<Shape>,
    /// The room on a sheet.
    pub page: Page,
    /// No two outlines on a sheet are nearer than this, in inches.
    pub gap: f64,
    /// How they may be turned.
    pub turning: Turning,
    /// What is wished first.
    pub wish: Wish,
    /// How much work may be done.
    pub effort: Budget,
}

/// Where a copy lies on its sheet: the outline is turned about the origin of its frame, then shifted.
///
/// The upper left corner of the page is the origin; y runs down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Which shape, by index in the task.
    pub shape: usize,
    /// How far it is turned, clockwise as seen.
    pub turn: Angle,
    /// How far it is shifted then.
    pub shift: Vector,
}

impl Place {
    /// The map from the frame of the shape to the page.
    #[must_use]
    pub fn transform(&self) -> Transform {
        Transform::turn(self.turn, Point::default()).then(Transform::shift(self.shift))
    }
}

/// Equal sheets.
#[derive(Debug, Clone, PartialEq)]
pub struct FilledSheet {
    /// What lies on it.
    pub places: Vec<Place>,
    /// How often it is printed.
    pub times: u32,
    /// How far down the lowest outline reaches, in inches; on a roll the length to cut.
    pub length: f64,
}

/// A sheet of a former release: what on it is to stay.
#[derive(Debug, Clone, PartialEq)]
pub struct FormerSheet {
    /// What lies on it; the shapes are those of the new task.
    pub places: Vec<Place>,
    /// How often it was printed.
    pub times: u32,
}

/// Sheets for all copies.
#[derive(Debug, Clone, PartialEq)]
pub struct Filled {
    /// The sheets, the fullest first.
    pub sheets: Vec<FilledSheet>,
    /// No filling prints fewer sheets.
    pub printed_bound: u32,
    /// No filling that prints as few sheets (or as many as the surplus allows) has fewer different ones.
    pub different_bound: u32,
    /// No filling is shorter, all sheets together, in inches. Told for a roll only; 0 on pages.
    pub length_bound: f64,
    /// Whether what is wished first is proved to be as good as can be.
    pub complete: bool,
    /// Whether former sheets were kept.
    pub kept: bool,
}

impl Filled {
    /// How many sheets are printed.
    #[must_use]
    pub fn printed(&self) -> u32 {
        self.sheets.iter().fold(0, |sum, sheet| sum.saturating_add(sheet.times))
    }

    /// How many different sheets there are.
    #[must_use]
    pub fn different(&self) -> usize {
        self.sheets.len()
    }

    /// The length of all printed sheets together, in inches.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.sheets.iter().map(|sheet| sheet.length * f64::from(sheet.times)).sum()
    }
}

/// Lays all copies of all shapes on sheets.
///
/// What more turning allows is looked for only after what less turning allows, so it never takes more sheets.
///
/// # Errors
/// The index of the first shape with copies that fits on no page in any turn allowed.
pub fn fill(task: &Task) -> Result<Filled, usize> {
    let core = Core::new(task)?;
    Ok(told(&core, &solve(&core, task)))
}

/// The best plan that the steps allow.
fn solve(core: &Core, task: &Task) -> Plan {
    let mut best: Option<Plan> = None;
    for (budget, seeds) in task.effort.rounds() {
        let found = searched(core, task, core.scaled(budget), seeds);
        best =
            found.into_iter().chain(best).reduce(|best, other| if better(core, &other, &best) { other } else { best });
        let proved = |plan: &Plan| {
            let printed = plan.printed();
            printed <= bound::printed(core) && count(plan.sheets.len()) <= bound::different(core, printed)
        };
        if core.page.medium == Medium::Pages && best.as_ref().is_some_and(proved) {
            break;
        }
    }
    let mut plan = best.unwrap_or_default();
    if let (Wish::FewestDifferent { surplus }, Medium::Pages) = (task.wish, task.page.medium) {
        plan = fewest_different(core, plan, surplus, core.scaled(task.effort.0));
    }
    tidy::tidy(core, &mut plan);
    plan
}

/// The plans of several searches side by side, each with dice of its own: which of them finds a full sheet is a matter of luck, and of none that of the clock.
fn searched(core: &Core, task: &Task, budget: u64, seeds: &[u64]) -> Vec<Plan> {
    let Some((&first, others)) = seeds.split_first() else { return Vec::new() };
    thread::scope(|scope| {
        let begun: Vec<_> = others
            .iter()
            .map(|&seed| (seed, thread::Builder::new().spawn_scoped(scope, move || staged(core, task, budget, seed))))
            .collect();
        let mut plans = vec![staged(core, task, budget, first)];
        for (seed, begun) in begun {
            match begun {
                Ok(search) => plans.extend(search.join()),
                // A system without threads to spare searches one after the other.
                Err(_) => plans.push(staged(core, task, budget, seed)),
            }
        }
        plans
    })
}

/// One search: with less turning first, so that what more turning allows never takes more sheets.
fn staged(core: &Core, task: &Task, budget: u64, seed: u64) -> Plan {
    let stages: &[(Turning, u64)] = match task.turning {
        Turning::Fixed => &[(Turning::Fixed, 10)],
        Turning::Quarters => &[(Turning::Fixed, 10), (Turning::Quarters, 1)],
        Turning::Freely => &[(Turning::Fixed, 10), (Turning::Quarters, 1), (Turning::Freely, 2)],
    };
    let mut best: Option<Plan> = None;
    for &(turning, part) in stages {
        let Some(core) = core.turned(turning) else { continue };
        best = Some(stage(&core, best, seed, &mut Steps::new(budget / part)));
    }
    best.unwrap_or_default()
}

/// Whether a plan is better than another: fewer printed sheets or a shorter length, then fewer different sheets.
fn better(core: &Core, plan: &Plan, other: &Plan) -> bool {
    let cost = |plan: &Plan| match core.page.medium {
        Medium::Pages => f64::from(plan.printed()),
        Medium::Roll => roll::length(core, plan),
    };
    cost(plan).total_cmp(&cost(other)).then(plan.sheets.len().cmp(&other.sheets.len())).is_lt()
}

/// One search, on from a plan there may be.
fn stage(core: &Core, former: Option<Plan>, seed: u64, steps: &mut Steps) -> Plan {
    let first = greedy::plan(core, steps);
    let start = match former {
        Some(former) if !better(core, &first, &former) => former,
        _ => first,
    };
    match core.page.medium {
        Medium::Pages => {
            let mut search = search::Search::new(core, start, seed);
            search.fewest_printed(steps);
            search.best
        }
        Medium::Roll => roll::shorten(core, &start, steps),
    }
}

/// Fewer different sheets for a share of printed ones on top.
fn fewest_different(core: &Core, plan: Plan, surplus: f64, budget: u64) -> Plan {
    let printed = f64::from(plan.printed());
    let most = number::whole(printed * (1.0 + surplus.max(0.0)) + 1e-9).max(plan.printed());
    let mut search = search::Search::new(core, plan, SEEDS[0][0]);
    search.fewest_different(most, &mut Steps::new(budget / 2));
    search.best
}

/// A plan in the words of the task.
fn told(core: &Core, plan: &Plan) -> Filled {
    let sheets: Vec<FilledSheet> = plan
        .sheets
        .iter()
        .map(|sheet| FilledSheet {
            places: sheet.items.iter().map(|item| core.place(item)).collect(),
            times: sheet.times,
            length: core.length(&sheet.items),
        })
        .collect();
    let printed = f64::from(plan.printed());
    let most = match core.wish {
        Wish::FewestPrinted => printed,
        // What was found may print more already than the fewest.
        Wish::FewestDifferent { surplus } => printed * (1.0 + surplus.max(0.0)),
    };
    let mut filled = Filled {
        sheets,
        printed_bound: bound::printed(core),
        different_bound: bound::different(core, number::whole(most)),
        length_bound: bound::length(core),
        complete: false,
        kept: false,
    };
    filled.complete = match (core.wish, core.page.medium) {
        (Wish::FewestPrinted, Medium::Pages) => filled.printed() <= filled.printed_bound,
        (Wish::FewestPrinted, Medium::Roll) => filled.length() <= filled.length_bound + core::TINY,
        (Wish::FewestDifferent { .. }, _) => filled.different() <= number::size(filled.different_bound),
    };
    filled
}
