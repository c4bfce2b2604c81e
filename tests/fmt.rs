//! `piecewright fmt` from outside: what it writes, what it only tells, and how it ends.

#[path = "support/desk.rs"]
mod desk;

use std::fs;
use std::process::Command;

use desk::{Desk, PROGRAM};

/// A source that is not laid out, and the same laid out.
const LOOSE: &str = "pattern \"Gull\"\r\nedition   \"1\" // first\r\n\r\n\r\nfinished 8in";
const LAID: &str = "pattern \"Gull\"\nedition \"1\"  // first\n\nfinished 8 in\n";

#[test]
fn sources_are_written_where_they_stand() {
    let desk = Desk::new();
    desk.put("gull.piece", LOOSE);
    let ran = desk.run(&["fmt", "gull.piece"]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), ""));
    assert_eq!(ran.err, "wrote gull.piece\n1 of 1 source laid out\n");
    assert_eq!(desk.text("gull.piece"), LAID);
    assert_eq!(desk.all(), ["gull.piece"]);
}

#[test]
fn what_is_laid_out_is_not_touched() {
    let desk = Desk::new();
    desk.put("gull.piece", LAID);
    let long_ago = std::time::SystemTime::UNIX_EPOCH + std::time::Duration::from_hours(24);
    let file = fs::File::options().write(true).open(desk.path("gull.piece")).expect("opens");
    file.set_modified(long_ago).expect("sets the time");
    let ran = desk.run(&["fmt", "gull.piece"]);
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), "1 source looked at, nothing to change\n"));
    let modified = fs::metadata(desk.path("gull.piece")).and_then(|data| data.modified()).expect("a time");
    assert_eq!(modified, long_ago);
    assert_eq!(desk.run(&["fmt", "--quiet", "gull.piece"]).err, "");
}

#[test]
fn a_check_names_and_writes_nothing() {
    let desk = Desk::new();
    desk.put("loose.piece", LOOSE);
    desk.put("laid.piece", LAID);
    let ran = desk.run(&["fmt", "--check", "."]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(1), "./loose.piece\n"));
    assert_eq!(ran.err, "1 of 2 sources would change\n");
    assert_eq!(desk.text("loose.piece"), LOOSE);
    let ran = desk.run(&["fmt", "--check", "laid.piece"]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), ""));
    let ran = desk.run(&["fmt", "--check", "--format", "json", "loose.piece"]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(1), "{\"file\":\"loose.piece\",\"laid_out\":false}\n"));
    assert_eq!(ran.err, "");
    let ran = desk.run_with_input(&["fmt", "--check", "-"], LOOSE.as_bytes());
    assert_eq!((ran.code, ran.out.as_str()), (Some(1), "standard input\n"));
}

#[test]
fn a_diff_shows_and_writes_nothing() {
    let desk = Desk::new();
    let loose = "pattern \"Gull\"\nedition \"1\"\nfinished 8 in\nsizes    6 in\n";
    desk.put("gull.piece", loose);
    let ran = desk.run(&["fmt", "--diff", "gull.piece"]);
    assert_eq!(ran.code, Some(1));
    let lines = [
        "--- gull.piece",
        "+++ gull.piece",
        "@@ -1,4 +1,4 @@",
        "-pattern \"Gull\"",
        "-edition \"1\"",
        "+pattern  \"Gull\"",
        "+edition  \"1\"",
        " finished 8 in",
        " sizes    6 in",
    ];
    assert_eq!(ran.out, lines.map(|line| format!("{line}\n")).concat());
    assert_eq!(desk.text("gull.piece"), loose);
    desk.run(&["fmt", "gull.piece"]);
    let ran = desk.run(&["fmt", "--diff", "gull.piece"]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), ""));
}

#[test]
fn standard_input_goes_to_standard_output() {
    let desk = Desk::new();
    let ran = desk.run_with_input(&["fmt", "-"], LOOSE.as_bytes());
    assert_eq!((ran.code, ran.out.as_str(), ran.err.as_str()), (Some(0), LAID, ""));
    // What cannot be laid out goes on as it is.
    let broken = "block   a 2 x 2 {\n";
    let ran = desk.run_with_input(&["fmt", "-", "--format", "concise"], broken.as_bytes());
    assert_eq!((ran.code, ran.out.as_str()), (Some(1), broken));
    let told = "left standard input alone: its braces or quotes do not pair\nstandard input:1:17: error[unclosed]";
    assert!(ran.err.starts_with(told), "{}", ran.err);
    let ran = desk.run_with_input(&["fmt", "-"], b"pattern \"M\xf6we\"\n");
    assert_eq!((ran.code, ran.out.as_str()), (Some(1), ""));
    assert!(ran.err.contains("not-text"), "{}", ran.err);
    assert_eq!(desk.run(&["fmt", "-", "gull.piece"]).code, Some(2));
}

#[test]
fn folders_are_searched() {
    let desk = Desk::new();
    for name in ["sea/gull.piece", "sea/far/tern.piece", "sea/notes.txt", "sea/.old/gull.piece"] {
        desk.put(name, LOOSE);
    }
    let ran = desk.run(&["fmt", "sea", "sea/gull.piece"]);
    assert_eq!(ran.code, Some(0));
    assert_eq!(ran.err, "wrote sea/far/tern.piece\nwrote sea/gull.piece\n2 of 2 sources laid out\n");
    assert_eq!([desk.text("sea/gull.piece"), desk.text("sea/far/tern.piece")], [LAID, LAID]);
    assert_eq!([desk.text("sea/notes.txt"), desk.text("sea/.old/gull.piece")], [LOOSE, LOOSE]);
}

#[test]
fn faults_are_told_and_what_is_broken_stays() {
    let desk = Desk::new();
    desk.put("gull.piece", "pattern \"Gull\"\nblock a 2x2 {\nunti   sail\n}\n");
    let ran = desk.run(&["fmt", "--format", "concise", "gull.piece"]);
    assert_eq!(ran.code, Some(1));
    assert!(ran.err.contains("gull.piece:3:3: error[unknown-word]"), "{}", ran.err);
    assert_eq!(desk.text("gull.piece"), "pattern \"Gull\"\nblock a 2 x 2 {\n  unti   sail\n}\n");
    let unclosed = "pattern   \"Gull\nedition \"1\"\n";
    desk.put("gull.piece", unclosed);
    let ran = desk.run(&["fmt", "--format", "json", "gull.piece"]);
    assert_eq!(ran.code, Some(1));
    assert!(ran.out.contains("\"code\":\"unclosed\""), "{}", ran.out);
    assert_eq!((ran.err.as_str(), desk.text("gull.piece").as_str()), ("", unclosed));
}

#[test]
fn one_trouble_does_not_keep_others_from_being_laid_out() {
    let desk = Desk::new();
    desk.put("gull.piece", LOOSE);
    let ran = desk.run(&["fmt", "none.piece", "gull.piece"]);
    assert_eq!(ran.code, Some(2));
    assert!(ran.err.starts_with("piecewright: there is no file `none.piece`\n"), "{}", ran.err);
    assert_eq!(desk.text("gull.piece"), LAID);
}

#[cfg(unix)]
#[test]
fn permissions_and_links_stay() {
    use std::os::unix::fs::{PermissionsExt, symlink};

    let desk = Desk::new();
    desk.put("store/gull.piece", LOOSE);
    symlink("store/gull.piece", desk.path("link.piece")).expect("links");
    let mode = |name: &str| fs::metadata(desk.path(name)).expect("is there").permissions().mode() & 0o777;
    let set =
        |mode| fs::set_permissions(desk.path("store/gull.piece"), fs::Permissions::from_mode(mode)).expect("sets");
    set(0o640);
    assert_eq!(desk.run(&["fmt", "link.piece"]).code, Some(0));
    assert_eq!((desk.text("store/gull.piece").as_str(), mode("store/gull.piece")), (LAID, 0o640));
    assert!(fs::symlink_metadata(desk.path("link.piece")).expect("is there").is_symlink());
    assert_eq!(fs::read_dir(desk.path("store")).expect("a folder").count(), 1);

    desk.put("store/gull.piece", LOOSE);
    set(0o440);
    let ran = desk.run(&["fmt", "store"]);
    assert_eq!((ran.code, desk.text("store/gull.piece").as_str()), (Some(2), LOOSE));
    assert!(ran.err.contains("`store/gull.piece` may only be read"), "{}", ran.err);
}

#[test]
fn the_pattern_that_new_writes_is_laid_out() {
    let desk = Desk::new();
    let ran = Command::new(PROGRAM).args(["new", "gull"]).current_dir(desk.folder.path()).status().expect("runs");
    assert!(ran.success());
    let ran = desk.run(&["fmt", "--check", "gull.piece"]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), ""));
}
