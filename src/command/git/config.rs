//! What stands in the repository's own configuration.

use super::super::repository::{Repository, run};
use super::super::{Trouble, repository};
use super::Done;

/// Which lines git shows above changed lines: the one that opens the block or the unit, or what is stated of the block between units.
/// `unit sky around 3, 4` opens nothing: it names a paper.
const HEADS: &str = "\
!^[[:blank:]]*unit[[:blank:]]+[^[:blank:]]+[[:blank:]]+around
^[[:blank:]]*((block|unit)[[:blank:]][^{]*[^{[:blank:]]|(pattern|place|join|partial|inset)[[:blank:]].*[^[:blank:]])";

/// All settings but those that a person chooses.
const SETTINGS: [(&str, &str); 3] = [
    ("diff.piecewright.xfuncname", HEADS),
    ("diff.piecewright.command", "piecewright git driver --"),
    ("difftool.piecewright.cmd", r#"piecewright git driver --tool -- "$MERGED" "$LOCAL" . . "$REMOTE" . ."#),
];

/// The folder that `use` lines start from, as seen from the repository's root.
pub const PROJECT: &str = "piecewright.project";
/// The scripts for CI that were written, each as seen from the root.
pub const SCRIPTS: &str = "piecewright.ci";

/// Writes the settings; one that has another value is left alone.
pub fn set_all(repository: &Repository) -> Result<Vec<Done>, Trouble> {
    let set = SETTINGS.iter().map(|&(key, value)| match values(repository, key)?.as_slice() {
        [] => {
            repository.ask(&["config", "--local", key, value])?;
            Ok(Done::Told(format!("set {key}")))
        }
        [own] if own == value => Ok(Done::Nothing),
        _ => Ok(Done::Left(
            Trouble::new(format!("{key} has another value already, and keeps it"))
                .with_help(format!("to have it set, take yours out: `git config --local --unset-all {key}`")),
        )),
    });
    set.collect()
}

/// Takes the settings out that have the values that were written.
pub fn unset_all(repository: &Repository) -> Result<Vec<Done>, Trouble> {
    let unset = SETTINGS.iter().map(|&(key, value)| match values(repository, key)?.as_slice() {
        [] => Ok(Done::Nothing),
        [own] if own == value => unset(repository, key),
        _ => Ok(Done::Left(Trouble::new(format!("{key} was changed since, and is left alone")))),
    });
    unset.collect()
}

/// Takes all values of a setting out.
pub fn unset(repository: &Repository, key: &str) -> Result<Done, Trouble> {
    if values(repository, key)?.is_empty() {
        return Ok(Done::Nothing);
    }
    repository.ask(&["config", "--local", "--unset-all", key])?;
    Ok(Done::Told(format!("unset {key}")))
}

/// The values of a setting in the repository's own configuration.
pub fn values(repository: &Repository, key: &str) -> Result<Vec<String>, Trouble> {
    read(repository, &["config", "--local", "-z", "--get-all", key])
}

/// The folder that `use` lines start from where a repository says so, from its root.
pub fn project(repository: &Repository) -> Result<Option<String>, Trouble> {
    Ok(read(repository, &["config", "-z", "--get", PROJECT])?.pop())
}

fn read(repository: &Repository, arguments: &[&str]) -> Result<Vec<String>, Trouble> {
    let output = run(repository.git(arguments), b"")?;
    // 1 is git's answer for a setting that is not there.
    if output.status.code() == Some(1) {
        return Ok(Vec::new());
    }
    let told = repository::succeeded(output)?.stdout;
    let values = told.strip_suffix(b"\0").unwrap_or(&told).split(|&byte| byte == 0);
    Ok(values.map(|value| String::from_utf8_lossy(value).into_owned()).collect())
}
