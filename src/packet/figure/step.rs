//! Figures of a foundation: each step from the printed side and from the front, and the whole, reduced.

use super::broken::Broken;
use super::canvas::{Canvas, Room, bounds};
use super::{ACCENT, CLOTH, CLOTH_BENEATH, CLOTH_BENEATH_SEWN, EDGE, FAINT, PALE, name_sizes, told};
use crate::geometry::{Angle, Length, Line, Point, Polygon, Segment, Tolerance, Transform, Vector};
use crate::model::{Block, Cut, Model, Section, Unit, Variant};
use crate::packet::hand;
use crate::packet::label::Label;
use crate::packet::measure::Measures;
use crate::packet::page::{Colour, Layer, Page, Path, Stroke, Weight};
use crate::packet::words::Words;

/// How far stitching runs past the end of a line inside the unit: three stitches of 1.5 mm, in inches.
const PAST_THE_END: f64 = 4.5 / 25.4;

/// How wide the line is drawn as far as it is stitched, in printer's points.
const BOLD: f64 = 2.0;

/// An edge within so many degrees of its seam lies along it.
const ALONG: f64 = 0.5;

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

/// A piece while it is sewn on.
struct Laid<'m> {
    cut: &'m Cut,
    /// Where it lies, in the unit's frame.
    area: Polygon,
    /// Whether it lies right sides together with an edge along the line; otherwise it is shown where it lies after flipping.
    along: bool,
}

/// What a figure tells of.
#[derive(Clone, Copy)]
enum About<'a> {
    Everything,
    /// These places, and a line that runs on through them.
    Places(&'a [Point], Option<Line>),
}

impl<'m> View<'m> {
    pub(super) fn unit(&self) -> &'m Unit {
        self.block.unit_of(self.variant)
    }

    pub(super) fn name(&self, section: usize) -> String {
        format!("{}{}", self.variant.mark, section + 1)
    }

    pub(super) fn tolerance(&self) -> Tolerance {
        Tolerance::of_extent(self.block.width.max(self.block.height).to_inches())
    }

    /// A canvas on which the paper and a piece beneath it are shown; of a very long unit only what lies about these places.
    fn canvas(&self, orientation: Transform, beneath: Option<&Polygon>, about: About<'_>, highest: f64) -> Canvas {
        let wide = self.width.to_inches();
        let paper = &self.unit().cutting_line;
        let broken = match about {
            About::Everything => Broken::default(),
            About::Places(places, line) => Broken::new(paper, places, line, self.tolerance()),
        };
        let shown = std::iter::once(paper).chain(beneath).flat_map(|area| broken.areas(area));
        let shown = bounds(shown.flat_map(|a| a.corners().to_vec()).map(|corner| orientation.apply(corner)));
        let room = Room { width: wide, most_high: wide * highest, beside: 0.05, above: 0.05 };
        Canvas { broken, ..Canvas::new(shown, orientation, room) }
    }

    /// Sections up to this one as they are sewn, seen from the front; the newest one outlined.
    #[must_use]
    pub fn step_front(&self, section: usize) -> Page {
        let unit = self.unit();
        let about = unit.sections.get(section).map(|newest| newest.polygon.corners()).unwrap_or_default();
        let mut canvas = self.canvas(hand::front(self.variant), None, About::Places(about, None), 0.9);
        canvas.outline(&unit.cutting_line, Some(Colour::WHITE), Stroke::plain(0.5, FAINT).dashed(&[3.0, 2.0]));
        let later = unit.sections.iter().skip(section + 1).map(|later| &later.polygon);
        canvas.outlines(later, None, Some(Stroke::plain(0.4, FAINT)));
        let sewn = || unit.sections.iter().take(section + 1);
        let fabrics: Vec<(usize, Polygon)> = (sewn().enumerate())
            .flat_map(|(k, sewn)| self.variant.fabrics_of(k).iter().copied().zip(sewn.areas().cloned()))
            .collect();
        canvas.fabrics(self.model, &fabrics);
        canvas.outlines(sewn().flat_map(Section::areas), None, Some(Stroke::plain(0.4, Colour::grey(60))));
        let mut description = String::new();
        if let Some(newest) = unit.sections.get(section) {
            let name = self.name(section);
            // On white, so that it shows on dark fabric in grey print too.
            canvas.outline(&newest.polygon, None, Stroke::plain(3.2, Colour::WHITE).rounded());
            canvas.outline(&newest.polygon, None, Stroke::plain(1.8, ACCENT).rounded());
            canvas.draw_breaks(&[&unit.cutting_line], EDGE);
            let named = canvas.name(&newest.polygon, &name, Weight::Bold, name_sizes(canvas.width), true)
                || canvas.leader(&newest.polygon, &unit.cutting_line, &name, Weight::Bold);
            if !named {
                canvas.name_over(&newest.polygon, &name);
            }
            let fabric = told::fabric_names(self.model, self.variant, section, self.words);
            let shown = hand::front(self.variant);
            let (whole, area) = (shown.apply_to_polygon(&unit.outline), shown.apply_to_polygon(&newest.polygon));
            let here = told::whereabouts(&whole, &area, self.words);
            description = self.words.figure_front_alt(&self.variant.mark, section + 1, fabric, here);
        }
        canvas.page(self.name(section), description)
    }

    /// The printed side while a section is sewn on, turned so that its line is level and the section above it: what is there, the fold, the line in
    /// bold as far as it is stitched, the piece beneath as it lies before it is flipped, and how far it reaches past both ends.
    ///
    /// Section 1 has no line: it is shown as printed.
    #[must_use]
    pub fn step_printed(&self, section: usize) -> Page {
        let unit = self.unit();
        let seam = unit.sections.get(section).and_then(|current| current.seam);
        let laid = self.laid(section, seam);
        let laid_area = laid.as_ref().map(|laid| &laid.area);
        let current = unit.sections.get(section).map(|current| current.polygon.corners()).unwrap_or_default();
        let about: Vec<Point> = current.iter().chain(laid_area.iter().flat_map(|a| a.corners())).copied().collect();
        let mut canvas =
            self.canvas(self.turned(section), laid_area, About::Places(&about, seam.and_then(Segment::line)), 1.05);
        self.draw_paper(&mut canvas, section, laid.as_ref());
        if let Some(seam) = seam {
            self.draw_line(&mut canvas, seam);
        }
        let both: Vec<&Polygon> = std::iter::once(&unit.cutting_line).chain(laid_area).collect();
        canvas.draw_breaks(&both, EDGE);
        // The marks of the reach have but one place; the number of the section comes before the lengths, and those before the other numbers.
        let reach = laid.as_ref().zip(seam).map(|(laid, seam)| self.draw_reach(&mut canvas, laid, seam));
        if let Some(current) = unit.sections.get(section)
            && !canvas.name(&current.polygon, &self.name(section), Weight::Bold, name_sizes(canvas.width), false)
        {
            canvas.leader(&current.polygon, &unit.cutting_line, &self.name(section), Weight::Bold);
        }
        for reach in reach.into_iter().flatten() {
            reach.tell(&mut canvas);
        }
        let sizes = name_sizes(canvas.width);
        for (k, other) in unit.sections.iter().enumerate().filter(|(k, _)| *k != section) {
            canvas.name(&other.polygon, &self.name(k), Weight::Regular, &sizes[1..], false);
        }
        canvas.page(self.name(section), self.printed_words(section, laid.as_ref()))
    }

    /// From the unit's frame to the printed side, turned so that the line of a section is level and the section above it.
    fn turned(&self, section: usize) -> Transform {
        let printed = hand::printed(self.variant);
        let turn = self.unit().sections.get(section).and_then(|current| {
            let line = printed.apply_to_segment(current.seam?).line()?;
            let inner = printed.apply(current.polygon.centroid());
            // With the section on its left a line that runs to the right has it above.
            let line = if line.distance_right(inner) > 0.0 { line.reversed() } else { line };
            Some(Transform::turn(Angle::degrees(-line.direction().angle().to_degrees()), Point::default()))
        });
        turn.map_or(printed, |turn| printed.then(turn))
    }

    /// The piece of a section as it lies while it is sewn on; none for a section without a cut.
    fn laid(&self, section: usize, seam: Option<Segment>) -> Option<Laid<'m>> {
        let cut = self.variant.cuts.iter().find(|cut| cut.section == section)?;
        if let Some(area) = self.pieced_area(section) {
            return Some(Laid { cut, area, along: false });
        }
        let flipped = Polygon::try_new(&cut.corners, self.tolerance()).ok()?;
        let Some(line) = seam.and_then(Segment::line) else { return Some(Laid { cut, area: flipped, along: false }) };
        let along = lies_along(line, cut);
        let area = if along { Transform::mirror(line).apply_to_polygon(&flipped) } else { flipped };
        Some(Laid { cut, area, along })
    }

    /// The paper with what is sewn on it, and the piece that shows through.
    fn draw_paper(&self, canvas: &mut Canvas, section: usize, laid: Option<&Laid<'_>>) {
        let unit = self.unit();
        let sewn = || unit.sections.iter().take(section).map(|sewn| &sewn.polygon);
        if let Some(laid) = laid {
            canvas.outlines([&laid.area], Some(CLOTH), None);
        }
        canvas.outlines([&unit.cutting_line], Some(Colour::WHITE), None);
        canvas.outlines(sewn(), Some(PALE), None);
        if let Some(laid) = laid {
            let tolerance = self.tolerance();
            let beneath = laid.area.intersection(&unit.cutting_line, tolerance);
            canvas.outlines(&beneath, Some(CLOTH_BENEATH), None);
            let both: Vec<Polygon> = sewn().filter_map(|sewn| sewn.intersection(&laid.area, tolerance)).collect();
            canvas.outlines(&both, Some(CLOTH_BENEATH_SEWN), None);
        }
        canvas.outlines(unit.sections.iter().map(|s| &s.polygon), None, Some(Stroke::plain(0.4, Colour::grey(140))));
        let inner = |strips: &Section| strips.pieced.iter().filter_map(|strip| strip.seam).collect::<Vec<_>>();
        for seam in unit.sections.iter().flat_map(inner) {
            canvas.inner_seam(seam, 0.4, Colour::grey(140));
        }
        canvas.outline(&unit.outline, None, Stroke::plain(0.7, EDGE));
        canvas.outline(&unit.cutting_line, None, Stroke::plain(0.5, EDGE).dashed(&[3.0, 2.0]));
        // The seams of a pieced section, on across its whole piece.
        let seams = unit.sections.get(section).map(inner).unwrap_or_default();
        for line in seams.into_iter().filter_map(Segment::line) {
            if let Some(across) = laid.and_then(|laid| laid.area.chord(line, self.tolerance())) {
                canvas.line(across, Stroke::plain(0.9, ACCENT).dashed(&[1.2, 1.4]));
            }
        }
        if let Some(laid) = laid {
            canvas.outline(&laid.area, None, Stroke::plain(0.9, ACCENT).dashed(&[4.0, 2.0]));
            canvas.ground_over(&laid.area);
        }
        canvas.ground_over(&unit.cutting_line);
    }

    /// The fold, on across the paper and a little beyond it, and the line in bold as far as it is stitched.
    fn draw_line(&self, canvas: &mut Canvas, seam: Segment) {
        let Some(line) = seam.line() else { return };
        let Some(fold) = self.unit().cutting_line.chord(line, self.tolerance()) else { return };
        let past = line.direction() * (0.04 / canvas.scale);
        let pen = Stroke::plain(0.5, Colour::grey(60)).dashed(&[5.0, 1.5, 0.8, 1.5]);
        canvas.line(Segment::new(fold.start + -past, fold.end + past), pen);
        for fold in canvas.lines_of(fold) {
            canvas.crossed.add(&[fold.start, fold.end]);
        }
        let run = line.direction() * PAST_THE_END;
        let start = if self.on_outline(seam.start) { fold.start } else { seam.start + -run };
        let end = if self.on_outline(seam.end) { fold.end } else { seam.end + run };
        let stitched = Segment::new(start, end);
        canvas.line(stitched, Stroke::plain(BOLD, Colour::BLACK));
        let half = canvas.map.apply_to_vector(line.direction()).unit().map(|way| way.quarter_turned() * (BOLD / 144.0));
        for (Segment { start, end }, half) in canvas.lines_of(stitched).into_iter().zip(half.into_iter().cycle()) {
            canvas.keep_clear(&[start + half, end + half, end + -half, start + -half]);
        }
    }

    fn on_outline(&self, point: Point) -> bool {
        self.unit().outline.edges().any(|edge| self.tolerance().is_zero(edge.distance(point)))
    }

    /// Marks how far the piece reaches past the ends of the line, beside its edge.
    fn draw_reach(&self, canvas: &mut Canvas, laid: &Laid<'_>, seam: Segment) -> Vec<Reach> {
        let Some(overhang) = laid.cut.overhang else { return Vec::new() };
        let measures = Measures::new(self.words, self.model.units);
        let place = |end: Point| canvas.map.apply(canvas.broken.place(end));
        let seam = Segment::new(place(seam.start), place(seam.end));
        let (left, right) = if seam.start.x <= seam.end.x { (seam.start, seam.end) } else { (seam.end, seam.start) };
        // Above the edge of the piece, which is one allowance past the line.
        let lift = if laid.along { self.model.allowance.to_inches() * canvas.scale } else { 0.0 };
        let up = Vector::new(0.0, -(lift + 0.05));
        let tick = Vector::new(0.0, 0.03);
        let mut lines = Vec::new();
        let mut found = Vec::new();
        for (end, reach, sign) in [(left, overhang[0], -1.0), (right, overhang[1], 1.0)] {
            let run = reach.to_inches() * canvas.scale;
            if run < 0.01 {
                continue;
            }
            let (inner, outer) = (end + up, end + up + Vector::new(sign * run, 0.0));
            lines.extend([
                Segment::new(inner, outer),
                Segment::new(inner + -tick, inner + tick),
                Segment::new(outer + -tick, outer + tick),
            ]);
            canvas.keep_clear(&[inner + -tick, outer + -tick, outer + tick, inner + tick]);
            found.push(Reach { words: measures.at_least(reach), inner, outer, sign });
        }
        if !lines.is_empty() {
            canvas.items.push(Path::lines(lines, Stroke::plain(0.8, ACCENT), Layer::Marks).into());
        }
        found
    }

    fn printed_words(&self, section: usize, laid: Option<&Laid<'_>>) -> String {
        let words = self.words;
        let measures = Measures::new(words, self.model.units);
        let allowance = measures.length(self.model.allowance);
        let fabric = told::fabric_names(self.model, self.variant, section, words);
        let is_pieced = self.variant.fabrics_of(section).len() > 1;
        if section == 0 && is_pieced {
            return words.figure_printed_first_pieced(&self.variant.mark, fabric, allowance);
        }
        if section == 0 {
            return words.figure_printed_first_alt(&self.variant.mark, fabric, allowance);
        }
        let shown = words.figure_printed_alt(&self.variant.mark, section + 1, section);
        let piece = match laid {
            None => String::new(),
            Some(_) if is_pieced => words.figure_piece_pieced(fabric, section + 1),
            Some(laid) if laid.along => words.figure_piece_beneath(fabric, allowance),
            Some(_) => words.figure_piece_askew(fabric, section + 1),
        };
        let several = self.variant.cuts.iter().filter(|cut| cut.section == section).count() > 1;
        let reach = match laid.and_then(|laid| laid.cut.overhang) {
            Some(reach) if !several => {
                let [left, right] = reach.map(|end| measures.at_least(end));
                if left == right { words.figure_reach_both(left) } else { words.figure_reach(left, right) }
            }
            Some(_) => words.figure_several(),
            None => String::new(),
        };
        [shown, piece, reach].into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ")
    }

    /// The foundation, smaller than it is, for a screen.
    #[must_use]
    pub fn foundation_reduced(&self) -> Page {
        let unit = self.unit();
        let mut canvas = self.canvas(hand::printed(self.variant), None, About::Everything, 0.9);
        canvas.outline(&unit.cutting_line, None, Stroke::plain(0.5, Colour::grey(120)).dashed(&[3.0, 2.0]));
        canvas.outlines(unit.sections.iter().map(|s| &s.polygon), None, Some(Stroke::plain(0.5, Colour::BLACK)));
        for seam in unit.sections.iter().flat_map(|section| &section.pieced).filter_map(|strip| strip.seam) {
            canvas.inner_seam(seam, 0.5, Colour::grey(120));
        }
        canvas.outline(&unit.outline, None, Stroke::plain(1.0, Colour::BLACK));
        let sizes = name_sizes(canvas.width);
        for (k, section) in unit.sections.iter().enumerate() {
            if !canvas.name(&section.polygon, &self.name(k), Weight::Regular, sizes, false) {
                canvas.leader(&section.polygon, &unit.cutting_line, &self.name(k), Weight::Regular);
            }
        }
        canvas.caption(&self.words.not_to_size(), ACCENT);
        let description = match told::sections_of(self.model, self.variant, self.words) {
            Some(sections) => self.words.foundation_alt(&self.variant.mark, sections),
            None => self.words.foundation_alt_many(&self.variant.mark, unit.sections.len()),
        };
        canvas.page(self.variant.mark.clone(), description)
    }
}

/// Whether an edge of a cut lies along its line.
fn lies_along(line: Line, cut: &Cut) -> bool {
    let Some(width) = cut.way() else { return false };
    let along = line.direction();
    let degrees = Vector::new(along.dot(width).abs(), along.cross(width).abs()).angle().to_degrees();
    degrees <= ALONG || degrees >= 90.0 - ALONG
}

/// How far a piece reaches past one end of its line, as it is marked on the page.
struct Reach {
    words: String,
    /// Where the line ends.
    inner: Point,
    /// Where the piece ends.
    outer: Point,
    /// -1 at the left end, 1 at the right.
    sign: f64,
}

impl Reach {
    /// Writes the length beside its mark, where it finds room; the words of the step tell it too.
    fn tell(&self, canvas: &mut Canvas) {
        let Self { words, inner, outer, sign } = self;
        for points in [6.5, 6.0, 5.5] {
            let label = Label::words(words, Length::points(points), Weight::Regular, ACCENT);
            let half = label.width / 2.0;
            let above = Vector::new(0.0, -(0.05 + label.height / 2.0));
            let candidates = [
                inner.middle(*outer) + above,
                Point::new(outer.x - sign * half, outer.y) + above,
                Point::new(outer.x + sign * (half + 0.045), outer.y),
                Point::new(inner.x + sign * half, inner.y) + above,
                Point::new(inner.x - sign * (half + 0.045), inner.y),
                Point::new(outer.x - sign * half, outer.y) + -above,
            ];
            if candidates.into_iter().any(|centre| canvas.put(&label, centre, 0.0, true)) {
                return;
            }
        }
    }
}
