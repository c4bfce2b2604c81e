//! What is hard to sew at one size: warnings with the site where they arise.

use std::collections::{BTreeMap, BTreeSet};

use crate::fault::{Fault, pieced, plain, points, sewing};
use crate::geometry::{Length, Point, Polygon, Segment, Tolerance};
use crate::pattern::facts::SHOWS_THROUGH;
use crate::pattern::{Block, Pattern, Section, Site, Unit, UnitKind, corner_words, number_words};
use crate::piecing::{BlockProof, JoinKind, Proof, inner_seams};

use super::turns::little_turns;
use super::{Model, Units};

/// Sections narrower than this are warned of.
const NARROW: Length = Length::inches(0.25);
/// Seams shorter than this are warned of.
const SHORT: Length = Length::inches(0.5);
/// Tips sharper than this are warned of, in degrees.
const SHARP: f64 = 20.0;
/// More layers than this at one point are warned of.
const THICK: u32 = 12;
/// Seam ends that miss each other by less than this are warned of.
const NEAR_MISS: Length = Length::inches(0.0625);

/// So many published sizes are told at which a plain piece cannot be cut by the marks of a ruler.
const SIZES_TOLD: usize = 3;
/// What nobody sees on a ruler.
const UNSEEN: Length = Length::inches(1e-4);

/// A piece by its section and its fabric.
type Piece = (usize, usize);

/// All warnings about sewing a pattern at the size of this model.
#[must_use]
pub fn warnings(pattern: &Pattern, proof: &Proof, model: &Model) -> Vec<(Site, Fault)> {
    let mut found = Vec::new();
    for (index, (block, proof)) in pattern.blocks.iter().zip(&proof.blocks).enumerate() {
        let (_, to) = block.outline.bounds();
        let scale = model.blocks.get(index).map_or(0.0, |sized| sized.width.to_inches() / to.x);
        let look = Look { pattern, block, proof, index, scale };
        for (unit_index, unit) in block.units.iter().enumerate() {
            look.unit(unit_index, unit, &mut found);
        }
        look.near_misses(&mut found);
        look.short_openings(&mut found);
        look.vertices(&mut found);
    }
    wide_cuts(pattern, model, &mut found);
    little_turns(pattern, model, &mut found);
    found
}

struct Look<'a> {
    pattern: &'a Pattern,
    block: &'a Block,
    proof: &'a BlockProof,
    index: usize,
    /// Inches to a step.
    scale: f64,
}

impl Look<'_> {
    fn words(&self, steps: f64) -> String {
        length_words(Length::inches(steps * self.scale), self.pattern.units)
    }

    fn unit(&self, unit_index: usize, unit: &Unit, found: &mut Vec<(Site, Fault)>) {
        if unit.kind == UnitKind::Plain {
            self.plain(unit_index, unit, found);
            return;
        }
        let slightly = 1.0 - 1e-6;
        for (k, section) in unit.sections.iter().enumerate() {
            let site = Site::section(self.index, unit_index, k);
            let width = section.polygon.width();
            if width * self.scale < NARROW.to_inches() * slightly {
                found.push((
                    site,
                    sewing::narrow_section(section.span, &format!("section {}", k + 1), &self.words(width)),
                ));
            }
            self.strips(site, section, k, found);
            let seam = self.proof.seams[unit_index][k];
            if let Some(length) = seam.map(Segment::length).filter(|l| l * self.scale < SHORT.to_inches() * slightly) {
                found.push((site, sewing::short_seam(section.span, k + 1, &self.words(length))));
            }
            let corners = section.polygon.corners();
            let n = corners.len();
            for i in 0..n {
                let (a, b) = (corners[(i + n - 1) % n] - corners[i], corners[(i + 1) % n] - corners[i]);
                let degrees = libm::atan2(a.cross(b).abs(), a.dot(b)).to_degrees();
                if degrees < SHARP - 1e-6 {
                    let words = number_words((degrees * 10.0).round() / 10.0);
                    found.push((site, sewing::sharp_tip(section.span, k + 1, &words, &corner_words(corners[i]))));
                    break;
                }
            }
        }
        self.show_through(unit_index, unit, found);
    }

    /// What is hard about a plain piece: at this size its width, at any published one a side that no ruler shows.
    fn plain(&self, unit_index: usize, unit: &Unit, found: &mut Vec<(Site, Fault)>) {
        let site = Site::unit(self.index, unit_index);
        let width = unit.outline.width();
        if width * self.scale < NARROW.to_inches() * (1.0 - 1e-6) {
            let what = format!("the plain piece `{}`", unit.name);
            found.push((site, sewing::narrow_section(unit.span, &what, &self.words(width))));
        }
        let sides: Vec<f64> = unit.outline.edges().take(2).map(Segment::length).collect();
        if let Some((sizes, more)) = self.off_the_ruler(&sides, "side") {
            found.push((site, plain::off_the_ruler(unit.span, &unit.name, &sizes, self.marks(), more)));
        }
    }

    /// What is hard about the strips of a pieced section: narrow ones at this size, and those between two others whose width no ruler shows.
    fn strips(&self, site: Site, section: &Section, k: usize, found: &mut Vec<(Site, Fault)>) {
        for strip in &section.pieced {
            let width = strip.polygon.width();
            if width * self.scale < NARROW.to_inches() * (1.0 - 1e-6) {
                let what = format!("a strip of section {}", k + 1);
                found.push((site, sewing::narrow_section(strip.span, &what, &self.words(width))));
            }
        }
        for pair in section.pieced.windows(2) {
            let [before, strip] = pair else { continue };
            let (Some(line), Some(after)) = (before.seam.and_then(Segment::line), strip.seam) else { continue };
            if let Some((sizes, more)) = self.off_the_ruler(&[line.distance_right(after.start).abs()], "width") {
                found.push((site, pieced::off_the_ruler(strip.span, k + 1, &sizes, self.marks(), more)));
            }
        }
    }

    /// The published sizes at which some of these lengths, in steps and without their two allowances, stand on no mark of a ruler: the first few in
    /// words, and how many more. `what` they are: sides.
    fn off_the_ruler(&self, lengths: &[f64], what: &str) -> Option<(Vec<String>, usize)> {
        let sizes = self.pattern.sizes.iter().filter_map(|size| {
            let scale = self.block.step.to_inches() * size.factor;
            let cut = |&length: &f64| Length::inches(length * scale) + self.pattern.allowance * 2.0;
            let off: Vec<String> =
                lengths.iter().map(cut).filter_map(|cut| off_the_ruler(cut, self.pattern.units)).collect();
            match off.as_slice() {
                [] => None,
                [one] if lengths.len() > 1 => Some(format!("at {} one {what} is {one}", size.label)),
                [one] => Some(format!("at {} the {what} is {one}", size.label)),
                _ => Some(format!("at {} its {what}s are {}", size.label, off.join(" and "))),
            }
        });
        let mut sizes: Vec<String> = sizes.collect();
        let more = sizes.len().saturating_sub(SIZES_TOLD);
        sizes.truncate(SIZES_TOLD);
        (!sizes.is_empty()).then_some((sizes, more))
    }

    /// What rulers are marked in.
    const fn marks(&self) -> &'static str {
        match self.pattern.units {
            Units::Inches => "sixteenths of an inch",
            Units::Metric => "millimetres",
        }
    }

    /// Warns once a unit, of the greatest difference.
    fn show_through(&self, unit_index: usize, unit: &Unit, found: &mut Vec<(Site, Fault)>) {
        let lightness = |fabric: usize| self.pattern.fabrics[self.pattern.fabric(fabric)].lightness();
        let mut worst: Option<(f64, Piece, Piece)> = None;
        for (k, seam) in self.proof.seams[unit_index].iter().enumerate() {
            let Some(line) = seam.and_then(Segment::line) else { continue };
            // Of a pieced section only the strips that lie along the line.
            let touches = |area: &Polygon| {
                area.edges().any(|edge| {
                    let on = |p: Point| self.block.tolerance.is_zero(line.distance_right(p));
                    on(edge.start) && on(edge.end)
                })
            };
            for (light, _) in areas(&unit.sections[k]).filter(|(_, area)| touches(area)) {
                for (j, (dark, area)) in (0..k).flat_map(|j| areas(&unit.sections[j]).map(move |area| (j, area))) {
                    let difference = lightness(light) - lightness(dark);
                    if difference <= SHOWS_THROUGH || worst.is_some_and(|(most, ..)| difference <= most) {
                        continue;
                    }
                    if touches(area) {
                        worst = Some((difference, (k, light), (j, dark)));
                    }
                }
            }
        }
        if let Some((_, (light, light_fabric), (dark, dark_fabric))) = worst {
            let name = |fabric: usize| format!("`{}`", self.pattern.fabrics[self.pattern.fabric(fabric)].key);
            let (span, earlier) = (unit.sections[light].span, unit.sections[dark].span);
            let fault = sewing::dark_under_light(span, light + 1, &name(light_fabric), &name(dark_fabric), earlier);
            found.push((Site::section(self.index, unit_index, light), fault));
        }
    }

    /// Warns of partial seams that leave less open than an allowance.
    fn short_openings(&self, found: &mut Vec<(Site, Fault)>) {
        for join in &self.proof.joins {
            let JoinKind::Partial { first, corner, .. } = &join.kind else { continue };
            let open = first.end.distance(*corner);
            let allowance = self.pattern.allowance;
            if let Some(stated) = join.stated
                && open * self.scale < allowance.to_inches() * (1.0 - 1e-6)
            {
                let allowance = length_words(allowance, self.pattern.units);
                let fault = sewing::short_partial(self.block.joins[stated].span, &self.words(open), &allowance);
                found.push((Site::join(self.index, stated), fault));
            }
        }
    }

    fn near_misses(&self, found: &mut Vec<(Site, Fault)>) {
        for join in &self.proof.joins {
            let [left, right] = &join.loose_ends;
            for a in left {
                // Of many that lie near, the nearest is meant.
                let Some(distance) = right.iter().map(|b| a.distance(*b)).min_by(f64::total_cmp) else { break };
                // Nearer still, they are two corners that ought to be one, and told as such.
                let suspicious = distance <= self.block.tolerance.suspicious();
                if distance * self.scale < NEAR_MISS.to_inches() && !suspicious {
                    let name = |places: &[usize]| {
                        places.first().map_or_else(String::new, |&place| self.block.placements[place].called())
                    };
                    let join_words = format!("`{}` and `{}`", name(&join.left), name(&join.right));
                    let span = join.stated.map_or(self.block.span, |stated| self.block.joins[stated].span);
                    let site = join.stated.map_or(Site::block(self.index), |s| Site::join(self.index, s));
                    let fault = sewing::near_miss(span, &join_words, &corner_words(*a), &self.words(distance));
                    found.push((site, fault));
                }
            }
        }
    }

    /// Points where many seams meet, and corners that nearly coincide.
    fn vertices(&self, found: &mut Vec<(Site, Fault)>) {
        let tolerance = self.block.tolerance;
        let mut corners: Vec<(Point, usize, usize)> = Vec::new();
        let mut seams: Vec<Segment> = self.proof.joins.iter().map(|join| join.seam).collect();
        for placement in &self.block.placements {
            let map = placement.transform;
            for (k, section) in self.block.units[placement.unit].sections.iter().enumerate() {
                corners.extend(section.polygon.corners().iter().map(|&c| (map.apply(c), placement.unit, k)));
                let strips = section.pieced.iter().flat_map(|strip| strip.polygon.corners());
                corners.extend(strips.map(|&c| (map.apply(c), placement.unit, k)));
            }
            let own = self.proof.seams[placement.unit].iter().flatten();
            seams.extend(own.map(|seam| map.apply_to_segment(*seam)));
            let unit = &self.block.units[placement.unit];
            seams.extend(inner_seams(self.pattern, unit).map(|seam| map.apply_to_segment(seam)));
        }
        corners.sort_by(|a, b| a.0.x.total_cmp(&b.0.x).then(a.0.y.total_cmp(&b.0.y)));
        self.near_points(&corners, found);
        // Of corners that coincide, one.
        let mut cells = Cells::new(tolerance.distance());
        let mut distinct: Vec<Point> = Vec::new();
        for &(corner, ..) in &corners {
            if cells.near(corner).all(|index| !tolerance.is_zero(distinct[index].distance(corner))) {
                cells.put(corner, distinct.len());
                distinct.push(corner);
            }
        }
        let mut by_height: Vec<usize> = (0..distinct.len()).collect();
        by_height.sort_by(|&a, &b| distinct[a].y.total_cmp(&distinct[b].y));
        let mut rays = vec![0_u32; distinct.len()];
        for seam in seams {
            // The points in reach across and down; whichever are fewer are looked at.
            let reach = tolerance.distance();
            let (left, right) = (seam.start.x.min(seam.end.x) - reach, seam.start.x.max(seam.end.x) + reach);
            let (top, bottom) = (seam.start.y.min(seam.end.y) - reach, seam.start.y.max(seam.end.y) + reach);
            let across = distinct.partition_point(|p| p.x < left)..distinct.partition_point(|p| p.x <= right);
            let down = by_height.partition_point(|&i| distinct[i].y < top)
                ..by_height.partition_point(|&i| distinct[i].y <= bottom);
            let mut count = |index: usize| {
                let point = distinct[index];
                if tolerance.is_zero(seam.distance(point)) {
                    let at_end = [seam.start, seam.end].iter().any(|end| tolerance.is_zero(end.distance(point)));
                    rays[index] += if at_end { 1 } else { 2 };
                }
            };
            if across.len() <= down.len() {
                across.for_each(count);
            } else {
                by_height[down].iter().for_each(|&index| count(index));
            }
        }
        for (point, rays) in distinct.iter().zip(rays) {
            if 2 * rays > THICK {
                let fault = sewing::thick_point(self.block.span, &corner_words(*point), 2 * rays);
                found.push((Site::block(self.index), fault));
            }
        }
    }

    /// Warns once of each pair of places.
    fn near_points(&self, corners: &[(Point, usize, usize)], found: &mut Vec<(Site, Fault)>) {
        let tolerance: Tolerance = self.block.tolerance;
        let mut said: Vec<(Point, Point)> = Vec::new();
        let mut cells = Cells::new(tolerance.suspicious());
        for (i, &(corner, ..)) in corners.iter().enumerate() {
            cells.put(corner, i);
        }
        for (i, &(corner, unit, section)) in corners.iter().enumerate() {
            let mut near: Vec<usize> = cells.near(corner).filter(|&other| other > i).collect();
            near.sort_unstable();
            for (other, other_unit, other_section) in near.into_iter().map(|other| corners[other]) {
                let distance = corner.distance(other);
                if tolerance.is_zero(distance) || distance > tolerance.suspicious() {
                    continue;
                }
                if said.len() >= 50 {
                    return;
                }
                let same = |a: Point, b: Point| tolerance.is_zero(a.distance(b));
                if said.iter().any(|&(p, q)| (same(p, corner) && same(q, other)) || (same(q, corner) && same(p, other)))
                {
                    continue;
                }
                said.push((corner, other));
                let span = |unit: usize, section: usize| self.block.units[unit].sections[section].span;
                let distance = format!("{} steps", number_words(distance));
                let site = Site::section(self.index, unit, section);
                let (here, there) = (span(unit, section), span(other_unit, other_section));
                found.push((site, points::near_points(here, there, &distance)));
            }
        }
    }
}

/// Points by square cells, to find those near to a given one.
struct Cells {
    size: f64,
    cells: BTreeMap<(i64, i64), Vec<usize>>,
}

impl Cells {
    /// No points yet. Those within `reach` of each other will be found.
    fn new(reach: f64) -> Self {
        Self { size: reach.max(f64::MIN_POSITIVE), cells: BTreeMap::new() }
    }

    #[expect(clippy::cast_possible_truncation, reason = "floats saturate, and far cells may well be shared")]
    fn cell(&self, point: Point) -> (i64, i64) {
        ((point.x / self.size).floor() as i64, (point.y / self.size).floor() as i64)
    }

    fn put(&mut self, point: Point, index: usize) {
        self.cells.entry(self.cell(point)).or_default().push(index);
    }

    /// All that lie within reach, and some that lie a little further. O(log n + what is found).
    fn near(&self, point: Point) -> impl Iterator<Item = usize> + '_ {
        let (column, row) = self.cell(point);
        (-1..=1).flat_map(move |dx| {
            let (column, rows) = (column.saturating_add(dx), row.saturating_sub(1)..=row.saturating_add(1));
            let range = self.cells.range((column, *rows.start())..=(column, *rows.end()));
            range.flat_map(|(_, indices)| indices.iter().copied())
        })
    }
}

fn wide_cuts(pattern: &Pattern, model: &Model, found: &mut Vec<(Site, Fault)>) {
    for cutting in &model.cutting {
        // Of each kind of piece one is enough.
        let mut said = BTreeSet::new();
        for strip in &cutting.strips {
            for piece in &strip.pieces {
                let group = &cutting.pieces[piece.group];
                let blank = group.blanks.get(piece.blank);
                let sides = blank.map_or((group.width, group.height), |blank| (blank.width, blank.height));
                let (along, across) = if piece.turned { (sides.1, sides.0) } else { sides };
                let slack = Length::inches(1e-6);
                let too_high = cutting.sheet.1.is_some_and(|usable| across > usable + slack);
                if (along > cutting.sheet.0 + slack || too_high)
                    && said.insert(piece.group)
                    && let Some(used) = group.uses.first()
                {
                    let words = |length| length_words(length, pattern.units);
                    let size = format!("{} x {}", words(group.width), words(group.height));
                    let fabric = format!("`{}`", model.fabrics[cutting.fabric].key);
                    let span = pattern.blocks[used.block].span;
                    let fault = sewing::wide_cut(span, &group.label, &size, &fabric);
                    found.push((Site::block(used.block), fault));
                }
            }
        }
    }
}

/// The areas of one fabric of a section: itself, or its strips.
fn areas(section: &Section) -> impl Iterator<Item = (usize, &Polygon)> {
    let own = section.pieced.is_empty().then_some((section.fabric, &section.polygon));
    own.into_iter().chain(section.pieced.iter().map(|strip| (strip.fabric, &strip.polygon)))
}

/// What is off about a side that lies between two marks of a ruler: `3.27 in (0.02 in over 3 1/4 in)`; none for one on a mark.
fn off_the_ruler(side: Length, units: Units) -> Option<String> {
    let (count, mark, name) = match units {
        Units::Inches => (side.to_inches(), 1.0 / 16.0, "in"),
        Units::Metric => (side.to_millimetres(), 1.0, "mm"),
    };
    let nearest = (count / mark).round() * mark;
    let off = count - nearest;
    let unseen = if units == Units::Inches { UNSEEN.to_inches() } else { UNSEEN.to_millimetres() };
    (off.abs() > unseen).then(|| {
        let thousandths = |number: f64| (number * 1e3).round() / 1e3;
        let way = if off > 0.0 { "over" } else { "under" };
        let (side, off, mark) = (thousandths(count), thousandths(off.abs()), number_words(nearest));
        format!("{side} {name} ({off} {name} {way} {mark} {name})")
    })
}

/// A length in words, for faults: inches in hundredths, or millimetres in tenths.
fn length_words(length: Length, units: Units) -> String {
    match units {
        Units::Inches => format!("{} in", number_words((length.to_inches() * 100.0).round() / 100.0)),
        Units::Metric => format!("{} mm", number_words((length.to_millimetres() * 10.0).round() / 10.0)),
    }
}
