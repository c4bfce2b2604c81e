//! Bad input of any kind ends in faults: no panic, no hang; and what is accepted after all obeys the laws.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::fmt::Write as _;
use std::fs;

use piecewright::fault::Code;
use piecewright::{Options, build, check};
use proptest::prelude::*;
use support::laws::check_laws;
use support::{Bare, Folder, patterns, samples};

const HEAD: &str = "pattern \"Squall\"\nedition \"1.0\"\nfinished 6 in\nfabric sea \"Sea\" #6b9db8\n";

fn codes(text: &str) -> Vec<Code> {
    check("squall.piece", text, &Bare).faults.iter().map(|fault| fault.code).collect()
}

/// A source with these lines in a block of 8 x 8.
fn block(lines: &str) -> String {
    format!("{HEAD}block squall 8 x 8 {{\n{lines}\n}}\n")
}

#[test]
fn nothing_and_blanks_are_an_empty_source() {
    for text in ["", " \n\t\n", "\u{feff}\n"] {
        assert!(codes(text).contains(&Code::EmptySource), "{text:?}");
    }
}

#[test]
fn a_source_beyond_the_limit_is_refused_unread() {
    assert_eq!(codes(&" ".repeat(5 << 20)), [Code::SourceTooLarge]);
}

#[test]
fn deep_nesting_and_long_paths_end() {
    assert!(codes(&format!("{HEAD}block squall 8 x 8 {}", "{".repeat(10_000))).contains(&Code::Unclosed));
    assert!(codes(&format!("{HEAD}{}", "block b 8 x 8 {\nunit u {\n".repeat(5_000))).contains(&Code::Unclosed));
    let mut path = String::from("unit u {\n1 sea 0, 0");
    for k in 1..100_000 {
        let _ = write!(path, " -- {}, {}", k % 7, k % 5);
    }
    assert!(codes(&block(&(path + "\n}"))).contains(&Code::CrossingOutline));
}

#[test]
fn absurd_numbers_are_faults() {
    let digits = "9".repeat(400);
    assert_eq!(codes(&block(&format!("unit u {{\n1 sea around {digits}, 1\n}}"))), [Code::NumberOutOfRange]);
    for (lines, code) in [
        ("measure z 0\nmeasure n z / z\nunit u {\n1 sea around n, 1\n}", Code::NumberOutOfRange),
        ("measure h 1000000 * 1000000 * 1000000\nunit u {\n1 sea around h, 1\n}", Code::NumberOutOfRange),
        ("copies 0\nunit u {\n1 sea around 4, 4\n}", Code::CountOutOfRange),
        (
            "unit u apart {\nstrips 1 to 2000 sea from 0, 0 -- 8, 0 to 0, 8 -- 8, 8\n}\nplace u 4000 in all every 8, 0",
            Code::CountOutOfRange,
        ),
        (
            "copies 10000\nunit u {\nstrips 1 to 200 sea from 0, 0 -- 8, 0 to 0, 8 -- 8, 8\nallow narrow-section\n}",
            Code::CountOutOfRange,
        ),
    ] {
        let found = codes(&block(lines));
        assert_eq!(found, [code], "{lines}");
    }
    assert!(
        codes(&format!("{HEAD}block squall 0 x 8 {{\nunit u {{\n1 sea around 4, 4\n}}\n}}\n"))
            .contains(&Code::NumberOutOfRange)
    );
}

#[test]
fn coincident_points_are_faults_in_every_construction() {
    for construction in [
        "meet a -- a and a -- b",
        "mirror b over a -- a",
        "foot b on a -- a",
        "2 from a toward a",
        "meet level 2 and level 3",
    ] {
        let lines = format!("point a 1, 1\npoint b 2, 2\npoint p {construction}\nunit u {{\n1 sea around p\n}}");
        assert!(codes(&block(&lines)).contains(&Code::NoSuchPoint), "{construction}");
    }
}

#[test]
fn line_ends_and_a_byte_order_mark_change_nothing() {
    for path in samples() {
        let text = fs::read_to_string(&path).expect("a readable sample");
        let shelf = Folder(patterns());
        let plain = check("s", &text, &shelf);
        let other = check("s", &format!("\u{feff}{}", text.replace('\n', "\r\n")), &shelf);
        assert_eq!(plain.model, other.model, "{}", path.display());
        assert!(other.faults.is_empty(), "{}", path.display());
    }
}

#[test]
fn names_of_any_script_work_and_unprintable_letters_are_a_fault_of_the_packet() {
    let source = |name: &str| {
        format!(
            "pattern \"Möwe\"\nedition \"1\"\nfinished 6 in\nfabric 海 \"{name}\" #6b9db8\nblock гавань 8 x 8 {{\nunit möwe {{\n1 海 around 4, 1\n}}\n}}\n"
        )
    };
    let built = |name: &str| build("möwe.piece", &source(name), &Bare, &Options::default(), &mut |_| {});
    assert!(built("Morze").artifacts.is_some());
    let unprintable = built("海");
    assert!(unprintable.artifacts.is_none());
    assert_eq!(unprintable.faults.iter().map(|fault| fault.code).collect::<Vec<_>>(), [Code::MissingLetter]);
    assert!(check("möwe.piece", &source("海"), &Bare).faults.is_empty());
}

#[test]
fn two_thousand_sections_and_sixteen_hundred_places_are_no_trouble() {
    let strips =
        "unit u {\nstrips 1 to 2000 sea from 0, 0 -- 8, 0 to 0, 8 -- 8, 8\nallow narrow-section\nallow near-points\n}";
    assert_eq!(codes(&block(strips)), []);
    let mut grid = format!(
        "{}block squall 40 x 40 {{\nunit u {{\noutline 0, 0 -- 1, 0 -- 1, 1 -- 0, 1\n1 sea around 1/2, 1/2\n}}\n",
        HEAD.replace("6 in", "40 in")
    );
    grid.push_str("place u 40 in all every 1, 0\n");
    for row in 1..40 {
        let _ = writeln!(grid, "measure row-{row} {row}\nplace u moved 0, row-{row} 40 in all every 1, 0");
    }
    grid.push_str("}\n");
    assert_eq!(codes(&grid), []);
}

/// A damaged sample: some lines dropped, doubled or swapped, some words replaced.
fn damaged() -> impl Strategy<Value = String> {
    let texts: Vec<String> =
        samples().iter().map(|path| fs::read_to_string(path).expect("a readable sample")).collect();
    let words = ["0", "7", "-3", "1/3", "centre", "beyond", "around", "--", ",", "{", "}", "level", "sky", "\"", "#"];
    (0..texts.len(), proptest::collection::vec((0..4u8, any::<u16>(), any::<u16>(), 0..words.len()), 1..6)).prop_map(
        move |(text, changes)| {
            let mut lines: Vec<String> = texts[text].lines().map(str::to_owned).collect();
            for (kind, a, b, word) in changes {
                let (i, j) = (usize::from(a) % lines.len(), usize::from(b) % lines.len());
                match kind {
                    0 => _ = lines.remove(i),
                    1 => lines.insert(i, lines[j].clone()),
                    2 => lines.swap(i, j),
                    _ => {
                        let mut parts: Vec<&str> = lines[i].split(' ').collect();
                        let at = usize::from(b) % parts.len();
                        parts[at] = words[word];
                        lines[i] = parts.join(" ");
                    }
                }
            }
            lines.join("\n") + "\n"
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn damaged_samples_never_panic_and_what_is_accepted_obeys_the_laws(text in damaged()) {
        let checked = check("damaged.piece", &text, &Folder(patterns()));
        if let Some(model) = checked.model.as_ref().filter(|_| checked.ok()) {
            check_laws("damaged", model);
        }
        for fault in &checked.faults {
            for label in &fault.labels {
                let source = checked.sources.get(label.span.file).expect("a label lies in a source");
                prop_assert!(source.text().get(label.span.range()).is_some(), "a label lies on whole letters");
            }
        }
    }
}
