//! The planner: patches of a drawing to the best tree of straight cuts.
//!
//! Every region that straight cuts leave is convex and is known by its set of patches. Papers, match points and short seams add up over the tree, so
//! the least of them, in any order of weighing, is found exactly by dynamic programming over those sets (`search`); a cut is a line along edges that
//! runs through no patch of its region (`lines`). How many foundations differ (`alike`) does not add up: it is searched among the best trees
//! (`among`). At last each paper is put in the order of sewing (`order`). Any possible cut is safe, so whether a drawing can be sewn at all, and what
//! is stuck, is decided greedily; `cure` finds the fewest seams that free it.

mod alike;
mod among;
mod bits;
mod cure;
mod lines;
mod meetings;
mod order;
mod propose;
mod search;

pub use cure::{Cure, Divided, cure};
pub use propose::{Proposal, is_ring_of_groups, propose};
pub use search::{Cost, Sum};

use crate::geometry::{Point, Polygon, Segment, Tolerance, Transform};
use crate::pattern::Wish;
use among::Among;
use bits::Bits;
use lines::CutLine;
use order::{Weighing, ordered};
use search::{Leaves, Made, Search, Terms};

/// The most patches of a drawing that the planner takes.
pub const MOST_PATCHES: usize = 512;

/// A drawing to plan: areas that tile a convex outline.
#[derive(Debug, Clone, Copy)]
pub struct Drawing<'d> {
    /// The areas: first those that are units already and stay papers of their own, then the patches.
    pub areas: &'d [Polygon],
    /// Their fabrics, by any numbers.
    pub fabrics: &'d [usize],
    /// How many papers each of the first areas takes, which are units already.
    pub fixed: &'d [u32],
    /// How near is the same.
    pub tolerance: Tolerance,
}

/// What sewing on paper takes. Lengths are steps of the drawing; answers depend on nothing but the questions.
pub struct Bench<'b> {
    /// How many sheets the paper of a unit takes, by its outline.
    pub sheets: Box<dyn Fn(&Polygon) -> u32 + 'b>,
    /// Units that are no wider and no higher than this fit on one sheet.
    pub fits: f64,
    /// Below this a seam is short.
    pub short: f64,
    /// What each piece must cover, by the outline of the unit and its seams in the order of sewing; in a frame that only `turn` needs to know.
    pub needed: Needed<'b>,
    /// How far a piece that must cover so much may turn about its seam, in degrees; the last is its fabric.
    pub turn: Turn<'b>,
    /// How light a fabric is, in CIE L*.
    pub lightness: Box<dyn Fn(usize) -> f64 + 'b>,
}

/// See [`Bench::needed`].
pub type Needed<'b> = Box<dyn Fn(&Polygon, &[Option<Segment>]) -> Option<Vec<Polygon>> + 'b>;
/// See [`Bench::turn`].
pub type Turn<'b> = Box<dyn Fn(&Polygon, Option<Segment>, usize) -> f64 + 'b>;

impl Bench<'_> {
    /// Paper without end, seams never short, pieces that may turn as they like, fabrics all alike.
    #[must_use]
    pub fn boundless() -> Self {
        Self {
            sheets: Box::new(|_| 1),
            fits: f64::INFINITY,
            short: 0.0,
            needed: Box::new(|_, _| None),
            turn: Box::new(|_, _, _| f64::INFINITY),
            lightness: Box::new(|_| 50.0),
        }
    }
}

/// How far the planner searches, in counted steps, so that it finds the same on every machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Budget {
    /// So many regions are looked at.
    pub regions: u64,
    /// So many steps are made to find the fewest different foundations.
    pub steps: u64,
    /// So many parts of one paper are looked at for the best order of sewing.
    pub parts: usize,
}

impl Budget {
    /// Enough for most drawings.
    pub const USUAL: Self = Self { regions: 2_000_000, steps: 600_000, parts: 4_000 };
    /// Sixteen times as much.
    pub const THOROUGH: Self = Self { regions: 32_000_000, steps: 9_600_000, parts: 64_000 };
}

/// What a plan is to be like.
pub struct Asked<'a> {
    /// What is weighed, the heaviest in front: every wish once, those about the tree before those about the order of sewing.
    pub wishes: &'a [Wish],
    /// What sewing on paper takes.
    pub bench: &'a Bench<'a>,
    /// How far to search.
    pub budget: Budget,
}

/// A plan: the tree of straight cuts, and how good it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// The tree.
    pub tree: PlanTree,
    /// By unit from left to right: the first unit that is alike, or its mirror image sewn in the same order (itself, if it is the first), and the map from that one.
    /// Such units have their patches in the same order.
    pub likes: Vec<(usize, Transform)>,
    /// Units that are alike, or mirrored and sewn in the same order, together and in reading order; the first of each is the one that the others are like.
    pub families: Vec<Vec<usize>>,
    /// What it costs, wish by wish, the heaviest in front.
    pub weighed: Vec<Weighed>,
    /// How many regions were looked at.
    pub regions: usize,
}

/// What a plan costs by one wish.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Weighed {
    /// The wish.
    pub wish: Wish,
    /// What it costs: [`Wish`] says in what.
    pub cost: u32,
    /// No plan that is as good by the heavier wishes costs less.
    pub least: u32,
}

impl Weighed {
    /// Whether it is proved that nothing is better.
    #[must_use]
    pub const fn is_proved(self) -> bool {
        self.cost <= self.least
    }

    /// What is paid for a wish in a list that has the heaviest in front.
    #[must_use]
    pub fn cost_of(wish: Wish, all: &[Self]) -> u32 {
        all.iter().find(|weighed| weighed.wish == wish).map_or(0, |weighed| weighed.cost)
    }

    /// Whether it is proved that nothing as good by the heavier wishes is better by this one, nor anything by those.
    #[must_use]
    pub fn is_proved_in(wish: Wish, all: &[Self]) -> bool {
        let last = all.iter().position(|weighed| weighed.wish == wish);
        last.is_some_and(|last| all.iter().take(last + 1).all(|weighed| weighed.is_proved()))
    }
}

impl Plan {
    /// Counts so many foundations for what stands already, which the planner took for so many kinds.
    pub(super) fn count_foundations(&mut self, kinds: u32, foundations: u32) {
        let counted = |value: u32| value.saturating_sub(kinds).saturating_add(foundations);
        for weighed in self.weighed.iter_mut().filter(|weighed| weighed.wish == Wish::EqualPapers) {
            (weighed.cost, weighed.least) = (counted(weighed.cost), counted(weighed.least));
        }
    }

    /// What it costs by a wish.
    #[must_use]
    pub fn cost(&self, wish: Wish) -> u32 {
        Weighed::cost_of(wish, &self.weighed)
    }

    /// Whether it is proved that no plan that is as good by the heavier wishes is better by this one, nor any by those.
    #[must_use]
    pub fn is_proved(&self, wish: Wish) -> bool {
        Weighed::is_proved_in(wish, &self.weighed)
    }
}

/// The tree of a plan.
#[derive(Debug, Clone, PartialEq)]
pub enum PlanTree {
    /// Patches sewn on one paper, in the order of sewing.
    Unit(Vec<usize>),
    /// Two parts joined.
    Join {
        /// The seam between them.
        seam: Segment,
        /// What lies on its left.
        left: Box<PlanTree>,
        /// What lies on its right.
        right: Box<PlanTree>,
    },
}

impl PlanTree {
    /// The seams of its joins, in the order of sewing.
    #[must_use]
    pub fn joins(&self) -> Vec<Segment> {
        match self {
            Self::Unit(_) => Vec::new(),
            Self::Join { seam, left, right } => [left.joins(), right.joins(), vec![*seam]].concat(),
        }
    }

    /// The units in it, from left to right.
    #[must_use]
    pub fn units(&self) -> Vec<&[usize]> {
        match self {
            Self::Unit(patches) => vec![patches],
            Self::Join { left, right, .. } => {
                let mut all = left.units();
                all.extend(right.units());
                all
            }
        }
    }
}

/// Why a drawing cannot be planned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoPlan {
    /// There are more patches than the planner takes.
    TooMany(usize),
    /// The regions that no straight cut divides, each by its patches: every way of cutting ends with these.
    Stuck(Vec<Vec<usize>>),
}

/// Plans a drawing. O(regions × lines × patches / 64); regions are bounded by the budget.
///
/// # Errors
/// [`NoPlan::TooMany`] beyond [`MOST_PATCHES`]; [`NoPlan::Stuck`] where no tree of straight cuts exists.
pub fn plan(drawing: &Drawing<'_>, asked: &Asked<'_>) -> Result<Plan, NoPlan> {
    // Sets of the smallest size that holds the patches.
    match drawing.areas.len() {
        0..=64 => planned::<1>(drawing, asked),
        65..=128 => planned::<2>(drawing, asked),
        129..=384 => planned::<6>(drawing, asked),
        385..=MOST_PATCHES => planned::<8>(drawing, asked),
        many => Err(NoPlan::TooMany(many)),
    }
}

fn planned<const W: usize>(drawing: &Drawing<'_>, asked: &Asked<'_>) -> Result<Plan, NoPlan> {
    let lines = lines::lines::<W>(drawing.areas, &[], drawing.tolerance);
    let whole = Bits::<W>::below(drawing.areas.len());
    let stuck = stuck(&lines, whole);
    if !stuck.is_empty() {
        return Err(NoPlan::Stuck(stuck));
    }
    let nothing = || NoPlan::Stuck(vec![whole.numbers().collect()]);
    let sheets = |unit: &Bits<W>| sheets(drawing, asked.bench, unit);
    let sums = Sums::of(drawing, asked);
    let leaves = Leaves::Patches { sheets: &sheets, fixed: Bits::below(drawing.fixed.len()) };
    let mut search = Search::new(Terms {
        lines: &lines,
        tolerance: drawing.tolerance,
        leaves,
        order: &sums.first,
        short: asked.bench.short,
        least_papers: least_papers(drawing),
        budget: asked.budget.regions,
    });
    let cost = search.cost(whole).ok_or_else(nothing)?;
    let (complete, least_papers) = (search.complete(), search.least_papers());
    let found = Among::new(&mut search, &lines, (&sums.first, &sums.then), drawing, asked.budget.steps)
        .find(whole)
        .ok_or_else(nothing)?;
    let regions = search.regions();
    let order: Vec<Wish> = asked.wishes.iter().copied().filter(|wish| !wish.is_about_the_tree()).collect();
    let weighing = Weighing { lines: &lines, drawing, bench: asked.bench, order: &order, budget: asked.budget.parts };
    let ordered = ordered(&weighing, &found.tree);
    let weighed = asked.wishes.iter().filter_map(|&wish| {
        let (cost, least) = match (wish, wish.sum()) {
            (Wish::EqualPapers, _) => (found.different, found.least_different),
            (_, Some(sum)) if sums.first.contains(&sum) => {
                let least = if sum == Sum::Papers { least_papers } else { 0 };
                (cost.sum(sum), if complete { cost.sum(sum) } else { least })
            }
            (_, Some(sum)) if found.complete => (found.cost.sum(sum), found.cost.sum(sum)),
            (_, Some(Sum::Papers)) => {
                // Whatever else is wished, no plan has fewer papers than the one with the fewest.
                let fewest = fewest_papers(drawing, asked.bench, asked.budget.regions).0;
                (found.cost.papers, fewest.unwrap_or(least_papers))
            }
            (_, Some(sum)) => (found.cost.sum(sum), 0),
            _ => ordered.weighed.iter().find(|(other, ..)| *other == wish).map(|&(_, cost, least)| (cost, least))?,
        };
        Some(Weighed { wish, cost, least })
    });
    let weighed = weighed.collect();
    let (likes, families) = in_reading_order(drawing, &ordered.tree, &ordered.likes);
    Ok(Plan { weighed, tree: ordered.tree, likes, families, regions })
}

/// The fewest papers of a drawing, if straight seams can sew it and the budget of regions is enough; and how many regions were looked at.
#[must_use]
pub fn fewest_papers(drawing: &Drawing<'_>, bench: &Bench<'_>, budget: u64) -> (Option<u32>, u64) {
    fn fewest<const W: usize>(drawing: &Drawing<'_>, bench: &Bench<'_>, budget: u64) -> (Option<u32>, u64) {
        let lines = lines::lines::<W>(drawing.areas, &[], drawing.tolerance);
        let sheets = |unit: &Bits<W>| sheets(drawing, bench, unit);
        let leaves = Leaves::Patches { sheets: &sheets, fixed: Bits::below(drawing.fixed.len()) };
        let (tolerance, order) = (drawing.tolerance, [Sum::Papers]);
        let (order, least_papers) = (&order, least_papers(drawing));
        let mut search =
            Search::new(Terms { lines: &lines, tolerance, leaves, order, short: 0.0, least_papers, budget });
        let cost = search.cost(Bits::below(drawing.areas.len()));
        let papers = cost.filter(|_| search.complete()).map(|cost| cost.papers);
        (papers, search.regions() as u64)
    }
    match drawing.areas.len() {
        0..=64 => fewest::<1>(drawing, bench, budget),
        65..=128 => fewest::<2>(drawing, bench, budget),
        129..=384 => fewest::<6>(drawing, bench, budget),
        385..=MOST_PATCHES => fewest::<8>(drawing, bench, budget),
        _ => (None, 0),
    }
}

/// What each unit is like, and the families: in each the unit that is read first stands for all.
fn in_reading_order(
    drawing: &Drawing<'_>,
    tree: &PlanTree,
    likes: &[(usize, Transform)],
) -> (Vec<(usize, Transform)>, Vec<Vec<usize>>) {
    let places: Vec<Point> = tree
        .units()
        .iter()
        .map(|unit| alike::outline(drawing, unit).map_or(Point::default(), |outline| outline.bounds().0))
        .collect();
    // Places that differ by less than they are drawn to are level.
    let near = 100.0 * drawing.tolerance.distance();
    let mut turned = likes.to_vec();
    let mut families: Vec<Vec<usize>> = Vec::new();
    for first in 0..likes.len() {
        let mut family: Vec<usize> = (0..likes.len()).filter(|&unit| likes[unit].0 == first).collect();
        family.sort_by(|&a, &b| {
            let row = |unit: usize| (places[unit].y / near).round();
            row(a).total_cmp(&row(b)).then(places[a].x.total_cmp(&places[b].x)).then(a.cmp(&b))
        });
        let Some(&new) = family.first() else { continue };
        if let Some(back) = likes[new].1.inverse() {
            for &unit in &family {
                let map = if unit == new { Transform::IDENTITY } else { back.then(likes[unit].1) };
                turned[unit] = (new, map);
            }
        }
        families.push(family);
    }
    families.sort();
    (turned, families)
}

/// The sums that are weighed before the different foundations, and those after. Seams that cannot be short are not weighed.
struct Sums {
    first: Vec<Sum>,
    then: Vec<Sum>,
}

impl Sums {
    fn of(drawing: &Drawing<'_>, asked: &Asked<'_>) -> Self {
        let edges = drawing.areas.iter().flat_map(Polygon::edges);
        let short = edges.map(Segment::length).any(|length| length < asked.bench.short);
        let weighed = |wish: &Wish| wish.sum().filter(|sum| short || *sum != Sum::ShortSeams);
        let middle = asked.wishes.iter().position(|wish| *wish == Wish::EqualPapers).unwrap_or(asked.wishes.len());
        let (first, then) = asked.wishes.split_at(middle);
        Self { first: first.iter().filter_map(weighed).collect(), then: then.iter().filter_map(weighed).collect() }
    }
}

/// The regions of a drawing that no straight cut divides, by the numbers of their areas: every way of cutting ends with these.
#[must_use]
pub fn stuck_regions(drawing: &Drawing<'_>) -> Vec<Vec<usize>> {
    fn found<const W: usize>(drawing: &Drawing<'_>) -> Vec<Vec<usize>> {
        stuck(&lines::lines::<W>(drawing.areas, &[], drawing.tolerance), Bits::below(drawing.areas.len()))
    }
    match drawing.areas.len() {
        0..=64 => found::<1>(drawing),
        65..=MOST_PATCHES => found::<8>(drawing),
        _ => Vec::new(),
    }
}

/// No region of a drawing takes fewer papers: 1, but 0 where something that stands takes none.
fn least_papers(drawing: &Drawing<'_>) -> u32 {
    drawing.fixed.iter().copied().min().unwrap_or(1).min(1)
}

/// How many sheets a unit takes.
fn sheets<const W: usize>(drawing: &Drawing<'_>, bench: &Bench<'_>, unit: &Bits<W>) -> u32 {
    if let (Some(first), 1) = (unit.numbers().next(), unit.count())
        && let Some(&papers) = drawing.fixed.get(first)
    {
        return papers;
    }
    let boxes = unit.numbers().filter_map(|patch| drawing.areas.get(patch)).map(Polygon::bounds);
    let within = boxes.reduce(|(a, b), (from, to)| {
        (Point::new(a.x.min(from.x), a.y.min(from.y)), Point::new(b.x.max(to.x), b.y.max(to.y)))
    });
    if within.is_some_and(|(from, to)| to.x - from.x <= bench.fits && to.y - from.y <= bench.fits) {
        return 1;
    }
    let patches: Vec<usize> = unit.numbers().collect();
    alike::outline(drawing, &patches).map_or(1, |outline| (bench.sheets)(&outline))
}

/// The best way to join units: the tree with the fewest match points, of equal ones the one whose last seams are longest.
///
/// `outlines` are the units where they stand, `parts` their sections. `None` beyond the budget or [`MOST_PATCHES`], and where they cannot be joined.
/// O(regions × lines × units / 64).
#[must_use]
pub fn join(outlines: &[Polygon], parts: &[Vec<Polygon>], tolerance: Tolerance, budget: u64) -> Option<PlanTree> {
    match outlines.len() {
        0..=64 => joined::<1>(outlines, parts, tolerance, budget),
        65..=128 => joined::<2>(outlines, parts, tolerance, budget),
        129..=MOST_PATCHES => joined::<8>(outlines, parts, tolerance, budget),
        _ => None,
    }
}

fn joined<const W: usize>(
    outlines: &[Polygon],
    parts: &[Vec<Polygon>],
    tolerance: Tolerance,
    budget: u64,
) -> Option<PlanTree> {
    let lines = lines::lines::<W>(outlines, parts, tolerance);
    let whole = Bits::<W>::below(outlines.len());
    let (leaves, order) = (Leaves::Units, [Sum::MatchPoints]);
    let (order, least_papers) = (&order, 1);
    let mut search = Search::new(Terms { lines: &lines, tolerance, leaves, order, short: 0.0, least_papers, budget });
    search.cost(whole)?;
    if search.complete() { tree(&mut search, &lines, whole) } else { None }
}

/// The regions that are left when every cut that is possible has been made: single patches are not told.
fn stuck<const W: usize>(lines: &[CutLine<W>], whole: Bits<W>) -> Vec<Vec<usize>> {
    let mut open = vec![whole];
    let mut found = Vec::new();
    while let Some(region) = open.pop() {
        if region.count() <= 1 {
            continue;
        }
        match lines.iter().find_map(|line| line.cut(&region)) {
            Some(left) => open.extend([region.without(&left), left]),
            None => found.push(region.numbers().collect()),
        }
    }
    found.sort();
    found
}

fn tree<const W: usize>(search: &mut Search<'_, W>, lines: &[CutLine<W>], region: Bits<W>) -> Option<PlanTree> {
    match search.made(region) {
        Made::Stuck => None,
        Made::Unit => Some(PlanTree::Unit(region.numbers().collect())),
        Made::Joined(number) => {
            let line = lines.get(number as usize)?;
            let left = line.cut(&region)?;
            Some(PlanTree::Join {
                seam: line.seam(&region)?,
                left: Box::new(tree(search, lines, left)?),
                right: Box::new(tree(search, lines, region.without(&left))?),
            })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Asked, Bench, Budget, Drawing, NoPlan, Plan, plan};
    use crate::geometry::{Point, Polygon, Tolerance};
    use crate::pattern::Wish;

    fn rectangle(x: f64, y: f64, width: f64, height: f64) -> Polygon {
        Polygon::rectangle(Point::new(x, y), Point::new(x + width, y + height)).unwrap()
    }

    fn try_plan(patches: &[Polygon], bench: &Bench<'_>) -> Result<Plan, NoPlan> {
        let fabrics = vec![0; patches.len()];
        let drawing = Drawing { areas: patches, fabrics: &fabrics, fixed: &[], tolerance: Tolerance::of_extent(8.0) };
        plan(&drawing, &Asked { wishes: &Wish::USUAL, bench, budget: Budget::USUAL })
    }

    fn planned(patches: &[Polygon]) -> Plan {
        try_plan(patches, &Bench::boundless()).unwrap()
    }

    /// Papers, match points, different foundations; all proved.
    fn cost(plan: &Plan) -> [u32; 3] {
        [Wish::Papers, Wish::MatchPoints, Wish::EqualPapers].map(|wish| {
            assert!(plan.is_proved(wish), "{wish:?}");
            plan.cost(wish)
        })
    }

    #[test]
    fn strips_are_one_paper() {
        let strips: Vec<Polygon> = (0..5).map(|k| rectangle(0.0, f64::from(k), 8.0, 1.0)).collect();
        assert_eq!(cost(&planned(&strips)), [1, 0, 1]);
    }

    #[test]
    fn a_four_patch_is_two_papers_and_one_match_point() {
        let four = [(0.0, 0.0), (4.0, 0.0), (0.0, 4.0), (4.0, 4.0)].map(|(x, y)| rectangle(x, y, 4.0, 4.0));
        // Its two halves are alike.
        assert_eq!(cost(&planned(&four)), [2, 1, 1]);
    }

    #[test]
    fn four_staggered_bricks_with_a_strip_down_the_side_need_three_papers() {
        let bricks = [
            rectangle(0.0, 0.0, 2.0, 2.0),
            rectangle(2.0, 0.0, 4.0, 2.0),
            rectangle(0.0, 2.0, 4.0, 2.0),
            rectangle(4.0, 2.0, 2.0, 2.0),
            rectangle(6.0, 0.0, 1.0, 4.0),
        ];
        let plan = planned(&bricks);
        assert_eq!(cost(&plan)[..2], [3, 0]);
        assert_eq!(plan.tree.units().len(), 3);
    }

    #[test]
    fn a_ring_round_a_centre_is_stuck_and_told() {
        let ring = [
            rectangle(1.0, 1.0, 1.0, 1.0),
            rectangle(0.0, 0.0, 2.0, 1.0),
            rectangle(2.0, 0.0, 1.0, 2.0),
            rectangle(1.0, 2.0, 2.0, 1.0),
            rectangle(0.0, 1.0, 1.0, 2.0),
            rectangle(3.0, 0.0, 1.0, 3.0),
        ];
        let stuck = try_plan(&ring, &Bench::boundless()).unwrap_err();
        assert_eq!(stuck, NoPlan::Stuck(vec![vec![0, 1, 2, 3, 4]]));
    }

    #[test]
    fn a_unit_that_takes_two_sheets_is_divided_where_that_costs_no_more() {
        let strips: Vec<Polygon> = (0..4).map(|k| rectangle(0.0, f64::from(k), 8.0, 1.0)).collect();
        // Three strips fit on one sheet, four take three sheets.
        let sheets = |unit: &Polygon| if unit.area() > 25.0 { 3 } else { 1 };
        let bench = Bench { sheets: Box::new(sheets), fits: 0.0, ..Bench::boundless() };
        let plan = try_plan(&strips, &bench).unwrap();
        assert_eq!(plan.cost(Wish::Papers), 2);
        assert_eq!(plan.tree.units().len(), 2);
    }
}
