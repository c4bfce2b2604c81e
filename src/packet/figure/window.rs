//! The window by which a piece is cut round a motif of its print, at exact size.

use super::EDGE;
use crate::geometry::{Length, Point, Segment, Vector};
use crate::model::{Block, Cut, Model, Variant};
use crate::packet::label::{Arrow, Label};
use crate::packet::page::{Colour, Item, Layer, Page, Path, Stroke, Text, Weight};
use crate::packet::typeface;
use crate::packet::words::Words;

/// What stays free round the drawing, in inches.
const MARGIN: f64 = 0.3;
/// A page is at least so wide, so that its words have room.
const LEAST: f64 = 3.4;
/// The size of its words, in printer's points.
const POINTS: f64 = 8.0;
/// From one line to the next, in inches.
const LINE: f64 = 0.16;

/// A window: whose it is, and its drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct MotifWindow {
    /// The block, by index in [`Model::blocks`].
    pub block: usize,
    /// The fabric, by index in [`Model::fabrics`].
    pub fabric: usize,
    /// Its section, as it is called on paper, with the turn where there are several: `A3`, `A3-90`.
    pub name: String,
    /// The drawing, at exact size.
    pub page: Page,
}

impl MotifWindow {
    /// The file of the packet that holds it.
    #[must_use]
    pub fn path(&self, model: &Model) -> String {
        let block = model.blocks.get(self.block).map_or("", |block| block.name.as_str());
        format!("windows/{block}/{}.svg", self.name)
    }
}

/// The windows of all sections with a motif, in the order of the blocks and their foundations.
#[must_use]
pub fn windows(model: &Model, words: &Words) -> Vec<MotifWindow> {
    let mut found = Vec::new();
    for (at, block) in model.blocks.iter().enumerate() {
        for variant in block.variants.iter().filter(|variant| variant.sewn > 0) {
            for cut in &variant.cuts {
                let (Some(motif), Some(fabric)) = (cut.motif, variant.fabric_of(cut.section, cut.strip)) else {
                    continue;
                };
                let several = variant.cuts.iter().filter(|other| other.section == cut.section).count() > 1;
                let section = format!("{}{}", variant.mark, cut.section + 1);
                let turn = cut.turn.to_degrees().round();
                let name = if several { format!("{section}-{turn:.0}") } else { section };
                let page = window(model, block, variant, (cut, motif), words);
                found.extend(page.map(|page| MotifWindow { block: at, fabric, name, page }));
            }
        }
    }
    found
}

/// The window of a cut, seen from the front with the motif upright.
fn window(model: &Model, block: &Block, variant: &Variant, (cut, motif): (&Cut, Point), words: &Words) -> Option<Page> {
    let section = block.unit_of(variant).sections.get(cut.section)?;
    let up = cut.up.unit()?;
    // A mirrored foundation is sewn as the mirror image of the drawing.
    let right = if variant.mirrored { -up.quarter_turned() } else { up.quarter_turned() };
    let seen = |point: Point| Point::new(point.to_vector().dot(right), -point.to_vector().dot(up));
    let outer: Vec<Point> = cut.corners.iter().map(|&corner| seen(corner)).collect();
    let inner: Vec<Point> = section.polygon.corners().iter().map(|&corner| seen(corner)).collect();
    let all = || outer.iter().chain(&inner);
    let least = all().fold(Point::new(f64::INFINITY, f64::INFINITY), |a, p| Point::new(a.x.min(p.x), a.y.min(p.y)));
    let most = all().fold(Point::new(f64::MIN, f64::MIN), |a, p| Point::new(a.x.max(p.x), a.y.max(p.y)));
    let name = format!("{}{}", variant.mark, cut.section + 1);
    let fabric = variant.fabric_of(cut.section, cut.strip).and_then(|fabric| model.fabrics.get(fabric));
    let fabric = fabric.map_or("", |fabric| fabric.name.as_str());
    let wide = (most.x - least.x + 2.0 * MARGIN).max(LEAST);
    let head = words.window_head(&model.facts.title, &block.name, name.as_str(), fabric);
    let mut lines: Vec<(String, Weight)> = Vec::new();
    // Viewers without the typeface of the packet set wider.
    let room = Length::inches((wide - 2.0 * MARGIN) * 0.82);
    let mut tell = |told: &str, weight: Weight| {
        lines.extend(typeface::wrapped(told, room, Length::points(POINTS), weight).into_iter().map(|l| (l, weight)));
    };
    tell(&head, Weight::Bold);
    tell(&words.window_how(), Weight::Regular);
    let top = MARGIN + LINE * f64::from(u16::try_from(lines.len()).unwrap_or(u16::MAX)) + 0.1;
    let shift = Vector::new((wide - (most.x - least.x)) / 2.0 - least.x, top - least.y);
    let mut items: Vec<Item> = Vec::new();
    let mut y = MARGIN;
    for (told, weight) in &lines {
        items.push(Text::line(Point::new(MARGIN, y + 0.1), told, POINTS, *weight).into());
        y += LINE;
    }
    let moved = |corners: &[Point]| corners.iter().map(|&corner| corner + shift).collect::<Vec<_>>();
    let dashed = Stroke::plain(0.8, EDGE).dashed(&[4.0, 2.0]);
    items.push(Path::area(&moved(&outer), None, Some(dashed), Layer::Cutting).into());
    items.push(
        Path::area(&moved(&inner), Some(Colour::grey(238)), Some(Stroke::plain(1.2, Colour::BLACK)), Layer::Seams)
            .into(),
    );
    draw_middle(seen(motif) + shift, &mut items);
    let foot = top + (most.y - least.y) + 0.2;
    draw_checks(foot, words, &mut items);
    Some(Page {
        width: Length::inches(wide),
        height: Length::inches(foot + 1.0 + 0.3 + MARGIN),
        title: words.window_title(&name),
        description: words.window_alt(&name, fabric),
        items,
    })
}

/// A cross at the middle of the motif, with an arrow up from it.
fn draw_middle(at: Point, items: &mut Vec<Item>) {
    let line = |way: Vector| Segment::new(at + -way, at + way);
    let cross = [line(Vector::new(0.12, 0.0)), line(Vector::new(0.0, 0.12))];
    items.push(Path::lines(cross, Stroke::plain(0.7, Colour::BLACK), Layer::Marks).into());
    let arrow = Label::arrow(Arrow { up: Vector::new(0.0, -1.0), long: 0.26, two_way: false }, Colour::BLACK);
    arrow.draw(at + Vector::new(0.0, -0.28), 0.0, items);
}

/// A square of one inch and one of two centimetres, to check what is printed with a ruler.
fn draw_checks(top: f64, words: &Words, items: &mut Vec<Item>) {
    let squares = [(Length::inches(1.0), words.window_inch()), (Length::millimetres(20.0), words.window_centimetres())];
    let mut left = MARGIN;
    for (side, told) in squares {
        let (from, side) = (Point::new(left, top), side.to_inches());
        let corners =
            [from, from + Vector::new(side, 0.0), from + Vector::new(side, side), from + Vector::new(0.0, side)];
        items.push(Path::area(&corners, None, Some(Stroke::plain(0.7, Colour::BLACK)), Layer::Marks).into());
        let label = Label::words(&told, Length::points(7.0), Weight::Regular, Colour::BLACK);
        label.draw(from + Vector::new(side / 2.0, side / 2.0), 0.0, items);
        left += side + 0.3;
    }
}
