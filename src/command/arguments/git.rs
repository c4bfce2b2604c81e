//! What can be asked for about git.

use std::ffi::OsString;
use std::path::PathBuf;

use clap::{Args, Subcommand};

use super::{Reading, Showing};

/// Let git tell what changed in patterns, and check them before they are committed
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  piecewright git install     once in each clone: git diff and the hook before a commit
  piecewright git staged      what the hook runs, for you to try
  piecewright git remove      all as it was before")]
pub struct Git {
    /// What to do.
    #[command(subcommand)]
    pub task: GitTask,
}

/// What can be asked for about git.
#[derive(Debug, Subcommand)]
pub enum GitTask {
    Install(Install),
    Remove(Remove),
    Staged(Staged),
    Driver(Driver),
}

/// Set up the repository of the current folder
#[derive(Debug, Args)]
#[command(after_help = "\
It writes, and tells each thing that it wrote:
  in the repository's configuration   how git compares patterns, and a tool for git difftool
  in .gitattributes                   that *.piece is compared so; commit this file
  in the folder of hooks              a hook that checks staged patterns before a commit

What is there already and of other making is left alone, and you are told what to do. Doing it twice is doing it once.
git calls `piecewright` by its name, so its folder must stand in PATH.

Examples:
  piecewright git install
  piecewright git install --no-hook
  piecewright git install --project .                 sources in folders share files of the root
  piecewright git install --ci ci/pattern-changes     a script that tells a reviewer what changed")]
pub struct Install {
    /// Leave the hook before a commit out
    #[arg(long)]
    pub no_hook: bool,
    /// Write a shell script for a CI step here: run as `FILE BASE OUT.md` it tells in Markdown what changed since BASE
    #[arg(long, value_name = "FILE")]
    pub ci: Option<PathBuf>,
    /// The folder that `use` lines start from in this repository [default: each source's own]
    #[arg(long, value_name = "FOLDER")]
    pub project: Option<PathBuf>,
}

/// Undo what `install` wrote, and nothing else
#[derive(Debug, Args)]
#[command(after_help = "\
What was changed since it was written is left alone, and you are told.

Example:
  piecewright git remove")]
pub struct Remove {}

/// Say what is the matter with staged sources; the hook before a commit runs this
#[derive(Debug, Args)]
#[command(after_help = "\
Looked at is what would be committed, not what lies in the folder: each staged source, whether it has errors and whether
it is laid out, and each pattern that uses a staged file. Exit code 1 where something is to be put right.

Examples:
  piecewright git staged
  piecewright git staged --deny-warnings
  git commit --no-verify      commits without asking the hook")]
pub struct Staged {
    #[command(flatten)]
    pub reading: Reading,
    #[command(flatten)]
    pub showing: Showing,
}

/// Tell what changed in one file; git calls this
#[derive(Debug, Args)]
#[command(hide = true, disable_help_flag = true)]
pub struct Driver {
    /// Called as a tool of `git difftool`, which waits for the end
    #[arg(long)]
    pub tool: bool,
    /// What git passes to a program that compares: the path, then file, object and mode of both sides
    #[arg(value_name = "ARGUMENT", allow_hyphen_values = true)]
    pub arguments: Vec<OsString>,
}
