//! The files of a packet.

use crate::backend::json::{FoundationPlace, SheetFacts};
use crate::backend::{csv, html, json, pdf, svg, text};
use crate::fault::{self, Fault};
use crate::geometry::Point;
use crate::model::Model;
use crate::packet::leaf::{Bookmark, Leaf};
use crate::packet::page::Page;
use crate::packet::words::Words;
use crate::packet::{Packet, compose, typeface};

use super::Artifact;

/// All files of the packet of a model; `stem` names the main ones.
///
/// # Errors
/// Letters that the typeface lacks, or a document that could not be written.
pub fn artifacts(stem: &str, model: &Model, progress: &mut dyn FnMut(&str)) -> Result<Vec<Artifact>, Box<Fault>> {
    let words = Words::english();
    let packet = compose(model, &words, progress);
    for line in packet.pages.iter().flat_map(|page| page.texts()) {
        let missing = typeface::missing_letters(&line.words);
        if !missing.is_empty() {
            return Err(Box::new(fault::packet::missing_letter(&line.words, &missing)));
        }
    }
    progress("writing the packet");
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
    let printed = pdf::draw(&leaves(&packet.pages), &facts)
        .map_err(|reason| Box::new(fault::packet::not_written(&reason.to_string())))?;
    let page = html::page(&html::Content { model, packet: &packet, words: &words });
    let mut made = vec![
        artifact(format!("{stem}.pdf"), printed),
        artifact(format!("{stem}.html"), page),
        artifact("steps.txt".into(), text::steps(&model.facts.title, &packet.steps)),
        artifact("cutting.csv".into(), csv::chart(model)),
        artifact("model.json".into(), json::model(model, &sheet_facts(&packet))),
    ];
    for sheet in &packet.sheets {
        made.push(artifact(format!("sheets/sheet-{}.svg", sheet.id), svg::draw(&sheet.page)));
    }
    for (block, figures) in model.blocks.iter().zip(&packet.figures) {
        let folder = format!("figures/{}", block.name);
        made.push(artifact(format!("{folder}/front.svg"), svg::draw(&figures.front)));
        made.push(artifact(format!("{folder}/map.svg"), svg::draw(&figures.map)));
        for (variant, steps) in block.variants.iter().zip(&figures.steps) {
            for (k, (front, printed)) in steps.iter().enumerate() {
                let name = format!("{folder}/step-{}-{}", variant.mark, k + 1);
                made.push(artifact(format!("{name}-front.svg"), svg::draw(front)));
                made.push(artifact(format!("{name}-printed.svg"), svg::draw(printed)));
            }
        }
        for (k, join) in figures.joins.iter().enumerate() {
            made.push(artifact(format!("{folder}/join-{}.svg", k + 1), svg::draw(join)));
        }
    }
    Ok(made)
}

/// The pages, numbered, with a bookmark where a title is new.
fn leaves(pages: &[Page]) -> Vec<Leaf> {
    let mut last = "";
    let mut leaves = Vec::with_capacity(pages.len());
    for (page, number) in pages.iter().zip(1..) {
        let title = page.title.as_str();
        let new = !title.is_empty() && title != last;
        let bookmark = new.then(|| Bookmark { depth: 1, title: title.to_owned(), at: Point::new(0.0, 0.0) });
        last = if title.is_empty() { last } else { title };
        leaves.push(Leaf {
            page: page.clone(),
            label: format!("{number}"),
            bookmarks: bookmark.into_iter().collect(),
            places: Vec::new(),
            links: Vec::new(),
        });
    }
    leaves
}

fn artifact(path: String, bytes: impl Into<Vec<u8>>) -> Artifact {
    Artifact { path, bytes: bytes.into() }
}

fn sheet_facts(packet: &Packet) -> Vec<SheetFacts> {
    let sheets = packet.sheets.iter().map(|sheet| SheetFacts {
        id: sheet.id.clone(),
        times: sheet.times,
        foundations: sheet
            .foundations
            .iter()
            .map(|foundation| FoundationPlace {
                block: foundation.block,
                variant: foundation.variant,
                part: foundation.part,
                matrix: foundation.matrix,
            })
            .collect(),
    });
    sheets.collect()
}
