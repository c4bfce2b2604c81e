//! The unit of the primer: what is printed, and where its pieces lie at each stage, seen from the printed side with line 2 level.

use crate::geometry::{Line, Point, Polygon, Segment, Tolerance, Transform};

/// The allowance of the drawings, in their own unit: broad enough to be seen.
pub(super) const ALLOWANCE: f64 = 0.3;
/// How high line 2 lies.
pub(super) const LINE: f64 = 1.0;
/// How far outside the cutting line the paper is cut apart.
const ROUGHLY: f64 = 0.16;

/// The unit and its pieces.
pub(super) struct Sail {
    pub tolerance: Tolerance,
    /// The paper, cut apart roughly.
    pub paper: Polygon,
    pub cutting: Polygon,
    pub outline: Polygon,
    pub sections: [Polygon; 3],
    /// What piece 2 must cover.
    pub needed: Polygon,
    /// Piece 1 as it is cut.
    pub first: Polygon,
    /// Piece 1 trimmed to one allowance past line 2.
    pub trimmed: Polygon,
    /// What is trimmed off it.
    pub cut_off: Polygon,
    /// Piece 2 while it is sewn.
    pub laid: Polygon,
    /// Piece 2 flipped open.
    pub flipped: Polygon,
    /// Piece 3 flipped open.
    pub last: Polygon,
    /// From where to where line 2 is stitched.
    pub stitched: (f64, f64),
    /// The cut along the right edge of the cutting line.
    pub kept: KeptSide,
    /// The paper that stays when that of section 2 is torn off, and what is torn off: ragged along lines 2 and 3.
    pub torn: [Vec<Point>; 2],
}

/// A cut along the right edge of the unit: what lies left of it is kept.
pub(super) struct KeptSide {
    /// The cut, from below up.
    pub edge: Segment,
    line: Line,
    tolerance: Tolerance,
}

impl KeptSide {
    fn right_of(cutting: &Polygon, tolerance: Tolerance) -> Option<Self> {
        let edge = cutting.edges().max_by(|a, b| a.middle().x.total_cmp(&b.middle().x))?;
        let edge = if edge.start.y < edge.end.y { edge.reversed() } else { edge };
        let run = (edge.end - edge.start) * 0.08;
        Some(Self { edge: Segment::new(edge.start + -run, edge.end + run), line: edge.line()?, tolerance })
    }

    /// What is kept of an area, and what falls off.
    pub fn split(&self, area: &Polygon) -> (Option<Polygon>, Option<Polygon>) {
        area.cut(self.line, self.tolerance)
    }
}

impl Sail {
    /// The unit; never none, for its numbers are good.
    pub fn new() -> Option<Self> {
        let tolerance = Tolerance::of_extent(4.0);
        let polygon = |corners: &[(f64, f64)]| {
            let corners: Vec<Point> = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
            Polygon::try_new(&corners, tolerance).ok()
        };
        let rectangle = |left: f64, top: f64, right: f64, bottom: f64| {
            Polygon::rectangle(Point::new(left, top), Point::new(right, bottom))
        };
        let outline = polygon(&[(0.5, 0.0), (3.0, 0.0), (3.6, 3.0), (0.0, 3.0)])?;
        let cutting = outline.grown(ALLOWANCE);
        let paper = cutting.grown(ROUGHLY);
        let level = Line::through(Point::new(0.0, LINE), Point::new(1.0, LINE))?;
        // Directed upward: section 3 lies on its right.
        let luff = Line::through(Point::new(2.75, 3.0), Point::new(2.2, 0.0))?;
        let (body, third) = outline.cut(luff, tolerance);
        // Left of a line that runs to the right lies above it.
        let (second, first_section) = body?.cut(level, tolerance);
        let sections = [first_section?, second?, third?];
        let needed = sections[1].grown(ALLOWANCE).intersection(&cutting, tolerance)?;
        let first = rectangle(-0.6, 0.35, 3.2, 3.6)?;
        let (cut_off, trimmed) = first.cut(level.shifted_right(-ALLOWANCE), tolerance);
        let laid = rectangle(-0.9, LINE - ALLOWANCE, 3.5, 2.5)?;
        let flipped = Transform::mirror(level).apply_to_polygon(&laid);
        let across = luff.direction().quarter_turned();
        let corner = |along: f64, aside: f64| luff.at(along) + across * aside;
        let last = Polygon::try_new(
            &[corner(-0.6, -ALLOWANCE), corner(3.6, -ALLOWANCE), corner(3.6, 1.35), corner(-0.6, 1.35)],
            tolerance,
        );
        let whole = cutting.chord(level, tolerance)?;
        let end = level.meet(luff)?;
        Some(Self {
            kept: KeptSide::right_of(&cutting, tolerance)?,
            torn: torn(&cutting, level, luff, tolerance)?,
            stitched: (whole.start.x.min(whole.end.x), end.x + 0.24),
            tolerance,
            paper,
            cutting,
            outline,
            sections,
            needed,
            first,
            trimmed: trimmed?,
            cut_off: cut_off?,
            laid,
            flipped,
            last: last.ok()?,
        })
    }

    /// What of an area lies within the cutting line.
    pub fn within_cutting(&self, area: &Polygon) -> Option<Polygon> {
        area.intersection(&self.cutting, self.tolerance)
    }
}

/// The paper on both sides of the stitches of lines 2 and 3: what stays, and that of section 2.
fn torn(cutting: &Polygon, level: Line, luff: Line, tolerance: Tolerance) -> Option<[Vec<Point>; 2]> {
    let across = cutting.chord(level, tolerance)?;
    let start = if across.start.x < across.end.x { across.start } else { across.end };
    let corner = level.meet(luff)?;
    let upward = cutting.chord(luff, tolerance)?;
    let top = if upward.start.y < upward.end.y { upward.start } else { upward.end };
    let ragged: Vec<Point> = rough(start, corner).chain(rough(corner, top)).chain([top]).collect();
    // The one corner of section 2, and the others clockwise from it.
    let corners = cutting.corners();
    let own = corners.iter().position(|&c| c.y < LINE && luff.distance_right(c) < 0.0)?;
    let others = corners.iter().cycle().skip(own + 1).take(corners.len() - 1).copied();
    let stays = ragged.iter().copied().chain(others).collect();
    let off = corners.get(own).copied().into_iter().chain(ragged.iter().rev().copied()).collect();
    Some([stays, off])
}

/// A ragged way from one place toward another, without the last.
fn rough(from: Point, to: Point) -> impl Iterator<Item = Point> {
    const TEETH: [f64; 5] = [0.0, 0.045, -0.02, 0.035, -0.04];
    let aside = (to - from).unit().unwrap_or_default().quarter_turned();
    let steps = 20;
    (0..steps).zip(TEETH.iter().cycle()).map(move |(k, tooth)| {
        let at = from.along(to, f64::from(k) / f64::from(steps));
        if k == 0 { at } else { at + aside * *tooth }
    })
}
