//! What the layout looks like, rule by rule; what holds of it for any source is asserted in `tests/layout.rs`.

use super::format;

/// Lays out, and asserts that nothing changes when that is done once more.
fn laid_out(text: &str) -> String {
    let formatted = format("test.piece", text);
    assert!(formatted.laid_out, "{text}");
    assert_eq!(format("test.piece", &formatted.text).text, formatted.text);
    formatted.text
}

fn assert_becomes(text: &str, expected: &str) {
    assert_eq!(laid_out(text), expected);
}

#[test]
fn facts_stand_in_a_column() {
    assert_becomes(
        "pattern \"A\"\nedition   \"1\"\nfinished 8in  x   6 in\n\n\n\nnote \"n\"\nallow large-foundation\n",
        "pattern  \"A\"\nedition  \"1\"\nfinished 8 in x 6 in\n\nnote  \"n\"\nallow large-foundation\n",
    );
}

#[test]
fn fabrics_and_colourings_are_tables_of_their_own() {
    assert_becomes(
        "finished 8 in\nfabric sea \"Bay\" #112233 one-way   across\nfabric foam \"Foam on it\" #445566\ncolouring a \"A\" with sea as foam\ncolouring dusk \"Dusk\" with sea as foam,foam as sea",
        "finished 8 in\nfabric sea  \"Bay\"        #112233  one-way across\nfabric foam \"Foam on it\" #445566\ncolouring a    \"A\"    with sea as foam\ncolouring dusk \"Dusk\" with sea as foam, foam as sea\n",
    );
}

#[test]
fn parts_are_indented_and_columns_end_with_their_run() {
    assert_becomes(
        "block a 8x8{\n\npoint m 1 ,2\npoint eave-r mirror m over upright 8\npoints t 3 from m to eave-r\nmeasure x 1\n\nunit u apart\n{\n\noutline m--eave-r -- 3 ,4\n1 red m -- eave-r -- 3, 4\nsewn 2\n10 sea beyond level 3\n\n}\n\n\nplace u\n}",
        "block a 8 x 8 {\n  point m      1, 2\n  point eave-r mirror m over upright 8\n  points t 3 from m to eave-r\n  measure x 1\n\n  unit u apart {\n    outline m -- eave-r -- 3, 4\n    1 red  m -- eave-r -- 3, 4\n    sewn 2\n    10 sea beyond level 3\n  }\n\n  place u\n}\n",
    );
}

#[test]
fn comments_keep_their_places() {
    assert_becomes(
        "\u{FEFF}\n// first  \r\n\r\n\r\n//second\r\npattern \"A\" //behind\r\nblock a 2 x 2 // head\r\n// between\r\n{ // brace\r\n\r\n// alone\r\ncopies 2// two\r\n// last\r\n\r\n} // end\r\n\r\n//over",
        "// first\n\n//second\npattern \"A\"  //behind\nblock a 2 x 2 {  // head\n  // between\n  // brace\n\n  // alone\n  copies 2  // two\n  // last\n}  // end\n\n//over\n",
    );
}

#[test]
fn comments_behind_neighbours_stand_in_a_column() {
    let long = "x".repeat(90);
    assert_becomes(
        &format!("edition \"1\" // a\nsizes 6 in, // b\n8 in // c\nauthor \"Tern\" // d\nnote \"{long}\" // e\n"),
        &format!(
            "edition \"1\"     // a\nsizes   6 in,  // b\n  8 in  // c\nauthor  \"Tern\"  // d\nnote    \"{long}\"  // e\n"
        ),
    );
}

#[test]
fn lines_go_on_where_the_author_broke_them() {
    assert_becomes(
        "block a 2 x 2 {\noutline 0, 0 --   // one\n\n\n\n   // two\n 1,\n 0 -- 1, 1\n}",
        "block a 2 x 2 {\n  outline 0, 0 --  // one\n\n    // two\n    1,\n    0 -- 1, 1\n}\n",
    );
}

#[test]
fn words_are_set_plainly() {
    assert_becomes(
        "block a 16×16 {\npoint m turn b by 22.5° about 1½,−2\npoint n\u{A0}1/2  along a – b\nplace petal 8 in all every 1 + 2 ,0\njoin petal#1   petal#2\nmeasure k 2 *  k - -3\n}\nshrinkage 5percent\nnote “A \"b\"”\n",
        "block a 16 x 16 {\n  point m turn b by 22.5 deg about 1 1/2, -2\n  point n 1/2 along a -- b\n  place petal 8 in all every 1 + 2, 0\n  join petal#1 petal#2\n  measure k 2 * k - -3\n}\nshrinkage 5 %\nnote      \"A \\\"b\\\"\"\n",
    );
}

#[test]
fn what_a_fault_is_told_of_stays_as_it_is() {
    for text in [
        // A sum without blanks, a comma that may be a point, and a dash that may be a minus.
        "block a 2 x 2 {\n  point a 2,5, 3\n}\nsizes 6,5 in\n",
        "measure a 2*arm\nmeasure b 2* arm\n",
        "block a 2 x 2 {\n  outline 1, 4–8, 4 -- 3, 3\n}\n",
        "piont  a 2,3   // there\nreport http://tern.example\n",
        "blok a  2 x 2 {\n  unit u {\n    sewn  1 or 2\n  }\n}\n",
        "block a 2 x 2 {\n  unit u { sewn  1 or 2 }\n}\n",
        "paper 4,  // the\n     and, so\nedition \"1\"\n",
    ] {
        assert_becomes(text, text);
    }
    assert_becomes("block a 2 x 2 {\n  unit u { sewn 1 } }\n", "block a 2 x 2 {\n  unit u {\n    sewn 1\n  }\n}\n");
}

#[test]
fn what_does_not_pair_is_left_alone() {
    for text in [
        "block a 2 x 2 {\n      copies 2\n",
        "block a 2 x 2\n      copies 2\n }\n",
        "block a 2 x 2 {\n  }\n      }\n",
        "{\n      copies 2 }\n",
        "block a 2 x 2 {\nblock b 2 x 2 {\n}\n}\n",
        "block a 2 x 2 {\n unit u {\n unit v {\n}\n}\n}\n",
        "pattern   \"A\nedition   \"1\"\n",
        "whatever,\n{\n}\n",
    ] {
        let formatted = format("test.piece", text);
        assert!(!formatted.laid_out, "{text}");
        assert_eq!(formatted.text, text);
        assert!(!formatted.faults.is_empty(), "{text}");
    }
}

#[test]
fn names_that_hide_words_of_the_notation_risk_nothing() {
    // Written plainly, the second member would be the word that names the join.
    let text = "block a 2 x 2 {\njoin   x a\u{AD}s b c\n}\n";
    assert_eq!(format("test.piece", text).text, text);
}

#[test]
fn nothing_stays_nothing() {
    for text in ["", "\n", "\u{FEFF}\r\n \t\n"] {
        assert_becomes(text, "");
    }
}
