//! Laws of every filling, on made-up tasks.

use super::number::Dice;
use super::{
    Budget, Filled, FormerSheet, Medium, Page, Place, Shape, Task, Turning, Wish, fill, fill_keeping, fits, nearest,
};
use crate::geometry::{Angle, Point, Polygon, Tolerance, Vector};

fn polygon(corners: &[(f64, f64)]) -> Polygon {
    let path: Vec<Point> = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Polygon::try_new(&path, Tolerance::of_extent(1.0)).unwrap()
}

fn rectangle(width: f64, height: f64) -> Polygon {
    polygon(&[(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)])
}

fn pages(width: f64, height: f64) -> Page {
    Page { width, height, medium: Medium::Pages }
}

fn task(shapes: Vec<Shape>) -> Task {
    Task {
        shapes,
        page: pages(7.5, 8.6),
        gap: 0.0,
        turning: Turning::Quarters,
        wish: Wish::FewestPrinted,
        effort: Budget::QUICK,
    }
}

/// A triangle, trapezoid or rectangle anywhere in its frame.
fn shape(dice: &mut Dice, most: f64, copies: u32) -> Shape {
    let (width, height) = (0.6 + dice.roll() * most, 0.6 + dice.roll() * most);
    let (x, y) = (dice.roll() * 9.0 - 4.0, dice.roll() * 9.0 - 4.0);
    let (a, b) = (dice.roll() * width * 0.5, width * (0.5 + dice.roll() * 0.5));
    let corners = match dice.below(3) {
        0 => vec![(x, y), (x + width, y), (x + a, y + height)],
        1 => vec![(x, y), (x + width, y), (x + b, y + height), (x + a, y + height)],
        _ => vec![(x, y), (x + width, y), (x + width, y + height), (x, y + height)],
    };
    Shape { outline: polygon(&corners), copies }
}

fn made_up(seed: u64) -> Task {
    let mut dice = Dice(seed);
    let kinds = 1 + dice.below(7);
    let shapes = (0..kinds)
        .map(|_| {
            let copies = [1, 2, 4, 8, 12][dice.below(5)];
            shape(&mut dice, 4.0, copies)
        })
        .collect();
    let gap = [0.0, 0.125, 0.25][dice.below(3)];
    Task { gap, ..task(shapes) }
}

/// What holds of every filling.
fn lawful(task: &Task, filled: &Filled) {
    let mut counts = vec![0_u32; task.shapes.len()];
    for sheet in &filled.sheets {
        assert!(sheet.times > 0 && !sheet.places.is_empty());
        let mut reach = 0.0_f64;
        let laid: Vec<Polygon> = sheet
            .places
            .iter()
            .map(|place| {
                counts[place.shape] += sheet.times;
                place.transform().apply_to_polygon(&task.shapes[place.shape].outline)
            })
            .collect();
        for (i, one) in laid.iter().enumerate() {
            let (low, high) = one.bounds();
            assert!(low.x >= -1e-6 && low.y >= -1e-6, "{low:?}");
            assert!(high.x <= task.page.width + 1e-6 && high.y <= task.page.height + 1e-6, "{high:?}");
            reach = reach.max(high.y);
            for other in &laid[i + 1..] {
                assert!(nearest(one, other) >= task.gap - 1e-6, "{} apart", nearest(one, other));
                assert!(
                    one.intersection(other, Tolerance::of_extent(0.01)).is_none_or(|both| both.area() < 1e-5),
                    "outlines overlap"
                );
            }
        }
        assert!((reach - sheet.length).abs() < 1e-6);
    }
    for (count, shape) in counts.iter().zip(&task.shapes) {
        assert!(*count >= shape.copies, "{count} of {}", shape.copies);
    }
    assert!(filled.printed_bound <= filled.printed());
    assert!(filled.different_bound as usize <= filled.different());
    assert!(filled.length_bound <= filled.length() + 1e-9);
}

#[test]
fn every_filling_is_lawful_and_the_same_again() {
    for seed in 0..6 {
        let task = made_up(seed);
        let filled = fill(&task).unwrap();
        lawful(&task, &filled);
        assert_eq!(filled, fill(&task).unwrap(), "seed {seed}");
    }
}

#[test]
fn more_ways_to_turn_never_take_more_sheets() {
    for seed in 20..24 {
        let printed = [Turning::Freely, Turning::Quarters, Turning::Fixed].map(|turning| {
            let task = Task { turning, ..made_up(seed) };
            let filled = fill(&task).unwrap();
            lawful(&task, &filled);
            filled.printed()
        });
        assert!(printed[0] <= printed[1] && printed[1] <= printed[2], "seed {seed}: {printed:?}");
    }
}

#[test]
fn each_wish_is_no_worse_by_its_own_measure() {
    for seed in 30..33 {
        let fewest = made_up(seed);
        let printed = fill(&fewest).unwrap();
        for surplus in [0.0, 0.34] {
            let task = Task { wish: Wish::FewestDifferent { surplus }, ..fewest.clone() };
            let different = fill(&task).unwrap();
            lawful(&task, &different);
            assert!(different.different() <= printed.different(), "seed {seed}");
            let most = (f64::from(printed.printed()) * (1.0 + surplus) + 1e-9).floor();
            assert!(f64::from(different.printed()) <= most, "seed {seed}");
        }
    }
}

#[test]
fn on_a_roll_the_length_counts() {
    for seed in 40..42 {
        let page = Page { width: 11.0, height: 24.0, medium: Medium::Roll };
        let task = Task { page, ..made_up(seed) };
        lawful(&task, &fill(&task).unwrap());
    }
}

#[test]
fn what_was_laid_stays_where_it_was() {
    for seed in 50..52 {
        let task = made_up(seed);
        let filled = fill(&task).unwrap();
        let former: Vec<FormerSheet> = filled
            .sheets
            .iter()
            .map(|sheet| FormerSheet { places: sheet.places.clone(), times: sheet.times })
            .collect();
        let again = fill_keeping(&task, &former).unwrap();
        lawful(&task, &again);
        assert!(again.printed() <= filled.printed());
        assert!(again.kept, "seed {seed}");
        for sheet in &again.sheets {
            let stays = |place: &Place| {
                former.iter().flat_map(|sheet| &sheet.places).any(|was| {
                    was.shape == place.shape && was.turn == place.turn && (was.shift + -place.shift).length() < 1e-9
                })
            };
            assert!(sheet.places.iter().all(stays), "seed {seed}");
        }
        // One shape is cut off and one comes: what else was there stays or the sheets are fewer.
        let mut changed = task.clone();
        changed.shapes.push(shape(&mut Dice(seed), 2.0, 4));
        changed.shapes[0].copies = 0;
        let after = fill_keeping(&changed, &former).unwrap();
        lawful(&changed, &after);
        assert!(after.printed() <= fill(&changed).unwrap().printed());
    }
}

#[test]
fn former_places_that_overlap_or_leave_the_page_do_not_stand() {
    let task = task(vec![Shape { outline: rectangle(2.0, 2.0), copies: 3 }]);
    let at = |x: f64, y: f64| Place { shape: 0, turn: Angle::default(), shift: Vector::new(x, y) };
    let former = [FormerSheet { places: vec![at(5.0, 5.0), at(4.0, 4.0), at(6.0, 1.0)], times: 1 }];
    let filled = fill_keeping(&task, &former).unwrap();
    lawful(&task, &filled);
    assert!(filled.kept && filled.printed() == 1);
    assert!(filled.sheets[0].places.contains(&at(5.0, 5.0)));
    assert!(!filled.sheets[0].places.contains(&at(4.0, 4.0)) && !filled.sheets[0].places.contains(&at(6.0, 1.0)));
}

#[test]
fn a_shape_fits_just_when_a_fine_sweep_of_turns_says_so() {
    for seed in 0..60 {
        let mut dice = Dice(seed);
        let outline = shape(&mut dice, 8.0, 1).outline;
        let (width, height) = (2.0 + dice.roll() * 5.0, 2.0 + dice.roll() * 5.0);
        let turned = |degrees: f64| {
            let place = Place { shape: 0, turn: Angle::degrees(degrees), shift: Vector::default() };
            let (low, high) = place.transform().apply_to_polygon(&outline).bounds();
            (high.x - low.x - width).max(high.y - low.y - height)
        };
        let swept = (0..3600).any(|tenth| turned(f64::from(tenth) / 10.0) <= 0.0);
        let found = fits(&outline, width, height, Turning::Freely);
        assert!(found.is_none_or(|turn| turned(turn.to_degrees()) < 1e-8));
        assert!(found.is_some() || !swept, "seed {seed}");
    }
}

#[test]
fn a_long_bar_fits_across() {
    let bar = rectangle(11.0, 0.5);
    assert_eq!(fits(&bar, 8.0, 10.0, Turning::Quarters), None);
    let turn = fits(&bar, 8.0, 10.0, Turning::Freely).unwrap();
    assert!(turn.to_degrees() > 0.0);
    let task =
        Task { turning: Turning::Freely, page: pages(8.0, 10.0), ..task(vec![Shape { outline: bar, copies: 2 }]) };
    let filled = fill(&task).unwrap();
    lawful(&task, &filled);
}

#[test]
fn what_fits_nowhere_is_told() {
    let shapes = vec![
        Shape { outline: rectangle(2.0, 2.0), copies: 1 },
        Shape { outline: rectangle(20.0, 2.0), copies: 0 },
        Shape { outline: rectangle(20.0, 2.0), copies: 1 },
    ];
    assert_eq!(fill(&task(shapes)), Err(2));
}

#[test]
fn nothing_takes_no_sheet() {
    for shapes in [vec![], vec![Shape { outline: rectangle(1.0, 1.0), copies: 0 }]] {
        let filled = fill(&task(shapes)).unwrap();
        assert!(filled.sheets.is_empty() && filled.complete);
    }
}

#[test]
fn huge_and_odd_tasks_end() {
    let mut dice = Dice(9);
    let many = task((0..300).map(|_| shape(&mut dice, 3.0, 1)).collect());
    let copies = task(vec![shape(&mut dice, 2.0, 1_000), shape(&mut dice, 3.0, 1_000)]);
    let tiny = Task { gap: 0.125, ..task(vec![Shape { outline: rectangle(0.01, 0.01), copies: 5_000 }]) };
    let most = task(vec![Shape { outline: rectangle(3.0, 3.0), copies: u32::MAX }]);
    let apart = Task { gap: 20.0, ..task(vec![Shape { outline: rectangle(0.01, 0.01), copies: 3 }]) };
    for task in [many, copies, tiny, most, apart] {
        let filled = fill(&task).unwrap();
        if task.shapes[0].copies < 2_000 {
            lawful(&task, &filled);
        }
        assert!(filled.printed() > 0);
    }
}

#[test]
fn nearest_tells_distances() {
    let square = rectangle(1.0, 1.0);
    let at = |x: f64, y: f64| polygon(&[(x, y), (x + 1.0, y), (x + 1.0, y + 1.0), (x, y + 1.0)]);
    assert!((nearest(&square, &at(4.0, 5.0)) - 5.0).abs() < 1e-12);
    assert!((nearest(&square, &at(0.5, 3.0)) - 2.0).abs() < 1e-12);
    assert_eq!(nearest(&square, &at(0.5, 0.5)), 0.0);
    assert_eq!(nearest(&square, &square), 0.0);
}

/// How many pages integer rectangles take at least when none is turned: every subset is laid in every way at whole places.
fn exhaustive(sizes: &[(usize, usize)], page: usize) -> u32 {
    fn lay(sizes: &[(usize, usize)], left: &[usize], page: usize, taken: &mut Vec<bool>) -> bool {
        let Some((&first, rest)) = left.split_first() else { return true };
        let (width, height) = sizes[first];
        for y in 0..=page - height {
            for x in 0..=page - width {
                let cells: Vec<usize> =
                    (y..y + height).flat_map(|y| (x..x + width).map(move |x| y * page + x)).collect();
                if cells.iter().any(|&cell| taken[cell]) {
                    continue;
                }
                for &cell in &cells {
                    taken[cell] = true;
                }
                let laid = lay(sizes, rest, page, taken);
                for &cell in &cells {
                    taken[cell] = false;
                }
                if laid {
                    return true;
                }
            }
        }
        false
    }
    let subsets = 1_usize << sizes.len();
    let members = |set: usize| (0..sizes.len()).filter(|i| set >> i & 1 == 1).collect::<Vec<_>>();
    let one: Vec<bool> =
        (0..subsets).map(|set| lay(sizes, &members(set), page, &mut vec![false; page * page])).collect();
    let mut pages = vec![0_u32; subsets];
    for set in 1..subsets {
        let parts = (1..=set).filter(|part| part & set == *part && one[*part]);
        pages[set] = parts.map(|part| pages[set & !part] + 1).min().unwrap();
    }
    pages[subsets - 1]
}

#[test]
fn few_rectangles_take_as_few_pages_as_an_exhaustive_search_finds() {
    for seed in 0..12 {
        let mut dice = Dice(seed);
        let sizes: Vec<(usize, usize)> = (0..6).map(|_| (1 + dice.below(4), 1 + dice.below(4))).collect();
        let inches = |number: usize| f64::from(u32::try_from(number).unwrap());
        let shapes = sizes
            .iter()
            .map(|&(width, height)| Shape { outline: rectangle(inches(width), inches(height)), copies: 1 })
            .collect();
        let task = Task { page: pages(5.0, 5.0), turning: Turning::Fixed, ..task(shapes) };
        let filled = fill(&task).unwrap();
        lawful(&task, &filled);
        assert_eq!(filled.printed(), exhaustive(&sizes, 5), "seed {seed}");
    }
}

#[test]
fn published_sets_take_no_more_sheets_than_a_public_solver_found() {
    let sets: serde_json::Value = serde_json::from_str(include_str!("../../benches/instances/pages.json")).unwrap();
    for set in sets.as_array().unwrap() {
        let name = set["name"].as_str().unwrap();
        if !["a11", "a13", "a18", "b12", "b16"].contains(&name) {
            continue;
        }
        let number = |value: &serde_json::Value| u32::try_from(value.as_u64().unwrap()).unwrap();
        let corners = |shape: &serde_json::Value| {
            let corners = shape["corners"].as_array().unwrap().iter();
            corners.map(|at| (at[0].as_f64().unwrap(), at[1].as_f64().unwrap())).collect::<Vec<_>>()
        };
        let shapes = set["shapes"].as_array().unwrap().iter();
        let shapes = shapes.map(|shape| Shape { outline: polygon(&corners(shape)), copies: number(&shape["copies"]) });
        let task = Task { page: pages(7.5, 10.0), ..task(shapes.collect()) };
        let filled = fill(&task).unwrap();
        lawful(&task, &filled);
        assert!(filled.printed() <= number(&set["solver_sheets"]), "{name}: {}", filled.printed());
        assert!(filled.different() <= number(&set["solver_different"]) as usize, "{name}: {}", filled.different());
    }
}

#[test]
fn shapes_of_which_no_two_fit_together_take_a_page_each() {
    let shapes = vec![
        Shape { outline: rectangle(5.0, 5.0), copies: 3 },
        Shape { outline: rectangle(4.4, 6.0), copies: 2 },
        Shape { outline: rectangle(1.0, 1.0), copies: 8 },
    ];
    let task = Task { page: pages(8.0, 8.0), ..task(shapes) };
    let filled = fill(&task).unwrap();
    lawful(&task, &filled);
    assert_eq!((filled.printed(), filled.printed_bound), (5, 5));
    assert!(filled.complete);
    // With a gap two squares that would just fit no longer do.
    let two = |gap: f64| Task {
        page: pages(8.0, 8.0),
        gap,
        ..super::tests::task(vec![Shape { outline: rectangle(4.0, 4.0), copies: 2 }])
    };
    assert_eq!(fill(&two(0.0)).unwrap().printed_bound, 1);
    assert_eq!(fill(&two(0.1)).unwrap().printed_bound, 2);
}

#[test]
fn few_different_sheets_are_found_where_copies_share_a_divisor() {
    let mut dice = Dice(77);
    let shapes = (0..6).map(|_| shape(&mut dice, 2.0, 12)).collect();
    let task = Task { gap: 0.125, ..task(shapes) };
    let filled = fill(&task).unwrap();
    lawful(&task, &filled);
    assert!(filled.different() <= 2, "{} different", filled.different());
    for sheet in &filled.sheets {
        // Nothing hangs in the middle of nowhere: something lies at the top.
        let top = sheet
            .places
            .iter()
            .map(|place| place.transform().apply_to_polygon(&task.shapes[place.shape].outline).bounds().0.y);
        assert!(top.fold(f64::INFINITY, f64::min) < 1e-6);
    }
}
