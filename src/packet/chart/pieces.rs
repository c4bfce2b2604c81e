//! The pieces of a fabric in words, and the strips that they come from.

use crate::model::{Blank, FabricCutting, Fit, Model, PieceGroup, Shape, Strip};
use crate::packet::measure::Measures;
use crate::packet::shape::{has_hand, shaped};

/// The pieces of one size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GroupChart {
    /// The letter that stands for them in the drawing; empty where there they bear their sections.
    pub letter: String,
    /// Their shape and size.
    pub size: String,
    /// How many, for all people together.
    pub count: String,
    /// How they are cut: from how many squares, what is left over; empty for rectangles, which lie in the strips as they are.
    pub how: String,
    /// For which sections.
    pub label: String,
    /// How many go into one kit; what they are cut for where there are no kits.
    pub in_kit: u32,
}

/// The pieces of a fabric, size by size.
pub(super) fn groups(
    model: &Model,
    cutting: &FabricCutting,
    letters: &[String],
    measures: Measures<'_>,
) -> Vec<GroupChart> {
    let words = measures.words();
    let told = cutting.pieces.iter().enumerate().map(|(at, group)| GroupChart {
        letter: letters.get(at).cloned().unwrap_or_default(),
        size: shaped(group.shape, (group.width, group.height), measures),
        count: group.count.to_string(),
        how: how(group, measures),
        label: match group.fit {
            Fit::Rough | Fit::Motif => group.label.clone(),
            Fit::Strip => words.chart_for_strip(&group.label),
            Fit::Exact => words.chart_for_plain(&group.label),
        },
        in_kit: group.count / model.people.max(1),
    });
    told.collect()
}

/// How the pieces of a group are cut from their blanks.
fn how(group: &PieceGroup, measures: Measures<'_>) -> String {
    let words = measures.words();
    if group.fit == Fit::Motif {
        return words.chart_how_motif(group.count);
    }
    let mut told: Vec<String> = match group.shape {
        Shape::Rectangle => Vec::new(),
        Shape::HalfSquare => group.blanks.iter().map(|blank| words.chart_how_half(blank.count)).collect(),
        Shape::QuarterSquare => group.blanks.iter().map(|blank| words.chart_how_quarter(blank.count)).collect(),
        Shape::Trapezoid { .. } => group.blanks.iter().map(|blank| trapezoids(*blank, measures)).collect(),
    };
    let left = group.left_over();
    if left > 0 {
        told.push(words.chart_left_over(left));
    }
    if has_hand(group.shape) {
        told.push(words.chart_one_layer());
    }
    told.join("; ")
}

fn trapezoids(blank: Blank, measures: Measures<'_>) -> String {
    let words = measures.words();
    let size = measures.exact_rectangle(blank.width, blank.height);
    if blank.gives > 1 { words.chart_how_pairs(blank.count, size) } else { words.chart_how_single(blank.count, size) }
}

/// Whether two strips are cut alike.
#[must_use]
pub fn alike(a: &Strip, b: &Strip) -> bool {
    a.width == b.width && a.pieces == b.pieces
}

/// Equal neighbours among strips: the index of the first, and how many.
#[must_use]
pub fn runs(strips: &[Strip]) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(strip) = strips.get(at) {
        let count = strips[at..].iter().take_while(|other| other.sheet == strip.sheet && alike(strip, other)).count();
        found.push((at, count.max(1)));
        at += count.max(1);
    }
    found
}

/// The numbers of a run of strips: `3`, `4–7`.
#[must_use]
pub fn numbers((first, count): (usize, usize), measures: Measures<'_>) -> String {
    let words = measures.words();
    if count <= 1 { words.chart_strip_one(first + 1) } else { words.chart_strip_range(first + 1, first + count) }
}

/// The strips, equal neighbours told together: their numbers, their width, what is cut from each.
pub(super) fn strips(
    cutting: &FabricCutting,
    strips: &[Strip],
    letters: &[String],
    measures: Measures<'_>,
) -> Vec<[String; 3]> {
    let told = runs(strips).into_iter().map(|run| {
        let strip = &strips[run.0];
        [numbers(run, measures), measures.exact(strip.width), content(cutting, strip, letters, measures)]
    });
    told.collect()
}

/// What is cut from a strip, from one end to the other.
pub(super) fn content(cutting: &FabricCutting, strip: &Strip, letters: &[String], measures: Measures<'_>) -> String {
    let words = measures.words();
    let mut runs: Vec<(usize, usize, bool, u32)> = Vec::new();
    for piece in &strip.pieces {
        match runs.last_mut() {
            Some((group, blank, turned, n))
                if (*group, *blank, *turned) == (piece.group, piece.blank, piece.turned) =>
            {
                *n += 1;
            }
            _ => runs.push((piece.group, piece.blank, piece.turned, 1)),
        }
    }
    let told = runs.into_iter().filter_map(|(group, blank, turned, n)| {
        let blank = cutting.pieces.get(group)?.blanks.get(blank)?;
        let mut size = measures.exact_rectangle(blank.width, blank.height);
        if let Some(letter) = letters.get(group).filter(|letter| !letter.is_empty()) {
            size = words.chart_lettered(letter, size);
        }
        // A square is the same either way.
        let turned = turned && blank.width != blank.height;
        Some(if turned { words.chart_strip_run_turned(n, size) } else { words.chart_strip_run(n, size) })
    });
    told.collect::<Vec<_>>().join("; ")
}
