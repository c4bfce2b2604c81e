//! `piecewright release` from outside: what is written, what is refused, what a later look at it finds.

#[path = "support/desk.rs"]
mod desk;
#[path = "support/dice.rs"]
#[expect(dead_code, reason = "only chances are thrown here")]
mod dice;
mod support;

use std::fs;
use std::process::{Command, Stdio};

use desk::{Desk, Ran};
use dice::Dice;
use serde_json::Value;

/// A small pattern that uses a shared file and shows a picture.
const QUAY: &str = "pattern \"Quay\"\nedition \"1.0\"\ndate 2026-11-01\nuse \"house/words.piece\"\nfinished 6 in\nsizes 3 in\npaper letter, a4\n\
    fabric sea \"Sea\" #6b9db8\nfabric sky \"Sky\" #a9cbe0\nfabric rose \"Rose\" #d8a0a8\n\
    colouring dawn \"Dawn\" with sky as rose\n\
    block quay 8 x 8 {\n  unit all {\n    1 sky around 4, 2\n    2 sea beyond level 4\n  }\n}\n";

/// A smaller one, for what is done many times.
const BUOY: &str = "pattern \"Buoy\"\nedition \"1.0\"\nfinished 4 in\nfabric sea \"Sea\" #6b9db8\n\
    block buoy 2 x 2 {\n  unit all {\n    1 sea around 1, 1\n  }\n}\n";

/// A desk with the small pattern in `patterns`.
fn desk() -> Desk {
    let desk = Desk::new();
    desk.put("patterns/quay.piece", QUAY);
    desk.put("patterns/house/words.piece", "author \"Tern Point\"\nlogo \"sign.svg\" \"A tern\"\n");
    desk.put("patterns/house/sign.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\"><path d=\"M1,1 L8,1 L4,8 Z\" fill=\"#22314e\"/></svg>\n");
    desk
}

#[test]
fn a_release_is_written_whole_beside_its_source() {
    let desk = desk();
    let ran = desk.done(&["release", "patterns/quay.piece"]);
    assert!(ran.out.starts_with("wrote patterns/quay-1.0 (4 packets, "), "{}", ran.out);
    assert!(ran.out.contains("\nquay-3-in-dawn: foundations on A4: 1 sheet (as few as can be)\n"), "{}", ran.out);
    assert!(ran.out.ends_with(
        "publish patterns/quay-1.0/quay-1.0.zip, and keep the folder: the next release is compared with it\n"
    ));
    let files = desk.files("patterns/quay-1.0");
    let folders: std::collections::BTreeSet<&str> =
        files.keys().filter_map(|path| path.split_once('/')).map(|(folder, _)| folder).collect();
    assert_eq!(
        folders.into_iter().collect::<Vec<_>>(),
        ["quay-3-in", "quay-3-in-dawn", "quay-6-in", "quay-6-in-dawn", "source"]
    );
    assert_eq!(files["source/quay.piece"], QUAY.as_bytes());
    for shared in ["house/words.piece", "house/sign.svg"] {
        assert_eq!(
            files[&format!("source/{shared}")],
            fs::read(desk.path(&format!("patterns/{shared}"))).expect("reads")
        );
    }
    assert!(files.contains_key("quay-6-in/quay-letter.pdf") && files.contains_key("quay-6-in/quay-a4.pdf"));

    // The manifest is what its schema says, and tells every file.
    let told: Value = serde_json::from_slice(&files["release.json"]).expect("JSON");
    let schema: Value = serde_json::from_str(include_str!("../docs/release.schema.json")).expect("JSON");
    let mut compiler = boon::Compiler::new();
    compiler.add_resource("https://piecewright.invalid/release.schema.json", schema).expect("a resource");
    let mut schemas = boon::Schemas::new();
    let index = compiler.compile("https://piecewright.invalid/release.schema.json", &mut schemas).expect("a schema");
    assert!(schemas.validate(&told, index).is_ok(), "{told}");
    let listed: Vec<&str> =
        told["files"].as_array().expect("a list").iter().filter_map(|file| file["path"].as_str()).collect();
    let there: Vec<&str> = files
        .keys()
        .map(String::as_str)
        .filter(|path| !["release.json", "piecewright-packet.json"].contains(path))
        .collect();
    assert_eq!(listed, there);
    assert_eq!(told["patterns"][0]["date"], "2026-11-01");
    assert_eq!(told["patterns"][0]["packets"][0]["papers"], serde_json::json!(["letter", "a4"]));
    // What is hidden beside it is gone.
    assert!(!desk.path("patterns/.quay-1.0.piecewright").exists());
}

/// Unpacked by another program, where there is one, the archive is the packets, and its sums are true for yet another.
#[test]
fn readers_can_unpack_the_archive_and_check_its_sums() {
    let desk = desk();
    desk.done(&["release", "patterns/quay.piece", "-o", "out"]);
    let unpack = "import sys, zipfile; zipfile.ZipFile(sys.argv[1]).extractall(sys.argv[2])";
    let archive = desk.path("out/out.zip");
    let ran = Command::new("python3").args(["-c", unpack]).arg(&archive).arg(desk.path("unpacked")).output();
    let Ok(ran) = ran else { return };
    assert!(ran.status.success(), "{}", String::from_utf8_lossy(&ran.stderr));
    let mut unpacked = desk.files("unpacked");
    assert!(unpacked.remove("SHA256SUMS").is_some());
    let mut packets = desk.files("out");
    packets.retain(|path, _| path.contains('/') && !path.starts_with("source/"));
    assert!(unpacked == packets, "{:?}", unpacked.keys());
    let sums = Command::new("sha256sum")
        .args(["-c", "--strict", "--quiet", "SHA256SUMS"])
        .current_dir(desk.path("unpacked"))
        .output();
    if let Ok(ran) = sums {
        assert!(ran.status.success(), "{}", String::from_utf8_lossy(&ran.stderr));
    }
}

#[test]
fn the_same_source_makes_the_same_bytes_anywhere_and_at_any_time() {
    let (here, there) = (desk(), desk());
    here.done(&["release", "patterns/quay.piece", "-o", "out/harbour"]);
    let old = std::time::SystemTime::UNIX_EPOCH + std::time::Duration::from_secs(500_000_000);
    for name in ["quay.piece", "house/words.piece", "house/sign.svg"] {
        let path = there.path("elsewhere/deeper").join(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("makes folders");
        fs::copy(there.path("patterns").join(name), &path).expect("copies");
        fs::File::options().write(true).open(&path).and_then(|file| file.set_modified(old)).expect("is touched");
    }
    let mut command = there.command(&["release", "quay.piece", "-o", "../../harbour", "--quiet"]);
    let ran = Ran::from(
        command.current_dir(there.path("elsewhere/deeper")).env("TZ", "Pacific/Auckland").output().expect("runs"),
    );
    assert_eq!((ran.code, ran.out.as_str(), ran.err.as_str()), (Some(0), "", ""));
    let (one, other) = (here.files("out/harbour"), there.files("harbour"));
    for (path, bytes) in &one {
        assert!(other.get(path) == Some(bytes), "{path} differs");
    }
    assert_eq!(one.len(), other.len());
    // And once more in the same place.
    here.done(&["release", "patterns/quay.piece", "-o", "out/harbour"]);
    assert!(here.files("out/harbour") == one);
}

#[test]
fn a_folder_of_patterns_becomes_one_release() {
    let desk = desk();
    desk.put("patterns/buoy.piece", BUOY);
    desk.put("patterns/palette.piece", "fabric mist \"Mist\" #c9d6d8\n");
    desk.put("patterns/former/old.piece", BUOY);
    desk.put("patterns/.hidden.piece", "nothing");
    let ran = desk.done(&["release", "patterns"]);
    assert!(ran.err.contains("left out patterns/palette.piece: it is no pattern"), "{}", ran.err);
    let told: Value = serde_json::from_str(&desk.text("patterns-release/release.json")).expect("JSON");
    let names: Vec<&str> =
        told["patterns"].as_array().expect("a list").iter().filter_map(|pattern| pattern["name"].as_str()).collect();
    assert_eq!((names, &told["archive"]), (vec!["buoy", "quay"], &"patterns-release.zip".into()));
    assert_eq!(desk.run(&["release", "patterns", "--verify", "patterns-release"]).code, Some(0));
    // From within the folder it is the same.
    let first = desk.files("patterns-release");
    let mut command = desk.command(&["release", ".", "-q"]);
    assert_eq!(command.current_dir(desk.path("patterns")).status().expect("runs").code(), Some(0));
    assert!(desk.files("patterns-release") == first);

    // One pattern with a fault, and nothing is written.
    desk.change("patterns/buoy.piece", "around 1, 1", "around 1,5 1");
    desk.put("patterns/blank.piece", " \n");
    desk.change("patterns/quay.piece", "\"1.0\"", "\"1\"");
    let ran = desk.run(&["release", "patterns", "--format", "concise"]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(1), ""));
    for line in ["patterns/buoy.piece:7:", "patterns/quay.piece:2:9: error[edition-unfit]: `1` is no edition"] {
        assert!(ran.err.lines().any(|told| told.starts_with(line)), "{line}: {}", ran.err);
    }
    assert!(desk.files("patterns-release") == first);
    fs::create_dir(desk.path("bare")).expect("makes a folder");
    let none = desk.run(&["release", "bare"]);
    assert_eq!(none.code, Some(2));
    assert!(none.err.contains("there is no pattern in `bare`"), "{}", none.err);
}

#[test]
fn faults_are_told_once_and_leave_nothing_behind() {
    let desk = desk();
    desk.change("patterns/quay.piece", "beyond level 4", "beyond level 9");
    let ran = desk.run(&["release", "patterns/quay.piece", "--format", "json"]);
    assert_eq!((ran.code, ran.err.as_str()), (Some(1), ""));
    assert_eq!(ran.out.lines().count(), 1, "{}", ran.out);
    let fault: Value = serde_json::from_str(ran.out.trim()).expect("JSON");
    assert_eq!(fault["code"], "nothing-beyond");
    desk.change("patterns/quay.piece", "beyond level 9", "beyond level 4");
    desk.change("patterns/quay.piece", "\ncolouring", "\nfabric spare \"Spare\" #112233\ncolouring");
    assert_eq!(desk.run(&["release", "patterns/quay.piece", "--deny-warnings"]).code, Some(1));
    desk.change("patterns/quay.piece", "use \"house/words.piece\"", "use \"house/none.piece\"");
    let ran = desk.run(&["release", "patterns/quay.piece", "--language", "xx", "--format", "concise"]);
    assert_eq!(ran.code, Some(1));
    assert!(ran.err.contains("error[use-not-found]"), "{}", ran.err);
    let mut entries: Vec<_> = fs::read_dir(desk.path("patterns"))
        .expect("a folder")
        .map(|entry| entry.expect("an entry").file_name())
        .collect();
    entries.sort();
    assert_eq!(entries, ["house", "quay.piece"]);
    for (arguments, words) in [
        (&["release", "none.piece"][..], "there is no file `none.piece`"),
        (&["release", "-"], "standard input cannot be released"),
        (&["release"], "required"),
        (&["release", "patterns/quay.piece", "--verify", "out", "-o", "other"], "cannot be used with"),
    ] {
        let ran = desk.run(arguments);
        assert_eq!(ran.code, Some(2), "{arguments:?}");
        assert!(ran.err.contains(words), "{}", ran.err);
    }
}

#[test]
fn what_is_in_the_way_is_refused_and_never_lost() {
    let desk = desk();
    desk.put("out/diary.txt", "precious");
    let refused = desk.run(&["release", "patterns/quay.piece", "-o", "out"]);
    assert_eq!((refused.code, refused.out.as_str()), (Some(2), ""));
    assert!(refused.err.contains("`out` is in the way"), "{}", refused.err);
    let forced = desk.done(&["release", "patterns/quay.piece", "-o", "out", "--force"]);
    assert!(forced.out.starts_with("set aside out.old\n"), "{}", forced.out);
    assert_eq!(desk.text("out.old/diary.txt"), "precious");
    for target in [".", "..", "patterns", "patterns/quay.piece"] {
        let refused = desk.run(&["release", "patterns/quay.piece", "--force", "-o", target]);
        assert_eq!(refused.code, Some(2), "{target}: {}", refused.err);
        let refused = desk.run(&["release", "patterns", "--force", "-o", target]);
        assert_eq!(refused.code, Some(2), "{target}: {}", refused.err);
    }
    // Nor what the source uses.
    let refused = desk.run(&["release", "patterns/quay.piece", "--force", "-o", "patterns/house"]);
    assert_eq!(refused.code, Some(2), "{}", refused.out);
    assert_eq!(desk.files("patterns").len(), 3);
    assert_eq!(desk.text("patterns/quay.piece"), QUAY);
}

#[test]
fn the_release_before_stays_as_it_is() {
    let desk = desk();
    desk.done(&["release", "patterns/quay.piece", "-o", "first"]);
    let first = desk.files("first");
    desk.change("patterns/quay.piece", "\"1.0\"", "\"1.1\"");
    desk.change("patterns/quay.piece", "\"Sea\"", "\"Swell\"");
    for target in ["first", "first/in-it", "first/source", "."] {
        let refused = desk.run(&["release", "patterns/quay.piece", "--since", "first", "--force", "-o", target]);
        assert_eq!(refused.code, Some(2), "{target}");
        assert!(refused.err.contains("the release before"), "{target}: {}", refused.err);
    }
    let ran = desk.done(&["release", "patterns/quay.piece", "--since", "first", "-o", "second"]);
    assert!(ran.out.contains("; 1 of 1 papers lie where they lay\n"), "{}", ran.out);
    assert_eq!(ran.err, "quay: no history line tells of edition 1.1\n");
    // What is new in it for those who have the former edition.
    let new = "\nquay-changes.md tells what changed since edition 1.0\n\
        quay-correction-a4.pdf, quay-correction-letter.pdf in each packet: for those who have edition 1.0\npublish ";
    assert!(ran.out.contains(new), "{}", ran.out);
    assert!(desk.files("first") == first);
    let told: Value = serde_json::from_str(&desk.text("second/release.json")).expect("JSON");
    assert_eq!(told["patterns"][0]["since"]["edition"], "1.0");

    // The edition must rise, and nothing is written unless it does.
    desk.change("patterns/quay.piece", "\"1.1\"", "\"1.0\"");
    let refused =
        desk.run(&["release", "patterns/quay.piece", "--since", "first", "--format", "concise", "-o", "third"]);
    assert_eq!(refused.code, Some(1));
    assert!(refused.err.starts_with("patterns/quay.piece:2:9: error[edition-too-small]: "), "{}", refused.err);
    assert!(!desk.path("third").exists());
    // So it is told where the folder would be that of the release before.
    desk.put("buoy.piece", BUOY);
    desk.done(&["release", "buoy.piece"]);
    let same = desk.run(&["release", "buoy.piece", "--since", "buoy-1.0", "--format", "concise"]);
    assert_eq!(same.code, Some(1));
    assert!(same.err.starts_with("buoy.piece:2:9: error[nothing-changed]: "), "{}", same.err);
    // What is after a release can itself be followed, and says nothing of other versions.
    desk.change("patterns/quay.piece", "\"1.0\"", "\"1.2\"\nhistory \"1.2\" \"Another sea.\"");
    desk.change("patterns/quay.piece", "\"Swell\"", "\"Surf\"");
    let ran = desk.done(&["release", "patterns/quay.piece", "--since", "second", "-o", "third"]);
    assert_eq!(ran.err, "");

    // What is no release, or not intact, is refused in plain words.
    desk.put("packet/model.json", "{}");
    desk.put(
        "forged/release.json",
        desk.text("first/release.json").replace("quay-1.0", "../quay").replace("first.zip", "../first.zip"),
    );
    desk.put("garbage/release.json", [0xff; 40]);
    fs::remove_file(desk.path("second/source/house/words.piece")).expect("removes");
    desk.done(&["release", "patterns/quay.piece", "--since", "first", "-o", "fourth"]);
    // One byte of a file that is not needed.
    let mut print = fs::read(desk.path("fourth/quay-3-in-dawn/quay-a4.pdf")).expect("reads");
    print[1000] ^= 1;
    desk.put("fourth/quay-3-in-dawn/quay-a4.pdf", print);
    desk.put("third/quay-6-in/model.json", "{}");
    desk.put("third/quay-6-in/steps.txt", "sew");
    desk.put("third/quay-6-in/tides.txt", "high");
    for (since, words) in [
        ("none", "there is no folder `none`"),
        ("packet", "`packet` is no release: there is no `release.json` in it"),
        ("patterns/quay.piece", "is no release"),
        ("forged", "`release.json` cannot be true"),
        ("garbage", "`garbage` is no release"),
        ("second", "the release in `second` is not intact: `source/house/words.piece` is missing\n"),
        (
            "third",
            "the release in `third` is not intact: `quay-6-in/model.json` is not as it was, and 2 more files are not as they should be\n",
        ),
        ("fourth", "`fourth` is not intact: `quay-3-in-dawn/quay-a4.pdf` is not as it was\n"),
        ("buoy-1.0", "the release before is of other patterns: it has buoy, and what is to be released is quay"),
    ] {
        let ran = desk.run(&["release", "patterns/quay.piece", "--since", since, "-o", "fifth"]);
        assert_eq!(ran.code, Some(2), "{since}");
        assert!(ran.err.contains(words) && ran.err.contains("help: ") == (since != "none"), "{since}: {}", ran.err);
    }
    assert!(!desk.path("fifth").exists());
}

/// What readers may have is never replaced by something else that bears the same edition.
#[test]
fn a_published_edition_stays() {
    let desk = desk();
    let write = |edition: &str, name: &str| {
        desk.put("buoy.piece", BUOY.replace("1.0", edition).replace("\"Sea\"", &format!("\"{name}\"")));
    };
    write("1.0", "Sea");
    desk.done(&["release", "buoy.piece"]);
    write("1.1", "Swell");
    desk.done(&["release", "buoy.piece", "--since", "buoy-1.0"]);
    let published = desk.files("buoy-1.1");
    let refused = |words: &str| {
        let ran = desk.run(&["release", "buoy.piece"]);
        assert_eq!((ran.code, ran.out.as_str()), (Some(2), ""), "{}", ran.err);
        assert!(ran.err.contains(words) && ran.err.contains("`buoy-1.1.old` with `--force`"), "{}", ran.err);
        assert!(desk.files("buoy-1.1") == published);
    };
    refused("`buoy-1.1` is the release of buoy 1.1 that was made after edition 1.0\n");
    write("1.1", "Surf");
    refused("`buoy-1.1` is a release of buoy 1.1 already, and it was made of other sources\n");
    // The same once more is fine.
    write("1.1", "Swell");
    desk.done(&["release", "buoy.piece", "--since", "buoy-1.0"]);
    assert!(desk.files("buoy-1.1") == published);
    // By force it is set aside, and not deleted as a packet would be.
    write("1.1", "Surf");
    let forced = desk.done(&["release", "buoy.piece", "--force"]);
    assert!(forced.out.starts_with("set aside buoy-1.1.old\n"), "{}", forced.out);
    assert!(desk.files("buoy-1.1.old") == published);
    assert_eq!(desk.run(&["release", "buoy.piece", "--verify", "buoy-1.1"]).code, Some(0));
    // What cannot be read may be anything.
    desk.put("buoy-1.1/release.json", "{}");
    let ran = desk.run(&["release", "buoy.piece"]);
    assert_eq!(ran.code, Some(2));
    assert!(ran.err.contains("`buoy-1.1` is in the way: its `release.json` cannot be read"), "{}", ran.err);
}

#[test]
fn a_release_is_verified() {
    let desk = desk();
    desk.done(&["release", "patterns/quay.piece", "-o", "out"]);
    desk.put("out/.DS_Store", "litter");
    let verified = desk.done(&["release", "--verify", "out"]);
    assert_eq!((verified.out.as_str(), verified.err.as_str()), ("", "out is intact: every file is as it was\n"));
    let verified = desk.done(&["release", "patterns/quay.piece", "--verify", "out"]);
    assert!(
        verified.err.ends_with("it was made of this source: made anew, every byte is the same\n"),
        "{}",
        verified.err
    );
    // Even after it was moved.
    fs::rename(desk.path("out"), desk.path("moved")).expect("renames");
    let json = desk.done(&["release", "patterns", "--verify", "moved", "--format", "json"]);
    assert_eq!(json.out, "{\"findings\":[],\"intact\":true,\"made_of_source\":true,\"same_bytes\":true}\n");

    // Other sources.
    desk.change("patterns/quay.piece", "\"Sea\"", "\"Swell\"");
    let other = desk.run(&["release", "patterns/quay.piece", "--verify", "moved", "--format", "json"]);
    assert_eq!(other.code, Some(1));
    let told: Value = serde_json::from_str(&other.out).expect("JSON");
    assert_eq!(
        (&told["intact"], &told["made_of_source"], &told["same_bytes"]),
        (&true.into(), &false.into(), &Value::Null)
    );
    assert_eq!(told["findings"], serde_json::json!([{ "path": "source/quay.piece", "wrong": "other-source" }]));
    desk.change("patterns/quay.piece", "\"Swell\"", "\"Sea\"");

    // Other files.
    fs::remove_file(desk.path("moved/quay-6-in/steps.txt")).expect("removes");
    desk.put("moved/quay-6-in/more.txt", "more");
    desk.put("moved/quay-3-in/cutting.csv", "cut");
    let wrong = desk.run(&["release", "--verify", "moved"]);
    assert_eq!(wrong.code, Some(1));
    assert_eq!(
        wrong.out.lines().collect::<Vec<_>>(),
        [
            "moved/quay-3-in/cutting.csv is not as it was",
            "moved/quay-6-in/more.txt does not belong to the release",
            "moved/quay-6-in/steps.txt is missing",
        ]
    );
    assert_eq!(wrong.err, "moved is not intact\n");
    assert_eq!(desk.run(&["release", "--verify", "patterns"]).code, Some(2));
}

#[test]
fn a_release_after_another_is_made_anew_with_it() {
    let desk = desk();
    desk.put("buoy.piece", BUOY);
    desk.done(&["release", "buoy.piece", "--thorough", "--language", "de"]);
    desk.put("buoy.piece", BUOY.replace("1.0", "1.1").replace("\"Sea\"", "\"Swell\""));
    desk.done(&["release", "buoy.piece", "--since", "buoy-1.0"]);
    let alone = desk.done(&["release", "buoy.piece", "--verify", "buoy-1.1"]);
    assert!(
        alone.err.contains("it was made after edition 1.0: name the release of that with `--since`"),
        "{}",
        alone.err
    );
    let with = desk.done(&["release", "buoy.piece", "--verify", "buoy-1.1", "--since", "buoy-1.0"]);
    assert!(with.err.contains("every byte is the same"), "{}", with.err);
    // Another edition than the one it was made after.
    let wrong = desk.run(&["release", "buoy.piece", "--verify", "buoy-1.1", "--since", "buoy-1.1"]);
    assert_eq!((wrong.code, wrong.out.as_str()), (Some(2), ""));
    let words = "buoy 1.1 was made after edition 1.0, and `buoy-1.1` holds edition 1.1\n";
    assert!(wrong.err.contains(words), "{}", wrong.err);
    // How it was made is remembered.
    desk.put("buoy.piece", BUOY);
    let first = desk.done(&["release", "buoy.piece", "--verify", "buoy-1.0"]);
    assert!(first.err.contains("every byte is the same"), "{}", first.err);
    // A release whose bytes are not those that its sources make, though each file is as it tells.
    let text = desk.text("buoy-1.0/release.json");
    for (old, new, path) in [("\"de\"", "null", "buoy-4-in/buoy.pdf"), ("\"Buoy\"", "\"Bell\"", "release.json")] {
        assert!(text.contains(old), "{old}");
        desk.put("buoy-1.0/release.json", text.replacen(old, new, 1));
        let other = desk.run(&["release", "buoy.piece", "--verify", "buoy-1.0"]);
        assert_eq!(other.code, Some(1), "{}", other.err);
        assert!(other.out.contains(&format!("{path} is not what these sources make\n")), "{}", other.out);
        assert!(other.err.contains("buoy-1.0 is intact") && other.err.contains("does not make the same files"));
    }
}

#[test]
fn shared_files_of_a_project_are_kept_where_they_lie_in_it() {
    let desk = desk();
    desk.put("patterns/harbour/quay.piece", QUAY);
    desk.done(&["release", "patterns/harbour/quay.piece", "--project", "patterns", "-o", "out"]);
    let told: Value = serde_json::from_str(&desk.text("out/release.json")).expect("JSON");
    let paths: Vec<&str> = told["patterns"][0]["sources"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|source| source["path"].as_str())
        .collect();
    assert_eq!(paths, ["source/harbour/quay.piece", "source/house/sign.svg", "source/house/words.piece"]);
    // And the next release finds them there.
    desk.put("patterns/harbour/quay.piece", QUAY.replace("1.0", "1.1").replace("\"Sea\"", "\"Swell\""));
    let next = ["release", "patterns/harbour/quay.piece", "--project", "patterns", "--since", "out", "-o", "next"];
    assert_eq!(desk.done(&next).err, "quay: no history line tells of edition 1.1\n");
}

/// Killed at moments that a seeded die chooses, a release leaves the old folder or the new one, whole.
#[cfg(unix)]
#[test]
fn a_release_killed_at_any_moment_leaves_a_whole_one() {
    let desk = desk();
    let release = ["release", "buoy.piece", "-o", "out", "--quiet"];
    let write = |edition: &str| desk.put("buoy.piece", BUOY.replace("1.0", edition));
    write("1.0");
    desk.done(&release);
    let before = std::time::Instant::now();
    desk.done(&release);
    let whole = before.elapsed();
    let mut dice = Dice(2026);
    let (mut killed, mut finished) = (0, 0);
    for moment in 0..50 {
        write(if moment % 2 == 0 { "1.1" } else { "1.0" });
        let mut child = desk.command(&release).stderr(Stdio::null()).spawn().expect("starts");
        std::thread::sleep(whole.mul_f64(1.1 * dice.roll()));
        _ = child.kill();
        *(if child.wait().expect("ends").success() { &mut finished } else { &mut killed }) += 1;
        let place = if desk.path("out").exists() { "out" } else { ".out.piecewright/old" };
        let verified = desk.run(&["release", "--verify", place]);
        assert_eq!(verified.code, Some(0), "{moment}: {}{}", verified.out, verified.err);
    }
    assert!(killed > 10 && finished + killed == 50, "{killed} killed");
    // A look at what a run has left between two renames says where it is.
    desk.done(&release);
    fs::create_dir(desk.path(".out.piecewright")).expect("makes a folder");
    fs::rename(desk.path("out"), desk.path(".out.piecewright/old")).expect("renames");
    let gone = desk.run(&["release", "--verify", "out"]);
    assert_eq!(gone.code, Some(2));
    assert!(gone.err.contains("a run was killed while it wrote it"), "{}", gone.err);
    desk.done(&release);
    assert_eq!(desk.run(&["release", "buoy.piece", "--verify", "out"]).code, Some(0));
    assert!(!desk.path(".out.piecewright").exists());
}

/// One of the samples, with its pictures, its house page and its colourings.
#[test]
fn a_sample_is_released() {
    let desk = desk();
    let sample = support::patterns().join("gull.piece");
    let sample = sample.to_str().expect("a path");
    let out = desk.path("out");
    desk.done(&["release", sample, "-o", out.to_str().expect("a path")]);
    let verified = desk.done(&["release", "--verify", "out"]);
    assert_eq!(verified.out, "");
}
