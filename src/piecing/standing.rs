//! What of a block stands already when it is planned: units that the source draws, and groups that its joins make of them.

use crate::geometry::Polygon;
use crate::pattern::{Block, Placement, UnitKind};

use super::plan::Bench;

/// Places that stay together when the rest of a block is planned.
#[derive(Debug, Clone, PartialEq)]
pub struct Standing {
    /// The places, by index among those of the block, ascending.
    pub places: Vec<usize>,
    /// What they cover.
    pub outline: Polygon,
    /// The papers that they take.
    pub papers: u32,
    /// How a source calls the group.
    pub name: String,
}

/// The groups of places that the stated joins of a block make, by their first places: each place is in one. A group that is not convex as a whole
/// falls apart into its places: its joins are at fault, and that is told where they are made.
pub fn standing(block: &Block, bench: &Bench<'_>) -> Vec<Standing> {
    let mut groups = Groups::of(block);
    for (index, _) in block.joins.iter().enumerate() {
        groups.join(index);
    }
    let mut found: Vec<Standing> = Vec::new();
    for (places, named) in groups.all() {
        match group(block, bench, &places, named) {
            Some(group) => found.push(group),
            None => found.extend(places.iter().filter_map(|&place| group_of_one(block, bench, place))),
        }
    }
    found.sort_by(|a, b| a.places.cmp(&b.places));
    found
}

/// What of a block its author puts outside the tree of straight cuts: rings, inset corners, plain pieces, and units with pieced sections. The other
/// places are in none.
pub fn leaves(block: &Block, bench: &Bench<'_>) -> Vec<Standing> {
    let mut groups = Groups::of(block);
    let mut found: Vec<Standing> = Vec::new();
    for index in 0..block.joins.len() {
        let made = groups.join(index);
        let Some(made) = made.filter(|_| block.leaves.contains_key(&index)) else { continue };
        // One that holds earlier ones stands for them.
        found.retain(|group: &Standing| group.places.iter().any(|place| !made.contains(place)));
        found.extend(group(block, bench, &made, Some(index)));
    }
    for place in (0..block.placements.len()).filter(|&place| !has_paper(block, place) || is_pieced(block, place)) {
        if !found.iter().any(|group| group.places.contains(&place)) {
            found.extend(group_of_one(block, bench, place));
        }
    }
    found.sort_by(|a, b| a.places.cmp(&b.places));
    found
}

/// How many papers the unit at a place takes: its sheets; a plain piece takes none.
pub fn papers(block: &Block, bench: &Bench<'_>, place: usize) -> u32 {
    let outline = block.placements.get(place).map(|place| &place.outline);
    outline.filter(|_| has_paper(block, place)).map_or(0, |outline| (bench.sheets)(outline))
}

/// Whether a section of the unit at a place is sewn of strips first.
fn is_pieced(block: &Block, place: usize) -> bool {
    let unit = block.placements.get(place).and_then(|place| block.units.get(place.unit));
    unit.is_some_and(|unit| unit.sections.iter().any(|section| !section.pieced.is_empty()))
}

fn has_paper(block: &Block, place: usize) -> bool {
    let unit = block.placements.get(place).and_then(|place| block.units.get(place.unit));
    unit.is_some_and(|unit| unit.kind == UnitKind::Paper)
}

/// Which places belong together.
struct Groups<'b> {
    block: &'b Block,
    /// The group of each place.
    home: Vec<usize>,
    /// The join that made each group last.
    made: Vec<Option<usize>>,
}

impl<'b> Groups<'b> {
    fn of(block: &'b Block) -> Self {
        let count = block.placements.len();
        Self { block, home: (0..count).collect(), made: vec![None; count] }
    }

    /// Makes a stated join; gives the places that are together then.
    fn join(&mut self, index: usize) -> Option<Vec<usize>> {
        let members: Vec<usize> = self.block.joins.get(index)?.members.iter().map(|(place, _)| *place).collect();
        let into = *self.home.get(*members.first()?)?;
        for member in members {
            let from = *self.home.get(member)?;
            for home in self.home.iter_mut().filter(|home| **home == from) {
                *home = into;
            }
        }
        *self.made.get_mut(into)? = Some(index);
        Some((0..self.home.len()).filter(|&place| self.home[place] == into).collect())
    }

    /// All groups, each with the join that made it.
    fn all(&self) -> Vec<(Vec<usize>, Option<usize>)> {
        let mut homes = self.home.clone();
        homes.sort_unstable();
        homes.dedup();
        let places = |group: usize| (0..self.home.len()).filter(|&place| self.home[place] == group).collect();
        homes.into_iter().map(|group| (places(group), self.made[group])).collect()
    }
}

fn group(block: &Block, bench: &Bench<'_>, places: &[usize], made: Option<usize>) -> Option<Standing> {
    if let [only] = places {
        return group_of_one(block, bench, *only);
    }
    let outlines: Vec<&Polygon> =
        places.iter().filter_map(|&place| Some(&block.placements.get(place)?.outline)).collect();
    let outline = Polygon::hull(outlines.iter().flat_map(|outline| outline.corners()).copied(), block.tolerance)?;
    let parts: f64 = outlines.iter().map(|outline| outline.area()).sum();
    if (outline.area() - parts).abs() > block.tolerance.area() {
        return None;
    }
    let papers = places.iter().map(|&place| papers(block, bench, place)).fold(0, u32::saturating_add);
    let named = made.and_then(|made| block.joins.get(made)?.name.clone());
    let first = || places.first().and_then(|&place| block.placements.get(place)).map(Placement::called);
    Some(Standing { places: places.to_vec(), outline, papers, name: named.or_else(first)? })
}

fn group_of_one(block: &Block, bench: &Bench<'_>, place: usize) -> Option<Standing> {
    let placement = block.placements.get(place)?;
    let (outline, name) = (placement.outline.clone(), placement.called());
    Some(Standing { places: vec![place], papers: papers(block, bench, place), outline, name })
}
