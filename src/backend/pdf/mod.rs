//! PDF, at exact size, with embedded subsets of the typeface and text that can be searched and copied.
//!
//! Contents of pages are written as bytes of our own (`content`, compressed in `streams`); `printpdf` makes the document and embeds the
//! typeface; what it has no words for is put into its object tree before that is written (`tree`, `navigation`, `photos`).

mod content;
mod fonts;
mod navigation;
mod numbering;
mod photos;
mod streams;
mod tree;

use lopdf::Object;

use self::tree::{bytes_of, hash, object_tree};
use super::number::Thousandths;
use super::without_controls;
use crate::packet::leaf::Leaf;
use crate::packet::page::Layer;

/// What the document says of itself.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct DocumentFacts {
    /// The title, shown in the viewer's title bar.
    pub title: String,
    /// Who publishes it.
    pub author: Option<String>,
    /// What it is, in a line.
    pub subject: Option<String>,
    /// By what it may be found.
    pub keywords: Vec<String>,
    /// The language of its words, `en`.
    pub language: String,
    /// What its layers are called.
    pub layers: LayerNames,
}

/// What a viewer calls the layers that can be switched off.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct LayerNames {
    /// Fills and hatching.
    pub fabric: String,
    /// Seam lines and outlines.
    pub seams: String,
    /// Cutting lines.
    pub cutting: String,
    /// Numbers, marks and ticks.
    pub marks: String,
}

impl LayerNames {
    fn of(&self, layer: Layer) -> Option<&str> {
        match layer {
            Layer::Page => None,
            Layer::Fabric => Some(&self.fabric),
            Layer::Seams => Some(&self.seams),
            Layer::Cutting => Some(&self.cutting),
            Layer::Marks => Some(&self.marks),
        }
    }
}

/// Why a document could not be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PdfFault {
    /// The typeface could not be read or made smaller.
    Typeface(String),
    /// A link leads to a place of this name, which is on no leaf.
    LostPlace(String),
    /// A photograph has not as many pixels as its size says.
    Photo {
        /// Its width in pixels.
        width: u32,
        /// Its height in pixels.
        height: u32,
    },
    /// The object tree could not be written.
    Writing(String),
}

impl std::fmt::Display for PdfFault {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Typeface(reason) => write!(formatter, "the typeface cannot be embedded: {reason}"),
            Self::LostPlace(name) => write!(formatter, "a link leads to the place “{name}”, which is not there"),
            Self::Photo { width, height } => {
                write!(formatter, "a photograph of {width} × {height} pixels is not whole")
            }
            Self::Writing(reason) => write!(formatter, "the PDF cannot be written: {reason}"),
        }
    }
}

impl std::error::Error for PdfFault {}

/// Writes the leaves, in order, with their bookmarks, labels and links.
///
/// The same leaves and facts give the same bytes: no date, no random identifier. O(n log n) in the number of objects.
///
/// # Errors
/// [`PdfFault::LostPlace`] if a link leads to a place that is on no leaf; [`PdfFault::Photo`] if a photograph is not whole;
/// [`PdfFault::Typeface`] if a subset of the typeface cannot be made; [`PdfFault::Writing`] if the object tree cannot be written.
pub fn draw(leaves: &[Leaf], facts: &DocumentFacts) -> Result<Vec<u8>, PdfFault> {
    bytes_of(&mut object_tree(leaves, facts)?)
}

/// Words in the encoding of PDF: as they are where they are ASCII, otherwise in UTF-16 with its mark.
fn words(words: &str) -> Object {
    lopdf::text_string(&without_controls(words))
}

/// A number of the object tree: rounded while it is still exact, so that the same drawing gives the same digits.
fn real(value: f64) -> Object {
    Object::Real(single(value))
}

#[expect(clippy::cast_possible_truncation, reason = "the numbers of the object tree are of single precision")]
fn single(value: f64) -> f32 {
    Thousandths::of(value).value() as f32
}

#[cfg(test)]
mod tests;
