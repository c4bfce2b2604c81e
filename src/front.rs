//! The front door: what a program that uses the library calls.

mod artifacts;
mod bench;
mod choice;
mod compare;
mod machine;
mod plan;
pub mod release;

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use crate::fault::{self, Code, Fault, Severity};
use crate::geometry::Length;
pub use artifacts::leads_down;
pub use choice::Options;
pub use compare::{Compared, Text, compare};
pub use machine::{Asked as MachineAsked, Machined, Stuff, machine};
pub use plan::BlockPlan;

use crate::model::{self, Division, Model, Paper, SheetPaper, Units};
use crate::notation::source::{Sources, Span};
use crate::packet;
use crate::packet::page::Page;
use crate::pattern::{self, Block, Effort, Pattern, Reading, Shelf, Site, Wish};
use crate::piecing::plan::{Asked, Bench, Budget};
use crate::piecing::{self, Proof};

/// A source that was looked through.
#[derive(Debug)]
pub struct Checked {
    /// All texts that were read.
    pub sources: Sources,
    /// What is the matter, in order of place.
    pub faults: Vec<Fault>,
    /// The model at the size that was asked for; nothing when there are errors.
    pub model: Option<Model>,
    /// The sizes in which the pattern is published, the one it is drawn for in front; empty when there are errors.
    pub sizes: Vec<String>,
}

impl Checked {
    /// Whether there is no error.
    #[must_use]
    pub fn ok(&self) -> bool {
        self.faults.iter().all(|fault| fault.severity() != Severity::Error)
    }
}

/// One file of a packet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Artifact {
    /// Its path in the packet, with forward slashes.
    pub path: String,
    /// What it holds.
    pub bytes: Vec<u8>,
}

/// What a build made.
#[derive(Debug)]
pub struct Built {
    /// All texts that were read.
    pub sources: Sources,
    /// What is the matter, in order of place.
    pub faults: Vec<Fault>,
    /// The packet's files; nothing when there are errors.
    pub artifacts: Option<Vec<Artifact>>,
    /// What is to be printed, on each paper of the packet.
    pub tallies: Vec<Tally>,
}

/// What is to be printed of a packet on one paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tally {
    /// The packet's paper.
    pub paper: Paper,
    /// How many sheets of foundations are printed.
    pub printed: u32,
    /// How many different ones.
    pub different: usize,
    /// No filling prints fewer.
    pub at_least: u32,
    /// The length that the sheets take of a roll, and the least that any filling takes; nothing on single sheets.
    pub roll: Option<(Length, Length)>,
    /// How many foundations stand on the different sheets.
    pub foundations: usize,
    /// How many of them lie where they lay in a former packet; nothing where none was kept.
    pub kept: Option<usize>,
}

/// Looks a source through at the size it is drawn for. Its cutting is planned in haste: valid, but not the shortest. `name` is what faults call it; shared files come from the shelf.
#[must_use]
pub fn check(name: &str, text: &str, shelf: &dyn Shelf) -> Checked {
    compile(name, text, shelf, &Options::default(), Effort::Quick)
}

/// A source and the plans of its blocks.
#[derive(Debug)]
pub struct Planned {
    /// All texts that were read.
    pub sources: Sources,
    /// What is the matter, in order of place.
    pub faults: Vec<Fault>,
    /// The plan of each block, in order; none of a block that cannot be planned, and nothing at all when there are errors.
    pub plans: Vec<BlockPlan>,
    /// What is stuck in the blocks that straight seams cannot sew, a figure each.
    pub stuck: Vec<Page>,
    /// The source with the units of the plan in the place of its patches and seam lines; nothing where it has none, or errors.
    pub written: Option<String>,
}

/// Plans a source: its patches, and its units as if they were patches, into the best tree of straight cuts. `name` is what faults call it.
#[must_use]
pub fn plan(name: &str, text: &str, shelf: &dyn Shelf, options: &Options) -> Planned {
    let checked = compile(name, text, shelf, options, Effort::Quick);
    let reading = pattern::read_sources(name, text, shelf);
    let mut planned = Planned {
        sources: checked.sources,
        faults: checked.faults,
        plans: Vec::new(),
        stuck: Vec::new(),
        written: None,
    };
    let Some(pattern) = pattern::resolve(&reading).0 else { return planned };
    let errors = planned.faults.iter().any(|fault| fault.severity() == Severity::Error);
    if errors {
        planned.stuck = plan::stuck(&pattern);
        return planned;
    }
    let benches = bench::benches(&pattern);
    planned.plans = plan::plans(&pattern, &benches, options.budget()).into_iter().flatten().collect();
    if let (Ok((whole, _)), Some(source), Some(file)) =
        (piecing::planned(&pattern, &benches, options.budget()), planned.sources.get(0), reading.files.first())
    {
        planned.written = plan::written(source, file, &pattern, &whole);
    }
    planned
}

/// Compiles a source as far as the model; `effort` is for the plans of cutting.
fn compile(name: &str, text: &str, shelf: &dyn Shelf, options: &Options, effort: Effort) -> Checked {
    let Taken { mut sources, mut faults, pattern, warnings } = take(name, text, shelf);
    let mut model = None;
    let mut sizes = Vec::new();
    if let Some(mut pattern) = pattern {
        pattern.effort = effort;
        sizes = pattern.sizes.iter().map(|size| size.label.clone()).collect();
        match options.apply(&mut pattern, &mut sources) {
            Ok(size) => match proved(&pattern, options.budget()) {
                Ok(proved) => {
                    let (made, found) = proved.model(size, options, warnings);
                    model = made;
                    faults.extend(found);
                }
                Err(stuck) => faults.extend(stuck),
            },
            Err(wrong) => faults.extend(wrong),
        }
    }
    fault::sort(&mut faults);
    Checked { sources, faults, model, sizes }
}

/// A source that was read and resolved.
struct Taken {
    /// All texts that were read.
    sources: Sources,
    /// What is the matter so far.
    faults: Vec<Fault>,
    /// What it says; nothing where a line was not understood or does not hold.
    pattern: Option<Pattern>,
    /// Warnings that are weighed when the model is there.
    warnings: Vec<(Site, Fault)>,
}

/// Reads a source, with all that it uses, and resolves it.
fn take(name: &str, text: &str, shelf: &dyn Shelf) -> Taken {
    let reading = pattern::read_sources(name, text, shelf);
    let (pattern, mut faults, mut warnings) = pattern::resolve(&reading);
    let broken = reading.faults.iter().any(|fault| fault.severity() == Severity::Error);
    if broken {
        let lines = BrokenLines::of(&reading);
        faults.retain(|fault| !may_follow(fault, &reading, &lines));
        warnings.clear();
    }
    faults.extend(reading.faults);
    Taken { sources: reading.sources, faults, pattern: pattern.filter(|_| !broken), warnings }
}

/// The pattern as it is sewn: its patches planned into units, for the paper and the pieces of the size it is drawn for.
///
/// # Errors
/// As [`piecing::planned`].
pub fn as_sewn(pattern: &Pattern, budget: Budget) -> Result<Cow<'_, Pattern>, Vec<Fault>> {
    Ok(piecing::planned(pattern, &bench::benches(pattern), budget)?.0)
}

/// How good the division of a block is, and a hint where it could be better.
type Judged = (Division, Option<(Site, Fault)>);

/// A pattern that can be sewn: its patches planned into units, the proof, and how good its blocks are divided. It holds for every size.
struct Proved<'p> {
    pattern: Cow<'p, Pattern>,
    proof: Proof,
    blocks: Vec<Judged>,
}

impl Proved<'_> {
    /// The model at the size of this index, and what is the matter at it.
    fn model(&self, size: usize, options: &Options, mut warnings: Vec<(Site, Fault)>) -> (Option<Model>, Vec<Fault>) {
        let Some(mut model) = model::build(&self.pattern, &self.proof, size) else { return (None, Vec::new()) };
        for (block, (division, hint)) in model.blocks.iter_mut().zip(&self.blocks) {
            block.division = division.clone();
            warnings.extend(hint.clone());
        }
        let mut faults = weighed(&self.pattern, &self.proof, &model, warnings);
        faults.extend(options.narrow(&self.pattern, &mut model).err().map(|fault| *fault));
        model::call_by_marks(&self.pattern, &mut model);
        (Some(model), faults)
    }
}

/// Plans a pattern and proves that it can be sewn.
fn proved(pattern: &Pattern, budget: Budget) -> Result<Proved<'_>, Vec<Fault>> {
    let benches = bench::benches(pattern);
    let (planned, plans) = piecing::planned(pattern, &benches, budget)?;
    let proof = piecing::prove(&planned)?;
    let mut left = HINT_BUDGET;
    let blocks = pattern.blocks.iter().zip(&benches).zip(plans).enumerate();
    let blocks = blocks.map(|(index, ((block, bench), plan))| match plan {
        Some(plan) => {
            let division = Division {
                papers_proved: plan.is_proved(Wish::Papers),
                match_points_proved: plan.is_proved(Wish::MatchPoints),
                weighed: plan.weighed,
            };
            (division, None)
        }
        None => own_division(pattern, (index, block), bench, &mut left),
    });
    let blocks = blocks.collect();
    Ok(Proved { pattern: planned, proof, blocks })
}

/// So many regions are looked at, in all blocks together, to find out whether fewer papers would do for units that the author drew.
const HINT_BUDGET: u64 = 200_000;

/// How good the author's own division of a block is; `left` is what is left of the budget of regions.
fn own_division(pattern: &Pattern, (index, block): (usize, &Block), bench: &Bench<'_>, left: &mut u64) -> Judged {
    let (spare, regions) = piecing::spare_papers(block, bench, *left);
    *left = left.saturating_sub(regions);
    let papers_proved = spare == Some(0);
    let asked = Asked { wishes: &pattern.wishes, bench, budget: Budget::USUAL };
    let better = spare.filter(|spare| *spare > 0).and_then(|_| plan::papers_and_tree(pattern, block, &asked));
    let hint = better.filter(|(own, fewest, _)| fewest < own).map(|(own, fewest, tree)| {
        let fault = fault::patches::fewer_papers(block.span, &block.name, (own, fewest), &tree);
        (Site::block(index), fault)
    });
    (Division { papers_proved, ..Division::default() }, hint)
}

/// Whether a fault may be no more than a consequence of a line that was not understood.
fn may_follow(fault: &Fault, reading: &Reading, lines: &BrokenLines<'_>) -> bool {
    match fault.code {
        // What a name means may stand in such a line, if the name does, or in a shared file that could not be read.
        Code::UnknownName => {
            let unread = [Code::UseNotFound, Code::UseOutside, Code::UseCycle, Code::NotText, Code::SourceTooLarge];
            reading.faults.iter().any(|other| unread.contains(&other.code))
                || fault.span().is_none_or(|span| lines.speak_of(reading.sources.slice(span), span))
        }
        Code::MissingStatement
        | Code::SectionNumbers
        | Code::SectionGap
        | Code::CornerOutsideUnit
        | Code::BlockGap
        | Code::UnitOverlap
        | Code::SewnDiffers
        | Code::NotLeftOver
        | Code::NothingBeyond
        | Code::NotOneSeam => true,
        _ => false,
    }
}

/// The words of the lines that were not understood, each with the faults of its lines.
struct BrokenLines<'r> {
    faults_of: BTreeMap<&'r str, BTreeSet<Span>>,
}

impl<'r> BrokenLines<'r> {
    /// O(n log n) in the words of these lines.
    fn of(reading: &'r Reading) -> Self {
        let is_of_name = |letter: char| letter.is_alphanumeric() || letter == '-' || letter == '_';
        let mut by_line: BTreeMap<(u32, usize), Vec<Span>> = BTreeMap::new();
        for span in reading.faults.iter().filter_map(Fault::span) {
            let Some(source) = reading.sources.get(span.file) else { continue };
            // One line may hold a thousand faults; two of them tell as much as all.
            let spans = by_line.entry((span.file, source.line_of(span.range().start))).or_default();
            if spans.len() < 2 && !spans.contains(&span) {
                spans.push(span);
            }
        }
        let mut faults_of: BTreeMap<&str, BTreeSet<Span>> = BTreeMap::new();
        for ((file, line), spans) in by_line {
            let Some(source) = reading.sources.get(file) else { continue };
            for word in source.text().get(source.line_range(line)).into_iter().flat_map(|l| l.split(|c| !is_of_name(c)))
            {
                let known = faults_of.entry(word).or_default();
                if known.len() < 2 {
                    known.extend(&spans);
                }
            }
        }
        Self { faults_of }
    }

    /// Whether the words at a place stand in such a line, for another fault than the one at this very place.
    fn speak_of(&self, words: &str, span: Span) -> bool {
        // A place is called by the name of its unit and a number: `flag#2`.
        let name = words.split('#').next().unwrap_or_default();
        self.faults_of.get(name).is_some_and(|faults| faults.iter().any(|other| *other != span))
    }
}

/// The warnings that no `allow` silences, at the size that is built.
fn weighed(pattern: &Pattern, proof: &Proof, model: &Model, resolved: Vec<(Site, Fault)>) -> Vec<Fault> {
    let mut used = vec![false; pattern.allows.len()];
    let mut warnings = resolved;
    warnings.extend(warnings_of(pattern, proof, model));
    let mut kept = pattern::sift(&pattern.allows, warnings, &mut used);
    // A line may be for the pattern as it is drawn, which cannot be read off a coloured one: there all lines are weighed.
    if pattern.colouring.is_some() {
        return kept;
    }
    // A line that silences nothing at this size and in this colouring may well do so at others that are published.
    let drawn = std::iter::once(None);
    for colouring in drawn.chain((0..pattern.colourings.len()).map(Some)) {
        let coloured = colouring.filter(|_| used.contains(&false)).map(|index| pattern.coloured(index));
        let pattern = coloured.as_ref().unwrap_or(pattern);
        for other in 0..pattern.sizes.len() {
            if !used.contains(&false) {
                break;
            }
            if let Some(model) = model::build(pattern, proof, other) {
                let _ = pattern::sift(&pattern.allows, warnings_of(pattern, proof, &model), &mut used);
            }
        }
    }
    kept.extend(pattern::unused_allows(&pattern.allows, &used));
    kept
}

/// All warnings about a model.
fn warnings_of(pattern: &Pattern, proof: &Proof, model: &Model) -> Vec<(Site, Fault)> {
    let mut found = model::warnings(pattern, proof, model);
    found.extend(large_foundations(pattern, model));
    found
}

/// Foundations that do not fit on one page.
fn large_foundations(pattern: &Pattern, model: &Model) -> Vec<(Site, Fault)> {
    let mut found = Vec::new();
    for (index, (block, source)) in model.blocks.iter().zip(&pattern.blocks).enumerate() {
        for (unit_index, unit) in source.units.iter().enumerate() {
            // The first of the papers that one of the unit's foundations is too large for.
            let mut of_unit = block
                .variants
                .iter()
                .enumerate()
                .filter(|(_, of)| block.unit_of(of).name == unit.name && block.has_paper(of));
            let large = of_unit.find_map(|(number, variant)| {
                let bed = |&paper: &Paper| packet::sheets::Bed::of(&model.sheets, paper);
                let splits =
                    |bed: &packet::sheets::Bed| packet::foundation::needs_splitting(model, bed.room(), index, number);
                model.papers.iter().map(bed).find(splits).map(|bed| (bed, variant))
            });
            if let Some((bed, variant)) = large {
                let (from, to) = block.unit_of(variant).cutting_line.bounds();
                let size = size_words((to.x - from.x, to.y - from.y), model.units);
                let room = room_words(bed.room(), model.units);
                let fault = fault::packet::large_foundation(
                    unit.span,
                    &unit.name,
                    &size,
                    (&paper_words(bed, model.units), &room),
                );
                found.push((Site::unit(index, unit_index), fault));
            }
        }
    }
    found
}

/// What people call a paper.
fn paper_words(bed: packet::sheets::Bed, units: Units) -> String {
    let SheetPaper::Roll { width, longest } = bed.paper else { return bed.paper.name().to_owned() };
    format!("a roll in sheets of {}", room_words((width.to_inches(), longest.to_inches()), units))
}

/// Width and height, given in inches, as faults say them: to the next eighth.
fn size_words(size: (f64, f64), units: Units) -> String {
    in_eighths(size, units, f64::round)
}

/// The same for room, of which nothing is promised that is not there.
fn room_words(size: (f64, f64), units: Units) -> String {
    in_eighths(size, units, |eighths| (eighths + 1e-6).floor())
}

fn in_eighths((width, height): (f64, f64), units: Units, rounded: impl Fn(f64) -> f64) -> String {
    let (factor, unit) = if units == Units::Inches { (1.0, "in") } else { (2.54, "cm") };
    let words = |inches: f64| pattern::number_words(rounded(inches * factor * 8.0) / 8.0);
    format!("{} x {} {unit}", words(width), words(height))
}

/// Builds a packet. `progress` is told, now and then, what is being done.
pub fn build(name: &str, text: &str, shelf: &dyn Shelf, options: &Options, progress: &mut dyn FnMut(&str)) -> Built {
    progress("proving that it can be sewn");
    let effort = if options.thorough { Effort::Thorough } else { Effort::Usual };
    let mut checked = compile(name, text, shelf, options, effort);
    let mut artifacts = None;
    let mut tallies = Vec::new();
    if let Some(model) = checked.model.take().filter(|_| checked.ok()) {
        let made = options.words(&model).and_then(|words| {
            let brief = (options.brief(), options.since.as_ref());
            artifacts::artifacts(&stem(name), &model, brief, &words, progress)
        });
        match made {
            Ok((made, told)) => {
                artifacts = Some(made);
                tallies = told;
            }
            Err(fault) => checked.faults.push(*fault),
        }
    }
    Built { sources: checked.sources, faults: checked.faults, artifacts, tallies }
}

/// The name of a source without folders and ending.
fn stem(name: &str) -> String {
    let file = name.rsplit(['/', '\\']).next().unwrap_or(name);
    let stem = file.strip_suffix(".piece").unwrap_or(file);
    if stem.is_empty() || stem == "-" { String::from("packet") } else { stem.to_owned() }
}
