//! From entries to lines: how deep each stands, what comment stands behind it, where an empty line stands before it.

use std::ops::Range;

use super::columns;
use super::plain::stretch;
use super::reading::{Bit, Entry, Word, bits, placed_bits};
use crate::notation::grammar::Rule;
use crate::notation::source::is_line_end;

/// How many blanks a level is indented by.
const INDENT: usize = 2;

/// How many blanks stand between a line and the comment behind it, at least.
const BEHIND: usize = 2;

/// A line as it will stand, or the lines of one statement.
pub(super) struct Line<'t> {
    /// How many parts it stands in.
    pub(super) depth: usize,
    /// Whether an empty line stands before it.
    pub(super) after_gap: bool,
    pub(super) content: Content<'t>,
    /// The comment behind it, with its slashes.
    pub(super) behind: Option<&'t str>,
    /// How many blanks stand before that comment.
    pub(super) blanks_behind: usize,
}

/// What stands on a line.
pub(super) enum Content<'t> {
    /// A statement: its first line in columns, and the lines that it goes on in.
    Statement { rule: Rule, columns: Vec<String>, more: Vec<String> },
    /// A head with its brace.
    Open(String),
    /// A head that is not laid out together with its brace.
    Head(String),
    /// A closing brace.
    Close,
    /// A comment on a line of its own.
    Comment(&'t str),
    /// What stands as it was written, and whether its last mark is a brace that opens.
    Verbatim(String, bool),
}

impl Line<'_> {
    /// How wide a line is without its comment, in characters; `None` for what has several lines or is no statement.
    pub(super) fn width(&self) -> Option<usize> {
        let Content::Statement { columns, more, .. } = &self.content else { return None };
        let blanks = self.depth * INDENT + columns.len().saturating_sub(1);
        more.is_empty().then(|| blanks + columns.iter().map(|cell| cell.chars().count()).sum::<usize>())
    }

    fn opens(&self) -> bool {
        match &self.content {
            Content::Open(_) => true,
            Content::Verbatim(_, opens) => *opens,
            _ => false,
        }
    }
}

/// Makes lines of all entries and the comments between them. Braces pair. O(n).
pub(super) fn lines<'t>(text: &'t str, entries: &[Entry<'t>]) -> Vec<Line<'t>> {
    let mut maker = Maker { text, entries, lines: Vec::new(), depth: 0, at: 0 };
    let groups: Vec<Range<usize>> = maker.groups();
    let mut at = 0;
    for (number, group) in groups.iter().enumerate() {
        if maker.is_verbatim(group) {
            maker.verbatim(group);
            at = group.end;
        }
        while at < group.end {
            // A brace may stand on the line below its head, but not with what was not understood.
            let next_is_plain =
                at + 1 < group.end || groups.get(number + 1).is_some_and(|next| !maker.is_verbatim(next));
            at = maker.entry(at, next_is_plain);
        }
    }
    maker.between(text.len());
    maker.lines
}

struct Maker<'t, 'e> {
    text: &'t str,
    entries: &'e [Entry<'t>],
    lines: Vec<Line<'t>>,
    depth: usize,
    /// Up to which byte all is said.
    at: usize,
}

impl<'t> Maker<'t, '_> {
    /// The entries that share lines, in groups.
    fn groups(&self) -> Vec<Range<usize>> {
        let mut groups: Vec<Range<usize>> = Vec::new();
        let mut end = 0;
        for (at, entry) in self.entries.iter().enumerate() {
            let between = self.text.get(end..entry.range.start).unwrap_or("");
            match groups.last_mut() {
                Some(group) if !between.contains(is_line_end) => group.end = at + 1,
                _ => groups.push(at..at + 1),
            }
            end = entry.range.end;
        }
        groups
    }

    fn of_group(&self, group: &Range<usize>) -> &[Entry<'t>] {
        self.entries.get(group.clone()).unwrap_or(&[])
    }

    /// Whether something in these lines was not understood: they stay as they are.
    fn is_verbatim(&self, group: &Range<usize>) -> bool {
        self.of_group(group).iter().any(Entry::is_bad)
    }

    fn push(&mut self, after_gap: bool, content: Content<'t>) {
        let closes = matches!(content, Content::Close);
        let after_gap = after_gap && !closes && self.lines.last().is_some_and(|last| !last.opens());
        self.lines.push(Line { depth: self.depth, after_gap, content, behind: None, blanks_behind: BEHIND });
    }

    /// Puts the comments up to this byte in their places. Gives whether an empty line stands between the last of them and that byte.
    fn between(&mut self, to: usize) -> bool {
        // At the start of the text a comment stands behind nothing.
        let mut ends = usize::from(self.at == 0 && self.lines.is_empty());
        for bit in bits(self.text, self.at..to) {
            match bit {
                Bit::LineEnd => ends += 1,
                Bit::Comment(comment) => {
                    match self.lines.last_mut() {
                        Some(Line { content, behind: behind @ None, .. })
                            if ends == 0 && !matches!(content, Content::Comment(_)) =>
                        {
                            *behind = Some(comment);
                        }
                        _ => self.push(ends > 1, Content::Comment(comment)),
                    }
                    ends = 0;
                }
                Bit::Mark(_) => {}
            }
        }
        self.at = to;
        ends > 1
    }

    /// Makes the line of an entry, with the brace that follows it if it is a head. Gives the number of the entry to go on with.
    fn entry(&mut self, at: usize, next_is_plain: bool) -> usize {
        let Some(entry) = self.entries.get(at) else { return at + 1 };
        let after_gap = self.between(entry.range.start);
        self.at = entry.range.end;
        match entry.rule {
            Rule::block_head | Rule::unit_head => {
                let (columns, _) = statement(entry, &[]);
                let head = columns.join(" ");
                match self.entries.get(at + 1).filter(|next| next.rule == Rule::open && next_is_plain) {
                    Some(brace) => {
                        self.push(after_gap, Content::Open(head + " {"));
                        self.depth += 1;
                        self.between(brace.range.start);
                        self.at = brace.range.end;
                        return at + 2;
                    }
                    None => self.push(after_gap, Content::Head(head)),
                }
            }
            Rule::close => {
                self.depth = self.depth.saturating_sub(1);
                self.push(after_gap, Content::Close);
            }
            // Braces open the parts of heads; those of faulty lines are verbatim.
            Rule::open => self.depth += 1,
            rule => {
                let (columns, more) = statement(entry, columns::starts(rule, self.depth));
                self.push(after_gap, Content::Statement { rule, columns, more });
            }
        }
        at + 1
    }

    /// Makes lines of entries that share lines with what was not understood.
    fn verbatim(&mut self, group: &Range<usize>) {
        let (Some(first), Some(last)) = (self.entries.get(group.start), self.entries.get(group.end - 1)) else {
            return;
        };
        let after_gap = self.between(first.range.start);
        let mut end = last.range.end;
        // A comment may be the rest of what was not understood: `report http://…`.
        if let Some((Bit::Comment(_), range)) = placed_bits(self.text, end..self.text.len()).next() {
            end = range.end;
        }
        let closes = self.of_group(group).iter().take_while(|entry| entry.rule == Rule::close).count();
        let depth = self.of_group(group).iter().fold(self.depth, |depth, entry| match entry.rule {
            Rule::open => depth + 1,
            Rule::close => depth.saturating_sub(1),
            _ => depth,
        });
        self.depth = self.depth.saturating_sub(closes);
        let words = stretch(self.text.get(first.range.start..end).unwrap_or("")).into_owned();
        self.push(after_gap && closes == 0, Content::Verbatim(words, last.rule == Rule::open));
        self.depth = depth;
        self.at = end;
    }
}

/// The words of a statement: the columns of its first line, and the lines that it goes on in.
fn statement(entry: &Entry<'_>, starts: &[usize]) -> (Vec<String>, Vec<String>) {
    let mut columns = vec![String::new()];
    let mut more: Vec<String> = Vec::new();
    let mut last: Option<&Word<'_>> = None;
    for (number, word) in entry.words.iter().enumerate() {
        let mut ends = 0;
        for bit in &word.before {
            match bit {
                Bit::LineEnd => ends += 1,
                Bit::Comment(comment) if ends == 0 => {
                    if let Some(line) = more.last_mut().or(columns.last_mut()) {
                        line.push_str(&" ".repeat(BEHIND));
                        line.push_str(comment);
                    }
                }
                Bit::Comment(comment) => {
                    go_on(&mut more, ends);
                    more.push((*comment).to_owned());
                    ends = 0;
                }
                Bit::Mark(_) => {}
            }
        }
        if ends > 0 {
            go_on(&mut more, ends);
            more.push(String::new());
        } else if starts.contains(&number) && more.is_empty() {
            columns.push(String::new());
        } else if let (Some(last), Some(line)) = (last, more.last_mut().or(columns.last_mut()))
            && word.stands_off(last)
        {
            line.push(' ');
        }
        if let Some(line) = more.last_mut().or(columns.last_mut()) {
            // How a fabric is printed stands a blank further off.
            if entry.rule == Rule::fabric && number == 4 {
                line.push(' ');
            }
            line.push_str(&word.text);
        }
        last = Some(word);
    }
    (columns, more)
}

/// An empty line between the lines of a statement, where there was one.
fn go_on(more: &mut Vec<String>, ends: usize) {
    if ends > 1 {
        more.push(String::new());
    }
}

/// Writes the lines.
pub(super) fn print(lines: &[Line<'_>]) -> String {
    let mut text = String::new();
    for line in lines {
        if line.after_gap {
            text.push('\n');
        }
        let indent = " ".repeat(line.depth * INDENT);
        text.push_str(&indent);
        match &line.content {
            Content::Statement { columns, more, .. } => {
                text.push_str(&columns.join(" "));
                for line in more {
                    text.push('\n');
                    if !line.is_empty() {
                        text.push_str(&indent);
                        text.push_str(&" ".repeat(INDENT));
                        text.push_str(line);
                    }
                }
            }
            Content::Open(words) | Content::Head(words) | Content::Verbatim(words, _) => text.push_str(words),
            Content::Close => text.push('}'),
            Content::Comment(comment) => text.push_str(comment),
        }
        if let Some(comment) = line.behind {
            text.push_str(&" ".repeat(line.blanks_behind));
            text.push_str(comment);
        }
        text.push('\n');
    }
    text
}
