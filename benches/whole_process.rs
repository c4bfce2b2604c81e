//! How long the command takes as a whole process, from cold start to exit: `cargo bench`.
//!
//! Nothing is asserted; the figures are medians of several runs, and the greatest resident memory where GNU time is installed.

#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::cast_precision_loss,
    clippy::disallowed_methods,
    missing_docs,
    reason = "a bench may stop at what it did not expect, and its figures are for people"
)]

use std::fmt::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use std::{env, fs};

const RUNS: usize = 15;

/// A small pattern: two units of three sections.
const LIGHT: &str = r#"
pattern  "Harbour Light"
edition  "1.0"
finished 6 in

fabric dusk "Dusk sky"    #2f3e5c
fabric glow "Lamp glow"   #f6d77a
fabric red  "Harbour red" #a8332b

block light 8 x 8 {
  unit lamp {
    outline 0, 0 -- 8, 0 -- 8, 3 -- 0, 3
    1 glow around 4, 2
    2 dusk beyond 4, 0 -- 2, 3
    3 dusk beyond 4, 0 -- 6, 3
  }
  unit tower {
    outline 0, 3 -- 8, 3 -- 8, 8 -- 0, 8
    1 red  around 4, 5
    2 dusk beyond 2, 3 -- 1, 8
    3 dusk beyond 6, 3 -- 7, 8
  }
}
"#;

fn main() {
    let folder = env::temp_dir().join("piecewright-bench");
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder for the sources");
    println!("{:<44} {:>9} {:>9}", "whole process, release build", "median", "memory");
    let thirty = folder.join("thirty.piece");
    fs::write(&thirty, source(1, 30)).expect("a source");
    row("check, 30 sections in one block", &["check", path(&thirty)], RUNS);
    let packet = folder.join("packet");
    row("build, 30 sections in one block", &["build", path(&thirty), "-o", path(&packet), "--quiet"], RUNS);
    // One seam of the first unit lies elsewhere.
    let moved = folder.join("moved.piece");
    fs::write(&moved, source(1, 30).replacen("0, 2.400 --", "0, 2.500 --", 1)).expect("a source");
    differing("diff, the same 30 sections twice", &["diff", path(&thirty), path(&thirty)], 0);
    differing("diff, 30 sections, one seam moved", &["diff", path(&thirty), path(&moved)], 1);
    let boat = Path::new(env!("CARGO_MANIFEST_DIR")).join("patterns/fishing-boat.piece");
    row("check, the fishing boat", &["check", path(&boat)], RUNS);
    let packet = folder.join("boat");
    row("build, the fishing boat", &["build", path(&boat), "-o", path(&packet), "--quiet"], RUNS);
    let light = folder.join("light.piece");
    fs::write(&light, LIGHT).expect("a source");
    packets(&folder, &light, RUNS);
    let moorings = folder.join("moorings.piece");
    fs::write(&moorings, source(11, 30)).expect("a source");
    packets(&folder, &moorings, 7);
    println!();
    let mut points = Vec::new();
    for blocks in [2, 6, 20, 60, 200] {
        let file = folder.join(format!("series-{blocks}.piece"));
        fs::write(&file, source(blocks, 50)).expect("a source");
        let sections = blocks * 50;
        let time = row(&format!("check, {sections} sections in {blocks} blocks"), &["check", path(&file)], 7);
        points.push((f64::from(sections), time.as_secs_f64()));
    }
    println!(
        "\ntime grows with the sections to the power {:.2} (least squares from {} to {})",
        exponent(&points),
        points[0].0,
        points[4].0
    );
    let _ = fs::remove_dir_all(&folder);
}

/// Builds a packet and says how many pages it has.
fn packets(folder: &Path, source: &Path, runs: usize) {
    let packet = folder.join("packet");
    let build = ["build", path(source), "-o", path(&packet), "--quiet"];
    let made = Command::new(env!("CARGO_BIN_EXE_piecewright")).args(build).stderr(Stdio::null()).status();
    assert!(made.expect("the command runs").success(), "a packet");
    let printed = packet.join(source.with_extension("pdf").file_name().expect("a name"));
    let pages = lopdf::Document::load(printed).expect("a PDF").get_pages().len();
    row(&format!("build, a packet of {pages} pages"), &build, runs);
}

fn path(path: &Path) -> &str {
    path.to_str().expect("a path of plain letters")
}

/// Runs a comparison that ends with this code several times, and prints a line.
fn differing(name: &str, arguments: &[&str], code: i32) {
    timed(name, arguments, RUNS, code);
}

/// Runs the command several times, prints a line, and gives the median.
fn row(name: &str, arguments: &[&str], runs: usize) -> Duration {
    timed(name, arguments, runs, 0)
}

fn timed(name: &str, arguments: &[&str], runs: usize, code: i32) -> Duration {
    let program = env!("CARGO_BIN_EXE_piecewright");
    let mut times: Vec<Duration> = (0..runs)
        .map(|_| {
            let start = Instant::now();
            let status = Command::new(program).args(arguments).stdout(Stdio::null()).stderr(Stdio::null()).status();
            assert_eq!(status.expect("the command runs").code(), Some(code), "{name}: the command failed");
            start.elapsed()
        })
        .collect();
    times.sort();
    let median = times[times.len() / 2];
    let measured = Command::new("/usr/bin/time").args(["-f", "%M", program]).args(arguments).output().ok();
    let memory = measured
        .and_then(|output| String::from_utf8_lossy(&output.stderr).lines().last()?.trim().parse::<f64>().ok())
        .map_or_else(|| String::from("–"), |kibibytes| format!("{:.1} MiB", kibibytes / 1024.0));
    println!("{name:<44} {:>6.1} ms {memory:>9}", median.as_secs_f64() * 1e3);
    median
}

/// A source of so many blocks with so many sections each: units of ten strips, cut again by a slanting seam in every second one.
fn source(blocks: u32, sections: u32) -> String {
    let units = sections / 10;
    let mut text = String::from(
        "pattern \"Moorings\"\nedition \"1.0\"\nfinished 8 in\nallow narrow-section\nallow short-seam\n\n",
    );
    text.push_str(
        "fabric sea \"Harbour sea\" #6b9db8\nfabric sky \"Morning sky\" #a9cbe0\nfabric sand \"Wet sand\" #d8c49a\n",
    );
    for block in 0..blocks {
        let _ = write!(text, "\nblock mooring-{block} {0} x {0} {{\n", units * 4);
        for unit in 0..units {
            let (left, right) = (unit * 4, unit * 4 + 4);
            let bottom = units * 4;
            let _ = writeln!(text, "  unit row-{unit} {{");
            let _ = writeln!(text, "    outline {left}, 0 -- {right}, 0 -- {right}, {bottom} -- {left}, {bottom}");
            let _ = writeln!(text, "    1 sand around {left}.5, 0.25");
            for section in 2..=10 {
                let y = f64::from(bottom) * f64::from(section - 1) / 10.0;
                let slant = if section % 2 == 0 { 0.5 } else { -0.5 };
                let fabric = if section % 2 == 0 { "sea" } else { "sky" };
                let _ =
                    writeln!(text, "    {section} {fabric} beyond {left}, {y:.3} -- {right}, {:.3}", y + slant * 0.5);
            }
            text.push_str("  }\n");
        }
        text.push_str("}\n");
    }
    text
}

/// The power of x to which y grows, by least squares of the logarithms.
fn exponent(points: &[(f64, f64)]) -> f64 {
    let count = points.len() as f64;
    let logs: Vec<(f64, f64)> = points.iter().map(|(x, y)| (x.ln(), y.ln())).collect();
    let mean = |of: fn(&(f64, f64)) -> f64| logs.iter().map(of).sum::<f64>() / count;
    let (x, y) = (mean(|p| p.0), mean(|p| p.1));
    let up: f64 = logs.iter().map(|p| (p.0 - x) * (p.1 - y)).sum();
    let down: f64 = logs.iter().map(|p| (p.0 - x) * (p.0 - x)).sum();
    up / down
}
