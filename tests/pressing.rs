//! The pressing that the compiler finds against all pressings there are, for blocks small enough to try them all; and what it does with others.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

#[path = "support/dice.rs"]
mod dice;
mod support;

use std::collections::BTreeSet;
use std::fmt::Write as _;

use dice::Dice;
use piecewright::geometry::{Segment, Tolerance};
use piecewright::model::{Block, Cause, Model, Nesting, Press};
use piecewright::pattern::{self, Pattern};
use piecewright::piecing::{self, Proof};
use support::nesting::{Meeting, meetings, tip_sides};
use support::{Bare, laws::check_laws, models_at, resolved, samples, stem};

/// So many joins at the most are pressed in every way there is.
const MOST_FREE: usize = 14;

/// What has to be known of a block to weigh its pressings.
struct Weighed<'a> {
    block: &'a Block,
    meetings: Vec<Meeting>,
    /// By join: seam length times how much lighter the fabrics along it are on the left than on the right, in steps.
    darker_right: Vec<f64>,
    /// The joins that may be pressed to either side.
    free: Vec<usize>,
}

impl<'a> Weighed<'a> {
    fn new(pattern: &Pattern, proof: &Proof, model: &'a Model, index: usize) -> Self {
        let (block, source, proved) = (&model.blocks[index], &pattern.blocks[index], &proof.blocks[index]);
        let near = Tolerance::of_extent(block.width.max(block.height).to_inches());
        let (_, to) = source.outline.bounds();
        let step = block.width.to_inches() / to.x;
        let by_join: Vec<Vec<Meeting>> = (0..block.joins.len()).map(|at| meetings(block, at, near)).collect();
        let is_free = |at: &usize| {
            let stated = proved.joins[*at].stated.is_some_and(|stated| source.joins[stated].press.is_some());
            let [left, right] = tip_sides(&by_join[*at]);
            !stated && left == right
        };
        let darker_right = block.joins.iter().map(|join| {
            let lightness = |places: &[usize]| average_lightness(model, block, places, join.seam, near);
            join.seam.length() / step * (lightness(&join.left) - lightness(&join.right))
        });
        Self {
            block,
            darker_right: darker_right.collect(),
            free: (0..block.joins.len()).filter(is_free).collect(),
            meetings: by_join.into_iter().flatten().filter(Meeting::is_match_point).collect(),
        }
    }

    /// How many match points nest, and how much is pressed toward the darker side.
    fn worth(&self, press: &impl Fn(usize) -> Press) -> (usize, f64) {
        let nested = self.meetings.iter().filter(|meeting| meeting.nests(press)).count();
        let won = self.free.iter().map(|&join| match press(join) {
            Press::Left => (-self.darker_right[join]).max(0.0),
            Press::Right => self.darker_right[join].max(0.0),
            Press::Open => 0.0,
        });
        (nested, won.sum())
    }

    fn found(&self) -> (usize, f64) {
        self.worth(&|join| self.block.joins[join].press)
    }

    /// The best of all ways to press the free joins.
    fn best(&self) -> (usize, f64) {
        let mut best = (0, 0.0);
        for ways in 0..1_usize << self.free.len() {
            let worth = self.worth(&|join| match self.free.binary_search(&join) {
                Ok(bit) if ways >> bit & 1 == 1 => Press::Right,
                Ok(_) => Press::Left,
                Err(_) => self.block.joins[join].press,
            });
            if worth.0 > best.0 || (worth.0 == best.0 && worth.1 > best.1) {
                best = worth;
            }
        }
        best
    }

    /// Nothing is better; sums are whole in thousandths, rounded for each join.
    fn assert_best(&self, name: &str) {
        let (best, found) = (self.best(), self.found());
        assert_eq!(found.0, best.0, "{name}: of {} match points as many nest as can", self.meetings.len());
        assert!(
            found.1 >= best.1 - 0.02,
            "{name}: {} is pressed toward darker sides, and {} could be",
            found.1,
            best.1
        );
        assert!(self.block.pressing_proved, "{name}: and that is told");
    }
}

fn average_lightness(model: &Model, block: &Block, places: &[usize], seam: Segment, near: Tolerance) -> f64 {
    let line = seam.line().expect("a join has length");
    let (mut sum, mut length) = (0.0, 0.0);
    for &place in places {
        let variant = block.variant_at(place);
        for (section, &fabric) in block.unit_of(variant).sections.iter().zip(&variant.fabrics) {
            let area = block.placements[place].transform.apply_to_polygon(&section.polygon);
            for edge in area.edges() {
                if [edge.start, edge.end].iter().all(|&end| near.is_zero(line.distance_right(end))) {
                    sum += edge.length() * model.fabrics[fabric].lightness();
                    length += edge.length();
                }
            }
        }
    }
    sum / length
}

/// A source of one block with these lines.
fn resolved_block(width: usize, height: usize, lines: &str) -> Pattern {
    let text = format!(
        "pattern \"Roofs\"\nedition \"1\"\nfinished {width} in\nfabric sea \"Sea\" #1c3f5f\nfabric sky \"Sky\" #a9cbe0\n\
         fabric foam \"Foam\" #f4f4f0\nfabric brick \"Brick\" #9c4a32\nblock roofs {width} x {height} {{\n{lines}}}\n"
    );
    let reading = pattern::read_sources("roofs.piece", &text, &Bare);
    assert_eq!(reading.faults, [], "{text}");
    let (pattern, faults, _) = pattern::resolve(&reading);
    assert_eq!(faults, [], "{text}");
    pattern.expect("a pattern without faults")
}

/// Rows of units, each cut across by slanting lines that are now a join and now a seam inside a unit, some with an upright join down their middle; some
/// joins are stated.
fn rows(seed: u64) -> Pattern {
    const EXTENT: usize = 12;
    let mut dice = Dice(seed);
    let upright = dice.below(2) == 1;
    let (halved, rows) = (dice.below(3) == 0, 2 + dice.below(3));
    let (mut units, mut joins) = (String::new(), String::new());
    for row in 0..rows {
        let (top, bottom) = (row * EXTENT / rows, (row + 1) * EXTENT / rows);
        let at = |x: usize, y: usize| if upright { format!("{y}, {x}") } else { format!("{x}, {y}") };
        let mut ends = |count: usize, of: &[usize]| {
            let mut ends: Vec<usize> = (0..count).map(|_| of[dice.below(of.len())]).collect();
            ends.sort_unstable();
            ends
        };
        // Few places, so that seams meet.
        let places = [2, 4, 5, 7, 8, 10];
        let (above, below) = (ends(5, &places), ends(5, &places));
        let mut cuts: Vec<(usize, usize)> = above.into_iter().zip(below).collect();
        if halved {
            cuts.retain(|&(above, below)| (above < 6 && below < 6) || (above > 6 && below > 6));
            cuts.push((6, 6));
            cuts.sort_unstable();
        }
        cuts.dedup();
        cuts.insert(0, (0, 0));
        cuts.push((EXTENT, EXTENT));
        let area = |from: (usize, usize), to: (usize, usize)| {
            let mut corners = vec![at(from.0, top), at(to.0, top), at(to.1, bottom), at(from.1, bottom)];
            corners.dedup();
            corners.join(" -- ")
        };
        let mut names: Vec<String> = Vec::new();
        let mut from = 0;
        for to in 1..cuts.len() {
            let through = halved && cuts[to] == (6, 6);
            if to + 1 < cuts.len() && to - from < 3 && !through && dice.below(5) < 2 {
                continue;
            }
            let name = format!("u{row}-{}", names.len());
            let _ = writeln!(units, "unit {name} {{\noutline {}", area(cuts[from], cuts[to]));
            let mut areas: Vec<usize> = (from..to).collect();
            if dice.below(2) == 1 {
                areas.reverse();
            }
            for (number, cut) in (1..).zip(areas) {
                let fabric = ["sea", "sky", "foam", "brick"][dice.below(4)];
                let _ = writeln!(units, "{number} {fabric} {}", area(cuts[cut], cuts[cut + 1]));
            }
            units.push_str("}\n");
            names.push(name);
            from = to;
        }
        for pair in names.windows(2) {
            if dice.below(8) == 0 {
                let how = [String::from("open"), format!("toward {}", pair[0]), format!("toward {}", pair[1])];
                let _ = writeln!(joins, "join {} {} pressed {}", pair[0], pair[1], how[dice.below(3)]);
            }
        }
    }
    resolved_block(EXTENT, EXTENT, &(units + &joins))
}

#[test]
fn no_pressing_of_a_small_block_is_better() {
    let (mut tried, mut nestings, mut most) = (0, BTreeSet::new(), 0);
    for seed in 1..=150 {
        let pattern = rows(seed);
        let name = format!("rows by {seed}");
        let proof = piecing::prove(&pattern).expect("rows can be joined");
        let model = models_at(&pattern, &[12.0]).remove(0);
        check_laws(&name, &model);
        let weighed = Weighed::new(&pattern, &proof, &model, 0);
        if weighed.free.len() > MOST_FREE {
            continue;
        }
        weighed.assert_best(&name);
        tried += 1;
        most = most.max(weighed.free.len());
        for point in model.blocks[0].joins.iter().flat_map(|join| &join.match_points) {
            nestings.insert(match point.nesting {
                Nesting::Nests if point.spins => "spins",
                Nesting::Nests => "nests",
                Nesting::SameWay(Cause::Units) => "units",
                Nesting::SameWay(Cause::Stated) => "stated",
                Nesting::SameWay(Cause::Tips) => "tips",
                Nesting::SameWay(Cause::GivenUp) => "given up",
                Nesting::Mixed => "mixed",
                Nesting::Open => "open",
            });
        }
    }
    assert!(tried >= 100 && most >= 12, "{tried} blocks are tried, the largest with {most} free joins");
    let all = ["given up", "mixed", "nests", "open", "spins", "stated", "tips", "units"];
    assert_eq!(nestings, BTreeSet::from(all), "every way to nest or not occurs");
}

#[test]
fn no_pressing_of_a_sample_is_better() {
    let mut tried = 0;
    for path in samples() {
        let pattern = resolved(&path);
        let proof = piecing::prove(&pattern).expect("a sample can be sewn");
        let model = models_at(&pattern, &[8.0]).remove(0);
        for index in 0..model.blocks.len() {
            let weighed = Weighed::new(&pattern, &proof, &model, index);
            if weighed.free.len() <= MOST_FREE {
                weighed.assert_best(&stem(&path));
                tried += 1;
            }
        }
    }
    assert!(tried >= 8, "{tried} blocks are tried");
}

/// A grid of squares of which each is cut along a diagonal into two units, joined to squares and these to rows: eight seams come together at every inner
/// corner. How the diagonals are pressed, `pressed` may tell by row and column.
fn triangles(side: usize, pressed: impl Fn(usize, usize) -> &'static str) -> Pattern {
    let mut lines = String::new();
    for (row, column) in (0..side).flat_map(|row| (0..side).map(move |column| (row, column))) {
        let (x, y) = (column + 1, row + 1);
        let fabric = ["sea", "sky", "foam", "brick"];
        let [above, below] = [(row * 3 + column * 5) % 4, (row * row + column * 3 + 1) % 4].map(|k| fabric[k]);
        let (upper, lower) = (format!("{x}, {row}"), format!("{column}, {y}"));
        let diagonal = format!("{column}, {row} -- {x}, {y}");
        for (name, corner, fabric) in [("a", upper, above), ("b", lower, below)] {
            let area = format!("{diagonal} -- {corner}");
            let _ = writeln!(lines, "unit {name}{row}-{column} {{\noutline {area}\n1 {fabric} {area}\n}}");
        }
    }
    for row in 0..side {
        let names: Vec<String> = (0..side).map(|column| format!("s{row}-{column}")).collect();
        for (column, name) in names.iter().enumerate() {
            let pressed = pressed(row, column).replace('#', &format!("{row}-{column}"));
            let _ = writeln!(lines, "join a{row}-{column} b{row}-{column} as {name} {pressed}");
        }
        let _ = writeln!(lines, "join {}", names.join(" "));
    }
    resolved_block(side, side, &lines)
}

#[test]
fn what_can_nest_at_once_does_however_many_joins_hang_together() {
    let pattern = triangles(10, |_, _| "");
    let proof = piecing::prove(&pattern).expect("triangles can be joined");
    let model = models_at(&pattern, &[10.0]).remove(0);
    support::nesting::check("triangles", &model.blocks[0], Tolerance::of_extent(10.0));
    let weighed = Weighed::new(&pattern, &proof, &model, 0);
    assert_eq!((weighed.found().0, weighed.meetings.len()), (81, 81));
    assert!(weighed.block.pressing_proved);
}

#[test]
fn what_hangs_together_too_widely_is_not_proved_and_no_single_join_is_better_turned() {
    // Stated against each other, so that not all corners can nest.
    let pattern = triangles(16, |row, column| match (row, column) {
        (5, 3) => "pressed toward a#",
        (5, 6) => "pressed toward b#",
        (7, 8) => "pressed open",
        _ => "",
    });
    let proof = piecing::prove(&pattern).expect("triangles can be joined");
    let model = models_at(&pattern, &[16.0]).remove(0);
    support::nesting::check("triangles", &model.blocks[0], Tolerance::of_extent(16.0));
    let weighed = Weighed::new(&pattern, &proof, &model, 0);
    assert!(!weighed.block.pressing_proved);
    let found = weighed.found();
    // Two corners lie on the open join; besides, a few are given up.
    assert!(found.0 < 223 && found.0 > 200, "{} of 225 nest", found.0);
    for &turned in &weighed.free {
        let (nested, darker) = weighed.worth(&|join| match weighed.block.joins[join].press {
            Press::Left if join == turned => Press::Right,
            Press::Right if join == turned => Press::Left,
            press => press,
        });
        assert!(nested < found.0 || (nested == found.0 && darker <= found.1 + 1e-3), "join {}", turned + 1);
    }
}
