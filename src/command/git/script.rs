//! Scripts that git or a CI runs: the hook before a commit, and the step that tells what changed.

use std::fs::{self, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use super::super::repository::{self, Repository};
use super::super::{Trouble, reason};
use super::Done;

/// The hook before a commit.
pub const HOOK: &str = include_str!("hook.sh");
/// The step of a CI.
pub const CI: &str = include_str!("ci.sh");

/// The hook's name, and what it does, for a hook of other making.
const NAME: &str = "pre-commit";
const CALL: &str = "piecewright git staged";

/// Writes the hook before a commit; another's is left alone.
pub fn add_hook(repository: &Repository, top: &Path) -> Result<Done, Trouble> {
    let hooks = hooks(repository, top)?;
    let path = hooks.join(NAME);
    let shown = shown(&path, top);
    let calls_it = fs::read(&path).is_ok_and(|text| calls(&String::from_utf8_lossy(&text)));
    let by_hand = format!("add this line to it: `{CALL} || exit 1`");
    if !is_own_folder(repository, top, &hooks)? {
        return Ok(if calls_it {
            Done::Nothing
        } else {
            Done::Left(
                Trouble::new(format!(
                    "the hooks of this repository lie outside of it, in `{}`, and may be those of others too",
                    hooks.display()
                ))
                .with_help(format!("there is `{NAME}` in that folder, or you make it: {by_hand}")),
            )
        });
    }
    match write(&path, HOOK) {
        Ok(true) => Ok(Done::Told(format!("wrote {shown}"))),
        Ok(false) => Ok(Done::Nothing),
        Err(error) if error.kind() == ErrorKind::AlreadyExists && calls_it => Ok(Done::Nothing),
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Ok(Done::Left(
            Trouble::new(format!("`{shown}` is a hook of other making, and is left alone")).with_help(by_hand),
        )),
        Err(error) => Err(Trouble::new(format!("`{shown}` cannot be written: {}", reason(&error)))),
    }
}

/// Takes the hook out, if it is still the one that was written.
pub fn take_hook(repository: &Repository, top: &Path) -> Result<Done, Trouble> {
    let path = hooks(repository, top)?.join(NAME);
    if fs::read(&path).is_ok_and(|text| text != HOOK.as_bytes() && !calls(&String::from_utf8_lossy(&text))) {
        // Another's, and it has nothing to do with patterns.
        return Ok(Done::Nothing);
    }
    take_out(&path, top, HOOK)
}

/// Writes the script for a CI.
pub fn add_ci(path: &Path, top: &Path) -> Result<Done, Trouble> {
    let shown = shown(path, top);
    match write(path, CI) {
        Ok(true) => Ok(Done::Told(format!("wrote {shown}"))),
        Ok(false) => Ok(Done::Nothing),
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Ok(Done::Left(
            Trouble::new(format!("`{shown}` is there already, with something else in it, and is left alone"))
                .with_help("choose another name behind `--ci`"),
        )),
        Err(error) => Err(Trouble::new(format!("`{shown}` cannot be written: {}", reason(&error)))),
    }
}

/// Takes a script out that holds what was written; another is left alone.
pub fn take_out(path: &Path, top: &Path, own: &str) -> Result<Done, Trouble> {
    let shown = shown(path, top);
    match fs::read(path) {
        Err(error) if [ErrorKind::NotFound, ErrorKind::NotADirectory].contains(&error.kind()) => Ok(Done::Nothing),
        Err(error) => Err(Trouble::new(format!("`{shown}` cannot be read: {}", reason(&error)))),
        Ok(text) if text != own.as_bytes() => Ok(Done::Left(
            Trouble::new(format!("`{shown}` is not as it was written, and is left alone"))
                .with_help("take out of it what you no longer want"),
        )),
        Ok(_) => match fs::remove_file(path) {
            Ok(()) => Ok(Done::Told(format!("removed {shown}"))),
            Err(error) => Err(Trouble::new(format!("`{shown}` cannot be removed: {}", reason(&error)))),
        },
    }
}

/// Whether a hook runs the check itself.
fn calls(hook: &str) -> bool {
    hook.lines().any(|line| !line.trim_start().starts_with('#') && line.contains(CALL))
}

/// The folder of hooks, wherever the configuration says it is.
fn hooks(repository: &Repository, top: &Path) -> Result<PathBuf, Trouble> {
    Ok(top.join(repository::path(&repository.ask(&["rev-parse", "--git-path", "hooks"])?)))
}

/// Whether the folder of hooks belongs to this repository alone.
fn is_own_folder(repository: &Repository, top: &Path, hooks: &Path) -> Result<bool, Trouble> {
    let common = top.join(repository::path(&repository.ask(&["rev-parse", "--git-common-dir"])?));
    // A folder that is not there yet lies where the one above it lies.
    let real = hooks.ancestors().find_map(|folder| folder.canonicalize().ok()).unwrap_or_default();
    let holds = |folder: &Path| folder.canonicalize().is_ok_and(|folder| real.starts_with(folder));
    Ok(holds(top) || holds(&common))
}

/// A path as seen from the repository's root.
fn shown(path: &Path, top: &Path) -> String {
    path.strip_prefix(top).unwrap_or(path).display().to_string()
}

/// Writes a script that can be run. Whether that was needed; an error of its own where something else is in the way.
fn write(path: &Path, text: &str) -> io::Result<bool> {
    match fs::symlink_metadata(path) {
        Ok(_) if fs::read(path).is_ok_and(|there| there == text.as_bytes()) => return Ok(false),
        Ok(_) => return Err(ErrorKind::AlreadyExists.into()),
        Err(_) => {}
    }
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder)?;
    }
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o777);
    let written = options.open(path)?.write_all(text.as_bytes());
    if written.is_err() {
        _ = fs::remove_file(path);
    }
    written.map(|()| true)
}
