//! Lines about cutting and cloth, from the words to what the pattern says of each piece.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

use std::collections::BTreeMap;

use piecewright::geometry::{Angle, Length, Point};
use piecewright::pattern::{self, CutRule, CutShape, CuttingPlan, Lie, OwnedPiece, Pattern, Stock};
use piecewright::{ReadFault, Shelf};

/// Shared files by name.
struct Files(BTreeMap<&'static str, String>);

impl Shelf for Files {
    fn read(&self, path: &str) -> Result<String, ReadFault> {
        self.0.get(path).cloned().ok_or(ReadFault::NotFound)
    }
}

/// The pattern with these lines outside its block and in its unit; `house` is what `use "house.piece"` brings.
fn pattern(finished: &str, outside: &str, unit: &str, house: &str) -> Pattern {
    let text = format!(
        "pattern \"Quay\"\nedition \"1\"\nfinished {finished}\n{outside}\n\
         fabric sea \"Sea\" #3b6e8f\nfabric sky \"Sky\" #a9cbe0\n\
         block quay 8 x 8 {{\n  unit all {{\n    1 sea 0, 0 -- 8, 8 -- 0, 8\n    2 sky beyond 0, 0 -- 8, 8\n{unit}\n  }}\n}}\n"
    );
    let shelf = Files(BTreeMap::from([("house.piece", house.to_owned())]));
    let reading = pattern::read_sources("quay.piece", &text, &shelf);
    let (pattern, faults, _) = pattern::resolve(&reading);
    pattern.unwrap_or_else(|| panic!("{faults:?} {:?}", reading.faults))
}

/// How the two sections are cut.
fn rules(pattern: &Pattern) -> [CutRule; 2] {
    let unit = &pattern.blocks[0].units[0];
    [0, 1].map(|k| pattern.cut_rule(unit, &unit.sections[k], unit.sections[k].fabric))
}

#[test]
fn nothing_said_is_as_it_always_was() {
    let silent = pattern("8 in", "", "", "");
    for rule in rules(&silent) {
        let usual = Length::inches(0.25);
        assert_eq!(rule, CutRule { lie: Lie::AlongSeam, shape: CutShape::Rectangle, ease: usual, motif: None });
    }
    assert_eq!((silent.least_turn, silent.owned.len(), silent.people), (None, 0, 1));
}

#[test]
fn what_is_nearer_overrules_what_is_further_out() {
    let all = "cut on-grain, triangles\nease 1/2 in\ncut trapezoid for sea\nease snug for sea";
    let [sea, sky] = rules(&pattern("8 in", all, "", ""));
    assert_eq!((sea.lie, sea.shape, sea.ease), (Lie::OnGrain, CutShape::Trapezoid, Length::inches(0.125)));
    assert_eq!((sky.lie, sky.shape, sky.ease), (Lie::OnGrain, CutShape::Triangles, Length::inches(0.5)));
    let unit = "cut least-cloth\nease roomy\ncut half-square for 2\nease 1 in for 2";
    let [sea, sky] = rules(&pattern("8 in", all, unit, ""));
    assert_eq!((sea.lie, sea.shape, sea.ease), (Lie::LeastCloth, CutShape::Trapezoid, Length::inches(0.5)));
    assert_eq!((sky.lie, sky.shape, sky.ease), (Lie::LeastCloth, CutShape::HalfSquare, Length::inches(1.0)));
}

#[test]
fn every_word_means_itself() {
    for lie in Lie::ALL {
        assert_eq!(rules(&pattern("8 in", &format!("cut {}", lie.word()), "", ""))[0].lie, lie);
    }
    for shape in CutShape::ALL {
        assert_eq!(rules(&pattern("8 in", "", &format!("cut {} for 1", shape.word()), ""))[0].shape, shape);
    }
    for (word, inches, millimetres) in [("snug", 0.125, 3.0), ("usual", 0.25, 6.0), ("roomy", 0.5, 12.0)] {
        let line = format!("ease {word}");
        assert_eq!(rules(&pattern("8 in", &line, "", ""))[0].ease, Length::inches(inches));
        assert_eq!(rules(&pattern("20 cm", "", &line, ""))[0].ease, Length::millimetres(millimetres));
    }
}

#[test]
fn the_pattern_overrules_its_shared_files() {
    let house = "cut along-seam, rectangle for sea\ncloth 54 in\nshrinkage 3 %\nease roomy\nhave 1 yd sea";
    let shared = pattern("8 in", "use \"house.piece\"", "", house);
    assert_eq!(shared.cloth.stock, Stock::Bolt(vec![Length::inches(54.0)]));
    assert_eq!((shared.ease, shared.cloth.shrinkage), (Length::inches(0.5), 0.03));
    let own = "use \"house.piece\"\ncut on-grain for sea\ncloth fat-quarters\nshrinkage 0 %\nease snug\nhave 2 yd sea";
    let overruled = pattern("8 in", own, "", house);
    assert_eq!(overruled.cloth.stock, Stock::FatQuarters);
    assert_eq!((overruled.ease, overruled.cloth.shrinkage), (Length::inches(0.125), 0.0));
    let [sea, _] = rules(&overruled);
    assert_eq!((sea.lie, sea.shape), (Lie::OnGrain, CutShape::Rectangle), "each kind by itself");
    assert_eq!(overruled.owned.len(), 2, "cloth that is there adds up");
}

#[test]
fn cloth_is_taken_as_it_is_told() {
    let lines = "turn-slack 8 deg\ncloth 40 in, 1 1/2 yd\ncloth fat-eighths for sky\nsquaring 0 in\ncutting few-widths\n\
                 have 1/2 yd sky\nhave 3 fat-quarters sea\nhave 1 fat-eighth sky\nhave 10 in x 12 in sea";
    let told = pattern("8 in", lines, "", "");
    assert_eq!(told.least_turn, Some(Angle::degrees(8.0)));
    assert_eq!(told.cloth.stock, Stock::Bolt(vec![Length::inches(40.0), Length::inches(54.0)]));
    assert_eq!([&told.fabrics[0].stock, &told.fabrics[1].stock], [&None, &Some(Stock::FatEighths)]);
    assert_eq!((told.cloth.squaring, told.cloth.plan), (Length::ZERO, CuttingPlan::FewWidths));
    let owned: Vec<_> = told.owned.iter().map(|own| (own.fabric, own.count, own.piece)).collect();
    let scrap = OwnedPiece::Scrap(Length::inches(10.0), Length::inches(12.0));
    let length = OwnedPiece::Length(Length::inches(18.0));
    assert_eq!(owned, [(1, 1, length), (0, 3, OwnedPiece::FatQuarter), (1, 1, OwnedPiece::FatEighth), (0, 1, scrap)]);
}

#[test]
fn a_motif_lies_where_the_line_says_or_in_the_middle() {
    let [sea, sky] = rules(&pattern("8 in", "", "point gull 1, 6\nfussy for 1 at gull\nfussy for 2", ""));
    assert_eq!(sea.motif, Some(Point::new(1.0, 6.0)));
    let middle = sky.motif.expect("in the middle");
    assert!(middle.distance(Point::new(16.0 / 3.0, 8.0 / 3.0)) < 1e-9, "{middle:?}");
}

#[test]
fn endless_lines_come_to_an_end() {
    for (outside, unit) in [
        ("cut on-grain for nothing\n", ""),
        ("cut on-grain\n", ""),
        ("ease snug for sea\n", ""),
        ("cloth 40 in\n", ""),
        ("have 3 fat-quarters sea\n", ""),
        ("", "cut half-square for 9\n"),
        ("", "cut half-square\n"),
        ("", "fussy for 1 at 9, 9\n"),
        ("", "ease snug for 1\n"),
    ] {
        let text = format!(
            "pattern \"Quay\"\nedition \"1\"\nfinished 8 in\n{}fabric sea \"Sea\" #3b6e8f\n\
             block quay 8 x 8 {{\nunit all {{\n1 sea around 4, 4\n{}}}\n}}\n",
            outside.repeat(1_500),
            unit.repeat(1_500)
        );
        let found = piecewright::check("quay.piece", &text, &Files(BTreeMap::new())).faults;
        let labels: usize = found.iter().map(|fault| fault.labels.len()).sum();
        assert!((1..=4_000).contains(&labels), "{outside}{unit}: {labels}");
    }
}
