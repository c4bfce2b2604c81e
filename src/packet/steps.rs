//! The order of sewing in words: every section of every foundation, trimming, the joins.
//!
//! The first foundation of a block teaches; later ones are told shortly. An author's own words for a step stand in place of the written ones.

mod join;
mod section;

use super::measure::Measures;
use crate::geometry::{Length, Polygon, Tolerance};
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
    /// Its foundations, as in [`Block::variants`].
    pub foundations: Vec<FoundationSteps>,
    /// What to know before joining; empty for a block of one unit.
    pub joins_intro: Vec<String>,
    /// Its joins, as in [`Block::joins`].
    pub joins: Vec<Step>,
    /// What to check in the end, and when the paper comes out.
    pub finish: Vec<String>,
}

/// How a foundation is sewn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FoundationSteps {
    /// Its mark and its unit's name.
    pub title: String,
    /// How many are sewn, and how it differs from others.
    pub intro: Vec<String>,
    /// The author's notes.
    pub notes: Vec<String>,
    /// A step for each section, in order.
    pub steps: Vec<Step>,
    /// Trimming, and the sizes to check.
    pub trim: Vec<String>,
}

/// One step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// What it is about.
    pub title: String,
    /// The numbers to have at hand: what each is, and the value.
    pub facts: Vec<(String, String)>,
    /// What to do, in sentences.
    pub text: Vec<String>,
    /// Whether the text is the author's.
    pub own: bool,
    /// The author's notes.
    pub notes: Vec<String>,
}

/// The order of sewing of a whole pattern. O(n²) in the sections of a unit and the joins of a block.
#[must_use]
pub fn steps(model: &Model, measures: Measures<'_>) -> Steps {
    Steps {
        convention: measures.words().steps_convention(),
        blocks: model.blocks.iter().map(|b| block(model, b, measures)).collect(),
    }
}

fn block(model: &Model, block: &Block, measures: Measures<'_>) -> BlockSteps {
    let words = measures.words();
    let tolerance = tolerance(block);
    let joins_intro = if block.joins.is_empty() {
        Vec::new()
    } else {
        let copies = (block.copies > 1).then(|| words.joins_copies(block.copies));
        std::iter::once(words.joins_intro()).chain(copies).collect()
    };
    BlockSteps {
        title: if block.copies > 1 {
            words.steps_block_copies(&block.name, block.copies)
        } else {
            words.steps_block(&block.name)
        },
        notes: block.notes.clone(),
        foundations: (0..block.variants.len())
            .filter_map(|variant| foundation(model, block, variant, measures))
            .collect(),
        joins_intro,
        joins: (0..block.joins.len()).filter_map(|at| join::step(block, at, tolerance, measures)).collect(),
        finish: finish(model, block, tolerance, measures),
    }
}

fn foundation(model: &Model, block: &Block, at: usize, measures: Measures<'_>) -> Option<FoundationSteps> {
    let words = measures.words();
    let variant = block.variants.get(at)?;
    let unit = block.units.get(variant.unit)?;
    let seen = section::Foundation { model, unit, variant, tolerance: tolerance(block), teach: at == 0 };
    Some(FoundationSteps {
        title: words.steps_foundation(&variant.mark, &unit.name),
        intro: introduction(block, at, variant, measures),
        notes: unit.notes.clone(),
        steps: (0..unit.sections.len()).filter_map(|k| seen.step(k, measures)).collect(),
        trim: trim(model, unit, variant, at == 0, measures),
    })
}

fn introduction(block: &Block, at: usize, variant: &Variant, measures: Measures<'_>) -> Vec<String> {
    let words = measures.words();
    let mut intro = vec![match (variant.sewn, at) {
        (0 | 1, _) => words.steps_one(),
        (count, 0) => words.steps_batch(count),
        (count, _) => words.steps_batch_alike(count),
    }];
    let earlier = |mirrored: bool| -> Vec<&str> {
        block
            .variants
            .iter()
            .take(at)
            .filter(|other| other.unit == variant.unit && (other.mirrored != variant.mirrored) == mirrored)
            .map(|other| other.mark.as_str())
            .collect()
    };
    let (other_hand, other_fabrics) = (earlier(true), earlier(false));
    if !other_fabrics.is_empty() {
        intro.push(words.steps_recoloured(words.list(&other_fabrics)));
    } else if !other_hand.is_empty() {
        intro.push(words.steps_mirrored(words.list(&other_hand)));
    }
    let places: Vec<&str> = block
        .placements
        .iter()
        .filter(|placement| placement.variant == at)
        .map(|placement| placement.name.as_str())
        .collect();
    if places.len() > 1 {
        intro.push(words.steps_places(words.list(&places)));
    }
    intro
}

fn trim(model: &Model, unit: &Unit, variant: &Variant, teach: bool, measures: Measures<'_>) -> Vec<String> {
    let words = measures.words();
    let mut text = vec![if teach { words.trim_teach() } else { words.trim_short() }];
    let mut edges: Vec<Length> = unit.cutting_line.edges().map(|edge| Length::inches(edge.length())).collect();
    text.push(match right_angled(&unit.cutting_line) {
        Some((width, height)) if is_same(width, height) => words.trim_square(measures.length(width)),
        Some((width, height)) => words.trim_rectangle(measures.rectangle(width, height)),
        None => {
            if variant.mirrored {
                edges.reverse();
            }
            words.trim_edges(measures.row(&edges))
        }
    });
    if model.blocks.iter().any(|block| block.placements.len() > 1) {
        text.push(words.trim_keep(&variant.mark));
    }
    text
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
    alone.into_iter().chain([size, words.block_paper()]).collect()
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
            block.foundations.iter().flat_map(|f| &f.steps).map(|step| step.title.as_str()).collect();
        assert_eq!(titles.len(), 5);
        assert!(titles[2].starts_with("A3 ·"), "{titles:?}");
        assert_eq!(block.foundations[0].steps[2].notes, ["The gull's wing may end here."]);
        assert_eq!(block.joins.len(), 1);
        assert_eq!(block.joins[0].notes, ["Pin well."]);
    }

    #[test]
    fn the_authors_words_replace_the_written_step() {
        let steps = sample_steps();
        let own = &steps.blocks[0].foundations[1].steps[1];
        assert!(own.own);
        assert_eq!(own.text, ["Sew the flag's lower half on as you like."]);
        assert!(!own.facts.is_empty(), "the sizes stay");
    }

    #[test]
    fn a_piece_that_bears_little_turn_is_warned_of_and_others_are_not() {
        let steps = sample_steps();
        let warned = |k: usize| steps.blocks[0].foundations[0].steps[k].text.iter().any(|s| s.contains("more than 3°"));
        assert!(warned(1) && !warned(2));
    }

    #[test]
    fn earlier_stitches_that_cross_the_fold_are_freed() {
        let text = sample_steps().blocks[0].foundations[0].steps[2].text.concat();
        assert!(text.contains("the stitches of A2"), "{text}");
    }

    #[test]
    fn a_seam_from_edge_to_edge_runs_to_the_cutting_line() {
        let text = sample_steps().blocks[0].foundations[0].steps[1].text.concat();
        assert!(text.contains("from cutting line to cutting line"), "{text}");
    }

    #[test]
    fn a_join_names_its_points_tips_layers_and_pressing() {
        let text = sample_steps().blocks[0].joins[0].text.concat();
        for part in ["one point", "2½\u{a0}in from the left end", "6\u{a0}in", "toward flag (B)", "14 layers"] {
            assert!(text.contains(part), "{part}: {text}");
        }
    }
}
