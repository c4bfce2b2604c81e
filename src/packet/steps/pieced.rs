//! A pieced section: its strips are sewn together first, then the piece is laid so that its seams meet the lines on the paper.

use super::Move;
use super::section::Foundation;
use crate::geometry::Length;
use crate::model::{Cut, Model, PrintDirection, Section, Variant};
use crate::packet::measure::Measures;

impl Foundation<'_> {
    /// Whether a section is sewn together of strips before it goes on.
    pub(super) fn is_pieced(&self, k: usize) -> bool {
        self.unit.sections.get(k).is_some_and(|section| !section.pieced.is_empty())
    }

    /// How many seams there are within a section.
    pub(super) fn inner_seams(&self, k: usize) -> usize {
        self.unit.sections.get(k).map_or(0, |section| section.pieced.len().saturating_sub(1))
    }

    /// Sewing the strips together.
    pub(super) fn piecing(&self, k: usize, cuts: &[&Cut], measures: Measures<'_>) -> Option<Move> {
        let words = measures.words();
        let section = self.unit.sections.get(k).filter(|_| self.is_pieced(k))?;
        let names = fabric_names(self.model, self.variant, k);
        let length = measures.length(seam_length(section, cuts)?);
        let count = names.len();
        let mut told = vec![words.pieced_sew(count, words.list(&names), length, measures.length(self.model.allowance))];
        for (pair, strip) in names.windows(2).zip(&section.pieced) {
            let toward = if strip.pressed_to_next { &pair[1] } else { &pair[0] };
            told.push(if count > 2 {
                words.pieced_press_at(&pair[0], &pair[1], toward)
            } else {
                words.pieced_press(toward)
            });
        }
        if self.variant.fabrics_of(k).iter().any(|&fabric| is_directed(self.model, fabric)) {
            told.push(words.pieced_print());
            if cuts.len() > count {
                told.push(words.lay_several());
            }
        }
        Some(Move::new(words.move_piece(), &told))
    }

    /// Laying the piece over its section.
    pub(super) fn pieced_laying(&self, k: usize, measures: Measures<'_>) -> Vec<String> {
        let words = measures.words();
        let allowance = measures.length(self.model.allowance);
        let seams = self.inner_seams(k);
        let mut told = vec![if k == 0 {
            words.pieced_first(self.name(k), seams, allowance)
        } else {
            words.pieced_lay(self.name(k), seams, allowance)
        }];
        let crossing = self.crossing_seams(k);
        if crossing > 0 {
            told.push(words.pieced_tick(crossing));
        }
        told
    }

    /// How many seams within a section end on the line on which it is sewn on.
    fn crossing_seams(&self, k: usize) -> usize {
        let Some(section) = self.unit.sections.get(k) else { return 0 };
        let Some(line) = section.seam else { return 0 };
        let inner = section.pieced.iter().filter_map(|strip| strip.seam);
        inner.filter(|s| [s.start, s.end].iter().any(|&end| self.tolerance.is_zero(line.distance(end)))).count()
    }

    /// The size of each strip, with its fabric.
    pub(super) fn strip_facts(&self, k: usize, cuts: &[&Cut], measures: Measures<'_>) -> Vec<(String, String)> {
        let words = measures.words();
        let mut facts = Vec::new();
        let last = self.inner_seams(k);
        for (strip, name) in fabric_names(self.model, self.variant, k).iter().enumerate() {
            let own: Vec<&&Cut> = cuts.iter().filter(|cut| cut.strip == Some(strip)).collect();
            let alike =
                own.iter().all(|cut| own.first().is_none_or(|f| (f.width, f.height) == (cut.width, cut.height)));
            for cut in own.iter().take(if alike { 1 } else { own.len() }) {
                let size = measures.exact_rectangle(cut.width, cut.height);
                // Between two others a strip is cut exactly as wide as it must be.
                let size = if strip > 0 && strip < last { words.fact_cut_exact(size) } else { size };
                let value = if alike { size } else { words.fact_cut_turned(size, measures.degrees(cut.turn)) };
                facts.push((words.fact_of(words.fact_cut(), name), value));
            }
        }
        facts
    }
}

/// How long the edges are at which strips are sewn together.
fn seam_length(section: &Section, cuts: &[&Cut]) -> Option<Length> {
    let way = section.pieced.first()?.seam?.line()?.direction();
    let &[a, b, c, _] = cuts.first()?.corners.as_slice() else { return None };
    let (width, height) = (b - a, c - b);
    let along = if width.cross(way).abs() <= height.cross(way).abs() { width } else { height };
    Some(Length::inches(along.length()))
}

/// What the fabrics of a section are called: one, or those of its strips in order.
pub(super) fn fabric_names(model: &Model, variant: &Variant, k: usize) -> Vec<String> {
    let name = |&fabric: &usize| model.fabrics.get(fabric).map_or_else(String::new, |fabric| fabric.name.clone());
    variant.fabrics_of(k).iter().map(name).collect()
}

fn is_directed(model: &Model, fabric: usize) -> bool {
    model.fabrics.get(fabric).is_some_and(|fabric| fabric.print.direction != PrintDirection::None)
}
