//! The planner against a search of its own kind: whatever is planned needs no more papers than any way of sewing.
//!
//! The search here knows nothing of lines and cuts. It lays patches down one by one, as one sews: a piece goes on where its edge lies along the whole
//! of an edge of what is there, and what then lies there must be whole again (convex, without a gap). Groups are joined the same way.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

#[path = "support/dice.rs"]
mod dice;
mod support;

use std::collections::BTreeSet;
use std::fmt::Write as _;

use dice::Dice;
use piecewright::Options;
use piecewright::fault::Severity;
use piecewright::geometry::{Angle, Line, Point, Polygon, Tolerance, Transform, Vector};
use piecewright::model::Press;
use piecewright::packet::words::Words;
use piecewright::pattern::{UnitKind, Wish};
use piecewright::piecing::plan::{Asked, Bench, Budget, Drawing, NoPlan, Plan, PlanTree};
use support::nesting::Allowance;

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
    let mut units: Vec<Option<Polygon>> = vec![None; all + 1];
    let mut groups: Vec<Option<(u32, Polygon, BTreeSet<Kinds>)>> = vec![None; all + 1];
    for (k, patch) in patches.iter().enumerate() {
        units[1 << k] = Some(patch.clone());
    }
    for set in 1..=all {
        if let Some(there) = units[set].clone() {
            for (k, piece) in patches.iter().enumerate().filter(|(k, _)| set & (1 << k) == 0) {
                let larger = set | (1 << k);
                if units[larger].is_none() {
                    units[larger] = sewn(&there, piece);
                }
            }
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
    // Plain pieces stand as they are.
    let mut plain = String::new();
    for place in block.placements.iter().filter(|place| block.units[place.unit].kind == UnitKind::Plain) {
        let fabric = place.fabric(block.units[place.unit].sections[0].fabric);
        let key = &pattern.fabrics[pattern.fabric(fabric)].key;
        let _ = writeln!(plain, "  plain {} {key} {}\n  allow off-the-ruler", place.name, path(&place.outline));
    }
    let (wide, high, outline) = (to.x, to.y, path(&block.outline));
    text + &format!("block pasted {wide:.9} x {high:.9} {{\n  outline {outline}\n{plain}{notation}}}\n")
}

#[test]
fn the_plan_of_every_sample_can_be_pasted_and_takes_as_many_papers_as_it_says() {
    let mut fewer = 0;
    for path in support::samples() {
        let pattern = support::resolved(&path);
        let text = std::fs::read_to_string(&path).expect("a readable sample");
        let planned =
            piecewright::plan(&support::stem(&path), &text, &support::Folder(support::patterns()), &Options::default());
        assert_eq!(planned.plans.len(), pattern.blocks.len(), "{}", path.display());
        for (block, plan) in pattern.blocks.iter().zip(&planned.plans) {
            assert!(plan.is_proved(Wish::MatchPoints), "{}: {}", path.display(), plan.block);
            if let Some(own) = plan.own {
                let papers = plan.cost(Wish::Papers);
                assert!(papers <= own, "{}: no author needs fewer papers than the best plan", plan.block);
                fewer += own - papers;
            }
            let source = pasted(&pattern, block, &plan.notation);
            let checked = piecewright::check("pasted.piece", &source, &support::Bare);
            assert!(checked.ok(), "{}: {:?}\n{source}", plan.block, checked.faults);
            let model = checked.model.expect("a model");
            support::laws::check_laws(&plan.block, &model);
            let block = &model.blocks[0];
            let papers = plan.tree.lines().filter(|line| !line.trim_start().starts_with("join ")).count();
            assert_eq!(block.placements.len(), papers, "{}", plan.block);
            let foundations = block.variants.iter().filter(|of| block.has_paper(of)).count();
            assert_eq!(foundations, plan.cost(Wish::EqualPapers) as usize, "{}: {source}", plan.block);
            let points: usize = block.joins.iter().map(|join| join.match_points.len()).sum();
            assert_eq!(points, plan.cost(Wish::MatchPoints) as usize, "{}", plan.block);
            // Where seams of two papers meet, as many do not nest as the plan says.
            let near = Tolerance::of_extent(block.width.max(block.height).to_inches());
            let met = (0..block.joins.len()).flat_map(|at| support::nesting::meetings(block, at, near));
            let within = |side: &Vec<Allowance>| side.iter().all(|of| matches!(of, Allowance::Inside(_)));
            let of_papers = met.filter(|meeting| meeting.is_match_point() && meeting.sides.iter().all(within));
            let clashes = of_papers.filter(|meeting| !meeting.nests(&|_| Press::Open)).count();
            assert_eq!(clashes, plan.cost(Wish::Nesting) as usize, "{}", plan.block);
        }
    }
    assert!(fewer > 0, "some sample could do with fewer papers");
}

#[test]
fn the_papers_of_every_sample_are_counted_as_they_are_printed() {
    let mut split = 0;
    for path in support::samples() {
        let text = std::fs::read_to_string(&path).expect("a readable sample");
        let (name, shelf) = (support::stem(&path), support::Folder(support::patterns()));
        let planned = piecewright::plan(&name, &text, &shelf, &Options::default());
        let mut model = piecewright::check(&name, &text, &shelf).model.expect("a model");
        for (block, plan) in planned.plans.iter().enumerate() {
            let mut sheets = vec![0; model.blocks[block].placements.len()];
            for paper in model.papers.clone() {
                model.paper = paper;
                for (place, most) in sheets.iter_mut().enumerate() {
                    let variant = model.blocks[block].placements[place].variant;
                    let paper = model.blocks[block].has_paper(&model.blocks[block].variants[variant]);
                    let parts = piecewright::packet::sheets::foundation(&model, block, variant, &Words::english());
                    *most = (*most).max(if paper { parts.len() } else { 0 });
                }
            }
            split += sheets.iter().filter(|&&sheets| sheets > 1).count();
            let papers = plan.own.unwrap_or_else(|| plan.cost(Wish::Papers));
            assert_eq!(papers as usize, sheets.into_iter().sum::<usize>(), "{}", plan.block);
        }
    }
    assert!(split > 0, "some paper takes several sheets");
}

/// A light on a pier, with comments wherever one may stand.
const PIER: &str = "\
pattern \"Pier Light\"
edition \"1.0\"
finished 8 in
fabric sky  \"Morning sky\"  #a9cbe0
fabric sea  \"Harbour sea\"  #3b6b8f
fabric red  \"Beacon red\"   #c8443a
fabric foam \"Foam\"         #f3f1e9

// The pier light at slack water.
block pier 16 x 16 { // drawn from the quay
  note \"Sew the light first.\"
  // The horizon.
  measure horizon 11
  point top 8, 1
  point left  5, horizon
  point right 11, horizon

  seam level horizon // where the water begins
  seam top -- left
  seam top -- right
  // The axis.
  seam upright 8   // not a pole
  patch sky around 2, 4 // west
  patch sky around 14, 4
  patch red around 7, 9 // the lee side
  patch red 8, 1 -- right -- // towards the sea
    8, horizon
  seam level 13
  patch foam around 2, 12
  patch foam around 14, 12 // breakers
  patch sea around 2, 15
  patch sea around 14, 15
  unit west around 2, 4 // named after the wind
  allow sharp-tip
  allow dark-under-light
}
";

#[test]
fn a_plan_is_written_back_and_all_else_stays() {
    let mut sources = vec![(String::from("pier"), PIER.to_owned())];
    for path in support::samples() {
        let text = std::fs::read_to_string(&path).expect("a readable sample");
        if text.lines().any(|line| line.trim_start().starts_with("patch ")) {
            sources.push((support::stem(&path), text));
        }
    }
    for (name, text) in sources {
        let shelf = support::Folder(support::patterns());
        let plan = |text: &str| piecewright::plan(&name, text, &shelf, &Options::default());
        let (before, check) = (plan(&text), piecewright::check(&name, &text, &shelf));
        let written = before.written.unwrap_or_else(|| panic!("{name} has patches"));
        let after = plan(&written);
        let errors: Vec<_> = after.faults.iter().filter(|fault| fault.severity() == Severity::Error).collect();
        assert!(errors.is_empty(), "{name}: {errors:?}\n{written}");
        assert_eq!(after.written, None, "{name}: no patches are left");
        // The same papers, the same foundations, the same joins.
        let model = |checked: piecewright::Checked| checked.model.expect("a model");
        let (planned, stated) = (model(check), model(piecewright::check(&name, &written, &shelf)));
        for (a, b) in planned.blocks.iter().zip(&stated.blocks) {
            assert_eq!((a.placements.len(), a.variants.len()), (b.placements.len(), b.variants.len()), "{name}");
            let seams =
                |block: &piecewright::model::Block| block.joins.iter().map(|join| join.seam).collect::<Vec<_>>();
            for (a, b) in seams(a).into_iter().zip(seams(b)) {
                assert!(a.start.distance(b.start) < 1e-4 && a.end.distance(b.end) < 1e-4, "{name}: {a:?} {b:?}");
            }
        }
        // Every line that draws no patch stands as it stood, in the same order, and every comment is still there.
        let is_drawing = |line: &&str| {
            let start = line.trim_start();
            ["patch ", "seam "].iter().any(|word| start.starts_with(word))
                || (start.starts_with("unit ") && start.contains(" around "))
                || start.starts_with("8, horizon")
        };
        let mut lines = written.lines();
        for line in text.lines().filter(|line| !is_drawing(line)) {
            assert!(lines.any(|other| other == line), "{name}: `{line}` is gone from\n{written}");
        }
        for comment in text.lines().filter_map(|line| line.split_once("//")).map(|(_, comment)| comment.trim()) {
            assert!(written.contains(comment), "{name}: `{comment}` is gone from\n{written}");
        }
    }
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
