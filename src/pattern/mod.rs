//! Syntax to the resolved pattern: names bound, points drawn, counts checked. After this room nothing looks up a name or fills in a default.
//!
//! A pattern is independent of size: its blocks are drawn in grid steps, so that every finished size decides alike. Places in the source travel along,
//! for the faults that later rooms find.

mod allow;
mod block;
mod bounds;
mod cloth;
mod colourings;
mod corners;
mod cuts;
mod cutting;
pub mod facts;
mod files;
mod grid;
mod own_cloth;
mod own_colours;
mod patches;
mod pieced;
mod places;
mod plain;
mod publisher;
mod scope;
mod section_cuts;
mod sections;
mod sheets;
mod statements;
mod steps;
mod tiling;
mod unit;
mod wishes;

pub use allow::{Allow, Part, Site, sift, unused_allows};
pub use bounds::MOST_PIECES;
pub use cloth::{Cloth, CuttingPlan, Effort, Owned, OwnedPiece, Stock, fat_eighth, fat_quarter, shop_step};
pub use colourings::Colouring;
pub use cuts::{CutRule, CutShape, CutWish, Lie};
pub use files::{ReadFault, Reading, Shelf, is_of_pattern, read_sources};
pub use own_cloth::add_owned;
pub use own_colours::exchange;
pub use sheets::{Apart, SheetPaper, SheetRules, overrule};
pub use statements::resolve;
pub use steps::{corner_source, corner_words, extent_words, number_words, steps_words};
pub use wishes::Wish;

use std::collections::BTreeMap;

use crate::geometry::{Angle, Length, Point, Polygon, Segment, Tolerance, Transform};
use crate::notation::source::Span;
use facts::{Fabric, Facts, Paper, Units};

/// A resolved pattern.
#[derive(Debug, Clone, PartialEq)]
pub struct Pattern {
    /// The publisher's lines.
    pub facts: Facts,
    /// Which units the pattern is written in.
    pub units: Units,
    /// The seam allowance.
    pub allowance: Length,
    /// The ease of rough cuts, where nothing else is said.
    pub ease: Length,
    /// How pieces are cut, where nothing else is said.
    pub cut: CutWish,
    /// The least that a piece may turn to either side without a warning; none for no such warning.
    pub least_turn: Option<Angle>,
    /// The cloth, where a fabric does not say otherwise.
    pub cloth: Cloth,
    /// The cloth that the sewer has already.
    pub owned: Vec<Owned>,
    /// For so many people the cloth is cut; at least one.
    pub people: u32,
    /// How far plans for cutting are searched.
    pub effort: Effort,
    /// The papers, the main one in front. At least one.
    pub papers: Vec<Paper>,
    /// What foundations are printed on, and how.
    pub sheets: SheetRules,
    /// The language of the packet, by its code of ISO 639; none where the source does not say.
    pub language: Option<String>,
    /// The sizes it is published in, the one it is drawn for in front. At least one.
    pub sizes: Vec<Size>,
    /// The fabrics, in the order of the source.
    pub fabrics: Vec<Fabric>,
    /// The colourings besides the one it is drawn in.
    pub colourings: Vec<Colouring>,
    /// The colouring that it is in, by index in [`Self::colourings`]; none as drawn.
    pub colouring: Option<usize>,
    /// What the planner weighs, the heaviest in front: every wish once.
    pub wishes: Vec<Wish>,
    /// The blocks. At least one.
    pub blocks: Vec<Block>,
    /// Which warnings the source silences, and where.
    pub allows: Vec<Allow>,
}

impl Pattern {
    /// How the piece of a section is cut from a fabric: what the section says, else its unit, else the fabric, else the pattern.
    #[must_use]
    pub fn cut_rule(&self, unit: &Unit, section: &Section, fabric: usize) -> CutRule {
        let of_fabric = self.fabrics.get(fabric).map(|fabric| fabric.cut).unwrap_or_default();
        let wish = section.cut.or(unit.cut).or(of_fabric).or(self.cut);
        CutRule {
            lie: wish.lie.unwrap_or(Lie::AlongSeam),
            shape: wish.shape.unwrap_or(CutShape::Rectangle),
            ease: wish.ease.unwrap_or(self.ease),
            motif: section.motif,
        }
    }
}

/// A size of the pattern.
#[derive(Debug, Clone, PartialEq)]
pub struct Size {
    /// As it is printed: `8 in`, `8 × 6 in`.
    pub label: String,
    /// By how much every block is larger than the size it is drawn for.
    pub factor: f64,
}

/// A block, in grid steps.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// Its name.
    pub name: String,
    /// Where its name stands.
    pub span: Span,
    /// How often the pattern sews it.
    pub copies: u32,
    /// One grid step at the size it is drawn for.
    pub step: Length,
    /// How its finished size is given.
    pub manner: Manner,
    /// Its outline. Its bounding box starts at the origin.
    pub outline: Polygon,
    /// How near is the same.
    pub tolerance: Tolerance,
    /// Its units that stand somewhere, in the order of the source.
    pub units: Vec<Unit>,
    /// Its patches that belong to no unit yet; with its places they tile it. The planner makes units of them, so that after it there are none.
    pub patches: Vec<Patch>,
    /// The names that its lines define, for those who write sources; none where it has no patches.
    pub names: Vec<(String, Named)>,
    /// Names for the units that the planner will make.
    pub unit_names: Vec<UnitName>,
    /// Where they stand: by unit, each unit's places in the order of the source.
    pub placements: Vec<Placement>,
    /// The joins that the source states.
    pub joins: Vec<StatedJoin>,
    /// Which of them are leaves outside the tree of straight cuts, by index.
    pub leaves: BTreeMap<usize, Leaf>,
    /// Notes on it.
    pub notes: Vec<String>,
}

/// How the finished size of a block is given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Manner {
    /// One number for a square.
    Square,
    /// Width and height.
    Rectangle,
    /// The side of a regular figure, which is so many steps long.
    Side(f64),
}

/// On what a unit is sewn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnitKind {
    /// On a paper of its own.
    Paper,
    /// On none: it is one piece, a rectangle cut to size.
    Plain,
}

/// A unit as drawn, in grid steps.
#[derive(Debug, Clone, PartialEq)]
pub struct Unit {
    /// On what it is sewn.
    pub kind: UnitKind,
    /// Its name.
    pub name: String,
    /// Where its name stands.
    pub span: Span,
    /// Its outline.
    pub outline: Polygon,
    /// Its sections; number k stands at index k - 1. They tile the outline.
    pub sections: Vec<Section>,
    /// Whether directional prints keep the unit's up instead of the block's.
    pub up_is_units: bool,
    /// How its pieces are cut, as far as it says so.
    pub cut: CutWish,
    /// Notes on it.
    pub notes: Vec<String>,
}

/// A section, in grid steps.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Its fabric, by index in [`Pattern::fabrics`].
    pub fabric: usize,
    /// Its area.
    pub polygon: Polygon,
    /// Where it is sewn together of strips before it goes on: all of them, at least two, from one side to the other. Else empty.
    pub pieced: Vec<PiecedStrip>,
    /// How its piece is cut, as far as it says so.
    pub cut: CutWish,
    /// Where the middle of its motif lies; none where it is cut from anywhere in the cloth.
    pub motif: Option<Point>,
    /// Where it is stated.
    pub span: Span,
    /// Notes on it.
    pub notes: Vec<String>,
    /// The author's words in place of its written step.
    pub own_step: Option<String>,
}

impl Section {
    /// Its fabrics as drawn: its own, or those of its strips in order.
    pub fn fabrics(&self) -> impl Iterator<Item = usize> + '_ {
        let own = self.pieced.is_empty().then_some(self.fabric);
        own.into_iter().chain(self.pieced.iter().map(|strip| strip.fabric))
    }
}

/// A strip of a pieced section, in grid steps. What no line takes keeps the section's own fabric.
#[derive(Debug, Clone, PartialEq)]
pub struct PiecedStrip {
    /// Its fabric, by index in [`Pattern::fabrics`].
    pub fabric: usize,
    /// Its area.
    pub polygon: Polygon,
    /// The line along which it is sewn to the next strip, which lies on the right; none for the last.
    pub seam: Option<Segment>,
    /// Where it is stated.
    pub span: Span,
}

impl Unit {
    /// How many pieces of fabric it is sewn of.
    #[must_use]
    pub fn pieces(&self) -> usize {
        self.sections.iter().map(|section| section.pieced.len().max(1)).sum()
    }
}

/// An area that is not numbered, in grid steps of the block.
#[derive(Debug, Clone, PartialEq)]
pub struct Patch {
    /// Its fabric, by index in [`Pattern::fabrics`].
    pub fabric: usize,
    /// Its area.
    pub polygon: Polygon,
    /// Where it is stated.
    pub span: Span,
}

/// What a name of a source stands for, in grid steps of the block.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Named {
    /// A point.
    Point(Point),
    /// A measure.
    Measure(f64),
}

/// A name for the unit that the planner makes of what lies at a point.
#[derive(Debug, Clone, PartialEq)]
pub struct UnitName {
    /// The name.
    pub name: String,
    /// The point, in grid steps of the block.
    pub point: Point,
    /// Where it is stated.
    pub span: Span,
}

/// A unit where it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Placement {
    /// How people call it.
    pub name: String,
    /// The unit, by index in [`Block::units`].
    pub unit: usize,
    /// From the drawing of the unit into the block, in steps.
    pub transform: Transform,
    /// Which fabrics become which, by index.
    pub recolour: Vec<(usize, usize)>,
    /// The unit's outline where it stands.
    pub outline: Polygon,
    /// Where it is stated.
    pub span: Span,
}

impl Placement {
    /// How a source calls it, which is how faults call it.
    #[must_use]
    pub fn called(&self) -> String {
        self.name.replacen(' ', "#", 1)
    }

    /// What a fabric of the unit becomes here.
    #[must_use]
    pub fn fabric(&self, drawn: usize) -> usize {
        self.recolour.iter().find(|(from, _)| *from == drawn).map_or(drawn, |&(_, to)| to)
    }
}

/// What a stated join is that no single straight seam makes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leaf {
    /// A ring round a centre, the first member: closed by a partial seam. At least three go round.
    Ring,
    /// Three groups that meet in a point: the first is set into the corner of the other two.
    Inset,
}

/// A join that the source states.
#[derive(Debug, Clone, PartialEq)]
pub struct StatedJoin {
    /// What is joined, in order: at least two, by index in [`Block::placements`], each with its place in the source.
    pub members: Vec<(usize, Span)>,
    /// The name of the join and its group.
    pub name: Option<String>,
    /// How the author wants it pressed.
    pub press: Option<StatedPress>,
    /// Where it is stated.
    pub span: Span,
    /// Notes on it.
    pub notes: Vec<String>,
    /// The author's words in place of its written step.
    pub own_step: Option<String>,
}

/// The author's word on pressing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StatedPress {
    /// Apart.
    Open,
    /// Under the side on which this placement lies.
    Toward(usize, Span),
}

/// The middle of the bounding box of an outline.
pub(crate) fn centre_of(outline: &Polygon) -> Point {
    let (from, to) = outline.bounds();
    from.middle(to)
}
