//! What `git diff`, `git log -p` and `git difftool` show of patterns.

use super::desk::{Desk, PALETTE, PATTERN};

#[test]
fn hunks_name_the_block_and_the_unit() {
    let desk = Desk::installed();
    desk.change("gull.piece", "2 slate beyond level 3\n", "2 slate beyond level 2\n");
    desk.change("gull.piece", "beyond level 14", "beyond level 15");
    desk.change("gull.piece", "point rim   5, 6", "point rim   4, 6");
    let shown = desk.git(&["diff", "--no-ext-diff", "--unified=0"]);
    let heads: Vec<&str> = shown.lines().filter(|line| line.starts_with("@@")).collect();
    let names: Vec<&str> = heads.iter().filter_map(|line| line.splitn(3, "@@").nth(2)).map(str::trim).collect();
    assert_eq!(names, ["block light 16 x 16", "unit lamp", "unit tower"], "{shown}");
}

#[test]
fn what_names_a_paper_or_joins_is_no_unit() {
    let desk = Desk::installed();
    let block = "pattern \"A\"\nblock a 16 x 16 {\n  seam 0, 0 -- 16, 16\n  unit low around 1, 9\n\n\n  patch sky around 1, 2\n\
                 }\n\nblock b 16x16\n{\n\tunit u{\n1 sky around 1, 1\n}\n\n\n\n  join u v pressed open\n\n\n\n  join w x\n}\n";
    desk.put("b.piece", block);
    desk.commit("two");
    for (old, new, head) in [
        ("patch sky around 1, 2", "patch sky around 2, 2", "block a 16 x 16"),
        ("1 sky around 1, 1", "1 sky around 2, 1", "unit u"),
        ("join w x", "join w y", "join u v pressed open"),
        ("block a 16", "block a 18", "pattern \"A\""),
    ] {
        desk.put("b.piece", block);
        desk.change("b.piece", old, new);
        let shown = desk.git(&["diff", "--no-ext-diff", "--unified=0"]);
        let line = shown.lines().find(|line| line.starts_with("@@")).unwrap_or_default();
        assert!(line.ends_with(&format!("@@ {head}")), "{old}: {line}");
    }
}

#[test]
fn a_broken_side_is_told_and_shown_line_by_line() {
    let desk = Desk::installed();
    desk.change("gull.piece", "finished 8 in", "finished 8,5 in");
    let shown = desk.git(&["diff"]);
    assert!(shown.starts_with("diff --git a/gull.piece b/gull.piece\n"), "{shown}");
    assert!(shown.contains("error[decimal-comma]") && shown.contains("b/gull.piece:4:"), "{shown}");
    assert!(shown.contains("--- a/gull.piece\n+++ b/gull.piece\n"), "{shown}");
    assert!(shown.contains("-finished 8 in\n+finished 8,5 in\n"), "{shown}");
    // The other way round the fault is in the old side.
    desk.commit("two");
    desk.put("gull.piece", PATTERN);
    let shown = desk.git(&["diff"]);
    assert!(shown.contains("a/gull.piece:4:") && shown.contains("+finished 8 in\n"), "{shown}");
}

#[test]
fn files_come_go_move_and_change_their_mode() {
    let desk = Desk::installed();
    desk.put("sea birds/m\u{f6}we.piece", PATTERN);
    desk.put("sea birds/palette.piece", PALETTE);
    desk.git(&["add", "--all"]);
    let shown = desk.git(&["diff", "--cached"]);
    let head = "diff --git a/sea birds/m\u{f6}we.piece b/sea birds/m\u{f6}we.piece\nnew file mode 100644\n";
    assert!(shown.contains(head), "{shown}");
    assert!(shown.contains("Harbour Light: this pattern is new\n"), "{shown}");
    assert!(
        shown.contains("--- /dev/null\n+++ b/sea birds/palette.piece\n"),
        "a palette is shown by its lines: {shown}"
    );
    assert!(!shown.contains("error["), "{shown}");
    desk.commit("two");

    desk.git(&["rm", "--quiet", "gull.piece"]);
    let shown = desk.git(&["diff", "--cached"]);
    assert!(shown.contains("deleted file mode 100644\nHarbour Light: this pattern is gone\n"), "{shown}");
    desk.git(&["reset", "--quiet", "--hard"]);

    desk.git(&["mv", "gull.piece", "tern.piece"]);
    desk.change("tern.piece", "Harbour Light", "Harbour Lights");
    desk.git(&["add", "--all"]);
    let shown = desk.git(&["diff", "--cached", "--find-renames"]);
    assert!(shown.contains("diff --git a/gull.piece b/tern.piece\n"), "{shown}");
    assert!(shown.contains("rename from gull.piece\nrename to tern.piece\n"), "{shown}");
    desk.git(&["reset", "--quiet", "--hard"]);

    desk.git(&["update-index", "--chmod=+x", "gull.piece"]);
    let shown = desk.git(&["diff", "--cached"]);
    assert_eq!(shown, "diff --git a/gull.piece b/gull.piece\nold mode 100644\nnew mode 100755\n");
}

#[test]
fn what_is_no_pattern_is_shown_line_by_line() {
    let desk = Desk::installed();
    desk.change("palette.piece", "#2f3e5c", "#2f3e5d");
    let shown = desk.git(&["diff"]);
    assert!(!shown.contains("error["), "a palette is no broken pattern: {shown}");
    assert!(shown.contains("+fabric dusk  \"Dusk sky\"   #2f3e5d\n"), "{shown}");
    desk.commit("two");
    // Any bytes, and any length, leave git's list whole.
    let bytes: Vec<u8> = (0..=255).cycle().take(5000).collect();
    let many = "pattern\n".repeat(20_000);
    for bad in [&b""[..], &bytes, b"pattern \xff\xfe\0{", many.as_bytes()] {
        desk.put("gull.piece", bad);
        desk.put("zz.txt", "last\n");
        desk.git(&["add", "--intent-to-add", "zz.txt"]);
        let ran = desk.try_git(&["diff"]);
        assert_eq!(ran.code, Some(0), "{}", ran.err);
        assert!(ran.out.starts_with("diff --git a/gull.piece") && ran.out.ends_with("+last\n"), "{}", ran.out);
    }
}

#[cfg(unix)]
#[test]
fn a_link_is_not_compiled() {
    let desk = Desk::installed();
    std::fs::remove_file(desk.path("gull.piece")).expect("removes");
    std::os::unix::fs::symlink("palette.piece", desk.path("gull.piece")).expect("links");
    let ran = desk.try_git(&["diff"]);
    assert_eq!(ran.code, Some(0));
    assert!(ran.out.contains("+palette.piece\n") && !ran.out.contains("error["), "{}", ran.out);
}

#[test]
fn shared_files_are_those_of_the_folder_or_of_the_project() {
    let desk = Desk::installed();
    desk.put("sea birds/gull.piece", PATTERN);
    desk.commit("two");
    desk.change("sea birds/gull.piece", "Harbour Light", "Harbour Lights");
    let shown = desk.git(&["diff"]);
    assert!(shown.contains("error[use-not-found]"), "there is no palette in the folder: {shown}");
    assert_eq!(desk.piecewright(&["git", "install", "--project", "."]).code, Some(0));
    let shown = desk.git(&["-C", "sea birds", "diff"]);
    assert!(!shown.contains("error["), "{shown}");
}

#[test]
fn history_shows_units_and_asked_for_what_the_driver_tells() {
    let desk = Desk::installed();
    desk.change("gull.piece", "beyond level 14", "beyond level 15");
    desk.commit("two");
    let shown = desk.git(&["log", "-p", "-1"]);
    assert!(shown.lines().any(|line| line.starts_with("@@") && line.ends_with("@@ unit tower")), "{shown}");
    let shown = desk.git(&["log", "-p", "-1", "--ext-diff"]);
    assert!(shown.contains("diff --git a/gull.piece b/gull.piece\n"), "{shown}");
}

#[test]
fn a_file_in_conflict_is_named() {
    let desk = Desk::installed();
    for (branch, grid) in [("left", "8 in"), ("right", "9 in")] {
        desk.git(&["checkout", "--quiet", "-b", branch, "HEAD"]);
        desk.change("gull.piece", "finished 8 in", &format!("finished {grid} // {branch}"));
        desk.git(&["commit", "--quiet", "--all", "--no-verify", "--message", branch]);
        desk.git(&["checkout", "--quiet", "HEAD~1"]);
    }
    desk.git(&["checkout", "--quiet", "left"]);
    assert_ne!(desk.try_git(&["merge", "right"]).code, Some(0));
    let ran = desk.try_git(&["diff", "--cached"]);
    assert_eq!(ran.code, Some(0));
    assert!(ran.out.contains("* Unmerged path gull.piece\n"), "{}", ran.out);
}

#[test]
fn a_tool_is_offered_and_other_tools_still_work() {
    let desk = Desk::installed();
    desk.put("sea/x", "");
    desk.change("gull.piece", "finished 8 in", "finished 8,5 in");
    let shown = desk.git(&["-C", "sea", "difftool", "--no-prompt", "--tool=piecewright"]);
    assert_eq!(shown.matches("diff --git a/gull.piece b/gull.piece\n").count(), 1, "{shown}");
    assert!(shown.contains("error[decimal-comma]") && shown.contains("+finished 8,5 in\n"), "{shown}");
    let other = "difftool.other.cmd=echo other tool: $MERGED";
    let shown = desk.git(&["-c", other, "difftool", "--no-prompt", "--tool=other"]);
    assert_eq!(shown, "other tool: gull.piece\n");
    let ran = desk.try_git(&["difftool", "--dir-diff", "--tool=piecewright"]);
    assert!(ran.err.contains("compared one at a time"), "{}{}", ran.out, ran.err);
}

#[test]
fn called_by_hand_with_odd_words_it_does_not_break() {
    let desk = Desk::installed();
    let ran = desk.piecewright(&["git", "driver"]);
    assert_eq!(ran.code, Some(2));
    assert!(ran.err.contains("git calls this"), "{}", ran.err);
    for arguments in [
        &["a.piece", "b"][..],
        &["--", "--help.piece", "none", "0", "100644", "none", "0", "100644"],
        &["-h.piece", "gull.piece", ".", ".", "/dev/null", ".", "."],
        &["", "", "", "", "", "", ""],
        &["a", "gull.piece", ".", "1", "palette.piece", ".", "2", "b", "rename\u{1b}[31m", "more"],
    ] {
        let ran = desk.piecewright(&[&["git", "driver"], arguments].concat());
        assert_eq!(ran.code, Some(0), "{arguments:?}: {}", ran.err);
        assert!(!ran.out.contains('\u{1b}'), "{}", ran.out);
    }
}
