//! A plan written back: the patches and seam lines of a source become units, and all else stays as it stood, comments too.

use std::fmt::Write as _;

use super::placing::placing;
use crate::geometry::{Point, Polygon, Tolerance};
use crate::notation::source::{SourceText, Span};
use crate::notation::syntax::{self, BlockItem, Item};
use crate::pattern::{Block, Named, Pattern, corner_source};

/// The source with the units of the plan in the place of its patches and seam lines; `None` where no block has patches.
///
/// `pattern` is as the source has it, `planned` the same with units. The comments behind patches move to the sections that these become; those behind
/// other lines that go, and all lines of comment, stay where they are.
pub fn written(source: &SourceText, file: &syntax::File, pattern: &Pattern, planned: &Pattern) -> Option<String> {
    let blocks =
        file.items.iter().filter_map(|item| if let Item::Block(block) = &item.value { Some(block) } else { None });
    let mut edits: Vec<(std::ops::Range<usize>, String)> = Vec::new();
    for (syntax, (before, after)) in blocks.zip(pattern.blocks.iter().zip(&planned.blocks)) {
        if !before.patches.is_empty() {
            edits.extend(edits_of_block(source, syntax, before, after, pattern));
        }
    }
    if edits.is_empty() {
        return None;
    }
    edits.sort_by_key(|(range, _)| std::cmp::Reverse(range.start));
    let mut text = source.text().to_owned();
    for (range, words) in edits {
        text.replace_range(range, &words);
    }
    Some(text)
}

fn edits_of_block(
    source: &SourceText,
    syntax: &syntax::Block,
    before: &Block,
    after: &Block,
    pattern: &Pattern,
) -> Vec<(std::ops::Range<usize>, String)> {
    let gone: Vec<(Span, bool)> = syntax
        .items
        .iter()
        .filter_map(|item| match item.value {
            BlockItem::Patch { .. } => Some((item.span, true)),
            BlockItem::SeamLine(_) | BlockItem::UnitName { .. } => Some((item.span, false)),
            _ => None,
        })
        .collect();
    let words: String = gone.iter().map(|(span, _)| source.text().get(span.range()).unwrap_or("")).collect();
    let writer = Writer { source, before, after, pattern, words: &words };
    let units = writer.units();
    gone.iter()
        .enumerate()
        .map(|(number, &(span, is_patch))| {
            let lines = whole_lines(source, span);
            // A patch that stands for a section takes its comments along.
            let moved =
                is_patch && after.units.iter().flat_map(|unit| &unit.sections).any(|section| section.span == span);
            let kept = if moved { String::new() } else { comment_lines(source, span) };
            // Where the last of these lines stood, so that all the names that they speak of are defined above.
            let instead = if number + 1 == gone.len() { format!("{kept}{units}") } else { kept };
            (lines, instead)
        })
        .collect()
}

/// The lines on which a statement stands, with their ends.
fn whole_lines(source: &SourceText, span: Span) -> std::ops::Range<usize> {
    let range = span.range();
    let (first, last) = (source.line_of(range.start), source.line_of(range.end.max(range.start + 1) - 1));
    let from = source.line_range(first).start;
    let to = if last + 1 < source.line_count() { source.line_range(last + 1).start } else { source.text().len() };
    from..to
}

/// The comments on the lines of a statement, without their slashes.
fn comments(source: &SourceText, span: Span) -> Vec<&str> {
    let lines = source.text().get(whole_lines(source, span)).unwrap_or("").lines();
    lines.filter_map(|line| line.split_once("//")).map(|(_, comment)| comment.trim()).collect()
}

/// The comments on the lines of a statement as lines of their own.
fn comment_lines(source: &SourceText, span: Span) -> String {
    comments(source, span).into_iter().flat_map(|comment| ["  // ", comment, "\n"]).collect()
}

/// Writes the units of a block.
struct Writer<'w> {
    source: &'w SourceText,
    before: &'w Block,
    after: &'w Block,
    pattern: &'w Pattern,
    /// The words of all lines that go.
    words: &'w str,
}

impl Writer<'_> {
    /// The units, places and joins that the planner has added.
    fn units(&self) -> String {
        let mut text = String::new();
        // Writing to a string cannot fail.
        for (index, unit) in self.after.units.iter().enumerate().skip(self.before.units.len()) {
            let _ = writeln!(text, "  unit {} {{\n    outline {}", unit.name, self.path(&unit.outline));
            for (number, section) in (1..).zip(&unit.sections) {
                let key = self.pattern.fabrics.get(section.fabric).map_or("", |fabric| fabric.key.as_str());
                let comments = comments(self.source, section.span);
                let behind = if comments.is_empty() { String::new() } else { format!(" // {}", comments.join("; ")) };
                let _ = writeln!(text, "    {number} {key} {}{behind}", self.path(&section.polygon));
            }
            text.push_str("  }\n");
            for place in self.after.placements.iter().filter(|place| place.unit == index).skip(1) {
                let name = if place.name.contains(' ') { String::new() } else { format!(" as {}", place.name) };
                let _ = writeln!(text, "  place {}{name} {}", unit.name, placing(place.transform));
            }
        }
        for join in self.after.joins.iter().skip(self.before.joins.len()) {
            let members: Vec<String> = join
                .members
                .iter()
                .filter_map(|(place, _)| self.after.placements.get(*place))
                .map(crate::pattern::Placement::called)
                .collect();
            let _ = writeln!(text, "  join {}", members.join(" "));
        }
        text
    }

    /// A path, its corners by their names where they have any.
    fn path(&self, polygon: &Polygon) -> String {
        polygon.corners().iter().map(|&corner| self.corner(corner)).collect::<Vec<_>>().join(" -- ")
    }

    /// A corner by its name: one that the lines speak of that go, else any; by its coordinates where it has none.
    fn corner(&self, corner: Point) -> String {
        let tolerance: Tolerance = self.before.tolerance;
        let here =
            |named: &&(String, Named)| matches!(named.1, Named::Point(at) if tolerance.is_zero(at.distance(corner)));
        let names = || self.before.names.iter().filter(here).map(|(name, _)| name.as_str());
        if let Some(name) = names().find(|name| self.speaks_of(name)).or_else(|| names().next()) {
            return name.to_owned();
        }
        let plain = corner_source(corner);
        let (x, y) = plain.split_once(", ").unwrap_or((&plain, ""));
        let measured = |value: f64, plain: &str| {
            let is_value =
                |named: &&(String, Named)| matches!(named.1, Named::Measure(of) if (of - value).abs() < 1e-9);
            let found = self.before.names.iter().filter(is_value).find(|(name, _)| self.speaks_of(name));
            found.map_or_else(|| plain.to_owned(), |(name, _)| name.clone())
        };
        format!("{}, {}", measured(corner.x, x), measured(corner.y, y))
    }

    /// Whether the lines that go have this name in them.
    fn speaks_of(&self, name: &str) -> bool {
        let is_of_name = |letter: char| letter.is_alphanumeric() || letter == '-';
        self.words.split(|letter| !is_of_name(letter)).any(|word| word == name)
    }
}
