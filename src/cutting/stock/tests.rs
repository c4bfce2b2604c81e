//! Plans against what can be counted out, and against exhaustive search.

use std::collections::BTreeMap;

use super::number::Dice;
use super::{Budget, Demand, Plan, Problem, Refusal, Strip, few_heights, plan, sheets};

const LITTLE: Budget = Budget(2_000_000);

/// Asserts what every plan obeys: all pieces, each as often as asked, side by side within the width, none higher than its strip.
fn assert_cut<'s>(problem: &Problem, strips: impl Iterator<Item = &'s Strip>) -> u64 {
    let mut counts = vec![0_u64; problem.demands.len()];
    let mut length = 0;
    for strip in strips {
        let (mut along, mut highest) = (0, 0);
        for piece in &strip.pieces {
            let demand = problem.demands[piece.demand];
            assert!(demand.turnable || !piece.turned);
            let (width, height) =
                if piece.turned { (demand.height, demand.width) } else { (demand.width, demand.height) };
            along += u64::from(width) * u64::from(piece.count);
            highest = highest.max(height);
            counts[piece.demand] += u64::from(piece.count) * u64::from(strip.times);
        }
        assert!(along <= u64::from(problem.width));
        match &problem.heights {
            None => assert_eq!(strip.height, highest),
            Some(heights) => assert!(strip.height >= highest && heights.contains(&strip.height)),
        }
        length += u64::from(strip.height) * u64::from(strip.times);
    }
    assert_eq!(counts, problem.demands.iter().map(|demand| u64::from(demand.count)).collect::<Vec<_>>());
    length
}

fn assert_plan(problem: &Problem, plan: &Plan) {
    assert_eq!(assert_cut(problem, plan.strips.iter()), plan.length);
    assert!(plan.bound <= plan.length);
    assert_eq!(plan.proved, plan.bound == plan.length);
    let area: u64 =
        problem.demands.iter().map(|it| u64::from(it.width) * u64::from(it.height) * u64::from(it.count)).sum();
    assert!(plan.bound * u64::from(problem.width) >= area);
}

/// All ways to cut the pieces, strip by strip, each with the first piece left: whatever `weigh` makes of the heights of the strips, the least of it.
fn least<T: Ord + Copy>(problem: &Problem, weigh: &dyn Fn(&mut Vec<u32>) -> T) -> T {
    let mut pieces: Vec<Demand> = Vec::new();
    for demand in &problem.demands {
        pieces.extend((0..demand.count).map(|_| *demand));
    }
    let mut strips: Vec<(u32, u32)> = Vec::new();
    let mut best = None;
    place(problem.width, &pieces, &mut strips, &mut |strips| {
        let value = weigh(&mut strips.iter().map(|strip| strip.0).collect());
        best = Some(best.map_or(value, |best: T| best.min(value)));
    });
    best.expect("a plan")
}

/// Called with the height and the used width of each strip.
type Found<'f> = &'f mut dyn FnMut(&[(u32, u32)]);

/// Puts the first piece on every strip that has room and on one of its own, then the next.
fn place(width: u32, pieces: &[Demand], strips: &mut Vec<(u32, u32)>, found: Found) {
    let Some((piece, rest)) = pieces.split_first() else { return found(strips) };
    let mut ways = vec![(piece.width, piece.height)];
    if piece.turnable && piece.width != piece.height {
        ways.push((piece.height, piece.width));
    }
    for (along, height) in ways {
        for at in 0..=strips.len() {
            if at == strips.len() {
                if along <= width {
                    strips.push((height, along));
                    place(width, rest, strips, found);
                    strips.pop();
                }
                continue;
            }
            let before = strips[at];
            if before.1 + along <= width {
                strips[at] = (before.0.max(height), before.1 + along);
                place(width, rest, strips, found);
                strips[at] = before;
            }
        }
    }
}

/// The fewest sheets of this height for strips of these heights, by trying all.
fn fewest_sheets(heights: &[u32], room: u32, sheets: &mut Vec<u32>, best: &mut usize) {
    if sheets.len() >= *best {
        return;
    }
    let Some((height, rest)) = heights.split_first() else {
        *best = sheets.len();
        return;
    };
    for at in 0..=sheets.len() {
        if at == sheets.len() {
            sheets.push(*height);
            fewest_sheets(rest, room, sheets, best);
            sheets.pop();
        } else if sheets[at] + height <= room {
            sheets[at] += height;
            fewest_sheets(rest, room, sheets, best);
            sheets[at] -= height;
        }
    }
}

fn number(dice: &mut Dice, from: u32, to: u32) -> u32 {
    from + u32::try_from(dice.below(usize::try_from(to - from + 1).unwrap())).unwrap()
}

/// A few sizes on cloth of 8 to 30 units.
fn small(dice: &mut Dice, sizes: u32, copies: u32, turnable: bool) -> Problem {
    let width = number(dice, 8, 30);
    let demands = (0..number(dice, 1, sizes)).map(|_| Demand {
        width: number(dice, 1, width),
        height: number(dice, 1, width),
        count: number(dice, 0, copies),
        turnable: turnable && number(dice, 0, 3) > 0,
    });
    let demands = demands.collect();
    Problem { width, demands, heights: None }
}

#[test]
fn small_plans_are_as_short_as_any_and_no_bound_is_longer() {
    let mut dice = Dice(7);
    let mut proved = 0;
    for round in 0..300 {
        let problem = small(&mut dice, 4, 2, round % 2 == 1);
        let plan = plan(&problem, LITTLE).unwrap();
        assert_plan(&problem, &plan);
        let least = least(&problem, &|heights| heights.iter().map(|height| u64::from(*height)).sum::<u64>());
        assert!(plan.bound <= least, "{problem:?}");
        assert_eq!(plan.length, least, "{problem:?}");
        proved += u32::from(plan.proved);
    }
    assert!(proved >= 270, "{proved} of 300 proved");
}

#[test]
fn ten_thousand_small_problems_obey_the_laws() {
    let mut dice = Dice(11);
    for round in 0..10_000_u32 {
        let problem = small(&mut dice, 9, 6, round % 2 == 1);
        assert_plan(&problem, &plan(&problem, Budget(30_000)).unwrap());
    }
}

#[test]
fn strips_have_as_few_heights_as_can_be_within_a_length() {
    let mut dice = Dice(13);
    for round in 0..100 {
        let problem = small(&mut dice, 4, 2, round % 2 == 1);
        let best = plan(&problem, LITTLE).unwrap();
        let most = best.length + u64::from(number(&mut dice, 0, 8));
        let few = few_heights(&problem, most, LITTLE).unwrap().expect("the best plan is short enough");
        let cut = Problem { heights: Some(few.heights.clone()), ..problem.clone() };
        assert_eq!(assert_cut(&cut, few.plan.strips.iter()), few.plan.length);
        assert!(few.plan.length <= most && few.fewest <= few.heights.len());
        // Strips may be cut higher than their highest piece: the least length with one height, or with two, and so on.
        let fewest = (0..=few.heights.len())
            .find(|&count| {
                least(&problem, &|heights| {
                    heights.sort_unstable();
                    length_with(heights, count)
                }) <= most
            })
            .expect("the plan found is one");
        assert!(few.fewest <= fewest);
        assert_eq!(few.heights.len(), fewest, "{problem:?} within {most}");
    }
}

/// The length of strips of these rising heights when they are made higher until so many heights differ.
fn length_with(heights: &[u32], count: usize) -> u64 {
    match (heights.last(), count) {
        (None, _) => 0,
        (_, 0) => u64::MAX,
        (Some(&highest), _) => (0..heights.len())
            .map(|from| {
                let group = u64::from(highest) * u64::try_from(heights.len() - from).unwrap();
                length_with(&heights[..from], count - 1).saturating_add(group)
            })
            .min()
            .unwrap_or(0),
    }
}

#[test]
fn small_problems_take_as_few_sheets_as_can_be() {
    let mut dice = Dice(17);
    let mut proved = 0;
    for round in 0..150 {
        let problem = small(&mut dice, 4, 2, round % 2 == 1);
        let height = problem.width + number(&mut dice, 0, 10);
        let found = sheets(&problem, height, LITTLE).unwrap();
        assert_cut(&problem, found.sheets.iter().flat_map(|sheet| &sheet.strips));
        for sheet in &found.sheets {
            let length: u64 = sheet.strips.iter().map(|it| u64::from(it.height) * u64::from(it.times)).sum();
            assert!(length == sheet.length && length <= u64::from(height));
        }
        let least = least(&problem, &|heights| {
            let mut best = heights.len() + 1;
            fewest_sheets(heights, height, &mut Vec::new(), &mut best);
            best
        });
        assert!(found.bound <= u64::try_from(least).unwrap(), "{problem:?} {height}");
        assert_eq!(found.sheets.len(), least, "{problem:?} {height}");
        proved += u32::from(found.proved);
    }
    assert!(proved >= 130, "{proved} of 150 proved");
}

fn demand(width: u32, height: u32, count: u32, turnable: bool) -> Demand {
    Demand { width, height, count, turnable }
}

#[test]
fn nothing_to_cut_takes_nothing() {
    for demands in [vec![], vec![demand(5, 3, 0, true), demand(500, 3, 0, false)]] {
        let problem = Problem { width: 40, demands, heights: None };
        let plan = plan(&problem, Budget::USUAL).unwrap();
        assert_eq!((plan.strips.len(), plan.length, plan.proved), (0, 0, true));
        assert_eq!(sheets(&problem, 10, Budget::USUAL).unwrap().sheets, []);
        assert_eq!(few_heights(&problem, 0, Budget::USUAL).unwrap().map(|few| few.fewest), Some(0));
    }
}

#[test]
fn what_fits_no_way_is_told() {
    let demands = vec![demand(41, 3, 1, false), demand(41, 3, 1, true), demand(41, 42, 1, true), demand(0, 1, 1, true)];
    let problem = Problem { width: 40, demands, heights: None };
    assert_eq!(plan(&problem, Budget::USUAL), Err(Refusal::Misfits(vec![0, 2, 3])));
    let high = Problem { width: 40, demands: vec![demand(3, 12, 1, false), demand(3, 12, 1, true)], heights: None };
    assert_eq!(sheets(&high, 10, Budget::USUAL).err(), Some(Refusal::Misfits(vec![0])));
    let most = u32::MAX;
    let huge = Problem { width: most, demands: vec![demand(most, most, most, true)], heights: None };
    assert_eq!(plan(&huge, Budget::USUAL), Err(Refusal::TooMuch));
}

#[test]
fn extremes_are_planned() {
    let million = Problem { width: 400_000, demands: vec![demand(27_071, 31_250, 1_000_000, true)], heights: None };
    let wide = Problem { width: 40, demands: vec![demand(40, 3, 7, false), demand(3, 40, 2, true)], heights: None };
    let mut dice = Dice(3);
    let many = (0..300).map(|_| {
        demand(
            number(&mut dice, 1_000, 90_000),
            number(&mut dice, 1_000, 90_000),
            number(&mut dice, 1, 1_000_000),
            true,
        )
    });
    let many = Problem { width: 400_000, demands: many.collect(), heights: None };
    for problem in [million, wide, many] {
        let plan = plan(&problem, LITTLE).unwrap();
        assert_plan(&problem, &plan);
    }
}

#[test]
fn the_same_problem_has_the_same_plan_and_its_order_does_not_matter_to_the_bound() {
    let mut dice = Dice(23);
    for _ in 0..20 {
        let problem = small(&mut dice, 9, 5, true);
        let first = plan(&problem, LITTLE).unwrap();
        assert_eq!(first, plan(&problem, LITTLE).unwrap());
        let mut turned = problem.clone();
        turned.demands.reverse();
        assert_eq!(plan(&turned, LITTLE).unwrap().length, first.length);
    }
}

/// Instances by name, from the text of a file of the bench.
fn instances(text: &str) -> BTreeMap<&str, Problem> {
    let mut instances = BTreeMap::new();
    let mut name = "";
    for line in text.lines() {
        let words: Vec<&str> = line.split_whitespace().collect();
        let numbers: Vec<u32> = words.iter().filter_map(|word| word.parse().ok()).collect();
        if let (4, &[width, ..]) = (words.len(), numbers.as_slice()) {
            name = words[0];
            instances.insert(name, Problem { width, ..Problem::default() });
        } else if let (Some(problem), &[width, height, count]) = (instances.get_mut(name), numbers.as_slice()) {
            problem.demands.push(demand(width, height, count, false));
        }
    }
    instances
}

#[test]
fn bounds_are_those_published() {
    let known = [
        (include_str!("../../../benches/instances/gcut-d.txt"), "gcut1d", 51_583),
        (include_str!("../../../benches/instances/gcut-d.txt"), "gcut2d", 77_370),
        (include_str!("../../../benches/instances/gcut-d.txt"), "gcut5d", 91_177),
        (include_str!("../../../benches/instances/atp.txt"), "ATP42", 4_225),
        (include_str!("../../../benches/instances/atp.txt"), "ATP45", 4_270),
    ];
    for (text, name, bound) in known {
        let problem = &instances(text)[name];
        let plan = plan(problem, Budget(20_000_000)).unwrap();
        assert_plan(problem, &plan);
        // Branching may raise it further.
        assert!(plan.bound >= bound, "{name}: {}", plan.bound);
        assert!(plan.bound * 1000 <= bound * 1005, "{name}: {}", plan.bound);
    }
}
