//! The steps of a ring, whose first seam is sewn in part, and of an inset corner, whose three seams meet in a point.

use super::join::{Told, part};
use super::{Move, Step};
use crate::geometry::{Length, Point, Segment};
use crate::model::{Block, JoinKind, Pass, Press, Stretch, Tree};
use crate::packet::join_end::{end_word, other_end};

/// A ring or inset corner of which a step is told.
pub(super) struct Round<'m> {
    told: Told<'m>,
    pass: Pass,
    allowance: Length,
    /// The joins of all of it, by index.
    joins: &'m [usize],
    /// What its parts are called: of a ring the centre, then the others in the order of sewing; of an inset corner the one that is set in, then the two.
    parts: Vec<String>,
    /// Which of its joins this is.
    at: usize,
}

impl<'m> Round<'m> {
    /// The ring or inset corner that a pass belongs to; none for joins of the tree itself.
    pub fn of(told: Told<'m>, allowance: Length) -> Result<Self, Told<'m>> {
        let (block, pass): (&'m Block, Pass) = (told.block, told.pass);
        let Some((joins, parts)) = block.round_of(pass.join) else { return Err(told) };
        let first = joins.first().copied().unwrap_or(pass.join);
        let named = |tree: &Tree| {
            let mut places = tree.placements();
            places.sort_unstable();
            part(block, first, &places, told.measures)
        };
        let (parts, at) = (parts.iter().map(named).collect(), pass.join.saturating_sub(first));
        Ok(Self { told, pass, allowance, joins, parts, at })
    }

    pub fn step(&self) -> Step {
        let join = self.told.join;
        let (title, line, text, care) = match join.kind {
            JoinKind::Inset { point } => self.inset(point),
            _ => self.ring(),
        };
        let own = join.own_step.as_ref().filter(|_| self.pass.stretch != Stretch::Rest);
        let mut cautions: Vec<String> = care.into_iter().collect();
        cautions.extend(self.told.cautions(|point| self.is_sewn(point)));
        Step {
            title,
            facts: vec![(self.told.measures.words().fact_line(), line)],
            text: own.map_or(text, |own| vec![Move::unnamed(own)]),
            cautions,
            fabric: None,
            flipped: false,
            own: own.is_some(),
            notes: join.notes.clone(),
        }
    }

    /// Whether a point of the join is sewn in this pass.
    fn is_sewn(&self, point: Point) -> bool {
        let JoinKind::Partial { first, .. } = self.told.join.kind else { return true };
        (first.start.distance(point) <= first.length()) == (self.pass.stretch == Stretch::First)
    }

    fn part(&self, at: usize) -> &str {
        self.parts.get(at).map_or("", String::as_str)
    }

    fn length(&self, inches: f64) -> String {
        self.told.measures.length(Length::inches(inches))
    }

    /// With the lesson where this is the first join of all.
    fn pinned(&self, lay: String) -> Move {
        let words = self.told.measures.words();
        let lesson = (self.pass.join == 0 && self.pass.stretch != Stretch::Rest).then(|| words.join_pin_teach());
        let sentences: Vec<String> = std::iter::once(lay).chain(lesson).collect();
        Move::new(words.move_pin(), &sentences)
    }

    /// Which way the allowances go; the two sides by their names.
    fn pressing(&self, left: &str, right: &str) -> String {
        let words = self.told.measures.words();
        match self.told.join.press {
            Press::Left => words.join_press_toward(left),
            Press::Right => words.join_press_toward(right),
            Press::Open => words.join_press_open(),
        }
    }

    fn freed(&self) -> Option<String> {
        let freed = self.told.freed();
        let words = self.told.measures.words();
        (!freed.is_empty()).then(|| words.join_paper_out(words.list(&freed), freed.len()))
    }

    /// Title, line, moves and caution of a pass of a ring.
    fn ring(&self) -> (String, String, Vec<Move>, Option<String>) {
        let words = self.told.measures.words();
        let (join, number) = (self.told.join, self.pass.join + 1);
        let n = self.joins.len();
        let (centre, member, first, last) = (self.part(0), self.part(self.at + 1), self.part(1), self.part(n));
        let before = self.part(if self.at == 0 { n } else { self.at });
        let beside = words.list(&[centre, before]);
        // The member lies on the side without the centre.
        let member_is_left = self.side_is_part(&join.left, self.at + 1);
        let (left, right) = if member_is_left { (member, beside.as_str()) } else { (beside.as_str(), member) };
        let whole = self.length(join.seam.length());
        let JoinKind::Partial { first: sewn, corner, .. } = join.kind else {
            let title = match &join.name {
                Some(name) => words.join_heading_named(number, name, member, &beside),
                None => words.join_heading(number, member, &beside),
            };
            let mut moves = Vec::new();
            if self.at + 1 == n {
                let begun = self.joins.first().map_or(1, |join| join + 1);
                moves.push(Move::new(words.move_fold(), &[words.ring_fold_away(begun, first)]));
            }
            moves.push(self.pinned(words.ring_lay(member, centre, before, &whole)));
            let matching = self.told.matching(|_| true);
            let look = if matching.is_empty() { words.join_look_plain() } else { words.join_look() };
            if !matching.is_empty() {
                moves.push(Move::new(words.move_match(), &matching));
            }
            moves.push(Move::new(words.move_sew(), &[look, words.join_paper_strip()]));
            let pressing: Vec<String> = std::iter::once(self.pressing(left, right)).chain(self.freed()).collect();
            moves.push(Move::new(words.move_press(), &pressing));
            return (title, words.fact_line_value(whole), moves, None);
        };
        let open_end = other_end(join, sewn.start);
        let [closed, open] = [sewn.start, open_end].map(|end| end_word(join, end)(words));
        let far = self.length(sewn.length());
        let mut moves = Vec::new();
        if self.pass.stretch == Stretch::First {
            let title = words.ring_first_heading(number, member, centre);
            let edge = self.length(sewn.start.distance(corner));
            moves.push(self.pinned(words.ring_first_lay(member, centre, edge, last, open, &closed)));
            let matching = self.told.matching(|point| self.is_sewn(point));
            if !matching.is_empty() {
                moves.push(Move::new(words.move_match(), &matching));
            }
            let sewing = [words.ring_first_sew(closed, &far), words.ring_first_paper()];
            moves.push(Move::new(words.move_sew(), &sewing));
            let (left, right) = if member_is_left { (member, centre) } else { (centre, member) };
            moves.push(Move::new(words.move_press(), &[words.ring_first_press(), self.pressing(left, right)]));
            return (title, words.ring_line_first(far, whole), moves, Some(words.ring_care(last)));
        }
        let name = self.joins.last().and_then(|&join| self.told.block.joins.get(join)?.name.as_ref());
        let title = match name {
            Some(name) => words.ring_rest_heading_named(number, name, member, &beside),
            None => words.ring_rest_heading(number, member, &beside),
        };
        moves.push(Move::new(words.move_pin(), &[words.ring_rest_lay(member, centre, last, &open)]));
        let matching = self.told.matching(|point| self.is_sewn(point));
        if !matching.is_empty() {
            moves.push(Move::new(words.move_match(), &matching));
        }
        moves.push(Move::new(words.move_sew(), &[words.ring_rest_sew(open), words.join_paper_strip()]));
        let mut pressing = vec![self.pressing(left, right)];
        if join.press != Press::Open {
            pressing.push(words.ring_flat(centre));
        }
        pressing.extend(self.freed());
        moves.push(Move::new(words.move_press(), &pressing));
        let rest = self.length(sewn.end.distance(open_end));
        (title, words.ring_line_rest(rest, whole), moves, None)
    }

    /// Whether a side of the join is one of the parts.
    fn side_is_part(&self, side: &[usize], part: usize) -> bool {
        let tree = self.told.block.round_of(self.pass.join).and_then(|(_, parts)| parts.get(part));
        tree.is_some_and(|tree| tree.placements().iter().all(|place| side.contains(place)))
    }

    /// The names of the parts on the left and on the right of a join of an inset corner.
    fn sides(&self, at: usize) -> (usize, usize) {
        let pairs = [(1, 2), (0, 1), (0, 2)];
        let (a, b) = pairs.get(at).copied().unwrap_or((0, 1));
        let join = self.joins.get(at).and_then(|&join| self.told.block.joins.get(join));
        let tree = self.told.block.round_of(self.pass.join).and_then(|(_, parts)| parts.get(a));
        let a_is_left = tree
            .zip(join)
            .is_some_and(|(tree, join)| tree.placements().first().is_some_and(|place| join.left.contains(place)));
        if a_is_left { (a, b) } else { (b, a) }
    }

    /// Title, line, moves and caution of a pass of an inset corner.
    fn inset(&self, point: Point) -> (String, String, Vec<Move>, Option<String>) {
        let words = self.told.measures.words();
        let (join, number) = (self.told.join, self.pass.join + 1);
        let (first, second, third) = (self.part(0), self.part(1), self.part(2));
        let outer = end_word(join, other_end(join, point))(words);
        let length = self.length(join.seam.length());
        let matching = self.told.matching(|_| true);
        let matched = |moves: &mut Vec<Move>| {
            if !matching.is_empty() {
                moves.push(Move::new(words.move_match(), &matching));
            }
        };
        let mut moves = Vec::new();
        let title = if self.at == 0 {
            let (left, right) = self.sides(0);
            let (left, right) = (self.part(left), self.part(right));
            moves.push(self.pinned(words.join_lay(left, right, &length)));
            matched(&mut moves);
            let allowance = self.told.measures.length(self.allowance);
            let sewing = [words.inset_between_sew(outer, allowance, first), words.inset_paper()];
            moves.push(Move::new(words.move_sew(), &sewing));
            moves.push(Move::new(
                words.move_press(),
                &[match join.press {
                    Press::Left => words.inset_crease(left),
                    Press::Right => words.inset_crease(right),
                    Press::Open => words.inset_crease_open(),
                }],
            ));
            words.inset_between_heading(number, second, third)
        } else if self.at == 1 {
            let begun = self.joins.first().map_or(number, |join| join + 1);
            moves.push(Move::new(
                words.move_pin(),
                &[words.inset_leg_lay(first, second, third, &length, begun, &outer)],
            ));
            matched(&mut moves);
            moves.push(Move::new(words.move_sew(), &[words.inset_leg_sew(outer), words.inset_paper()]));
            words.inset_leg_heading(number, first, second)
        } else {
            moves.push(Move::new(words.move_pin(), &[words.inset_turn(first, third, &length, &outer)]));
            matched(&mut moves);
            moves.push(Move::new(words.move_sew(), &[words.inset_turn_sew(outer), words.join_paper_strip()]));
            let pressing: Vec<String> = self.corner_pressed(point).into_iter().chain(self.freed()).collect();
            moves.push(Move::new(words.move_press(), &pressing));
            match &join.name {
                Some(name) => words.inset_leg_heading_named(number, name, first, third),
                None => words.inset_leg_heading(number, first, third),
            }
        };
        (title, words.fact_line_value(length), moves, (self.at < 2).then(|| words.inset_care()))
    }

    /// How all three seams of an inset corner are pressed.
    fn corner_pressed(&self, point: Point) -> Vec<String> {
        let words = self.told.measures.words();
        let joins = || self.joins.iter().filter_map(|&join| self.told.block.joins.get(join));
        if joins().any(|join| join.press == Press::Open) {
            return vec![words.inset_press_open()];
        }
        let sides = joins().enumerate().map(|(at, join)| {
            let (left, right) = self.sides(at);
            let side = self.part(if join.press == Press::Left { left } else { right });
            words.inset_press_one(self.joins.get(at).map_or(0, |join| join + 1), side)
        });
        let mut told = vec![words.inset_press(words.list(&sides.collect::<Vec<_>>()))];
        // One way round: each toward what lies clockwise of it, seen from the point, or each toward the other side.
        let clockwise = |seam: Segment, press: Press| {
            (seam.start.distance(point) < seam.end.distance(point)) == (press == Press::Right)
        };
        let ways: Vec<bool> = joins().map(|join| clockwise(join.seam, join.press)).collect();
        if ways.iter().all(|&way| Some(&way) == ways.first()) {
            told.push(words.inset_spun());
        }
        told
    }
}
