//! A foundation as it is printed: the mirror image of the front, with everything a sewer needs on the paper itself.
//!
//! Drawn in a frame of its own: inches, printed side up, origin at the upper left of all that is drawn. Text reads normally although the drawing
//! is mirrored; labels stand in what they name, or beside the paper with a leader line.

use crate::geometry::Length;
use crate::geometry::{Angle, Point, Polygon, Segment, Tolerance, Transform, Vector};
use crate::model::{Block, Model, Variant};

use super::edges::{Meets, Stretch, Tick, stretches, ticks};
use super::label::{Label, Obstacles, apart, fit, length_direction, upright};
use super::page::{Colour, Item, Layer, Path, Stroke, Weight, Window};
use super::words::Words;

/// Sizes of section labels that are tried, largest first, in printer's points.
const LABEL_SIZES: [f64; 5] = [10.0, 9.0, 8.0, 7.0, 6.0];
/// Sizes of the labels in the allowance.
const EDGE_SIZES: [f64; 3] = [7.0, 6.0, 5.0];
/// How far a label keeps from lines, in inches.
const CLEAR: f64 = 0.02;
/// How far two parts of a foundation lap, in inches.
pub const LAP: f64 = 0.5;
/// How far what is drawn keeps from the edge of the foundation's frame.
const FRAME: f64 = 0.03;

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
    /// How wide it is with its labels, in inches.
    pub width: f64,
    /// How high it is with its labels, in inches.
    pub height: f64,
    /// From the unit's frame to its own.
    pub matrix: Transform,
    /// What is cut out, in its own frame: the cutting line, clipped to the part.
    pub cutting_line: Polygon,
}

/// The printing is the mirror image of what is sewn; what is sewn as the mirror image of the drawing is printed as drawn.
fn hand(variant: &Variant) -> Transform {
    let mirror = Transform::from_matrix([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);
    if variant.mirrored { Transform::IDENTITY } else { mirror }
}

/// The ways in which a foundation may lie on the paper: as it is, a quarter turned, and with its longest edge upright or level.
#[must_use]
pub fn turns(block: &Block, variant: &Variant) -> [Angle; 4] {
    let edges = block.unit_of(variant).outline.edges().map(|edge| hand(variant).apply_to_segment(edge));
    let longest = edges.max_by(|a, b| a.length().total_cmp(&b.length()));
    let along = longest.map_or(0.0, |edge| (edge.end - edge.start).angle().to_degrees());
    // Level or upright edges give whole quarter turns, which the first two cover.
    let level = -(along.rem_euclid(180.0));
    [0.0, 90.0, level, level + 90.0].map(Angle::degrees)
}

/// From the unit's frame to the printed side, the cutting line's bounding box at the origin.
fn printed(block: &Block, variant: &Variant, turn: Angle) -> Transform {
    let turned = hand(variant).then(Transform::turn(turn, Point::default()));
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

    /// The whole foundation.
    #[must_use]
    pub fn whole(&self) -> Foundation {
        self.draw(None)
    }

    /// The foundation in lapped parts, none larger than this, labels included.
    #[must_use]
    pub fn parts(&self, width: f64, height: f64) -> Vec<Foundation> {
        // Room for labels beside the paper.
        let (room_x, room_y) = (width - 0.4, height - 0.4);
        let (wide, high) = extent(self.model, self.block, self.variant, self.turn);
        let (columns, rows) = (pieces(wide, room_x), pieces(high, room_y));
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
                    columns,
                    rows,
                });
            }
        }
        // A window that holds nothing of the unit is no part.
        let cutting = self.printed().apply_to_polygon(&self.block().unit_of(self.variant()).cutting_line);
        let tolerance = self.tolerance();
        windows.retain(|part| part.window().is_some_and(|window| window.intersection(&cutting, tolerance).is_some()));
        let of = u32::try_from(windows.len()).unwrap_or(u32::MAX);
        let numbered = (1..).zip(windows).map(|(number, part)| Part { number, of, ..part });
        numbered.map(|part| self.draw(Some(&part))).collect()
    }

    fn tolerance(&self) -> Tolerance {
        let block = self.block();
        Tolerance::of_extent(block.width.max(block.height).to_inches())
    }

    fn draw(&self, part: Option<&Part>) -> Foundation {
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
            outside: Obstacles::default(),
        };
        drawing.outside.add(visible.corners());
        drawing.draw_lines();
        let ticks = ticks(block, variant);
        drawing.draw_ticks(&ticks);
        let mut lost = Vec::new();
        for k in 0..unit.sections.len() {
            let area = printed.apply_to_polygon(&unit.sections[k].polygon);
            let Some(seen) = clipped(&area) else { continue };
            // A section that lies in several parts is named wherever its label fits, and at least in the part that shows most of it.
            let main = seen.area() * 2.0 > area.area() || part.is_none();
            if !drawing.label_section(k, &seen) && main {
                lost.push((k, seen));
            }
        }
        drawing.label_edges(part);
        for (k, seen) in lost {
            drawing.label_beside(k, &seen);
        }
        if let Some(part) = part {
            drawing.draw_laps(part);
        }
        drawing.finish(part)
    }
}

/// How many lapped pieces of at most `room` make up a length.
fn pieces(length: f64, room: f64) -> u32 {
    let mut count = 1_u32;
    while count < 64 && (length + LAP * f64::from(count - 1)) / f64::from(count) > room {
        count += 1;
    }
    count
}

/// One part of a foundation that is larger than the page: a window on it.
#[derive(Debug, Clone, Copy)]
struct Part {
    corner: Point,
    width: f64,
    height: f64,
    column: u32,
    row: u32,
    columns: u32,
    rows: u32,
    number: u32,
    of: u32,
}

impl Part {
    fn window(&self) -> Option<Polygon> {
        Polygon::rectangle(self.corner, self.corner + Vector::new(self.width, self.height))
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
    /// What labels beside it keep clear of.
    outside: Obstacles,
}

impl Drawing<'_> {
    fn draw_lines(&mut self) {
        let unit = self.subject.block().unit_of(self.subject.variant());
        let outline = self.printed.apply_to_polygon(&unit.outline);
        let cut_pen = Stroke::plain(0.5, GREY).dashed(&[4.0, 2.5]);
        self.lines.push(Path::polygon(&self.cutting, None, Some(cut_pen), Layer::Cutting).into());
        for section in &unit.sections {
            let Some(seam) = section.seam.map(|seam| self.printed.apply_to_segment(seam)) else { continue };
            let Some(line) = seam.line() else { continue };
            let extended = self.printed.apply_to_polygon(&section.extended);
            let along = extended
                .corners()
                .iter()
                .filter(|corner| self.tolerance.is_zero(line.distance_right(**corner)))
                .map(|corner| line.position(*corner));
            let (from, to) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| (a.min(p), b.max(p)));
            let carried = [Segment::new(line.at(from), seam.start), Segment::new(seam.end, line.at(to))];
            for stretch in
                carried.into_iter().filter(|stretch| stretch.length() > self.tolerance.distance() && from.is_finite())
            {
                self.lines.push(Path::lines([stretch], Stroke::plain(0.4, GREY), Layer::Seams).into());
                self.inside.add(&[stretch.start, stretch.end]);
            }
            self.lines.push(Path::lines([seam], Stroke::plain(0.8, Colour::BLACK), Layer::Seams).into());
        }
        self.lines.push(Path::polygon(&outline, None, Some(Stroke::plain(1.4, Colour::BLACK)), Layer::Seams).into());
    }

    fn draw_ticks(&mut self, ticks: &[Tick]) {
        let allowance = self.subject.model.allowance.to_inches();
        for tick in ticks {
            let foot = self.printed.apply(tick.at);
            let outward = self.printed.apply_to_vector(tick.outward);
            let end = foot + outward * allowance;
            self.lines
                .push(Path::lines([Segment::new(foot, end)], Stroke::plain(0.9, Colour::BLACK), Layer::Marks).into());
            // A match point gets a filled dot at the end of its tick, a tip an open one.
            let fill = if tick.matches { Colour::BLACK } else { Colour::WHITE };
            let pen = Stroke::plain(0.6, Colour::BLACK);
            let dot = foot + outward * (allowance * 0.72);
            self.lines.push(Path::circle(dot, 0.026, Some(fill), Some(pen), Layer::Marks).into());
            let aside = outward.quarter_turned() * 0.04;
            self.inside.add(&[foot + aside, end + aside, end + -aside, foot + -aside]);
        }
    }

    fn section_labels(&self, k: usize) -> Vec<Label> {
        let variant = self.subject.variant();
        let name = format!("{}{}", variant.mark, k + 1);
        let fabric = self.subject.model.fabrics[variant.fabrics[k]].mark;
        let mut labels = Vec::new();
        for points in LABEL_SIZES {
            let size = Length::points(points);
            let words = Label::words(&name, size, Weight::Bold, Colour::BLACK);
            let ring = Label::ringed(fabric, size, Colour::BLACK);
            labels.push(words.beside(&ring, points / 72.0 * 0.3));
            labels.push(words.above(&ring, points / 72.0 * 0.15));
        }
        labels
    }

    /// Puts a section's label into it; false where it cannot hold it.
    fn label_section(&mut self, k: usize, area: &Polygon) -> bool {
        let along = upright(length_direction(area));
        for label in self.section_labels(k) {
            for turn in [0.0, along] {
                if let Some(spot) = fit(area, label.width, label.height, turn, CLEAR) {
                    let corners = label.box_at(spot.centre, spot.turn);
                    label.draw(spot.centre, spot.turn, &mut self.marks);
                    self.inside.add(&corners);
                    return true;
                }
            }
        }
        false
    }

    /// Puts a section's label beside the paper, with a leader line to the section: the shortest that runs through no other label. Only where there is
    /// none may it cross one.
    fn label_beside(&mut self, k: usize, area: &Polygon) {
        let Some(label) = self.section_labels(k).into_iter().nth(4) else { return };
        let centre = area.centroid();
        let homes: Vec<Point> = std::iter::once(centre)
            .chain(area.corners().iter().map(|&corner| centre.along(corner, 0.55)))
            .chain(area.edges().map(|edge| centre.along(edge.middle(), 0.55)))
            .collect();
        let found = [true, false].into_iter().find_map(|strict| self.beside(&label, &homes, strict));
        let Some((home, centre, end)) = found else { return };
        self.marks.push(Path::lines([Segment::new(home, end)], Stroke::plain(0.4, GREY), Layer::Marks).into());
        self.marks.push(Path::circle(home, 0.014, Some(Colour::BLACK), None, Layer::Marks).into());
        label.draw(centre, 0.0, &mut self.marks);
        self.outside.add(&label.box_at(centre, 0.0));
        self.outside.add(&[home, end]);
        self.inside.add(&[home, end]);
    }

    /// Where a leader line begins, where the label's middle lies, and where the line ends at the label.
    fn beside(&self, label: &Label, homes: &[Point], strict: bool) -> Option<(Point, Point, Point)> {
        let mut best: Option<(f64, (Point, Point, Point))> = None;
        for reach in [0.12, 0.25, 0.4, 0.6, 0.9, 1.3] {
            for &home in homes {
                for direction in 0..72 {
                    let way = Vector::at_bearing(Angle::degrees(f64::from(direction) * 5.0));
                    let Some(exit) = exit(&self.visible, home, way) else { continue };
                    let half = (way.x.abs() * label.width + way.y.abs() * label.height) / 2.0;
                    let centre = exit + way * (reach + half);
                    let distance = home.distance(centre);
                    if best.is_some_and(|(least, _)| least <= distance) {
                        continue;
                    }
                    let end = centre - way * (half + 0.02);
                    let clear = self.outside.are_clear_of(&label.box_at(centre, 0.0), 0.03);
                    if clear && (!strict || self.inside.are_clear_of(&[home, end], 0.006)) {
                        best = Some((distance, (home, centre, end)));
                    }
                }
            }
            if best.is_some() {
                break;
            }
        }
        best.map(|(_, found)| found)
    }

    /// The name of the foundation along its longest edge, and along every edge what it meets.
    fn label_edges(&mut self, part: Option<&Part>) {
        let (model, block, variant) = (self.subject.model, self.subject.block(), self.subject.variant());
        let unit = block.unit_of(variant);
        let words = self.subject.words;
        let mut edges: Vec<Segment> = unit.outline.edges().map(|edge| self.printed.apply_to_segment(edge)).collect();
        edges.sort_by(|a, b| b.length().total_cmp(&a.length()));
        let names = match part {
            Some(part) => {
                let short = words.part_name(&variant.mark, part.number, part.of);
                let (title, edition) = (&model.facts.title, &model.facts.edition);
                [words.part_name_long(&variant.mark, part.number, part.of, title, edition), short.clone(), short]
            }
            None => [
                words.foundation_name_long(&variant.mark, &unit.name, &model.facts.title, &model.facts.edition),
                words.foundation_name_middle(&variant.mark, &unit.name, &model.facts.edition),
                words.foundation_name_short(&variant.mark, &model.facts.edition),
            ],
        };
        let named = names.iter().any(|name| edges.iter().any(|edge| self.label_along(name, *edge, Weight::Bold)));
        if !named && let Some(name) = names.last() {
            self.label_outside_edge(name, &edges, Weight::Bold);
        }
        let mut stretches = stretches(block, variant);
        stretches.sort_by(|a, b| a.segment.length().total_cmp(&b.segment.length()));
        for Stretch { segment, meets, .. } in stretches {
            let words = match meets {
                Meets::Edge => words.edge_of_block(),
                Meets::Foundations(marks, true) => words.edge_to_more(marks.join(", ")),
                Meets::Foundations(marks, false) => words.edge_to(marks.join(", ")),
            };
            let segment = self.printed.apply_to_segment(segment);
            let Some(segment) = self.seen(segment) else { continue };
            if !self.label_along(&words, segment, Weight::Regular) {
                self.label_outside_edge(&words, &[segment], Weight::Regular);
            }
        }
    }

    /// What of a stretch of the outline lies in the part; nothing where that is next to nothing.
    fn seen(&self, segment: Segment) -> Option<Segment> {
        let line = segment.line()?;
        let chord = self.visible.chord(line, self.tolerance)?;
        let (from, to) = (line.position(chord.start).max(0.0), line.position(chord.end).min(segment.length()));
        (to - from > 0.3 || to - from > segment.length() * 0.9).then(|| Segment::new(line.at(from), line.at(to)))
    }

    /// Puts words into the allowance along a stretch of the outline, in the largest size and nearest to its middle that is free.
    fn label_along(&mut self, words: &str, stretch: Segment, weight: Weight) -> bool {
        let Some(line) = stretch.line() else { return false };
        // The allowance lies on the left of an edge that runs clockwise, on the right in a mirrored drawing.
        let inner = self.cutting.centroid();
        let outward = if line.distance_right(inner) > 0.0 {
            -line.direction().quarter_turned()
        } else {
            line.direction().quarter_turned()
        };
        let allowance = self.subject.model.allowance.to_inches();
        let turn = upright(line.direction().angle().to_degrees());
        for points in EDGE_SIZES {
            let label = Label::words(words, Length::points(points), weight, Colour::BLACK);
            let room = stretch.length() - label.width;
            if room < 0.02 || label.height > allowance - 0.04 {
                continue;
            }
            let steps = (room / 2.0 / 0.04).floor().clamp(0.0, 200.0);
            let mut offset = 0.0;
            while offset <= steps {
                for sign in [1.0, -1.0] {
                    let middle = stretch.length() / 2.0 + sign * offset * 0.04;
                    let centre = line.at(middle) + outward * (allowance / 2.0);
                    let corners = label.box_at(centre, turn);
                    let within = corners.iter().all(|corner| self.visible.holds(*corner, self.tolerance) == Some(true));
                    if within && self.inside.are_clear_of(&corners, 0.015) {
                        label.draw(centre, turn, &mut self.marks);
                        self.inside.add(&corners);
                        return true;
                    }
                }
                offset += 1.0;
            }
        }
        false
    }

    /// Puts words beside the cutting line, along the first of these stretches where they are free.
    fn label_outside_edge(&mut self, words: &str, stretches: &[Segment], weight: Weight) {
        let allowance = self.subject.model.allowance.to_inches();
        let inner = self.cutting.centroid();
        let label = Label::words(words, Length::points(6.0), weight, Colour::BLACK);
        for reach in [0.04, 0.14, 0.24, 0.4] {
            for stretch in stretches {
                let Some(line) = stretch.line() else { continue };
                let outward = if line.distance_right(inner) > 0.0 {
                    -line.direction().quarter_turned()
                } else {
                    line.direction().quarter_turned()
                };
                for turn in [upright(line.direction().angle().to_degrees()), 0.0] {
                    for shift in [0.0, 0.25, -0.25, 0.5, -0.5] {
                        let (along, down) = super::label::axes(turn);
                        let half = f64::midpoint(
                            outward.dot(along).abs() * label.width,
                            outward.dot(down).abs() * label.height,
                        );
                        let middle = line.at(stretch.length() * (0.5 + shift));
                        let centre = middle + outward * (allowance + reach + half);
                        let corners = label.box_at(centre, turn);
                        if self.outside.are_clear_of(&corners, 0.02) {
                            let leader =
                                Segment::new(middle + outward * (allowance * 0.75), centre - outward * (half + 0.01));
                            self.marks.push(Path::lines([leader], Stroke::plain(0.3, GREY), Layer::Marks).into());
                            label.draw(centre, turn, &mut self.marks);
                            self.outside.add(&corners);
                            return;
                        }
                    }
                }
            }
        }
    }

    /// Where a part is glued to its neighbours.
    fn draw_laps(&mut self, part: &Part) {
        let (left, top) = (part.corner.x, part.corner.y);
        let (right, bottom) = (left + part.width, top + part.height);
        let glue_pen = Stroke::plain(0.5, GREY).dashed(&[1.5, 2.0]);
        let line = |a: (f64, f64), b: (f64, f64)| Segment::new(Point::new(a.0, a.1), Point::new(b.0, b.1));
        let mut seams = Vec::new();
        if part.column + 1 < part.columns {
            seams.push((line((right - LAP, top), (right - LAP, bottom)), true));
        }
        if part.row + 1 < part.rows {
            seams.push((line((left, bottom - LAP), (right, bottom - LAP)), true));
        }
        if part.column > 0 {
            seams.push((line((left, top), (left, bottom)), false));
            self.cross(Point::new(left + LAP / 2.0, f64::midpoint(top, bottom)));
        }
        if part.row > 0 {
            seams.push((line((left, top), (right, top)), false));
            self.cross(Point::new(f64::midpoint(left, right), top + LAP / 2.0));
        }
        for (seam, glued) in seams {
            let Some(seam) = seam.line().and_then(|line| self.cutting.chord(line, self.tolerance)) else { continue };
            let pen = if glued { glue_pen.clone() } else { Stroke::plain(0.5, GREY) };
            self.lines.push(Path::lines([seam], pen, Layer::Cutting).into());
            let sideways = (seam.end.y - seam.start.y).abs() > (seam.end.x - seam.start.x).abs();
            if glued {
                let (dx, dy) = if sideways { (LAP / 2.0, 0.0) } else { (0.0, LAP / 2.0) };
                let middle = seam.middle() + Vector::new(dx, dy);
                self.cross(middle);
                let next = if sideways { part.number + 1 } else { part.number + part.columns };
                let words = self.subject.words.part_glue(next.min(part.of));
                self.lap_label(&words, middle, if sideways { -90.0 } else { 0.0 }, seam.length());
            } else {
                let (dx, dy) = if sideways { (0.07, 0.0) } else { (0.0, 0.07) };
                self.lap_label(
                    &self.subject.words.part_cut(),
                    seam.middle() + Vector::new(dx, dy),
                    if sideways { -90.0 } else { 0.0 },
                    seam.length(),
                );
            }
        }
    }

    /// A cross that lies on its twin when two parts are glued.
    fn cross(&mut self, at: Point) {
        let arm = |x: f64, y: f64| Segment::new(at - Vector::new(x, y), at + Vector::new(x, y));
        let pen = Stroke::plain(0.6, Colour::BLACK);
        self.lines.push(Path::lines([arm(0.09, 0.0), arm(0.0, 0.09)], pen, Layer::Marks).into());
        self.inside.add(&[
            at - Vector::new(0.1, 0.1),
            at + Vector::new(0.1, -0.1),
            at + Vector::new(0.1, 0.1),
            at + Vector::new(-0.1, 0.1),
        ]);
    }

    fn lap_label(&mut self, words: &str, near: Point, turn: f64, length: f64) {
        let label = Label::words(words, Length::points(6.0), Weight::Regular, GREY);
        let (along, _) = super::label::axes(turn);
        let mut step = 0.0;
        while step * 0.1 < length / 2.0 {
            for sign in [1.0, -1.0] {
                let centre = near + along * (sign * step * 0.1);
                let corners = label.box_at(centre, turn);
                let within = corners.iter().all(|corner| self.visible.holds(*corner, self.tolerance) == Some(true));
                if within && self.inside.are_clear_of(&corners, 0.01) {
                    label.draw(centre, turn, &mut self.marks);
                    self.inside.add(&corners);
                    return;
                }
            }
            step += 1.0;
        }
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
        let mut reach = |point: Point| {
            from = Point::new(from.x.min(point.x), from.y.min(point.y));
            to = Point::new(to.x.max(point.x), to.y.max(point.y));
        };
        for mark in &self.marks {
            match mark {
                Item::Text(text) => super::typeface::text_box(text).into_iter().for_each(&mut reach),
                Item::Path(path) => path.subpaths.iter().flat_map(super::page::Subpath::places).for_each(&mut reach),
                Item::Window(_) => {}
            }
        }
        items.extend(self.marks);
        let shift = Vector::new(FRAME - from.x, FRAME - from.y);
        let moved = Transform::shift(shift);
        Foundation {
            block: self.subject.block,
            variant: self.subject.variant,
            part: part.map(|part| (part.number, part.of)),
            items: items.iter().map(|item| item.moved(shift)).collect(),
            width: to.x - from.x + 2.0 * FRAME,
            height: to.y - from.y + 2.0 * FRAME,
            matrix: self.printed.then(moved),
            cutting_line: moved.apply_to_polygon(&self.visible),
        }
    }
}

/// Where a ray from inside a convex area leaves it.
fn exit(area: &Polygon, from: Point, way: Vector) -> Option<Point> {
    area.edges()
        .filter_map(Segment::line)
        .filter_map(|line| {
            let speed = line.direction().cross(way);
            let clearance = line.distance_right(from);
            (speed < -1e-9 && clearance >= 0.0).then(|| clearance / -speed)
        })
        .fold(None, |least: Option<f64>, distance| Some(least.map_or(distance, |least| least.min(distance))))
        .map(|distance| from + way * distance)
}

/// Whether two foundations on a page keep apart.
#[must_use]
pub fn keep_apart(a: &Polygon, b: &Polygon, gap: f64) -> bool {
    apart(a.corners(), b.corners(), gap)
}
