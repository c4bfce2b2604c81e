//! The manual: every code has a page whose examples are what they say they are, and every code is fired by a fixture.

#![expect(clippy::expect_used, reason = "a test that cannot go on fails")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::process::Command;

use piecewright::fault::{Code, Severity};
use piecewright::{Checked, ReadFault, Shelf, check};

/// Pages whose Wrong part tells of files that no text can show.
const TOLD: &[Code] = &[Code::SourceTooLarge, Code::NotText, Code::EmptySource];

/// Raised when a packet is laid out, which `check` does not do.
const OF_THE_PACKET: &[Code] = &[Code::MissingLetter, Code::LargeFoundation];

/// Codes that no fixture can fire: the three whose sources are not texts to be commented, and those of the packet.
const NOT_IN_FIXTURES: &[Code] =
    &[Code::SourceTooLarge, Code::NotText, Code::EmptySource, Code::MissingLetter, Code::LargeFoundation];

/// The files that a page shows beside its example.
struct Beside(BTreeMap<String, String>);

impl Shelf for Beside {
    fn read(&self, path: &str) -> Result<String, ReadFault> {
        if path.starts_with("../") {
            return Err(ReadFault::Outside);
        }
        self.0.get(path).cloned().ok_or(ReadFault::NotFound)
    }
}

/// One part of a page: its unnamed example, and the files shown beside it.
struct Part {
    source: Option<String>,
    beside: BTreeMap<String, String>,
}

impl Part {
    fn of(page: &str, heading: &str) -> Self {
        let mut part = Self { source: None, beside: BTreeMap::new() };
        let mut inside = false;
        let mut fence: Option<(String, String)> = None;
        for line in page.lines() {
            if let Some((name, text)) = &mut fence {
                if line == "```" {
                    if name.is_empty() {
                        assert!(part.source.is_none(), "one example under `{heading}`");
                        part.source = Some(text.clone());
                    } else {
                        part.beside.insert(name.clone(), text.clone());
                    }
                    fence = None;
                } else {
                    text.push_str(line);
                    text.push('\n');
                }
            } else if let Some(title) = line.strip_prefix("## ") {
                inside = title == heading;
            } else if let Some(words) = line.strip_prefix("```").filter(|_| inside) {
                let words = words.strip_prefix("piece").expect("all examples are sources");
                let name = words.trim().strip_prefix("name=").unwrap_or_default();
                fence = Some((name.to_owned(), String::new()));
            }
        }
        assert!(fence.is_none(), "an example is not closed");
        part
    }

    fn check(&self, beside: &BTreeMap<String, String>) -> Option<Checked> {
        let source = self.source.as_ref()?;
        Some(check("example.piece", source, &Beside(beside.clone())))
    }
}

fn told(checked: &Checked) -> Vec<String> {
    checked.faults.iter().map(|fault| format!("{}: {}", fault.code.slug(), fault.message)).collect()
}

#[test]
fn every_page_has_its_parts() {
    for code in Code::ALL {
        let (slug, page) = (code.slug(), code.page());
        let heading = page.lines().next().unwrap_or_default();
        assert!(heading.starts_with("# ") && heading.len() > 10, "{slug}: the first line sums the fault up");
        assert!(!heading.ends_with('.'), "{slug}: a heading has no full stop");
        assert!(!page.contains("TODO"), "{slug} is not written yet");
        for part in ["\n## Wrong\n", "\n## Right\n"] {
            assert_eq!(page.matches(part).count(), 1, "{slug}: {part:?} once");
        }
        let prose = page.split("\n## Wrong\n").next().unwrap_or_default();
        assert!(prose.split_whitespace().count() > 30, "{slug} says what is wrong and what to do");
        if code.severity() == Severity::Warning {
            assert!(page.contains(&format!("`allow {slug}")), "{slug} says how it is silenced");
        }
        assert!(page.ends_with('\n') && !page.ends_with("\n\n"), "{slug} ends in one line end");
    }
}

#[test]
fn wrong_examples_raise_their_code_and_nothing_else() {
    let mut amiss = Vec::new();
    for &code in Code::ALL {
        let wrong = Part::of(code.page(), "Wrong");
        let Some(checked) = wrong.check(&wrong.beside) else {
            assert!(TOLD.contains(&code), "{} has no wrong example", code.slug());
            continue;
        };
        let codes: BTreeSet<Code> = checked.faults.iter().map(|fault| fault.code).collect();
        let one = code.severity() == Severity::Warning || checked.faults.len() == 1;
        let none = codes.is_empty() && OF_THE_PACKET.contains(&code);
        if !none && (codes != BTreeSet::from([code]) || !one) {
            amiss.push((code.slug(), told(&checked)));
        }
    }
    assert!(amiss.is_empty(), "{amiss:#?}");
}

#[test]
fn right_examples_raise_nothing() {
    let mut amiss = Vec::new();
    for &code in Code::ALL {
        let right = Part::of(code.page(), "Right");
        // What lies beside the wrong example lies beside the right one, unless that says otherwise.
        let mut beside = Part::of(code.page(), "Wrong").beside;
        beside.extend(right.beside.clone());
        match right.check(&beside) {
            Some(checked) if checked.faults.is_empty() => assert!(checked.model.is_some(), "{}", code.slug()),
            Some(checked) => amiss.push((code.slug(), told(&checked))),
            None => assert!(TOLD.contains(&code), "{} has no right example", code.slug()),
        }
    }
    assert!(amiss.is_empty(), "{amiss:#?}");
}

#[test]
fn every_warning_is_silenced_by_its_allow() {
    let mut amiss = Vec::new();
    for &code in Code::ALL.iter().filter(|code| code.severity() == Severity::Warning) {
        if OF_THE_PACKET.contains(&code) {
            continue;
        }
        let mut wrong = Part::of(code.page(), "Wrong");
        wrong.source = wrong.source.map(|source| format!("allow {}\n{source}", code.slug()));
        let checked = wrong.check(&wrong.beside).expect("warnings have examples");
        if !checked.faults.is_empty() {
            amiss.push((code.slug(), told(&checked)));
        }
    }
    assert!(amiss.is_empty(), "{amiss:#?}");
}

#[test]
fn every_code_is_fired_by_a_fixture() {
    let mut fired = BTreeSet::new();
    let entries = ["tests/faults", "tests/faults/shared"].map(|folder| fs::read_dir(folder).expect("the fixtures"));
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
        let fixture = fs::read_to_string(format!("tests/faults/{name}.piece")).expect("is there");
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
