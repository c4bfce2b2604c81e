//! The search for a short plan: dives into the fractional plan, then parts of the best plan cut anew, again and again (large neighbourhood search, Shaw
//! 1998).

use super::columns::Prices;
use super::core::Core;
use super::exact::Positions;
use super::greedy::{Cut, filled, greedy, length, take};
use super::master::Master;
use super::number::{Dice, Steps, float, merge, number, whole};
use super::price::{Pattern, Pricer};
use super::reach::Reach;

/// How many of the prices of the fractional plan are kept.
const DUALS: usize = 3;

/// The best plan so far and what helps to better it.
pub(super) struct Search<'c> {
    pub core: &'c Core,
    pub best: Cut,
    pub length: u64,
    /// No plan is shorter.
    pub bound: u64,
    /// The bound, where the core is rounded up and proves none.
    pub rough: Option<u64>,
    /// Strips that are worth their height, or nearly.
    pub pool: Vec<Pattern>,
    /// What pieces are worth where no strip is worth more than its height, the best first.
    pub prices: Vec<Prices>,
    /// What the exhaustive search has found out.
    pub positions: Option<Positions>,
    /// Lengths that can be.
    pub reach: Reach,
    pub pricer: Pricer<'c>,
    pub dice: Dice,
}

/// What a dive is for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Dive<'d> {
    pub counts: &'d [u64],
    pub seeds: &'d [Pattern],
    /// A longer plan is of no use.
    pub most: u64,
    /// How much chance there is in it: 0 for none.
    pub chance: f64,
}

/// What is done to better a plan or to prove it.
#[derive(Debug, Clone, Copy)]
enum Turn {
    Renew,
    Branch,
    Exact,
}

impl<'c> Search<'c> {
    pub fn new(core: &'c Core) -> Self {
        let best = greedy(core, &core.counts());
        let length = length(core, &best);
        let reach = Reach::new(core, 0, &mut Steps::new(0));
        Self {
            reach,
            core,
            best,
            length,
            bound: 0,
            rough: None,
            pool: Vec::new(),
            prices: Vec::new(),
            positions: None,
            pricer: Pricer::new(core),
            dice: Dice(1),
        }
    }

    pub fn is_proved(&self) -> bool {
        self.bound >= self.length
    }

    /// Keeps a plan of all pieces if it is no longer than the best.
    pub fn keep(&mut self, cut: Cut) {
        let length = length(self.core, &cut);
        if length <= self.length {
            self.length = length;
            self.best = cut;
        }
    }

    /// Solves the fractional problem as a whole: a bound, and strips worth to be tried.
    pub fn root(&mut self, steps: &mut Steps) {
        let seeds: Vec<Pattern> = self.best.iter().map(|(pattern, _)| pattern.clone()).collect();
        let mut master = Master::new(self.core, &self.core.counts(), &[], &seeds);
        master.generate(&mut self.pricer, steps);
        let flat = self.core.kinds.iter().filter_map(|kind| Some(self.core.heights[kind.ways.first()?.from])).max();
        let bound = self.rough.unwrap_or(master.bound).max(flat.unwrap_or(0));
        self.reach = Reach::new(self.core, self.length, steps);
        self.bound = self.reach.raised(bound, self.length);
        self.prices = master.dual(DUALS);
        self.prices.push(Prices::area(self.core));
        self.pool = master.near(float(self.length.saturating_sub(self.bound)));
        self.pool.truncate(4 * self.core.kinds.len() + 100);
    }

    /// Takes the whole parts of the fractional plan, or the likeliest strip where there are none, solves what is left, and so on.
    pub fn dive(&mut self, dive: &Dive, steps: &mut Steps) -> Option<Cut> {
        let mut left = dive.counts.to_vec();
        let mut cut = Cut::new();
        let mut there = 0;
        let mut seeds = dive.seeds.to_vec();
        while left.iter().any(|count| *count > 0) {
            if !steps.are_left() {
                return None;
            }
            steps.take(4_000 + 200 * left.len());
            let mut master = Master::new(self.core, &left, &[], &seeds);
            master.enough = (dive.most + 1).saturating_sub(there);
            master.generate(&mut self.pricer, steps);
            if there + master.bound > dive.most {
                return None;
            }
            let mut solution = master.solution();
            seeds = master.near(float(self.core.heights[0]) * 0.1);
            seeds.truncate(3 * self.core.kinds.len());
            let before = there;
            for (amount, pattern) in &solution {
                let times = whole(amount + 1e-3);
                if times > 0 {
                    let (pattern, times) = take(&mut left, pattern.clone(), times);
                    if times > 0 {
                        there += self.core.heights[pattern.height] * times;
                        cut.push((pattern, times));
                    }
                }
            }
            if there > before {
                continue;
            }
            for (amount, _) in &mut solution {
                *amount += dive.chance * self.dice.roll();
            }
            let likeliest = solution.into_iter().reduce(|best, other| if other.0 > best.0 { other } else { best })?;
            let pattern = filled(self.core, likeliest.1, &left);
            there += self.core.heights[pattern.height];
            cut.push(take(&mut left, pattern, 1));
        }
        (there <= dive.most).then_some(cut)
    }

    /// Looks for a short plan and proves what it can.
    pub fn run(&mut self, steps: &mut Steps) {
        if self.core.kinds.is_empty() {
            return;
        }
        self.root(steps);
        let mut part = steps.split(steps.left() / 8);
        self.exact(false, &mut part);
        // The search gave up, with steps left, where there were too many strips.
        let small = !part.are_left();
        steps.rejoin(&part);
        let counts = self.core.counts();
        for round in 0..6_usize {
            if self.is_proved() || !steps.are_left() {
                return;
            }
            let seeds = self.pool.clone();
            let chance = 0.1 * float(number(round));
            let dive = Dive { counts: &counts, seeds: &seeds, most: self.length - 1, chance };
            if let Some(cut) = self.dive(&dive, steps) {
                self.keep(cut);
            }
        }
        // First the plan, then the proof, then the plan again.
        let turns: &[(u64, Turn)] = if small {
            &[(16, Turn::Renew), (4, Turn::Branch), (2, Turn::Exact), (1, Turn::Renew)]
        } else {
            &[(16, Turn::Renew), (2, Turn::Branch), (1, Turn::Renew)]
        };
        for &(share, turn) in turns {
            let mut part = steps.split(steps.left() / share);
            match turn {
                Turn::Renew => self.renew(&mut part),
                Turn::Branch => self.branch(&mut part),
                Turn::Exact => self.exact(true, &mut part),
            }
            steps.rejoin(&part);
        }
    }

    /// Cuts parts of the best plan anew until it is proved or no steps are left.
    pub fn renew(&mut self, steps: &mut Steps) {
        let mut free = 6;
        while steps.are_left() && !self.is_proved() {
            self.renew_part(free, steps);
            free = 4 + self.dice.below(9);
        }
    }

    /// Cuts a part of the best plan anew.
    pub fn renew_part(&mut self, free: usize, steps: &mut Steps) {
        steps.take(1_000 + 400 * self.best.len());
        let chosen = self.chosen(free);
        let mut counts = vec![0; self.core.kinds.len()];
        let mut freed = 0;
        let mut seeds = Vec::new();
        let mut rest = self.best.clone();
        for place in chosen {
            let (pattern, times) = &mut rest[place];
            *times -= 1;
            freed += self.core.heights[pattern.height];
            pattern.pieces.iter().for_each(|&(kind, count)| counts[kind] += count);
            seeds.push(pattern.clone());
        }
        let chance = 0.1 + 0.9 * self.dice.roll();
        let dive = Dive { counts: &counts, seeds: &seeds, most: freed, chance };
        let Some(part) = self.dive(&dive, steps) else { return };
        rest.extend(part);
        rest.retain(|(_, times)| *times > 0);
        merge(&mut rest);
        self.keep(rest);
    }

    /// Some strips of the best plan, by place: by chance, near in height, or with much room.
    fn chosen(&mut self, free: usize) -> Vec<usize> {
        let seed = self.dice.below(self.best.len());
        let manner = self.dice.below(3);
        let mut keys: Vec<(f64, usize)> = Vec::new();
        for place in 0..self.best.len() {
            let pattern = &self.best[place].0;
            let roll = self.dice.roll();
            let key = match manner {
                0 => roll,
                1 => {
                    let away = pattern.height.abs_diff(self.best[seed].0.height);
                    float(number(away)) * (0.5 + roll)
                }
                _ => {
                    let room = float(pattern.room(self.core)) / float(self.core.width);
                    roll - 4.0 * room
                }
            };
            keys.push((key, place));
        }
        keys.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        keys.into_iter().take(free).map(|(_, place)| place).collect()
    }
}
