//! What stands at the end: colouring pages, terms and contact, what the words mean, the tester's report, and on the last page the editions.

use super::super::document::{Cell, Element, Figure, FormLine, Part, Reference, Start};
use super::super::leaf::Target;
use super::super::steps::trimmed;
use super::{Audience, Desk, cell, column, heading, paragraph, part, quiet, table, unseen};
use crate::model::{Colouring, Effort, JoinKind, Units};

/// So many rows for pieces that came up short.
const SHORT_ROWS: usize = 8;

/// The last parts.
pub(super) fn parts(desk: &Desk<'_>) -> Vec<Part> {
    let mut parts: Vec<Part> = std::iter::once(colouring(desk)).chain(colourings(desk)).collect();
    parts.extend([publisher(desk), glossary(desk)]);
    parts.extend((desk.audience == Audience::Testers).then(|| report(desk)));
    parts.push(editions(desk));
    parts
}

/// Each block in outline, to try fabrics on.
fn colouring(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let mut elements = vec![paragraph(words.colouring_intro())];
    for (block, figures) in desk.model.blocks.iter().zip(desk.figures) {
        let caption = if desk.model.blocks.len() > 1 { block.name.clone() } else { String::new() };
        elements.push(Element::Figures(vec![Figure { drawing: figures.outline.clone(), caption }]));
    }
    part("colouring", words.colouring_title(), Start::NewPage, elements)
}

/// The blocks in each colouring.
fn colourings(desk: &Desk<'_>) -> Option<Part> {
    let words = desk.words();
    let model = desk.model;
    let others = model.colourings.iter().filter(|colouring| model.colouring.as_ref() != Some(&colouring.title));
    let others: Vec<&Colouring> = others.collect();
    if others.is_empty() {
        return None;
    }
    let mut figures = Vec::new();
    for (block, drawn) in model.blocks.iter().zip(desk.figures) {
        let named = |title: &str| {
            if model.blocks.len() > 1 { words.colourings_block(&block.name, title) } else { title.to_owned() }
        };
        figures.push(Figure { drawing: drawn.front.clone(), caption: named(&words.colourings_drawn()) });
        for (colouring, drawing) in others.iter().zip(&drawn.colourings) {
            let changes: Vec<String> =
                colouring.fabrics.iter().filter_map(|&(from, to)| change(desk, from, to)).collect();
            let caption = format!("{}. {}", named(&colouring.title), changes.join("; "));
            figures.push(Figure { drawing: drawing.clone(), caption });
        }
    }
    // The one that is built is drawn as large as the others.
    let width = figures.iter().map(|figure| figure.drawing.width.to_inches()).fold(f64::INFINITY, f64::min);
    for figure in &mut figures {
        figure.drawing = figure.drawing.fitted(width).into_owned();
    }
    let elements = vec![paragraph(words.colourings_intro()), Element::Figures(figures)];
    Some(part("colourings", words.colourings_title(), Start::NewPage, elements))
}

/// Which fabric becomes which, by their names.
fn change(desk: &Desk<'_>, from: usize, to: usize) -> Option<String> {
    let fabrics = &desk.model.fabrics;
    Some(desk.words().colourings_change(&fabrics.get(from)?.name, &fabrics.get(to)?.name))
}

/// Terms, contact, where to report a fault.
fn publisher(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let facts = &desk.model.facts;
    let mut elements = Vec::new();
    if let Some(licence) = &facts.licence {
        elements.extend([heading(2, words.facts_terms()), paragraph(licence.clone())]);
    }
    if let Some(contact) = &facts.contact {
        elements.extend([heading(2, words.contact_title()), written(contact)]);
    }
    elements.extend([heading(2, words.report_fault_title()), paragraph(words.report_fault(&facts.edition))]);
    if let Some(report) = facts.report.as_ref().filter(|report| facts.contact.as_ref() != Some(report)) {
        elements.extend([paragraph(words.report_fault_where()), written(report)]);
    }
    part("terms", words.publisher_title(), Start::NewPage, elements)
}

/// The editions, where everybody looks for them: at the very end. Behind them stands how the packet was made.
fn editions(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let facts = &desk.model.facts;
    let mut elements = vec![paragraph(words.editions_this(&facts.edition))];
    if !facts.history.is_empty() {
        let rows = facts.history.iter().map(|edition| {
            vec![cell(&edition.edition), cell(edition.date.as_deref().unwrap_or("–")), cell(&edition.words)]
        });
        let columns = vec![
            column(words.editions_edition(), 1.0),
            column(words.editions_date(), 1.2),
            column(words.editions_what(), 4.5),
        ];
        let (caption, rows) = (words.editions_title(), rows.collect());
        elements.push(unseen(caption, columns, rows));
    }
    let divisions = || desk.model.blocks.iter().map(|block| &block.division).filter(|of| !of.weighed.is_empty());
    if divisions().next().is_some() {
        let yes_or_no = |is: bool| if is { "yes" } else { "no" };
        let proved = divisions().all(|division| division.papers_proved);
        elements.push(quiet(words.planned(yes_or_no(desk.model.effort == Effort::Thorough), yes_or_no(proved))));
    }
    elements.push(quiet(words.made_with()));
    elements.push(quiet(match desk.model.units {
        Units::Inches => words.footer_made(),
        Units::Metric => words.footer_made_metric(),
    }));
    part("editions", words.editions_title(), Start::Together, elements)
}

/// What a publisher wrote: a link where it is an address.
fn written(text: &str) -> Element {
    address(text).map_or_else(|| paragraph(text.to_owned()), |reference| Element::See(vec![reference]))
}

/// What the words mean that a packet uses.
fn glossary(desk: &Desk<'_>) -> Part {
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
    let joins = || desk.model.blocks.iter().flat_map(|block| &block.joins);
    let partial = joins().any(|join| matches!(join.kind, JoinKind::Partial { .. }));
    let inset = joins().any(|join| matches!(join.kind, JoinKind::Inset { .. }));
    let plain = desk.model.blocks.iter().any(|block| block.variants.iter().any(|v| !block.has_paper(v)));
    let mut sections = desk.model.blocks.iter().flat_map(|block| &block.units).flat_map(|unit| &unit.sections);
    let pieced = sections.any(|section| !section.pieced.is_empty());
    let of_leaves = [
        partial.then(|| (words.glossary_partial(), words.glossary_partial_is())),
        inset.then(|| (words.glossary_inset(), words.glossary_inset_is())),
        plain.then(|| (words.glossary_plain(), words.glossary_plain_is())),
        pieced.then(|| (words.glossary_pieced(), words.glossary_pieced_is())),
    ];
    let told = told.into_iter().chain(of_leaves.into_iter().flatten());
    let rows: Vec<Vec<Cell>> = told.map(|(word, meaning)| vec![cell(word), cell(meaning)]).collect();
    let columns = vec![column(words.glossary_word(), 1.0), column(words.glossary_meaning(), 3.6)];
    part("words", words.glossary_title(), Start::Here, vec![unseen(words.glossary_title(), columns, rows)])
}

/// What a tester fills in.
fn report(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let line = |label: String, lines: u8| FormLine { label, lines };
    let mut elements = vec![
        paragraph(words.tester_intro()),
        Element::Form(vec![
            line(words.tester_name(), 1),
            line(words.tester_printer(), 1),
            line(words.tester_bar(), 1),
            line(words.tester_machine(), 1),
            line(words.tester_time_cutting(), 1),
        ]),
    ];
    let mut rows = Vec::new();
    for block in &desk.model.blocks {
        for variant in block.variants.iter().filter(|variant| variant.sewn > 0 && block.has_paper(variant)) {
            let unit = block.unit_of(variant);
            let name = words.foundation(&variant.mark, &unit.name);
            rows.push(vec![cell(name), cell(trimmed(unit, variant, desk.measures)), cell(""), cell(""), cell("")]);
        }
    }
    let columns = vec![
        column(words.units_unit(), 1.5),
        column(words.tester_should(), 1.6),
        column(words.tester_measured(), 1.3),
        column(words.tester_time(), 0.8),
        column(words.tester_remarks(), 2.2),
    ];
    elements.push(table(words.tester_units_caption(), columns, rows));
    let columns = vec![
        column(words.tester_section(), 1.0),
        column(words.tester_short(), 2.0),
        column(words.tester_edge(), 2.6),
        column(words.tester_remarks(), 2.2),
    ];
    let empty = || vec![cell(""), cell(""), cell(""), cell("")];
    elements.push(table(words.tester_short_caption(), columns, (0..SHORT_ROWS).map(|_| empty()).collect()));
    elements.push(Element::Form(vec![line(words.tester_unclear(), 4), line(words.tester_other(), 4)]));
    part("report", words.tester_title(), Start::NewPage, elements)
}

/// A link out of the packet, where what is written is one.
fn address(written: &str) -> Option<Reference> {
    let is_address = ["https://", "http://", "mailto:"].iter().any(|start| written.starts_with(start));
    let target = if is_address {
        written.to_owned()
    } else if written.contains('@') && !written.contains(' ') {
        format!("mailto:{written}")
    } else {
        return None;
    };
    Some(Reference { words: written.to_owned(), target: Target::Address(target) })
}
