//! What `piecewright` does on a machine: reads sources, shows faults, writes packets.
//!
//! Only here are files touched. [`arguments`] says what can be asked for, [`input`] and [`shelf`] read, [`repository`] asks git, [`side`] reads what is compared, [`show`] puts faults into
//! words on a screen, [`packet_folder`] writes a packet whole or not at all; [`voice`] is the only place that prints.

mod arguments;
mod build;
mod check;
mod diff;
mod explain;
mod fmt;
mod git;
mod input;
mod lines;
mod machine;
mod packet_folder;
mod plan;
mod progress;
mod release;
mod repository;
mod shelf;
mod show;
mod side;
mod sources;
mod start;
mod voice;
mod whole;

use std::io;
use std::process::ExitCode;

use clap::{CommandFactory, Parser};

use arguments::{Arguments, Task};
use voice::Voice;

/// How a run ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// All is well, but for warnings.
    Fine,
    /// The sources have errors.
    Faults,
    /// The tool could not do its work.
    Trouble,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Fine => Self::SUCCESS,
            Outcome::Faults => Self::from(1),
            Outcome::Trouble => Self::from(2),
        }
    }
}

/// Why the tool could not do its work, in words for the person who asked for it.
#[derive(Debug)]
pub struct Trouble {
    message: String,
    help: Option<String>,
}

impl Trouble {
    fn new(message: impl Into<String>) -> Self {
        Self { message: message.into(), help: None }
    }

    fn with_help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }
}

/// An error of the operating system without its number: `permission denied`.
fn reason(error: &io::Error) -> String {
    let text = error.to_string();
    let text = text.split(" (os error").next().unwrap_or_default();
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// Does what the command line asks for.
pub fn run() -> Outcome {
    // Wrong usage ends here with exit code 2, `--help` and `--version` with 0.
    let arguments = Arguments::parse();
    let mut voice = Voice::default();
    let result = match arguments.task {
        Task::New(new) => start::run(&new, &mut voice),
        Task::Check(check) => check::run(&check, &mut voice),
        Task::Build(build) => build::run(&build, &mut voice),
        Task::Release(release) => release::run(&release, &mut voice),
        Task::Plan(plan) => plan::run(&plan, &mut voice),
        Task::Fmt(fmt) => fmt::run(&fmt, &mut voice),
        Task::Diff(diff) => diff::run(&diff, &mut voice),
        Task::Machine(machine) => machine::run(&machine, &mut voice),
        Task::Git(git) => git::run(&git, &mut voice),
        Task::Explain(explain) => explain::run(&explain, &mut voice),
        Task::Completions(completions) => {
            // Into memory first: the generator would panic on a closed pipe.
            let mut script = Vec::new();
            clap_complete::generate(completions.shell, &mut Arguments::command(), "piecewright", &mut script);
            voice.say(&String::from_utf8_lossy(&script));
            Ok(Outcome::Fine)
        }
    };
    let outcome = result.unwrap_or_else(|trouble| {
        voice.complain(&trouble);
        Outcome::Trouble
    });
    voice.finish(outcome)
}
