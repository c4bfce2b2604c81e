//! Stated leaves outside the tree of straight cuts: a ring closed by a partial seam, and an inset corner.
//!
//! A ring is sewn member by member in the order named. The first is sewn to the centre over half of the centre's edge, from the corner where both end
//! together; each next one lies straight along the centre and the end of the one before; the last goes on with the first folded away, and then the
//! first seam is finished. Half an edge stays open, so that the last seam has room at every size.

use super::{Desk, Group, ascending, directed, seam_of};
use crate::fault::{Fault, leaves as words, plain as plain_words, units};
use crate::geometry::{Point, Polygon, Segment};
use crate::notation::source::Span;
use crate::pattern::{Leaf, StatedJoin, StatedPress, UnitKind};
use crate::piecing::round::{self, Corner, NoCorner, NoRing, RingSeam};
use crate::piecing::{Join, JoinKind, Press, Tree};

/// How much of the centre's edge the first part of a partial seam takes.
const FIRST_PART: f64 = 0.5;

/// A member of a leaf: its group and where it is named.
struct Member {
    group: Group,
    span: Span,
}

impl Desk<'_> {
    /// Makes the joins of one ring or inset corner.
    pub(super) fn leaf(&mut self, index: usize, stated: &StatedJoin, leaf: Leaf) -> Result<(), Box<Fault>> {
        let at = stated.members.first().map_or(0, |&(place, _)| self.home[place]);
        let mut members: Vec<Member> = Vec::with_capacity(stated.members.len());
        for &(place, span) in &stated.members {
            let Some(group) = self.groups[self.home[place]].take() else {
                let with = members.iter().find(|member| member.group.places.contains(&place));
                let with = with.map_or_else(String::new, |member| member.group.name.clone());
                let name = self.block.placements[place].called();
                return Err(Box::new(units::already_joined(span, &with, &name)));
            };
            let block = self.block;
            let plain = group
                .places
                .iter()
                .filter_map(|&place| block.placements.get(place))
                .find(|place| block.units.get(place.unit).is_some_and(|unit| unit.kind == UnitKind::Plain));
            if let Some(plain) = plain {
                return Err(Box::new(plain_words::in_a_leaf(span, &plain.called())));
            }
            members.push(Member { group, span });
        }
        let first = self.joins.len();
        let mut made = match leaf {
            Leaf::Ring => self.ring(stated, &members, first)?,
            Leaf::Inset => self.inset(stated, &members)?,
        };
        for join in &mut made {
            join.stated = Some(index);
        }
        if let Some(last) = made.last_mut() {
            last.name.clone_from(&stated.name);
        }
        let joins = (first..first + made.len()).collect();
        self.joins.extend(made);
        let corners = members.iter().flat_map(|member| member.group.outline.corners()).copied();
        let Some(outline) = Polygon::hull(corners, self.block.tolerance) else { return Ok(()) };
        let places = ascending(members.iter().flat_map(|member| &member.group.places));
        let name = stated.name.clone().or_else(|| members.first().map(|member| member.group.name.clone()));
        let parts = members.into_iter().map(|member| member.group.tree).collect();
        let tree = Tree::Round { joins, parts };
        self.settle(at, Group { tree, outline, places, name: name.unwrap_or_default() });
        Ok(())
    }

    /// The joins of a ring: one for each member but the centre. `number` is that of the first.
    fn ring(&self, stated: &StatedJoin, members: &[Member], number: usize) -> Result<Vec<Join>, Box<Fault>> {
        let Some((centre, round)) = members.split_first() else { return Ok(Vec::new()) };
        let outlines: Vec<&Polygon> = round.iter().map(|member| &member.group.outline).collect();
        let seams = round::ring(&centre.group.outline, &outlines, self.block.tolerance);
        let seams = seams.map_err(|why| self.no_ring(stated, members, why))?;
        let press = match stated.press {
            None => Pressed::TowardRing,
            Some(StatedPress::Open) => Pressed::Open,
            Some(StatedPress::Toward(place, _)) if centre.group.places.contains(&place) => Pressed::TowardCentre,
            Some(StatedPress::Toward(place, span)) => {
                let name = self.block.placements[place].called();
                return Err(Box::new(words::pressed_in_ring(span, &name, &centre.group.name)));
            }
        };
        let n = round.len();
        let join = |(k, found): (usize, &RingSeam)| {
            let member = &round[k].group;
            let neighbour = &round[(k + n - 1) % n].group;
            let along = ascending(centre.group.places.iter().chain(&neighbour.places));
            let kind = if k == 0 {
                let corner = found.seam.start;
                let first = Segment::new(corner, corner.along(found.centre_end, FIRST_PART));
                JoinKind::Partial {
                    first,
                    corner: found.centre_end,
                    after: number + n - 1,
                    last: neighbour.places.clone(),
                }
            } else {
                JoinKind::Straight
            };
            let (mut join, member_is_right) = sided(kind, member, along, found.seam);
            join.press = match (press, member_is_right) {
                (Pressed::Open, _) => Press::Open,
                (Pressed::TowardRing, true) | (Pressed::TowardCentre, false) => Press::Right,
                (Pressed::TowardRing, false) | (Pressed::TowardCentre, true) => Press::Left,
            };
            join
        };
        Ok(seams.iter().enumerate().map(join).collect())
    }

    fn no_ring(&self, stated: &StatedJoin, members: &[Member], why: NoRing) -> Box<Fault> {
        let names: Vec<&str> = members.iter().map(|member| member.group.name.as_str()).collect();
        if let Some(fault) = self.plainly(members) {
            return fault;
        }
        // Those round the centre are counted from 0, the centre stands before them.
        let of = |k: usize| members.get(k + 1).map_or((stated.span, ""), |m| (m.span, m.group.name.as_str()));
        Box::new(match why {
            NoRing::WrongWay => {
                let others: Vec<(Span, &str)> = (1..names.len() - 1).map(of).collect();
                words::ring_wrong_way(names[0], of(0).1, &others, stated.span)
            }
            NoRing::Skipped(a, b) => words::ring_skipped(of(a), of(b)),
            NoRing::Apart(k) => words::ring_apart(of(k), names[0]),
            NoRing::Short(k) => words::ring_short(of(k), names[0]),
            NoRing::Shared(a, b) => words::ring_shared(of(a), of(b), names[0]),
            NoRing::Uncovered => words::ring_uncovered(members[0].span, names[0]),
            NoRing::NoStop(a, b) => words::ring_no_stop(of(a), of(b), names[0]),
            NoRing::Uneven(a, b) => words::ring_uneven(of(a), of(b), names[0]),
            NoRing::NotConvex => words::not_convex(stated.span, &names, true),
        })
    }

    /// The fault of a leaf that plain joins would sew.
    fn plainly(&self, members: &[Member]) -> Option<Box<Fault>> {
        let outlines: Vec<&Polygon> = members.iter().map(|member| &member.group.outline).collect();
        let names: Vec<&str> = members.iter().map(|member| member.group.name.as_str()).collect();
        let span = members.first()?.span.to(members.last()?.span);
        round::straight_seams_join(&outlines, self.block.tolerance)
            .then(|| Box::new(words::plain_join_will_do(span, &names)))
    }

    /// The three joins of an inset corner: that of the two, then the legs along which the first is set in.
    fn inset(&self, stated: &StatedJoin, members: &[Member]) -> Result<Vec<Join>, Box<Fault>> {
        let [first, second, third] = members else { return Ok(Vec::new()) };
        let outlines = [first, second, third].map(|member| &member.group.outline);
        let found = round::corner(outlines, self.block.tolerance);
        let Corner { point, between, legs } = found.map_err(|why| self.no_inset(stated, members, why))?;
        let toward = match stated.press {
            Some(StatedPress::Toward(place, span)) => {
                let toward = members.iter().position(|member| member.group.places.contains(&place));
                let name = || self.block.placements[place].called();
                Some(toward.ok_or_else(|| Box::new(units::pressed_elsewhere(span, &name())))?)
            }
            _ => None,
        };
        // Each seam with the two parts that it joins, and the one of them toward which it is pressed.
        let [port, starboard] = legs;
        let legs_toward_first = toward == Some(0);
        let of_leg = |other: usize| if legs_toward_first { 0 } else { other };
        let of_between = if toward == Some(2) { 2 } else { 1 };
        let seams = [(between, 1, 2, of_between), (port, 0, 1, of_leg(1)), (starboard, 0, 2, of_leg(2))];
        let join = |(seam, a, b, under): (Segment, usize, usize, usize)| {
            let places = members[b].group.places.clone();
            let (mut join, a_is_right) = sided(JoinKind::Inset { point }, &members[a].group, places, seam);
            join.press = match (stated.press, toward) {
                (Some(StatedPress::Open), _) => Press::Open,
                // All one way round the point: toward what lies clockwise of the seam.
                (_, None) if begins_at(join.seam, point) => Press::Right,
                (_, None) => Press::Left,
                _ if (under == a) == a_is_right => Press::Right,
                _ => Press::Left,
            };
            join
        };
        Ok(seams.into_iter().map(join).collect())
    }

    fn no_inset(&self, stated: &StatedJoin, members: &[Member], why: NoCorner) -> Box<Fault> {
        if let Some(fault) = self.plainly(members) {
            return fault;
        }
        let names: Vec<&str> = members.iter().map(|member| member.group.name.as_str()).collect();
        let of = |k: usize| (members[k].span, members[k].group.name.as_str());
        Box::new(match why {
            NoCorner::Apart(a, b) => words::inset_apart(of(a), of(b)),
            NoCorner::NoPoint => words::inset_no_point(stated.span, &names),
            NoCorner::Uneven(a, b) => words::inset_uneven(of(a), of(b)),
            NoCorner::NotConvex => words::not_convex(stated.span, &names, false),
        })
    }
}

/// Toward what the seams of a ring are pressed.
#[derive(Clone, Copy)]
enum Pressed {
    TowardRing,
    TowardCentre,
    Open,
}

/// The join of a group with other places along a seam, and whether the group lies on its right.
fn sided(kind: JoinKind, group: &Group, others: Vec<usize>, seam: Segment) -> (Join, bool) {
    let seam = directed(seam);
    let is_right = seam.line().is_some_and(|line| line.distance_right(group.outline.centroid()) > 0.0);
    let own = group.places.clone();
    let (left, right) = if is_right { (others, own) } else { (own, others) };
    (seam_of(kind, left, right, seam), is_right)
}

/// Whether a seam begins at a point that is one of its ends.
fn begins_at(seam: Segment, point: Point) -> bool {
    seam.start.distance(point) < seam.end.distance(point)
}
