//! How pieces are cut, on every sample: each way of turning them and each shape obeys the laws, and does what it says.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use piecewright::geometry::{Length, Point, Polygon, Segment, Tolerance, Vector};
use piecewright::model::{self, Block, Cut, Model, PrintDirection, Shape, UnitKind, Variant};
use piecewright::pattern::{CutShape, CutWish, Lie, Pattern};
use piecewright::piecing;
use support::{laws::check_laws, resolved, samples, stem};

/// The models of all samples with all their pieces cut as wished.
fn cut_so(wish: CutWish) -> Vec<(String, Model)> {
    let model = |pattern: &Pattern| {
        let proof = piecing::prove(pattern).expect("a sample can be sewn");
        model::build(pattern, &proof, 0).expect("a size of the pattern")
    };
    let all = samples().into_iter().map(|path| {
        let pattern = Pattern { cut: wish, ..support::plainly_cut(resolved(&path)) };
        let name = format!("{} {wish:?}", stem(&path));
        (name, model(&pattern))
    });
    all.collect()
}

/// All cuts of sections on paper that are one piece of a fabric without direction, with what they belong to.
fn free_cuts(model: &Model) -> impl Iterator<Item = (&Block, &Variant, &Cut)> {
    model
        .blocks
        .iter()
        .flat_map(|block| block.variants.iter().map(move |variant| (block, variant)))
        .flat_map(|(block, variant)| {
            let paper = block.unit_of(variant).kind == UnitKind::Paper;
            variant.cuts.iter().filter(move |_| paper).map(move |cut| (block, variant, cut))
        })
        .filter(|(_, variant, cut)| {
            let fabric = variant.fabric_of(cut.section, cut.strip).expect("every piece has a fabric");
            cut.strip.is_none() && model.fabrics[fabric].print.direction == PrintDirection::None
        })
}

#[test]
fn every_way_of_cutting_obeys_the_laws() {
    for lie in Lie::ALL {
        for shape in CutShape::ALL {
            for (name, model) in cut_so(CutWish { lie: Some(lie), shape: Some(shape), ease: None }) {
                check_laws(&name, &model);
            }
        }
    }
}

#[test]
fn on_grain_is_upright_and_level_in_the_block() {
    let mut seen = 0;
    for (name, model) in cut_so(CutWish { lie: Some(Lie::OnGrain), ..CutWish::default() }) {
        for (block, variant, cut) in free_cuts(&model) {
            let places =
                block.placements.iter().filter(|place| std::ptr::eq(&raw const block.variants[place.variant], variant));
            let stands = |up: Vector| up.x.abs().min(up.y.abs()) < 1e-6;
            let fit = places.filter(|place| stands(place.transform.apply_to_vector(cut.up))).count();
            assert_eq!(
                u32::try_from(fit).expect("few") * block.copies,
                cut.count,
                "{name} {} {}",
                variant.id,
                cut.section + 1
            );
            seen += 1;
        }
    }
    assert!(seen > 50, "{seen}");
}

#[test]
fn outer_edges_on_grain_leave_none_of_a_square_block_on_the_bias() {
    let outer = |block: &Block, variant: &Variant, cut: &Cut| -> Vec<(usize, Segment)> {
        let section = &block.unit_of(variant).sections[cut.section].polygon;
        let near = Tolerance::of_extent(block.width.to_inches());
        let on = |edge: Segment| {
            let on_line =
                |outline: Segment| [edge.start, edge.end].iter().all(|&end| near.is_zero(outline.distance(end)));
            block.outline.edges().any(on_line)
        };
        let places =
            || block.placements.iter().filter(|place| std::ptr::eq(&raw const block.variants[place.variant], variant));
        let edges = section.edges().enumerate();
        edges.filter(|(_, edge)| places().any(|place| on(place.transform.apply_to_segment(*edge)))).collect()
    };
    let mut on_grain = 0;
    for shape in [CutShape::Rectangle, CutShape::Triangles] {
        for (name, model) in cut_so(CutWish { lie: Some(Lie::OuterEdges), shape: Some(shape), ease: None }) {
            for (block, variant, cut) in free_cuts(&model) {
                let edges = outer(block, variant, cut);
                let Some((_, longest)) = edges.iter().max_by(|a, b| a.1.length().total_cmp(&b.1.length())) else {
                    continue;
                };
                // Of edges that are equally long, one lies on the grain.
                let longest: Vec<usize> =
                    edges.iter().filter(|(_, edge)| edge.length() > longest.length() - 1e-6).map(|(k, _)| *k).collect();
                let free = longest.iter().any(|k| !cut.bias_edges.contains(k));
                assert!(free, "{name} {} {}: {longest:?} on the bias", variant.id, cut.section + 1);
                on_grain += 1;
            }
        }
    }
    assert!(on_grain > 100, "{on_grain}");
}

#[test]
fn least_cloth_takes_no_more_than_any_other_way() {
    let area = |cut: &Cut| cut.width.to_inches() * cut.height.to_inches();
    let least = cut_so(CutWish { lie: Some(Lie::LeastCloth), ..CutWish::default() });
    for lie in [Lie::AlongSeam, Lie::OnGrain, Lie::OuterEdges] {
        let other = cut_so(CutWish { lie: Some(lie), ..CutWish::default() });
        for ((name, least), (_, other)) in least.iter().zip(&other) {
            for (_, variant, cut) in free_cuts(least) {
                let others =
                    free_cuts(other).filter(|(_, of, cut_of)| of.id == variant.id && cut_of.section == cut.section);
                for (block, _, other) in others.filter(|(block, ..)| least.blocks.iter().any(|b| b.name == block.name))
                {
                    // A cut on the grain may happen to be smaller: its directions are those of no edge.
                    let spared = area(cut) - area(other);
                    assert!(lie == Lie::OnGrain || spared < 1e-6, "{name} {} {}: {spared}", block.name, variant.id);
                }
            }
        }
    }
}

#[test]
fn triangles_are_halves_or_quarters_and_nothing_else_is() {
    let mut halves_and_quarters = [0; 2];
    for (name, model) in cut_so(CutWish { shape: Some(CutShape::Triangles), ..CutWish::default() }) {
        for (block, variant, cut) in free_cuts(&model) {
            let section = &block.unit_of(variant).sections[cut.section].polygon;
            let right = is_right_isosceles(section);
            let at = format!("{name} {} {}", variant.id, cut.section + 1);
            match cut.shape {
                Shape::HalfSquare => halves_and_quarters[0] += 1,
                Shape::QuarterSquare => halves_and_quarters[1] += 1,
                _ => {}
            }
            assert_eq!(right, matches!(cut.shape, Shape::HalfSquare | Shape::QuarterSquare), "{at}: {section:?}");
        }
    }
    assert!(halves_and_quarters.iter().all(|&seen| seen > 0), "{halves_and_quarters:?}");
}

/// Two equal sides and the third √2 of them.
fn is_right_isosceles(section: &Polygon) -> bool {
    let mut sides: Vec<f64> = section.edges().map(Segment::length).collect();
    sides.sort_by(f64::total_cmp);
    let [a, b, c] = sides[..] else { return false };
    (b - a).abs() < 1e-3 * b && (c - a * std::f64::consts::SQRT_2).abs() < 2e-3 * c
}

#[test]
fn trapezoids_spare_cloth() {
    let plain = cut_so(CutWish::default());
    let trimmed = cut_so(CutWish { shape: Some(CutShape::Trapezoid), ..CutWish::default() });
    let mut seen = 0;
    for ((name, plain), (_, trimmed)) in plain.iter().zip(&trimmed) {
        for ((_, variant, plain), (_, _, trimmed)) in free_cuts(plain).zip(free_cuts(trimmed)) {
            let Shape::Trapezoid { trim } = trimmed.shape else { continue };
            seen += 1;
            let most = trim.map(|trim| trim.to_inches().abs()).into_iter().fold(0.0, f64::max);
            let each = (trimmed.width.to_inches() - most / 2.0) * trimmed.height.to_inches();
            assert!(each < plain.width.to_inches() * plain.height.to_inches(), "{name} {}", variant.id);
            assert_eq!(hands(&trimmed.corners), trim[0] == trim[1], "{name} {}: {trim:?}", variant.id);
        }
    }
    assert!(seen > 20, "{seen}");
}

/// Whether a trapezoid is its own mirror image: its slanting ends are equally long and lean toward each other.
fn hands(corners: &[Point]) -> bool {
    let [a, b, c, d] = corners else { panic!("four corners") };
    let way = (*b - *a).unit().expect("a width");
    let lean = [(*d - *a).dot(way), (*b - *c).dot(way)];
    (lean[0] - lean[1]).abs() < 1e-6
}

#[test]
fn ease_makes_a_cut_larger_on_every_side_but_the_seam() {
    let ease = |inches: f64| CutWish { ease: Some(Length::inches(inches)), ..CutWish::default() };
    let (snug, roomy) = (cut_so(ease(0.125)), cut_so(ease(0.5)));
    for ((name, snug), (_, roomy)) in snug.iter().zip(&roomy) {
        check_laws(name, snug);
        for ((_, variant, snug), (_, _, roomy)) in free_cuts(snug).zip(free_cuts(roomy)) {
            let more = (roomy.width - snug.width).to_inches();
            assert!((more - 0.75).abs() < 0.13, "{name} {}: {more} wider", variant.id);
            for (snug, roomy) in snug.slack.turn.iter().zip(&roomy.slack.turn) {
                assert!(roomy.to_degrees() >= snug.to_degrees() - 1e-9, "{name} {}", variant.id);
            }
        }
    }
}
