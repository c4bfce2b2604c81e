//! The step of one join: pins, match points, tips, the look, paper, pressing.

use super::round::Round;
use super::{Move, Step};
use crate::geometry::{Length, Point, Polygon, Segment, Tolerance};
use crate::model::{Block, Cause, Join, MatchPoint, Nesting, Pass, Press, Tree};
use crate::packet::join_end::measured_from;
use crate::packet::measure::Measures;

/// Above this many layers of fabric at one point the sewer is warned.
const MANY_LAYERS: u32 = 12;

pub(super) fn step(
    block: &Block,
    pass: Pass,
    allowance: Length,
    tolerance: Tolerance,
    measures: Measures<'_>,
) -> Option<Step> {
    let words = measures.words();
    let at = pass.join;
    let join = block.joins.get(at)?;
    let told = match Round::of(Told { block, join, pass, tolerance, allowance, measures }, allowance) {
        Ok(round) => return Some(round.step()),
        Err(told) => told,
    };
    let (left, right) = (part(block, at, &join.left, measures), part(block, at, &join.right, measures));
    let number = at + 1;
    let title = match &join.name {
        Some(name) => words.join_heading_named(number, name, &left, &right),
        None => words.join_heading(number, &left, &right),
    };
    let length = measures.length(Length::inches(join.seam.length()));
    let text = match &join.own_step {
        Some(own) => vec![Move::unnamed(own)],
        None => told.text(&left, &right, &length),
    };
    Some(Step {
        title,
        facts: vec![(words.fact_line(), words.fact_line_value(length))],
        text,
        cautions: told.cautions(|_| true),
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
pub(super) struct Told<'m> {
    pub block: &'m Block,
    pub join: &'m Join,
    pub pass: Pass,
    pub tolerance: Tolerance,
    pub allowance: Length,
    pub measures: Measures<'m>,
}

impl Told<'_> {
    fn text(&self, left: &str, right: &str, length: &str) -> Vec<Move> {
        let words = self.measures.words();
        let points = &self.join.match_points;
        let (papers, plain) = self.papers();
        let on_both = papers == Papers::Both;
        let allowance = || self.measures.length(self.allowance);
        let lay = match (on_both, self.pass.join) {
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
        let matching = self.matching(|_| true);
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
        let spun: Vec<Point> = points.iter().filter(|p| p.spins).map(|p| p.at).collect();
        if !spun.is_empty() {
            pressing.push(words.join_spin(spun.len(), self.places(spun.into_iter()), self.end()));
        }
        let freed = self.freed();
        if !freed.is_empty() {
            pressing.push(words.join_paper_out(words.list(&freed), freed.len()));
        }
        moves.push(Move::new(words.move_press(), &pressing));
        moves
    }

    /// What has to be lined up at the points that are sewn now; nothing where there are none.
    pub fn matching(&self, is_sewn: impl Fn(Point) -> bool) -> Vec<String> {
        let words = self.measures.words();
        let points: Vec<MatchPoint> = self.join.match_points.iter().filter(|p| is_sewn(p.at)).copied().collect();
        let tips: Vec<Point> = self.join.tips.iter().filter(|&&tip| is_sewn(tip)).copied().collect();
        let mut matching = Vec::new();
        if !points.is_empty() {
            let places = self.places(points.iter().map(|p| p.at));
            matching.push(if self.papers().0 == Papers::Both {
                words.join_match(points.len(), places, self.end())
            } else {
                words.join_match_without(points.len(), places, self.end())
            });
            matching.extend(self.nesting(&points));
        }
        if !tips.is_empty() {
            matching.push(words.join_tip(tips.len(), self.places(tips.iter().copied()), self.end()));
        }
        matching
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
                    plain.push(self.measures.words().place(&placement.name, &variant.mark));
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

    /// Where what is sewn now is so thick that a needle may labour.
    pub fn cautions(&self, is_sewn: impl Fn(Point) -> bool) -> Vec<String> {
        let thick = self.join.match_points.iter().filter(|p| p.layers > MANY_LAYERS && is_sewn(p.at));
        let thickest = thick.max_by_key(|p| p.layers);
        let told = thickest.map(|point| {
            let place = self.places(std::iter::once(point.at));
            self.measures.words().join_thick(point.layers, place, self.end())
        });
        told.into_iter().collect()
    }

    /// Which match points nest, why the others do not, and what to do there.
    fn nesting(&self, points: &[MatchPoint]) -> Vec<String> {
        let words = self.measures.words();
        let nested = points.iter().filter(|p| p.nests()).count();
        if nested == points.len() {
            return vec![words.join_nests(nested)];
        }
        let at = |nesting: Nesting| -> Option<String> {
            let there: Vec<Point> = points.iter().filter(|p| p.nesting == nesting).map(|p| p.at).collect();
            (!there.is_empty()).then(|| self.places(there.into_iter()))
        };
        let mut told = Vec::new();
        told.extend(at(Nesting::Nests).map(|places| words.join_nests_at(places)));
        for (cause, why) in [
            (Cause::Units, words.join_why_units()),
            (Cause::Stated, words.join_why_stated()),
            (Cause::Tips, words.join_why_tips()),
            (Cause::GivenUp, words.join_why_given_up()),
        ] {
            told.extend(at(Nesting::SameWay(cause)).map(|places| words.join_same_way(places, why)));
        }
        told.extend(at(Nesting::Mixed).map(|places| words.join_mixed(places)));
        told.extend(at(Nesting::Open).map(|places| words.join_lies_open(places)));
        told.push(words.join_feel(points.len() - nested));
        told
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

    /// The places that have neighbours on every side once this join is sewn, and had not before.
    pub fn freed(&self) -> Vec<String> {
        let block = self.block;
        let later = block.passes().into_iter().skip_while(|pass| *pass != self.pass).skip(1);
        let later: Vec<&Join> = later.filter_map(|pass| block.joins.get(pass.join)).collect();
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
            .filter(|&placement| !later.iter().any(|later| touches(later, placement)))
            .filter_map(|placement| block.placements.get(placement))
            .filter(|placement| block.variants.get(placement.variant).is_some_and(|variant| block.has_paper(variant)))
            .map(|placement| {
                let mark = block.variants.get(placement.variant).map_or("", |variant| variant.mark.as_str());
                self.measures.words().place(&placement.name, mark)
            })
            .collect()
    }
}

/// What one side of a join is called: a place and its mark, or what an earlier join made.
#[must_use]
pub fn part(block: &Block, at: usize, side: &[usize], measures: Measures<'_>) -> String {
    let words = measures.words();
    if let [only] = side
        && let Some(placement) = block.placements.get(*only)
        && let Some(variant) = block.variants.get(placement.variant)
    {
        return words.place(&placement.name, &variant.mark);
    }
    let sews_all_of = |join: &Join| {
        join.left.len() + join.right.len() == side.len()
            && join.left.iter().chain(&join.right).all(|placement| side.contains(placement))
    };
    // The last join of a ring or inset corner makes all of it.
    let closes = |number: usize| {
        let round = block.round_of(number).filter(|(joins, _)| joins.last() == Some(&number));
        round.is_some_and(|(_, parts)| {
            let places: Vec<usize> = parts.iter().flat_map(Tree::placements).collect();
            places.len() == side.len() && places.iter().all(|placement| side.contains(placement))
        })
    };
    let made =
        block.joins.iter().take(at).enumerate().position(|(number, join)| {
            if block.round_of(number).is_some() { closes(number) } else { sews_all_of(join) }
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
