//! What a cutting machine is given: one unit, or all pieces of a fabric, mat by mat.

use crate::backend::svg::{Colours, draw_mat};
use crate::fault::{self, Fault};
use crate::filling::Budget;
use crate::geometry::Length;
use crate::model::{FabricCutting, Model};
use crate::notation::source::Sources;
use crate::packet::mats::{self, Mat, MatSize, SideUp, TooLarge};
use crate::packet::words::Words;
use crate::pattern::{Effort, Shelf};

use super::{Options, compile, size_words};

/// What is asked for.
#[derive(Debug, Clone)]
pub struct Asked {
    /// What is cut.
    pub what: Stuff,
    /// Which side of it lies up.
    pub side: SideUp,
    /// Width and height of the area in which the machine cuts.
    pub mat: (Length, Length),
    /// The colours by which it tells what to do.
    pub colours: Colours,
}

/// What is cut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stuff {
    /// The foundation of the unit of this name, in each hand and set of fabrics, so many times.
    Unit(String, u32),
    /// All pieces of the fabric of this key.
    Fabric(String),
}

/// Mats for a machine.
#[derive(Debug)]
pub struct Machined {
    /// All texts that were read.
    pub sources: Sources,
    /// What is the matter, in order of place.
    pub faults: Vec<Fault>,
    /// A drawing of each mat, in SVG; nothing when there are errors.
    pub drawings: Option<Vec<String>>,
    /// How many pieces are cut, all mats together.
    pub pieces: usize,
}

/// Lays out what a cutting machine cuts of a source. `name` is what faults call it.
#[must_use]
pub fn machine(name: &str, text: &str, shelf: &dyn Shelf, options: &Options, asked: &Asked) -> Machined {
    let unit = match &asked.what {
        Stuff::Unit(unit, _) => Some(unit.clone()),
        Stuff::Fabric(_) => None,
    };
    let options = Options { unit, ..options.clone() };
    let mut checked = compile(name, text, shelf, &options, Effort::Quick);
    let is_sound = checked.ok();
    let mut made = Machined { sources: checked.sources, faults: Vec::new(), drawings: None, pieces: 0 };
    if let Some(model) = checked.model.take().filter(|_| is_sound) {
        match options.words(&model).and_then(|words| Ok((laid(&model, &options, asked)?, words))) {
            Ok((mats, words)) => {
                made.pieces = mats.iter().map(|mat| mat.pieces.len()).sum();
                made.drawings = Some(drawn(&model, asked, &mats, &words));
            }
            Err(fault) => checked.faults.push(*fault),
        }
    }
    made.faults = checked.faults;
    made
}

fn laid(model: &Model, options: &Options, asked: &Asked) -> Result<Vec<Mat>, Box<Fault>> {
    let effort = if options.thorough { Budget::THOROUGH } else { Budget::USUAL };
    let bed = MatSize { width: asked.mat.0, height: asked.mat.1, effort };
    let too_large = |what: &str, piece: &TooLarge| {
        let words =
            |(width, height): (Length, Length)| size_words((width.to_inches(), height.to_inches()), model.units);
        let sizes = (words((piece.width, piece.height)), words(asked.mat));
        Box::new(fault::packet::larger_than_mat(what, &piece.name, (&sizes.0, &sizes.1)))
    };
    match &asked.what {
        Stuff::Unit(_, copies) => {
            mats::foundations(model, &bed, *copies, asked.side).map_err(|piece| too_large("the foundation", &piece))
        }
        Stuff::Fabric(key) => {
            let of =
                |cutting: &FabricCutting| model.fabrics.get(cutting.fabric).is_some_and(|fabric| fabric.key == *key);
            let Some(index) = model.cutting.iter().position(of) else {
                let known: Vec<&str> = model.fabrics.iter().map(|fabric| fabric.key.as_str()).collect();
                return Err(Box::new(fault::names::no_such_fabric(key, &known)));
            };
            mats::pieces(model, index, &bed, asked.side).map_err(|piece| too_large("the piece for", &piece))
        }
    }
}

fn drawn(model: &Model, asked: &Asked, mats: &[Mat], words: &Words) -> Vec<String> {
    let what = match &asked.what {
        Stuff::Unit(unit, _) => unit,
        Stuff::Fabric(key) => key,
    };
    let title = |number: usize| {
        let facts = &model.facts;
        let of = format!("{} {} · {} · {what}", facts.title, facts.edition, model.size);
        if mats.len() > 1 { format!("{of} · {number}/{}", mats.len()) } else { of }
    };
    (1..).zip(mats).map(|(number, mat)| draw_mat(mat, &title(number), asked.colours, words)).collect()
}
