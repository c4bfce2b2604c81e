//! The guide: every example compiles without a fault or warning, and every picture is drawn from its example.
//!
//! `PICTURES=write cargo test --test guide` draws the pictures anew.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use piecewright::backend::svg;
use piecewright::check;
use piecewright::fault::Severity;
use piecewright::geometry::Length;
use piecewright::model::{self, Model};
use piecewright::packet::figure::{block_front, unit_map};
use piecewright::packet::words::Words;
use piecewright::{pattern, piecing};
use support::Bare;

fn docs() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("docs")
}

/// The lines that the guide says stand before its examples.
fn preamble(guide: &str) -> &str {
    let (_, rest) = guide.split_once("```text\n").expect("the guide shows the lines before its examples");
    rest.split("```").next().expect("a fence that closes")
}

/// The examples: the name of the picture, and a whole source.
fn examples(guide: &str) -> Vec<(String, String)> {
    let head = preamble(guide);
    let fences = guide.split("```piece picture=").skip(1).map(|fence| {
        let (name, rest) = fence.split_once('\n').expect("a fence with a body");
        let body = rest.split("```").next().expect("a fence that closes");
        let has = |word: &str| body.lines().any(|line| line.starts_with(word));
        let source = if has("pattern ") {
            body.to_owned()
        } else if has("block ") {
            format!("{head}\nallow unused-name\n{body}")
        } else {
            format!("{head}\nallow unused-name\nblock harbour 8 x 8 {{\n{body}}}\n")
        };
        (name.trim().to_owned(), source)
    });
    fences.collect()
}

/// The models of an example in its further colourings, with their keys.
fn colourings(name: &str, source: &str) -> Vec<(String, Model)> {
    let pattern = pattern::resolve(&pattern::read_sources(name, source, &Bare)).0.expect("a pattern without faults");
    let coloured = pattern.colourings.iter().enumerate().map(|(index, colouring)| {
        let pattern = pattern.coloured(index);
        let proof = piecing::prove(&pattern).expect("it can be sewn");
        (colouring.key.clone(), model::build(&pattern, &proof, 0).expect("the size it is drawn for"))
    });
    coloured.collect()
}

#[test]
fn examples_compile_and_pictures_are_theirs() {
    let guide = fs::read_to_string(docs().join("notation.md")).expect("the guide is there");
    let words = Words::english();
    let mut pictures = BTreeSet::new();
    for (name, source) in examples(&guide) {
        let checked = check(&name, &source, &Bare);
        let wrong: Vec<_> = checked.faults.iter().filter(|fault| fault.severity() != Severity::Hint).collect();
        assert!(wrong.is_empty(), "{name}: {wrong:?}");
        let model = checked.model.expect("a model");
        let width = Length::inches(2.6);
        let front = |model: &Model| svg::draw(&block_front(model, &model.blocks[0], width, &words));
        let map = svg::draw(&unit_map(&model, &model.blocks[0], width, &words));
        let mut drawings = vec![(format!("{name}.svg"), front(&model)), (format!("{name}-map.svg"), map)];
        for (key, coloured) in colourings(&name, &source) {
            assert_ne!(front(&coloured), front(&model), "{name} looks the same in {key}");
            drawings.push((format!("{name}-{key}.svg"), front(&coloured)));
        }
        for (file, drawing) in drawings {
            let path = docs().join("pictures").join(&file);
            if std::env::var_os("PICTURES").is_some_and(|value| value == "write") {
                fs::create_dir_all(docs().join("pictures")).expect("a folder");
                fs::write(&path, &drawing).expect("a picture");
            }
            let there = fs::read_to_string(&path).unwrap_or_default();
            assert_eq!(there, drawing, "{file} is not the picture of its example");
            pictures.insert(file);
        }
    }
    let there: BTreeSet<String> = fs::read_dir(docs().join("pictures"))
        .expect("pictures")
        .map(|entry| entry.expect("a readable entry").file_name().to_string_lossy().into_owned())
        .filter(|name| name != "packet.png")
        .collect();
    assert_eq!(there, pictures, "every picture belongs to an example");
    for name in pictures.iter().filter(|name| !name.ends_with("-map.svg")) {
        assert!(guide.contains(&format!("(pictures/{name})")), "{name} is shown");
    }
}

#[test]
fn the_example_of_the_readme_compiles() {
    let readme = fs::read_to_string(docs().join("../README.md")).expect("the readme is there");
    let (_, rest) = readme.split_once("```piece\n").expect("the readme shows a pattern");
    let source = rest.split("```").next().expect("a fence that closes");
    assert_eq!(check("readme", source, &Bare).faults, []);
}

#[test]
fn the_reference_knows_every_word_of_the_samples() {
    let guide = fs::read_to_string(docs().join("notation.md")).expect("the guide is there");
    for path in support::samples() {
        let text = fs::read_to_string(&path).expect("a readable sample");
        for line in text.lines().map(str::trim).filter(|line| !line.is_empty() && !line.starts_with("//")) {
            let word: String = line.chars().take_while(|c| c.is_alphabetic()).collect();
            assert!(word.is_empty() || guide.contains(&format!("`{word} ")) || line == "}", "{word}");
        }
    }
}
