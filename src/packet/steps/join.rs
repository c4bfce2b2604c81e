//! The step of one join: pins, match points, tips, the look, paper, pressing.

use super::{Move, Step};
use crate::geometry::{Length, Point, Polygon, Segment, Tolerance};
use crate::model::{Block, Join, MatchPoint, Model, Press};
use crate::packet::join_end::measured_from;
use crate::packet::measure::Measures;

/// The layers where four seams come together: two for each that ends there, the join itself counted twice.
const FOUR_MEET: u32 = 8;

/// Above this many layers of fabric at one point the sewer is warned.
const MANY_LAYERS: u32 = 12;

pub(super) fn step(
    model: &Model,
    block: &Block,
    at: usize,
    tolerance: Tolerance,
    measures: Measures<'_>,
) -> Option<Step> {
    let words = measures.words();
    let join = block.joins.get(at)?;
    let (left, right) = (part(block, at, &join.left, measures), part(block, at, &join.right, measures));
    let number = at + 1;
    let title = match &join.name {
        Some(name) => words.join_heading_named(number, name, &left, &right),
        None => words.join_heading(number, &left, &right),
    };
    let length = measures.length(Length::inches(join.seam.length()));
    let told = Told { block, join, at, tolerance, allowance: model.allowance, measures };
    let text = match &join.own_step {
        Some(own) => vec![Move::unnamed(own)],
        None => told.text(&left, &right, &length),
    };
    Some(Step {
        title,
        facts: vec![(words.fact_line(), words.fact_line_value(length))],
        text,
        cautions: told.cautions(),
        fabric: None,
        flipped: false,
        own: join.own_step.is_some(),
        notes: join.notes.clone(),
    })
}

/// Where along a join there is paper to sew on.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Papers {
    /// On both sides, all along.
    Both,
    /// On one side all along, not or not everywhere on the other.
    One,
    /// On neither side all along, but somewhere.
    Some,
    /// Nowhere.
    None,
}

impl Papers {
    /// Its key in the catalogue.
    const fn key(self) -> &'static str {
        match self {
            Self::Both | Self::One => "one",
            Self::Some => "some",
            Self::None => "none",
        }
    }
}

/// A join whose step is told.
struct Told<'m> {
    block: &'m Block,
    join: &'m Join,
    at: usize,
    tolerance: Tolerance,
    allowance: Length,
    measures: Measures<'m>,
}

impl Told<'_> {
    fn text(&self, left: &str, right: &str, length: &str) -> Vec<Move> {
        let words = self.measures.words();
        let points = &self.join.match_points;
        let (papers, plain) = self.papers();
        let on_both = papers == Papers::Both;
        let allowance = || self.measures.length(self.allowance);
        let lay = match (on_both, self.at) {
            (true, 0) => vec![words.join_lay_teach(left, right, length)],
            (true, _) => vec![words.join_lay(left, right, length)],
            (false, _) => {
                let ends = if papers == Papers::None {
                    words.join_plain_both(allowance())
                } else {
                    words.join_plain_one(words.list(&plain), plain.len(), allowance())
                };
                vec![words.join_lay_without(left, right, length), ends]
            }
        };
        let mut moves = vec![Move::new(words.move_pin(), &lay)];
        let mut matching = Vec::new();
        if !points.is_empty() {
            let places = self.places(points.iter().map(|p| p.at));
            matching.push(if on_both {
                words.join_match(points.len(), places, self.end())
            } else {
                words.join_match_without(points.len(), places, self.end())
            });
            matching.push(self.nesting(points));
        }
        if !self.join.tips.is_empty() {
            let tips = &self.join.tips;
            matching.push(words.join_tip(tips.len(), self.places(tips.iter().copied()), self.end()));
        }
        let nothing_to_match = matching.is_empty();
        if !nothing_to_match {
            moves.push(Move::new(words.move_match(), &matching));
        }
        let mut sewing = vec![match (on_both, nothing_to_match) {
            (true, true) => words.join_look_plain(),
            (true, false) => words.join_look(),
            (false, true) => words.join_look_plain_without(papers.key(), allowance()),
            (false, false) => words.join_look_without(papers.key(), allowance()),
        }];
        sewing.extend((papers != Papers::None).then(|| words.join_paper_strip()));
        moves.push(Move::new(words.move_sew(), &sewing));
        let mut pressing = vec![match self.join.press {
            Press::Left => words.join_press_toward(left),
            Press::Right => words.join_press_toward(right),
            Press::Open => words.join_press_open(),
        }];
        let spun: Vec<Point> =
            points.iter().filter(|p| self.join.press != Press::Open && self.four_meet(p)).map(|p| p.at).collect();
        if !spun.is_empty() {
            pressing.push(words.join_spin(self.places(spun.into_iter()), self.end()));
        }
        let freed = self.freed();
        if !freed.is_empty() {
            pressing.push(words.join_paper_out(words.list(&freed), freed.len()));
        }
        moves.push(Move::new(words.move_press(), &pressing));
        moves
    }

    /// Where there is paper along the join, and the names of the plain pieces that lie along it.
    fn papers(&self) -> (Papers, Vec<String>) {
        let mut plain = Vec::new();
        // Of each side: whether there is paper, and whether there is anything else.
        let sides = [&self.join.left, &self.join.right].map(|side| {
            let (mut paper, mut none) = (false, false);
            for placement in side.iter().filter_map(|&at| self.block.placements.get(at)) {
                let Some(variant) = self.block.variants.get(placement.variant) else { continue };
                if !self.lies_along(&placement.outline) {
                    continue;
                }
                if self.block.has_paper(variant) {
                    paper = true;
                } else {
                    none = true;
                    plain.push(self.measures.words().join_place(&placement.name, &variant.mark));
                }
            }
            (paper, none)
        });
        let papers = match sides {
            [(_, false), (_, false)] => Papers::Both,
            [(_, false), _] | [_, (_, false)] => Papers::One,
            [(false, _), (false, _)] => Papers::None,
            _ => Papers::Some,
        };
        (papers, plain)
    }

    /// Whether a unit has an edge on the join.
    fn lies_along(&self, outline: &Polygon) -> bool {
        let near = |point: Point| self.tolerance.is_zero(self.join.seam.distance(point));
        outline.edges().any(|edge| near(edge.start) && near(edge.end))
    }

    /// Where the join is so thick that a needle may labour.
    fn cautions(&self) -> Vec<String> {
        let thickest = self.join.match_points.iter().filter(|p| p.layers > MANY_LAYERS).max_by_key(|p| p.layers);
        let told = thickest.map(|point| {
            let place = self.places(std::iter::once(point.at));
            self.measures.words().join_thick(point.layers, place, self.end())
        });
        told.into_iter().collect()
    }

    fn nesting(&self, points: &[MatchPoint]) -> String {
        let words = self.measures.words();
        let nested: Vec<Point> = points.iter().filter(|p| p.nests).map(|p| p.at).collect();
        if nested.len() == points.len() {
            words.join_nests(points.len())
        } else if nested.is_empty() {
            words.join_nests_none(points.len())
        } else {
            words.join_nests_some(self.places(nested.into_iter()))
        }
    }

    /// Which end of the join lengths are measured from, as seen from the front.
    fn end(&self) -> String {
        measured_from(self.join).1(self.measures.words())
    }

    fn places(&self, points: impl Iterator<Item = Point>) -> String {
        let (from, _) = measured_from(self.join);
        let mut along: Vec<f64> = points.map(|point| from.distance(point)).collect();
        along.sort_by(f64::total_cmp);
        let places: Vec<String> = along.into_iter().map(|far| self.measures.length(Length::inches(far))).collect();
        self.measures.words().list(&places)
    }

    /// Whether an earlier join of either side ends at the point.
    fn four_meet(&self, point: &MatchPoint) -> bool {
        // Where more than four seams come together the crossing is too thick to be spun.
        if point.layers > FOUR_MEET {
            return false;
        }
        let ends_there = |side: &[usize]| {
            self.block.joins.iter().take(self.at).any(|earlier| {
                // Allowances that lie open cannot turn one way round.
                earlier.press != Press::Open
                    && earlier.left.iter().chain(&earlier.right).all(|placement| side.contains(placement))
                    && [earlier.seam.start, earlier.seam.end]
                        .iter()
                        .any(|e| self.tolerance.is_zero(e.distance(point.at)))
            })
        };
        ends_there(&self.join.left) && ends_there(&self.join.right)
    }

    /// The places that have neighbours on every side once this join is sewn, and had not before.
    fn freed(&self) -> Vec<String> {
        let block = self.block;
        let near = |a: Segment, b: Segment| {
            self.tolerance.is_zero(a.distance(b.middle())) || self.tolerance.is_zero(b.distance(a.middle()))
        };
        let touches = |join: &Join, placement: usize| {
            let concerned = join.left.contains(&placement) || join.right.contains(&placement);
            let outline = block.placements.get(placement).map(|p| &p.outline);
            concerned && outline.is_some_and(|outline| outline.edges().any(|edge| near(edge, join.seam)))
        };
        let enclosed = |placement: usize| {
            let outline = block.placements.get(placement).map(|p| &p.outline);
            outline.is_some_and(|outline| {
                outline.edges().all(|edge| {
                    !block.outline.edges().any(|outer| self.tolerance.is_zero(outer.distance(edge.middle())))
                })
            })
        };
        (0..block.placements.len())
            .filter(|&placement| touches(self.join, placement) && enclosed(placement))
            .filter(|&placement| !block.joins.iter().skip(self.at + 1).any(|later| touches(later, placement)))
            .filter_map(|placement| block.placements.get(placement))
            .filter(|placement| block.variants.get(placement.variant).is_some_and(|variant| block.has_paper(variant)))
            .map(|placement| {
                let mark = block.variants.get(placement.variant).map_or("", |variant| variant.mark.as_str());
                self.measures.words().join_place(&placement.name, mark)
            })
            .collect()
    }
}

/// What one side of a join is called: a place and its mark, or what an earlier join made.
fn part(block: &Block, at: usize, side: &[usize], measures: Measures<'_>) -> String {
    let words = measures.words();
    if let [only] = side
        && let Some(placement) = block.placements.get(*only)
        && let Some(variant) = block.variants.get(placement.variant)
    {
        return words.join_place(&placement.name, &variant.mark);
    }
    let made = block.joins.iter().take(at).position(|join| {
        join.left.len() + join.right.len() == side.len()
            && join.left.iter().chain(&join.right).all(|placement| side.contains(placement))
    });
    match made.and_then(|made| Some((made + 1, &block.joins.get(made)?.name))) {
        Some((_, Some(name))) => name.clone(),
        Some((number, None)) => words.join_made(number),
        None => {
            let names: Vec<&str> =
                side.iter().filter_map(|&placement| block.placements.get(placement)).map(|p| p.name.as_str()).collect();
            words.list(&names)
        }
    }
}
