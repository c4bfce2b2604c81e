//! The cutting chart in words: what to buy, the strips, the pieces, what goes into each kit.

mod amount;
mod pieces;

use crate::model::{ColouredAmounts, FabricCutting, Fit, Model, Print, PrintDirection, Purchase, Shape};

use super::figure::{self, MotifWindow};
use super::measure::Measures;
use super::shape::has_hand;

pub use amount::{amount as amount_words, purchase as purchase_words};
pub use pieces::{GroupChart, numbers, runs};

/// The chart of a pattern.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chart {
    /// How to read it.
    pub intro: Vec<String>,
    /// How the amounts are counted.
    pub how: Vec<String>,
    /// How many pieces there are in all, and what of them is in no amount.
    pub total: Vec<String>,
    /// For how many people it counts, where for more than one.
    pub kits: Option<u32>,
    /// The fabrics, in the order of the model.
    pub fabrics: Vec<FabricChart>,
    /// What to buy in each of the other colourings.
    pub colourings: Vec<ColouredChart>,
}

/// What to buy in another colouring.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ColouredChart {
    /// Its title.
    pub title: String,
    /// Its fabrics.
    pub fabrics: Vec<ColouredFabric>,
}

/// A fabric of another colouring.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ColouredFabric {
    /// Its mark.
    pub mark: u32,
    /// Its colour.
    pub colour: [u8; 3],
    /// Its name.
    pub name: String,
    /// In place of which it is sewn; empty where it stays as drawn.
    pub in_place: String,
    /// What to buy.
    pub buy: String,
}

/// The chart of one fabric.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FabricChart {
    /// Its name.
    pub name: String,
    /// Its mark.
    pub mark: u32,
    /// Its colour.
    pub colour: [u8; 3],
    /// What its print asks for; empty where it has no direction.
    pub print: String,
    /// What to buy.
    pub buy: String,
    /// How much of the length the strips use.
    pub uses: String,
    /// From what cloth it is cut.
    pub stock: String,
    /// How good the plan is; nothing where no strip is cut.
    pub bound: Vec<String>,
    /// How many pieces in all.
    pub total: String,
    /// The strips: number or numbers, width, pieces from end to end.
    pub strips: Vec<[String; 3]>,
    /// The pieces, size by size.
    pub pieces: Vec<GroupChart>,
    /// The files of the windows for its motifs; empty where it has none.
    pub windows: String,
    /// What the sewer has of it: each piece, and what is cut from it.
    pub own: Vec<[String; 2]>,
    /// What the own cloth is not enough for; empty where the sewer has none of it.
    pub own_short: String,
}

/// The chart of a model in words; `windows` are those for its motifs.
#[must_use]
pub fn chart(model: &Model, windows: &[MotifWindow], measures: Measures<'_>) -> Chart {
    Chart {
        intro: intro(model, measures),
        how: amount::how_counted(model, measures),
        total: total(model, measures),
        kits: (model.people > 1).then_some(model.people),
        fabrics: model.cutting.iter().map(|cutting| fabric(model, cutting, windows, measures)).collect(),
        colourings: model.in_colourings.iter().filter_map(|amounts| coloured(model, amounts, measures)).collect(),
    }
}

/// What to buy in another colouring; none without a title.
fn coloured(model: &Model, amounts: &ColouredAmounts, measures: Measures<'_>) -> Option<ColouredChart> {
    let is_cut = |drawn: &&usize| model.cutting.iter().any(|cutting| cutting.fabric == **drawn);
    let row = |(fabric, parts, buy): &(usize, Vec<usize>, Purchase)| {
        let of = model.fabrics.get(*fabric)?;
        let parts: Vec<usize> = parts.iter().filter(is_cut).copied().collect();
        let names: Vec<&str> = parts.iter().filter_map(|&part| Some(model.fabrics.get(part)?.name.as_str())).collect();
        // What stays as it is drawn is in place of nothing.
        let in_place = if parts == [*fabric] { String::new() } else { measures.words().list(&names) };
        let buy = amount::purchase(*buy, measures);
        Some(ColouredFabric { mark: of.mark, colour: of.colour, name: of.name.clone(), in_place, buy })
    };
    let title = model.colourings.get(amounts.colouring)?.title.clone();
    Some(ColouredChart { title, fabrics: amounts.fabrics.iter().filter_map(row).collect() })
}

/// How to read the chart: only of what occurs in it.
fn intro(model: &Model, measures: Measures<'_>) -> Vec<String> {
    let words = measures.words();
    let groups = || model.cutting.iter().flat_map(|cutting| &cutting.pieces);
    let any = |fit: Fit| groups().any(|group| group.fit == fit);
    let shaped = |of: fn(Shape) -> bool| groups().any(|group| group.fit != Fit::Motif && of(group.shape));
    let directed = model.cutting.iter().any(|cutting| {
        model.fabrics.get(cutting.fabric).is_some_and(|fabric| fabric.print.direction != PrintDirection::None)
    });
    let strips = model.cutting.iter().any(|cutting| !cutting.bought().is_empty());
    let lettered = model.cutting.iter().any(|cutting| !figure::cloth_letters(cutting, measures).is_empty());
    let squares = shaped(|shape| matches!(shape, Shape::HalfSquare | Shape::QuarterSquare));
    let slants = shaped(|shape| matches!(shape, Shape::Trapezoid { .. }));
    let told = [
        (model.people > 1).then(|| words.chart_people(model.people)),
        strips.then(|| words.chart_intro()),
        Some(words.chart_intro_size()),
        strips.then(|| words.chart_intro_drawing()),
        lettered.then(|| words.chart_intro_letters()),
        directed.then(|| words.chart_intro_print()),
        squares.then(|| words.chart_intro_squares()),
        slants.then(|| words.chart_intro_slants()),
        shaped(has_hand).then(|| words.chart_intro_hand()),
        any(Fit::Motif).then(|| words.chart_intro_motif()),
        any(Fit::Exact).then(|| words.chart_intro_plain()),
        any(Fit::Strip).then(|| words.chart_intro_strip()),
    ];
    told.into_iter().flatten().collect()
}

/// How many pieces there are in all, and how many of them come from no strip.
fn total(model: &Model, measures: Measures<'_>) -> Vec<String> {
    let words = measures.words();
    let sum = |of: &dyn Fn(Fit) -> bool| {
        let groups = model.cutting.iter().flat_map(|cutting| &cutting.pieces).filter(|group| of(group.fit));
        groups.map(|group| group.count).fold(0, u32::saturating_add)
    };
    let motifs = sum(&|fit| fit == Fit::Motif);
    let all = words.chart_total(words.chart_pieces_total(sum(&|_| true)), model.cutting.len());
    std::iter::once(all).chain((motifs > 0).then(|| words.chart_total_motifs(motifs))).collect()
}

fn fabric(model: &Model, cutting: &FabricCutting, windows: &[MotifWindow], measures: Measures<'_>) -> FabricChart {
    let words = measures.words();
    let windows: Vec<String> =
        windows.iter().filter(|window| window.fabric == cutting.fabric).map(|window| window.path(model)).collect();
    let fabric = &model.fabrics[cutting.fabric];
    let letters = figure::cloth_letters(cutting, measures);
    let own = cutting.own.as_ref();
    FabricChart {
        name: fabric.name.clone(),
        mark: fabric.mark,
        colour: fabric.colour,
        print: print(fabric.print, measures),
        buy: amount::to_buy(cutting, measures),
        uses: words.chart_uses_value(measures.length(cutting.bought().iter().map(|strip| strip.width).sum())),
        stock: amount::stock(cutting, measures),
        bound: amount::bound(cutting, measures),
        total: words.chart_pieces_total(cutting.pieces.iter().map(|group| group.count).fold(0, u32::saturating_add)),
        strips: pieces::strips(cutting, cutting.bought(), &letters, measures),
        pieces: pieces::groups(model, cutting, &letters, measures),
        windows: if windows.is_empty() { String::new() } else { words.chart_windows(words.list(&windows)) },
        own: own
            .into_iter()
            .flat_map(|own| &own.used)
            .map(|(piece, strips)| {
                let strips = pieces::strips(cutting, strips, &letters, measures);
                let told = strips.iter().map(|[_, width, content]| words.chart_own_strip(width, content));
                let told: Vec<String> = told.collect();
                let nothing = told.is_empty().then(|| words.chart_own_unused());
                [amount::owned(*piece, measures), told.into_iter().chain(nothing).collect::<Vec<_>>().join(" ")]
            })
            .collect(),
        own_short: own.map_or_else(String::new, |own| match own.short {
            None => words.chart_own_enough(),
            Some(short) => words.chart_own_short(amount::amount(short.amount, measures)),
        }),
    }
}

fn print(print: Print, measures: Measures<'_>) -> String {
    let words = measures.words();
    match (print.direction, print.across) {
        (PrintDirection::None, _) => String::new(),
        (PrintDirection::OneWay, false) => words.chart_one_way(),
        (PrintDirection::TwoWay, false) => words.chart_two_way(),
        (PrintDirection::OneWay, true) => words.chart_one_way_across(),
        (PrintDirection::TwoWay, true) => words.chart_two_way_across(),
    }
}
