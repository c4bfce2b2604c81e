//! Whether paper tells the truth: the sheets of every sample as two other programs rasterise them at 600 pixels to the inch, held against the model.
//!
//! Where a seam must end on the page follows from the model alone: its unit's seam and the matrix of the foundation. Where it does end is read from the
//! greys of the raster. Both may differ by half a pixel, 1/1200 in, and so may the corners of units, the square of an inch and the ticks of the bar.
//! Where a program is missing its view is not tested, unless `CI_TOOLS=required`.

#![allow(
    clippy::expect_used,
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test may stop at what it did not expect"
)]

mod raster;
mod sheet;
mod stroke;
#[path = "../support/mod.rs"]
mod support;

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use piecewright::model::Model;
use piecewright::packet::Print;

use raster::Renderer;
use sheet::{Finding, Kind, measure};
use support::printed::{main_print, printed};
use support::{patterns, samples, stem, tools};

/// How far anything may be from where it must be, in pixels.
const HALF_A_PIXEL: f64 = 0.5;

/// Which page of a packet shows a sheet, counted from 1.
fn page_of(print: &Print, sheet: usize) -> usize {
    let page = &print.sheets[sheet].page;
    1 + print.leaves.iter().position(|leaf| leaf.page == *page).expect("a sheet is a page")
}

/// What a renderer shows of each sheet in a file; nothing where it is missing.
fn look(renderer: Renderer, file: &Path, model: &Model, print: &Print) -> Option<Vec<Finding>> {
    let mut findings = Vec::new();
    for (k, sheet) in print.sheets.iter().enumerate() {
        let raster = renderer.page(file, page_of(print, k))?;
        let found = measure(&raster, model, sheet);
        findings.extend(found.into_iter().map(|finding| Finding { what: format!("sheet {}: {}", sheet.id, finding.what), ..finding }));
    }
    Some(findings)
}

fn sample(name: &str) {
    let source = patterns().join(format!("{name}.piece"));
    let (model, print) = main_print(&source);
    let file = tools::folder(&format!("truth-{name}")).join("packet.pdf");
    fs::write(&file, printed(&source)).expect("a file to look at");
    for renderer in Renderer::ALL {
        let Some(findings) = look(renderer, &file, &model, &print) else { continue };
        let mut by_kind: BTreeMap<Kind, (usize, usize, f64)> = BTreeMap::new();
        for finding in &findings {
            let (all, measured, worst) = by_kind.entry(finding.kind).or_default();
            *all += 1;
            if let Some(stray) = finding.stray {
                *measured += 1;
                *worst = worst.max(stray);
            }
        }
        for (kind, (all, measured, worst)) in by_kind {
            eprintln!("{name}, {renderer:?}, {kind:?}: {measured} of {all}, at most {worst:.3} px");
        }
        for finding in findings.iter().filter(|finding| finding.stray.is_none_or(|stray| stray > HALF_A_PIXEL)) {
            eprintln!("    {finding}");
        }
    }
}

macro_rules! truth_of {
    ($($test:ident: $name:literal,)+) => {
        $(#[test]
        fn $test() {
            sample($name);
        })+

        const TOLD: &[&str] = &[$($name),+];
    };
}

truth_of! {
    breakwater: "breakwater",
    buoy_star: "buoy-star",
    first_frost: "first-frost",
    fishing_boat: "fishing-boat",
    gull: "gull",
    harbour_series: "harbour-series",
    herring_net: "herring-net",
    storm_lantern: "storm-lantern",
    storm_petrel: "storm-petrel",
    tide_flags: "tide-flags",
}

#[test]
fn every_sample_is_measured() {
    let names: Vec<String> = samples().iter().map(|source| stem(source)).collect();
    assert_eq!(names, TOLD);
}
