//! How the units of a block are joined: the joins that the source states, in its order, then straight cuts found for the rest.
//!
//! Whether a block can be joined is decided greedily, for any possible cut is safe: a region without a cut lies wholly on one side of every cut of its
//! surroundings. Among the possible cuts the one with the fewest match points is taken, then the longest, as short joins are sewn first.

mod leaves;

use std::collections::BTreeMap;

use crate::fault::{Fault, units as words};
use crate::geometry::{Line, Polygon, Segment, Side, Tolerance};
use crate::pattern::{Block, StatedJoin, StatedPress};

use super::ends::{ends, gathered, matches};
use super::plan::{PlanTree, Proposal, propose};
use super::{Join, JoinKind, Press, Tree};

/// A part of the block that is sewn together.
#[derive(Debug, Clone)]
struct Group {
    tree: Tree,
    outline: Polygon,
    /// Ascending.
    places: Vec<usize>,
    /// What a source may call it: a place, or the join that made it.
    name: String,
}

/// The joins of a block in the order of sewing, and its tree.
///
/// # Errors
/// A stated join that no straight seam makes, or the regions that no straight seam divides.
pub fn plan(block: &Block, seams: &[Vec<Option<Segment>>]) -> Result<(Vec<Join>, Tree), Box<Fault>> {
    let mut groups: Vec<Option<Group>> = block
        .placements
        .iter()
        .enumerate()
        .map(|(index, place)| {
            let (outline, name) = (place.outline.clone(), place.called());
            Some(Group { tree: Tree::Unit(index), outline, places: vec![index], name })
        })
        .collect();
    // Which group a place belongs to by now.
    let mut home: Vec<usize> = (0..groups.len()).collect();
    let mut joins = Vec::new();
    for (index, stated) in block.joins.iter().enumerate() {
        let mut desk = Desk { block, groups: &mut groups, home: &mut home, joins: &mut joins };
        match block.leaves.get(&index) {
            None => desk.state(index, stated)?,
            Some(&leaf) => desk.leaf(index, stated, leaf)?,
        }
    }
    let planner = Planner { block, seams };
    let rest: Vec<Group> = groups.into_iter().flatten().collect();
    let outlines: Vec<Polygon> = rest.iter().map(|group| group.outline.clone()).collect();
    let parts: Vec<Vec<Polygon>> = rest.iter().map(|group| sections(block, &group.places)).collect();
    let Some(best) = super::plan::join(&outlines, &parts, block.tolerance, BUDGET) else {
        let tree = planner.divide(rest, &mut joins)?;
        return Ok((joins, tree));
    };
    let mut rest: Vec<Option<Group>> = rest.into_iter().map(Some).collect();
    match planner.follow(&best, &mut rest, &mut joins) {
        Some(group) => Ok((joins, group.tree)),
        None => Err(planner.stuck(&rest.into_iter().flatten().collect::<Vec<_>>())),
    }
}

/// So many regions are looked at for the best way to join; beyond, each region is cut by the cut that looks best there.
const BUDGET: u64 = 20_000;

/// The sections of these places, where they stand.
fn sections(block: &Block, places: &[usize]) -> Vec<Polygon> {
    let placed = places.iter().map(|&place| &block.placements[place]);
    placed
        .flat_map(|place| {
            let sections = block.units[place.unit].sections.iter();
            sections.map(|section| place.transform.apply_to_polygon(&section.polygon))
        })
        .collect()
}

/// The block while its stated joins are made.
struct Desk<'a> {
    block: &'a Block,
    groups: &'a mut Vec<Option<Group>>,
    /// Which group a place belongs to by now.
    home: &'a mut [usize],
    joins: &'a mut Vec<Join>,
}

impl Desk<'_> {
    /// Makes the joins that one statement asks for.
    fn state(&mut self, index: usize, stated: &StatedJoin) -> Result<(), Box<Fault>> {
        let block = self.block;
        let name = |place: usize| block.placements[place].called();
        let (first, rest) = (stated.members[0].0, &stated.members[1..]);
        for (k, &(other, span)) in rest.iter().enumerate() {
            let (a, b) = (self.home[first], self.home[other]);
            let (Some(left), Some(right)) = (self.groups[a].take(), self.groups[b].take()) else {
                return Err(Box::new(words::already_joined(span, &name(first), &name(other))));
            };
            let union =
                Polygon::hull(left.outline.corners().iter().chain(right.outline.corners()).copied(), block.tolerance);
            let whole = union.filter(|hull| {
                let parts = left.outline.area() + right.outline.area();
                (hull.area() - parts).abs() <= block.tolerance.area()
            });
            let Some((whole, (seam, _))) = whole.and_then(|whole| {
                let cut = whole.split_off(&right.outline, block.tolerance)?;
                Some((whole, cut))
            }) else {
                let why = why_not(&left.outline, &right.outline, block.tolerance);
                return Err(Box::new(words::join_not_straight(span, &name(first), &name(other), why)));
            };
            let last = k + 1 == rest.len();
            let (mut join, mut group) = join(left, right, seam, whole, self.joins.len());
            join.stated = Some(index);
            join.name = stated.name.clone().filter(|_| last);
            if let Some(name) = &join.name {
                group.name.clone_from(name);
            }
            if let Some(press) = stated.press {
                join.press = pressed(block, press, &join)?;
            }
            self.joins.push(join);
            self.settle(a, group);
        }
        Ok(())
    }

    /// Puts a group that has been made in its place.
    fn settle(&mut self, at: usize, group: Group) {
        for &place in &group.places {
            self.home[place] = at;
        }
        self.groups[at] = Some(group);
    }
}

/// Why two groups have no straight seam in common, in words for a label.
fn why_not(a: &Polygon, b: &Polygon, tolerance: Tolerance) -> &'static str {
    let shares_line = a.edges().filter_map(Segment::line).any(|line| {
        b.edges().any(|edge| line.side(edge.start, tolerance) == Side::On && line.side(edge.end, tolerance) == Side::On)
            && b.side(line, tolerance) == Some(Side::Left)
    });
    if shares_line {
        "on the line between them their edges differ in length, or do not lie against each other"
    } else {
        "they have no edge on one line"
    }
}

fn pressed(block: &Block, press: StatedPress, join: &Join) -> Result<Press, Box<Fault>> {
    match press {
        StatedPress::Open => Ok(Press::Open),
        StatedPress::Toward(place, _) if join.left.contains(&place) => Ok(Press::Left),
        StatedPress::Toward(place, _) if join.right.contains(&place) => Ok(Press::Right),
        StatedPress::Toward(place, span) => {
            Err(Box::new(words::pressed_elsewhere(span, &block.placements[place].called())))
        }
    }
}

/// Sews two groups together along a seam; which is left and which right follows from the way the seam runs.
fn join(a: Group, b: Group, seam: Segment, whole: Polygon, number: usize) -> (Join, Group) {
    let seam = directed(seam);
    let a_is_right = seam.line().is_some_and(|line| line.distance_right(a.outline.centroid()) > 0.0);
    let (left, right) = if a_is_right { (b, a) } else { (a, b) };
    let places = ascending(left.places.iter().chain(&right.places));
    let tree = Tree::Join { join: number, left: Box::new(left.tree), right: Box::new(right.tree) };
    let join = seam_of(JoinKind::Straight, left.places, right.places, seam);
    (join, Group { tree, outline: whole, places, name: left.name })
}

/// A seam directed as joins are: upward, or to the right where it is level (within a thousandth of its length).
fn directed(seam: Segment) -> Segment {
    let way = seam.end - seam.start;
    let level = way.y.abs() <= 1e-3 * way.x.abs();
    if (level && way.x < 0.0) || (!level && way.y > 0.0) { seam.reversed() } else { seam }
}

fn ascending<'p>(places: impl IntoIterator<Item = &'p usize>) -> Vec<usize> {
    let mut places: Vec<usize> = places.into_iter().copied().collect();
    places.sort_unstable();
    places
}

/// A join of which only the seam is known.
fn seam_of(kind: JoinKind, left: Vec<usize>, right: Vec<usize>, seam: Segment) -> Join {
    Join {
        kind,
        name: None,
        stated: None,
        left,
        right,
        seam,
        // Decided when all joins are known.
        press: Press::Left,
        match_points: Vec::new(),
        tips: Vec::new(),
        loose_ends: [Vec::new(), Vec::new()],
    }
}

struct Planner<'a> {
    block: &'a Block,
    seams: &'a [Vec<Option<Segment>>],
}

/// A possible cut: which groups lie on its right, and how good it is.
struct Cut {
    line: Line,
    right: Vec<bool>,
    matches: usize,
    length: f64,
    balance: usize,
}

impl Planner<'_> {
    /// Divides a region by straight cuts down to its groups, and joins them from there up.
    fn divide(&self, mut groups: Vec<Group>, joins: &mut Vec<Join>) -> Result<Tree, Box<Fault>> {
        self.sew(&mut groups, joins).map(|group| group.tree)
    }

    fn sew(&self, groups: &mut Vec<Group>, joins: &mut Vec<Join>) -> Result<Group, Box<Fault>> {
        if groups.len() == 1
            && let Some(group) = groups.pop()
        {
            return Ok(group);
        }
        let tolerance = self.block.tolerance;
        let corners = groups.iter().flat_map(|group| group.outline.corners()).copied();
        let (Some(whole), Some(cut)) = (Polygon::hull(corners, tolerance), self.best_cut(groups)) else {
            return Err(self.stuck(groups));
        };
        let (mut left, mut right) = (Vec::new(), Vec::new());
        for (group, is_right) in std::mem::take(groups).into_iter().zip(&cut.right) {
            if *is_right { right.push(group) } else { left.push(group) }
        }
        let left = self.sew(&mut left, joins)?;
        let right = self.sew(&mut right, joins)?;
        let Some(seam) = whole.chord(cut.line, tolerance) else { return Err(self.stuck(&[left, right])) };
        let (join, group) = join(left, right, seam, whole, joins.len());
        joins.push(join);
        Ok(group)
    }

    /// Joins groups as a plan says, from its leaves up.
    fn follow(&self, plan: &PlanTree, groups: &mut [Option<Group>], joins: &mut Vec<Join>) -> Option<Group> {
        match plan {
            PlanTree::Unit(of) => groups.get_mut(*of.first()?)?.take(),
            PlanTree::Join { seam, left, right } => {
                let left = self.follow(left, groups, joins)?;
                let right = self.follow(right, groups, joins)?;
                let corners = left.outline.corners().iter().chain(right.outline.corners()).copied();
                let whole = Polygon::hull(corners, self.block.tolerance)?;
                let (join, group) = join(left, right, *seam, whole, joins.len());
                joins.push(join);
                Some(group)
            }
        }
    }

    fn best_cut(&self, groups: &[Group]) -> Option<Cut> {
        let tolerance = self.block.tolerance;
        let mut lines: BTreeMap<(i64, i64), Line> = BTreeMap::new();
        for line in groups.iter().flat_map(|group| group.outline.edges()).filter_map(Segment::line) {
            // One of the two directions, and one of all lines that nearly coincide.
            let direction = line.direction();
            let line = if direction.x < -1e-9 || (direction.x.abs() <= 1e-9 && direction.y < 0.0) {
                line.reversed()
            } else {
                line
            };
            let from_origin = line.distance_right(crate::geometry::Point::default());
            #[expect(clippy::cast_possible_truncation, reason = "floats saturate; a shared key only drops a twin")]
            let key = (
                (line.direction().angle().to_degrees() * 1e4).round() as i64,
                (from_origin / tolerance.distance() / 4.0).round() as i64,
            );
            lines.entry(key).or_insert(line);
        }
        let mut best: Option<Cut> = None;
        for line in lines.into_values() {
            let Some(cut) = self.cut(groups, line) else { continue };
            let better = best.as_ref().is_none_or(|best| {
                let (length, best_length) = ((cut.length * 1e6).round(), (best.length * 1e6).round());
                cut.matches
                    .cmp(&best.matches)
                    .then(best_length.total_cmp(&length))
                    .then(cut.balance.cmp(&best.balance))
                    .is_lt()
            });
            if better {
                best = Some(cut);
            }
        }
        best
    }

    /// The cut along a line, if it runs through no group and has some on either side.
    fn cut(&self, groups: &[Group], line: Line) -> Option<Cut> {
        let tolerance = self.block.tolerance;
        let sides: Option<Vec<bool>> =
            groups.iter().map(|group| group.outline.side(line, tolerance).map(|side| side == Side::Right)).collect();
        let right = sides?;
        let on_right = right.iter().filter(|&&right| right).count();
        if on_right == 0 || on_right == right.len() {
            return None;
        }
        let (mut first, mut last) = (f64::INFINITY, f64::NEG_INFINITY);
        for corner in groups.iter().flat_map(|group| group.outline.corners()) {
            if line.side(*corner, tolerance) == Side::On {
                first = first.min(line.position(*corner));
                last = last.max(line.position(*corner));
            }
        }
        let side = |wanted: bool| -> Vec<usize> {
            let groups = groups.iter().zip(&right).filter(|(_, right)| **right == wanted);
            groups.flat_map(|(group, _)| group.places.iter().copied()).collect()
        };
        let of = |places: &[usize]| gathered(&ends(self.block, self.seams, places, line, (first, last)), tolerance);
        let (left_ends, right_ends) = (of(&side(false)), of(&side(true)));
        let matches = matches(&left_ends, &right_ends, tolerance).len();
        Some(Cut { line, matches, length: last - first, balance: on_right.abs_diff(right.len() - on_right), right })
    }

    fn stuck(&self, groups: &[Group]) -> Box<Fault> {
        let stuck: Vec<_> = groups
            .iter()
            .filter_map(|group| group.places.first())
            .map(|&place| (self.block.placements[place].called(), self.block.placements[place].span))
            .collect();
        Box::new(words::cannot_join(self.block.span, &self.block.name, &stuck, self.proposed(groups).as_deref()))
    }

    /// The line with which a ring or an inset corner among groups that are stuck can be sewn.
    fn proposed(&self, groups: &[Group]) -> Option<String> {
        let outlines: Vec<Polygon> = groups.iter().map(|group| group.outline.clone()).collect();
        let proposal = propose(&outlines, self.block.tolerance)?;
        let (word, name) = match &proposal {
            Proposal::Ring(_) => ("partial", "ring"),
            Proposal::Inset(_) => ("inset", "bay"),
        };
        let members: Vec<&str> = proposal.members().iter().map(|&group| groups[group].name.as_str()).collect();
        Some(format!("{word} {} as {}", members.join(" "), self.free_name(name)))
    }

    /// A name that neither a unit, a place nor a join has: this one, or the same with a number.
    fn free_name(&self, wanted: &str) -> String {
        let block = self.block;
        let taken = |name: &str| {
            block.units.iter().any(|unit| unit.name == name)
                || block.placements.iter().any(|place| place.name == name)
                || block.joins.iter().any(|join| join.name.as_deref() == Some(name))
        };
        let numbered = (2_usize..).map(|number| format!("{wanted}-{number}"));
        std::iter::once(wanted.to_owned()).chain(numbered).find(|name| !taken(name)).unwrap_or_default()
    }
}
