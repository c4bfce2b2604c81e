//! A source text made fit for a screen, and the places in it.
//!
//! A source may hold anything, even what makes a terminal change colour or print lines backwards. Such characters are shown as a
//! stand-in of as many bytes, so that every place stays where it is.

use std::borrow::Cow;
use std::ops::Range;

use miette::{MietteError, MietteSpanContents, SourceCode, SourceSpan, SpanContents};
use piecewright::fault::Fault;
use piecewright::notation::source::{LineColumn, SourceText, Span};

/// A source text with the name by which the person knows it.
#[derive(Debug)]
pub struct Page<'a> {
    /// The name of the file.
    pub name: String,
    source: &'a SourceText,
    // Invariant: as long as the source, with characters where it has some.
    shown: Cow<'a, str>,
}

impl<'a> Page<'a> {
    /// Makes a text fit to be shown. O(n).
    pub fn new(source: &'a SourceText, name: String) -> Self {
        Self { name, source, shown: harmless(source.text()) }
    }

    /// The bytes of a stretch, moved into the text and out of the middle of characters.
    pub fn range(&self, span: Span) -> Range<usize> {
        let fit = |mut at: usize| {
            at = at.min(self.shown.len());
            while !self.shown.is_char_boundary(at) {
                at -= 1;
            }
            at
        };
        let start = fit(span.range().start);
        start..fit(span.range().end).max(start)
    }

    /// Whether there is nothing in it.
    pub fn is_empty(&self) -> bool {
        self.shown.is_empty()
    }

    /// Where a byte stands.
    pub fn place(&self, byte: usize) -> LineColumn {
        self.source.line_column(byte)
    }

    /// The line that holds a byte, from 0.
    pub fn line_of(&self, byte: usize) -> usize {
        self.source.line_of(byte)
    }

    /// The number of the last line, from 0.
    pub fn last_line(&self) -> usize {
        self.source.line_count() - 1
    }

    /// The bytes of a line (from 0), without its end.
    pub fn line_range(&self, line: usize) -> Range<usize> {
        self.source.line_range(line)
    }

    /// What stands there.
    pub fn text(&self, range: Range<usize>) -> &str {
        self.shown.get(range).unwrap_or_default()
    }
}

/// The page that the first label of a fault lies on, with the label's span.
pub fn first_place<'p, 'a>(fault: &Fault, pages: &'p [Page<'a>]) -> Option<(&'p Page<'a>, Span)> {
    let span = fault.span()?;
    Some((pages.get(span.file as usize)?, span))
}

impl SourceCode for Page<'_> {
    fn read_span<'b>(
        &'b self,
        span: &SourceSpan,
        lines_before: usize,
        lines_after: usize,
    ) -> Result<Box<dyn SpanContents<'b> + 'b>, MietteError> {
        let end = span.offset().saturating_add(span.len());
        if end > self.shown.len() {
            return Err(MietteError::OutOfBounds);
        }
        // With no context asked for, the span itself is meant; its start gives the line and column of the heading.
        let (range, column) = if lines_before == 0 && lines_after == 0 {
            (span.offset()..end, self.place(span.offset()).column - 1)
        } else {
            let first = self.line_of(span.offset()).saturating_sub(lines_before);
            let last_byte = end.saturating_sub(1).max(span.offset());
            let last = (self.line_of(last_byte) + lines_after).min(self.last_line());
            (self.line_range(first).start..self.line_range(last).end, 0)
        };
        let line = self.line_of(range.start);
        let line_count = self.line_of(range.end) - line + 1;
        let span = SourceSpan::from(range.clone());
        let data = self.text(range).as_bytes();
        Ok(Box::new(MietteSpanContents::new_named(self.name.clone(), data, span, line, column, line_count)))
    }
}

/// The text with a stand-in of as many bytes for whatever steers a terminal or the direction of writing.
fn harmless(text: &str) -> Cow<'_, str> {
    if !text.chars().any(steers) {
        return Cow::Borrowed(text);
    }
    let lines = text.split_inclusive('\n').map(|line| {
        // A carriage return is harmless at the end of a line only; elsewhere it would let the rest overwrite the start.
        let (line, end) = line.strip_suffix("\r\n").map_or((line, ""), |line| (line, "\r\n"));
        line.chars()
            .map(|letter| if steers(letter) { stand_in(letter) } else { letter })
            .chain(end.chars())
            .collect::<String>()
    });
    Cow::Owned(lines.collect())
}

/// Whether a character does something to a screen instead of being shown on it, line ends and tabs aside.
pub fn steers(letter: char) -> bool {
    let unseen =
        matches!(letter, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{2069}');
    unseen || (letter.is_control() && letter != '\n' && letter != '\t')
}

fn stand_in(letter: char) -> char {
    match letter.len_utf8() {
        1 if letter == '\r' => ' ',
        1 => '?',
        2 => '¿',
        _ => char::REPLACEMENT_CHARACTER,
    }
}

/// Words of a fault, which may quote the source, fit for a screen.
pub fn harmless_words(text: &str) -> String {
    text.chars().map(|letter| if steers(letter) { char::REPLACEMENT_CHARACTER } else { letter }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_steers_a_terminal_is_shown_as_something_else_of_the_same_length() {
        for text in ["a\u{1b}[31mb", "a\u{202e}b\u{2066}", "\u{9b}2J", "a\rb\r\n", "soft\u{ad}hyphen", "möwe\t½\n"] {
            let shown = harmless(text);
            assert_eq!(shown.len(), text.len(), "{text:?}");
            assert!(!shown.trim_end().chars().any(steers), "{shown:?}");
            assert!(text.char_indices().zip(shown.char_indices()).all(|((at, _), (shown_at, _))| at == shown_at));
        }
        assert_eq!(harmless("a\rb\r\n"), "a b\r\n");
        assert!(matches!(harmless("möwe\t½\n"), Cow::Borrowed(_)));
    }

    #[test]
    fn spans_outside_the_text_or_within_a_character_are_moved() {
        let source = SourceText::new("gull.piece", "möwe");
        let page = Page::new(&source, "gull.piece".into());
        assert_eq!(page.range(Span::new(0, 2..9)), 1..5);
        assert_eq!(page.range(Span::new(0, 7..9)), 5..5);
    }
}
