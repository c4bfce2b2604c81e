//! The order in which a ring or an inset corner is sewn: its parts from the front, drawn apart, and its seams with numbers.

use super::canvas::{Canvas, Room, bounds};
use super::{ACCENT, EDGE, name_sizes, told};
use crate::geometry::{Length, Point, Polygon, Segment, Transform, Vector};
use crate::model::{Block, Join, JoinKind, Model, Pass, Stretch, Tree};
use crate::packet::join_end::other_end;
use crate::packet::label::{Label, box_at};
use crate::packet::page::{Colour, Layer, Page, Path, Stroke};
use crate::packet::words::Words;

/// How far the parts are moved out, in inches on the page.
const APART: f64 = 0.2;

/// The whole ring or inset corner with which a pass begins, its seams numbered in the order of sewing; what is left open at first is dashed. None for any
/// other pass. O(n²) in the sections drawn.
#[must_use]
pub fn order_front(model: &Model, block: &Block, pass: Pass, width: Length, words: &Words) -> Option<Page> {
    let (joins, parts) = block.round_of(pass.join)?;
    if joins.first() != Some(&pass.join) || pass.stretch == Stretch::Rest {
        return None;
    }
    let found = |&join: &usize| block.joins.get(join);
    let (numbers, joins) = (joins, joins.iter().filter_map(found).collect::<Vec<&Join>>());
    let mut order = Order { model, block, joins, parts, moved: Vec::new() };
    order.moved = order.ways();
    let title = words.figure_order_title(numbers.first().map_or(0, |n| n + 1), numbers.last().map_or(0, |n| n + 1));
    let description = order.told(words);
    Some(order.draw(width.to_inches()).page(title, description))
}

/// A ring or inset corner being drawn.
struct Order<'m> {
    model: &'m Model,
    block: &'m Block,
    joins: Vec<&'m Join>,
    parts: &'m [Tree],
    /// By part: which way it is moved, of length 1 or none.
    moved: Vec<Vector>,
}

/// A stretch of a seam that is sewn at once.
struct Sewn {
    /// In the block's frame, in the direction of sewing.
    stretch: Segment,
    /// Which way it lies from its place when the parts are apart, as a part of how far they are.
    moved: Vector,
    /// Whether its direction matters.
    directed: bool,
    /// Whether it stays open at first.
    open: bool,
}

impl Order<'_> {
    /// Whether a part lies on the left of a join.
    fn is_left(&self, part: usize, join: &Join) -> bool {
        let first = self.parts.get(part).and_then(|tree| tree.placements().first().copied());
        first.is_some_and(|place| join.left.contains(&place))
    }

    /// Which way each part is moved: those of a ring square to their seams, those of a corner away from the point.
    fn ways(&self) -> Vec<Vector> {
        let of = |part: usize| -> Option<Vector> {
            if let JoinKind::Inset { point } = self.joins.first()?.kind {
                let places = self.parts.get(part)?.placements();
                let outlines = places.iter().filter_map(|&place| self.block.placements.get(place));
                // By their weight, so that a group is moved as one area would be.
                let away = outlines.map(|placement| (placement.outline.centroid() - point) * placement.outline.area());
                return away.fold(Vector::default(), |sum, of| sum + of).unit();
            }
            let join = self.joins.get(part.checked_sub(1)?)?;
            let right = join.seam.line()?.direction().quarter_turned();
            Some(if self.is_left(part, join) { -right } else { right })
        };
        (0..self.parts.len()).map(|part| of(part).unwrap_or_default()).collect()
    }

    fn way(&self, part: usize) -> Vector {
        self.moved.get(part).copied().unwrap_or_default()
    }

    /// All seams in the order of sewing.
    fn sewn(&self) -> Vec<Sewn> {
        let mut all = Vec::new();
        let mut rest = None;
        for (k, join) in self.joins.iter().enumerate() {
            match join.kind {
                JoinKind::Partial { first, .. } => {
                    let moved = self.way(k + 1) * 0.5;
                    let stretch = Segment::new(first.end, other_end(join, first.start));
                    all.push(Sewn { stretch: first, moved, directed: true, open: false });
                    rest = Some(Sewn { stretch, moved, directed: true, open: true });
                }
                JoinKind::Straight => {
                    let moved = self.way(k + 1) * 0.5;
                    all.push(Sewn { stretch: join.seam, moved, directed: false, open: false });
                }
                JoinKind::Inset { point } => {
                    let (a, b) = [(1, 2), (0, 1), (0, 2)].get(k).copied().unwrap_or_default();
                    let outward = Segment::new(point, other_end(join, point));
                    let stretch = if k == 0 { outward.reversed() } else { outward };
                    let moved = (self.way(a) + self.way(b)) * 0.5;
                    all.push(Sewn { stretch, moved, directed: true, open: false });
                }
            }
        }
        all.extend(rest);
        all
    }

    fn draw(&self, wide: f64) -> Canvas {
        let places: Vec<(usize, usize)> = self
            .parts
            .iter()
            .enumerate()
            .flat_map(|(part, tree)| tree.placements().into_iter().map(move |place| (part, place)))
            .collect();
        let outlines = places.iter().filter_map(|&(_, place)| self.block.placements.get(place));
        let corners: Vec<Point> = outlines.flat_map(|placement| placement.outline.corners().to_vec()).collect();
        let border = 0.06 + APART;
        let room = Room { width: wide, most_high: wide, beside: border, above: border };
        let mut canvas = Canvas::new(bounds(corners), Transform::IDENTITY, room);
        let apart = APART / canvas.scale;
        let (mut sections, mut outlines) = (Vec::new(), Vec::new());
        for &(part, place) in &places {
            let Some(placement) = self.block.placements.get(place) else { continue };
            let Some(variant) = self.block.variants.get(placement.variant) else { continue };
            let shift = Transform::shift(self.way(part) * apart);
            for (section, &fabric) in self.block.unit_of(variant).sections.iter().zip(&variant.fabrics) {
                let area = placement.transform.apply_to_polygon(&section.polygon);
                sections.push((fabric, shift.apply_to_polygon(&area)));
            }
            outlines.push((placement, variant, shift.apply_to_polygon(&placement.outline)));
        }
        canvas.fabrics(self.model, &sections);
        canvas.outlines(sections.iter().map(|(_, area)| area), None, Some(Stroke::plain(0.25, Colour::grey(90))));
        let drawn: Vec<&Polygon> = outlines.iter().map(|(_, _, outline)| outline).collect();
        canvas.outlines(drawn.iter().copied(), None, Some(Stroke::plain(1.8, Colour::WHITE)));
        canvas.outlines(drawn.iter().copied(), None, Some(Stroke::plain(0.7, EDGE)));
        self.draw_seams(&mut canvas);
        let sizes = name_sizes(canvas.width);
        for (placement, variant, outline) in &outlines {
            let marks = told::marks(self.block, placement, variant, sizes);
            canvas.mark(outline, marks, |_| true);
        }
        canvas
    }

    fn draw_seams(&self, canvas: &mut Canvas) {
        let mut on_page = Vec::new();
        for Sewn { stretch, moved, directed, open } in self.sewn() {
            let aside = moved * APART;
            let seam = canvas.map.apply_to_segment(stretch);
            let seam = Segment::new(seam.start + aside, seam.end + aside);
            let pen = Stroke::plain(if open { 1.1 } else { 1.8 }, ACCENT);
            let pen = if open { pen.dashed(&[3.0, 2.2]) } else { pen };
            canvas.items.push(Path::lines([seam], pen, Layer::Seams).into());
            if let Some(line) = seam.line().filter(|_| directed) {
                let (back, across) = (line.direction() * -0.07, line.direction().quarter_turned() * 0.04);
                let barbs = [across, -across].map(|across| Segment::new(seam.end, seam.end + back + across));
                canvas.items.push(Path::lines(barbs, Stroke::plain(1.4, ACCENT).rounded(), Layer::Marks).into());
                canvas.keep_clear(&box_at(seam.end, 0.1, 0.1, 0.0));
            }
            on_page.push(seam);
        }
        for (number, seam) in (1_u32..).zip(&on_page) {
            // On its line, or else beside it.
            let aside = seam.line().map_or_else(Vector::default, |line| line.direction().quarter_turned() * 0.09);
            let on_line =
                |points: f64| [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8].map(|at| (points, at, Vector::default())).to_vec();
            let beside = |points: f64| {
                [0.5, 0.3, 0.7, 0.1].iter().flat_map(|&at| [(points, at, aside), (points, at, -aside)]).collect()
            };
            let tries: [Vec<(f64, f64, Vector)>; 6] =
                [on_line(9.0), on_line(7.5), beside(7.5), on_line(6.0), beside(6.0), beside(5.0)];
            for (points, at, aside) in tries.concat() {
                let label = Label::ringed(number, Length::points(points), Colour::BLACK);
                if canvas.put(&label, seam.start.along(seam.end, at) + aside, 0.0, true) {
                    break;
                }
            }
        }
        for seam in on_page {
            canvas.keep_clear(&[seam.start, seam.end]);
        }
    }

    fn told(&self, words: &Words) -> String {
        let named = |tree: &Tree| -> String {
            let names: Vec<String> = tree
                .placements()
                .iter()
                .filter_map(|&place| {
                    let placement = self.block.placements.get(place)?;
                    let variant = self.block.variants.get(placement.variant)?;
                    Some(words.place(&placement.name, &variant.mark))
                })
                .collect();
            if names.len() > told::MANY { words.figure_units(names.len()) } else { words.list(&names) }
        };
        let parts: Vec<String> = self.parts.iter().map(named).collect();
        match (self.joins.first().map(|join| &join.kind), parts.as_slice()) {
            (Some(JoinKind::Inset { .. }), [first, second, third]) => {
                words.figure_order_inset_alt(first, second, third)
            }
            (_, [centre, round @ ..]) => words.figure_order_ring_alt(centre, words.list(round)),
            _ => String::new(),
        }
    }
}
