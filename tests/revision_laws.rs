//! What holds of every revision: random edits to the samples are "no change" exactly when the models are equal; every foundation that is called unchanged draws the same, and no other does; what
//! is not said to be cut, bought or sewn otherwise is cut, bought and sewn as before.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

#[path = "support/dice.rs"]
mod dice;
mod support;

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use dice::Dice;
use piecewright::backend::{json, svg};
use piecewright::geometry::Length;
use piecewright::model::{Model, UnitKind};
use piecewright::packet::foundation::foundation;
use piecewright::packet::measure::Measures;
use piecewright::packet::page::Page;
use piecewright::packet::sheets::Bed;
use piecewright::packet::steps::steps;
use piecewright::packet::words::Words;
use piecewright::revision::{Change, Consequence, Raise, Revision, Said, correction, overlays, told};
use piecewright::{Checked, Text, compare};
use support::layout::at_once;
use support::{Folder, patterns, samples, stem};

/// So many edits of each sample are tried.
const TRIES: usize = 60;

fn checked(text: &str) -> Checked {
    piecewright::check("gull.piece", text, &Folder(patterns()))
}

/// The source with an edit at random: some change nothing, some a little, many break it.
fn edited(text: &str, dice: &mut Dice) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let at = dice.below(lines.len());
    let line = lines[at].clone();
    match dice.below(12) {
        0 => lines.insert(at, String::from("// the tide comes in")),
        1 => lines.insert(at, String::new()),
        2 => return piecewright::format("gull.piece", &text.replace("  ", "   ")).text,
        3 => lines[at] = with_number(&line, dice, |number, _| number),
        4..=6 => {
            lines[at] = with_number(&line, dice, |number, dice| {
                let by = if number.abs() < 1.0 { [0.02, -0.02, 0.05, -0.05] } else { [0.25, -0.25, 0.5, 1.0] };
                number + by[dice.below(4)]
            });
        }
        7 => {
            let words: Vec<&str> = line.split('"').collect();
            if words.len() >= 3 {
                lines[at] = line.replacen(&format!("\"{}\"", words[1]), &format!("\"{} again\"", words[1]), 1);
            }
        }
        8 => {
            let other = (at + 1).min(lines.len() - 1);
            lines.swap(at, other);
        }
        9 => {
            let fabrics: Vec<String> = lines
                .iter()
                .filter(|l| l.starts_with("fabric "))
                .filter_map(|l| l.split_whitespace().nth(1).map(str::to_owned))
                .collect();
            if let (Some(of), false) =
                (fabrics.iter().find(|key| line.split_whitespace().any(|w| w == *key)), line.starts_with("fabric"))
            {
                lines[at] = line.replacen(of.as_str(), &fabrics[dice.below(fabrics.len())], 1);
            }
        }
        10 => {
            let units: Vec<String> = lines
                .iter()
                .filter(|l| l.trim_start().starts_with("unit "))
                .filter_map(|l| l.split_whitespace().nth(1).map(str::to_owned))
                .collect();
            if !units.is_empty() {
                let unit = &units[dice.below(units.len())];
                return renamed(text, unit, &format!("{unit}-anew"));
            }
        }
        _ => {
            if line.contains("pressed open") {
                lines[at] = line.replace(" pressed open", "");
            } else if ["note", "step", "allow", "history", "copies"]
                .iter()
                .any(|word| line.trim_start().starts_with(word))
            {
                lines.remove(at);
            }
        }
    }
    lines.join("\n") + "\n"
}

/// A name in all lines but those of words.
fn renamed(text: &str, from: &str, to: &str) -> String {
    let is_of_name = |letter: char| letter.is_alphanumeric() || letter == '-';
    let mut out = String::new();
    let mut rest = text;
    while let Some(at) = rest.find(from) {
        let before = rest[..at].chars().next_back().is_some_and(is_of_name);
        let after = rest[at + from.len()..].chars().next().is_some_and(is_of_name);
        out.push_str(&rest[..at]);
        out.push_str(if before || after { from } else { to });
        rest = &rest[at + from.len()..];
    }
    out + rest
}

/// The line with one of its plain decimals changed, written as a decimal.
fn with_number(line: &str, dice: &mut Dice, change: impl Fn(f64, &mut Dice) -> f64) -> String {
    if line.contains('"') || line.contains("//") {
        return line.to_owned();
    }
    let words: Vec<&str> = line.split(' ').collect();
    let numbers: Vec<usize> = (0..words.len()).filter(|&k| number(words[k]).is_some()).collect();
    if numbers.is_empty() {
        return line.to_owned();
    }
    let chosen = numbers[dice.below(numbers.len())];
    let was = number(words[chosen]).expect("a number");
    let comma = if words[chosen].ends_with(',') { "," } else { "" };
    let new = format!("{}{comma}", change(was, dice));
    let changed: Vec<&str> =
        words.iter().enumerate().map(|(k, word)| if k == chosen { new.as_str() } else { word }).collect();
    changed.join(" ")
}

/// A decimal or a fraction, before a comma or not.
fn number(word: &str) -> Option<f64> {
    let word = word.trim_end_matches(',');
    match word.split_once('/') {
        Some((above, below)) => Some(above.parse::<f64>().ok()? / below.parse::<f64>().ok().filter(|&n| n > 0.0)?),
        None => word.parse().ok(),
    }
}

/// A foundation as it is drawn, under one title and edition.
fn drawn(model: &Model, like: &Model, block: usize, variant: usize) -> Vec<String> {
    let model =
        Model { facts: like.facts.clone(), papers: like.papers.clone(), sheets: like.sheets.clone(), ..model.clone() };
    let room = Bed::of(&like.sheets, like.paper).room();
    let parts = foundation(&model, block, variant, room, &Words::english());
    let page = |items| Page {
        width: Length::inches(11.0),
        height: Length::inches(11.0),
        title: String::new(),
        description: String::new(),
        items,
    };
    parts.into_iter().map(|part| svg::draw(&page(part.items))).collect()
}

/// How many pieces of which shape and size are cut of each fabric, by the fabric of the later model.
fn pieces(model: &Model, fabric: impl Fn(usize) -> Option<usize>) -> BTreeMap<String, u32> {
    let mut found = BTreeMap::new();
    for block in &model.blocks {
        for variant in block.variants.iter().filter(|variant| variant.sewn > 0) {
            for cut in &variant.cuts {
                let of = variant.fabric_of(cut.section, cut.strip).and_then(&fabric);
                let (width, height) = (cut.width.to_inches(), cut.height.to_inches());
                *found.entry(format!("{of:?} {:?} {width:.4} {height:.4}", cut.shape)).or_insert(0) += cut.count;
            }
        }
    }
    found
}

fn holds(was: &Model, now: &Model, what: &str) -> Revision {
    let revision = Revision::between(was, now);
    let words = Words::english();
    assert_eq!(revision.is_empty(), was == now, "{what}: {:?}", revision.changes);

    for (block, of) in now.blocks.iter().enumerate() {
        for (variant, foundation) in of.variants.iter().enumerate() {
            if !of.has_paper(foundation) {
                continue;
            }
            let anew = revision.is_printed_anew(block, variant);
            let former = revision.was(block, variant);
            let same = former.is_some_and(|(b, v)| drawn(was, now, b, v) == drawn(now, now, block, variant));
            assert_eq!(same, !anew, "{what}: {} {:?}", foundation.id, revision.changes);
        }
    }

    let has = |consequence| revision.changes.iter().any(|change: &Change| change.consequence() == consequence);
    if !has(Consequence::Print) && !has(Consequence::Cut) {
        let before = pieces(was, |fabric| revision.pairs.fabric_now(fabric));
        assert_eq!(before, pieces(now, Some), "{what}");
    }
    if !has(Consequence::Buy) {
        for cutting in &now.cutting {
            let fabric = revision.pairs.fabric_was(cutting.fabric);
            let before = was.cutting.iter().find(|other| Some(other.fabric) == fabric);
            assert_eq!(before.map(|before| before.buy), Some(cutting.buy), "{what}");
        }
    }
    let only_facts = revision.changes.iter().all(|change| match change {
        Change::Words(change) => matches!(
            change.about,
            Said::Title | Said::Edition | Said::History | Said::About | Said::Skill | Said::Tools
        ),
        _ => false,
    });
    if only_facts {
        let told = |model| steps(model, Measures::new(&words, now.units));
        assert_eq!(told(was), told(now), "{what}");
    }
    if revision.changes.iter().any(|change| matches!(change, Change::Words(change) if change.about == Said::Unseen)) {
        assert_eq!(json::model(was, &[], &[]), json::model(now, &[], &[]), "{what}");
    }

    // All of it can be told, drawn and corrected.
    let told = told(was, now, &revision, &words);
    let lines = told.parts.iter().map(|part| part.lines.len()).sum::<usize>();
    assert_eq!(lines > 0, !revision.is_empty(), "{what}: {:?}", revision.changes);
    assert!(
        told.parts.iter().flat_map(|part| &part.lines).all(|line| !line.trim().is_empty() && !line.contains("  ")),
        "{what}: {told:?}"
    );
    _ = overlays(was, now, &revision, Length::inches(4.0), &words);
    revision
}

/// A correction holds each paper that changed as often as it is sewn, and no other.
fn correction_holds(was: &Model, now: &Model, revision: &Revision, what: &str) {
    let correction = correction(was, now, revision, &Words::english());
    for print in &correction.prints {
        let mut printed: BTreeMap<(usize, usize), u32> = BTreeMap::new();
        for sheet in &print.printing.sheets {
            // A foundation in parts is there as often as its first part.
            for on in sheet.foundations.iter().filter(|on| on.part.is_none_or(|(number, _)| number == 1)) {
                *printed.entry((on.block, on.variant)).or_default() += sheet.times;
            }
        }
        for (block, of) in now.blocks.iter().enumerate() {
            for (variant, foundation) in of.variants.iter().enumerate() {
                let count = printed.get(&(block, variant)).copied().unwrap_or(0);
                let has_paper = of.unit_of(foundation).kind == UnitKind::Paper;
                let wanted = match revision.misleads(block, variant) {
                    _ if !has_paper => 0,
                    true => foundation.sewn,
                    false => revision.more_copies(block, variant),
                };
                assert!(count >= wanted, "{what}: {} is printed {count} times, not {wanted}", foundation.id);
                assert_eq!(count > 0, wanted > 0, "{what}: {}", foundation.id);
            }
        }
    }
}

#[test]
fn random_edits_are_no_change_exactly_when_the_models_are_equal() {
    let all = samples();
    at_once(&all, |path: &std::path::PathBuf| laws_of(path));
}

fn laws_of(path: &Path) {
    let name = stem(path);
    let text = fs::read_to_string(path).expect("a readable sample");
    let first = checked(&text).model.expect("a sample without faults");
    let mut dice = Dice(name.bytes().map(u64::from).sum());
    let (mut valid, mut same, mut anew, mut corrected) = (0, 0, 0, 0);
    for k in 0..TRIES {
        let mut edit = edited(&text, &mut dice);
        for _ in 0..dice.below(3) {
            edit = edited(&edit, &mut dice);
        }
        let Some(now) = Some(checked(&edit)).filter(Checked::ok).and_then(|checked| checked.model) else { continue };
        let what = format!("{name}, edit {k}");
        let revision = holds(&first, &now, &what);
        let back = holds(&now, &first, &format!("{what}, back"));
        assert_eq!(revision.is_empty(), back.is_empty());
        let changed = revision.raise() == Raise::Major;
        if revision.changes.iter().any(|change| change.consequence() == Consequence::Print) && corrected < 4 {
            correction_holds(&first, &now, &revision, &what);
            corrected += 1;
        }
        valid += 1;
        same += usize::from(revision.is_empty());
        anew += usize::from(changed);
    }
    // The dice must not only throw what is broken or nothing.
    assert!(
        valid >= TRIES / 4 && same >= 3 && anew >= 2,
        "{name}: {valid} valid, {same} the same, {anew} to print or cut anew"
    );
}

/// Spans of blanks, comments and other spellings of numbers make no change; a hair's breadth does.
#[test]
fn what_is_spelt_otherwise_is_no_change_and_a_little_is_one() {
    let text = fs::read_to_string(patterns().join("storm-lantern.piece")).expect("a sample");
    let shelf = Folder(patterns());
    let compared = |now: &str| {
        let of = |name, text| Text { name, text, shelf: &shelf };
        let compared = compare(&of("was.piece", &text), &of("now.piece", now), &piecewright::Options::default());
        compared.revision.expect("both compile")
    };
    assert!(compared(&text.replace("cheek        6.5, 10.75", "cheek 13/2, 10 3/4  // as before")).is_empty());
    let little = compared(&text.replace("cheek        6.5, 10.75", "cheek        6.505, 10.75"));
    assert_eq!(little.raise(), Raise::Major);
}
