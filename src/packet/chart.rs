//! The cutting chart in words: what to buy, the strips, the pieces.

use crate::model::{Amount, FabricCutting, Fit, Model, Print, PrintDirection, Strip};

use super::measure::Measures;

/// The chart of a pattern.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chart {
    /// How to read it.
    pub intro: Vec<String>,
    /// The fabrics, in the order of the model.
    pub fabrics: Vec<FabricChart>,
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
    /// The length below which no layout goes.
    pub bound: String,
    /// How many pieces in all.
    pub total: String,
    /// The strips: number or numbers, width, pieces from end to end.
    pub strips: Vec<[String; 3]>,
    /// The pieces: size, how many, for which sections.
    pub pieces: Vec<[String; 3]>,
}

/// The chart of a model in words.
#[must_use]
pub fn chart(model: &Model, measures: Measures<'_>) -> Chart {
    let words = measures.words();
    let fabrics: Vec<FabricChart> = model.cutting.iter().map(|cutting| fabric(model, cutting, measures)).collect();
    let directional = fabrics.iter().any(|fabric| !fabric.print.is_empty());
    let print = directional.then(|| words.chart_intro_print());
    let any = |fit: Fit| model.cutting.iter().flat_map(|cutting| &cutting.pieces).any(|group| group.fit == fit);
    let plain = any(Fit::Exact).then(|| words.chart_intro_plain());
    let strip = any(Fit::Strip).then(|| words.chart_intro_strip());
    Chart { intro: std::iter::once(words.chart_intro()).chain(print).chain(plain).chain(strip).collect(), fabrics }
}

fn fabric(model: &Model, cutting: &FabricCutting, measures: Measures<'_>) -> FabricChart {
    let words = measures.words();
    let fabric = &model.fabrics[cutting.fabric];
    let length = match cutting.buy.amount {
        Amount::Length(length) => measures.fabric(length),
        Amount::FatQuarters(count) | Amount::FatEighths(count) => count.to_string(),
    };
    FabricChart {
        name: fabric.name.clone(),
        mark: fabric.mark,
        colour: fabric.colour,
        print: print(fabric.print, measures),
        buy: match (cutting.buy.fat_eighth, cutting.buy.fat_quarter) {
            (true, _) => words.chart_buy_fat_eighth(length),
            (false, true) => words.chart_buy_fat_quarter(length),
            (false, false) => length,
        },
        uses: words.chart_uses_value(measures.length(cutting.length)),
        bound: measures.length(cutting.lower_bound),
        total: words.chart_pieces_total(cutting.pieces.iter().map(|group| group.count).sum::<u32>()),
        strips: strips(cutting, measures),
        pieces: cutting
            .pieces
            .iter()
            .map(|group| {
                let label = match group.fit {
                    Fit::Rough | Fit::Motif => group.label.clone(),
                    Fit::Strip => words.chart_for_strip(&group.label),
                    Fit::Exact => words.chart_for_plain(&group.label),
                };
                [measures.exact_rectangle(group.width, group.height), group.count.to_string(), label]
            })
            .collect(),
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

/// The strips, equal neighbours told together.
fn strips(cutting: &FabricCutting, measures: Measures<'_>) -> Vec<[String; 3]> {
    let words = measures.words();
    let alike = |a: &Strip, b: &Strip| {
        let content = |strip: &Strip| strip.pieces.iter().map(|piece| (piece.group, piece.turned)).collect::<Vec<_>>();
        a.width == b.width && content(a) == content(b)
    };
    let mut rows = Vec::new();
    let mut at = 0;
    while let Some(strip) = cutting.strips.get(at) {
        let count = cutting.strips[at..].iter().take_while(|other| alike(strip, other)).count().max(1);
        let number =
            if count == 1 { words.chart_strip_one(at + 1) } else { words.chart_strip_range(at + 1, at + count) };
        let mut runs: Vec<(usize, bool, u32)> = Vec::new();
        for piece in &strip.pieces {
            match runs.last_mut() {
                Some((group, turned, n)) if (*group, *turned) == (piece.group, piece.turned) => *n += 1,
                _ => runs.push((piece.group, piece.turned, 1)),
            }
        }
        let told: Vec<String> = runs
            .into_iter()
            .map(|(group, turned, n)| {
                let group = &cutting.pieces[group];
                let size = measures.exact_rectangle(group.width, group.height);
                // A square is the same either way.
                let turned = turned && group.width != group.height;
                if turned { words.chart_strip_run_turned(n, size) } else { words.chart_strip_run(n, size) }
            })
            .collect();
        rows.push([number, measures.exact(strip.width), told.join("; ")]);
        at += count;
    }
    rows
}
