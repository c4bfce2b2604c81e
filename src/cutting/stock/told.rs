//! A plan of the core told in the units and demands of the problem.

use std::cmp::Reverse;

use super::core::Core;
use super::greedy::Cut;
use super::price::Pattern;
use super::{Pieces, Problem, Strip};

/// Which pieces of a kind are still to be dealt out: its demands with what is left of each.
struct Dealt {
    queues: Vec<Vec<(usize, u64)>>,
}

impl Dealt {
    fn new(core: &Core, problem: &Problem) -> Self {
        let left = |&demand: &usize| (demand, u64::from(problem.demands[demand].count));
        // The last comes first off the stack.
        Self { queues: core.kinds.iter().map(|kind| kind.demands.iter().rev().map(left).collect()).collect() }
    }

    /// How often equal strips can be dealt out before a demand ends within one; none if one ends within the first.
    fn whole(&self, pattern: &Pattern, times: u64) -> Option<u64> {
        let lasts = |&(kind, count): &(usize, u64)| self.queues[kind].last().map_or(0, |(_, left)| left / count.max(1));
        Some(pattern.pieces.iter().map(lasts).min().unwrap_or(times).min(times)).filter(|times| *times > 0)
    }

    /// Takes so many pieces of a kind, from one demand after the other.
    fn deal(&mut self, kind: usize, mut count: u64) -> Vec<(usize, u64)> {
        let mut dealt = Vec::new();
        while count > 0 {
            let Some((demand, left)) = self.queues[kind].last_mut() else { break };
            let taken = count.min(*left);
            dealt.push((*demand, taken));
            *left -= taken;
            count -= taken;
            if *left == 0 {
                self.queues[kind].pop();
            }
        }
        dealt
    }
}

/// The strips of each part of a plan, the highest first; pieces are dealt out from part to part.
pub(super) fn strips(core: &Core, problem: &Problem, parts: &[Cut]) -> Vec<Vec<Strip>> {
    let mut dealt = Dealt::new(core, problem);
    parts.iter().map(|part| part_strips(core, problem, part, &mut dealt)).collect()
}

fn part_strips(core: &Core, problem: &Problem, cut: &Cut, dealt: &mut Dealt) -> Vec<Strip> {
    let mut strips: Vec<Strip> = Vec::new();
    for (pattern, times) in cut {
        let mut left = *times;
        while left > 0 {
            let whole = dealt.whole(pattern, left);
            let times = whole.unwrap_or(1);
            let mut pieces = Vec::new();
            for &(kind, count) in &pattern.pieces {
                let along = core.kinds[kind].way_at(pattern.height).map_or(0, |way| way.along);
                for (demand, count) in dealt.deal(kind, count * times) {
                    let turned = along != problem.demands[demand].width;
                    pieces.push(Pieces {
                        demand,
                        turned,
                        count: short(count / if whole.is_some() { times } else { 1 }),
                    });
                }
            }
            let side = |piece: &Pieces| {
                let demand = problem.demands[piece.demand];
                if piece.turned { (demand.width, demand.height) } else { (demand.height, demand.width) }
            };
            pieces.sort_by_key(|piece| (Reverse(side(piece)), piece.demand));
            let height = short(core.heights[pattern.height] * core.unit);
            strips.push(Strip { height, pieces, times: short(times) });
            left -= times;
        }
    }
    strips.sort_by_key(|strip| Reverse(strip.height));
    strips.dedup_by(|later, first| {
        let same = later.height == first.height && later.pieces == first.pieces;
        if same {
            first.times += later.times;
        }
        same
    });
    strips
}

/// Numbers told are no greater than those asked, which were short.
fn short(number: u64) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}
