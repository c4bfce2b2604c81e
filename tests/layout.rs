//! A source that is laid out makes the same model and the same faults, and so does one whose shared files are laid out too.

#![allow(clippy::expect_used, reason = "a test may stop at what it did not expect")]

mod support;

use std::fs;
use std::path::{Path, PathBuf};

use piecewright::fault::{Code, Fault};
use piecewright::{ReadFault, Shelf, check, format};
use support::Folder;

/// A folder whose files are laid out when they are read.
struct LaidOut(Folder);

impl Shelf for LaidOut {
    fn read(&self, path: &str) -> Result<String, ReadFault> {
        self.0.read(path).map(|text| format(path, &text).text)
    }

    fn read_bytes(&self, path: &str, most: usize) -> Result<Vec<u8>, ReadFault> {
        self.0.read_bytes(path, most)
    }
}

/// The sources in a folder of the repository.
fn sources(folder: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let files = fs::read_dir(folder).expect("is there").map(|entry| entry.expect("an entry").path());
    let mut files: Vec<_> = files.filter(|path| path.extension().is_some_and(|end| end == "piece")).collect();
    files.sort();
    files
}

/// What the faults say, but for those that a layout mends: pasted characters, two statements on one line, a brace on a line of its own.
fn said(faults: &[Fault]) -> Vec<(Code, &str)> {
    let is_mended = |fault: &Fault| {
        let message = &fault.message;
        fault.code == Code::PastedCharacter
            || message.ends_with("a line of its own")
            || message.contains("must end in `{`")
    };
    let mut all: Vec<_> =
        faults.iter().filter(|fault| !is_mended(fault)).map(|fault| (fault.code, fault.message.as_str())).collect();
    all.sort_unstable();
    all
}

/// Compares what a source makes with what it makes laid out. Gives whether it makes a model.
fn compare(path: &Path, shared: &str) -> bool {
    let name = path.display().to_string();
    let text = fs::read_to_string(path).expect("a readable source");
    let folder = || Folder(Path::new(env!("CARGO_MANIFEST_DIR")).join(shared));
    let before = check("source.piece", &text, &folder());
    let after = check("source.piece", &format(&name, &text).text, &LaidOut(folder()));
    let is_mended = !before.ok() && after.ok();
    assert!(is_mended || before.model == after.model, "{name}: another model");
    if before.model.is_some() || after.model.is_none() {
        assert_eq!(said(&after.faults), said(&before.faults), "{name}");
    }
    before.model.is_some()
}

#[test]
fn samples_make_the_same_models() {
    let files = sources("patterns");
    let models = files.iter().filter(|path| compare(path, "patterns")).count();
    assert_eq!((files.len(), models), (13, 10));
}

#[test]
fn fixtures_make_the_same_models_and_faults() {
    let files = sources("tests/fixtures");
    let models = files.iter().filter(|path| compare(path, "tests/fixtures/shared")).count();
    assert!(files.len() > 250 && models > 50, "{models} of {}", files.len());
}
