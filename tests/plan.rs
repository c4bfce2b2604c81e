//! The planner against a search of its own kind: whatever is planned needs no more papers than any way of sewing.
//!
//! The search here knows nothing of lines and cuts. It lays patches down one by one, as one sews: a piece goes on where its edge lies along the whole
//! of an edge of what is there, and what then lies there must be whole again (convex, without a gap). Groups are joined the same way.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

#[path = "support/dice.rs"]
mod dice;
mod support;

use std::fmt::Write as _;

use dice::Dice;
use piecewright::geometry::{Line, Point, Polygon, Tolerance, Vector};
use piecewright::piecing::plan::{BUDGET, NoPlan, plan};

fn tolerance() -> Tolerance {
    Tolerance::of_extent(12.0)
}

/// A square cut again and again: each time one patch, by a line across it, none of them slivers.
fn tree_of_cuts(seed: u64, count: usize) -> Vec<Polygon> {
    let mut dice = Dice(seed);
    let mut patches = vec![Polygon::rectangle(Point::new(0.0, 0.0), Point::new(12.0, 12.0)).unwrap()];
    let mut tries = 0;
    while patches.len() < count && tries < 10_000 {
        tries += 1;
        // A whole group of neighbours may be cut too: cutting all patches on one line makes match points.
        let at = dice.below(patches.len());
        let corners = patches[at].corners();
        let (i, j) = (dice.below(corners.len()), dice.below(corners.len()));
        if i == j {
            continue;
        }
        let on = |k: usize, share: f64| corners[k].along(corners[(k + 1) % corners.len()], share);
        // Often from corner to corner or to the middle of an edge: there seams of different cuts meet.
        let shares = [0.0, 0.5, 0.3 + 0.4 * dice.roll()];
        let (a, b) = (on(i, shares[dice.below(3)]), on(j, shares[dice.below(3)]));
        let Some(line) = Line::through(a, b) else { continue };
        let (Some(left), Some(right)) = patches[at].cut(line, tolerance()) else { continue };
        if left.area().min(right.area()) > 0.4 && left.width().min(right.width()) > 0.3 {
            patches[at] = left;
            patches.push(right);
        }
    }
    patches
}

/// Cells of a grid, each plain, cut once, cut twice, or a flying goose.
fn grid(seed: u64, columns: u32, rows: u32) -> Vec<Polygon> {
    let mut dice = Dice(seed);
    let mut patches = Vec::new();
    for row in 0..rows {
        for column in 0..columns {
            let at = |x: f64, y: f64| Point::new(f64::from(column) + x, f64::from(row) + y);
            let cell = [at(0.0, 0.0), at(1.0, 0.0), at(1.0, 1.0), at(0.0, 1.0)];
            let of = |corners: &[Point]| Polygon::try_new(corners, tolerance()).unwrap();
            let turn = dice.below(4);
            let corner = |k: usize| cell[(k + turn) % 4];
            match dice.below(4) {
                0 => patches.push(of(&cell)),
                1 => patches.extend([of(&[corner(0), corner(1), corner(2)]), of(&[corner(0), corner(2), corner(3)])]),
                2 => patches.extend((0..4).map(|k| of(&[corner(k), corner(k + 1), at(0.5, 0.5)]))),
                _ => {
                    let top = corner(0).middle(corner(1));
                    patches.extend([
                        of(&[corner(0), top, corner(3)]),
                        of(&[top, corner(2), corner(3)]),
                        of(&[top, corner(1), corner(2)]),
                    ]);
                }
            }
        }
    }
    patches
}

/// What lies there when two areas are sewn together: whole again only if an edge of each lies along the whole edge of the other.
fn sewn(there: &Polygon, piece: &Polygon) -> Option<Polygon> {
    for edge in there.edges() {
        let line = edge.line()?;
        // Flipped open, the piece lies on the far side of the line, and nothing of it on this one.
        let beyond = piece.corners().iter().all(|corner| line.distance_right(*corner) <= tolerance().distance());
        let along = piece.edges().find(|other| {
            let near = |a: Point, b: Point| a.distance(b) <= 2.0 * tolerance().distance();
            near(other.start, edge.end) && near(other.end, edge.start)
        });
        if beyond && along.is_some() {
            let outline = Polygon::hull(there.corners().iter().chain(piece.corners()).copied(), tolerance())?;
            let whole = (outline.area() - there.area() - piece.area()).abs() <= 1e-6 * outline.area();
            return whole.then_some(outline);
        }
    }
    None
}

/// The fewest papers by trying every way of sewing, for up to twelve patches; none where no way sews all.
fn fewest_papers(patches: &[Polygon]) -> Option<u32> {
    assert!(patches.len() <= 12);
    let all = (1_usize << patches.len()) - 1;
    // What each set of patches looks like when it is sewn together, and with how many papers at the least.
    let mut units: Vec<Option<Polygon>> = vec![None; all + 1];
    let mut groups: Vec<Option<(u32, Polygon)>> = vec![None; all + 1];
    for (k, patch) in patches.iter().enumerate() {
        units[1 << k] = Some(patch.clone());
    }
    // Larger sets have larger numbers than their parts.
    for set in 1..=all {
        if let Some(there) = units[set].clone() {
            for (k, piece) in patches.iter().enumerate().filter(|(k, _)| set & (1 << k) == 0) {
                let larger = set | (1 << k);
                if units[larger].is_none() {
                    units[larger] = sewn(&there, piece);
                }
            }
            groups[set] = Some((1, there));
        }
        // Every way to divide the set in two; each pair once.
        let lowest = set & set.wrapping_neg();
        let mut part = (set - 1) & set;
        while part > 0 {
            if part & lowest != 0
                && let (Some((a, left)), Some((b, right))) = (&groups[part], &groups[set ^ part])
            {
                let papers = a + b;
                if groups[set].as_ref().is_none_or(|(best, _)| papers < *best)
                    && let Some(outline) = sewn(left, right)
                {
                    groups[set] = Some((papers, outline));
                }
            }
            part = (part - 1) & set;
        }
    }
    groups[all].as_ref().map(|(papers, _)| *papers)
}

fn papers(patches: &[Polygon]) -> Option<u32> {
    match plan(patches, tolerance(), &|_| 1, BUDGET) {
        Ok(plan) => {
            assert!(plan.proved, "{} patches are within the budget", patches.len());
            let mut all: Vec<usize> = plan.tree.units().concat();
            all.sort_unstable();
            assert_eq!(all, (0..patches.len()).collect::<Vec<_>>(), "each patch is in one unit");
            assert_eq!(u32::try_from(plan.tree.units().len()), Ok(plan.cost.papers));
            for unit in plan.tree.units() {
                assert_sewn_in_order(patches, unit);
            }
            Some(plan.cost.papers)
        }
        Err(NoPlan::Stuck(_)) => None,
        Err(NoPlan::TooMany(many)) => panic!("{many} patches"),
    }
}

/// A unit goes on piece by piece in the order of its plan.
fn assert_sewn_in_order(patches: &[Polygon], unit: &[usize]) {
    let mut there = patches[unit[0]].clone();
    for &next in &unit[1..] {
        there = sewn(&there, &patches[next]).unwrap_or_else(|| panic!("{next} of {unit:?} does not go on"));
    }
}

#[test]
fn no_way_of_sewing_a_tree_of_cuts_needs_fewer_papers() {
    let mut different = std::collections::BTreeSet::new();
    for seed in 1..=200 {
        let patches = tree_of_cuts(seed, 10 + usize::try_from(seed % 3).unwrap());
        let planned = papers(&patches).expect("what was cut can be joined");
        assert_eq!(Some(planned), fewest_papers(&patches), "seed {seed}");
        different.insert(planned);
    }
    assert!(different.len() > 2, "the drawings differ: {different:?}");
}

#[test]
fn no_way_of_sewing_a_small_grid_needs_fewer_papers() {
    for seed in 1..=60 {
        let patches = grid(seed, 2, 2);
        if patches.len() <= 12 {
            let planned = papers(&patches).expect("a grid can be joined");
            assert_eq!(Some(planned), fewest_papers(&patches), "seed {seed}");
        }
    }
}

#[test]
fn large_trees_of_cuts_are_planned_and_every_unit_goes_on_piece_by_piece() {
    for seed in 1..=20 {
        let count = 10 + usize::try_from(seed).unwrap() * 5;
        let patches = tree_of_cuts(1_000 + seed, count);
        assert_eq!(patches.len(), count, "seed {seed}");
        assert!(papers(&patches).is_some(), "seed {seed}: what was cut can be joined");
    }
}

#[test]
fn a_convex_part_never_needs_more_papers_than_the_whole() {
    for seed in 1..=60 {
        let patches = tree_of_cuts(2_000 + seed, 18);
        let whole = papers(&patches).expect("what was cut can be joined");
        // Parts that straight cuts leave: all patches on one side of a line along an edge that runs through none.
        for line in patches.iter().flat_map(Polygon::edges).filter_map(piecewright::geometry::Segment::line) {
            let sides: Vec<_> = patches.iter().map(|patch| patch.side(line, tolerance())).collect();
            if sides.iter().any(Option::is_none) {
                continue;
            }
            for side in [piecewright::geometry::Side::Left, piecewright::geometry::Side::Right] {
                let part: Vec<Polygon> =
                    patches.iter().zip(&sides).filter(|(_, of)| **of == Some(side)).map(|(p, _)| p.clone()).collect();
                if !part.is_empty() {
                    assert!(papers(&part).expect("a part can be joined") <= whole, "seed {seed}");
                }
            }
        }
    }
}

#[test]
fn rings_are_stuck_for_both() {
    let rectangle = |x: f64, y: f64, width: f64, height: f64| {
        Polygon::rectangle(Point::new(x, y), Point::new(x, y) + Vector::new(width, height)).unwrap()
    };
    let ring = |x: f64| {
        vec![
            rectangle(x + 1.0, 1.0, 1.0, 1.0),
            rectangle(x, 0.0, 2.0, 1.0),
            rectangle(x + 2.0, 0.0, 1.0, 2.0),
            rectangle(x + 1.0, 2.0, 2.0, 1.0),
            rectangle(x, 1.0, 1.0, 2.0),
        ]
    };
    assert_eq!((papers(&ring(0.0)), fewest_papers(&ring(0.0))), (None, None));
    let two: Vec<Polygon> = ring(0.0).into_iter().chain(ring(3.0)).collect();
    let Err(NoPlan::Stuck(stuck)) = plan(&two, tolerance(), &|_| 1, BUDGET) else { panic!("two rings are stuck") };
    assert_eq!(stuck, [vec![0, 1, 2, 3, 4], vec![5, 6, 7, 8, 9]], "both are told");
}

/// A source of one block that states the units and joins of a plan.
fn pasted(pattern: &piecewright::pattern::Pattern, block: &piecewright::pattern::Block, notation: &str) -> String {
    let (_, to) = block.outline.bounds();
    let path = |polygon: &Polygon| {
        polygon.corners().iter().map(|p| format!("{:.9}, {:.9}", p.x, p.y)).collect::<Vec<_>>().join(" -- ")
    };
    let mut text = format!("pattern \"Pasted\"\nedition \"1\"\nfinished {:.6} in x {:.6} in\n", to.x, to.y);
    for fabric in &pattern.fabrics {
        let [r, g, b] = fabric.colour;
        let _ = writeln!(text, "fabric {} \"{}\" #{r:02x}{g:02x}{b:02x}", fabric.key, fabric.name);
    }
    text + &format!("block pasted {:.9} x {:.9} {{\n  outline {}\n{notation}}}\n", to.x, to.y, path(&block.outline))
}

#[test]
fn the_plan_of_every_sample_can_be_pasted_and_takes_as_many_papers_as_it_says() {
    let mut fewer = 0;
    for path in support::samples() {
        let pattern = support::resolved(&path);
        let text = std::fs::read_to_string(&path).expect("a readable sample");
        let planned = piecewright::plan(&support::stem(&path), &text, &support::Folder(support::patterns()));
        assert_eq!(planned.plans.len(), pattern.blocks.len(), "{}", path.display());
        for (block, plan) in pattern.blocks.iter().zip(&planned.plans) {
            assert!(plan.proved, "{}: {}", path.display(), plan.block);
            if let Some(own) = plan.own {
                assert!(plan.papers <= own, "{}: no author needs fewer papers than the best plan", plan.block);
                fewer += own - plan.papers;
            }
            let source = pasted(&pattern, block, &plan.notation);
            let checked = piecewright::check("pasted.piece", &source, &support::Bare);
            assert!(checked.ok(), "{}: {:?}\n{source}", plan.block, checked.faults);
            let model = checked.model.expect("a model");
            support::laws::check_laws(&plan.block, &model);
            let block = &model.blocks[0];
            assert_eq!(block.placements.len(), plan.papers as usize, "{}", plan.block);
            let points: usize = block.joins.iter().map(|join| join.match_points.len()).sum();
            assert_eq!(points, plan.match_points as usize, "{}", plan.block);
        }
    }
    assert!(fewer > 0, "some sample could do with fewer papers");
}

/// A square with so many rings of bricks in it, drawn with seams; each ring turns its own way.
fn rings(seed: u64, count: u32) -> String {
    let mut dice = Dice(seed);
    let wide = 8 * count;
    let mut text = String::from("pattern \"Rings\"\nedition \"1\"\nfinished 12 in x 12 in\n");
    text = text.replace("12 in x 12 in", &format!("{wide} in x 8 in"));
    text += "fabric sea \"Sea\" #6b9db8\nfabric sky \"Sky\" #a9cbe0\n";
    let _ = writeln!(text, "block rings {wide} x 8 {{");
    for ring in 0..count {
        let left = f64::from(8 * ring);
        let mut at = || 2.0 + dice.roll();
        let (a, b, c, d) = (left + at(), 8.0 - at(), left + 8.0 - at(), at());
        if ring > 0 {
            let _ = writeln!(text, "  seam upright {left}");
        }
        let right = left + 8.0;
        let _ = writeln!(text, "  seam {a}, 0 -- {a}, {b}\n  seam {left}, {b} -- {c}, {b}");
        let _ = writeln!(text, "  seam {c}, {d} -- {c}, 8\n  seam {a}, {d} -- {right}, {d}");
        for (x, y) in [(left + 4.0, 4.0), (left + 0.5, 0.5), (right - 0.5, 0.5), (right - 0.5, 7.5), (left + 0.5, 7.5)]
        {
            let _ = writeln!(text, "  patch {} around {x}, {y}", if dice.below(2) == 0 { "sea" } else { "sky" });
        }
    }
    text + "}\n"
}

#[test]
fn the_cure_of_rings_can_be_pasted_and_frees_them() {
    for seed in 1..=20 {
        for count in [1, 2] {
            let text = rings(seed, count);
            let checked = piecewright::check("rings.piece", &text, &support::Bare);
            let fault = checked.faults.first().unwrap_or_else(|| panic!("seed {seed}: rings are stuck\n{text}"));
            assert_eq!(fault.code.slug(), "cannot-plan", "seed {seed}: {fault:?}\n{text}");
            let fix = fault.fixes.first().expect("a cure");
            assert_eq!(fix.edits.len(), count as usize, "seed {seed}: one brick of each ring is divided");
            let mut edits = fix.edits.clone();
            edits.sort_by_key(|(span, _)| std::cmp::Reverse(span.range().start));
            let mut cured = text.clone();
            for (span, lines) in edits {
                cured.replace_range(span.range(), &lines);
            }
            let checked = piecewright::check("cured.piece", &cured, &support::Bare);
            assert!(checked.ok(), "seed {seed}: {:?}\n{cured}", checked.faults);
            support::laws::check_laws("cured", &checked.model.expect("a model"));
        }
    }
}
