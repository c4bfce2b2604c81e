//! `piecewright git install` and `remove`: what git is told about patterns, and its undoing.

use std::env;
use std::path::{Path, PathBuf};

use super::super::arguments::Install;
use super::super::input::is_standard;
use super::super::repository::Repository;
use super::super::side::revision::within_repository;
use super::super::voice::Voice;
use super::super::{Outcome, Trouble, reason};
use super::{Done, attribute, config, script};

/// The name that git calls this program by.
const PROGRAM: &str = "piecewright";

/// Sets the repository of the current folder up.
pub fn install(asked: &Install, voice: &mut Voice) -> Result<Outcome, Trouble> {
    let here = Repository::here()?;
    let top = here.top()?;
    let repository = Repository::at(&top)?;
    let project = asked.project.as_deref().map(|project| within_repository(&here, project)).transpose()?;
    let script = asked.ci.as_deref().map(absolute).transpose()?;

    let mut done = config::set_all(&repository)?;
    done.extend(project.map(|project| set_project(&repository, &project)).transpose()?);
    done.push(attribute::add(&repository, &top)?);
    if !asked.no_hook {
        done.push(script::add_hook(&repository, &top)?);
    }
    if let Some(script) = script {
        let added = script::add_ci(&script, &top)?;
        let is_new = matches!(added, Done::Told(_));
        done.push(added);
        if is_new {
            let within = script.strip_prefix(&top).unwrap_or(&script).display().to_string();
            repository.ask(&["config", "--local", "--add", config::SCRIPTS, &within])?;
            done.push(Done::Told(format!("set {}", config::SCRIPTS)));
        }
    }
    let outcome = tell(done, "all is set up already", voice);
    if !is_in_path() {
        voice.tell(&not_in_path());
    }
    Ok(outcome)
}

/// Undoes what [`install`] did, as far as nobody changed it since.
pub fn remove(voice: &mut Voice) -> Result<Outcome, Trouble> {
    let top = Repository::here()?.top()?;
    let repository = Repository::at(&top)?;
    let mut done = Vec::new();
    for script in config::values(&repository, config::SCRIPTS)? {
        done.push(script::take_out(&top.join(script), &top, script::CI)?);
    }
    done.push(script::take_hook(&repository, &top)?);
    done.push(attribute::take_out(&top)?);
    done.extend(config::unset_all(&repository)?);
    done.push(config::unset(&repository, config::PROJECT)?);
    done.push(config::unset(&repository, config::SCRIPTS)?);
    Ok(tell(done, "there is nothing to remove", voice))
}

/// Tells what became of each thing. What was left alone is trouble: the person who asked has something to do.
fn tell(done: Vec<Done>, nothing: &str, voice: &mut Voice) -> Outcome {
    if done.iter().all(|one| matches!(one, Done::Nothing)) {
        voice.say(&format!("{nothing}\n"));
    }
    let mut outcome = Outcome::Fine;
    for one in done {
        match one {
            Done::Told(what) => voice.say(&format!("{what}\n")),
            Done::Nothing => {}
            Done::Left(trouble) => {
                voice.complain(&trouble);
                outcome = Outcome::Trouble;
            }
        }
    }
    outcome
}

/// Remembers the folder that `use` lines start from.
fn set_project(repository: &Repository, project: &str) -> Result<Done, Trouble> {
    // In front of a name that starts with a hyphen.
    let project = format!("./{project}");
    if config::values(repository, config::PROJECT)? == [project.as_str()] {
        return Ok(Done::Nothing);
    }
    repository.ask(&["config", "--local", "--replace-all", config::PROJECT, &project])?;
    Ok(Done::Told(format!("set {} to {project}", config::PROJECT)))
}

/// The path of a script from the root of the disk, its folder without links where it is there.
fn absolute(path: &Path) -> Result<PathBuf, Trouble> {
    let unfit = |why: &str| Trouble::new(format!("`{}` cannot be the script for the CI: {why}", path.display()));
    let Some(name) = path.file_name().filter(|_| !is_standard(path) && !path.is_dir()) else {
        return Err(unfit("it is not the name of a file"));
    };
    let path = std::path::absolute(path).map_err(|error| unfit(&reason(&error)))?;
    let folder = path.parent().and_then(|folder| folder.canonicalize().ok());
    Ok(folder.map_or_else(|| path.clone(), |folder| folder.join(name)))
}

/// Whether git will find this program by its name.
fn is_in_path() -> bool {
    let name = format!("{PROGRAM}{}", env::consts::EXE_SUFFIX);
    env::var_os("PATH").is_some_and(|path| env::split_paths(&path).any(|folder| folder.join(&name).is_file()))
}

fn not_in_path() -> String {
    let own = env::current_exe().ok();
    let folder = own.as_deref().and_then(Path::parent).map(|folder| format!(": {}", folder.display()));
    format!(
        "{PROGRAM} is not found in PATH, and git calls it by that name\n  help: add the folder that it lies in{}\n",
        folder.unwrap_or_default()
    )
}
