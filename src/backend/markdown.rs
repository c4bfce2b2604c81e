//! What changed, as Markdown: for a page on the web, a message to testers, a comment on a proposed change.

use std::fmt::Write as _;

use crate::revision::Told;

/// A revision under a heading of this depth, 1 to 5: a heading for each consequence, an item for each change.
#[must_use]
pub fn revision(title: &str, told: &Told, depth: usize) -> String {
    let mut out = format!("{} {}\n", "#".repeat(depth.clamp(1, 5)), escaped(title));
    for part in &told.parts {
        out.push_str(&list(&part.heading, &part.lines, depth + 1));
    }
    if let Some(same) = &told.same {
        _ = writeln!(out, "\n{}", escaped(same));
    }
    out
}

/// Items under a heading of this depth, 1 to 6, after an empty line.
#[must_use]
pub fn list(heading: &str, items: &[String], depth: usize) -> String {
    let mut out = format!("\n{} {}\n\n", "#".repeat(depth.clamp(1, 6)), escaped(heading));
    for item in items {
        _ = writeln!(out, "- {}", escaped(item));
    }
    out
}

/// Words that Markdown takes for nothing but words.
#[must_use]
pub fn escaped(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for letter in super::without_controls(words).chars() {
        if matches!(letter, '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '~') {
            out.push('\\');
        }
        out.push(letter);
    }
    // A number with a dot, a dash or a plus in front would begin a list, and a number sign a heading.
    match out.chars().next() {
        Some(first)
            if first == '-' || first == '#' || first == '+' || first.is_ascii_digit() && starts_a_list(&out) =>
        {
            let at = out.find(|letter: char| !letter.is_ascii_digit()).unwrap_or(0);
            out.insert(at, '\\');
            out
        }
        _ => out,
    }
}

/// Whether words begin like an item of a numbered list.
fn starts_a_list(words: &str) -> bool {
    words.trim_start_matches(|letter: char| letter.is_ascii_digit()).starts_with(['.', ')'])
}

#[cfg(test)]
mod tests {
    use super::{escaped, revision};
    use crate::revision::{Consequence, Told, ToldPart};

    #[test]
    fn words_stay_words() {
        assert_eq!(escaped("a*b_c<d>[e]`f`#g|h"), "a\\*b\\_c\\<d\\>\\[e\\]\\`f\\`#g\\|h");
        assert_eq!(escaped("1. first"), "1\\. first");
        assert_eq!(escaped("- no list"), "\\- no list");
        assert_eq!(escaped("# no heading"), "\\# no heading");
        assert_eq!(escaped("3 sections"), "3 sections");
        assert_eq!(escaped("two\nlines"), "two lines");
    }

    #[test]
    fn each_consequence_has_a_heading_and_each_change_an_item() {
        let part = ToldPart {
            consequence: Consequence::Print,
            heading: String::from("Print again"),
            lines: vec![String::from("A is new."), String::from("B is gone.")],
        };
        let told = Told { title: String::new(), parts: vec![part], same: Some(String::from("Paper C stays.")) };
        let text = "## Gull\n\n### Print again\n\n- A is new.\n- B is gone.\n\nPaper C stays.\n";
        assert_eq!(revision("Gull", &told, 2), text);
    }
}
