//! `piecewright diff` from outside: what it tells in each manner, the picture it draws, and how it ends.

#![expect(clippy::expect_used, clippy::panic, reason = "a test that cannot go on fails")]

#[path = "support/desk.rs"]
mod desk;

use std::fs;
use std::path::Path;

use desk::{Desk, Ran};
use serde_json::Value;

const SCHEMA: &str = include_str!("../docs/revision.schema.json");

const LIGHT: &str = r#"pattern  "Harbour Light"
edition  "1.0"
finished 6 in

fabric dusk "Dusk sky"    #2f3e5c
fabric glow "Lamp glow"   #f6d77a
fabric red  "Harbour red" #a8332b

block light 8 x 8 {
  unit lamp {
    outline 0, 0 -- 8, 0 -- 8, 3 -- 0, 3
    1 glow around 4, 2
    2 dusk beyond 4, 0 -- 2, 3
    3 dusk beyond 4, 0 -- 6, 3
  }
  unit tower {
    outline 0, 3 -- 8, 3 -- 8, 8 -- 0, 8
    1 red  around 4, 5
    2 dusk beyond 2, 3 -- 1, 8
    3 dusk beyond 6, 3 -- 7, 8
  }
}
"#;

/// What the leaning tower means, on a terminal.
const TOLD: &str = "\
Harbour Light · What changed within edition 1.0

  Print again
    - B · tower: Drawn anew. B1 and B2 lie elsewhere, by up to ⅜ in, most of all B1.

  Cut again
    - B1: one piece, 6⅛ × 4¾ in of Harbour red, instead of 5⅝ × 4¾ in.
    - B2: one piece, 5¼ × 2¼ in of Dusk sky, instead of 5⅛ × 2⅜ in.
    - Pieces that are cut already may come up short: B1 and B2.

  Only words
    - The fabric Lamplight: “Lamplight #f6d77a” instead of “Lamp glow #f6d77a”.

  Paper A stays as it is.

  This asks for edition 2.0 or later, and the source says 1.0: papers or cuts that were right are so no longer.
";

/// The same in Markdown.
const IN_MARKDOWN: &str = "\
## Harbour Light · What changed within edition 1.0

### Print again

- B · tower: Drawn anew. B1 and B2 lie elsewhere, by up to ⅜ in, most of all B1.

### Cut again

- B1: one piece, 6⅛ × 4¾ in of Harbour red, instead of 5⅝ × 4¾ in.
- B2: one piece, 5¼ × 2¼ in of Dusk sky, instead of 5⅛ × 2⅜ in.
- Pieces that are cut already may come up short: B1 and B2.

### Only words

- The fabric Lamplight: “Lamplight #f6d77a” instead of “Lamp glow #f6d77a”.

Paper A stays as it is.

This asks for edition 2.0 or later, and the source says 1.0: papers or cuts that were right are so no longer.
";

/// A desk with the light, and a light whose tower leans and whose lamp has another name.
fn desk() -> Desk {
    let desk = Desk::new();
    desk.put("was.piece", LIGHT);
    desk.put("now.piece", leaning());
    desk
}

/// Without blanks at which no line may break.
fn plain(text: &str) -> String {
    text.replace('\u{a0}', " ")
}

fn leaning() -> String {
    LIGHT.replace("beyond 2, 3 -- 1, 8", "beyond 2, 3 -- 0.5, 8").replace("\"Lamp glow\"", "\"Lamplight\"")
}

#[test]
fn what_changed_is_told_by_consequence_and_by_exit_code() {
    let desk = desk();
    let ran = desk.run(&["diff", "was.piece", "now.piece"]);
    assert_eq!((ran.code, ran.err.as_str()), (Some(1), ""));
    assert_eq!(plain(&ran.out), TOLD);
    let same = desk.run(&["diff", "was.piece", "was.piece"]);
    assert_eq!((same.code, same.out.as_str()), (Some(0), "Harbour Light: no change\n"));
    desk.put("spelt.piece", LIGHT.replace("  ", " ").replace("around 4, 2", "around 8 / 2, 2 // as it was"));
    assert_eq!(desk.run(&["diff", "was.piece", "spelt.piece"]).code, Some(0), "lines that were spelt otherwise");
    let coloured = desk.run(&["diff", "was.piece", "now.piece", "--color", "always"]).out;
    assert!(coloured.contains("\u{1b}[1mHarbour Light\u{1b}[0m"), "{coloured}");
    let german = desk.run(&["diff", "was.piece", "now.piece", "--language", "de"]).out;
    assert!(german.contains("Neu drucken") && german.contains("Neu gezeichnet."), "{german}");
    let asked = "Das verlangt Ausgabe 2.0 oder eine spätere, und in der Quelle steht 1.0: Vorlagen oder Zuschnitte,";
    assert!(plain(&german).contains(asked), "{german}");
    desk.put("words.piece", LIGHT.replace("Dusk sky", "Evening sky"));
    let words = desk.run(&["diff", "was.piece", "words.piece"]).out;
    assert!(words.ends_with(": there are changes, although none that make papers or cuts wrong.\n"), "{words}");
    let german = desk.run(&["diff", "was.piece", "was.piece", "--language", "de"]).out;
    assert_eq!(german, "Harbour Light: nichts geändert\n");
}

#[test]
fn it_is_told_in_markdown_and_written_whole() {
    let desk = desk();
    desk.put("changes.md", "of yesterday");
    let ran = desk.run(&["diff", "was.piece", "now.piece", "--format", "markdown", "-o", "changes.md"]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(1), ""));
    let text = fs::read_to_string(desk.path("changes.md")).expect("is written");
    assert_eq!(plain(&text), IN_MARKDOWN);
    let left: Vec<_> = fs::read_dir(desk.folder.path()).expect("a folder").collect();
    assert_eq!(left.len(), 3, "nothing is left beside it");
    let nowhere = desk.run(&["diff", "was.piece", "now.piece", "-o", "no/such/changes.md"]);
    assert_eq!(nowhere.code, Some(2));
    assert!(nowhere.err.contains("there is no folder `no/such`"), "{}", nowhere.err);
}

fn validated(text: &str) -> Value {
    let mut compiler = boon::Compiler::new();
    let place = "https://piecewright.invalid/revision.schema.json";
    compiler.add_resource(place, serde_json::from_str(SCHEMA).expect("JSON")).expect("a schema");
    let mut schemas = boon::Schemas::new();
    let index = compiler.compile(place, &mut schemas).expect("a schema");
    let value: Value = serde_json::from_str(text).expect("JSON");
    if let Err(fault) = schemas.validate(&value, index) {
        panic!("{fault:#}\n{text}");
    }
    value
}

#[test]
fn programs_read_what_the_schema_promises() {
    let desk = desk();
    let ran = desk.run(&["diff", "was.piece", "now.piece", "--format", "json"]);
    assert_eq!(ran.code, Some(1));
    let told = validated(&ran.out);
    let pattern = &told["patterns"][0];
    assert_eq!((pattern["state"].as_str(), pattern["raise"].as_str()), (Some("changed"), Some("major")));
    let redrawn = pattern["changes"].as_array().expect("changes").iter().find(|change| change["redrawn"].is_object());
    let redrawn = redrawn.expect("a foundation that was redrawn");
    // The foot of the tower moved by half a step of three quarters of an inch.
    assert!((redrawn["redrawn"]["farthest"].as_f64().expect("a number") - 0.375).abs() < 1e-6, "{redrawn}");
    assert_eq!(redrawn["now"]["unit"], "tower");
    // Nothing meets at the edge of the block.
    assert_eq!(redrawn["redrawn"]["still_fits"], "fits");
    // Chains of editions of the samples have changes of every kind.
    for sample in ["tide-flags", "harbour-series", "gull", "breakwater"] {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("patterns");
        let other = folder.join(if sample == "gull" { "breakwater.piece" } else { "gull.piece" });
        let sample = folder.join(format!("{sample}.piece"));
        let ran =
            desk.run(&["diff", sample.to_str().expect("text"), other.to_str().expect("text"), "--format", "json"]);
        assert_eq!(ran.code, Some(1), "{}", ran.err);
        let told = validated(&ran.out);
        assert_eq!(told["patterns"][0]["state"], "changed");
    }
}

#[test]
fn both_are_drawn_over_each_other() {
    let desk = desk();
    let ran = desk.run(&["diff", "was.piece", "now.piece", "--picture", "moved.svg"]);
    assert_eq!(ran.code, Some(1));
    let picture = fs::read_to_string(desk.path("moved.svg")).expect("is drawn");
    assert!(picture.contains("<svg") && picture.contains("Harbour Light · light"), "{picture}");
    assert!(picture.contains("stroke-dasharray"), "the former lines");
    desk.put("words.piece", LIGHT.replace("Dusk sky", "Evening sky"));
    let words = desk.run(&["diff", "was.piece", "words.piece", "--picture", "none.svg"]);
    assert_eq!(words.code, Some(1));
    assert!(words.err.contains("there is no picture to draw") && !desk.path("none.svg").exists(), "{}", words.err);
}

#[test]
fn folders_are_compared_pattern_by_pattern() {
    let desk = desk();
    let buoy = LIGHT.replace("Harbour Light", "Buoy");
    for (name, text) in [
        ("old/light.piece", LIGHT.to_owned()),
        ("new/light.piece", leaning()),
        ("old/palette.piece", String::from("fabric tar \"Tar\" #202020\n")),
        ("old/float.piece", buoy.clone()),
        // The same pattern in a file of another name.
        ("new/buoy.piece", buoy),
        ("old/gone.piece", LIGHT.replace("Harbour Light", "Wreck")),
        ("new/deep/come.piece", LIGHT.replace("Harbour Light", "Pilot Boat")),
    ] {
        desk.put(name, &text);
    }
    let ran = desk.run(&["diff", "old", "new"]);
    assert_eq!(ran.code, Some(1));
    let heads: Vec<&str> = ran.out.lines().filter(|line| !line.starts_with(' ') && !line.is_empty()).collect();
    assert_eq!(
        heads,
        [
            "Pilot Boat (deep/come.piece): this pattern is new",
            "Wreck (gone.piece): this pattern is gone",
            "Harbour Light (light.piece) · What changed within edition 1.0",
            "No change: buoy.piece",
        ]
    );
    let told = validated(&desk.run(&["diff", "old", "new", "--format", "json"]).out);
    assert_eq!(told["patterns"].as_array().map(Vec::len), Some(4), "programs are told of all");
    let markdown = desk.run(&["diff", "old", "new", "--format", "markdown"]).out;
    assert_eq!(markdown.matches("## ").count() - markdown.matches("### ").count(), 3, "{markdown}");
    assert!(markdown.ends_with("\n\nNo change: buoy.piece\n"), "{markdown}");
    let german = desk.run(&["diff", "old", "new", "--language", "de"]).out;
    for words in ["diese Anleitung ist neu\n", "diese Anleitung ist weggefallen\n", "\nNichts geändert: buoy.piece\n"]
    {
        assert!(german.contains(words), "{words} in {german}");
    }
    let mixed = desk.run(&["diff", "old", "new/light.piece"]);
    assert_eq!(mixed.code, Some(2));
    assert!(mixed.err.contains("a source and a folder cannot be compared"), "{}", mixed.err);
}

#[test]
fn what_did_not_change_is_told_in_one_line() {
    let desk = desk();
    for number in 1..=6 {
        let pattern = LIGHT.replace("Harbour Light", &format!("Light {number}"));
        desk.put(&format!("old/{number}.piece"), &pattern);
        desk.put(&format!("new/{number}.piece"), &pattern);
    }
    for manner in ["text", "markdown"] {
        let ran = desk.run(&["diff", "old", "new", "--format", manner]);
        assert_eq!((ran.code, ran.out.as_str()), (Some(0), "No change in 6 patterns.\n"));
    }
    let german = desk.run(&["diff", "old", "new", "--language", "de"]).out;
    assert_eq!(german, "In 6 Anleitungen ist nichts geändert.\n");
    desk.put("new/7.piece", LIGHT);
    let many = desk.run(&["diff", "old", "new"]).out;
    assert_eq!(many, "Harbour Light (7.piece): this pattern is new\nNo change in 6 patterns.\n");
    let none = desk.run(&["diff", "/dev/null", "/dev/null"]);
    assert_eq!((none.code, none.out.as_str()), (Some(0), "There are no patterns to compare.\n"));
}

#[test]
fn only_a_title_that_one_pattern_has_tells_which_it_was() {
    let desk = desk();
    for name in ["old/a.piece", "old/b.piece", "new/c.piece"] {
        desk.put(name, LIGHT);
    }
    let heads = |ran: Ran| ran.out.lines().map(str::to_owned).collect::<Vec<_>>();
    let states =
        ["(a.piece): this pattern is gone", "(b.piece): this pattern is gone", "(c.piece): this pattern is new"];
    assert_eq!(heads(desk.run(&["diff", "old", "new"])), states.map(|state| format!("Harbour Light {state}")));
    let states =
        ["(a.piece): this pattern is new", "(b.piece): this pattern is new", "(c.piece): this pattern is gone"];
    assert_eq!(heads(desk.run(&["diff", "new", "old"])), states.map(|state| format!("Harbour Light {state}")));
    // Those that have a partner by name are out of it.
    desk.put("new/b.piece", LIGHT);
    assert_eq!(desk.run(&["diff", "old", "new"]).out, "No change in 2 patterns.\n");
}

#[test]
fn a_broken_source_does_not_hide_the_others() {
    let desk = desk();
    let broken = LIGHT.replace("1 glow around 4, 2", "1 glow around 4");
    for (name, text) in [
        ("old/a.piece", LIGHT.to_owned()),
        ("new/a.piece", broken.clone()),
        ("old/b.piece", LIGHT.replace("Harbour Light", "Buoy")),
        ("new/b.piece", leaning().replace("Harbour Light", "Buoy")),
        ("new/c.piece", broken),
    ] {
        desk.put(name, &text);
    }
    let ran = desk.run(&["diff", "old", "new"]);
    assert_eq!(ran.code, Some(2));
    assert!(
        ran.out.starts_with("Harbour Light (a.piece): could not be compared\n\nBuoy (b.piece) · What"),
        "{}",
        ran.out
    );
    assert!(ran.out.ends_with("\nc.piece: could not be compared\n"), "{}", ran.out);
    assert!(ran.err.contains("a.piece:12") && ran.err.contains("c.piece:12"), "{}", ran.err);
    let ran = desk.run(&["diff", "old", "new", "--format", "markdown", "--language", "de", "-o", "changes.md"]);
    assert_eq!(ran.code, Some(2));
    let text = fs::read_to_string(desk.path("changes.md")).expect("is written");
    assert!(text.starts_with("## Harbour Light (a.piece)\n\nKonnte nicht verglichen werden.\n\n## Buoy"), "{text}");
    let ran = desk.run(&["diff", "old", "new", "--format", "json"]);
    assert_eq!(ran.code, Some(2));
    let told = validated(&ran.out);
    assert_eq!(
        (told["patterns"].as_array().map(Vec::len), told["patterns"][0]["key"].as_str()),
        (Some(1), Some("b.piece"))
    );
    assert!(ran.err.lines().all(|line| line.starts_with('{')), "{}", ran.err);
}

#[test]
fn faults_are_told_once_and_all_of_them() {
    let desk = desk();
    let both = desk.run(&["diff", "was.piece", "now.piece", "--size", "9 in"]);
    assert_eq!((both.code, both.err.matches("error[").count()), (Some(2), 1), "{}", both.err);
    assert!(!both.err.contains("OLD") && !both.err.contains("NEW"), "{}", both.err);
    desk.put("sized.piece", LIGHT.replace("finished 6 in", "finished 6 in\nsizes 9 in"));
    let old = desk.run(&["diff", "was.piece", "sized.piece", "--size", "9 in"]);
    assert!(old.err.contains("]: OLD (`was.piece`): ") && !old.err.contains("NEW"), "{}", old.err);
    let new = desk.run(&["diff", "sized.piece", "was.piece", "--size", "9 in"]);
    assert!(new.err.contains("]: NEW (`was.piece`): ") && !new.err.contains("OLD"), "{}", new.err);
    // More than a screenful.
    let unknown: Vec<String> = (0..30).map(|n| format!("  {} nowhere{n} around 4, 2\n", n + 1)).collect();
    desk.put("many.piece", LIGHT.replace("    1 glow around 4, 2\n", &unknown.concat()));
    let many = desk.run(&["diff", "was.piece", "many.piece"]);
    assert_eq!(many.code, Some(2));
    assert!(many.err.matches("error[").count() > 20 && !many.err.contains("--most"), "{}", many.err);
}

#[test]
fn nothing_is_written_over_sources() {
    let desk = desk();
    desk.put("old/light.piece", LIGHT);
    desk.put("plain.txt", LIGHT);
    desk.put("picture.svg", LIGHT);
    #[cfg(unix)]
    std::os::unix::fs::symlink("was.piece", desk.path("link.md")).expect("links");
    let mut refused = vec![
        (vec!["was.piece", "now.piece", "-o", "now.piece"], "over sources"),
        (vec!["was.piece", "now.piece", "-o", "new.PIECE"], "over sources"),
        (vec!["plain.txt", "now.piece", "-o", "./plain.txt"], "over sources"),
        (vec!["was.piece", "picture.svg", "--picture", "picture.svg"], "over sources"),
        (vec!["old", "old", "-o", "old/light.piece"], "over sources"),
        (vec!["was.piece", "now.piece", "--picture", "was.piece"], "over sources"),
        (vec!["was.piece", "now.piece", "--picture", "moved.png"], "let the name end in `.svg`"),
        (vec!["was.piece", "now.piece", "--picture", "no/moved.svg"], "there is no folder `no`"),
        (vec!["was.piece", "now.piece", "-o", "old"], "is a folder"),
        (vec!["was.piece", "now.piece", "-o", "a.svg", "--picture", "old/../a.svg"], "name two files"),
    ];
    if cfg!(unix) {
        refused.push((vec!["was.piece", "now.piece", "-o", "link.md"], "over sources"));
    }
    for (arguments, told) in refused {
        let ran = desk.run(&[&["diff"], arguments.as_slice()].concat());
        assert_eq!((ran.code, ran.out.as_str()), (Some(2), ""), "{arguments:?}");
        assert!(ran.err.contains(told) && ran.err.contains("help: "), "{arguments:?}: {}", ran.err);
    }
    for (name, text) in [("was.piece", LIGHT), ("now.piece", &leaning()), ("plain.txt", LIGHT), ("picture.svg", LIGHT)]
    {
        assert_eq!(fs::read_to_string(desk.path(name)).expect("is there"), text, "{name}");
    }
    assert!(!desk.path("new.PIECE").exists() && !desk.path("a.svg").exists() && !desk.path("moved.png").exists());
}

#[test]
fn what_cannot_be_compared_is_trouble_with_a_reason() {
    let desk = desk();
    desk.put("broken.piece", LIGHT.replace("1 glow around 4, 2", "1 glow around 4"));
    let broken = desk.run(&["diff", "was.piece", "broken.piece"]);
    assert_eq!((broken.code, broken.out.as_str()), (Some(2), ""));
    assert!(broken.err.contains("broken.piece:12") && broken.err.contains("error["), "{}", broken.err);
    let size = desk.run(&["diff", "was.piece", "now.piece", "--size", "9 in"]);
    assert_eq!(size.code, Some(2));
    assert!(size.err.contains("9 in"), "{}", size.err);
    assert_eq!(desk.run(&["diff", "was.piece", "none.piece"]).code, Some(2));
    assert_eq!(desk.run(&["diff", "was.piece"]).code, Some(2));
    let language = desk.run(&["diff", "was.piece", "now.piece", "--language", "tlh"]);
    assert_eq!(language.code, Some(2));
    assert!(language.err.contains("there are no words in `tlh`"), "{}", language.err);
}
