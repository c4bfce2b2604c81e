//! Rings and inset corners drawn by chance: they compile, obey the laws, and can be sewn.
//!
//! The sewing is simulated with plain corners: areas that lie side by side, and the stretches that are stitched. At every pass the stretch lies along the
//! edges of what is joined, as far on the one side as on the other; what reaches across its line is stitched nowhere near it, so that it can be folded
//! away; and in the end every edge between two areas is stitched once.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

#[path = "support/dice.rs"]
mod dice;
mod support;

use std::fmt::Write as _;

use dice::Dice;
use piecewright::check;
use piecewright::geometry::{Line, Point, Polygon, Segment, Tolerance};
use piecewright::model;
use piecewright::model::{Block, JoinKind, Model, Paper, Stretch};
use piecewright::packet::steps::Move;
use piecewright::packet::words::Words;
use piecewright::packet::{Brief, compose};
use piecewright::piecing;
use support::laws::check_laws;
use support::layout::assert_packet;
use support::{Bare, models_at, resolved, rounds, stem};

/// The side of the block, in steps and in inches.
const SIDE: f64 = 12.0;

fn tolerance() -> Tolerance {
    Tolerance::of_extent(SIDE)
}

fn whole() -> Polygon {
    Polygon::rectangle(Point::new(0.0, 0.0), Point::new(SIDE, SIDE)).unwrap()
}

/// What of the block lies on the left of one line and on the right of another.
fn between(left_of: Line, right_of: Line) -> Polygon {
    let left = whole().cut(left_of, tolerance()).0.unwrap();
    left.cut(right_of, tolerance()).1.unwrap()
}

/// Areas of which none has an edge that one could overlook.
fn without_slivers(dice: &mut Dice, draw: impl Fn(&mut Dice) -> Vec<Polygon>) -> Vec<Polygon> {
    let fair = |areas: &Vec<Polygon>| areas.iter().flat_map(Polygon::edges).all(|edge| edge.length() > 0.1);
    std::iter::repeat_with(|| draw(dice)).find(fair).unwrap()
}

/// A centre of some corners, and round it as many areas, clockwise, each ending at the next.
fn pinwheel(dice: &mut Dice) -> Vec<Polygon> {
    let corners = 3 + dice.below(4);
    let (wide, high) = (1.3 + 1.5 * dice.roll(), 1.3 + 1.5 * dice.roll());
    let turn = dice.roll();
    let at = |k: usize, shift: f64| {
        #[expect(clippy::cast_precision_loss, reason = "small")]
        let angle = (k as f64 + turn + shift) / corners as f64 * std::f64::consts::TAU;
        Point::new(SIDE / 2.0 + wide * libm::cos(angle), SIDE / 2.0 + high * libm::sin(angle))
    };
    let shifts: Vec<f64> = (0..corners).map(|_| 0.4 * dice.roll()).collect();
    let path: Vec<Point> = shifts.iter().enumerate().map(|(k, &shift)| at(k, shift)).collect();
    let centre = Polygon::try_new(&path, tolerance()).unwrap();
    let lines: Vec<Line> = centre.edges().filter_map(Segment::line).collect();
    let round = (0..lines.len()).map(|k| between(lines[k], lines[(k + 1) % lines.len()]));
    let round: Vec<Polygon> = round.collect();
    std::iter::once(centre).chain(round).collect()
}

/// Three areas round a point, their seams more than 60 degrees apart.
fn three(dice: &mut Dice) -> Vec<Polygon> {
    let point = Point::new(3.0 + 6.0 * dice.roll(), 3.0 + 6.0 * dice.roll());
    let turn = 360.0 * dice.roll();
    let [a, b] = [100.0 + 40.0 * dice.roll(), 220.0 + 40.0 * dice.roll()];
    let rays = [turn, turn + a, turn + b].map(|degrees: f64| {
        let angle = degrees.to_radians();
        Line::through(point, Point::new(point.x + libm::cos(angle), point.y + libm::sin(angle))).unwrap()
    });
    (0..3).map(|k| between(rays[(k + 1) % 3], rays[k])).collect()
}

/// A unit of one section, or two units that a `join` line makes a group of; by what name it is called.
fn drawn(dice: &mut Dice, name: &str, area: &Polygon, units: &mut String, joins: &mut String) {
    let mut unit = |name: &str, area: &Polygon| {
        let path: Vec<String> = area.corners().iter().map(|p| format!("{:.6}, {:.6}", p.x, p.y)).collect();
        let middle = area.centroid();
        writeln!(
            units,
            "  unit {name} {{\n    outline {}\n    1 sea around {:.6}, {:.6}\n  }}",
            path.join(" -- "),
            middle.x,
            middle.y
        )
        .unwrap();
    };
    let edges: Vec<Segment> = area.edges().collect();
    let from = dice.below(edges.len());
    let to = (from + 1 + dice.below(edges.len() - 1)) % edges.len();
    let line = Line::through(edges[from].middle(), edges[to].middle()).unwrap();
    let halves = area.cut(line, tolerance());
    match (dice.below(3), halves) {
        (0, (Some(left), Some(right))) if left.width().min(right.width()) > 0.3 => {
            unit(&format!("{name}-a"), &left);
            unit(&format!("{name}-b"), &right);
            writeln!(joins, "  join {name}-a {name}-b as {name}").unwrap();
        }
        _ => unit(name, area),
    }
}

/// A source of these areas with a line that names them in this order.
fn source(dice: &mut Dice, word: &str, areas: &[&Polygon]) -> String {
    let (mut units, mut joins, mut names) = (String::new(), String::new(), Vec::new());
    for (k, area) in areas.iter().enumerate() {
        let name = format!("m{k}");
        drawn(dice, &name, area, &mut units, &mut joins);
        names.push(name);
    }
    let pressed = ["", " pressed open", " pressed toward m0"][dice.below(3)];
    format!(
        "pattern \"Buoys\"\nedition \"1\"\nfinished 12 in\nfabric sea \"Sea\" #3b6e8f\nblock buoys 12 x 12 {{\n{units}{joins}  {word} {} as leaf{pressed}\n}}\n",
        names.join(" ")
    )
}

type Corner = (f64, f64);

fn minus(a: Corner, b: Corner) -> Corner {
    (a.0 - b.0, a.1 - b.1)
}

fn cross(a: Corner, b: Corner) -> f64 {
    a.0 * b.1 - a.1 * b.0
}

fn dot(a: Corner, b: Corner) -> f64 {
    a.0 * b.0 + a.1 * b.1
}

fn length(of: (Corner, Corner)) -> f64 {
    let run = minus(of.1, of.0);
    dot(run, run).sqrt()
}

const NEAR: f64 = 2e-3;

/// How far a place lies off the line of a stretch, and where along it.
fn off_and_along(stretch: (Corner, Corner), at: Corner) -> (f64, f64) {
    let (run, long) = (minus(stretch.1, stretch.0), length(stretch));
    (cross(run, minus(at, stretch.0)) / long, dot(run, minus(at, stretch.0)) / long)
}

/// The place so far along a stretch.
fn along(stretch: (Corner, Corner), far: f64) -> Corner {
    let (run, part) = (minus(stretch.1, stretch.0), far / length(stretch));
    (stretch.0.0 + run.0 * part, stretch.0.1 + run.1 * part)
}

/// What two stretches have in common, if they lie on one line: from where to where along the first.
fn common(stretch: (Corner, Corner), other: (Corner, Corner)) -> Option<(f64, f64)> {
    let ((p, a), (q, b)) = (off_and_along(stretch, other.0), off_and_along(stretch, other.1));
    let (from, to) = (a.min(b).max(0.0), a.max(b).min(length(stretch)));
    (p.abs() < NEAR && q.abs() < NEAR && to - from > NEAR).then_some((from, to))
}

fn distance(stretch: (Corner, Corner), at: Corner) -> f64 {
    let (off, along) = off_and_along(stretch, at);
    let past = (-along).max(along - length(stretch)).max(0.0);
    (off * off + past * past).sqrt()
}

/// A block on the table.
struct Table {
    /// By place, clockwise.
    areas: Vec<Vec<Corner>>,
    stitched: Vec<(Corner, Corner)>,
    /// Which place is held to which.
    held: Vec<(usize, usize)>,
}

impl Table {
    fn edges(&self, area: usize) -> impl Iterator<Item = (Corner, Corner)> + '_ {
        let corners = &self.areas[area];
        (0..corners.len()).map(move |k| (corners[k], corners[(k + 1) % corners.len()]))
    }

    /// All that hangs together with a place.
    fn piece(&self, place: usize) -> Vec<usize> {
        let mut piece = vec![place];
        let mut looked = 0;
        while looked < piece.len() {
            for &(a, b) in &self.held {
                for (here, there) in [(a, b), (b, a)] {
                    if here == piece[looked] && !piece.contains(&there) {
                        piece.push(there);
                    }
                }
            }
            looked += 1;
        }
        piece
    }

    /// How much of a stretch the edges of these places take, on either side of it.
    fn along(&self, stretch: (Corner, Corner), places: &[usize]) -> [Vec<(usize, f64)>; 2] {
        let mut sides = [Vec::new(), Vec::new()];
        for &place in places {
            let middle = self.areas[place].iter().fold((0.0, 0.0), |sum, c| (sum.0 + c.0, sum.1 + c.1));
            #[expect(clippy::cast_precision_loss, reason = "small")]
            let many = self.areas[place].len() as f64;
            let side = usize::from(off_and_along(stretch, (middle.0 / many, middle.1 / many)).0 > 0.0);
            let shared: f64 =
                self.edges(place).filter_map(|edge| common(stretch, edge)).map(|(from, to)| to - from).sum();
            if shared > 0.0 {
                sides[side].push((place, shared));
            }
        }
        sides
    }

    /// Stitches a stretch.
    fn sew(&mut self, at: &str, stretch: (Corner, Corner), closes: bool, pivot: Option<Corner>) {
        let all: Vec<usize> = (0..self.areas.len()).collect();
        let [left, right] = self.along(stretch, &all);
        for side in [&left, &right] {
            let sum: f64 = side.iter().map(|(_, shared)| shared).sum();
            assert!((sum - length(stretch)).abs() < 4.0 * NEAR, "{at}: {sum} lies along a seam of {}", length(stretch));
        }
        // Each side is one piece before it is sewn, and they are two pieces, or one where a ring is closed.
        let one_piece = |side: &[(usize, f64)], table: &Self| {
            let piece = table.piece(side[0].0);
            assert!(side.iter().all(|(place, _)| piece.contains(place)), "{at}: one side is one piece");
            piece
        };
        let pieces = [one_piece(&left, self), one_piece(&right, self)];
        assert_eq!(
            pieces[0].contains(&right[0].0),
            closes,
            "{at}: only the last seam of a leaf joins what is one piece"
        );
        // What reaches across the line is stitched nowhere near the seam: it folds away.
        for &place in pieces.iter().flatten() {
            let offs: Vec<f64> = self.areas[place].iter().map(|&corner| off_and_along(stretch, corner).0).collect();
            let across = offs.iter().any(|&off| off > NEAR) && offs.iter().any(|&off| off < -NEAR);
            if !across {
                continue;
            }
            for &stitch in &self.stitched {
                for edge in self.edges(place) {
                    let Some((from, to)) = common(stitch, edge) else { continue };
                    // The point of an inset corner is what the layers turn about.
                    let ends = [from, to].map(|far| along(stitch, far));
                    let ends = ends.into_iter().filter(|&end| pivot.is_none_or(|pivot| length((end, pivot)) > NEAR));
                    let near = ends.map(|end| distance(stretch, end)).fold(f64::INFINITY, f64::min);
                    assert!(
                        near > 10.0 * NEAR,
                        "{at}: {place} reaches across {stretch:?} and is stitched down beside it"
                    );
                }
            }
        }
        self.stitched.push(stretch);
        self.held.push((left[0].0, right[0].0));
    }
}

fn simulate(at: &str, block: &Block) {
    let corner = |p: Point| (p.x, p.y);
    let areas: Vec<Vec<Corner>> =
        block.placements.iter().map(|place| place.outline.corners().iter().copied().map(corner).collect()).collect();
    let mut table = Table { areas, stitched: Vec::new(), held: Vec::new() };
    for pass in block.passes() {
        let join = &block.joins[pass.join];
        let stretch = match (&join.kind, pass.stretch) {
            (JoinKind::Partial { first, .. }, Stretch::First) => (corner(first.start), corner(first.end)),
            (JoinKind::Partial { first, .. }, _) => {
                let ends = [join.seam.start, join.seam.end];
                let far = ends.into_iter().max_by(|a, b| a.distance(first.start).total_cmp(&b.distance(first.start)));
                (corner(first.end), corner(far.unwrap()))
            }
            _ => (corner(join.seam.start), corner(join.seam.end)),
        };
        let pivot = if let JoinKind::Inset { point } = join.kind { Some(corner(point)) } else { None };
        // The last seam of a ring and of an inset corner joins what is one piece already.
        let last = block.round_of(pass.join).is_some_and(|(joins, _)| joins.last() == Some(&pass.join));
        let closes = pass.stretch == Stretch::Rest || (last && pivot.is_some());
        table.sew(&format!("{at}, join {}", pass.join + 1), stretch, closes, pivot);
        // No stitch goes past the point of an inset corner: every seam so far ends there.
        if let Some(pivot) = pivot {
            let ends = [stretch.0, stretch.1].map(|end| length((end, pivot)));
            assert!(ends.iter().any(|&far| far < NEAR), "{at}: a seam of an inset corner ends in its point");
        }
    }
    assert_eq!(table.piece(0).len(), table.areas.len(), "{at}: all is one piece in the end");
    // Every edge between two areas is stitched, once.
    for a in 0..table.areas.len() {
        for b in a + 1..table.areas.len() {
            for edge in table.edges(a).collect::<Vec<_>>() {
                for (from, to) in table.edges(b).filter_map(|other| common(edge, other)) {
                    let shared = (along(edge, from), along(edge, to));
                    let sewn: f64 =
                        table.stitched.iter().filter_map(|&stitch| common(shared, stitch)).map(|(f, t)| t - f).sum();
                    assert!(
                        (sewn - (to - from)).abs() < 4.0 * NEAR,
                        "{at}: {sewn} of {} between {a} and {b}",
                        to - from
                    );
                }
            }
        }
    }
}

/// Compiles a source that must be right, and sews it.
fn sewn(at: &str, source: &str) {
    let checked = check("buoys.piece", source, &Bare);
    assert!(checked.ok(), "{at}: {:?}\n{source}", checked.faults);
    let model = checked.model.unwrap();
    check_laws(at, &model);
    simulate(at, &model.blocks[0]);
}

#[test]
fn pinwheels_of_any_shape_can_be_sewn_and_only_the_one_way_round() {
    let mut sizes = std::collections::BTreeSet::new();
    for seed in 0..120 {
        let mut dice = Dice(seed);
        let areas = without_slivers(&mut dice, pinwheel);
        sizes.insert(areas.len());
        // Clockwise, begun anywhere; or mirrored, and so anticlockwise.
        let upright = Line::through(Point::new(SIDE / 2.0, 0.0), Point::new(SIDE / 2.0, SIDE)).unwrap();
        let mirror = piecewright::geometry::Transform::mirror(upright);
        let mirrored = dice.below(2) == 1;
        let areas: Vec<Polygon> =
            if mirrored { areas.iter().map(|area| mirror.apply_to_polygon(area)).collect() } else { areas };
        let (centre, round) = areas.split_first().unwrap();
        let mut round: Vec<&Polygon> = round.iter().collect();
        round.rotate_left(dice.below(3));
        let order: Vec<&Polygon> = std::iter::once(centre).chain(round.iter().copied()).collect();
        sewn(&format!("seed {seed}"), &source(&mut dice, "partial", &order));
        let turned: Vec<&Polygon> = std::iter::once(centre).chain(round.iter().rev().copied()).collect();
        let wrong = check("buoys.piece", &source(&mut dice, "partial", &turned), &Bare);
        let codes: Vec<&str> = wrong.faults.iter().map(|fault| fault.code.slug()).collect();
        assert!(codes.contains(&"ring-order"), "seed {seed}: {codes:?}");
    }
    assert_eq!(sizes.into_iter().collect::<Vec<_>>(), [4, 5, 6, 7]);
}

#[test]
fn three_that_meet_in_a_point_can_be_sewn_in_any_order() {
    for seed in 0..120 {
        let mut dice = Dice(seed);
        let areas = without_slivers(&mut dice, three);
        let mut order: Vec<&Polygon> = areas.iter().collect();
        order.rotate_left(dice.below(3));
        if dice.below(2) == 1 {
            order.swap(1, 2);
        }
        sewn(&format!("seed {seed}"), &source(&mut dice, "inset", &order));
    }
}

/// Each at the size it is drawn for and small, in every language and on every paper; and each pass has its step and its figures.
#[test]
fn their_packets_are_laid_out_well() {
    for path in rounds() {
        let pattern = resolved(&path);
        let proof = piecing::prove(&pattern).unwrap();
        let drawn = model::build(&pattern, &proof, 0).unwrap();
        for (model, language) in models_at(&pattern, &[5.0]).into_iter().chain([drawn]).zip(Words::LANGUAGES) {
            let model = Model { papers: vec![Paper::Letter, Paper::A4], ..model };
            let words = Words::of(language).unwrap();
            let packet = compose(&model, Brief::default(), &words, None, &mut |_| {});
            let name = format!("{} {} {language}", stem(&path), model.size);
            assert_packet(&name, &packet);
            for ((block, steps), figures) in model.blocks.iter().zip(&packet.steps.blocks).zip(&packet.figures) {
                let passes = block.passes();
                assert_eq!((steps.joins.len(), figures.joins.len()), (passes.len(), passes.len()), "{name}");
                for (pass, pages) in passes.iter().zip(&figures.joins) {
                    // Where a ring or an inset corner begins, its order is shown, every seam with its number.
                    let begins = block.round_of(pass.join).filter(|(joins, _)| joins[0] == pass.join);
                    let begins = begins.filter(|_| pass.stretch != Stretch::Rest);
                    assert_eq!(pages.len(), if begins.is_some() { 2 } else { 1 }, "{name}");
                    if let Some((joins, _)) = begins {
                        let rest = usize::from(pass.stretch == Stretch::First);
                        let texts = pages[0].texts();
                        for number in 1..=joins.len() + rest {
                            let told = texts.iter().filter(|text| text.words == number.to_string()).count();
                            assert_eq!(told, 1, "{name}: seam {number} of the order");
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn a_ring_is_told_in_the_order_in_which_it_is_sewn() {
    let ring = rounds().into_iter().find(|path| stem(path) == "ring").unwrap();
    let pattern = resolved(&ring);
    let proof = piecing::prove(&pattern).unwrap();
    let model = model::build(&pattern, &proof, 0).unwrap();
    let words = Words::english();
    let packet = compose(&model, Brief::default(), &words, None, &mut |_| {});
    let steps = &packet.steps.blocks[0].joins;
    let told: Vec<(String, String)> = steps
        .iter()
        .map(|step| {
            let text = step.text.iter().map(Move::told).chain(step.cautions.clone());
            (step.title.clone(), text.collect::<Vec<_>>().join(" ").replace('\u{a0}', " "))
        })
        .collect();
    let wanted = [
        ("Join 1, the first part", "from the right edge to the tick with the bar, 1 in from the right end"),
        ("Join 2 ·", "with hub (B) and north (A)"),
        ("Join 3 ·", "with hub (B) and east (C)"),
        ("Join 4 · pinwheel", "At the open part of join 1 fold north (A) back"),
        ("Join 1, the rest · pinwheel", "Unpin north (A) and lay its edge along hub (B) and west (E)"),
    ];
    assert_eq!(told.len(), wanted.len());
    for ((title, text), (head, part)) in told.iter().zip(wanted) {
        assert!(title.starts_with(head) && text.contains(part), "{title}: {text}");
        // The paper of the centre stays until the ring is closed.
        assert_eq!(text.contains("may come out"), head.contains("rest"), "{title}: {text}");
    }
    assert_eq!(steps[4].facts[0].1.replace('\u{a0}', " "), "the other 4 in of 5 in");
    // What is lined up belongs to the part in which it is sewn.
    assert!(!told[0].1.contains("Line up") && told[4].1.contains("An open dot marks a tip, 2 in from the right end"));
}
