//! The programs that look at documents.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// A folder of the build for what is looked at; emptied when the program starts to look.
pub fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("looked-at").join(name);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder of the build");
    folder
}

/// What a program did with a file, or nothing where it is not installed and need not be.
fn run(tool: &str, before: &[&str], file: &Path, after: &[&str]) -> Option<Output> {
    match Command::new(tool).args(before).arg(file).args(after).output() {
        Ok(output) => {
            assert!(output.status.success(), "{tool}, {}: {output:?}", file.display());
            Some(output)
        }
        Err(reason) => {
            let required = std::env::var_os("CI_TOOLS").is_some_and(|value| value == "required");
            assert!(!required, "{tool} is required and cannot be run: {reason}");
            eprintln!("{tool} is not installed: its view of {} was not tested", file.display());
            None
        }
    }
}

/// What a program says of a file.
pub fn told_by(tool: &str, before: &[&str], file: &Path, after: &[&str]) -> Option<String> {
    run(tool, before, file, after).map(|output| String::from_utf8_lossy(&output.stdout).into_owned())
}

/// What a program makes of a file on its standard output.
pub fn made_by(tool: &str, before: &[&str], file: &Path, after: &[&str]) -> Option<Vec<u8>> {
    run(tool, before, file, after).map(|output| output.stdout)
}

/// Whether a program was there to look at a file, which it must without a complaint.
pub fn told_nothing(tool: &str, before: &[&str], file: &Path, after: &[&str]) -> bool {
    let Some(output) = run(tool, before, file, after) else { return false };
    let said = String::from_utf8_lossy(&output.stderr);
    // What some builds of mutool say of themselves at every start.
    let said: Vec<&str> = said.lines().filter(|line| *line != "warning: ICC support is not available").collect();
    assert!(said.is_empty(), "{tool}, {}: {said:?}", file.display());
    true
}
