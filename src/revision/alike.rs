//! When two things are the same: places in inches, areas, and foundations as they are printed.

use crate::geometry::{Point, Polygon, Segment, Tolerance, Transform};
use crate::model::{Block, Fabric, Model, Section, UnitKind, Variant};
use crate::packet::hand;

/// Places nearer than this are the same in print: a hundred-thousandth of an inch.
fn near() -> Tolerance {
    Tolerance::of_extent(0.1)
}

/// Whether two places are the same.
pub(super) fn same_place(a: Point, b: Point) -> bool {
    near().is_zero(a.distance(b))
}

/// Whether two lengths in inches are the same.
pub(super) fn same_length(a: f64, b: f64) -> bool {
    near().is_zero(a - b)
}

/// Whether each of some places is among others.
fn all_among(some: &[Point], others: &[Point]) -> bool {
    some.iter().all(|&a| others.iter().any(|&b| same_place(a, b)))
}

/// Whether two areas are the same, wherever their outlines begin.
pub(super) fn same_area(a: &Polygon, b: &Polygon) -> bool {
    let (a, b) = (a.corners(), b.corners());
    a.len() == b.len() && all_among(a, b) && all_among(b, a)
}

/// Whether two lines are the same, in either direction.
pub(super) fn same_line(a: Segment, b: Segment) -> bool {
    (same_place(a.start, b.start) && same_place(a.end, b.end))
        || (same_place(a.start, b.end) && same_place(a.end, b.start))
}

fn same_seam(a: Option<Segment>, b: Option<Segment>) -> bool {
    match (a, b) {
        (Some(a), Some(b)) => same_line(a, b),
        (None, None) => true,
        _ => false,
    }
}

/// How far apart two areas are: how far a corner of one is from the nearest corner of the other, at the most, and that corner's place in the second.
pub(super) fn apart(a: &Polygon, b: &Polygon) -> (f64, Point) {
    let nearest = |p: Point, among: &[Point]| {
        let found = among.iter().map(|&q| (p.distance(q), q)).min_by(|(x, _), (y, _)| x.total_cmp(y));
        found.unwrap_or((f64::INFINITY, p))
    };
    let forward = a.corners().iter().map(|&p| nearest(p, b.corners()));
    let back = b.corners().iter().map(|&p| (nearest(p, a.corners()).0, p));
    forward.chain(back).max_by(|(x, _), (y, _)| x.total_cmp(y)).unwrap_or((0.0, Point::default()))
}

/// A foundation as it is printed.
pub(super) struct Form {
    /// From the unit's frame to its own.
    pub map: Transform,
    /// Whether it has paper at all.
    paper: bool,
    pub outline: Polygon,
    pub cutting: Polygon,
    pub sections: Vec<SectionForm>,
}

/// A section as it is printed.
pub(super) struct SectionForm {
    pub area: Polygon,
    seam: Option<Segment>,
    strips: Vec<(Polygon, Option<Segment>)>,
}

/// How much alike two foundations are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Likeness {
    /// The same areas, in another order or the same: for each section of the second its index in the first.
    Same(Vec<usize>),
    /// Other areas.
    Other,
}

impl Form {
    /// Its printed side, the upper left of its outline at the origin: wherever it was drawn.
    pub fn of(block: &Block, variant: &Variant) -> Self {
        let turned = hand::printed(variant);
        let corner = turned.apply_to_polygon(&block.unit_of(variant).outline).bounds().0;
        Self::mapped(block, variant, turned.then(Transform::shift(-corner.to_vector())))
    }

    /// Its printed side where it was drawn.
    pub fn as_drawn(block: &Block, variant: &Variant) -> Self {
        Self::mapped(block, variant, hand::printed(variant))
    }

    fn mapped(block: &Block, variant: &Variant, map: Transform) -> Self {
        let unit = block.unit_of(variant);
        let section = |section: &Section| SectionForm {
            area: map.apply_to_polygon(&section.polygon),
            seam: section.seam.map(|seam| map.apply_to_segment(seam)),
            strips: section
                .pieced
                .iter()
                .map(|strip| (map.apply_to_polygon(&strip.polygon), strip.seam.map(|seam| map.apply_to_segment(seam))))
                .collect(),
        };
        Self {
            map,
            paper: unit.kind == UnitKind::Paper,
            outline: map.apply_to_polygon(&unit.outline),
            cutting: map.apply_to_polygon(&unit.cutting_line),
            sections: unit.sections.iter().map(section).collect(),
        }
    }

    /// How much another is like this one. O(n²) in their sections.
    pub fn likeness(&self, other: &Self) -> Likeness {
        if self.paper != other.paper
            || self.sections.len() != other.sections.len()
            || !same_area(&self.cutting, &other.cutting)
            || !same_area(&self.outline, &other.outline)
        {
            return Likeness::Other;
        }
        let count = self.sections.len();
        // The same number first: areas never lie twice in a unit, so at most one other is the same.
        let of = |k: usize| {
            let same = |i: &usize| self.sections[*i].area_is(&other.sections[k]);
            std::iter::once(k).chain(0..count).find(same)
        };
        let order: Option<Vec<usize>> = (0..count).map(of).collect();
        match order {
            // In the same order the seams are the same too, or it is another drawing.
            Some(order) if is_in_order(&order) && !self.seams_are(other) => Likeness::Other,
            Some(order) => Likeness::Same(order),
            None => Likeness::Other,
        }
    }

    fn seams_are(&self, other: &Self) -> bool {
        self.sections.iter().zip(&other.sections).all(|(a, b)| same_seam(a.seam, b.seam))
    }

    /// Whether it has the edges of another.
    pub fn has_edges_of(&self, other: &Self) -> bool {
        same_area(&self.cutting, &other.cutting) && same_area(&self.outline, &other.outline)
    }
}

/// Whether an order is the one that was.
pub(super) fn is_in_order(order: &[usize]) -> bool {
    order.iter().enumerate().all(|(k, &i)| k == i)
}

impl SectionForm {
    fn area_is(&self, other: &Self) -> bool {
        same_area(&self.area, &other.area)
            && self.strips.len() == other.strips.len()
            && self.strips.iter().zip(&other.strips).all(|(a, b)| same_area(&a.0, &b.0) && same_seam(a.1, b.1))
    }
}

/// Which fabric of the earlier model each of the later one is, by index: the one with its key, else with its name, else with its colour and print.
pub(super) fn fabrics(was: &Model, now: &Model) -> Vec<Option<usize>> {
    let mut found: Vec<Option<usize>> = vec![None; now.fabrics.len()];
    let by: [fn(&Fabric, &Fabric) -> bool; 3] =
        [|a, b| a.key == b.key, |a, b| a.name == b.name, |a, b| a.colour == b.colour && a.print == b.print];
    for same in by {
        for (index, fabric) in now.fabrics.iter().enumerate() {
            if found[index].is_none() {
                let free = |other: &usize| !found.contains(&Some(*other));
                found[index] = (0..was.fabrics.len()).filter(free).find(|&other| same(&was.fabrics[other], fabric));
            }
        }
    }
    found
}
