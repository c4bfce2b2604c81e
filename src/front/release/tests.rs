//! Tests of releases in memory: what goes in, what is refused, what follows a release before.

use std::collections::BTreeSet;

use super::*;
use crate::fault::Code;

const QUAY: &str = "pattern \"Quay\"\nedition \"1.0\"\nuse \"house.piece\"\nfinished 6 in\nsizes 3 in\n\
    fabric sea \"Sea\" #6b9db8\nfabric sky \"Sky\" #a9cbe0\nfabric rose \"Rose\" #d8a0a8\n\
    colouring dawn \"Dawn\" with sky as rose\n\
    block quay 8 x 8 {\n  unit all {\n    1 sky around 4, 2\n    2 sea beyond level 4\n  }\n}\n";

fn shelf() -> Files {
    Files::from([("house.piece".to_owned(), b"note \"Sewn by the sea.\"\n".to_vec())])
}

fn source(name: &str, text: &str) -> Source {
    Source { name: format!("{name}.piece"), path: format!("{name}.piece"), text: text.to_owned() }
}

/// Quay, with these words exchanged.
fn quay(changes: &[(&str, &str)]) -> Source {
    let mut text = QUAY.to_owned();
    for (old, new) in changes {
        assert!(text.contains(old), "{old}");
        text = text.replace(old, new);
    }
    source("quay", &text)
}

fn released(sources: &[Source], since: Option<&Former>) -> Result<Released, Refused> {
    make(sources, &shelf(), &Asked { name: "out", since, ..Asked::default() }, &mut |_| {})
}

fn made(sources: &[Source], since: Option<&Former>) -> Made {
    let released = released(sources, since).expect("nothing hinders it");
    let faults: Vec<&Fault> = released.judged.iter().flat_map(|(_, faults)| faults).collect();
    released.made.unwrap_or_else(|| panic!("{faults:?}"))
}

/// The codes and messages of the faults of a release that is not made.
fn faults(sources: &[Source], since: Option<&Former>) -> Vec<(Code, String)> {
    let released = released(sources, since).expect("nothing hinders it");
    assert!(released.made.is_none());
    released.judged.into_iter().flat_map(|(_, faults)| faults).map(|fault| (fault.code, fault.message)).collect()
}

/// A release as one that was made before.
fn former(made: &Made) -> Former {
    let file = |file: &Artifact| (file.path.clone(), file.bytes.clone());
    Former::try_new(made.manifest.clone(), made.files.iter().map(file).collect()).expect("is intact")
}

/// The files that are wrong with a release after one of its files was exchanged.
fn findings(made: &Made, path: &str, bytes: Option<&[u8]>) -> Vec<(String, Wrong)> {
    let mut files: Files = made.files.iter().map(|file| (file.path.clone(), file.bytes.clone())).collect();
    match bytes {
        Some(bytes) => _ = files.insert(path.to_owned(), bytes.to_vec()),
        None => _ = files.remove(path),
    }
    let present: BTreeSet<String> = files.keys().cloned().collect();
    let found = intact(&made.manifest, &present, &mut |path, _| files.get(path).cloned().ok_or_else(String::new));
    found.into_iter().map(|finding| (finding.path, finding.wrong)).collect()
}

#[test]
fn a_release_holds_every_size_and_colouring_as_a_build_makes_it() {
    let made = made(&[quay(&[])], None);
    let pattern = &made.manifest.patterns[0];
    let folders: Vec<&str> = pattern.packets.iter().map(|packet| packet.folder.as_str()).collect();
    assert_eq!(folders, ["quay-6-in", "quay-3-in", "quay-6-in-dawn", "quay-3-in-dawn"]);
    for packet in &pattern.packets {
        let options =
            Options { size: Some(packet.size.clone()), colouring: packet.colouring.clone(), ..Options::default() };
        let built = crate::build("quay.piece", QUAY, &shelf(), &options, &mut |_| {}).artifacts.expect("is built");
        let in_folder = |file: &Artifact| {
            let path = file.path.strip_prefix(&format!("{}/", packet.folder))?.to_owned();
            Some(Artifact { path, ..file.clone() })
        };
        let held: Vec<Artifact> = made.files.iter().filter_map(in_folder).collect();
        assert!(held == built, "{}", packet.folder);
    }
    let read: Vec<&str> = pattern.sources.iter().map(|source| source.path.as_str()).collect();
    assert_eq!(read, ["source/quay.piece", "source/house.piece"]);
    assert_eq!((pattern.title.as_str(), pattern.edition.as_str(), pattern.date.as_deref()), ("Quay", "1.0", None));
    assert_eq!(made.manifest.files.len() + 1, made.files.len(), "all but the manifest");
}

#[test]
fn what_is_not_as_it_was_is_found() {
    let made = made(
        &[quay(&[("\nsizes 3 in", ""), ("colouring dawn \"Dawn\" with sky as rose\n", "allow unused-name\n")])],
        None,
    );
    assert_eq!(findings(&made, MANIFEST, Some(b"{}")), [], "what it tells is taken from elsewhere");
    let one = |path: &str, wrong: Wrong| vec![(path.to_owned(), wrong)];
    assert_eq!(findings(&made, "source/quay.piece", None), one("source/quay.piece", Wrong::Missing));
    assert_eq!(findings(&made, "quay-6-in/steps.txt", Some(b"")), one("quay-6-in/steps.txt", Wrong::Altered));
    assert_eq!(findings(&made, "quay-6-in/more", Some(b"")), one("quay-6-in/more", Wrong::Extra));
    assert_eq!(findings(&made, "out.zip", Some(b"PK")), one("out.zip", Wrong::Altered));
}

#[test]
fn an_archive_that_is_not_the_packets_is_found() {
    let mut made = made(&[quay(&[])], None);
    let packets: Vec<Artifact> = made.files.iter().filter(|file| manifest::is_archived(&file.path)).cloned().collect();
    // The archive is exchanged together with its sum.
    let mut with = |bytes: Vec<u8>| {
        let told = made.manifest.files.iter_mut().find(|file| file.path == "out.zip").expect("told");
        (told.bytes, told.sha256) = (bytes.len() as u64, sha256(&bytes));
        let found = findings(&made, "out.zip", Some(&bytes));
        found.into_iter().map(|(path, wrong)| format!("{path} {}", wrong.word())).collect::<Vec<_>>()
    };
    let pack = |files: &[Artifact]| packets::packed(files, None).expect("packs");
    assert_eq!(with(pack(&packets)), [""; 0]);
    let fewer = pack(&packets[1..]);
    assert_eq!(with(fewer), ["SHA256SUMS other-in-archive", &format!("{} not-in-archive", packets[0].path)]);
    let mut other = packets.clone();
    other[0].bytes = vec![b'x'; other[0].bytes.len()];
    assert_eq!(with(pack(&other)), ["SHA256SUMS other-in-archive", &format!("{} other-in-archive", packets[0].path)]);
    let mut more = packets.clone();
    more.push(Artifact { path: "a/more".into(), bytes: vec![0; 1 << 20] });
    assert_eq!(with(pack(&more)), ["SHA256SUMS other-in-archive", "a/more extra-in-archive"]);
    let no_sums = archive::pack(&packets.iter().collect::<Vec<_>>(), None).expect("packs");
    assert_eq!(with(no_sums), ["SHA256SUMS not-in-archive"]);
    assert_eq!(with(b"PK".to_vec()), ["out.zip no-archive"]);
}

#[test]
fn one_fault_of_many_sizes_is_told_once_and_nothing_is_made() {
    let gap = quay(&[("beyond level 4", "beyond level 9"), ("\"1.0\"", "\"1\"")]);
    let told: Vec<&str> = faults(&[gap], None).iter().map(|(code, _)| code.slug()).collect();
    assert_eq!(told, ["nothing-beyond"], "the edition is looked at when the pattern is sound");
    let [(code, message)] = faults(&[quay(&[("\"1.0\"", "\"spring\"")])], None).try_into().expect("one fault");
    assert_eq!((code, message.as_str()), (Code::EditionUnfit, "`spring` is no edition that can be released"));
    // A title that the typeface lacks hinders every packet.
    let [(code, message)] =
        faults(&[quay(&[("pattern \"Quay\"", "pattern \"港\"")])], None).try_into().expect("one fault");
    assert_eq!(code, Code::MissingLetter, "{message}");
}

#[test]
fn a_mended_edition_is_right() {
    let unfit = quay(&[("\"1.0\"", "\"1\"")]);
    let released = released(std::slice::from_ref(&unfit), None).expect("nothing hinders it");
    let fault = &released.judged[0].1[0];
    let (span, words) = fault.fixes[0].edits[0].clone();
    let mut text = unfit.text;
    text.replace_range(span.range(), &words);
    assert_eq!(text, QUAY);
}

#[test]
fn all_patterns_are_judged_and_all_or_none_released() {
    let broken = quay(&[("around 4, 2", "around 4,5 2")]);
    let other = source("tern", &QUAY.replace("\"1.0\"", "\"1.0.0\"").replace("Quay", "Tern"));
    let told: BTreeSet<&str> = faults(&[broken, other], None).iter().map(|(code, _)| code.slug()).collect();
    assert!(told.len() >= 2 && told.contains("edition-unfit"), "{told:?}");
}

#[test]
fn a_fault_of_a_shared_file_is_told_for_one_pattern() {
    let wrong = "use \"wrong.piece\"";
    let change = |name: &str| source(name, &QUAY.replace("use \"house.piece\"", wrong));
    let files = Files::from([("wrong.piece".to_owned(), b"allowance 1,4 in\n".to_vec())]);
    let released =
        make(&[change("quay"), change("tern")], &files, &Asked { name: "out", ..Asked::default() }, &mut |_| {});
    let counts: Vec<usize> =
        released.expect("nothing hinders it").judged.iter().map(|(_, faults)| faults.len()).collect();
    assert_eq!(counts, [1, 0]);
}

#[test]
fn folders_that_some_systems_take_for_one_another_are_refused() {
    let refused = released(&[quay(&[]), source("Quay", QUAY)], None).err().expect("refused");
    assert!(refused.message.contains("would both lie in `Quay-6-in`"), "{}", refused.message);
    // Names that are written otherwise.
    let refused = released(&[source("quay+", QUAY), source("quay", QUAY)], None).err().expect("refused");
    assert!(refused.message.contains("quay+ at 6 in and of quay at 6 in"), "{}", refused.message);
}

#[test]
fn a_source_is_told_from_a_shared_file() {
    assert!(is_pattern(QUAY));
    assert!(is_pattern("patern \"Gull\"\nfinished 8 in\n"), "what means to be one");
    assert!(!is_pattern("fabric sea \"Sea\" #6b9db8\nauthor \"Tern Point\"\n") && !is_pattern(""));
    assert_eq!(edition_of(QUAY), Edition::parse("1.0"));
    assert_eq!(edition_of("edition \"1\"\n"), None);
}

#[test]
fn the_next_release_needs_an_edition_that_rises_enough() {
    let first = made(&[quay(&[])], None);
    let before = former(&first);
    let judged = |changes: &[(&str, &str)]| faults(&[quay(changes)], Some(&before));
    // Nothing changed, whatever the edition says.
    for same in [&[][..], &[("\"1.0\"", "\"1.1\"")], &[("\"1.0\"", "\"1.1\" // a comment")]] {
        let [(code, message)] = judged(same).try_into().expect("one fault");
        assert_eq!((code, message.as_str()), (Code::NothingChanged, "nothing changed since edition 1.0"), "{same:?}");
    }
    let words = ("fabric sea \"Sea\"", "fabric sea \"Harbour\"");
    let [(code, _)] = judged(&[words]).try_into().expect("one fault");
    assert_eq!(code, Code::EditionTooSmall);
    let [(code, _)] = judged(&[words, ("\"1.0\"", "\"0.9\"")]).try_into().expect("one fault");
    assert_eq!(code, Code::EditionTooSmall);
    let drawn = ("level 4", "level 5");
    let [(code, message)] = judged(&[drawn, ("\"1.0\"", "\"1.1\"")]).try_into().expect("one fault");
    assert_eq!(
        (code, message.as_str()),
        (Code::EditionTooSmall, "edition 1.1 is too low for what changed since edition 1.0")
    );
    for enough in
        [&[words, ("\"1.0\"", "\"1.1\"")][..], &[drawn, ("\"1.0\"", "\"2.0\"")], &[words, ("\"1.0\"", "\"3.7\"")]]
    {
        let next = made(&[quay(enough)], Some(&before));
        assert_eq!(next.manifest.patterns[0].since, Some(Since { edition: "1.0".into() }));
        assert!(next.tallies.iter().flat_map(|(_, tallies)| tallies).all(|tally| tally.kept.is_some()));
    }
    // A size more, a colouring less.
    let [(code, _)] = judged(&[("sizes 3 in", "sizes 3 in, 4 in")]).try_into().expect("one fault");
    assert_eq!(code, Code::EditionTooSmall);
    let fewer = quay(&[("sizes 3 in\n", ""), ("\"1.0\"", "\"1.1\"")]);
    assert_eq!(made(&[fewer], Some(&before)).manifest.patterns[0].packets.len(), 2);
}

#[test]
fn one_of_several_patterns_may_stay_as_it_is() {
    let tern = |edition: &str, sea: &str| {
        source("tern", &QUAY.replace("1.0", edition).replace("Quay", "Tern").replace("\"Sea\"", sea))
    };
    let before = former(&made(&[quay(&[]), tern("1.0", "\"Sea\"")], None));
    let next = made(&[quay(&[]), tern("1.1", "\"Swell\"")], Some(&before));
    let editions: Vec<&str> = next.manifest.patterns.iter().map(|pattern| pattern.edition.as_str()).collect();
    assert_eq!(editions, ["1.0", "1.1"]);
    let codes: Vec<Code> =
        faults(&[quay(&[]), tern("1.0", "\"Sea\"")], Some(&before)).into_iter().map(|(code, _)| code).collect();
    assert_eq!(codes, [Code::NothingChanged, Code::NothingChanged]);
    // A pattern that is new or gone is a change of the release.
    let notes = |sources: &[Source]| released(sources, Some(&before)).expect("nothing hinders it").notes;
    assert_eq!(notes(&[quay(&[])]), ["tern was in the release before and is not in this one"]);
    assert_eq!(
        notes(&[quay(&[]), tern("1.0", "\"Sea\""), source("gull", &QUAY.replace("Quay", "Gull"))]),
        ["gull is new"]
    );
}

#[test]
fn a_renamed_source_is_found_by_its_title() {
    let before = former(&made(&[quay(&[])], None));
    let renamed = source("jetty", &QUAY.replace("1.0", "1.1").replace("\"Sea\"", "\"Swell\""));
    let next = made(&[renamed], Some(&before));
    assert_eq!(next.manifest.patterns[0].since, Some(Since { edition: "1.0".into() }));
    assert_eq!(next.manifest.patterns[0].packets[0].folder, "jetty-6-in");
}

#[test]
fn a_title_finds_a_pattern_only_where_it_is_alone() {
    let named = |name: &str, title: &str, sea: &str, edition: &str| {
        let text = QUAY.replace("pattern \"Quay\"", &format!("pattern \"{title}\"")).replace("\"Sea\"", sea);
        source(name, &text.replace("1.0", edition))
    };
    let since = |made: &Made| -> Vec<(String, Option<String>)> {
        let told = made.manifest.patterns.iter();
        told.map(|of| (of.name.clone(), of.since.as_ref().map(|since| since.edition.clone()))).collect()
    };
    let of = |name: &str, edition: Option<&str>| (name.to_owned(), edition.map(str::to_owned));
    let mole = || named("mole", "Mole", "\"Sea\"", "1.0");
    let one = former(&made(&[mole(), named("quay", "Quay", "\"Sea\"", "1.0")], None));
    let now = |name: &str| named(name, "Quay", "\"Swell\"", "1.1");
    // Two of today would be one of then.
    let next = made(&[mole(), now("jetty"), now("pier")], Some(&one));
    assert_eq!(since(&next), [of("jetty", None), of("mole", Some("1.0")), of("pier", None)]);
    // The name comes first, and what is found by it is not found by its title.
    let next = made(&[mole(), now("jetty"), now("quay")], Some(&one));
    assert_eq!(since(&next), [of("jetty", None), of("mole", Some("1.0")), of("quay", Some("1.0"))]);
    // One of today may be two of then.
    let two = former(&made(
        &[mole(), named("quay", "Quay", "\"Sea\"", "1.0"), named("pier", "Quay", "\"Sea\"", "1.4")],
        None,
    ));
    let next = made(&[mole(), now("jetty")], Some(&two));
    assert_eq!(since(&next), [of("jetty", None), of("mole", Some("1.0"))]);
    let notes = released(&[now("jetty"), now("pier")], None).expect("nothing hinders it").notes;
    assert_eq!(notes, ["jetty, pier bear the same title: “Quay”"]);
}

#[test]
fn a_release_of_other_patterns_is_no_release_before() {
    let before = former(&made(&[source("tern", &QUAY.replace("Quay", "Tern"))], None));
    let refused = released(&[quay(&[])], Some(&before)).err().expect("refused");
    assert_eq!(
        refused.message,
        "the release before is of other patterns: it has tern, and what is to be released is quay"
    );
}

#[test]
fn an_edition_that_the_history_forgets_is_spoken_of() {
    let before = former(&made(&[quay(&[])], None));
    let notes = |history: &str, edition: &str, since: Option<&Former>| {
        let lines = format!("edition \"{edition}\"{history}");
        let source = quay(&[("edition \"1.0\"", &lines), ("\"Sea\"", "\"Swell\"")]);
        released(&[source], since).expect("nothing hinders it").notes
    };
    let told = "\nhistory \"1.1\" \"Another sea.\"";
    assert_eq!(notes("", "1.0", None), [""; 0], "a first edition brings all of it");
    assert_eq!(notes("", "1.1", Some(&before)), ["quay: no history line tells of edition 1.1"]);
    assert_eq!(notes(told, "1.1", Some(&before)), [""; 0]);
    assert_eq!(notes(told, "1.2", None), ["quay: no history line tells of edition 1.2"]);
    assert_eq!(notes("", "1.0", Some(&before)), [""; 0], "nothing is released");
}

#[test]
fn sizes_and_colourings_that_come_and_go_are_told() {
    let before = former(&made(&[quay(&[])], None));
    let page = |changes: &[(&str, &str)]| {
        let told = "edition \"1.1\"\nhistory \"1.1\" \"For more people.\"";
        let changes: Vec<_> = changes.iter().copied().chain([("edition \"1.0\"", told)]).collect();
        let released = released(&[quay(&changes)], Some(&before)).expect("nothing hinders it");
        let made = released.made.expect("is made");
        let page = made.files.into_iter().find(|file| file.path == "quay-changes.md").expect("a page");
        (String::from_utf8(page.bytes).expect("text"), released.notes)
    };
    // Each packet that is left is as it was, and the page tells nothing but this.
    let (text, notes) = page(&[("sizes 3 in", "sizes 4 in")]);
    assert_eq!(
        text,
        "## Quay · What changed from edition 1.0 to edition 1.1\n\n\
         - The sizes: “3 in” is gone.\n- The sizes: “4 in” is new.\n\n"
    );
    assert_eq!(notes, ["quay: the size 3 in is no longer published"]);
    let (text, notes) = page(&[("colouring dawn \"Dawn\"", "colouring dusk \"Dusk\"")]);
    let top = "## Quay · What changed from edition 1.0 to edition 1.1\n\n\
        - The colouring: “Dawn” is gone.\n- The colouring: “Dusk” is new.\n\n## Quay · 6 in · ";
    assert!(text.starts_with(top), "{text}");
    assert_eq!(notes, ["quay: the colouring “Dawn” is no longer published"]);
}

/// What is silenced where a pattern is drawn need not arise in every colouring.
#[test]
fn an_allow_line_for_the_pattern_as_drawn_is_of_use() {
    let text = QUAY
        .replace("#a9cbe0", "#101830")
        .replace("#6b9db8", "#ffffff")
        .replace("#d8a0a8", "#fafafa")
        .replace("  unit all {\n", "  unit all {\n    allow dark-under-light\n");
    let codes = |text: &str| -> Vec<Code> {
        let judged = released(&[source("quay", text)], None).expect("nothing hinders it").judged;
        judged.into_iter().flat_map(|(_, faults)| faults).map(|fault| fault.code).collect()
    };
    assert_eq!(codes(&text), []);
    assert_eq!(codes(&text.replace("    allow dark-under-light\n", "")), [Code::DarkUnderLight]);
    assert_eq!(codes(&text.replace("#101830", "#fefefe")), [Code::UnusedAllow], "one of no use is told, once");
    let options = Options { colouring: Some(String::from("dawn")), ..Options::default() };
    let built = crate::build("quay.piece", &text, &shelf(), &options, &mut |_| {});
    assert_eq!(built.faults, []);
}

#[test]
fn a_release_before_must_be_intact() {
    let first = made(&[quay(&[])], None);
    let files: Files = first.files.iter().map(|file| (file.path.clone(), file.bytes.clone())).collect();
    for path in ["source/house.piece", "quay-3-in-dawn/model.json"] {
        let mut altered = files.clone();
        altered.insert(path.to_owned(), Vec::new());
        let why = Former::try_new(first.manifest.clone(), altered.clone()).err().expect("is not intact");
        assert_eq!(why, format!("`{path}` is not as it was"));
        altered.remove(path);
        let why = Former::try_new(first.manifest.clone(), altered).err().expect("is not intact");
        assert_eq!(why, format!("`{path}` is missing"));
    }
    let needed: Vec<&str> = Former::needed(&first.manifest).map(|file| file.path.as_str()).collect();
    assert_eq!(needed.len(), 6, "two sources and four models: {needed:?}");
}

#[test]
fn a_model_that_compiles_otherwise_today_is_spoken_of() {
    let mut first = made(&[quay(&[])], None);
    let words = ("\"Sea\"", "\"Swell\"");
    let next = [quay(&[words, ("edition \"1.0\"", "edition \"1.1\"\nhistory \"1.1\" \"Another name.\"")])];
    let notes = |first: &Made| released(&next, Some(&former(first))).expect("nothing hinders it").notes;
    assert_eq!(notes(&first), [""; 0]);
    // As if another version had made the model: other cuts, the same sources.
    let path = "quay-3-in/model.json";
    let model = first.files.iter_mut().find(|file| file.path == path).expect("a model");
    let text = String::from_utf8(model.bytes.clone()).expect("text").replacen("\"ease\": 0.25", "\"ease\": 0.26", 1);
    model.bytes = text.into_bytes();
    let sum = sha256(&model.bytes);
    first.manifest.files.iter_mut().find(|file| file.path == path).expect("told").sha256.clone_from(&sum);
    first.manifest.patterns[0].packets[1].model_sha256 = sum;
    let [note] = notes(&first).try_into().expect("one note");
    assert!(note.starts_with("quay 1.0 compiles otherwise"), "{note}");
}

#[test]
fn two_files_at_one_place_are_refused() {
    let mut main = quay(&[]);
    // As of a source outside its project that has the name of a file in it.
    main.path = String::from("house.piece");
    let refused = released(&[main], None).err().expect("refused");
    assert!(refused.message.contains("`source/house.piece`"), "{}", refused.message);
}

/// A pattern of two papers.
const JETTY: &str = "pattern \"Jetty\"\nedition \"1.0\"\nfinished 6 in\n\
    fabric sea \"Sea\" #6b9db8\nfabric sky \"Sky\" #a9cbe0\n\
    block jetty 8 x 8 {\n  unit upper {\n    outline 0, 0 -- 8, 0 -- 8, 2 -- 0, 2\n    1 sky around 4, 0.5\n    2 sea beyond level 1\n  }\n\
    unit lower {\n    outline 0, 2 -- 8, 2 -- 8, 8 -- 0, 8\n    1 sea around 4, 3\n    2 sky beyond level 4\n  }\n}\n";

/// By foundation: the edition in which it last changed, as the model of a packet tells it; none for the packet's own.
fn last_changes(made: &Made) -> Vec<(String, Option<String>)> {
    let model = made.files.iter().find(|file| file.path == "jetty-6-in/model.json").expect("a model");
    let told: serde_json::Value = serde_json::from_slice(&model.bytes).expect("JSON");
    let variants = told["blocks"][0]["variants"].as_array().expect("a list").iter();
    let of = |variant: &serde_json::Value| {
        let unit = variant["unit"].as_str().expect("a name").to_owned();
        (unit, variant["last_changed"].as_str().map(str::to_owned))
    };
    variants.map(of).collect()
}

#[test]
fn every_paper_bears_the_edition_in_which_it_last_changed() {
    let jetty = |edition: &str, upper: &str, lower: &str| {
        let text = JETTY.replace("\"1.0\"", &format!("\"{edition}\""));
        source(
            "jetty",
            &text.replace("level 1", &format!("level {upper}")).replace("level 4", &format!("level {lower}")),
        )
    };
    let own = |unit: &str| (unit.to_owned(), None);
    let of = |unit: &str, edition: &str| (unit.to_owned(), Some(edition.to_owned()));
    let first = made(&[jetty("1.0", "1", "4")], None);
    assert_eq!(last_changes(&first), [own("upper"), own("lower")]);
    assert!(!first.files.iter().any(|file| file.path.contains("correction") || file.path.contains("changes")));
    let second = made(&[jetty("2.0", "1", "5")], Some(&former(&first)));
    assert_eq!(last_changes(&second), [of("upper", "1.0"), own("lower")]);
    // What did not change since the first edition still says so after two more; what changes back changed now.
    let third = made(&[jetty("3.0", "1", "4")], Some(&former(&second)));
    assert_eq!(last_changes(&third), [of("upper", "1.0"), own("lower")]);
    let fourth = made(&[jetty("4.0", "1.5", "4")], Some(&former(&third)));
    assert_eq!(last_changes(&fourth), [own("upper"), of("lower", "3.0")]);
    let words = source("jetty", &jetty("4.1", "1.5", "4").text.replace("\"Sea\"", "\"Swell\""));
    let fifth = made(&[words], Some(&former(&fourth)));
    assert_eq!(last_changes(&fifth), [of("upper", "4.0"), of("lower", "3.0")]);
}

#[test]
fn a_release_since_another_brings_a_correction_and_a_page_of_changes() {
    let first = made(&[source("jetty", JETTY)], None);
    let next = source("jetty", &JETTY.replace("\"1.0\"", "\"2.0\"").replace("level 4", "level 5"));
    let second = made(&[next], Some(&former(&first)));
    let text = |path: &str| {
        let file = second.files.iter().find(|file| file.path == path).unwrap_or_else(|| panic!("{path}"));
        String::from_utf8(file.bytes.clone()).expect("text")
    };
    let page = text("jetty-6-in/jetty-correction.html");
    for told in
        ["Correction: edition 2.0", "correction to edition 1.0", "lower: Drawn anew.", "Paper A stays as it is."]
    {
        assert!(page.contains(told), "{told}");
    }
    let changes = text("jetty-changes.md");
    assert!(changes.starts_with("## Jetty · 6 in · What changed from edition 1.0 to edition 2.0\n"), "{changes}");
    let pdf = second.files.iter().find(|file| file.path == "jetty-6-in/jetty-correction.pdf").expect("a PDF");
    assert!(pdf.bytes.starts_with(b"%PDF"));
    let told: Vec<&str> = second.manifest.files.iter().map(|file| file.path.as_str()).collect();
    assert!(told.contains(&"jetty-changes.md") && told.contains(&"jetty-6-in/jetty-correction.pdf"));
    // Readers get both: the archive holds them.
    let archive = second.files.iter().find(|file| file.path == "out.zip").expect("an archive");
    let packed = archive::unpack(&archive.bytes, &|_| 1 << 24).expect("unpacks");
    assert!(packed.iter().any(|file| file.path == "jetty-changes.md"));
    // What only an edition brings is no correction.
    let words = made(
        &[source("jetty", &JETTY.replace("\"1.0\"", "\"1.1\"").replace("\"Sea\"", "\"Swell\""))],
        Some(&former(&first)),
    );
    let page = words.files.iter().find(|file| file.path == "jetty-6-in/jetty-correction.html").expect("a page");
    assert!(
        String::from_utf8_lossy(&page.bytes)
            .contains("No paper is to be printed anew: those that you have printed are right.")
    );
}

#[test]
fn patterns_are_told_from_what_they_share() {
    for pattern in [
        "\u{feff}pattern \"Gull\"",
        "// words\r\n  pattern\u{a0}\"Gull\"",
        "block gull 16 x 16 {\n}",
        "patern \"Gull\"\nfinished 8 in\n",
    ] {
        assert!(is_pattern(pattern), "{pattern}");
    }
    for shared in ["", "// pattern \"Gull\"", "fabric pattern \"A\" #fff", "history \"1.0\" \"First.\"", "block-1 x"] {
        assert!(!is_pattern(shared), "{shared}");
    }
}
