//! Among the trees that are equally good so far, the one with the fewest different foundations, and what is weighed after them.
//!
//! How many foundations differ does not add up over a tree: what the left side is made of may stand on the right side too. So each region keeps
//! *labels*: ways to make it of which none is better than another whatever the rest of the drawing is made of. That is a search by labels as for
//! shortest paths with several aims (Martins 1984); it is complete unless a region has more labels than are kept or the steps run out.

use std::collections::BTreeSet;

use super::alike::Kinds;
use super::bits::Bits;
use super::lines::CutLine;
use super::search::{Cost, Key, Known, LONGER, Made, Search, Sum};
use super::{Drawing, PlanTree};

/// So many labels are kept of one region.
const MOST_LABELS: usize = 12;

/// A way to make a region.
#[derive(Clone)]
struct Label {
    /// The kinds of its units that may occur elsewhere, ascending.
    kinds: Vec<usize>,
    /// How many of its units are like no other, for they hold a patch that is.
    single: u32,
    cost: Cost,
    how: How,
}

/// How a label comes about.
#[derive(Clone, Copy)]
enum How {
    Unit,
    /// Joined along a line; the labels of its left and its right side.
    Joined(u32, usize, usize),
}

impl Label {
    /// What is weighed: how many foundations differ, then the sums.
    fn weight(&self, then: &[Sum]) -> (usize, Key) {
        (self.kinds.len() + self.single as usize, self.cost.key(then))
    }

    /// Whether it is at least as good as another, whatever the rest is made of.
    fn is_as_good_as(&self, other: &Self, then: &[Sum]) -> bool {
        self.single <= other.single
            && self.cost.key(then) <= other.cost.key(then)
            && self.kinds.iter().all(|kind| other.kinds.binary_search(kind).is_ok())
    }
}

/// What was found.
pub struct Found {
    /// The tree; its units not yet in the order of sewing.
    pub tree: PlanTree,
    /// What it costs in all that is weighed.
    pub cost: Cost,
    /// How many of its foundations differ.
    pub different: u32,
    /// No tree that is as good in what is weighed before has fewer.
    pub least_different: u32,
    /// Whether all trees that are as good in what is weighed before were compared.
    pub complete: bool,
}

/// The search.
pub struct Among<'s, 'l, const W: usize> {
    search: &'s mut Search<'l, W>,
    lines: &'l [CutLine<W>],
    /// The sums that were weighed before, whose best is kept.
    first: &'l [Sum],
    /// The sums that are weighed after.
    then: &'l [Sum],
    kinds: Kinds<'l>,
    /// The patches that are like no other.
    single: Bits<W>,
    known: Known<Vec<Label>, W>,
    /// The kinds that hold each patch.
    holding: Vec<BTreeSet<usize>>,
    /// How many more steps may be made: a label compared, or a cut.
    left: u64,
    /// Whether labels were dropped.
    dropped: bool,
}

impl<'s, 'l, const W: usize> Among<'s, 'l, W> {
    /// A search among the best trees of `search`, which weighed the sums `first`; `then` are those weighed after the different foundations.
    pub fn new(
        search: &'s mut Search<'l, W>,
        lines: &'l [CutLine<W>],
        (first, then): (&'l [Sum], &'l [Sum]),
        drawing: &'l Drawing<'l>,
        steps: u64,
    ) -> Self {
        let mut kinds = Kinds::new(drawing);
        let of_patch: Vec<usize> = (0..drawing.areas.len()).map(|patch| kinds.of(&[patch])).collect();
        let mut single = Bits::EMPTY;
        for (patch, kind) in of_patch.iter().enumerate() {
            if of_patch.iter().filter(|other| *other == kind).count() == 1 {
                single.insert(patch);
            }
        }
        let holding = vec![BTreeSet::new(); drawing.areas.len()];
        let (known, left) = (Known::default(), steps);
        Self { search, lines, first, then, kinds, single, known, holding, left, dropped: false }
    }

    /// The best tree of the whole drawing; `None` where it cannot be sewn.
    pub fn find(mut self, whole: Bits<W>) -> Option<Found> {
        self.label(whole);
        let labels = self.known.get(&whole)?;
        let then = self.then;
        let best = (0..labels.len()).min_by_key(|&k| labels[k].weight(then))?;
        let (cost, different) = (labels[best].cost, labels[best].weight(then).0);
        let different = u32::try_from(different).unwrap_or(u32::MAX);
        let complete = self.left > 0 && !self.dropped && self.search.complete();
        let least_different = if complete { different } else { self.least_different() };
        Some(Found { tree: self.tree(whole, best)?, cost, different, least_different, complete })
    }

    /// Patches no two of which are held by one kind need as many kinds. Nothing is known where not all units were met.
    fn least_different(&self) -> u32 {
        if self.left == 0 || !self.search.complete() {
            return 1;
        }
        let mut patches: Vec<&BTreeSet<usize>> = self.holding.iter().collect();
        patches.sort_by_key(|kinds| kinds.len());
        let (mut held, mut count) = (BTreeSet::new(), 0);
        for kinds in patches {
            if kinds.is_disjoint(&held) {
                held.extend(kinds);
                count += 1;
            }
        }
        count
    }

    /// Finds the labels of a region.
    fn label(&mut self, region: Bits<W>) {
        if self.known.contains_key(&region) {
            return;
        }
        let mut labels: Vec<Label> = Vec::new();
        for option in self.options(region) {
            match option {
                Made::Stuck => {}
                Made::Unit => {
                    let label = self.unit(&region);
                    self.keep(&mut labels, label);
                }
                Made::Joined(number) => self.join(region, number, &mut labels),
            }
            if self.left == 0 && !labels.is_empty() {
                break;
            }
        }
        self.known.insert(region, labels);
    }

    /// The ways of making a region that are best so far, longest seams first.
    fn options(&mut self, region: Bits<W>) -> Vec<Made> {
        let best = self.search.made(region);
        let Some(cost) = self.search.cost(region) else { return Vec::new() };
        if self.left == 0 || !self.search.complete() {
            return vec![best];
        }
        let wanted = cost.key(self.first);
        let mut options = Vec::new();
        if region.count() <= 1 {
            return vec![Made::Unit];
        }
        if self.search.is_unit(region) && self.search.unit_cost(&region).key(self.first) == wanted {
            options.push(Made::Unit);
            // One paper is fewer than any join has.
            if self.first.contains(&Sum::Papers) && cost.papers == 1 {
                return options;
            }
        }
        let mut cuts: Vec<(f64, u32)> = Vec::new();
        let sums = !self.first.contains(&Sum::Papers);
        for (number, line) in (0..).zip(self.lines) {
            let Some(left) = line.cut(&region) else { continue };
            let right = region.without(&left);
            self.left = self.left.saturating_sub(1);
            // Where papers are weighed before, what was not looked at is not among the best.
            let mut of = |part| if sums { self.search.cost(part) } else { self.search.known_cost(&part) };
            let (Some(of_left), Some(of_right)) = (of(left), of(right)) else { continue };
            if of_left.and(of_right).and(self.search.join_cost(line, &region)).key(self.first) == wanted {
                cuts.push((line.length(&region), number));
            }
        }
        cuts.sort_by(|a, b| {
            let (a_length, b_length) = ((a.0 / LONGER).round(), (b.0 / LONGER).round());
            b_length.total_cmp(&a_length).then(a.1.cmp(&b.1))
        });
        options.extend(cuts.into_iter().map(|(_, number)| Made::Joined(number)));
        options
    }

    fn unit(&mut self, region: &Bits<W>) -> Label {
        let patches: Vec<usize> = region.numbers().collect();
        let kind = self.kinds.of(&patches);
        for &patch in &patches {
            if let Some(kinds) = self.holding.get_mut(patch) {
                kinds.insert(kind);
            }
        }
        let mut cost = self.search.unit_cost(region);
        if self.then.contains(&Sum::ShortSeams) {
            cost.short_seams = self.search.short_seams(*region);
        }
        let single = region.meets(&self.single);
        let kinds = if single { Vec::new() } else { vec![kind] };
        Label { kinds, single: u32::from(single), cost, how: How::Unit }
    }

    fn join(&mut self, region: Bits<W>, number: u32, labels: &mut Vec<Label>) {
        let Some((line, left)) = self.lines.get(number as usize).and_then(|line| Some((line, line.cut(&region)?)))
        else {
            return;
        };
        let right = region.without(&left);
        self.label(left);
        self.label(right);
        let mut added = self.search.join_cost(line, &region);
        if self.then.contains(&Sum::ShortSeams) {
            added.short_seams = u32::from(self.search.is_short(line, &region));
        }
        let counts = [left, right].map(|side| self.known.get(&side).map_or(0, Vec::len));
        for (a, b) in (0..counts[0]).flat_map(|a| (0..counts[1]).map(move |b| (a, b))) {
            if self.left == 0 && !labels.is_empty() {
                return;
            }
            let (Some(of_left), Some(of_right)) =
                (self.known.get(&left).and_then(|all| all.get(a)), self.known.get(&right).and_then(|all| all.get(b)))
            else {
                continue;
            };
            let label = Label {
                kinds: union(&of_left.kinds, &of_right.kinds),
                single: of_left.single.saturating_add(of_right.single),
                cost: of_left.cost.and(of_right.cost).and(added),
                how: How::Joined(number, a, b),
            };
            self.keep(labels, label);
        }
    }

    /// Keeps a label unless one is as good; drops those that it is as good as, and the worst of too many.
    fn keep(&mut self, labels: &mut Vec<Label>, label: Label) {
        self.left = self.left.saturating_sub(1 + labels.len() as u64);
        let then = self.then;
        if labels.iter().any(|other| other.is_as_good_as(&label, then)) {
            return;
        }
        labels.retain(|other| !label.is_as_good_as(other, then));
        labels.push(label);
        if labels.len() > MOST_LABELS {
            self.dropped = true;
            // The last of the worst.
            let worst = (0..labels.len()).max_by_key(|&k| labels[k].weight(then)).unwrap_or(0);
            labels.remove(worst);
        }
    }

    fn tree(&self, region: Bits<W>, label: usize) -> Option<PlanTree> {
        let label = self.known.get(&region)?.get(label)?;
        Some(match label.how {
            How::Unit => PlanTree::Unit(region.numbers().collect()),
            How::Joined(number, a, b) => {
                let line = self.lines.get(number as usize)?;
                let left = line.cut(&region)?;
                PlanTree::Join {
                    seam: line.seam(&region)?,
                    left: Box::new(self.tree(left, a)?),
                    right: Box::new(self.tree(region.without(&left), b)?),
                }
            }
        })
    }
}

/// The numbers in either of two ascending lists, ascending.
fn union(a: &[usize], b: &[usize]) -> Vec<usize> {
    let both: BTreeSet<usize> = a.iter().chain(b).copied().collect();
    both.into_iter().collect()
}
