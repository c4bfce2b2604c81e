//! The rough cuts of every foundation.

use crate::cutting::{Between, Laid, Measures, Orientation, cut_to_size, lay, lay_strip, lay_trapezoid, lay_triangle};
use crate::geometry::{Angle, Length, Polygon, RightTriangle, Segment, Tolerance, Transform, Vector};
use crate::pattern::{self, CutRule, CutShape, Lie, Pattern};

use super::build::Sized;
use super::{Block, Cut, Print, PrintDirection, Section, Shape, Slack, UnitKind, Units, Variant};

/// Edges that lie further off both threads than this are on the bias.
const BIAS: f64 = 22.5;

/// A foundation whose pieces are cut.
struct Bench<'a> {
    pattern: &'a Pattern,
    /// Its block in the pattern, and here.
    source: &'a pattern::Block,
    block: &'a Block,
    /// Inches to a step.
    scale: f64,
    /// Its unit in the pattern.
    unit: &'a pattern::Unit,
    variant: usize,
    measures: Measures,
}

/// How the piece of a section is to be laid at places that are turned alike.
struct Asked {
    /// How they are turned; 0 where that does not matter.
    turn: Angle,
    /// The print's up, or the block's where it decides how the piece is turned.
    up: Option<Vector>,
    /// How many places there are in the block.
    places: u32,
}

/// The rough cuts of a foundation: by section, then by turn. `order` gives the pattern's unit for each of the block's.
pub(super) fn cuts(sized: &Sized<'_>, block: &Block, variant: usize, order: &[usize]) -> Option<Vec<Cut>> {
    let unit = &sized.source.units[order[block.variants[variant].unit]];
    let bench = Bench::new(sized.pattern, (sized.source, sized.scale), block, (variant, unit));
    let mut cuts = Vec::new();
    for (index, section) in bench.sections().iter().enumerate() {
        if section.pieced.is_empty() {
            bench.section(index, section, &mut cuts)?;
        } else {
            bench.strips(index, section, &mut cuts)?;
        }
    }
    Some(cuts)
}

/// By how little the ease of a cut must grow (in steps of the rounding, at most [`MOST_STEPS`]) so that the piece may turn by `least` to either side:
/// that ease, and the cut with it. None for strips, for plain pieces, and where no such ease does.
pub(super) fn roomier(
    pattern: &Pattern,
    source: &pattern::Block,
    block: &Block,
    (variant, cut): (usize, &Cut),
    least: Angle,
) -> Option<(Length, Cut)> {
    let of = block.unit_of(block.variants.get(variant)?);
    let unit = source.units.iter().find(|unit| unit.name == of.name)?;
    let (_, to) = source.outline.bounds();
    let scale = block.width.to_inches() / to.x;
    let bench = Bench::new(pattern, (source, scale), block, (variant, unit));
    let section = bench.sections().get(cut.section).filter(|_| cut.strip.is_none() && of.kind == UnitKind::Paper)?;
    let rule = bench.rule(cut.section, None)?;
    let all = bench.asked(cut.section, rule)?;
    let asked = all.iter().find(|asked| asked.turn == cut.turn).or_else(|| all.first())?;
    (1..=MOST_STEPS).find_map(|steps| {
        let ease = (rule.ease + bench.measures.rounding * f64::from(steps)).rounded_up_to(bench.measures.rounding);
        let roomy = bench.cut(cut.section, section, asked, CutRule { ease, ..rule })?;
        roomy.slack.turn.iter().all(|&turn| turn >= least).then_some((ease, roomy))
    })
}

/// So many steps of the rounding are tried to make a cut roomier.
const MOST_STEPS: u32 = 32;

/// The measures by which pieces of a pattern are cut; the tolerance is in inches.
#[must_use]
pub fn measures(pattern: &Pattern, tolerance: Tolerance) -> Measures {
    Measures {
        allowance: pattern.allowance,
        ease: pattern.ease,
        rounding: match pattern.units {
            Units::Inches => Length::inches(0.125),
            Units::Metric => Length::millimetres(5.0),
        },
        tolerance,
    }
}

impl<'a> Bench<'a> {
    fn new(
        pattern: &'a Pattern,
        (source, scale): (&'a pattern::Block, f64),
        block: &'a Block,
        (variant, unit): (usize, &'a pattern::Unit),
    ) -> Self {
        let measures = measures(pattern, source.tolerance.scaled(scale));
        Self { pattern, source, block, scale, unit, variant, measures }
    }

    fn of(&self) -> &'a Variant {
        &self.block.variants[self.variant]
    }

    fn sections(&self) -> &'a [Section] {
        &self.block.unit_of(self.of()).sections
    }

    fn is_plain(&self) -> bool {
        self.block.unit_of(self.of()).kind == UnitKind::Plain
    }

    /// How the piece of a section is cut, or of one of its strips.
    fn rule(&self, index: usize, strip: Option<usize>) -> Option<CutRule> {
        Some(self.pattern.cut_rule(self.unit, self.unit.sections.get(index)?, self.of().fabric_of(index, strip)?))
    }

    /// Which way the piece of a section, or of one of its strips, must stand. A motif has an up as a print has that is one-way.
    fn direction(&self, index: usize, strip: Option<usize>, rule: CutRule) -> Option<PrintDirection> {
        let fabric = self.pattern.fabrics.get(self.of().fabric_of(index, strip)?)?;
        Some(if rule.motif.is_some() && strip.is_none() { PrintDirection::OneWay } else { fabric.print.direction })
    }

    /// How the piece of a section is to be laid, turn by turn.
    fn asked(&self, index: usize, rule: CutRule) -> Option<Vec<Asked>> {
        let direction = self.direction(index, None, rule)?;
        let free = match direction {
            PrintDirection::None if rule.lie == Lie::OnGrain && !self.is_plain() => Some(90.0),
            direction => free_turn(direction),
        };
        // The unit's up is for prints; the grain is always the block's.
        let own_up = self.unit.up_is_units && direction != PrintDirection::None;
        Some(ups(self.block, self.variant, free, own_up))
    }

    /// The cut of a section as asked.
    fn cut(&self, index: usize, section: &Section, asked: &Asked, rule: CutRule) -> Option<Cut> {
        let measures = Measures { ease: rule.ease, ..self.measures };
        let laid = match asked.up {
            _ if self.is_plain() => cut_to_size(&section.needed, asked.up)?,
            // Halves of a square with a direction would point two ways: a print that stands upright is cut as a rectangle.
            Some(up) if self.direction(index, None, rule)? != PrintDirection::None => {
                lay(&section.needed, section.seam, Orientation::Up(up), &measures)?
            }
            up => self.free(section, up, rule, &measures)?,
        };
        Some(Cut {
            section: index,
            turn: asked.turn,
            count: asked.places.saturating_mul(self.source.copies),
            motif: rule.motif.map(|motif| Transform::scale(self.scale).apply(motif)),
            bias_edges: bias_edges(&section.polygon, laid.up),
            ..told(&laid, self.of().mirrored, self.pattern.fabrics.get(self.of().fabric_of(index, None)?)?.print)
        })
    }

    fn section(&self, index: usize, section: &Section, cuts: &mut Vec<Cut>) -> Option<()> {
        let rule = self.rule(index, None)?;
        let asked = self.asked(index, rule)?;
        let own = asked.iter().map(|asked| self.cut(index, section, asked, rule)).collect::<Option<Vec<Cut>>>()?;
        // What is half of a square, say, does not ask how the block's grain lies to it.
        let alike = own.iter().all(|cut| cut.corners == own[0].corners && cut.up == own[0].up);
        match own.split_first() {
            Some((first, more)) if alike => {
                let count = more.iter().fold(first.count, |count, cut| count.saturating_add(cut.count));
                let turn = if more.is_empty() { first.turn } else { Angle::default() };
                cuts.push(Cut { turn, count, ..first.clone() });
            }
            _ => cuts.extend(own),
        }
        Some(())
    }

    /// The cut of a section whose fabric may be turned at will; `grain` is the block's up where that is to decide.
    fn free(&self, section: &Section, grain: Option<Vector>, rule: CutRule, measures: &Measures) -> Option<Laid> {
        let (needed, seam) = (&section.needed, section.seam);
        let outer = self.outer_edge(section);
        let along_seam = lay(needed, seam, Orientation::AlongSeam, measures)?;
        let along = |way: Vector| lay(needed, seam, Orientation::Up(way), measures);
        let smaller = |best: Laid, next: Laid| if area(&next) < area(&best) - 1e-9 { next } else { best };
        let rectangle = match (rule.lie, grain, outer) {
            (Lie::OnGrain, Some(up), _) => along(up)?,
            (Lie::OuterEdges, _, Some(edge)) => along((edge.end - edge.start).quarter_turned())?,
            (Lie::LeastCloth, ..) => {
                let ways = needed.edges().filter_map(|edge| along((edge.end - edge.start).quarter_turned()));
                ways.fold(along_seam.clone(), smaller)
            }
            _ => along_seam.clone(),
        };
        let triangle = RightTriangle::of(&section.polygon);
        let square = |quarter: bool| lay_triangle(needed, triangle?, seam, quarter, measures);
        let shaped = match rule.shape {
            CutShape::Rectangle => None,
            CutShape::HalfSquare => square(false),
            CutShape::QuarterSquare => square(true),
            CutShape::Triangles if rule.lie == Lie::LeastCloth => {
                [square(false), square(true)].into_iter().flatten().reduce(smaller)
            }
            CutShape::Triangles => triangle.and_then(|of| square(outer.is_none_or(|edge| edge == of.long_side()))),
            // It lies along its seam, and is to spare cloth against a rectangle that does.
            CutShape::Trapezoid => seam
                .and_then(|seam| lay_trapezoid(needed, seam, measures))
                .filter(|laid| area(laid) < area(&rectangle).min(area(&along_seam)) - 1e-9),
        };
        Some(shaped.unwrap_or(rectangle))
    }

    /// The longest edge of a section that is an outer edge of the block at any place of the foundation.
    fn outer_edge(&self, section: &Section) -> Option<Segment> {
        let places = self.block.placements.iter().filter(|place| place.variant == self.variant);
        let near = self.measures.tolerance;
        let maps: Vec<Transform> = places.map(|place| place.transform).collect();
        let is_outer = |edge: &Segment| {
            maps.iter().any(|map| self.block.outline.edge_under(map.apply_to_segment(*edge), near).is_some())
        };
        let longer =
            |best: Segment, next: Segment| if next.length() > best.length() * (1.0 + 1e-9) { next } else { best };
        section.polygon.edges().filter(is_outer).reduce(longer)
    }

    /// The cuts of the strips of a pieced section, strip by strip.
    fn strips(&self, index: usize, section: &Section, cuts: &mut Vec<Cut>) -> Option<()> {
        for (k, strip) in section.pieced.iter().enumerate() {
            let before = k.checked_sub(1).and_then(|before| section.pieced[before].seam);
            let between = Between { before, after: strip.seam };
            let print = self.pattern.fabrics.get(self.of().fabric_of(index, Some(k))?)?.print;
            let measures = Measures { ease: self.rule(index, Some(k))?.ease, ..self.measures };
            let free = free_turn(print.direction);
            for Asked { turn, up, places } in ups(self.block, self.variant, free, self.unit.up_is_units) {
                let laid = lay_strip(&section.needed, &strip.needed, between, up, &measures)?;
                let bias_edges = bias_edges(&strip.polygon, laid.up);
                let count = places.saturating_mul(self.source.copies);
                let told = told(&laid, self.of().mirrored, print);
                cuts.push(Cut { section: index, strip: Some(k), turn, count, bias_edges, ..told });
            }
        }
        Some(())
    }
}

/// The cloth that a cut takes, in square inches: of halves and quarters their part of the square, of trapezoids half of two laid head to tail.
fn area(laid: &Laid) -> f64 {
    let whole = laid.width.to_inches() * laid.height.to_inches();
    match laid.shape {
        Shape::Rectangle => whole,
        Shape::HalfSquare => whole / 2.0,
        Shape::QuarterSquare => whole / 4.0,
        Shape::Trapezoid { trim: [start, end] } => {
            let most = start.to_inches().abs().max(end.to_inches().abs());
            (laid.width.to_inches() - most / 2.0) * laid.height.to_inches()
        }
    }
}

/// The turn in degrees after which a print looks as before; none where any turn will do.
const fn free_turn(direction: PrintDirection) -> Option<f64> {
    match direction {
        PrintDirection::None => None,
        PrintDirection::TwoWay => Some(180.0),
        PrintDirection::OneWay => Some(360.0),
    }
}

/// The ways in which cuts of a foundation must stand in the unit's frame, by turn.
///
/// `free` is the turn in degrees after which a cut is as good as before; none where all turns are.
fn ups(block: &Block, variant: usize, free: Option<f64>, own_up: bool) -> Vec<Asked> {
    let places = block.placements.iter().filter(|place| place.variant == variant);
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let Some(full) = free else {
        return vec![Asked { turn: Angle::default(), up: None, places: count(places.count()) }];
    };
    let up = Vector::new(0.0, -1.0);
    if own_up {
        return vec![Asked { turn: Angle::default(), up: Some(up), places: count(places.count()) }];
    }
    let mut found: Vec<Asked> = Vec::new();
    for place in places {
        let Some(back) = place.transform.inverse() else { continue };
        let here = back.apply_to_vector(up);
        // The bearing of the block's up in the unit's frame runs against the turn of the unit.
        let bearing = libm::atan2(here.x, -here.y);
        let degrees = (-Angle::radians(bearing).to_degrees()).rem_euclid(full);
        let degrees = (degrees * 1e6).round() / 1e6;
        let turn = Angle::degrees(if degrees >= full { 0.0 } else { degrees });
        if let Some(asked) = found.iter_mut().find(|asked| asked.turn == turn) {
            asked.places += 1;
        } else {
            let up = Vector::at_bearing(Angle::degrees(-turn.to_degrees()));
            found.push(Asked { turn, up: Some(up), places: 1 });
        }
    }
    found.sort_by(|a, b| a.turn.to_degrees().total_cmp(&b.turn.to_degrees()));
    found
}

/// A cut as the model tells it, for the first section and no place yet.
fn told(laid: &Laid, mirrored: bool, print: Print) -> Cut {
    // Seen from the printed side, with the section beyond the line, the seam starts on the left; a mirrored unit has it the other way round.
    let hand = |pair: [Length; 2]| if mirrored { [pair[1], pair[0]] } else { pair };
    // The lengthwise threads run up and down the strip's width, which is the height of the piece, unless the print runs across.
    let lengthwise = if print.across { laid.up.quarter_turned() } else { laid.up };
    // Rounded first, so that what is level but for a hair's breadth is level.
    let grain = ((lengthwise.angle().to_degrees() * 1e6).round() / 1e6).rem_euclid(180.0);
    // Seen right side up with the edge along its seam below, the seam ends on the left; a mirrored unit has it the other way round.
    let shape = match laid.shape {
        Shape::Trapezoid { trim: [start, end] } => {
            Shape::Trapezoid { trim: if mirrored { [start, end] } else { [end, start] } }
        }
        other => other,
    };
    Cut {
        section: 0,
        strip: None,
        turn: Angle::default(),
        count: 0,
        shape,
        width: laid.width,
        height: laid.height,
        corners: laid.corners.clone(),
        up: laid.up,
        motif: None,
        overhang: laid.play.overhang.map(hand),
        slack: Slack { along: hand(laid.play.along), across: laid.play.across, turn: laid.play.turn },
        grain: Angle::degrees(if grain >= 180.0 { 0.0 } else { grain }),
        bias_edges: Vec::new(),
    }
}

fn bias_edges(section: &Polygon, up: Vector) -> Vec<usize> {
    let off = |edge: Segment| {
        let along = up.angle().to_degrees() - (edge.end - edge.start).angle().to_degrees();
        let within = along.rem_euclid(90.0);
        within.min(90.0 - within)
    };
    section.edges().enumerate().filter(|(_, edge)| off(*edge) > BIAS + 1e-9).map(|(index, _)| index).collect()
}
