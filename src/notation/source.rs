//! Source texts and places in them: which file, which bytes, which line and column.

use std::ops::Range;

/// The greatest size of one source, in bytes. Larger ones are refused before they are read whole.
pub const MAX_SOURCE_BYTES: usize = 4 << 20;

/// A stretch of a source text: a file and the bytes from `start` up to `end`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// The file, by its number in [`Sources`]; the main source is 0.
    pub file: u32,
    /// The first byte.
    pub start: u32,
    /// The byte past the last.
    pub end: u32,
}

impl Span {
    /// A stretch of the file with this number.
    #[must_use]
    pub fn new(file: u32, range: Range<usize>) -> Self {
        let to_u32 = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        Self { file, start: to_u32(range.start), end: to_u32(range.end) }
    }

    /// The bytes of the stretch within its file.
    #[must_use]
    pub fn range(self) -> Range<usize> {
        self.start as usize..self.end as usize
    }

    /// The shortest stretch that holds both; both lie in the same file.
    #[must_use]
    pub fn to(self, other: Self) -> Self {
        debug_assert_eq!(self.file, other.file);
        Self { file: self.file, start: self.start.min(other.start), end: self.end.max(other.end) }
    }
}

/// Something read from a source, with the place where it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Spanned<T> {
    /// What was read.
    pub value: T,
    /// Where it stands.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// Joins a thing and its place.
    pub fn new(value: T, span: Span) -> Self {
        Self { value, span }
    }

    /// The same place, with what stands there turned into something else.
    pub fn map<U>(self, f: impl FnOnce(T) -> U) -> Spanned<U> {
        Spanned { value: f(self.value), span: self.span }
    }
}

/// One source text with a table of its lines.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SourceText {
    name: String,
    text: String,
    // Invariant: ascending, starts with 0.
    line_starts: Vec<usize>,
}

/// Whether a character ends a line.
#[must_use]
pub fn is_line_end(c: char) -> bool {
    matches!(c, '\n' | '\r' | '\u{85}' | '\u{2028}' | '\u{2029}')
}

/// A line and a column, both counted from 1; columns count characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct LineColumn {
    /// The line, from 1.
    pub line: usize,
    /// The column in characters, from 1.
    pub column: usize,
}

impl SourceText {
    /// Takes a text in, under the name by which faults call it. O(n).
    #[must_use]
    pub fn new(name: impl Into<String>, text: impl Into<String>) -> Self {
        let text = text.into();
        let mut line_starts = vec![0];
        let mut ends = text.char_indices().filter(|&(_, c)| is_line_end(c)).peekable();
        while let Some((at, c)) = ends.next() {
            // A carriage return and a line feed end one line together.
            if c != '\r' || ends.peek() != Some(&(at + 1, '\n')) {
                line_starts.push(at + c.len_utf8());
            }
        }
        drop(ends);
        Self { name: name.into(), text, line_starts }
    }

    /// The name by which faults call the file.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The whole text.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The line that holds this byte, from 0. O(log n).
    #[must_use]
    pub fn line_of(&self, byte: usize) -> usize {
        self.line_starts.partition_point(|&start| start <= byte).saturating_sub(1)
    }

    /// The bytes of the line with this number (from 0), its line end left out.
    #[must_use]
    pub fn line_range(&self, line: usize) -> Range<usize> {
        let start = self.line_starts.get(line).copied().unwrap_or(self.text.len());
        let Some(&next) = self.line_starts.get(line + 1) else { return start..self.text.len() };
        let words = &self.text[start..next];
        let words = words.strip_suffix("\r\n").or_else(|| words.strip_suffix(is_line_end)).unwrap_or(words);
        start..start + words.len()
    }

    /// How many lines there are; at least one.
    #[must_use]
    pub fn line_count(&self) -> usize {
        self.line_starts.len()
    }

    /// The line and column of a byte; a byte past the end counts as the end. O(log n + length of the line).
    #[must_use]
    pub fn line_column(&self, byte: usize) -> LineColumn {
        let byte = byte.min(self.text.len());
        let line = self.line_of(byte);
        let start = self.line_starts[line];
        let column = self.text[start..].char_indices().take_while(|(at, _)| start + at < byte).count();
        LineColumn { line: line + 1, column: column + 1 }
    }
}

/// All texts of one run: the main source first, then the shared files in the order in which they were first used.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Sources {
    files: Vec<SourceText>,
}

impl Sources {
    /// Takes a text in and gives its number.
    pub fn add(&mut self, source: SourceText) -> u32 {
        self.files.push(source);
        u32::try_from(self.files.len() - 1).unwrap_or(u32::MAX)
    }

    /// The text with this number, if there is one.
    #[must_use]
    pub fn get(&self, file: u32) -> Option<&SourceText> {
        self.files.get(file as usize)
    }

    /// The words at a place; empty if the place is in no text.
    #[must_use]
    pub fn slice(&self, span: Span) -> &str {
        self.get(span.file).and_then(|file| file.text().get(span.range())).unwrap_or("")
    }

    /// All texts, in order of their numbers.
    pub fn iter(&self) -> impl Iterator<Item = &SourceText> {
        self.files.iter()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_end_in_every_way() {
        let source = SourceText::new("ends.piece", "one\ntwo\r\nthree\rfour\u{2028}five\r\r\nlast");
        let lines: Vec<_> = (0..source.line_count()).map(|line| &source.text()[source.line_range(line)]).collect();
        assert_eq!(lines, ["one", "two", "three", "four", "five", "", "last"]);
        let at = source.text().find("three").unwrap();
        assert_eq!(source.line_column(at + 2), LineColumn { line: 3, column: 3 });
        assert_eq!(source.line_column(usize::MAX), LineColumn { line: 7, column: 5 });
    }

    #[test]
    fn an_empty_text_has_one_empty_line() {
        let source = SourceText::new("empty.piece", "");
        assert_eq!((source.line_count(), source.line_range(0), source.line_range(9)), (1, 0..0, 0..0));
    }
}
