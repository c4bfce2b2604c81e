//! Match points, tips, and which way every join is pressed.
//!
//! A join is pressed as the author states it; else away from tips, where only one of its sides has any; the others are free. These are pressed so that
//! as many match points nest as can, and among such pressings so that as much as can goes toward the darker side, weighed by the length of the seam
//! and by how much lighter the other side is. Free joins that end at one match point hang together; each such group is settled by itself: exactly, where
//! all its match points can nest at once (`agree`), or by elimination (`eliminate`) while few enough hang together; else by turning one join after the
//! other while that gains anything, and then the pressing is not proved best. What meets at a point is told by `meetings`, what can be spun by `spins`.

mod agree;
mod eliminate;
mod meetings;
mod spins;

use std::collections::BTreeMap;

use crate::geometry::{Line, Point, Segment, Side, Tolerance};
use crate::pattern::{Block, Pattern};

use super::{Join, MatchPoint, Press};
use eliminate::Worth;
pub use meetings::{Cause, Nesting};
use meetings::{Held, Meeting};
use spins::Spinning;

/// Rounds of turning joins at the most.
const MAX_ROUNDS: usize = 1_000;

/// The layers where four seams come together: two for each that ends there, the join itself counted twice.
const FOUR_MEET: u32 = 8;

/// Fills in match points, tips and pressing of all joins of a block. Whether the pressing is proved best: whether of all that keep to what is stated
/// and away from tips none nests more match points, and none that nests as many has more pressed toward the darker side.
///
/// `seams` are those of the units, by unit; the joins stand in the order of sewing. O(joins × seams) and the elimination, which is bounded.
pub fn press(pattern: &Pattern, block: &Block, seams: &[Vec<Option<Segment>>], joins: &mut [Join]) -> bool {
    let mut plan = Plan { meetings: Vec::new(), held: vec![Held::Free; joins.len()], darker: vec![0; joins.len()] };
    let between = meetings::earliest_joins(joins);
    for index in 0..joins.len() {
        let Some(line) = joins[index].seam.line() else { continue };
        let (found, tip_sides) = meetings::meet(block, seams, joins, (index, line), &between);
        plan.meetings.extend(found);
        // A ring and an inset corner lie flat only as they are pressed when they are made.
        let settled = |stated| block.leaves.contains_key(&stated) || block.joins[stated].press.is_some();
        if joins[index].stated.is_some_and(settled) {
            plan.held[index] = Held::Stated;
            continue;
        }
        plan.darker[index] = darker(pattern, block, &joins[index], line);
        joins[index].press = if plan.darker[index] > 0 { Press::Right } else { Press::Left };
        if tip_sides[0] != tip_sides[1] {
            // Away from the side on which the tips are.
            joins[index].press = if tip_sides[0] { Press::Right } else { Press::Left };
            plan.held[index] = Held::Tips;
        }
    }
    let mut pressed: Vec<Press> = joins.iter().map(|join| join.press).collect();
    let mut proved = true;
    for group in plan.groups(&pressed) {
        proved &= plan.settle(&group, &mut pressed);
    }
    for (join, press) in joins.iter_mut().zip(&pressed) {
        join.press = *press;
    }
    tell(block, seams, joins, &plan);
    proved
}

/// What the pressing of a block has to heed.
struct Plan {
    /// All match points, by join, then in order along it.
    meetings: Vec<Meeting>,
    /// By join.
    held: Vec<Held>,
    /// By join: how much is won by pressing it toward its right side; below zero, toward its left.
    darker: Vec<i64>,
}

/// Free joins that hang together, and the match points at which they do.
struct Group {
    /// Ascending.
    joins: Vec<usize>,
    /// By index in [`Plan::meetings`]; only such as can nest.
    meetings: Vec<usize>,
}

impl Plan {
    fn is_free(&self, join: usize) -> bool {
        self.held[join] == Held::Free
    }

    /// The free joins at a match point, ascending.
    fn free_at(&self, meeting: usize) -> Vec<usize> {
        let mut joins = self.meetings[meeting].joins();
        joins.retain(|&join| self.is_free(join));
        joins
    }

    /// All free joins, in groups that hang together. Match points that cannot nest, whatever is pressed, keep nothing together.
    fn groups(&self, pressed: &[Press]) -> Vec<Group> {
        let mut home: Vec<usize> = (0..self.held.len()).collect();
        let can_nest: Vec<usize> = (0..self.meetings.len())
            .filter(|&meeting| {
                self.meetings[meeting].can_nest(&|join| self.is_free(join), &|join| pressed[join])
                    && !self.free_at(meeting).is_empty()
            })
            .collect();
        for &meeting in &can_nest {
            for pair in self.free_at(meeting).windows(2) {
                let (a, b) = (root(&home, pair[0]), root(&home, pair[1]));
                home[a.max(b)] = a.min(b);
            }
        }
        let mut groups: BTreeMap<usize, Group> = BTreeMap::new();
        for join in (0..self.held.len()).filter(|&join| self.is_free(join)) {
            let group = groups.entry(root(&home, join));
            group.or_insert_with(|| Group { joins: Vec::new(), meetings: Vec::new() }).joins.push(join);
        }
        for meeting in can_nest {
            if let Some(group) = self.free_at(meeting).first().and_then(|&join| groups.get_mut(&root(&home, join))) {
                group.meetings.push(meeting);
            }
        }
        groups.into_values().collect()
    }

    /// Settles the pressing of one group; whether it is proved best.
    fn settle(&self, group: &Group, pressed: &mut [Press]) -> bool {
        let among = |join: usize| group.joins.binary_search(&join).ok();
        let darker: Vec<i64> = group.joins.iter().map(|&join| self.darker[join]).collect();
        let there = group.meetings.iter().map(|&meeting| &self.meetings[meeting]);
        let (agreed, all) = agree::agree(there, &among, &|join| pressed[join], &darker);
        let best = if all { Some(agreed.clone()) } else { self.eliminate(group, pressed) };
        for (&join, &right) in group.joins.iter().zip(best.as_ref().unwrap_or(&agreed)) {
            pressed[join] = toward(right);
        }
        if best.is_none() {
            self.turn(group, pressed);
        }
        best.is_some()
    }

    /// Whether each join of a group is pressed to its right in the best pressing; none where too many hang together.
    fn eliminate(&self, group: &Group, pressed: &[Press]) -> Option<Vec<bool>> {
        let among = |join: usize| group.joins.binary_search(&join).ok();
        // The match points, then the joins one by one for their darker sides. A choice that is made means to the right.
        let mut scopes: Vec<Vec<usize>> =
            group.meetings.iter().map(|&m| self.free_at(m).into_iter().filter_map(among).collect()).collect();
        scopes.extend((0..group.joins.len()).map(|choice| vec![choice]));
        eliminate::best(group.joins.len(), &scopes, |factor, made| match group.meetings.get(factor) {
            Some(&meeting) => {
                let choice = |join: usize| scopes[factor].binary_search(&among(join)?).ok();
                let press = |join: usize| choice(join).map_or(pressed[join], |at| toward(made[at]));
                Worth { nested: u32::from(self.meetings[meeting].nests(&press)), darkness: 0 }
            }
            None => self.darkness(group.joins[factor - group.meetings.len()], toward(made[0])),
        })
    }

    fn darkness(&self, join: usize, press: Press) -> Worth {
        let wish = self.darker[join];
        let fulfilled = (wish > 0 && press == Press::Right) || (wish < 0 && press == Press::Left);
        Worth { nested: 0, darkness: if fulfilled { wish.unsigned_abs() } else { 0 } }
    }

    /// Turns joins of a group whose turning alone is a gain, until none is.
    fn turn(&self, group: &Group, pressed: &mut [Press]) {
        let mut concerns: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for &meeting in &group.meetings {
            for join in self.free_at(meeting) {
                concerns.entry(join).or_default().push(meeting);
            }
        }
        for _ in 0..MAX_ROUNDS {
            let mut turned = false;
            for &join in &group.joins {
                let worth = |pressed: &[Press]| {
                    let there = concerns.get(&join).into_iter().flatten();
                    let nested = there.filter(|&&m| self.meetings[m].nests(&|join| pressed[join])).count();
                    let nested = Worth { nested: u32::try_from(nested).unwrap_or(u32::MAX), darkness: 0 };
                    nested + self.darkness(join, pressed[join])
                };
                let before = worth(pressed);
                let kept = pressed[join];
                pressed[join] = toward(kept == Press::Left);
                if worth(pressed) > before {
                    turned = true;
                } else {
                    pressed[join] = kept;
                }
            }
            if !turned {
                break;
            }
        }
    }
}

fn toward(right: bool) -> Press {
    if right { Press::Right } else { Press::Left }
}

/// What stands for all that hang together with this one.
fn root(home: &[usize], mut join: usize) -> usize {
    while home[join] != join {
        join = home[join];
    }
    join
}

/// Tells of every match point whether it nests and can be spun, now that all joins are pressed.
fn tell(block: &Block, seams: &[Vec<Option<Segment>>], joins: &mut [Join], plan: &Plan) {
    let pressed: Vec<Press> = joins.iter().map(|join| join.press).collect();
    let press = |join: usize| pressed[join];
    let mut met_later = vec![[false; 2]; joins.len()];
    for meeting in &plan.meetings {
        for join in meeting.joins() {
            let seam = joins[join].seam;
            let at_start = meeting.at.distance(seam.start) < meeting.at.distance(seam.end);
            met_later[join][usize::from(!at_start)] = true;
        }
    }
    for there in plan.meetings.chunk_by(|a, b| a.join == b.join) {
        let index = there[0].join;
        let Some(line) = joins[index].seam.line() else { continue };
        let layers: Vec<u32> =
            there.iter().map(|meeting| meetings::layers(block, seams, joins, (index, meeting.at))).collect();
        let join = &mut joins[index];
        let (held, met_later) = (plan.held[index], met_later[index]);
        let spinning = Spinning { line, press: join.press, held, tips: &join.tips, met_later };
        let fours: Vec<bool> = layers.iter().map(|&layers| layers == FOUR_MEET).collect();
        let spins = spins::spins(&spinning, there, &fours, &press);
        let points = there.iter().zip(layers).zip(spins).map(|((meeting, layers), spins)| MatchPoint {
            at: meeting.at,
            nesting: meeting.nesting(&plan.held, &press),
            layers,
            spins,
        });
        join.match_points = points.collect();
    }
}

/// How much darker the fabrics along the seam are on its right than on its left, on the average, times its length in steps: in thousandths, rounded, so
/// that sums of it are exact.
fn darker(pattern: &Pattern, block: &Block, join: &Join, line: Line) -> i64 {
    let lightness = |places: &[usize]| -> f64 {
        let (mut sum, mut weight) = (0.0, 0.0);
        for &place in places {
            let placement = &block.placements[place];
            for section in &block.units[placement.unit].sections {
                let area = placement.transform.apply_to_polygon(&section.polygon);
                let length: f64 = area
                    .edges()
                    .filter(|edge| on(line, edge.start, block.tolerance) && on(line, edge.end, block.tolerance))
                    .map(Segment::length)
                    .sum();
                let fabric = placement.fabric(section.fabric);
                sum += length * pattern.fabrics.get(fabric).map_or(50.0, crate::pattern::facts::Fabric::lightness);
                weight += length;
            }
        }
        if weight > 0.0 { sum / weight } else { 50.0 }
    };
    let weighed = join.seam.length() * (lightness(&join.left) - lightness(&join.right)) * 1e3;
    #[expect(clippy::cast_possible_truncation, reason = "floats saturate, and blocks are far smaller")]
    let whole = weighed.round() as i64;
    whole
}

fn on(line: Line, point: Point, tolerance: Tolerance) -> bool {
    line.side(point, tolerance) == Side::On
}
