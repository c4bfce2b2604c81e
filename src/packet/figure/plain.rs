//! A plain piece as it is cut: its edges, how long they are, and where its seams will run.

use super::canvas::{Canvas, Room};
use super::step::View;
use super::{ACCENT, EDGE, name_sizes, told};
use crate::geometry::{Length, Polygon, Segment, Transform, Vector};
use crate::packet::label::{Label, upright};
use crate::packet::measure::Measures;
use crate::packet::page::{Colour, Layer, Page, Path, Stroke, Weight};

/// What stays free round the piece for the lengths of its edges, in inches on the page.
const BESIDE: f64 = 0.3;
/// How high a figure may become, in inches on the page.
const HIGHEST: f64 = 1.5;
/// How far from its edge a length stands, in inches on the page.
const OFF: f64 = 0.09;

impl View<'_> {
    /// A plain piece from the front, in its fabric, with the lengths of its edges and its seams as dashed lines. A very long one lies level.
    #[must_use]
    pub fn plain_piece(&self) -> Page {
        let unit = self.unit();
        let (words, measures) = (self.words, Measures::new(self.words, self.model.units));
        let wide = self.width.to_inches();
        let (cut, fabric) = (self.variant.cuts.first(), self.variant.fabrics.first());
        let room = Room { width: wide, most_high: HIGHEST.min(wide), beside: BESIDE, above: BESIDE };
        let mut canvas = Canvas::new(unit.cutting_line.bounds(), Transform::IDENTITY, room);
        let area: Vec<(usize, Polygon)> = fabric.iter().map(|&&fabric| (fabric, unit.cutting_line.clone())).collect();
        canvas.fabrics(self.model, &area);
        canvas.outline(&unit.cutting_line, None, Stroke::plain(1.2, ACCENT));
        canvas.outline(&unit.outline, None, Stroke::plain(2.2, Colour::WHITE));
        canvas.outline(&unit.outline, None, Stroke::plain(0.8, EDGE).dashed(&[3.0, 2.0]));
        self.draw_lengths(&mut canvas, measures);
        let area = canvas.area(&unit.outline).map(|_| unit.outline.clone());
        if let Some(area) = area
            && !canvas.name(&area, &self.variant.mark, Weight::Bold, name_sizes(wide), true)
        {
            canvas.name_over(&area, &self.variant.mark);
        }
        let size = cut.map(|cut| measures.exact_rectangle(cut.width, cut.height)).unwrap_or_default();
        let name = told::fabric_name(self.model, fabric);
        let description = words.figure_plain_alt(&self.variant.mark, name, size, measures.length(self.model.allowance));
        // Lengths stand above and at the left only; that of a narrow strip reaches below it.
        if canvas.height - 2.0 * BESIDE > 0.6 {
            canvas.height -= BESIDE - 0.05;
        }
        canvas.page(self.variant.mark.clone(), description)
    }

    /// The lengths of two neighbouring edges, each outside of its edge between ticks.
    fn draw_lengths(&self, canvas: &mut Canvas, measures: Measures<'_>) {
        let edges: Vec<Segment> = self.unit().cutting_line.edges().collect();
        // Of the two edges of each direction the upper, or the left one.
        let upper = |pair: [usize; 2]| {
            let [a, b] = pair.map(|at| edges.get(at).copied());
            let key = |edge: Segment| edge.middle().x + 2.0 * edge.middle().y;
            a.zip(b).map(|(a, b)| if key(a) <= key(b) { a } else { b })
        };
        let mut lines = Vec::new();
        for edge in [upper([0, 2]), upper([1, 3])].into_iter().flatten() {
            let drawn = canvas.map.apply_to_segment(edge);
            let Some(way) = (drawn.end - drawn.start).unit() else { continue };
            // The inside lies on the right of an edge.
            let out = -way.quarter_turned();
            let shifted = Segment::new(drawn.start + out * OFF, drawn.end + out * OFF);
            let tick = |at| Segment::new(at + out * -0.03, at + out * 0.03);
            lines.extend([shifted, tick(shifted.start), tick(shifted.end)]);
            let length = measures.exact(Length::inches(edge.length()));
            let turn = upright(way.angle().to_degrees());
            for points in [7.0, 6.5, 6.0, 5.5, 5.0] {
                let label = Label::words(&length, Length::points(points), Weight::Regular, ACCENT);
                let reach = |way: Vector, turn: f64| label.reach(way, turn);
                let along = shifted.middle() + out * (reach(out, turn) + 0.03);
                if canvas.put(&label, along, turn, false) {
                    break;
                }
            }
        }
        canvas.items.push(Path::lines(lines, Stroke::plain(0.7, ACCENT), Layer::Marks).into());
    }
}
