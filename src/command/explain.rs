//! `piecewright explain`: the manual page of a fault, or the list of all.

use std::fmt::Write;

use piecewright::fault::Code;

use super::arguments::Explain;
use super::show::severity_word;
use super::voice::{Screen, Voice};
use super::{Outcome, Trouble};

/// The width to which running text is broken.
const WIDTH: usize = 80;

/// Prints a page or the list.
pub fn run(asked: &Explain, voice: &mut Voice) -> Result<Outcome, Trouble> {
    let bold = Screen::output(asked.color).colour;
    let Some(wanted) = &asked.code else {
        voice.say(&list());
        return Ok(Outcome::Fine);
    };
    // What was copied from a fault is understood as it stands: `error[near-miss]`.
    let slug = wanted.trim_start_matches("error").trim_start_matches("warning");
    let slug =
        slug.trim_matches(|letter: char| !letter.is_ascii_alphanumeric()).to_lowercase().replace(['_', ' '], "-");
    let Some(code) = Code::from_slug(&slug) else {
        let trouble = Trouble::new(format!("there is no fault with the code `{}`", wanted.escape_debug()));
        return Err(match nearest(&slug) {
            Some(near) => trouble.with_help(format!("did you mean `piecewright explain {}`?", near.slug())),
            None => trouble.with_help("`piecewright explain` lists all codes"),
        });
    };
    let paint = |text: String| if bold { format!("\u{1b}[1m{text}\u{1b}[0m") } else { text };
    let heading = paint(format!("{}[{}]", severity_word(code.severity()), code.slug()));
    voice.say(&format!("{heading}\n\n{}", page(code.page(), bold)));
    Ok(Outcome::Fine)
}

/// The first line of a code's page, without its markup.
pub fn heading(code: Code) -> String {
    let first = code.page().lines().map(str::trim).find(|line| !line.is_empty()).unwrap_or_default();
    let text = first.trim_start_matches('#').trim();
    // A page may begin with its code; the list shows that already.
    let rest = text
        .trim_start_matches('`')
        .strip_prefix(code.slug())
        .map(|rest| rest.trim_start_matches(['`', ':', ' ', '–']));
    rest.filter(|rest| !rest.is_empty()).unwrap_or(text).into()
}

fn list() -> String {
    let width = Code::ALL.iter().map(|code| code.slug().len()).max().unwrap_or(0);
    let mut text = String::new();
    let mut last = None;
    for &code in Code::ALL {
        if last != Some(code.severity()) {
            let gap = if last.is_some() { "\n" } else { "" };
            _ = writeln!(text, "{gap}{}s", severity_word(code.severity()));
            last = Some(code.severity());
        }
        _ = writeln!(text, "  {:width$}  {}", code.slug(), heading(code));
    }
    text
}

/// The code that differs in the fewest letters, if that is less than half of them.
fn nearest(slug: &str) -> Option<Code> {
    // Nobody mistypes a code by hundreds of letters, and the comparison takes time by their number.
    let slug = slug.get(..64.min(slug.len()))?;
    let contained = Code::ALL.iter().find(|code| slug.len() > 3 && code.slug().contains(slug));
    let by_distance = || Code::ALL.iter().map(|&code| (distance(slug, code.slug()), code)).min();
    let near = || by_distance().filter(|(distance, code)| 2 * distance < code.slug().len()).map(|(_, code)| code);
    contained.copied().or_else(near)
}

/// The number of letters to add, drop or change to turn one word into the other. O(n·m).
fn distance(a: &str, b: &str) -> usize {
    let mut row: Vec<usize> = (0..=b.chars().count()).collect();
    for (i, x) in a.chars().enumerate() {
        let mut corner = i;
        let mut left = i + 1;
        if let Some(first) = row.first_mut() {
            *first = left;
        }
        for (above, y) in row.iter_mut().skip(1).zip(b.chars()) {
            let best = (corner + usize::from(x != y)).min(*above + 1).min(left + 1);
            corner = std::mem::replace(above, best);
            left = best;
        }
    }
    row.last().copied().unwrap_or(0)
}

/// A manual page on a terminal: headings stand out, code is set in, running text is broken to the width.
fn page(markdown: &str, bold: bool) -> String {
    let mut text = String::new();
    let mut running = String::new();
    let mut in_code = false;
    for line in markdown.lines() {
        let starts = |marks: &[&str]| marks.iter().any(|mark| line.starts_with(mark));
        let is_fence = starts(&["```", "~~~"]);
        if in_code || is_fence || line.trim().is_empty() || starts(&["#", "- ", "* ", "|", "    "]) {
            flush(&mut text, &mut running);
        }
        if is_fence {
            in_code = !in_code;
        } else if in_code {
            _ = writeln!(text, "{}", format!("    {line}").trim_end());
        } else if starts(&["#"]) {
            let heading = line.trim_start_matches('#').trim();
            _ = if bold { writeln!(text, "\u{1b}[1m{heading}\u{1b}[0m") } else { writeln!(text, "{heading}") };
        } else if line.trim().is_empty() {
            text.push('\n');
        } else if starts(&["|", "    "]) {
            _ = writeln!(text, "{line}");
        } else {
            _ = write!(running, "{} ", line.trim());
        }
    }
    flush(&mut text, &mut running);
    text
}

/// Breaks running text into lines; the lines of an item of a list stand under its words.
fn flush(text: &mut String, running: &mut String) {
    let indent = if running.starts_with("- ") || running.starts_with("* ") { "  " } else { "" };
    let mut column = 0;
    for word in running.split_whitespace() {
        let letters = word.chars().count();
        if column > 0 && column + 1 + letters > WIDTH {
            _ = write!(text, "\n{indent}{word}");
            column = indent.len() + letters;
        } else {
            let gap = if column > 0 { " " } else { "" };
            _ = write!(text, "{gap}{word}");
            column += gap.len() + letters;
        }
    }
    if column > 0 {
        text.push('\n');
    }
    running.clear();
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_near_code_is_found() {
        assert_eq!(distance("gull", "gulls"), 1);
        assert_eq!(distance("", "tern"), 4);
        assert_eq!(distance("mast", "boat"), 3);
        assert_eq!(nearest("near-mis"), Some(Code::NearMiss));
        assert_eq!(nearest("decimal-coma"), Some(Code::DecimalComma));
        assert_eq!(nearest("comma"), Some(Code::DecimalComma));
        assert_eq!(nearest("lighthouse-keeper"), None);
    }

    #[test]
    fn markdown_is_set_for_a_terminal() {
        let long = "The gull sits on the lantern and looks out over the harbour, where the boats lie at anchor.";
        let markdown = format!("# A heading\n\n{long}\nIt waits.\n\n```piece\nfinished 8 in\n```\n\n- one\n- two\n");
        insta::assert_snapshot!(page(&markdown, false), @r"
        A heading

        The gull sits on the lantern and looks out over the harbour, where the boats lie
        at anchor. It waits.

            finished 8 in

        - one
        - two
        ");
        assert!(page(&markdown, true).starts_with("\u{1b}[1mA heading\u{1b}[0m\n"));
    }
}
