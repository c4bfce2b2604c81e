//! Strips packed on sheets: bin packing in one dimension.

use std::cmp::Reverse;

use super::core::Core;
use super::greedy::{Cut, length};
use super::number::Steps;
use super::price::Pattern;

/// The most sets of strips that are looked at for one sheet.
const SETS: usize = 2_000;

/// The strips on sheets of this height, each no higher than a sheet: by best fit from the highest strip on, and sheet by sheet, each as full as can be
/// (Gupta and Ho 1999); the better of both.
pub(super) fn pack(core: &Core, cut: &Cut, room: u64, steps: &mut Steps) -> Vec<Cut> {
    let mut strips: Vec<&Pattern> = Vec::new();
    for (pattern, times) in cut {
        strips.extend((0..*times).map(|_| pattern));
    }
    strips.sort_by_key(|pattern| (Reverse(core.heights[pattern.height]), *pattern));
    steps.take(strips.len() * strips.len());
    let packings = [fitted(core, &strips, room), filled(core, &strips, room, steps)];
    let rank = |packed: &Vec<Cut>| (packed.len(), packed.iter().map(|cut| length(core, cut)).min());
    packings.into_iter().min_by_key(rank).unwrap_or_default()
}

fn fitted(core: &Core, strips: &[&Pattern], room: u64) -> Vec<Cut> {
    let mut sheets: Vec<(u64, Cut)> = Vec::new();
    for &strip in strips {
        let height = core.heights[strip.height];
        let fits = sheets.iter_mut().filter(|(left, _)| *left >= height);
        match fits.min_by_key(|(left, _)| *left) {
            Some((left, cut)) => {
                *left -= height;
                cut.push((strip.clone(), 1));
            }
            None => sheets.push((room.saturating_sub(height), vec![(strip.clone(), 1)])),
        }
    }
    sheets.into_iter().map(|(_, cut)| cut).collect()
}

fn filled(core: &Core, strips: &[&Pattern], room: u64, steps: &mut Steps) -> Vec<Cut> {
    let mut left: Vec<&Pattern> = strips.to_vec();
    let mut sheets = Vec::new();
    while let Some((first, others)) = left.split_first() {
        let mut fill = Fill { heights: others.iter().map(|it| core.heights[it.height]).collect(), sets: 0, best: None };
        fill.grow(0, room.saturating_sub(core.heights[first.height]), &mut Vec::new());
        steps.take(fill.sets * 10);
        let taken = fill.best.map_or_else(Vec::new, |(_, taken)| taken);
        let mut cut: Cut = vec![((*first).clone(), 1)];
        cut.extend(taken.iter().map(|&place| (others[place].clone(), 1)));
        left = (0..others.len()).filter(|place| !taken.contains(place)).map(|place| others[place]).collect();
        sheets.push(cut);
    }
    sheets
}

/// The search for strips that fill what is left of a sheet.
struct Fill {
    heights: Vec<u64>,
    sets: usize,
    /// The least left over and the strips, by place.
    best: Option<(u64, Vec<usize>)>,
}

impl Fill {
    fn grow(&mut self, from: usize, left: u64, taken: &mut Vec<usize>) {
        self.sets += 1;
        if self.best.as_ref().is_none_or(|(least, _)| left < *least) {
            self.best = Some((left, taken.clone()));
        }
        let mut tried = None;
        for place in from..self.heights.len() {
            if self.sets >= SETS || self.best.as_ref().is_some_and(|(least, _)| *least == 0) {
                return;
            }
            let height = self.heights[place];
            if height <= left && tried != Some(height) {
                tried = Some(height);
                taken.push(place);
                self.grow(place + 1, left - height, taken);
                taken.pop();
            }
        }
    }
}
