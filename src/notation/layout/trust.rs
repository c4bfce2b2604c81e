//! Whether braces and quotes of a source pair, so that what belongs where is known.

use super::reading::{Entry, Reading};
use crate::fault::{Code, Fault};
use crate::notation::grammar::Rule;
use crate::notation::source::is_line_end;

/// Whether every brace has its fellow, heads have their braces, and every text is closed. `faults` are those of the notation.
///
/// Strict where the tree is lenient: the tree guesses what was meant, and says so; a layout must not carve a guess into the source.
pub(super) fn braces_pair(text: &str, reading: &Reading<'_>, faults: &[Fault]) -> bool {
    let mut depth = 0_usize;
    for (at, entry) in reading.entries.iter().enumerate() {
        let last = at.checked_sub(1).and_then(|last| reading.entries.get(last));
        let opens = reading.entries.get(at + 1).is_some_and(|next| next.rule == Rule::open);
        match entry.rule {
            // Blocks never stand in one another, and units only in them.
            Rule::block_head if depth > 0 || !opens => return false,
            Rule::unit_head if depth > 1 || !opens => return false,
            Rule::open if !last.is_some_and(|last| may_open(text, last, entry)) => return false,
            Rule::open => depth += 1,
            Rule::close if depth == 0 => return false,
            Rule::close => depth -= 1,
            Rule::bad if has_open_quote(text.get(entry.range.clone()).unwrap_or("")) => return false,
            _ => {}
        }
    }
    // What the tree has found by misplaced statements: a brace that stands too early and another that is missing.
    depth == 0 && faults.iter().all(|fault| fault.code != Code::Unclosed)
}

/// Whether a brace opens the part at whose head, or faulty line, it follows.
fn may_open(text: &str, head: &Entry<'_>, brace: &Entry<'_>) -> bool {
    let between = text.get(head.range.end..brace.range.start).unwrap_or("");
    matches!(head.rule, Rule::block_head | Rule::unit_head) || head.is_bad() && !between.contains(is_line_end)
}

/// Whether a quote opens a text that does not end on its line.
fn has_open_quote(stretch: &str) -> bool {
    let is_curly = |c| matches!(c, '“' | '”' | '„' | '‟');
    stretch.split(is_line_end).any(|line| {
        let mut chars = line.char_indices();
        let mut within = None;
        while let Some((at, c)) = chars.next() {
            match within {
                None if line.get(at..).is_some_and(|rest| rest.starts_with("//")) => return false,
                None if c == '"' || is_curly(c) => within = Some(c == '"'),
                Some(_) if c == '\\' => _ = chars.next(),
                Some(true) if c == '"' => within = None,
                Some(false) if is_curly(c) => within = None,
                _ => {}
            }
        }
        within.is_some()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn open_quotes_are_seen() {
        for (stretch, open) in [
            ("", false),
            ("says \"all\" of it", false),
            ("says \"all of it", true),
            ("says “all \" of it”", false),
            ("says “all of it\"", true),
            (r#"says "all \" of it"#, true),
            ("says, // \"all\n of it", false),
            ("says, \"all\n\" of it", true),
        ] {
            assert_eq!(has_open_quote(stretch), open, "{stretch}");
        }
    }
}
