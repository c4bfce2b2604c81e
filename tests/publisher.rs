//! What a publisher says of a pattern, and the colourings it gives it.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::collections::BTreeMap;

use piecewright::fault::Code;
use piecewright::model::{Edition, Model, Paper};
use piecewright::pattern::{ReadFault, Shelf};
use piecewright::picture::Picture;
use piecewright::{Options, build, check};
use support::Bare;

/// A shelf of texts.
struct Texts(BTreeMap<&'static str, &'static str>);

impl Shelf for Texts {
    fn read(&self, path: &str) -> Result<String, ReadFault> {
        self.0.get(path).map(|text| (*text).to_owned()).ok_or(ReadFault::NotFound)
    }

    fn read_bytes(&self, path: &str, _: usize) -> Result<Vec<u8>, ReadFault> {
        self.read(path).map(String::into_bytes)
    }
}

const SIGN: &str = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 4 2'><rect width='4' height='2'/></svg>";

fn source(lines: &str, block: &str) -> String {
    let allow = if lines.contains("as red") { "" } else { "allow unused-name" };
    format!(
        "pattern \"Buoy\"\nedition \"1.1\"\nfinished 6 in\nfabric sky \"Sky\" #a9cbe0\nfabric sea \"Sea\" #1d4a5a\nfabric red \"Red\" #c23b32\n\
         {allow}\n{lines}\nblock buoy 8 x 8 {{\n{block}\n}}\n"
    )
}

const UNIT: &str = "unit all {\n1 sky 0, 0 -- 8, 0 -- 8, 4 -- 0, 4\n2 sea beyond level 4\n}";

fn model(text: &str, shelf: &dyn Shelf) -> Model {
    let checked = check("buoy.piece", text, shelf);
    assert_eq!(checked.faults, []);
    checked.model.expect("a model")
}

#[test]
fn a_pattern_overrules_its_house_and_the_house_what_it_uses() {
    let house = "use \"base.piece\"\nauthor \"House\"\ncontact \"house\"\nabout \"One.\"\nabout \"Two.\"\ntool \"a lamp\"\nlogo \"sign.svg\" \"a sign\"\npaper a4\n";
    let base = "author \"Base\"\nreport \"base\"\nabout \"Nobody reads this.\"\nphoto \"../sign.svg\" \"a photo\"\nlanguage de\n";
    let shelf = Texts(BTreeMap::from([
        ("house/house.piece", house),
        ("house/base.piece", base),
        ("house/sign.svg", SIGN),
        ("sign.svg", SIGN),
    ]));
    let own = "use \"house/house.piece\"\ncontact \"me\"\ntool \"tweezers\"\nhistory \"1.0\" \"First.\"\nhistory \"1.1\" 2026-11-01 \"Better.\"\npaper letter, a4";
    let model = model(&source(own, UNIT), &shelf);
    let facts = &model.facts;
    assert_eq!(facts.author.as_deref(), Some("House"));
    assert_eq!((facts.contact.as_deref(), facts.report.as_deref()), (Some("me"), Some("base")));
    assert_eq!(facts.about, ["One.", "Two."]);
    assert_eq!(facts.tools, ["a lamp", "tweezers"]);
    let edition = |edition: &str, date: Option<&str>, words: &str| Edition {
        edition: edition.into(),
        date: date.map(str::to_owned),
        words: words.into(),
    };
    assert_eq!(facts.history, [edition("1.0", None, "First."), edition("1.1", Some("2026-11-01"), "Better.")]);
    assert_eq!((model.paper, model.papers.as_slice()), (Paper::Letter, &[Paper::Letter, Paper::A4][..]));
    assert_eq!(model.language.as_deref(), Some("de"));
    let (logo, photo) = (facts.logo.as_ref().expect("a logo"), facts.photo.as_ref().expect("a photo"));
    assert_eq!((logo.shows.as_str(), photo.shows.as_str()), ("a sign", "a photo"));
    assert!(matches!(&*logo.picture, Picture::Drawing(drawing) if (drawing.width, drawing.height) == (4.0, 2.0)));
}

/// The editions that a pattern tells with these lines, and these files beside it.
fn editions(lines: &str, files: &[(&'static str, &'static str)]) -> Vec<String> {
    let shelf = Texts(files.iter().copied().collect());
    let history = model(&source(lines, UNIT), &shelf).facts.history;
    history.into_iter().map(|edition| edition.edition).collect()
}

#[test]
fn the_history_may_stand_in_files_beside_the_pattern() {
    let old = ("old.piece", "history \"1.10\" \"Ten.\"\nhistory \"1.0\" \"First.\"\n");
    let new = ("new.piece", "use \"old.piece\"\nhistory \"2.0\" \"Anew.\"\nhistory \"1.9\" \"Nine.\"\n");
    let lines = "history \"1.1\" \"Better.\"\nuse \"new.piece\"";
    assert_eq!(editions(lines, &[old, new]), ["1.0", "1.1", "1.9", "1.10", "2.0"]);
    // One that is no number leaves all as they are read: files in the order in which they are used, then the pattern.
    let spring = ("spring.piece", "history \"2.0\" \"Spring.\"\nhistory \"1.0\" \"First.\"\n");
    for odd in ["3", "3.0b", "3.", ".3", "3.1.0", "+3.0", "99999999999.0", "summer"] {
        let lines = "history \"0.9\" \"Last.\"\nuse \"spring.piece\"\nuse \"odd.piece\"";
        let other: &'static str = format!("history \"{odd}\" \"Odd.\"\n").leak();
        assert_eq!(editions(lines, &[spring, ("odd.piece", other)]), ["2.0", "1.0", odd, "0.9"]);
    }
}

#[test]
fn an_edition_told_in_two_files_is_a_fault() {
    let told = "history \"1.0\" \"First.\"\n";
    let shelf = Texts(BTreeMap::from([("old.piece", told), ("new.piece", told)]));
    let checked = check("buoy.piece", &source("use \"old.piece\"\nuse \"new.piece\"", UNIT), &shelf);
    let found: Vec<(Code, &str)> = checked.faults.iter().map(|fault| (fault.code, fault.message.as_str())).collect();
    assert_eq!(found, [(Code::DoubledStatement, "the history tells of edition 1.0 twice")]);
}

/// A picture that the pattern overrules is not looked at.
#[test]
fn only_pictures_that_are_shown_are_read() {
    let shelf = Texts(BTreeMap::from([("house.piece", "logo \"gone.svg\" \"gone\"\n"), ("sign.svg", SIGN)]));
    model(&source("use \"house.piece\"\nlogo \"sign.svg\" \"a sign\"", UNIT), &shelf);
    let checked = check("buoy.piece", &source("use \"house.piece\"", UNIT), &shelf);
    let found: Vec<(Code, u32)> =
        checked.faults.iter().map(|fault| (fault.code, fault.span().expect("a place").file)).collect();
    assert_eq!(found, [(Code::PictureNotFound, 1)]);
}

const COLOURINGS: &str = "colouring turn \"The other way round\" with sky as sea, sea as sky\ncolouring red \"Red morning\" with sky as red, sea as red";

/// `model.json` of the packet in a colouring.
fn json(text: &str, colouring: Option<&str>) -> serde_json::Value {
    let options = Options { colouring: colouring.map(str::to_owned), ..Options::default() };
    let built = build("buoy.piece", text, &Bare, &options, &mut |_| {});
    let artifacts = built.artifacts.unwrap_or_else(|| panic!("{:?}", built.faults));
    let model = artifacts.iter().find(|artifact| artifact.path == "model.json").expect("a model");
    serde_json::from_slice(&model.bytes).expect("is JSON")
}

#[test]
fn all_exchanges_happen_at_once_and_after_those_of_places() {
    let halves = "unit half {\noutline 0, 0 -- 4, 0 -- 4, 8 -- 0, 8\n1 sky around 1, 1\n2 sea beyond level 4\n}\nplace half moved 4, 0 with sky as red";
    let text = source(COLOURINGS, halves);
    let fabrics = |colouring| {
        let json = json(&text, colouring);
        let variants = json["blocks"][0]["variants"].as_array().expect("variants").clone();
        let of = |variant: &serde_json::Value| {
            let fabric = |number: &str| variant["fabrics"][number].as_str().expect("a key").to_owned();
            (fabric("1"), fabric("2"))
        };
        let cut: Vec<String> = json["cutting"]
            .as_array()
            .expect("cutting")
            .iter()
            .filter(|cutting| cutting["pieces"].as_array().is_some_and(|pieces| !pieces.is_empty()))
            .map(|cutting| cutting["fabric"].as_str().expect("a key").to_owned())
            .collect();
        (json["colouring"].clone(), variants.iter().map(of).collect::<Vec<_>>(), cut)
    };
    let pair = |a: &str, b: &str| (a.to_owned(), b.to_owned());
    let drawn = fabrics(None);
    assert_eq!(drawn.0, serde_json::Value::Null);
    assert_eq!(drawn.1, [pair("sky", "sea"), pair("red", "sea")]);
    let turned = fabrics(Some("turn"));
    assert_eq!(turned.0, "The other way round");
    assert_eq!(turned.1, [pair("sea", "sky"), pair("red", "sky")]);
    // Two foundations become one where all fabrics of both become the same.
    let red = fabrics(Some("Red morning"));
    assert_eq!((red.0, red.1, red.2), ("Red morning".into(), vec![pair("red", "red")], vec!["red".to_owned()]));
}

#[test]
fn an_unknown_colouring_is_a_fault_that_names_the_known() {
    let options = Options { colouring: Some("trun".into()), ..Options::default() };
    let built = build("buoy.piece", &source(COLOURINGS, UNIT), &Bare, &options, &mut |_| {});
    assert!(built.artifacts.is_none());
    let [fault] = built.faults.as_slice() else { panic!("{:?}", built.faults) };
    assert_eq!(fault.message, "the pattern has no colouring `trun`");
    let help = fault.help.as_deref().expect("help");
    assert_eq!(help, "did you mean `turn`? There are `turn` (The other way round), `red` (Red morning)");
}

/// The warning of a dark allowance arises in one colouring only: the line that silences it there is of use.
#[test]
fn a_line_that_silences_something_in_another_colouring_is_no_idle_one() {
    let model = model(&source(&format!("{COLOURINGS}\nallow dark-under-light"), UNIT), &Bare);
    assert_eq!(model.colourings.len(), 2);
    let without = "colouring red \"Red morning\" with sky as red, sea as red\nallow dark-under-light";
    let unused = check("buoy.piece", &source(without, UNIT), &Bare).faults;
    assert_eq!(unused.iter().map(|fault| fault.code).collect::<Vec<_>>(), [Code::UnusedAllow]);
}
