//! The cutting chart as comma-separated values (RFC 4180): `cutting.csv` has a row for each size of each fabric, `strips.csv` one for each run of equal
//! strips, both after a row of headings.

use std::collections::BTreeMap;

use crate::geometry::Length;
use crate::model::{Amount, Fit, Model, Shape};
use crate::packet::chart::runs;

/// The headings of `cutting.csv`. Sizes are inches in decimals; what does not apply is empty.
const PIECES: &str = "fabric,name,shape,fit,width_in,height_in,trim_left_in,trim_right_in,count,per_kit,blanks,blank_width_in,\
    blank_height_in,gives,odd_blanks,odd_blank_width_in,odd_blank_height_in,left_over,sections,buy_in,buy_fat_quarters,buy_fat_eighths";

/// The headings of `strips.csv`.
const STRIPS: &str = "fabric,name,first_strip,last_strip,sheet,width_in,pieces";

/// The pieces of a model, size by size. Lines end in CR LF.
#[must_use]
pub fn chart(model: &Model) -> String {
    let mut text = String::new();
    line(&mut text, &PIECES.split(',').map(str::to_owned).collect::<Vec<_>>());
    for cutting in &model.cutting {
        let fabric = &model.fabrics[cutting.fabric];
        let mut amounts = [const { String::new() }; 3];
        match cutting.buy.amount {
            Amount::Length(length) => amounts[0] = inches(length),
            Amount::FatQuarters(count) => amounts[1] = count.to_string(),
            Amount::FatEighths(count) => amounts[2] = count.to_string(),
        }
        for group in &cutting.pieces {
            let trims = match group.shape {
                Shape::Trapezoid { trim } => trim.map(inches),
                _ => [const { String::new() }; 2],
            };
            let shape = match (group.fit, group.shape) {
                (Fit::Motif, _) => "motif",
                (_, Shape::Rectangle) => "rectangle",
                (_, Shape::HalfSquare) => "half-square",
                (_, Shape::QuarterSquare) => "quarter-square",
                (_, Shape::Trapezoid { .. }) => "trapezoid",
            };
            let fit = match group.fit {
                Fit::Rough => "rough",
                Fit::Strip => "strip",
                Fit::Exact => "exact",
                Fit::Motif => "motif",
            };
            let mut fields = vec![fabric.key.clone(), fabric.name.clone(), shape.to_owned(), fit.to_owned()];
            fields.extend([inches(group.width), inches(group.height)]);
            fields.extend(trims);
            fields.extend([group.count.to_string(), (group.count / model.people.max(1)).to_string()]);
            let first = group.blanks.first();
            fields.extend(match first {
                Some(blank) => {
                    [blank.count.to_string(), inches(blank.width), inches(blank.height), blank.gives.to_string()]
                }
                None => [const { String::new() }; 4],
            });
            fields.extend(match group.blanks.get(1) {
                Some(blank) => [blank.count.to_string(), inches(blank.width), inches(blank.height)],
                None => [const { String::new() }; 3],
            });
            fields.extend([group.left_over().to_string(), group.label.clone()]);
            fields.extend(amounts.clone());
            line(&mut text, &fields);
        }
    }
    text
}

/// The strips of a model: equal neighbours in one row, with what is cut from each: `4 × 5 x 1.75 (A3, B2)`.
#[must_use]
pub fn strips(model: &Model) -> String {
    let mut text = String::new();
    line(&mut text, &STRIPS.split(',').map(str::to_owned).collect::<Vec<_>>());
    for cutting in &model.cutting {
        let fabric = &model.fabrics[cutting.fabric];
        for (first, count) in runs(cutting.bought()) {
            let Some(strip) = cutting.bought().get(first) else { continue };
            let mut contents: BTreeMap<(usize, usize), u32> = BTreeMap::new();
            for piece in &strip.pieces {
                *contents.entry((piece.group, piece.blank)).or_default() += 1;
            }
            let told = contents.into_iter().filter_map(|((group, blank), count)| {
                let group = cutting.pieces.get(group)?;
                let blank = group.blanks.get(blank)?;
                Some(format!("{count} × {} x {} ({})", inches(blank.width), inches(blank.height), group.label))
            });
            let fields = [
                fabric.key.clone(),
                fabric.name.clone(),
                (first + 1).to_string(),
                (first + count).to_string(),
                (strip.sheet + 1).to_string(),
                inches(strip.width),
                told.collect::<Vec<_>>().join("; "),
            ];
            line(&mut text, &fields);
        }
    }
    text
}

fn line(text: &mut String, fields: &[String]) {
    text.push_str(&fields.iter().map(|field| quoted(field)).collect::<Vec<_>>().join(","));
    text.push_str("\r\n");
}

fn inches(length: Length) -> String {
    decimal(length.to_inches())
}

fn decimal(inches: f64) -> String {
    let rounded = (inches * 10_000.0).round() / 10_000.0;
    format!("{rounded}")
}

/// A field in quotes where it needs them. A field that a spreadsheet would take for a formula is shielded by a leading apostrophe.
fn quoted(field: &str) -> String {
    // A number below zero is none.
    let formula = field.starts_with(['=', '+', '-', '@']) && field.parse::<f64>().is_err();
    let shielded = if formula { format!("'{field}") } else { field.to_owned() };
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
