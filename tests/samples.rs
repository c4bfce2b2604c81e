//! Every sample obeys the laws at every size, is without faults, and stays as it was reviewed.
//!
//! A snapshot belongs to a sample and one of its files; a missing one and one that belongs to nothing both fail.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use piecewright::{Artifact, Options, build};
use support::{Folder, laws::check_laws, models_at, patterns, resolved, samples, stem};

/// The files of a packet that are kept as snapshots, by the name of the snapshot.
fn reviewed(stem: &str, artifacts: &[Artifact]) -> Vec<(String, String)> {
    let mut kept = Vec::new();
    for artifact in artifacts {
        let name = match artifact.path.as_str() {
            "model.json" => "model",
            "steps.txt" => "steps",
            "cutting.csv" => "cutting",
            "sheets/sheet-1.svg" | "sheets/sheet-1-letter.svg" => "sheet-1",
            path if path.ends_with("/front.svg") => "front",
            _ => continue,
        };
        let block = artifact.path.split('/').nth(1).filter(|_| name == "front").unwrap_or_default();
        let text = String::from_utf8(artifact.bytes.clone()).expect("a text file");
        kept.push((format!("{stem}-{name}{block}"), text));
    }
    kept
}

/// The steps of one sample in German, as reviewed; the name of their snapshot.
fn in_german() -> String {
    let text = fs::read_to_string(patterns().join("gull.piece")).expect("a readable sample");
    let options = Options { language: Some("de".to_owned()), ..Options::default() };
    let built = build("gull.piece", &text, &Folder(patterns()), &options, &mut |_| {});
    assert_eq!(built.faults, []);
    let made = built.artifacts.expect("a sample builds");
    let file = |end: &str| {
        let file = made.iter().find(|artifact| artifact.path.ends_with(end)).expect("a file of every packet");
        String::from_utf8(file.bytes.clone()).expect("a text file")
    };
    assert!(file(".html").contains("<html lang=\"de\">"));
    insta::with_settings!({ prepend_module_to_snapshot => false, omit_expression => true }, {
        insta::assert_snapshot!("gull-steps-de", file("steps.txt"));
    });
    "gull-steps-de.snap".to_owned()
}

#[test]
fn there_are_ten_samples() {
    assert_eq!(samples().len(), 10);
}

#[test]
fn samples_obey_the_laws_at_every_size() {
    for path in samples() {
        let pattern = resolved(&path);
        for model in models_at(&pattern, &[4.0, 8.0, 12.0, 20.0]) {
            check_laws(&format!("{} at {}", stem(&path), model.size), &model);
        }
    }
}

#[test]
fn samples_build_without_a_fault_or_warning_and_as_reviewed() {
    let mut names = BTreeSet::new();
    for path in samples() {
        let text = fs::read_to_string(&path).expect("a readable sample");
        let name = stem(&path);
        let built = build(&format!("{name}.piece"), &text, &Folder(patterns()), &Options::default(), &mut |_| {});
        assert_eq!(built.faults, [], "{name}");
        for (snapshot, content) in reviewed(&name, &built.artifacts.expect("a sample builds")) {
            insta::with_settings!({ prepend_module_to_snapshot => false, omit_expression => true }, {
                insta::assert_snapshot!(snapshot.clone(), content);
            });
            names.insert(format!("{snapshot}.snap"));
        }
    }
    names.insert(in_german());
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/snapshots");
    let there: BTreeSet<String> = fs::read_dir(folder)
        .expect("the snapshots are there")
        .map(|entry| entry.expect("a readable entry").file_name().to_string_lossy().into_owned())
        .filter(|name| Path::new(name).extension().is_some_and(|end| end == "snap"))
        .collect();
    assert_eq!(there, names, "every snapshot belongs to a sample");
}
