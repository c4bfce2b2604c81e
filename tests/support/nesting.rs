//! Which allowances lie at a point of a join and which way they point, from the definitions: read off the seams, sections and joins of a model, and
//! not from what the model says of its match points.

use piecewright::geometry::{Point, Segment, Tolerance};
use piecewright::model::{Block, Cause, Join, JoinKind, Nesting, Press, Tree};

/// The allowance of a seam that ends at a point of a join.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Allowance {
    /// Inside a unit: whether it points along the join.
    Inside(bool),
    /// Of an earlier join: whether it points along this join if it is pressed to its left.
    Of(usize, bool),
}

impl Allowance {
    /// Whether it points along the join with this pressing; none where it lies open.
    pub fn along(self, press: &impl Fn(usize) -> Press) -> Option<bool> {
        match self {
            Self::Inside(along) => Some(along),
            Self::Of(join, if_left) => match press(join) {
                Press::Left => Some(if_left),
                Press::Right => Some(!if_left),
                Press::Open => None,
            },
        }
    }
}

/// A point strictly inside a join at which seams end.
#[derive(Debug, Clone)]
pub struct Meeting {
    /// Where.
    pub at: Point,
    /// What ends there from the left and from the right.
    pub sides: [Vec<Allowance>; 2],
}

impl Meeting {
    /// Seams of both sides end there.
    pub fn is_match_point(&self) -> bool {
        self.sides.iter().all(|side| !side.is_empty())
    }

    /// Whether at least one allowance lies on each side, all of a side point one way, and those of the two sides opposite ways.
    pub fn nests(&self, press: &impl Fn(usize) -> Press) -> bool {
        let all = |side: usize, way: bool| self.sides[side].iter().all(|allowance| allowance.along(press) == Some(way));
        self.is_match_point() && ((all(0, true) && all(1, false)) || (all(0, false) && all(1, true)))
    }

    /// The earlier joins that end there.
    pub fn joins(&self) -> Vec<usize> {
        let of = self.sides.iter().flatten().filter_map(|allowance| match allowance {
            Allowance::Of(join, _) => Some(*join),
            Allowance::Inside(_) => None,
        });
        of.collect()
    }
}

/// Every point strictly inside a join at which seams of its sides end, in order along it.
pub fn meetings(block: &Block, at: usize, near: Tolerance) -> Vec<Meeting> {
    let join = &block.joins[at];
    let line = join.seam.line().expect("a join has length");
    let mut ends: Vec<(f64, usize, Allowance)> = Vec::new();
    // Whether what lies to the right of a seam that ends on the join lies ahead on it.
    let right_is_ahead = |seam: Segment, end: Point| {
        seam.line().expect("a seam has length").distance_right(end + line.direction()) > 0.0
    };
    let mut put = |seam: Segment, side: usize, allowance: &dyn Fn(bool) -> Allowance| {
        for end in [seam.start, seam.end] {
            let position = line.position(end);
            let inside = position > near.distance() && position < join.seam.length() - near.distance();
            if inside && near.is_zero(line.distance_right(end)) {
                ends.push((position, side, allowance(right_is_ahead(seam, end))));
            }
        }
    };
    for (side, places) in [&join.left, &join.right].into_iter().enumerate() {
        for &place in places {
            let (map, unit) = (block.placements[place].transform, block.unit_of(block.variant_at(place)));
            for section in &unit.sections {
                // The next strip of a pieced section lies on the right; its seam is pressed toward it or away.
                for strip in &section.pieced {
                    if let Some(seam) = strip.seam.map(|seam| map.apply_to_segment(seam)) {
                        let next_right = !map.is_mirroring();
                        put(seam, side, &|ahead| Allowance::Inside((ahead == next_right) == strip.pressed_to_next));
                    }
                }
                let Some(seam) = section.seam else { continue };
                // The allowance lies under the newest piece.
                let seam = map.apply_to_segment(seam);
                let middle = map.apply(section.polygon.centroid());
                let newest_right = seam.line().expect("a seam has length").distance_right(middle) > 0.0;
                put(seam, side, &|ahead| Allowance::Inside(ahead == newest_right));
            }
        }
        // The partial seam of a ring is finished when all others of the ring are sewn.
        let until = if let JoinKind::Partial { after, .. } = join.kind { after + 1 } else { at };
        for (index, earlier) in block.joins[..until].iter().enumerate().filter(|(index, _)| *index != at) {
            // It brings places of this side together.
            if [&earlier.left, &earlier.right].iter().all(|part| part.iter().any(|place| places.contains(place))) {
                put(earlier.seam, side, &|right_is_ahead| Allowance::Of(index, !right_is_ahead));
            }
        }
    }
    ends.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut found: Vec<Meeting> = Vec::new();
    for (position, side, allowance) in ends {
        if found.last().is_none_or(|meeting| !near.is_zero(line.position(meeting.at) - position)) {
            found.push(Meeting { at: line.at(position), sides: [Vec::new(), Vec::new()] });
        }
        let meeting = found.last_mut().expect("there is one by now");
        meeting.sides[side].push(allowance);
    }
    found
}

/// On which sides of a join tips lie.
pub fn tip_sides(meetings: &[Meeting]) -> [bool; 2] {
    let lone = |side: usize| meetings.iter().any(|m| m.sides[side].len() > 1 && m.sides[1 - side].is_empty());
    [lone(0), lone(1)]
}

/// Asserts what holds for the match points, the tips and the pressing of a block.
pub fn check(name: &str, block: &Block, near: Tolerance) {
    let met: Vec<Vec<Meeting>> = (0..block.joins.len()).map(|at| meetings(block, at, near)).collect();
    let press = |join: usize| block.joins[join].press;
    for (at, join) in block.joins.iter().enumerate() {
        let told = format!("{name} {} join {}", block.name, at + 1);
        let (matched, lone): (Vec<&Meeting>, Vec<&Meeting>) =
            met[at].iter().partition(|meeting| meeting.is_match_point());
        assert_eq!(matched.len(), join.match_points.len(), "{told}: seams of both sides end at a match point");
        for (meeting, point) in matched.iter().zip(&join.match_points) {
            assert!(near.is_zero(meeting.at.distance(point.at)), "{told}: match points in order along it");
            let all = || meeting.sides.iter().flatten().map(|allowance| allowance.along(&press));
            let agree = |side: usize| {
                meeting.sides[side].iter().all(|a| a.along(&press) == meeting.sides[side][0].along(&press))
            };
            assert_eq!(point.nests(), meeting.nests(&press), "{told}: they nest when they point opposite ways");
            assert_eq!(point.nesting == Nesting::Open, all().any(|way| way.is_none()), "{told}: open");
            let mixed = all().all(|way| way.is_some()) && !(agree(0) && agree(1));
            assert_eq!(
                point.nesting == Nesting::Mixed,
                mixed,
                "{told}: several seams of one side point different ways"
            );
            if let Nesting::SameWay(cause) = point.nesting {
                check_cause(&told, block, meeting, cause);
            }
        }
        let tips: Vec<&Meeting> = lone.into_iter().filter(|m| m.sides.iter().any(|side| side.len() > 1)).collect();
        assert_eq!(tips.len(), join.tips.len(), "{told}: several seams of one side end at a tip");
        for (meeting, tip) in tips.iter().zip(&join.tips) {
            assert!(near.is_zero(meeting.at.distance(*tip)), "{told}: tips in order along it");
        }
        if !join.press_stated && join.press != Press::Open {
            let away = match tip_sides(&met[at]) {
                [true, false] => Press::Right,
                [false, true] => Press::Left,
                _ => join.press,
            };
            assert!(join.press == away || stated_with_others(block, at), "{told}: pressed away from its tips");
        }
        check_spins(&told, block, (at, join), &met);
    }
}

/// A join is stated together with the one that takes what it makes, and only that one tells how it is pressed.
fn stated_with_others(block: &Block, at: usize) -> bool {
    let made = block.joins[at].left.len() + block.joins[at].right.len();
    block.joins[at + 1..]
        .iter()
        .any(|later| later.press_stated && [later.left.len(), later.right.len()].contains(&made))
}

/// Whether any pressing of some of the joins that end there makes it nest.
fn could_nest(meeting: &Meeting, block: &Block, loose: &dyn Fn(usize) -> bool) -> bool {
    let joins: Vec<usize> = meeting.joins().into_iter().filter(|&join| loose(join)).collect();
    (0..1_usize << joins.len()).any(|ways| {
        meeting.nests(&|join| match joins.iter().position(|&other| other == join) {
            Some(bit) if ways >> bit & 1 == 1 => Press::Right,
            Some(_) => Press::Left,
            None => block.joins[join].press,
        })
    })
}

/// The joins of rings and inset corners, which are pressed as these lie flat.
fn round_joins(tree: &Tree) -> Vec<usize> {
    match tree {
        Tree::Unit(_) => Vec::new(),
        Tree::Join { left, right, .. } => [round_joins(left), round_joins(right)].concat(),
        Tree::Round { joins, parts } => joins.iter().copied().chain(parts.iter().flat_map(round_joins)).collect(),
    }
}

fn check_cause(told: &str, block: &Block, meeting: &Meeting, cause: Cause) {
    let joins = meeting.joins();
    let round = round_joins(&block.tree);
    let stated =
        |join: usize| block.joins[join].press_stated || stated_with_others(block, join) || round.contains(&join);
    let tipped = |join: usize| !block.joins[join].tips.is_empty();
    let whatever = could_nest(meeting, block, &|_| true);
    assert_eq!(cause == Cause::Units, !whatever, "{told}: only what no pressing changes is laid by the units");
    match cause {
        Cause::Units => {}
        Cause::Stated => assert!(joins.iter().any(|&join| stated(join)), "{told}: stated"),
        Cause::Tips => assert!(joins.iter().any(|&join| tipped(join)), "{told}: tips"),
        Cause::GivenUp => {
            assert!(could_nest(meeting, block, &|join| !block.joins[join].press_stated), "{told}: given up");
        }
    }
}

/// What is spun is a meeting of two joins that nest, and the allowances lie under one side from each to the next, and as pressed where that matters.
fn check_spins(told: &str, block: &Block, (at, join): (usize, &Join), met: &[Vec<Meeting>]) {
    let line = join.seam.line().expect("a join has length");
    let press = |join: usize| block.joins[join].press;
    // Where the allowances come to lie under which side.
    let mut sides: Vec<(f64, Press)> = Vec::new();
    let mut last: Option<Press> = None;
    let matched = met[at].iter().filter(|meeting| meeting.is_match_point());
    for (meeting, _) in matched.zip(&join.match_points).filter(|(_, point)| point.spins) {
        assert!(meeting.nests(&press) && join.press != Press::Open, "{told}: what is spun nests and is not open");
        let [[Allowance::Of(left, if_left)], [Allowance::Of(..)]] = [&meeting.sides[0][..], &meeting.sides[1][..]]
        else {
            panic!("{told}: at {:?} not two joins meet", meeting.at);
        };
        // Clockwise: the left one points along the join, and the join to its right beyond the point.
        let clockwise = (press(*left) == Press::Left) == *if_left;
        let (before, beyond) = if clockwise { (Press::Left, Press::Right) } else { (Press::Right, Press::Left) };
        if last.is_none() {
            sides.push((f64::NEG_INFINITY, before));
        }
        assert!(last.is_none_or(|last| last == before), "{told}: the allowances lie under one side between two spins");
        sides.push((line.position(meeting.at), beyond));
        last = Some(beyond);
    }
    let under =
        |position: f64| sides.iter().rev().find(|(from, _)| *from < position).map_or(join.press, |(_, side)| *side);
    for later in met[at + 1..].iter().flatten().filter(|later| later.is_match_point() && later.joins().contains(&at)) {
        assert_eq!(under(line.position(later.at)), join.press, "{told}: it is counted on later");
    }
    if join.press_stated || matches!(tip_sides(&met[at]), [true, false] | [false, true]) {
        for &tip in &join.tips {
            assert_eq!(under(line.position(tip)), join.press, "{told}: away from its tips");
        }
    }
}
