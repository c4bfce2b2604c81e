//! What is bought and cut, on every sample: bolts of several widths, fat quarters and eighths, few widths of strips, classes, the sewer's own cloth and
//! other colourings obey the laws.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use piecewright::geometry::Length;
use piecewright::model::{self, Amount, FabricCutting, Model, Strip};
use piecewright::pattern::{Cloth, CutShape, CutWish, CuttingPlan, Owned, OwnedPiece, Pattern, Stock};
use piecewright::{Options, build, piecing};
use support::{laws::check_laws, resolved, samples, stem};

fn model_of(pattern: &Pattern) -> Model {
    let proof = piecing::prove(pattern).expect("a sample can be sewn");
    model::build(pattern, &proof, 0).expect("a size of the pattern")
}

/// All samples, each twelve times.
fn twelvefold() -> Vec<(String, Pattern)> {
    let pattern = |path: std::path::PathBuf| {
        let mut pattern = support::plainly_cut(resolved(&path));
        pattern.blocks.iter_mut().for_each(|block| block.copies *= 12);
        (stem(&path), pattern)
    };
    samples().into_iter().map(pattern).collect()
}

fn inches(amount: Amount) -> f64 {
    let Amount::Length(length) = amount else { panic!("off the bolt") };
    length.to_inches()
}

#[test]
fn every_stock_and_every_shape_obeys_the_laws() {
    let wide = |inches: f64| Length::inches(inches);
    for path in samples() {
        let pattern = support::plainly_cut(resolved(&path));
        for stock in [Stock::Bolt(vec![wide(40.0), wide(54.0), wide(30.0)]), Stock::FatQuarters, Stock::FatEighths] {
            for shape in [CutShape::Rectangle, CutShape::Triangles, CutShape::Trapezoid] {
                let cloth = Cloth { stock: stock.clone(), ..pattern.cloth.clone() };
                let cut = CutWish { shape: Some(shape), ..CutWish::default() };
                let model = model_of(&Pattern { cloth, cut, ..pattern.clone() });
                check_laws(&format!("{} {stock:?} {shape:?}", stem(&path)), &model);
            }
        }
    }
}

#[test]
fn few_widths_cost_what_is_said() {
    let widths = |of: &FabricCutting| {
        let mut all: Vec<u64> = of.strips.iter().map(|strip| strip.width.to_inches().to_bits()).collect();
        all.sort_unstable();
        all.dedup();
        all.len()
    };
    let mut fewer = 0;
    for (name, pattern) in twelvefold() {
        let shortest = model_of(&pattern);
        let cloth = Cloth { plan: CuttingPlan::FewWidths, ..pattern.cloth.clone() };
        let few = model_of(&Pattern { cloth, ..pattern });
        check_laws(&name, &few);
        for (shortest, few) in shortest.cutting.iter().zip(&few.cutting) {
            let price = few.price.expect("a plan with few widths is found: the shortest is one");
            assert!(((few.length - shortest.length) - price).to_inches().abs() < 1e-6, "{name}: the price is said");
            assert!(price.to_inches() <= shortest.length.to_inches() * 0.1 + 1e-6, "{name}: a tenth at the most");
            assert!(widths(few) <= widths(shortest), "{name}: no more widths than the shortest plan has");
            fewer += usize::from(widths(few) < widths(shortest));
        }
    }
    assert!(fewer > 10, "{fewer} plans have fewer widths");
}

#[test]
fn a_class_is_cut_for_together() {
    for (name, pattern) in twelvefold().into_iter().take(3) {
        let one = model_of(&pattern);
        let class = model_of(&Pattern { people: 8, ..pattern });
        check_laws(&name, &class);
        for (one, class) in one.cutting.iter().zip(&class.cutting) {
            for (one, class) in one.pieces.iter().zip(&class.pieces) {
                assert_eq!(one.count * 8, class.count, "{name} {}", one.label);
            }
            let spared = one.length * 8.0 - class.length;
            assert!(spared.to_inches() > -1e-6, "{name}: cut together it takes no more than cut one by one");
        }
    }
}

/// How much cloth is asked for in all, however it is sold; all fabrics in inches off the bolt.
fn short(of: &FabricCutting) -> f64 {
    of.own.as_ref().and_then(|own| own.short).map_or(0.0, |short| inches(short.amount))
}

#[test]
fn own_cloth_is_used_before_any_is_bought() {
    for (name, pattern) in twelvefold() {
        let plain = model_of(&pattern);
        let with = |piece: OwnedPiece, count: u32| {
            let owned = (0..pattern.fabrics.len()).map(|fabric| Owned { fabric, count, piece });
            model_of(&Pattern { owned: owned.collect(), ..pattern.clone() })
        };
        for (index, piece) in [
            OwnedPiece::Length(Length::inches(18.0)),
            OwnedPiece::FatQuarter,
            OwnedPiece::FatEighth,
            OwnedPiece::Scrap(Length::inches(11.0), Length::inches(9.0)),
        ]
        .into_iter()
        .enumerate()
        {
            let model = with(piece, 2);
            check_laws(&name, &model);
            for (own, plain) in model.cutting.iter().zip(&plain.cutting) {
                let at = format!("{name} {} with {piece:?}", model.fabrics[own.fabric].key);
                uses_what_there_is(&at, &model, own);
                let asked = (inches(plain.buy.amount), short(own));
                assert!(asked.1 <= asked.0 + 1e-6, "{at}: {asked:?}, no more than without");
                // Two half yards spare at least a quarter of a yard, where so much is needed.
                assert!(index > 0 || asked.0 < 36.0 || asked.1 <= asked.0 - 9.0, "{at}: {asked:?}");
            }
        }
        // What one would buy, one has.
        let enough: Vec<Owned> = plain
            .cutting
            .iter()
            .filter(|of| !of.strips.is_empty())
            .map(|of| Owned {
                fabric: of.fabric,
                count: 1,
                piece: OwnedPiece::Length(Length::inches(inches(of.buy.amount))),
            })
            .collect();
        let model = model_of(&Pattern { owned: enough, ..pattern.clone() });
        for own in model.cutting.iter().filter_map(|of| of.own.as_ref()) {
            assert_eq!((own.short, own.rest.len()), (None, 0), "{name}: what would be bought is enough");
        }
    }
}

/// Every blank is cut once, from own cloth or from what is bought, and own cloth is never cut beyond its end.
fn uses_what_there_is(at: &str, model: &Model, cutting: &FabricCutting) {
    let own = cutting.own.as_ref().expect("the sewer has some");
    let mut laid: Vec<Vec<u32>> = cutting.pieces.iter().map(|group| vec![0; group.blanks.len()]).collect();
    for (piece, strips) in &own.used {
        let (width, length) = match *piece {
            OwnedPiece::Length(length) => (cutting.sheet.0, length - model.cloth.squaring),
            OwnedPiece::FatQuarter => (Length::inches(21.0), Length::inches(17.5)),
            OwnedPiece::FatEighth => (Length::inches(21.0), Length::inches(8.5)),
            OwnedPiece::Scrap(width, length) => (width, length),
        };
        // Metric patterns have their own quarters and eighths: none is longer or wider than these by a tenth.
        let (wide, long) =
            if model.units == model::Units::Inches { (width, length) } else { (width * 1.1, length * 1.1) };
        support::cloth::lie_in(at, model, cutting, strips, wide, &mut laid);
        let taken: Length = strips.iter().map(|strip: &Strip| strip.width).sum();
        assert!(taken * (1.0 + model.cloth.shrinkage) <= long + Length::inches(1e-3), "{at}: cut beyond its end");
    }
    support::cloth::lie_in(at, model, cutting, &own.rest, cutting.sheet.0, &mut laid);
    let wanted: Vec<Vec<u32>> =
        cutting.pieces.iter().map(|group| group.blanks.iter().map(|blank| blank.count).collect()).collect();
    assert_eq!(laid, wanted, "{at}: every blank is cut once");
    assert_eq!(own.short.is_some(), !own.rest.is_empty(), "{at}: what is cut of more is bought");
}

#[test]
fn amounts_of_colourings_are_those_of_their_packets() {
    let mut seen = 0;
    for path in samples() {
        let pattern = resolved(&path);
        let told = model_of(&pattern).in_colourings;
        assert_eq!(told.len(), pattern.colourings.len());
        for coloured in told {
            let own = model_of(&pattern.coloured(coloured.colouring));
            let amounts: Vec<_> = own.cutting.iter().map(|of| (of.fabric, of.buy)).collect();
            let listed: Vec<_> = coloured.fabrics.iter().map(|(fabric, _, buy)| (*fabric, *buy)).collect();
            assert_eq!(listed, amounts, "{}", stem(&path));
            for (fabric, parts, _) in &coloured.fabrics {
                let exchange = &pattern.colourings[coloured.colouring];
                assert!(parts.iter().all(|&drawn| exchange.fabric(drawn) == *fabric), "{}", stem(&path));
                seen += parts.len();
            }
        }
    }
    assert!(seen > 5, "{seen}");
}

/// What a build of a sample says of its cutting, in `model.json`.
fn cutting_told(name: &str, options: &Options) -> serde_json::Value {
    let text = std::fs::read_to_string(support::patterns().join(name)).expect("a readable sample");
    let built = build(name, &text, &support::Folder(support::patterns()), options, &mut |_| {});
    assert_eq!(built.faults, [], "{options:?}");
    let made = built.artifacts.expect("a sample builds");
    let model = made.iter().find(|file| file.path == "model.json").expect("every packet has its model");
    serde_json::from_slice::<serde_json::Value>(&model.bytes).expect("a model is JSON")["cutting"].take()
}

#[test]
fn fabrics_exchanged_for_a_build_are_a_colouring() {
    let with = |words: &str| Options { with: Some(words.to_owned()), ..Options::default() };
    let dawn = Options { colouring: Some("dawn".to_owned()), ..Options::default() };
    let own = cutting_told("storm-lantern.piece", &with("night as rose, rain as mist"));
    assert_eq!(own, cutting_told("storm-lantern.piece", &dawn));
    // Two fabrics made one: its pieces are those of both.
    let count = |cutting: &serde_json::Value, fabric: &str| -> u64 {
        let of = cutting.as_array().expect("a list").iter().find(|of| of["fabric"] == fabric);
        let pieces = of.map(|of| of["pieces"].as_array().expect("a list").clone()).unwrap_or_default();
        pieces.iter().map(|piece| piece["count"].as_u64().expect("a count")).sum()
    };
    let drawn = cutting_told("storm-lantern.piece", &Options::default());
    let one = cutting_told("storm-lantern.piece", &with("night as iron"));
    assert_eq!((count(&one, "iron"), count(&one, "night")), (count(&drawn, "iron") + count(&drawn, "night"), 0));
    // On top of a colouring, and swapped.
    let both = Options { colouring: Some("dawn".to_owned()), ..with("rose as glow, glow as rose") };
    let swapped = cutting_told("storm-lantern.piece", &both);
    let dawn = cutting_told("storm-lantern.piece", &dawn);
    assert_eq!((count(&swapped, "glow"), count(&swapped, "rose")), (count(&dawn, "rose"), count(&dawn, "glow")));
}

#[test]
fn words_that_exchange_nothing_are_faults() {
    let text = std::fs::read_to_string(support::patterns().join("storm-lantern.piece")).expect("a readable sample");
    for words in ["night as nacht", "night", "night as rose, night as glow", "night as rose\nedition \"9\"", ""] {
        let options = Options { with: Some(words.to_owned()), ..Options::default() };
        let built = build("l.piece", &text, &support::Folder(support::patterns()), &options, &mut |_| {});
        assert!(built.artifacts.is_none() && !built.faults.is_empty(), "{words:?}");
        let place = built.faults.iter().find_map(piecewright::fault::Fault::span).expect("a place");
        assert_eq!(built.sources.get(place.file).expect("a text").name(), "--with", "{words:?}");
    }
}
