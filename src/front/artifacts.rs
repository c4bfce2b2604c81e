//! The files of a packet.

use std::path::{Component, Path};

use crate::backend::json::{FoundationPlace, PrintingFacts, SheetFacts};
use crate::backend::{csv, html, json, pdf, svg, text};
use crate::fault::{self, Fault};
use crate::model::{Model, Stretch};
use crate::packet::leaf::Leaf;
use crate::packet::page::Page;
use crate::packet::sheets::Former;
use crate::packet::words::Words;
use crate::packet::{Brief, Extent, Packet, Print, compose, typeface};
use crate::revision::{self, Revision};

use super::{Artifact, Tally};

/// All files of the packet of a model; `stem` names the main ones.
///
/// # Errors
/// Letters that the typeface lacks, or a document that could not be written.
pub fn artifacts(
    stem: &str,
    model: &Model,
    (brief, former): (Brief, Option<&Former>),
    words: &Words,
    progress: &mut dyn FnMut(&str),
) -> Result<(Vec<Artifact>, Vec<Tally>), Box<Fault>> {
    let packet = compose(model, brief, words, former, progress);
    can_be_printed(packet.prints.iter().flat_map(|print| &print.leaves))?;
    progress("writing the packet");
    let mut made = Vec::new();
    for print in &packet.prints {
        made.push(artifact(format!("{stem}{}.pdf", on_paper(&packet, print)), printed(model, &print.leaves, words)?));
    }
    if brief.extent == Extent::Whole {
        let key = html::key(&model.facts.title, &model.facts.edition, &model.size);
        let page = html::document(&packet.document, &html::Look { words, key: &key });
        made.push(artifact(format!("{stem}.html"), page));
        made.push(artifact("steps.txt".into(), text::steps(&model.facts.title, &packet.steps, words)));
        made.push(artifact("cutting.csv".into(), csv::chart(model)));
        made.push(artifact("strips.csv".into(), csv::strips(model)));
        made.push(artifact("model.json".into(), json::model(model, &printing_facts(&packet), &sheet_facts(&packet))));
    }
    for print in &packet.prints {
        for sheet in &print.printing.sheets {
            let name = format!("sheets/sheet-{}{}.svg", sheet.id, on_paper(&packet, print));
            made.push(artifact(name, svg::draw(&sheet.page)));
        }
    }
    if brief.extent == Extent::Whole {
        figures(model, &packet, &mut made);
        of_cutting(model, &packet, &mut made);
    }
    Ok((made, packet.prints.iter().map(tally).collect()))
}

/// What is printed of a print.
fn tally(print: &Print) -> Tally {
    let printing = &print.printing;
    Tally {
        paper: print.paper,
        printed: printing.printed(),
        different: printing.sheets.len(),
        at_least: printing.at_least,
        roll: printing.lengths(),
        foundations: printing.sheets.iter().map(|sheet| sheet.foundations.len()).sum(),
        kept: printing.kept,
    }
}

/// What tells the files of one paper from those of another: nothing where there is but one.
fn on_paper(packet: &Packet, print: &Print) -> String {
    if packet.prints.len() > 1 { format!("-{}", print.paper.word()) } else { String::new() }
}

/// What goes to those who have the former edition of a packet; `stem` names it.
///
/// # Errors
/// Letters that the typeface lacks, or a document that could not be written.
pub fn correction(
    stem: &str,
    (was, now): (&Model, &Model),
    revision: &Revision,
    words: &Words,
) -> Result<Vec<Artifact>, Box<Fault>> {
    let correction = revision::correction(was, now, revision, words);
    can_be_printed(correction.prints.iter().flat_map(|print| &print.leaves))?;
    let several = correction.prints.len() > 1;
    let mut made = Vec::new();
    for print in &correction.prints {
        let on_paper = if several { format!("-{}", print.paper.word()) } else { String::new() };
        made.push(artifact(format!("{stem}-correction{on_paper}.pdf"), printed(now, &print.leaves, words)?));
    }
    let key = html::key(&now.facts.title, &now.facts.edition, &format!("{} correction", now.size));
    let page = html::document(&correction.document, &html::Look { words, key: &key });
    made.push(artifact(format!("{stem}-correction.html"), page));
    Ok(made)
}

/// Refuses words with letters that the typeface lacks.
fn can_be_printed<'l>(leaves: impl Iterator<Item = &'l Leaf>) -> Result<(), Box<Fault>> {
    for line in leaves.flat_map(|leaf| leaf.page.texts()) {
        let missing = typeface::missing_letters(&line.words);
        if !missing.is_empty() {
            return Err(Box::new(fault::packet::missing_letter(&line.words, &missing)));
        }
    }
    Ok(())
}

fn printed(model: &Model, leaves: &[Leaf], words: &Words) -> Result<Vec<u8>, Box<Fault>> {
    let facts = pdf::DocumentFacts {
        title: model.facts.title.clone(),
        author: model.facts.author.clone(),
        subject: Some(words.packet_edition(&model.facts.edition)),
        keywords: Vec::new(),
        language: words.language(),
        layers: pdf::LayerNames {
            fabric: words.layer_fabric(),
            seams: words.layer_seams(),
            cutting: words.layer_cutting(),
            marks: words.layer_marks(),
        },
    };
    pdf::draw(leaves, &facts).map_err(|reason| Box::new(fault::packet::not_written(&reason.to_string())))
}

fn figures(model: &Model, packet: &Packet, made: &mut Vec<Artifact>) {
    for (block, figures) in model.blocks.iter().zip(&packet.figures) {
        let folder = format!("figures/{}", block.name);
        let mut draw = |name: String, page: &Page| made.push(artifact(format!("{folder}/{name}.svg"), svg::draw(page)));
        draw("front".into(), &figures.front);
        draw("map".into(), &figures.map);
        draw("outline".into(), &figures.outline);
        for (k, colouring) in figures.colourings.iter().enumerate() {
            draw(format!("colouring-{}", k + 1), colouring);
        }
        for (variant, steps) in block.variants.iter().zip(&figures.steps) {
            for (k, figures) in steps.iter().enumerate() {
                draw(format!("step-{}-{}-front", variant.mark, k + 1), &figures.front);
                if let Some(strips) = &figures.strips {
                    draw(format!("step-{}-{}-strips", variant.mark, k + 1), strips);
                }
                if let Some(printed) = &figures.printed {
                    draw(format!("step-{}-{}-printed", variant.mark, k + 1), printed);
                }
            }
        }
        for (pass, pages) in block.passes().iter().zip(&figures.joins) {
            let rest = if pass.stretch == Stretch::Rest { "-rest" } else { "" };
            for (k, page) in pages.iter().rev().enumerate() {
                draw(format!("join-{}{}", pass.join + 1, if k == 0 { rest } else { "-order" }), page);
            }
        }
    }
}

/// The cloth of each fabric to scale, by the fabric's key, and the windows for motifs.
fn of_cutting(model: &Model, packet: &Packet, made: &mut Vec<Artifact>) {
    for (cutting, pages) in model.cutting.iter().zip(&packet.cloth) {
        let key = model.fabrics.get(cutting.fabric).map_or("", |fabric| fabric.key.as_str());
        for (k, page) in pages.iter().enumerate() {
            made.push(artifact(format!("figures/cutting/{key}-{}.svg", k + 1), svg::draw(page)));
        }
    }
    for window in &packet.windows {
        made.push(artifact(window.path(model), svg::draw(&window.page)));
    }
}

/// Whether a path leads down into the folder it is told from, by forward slashes, on every system.
#[must_use]
pub fn leads_down(path: &str) -> bool {
    let components_are_names = Path::new(path).components().all(|component| matches!(component, Component::Normal(_)));
    let parts_are_names = path.split('/').all(|part| !part.is_empty() && part != "." && part != "..");
    components_are_names && parts_are_names && !path.contains(['\\', ':']) && !path.contains(char::is_control)
}

fn artifact(path: String, bytes: impl Into<Vec<u8>>) -> Artifact {
    Artifact { path, bytes: bytes.into() }
}

fn printing_facts(packet: &Packet) -> Vec<PrintingFacts> {
    let facts = packet.prints.iter().map(|Print { paper, printing, .. }| PrintingFacts {
        paper: *paper,
        printed: printing.printed(),
        different: printing.sheets.len(),
        at_least: printing.at_least,
        at_least_different: printing.at_least_different,
        roll: printing.lengths(),
        kept: printing.kept,
        spares: printing.spares.clone(),
    });
    facts.collect()
}

fn sheet_facts(packet: &Packet) -> Vec<SheetFacts> {
    let mut facts = Vec::new();
    for print in &packet.prints {
        for sheet in &print.printing.sheets {
            let placed = sheet.foundations.iter().map(|foundation| FoundationPlace {
                block: foundation.block,
                variant: foundation.variant,
                part: foundation.part,
                matrix: foundation.matrix,
                cutting_line: foundation.cutting_line.clone(),
            });
            facts.push(SheetFacts {
                id: format!("{}{}", sheet.id, on_paper(packet, print)),
                paper: sheet.bed.paper,
                size: (sheet.page.width, sheet.page.height),
                margin: sheet.bed.margin,
                times: sheet.times,
                foundations: placed.collect(),
            });
        }
    }
    facts
}
