//! How paper and cloth are drawn in the primer, in one manner.

use super::super::canvas::{Canvas, Room};
use super::sail::{LINE, Sail};
use crate::geometry::{Length, Line, Point, Polygon, Segment, Transform, Vector};
use crate::packet::figure::{ACCENT, FAINT};
use crate::packet::hatch;
use crate::packet::label::Label;
use crate::packet::page::{Colour, FillRule, Layer, Path, Stroke, Subpath, Weight};

/// A fabric of the primer.
#[derive(Clone, Copy)]
pub(super) struct Cloth {
    /// By which its right side is hatched.
    pub mark: u32,
    pub colour: [u8; 3],
}

impl Cloth {
    /// Its colour as pale as it looks from the wrong side (0.5) or through paper (0.75).
    fn pale(self, fraction: f64) -> Colour {
        Colour(self.colour).toward(Colour::WHITE, fraction)
    }
}

/// A drawing of the primer.
pub(super) struct Scene<'s> {
    pub canvas: Canvas,
    pub sail: &'s Sail,
}

fn paper_edge() -> Stroke {
    Stroke::plain(0.6, Colour::grey(150))
}

impl<'s> Scene<'s> {
    /// A drawing of the frame that all but the first share.
    pub fn new(wide: f64, sail: &'s Sail) -> Self {
        Self::showing(wide, sail, (Point::new(-1.05, -0.8), Point::new(4.65, 3.75)))
    }

    pub fn showing(wide: f64, sail: &'s Sail, shown: (Point, Point)) -> Self {
        let room = Room { width: wide, most_high: wide, beside: 0.03, above: 0.03 };
        Self { canvas: Canvas::new(shown, Transform::IDENTITY, room), sail }
    }

    /// The paper with its printed side up, still without what is printed on it.
    pub fn paper(&mut self) {
        self.canvas.outline(&self.sail.paper, Some(Colour::WHITE), paper_edge());
    }

    /// What is printed on it.
    pub fn section_lines(&mut self) {
        let sail = self.sail;
        self.canvas.outline(&sail.cutting, None, Stroke::plain(0.5, Colour::grey(110)).dashed(&[3.0, 2.0]));
        self.canvas.outlines(&sail.sections, None, Some(Stroke::plain(0.5, Colour::grey(90))));
        self.canvas.outline(&sail.outline, None, Stroke::plain(0.9, Colour::BLACK));
    }

    /// What is printed on the paper of sections 1 and 3.
    pub fn lower_lines(&mut self) {
        let [first, _, third] = &self.sail.sections;
        self.canvas.outlines([first, third], None, Some(Stroke::plain(0.6, Colour::grey(90))));
    }

    pub fn numbers(&mut self) {
        for (number, section) in ["1", "2", "3"].into_iter().zip(&self.sail.sections) {
            let at = self.canvas.map.apply(section.centroid());
            self.number_at(number, at);
        }
    }

    /// Writes a number at a place of the page.
    pub fn number_at(&mut self, number: &str, at: Point) {
        let points = if self.canvas.width > 2.4 { 9.0 } else { 7.0 };
        let label = Label::words(number, Length::points(points), Weight::Bold, Colour::BLACK);
        label.draw(at, 0.0, &mut self.canvas.items);
    }

    /// The paper's plain side, through which the printing shows faintly.
    pub fn plain_side(&mut self, map: Transform) {
        let sail = self.sail;
        let turned = |polygon: &Polygon| map.apply_to_polygon(polygon);
        self.canvas.outline(&turned(&sail.paper), Some(Colour::grey(248)), paper_edge());
        let sections = sail.sections.each_ref().map(turned);
        self.canvas.outlines(&sections, None, Some(Stroke::plain(0.5, Colour::grey(175)).dashed(&[1.2, 1.2])));
        self.canvas.outline(&turned(&sail.cutting), None, Stroke::plain(0.4, Colour::grey(200)).dashed(&[3.0, 2.0]));
    }

    /// Cloth with its wrong side up: pale, without hatching.
    pub fn wrong_side(&mut self, piece: &Polygon, cloth: Cloth) {
        self.canvas.outline(piece, Some(cloth.pale(0.45)), Stroke::plain(0.5, Colour::grey(110)));
    }

    /// Cloth with its right side up.
    pub fn right_side(&mut self, piece: &Polygon, cloth: Cloth) {
        let areas = self.canvas.areas(piece);
        hatch::areas(&areas, cloth.mark, cloth.colour, 0.8, &mut self.canvas.items);
        self.canvas.outline(piece, None, Stroke::plain(0.5, Colour::grey(90)));
    }

    /// Cloth that is cut off.
    pub fn faded(&mut self, piece: &Polygon, cloth: Cloth) {
        self.canvas.outline(piece, Some(cloth.pale(0.75)), Stroke::plain(0.4, FAINT));
    }

    /// Cloth beneath the paper, as it shows through.
    pub fn through(&mut self, piece: &Polygon, cloth: Cloth) {
        let beneath = piece.intersection(&self.sail.paper, self.sail.tolerance);
        self.canvas.outlines(&beneath, Some(cloth.pale(0.78)), None);
        self.canvas.outline(&self.sail.paper, None, paper_edge());
    }

    /// The edge of cloth that lies beneath something.
    pub fn hidden_edge(&mut self, piece: &Polygon, colour: Colour) {
        let width = if colour == ACCENT { 1.0 } else { 0.6 };
        self.canvas.outline(piece, None, Stroke::plain(width, colour).dashed(&[3.5, 2.0]));
    }

    /// The paper folded back along line 2, with its plain side up where it is folded; with a card in the fold where there is one.
    pub fn folded(&mut self, card: bool) {
        let Some(level) = Line::through(Point::new(0.0, LINE), Point::new(1.0, LINE)) else { return };
        let tolerance = self.sail.tolerance;
        let (above, below) = self.sail.paper.cut(level, tolerance);
        let printed = |polygon: &Polygon| polygon.cut(level, tolerance).1;
        self.canvas.outlines(&below, Some(Colour::WHITE), Some(paper_edge()));
        let cutting = printed(&self.sail.cutting);
        self.canvas.outlines(&cutting, None, Some(Stroke::plain(0.5, Colour::grey(110)).dashed(&[3.0, 2.0])));
        let sections: Vec<Polygon> = self.sail.sections.iter().filter_map(printed).collect();
        self.canvas.outlines(&sections, None, Some(Stroke::plain(0.5, Colour::grey(90))));
        if card && let Some(card) = Polygon::rectangle(Point::new(-0.95, LINE), Point::new(4.35, LINE + 0.85)) {
            self.canvas.outline(&card, Some(Colour([222, 224, 214])), Stroke::plain(0.7, Colour::grey(80)));
        }
        let over = Transform::mirror(level);
        if let Some(flap) = above.map(|above| over.apply_to_polygon(&above)) {
            self.canvas.outline(&flap, Some(Colour::grey(246)), Stroke::plain(0.8, Colour::grey(110)));
        }
        // The printing of the folded part shows through its plain side.
        let faint: Vec<Polygon> = self
            .sail
            .sections
            .iter()
            .filter_map(|section| section.cut(level, tolerance).0)
            .map(|part| over.apply_to_polygon(&part))
            .collect();
        self.canvas.outlines(&faint, None, Some(Stroke::plain(0.4, Colour::grey(185)).dashed(&[1.2, 1.2])));
        let (from, to) = self.sail.paper.chord(level, tolerance).map_or((0.0, 3.0), |c| (c.start.x, c.end.x));
        self.canvas.line(Segment::new(Point::new(from, LINE), Point::new(to, LINE)), Stroke::plain(1.4, Colour::BLACK));
    }

    /// The stitches on line 2.
    pub fn stitches(&mut self, colour: Colour) {
        let (from, to) = self.sail.stitched;
        let seam = Segment::new(Point::new(from, LINE), Point::new(to, LINE));
        self.canvas.line(seam, Stroke::plain(2.0, colour).dashed(&[2.4, 1.6]));
    }

    /// An arrow between two places of the drawing.
    pub fn arrow(&mut self, from: Point, tip: Point) {
        let (from, tip) = (self.canvas.map.apply(from), self.canvas.map.apply(tip));
        self.arrow_on_page(from, tip);
    }

    pub fn arrow_on_page(&mut self, from: Point, tip: Point) {
        let way = (tip - from).unit().unwrap_or_default();
        let barb = |side: f64| Segment::new(tip, tip + way * -0.06 + way.quarter_turned() * (side * 0.04));
        let lines = [Segment::new(from, tip), barb(1.0), barb(-1.0)];
        self.canvas.items.push(Path::lines(lines, Stroke::plain(1.2, ACCENT).rounded(), Layer::Marks).into());
    }

    /// Marks an upright distance, its name above.
    pub fn measure(&mut self, top: Point, bottom: Point, name: &str) {
        let (top, bottom) = (self.canvas.map.apply(top), self.canvas.map.apply(bottom));
        let tick = Vector::new(0.03, 0.0);
        let lines = [
            Segment::new(top, bottom),
            Segment::new(top + -tick, top + tick),
            Segment::new(bottom + -tick, bottom + tick),
        ];
        self.canvas.items.push(Path::lines(lines, Stroke::plain(0.8, ACCENT), Layer::Marks).into());
        let points = if self.canvas.width > 2.4 { 7.0 } else { 5.5 };
        let label = Label::words(name, Length::points(points), Weight::Regular, ACCENT);
        let x = top.x.min(self.canvas.width - 0.02 - label.width / 2.0);
        label.draw(Point::new(x, top.y - 0.035 - label.height / 2.0), 0.0, &mut self.canvas.items);
    }

    /// A light behind the paper.
    pub fn lamp(&mut self, at: Point) {
        let centre = self.canvas.map.apply(at);
        let unit = self.canvas.scale;
        let mut subpaths = vec![Subpath::circle(centre, 0.2 * unit)];
        subpaths.extend((0..8).map(|k| {
            let way = Vector::at_bearing(crate::geometry::Angle::degrees(f64::from(k) * 45.0));
            Subpath::line(Segment::new(centre + way * (0.28 * unit), centre + way * (0.44 * unit)))
        }));
        let stroke = Some(Stroke::plain(1.0, Colour::grey(60)).rounded());
        self.canvas
            .items
            .push(Path { subpaths, fill: None, rule: FillRule::EvenOdd, stroke, layer: Layer::Marks }.into());
    }

    /// A ruler along the left of an edge that runs upward.
    pub fn ruler(&mut self, edge: Segment) {
        let Some(line) = edge.line() else { return };
        let inward = -line.direction().quarter_turned();
        let (length, wide) = (edge.length(), 0.45);
        let corners = [edge.start, edge.end, edge.end + inward * wide, edge.start + inward * wide];
        let corners = corners.map(|corner| self.canvas.map.apply(corner));
        let pen = Stroke::plain(0.8, Colour::grey(60));
        self.canvas.items.push(Path::area(&corners, None, Some(pen), Layer::Marks).into());
        let ticks = (1..16).map(|k| {
            let at = line.at(length * f64::from(k) / 16.0);
            let long = if k % 4 == 0 { 0.3 } else { 0.16 };
            Segment::new(at, at + inward * long)
        });
        let ticks: Vec<Segment> = ticks.map(|tick| self.canvas.map.apply_to_segment(tick)).collect();
        self.canvas.items.push(Path::lines(ticks, Stroke::plain(0.5, Colour::grey(60)), Layer::Marks).into());
    }
}
