//! A foundation as it is printed: the mirror image of the front, with everything a sewer needs on the paper itself.
//!
//! Drawn in a frame of its own: inches, printed side up, origin at the upper left of all that is drawn. Text reads normally although the drawing
//! is mirrored; labels stand in what they name, or in the allowance along it, and beside the paper only where neither can hold them.

mod clip;
mod labels;
mod laps;
mod map;
mod margin;
mod print;
mod split;

use crate::geometry::{Angle, Point, Polygon, Segment, Tolerance, Transform, Vector};
use crate::model::{Block, Model, Section, Variant};

use super::edges::{Sign, Tick, ticks};
use super::hand;
use super::label::Obstacles;
use super::page::{Colour, Item, Layer, Path, Stroke, Subpath};
use super::typeface::text_box;
use super::words::Words;
use clip::clipped;
use laps::Part;
pub use split::{Lap, Split, foundation, needs_splitting, parts_of, split_of, turned};

/// How far two parts of a foundation lap, in inches.
pub const LAP: f64 = 0.5;
/// How far what is drawn keeps from the edge of the foundation's frame.
const FRAME: f64 = 0.03;

/// How far the tick of a seam within a section reaches to either side of the line that it meets, in inches.
const TICK: f64 = 0.07;

const GREY: Colour = Colour::grey(110);

/// Which foundation, and how it is turned on the paper.
#[derive(Clone, Copy)]
pub struct Subject<'m> {
    /// The model.
    pub model: &'m Model,
    /// The block, by index.
    pub block: usize,
    /// The foundation, by index in its block.
    pub variant: usize,
    /// How it is turned on the paper, to fit it better.
    pub turn: Angle,
    /// The words.
    pub words: &'m Words,
}

/// A foundation, or a part of one, ready to be placed on a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Foundation {
    /// The block, by index.
    pub block: usize,
    /// The foundation, by index in its block.
    pub variant: usize,
    /// Which part of how many, where it is larger than the page.
    pub part: Option<(u32, u32)>,
    /// How it is turned.
    pub turn: Angle,
    /// What is drawn, in its own frame.
    pub items: Vec<Item>,
    /// How wide it is with its labels, in inches.
    pub width: f64,
    /// How high it is with its labels, in inches.
    pub height: f64,
    /// From the unit's frame to its own.
    pub matrix: Transform,
    /// What is cut out, in its own frame: the cutting line, clipped to the part.
    pub cutting_line: Polygon,
    /// The convex hull of all that is drawn, labels and their leader lines too, in its own frame: what a sheet keeps free for it.
    pub footprint: Polygon,
}

/// From the printed side as it is to the way it lies on the paper, the cutting line's bounding box at the origin.
fn placed(block: &Block, variant: &Variant, turn: Angle) -> Transform {
    let turned = Transform::turn(turn, Point::default());
    let cutting = hand::printed(variant).then(turned).apply_to_polygon(&block.unit_of(variant).cutting_line);
    turned.then(Transform::shift(-cutting.bounds().0.to_vector()))
}

impl<'m> Subject<'m> {
    fn block(&self) -> &'m Block {
        &self.model.blocks[self.block]
    }

    fn variant(&self) -> &'m Variant {
        &self.block().variants[self.variant]
    }

    /// From the printed side as it is to the way it lies on the paper.
    fn placed(&self) -> Transform {
        placed(self.block(), self.variant(), self.turn)
    }

    /// The whole foundation on a paper with this room, in inches. The number of a section that finds no place in it, nor beside it where the paper
    /// would still hold it, makes the foundation larger than the room where that `may_grow`, and otherwise stands in another section.
    #[must_use]
    pub fn whole(&self, width: f64, height: f64, may_grow: bool) -> Foundation {
        self.draw(None, (width, height), may_grow)
    }

    /// A part of the foundation, no larger than this, labels included.
    #[must_use]
    pub fn part(&self, split: &Split, index: usize, room: (f64, f64)) -> Foundation {
        self.draw(Some(&Part::new(split, self.placed(), index)), room, false)
    }

    fn tolerance(&self) -> Tolerance {
        let block = self.block();
        Tolerance::of_extent(block.width.max(block.height).to_inches())
    }

    fn draw(&self, part: Option<&Part>, room: (f64, f64), may_grow: bool) -> Foundation {
        let (block, variant) = (self.block(), self.variant());
        let unit = block.unit_of(variant);
        let printed = hand::printed(variant).then(self.placed());
        let tolerance = self.tolerance();
        let cutting = printed.apply_to_polygon(&unit.cutting_line);
        let visible = part.map_or_else(|| cutting.clone(), |part| part.area().clone());
        let mut drawing = Drawing {
            subject: self,
            printed,
            tolerance,
            cutting: cutting.clone(),
            visible: visible.clone(),
            bare: part.and_then(Part::bare).unwrap_or(&visible).clone(),
            lines: Vec::new(),
            marks: Vec::new(),
            inside: Obstacles::default(),
            seams: Obstacles::default(),
            outside: Obstacles::default(),
            crosses: Obstacles::default(),
            room,
            reached: visible.bounds(),
        };
        drawing.outside.add(visible.corners());
        drawing.draw_lines();
        let ticks = ticks(block, variant);
        drawing.draw_ticks(&ticks);
        let glued = part.map(|part| drawing.draw_laps(part)).unwrap_or_default();
        let mut lost = Vec::new();
        let all = unit.sections.iter().enumerate().flat_map(|(k, section)| Named::areas(k, section));
        for (number, (named, area)) in all.enumerate() {
            let area = printed.apply_to_polygon(area);
            // A section that lies in several parts is named wherever its label fits beside the strips that lap, and at least in the part
            // that shows most of it.
            let Some(part) = part else {
                if !drawing.label_section(named, &area) {
                    lost.push((named, area));
                }
                continue;
            };
            let open = part.open().and_then(|open| area.intersection(open, tolerance));
            let is_named = open.is_some_and(|open| drawing.label_section(named, &open));
            if is_named || !part.is_main(number) {
                continue;
            }
            let bare = part.bare().and_then(|bare| area.intersection(bare, tolerance));
            let Some(bare) = bare.or_else(|| area.intersection(&visible, tolerance)) else { continue };
            if !drawing.label_section(named, &bare) {
                lost.push((named, bare));
            }
        }
        drawing.label_edges(part);
        for (named, seen) in lost {
            drawing.label_beside(named, &seen, may_grow);
        }
        drawing.label_laps(glued);
        if let Some(part) = part {
            drawing.draw_map(part);
        }
        drawing.finish(part)
    }
}

/// A section to be named, or a strip of a pieced one: each bears the number of the section and the mark of its own fabric.
#[derive(Clone, Copy)]
struct Named {
    /// The section, by index in its unit.
    section: usize,
    /// The strip, by index in its section; none where that is one piece.
    strip: Option<usize>,
}

impl Named {
    /// What there is to name of a section, with its area.
    fn areas(section: usize, of: &Section) -> impl Iterator<Item = (Self, &Polygon)> {
        let is_pieced = !of.pieced.is_empty();
        of.areas().enumerate().map(move |(strip, area)| (Self { section, strip: is_pieced.then_some(strip) }, area))
    }
}

/// A foundation while it is drawn, in the printed frame of the whole unit.
struct Drawing<'s> {
    subject: &'s Subject<'s>,
    printed: Transform,
    tolerance: Tolerance,
    cutting: Polygon,
    /// What of the cutting line is in the part.
    visible: Polygon,
    /// What of that no other part is glued over.
    bare: Polygon,
    /// Lines and dots, which are clipped to the part.
    lines: Vec<Path>,
    /// Labels.
    marks: Vec<Item>,
    /// What labels within the cutting line keep clear of.
    inside: Obstacles,
    /// The seam lines and the outline, which labels that belong to no section keep clear of too.
    seams: Obstacles,
    /// What labels beside it keep clear of.
    outside: Obstacles,
    /// The crosses of laps with their letters, which stand in sections.
    crosses: Obstacles,
    /// How wide and how high all of it may become, in inches.
    room: (f64, f64),
    /// The upright rectangle round what is in the part and the labels beside it.
    reached: (Point, Point),
}

impl Drawing<'_> {
    fn draw_lines(&mut self) {
        let unit = self.subject.block().unit_of(self.subject.variant());
        let outline = self.printed.apply_to_polygon(&unit.outline);
        let cut_pen = Stroke::plain(0.5, GREY).dashed(&[4.0, 2.5]);
        self.lines.push(Path::polygon(&self.cutting, None, Some(cut_pen), Layer::Cutting));
        for section in &unit.sections {
            self.draw_inner_seams(section, &outline);
            let Some(seam) = section.seam.map(|seam| self.printed.apply_to_segment(seam)) else { continue };
            let Some(line) = seam.line() else { continue };
            // Sewing runs from cutting line to cutting line: across the allowance too there is a line to follow, at corners as elsewhere.
            for (end, way) in [(seam.start, -line.direction()), (seam.end, line.direction())] {
                let on_outline = outline.edges().any(|edge| self.tolerance.is_zero(edge.distance(end)));
                let Some(edge) = on_outline.then(|| labels::exit(&self.cutting, end, way)).flatten() else { continue };
                if end.distance(edge) > self.tolerance.distance() {
                    let stretch = Segment::new(end, edge);
                    self.lines.push(Path::lines([stretch], Stroke::plain(0.4, GREY), Layer::Seams));
                    self.inside.add(&[stretch.start, stretch.end]);
                }
            }
            self.lines.push(Path::lines([seam], Stroke::plain(0.8, Colour::BLACK), Layer::Seams));
            self.seams.add(&[seam.start, seam.end]);
        }
        for edge in outline.edges() {
            self.seams.add(&[edge.start, edge.end]);
        }
        self.lines.push(Path::polygon(&outline, None, Some(Stroke::plain(1.4, Colour::BLACK)), Layer::Seams));
    }

    /// The seams within a pieced section, which are not sewn on the paper: thin dashes, on across the allowance where they end on the outline, and a
    /// tick across the line on which the section is sewn where they end on that.
    fn draw_inner_seams(&mut self, section: &Section, outline: &Polygon) {
        let pen = || Stroke::plain(0.5, GREY).dashed(&[3.5, 2.0]);
        let on_line = section.seam.map(|seam| self.printed.apply_to_segment(seam));
        for seam in section.pieced.iter().filter_map(|strip| strip.seam) {
            let seam = self.printed.apply_to_segment(seam);
            let Some(line) = seam.line() else { continue };
            self.lines.push(Path::lines([seam], pen(), Layer::Seams));
            self.seams.add(&[seam.start, seam.end]);
            for (end, way) in [(seam.start, -line.direction()), (seam.end, line.direction())] {
                if on_line.is_some_and(|on| self.tolerance.is_zero(on.distance(end))) {
                    let tick = Segment::new(end + way * -TICK, end + way * TICK);
                    self.lines.push(Path::lines([tick], Stroke::plain(0.9, Colour::BLACK), Layer::Marks));
                    self.inside.add(&[tick.start, tick.end]);
                } else if outline.edges().any(|edge| self.tolerance.is_zero(edge.distance(end)))
                    && let Some(edge) = labels::exit(&self.cutting, end, way)
                    && end.distance(edge) > self.tolerance.distance()
                {
                    self.lines.push(Path::lines([Segment::new(end, edge)], pen(), Layer::Seams));
                    self.inside.add(&[end, edge]);
                }
            }
        }
    }

    fn draw_ticks(&mut self, ticks: &[Tick]) {
        let allowance = self.subject.model.allowance.to_inches();
        for tick in ticks {
            let foot = self.printed.apply(tick.at);
            let outward = self.printed.apply_to_vector(tick.outward);
            let end = foot + outward * allowance;
            self.lines.push(Path::lines([Segment::new(foot, end)], Stroke::plain(0.9, Colour::BLACK), Layer::Marks));
            // A match point gets a filled dot at the end of its tick, a tip an open one; a bar crosses the tick at which stitching stops.
            let dot = foot + outward * (allowance * 0.72);
            let pen = Stroke::plain(0.6, Colour::BLACK);
            let aside = outward.quarter_turned() * if tick.sign == Sign::Stop { 0.075 } else { 0.04 };
            let mark = match tick.sign {
                Sign::Match => Path::circle(dot, 0.026, Some(Colour::BLACK), Some(pen), Layer::Marks),
                Sign::Tip => Path::circle(dot, 0.026, Some(Colour::WHITE), Some(pen), Layer::Marks),
                Sign::Stop => {
                    let bar = Segment::new(dot + aside * 0.8, dot + aside * -0.8);
                    Path::lines([bar], Stroke::plain(1.6, Colour::BLACK), Layer::Marks)
                }
            };
            self.lines.push(mark);
            self.inside.add(&[foot + aside, end + aside, end + -aside, foot + -aside]);
        }
    }

    /// Whether the paper still holds everything with a label here beside it.
    fn may_reach(&self, corners: &[Point]) -> bool {
        // Descenders and the frame reach a little farther than boxes.
        let slack = 2.0 * FRAME + 0.03;
        let (from, to) = self.reached_with(corners);
        to.x - from.x + slack <= self.room.0 && to.y - from.y + slack <= self.room.1
    }

    fn reached_with(&self, corners: &[Point]) -> (Point, Point) {
        corners.iter().fold(self.reached, |(from, to), point| {
            (Point::new(from.x.min(point.x), from.y.min(point.y)), Point::new(to.x.max(point.x), to.y.max(point.y)))
        })
    }

    /// Keeps other labels beside the paper away from one.
    fn reach_out(&mut self, corners: &[Point]) {
        self.reached = self.reached_with(corners);
        self.outside.add(corners);
    }

    /// Everything moved into the foundation's own frame.
    fn finish(self, part: Option<&Part>) -> Foundation {
        let mut items: Vec<Item> = match part {
            Some(_) => self.lines.iter().filter_map(|path| clipped(path, &self.visible)).map(Item::from).collect(),
            None => self.lines.into_iter().map(Item::from).collect(),
        };
        let mut reached = self.visible.corners().to_vec();
        for mark in &self.marks {
            match mark {
                Item::Text(text) => reached.extend(text_box(text)),
                Item::Path(path) => reached.extend(path.subpaths.iter().flat_map(Subpath::places)),
                Item::Window(_) | Item::Photo(_) => {}
            }
        }
        let footprint = Polygon::hull(reached, self.tolerance).unwrap_or_else(|| self.visible.clone());
        let (from, to) = footprint.bounds();
        items.extend(self.marks);
        // A foundation that just fits the paper fits it without a frame.
        let frame = |from: f64, to: f64, room: f64| ((room - (to - from)) / 2.0 - 1e-6).clamp(0.0, FRAME);
        let (beside, above) = (frame(from.x, to.x, self.room.0), frame(from.y, to.y, self.room.1));
        let shift = Vector::new(beside - from.x, above - from.y);
        let moved = Transform::shift(shift);
        Foundation {
            block: self.subject.block,
            variant: self.subject.variant,
            part: part.map(|part| (part.number(), part.of())),
            turn: self.subject.turn,
            items: items.iter().map(|item| item.moved(shift)).collect(),
            width: to.x - from.x + 2.0 * beside,
            height: to.y - from.y + 2.0 * above,
            matrix: self.printed.then(moved),
            cutting_line: moved.apply_to_polygon(&self.visible),
            footprint: moved.apply_to_polygon(&footprint),
        }
    }
}
