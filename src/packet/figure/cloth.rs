//! The cloth of a fabric to scale: its strips stacked, the blanks in them, the cuts that make halves, quarters and pairs of them.
//!
//! Equal strips are drawn once, with how many there are. Where a blank is too small for the sections that it is for, all blanks of the fabric bear letters,
//! which stand in the table of the pieces.

use super::EDGE;
use crate::geometry::{Length, Point, Polygon, Segment, Tolerance, Vector};
use crate::model::{Blank, FabricCutting, Model, PieceGroup, Shape, Stock, Strip, StripPiece, Units};
use crate::packet::chart::{numbers, runs};
use crate::packet::label::{Label, fit};
use crate::packet::measure::Measures;
use crate::packet::page::{Colour, Item, Layer, Page, Path, Stroke, Weight};

/// How wide the drawing of cloth off a bolt is, and of a fat quarter or eighth, in inches on the page.
const WIDE: [f64; 2] = [6.6, 3.1];
/// What stays free above the strips for the width of the cloth, and below them for the scale.
const ABOVE: f64 = 0.24;
const BELOW: f64 = 0.3;
/// The least distance from a strip's middle to the next, so that what is told at their sides stands apart.
const APART: f64 = 0.14;
/// What stays free between strips.
const BETWEEN: f64 = 0.045;
/// A drawing is no higher; what is longer goes on in another.
const HIGHEST: f64 = 4.4;
/// How wide a selvedge is drawn.
const SELVEDGE: f64 = 0.05;
/// The sizes of labels within blanks, in printer's points.
const SIZES: [f64; 5] = [7.0, 6.5, 6.0, 5.5, 5.0];
/// The size of what is told at the sides, in printer's points.
const BESIDE: f64 = 7.0;

/// Cloth being drawn.
struct Cloth<'m> {
    cutting: &'m FabricCutting,
    measures: Measures<'m>,
    letters: Vec<String>,
    colour: Colour,
    /// How wide the drawing is, how far the cloth stands from its left, and inches on the page for an inch of cloth.
    wide: f64,
    left: f64,
    scale: f64,
    /// The width of the cloth.
    across: f64,
}

/// A run of equal strips in a drawing: the index of the first, how many.
type Run = (usize, usize);

/// The letters of the pieces of a fabric, by group; empty where all blanks have room for their sections.
#[must_use]
pub fn cloth_letters(cutting: &FabricCutting, measures: Measures<'_>) -> Vec<String> {
    let cloth = Cloth::new(cutting, [0; 3], Vec::new(), measures);
    let fits = |strip: &Strip| {
        strip.pieces.iter().all(|piece| {
            let Some(group) = cutting.pieces.get(piece.group) else { return true };
            cloth.parts(piece, Point::default()).first().is_none_or(|part| label_in(part, &group.label).is_some())
        })
    };
    if cutting.bought().iter().all(fits) {
        return Vec::new();
    }
    (0..cutting.pieces.len()).map(letter).collect()
}

/// `a`, `b`, … `z`, `aa`, `ab`, ….
fn letter(at: usize) -> String {
    let digit = char::from(b'a' + u8::try_from(at % 26).unwrap_or(0));
    if at < 26 { digit.to_string() } else { format!("{}{digit}", letter(at / 26 - 1)) }
}

/// The drawings of the cloth of a fabric: one, or several where it is long or comes in fat quarters or eighths, of which equal ones are drawn once.
#[must_use]
pub fn cloth(model: &Model, cutting: &FabricCutting, measures: Measures<'_>) -> Vec<Page> {
    let letters = cloth_letters(cutting, measures);
    let colour = model.fabrics.get(cutting.fabric).map_or([255; 3], |fabric| fabric.colour);
    let cloth = Cloth::new(cutting, colour, letters, measures);
    let name = model.fabrics.get(cutting.fabric).map_or("", |fabric| fabric.name.as_str());
    let mut pages = Vec::new();
    for (sheets, runs) in cloth.sheets() {
        for part in cloth.broken(&runs) {
            pages.push(cloth.draw(name, sheets, part));
        }
    }
    pages
}

impl<'m> Cloth<'m> {
    fn new(cutting: &'m FabricCutting, colour: [u8; 3], letters: Vec<String>, measures: Measures<'m>) -> Self {
        let reach = |strip: &Strip| strip.pieces.iter().map(|piece| end(cutting, piece)).fold(0.0, f64::max);
        let used = cutting.bought().iter().map(reach).fold(0.0, f64::max);
        let across = cutting.sheet.0.to_inches().max(used).max(1e-6);
        let wide = WIDE[usize::from(!matches!(cutting.stock, Stock::Bolt(_)))];
        let mut cloth =
            Self { cutting, measures, letters, colour: Colour(colour), wide, left: 0.0, scale: 0.0, across };
        let of_runs = |told: &dyn Fn(Run) -> String| {
            let widths = runs(cutting.bought()).into_iter().map(|run| beside(&told(run), Weight::Bold).width);
            widths.fold(0.0, f64::max)
        };
        cloth.left = of_runs(&|run| numbers(run, measures)) + 0.1 + SELVEDGE;
        let right = of_runs(&|run| cloth.width_of(run)) + 0.1 + SELVEDGE;
        cloth.scale = (wide - cloth.left - right) / across;
        cloth
    }

    /// The width of the strips of a run, as it is told at their side.
    fn width_of(&self, (first, count): Run) -> String {
        let width = self.cutting.bought().get(first).map_or(Length::ZERO, |strip| strip.width);
        self.measures.words().chart_drawing_width(count, self.measures.exact(width))
    }

    /// The runs of strips by sheet, and how many equal sheets each stands for. Of a bolt there is one.
    fn sheets(&self) -> Vec<(usize, Vec<Run>)> {
        let strips = self.cutting.bought();
        let mut found: Vec<(usize, Vec<Run>)> = Vec::new();
        for run in runs(strips) {
            let sheet = |run: &Run| strips.get(run.0).map(|strip| strip.sheet);
            match found.last_mut() {
                Some((_, runs)) if runs.first().and_then(sheet) == sheet(&run) => runs.push(run),
                _ => found.push((1, vec![run])),
            }
        }
        let alike = |a: &[Run], b: &[Run]| {
            let same = |(x, y): (&Run, &Run)| {
                let content = |run: &Run| strips.get(run.0).map(|strip| (strip.width, &strip.pieces));
                x.1 == y.1 && content(x) == content(y)
            };
            a.len() == b.len() && a.iter().zip(b).all(same)
        };
        let mut drawn: Vec<(usize, Vec<Run>)> = Vec::new();
        for (_, runs) in found {
            match drawn.iter_mut().find(|(_, other)| alike(other, &runs)) {
                Some((count, _)) => *count += 1,
                None => drawn.push((1, runs)),
            }
        }
        drawn
    }

    /// Runs that go into one drawing each.
    fn broken<'r>(&self, runs: &'r [Run]) -> Vec<&'r [Run]> {
        let mut parts = Vec::new();
        let (mut from, mut high) = (0, 0.0);
        for (at, run) in runs.iter().enumerate() {
            let pitch = self.pitch(*run);
            if at > from && high + pitch > HIGHEST - ABOVE - BELOW {
                parts.push(&runs[from..at]);
                (from, high) = (at, 0.0);
            }
            high += pitch;
        }
        parts.push(&runs[from..]);
        parts
    }

    fn height(&self, run: Run) -> f64 {
        self.cutting.bought().get(run.0).map_or(0.0, |strip| strip.width.to_inches()) * self.scale
    }

    fn pitch(&self, run: Run) -> f64 {
        (self.height(run) + BETWEEN).max(APART)
    }

    fn draw(&self, name: &str, sheets: usize, runs: &[Run]) -> Page {
        let words = self.measures.words();
        let (from, to) = (self.left, self.left + self.across * self.scale);
        let mut items: Vec<Item> = Vec::new();
        self.draw_width((from, to), &mut items);
        let mut y = ABOVE;
        for &run in runs {
            let Some(strip) = self.cutting.bought().get(run.0) else { continue };
            let (pitch, high) = (self.pitch(run), self.height(run));
            let top = y + (pitch - BETWEEN - high) / 2.0;
            let corners = rectangle(Point::new(from, top), Point::new(to, top + high));
            let pen = Stroke::plain(0.5, EDGE);
            items.push(Path::area(&corners, Some(Colour::WHITE), Some(pen), Layer::Seams).into());
            for piece in &strip.pieces {
                self.draw_blank(piece, Point::new(from, top), &mut items);
            }
            let middle = top + high / 2.0;
            let number = beside(&numbers(run, self.measures), Weight::Bold);
            number.draw(Point::new(from - SELVEDGE - 0.05 - number.width / 2.0, middle), 0.0, &mut items);
            let width = beside(&self.width_of(run), Weight::Regular);
            width.draw(Point::new(to + SELVEDGE + 0.05 + width.width / 2.0, middle), 0.0, &mut items);
            y += pitch;
        }
        let bolt = matches!(self.cutting.stock, Stock::Bolt(_));
        // Of a fat quarter one end is a selvedge.
        for edge in [Some(from - SELVEDGE), bolt.then_some(to)].into_iter().flatten() {
            let corners = rectangle(Point::new(edge, ABOVE - 0.02), Point::new(edge + SELVEDGE, y - BETWEEN + 0.02));
            items.push(Path::area(&corners, Some(Colour::grey(120)), None, Layer::Seams).into());
        }
        self.draw_scale(y, &mut items);
        let count: usize = runs.iter().map(|run| run.1).sum();
        let across = self.measures.length(Length::inches(self.across));
        let title = words.figure_cloth_title(sheets, name);
        let description = words.figure_cloth_alt(name, across, count, sheets);
        Page { width: Length::inches(self.wide), height: Length::inches(y + BELOW), title, description, items }
    }

    /// The width of the cloth, above it between arrows.
    fn draw_width(&self, (from, to): (f64, f64), items: &mut Vec<Item>) {
        let label = beside(&self.measures.length(Length::inches(self.across)), Weight::Regular);
        let (middle, y) = (f64::midpoint(from, to), ABOVE / 2.0 - 0.02);
        let half = label.width / 2.0 + 0.05;
        let line = |a: f64, b: f64| Segment::new(Point::new(a, y), Point::new(b, y));
        let tick = |x: f64| Segment::new(Point::new(x, y - 0.04), Point::new(x, y + 0.04));
        let lines = [line(from, middle - half), line(middle + half, to), tick(from), tick(to)];
        items.push(Path::lines(lines, Stroke::plain(0.5, EDGE), Layer::Marks).into());
        label.draw(Point::new(middle, y), 0.0, items);
    }

    /// A bar that tells the scale, below the cloth.
    fn draw_scale(&self, y: f64, items: &mut Vec<Item>) {
        let length = match self.measures.units() {
            Units::Inches => Length::inches(5.0),
            Units::Metric => Length::millimetres(100.0),
        };
        let (from, y) = (self.left, y + BELOW / 2.0);
        let to = from + length.to_inches() * self.scale;
        let tick = |x: f64| Segment::new(Point::new(x, y - 0.04), Point::new(x, y + 0.04));
        let bar = Segment::new(Point::new(from, y), Point::new(to, y));
        items.push(Path::lines([bar, tick(from), tick(to)], Stroke::plain(0.9, EDGE), Layer::Marks).into());
        let label = beside(&self.measures.words().chart_drawing_scale(self.measures.length(length)), Weight::Regular);
        label.draw(Point::new(to + 0.06 + label.width / 2.0, y), 0.0, items);
    }

    /// A blank with its cuts and its label; `corner` is the upper left of its strip on the page.
    fn draw_blank(&self, piece: &StripPiece, corner: Point, items: &mut Vec<Item>) {
        let Some((group, blank)) = blank_of(self.cutting, piece) else { return };
        let (along, across) = sides(blank, piece.turned);
        let from = corner + Vector::new(piece.x.to_inches(), piece.y.to_inches()) * self.scale;
        let outline = rectangle(from, from + Vector::new(along, across) * self.scale);
        let pen = Stroke::plain(0.6, Colour::grey(40));
        let tint = self.colour.toward(Colour::WHITE, 0.72);
        let parts = self.parts(piece, corner);
        let slants = matches!(group.shape, Shape::Trapezoid { .. });
        let ground = if slants { Colour::WHITE } else { tint };
        items.push(Path::area(&outline, Some(ground), Some(pen.clone()), Layer::Fabric).into());
        for part in parts.iter().filter(|_| group.shape != Shape::Rectangle) {
            items.push(Path::polygon(part, Some(tint), Some(pen.clone()), Layer::Fabric).into());
        }
        let words = self.letters.get(piece.group).filter(|letter| !letter.is_empty()).unwrap_or(&group.label);
        if let Some(part) = parts.first()
            && let Some((label, centre, turn)) = label_in(part, words)
        {
            label.draw(centre, turn, items);
        }
    }

    /// The pieces that a blank gives where they lie on the page; `corner` is the upper left of its strip.
    fn parts(&self, piece: &StripPiece, corner: Point) -> Vec<Polygon> {
        let Some((group, blank)) = blank_of(self.cutting, piece) else { return Vec::new() };
        let high = blank.height.to_inches();
        let place = |&(x, y): &(f64, f64)| {
            // Turned, not mirrored: a shape with a hand keeps it.
            let (x, y) = if piece.turned { (high - y, x) } else { (x, y) };
            corner + Vector::new(piece.x.to_inches() + x, piece.y.to_inches() + y) * self.scale
        };
        let tolerance = Tolerance::of_extent(1.0);
        let polygon = |part: &Vec<(f64, f64)>| {
            let corners: Vec<Point> = part.iter().map(place).collect();
            Polygon::try_new(&corners, tolerance).ok()
        };
        parts(group, blank).iter().filter_map(polygon).collect()
    }
}

/// The pieces of a blank, corner by corner clockwise from its upper left corner, in inches.
fn parts(group: &PieceGroup, blank: Blank) -> Vec<Vec<(f64, f64)>> {
    let (w, h) = (blank.width.to_inches(), blank.height.to_inches());
    let middle = (w / 2.0, h / 2.0);
    match group.shape {
        Shape::Rectangle => vec![vec![(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)]],
        Shape::HalfSquare => vec![vec![(0.0, 0.0), (w, 0.0), (0.0, h)], vec![(w, 0.0), (w, h), (0.0, h)]],
        Shape::QuarterSquare => vec![
            vec![(0.0, 0.0), (w, 0.0), middle],
            vec![(w, 0.0), (w, h), middle],
            vec![(w, h), (0.0, h), middle],
            vec![(0.0, h), (0.0, 0.0), middle],
        ],
        Shape::Trapezoid { trim } => {
            let [left, right] = trim.map(Length::to_inches);
            let wide = group.width.to_inches();
            let upright = |off: f64| {
                vec![
                    (off + left.max(0.0), 0.0),
                    (off + wide - right.max(0.0), 0.0),
                    (off + wide - (-right).max(0.0), h),
                    (off + (-left).max(0.0), h),
                ]
            };
            // Half a turn about the middle of its own rectangle.
            let about = |off: f64| upright(off).iter().map(|&(x, y)| (2.0 * off + wide - x, h - y)).collect::<Vec<_>>();
            match (blank.gives > 1, right.abs() >= left.abs()) {
                (false, _) => vec![upright(0.0)],
                // The ends that are trimmed most lie against each other.
                (true, true) => vec![upright(0.0), about(w - wide)],
                (true, false) => vec![about(0.0), upright(w - wide)],
            }
        }
    }
}

fn blank_of<'c>(cutting: &'c FabricCutting, piece: &StripPiece) -> Option<(&'c PieceGroup, Blank)> {
    let group = cutting.pieces.get(piece.group)?;
    Some((group, *group.blanks.get(piece.blank)?))
}

/// How far a blank reaches along its strip and across it, in inches.
fn sides(blank: Blank, turned: bool) -> (f64, f64) {
    let (width, height) = (blank.width.to_inches(), blank.height.to_inches());
    if turned { (height, width) } else { (width, height) }
}

fn end(cutting: &FabricCutting, piece: &StripPiece) -> f64 {
    blank_of(cutting, piece).map_or(0.0, |(_, blank)| piece.x.to_inches() + sides(blank, piece.turned).0)
}

/// A label in an area of the page, in the largest size that fits, level or upright.
fn label_in(area: &Polygon, words: &str) -> Option<(Label, Point, f64)> {
    SIZES.into_iter().flat_map(|points| [(points, 0.0), (points, -90.0)]).find_map(|(points, turn)| {
        let label = Label::words(words, Length::points(points), Weight::Regular, Colour::BLACK);
        // Screens without the typeface of the packet set wider.
        let spot = fit(area, label.width * 1.1, label.height, turn, 0.014)?;
        Some((label, spot.centre, turn))
    })
}

fn beside(words: &str, weight: Weight) -> Label {
    Label::words(words, Length::points(BESIDE), weight, Colour::BLACK)
}

fn rectangle(from: Point, to: Point) -> [Point; 4] {
    [from, Point::new(to.x, from.y), to, Point::new(from.x, to.y)]
}
