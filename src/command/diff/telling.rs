//! What changed, for people and for programs.

use std::fmt::Write as _;

use piecewright::backend::json::{self, Compared as Record};
use piecewright::backend::markdown;
use piecewright::packet::words::Words;

use super::Pair;

/// How many patterns without a change are named; more are counted.
const MOST_NAMED: usize = 5;

/// What changed, for a terminal.
pub fn text(pairs: &[Pair], words: &Words, colour: bool) -> String {
    let bold = |words: &str| if colour { format!("\x1b[1m{words}\x1b[0m") } else { words.to_owned() };
    let mut told: Vec<String> = Vec::new();
    for pair in pairs.iter().filter(|pair| pairs.len() == 1 || !pair.is_same()) {
        let name = bold(&pair.name(pairs.len() > 1));
        let (Some((_, what)), None) = (&pair.changed, state(pair, words)) else {
            told.push(format!("{name}: {}\n", state(pair, words).unwrap_or_default()));
            continue;
        };
        let mut out = format!("{name} · {}\n", what.title);
        for part in &what.parts {
            _ = writeln!(out, "\n  {}", bold(&part.heading));
            for line in &part.lines {
                _ = writeln!(out, "    - {line}");
            }
        }
        for line in what.same.iter().cloned().chain(pair.too_low(words)) {
            _ = writeln!(out, "\n  {line}");
        }
        told.push(out);
    }
    told.extend(unchanged(pairs, words).map(|line| line + "\n"));
    let is_long = |part: &String| part.lines().count() > 1;
    let mut out = String::new();
    let mut before: Option<&String> = None;
    for part in &told {
        // An empty line, but not between two that stand alone.
        if before.is_some_and(|before| is_long(before) || is_long(part)) {
            out.push('\n');
        }
        out += part;
        before = Some(part);
    }
    out
}

/// What changed, as Markdown.
pub fn in_markdown(pairs: &[Pair], words: &Words) -> String {
    let mut told: Vec<String> = Vec::new();
    for pair in pairs.iter().filter(|pair| pairs.len() == 1 || !pair.is_same()) {
        let name = pair.name(pairs.len() > 1);
        told.push(match (&pair.changed, state(pair, words)) {
            (Some((_, what)), None) => markdown::revision(&format!("{name} · {}", what.title), what, 2),
            (_, state) => format!("## {}\n\n{}\n", markdown::escaped(&name), sentence(&state.unwrap_or_default())),
        });
        told.extend(pair.too_low(words).map(|line| markdown::escaped(&line) + "\n"));
    }
    told.extend(unchanged(pairs, words).map(|line| markdown::escaped(&line) + "\n"));
    told.join("\n")
}

/// What changed, for programs. What could not be compared is not among it.
pub fn in_json(pairs: &[Pair]) -> String {
    let records = pairs.iter().filter(|pair| !pair.is_broken()).map(|pair| Record {
        key: &pair.key,
        was: pair.model_was(),
        now: pair.model_now(),
        revision: pair.changed.as_ref().map(|(revision, told)| (revision, told)),
    });
    json::revisions(&records.collect::<Vec<_>>())
}

/// All there is to say of a pattern that did not change from one side to the other: `this pattern is new`.
fn state(pair: &Pair, words: &Words) -> Option<String> {
    match (&pair.was, &pair.now) {
        _ if pair.is_broken() => Some(words.pattern_not_compared()),
        (None, _) => Some(words.pattern_new()),
        (_, None) => Some(words.pattern_gone()),
        _ if pair.is_same() => Some(words.pattern_same()),
        _ => None,
    }
}

/// The line for the patterns of folders in which nothing changed.
fn unchanged(pairs: &[Pair], words: &Words) -> Option<String> {
    let same: Vec<&str> = pairs.iter().filter(|pair| pair.is_same()).map(|pair| pair.key.as_str()).collect();
    match (pairs.len(), same.len()) {
        (1, _) => None,
        (all, count) if count == all || count > MOST_NAMED => Some(words.patterns_same(count)),
        (_, 0) => None,
        _ => Some(words.patterns_same_named(&same.join(", "))),
    }
}

/// Words as a sentence of their own.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}
