//! The model of a proved pattern at one size.

use crate::cutting::{needs, strip_needs};
use crate::geometry::{Length, Line, Polygon, Segment, Transform};
use crate::pattern::{self, Effort, Manner, Pattern, number_words};
use crate::piecing::{BlockProof, Proof, pressed_to_next};

use super::{
    Block, ColouredAmounts, Colouring, Division, Join, JoinKind, MatchPoint, Model, Paper, PiecedStrip, Placement,
    Section, Unit, Units, Variant, cuts, cutting,
};

/// Makes the model of a proved pattern at one of its sizes, by its index in [`Pattern::sizes`]; `None` if there is no such size.
///
/// `proof` is the proof of this pattern. O(sections × corners²).
#[must_use]
pub fn build(pattern: &Pattern, proof: &Proof, size: usize) -> Option<Model> {
    let blocks = blocks(pattern, proof, size)?;
    let label = &pattern.sizes.get(size)?.label;
    let cutting = cutting::cutting(pattern, &blocks);
    let drawn = pattern.colouring.is_none() && pattern.effort != Effort::Quick;
    let in_colourings = if drawn { coloured_amounts(pattern, proof, size)? } else { Vec::new() };
    Some(Model {
        facts: pattern.facts.clone(),
        size: label.clone(),
        allowance: pattern.allowance,
        ease: pattern.ease,
        units: pattern.units,
        paper: pattern.papers.first().copied().unwrap_or(Paper::Letter),
        papers: pattern.papers.clone(),
        sheets: pattern.sheets.clone(),
        language: pattern.language.clone(),
        colouring: pattern.colouring.and_then(|index| pattern.colourings.get(index)).map(|c| c.title.clone()),
        colourings: pattern
            .colourings
            .iter()
            .map(|colouring| Colouring { title: colouring.title.clone(), fabrics: colouring.fabrics.clone() })
            .collect(),
        fabrics: pattern.fabrics.clone(),
        blocks,
        cutting,
        cloth: pattern.cloth.clone(),
        people: pattern.people,
        in_colourings,
        effort: pattern.effort,
    })
}

/// What to buy in each of the colourings of a pattern that is in none, at one of its sizes. `None` if there is no such size.
fn coloured_amounts(pattern: &Pattern, proof: &Proof, size: usize) -> Option<Vec<ColouredAmounts>> {
    let amounts = |(colouring, exchange): (usize, &pattern::Colouring)| {
        let coloured = Pattern { owned: Vec::new(), ..pattern.coloured(colouring) };
        let cutting = cutting::cutting(&coloured, &blocks(&coloured, proof, size)?);
        let takes = |fabric: usize| (0..pattern.fabrics.len()).filter(move |&drawn| exchange.fabric(drawn) == fabric);
        let fabrics = cutting.into_iter().map(|of| (of.fabric, takes(of.fabric).collect(), of.buy)).collect();
        Some(ColouredAmounts { colouring, fabrics })
    };
    pattern.colourings.iter().enumerate().map(amounts).collect()
}

/// The blocks of a pattern at one of its sizes.
fn blocks(pattern: &Pattern, proof: &Proof, size: usize) -> Option<Vec<Block>> {
    let factor = pattern.sizes.get(size)?.factor;
    let blocks = pattern.blocks.iter().zip(&proof.blocks);
    let sized = |(source, proof): (&pattern::Block, &BlockProof)| {
        let scale = source.step.to_inches() * factor;
        Sized { pattern, source, proof, scale }.block()
    };
    blocks.map(sized).collect()
}

/// What tells foundations apart: the unit, its hand, and of each section its fabric and those of its strips.
type Key = (usize, bool, Vec<(usize, Vec<usize>)>);

/// A block on its way from steps to inches.
pub(super) struct Sized<'a> {
    pub pattern: &'a Pattern,
    pub source: &'a pattern::Block,
    pub proof: &'a BlockProof,
    /// Inches to a step.
    pub scale: f64,
}

impl Sized<'_> {
    fn block(&self) -> Option<Block> {
        let source = self.source;
        // Units in the order in which joining first takes them up.
        let mut order: Vec<usize> = Vec::with_capacity(source.units.len());
        let in_order = self.proof.joins.iter().flat_map(|join| {
            // What comes to a partial seam only in the end is taken up by a join of its own before.
            let later = if let JoinKind::Partial { last, .. } = &join.kind { last.as_slice() } else { &[] };
            join.left.iter().chain(&join.right).filter(|place| !later.contains(place)).copied()
        });
        for place in in_order.chain(0..source.placements.len()) {
            let unit = source.placements[place].unit;
            if !order.contains(&unit) {
                order.push(unit);
            }
        }
        let units: Vec<Unit> =
            order.iter().enumerate().map(|(rank, &index)| self.unit(index, mark(rank))).collect::<Option<_>>()?;
        let scaled = Transform::scale(self.scale);
        let outline = scaled.apply_to_polygon(&source.outline);
        let (_, to) = outline.bounds();
        let mut block = Block {
            name: source.name.clone(),
            copies: source.copies,
            width: Length::inches(to.x),
            height: Length::inches(to.y),
            finished: self.finished(to.x, to.y),
            outline,
            units,
            variants: Vec::new(),
            placements: Vec::new(),
            joins: self.joins(),
            pressing_proved: self.proof.pressing_proved,
            division: Division::default(),
            tree: self.proof.tree.clone(),
            notes: source.notes.clone(),
        };
        self.place(&mut block, &order);
        for index in 0..block.variants.len() {
            block.variants[index].cuts = cuts::cuts(self, &block, index, &order)?;
        }
        Some(block)
    }

    fn finished(&self, width: f64, height: f64) -> String {
        let (factor, unit) = match self.pattern.units {
            Units::Inches => (1.0, "in"),
            Units::Metric => (2.54, "cm"),
        };
        let words = |inches: f64| number_words(inches * factor);
        match self.source.manner {
            Manner::Square => format!("{} {unit}", words(width)),
            Manner::Rectangle => format!("{} × {} {unit}", words(width), words(height)),
            Manner::Side(steps) => format!("side {} {unit}", words(steps * self.scale)),
        }
    }

    fn unit(&self, index: usize, mark: String) -> Option<Unit> {
        let source = &self.source.units[index];
        let scaled = Transform::scale(self.scale);
        let allowance = self.pattern.allowance;
        let outline = scaled.apply_to_polygon(&source.outline);
        let cutting_line = outline.grown(allowance.to_inches());
        let seams: Vec<Option<Segment>> =
            self.proof.seams[index].iter().map(|seam| seam.map(|seam| scaled.apply_to_segment(seam))).collect();
        let needs = needs(&cutting_line, &seams, allowance, self.source.tolerance.scaled(self.scale))?;
        let sections = source.sections.iter().zip(seams).zip(needs).map(|((section, seam), need)| {
            Some(Section {
                fabric: self.pattern.fabric(section.fabric),
                polygon: scaled.apply_to_polygon(&section.polygon),
                seam,
                pieced: self.pieced(section, &need.needed)?,
                extended: need.extended,
                needed: need.needed,
                notes: section.notes.clone(),
                own_step: section.own_step.clone(),
            })
        });
        let (name, notes, sections) = (source.name.clone(), source.notes.clone(), sections.collect::<Option<_>>()?);
        Some(Unit { kind: source.kind, name, mark, outline, cutting_line, sections, notes })
    }

    /// The strips of a section that needs this; none where it is one piece.
    fn pieced(&self, section: &pattern::Section, needed: &Polygon) -> Option<Vec<PiecedStrip>> {
        if section.pieced.is_empty() {
            return Some(Vec::new());
        }
        let scaled = Transform::scale(self.scale);
        let seams: Vec<Option<Segment>> =
            section.pieced.iter().map(|strip| strip.seam.map(|seam| scaled.apply_to_segment(seam))).collect();
        let lines: Vec<Line> = seams.iter().flatten().map(|seam| seam.line()).collect::<Option<_>>()?;
        let needs =
            strip_needs(needed, &lines, &cuts::measures(self.pattern, self.source.tolerance.scaled(self.scale)))?;
        let next = section.pieced.iter().skip(1).map(Some).chain([None]);
        let strips = section.pieced.iter().zip(next).zip(seams).zip(needs);
        let made = strips.map(|(((strip, next), seam), needed)| PiecedStrip {
            fabric: self.pattern.fabric(strip.fabric),
            polygon: scaled.apply_to_polygon(&strip.polygon),
            needed,
            seam,
            pressed_to_next: next.is_some_and(|next| pressed_to_next(self.pattern, strip, next)),
        });
        Some(made.collect())
    }

    /// Fills in placements and variants.
    fn place(&self, block: &mut Block, order: &[usize]) {
        let source = self.source;
        // A unit in one hand, with the fabric and the strips' fabrics of each section.
        let mut keys: Vec<Key> = Vec::new();
        for placement in &source.placements {
            let unit = order.iter().position(|&index| index == placement.unit).unwrap_or(0);
            let sections = &source.units[placement.unit].sections;
            let fabrics = sections.iter().map(|section| {
                let strips = section.pieced.iter().map(|strip| placement.fabric(strip.fabric)).collect();
                (placement.fabric(section.fabric), strips)
            });
            let fabrics = fabrics.collect();
            keys.push((unit, placement.transform.is_mirroring(), fabrics));
        }
        let mut distinct: Vec<&Key> = Vec::new();
        for key in &keys {
            if !distinct.contains(&key) {
                distinct.push(key);
            }
        }
        // By unit; within a unit as first placed, for the sort is stable.
        distinct.sort_by_key(|(unit, ..)| *unit);
        let mut numbers = vec![0_usize; block.units.len()];
        for key in &distinct {
            let (unit, mirrored) = (key.0, key.1);
            let (fabrics, pieced) = key.2.iter().cloned().unzip();
            let several = distinct.iter().filter(|other| other.0 == unit).count() > 1;
            let letter = if several { mark(numbers[unit]).to_lowercase() } else { String::new() };
            numbers[unit] += 1;
            let placed = keys.iter().filter(|other| *other == *key).count();
            block.variants.push(Variant {
                id: format!("{}/{}", block.units[unit].name, numbers[unit]),
                mark: format!("{}{letter}", block.units[unit].mark),
                unit,
                mirrored,
                fabrics,
                pieced,
                sewn: u32::try_from(placed).unwrap_or(u32::MAX).saturating_mul(source.copies),
                last_changed: None,
                cuts: Vec::new(),
            });
        }
        let mut count_of = vec![0_usize; source.units.len()];
        for (placement, key) in source.placements.iter().zip(&keys) {
            count_of[placement.unit] += 1;
            let unit = &source.units[placement.unit];
            block.placements.push(Placement {
                id: format!("{}#{}", unit.name, count_of[placement.unit]),
                name: placement.name.clone(),
                variant: distinct.iter().position(|other| *other == key).unwrap_or(0),
                transform: self.sized(placement.transform),
                outline: self.scale_polygon(&placement.outline),
            });
        }
    }

    fn scale_polygon(&self, polygon: &Polygon) -> Polygon {
        Transform::scale(self.scale).apply_to_polygon(polygon)
    }

    /// A map between frames in steps as one between the same frames in inches.
    fn sized(&self, transform: Transform) -> Transform {
        let [a, b, c, d, e, f] = transform.to_matrix();
        Transform::from_matrix([a, b, c, d, e * self.scale, f * self.scale])
    }

    fn joins(&self) -> Vec<Join> {
        let scaled = Transform::scale(self.scale);
        let joins = self.proof.joins.iter().map(|join| {
            let stated = join.stated.and_then(|stated| self.source.joins.get(stated));
            let leaf = join.stated.is_some_and(|stated| self.source.leaves.contains_key(&stated));
            let leaf_pressed = leaf && stated.is_some_and(|stated| stated.press.is_some());
            // What is fastened to a statement belongs to the last join it makes.
            let stated =
                stated.filter(|stated| stated.name.is_none() || join.name.is_some() || stated.members.len() == 2);
            Join {
                kind: match &join.kind {
                    JoinKind::Straight => JoinKind::Straight,
                    JoinKind::Partial { first, corner, after, last } => JoinKind::Partial {
                        first: scaled.apply_to_segment(*first),
                        corner: scaled.apply(*corner),
                        after: *after,
                        last: last.clone(),
                    },
                    JoinKind::Inset { point } => JoinKind::Inset { point: scaled.apply(*point) },
                },
                name: join.name.clone(),
                left: join.left.clone(),
                right: join.right.clone(),
                seam: scaled.apply_to_segment(join.seam),
                press: join.press,
                press_stated: leaf_pressed || stated.is_some_and(|stated| stated.press.is_some()),
                match_points: join
                    .match_points
                    .iter()
                    .map(|point| MatchPoint {
                        at: scaled.apply(point.at),
                        nesting: point.nesting,
                        layers: point.layers,
                        spins: point.spins,
                    })
                    .collect(),
                tips: join.tips.iter().map(|&tip| scaled.apply(tip)).collect(),
                notes: stated.map(|stated| stated.notes.clone()).unwrap_or_default(),
                own_step: stated.and_then(|stated| stated.own_step.clone()),
            }
        });
        joins.collect()
    }
}

/// `A`, `B`, … `Z`, `AA`, `AB`, ….
fn mark(index: usize) -> String {
    let mut rest = index;
    let mut letters = Vec::new();
    loop {
        letters.push(char::from(b'A' + u8::try_from(rest % 26).unwrap_or(0)));
        if rest < 26 {
            break;
        }
        rest = rest / 26 - 1;
    }
    letters.iter().rev().collect()
}

#[cfg(test)]
mod tests {
    use super::mark;

    #[test]
    fn marks_go_on_after_z() {
        assert_eq!([0, 25, 26, 51, 52, 701, 702].map(mark), ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
    }
}
