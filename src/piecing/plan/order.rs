//! The order of sewing within each paper of a tree: allowances that nest at the match points, lie under the darker piece, and leave turn slack.
//!
//! For one paper the best order is found exactly, by dynamic programming over the parts of it that peel, as long as they are few. Papers whose seams
//! meet at a join depend on each other: they are put in order one after the other until none improves, so that what is found of nesting is proved
//! only where nothing could be better. Papers that are alike are sewn in one order; those that mirror each other are, where that costs nothing: the
//! allowances of two mirrored orders never nest where the papers meet.

use std::collections::BTreeMap;

use super::alike::{Match, congruent, outline};
use super::bits::Bits;
use super::lines::{CutLine, peelings};
use super::meetings::{Meeting, meetings};
use super::search::Known;
use super::{Bench, Drawing, PlanTree};
use crate::geometry::{Line, Polygon, Segment, Tolerance, Transform};
use crate::pattern::Wish;
use crate::pattern::facts::SHOWS_THROUGH;

/// So many rounds of putting papers in order are made.
const MOST_ROUNDS: usize = 8;
/// Of more meetings it is not asked which of them can nest at all.
const MOST_MEETINGS: usize = 300;
/// Turn slack above this is as good as any, in degrees.
const ENOUGH_TURN: f64 = 10.0;

/// What an order of sewing costs: short seams first, then the other wishes in the order of the source; of equal orders the one that starts with the
/// largest piece, which is easiest to lay.
type Key = [u64; 5];

/// Where in a [`Key`] a wish stands.
fn place(order: &[Wish], wish: Wish) -> Option<usize> {
    order.iter().position(|&other| other == wish).map(|place| place + 1)
}

/// Papers that are sewn in one order.
struct Family<const W: usize> {
    /// The patches of its first paper.
    whole: Bits<W>,
    /// Its papers by number, each with the map from the first one.
    papers: Vec<(usize, Match)>,
    /// The first paper's patches in the order of sewing.
    order: Vec<usize>,
    /// The seam of each, the piece that it sews on lying on the right; none for the first.
    seams: Vec<Option<Segment>>,
    /// What the order costs by itself, without regard to other papers.
    own: Key,
    /// The lines along which the first paper is cut.
    lines: Vec<CutLine<W>>,
    /// What each of its pieces must cover, by patch.
    needed: BTreeMap<usize, Polygon>,
}

/// The tree with its papers in the order of sewing, and how good that order is.
#[derive(Debug)]
pub struct Ordered {
    /// The tree.
    pub tree: PlanTree,
    /// By paper from left to right: the first paper that is alike, or its mirror image sewn in the same order, and the map from that one.
    pub likes: Vec<(usize, Transform)>,
    /// What each wish about the order costs, and at the least could.
    pub weighed: Vec<(Wish, u32, u32)>,
}

/// What orders are weighed by.
pub struct Weighing<'l, const W: usize> {
    /// The lines along which there are cuts.
    pub lines: &'l [CutLine<W>],
    /// The drawing.
    pub drawing: &'l Drawing<'l>,
    /// What sewing on paper takes.
    pub bench: &'l Bench<'l>,
    /// [`Wish::Nesting`], [`Wish::DarkerSide`] and [`Wish::TurnSlack`] in the order of the source.
    pub order: &'l [Wish],
    /// So many parts of one paper are looked at.
    pub budget: usize,
}

/// Puts the papers of a tree in the order of sewing. Papers of one patch that are units already stay as they are.
pub fn ordered<const W: usize>(weighing: &Weighing<'_, W>, tree: &PlanTree) -> Ordered {
    let units = tree.units();
    let meetings = meetings(weighing.drawing, tree);
    let mut families: Vec<Family<W>> = families(weighing, &units);
    let mut family_of = vec![0; units.len()];
    for (number, family) in families.iter().enumerate() {
        family.papers.iter().for_each(|(paper, _)| family_of[*paper] = number);
    }
    // What each wish alone could come to, the short seams being fewest.
    let mut least = vec![0_u64; weighing.order.len()];
    for family in &mut families {
        for (sum, wish) in least.iter_mut().zip(weighing.order) {
            let one = Weighing { order: std::slice::from_ref(wish), ..*weighing };
            let alone = Orders::new(&one, family, Vec::new()).cost(family.whole);
            *sum += alone[1] * family.papers.len() as u64;
        }
        put_in_order(weighing, family, Vec::new());
    }
    let mut total = judged(weighing, &families, &family_of, &meetings);
    for _ in 0..MOST_ROUNDS {
        let mut better = false;
        for number in 0..families.len() {
            let ends = ends_of(weighing, &families, &family_of, &meetings, number);
            if ends.is_empty() {
                continue;
            }
            let family = &mut families[number];
            let before = (family.order.clone(), family.seams.clone(), family.own);
            put_in_order(weighing, family, ends);
            let after = judged(weighing, &families, &family_of, &meetings);
            if after < total {
                (total, better) = (after, true);
            } else {
                let family = &mut families[number];
                (family.order, family.seams, family.own) = before;
            }
        }
        if !better {
            break;
        }
    }
    if let Some(place) = place(weighing.order, Wish::Nesting) {
        least[place - 1] = never_nest(weighing, &families, &family_of, &meetings);
    }
    let small = |value: u64| u32::try_from(value).unwrap_or(u32::MAX);
    let weighed = weighing
        .order
        .iter()
        .zip(least)
        .enumerate()
        .map(|(k, (&wish, least))| (wish, small(total[k + 1]), small(least)));
    let weighed = weighed.collect();
    let mirrors = mirrors(weighing, &mut families, &family_of, &meetings, total);
    let mut likes = vec![(0, Transform::IDENTITY); units.len()];
    let mut orders: Vec<Vec<usize>> = vec![Vec::new(); units.len()];
    for (family, mirror) in families.iter().zip(mirrors) {
        let of_family = family.papers.first().map_or(0, |(paper, _)| *paper);
        let (first, onto) = mirror.unwrap_or((of_family, Transform::IDENTITY));
        let numbers: Vec<usize> = family.whole.numbers().collect();
        for (paper, here) in &family.papers {
            likes[*paper] = (first, onto.then(here.transform));
            let moved = |patch: &usize| numbers.iter().position(|n| n == patch).map(|k| here.patches[k]);
            orders[*paper] = family.order.iter().filter_map(moved).collect();
        }
    }
    let mut orders = orders.into_iter();
    Ordered { tree: with_orders(tree, &mut orders), likes, weighed }
}

/// At how many meetings the allowances nest in no order of either paper: each meeting looked at alone. 0 where there are too many to look at.
fn never_nest<const W: usize>(
    weighing: &Weighing<'_, W>,
    families: &[Family<W>],
    family_of: &[usize],
    meetings: &[Meeting],
) -> u64 {
    if meetings.len() > MOST_MEETINGS {
        return 0;
    }
    let nesting = Weighing { order: &[Wish::Nesting], ..*weighing };
    // Whether some order lets the allowance point along the join, or against it: then it does not clash with one that points the other way.
    let points = |paper: usize, meeting: &Meeting, along: bool| {
        let family = &families[family_of[paper]];
        let Some(line) = family.line_of(paper, meeting) else { return true };
        let mut orders = Orders::new(&nesting, family, vec![End { line, across: Some(!along) }]);
        orders.cost(family.whole)[1] == 0
    };
    let may_nest = |meeting: &&Meeting| {
        let [left, right] = meeting.papers;
        [true, false].into_iter().any(|along| points(left, meeting, along) && points(right, meeting, !along))
    };
    (meetings.len() - meetings.iter().filter(may_nest).count()) as u64
}

/// By family: the first paper of an earlier one whose mirror image it is and in whose order it is sewn, and the map from that paper. A family takes
/// over the order of its mirror image where all orders together are no worse for it.
fn mirrors<const W: usize>(
    weighing: &Weighing<'_, W>,
    families: &mut [Family<W>],
    family_of: &[usize],
    meetings: &[Meeting],
    total: Key,
) -> Vec<Option<(usize, Transform)>> {
    let drawing = weighing.drawing;
    let mut found: Vec<Option<(usize, Transform)>> = vec![None; families.len()];
    for number in 1..families.len() {
        let whole: Vec<usize> = families[number].whole.numbers().collect();
        if whole.iter().any(|&patch| patch < drawing.fixed.len()) {
            continue;
        }
        let mut images = (0..number).filter(|&other| found[other].is_none()).filter_map(|other| {
            let first: Vec<usize> = families[other].whole.numbers().collect();
            let onto = congruent(drawing, &first, &whole, true)?;
            let moved = |patch: &usize| first.iter().position(|n| n == patch).map(|k| onto.patches[k]);
            let order: Vec<usize> = families[other].order.iter().filter_map(moved).collect();
            let paper = families[other].papers.first().map(|(paper, _)| *paper)?;
            Some((paper, onto.transform, order))
        });
        let Some((paper, onto, order)) = images.next() else { continue };
        let family = &mut families[number];
        let before = (family.order.clone(), family.seams.clone(), family.own);
        take_order(weighing, family, order);
        if judged(weighing, families, family_of, meetings) <= total {
            found[number] = Some((paper, onto));
        } else {
            let family = &mut families[number];
            (family.order, family.seams, family.own) = before;
        }
    }
    found
}

/// The tree with these units in the place of its own.
fn with_orders(tree: &PlanTree, orders: &mut impl Iterator<Item = Vec<usize>>) -> PlanTree {
    match tree {
        PlanTree::Unit(patches) => PlanTree::Unit(orders.next().unwrap_or_else(|| patches.clone())),
        PlanTree::Join { seam, left, right } => PlanTree::Join {
            seam: *seam,
            left: Box::new(with_orders(left, orders)),
            right: Box::new(with_orders(right, orders)),
        },
    }
}

/// Units that are alike, together. A unit that stands already is alone.
fn families<const W: usize>(weighing: &Weighing<'_, W>, units: &[&[usize]]) -> Vec<Family<W>> {
    let drawing = weighing.drawing;
    let is_fixed = |unit: &[usize]| unit.iter().any(|&patch| patch < drawing.fixed.len());
    let mut families: Vec<Family<W>> = Vec::new();
    for (number, unit) in units.iter().enumerate() {
        let known = families.iter_mut().filter(|_| !is_fixed(unit)).find_map(|family| {
            let first: Vec<usize> = family.whole.numbers().collect();
            let here = if is_fixed(&first) { None } else { congruent(drawing, &first, unit, false) };
            here.map(|here| (family, here))
        });
        if let Some((family, here)) = known {
            family.papers.push((number, here));
            continue;
        }
        let mut whole = Bits::EMPTY;
        unit.iter().for_each(|&patch| whole.insert(patch));
        let here = Match { transform: Transform::IDENTITY, patches: whole.numbers().collect() };
        let lines: Vec<CutLine<W>> = weighing.lines.iter().filter(|line| line.touches(&whole)).cloned().collect();
        let needed = needed(weighing, &lines, whole);
        let (order, seams, own) = (Vec::new(), Vec::new(), [0; 5]);
        families.push(Family { whole, papers: vec![(number, here)], order, seams, own, lines, needed });
    }
    families
}

/// What the pieces of a paper must cover. It hardly depends on the order: any will do.
fn needed<const W: usize>(
    weighing: &Weighing<'_, W>,
    lines: &[CutLine<W>],
    whole: Bits<W>,
) -> BTreeMap<usize, Polygon> {
    if !weighing.order.contains(&Wish::TurnSlack) {
        return BTreeMap::new();
    }
    let (mut rest, mut order) = (whole, Vec::new());
    while let Some((_, off, smaller)) = peelings(lines, rest).next() {
        order.extend(off.numbers());
        rest = smaller;
    }
    order.extend(rest.numbers());
    order.reverse();
    let seams = seams(lines, &order);
    let needed = outline(weighing.drawing, &order).and_then(|outline| (weighing.bench.needed)(&outline, &seams));
    order.into_iter().zip(needed.unwrap_or_default()).collect()
}

/// The seams of an order, each piece on the right of its own.
fn seams<const W: usize>(lines: &[CutLine<W>], order: &[usize]) -> Vec<Option<Segment>> {
    let mut there = Bits::EMPTY;
    let mut seams = Vec::with_capacity(order.len());
    for &patch in order {
        there.insert(patch);
        seams.push(peeling(lines, there, patch).and_then(|(number, off, _)| seam(lines, number, &there, &off)));
    }
    seams
}

/// The way in which a patch comes off a part.
fn peeling<const W: usize>(lines: &[CutLine<W>], there: Bits<W>, patch: usize) -> Option<(u32, Bits<W>, Bits<W>)> {
    peelings(lines, there).find(|(_, off, _)| off.numbers().next() == Some(patch))
}

/// The seam by which a piece goes on along a line, the piece on its right.
fn seam<const W: usize>(lines: &[CutLine<W>], number: u32, there: &Bits<W>, off: &Bits<W>) -> Option<Segment> {
    let line = lines.get(number as usize)?;
    let seam = line.seam(there)?;
    Some(if off.meets(&line.left) { seam.reversed() } else { seam })
}

/// A point of a paper's edge at which one of its seams should point one way along a join.
#[derive(Clone, Copy)]
struct End {
    line: Line,
    /// Whether the allowance on the other side points along that line; none where its seams disagree.
    across: Option<bool>,
}

/// The ends of a family's seams at meetings, in the frame of its first paper, and what lies on the other side.
fn ends_of<const W: usize>(
    weighing: &Weighing<'_, W>,
    families: &[Family<W>],
    family_of: &[usize],
    meetings: &[Meeting],
    number: usize,
) -> Vec<End> {
    let sides = meetings.iter().flat_map(|meeting| [(meeting, 0), (meeting, 1)]);
    sides
        .filter(|(meeting, side)| family_of[meeting.papers[*side]] == number)
        .filter_map(|(meeting, side)| {
            let other = meeting.papers[1 - side];
            let across = points_along(weighing.drawing.tolerance, &families[family_of[other]], other, meeting);
            Some(End { line: families[number].line_of(meeting.papers[side], meeting)?, across })
        })
        .collect()
}

impl<const W: usize> Family<W> {
    /// The join at a meeting of one of its papers, in the frame of the first one; it starts at the meeting.
    fn line_of(&self, paper: usize, meeting: &Meeting) -> Option<Line> {
        let (_, here) = self.papers.iter().find(|(number, _)| *number == paper)?;
        let back = here.transform.inverse()?;
        Line::toward(back.apply(meeting.at), back.apply_to_vector(meeting.along))
    }
}

/// Which way the allowances of a paper's seams point along the join at a meeting, if they agree.
fn points_along<const W: usize>(
    tolerance: Tolerance,
    family: &Family<W>,
    paper: usize,
    meeting: &Meeting,
) -> Option<bool> {
    let join = family.line_of(paper, meeting)?;
    let mut ways = family.seams.iter().flatten().filter_map(|seam| way(tolerance, *seam, join));
    let first = ways.next()?;
    ways.all(|other| other == first).then_some(first)
}

/// Which way along a join the allowance of a seam points that ends where the join starts; its piece lies on its right, and over it.
fn way(tolerance: Tolerance, seam: Segment, join: Line) -> Option<bool> {
    let ends = [seam.start, seam.end].iter().any(|end| tolerance.is_zero(end.distance(join.origin())));
    let line = seam.line().filter(|_| ends)?;
    Some(line.distance_right(join.at(1.0)) > 0.0)
}

/// What the orders of all papers come to together.
fn judged<const W: usize>(
    weighing: &Weighing<'_, W>,
    families: &[Family<W>],
    family_of: &[usize],
    meetings: &[Meeting],
) -> Key {
    let mut total = [0; 5];
    for family in families {
        for (sum, own) in total.iter_mut().zip(family.own) {
            *sum += own * family.papers.len() as u64;
        }
    }
    if let Some(place) = place(weighing.order, Wish::Nesting) {
        let nests = |meeting: &&Meeting| {
            let ways = meeting
                .papers
                .map(|paper| points_along(weighing.drawing.tolerance, &families[family_of[paper]], paper, meeting));
            matches!(ways, [Some(left), Some(right)] if left != right)
        };
        total[place] = (meetings.len() - meetings.iter().filter(nests).count()) as u64;
    }
    total
}

fn put_in_order<const W: usize>(weighing: &Weighing<'_, W>, family: &mut Family<W>, ends: Vec<End>) {
    let order = Orders::new(weighing, family, ends).best(family.whole);
    take_order(weighing, family, order);
}

fn take_order<const W: usize>(weighing: &Weighing<'_, W>, family: &mut Family<W>, order: Vec<usize>) {
    family.own = Orders::new(weighing, family, Vec::new()).cost_of(&order);
    family.seams = seams(&family.lines, &order);
    family.order = order;
}

/// The search for the best order of one paper.
struct Orders<'o, const W: usize> {
    weighing: &'o Weighing<'o, W>,
    lines: &'o [CutLine<W>],
    needed: &'o BTreeMap<usize, Polygon>,
    /// The area of the largest piece.
    largest: f64,
    ends: Vec<End>,
    /// What the best order of a part costs, and which piece goes on last.
    known: Known<(Key, usize), W>,
    slacks: BTreeMap<(usize, Option<u32>), u64>,
}

impl<'o, const W: usize> Orders<'o, W> {
    fn new(weighing: &'o Weighing<'o, W>, family: &'o Family<W>, ends: Vec<End>) -> Self {
        let (lines, needed) = (family.lines.as_slice(), &family.needed);
        let areas = family.whole.numbers().filter_map(|patch| weighing.drawing.areas.get(patch));
        let largest = areas.map(Polygon::area).fold(0.0, f64::max);
        Self { weighing, lines, needed, largest, ends, known: Known::default(), slacks: BTreeMap::new() }
    }

    /// The best order.
    fn best(&mut self, whole: Bits<W>) -> Vec<usize> {
        let (mut rest, mut order) = (whole, Vec::new());
        while rest.count() > 1 {
            self.cost(rest);
            let last = self.known.get(&rest).and_then(|&(_, patch)| peeling(self.lines, rest, patch));
            let Some((_, off, smaller)) = last else { break };
            order.extend(off.numbers());
            rest = smaller;
        }
        order.extend(rest.numbers());
        order.reverse();
        order
    }

    /// What the best order of a part costs.
    fn cost(&mut self, region: Bits<W>) -> Key {
        if region.count() <= 1 {
            return self.first_piece(&region);
        }
        if let Some((known, _)) = self.known.get(&region) {
            return *known;
        }
        let mut best: Option<(Key, usize)> = None;
        for (number, off, rest) in peelings(self.lines, region) {
            let Some(patch) = off.numbers().next() else { continue };
            let key = sum(self.cost(rest), self.step(number, &region, &off));
            if best.is_none_or(|(least, _)| key < least) {
                best = Some((key, patch));
            }
            if self.known.len() >= self.weighing.budget {
                break;
            }
        }
        let best = best.unwrap_or(([u64::MAX; 5], usize::MAX));
        self.known.insert(region, best);
        best.0
    }

    /// What an order costs.
    fn cost_of(&mut self, order: &[usize]) -> Key {
        let mut there = Bits::EMPTY;
        let mut total = [0; 5];
        for (k, &patch) in order.iter().enumerate() {
            there.insert(patch);
            let cost = if k == 0 {
                self.first_piece(&there)
            } else {
                let found = peeling(self.lines, there, patch);
                found.map_or([0; 5], |(number, off, _)| self.step(number, &there, &off))
            };
            total = sum(total, cost);
        }
        total
    }

    fn first_piece(&mut self, region: &Bits<W>) -> Key {
        let mut key = [0; 5];
        let Some(patch) = region.numbers().next() else { return key };
        if let Some(place) = place(self.weighing.order, Wish::TurnSlack) {
            key[place] = self.slack(patch, None, None);
        }
        let area = self.weighing.drawing.areas.get(patch).map_or(0.0, Polygon::area);
        let share = (area / self.largest.max(f64::MIN_POSITIVE) * 1_000.0).clamp(0.0, 1_000.0).round();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and 1,000")]
        let share = share as u64;
        key[4] = 1_000 - share;
        key
    }

    /// What it costs that a piece goes on along a line.
    fn step(&mut self, number: u32, there: &Bits<W>, off: &Bits<W>) -> Key {
        let mut key = [0; 5];
        let weighing = self.weighing;
        let (Some(line), Some(seam)) = (self.lines.get(number as usize), seam(self.lines, number, there, off)) else {
            return key;
        };
        key[0] = u64::from(line.length(there) < weighing.bench.short * (1.0 - 1e-9));
        let Some(patch) = off.numbers().next() else { return key };
        for (place, wish) in (1..).zip(weighing.order) {
            key[place] = match wish {
                Wish::Nesting => self.clashes(seam),
                Wish::DarkerSide => self.under_lighter(line, there, patch),
                Wish::TurnSlack => self.slack(patch, Some(number), Some(seam)),
                _ => 0,
            };
        }
        key
    }

    /// At how many meetings the allowance of a seam points the same way as what lies on the other side.
    fn clashes(&self, seam: Segment) -> u64 {
        let clash =
            |end: &&End| end.across.is_some() && way(self.weighing.drawing.tolerance, seam, end.line) == end.across;
        self.ends.iter().filter(clash).count() as u64
    }

    /// By how many steps of CIE L* the darkest piece on the other side of a seam is darker than would not show through.
    fn under_lighter(&self, line: &CutLine<W>, there: &Bits<W>, patch: usize) -> u64 {
        let drawing = self.weighing.drawing;
        let lightness = |patch: usize| {
            let fabric = drawing.fabrics.get(patch).copied().unwrap_or(0);
            (self.weighing.bench.lightness)(fabric)
        };
        let others = line.opposite(there, patch).map(lightness).fold(f64::INFINITY, f64::min);
        let difference = (lightness(patch) - others - SHOWS_THROUGH).clamp(0.0, 100.0).round();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and 100")]
        let steps = difference as u64;
        steps
    }

    /// By how much a piece's turn slack falls short of enough, in whole degrees.
    fn slack(&mut self, patch: usize, number: Option<u32>, seam: Option<Segment>) -> u64 {
        if let Some(&known) = self.slacks.get(&(patch, number)) {
            return known;
        }
        let fabric = self.weighing.drawing.fabrics.get(patch).copied().unwrap_or(0);
        let turn = self.needed.get(&patch).map(|needed| (self.weighing.bench.turn)(needed, seam, fabric));
        let short = (ENOUGH_TURN - turn.unwrap_or(ENOUGH_TURN)).clamp(0.0, ENOUGH_TURN);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and 10")]
        let degrees = short.round() as u64;
        self.slacks.insert((patch, number), degrees);
        degrees
    }
}

fn sum(a: Key, b: Key) -> Key {
    std::array::from_fn(|k| a[k].saturating_add(b[k]))
}
