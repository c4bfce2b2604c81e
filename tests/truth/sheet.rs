//! What a sheet must show by the model, and how far what it shows strays from that.

use std::fmt::{self, Display};

use piecewright::geometry::{Point, Polygon, Segment, Tolerance, Transform, Vector};
use piecewright::model::{Model, Paper};
use piecewright::packet::sheets::{Sheet, SheetFoundation, bar_lengths};

use crate::raster::{DENSITY, Raster};
use crate::stroke::{Found, Pen, find, whole};

/// What is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// The end of a seam on which pieces are sewn.
    SeamEnd,
    /// The end of a seam within a pieced section.
    StripEnd,
    /// A corner of a finished unit, or of where it is trimmed.
    Corner,
    /// The outline of a finished unit or of where it is trimmed along an edge, wherever its corners lie.
    Edge,
    /// Sides and corners of the square of an inch.
    Square,
    /// A tick of the bar.
    Bar,
    /// That ink reaches from one end of a seam to the other, and no farther.
    Ink,
}

/// Something that was looked for.
#[derive(Debug, Clone)]
pub struct Finding {
    pub kind: Kind,
    pub what: String,
    /// How far it is from where it must be, in pixels; nothing where it could not be measured.
    pub stray: Option<f64>,
}

impl Display for Finding {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.stray {
            Some(stray) => write!(to, "{}: {stray:.3} px", self.what),
            None => write!(to, "{}: not measured", self.what),
        }
    }
}

/// The pens by which a sheet is drawn.
const SEAM: Pen = Pen::points(0.8, 0);
const STRIP: Pen = Pen::points(0.5, 110);
const OUTLINE: Pen = Pen::points(1.4, 0);
const CUTTING: Pen = Pen::points(0.5, 110);
const CHECK: Pen = Pen::points(0.7, 0);

/// How far ink past the end of a seam must keep from the line on which it ends, in pixels.
const PAST: f64 = 4.0;

/// Everything that is measured on a sheet.
pub fn measure(raster: &Raster, model: &Model, sheet: &Sheet) -> Vec<Finding> {
    let mut findings = Vec::new();
    for foundation in &sheet.foundations {
        measure_foundation(raster, model, foundation, &mut findings);
    }
    measure_square(raster, sheet.paper, &mut findings);
    measure_bar(raster, sheet.paper, &mut findings);
    findings
}

/// A line of a foundation.
struct Drawn {
    what: String,
    kind: Kind,
    pen: Pen,
    /// All of it, in pixels.
    whole: Segment,
    /// What of it lies in the part.
    seen: Option<Segment>,
    found: Option<Found>,
}

/// From inches to pixels.
fn to_pixels() -> Transform {
    Transform::scale(DENSITY)
}

fn measure_foundation(raster: &Raster, model: &Model, on: &SheetFoundation, findings: &mut Vec<Finding>) {
    let block = &model.blocks[on.block];
    let variant = &block.variants[on.variant];
    let unit = block.unit_of(variant);
    let place = on.matrix.then(to_pixels());
    let seen = to_pixels().apply_to_polygon(&on.cutting_line);
    let named = match on.part {
        Some((part, of)) => format!("{} part {part} of {of}", variant.mark),
        None => variant.mark.clone(),
    };
    let mut lines = Vec::new();
    let mut draw = |what: String, kind: Kind, pen: Pen, whole: Segment| {
        lines.push(Drawn { what: format!("{named}, {what}"), kind, pen, whole, seen: within(&seen, whole), found: None });
    };
    for (k, section) in unit.sections.iter().enumerate() {
        if let Some(seam) = section.seam {
            draw(format!("seam of {}", k + 1), Kind::SeamEnd, SEAM, place.apply_to_segment(seam));
        }
        for (j, seam) in section.pieced.iter().enumerate().filter_map(|(j, strip)| Some((j, strip.seam?))) {
            draw(format!("seam past strip {} of {}", j + 1, k + 1), Kind::StripEnd, STRIP, place.apply_to_segment(seam));
        }
    }
    for (polygon, what, pen) in [(&unit.outline, "outline", OUTLINE), (&unit.cutting_line, "cutting line", CUTTING)] {
        for (k, edge) in polygon.edges().enumerate() {
            draw(format!("{what} {}", k + 1), Kind::Edge, pen, place.apply_to_segment(edge));
        }
    }
    for k in 0..lines.len() {
        let others: Vec<(Segment, Pen)> =
            lines.iter().enumerate().filter(|(j, _)| *j != k).map(|(_, line)| (line.whole, line.pen)).collect();
        let line = &mut lines[k];
        line.found = line.seen.and_then(|stretch| find(raster, stretch, line.pen, &others));
    }
    for (k, line) in lines.iter().enumerate() {
        match line.kind {
            Kind::Edge => measure_edge(k, &lines, &seen, findings),
            _ => measure_seam(raster, k, &lines, &seen, findings),
        }
    }
}

/// What of a stretch lies within an area.
fn within(area: &Polygon, stretch: Segment) -> Option<Segment> {
    let line = stretch.line()?;
    let (from, to) = area.bounds();
    // An edge of the area itself has no chord within it.
    let aside = line.direction().quarter_turned() * 0.01;
    let chord = [Vector::new(0.0, 0.0), aside, -aside].into_iter().find_map(|aside| {
        let moved = Transform::shift(aside).apply_to_segment(stretch).line()?;
        area.chord(moved, Tolerance::of_extent((to - from).length()))
    })?;
    let (from, to) = (line.position(chord.start).max(0.0), line.position(chord.end).min(stretch.length()));
    (to > from).then(|| Segment::new(line.at(from), line.at(to)))
}

/// Whether a place lies on what is printed.
fn shows(area: &Polygon, place: Point) -> bool {
    area.distance_outside(place) < 0.01
}

/// The lines on which another line ends at a place, the squarest first.
fn bearers<'l>(lines: &'l [Drawn], of: usize, end: Point) -> Vec<(f64, &'l Drawn)> {
    let way = |line: &Drawn| (line.whole.end - line.whole.start).unit().unwrap_or(Vector::new(0.0, 0.0));
    let mut found: Vec<(f64, &Drawn)> = lines
        .iter()
        .enumerate()
        .filter(|(k, line)| *k != of && line.whole.distance(end) < 0.05)
        .map(|(_, line)| (way(line).cross(way(&lines[of])).abs(), line))
        .filter(|(sine, _)| *sine > 0.02)
        .collect();
    found.sort_by(|a, b| b.0.total_cmp(&a.0));
    found
}

/// How far the crossing of a line with what it ends on is from where it must be.
fn stray_of_end(lines: &[Drawn], of: usize, end: Point) -> Option<f64> {
    let found = lines[of].found?;
    let bearer = bearers(lines, of, end).into_iter().find_map(|(_, line)| line.found)?;
    Some(found.line().meet(bearer.line())?.distance(end))
}

fn measure_edge(k: usize, lines: &[Drawn], seen: &Polygon, findings: &mut Vec<Finding>) {
    let line = &lines[k];
    let Some(stretch) = line.seen else { return };
    let edge = line.whole.line().expect("an edge has a length");
    let found = line.found.map(|found| found.stretch);
    let stray = found.map(|found| edge.distance_right(found.start).abs().max(edge.distance_right(found.end).abs()));
    // What lies along the edge of a part is hidden by it, or no longer than the pen is wide.
    if stray.is_some() || stretch.length() > 40.0 {
        findings.push(Finding { kind: Kind::Edge, what: line.what.clone(), stray });
    }
    if shows(seen, line.whole.end) {
        let next = lines.iter().position(|other| {
            other.kind == Kind::Edge && other.pen.width == line.pen.width && other.whole.start.distance(line.whole.end) < 1e-6
        });
        let next = next.expect("an outline is closed");
        let corner = line.found.zip(lines[next].found).and_then(|(a, b)| a.line().meet(b.line()));
        let stray = corner.map(|corner| corner.distance(line.whole.end));
        findings.push(Finding { kind: Kind::Corner, what: format!("{}, its end", line.what), stray });
    }
}

fn measure_seam(raster: &Raster, k: usize, lines: &[Drawn], seen: &Polygon, findings: &mut Vec<Finding>) {
    let line = &lines[k];
    let Segment { start, end } = line.whole;
    for (end, other, what) in [(start, end, "start"), (end, start, "end")] {
        if !shows(seen, end) {
            continue;
        }
        let what = format!("{}, its {what}", line.what);
        findings.push(Finding { kind: line.kind, what: what.clone(), stray: stray_of_end(lines, k, end) });
        if line.kind == Kind::SeamEnd
            && let Some(past) = ink_past(raster, lines, k, (other, end))
        {
            findings.push(Finding { kind: Kind::Ink, what: format!("{what}, ink past it"), stray: Some(past) });
        }
    }
    if let Some(stretch) = line.seen.filter(|_| line.kind == Kind::SeamEnd) {
        let gap = longest_gap(raster, stretch);
        findings.push(Finding { kind: Kind::Ink, what: format!("{}, a gap", line.what), stray: Some(gap) });
    }
}

/// The ink of the pixel at a place and those round it: the darkest.
fn darkest(raster: &Raster, at: Point) -> f64 {
    let (x, y) = (whole(at.x.floor()), whole(at.y.floor()));
    let around = (-1..=1).flat_map(|i| (-1..=1).map(move |j| (x + i, y + j)));
    around.map(|(x, y)| raster.ink(x, y)).fold(0.0, f64::max)
}

/// How far ink is lacking at a stretch of a line, in pixels.
fn longest_gap(raster: &Raster, stretch: Segment) -> f64 {
    let Some(line) = stretch.line() else { return 0.0 };
    let (mut gap, mut longest, mut at) = (0.0, 0.0_f64, 0.5);
    while at < stretch.length() {
        gap = if darkest(raster, line.at(at)) < 0.5 { gap + 0.5 } else { 0.0 };
        longest = longest.max(gap);
        at += 0.5;
    }
    longest
}

/// How much ink there is past the end of a seam within the unit, where nothing else is drawn: a pixel for a wholly black one.
fn ink_past(raster: &Raster, lines: &[Drawn], of: usize, (start, end): (Point, Point)) -> Option<f64> {
    let (sine, bearer) = bearers(lines, of, end).into_iter().next()?;
    let way = (end - start).unit()?;
    let on_outline = lines.iter().any(|line| line.kind == Kind::Edge && line.whole.distance(end) < 0.05);
    let past = end + way * ((bearer.pen.width + lines[of].pen.width) / 2.0 / sine + PAST);
    let free = lines.iter().enumerate().all(|(k, line)| k == of || line.whole.distance(past) > line.pen.width + PAST);
    (free && !on_outline).then(|| darkest(raster, past))
}

fn measure_square(raster: &Raster, paper: Paper, findings: &mut Vec<Finding>) {
    let (margin, width) = (paper.margin().to_inches(), paper.size().0.to_inches());
    let corner = |x: f64, y: f64| to_pixels().apply(Point::new(width - margin - 1.0 + x, margin + y));
    let corners = [corner(0.0, 0.0), corner(1.0, 0.0), corner(1.0, 1.0), corner(0.0, 1.0)];
    let side = |k: usize| find(raster, Segment::new(corners[k], corners[(k + 1) % 4]), CHECK, &[]).map(|found| found.line());
    let sides = [0, 1, 2, 3].map(side);
    // Its true size follows from what it says, wherever on the page it stands.
    let found = |k: usize| sides[(k + 3) % 4].zip(sides[k]).and_then(|(a, b)| a.meet(b));
    let diagonal = DENSITY * 2.0_f64.sqrt();
    for (a, b, distance) in
        [(0, 1, DENSITY), (1, 2, DENSITY), (2, 3, DENSITY), (3, 0, DENSITY), (0, 2, diagonal), (1, 3, diagonal)]
    {
        let stray = found(a).zip(found(b)).map(|(a, b)| (a.distance(b) - distance).abs());
        let what = format!("the square, from corner {} to {}", a + 1, b + 1);
        findings.push(Finding { kind: Kind::Square, what, stray });
    }
}

fn measure_bar(raster: &Raster, paper: Paper, findings: &mut Vec<Finding>) {
    let (inches, centimetres) = bar_lengths(paper);
    let (left, y) = (paper.margin().to_inches(), paper.size().1.to_inches() - paper.margin().to_inches() - 0.22);
    for (count, unit, up, called) in [(inches, 1.0, -1.0, "inches"), (centimetres, 1.0 / 2.54, 1.0, "centimetres")] {
        let tick = |k: u32| {
            let x = left + f64::from(k) * unit;
            // The shorter ticks are 0.06 in long.
            let stretch = Segment::new(Point::new(x, y), Point::new(x, y + up * 0.06));
            let found = find(raster, to_pixels().apply_to_segment(stretch), CHECK, &[])?;
            Some(found.stretch.middle().x)
        };
        let first = tick(0);
        for k in 1..=count {
            let stray = first.zip(tick(k)).map(|(first, at)| (at - first - f64::from(k) * unit * DENSITY).abs());
            findings.push(Finding { kind: Kind::Bar, what: format!("the bar at {k} {called}"), stray });
        }
    }
}
