//! The statements outside all blocks, and the whole pattern.

use std::collections::{BTreeMap, BTreeSet};

use crate::fault::{Fault, Severity, names, sizes};
use crate::geometry::Length;
use crate::notation::source::{Span, Spanned};
use crate::notation::syntax::{self, Finished, FinishedSize, Item, PhysicalLength, Text};

use super::allow::{Allow, Site};
use super::block::{self, Context};
use super::bounds::{MOST_FAULTS, MOST_SIZES, Spent};
use super::cloth::Effort;
use super::colourings::{colourings, idle};
use super::corners::Corners;
use super::cuts::CutWish;
use super::cutting;
use super::facts::{Fabric, Facts, Paper, Print, PrintDirection, Units};
use super::files::{Pictures, Reading, misplaced};
use super::grid::{checked_length, finished_words, units};
use super::plain::{slanting_prints, without_paper};
use super::publisher::{Publisher, date_words};
use super::scope::{Resolved, Scope};
use super::sheets::{self, SheetRules};
use super::unit::{Fabrics, allow_line};
use super::wishes::{Wish, wishes};
use super::{Pattern, Size};

/// A count within bounds.
pub fn checked_count(count: &Spanned<u32>, what: &str, least: u32, most: u32) -> Resolved<u32> {
    if (least..=most).contains(&count.value) {
        Ok(count.value)
    } else {
        Err(Box::new(sizes::count_out_of_range(count.span, what, least, most)))
    }
}

/// The statements outside the blocks, gathered.
#[derive(Default)]
struct Gathered<'s> {
    seen: BTreeMap<&'static str, Span>,
    title: Option<&'s Text>,
    edition: Option<&'s Text>,
    date: Option<syntax::Date>,
    publisher: Publisher<'s>,
    finished: Option<&'s Finished>,
    sizes: &'s [Finished],
    allowance: Option<&'s PhysicalLength>,
    cutting: Vec<(&'s Item, Span)>,
    papers: Vec<Paper>,
    sheets: SheetRules,
    wishes: Vec<Wish>,
    language: Option<String>,
    colourings: Vec<(&'s syntax::Colouring, Span)>,
    notes: Vec<String>,
    fabrics: Vec<Fabric>,
    blocks: Vec<&'s syntax::Block>,
}

impl<'s> Gathered<'s> {
    /// The finished sizes that blocks state for themselves.
    fn own_sizes(&self) -> impl Iterator<Item = &'s Finished> {
        self.blocks.iter().filter_map(|block| own_finished(block))
    }

    /// The size that the pattern is drawn for: its own, or else that of its first block that has one.
    fn lead(&self) -> Option<&'s Finished> {
        self.finished.or_else(|| self.own_sizes().next())
    }
}

/// Resolves what was read. Warnings come with their sites, so that `allow` lines can be weighed when later rooms have added theirs;
/// faults and warnings are in no particular order.
#[must_use]
pub fn resolve(reading: &Reading) -> (Option<Pattern>, Vec<Fault>, Vec<(Site, Fault)>) {
    let mut faults = Vec::new();
    let mut warnings = Vec::new();
    let mut allows = Vec::new();
    let mut fabrics = Fabrics::new();
    let mut scope = Scope::new(None);
    let mut gathered = Gathered::default();
    // Shared files first: what they define stands before the pattern, wherever the `use` line is.
    for (number, file) in reading.files.iter().enumerate().rev() {
        for item in &file.items {
            if faults.len() >= MOST_FAULTS {
                return (None, faults, warnings);
            }
            let shared = number > 0;
            if let Some(fault) = misplaced(&item.value, item.span).filter(|_| shared) {
                faults.push(fault);
            } else if let Err(fault) = gather(&mut gathered, item, shared, &mut fabrics, &mut scope, &mut allows) {
                faults.push(*fault);
            }
        }
    }
    let broken = reading.faults.iter().any(|fault| fault.severity() == Severity::Error);
    let facts = facts(&gathered, &reading.pictures, broken, &mut faults);
    if faults.len() >= MOST_FAULTS {
        return (None, faults, warnings);
    }
    let units = gathered.lead().map_or(Units::Inches, |lead| units(main_length(&lead.size)));
    let cutting = cutting::outside(&gathered.cutting, units, &fabrics, &mut gathered.fabrics, &mut faults);
    let mut blocks = Vec::new();
    let mut spent = Spent::default();
    let mut names_seen: BTreeMap<&str, Span> = BTreeMap::new();
    for (index, source) in gathered.blocks.iter().enumerate() {
        if let Some(&first) = names_seen.get(source.name.value.as_str()) {
            faults.push(names::doubled_name(source.name.span, &source.name.value, Some(first)));
        }
        names_seen.insert(&source.name.value, source.name.span);
        let Some(ground) = block::ground_of(source, &mut faults) else { continue };
        let mut context = Context {
            block: index,
            units,
            corners: Corners::new(ground.tolerance),
            ground,
            fabrics: &mut fabrics,
            faults: &mut faults,
            warnings: &mut warnings,
            allows: &mut allows,
            spent: &mut spent,
        };
        if context.full() {
            return (None, faults, warnings);
        }
        blocks.extend(block::block(source, &scope, gathered.finished, &mut context));
    }
    let coloured = colourings(&gathered.colourings, &mut fabrics, &mut faults);
    let complete = blocks.len() == gathered.blocks.len() && !broken;
    if complete {
        let key = |fabric: usize| gathered.fabrics.get(fabric).map(|fabric| fabric.key.clone()).unwrap_or_default();
        warnings.extend(idle(&coloured, &blocks, key));
        let unused = fabrics.unused().map(|(span, name)| names::unused_name(span, "fabric", name));
        let unused_here = scope.unused().filter(|(span, ..)| span.file == 0);
        let unused = unused.chain(unused_here.map(|(span, kind, name)| names::unused_name(span, kind, name)));
        warnings.extend(unused.map(|fault| (Site::default(), fault)));
    }
    if complete {
        let lines =
            coloured.iter().map(|placed| &placed.colouring).zip(gathered.colourings.iter().map(|&(_, span)| span));
        let lines: Vec<_> = lines.collect();
        faults.extend(slanting_prints(&blocks, &gathered.fabrics, &lines));
        faults.extend(without_paper(&blocks));
    }
    let measured = measured(&gathered, units, &mut faults);
    let (Some(facts), Some((sizes, allowance)), true) = (facts, measured, complete && !blocks.is_empty()) else {
        return (None, faults, warnings);
    };
    let wishes = if gathered.wishes.is_empty() { Wish::USUAL.to_vec() } else { gathered.wishes };
    let default_paper = if units == Units::Metric { Paper::A4 } else { Paper::Letter };
    let papers = if gathered.papers.is_empty() { vec![default_paper] } else { gathered.papers };
    let pattern = faults.is_empty().then_some(Pattern {
        facts,
        units,
        allowance,
        ease: cutting.ease,
        cut: cutting.cut,
        least_turn: cutting.least_turn,
        cloth: cutting.cloth,
        owned: cutting.owned,
        people: 1,
        effort: Effort::Usual,
        papers,
        sheets: gathered.sheets,
        language: gathered.language,
        sizes,
        fabrics: gathered.fabrics,
        colourings: coloured.into_iter().map(|placed| placed.colouring).collect(),
        colouring: None,
        wishes,
        blocks,
        allows,
    });
    (pattern, faults, warnings)
}

fn gather<'s>(
    gathered: &mut Gathered<'s>,
    item: &'s Spanned<Item>,
    shared: bool,
    fabrics: &mut Fabrics,
    scope: &mut Scope<'_>,
    allows: &mut Vec<Allow>,
) -> Resolved<()> {
    let once = match &item.value {
        Item::Title(_) => Some("pattern"),
        Item::Edition(_) => Some("edition"),
        Item::Author(_) => Some("author"),
        Item::Date(_) => Some("date"),
        Item::Licence(_) => Some("licence"),
        Item::Finished(_) => Some("finished"),
        Item::Sizes(_) => Some("sizes"),
        Item::Allowance(_) => Some("allowance"),
        Item::TurnSlack(_) => Some("turn-slack"),
        Item::Squaring(_) => Some("squaring"),
        Item::Shrinkage(_) => Some("shrinkage"),
        Item::Cutting(_) => Some("cutting"),
        Item::Paper(_) => Some("paper"),
        Item::Sheets(_) => Some("sheets"),
        Item::Wishes(_) => Some("wishes"),
        Item::Language(_) => Some("language"),
        Item::Skill(_) => Some("skill"),
        Item::Contact(_) => Some("contact"),
        Item::Report(_) => Some("report"),
        Item::Logo(_) => Some("logo"),
        Item::Photo(_) => Some("photo"),
        _ => None,
    };
    if let Some(word) = once
        && let Some(first) = gathered.seen.insert(word, item.span)
        // The pattern may overrule what a shared file says.
        && first.file == item.span.file
    {
        return Err(Box::new(names::doubled_statement(item.span, word, first)));
    }
    match &item.value {
        Item::Title(text) => gathered.title = Some(text),
        Item::Edition(text) => gathered.edition = Some(text),
        Item::Date(date) => gathered.date = Some(date.value),
        Item::Finished(finished) => gathered.finished = Some(finished),
        Item::Sizes(sizes) => gathered.sizes = sizes,
        Item::Allowance(length) => gathered.allowance = Some(length),
        Item::Cut(_)
        | Item::Ease(_)
        | Item::TurnSlack(_)
        | Item::Cloth(_)
        | Item::Squaring(_)
        | Item::Shrinkage(_)
        | Item::Cutting(_)
        | Item::Have(_) => gathered.cutting.push((&item.value, item.span)),
        Item::Paper(words) => gathered.papers = papers(words)?,
        Item::Sheets(wishes) => sheets::take(&mut gathered.sheets, wishes)?,
        Item::Wishes(words) => gathered.wishes = wishes(words)?,
        Item::Language(language) => gathered.language = Some(language.value.clone()),
        Item::Colouring(colouring) => gathered.colourings.push((colouring, item.span)),
        Item::Fabric(fabric) => {
            fabrics.define(&fabric.key, gathered.fabrics.len(), shared)?;
            let mark = u32::try_from(gathered.fabrics.len() + 1).unwrap_or(u32::MAX);
            gathered.fabrics.push(Fabric {
                key: fabric.key.value.clone(),
                mark,
                name: fabric.name.value.clone(),
                colour: fabric.colour.value,
                print: print(&fabric.print)?,
                cut: CutWish::default(),
                stock: None,
            });
        }
        Item::Measure(measure) => scope.define_measure(measure)?,
        Item::Note(note) => match &note.target {
            None => gathered.notes.push(note.text.value.clone()),
            Some(_) => return Err(Box::new(fastened_outside(item.span))),
        },
        Item::Allow(allow) => match &allow.target {
            None => allows.push(allow_line(&allow.code, Site::default(), item.span)?),
            Some(_) => return Err(Box::new(fastened_outside(item.span))),
        },
        Item::Block(block) => gathered.blocks.push(block),
        Item::Use(_) => {}
        Item::Author(_)
        | Item::Licence(_)
        | Item::Skill(_)
        | Item::Contact(_)
        | Item::Report(_)
        | Item::About(_)
        | Item::Tool(_)
        | Item::History(_)
        | Item::Logo(_)
        | Item::Photo(_) => gathered.publisher.gather(&item.value, item.span)?,
    }
    Ok(())
}

/// The papers, none twice.
fn papers(words: &[syntax::Name]) -> Resolved<Vec<Paper>> {
    let mut papers: Vec<Paper> = Vec::new();
    for word in words {
        let unknown = || Box::new(names::unknown_word(word.span, &word.value, "paper", &["letter", "a4"]));
        let paper = Paper::from_word(&word.value).ok_or_else(unknown)?;
        if let Some(first) = papers.iter().position(|other| *other == paper) {
            let first = words.get(first).map_or(word.span, |first| first.span);
            return Err(Box::new(names::doubled_paper(word.span, &word.value, first)));
        }
        papers.push(paper);
    }
    Ok(papers)
}

fn fastened_outside(span: Span) -> Fault {
    names::target_misplaced(
        span,
        "section or join",
        "outside the blocks a line speaks of the whole pattern; put it into the unit or the block that it is about",
    )
}

fn print(words: &[syntax::Name]) -> Resolved<Print> {
    let known = ["one-way", "two-way", "directional", "across"];
    let mut print = Print { direction: PrintDirection::None, across: false };
    for word in words {
        match word.value.as_str() {
            "one-way" | "directional" => print.direction = PrintDirection::OneWay,
            "two-way" => print.direction = PrintDirection::TwoWay,
            "across" => print.across = true,
            other => return Err(Box::new(names::unknown_word(word.span, other, "kind of print", &known))),
        }
    }
    if print.across && print.direction == PrintDirection::None {
        let span = words.first().map_or(Span::new(0, 0..0), |word| word.span);
        return Err(Box::new(names::target_misplaced(
            span,
            "direction for the print to run across",
            "write `one-way across` or `two-way across`",
        )));
    }
    Ok(print)
}

fn facts(gathered: &Gathered<'_>, pictures: &Pictures, broken: bool, faults: &mut Vec<Fault>) -> Option<Facts> {
    // After a syntax fault the line may well be there, only not understood.
    if !broken {
        let span = gathered.blocks.first().map(|block| block.name.span);
        let mut missing = |what: &str, example: &str| {
            faults.push(names::missing_statement(span, what, "the pattern", example));
        };
        let bare = gathered.title.is_none() && gathered.edition.is_none() && gathered.blocks.is_empty();
        if bare && (!gathered.fabrics.is_empty() || gathered.publisher.author.is_some()) {
            faults.push(names::shared_file_alone());
            return None;
        }
        if gathered.title.is_none() {
            missing("title", "pattern \"Storm Lantern\"");
        }
        if gathered.edition.is_none() {
            missing("edition", "edition \"1.0\"");
        }
        if gathered.blocks.is_empty() {
            missing("block", "block lantern 16 x 16 {");
        }
    }
    let text = |text: Option<&Text>| text.map(|text| text.value.clone());
    let publisher = gathered.publisher.facts(pictures, faults);
    Some(Facts {
        title: text(gathered.title)?,
        edition: text(gathered.edition)?,
        date: gathered.date.map(date_words),
        notes: gathered.notes.clone(),
        ..publisher
    })
}

/// Sizes and allowance.
fn measured(gathered: &Gathered<'_>, units: Units, faults: &mut Vec<Fault>) -> Option<(Vec<Size>, Length)> {
    let lead = gathered.lead()?;
    let inches = units == Units::Inches;
    let mut length = |written: Option<&PhysicalLength>, what: &str, otherwise: Length, most: Length| match written {
        None => Some(otherwise),
        Some(written) => checked_length(written, what, most).map_err(|fault| faults.push(*fault)).ok(),
    };
    let quarter = Length::inches(0.25);
    let allowance = length(
        gathered.allowance,
        "a seam allowance",
        if inches { quarter } else { Length::millimetres(7.5) },
        Length::inches(2.0),
    );
    let label = if gathered.finished.is_some() {
        finished_words(&lead.size)
    } else {
        let mut labels: Vec<String> = Vec::new();
        let mut seen = BTreeSet::new();
        for size in gathered.own_sizes() {
            let words = finished_words(&size.size);
            if seen.insert(words.clone()) {
                labels.push(words);
            }
        }
        labels.join(", ")
    };
    if let Some(beyond) = gathered.sizes.get(MOST_SIZES) {
        let most = u32::try_from(MOST_SIZES).unwrap_or(u32::MAX);
        faults.push(sizes::count_out_of_range(beyond.span, "the number of further sizes", 1, most));
        return None;
    }
    let mut sizes = vec![Size { label, factor: 1.0 }];
    for size in gathered.sizes {
        if gathered.finished.is_none() {
            faults.push(names::missing_statement(
                Some(size.span),
                "finished size to compare these with",
                "the pattern",
                "finished 8 in",
            ));
            return None;
        }
        sizes.push(further_size(&lead.size, size).map_err(|fault| faults.push(*fault)).ok()?);
    }
    Some((sizes, allowance?))
}

fn own_finished(block: &syntax::Block) -> Option<&Finished> {
    block.items.iter().find_map(|item| if let syntax::BlockItem::Finished(f) = &item.value { Some(f) } else { None })
}

/// The length by which sizes of one manner are compared.
fn main_length(size: &FinishedSize) -> &PhysicalLength {
    match size {
        FinishedSize::Square(length) | FinishedSize::Side(length) | FinishedSize::Rectangle(length, _) => length,
    }
}

fn further_size(lead: &FinishedSize, size: &Finished) -> Resolved<Size> {
    let most = Length::inches(200.0);
    let ratio = |a: &PhysicalLength, b: &PhysicalLength| -> Resolved<f64> {
        Ok(checked_length(a, "a further size", most)? / super::grid::length(b))
    };
    let unclear = || Box::new(sizes::sizes_differ_in_manner(size.span, &finished_words(lead).replace('×', "x")));
    let factor = match (&size.size, lead) {
        (FinishedSize::Square(a), FinishedSize::Square(b)) | (FinishedSize::Side(a), FinishedSize::Side(b)) => {
            ratio(a, b)?
        }
        (FinishedSize::Rectangle(a, c), FinishedSize::Rectangle(b, d)) => {
            let (wide, high) = (ratio(a, b)?, ratio(c, d)?);
            if (wide / high - 1.0).abs() > 1e-4 {
                let like = finished_words(lead);
                return Err(Box::new(sizes::sizes_ratio(size.span, &finished_words(&size.size), &like)));
            }
            wide
        }
        _ => return Err(unclear()),
    };
    if factor.is_finite() && factor > 0.0 {
        Ok(Size { label: finished_words(&size.size), factor })
    } else {
        Err(unclear())
    }
}
