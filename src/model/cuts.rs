//! The rough cuts of every foundation.

use crate::cutting::{
    Between, Laid, Measures, Orientation, RightTriangle, cut_to_size, lay, lay_strip, lay_trapezoid, lay_triangle,
};
use crate::geometry::{Angle, Length, Point, Polygon, Segment, Tolerance, Transform, Vector};
use crate::pattern::{self, CutRule, CutShape, Lie, Pattern};

use super::build::Sized;
use super::{Block, Cut, Print, PrintDirection, Section, Shape, Slack, UnitKind, Units, Variant};

/// Edges that lie further off both threads than this are on the bias.
const BIAS: f64 = 22.5;

/// A foundation whose pieces are cut.
struct Bench<'a> {
    sized: &'a Sized<'a>,
    block: &'a Block,
    variant: &'a Variant,
    /// The unit in the pattern.
    source: &'a pattern::Unit,
    measures: Measures,
}

/// The rough cuts of a foundation: by section, then by turn. `order` gives the pattern's unit for each of the block's.
pub(super) fn cuts(sized: &Sized<'_>, block: &Block, variant: usize, order: &[usize]) -> Option<Vec<Cut>> {
    let of = &block.variants[variant];
    let source = &sized.source.units[order[of.unit]];
    let measures = measures(sized.pattern, sized.source.tolerance.scaled(sized.scale));
    let bench = Bench { sized, block, variant: of, source, measures };
    let mut cuts = Vec::new();
    for (index, section) in block.units[of.unit].sections.iter().enumerate() {
        if section.pieced.is_empty() {
            bench.section(variant, (index, section), &mut cuts)?;
        } else {
            bench.strips(variant, (index, section), &mut cuts)?;
        }
    }
    Some(cuts)
}

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

impl Bench<'_> {
    fn section(&self, variant: usize, (index, section): (usize, &Section), cuts: &mut Vec<Cut>) -> Option<()> {
        let fabric = self.variant.fabrics[index];
        let print = self.sized.pattern.fabrics[fabric].print;
        let rule = self.sized.pattern.cut_rule(self.source, &self.source.sections[index], fabric);
        let measures = Measures { ease: rule.ease, ..self.measures };
        let plain = self.block.units[self.variant.unit].kind == UnitKind::Plain;
        // A motif has an up as a print has that is one-way.
        let directed = if rule.motif.is_some() { PrintDirection::OneWay } else { print.direction };
        let free_turn = match directed {
            PrintDirection::None if rule.lie == Lie::OnGrain && !plain => Some(90.0),
            PrintDirection::None => None,
            PrintDirection::TwoWay => Some(180.0),
            PrintDirection::OneWay => Some(360.0),
        };
        for (turn, up, places) in ups(self.block, variant, free_turn, self.source.up_is_units) {
            let laid = match up {
                _ if plain => cut_to_size(&section.needed, up)?,
                // Halves of a square with a direction would point two ways: a print that stands upright is cut as a rectangle.
                Some(up) if directed != PrintDirection::None => {
                    lay(&section.needed, section.seam, Orientation::Up(up), &measures)?
                }
                up => self.free(section, up, rule, &measures)?,
            };
            let bias_edges = bias_edges(&section.polygon, laid.up);
            let motif = rule.motif.map(|motif| Transform::scale(self.sized.scale).apply(motif));
            let count = places.saturating_mul(self.sized.source.copies);
            let cut = cut(&laid, self.variant.mirrored, print);
            cuts.push(Cut { section: index, turn, count, motif, bias_edges, ..cut });
        }
        Some(())
    }

    /// The cut of a section whose fabric may be turned at will; `grain` is the block's up where that is to decide.
    fn free(&self, section: &Section, grain: Option<Vector>, rule: CutRule, measures: &Measures) -> Option<Laid> {
        let (needed, seam) = (&section.needed, section.seam);
        let outer = self.outer_edge(section);
        let along = |way: Vector| lay(needed, seam, Orientation::Up(way), measures);
        let rectangle = match (rule.lie, grain, outer) {
            (Lie::OnGrain, Some(up), _) => along(up)?,
            (Lie::OuterEdges, _, Some(edge)) => along((edge.end - edge.start).quarter_turned())?,
            (Lie::LeastCloth, ..) => {
                let first = lay(needed, seam, Orientation::AlongSeam, measures)?;
                let ways = needed.edges().filter_map(|edge| along((edge.end - edge.start).quarter_turned()));
                ways.fold(first, |best, next| if area(&next) < area(&best) - 1e-9 { next } else { best })
            }
            _ => lay(needed, seam, Orientation::AlongSeam, measures)?,
        };
        let triangle = RightTriangle::of(&section.polygon);
        let square = |quarter: bool| lay_triangle(needed, triangle?, seam, quarter, measures);
        let shaped = match rule.shape {
            CutShape::Rectangle => None,
            CutShape::HalfSquare => square(false),
            CutShape::QuarterSquare => square(true),
            CutShape::Triangles if rule.lie == Lie::LeastCloth => [square(false), square(true)]
                .into_iter()
                .flatten()
                .reduce(|a, b| if area(&b) < area(&a) - 1e-9 { b } else { a }),
            CutShape::Triangles => {
                triangle.and_then(|of| square(outer.is_none_or(|edge| is_same(edge, of.long_side()))))
            }
            CutShape::Trapezoid => seam.and_then(|seam| lay_trapezoid(needed, seam, measures)),
        };
        Some(match shaped {
            Some(shaped) if rule.shape != CutShape::Trapezoid || area(&shaped) < area(&rectangle) - 1e-9 => shaped,
            _ => rectangle,
        })
    }

    /// The longest edge of a section that is an outer edge of the block at any place of the foundation.
    fn outer_edge(&self, section: &Section) -> Option<Segment> {
        let places = self
            .block
            .placements
            .iter()
            .filter(|place| std::ptr::eq(self.variant, &raw const self.block.variants[place.variant]));
        let near = self.measures.tolerance;
        let maps: Vec<Transform> = places.map(|place| place.transform).collect();
        let is_outer = |edge: &Segment| {
            maps.iter().any(|map| {
                let edge = map.apply_to_segment(*edge);
                let on =
                    |outline: &Segment| [edge.start, edge.end].iter().all(|&end| near.is_zero(outline.distance(end)));
                self.block.outline.edges().any(|outline| on(&outline))
            })
        };
        let longer =
            |best: Segment, next: Segment| if next.length() > best.length() * (1.0 + 1e-9) { next } else { best };
        section.polygon.edges().filter(is_outer).reduce(longer)
    }

    /// The cuts of the strips of a pieced section, strip by strip.
    fn strips(&self, variant: usize, (index, section): (usize, &Section), cuts: &mut Vec<Cut>) -> Option<()> {
        for (k, strip) in section.pieced.iter().enumerate() {
            let before = k.checked_sub(1).and_then(|before| section.pieced[before].seam);
            let between = Between { before, after: strip.seam };
            let fabric = self.variant.fabric_of(index, Some(k))?;
            let print = self.sized.pattern.fabrics[fabric].print;
            let rule = self.sized.pattern.cut_rule(self.source, &self.source.sections[index], fabric);
            let measures = Measures { ease: rule.ease, ..self.measures };
            let free_turn = match print.direction {
                PrintDirection::None => None,
                PrintDirection::TwoWay => Some(180.0),
                PrintDirection::OneWay => Some(360.0),
            };
            for (turn, up, places) in ups(self.block, variant, free_turn, self.source.up_is_units) {
                let laid = lay_strip(&section.needed, &strip.needed, between, up, &measures)?;
                let bias_edges = bias_edges(&strip.polygon, laid.up);
                let count = places.saturating_mul(self.sized.source.copies);
                let cut = cut(&laid, self.variant.mirrored, print);
                cuts.push(Cut { section: index, strip: Some(k), turn, count, bias_edges, ..cut });
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

/// Whether two segments are the same, either way round.
fn is_same(a: Segment, b: Segment) -> bool {
    let near = Tolerance::of_extent(a.length().max(b.length()));
    let one = |p: Point, q: Point| near.is_zero(p.distance(q));
    (one(a.start, b.start) && one(a.end, b.end)) || (one(a.start, b.end) && one(a.end, b.start))
}

/// The ways in which cuts of a foundation must stand in the unit's frame, each with the turn it is for and the number of places in the block.
///
/// `free` is the turn in degrees after which a cut is as good as before; none where all turns are.
fn ups(block: &Block, variant: usize, free: Option<f64>, own_up: bool) -> Vec<(Angle, Option<Vector>, u32)> {
    let places = block.placements.iter().filter(|place| place.variant == variant);
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let Some(full) = free else { return vec![(Angle::default(), None, count(places.count()))] };
    let up = Vector::new(0.0, -1.0);
    if own_up {
        return vec![(Angle::default(), Some(up), count(places.count()))];
    }
    let mut found: Vec<(Angle, Option<Vector>, u32)> = Vec::new();
    for place in places {
        let Some(back) = place.transform.inverse() else { continue };
        let here = back.apply_to_vector(up);
        // The bearing of the block's up in the unit's frame runs against the turn of the unit.
        let bearing = libm::atan2(here.x, -here.y);
        let degrees = (-Angle::radians(bearing).to_degrees()).rem_euclid(full);
        let degrees = (degrees * 1e6).round() / 1e6;
        let turn = Angle::degrees(if degrees >= full { 0.0 } else { degrees });
        match found.iter_mut().find(|(other, ..)| *other == turn) {
            Some((_, _, places)) => *places += 1,
            None => found.push((turn, Some(Vector::at_bearing(Angle::degrees(-turn.to_degrees()))), 1)),
        }
    }
    found.sort_by(|a, b| a.0.to_degrees().total_cmp(&b.0.to_degrees()));
    found
}

/// A cut as the model tells it, for the first section and no place yet.
fn cut(laid: &Laid, mirrored: bool, print: Print) -> Cut {
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
