//! The order of sewing in words: every section of every foundation, trimming, the joins.
//!
//! The first foundation of a block teaches; later ones are told shortly. An author's own words for a step stand in place of the written ones.

pub mod bias;
mod join;
mod pieced;
mod plain;
mod round;
mod section;

pub use join::part as join_side;

use super::measure::Measures;
use super::words::Words;
use crate::geometry::{Length, Polygon, Segment, Tolerance};
use crate::model::{Block, Model, Unit, Variant};

/// How a pattern is sewn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Steps {
    /// What left and right mean.
    pub convention: String,
    /// The blocks, as in [`Model::blocks`].
    pub blocks: Vec<BlockSteps>,
}

/// How a block is sewn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BlockSteps {
    /// The block's name, and how often it is sewn.
    pub title: String,
    /// The author's notes.
    pub notes: Vec<String>,
    /// Its foundations, those together that are sewn alike.
    pub batches: Vec<BatchSteps>,
    /// What to know before joining; empty for a block of one unit.
    pub joins_intro: Vec<String>,
    /// Its joins, as in [`Block::passes`].
    pub joins: Vec<Step>,
    /// What to check in the end, and when the paper comes out.
    pub finish: Vec<String>,
}

/// How foundations are sewn that are sewn alike: copies of one, both hands of a unit, or a unit in several sets of fabrics.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BatchSteps {
    /// The foundations, by index in [`Block::variants`]; those of a batch are of one unit.
    pub variants: Vec<usize>,
    /// Their marks and their unit's name.
    pub title: String,
    /// How many are sewn, and how they differ.
    pub intro: Vec<String>,
    /// The author's notes.
    pub notes: Vec<String>,
    /// A step for each section, in order.
    pub steps: Vec<Step>,
    /// Trimming, and the sizes to check.
    pub trim: Vec<String>,
}

/// What each number is, and its value.
type NamedValues = Vec<(String, String)>;

/// One step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// What it is about.
    pub title: String,
    /// The numbers to have at hand: what each is, and the value.
    pub facts: Vec<(String, String)>,
    /// What to do, move by move.
    pub text: Vec<Move>,
    /// What to take care of.
    pub cautions: Vec<String>,
    /// Whether the text is the author's.
    pub own: bool,
    /// The fabric, by index in [`Model::fabrics`]; none for joins, and where the foundations of a batch differ in it.
    pub fabric: Option<usize>,
    /// Whether the figure of the printed side shows the piece flipped open: where it is laid askew.
    pub flipped: bool,
    /// The author's notes.
    pub notes: Vec<String>,
}

/// A move of a step: fold, lay, sew, look.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Move {
    /// What it is called; none where an author's own words tell the whole step.
    pub name: Option<String>,
    /// What to do.
    pub words: String,
}

impl Move {
    fn new(name: String, sentences: &[String]) -> Self {
        // Names as an author writes them may begin a sentence.
        let sentences: Vec<String> = sentences.iter().map(|sentence| capitalised(sentence)).collect();
        Self { name: Some(name), words: sentences.join(" ") }
    }

    fn unnamed(words: &str) -> Self {
        Self { name: None, words: words.to_owned() }
    }

    /// The words with the name before them, as plain text.
    #[must_use]
    pub fn told(&self) -> String {
        self.name.as_ref().map_or_else(|| self.words.clone(), |name| format!("{name} {}", self.words))
    }
}

/// A sentence with a capital at its beginning.
fn capitalised(sentence: &str) -> String {
    let mut letters = sentence.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The order of sewing of a whole pattern; of its foundations those that are sewn at all. O(n²) in the sections of a unit and the joins of a block.
#[must_use]
pub fn steps(model: &Model, measures: Measures<'_>) -> Steps {
    let mut teach = true;
    let blocks = model.blocks.iter().map(|b| block(model, b, &mut teach, measures)).collect();
    Steps { convention: measures.words().steps_convention(), blocks }
}

fn block(model: &Model, block: &Block, teach: &mut bool, measures: Measures<'_>) -> BlockSteps {
    let words = measures.words();
    let tolerance = tolerance(block);
    // A packet of single units has no joins.
    let joined = block.variants.iter().all(|variant| variant.sewn > 0);
    let joins_intro = if block.joins.is_empty() || !joined {
        Vec::new()
    } else {
        let copies = (block.copies > 1).then(|| words.joins_copies(block.copies));
        std::iter::once(words.joins_intro()).chain(copies).collect()
    };
    let passes = if joined { block.passes() } else { Vec::new() };
    BlockSteps {
        title: if block.copies > 1 {
            words.steps_block_copies(&block.name, block.copies)
        } else {
            words.steps_block(&block.name)
        },
        notes: block.notes.clone(),
        batches: batches(model, block, teach, measures),
        joins_intro,
        joins: passes
            .iter()
            .filter_map(|&pass| join::step(block, pass, model.allowance, tolerance, measures))
            .collect(),
        finish: if joined { finish(model, block, tolerance, measures) } else { Vec::new() },
    }
}

/// The batches of a block. The first of the whole pattern teaches; `teach` is told when that is done.
fn batches(model: &Model, block: &Block, teach: &mut bool, measures: Measures<'_>) -> Vec<BatchSteps> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (at, variant) in block.variants.iter().enumerate().filter(|(_, variant)| variant.sewn > 0) {
        let with = groups.iter_mut().find(|group| {
            let first = group.first().and_then(|&first| block.variants.get(first));
            first.is_some_and(|first| sewn_alike(model, block, [first, variant], measures))
        });
        match with {
            Some(group) => group.push(at),
            None => groups.push(vec![at]),
        }
    }
    let told = groups.into_iter().map(|variants| {
        if let Some(variant) = variants.first().and_then(|&at| block.variants.get(at)).filter(|v| !block.has_paper(v)) {
            return plain::batch(model, block, variant, variants, measures);
        }
        let batch = Batch { model, block, variants, teach: std::mem::take(teach), measures };
        batch.steps()
    });
    told.collect()
}

/// Whether two foundations are sewn by the same words, but for left and right.
fn sewn_alike(model: &Model, block: &Block, pair: [&Variant; 2], measures: Measures<'_>) -> bool {
    let [first, other] = pair;
    // Plain pieces in several fabrics are told each for itself.
    if first.unit != other.unit || !block.has_paper(first) {
        return false;
    }
    let unit = block.unit_of(first);
    let told = pair.map(|variant| {
        let (mark, mirrored) = (unit.mark.as_str(), first.mirrored);
        let seen =
            section::Foundation { model, unit, variant, tolerance: tolerance(block), mark, mirrored, teach: false };
        let steps = (0..unit.sections.len()).filter_map(|k| seen.step(k, measures));
        steps.map(|step| (step.text, step.cautions)).collect::<Vec<_>>()
    });
    told[0] == told[1]
}

/// Foundations that are told of together.
struct Batch<'m> {
    model: &'m Model,
    block: &'m Block,
    variants: Vec<usize>,
    teach: bool,
    measures: Measures<'m>,
}

impl<'m> Batch<'m> {
    fn members(&self) -> impl Iterator<Item = &'m Variant> {
        self.variants.iter().filter_map(|&at| self.block.variants.get(at))
    }

    fn marks(&self, of: impl Fn(&Variant) -> bool) -> Vec<&'m str> {
        self.members().filter(|variant| of(variant)).map(|variant| variant.mark.as_str()).collect()
    }

    fn steps(&self) -> BatchSteps {
        let words = self.measures.words();
        let first = self.members().next();
        let unit = first.map(|first| self.block.unit_of(first));
        BatchSteps {
            variants: self.variants.clone(),
            title: match unit.filter(|unit| unit.name != unit.mark) {
                Some(unit) => words.steps_foundation(words.list(&self.marks(|_| true)), &unit.name),
                None => words.list(&self.marks(|_| true)),
            },
            intro: self.introduction(),
            notes: unit.map(|unit| unit.notes.clone()).unwrap_or_default(),
            steps: unit.map_or(0..0, |unit| 0..unit.sections.len()).filter_map(|k| self.step(k)).collect(),
            trim: unit.map(|unit| self.trim(unit)).unwrap_or_default(),
        }
    }

    /// The step of a section: the words of the first member, the numbers of each.
    fn step(&self, k: usize) -> Option<Step> {
        let words = self.measures.words();
        let leader = self.members().next()?;
        let several = self.variants.len() > 1;
        let told = |variant: &'m Variant, mirrored: bool| self.seen(variant, mirrored).step(k, self.measures);
        // All in the hand of the first: what then differs is not only a matter of left and right.
        let steps: Vec<(&Variant, Step)> =
            self.members().map(|variant| Some((variant, told(variant, leader.mirrored)?))).collect::<Option<_>>()?;
        let (_, mut step) = steps.first().cloned()?;
        if several {
            let name = format!("{}{}", self.block.unit_of(leader).mark, k + 1);
            step.title = words.section_heading(name, self.fabrics(k, &steps));
            if steps.iter().any(|(_, other)| other.fabric != step.fabric) {
                step.fabric = None;
            }
            let own = steps.iter().map(|(variant, _)| Some((told(variant, variant.mirrored)?.facts, variant)));
            let own: Vec<_> = own.collect::<Option<_>>()?;
            let facts = told_together(own.iter().map(|(facts, variant)| (facts, variant.mark.as_str())));
            if facts.len() > 1 {
                step.facts = differing(&facts, words);
            }
            let mirrored = self.marks(|variant| variant.mirrored != leader.mirrored);
            if !mirrored.is_empty() {
                let other = told(leader, !leader.mirrored)?.text;
                for (part, _) in step.text.iter_mut().zip(&other).filter(|(part, other)| part != other) {
                    part.words = format!("{} {}", part.words, words.sew_hands(words.list(&mirrored)));
                }
            }
        }
        Some(step)
    }

    /// The fabrics of a section, with the marks of the foundations where they differ.
    fn fabrics(&self, k: usize, steps: &[(&Variant, Step)]) -> String {
        let words = self.measures.words();
        let fabric = |variant: &Variant| words.list(&pieced::fabric_names(self.model, variant, k));
        let fabrics = told_together(steps.iter().map(|(variant, _)| (fabric(variant), variant.mark.as_str())));
        match fabrics.as_slice() {
            [(only, _)] => only.clone(),
            several => {
                let told: Vec<String> = several
                    .iter()
                    .map(|(fabric, marks)| words.section_fabric(fabric.clone(), words.list(marks)))
                    .collect();
                words.list(&told)
            }
        }
    }

    fn introduction(&self) -> Vec<String> {
        let words = self.measures.words();
        let block = self.block;
        let counts: Vec<u32> = self.members().map(|variant| variant.sewn).collect();
        let total = counts.iter().copied().fold(0, u32::saturating_add);
        let Some(first) = self.members().next() else { return Vec::new() };
        let mut intro = Vec::new();
        if self.variants.len() > 1 {
            let each: Vec<String> = self.members().map(|v| words.steps_of(v.sewn, &v.mark)).collect();
            intro.push(words.steps_batch_several(words.list(&each), total));
            let mirrored = self.marks(|variant| variant.mirrored != first.mirrored);
            if !mirrored.is_empty() {
                let same = self.marks(|variant| variant.mirrored == first.mirrored);
                intro.push(words.steps_hands(words.list(&mirrored), words.list(&same), mirrored.len()));
            }
            if self.members().any(|variant| variant.fabrics != first.fabrics) {
                intro.push(words.steps_colours());
            }
            let name = |mark: &str| format!("{mark}1");
            let all: Vec<String> = self.marks(|_| true).into_iter().map(name).collect();
            intro.push(words.steps_stands(name(&block.unit_of(first).mark), words.list(&all)));
        } else {
            intro.push(match (total, self.teach) {
                (0 | 1, _) => words.steps_one(),
                (count, true) => words.steps_batch(count),
                (count, false) => words.steps_batch_alike(count),
            });
            intro.extend(self.likeness(first));
        }
        let places: Vec<&str> = block
            .placements
            .iter()
            .filter(|placement| self.variants.contains(&placement.variant))
            .map(|placement| placement.name.as_str())
            .collect();
        if places.len() > 1 {
            intro.push(words.steps_places(words.list(&places)));
        }
        let bias = self.seen(first, first.mirrored).outer_bias();
        if !bias.is_empty() {
            // Where it is so of every section on the outside, the sections need not be told.
            intro.push(if self.seen(first, first.mirrored).is_outer(bias.len()) {
                words.steps_bias_all()
            } else {
                words.steps_bias(words.list(&bias), bias.len())
            });
        }
        intro
    }

    /// A foundation of the batch, told in a hand.
    fn seen(&self, variant: &'m Variant, mirrored: bool) -> section::Foundation<'m> {
        let unit = self.block.unit_of(variant);
        section::Foundation {
            model: self.model,
            unit,
            variant,
            tolerance: tolerance(self.block),
            mark: if self.variants.len() > 1 { &unit.mark } else { &variant.mark },
            mirrored,
            teach: self.teach,
        }
    }

    /// What to say of a foundation of whose unit there are others in other batches.
    fn likeness(&self, variant: &Variant) -> Option<String> {
        let words = self.measures.words();
        let at = self.variants.first().copied()?;
        let earlier = |mirrored: bool| -> Vec<&str> {
            let others = self.block.variants.iter().take(at).filter(|other| other.sewn > 0);
            others
                .filter(|other| other.unit == variant.unit && (other.mirrored != variant.mirrored) == mirrored)
                .map(|other| other.mark.as_str())
                .collect()
        };
        let (other_hand, other_fabrics) = (earlier(true), earlier(false));
        if !other_fabrics.is_empty() {
            return Some(words.steps_recoloured(words.list(&other_fabrics)));
        }
        (!other_hand.is_empty()).then(|| words.steps_mirrored(words.list(&other_hand)))
    }

    fn trim(&self, unit: &Unit) -> Vec<String> {
        let (words, measures) = (self.measures.words(), self.measures);
        let mut text = vec![if self.teach { words.trim_teach() } else { words.trim_short() }];
        let Some(first) = self.members().next() else { return text };
        let mirrored = self.marks(|variant| variant.mirrored != first.mirrored);
        text.push(match right_angled(&unit.cutting_line) {
            Some((width, height)) if is_same(width, height) => words.trim_square(measures.length(width)),
            Some((width, height)) => words.trim_rectangle(measures.rectangle(width, height)),
            None if all_equal(&trimmed_edges(unit, first, Seen::Printed)) => words.trim_edges_equal(
                trimmed_edges(unit, first, Seen::Printed).first().map_or_else(String::new, |&l| measures.length(l)),
            ),
            None => {
                let edges = measures.row(&trimmed_edges(unit, first, Seen::Printed));
                if mirrored.is_empty() {
                    words.trim_edges(edges)
                } else {
                    let same = self.marks(|variant| variant.mirrored == first.mirrored);
                    words.trim_edges_hands(edges, words.list(&same), words.list(&mirrored))
                }
            }
        });
        if self.model.blocks.iter().any(|block| block.placements.len() > 1) {
            // Blocks have marks of their own, so that the block's name tells them apart.
            let named = |mark: &&str| {
                if self.model.blocks.len() > 1 { format!("{} {mark}", self.block.name) } else { (*mark).to_owned() }
            };
            let marks: Vec<String> = self.marks(|_| true).iter().map(named).collect();
            text.push(words.trim_keep(words.list(&marks)));
        }
        text
    }
}

/// What several say, each thing once, with the names of those that say it, in order of first saying. O(n²).
#[must_use]
pub fn told_together<T: PartialEq, N>(told: impl Iterator<Item = (T, N)>) -> Vec<(T, Vec<N>)> {
    let mut together: Vec<(T, Vec<N>)> = Vec::new();
    for (what, name) in told {
        match together.iter_mut().find(|(other, _)| *other == what) {
            Some((_, names)) => names.push(name),
            None => together.push((what, vec![name])),
        }
    }
    together
}

/// The facts of foundations that differ in some: what is the same once, the rest with the marks of those for which it is so.
fn differing(facts: &[(&NamedValues, Vec<&str>)], words: &Words) -> NamedValues {
    let Some((first, _)) = facts.first() else { return Vec::new() };
    let mut told = Vec::new();
    for fact in *first {
        if facts.iter().all(|(of, _)| of.contains(fact)) {
            told.push(fact.clone());
        }
    }
    for (of, marks) in facts {
        for (name, value) in of.iter().filter(|fact| !told.contains(fact)).cloned().collect::<Vec<_>>() {
            told.push((words.fact_of(name, words.list(marks)), value));
        }
    }
    told
}

/// From the front, or from the printed side, which is its mirror image.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Seen {
    Front,
    Printed,
}

/// The edges of a trimmed foundation, clockwise as seen from a side, without those by which sharp corners are blunted.
fn trimmed_edges(unit: &Unit, variant: &Variant, seen: Seen) -> Vec<Length> {
    let runs_along = |edge: Segment| {
        unit.outline.edges().any(|drawn| {
            let (a, b) = (edge.end - edge.start, drawn.end - drawn.start);
            a.dot(b) > 0.0 && a.cross(b).abs() <= 1e-6 * a.length() * b.length()
        })
    };
    let edges = unit.cutting_line.edges().filter(|&edge| runs_along(edge));
    let mut lengths: Vec<Length> = edges.map(|edge| Length::inches(edge.length())).collect();
    if variant.mirrored == (seen == Seen::Front) {
        lengths.reverse();
    }
    // From the longest on, so that one knows where to begin.
    let longest = (0..lengths.len()).max_by(|&a, &b| {
        let by_sixteenths = |at: usize| (lengths[at].to_inches() * 16.0).round();
        by_sixteenths(a).total_cmp(&by_sixteenths(b)).then(b.cmp(&a))
    });
    lengths.rotate_left(longest.unwrap_or(0));
    lengths
}

/// Whether lengths are the same to anybody with a ruler.
fn all_equal(lengths: &[Length]) -> bool {
    lengths.iter().all(|&length| lengths.first().is_none_or(|&first| is_same(first, length)))
}

/// How a foundation measures when it is trimmed, in short: `3½ × 4 in`, or its edges.
#[must_use]
pub fn trimmed(unit: &Unit, variant: &Variant, measures: Measures<'_>) -> String {
    if let Some((width, height)) = right_angled(&unit.cutting_line) {
        return measures.rectangle(width, height);
    }
    let edges = trimmed_edges(unit, variant, Seen::Front);
    match edges.first() {
        Some(&edge) if all_equal(&edges) => measures.words().units_trimmed_each(measures.length(edge)),
        _ => measures.row(&edges),
    }
}

fn finish(model: &Model, block: &Block, tolerance: Tolerance, measures: Measures<'_>) -> Vec<String> {
    let words = measures.words();
    let trimmed = block.outline.grown(model.allowance.to_inches());
    let (low, high) = trimmed.bounds();
    let (width, height) = (Length::inches(high.x - low.x), Length::inches(high.y - low.y));
    let fills_its_box = (width.to_inches() * height.to_inches() - trimmed.area()).abs() <= tolerance.area();
    let size = match (fills_its_box, is_same(width, height)) {
        (true, true) => words.block_measures_square(measures.length(width)),
        (true, false) => words.block_measures(measures.rectangle(width, height)),
        (false, _) => words.block_measures_box(measures.rectangle(width, height)),
    };
    let alone = block.joins.is_empty().then(|| words.block_one_paper());
    alone.into_iter().chain([size, words.block_paper()]).chain(stretching(block, measures)).collect()
}

/// The outer edges that are cut on the bias, side by side of the block.
fn stretching(block: &Block, measures: Measures<'_>) -> Option<String> {
    let words = measures.words();
    let mut sides: std::collections::BTreeMap<bias::Side, Vec<String>> = std::collections::BTreeMap::new();
    for edge in bias::bias_edges(block) {
        let variant = block.variant_at(edge.placement);
        let name = if block.has_paper(variant) {
            format!("{}{}", variant.mark, edge.section + 1)
        } else {
            variant.mark.clone()
        };
        let names = sides.entry(edge.side).or_default();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let edges = sides.into_iter().map(|(side, names)| words.bias_edge(side.key(), words.list(&names)));
    let edges: Vec<String> = edges.collect();
    (!edges.is_empty()).then(|| capitalised(&words.bias_edges(words.list(&edges), edges.len())))
}

/// Width and height of a rectangle in any turn; none for other outlines.
fn right_angled(outline: &Polygon) -> Option<(Length, Length)> {
    let edges: Vec<_> = outline.edges().collect();
    let [top, right, bottom, left] = edges.as_slice() else { return None };
    let square = [(top, right), (right, bottom), (bottom, left)].iter().all(|(a, b)| {
        let (a, b) = (a.end - a.start, b.end - b.start);
        a.dot(b).abs() <= 1e-3 * a.length() * b.length()
    });
    square.then(|| (Length::inches(top.length()), Length::inches(right.length())))
}

/// Whether two lengths are the same to anybody with a ruler.
fn is_same(a: Length, b: Length) -> bool {
    (a.to_inches() - b.to_inches()).abs() < 1.0 / 64.0
}

fn tolerance(block: &Block) -> Tolerance {
    Tolerance::of_extent(block.width.max(block.height).to_inches())
}

#[cfg(test)]
mod tests {
    use super::steps;
    use crate::model::Units;
    use crate::packet::measure::Measures;
    use crate::packet::sample_steps as sample;
    use crate::packet::words::Words;

    fn sample_steps() -> super::Steps {
        let words = Words::english();
        steps(&sample::model(), Measures::new(&words, Units::Inches))
    }

    #[test]
    fn every_section_and_join_has_a_step_and_notes_stay_where_they_belong() {
        let steps = sample_steps();
        let block = &steps.blocks[0];
        let titles: Vec<&str> =
            block.batches.iter().flat_map(|batch| &batch.steps).map(|step| step.title.as_str()).collect();
        assert_eq!(titles.len(), 5);
        assert!(titles[2].starts_with("A3 ·"), "{titles:?}");
        assert_eq!(block.batches[0].steps[2].notes, ["The gull's wing may end here."]);
        assert_eq!(block.joins.len(), 1);
        assert_eq!(block.joins[0].notes, ["Pin well."]);
    }

    #[test]
    fn the_authors_words_replace_the_written_step() {
        let steps = sample_steps();
        let own = &steps.blocks[0].batches[1].steps[1];
        assert!(own.own);
        assert_eq!(own.text[0].words, "Sew the flag's lower half on as you like.");
        assert!(!own.facts.is_empty(), "the sizes stay");
    }

    #[test]
    fn a_piece_that_bears_little_turn_is_warned_of_and_others_are_not() {
        let steps = sample_steps();
        let warned =
            |k: usize| steps.blocks[0].batches[0].steps[k].cautions.iter().any(|s| s.contains("Lay it straight"));
        assert!(warned(1) && !warned(2));
    }

    #[test]
    fn earlier_stitches_that_cross_the_fold_are_freed() {
        let text = sample_steps().blocks[0].batches[0].steps[2].text.iter().map(super::Move::told).collect::<String>();
        assert!(text.contains("the stitches of A2"), "{text}");
    }

    #[test]
    fn a_seam_from_edge_to_edge_runs_to_the_cutting_line() {
        let text = sample_steps().blocks[0].batches[0].steps[1].text.iter().map(super::Move::told).collect::<String>();
        assert!(text.contains("from cutting line to cutting line"), "{text}");
    }

    #[test]
    fn a_join_names_its_points_tips_layers_and_pressing() {
        let join = &sample_steps().blocks[0].joins[0];
        let text = join.text.iter().map(super::Move::told).chain(join.cautions.iter().cloned()).collect::<String>();
        for part in ["one point", "2½\u{a0}in from the left end", "6\u{a0}in", "toward flag (B)", "14 layers"] {
            assert!(text.contains(part), "{part}: {text}");
        }
    }
}
