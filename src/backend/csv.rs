//! The cutting chart as comma-separated values (RFC 4180): one row for each size of each fabric, after a row of headings.

use crate::model::{Amount, Model};

/// The chart of a model. Sizes are inches in decimals; lines end in CR LF.
#[must_use]
pub fn chart(model: &Model) -> String {
    let mut text = String::from("fabric,name,width_in,height_in,count,sections,buy_in\r\n");
    for cutting in &model.cutting {
        let fabric = &model.fabrics[cutting.fabric];
        for group in &cutting.pieces {
            let fields = [
                fabric.key.clone(),
                fabric.name.clone(),
                decimal(group.width.to_inches()),
                decimal(group.height.to_inches()),
                group.count.to_string(),
                group.label.clone(),
                match cutting.buy.amount {
                    Amount::Length(length) => decimal(length.to_inches()),
                    Amount::FatQuarters(_) | Amount::FatEighths(_) => String::new(),
                },
            ];
            text.push_str(&fields.map(|field| quoted(&field)).join(","));
            text.push_str("\r\n");
        }
    }
    text
}

fn decimal(inches: f64) -> String {
    let rounded = (inches * 10_000.0).round() / 10_000.0;
    format!("{rounded}")
}

/// A field in quotes where it needs them. A field that a spreadsheet would take for a formula is shielded by a leading apostrophe.
fn quoted(field: &str) -> String {
    let shielded = if field.starts_with(['=', '+', '-', '@']) { format!("'{field}") } else { field.to_owned() };
    if shielded.contains([',', '"', '\r', '\n']) { format!("\"{}\"", shielded.replace('"', "\"\"")) } else { shielded }
}

#[cfg(test)]
mod tests {
    use super::quoted;

    #[test]
    fn fields_are_quoted_where_they_must_be() {
        assert_eq!(quoted("A1, B2"), "\"A1, B2\"");
        assert_eq!(quoted("Night \"sky\""), "\"Night \"\"sky\"\"\"");
        assert_eq!(quoted("plain"), "plain");
        assert_eq!(quoted("=1+1"), "'=1+1");
    }
}
