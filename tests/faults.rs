//! The manual pages: every code has one, its wrong example raises just that code, its right example nothing at all.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::collections::BTreeMap;

use piecewright::fault::{Code, Severity};
use piecewright::{ReadFault, Shelf, check};

/// These cannot be shown by a text that stands on a page, or are not raised by `check`.
const NOT_SHOWN: &[Code] = &[
    Code::SourceTooLarge,
    Code::NotText,
    Code::EmptySource,
    Code::MissingLetter,
    Code::LargerThanMat,
    Code::PictureTooLarge,
    Code::EditionUnfit,
    Code::EditionTooSmall,
    Code::NothingChanged,
];

/// The shared files that an example brings along.
struct Examples(BTreeMap<String, String>);

impl Shelf for Examples {
    fn read(&self, path: &str) -> Result<String, ReadFault> {
        self.0.get(path).cloned().ok_or(ReadFault::NotFound)
    }

    fn read_bytes(&self, path: &str, most: usize) -> Result<Vec<u8>, ReadFault> {
        let bytes = self.0.get(path).map(|text| text.clone().into_bytes()).ok_or(ReadFault::NotFound)?;
        if bytes.len() > most { Err(ReadFault::TooLarge) } else { Ok(bytes) }
    }
}

/// The main source and the shared files of the section of a page with this heading.
fn example(code: Code, heading: &str) -> Option<(String, Examples)> {
    let (_, section) = code.page().split_once(&format!("\n## {heading}\n"))?;
    let section = section.split("\n## ").next()?;
    let mut main = None;
    let mut shared = BTreeMap::new();
    // A file is shown between two fences: `piece` or `svg`, and its name if it is not the pattern itself.
    for fence in section.split("```").skip(1).step_by(2) {
        let (head, body) = fence.split_once('\n')?;
        let body = body.to_owned();
        match head.trim().trim_start_matches(|c: char| c.is_alphabetic()).trim().strip_prefix("name=") {
            Some(name) => _ = shared.insert(name.to_owned(), body),
            None => main = Some(body),
        }
    }
    Some((main?, Examples(shared)))
}

/// The codes that a source raises, as they are printed, each once. Hints say nothing of what is wrong: only the one that an example is about counts.
fn raised(source: &str, shelf: &Examples, about: Code) -> Vec<String> {
    let mut codes: Vec<Code> = check("example.piece", source, shelf).faults.iter().map(|fault| fault.code).collect();
    codes.sort_unstable();
    codes.dedup();
    codes.retain(|&code| code.severity() != Severity::Hint || code == about);
    codes.into_iter().map(|code| code.slug().to_owned()).collect()
}

#[test]
fn every_page_has_a_heading_and_says_something() {
    for &code in Code::ALL {
        let page = code.page();
        assert!(page.starts_with("# "), "{}", code.slug());
        assert!(page.lines().count() >= 3 && page.len() > 120, "{} says too little", code.slug());
        let silenced = page.contains(&format!("allow {}", code.slug())) || code == Code::UnusedAllow;
        assert!(silenced || code.severity() == Severity::Error, "{} does not tell how it is silenced", code.slug());
    }
}

#[test]
fn wrong_examples_raise_just_their_code_and_right_ones_nothing() {
    let mut problems = Vec::new();
    for &code in Code::ALL.iter().filter(|code| !NOT_SHOWN.contains(code)) {
        for (heading, wanted) in [("Wrong", vec![code.slug().to_owned()]), ("Right", Vec::new())] {
            match example(code, heading) {
                None => problems.push(format!("{} shows nothing under {heading}", code.slug())),
                Some((source, shelf)) => {
                    let found = raised(&source, &shelf, code);
                    if found != wanted {
                        problems.push(format!("{} under {heading}: {found:?}", code.slug()));
                    }
                }
            }
        }
    }
    assert!(problems.is_empty(), "{}", problems.join("\n"));
}

#[test]
fn every_fault_says_what_to_do() {
    for &code in Code::ALL.iter().filter(|code| !NOT_SHOWN.contains(code)) {
        let (source, shelf) = example(code, "Wrong").expect("a wrong example");
        for fault in check("example.piece", &source, &shelf).faults {
            assert!(fault.help.is_some(), "{} has no help", fault.code.slug());
            let first = fault.message.chars().next().expect("a message");
            assert!(!first.is_uppercase() && !fault.message.ends_with('.'), "{}", fault.message);
        }
    }
}
