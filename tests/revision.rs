//! Every sample as a chain of editions: what changed from each to the next has the consequences that stand beside it in `tests/editions`, and the told words are reviewed.
//!
//! A chain is a list of changes to the lines of a sample. `== major: print-again cut-again` begins an edition: by how much it must rise, and all consequences of what changed. Below it stand the lines
//! that go (`- `) and, in the place of the first of these before them, the lines that come (`+ `).

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use piecewright::model::Model;
use piecewright::packet::words::Words;
use piecewright::revision::{Edition, Raise, Revision, told};
use piecewright::{Options, Text, compare};
use support::{Folder, patterns, samples};

/// An edition of a chain.
struct Step {
    raise: String,
    consequences: BTreeSet<String>,
    text: String,
}

fn chain(sample: &Path) -> (String, Vec<Step>) {
    let name = sample.file_stem().expect("a name").to_string_lossy().into_owned();
    let first = fs::read_to_string(sample).expect("a readable sample");
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/editions/{name}.txt"));
    let told = fs::read_to_string(&file).unwrap_or_else(|_| panic!("{name} has a chain of editions"));
    let mut steps: Vec<Step> = Vec::new();
    let mut text = first.clone();
    // Where the last line that went was: lines that come stand there.
    let mut at = 0;
    for line in told.lines() {
        if let Some(head) = line.strip_prefix("== ") {
            let (raise, consequences) = head.split_once(':').expect("a raise and consequences");
            let consequences = consequences.split_whitespace().map(str::to_owned).collect();
            steps.push(Step { raise: raise.to_owned(), consequences, text: String::new() });
        } else if let Some(gone) = line.strip_prefix("- ") {
            let whole = format!("\n{gone}\n");
            assert!(text.contains(&whole), "{name}: no line `{gone}`");
            at = text.find(&whole).expect("it is there") + 1;
            text.replace_range(at..=at + gone.len(), "");
        } else if let Some(come) = line.strip_prefix("+ ") {
            text.insert_str(at, &format!("{come}\n"));
            at += come.len() + 1;
        }
        if let Some(step) = steps.last_mut() {
            step.text.clone_from(&text);
        }
    }
    // Each edition as the raise demands.
    let mut edition = edition_of(&first);
    for step in &mut steps {
        let raise = match step.raise.as_str() {
            "major" => Raise::Major,
            "minor" => Raise::Minor,
            _ => Raise::None,
        };
        let former = edition.to_string();
        edition = if raise == Raise::None { edition } else { edition.raised(raise) };
        let base = edition_of(&step.text).to_string();
        step.text = step.text.replacen(&format!("\"{base}\""), &format!("\"{edition}\""), 1);
        assert!(raise == Raise::None || former != edition.to_string());
    }
    (first, steps)
}

fn edition_of(text: &str) -> Edition {
    let line = text.lines().find(|line| line.starts_with("edition")).expect("an edition");
    Edition::parse(line.split('"').nth(1).expect("in quotes")).expect("two numbers")
}

fn compared(was: &str, now: &str) -> (Model, Model, Revision) {
    let shelf = Folder(patterns());
    let text = |name, text| Text { name, text, shelf: &shelf };
    let compared = compare(&text("was.piece", was), &text("now.piece", now), &Options::default());
    for side in [&compared.was, &compared.now] {
        let faults: Vec<String> = side.faults.iter().map(|fault| fault.message.clone()).collect();
        assert!(side.ok(), "{faults:?}");
    }
    let models = (compared.was.model.expect("a model"), compared.now.model.expect("a model"));
    (models.0, models.1, compared.revision.expect("a revision"))
}

#[test]
fn every_sample_has_a_chain_of_editions_with_the_consequences_that_are_expected() {
    let mut wrong = Vec::new();
    for sample in samples() {
        let name = sample.file_stem().expect("a name").to_string_lossy().into_owned();
        let (mut former, steps) = chain(&sample);
        assert!(steps.len() >= 2, "{name}: three editions at least");
        let mut shown = String::new();
        for step in steps {
            let (was, now, revision) = compared(&former, &step.text);
            let found: BTreeSet<String> = revision
                .changes
                .iter()
                // That the edition is another is no news.
                .filter(|change| revision.raise_of(change) != Raise::None)
                .map(|change| change.consequence().word().to_owned())
                .collect();
            if found != step.consequences || revision.raise().word() != step.raise {
                wrong.push(format!(
                    "{name}: {} {:?}, not {} {:?}",
                    revision.raise().word(),
                    found,
                    step.raise,
                    step.consequences
                ));
            }
            let told = told(&was, &now, &revision, &Words::english());
            _ = writeln!(shown, "{}", told.title);
            for part in &told.parts {
                _ = writeln!(shown, "  {}", part.heading);
                for line in &part.lines {
                    _ = writeln!(shown, "    {line}");
                }
            }
            _ = writeln!(shown, "  {}\n", told.same.unwrap_or_default());
            former = step.text;
        }
        insta::with_settings!({ snapshot_path => "snapshots/revision", prepend_module_to_snapshot => false, omit_expression => true }, {
            insta::assert_snapshot!(name, shown);
        });
    }
    assert_eq!(wrong, Vec::<String>::new());
}

#[test]
fn no_chain_and_no_reviewed_words_belong_to_no_sample() {
    let names: Vec<String> = samples().iter().map(|path| support::stem(path)).collect();
    for folder in ["tests/editions", "tests/snapshots/revision"] {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
        let paths: Vec<_> =
            fs::read_dir(&folder).expect("a folder").map(|entry| entry.expect("an entry").path()).collect();
        for path in &paths {
            assert!(names.contains(&support::stem(path)), "{} belongs to no sample", path.display());
        }
        assert_eq!(paths.len(), names.len(), "{}", folder.display());
    }
}
