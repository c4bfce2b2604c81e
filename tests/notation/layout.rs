//! The canonical layout, for any source: it says the same, keeps every comment and every word, and laying out twice is laying out once.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

use std::fs;
use std::path::{Path, PathBuf};

use piecewright::fault::{Code, Fault};
use piecewright::format;
use piecewright::notation::parse;
use proptest::prelude::*;

use super::{EVERYTHING, soup, write};

/// All texts in the repository that are sources: samples, twins, fixtures, the examples of the guide and of the pages on faults.
fn sources() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut files: Vec<PathBuf> = Vec::new();
    for folder in
        ["patterns", "tests/twins", "tests/fixtures", "tests/fixtures/shared", "src/fault/pages", "src/command", "docs"]
    {
        files.extend(fs::read_dir(root.join(folder)).unwrap().map(|entry| entry.unwrap().path()));
    }
    files.push(root.join("README.md"));
    files.sort();
    let mut all = Vec::new();
    for file in files {
        let name = file.strip_prefix(root).unwrap().display().to_string();
        match file.extension().and_then(|end| end.to_str()) {
            Some("piece") => all.push((name, fs::read_to_string(&file).unwrap())),
            Some("md") => {
                let text = fs::read_to_string(&file).unwrap();
                let fences = text.split("```piece").skip(1).filter_map(|fence| fence.split_once('\n'));
                let bodies = fences.map(|(_, body)| body.split("```").next().unwrap_or_default());
                all.extend(bodies.enumerate().map(|(number, body)| (format!("{name} {number}"), body.to_owned())));
            }
            _ => {}
        }
    }
    all
}

/// The comments of a text, found by looking for slashes outside quotes.
fn comments(text: &str) -> Vec<&str> {
    split_comments(text).into_iter().filter_map(|(_, comment)| comment).collect()
}

/// The lines of a text, each parted into what is no comment and the comment.
fn split_comments(text: &str) -> Vec<(&str, Option<&str>)> {
    let is_end = |c| matches!(c, '\n' | '\r' | '\u{85}' | '\u{2028}' | '\u{2029}');
    let lines = text.split(is_end).map(|line| {
        let (mut within, mut escaped) = (None, false);
        for (at, c) in line.char_indices() {
            match (within, c) {
                _ if escaped => escaped = false,
                (Some(_), '\\') => escaped = true,
                (None, '"') => within = Some('"'),
                (None, '“' | '”' | '„' | '‟') => within = Some('“'),
                (Some('"'), '"') | (Some('“'), '“' | '”' | '„' | '‟') => within = None,
                (None, '/') if line[at..].starts_with("//") => {
                    return (&line[..at], Some(line[at..].trim_end_matches(is_blank)));
                }
                _ => {}
            }
        }
        (line, None)
    });
    lines.collect()
}

fn is_blank(c: char) -> bool {
    let unseen = matches!(c, '\u{AD}' | '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{2069}' | '\u{FEFF}');
    c.is_whitespace() || unseen
}

/// All that a text says in plain characters, in order, without its comments and blanks.
fn said(text: &str) -> String {
    let words = split_comments(text).into_iter().flat_map(|(words, _)| words.chars());
    words.filter(|c| !c.is_whitespace()).collect()
}

/// The faults without their places; those that a layout mends left out.
fn lasting(faults: &[Fault]) -> Vec<(Code, &str)> {
    let mended = |fault: &&Fault| {
        fault.code == Code::PastedCharacter
            || fault.message.ends_with("must stand on a line of its own")
            || fault.message.contains("must end in `{`")
    };
    let mut all: Vec<_> =
        faults.iter().filter(|fault| !mended(fault)).map(|fault| (fault.code, &*fault.message)).collect();
    all.sort();
    all
}

/// What holds for any text at all.
fn check_laws(text: &str) -> Result<(), TestCaseError> {
    let formatted = format("any", text);
    let (tree, faults) = parse(0, text);
    if !formatted.laid_out {
        prop_assert_eq!(&formatted.text, text);
        prop_assert!(!formatted.faults.is_empty());
        return Ok(());
    }
    let (again, left) = parse(0, &formatted.text);
    prop_assert_eq!(write::file(&again), write::file(&tree));
    prop_assert_eq!(&left, &formatted.faults);
    // Blanks that cannot be seen become blanks, which a sign may have lacked.
    let unseen = text.contains(|c| is_blank(c) && !c.is_whitespace());
    let lasting = |faults| {
        let all = lasting(faults).into_iter();
        all.filter(|(_, message)| !unseen || !message.ends_with("needs a blank on either side")).collect::<Vec<_>>()
    };
    let (before, after) = (lasting(&faults), lasting(&left));
    let codes = |told: &[(Code, &str)]| told.iter().map(|(code, _)| *code).collect::<Vec<_>>();
    prop_assert_eq!(codes(&after), codes(&before), "{:?} were {:?}", after, before);
    prop_assert!(left.len() <= faults.len());
    let twice = format("any", &formatted.text);
    prop_assert!(twice.laid_out);
    prop_assert_eq!(&twice.text, &formatted.text);
    // An inch sign looks like a quote from outside.
    if faults.iter().all(|fault| fault.code != Code::BadLength) {
        prop_assert_eq!(comments(&formatted.text), comments(text));
        let plain =
            text.is_ascii() && !text.contains("percent") && !text.contains(|c: char| c.is_control() && c != '\n');
        if plain {
            prop_assert_eq!(said(&formatted.text), said(text));
        }
    }
    Ok(())
}

/// That no line has blanks at its end, none is empty after another, and one ends the text.
fn check_looks(text: &str) -> Result<(), TestCaseError> {
    prop_assert!(text.is_empty() || text.ends_with('\n') && !text.ends_with("\n\n"), "{text}");
    prop_assert!(!text.starts_with('\n') && !text.contains("\n\n\n") && !text.contains('\r'), "{text}");
    prop_assert!(text.lines().all(|line| line.trim_end() == line), "{text}");
    prop_assert!(!text.contains("{\n\n"), "{text}");
    let closes_after_gap = text.split("\n\n").skip(1).any(|rest| rest.trim_start().starts_with('}'));
    prop_assert!(!closes_after_gap, "{text}");
    Ok(())
}

#[test]
fn every_source_says_the_same() {
    let all = sources();
    assert!(all.len() > 300);
    let mut left_alone = 0;
    for (name, text) in &all {
        let formatted = format(name, text);
        check_laws(text).unwrap_or_else(|wrong| panic!("{name}: {wrong}"));
        if formatted.laid_out {
            check_looks(&formatted.text).unwrap_or_else(|wrong| panic!("{name}: {wrong}"));
            let before = parse(0, text).1;
            assert_eq!(lasting(&formatted.faults), lasting(&before), "{name}");
        } else {
            left_alone += 1;
        }
    }
    assert!(left_alone < all.len() / 20, "{left_alone} of {} are left alone", all.len());
}

#[test]
fn samples_are_laid_out() {
    for (name, text) in
        sources().iter().filter(|(name, _)| name.starts_with("patterns") || name.starts_with("src/command"))
    {
        assert_eq!(&format(name, text).text, text, "{name}");
    }
}

#[test]
fn the_guide_is_laid_out() {
    let guide = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/notation.md")).unwrap();
    let fences = guide.split("```piece picture=").skip(1).filter_map(|fence| fence.split_once('\n'));
    let bodies: Vec<&str> = fences.filter_map(|(_, body)| body.split("```").next()).collect();
    assert!(bodies.len() > 20);
    for body in bodies {
        let is_whole = body.lines().any(|line| line.starts_with("pattern ") || line.starts_with("block "));
        let indented =
            body.lines().map(|line| if line.is_empty() { String::from("\n") } else { format!("  {line}\n") });
        let text =
            if is_whole { body.to_owned() } else { format!("block x 8 x 8 {{\n{}}}\n", indented.collect::<String>()) };
        assert_eq!(format("guide", &text).text, text);
    }
}

/// What is put between words: chosen anew at each place by a throw of the dice.
#[derive(Debug)]
struct Scramble {
    dice: u64,
    /// Whether lines are broken, comments and empty lines put in.
    deeply: bool,
}

impl Scramble {
    fn throw<'c>(&mut self, choices: &[&'c str]) -> &'c str {
        self.dice = self.dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        choices[(self.dice >> 33) as usize % choices.len()]
    }

    /// Puts likenesses in the place of what stands there, once in so many times.
    fn oddly(&mut self, text: &str, rarely: usize) -> String {
        const ODD: &[(&str, &[&str])] = &[
            (" -- ", &[" – ", "—", " ― ", "--", " –", "-- // put in\n", " --\n\n\n"]),
            (", ", &[",", " , ", ",\t", ", // put in\n// and\n", ",\r\n"]),
            (" x ", &["×", " × ", "x"]),
            (" deg", &["°", " °", "deg"]),
            (" %", &["%", "percent", "\u{A0}percent"]),
            ("1/2", &["½", "1⁄2", "3 ½", "1½", "2\u{A0}1/2"]),
            (" - ", &["-", " − ", "−", " -", "- ", " − −"]),
            (" * ", &["*", " *", "* "]),
            (" + ", &["+", "\u{200B}+\u{200B}"]),
            ("0.5", &["½", "1/2", "0,5"]),
            (" -1", &[" −1", "−1", " –1", "-1"]),
            ("a", &["a\u{AD}", "\u{200B}a", "á", "A"]),
            ("-r", &["‑r", "–r", "−r", " - r", "‐r"]),
            (" ", &["", "  ", "\t", "\u{A0}", "\u{2009}", "\u{200B}", "\u{FEFF} "]),
            ("\n", &["\r\n", "\n\n\n", " // put in\n", "\u{2028}", "\t\n", "//\n", "\n//\n"]),
            ("#", &["# ", " #", "＃"]),
        ];
        let mut all = String::new();
        let mut rest = text;
        while let Some(c) = rest.chars().next() {
            let found = ODD.iter().find(|(plain, _)| rest.starts_with(plain));
            let length = match found {
                // Texts, and what stands behind them, are left alone.
                _ if c == '"' => {
                    let end = rest.find('\n').unwrap_or(rest.len());
                    all.push_str(&rest[..end]);
                    end
                }
                Some((plain, odd)) => {
                    let odd = if self.one_in(rarely) { self.throw(odd) } else { plain };
                    all.push_str(odd);
                    plain.len()
                }
                None => {
                    all.push(c);
                    c.len_utf8()
                }
            };
            rest = &rest[length..];
        }
        all
    }

    fn one_in(&mut self, rarely: usize) -> bool {
        let faces: Vec<&str> = std::iter::once("odd").chain(std::iter::repeat_n("", rarely - 1)).collect();
        self.throw(&faces) == "odd"
    }

    fn blank(&mut self) -> &'static str {
        self.throw(&[" ", " ", "  ", "\t", "\u{A0}", "     "])
    }

    fn line_end(&mut self) -> String {
        if !self.deeply {
            return self.throw(&["\n", "\r\n", "\u{85}", " \n", "\t\r\n"]).to_owned();
        }
        let behind = self.throw(&["", "", "", " // put in", " //put in \t", "\t// { \"", " // }"]);
        let end = self.throw(&["\n", "\n", "\r\n", "\n\n", "\n\n\n\n", "\n// alone\n", "\n\n  // alone, -- \n\n"]);
        format!("{behind}{end}")
    }

    fn text(&mut self, text: &str) -> String {
        let mut all = String::new();
        for (words, comment) in split_comments(text) {
            let mut rest = words.trim_start();
            if !all.is_empty() {
                all.push_str(self.throw(&["", "  ", "\t", "\u{A0} "]));
            }
            while let Some(c) = rest.chars().next() {
                let length = match c {
                    '"' => 1 + rest[1..].find('"').expect("a sample has no quotes in texts") + 1,
                    '-' if rest.starts_with("--") => 2,
                    _ => c.len_utf8(),
                };
                let (word, after) = rest.split_at(length);
                rest = after;
                match word {
                    " " => {
                        rest = rest.trim_start();
                        all.push_str(self.blank());
                    }
                    "--" | "," => {
                        all.push_str(word);
                        if self.deeply
                            && comment.is_none()
                            && !rest.is_empty()
                            && self.throw(&["", "", "", "break"]) == "break"
                        {
                            all.push_str(&self.line_end());
                        }
                    }
                    word => all.push_str(word),
                }
            }
            if let Some(comment) = comment {
                all.push_str(comment);
                all.push_str(self.throw(&["\n", "\r\n", " \n"]));
            } else {
                all.push_str(&self.line_end());
            }
        }
        all
    }
}

fn scramble(deeply: bool) -> impl Strategy<Value = Scramble> {
    any::<u64>().prop_map(move |dice| Scramble { dice, deeply })
}

fn samples() -> Vec<String> {
    let all = sources().into_iter().filter(|(name, _)| name.starts_with("patterns") || name.starts_with("tests/twins"));
    all.map(|(_, text)| text).chain([EVERYTHING.replace("\\\"", "'").replace("\\\\", "")]).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, failure_persistence: None, ..ProptestConfig::default() })]

    /// A good source as a word processor might have left it, or a hasty hand.
    #[test]
    fn odd_spellings_keep_what_they_say(mut dice in scramble(true), rarely in 2_usize..30) {
        let text = dice.oddly(EVERYTHING, rarely);
        prop_assert!(format("odd", &text).laid_out);
        check_laws(&text)?;
    }

    /// Blanks and line ends say nothing: whatever they are, the same text comes out.
    #[test]
    fn blanks_do_not_matter(text in proptest::sample::select(samples()), mut scramble in scramble(false)) {
        let scrambled = scramble.text(&text);
        prop_assert_eq!(format("sample", &scrambled).text, format("sample", &text).text);
    }

    /// Comments and broken lines are kept, and the tree is that of the sample.
    #[test]
    fn comments_and_breaks_are_kept(text in proptest::sample::select(samples()), mut scramble in scramble(true)) {
        let scrambled = scramble.text(&text);
        let formatted = format("sample", &scrambled);
        prop_assert!(formatted.laid_out);
        prop_assert_eq!(super::show(&scrambled, &parse(0, &scrambled).1), Vec::<String>::new());
        prop_assert_eq!(super::show(&formatted.text, &formatted.faults), Vec::<String>::new());
        prop_assert_eq!(write::file(&parse(0, &formatted.text).0), write::file(&parse(0, &text).0));
        check_laws(&scrambled)?;
        check_looks(&formatted.text)?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_keeps_what_it_says(text in any::<String>()) {
        check_laws(&text)?;
    }

    #[test]
    fn any_soup_of_words_keeps_what_it_says(text in soup()) {
        check_laws(&text)?;
    }

    /// A good source with a piece cut out or put in somewhere.
    #[test]
    fn any_damage_keeps_what_it_says(cut in 0..EVERYTHING.chars().count(), length in 0_usize..40, put in soup()) {
        let chars: Vec<char> = EVERYTHING.chars().collect();
        let end = (cut + length).min(chars.len());
        let text: String = chars[..cut].iter().copied().chain(put.chars().take(10)).chain(chars[end..].iter().copied()).collect();
        check_laws(&text)?;
    }
}
