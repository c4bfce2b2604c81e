//! Amounts of cloth in words: what to buy, on what it is counted, how good the plan of strips is.

use crate::geometry::Length;
use crate::model::{Amount, FabricCutting, Model, OwnCloth, OwnedPiece, Purchase, Stock, Units};
use crate::packet::measure::Measures;
use crate::pattern::{fat_eighth, fat_quarter};

/// Lengths nearer to each other than this are the same on any cloth, in inches.
const SAME: f64 = 1e-4;

/// An amount of cloth: `⅝ yd`, `3 fat quarters`.
#[must_use]
pub fn amount(amount: Amount, measures: Measures<'_>) -> String {
    let words = measures.words();
    match amount {
        Amount::Length(length) => measures.fabric(length),
        Amount::FatQuarters(count) => words.chart_fat_quarters(count),
        Amount::FatEighths(count) => words.chart_fat_eighths(count),
    }
}

/// What to buy, with the fat quarter or eighth that is enough as well.
#[must_use]
pub fn purchase(buy: Purchase, measures: Measures<'_>) -> String {
    let words = measures.words();
    let told = amount(buy.amount, measures);
    match (buy.amount, buy.fat_eighth, buy.fat_quarter) {
        (Amount::Length(_), true, _) => words.chart_buy_fat_eighth(told),
        (Amount::Length(_), false, true) => words.chart_buy_fat_quarter(told),
        _ => told,
    }
}

/// What to buy of a fabric: beside the sewer's own cloth, and in other widths.
pub(super) fn to_buy(cutting: &FabricCutting, measures: Measures<'_>) -> String {
    let words = measures.words();
    match &cutting.own {
        Some(OwnCloth { short: None, .. }) => words.chart_buy_nothing(),
        Some(OwnCloth { short: Some(short), .. }) => words.chart_buy_besides(purchase(*short, measures)),
        None if cutting.strips.is_empty() => words.chart_buy_motifs(),
        None => {
            let other = |&(width, buy): &(Length, Purchase)| {
                words.chart_buy_width(measures.length(width), amount(buy.amount, measures))
            };
            let main = purchase(cutting.buy, measures);
            std::iter::once(main).chain(cutting.other_widths.iter().map(other)).collect::<Vec<_>>().join("; ")
        }
    }
}

/// From what cloth a fabric is cut: how it is bought, and what of it is usable.
pub(super) fn stock(cutting: &FabricCutting, measures: Measures<'_>) -> String {
    let words = measures.words();
    let (width, length) = cutting.sheet;
    match (&cutting.stock, length) {
        (Stock::Bolt(_), _) | (_, None) => words.chart_from_bolt(measures.length(width)),
        (Stock::FatQuarters, Some(length)) => words.chart_from_fat_quarters(measures.rectangle(length, width)),
        (Stock::FatEighths, Some(length)) => words.chart_from_fat_eighths(measures.rectangle(length, width)),
    }
}

/// How good the plan of strips is; nothing where none is cut.
pub(super) fn bound(cutting: &FabricCutting, measures: Measures<'_>) -> Vec<String> {
    let words = measures.words();
    // The bound is for all pieces; beside a sewer's own cloth only some of them are cut from what is bought.
    if cutting.strips.is_empty() || cutting.own.is_some() {
        return Vec::new();
    }
    let price = cutting.price.filter(|price| price.to_inches() > SAME);
    let price = price.map(|price| words.chart_price(measures.length(price)));
    let bound = match (cutting.is_proved(), cutting.fewest_sheets) {
        (_, Some(fewest)) => words.chart_bound_sheets(fewest),
        (true, None) => words.chart_bound_reached(),
        (false, None) => words.chart_bound(measures.length(cutting.lower_bound)),
    };
    std::iter::once(bound).chain(price).collect()
}

/// What a sewer's own piece of cloth is called.
pub(super) fn owned(piece: OwnedPiece, measures: Measures<'_>) -> String {
    let words = measures.words();
    match piece {
        OwnedPiece::Length(length) => words.chart_own_length(measures.fabric(length)),
        OwnedPiece::FatQuarter => words.chart_fat_quarters(1),
        OwnedPiece::FatEighth => words.chart_fat_eighths(1),
        OwnedPiece::Scrap(across, along) => words.chart_own_scrap(measures.rectangle(across, along)),
    }
}

/// How the amounts are counted.
pub(super) fn how_counted(model: &Model, measures: Measures<'_>) -> Vec<String> {
    let words = measures.words();
    let cloth = &model.cloth;
    let percent = measures.percent(cloth.shrinkage);
    let of_bolts = model.cutting.iter().any(|cutting| matches!(cutting.stock, Stock::Bolt(_)));
    let mut told = Vec::new();
    if of_bolts {
        told.push(words.chart_how_bolt(measures.length(cloth.squaring), percent.clone()));
    }
    let fat = |(width, length): (Length, Length)| measures.rectangle(length, width);
    let sizes = |units: Units| (fat(fat_quarter(units)), fat(fat_eighth(units)));
    if of_bolts && model.cutting.iter().any(|cutting| cutting.buy.fat_quarter || cutting.buy.fat_eighth) {
        let (quarter, eighth) = sizes(model.units);
        told.push(words.chart_how_fat(quarter, eighth));
    }
    if model.cutting.iter().any(|cutting| !matches!(cutting.stock, Stock::Bolt(_))) {
        told.push(words.chart_how_fats(percent));
    }
    told
}
