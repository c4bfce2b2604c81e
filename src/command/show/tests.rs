//! What faults look like, in every manner.

use clap::Parser;
use piecewright::notation::source::{SourceText, Span};

use super::*;
use crate::command::arguments::{Arguments, Task};

const SOURCE: &str = "\
pattern \"Gull\"
block gull 16 x 16 {
  1 white around 8, 8
  2 sky   beyond wing -- tip
\t4 sky   wing -- tip -- tail -- 6, 9
}
";

fn span(file: u32, text: &str, words: &str) -> Span {
    let start = text.find(words).expect("stands there");
    Span::new(file, start..start + words.len())
}

/// Two errors, a warning and a fault of no place, in a source that uses a palette.
fn judged() -> Judged {
    let mut sources = Sources::default();
    sources.add(SourceText::new("gull.piece", SOURCE));
    let palette = "fabric sky \"Sky\" #9fc3d9\n";
    sources.add(SourceText::new("palette.piece", palette));
    let faults = vec![
        Fault::nowhere(Code::BadLength, "the size `10 inch-es` is no length"),
        Fault::new(Code::UnknownName, "there is no point `wing`", span(0, SOURCE, "wing"))
            .with_help("did you mean `wind`?")
            .with_fix("write `wind`", true, vec![(span(0, SOURCE, "wing"), "wind".into())]),
        Fault::new(Code::NotOneSeam, "section 4 does not go on with one straight seam", span(0, SOURCE, "4 sky"))
            .saying("it meets sections 1 and 2 along one line and section 3 along another")
            .with_label(span(1, palette, "sky"), "its fabric")
            .with_help("sew section 4 before section 3"),
        Fault::new(Code::ShortSeam, "the seam of section 4 is only 1/8 in long", span(0, SOURCE, "tail")),
    ];
    Judged { sources, faults, folder: PathBuf::from("sea") }
}

fn showing(arguments: &[&str]) -> Showing {
    let words = ["piecewright", "check", "-"].iter().chain(arguments);
    match Arguments::try_parse_from(words).expect("is understood").task {
        Task::Check(check) => check.showing,
        other => panic!("{other:?}"),
    }
}

fn shown(one: Judged, arguments: &[&str]) -> Shown {
    let showing = showing(arguments);
    let colour = showing.color == crate::command::arguments::Colour::Always;
    render(&[one], &showing, Screen { terminal: false, colour })
}

#[test]
fn the_full_manner_underlines_the_words() {
    let shown = shown(judged(), &[]);
    insta::assert_snapshot!(shown.text, @r#"
    error[bad-length]: the size `10 inch-es` is no length

    error[unknown-name]: there is no point `wing`
       ╭─[gull.piece:4:18]
     3 │   1 white around 8, 8
     4 │   2 sky   beyond wing -- tip
       ·                  ────
     5 │     4 sky   wing -- tip -- tail -- 6, 9
       ╰────
      help: did you mean `wind`?

    error[not-one-seam]: section 4 does not go on with one straight seam
       ╭─[gull.piece:5:2]
     4 │   2 sky   beyond wing -- tip
     5 │     4 sky   wing -- tip -- tail -- 6, 9
       ·     ──┬──
       ·       ╰── it meets sections 1 and 2 along one line and section 3 along another
     6 │ }
       ╰────
    note: this has to do with it
       ╭─[sea/palette.piece:1:8]
     1 │ fabric sky "Sky" #9fc3d9
       ·        ─┬─
       ·         ╰── its fabric
       ╰────
      help: sew section 4 before section 3

    warning[short-seam]: the seam of section 4 is only 1/8 in long
       ╭─[gull.piece:5:25]
     4 │   2 sky   beyond wing -- tip
     5 │     4 sky   wing -- tip -- tail -- 6, 9
       ·                            ────
     6 │ }
       ╰────
      help: `allow short-seam` silences this warning
    "#);
    insta::assert_snapshot!(shown.closing(), @"3 errors, 1 warning; `piecewright explain bad-length` tells more");
}

#[test]
fn the_plain_manner_is_words_alone() {
    insta::assert_snapshot!(shown(judged(), &["--format", "plain"]).text, @r#"
    error[bad-length]: the size `10 inch-es` is no length

    error[unknown-name]: there is no point `wing`
      gull.piece, line 4, column 18, at "wing"
        the line is: 2 sky   beyond wing -- tip
      help: did you mean `wind`?

    error[not-one-seam]: section 4 does not go on with one straight seam
      gull.piece, line 5, column 2, at "4 sky": it meets sections 1 and 2 along one line and section 3 along another
        the line is: 4 sky   wing -- tip -- tail -- 6, 9
      sea/palette.piece, line 1, column 8, at "sky": its fabric
        the line is: fabric sky "Sky" #9fc3d9
      help: sew section 4 before section 3

    warning[short-seam]: the seam of section 4 is only 1/8 in long
      gull.piece, line 5, column 25, at "tail"
        the line is: 4 sky   wing -- tip -- tail -- 6, 9
      help: `allow short-seam` silences this warning
    "#);
}

#[test]
fn the_concise_manner_is_a_line_each() {
    insta::assert_snapshot!(shown(judged(), &["--format", "concise"]).text, @r#"
    error[bad-length]: the size `10 inch-es` is no length
    gull.piece:4:18: error[unknown-name]: there is no point `wing`
    gull.piece:5:2: error[not-one-seam]: section 4 does not go on with one straight seam
    gull.piece:5:25: warning[short-seam]: the seam of section 4 is only 1/8 in long
    "#);
}

#[test]
fn json_is_an_object_a_line() {
    let shown = shown(judged(), &["--format", "json"]);
    let lines: Vec<serde_json::Value> =
        shown.text.lines().map(|line| serde_json::from_str(line).expect("is JSON")).collect();
    assert_eq!(lines.len(), 4);
    let at = |line: usize, pointer: &str| lines[line].pointer(pointer).cloned().unwrap_or_default();
    assert_eq!(at(0, "/file"), "gull.piece");
    assert!(at(0, "/line").is_null());
    assert_eq!((at(1, "/code"), at(1, "/severity")), ("unknown-name".into(), "error".into()));
    assert_eq!((at(1, "/line"), at(1, "/column")), (4.into(), 18.into()));
    assert_eq!((at(1, "/end_line"), at(1, "/end_column")), (4.into(), 22.into()));
    let fix = at(1, "/fixes/0/edits/0");
    let bytes = |name: &str| usize::try_from(fix[name].as_u64().expect("a number")).expect("fits");
    assert_eq!(&SOURCE[bytes("start_byte")..bytes("end_byte")], "wing");
    assert_eq!(fix["replacement"], "wind");
    assert_eq!(at(2, "/labels/1/file"), PathBuf::from("sea").join("palette.piece").display().to_string());
    assert_eq!(at(3, "/severity"), "warning");
    assert_eq!(shown.closing(), "");
}

#[test]
fn only_so_many_are_shown_and_the_rest_is_counted() {
    let shown = shown(judged(), &["--format", "concise", "--most", "3"]);
    assert_eq!(shown.text.lines().count(), 3);
    assert!(!shown.text.contains("warning"), "{}", shown.text);
    assert!(shown.closing().starts_with("and 1 more"), "{}", shown.closing());
    assert_eq!(shown.outcome(false), Outcome::Faults);
}

#[test]
fn warnings_count_only_when_they_are_denied() {
    let mut one = judged();
    one.faults.retain(|fault| fault.severity() == Severity::Warning);
    let shown = shown(one, &[]);
    assert_eq!((shown.outcome(false), shown.outcome(true)), (Outcome::Fine, Outcome::Faults));
}

#[test]
fn colours_are_those_of_the_terminal() {
    let coloured = shown(judged(), &["--color", "always"]).text;
    assert!(coloured.contains("\u{1b}[31m"), "{coloured:?}");
    assert!(!coloured.contains("\u{1b}[38;2"), "{coloured:?}");
    let drawn = coloured.split("\u{1b}[").enumerate();
    let bare: String =
        drawn.map(|(i, part)| if i == 0 { part } else { part.split_once('m').expect("a colour").1 }).collect();
    assert_eq!(bare, shown(judged(), &[]).text);
}

#[test]
fn every_odd_place_is_shown_in_every_manner() {
    let long = format!("x\n{}\ny\n", "gull ".repeat(200));
    let many = "mast\n".repeat(30);
    let texts = ["", "\n", "möwe", "a\u{1b}[2Jb\rc\u{202e}d\r\n", "\tgull\n\n", &long, &many];
    for text in texts {
        for (start, end) in [(0, 0), (0, 1), (1, 2), (2, 5), (0, 9999), (9999, 9999), (7, 60), (text.len(), text.len())]
        {
            let mut sources = Sources::default();
            sources.add(SourceText::new("gull.piece", text));
            let fault = Fault::new(Code::NotUnderstood, "odd \u{1b}[31m", Span::new(0, start..end))
                .saying("here\u{7}")
                .with_label(Span::new(0, end..end + 3), "")
                .with_label(Span::new(9, 0..1), "in no file");
            for manner in ["full", "plain", "concise", "json"] {
                let one = Judged { sources: sources.clone(), faults: vec![fault.clone()], folder: PathBuf::new() };
                let drawn = shown(one, &["--format", manner]).text;
                assert!(drawn.contains("not-understood"), "{text:?} {start}..{end} {manner}: {drawn}");
                assert!(
                    !drawn.contains(['\u{1b}', '\u{7}', '\u{202e}', '\r']),
                    "{text:?} {start}..{end} {manner}: {drawn:?}"
                );
                assert!(!drawn.contains("Failed to read"), "{text:?} {start}..{end} {manner}: {drawn}");
                assert!(drawn.lines().count() < 40 && drawn.len() < 4000, "{text:?} {start}..{end} {manner}: {drawn}");
            }
        }
    }
}

#[test]
fn a_thousand_reports_on_a_large_source_take_no_time() {
    let text = "  2 sky   beyond wing -- tip\n".repeat(14_000);
    let mut sources = Sources::default();
    sources.add(SourceText::new("gull.piece", text.as_str()));
    let at = |n: usize| Span::new(0, n * 400..n * 400 + 3);
    let faults = (0..1000).map(|n| Fault::new(Code::NearMiss, "near", at(n))).collect();
    let before = std::time::Instant::now();
    let drawn = shown(Judged { sources, faults, folder: PathBuf::new() }, &["--most", "all"]).text;
    assert_eq!(drawn.matches("warning[near-miss]").count(), 1000);
    // Scanning 400 kB for each would take many times as long.
    assert!(before.elapsed() < std::time::Duration::from_secs(3), "{:?}", before.elapsed());
}

#[test]
fn errors_are_chosen_first_and_stay_in_place() {
    use Severity::{Error, Warning};
    let severities = [Warning, Warning, Error, Warning, Error];
    assert_eq!(Vec::from_iter(choose(&severities, 3)), [0, 2, 4]);
    assert_eq!(Vec::from_iter(choose(&severities, 1)), [2]);
    assert_eq!(choose(&severities, usize::MAX).len(), 5);
}

#[test]
fn shared_files_are_named_from_here() {
    assert_eq!(name("patterns/gull.piece", 0, Path::new("patterns")), "patterns/gull.piece");
    assert_eq!(name("palette.piece", 1, Path::new(".")), "palette.piece");
    let joined = name("palette.piece", 1, Path::new("patterns"));
    assert_eq!(Path::new(&joined), Path::new("patterns").join("palette.piece"));
}

#[test]
fn a_warning_tells_its_off_switch_once() {
    let warning = Fault::nowhere(Code::ShortSeam, "short");
    let mut explained = BTreeSet::new();
    assert_eq!(off_switch(&warning, &mut explained).as_deref(), Some("`allow short-seam` silences this warning"));
    assert_eq!(off_switch(&warning, &mut explained), None);
    assert_eq!(off_switch(&Fault::nowhere(Code::NotText, "error"), &mut explained), None);
}
