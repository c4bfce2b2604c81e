//! The notation: what is read comes out again, and what is wrong is placed exactly.

#[path = "notation/layout.rs"]
mod layout;
#[path = "notation/write.rs"]
mod write;

use piecewright::fault::Fault;
use piecewright::notation::parse;
use piecewright::notation::syntax::{BlockItem, Item};
use proptest::prelude::*;

/// Every statement in every form, as `write` writes it.
const EVERYTHING: &str = r#"pattern "Storm Lantern"
edition "1.2"
author "Tern Point Sewing Circle"
date 2028-02-29
licence "For your \"own\" sewing \\ gifts."
finished 8 in
finished 8.5 in x 6 in
finished side 4 cm
sizes 6 in, 10 in x 8 in, side 1 yd
allowance 0.25 in
ease 6 mm
paper a4
paper letter, a4
language de
skill "confident beginner"
contact "patterns@ternpoint.example"
report "faults@ternpoint.example"
about "We sew what we see from the quay."
tool "A 6 in \"square\" ruler."
history "1.1" 2026-10-02 "The eaves are wider."
history "1.0" "First edition."
logo "house/logo.svg" "a tern"
photo "lantern.jpg" "the block, sewn"
fabric night "Night sky" #22314e
fabric mist "Sea mist" #c9d6d8 one-way across
fabric rain "" #000000 two-way
fabric foam "Foam" #ffffff directional
colouring dawn "Dawn over the quay" with night as rain, mist as foam
use "palette.piece"
measure arm 3.5
note "The lantern glows."
allow narrow-section
ease snug
ease 0.5 in for night
cut on-grain
cut triangles, least-cloth for night
turn-slack 8 deg
cloth 40 in
cloth 40 in, 1.5 yd for mist
cloth fat-quarters
cloth fat-eighths for night
squaring 2 in
shrinkage 5 %
cutting few-widths
have 0.5 yd night
have 3 fat-quarters night
have 1 fat-eighths mist
have 10 in x 12 in möwe
block lantern 16 x 12.5 {
finished 8 in x 6 in
copies 4
outline 0, 0 -- 16, 0 -- east -- 0, arm + 1
point cap 8, -1
point tip cap
point m middle a -- b
point q 0.5 along a -- 2, 3
point s 3 from a toward b
point s2 arm / 2 from a at 45 deg
point s3 a moved 2, -arm
point r mirror a over upright 8
point r2 mirror 1, 2 over level arm - 1
point t turn a by 22.5 deg about b
point x meet a -- b and c -- d
point f foot a on b -- c
points tooth 9 from a to b
points rim 16 round c from 8, 1
measure brace 2 * arm + 1 / 3 - -1
measure rib distance a -- 3, 4
unit roof {
outline 0, 0 -- 16, 0 -- 16, 6
point inner 1, 2
points row 2 from a to b
measure half 0.5
1 iron eave -- cap -- eave-r
2 night beyond cap -- eave
3 möwe around 8, 4
4 море beyond upright 3
pieced 3 möwe beyond a -- 3, 4
pieced 3 foam beyond level 2 around 1, 1 + 2
strips 5 to 8 stone, sand from a -- b to 1, 2 -- 3, 4
strips 9 to 12 stone from level 12 to upright a + 1
sewn 8
up unit
cut outer-edges-on-grain
cut half-square for 3
ease roomy
ease 6 mm for 2
fussy for 3
fussy for 3 at inner
fussy for 4 at 4, 5 + 1
note "for the unit"
note on 3 "for section 3"
step for 3 "Sew it."
allow narrow-section on 3
allow short-seam
}
unit flag apart {
}
place roof
place roof mirrored over upright 8
place sail as mizzen moved 4, 0 with canvas as tan, a as b
place petal 8 in all round centre
place flag turned 90 deg about 2, 3 4 in all every 4, 0
join roof lamp as head pressed open
join head base
join petal#1 petal#2 petal#30 pressed toward petal#2
partial core north petal#2 south west as pinwheel pressed toward core
inset bow port starboard as bay pressed open
note on head "for the join"
step for head "Sew it."
allow near-miss on head
patch night around 3, 4
patch night a -- b -- c
plain lintel stone a -- b -- c -- 0, 5
seam a -- b
seam level 4
}
block rose hexagon side 8 {
}
"#;

fn clean(text: &str) -> String {
    let (tree, faults) = parse(0, text);
    assert_eq!(show(text, &faults), Vec::<String>::new());
    write::file(&tree)
}

/// `code "the words pointed at"` for each fault.
fn show(text: &str, faults: &[Fault]) -> Vec<String> {
    let slice = |fault: &Fault| fault.span().map_or("", |span| &text[span.range()]);
    faults.iter().map(|fault| format!("{} {:?}", fault.code.slug(), slice(fault))).collect()
}

fn faults(text: &str) -> Vec<String> {
    show(text, &parse(0, text).1)
}

/// Makes the fixes of a kind: the first of each fault.
fn mended(text: &str) -> String {
    let mut edits: Vec<_> =
        parse(0, text).1.into_iter().filter_map(|f| f.fixes.into_iter().next()).flat_map(|f| f.edits).collect();
    edits.sort();
    let mut text = text.to_owned();
    for (span, new) in edits.into_iter().rev() {
        text.replace_range(span.range(), &new);
    }
    text
}

#[test]
fn everything_comes_out_again() {
    assert_eq!(clean(EVERYTHING), EVERYTHING);
}

#[test]
fn spans_are_bytes_of_the_text_as_given() {
    let text = "\u{FEFF}// möwe\r\npattern “Lantern”\r\rfabric möwe \"Gull\" #ffffff across // white\n";
    let (tree, faults) = parse(3, text);
    assert_eq!(faults, []);
    assert_eq!(&text[tree.items[0].span.range()], "pattern “Lantern”");
    let Item::Fabric(fabric) = &tree.items[1].value else { panic!("no fabric") };
    assert_eq!(tree.items[1].span.file, 3);
    assert_eq!(&text[tree.items[1].span.range()], "fabric möwe \"Gull\" #ffffff across");
    assert_eq!(&text[fabric.key.span.range()], "möwe");
    assert_eq!(&text[fabric.name.span.range()], "\"Gull\"");
    assert_eq!(&text[fabric.colour.span.range()], "#ffffff");
    assert_eq!(&text[fabric.print[0].span.range()], "across");
}

#[test]
fn what_word_processors_make_is_understood() {
    let pasted = "\u{FEFF}pattern\u{A0}“Storm Lantern”\r\nfinished\u{2009}1½\u{202F}in\rsizes „8 in“ // no size, but a comment – with “anything”\u{2028}";
    let (tree, _) = parse(0, pasted);
    assert_eq!(write::file(&tree), "pattern \"Storm Lantern\"\nfinished 1.5 in\n");
    assert_eq!(faults(pasted), ["not-understood \"„8 in“\""]);
    let block = "block a 16 × 8 {\npoint p ¾, 12   1/4\npoint q turn p by 90° about 1 ⅞, 7⁄8\n}\n";
    assert_eq!(clean(block), "block a 16 x 8 {\npoint p 0.75, 12.25\npoint q turn p by 90 deg about 1.875, 0.875\n}\n");
}

#[test]
fn lines_go_on_after_dashes_and_commas() {
    let text =
        "sizes 6 in, // small\n\n  10 in\nblock a 2 x 2 {\noutline 0, 0 --\n 2,\n0 -- // on\n // and on\n 2, 2\n}\n";
    assert_eq!(clean(text), "sizes 6 in, 10 in\nblock a 2 x 2 {\noutline 0, 0 -- 2, 0 -- 2, 2\n}\n");
}

#[test]
fn a_text_may_hold_anything() {
    let text = "note \"– … ‘x’ // { } 2,5 “y”\"\nnote “a \"quote\" \\” inside”\n";
    let written = clean(text);
    assert_eq!(written, "note \"– … ‘x’ // { } 2,5 “y”\"\nnote \"a \\\"quote\\\" ” inside\"\n");
}

#[test]
fn nothing_is_no_fault() {
    for text in ["", "\n\n", "\u{FEFF}", "// only a comment", "  \t\r\n"] {
        let (tree, faults) = parse(0, text);
        assert!(tree.items.is_empty() && faults.is_empty(), "{text:?}");
    }
}

/// Lines, where they stand (`t` outside all blocks, `b` in a block, `u` in a unit), and their faults.
const BAD_LINES: &[(char, &str, &[&str])] = &[
    ('t', "fabric night \"Night\" #22314", &[r##"bad-colour "#22314""##]),
    ('t', "fabric night \"Night\" #+22314", &[r##"bad-colour "#+22314""##]),
    ('t', "fabric night \"Night\" blue", &[r#"bad-colour "blue""#]),
    ('t', "fabric night \"Night\"", &[r#"not-understood "\"Night\"""#]),
    ('t', "fabric night #22314e", &[r##"not-understood "#22314e""##]),
    ('t', "fabric \"Night\" #22314e", &[r#"not-understood "\"Night\"""#]),
    ('t', "fabric night \"Night\" #22314e oneway", &[r#"unknown-word "oneway""#]),
    ('t', "date 2026-02-29", &[r#"bad-date "2026-02-29""#]),
    ('t', "date 2026-13-01", &[r#"bad-date "2026-13-01""#]),
    ('t', "date 1 November 2026", &[r#"bad-date "1 November 2026""#]),
    ('t', "date 01.11.2026", &[r#"bad-date "01.11.2026""#]),
    ('t', "finished 8", &[r#"bad-length "8""#]),
    ('t', "finished 8 x 6", &[r#"bad-length "8""#, r#"bad-length "6""#]),
    ('t', "finished 8 inches", &[r#"bad-length "inches""#]),
    ('t', "finished 8\" x 6 furlong", &[r#"bad-length "\"""#, r#"bad-length "furlong""#]),
    ('t', "finished 2,5 in", &[r#"decimal-comma "2,5""#]),
    ('t', "finished eight in", &[r#"not-understood "eight""#]),
    ('t', "sizes 6 in,", &[r#"not-understood ",""#]),
    ('t', "licence do what you like", &[r#"not-understood "do what you like""#]),
    ('t', "note \"never closed", &[r#"unclosed "\"""#]),
    ('t', "note “never closed", &[r#"unclosed "“""#]),
    ('t', "\"no word\"", &[r#"not-understood "\"no word\"""#]),
    ('t', "note \"a\\nb\"", &[r#"not-understood "\\n""#]),
    ('t', "note \"a\tb\"", &[r#"pasted-character "\t""#]),
    ('t', "note \"a\u{7}b\"", &[r#"pasted-character "\u{7}""#]),
    ('t', "note \"a\u{9f}b\" // \u{1b}", &[r#"pasted-character "\u{9f}""#, r#"pasted-character "\u{1b}""#]),
    ('t', "history \"1\" 2 October \"x\"", &[r#"bad-date "2 October""#]),
    ('t', "history \"1\" 2026-13-01 \"x\"", &[r#"bad-date "2026-13-01""#]),
    ('t', "history \"1\"", &[r#"not-understood "\"1\"""#]),
    ('t', "history 1.0 \"x\"", &[r#"not-understood "1.0""#]),
    ('t', "colouring dawn with sky as sea", &[r#"not-understood "with""#]),
    ('t', "colouring dawn \"Dawn\" sky as sea", &[r#"not-understood "sky""#]),
    ('t', "colouring dawn \"Dawn\"", &[r#"not-understood "\"Dawn\"""#]),
    ('t', "logo \"sign.svg\"", &[r#"not-understood "\"sign.svg\"""#]),
    ('t', "photo gull.jpg \"a gull\"", &[r#"not-understood "gull""#]),
    ('t', "paper letter a4", &[r#"not-understood "a4""#]),
    ('t', "language dee", &[r#"unknown-word "dee""#]),
    ('t', "level \"easy\"", &[r#"unknown-word "level""#]),
    ('t', "paper a5", &[r#"unknown-word "a5""#]),
    ('t', "Pattern \"x\"", &[r#"unknown-word "Pattern""#]),
    ('t', "license \"x\"", &[r#"unknown-word "license""#]),
    ('t', "measure a 1/0", &[r#"number-out-of-range "1/0""#]),
    ('t', "measure a 1000001", &[r#"number-out-of-range "1000001""#]),
    ('t', "measure a 2*arm", &[r#"not-understood "*""#]),
    ('t', "measure a .5", &[r#"not-understood ".5""#]),
    ('t', "measure a 5.", &[r#"not-understood "5.""#]),
    ('t', "measure a 12 8/3", &[r#"numbers-side-by-side "12 8/3""#]),
    ('t', "measure a_b 3", &[r#"not-understood "a_b""#]),
    ('t', "point a 1, 2", &[r#"misplaced-statement "point a 1, 2""#]),
    ('t', "1 iron a -- b -- c", &[r#"misplaced-statement "1 iron a -- b -- c""#]),
    ('t', "}", &[r#"not-understood "}""#]),
    ('t', "{", &[r#"not-understood "{""#]),
    ('b', "point cap 12 8", &[r#"numbers-side-by-side "12 8""#]),
    ('b', "point cap 2,5", &[r#"decimal-comma "2,5""#]),
    ('b', "outline 0,0 -- 8, 0 -- 8,8", &[r#"decimal-comma "0,0""#, r#"decimal-comma "8,8""#]),
    ('b', "point cap", &[r#"not-understood "cap""#]),
    ('b', "point cap midle a -- b", &[r#"unknown-word "midle""#]),
    ('b', "point cap 3 from a towards b", &[r#"unknown-word "towards""#]),
    ('b', "point cap 1/3 along a – b", &[r#"pasted-character "–""#]),
    ('b', "point cap −2, 3", &[r#"pasted-character "−""#]),
    ('b', "point eave–r 2, 3", &[r#"pasted-character "–""#]),
    ('b', "point ea\u{AD}ve 2,\u{200B} 3", &[r#"pasted-character "\u{ad}""#, r#"pasted-character "\u{200b}""#]),
    ('b', "point cap turn a by 45 about b", &[r#"not-understood "about""#]),
    ('b', "points tooth 2.5 from a to b", &[r#"count-out-of-range "2.5""#]),
    ('b', "points tooth 99999999 from a to b", &[r#"number-out-of-range "99999999""#]),
    ('b', "copies -3", &[r#"not-understood "-3""#]),
    ('b', "fabric night \"Night\" #22314e", &[r#"misplaced-statement "fabric night \"Night\" #22314e""#]),
    ('b', "1 iron a -- b -- c", &[r#"misplaced-statement "1 iron a -- b -- c""#]),
    ('b', "place sail moved 3, 3 as mizzen", &[r#"not-understood "as mizzen""#]),
    ('b', "place sail as a as b", &[r#"not-understood "as b""#]),
    ('b', "place sail 8 in all round c moved 3, 3", &[r#"not-understood "moved 3, 3""#]),
    ('b', "place sail mirored over upright 3", &[r#"unknown-word "mirored""#]),
    ('b', "join a", &[r#"not-understood "join a""#]),
    ('b', "partial a b c", &[r#"not-understood "partial a b c""#]),
    ('b', "partail a b c d", &[r#"unknown-word "partail""#]),
    ('b', "partial a b c d pressd open", &[r#"unknown-word "pressd""#]),
    ('b', "inset a b c d", &[r#"not-understood "inset a b c d""#]),
    ('b', "inset a b", &[r#"not-understood "inset a b""#]),
    ('u', "inset a b c", &[r#"misplaced-statement "inset a b c""#]),
    ('b', "join a b pressd open", &[r#"unknown-word "pressd""#]),
    ('b', "join a b pressed up", &[r#"not-understood "up""#]),
    ('b', "join a#1.5 b", &[r#"count-out-of-range "1.5""#]),
    ('b', "units a", &[r#"unknown-word "units""#]),
    ('u', "1.5 iron a -- b -- c", &[r#"count-out-of-range "1.5""#]),
    ('u', "1 iron a -- b c", &[r#"not-understood "c""#]),
    ('u', "1 iron a -- b --", &[r#"not-understood "--""#]),
    ('u', "1 0, 0 - 8, 0 - 8, 8", &[r#"not-understood "1""#]),
    ('u', "1 1/2, 0 -- 8, 0 -- 8, 8", &[r#"not-understood "1""#]),
    ('u', "1 iron 0, 0 - 8, 0 - 8, 8", &[r#"not-understood "-""#]),
    ('u', "strips 1 to 3 sea from level to level 4", &[r#"not-understood "level""#]),
    ('u', "strips 1 to 3 sea from levle 2 to level 4", &[r#"unknown-word "levle""#]),
    ('b', "join a b press open", &[r#"unknown-word "press""#]),
    ('b', "join a b pressing toward b", &[r#"unknown-word "pressing""#]),
    ('u', "1 iron a - b - c", &[r#"not-understood "-""#]),
    ('u', "1 iron beyound a -- b", &[r#"unknown-word "beyound""#]),
    ('u', "1 iron beyond uprigt 8", &[r#"unknown-word "uprigt""#]),
    ('u', "1 iron around ‘x’", &[r#"pasted-character "‘""#, r#"pasted-character "’""#]),
    ('u', "1 iron a — b — c", &[r#"pasted-character "—""#]),
    ('u', "iron a -- b -- c", &[r#"unknown-word "iron""#]),
    ('u', "join a b", &[r#"misplaced-statement "join a b""#]),
    ('u', "note on 3", &[r#"not-understood "3""#]),
    ('u', "strips 1 to 8 stone sand from a -- b to c -- d", &[r#"not-understood "sand""#]),
    ('t', "cut on-grane", &[r#"unknown-word "on-grane""#]),
    ('t', "cut", &[r#"not-understood "cut""#]),
    ('t', "cut for night", &[r#"not-understood "for""#]),
    ('u', "cut on-grain four 3", &[r#"unknown-word "four""#]),
    ('b', "cut on-grain", &[r#"misplaced-statement "cut on-grain""#]),
    ('t', "ease snugg", &[r#"unknown-word "snugg""#]),
    ('u', "ease for 3", &[r#"not-understood "for""#]),
    ('u', "fussy 3", &[r#"not-understood "3""#]),
    ('u', "fussy for 3 at", &[r#"not-understood "at""#]),
    ('t', "fussy for 3", &[r#"misplaced-statement "fussy for 3""#]),
    ('t', "turn-slack 8", &[r#"not-understood "8""#]),
    ('u', "turn-slack 8 deg", &[r#"misplaced-statement "turn-slack 8 deg""#]),
    ('t', "cloth fat-quarter", &[r#"unknown-word "fat-quarter""#]),
    ('t', "cloth 40", &[r#"bad-length "40""#]),
    ('t', "cloth 40 in for 3", &[r#"not-understood "3""#]),
    ('t', "shrinkage 5", &[r#"not-understood "5""#]),
    ('t', "shrinkage 5 percnt", &[r#"unknown-word "percnt""#]),
    ('t', "cutting fast", &[r#"unknown-word "fast""#]),
    ('t', "have 1/2 night", &[r#"bad-length "1/2""#]),
    ('t', "have 1/2 yd", &[r#"not-understood "yd""#]),
    ('t', "have 3 fat-quater night", &[r#"unknown-word "fat-quater""#]),
    ('t', "have 10 x 12 in night", &[r#"bad-length "10""#]),
    ('u', "have 1/2 yd night", &[r#"misplaced-statement "have 1/2 yd night""#]),
    ('u', "up block", &[r#"not-understood "block""#]),
];

/// Puts a line where it stands, with good lines all round it.
fn around(home: char, line: &str) -> String {
    let [top, block, unit] = ['t', 'b', 'u'].map(|place| if place == home { line } else { "" });
    format!(
        "edition \"1\"\n{top}\npattern \"x\"\nblock a 4 x 4 {{\n  copies 2\n  {block}\n  unit c {{\n    sewn 2\n    {unit}\n    up unit\n  }}\n  point z 1, 1\n}}\nease 3 mm\n"
    )
}

#[test]
fn bad_lines_are_placed_exactly_and_harm_no_others() {
    let mut wrong = Vec::new();
    for &(home, line, expected) in BAD_LINES {
        if matches!(line, "{" | "}") {
            continue;
        }
        let text = around(home, line);
        let (tree, found) = parse(0, &text);
        let found_words = show(&text, &found);
        if found_words != expected {
            wrong.push(format!("{line}: {found_words:?} instead of {expected:?}"));
            continue;
        }
        for fault in &found {
            let span = fault.span().unwrap().range();
            let at = text.find(line).unwrap();
            assert!(at <= span.start && span.end <= at + line.len(), "{line}: {span:?}");
            assert!(fault.help.is_some(), "{line}");
        }
        let written = write::file(&tree);
        for kept in ["edition", "pattern", "block", "copies", "unit", "sewn", "up unit", "point z", "ease"] {
            assert!(written.contains(kept), "{line}: {kept} is lost");
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn fixes_mend() {
    for (bad, good) in [
        ("finished 8\" x 6 inches\n", "finished 8 in x 6 in\n"),
        ("fabric a \"A\" #abc\n", "fabric a \"A\" #aabbcc\n"),
        ("block a 2 x 2 {\npoint cap 2,5, 3\n}\n", "block a 2 x 2 {\npoint cap 2.5, 3\n}\n"),
        ("block a 2 x 2 {\npoint cap 1/2 along a – b\n}\n", "block a 2 x 2 {\npoint cap 1/2 along a -- b\n}\n"),
        ("block a 2 x 2\n{\n}\n", "block a 2 x 2 {\n\n}\n"),
        ("measure a 2*arm\n", "measure a 2 * arm\n"),
        ("piont a 2, 3\n", "point a 2, 3\n"),
        ("licence yours\n", "licence \"yours\"\n"),
        ("block a 2 x 2 {\nplace s moved 1, 2 as m\n}\n", "block a 2 x 2 {\nplace s as m moved 1, 2 \n}\n"),
    ] {
        assert_eq!(mended(bad), good);
    }
}

#[test]
fn twelve_mistakes_in_one_source() {
    let text = r#"pattern "Twelve Lights"
editon "1"
date 2026-04-31
finished 8
fabric night "Night" #22314
fabric glow "Glow" #f4c95d
block lantern 16 x 16 {
  point cap 8 1
  point eave 2,5
  point good mirror eave over upright 8
  unit roof {
    1 iron eave -- cap --
    2 glow beyound cap -- eave
    3 glow beyond cap -- good
  }
  fabric late "Late" #000000
  unit wall {
    1 glow around 8, 4
    note "never closed
  }
  place wall moved 3, 3 as east
  join roof wall as
}
"#;
    let (tree, found) = parse(0, text);
    let expected = [
        r#"unknown-word "editon""#,
        r#"bad-date "2026-04-31""#,
        r#"bad-length "8""#,
        r##"bad-colour "#22314""##,
        r#"numbers-side-by-side "8 1""#,
        r#"decimal-comma "2,5""#,
        r#"not-understood "--""#,
        r#"unknown-word "beyound""#,
        r#"misplaced-statement "fabric late \"Late\" #000000""#,
        r#"unclosed "\"""#,
        r#"not-understood "as east""#,
        r#"not-understood "as""#,
    ];
    assert_eq!(show(text, &found), expected);
    let Some(Item::Block(block)) = tree.items.last().map(|item| &item.value) else { panic!("the block is lost") };
    let units = block.items.iter().filter(|item| matches!(item.value, BlockItem::Unit(_))).count();
    assert_eq!((tree.items.len(), units), (3, 2));
}

#[test]
fn braces_that_do_not_pair_are_one_fault_each() {
    for (text, expected, kept) in [
        // The brace of a unit, of the last unit, of a block, of both is missing.
        ("block a 2 x 2 {\n  unit u {\n    sewn 1\n  unit v {\n    sewn 2\n  }\n  copies 3\n}\n", &["2"][..], 3),
        ("block a 2 x 2 {\n  unit u {\n    sewn 1\n  copies 3\n}\n", &["2"], 2),
        ("block a 2 x 2 {\n  unit u {\n    sewn 1\n}\n", &["2"], 1),
        ("block a 2 x 2 {\n  unit u {\n    sewn 1\n  }\nblock b 2 x 2 {\n}\n", &["1"], 1),
        ("block a 2 x 2 {\n  unit u {\n    sewn 1\n  }\nfabric f \"F\" #000000\nedition \"2\"\n", &["1"], 1),
        ("block a 2 x 2 {\n  unit u {\n    sewn 1\n", &["1", "2"], 1),
        // There is one too many: at the end, after a unit, within a unit.
        ("block a 2 x 2 {\n  copies 2\n}\n}\n", &["4"], 1),
        ("block a 2 x 2 {\n  unit u {\n    sewn 1\n  }\n  }\n  unit v {\n  }\n  copies 3\n}\n", &["5"], 3),
        ("block a 2 x 2 {\n  unit u {\n    sewn 1\n  }\n    sewn 2\n  }\n  copies 3\n}\n", &["4"], 2),
        // Heads without their brace, with it on the next line, with words after it.
        ("block a 2 x 2\n  unit u\n    sewn 1\n  }\n}\n", &["1", "2"], 1),
        ("block a 2 x 2 {\n  unit u\n  {\n    sewn 1\n  }\n}\n", &["2"], 1),
        ("block a 2 x 2 {\n  unit u { sewn 1 }\n}\n", &["2"], 1),
        // Units in the wrong place.
        ("unit u {\n  sewn 1\n}\nblock a 2 x 2 {\n  copies 2\n}\n", &["1"], 1),
        ("block a 2 x 2 {\n  unit u {\n    unit v {\n      sewn 1\n    }\n  }\n  copies 2\n}\n", &["3"], 2),
        // Heads that are faulty.
        ("blok a 2 x 2 {\n  unit u {\n  }\n  copies 3\n}\nblock b 2 x 2 {\n  copies 2\n}\n", &["1"], 1),
        ("block a 2 x 2 {\n  unti u {\n    sewn 3\n  }\n  copies 3\n}\n", &["2"], 1),
        ("block a 2 by 2 {\n  unit u {\n    sewn 3\n  }\n  copies 3\n}\nblock b 2 x 2 {\n  copies 2\n}\n", &["1"], 1),
    ] {
        let (tree, found) = parse(0, text);
        let lines: Vec<_> = found
            .iter()
            .map(|fault| (text[..fault.span().unwrap().range().start].matches('\n').count() + 1).to_string())
            .collect();
        assert_eq!(lines, expected, "{text}\n{:?}", show(text, &found));
        let blocks =
            tree.items.iter().filter_map(|item| if let Item::Block(block) = &item.value { Some(block) } else { None });
        assert_eq!(blocks.map(|block| block.items.len()).max(), Some(kept), "{text}");
    }
}

#[test]
fn absurd_texts_are_survived() {
    let braces = format!("{}{}", "{".repeat(10_000), "}".repeat(10_000));
    assert_eq!(faults(&braces), ["not-understood \"{\""]);
    let lines = "block a 2 x 2 {\n".repeat(10_000);
    assert!(faults(&lines).len() >= 1_000);
    let units = format!("block a 2 x 2 {{\n{}{}}}\n", "unit u {\n".repeat(10_000), "}\n".repeat(10_000));
    assert_eq!(faults(&units).len(), 1);
    for text in
        ["-- ".repeat(50_000), "1 ".repeat(50_000), "\"\\".repeat(50_000), "a, ".repeat(50_000), "}\n".repeat(50_000)]
    {
        assert!(!faults(&text).is_empty());
    }
    for text in
        ["(".repeat(50_000), "note ".repeat(50_000), "1, 2 -- ".repeat(50_000), "\0".repeat(50_000), "–".repeat(50_000)]
    {
        assert!(!faults(&text).is_empty());
    }
    let long = format!("block a 2 x 2 {{\noutline {}0, 0\n}}\n", "0, 0 --\n".repeat(20_000));
    assert_eq!(faults(&long), Vec::<String>::new());
    let sum = format!("measure a 1{}\n", " + 1".repeat(20_000));
    assert_eq!(faults(&sum), Vec::<String>::new());
}

#[test]
fn numbers_of_400_digits_are_faults() {
    let digits = "9".repeat(400);
    for number in
        [digits.clone(), format!("1/{digits}{digits}.5"), format!("{digits}/{digits}"), format!("1 1/{digits}")]
    {
        let found = faults(&format!("measure a {number}\nedition \"1\"\n"));
        assert!(found.len() <= 1, "{found:?}");
    }
    assert_eq!(faults(&format!("measure a {digits}")), [format!("number-out-of-range {digits:?}")]);
    let count = format!("block a 2 x 2 {{\ncopies {digits}\nunit u {{\n{digits} iron a -- b\n}}\n}}\n");
    assert_eq!(faults(&count).len(), 2);
}

fn soup() -> impl Strategy<Value = String> {
    let words = EVERYTHING.split_whitespace().collect::<Vec<_>>();
    let marks = [
        "{", "}", "\n", "\n", "\r", "\"", "“", "”", "//", "--", ",", "#", "\\", "–", "½", "\u{200B}", "\0", ".", "3,4",
        "-", "x",
    ];
    let token = prop_oneof![
        3 => proptest::sample::select(words).prop_map(str::to_owned),
        3 => proptest::sample::select(marks.to_vec()).prop_map(str::to_owned),
        1 => any::<char>().prop_map(String::from),
    ];
    let blank = proptest::sample::select(&[" ", " ", "", "\n", "\u{A0}"][..]);
    proptest::collection::vec((token, blank), 0..120)
        .prop_map(|tokens| tokens.into_iter().map(|(token, blank)| token + blank).collect())
}

/// What holds for any text at all.
fn check_laws(text: &str) -> Result<(), TestCaseError> {
    let (tree, found) = parse(0, text);
    let whole = |range: std::ops::Range<usize>| text.get(range).is_some();
    for fault in &found {
        prop_assert!(!fault.labels.is_empty(), "{fault:?}");
        prop_assert!(!fault.message.contains("kw_"), "{fault:?}");
        prop_assert!(fault.labels.iter().all(|label| whole(label.span.range())), "{fault:?}");
        prop_assert!(fault.fixes.iter().flat_map(|fix| &fix.edits).all(|(span, _)| whole(span.range())), "{fault:?}");
    }
    prop_assert!(found.is_sorted_by_key(Fault::span));
    prop_assert!(tree.items.iter().all(|item| whole(item.span.range())));
    // What was understood is a source without a fault, and says the same.
    let written = write::file(&tree);
    let (again, none) = parse(0, &written);
    prop_assert!(none.is_empty(), "{:?}\n{written}", show(&written, &none));
    prop_assert_eq!(write::file(&again), written);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_is_survived(text in any::<String>()) {
        check_laws(&text)?;
    }

    #[test]
    fn any_soup_of_words_is_survived(text in soup()) {
        check_laws(&text)?;
    }

    /// A good source with a piece cut out or put in somewhere.
    #[test]
    fn any_damage_is_survived(cut in 0..EVERYTHING.chars().count(), length in 0_usize..40, put in soup()) {
        let chars: Vec<char> = EVERYTHING.chars().collect();
        let end = (cut + length).min(chars.len());
        let text: String = chars[..cut].iter().copied().chain(put.chars().take(10)).chain(chars[end..].iter().copied()).collect();
        check_laws(&text)?;
    }
}
