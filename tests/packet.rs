//! What holds for the packet of every sample, on both papers.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::sync::{Mutex, OnceLock};

use piecewright::geometry::{Point, Polygon, Segment, Tolerance, Transform};
use piecewright::model::{Block, Effort, Model, Paper, PrintDirection, Units, Variant};
use piecewright::packet::compose;
use piecewright::packet::foundation::{Foundation, foundation, needs_splitting};
use piecewright::packet::label::{apart, fit};
use piecewright::packet::page::{Colour, Item, Layer, Path, Piece, Stroke, Subpath};
use piecewright::packet::sheets::{self, Bed, Printing};
use piecewright::packet::words::Words;
use piecewright::packet::{Audience, Brief};
use piecewright::{Options, build, model, piecing};
use support::layout::{assert_editions_last, assert_packet, at_once, ink};
use support::{Folder, models_at, patterns, resolved, samples, stem};

/// A sample at one size on one paper, with its sheets.
struct Sample {
    name: String,
    model: Model,
    printing: Printing,
    /// Whether it has the size it is drawn for.
    drawn: bool,
}

/// Every sample at the size it is drawn for, much smaller and much larger, on both papers. Made once for all tests.
fn samples_at_sizes() -> &'static [Sample] {
    static ALL: OnceLock<Vec<Sample>> = OnceLock::new();
    ALL.get_or_init(|| {
        let words = Words::english();
        let made = Mutex::new(Vec::new());
        let paths: Vec<_> = samples().into_iter().enumerate().collect();
        at_once(&paths, |(number, path)| {
            let pattern = resolved(path);
            let proof = piecing::prove(&pattern).expect("a sample can be sewn");
            let model = model::build(&pattern, &proof, 0).expect("the size it is drawn for");
            let others = models_at(&pattern, &[4.0, 12.0, 20.0]).into_iter().map(|model| (model, false));
            for (model, drawn) in std::iter::once((model, true)).chain(others) {
                for paper in [Paper::Letter, Paper::A4] {
                    let name = format!("{} {} {}", stem(path), model.size, paper.word());
                    let model = Model { paper, papers: vec![paper], effort: Effort::Quick, ..model.clone() };
                    let printing = sheets::sheets(&model, &words, Audience::Sewers, None);
                    made.lock().expect("no test failed here").push((*number, Sample { name, model, printing, drawn }));
                }
            }
        });
        let mut made = made.into_inner().expect("no test failed here");
        made.sort_by_key(|(number, _)| *number);
        made.into_iter().map(|(_, sample)| sample).collect()
    })
}

/// The room for foundations on the sheets of a model, in inches.
fn room(model: &Model) -> (f64, f64) {
    Bed::under(model).room()
}

fn whole_or_parts(model: &Model, block: usize, variant: usize) -> Vec<Foundation> {
    foundation(model, block, variant, room(model), &Words::english())
}

/// A foundation by block, number and part.
type Printed = (usize, usize, Option<(u32, u32)>);

#[test]
fn as_many_copies_are_printed_as_are_sewn() {
    for Sample { name, model, printing, .. } in samples_at_sizes() {
        let mut printed: BTreeMap<Printed, u32> = BTreeMap::new();
        for sheet in &printing.sheets {
            for foundation in &sheet.foundations {
                let block = &model.blocks[foundation.block];
                assert!(block.has_paper(&block.variants[foundation.variant]), "{name}: a plain piece has no paper");
                *printed.entry((foundation.block, foundation.variant, foundation.part)).or_default() += sheet.times;
            }
        }
        for (b, block) in model.blocks.iter().enumerate() {
            for (v, variant) in block.variants.iter().enumerate().filter(|(_, variant)| block.has_paper(variant)) {
                let copies: Vec<_> = printed.iter().filter(|((block, of, _), _)| (*block, *of) == (b, v)).collect();
                assert!(!copies.is_empty(), "{name}: {} is printed", variant.id);
                for ((_, _, part), copies) in &copies {
                    let spare = printing.spares.iter().find(|s| (s.block, s.variant, s.part) == (b, v, *part));
                    let spare = spare.map_or(0, |spare| spare.count);
                    assert_eq!(**copies, variant.sewn + spare, "{name}: {}", variant.id);
                }
                let parts = copies[0].0.2.map_or(1, |(_, of)| of as usize);
                assert_eq!(copies.len(), parts, "{name}: every part of {} is printed", variant.id);
            }
        }
    }
}

#[test]
fn foundations_keep_apart_within_the_printable_area_and_are_mirrored_rightly() {
    for Sample { name, model, printing, .. } in samples_at_sizes() {
        for sheet in &printing.sheets {
            let (width, height) = (sheet.page.width, sheet.page.height);
            // Places are told in hundred-thousandths of an inch.
            let margin = sheet.bed.margin.to_inches() - 1e-5;
            for (i, foundation) in sheet.foundations.iter().enumerate() {
                for corner in foundation.cutting_line.corners() {
                    let inside = corner.x >= margin && corner.x <= width.to_inches() - margin;
                    let inside = inside && corner.y >= margin && corner.y <= height.to_inches() - margin;
                    assert!(inside, "{name} sheet {}: {corner:?}", sheet.id);
                }
                for other in &sheet.foundations[i + 1..] {
                    let (a, b) = (foundation.cutting_line.corners(), other.cutting_line.corners());
                    assert!(apart(a, b, 0.1), "{name} sheet {}: foundations touch", sheet.id);
                }
                let variant = &model.blocks[foundation.block].variants[foundation.variant];
                let determinant = foundation.matrix.determinant();
                assert!((determinant.abs() - 1.0).abs() < 1e-9, "{name}: foundations are printed to size");
                assert_eq!(determinant < 0.0, !variant.mirrored, "{name}: {} is printed as a mirror image", variant.id);
            }
        }
    }
}

#[test]
fn the_crosses_of_lapped_parts_lie_on_each_other() {
    let mut seen = 0;
    for Sample { name, model, printing, .. } in samples_at_sizes() {
        for sheet in &printing.sheets {
            for on in sheet.foundations.iter().filter(|on| on.part.is_some()) {
                let parts = whole_or_parts(model, on.block, on.variant);
                let centres: Vec<Point> = parts.iter().flat_map(|part| crosses(&part.items, &part.matrix)).collect();
                assert!(!centres.is_empty(), "{name}: parts have crosses");
                for centre in &centres {
                    let twins = centres.iter().filter(|other| other.distance(*centre) < 1e-6).count();
                    assert!(twins >= 2, "{name}: the cross at {centre:?} has no twin");
                }
                seen += centres.len();
            }
        }
    }
    assert!(seen > 0, "some sample is larger than a page");
}

/// The middles of the crosses in a part of a foundation, in the unit's frame.
fn crosses(items: &[Item], matrix: &Transform) -> Vec<Point> {
    let back = matrix.inverse().expect("paper is not flattened");
    let mut found = Vec::new();
    for item in items {
        match item {
            Item::Window(window) => found.extend(crosses(&window.items, matrix)),
            Item::Path(path) if path.layer == Layer::Marks && path.subpaths.len() == 2 => {
                let ends: Vec<Point> = path.subpaths.iter().flat_map(Subpath::places).collect();
                let (from, to) = (ends[0], ends[ends.len() / 2 - 1]);
                found.push(back.apply(from.middle(to)));
            }
            Item::Path(_) | Item::Text(_) | Item::Photo(_) => {}
        }
    }
    found
}

/// Every foundation that is printed whole, once for each.
fn whole_foundations(model: &Model) -> Vec<(&Block, &Variant, Foundation)> {
    let mut found = Vec::new();
    for (b, block) in model.blocks.iter().enumerate() {
        for (v, variant) in block.variants.iter().enumerate() {
            let printed = whole_or_parts(model, b, v);
            found.extend(printed.into_iter().filter(|f| f.part.is_none()).map(|f| (block, variant, f)));
        }
    }
    found
}

/// The lines of a foundation, each with its pen.
fn lines(items: &[Item]) -> impl Iterator<Item = (&Stroke, Vec<Segment>)> {
    items.iter().filter_map(|item| match item {
        Item::Path(Path { subpaths, stroke: Some(stroke), .. }) => {
            let straight = |subpath: &Subpath| match subpath.pieces.as_slice() {
                [Piece::Line(end)] if !subpath.closed => Some(Segment::new(subpath.start, *end)),
                _ => None,
            };
            Some((stroke, subpaths.iter().filter_map(straight).collect()))
        }
        _ => None,
    })
}

#[test]
fn arrows_point_up_the_prints_in_their_own_sections_and_nowhere_else() {
    let (mut told, mut wanted) = (0, 0);
    for Sample { name, model, .. } in samples_at_sizes() {
        for (block, variant, foundation) in whole_foundations(model) {
            let unit = block.unit_of(variant);
            let near = Tolerance::of_extent(10.0);
            let mut pointed = BTreeSet::new();
            // An arrow is a shaft with one head, or with two.
            let arrows = lines(&foundation.items).filter(|(pen, lines)| pen.round && [3, 5].contains(&lines.len()));
            for (_, lines) in arrows {
                let within = unit.sections.iter().position(|section| {
                    let area = foundation.matrix.apply_to_polygon(&section.polygon);
                    lines.iter().all(|line| [line.start, line.end].iter().all(|&p| area.holds(p, near) == Some(true)))
                });
                let k = within.unwrap_or_else(|| panic!("{name} {}: an arrow stands in no section", variant.mark));
                let direction = model.fabrics[variant.fabrics[k]].print.direction;
                let heads = if lines.len() == 5 { PrintDirection::TwoWay } else { PrintDirection::OneWay };
                assert_eq!(direction, heads, "{name} {}{}", variant.mark, k + 1);
                let up = variant.cuts.iter().find(|cut| cut.section == k).expect("a cut").up;
                let up = foundation.matrix.apply_to_vector(up).unit().expect("a cut is high");
                let shaft = (lines[0].end - lines[0].start).unit().expect("a shaft is long");
                let along = shaft.dot(up);
                let right = if direction == PrintDirection::TwoWay { along.abs() } else { along };
                assert!(right > 0.999, "{name} {}{}: it points up the print", variant.mark, k + 1);
                assert!(pointed.insert(k), "{name} {}{}: one arrow", variant.mark, k + 1);
            }
            for (k, section) in unit.sections.iter().enumerate() {
                let ups: Vec<_> =
                    variant.cuts.iter().filter(|cut| cut.section == k).filter_map(|cut| cut.up.unit()).collect();
                let alike =
                    ups.windows(2).all(|pair| pair[0].cross(pair[1]).abs() < 1e-3 && pair[0].dot(pair[1]) > 0.0);
                let directed = model.fabrics[variant.fabrics[k]].print.direction != PrintDirection::None;
                let roomy = fit(&section.polygon, 0.75, 0.75, 0.0, 0.03).is_some();
                if directed && alike {
                    wanted += 1;
                    told += usize::from(pointed.contains(&k));
                }
                assert!(
                    !directed || !alike || !roomy || pointed.contains(&k),
                    "{name} {}{} has room for an arrow",
                    variant.mark,
                    k + 1
                );
            }
        }
    }
    assert!(wanted > 100 && told * 10 >= wanted * 9, "{told} of {wanted} have their arrow");
}

#[test]
fn the_words_of_edges_stand_within_the_cutting_line() {
    let (mut within, mut outside) = (0, 0);
    for Sample { name, model, .. } in samples_at_sizes() {
        for (_, variant, foundation) in whole_foundations(model) {
            for item in &foundation.items {
                let Item::Text(text) = item else { continue };
                let of_an_edge = ["to ", "edge"].iter().any(|start| text.words.starts_with(start));
                if !of_an_edge && !text.words.contains("  ·  ") {
                    continue;
                }
                let held = ink(text).iter().all(|&corner| foundation.cutting_line.distance_outside(corner) < 0.0005);
                if held {
                    within += 1;
                } else {
                    outside += 1;
                }
                // Only in blocks much smaller than they are drawn for are edges shorter than their words.
                assert!(held || model.size.starts_with("4 "), "{name} {}: “{}”", variant.mark, text.words);
            }
        }
    }
    assert!(outside * 25 < within, "{outside} of {within} are cut off");
}

#[test]
fn every_seam_is_carried_on_from_the_outline_to_the_cutting_line() {
    let near = Tolerance::of_extent(20.0);
    let mut seen = 0;
    for Sample { name, model, .. } in samples_at_sizes() {
        for (block, variant, foundation) in whole_foundations(model) {
            let unit = block.unit_of(variant);
            let drawn: Vec<Segment> = lines(&foundation.items).flat_map(|(_, lines)| lines).collect();
            let on = |polygon: &Polygon, p: Point| polygon.edges().any(|edge| near.is_zero(edge.distance(p)));
            for (k, section) in unit.sections.iter().enumerate() {
                let Some(seam) = section.seam else { continue };
                for (end, from) in [(seam.start, seam.end), (seam.end, seam.start)] {
                    if !on(&unit.outline, end) {
                        continue;
                    }
                    let place = foundation.matrix.apply(end);
                    let way = foundation.matrix.apply_to_vector(end - from).unit().expect("a seam is long");
                    let carried = drawn.iter().any(|line| {
                        let along = (line.end - line.start).unit();
                        near.is_zero(line.start.distance(place))
                            && along.is_some_and(|along| along.dot(way) > 1.0 - 1e-6)
                            && on(&foundation.cutting_line, line.end)
                    });
                    assert!(carried, "{name} {}{}: the line ends on the outline", variant.mark, k + 1);
                    seen += 1;
                }
            }
        }
    }
    assert!(seen > 200, "{seen}");
}

#[test]
fn only_what_the_paper_cannot_hold_is_printed_in_parts_and_those_say_how_they_are_glued() {
    let mut seen = 0;
    for Sample { name, model, .. } in samples_at_sizes() {
        for (b, block) in model.blocks.iter().enumerate() {
            for (v, variant) in block.variants.iter().enumerate() {
                let printed = whole_or_parts(model, b, v);
                let split = needs_splitting(model, Bed::under(model).room(), b, v);
                assert_eq!(printed.len() > 1, split, "{name} {}", variant.mark);
                for part in printed.iter().filter(|_| split) {
                    let texts = || {
                        part.items.iter().filter_map(|item| if let Item::Text(text) = item { Some(text) } else { None })
                    };
                    let told = texts().map(|text| text.words.as_str()).collect::<Vec<_>>().join(" ");
                    let glued = told.contains("crosses on") || told.contains("thick grey");
                    assert!(glued, "{name} {} {:?}: {told}", variant.mark, part.part);
                    assert!(texts().filter(|t| t.words.contains("grey")).all(|t| t.colour == Colour::BLACK));
                    seen += 1;
                }
            }
        }
    }
    assert!(seen > 20, "{seen}");
}

#[test]
fn every_packet_is_laid_out_well() {
    let words = Words::english();
    // Both papers of a model are set at once: its figures are drawn once.
    let on_letter = samples_at_sizes().iter().filter(|sample| sample.model.paper == Paper::Letter);
    let german = Words::of("de").expect("German words");
    let testers = Brief { audience: Audience::Testers, ..Brief::default() };
    at_once(&on_letter.collect::<Vec<_>>(), |Sample { name, model, drawn, .. }| {
        let model = Model { papers: vec![Paper::Letter, Paper::A4], ..model.clone() };
        let packet = compose(&model, Brief::default(), &words, None, &mut |_| {});
        assert_eq!(packet.prints.len(), 2, "{name}: on Letter and on A4");
        assert_packet(name, &packet);
        assert_editions_last(name, &model.facts, &packet);
        if *drawn {
            for (language, words) in [("English", &words), ("German", &german)] {
                let name = format!("{name} for testers in {language}");
                let packet = compose(&model, testers, words, None, &mut |_| {});
                assert_packet(&name, &packet);
                assert_editions_last(&name, &model.facts, &packet);
            }
        }
    });
    let units = |units: Units| samples_at_sizes().iter().any(|sample| sample.drawn && sample.model.units == units);
    assert!(units(Units::Inches) && units(Units::Metric), "some in inches, some metric");
}

#[test]
fn every_section_is_named_on_paper() {
    for Sample { name, model, printing, .. } in samples_at_sizes() {
        let words: Vec<&str> =
            printing.sheets.iter().flat_map(|sheet| sheet.page.texts()).map(|text| text.words.as_str()).collect();
        for block in &model.blocks {
            for variant in block.variants.iter().filter(|variant| block.has_paper(variant)) {
                for k in 1..=variant.fabrics.len() {
                    let label = format!("{}{k}", variant.mark);
                    assert!(words.contains(&label.as_str()), "{name}: {label} stands on no sheet");
                }
            }
        }
    }
}

#[test]
fn the_same_source_gives_the_same_bytes_and_valid_json() {
    let schema: serde_json::Value =
        serde_json::from_str(include_str!("../docs/model.schema.json")).expect("the schema is JSON");
    let mut schemas = boon::Schemas::new();
    let mut compiler = boon::Compiler::new();
    compiler.add_resource("model.schema.json", schema).expect("a schema");
    let schema = compiler.compile("model.schema.json", &mut schemas).expect("a schema that compiles");
    for path in samples() {
        let text = fs::read_to_string(&path).expect("a readable sample");
        let once = || build(&stem(&path), &text, &Folder(patterns()), &Options::default(), &mut |_| {});
        let (first, second) = (once(), once());
        let artifacts = first.artifacts.expect("a sample builds");
        assert_eq!(Some(&artifacts), second.artifacts.as_ref(), "{}", path.display());
        let json = artifacts.iter().find(|made| made.path == "model.json").expect("a model");
        let json: serde_json::Value = serde_json::from_slice(&json.bytes).expect("valid JSON");
        if let Err(fault) = schemas.validate(&json, schema) {
            panic!("{}: {fault:#}", path.display());
        }
    }
}
