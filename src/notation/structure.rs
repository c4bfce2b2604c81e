//! From the flat run of entries to blocks and units.
//!
//! The grammar knows no nesting; here braces are paired. Where they do not pair, whether there are too few or too many of them from
//! one block to the next decides what a statement in the wrong place means: that it is misplaced, or that a brace before it is missing or too many.

use super::amiss;
use super::grammar::Rule;
use super::lower::{Lower, MOST_FAULTS, Said};
use super::near::nearest;
use super::source::{Span, Spanned, is_line_end};
use super::syntax::{Block, BlockItem, File, Grid, Item, Name, Unit, UnitItem};
use crate::fault::{Fault, text as words_of};
use pest::iterators::Pair;

/// Builds the tree. `characters` are the faults of single characters, in order of place: a line that holds one is not faulted a second time.
pub(super) fn build(file: u32, text: &str, entries: Vec<Pair<'_, Rule>>, characters: &[Fault]) -> (File, Vec<Fault>) {
    let tail = top_tails(&entries);
    let mut tree = Tree {
        low: Lower { file, text, faults: Vec::new() },
        spoilt: characters.iter().flat_map(|fault| fault.labels.iter().map(|label| label.span)).collect(),
        missing: 0,
        regions: imbalances(&entries).into_iter(),
        out: File::default(),
        block: None,
        unit: None,
        levels: Vec::new(),
        dropping: 0,
        closed: None,
        last: None,
    };
    tree.spoilt.sort_unstable();
    tree.missing = tree.regions.next().unwrap_or(0);
    let mut entries = entries.into_iter().zip(tail).peekable();
    while let Some((pair, tail)) = entries.next() {
        let brace = entries.next_if(|(next, _)| next.as_rule() == Rule::open && tree.opens(&pair, next));
        tree.entry(pair, brace.map(|(brace, _)| brace), tail);
    }
    (tree.out, tree.low.faults)
}

/// How many closing braces are missing before the first block, and from each block on up to the next; below zero, how many there are too many.
/// A head without its brace counts as one that opens.
fn imbalances(entries: &[Pair<'_, Rule>]) -> Vec<isize> {
    let mut regions = Vec::new();
    let mut missing = 0;
    for (at, entry) in entries.iter().enumerate() {
        let rule = entry.as_rule();
        if rule == Rule::block_head {
            regions.push(missing);
            missing = 0;
        }
        let opened = entries.get(at + 1).is_some_and(|next| next.as_rule() == Rule::open);
        missing += match rule {
            Rule::open => 1,
            Rule::close => -1,
            Rule::block_head | Rule::unit_head if !opened => 1,
            _ => 0,
        };
    }
    regions.push(missing);
    regions
}

/// For each entry, whether from it on to the next block or the end there are only statements that may stand outside all blocks.
fn top_tails(entries: &[Pair<'_, Rule>]) -> Vec<bool> {
    let mut only = true;
    let mut tails: Vec<bool> = entries
        .iter()
        .rev()
        .map(|entry| {
            only = match entry.as_rule() {
                Rule::EOI | Rule::block_head => true,
                Rule::bad => only,
                rule => only && home(rule).top,
            };
            only
        })
        .collect();
    tails.reverse();
    tails
}

/// Where a statement may stand.
#[derive(Clone, Copy)]
struct Home {
    top: bool,
    block: bool,
    unit: bool,
}

fn home(rule: Rule) -> Home {
    let [top, block, unit] = match rule {
        Rule::note | Rule::allow | Rule::measure => [true, true, true],
        Rule::finished => [true, true, false],
        Rule::cut_line | Rule::ease => [true, false, true],
        Rule::outline | Rule::point_line | Rule::points_line | Rule::step => [false, true, true],
        Rule::copies
        | Rule::place
        | Rule::patch
        | Rule::plain_line
        | Rule::seam
        | Rule::unit_head
        | Rule::unit_name
        | Rule::join
        | Rule::partial
        | Rule::inset => [false, true, false],
        Rule::section | Rule::pieced_line | Rule::strips | Rule::sewn | Rule::up | Rule::fussy => [false, false, true],
        Rule::open | Rule::close | Rule::bad => [false, false, false],
        _ => [true, false, false],
    };
    Home { top, block, unit }
}

impl Home {
    fn words(self) -> &'static str {
        match (self.top, self.block, self.unit) {
            (true, true, _) => "outside all blocks or in a block",
            (true, _, true) => "outside all blocks or in a unit",
            (true, ..) => "outside all blocks",
            (_, true, true) => "in a block or a unit",
            (_, true, _) => "in a block",
            _ => "in a unit",
        }
    }
}

/// What a brace opened.
#[derive(Clone, Copy, PartialEq)]
enum Level {
    Block,
    Unit,
    /// Nothing known; what stands in it is left out of the tree.
    Other,
}

struct OpenBlock {
    head: Option<(Name, Spanned<Grid>)>,
    start: Span,
    opener: Span,
    items: Vec<Spanned<BlockItem>>,
    /// A unit whose closing brace stands further left than its head: likely the one that lacks its own.
    suspect: Option<Span>,
}

struct OpenUnit {
    head: Option<(Name, Option<Span>)>,
    start: Span,
    opener: Span,
    items: Vec<Spanned<UnitItem>>,
}

/// A part that was just closed, and by which brace: in case that came too early.
enum Closed {
    Block(OpenBlock, Span, usize),
    Unit(OpenUnit, Span, usize),
}

struct Tree<'t> {
    low: Lower<'t>,
    /// Where characters stand that are faults in themselves, in order.
    spoilt: Vec<Span>,
    /// How many closing braces are missing between here and the next block; below zero, how many there are too many.
    missing: isize,
    /// The same for the blocks to come.
    regions: std::vec::IntoIter<isize>,
    out: File,
    block: Option<OpenBlock>,
    unit: Option<OpenUnit>,
    levels: Vec<Level>,
    /// How many of the levels are [`Level::Other`].
    dropping: usize,
    closed: Option<Closed>,
    /// The end of the entry before and whether it was faulty.
    last: Option<(usize, bool)>,
}

impl<'t> Tree<'t> {
    /// Whether this brace opens the part at whose head or faulty line it follows.
    fn opens(&self, head: &Pair<'_, Rule>, brace: &Pair<'_, Rule>) -> bool {
        match head.as_rule() {
            Rule::block_head | Rule::unit_head => true,
            Rule::bad => self.one_line(head.as_span().end(), brace.as_span().start()),
            _ => false,
        }
    }

    fn one_line(&self, from: usize, to: usize) -> bool {
        let between = self.low.text.get(from..to).unwrap_or("");
        !between.contains(is_line_end)
    }

    fn here(&self) -> &'static str {
        match (&self.block, &self.unit) {
            (_, Some(_)) => "in a unit",
            (Some(_), None) => "in a block",
            (None, None) => "outside all blocks",
        }
    }

    fn entry(&mut self, pair: Pair<'t, Rule>, brace: Option<Pair<'t, Rule>>, tail: bool) {
        let (rule, span) = (pair.as_rule(), self.low.span(&pair));
        let brace = brace.map(|brace| self.low.span(&brace));
        let end = brace.unwrap_or(span).range().end;
        let (crowded, after_fault) = match self.last {
            Some((last, faulty)) if self.one_line(last, span.range().start) => (true, faulty),
            _ => (false, false),
        };
        let mut faulty = after_fault || matches!(rule, Rule::bad | Rule::open);
        if crowded && !faulty && rule != Rule::EOI {
            self.low.report(words_of::own_line(span, pair.as_str()));
            faulty = true;
        }
        match rule {
            Rule::EOI => self.end(),
            Rule::bad => {
                if !after_fault {
                    self.explain(&pair);
                }
                if let Some(brace) = brace {
                    self.bad_head(&pair, brace);
                }
            }
            Rule::open => {
                if !after_fault {
                    self.low.report(words_of::stray_open(span));
                }
                self.open_other();
            }
            Rule::close => self.close(span),
            Rule::block_head => {
                let opener = self.opener(span, "block", brace);
                let head = self.low.block_head(pair);
                self.begin_block(head, span, opener);
            }
            Rule::unit_head => {
                let opener = self.opener(span, "unit", brace);
                let head = self.low.unit_head(pair);
                self.begin_unit(head, span, opener);
            }
            _ => self.statement(pair, tail),
        }
        self.last = Some((end, faulty));
    }

    /// The brace that opens a part, or its head where the brace is missing.
    fn opener(&mut self, head: Span, part: &str, brace: Option<Span>) -> Span {
        match brace {
            Some(brace) if self.one_line(head.range().end, brace.range().start) => brace,
            late => {
                self.low.report(words_of::unopened(head, part, late));
                late.unwrap_or(head)
            }
        }
    }

    /// Reports what is wrong with a stretch that is no statement, unless a character in it is a fault already.
    fn explain(&mut self, pair: &Pair<'_, Rule>) {
        let span = self.low.span(pair);
        let first = self.spoilt.partition_point(|spoilt| spoilt.end <= span.start);
        if self.spoilt.get(first).is_some_and(|spoilt| spoilt.start < span.end) || self.low.faults.len() >= MOST_FAULTS
        {
            return;
        }
        let help = match (&self.block, &self.unit) {
            (_, Some(_)) => {
                "in a unit a line starts with the number of a section, or a word such as `outline`, `point` or `note`"
            }
            (Some(_), None) => {
                "in a block a line starts with a word such as `point`, `unit`, `place`, `join` or `note`"
            }
            (None, None) => {
                "outside all blocks a line starts with a word such as `pattern`, `finished`, `fabric` or `block`"
            }
        };
        let fault = amiss::explain(&self.low, span.range(), help);
        self.low.report(fault);
    }

    /// A faulty line that opens something: a block or a unit, as its first word or its place has it.
    fn bad_head(&mut self, pair: &Pair<'_, Rule>, brace: Span) {
        let span = self.low.span(pair);
        let first = pair.as_str().split(|c: char| !c.is_alphanumeric()).next().unwrap_or("");
        match nearest(first, ["block", "unit"]) {
            Some("block") => self.begin_block(None, span, brace),
            Some(_) => self.begin_unit(None, span, brace),
            None if self.unit.is_some() || self.dropping > 0 => self.open_other(),
            None if self.block.is_some() => self.begin_unit(None, span, brace),
            None => self.begin_block(None, span, brace),
        }
    }

    fn open_other(&mut self) {
        self.levels.push(Level::Other);
        self.dropping += 1;
    }

    fn begin_block(&mut self, head: Option<(Name, Spanned<Grid>)>, span: Span, opener: Span) {
        // Blocks never stand in one another.
        while !self.levels.is_empty() {
            self.force(span);
        }
        self.flush();
        self.missing = self.regions.next().unwrap_or(0);
        self.block = Some(OpenBlock { head, start: span, opener, items: Vec::new(), suspect: None });
        self.levels.push(Level::Block);
    }

    fn begin_unit(&mut self, head: Option<(Name, Option<Span>)>, span: Span, opener: Span) {
        if self.unit.is_some() && self.missing > 0 {
            self.force_unit(span);
        }
        if self.unit.is_some() || self.dropping > 0 {
            if self.dropping == 0 {
                self.low.report(words_of::misplaced_statement(span, "a unit", "in a block", "in another unit"));
            }
            self.open_other();
            return;
        }
        if self.block.is_none() && !self.reopen(Level::Block, span) {
            self.low.report(words_of::misplaced_statement(span, "a unit", "in a block", "outside all blocks"));
        }
        self.flush();
        self.unit = Some(OpenUnit { head, start: span, opener, items: Vec::new() });
        self.levels.push(Level::Unit);
    }

    fn statement(&mut self, pair: Pair<'t, Rule>, tail: bool) {
        let (rule, span) = (pair.as_rule(), self.low.span(&pair));
        let home = home(rule);
        let word = match rule {
            Rule::section => "a section".to_owned(),
            _ => format!("`{}`", pair.as_str().split(|c: char| !c.is_alphanumeric() && c != '-').next().unwrap_or("")),
        };
        let said = self.low.statement(pair);
        if self.dropping > 0 {
            return;
        }
        let ends_unit = home.block || (home.top && tail);
        if self.unit.is_some() && !home.unit && ends_unit && self.missing > 0 {
            self.force_unit(span);
        }
        if self.block.is_some() && self.unit.is_none() && !home.block && home.top && tail && self.missing > 0 {
            self.force(span);
        }
        if self.block.is_none() && self.unit.is_none() && !home.top {
            self.reopen(Level::Block, span);
        }
        if self.unit.is_none() && home.unit && !home.block {
            self.reopen(Level::Unit, span);
        }
        let fits = match (&self.block, &self.unit) {
            (_, Some(_)) => home.unit,
            (Some(_), None) => home.block,
            (None, None) => home.top,
        };
        if !fits {
            self.low.report(words_of::misplaced_statement(span, &word, home.words(), self.here()));
        } else if let Some(said) = said {
            self.put(said, span);
        }
    }

    fn put(&mut self, said: Said, span: Span) {
        if let Some(unit) = &mut self.unit {
            unit.items.extend(said.into_unit_item().map(|item| Spanned::new(item, span)));
        } else if let Some(block) = &mut self.block {
            block.items.extend(said.into_block_item().map(|item| Spanned::new(item, span)));
        } else {
            self.out.items.extend(said.into_item().map(|item| Spanned::new(item, span)));
        }
    }

    /// A closing brace.
    fn close(&mut self, brace: Span) {
        match self.levels.pop() {
            Some(Level::Other) => self.dropping = self.dropping.saturating_sub(1),
            Some(Level::Unit) => {
                self.flush();
                let indents = (self.indent(brace), self.unit.as_ref().map(|unit| self.indent(unit.start)));
                if let (Some(block), Some(unit)) = (&mut self.block, &self.unit)
                    && let (Some(outer), Some(Some(inner))) = indents
                    && outer < inner
                {
                    block.suspect.get_or_insert(unit.opener);
                }
                let at = self.block.as_ref().map_or(0, |block| block.items.len());
                self.closed = self.unit.take().map(|unit| Closed::Unit(unit, brace, at));
            }
            Some(Level::Block) => {
                self.flush();
                let at = self.out.items.len();
                self.closed = self.block.take().map(|block| Closed::Block(block, brace, at));
            }
            None => {
                self.low.report(words_of::stray_close(brace, None));
                self.missing += 1;
            }
        }
    }

    /// How far from the left a line starts, if it starts here.
    fn indent(&self, at: Span) -> Option<usize> {
        const FURTHEST: usize = 200;
        let before = self.low.text.as_bytes().get(at.range().start.saturating_sub(FURTHEST)..at.range().start)?;
        let blanks = before.iter().rev().take_while(|byte| matches!(byte, b' ' | b'\t')).count();
        let starts =
            before.len() == blanks || before.iter().rev().nth(blanks).is_some_and(|byte| matches!(byte, b'\n' | b'\r'));
        starts.then_some(blanks)
    }

    /// Closes what is open innermost, for want of its brace, which `found` brought to light.
    fn force(&mut self, found: Span) {
        match self.levels.pop() {
            Some(Level::Other) => self.dropping = self.dropping.saturating_sub(1),
            Some(Level::Unit) => {
                self.flush();
                if let Some(unit) = self.unit.take() {
                    self.low.report(words_of::unclosed(unit.opener, "unit", Some(found)));
                    self.missing -= 1;
                    self.keep_unit(unit, found, None);
                }
            }
            Some(Level::Block) => {
                self.flush();
                if let Some(block) = self.block.take() {
                    self.low.report(match block.suspect {
                        Some(unit) => words_of::unclosed(unit, "unit", None),
                        None => words_of::unclosed(block.opener, "block", Some(found)),
                    });
                    self.missing -= 1;
                    self.keep_block(block, found, None);
                }
            }
            None => {}
        }
    }

    fn force_unit(&mut self, found: Span) {
        while self.unit.is_some() && !self.levels.is_empty() {
            self.force(found);
        }
    }

    /// Opens the part closed last once more, if there is a brace too many: then that was the one.
    fn reopen(&mut self, level: Level, next: Span) -> bool {
        if self.missing >= 0 {
            return false;
        }
        match (level, self.closed.take()) {
            (Level::Block, Some(Closed::Block(block, brace, _))) => {
                self.low.report(words_of::stray_close(brace, Some(("block", next))));
                self.block = Some(block);
            }
            (Level::Unit, Some(Closed::Unit(unit, brace, _))) => {
                self.low.report(words_of::stray_close(brace, Some(("unit", next))));
                self.unit = Some(unit);
            }
            (_, closed) => {
                self.closed = closed;
                return false;
            }
        }
        self.missing += 1;
        self.levels.push(level);
        true
    }

    /// Puts the part closed last where it belongs.
    fn flush(&mut self) {
        match self.closed.take() {
            Some(Closed::Unit(unit, brace, at)) => self.keep_unit(unit, brace, Some(at)),
            Some(Closed::Block(block, brace, at)) => self.keep_block(block, brace, Some(at)),
            None => {}
        }
    }

    fn keep_unit(&mut self, unit: OpenUnit, end: Span, at: Option<usize>) {
        if let (Some(block), Some((name, apart))) = (&mut self.block, unit.head) {
            let item = BlockItem::Unit(Unit { name, apart, items: unit.items });
            let at = at.unwrap_or(block.items.len()).min(block.items.len());
            block.items.insert(at, Spanned::new(item, unit.start.to(end)));
        }
    }

    fn keep_block(&mut self, block: OpenBlock, end: Span, at: Option<usize>) {
        if let Some((name, grid)) = block.head {
            let item = Item::Block(Block { name, grid, items: block.items });
            let at = at.unwrap_or(self.out.items.len()).min(self.out.items.len());
            self.out.items.insert(at, Spanned::new(item, block.start.to(end)));
        }
    }

    /// The end of the text.
    fn end(&mut self) {
        self.flush();
        let end = Span::new(self.low.file, self.low.text.len()..self.low.text.len());
        while let Some(level) = self.levels.pop() {
            match level {
                Level::Other => {}
                Level::Unit => {
                    if let Some(unit) = self.unit.take() {
                        self.low.report(words_of::unclosed(unit.opener, "unit", None));
                        self.keep_unit(unit, end, None);
                    }
                }
                Level::Block => {
                    if let Some(block) = self.block.take() {
                        self.low.report(match block.suspect {
                            Some(unit) => words_of::unclosed(unit, "unit", None),
                            None => words_of::unclosed(block.opener, "block", None),
                        });
                        self.keep_block(block, end, None);
                    }
                }
            }
        }
    }
}
