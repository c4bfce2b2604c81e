//! What is to be printed, in the shape of `model.json`.

use serde::Serialize;

use super::numbers::{Corners, corners, length, matrix};
use super::{FoundationPlace, PrintingFacts, SheetFacts};
use crate::model::Model;
use crate::packet::sheets;

#[derive(Serialize)]
pub(super) struct Printing<'m> {
    paper: &'static str,
    printed: u32,
    different: usize,
    at_least: u32,
    at_least_different: u32,
    length: Option<f64>,
    at_least_length: Option<f64>,
    kept: Option<usize>,
    spares: Vec<Spare<'m>>,
}

#[derive(Serialize)]
struct Spare<'m> {
    block: &'m str,
    variant: &'m str,
    part: Option<[u32; 2]>,
    count: u32,
}

#[derive(Serialize)]
pub(super) struct Sheet<'m> {
    id: &'m str,
    paper: Paper,
    times: u32,
    foundations: Vec<Foundation<'m>>,
}

#[derive(Serialize)]
struct Paper {
    name: &'static str,
    width: f64,
    height: f64,
    margin: f64,
}

#[derive(Serialize)]
struct Foundation<'m> {
    block: &'m str,
    variant: &'m str,
    part: Option<[u32; 2]>,
    matrix: [f64; 6],
    mirrored: bool,
    cutting_line: Corners,
}

pub(super) fn printing<'m>(model: &'m Model, printing: &PrintingFacts) -> Printing<'m> {
    let spare = |spare: &sheets::Spare| {
        let (block, variant) = names(model, spare.block, spare.variant);
        Spare { block, variant, part: spare.part.map(|(part, parts)| [part, parts]), count: spare.count }
    };
    Printing {
        paper: printing.paper.word(),
        printed: printing.printed,
        different: printing.different,
        at_least: printing.at_least,
        at_least_different: printing.at_least_different,
        length: printing.roll.map(|(told, _)| length(told)),
        at_least_length: printing.roll.map(|(_, least)| length(least)),
        kept: printing.kept,
        spares: printing.spares.iter().map(spare).collect(),
    }
}

pub(super) fn sheet<'m>(model: &'m Model, sheet: &'m SheetFacts) -> Sheet<'m> {
    let (width, height) = sheet.size;
    Sheet {
        id: &sheet.id,
        paper: Paper {
            name: sheet.paper.word(),
            width: length(width),
            height: length(height),
            margin: length(sheet.margin),
        },
        times: sheet.times,
        foundations: sheet.foundations.iter().map(|f| foundation(model, f)).collect(),
    }
}

fn foundation<'m>(model: &'m Model, place: &FoundationPlace) -> Foundation<'m> {
    let (block, variant) = names(model, place.block, place.variant);
    Foundation {
        block,
        variant,
        part: place.part.map(|(part, parts)| [part, parts]),
        matrix: matrix(place.matrix),
        mirrored: place.matrix.is_mirroring(),
        cutting_line: corners(&place.cutting_line),
    }
}

/// The name of a block and the id of one of its foundations.
fn names(model: &Model, block: usize, variant: usize) -> (&str, &str) {
    let block = model.blocks.get(block);
    let variant = block.and_then(|block| block.variants.get(variant));
    (block.map_or("", |block| &block.name), variant.map_or("", |variant| &variant.id))
}
