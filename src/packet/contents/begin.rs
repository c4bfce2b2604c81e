//! Before the sewing: tools and notions, cautions, the technique on one page.

use super::super::document::{Element, Figure, List, Part, Sign, Start, Tile};
use super::{Desk, heading, notes, paragraph, part};

/// Notes on the whole pattern, tools, cautions.
pub(super) fn before(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let facts = &desk.model.facts;
    let paper = match desk.printing.roll() {
        Some((width, length)) => words.tool_roll(desk.measures.at_least(length), desk.measures.length(width)),
        None => words.tool_paper(desk.printing.printed()),
    };
    let mut elements: Vec<Element> = notes(&facts.notes, words).collect();
    elements.push(heading(2, words.tools_title()));
    let mut tools = vec![
        words.tool_machine(),
        words.tool_needle(),
        paper,
        words.tool_cutter(),
        words.tool_ruler(),
        words.tool_card(),
        words.tool_glue(),
        words.tool_iron(),
        words.tool_light(),
        words.tool_ripper(),
    ];
    tools.extend(facts.tools.iter().cloned());
    elements.push(Element::List(List { sign: Sign::Box, items: tools }));
    elements.push(heading(2, words.cautions_title()));
    elements.push(paragraph(words.cautions_intro()));
    let cautions = vec![
        words.caution_cutter(),
        words.caution_iron(),
        words.caution_print(),
        words.caution_tape(),
        words.caution_bleed(),
        words.caution_needle(),
        words.caution_pins(),
        words.caution_magnets(),
        words.caution_children(),
    ];
    elements.push(Element::List(List { sign: Sign::Dot, items: cautions }));
    part("begin", words.begin_title(), Start::NewPage, elements)
}

/// The technique on one page, a figure for each of its eight moves.
pub(super) fn primer(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let allowance = desk.measures.length(desk.model.allowance);
    let told = [
        (words.primer_sides_title(), words.primer_sides()),
        (words.primer_first_title(), words.primer_first(&allowance)),
        (words.primer_fold_title(), words.primer_fold(&allowance)),
        (words.primer_lay_title(), words.primer_lay()),
        (words.primer_sew_title(), words.primer_sew()),
        (words.primer_look_title(), words.primer_look(&allowance)),
        (words.primer_trim_title(), words.primer_trim()),
        (words.primer_paper_title(), words.primer_paper()),
    ];
    let tiles = told.into_iter().zip(desk.primer).map(|((title, words), drawing)| Tile {
        figure: Figure { drawing: drawing.clone(), caption: String::new() },
        title,
        words,
    });
    let elements =
        vec![paragraph(words.primer_order()), Element::Tiles(tiles.collect()), paragraph(words.primer_machine())];
    part("primer", words.primer_title(), Start::NewPage, elements)
}
