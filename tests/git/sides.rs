//! Comparisons of revisions from outside. What is read of them is tested beside the code that reads it; here it goes the whole way.

use super::desk::{Desk, PATTERN};

/// A repository in which a pattern, then the palette of another changed, with what is staged and what lies there changed once more.
fn history() -> Desk {
    let desk = Desk::installed();
    desk.put_pattern("sea birds/m\u{f6}we.piece");
    desk.commit("two");
    desk.change("sea birds/palette.piece", "#2f3e5c", "#2f3e5d");
    desk.change("gull.piece", "beyond level 14", "beyond level 15");
    desk.commit("three");
    desk
}

#[test]
fn revisions_are_compared_with_the_shared_files_of_their_time() {
    let desk = history();
    let sea = "sea birds/m\u{f6}we.piece";
    let same = desk.piecewright(&["diff", &format!("HEAD:{sea}"), sea]);
    assert_eq!(same.code, Some(0), "{}{}", same.out, same.err);
    // The pattern itself did not change, but its palette did.
    let changed = desk.piecewright(&["diff", &format!("HEAD~1:{sea}"), sea]);
    assert_eq!(changed.code, Some(1), "{}{}", changed.out, changed.err);
    let here = desk.run_in("sea birds", &["diff", "HEAD~1:./m\u{f6}we.piece", ":./m\u{f6}we.piece"]);
    assert_eq!(here.code, Some(1), "{}{}", here.out, here.err);
    for (old, new, code) in [("HEAD:", ".", 0), ("HEAD~1:", "HEAD:", 1), ("HEAD~1:", ":", 1), (":", ".", 0)] {
        let ran = desk.piecewright(&["diff", old, new]);
        assert_eq!(ran.code, Some(code), "{old} {new}: {}{}", ran.out, ran.err);
    }
    let ran = desk.piecewright(&["diff", "/dev/null", "HEAD:gull.piece"]);
    assert_eq!(ran.code, Some(1), "{}{}", ran.out, ran.err);
}

#[test]
fn what_is_neither_file_nor_revision_is_told() {
    let desk = history();
    for (side, told) in [
        ("--output=x:gull.piece", "there is no revision `--output=x`"),
        ("nowhere:gull.piece", "there is no revision `nowhere`"),
        ("HEAD:none.piece", "there is no `none.piece` in `HEAD`"),
        ("none.piece", "there is no file or folder `none.piece`"),
        ("HEAD", "`HEAD:`"),
    ] {
        let ran = desk.piecewright(&["diff", "--", side, "gull.piece"]);
        assert_eq!(ran.code, Some(2), "{side}");
        assert!(ran.err.contains(told) && ran.err.contains("help: "), "{side}: {}", ran.err);
    }
    assert!(!desk.path("x").exists());
    let ran = desk.run_in("sea birds", &["diff", "HEAD:m\u{f6}we.piece", "m\u{f6}we.piece"]);
    assert!(ran.err.contains("`HEAD:./m\u{f6}we.piece`"), "{}", ran.err);
}

#[test]
fn the_script_of_the_ci_tells_what_changed() {
    let desk = history();
    assert_eq!(desk.piecewright(&["git", "install", "--ci", "ci/changes"]).code, Some(0));
    let ran = desk.program("sh", &["ci/changes", "HEAD~1", "out.md"]);
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""));
    let told = desk.text("out.md");
    assert!(told.contains("gull") && told.contains("m\u{f6}we"), "{told}");
    assert!(!desk.path("out.md.unfinished").exists());
    let ran = desk.program("sh", &["ci/changes", "HEAD~1"]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), told.as_str()));
    assert_eq!(desk.program("sh", &["ci/changes", "HEAD"]).code, Some(0), "nothing changed, and that is well");
}

#[test]
fn git_diff_tells_by_consequence() {
    let desk = Desk::installed();
    desk.put("gull.piece", PATTERN.replace("beyond level 14", "beyond level 15"));
    let shown = desk.git(&["diff"]);
    assert!(shown.starts_with("diff --git a/gull.piece b/gull.piece\n"), "{shown}");
    assert!(!shown.contains("@@"), "no line by line where both compile: {shown}");
}
