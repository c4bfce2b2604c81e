//! What holds for all that is cut from cloth. Written from the definitions, not from the code that makes the plans.

use piecewright::geometry::{Length, Point, Polygon, Tolerance};
use piecewright::model::{
    Amount, Blank, FabricCutting, Fit, Model, PieceGroup, PrintDirection, Purchase, Shape, Stock, Strip,
};

/// A ten-thousandth of an inch is nothing to a cutter.
const NOTHING: f64 = 1e-4;

/// Asserts that every piece of every foundation is in the chart and in the strips, and that what is bought is enough.
pub fn check(name: &str, model: &Model) {
    let mut wanted = vec![0_u32; model.fabrics.len()];
    for variant in model.blocks.iter().flat_map(|block| &block.variants) {
        for cut in &variant.cuts {
            wanted[variant.fabric_of(cut.section, cut.strip).expect("every piece has a fabric")] += cut.count;
        }
    }
    for cutting in &model.cutting {
        let at = format!("{name} {}", model.fabrics[cutting.fabric].key);
        let counted: u32 = cutting.pieces.iter().map(|group| group.count).sum();
        let per_person = std::mem::take(&mut wanted[cutting.fabric]);
        assert_eq!(counted, per_person * model.people, "{at}: the chart has every piece");
        cutting.pieces.iter().for_each(|group| blanks_give_the_pieces(&at, group));
        strips_hold_the_blanks(&at, model, cutting);
        bounds_are_bounds(&at, cutting);
        enough_is_bought(&at, model, cutting);
    }
    assert!(wanted.iter().all(|&left| left == 0), "{name}: every fabric that is used is in the chart");
}

/// Every piece comes from a blank, and of halves and quarters no square could be spared.
fn blanks_give_the_pieces(at: &str, group: &PieceGroup) {
    if group.fit == Fit::Motif {
        assert!(group.blanks.is_empty(), "{at}: a motif is found in the print, not in a strip");
        return;
    }
    let given: u32 = group.blanks.iter().map(|blank| blank.count * blank.gives).sum();
    assert_eq!(given, group.count + group.left_over(), "{at} {}", group.label);
    let most = group.blanks.iter().map(|blank| blank.gives).max().expect("a blank");
    assert!(group.left_over() < most, "{at} {}: a blank could be spared", group.label);
    for blank in &group.blanks {
        blank_holds(at, group, *blank);
    }
}

/// The pieces that a blank gives lie in it side by side.
fn blank_holds(at: &str, group: &PieceGroup, blank: Blank) {
    let [width, height] = [group.width, group.height].map(Length::to_inches);
    let [wide, high] = [blank.width, blank.height].map(Length::to_inches);
    let near = Tolerance::of_extent(1.0);
    let polygon = |corners: &[(f64, f64)]| {
        let corners: Vec<Point> = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
        Polygon::hull(corners, near).expect("a piece has area")
    };
    let whole = polygon(&[(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)]);
    let one = match (group.shape, blank.gives) {
        (Shape::Rectangle, 1) => vec![polygon(&[(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)])],
        (Shape::HalfSquare, 2) => {
            assert!((width - height).abs() < NOTHING, "{at}: the side of a square");
            vec![
                polygon(&[(0.0, 0.0), (width, 0.0), (0.0, width)]),
                polygon(&[(width, width), (width, 0.0), (0.0, width)]),
            ]
        }
        (Shape::QuarterSquare, 4) => {
            assert!((width - height).abs() < NOTHING, "{at}: the side of a square");
            let corners = [(0.0, 0.0), (width, 0.0), (width, width), (0.0, width)];
            let middle = (width / 2.0, width / 2.0);
            (0..4).map(|k| polygon(&[corners[k], corners[(k + 1) % 4], middle])).collect()
        }
        (Shape::Trapezoid { trim }, gives @ (1 | 2)) => {
            // The edge along the seam below, trimmed where the trim is negative; the other edge above.
            let [left, right] = trim.map(Length::to_inches);
            let piece = [
                (0.0_f64.max(left), 0.0),
                (width - 0.0_f64.max(right), 0.0),
                (width - 0.0_f64.max(-right), height),
                (0.0_f64.max(-left), height),
            ];
            let turned = piece.map(|(x, y)| (width - x, height - y));
            // Each way of laying the second behind the first: as far along as keeps them apart.
            let mut both = vec![polygon(&piece)];
            if gives == 2 {
                let flipped = if right.abs() >= left.abs() { turned } else { piece };
                let first = if right.abs() >= left.abs() { piece } else { turned };
                let step = width - left.abs().max(right.abs());
                both = vec![polygon(&first), polygon(&flipped.map(|(x, y)| (x + step, y)))];
            }
            both
        }
        other => panic!("{at} {}: no blank gives {other:?}", group.label),
    };
    assert_eq!(one.len(), blank.gives as usize, "{at} {}", group.label);
    for (k, piece) in one.iter().enumerate() {
        assert!(whole.covers(piece, near), "{at} {}: a piece lies in its blank", group.label);
        for other in &one[k + 1..] {
            let both = piece.intersection(other, near).map_or(0.0, |both| both.area());
            assert!(both < NOTHING, "{at} {}: two pieces of a blank overlap", group.label);
        }
    }
}

/// Every blank lies in a strip, none over another, turned only where the print allows it; strips fit what they are cut from.
fn strips_hold_the_blanks(at: &str, model: &Model, cutting: &FabricCutting) {
    let mut laid: Vec<Vec<u32>> = cutting.pieces.iter().map(|group| vec![0; group.blanks.len()]).collect();
    lie_in(at, model, cutting, &cutting.strips, cutting.sheet.0, &mut laid);
    for (group, laid) in cutting.pieces.iter().zip(laid) {
        let wanted: Vec<u32> = group.blanks.iter().map(|blank| blank.count).collect();
        assert_eq!(laid, wanted, "{at} {}: every blank is laid", group.label);
    }
    let length: Length = cutting.strips.iter().map(|strip| strip.width).sum();
    assert!((length - cutting.length).to_inches().abs() < NOTHING, "{at}: the strips take {length:?}");
    let sheets = cutting.strips.iter().map(|strip| strip.sheet).max();
    let most = cutting.sheet.1.map_or(f64::INFINITY, |high| high.to_inches() / (1.0 + model.cloth.shrinkage));
    for sheet in 0..sheets.map_or(0, |last| last + 1) {
        let of_sheet = cutting.strips.iter().filter(|strip| strip.sheet == sheet);
        let high: Length = of_sheet.map(|strip| strip.width).sum();
        assert!(Length::ZERO < high, "{at}: no empty sheet");
        let single = cutting.strips.iter().filter(|strip| strip.sheet == sheet).count() == 1;
        assert!(high.to_inches() <= most + NOTHING || single, "{at}: strips fit their sheet");
    }
}

/// Counts what lies in strips, and asserts that it lies well.
pub fn lie_in(
    at: &str,
    model: &Model,
    cutting: &FabricCutting,
    strips: &[Strip],
    usable: Length,
    laid: &mut [Vec<u32>],
) {
    let print = model.fabrics[cutting.fabric].print;
    for strip in strips {
        let mut end = Length::ZERO;
        for piece in &strip.pieces {
            let blank = cutting.pieces[piece.group].blanks[piece.blank];
            let (along, across) = if piece.turned { (blank.height, blank.width) } else { (blank.width, blank.height) };
            let upright = piece.turned == print.across;
            assert!(print.direction == PrintDirection::None || upright, "{at}: a print stands upright in its strip");
            let inside = (piece.y + across).to_inches() <= strip.width.to_inches() + NOTHING;
            assert!(piece.x.to_inches() >= end.to_inches() - NOTHING && inside, "{at}: blanks lie in their strip");
            end = piece.x + along;
            laid[piece.group][piece.blank] += 1;
        }
        // A single piece that is longer than the fabric is wide is warned of, and lies in a strip of its own.
        let fits = end.to_inches() <= usable.to_inches() + NOTHING || strip.pieces.len() == 1;
        assert!(fits, "{at}: strips are no longer than the fabric is wide");
    }
}

/// The bound is none that the area of the blanks or the highest of them contradicts.
fn bounds_are_bounds(at: &str, cutting: &FabricCutting) {
    assert!(cutting.lower_bound.to_inches() <= cutting.length.to_inches() + NOTHING, "{at}");
    let all = || cutting.pieces.iter().flat_map(|group| &group.blanks);
    let area: f64 = all().map(|b| b.width.to_inches() * b.height.to_inches() * f64::from(b.count)).sum();
    let usable = cutting.sheet.0.to_inches();
    let fits = all().all(|blank| blank.width.to_inches().max(blank.height.to_inches()) <= usable);
    assert!(!fits || cutting.lower_bound.to_inches() >= area / usable - NOTHING, "{at}: no bound below the area's");
}

/// What is bought is the strips, washed and squared up.
fn enough_is_bought(at: &str, model: &Model, cutting: &FabricCutting) {
    let sheets = cutting.strips.iter().map(|strip| strip.sheet + 1).max().unwrap_or(0);
    let count = |count: u32| assert_eq!(count as usize, sheets, "{at}: as many as are cut up");
    match (cutting.buy.amount, &cutting.stock) {
        (Amount::Length(length), Stock::Bolt(widths)) => {
            let least = cutting.length * (1.0 + model.cloth.shrinkage) + model.cloth.squaring;
            let blank = cutting.strips.is_empty();
            assert!(blank || length.to_inches() >= least.to_inches() - NOTHING, "{at}: enough is bought");
            let others: Vec<Length> = cutting.other_widths.iter().map(|(width, _)| *width).collect();
            assert_eq!(others, widths[1..], "{at}: an amount for each width");
            let wider = cutting.other_widths.iter().filter(|(width, _)| *width >= widths[0]);
            for Purchase { amount, .. } in wider.map(|(_, buy)| *buy) {
                let Amount::Length(other) = amount else { panic!("{at}: off the bolt in another width too") };
                assert!(other <= length, "{at}: wider cloth takes no more");
            }
        }
        (Amount::FatQuarters(n), Stock::FatQuarters) | (Amount::FatEighths(n), Stock::FatEighths) => count(n),
        other => panic!("{at}: {other:?}"),
    }
}
