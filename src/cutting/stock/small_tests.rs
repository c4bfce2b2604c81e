//! Plans of a few sizes against all plans there are, found another way: by the least length for each number of pieces of each size.

use super::number::Dice;
use super::{Budget, Demand, Problem, plan};

/// The least length for all pieces: for any numbers of pieces left, some of them come from one strip and the others from the rest.
fn least(problem: &Problem) -> u64 {
    let sets = sets(problem);
    let heights: Vec<Option<u64>> = sets.iter().map(|set| strip(problem, set)).collect();
    let mut least = vec![0; sets.len()];
    for (left, set) in sets.iter().enumerate().skip(1) {
        let within = |part: &Vec<u32>| part.iter().zip(set).all(|(part, whole)| part <= whole);
        let parts = sets[..=left].iter().enumerate().skip(1).filter(|(_, part)| within(part));
        // Sets are numbered so that what is left has the difference of the numbers.
        least[left] = parts.filter_map(|(part, _)| Some(heights[part]? + least[left - part])).min().unwrap();
    }
    least[sets.len() - 1]
}

/// All numbers of pieces of each size, from none on.
fn sets(problem: &Problem) -> Vec<Vec<u32>> {
    let mut sets = vec![Vec::new()];
    for demand in &problem.demands {
        let more = |set: Vec<u32>| (0..=demand.count).map(move |count| [set.as_slice(), &[count]].concat());
        sets = sets.into_iter().flat_map(more).collect();
    }
    sets
}

/// The height of the lowest strip for these pieces; none if they do not fit side by side.
fn strip(problem: &Problem, set: &[u32]) -> Option<u64> {
    let sides = problem.demands.iter().flat_map(|it| [it.width, it.height]);
    let heights = sides.filter(|&height| {
        let width = |(demand, &count): (&Demand, &u32)| {
            let upright = (demand.height <= height).then_some(demand.width);
            let turned = (demand.turnable && demand.width <= height).then_some(demand.height);
            let narrowest = upright.into_iter().chain(turned).min();
            if count == 0 { Some(0) } else { Some(narrowest? * count) }
        };
        problem.demands.iter().zip(set).map(width).sum::<Option<u32>>().is_some_and(|width| width <= problem.width)
    });
    heights.min().map(u64::from)
}

fn assert_least(problem: &Problem) {
    let plan = plan(problem, Budget::USUAL).unwrap();
    assert!(plan.proved, "{problem:?}");
    assert_eq!(plan.length, least(problem), "{problem:?}");
}

#[test]
fn few_sizes_are_proved_and_as_short_as_any() {
    let mut dice = Dice(29);
    let mut number =
        |from: u32, to: u32| from + u32::try_from(dice.below(usize::try_from(to - from + 1).unwrap())).unwrap();
    for round in 0..80 {
        let width = number(20, 80);
        let turnable = round % 2 == 1;
        let sizes = number(2, 3);
        let demands = (0..sizes).map(|_| Demand {
            width: number(3, width / 2),
            height: number(3, width / 2),
            count: number(5 / sizes + 1, 30 / sizes),
            turnable,
        });
        let demands = demands.collect();
        assert_least(&Problem { width, demands, heights: None });
    }
}

#[test]
fn a_strip_turned_and_one_laid_flat_do_better_than_either() {
    let demand = |width| Demand { width, height: 17_500, count: 12, turnable: true };
    let problem = Problem { width: 400_000, demands: vec![demand(41_250), demand(33_750)], heights: None };
    assert_least(&problem);
    // Twelve turned and four flat in a strip of 33,750, the other eight flat in one of 17,500.
    assert_eq!(plan(&problem, Budget::USUAL).unwrap().length, 51_250);
}

#[test]
fn a_plan_of_three_sizes_is_proved() {
    let demand = |width, height, count| Demand { width, height, count, turnable: true };
    let inches = vec![demand(28_750, 16_250, 96), demand(17_500, 17_500, 24), demand(20_000, 15_000, 36)];
    let millimetres = vec![demand(950, 650, 24), demand(950, 600, 12), demand(900, 500, 24)];
    for (width, demands) in [(400_000, inches), (10_200, millimetres)] {
        let plan = plan(&Problem { width, demands, heights: None }, Budget::USUAL).unwrap();
        assert!(plan.proved, "{plan:?}");
    }
}
