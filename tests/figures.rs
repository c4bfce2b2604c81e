//! What holds for the figures of every sample, narrow and wide.
//!
//! `FIGURES=folder cargo test --test figures -- --ignored` writes them as SVG files to look at.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

use piecewright::backend::svg;
use piecewright::geometry::{Length, Point, Polygon, Segment, Tolerance, Transform, Vector};
use piecewright::model::{self, Block, Model, Shape, Stretch, Unit, Variant};
use piecewright::packet::figure::{
    View, block_coloured, block_front, colouring_page, join_front, order_front, primer, unit_map,
};
use piecewright::packet::label::apart;
use piecewright::packet::page::{Colour, Item, Layer, Page, Path, Piece, Subpath};
use piecewright::packet::words::Words;
use piecewright::piecing;
use support::layout::{assert_laid_out, ink};
use support::{models_at, resolved, rounds, samples, stem};

/// As narrow as figures become in print, and as wide as they become on a screen.
const WIDTHS: [f64; 2] = [1.5, 3.5];

/// Every sample, and what has rings and inset corners, at the size it is drawn for, and small.
fn models() -> Vec<(String, Model)> {
    let mut all = Vec::new();
    for path in samples().into_iter().chain(rounds()) {
        let pattern = resolved(&path);
        let proof = piecing::prove(&pattern).expect("a sample can be sewn");
        let drawn = model::build(&pattern, &proof, 0).expect("the size it is drawn for");
        for model in std::iter::once(drawn).chain(models_at(&pattern, &[4.0])) {
            all.push((format!("{} {}", stem(&path), model.size), model));
        }
    }
    all
}

fn views<'m>(model: &'m Model, width: f64, words: &'m Words) -> impl Iterator<Item = View<'m>> {
    let view = move |block: &'m Block, variant: &'m Variant| View {
        model,
        block,
        variant,
        width: Length::inches(width),
        words,
    };
    model.blocks.iter().flat_map(move |block| block.variants.iter().map(move |variant| view(block, variant)))
}

/// All figures of a model but those of its steps, with names.
fn whole(model: &Model, width: f64, words: &Words) -> Vec<(String, Page)> {
    let width = Length::inches(width);
    let mut all = Vec::new();
    for (b, block) in model.blocks.iter().enumerate() {
        let colouring: Vec<(usize, usize)> = (0..model.fabrics.len()).zip((0..model.fabrics.len()).rev()).collect();
        all.push((format!("{b}-front"), block_front(model, block, width, words)));
        all.push((format!("{b}-coloured"), block_coloured(model, block, &colouring, width, words)));
        all.push((format!("{b}-colouring"), colouring_page(model, block, width, words)));
        all.push((format!("{b}-map"), unit_map(model, block, width, words)));
        for (j, pass) in block.passes().into_iter().enumerate() {
            all.push((format!("{b}-join-{}", j + 1), join_front(model, block, pass, width, words)));
            all.extend(
                order_front(model, block, pass, width, words).map(|page| (format!("{b}-order-{}", j + 1), page)),
            );
        }
    }
    all
}

fn steps(view: &View<'_>) -> Vec<(String, Page)> {
    if !view.block.has_paper(view.variant) {
        return vec![(format!("{}-plain", view.variant.mark), view.plain_piece())];
    }
    let sections = 0..view.variant.fabrics.len();
    let both = |k: usize| {
        let name = format!("{}{}", view.variant.mark, k + 1);
        [(format!("{name}-printed"), view.step_printed(k)), (format!("{name}-front"), view.step_front(k))]
    };
    let strips = (0..view.variant.fabrics.len())
        .filter_map(|k| Some((format!("{}{}-strips", view.variant.mark, k + 1), view.strips(k)?)));
    sections
        .flat_map(both)
        .chain(strips)
        .chain([(format!("{}-foundation", view.variant.mark), view.foundation_reduced())])
        .collect()
}

#[test]
fn words_neither_collide_nor_leave_their_figure() {
    let words = Words::english();
    for (name, model) in models() {
        for width in WIDTHS {
            let of_steps = views(&model, width, &words).flat_map(|view| steps(&view));
            for (figure, page) in whole(&model, width, &words).into_iter().chain(of_steps) {
                assert_laid_out(&format!("{name} {figure} at {width} in"), &page, 0.0);
                assert_eq!(page.width, Length::inches(width), "{name} {figure}");
                assert!(page.height <= Length::inches(width * 1.6), "{name} {figure} at {width} in is too high");
            }
        }
    }
    for width in WIDTHS {
        for page in primer(Length::inches(width), &words) {
            assert_laid_out(&format!("primer at {width} in"), &page, 0.0);
        }
    }
}

#[test]
fn figures_say_what_they_show_each_in_its_own_words() {
    let words = Words::english();
    for (name, model) in models() {
        for block in &model.blocks {
            let mut told = BTreeSet::new();
            let view = |variant| View { model: &model, block, variant, width: Length::inches(1.7), words: &words };
            for (figure, page) in block.variants.iter().flat_map(|variant| steps(&view(variant))) {
                assert!(page.description.len() > 40, "{name} {figure}: {}", page.description);
                assert!(!page.description.contains("  "), "{name} {figure}: {}", page.description);
                assert!(told.insert(page.description.clone()), "{name} {figure}: {} is said twice", page.description);
            }
        }
        let all = whole(&model, 1.7, &words);
        for (figure, page) in &all {
            assert!(page.description.len() > 40, "{name} {figure}: {}", page.description);
        }
    }
    let told: BTreeSet<String> = primer(Length::inches(1.7), &words).into_iter().map(|page| page.description).collect();
    assert_eq!(told.len(), 8, "{told:?}");
}

/// The stretches that are drawn with the widest pen, bold as only the seam of a step is: one, or two where the figure is broken off between.
fn bold_line(page: &Page) -> Vec<Segment> {
    let bold = page.items.iter().find_map(|item| match item {
        Item::Path(Path { subpaths, stroke: Some(stroke), fill: None, .. })
            if (stroke.width.to_points() - 2.0).abs() < 1e-9 =>
        {
            Some(subpaths)
        }
        _ => None,
    });
    let line = |subpath: &Subpath| match subpath.pieces.as_slice() {
        [Piece::Line(end)] => Segment::new(subpath.start, *end),
        _ => panic!("{}: the line is straight", page.title),
    };
    bold.into_iter().flatten().map(line).collect()
}

/// Where the line of a section is stitched, in the unit's frame.
fn stitched(unit: &Unit, seam: Segment) -> Segment {
    let near = Tolerance::of_extent(10.0);
    let line = seam.line().expect("a seam has length");
    let fold = unit.cutting_line.chord(line, near).expect("a seam lies on its paper");
    let on_outline = |end: Point| unit.outline.edges().any(|edge| near.is_zero(edge.distance(end)));
    // Three stitches on where the line ends within the unit.
    let past = line.direction() * (4.5 / 25.4);
    let start = if on_outline(seam.start) { fold.start } else { seam.start + -past };
    Segment::new(start, if on_outline(seam.end) { fold.end } else { seam.end + past })
}

/// The corners of the outlines that are drawn in these dashes, in printer's points.
fn dashed_outlines(page: &Page, dashes: &[f64]) -> Vec<Vec<Point>> {
    let drawn = page.items.iter().find_map(|item| match item {
        Item::Path(Path { subpaths, stroke: Some(stroke), .. })
            if stroke.dashes.iter().map(|dash| dash.to_points().round()).eq(dashes.iter().copied()) =>
        {
            Some(subpaths)
        }
        _ => None,
    });
    drawn.into_iter().flatten().map(|subpath| subpath.places().collect()).collect()
}

/// The corners of the only outline that is drawn in these dashes.
fn dashed(page: &Page, dashes: &[f64]) -> Option<Vec<Point>> {
    dashed_outlines(page, dashes).into_iter().next()
}

#[test]
fn the_line_of_a_step_is_level_with_the_new_section_above_and_the_piece_beneath_is_the_models() {
    let words = Words::english();
    let (mut seen, mut broken) = (0, 0);
    for (name, model) in models() {
        for view in views(&model, 3.0, &words) {
            let unit = view.block.unit_of(view.variant);
            for (k, section) in unit.sections.iter().enumerate() {
                let Some(seam) = section.seam else { continue };
                let page = view.step_printed(k);
                let bold = bold_line(&page);
                let (Some(drawn), Some(last)) = (bold.first().copied(), bold.last()) else {
                    panic!("{name} {}: no line", page.title)
                };
                assert!((drawn.start.y - last.end.y).abs() < 1e-9, "{name} {}: {bold:?} is not level", page.title);
                let named = page.texts().into_iter().any(|text| text.words == page.title);
                assert!(named, "{name} {}: the section is not named", page.title);

                // The map from the unit to the page, found again from the seam: the hand and two places decide it.
                let hand = if view.variant.mirrored { 1.0 } else { -1.0 };
                let line = seam.line().expect("a seam has length");
                let above = if line.distance_right(section.polygon.centroid()) > 0.0 { 1.0 } else { -1.0 };
                // Broken off across the line, or across the piece.
                if bold.len() > 1 || dashed_outlines(&page, &[4.0, 2.0]).len() > 1 {
                    broken += 1;
                    continue;
                }
                let stitched = stitched(unit, seam);
                let scale = drawn.length() / stitched.length();
                // Along the line to the right as seen, and up from it, in the unit's frame.
                let up = line.direction().quarter_turned() * above;
                let right = up.quarter_turned() * hand;
                let start = [drawn.start, drawn.end].into_iter().min_by(|a, b| a.x.total_cmp(&b.x)).expect("two ends");
                let ends = [stitched.start, stitched.end].map(|end| (end - seam.start).dot(right));
                let (left, page_left) = (ends[0].min(ends[1]), start.x);
                let place = |p: Point| {
                    let from = p - seam.start;
                    Point::new(page_left + (from.dot(right) - left) * scale, start.y - from.dot(up) * scale)
                };
                let cut = view.variant.cuts.iter().find(|cut| cut.section == k).expect("a cut");
                let width = (cut.corners[1] - cut.corners[0]).unit().expect("a cut has width");
                let along = line.direction().dot(width).abs();
                // Within half a degree it is laid along the line.
                if along > 0.008_7 && along < 0.999_96 {
                    continue;
                }
                let mirror = Transform::mirror(line);
                let beneath = dashed(&page, &[4.0, 2.0]).expect("the piece is drawn");
                for &corner in &cut.corners {
                    let expected = place(mirror.apply(corner));
                    let nearest = beneath.iter().map(|c| c.distance(expected)).fold(f64::INFINITY, f64::min);
                    assert!(nearest < 1e-3, "{name} {}: {expected:?} is no corner of {beneath:?}", page.title);
                }
                // It reaches past the ends of the line as the step says, left at the left.
                let [reach_left, reach_right] = cut.overhang.expect("a seam has ends");
                let (from, to) =
                    beneath.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), c| (a.min(c.x), b.max(c.x)));
                let ends = [place(seam.start).x, place(seam.end).x];
                let (seam_left, seam_right) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
                let past = |drawn: f64, told: Length| (drawn - told.to_inches() * scale).abs() < 2e-3;
                // A piece that is laid within half a degree of its line is not quite a level box.
                // Nor is one whose ends slant.
                let level = !(1e-6..=1.0 - 1e-9).contains(&along) && cut.shape == Shape::Rectangle;
                let good = past(seam_left - from, reach_left) && past(to - seam_right, reach_right);
                assert!(!level || good, "{name} {}: it reaches past the ends as told", page.title);
                // Its edge lies one allowance past the line, on the side of the new section, and all the rest below.
                let top = beneath.iter().map(|c| c.y).fold(f64::INFINITY, f64::min);
                assert!((start.y - top - model.allowance.to_inches() * scale).abs() < 1e-3, "{name} {}", page.title);
                seen += 1;
            }
        }
    }
    assert!(seen > 100 && broken > 3, "{seen} {broken}");
}

#[test]
fn no_label_of_a_step_is_struck_through() {
    let words = Words::english();
    for (name, model) in models() {
        for view in WIDTHS.iter().flat_map(|&width| views(&model, width, &words)) {
            for k in 1..view.variant.fabrics.len() {
                let page = view.step_printed(k);
                let half = Vector::new(0.0, 1.0 / 72.0);
                let piece = dashed_outlines(&page, &[4.0, 2.0]);
                for text in page.texts() {
                    let inked = ink(text);
                    for Segment { start, end } in bold_line(&page) {
                        let clear = apart(&inked, &[start + half, end + half, end + -half, start + -half], 0.0);
                        assert!(clear, "{name} {}: the line runs through “{}”", page.title, text.words);
                    }
                    let grounded = page.items.iter().any(|item| match item {
                        Item::Path(path) if path.fill == Some(Colour::WHITE) && path.layer == Layer::Marks => {
                            let ground: Vec<Point> = path.subpaths.iter().flat_map(Subpath::places).collect();
                            let ground = Polygon::hull(ground, Tolerance::of_extent(1.0));
                            ground.is_some_and(|ground| {
                                inked.iter().all(|corner| ground.distance_outside(*corner) < 1e-6)
                            })
                        }
                        _ => false,
                    });
                    let clear = piece
                        .iter()
                        .flat_map(|corners| corners.iter().zip(corners.iter().cycle().skip(1)))
                        .all(|(&a, &b)| a.distance(b) < 1e-6 || apart(&inked, &[a, b], 0.0));
                    assert!(clear || grounded, "{name} {}: “{}” is struck through", page.title, text.words);
                }
            }
        }
    }
}

#[test]
fn joins_tell_lengths_and_places_of_one_unit_are_told_apart() {
    let words = Words::english();
    let accent = Colour([176, 58, 46]);
    let (mut lengths, mut told, mut several, mut named) = (0, 0, 0, 0);
    for path in samples() {
        let pattern = resolved(&path);
        let proof = piecing::prove(&pattern).expect("a sample can be sewn");
        let model = model::build(&pattern, &proof, 0).expect("the size it is drawn for");
        for block in &model.blocks {
            let unit = |place: usize| block.variants[block.placements[place].variant].unit;
            let places = 0..block.placements.len();
            let of_several = |&place: &usize| places.clone().filter(|&other| unit(other) == unit(place)).count() > 1;
            let written = |page: &Page, name: &str| page.texts().iter().any(|text| text.words == name);
            let map = unit_map(&model, block, Length::inches(3.4), &words);
            for place in places.clone().filter(of_several) {
                let name = &block.placements[place].name;
                assert!(written(&map, name), "{}: {name} does not stand on the map", block.name);
            }
            for pass in block.passes().into_iter().filter(|pass| pass.stretch == Stretch::Whole) {
                let join = &block.joins[pass.join];
                let page = join_front(&model, block, pass, Length::inches(1.7), &words);
                lengths += join.match_points.len() + join.tips.len();
                told += page.texts().iter().filter(|text| text.colour == accent).count();
                for place in join.left.iter().chain(&join.right).filter(|place| of_several(place)) {
                    several += 1;
                    named += usize::from(written(&page, &block.placements[*place].name));
                }
            }
        }
    }
    assert!(
        lengths > 100 && told + 3 >= lengths,
        "{told} of {lengths} lengths find a place, narrow as the figures are"
    );
    assert!(named * 10 > several * 8, "{named} of {several} places are named");
}

#[test]
fn every_section_is_named_on_the_map() {
    let words = Words::english();
    for (name, model) in models() {
        for block in &model.blocks {
            let page = unit_map(&model, block, Length::inches(3.2), &words);
            let texts = page.texts();
            for place in &block.placements {
                let variant = &block.variants[place.variant];
                if !block.has_paper(variant) {
                    let told = |words: &str| texts.iter().any(|text| text.words == words);
                    assert!(told(&variant.mark) && !told(&format!("{}1", variant.mark)), "{name}: {}", variant.mark);
                    continue;
                }
                for k in 1..=variant.fabrics.len() {
                    let label = format!("{}{k}", variant.mark);
                    let there = texts.iter().filter(|text| text.words == label).count();
                    let wanted = block.placements.iter().filter(|other| other.variant == place.variant).count();
                    assert_eq!(there, wanted, "{name} {}: {label}", block.name);
                }
            }
        }
    }
}

#[test]
fn a_join_shows_its_points_on_both_edges() {
    let words = Words::english();
    let near = Tolerance::of_extent(1.0);
    let mut seen = 0;
    for (name, model) in models() {
        for block in &model.blocks {
            for pass in block.passes().into_iter().filter(|pass| pass.stretch == Stretch::Whole) {
                let join = &block.joins[pass.join];
                let page = join_front(&model, block, pass, Length::inches(3.0), &words);
                let filled: Vec<usize> = page
                    .items
                    .iter()
                    .filter_map(|item| match item {
                        Item::Path(path) if path.fill.is_some() && path.stroke.is_some() => Some(path),
                        _ => None,
                    })
                    .filter(|path| path.subpaths.iter().all(|s| matches!(s.pieces.first(), Some(Piece::Curve(..)))))
                    .map(|path| path.subpaths.len())
                    .collect();
                if !join.match_points.is_empty() {
                    assert_eq!(filled.first(), Some(&(join.match_points.len() * 2)), "{name} {}", page.title);
                }
                if !join.tips.is_empty() {
                    assert!(filled.last().is_some_and(|open| *open >= join.tips.len()), "{name} {}", page.title);
                }
                // The two bold edges are as long as each other, and plainly apart.
                let edges: Vec<Vec<Point>> = page
                    .items
                    .iter()
                    .filter_map(|item| match item {
                        Item::Path(Path { subpaths, stroke: Some(stroke), .. })
                            if (stroke.width.to_points() - 2.0).abs() < 1e-9 =>
                        {
                            Some(subpaths.iter().map(|s| s.places().collect()))
                        }
                        _ => None,
                    })
                    .flatten()
                    .collect();
                let [a, b] = edges.as_slice() else { panic!("{name} {}: two edges", page.title) };
                assert!(near.is_zero(a[0].distance(a[1]) - b[0].distance(b[1])));
                assert!(a[0].distance(b[0]) >= 0.18, "{name} {}", page.title);
                seen += 1;
            }
        }
    }
    assert!(seen > 10);
}

#[test]
#[ignore = "writes files to look at"]
fn write_figures() {
    let folder = PathBuf::from(std::env::var_os("FIGURES").expect("a folder"));
    let words = Words::english();
    let write = |name: String, page: &Page| {
        fs::create_dir_all(&folder).expect("a folder");
        fs::write(folder.join(name + ".svg"), svg::draw(page)).expect("a figure");
    };
    let wanted = std::env::var("SAMPLE").unwrap_or_default();
    for path in samples().into_iter().filter(|path| stem(path).contains(&wanted)) {
        let pattern = resolved(&path);
        let proof = piecing::prove(&pattern).expect("a sample can be sewn");
        let model = model::build(&pattern, &proof, 0).expect("a size");
        for width in [1.7, 3.2] {
            let of_steps = views(&model, width, &words).flat_map(|view| steps(&view));
            for (figure, page) in whole(&model, width, &words).into_iter().chain(of_steps) {
                write(format!("{}-{width}-{figure}", stem(&path)), &page);
            }
        }
    }
    for width in [1.7, 3.2] {
        for (k, page) in primer(Length::inches(width), &words).iter().enumerate() {
            write(format!("primer-{width}-{}", k + 1), page);
        }
    }
}
