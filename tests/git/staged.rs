//! What the hook before a commit refuses, and what it lets through.

use super::desk::{Desk, PATTERN};

const LOOSE: &str = "point rim   5, 6";
const LOOSENED: &str = "point rim 5,  6";

#[test]
fn a_broken_staged_source_is_refused_even_if_the_folder_has_a_good_one() {
    let desk = Desk::installed();
    desk.change("gull.piece", "finished 8 in", "finished 8,5 in");
    desk.git(&["add", "gull.piece"]);
    desk.put("gull.piece", PATTERN);
    let commit = desk.try_git(&["commit", "--message", "two"]);
    assert_eq!(commit.code, Some(1));
    assert!(commit.err.contains("error[decimal-comma]") && commit.err.contains(":gull.piece:4:"), "{}", commit.err);
    assert!(commit.err.contains("put the errors right, then `git add`"), "{}", commit.err);
    assert_eq!(desk.git(&["log", "--format=%s"]), "one\n");
    // The other way round, what lies in the folder does not matter.
    desk.change("gull.piece", "beyond level 14", "beyond level 15");
    desk.git(&["add", "gull.piece"]);
    desk.put("gull.piece", "pattern of nothing {");
    let commit = desk.try_git(&["commit", "--message", "two"]);
    assert_eq!(commit.code, Some(0), "{}", commit.err);
    assert!(commit.err.contains("1 source looked at, ready to commit\n"), "{}", commit.err);
}

#[test]
fn a_source_that_is_not_laid_out_is_refused_with_the_cure() {
    let desk = Desk::installed();
    desk.put("sea birds/it's.piece", PATTERN.replace(LOOSE, LOOSENED));
    desk.put("sea birds/palette.piece", super::desk::PALETTE.replace("  \"", " \""));
    desk.git(&["add", "--all"]);
    let ran = desk.run_in("sea birds", &["git", "staged"]);
    assert_eq!(ran.code, Some(1));
    assert_eq!(ran.out, "not laid out:\n:sea birds/it's.piece\n:sea birds/palette.piece\n");
    let cure = r"piecewright fmt 'it'\''s.piece' palette.piece && git add 'it'\''s.piece' palette.piece";
    assert!(ran.err.contains(cure), "{}", ran.err);
    // The cure cures.
    assert_eq!(desk.program("sh", &["-c", &format!("cd 'sea birds' && {cure}")]).code, Some(0));
    let ran = desk.run_in("sea birds", &["git", "staged"]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), ""), "{}", ran.err);
    assert_eq!(desk.try_git(&["commit", "--quiet", "--message", "two"]).code, Some(0));
}

#[test]
fn a_staged_shared_file_concerns_the_patterns_that_use_it() {
    let desk = Desk::installed();
    desk.put("other.piece", PATTERN.replace("palette.piece", "own.piece"));
    desk.put("own.piece", super::desk::PALETTE);
    desk.put("old.piece", "pattern \"Broken, and not of this commit\"\n");
    desk.git(&["add", "--all"]);
    desk.git(&["commit", "--quiet", "--no-verify", "--message", "two"]);
    desk.change("palette.piece", "fabric slate", "fabric stone");
    desk.git(&["add", "palette.piece"]);
    let ran = desk.piecewright(&["git", "staged", "--format", "concise"]);
    assert_eq!(ran.code, Some(1));
    assert!(ran.out.lines().all(|line| line.starts_with(":gull.piece:")), "{}", ran.out);
    assert!(ran.out.contains("slate"), "{}", ran.out);
    // One that is gone is missed.
    desk.git(&["reset", "--quiet", "--hard"]);
    desk.git(&["rm", "--quiet", "--cached", "own.piece"]);
    let ran = desk.piecewright(&["git", "staged", "--format", "concise"]);
    assert_eq!(ran.code, Some(1));
    assert!(ran.out.contains(":other.piece:") && ran.out.contains("error[use-not-found]"), "{}", ran.out);
    // With its users gone too, nobody misses it.
    desk.git(&["rm", "--quiet", "other.piece"]);
    assert_eq!(desk.piecewright(&["git", "staged"]).code, Some(0));
}

#[test]
fn a_fault_of_a_shared_file_is_told_once() {
    let desk = Desk::installed();
    for name in ["sea birds/gull.piece", "sea birds/tern.piece"] {
        desk.put_pattern(name);
    }
    desk.put_pattern("tern.piece");
    desk.commit("two");
    for folder in ["", "sea birds/"] {
        desk.change(&format!("{folder}palette.piece"), "#2f3e5c", "#2f3e5");
    }
    desk.git(&["add", "--all"]);
    let ran = desk.piecewright(&["git", "staged", "--format", "concise"]);
    assert_eq!(ran.code, Some(1));
    for palette in [":palette.piece:1:", ":sea birds/palette.piece:1:"] {
        assert_eq!(ran.out.lines().filter(|line| line.starts_with(palette)).count(), 1, "{}", ran.out);
    }
    let lines: Vec<&str> = ran.out.lines().collect();
    assert!(lines.iter().all(|line| lines.iter().filter(|other| other == &line).count() == 1), "{}", ran.out);
}

#[test]
fn all_faults_are_shown_before_a_commit() {
    let desk = Desk::installed();
    let many: Vec<String> = (0..30).map(|n| format!("fabric odd{n} \"Odd\" #12345\n")).collect();
    desk.put("odd.piece", many.concat());
    desk.git(&["add", "odd.piece"]);
    let ran = desk.piecewright(&["git", "staged"]);
    assert_eq!(ran.code, Some(1));
    assert!(ran.out.matches("error[").count() >= 30 && !ran.err.contains("--most"), "{}{}", ran.out, ran.err);
    let ran = desk.piecewright(&["git", "staged", "--most", "2"]);
    assert_eq!(ran.out.matches("error[").count(), 2, "{}", ran.out);
}

#[test]
fn a_staged_picture_concerns_the_patterns_that_show_it() {
    let desk = Desk::installed();
    desk.change("gull.piece", "finished 8 in\n", "finished 8 in\nlogo     \"sign.svg\" \"A gull\"\n");
    desk.put("sign.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\"><path d=\"M0 0h9v9z\"/></svg>");
    desk.git(&["add", "--all"]);
    let ran = desk.piecewright(&["git", "staged"]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), ""), "{}", ran.err);
    desk.commit("two");
    desk.put("sign.svg", "no picture");
    desk.git(&["add", "sign.svg"]);
    let ran = desk.piecewright(&["git", "staged"]);
    assert_eq!(ran.code, Some(1), "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("sign.svg"), "{}", ran.out);
}

#[test]
fn the_projects_folder_is_minded() {
    let desk = Desk::installed();
    desk.put("sea birds/gull.piece", PATTERN);
    desk.git(&["add", "--all"]);
    assert_eq!(desk.piecewright(&["git", "staged"]).code, Some(1), "there is no palette in the folder");
    assert_eq!(desk.piecewright(&["git", "staged", "--project", "."]).code, Some(0));
    assert_eq!(desk.run_in("sea birds", &["git", "staged", "--project", ".."]).code, Some(0));
    assert_eq!(desk.piecewright(&["git", "install", "--project", "."]).code, Some(0));
    let commit = desk.try_git(&["commit", "--quiet", "--message", "two"]);
    assert_eq!(commit.code, Some(0), "{}", commit.err);
}

#[test]
fn commits_without_sources_are_not_held_up() {
    let desk = Desk::installed();
    desk.put("notes.txt", "tide tables\n");
    desk.put("draft.piece", "");
    desk.git(&["add", "notes.txt"]);
    desk.git(&["add", "--intent-to-add", "draft.piece"]);
    let ran = desk.piecewright(&["git", "staged"]);
    assert_eq!((ran.code, ran.out.as_str(), ran.err.as_str()), (Some(0), "", ""));
    assert_eq!(desk.try_git(&["commit", "--quiet", "--message", "two"]).code, Some(0));
    assert_eq!(desk.piecewright(&["git", "staged"]).code, Some(0));
}

#[test]
fn any_staged_bytes_are_looked_at() {
    let desk = Desk::installed();
    desk.put("bad.piece", b"pattern \"M\xf6we\"\n");
    desk.put("empty.piece", "");
    desk.put("zero.piece", b"pattern\0\xe2\x80\xa8{}\r\r{");
    desk.git(&["add", "--all"]);
    let ran = desk.piecewright(&["git", "staged", "--format", "json"]);
    assert_eq!(ran.code, Some(1));
    for told in ["not-text", "empty-source", ":zero.piece"] {
        assert!(ran.out.contains(told), "{told} in {}", ran.out);
    }
    assert!(ran.out.lines().all(|line| line.starts_with('{')), "{}", ran.out);
    assert_eq!(ran.err, "");
}

#[test]
fn a_commit_of_named_files_is_looked_at_as_it_will_be() {
    let desk = Desk::installed();
    desk.change("gull.piece", "finished 8 in", "finished 8,5 in");
    desk.git(&["add", "gull.piece"]);
    desk.put("notes.txt", "tide tables\n");
    desk.git(&["add", "notes.txt"]);
    // git makes an index of its own for this commit, without the broken source.
    let commit = desk.try_git(&["commit", "--quiet", "--message", "two", "--", "notes.txt"]);
    assert_eq!(commit.code, Some(0), "{}", commit.err);
    assert_eq!(desk.try_git(&["commit", "--quiet", "--all", "--message", "three"]).code, Some(1));
}
