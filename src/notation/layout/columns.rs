//! Neighbouring lines of one kind stand in columns, and so do the comments behind them.

use super::lines::{Content, Line};
use crate::notation::grammar::Rule;

/// A line longer than this, in characters, stays out of the column of comments.
const LONGEST: usize = 80;

/// What lines must share to stand in the same columns.
#[derive(Clone, Copy, PartialEq)]
enum Table {
    /// Lines of one kind.
    Of(Rule),
    /// All other lines outside blocks.
    Facts,
}

impl Table {
    fn of(line: &Line<'_>) -> Option<Self> {
        let Content::Statement { rule, .. } = line.content else { return None };
        match rule {
            Rule::section
            | Rule::point_line
            | Rule::points_line
            | Rule::measure
            | Rule::patch
            | Rule::plain_line
            | Rule::fabric
            | Rule::colouring => Some(Self::Of(rule)),
            _ if line.depth == 0 => Some(Self::Facts),
            _ => None,
        }
    }
}

/// With which of its words each column of a line starts, but for the first.
pub(super) fn starts(rule: Rule, depth: usize) -> &'static [usize] {
    match rule {
        // The number and the fabric of a section are one column.
        Rule::section | Rule::point_line | Rule::points_line | Rule::measure | Rule::patch => &[2],
        Rule::plain_line | Rule::colouring => &[2, 3],
        Rule::fabric => &[2, 3, 4],
        _ if depth == 0 => &[1],
        _ => &[],
    }
}

/// Sets all lines in their columns. O(n).
pub(super) fn align(lines: &mut [Line<'_>]) {
    let stands_alone = |line: &Line<'_>| !matches!(line.content, Content::Statement { .. } | Content::Verbatim(..));
    let go_together =
        |a: &Line<'_>, b: &Line<'_>| !b.after_gap && a.depth == b.depth && !stands_alone(a) && !stands_alone(b);
    for paragraph in lines.chunk_by_mut(go_together) {
        align_paragraph(paragraph);
    }
}

/// Sets lines that no empty line, comment or brace parts.
fn align_paragraph(lines: &mut [Line<'_>]) {
    // The sections of a unit are one list, whatever stands between them.
    pad_columns(lines.iter_mut().filter(|line| Table::of(line) == Some(Table::Of(Rule::section))).collect());
    for run in lines.chunk_by_mut(|a, b| Table::of(a) == Table::of(b)) {
        if run.first().and_then(Table::of).is_some_and(|table| table != Table::Of(Rule::section)) {
            pad_columns(run.iter_mut().collect());
        }
    }
    let takes_part = |line: &&mut Line<'_>| line.behind.is_some() && line.width().is_some_and(|width| width <= LONGEST);
    let widest = lines.iter_mut().filter(takes_part).filter_map(|line| line.width()).max().unwrap_or(0);
    for line in lines.iter_mut().filter(takes_part) {
        line.blanks_behind += widest.saturating_sub(line.width().unwrap_or(widest));
    }
}

/// Pads every column but the last of each line.
fn pad_columns(lines: Vec<&mut Line<'_>>) {
    let mut table: Vec<&mut Vec<String>> = lines
        .into_iter()
        .filter_map(|line| match &mut line.content {
            Content::Statement { columns, .. } => Some(columns),
            _ => None,
        })
        .collect();
    let most = table.iter().map(|columns| columns.len()).max().unwrap_or(0);
    for column in 0..most.saturating_sub(1) {
        let mut cells: Vec<&mut String> = table
            .iter_mut()
            .filter(|columns| column + 1 < columns.len())
            .filter_map(|columns| columns.get_mut(column))
            .collect();
        let widest = cells.iter().map(|cell| cell.chars().count()).max().unwrap_or(0);
        for cell in &mut cells {
            let blanks = widest - cell.chars().count();
            cell.extend(std::iter::repeat_n(' ', blanks));
        }
    }
}
