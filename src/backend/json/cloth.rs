//! What is cut from cloth, in the shape of `model.json`.

use serde::Serialize;

use super::fabric_key;
use super::numbers::{length, number};
use crate::geometry::Length;
use crate::model;
use crate::model::{Amount, CuttingPlan, FabricCutting, Fit, Model, OwnedPiece, PieceGroup, Purchase, Stock, Units};

/// The cloth, where a fabric does not say otherwise.
#[derive(Serialize)]
pub(super) struct Cloth {
    stock: &'static str,
    widths: Vec<f64>,
    squaring: f64,
    shrinkage: f64,
    plan: &'static str,
}

#[derive(Serialize)]
pub(super) struct Cutting<'m> {
    fabric: &'m str,
    pieces: Vec<Piece<'m>>,
    stock: &'static str,
    sheet: ClothSheet,
    strips: Vec<Strip<'m>>,
    length: f64,
    buy: Buy,
    other_widths: Vec<OtherWidth>,
    own: Option<Own<'m>>,
    lower_bound: f64,
    fewest_sheets: Option<usize>,
    proved: bool,
    price: Option<f64>,
}

/// What strips are cut from: across the bolt, and along the selvedge where that is limited.
#[derive(Serialize)]
pub(super) struct ClothSheet {
    width: f64,
    length: Option<f64>,
}

#[derive(Serialize)]
pub(super) struct OtherWidth {
    width: f64,
    buy: Buy,
}

/// What the sewer's own cloth gives.
#[derive(Serialize)]
pub(super) struct Own<'m> {
    used: Vec<OwnPiece<'m>>,
    short: Option<Buy>,
    rest: Vec<Strip<'m>>,
}

#[derive(Serialize)]
pub(super) struct OwnPiece<'m> {
    kind: &'static str,
    width: Option<f64>,
    length: Option<f64>,
    strips: Vec<Strip<'m>>,
}

#[derive(Serialize)]
pub(super) struct Piece<'m> {
    label: &'m str,
    width: f64,
    height: f64,
    fit: &'static str,
    shape: &'static str,
    trim: Option<[f64; 2]>,
    count: u32,
    squares: Option<u32>,
    blanks: Vec<BlankShape>,
    left_over: u32,
    #[serde(rename = "for")]
    uses: Vec<String>,
}

/// Equal rectangles from which pieces are cut.
#[derive(Serialize)]
pub(super) struct BlankShape {
    width: f64,
    height: f64,
    count: u32,
    gives: u32,
}

#[derive(Serialize)]
pub(super) struct Strip<'m> {
    sheet: usize,
    width: f64,
    pieces: Vec<StripPiece<'m>>,
}

#[derive(Serialize)]
pub(super) struct StripPiece<'m> {
    label: &'m str,
    group: usize,
    blank: usize,
    x: f64,
    y: f64,
    turned: bool,
}

#[derive(Serialize)]
pub(super) struct Buy {
    amount: f64,
    unit: &'static str,
    fat_quarter: bool,
    fat_eighth: bool,
}

/// What to buy in another colouring.
#[derive(Serialize)]
pub(super) struct InColouring<'m> {
    colouring: &'m str,
    fabrics: Vec<ColouredFabric<'m>>,
}

/// A fabric of another colouring, and in place of which it is sewn.
#[derive(Serialize)]
pub(super) struct ColouredFabric<'m> {
    fabric: &'m str,
    in_place_of: Vec<&'m str>,
    buy: Buy,
}

/// The cloth of a model.
pub(super) fn cloth(model: &Model) -> Cloth {
    Cloth {
        stock: stock(&model.cloth.stock),
        widths: widths(&model.cloth.stock),
        squaring: length(model.cloth.squaring),
        shrinkage: number(model.cloth.shrinkage),
        plan: match model.cloth.plan {
            CuttingPlan::LeastCloth => "least-cloth",
            CuttingPlan::FewWidths => "few-widths",
        },
    }
}

/// What to buy in the other colourings.
pub(super) fn in_colourings(model: &Model) -> Vec<InColouring<'_>> {
    let fabric = |(fabric, parts, amount): &(usize, Vec<usize>, Purchase)| ColouredFabric {
        fabric: fabric_key(model, *fabric),
        in_place_of: parts.iter().map(|&part| fabric_key(model, part)).collect(),
        buy: buy(model, *amount),
    };
    let one = |amounts: &model::ColouredAmounts| InColouring {
        colouring: model.colourings.get(amounts.colouring).map_or("", |colouring| &colouring.title),
        fabrics: amounts.fabrics.iter().map(fabric).collect(),
    };
    model.in_colourings.iter().map(one).collect()
}

/// The word for a shape.
pub(super) const fn shape(shape: model::Shape) -> &'static str {
    match shape {
        model::Shape::Rectangle => "rectangle",
        model::Shape::HalfSquare => "half-square",
        model::Shape::QuarterSquare => "quarter-square",
        model::Shape::Trapezoid { .. } => "trapezoid",
    }
}

/// What is trimmed off the left and the right end of a trapezoid.
pub(super) fn trim(shape: model::Shape) -> Option<[f64; 2]> {
    match shape {
        model::Shape::Trapezoid { trim } => Some(trim.map(length)),
        _ => None,
    }
}

pub(super) fn cutting<'m>(model: &'m Model, cutting: &'m FabricCutting) -> Cutting<'m> {
    let (width, sheet_length) = cutting.sheet;
    Cutting {
        fabric: fabric_key(model, cutting.fabric),
        pieces: cutting.pieces.iter().map(|piece| piece_group(model, piece)).collect(),
        stock: stock(&cutting.stock),
        sheet: ClothSheet { width: length(width), length: sheet_length.map(length) },
        strips: cutting.strips.iter().map(|s| strip(cutting, s)).collect(),
        length: length(cutting.length),
        buy: buy(model, cutting.buy),
        other_widths: cutting
            .other_widths
            .iter()
            .map(|&(width, other)| OtherWidth { width: length(width), buy: buy(model, other) })
            .collect(),
        own: cutting.own.as_ref().map(|own| Own {
            used: own.used.iter().map(|(piece, strips)| own_piece(cutting, *piece, strips)).collect(),
            short: own.short.map(|short| buy(model, short)),
            rest: own.rest.iter().map(|s| strip(cutting, s)).collect(),
        }),
        lower_bound: length(cutting.lower_bound),
        fewest_sheets: cutting.fewest_sheets,
        proved: cutting.is_proved(),
        price: cutting.price.map(length),
    }
}

pub(super) fn buy(model: &Model, buy: Purchase) -> Buy {
    // Shops sell by the yard or by the metre; a model speaks in one of them.
    let (amount, unit) = match (buy.amount, model.units) {
        (Amount::Length(length), Units::Inches) => (number(length / Length::inches(36.0)), "yd"),
        (Amount::Length(length), Units::Metric) => (number(length / Length::millimetres(10.0)), "cm"),
        (Amount::FatQuarters(count), _) => (f64::from(count), "fat-quarter"),
        (Amount::FatEighths(count), _) => (f64::from(count), "fat-eighth"),
    };
    Buy { amount, unit, fat_quarter: buy.fat_quarter, fat_eighth: buy.fat_eighth }
}

const fn stock(stock: &Stock) -> &'static str {
    match stock {
        Stock::Bolt(_) => "bolt",
        Stock::FatQuarters => "fat-quarters",
        Stock::FatEighths => "fat-eighths",
    }
}

fn widths(stock: &Stock) -> Vec<f64> {
    match stock {
        Stock::Bolt(widths) => widths.iter().copied().map(length).collect(),
        Stock::FatQuarters | Stock::FatEighths => Vec::new(),
    }
}

fn own_piece<'m>(cutting: &'m FabricCutting, piece: OwnedPiece, strips: &[model::Strip]) -> OwnPiece<'m> {
    let (kind, width, along) = match piece {
        OwnedPiece::Length(along) => ("length", None, Some(length(along))),
        OwnedPiece::FatQuarter => ("fat-quarter", None, None),
        OwnedPiece::FatEighth => ("fat-eighth", None, None),
        OwnedPiece::Scrap(across, along) => ("scrap", Some(length(across)), Some(length(along))),
    };
    OwnPiece { kind, width, length: along, strips: strips.iter().map(|s| strip(cutting, s)).collect() }
}

fn strip<'m>(cutting: &'m FabricCutting, strip: &model::Strip) -> Strip<'m> {
    let label = |group: usize| cutting.pieces.get(group).map_or("", |piece| piece.label.as_str());
    let piece = |p: &model::StripPiece| StripPiece {
        label: label(p.group),
        group: p.group + 1,
        blank: p.blank + 1,
        x: length(p.x),
        y: length(p.y),
        turned: p.turned,
    };
    Strip { sheet: strip.sheet + 1, width: length(strip.width), pieces: strip.pieces.iter().map(piece).collect() }
}

fn piece_group<'m>(model: &'m Model, piece: &'m PieceGroup) -> Piece<'m> {
    let uses = piece.uses.iter().filter_map(|used| {
        let block = model.blocks.get(used.block)?;
        let variant = block.variants.get(used.variant)?;
        Some(format!("{}/{} {}", block.name, variant.id, used.section + 1))
    });
    Piece {
        label: &piece.label,
        width: length(piece.width),
        height: length(piece.height),
        fit: match piece.fit {
            Fit::Rough => "rough",
            Fit::Strip => "strip",
            Fit::Exact => "exact",
            Fit::Motif => "motif",
        },
        shape: shape(piece.shape),
        trim: trim(piece.shape),
        count: piece.count,
        squares: match piece.shape {
            model::Shape::HalfSquare | model::Shape::QuarterSquare => {
                Some(piece.blanks.iter().map(|blank| blank.count).fold(0, u32::saturating_add))
            }
            model::Shape::Rectangle | model::Shape::Trapezoid { .. } => None,
        },
        blanks: piece
            .blanks
            .iter()
            .map(|blank| BlankShape {
                width: length(blank.width),
                height: length(blank.height),
                count: blank.count,
                gives: blank.gives,
            })
            .collect(),
        left_over: piece.left_over(),
        uses: uses.collect(),
    }
}
