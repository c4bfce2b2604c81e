//! Where foundations lay on the sheets of a packet that was built before, and when they last changed, read from its `model.json`.

use std::collections::BTreeMap;

use serde::Deserialize;

use crate::filling::{FormerSheet, Place};
use crate::geometry::{Angle, Length, Point, Transform};
use crate::model::Model;
use crate::packet::foundation::Foundation;

use super::arrange::rounded;
use super::bed::Bed;

/// How far what is cut out may differ and still be the same, in inches: `model.json` tells six decimals.
const SAME: f64 = 1e-4;

/// The sheets of a packet that was built before.
#[derive(Debug, Clone, PartialEq)]
pub struct Former {
    sheets: Vec<FormerOn>,
    /// By block and foundation: the edition in which it last changed, where the packet tells one.
    last_changed: BTreeMap<String, BTreeMap<String, String>>,
}

#[derive(Debug, Clone, PartialEq)]
struct FormerOn {
    paper: PaperShape,
    times: u32,
    foundations: Vec<FormerFoundation>,
}

#[derive(Debug, Clone, PartialEq)]
struct FormerFoundation {
    block: String,
    variant: String,
    part: Option<(u32, u32)>,
    /// From the unit's frame to the sheet's.
    matrix: Transform,
    /// What is cut out, in the sheet's frame.
    cutting_line: Vec<Point>,
}

#[derive(Deserialize)]
struct Root {
    blocks: Vec<BlockShape>,
    sheets: Vec<SheetShape>,
}

#[derive(Deserialize)]
struct BlockShape {
    name: String,
    variants: Vec<VariantShape>,
}

#[derive(Deserialize)]
struct VariantShape {
    id: String,
    /// Older packets do not tell it.
    #[serde(default)]
    last_changed: Option<String>,
}

#[derive(Deserialize)]
struct SheetShape {
    paper: PaperShape,
    times: u32,
    foundations: Vec<FoundationShape>,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
struct PaperShape {
    name: String,
    width: f64,
    margin: f64,
}

#[derive(Deserialize)]
struct FoundationShape {
    block: String,
    variant: String,
    part: Option<[u32; 2]>,
    matrix: [f64; 6],
    cutting_line: Vec<[f64; 2]>,
}

impl Former {
    /// Reads the text of a `model.json`.
    ///
    /// # Errors
    /// What is wrong with it, in words.
    pub fn read(text: &str) -> Result<Self, String> {
        let root: Root = serde_json::from_str(text).map_err(|error| error.to_string())?;
        let foundation = |shape: FoundationShape| FormerFoundation {
            block: shape.block,
            variant: shape.variant,
            part: shape.part.map(|[number, of]| (number, of)),
            matrix: Transform::from_matrix(shape.matrix),
            cutting_line: shape.cutting_line.into_iter().map(|[x, y]| Point::new(x, y)).collect(),
        };
        let sheet = |shape: SheetShape| FormerOn {
            paper: shape.paper,
            times: shape.times,
            foundations: shape.foundations.into_iter().map(foundation).collect(),
        };
        let told = |variant: VariantShape| Some((variant.id, variant.last_changed?));
        let block = |block: BlockShape| (block.name, block.variants.into_iter().filter_map(told).collect());
        Ok(Self {
            sheets: root.sheets.into_iter().map(sheet).collect(),
            last_changed: root.blocks.into_iter().map(block).collect(),
        })
    }

    /// The edition in which a foundation, by its block's name and its id, last changed; nothing where there was none, or the packet does not tell.
    #[must_use]
    pub fn last_changed(&self, block: &str, variant: &str) -> Option<&str> {
        self.last_changed.get(block)?.get(variant).map(String::as_str)
    }

    /// Where on these sheets the foundations lay that are to be printed, as far as they are the same and on the same paper; shapes by index in the list. Sheets without any
    /// are left out.
    pub(super) fn sheets(&self, model: &Model, bed: Bed, foundations: &[&Foundation]) -> Vec<FormerSheet> {
        let on_this_paper = self.sheets.iter().filter(|sheet| {
            let same = |told: f64, length: Length| (told - length.to_inches()).abs() < SAME;
            sheet.paper.name == bed.paper.word()
                && same(sheet.paper.width, bed.paper.size().0)
                && same(sheet.paper.margin, bed.margin)
        });
        let sheets = on_this_paper.map(|sheet| {
            let place = |former: &FormerFoundation| {
                let (shape, now) = foundations.iter().enumerate().find(|(_, now)| former.is(model, now))?;
                former.place(bed, shape, now)
            };
            FormerSheet { places: sheet.foundations.iter().filter_map(place).collect(), times: sheet.times }
        });
        sheets.filter(|sheet| !sheet.places.is_empty()).collect()
    }
}

impl FormerFoundation {
    /// Whether it is this foundation, of the same size and shape.
    fn is(&self, model: &Model, now: &Foundation) -> bool {
        let Some(block) = model.blocks.get(now.block) else { return false };
        let Some(variant) = block.variants.get(now.variant) else { return false };
        if (block.name.as_str(), variant.id.as_str(), now.part) != (&self.block, &self.variant, self.part) {
            return false;
        }
        let (Some(back), Some(now_back)) = (self.matrix.inverse(), now.matrix.inverse()) else { return false };
        let (was, is): (Vec<Point>, Vec<Point>) = (
            self.cutting_line.iter().map(|&corner| back.apply(corner)).collect(),
            now.cutting_line.corners().iter().map(|&corner| now_back.apply(corner)).collect(),
        );
        let hold = |some: &[Point], all: &[Point]| some.iter().all(|a| all.iter().any(|b| a.distance(*b) < SAME));
        hold(&was, &is) && hold(&is, &was)
    }

    /// Where it lay in the room of the sheet; nothing where that is no place, as in a file that was tampered with.
    fn place(&self, bed: Bed, shape: usize, now: &Foundation) -> Option<Place> {
        let moved = now.matrix.inverse()?.then(self.matrix).then(Transform::shift(-bed.corner().to_vector()));
        let [a, b, c, d, ..] = moved.to_matrix();
        let is_turn = (a - d).abs() < SAME && (b + c).abs() < SAME && (a * a + b * b - 1.0).abs() < SAME;
        let shift = moved.apply(Point::default()).to_vector();
        let turn = Angle::radians(libm::atan2(b, a));
        // Six decimals of a turn in thousandths of a degree, and of a shift in hundred-thousandths of an inch, tell these exactly.
        let whole = (turn.to_degrees() * 1e3).round() / 1e3;
        let turn = if (turn.to_degrees() - whole).abs() < 2e-4 { Angle::degrees(whole).within_turn() } else { turn };
        (is_turn && shift.length().is_finite()).then_some(Place { shape, turn, shift: rounded(shift) })
    }
}
