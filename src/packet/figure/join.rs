//! A join from the front: its two sides a little apart, what is pinned and matched, how far along, and which way it is pressed.

use super::canvas::{Canvas, Room, bounds};
use super::{ACCENT, EDGE, name_sizes, told};
use crate::geometry::{Length, Line, Point, Polygon, Segment, Side, Tolerance, Transform, Vector};
use crate::model::{Block, Join, JoinKind, Model, Pass, Placement, Press, Stretch, Variant};
use crate::packet::join_end::{measured_from, other_end};
use crate::packet::label::{Label, box_at, upright};
use crate::packet::measure::Measures;
use crate::packet::page::{Colour, FillRule, Layer, Page, Path, Stroke, Subpath, Weight};
use crate::packet::words::Words;

/// How far apart the two sides are drawn, in inches on the page.
const GAP: f64 = 0.26;
/// How long a pressing arrow reaches into its side, in inches on the page.
const ARROW: f64 = 0.16;
/// How near the tip of a pressing arrow may come to the edge of the figure, in inches: half its white ground.
const BORDER: f64 = 0.025;
/// A side that is deeper than so many times the seam is long is shown no deeper than that: else there would be little to see of the seam.
const DEEP: f64 = 1.5;
/// The radius of the dots at points to match, in inches on the page.
const DOT: f64 = 0.032;
/// The radius of the ring round the point of an inset corner, in inches on the page.
const RING: f64 = 0.07;

/// Two groups a little apart, the seam between them, its match points and tips, and which way it is pressed.
///
/// Lengths along the seam are told from the end that the step names. A side much deeper than the seam is long is broken off, along dots. What is joined later or elsewhere is not drawn.
/// Of a partial seam, what stays open is dashed. A pass that is none of the block gives an empty figure. O(n²) in the sections drawn.
#[must_use]
pub fn join_front(model: &Model, block: &Block, pass: Pass, width: Length, words: &Words) -> Page {
    let number = pass.join + 1;
    let title = match pass.stretch {
        Stretch::Whole => words.figure_join_title(number),
        Stretch::First => words.figure_join_first_title(number),
        Stretch::Rest => words.figure_join_rest_title(number),
    };
    let shown = block.joins.get(pass.join).map(|join| Shown { block, join, pass });
    let description = shown.as_ref().map_or_else(String::new, |shown| Told { model, shown, words }.text());
    let Some(drawing) = shown.and_then(|shown| Exploded::new(model, shown, width.to_inches())) else {
        let room = Room { width: width.to_inches(), most_high: width.to_inches(), beside: 0.05, above: 0.05 };
        return Canvas::new(block.outline.bounds(), Transform::IDENTITY, room).page(title, description);
    };
    drawing.draw(Measures::new(words, model.units)).page(title, description)
}

/// A join of which is shown what is sewn at one time.
struct Shown<'m> {
    block: &'m Block,
    join: &'m Join,
    pass: Pass,
}

impl<'m> Shown<'m> {
    /// What lies on both sides by then, with the side.
    fn places(&self) -> impl Iterator<Item = (usize, Side)> + 'm {
        let join = self.join;
        let absent: &[usize] = match &join.kind {
            JoinKind::Partial { last, .. } if self.pass.stretch == Stretch::First => last,
            _ => &[],
        };
        let left = join.left.iter().map(|&place| (place, Side::Left));
        left.chain(join.right.iter().map(|&place| (place, Side::Right))).filter(|(place, _)| !absent.contains(place))
    }

    fn side(&self, wanted: Side) -> Vec<usize> {
        self.places().filter(|(_, side)| *side == wanted).map(|(place, _)| place).collect()
    }

    /// What of the seam is sewn now.
    fn sewn(&self) -> Segment {
        match (&self.join.kind, self.pass.stretch) {
            (JoinKind::Partial { first, .. }, Stretch::First) => *first,
            (JoinKind::Partial { first, .. }, _) => Segment::new(first.end, other_end(self.join, first.start)),
            _ => self.join.seam,
        }
    }

    /// Whether a point of the seam is sewn now.
    fn is_sewn(&self, point: Point) -> bool {
        let JoinKind::Partial { first, .. } = self.join.kind else { return true };
        (first.start.distance(point) <= first.length()) == (self.pass.stretch == Stretch::First)
    }

    /// The match points and the tips that are sewn now.
    fn points(&self) -> [Vec<Point>; 2] {
        let matches = self.join.match_points.iter().map(|point| point.at).filter(|&at| self.is_sewn(at));
        [matches.collect(), self.join.tips.iter().copied().filter(|&tip| self.is_sewn(tip)).collect()]
    }
}

/// A join being drawn.
struct Exploded<'m> {
    model: &'m Model,
    block: &'m Block,
    join: &'m Join,
    shown: Shown<'m>,
    canvas: Canvas,
    /// Toward the right side, of length 1; the same on the page as in the block.
    toward_right: Vector,
    /// The seam on the page, half way between its two edges.
    seam: Segment,
    /// Where the left and the right side are broken off, in the block's frame and directed as the seam; none for a side that is shown whole.
    breaks: [Option<Line>; 2],
    tolerance: Tolerance,
}

/// A unit that is drawn.
struct Drawn<'m> {
    placement: &'m Placement,
    variant: &'m Variant,
    /// Left or right.
    side: Side,
}

impl<'m> Exploded<'m> {
    fn new(model: &'m Model, shown: Shown<'m>, wide: f64) -> Option<Self> {
        let (block, join) = (shown.block, shown.join);
        let line = join.seam.line()?;
        let toward_right = line.direction().quarter_turned();
        let tolerance = Tolerance::of_extent(block.width.max(block.height).to_inches());
        let outlines = |wanted: Side| {
            let places = shown.places().filter(move |(_, side)| *side == wanted);
            places.filter_map(|(place, _)| block.placements.get(place)).map(|placement| &placement.outline)
        };
        let deepest = DEEP * join.seam.length();
        let broken = |wanted: Side, sign: f64| {
            let depth = |outline: &Polygon| {
                outline.corners().iter().map(|&c| line.distance_right(c) * sign).fold(0.0, f64::max)
            };
            // What would be cut off must be worth it.
            let depth = outlines(wanted).map(depth).fold(0.0, f64::max);
            (depth > deepest * 1.15).then(|| line.shifted_right(sign * deepest))
        };
        let breaks = [broken(Side::Left, -1.0), broken(Side::Right, 1.0)];
        let drawn = [Side::Left, Side::Right]
            .into_iter()
            .flat_map(|side| outlines(side).filter_map(move |outline| broken_off(outline, breaks, side, tolerance)));
        let corners: Vec<Point> = drawn.flat_map(|outline| outline.corners().to_vec()).collect();
        let room = Room {
            width: wide,
            most_high: wide,
            beside: 0.06 + toward_right.x.abs() * GAP / 2.0,
            above: 0.06 + toward_right.y.abs() * GAP / 2.0,
        };
        let canvas = Canvas::new(bounds(corners), Transform::IDENTITY, room);
        let seam = canvas.map.apply_to_segment(join.seam);
        Some(Self { model, block, join, shown, canvas, toward_right, seam, breaks, tolerance })
    }

    /// From the middle of the gap to a side, on the page: -1 for the left one, 1 for the right one.
    fn aside(&self, side: f64) -> Vector {
        self.toward_right * (side * GAP / 2.0)
    }

    fn draw(mut self, measures: Measures<'_>) -> Canvas {
        self.draw_units();
        self.draw_edges();
        self.draw_points();
        self.draw_arrows();
        // Lengths belong to their points; names find room elsewhere too.
        self.tell_lengths(measures);
        self.name_units();
        self.canvas
    }

    /// The units that are joined.
    fn units(&self) -> Vec<Drawn<'m>> {
        let block = self.block;
        let drawn = |(place, side): (usize, Side)| {
            let placement = block.placements.get(place)?;
            Some(Drawn { placement, variant: block.variants.get(placement.variant)?, side })
        };
        self.shown.places().filter_map(drawn).collect()
    }

    /// An area of the block as it is shown on its side: moved apart, and broken off where that side is too deep.
    fn shown(&self, area: &Polygon, side: Side) -> Option<Polygon> {
        let apart = self.aside(if side == Side::Left { -1.0 } else { 1.0 }) * (1.0 / self.canvas.scale);
        let kept = broken_off(area, self.breaks, side, self.tolerance)?;
        Some(Transform::shift(apart).apply_to_polygon(&kept))
    }

    fn draw_units(&mut self) {
        let mut sections: Vec<(usize, Polygon)> = Vec::new();
        let mut outlines: Vec<Polygon> = Vec::new();
        for Drawn { placement, variant, side } in self.units() {
            for (fabric, area) in self.block.unit_of(variant).areas(variant) {
                let area = placement.transform.apply_to_polygon(area);
                sections.extend(self.shown(&area, side).map(|area| (fabric, area)));
            }
            outlines.extend(self.shown(&placement.outline, side));
        }
        self.canvas.fabrics(self.model, &sections);
        let thin = Stroke::plain(0.25, Colour::grey(90));
        self.canvas.outlines(sections.iter().map(|(_, area)| area), None, Some(thin));
        // On a light ground, so that two units of one dark fabric are told apart.
        self.canvas.outlines(&outlines, None, Some(Stroke::plain(1.8, Colour::WHITE)));
        self.canvas.outlines(&outlines, None, Some(Stroke::plain(0.7, EDGE)));
        self.draw_breaks(&outlines);
    }

    /// Dots along the edge where a side is broken off: no edge of a unit.
    fn draw_breaks(&mut self, outlines: &[Polygon]) {
        let mut edges = Vec::new();
        for (line, sign) in self.breaks.iter().zip([-1.0, 1.0]) {
            let Some(line) = line.map(|line| line.shifted_right(sign * GAP / 2.0 / self.canvas.scale)) else {
                continue;
            };
            let ends = |edge: &Segment| {
                [edge.start, edge.end].iter().all(|&end| self.tolerance.is_zero(line.distance_right(end)))
            };
            edges.extend(
                outlines.iter().flat_map(Polygon::edges).filter(ends).map(|e| self.canvas.map.apply_to_segment(e)),
            );
        }
        self.canvas.dots(edges, EDGE);
    }

    /// Both edges in bold as far as they are sewn now, and a cross at each end that is pinned. What of a partial seam stays open is dashed, what is sewn
    /// already thin, with a bar between; the point of an inset corner gets a ring.
    fn draw_edges(&mut self) {
        let asides = [-1.0, 1.0].map(|side| self.aside(side));
        let both = |seam: Segment| asides.map(|aside| Segment::new(seam.start + aside, seam.end + aside)).to_vec();
        let mut edges = both(self.seam);
        let mut pinned = vec![self.seam.start, self.seam.end];
        if let JoinKind::Partial { first, corner, last, .. } = &self.join.kind {
            let far = self.canvas.map.apply(other_end(self.join, first.start));
            let (first, corner) = (self.canvas.map.apply_to_segment(*first), self.canvas.map.apply(*corner));
            let rest = both(Segment::new(first.end, far));
            let other = if self.shown.pass.stretch == Stretch::First {
                // The centre ends before the one that is sewn to it.
                let centre_is_left = last.iter().any(|place| self.join.left.contains(place));
                let open = [centre_is_left, !centre_is_left].map(|ends| if ends { corner } else { far });
                let open = asides.iter().zip(open).map(|(&aside, end)| Segment::new(first.end + aside, end + aside));
                (edges, pinned) = (both(first), vec![first.start]);
                Path::lines(open, Stroke::plain(1.0, Colour::BLACK).dashed(&[3.0, 2.2]), Layer::Seams)
            } else {
                (edges, pinned) = (rest, vec![far]);
                Path::lines(both(first), Stroke::plain(0.8, Colour::BLACK), Layer::Seams)
            };
            self.canvas.items.push(other.into());
            self.draw_bars(first.end);
        }
        self.canvas.items.push(Path::lines(edges, Stroke::plain(2.0, Colour::BLACK), Layer::Seams).into());
        let mut arms = Vec::new();
        for end in pinned.into_iter().flat_map(|end| asides.map(|aside| end + aside)) {
            let arm = |x: f64, y: f64| Segment::new(end - Vector::new(x, y), end + Vector::new(x, y));
            arms.extend([arm(0.04, 0.04), arm(0.04, -0.04)]);
            self.canvas.keep_clear(&box_at(end, 0.09, 0.09, 0.0));
        }
        self.canvas
            .items
            .push(Path::lines(arms.clone(), Stroke::plain(2.4, Colour::WHITE).rounded(), Layer::Marks).into());
        self.canvas.items.push(Path::lines(arms, Stroke::plain(1.2, ACCENT).rounded(), Layer::Marks).into());
        if let JoinKind::Inset { point } = self.join.kind {
            let rings = asides.map(|aside| Subpath::circle(self.canvas.map.apply(point) + aside, RING));
            let (subpaths, stroke) = (rings.to_vec(), Some(Stroke::plain(1.0, ACCENT)));
            let ring = Path { subpaths, fill: None, rule: FillRule::EvenOdd, stroke, layer: Layer::Marks };
            self.canvas.items.push(ring.into());
        }
    }

    /// A bar across both edges where stitching stops.
    fn draw_bars(&mut self, stop: Point) {
        let long = self.toward_right * (GAP * 0.22);
        let bars = [-1.0, 1.0].map(|side| {
            let at = stop + self.aside(side);
            Segment::new(at + -long, at + long)
        });
        for bar in bars {
            self.canvas.keep_clear(&[bar.start, bar.end]);
        }
        self.canvas.items.push(Path::lines(bars, Stroke::plain(1.8, ACCENT), Layer::Marks).into());
    }

    /// Filled dots on both edges where both have something to match, open ones on the edge that has a tip.
    fn draw_points(&mut self) {
        let [matches, tips] = self.shown.points();
        let matches: Vec<Point> = matches.into_iter().map(|at| self.canvas.map.apply(at)).collect();
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
        let open: Vec<Point> = tips
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
        let near = self.tolerance;
        let ends_there = |places: &[usize]| {
            places.iter().filter_map(|&place| self.block.placements.get(place)).any(|placement| {
                let Some(variant) = self.block.variants.get(placement.variant) else { return false };
                let mut sections = self.block.unit_of(variant).sections.iter();
                sections.any(|section| {
                    let corners = section.areas().flat_map(Polygon::corners).map(|&c| placement.transform.apply(c));
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
        for Drawn { placement, variant, side } in self.units() {
            if let Some(outline) = self.shown(&placement.outline, side) {
                let marks = told::marks(self.block, placement, variant, sizes);
                self.canvas.mark(&outline, marks, |_| true);
            }
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
        // Where its shaft passes between the dots and its head is clear of names, as near to the middle as it can.
        let toward_right = self.toward_right;
        let room = |at: Point, long: f64| {
            let head = |way: &f64| box_at(at + toward_right * (way * (GAP + long) / 2.0), long, 0.12, turn);
            std::iter::once(box_at(at, GAP, 0.05, turn)).chain(ways.iter().map(head)).collect::<Vec<_>>()
        };
        let places = (0..=18).flat_map(|step| [0.5 + f64::from(step) * 0.02, 0.5 - f64::from(step) * 0.02]);
        let sewn = self.canvas.map.apply_to_segment(self.shown.sewn());
        let at = |part: f64| sewn.start.along(sewn.end, part);
        let clear = |part: &[Point; 4]| self.canvas.taken.are_clear_of(part, 0.005);
        // A side may be so shallow that a long head would leave the figure.
        let (wide, high) = (self.canvas.width - BORDER, self.canvas.height - BORDER);
        let shown = |place: Point| place.x >= BORDER && place.x <= wide && place.y >= BORDER && place.y <= high;
        let stays = |at: Point, long: f64| ways.iter().all(|way| shown(at + toward_right * (way * (GAP / 2.0 + long))));
        // Where dots stand too close for the shaft, at least the head hides no name.
        // Where a side is very shallow, no longer than the figure is high.
        let most = ARROW.min(self.reach_of_arrows(ways));
        let tries = [(most, 0), (most.min(ARROW / 2.0), 0), (most.min(ARROW / 2.0), 1)];
        let found = tries.into_iter().find_map(|(long, skipped)| {
            let free = |at: &Point| stays(*at, long) && room(*at, long).iter().skip(skipped).all(clear);
            places.clone().map(at).find(free).map(|at| (at, long))
        });
        let (middle, long) = found.unwrap_or_else(|| {
            let long = if stays(at(0.5), ARROW / 2.0) { ARROW / 2.0 } else { ARROW / 4.0 };
            (at(0.5), most.min(long))
        });
        let mut lines = Vec::new();
        for &sign in ways {
            let way = self.toward_right * sign;
            let from = if ways.len() > 1 { middle } else { middle + way * (-GAP / 2.0 + 0.04) };
            let tip = middle + way * (GAP / 2.0 + long);
            let barb = |side: f64| Segment::new(tip, tip + way * -0.08 + way.quarter_turned() * (side * 0.05));
            lines.extend([Segment::new(from, tip), barb(1.0), barb(-1.0)]);
        }
        for part in room(middle, long) {
            self.canvas.keep_clear(&part);
        }
        let ground = Stroke::plain(3.6, Colour::WHITE).rounded();
        self.canvas.items.push(Path::lines(lines.clone(), ground, Layer::Marks).into());
        self.canvas.items.push(Path::lines(lines, Stroke::plain(1.4, ACCENT).rounded(), Layer::Marks).into());
    }

    /// How far past the gap arrows these ways may reach without leaving the figure, in inches on the page.
    fn reach_of_arrows(&self, ways: &[f64]) -> f64 {
        let middle = self.seam.start.middle(self.seam.end);
        let room = |way: &f64| {
            let way = self.toward_right * *way;
            let free = |at: f64, speed: f64, extent: f64| {
                let edge = if speed > 0.0 { extent - at } else { at };
                if speed.abs() > 1e-9 { edge / speed.abs() } else { f64::INFINITY }
            };
            free(middle.x, way.x, self.canvas.width).min(free(middle.y, way.y, self.canvas.height))
        };
        let most = ways.iter().map(room).fold(f64::INFINITY, f64::min);
        (most - GAP / 2.0 - 0.03).max(0.02)
    }

    /// How far along the seam each point lies, written in the gap beside it or, where that has no room, past one of the edges: in type as large as lets
    /// most of them find room.
    fn tell_lengths(&mut self, measures: Measures<'_>) {
        let (taken, drawn) = (self.canvas.taken.clone(), self.canvas.items.len());
        let mut best: Option<(usize, f64)> = None;
        for largest in [6.5, 5.0, 4.5] {
            let cost = self.tell_lengths_in(measures, largest);
            if cost == 0 {
                return;
            }
            if best.is_none_or(|(least, _)| cost < least) {
                best = Some((cost, largest));
            }
            self.canvas.taken = taken.clone();
            self.canvas.items.truncate(drawn);
        }
        if let Some((_, largest)) = best {
            self.tell_lengths_in(measures, largest);
        }
    }

    /// The lengths in type of at most this size; how many hide something, and how many times more that find no room.
    fn tell_lengths_in(&mut self, measures: Measures<'_>, largest: f64) -> usize {
        let (from, _) = measured_from(self.join);
        let points = self.shown.points().concat();
        let mut cost = 0;
        for point in points {
            let words = measures.length(Length::inches(from.distance(point)));
            let at = self.canvas.map.apply(point);
            // In the gap, where they hide nothing, rather than past an edge; and rather along the seam than across it.
            let tries = [
                (Beside::Along, [6.5, 6.0, 5.5]),
                (Beside::Across, [6.0, 5.5, 5.0]),
                (Beside::Along, [5.0, 4.8, 4.5]),
                (Beside::Across, [4.8, 4.5, 4.2]),
                (Beside::Past, [5.5, 5.0, 4.5]),
            ];
            let tries = tries.into_iter().flat_map(|(way, sizes)| sizes.map(|points| (way, points)));
            let mut tries = tries.filter(|&(_, points)| points <= largest);
            let found = tries.find(|&(way, points)| {
                let label = Label::words(&words, Length::points(points), Weight::Regular, ACCENT);
                let mut places = self.places_beside(at, &label, way).into_iter();
                places.any(|(centre, turn)| self.canvas.put(&label, centre, turn, way == Beside::Past))
            });
            cost += match found {
                None => 10,
                Some((Beside::Past, _)) => 1,
                Some(_) => 0,
            };
        }
        cost
    }

    /// Where the length of a point of the seam may stand, and how it is turned there.
    fn places_beside(&self, at: Point, label: &Label, way: Beside) -> Vec<(Point, f64)> {
        let Some(along) = self.seam.line().map(Line::direction) else { return Vec::new() };
        let across = self.toward_right;
        let [level, upended] = [along, across].map(|way| upright(way.angle().to_degrees()));
        match way {
            Beside::Along => {
                let aside = along * (label.width / 2.0 + 0.045);
                let deep = [0.0, -0.06, 0.06].map(|deep| at + across * deep);
                deep.into_iter().flat_map(|at| [(at + aside, level), (at + -aside, level)]).collect()
            }
            Beside::Across if label.width > GAP - 0.03 => Vec::new(),
            Beside::Across => {
                // Close to the dashes, or farther off past the dots.
                let asides = [0.022, DOT + 0.02].map(|off| along * (label.height / 2.0 + off));
                asides.into_iter().flat_map(|aside| [(at + aside, upended), (at + -aside, upended)]).collect()
            }
            Beside::Past => {
                let past = |turn: f64| across * (GAP / 2.0 + DOT + 0.03 + label.reach(across, turn));
                [level, upended].map(|turn| [(at + past(turn), turn), (at + -past(turn), turn)]).concat()
            }
        }
    }
}

/// How a length stands at its point.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Beside {
    /// In the gap, read along the seam.
    Along,
    /// In the gap, read across the seam.
    Across,
    /// On a side, past its edge.
    Past,
}

/// What of an area is shown on its side; none where all of it is broken off.
fn broken_off(area: &Polygon, breaks: [Option<Line>; 2], side: Side, tolerance: Tolerance) -> Option<Polygon> {
    match (breaks, side) {
        ([Some(line), _], Side::Left) => area.cut(line, tolerance).1,
        ([_, Some(line)], Side::Right) => area.cut(line, tolerance).0,
        _ => Some(area.clone()),
    }
}

/// A join in words.
struct Told<'m> {
    model: &'m Model,
    shown: &'m Shown<'m>,
    words: &'m Words,
}

impl Told<'_> {
    fn text(&self) -> String {
        let (words, join) = (self.words, self.shown.join);
        let (left, right) = (self.side(&self.shown.side(Side::Left)), self.side(&self.shown.side(Side::Right)));
        let mut text = vec![words.figure_join_alt(self.shown.pass.join + 1, &left, &right)];
        match (self.shown.pass.stretch, &join.kind) {
            (Stretch::First, _) => text.push(words.figure_join_first()),
            (Stretch::Rest, _) => text.push(words.figure_join_rest()),
            (_, JoinKind::Inset { .. }) => text.push(words.figure_join_point()),
            _ => {}
        }
        let end = measured_from(join).1(words);
        let [points, tips] = self.shown.points();
        if !points.is_empty() {
            text.push(words.figure_join_points(points.len(), self.places(&points), &end));
        }
        if !tips.is_empty() {
            text.push(words.figure_join_tips(tips.len(), self.places(&tips), &end));
        }
        text.push(match join.press {
            Press::Left => words.figure_join_press(left),
            Press::Right => words.figure_join_press(right),
            Press::Open => words.figure_join_press_open(),
        });
        text.join(" ")
    }

    fn places(&self, points: &[Point]) -> String {
        let measures = Measures::new(self.words, self.model.units);
        let (from, _) = measured_from(self.shown.join);
        let mut along: Vec<f64> = points.iter().map(|&point| from.distance(point)).collect();
        along.sort_by(f64::total_cmp);
        let lengths: Vec<String> = along.into_iter().map(|far| measures.length(Length::inches(far))).collect();
        self.words.list(&lengths)
    }

    fn side(&self, places: &[usize]) -> String {
        let names: Vec<String> = places
            .iter()
            .filter_map(|&place| {
                let placement = self.shown.block.placements.get(place)?;
                let variant = self.shown.block.variants.get(placement.variant)?;
                Some(self.words.place(&placement.name, &variant.mark))
            })
            .collect();
        if names.len() > told::MANY { self.words.figure_units(names.len()) } else { self.words.list(&names) }
    }
}

#[cfg(test)]
mod tests {
    use super::measured_from;
    use crate::model::Join;
    use crate::packet::sample::lantern;
    use crate::packet::words::Words;

    #[test]
    fn lengths_of_an_upright_join_are_told_from_its_upper_end_however_its_seam_runs() {
        let model = lantern(0.5);
        let join = &model.blocks[0].joins[0];
        for seam in [join.seam, join.seam.reversed()] {
            let (from, end) = measured_from(&Join { seam, ..join.clone() });
            assert_eq!(from.y, seam.start.y.min(seam.end.y));
            assert_eq!(end(&Words::english()), "upper");
        }
    }
}
