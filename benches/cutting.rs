//! How short the plans of strips are that are found for published instances and for made-up quilts, and how long that takes:
//! `cargo bench --bench cutting`.
//!
//! Nothing is asserted; the figures are for people. Instances are read from `benches/instances/`, or from the folder that the environment variable
//! `PACKING` names; the bounds and best plans published are those of the table `known.csv` there, for pieces that must not be turned.

#![allow(
    clippy::expect_used,
    clippy::disallowed_methods,
    clippy::cast_precision_loss,
    missing_docs,
    reason = "a bench may stop at what it did not expect, and its figures are for people"
)]

#[path = "../tests/support/dice.rs"]
mod dice;

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::time::Instant;

use dice::Dice;
use piecewright::cutting::stock::{Budget, Demand, Plan, Problem, plan};

/// Units to the inch in made-up quilts.
const INCH: u32 = 10_000;

fn main() {
    let folder = std::env::var("PACKING")
        .map_or_else(|_| PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/benches/instances")), PathBuf::from);
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).expect("instances beside the bench");
    let published = published(&read("known.csv"));
    for turnable in [false, true] {
        for name in ["gcut-d.txt", "atp.txt"] {
            set(name, &instances(&read(name), turnable), turnable, &published);
        }
    }
    for turnable in [false, true] {
        quilts(turnable);
    }
}

/// Best plan and bound, by instance.
fn published(table: &str) -> BTreeMap<String, (u64, u64)> {
    let rows = table.lines().filter_map(|line| {
        let cells: Vec<&str> = line.rsplit('"').next()?.split(',').collect();
        let best = cells.get(3)?.parse().ok()?;
        // Where the best plan is known to be as short as can be, the table leaves out the bound.
        let bound = cells.get(5)?.parse().or_else(|_| cells.get(4).map_or(Ok(0), |cell| cell.parse())).ok()?;
        Some(((*cells.get(2)?).to_owned(), (best, bound)))
    });
    rows.collect()
}

fn instances(text: &str, turnable: bool) -> Vec<(String, Problem)> {
    let mut instances: Vec<(String, Problem)> = Vec::new();
    for line in text.lines() {
        let words: Vec<&str> = line.split_whitespace().collect();
        let numbers: Vec<u32> = words.iter().filter_map(|word| word.parse().ok()).collect();
        match (numbers.as_slice(), instances.last_mut()) {
            (&[width, height, count], Some((_, problem))) if words.len() == 3 => {
                problem.demands.push(Demand { width, height, count, turnable });
            }
            (&[width, ..], _) => {
                instances.push((words[0].to_owned(), Problem { width, ..Problem::default() }));
            }
            _ => {}
        }
    }
    instances
}

fn timed(problem: &Problem, budget: Budget) -> (Plan, f64) {
    let start = Instant::now();
    let plan = plan(problem, budget).expect("pieces that fit");
    (plan, start.elapsed().as_secs_f64())
}

fn gap(length: u64, bound: u64) -> f64 {
    (length as f64 - bound as f64) / (bound.max(1) as f64) * 100.0
}

fn mean(numbers: &[f64]) -> f64 {
    numbers.iter().sum::<f64>() / (numbers.len().max(1) as f64)
}

fn set(name: &str, instances: &[(String, Problem)], turnable: bool, published: &BTreeMap<String, (u64, u64)>) {
    println!("\n{name}, {}", if turnable { "turned as may be" } else { "none turned" });
    let columns = ("length", "bound", "gap", "published", "gap", "best", "time");
    let (length, bound, own, known, to, best, time) = columns;
    println!("{:<9}{length:>8}{bound:>8}{own:>9}{known:>10}{to:>9}{best:>8}{time:>9}", "");
    let (mut gaps, mut known_gaps, mut slowest) = (Vec::new(), Vec::new(), 0.0_f64);
    for (name, problem) in instances {
        let Some(&(best, known)) = published.get(name) else { continue };
        let (plan, time) = timed(problem, Budget::THOROUGH);
        gaps.push(gap(plan.length, plan.bound));
        slowest = slowest.max(time);
        print!("{name:<9}{:>8}{:>8}{:>7.3} %", plan.length, plan.bound, gap(plan.length, plan.bound));
        if turnable {
            println!("{:>27}{time:>7.2} s", "");
        } else {
            known_gaps.push(gap(plan.length, known));
            println!("{known:>10}{:>7.3} %{best:>8}{time:>7.2} s", gap(plan.length, known));
        }
    }
    println!("mean gap {:.4} %, slowest {slowest:.2} s", mean(&gaps));
    if !turnable {
        println!("mean gap to the published bounds {:.4} %", mean(&known_gaps));
    }
}

/// Fabrics of quilts of twelve blocks: 5 to 25 sizes in steps of 1/8 in, some odd, on cloth of 40 in.
fn quilts(turnable: bool) {
    println!("\nquilts, {}", if turnable { "turned as may be" } else { "none turned" });
    let (mut proved, mut fabrics, mut all_gaps) = (0, 0, Vec::new());
    for seed in 1..=6 {
        let mut dice = Dice(seed);
        let (mut own, mut total, mut pieces, mut gaps) = (0, 0.0, 0, Vec::new());
        for _ in 0..10 {
            let sizes = 5 + dice.below(21);
            let mut side = || {
                let eighths = u32::try_from(8 + dice.below(48)).expect("small");
                eighths * INCH / 8 + if dice.below(20) == 0 { 71 } else { 0 }
            };
            let sides: Vec<(u32, u32)> = (0..sizes).map(|_| (side(), side())).collect();
            let demands: Vec<Demand> = sides
                .into_iter()
                .map(|(width, height)| {
                    let count = [4, 8, 12, 12, 12, 24][dice.below(6)];
                    Demand { width, height, count, turnable }
                })
                .collect();
            pieces += demands.iter().map(|demand| demand.count).sum::<u32>();
            let (plan, time) = timed(&Problem { width: 40 * INCH, demands, heights: None }, Budget::USUAL);
            own += u32::from(plan.proved);
            total += time;
            gaps.push(gap(plan.length, plan.bound));
        }
        println!("quilt {seed}: {pieces} pieces, {own}/10 proved, mean gap {:.3} %, {total:.2} s", mean(&gaps));
        proved += own;
        fabrics += 10;
        all_gaps.extend(gaps);
    }
    println!("{proved}/{fabrics} proved, mean gap {:.3} %", mean(&all_gaps));
}
