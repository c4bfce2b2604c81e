//! Bad input of any kind ends in faults: no panic, no hang; and what is accepted after all obeys the laws.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::process::Command;

use piecewright::fault::{Code, Severity};
use piecewright::geometry::Point;
use piecewright::model::{Block, Cut};
use piecewright::pattern::{ReadFault, Shelf};
use piecewright::{Options, build, check};
use proptest::prelude::*;
use support::laws::check_laws;
use support::{Bare, Folder, patterns, samples, stem};

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

#[test]
fn what_a_few_words_multiply_is_bounded() {
    let corner = "point a 1, 1\npoint b 2, 2\n";
    let unit = "unit u {\n1 sea around 4, 4\n}";
    let rows: String = (0..102).fold(String::new(), |all, k| all + &format!("points r{k} 1000 from a to b\n"));
    let units = (0..52).fold(String::from(unit) + "\n", |all, k| {
        all + &format!("unit v{k} apart {{\nstrips 1 to 2000 sea from 0, 0 -- 8, 0 to 0, 8 -- 8, 8\n}}\n")
    });
    let copied = |blocks: u32| {
        (0..blocks).fold(String::from(HEAD), |all, k| {
            all + &format!(
                "block b{k} 8 x 8 {{\ncopies 10000\nunit u {{\nstrips 1 to 20 sea from 0, 0 -- 8, 0 to 0, 8 -- 8, 8\n}}\n}}\n"
            )
        })
    };
    let sizes: Vec<String> = (1..=22).map(|k| format!("{k} in")).collect();
    let sized = block(unit).replace("finished 6 in", &format!("finished 6 in\nsizes {}", sizes.join(", ")));
    for source in [block(&format!("{corner}{rows}{unit}")), block(&units), copied(3), sized] {
        let found = codes(&source);
        let errors = found.iter().filter(|code| **code == Code::CountOutOfRange).count();
        assert!((1..=2).contains(&errors), "{found:?}");
        assert!(check("squall.piece", &source, &Bare).model.is_none());
    }
    assert!(!codes(&copied(2)).contains(&Code::CountOutOfRange));
}

#[test]
fn what_a_publisher_says_without_end_is_survived() {
    let unit = "unit u {\n1 sea around 4, 4\n}";
    let lines = |line: fn(u32) -> String| (0..10_000).map(line).collect::<Vec<_>>().join("\n");
    let found = |lines: &str| codes(&format!("{HEAD}{lines}\nblock squall 8 x 8 {{\n{unit}\n}}\n"));
    assert_eq!(found(&lines(|k| format!("about \"{k}\"\ntool \"{k}\"\nhistory \"{k}\" \"…\""))), []);
    let colourings = lines(|k| format!("colouring c{k} \"C {k}\" with sea as sea"));
    assert_eq!(found(&colourings), [Code::CountOutOfRange]);
    assert_eq!(found(&lines(|k| format!("history \"1\" \"{k}\""))), vec![Code::DoubledStatement; 1_000]);
    let pictures = found(&lines(|k| format!("photo \"{k}.jpg\" \"a gull\"")));
    assert!(pictures.len() <= 1_000 && pictures.contains(&Code::DoubledStatement));
    for path in ["", "/etc/hostname", "../../x.png", "a\\\\b.png", "C:/x.png", "."] {
        let found = found(&format!("logo \"{path}\" \"a gull\""));
        assert!(matches!(found.as_slice(), [Code::UseOutside | Code::PictureNotFound]), "{path}: {found:?}");
    }
}

#[test]
fn areas_in_a_heap_are_told_of_without_telling_of_every_pair() {
    let sections = (1..=1_000).fold(String::new(), |all, k| all + &format!("{k} sea 0, 0 -- 8, 0 -- 8, 8 -- 0, 8\n"));
    let units = (0..1_000).fold(String::new(), |all, k| all + &format!("unit u{k} {{\n1 sea around 4, 4\n}}\n"));
    for (source, code) in
        [(block(&format!("unit u {{\n{sections}}}")), Code::SectionOverlap), (block(&units), Code::UnitOverlap)]
    {
        let found = codes(&source);
        assert_eq!(found.len(), 20);
        assert!(found.iter().all(|found| *found == code), "{found:?}");
    }
}

#[test]
fn a_source_with_thousands_of_faults_is_given_up_after_a_thousand() {
    let unknown = (0..20_000)
        .fold(String::new(), |all, k| all + &format!("point light-{k} lamp-{k} moved 1, 1\npoint buoy-{k} 1, 1\n"));
    let found = codes(&block(&format!("{unknown}unit u {{\n1 sea around 4, 4\n}}")));
    assert_eq!(found.len(), 1_000);
    assert!(found.iter().all(|code| *code == Code::UnknownName));
    let fabrics = (0..20_000).fold(String::from(HEAD), |all, _| all + "fabric sea \"Sea\" #6b9db8\n");
    assert_eq!(codes(&fabrics), vec![Code::DoubledName; 1_000]);
}

#[test]
fn units_of_many_seams_side_by_side_are_warned_of_once_a_seam() {
    let unit = |name: &str, x: u32, strips: u32| {
        format!(
            "unit {name} {{\noutline {x}, 0 -- {0}, 0 -- {0}, 8 -- {x}, 8\nstrips 1 to {strips} sea from {x}, 0 -- {0}, 0 to {x}, 8 -- {0}, 8\n}}\n",
            x + 4
        )
    };
    let source = block(&(unit("port", 0, 100) + &unit("starboard", 4, 99)));
    let near = codes(&source).iter().filter(|code| **code == Code::NearMiss).count();
    assert!((1..100).contains(&near), "{near}");
}

/// A shelf of shared files that use each other.
struct Shared(&'static [(&'static str, &'static str)]);

impl Shelf for Shared {
    fn read(&self, path: &str) -> Result<String, ReadFault> {
        self.0.iter().find(|(name, _)| *name == path).map(|(_, text)| (*text).to_owned()).ok_or(ReadFault::NotFound)
    }
}

#[test]
fn shared_files_are_taken_in_once_and_never_round_in_a_ring() {
    let source = |path: &str| format!("use \"{path}\"\n{}", block("unit u {\n1 sea around 4, 4\n}"));
    let codes = |path: &str, shelf: &Shared| -> Vec<Code> {
        check("squall.piece", &source(path), shelf).faults.iter().map(|fault| fault.code).collect()
    };
    let diamond = Shared(&[
        ("quay/a.piece", "use \"b.piece\"\nuse \"../c.piece\"\n"),
        ("quay/b.piece", "use \"../d.piece\"\n"),
        ("c.piece", "use \"./quay/../d.piece\"\n"),
        ("d.piece", "fabric foam \"Foam\" #f3f1e9\n"),
    ]);
    assert_eq!(codes("quay/a.piece", &diamond), []);
    let ring = Shared(&[("a.piece", "use \"b.piece\"\n"), ("b.piece", "use \"a.piece\"\n")]);
    assert!(codes("a.piece", &ring).contains(&Code::UseCycle));
    assert!(codes("squall.piece", &ring).contains(&Code::UseCycle));
    for path in ["../a.piece", "/a.piece", "quay/../../a.piece", "..\\\\a.piece"] {
        assert!(codes(path, &ring).contains(&Code::UseOutside), "{path}");
    }
}

#[test]
fn fifty_megabytes_are_not_read_to_their_end() {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, filling) in [("blank.piece", b' '), ("noise.piece", 0xff)] {
        let path = folder.path().join(name);
        fs::write(&path, vec![filling; 50 << 20]).expect("writes");
        let run = Command::new(env!("CARGO_BIN_EXE_piecewright")).arg("check").arg(&path).output().expect("runs");
        assert_eq!(run.status.code(), Some(1));
        assert!(String::from_utf8_lossy(&run.stdout).contains("source-too-large"));
    }
}

/// What a pattern of one size must share with the same pattern of another: all that is decided, and all places but for scale.
#[test]
fn every_size_is_sewn_alike() {
    for path in samples() {
        let pattern = support::resolved(&path);
        let models = support::models_at(&pattern, &[4.0, 8.0, 12.0, 20.0]);
        let (first, others) = models.split_first().expect("four sizes");
        for other in others {
            for (a, b) in first.blocks.iter().zip(&other.blocks) {
                let at = format!("{} {} at {}", stem(&path), a.name, other.size);
                assert_eq!(a.tree, b.tree, "{at}");
                assert_eq!(a.joins.len(), b.joins.len(), "{at}");
                let marks = |block: &Block| -> Vec<String> {
                    let units = block.units.iter().map(|unit| format!("{} {}", unit.mark, unit.name));
                    units.chain(block.variants.iter().map(|v| format!("{} {}", v.mark, v.id))).collect()
                };
                assert_eq!(marks(a), marks(b), "{at}");
                let scale = b.width.to_inches() / a.width.to_inches();
                let same = |p: Point, q: Point| p.distance(Point::new(q.x / scale, q.y / scale)) < 1e-6;
                for (p, q) in a.joins.iter().zip(&b.joins) {
                    assert_eq!((&p.left, &p.right, p.press), (&q.left, &q.right, q.press), "{at}");
                    assert!(same(p.seam.start, q.seam.start) && same(p.seam.end, q.seam.end), "{at}");
                    assert_eq!(p.match_points.len(), q.match_points.len(), "{at}");
                    for (m, n) in p.match_points.iter().zip(&q.match_points) {
                        assert!(same(m.at, n.at), "{at}");
                        assert_eq!((m.nesting, m.layers, m.spins), (n.nesting, n.layers, n.spins), "{at}");
                    }
                }
                for (u, v) in a.units.iter().zip(&b.units) {
                    for (s, t) in u.sections.iter().zip(&v.sections) {
                        let corners = s.polygon.corners().iter().zip(t.polygon.corners());
                        assert_eq!(s.polygon.corners().len(), t.polygon.corners().len(), "{at}");
                        assert!(corners.into_iter().all(|(p, q)| same(*p, *q)), "{at}");
                    }
                }
            }
        }
    }
}

/// A unit that stands turned and mirrored is cut as it is drawn, but for the hand.
#[test]
fn turned_and_mirrored_foundations_have_the_cuts_of_the_drawing() {
    let quarter = "unit quarter {\noutline 0, 0 -- 4, 0 -- 4, 4 -- 0, 4\n1 sea around 1, 3\n2 sea beyond 0, 1 -- 3, 0\n3 sea beyond 1, 4 -- 4, 2\n}\n";
    let checked = check(
        "squall.piece",
        &block(&format!(
            "{quarter}place quarter mirrored over upright 4\nplace quarter turned 180 deg about centre\nplace quarter mirrored over level 4"
        )),
        &Bare,
    );
    let model = checked.model.as_ref().expect("it can be sewn");
    check_laws("squall", model);
    let variants = &model.blocks[0].variants;
    assert_eq!(variants.iter().map(|v| (v.mirrored, v.sewn)).collect::<Vec<_>>(), [(false, 2), (true, 2)]);
    for (drawn, mirrored) in variants[0].cuts.iter().zip(&variants[1].cuts) {
        assert_eq!((drawn.section, drawn.width, drawn.height), (mirrored.section, mirrored.width, mirrored.height));
        assert_eq!(drawn.corners, mirrored.corners);
        let hands = |cut: &Cut| cut.overhang.map(|[left, right]| [right, left]);
        assert_eq!(drawn.overhang, hands(mirrored));
    }
}

/// A damaged sample: some lines dropped, doubled or swapped, some words replaced.
fn damaged() -> impl Strategy<Value = String> {
    let read = |path: &Path| fs::read_to_string(path).expect("a readable sample");
    // What the house says stands in the text, so that it is damaged too.
    let house = read(&patterns().join("harbour-house.piece"));
    let use_line = |line: &&str| line.starts_with("use ") && line.ends_with(" \"harbour-house.piece\"");
    let with_house = |text: String| match text.lines().find(use_line) {
        Some(line) => text.replacen(line, house.trim_end(), 1),
        None => text,
    };
    let texts: Vec<String> = samples()
        .iter()
        .map(|path| with_house(read(path)))
        .inspect(|text| assert!(text.contains("harbour-house") || text.contains("\ncontact ")))
        // What no sample has.
        .chain(
            ["pieced-sections", "pieced-places", "plain-pieces"]
                .map(|name| read(&Path::new("tests/fixtures").join(name).with_extension("piece"))),
        )
        .collect();
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

proptest! {
    // A packet takes its time without optimisation.
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn damaged_samples_build_or_say_why_not(text in damaged()) {
        let built = build("damaged.piece", &text, &Folder(patterns()), &Options::default(), &mut |_| {});
        let errors = built.faults.iter().any(|fault| fault.severity() == Severity::Error);
        prop_assert_eq!(built.artifacts.is_none(), errors);
        prop_assert!(built.artifacts.iter().flatten().all(|artifact| !artifact.bytes.is_empty()));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    /// Strips wherever their lines run: refused in the words of their own fault, or sewn by the laws.
    #[test]
    fn strips_along_any_line_are_sewn_or_refused(
        seam in (0..=8u8, 0..=8u8), section in 1..=2u8, way in 0..8u8, at in proptest::collection::vec(0..=32u8, 1..4), named: bool,
    ) {
        let (dx, dy) = [(4, 0), (0, 4), (4, 4), (4, -4), (4, 1), (1, 4), (-4, 2), (3, -1)][usize::from(way)];
        let mut lines = format!("unit u {{\n1 sea around 4, 7.9\n2 sea beyond 0, {} -- 8, {}\n", seam.0, seam.1);
        for k in at {
            let start = f64::from(k) / 4.0;
            let around = if named { format!(" around {}, {}", start + 0.25, start) } else { String::new() };
            let _ = writeln!(lines, "pieced {section} sea beyond {start}, 4 -- {}, {}{around}", start + f64::from(dx), 4 + dy);
        }
        let checked = check("squall.piece", &block(&(lines + "}")), &Bare);
        if checked.ok() {
            check_laws("squall", checked.model.as_ref().expect("a model"));
        } else {
            let sewn = [Code::PiecedUnfit, Code::LineThroughFirst, Code::NothingBeyond, Code::NotLeftOver];
            let errors = checked.faults.iter().filter(|fault| fault.severity() == Severity::Error);
            prop_assert!(errors.map(|fault| fault.code).all(|code| sewn.contains(&code)), "{:?}", checked.faults);
        }
    }
}
