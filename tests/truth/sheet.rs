//! What a sheet must show by the model, and how far what it shows strays from that.

use std::collections::BTreeSet;
use std::fmt::{self, Display};

use piecewright::geometry::{Point, Polygon, Segment, Tolerance, Transform, Vector};
use piecewright::model::Model;
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
    /// A corner of a finished unit.
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
/// How short an edge is no more than a spot, in pixels.
const SPOT: f64 = 40.0;
/// How far from the edge of a part its seams are hidden where it is cut, in pixels.
const GLUED: f64 = 36.0;

/// A raster and how it is to be read.
#[derive(Clone, Copy)]
pub struct View<'r> {
    pub raster: &'r Raster,
    /// From inches on the sheet to pixels.
    pub to_pixels: Transform,
    /// Whether level and upright strokes lie on whole pixels, wherever the file has them.
    pub snaps: bool,
}

/// Everything that is measured on a sheet.
pub fn measure(view: View<'_>, model: &Model, sheet: &Sheet) -> Vec<Finding> {
    let mut findings = Vec::new();
    for foundation in &sheet.foundations {
        measure_foundation(view, model, foundation, &mut findings);
    }
    measure_square(view, sheet, &mut findings);
    measure_bar(view, sheet, &mut findings);
    findings
}

/// An end of a seam: its block, its foundation, its section, and whether it is the second of the two.
pub type End = (usize, usize, usize, bool);

/// The ends of seams that sheets must show somewhere.
pub fn ends_sewn(model: &Model) -> BTreeSet<End> {
    let mut ends = BTreeSet::new();
    for (b, block) in model.blocks.iter().enumerate() {
        for (v, variant) in block.variants.iter().enumerate().filter(|(_, v)| v.sewn > 0 && block.has_paper(v)) {
            let seams =
                block.unit_of(variant).sections.iter().enumerate().filter(|(_, section)| section.seam.is_some());
            ends.extend(seams.flat_map(|(k, _)| [(b, v, k, false), (b, v, k, true)]));
        }
    }
    ends
}

/// The ends of seams that lie on what is cut out of a sheet.
pub fn ends_shown(model: &Model, sheet: &Sheet) -> BTreeSet<End> {
    let mut ends = BTreeSet::new();
    for on in &sheet.foundations {
        let block = &model.blocks[on.block];
        for (k, section) in block.unit_of(&block.variants[on.variant]).sections.iter().enumerate() {
            let Some(seam) = section.seam else { continue };
            let both = [(seam.start, false), (seam.end, true)].into_iter();
            let shown = both.filter(|(end, _)| on.cutting_line.distance_outside(on.matrix.apply(*end)) < 1e-5);
            ends.extend(shown.map(|(_, second)| (on.block, on.variant, k, second)));
        }
    }
    ends
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

fn measure_foundation(view: View<'_>, model: &Model, on: &SheetFoundation, findings: &mut Vec<Finding>) {
    let block = &model.blocks[on.block];
    let variant = &block.variants[on.variant];
    let unit = block.unit_of(variant);
    let place = on.matrix.then(view.to_pixels);
    let seen = view.to_pixels.apply_to_polygon(&on.cutting_line);
    let named = match on.part {
        Some((part, of)) => format!("{} part {part} of {of}", variant.mark),
        None => variant.mark.clone(),
    };
    let mut lines = Vec::new();
    let mut draw = |what: String, kind: Kind, pen: Pen, whole: Segment| {
        lines.push(Drawn {
            what: format!("{named}, {what}"),
            kind,
            pen,
            whole,
            seen: within(&seen, whole),
            found: None,
        });
    };
    for (k, section) in unit.sections.iter().enumerate() {
        if let Some(seam) = section.seam {
            draw(format!("seam of {}", k + 1), Kind::SeamEnd, SEAM, place.apply_to_segment(seam));
        }
        for (j, seam) in section.pieced.iter().enumerate().filter_map(|(j, strip)| Some((j, strip.seam?))) {
            draw(
                format!("seam past strip {} of {}", j + 1, k + 1),
                Kind::StripEnd,
                STRIP,
                place.apply_to_segment(seam),
            );
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
        line.found = line.seen.and_then(|stretch| find(view.raster, stretch, line.pen, &others));
    }
    // Along its edges a part is covered by what says how parts are glued.
    let cutting_line = place.apply_to_polygon(&unit.cutting_line);
    let is_cut = |edge: &Segment| cutting_line.edges().all(|own| own.distance(edge.middle()) > 0.05);
    let on_sheet = OnSheet { view, lines, edges_of_part: seen.edges().filter(is_cut).collect(), seen };
    for (k, line) in on_sheet.lines.iter().enumerate() {
        match line.kind {
            Kind::Edge => on_sheet.measure_edge(k, findings),
            _ => on_sheet.measure_seam(k, findings),
        }
    }
}

/// A foundation on a sheet, its lines found as far as they can be.
struct OnSheet<'r> {
    view: View<'r>,
    lines: Vec<Drawn>,
    /// What is cut out.
    seen: Polygon,
    /// Where that ends at the edge of a part.
    edges_of_part: Vec<Segment>,
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

/// Whether a line runs along pixels.
fn is_square(line: Segment) -> bool {
    let way = line.end - line.start;
    way.x.abs().min(way.y.abs()) < 1e-3
}

impl OnSheet<'_> {
    /// The lines on which another line ends at a place, the squarest first, each with the sine of the angle between them.
    fn bearers(&self, of: usize, end: Point) -> Vec<(f64, &Drawn)> {
        let way = |line: &Drawn| (line.whole.end - line.whole.start).unit().unwrap_or(Vector::new(0.0, 0.0));
        let own = way(&self.lines[of]);
        let others = self.lines.iter().enumerate().filter(|(k, line)| *k != of && line.whole.distance(end) < 0.05);
        let mut found: Vec<(f64, &Drawn)> =
            others.map(|(_, line)| (way(line).cross(own).abs(), line)).filter(|(sine, _)| *sine > 0.02).collect();
        found.sort_by(|a, b| b.0.total_cmp(&a.0));
        found
    }

    /// How far the crossing of two lines is from where it must be.
    ///
    /// Where a renderer moves one of the two to whole pixels, half a pixel becomes more along a slender crossing, whatever the file says: then both lines
    /// must run within that distance of the place.
    fn stray(&self, (one, other): (&Drawn, &Drawn), place: Point) -> Option<f64> {
        let (a, b) = (one.found?.line(), other.found?.line());
        if self.view.snaps && (is_square(one.whole) || is_square(other.whole)) {
            return Some(a.distance_right(place).abs().max(b.distance_right(place).abs()));
        }
        Some(a.meet(b)?.distance(place))
    }

    /// How far the crossing of a line with what it ends on is from where it must be.
    fn stray_of_end(&self, of: usize, end: Point) -> Option<f64> {
        let bearers = self.bearers(of, end).into_iter();
        let (_, bearer) = bearers.into_iter().find(|(_, bearer)| bearer.found.is_some())?;
        self.stray((&self.lines[of], bearer), end)
    }

    fn measure_edge(&self, k: usize, findings: &mut Vec<Finding>) {
        let line = &self.lines[k];
        let Some(stretch) = line.seen else { return };
        let edge = line.whole.line().expect("an edge has a length");
        let found = line.found.map(|found| found.stretch);
        let stray = found.map(|found| edge.distance_right(found.start).abs().max(edge.distance_right(found.end).abs()));
        // Of what is no longer than this the pen makes a spot: blunted tips of cutting lines.
        if stray.is_some() || stretch.length() > SPOT {
            findings.push(Finding { kind: Kind::Edge, what: line.what.clone(), stray });
        }
        if line.pen.width == OUTLINE.width && shows(&self.seen, line.whole.end) {
            let next =
                |other: &&Drawn| other.pen.width == OUTLINE.width && other.whole.start.distance(line.whole.end) < 1e-6;
            let next = self.lines.iter().find(next).expect("an outline is closed");
            let stray = self.stray((line, next), line.whole.end);
            findings.push(Finding { kind: Kind::Corner, what: format!("{}, its end", line.what), stray });
        }
    }

    fn measure_seam(&self, k: usize, findings: &mut Vec<Finding>) {
        let line = &self.lines[k];
        let Segment { start, end } = line.whole;
        for (end, other, what) in [(start, end, "start"), (end, start, "end")] {
            if !shows(&self.seen, end) {
                continue;
            }
            let what = format!("{}, its {what}", line.what);
            findings.push(Finding { kind: line.kind, what: what.clone(), stray: self.stray_of_end(k, end) });
            if line.kind == Kind::SeamEnd
                && let Some(past) = self.ink_past(k, (other, end))
            {
                findings.push(Finding { kind: Kind::Ink, what: format!("{what}, ink past it"), stray: Some(past) });
            }
        }
        if let Some(stretch) = line.seen.filter(|_| line.kind == Kind::SeamEnd) {
            let gap = self.longest_gap(stretch);
            findings.push(Finding { kind: Kind::Ink, what: format!("{}, a gap", line.what), stray: Some(gap) });
        }
    }

    /// How far ink is lacking at a stretch of a line, in pixels.
    fn longest_gap(&self, stretch: Segment) -> f64 {
        let Some(line) = stretch.line() else { return 0.0 };
        let (mut gap, mut longest, mut at) = (0.0, 0.0_f64, 0.5);
        while at < stretch.length() {
            let place = line.at(at);
            let is_open = self.edges_of_part.iter().all(|edge| edge.distance(place) > GLUED);
            gap = if is_open && darkest(self.view.raster, place) < 0.5 { gap + 0.5 } else { 0.0 };
            longest = longest.max(gap);
            at += 0.5;
        }
        longest
    }

    /// How much ink there is past the end of a seam within the unit, all the way from the line on which it ends, where no other line is drawn: a pixel for a wholly
    /// black one. What stands further off, such as the ring of a number, is no ink of the seam.
    fn ink_past(&self, of: usize, (start, end): (Point, Point)) -> Option<f64> {
        let way = (end - start).unit()?;
        let own = self.lines[of].pen.width;
        let lines = || self.lines.iter().enumerate();
        let on_outline = lines().any(|(_, line)| line.kind == Kind::Edge && line.whole.distance(end) < 0.05);
        let beyond = |far: f64| {
            let clear = |(sine, bearer): (f64, &Drawn)| (f64::midpoint(bearer.pen.width, own) + far) / sine;
            Some(end + way * self.bearers(of, end).into_iter().map(clear).reduce(f64::max)?)
        };
        let (near, past) = (beyond(PAST / 2.0)?, beyond(PAST)?);
        let is_clear = |line: &Drawn| line.whole.distance(past) > f64::midpoint(line.pen.width, own) + PAST / 2.0;
        let free = lines().all(|(k, line)| k == of || is_clear(line));
        let ink = |at: Point| darkest(self.view.raster, at);
        (free && !on_outline && shows(&self.seen, past)).then(|| ink(near).min(ink(past)))
    }
}

/// The ink of the pixel at a place and those round it: the darkest.
fn darkest(raster: &Raster, at: Point) -> f64 {
    let (x, y) = (whole(at.x.floor()), whole(at.y.floor()));
    let around = (-1..=1).flat_map(|i| (-1..=1).map(move |j| (x + i, y + j)));
    around.map(|(x, y)| raster.ink(x, y)).fold(0.0, f64::max)
}

fn measure_square(view: View<'_>, sheet: &Sheet, findings: &mut Vec<Finding>) {
    let (margin, width) = (sheet.bed.margin.to_inches(), sheet.page.width.to_inches());
    let corner = |x: f64, y: f64| view.to_pixels.apply(Point::new(width - margin - 1.0 + x, margin + y));
    let corners = [corner(0.0, 0.0), corner(1.0, 0.0), corner(1.0, 1.0), corner(0.0, 1.0)];
    let side = |k: usize| {
        find(view.raster, Segment::new(corners[k], corners[(k + 1) % 4]), CHECK, &[]).map(|found| found.line())
    };
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

fn measure_bar(view: View<'_>, sheet: &Sheet, findings: &mut Vec<Finding>) {
    let (inches, centimetres) = bar_lengths(sheet.bed);
    let (left, y) = (sheet.bed.margin.to_inches(), sheet.page.height.to_inches() - sheet.bed.margin.to_inches() - 0.22);
    for (count, unit, up, called) in [(inches, 1.0, -1.0, "inches"), (centimetres, 1.0 / 2.54, 1.0, "centimetres")] {
        let tick = |k: u32| {
            let x = left + f64::from(k) * unit;
            // The shorter ticks are 0.06 in long.
            let stretch = Segment::new(Point::new(x, y), Point::new(x, y + up * 0.06));
            find(view.raster, view.to_pixels.apply_to_segment(stretch), CHECK, &[])
        };
        let first = tick(0);
        for k in 1..=count {
            let stray = first.zip(tick(k)).map(|(first, tick)| {
                let apart = first.line().distance_right(tick.stretch.middle()).abs();
                (apart - f64::from(k) * unit * DENSITY).abs()
            });
            findings.push(Finding { kind: Kind::Bar, what: format!("the bar at {k} {called}"), stray });
        }
    }
}
