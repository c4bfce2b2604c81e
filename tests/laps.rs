//! What holds for foundations larger than a sheet: how few parts they are printed in, and that these can be glued to one paper again.
//!
//! `cargo test --test laps -- --ignored --nocapture` tells how many parts the samples take at large sizes.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

#[path = "extremes/sources.rs"]
mod sources;
mod support;

use std::path::Path;
use std::sync::{Mutex, OnceLock};

use piecewright::geometry::{Angle, Point, Polygon, Segment, Tolerance, Transform, Vector};
use piecewright::model::{self, Block, Model, Paper, SheetRules, Variant};
use piecewright::packet::foundation::{Foundation, LAP, Split, foundation, needs_splitting, parts_of, split_of};
use piecewright::packet::page::{Colour, Item, Layer, Piece, Subpath, Text};
use piecewright::packet::sheets::Bed;
use piecewright::packet::typeface::text_box;
use piecewright::packet::words::Words;
use piecewright::{pattern, piecing};
use support::layout::at_once;
use support::{Bare, as_sewn, models_at, resolved, samples, stem};

/// A foundation, or its parts, as printed.
struct Printed {
    name: String,
    model: Model,
    block: usize,
    variant: usize,
    room: (f64, f64),
    foundations: Vec<Foundation>,
    split: Option<Split>,
}

impl Printed {
    fn block(&self) -> &Block {
        &self.model.blocks[self.block]
    }

    fn variant(&self) -> &Variant {
        &self.block().variants[self.variant]
    }

    fn cutting_line(&self) -> &Polygon {
        &self.block().unit_of(self.variant()).cutting_line
    }

    /// From a part's own frame to the unit's.
    fn back(part: &Foundation) -> Transform {
        part.matrix.inverse().expect("paper is not flattened")
    }
}

fn near() -> Tolerance {
    Tolerance::of_extent(2.0)
}

/// Every foundation of samples up to three times as large as usual, of fixtures and of extremes, on both papers.
fn all() -> &'static [Printed] {
    static ALL: OnceLock<Vec<Printed>> = OnceLock::new();
    ALL.get_or_init(|| {
        let mut models: Vec<(String, Model)> = Vec::new();
        for path in samples() {
            for model in models_at(&resolved(&path), &[13.0, 16.0, 24.0]) {
                models.push((format!("{} {}", stem(&path), model.size), model));
            }
        }
        let fixtures = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures");
        for name in
            ["large-foundation", "large-on-a4", "octagon", "ring", "inset", "pieced-sections", "patches-by-seams"]
        {
            for model in models_at(&resolved(&fixtures.join(format!("{name}.piece"))), &[9.0, 20.0, 30.0]) {
                models.push((format!("{name} {}", model.size), model));
            }
        }
        for extreme in sources::all() {
            let reading = pattern::read_sources(extreme.name, &extreme.source, &Bare);
            let drawn = pattern::resolve(&reading).0.expect("a pattern without faults");
            let proof = piecing::prove(&as_sewn(&drawn)).expect("an extreme can be sewn");
            models.push((extreme.name.to_owned(), model::build(&drawn, &proof, 0).expect("its size")));
        }
        let made = Mutex::new(Vec::new());
        let numbered: Vec<_> = models.into_iter().enumerate().collect();
        at_once(&numbered, |(number, (name, model))| {
            for paper in [Paper::Letter, Paper::A4] {
                let (wide, high) = Bed::of(&SheetRules::default(), paper).room();
                for (b, block) in model.blocks.iter().enumerate() {
                    for (v, variant) in block.variants.iter().enumerate().filter(|(_, of)| block.has_paper(of)) {
                        let printed = Printed {
                            name: format!("{name} {} {}", paper.word(), variant.mark),
                            model: Model { paper, ..model.clone() },
                            block: b,
                            variant: v,
                            room: (wide, high),
                            foundations: foundation(model, b, v, (wide, high), &Words::english()),
                            split: split_of(block, variant, (wide, high)),
                        };
                        made.lock().expect("no test failed here").push(((*number, paper.word(), b, v), printed));
                    }
                }
            }
        });
        let mut made = made.into_inner().expect("no test failed here");
        made.sort_by(|a, b| a.0.cmp(&b.0));
        made.into_iter().map(|(_, printed)| printed).collect()
    })
}

fn in_parts() -> impl Iterator<Item = (&'static Printed, &'static Split)> {
    all().iter().filter_map(|printed| printed.split.as_ref().map(|split| (printed, split)))
}

/// How many parts the same took as windows of a regular grid with room for labels beside them, the best of four turns.
fn in_grid(cutting_line: &Polygon, (width, height): (f64, f64)) -> usize {
    let longest = cutting_line.edges().max_by(|a, b| a.length().total_cmp(&b.length())).expect("an edge");
    let level = -(longest.end - longest.start).angle().to_degrees();
    let turned = |turn: f64| Transform::turn(Angle::degrees(turn), Point::default()).apply_to_polygon(cutting_line);
    let count = |turn: f64| {
        let area = turned(turn);
        let (from, to) = area.bounds();
        let (wide, high) = (to.x - from.x, to.y - from.y);
        if wide <= width && high <= height {
            return 1;
        }
        let pieces = |length: f64, room: f64| {
            let size = |n: u32| (length + LAP * f64::from(n - 1)) / f64::from(n);
            let count = (1..64).find(|&n| size(n) <= room).unwrap_or(64);
            (count, size(count))
        };
        let ((columns, part_wide), (rows, part_high)) = (pieces(wide, width - 0.4), pieces(high, height - 0.4));
        let windows = (0..columns).flat_map(|column| (0..rows).map(move |row| (f64::from(column), f64::from(row))));
        let held = windows.filter(|(column, row)| {
            let corner = from + Vector::new(column * (part_wide - LAP), row * (part_high - LAP));
            let window = Polygon::rectangle(corner, corner + Vector::new(part_wide, part_high)).expect("an area");
            window.intersection(&area, near()).is_some()
        });
        held.count()
    };
    [0.0, 90.0, level, level + 90.0].into_iter().map(count).min().expect("four turns")
}

#[test]
fn a_foundation_is_printed_whole_where_some_turn_lets_it() {
    let (mut whole, mut split) = (0, 0);
    for printed in all() {
        let (width, height) = printed.room;
        let fits = (0..360).any(|half| {
            let (wide, high) = printed.cutting_line().turned_extent(Angle::degrees(f64::from(half) * 0.5));
            wide <= width && high <= height
        });
        assert!(!fits || printed.foundations.len() == 1, "{}: it fits a sheet", printed.name);
        let splits = needs_splitting(&printed.model, printed.room, printed.block, printed.variant);
        assert_eq!(splits, printed.foundations.len() > 1, "{}", printed.name);
        assert_eq!(splits, printed.foundations.iter().all(|of| of.part.is_some()), "{}", printed.name);
        if splits { split += 1 } else { whole += 1 }
    }
    assert!(whole > 100 && split > 100, "{whole} whole, {split} in parts");
}

#[test]
fn parts_are_no_more_than_counted_nor_than_those_of_a_grid() {
    for printed in all() {
        let cutting_line = printed.cutting_line();
        let counted = parts_of(cutting_line, printed.room);
        assert!(printed.foundations.len() <= counted as usize, "{}: {counted} counted", printed.name);
        let grid = in_grid(cutting_line, printed.room);
        assert!(printed.foundations.len() <= grid, "{}: {counted} parts, {grid} in a grid", printed.name);
        let mirror = Transform::from_matrix([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);
        for turn in [0.0, 90.0, 33.0] {
            let image = mirror.then(Transform::turn(Angle::degrees(turn), Point::new(1.0, 2.0)));
            let image = image.apply_to_polygon(cutting_line);
            assert_eq!(parts_of(&image, printed.room), counted, "{}: turned {turn} degrees", printed.name);
        }
    }
}

#[test]
fn every_part_fits_its_sheet_with_all_that_is_drawn() {
    for printed in all() {
        let (width, height) = printed.room;
        for (k, part) in printed.foundations.iter().enumerate() {
            let name = format!("{} {}", printed.name, k + 1);
            assert!(
                part.width <= width + 1e-6 && part.height <= height + 1e-6,
                "{name}: {} {}",
                part.width,
                part.height
            );
            let (from, to) = part.footprint.bounds();
            assert!(from.x >= -1e-6 && from.y >= -1e-6 && to.x <= part.width + 1e-6 && to.y <= part.height + 1e-6);
            assert!(part.footprint.covers(&part.cutting_line, near()), "{name}");
            for item in &part.items {
                let places: Vec<Point> = match item {
                    Item::Text(text) => text_box(text).to_vec(),
                    Item::Path(path) => path.subpaths.iter().flat_map(Subpath::places).collect(),
                    Item::Window(_) | Item::Photo(_) => panic!("{name}: lines are clipped themselves"),
                };
                for place in places {
                    assert!(part.footprint.distance_outside(place) < 1e-3, "{name}: {place:?} is drawn outside");
                }
            }
        }
    }
}

#[test]
fn parts_cover_the_foundation_and_lap_where_they_meet() {
    for (printed, split) in in_parts() {
        let areas: Vec<Polygon> =
            printed.foundations.iter().map(|part| Printed::back(part).apply_to_polygon(&part.cutting_line)).collect();
        let mut left = vec![printed.cutting_line().clone()];
        for area in &areas {
            left = left.iter().flat_map(|rest| rest.without(area, Tolerance::of_extent(0.5))).collect();
        }
        let left: f64 = left.iter().map(Polygon::area).sum();
        assert!(left < 1e-2, "{}: {left} square inches are in no part", printed.name);
        for area in &areas {
            assert!(printed.cutting_line().covers(area, near()), "{}: a part is a part of the unit", printed.name);
        }
        // Where two parts meet but for the laps, both show half a lap more.
        for (i, cell) in split.cells.iter().enumerate() {
            for (j, other) in split.cells.iter().enumerate().filter(|(j, _)| *j > i) {
                let Some(seam) = cell.edges().find_map(|edge| shared(edge, other)) else { continue };
                let aside =
                    (seam.end - seam.start).unit().expect("a long stretch").quarter_turned() * (LAP / 2.0 - 1e-3);
                for place in (1..10).map(|k| seam.start.along(seam.end, f64::from(k) / 10.0)) {
                    for place in [place + aside, place - aside] {
                        let within = split.parts.iter().any(|part| part.distance_outside(place) == 0.0);
                        let both = [i, j].iter().all(|&k| split.parts[k].distance_outside(place) < 1e-6);
                        assert!(!within || both, "{}: parts {} and {} lap", printed.name, i + 1, j + 1);
                    }
                }
                let lapped = split.laps.iter().any(|lap| (lap.below, lap.above) == (i, j));
                assert!(lapped, "{}: parts {} and {} are glued", printed.name, i + 1, j + 1);
            }
        }
        for lap in &split.laps {
            let middle = lap.middle.line().expect("a lap is long");
            let (from, to) = lap.strip.extent(middle.direction().quarter_turned());
            assert!(to - from <= LAP + 1e-3, "{}: a lap is no wider than said", printed.name);
        }
    }
}

/// What of an edge of one cell an edge of another lies on, where that is longer than two laps.
fn shared(edge: Segment, other: &Polygon) -> Option<Segment> {
    let line = edge.line()?;
    other.edges().find_map(|of| {
        let near = [of.start, of.end].iter().all(|&end| line.distance_right(end).abs() < 1e-3);
        let (a, b) = (line.position(of.start), line.position(of.end));
        let (from, to) = (a.min(b).max(0.0), a.max(b).min(edge.length()));
        (near && to - from > 2.0 * LAP).then(|| Segment::new(line.at(from + LAP), line.at(to - LAP)))
    })
}

/// The crosses of a part in the unit's frame, each with its letter.
fn crosses(part: &Foundation) -> Vec<(Point, String)> {
    let back = Printed::back(part);
    let texts: Vec<&Text> =
        part.items.iter().filter_map(|item| if let Item::Text(text) = item { Some(text) } else { None }).collect();
    let mut found = Vec::new();
    for item in &part.items {
        let Item::Path(path) = item else { continue };
        let [first, second] = path.subpaths.as_slice() else { continue };
        let arms = [first, second].map(|arm| match arm.pieces.as_slice() {
            [Piece::Line(end)] => Segment::new(arm.start, *end),
            _ => Segment::new(arm.start, arm.start),
        });
        if path.layer != Layer::Marks || arms[0].middle().distance(arms[1].middle()) > 1e-6 || arms[0].length() < 0.1 {
            continue;
        }
        let at = arms[0].middle();
        let own = texts.iter().filter(|text| text.words.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit()));
        let own = own.filter(|text| text.words.starts_with(|c: char| c.is_ascii_lowercase()));
        let letter =
            own.min_by(|a, b| a.at.distance(at).total_cmp(&b.at.distance(at))).expect("a cross has its letter");
        assert!(letter.at.distance(at) < 0.2, "a cross has its letter beside it");
        found.push((back.apply(at), letter.words.clone()));
    }
    found
}

#[test]
fn crosses_of_one_letter_lie_on_each_other_and_hold_every_lap_twice() {
    let mut seen = 0;
    for (printed, split) in in_parts() {
        let by_part: Vec<Vec<(Point, String)>> = printed.foundations.iter().map(crosses).collect();
        for (k, marks) in by_part.iter().enumerate() {
            assert!(marks.len() >= 2, "{} {}: a part has crosses", printed.name, k + 1);
            for (at, letter) in marks {
                let twins = by_part.iter().flatten().filter(|(_, other)| other == letter).collect::<Vec<_>>();
                assert_eq!(twins.len(), 2, "{}: two crosses {letter}", printed.name);
                assert!(twins.iter().all(|(twin, _)| twin.distance(*at) < 1e-6), "{}: {letter}", printed.name);
            }
        }
        for lap in &split.laps {
            let letters = |part: usize| by_part[part].iter().map(|(_, letter)| letter);
            let common = letters(lap.below).filter(|letter| letters(lap.above).any(|other| other == *letter)).count();
            assert!(common >= 2, "{}: {} and {} have two crosses", printed.name, lap.below + 1, lap.above + 1);
            let apart = lap.marks[0].0.distance(lap.marks[1].0);
            assert!(apart > 0.3, "{}: {} and {} are {apart} apart", printed.name, lap.marks[0].1, lap.marks[1].1);
            seen += common;
        }
    }
    assert!(seen > 500, "{seen}");
}

/// The labels of sections on a part: the section's name, and the middle of its letters in the part's frame.
fn named<'p>(printed: &'p Printed, part: &'p Foundation) -> impl Iterator<Item = (String, Point)> + 'p {
    let names: Vec<String> =
        (1..=printed.variant().fabrics.len()).map(|k| format!("{}{k}", printed.variant().mark)).collect();
    part.items.iter().filter_map(move |item| {
        let Item::Text(text) = item else { return None };
        let corners = text_box(text);
        names.contains(&text.words).then(|| (text.words.clone(), corners[0].middle(corners[2])))
    })
}

#[test]
fn every_section_is_numbered_and_no_number_only_where_paper_is_glued_over_it() {
    for printed in all() {
        let mut open: Vec<String> = Vec::new();
        for (k, part) in printed.foundations.iter().enumerate() {
            let back = part.matrix.inverse().expect("not flattened");
            for (name, at) in named(printed, part) {
                let on_front = back.apply(at);
                let covered = printed.split.as_ref().is_some_and(|split| {
                    // The split lies on the printed side: the mirror image of the front, or not.
                    let at = if printed.variant().mirrored { on_front } else { Point::new(-on_front.x, on_front.y) };
                    split.laps.iter().any(|lap| lap.below == k && lap.strip.distance_outside(at) == 0.0)
                });
                if !covered {
                    open.push(name);
                }
            }
        }
        for k in 1..=printed.variant().fabrics.len() {
            let name = format!("{}{k}", printed.variant().mark);
            assert!(open.contains(&name), "{}: {name} stands on the paper that is sewn", printed.name);
        }
    }
}

#[test]
fn every_part_bears_the_map_with_its_own_place_grey() {
    for (printed, split) in in_parts() {
        for (k, part) in printed.foundations.iter().enumerate() {
            let cells: Vec<_> = part
                .items
                .iter()
                .filter_map(|item| match item {
                    Item::Path(path) if path.layer == Layer::Page => Some(path.fill),
                    _ => None,
                })
                .collect();
            assert_eq!(cells.len(), split.parts.len(), "{} {}: the map shows all parts", printed.name, k + 1);
            let is_grey = |&cell: &usize| cells[cell].is_some_and(|fill| fill != Colour::WHITE);
            let grey: Vec<usize> = (0..cells.len()).filter(is_grey).collect();
            assert_eq!(grey, [k], "{}: its own part is grey", printed.name);
        }
    }
}

/// Whether a seam of what is drawn lies within a tenth of an inch of the middle of a lap and within five degrees of its direction.
fn runs_along_a_seam(printed: &Printed, middle: Segment, to_printed: impl Fn(Segment) -> Segment) -> bool {
    let unit = printed.block().unit_of(printed.variant());
    let line = middle.line().expect("a lap is long");
    unit.sections.iter().filter_map(|section| section.seam).map(to_printed).any(|seam| {
        let along = (seam.end - seam.start).unit().expect("a seam is long");
        let parallel = along.cross(line.direction()).abs() < Angle::degrees(5.0).sin_cos().0;
        let beside = (0..=200).map(|k| seam.start.along(seam.end, f64::from(k) / 200.0)).any(|at| {
            let position = line.position(at);
            line.distance_right(at).abs() < 0.1 && position > 0.0 && position < middle.length()
        });
        parallel && beside
    })
}

/// The laps that run along a seam, each with the number of parts.
fn along_seams() -> Vec<(usize, String)> {
    let mut found = Vec::new();
    for (printed, split) in in_parts() {
        let mirrored = printed.variant().mirrored;
        let hand = |p: Point| if mirrored { p } else { Point::new(-p.x, p.y) };
        let to_printed = |seam: Segment| Segment::new(hand(seam.start), hand(seam.end));
        for lap in &split.laps {
            if runs_along_a_seam(printed, lap.middle, to_printed) {
                let name = format!("{}: {} and {}", printed.name, lap.below + 1, lap.above + 1);
                found.push((split.parts.len(), name));
            }
        }
    }
    found
}

#[test]
fn laps_do_not_run_along_seams() {
    let laps: usize = in_parts().map(|(_, split)| split.laps.len()).sum();
    let forced = along_seams();
    // Up to four parts there is always another place. Where many parts leave no play, a lap may have to, once in a while.
    let of_few: Vec<_> = forced.iter().filter(|(parts, _)| *parts <= 4).collect();
    assert!(of_few.is_empty(), "{of_few:?}");
    assert!(forced.len() * 200 <= laps, "{} of {laps} laps run along a seam: {forced:?}", forced.len());
}

#[test]
#[ignore = "tells numbers"]
fn numbers_of_parts() {
    let (mut total, mut of_grid) = (0, 0);
    let mut by_name: Vec<(String, usize, usize, usize, usize)> = Vec::new();
    for printed in all() {
        let name = printed.name.rsplit_once(' ').expect("a mark").0.to_owned();
        if by_name.last().is_none_or(|last| last.0 != name) {
            by_name.push((name, 0, 0, 0, 0));
        }
        let last = by_name.last_mut().expect("one was pushed");
        let grid = in_grid(printed.cutting_line(), printed.room);
        last.1 += usize::from(grid > 1);
        last.2 += grid;
        last.3 += usize::from(printed.split.is_some());
        last.4 += printed.foundations.len();
        total += printed.foundations.len();
        of_grid += grid;
    }
    for (name, grid_split, grid, split, parts) in by_name {
        println!("{name}: {grid_split} split in {grid} sheets before, {split} in {parts} now");
    }
    println!("{of_grid} before, {total} now");
    let begun = std::time::Instant::now();
    let counted: u32 = all().iter().map(|printed| parts_of(printed.cutting_line(), printed.room)).sum();
    println!("{} foundations counted in {:?}: {counted}", all().len(), begun.elapsed());
    let laps: usize = in_parts().map(|(_, split)| split.laps.len()).sum();
    println!("of {laps} laps along seams: {:#?}", along_seams());
}
