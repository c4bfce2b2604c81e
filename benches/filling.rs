//! How many sheets are printed, and how many different ones, for made-up sets of triangles and trapezoids: `cargo bench --bench filling`, with `-- --thorough` for more work.
//!
//! Nothing is asserted; the figures are for people. Sets are read from `benches/instances/pages.json`, or from the folder that the environment variable `PACKING` names; beside ours
//! stands what a public packing solver found in ten seconds on two cores.

#![allow(
    clippy::expect_used,
    clippy::disallowed_methods,
    clippy::cast_possible_truncation,
    missing_docs,
    reason = "a bench may stop at what it did not expect, and its figures are for people"
)]

use std::path::PathBuf;
use std::time::Instant;

use piecewright::filling::{Budget, Medium, Page, Shape, Task, Turning, Wish, fill};
use piecewright::geometry::{Point, Polygon, Tolerance};
use serde_json::Value;

fn main() {
    let folder = std::env::var("PACKING")
        .map_or_else(|_| PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/benches/instances")), PathBuf::from);
    let text = std::fs::read_to_string(folder.join("pages.json")).expect("instances beside the bench");
    let sets: Value = serde_json::from_str(&text).expect("JSON");
    let effort = if std::env::args().any(|word| word == "--thorough") { Budget::THOROUGH } else { Budget::USUAL };
    println!("{:<5}{:>8}{:>6}{:>10}{:>9}{:>7}{:>9}", "", "printed", "bound", "different", "solver", "", "time");
    let mut sums = [0; 5];
    let mut total = 0.0;
    for set in sets.as_array().expect("sets") {
        let task = task(set, effort);
        let start = Instant::now();
        let filled = fill(&task).expect("shapes that fit");
        let time = start.elapsed().as_secs_f64();
        let solver = [number(&set["solver_sheets"]), number(&set["solver_different"])];
        let found = [filled.printed(), filled.printed_bound, filled.different() as u32, solver[0], solver[1]];
        row(set["name"].as_str().expect("a name"), found, time);
        for (sum, found) in sums.iter_mut().zip(found) {
            *sum += found;
        }
        total += time;
    }
    row("all", sums, total);
}

fn row(name: &str, [printed, bound, different, sheets, apart]: [u32; 5], time: f64) {
    println!("{name:<5}{printed:>8}{bound:>6}{different:>10}{sheets:>9}{apart:>7}{time:>7.2} s");
}

fn number(value: &Value) -> u32 {
    value.as_u64().expect("a count") as u32
}

fn task(set: &Value, effort: Budget) -> Task {
    let list = |value: &Value| value.as_array().expect("a list").clone();
    let numbers = |value: &Value| list(value).iter().filter_map(Value::as_f64).collect::<Vec<f64>>();
    let outline = |shape: &Value| {
        let corners =
            list(&shape["corners"]).iter().map(numbers).map(|at| Point::new(at[0], at[1])).collect::<Vec<_>>();
        Polygon::try_new(&corners, Tolerance::of_extent(1.0)).expect("convex")
    };
    let shapes = list(&set["shapes"])
        .iter()
        .map(|shape| Shape { outline: outline(shape), copies: number(&shape["copies"]) })
        .collect();
    let page = numbers(&set["page"]);
    Task {
        shapes,
        page: Page { width: page[0], height: page[1], medium: Medium::Pages },
        gap: 0.0,
        turning: Turning::Quarters,
        wish: Wish::FewestPrinted,
        effort,
    }
}
