//! A fixture is a source in `tests/fixtures/` that says itself what is wrong with it.
//!
//! `//~ error[code]: message` at the end of a line expects that fault at that line; `//~^ …` on a line of its own expects it at the nearest line above that is not such
//! a line. Messages are exact. A fault without an expectation and an expectation without its fault both fail. What compiles obeys the laws.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]
#![allow(clippy::needless_pass_by_value, clippy::unnecessary_wraps, reason = "the harness asks for this shape")]

mod support;

use std::path::Path;

use piecewright::check;
use piecewright::fault::Severity;
use support::Folder;
use support::laws::check_laws;

/// The faults that a fixture expects: line, and what is said.
fn expected(text: &str) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    let mut last = 0;
    for (number, line) in (1..).zip(text.lines()) {
        let Some((before, said)) = line.split_once("//~") else {
            last = number;
            continue;
        };
        if before.trim().is_empty() {
            found.push((last, said.trim_start_matches('^').trim().to_owned()));
        } else {
            last = number;
            found.push((number, said.trim().to_owned()));
        }
    }
    found.sort();
    found
}

fn fixture(path: &Path, text: String) -> datatest_stable::Result<()> {
    let shelf = Folder(path.parent().expect("a fixture lies in a folder").to_owned());
    let checked = check("fixture.piece", &text, &shelf);
    let mut found = Vec::new();
    for fault in &checked.faults {
        let severity = if fault.severity() == Severity::Error { "error" } else { "warning" };
        let line = fault.span().map_or(0, |span| {
            checked.sources.get(span.file).map_or(0, |source| source.line_column(span.range().start).line)
        });
        found.push((line, format!("{severity}[{}]: {}", fault.code.slug(), fault.message)));
    }
    found.sort();
    let told = |faults: &[(usize, String)]| {
        faults.iter().map(|(line, said)| format!("{line}: {said}")).collect::<Vec<_>>().join("\n")
    };
    assert_eq!(told(&expected(&text)), told(&found), "{}", path.display());
    if let Some(model) = checked.model.as_ref().filter(|_| checked.ok()) {
        check_laws(&path.display().to_string(), model);
    }
    Ok(())
}

datatest_stable::harness! {
    { test = fixture, root = "tests/fixtures", pattern = r"^[^_].*\.piece$" },
}
