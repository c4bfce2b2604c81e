//! `piecewright git`: what git is told once (`install`, `remove`), and what it calls from then on (`driver`, `staged`).

mod attribute;
mod config;
mod driver;
mod install;
mod script;
mod staged;

use super::arguments::{Git, GitTask};
use super::voice::Voice;
use super::{Outcome, Trouble};

/// Does what was asked for.
pub fn run(asked: &Git, voice: &mut Voice) -> Result<Outcome, Trouble> {
    match &asked.task {
        GitTask::Install(install) => install::install(install, voice),
        GitTask::Remove(_) => install::remove(voice),
        GitTask::Staged(staged) => staged::run(staged, voice),
        GitTask::Driver(driver) => driver::run(driver, voice),
    }
}

/// What became of one thing that was to be written or taken out.
enum Done {
    /// It was done: `wrote .gitattributes`.
    Told(String),
    /// There was nothing to do, and nothing to tell.
    Nothing,
    /// It is of other making and was left alone.
    Left(Trouble),
}
