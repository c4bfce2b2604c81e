//! Plans as they are told, pasted and written back: what the planner promises is what its notation compiles to.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

#[path = "support/dice.rs"]
mod dice;
mod support;

use std::fmt::Write as _;

use dice::Dice;
use piecewright::Options;
use piecewright::fault::Severity;
use piecewright::geometry::{Polygon, Tolerance};
use piecewright::model::Press;
use piecewright::packet::words::Words;
use piecewright::pattern::{self, Block, Pattern, UnitKind, Wish};
use support::nesting::Allowance;

/// A source of one block that states the units and joins of a plan.
fn pasted(pattern: &Pattern, block: &Block, notation: &str) -> String {
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
                    let parts = piecewright::packet::foundation::foundation(
                        &model,
                        block,
                        variant,
                        piecewright::packet::sheets::Bed::under(&model).room(),
                        &Words::english(),
                    );
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

/// Two units whose sections say how they are cut, and the same pasted from their plan.
#[test]
fn how_sections_are_cut_is_told_with_the_plan() {
    let head =
        "pattern \"Quay\"\nedition \"1\"\nfinished 8 in\nfabric sea \"Sea\" #3b6e8f\nfabric sky \"Sky\" #a9cbe0\n";
    let block = |body: &str| format!("{head}block quay 8 x 8 {{\n{body}}}\n");
    let source = block(
        "  unit left {\n    outline 0, 0 -- 4, 0 -- 4, 8 -- 0, 8\n    1 sky around 1, 1\n    2 sea beyond 0, 4 -- 4, 8\n\
             cut on-grain, half-square\n    ease snug for 2\n    fussy for 1 at 3, 2\n  }\n\
           place left mirrored over upright 4\n",
    );
    let rules = |source: &str| {
        let (pattern, faults, _) = pattern::resolve(&pattern::read_sources("quay.piece", source, &support::Bare));
        let pattern = pattern.unwrap_or_else(|| panic!("{faults:?}\n{source}"));
        let block = &pattern.blocks[0];
        let mut told = Vec::new();
        for place in &block.placements {
            let unit = &block.units[place.unit];
            for section in &unit.sections {
                let rule = pattern.cut_rule(unit, section, section.fabric);
                let at = |point| {
                    let at = place.transform.apply(point);
                    (format!("{:.6}", at.x), format!("{:.6}", at.y))
                };
                // A unit may ask for half squares where a section is none; that says nothing of it.
                let shape = if section.polygon.corners().len() == 3 { Some(rule.shape) } else { None };
                let words = format!("{:?} {shape:?} {:?} {:?}", rule.lie, rule.ease, rule.motif.map(at));
                told.push((at(section.polygon.centroid()), words));
            }
        }
        told.sort();
        told
    };
    let plan = piecewright::plan("quay.piece", &source, &support::Bare, &Options::default());
    let notation = &plan.plans.first().expect("a plan").notation;
    assert!(notation.contains("cut on-grain, half-square for") && notation.contains("ease 0.125 in for"), "{notation}");
    assert_eq!(rules(&block(notation)), rules(&source), "{notation}");
}
