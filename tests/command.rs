//! The command from outside: arguments and files in, exit code, words and files out.

#[path = "support/desk.rs"]
mod desk;

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

use desk::{Desk, PROGRAM, Ran};

/// A desk with the pattern that `new` writes on it.
fn with_pattern() -> Desk {
    let desk = Desk::new();
    assert_eq!(desk.run(&["new", "gull.piece"]).code, Some(0));
    desk
}

#[test]
fn usage_is_taught_and_wrong_usage_is_trouble() {
    let desk = Desk::new();
    let help = desk.run(&["--help"]);
    assert_eq!(help.code, Some(0));
    assert!(help.out.contains("piecewright build gull.piece"), "{}", help.out);
    assert_eq!(desk.run(&[]).code, Some(2));
    assert_eq!(desk.run(&["knit"]).code, Some(2));
    assert_eq!(desk.run(&["check", "--most", "0", "gull.piece"]).code, Some(2));
    for task in ["new", "check", "build", "release", "explain", "completions"] {
        let help = desk.run(&[task, "--help"]);
        assert_eq!((help.code, help.out.contains("Example")), (Some(0), true), "{task}: {}", help.out);
    }
}

#[test]
fn a_new_pattern_is_without_fault_and_never_written_over_another() {
    let desk = Desk::new();
    let new = desk.run(&["new", "storm-lantern"]);
    assert_eq!((new.code, new.err.as_str()), (Some(0), ""));
    assert!(new.out.contains("piecewright build storm-lantern.piece"), "{}", new.out);
    assert!(desk.text("storm-lantern.piece").contains("pattern  \"Storm Lantern\""));
    let check = desk.run(&["check", "storm-lantern.piece"]);
    assert_eq!((check.code, check.out.as_str(), check.err.as_str()), (Some(0), "", "nothing is the matter\n"));

    desk.put("storm-lantern.piece", "mine");
    let again = desk.run(&["new", "storm-lantern.piece"]);
    assert_eq!((again.code, again.out.as_str()), (Some(2), ""));
    assert!(again.err.contains("is there already"), "{}", again.err);
    assert_eq!(desk.text("storm-lantern.piece"), "mine");
    assert_eq!(desk.run(&["new", "--force", "storm-lantern.piece"]).code, Some(0));
    assert!(desk.text("storm-lantern.piece").contains("Storm Lantern"));
    assert_eq!(desk.run(&["new", "none/gull.piece"]).code, Some(2));
    assert_eq!(desk.all(), ["storm-lantern.piece"]);
    assert!(desk.run(&["new", "-"]).out.contains("pattern  \"Harbour Light\""));
}

#[test]
fn check_tells_faults_by_place_and_by_exit_code() {
    let desk = with_pattern();
    desk.change("gull.piece", "finished 8 in", "finished 8,5 in");
    let full = desk.run(&["check", "gull.piece"]);
    assert_eq!(full.code, Some(1));
    assert!(full.out.starts_with("error[decimal-comma]: "), "{}", full.out);
    assert!(full.out.contains("─[gull.piece:7:"), "{}", full.out);
    assert!(full.err.contains("1 error"), "{}", full.err);
    let concise = desk.run(&["check", "--format", "concise", "gull.piece", "--quiet"]);
    assert_eq!((concise.code, concise.err.as_str()), (Some(1), ""));
    assert!(concise.out.starts_with("gull.piece:7:"), "{}", concise.out);
    let json = desk.run(&["check", "--format", "json", "gull.piece"]);
    assert_eq!((json.code, json.err.as_str()), (Some(1), ""));
    let line: serde_json::Value = serde_json::from_str(json.out.lines().next().expect("a line")).expect("is JSON");
    assert_eq!((line["code"].as_str(), line["line"].as_u64()), (Some("decimal-comma"), Some(7)));
}

#[test]
fn warnings_count_only_when_they_are_denied() {
    let desk = with_pattern();
    desk.change("gull.piece", "fabric glow", "fabric spare \"Spare\" #112233\nfabric glow");
    let check = desk.run(&["check", "gull.piece"]);
    assert_eq!(check.code, Some(0));
    assert!(check.out.contains("warning[unused-name]") && check.out.contains("`allow unused-name`"), "{}", check.out);
    assert_eq!(desk.run(&["check", "--deny-warnings", "gull.piece"]).code, Some(1));
    assert_eq!(desk.run(&["build", "--deny-warnings", "gull.piece"]).code, Some(1));
    assert_eq!(desk.all(), ["gull.piece"]);
    let build = desk.run(&["build", "gull.piece"]);
    assert_eq!(build.code, Some(0));
    assert!(build.err.contains("warning[unused-name]") && build.err.contains("1 warning"), "{}", build.err);
    assert!(desk.path("gull").is_dir());
}

#[test]
fn several_files_are_checked_even_if_one_cannot_be_read() {
    let desk = with_pattern();
    desk.put("blank.piece", " \n");
    desk.put("möwe.piece", b"pattern \"M\xf6we\"\n");
    let both = desk.run(&["check", "--format", "concise", "blank.piece", "gull.piece", "möwe.piece"]);
    assert_eq!(both.code, Some(1));
    let lines: Vec<_> = both.out.lines().collect();
    assert_eq!(
        lines,
        [
            "blank.piece:1:1: error[empty-source]: `blank.piece` is empty",
            "möwe.piece:1:11: error[not-text]: `möwe.piece` is not plain text: it cannot be read on from byte 10",
        ]
    );
    let missing = desk.run(&["check", "--format", "concise", "none.piece", "blank.piece", "."]);
    assert_eq!(missing.code, Some(2));
    assert!(
        missing.err.contains("there is no file `none.piece`") && missing.err.contains("`.` is a folder"),
        "{}",
        missing.err
    );
    assert!(missing.out.contains("empty-source"), "{}", missing.out);
}

#[test]
fn a_source_beyond_the_greatest_size_is_refused() {
    let desk = Desk::new();
    desk.put("gull.piece", vec![b' '; (4 << 20) + 1]);
    let check = desk.run(&["check", "gull.piece"]);
    assert_eq!(check.code, Some(1));
    assert!(check.out.starts_with("error[source-too-large]: "), "{}", check.out);
}

#[test]
fn standard_input_is_a_source() {
    let desk = with_pattern();
    let text = desk.text("gull.piece");
    assert_eq!(desk.run_with_input(&["check", "-"], text.as_bytes()).code, Some(0));
    let empty = desk.run_with_input(&["check", "--format", "concise", "-"], b"");
    assert_eq!(empty.code, Some(1));
    assert!(empty.out.starts_with("standard input:1:1: error[empty-source]"), "{}", empty.out);
    assert_eq!(desk.run_with_input(&["check", "-", "-"], text.as_bytes()).code, Some(2));
    let nowhere = desk.run_with_input(&["build", "-"], text.as_bytes());
    assert_eq!(nowhere.code, Some(2));
    assert!(nowhere.err.contains("-o FOLDER"), "{}", nowhere.err);
    assert_eq!(desk.run_with_input(&["build", "-", "-o", "out/packet"], text.as_bytes()).code, Some(0));
    assert!(desk.path("out/packet/piecewright-packet.json").is_file());
}

#[test]
fn shared_files_lie_in_the_project_or_are_refused() {
    let desk = with_pattern();
    desk.put("sea/gull.piece", desk.text("gull.piece").replacen("edition", "use \"shared/house.piece\"\nedition", 1));
    desk.put("house.piece", "note \"Sewn by the sea.\"\n");
    let missing = desk.run(&["check", "--format", "concise", "sea/gull.piece"]);
    assert_eq!(missing.code, Some(1));
    assert!(missing.out.contains("error[use-not-found]"), "{}", missing.out);
    desk.put("sea/shared/house.piece", "note \"Sewn by the sea.\"\n");
    let found = desk.run(&["check", "sea/gull.piece"]);
    assert_eq!((found.code, found.out.as_str()), (Some(0), ""));
    assert_eq!(desk.run(&["check", "--project", ".", "sea/gull.piece"]).code, Some(1));
    assert_eq!(desk.run(&["check", "--project", "none", "sea/gull.piece"]).code, Some(2));
    #[cfg(unix)]
    {
        fs::remove_file(desk.path("sea/shared/house.piece")).expect("removes");
        std::os::unix::fs::symlink("../../house.piece", desk.path("sea/shared/house.piece")).expect("links");
        let linked = desk.run(&["check", "--format", "concise", "sea/gull.piece"]);
        assert_eq!(linked.code, Some(1));
        assert!(linked.out.contains("outside the project's folder"), "{}", linked.out);
    }
}

#[test]
fn a_packet_is_built_whole_beside_its_source_and_built_again() {
    let desk = with_pattern();
    desk.put("sea/gull.piece", desk.text("gull.piece"));
    let build = desk.run(&["build", "sea/gull.piece"]);
    assert_eq!((build.code, build.err.as_str()), (Some(0), ""));
    let pdf = build
        .out
        .lines()
        .find_map(|line| line.strip_prefix("print ")?.split(" at 100 %").next())
        .expect("what to print");
    assert!(desk.path(pdf).is_file(), "{}", build.out);

    let manifest: serde_json::Value =
        serde_json::from_str(&desk.text("sea/gull/piecewright-packet.json")).expect("is JSON");
    let mut listed: Vec<_> = manifest["files"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|file| format!("sea/gull/{}", file.as_str().expect("a path")))
        .collect();
    listed.push("sea/gull/piecewright-packet.json".into());
    listed.sort();
    let is_of_packet = |path: &String| path.starts_with("sea/gull/") && desk.path(path).is_file();
    let all = desk.all();
    assert_eq!(all.iter().filter(|path| is_of_packet(path)).cloned().collect::<Vec<_>>(), listed);
    assert!(!all.iter().any(|path| path.contains("/.") || path.starts_with('.')), "{all:?}");

    let bytes = || listed.iter().map(|path| fs::read(desk.path(path)).expect("reads")).collect::<Vec<_>>();
    let first = bytes();
    let quiet = desk.run(&["build", "sea/gull.piece", "--quiet"]);
    assert_eq!((quiet.code, quiet.out.as_str(), quiet.err.as_str()), (Some(0), "", ""));
    assert_eq!(desk.all(), all);
    assert!(bytes() == first, "the same source gives the same bytes");
}

#[test]
fn faults_of_a_build_leave_the_packet_as_it_was() {
    let desk = with_pattern();
    assert_eq!(desk.run(&["build", "gull.piece"]).code, Some(0));
    let all = desk.all();
    let manifest = desk.text("gull/piecewright-packet.json");
    desk.change("gull.piece", "finished 8 in", "finished 8,5 in");
    let build = desk.run(&["build", "gull.piece"]);
    assert_eq!((build.code, build.out.as_str()), (Some(1), ""));
    assert!(build.err.starts_with("error[decimal-comma]"), "{}", build.err);
    let json = desk.run(&["build", "gull.piece", "--format", "json"]);
    assert_eq!((json.code, json.err.as_str()), (Some(1), ""));
    assert!(json.out.starts_with('{'), "{}", json.out);
    assert_eq!(desk.all(), all);
    assert_eq!(desk.text("gull/piecewright-packet.json"), manifest);
}

#[test]
fn what_is_in_the_way_is_refused_and_never_lost() {
    let desk = with_pattern();
    desk.put("gull/diary.txt", "precious");
    let refused = desk.run(&["build", "gull.piece"]);
    assert_eq!((refused.code, refused.out.as_str()), (Some(2), ""));
    assert!(refused.err.contains("`gull` is in the way") && refused.err.contains("--force"), "{}", refused.err);
    assert_eq!(desk.all(), ["gull", "gull.piece", "gull/diary.txt"]);
    let forced = desk.run(&["build", "gull.piece", "--force"]);
    assert_eq!(forced.code, Some(0));
    assert!(forced.out.contains("gull.old"), "{}", forced.out);
    assert_eq!(desk.text("gull.old/diary.txt"), "precious");

    desk.put("gull/diary.txt", "precious too");
    let refused = desk.run(&["build", "gull.piece"]);
    assert_eq!(refused.code, Some(2));
    assert!(refused.err.contains("`diary.txt`"), "{}", refused.err);
    assert_eq!(desk.text("gull/diary.txt"), "precious too");
    for target in [".", "gull.piece", ".."] {
        let refused = desk.run(&["build", "gull.piece", "--force", "-o", target]);
        assert_eq!(refused.code, Some(2), "{target}");
    }
    assert!(desk.path("gull.piece").is_file());
}

#[test]
fn a_packet_left_between_two_renames_is_restored() {
    let desk = with_pattern();
    assert_eq!(desk.run(&["build", "gull.piece"]).code, Some(0));
    let all = desk.all();
    fs::create_dir(desk.path(".gull.piecewright")).expect("makes a folder");
    fs::rename(desk.path("gull"), desk.path(".gull.piecewright/old")).expect("renames");
    // Even by a run that builds nothing.
    desk.change("gull.piece", "finished 8 in", "finished 8,5 in");
    assert_eq!(desk.run(&["build", "gull.piece"]).code, Some(1));
    assert_eq!(desk.all(), all);
}

#[cfg(unix)]
#[test]
fn a_build_killed_at_any_moment_leaves_a_whole_packet() {
    let desk = with_pattern();
    assert_eq!(desk.run(&["build", "gull.piece"]).code, Some(0));
    let all = desk.all();
    let before = std::time::Instant::now();
    assert_eq!(desk.run(&["build", "gull.piece"]).code, Some(0));
    let whole_build = before.elapsed();
    let is_whole = |folder: &str| {
        let manifest = fs::read_to_string(desk.path(folder).join("piecewright-packet.json")).unwrap_or_default();
        let manifest: serde_json::Value = serde_json::from_str(&manifest).unwrap_or_default();
        let files = manifest["files"].as_array();
        files.is_some_and(|files| {
            files.iter().all(|file| desk.path(folder).join(file.as_str().unwrap_or("?")).is_file())
        })
    };
    for moment in 0..30 {
        let mut child =
            desk.command(&["build", "gull.piece", "--quiet"]).stderr(Stdio::null()).spawn().expect("starts");
        std::thread::sleep(whole_build * moment / 30);
        _ = child.kill();
        child.wait().expect("ends");
        assert!(is_whole("gull") || is_whole(".gull.piecewright/old"), "{:?}", desk.all());
    }
    assert_eq!(desk.run(&["build", "gull.piece"]).code, Some(0));
    assert_eq!(desk.all(), all);
}

#[cfg(unix)]
#[test]
fn a_folder_that_cannot_be_written_is_trouble() {
    use std::os::unix::fs::PermissionsExt;
    let desk = with_pattern();
    desk.put("file", "");
    let build = desk.run(&["build", "gull.piece", "-o", "file/gull"]);
    assert_eq!(build.code, Some(2));
    assert!(build.err.starts_with("piecewright: `file/gull` cannot be written: "), "{}", build.err);
    fs::create_dir(desk.path("locked")).expect("makes a folder");
    fs::set_permissions(desk.path("locked"), fs::Permissions::from_mode(0o500)).expect("locks");
    let build = desk.run(&["build", "gull.piece", "-o", "locked/gull"]);
    fs::set_permissions(desk.path("locked"), fs::Permissions::from_mode(0o700)).expect("unlocks");
    // The superuser may write everywhere.
    assert!(build.code == Some(2) || desk.path("locked/gull/piecewright-packet.json").is_file(), "{}", build.err);
}

#[cfg(unix)]
#[test]
fn the_packet_is_shown_on_request() {
    use std::os::unix::fs::PermissionsExt;
    let desk = with_pattern();
    desk.put("bin/xdg-open", "#!/bin/sh\necho \"$1\" > \"$1.shown\"\n");
    fs::set_permissions(desk.path("bin/xdg-open"), fs::Permissions::from_mode(0o700)).expect("may run");
    let with_path = |path: &Path| {
        let output = desk.command(&["build", "gull.piece", "--open"]).env("PATH", path).output();
        Ran::from(output.expect("runs"))
    };
    let none = with_path(&desk.path("none"));
    assert_eq!(none.code, Some(0));
    if cfg!(target_os = "macos") {
        return;
    }
    assert!(none.err.contains("nothing was found to show"), "{}", none.err);
    let shown = with_path(&desk.path("bin"));
    assert_eq!((shown.code, shown.err.as_str()), (Some(0), ""));
    let appeared = || desk.all().iter().any(|path| path.ends_with(".pdf.shown"));
    for _ in 0..200 {
        if appeared() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(25));
    }
    assert!(appeared(), "{:?}", desk.all());
}

#[test]
fn faults_are_explained() {
    let desk = Desk::new();
    let list = desk.run(&["explain"]);
    assert_eq!(list.code, Some(0));
    for code in piecewright::fault::Code::ALL {
        assert!(list.out.lines().any(|line| line.trim().starts_with(code.slug())), "{}", code.slug());
    }
    let page = desk.run(&["explain", "near-miss"]);
    assert_eq!(page.code, Some(0));
    assert!(page.out.starts_with("warning[near-miss]\n"), "{}", page.out);
    assert_eq!(desk.run(&["explain", "warning[near-miss]"]).out, page.out);
    let wrong = desk.run(&["explain", "near-mis"]);
    assert_eq!((wrong.code, wrong.out.as_str()), (Some(2), ""));
    assert!(wrong.err.contains("did you mean `piecewright explain near-miss`?"), "{}", wrong.err);
    assert_eq!(desk.run(&["explain", "\u{1b}[2J"]).err.find('\u{1b}'), None);
}

#[test]
fn colours_are_off_where_nobody_looks() {
    let desk = Desk::new();
    desk.put("gull.piece", "");
    let colours = |ran: Ran| (ran.out + &ran.err).contains('\u{1b}');
    assert!(!colours(desk.run(&["check", "gull.piece"])));
    assert!(colours(desk.run(&["check", "--color", "always", "gull.piece"])));
    let asked = desk.command(&["check", "--color", "always", "gull.piece"]).env("NO_COLOR", "1").output();
    assert!(colours(Ran::from(asked.expect("runs"))), "what is asked for outright is done");
    assert!(!colours(desk.run(&["check", "--color", "never", "gull.piece"])));
}

/// On a terminal that `script` makes, where there is one: colours, and none with `NO_COLOR`.
#[cfg(target_os = "linux")]
#[test]
fn colours_on_a_terminal_heed_no_color() {
    let desk = Desk::new();
    desk.put("gull.piece", "");
    let on_terminal = |no_colour: &str| {
        let check = format!("'{PROGRAM}' check gull.piece");
        let mut command = Command::new("script");
        command.args(["-qec", &check, "/dev/null"]).current_dir(desk.folder.path()).stdin(Stdio::null());
        command.env("TERM", "xterm").env("NO_COLOR", no_colour).output().ok()
    };
    let (Some(coloured), Some(bare)) = (on_terminal(""), on_terminal("1")) else { return };
    assert!(coloured.stdout.contains(&0x1b), "{}", String::from_utf8_lossy(&coloured.stdout));
    assert!(!bare.stdout.contains(&0x1b), "{}", String::from_utf8_lossy(&bare.stdout));
}

#[test]
fn a_closed_pipe_ends_quietly() {
    let desk = with_pattern();
    desk.put("blank.piece", "");
    for (arguments, code) in [
        (&["check", "blank.piece", "-q"][..], 1),
        (&["explain"], 0),
        (&["completions", "bash"], 0),
        (&["new", "-"], 0),
        (&["--help"], 0),
    ] {
        let mut command = desk.command(arguments);
        let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("starts");
        drop(child.stdout.take());
        let ran = Ran::from(child.wait_with_output().expect("ends"));
        assert_eq!((ran.code, ran.err.as_str()), (Some(code), ""), "{arguments:?}");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_trouble() {
    let desk = Desk::new();
    let full = fs::File::options().write(true).open("/dev/full").expect("is there");
    let ran = Ran::from(desk.command(&["explain"]).stdout(full).output().expect("runs"));
    assert_eq!(ran.code, Some(2));
    assert!(ran.err.contains("standard output cannot be written"), "{}", ran.err);
}

#[test]
fn completions_are_written_for_every_shell() {
    let desk = Desk::new();
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let ran = desk.run(&["completions", shell]);
        assert_eq!(ran.code, Some(0));
        assert!(ran.out.contains("deny-warnings"), "{shell}");
    }
}

/// A source that is drawn as patches.
const PATCHES: &str = "pattern \"Quay\"\nedition \"1\"\nfinished 6 in\nfabric sea \"Sea\" #6b9db8\nfabric sky \"Sky\" #a9cbe0\n\
    block quay 8 x 8 {\n  seam level 4 // the tide\n  patch sky around 4, 2\n  patch sea around 4, 6\n}\n";

#[test]
fn a_plan_is_told_drawn_and_written_into_its_source() {
    let desk = Desk::new();
    fs::write(desk.path("quay.piece"), PATCHES).expect("writes");
    let told = desk.run(&["plan", "quay.piece", "--figures", "plan"]);
    assert_eq!(told.code, Some(0));
    assert!(told.out.starts_with("block quay: 1 paper\n"), "{}", told.out);
    assert!(desk.text("plan/quay.svg").contains("</svg>"));
    assert_eq!(desk.text("quay.piece"), PATCHES, "nothing is written that was not asked for");
    let json = desk.run(&["plan", "quay.piece", "--format", "json"]).out;
    let plan: serde_json::Value = serde_json::from_str(&json).expect("one object a line");
    assert_eq!((&plan["proved"]["papers"], &plan["proved"]["match_points"]), (&true.into(), &true.into()));
    assert_eq!((&plan["wishes"][0]["wish"], &plan["wishes"][0]["cost"]), (&"papers".into(), &1.into()));
    assert_eq!(desk.run(&["plan", "quay.piece", "--write"]).code, Some(0));
    let written = desk.text("quay.piece");
    assert!(written.contains("  unit paper-1 {\n") && written.contains("// the tide") && !written.contains("patch"));
    // A second time there is nothing to write, and nothing is.
    let again = desk.run(&["plan", "quay.piece", "--write"]);
    assert!(again.code == Some(0) && again.err.contains("nothing is written"), "{}", again.err);
    assert_eq!(desk.text("quay.piece"), written);
    // Standard input has no place to be written to.
    assert_eq!(desk.run(&["plan", "-", "--write"]).code, Some(2));
}

#[test]
fn cloth_that_is_there_is_told_in_the_words_of_a_source() {
    let desk = with_pattern();
    desk.put("mine.txt", "// from the chest\nhave 1/2 yd slaet\nfabric more \"More\" #ffffff\n");
    let plain = ["build", "gull.piece", "--format", "plain"];
    let with = |more: &[&str]| desk.run(&[&plain[..], more].concat());
    let bad = with(&["--have", "3 fat-quater dusk", "--have", "1 yd moss", "--stash", "mine.txt"]);
    assert_eq!(bad.code, Some(1), "{}", bad.err);
    for words in [
        "--have, line 1, column 8, at \"fat-quater\"",
        "did you mean `fat-quarter`?",
        "there is no fabric `moss`",
        "the fabrics of this pattern are `dusk`",
        "--stash mine.txt, line 2, column 13, at \"slaet\"",
        "--stash mine.txt, line 3",
        "here stands only cloth that you have",
    ] {
        assert!(bad.err.contains(words), "{words}: {}", bad.err);
    }
    assert!(!desk.path("gull").exists());
    desk.put("mine.txt", "have 1/2 yd dusk // from the chest\n\nhave 10 in x 12 in glow\n");
    let good = with(&["--have", "3 fat-quarters glow", "--stash", "mine.txt"]);
    assert_eq!(good.code, Some(0), "{}", good.err);
    let none = with(&["--stash", "none.txt"]);
    assert_eq!(none.code, Some(2));
    assert!(none.err.contains("there is no file `none.txt`"), "{}", none.err);
}

#[test]
fn a_class_cuts_for_everybody() {
    let desk = with_pattern();
    let build = |people: &str| desk.run(&["build", "gull.piece", "--format", "plain", "--class", people]);
    assert_eq!(build("1").code, Some(0));
    let alone = desk.text("gull/model.json");
    assert_eq!(build("12").code, Some(0));
    assert_ne!(alone, desk.text("gull/model.json"), "twelve people cut more");
    for many in ["0", "1001"] {
        let refused = build(many);
        assert_eq!(refused.code, Some(1));
        assert!(refused.err.contains("--class"), "{}", refused.err);
    }
    desk.change(
        "gull.piece",
        "\nblock ",
        "\nblock most 2 x 2 {\n  copies 10000\n  unit x {\n    1 dusk around 1, 1\n  }\n}\nblock ",
    );
    let refused = build("900");
    assert_eq!(refused.code, Some(1), "{}", refused.err);
    assert!(refused.err.contains("for a class of 900 people this pattern comes to 90"), "{}", refused.err);
}

#[test]
fn sheets_are_wished_for_and_kept() {
    let desk = with_pattern();
    let plain = ["build", "gull.piece", "--format", "plain"];
    let with = |more: &[&str]| desk.run(&[&plain[..], more].concat());
    let bad = with(&["--sheets", "on tabloit, blocks-apart"]);
    assert_eq!(bad.code, Some(1), "{}", bad.err);
    assert!(bad.err.contains("--sheets, line 1, column 11, at \"tabloit\""), "{}", bad.err);
    let more = with(&["--sheets", "blocks-apart\nallow short-seam"]);
    assert_eq!(more.code, Some(1), "{}", more.err);
    assert!(more.err.contains("here stand only wishes for the sheets"), "{}", more.err);
    assert!(!desk.path("gull").exists());
    let good = with(&["--sheets", "on tabloid, margin 1/4 in"]);
    assert_eq!(good.code, Some(0), "{}", good.err);
    assert!(good.out.contains("foundations: 1 sheet (as few as can be)\n"), "{}", good.out);
    let model: serde_json::Value = serde_json::from_str(&desk.text("gull/model.json")).expect("JSON");
    assert_eq!(model["sheets"][0]["paper"]["name"], "tabloid");
    assert_eq!(model["sheets"][0]["paper"]["margin"], 0.25);

    let again = with(&["--sheets", "on tabloid, margin 1/4 in", "--since", "gull", "-o", "gull-again"]);
    assert_eq!(again.code, Some(0), "{}", again.err);
    let count = model["sheets"][0]["foundations"].as_array().expect("foundations").len();
    assert!(again.out.contains(&format!("; {count} of {count} papers lie where they lay\n")), "{}", again.out);
    let none = with(&["--since", "nowhere"]);
    assert_eq!(none.code, Some(2));
    assert!(none.err.contains("there is no `model.json` in `nowhere`"), "{}", none.err);
    desk.put("old/model.json", "{\"sheets\": 3}");
    let unfit = with(&["--since", "old"]);
    assert_eq!(unfit.code, Some(2));
    assert!(unfit.err.contains("tells of no sheets"), "{}", unfit.err);
    assert!(unfit.err.contains("build that packet again"), "{}", unfit.err);
}
