//! Where a comparison may be written: in a folder that is there, and never over what is compared.

use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};

use super::super::Trouble;
use super::super::arguments::Diff;
use super::super::input::folder_of;
use super::super::sources::ENDING;

/// Looks at both files before anything is told or written.
pub fn check(asked: &Diff) -> Result<(), Trouble> {
    for (target, option) in [(&asked.output, "-o changes.md"), (&asked.picture, "--picture moved.svg")] {
        if let Some(target) = target {
            look(target, [&asked.old, &asked.new], option)?;
        }
    }
    let Some(picture) = &asked.picture else { return Ok(()) };
    if !ends_in(picture, "svg") {
        return Err(Trouble::new(format!("the picture is drawn as SVG, and `{}` does not say so", picture.display()))
            .with_help("let the name end in `.svg`: `--picture moved.svg`"));
    }
    if asked.output.as_ref().is_some_and(|output| real(output) == real(picture)) {
        return Err(Trouble::new(format!(
            "both what changed and the picture would be written to `{}`",
            picture.display()
        ))
        .with_help("name two files: `-o changes.md --picture moved.svg`"));
    }
    Ok(())
}

/// Whether a file may be written where these are compared.
fn look(target: &Path, compared: [&String; 2], option: &str) -> Result<(), Trouble> {
    let name = target.display();
    let folder = folder_of(target);
    if !folder.is_dir() {
        return Err(Trouble::new(format!("there is no folder `{}` to write `{name}` in", folder.display()))
            .with_help("make it first, or name a file in a folder that is there"));
    }
    if target.is_dir() {
        return Err(Trouble::new(format!("`{name}` is a folder, not the name of a file"))
            .with_help(format!("name a file: `{option}`")));
    }
    let real_target = real(target);
    // All sources of a folder end so, whichever of them are compared.
    let is_source = ends_in(target, ENDING) || ends_in(&real_target, ENDING);
    if is_source || compared.iter().any(|side| fs::canonicalize(side).is_ok_and(|side| side == real_target)) {
        return Err(Trouble::new(format!("`{name}` is the name of a source, and nothing is written over sources"))
            .with_help(format!("name another file: `{option}`")));
    }
    Ok(())
}

fn ends_in(path: &Path, ending: &str) -> bool {
    path.extension().and_then(OsStr::to_str).is_some_and(|own| own.eq_ignore_ascii_case(ending))
}

/// A path without links, whether the file is there or not yet.
fn real(path: &Path) -> PathBuf {
    fs::canonicalize(path).unwrap_or_else(|_| {
        let folder = fs::canonicalize(folder_of(path)).unwrap_or_default();
        folder.join(path.file_name().unwrap_or_default())
    })
}
