//! Branch and bound on how many strips are at least so high: the length depends on nothing else, and the pricing of strips stays what it is.

use std::collections::BTreeMap;

use super::core::Kind;
use super::greedy::Cut;
use super::master::{Counted, Limit, Master};
use super::number::{Steps, float, number, whole};
use super::price::Pattern;
use super::search::{Dive, Search};

/// The most strips to begin a node with.
const POOL: usize = 400;
/// The most limits on the way to a node.
const DEPTH: usize = 60;

/// A part of all plans: those within limits; none of them is shorter than the bound.
struct Node {
    bound: u64,
    limits: Vec<Limit>,
}

impl Search<'_> {
    /// Raises the bound by dividing all plans into parts, those with the lowest bound first, until the best plan is proved, a part cannot be divided, or
    /// no steps are left.
    pub fn branch(&mut self, steps: &mut Steps) {
        if self.rough.is_some() || self.is_proved() {
            return;
        }
        let mut open = vec![Node { bound: self.bound, limits: Vec::new() }];
        while steps.are_left() {
            let nodes = open.iter().enumerate();
            // Of parts with the lowest bound the newest, which is the deepest.
            let lowest =
                nodes.min_by_key(|(place, node)| (node.bound, std::cmp::Reverse(*place))).map(|(place, _)| place);
            let Some(place) = lowest else {
                self.bound = self.length;
                return;
            };
            self.bound = self.bound.max(open[place].bound.min(self.length));
            if self.is_proved() {
                return;
            }
            let node = open.swap_remove(place);
            let Some(parts) = self.divided(&node, steps) else { return };
            open.extend(parts);
        }
    }

    /// The parts of a node that may hold a shorter plan than the best; none if it cannot be divided.
    fn divided(&mut self, node: &Node, steps: &mut Steps) -> Option<Vec<Node>> {
        let counts = self.core.counts();
        let mut master = Master::new(self.core, &counts, &node.limits, &self.pool);
        master.enough = self.length;
        master.generate(&mut self.pricer, steps);
        let bound = self.reach.raised(node.bound.max(master.bound), self.length);
        if bound >= self.length {
            return Some(Vec::new());
        }
        if !master.converged && master.bound < master.least() {
            return None;
        }
        let solution = master.solution();
        self.remember(&solution);
        let heights = self.core.heights.len();
        let mut split = apart(&solution, (0..heights).map(|from| (Counted::Strips, from)));
        if split.is_none() {
            let kinds = self.core.kinds.iter().enumerate();
            let above = |(kind, it): (usize, &Kind)| {
                let from = it.ways.first().map_or(heights, |way| way.from + 1);
                (from..heights).map(move |from| (Counted::Pieces(kind), from))
            };
            split = apart(&solution, kinds.flat_map(above));
        }
        if split.is_none() {
            self.assemble(&solution, steps);
            if self.length <= bound {
                return Some(Vec::new());
            }
            let held = solution.iter().flat_map(|(_, pattern)| &pattern.pieces);
            let most: BTreeMap<usize, u64> = held.fold(BTreeMap::new(), |mut most, &(kind, count)| {
                most.entry(kind).and_modify(|most| *most = count.max(*most)).or_insert(count);
                most
            });
            let held =
                most.iter().flat_map(|(&kind, &most)| (1..=most).map(move |least| Counted::Holding(kind, least)));
            split = apart(&solution, held.flat_map(|of| (0..heights).map(move |from| (of, from))));
        }
        let Some((of, from, below)) = split.filter(|_| node.limits.len() < DEPTH) else {
            self.attempt(&counts, bound, steps);
            return (self.length <= bound).then(Vec::new);
        };
        let part = |at_least: bool| {
            let amount = if at_least { below + 1 } else { below };
            let mut limits = node.limits.clone();
            limits.retain(|limit| limit.of != of || limit.from != from || limit.at_least != at_least);
            limits.push(Limit { of, from, amount, at_least });
            Node { bound, limits }
        };
        Some(vec![part(false), part(true)])
    }

    /// Keeps the strips of a fractional plan for the next.
    fn remember(&mut self, solution: &[(f64, Pattern)]) {
        for (_, pattern) in solution {
            if self.pool.len() < POOL && !self.pool.contains(pattern) {
                self.pool.push(pattern.clone());
            }
        }
    }

    /// A plan from a fractional one in which strips and pieces are whole for each height: the pieces of one height after the other.
    fn assemble(&mut self, solution: &[(f64, Pattern)], steps: &mut Steps) {
        let mut left = self.core.counts();
        let mut cut = Cut::new();
        for height in (0..self.core.heights.len()).rev() {
            let own = || solution.iter().filter(|(_, pattern)| pattern.height == height);
            let strips = whole(own().map(|(amount, _)| amount).sum::<f64>().round());
            if strips == 0 {
                continue;
            }
            let mut counts = vec![0; left.len()];
            for kind in 0..left.len() {
                let there: f64 =
                    own().map(|(amount, pattern)| amount * float(Counted::Pieces(kind).within(pattern))).sum();
                counts[kind] = whole(there.round()).min(left[kind]);
            }
            let seeds: Vec<Pattern> = own().map(|(_, pattern)| pattern.clone()).collect();
            let most = strips * self.core.heights[height];
            let tries = (0..6_usize).find_map(|round| {
                let chance = 0.2 * float(number(round));
                self.dive(&Dive { counts: &counts, seeds: &seeds, most, chance }, steps)
            });
            let Some(part) = tries else { return };
            left.iter_mut().zip(&counts).for_each(|(left, count)| *left -= count);
            cut.extend(part);
        }
        if left.iter().all(|count| *count == 0) {
            self.keep(cut);
        }
    }

    /// A few dives for a plan of the length of the bound.
    fn attempt(&mut self, counts: &[u64], most: u64, steps: &mut Steps) {
        let seeds = self.pool.clone();
        for round in 0..4_usize {
            let chance = 0.25 * float(number(round));
            let found: Option<Cut> = self.dive(&Dive { counts, seeds: &seeds, most, chance }, steps);
            if let Some(cut) = found {
                self.keep(cut);
                return;
            }
        }
    }
}

/// What is counted, from which height on, and the whole number below how much of it there is.
type Split = (Counted, usize, u64);

/// Of what may be counted, that of which the amount is farthest from whole.
fn apart(solution: &[(f64, Pattern)], candidates: impl Iterator<Item = (Counted, usize)>) -> Option<Split> {
    let (mut most, mut best) = (1e-4, None);
    for (of, from) in candidates {
        let high = solution.iter().filter(|(_, pattern)| pattern.height >= from);
        let amount: f64 = high.map(|(amount, pattern)| amount * float(of.within(pattern))).sum();
        let apart = (amount - amount.round()).abs();
        if apart > most {
            (most, best) = (apart + 1e-6, Some((of, from, whole(amount.floor()))));
        }
    }
    best
}
