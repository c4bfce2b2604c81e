//! A figure being drawn: what is shown, carried to the page, and the labels that find room on it.

use crate::geometry::{Angle, Length, Point, Polygon, Segment, Tolerance, Transform, Vector};
use crate::model::Model;
use crate::packet::hatch;
use crate::packet::label::{Label, Obstacles, box_at, fit, length_direction, upright};
use crate::packet::page::{Colour, FillRule, Item, Layer, Page, Path, Stroke, Subpath, Weight};

/// How near the edge of a figure type may come, in inches.
const EDGE: f64 = 0.01;

/// A figure being drawn: a frame of the model carried to the page.
pub(super) struct Canvas {
    /// From the frame of the model to the page.
    pub map: Transform,
    /// Inches on the page for an inch of the model.
    pub scale: f64,
    /// Its width in inches.
    pub width: f64,
    /// Its height in inches.
    pub height: f64,
    /// What is drawn so far.
    pub items: Vec<Item>,
    /// What labels keep clear of, in inches on the page.
    pub taken: Obstacles,
}

/// What a canvas leaves free, in inches on the page.
#[derive(Clone, Copy)]
pub(super) struct Room {
    /// How wide the figure is.
    pub width: f64,
    /// How high it may become.
    pub most_high: f64,
    /// What stays free at its left and right.
    pub beside: f64,
    /// What stays free at its top and bottom.
    pub above: f64,
}

impl Canvas {
    /// A page on which `shown` (already in the orientation of the page) fills what the borders leave.
    pub fn new(shown: (Point, Point), orientation: Transform, room: Room) -> Self {
        let (from, to) = shown;
        let (wide, high) = ((to.x - from.x).max(1e-6), (to.y - from.y).max(1e-6));
        let across = (room.width - 2.0 * room.beside).max(0.1) / wide;
        let scale = across.min((room.most_high - 2.0 * room.above).max(0.1) / high);
        let left = (room.width - wide * scale) / 2.0;
        let map = orientation
            .then(Transform::shift(-from.to_vector()))
            .then(Transform::scale(scale))
            .then(Transform::shift(Vector::new(left, room.above)));
        let height = high * scale + 2.0 * room.above;
        Self { map, scale, width: room.width, height, items: Vec::new(), taken: Obstacles::default() }
    }

    /// Where a polygon of the model lies on the page.
    pub fn area(&self, polygon: &Polygon) -> Polygon {
        self.map.apply_to_polygon(polygon)
    }

    /// Draws polygons that do not overlap as one path.
    pub fn outlines<'p>(
        &mut self,
        polygons: impl IntoIterator<Item = &'p Polygon>,
        fill: Option<Colour>,
        stroke: Option<Stroke>,
    ) {
        let map = self.map;
        let subpaths: Vec<Subpath> = polygons
            .into_iter()
            .filter_map(|polygon| Subpath::round_corners(map.apply_to_polygon(polygon).corners()))
            .collect();
        if !subpaths.is_empty() {
            self.items.push(Path { subpaths, fill, rule: FillRule::EvenOdd, stroke, layer: Layer::Seams }.into());
        }
    }

    /// Draws a polygon.
    pub fn outline(&mut self, polygon: &Polygon, fill: Option<Colour>, stroke: Stroke) {
        self.outlines([polygon], fill, Some(stroke));
    }

    /// Draws a line.
    pub fn line(&mut self, segment: Segment, stroke: Stroke) {
        let segment = self.map.apply_to_segment(segment);
        self.items.push(Path::lines([segment], stroke, Layer::Seams).into());
    }

    /// Draws areas of the model in their fabrics, each fabric as one area; `areas` are polygons with the index of their fabric.
    pub fn fabrics(&mut self, model: &Model, areas: &[(usize, Polygon)]) {
        let open = self.openness();
        for (index, fabric) in model.fabrics.iter().enumerate() {
            let of_this: Vec<Polygon> =
                areas.iter().filter(|(of, _)| *of == index).map(|(_, area)| self.area(area)).collect();
            hatch::areas(&of_this, fabric.mark, fabric.colour, open, &mut self.items);
        }
    }

    /// How much wider than usual hatching stands: a little in small figures, whose lines would run together.
    pub fn openness(&self) -> f64 {
        if self.width < 2.2 { 1.15 } else { 1.0 }
    }

    /// Keeps labels clear of a convex shape of the page.
    pub fn keep_clear(&mut self, corners: &[Point]) {
        self.taken.add(corners);
    }

    /// Whether a box lies on the page and clear of all labels.
    pub fn is_free(&self, corners: &[Point], gap: f64) -> bool {
        let within = |corner: &Point| {
            corner.x >= EDGE && corner.x <= self.width - EDGE && corner.y >= EDGE && corner.y <= self.height - EDGE
        };
        corners.iter().all(within) && self.taken.are_clear_of(corners, gap)
    }

    /// Draws a label where it is free, and keeps others away from it; whether it was.
    pub fn put(&mut self, label: &Label, centre: Point, turn: f64, ground: bool) -> bool {
        let (wider, higher) = if ground { (0.05, 0.03) } else { (0.0, 0.0) };
        let corners = box_at(centre, label.width + wider, label.height + higher, turn);
        if !self.is_free(&corners, if ground { 0.0 } else { 0.015 }) {
            return false;
        }
        if ground {
            self.items.push(Path::area(&corners, Some(Colour::WHITE), None, Layer::Marks).into());
        }
        self.keep_clear(&corners);
        label.draw(centre, turn, &mut self.items);
        true
    }

    /// Writes words into an area of the model, in the largest of these sizes that fits; on a white ground where they must show on any fabric.
    pub fn name(&mut self, polygon: &Polygon, words: &str, weight: Weight, sizes: &[f64], ground: bool) -> bool {
        let area = self.area(polygon);
        sizes.iter().any(|&points| {
            let label = Label::words(words, Length::points(points), weight, Colour::BLACK);
            let turns = [0.0, upright(length_direction(&area))];
            turns.into_iter().any(|turn| self.put_into(&area, &label, turn, ground))
        })
    }

    /// Writes a mark into an area of the model: bold, level, on a white ground, in the largest of these sizes that fits and after which
    /// `still` holds of what is taken.
    pub fn mark(&mut self, polygon: &Polygon, words: &str, sizes: &[f64], still: impl Fn(&Self) -> bool) -> bool {
        let area = self.area(polygon);
        sizes.iter().any(|&points| {
            let label = Label::words(words, Length::points(points), Weight::Bold, Colour::BLACK);
            let (before, drawn) = (self.taken.clone(), self.items.len());
            let put = self.put_into(&area, &label, 0.0, true);
            let good = put && still(self);
            if put && !good {
                self.taken = before;
                self.items.truncate(drawn);
            }
            good
        })
    }

    /// Whether words would find room in an area of the model.
    pub fn has_room(&self, polygon: &Polygon, words: &str, points: f64) -> bool {
        let area = self.area(polygon);
        let label = Label::words(words, Length::points(points), Weight::Regular, Colour::BLACK);
        [0.0, upright(length_direction(&area))].into_iter().any(|turn| self.spot(&area, &label, turn).is_some())
    }

    fn put_into(&mut self, area: &Polygon, label: &Label, turn: f64, ground: bool) -> bool {
        self.spot(area, label, turn).is_some_and(|centre| self.put(label, centre, turn, ground))
    }

    /// Where a label fits into an area of the page clear of others: in its middle, or else where it stays farthest from that area's edges.
    pub fn spot(&self, area: &Polygon, label: &Label, turn: f64) -> Option<Point> {
        let (width, height) = (label.width + 0.03, label.height + 0.01);
        let best = fit(area, width, height, turn, 0.006)?;
        if self.is_free(&box_at(best.centre, width, height, turn), 0.015) {
            return Some(best.centre);
        }
        let (from, to) = area.bounds();
        let tolerance = Tolerance::of_extent((to.x - from.x).max(to.y - from.y));
        let steps = 14;
        let mut found: Option<(f64, Point)> = None;
        for (i, j) in (1..steps).flat_map(|i| (1..steps).map(move |j| (i, j))) {
            let (x, y) = (f64::from(i) / f64::from(steps), f64::from(j) / f64::from(steps));
            let centre = Point::new(from.x + (to.x - from.x) * x, from.y + (to.y - from.y) * y);
            let distance = centre.distance(best.centre);
            if found.is_some_and(|(least, _)| least <= distance) {
                continue;
            }
            let corners = box_at(centre, width, height, turn);
            let within = corners.iter().all(|&corner| area.holds(corner, tolerance) == Some(true));
            if within && self.is_free(&corners, 0.015) {
                found = Some((distance, centre));
            }
        }
        found.map(|(_, centre)| centre)
    }

    /// Names an area of the model from beside it, with a thin line into it: outside of `whole` where that is near, otherwise wherever it is free.
    pub fn leader(&mut self, area: &Polygon, whole: &Polygon, words: &str, weight: Weight) -> bool {
        let (area, whole) = (self.area(area), self.area(whole));
        let middle = area.centroid();
        // The line may begin anywhere well within the area, should its middle lie beneath another label.
        let homes: Vec<Point> = std::iter::once(middle)
            .chain([0.4, 0.75].iter().flat_map(|&part| area.corners().iter().map(move |&c| middle.along(c, part))))
            .filter(|&home| self.is_free(&[home, home], 0.012))
            .collect();
        let tolerance = Tolerance::of_extent(self.width);
        // Near and outside, then near, then farther away.
        let tries = [(true, 1..=7), (false, 1..=7), (true, 8..=16), (false, 8..=16)];
        for points in [6.0, 5.0, 4.5] {
            let label = Label::words(words, Length::points(points), weight, Colour::BLACK);
            for (outside, rings) in tries.clone() {
                let mut spots = rings.flat_map(|ring| {
                    homes.iter().flat_map(move |&home| (0..36).map(move |direction| (home, f64::from(ring), direction)))
                });
                let found = spots.find_map(|(home, ring, direction)| {
                    let way = Vector::at_bearing(Angle::degrees(f64::from(direction) * 10.0));
                    let half = label.reach(way, 0.0);
                    let centre = home + way * (half + 0.06 * ring);
                    let corners = label.box_at(centre, 0.0);
                    let end = centre - way * (half + 0.02);
                    let beside =
                        !outside || corners.iter().all(|&corner| whole.holds(corner, tolerance) == Some(false));
                    let clear = beside && self.is_free(&corners, 0.026) && self.is_free(&[home, end], 0.004);
                    clear.then_some((home, centre, end))
                });
                let Some((home, centre, end)) = found else { continue };
                let line = Path::lines([Segment::new(home, end)], Stroke::plain(0.4, Colour::grey(60)), Layer::Marks);
                let dot = Path::circle(home, 0.012, Some(Colour::grey(60)), None, Layer::Marks);
                self.put(&label, centre, 0.0, !outside);
                self.items.extend([line.into(), dot.into()]);
                self.keep_clear(&[home, end]);
                return true;
            }
        }
        false
    }

    /// Words below the drawing, as far as the width takes them.
    pub fn caption(&mut self, words: &str, colour: Colour) {
        let sizes = [7.0, 6.5, 6.0, 5.5, 5.0, 4.5];
        let labels = sizes.map(|points| Label::words(words, Length::points(points), Weight::Regular, colour));
        let Some(label) = labels.into_iter().find(|label| label.width <= self.width - 0.04) else { return };
        let centre = Point::new(self.width / 2.0, self.height + 0.06);
        self.height += 0.16;
        self.put(&label, centre, 0.0, false);
    }

    /// The finished figure.
    pub fn page(self, title: String, description: String) -> Page {
        Page {
            width: Length::inches(self.width),
            height: Length::inches(self.height),
            title,
            description,
            items: self.items,
        }
    }
}

/// The upright rectangle round some places; a point at the origin for none.
pub(super) fn bounds(places: impl IntoIterator<Item = Point>) -> (Point, Point) {
    let round = |found: Option<(Point, Point)>, p: Point| {
        let (a, b) = found.unwrap_or((p, p));
        Some((Point::new(a.x.min(p.x), a.y.min(p.y)), Point::new(b.x.max(p.x), b.y.max(p.y))))
    };
    places.into_iter().fold(None, round).unwrap_or_default()
}
