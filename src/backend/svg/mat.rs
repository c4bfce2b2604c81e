//! A mat of a cutting machine as SVG: one user unit is one millimetre, each operation is a layer, and nothing is transformed, clipped or filled.

use svg::node::Node as _;
use svg::node::element::Element;

use super::{element, number, worded};
use crate::geometry::{Length, Point, Segment, Vector};
use crate::packet::mats::{CHECK, Mat};
use crate::packet::page::Colour;
use crate::packet::words::Words;

/// How wide lines are, in millimetres: a hair's breadth, which machines take for a path to follow.
const HAIR: f64 = 0.07;

/// What a machine does with a layer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Operation {
    /// Cut through.
    Cut,
    /// Draw or score.
    Draw,
    /// Numbers, to be drawn or left out.
    Numbers,
    /// A square to be measured in the program that drives the machine, and left out.
    Check,
}

impl Operation {
    /// All operations, in the order of their layers, the lowest in front.
    pub const ALL: [Self; 4] = [Self::Check, Self::Numbers, Self::Draw, Self::Cut];

    /// The id of its layer.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Draw => "draw",
            Self::Numbers => "numbers",
            Self::Check => "check",
        }
    }

    fn label(self, words: &Words) -> String {
        match self {
            Self::Cut => words.layer_cutting(),
            Self::Draw => words.layer_seams(),
            Self::Numbers => words.layer_marks(),
            Self::Check => words.layer_check(),
        }
    }
}

/// The colour of each operation, by which machines tell them apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Colours {
    /// What cuts.
    pub cut: Colour,
    /// What draws or scores.
    pub draw: Colour,
    /// Numbers.
    pub numbers: Colour,
    /// The square to measure.
    pub check: Colour,
}

impl Default for Colours {
    /// Pure colours: red cuts, blue draws, numbers are black, green is only measured.
    fn default() -> Self {
        Self { cut: Colour([255, 0, 0]), draw: Colour([0, 0, 255]), numbers: Colour::BLACK, check: Colour([0, 255, 0]) }
    }
}

impl Colours {
    /// The colour of an operation.
    #[must_use]
    pub const fn of(self, operation: Operation) -> Colour {
        match operation {
            Operation::Cut => self.cut,
            Operation::Draw => self.draw,
            Operation::Numbers => self.numbers,
            Operation::Check => self.check,
        }
    }
}

/// By this attribute of its root a drawing is known as one of a mat.
pub const MADE_BY: (&str, &str) = ("data-made-by", "piecewright machine");

/// Draws a mat. A layer without anything on it is left out. O(n).
#[must_use]
pub fn draw_mat(mat: &Mat, title: &str, colours: Colours, words: &Words) -> String {
    let [width, height] = [mat.width, mat.height].map(|length| number(length.to_millimetres()));
    let mut root = element(
        "svg",
        &[
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("xmlns:inkscape", "http://www.inkscape.org/namespaces/inkscape"),
            ("width", &format!("{width}mm")),
            ("height", &format!("{height}mm")),
            ("viewBox", &format!("0 0 {width} {height}")),
            MADE_BY,
        ],
    );
    root.append(worded("title", title));
    for operation in Operation::ALL {
        let drawn = drawn(mat, operation, colours);
        if !drawn.is_empty() {
            let mut layer = layer(operation, &operation.label(words), colours.of(operation));
            for thing in drawn {
                layer.append(thing);
            }
            root.append(layer);
        }
    }
    format!("{root}\n")
}

/// An empty layer, named in all the ways that programs read.
fn layer(operation: Operation, label: &str, colour: Colour) -> Element {
    let mut layer = element(
        "g",
        &[
            ("id", operation.id()),
            ("inkscape:groupmode", "layer"),
            ("inkscape:label", label),
            ("data-name", label),
            ("fill", "none"),
            ("stroke", &hexadecimal(colour)),
            ("stroke-width", &number(HAIR)),
        ],
    );
    layer.append(worded("title", label));
    layer
}

fn drawn(mat: &Mat, operation: Operation, colours: Colours) -> Vec<Element> {
    let pieces = || mat.pieces.iter();
    match operation {
        Operation::Cut => pieces().map(|piece| closed(piece.cut.corners())).collect(),
        Operation::Draw => {
            let areas = pieces().flat_map(|piece| &piece.areas).map(|area| closed(area.corners()));
            areas.chain(pieces().flat_map(|piece| &piece.lines).map(|&line| open(line))).collect()
        }
        Operation::Numbers => {
            let colour = hexadecimal(colours.of(operation));
            let name = |at: Point, words: &str, size: Length| {
                let mut text = worded("text", words);
                for (attribute, value) in [
                    ("x", millimetres(at.x).as_str()),
                    ("y", &millimetres(at.y)),
                    ("font-family", "sans-serif"),
                    ("font-size", &number(size.to_millimetres())),
                    ("text-anchor", "middle"),
                    ("fill", &colour),
                    ("stroke", "none"),
                ] {
                    text.assign(attribute, value);
                }
                text
            };
            pieces().flat_map(|piece| &piece.names).map(|of| name(of.at, &of.words, of.size)).collect()
        }
        Operation::Check => {
            let square = |at: Point| {
                let corner = |x: f64, y: f64| at + Vector::new(x, y) * CHECK;
                closed(&[corner(0.0, 0.0), corner(1.0, 0.0), corner(1.0, 1.0), corner(0.0, 1.0)])
            };
            mat.check.map(square).into_iter().collect()
        }
    }
}

/// A path round corners.
fn closed(corners: &[Point]) -> Element {
    let corners: Vec<String> = corners.iter().map(|&corner| place(corner)).collect();
    element("path", &[("d", &format!("M{}Z", corners.join("L")))])
}

fn open(line: Segment) -> Element {
    element("path", &[("d", &format!("M{}L{}", place(line.start), place(line.end)))])
}

fn place(point: Point) -> String {
    format!("{},{}", millimetres(point.x), millimetres(point.y))
}

fn millimetres(inches: f64) -> String {
    number(Length::inches(inches).to_millimetres())
}

fn hexadecimal(Colour([red, green, blue]): Colour) -> String {
    format!("#{red:02x}{green:02x}{blue:02x}")
}
