//! The compiled model as JSON: a promise to independent tools, described by `docs/model.schema.json`.
//!
//! Lengths are inches at the model's finished size, six decimals; angles are degrees. Keys stand in the order of the schema.

mod layout;
mod shape;

use serde::Serialize;

use crate::geometry::Transform;
use crate::model::Model;
use layout::Layout;

/// A sheet to print, as far as `model.json` tells of it.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetFacts {
    /// Its name.
    pub id: String,
    /// How often it is printed.
    pub times: u32,
    /// What stands on it.
    pub foundations: Vec<FoundationPlace>,
}

/// A foundation, or a part of one, on its sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct FoundationPlace {
    /// The block, by index in [`Model::blocks`].
    pub block: usize,
    /// The foundation, by index in the block's variants.
    pub variant: usize,
    /// Which part of how many, counted from 1; none where it is printed whole.
    pub part: Option<(u32, u32)>,
    /// From the unit's frame onto the sheet, in inches from its upper left corner.
    pub matrix: Transform,
}

/// The model and its sheets as a JSON text that ends in a line feed.
#[must_use]
pub fn model(model: &Model, sheets: &[SheetFacts]) -> String {
    let mut bytes = Vec::new();
    let mut serializer = serde_json::Serializer::with_formatter(&mut bytes, Layout::default());
    // Writing numbers, texts and lists into memory cannot fail.
    let written = shape::model(model, sheets).serialize(&mut serializer);
    debug_assert!(written.is_ok());
    bytes.push(b'\n');
    String::from_utf8(bytes).unwrap_or_default()
}
