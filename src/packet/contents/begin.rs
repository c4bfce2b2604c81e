//! Before the sewing: tools and notions, cautions, the technique on one page.

use super::super::document::{Element, Fact, Figure, List, Part, Sign, Start, Tile};
use super::{Desk, heading, notes, paragraph, part};

/// Notes on the whole pattern, tools, cautions.
pub(super) fn before(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let facts = &desk.model.facts;
    let sheets = desk.sheets.iter().map(|sheet| sheet.times).fold(0, u32::saturating_add);
    let mut elements: Vec<Element> = notes(&facts.notes, words).collect();
    elements.push(heading(2, words.tools_title()));
    let mut tools = vec![
        words.tool_machine(),
        words.tool_needle(),
        words.tool_paper(sheets),
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

/// What the words mean that a packet uses.
pub(super) fn glossary(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let allowance = desk.measures.length(desk.model.allowance);
    let told = [
        (words.glossary_allowance(), words.glossary_allowance_is(allowance)),
        (words.glossary_section(), words.glossary_section_is()),
        (words.glossary_piece(), words.glossary_piece_is()),
        (words.glossary_ease(), words.glossary_ease_is()),
        (words.glossary_unit(), words.glossary_unit_is()),
        (words.glossary_join(), words.glossary_join_is()),
        (words.glossary_foundation(), words.glossary_foundation_is()),
        (words.glossary_seam_line(), words.glossary_seam_line_is()),
        (words.glossary_cutting_line(), words.glossary_cutting_line_is()),
        (words.glossary_match_point(), words.glossary_match_point_is()),
        (words.glossary_tip(), words.glossary_tip_is()),
        (words.glossary_right_side(), words.glossary_right_side_is()),
        (words.glossary_selvedge(), words.glossary_selvedge_is()),
        (words.glossary_bias(), words.glossary_bias_is()),
        (words.glossary_print(), words.glossary_print_is()),
        (words.glossary_nest(), words.glossary_nest_is()),
    ];
    let facts = told.into_iter().map(|(name, value)| Fact { name, value }).collect();
    part("words", words.glossary_title(), Start::Here, vec![Element::Facts(facts)])
}
