//! A unit: its own points, its outline, its sections and what is fastened to them.

use std::collections::BTreeMap;

use crate::fault::{Code, Fault, names, sections as words, sizes};
use crate::geometry::{Line, Point, Polygon, Tolerance};
use crate::notation::source::{Span, Spanned};
use crate::notation::syntax::{self, LineRef, LineValue, Name, Shape, Strips, Target, UnitItem};

use super::allow::{Allow, Site};
use super::block::Context;
use super::bounds::MOST_FAULTS;
use super::cuts::CutWish;
use super::pieced;
use super::scope::{Resolved, Scope};
use super::section_cuts;
use super::sections::{self, Claim, Claimed};
use super::statements::checked_count;
use super::tiling;
use super::{Section, Unit, UnitKind, extent_words};

/// Sections of one unit at the most.
const MAX_SECTIONS: u32 = 2_000;

/// A unit with what later passes need of it.
pub struct Drawn {
    /// The unit.
    pub unit: Unit,
    /// How often the author says it is sewn.
    pub sewn: Option<(u32, Span)>,
    /// Whether it stands where it is drawn.
    pub in_place: bool,
}

/// Resolves a unit; `index` is its number in the block. Faults go to the context.
pub fn unit(context: &mut Context<'_>, block_scope: &Scope<'_>, source: &syntax::Unit, index: usize) -> Option<Drawn> {
    let before = context.faults.len();
    let mut scope = Scope::new(Some(block_scope));
    let mut outline = None;
    let mut sewn = None;
    let mut up_is_units = false;
    let mut notes = Vec::new();
    let mut claims = Claims::default();
    let (mut strips, mut motifs) = (Vec::new(), Vec::new());
    let what = format!("the outline of unit `{}`", source.name.value);
    let tolerance = context.ground.tolerance;
    for item in &source.items {
        if context.faults.len() >= MOST_FAULTS {
            return None;
        }
        let result = match &item.value {
            UnitItem::Outline(path) => {
                if let Some((_, first)) = &outline {
                    Err(Box::new(names::doubled_statement(item.span, "outline", *first)))
                } else {
                    let drawn = scope.outline(path, &what, tolerance, |point| context.corners.snap(point));
                    // Even a faulty outline is one: without it, every section would be a consequence.
                    drawn.map(|polygon| outline = Some((polygon, item.span)))
                }
            }
            UnitItem::Point(point) => scope.define_point(point),
            UnitItem::Row(row) => scope.define_row(row),
            UnitItem::Measure(measure) => scope.define_measure(measure),
            UnitItem::Section(section) => claims.section(context, &scope, section, item.span),
            UnitItem::Strips(strips) => claims.strips(context, &scope, strips, item.span),
            UnitItem::Pieced(piece) => pieced::asked(context, &scope, piece, item.span).map(|asked| strips.push(asked)),
            UnitItem::Sewn(count) => checked_count(count, "the number of times it is sewn", 1, 100_000).map(|n| {
                sewn = Some((n, count.span));
            }),
            UnitItem::UpUnit => {
                up_is_units = true;
                Ok(())
            }
            UnitItem::Fussy(line) => section_cuts::motif(&scope, line, item.span).map(|motif| motifs.push(motif)),
            // These are fastened to sections, which may stand below.
            UnitItem::Note(_) | UnitItem::Step(_) | UnitItem::Allow(_) | UnitItem::Cut(_) | UnitItem::Ease(_) => Ok(()),
        };
        if let Err(fault) = result {
            context.faults.push(*fault);
        }
    }
    let outline = outline.map_or_else(|| context.ground.outline.clone(), |(polygon, _)| polygon);
    if let Err(fault) = claims.lay_strips(&outline, tolerance) {
        context.faults.push(*fault);
    }
    for (span, kind, name) in scope.unused() {
        context.warnings.push((Site::unit(context.block, index), names::unused_name(span, kind, name)));
    }
    if context.faults.len() > before {
        return None;
    }
    if let Some((what, most)) = context.spent.sections(claims.by_number.len() + strips.len()) {
        context.faults.push(sizes::count_out_of_range(source.name.span, what, 1, most));
    }
    if context.spent.over() {
        return None;
    }
    let claimed = claims.in_order(source, context.faults)?;
    let areas = sections::areas(&outline, &claimed, tolerance, context.faults)?;
    let open = tiling::gaps(&outline, &areas, tolerance);
    if !open.is_empty() {
        context.faults.push(words::section_gap(source.name.span, &source.name.value, &extent_words(&open)));
        return None;
    }
    let mut resolved: Vec<Section> = areas
        .into_iter()
        .zip(&claimed)
        .map(|(polygon, claimed)| Section {
            fabric: claims.by_number.get(&claimed.number).map_or(0, |claim| claim.fabric),
            polygon,
            pieced: Vec::new(),
            cut: CutWish::default(),
            motif: None,
            span: claimed.span,
            notes: Vec::new(),
            own_step: None,
        })
        .collect();
    let before = context.faults.len();
    pieced::divide(context, &mut resolved, &strips);
    if context.faults.len() > before {
        return None;
    }
    let cut = section_cuts::fasten(context, source, &motifs, &mut resolved);
    fasten(context, source, index, &mut resolved, &mut notes);
    let name = source.name.value.clone();
    let span = source.name.span;
    let unit = Unit { kind: UnitKind::Paper, name, span, outline, sections: resolved, up_is_units, cut, notes };
    Some(Drawn { unit, sewn, in_place: source.apart.is_none() })
}

/// Fastens notes, own steps and `allow` lines to the unit or its sections.
fn fasten(
    context: &mut Context<'_>,
    source: &syntax::Unit,
    index: usize,
    sections: &mut [Section],
    notes: &mut Vec<String>,
) {
    let count = sections.len();
    let find = |target: &Target| -> Resolved<usize> {
        match target {
            Target::Section(number) => (number.value as usize)
                .checked_sub(1)
                .filter(|&k| k < count)
                .ok_or_else(|| Box::new(names::unknown_name(number.span, "section", &number.value.to_string(), []))),
            Target::Join(name) => Err(Box::new(names::target_misplaced(
                name.span,
                &format!("join `{}`", name.value),
                "inside a unit, name a section by its number; a line for a join belongs in the block",
            ))),
        }
    };
    for item in &source.items {
        let result = match &item.value {
            UnitItem::Note(syntax::Note { target: None, text }) => {
                notes.push(text.value.clone());
                Ok(())
            }
            UnitItem::Note(syntax::Note { target: Some(target), text }) => {
                find(target).map(|k| sections[k].notes.push(text.value.clone()))
            }
            UnitItem::Step(step) => find(&step.target).map(|k| sections[k].own_step = Some(step.text.value.clone())),
            UnitItem::Allow(allow) => {
                let site = match &allow.target {
                    None => Ok(Site::unit(context.block, index)),
                    Some(target) => find(target).map(|k| Site::section(context.block, index, k)),
                };
                site.and_then(|site| context.allow(&allow.code, site, item.span))
            }
            _ => Ok(()),
        };
        if let Err(fault) = result {
            context.faults.push(*fault);
        }
    }
}

/// A section's claim and fabric.
struct ClaimOf {
    fabric: usize,
    claim: Claim,
    span: Span,
}

/// The claims of a unit, by number.
#[derive(Default)]
struct Claims {
    by_number: BTreeMap<u32, ClaimOf>,
    /// Strips whose lines end where the unit does.
    waiting: Vec<Laid>,
}

/// Strips with their fabrics and lines found.
struct Laid {
    numbers: (Spanned<u32>, Spanned<u32>),
    fabrics: Vec<usize>,
    from: StripEnd,
    to: StripEnd,
    span: Span,
}

/// The line along which strips begin or end.
#[derive(Clone, Copy)]
enum StripEnd {
    /// Between two points.
    Through(Point, Point),
    /// From side to side of the unit.
    Across(Line),
}

impl StripEnd {
    /// The ends of the line. One that misses the unit ends where it would if the unit were its bounding box, moved along.
    fn ends(self, within: Option<(&Polygon, Tolerance)>) -> Option<(Point, Point)> {
        match (self, within) {
            (Self::Through(a, b), _) => Some((a, b)),
            (Self::Across(line), Some((outline, tolerance))) => {
                if let Some(chord) = outline.chord(line, tolerance) {
                    return Some((chord.start, chord.end));
                }
                let (from, to) = outline.bounds();
                let corners = [from, Point::new(to.x, from.y), to, Point::new(from.x, to.y)];
                let feet = corners.map(|corner| line.position(corner));
                let least = feet.iter().copied().fold(f64::INFINITY, f64::min);
                let most = feet.iter().copied().fold(f64::NEG_INFINITY, f64::max);
                Some((line.at(least), line.at(most)))
            }
            (Self::Across(_), None) => None,
        }
    }
}

impl Claims {
    fn add(&mut self, number: &Spanned<u32>, fabric: usize, claim: Claim, span: Span) -> Resolved<()> {
        checked_count(number, "the number of a section", 1, MAX_SECTIONS)?;
        if let Some(first) = self.by_number.get(&number.value) {
            return Err(Box::new(words::section_number_doubled(number.span, number.value, first.span)));
        }
        self.by_number.insert(number.value, ClaimOf { fabric, claim, span });
        Ok(())
    }

    fn section(
        &mut self,
        context: &mut Context<'_>,
        scope: &Scope<'_>,
        section: &syntax::Section,
        span: Span,
    ) -> Resolved<()> {
        let fabric = context.fabrics.find(&section.fabric)?;
        let claim = match &section.shape {
            Shape::Polygon(path) => {
                let what = format!("section {}", section.number.value);
                let snap = |point: Point| context.corners.snap(point);
                Claim::Polygon(scope.outline(path, &what, context.ground.tolerance, snap)?)
            }
            Shape::Beyond(line) => Claim::Beyond(scope.line(line)?, line.span),
            Shape::Around(point) => Claim::Rest(scope.point(point)?, point.span()),
        };
        self.add(&section.number, fabric, claim, span)
    }

    /// Even strips: each but the first is all that lies past the line between it and the one before.
    fn strips(&mut self, context: &mut Context<'_>, scope: &Scope<'_>, strips: &Strips, span: Span) -> Resolved<()> {
        let fabrics: Vec<usize> =
            strips.fabrics.iter().map(|name| context.fabrics.find(name)).collect::<Resolved<_>>()?;
        let (first, last) = (strips.first.value, strips.last.value);
        if last < first || last > MAX_SECTIONS {
            let what = "the last number of the strips";
            return checked_count(&strips.last, what, first, MAX_SECTIONS).map(|_| ());
        }
        let end = |line: &LineRef| match &line.value {
            LineValue::Through(a, b) => scope.line_through((a, b)).map(|(a, b)| StripEnd::Through(a, b)),
            LineValue::Upright(_) | LineValue::Level(_) => scope.line(line).map(StripEnd::Across),
        };
        let (from, to) = (end(&strips.from)?, end(&strips.to)?);
        let numbers = (strips.first.clone(), strips.last.clone());
        let laid = Laid { numbers, fabrics, from, to, span };
        if matches!((from, to), (StripEnd::Through(..), StripEnd::Through(..))) {
            return self.lay(&laid, None);
        }
        // How far such a line reaches in the unit is known when its outline is.
        self.waiting.push(laid);
        Ok(())
    }

    /// Lays the strips that run to a level or upright line.
    fn lay_strips(&mut self, outline: &Polygon, tolerance: Tolerance) -> Resolved<()> {
        for laid in std::mem::take(&mut self.waiting) {
            self.lay(&laid, Some((outline, tolerance)))?;
        }
        Ok(())
    }

    fn lay(&mut self, laid: &Laid, within: Option<(&Polygon, Tolerance)>) -> Resolved<()> {
        let Laid { numbers: (first, last), fabrics, from, to, span } = laid;
        let nowhere = || Box::new(crate::fault::points::line_without_length(*span));
        let (a, b) = from.ends(within).ok_or_else(nowhere)?;
        let (mut c, mut d) = to.ends(within).ok_or_else(nowhere)?;
        if (b - a).dot(d - c) < 0.0 {
            std::mem::swap(&mut c, &mut d);
        }
        let count = f64::from(last.value - first.value + 1);
        let beyond = c.middle(d);
        for (k, number) in (first.value..=last.value).enumerate() {
            let fabric = fabrics.get(k % fabrics.len().max(1)).copied().unwrap_or(0);
            #[expect(clippy::cast_precision_loss, reason = "at most MAX_SECTIONS")]
            let fraction = k as f64 / count;
            let claim = if number == 1 {
                Claim::Rest(a.along(c, 0.5 / count).middle(b.along(d, 0.5 / count)), *span)
            } else {
                let line = Line::through(a.along(c, fraction), b.along(d, fraction)).ok_or_else(nowhere)?;
                Claim::RightOf(if line.distance_right(beyond) < 0.0 { line.reversed() } else { line }, *span)
            };
            let number = Spanned::new(number, if k == 0 { first.span } else { last.span });
            self.add(&number, fabric, claim, *span)?;
        }
        Ok(())
    }

    /// The claims in the order of sewing, if the numbers are 1, 2, 3, ….
    fn in_order(&self, source: &syntax::Unit, faults: &mut Vec<Fault>) -> Option<Vec<Claimed>> {
        if self.by_number.is_empty() {
            faults.push(words::no_sections(source.name.span, &source.name.value));
            return None;
        }
        let missing = (1..).zip(self.by_number.keys()).find(|(expected, number)| expected != *number);
        if let Some((missing, number)) = missing {
            let span = self.by_number.get(number).map_or(source.name.span, |claim| claim.span);
            faults.push(words::section_number_missing(span, &source.name.value, missing));
            return None;
        }
        let claimed =
            self.by_number.iter().map(|(&number, of)| Claimed { number, claim: of.claim.clone(), span: of.span });
        Some(claimed.collect())
    }
}

/// The fabrics by key, and whether they are used.
pub struct Fabrics {
    by_key: BTreeMap<String, (usize, Span, bool, bool)>,
}

impl Fabrics {
    /// No fabrics yet.
    pub fn new() -> Self {
        Self { by_key: BTreeMap::new() }
    }

    /// Takes a fabric in. `shared` ones need not be used.
    pub fn define(&mut self, key: &Name, index: usize, shared: bool) -> Resolved<()> {
        if let Some(&(_, first, ..)) = self.by_key.get(&key.value) {
            return Err(Box::new(names::doubled_name(key.span, &key.value, Some(first))));
        }
        self.by_key.insert(key.value.clone(), (index, key.span, shared, false));
        Ok(())
    }

    /// The index of a fabric.
    pub fn find(&mut self, key: &Name) -> Resolved<usize> {
        if let Some((index, _, _, used)) = self.by_key.get_mut(&key.value) {
            *used = true;
            return Ok(*index);
        }
        let known = self.by_key.keys().map(String::as_str);
        Err(Box::new(names::unknown_name(key.span, "fabric", &key.value, known)))
    }

    /// The index of a fabric that a line speaks of without sewing anything in it, so that it does not count as used.
    pub fn known(&self, key: &Name) -> Resolved<usize> {
        let known = self.by_key.keys().map(String::as_str);
        let unknown = || Box::new(names::unknown_name(key.span, "fabric", &key.value, known));
        self.by_key.get(&key.value).map(|&(index, ..)| index).ok_or_else(unknown)
    }

    /// The fabrics that are not shared and never used.
    pub fn unused(&self) -> impl Iterator<Item = (Span, &str)> {
        self.by_key
            .iter()
            .filter(|(_, (_, _, shared, used))| !shared && !used)
            .map(|(key, &(_, span, ..))| (span, key.as_str()))
    }
}

impl Context<'_> {
    /// Takes an `allow` line in.
    pub fn allow(&mut self, code: &Name, site: Site, span: Span) -> Resolved<()> {
        self.allows.push(allow_line(code, site, span)?);
        Ok(())
    }
}

/// An `allow` line, if its code is that of a warning.
pub fn allow_line(code: &Name, site: Site, span: Span) -> Resolved<Allow> {
    match Code::from_slug(&code.value).filter(|code| code.severity() != crate::fault::Severity::Error) {
        Some(found) => Ok(Allow { code: found, site, span }),
        None => Err(Box::new(names::cannot_allow(code.span, &code.value))),
    }
}
