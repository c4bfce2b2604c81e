//! What holds for the packet of every sample, on both papers.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::collections::BTreeMap;
use std::fs;
use std::sync::{Mutex, OnceLock};

use piecewright::geometry::{Point, Transform};
use piecewright::model::{Model, Paper, Units};
use piecewright::packet::compose;
use piecewright::packet::label::apart;
use piecewright::packet::page::{Item, Layer, Subpath};
use piecewright::packet::sheets::{self, Sheet};
use piecewright::packet::words::Words;
use piecewright::packet::{Audience, Brief};
use piecewright::{Options, build, model, piecing};
use support::layout::{assert_packet, at_once};
use support::{Folder, models_at, patterns, resolved, samples, stem};

/// A sample at one size on one paper, with its sheets.
struct Sample {
    name: String,
    model: Model,
    sheets: Vec<Sheet>,
    /// Whether it has the size it is drawn for.
    drawn: bool,
}

/// Every sample at the size it is drawn for, much smaller and much larger, on both papers. Made once for all tests.
fn samples_at_sizes() -> &'static [Sample] {
    static ALL: OnceLock<Vec<Sample>> = OnceLock::new();
    ALL.get_or_init(|| {
        let words = Words::english();
        let made = Mutex::new(Vec::new());
        let paths: Vec<_> = samples().into_iter().enumerate().collect();
        at_once(&paths, |(number, path)| {
            let pattern = resolved(path);
            let proof = piecing::prove(&pattern).expect("a sample can be sewn");
            let model = model::build(&pattern, &proof, 0).expect("the size it is drawn for");
            let others = models_at(&pattern, &[4.0, 12.0, 20.0]).into_iter().map(|model| (model, false));
            for (model, drawn) in std::iter::once((model, true)).chain(others) {
                for paper in [Paper::Letter, Paper::A4] {
                    let name = format!("{} {} {}", stem(path), model.size, paper.word());
                    let model = Model { paper, papers: vec![paper], ..model.clone() };
                    let sheets = sheets::sheets(&model, &words, Audience::Sewers);
                    made.lock().expect("no test failed here").push((*number, Sample { name, model, sheets, drawn }));
                }
            }
        });
        let mut made = made.into_inner().expect("no test failed here");
        made.sort_by_key(|(number, _)| *number);
        made.into_iter().map(|(_, sample)| sample).collect()
    })
}

/// A foundation by block, number and part.
type Printed = (usize, usize, Option<(u32, u32)>);

#[test]
fn as_many_copies_are_printed_as_are_sewn() {
    for Sample { name, model, sheets, .. } in samples_at_sizes() {
        let mut printed: BTreeMap<Printed, u32> = BTreeMap::new();
        for sheet in sheets {
            for foundation in &sheet.foundations {
                *printed.entry((foundation.block, foundation.variant, foundation.part)).or_default() += sheet.times;
            }
        }
        for (b, block) in model.blocks.iter().enumerate() {
            for (v, variant) in block.variants.iter().enumerate() {
                let copies: Vec<_> = printed.iter().filter(|((block, of, _), _)| (*block, *of) == (b, v)).collect();
                assert!(!copies.is_empty(), "{name}: {} is printed", variant.id);
                assert!(copies.iter().all(|(_, copies)| **copies == variant.sewn), "{name}: {} {copies:?}", variant.id);
                let parts = copies[0].0.2.map_or(1, |(_, of)| of as usize);
                assert_eq!(copies.len(), parts, "{name}: every part of {} is printed", variant.id);
            }
        }
    }
}

#[test]
fn foundations_keep_apart_within_the_printable_area_and_are_mirrored_rightly() {
    for Sample { name, model, sheets, .. } in samples_at_sizes() {
        for sheet in sheets {
            let (width, height) = sheet.paper.size();
            let margin = sheet.paper.margin().to_inches();
            for (i, foundation) in sheet.foundations.iter().enumerate() {
                for corner in foundation.cutting_line.corners() {
                    let inside = corner.x >= margin && corner.x <= width.to_inches() - margin;
                    let inside = inside && corner.y >= margin && corner.y <= height.to_inches() - margin;
                    assert!(inside, "{name} sheet {}: {corner:?}", sheet.id);
                }
                for other in &sheet.foundations[i + 1..] {
                    let (a, b) = (foundation.cutting_line.corners(), other.cutting_line.corners());
                    assert!(apart(a, b, 0.1), "{name} sheet {}: foundations touch", sheet.id);
                }
                let variant = &model.blocks[foundation.block].variants[foundation.variant];
                let determinant = foundation.matrix.determinant();
                assert!((determinant.abs() - 1.0).abs() < 1e-9, "{name}: foundations are printed to size");
                assert_eq!(determinant < 0.0, !variant.mirrored, "{name}: {} is printed as a mirror image", variant.id);
            }
        }
    }
}

#[test]
fn the_crosses_of_lapped_parts_lie_on_each_other() {
    let mut seen = 0;
    for Sample { name, model, sheets, .. } in samples_at_sizes() {
        for sheet in sheets {
            for foundation in sheet.foundations.iter().filter(|foundation| foundation.part.is_some()) {
                let parts = sheets::foundation(model, foundation.block, foundation.variant, &Words::english());
                let centres: Vec<Point> = parts.iter().flat_map(|part| crosses(&part.items, &part.matrix)).collect();
                assert!(!centres.is_empty(), "{name}: parts have crosses");
                for centre in &centres {
                    let twins = centres.iter().filter(|other| other.distance(*centre) < 1e-6).count();
                    assert!(twins >= 2, "{name}: the cross at {centre:?} has no twin");
                }
                seen += centres.len();
            }
        }
    }
    assert!(seen > 0, "some sample is larger than a page");
}

/// The middles of the crosses in a part of a foundation, in the unit's frame.
fn crosses(items: &[Item], matrix: &Transform) -> Vec<Point> {
    let back = matrix.inverse().expect("paper is not flattened");
    let mut found = Vec::new();
    for item in items {
        match item {
            Item::Window(window) => found.extend(crosses(&window.items, matrix)),
            Item::Path(path) if path.layer == Layer::Marks && path.subpaths.len() == 2 => {
                let ends: Vec<Point> = path.subpaths.iter().flat_map(Subpath::places).collect();
                let (from, to) = (ends[0], ends[ends.len() / 2 - 1]);
                found.push(back.apply(from.middle(to)));
            }
            Item::Path(_) | Item::Text(_) | Item::Photo(_) => {}
        }
    }
    found
}

#[test]
fn every_packet_is_laid_out_well() {
    let words = Words::english();
    // Both papers of a model are set at once: its figures are drawn once.
    let on_letter = samples_at_sizes().iter().filter(|sample| sample.model.paper == Paper::Letter);
    let german = Words::of("de").expect("German words");
    let testers = Brief { audience: Audience::Testers, ..Brief::default() };
    at_once(&on_letter.collect::<Vec<_>>(), |Sample { name, model, drawn, .. }| {
        let model = Model { papers: vec![Paper::Letter, Paper::A4], ..model.clone() };
        let packet = compose(&model, Brief::default(), &words, &mut |_| {});
        assert_eq!(packet.prints.len(), 2, "{name}: on Letter and on A4");
        assert_packet(name, &packet);
        if *drawn {
            assert_packet(&format!("{name} for testers"), &compose(&model, testers, &words, &mut |_| {}));
            assert_packet(&format!("{name} in German"), &compose(&model, testers, &german, &mut |_| {}));
        }
    });
    let units = |units: Units| samples_at_sizes().iter().any(|sample| sample.drawn && sample.model.units == units);
    assert!(units(Units::Inches) && units(Units::Metric), "some in inches, some metric");
}

#[test]
fn every_section_is_named_on_paper() {
    for Sample { name, model, sheets, .. } in samples_at_sizes() {
        let words: Vec<&str> =
            sheets.iter().flat_map(|sheet| sheet.page.texts()).map(|text| text.words.as_str()).collect();
        for block in &model.blocks {
            for variant in &block.variants {
                for k in 1..=variant.fabrics.len() {
                    let label = format!("{}{k}", variant.mark);
                    assert!(words.contains(&label.as_str()), "{name}: {label} stands on no sheet");
                }
            }
        }
    }
}

#[test]
fn the_same_source_gives_the_same_bytes_and_valid_json() {
    let schema: serde_json::Value =
        serde_json::from_str(include_str!("../docs/model.schema.json")).expect("the schema is JSON");
    let mut schemas = boon::Schemas::new();
    let mut compiler = boon::Compiler::new();
    compiler.add_resource("model.schema.json", schema).expect("a schema");
    let schema = compiler.compile("model.schema.json", &mut schemas).expect("a schema that compiles");
    for path in samples() {
        let text = fs::read_to_string(&path).expect("a readable sample");
        let once = || build(&stem(&path), &text, &Folder(patterns()), &Options::default(), &mut |_| {});
        let (first, second) = (once(), once());
        let artifacts = first.artifacts.expect("a sample builds");
        assert_eq!(Some(&artifacts), second.artifacts.as_ref(), "{}", path.display());
        let json = artifacts.iter().find(|made| made.path == "model.json").expect("a model");
        let json: serde_json::Value = serde_json::from_slice(&json.bytes).expect("valid JSON");
        if let Err(fault) = schemas.validate(&json, schema) {
            panic!("{}: {fault:#}", path.display());
        }
    }
}
