//! Figures: the block from the front, its map, and every step from the front and from the printed side.
//!
//! Each is a page of the width that is asked for, as high as it needs.

use crate::geometry::{Length, Point, Polygon, Segment, Tolerance, Transform, Vector};
use crate::model::{Block, Cut, Join, Model, Press, Variant};

use super::hand;
use super::hatch;
use super::label::{Label, fit, length_direction, upright};
use super::page::{Align, Colour, Item, Layer, Page, Path, Stroke, Text, Weight};
use super::typeface::CAPITALS;
use super::words::Words;

const FAINT: Colour = Colour::grey(170);
const PALE: Colour = Colour::grey(238);
/// The accent of figures: the line to sew on, the cut to lay.
const ACCENT: Colour = Colour([176, 58, 46]);

/// A figure being drawn: a frame of the model carried to the page.
struct Canvas {
    map: Transform,
    scale: f64,
    width: f64,
    height: f64,
    items: Vec<Item>,
}

impl Canvas {
    /// A page of this width, in inches, on which `shown` (already in the orientation of the page) fills what the border leaves.
    fn new(shown: (Point, Point), orientation: Transform, width: f64, border: f64, most_high: f64) -> Self {
        let (from, to) = shown;
        let (wide, high) = ((to.x - from.x).max(1e-6), (to.y - from.y).max(1e-6));
        let scale = ((width - 2.0 * border) / wide).min((most_high - 2.0 * border) / high);
        let left = (width - wide * scale) / 2.0;
        let map = orientation
            .then(Transform::shift(-from.to_vector()))
            .then(Transform::scale(scale))
            .then(Transform::shift(Vector::new(left, border)));
        Self { map, scale, width, height: high * scale + 2.0 * border, items: Vec::new() }
    }

    fn area(&self, polygon: &Polygon) -> Polygon {
        self.map.apply_to_polygon(polygon)
    }

    fn outline(&mut self, polygon: &Polygon, fill: Option<Colour>, stroke: Stroke) {
        let area = self.area(polygon);
        self.items.push(Path::polygon(&area, fill, Some(stroke), Layer::Seams).into());
    }

    fn line(&mut self, segment: Segment, stroke: Stroke) {
        let segment = self.map.apply_to_segment(segment);
        self.items.push(Path::lines([segment], stroke, Layer::Seams).into());
    }

    fn fabric(&mut self, model: &Model, fabric: usize, polygon: &Polygon) {
        let area = self.area(polygon);
        if let Some(fabric) = model.fabrics.get(fabric) {
            hatch::fabric(&area, fabric.mark, fabric.colour, &mut self.items);
        }
    }

    /// Writes words into an area, in the largest of these sizes that fits; on a white ground, so that they show on any fabric.
    fn name(&mut self, polygon: &Polygon, words: &str, weight: Weight, sizes: &[f64], ground: bool) -> bool {
        let area = self.area(polygon);
        for &points in sizes {
            let label = Label::words(words, Length::points(points), weight, Colour::BLACK);
            for turn in [0.0, upright(length_direction(&area))] {
                if let Some(spot) = fit(&area, label.width + 0.04, label.height + 0.02, turn, 0.01) {
                    if ground {
                        let corners =
                            super::label::box_at(spot.centre, label.width + 0.05, label.height + 0.03, spot.turn);
                        self.items.push(Path::area(&corners, Some(Colour::WHITE), None, Layer::Marks).into());
                    }
                    label.draw(spot.centre, spot.turn, &mut self.items);
                    return true;
                }
            }
        }
        false
    }

    fn text(&mut self, at: Point, words: &str, points: f64, colour: Colour) {
        let size = Length::points(points);
        let at = Point::new(at.x, at.y + size.to_inches() * CAPITALS / 2.0);
        let (weight, align, layer) = (Weight::Regular, Align::Middle, Layer::Marks);
        self.items.push(Item::Text(Text {
            at,
            words: words.to_owned(),
            size,
            weight,
            colour,
            align,
            turn: 0.0,
            layer,
        }));
    }

    fn page(self, title: String, description: String) -> Page {
        Page {
            width: Length::inches(self.width),
            height: Length::inches(self.height),
            title,
            description,
            items: self.items,
        }
    }
}

/// The block from the front, in its fabrics.
#[must_use]
pub fn block_front(model: &Model, block: &Block, width: Length, words: &Words) -> Page {
    let wide = width.to_inches();
    let mut canvas = Canvas::new(block.outline.bounds(), Transform::IDENTITY, wide, 0.03, wide * 1.4);
    for place in &block.placements {
        let Some(variant) = block.variants.get(place.variant) else { continue };
        for (section, &fabric) in block.unit_of(variant).sections.iter().zip(&variant.fabrics) {
            let area = place.transform.apply_to_polygon(&section.polygon);
            canvas.fabric(model, fabric, &area);
        }
    }
    for place in &block.placements {
        let Some(variant) = block.variants.get(place.variant) else { continue };
        for section in &block.unit_of(variant).sections {
            let area = place.transform.apply_to_polygon(&section.polygon);
            canvas.outline(&area, None, Stroke::plain(0.3, Colour::grey(60)));
        }
    }
    let outline = block.outline.clone();
    canvas.outline(&outline, None, Stroke::plain(0.8, Colour::BLACK));
    canvas.page(block.name.clone(), words.front_alt(&block.name))
}

/// The block from the front, with the marks of its units and the numbers of its sections.
#[must_use]
pub fn unit_map(_model: &Model, block: &Block, width: Length, words: &Words) -> Page {
    let wide = width.to_inches();
    let mut canvas = Canvas::new(block.outline.bounds(), Transform::IDENTITY, wide, 0.03, wide * 1.4);
    for place in &block.placements {
        let Some(variant) = block.variants.get(place.variant) else { continue };
        let unit = block.unit_of(variant);
        for (k, section) in unit.sections.iter().enumerate() {
            let area = place.transform.apply_to_polygon(&section.polygon);
            canvas.outline(&area, None, Stroke::plain(0.4, Colour::grey(120)));
            let name = format!("{}{}", variant.mark, k + 1);
            canvas.name(&area, &name, Weight::Regular, &[9.0, 8.0, 7.0, 6.0, 5.0, 4.0], false);
        }
    }
    for place in &block.placements {
        canvas.outline(&place.outline, None, Stroke::plain(1.3, Colour::BLACK));
    }
    canvas.page(block.name.clone(), words.map_alt(&block.name))
}

/// A foundation, or one of its sections.
#[derive(Clone, Copy)]
pub struct View<'m> {
    /// The model.
    pub model: &'m Model,
    /// The block.
    pub block: &'m Block,
    /// The foundation.
    pub variant: &'m Variant,
    /// How wide the figure is.
    pub width: Length,
    /// The words.
    pub words: &'m Words,
}

impl View<'_> {
    fn name(&self, section: usize) -> String {
        format!("{}{}", self.variant.mark, section + 1)
    }

    fn canvas(&self, orientation: Transform) -> Canvas {
        let unit = self.block.unit_of(self.variant);
        let wide = self.width.to_inches();
        // Room for every cut that is laid: the same for all steps of the unit, so that the figures can be compared.
        let cuts = self.variant.cuts.iter().flat_map(|cut| cut.corners);
        let shown = unit.cutting_line.corners().iter().copied().chain(cuts).map(|corner| orientation.apply(corner));
        let (from, to) = shown.fold(
            (Point::new(f64::INFINITY, f64::INFINITY), Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY)),
            |(from, to), p| (Point::new(from.x.min(p.x), from.y.min(p.y)), Point::new(to.x.max(p.x), to.y.max(p.y))),
        );
        Canvas::new((from, to), orientation, wide, 0.05, wide * 0.9)
    }

    /// Sections up to this one as they are sewn, seen from the front; the newest one outlined.
    #[must_use]
    pub fn step_front(&self, section: usize) -> Page {
        let unit = self.block.unit_of(self.variant);
        let mut canvas = self.canvas(hand::front(self.variant));
        canvas.outline(&unit.cutting_line, None, Stroke::plain(0.4, FAINT).dashed(&[3.0, 2.0]));
        for later in unit.sections.iter().skip(section + 1) {
            canvas.outline(&later.polygon, None, Stroke::plain(0.4, FAINT));
        }
        for (k, sewn) in unit.sections.iter().enumerate().take(section + 1) {
            if let Some(&fabric) = self.variant.fabrics.get(k) {
                canvas.fabric(self.model, fabric, &sewn.polygon);
            }
        }
        for (k, sewn) in unit.sections.iter().enumerate().take(section + 1) {
            let pen =
                if k == section { Stroke::plain(1.4, ACCENT).rounded() } else { Stroke::plain(0.4, Colour::grey(60)) };
            canvas.outline(&sewn.polygon, None, pen);
        }
        if let Some(newest) = unit.sections.get(section) {
            canvas.name(&newest.polygon, &self.name(section), Weight::Bold, &[8.0, 7.0, 6.0, 5.0], true);
        }
        canvas.page(self.name(section), self.words.figure_front_alt(self.name(section)))
    }

    /// The printed side while a section is sewn on: what is there, the line in bold, the cut beneath dashed.
    #[must_use]
    pub fn step_printed(&self, section: usize) -> Page {
        let unit = self.block.unit_of(self.variant);
        let mut canvas = self.canvas(hand::printed(self.variant));
        canvas.outline(&unit.cutting_line, Some(Colour::WHITE), Stroke::plain(0.4, FAINT).dashed(&[3.0, 2.0]));
        for sewn in unit.sections.iter().take(section) {
            canvas.outline(&sewn.polygon, Some(PALE), Stroke::plain(0.3, FAINT));
        }
        for other in &unit.sections {
            canvas.outline(&other.polygon, None, Stroke::plain(0.4, FAINT));
        }
        canvas.outline(&unit.outline, None, Stroke::plain(0.8, Colour::grey(90)));
        let cut = self.variant.cuts.iter().find(|cut| cut.section == section);
        if let (Some(cut), Some(current)) = (cut, unit.sections.get(section)) {
            if let Some(cover) = self.cover(cut) {
                canvas.outline(&cover, None, Stroke::plain(0.8, ACCENT).dashed(&[3.5, 2.0]));
            }
            if let Some(seam) = current.seam {
                canvas.line(seam, Stroke::plain(2.2, Colour::BLACK));
                self.overhang(&mut canvas, cut, seam);
            }
        }
        for (k, other) in unit.sections.iter().enumerate() {
            let weight = if k == section { Weight::Bold } else { Weight::Regular };
            canvas.name(&other.polygon, &self.name(k), weight, &[7.0, 6.0, 5.0, 4.0], false);
        }
        let name = self.name(section);
        let alt = if section == 0 {
            self.words.figure_printed_first_alt(&name)
        } else {
            self.words.figure_printed_alt(&name)
        };
        canvas.page(name, alt)
    }

    fn cover(&self, cut: &Cut) -> Option<Polygon> {
        Polygon::try_new(&cut.corners, Tolerance::of_extent(self.block.width.max(self.block.height).to_inches())).ok()
    }

    /// Marks how far the cut reaches past the ends of the line.
    fn overhang(&self, canvas: &mut Canvas, cut: &Cut, seam: Segment) {
        let (Some([left, right]), Some(line)) = (cut.overhang, seam.line()) else { return };
        let [start, end] = if self.variant.mirrored { [right, left] } else { [left, right] };
        for (from, reach) in [(seam.start, -start.to_inches()), (seam.end, end.to_inches())] {
            let tip = from + line.direction() * reach;
            canvas.line(Segment::new(from, tip), Stroke::plain(1.0, ACCENT));
            let tick = line.direction().quarter_turned() * (0.05 / canvas.scale);
            canvas.line(Segment::new(tip + tick, tip + -tick), Stroke::plain(1.0, ACCENT));
        }
    }

    /// The foundation, smaller than it is, for a screen.
    #[must_use]
    pub fn foundation_reduced(&self) -> Page {
        let unit = self.block.unit_of(self.variant);
        let mut canvas = self.canvas(hand::printed(self.variant));
        canvas.outline(&unit.cutting_line, None, Stroke::plain(0.5, Colour::grey(120)).dashed(&[3.0, 2.0]));
        for (k, section) in unit.sections.iter().enumerate() {
            canvas.outline(&section.polygon, None, Stroke::plain(0.5, Colour::BLACK));
            canvas.name(&section.polygon, &self.name(k), Weight::Regular, &[9.0, 8.0, 7.0, 6.0, 5.0, 4.0], false);
        }
        canvas.outline(&unit.outline, None, Stroke::plain(1.0, Colour::BLACK));
        let (width, height) = (canvas.width, canvas.height);
        canvas.height = height + 0.16;
        canvas.text(Point::new(width / 2.0, height + 0.06), &self.words.not_to_size(), 6.5, ACCENT);
        canvas.page(self.variant.mark.clone(), self.words.foundation_alt(&self.variant.mark))
    }
}

/// Two groups a little apart, the seam between them, its match points and tips, and which way it is pressed.
#[must_use]
pub fn join_front(model: &Model, block: &Block, join: &Join, width: Length, words: &Words) -> Page {
    let wide = width.to_inches();
    let apart = block.width.max(block.height).to_inches() * 0.05;
    let Some(line) = join.seam.line() else {
        return Canvas::new(block.outline.bounds(), Transform::IDENTITY, wide, 0.05, wide)
            .page(String::new(), String::new());
    };
    let right_way = line.direction().quarter_turned();
    let moved = |place: usize| {
        let sign = if join.right.contains(&place) { 1.0 } else { -1.0 };
        Transform::shift(right_way * (sign * apart / 2.0))
    };
    let places: Vec<usize> = join.left.iter().chain(&join.right).copied().collect();
    let outlines = places.iter().map(|&place| moved(place).apply_to_polygon(&block.placements[place].outline));
    let bounds = outlines
        .map(|outline| outline.bounds())
        .reduce(|(a, b), (c, d)| (Point::new(a.x.min(c.x), a.y.min(c.y)), Point::new(b.x.max(d.x), b.y.max(d.y))));
    let Some(bounds) = bounds else { return block_front(model, block, width, words) };
    let mut canvas = Canvas::new(bounds, Transform::IDENTITY, wide, 0.06, wide * 0.8);
    for &place in &places {
        let placement = &block.placements[place];
        let variant = block.variant_at(place);
        for (section, &fabric) in block.unit_of(variant).sections.iter().zip(&variant.fabrics) {
            let area = placement.transform.then(moved(place)).apply_to_polygon(&section.polygon);
            canvas.fabric(model, fabric, &area);
            canvas.outline(&area, None, Stroke::plain(0.25, Colour::grey(90)));
        }
        let outline = moved(place).apply_to_polygon(&placement.outline);
        canvas.outline(&outline, None, Stroke::plain(0.7, Colour::BLACK));
        canvas.name(&outline, &variant.mark, Weight::Bold, &[9.0, 8.0, 7.0, 6.0], true);
    }
    canvas.line(join.seam, Stroke::plain(0.6, ACCENT).dashed(&[3.0, 2.0]));
    let dot = |canvas: &mut Canvas, at: Point, fill: Colour| {
        let at = canvas.map.apply(at);
        canvas.items.push(Path::circle(at, 0.035, Some(fill), Some(Stroke::plain(0.9, ACCENT)), Layer::Marks).into());
    };
    for point in &join.match_points {
        dot(&mut canvas, point.at, ACCENT);
    }
    for &tip in &join.tips {
        dot(&mut canvas, tip, Colour::WHITE);
    }
    pressing_arrow(&mut canvas, join, right_way);
    let name =
        |places: &[usize]| places.iter().map(|&p| block.placements[p].name.as_str()).collect::<Vec<_>>().join(", ");
    let number = block.joins.iter().position(|other| other == join).map_or(0, |index| index + 1);
    let alt = words.figure_join_alt(number, name(&join.left), name(&join.right));
    canvas.page(alt.clone(), alt)
}

/// An arrow across the seam toward the side under which the allowances are pressed; both ways where they are pressed open.
fn pressing_arrow(canvas: &mut Canvas, join: &Join, right_way: Vector) {
    let middle = canvas.map.apply(join.seam.start.along(join.seam.end, 0.32));
    let ways: &[f64] = match join.press {
        Press::Left => &[-1.0],
        Press::Right => &[1.0],
        Press::Open => &[-1.0, 1.0],
    };
    for sign in ways {
        let way = right_way * *sign;
        let tip = middle + way * 0.2;
        let barb = |side: f64| Segment::new(tip, tip + way * -0.08 + way.quarter_turned() * (side * 0.05));
        let lines = [Segment::new(middle, tip), barb(1.0), barb(-1.0)];
        canvas.items.push(Path::lines(lines, Stroke::plain(3.0, Colour::WHITE).rounded(), Layer::Marks).into());
        canvas.items.push(Path::lines(lines, Stroke::plain(1.2, ACCENT).rounded(), Layer::Marks).into());
    }
}
