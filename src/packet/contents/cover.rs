//! The cover.

use super::super::document::{Content, Cover, Fact, Figure, Medium, Part, Start};
use super::super::embed;
use super::super::leaf::Place;
use super::Desk;
use super::level::Level;
use crate::model::Image;

/// The cover: what the block looks like, and the facts at a glance.
pub(super) fn cover(desk: &Desk<'_>) -> Part {
    let words = desk.words();
    let model = desk.model;
    let several = model.blocks.len() > 1;
    let fronts = model.blocks.iter().zip(desk.figures).map(|(block, figures)| Figure {
        drawing: figures.front.clone(),
        caption: if several { words.front_caption(&block.name) } else { String::new() },
    });
    let content = Cover {
        line: line(desk),
        logo: model.facts.logo.as_ref().map(|logo| pictured(logo, 1.5)),
        photo: model.facts.photo.as_ref().map(|photo| pictured(photo, 5.0)),
        fronts: fronts.collect(),
        facts: facts(desk),
        words: model.facts.about.clone(),
    };
    let title = words.front_title();
    Part {
        place: Place::new("block"),
        title,
        start: Start::NewPage,
        medium: Medium::Both,
        content: Content::Cover(Box::new(content)),
    }
}

fn pictured(image: &Image, width: f64) -> Figure {
    Figure { drawing: embed::picture(image, width), caption: String::new() }
}

/// Edition, size, author.
fn line(desk: &Desk<'_>) -> String {
    let words = desk.words();
    let facts = &desk.model.facts;
    let edition = match &facts.date {
        Some(date) => words.packet_dated(&facts.edition, date),
        None => words.packet_edition(&facts.edition),
    };
    let author = facts.author.as_ref().map(|author| format!("  ·  {author}")).unwrap_or_default();
    format!("{edition}  ·  {}{author}", desk.size())
}

fn facts(desk: &Desk<'_>) -> Vec<Fact> {
    let words = desk.words();
    let model = desk.model;
    let mut facts = Vec::new();
    let mut fact = |name: String, value: String| facts.push(Fact { name, value });
    for block in &model.blocks {
        let size = if block.copies > 1 {
            words.facts_block_copies(&block.finished, block.copies)
        } else {
            block.finished.clone()
        };
        let name = if model.blocks.len() > 1 { words.facts_block(&block.name) } else { words.facts_finished() };
        fact(name, size);
    }
    let level = Level::of(model);
    let told = words.level_name(level.number());
    match &model.facts.skill {
        Some(skill) => fact(words.facts_skill(), skill.clone()),
        None => fact(words.facts_level(), words.facts_level_value(level.number(), told)),
    }
    let mut foundations: u32 = 0;
    let mut pieces: u32 = 0;
    // Seams within units.
    let mut within: u32 = 0;
    let mut joins: u32 = 0;
    let mut points: u32 = 0;
    for block in &model.blocks {
        for variant in &block.variants {
            let sections = u32::try_from(variant.pieces()).unwrap_or(u32::MAX);
            if block.has_paper(variant) {
                foundations = foundations.saturating_add(variant.sewn);
            }
            pieces = pieces.saturating_add(sections.saturating_mul(variant.sewn));
            within = within.saturating_add(sections.saturating_sub(1).saturating_mul(variant.sewn));
        }
        // Single units are not joined.
        if block.variants.iter().all(|variant| variant.sewn > 0) {
            let times = |n: usize| u32::try_from(n).unwrap_or(u32::MAX).saturating_mul(block.copies);
            joins = joins.saturating_add(times(block.joins.len()));
            let matched: usize = block.joins.iter().map(|join| join.match_points.len()).sum();
            points = points.saturating_add(times(matched));
        }
    }
    let printed = desk.printing.printed();
    fact(words.facts_foundations(), words.facts_foundations_value(foundations, printed));
    fact(words.facts_sections(), words.facts_count(pieces));
    let seams = within.saturating_add(joins);
    fact(words.facts_seams(), words.facts_seams_value(seams, joins));
    fact(words.facts_match_points(), words.facts_count(points));
    fact(words.facts_fabrics(), words.facts_count(model.cutting.len()));
    fact(words.facts_allowance(), desk.measures.length(model.allowance));
    facts
}
