//! The strips of a pieced section, sewn together: how they lie beside each other, how long their seams are, and which way these are pressed.

use super::canvas::{Canvas, Room, bounds};
use super::step::View;
use super::{ACCENT, name_sizes, told};
use crate::geometry::{Length, Line, Point, Polygon, Segment, Vector};
use crate::packet::hand;
use crate::packet::label::{Label, upright};
use crate::packet::measure::Measures;
use crate::packet::page::{Colour, Layer, Page, Path, Stroke, Weight};

/// What stays free round the piece for the length of its seams, in inches on the page.
const BESIDE: f64 = 0.24;
/// How far from the edge the length stands, in inches on the page.
const OFF: f64 = 0.08;
/// How far the arrow of a pressed seam reaches to either side of it, in inches on the page.
const ARROW: f64 = 0.1;

impl View<'_> {
    /// All that the cuts of a section's strips cover, laid at their places; none for a section that is one piece.
    pub(super) fn pieced_area(&self, section: usize) -> Option<Polygon> {
        let strips = self.variant.cuts.iter().filter(|cut| cut.section == section && cut.strip.is_some());
        Polygon::hull(strips.flat_map(|cut| cut.corners.iter().copied()), self.tolerance())
    }

    /// The strips of a section sewn together, from the front as they will lie; none for a section that is one piece.
    #[must_use]
    pub fn strips(&self, section: usize) -> Option<Page> {
        let whole = self.pieced_area(section)?;
        let of = self.unit().sections.get(section)?;
        let seams: Vec<Segment> = of.pieced.iter().filter_map(|strip| strip.seam).collect();
        let lines: Vec<Line> = seams.iter().filter_map(|seam| seam.line()).collect();
        let wide = self.width.to_inches();
        let room = Room { width: wide, most_high: wide, beside: BESIDE, above: BESIDE };
        let orientation = hand::front(self.variant);
        let shown = bounds(whole.corners().iter().map(|&corner| orientation.apply(corner)));
        let mut canvas = Canvas::new(shown, orientation, room);
        let strips = self.sewn_strips(section, &whole, &lines);
        canvas.fabrics(self.model, &strips);
        canvas.outline(&whole, None, Stroke::plain(1.0, ACCENT));
        canvas.outline(&of.polygon, None, Stroke::plain(1.8, Colour::WHITE));
        canvas.outline(&of.polygon, None, Stroke::plain(0.6, Colour::BLACK).dashed(&[2.0, 1.5]));
        let mut length = Length::ZERO;
        for (k, (line, strip)) in lines.iter().zip(&of.pieced).enumerate() {
            let Some(across) = whole.chord(*line, self.tolerance()) else { continue };
            length = Length::inches(across.length());
            canvas.line(across, Stroke::plain(2.2, Colour::WHITE));
            canvas.line(across, Stroke::plain(1.0, ACCENT));
            // As long as the narrower of the two strips allows; those of neighbouring seams beside each other.
            let depth = |(_, strip): &(usize, Polygon)| strip.width() * canvas.scale;
            let narrower = strips.iter().skip(k).take(2).map(depth).fold(f64::INFINITY, f64::min);
            let at = if k % 2 == 0 { 0.1 } else { 0.25 };
            draw_arrow(
                &mut canvas,
                across.start.along(across.end, at),
                line.direction(),
                (strip.pressed_to_next, narrower),
            );
        }
        if let Some(along) = lines.first().map(|line| line.direction()) {
            self.draw_length(&mut canvas, &whole, along, length);
        }
        self.name_strips(&mut canvas, &strips, lines.first().map(|line| line.direction()));
        let fabrics = told::fabric_names(self.model, self.variant, section, self.words);
        let told = Measures::new(self.words, self.model.units).length(length);
        let name = self.name(section);
        Some(canvas.page(name.clone(), self.words.figure_strips_alt(name, fabrics, told)))
    }

    /// What is seen of each strip when all are sewn together, with its fabric.
    fn sewn_strips(&self, section: usize, whole: &Polygon, lines: &[Line]) -> Vec<(usize, Polygon)> {
        let mut rest = Some(whole.clone());
        let mut seen = Vec::new();
        for (k, &fabric) in self.variant.fabrics_of(section).iter().enumerate() {
            let Some(area) = rest.take() else { break };
            let strip = match lines.get(k) {
                Some(&line) => {
                    let (strip, beyond) = area.cut(line, self.tolerance());
                    rest = beyond;
                    strip
                }
                None => Some(area),
            };
            seen.extend(strip.map(|strip| (fabric, strip)));
        }
        seen
    }

    /// How long the edges are that are sewn together, outside the piece.
    fn draw_length(&self, canvas: &mut Canvas, whole: &Polygon, along: Vector, length: Length) {
        let edges = whole.edges().filter_map(|edge| Some((edge, edge.line()?.direction().cross(along).abs())));
        let parallel = edges.filter(|(_, slant)| *slant < 0.5).map(|(edge, _)| canvas.map.apply_to_segment(edge));
        let key = |edge: &Segment| edge.middle().x + 2.0 * edge.middle().y;
        let Some(edge) = parallel.min_by(|a, b| key(a).total_cmp(&key(b))) else { return };
        let Some(way) = (edge.end - edge.start).unit() else { return };
        let Some(middle) = canvas.area(whole).map(|area| area.centroid()) else { return };
        let side = way.quarter_turned();
        let out = if side.dot(middle - edge.start) > 0.0 { -side } else { side };
        let shifted = Segment::new(edge.start + out * OFF, edge.end + out * OFF);
        let tick = |at: Point| Segment::new(at + out * -0.03, at + out * 0.03);
        let lines = [shifted, tick(shifted.start), tick(shifted.end)];
        canvas.items.push(Path::lines(lines, Stroke::plain(0.7, ACCENT), Layer::Marks).into());
        let words = Measures::new(self.words, self.model.units).length(length);
        let turn = upright(way.angle().to_degrees());
        for points in [6.5, 6.0, 5.5, 5.0] {
            let label = Label::words(&words, Length::points(points), Weight::Regular, ACCENT);
            if canvas.put(&label, shifted.middle() + out * (label.reach(out, turn) + 0.02), turn, false) {
                break;
            }
        }
    }

    /// The mark of each strip's fabric, in a ring: on it, or at its end where it is too narrow.
    fn name_strips(&self, canvas: &mut Canvas, strips: &[(usize, Polygon)], along: Option<Vector>) {
        let sizes = name_sizes(canvas.width);
        let way = along.and_then(|along| canvas.map.apply_to_vector(along).unit());
        for (fabric, strip) in strips {
            let Some(fabric) = self.model.fabrics.get(*fabric) else { continue };
            let ring = |points: f64| Label::ringed(fabric.mark, Length::points(points + 1.0), Colour::BLACK);
            if canvas.mark(strip, sizes.iter().map(|&points| ring(points)), |_| true) {
                continue;
            }
            let (Some(way), Some(area)) = (way, canvas.area(strip)) else { continue };
            let (from, to) = area.extent(way);
            let half = (to - from) / 2.0;
            for label in [6.0, 5.0, 4.5].map(ring) {
                let out = way * (half + label.reach(way, 0.0) + 0.03);
                let middle = area.centroid();
                if [out, -out].into_iter().any(|out| canvas.put(&label, middle + out, 0.0, false)) {
                    break;
                }
            }
        }
    }
}

/// An arrow across a seam, toward the strip under which its allowances lie; with the depth on the page of the narrower of the two.
fn draw_arrow(canvas: &mut Canvas, at: Point, along: Vector, (to_next, depth): (bool, f64)) {
    // As drawn the next strip lies on the right.
    let right = along.quarter_turned();
    let toward = if to_next { right } else { -right };
    let Some(way) = canvas.map.apply_to_vector(toward).unit() else { return };
    let at = canvas.map.apply(at);
    let long = ARROW.min(depth * 0.75);
    let (tip, tail) = (at + way * long, at + way * (long * -0.5));
    let barb = |side: f64| Segment::new(tip, tip + way * (long * -0.55) + way.quarter_turned() * (side * 0.035));
    let lines = [Segment::new(tail, tip), barb(1.0), barb(-1.0)];
    canvas.items.push(Path::lines(lines, Stroke::plain(2.6, Colour::WHITE).rounded(), Layer::Marks).into());
    canvas.items.push(Path::lines(lines, Stroke::plain(1.1, ACCENT).rounded(), Layer::Marks).into());
    let aside = way.quarter_turned() * 0.05;
    canvas.keep_clear(&[tip + aside, tail + aside, tail + -aside, tip + -aside]);
}
