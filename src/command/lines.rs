//! Two texts compared line by line.

use similar::TextDiff;

/// How many lines that stay are shown round each change.
const AROUND: usize = 3;

/// How many lines a text may have for its changes to be sought line by line; that takes the square of their number.
const MOST_LINES: usize = 10_000;

/// The lines that go and come, as a unified diff under the two names; nothing where a text has too many of them.
pub fn difference(names: (&str, &str), (before, after): (&str, &str)) -> Option<String> {
    if before.lines().count().max(after.lines().count()) > MOST_LINES {
        return None;
    }
    let lines = TextDiff::from_lines(before, after);
    Some(lines.unified_diff().context_radius(AROUND).header(names.0, names.1).to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_that_go_and_come_are_shown_unless_there_are_too_many() {
        let shown = difference(("a", "b"), ("1\n2\n3", "1\n2\n4\n")).expect("short enough");
        assert_eq!(shown, "--- a\n+++ b\n@@ -1,3 +1,3 @@\n 1\n 2\n-3\n\\ No newline at end of file\n+4\n");
        assert_eq!(difference(("a", "b"), ("1\n", "1\n")).as_deref(), Some(""));
        assert_eq!(difference(("a", "b"), ("", &"\n".repeat(MOST_LINES + 1))), None);
    }
}
