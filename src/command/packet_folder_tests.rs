//! Tests of the packet's folder: nothing is lost, and a killed run is mended.

use super::*;

/// A folder with a packet `gull` in it.
struct Yard {
    around: tempfile::TempDir,
}

fn artifact(path: &str, text: &str) -> Artifact {
    Artifact { path: path.into(), bytes: text.into() }
}

impl Yard {
    fn new() -> Self {
        Self { around: tempfile::tempdir().expect("a folder") }
    }

    fn with_packet(edition: &str) -> Self {
        let yard = Self::new();
        yard.write(edition, false).expect("writes");
        yard
    }

    fn packet(&self) -> PacketFolder {
        PacketFolder::at(&self.path("gull"), &[]).expect("a place")
    }

    fn write(&self, edition: &str, force: bool) -> Result<Option<PathBuf>, Trouble> {
        self.packet().write(&[artifact("gull.pdf", edition), artifact("sheets/1.svg", edition)], force)
    }

    fn path(&self, name: &str) -> PathBuf {
        self.around.path().join(name)
    }

    fn put(&self, name: &str, text: &str) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("makes folders");
        fs::write(path, text).expect("writes");
    }

    fn text(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap_or_else(|_| String::from("(none)"))
    }

    /// All files, to see that nothing is left over and nothing is lost.
    fn all(&self) -> Vec<String> {
        files(self.around.path()).expect("reads")
    }
}

const PACKET: [&str; 3] = ["gull/gull.pdf", "gull/piecewright-packet.json", "gull/sheets/1.svg"];

#[test]
fn a_packet_is_written_and_replaced() {
    let yard = Yard::with_packet("1");
    assert_eq!(yard.all(), PACKET);
    assert_eq!(yard.write("2", false).expect("writes"), None);
    assert_eq!(yard.all(), PACKET);
    assert_eq!(yard.text("gull/sheets/1.svg"), "2");
    assert!(!exists(&yard.path(".gull.piecewright")));
}

#[test]
fn what_the_tool_did_not_make_is_refused_and_by_force_set_aside() {
    let yard = Yard::new();
    yard.put("gull", "a file");
    assert!(yard.write("1", false).expect_err("refused").message.contains("is no packet"));
    assert_eq!(yard.text("gull"), "a file");
    let aside = yard.write("1", true).expect("writes").expect("set aside");
    assert_eq!(fs::read_to_string(aside).expect("reads"), "a file");

    yard.put("gull/photo.jpg", "a photo");
    let trouble = yard.write("2", false).expect_err("refused");
    assert!(trouble.message.contains("`photo.jpg`"), "{}", trouble.message);
    assert_eq!(yard.text("gull/gull.pdf"), "1");
    yard.write("2", true).expect("writes");
    assert_eq!(yard.text("gull/gull.pdf"), "2");
    assert_eq!((yard.text("gull.old"), yard.text("gull.old-2/photo.jpg")), ("a file".into(), "a photo".into()));
}

#[test]
fn an_empty_folder_and_litter_are_no_hindrance() {
    let yard = Yard::new();
    fs::create_dir(yard.path("gull")).expect("makes a folder");
    yard.write("1", false).expect("writes");
    yard.put("gull/sheets/.DS_Store", "litter");
    yard.write("2", false).expect("writes");
    assert_eq!(yard.all(), PACKET);
}

#[test]
fn a_manifest_that_lists_files_elsewhere_deletes_nothing_elsewhere() {
    let yard = Yard::with_packet("1");
    yard.put("mast", "precious");
    yard.put(
        "gull/piecewright-packet.json",
        r#"{"made_by":"piecewright","files":["../mast","gull.pdf","sheets/1.svg","link/mast"]}"#,
    );
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink(yard.around.path(), yard.path("gull/link")).expect("links");
        assert!(yard.write("2", false).expect_err("refused").message.contains("`link`"));
        fs::remove_file(yard.path("gull/link")).expect("removes");
    }
    yard.write("2", false).expect("writes");
    assert_eq!(yard.text("mast"), "precious");
}

#[test]
fn a_run_killed_while_writing_leaves_the_old_packet() {
    let yard = Yard::with_packet("1");
    yard.put(".gull.piecewright/new/gull.pdf", "half");
    yard.packet().recover().expect("recovers");
    assert_eq!(yard.all(), PACKET);
    assert_eq!(yard.text("gull/gull.pdf"), "1");
}

#[test]
fn a_run_killed_between_the_renames_is_mended() {
    let yard = Yard::with_packet("1");
    yard.put(".gull.piecewright/new/gull.pdf", "whole");
    fs::rename(yard.path("gull"), yard.path(".gull.piecewright/old")).expect("renames");
    yard.packet().recover().expect("recovers");
    assert_eq!(yard.all(), PACKET);
    assert_eq!(yard.text("gull/gull.pdf"), "1");
}

#[test]
fn a_run_killed_after_the_renames_leaves_the_new_packet() {
    let yard = Yard::with_packet("1");
    yard.put(".gull.piecewright/lock", "");
    fs::rename(yard.path("gull"), yard.path(".gull.piecewright/old")).expect("renames");
    yard.put("gull/gull.pdf", "2");
    yard.put("gull/piecewright-packet.json", r#"{"made_by":"piecewright","files":["gull.pdf"]}"#);
    yard.packet().recover().expect("recovers");
    assert_eq!(yard.all(), ["gull/gull.pdf", "gull/piecewright-packet.json"]);
    assert_eq!(yard.text("gull/gull.pdf"), "2");
}

#[test]
fn a_run_killed_while_deleting_is_taken_up_again_and_loses_nothing() {
    let yard = Yard::with_packet("2");
    yard.put(".gull.piecewright/gone/sheets/1.svg", "1");
    yard.put(".gull.piecewright/gone/sheets/late.txt", "came in meanwhile");
    yard.put(".gull.piecewright/gone/piecewright-packet.json", r#"{"made_by":"piecewright","files":["sheets/1.svg"]}"#);
    yard.packet().recover().expect("recovers");
    assert_eq!(yard.text("gull.old/sheets/late.txt"), "came in meanwhile");
    assert_eq!(yard.text("gull.old/sheets/1.svg"), "(none)");
    assert_eq!(yard.text("gull/gull.pdf"), "2");
    assert!(!exists(&yard.path(".gull.piecewright")));

    fs::create_dir_all(yard.path(".gull.piecewright/gone/sheets")).expect("makes folders");
    yard.packet().recover().expect("recovers");
    assert!(!exists(&yard.path(".gull.piecewright")));
}

#[test]
fn a_run_at_work_is_not_disturbed() {
    let yard = Yard::with_packet("1");
    let packet = yard.packet();
    let work = Work::begin(&packet).expect("begins").expect("is free");
    work.fill(&[artifact("gull.pdf", "2")]).expect("fills");
    yard.packet().recover().expect("does nothing");
    assert!(yard.write("3", true).expect_err("refused").message.contains("another run"));
    assert_eq!(work.swap().expect("swaps"), None);
    drop(work);
    assert_eq!(yard.all(), ["gull/gull.pdf", "gull/piecewright-packet.json"]);
    assert_eq!(yard.text("gull/gull.pdf"), "2");
}

#[test]
fn a_packet_that_cannot_be_written_whole_is_not_written() {
    let yard = Yard::with_packet("1");
    let twice = [artifact("gull.pdf", "2"), artifact("gull.pdf", "2")];
    assert!(yard.packet().write(&twice, false).is_err());
    for path in ["../mast", "/mast", "a//b", "a/./b", "", "c:mast", "a\\b", MANIFEST] {
        assert!(yard.packet().write(&[artifact(path, "2")], true).is_err(), "{path:?}");
    }
    assert_eq!(yard.all(), PACKET);
    assert_eq!(yard.text("gull/gull.pdf"), "1");
}

#[test]
fn the_folder_of_the_source_is_never_replaced() {
    let yard = Yard::new();
    yard.put("sea/gull.piece", "");
    let source = yard.path("sea/gull.piece");
    for path in ["sea", "sea/gull.piece", ".", "sea/../sea/."] {
        assert!(PacketFolder::at(&yard.path(path), &[&source]).is_err(), "{path}");
    }
    assert!(PacketFolder::at(Path::new("/"), &[]).is_err());
    assert!(PacketFolder::at(&yard.path("sea/gull"), &[&source]).is_ok());
}
