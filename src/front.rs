//! The front door: what a program that uses the library calls.

mod artifacts;
mod choice;
mod plan;

use std::collections::{BTreeMap, BTreeSet};

use crate::fault::{self, Code, Fault, Severity};
pub use choice::Options;
pub use plan::BlockPlan;

use crate::model::{self, Model, Paper, Units};
use crate::notation::source::{Sources, Span};
use crate::packet;
use crate::pattern::{self, Pattern, Reading, Shelf, Site};
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
}

impl Checked {
    /// Whether there is no error.
    #[must_use]
    pub fn ok(&self) -> bool {
        self.faults.iter().all(|fault| fault.severity() == Severity::Warning)
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
}

/// Looks a source through at the size it is drawn for. `name` is what faults call it; shared files come from the shelf.
#[must_use]
pub fn check(name: &str, text: &str, shelf: &dyn Shelf) -> Checked {
    compile(name, text, shelf, &Options::default())
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
}

/// Plans a source: its patches, and its units as if they were patches, into the fewest papers. `name` is what faults call it.
#[must_use]
pub fn plan(name: &str, text: &str, shelf: &dyn Shelf) -> Planned {
    let checked = check(name, text, shelf);
    let reading = pattern::read_sources(name, text, shelf);
    let pattern = pattern::resolve(&reading).0.filter(|_| checked.ok());
    let plans = pattern.map(|pattern| plan::plans(&pattern)).unwrap_or_default();
    Planned { sources: checked.sources, faults: checked.faults, plans: plans.into_iter().flatten().collect() }
}

/// Compiles a source as far as the model.
fn compile(name: &str, text: &str, shelf: &dyn Shelf, options: &Options) -> Checked {
    let reading = pattern::read_sources(name, text, shelf);
    let (pattern, mut faults, mut warnings) = pattern::resolve(&reading);
    let broken = reading.faults.iter().any(|fault| fault.severity() == Severity::Error);
    if broken {
        let lines = BrokenLines::of(&reading);
        faults.retain(|fault| !may_follow(fault, &reading, &lines));
        warnings.clear();
    }
    faults.extend(reading.faults);
    let mut model = None;
    if let Some(mut pattern) = pattern.filter(|_| !broken) {
        match options.apply(&mut pattern) {
            Ok(size) => match piecing::planned(&pattern).and_then(|pattern| Ok((piecing::prove(&pattern)?, pattern))) {
                Ok((proof, pattern)) => {
                    model = model::build(&pattern, &proof, size);
                    if let Some(model) = &mut model {
                        faults.extend(weighed(&pattern, &proof, model, warnings));
                        faults.extend(options.narrow(&pattern, model).err().map(|fault| *fault));
                    }
                }
                Err(stuck) => faults.extend(stuck),
            },
            Err(wrong) => faults.extend(wrong),
        }
    }
    fault::sort(&mut faults);
    Checked { sources: reading.sources, faults, model }
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
                let splits = |paper: &&Paper| packet::sheets::needs_splitting(model, **paper, index, number);
                model.papers.iter().find(splits).map(|paper| (*paper, variant))
            });
            if let Some((paper, variant)) = large {
                let (from, to) = block.unit_of(variant).cutting_line.bounds();
                let size = size_words((to.x - from.x, to.y - from.y), model.units);
                let (_, wide, high) = packet::sheets::room(paper);
                let room = room_words((wide, high), model.units);
                let fault = fault::packet::large_foundation(unit.span, &unit.name, &size, (paper.name(), &room));
                found.push((Site::unit(index, unit_index), fault));
            }
        }
    }
    found
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
    let mut checked = compile(name, text, shelf, options);
    let mut artifacts = None;
    if let Some(model) = checked.model.take().filter(|_| checked.ok()) {
        let made = options
            .words(&model)
            .and_then(|words| artifacts::artifacts(&stem(name), &model, options.brief(), &words, progress));
        match made {
            Ok(made) => artifacts = Some(made),
            Err(fault) => checked.faults.push(*fault),
        }
    }
    Built { sources: checked.sources, faults: checked.faults, artifacts }
}

/// The name of a source without folders and ending.
fn stem(name: &str) -> String {
    let file = name.rsplit(['/', '\\']).next().unwrap_or(name);
    let stem = file.strip_suffix(".piece").unwrap_or(file);
    if stem.is_empty() || stem == "-" { String::from("packet") } else { stem.to_owned() }
}
