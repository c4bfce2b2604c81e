//! What a packet tells of editions: all of them at its end.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::fmt::Write as _;

use piecewright::check;
use piecewright::model::Model;
use piecewright::packet::words::Words;
use piecewright::packet::{Audience, Brief, compose};
use support::Bare;
use support::layout::{assert_editions_last, assert_packet};

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
