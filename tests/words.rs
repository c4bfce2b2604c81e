//! The words of every catalogue are spelled as on its list, and none is one that the project's language avoids.
//!
//! A list holds each word of its catalogue once, as it is written, in order. A new word is looked up in a dictionary before it goes on the list;
//! a word that no message uses any more goes off it, so that a slip cannot hide there.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test may stop at what it did not expect")]

use std::collections::BTreeSet;

use piecewright::packet::words::Words;

/// A language: its code, its catalogue, its word list, and the words to avoid.
type Language = (&'static str, &'static str, &'static str, &'static [Avoided]);

const LANGUAGES: [Language; 2] = [
    ("en", include_str!("../assets/words/en.ftl"), include_str!("words/en.txt"), ENGLISH),
    ("de", include_str!("../assets/words/de.ftl"), include_str!("words/de.txt"), GERMAN),
];

/// Words to avoid, in small letters.
struct Avoided {
    /// One word or several in a row.
    words: &'static str,
    /// Why not.
    why: &'static str,
    /// What to say.
    better: &'static str,
    /// The messages that may use them.
    but_in: &'static [&'static str],
}

const fn avoided(words: &'static str, why: &'static str, better: &'static str) -> Avoided {
    Avoided { words, why, better, but_in: &[] }
}

const BELITTLES: &str = "belittles whoever finds it hard";
const FILLS: &str = "says nothing";
const SECOND_NAME: &str = "is a second name for one thing";

const ENGLISH: &[Avoided] = &[
    avoided("simply", BELITTLES, "nothing"),
    Avoided {
        words: "just",
        why: BELITTLES,
        better: "nothing, or “only”",
        // The edge trimmed a moment ago.
        but_in: &["lay-teach", "lay-side-teach"],
    },
    avoided("obviously", BELITTLES, "nothing"),
    avoided("of course", BELITTLES, "nothing"),
    avoided("clearly", BELITTLES, "nothing"),
    avoided("basically", FILLS, "nothing"),
    Avoided {
        words: "easy",
        why: BELITTLES,
        better: "what makes it go well",
        // A level has to say how hard a pattern is.
        but_in: &["level-name"],
    },
    avoided("please note", FILLS, "what to do"),
    avoided("note that", FILLS, "what to do"),
    avoided("make sure", FILLS, "what to look for"),
    avoided("ensure", FILLS, "what to look for"),
    avoided("in order to", FILLS, "to"),
    avoided("utilize", "is a long word for a short one", "use"),
    avoided("utilise", "is a long word for a short one", "use"),
    avoided("pattern piece", SECOND_NAME, "section, or piece for the fabric"),
    avoided("patch", SECOND_NAME, "piece"),
    avoided("foundation paper", SECOND_NAME, "foundation, or paper"),
    avoided("template", "is traced or cut round, which a foundation is not", "foundation"),
    avoided("seam allowance line", SECOND_NAME, "cutting line"),
    avoided("sewing line", SECOND_NAME, "line, or seam line"),
    avoided("stitching line", SECOND_NAME, "line, or seam line"),
    avoided("matching point", SECOND_NAME, "match point"),
    Avoided {
        words: "fussy",
        why: "means one way of cutting only",
        better: "piece with its print upright",
        // Round a motif by its window is that one way.
        but_in: &["fact-cut-motif", "chart-intro-motif", "chart-how-motif"],
    },
    avoided("back side", "may be the paper's or the fabric's", "plain side, or wrong side"),
    avoided("wrong side of the paper", "is said of fabric", "plain side"),
    avoided("right side of the paper", "is said of fabric", "printed side"),
    avoided("grainline", SECOND_NAME, "grain"),
    avoided("selvage", "is spelled otherwise here", "selvedge"),
];

const GERMAN: &[Avoided] = &[
    avoided("einfach", BELITTLES, "nichts, oder „leicht“, wo eine Stufe gemeint ist"),
    avoided("kinderleicht", BELITTLES, "nichts"),
    avoided("natürlich", BELITTLES, "nichts"),
    avoided("offensichtlich", BELITTLES, "nichts"),
    avoided("selbstverständlich", BELITTLES, "nichts"),
    avoided("bitte beachten", FILLS, "was zu tun ist"),
    avoided("bitte beachte", FILLS, "was zu tun ist"),
    avoided("stelle sicher", FILLS, "worauf zu sehen ist"),
    avoided("schablone", "is traced or cut round, which a foundation is not", "Vorlage"),
    avoided("schnittmuster", SECOND_NAME, "Anleitung"),
    avoided("pattern", "is not German", "Anleitung"),
    avoided("foundation", "is not German", "Vorlage"),
    avoided("paper piecing", "is not German", "Nähen auf Papier"),
    avoided("block-einheit", SECOND_NAME, "Einheit"),
    avoided("sektion", SECOND_NAME, "Abschnitt"),
    avoided("segment", SECOND_NAME, "Abschnitt"),
    avoided("stoffstück", SECOND_NAME, "Teil"),
    avoided("stoffteil", SECOND_NAME, "Teil"),
    avoided("saumzugabe", "is of a hem", "Nahtzugabe"),
    avoided("zugabe", SECOND_NAME, "Nahtzugabe"),
    avoided("nählinie", SECOND_NAME, "Linie oder Nahtlinie"),
    avoided("stepplinie", SECOND_NAME, "Linie oder Nahtlinie"),
    avoided("schneidelinie", SECOND_NAME, "Schnittlinie"),
    avoided("treffpunkt", SECOND_NAME, "Passpunkt"),
    avoided("fadenrichtung", SECOND_NAME, "Fadenlauf"),
    avoided("webekante", SECOND_NAME, "Webkante"),
    avoided("rollmesser", SECOND_NAME, "Rollschneider"),
    avoided("rotary cutter", "is not German", "Rollschneider"),
    avoided("trimmen", "is not German", "beschneiden"),
    avoided("rückseite", "may be the paper's or the fabric's", "unbedruckte Seite oder linke Stoffseite"),
    avoided("inch", "is not German", "Zoll"),
    avoided("bogen", SECOND_NAME, "Blatt"),
];

/// The messages of a catalogue: the id of each, and its words without variables and keys.
fn messages(catalogue: &str) -> Vec<(&str, String)> {
    let mut messages: Vec<(&str, String)> = Vec::new();
    for line in catalogue.lines().filter(|line| !line.starts_with('#') && !line.is_empty()) {
        match (line.starts_with(|c: char| c.is_ascii_alphabetic()), line.split_once('=')) {
            (true, Some((id, words))) => messages.push((id.trim(), said(words))),
            _ => messages.last_mut().expect("a message goes on").1.push_str(&said(line)),
        }
    }
    messages
}

/// A line of a message without the key of a variant and what stands in braces; begins with a blank.
fn said(line: &str) -> String {
    let mut rest = line.trim();
    if rest.starts_with(['[', '*']) {
        rest = rest.split_once(']').expect("a key ends").1;
    }
    let mut said = String::from(" ");
    while let Some((words, held)) = rest.split_once('{') {
        said.push_str(words);
        said.push(' ');
        let end = held.find('}').map(|at| at + 1).or_else(|| held.find("->").map(|at| at + 2));
        rest = &held[end.expect("braces end, or choose")..];
    }
    said.push_str(&rest.replace('}', " "));
    said
}

/// The words of a text, hyphens and apostrophes within them.
fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !c.is_alphabetic() && !['-', '’'].contains(&c))
        .map(|word| word.trim_matches(['-', '’']))
        .filter(|word| !word.is_empty())
}

#[test]
fn every_language_is_looked_at() {
    assert_eq!(LANGUAGES.map(|(code, ..)| code), Words::LANGUAGES);
}

#[test]
fn what_is_printed_is_told_from_what_is_not() {
    let catalogue = "# no\nfirst = { $count ->\n    [one] One piece\n   *[other] { $count }-fold, and so\n} on.\nlast = end{\"\\u00A0\"}s’ join’s\n";
    let told: Vec<(&str, Vec<String>)> =
        messages(catalogue).iter().map(|(id, text)| (*id, words(text).map(str::to_owned).collect())).collect();
    let own = |list: &[&str]| list.iter().map(|word| (*word).to_owned()).collect::<Vec<_>>();
    assert_eq!(
        told,
        [("first", own(&["One", "piece", "fold", "and", "so", "on"])), ("last", own(&["end", "s", "join’s"])),]
    );
}

#[test]
fn every_word_is_on_its_list_and_every_listed_word_is_used() {
    for (code, catalogue, list, _) in LANGUAGES {
        let listed: Vec<&str> = list.lines().collect();
        assert!(listed.windows(2).all(|pair| pair[0] < pair[1]), "{code}.txt is in order, each word once");
        let told = messages(catalogue);
        assert!(told.len() > 300, "{code}: the catalogue is read");
        let used: BTreeSet<&str> = told.iter().flat_map(|(_, text)| words(text)).collect();
        let listed: BTreeSet<&str> = listed.into_iter().collect();
        let new: Vec<_> = used.difference(&listed).collect();
        let gone: Vec<_> = listed.difference(&used).collect();
        assert!(new.is_empty(), "{code}: look these up, then put them on tests/words/{code}.txt: {new:?}");
        assert!(gone.is_empty(), "{code}: no message uses these; take them off tests/words/{code}.txt: {gone:?}");
    }
}

#[test]
fn no_message_uses_a_word_that_is_avoided() {
    let mut found = Vec::new();
    for (code, catalogue, _, avoided) in LANGUAGES {
        for (id, text) in messages(catalogue) {
            let plain = format!(" {} ", words(&text.to_lowercase()).collect::<Vec<_>>().join(" "));
            for word in avoided.iter().filter(|word| !word.but_in.contains(&id)) {
                if plain.contains(&format!(" {} ", word.words)) {
                    found.push(format!("{code}, {id}: “{}” {}; better: {}", word.words, word.why, word.better));
                }
            }
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn words_are_avoided_in_small_letters_and_excused_only_where_they_stand() {
    for (code, catalogue, _, avoided) in LANGUAGES {
        let told = messages(catalogue);
        for word in avoided {
            assert_eq!(word.words, word.words.to_lowercase(), "{code}");
            for id in word.but_in {
                let text = &told.iter().find(|(other, _)| other == id).unwrap_or_else(|| panic!("{code}: {id}")).1;
                assert!(text.contains(word.words), "{code}: {id} needs no excuse for “{}”", word.words);
            }
        }
    }
}
