//! Mats of a cutting machine: the foundations of a unit, or all pieces of a fabric, laid out to be cut at true size.
//!
//! Coordinates are inches from the upper left of the mat, y down, as the mat is seen from above.

use crate::filling::{Budget, Medium, Page, Place, Shape as Outline, Task, Turning, Wish, fill, fits};
use crate::geometry::{Length, Point, Polygon, Segment, Tolerance, Transform, Vector};
use crate::model::{Fit, Model, PieceGroup, PrintDirection, Section, Shape, Variant};

use super::edges::ticks;
use super::hand;
use super::label::{apart, fit};
use super::page::Weight;
use super::typeface;

/// How far pieces keep from each other, in inches: so that the stuff between them holds while they are cut.
pub const GAP: f64 = 0.125;
/// The side of the square to measure, in inches.
pub const CHECK: f64 = 1.0;
/// How far names keep from the edges of what they name, in inches.
const CLEAR: f64 = 0.03;
/// Sizes of names that are tried, in printer's points.
const SIZES: [f64; 6] = [14.0, 11.0, 9.0, 7.0, 5.5, 4.0];
/// How much wider another typeface may be than the one in which names are measured.
const WIDER: f64 = 1.15;

/// What one mat holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Mat {
    /// How wide the area is in which the machine cuts.
    pub width: Length,
    /// How high it is.
    pub height: Length,
    /// The pieces, which do not overlap.
    pub pieces: Vec<MatPiece>,
    /// The upper left corner of a square of an inch that is only there to be measured; none where the mat is smaller than that.
    pub check: Option<Point>,
}

/// A piece on a mat.
#[derive(Debug, Clone, PartialEq)]
pub struct MatPiece {
    /// Where it is cut.
    pub cut: Polygon,
    /// Areas whose edge is drawn or scored on it.
    pub areas: Vec<Polygon>,
    /// Lines that are drawn or scored on it.
    pub lines: Vec<Segment>,
    /// What is written on it.
    pub names: Vec<Name>,
}

/// Words on a piece.
#[derive(Debug, Clone, PartialEq)]
pub struct Name {
    /// Where the middle of their baseline lies.
    pub at: Point,
    /// The words.
    pub words: String,
    /// The size of the type.
    pub size: Length,
}

/// Where a machine cuts, and how hard a layout is searched.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MatSize {
    /// How wide the area is.
    pub width: Length,
    /// How high it is.
    pub height: Length,
    /// How much work may be done to take few mats.
    pub effort: Budget,
}

/// Which side of a thing lies up on the mat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SideUp {
    /// Of a foundation the printed side, of fabric the right side.
    Usual,
    /// Of a foundation the front, of fabric the wrong side: the mirror image.
    Other,
}

/// A piece that is larger than the mat in every turn in which it may lie.
#[derive(Debug, Clone, PartialEq)]
pub struct TooLarge {
    /// What it is: the mark of a foundation, or the sections it is for.
    pub name: String,
    /// Its width as it would lie.
    pub width: Length,
    /// Its height as it would lie.
    pub height: Length,
}

/// A piece to be laid so many times, in a frame of its own.
struct Pattern {
    name: String,
    piece: MatPiece,
    /// Words, each with the area into which they go.
    names: Vec<(String, Polygon)>,
    copies: u32,
}

/// The foundations of every unit that the model sews: each in each hand and set of fabrics, so many times.
///
/// # Errors
/// The first foundation that is larger than the mat.
pub fn foundations(model: &Model, bed: &MatSize, copies: u32, side: SideUp) -> Result<Vec<Mat>, TooLarge> {
    let mut patterns = Vec::new();
    for block in &model.blocks {
        for variant in block.variants.iter().filter(|variant| variant.sewn > 0 && block.has_paper(variant)) {
            let unit = block.unit_of(variant);
            let map = if side == SideUp::Usual { hand::printed(variant) } else { hand::front(variant) };
            let seams = unit.sections.iter().filter_map(|section| section.seam);
            let tick = |at: Point, outward: Vector| Segment::new(at, at + outward * model.allowance.to_inches());
            let ticks = ticks(block, variant).into_iter().map(|found| tick(found.at, found.outward));
            let names = unit.sections.iter().enumerate().flat_map(|(k, section)| named(variant, k, section));
            patterns.push(Pattern {
                name: variant.mark.clone(),
                piece: MatPiece {
                    cut: map.apply_to_polygon(&unit.cutting_line),
                    areas: vec![map.apply_to_polygon(&unit.outline)],
                    lines: seams.chain(ticks).map(|line| map.apply_to_segment(line)).collect(),
                    names: Vec::new(),
                },
                names: names.map(|(words, area)| (words, map.apply_to_polygon(area))).collect(),
                copies,
            });
        }
    }
    // Paper has no grain.
    laid(&patterns, bed, Turning::Freely)
}

/// What is written on a section: its number, and in each of its strips.
fn named<'s>(variant: &'s Variant, k: usize, section: &'s Section) -> impl Iterator<Item = (String, &'s Polygon)> {
    section.areas().map(move |area| (format!("{}{}", variant.mark, k + 1), area))
}

/// All pieces that are cut of a fabric, by its index in [`Model::cutting`]; those round a motif on mats of their own, the last.
///
/// Pieces of a plain fabric are turned by quarters, which keeps them on the threads; those of a print with a direction, and round a motif, stand with
/// its up up, where they are rectangles, which are the same after half a turn.
///
/// # Errors
/// The first piece that is larger than the mat.
pub fn pieces(model: &Model, fabric: usize, bed: &MatSize, side: SideUp) -> Result<Vec<Mat>, TooLarge> {
    let Some(cutting) = model.cutting.get(fabric) else { return Ok(Vec::new()) };
    let direction = model.fabrics.get(cutting.fabric).map_or(PrintDirection::None, |of| of.print.direction);
    let map = if side == SideUp::Usual {
        Transform::IDENTITY
    } else {
        Transform::from_matrix([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0])
    };
    let of = |motif: bool| -> Vec<Pattern> {
        let groups = cutting.pieces.iter().filter(|group| (group.fit == Fit::Motif) == motif);
        let pattern = |group: &PieceGroup| {
            let cut = map.apply_to_polygon(&outline(group)?);
            // A print that must stand upright shows where up is.
            let up = if motif || direction != PrintDirection::None { " ↑" } else { "" };
            let names = vec![(format!("{}{up}", group.label), cut.clone())];
            let piece = MatPiece { cut, areas: Vec::new(), lines: Vec::new(), names: Vec::new() };
            Some(Pattern { name: group.label.clone(), piece, names, copies: group.count })
        };
        groups.filter_map(pattern).collect()
    };
    let turning = if direction == PrintDirection::None { Turning::Quarters } else { Turning::Fixed };
    let mut mats = laid(&of(false), bed, turning)?;
    mats.extend(laid(&of(true), bed, Turning::Fixed)?);
    Ok(mats)
}

/// A piece as it lies right side up on the threads: with the edge along its seam below, its print's up up. Of half a square the short sides lie on the
/// threads, of a quarter the long side. `None` for a piece without extent.
#[must_use]
pub fn outline(group: &PieceGroup) -> Option<Polygon> {
    let (width, height) = (group.width.to_inches(), group.height.to_inches());
    let corners = match group.shape {
        Shape::Rectangle => vec![(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)],
        Shape::HalfSquare => vec![(0.0, 0.0), (width, height), (0.0, height)],
        Shape::QuarterSquare => vec![(width / 2.0, 0.0), (width, height / 2.0), (0.0, height / 2.0)],
        Shape::Trapezoid { trim } => {
            let [left, right] = trim.map(Length::to_inches);
            let (far, near) = (|trim: f64| trim.max(0.0), |trim: f64| (-trim).max(0.0));
            vec![(far(left), 0.0), (width - far(right), 0.0), (width - near(right), height), (near(left), height)]
        }
    };
    let corners: Vec<Point> = corners.into_iter().map(|(x, y)| Point::new(x, y)).collect();
    Polygon::try_new(&corners, Tolerance::of_extent(width.max(height))).ok()
}

/// Lays pieces on as few mats as are found.
fn laid(patterns: &[Pattern], bed: &MatSize, turning: Turning) -> Result<Vec<Mat>, TooLarge> {
    let (width, height) = (bed.width.to_inches(), bed.height.to_inches());
    let too_large = |pattern: &Pattern| {
        let (from, to) = pattern.piece.cut.bounds();
        TooLarge {
            name: pattern.name.clone(),
            width: Length::inches(to.x - from.x),
            height: Length::inches(to.y - from.y),
        }
    };
    let maps: Vec<Vec<(usize, Transform)>> = match patterns {
        [] => Vec::new(),
        // What is alone lies as it is drawn, if it can.
        [only] if only.copies == 1 => {
            let outline = &only.piece.cut;
            let turn = fits(outline, width, height, turning).ok_or_else(|| too_large(only))?;
            let turned = Transform::turn(turn, Point::default());
            let (corner, _) = turned.apply_to_polygon(outline).bounds();
            vec![vec![(0, turned.then(Transform::shift(-corner.to_vector())))]]
        }
        several => {
            let shape = |pattern: &Pattern| Outline { outline: pattern.piece.cut.clone(), copies: pattern.copies };
            let task = Task {
                shapes: several.iter().map(shape).collect(),
                page: Page { width, height, medium: Medium::Pages },
                gap: GAP,
                turning,
                wish: Wish::FewestPrinted,
                effort: bed.effort,
            };
            let filled = fill(&task).map_err(|index| {
                several
                    .get(index)
                    .map_or_else(|| TooLarge { name: String::new(), width: bed.width, height: bed.height }, too_large)
            })?;
            // Equal sheets may give more of a shape than is wanted.
            let mut left: Vec<u32> = several.iter().map(|pattern| pattern.copies).collect();
            let mut wanted = |place: &&Place| {
                let left = left.get_mut(place.shape).filter(|left| **left > 0);
                left.map(|left| *left -= 1).is_some()
            };
            let sheets = filled.sheets.iter().flat_map(|sheet| (0..sheet.times).map(move |_| &sheet.places));
            let mut mats: Vec<Vec<(usize, Transform)>> = Vec::new();
            for places in sheets {
                mats.push(places.iter().filter(&mut wanted).map(|place| (place.shape, place.transform())).collect());
            }
            mats.retain(|places| !places.is_empty());
            mats
        }
    };
    let mat = |places: Vec<(usize, Transform)>| {
        let pieces = places.into_iter().filter_map(|(index, map)| Some(patterns.get(index)?.at(map)));
        let pieces: Vec<MatPiece> = pieces.collect();
        let check = check(&pieces, (width, height));
        Mat { width: bed.width, height: bed.height, pieces, check }
    };
    Ok(maps.into_iter().map(mat).collect())
}

impl Pattern {
    /// The piece where it lies, with its names upright.
    fn at(&self, map: Transform) -> MatPiece {
        let names = self.names.iter().map(|(words, area)| name(words, &map.apply_to_polygon(area)));
        MatPiece {
            cut: map.apply_to_polygon(&self.piece.cut),
            areas: self.piece.areas.iter().map(|area| map.apply_to_polygon(area)).collect(),
            lines: self.piece.lines.iter().map(|&line| map.apply_to_segment(line)).collect(),
            names: names.collect(),
        }
    }
}

/// Words in an area: all of them where they fit in some size, else the first that do, followed by an ellipsis, in the smallest.
fn name(words: &str, area: &Polygon) -> Name {
    let placed = |words: &str, points: f64| {
        let size = Length::points(points);
        // Capitals are about two thirds of the size high.
        let high = size.to_inches() * 0.66;
        let wide = typeface::width(words, size, Weight::Regular).to_inches() * WIDER;
        let spot = fit(area, wide, high, 0.0, CLEAR)?;
        Some(Name { at: spot.centre + Vector::new(0.0, high / 2.0), words: words.to_owned(), size })
    };
    let whole = SIZES.into_iter().find_map(|points| placed(words, points));
    let shorter = || {
        let parts: Vec<&str> = words.split(", ").collect();
        (1..parts.len()).rev().find_map(|kept| placed(&format!("{} …", parts.get(..kept)?.join(", ")), 5.5))
    };
    whole.or_else(shorter).unwrap_or_else(|| {
        let [.., smallest] = SIZES;
        let first = words.split(", ").next().unwrap_or(words);
        Name { at: area.centroid(), words: first.to_owned(), size: Length::points(smallest) }
    })
}

/// Where a square of an inch lies that touches no piece, from the lower right; in that corner where there is no room.
fn check(pieces: &[MatPiece], (width, height): (f64, f64)) -> Option<Point> {
    const STEP: f64 = 0.25;
    let (right, below) = (width - CHECK, height - CHECK);
    if right < 0.0 || below < 0.0 {
        return None;
    }
    let steps = |room: f64| {
        let most = (room / STEP).floor().clamp(0.0, 400.0);
        (0_u16..=400).map(f64::from).take_while(move |&step| step <= most).map(move |step| room - step * STEP)
    };
    let corners =
        |at: Point| [(0.0, 0.0), (CHECK, 0.0), (CHECK, CHECK), (0.0, CHECK)].map(|(x, y)| at + Vector::new(x, y));
    let is_free = |at: &Point| pieces.iter().all(|piece| apart(piece.cut.corners(), &corners(*at), GAP));
    let places = steps(below).flat_map(|y| steps(right).map(move |x| Point::new(x, y)));
    places.into_iter().find(is_free).or(Some(Point::new(right, below)))
}
