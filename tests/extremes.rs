//! What holds for packets at the edge of what an author may write.
//!
//! `EXTREMES=folder cargo test --test extremes -- --ignored` writes their sources, to build them and look at them.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

#[path = "extremes/sources.rs"]
mod sources;
mod support;

use std::fs;
use std::path::PathBuf;

use piecewright::model::{self, Model};
use piecewright::packet::words::Words;
use piecewright::packet::{Audience, Brief, compose};
use piecewright::{pattern, piecing};
use sources::{Extreme, all};
use support::Bare;
use support::layout::{assert_packet, at_once};

fn modelled(extreme: &Extreme) -> Model {
    let reading = pattern::read_sources(extreme.name, &extreme.source, &Bare);
    assert_eq!(reading.faults, [], "{}", extreme.name);
    let (pattern, faults, _) = pattern::resolve(&reading);
    assert_eq!(faults, [], "{}", extreme.name);
    let pattern = pattern.expect("a pattern without faults");
    let proof = piecing::prove(&pattern).unwrap_or_else(|faults| panic!("{}: {faults:?}", extreme.name));
    model::build(&pattern, &proof, 0).expect("the size it is drawn for")
}

#[test]
fn whatever_is_written_is_laid_out_well() {
    let words = Words::english();
    at_once(&all(), |extreme| {
        let model = modelled(extreme);
        for audience in [Audience::Sewers, Audience::Testers] {
            let packet = compose(&model, Brief { audience, ..Brief::default() }, &words, None, &mut |_| {});
            assert_eq!(packet.prints.len(), 2, "{}: on Letter and on A4", extreme.name);
            assert_packet(extreme.name, &packet);
        }
    });
}

#[test]
#[ignore = "writes files to look at"]
fn sources_to_look_at() {
    let folder = PathBuf::from(std::env::var("EXTREMES").expect("EXTREMES names a folder"));
    fs::create_dir_all(&folder).expect("a folder can be made");
    for extreme in all() {
        fs::write(folder.join(format!("{}.piece", extreme.name.replace(' ', "-"))), extreme.source).expect("written");
    }
}
