//! The task as the solver sees it: every shape in every turn that fits, in plain numbers.
//!
//! A shape in one turn is a *variant*. Its place on a page is that of the upper left corner of the upright rectangle round it. Outlines keep their distance by being
//! grown by half the gap; the page itself is held by the outlines as they are.

use super::fits::fits;
use super::{Page, Place, Task, Turning, Wish};
use crate::geometry::{Angle, Point, Polygon, Transform, Vector};

/// So many copies are worth all the work that may be done.
const MANY: u64 = 24;

/// Lengths up to this many inches count as none: far below what the result is checked with, far above what rounding adds up to.
pub(super) const TINY: f64 = 1e-9;

/// Corners of a grown outline turn by no more than this, in radians: a little over 60 degrees.
const STEP: f64 = 1.06;

/// A shape in one turn.
#[derive(Debug, Clone)]
pub(super) struct Variant {
    /// Which shape.
    pub shape: usize,
    /// How far it is turned.
    pub turn: Angle,
    /// From the place of the variant to the origin of the frame of the shape.
    pub origin: Vector,
    /// Width and height of the outline.
    pub width: f64,
    pub height: f64,
    /// The outline grown by half the gap, from the place of the variant; clockwise as seen, the first corner the highest, of several the leftmost.
    pub grown: Vec<Vector>,
    /// The outline itself, from the place of the variant.
    pub bare: Vec<Vector>,
}

/// A variant on a page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Item {
    pub variant: usize,
    pub x: f64,
    pub y: f64,
}

/// Equal sheets.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Sheet {
    pub items: Vec<Item>,
    pub times: u32,
}

/// Sheets for all copies.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Plan {
    pub sheets: Vec<Sheet>,
}

impl Plan {
    /// How many sheets are printed.
    pub fn printed(&self) -> u32 {
        self.sheets.iter().fold(0, |sum, sheet| sum.saturating_add(sheet.times))
    }
}

/// The task in plain numbers.
#[derive(Debug, Clone)]
pub(super) struct Core {
    pub page: Page,
    pub gap: f64,
    pub wish: Wish,
    pub outlines: Vec<Polygon>,
    pub copies: Vec<u32>,
    /// The area of each outline grown by half the gap with round corners.
    pub areas: Vec<f64>,
    /// The area of the page grown alike.
    pub room: f64,
    /// Shapes of which no two copies fit on a page together.
    pub apart: Vec<usize>,
    /// The variants of each shape, by index; one with no turn comes first.
    pub of_shape: Vec<Vec<usize>>,
    pub variants: Vec<Variant>,
}

impl Core {
    /// Reads the task.
    ///
    /// # Errors
    /// The first shape with copies that fits in no turn.
    pub fn new(task: &Task) -> Result<Self, usize> {
        let gap = if task.gap.is_finite() { task.gap.max(0.0) } else { 0.0 };
        let half = gap / 2.0;
        let round = |area: f64, perimeter: f64| area + perimeter * half + std::f64::consts::PI * half * half;
        let page = task.page;
        let mut core = Self {
            page,
            gap,
            wish: task.wish,
            outlines: task.shapes.iter().map(|shape| shape.outline.clone()).collect(),
            copies: task.shapes.iter().map(|shape| shape.copies).collect(),
            areas: Vec::new(),
            room: round(page.width * page.height, 2.0 * (page.width + page.height)),
            apart: Vec::new(),
            of_shape: vec![Vec::new(); task.shapes.len()],
            variants: Vec::new(),
        };
        for (index, shape) in task.shapes.iter().enumerate() {
            let perimeter: f64 = shape.outline.edges().map(|edge| edge.start.distance(edge.end)).sum();
            core.areas.push(round(shape.outline.area(), perimeter));
            if shape.copies == 0 {
                continue;
            }
            for turn in turns(&shape.outline, task.turning) {
                core.add(index, turn);
            }
            if core.of_shape[index].is_empty() {
                let turn = fits(&shape.outline, page.width, page.height, task.turning).ok_or(index)?;
                core.add(index, turn);
            }
            if core.of_shape[index].is_empty() {
                return Err(index);
            }
        }
        core.apart = super::bound::apart(&core, task.turning);
        Ok(core)
    }

    /// The same task with less turning; `None` where some shape then fits nowhere.
    pub fn turned(&self, turning: Turning) -> Option<Self> {
        let mut core = self.clone();
        for variants in core.of_shape.iter_mut().filter(|variants| !variants.is_empty()) {
            variants.retain(|&variant| allowed(turning, self.variants[variant].turn));
            if variants.is_empty() {
                return None;
            }
        }
        Some(core)
    }

    /// Adds a variant where it fits and differs from those there are; tells its index.
    pub fn add(&mut self, shape: usize, turn: Angle) -> Option<usize> {
        let variant = variant(shape, &self.outlines[shape], turn, self.gap / 2.0);
        if !(variant.width <= self.page.width + TINY && variant.height <= self.page.height + TINY) {
            return None;
        }
        let same = self.of_shape[shape].iter().find(|&&other| alike(&self.variants[other], &variant));
        if let Some(&same) = same {
            return Some(same);
        }
        let index = self.variants.len();
        self.variants.push(variant);
        self.of_shape[shape].push(index);
        Some(index)
    }

    /// Adds a variant in just this turn where that is allowed and it fits, even beside one that looks alike, so that a place told again is told to the letter.
    pub fn add_as_is(&mut self, shape: usize, turn: Angle, turning: Turning) -> Option<usize> {
        let variant = variant(shape, &self.outlines[shape], turn, self.gap / 2.0);
        let near = 1e-7;
        let within = variant.width <= self.page.width + near && variant.height <= self.page.height + near;
        if !(within && allowed(turning, turn)) {
            return None;
        }
        if let Some(same) = self.variants.iter().position(|other| other.shape == shape && other.turn == turn) {
            return Some(same);
        }
        self.variants.push(variant);
        Some(self.variants.len() - 1)
    }

    /// The shape of an item.
    pub fn shape(&self, item: &Item) -> usize {
        self.variants[item.variant].shape
    }

    /// An item in the words of the task.
    pub fn place(&self, item: &Item) -> Place {
        let variant = &self.variants[item.variant];
        Place { shape: variant.shape, turn: variant.turn, shift: variant.origin + Vector::new(item.x, item.y) }
    }

    /// How far down items reach.
    pub fn length(&self, items: &[Item]) -> f64 {
        items.iter().map(|item| item.y + self.variants[item.variant].height).fold(0.0, f64::max)
    }

    /// How many of each shape lie on a sheet.
    pub fn counts(&self, items: &[Item]) -> Vec<u32> {
        let mut counts = vec![0; self.copies.len()];
        for item in items {
            counts[self.shape(item)] += 1;
        }
        counts
    }

    /// The shapes with copies, the largest first.
    pub fn by_area(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.copies.len()).filter(|&shape| self.copies[shape] > 0).collect();
        order.sort_by(|&a, &b| self.areas[b].total_cmp(&self.areas[a]).then(a.cmp(&b)));
        order
    }

    /// How many pages all copies would take if they could be cut up.
    pub fn fullness(&self) -> f64 {
        let area: f64 = self.areas.iter().zip(&self.copies).map(|(area, &copies)| area * f64::from(copies)).sum();
        if self.room > 0.0 { area / self.room } else { 0.0 }
    }

    /// How many copies there are in all.
    pub fn total(&self) -> u64 {
        self.copies.iter().map(|&copies| u64::from(copies)).sum()
    }

    /// What of so much work is worth doing: where few copies are to be laid, what can be found is found soon.
    pub fn scaled(&self, budget: u64) -> u64 {
        budget / MANY * self.total().clamp(MANY / 6, MANY)
    }
}

/// Whether a turn is one of those allowed.
fn allowed(turning: Turning, turn: Angle) -> bool {
    let turned = turn.within_turn().to_degrees();
    match turning {
        Turning::Fixed => turned == 0.0,
        Turning::Quarters => [0.0, 90.0, 180.0, 270.0].contains(&turned),
        Turning::Freely => turned.is_finite(),
    }
}

/// A turn in thousandths of a degree: told with six decimals of its matrix it is found again exactly.
fn rounded(degrees: f64) -> Angle {
    Angle::degrees((degrees * 1e3).round() / 1e3).within_turn()
}

/// The turns worth trying, the plainest first.
fn turns(outline: &Polygon, turning: Turning) -> Vec<Angle> {
    let quarters = [0.0, 90.0, 180.0, 270.0];
    match turning {
        Turning::Fixed => vec![Angle::default()],
        Turning::Quarters => quarters.map(Angle::degrees).to_vec(),
        Turning::Freely => {
            let level = outline.edges().flat_map(|edge| {
                let angle = (edge.end - edge.start).angle().to_degrees();
                quarters.map(|quarter| rounded(quarter - angle))
            });
            quarters.into_iter().map(Angle::degrees).chain(level).collect()
        }
    }
}

/// A shape in one turn.
fn variant(shape: usize, outline: &Polygon, turn: Angle, half: f64) -> Variant {
    let turned = Transform::turn(turn, Point::default()).apply_to_polygon(outline);
    let (low, high) = turned.bounds();
    let mut grown: Vec<Vector> = grown(&turned, half).into_iter().map(|corner| corner - low).collect();
    let first = (0..grown.len())
        .min_by(|&a, &b| grown[a].y.total_cmp(&grown[b].y).then(grown[a].x.total_cmp(&grown[b].x)))
        .unwrap_or(0);
    grown.rotate_left(first);
    let bare = turned.corners().iter().map(|&corner| corner - low).collect();
    let (width, height) = (high.x - low.x, high.y - low.y);
    Variant { shape, turn, origin: -low.to_vector(), width, height, grown, bare }
}

/// The corners of an outline round the one given, every edge of which lies `half` outside: the sum with a disc, its arcs replaced by tangents.
fn grown(outline: &Polygon, half: f64) -> Vec<Point> {
    let corners = outline.corners();
    let n = corners.len();
    if half <= 0.0 {
        return corners.to_vec();
    }
    let normals: Vec<Option<Vector>> =
        outline.edges().map(|edge| (edge.end - edge.start).unit().map(|along| -along.quarter_turned())).collect();
    let mut grown = Vec::with_capacity(2 * n);
    for i in 0..n {
        let (Some(before), Some(after)) = (normals[(i + n - 1) % n], normals[i]) else { continue };
        let bend = libm::atan2(before.cross(after), before.dot(after));
        let parts = (bend / STEP).ceil().max(1.0);
        let reach = half / libm::cos(bend / parts / 2.0);
        let mut part = 0.5;
        while part < parts {
            let (sin, cos) = libm::sincos(bend * part / parts);
            grown.push(
                corners[i] + Vector::new(before.x * cos - before.y * sin, before.x * sin + before.y * cos) * reach,
            );
            part += 1.0;
        }
    }
    grown
}

/// Whether two variants are the same outline.
fn alike(one: &Variant, other: &Variant) -> bool {
    let near = 1e-7;
    let n = one.grown.len();
    n == other.grown.len()
        && (one.width - other.width).abs() < near
        && (one.height - other.height).abs() < near
        && (0..n).any(|k| (0..n).all(|i| (one.grown[i] + -other.grown[(i + k) % n]).length() < near))
}
