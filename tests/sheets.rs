//! What holds for the sheets of every sample, on every paper and whatever is wished of them.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::collections::BTreeMap;

use piecewright::filling::{Turning, Wish};
use piecewright::geometry::{Length, Polygon};
use piecewright::model::{Apart, Effort, Model, SheetPaper, SheetRules};
use piecewright::packet::Audience;
use piecewright::packet::sheets::{Former, Printing, sheets};
use piecewright::packet::words::Words;
use piecewright::{Options, build, model, piecing};
use support::layout::at_once;
use support::{Folder, models_at, patterns, resolved, samples, stem};

/// How near two foundations may come by rounding, in inches.
const ROUNDING: f64 = 3e-5;

/// Every sample at its own size and at 12 inches.
fn models() -> Vec<(String, Model)> {
    let of = |path: &std::path::PathBuf| {
        let pattern = resolved(path);
        let proof = piecing::prove(&pattern).expect("a sample can be sewn");
        let own = model::build(&pattern, &proof, 0).expect("the size it is drawn for");
        let named = |model: Model| (format!("{} {}", stem(path), model.size), Model { effort: Effort::Quick, ..model });
        std::iter::once(own).chain(models_at(&pattern, &[12.0])).map(named).collect::<Vec<_>>()
    };
    samples().iter().flat_map(of).collect()
}

fn filled(model: &Model, rules: SheetRules) -> Printing {
    let model = Model { sheets: rules, ..model.clone() };
    sheets(&model, &Words::english(), Audience::Sewers, None)
}

/// The distance of two convex polygons, from their corners and edges alone; nothing where they overlap.
fn distance(a: &Polygon, b: &Polygon) -> f64 {
    let inside = |corners: &Polygon, area: &Polygon| {
        let right = |corner: &_| area.edges().all(|edge| edge.line().expect("long").distance_right(*corner) > 0.0);
        corners.corners().iter().any(right)
    };
    let crosses = a.edges().any(|e| {
        b.edges().any(|f| {
            let (le, lf) = (e.line().expect("long"), f.line().expect("long"));
            le.distance_right(f.start) * le.distance_right(f.end) < 0.0
                && lf.distance_right(e.start) * lf.distance_right(e.end) < 0.0
        })
    });
    if crosses || inside(a, b) || inside(b, a) {
        return 0.0;
    }
    let near = |a: &Polygon, b: &Polygon| {
        let to_corners = |edge: piecewright::geometry::Segment| {
            b.corners().iter().map(move |&corner| edge.distance(corner)).collect::<Vec<_>>()
        };
        a.edges().flat_map(to_corners).fold(f64::INFINITY, f64::min)
    };
    near(a, b).min(near(b, a))
}

/// A foundation by block, number and part.
type Printed = (usize, usize, Option<(u32, u32)>);

/// What holds for sheets, whatever is wished.
fn assert_sheets(name: &str, model: &Model, rules: &SheetRules, printing: &Printing) {
    let mut printed: BTreeMap<Printed, u32> = BTreeMap::new();
    for sheet in &printing.sheets {
        let margin = sheet.bed.margin.to_inches() - ROUNDING;
        let (width, height) = (sheet.page.width.to_inches(), sheet.page.height.to_inches());
        assert!(!sheet.foundations.is_empty() && sheet.times > 0, "{name}: sheet {} is of use", sheet.id);
        for (i, on) in sheet.foundations.iter().enumerate() {
            *printed.entry((on.block, on.variant, on.part)).or_default() += sheet.times;
            for corner in on.cutting_line.corners() {
                let across = corner.x >= margin && corner.x <= width - margin;
                // The square above and the bar below keep their own room.
                assert!(across && corner.y >= margin + 1.0 && corner.y <= height - margin - 0.3, "{name}: {corner:?}");
            }
            for other in &sheet.foundations[i + 1..] {
                let apart = distance(&on.cutting_line, &other.cutting_line);
                assert!(apart >= rules.gap.to_inches() - ROUNDING, "{name}, sheet {}: {apart} apart", sheet.id);
                let together = match rules.apart {
                    Apart::Nothing => true,
                    Apart::Blocks => on.block == other.block,
                    Apart::Units => (on.block, on.variant) == (other.block, other.variant),
                };
                assert!(together, "{name}, sheet {}: what is to be apart shares a sheet", sheet.id);
            }
        }
    }
    for (b, block) in model.blocks.iter().enumerate() {
        for (v, variant) in block.variants.iter().enumerate().filter(|(_, variant)| block.has_paper(variant)) {
            let mut parts = 0;
            for ((.., part), copies) in printed.iter().filter(|((block, of, _), _)| (*block, *of) == (b, v)) {
                let spare = printing.spares.iter().find(|s| (s.block, s.variant, s.part) == (b, v, *part));
                let spare = spare.map_or(0, |spare| spare.count);
                assert_eq!(*copies, variant.sewn + spare, "{name}: copies of {} {part:?}", variant.id);
                parts += 1;
                assert_eq!(part.map_or(1, |(_, of)| of) == 1, part.is_none(), "{name}: a part is one of several");
            }
            assert!(parts > 0 || variant.sewn == 0, "{name}: {} is printed", variant.id);
        }
    }
    assert!(printing.at_least <= printing.printed(), "{name}: no less than the bound");
    assert!(printing.at_least_different as usize <= printing.sheets.len(), "{name}: no fewer than the bound");
}

#[test]
fn foundations_keep_their_gap_and_their_count_on_every_paper() {
    let papers = [
        SheetPaper::Letter,
        SheetPaper::Legal,
        SheetPaper::Tabloid,
        SheetPaper::A4,
        SheetPaper::A3,
        SheetPaper::Roll { width: Length::inches(24.0), longest: Length::inches(48.0) },
        SheetPaper::Roll { width: Length::inches(11.0), longest: Length::inches(20.0) },
    ];
    at_once(&models(), |(name, model)| {
        for paper in papers {
            let rules = SheetRules { on: vec![paper], ..SheetRules::default() };
            let printing = filled(model, rules.clone());
            let name = format!("{name} on {}", paper.word());
            assert_sheets(&name, model, &rules, &printing);
            for sheet in &printing.sheets {
                let (width, height) = paper.size();
                assert_eq!(sheet.page.width, width, "{name}");
                assert!(sheet.page.height == height || paper.is_roll() && sheet.page.height <= height, "{name}");
            }
        }
    });
}

#[test]
fn every_wish_is_granted_and_costs_what_it_may() {
    at_once(&models(), |(name, model)| {
        let usual = SheetRules::default();
        let all = filled(model, usual.clone());
        assert_sheets(name, model, &usual, &all);
        for turning in [Turning::Quarters, Turning::Fixed] {
            let rules = SheetRules { turning, ..usual.clone() };
            let turned = filled(model, rules.clone());
            assert_sheets(&format!("{name} {turning:?}"), model, &rules, &turned);
            assert!(turned.printed() >= all.printed(), "{name} {turning:?}: who may turn freely prints no more");
        }
        for apart in [Apart::Blocks, Apart::Units] {
            let rules = SheetRules { apart, ..usual.clone() };
            let kept = filled(model, rules.clone());
            assert_sheets(&format!("{name} {apart:?}"), model, &rules, &kept);
        }
        for surplus in [0.0, 0.5] {
            let rules = SheetRules { wish: Wish::FewestDifferent { surplus }, ..usual.clone() };
            let few = filled(model, rules.clone());
            assert_sheets(&format!("{name} surplus {surplus}"), model, &rules, &few);
            assert!(few.sheets.len() <= all.sheets.len(), "{name} surplus {surplus}: no more different ones");
            let most = (f64::from(all.printed()) * (1.0 + surplus)).floor();
            assert!(f64::from(few.printed()) <= most, "{name}: {} printed for {surplus}", few.printed());
        }
        let narrow = SheetRules { margin: Length::inches(0.25), gap: Length::inches(0.5), ..usual };
        assert_sheets(&format!("{name} narrow"), model, &narrow, &filled(model, narrow.clone()));
        assert_eq!(all, filled(model, SheetRules::default()), "{name}: the same twice");
    });
}

/// The file `model.json` of a build.
fn model_json(text: &str, folder: &Folder, options: &Options) -> String {
    let built = build("gull.piece", text, folder, options, &mut |_| {});
    let artifacts = built.artifacts.unwrap_or_else(|| panic!("{:?}", built.faults));
    let file = artifacts.into_iter().find(|artifact| artifact.path == "model.json").expect("a model");
    String::from_utf8(file.bytes).expect("text")
}

/// By paper and sheet, what lies where: the rows of `foundations` in `model.json`.
fn lies(json: &str) -> Vec<Vec<serde_json::Value>> {
    let root: serde_json::Value = serde_json::from_str(json).expect("JSON");
    let sheets = root["sheets"].as_array().expect("sheets");
    sheets.iter().map(|sheet| sheet["foundations"].as_array().expect("foundations").clone()).collect()
}

#[test]
fn foundations_stay_where_they_lay() {
    for path in samples() {
        let text = std::fs::read_to_string(&path).expect("a sample");
        let folder = Folder(patterns());
        let first = model_json(&text, &folder, &Options::default());
        let since = Some(Former::read(&first).expect("a model"));
        let again = model_json(&text, &folder, &Options { since, ..Options::default() });
        assert_eq!(lies(&first), lies(&again), "{}: nothing moves where nothing changed", stem(&path));
        let root: serde_json::Value = serde_json::from_str(&again).expect("JSON");
        for printing in root["printing"].as_array().expect("printing") {
            let on = |sheet: &&serde_json::Value| {
                root["printing"].as_array().map(Vec::len) == Some(1)
                    || sheet["id"].as_str().expect("an id").ends_with(printing["paper"].as_str().expect("a paper"))
            };
            let sheets = root["sheets"].as_array().expect("sheets").iter().filter(on);
            let count: usize = sheets.map(|sheet| sheet["foundations"].as_array().expect("them").len()).sum();
            assert_eq!(printing["kept"], count, "{}: all are kept", stem(&path));
        }
    }
}

/// Six rows, one above the other, as a source; the second ends at so many steps.
fn rows(end_of_second: &str) -> String {
    let ends = ["0", "2", end_of_second, "6", "8", "10", "12"];
    let unit = |(k, ends): (usize, &[&str])| {
        let [above, below] = ends else { unreachable!("two ends") };
        let outline = format!("outline 0, {above} -- 12, {above} -- 12, {below} -- 0, {below}");
        let sections = format!("1 sea around 1, {below} - 0.5\n2 sand beyond 5, {above} -- {}, {below}", 6 + k);
        format!("unit row{k} {{\n{outline}\n{sections}\n}}")
    };
    let units: Vec<String> = ends.windows(2).enumerate().map(unit).collect();
    let head =
        "pattern \"Ebb\"\nedition \"1\"\nfinished 12 in\nfabric sea \"Sea\" #3d8088\nfabric sand \"Sand\" #d8c090";
    format!("{head}\nblock ebb 12 x 12 {{\n{}\n}}\n", units.join("\n"))
}

#[test]
fn a_correction_touches_few_sheets() {
    let folder = Folder(patterns());
    let first = model_json(&rows("4"), &folder, &Options::default());
    let since = Some(Former::read(&first).expect("a model"));
    let corrected = model_json(&rows("4.5"), &folder, &Options { since, ..Options::default() });
    let by_unit = |json: &str| -> BTreeMap<String, (usize, serde_json::Value)> {
        let all = lies(json).into_iter().enumerate();
        all.flat_map(|(sheet, on)| on.into_iter().map(move |on| (on["variant"].to_string(), (sheet, on)))).collect()
    };
    let (before, after) = (by_unit(&first), by_unit(&corrected));
    assert_eq!(before.len(), 6);
    let moved: Vec<&String> = before.iter().filter(|(unit, was)| after[*unit] != **was).map(|(unit, _)| unit).collect();
    assert_eq!(moved, ["\"row1/1\"", "\"row2/1\""], "only what was corrected lies elsewhere");
    let anew = model_json(&rows("4.5"), &folder, &Options::default());
    assert!(lies(&corrected).len() <= lies(&anew).len(), "and that takes no more sheets");
}
