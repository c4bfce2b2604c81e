//! A foundation as it is printed: the mirror image of the front, with everything a sewer needs on the paper itself.
//!
//! Drawn in a frame of its own: inches, printed side up, origin at the upper left of all that is drawn. Text reads normally although the drawing
//! is mirrored; labels stand in what they name, or in the allowance along it, and beside the paper only where neither can hold them.

mod labels;
mod laps;
mod margin;
mod print;
mod split;

use crate::geometry::Length;
use crate::geometry::{Angle, Point, Polygon, Segment, Tolerance, Transform, Vector};
use crate::model::{Block, Model, Section, Variant};

use super::edges::{Sign, Tick, ticks};
use super::hand;
use super::label::Obstacles;
use super::page::{Colour, Item, Layer, Path, Stroke, Window};
use super::words::Words;
use laps::{Part, pieces};

pub use split::{foundation, needs_splitting, parts_of};

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
    /// What is drawn, in its own frame.
    pub items: Vec<Item>,
    /// How it is turned.
    pub turn: Angle,
    /// The convex hull of all that is drawn, in its own frame.
    pub footprint: Polygon,
    /// How wide it is with its labels, in inches.
    pub width: f64,
    /// How high it is with its labels, in inches.
    pub height: f64,
    /// From the unit's frame to its own.
    pub matrix: Transform,
    /// What is cut out, in its own frame: the cutting line, clipped to the part.
    pub cutting_line: Polygon,
}

/// The ways in which a foundation may lie on the paper: as it is, a quarter turned, and with its longest edge upright or level.
#[must_use]
pub fn turns(block: &Block, variant: &Variant) -> [Angle; 4] {
    turns_of(block.unit_of(variant).outline.edges().map(|edge| hand::printed(variant).apply_to_segment(edge)))
}

/// The turns in which an area with these edges is tried on a page: as it is, a quarter turned, and with its longest edge level or upright.
pub fn turns_of(edges: impl Iterator<Item = Segment>) -> [Angle; 4] {
    let longest = edges.max_by(|a, b| a.length().total_cmp(&b.length()));
    let along = longest.map_or(0.0, |edge| (edge.end - edge.start).angle().to_degrees());
    // Level or upright edges give whole quarter turns, which the first two cover.
    let level = -(along.rem_euclid(180.0));
    [0.0, 90.0, level, level + 90.0].map(Angle::degrees)
}

/// In how many columns and rows of parts a foundation of this extent is printed that is larger than the room on a page.
fn columns_and_rows((wide, high): (f64, f64), (width, height): (f64, f64)) -> (u32, u32) {
    // Room for labels beside the paper.
    (pieces(wide, width - 0.4), pieces(high, height - 0.4))
}

/// How many parts those are.
pub fn parts_of_extent(extent: (f64, f64), room: (f64, f64)) -> u32 {
    let (columns, rows) = columns_and_rows(extent, room);
    columns.saturating_mul(rows)
}

/// From the unit's frame to the printed side, the cutting line's bounding box at the origin.
fn printed(block: &Block, variant: &Variant, turn: Angle) -> Transform {
    let turned = hand::printed(variant).then(Transform::turn(turn, Point::default()));
    let (corner, _) = turned.apply_to_polygon(&block.unit_of(variant).cutting_line).bounds();
    turned.then(Transform::shift(-corner.to_vector()))
}

/// Width and height of a foundation's cutting line as it lies on the paper, in inches.
#[must_use]
pub fn extent(model: &Model, block: usize, variant: usize, turn: Angle) -> (f64, f64) {
    let block = &model.blocks[block];
    let variant = &block.variants[variant];
    let (_, to) = printed(block, variant, turn).apply_to_polygon(&block.unit_of(variant).cutting_line).bounds();
    (to.x, to.y)
}

impl<'m> Subject<'m> {
    fn block(&self) -> &'m Block {
        &self.model.blocks[self.block]
    }

    fn variant(&self) -> &'m Variant {
        &self.block().variants[self.variant]
    }

    fn printed(&self) -> Transform {
        printed(self.block(), self.variant(), self.turn)
    }

    /// The whole foundation on a paper with this room, in inches: what would stand beside it and finds no room there is left out.
    #[must_use]
    pub fn whole(&self, width: f64, height: f64) -> Foundation {
        self.draw(None, (width, height))
    }

    /// The foundation in lapped parts, none larger than this, labels included.
    #[must_use]
    pub fn parts(&self, width: f64, height: f64) -> Vec<Foundation> {
        let numbered = self.windows(width, height);
        let at = |column: Option<u32>, row: Option<u32>| {
            let there = |part: &&Part| Some(part.column) == column && Some(part.row) == row;
            numbered.iter().find(there).map(|part| part.number)
        };
        let draw = |part: &Part| {
            let (column, row) = (Some(part.column), Some(part.row));
            let (left, right) = (at(part.column.checked_sub(1), row), at(part.column.checked_add(1), row));
            let (above, below) = (at(column, part.row.checked_sub(1)), at(column, part.row.checked_add(1)));
            self.draw(Some(&Part { beside: [left, above, right, below], ..*part }), (width, height))
        };
        numbered.iter().map(draw).collect()
    }

    /// How many parts that would be; quicker than drawing them.
    #[must_use]
    pub fn count_parts(&self, width: f64, height: f64) -> usize {
        self.windows(width, height).len()
    }

    fn windows(&self, width: f64, height: f64) -> Vec<Part> {
        let (wide, high) = extent(self.model, self.block, self.variant, self.turn);
        let (columns, rows) = columns_and_rows((wide, high), (width, height));
        let size = |whole: f64, n: u32| (whole + LAP * f64::from(n - 1)) / f64::from(n);
        let (part_width, part_height) = (size(wide, columns), size(high, rows));
        let mut windows = Vec::new();
        for row in 0..rows {
            for column in 0..columns {
                let at = |k: u32, size: f64| f64::from(k) * (size - LAP);
                let corner = Point::new(at(column, part_width), at(row, part_height));
                windows.push(Part {
                    corner,
                    width: part_width,
                    height: part_height,
                    column,
                    row,
                    number: 0,
                    of: 0,
                    beside: [None; 4],
                });
            }
        }
        // A window that holds nothing of the unit is no part.
        let cutting = self.printed().apply_to_polygon(&self.block().unit_of(self.variant()).cutting_line);
        let tolerance = self.tolerance();
        windows.retain(|part| part.window().is_some_and(|window| window.intersection(&cutting, tolerance).is_some()));
        let of = u32::try_from(windows.len()).unwrap_or(u32::MAX);
        (1..).zip(windows).map(|(number, part)| Part { number, of, ..part }).collect()
    }

    fn tolerance(&self) -> Tolerance {
        let block = self.block();
        Tolerance::of_extent(block.width.max(block.height).to_inches())
    }

    fn draw(&self, part: Option<&Part>, room: (f64, f64)) -> Foundation {
        let (block, variant) = (self.block(), self.variant());
        let unit = block.unit_of(variant);
        let printed = self.printed();
        let tolerance = self.tolerance();
        let window = part.and_then(Part::window);
        let clipped = |polygon: &Polygon| match &window {
            Some(window) => polygon.intersection(window, tolerance),
            None => Some(polygon.clone()),
        };
        let cutting = printed.apply_to_polygon(&unit.cutting_line);
        let visible = clipped(&cutting).unwrap_or_else(|| cutting.clone());
        let mut drawing = Drawing {
            subject: self,
            printed,
            tolerance,
            cutting: cutting.clone(),
            visible: visible.clone(),
            lines: Vec::new(),
            marks: Vec::new(),
            inside: Obstacles::default(),
            seams: Obstacles::default(),
            outside: Obstacles::default(),
            room,
            reached: visible.bounds(),
        };
        drawing.outside.add(visible.corners());
        drawing.draw_lines();
        let ticks = ticks(block, variant);
        drawing.draw_ticks(&ticks);
        let mut lost = Vec::new();
        for (named, area) in unit.sections.iter().enumerate().flat_map(|(k, section)| Named::areas(k, section)) {
            let area = printed.apply_to_polygon(area);
            let Some(seen) = clipped(&area) else { continue };
            // A section that lies in several parts is named wherever its label fits beside the strips that lap, and at least in the part
            // that shows most of it.
            let open = match part.and_then(Part::open) {
                Some(open) => seen.intersection(&open, tolerance),
                None => Some(seen.clone()),
            };
            let main = seen.area() * 2.0 > area.area() || part.is_none();
            let is_named = open.is_some_and(|open| drawing.label_section(named, &open));
            if !is_named && main && (part.is_none() || !drawing.label_section(named, &seen)) {
                lost.push((named, seen));
            }
        }
        let laps = part.map(|part| drawing.draw_laps(part));
        drawing.label_edges(part);
        for (named, seen) in lost {
            drawing.label_beside(named, &seen);
        }
        drawing.label_laps(laps.unwrap_or_default());
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
    /// Lines, which are clipped to the part.
    lines: Vec<Item>,
    /// Labels.
    marks: Vec<Item>,
    /// What labels within the cutting line keep clear of.
    inside: Obstacles,
    /// The seam lines and the outline, which labels that belong to no section keep clear of too.
    seams: Obstacles,
    /// What labels beside it keep clear of.
    outside: Obstacles,
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
        self.lines.push(Path::polygon(&self.cutting, None, Some(cut_pen), Layer::Cutting).into());
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
                    self.lines.push(Path::lines([stretch], Stroke::plain(0.4, GREY), Layer::Seams).into());
                    self.inside.add(&[stretch.start, stretch.end]);
                }
            }
            self.lines.push(Path::lines([seam], Stroke::plain(0.8, Colour::BLACK), Layer::Seams).into());
            self.seams.add(&[seam.start, seam.end]);
        }
        for edge in outline.edges() {
            self.seams.add(&[edge.start, edge.end]);
        }
        self.lines.push(Path::polygon(&outline, None, Some(Stroke::plain(1.4, Colour::BLACK)), Layer::Seams).into());
    }

    /// The seams within a pieced section, which are not sewn on the paper: thin dashes, on across the allowance where they end on the outline, and a
    /// tick across the line on which the section is sewn where they end on that.
    fn draw_inner_seams(&mut self, section: &Section, outline: &Polygon) {
        let pen = || Stroke::plain(0.5, GREY).dashed(&[3.5, 2.0]);
        let on_line = section.seam.map(|seam| self.printed.apply_to_segment(seam));
        for seam in section.pieced.iter().filter_map(|strip| strip.seam) {
            let seam = self.printed.apply_to_segment(seam);
            let Some(line) = seam.line() else { continue };
            self.lines.push(Path::lines([seam], pen(), Layer::Seams).into());
            self.seams.add(&[seam.start, seam.end]);
            for (end, way) in [(seam.start, -line.direction()), (seam.end, line.direction())] {
                if on_line.is_some_and(|on| self.tolerance.is_zero(on.distance(end))) {
                    let tick = Segment::new(end + way * -TICK, end + way * TICK);
                    self.lines.push(Path::lines([tick], Stroke::plain(0.9, Colour::BLACK), Layer::Marks).into());
                    self.inside.add(&[tick.start, tick.end]);
                } else if outline.edges().any(|edge| self.tolerance.is_zero(edge.distance(end)))
                    && let Some(edge) = labels::exit(&self.cutting, end, way)
                    && end.distance(edge) > self.tolerance.distance()
                {
                    self.lines.push(Path::lines([Segment::new(end, edge)], pen(), Layer::Seams).into());
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
            self.lines
                .push(Path::lines([Segment::new(foot, end)], Stroke::plain(0.9, Colour::BLACK), Layer::Marks).into());
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
            self.lines.push(mark.into());
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
        let mut items = match part {
            Some(part) => {
                // Half a line's width more, so that lines on the edge of the window are not thinned.
                let slop = 0.01;
                vec![Item::Window(Window {
                    corner: part.corner - Vector::new(slop, slop),
                    width: Length::inches(part.width + 2.0 * slop),
                    height: Length::inches(part.height + 2.0 * slop),
                    items: self.lines,
                })]
            }
            None => self.lines,
        };
        let (mut from, mut to) = self.visible.bounds();
        let mut all = self.visible.corners().to_vec();
        let mut reach = |point: Point| {
            all.push(point);
            from = Point::new(from.x.min(point.x), from.y.min(point.y));
            to = Point::new(to.x.max(point.x), to.y.max(point.y));
        };
        for mark in &self.marks {
            match mark {
                Item::Text(text) => super::typeface::text_box(text).into_iter().for_each(&mut reach),
                Item::Path(path) => path.subpaths.iter().flat_map(super::page::Subpath::places).for_each(&mut reach),
                Item::Window(_) | Item::Photo(_) => {}
            }
        }
        items.extend(self.marks);
        let hull = Polygon::hull(all, self.tolerance).unwrap_or_else(|| self.visible.clone());
        // A foundation that just fits the paper fits it without a frame.
        let frame = |from: f64, to: f64, room: f64| ((room - (to - from)) / 2.0 - 1e-6).clamp(0.0, FRAME);
        let (beside, above) = (frame(from.x, to.x, self.room.0), frame(from.y, to.y, self.room.1));
        let shift = Vector::new(beside - from.x, above - from.y);
        let moved = Transform::shift(shift);
        Foundation {
            block: self.subject.block,
            variant: self.subject.variant,
            part: part.map(|part| (part.number, part.of)),
            items: items.iter().map(|item| item.moved(shift)).collect(),
            width: to.x - from.x + 2.0 * beside,
            height: to.y - from.y + 2.0 * above,
            turn: self.subject.turn,
            footprint: moved.apply_to_polygon(&hull),
            matrix: self.printed.then(moved),
            cutting_line: moved.apply_to_polygon(&self.visible),
        }
    }
}
