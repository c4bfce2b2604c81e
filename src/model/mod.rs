//! The compiled model: one pattern at one size, with everything known. Packets are drawn from it and `model.json` is written from it.
//!
//! Nothing here is looked up by name or filled in later; indices point into the lists beside them. All lengths are inches at this model's size.
//!
//! # Frames
//!
//! - *unit*: a unit as drawn, from the front, y down, the drawing's origin.
//! - *block*: the front of the block, y down, origin at the upper left of its bounding box.
//!
//! A [`Placement`] carries its unit into the block. Paper has frames of its own, which belong to the packet.

mod build;
mod called;
mod cuts;
mod cutting;
mod partial;
mod turns;
mod warnings;

pub use build::build;
pub use called::call_by_marks;
pub use cuts::measures;
pub use partial::keep_unit;
pub use warnings::warnings;

pub use crate::cutting::Shape;
use crate::geometry::{Angle, Length, Point, Polygon, Segment, Transform, Vector};
pub use crate::pattern::facts::{Edition, Fabric, Facts, Image, Paper, Print, PrintDirection, Units};
pub use crate::pattern::{Apart, Effort, SheetPaper, SheetRules};
pub use crate::pattern::{Cloth, CuttingPlan, Owned, OwnedPiece, Stock, UnitKind};
pub use crate::piecing::plan::Weighed;
pub use crate::piecing::{Cause, JoinKind, Nesting, Press, Tree};

/// One pattern at one size.
#[derive(Debug, Clone, PartialEq)]
pub struct Model {
    /// Title, edition and the publisher's lines.
    pub facts: Facts,
    /// The size, as it is printed: `8 in`.
    pub size: String,
    /// The seam allowance.
    pub allowance: Length,
    /// The ease of rough cuts.
    pub ease: Length,
    /// Which units the packet speaks in.
    pub units: Units,
    /// The paper that the pattern asks for: the main one where it names several.
    pub paper: Paper,
    /// The papers that the pattern asks for, the main one in front. At least one.
    pub papers: Vec<Paper>,
    /// What foundations are printed on, and how.
    pub sheets: SheetRules,
    /// The language that the pattern asks for, by its code of ISO 639.
    pub language: Option<String>,
    /// The title of the colouring that this model is in; none as drawn.
    pub colouring: Option<String>,
    /// All colourings besides the one in which the pattern is drawn.
    pub colourings: Vec<Colouring>,
    /// The fabrics that are used, in the order in which the source names them.
    pub fabrics: Vec<Fabric>,
    /// The blocks, in the order in which the source has them.
    pub blocks: Vec<Block>,
    /// The cutting, one for each fabric, in the order of [`Self::fabrics`].
    pub cutting: Vec<FabricCutting>,
    /// The cloth, where a fabric does not say otherwise.
    pub cloth: Cloth,
    /// For so many people the cloth is cut, each of whom sews what the model says; at least one.
    pub people: u32,
    /// What to buy in each of the other colourings; empty for a model that is in one, and where only a part is sewn.
    pub in_colourings: Vec<ColouredAmounts>,
    /// How far plans are searched.
    pub effort: Effort,
}

/// Other fabrics for the whole pattern.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Colouring {
    /// Its name.
    pub title: String,
    /// Which fabrics of the pattern as drawn become which, all at once, by index in [`Model::fabrics`].
    pub fabrics: Vec<(usize, usize)>,
}

/// A block.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// Its name.
    pub name: String,
    /// How often the pattern sews it.
    pub copies: u32,
    /// Finished width of its bounding box.
    pub width: Length,
    /// Finished height of its bounding box.
    pub height: Length,
    /// How its finished size is printed: `8 in`, `8 × 6 in`, `sides of 4 in`.
    pub finished: String,
    /// Its outline, in the block's frame.
    pub outline: Polygon,
    /// Its units, in the order of their marks.
    pub units: Vec<Unit>,
    /// The foundations to print: each unit in each hand and set of fabrics that occurs, by unit, then as first placed.
    pub variants: Vec<Variant>,
    /// The places of its units, in the order in which the source has them.
    pub placements: Vec<Placement>,
    /// The joins, in the order of sewing.
    pub joins: Vec<Join>,
    /// Whether the pressing is proved best: of all that keep to what is stated and away from tips none nests more match points, and none that nests
    /// as many has more pressed toward the darker side.
    pub pressing_proved: bool,
    /// How good its division into papers is.
    pub division: Division,
    /// The tree of straight cuts.
    pub tree: Tree,
    /// Notes on the block.
    pub notes: Vec<String>,
}

/// How good the division of a block into papers is, as far as it is known.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Division {
    /// Whether no division needs fewer papers.
    pub papers_proved: bool,
    /// Whether none with as few papers has fewer match points.
    pub match_points_proved: bool,
    /// What it costs, wish by wish, the heaviest in front; empty where the planner made none of it.
    pub weighed: Vec<Weighed>,
}

/// A convex region of the block that is sewn on one paper, as drawn; or a plain piece, which has one section and no paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Unit {
    /// On what it is sewn.
    pub kind: UnitKind,
    /// Its name.
    pub name: String,
    /// Its mark, `A`, `B`, …, in joining order.
    pub mark: String,
    /// Its finished outline, in the unit's frame.
    pub outline: Polygon,
    /// Where it is trimmed, or cut to size: the outline grown by the allowance.
    pub cutting_line: Polygon,
    /// Its sections, in the order of sewing; number k stands at index k - 1.
    pub sections: Vec<Section>,
    /// Notes on the unit.
    pub notes: Vec<String>,
}

/// A numbered area of a unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Its fabric as drawn, by index in [`Model::fabrics`].
    pub fabric: usize,
    /// Its finished area, in the unit's frame.
    pub polygon: Polygon,
    /// The line on which its piece is sewn to what is already there, from one end of what is there to the other; none for section 1.
    pub seam: Option<Segment>,
    /// The section with every seam line that ends on the unit's outline carried on to the cutting line.
    pub extended: Polygon,
    /// What its piece must cover: the extended section grown by the allowance, clipped to the cutting line.
    pub needed: Polygon,
    /// Where it is sewn together of strips before it goes on: all of them, at least two, from one side to the other. Else empty.
    pub pieced: Vec<PiecedStrip>,
    /// Notes on the section.
    pub notes: Vec<String>,
    /// The author's words in place of the written step.
    pub own_step: Option<String>,
}

/// A strip of a pieced section.
#[derive(Debug, Clone, PartialEq)]
pub struct PiecedStrip {
    /// Its fabric as drawn, by index in [`Model::fabrics`].
    pub fabric: usize,
    /// Its finished area, in the unit's frame.
    pub polygon: Polygon,
    /// What its piece must cover: of what the section needs its own side of the seams within, and one allowance past them.
    pub needed: Polygon,
    /// The line along which it is sewn to the next strip, which lies on the right; none for the last.
    pub seam: Option<Segment>,
    /// Whether the allowances of that seam are pressed toward the next strip.
    pub pressed_to_next: bool,
}

/// One foundation to print: a unit in one hand and one set of fabrics. Of a plain piece, which has but one hand, there is nothing to print.
#[derive(Debug, Clone, PartialEq)]
pub struct Variant {
    /// `roof/1`, `roof/2`, ….
    pub id: String,
    /// Its mark: the unit's, and a small letter where the unit has several variants: `A`, or `Aa`, `Ab`.
    pub mark: String,
    /// Its unit, by index in [`Block::units`].
    pub unit: usize,
    /// Whether it is sewn as the mirror image of the drawing.
    pub mirrored: bool,
    /// The fabric of each section, by index in [`Model::fabrics`]; of a pieced one the section's own, which what no line takes is cut from.
    pub fabrics: Vec<usize>,
    /// The fabrics of each section's strips, as in [`Section::pieced`]; empty for a section that is not pieced.
    pub pieced: Vec<Vec<usize>>,
    /// How often it is sewn for the pattern: places in the block × copies of the block.
    pub sewn: u32,
    /// The edition in which what is printed on it last changed; none where nobody said.
    pub last_changed: Option<String>,
    /// The rough cuts: by section, then by turn. A section has several where its print makes the cut depend on the turn.
    pub cuts: Vec<Cut>,
}

/// The rough cut of a section; of a plain piece its exact cut, without slack.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    /// Its section, by index in [`Unit::sections`].
    pub section: usize,
    /// Its strip, by index in [`Section::pieced`]; none where the section is one piece.
    pub strip: Option<usize>,
    /// How the unit is turned in the block where this cut is for it, from 0 to below 360 degrees; 0 where the print has no direction.
    pub turn: Angle,
    /// How many are needed for the pattern.
    pub count: u32,
    /// Along the seam, or the print's crosswise. Of half or a quarter of a square the side of the square.
    pub width: Length,
    /// Away from the seam, or the print's up and down. Of half or a quarter of a square the side of the square.
    pub height: Length,
    /// What it is cut as. A trapezoid's trim is told for its left and its right end, as it lies right side up with the edge along its seam below.
    pub shape: Shape,
    /// Its corners, laid in its ideal place, in the unit's frame: clockwise as seen from the front of the unit as drawn.
    /// From the first corner to the second runs its width, or what of it is left. Three of half or a quarter of a square, else four.
    pub corners: Vec<Point>,
    /// The direction of its height, in the unit's frame: the print's up, where it has one.
    pub up: Vector,
    /// Where the middle of its motif lies, in the unit's frame; none where it is cut from anywhere in the cloth.
    pub motif: Option<Point>,
    /// How far it reaches past the left and the right end of its line, looking at the printed side with the new section beyond the line. None for section 1,
    /// and for strips, which are equally long and sewn end on end.
    pub overhang: Option<[Length; 2]>,
    /// How far it may stray from its ideal place.
    pub slack: Slack,
    /// The angle of the lengthwise threads to the unit's x axis as drawn, from 0 to below 180 degrees, clockwise.
    pub grain: Angle,
    /// The edges of the section's polygon (by the corner at which they begin) that lie on the bias: more than 22.5° off both threads.
    pub bias_edges: Vec<usize>,
}

impl Cut {
    /// The direction of its width, from its first corner to the second, of length one; none for a cut without extent.
    #[must_use]
    pub fn way(&self) -> Option<Vector> {
        match self.corners.as_slice() {
            [first, second, ..] => (*second - *first).unit(),
            _ => None,
        }
    }
}

/// How far a piece may stray, each way alone with the rest at the ideal place, and still cover what it must.
///
/// Under the seam half an allowance counts as enough. All figures are for the piece where it lies after flipping.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slack {
    /// Along the seam, toward its left and its right end as in [`Cut::overhang`].
    pub along: [Length; 2],
    /// Across the seam: inward, over what is there already, and outward, away from it.
    pub across: [Length; 2],
    /// Turned about the middle of the seam (section 1: of the needed region), anticlockwise and clockwise as drawn.
    pub turn: [Angle; 2],
}

/// A unit where it stands in the block.
#[derive(Debug, Clone, PartialEq)]
pub struct Placement {
    /// `roof#1`, `roof#2`, …, by unit in the order of the source.
    pub id: String,
    /// How people call it: the author's name, or the unit's where it stands but once, or the unit's and a number: `petal 3`.
    pub name: String,
    /// Its foundation, by index in [`Block::variants`].
    pub variant: usize,
    /// From the unit's frame into the block's.
    pub transform: Transform,
    /// Its outline in the block's frame.
    pub outline: Polygon,
}

/// A seam between two finished units or groups.
#[derive(Debug, Clone, PartialEq)]
pub struct Join {
    /// How it is sewn; places in the block's frame.
    pub kind: JoinKind,
    /// The name of the join and of the group that it makes.
    pub name: Option<String>,
    /// What lies on its left, by index in [`Block::placements`], ascending. Of a ring: what this seam itself joins, not all that is sewn together by then.
    pub left: Vec<usize>,
    /// What lies on its right.
    pub right: Vec<usize>,
    /// Its line, in the block's frame. It runs upward (to the right where it is level), so that *left* is what one sees on the left (above where it is level).
    pub seam: Segment,
    /// Which way its allowances are pressed.
    pub press: Press,
    /// Whether the author said so.
    pub press_stated: bool,
    /// Where seams of both sides meet, in order along the seam.
    pub match_points: Vec<MatchPoint>,
    /// Points of the seam where two or more seams of one side end and none of the other.
    pub tips: Vec<Point>,
    /// The author's notes.
    pub notes: Vec<String>,
    /// The author's words in place of the written step.
    pub own_step: Option<String>,
}

/// A point of a join at which seams of both sides end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MatchPoint {
    /// Where, in the block's frame.
    pub at: Point,
    /// Whether the allowances of the two sides nest, and if not, why.
    pub nesting: Nesting,
    /// The layers of fabric that lie there when the join is sewn.
    pub layers: u32,
    /// Whether it is a four-way meeting whose allowances can be turned one way round.
    pub spins: bool,
}

impl MatchPoint {
    /// Whether the allowances point opposite ways along the join.
    #[must_use]
    pub fn nests(&self) -> bool {
        self.nesting == Nesting::Nests
    }
}

/// What is cut from one fabric.
#[derive(Debug, Clone, PartialEq)]
pub struct FabricCutting {
    /// The fabric, by index in [`Model::fabrics`].
    pub fabric: usize,
    /// The pieces, largest first; equal ones counted together.
    pub pieces: Vec<PieceGroup>,
    /// How it is bought.
    pub stock: Stock,
    /// The usable width and, of fat quarters and eighths, the usable length of what the strips are cut from.
    pub sheet: (Length, Option<Length>),
    /// The strips from which the pieces are cut, in order; those of one fat quarter or eighth stand together.
    pub strips: Vec<Strip>,
    /// The length of fabric that the strips take, all together.
    pub length: Length,
    /// A length below which no plan of strips can go.
    pub lower_bound: Length,
    /// No plan of strips takes fewer fat quarters or eighths; none off a bolt.
    pub fewest_sheets: Option<usize>,
    /// By how much the plan is longer than the shortest that is known, where one with few widths was preferred.
    pub price: Option<Length>,
    /// What to buy.
    pub buy: Purchase,
    /// What to buy instead in the other usable widths that the source names.
    pub other_widths: Vec<(Length, Purchase)>,
    /// What the sewer's own cloth gives; none where the sewer has none of it.
    pub own: Option<OwnCloth>,
}

impl FabricCutting {
    /// The strips that are cut from what is bought: all of them where the sewer has no cloth of her own.
    #[must_use]
    pub fn bought(&self) -> &[Strip] {
        self.own.as_ref().map_or(&self.strips, |own| &own.rest)
    }

    /// Whether no plan of strips takes less cloth.
    #[must_use]
    pub fn is_proved(&self) -> bool {
        let sheets = self.strips.iter().map(|strip| strip.sheet + 1).max().unwrap_or(0);
        match self.fewest_sheets {
            Some(fewest) => sheets <= fewest,
            None => (self.length - self.lower_bound).to_inches() < 1e-6,
        }
    }
}

/// What a sewer's own cloth gives.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnCloth {
    /// What there is, each with the widths of the strips that are cut from one of it.
    pub used: Vec<(OwnedPiece, Vec<Strip>)>,
    /// What there is to buy besides; none where the own cloth is enough.
    pub short: Option<Purchase>,
    /// The strips that are cut from what is bought.
    pub rest: Vec<Strip>,
}

/// How nearly pieces are cut to the size that they must have.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fit {
    /// With ease: they are trimmed when they are sewn.
    Rough,
    /// Exactly as wide as they must be, with ease at the ends: strips between two others.
    Strip,
    /// Exactly: plain pieces.
    Exact,
    /// With ease, each round a motif of the print, by a window template: they come from no strip.
    Motif,
}

/// Equal pieces of one fabric.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceGroup {
    /// How nearly they are cut; what differs in that stands apart.
    pub fit: Fit,
    /// What they are cut as.
    pub shape: Shape,
    /// The sections they are for, as the chart prints them: `A3, B2`.
    pub label: String,
    /// Their width; of halves and quarters the side of the square.
    pub width: Length,
    /// Their height; of halves and quarters the side of the square.
    pub height: Length,
    /// How many, for all people together.
    pub count: u32,
    /// The rectangles from which they are cut: one or two sizes, the ones that give more pieces in front; none for [`Fit::Motif`].
    pub blanks: Vec<Blank>,
    /// The sections they are for.
    pub uses: Vec<PieceUse>,
}

impl PieceGroup {
    /// How many pieces the blanks give beyond those that are needed.
    #[must_use]
    pub fn left_over(&self) -> u32 {
        let made = self.blanks.iter().map(|blank| blank.count.saturating_mul(blank.gives));
        made.fold(0, u32::saturating_add).saturating_sub(self.count)
    }
}

/// Equal rectangles from which pieces are cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blank {
    /// Its width.
    pub width: Length,
    /// Its height.
    pub height: Length,
    /// How many rectangles.
    pub count: u32,
    /// How many pieces each gives.
    pub gives: u32,
}

/// A section for which pieces are cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct PieceUse {
    /// The block, by index in [`Model::blocks`].
    pub block: usize,
    /// The foundation, by index in [`Block::variants`].
    pub variant: usize,
    /// The section, by index in [`Unit::sections`].
    pub section: usize,
}

/// A strip across the width of the fabric.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// The fat quarter or eighth that it is cut from, counted from 0; 0 for all that come off a bolt.
    pub sheet: usize,
    /// How wide it is cut (along the selvedge).
    pub width: Length,
    /// The blanks cut from it, from one end to the other.
    pub pieces: Vec<StripPiece>,
}

/// A blank in its strip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StripPiece {
    /// Which, by index in [`FabricCutting::pieces`].
    pub group: usize,
    /// From which of its blanks, by index in [`PieceGroup::blanks`].
    pub blank: usize,
    /// How far from the end of the strip.
    pub x: Length,
    /// How far from the edge of the strip.
    pub y: Length,
    /// Whether its height runs along the strip instead of its width.
    pub turned: bool,
}

/// How much fabric to buy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Purchase {
    /// How much.
    pub amount: Amount,
    /// Whether a fat quarter is enough.
    pub fat_quarter: bool,
    /// Whether a fat eighth is enough.
    pub fat_eighth: bool,
}

/// What to buy in another colouring.
#[derive(Debug, Clone, PartialEq)]
pub struct ColouredAmounts {
    /// The colouring, by index in [`Model::colourings`].
    pub colouring: usize,
    /// Its fabrics, by index in [`Model::fabrics`], each with the fabrics whose parts it takes, and what to buy of it.
    pub fabrics: Vec<(usize, Vec<usize>, Purchase)>,
}

/// An amount of fabric.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// A length off the bolt, rounded up to what shops cut.
    Length(Length),
    /// So many fat quarters.
    FatQuarters(u32),
    /// So many fat eighths.
    FatEighths(u32),
}

/// What is sewn of a join at one time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stretch {
    /// All of it.
    Whole,
    /// The first part of a partial seam.
    First,
    /// The rest of a partial seam.
    Rest,
}

/// A time at which a join is sewn, or a part of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pass {
    /// The join, by index in [`Block::joins`].
    pub join: usize,
    /// What is sewn of it.
    pub stretch: Stretch,
}

impl Variant {
    /// The fabric of a section, or of one of its strips.
    #[must_use]
    pub fn fabric_of(&self, section: usize, strip: Option<usize>) -> Option<usize> {
        match strip {
            Some(strip) => self.pieced.get(section)?.get(strip).copied(),
            None => self.fabrics.get(section).copied(),
        }
    }

    /// The fabrics of a section: one, or those of its strips in order.
    #[must_use]
    pub fn fabrics_of(&self, section: usize) -> &[usize] {
        match self.pieced.get(section) {
            Some(strips) if !strips.is_empty() => strips,
            _ => self.fabrics.get(section..=section).unwrap_or_default(),
        }
    }

    /// How many pieces of fabric it is sewn of.
    #[must_use]
    pub fn pieces(&self) -> usize {
        (0..self.fabrics.len()).map(|section| self.fabrics_of(section).len()).sum()
    }
}

impl Section {
    /// Its areas of one fabric each: itself, or its strips in order.
    pub fn areas(&self) -> impl Iterator<Item = &Polygon> {
        let own = self.pieced.is_empty().then_some(&self.polygon);
        own.into_iter().chain(self.pieced.iter().map(|strip| &strip.polygon))
    }
}

impl Unit {
    /// The areas of fabric of a foundation of this unit: section by section, each with its fabric.
    pub fn areas<'m>(&'m self, variant: &'m Variant) -> impl Iterator<Item = (usize, &'m Polygon)> {
        let sections = self.sections.iter().enumerate();
        sections.flat_map(|(k, section)| variant.fabrics_of(k).iter().copied().zip(section.areas()))
    }
}

impl Block {
    /// All sewing of joins, in order: each join once, a partial seam twice. O(joins²).
    #[must_use]
    pub fn passes(&self) -> Vec<Pass> {
        let mut passes = Vec::with_capacity(self.joins.len());
        for (at, join) in self.joins.iter().enumerate() {
            let partial = matches!(join.kind, JoinKind::Partial { .. });
            passes.push(Pass { join: at, stretch: if partial { Stretch::First } else { Stretch::Whole } });
            let finished = self.joins.iter().enumerate().filter(|(_, other)| match other.kind {
                JoinKind::Partial { after, .. } => after == at,
                _ => false,
            });
            passes.extend(finished.map(|(join, _)| Pass { join, stretch: Stretch::Rest }));
        }
        passes
    }

    /// The ring or inset corner that a join belongs to: all its joins and its parts, as in [`Tree::Round`]; none for joins of the tree itself.
    #[must_use]
    pub fn round_of(&self, join: usize) -> Option<(&[usize], &[Tree])> {
        fn search(tree: &Tree, join: usize) -> Option<(&[usize], &[Tree])> {
            match tree {
                Tree::Unit(_) => None,
                Tree::Join { left, right, .. } => search(left, join).or_else(|| search(right, join)),
                Tree::Round { joins, parts } if joins.contains(&join) => Some((joins, parts)),
                Tree::Round { parts, .. } => parts.iter().find_map(|part| search(part, join)),
            }
        }
        search(&self.tree, join)
    }

    /// The unit of a foundation.
    #[must_use]
    pub fn unit_of(&self, variant: &Variant) -> &Unit {
        &self.units[variant.unit]
    }

    /// Whether a foundation is printed at all: a plain piece has no paper.
    #[must_use]
    pub fn has_paper(&self, variant: &Variant) -> bool {
        self.unit_of(variant).kind == UnitKind::Paper
    }

    /// The foundation at a place.
    #[must_use]
    pub fn variant_at(&self, placement: usize) -> &Variant {
        &self.variants[self.placements[placement].variant]
    }
}
