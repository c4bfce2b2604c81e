//! What a packet tells of editions: all of them at its end, and on every foundation the one in which it last changed.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::fmt::Write as _;

use piecewright::backend::json;
use piecewright::check;
use piecewright::model::Model;
use piecewright::packet::foundation::{Foundation, foundation};
use piecewright::packet::sheets::{Bed, Former, sheets};
use piecewright::packet::words::Words;
use piecewright::packet::{Audience, Brief, compose};
use support::layout::{assert_editions_last, assert_packet};
use support::{Bare, models_at, patterns, resolved};

/// A small pattern with so many editions.
fn with_editions(count: usize) -> Model {
    let mut text = "pattern \"Buoy\"\nedition \"1.0\"\nfinished 6 in\npaper letter, a4\nfabric sky \"Sky\" #a9cbe0\nfabric sea \"Sea\" #3b6e8f\n".to_owned();
    for number in 0..count {
        writeln!(text, "history \"1.{number}\" \"Water number {number}.\"").expect("a line");
    }
    text += "block buoy 8 x 8 {\nunit all {\n1 sky around 4, 1\n2 sea beyond level 4\n}\n}\n";
    let checked = check("buoy.piece", &text, &Bare);
    assert_eq!(checked.faults, []);
    checked.model.expect("a model")
}

#[test]
fn the_last_page_tells_all_editions_as_long_as_it_holds_them() {
    let words = Words::english();
    for (count, audience) in (0..32).zip([Audience::Sewers, Audience::Testers].into_iter().cycle()) {
        let model = with_editions(count);
        let packet = compose(&model, Brief { audience, ..Brief::default() }, &words, None, &mut |_| {});
        let name = format!("{count} editions");
        assert_packet(&name, &packet);
        assert_editions_last(&name, &model.facts, &packet);
    }
}

#[test]
fn editions_that_fill_pages_end_the_packet() {
    let (model, words) = (with_editions(120), Words::english());
    let packet = compose(&model, Brief::default(), &words, None, &mut |_| {});
    assert_packet("120 editions", &packet);
    for print in &packet.prints {
        let on = |leaf: usize, told: &str| print.leaves[leaf].page.texts().iter().any(|text| text.words == told);
        let pages = print.leaves.len();
        assert!(on(pages - 1, "Water number 119."), "the newest stands on the last page");
        let begin = (0..pages).rev().find(|&leaf| on(leaf, "This is edition 1.0.")).expect("they are told");
        assert!(begin < pages - 2 && on(begin, "Water number 0."), "they begin before");
    }
}

/// A sample in an edition, all its foundations last changed in another.
fn in_edition(sample: &Model, edition: &str, last_changed: Option<&str>) -> Model {
    let mut model = sample.clone();
    edition.clone_into(&mut model.facts.edition);
    for variant in model.blocks.iter_mut().flat_map(|block| &mut block.variants) {
        variant.last_changed = last_changed.map(str::to_owned);
    }
    model
}

/// The storm lantern at the size it is drawn for and so large that some of its foundations come in parts.
fn lanterns() -> Vec<Model> {
    let pattern = resolved(&patterns().join("storm-lantern.piece"));
    models_at(&pattern, &[8.0, 24.0])
}

fn foundations(model: &Model) -> Vec<Foundation> {
    let room = Bed::under(model).room();
    let of = |block: usize| (0..model.blocks[block].variants.len()).map(move |variant| (block, variant));
    let all = (0..model.blocks.len()).flat_map(of);
    all.flat_map(|(block, variant)| foundation(model, block, variant, room, &Words::english())).collect()
}

#[test]
fn a_foundation_tells_the_edition_in_which_it_last_changed() {
    let mut parts = 0;
    for lantern in lanterns() {
        let old = foundations(&in_edition(&lantern, "1.0", None));
        assert_eq!(
            old,
            foundations(&in_edition(&lantern, "1.2", Some("1.0"))),
            "what did not change is printed as it was"
        );
        assert_ne!(old, foundations(&in_edition(&lantern, "1.2", None)), "nobody said: the pattern's edition");
        assert_eq!(old, foundations(&in_edition(&lantern, "1.0", Some("1.0"))));
        parts += old.iter().filter(|foundation| foundation.part.is_some()).count();
    }
    assert!(parts > 0, "some come in parts");
}

#[test]
fn a_sheet_tells_the_edition_of_the_pattern_and_its_foundations_their_own() {
    let mut lantern = in_edition(&lanterns().remove(0), "1.2", Some("0.7"));
    let newest = lantern.blocks[0].variants[0].mark.clone();
    lantern.blocks[0].variants[0].last_changed = None;
    let printing = sheets(&lantern, &Words::english(), Audience::Sewers, None);
    let mut named = 0;
    for sheet in &printing.sheets {
        let words: Vec<&str> = sheet.page.texts().iter().map(|text| text.words.as_str()).collect();
        assert!(words.iter().any(|words| words.starts_with("edition 1.2  ·  ")), "the heading of sheet {}", sheet.id);
        for foundation in &sheet.foundations {
            let variant = &lantern.blocks[foundation.block].variants[foundation.variant];
            let start = format!("{}  ·  ", variant.mark);
            let mut names = words.iter().filter(|words| words.starts_with(&start));
            let name = names.find(|words| words.contains("ed. ") || words.contains("edition "));
            let edition = if variant.mark == newest { "1.2" } else { "0.7" };
            assert!(name.expect("it is named").ends_with(edition), "{name:?} last changed in {edition}");
            named += 1;
        }
    }
    assert!(named > 3, "all are printed");
}

#[test]
fn the_model_tells_when_foundations_last_changed_and_is_read_back() {
    let mut lantern = lanterns().remove(0);
    let [first, second, ..] = lantern.blocks[0].variants.as_mut_slice() else { panic!("several foundations") };
    second.last_changed = Some("1.1".to_owned());
    let (never, once) = (first.id.clone(), second.id.clone());
    let block = lantern.blocks[0].name.clone();
    let text = json::model(&lantern, &[], &[]);
    let root: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    let told: Vec<_> = root["blocks"][0]["variants"].as_array().expect("variants").iter().collect();
    assert!(told.iter().all(|variant| variant.get("last_changed").is_some()), "every foundation has the key");
    assert_eq!(told[0]["last_changed"], serde_json::Value::Null);
    assert_eq!(told[1]["last_changed"], "1.1");
    let former = Former::read(&text).expect("a model");
    assert_eq!(former.last_changed(&block, &once), Some("1.1"));
    assert_eq!(former.last_changed(&block, &never), None, "nobody said");
    assert_eq!(former.last_changed(&block, "mast/9"), None, "there was none");
    assert_eq!(former.last_changed("gull", &once), None, "nor such a block");
}

#[test]
fn a_packet_that_does_not_tell_when_foundations_changed_is_read_all_the_same() {
    let old = r#"{"blocks": [{"name": "buoy", "variants": [{"id": "all/1"}]}], "sheets": []}"#;
    assert_eq!(Former::read(old).expect("a model").last_changed("buoy", "all/1"), None);
    let odd = r#"{"blocks": [{"name": "buoy", "variants": [{"id": "all/1", "last_changed": 1.0}]}], "sheets": []}"#;
    assert!(Former::read(odd).is_err(), "an edition is text");
}
