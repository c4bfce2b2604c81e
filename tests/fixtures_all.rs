//! Every code is fired by a source in `fixtures/`, and the most important faults look as they should.

use std::collections::BTreeSet;
use std::fs;
use std::process::Command;

use piecewright::fault::Code;

/// Codes that no fixture can fire: the three whose sources are not texts to be commented, the two of what is made, and those of what is published.
const NOT_IN_FIXTURES: &[Code] = &[
    Code::SourceTooLarge,
    Code::NotText,
    Code::EmptySource,
    Code::MissingLetter,
    Code::LargerThanMat,
    Code::EditionUnfit,
    Code::EditionTooSmall,
    Code::NothingChanged,
];

#[test]
fn every_code_is_fired_by_a_fixture() {
    let mut fired = BTreeSet::new();
    let entries = ["tests/fixtures", "tests/fixtures/shared"].map(|folder| fs::read_dir(folder).expect("the fixtures"));
    for entry in entries.into_iter().flatten() {
        let path = entry.expect("can be listed").path();
        if path.extension().is_some_and(|ending| ending == "piece") {
            let text = fs::read_to_string(&path).expect("can be read");
            for expectation in text.split("//~").skip(1) {
                let slug = expectation.split_once('[').and_then(|(_, rest)| rest.split_once(']')).map(|(slug, _)| slug);
                fired.extend(slug.and_then(Code::from_slug));
            }
        }
    }
    for code in Code::ALL {
        assert_ne!(fired.contains(code), NOT_IN_FIXTURES.contains(code), "{}", code.slug());
    }
}

/// What a designer sees of the mistakes that are made most.
#[test]
fn faults_look_as_they_should() {
    // The folder above is for the samples alone.
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path("snapshots/faults");
    settings.set_prepend_module_to_snapshot(false);
    let _bound = settings.bind_to_scope();
    for name in [
        "not-one-seam",
        "not-one-seam-ring",
        "section-gap",
        "cannot-join",
        "decimal-comma",
        "unclosed",
        "sewn-differs",
        "unknown-name",
        "unknown-point-thrice",
        "join-not-straight",
        "near-miss",
        "thick-point",
    ] {
        // What the fixture expects is no part of the source that a designer would write.
        let fixture = fs::read_to_string(format!("tests/fixtures/{name}.piece")).expect("is there");
        let lines = fixture.lines().filter(|line| !line.trim_start().starts_with("//~"));
        let source: Vec<&str> = lines.map(|line| line.split(" //~").next().unwrap_or_default()).collect();
        let desk = tempfile::tempdir().expect("a folder");
        fs::write(desk.path().join("light.piece"), source.join("\n") + "\n").expect("writes");
        let run = Command::new(env!("CARGO_BIN_EXE_piecewright"))
            .args(["check", "--format", "full", "--color", "never", "light.piece"])
            .current_dir(desk.path())
            .output()
            .expect("runs");
        let seen = String::from_utf8(run.stdout).expect("is text");
        insta::assert_snapshot!(name, seen);
    }
}
