//! How long the planner takes for irregular drawings and for grids of quarter-squares: `cargo bench --bench planner`.
//!
//! Nothing is asserted; the figures are for people. Each drawing is planned once.

#![allow(
    clippy::expect_used,
    clippy::disallowed_methods,
    missing_docs,
    reason = "a bench may stop at what it did not expect, and its figures are for people"
)]

#[path = "../tests/support/dice.rs"]
mod dice;

use std::time::{Duration, Instant};

use dice::Dice;
use piecewright::geometry::{Line, Point, Polygon, Tolerance};
use piecewright::pattern::Wish;
use piecewright::piecing::plan::{Asked, Bench, Budget, Drawing, Plan, plan};

/// How wide a drawing is, in steps.
const EXTENT: f64 = 12.0;
const SEEDS: u64 = 20;

fn main() {
    println!("{:<36} {:>9} {:>9} {:>9} {:>7}", "irregular patches, by seed", "median", "worst", "regions", "proved");
    for count in [30, 60, 120] {
        let drawings: Vec<Vec<Polygon>> = (1..=SEEDS).map(|seed| tree_of_cuts(seed, count)).collect();
        let mut timed: Vec<(Duration, Plan)> = drawings.iter().map(|drawing| planned(drawing)).collect();
        timed.sort_by_key(|(time, _)| *time);
        let most = timed.iter().map(|(_, plan)| plan.regions).max().unwrap_or(0);
        let proved = timed.iter().filter(|(_, plan)| plan.is_proved(Wish::MatchPoints)).count();
        let at = |k: usize| timed.get(k).map_or(0.0, |(time, _)| time.as_secs_f64() * 1e3);
        let (median, worst) = (at(timed.len() / 2), at(timed.len() - 1));
        let name = format!("{count} patches, seeds 1 to {SEEDS}");
        println!("{name:<36} {median:>6.1} ms {worst:>6.1} ms {most:>9} {proved:>3}/{SEEDS}");
    }
    println!("\n{:<36} {:>9} {:>9} {:>9} {:>7}", "quarter-squares", "time", "papers", "regions", "proved");
    for side in [5_u32, 7, 9] {
        let (time, plan) = planned(&quarter_squares(side));
        let name = format!("{side} x {side} ({} patches)", side * side * 4);
        let time = time.as_secs_f64() * 1e3;
        println!(
            "{name:<36} {time:>6.0} ms {:>9} {:>9} {:>7}",
            plan.cost(Wish::Papers),
            plan.regions,
            plan.is_proved(Wish::MatchPoints)
        );
    }
}

fn planned(drawing: &[Polygon]) -> (Duration, Plan) {
    let start = Instant::now();
    let fabrics = vec![0; drawing.len()];
    let of = Drawing { areas: drawing, fabrics: &fabrics, fixed: &[], tolerance: Tolerance::of_extent(EXTENT) };
    let asked = Asked { wishes: &Wish::USUAL, bench: &Bench::boundless(), budget: Budget::USUAL };
    let plan = plan(&of, &asked).expect("a plan");
    (start.elapsed(), plan)
}

/// A square cut again and again, each time one patch, by a line across it, none of them slivers.
fn tree_of_cuts(seed: u64, count: usize) -> Vec<Polygon> {
    let mut dice = Dice(seed);
    let tolerance = Tolerance::of_extent(EXTENT);
    let whole = Polygon::rectangle(Point::new(0.0, 0.0), Point::new(EXTENT, EXTENT)).expect("a square");
    let mut patches = vec![whole];
    for _ in 0..100_000 {
        if patches.len() >= count {
            break;
        }
        let at = dice.below(patches.len());
        let corners = patches[at].corners();
        let (i, j) = (dice.below(corners.len()), dice.below(corners.len()));
        let on = |k: usize, share: f64| corners[k].along(corners[(k + 1) % corners.len()], share);
        let shares = [0.0, 0.5, 0.3 + 0.4 * dice.roll()];
        let (a, b) = (on(i, shares[dice.below(3)]), on(j, shares[dice.below(3)]));
        let Some(line) = Line::through(a, b).filter(|_| i != j) else { continue };
        let (Some(left), Some(right)) = patches[at].cut(line, tolerance) else { continue };
        // At 120 patches the mean patch covers 1.2 square steps.
        if left.area().min(right.area()) > 0.2 && left.width().min(right.width()) > 0.2 {
            patches[at] = left;
            patches.push(right);
        }
    }
    assert_eq!(patches.len(), count, "a drawing of {count} patches");
    patches
}

/// A grid of squares of which each is cut along both diagonals.
fn quarter_squares(side: u32) -> Vec<Polygon> {
    let mut patches = Vec::new();
    let step = EXTENT / f64::from(side);
    for (row, column) in (0..side).flat_map(|row| (0..side).map(move |column| (row, column))) {
        let at = |x: f64, y: f64| Point::new((f64::from(column) + x) * step, (f64::from(row) + y) * step);
        let cell = [at(0.0, 0.0), at(1.0, 0.0), at(1.0, 1.0), at(0.0, 1.0)];
        for k in 0..4 {
            let corners = [cell[k], cell[(k + 1) % 4], at(0.5, 0.5)];
            patches.push(Polygon::try_new(&corners, Tolerance::of_extent(EXTENT)).expect("a triangle"));
        }
    }
    patches
}
