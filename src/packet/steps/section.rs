//! The step of one section: where the piece lies, how far it reaches, what to free, where to stop, what to look for.

use super::pieced::fabric_names;
use super::{Move, Step};
use crate::geometry::{Length, Line, Point, Segment, Tolerance, Vector};
use crate::model::{Cut, Model, PrintDirection, Section, Shape, Unit, Variant};
use crate::packet::measure::Measures;
use crate::packet::shape::shaped;

/// How far stitching runs past the end of a line inside the unit: three stitches of 1.5 mm, in inches.
const PAST_THE_END: f64 = 4.5 / 25.4;

/// Below this a piece may turn so little that the sewer should be told, in degrees.
const LITTLE_TURN: f64 = 5.0;

/// From this ratio of its sides on, one sees at a glance which way a piece is longer.
const PLAINLY_LONGER: f64 = 1.25;

/// An edge within so many degrees of its seam lies along it.
const ALONG: f64 = 0.5;

/// From this sine on a piece lies slanting in the drawing: half a degree.
const SLANTED: f64 = 0.0087;

/// Up to so many degrees off its seam nobody sees that an edge does not lie along it.
const BARELY: f64 = 1.5;

/// A foundation whose steps are told.
pub(super) struct Foundation<'m> {
    pub model: &'m Model,
    pub unit: &'m Unit,
    pub variant: &'m Variant,
    pub tolerance: Tolerance,
    /// What sections are called by, before their number: the foundation's mark, or the unit's where several foundations are told of together.
    pub mark: &'m str,
    /// In which hand left and right are told.
    pub mirrored: bool,
    /// Whether its steps teach.
    pub teach: bool,
}

/// A line to sew on as the sewer sees it: printed side up, the new section above it.
struct Seam {
    line: Segment,
    /// From what is there toward the new section, of length 1.
    outward: Vector,
    /// Whether the left and the right end lie on the unit's outline.
    left_out: bool,
    right_out: bool,
}

/// How a cut lies to its seam.
enum Lie {
    /// An edge of its width, or else of its height, lies along the seam.
    Along { width: bool },
    /// It is turned so many degrees to the seam.
    Askew(f64),
}

impl Foundation<'_> {
    pub(super) fn step(&self, k: usize, measures: Measures<'_>) -> Option<Step> {
        let words = measures.words();
        let section = self.unit.sections.get(k)?;
        let fabrics = words.list(&fabric_names(self.model, self.variant, k));
        let cuts: Vec<&Cut> = self.variant.cuts.iter().filter(|cut| cut.section == k).collect();
        let seam = self.seam(section);
        let text = match (&section.own_step, &seam) {
            (Some(own), _) => vec![Move::unnamed(own)],
            (None, None) if self.is_pieced(0) => {
                let laying = Move::new(words.move_lay(), &self.pieced_laying(0, measures));
                self.piecing(0, &cuts, measures).into_iter().chain([laying]).collect()
            }
            (None, None) => self.first(&cuts, measures),
            (None, Some(seam)) => self.next(k, seam, &cuts, measures),
        };
        Some(Step {
            title: words.section_heading(self.name(k), fabrics),
            facts: self.facts(k, seam.as_ref(), &cuts, measures),
            text,
            // Its seams on their lines, a pieced section lies straight enough.
            cautions: Self::cares(seam.as_ref(), &cuts, measures).filter(|_| !self.is_pieced(k)).into_iter().collect(),
            fabric: self.variant.fabrics.get(k).copied().filter(|_| !self.is_pieced(k)),
            flipped: self.is_askew(k),
            own: section.own_step.is_some(),
            notes: section.notes.clone(),
        })
    }

    /// What a section is called on paper: `A3`.
    pub(super) fn name(&self, k: usize) -> String {
        format!("{}{}", self.mark, k + 1)
    }

    /// How far a cut reaches past the left and the right end of its line, in the hand in which they are told.
    fn overhang(&self, cut: &Cut) -> Option<[Length; 2]> {
        let [left, right] = cut.overhang?;
        Some(if self.variant.mirrored == self.mirrored { [left, right] } else { [right, left] })
    }

    fn directional(&self, k: usize) -> bool {
        let fabric = self.variant.fabrics.get(k).and_then(|&fabric| self.model.fabrics.get(fabric));
        fabric.is_some_and(|fabric| fabric.print.direction != PrintDirection::None)
    }

    fn seam(&self, section: &Section) -> Option<Seam> {
        let line = section.seam?;
        let direction = line.line()?;
        let normal = direction.direction().quarter_turned();
        let outward = if direction.distance_right(section.polygon.centroid()) >= 0.0 { normal } else { -normal };
        // The printing mirrors the front, so that with the section above the line, left and right change sides;
        // a mirrored foundation is mirrored twice.
        let to_the_left = if self.mirrored { -outward.quarter_turned() } else { outward.quarter_turned() };
        let start_is_left = (line.start - line.end).dot(to_the_left) > 0.0;
        let (left, right) = if start_is_left { (line.start, line.end) } else { (line.end, line.start) };
        Some(Seam { line, outward, left_out: self.on_outline(left), right_out: self.on_outline(right) })
    }

    fn on_outline(&self, point: Point) -> bool {
        self.unit.outline.edges().any(|edge| self.tolerance.is_zero(edge.distance(point)))
    }

    fn first(&self, cuts: &[&Cut], measures: Measures<'_>) -> Vec<Move> {
        let words = measures.words();
        let allowance = measures.length(self.model.allowance);
        let mut text = if self.teach {
            vec![words.first_teach(self.name(0), allowance), words.first_teach_light()]
        } else {
            vec![words.first_short(self.name(0), allowance)]
        };
        if self.directional(0) {
            text.push(if cuts.len() > 1 { words.lay_several() } else { words.first_print() });
        } else if let [cut] = cuts
            && cut.shape == Shape::Rectangle
            && cut.width.max(cut.height) > cut.width.min(cut.height) * PLAINLY_LONGER
        {
            text.push(words.first_long(measures.length(cut.width.max(cut.height))));
        } else if let [cut] = cuts
            && (is_slanted(cut) || cut.shape != Shape::Rectangle)
        {
            text.push(words.first_shown());
        }
        text.extend(cuts.iter().any(|cut| cut.motif.is_some()).then(|| words.lay_motif(self.name(0))));
        if self.unit.sections.len() == 1 {
            text.push(words.first_only());
        }
        vec![Move::new(words.move_lay(), &text)]
    }

    fn next(&self, k: usize, seam: &Seam, cuts: &[&Cut], measures: Measures<'_>) -> Vec<Move> {
        let words = measures.words();
        let name = self.name(k);
        let allowance = measures.length(self.model.allowance);
        let teach = self.teach && self.first_written() == Some(k);
        let mut folding = Vec::new();
        let crossing = self.crossing(k, seam);
        if !crossing.is_empty() {
            let list = words.list(&crossing);
            folding.push(words.free(list));
        }
        folding.push(if teach { words.fold_teach(&name, &allowance) } else { words.fold(&name, &allowance) });
        let mut laying = Vec::new();
        let is_pieced = self.is_pieced(k);
        if is_pieced {
            laying.extend(self.pieced_laying(k, measures));
        } else if let Some(cut) = cuts.first() {
            laying.extend(self.laying(k, teach, seam, cut, measures));
            // An askew piece is told to be laid as it will look, print and all.
            // Where its way differs from place to place the paper has no arrow for it.
            if self.directional(k) && cuts.len() == 1 && matches!(lie(seam, cut), Some(Lie::Along { .. })) {
                laying.push(words.lay_print());
            }
        }
        if cuts.iter().any(|cut| cut.motif.is_some()) {
            laying.push(words.lay_motif(&name));
        }
        if cuts.len() > 1 && !is_pieced {
            laying.push(words.lay_several());
        } else if let [cut] = cuts {
            laying.extend(self.reach(&name, teach, cut, measures));
        }
        let mut looking: Vec<String> = self.is_askew(k).then(|| words.lay_askew_trim(&allowance)).into_iter().collect();
        looking.extend(self.look(k, teach, &allowance, measures));
        if is_pieced {
            // Before it is pressed.
            looking.insert(looking.len().saturating_sub(1), words.pieced_look(self.inner_seams(k)));
        }
        let moves = [
            Move::new(words.move_fold(), &folding),
            Move::new(words.move_lay(), &laying),
            Move::new(words.move_sew(), &[sewing(teach, seam, measures)]),
            Move::new(words.move_look(), &looking),
        ];
        self.piecing(k, cuts, measures).into_iter().chain(moves).collect()
    }

    /// The first section after section 1 whose step is not the author's and whose piece lies along its line: it teaches.
    fn first_written(&self) -> Option<usize> {
        let mut sections = self.unit.sections.iter().enumerate().skip(1);
        sections.find(|&(k, section)| section.own_step.is_none() && !self.is_askew(k)).map(|(k, _)| k)
    }

    /// What to look for when the piece is flipped open.
    fn look(&self, k: usize, teach: bool, allowance: &str, measures: Measures<'_>) -> [String; 3] {
        let words = measures.words();
        let later = self.later_lines(k);
        let outer = self
            .unit
            .sections
            .get(k)
            .is_some_and(|section| section.polygon.edges().any(|edge| self.on_outline(edge.middle())));
        let lines = words.list(&later);
        [
            if teach { words.flip_teach() } else { words.flip() },
            match (later.is_empty(), outer) {
                (true, _) => words.look_edge(self.name(k)),
                (false, true) => words.look_lines_edge(self.name(k), allowance, lines, later.len()),
                (false, false) => words.look_lines(self.name(k), allowance, lines, later.len()),
            },
            if teach { words.flip_press_teach() } else { words.flip_press() },
        ]
    }

    /// The later sections whose lines bound a section.
    fn later_lines(&self, k: usize) -> Vec<String> {
        let Some(section) = self.unit.sections.get(k) else { return Vec::new() };
        let bounds =
            |seam: Segment| section.polygon.edges().any(|edge| self.tolerance.is_zero(seam.distance(edge.middle())));
        let later = self.unit.sections.iter().enumerate().skip(k + 1);
        later.filter(|(_, other)| other.seam.is_some_and(bounds)).map(|(j, _)| self.name(j)).collect()
    }

    fn laying(&self, k: usize, teach: bool, seam: &Seam, cut: &Cut, measures: Measures<'_>) -> Option<String> {
        let words = measures.words();
        Some(match lie(seam, cut)? {
            Lie::Along { .. } if matches!(cut.shape, Shape::HalfSquare | Shape::QuarterSquare) => {
                let side = if is_on_long_side(seam, cut) { "long" } else { "short" };
                if teach { words.lay_side_teach(side) } else { words.lay_side(side) }
            }
            Lie::Along { width } => {
                let edge = measures.length(edge_along(cut, width));
                if teach { words.lay_teach(edge) } else { words.lay(edge) }
            }
            Lie::Askew(degrees) => {
                let degrees = measures.degrees(crate::geometry::Angle::degrees(degrees));
                let allowance = measures.length(self.model.allowance);
                // Told at length at the first such piece of a foundation only.
                let told = (1..k).any(|earlier| self.is_askew(earlier) && !self.is_pieced(earlier));
                if told {
                    words.lay_askew_short(degrees, self.name(k), allowance)
                } else {
                    let why = if self.directional(k) { "print" } else { "grain" };
                    words.lay_askew(degrees, why, self.name(k), allowance)
                }
            }
        })
    }

    /// Whether a piece is laid as it will look: askew to its line, or its seams on the lines within its section.
    fn is_askew(&self, k: usize) -> bool {
        if k > 0 && self.is_pieced(k) {
            return true;
        }
        let Some(seam) = self.unit.sections.get(k).and_then(|section| self.seam(section)) else { return false };
        let cut = self.variant.cuts.iter().find(|cut| cut.section == k);
        matches!(cut.and_then(|cut| lie(&seam, cut)), Some(Lie::Askew(_)))
    }

    /// The sections before `k` whose stitches run across the fold along its line.
    fn crossing(&self, k: usize, seam: &Seam) -> Vec<String> {
        let sections = self.unit.sections.iter().enumerate().take(k);
        sections
            .filter_map(|(j, section)| {
                let earlier = section.seam?;
                let stitched = self.stitched(earlier)?;
                let beyond = |point: Point| (point - seam.line.start).dot(seam.outward);
                let most = beyond(stitched.start).max(beyond(stitched.end));
                (most > self.tolerance.suspicious()).then(|| self.name(j))
            })
            .collect()
    }

    /// A seam as far as it is stitched: to the cutting line where it ends on the outline, a few stitches on where it ends inside.
    fn stitched(&self, seam: Segment) -> Option<Segment> {
        let line: Line = seam.line()?;
        let whole = self.unit.cutting_line.chord(line, self.tolerance)?;
        let run = line.direction() * PAST_THE_END;
        let start = if self.on_outline(seam.start) { whole.start } else { seam.start + -run };
        let end = if self.on_outline(seam.end) { whole.end } else { seam.end + run };
        Some(Segment::new(start, end))
    }

    fn facts(&self, k: usize, seam: Option<&Seam>, cuts: &[&Cut], measures: Measures<'_>) -> Vec<(String, String)> {
        let words = measures.words();
        let mut facts = self.strip_facts(k, cuts, measures);
        let cuts = if self.is_pieced(k) { &[] } else { cuts };
        // What differs only in its turn is cut alike.
        let size = |cut: &Cut| (cut.width, cut.height, cut.shape);
        let alike = cuts.iter().all(|cut| cuts.first().is_none_or(|first| size(first) == size(cut)));
        for cut in cuts.iter().take(if alike { 1 } else { cuts.len() }) {
            let size = match cut.shape {
                Shape::Rectangle => measures.rectangle(cut.width, cut.height),
                shape => shaped(shape, (cut.width, cut.height), measures),
            };
            let size = if cut.motif.is_some() { words.fact_cut_motif(size) } else { size };
            let value = if alike { size } else { words.fact_cut_turned(size, measures.degrees(cut.turn)) };
            facts.push((words.fact_cut(), value));
        }
        if let Some(seam) = seam {
            let length = measures.length(Length::inches(seam.line.length()));
            facts.push((words.fact_line(), words.fact_line_value(length)));
        }
        if let [cut] = cuts
            && let Some([left, right]) = self.overhang(cut).map(|ends| ends.map(|end| measures.at_least(end)))
        {
            let value = if left == right { words.fact_past_both(left) } else { words.fact_past_value(left, right) };
            facts.push((words.fact_past(), value));
        }
        facts
    }

    fn reach(&self, name: &str, teach: bool, cut: &Cut, measures: Measures<'_>) -> Option<String> {
        let words = measures.words();
        let ends = self.overhang(cut)?;
        let [left, right] = ends.map(|end| measures.at_least(end));
        Some(match (ends.map(|end| measures.is_a_step(end)), teach, left == right) {
            ([false, false], ..) => words.reach_none(),
            ([true, false], ..) => words.reach_left(left),
            ([false, true], ..) => words.reach_right(right),
            (_, true, true) => words.reach_teach_both(left),
            (_, true, false) => words.reach_teach(name, left, right),
            (_, false, true) => words.reach_both(left),
            (_, false, false) => words.reach(left, right),
        })
    }

    /// The sections with an outer edge of the unit on the bias, in any turn.
    pub(super) fn outer_bias(&self) -> Vec<String> {
        let outer = |cut: &&Cut| {
            let Some(section) = self.unit.sections.get(cut.section) else { return false };
            let Some(area) = section.areas().nth(cut.strip.unwrap_or(0)) else { return false };
            let edges = area.edges().enumerate();
            edges.filter(|(at, _)| cut.bias_edges.contains(at)).any(|(_, edge)| self.on_outline(edge.middle()))
        };
        let mut sections: Vec<usize> = self.variant.cuts.iter().filter(outer).map(|cut| cut.section).collect();
        sections.sort_unstable();
        sections.dedup();
        sections.into_iter().map(|k| self.name(k)).collect()
    }

    /// Whether so many sections are all that have an edge on the outside of the unit.
    pub(super) fn is_outer(&self, count: usize) -> bool {
        let outer =
            self.unit.sections.iter().filter(|section| section.polygon.edges().any(|e| self.on_outline(e.middle())));
        outer.count() == count && count > 2
    }

    /// What to take care of in a step.
    fn cares(seam: Option<&Seam>, cuts: &[&Cut], measures: Measures<'_>) -> Option<String> {
        let words = measures.words();
        let least = cuts.iter().flat_map(|cut| cut.slack.turn.map(|turn| (turn, *cut)));
        let (turn, cut) = least.min_by(|a, b| a.0.to_degrees().total_cmp(&b.0.to_degrees()))?;
        if turn.to_degrees() >= LITTLE_TURN {
            return None;
        }
        // Nobody measures a degree at the machine; how far an end may stray can be seen.
        if let Some(Lie::Along { width }) = seam.and_then(|seam| lie(seam, cut)) {
            let edge = edge_along(cut, width);
            let (sin, cos) = turn.sin_cos();
            let stray = edge * (sin / cos / 2.0);
            return Some(if measures.is_a_step(stray) {
                words.care_stray(measures.at_least(stray))
            } else {
                words.care_turn_none()
            });
        }
        Some(measures.at_least_degrees(turn).map_or_else(|| words.care_turn_none(), |degrees| words.care_turn(degrees)))
    }
}

/// How long the edge of a cut is that lies along its seam: the one from its first corner to its second, or else its height.
fn edge_along(cut: &Cut, width: bool) -> Length {
    match cut.corners.as_slice() {
        [first, second, ..] if width && cut.shape != Shape::Rectangle => Length::inches(first.distance(*second)),
        _ if width => cut.width,
        _ => cut.height,
    }
}

/// Whether half or a quarter of a square lies along its seam with its long side.
fn is_on_long_side(seam: &Seam, cut: &Cut) -> bool {
    let Some(along) = (seam.line.end - seam.line.start).unit() else { return false };
    let next = cut.corners.iter().cycle().skip(1);
    let sides: Vec<Vector> = cut.corners.iter().zip(next).map(|(&a, &b)| b - a).collect();
    let longest = sides.iter().map(|side| side.length()).fold(0.0, f64::max);
    // The side that is most nearly parallel to the seam.
    let off = |side: &Vector| side.unit().map_or(1.0, |way| way.cross(along).abs());
    let nearest = sides.iter().min_by(|a, b| off(a).total_cmp(&off(b)));
    nearest.is_some_and(|side| side.length() > longest * 0.99)
}

/// Whether a cut lies slanting in the drawing of its unit.
fn is_slanted(cut: &Cut) -> bool {
    cut.way().is_some_and(|way| way.x.abs().min(way.y.abs()) > SLANTED)
}

/// How a cut lies to its seam; none where either has no length.
fn lie(seam: &Seam, cut: &Cut) -> Option<Lie> {
    let along = (seam.line.end - seam.line.start).unit()?;
    let width = cut.way()?;
    let degrees = Vector::new(along.dot(width).abs(), along.cross(width).abs()).angle().to_degrees();
    // What nobody sees, and what the piece bears twice over, lies along the line.
    let least = cut.slack.turn.iter().map(|turn| turn.to_degrees()).fold(f64::INFINITY, f64::min);
    let unseen = |degrees: f64| degrees <= ALONG || (degrees <= BARELY && 2.0 * degrees <= least);
    Some(if unseen(degrees) {
        Lie::Along { width: true }
    } else if unseen(90.0 - degrees) {
        Lie::Along { width: false }
    } else {
        Lie::Askew(degrees.min(90.0 - degrees))
    })
}

fn sewing(teach: bool, seam: &Seam, measures: Measures<'_>) -> String {
    let words = measures.words();
    match (seam.left_out, seam.right_out, teach) {
        (true, true, true) => words.sew_teach_through(),
        (true, true, false) => words.sew_through(),
        (false, false, true) => words.sew_teach_inside(),
        (false, false, false) => words.sew_inside(),
        (true, false, true) => words.sew_teach_left(),
        (true, false, false) => words.sew_left(),
        (false, true, true) => words.sew_teach_right(),
        (false, true, false) => words.sew_right(),
    }
}
