//! Samples drawn twice, once as units and once as patches: the picture is the same, and the planner needs no more papers than the author.
//!
//! A sample's twin lies in `tests/twins/` under the same name, and uses the shared files of the samples.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use piecewright::geometry::{Polygon, Tolerance};
use piecewright::model::{Block, Model};
use piecewright::pattern::{self, Pattern};
use support::{as_sewn, drawn, models_at, patterns, samples, stem};

/// The width in inches at which sample and twin are compared.
const WIDTH: f64 = 12.0;

/// Samples that cannot be drawn both ways, and why. None at present.
const ALONE: &[(&str, &str)] = &[];

fn twins() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/twins");
    let entries = fs::read_dir(folder).expect("the twins are there");
    let mut all: Vec<PathBuf> = entries.map(|entry| entry.expect("a readable entry").path()).collect();
    all.sort();
    all
}

/// An area of a block where it stands, in inches of the block's front, and the name of its fabric.
struct Area {
    fabric: String,
    polygon: Polygon,
}

fn areas(model: &Model, block: &Block) -> Vec<Area> {
    let mut all = Vec::new();
    for (index, place) in block.placements.iter().enumerate() {
        let variant = block.variant_at(index);
        for (section, &fabric) in block.unit_of(variant).sections.iter().zip(&variant.fabrics) {
            let fabric = model.fabrics[fabric].name.clone();
            all.push(Area { fabric, polygon: place.transform.apply_to_polygon(&section.polygon) });
        }
    }
    all
}

fn same(a: &Area, b: &Area, tolerance: Tolerance) -> bool {
    a.fabric == b.fabric && a.polygon.covers(&b.polygon, tolerance) && b.polygon.covers(&a.polygon, tolerance)
}

/// The areas of the one that the other does not have, in words.
fn missing(of: &[Area], among: &[Area]) -> Vec<String> {
    let tolerance = Tolerance::of_extent(WIDTH);
    let lacks = of.iter().filter(|area| !among.iter().any(|other| same(area, other, tolerance)));
    lacks.map(|area| format!("{} {:.3?}", area.fabric, area.polygon.corners())).collect()
}

fn drawn_as_patches(block: &pattern::Block) -> bool {
    !block.patches.is_empty()
}

/// Sample and twin: the pattern as drawn, and the model with everything planned.
fn pair(twin: &Path) -> [(Pattern, Model); 2] {
    let sample = patterns().join(twin.file_name().expect("a twin has a name"));
    [&sample, twin].map(|path| {
        let pattern = drawn(path, &patterns());
        let model = models_at(&as_sewn(&pattern), &[WIDTH]).remove(0);
        (pattern, model)
    })
}

#[test]
fn every_sample_has_a_twin_or_a_reason() {
    let names = |paths: Vec<PathBuf>| paths.iter().map(|path| stem(path)).collect::<Vec<String>>();
    let mut told = names(twins());
    told.extend(ALONE.iter().map(|(name, _)| (*name).to_owned()));
    let once: BTreeSet<&String> = told.iter().collect();
    assert_eq!(once.len(), told.len(), "a sample has a twin or a reason, not both: {told:?}");
    let samples = names(samples());
    assert_eq!(once, samples.iter().collect(), "samples that are told, and samples that are there");
}

#[test]
fn sample_and_twin_are_the_same_picture() {
    for twin in twins() {
        let name = stem(&twin);
        let [(_, sample), (_, twin)] = pair(&twin);
        assert_eq!(sample.facts.title, twin.facts.title, "{name}");
        assert_eq!(sample.blocks.len(), twin.blocks.len(), "{name}");
        for (one, other) in sample.blocks.iter().zip(&twin.blocks) {
            assert_eq!((&one.name, &one.finished, one.copies), (&other.name, &other.finished, other.copies), "{name}");
            let (in_sample, in_twin) = (areas(&sample, one), areas(&twin, other));
            assert_eq!(missing(&in_sample, &in_twin), [""; 0], "{name}: only in the sample's block {}", one.name);
            assert_eq!(missing(&in_twin, &in_sample), [""; 0], "{name}: only in the twin's block {}", one.name);
            assert_eq!(in_sample.len(), in_twin.len(), "{name}: block {}", one.name);
        }
    }
}

#[test]
fn one_draws_units_the_other_patches_and_those_take_no_more_papers() {
    for twin in twins() {
        let name = stem(&twin);
        let [(sample_drawn, sample), (twin_drawn, twin)] = pair(&twin);
        for (index, (one, other)) in sample_drawn.blocks.iter().zip(&twin_drawn.blocks).enumerate() {
            let papers = |model: &Model| model.blocks[index].placements.len();
            let (by_plan, own, patches) = match (drawn_as_patches(one), drawn_as_patches(other)) {
                (true, false) => (papers(&sample), papers(&twin), one),
                (false, true) => (papers(&twin), papers(&sample), other),
                both => panic!("{name}: block {} is drawn {both:?} as patches", one.name),
            };
            assert!(patches.placements.is_empty(), "{name}: block {} is drawn of patches alone", one.name);
            assert!(by_plan <= own, "{name}: block {}: {by_plan} papers by plan, {own} by hand", one.name);
        }
    }
}
