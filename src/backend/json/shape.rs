//! The shape of `model.json`: one struct for each kind of object in the schema, filled from the model.

use std::collections::BTreeMap;

use serde::Serialize;

use super::cloth::{Cloth, Cutting, InColouring, cloth, cutting, in_colourings, shape, trim};
use super::numbers::{Corners, Place, angle, corners, length, matrix, number, place, segment};
use super::sheets::{Printing, Sheet, printing, sheet};
use super::{PrintingFacts, SheetFacts, fabric_key};
use crate::model;
use crate::model::{Block, Cause, JoinKind, Model, Nesting, Press, PrintDirection, UnitKind, Units};

/// The number of the shape; it rises when a reader of the old shape would misread the new one.
const SCHEMA: u32 = 1;

#[derive(Serialize)]
pub(super) struct Root<'m> {
    schema: u32,
    pattern: Pattern<'m>,
    size: &'m str,
    colouring: Option<&'m str>,
    units: &'static str,
    seam_allowance: f64,
    ease: f64,
    people: u32,
    cloth: Cloth,
    fabrics: Vec<Fabric<'m>>,
    blocks: Vec<BlockShape<'m>>,
    cutting: Vec<Cutting<'m>>,
    in_colourings: Vec<InColouring<'m>>,
    printing: Vec<Printing<'m>>,
    sheets: Vec<Sheet<'m>>,
}

#[derive(Serialize)]
struct Pattern<'m> {
    title: &'m str,
    edition: &'m str,
    author: Option<&'m str>,
    date: Option<&'m str>,
    licence: Option<&'m str>,
    notes: &'m [String],
}

#[derive(Serialize)]
struct Fabric<'m> {
    key: &'m str,
    mark: u32,
    name: &'m str,
    colour: String,
    directional: Option<&'static str>,
    across: bool,
}

#[derive(Serialize)]
struct BlockShape<'m> {
    name: &'m str,
    copies: u32,
    finished: &'m str,
    width: f64,
    height: f64,
    outline: Corners,
    units: Vec<Unit<'m>>,
    variants: Vec<Variant<'m>>,
    placements: Vec<Placement<'m>>,
    joins: Vec<Join<'m>>,
    tree: Tree<'m>,
    proved: Proved,
    plan: Vec<Weighed>,
    notes: &'m [String],
}

#[derive(Serialize)]
struct Unit<'m> {
    name: &'m str,
    mark: &'m str,
    kind: &'static str,
    outline: Corners,
    cutting_line: Corners,
    sections: Vec<Section<'m>>,
    notes: &'m [String],
}

#[derive(Serialize)]
struct Section<'m> {
    number: usize,
    fabric: &'m str,
    polygon: Corners,
    seam: Option<[Place; 2]>,
    needed: Corners,
    pieced: Vec<PiecedStrip<'m>>,
    notes: &'m [String],
    own_step: Option<&'m str>,
}

/// A strip of a pieced section.
#[derive(Serialize)]
struct PiecedStrip<'m> {
    fabric: &'m str,
    polygon: Corners,
    needed: Corners,
    line: Option<[Place; 2]>,
    press: Option<&'static str>,
}

#[derive(Serialize)]
struct Variant<'m> {
    id: &'m str,
    mark: &'m str,
    unit: &'m str,
    mirrored: bool,
    fabrics: BTreeMap<SectionNumber, &'m str>,
    pieced: BTreeMap<SectionNumber, Vec<&'m str>>,
    sewn: u32,
    last_changed: Option<&'m str>,
    cuts: Vec<Cut>,
}

/// Sorted as a number, written as a key.
#[derive(PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(transparent)]
struct SectionNumber(usize);

#[derive(Serialize)]
struct Cut {
    section: usize,
    strip: Option<usize>,
    turn: f64,
    count: u32,
    shape: &'static str,
    width: f64,
    height: f64,
    trim: Option<[f64; 2]>,
    corners: Corners,
    up: Place,
    motif: Option<Place>,
    overhang: Option<[f64; 2]>,
    slack: Slack,
    grain_degrees: f64,
    bias_edges: Vec<usize>,
}

#[derive(Serialize)]
struct Slack {
    along: [f64; 2],
    across: [f64; 2],
    turn: [f64; 2],
}

#[derive(Serialize)]
struct Placement<'m> {
    id: &'m str,
    name: &'m str,
    variant: &'m str,
    matrix: [f64; 6],
    mirrored: bool,
}

#[derive(Serialize)]
struct Join<'m> {
    name: Option<&'m str>,
    order: usize,
    kind: &'static str,
    /// Of a partial seam the point at which its first part stops, of an inset one the point where three meet.
    until: Option<Place>,
    finished_after: Option<usize>,
    left: Vec<&'m str>,
    right: Vec<&'m str>,
    seam: [Place; 2],
    press: &'static str,
    press_stated: bool,
    match_points: Vec<MatchPoint>,
    tips: Vec<Place>,
    notes: &'m [String],
    own_step: Option<&'m str>,
}

#[derive(Serialize)]
struct MatchPoint {
    at: Place,
    nests: bool,
    nesting: &'static str,
    cause: Option<&'static str>,
    layers: u32,
    spins: bool,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Tree<'m> {
    Unit { unit: &'m str },
    Join { join: usize, left: Box<Tree<'m>>, right: Box<Tree<'m>> },
    Round { joins: Vec<usize>, parts: Vec<Tree<'m>> },
}

/// What is proved of a block, and what is only chosen.
#[derive(Serialize)]
#[expect(clippy::struct_excessive_bools, reason = "the schema has them apart")]
struct Proved {
    /// The compiler makes no model of a block that cannot be sewn.
    sewable: bool,
    papers: bool,
    match_points: bool,
    /// None of the pressings that keep to what is stated and away from tips is better.
    pressing: bool,
}

/// What a plan costs by a wish, and at the least could.
#[derive(Serialize)]
struct Weighed {
    wish: &'static str,
    cost: u32,
    at_least: u32,
}

/// The model in the shape of the schema.
pub(super) fn model<'m>(model: &'m Model, printed: &'m [PrintingFacts], sheets: &'m [SheetFacts]) -> Root<'m> {
    let facts = &model.facts;
    Root {
        schema: SCHEMA,
        pattern: Pattern {
            title: &facts.title,
            edition: &facts.edition,
            author: facts.author.as_deref(),
            date: facts.date.as_deref(),
            licence: facts.licence.as_deref(),
            notes: &facts.notes,
        },
        size: &model.size,
        colouring: model.colouring.as_deref(),
        units: match model.units {
            Units::Inches => "inches",
            Units::Metric => "metric",
        },
        seam_allowance: length(model.allowance),
        ease: length(model.ease),
        people: model.people,
        cloth: cloth(model),
        fabrics: model.fabrics.iter().map(fabric).collect(),
        blocks: model.blocks.iter().map(|b| block(model, b)).collect(),
        cutting: model.cutting.iter().map(|c| cutting(model, c)).collect(),
        in_colourings: in_colourings(model),
        printing: printed.iter().map(|p| printing(model, p)).collect(),
        sheets: sheets.iter().map(|s| sheet(model, s)).collect(),
    }
}

fn fabric(fabric: &model::Fabric) -> Fabric<'_> {
    let [red, green, blue] = fabric.colour;
    Fabric {
        key: &fabric.key,
        mark: fabric.mark,
        name: &fabric.name,
        colour: format!("#{red:02x}{green:02x}{blue:02x}"),
        directional: match fabric.print.direction {
            PrintDirection::None => None,
            PrintDirection::TwoWay => Some("two-way"),
            PrintDirection::OneWay => Some("one-way"),
        },
        across: fabric.print.across,
    }
}

fn block<'m>(model: &'m Model, block: &'m Block) -> BlockShape<'m> {
    BlockShape {
        name: &block.name,
        copies: block.copies,
        finished: &block.finished,
        width: length(block.width),
        height: length(block.height),
        outline: corners(&block.outline),
        units: block.units.iter().map(|u| unit(model, u)).collect(),
        variants: block.variants.iter().map(|v| variant(model, block, v)).collect(),
        placements: block.placements.iter().map(|p| placement(block, p)).collect(),
        joins: block.joins.iter().enumerate().map(|(at, j)| join(block, at, j)).collect(),
        tree: tree(block, &block.tree),
        proved: Proved {
            sewable: true,
            papers: block.division.papers_proved,
            match_points: block.division.match_points_proved,
            pressing: block.pressing_proved,
        },
        plan: block
            .division
            .weighed
            .iter()
            .map(|weighed| Weighed { wish: weighed.wish.word(), cost: weighed.cost, at_least: weighed.least })
            .collect(),
        notes: &block.notes,
    }
}

fn unit<'m>(model: &'m Model, unit: &'m model::Unit) -> Unit<'m> {
    Unit {
        name: &unit.name,
        mark: &unit.mark,
        kind: match unit.kind {
            UnitKind::Paper => "paper",
            UnitKind::Plain => "plain",
        },
        outline: corners(&unit.outline),
        cutting_line: corners(&unit.cutting_line),
        sections: unit
            .sections
            .iter()
            .enumerate()
            .map(|(at, section)| Section {
                number: at + 1,
                fabric: fabric_key(model, section.fabric),
                polygon: corners(&section.polygon),
                seam: section.seam.map(segment),
                needed: corners(&section.needed),
                pieced: section.pieced.iter().map(|strip| pieced_strip(model, strip)).collect(),
                notes: &section.notes,
                own_step: section.own_step.as_deref(),
            })
            .collect(),
        notes: &unit.notes,
    }
}

fn pieced_strip<'m>(model: &'m Model, strip: &model::PiecedStrip) -> PiecedStrip<'m> {
    PiecedStrip {
        fabric: fabric_key(model, strip.fabric),
        polygon: corners(&strip.polygon),
        needed: corners(&strip.needed),
        line: strip.seam.map(segment),
        press: strip.seam.map(|_| if strip.pressed_to_next { "next" } else { "this" }),
    }
}

fn variant<'m>(model: &'m Model, block: &'m Block, variant: &'m model::Variant) -> Variant<'m> {
    let fabrics = variant.fabrics.iter().enumerate();
    let pieced = variant.pieced.iter().enumerate().filter(|(_, strips)| !strips.is_empty());
    let strips = |strips: &[usize]| strips.iter().map(|&fabric| fabric_key(model, fabric)).collect();
    Variant {
        id: &variant.id,
        mark: &variant.mark,
        unit: block.units.get(variant.unit).map_or("", |unit| &unit.name),
        mirrored: variant.mirrored,
        fabrics: fabrics.map(|(at, &fabric)| (SectionNumber(at + 1), fabric_key(model, fabric))).collect(),
        pieced: pieced.map(|(at, of)| (SectionNumber(at + 1), strips(of))).collect(),
        sewn: variant.sewn,
        last_changed: variant.last_changed.as_deref(),
        cuts: variant.cuts.iter().map(cut).collect(),
    }
}

fn cut(cut: &model::Cut) -> Cut {
    Cut {
        section: cut.section + 1,
        strip: cut.strip.map(|strip| strip + 1),
        turn: angle(cut.turn),
        count: cut.count,
        shape: shape(cut.shape),
        width: length(cut.width),
        height: length(cut.height),
        trim: trim(cut.shape),
        corners: cut.corners.iter().copied().map(place).collect(),
        up: [number(cut.up.x), number(cut.up.y)],
        motif: cut.motif.map(place),
        overhang: cut.overhang.map(|ends| ends.map(length)),
        slack: Slack {
            along: cut.slack.along.map(length),
            across: cut.slack.across.map(length),
            turn: cut.slack.turn.map(angle),
        },
        grain_degrees: angle(cut.grain),
        bias_edges: cut.bias_edges.clone(),
    }
}

fn placement<'m>(block: &'m Block, placement: &'m model::Placement) -> Placement<'m> {
    Placement {
        id: &placement.id,
        name: &placement.name,
        variant: block.variants.get(placement.variant).map_or("", |variant| &variant.id),
        matrix: matrix(placement.transform),
        mirrored: placement.transform.is_mirroring(),
    }
}

fn join<'m>(block: &'m Block, at: usize, join: &'m model::Join) -> Join<'m> {
    let ids = |side: &[usize]| side.iter().map(|&placement| placement_id(block, placement)).collect();
    let (kind, until, finished_after) = match join.kind {
        JoinKind::Straight => ("straight", None, None),
        JoinKind::Partial { first, after, .. } => ("partial", Some(first.end), Some(after + 1)),
        JoinKind::Inset { point } => ("inset", Some(point), None),
    };
    Join {
        name: join.name.as_deref(),
        order: at + 1,
        kind,
        until: until.map(place),
        finished_after,
        left: ids(&join.left),
        right: ids(&join.right),
        seam: segment(join.seam),
        press: match join.press {
            Press::Left => "left",
            Press::Right => "right",
            Press::Open => "open",
        },
        press_stated: join.press_stated,
        match_points: join.match_points.iter().map(match_point).collect(),
        tips: join.tips.iter().copied().map(place).collect(),
        notes: &join.notes,
        own_step: join.own_step.as_deref(),
    }
}

fn match_point(point: &model::MatchPoint) -> MatchPoint {
    let (nesting, cause) = match point.nesting {
        Nesting::Nests => ("nests", None),
        Nesting::SameWay(Cause::Units) => ("same-way", Some("units")),
        Nesting::SameWay(Cause::Stated) => ("same-way", Some("stated")),
        Nesting::SameWay(Cause::Tips) => ("same-way", Some("tips")),
        Nesting::SameWay(Cause::GivenUp) => ("same-way", Some("given-up")),
        Nesting::Mixed => ("mixed", None),
        Nesting::Open => ("open", None),
    };
    let (at, nests) = (place(point.at), point.nests());
    MatchPoint { at, nests, nesting, cause, layers: point.layers, spins: point.spins }
}

fn tree<'m>(block: &'m Block, node: &model::Tree) -> Tree<'m> {
    match node {
        model::Tree::Unit(placement) => Tree::Unit { unit: placement_id(block, *placement) },
        model::Tree::Join { join, left, right } => {
            Tree::Join { join: join + 1, left: Box::new(tree(block, left)), right: Box::new(tree(block, right)) }
        }
        model::Tree::Round { joins, parts } => Tree::Round {
            joins: joins.iter().map(|join| join + 1).collect(),
            parts: parts.iter().map(|part| tree(block, part)).collect(),
        },
    }
}

fn placement_id(block: &Block, placement: usize) -> &str {
    block.placements.get(placement).map_or("", |placement| &placement.id)
}
