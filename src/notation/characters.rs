//! Looks at every character of a text once: for those that word processors put in, for control characters, for commas within numbers.

use super::lower::MOST_FAULTS;
use super::source::{Span, is_line_end};
use crate::fault::{Fault, text as words_of};

/// What the scan is inside of.
#[derive(Clone, Copy, PartialEq)]
enum Within {
    Line,
    /// A text that started with a straight quote.
    Straight,
    /// A text that started with a curly quote.
    Curly,
    Comment,
}

/// The pasted characters of one kind in one line, which make one fault.
struct Run {
    c: char,
    name: &'static str,
    cure: &'static str,
    edits: Vec<(Span, String)>,
}

/// Reports the characters that are faults in themselves, in order of place. O(n).
pub(super) fn check(file: u32, text: &str) -> Vec<Fault> {
    let mut scan = Scan { file, text, faults: Vec::new(), runs: Vec::new() };
    scan.run();
    scan.faults
}

struct Scan<'t> {
    file: u32,
    text: &'t str,
    faults: Vec<Fault>,
    runs: Vec<Run>,
}

impl Scan<'_> {
    fn run(&mut self) {
        let bytes = self.text.as_bytes();
        let mut within = Within::Line;
        let mut at = if self.text.starts_with('\u{FEFF}') { '\u{FEFF}'.len_utf8() } else { 0 };
        while let Some(&byte) = bytes.get(at) {
            let mut next = at + 1;
            match byte {
                b'\n' | b'\r' => {
                    within = Within::Line;
                    self.end_line();
                }
                b'\t' if !matches!(within, Within::Straight | Within::Curly) => {}
                0..0x20 | 0x7F => self.control(at, char::from(byte)),
                b'"' => {
                    within = match within {
                        Within::Line => Within::Straight,
                        Within::Straight => Within::Line,
                        other => other,
                    }
                }
                // What is escaped ends no text; a line end or a control character is looked at all the same.
                b'\\' if matches!(within, Within::Straight | Within::Curly) => {
                    if let Some(c) = self.text.get(next..).and_then(|rest| rest.chars().next())
                        && !c.is_control()
                        && !is_line_end(c)
                    {
                        next += c.len_utf8();
                    }
                }
                b'/' if within == Within::Line && bytes.get(next) == Some(&b'/') => within = Within::Comment,
                b',' if within == Within::Line => {
                    if at > 0 && bytes.get(at - 1).is_some_and(u8::is_ascii_digit) {
                        next = self.comma(at).unwrap_or(next);
                    }
                }
                0..0x80 => {}
                _ => {
                    let Some(c) = self.text.get(at..).and_then(|rest| rest.chars().next()) else { break };
                    next = at + c.len_utf8();
                    within = self.wide(at, c, within);
                }
            }
            at = next;
        }
        self.end_line();
    }

    /// A character beyond ASCII; gives what the scan is inside of after it.
    fn wide(&mut self, at: usize, c: char, within: Within) -> Within {
        if is_line_end(c) {
            self.end_line();
            return Within::Line;
        }
        if c.is_control() || matches!(c, '\u{FFFE}' | '\u{FFFF}') {
            self.control(at, c);
            return within;
        }
        match (within, c) {
            (Within::Line, '“' | '”' | '„' | '‟') => Within::Curly,
            (Within::Curly, '“' | '”' | '„' | '‟') => Within::Line,
            (Within::Line, c) => {
                if let Some((name, cure)) = pasted(c) {
                    self.pasted(at, c, name, cure);
                }
                Within::Line
            }
            _ => within,
        }
    }

    fn report(&mut self, fault: Fault) {
        if self.faults.len() < MOST_FAULTS {
            self.faults.push(fault);
        }
    }

    fn span(&self, start: usize, end: usize) -> Span {
        Span::new(self.file, start..end)
    }

    fn control(&mut self, at: usize, c: char) {
        let span = self.span(at, at + c.len_utf8());
        self.report(words_of::control_character(span, c));
    }

    /// A comma after a digit; gives where to go on if a digit stands right after it.
    fn comma(&mut self, at: usize) -> Option<usize> {
        let bytes = self.text.as_bytes();
        let digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
        let mut start = at;
        while start > 0 && digit(start - 1) {
            start -= 1;
        }
        let mut end = at;
        while bytes.get(end) == Some(&b',') && digit(end + 1) {
            end += 1;
            while digit(end) {
                end += 1;
            }
        }
        if end == at {
            return None;
        }
        let span = self.span(start, end);
        self.report(words_of::decimal_comma(span, self.text.get(start..end).unwrap_or("")));
        Some(end)
    }

    fn pasted(&mut self, at: usize, c: char, name: &'static str, cure: &'static str) {
        let span = self.span(at, at + c.len_utf8());
        let edit = match cure {
            "--" => dash(self.text, at, c),
            cure => cure,
        };
        let edit = (span, edit.to_owned());
        match self.runs.iter_mut().find(|run| run.c == c) {
            Some(run) => run.edits.push(edit),
            None => self.runs.push(Run { c, name, cure: if edit.1 == "-" { "-" } else { cure }, edits: vec![edit] }),
        }
    }

    fn end_line(&mut self) {
        for run in std::mem::take(&mut self.runs) {
            self.report(words_of::pasted_character(run.c, run.name, run.cure, run.edits));
        }
    }
}

/// Whether a long dash stands for a hyphen (within a name), a minus (before a number) or the dashes between two points.
pub(super) fn dash(text: &str, at: usize, c: char) -> &'static str {
    let before = text.get(..at).and_then(|text| text.chars().next_back());
    let after = text.get(at + c.len_utf8()..).and_then(|text| text.chars().next());
    let word = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
    let inside = word(before) && word(after) && c != '—';
    let negative = after.is_some_and(|c| c.is_ascii_digit()) && !word(before);
    if inside || negative { "-" } else { "--" }
}

/// What a character is called and what to write in its stead, if it does not belong outside texts and comments.
fn pasted(c: char) -> Option<(&'static str, &'static str)> {
    Some(match c {
        '–' => ("an en dash", "--"),
        '—' => ("an em dash", "--"),
        '―' => ("a horizontal bar", "--"),
        '‒' => ("a figure dash", "--"),
        '−' => ("a typographic minus sign", "-"),
        '‐' => ("a typographic hyphen", "-"),
        '‑' => ("a no-break hyphen", "-"),
        '‘' | '’' | '‚' | '‛' => ("a curly single quote", "\""),
        '«' | '»' | '‹' | '›' => ("an angle quote", "\""),
        '′' => ("a prime", ""),
        '″' => ("a double prime", " in"),
        '…' => ("an ellipsis", ""),
        '•' | '·' | '‣' | '▪' | '●' => ("a bullet", ""),
        '∕' | '÷' => ("a typographic division sign", "/"),
        '✕' | '✖' | '⨯' => ("a typographic cross", "x"),
        '，' => ("a wide comma", ", "),
        '＃' => ("a wide number sign", "#"),
        'º' | '˚' => ("a ring or ordinal sign", "°"),
        '\u{AD}' => ("a soft hyphen", ""),
        '\u{200B}' => ("a zero-width blank", ""),
        '\u{200C}' => ("a zero-width non-joiner", ""),
        '\u{200D}' => ("a zero-width joiner", ""),
        '\u{2060}' | '\u{FEFF}' => ("a zero-width no-break blank", ""),
        '\u{2061}'..='\u{2064}' => ("an invisible sign", ""),
        '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' => {
            ("a mark of writing direction", "")
        }
        '\u{FFFD}' => ("a replacement character", ""),
        _ => return None,
    })
}
