//! Packets for whom: testers, one unit, so many blocks, sheets only, both papers, another colouring.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::collections::BTreeSet;
use std::fs;

use piecewright::model::Paper;
use piecewright::packet::{Audience, Extent};
use piecewright::{Artifact, Built, Options, build};
use serde_json::Value;
use support::{Folder, patterns};

fn built(sample: &str, options: &Options) -> Built {
    let text = fs::read_to_string(patterns().join(format!("{sample}.piece"))).expect("a readable sample");
    build(&format!("{sample}.piece"), &text, &Folder(patterns()), options, &mut |_| {})
}

fn packet(sample: &str, options: &Options) -> Vec<Artifact> {
    let built = built(sample, options);
    assert_eq!(built.faults, [], "{sample}");
    built.artifacts.expect("a sample builds")
}

fn text(packet: &[Artifact], path: &str) -> String {
    let artifact = packet.iter().find(|artifact| artifact.path == path).unwrap_or_else(|| panic!("no {path}"));
    String::from_utf8(artifact.bytes.clone()).expect("text")
}

fn paths(packet: &[Artifact]) -> Vec<&str> {
    packet.iter().map(|artifact| artifact.path.as_str()).collect()
}

fn json(packet: &[Artifact]) -> Value {
    serde_json::from_str(&text(packet, "model.json")).expect("JSON")
}

/// How often each foundation is printed, by its variant's id, and on which papers.
fn printed(packet: &[Artifact]) -> Vec<(String, String, u64)> {
    let model = json(packet);
    let mut found: Vec<(String, String, u64)> = Vec::new();
    for sheet in model["sheets"].as_array().expect("sheets") {
        for foundation in sheet["foundations"].as_array().expect("foundations") {
            let key = (foundation["variant"].as_str().unwrap(), sheet["paper"]["name"].as_str().unwrap());
            let times = sheet["times"].as_u64().unwrap();
            match found.iter_mut().find(|(variant, paper, _)| (variant.as_str(), paper.as_str()) == key) {
                Some(entry) => entry.2 += times,
                None => found.push((key.0.to_owned(), key.1.to_owned(), times)),
            }
        }
    }
    found
}

/// The pieces of the cutting chart: fabric and count.
fn pieces(packet: &[Artifact]) -> u64 {
    let model = json(packet);
    let groups = model["cutting"].as_array().expect("cutting").iter().flat_map(|of| of["pieces"].as_array().unwrap());
    groups.map(|group| group["count"].as_u64().unwrap()).sum()
}

#[test]
fn both_papers_come_out_of_one_build() {
    let options = Options { papers: vec![Paper::Letter, Paper::A4], ..Options::default() };
    let made = packet("storm-lantern", &options);
    let paths = paths(&made);
    for path in
        ["storm-lantern-letter.pdf", "storm-lantern-a4.pdf", "sheets/sheet-1-letter.svg", "sheets/sheet-1-a4.svg"]
    {
        assert!(paths.contains(&path), "{path} is missing from {paths:?}");
    }
    let unique: BTreeSet<&str> = paths.iter().copied().collect();
    assert_eq!(unique.len(), paths.len(), "no two files have one name");
    let on = |paper: &str| {
        let all = printed(&made).into_iter().filter(|(_, on, _)| on == paper);
        all.map(|(variant, _, times)| (variant, times)).collect::<BTreeSet<_>>()
    };
    assert_eq!(on("letter"), on("a4"), "the same foundations on both");
    assert!(!on("a4").is_empty());
}

#[test]
fn a_testers_edition_says_so_and_asks_for_a_report() {
    let made = packet("storm-lantern", &Options { audience: Audience::Testers, ..Options::default() });
    let page = text(&made, "storm-lantern.html");
    assert!(page.contains("Tester’s edition") && page.contains("Where a piece came up short"), "the page for a screen");
    for artifact in made.iter().filter(|artifact| artifact.path.starts_with("sheets/")) {
        let sheet = String::from_utf8_lossy(&artifact.bytes);
        assert!(sheet.contains("Tester’s edition"), "{} is not marked", artifact.path);
    }
    let sewers = packet("storm-lantern", &Options::default());
    assert!(!text(&sewers, "storm-lantern.html").contains("Tester’s"), "sewers see nothing of it");
}

#[test]
fn one_unit_is_cut_printed_and_told_alone() {
    let made = packet("storm-lantern", &Options { unit: Some("roof".into()), ..Options::default() });
    assert_eq!(printed(&made), [("roof/1".to_owned(), "letter".to_owned(), 1)]);
    assert_eq!(pieces(&made), 4, "its own pieces only");
    let steps = text(&made, "steps.txt");
    assert!(steps.contains("D · roof") && !steps.contains("C · lamp") && !steps.contains("Join 1"), "{steps}");
    // What its edges meet is still told.
    assert!(text(&made, "sheets/sheet-1.svg").contains(">to C"), "the roof stands on the lamp");
    let unknown = built("storm-lantern", &Options { unit: Some("rof".into()), ..Options::default() });
    assert!(unknown.artifacts.is_none());
    let fault = &unknown.faults[0];
    assert!(
        fault.message.contains("`rof`") && fault.help.as_deref().is_some_and(|help| help.contains("`roof`")),
        "{fault:?}"
    );
}

#[test]
fn so_many_blocks_are_so_many_times_as_much_to_cut_and_print() {
    let once = packet("harbour-series", &Options::default());
    let thrice = packet("harbour-series", &Options { blocks: Some(3), ..Options::default() });
    assert_eq!(pieces(&thrice), 3 * pieces(&once));
    let sewn = |made: &[Artifact]| printed(made).into_iter().map(|(_, _, times)| times).sum::<u64>();
    assert!(sewn(&thrice) >= 3 * sewn(&once), "a sheet more often, or more sheets");
    for (blocks, said) in [(0, "no blocks"), (1_000_000, "pieces of fabric")] {
        let refused = built("harbour-series", &Options { blocks: Some(blocks), ..Options::default() });
        assert!(refused.artifacts.is_none() && refused.faults[0].message.contains(said), "{:?}", refused.faults);
    }
}

#[test]
fn sheets_only_are_sheets_only() {
    let made = packet("storm-lantern", &Options { extent: Extent::Sheets, ..Options::default() });
    assert_eq!(paths(&made), ["storm-lantern.pdf", "sheets/sheet-1.svg", "sheets/sheet-2.svg"]);
    let whole = packet("storm-lantern", &Options::default());
    for path in ["sheets/sheet-1.svg", "sheets/sheet-2.svg"] {
        assert_eq!(text(&made, path), text(&whole, path), "{path} is the same as in the whole packet");
    }
}

#[test]
fn a_colouring_is_cut_and_told_in_its_own_fabrics() {
    let drawn = packet("storm-lantern", &Options::default());
    let titles: Vec<String> = {
        let text = fs::read_to_string(patterns().join("storm-lantern.piece")).expect("a readable sample");
        let lines = text.lines().filter(|line| line.starts_with("colouring "));
        lines.map(|line| line.split('"').nth(1).expect("a title").to_owned()).collect()
    };
    assert_eq!(titles.len(), 2);
    let page = text(&drawn, "storm-lantern.html");
    for title in &titles {
        assert!(page.contains(title.as_str()), "the page of colourings shows {title}");
        let made = packet("storm-lantern", &Options { colouring: Some(title.clone()), ..Options::default() });
        assert_eq!(json(&made)["colouring"], Value::String(title.clone()));
        assert_ne!(text(&made, "cutting.csv"), text(&drawn, "cutting.csv"), "{title}");
        assert_eq!(pieces(&made), pieces(&drawn), "{title}");
    }
}
