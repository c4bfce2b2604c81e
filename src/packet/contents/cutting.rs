//! The cutting chart, fabric by fabric, what goes into each kit, and labels to pin on.

use super::super::chart::{FabricChart, GroupChart};
use super::super::document::{Cell, Column, Element, Figure, Heading, Mark, Part, PinLabel, Start};
use super::super::page::{Colour, Page};
use super::{Desk, cell, column, heading, paragraph, part, quiet, unseen};

/// The chart, and the labels.
pub(super) fn parts(desk: &Desk<'_>) -> [Part; 2] {
    [cutting(desk), labels(desk)]
}

/// A fabric as it is marked on paper.
pub(super) fn mark_of(fabric: &FabricChart) -> Mark {
    Mark { number: fabric.mark, colour: Colour(fabric.colour) }
}

fn cutting(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let mut elements: Vec<Element> = desk.chart.intro.iter().cloned().map(paragraph).collect();
    for (at, fabric) in desk.chart.fabrics.iter().enumerate() {
        elements.push(Element::Heading(Heading {
            depth: 2,
            words: fabric.name.clone(),
            fabric: Some(mark_of(fabric)),
            place: None,
            bookmarked: true,
        }));
        of_fabric(desk, fabric, desk.cloth.get(at).map_or(&[], Vec::as_slice), &mut elements);
    }
    if let Some(people) = desk.chart.kits {
        elements.push(heading(2, words.chart_kits(people)));
        elements.push(kits(desk));
    }
    part("cutting", words.chart_title(), Start::NewPage, elements)
}

/// What there is to a fabric: facts, the drawing of its cloth, its strips, its pieces, the sewer's own cloth.
fn of_fabric(desk: &Desk<'_>, fabric: &FabricChart, cloth: &[Page], elements: &mut Vec<Element>) {
    let words = desk.words();
    let uses = words.chart_uses_of(&fabric.uses);
    let mut facts: Vec<&str> = vec![&fabric.total];
    if !fabric.strips.is_empty() {
        facts.push(&fabric.stock);
        facts.push(&uses);
    }
    facts.extend(fabric.bound.iter().map(String::as_str));
    facts.extend(Some(fabric.print.as_str()).filter(|print| !print.is_empty()));
    elements.push(quiet(facts.join("  ·  ")));
    if !fabric.own.is_empty() {
        let rows = fabric.own.iter().map(|row| row.iter().map(cell).collect()).collect();
        let columns = vec![column(words.chart_own(), 1.6), column(words.chart_own_gives(), 5.0)];
        elements.push(unseen(words.chart_own_caption(&fabric.name), columns, rows));
        elements.push(paragraph(fabric.own_short.clone()));
    }
    if !cloth.is_empty() {
        // The heading says it, unless the drawing stands for several pieces of cloth.
        let alone = words.figure_cloth_title(1, &fabric.name);
        let caption = |page: &Page| if page.title == alone { String::new() } else { page.title.clone() };
        let figure = |page: &Page| Figure { caption: caption(page), drawing: page.clone() };
        elements.push(Element::Figures(cloth.iter().map(figure).collect()));
    }
    if !fabric.strips.is_empty() {
        let rows = fabric.strips.iter().map(|row| row.iter().map(cell).collect()).collect();
        let columns = vec![
            column(words.chart_strip(), 1.0),
            column(words.chart_strip_width(), 1.1),
            column(words.chart_strip_pieces(), 5.0),
        ];
        elements.push(unseen(words.chart_strips_caption(&fabric.name), columns, rows));
    }
    elements.push(pieces(desk, fabric));
    elements.extend((!fabric.windows.is_empty()).then(|| quiet(fabric.windows.clone())));
}

/// The pieces of a fabric, size by size.
fn pieces(desk: &Desk<'_>, fabric: &FabricChart) -> Element {
    let words = desk.words();
    let lettered = fabric.pieces.iter().any(|group| !group.letter.is_empty());
    let told = fabric.pieces.iter().any(|group| !group.how.is_empty());
    let mut columns: Vec<Column> = Vec::new();
    columns.extend(lettered.then(|| column(words.chart_letter(), 0.7)));
    columns.push(column(words.chart_size(), 1.7));
    columns.push(column(words.chart_count(), if told { 2.6 } else { 0.9 }));
    columns.push(column(words.chart_for(), 3.7));
    let row = |group: &GroupChart| {
        let count = if group.how.is_empty() {
            group.count.clone()
        } else {
            words.chart_count_how(group.count.clone(), &group.how)
        };
        let letter = lettered.then(|| cell(&group.letter));
        letter.into_iter().chain([cell(&group.size), cell(count), cell(&group.label)]).collect()
    };
    unseen(words.chart_pieces_caption(&fabric.name), columns, fabric.pieces.iter().map(row).collect())
}

/// How many of each piece go into one kit.
fn kits(desk: &Desk<'_>) -> Element {
    let words = desk.words();
    let rows = desk.chart.fabrics.iter().flat_map(|fabric| {
        fabric.pieces.iter().map(move |group| {
            let name = Cell { fabric: Some(mark_of(fabric)), words: fabric.name.clone() };
            vec![name, cell(&group.size), cell(group.in_kit.to_string()), cell(&group.label)]
        })
    });
    let columns = vec![
        column(words.chart_fabric(), 2.0),
        column(words.chart_size(), 1.8),
        column(words.chart_in_kit(), 0.8),
        column(words.chart_for(), 2.8),
    ];
    let people = desk.chart.kits.unwrap_or(1);
    unseen(words.chart_kits(people), columns, rows.collect())
}

/// Labels to cut apart, one for each size of each fabric.
fn labels(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let kits = desk.chart.kits;
    let pattern = format!("{}  ·  {}", desk.model.facts.title, desk.size());
    let of_fabric = |fabric: &FabricChart, cutting: usize| {
        let groups = desk.model.cutting.get(cutting).map_or(&[][..], |cutting| &cutting.pieces);
        let label = |(told, group): (&GroupChart, &crate::model::PieceGroup)| PinLabel {
            mark: mark_of(fabric),
            fabric: fabric.name.clone(),
            size: told.size.clone(),
            count: if kits.is_some() { words.labels_count_kit(told.in_kit) } else { words.labels_count(told.in_kit) },
            sections: group.label.split(", ").map(str::to_owned).collect(),
            pattern: pattern.clone(),
        };
        fabric.pieces.iter().zip(groups).map(label).collect::<Vec<_>>()
    };
    let all = desk.chart.fabrics.iter().enumerate().flat_map(|(at, fabric)| of_fabric(fabric, at));
    let intro = kits.map_or_else(|| words.labels_intro(), |people| words.labels_intro_kits(people));
    part("labels", words.labels_title(), Start::NewPage, vec![paragraph(intro), Element::Labels(all.collect())])
}
