//! `piecewright git` with the real git: what `install` writes and `remove` takes out, what git shows from then on, and what the hook lets through.

#![expect(clippy::expect_used, reason = "a test that cannot go on fails")]

mod desk;
mod driver;
mod sides;
mod staged;

use std::fs;

use desk::{Desk, FOREIGN_HOOK};

#[test]
fn what_is_installed_is_told_and_doing_it_twice_is_doing_it_once() {
    let desk = Desk::new();
    let first = desk.piecewright(&["git", "install", "--ci", "ci/pattern changes", "--project", "."]);
    assert_eq!((first.code, first.err.as_str()), (Some(0), ""));
    for told in [
        "set diff.piecewright.xfuncname\n",
        "set diff.piecewright.command\n",
        "set difftool.piecewright.cmd\n",
        "set piecewright.project to ./\n",
        "wrote .gitattributes: *.piece diff=piecewright\n",
        "wrote .git/hooks/pre-commit\n",
        "wrote ci/pattern changes\n",
    ] {
        assert!(first.out.contains(told), "{told:?} in {}", first.out);
    }
    let after = desk.everything();
    let again = desk.piecewright(&["git", "install", "--ci", "ci/pattern changes", "--project", "."]);
    assert_eq!((again.code, again.out.as_str(), again.err.as_str()), (Some(0), "all is set up already\n", ""));
    assert_eq!(desk.everything(), after);
    assert_eq!(desk.git(&["check-attr", "diff", "a/b.piece"]), "a/b.piece: diff: piecewright\n");
}

#[test]
fn removing_restores_every_byte() {
    for attributes in [None, Some("*.png binary\n"), Some("*.png binary"), Some("a text\r\nb text\r\n")] {
        let desk = Desk::new();
        if let Some(attributes) = attributes {
            desk.put(".gitattributes", attributes);
        }
        // Settings of one's own share the sections.
        desk.git(&["config", "diff.piecewright.cachetextconv", "true"]);
        let before = desk.everything();
        assert_eq!(desk.piecewright(&["git", "install", "--ci", "ci/changes", "--project", "sea"]).code, Some(0));
        assert_ne!(desk.everything(), before);
        let removed = desk.piecewright(&["git", "remove"]);
        assert_eq!((removed.code, removed.err.as_str()), (Some(0), ""), "{}", removed.out);
        assert_eq!(desk.everything(), before, "{attributes:?}");
        assert_eq!(desk.piecewright(&["git", "remove"]).out, "there is nothing to remove\n");
    }
}

#[test]
fn it_is_installed_from_any_folder_but_only_in_a_repository() {
    let desk = Desk::new();
    desk.put("sea birds/x", "");
    let ran = desk.run_in("sea birds", &["git", "install", "--ci", "changes"]);
    assert_eq!(ran.code, Some(0), "{}", ran.err);
    assert!(desk.path(".gitattributes").exists() && desk.path(".git/hooks/pre-commit").exists());
    assert!(ran.out.contains("wrote sea birds/changes\n"), "{}", ran.out);
    assert_eq!(desk.run_in("sea birds", &["git", "remove"]).code, Some(0));
    assert!(!desk.path("sea birds/changes").exists());

    let nowhere = Desk::without_repository();
    for task in ["install", "remove", "staged"] {
        let ran = nowhere.piecewright(&["git", task]);
        assert_eq!(ran.code, Some(2), "{task}");
        assert!(ran.err.contains("there is no repository here") && ran.err.contains("help: "), "{}", ran.err);
    }
    assert_eq!(nowhere.everything().len(), 0);
}

#[test]
fn without_git_or_without_the_program_in_path_it_is_said() {
    let desk = Desk::new();
    let ran = desk.run_with_path("", &["git", "install"]);
    assert_eq!(ran.code, Some(2));
    assert!(ran.err.contains("git is not installed"), "{}", ran.err);
    let gits = desk.folder_of_git();
    let ran = desk.run_with_path(&gits, &["git", "install"]);
    assert_eq!(ran.code, Some(0), "{}", ran.err);
    assert!(ran.err.contains("piecewright is not found in PATH"), "{}", ran.err);
    // The hook does not pass in silence what nobody has checked.
    desk.put_pattern("gull.piece");
    let commit = desk.git_with_path(&gits, &["commit", "--quiet", "--message", "x"]);
    assert_ne!(commit.code, Some(0));
    assert!(commit.err.contains("piecewright is not in PATH") && commit.err.contains("--no-verify"), "{}", commit.err);
}

#[test]
fn a_hook_of_other_making_is_left_alone() {
    let desk = Desk::new();
    desk.put(".git/hooks/pre-commit", FOREIGN_HOOK);
    let ran = desk.piecewright(&["git", "install"]);
    assert_eq!(ran.code, Some(2));
    assert!(ran.err.contains("`.git/hooks/pre-commit` is a hook of other making"), "{}", ran.err);
    assert!(ran.err.contains("`piecewright git staged || exit 1`"), "{}", ran.err);
    assert!(ran.out.contains("wrote .gitattributes"), "all else is done: {}", ran.out);
    assert_eq!(desk.text(".git/hooks/pre-commit"), FOREIGN_HOOK);
    assert_eq!(desk.piecewright(&["git", "install", "--no-hook"]).code, Some(0));
    // One that calls the check is as good.
    let with_call = format!("{FOREIGN_HOOK}piecewright git staged || exit 1\n");
    desk.put(".git/hooks/pre-commit", &with_call);
    assert_eq!(desk.piecewright(&["git", "install"]).out, "all is set up already\n");
    let removed = desk.piecewright(&["git", "remove"]);
    assert_eq!(removed.code, Some(2));
    assert!(removed.err.contains("pre-commit` is not as it was written"), "{}", removed.err);
    assert_eq!(desk.text(".git/hooks/pre-commit"), with_call);
    desk.put(".git/hooks/pre-commit", b"\xff\xfe");
    assert_eq!(desk.piecewright(&["git", "remove"]).out, "there is nothing to remove\n");
}

#[test]
fn the_folder_of_hooks_is_where_the_configuration_says() {
    let desk = Desk::new();
    desk.git(&["config", "core.hooksPath", "my hooks"]);
    desk.put("sea/x", "");
    let ran = desk.run_in("sea", &["git", "install"]);
    assert!(ran.out.contains("wrote my hooks/pre-commit\n"), "{}{}", ran.out, ran.err);
    assert!(!desk.path(".git/hooks/pre-commit").exists());
    assert_eq!(desk.piecewright(&["git", "remove"]).code, Some(0));
    assert!(!desk.path("my hooks/pre-commit").exists());

    let others = tempfile::tempdir().expect("a folder");
    desk.git(&["config", "core.hooksPath", &others.path().display().to_string()]);
    let ran = desk.piecewright(&["git", "install"]);
    assert_eq!(ran.code, Some(2));
    assert!(ran.err.contains("may be those of others too"), "{}", ran.err);
    assert_eq!(fs::read_dir(others.path()).expect("a folder").count(), 0);
}

#[test]
fn settings_attributes_and_scripts_of_other_making_are_left_alone() {
    let desk = Desk::new();
    desk.git(&["config", "diff.piecewright.command", "mine"]);
    desk.put(".gitattributes", "*.piece diff=plain\n");
    desk.put("changes", "mine");
    let ran = desk.piecewright(&["git", "install", "--ci", "changes"]);
    assert_eq!(ran.code, Some(2));
    for told in ["diff.piecewright.command has another value", "with the value `plain`", "`changes` is there already"] {
        assert!(ran.err.contains(told), "{told:?} in {}", ran.err);
    }
    assert_eq!(desk.git(&["config", "diff.piecewright.command"]), "mine\n");
    assert_eq!(desk.piecewright(&["git", "remove"]).code, Some(2));
    assert_eq!(desk.git(&["config", "diff.piecewright.command"]), "mine\n");
    assert_eq!((desk.text(".gitattributes").as_str(), desk.text("changes").as_str()), ("*.piece diff=plain\n", "mine"));
    // What covers patterns already is enough.
    let covered = Desk::new();
    covered.put(".git/info/attributes", "*.piece diff=piecewright\n");
    assert_eq!(covered.piecewright(&["git", "install"]).code, Some(0));
    assert!(!covered.path(".gitattributes").exists());
    // A script that was changed since is somebody's.
    let ran = covered.piecewright(&["git", "install", "--ci", "ci.sh"]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), "wrote ci.sh\nset piecewright.ci\n"));
    covered.put("ci.sh", "changed");
    let removed = covered.piecewright(&["git", "remove"]);
    assert!(removed.err.contains("`ci.sh` is not as it was written"), "{}", removed.err);
    assert_eq!(covered.text("ci.sh"), "changed");
    for unfit in ["-", "sea/..", "."] {
        assert_eq!(covered.piecewright(&["git", "install", "--ci", unfit]).code, Some(2), "{unfit}");
    }
}

#[test]
fn the_scripts_are_plain_shell() {
    let desk = Desk::new();
    assert_eq!(desk.piecewright(&["git", "install", "--ci", "changes"]).code, Some(0));
    for script in ["changes", ".git/hooks/pre-commit"] {
        let ran = desk.program("sh", &["-n", script]);
        assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{script}");
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            let mode = fs::metadata(desk.path(script)).expect("is there").permissions().mode();
            assert_eq!(mode & 0o100, 0o100, "{script} can be run");
        }
    }
    // What is wrong with its arguments it says before it calls anything.
    for (arguments, told) in [
        (&["changes"][..], "name the revision"),
        (&["changes", ""], "name the revision"),
        (&["changes", "a", "b", "c"], "name the revision"),
        (&["changes", "nowhere"], "there is no revision nowhere"),
        (&["changes", "--output=x"], "there is no revision --output=x"),
        (&["changes", "-x"], "there is no revision -x"),
    ] {
        let ran = desk.program("sh", arguments);
        assert_eq!(ran.code, Some(2), "{arguments:?}");
        assert!(ran.err.contains(told), "{arguments:?}: {}", ran.err);
    }
    assert!(!desk.path("x").exists());
}

#[cfg(unix)]
#[test]
fn the_script_of_the_ci_asks_for_the_right_thing_and_writes_it_whole() {
    use std::os::unix::fs::PermissionsExt;
    let desk = Desk::installed();
    desk.put("sea birds/x", "");
    assert_eq!(desk.piecewright(&["git", "install", "--ci", "changes"]).code, Some(0));
    // One that takes the place of the comparison: it repeats what it was asked for, and where.
    let answer = |code: u8| {
        let stub = format!("#!/bin/sh\nprintf '%s|' \"$@\"\nls changes\nexit {code}\n");
        desk.put("bin/piecewright", stub);
        let mode = fs::Permissions::from_mode(0o755);
        fs::set_permissions(desk.path("bin/piecewright"), mode).expect("can be run");
    };
    let told = "diff|--format|markdown|--|HEAD~0:|.|changes\n";
    for code in [0, 1] {
        answer(code);
        let ran = desk.program_before("bin", "sh", &["../changes", "HEAD~0"]);
        assert_eq!((ran.code, ran.out.as_str(), ran.err.as_str()), (Some(0), told, ""));
        let ran = desk.program_before("bin", "sh", &["../changes", "HEAD~0", "out put.md"]);
        assert_eq!((ran.code, ran.out.as_str(), ran.err.as_str()), (Some(0), "", ""));
        assert_eq!(desk.text("sea birds/out put.md"), told);
    }
    // What could be told of some patterns is worth reading, even if others are broken.
    answer(2);
    let ran = desk.program_before("bin", "sh", &["../changes", "HEAD~0", "out put.md"]);
    assert_eq!((ran.code, desk.text("sea birds/out put.md").as_str()), (Some(2), told));
    assert!(ran.err.contains("not all patterns could be compared"), "{}", ran.err);
    desk.put("bin/piecewright", "#!/bin/sh\nexit 2\n");
    desk.put("sea birds/out put.md", "before");
    let ran = desk.program_before("bin", "sh", &["../changes", "HEAD~0", "out put.md"]);
    assert_eq!(ran.code, Some(2));
    assert!(ran.err.contains("the patterns could not be compared"), "{}", ran.err);
    assert_eq!(desk.text("sea birds/out put.md"), "before");
    assert_eq!(fs::read_dir(desk.path("sea birds")).expect("a folder").count(), 2, "nothing half written");
}
