//! A figure being drawn: what is shown, carried to the page, and the labels that find room on it.

use super::broken::Broken;
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
    /// Lines that labels cross only on a white ground, in inches on the page.
    pub crossed: Obstacles,
    /// What is shown of the model.
    pub broken: Broken,
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
        Self {
            map,
            scale,
            width: room.width,
            height,
            items: Vec::new(),
            taken: Obstacles::default(),
            crossed: Obstacles::default(),
            broken: Broken::default(),
        }
    }

    /// Where a polygon of the model lies on the page: the largest part of it that is shown, none where none is.
    pub fn area(&self, polygon: &Polygon) -> Option<Polygon> {
        self.areas(polygon).into_iter().max_by(|a, b| a.area().total_cmp(&b.area()))
    }

    /// All that is shown of a polygon of the model, on the page.
    pub fn areas(&self, polygon: &Polygon) -> Vec<Polygon> {
        self.broken.areas(polygon).iter().map(|shown| self.map.apply_to_polygon(shown)).collect()
    }

    /// Draws polygons that do not overlap as one path.
    pub fn outlines<'p>(
        &mut self,
        polygons: impl IntoIterator<Item = &'p Polygon>,
        fill: Option<Colour>,
        stroke: Option<Stroke>,
    ) {
        let subpaths: Vec<Subpath> = polygons
            .into_iter()
            .flat_map(|polygon| self.areas(polygon))
            .filter_map(|area| Subpath::round_corners(area.corners()))
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
        let shown: Vec<Segment> = self.lines_of(segment);
        if !shown.is_empty() {
            self.items.push(Path::lines(shown, stroke, Layer::Seams).into());
        }
    }

    /// Draws a seam within a pieced section: thin dashes, which labels cross only on a white ground.
    pub fn inner_seam(&mut self, seam: Segment, width: f64, colour: Colour) {
        self.line(seam, Stroke::plain(width, colour).dashed(&[2.5, 1.5]));
        for Segment { start, end } in self.lines_of(seam) {
            self.crossed.add(&[start, end]);
        }
    }

    /// All that is shown of a line of the model, on the page.
    pub fn lines_of(&self, segment: Segment) -> Vec<Segment> {
        self.broken.lines(segment).into_iter().map(|shown| self.map.apply_to_segment(shown)).collect()
    }

    /// Dots where areas of the model are broken off: no edges of theirs.
    pub fn draw_breaks(&mut self, areas: &[&Polygon], colour: Colour) {
        let edges = self.broken.edges(areas).into_iter().map(|edge| self.map.apply_to_segment(edge)).collect();
        self.dots(edges, colour);
    }

    /// Dots along edges of the page at which things are broken off.
    pub fn dots(&mut self, edges: Vec<Segment>, colour: Colour) {
        if !edges.is_empty() {
            let ground = Path::lines(edges.clone(), Stroke::plain(3.0, Colour::WHITE), Layer::Seams);
            let dots = Path::lines(edges, Stroke::plain(0.9, colour).dashed(&[0.9, 2.1]), Layer::Seams);
            self.items.extend([ground.into(), dots.into()]);
        }
    }

    /// Lets labels cross the edges of an area of the model only on a white ground.
    pub fn ground_over(&mut self, polygon: &Polygon) {
        for edge in self.areas(polygon).iter().flat_map(Polygon::edges).collect::<Vec<_>>() {
            self.crossed.add(&[edge.start, edge.end]);
        }
    }

    /// Draws areas of the model in their fabrics, each fabric as one area; `areas` are polygons with the index of their fabric.
    pub fn fabrics(&mut self, model: &Model, areas: &[(usize, Polygon)]) {
        let open = self.openness();
        for (index, fabric) in model.fabrics.iter().enumerate() {
            let of_this: Vec<Polygon> =
                areas.iter().filter(|(of, _)| *of == index).flat_map(|(_, area)| self.areas(area)).collect();
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
        let Some(area) = self.area(polygon) else { return false };
        let turns = [0.0, upright(length_direction(&area))];
        // Clear of all lines in any size, rather than across one.
        [true, false].into_iter().any(|clear| {
            sizes.iter().flat_map(|&points| turns.map(|turn| (points, turn))).any(|(points, turn)| {
                let label = Label::words(words, Length::points(points), weight, Colour::BLACK);
                let spot = self.spot(&area, &label, turn, clear);
                spot.is_some_and(|centre| self.put(&label, centre, turn, ground || !clear))
            })
        })
    }

    /// Writes a mark into an area of the model: level, on a white ground, the first of these labels that fits and after which `still` holds of
    /// what is taken.
    pub fn mark(
        &mut self,
        polygon: &Polygon,
        labels: impl IntoIterator<Item = Label>,
        still: impl Fn(&Self) -> bool,
    ) -> bool {
        let Some(area) = self.area(polygon) else { return false };
        labels.into_iter().any(|label| {
            let (before, drawn) = (self.taken.clone(), self.items.len());
            let spot = self.spot(&area, &label, 0.0, false);
            let put = spot.is_some_and(|centre| self.put(&label, centre, 0.0, true));
            let good = put && still(self);
            if put && !good {
                self.taken = before;
                self.items.truncate(drawn);
            }
            good
        })
    }

    /// Writes words into an area of the model along its lower or its upper edge, on a white ground, in the largest of these sizes that fits.
    pub fn name_along_edge(&mut self, polygon: &Polygon, words: &str, sizes: &[f64]) -> bool {
        let Some(area) = self.area(polygon) else { return false };
        let (from, to) = area.bounds();
        let tolerance = Tolerance::of_extent(self.width);
        sizes.iter().any(|&points| {
            let label = Label::words(words, Length::points(points), Weight::Regular, Colour::BLACK);
            let off = label.height / 2.0 + 0.03;
            [to.y - off, from.y + off].into_iter().any(|y| {
                let centre = Point::new(f64::midpoint(from.x, to.x), y);
                let corners = box_at(centre, label.width + 0.06, label.height + 0.03, 0.0);
                let within = corners.iter().all(|&corner| area.holds(corner, tolerance) == Some(true));
                within && self.put(&label, centre, 0.0, true)
            })
        })
    }

    /// Whether words would find room in an area of the model.
    pub fn has_room(&self, polygon: &Polygon, words: &str, points: f64) -> bool {
        let Some(area) = self.area(polygon) else { return false };
        let label = Label::words(words, Length::points(points), Weight::Regular, Colour::BLACK);
        let turns = [0.0, upright(length_direction(&area))];
        turns.into_iter().any(|turn| self.spot(&area, &label, turn, false).is_some())
    }

    /// Where a label fits into an area of the page clear of others, and of the lines that it may cross on a white ground only if it must: where it stays farthest from the area's edges,
    /// or else near there.
    fn spot(&self, area: &Polygon, label: &Label, turn: f64, clear: bool) -> Option<Point> {
        let (width, height) = (label.width + 0.03, label.height + 0.01);
        let best = fit(area, width, height, turn, 0.006)?;
        let is_free =
            |corners: &[Point]| self.is_free(corners, 0.015) && (!clear || self.crossed.are_clear_of(corners, 0.012));
        if is_free(&box_at(best.centre, width, height, turn)) {
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
            if within && is_free(&corners) {
                found = Some((distance, centre));
            }
        }
        found.map(|(_, centre)| centre)
    }

    /// Names an area of the model across its edges, on white, where nothing else is named near it: better than no name.
    pub fn name_over(&mut self, area: &Polygon, words: &str) {
        let Some(area) = self.area(area) else { return };
        let label = Label::words(words, Length::points(5.0), Weight::Bold, Colour::BLACK);
        let ground = label.box_at(area.centroid(), 0.0);
        self.items.push(Path::area(&ground, Some(Colour::WHITE), None, Layer::Marks).into());
        label.draw(area.centroid(), 0.0, &mut self.items);
    }

    /// Names an area of the model from beside it, with a thin line into it: outside of `whole` where that is near, otherwise wherever it is free.
    pub fn leader(&mut self, area: &Polygon, whole: &Polygon, words: &str, weight: Weight) -> bool {
        let Some(area) = self.area(area) else { return false };
        let whole = self.areas(whole);
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
                    let beside = !outside
                        || corners.iter().all(|&c| whole.iter().all(|part| part.holds(c, tolerance) == Some(false)));
                    let clear = beside && self.is_free(&corners, 0.026) && self.is_free(&[home, end], 0.004);
                    clear.then_some((home, centre, end))
                });
                let Some((home, centre, end)) = found else { continue };
                let line = Path::lines([Segment::new(home, end)], Stroke::plain(0.4, Colour::grey(60)), Layer::Marks);
                let dot = Path::circle(home, 0.012, Some(Colour::grey(60)), None, Layer::Marks);
                let crosses = !self.crossed.are_clear_of(&label.box_at(centre, 0.0), 0.012);
                self.put(&label, centre, 0.0, !outside || crosses);
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
