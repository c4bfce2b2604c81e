//! Plans with few different heights of strips: fewer settings of the ruler, for a little more cloth.

use std::collections::BTreeSet;

use super::core::ways;
use super::number::{common, number};
use super::{Budget, Plan, Problem, Refusal, plan, root_bound};

/// The most sets of heights of one size that are weighed; with more, a set grows height by height.
const SETS: u64 = 3_000;
/// How many of the most promising sets go on growing.
const BEAM: usize = 60;

/// A plan with few different heights of strips.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FewHeights {
    /// The plan; its bound holds for these heights only.
    pub plan: Plan,
    /// The heights.
    pub heights: BTreeSet<u32>,
    /// No plan within the length asked has fewer different heights.
    pub fewest: usize,
}

/// A plan no longer than `most` with as few different heights of strips as are found; none if none is found so short.
///
/// A strip may be higher than its highest piece. Sets of heights are weighed by their area bound, then by their fractional plan; a number of heights
/// is proved too few when every set of so many is too long by such a bound.
///
/// # Errors
/// [`Refusal`] as told there.
pub fn few_heights(problem: &Problem, most: u64, budget: Budget) -> Result<Option<FewHeights>, Refusal> {
    let best = plan(problem, budget)?;
    let all: Vec<u32> = heights(problem).into_iter().collect();
    let mut found = (best.length <= most).then(|| kept(best.clone()));
    let used = found.as_ref().map_or(all.len(), |few| few.heights.len());
    let mut fewest = usize::from(!best.strips.is_empty()).min(used);
    let (mut proving, mut left) = (true, budget.0);
    let mut grown = Grown { problem, all: &all, sets: vec![Vec::new()], whole: true };
    for size in 1..used {
        let Some((sets, whole)) = grown.sets(size, most, &mut left) else {
            break;
        };
        let mut refuted = whole;
        for heights in sets {
            // Each trial counts as a sixteenth of the budget at most.
            let share = Budget(left / 16);
            if share.0 == 0 {
                proving = false;
                break;
            }
            let part = Problem { heights: Some(heights), ..problem.clone() };
            let (bound, work) = root_bound(&part, share)?;
            left = left.saturating_sub(work);
            if bound > most {
                continue;
            }
            refuted = false;
            let plan = plan(&part, share)?;
            left = left.saturating_sub(share.0);
            if plan.length <= most {
                let few = kept(plan);
                return Ok(Some(FewHeights { fewest: fewest.min(few.heights.len()), ..few }));
            }
        }
        proving &= refuted;
        if proving {
            fewest = (size + 1).min(used);
        }
    }
    if let Some(few) = &mut found {
        few.fewest = fewest;
    }
    Ok(found)
}

fn kept(plan: Plan) -> FewHeights {
    let heights: BTreeSet<u32> = plan.strips.iter().map(|strip| strip.height).collect();
    FewHeights { fewest: heights.len(), heights, plan }
}

/// The heights that strips need ever have.
pub(super) fn heights(problem: &Problem) -> BTreeSet<u32> {
    let demands = problem.demands.iter().filter(|demand| demand.count > 0);
    let ways = demands.flat_map(ways).filter(|&(along, _)| along <= problem.width);
    ways.filter_map(|(_, height)| problem.strip_height(height)).collect()
}

/// Sets of heights that grow height by height.
struct Grown<'p> {
    problem: &'p Problem,
    all: &'p [u32],
    /// All of one size, each by falling height, or the most promising.
    sets: Vec<Vec<u32>>,
    whole: bool,
}

impl Grown<'_> {
    /// Sets of `size` heights, one more than before, whose area bound is no more than `most`, the least area first; and whether these are all there
    /// are. None if that takes more steps than are left.
    fn sets(&mut self, size: usize, most: u64, left: &mut u64) -> Option<(Vec<BTreeSet<u32>>, bool)> {
        let above = |set: &[u32], height: u32| set.last().is_none_or(|last| height < *last);
        // Where not all sets are kept, a set may grow by any height, not only by lower ones.
        self.whole &= choices(self.all.len(), size) <= SETS;
        let mut grown: Vec<Vec<u32>> = Vec::new();
        let work = number(self.sets.len() * self.all.len()) * (number(self.problem.demands.len()) * 40 + 200);
        *left = left.checked_sub(work).filter(|left| *left > 0)?;
        for set in &self.sets {
            let more =
                self.all.iter().filter(|height| if self.whole { above(set, **height) } else { !set.contains(height) });
            grown.extend(more.map(|height| [set.as_slice(), &[*height]].concat()));
        }
        if !self.whole {
            for set in &mut grown {
                set.sort_unstable_by(|a, b| b.cmp(a));
            }
            grown.sort_by_cached_key(|set| (area(self.problem, self.all, set), set.clone()));
            grown.dedup();
            grown.truncate(BEAM);
        }
        self.sets = grown;
        let mut weighed: Vec<(u128, BTreeSet<u32>)> = Vec::new();
        for set in &self.sets {
            let set: BTreeSet<u32> = set.iter().copied().collect();
            let area = area_in(self.problem, &set);
            if let Some(area) = area.filter(|area| *area <= u128::from(most) * u128::from(self.problem.width)) {
                weighed.push((area, set));
            }
        }
        weighed.sort();
        Some((weighed.into_iter().map(|(_, set)| set).collect(), self.whole))
    }
}

/// How many sets of `size` there are among `all`, or many.
fn choices(all: usize, size: usize) -> u64 {
    let (mut over, mut under) = (1_u64, 1_u64);
    for k in 0..size {
        let factors = (number(all.saturating_sub(k)), number(k + 1));
        let shared = common(over * factors.0, under * factors.1).max(1);
        (over, under) = (over * factors.0 / shared, under * factors.1 / shared);
        if over > SETS * under {
            return u64::MAX;
        }
    }
    over / under
}

/// The area of strips for all pieces, each in the lowest strip it fits; with the highest height of all beside the set, while the set is not whole.
fn area(problem: &Problem, all: &[u32], set: &[u32]) -> u128 {
    let mut set: BTreeSet<u32> = set.iter().copied().collect();
    set.extend(all.last());
    area_in(problem, &set).unwrap_or(u128::MAX)
}

/// The area of strips for all pieces, each laid the way and in the strip where it takes least; none if one fits no strip.
fn area_in(problem: &Problem, set: &BTreeSet<u32>) -> Option<u128> {
    let demands = problem.demands.iter().filter(|demand| demand.count > 0);
    demands
        .map(|demand| {
            let fits = ways(demand).into_iter().filter(|&(along, _)| along <= problem.width);
            let areas =
                fits.filter_map(|(along, height)| Some(u128::from(along) * u128::from(*set.range(height..).next()?)));
            Some(areas.min()? * u128::from(demand.count))
        })
        .sum()
}
