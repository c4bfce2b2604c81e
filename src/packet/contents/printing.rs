//! How to print and check, the units and where they stand, the foundations themselves.

use super::super::document::{Content, Element, Figure, List, Medium, Part, Sign, Start};
use super::super::leaf::{Bookmark, Leaf, Link, Place, Target};
use super::super::sheets::{Bed, Sheet, bar_lengths};
use super::super::steps::trimmed;
use super::level::Level;
use super::{Desk, batch_place, cell, column, heading, paragraph, part, quiet, sheet_place, table, unseen};
use crate::geometry::{Length, Point};
use crate::model::{SheetPaper, Units};

/// How to print, how often, and how to check that it came out at size.
pub(super) fn printing(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let mut elements = vec![
        Element::List(List {
            sign: Sign::Number,
            items: vec![words.print_scale(), words.print_once(), words.print_check(), words.print_rest()],
        }),
        table(words.print_sheets_caption(), sheet_columns(desk), sheet_rows(desk)),
    ];
    elements.splice(1..1, other_paper(desk));
    elements.extend(about_counts(desk));
    let mut variants = desk.model.blocks.iter().flat_map(|block| &block.variants);
    if variants.any(|variant| variant.sewn > 0 && variant.last_changed.is_some()) {
        elements.push(paragraph(words.print_last_changed(&desk.model.facts.edition)));
    }
    elements.extend(corrections(desk));
    part("printing", words.print_title(), Start::NewPage, elements)
}

/// On what the sheets are printed, where that is not what the other pages are printed on.
fn other_paper(desk: &Desk<'_>) -> Option<Element> {
    let words = desk.words();
    let (paper, pages) = (Bed::under(desk.model).paper, desk.model.paper);
    let name = match paper {
        SheetPaper::Roll { width, .. } => words.print_paper_roll(desk.measures.length(width)),
        paper => {
            let (width, height) = paper.size();
            words.print_paper_name(paper.name(), desk.measures.rectangle(width, height))
        }
    };
    (paper != pages.into()).then(|| paragraph(words.print_paper(name, pages.name())))
}

/// What is printed more often than it is sewn, and that fewer sheets will not do.
fn about_counts(desk: &Desk<'_>) -> Vec<Element> {
    let (words, printing) = (desk.words(), desk.printing);
    let mut told = Vec::new();
    if !printing.spares.is_empty() {
        let spares: Vec<String> =
            printing.spares.iter().map(|s| count_of(desk, (s.block, s.variant, s.part), s.count)).collect();
        told.push(paragraph(words.print_spares(words.list(&spares))));
    }
    if printing.printed() <= printing.at_least && printing.roll().is_none() && printing.printed() > 1 {
        told.push(quiet(words.print_fewest()));
    }
    told
}

fn sheet_columns(desk: &Desk<'_>) -> Vec<super::Column> {
    let words = desk.words();
    vec![column(words.print_sheet(), 1.0), column(words.print_times(), 1.0), column(words.print_holds(), 5.0)]
}

fn sheet_rows(desk: &Desk<'_>) -> Vec<Vec<super::Cell>> {
    let words = desk.words();
    let rows = desk.printing.sheets.iter().map(|sheet| {
        let times = words.print_times_value(sheet.times);
        vec![cell(words.sheet_name(&sheet.id)), cell(times), cell(words.list(&held(desk, sheet)))]
    });
    rows.collect()
}

/// A foundation by its block, its number and its part.
type Printed = (usize, usize, Option<(u32, u32)>);

/// What is on a sheet: `2 of Aa`, `C, part 1`.
fn held(desk: &Desk<'_>, sheet: &Sheet) -> Vec<String> {
    let mut counted: Vec<(Printed, u32)> = Vec::new();
    for foundation in &sheet.foundations {
        let which = (foundation.block, foundation.variant, foundation.part);
        match counted.iter_mut().find(|(other, _)| *other == which) {
            Some((_, count)) => *count += 1,
            None => counted.push((which, 1)),
        }
    }
    let told = counted.into_iter().map(|(which, count)| count_of(desk, which, count));
    told.collect()
}

/// `2 of Aa`, `C, part 1`.
fn count_of(desk: &Desk<'_>, (block, variant, part): Printed, count: u32) -> String {
    let words = desk.words();
    let block = &desk.model.blocks[block];
    let mark = &block.variants[variant].mark;
    let mark = if desk.model.blocks.len() > 1 { format!("{} {mark}", block.name) } else { mark.clone() };
    let mark = match part {
        Some((number, parts)) => words.print_part(mark, number, parts),
        None => mark,
    };
    if count > 1 { words.steps_of(count, mark) } else { mark }
}

/// What a bar that is off says: the correction in per cent, and what it does to the block.
fn corrections(desk: &Desk<'_>) -> Vec<Element> {
    let words = desk.words();
    let (inches, centimetres) = bar_lengths(Bed::under(desk.model));
    let (inches, centimetres) = (f64::from(inches), f64::from(centimetres));
    let percent = |truth: f64, measured: f64| cell(words.print_percent(tenth(100.0 * truth / measured, words)));
    let steps = || (-4_i32..=4).map(f64::from);
    let in_inches = steps().map(|off| {
        let measured = Length::inches(inches + off / 16.0);
        let told = words.measure_inches(super::super::measure::sixteenths(measured));
        vec![cell(told), percent(inches, measured.to_inches())]
    });
    let in_centimetres = steps().map(|off| {
        let measured = centimetres + off * 0.2;
        vec![cell(words.measure_centimetres(tenth(measured, words))), percent(centimetres, measured)]
    });
    let columns = |bar: String| vec![column(bar, 1.4), column(words.print_at(), 1.0)];
    // By either of the two, whichever one's ruler shows.
    let by_inches = columns(words.print_bar_inches(whole(inches)));
    let by_centimetres = columns(words.print_bar_centimetres(whole(centimetres)));
    let mut elements = vec![
        heading(2, words.print_corrections_caption()),
        unseen(words.print_bar_inches(whole(inches)), by_inches, in_inches.collect()),
        unseen(words.print_bar_centimetres(whole(centimetres)), by_centimetres, in_centimetres.collect()),
    ];
    if let Some(block) = desk.model.blocks.first() {
        let size = block.width.max(block.height);
        let off = match desk.model.units {
            Units::Inches => size * 0.02,
            Units::Metric => Length::millimetres((size.to_millimetres() * 0.02).round()),
        };
        elements.push(quiet(words.print_why(desk.measures.length(size), desk.measures.length(off))));
    }
    elements
}

/// A number with one decimal, which is left out where it is nothing.
fn tenth(number: f64, words: &super::Words) -> String {
    let told = format!("{number:.1}");
    told.strip_suffix(".0").map_or_else(|| told.replace('.', &words.measure_decimal()), str::to_owned)
}

fn whole(number: f64) -> String {
    format!("{number:.0}")
}

/// The units of each block: where they stand, how often they are sewn, how they measure.
pub(super) fn units(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let model = desk.model;
    let mut elements = vec![paragraph(words.units_intro())];
    if model.blocks.iter().any(|block| block.variants.iter().any(|variant| !block.has_paper(variant))) {
        elements.push(paragraph(words.units_plain()));
    }
    for (index, (block, figures)) in model.blocks.iter().zip(desk.figures).enumerate() {
        if model.blocks.len() > 1 {
            elements.push(heading(2, block.name.clone()));
        }
        elements.push(Element::Figures(vec![Figure { drawing: figures.map.clone(), caption: words.map_caption() }]));
        let sewn = block.variants.iter().enumerate().filter(|(_, variant)| variant.sewn > 0);
        let rows = sewn.map(|(at, variant)| {
            let unit = block.unit_of(variant);
            let (size, sheet) = if block.has_paper(variant) {
                (trimmed(unit, variant, desk.measures), words.list(&runs(&desk.sheets_of(index, at))))
            } else {
                let size = variant.cuts.first().map(|cut| desk.measures.exact_rectangle(cut.width, cut.height));
                (words.units_cut(size.unwrap_or_default()), words.units_no_paper())
            };
            vec![
                cell(words.foundation(&variant.mark, &unit.name)),
                cell(variant.sewn.to_string()),
                cell(variant.pieces().to_string()),
                cell(size),
                cell(sheet),
            ]
        });
        let columns = vec![
            column(words.units_unit(), 2.2),
            column(words.units_sew(), 0.8),
            column(words.units_pieces(), 0.8),
            column(words.units_trimmed(), 2.4),
            column(words.print_sheet(), 1.0),
        ];
        elements.push(table(
            words.units_caption(if model.blocks.len() > 1 { &block.name } else { &model.facts.title }),
            columns,
            rows.collect(),
        ));
    }
    if model.facts.skill.is_none() {
        let level = Level::of(model);
        elements.push(quiet(words.level_how(
            level.points(),
            level.pieces,
            level.joins,
            level.match_points,
            level.tips,
            level.exact_pieces,
        )));
    }
    part("units", words.units_title(), Start::NewPage, elements)
}

/// Numbers, of which three and more that follow each other are told as a run: `1–4`.
fn runs(numbers: &[&str]) -> Vec<String> {
    let follows = |a: &&str, b: &&str| match (a.parse::<u32>(), b.parse::<u32>()) {
        (Ok(a), Ok(b)) => a.checked_add(1) == Some(b),
        _ => false,
    };
    let mut told = Vec::new();
    for run in numbers.chunk_by(follows) {
        match run {
            [first, _, .., last] => told.push(format!("{first}–{last}")),
            few => told.extend(few.iter().map(|&number| number.to_owned())),
        }
    }
    told
}

/// The foundations: in print at size, on a screen reduced.
pub(super) fn foundations(desk: &Desk<'_>) -> [Part; 2] {
    let words = desk.words();
    let leaves = desk.printing.sheets.iter().map(|sheet| leaf(desk, sheet)).collect();
    let printed = Part {
        place: Place::new("sheets"),
        title: words.foundations_title(),
        start: Start::NewPage,
        medium: Medium::Print,
        content: Content::Leaves(leaves),
    };
    let mut figures = Vec::new();
    for (block, drawn) in desk.model.blocks.iter().zip(desk.figures) {
        let printed = block.variants.iter().zip(&drawn.foundations);
        for (variant, drawing) in printed.filter(|(variant, _)| variant.sewn > 0 && block.has_paper(variant)) {
            let name = words.foundation(&variant.mark, &block.unit_of(variant).name);
            figures.push(Figure { drawing: drawing.clone(), caption: words.foundation_caption(name, variant.sewn) });
        }
    }
    let elements = vec![
        paragraph(words.foundations_reduced()),
        paragraph(words.foundations_why_mirrored()),
        Element::Figures(figures),
    ];
    let screen =
        Part { medium: Medium::Screen, ..part("foundations", words.foundations_title(), Start::NewPage, elements) };
    [printed, screen]
}

/// The leaf of a sheet: each foundation on it leads to its steps.
fn leaf(desk: &Desk<'_>, sheet: &Sheet) -> Leaf {
    let words = desk.words();
    let name = words.sheet_name(&sheet.id);
    let links = sheet.foundations.iter().filter_map(|foundation| {
        let batches = &desk.steps.blocks.get(foundation.block)?.batches;
        let batch = batches.iter().find(|batch| batch.variants.contains(&foundation.variant))?;
        let (from, to) = foundation.cutting_line.bounds();
        Some(Link { from, to, target: Target::Place(batch_place(foundation.block, *batch.variants.first()?)) })
    });
    let title = words.sheet_bookmark(&name, words.list(&held(desk, sheet)));
    Leaf {
        page: sheet.page.clone(),
        label: name,
        bookmarks: vec![Bookmark { depth: 2, title, at: Point::default() }],
        places: vec![(sheet_place(&sheet.id), Point::default())],
        links: if desk.has_steps() { links.collect() } else { Vec::new() },
    }
}

#[cfg(test)]
mod tests {
    use super::runs;

    #[test]
    fn numbers_in_a_row_are_told_as_a_run() {
        assert_eq!(runs(&["1", "2", "3", "5", "7", "8"]), ["1–3", "5", "7", "8"]);
        assert_eq!(runs(&[]), Vec::<String>::new());
    }
}
