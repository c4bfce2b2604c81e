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

mod found_out;
mod raster;
mod sheet;
mod stroke;
#[path = "../support/mod.rs"]
mod support;
mod turned;

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use piecewright::geometry::Transform;
use piecewright::model::Model;
use piecewright::packet::Print;
use piecewright::packet::sheets::Sheet;

use raster::{DENSITY, Renderer};
use sheet::{Finding, Kind, View, ends_sewn, ends_shown, measure};
use support::printed::{main_print, printed};
use support::{patterns, samples, stem, tools};

/// How far anything may be from where it must be, in pixels.
const HALF_A_PIXEL: f64 = 0.5;

/// So many of a hundred ends of seams may be hidden in a packet. None is in the samples.
const MOST_HIDDEN: usize = 1;

/// Whether something is not where it must be, or not to be seen.
fn is_untrue(finding: &Finding) -> bool {
    finding.stray.is_none_or(|stray| stray > HALF_A_PIXEL)
}

/// Which page of a packet shows a sheet, counted from 1.
fn page_of(print: &Print, sheet: &Sheet) -> usize {
    1 + print.leaves.iter().position(|leaf| leaf.page == sheet.page).expect("a sheet is a page")
}

/// What a renderer shows of each sheet in a file; nothing where it is missing.
fn look(renderer: Renderer, turned: bool, file: &Path, (model, print): (&Model, &Print)) -> Option<Vec<Finding>> {
    let to_pixels = if turned { turned::to_pixels(print.paper) } else { Transform::scale(DENSITY) };
    let mut findings = Vec::new();
    for sheet in &print.printing.sheets {
        let raster = renderer.page(file, page_of(print, sheet))?;
        let view = View { raster: &raster, to_pixels, snaps: renderer.snaps() && !turned };
        let found = measure(view, model, sheet).into_iter();
        findings.extend(found.map(|found| Finding { what: format!("sheet {}: {}", sheet.id, found.what), ..found }));
    }
    Some(findings)
}

/// Says what was measured, and asserts that it is true.
fn weigh(name: &str, findings: &[Finding]) {
    let mut by_kind: BTreeMap<Kind, (usize, usize, f64)> = BTreeMap::new();
    for finding in findings {
        let (all, measured, worst) = by_kind.entry(finding.kind).or_default();
        *all += 1;
        if let Some(stray) = finding.stray {
            *measured += 1;
            *worst = worst.max(stray);
        }
    }
    for (kind, (all, measured, worst)) in &by_kind {
        println!("{name}, {kind:?}: {measured} of {all} measured, at most {worst:.3} px from where it must be");
    }
    let ends = by_kind.get(&Kind::SeamEnd).map_or(0, |(all, ..)| *all);
    let (hidden, untrue): (Vec<&Finding>, Vec<&Finding>) =
        findings.iter().filter(|finding| is_untrue(finding)).partition(|finding| finding.stray.is_none());
    for hidden in &hidden {
        println!("{name}: {hidden}");
    }
    let is_end = |finding: &&&Finding| finding.kind == Kind::SeamEnd;
    let hidden_ends = hidden.iter().filter(is_end).count();
    assert!(hidden_ends * 100 <= ends * MOST_HIDDEN, "{name}: {hidden_ends} of {ends} ends are hidden");
    assert_eq!(hidden.len(), hidden_ends, "{name}: all else is to be seen: {hidden:#?}");
    assert!(untrue.is_empty(), "{name}: {untrue:#?}");
}

fn sample(name: &str) {
    assert_true(&patterns().join(format!("{name}.piece")));
}

fn assert_true(source: &Path) {
    let name = &stem(source);
    let (model, print) = main_print(source);
    let shown = print.printing.sheets.iter().flat_map(|sheet| ends_shown(&model, sheet)).collect();
    assert_eq!(ends_sewn(&model), shown, "{name}: each end of each seam is printed");
    let folder = tools::folder(&format!("truth-{name}"));
    let (file, turned) = (folder.join("packet.pdf"), folder.join("turned.pdf"));
    let bytes = printed(source);
    let pages: Vec<usize> = print.printing.sheets.iter().map(|sheet| page_of(&print, sheet)).collect();
    fs::write(&turned, turned::pages(&bytes, &pages, print.paper)).expect("a file to look at");
    fs::write(&file, bytes).expect("a file to look at");
    for renderer in Renderer::ALL {
        for (is_turned, file, how) in [(false, &file, ""), (true, &turned, " turned")] {
            if let Some(findings) = look(renderer, is_turned, file, (&model, &print)) {
                weigh(&format!("{name}, {renderer:?}{how}"), &findings);
            }
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

/// Strips within sections, rings, inset corners, slender tips and foundations in parts.
#[test]
fn fixtures() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures");
    for name in [
        "pieced-sections",
        "pieced-places",
        "ring-of-five",
        "inset",
        "octagon",
        "sharp-tip",
        "large-on-a4",
        "short-seam",
    ] {
        assert_true(&folder.join(format!("{name}.piece")));
    }
}

#[test]
fn every_sample_is_measured() {
    let names: Vec<String> = samples().iter().map(|source| stem(source)).collect();
    assert_eq!(names, TOLD);
}
