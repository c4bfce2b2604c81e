//! A join from the front: its two sides a little apart, what is pinned and matched, how far along, and which way it is pressed.

use super::canvas::{Canvas, Room, bounds};
use super::{ACCENT, EDGE, name_sizes, told};
use crate::geometry::{Length, Point, Polygon, Segment, Tolerance, Transform, Vector};
use crate::model::{Block, Join, Model, Press};
use crate::packet::label::{Label, box_at, upright};
use crate::packet::measure::Measures;
use crate::packet::page::{Colour, FillRule, Layer, Page, Path, Stroke, Subpath, Weight};
use crate::packet::words::Words;

/// How far apart the two sides are drawn, in inches on the page.
const GAP: f64 = 0.26;
/// How long a pressing arrow reaches into its side, in inches on the page.
const ARROW: f64 = 0.16;
/// The radius of the dots at points to match, in inches on the page.
const DOT: f64 = 0.032;

/// Two groups a little apart, the seam between them, its match points and tips, and which way it is pressed.
///
/// Lengths along the seam are told from the end that the step names. What is joined later or elsewhere is not drawn. O(n²) in the sections drawn.
#[must_use]
pub fn join_front(model: &Model, block: &Block, join: &Join, width: Length, words: &Words) -> Page {
    let description = Told { model, block, join, words }.text();
    let number = number(block, join);
    let title = words.figure_join_title(number);
    let Some(drawing) = Exploded::new(model, block, join, width.to_inches()) else {
        let room = Room { width: width.to_inches(), most_high: width.to_inches(), beside: 0.05, above: 0.05 };
        return Canvas::new(block.outline.bounds(), Transform::IDENTITY, room).page(title, description);
    };
    drawing.draw(Measures::new(words, model.units)).page(title, description)
}

/// A join being drawn.
struct Exploded<'m> {
    model: &'m Model,
    block: &'m Block,
    join: &'m Join,
    canvas: Canvas,
    /// Toward the right side, of length 1; the same on the page as in the block.
    toward_right: Vector,
    /// The seam on the page, half way between its two edges.
    seam: Segment,
}

impl<'m> Exploded<'m> {
    fn new(model: &'m Model, block: &'m Block, join: &'m Join, wide: f64) -> Option<Self> {
        let toward_right = join.seam.line()?.direction().quarter_turned();
        let places = join.left.iter().chain(&join.right).filter_map(|&place| block.placements.get(place));
        let shown = bounds(places.flat_map(|place| place.outline.corners()).copied());
        let room = Room {
            width: wide,
            most_high: wide,
            beside: 0.06 + toward_right.x.abs() * GAP / 2.0,
            above: 0.06 + toward_right.y.abs() * GAP / 2.0,
        };
        let canvas = Canvas::new(shown, Transform::IDENTITY, room);
        let seam = canvas.map.apply_to_segment(join.seam);
        Some(Self { model, block, join, canvas, toward_right, seam })
    }

    /// From the middle of the gap to a side, on the page: -1 for the left one, 1 for the right one.
    fn aside(&self, side: f64) -> Vector {
        self.toward_right * (side * GAP / 2.0)
    }

    fn draw(mut self, measures: Measures<'_>) -> Canvas {
        self.draw_units();
        self.draw_edges();
        self.draw_points();
        self.name_units();
        self.draw_arrows();
        self.tell_lengths(measures);
        self.canvas
    }

    /// The units that are joined, each with its side of the seam and where it stands.
    fn units(&self) -> Vec<(usize, Transform)> {
        let side = |places: &'m [usize], side: f64| {
            let apart = Transform::shift(self.aside(side) * (1.0 / self.canvas.scale));
            places.iter().map(move |&place| (place, apart))
        };
        side(&self.join.left, -1.0).chain(side(&self.join.right, 1.0)).collect()
    }

    fn draw_units(&mut self) {
        let mut sections: Vec<(usize, Polygon)> = Vec::new();
        let mut outlines: Vec<Polygon> = Vec::new();
        for (place, apart) in self.units() {
            let Some(placement) = self.block.placements.get(place) else { continue };
            let Some(variant) = self.block.variants.get(placement.variant) else { continue };
            let here = placement.transform.then(apart);
            for (section, &fabric) in self.block.unit_of(variant).sections.iter().zip(&variant.fabrics) {
                sections.push((fabric, here.apply_to_polygon(&section.polygon)));
            }
            outlines.push(apart.apply_to_polygon(&placement.outline));
        }
        self.canvas.fabrics(self.model, &sections);
        let thin = Stroke::plain(0.25, Colour::grey(90));
        self.canvas.outlines(sections.iter().map(|(_, area)| area), None, Some(thin));
        // On a light ground, so that two units of one dark fabric are told apart.
        self.canvas.outlines(&outlines, None, Some(Stroke::plain(1.8, Colour::WHITE)));
        self.canvas.outlines(&outlines, None, Some(Stroke::plain(0.7, EDGE)));
    }

    /// Both edges in bold, and a cross at each end that is pinned.
    fn draw_edges(&mut self) {
        let edges = [-1.0, 1.0].map(|side| {
            let aside = self.aside(side);
            Segment::new(self.seam.start + aside, self.seam.end + aside)
        });
        self.canvas.items.push(Path::lines(edges, Stroke::plain(2.0, Colour::BLACK), Layer::Seams).into());
        let mut arms = Vec::new();
        for edge in edges {
            for end in [edge.start, edge.end] {
                let arm = |x: f64, y: f64| Segment::new(end - Vector::new(x, y), end + Vector::new(x, y));
                arms.extend([arm(0.04, 0.04), arm(0.04, -0.04)]);
                self.canvas.keep_clear(&box_at(end, 0.09, 0.09, 0.0));
            }
        }
        self.canvas
            .items
            .push(Path::lines(arms.clone(), Stroke::plain(2.4, Colour::WHITE).rounded(), Layer::Marks).into());
        self.canvas.items.push(Path::lines(arms, Stroke::plain(1.2, ACCENT).rounded(), Layer::Marks).into());
    }

    /// Filled dots on both edges where both have something to match, open ones on the edge that has a tip.
    fn draw_points(&mut self) {
        let matches: Vec<Point> = self.join.match_points.iter().map(|point| self.canvas.map.apply(point.at)).collect();
        let links: Vec<Segment> =
            matches.iter().map(|&at| Segment::new(at + self.aside(-1.0), at + self.aside(1.0))).collect();
        for link in &links {
            self.canvas.keep_clear(&[link.start, link.end]);
        }
        let filled: Vec<Point> = links.iter().flat_map(|link| [link.start, link.end]).collect();
        if !links.is_empty() {
            let pen = Stroke::plain(0.7, ACCENT).dashed(&[2.0, 1.5]);
            self.canvas.items.push(Path::lines(links, pen, Layer::Marks).into());
        }
        let open: Vec<Point> = self
            .join
            .tips
            .iter()
            .flat_map(|&tip| self.sides_of(tip).into_iter().map(move |side| (tip, side)))
            .map(|(tip, side)| self.canvas.map.apply(tip) + self.aside(side))
            .collect();
        for (dots, fill) in [(filled, ACCENT), (open, Colour::WHITE)] {
            let subpaths: Vec<Subpath> = dots.iter().map(|&at| Subpath::circle(at, DOT)).collect();
            if !subpaths.is_empty() {
                let stroke = Some(Stroke::plain(0.9, ACCENT));
                self.canvas.items.push(
                    Path { subpaths, fill: Some(fill), rule: FillRule::EvenOdd, stroke, layer: Layer::Marks }.into(),
                );
            }
            for at in dots {
                self.canvas.keep_clear(&box_at(at, DOT * 2.2, DOT * 2.2, 0.0));
            }
        }
    }

    /// The sides of which a section has a corner at a point of the seam.
    fn sides_of(&self, tip: Point) -> Vec<f64> {
        let near = Tolerance::of_extent(self.block.width.max(self.block.height).to_inches());
        let ends_there = |places: &[usize]| {
            places.iter().filter_map(|&place| self.block.placements.get(place)).any(|placement| {
                let Some(variant) = self.block.variants.get(placement.variant) else { return false };
                let mut sections = self.block.unit_of(variant).sections.iter();
                sections.any(|section| {
                    let corners = section.polygon.corners().iter().map(|&corner| placement.transform.apply(corner));
                    corners.into_iter().any(|corner| near.is_zero(corner.distance(tip)))
                })
            })
        };
        [(-1.0, &self.join.left), (1.0, &self.join.right)]
            .into_iter()
            .filter(|(_, places)| ends_there(places))
            .map(|(side, _)| side)
            .collect()
    }

    fn name_units(&mut self) {
        let sizes = name_sizes(self.canvas.width);
        for (place, apart) in self.units() {
            let Some(placement) = self.block.placements.get(place) else { continue };
            let Some(variant) = self.block.variants.get(placement.variant) else { continue };
            let outline = apart.apply_to_polygon(&placement.outline);
            self.canvas.mark(&outline, &variant.mark, sizes, |_| true);
        }
    }

    /// An arrow across the gap toward the side under which the allowances are pressed; one each way where they are pressed open.
    fn draw_arrows(&mut self) {
        let ways: &[f64] = match self.join.press {
            Press::Left => &[-1.0],
            Press::Right => &[1.0],
            Press::Open => &[-1.0, 1.0],
        };
        let turn = self.toward_right.angle().to_degrees();
        // Where it is clear of dots and names; near the middle if it can.
        let room = |at: Point| box_at(at, GAP + 2.0 * ARROW, 0.14, turn);
        let places = [0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78, 0.45, 0.55, 0.35, 0.65, 0.14, 0.86];
        let at = |part: f64| self.seam.start.along(self.seam.end, part);
        let middle = places.into_iter().map(at).find(|&at| self.canvas.taken.are_clear_of(&room(at), 0.01));
        let middle = middle.unwrap_or_else(|| at(0.42));
        let mut lines = Vec::new();
        for &sign in ways {
            let way = self.toward_right * sign;
            let from = if ways.len() > 1 { middle } else { middle + way * (-GAP / 2.0 + 0.04) };
            let tip = middle + way * (GAP / 2.0 + ARROW);
            let barb = |side: f64| Segment::new(tip, tip + way * -0.08 + way.quarter_turned() * (side * 0.05));
            lines.extend([Segment::new(from, tip), barb(1.0), barb(-1.0)]);
        }
        self.canvas.keep_clear(&room(middle));
        let ground = Stroke::plain(3.6, Colour::WHITE).rounded();
        self.canvas.items.push(Path::lines(lines.clone(), ground, Layer::Marks).into());
        self.canvas.items.push(Path::lines(lines, Stroke::plain(1.4, ACCENT).rounded(), Layer::Marks).into());
    }

    /// How far along the seam each point lies, written in the gap beside it where that finds room; the step tells it too.
    fn tell_lengths(&mut self, measures: Measures<'_>) {
        let Some(line) = self.seam.line() else { return };
        let turn = upright(line.direction().angle().to_degrees());
        let (from, _) = measured_from(self.join);
        let points = self.join.match_points.iter().map(|point| point.at).chain(self.join.tips.iter().copied());
        for point in points {
            let words = measures.length(Length::inches(from.distance(point)));
            let at = self.canvas.map.apply(point);
            for points in [6.5, 6.0, 5.5] {
                let label = Label::words(&words, Length::points(points), Weight::Regular, ACCENT);
                let aside = line.direction() * (label.width / 2.0 + 0.045);
                if [at + aside, at + -aside].into_iter().any(|centre| self.canvas.put(&label, centre, turn, false)) {
                    break;
                }
            }
        }
    }
}

/// The end of a join from which lengths are measured, and what it is called: the upper one of a join that is rather upright, else the one where
/// the seam starts.
fn measured_from(join: &Join) -> (Point, fn(&Words) -> String) {
    let run = join.seam.end - join.seam.start;
    if run.y.abs() >= run.x.abs() {
        let upper = if run.y < 0.0 { join.seam.end } else { join.seam.start };
        (upper, Words::join_end_upper)
    } else if run.x >= 0.0 {
        (join.seam.start, Words::join_end_left)
    } else {
        (join.seam.start, Words::join_end_right)
    }
}

fn number(block: &Block, join: &Join) -> usize {
    block.joins.iter().position(|other| other == join).map_or(0, |index| index + 1)
}

/// A join in words.
struct Told<'m> {
    model: &'m Model,
    block: &'m Block,
    join: &'m Join,
    words: &'m Words,
}

impl Told<'_> {
    fn text(&self) -> String {
        let words = self.words;
        let (left, right) = (self.side(&self.join.left), self.side(&self.join.right));
        let mut text = vec![words.figure_join_alt(number(self.block, self.join), &left, &right)];
        let end = measured_from(self.join).1(words);
        let points: Vec<Point> = self.join.match_points.iter().map(|point| point.at).collect();
        if !points.is_empty() {
            text.push(words.figure_join_points(points.len(), self.places(&points), &end));
        }
        if !self.join.tips.is_empty() {
            text.push(words.figure_join_tips(self.join.tips.len(), self.places(&self.join.tips), &end));
        }
        text.push(match self.join.press {
            Press::Left => words.figure_join_press(left),
            Press::Right => words.figure_join_press(right),
            Press::Open => words.figure_join_press_open(),
        });
        text.join(" ")
    }

    fn places(&self, points: &[Point]) -> String {
        let measures = Measures::new(self.words, self.model.units);
        let (from, _) = measured_from(self.join);
        let lengths: Vec<String> =
            points.iter().map(|&point| measures.length(Length::inches(from.distance(point)))).collect();
        self.words.list(&lengths)
    }

    fn side(&self, places: &[usize]) -> String {
        let names: Vec<String> = places
            .iter()
            .filter_map(|&place| {
                let placement = self.block.placements.get(place)?;
                let variant = self.block.variants.get(placement.variant)?;
                Some(self.words.join_place(&placement.name, &variant.mark))
            })
            .collect();
        if names.len() > told::MANY { self.words.figure_units(names.len()) } else { self.words.list(&names) }
    }
}
