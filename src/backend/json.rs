//! The compiled model as JSON: a promise to independent tools, described by `docs/model.schema.json`.
//!
//! Lengths are inches at the model's finished size, six decimals; angles are degrees. Keys stand in the order of the schema.

mod cloth;
mod layout;
mod numbers;
mod revision;
mod shape;
mod sheets;

use serde::Serialize;

use crate::geometry::{Length, Polygon, Transform};
use crate::model::{Model, Paper, SheetPaper};
use crate::packet::sheets::Spare;
use layout::Layout;
pub use revision::{Compared, revisions};

/// What is to be printed on one paper.
#[derive(Debug, Clone, PartialEq)]
pub struct PrintingFacts {
    /// The paper of the packet's other pages.
    pub paper: Paper,
    /// How many sheets are printed.
    pub printed: u32,
    /// How many different ones there are.
    pub different: usize,
    /// No filling prints fewer.
    pub at_least: u32,
    /// No filling has fewer different ones.
    pub at_least_different: u32,
    /// The length that the sheets take of a roll, and the least that any filling takes; nothing on single sheets.
    pub roll: Option<(Length, Length)>,
    /// How many foundations lie where they lay in a former packet; nothing where none was kept.
    pub kept: Option<usize>,
    /// What is printed more often than it is sewn.
    pub spares: Vec<Spare>,
}

/// A sheet to print, as far as `model.json` tells of it.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetFacts {
    /// Its name.
    pub id: String,
    /// The paper.
    pub paper: SheetPaper,
    /// Its width and height, upright.
    pub size: (Length, Length),
    /// What stays blank on every side.
    pub margin: Length,
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
    /// What is cut out, on the sheet, in inches.
    pub cutting_line: Polygon,
}

/// The model and its sheets as a JSON text that ends in a line feed.
#[must_use]
pub fn model(model: &Model, printing: &[PrintingFacts], sheets: &[SheetFacts]) -> String {
    let mut bytes = Vec::new();
    let mut serializer = serde_json::Serializer::with_formatter(&mut bytes, Layout::default());
    // Writing numbers, texts and lists into memory cannot fail.
    let written = shape::model(model, printing, sheets).serialize(&mut serializer);
    debug_assert!(written.is_ok());
    bytes.push(b'\n');
    String::from_utf8(bytes).unwrap_or_default()
}

/// The key of a fabric.
fn fabric_key(model: &Model, fabric: usize) -> &str {
    model.fabrics.get(fabric).map_or("", |fabric| &fabric.key)
}

#[cfg(test)]
mod tests {
    use super::{FoundationPlace, PrintingFacts, SheetFacts};
    use crate::backend::schema;
    use crate::geometry::{Length, Point, Polygon, Transform};
    use crate::model::{Paper, SheetPaper};
    use crate::packet::sample_steps as sample;
    use crate::packet::sheets::Spare;

    const SCHEMA: &str = include_str!("../../docs/model.schema.json");

    fn output() -> String {
        let foundation = FoundationPlace {
            block: 0,
            variant: 0,
            part: Some((1, 2)),
            matrix: Transform::from_matrix([-1.0, 0.0, 0.0, 1.0, 8.25, 0.75]),
            cutting_line: Polygon::rectangle(Point::new(0.5, 0.75), Point::new(8.0, 6.0)).unwrap(),
        };
        super::model(
            &sample::model(),
            &[PrintingFacts {
                paper: Paper::Letter,
                printed: 2,
                different: 1,
                at_least: 1,
                at_least_different: 1,
                roll: Some((Length::inches(30.0), Length::inches(24.0))),
                kept: Some(1),
                spares: vec![Spare { block: 0, variant: 0, part: None, count: 1 }],
            }],
            &[SheetFacts {
                id: "S1".to_owned(),
                paper: SheetPaper::Letter,
                size: SheetPaper::Letter.size(),
                margin: Length::inches(0.5),
                times: 2,
                foundations: vec![foundation],
            }],
        )
    }

    #[test]
    fn the_output_is_what_the_schema_says() {
        assert_eq!(schema::fault(SCHEMA, &output()), None);
    }

    #[test]
    fn the_schema_promises_every_key_and_no_other() {
        schema::promises_every_key_and_no_other(SCHEMA);
    }

    #[test]
    fn keys_stand_in_the_order_of_the_promise() {
        let text = output();
        let keys = [
            "schema",
            "pattern",
            "size",
            "colouring",
            "seam_allowance",
            "fabrics",
            "blocks",
            "cutting",
            "in_colourings",
            "printing",
            "sheets",
        ];
        let places: Vec<usize> = keys.iter().map(|key| text.find(&format!("\n  \"{key}\": ")).unwrap()).collect();
        assert!(places.is_sorted(), "{places:?}");
        assert!(!text.contains("-0,") && !text.contains("-0]") && text.ends_with("}\n"));
    }
}
