//! The planner against a search of its own kind: whatever is planned needs no more papers than any way of sewing.
//!
//! The search here knows nothing of lines and cuts. It lays patches down one by one, as one sews: a piece goes on where its edge lies along the whole
//! of an edge of what is there, and what then lies there must be whole again (convex, without a gap). Groups are joined the same way.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

#[path = "support/dice.rs"]
mod dice;

use std::collections::BTreeSet;

use dice::Dice;
use piecewright::geometry::{Angle, Line, Point, Polygon, Tolerance, Transform, Vector};
use piecewright::pattern::Wish;
use piecewright::piecing::plan::{Asked, Bench, Budget, Drawing, NoPlan, Plan, PlanTree};

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

/// By set of patches, what lies there when they are sewn on one paper piece by piece; none where they cannot be.
fn units(patches: &[Polygon]) -> Vec<Option<Polygon>> {
    let mut units: Vec<Option<Polygon>> = vec![None; 1 << patches.len()];
    for (k, patch) in patches.iter().enumerate() {
        units[1 << k] = Some(patch.clone());
    }
    // Larger sets have larger numbers than their parts.
    for set in 1..units.len() {
        let Some(there) = units[set].clone() else { continue };
        for (k, piece) in patches.iter().enumerate().filter(|(k, _)| set & (1 << k) == 0) {
            let larger = set | (1 << k);
            if units[larger].is_none() {
                units[larger] = sewn(&there, piece);
            }
        }
    }
    units
}

/// The fewest papers by trying every way of sewing, for up to twelve patches; none where no way sews all.
fn fewest_papers(patches: &[Polygon]) -> Option<u32> {
    assert!(patches.len() <= 12);
    let all = (1_usize << patches.len()) - 1;
    // What each set of patches looks like when it is sewn together, and with how many papers at the least.
    let units = units(patches);
    let mut groups: Vec<Option<(u32, Polygon)>> = vec![None; all + 1];
    // Larger sets have larger numbers than their parts.
    for set in 1..=all {
        if let Some(there) = units[set].clone() {
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

fn plan(patches: &[Polygon]) -> Result<Plan, NoPlan> {
    let fabrics = vec![0; patches.len()];
    let drawing = Drawing { areas: patches, fabrics: &fabrics, fixed: &[], tolerance: tolerance() };
    let asked = Asked { wishes: &Wish::USUAL, bench: &Bench::boundless(), budget: Budget::USUAL };
    piecewright::piecing::plan::plan(&drawing, &asked)
}

fn papers(patches: &[Polygon]) -> Option<u32> {
    match plan(patches) {
        Ok(plan) => {
            for wish in [Wish::Papers, Wish::MatchPoints] {
                assert!(plan.is_proved(wish), "{} patches are within the budget", patches.len());
            }
            let mut all: Vec<usize> = plan.tree.units().concat();
            all.sort_unstable();
            assert_eq!(all, (0..patches.len()).collect::<Vec<_>>(), "each patch is in one unit");
            assert_eq!(u32::try_from(plan.tree.units().len()), Ok(plan.cost(Wish::Papers)));
            for unit in plan.tree.units() {
                assert_sewn_in_order(patches, unit);
            }
            Some(plan.cost(Wish::Papers))
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
    let mut different = BTreeSet::new();
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
    let mut compared = 0;
    for (seed, (columns, rows)) in (1..=200).zip([(2, 2), (3, 2), (2, 3), (4, 1), (3, 1), (5, 1)].into_iter().cycle()) {
        let patches = grid(seed, columns, rows);
        if patches.len() <= 12 {
            let planned = papers(&patches).expect("a grid can be joined");
            assert_eq!(Some(planned), fewest_papers(&patches), "seed {seed}");
            compared += 1;
        }
    }
    assert!(compared > 100, "most of these grids are small: {compared}");
}

#[test]
fn parts_of_large_grids_need_no_fewer_papers_than_any_way_of_sewing_them() {
    // A grid of twelve by twelve cells is too large for trying every way; each of its parts of up to twelve patches is not.
    for (seed, side) in (1..).zip([4, 6, 8, 10, 12]) {
        let patches = grid(seed, side, side);
        assert!(papers(&patches).is_some(), "{side} x {side}: a grid can be joined");
        for (column, row) in (0..side).flat_map(|column| (0..side).map(move |row| (column, row))) {
            let corner = Point::new(f64::from(column), f64::from(row));
            let Some(window) = Polygon::rectangle(corner, corner + Vector::new(2.0, 2.0)) else { continue };
            let part: Vec<Polygon> = patches.iter().filter(|p| window.covers(p, tolerance())).cloned().collect();
            if (2..=12).contains(&part.len()) {
                assert_eq!(papers(&part), fewest_papers(&part), "{side} x {side} at {column}, {row}");
            }
        }
    }
}

#[test]
fn large_trees_of_cuts_are_planned_and_every_unit_goes_on_piece_by_piece() {
    for seed in 1..=200 {
        // From 10 patches to 120.
        let count = 10 + usize::try_from(seed).unwrap() * 110 / 200;
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
    let Err(NoPlan::Stuck(stuck)) = plan(&two) else { panic!("two rings are stuck") };
    assert_eq!(stuck, [vec![0, 1, 2, 3, 4], vec![5, 6, 7, 8, 9]], "both are told");
}

/// Trees of cuts that are planned again with other wishes in front: by the wish in front no plan is better.
#[test]
fn the_wish_in_front_is_met_best() {
    let orders = [
        [Wish::MatchPoints, Wish::Papers, Wish::LongSeams, Wish::EqualPapers],
        [Wish::LongSeams, Wish::Papers, Wish::MatchPoints, Wish::EqualPapers],
        [Wish::EqualPapers, Wish::Papers, Wish::MatchPoints, Wish::LongSeams],
    ];
    let mut differ = 0;
    for seed in 1..=40 {
        let patches = if seed % 2 == 0 { tree_of_cuts(3_000 + seed, 14) } else { grid(seed, 3, 2) };
        let fabrics: Vec<usize> = (0..patches.len()).map(|k| k % 2).collect();
        let drawing = Drawing { areas: &patches, fabrics: &fabrics, fixed: &[], tolerance: tolerance() };
        let bench = Bench { short: 1.0, ..Bench::boundless() };
        let planned = |wishes: &[Wish]| {
            let asked = Asked { wishes, bench: &bench, budget: Budget::USUAL };
            piecewright::piecing::plan::plan(&drawing, &asked).expect("what was cut can be joined")
        };
        let usual = planned(&Wish::USUAL);
        for order in orders {
            let plan = planned(&[order.as_slice(), &Wish::USUAL[4..]].concat());
            let first = order[0];
            assert!(plan.cost(first) <= usual.cost(first), "seed {seed}: {first:?}");
            assert!(usual.cost(Wish::Papers) <= plan.cost(Wish::Papers), "seed {seed}: the fewest papers");
            differ += u32::from(plan.cost(first) < usual.cost(first));
            // What is told is what the tree has.
            for plan in [&usual, &plan] {
                let kinds: BTreeSet<usize> = plan
                    .likes
                    .iter()
                    .enumerate()
                    .map(|(unit, (first, map))| if map.is_mirroring() { plan.likes.len() + unit } else { *first })
                    .collect();
                assert!(kinds.len() >= plan.cost(Wish::EqualPapers) as usize, "seed {seed}");
                assert_eq!(plan.cost(Wish::LongSeams), short_seams(&patches, &plan.tree), "seed {seed}");
            }
        }
    }
    assert!(differ > 10, "other wishes make other plans: {differ}");
}

/// What a paper looks like whichever quarter turn it lies in: its corners from its upper left, the least of the four ways.
fn looks(patches: &[&Polygon]) -> Vec<(i64, i64)> {
    let turned = |quarters: u32| {
        let turn = Transform::turn(Angle::degrees(90.0 * f64::from(quarters)), Point::default());
        let areas: Vec<Polygon> = patches.iter().map(|patch| turn.apply_to_polygon(patch)).collect();
        let least = areas
            .iter()
            .flat_map(Polygon::corners)
            .fold((f64::INFINITY, f64::INFINITY), |(x, y), c| (x.min(c.x), y.min(c.y)));
        #[expect(clippy::cast_possible_truncation, reason = "small drawings")]
        let place = |c: &Point| (((c.x - least.0) * 1e3).round() as i64, ((c.y - least.1) * 1e3).round() as i64);
        let mut areas: Vec<Vec<(i64, i64)>> = areas
            .iter()
            .map(|area| {
                let mut corners: Vec<(i64, i64)> = area.corners().iter().map(place).collect();
                corners.sort_unstable();
                corners
            })
            .collect();
        areas.sort();
        areas.concat()
    };
    (0..4).map(turned).min().unwrap()
}

/// The fewest different papers among the ways of sewing with the fewest papers, by trying every way; for drawings in which all is square.
fn fewest_kinds(patches: &[Polygon]) -> Option<(u32, usize)> {
    type Kinds = BTreeSet<Vec<(i64, i64)>>;
    let all = (1_usize << patches.len()) - 1;
    let units = units(patches);
    let mut groups: Vec<Option<(u32, Polygon, BTreeSet<Kinds>)>> = vec![None; all + 1];
    for set in 1..=all {
        if let Some(there) = units[set].clone() {
            let of_set: Vec<&Polygon> =
                (0..patches.len()).filter(|k| set & (1 << k) != 0).map(|k| &patches[k]).collect();
            groups[set] = Some((1, there, BTreeSet::from([BTreeSet::from([looks(&of_set)])])));
        }
        let lowest = set & set.wrapping_neg();
        let mut part = (set - 1) & set;
        while part > 0 {
            if part & lowest != 0
                && let (Some((a, left, of_left)), Some((b, right, of_right))) = (&groups[part], &groups[set ^ part])
                && groups[set].as_ref().is_none_or(|(best, ..)| a + b <= *best)
                && let Some(outline) = sewn(left, right)
            {
                let both = of_left.iter().flat_map(|l| of_right.iter().map(move |r| l.union(r).cloned().collect()));
                let (papers, both): (u32, BTreeSet<Kinds>) = (a + b, both.collect());
                match &mut groups[set] {
                    Some((best, _, kinds)) if *best == papers => kinds.extend(both),
                    better => *better = Some((papers, outline, both)),
                }
            }
            part = (part - 1) & set;
        }
    }
    let (papers, _, kinds) = groups[all].as_ref()?;
    Some((*papers, kinds.iter().map(BTreeSet::len).min()?))
}

#[test]
fn no_way_of_sewing_a_small_grid_with_as_few_papers_has_fewer_different_ones() {
    let wishes = [Wish::Papers, Wish::EqualPapers, Wish::MatchPoints, Wish::LongSeams];
    let mut saved = 0;
    for (seed, (columns, rows)) in (500..900).zip([(2, 2), (3, 1), (2, 3), (4, 1)].into_iter().cycle()) {
        let patches = grid(seed, columns, rows);
        if patches.len() > 9 {
            continue;
        }
        let fabrics = vec![0; patches.len()];
        let drawing = Drawing { areas: &patches, fabrics: &fabrics, fixed: &[], tolerance: tolerance() };
        let asked = Asked {
            wishes: &[wishes.as_slice(), &Wish::USUAL[4..]].concat(),
            bench: &Bench::boundless(),
            budget: Budget::USUAL,
        };
        let plan = piecewright::piecing::plan::plan(&drawing, &asked).expect("a grid can be joined");
        assert!(plan.is_proved(Wish::EqualPapers), "seed {seed}");
        let told = (plan.cost(Wish::Papers), plan.cost(Wish::EqualPapers) as usize);
        assert_eq!(Some(told), fewest_kinds(&patches), "seed {seed}");
        saved += told.0 as usize - told.1;
    }
    assert!(saved > 5, "some papers are alike: {saved}");
}

/// The seams of a tree under one step, counted by sewing it.
fn short_seams(patches: &[Polygon], tree: &PlanTree) -> u32 {
    fn shared(a: &Polygon, b: &Polygon) -> f64 {
        let near = |a: Point, b: Point| a.distance(b) <= 2.0 * tolerance().distance();
        let edges = a.edges().flat_map(|edge| b.edges().map(move |other| (edge, other)));
        edges.filter(|(a, b)| near(a.start, b.end) && near(a.end, b.start)).map(|(edge, _)| edge.length()).sum()
    }
    match tree {
        PlanTree::Unit(order) => {
            let mut there = patches[order[0]].clone();
            let mut short = 0;
            for &next in &order[1..] {
                short += u32::from(shared(&there, &patches[next]) < 1.0 - 1e-6);
                there = sewn(&there, &patches[next]).expect("it goes on");
            }
            short
        }
        PlanTree::Join { seam, left, right } => {
            u32::from(seam.length() < 1.0 - 1e-6) + short_seams(patches, left) + short_seams(patches, right)
        }
    }
}
