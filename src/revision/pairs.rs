//! What of the later model is what of the earlier one: fabrics, blocks, foundations and places. What bears another name is recognised by its geometry.

use crate::geometry::{Point, Polygon, Tolerance};
use crate::model::{Block, Model, Variant};

use super::alike::{self, Form, Likeness, is_in_order, same_area};

/// What of the later model is what of the earlier one, by indices.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pairs {
    /// By fabric of the later model: the fabric of the earlier one.
    pub fabrics: Vec<Option<usize>>,
    /// The blocks: those of the later model in order, then those that are gone.
    pub blocks: Vec<BlockPair>,
}

/// A block, before and now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BlockPair {
    /// In the earlier model; none where it is new.
    pub was: Option<usize>,
    /// In the later model; none where it is gone.
    pub now: Option<usize>,
    /// Its foundations, before and now: those of the later block in order, then those that are gone.
    pub variants: Vec<(Option<usize>, Option<usize>)>,
    /// Its places, before and now, as far as they are the same foundation's.
    pub placements: Vec<(usize, usize)>,
}

impl Pairs {
    /// Finds them. O(n²) in the foundations and sections of a block, and in the blocks.
    pub(super) fn between(was: &Model, now: &Model) -> Self {
        let fabrics = alike::fabrics(was, now);
        let pairs = block_pairs(was, now);
        let blocks = pairs.into_iter().map(|(before, after)| {
            let was = before.and_then(|index| was.blocks.get(index));
            let now = after.and_then(|index| now.blocks.get(index));
            let (variants, placements) = match (was, now) {
                (Some(was), Some(now)) => paired(was, now, &fabrics),
                (Some(was), None) => ((0..was.variants.len()).map(|index| (Some(index), None)).collect(), Vec::new()),
                (None, Some(now)) => ((0..now.variants.len()).map(|index| (None, Some(index))).collect(), Vec::new()),
                (None, None) => (Vec::new(), Vec::new()),
            };
            BlockPair { was: before, now: after, variants, placements }
        });
        let blocks = blocks.collect();
        Self { fabrics, blocks }
    }

    /// What fabric of the earlier model a fabric of the later one was.
    #[must_use]
    pub fn fabric_was(&self, now: usize) -> Option<usize> {
        self.fabrics.get(now).copied().flatten()
    }

    /// What fabric of the later model a fabric of the earlier one is.
    #[must_use]
    pub fn fabric_now(&self, was: usize) -> Option<usize> {
        self.fabrics.iter().position(|&other| other == Some(was))
    }
}

impl BlockPair {
    /// The block before and now, where it is in both.
    pub(super) fn both<'m>(&self, was: &'m Model, now: &'m Model) -> Option<(&'m Block, &'m Block)> {
        Some((was.blocks.get(self.was?)?, now.blocks.get(self.now?)?))
    }

    /// What place of the later block a place of the earlier one is.
    pub(super) fn placement_now(&self, was: usize) -> Option<usize> {
        self.placements.iter().find(|(before, _)| *before == was).map(|(_, now)| *now)
    }
}

/// Pairs things of two lists, the best of all pairs first: a rank for each pair that may be one, the lowest first; equal ranks by their indices.
fn best_first<R: PartialOrd>(ranks: impl Iterator<Item = (R, usize, usize)>) -> Vec<(usize, usize)> {
    let mut ranks: Vec<(R, usize, usize)> = ranks.collect();
    ranks.sort_by(|a, b| {
        let rank = a.0.partial_cmp(&b.0).unwrap_or(std::cmp::Ordering::Equal);
        rank.then((a.2, a.1).cmp(&(b.2, b.1)))
    });
    let mut taken: Vec<(usize, usize)> = Vec::new();
    for (_, before, after) in ranks {
        if taken.iter().all(|&(a, b)| a != before && b != after) {
            taken.push((before, after));
        }
    }
    taken
}

/// Pairs of indices as a whole: those of the later list in order, then what is gone.
fn completed(pairs: &[(usize, usize)], was: usize, now: usize) -> Vec<(Option<usize>, Option<usize>)> {
    let before = |after: usize| pairs.iter().find(|(_, b)| *b == after).map(|(a, _)| *a);
    let there = (0..now).map(|after| (before(after), Some(after)));
    let gone = (0..was).filter(|before| pairs.iter().all(|(a, _)| a != before)).map(|before| (Some(before), None));
    there.chain(gone).collect()
}

/// The blocks: by name, else by what they have in common.
fn block_pairs(was: &Model, now: &Model) -> Vec<(Option<usize>, Option<usize>)> {
    let mut ranks = Vec::new();
    for (i, before) in was.blocks.iter().enumerate() {
        for (j, after) in now.blocks.iter().enumerate() {
            if before.name == after.name {
                ranks.push((0.0, i, j));
                continue;
            }
            let known = |block: &Block, model: &Model| model.blocks.iter().any(|other| other.name == block.name);
            if known(before, now) || known(after, was) {
                continue;
            }
            let common = in_common(before, after);
            let only = was.blocks.len() == 1 && now.blocks.len() == 1;
            if common >= 0.5 || only {
                ranks.push((2.0 - common, i, j));
            }
        }
    }
    completed(&best_first(ranks.into_iter()), was.blocks.len(), now.blocks.len())
}

/// Which part of the foundations of the larger of two blocks is printed alike in the other, from 0 to 1.
fn in_common(was: &Block, now: &Block) -> f64 {
    let forms = |block: &Block| block.variants.iter().map(|variant| Form::of(block, variant)).collect::<Vec<_>>();
    let (was, now) = (forms(was), forms(now));
    let mut left: Vec<&Form> = was.iter().collect();
    let mut common = 0_u32;
    for form in &now {
        if let Some(at) = left.iter().position(|other| other.likeness(form) != Likeness::Other) {
            left.swap_remove(at);
            common += 1;
        }
    }
    let most = u32::try_from(was.len().max(now.len())).unwrap_or(u32::MAX);
    f64::from(common) / f64::from(most.max(1))
}

/// A foundation of a block, and all that its rank is told from.
struct Candidate<'m> {
    block: &'m Block,
    index: usize,
    variant: &'m Variant,
    form: Form,
    /// Where it stands in the block.
    places: Vec<&'m Polygon>,
}

impl<'m> Candidate<'m> {
    fn all(block: &'m Block) -> Vec<Self> {
        let of = |(index, variant): (usize, &'m Variant)| {
            let places = block.placements.iter().filter(|place| place.variant == index).map(|place| &place.outline);
            Self { block, index, variant, form: Form::of(block, variant), places: places.collect() }
        };
        block.variants.iter().enumerate().map(of).collect()
    }

    fn name(&self) -> &'m str {
        &self.block.unit_of(self.variant).name
    }
}

/// How probably one foundation is the other: the lower the more. None where it is not.
///
/// The same drawing comes first, by name and by hand where there are several; then the name with other numbers or fabrics; then what bears the name; then what covers the same part of the
/// block.
fn rank(was: &Candidate<'_>, now: &Candidate<'_>, fabrics: &[Option<usize>]) -> Option<(u8, bool, f64)> {
    if was.block.has_paper(was.variant) != now.block.has_paper(now.variant) {
        return None;
    }
    let same_name = was.name() == now.name();
    let same_id = same_name && was.variant.mirrored == now.variant.mirrored && was.variant.id == now.variant.id;
    let step = match was.form.likeness(&now.form) {
        Likeness::Same(order) => {
            let as_was = is_in_order(&order) && same_fabrics(was.variant, now.variant, fabrics);
            match (as_was, same_id, same_name) {
                (true, true, _) => 0,
                (true, false, true) => 1,
                (true, false, false) => 2,
                (false, true, _) => 3,
                (false, false, true) => 4,
                (false, false, false) => 6,
            }
        }
        Likeness::Other if same_id => 5,
        Likeness::Other if same_name && was.variant.mirrored == now.variant.mirrored => 7,
        Likeness::Other if overlap(&was.places, &now.places) >= 0.5 => 8,
        Likeness::Other => return None,
    };
    let first = |places: &[&Polygon]| places.first().map(|place| place.centroid()).unwrap_or_default();
    let distance = (first(&was.places).distance(first(&now.places)) * 1e3).round();
    Some((step, was.variant.mark != now.variant.mark, distance))
}

/// Whether all sections have the fabrics that they had.
pub(super) fn same_fabrics(was: &Variant, now: &Variant, fabrics: &[Option<usize>]) -> bool {
    let as_was = |&now: &usize| fabrics.get(now).copied().flatten();
    let all = |variant: &Variant, k: usize| variant.fabrics_of(k).to_vec();
    was.fabrics.len() == now.fabrics.len()
        && (0..now.fabrics.len()).all(|k| {
            let (before, after) = (all(was, k), all(now, k));
            before.len() == after.len() && before.iter().zip(&after).all(|(a, b)| as_was(b) == Some(*a))
        })
}

/// Which part of the larger of two sets of areas lies in both, from 0 to 1; areas of one set do not overlap.
fn overlap(a: &[&Polygon], b: &[&Polygon]) -> f64 {
    let area = |all: &[&Polygon]| all.iter().map(|one| one.area()).sum::<f64>();
    let most = area(a).max(area(b));
    let tolerance = Tolerance::of_extent(most.max(0.0).sqrt());
    let shared = a.iter().flat_map(|one| b.iter().filter_map(|other| one.intersection(other, tolerance)));
    if most > 0.0 { shared.map(|both| both.area()).sum::<f64>() / most } else { 0.0 }
}

type VariantPairs = Vec<(Option<usize>, Option<usize>)>;

/// The foundations and the places of a block that is in both models.
fn paired(was: &Block, now: &Block, fabrics: &[Option<usize>]) -> (VariantPairs, Vec<(usize, usize)>) {
    let (before, after) = (Candidate::all(was), Candidate::all(now));
    let ranks = before
        .iter()
        .flat_map(|a| after.iter().filter_map(move |b| rank(a, b, fabrics).map(|rank| (rank, a.index, b.index))));
    let variants = best_first(ranks);
    let mut places = Vec::new();
    for &(a, b) in &variants {
        let of = |block: &Block, index: usize| {
            let all = block.placements.iter().enumerate().filter(|(_, place)| place.variant == index);
            all.map(|(at, _)| at).collect::<Vec<usize>>()
        };
        let there = of(now, b);
        let ranks = of(was, a).into_iter().flat_map(|i| {
            let from = was.placements.get(i).map(|place| (place.outline.centroid(), place.name.as_str()));
            there.iter().filter_map(move |&j| {
                let (centre, name) = from?;
                let to = now.placements.get(j)?;
                let same = was.placements.get(i).is_some_and(|place| same_area(&place.outline, &to.outline));
                let distance: f64 = Point::distance(centre, to.outline.centroid());
                Some(((!same, name != to.name, distance), i, j))
            })
        });
        places.extend(best_first(ranks.collect::<Vec<_>>().into_iter()));
    }
    places.sort_by_key(|&(_, now)| now);
    (completed(&variants, was.variants.len(), now.variants.len()), places)
}
