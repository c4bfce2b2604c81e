//! What is read of revisions and of what is staged, with the real git.

use std::fs;
use std::path::PathBuf;
use std::process::Command;

use piecewright::ReadFault;

use super::*;

const GULL: &str = "pattern \"Gull\"\nuse \"palette.piece\"\n";
const OLD: &str = "fabric sky \"Sky\" #aabbcc\n";
const NEW: &str = "fabric sky \"Evening sky\" #ccbbaa\n";

/// A repository of its own for a test, kept by the real git without what the machine sets up for it.
struct Desk {
    folder: tempfile::TempDir,
}

impl Desk {
    /// A repository with two commits, between which the palette changed; what is staged and what lies there differ once more.
    fn new() -> Self {
        let desk = Self { folder: tempfile::tempdir().expect("a folder") };
        desk.git(&["init", "--quiet"]);
        desk.put("sea birds/gull.piece", GULL);
        desk.put("sea birds/palette.piece", OLD);
        desk.put("sea birds/sign.png", [0x89, 0xff, 0x00, 0xfe]);
        desk.put("sea birds/nest/m\u{f6}we.piece", "pattern \"M\u{f6}we\"\n");
        desk.put(".drafts/tern.piece", "pattern \"Tern\"\n");
        desk.commit("one: first");
        desk.put("sea birds/palette.piece", NEW);
        desk.put("sea birds/tern.piece", "pattern \"Tern\"\n");
        desk.commit("two");
        desk.put("sea birds/gull.piece", "pattern \"Staged\"\n");
        desk.git(&["add", "--all"]);
        desk.put("sea birds/gull.piece", "pattern \"Not staged\"\n");
        desk
    }

    fn put(&self, name: &str, bytes: impl AsRef<[u8]>) {
        let path = self.folder.path().join(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("makes folders");
        fs::write(path, bytes).expect("writes");
    }

    fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new("git");
        command.args(["-c", "user.name=A", "-c", "user.email=a@example.org"]).args(arguments);
        command.current_dir(self.folder.path()).env("HOME", self.folder.path());
        command.env("GIT_CONFIG_GLOBAL", "/dev/null").env("GIT_CONFIG_NOSYSTEM", "1").env_remove("GIT_DIR");
        command
    }

    fn git(&self, arguments: &[&str]) {
        let output = self.command(arguments).output().expect("git is installed");
        assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    }

    fn commit(&self, words: &str) {
        self.git(&["add", "--all"]);
        self.git(&["commit", "--quiet", "--message", words]);
    }

    /// Reads an argument as one who stands in a folder of the repository.
    fn read_in(&self, folder: &str, argument: &str, project: Option<&str>) -> Result<Named, Trouble> {
        let repository = Repository::at(&self.folder.path().join(folder)).expect("a repository");
        match Address::of(argument) {
            Some(address) => read_from(repository, &address, project.map(Path::new)),
            None => Err(no_file(Some(&repository), argument)),
        }
    }

    fn one(&self, argument: &str) -> Side {
        match self.read_in("", argument, None) {
            Ok(Named::One(side)) => side,
            Ok(Named::Folder(_)) => panic!("{argument} is a folder"),
            Err(trouble) => panic!("{argument}: {trouble:?}"),
        }
    }

    fn folder(&self, folder: &str, argument: &str) -> Vec<Side> {
        match self.read_in(folder, argument, None) {
            Ok(Named::Folder(sides)) => sides,
            Ok(Named::One(_)) => panic!("{argument} is a source"),
            Err(trouble) => panic!("{argument}: {trouble:?}"),
        }
    }

    /// What is said of an argument that cannot be read.
    fn refused(&self, folder: &str, argument: &str) -> (String, String) {
        match self.read_in(folder, argument, None) {
            Ok(_) => panic!("{argument} was read"),
            Err(trouble) => (trouble.message, trouble.help.unwrap_or_default()),
        }
    }
}

fn text(side: &Side) -> &str {
    match &side.content {
        Content::Text(text) => text,
        Content::Unfit(_, fault) => panic!("{}", fault.message),
    }
}

fn names(sides: &[Side]) -> Vec<(&str, &str)> {
    sides.iter().map(|side| (side.key.as_str(), side.name.as_str())).collect()
}

#[test]
fn a_source_comes_with_the_shared_files_of_its_revision() {
    let desk = Desk::new();
    let old = desk.one("HEAD~1:sea birds/gull.piece");
    assert_eq!((old.key.as_str(), old.name.as_str()), ("gull.piece", "HEAD~1:sea birds/gull.piece"));
    assert_eq!(old.folder, PathBuf::from("HEAD~1:sea birds"));
    assert_eq!(text(&old), GULL);
    assert_eq!(old.shelf.read("palette.piece").as_deref(), Ok(OLD));
    assert_eq!(old.shelf.read("nest/../palette.piece").as_deref(), Ok(OLD));
    let new = desk.one("HEAD^{/two}:sea birds/gull.piece");
    assert_eq!(new.shelf.read("palette.piece").as_deref(), Ok(NEW));
    let staged = desk.one(":sea birds/gull.piece");
    assert_eq!((staged.name.as_str(), text(&staged)), (":sea birds/gull.piece", "pattern \"Staged\"\n"));
    assert_eq!(staged.shelf.read("palette.piece").as_deref(), Ok(NEW));
    assert_eq!(text(&desk.one(":0:sea birds/gull.piece")), "pattern \"Staged\"\n");
}

#[test]
fn pictures_are_read_to_the_byte_and_limits_are_kept() {
    let desk = Desk::new();
    let side = desk.one("HEAD:sea birds/gull.piece");
    assert_eq!(side.shelf.read_bytes("sign.png", 4), Ok(vec![0x89, 0xff, 0x00, 0xfe]));
    assert_eq!(side.shelf.read_bytes("sign.png", 3), Err(ReadFault::TooLarge));
    // What was not heard to its end does not stand before the next answer.
    assert_eq!(side.shelf.read("palette.piece").as_deref(), Ok(NEW));
    assert_eq!(side.shelf.read("sign.png"), Err(ReadFault::NotText));
    assert_eq!(side.shelf.read("none.piece"), Err(ReadFault::NotFound));
    for outside in ["../.drafts/tern.piece", "/etc/hosts", "", ".."] {
        assert_eq!(side.shelf.read(outside), Err(ReadFault::Outside), "{outside}");
    }
    desk.put("long.piece", vec![b'x'; MAX_SOURCE_BYTES + 9]);
    desk.git(&["add", "long.piece"]);
    let Content::Unfit(_, fault) = desk.one(":long.piece").content else { panic!("it is too long") };
    assert_eq!(fault.code.slug(), "source-too-large");
}

#[test]
fn a_folder_gives_all_patterns_of_its_time() {
    let desk = Desk::new();
    let m = "nest/m\u{f6}we.piece";
    let old = desk.folder("", "HEAD~1:sea birds");
    let named = [("gull.piece", "HEAD~1:sea birds/gull.piece"), (m, &format!("HEAD~1:sea birds/{m}"))];
    assert_eq!(names(&old), named);
    assert_eq!(old[0].shelf.read("palette.piece").as_deref(), Ok(OLD));
    // Each uses what lies in its own folder.
    assert_eq!(old[1].shelf.read("palette.piece"), Err(ReadFault::NotFound));
    assert_eq!(old[1].folder, PathBuf::from("HEAD~1:sea birds/nest"));
    let keys = |argument: &str| desk.folder("sea birds", argument).into_iter().map(|side| side.key).collect::<Vec<_>>();
    assert_eq!(keys("HEAD:."), ["gull.piece", m, "tern.piece"]);
    assert_eq!(keys(":./nest/"), ["m\u{f6}we.piece"]);
    let root: Vec<String> = ["gull.piece", m, "tern.piece"].map(|key| format!("sea birds/{key}")).into();
    assert_eq!((keys("HEAD:"), keys(":"), keys("HEAD:..")), (root.clone(), root.clone(), root));
    assert_eq!(desk.folder("", "HEAD:.drafts/")[0].name, "HEAD:.drafts/tern.piece");
    assert_eq!(desk.folder("", "HEAD:")[0].name, "HEAD:sea birds/gull.piece");
}

#[test]
fn the_projects_folder_is_that_of_the_revision() {
    let desk = Desk::new();
    let read = |folder: &str, argument: &str, project: &str| desk.read_in(folder, argument, Some(project));
    let top = desk.folder.path().display().to_string();
    for (folder, project) in
        [("", "sea birds"), ("sea birds/nest", ".."), ("sea birds", "."), ("", &format!("{top}/sea birds"))]
    {
        let Ok(Named::Folder(sides)) = read(folder, "HEAD~1:sea birds/nest", project) else { panic!("{project}") };
        assert_eq!(sides[0].shelf.read("palette.piece").as_deref(), Ok(OLD), "{project}");
        assert_eq!(sides[0].folder, PathBuf::from("HEAD~1:sea birds"));
    }
    let refused = |project: &str| read("", "HEAD:sea birds/gull.piece", project).err().expect("is refused").message;
    assert!(refused("none").contains("there is none in `HEAD:`"), "{}", refused("none"));
    assert!(refused("..").contains("lies outside the repository"));
    assert!(refused("/").contains("lies outside the repository"));
}

#[test]
fn what_cannot_be_read_is_told_with_its_cure() {
    let desk = Desk::new();
    let (message, help) = desk.refused("sea birds", "HEAD:gull.piece");
    assert_eq!(message, "there is no `gull.piece` in `HEAD`");
    assert!(help.contains("`HEAD:./gull.piece`"), "{help}");
    let (message, help) = desk.refused("", "HEAD:none.piece");
    assert_eq!(message, "there is no `none.piece` in `HEAD`");
    assert!(help.contains("git ls-tree"), "{help}");
    assert_eq!(desk.refused("", ":none.piece").0, "there is no `none.piece` in what is staged");
    let (message, help) = desk.refused("", "nowhere:gull.piece");
    assert_eq!(message, "`nowhere:gull.piece` is no file, and there is no revision `nowhere`");
    assert!(help.contains("git log"), "{help}");
    let (message, help) = desk.refused("", "HEAD");
    assert_eq!(message, "there is no file or folder `HEAD`");
    assert!(help.contains("`HEAD:`"), "{help}");
    assert!(desk.refused("", "gull.piec").1.contains("`HEAD:gull.piece`"));
    assert!(desk.refused("", "HEAD:../x").0.contains("leads out of the repository"));
    assert!(desk.refused("", ":/one").0.contains("what of a commit is meant"));
    assert!(desk.refused("", "HEAD:sea birds/gull.piece/x").0.contains("there is no"));
    let empty = Desk { folder: tempfile::tempdir().expect("a folder") };
    empty.git(&["init", "--quiet"]);
    assert_eq!(empty.refused("", "HEAD:gull.piece").1, "nothing is committed yet");
}

#[test]
fn evil_names_do_no_harm() {
    let desk = Desk::new();
    let files = || fs::read_dir(desk.folder.path()).expect("a folder").count();
    let before = files();
    let evil = [
        "--output=x:gull.piece",
        "-x:",
        "--:a",
        "HEAD\nHEAD:a",
        "HEAD:a\nHEAD",
        "\u{1b}[31m:x",
        "HEAD^{tree:x}",
        "@{:x",
        "\u{f6}:\u{1f426}",
        "a..b:x",
        "^HEAD:x",
        ": :",
        "HEAD:\\..\\x",
    ];
    for argument in evil {
        let (message, help) = desk.refused("", argument);
        assert!(!message.contains(['\u{1b}', '\n']) && !help.contains(['\u{1b}', '\n']), "{message:?}, {help:?}");
    }
    assert_eq!(files(), before);
}

#[test]
#[cfg(unix)]
fn links_and_submodules_are_refused() {
    let desk = Desk::new();
    let link = |to: &str, name: &str| std::os::unix::fs::symlink(to, desk.folder.path().join(name)).expect("links");
    link("sea birds/gull.piece", "link.piece");
    link("sea birds", "birds");
    link("palette.piece", "sea birds/shared.piece");
    desk.git(&["init", "--quiet", "other"]);
    desk.git(&["-C", "other", "commit", "--quiet", "--allow-empty", "--message", "x"]);
    desk.git(&["add", "--all"]);
    desk.commit("three");
    for state in ["HEAD", ""] {
        let message = |path: &str| desk.refused("", &format!("{state}:{path}")).0;
        assert!(message("link.piece").contains("is a symbolic link"), "{}", message("link.piece"));
        assert!(message("birds/gull.piece").contains("`birds` is a symbolic link"), "{}", message("birds/gull.piece"));
        assert!(message("other").contains("is a submodule"), "{}", message("other"));
        assert!(message("other/x.piece").contains("`other` is a submodule"), "{}", message("other/x.piece"));
        let side = desk.one(&format!("{state}:sea birds/tern.piece"));
        assert!(matches!(side.shelf.read("shared.piece"), Err(ReadFault::Other(why)) if why.contains("link")));
        assert!(desk.folder("", &format!("{state}:")).iter().all(|side| side.key.starts_with("sea birds/")));
    }
}

#[test]
fn a_conflict_is_read_by_its_sides() {
    let desk = Desk::new();
    desk.commit("three");
    desk.git(&["checkout", "--quiet", "-b", "other", "HEAD~1"]);
    desk.put("sea birds/gull.piece", "pattern \"Theirs\"\n");
    desk.commit("four");
    assert!(!desk.command(&["merge", "-"]).output().expect("git is installed").status.success());
    let (message, help) = desk.refused("", ":sea birds/gull.piece");
    assert!(message.contains("is in conflict") && help.contains("`:2:sea birds/gull.piece`"), "{message}, {help}");
    assert!(desk.refused("", ":").0.contains("is in conflict"));
    assert_eq!(text(&desk.one(":2:sea birds/gull.piece")), "pattern \"Theirs\"\n");
    let theirs = desk.one(":3:sea birds/gull.piece");
    assert_eq!(text(&theirs), "pattern \"Not staged\"\n");
    assert_eq!(theirs.shelf.read("palette.piece").as_deref(), Ok(NEW));
}
