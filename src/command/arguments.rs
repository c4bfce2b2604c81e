//! The command line. What `--help` says is written for a designer who has never used a compiler.

mod git;

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};
use piecewright::backend::svg::Colours;
use piecewright::geometry::Length;

use super::machine;

pub use git::{Driver, Git, GitTask, Install, Staged};

/// From one plain-text source of a foundation-pieced block to a packet that can be sewn from
#[derive(Debug, Parser)]
#[command(
    name = "piecewright",
    version,
    max_term_width = 100,
    after_help = "\
A first pattern:
  piecewright new gull.piece          writes a small pattern to start from
  piecewright check gull.piece        says what is the matter with it, if anything
  piecewright build gull.piece        makes the packet: the folder `gull` beside the source
  piecewright release gull.piece      makes what is published: every size and colouring, and an archive
  piecewright explain decimal-comma   tells more about a fault, by its code

Exit codes: 0 all is well, 1 a source has errors, 2 the tool could not do its work."
)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub task: Task,
}

/// What can be asked for.
#[derive(Debug, Subcommand)]
pub enum Task {
    New(New),
    Check(Check),
    Build(Build),
    Release(Release),
    Plan(Plan),
    Fmt(Fmt),
    Diff(Diff),
    Machine(Machine),
    Git(Git),
    Explain(Explain),
    Completions(Completions),
}

/// Write a small pattern to start from
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  piecewright new gull.piece          a lighthouse in two units, ready to build and to change
  piecewright new -                   the same, on the screen")]
pub struct New {
    /// The source to write; `-` for standard output
    #[arg(value_name = "NAME.piece")]
    pub file: PathBuf,
    /// Write it even if there is such a file
    #[arg(long)]
    pub force: bool,
}

/// Say what is the matter with a source; write nothing
#[derive(Debug, Args)]
#[command(after_help = "\
The faults are the result: they go to standard output, the count of them to standard error.

Examples:
  piecewright check gull.piece
  piecewright check patterns/*.piece --deny-warnings
  piecewright check --format json - < gull.piece")]
pub struct Check {
    /// The sources; `-` for standard input
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
    #[command(flatten)]
    pub reading: Reading,
    #[command(flatten)]
    pub showing: Showing,
}

/// Make the packet of a source: a folder with all that is printed, shown and cut
#[derive(Debug, Args)]
#[command(after_help = "\
The folder is written whole or not at all. One that was built before is replaced.
Anything else in the way is left alone; --force sets it aside as FOLDER.old, and deletes nothing.
Faults go to standard error, with --format json to standard output.

Examples:
  piecewright build gull.piece                     the folder `gull` beside the source
  piecewright build gull.piece --size \"10 in\" -o gull-10
  piecewright build gull.piece --paper both --open
  piecewright build gull.piece --sheets \"on roll 24 in\"
  piecewright build gull.piece --for testers       every page marked, with a report to fill in
  piecewright build gull.piece --blocks 12         for twelve of each block
  piecewright build gull.piece --class 8           cloth and pieces for eight people
  piecewright build gull.piece --have \"1/2 yd sky\" --have \"3 fat-quarters sea\"
  piecewright build gull.piece --with \"sky as sea, sea as sky\"
  piecewright build gull.piece --unit wing -o wing one paper and its steps
  piecewright build gull.piece --sheets-only -o again")]
pub struct Build {
    /// The source; `-` for standard input
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// The folder to write [default: beside the source, named like it; a part, such as `gull-wing`, `gull-sheets`]
    #[arg(short, long, value_name = "FOLDER")]
    pub output: Option<PathBuf>,
    /// The finished size, such as "10 in" [default: the source's]
    #[arg(long)]
    pub size: Option<String>,
    /// The paper to print on [default: the source's]
    #[arg(long)]
    pub paper: Option<Sheet>,
    /// What foundations are printed on and how, in the words of a `sheets` line, such as "on tabloid, margin 1/4 in"
    #[arg(long, value_name = "WISHES")]
    pub sheets: Option<String>,
    /// A folder that was built before: foundations stay where they lie on its sheets as long as that takes no more paper
    #[arg(long, value_name = "FOLDER")]
    pub since: Option<PathBuf>,
    /// The colouring, by its key or its title [default: as drawn]
    #[arg(long, value_name = "NAME")]
    pub colouring: Option<String>,
    /// Fabrics of your own choice, exchanged all at once, such as "night as rose, glow as pearl"
    #[arg(long, value_name = "FABRICS")]
    pub with: Option<String>,
    /// The language of the packet, such as "de" [default: the source's, else English]
    #[arg(long, value_name = "CODE")]
    pub language: Option<String>,
    /// For whom the packet is
    #[arg(long = "for", value_name = "WHOM", default_value = "sewers")]
    pub audience: Whom,
    /// For so many of each block: more to cut, to buy and to print
    #[arg(long, value_name = "N")]
    pub blocks: Option<u32>,
    /// For a class of so many people: cloth and pieces for all of them, 1 to 1000
    #[arg(long = "class", value_name = "N")]
    pub people: Option<u32>,
    /// Cloth that you have already, in the words of a `have` line, such as "1/2 yd night"; as often as you like
    #[arg(long, value_name = "CLOTH")]
    pub have: Vec<String>,
    /// A file of the cloth that you have already: `have` lines, and comments
    #[arg(long, value_name = "FILE")]
    pub stash: Option<PathBuf>,
    /// Only one unit: its paper, its cutting, its steps
    #[arg(long, value_name = "NAME")]
    pub unit: Option<String>,
    /// Only the sheets of foundations
    #[arg(long)]
    pub sheets_only: bool,
    #[command(flatten)]
    pub planning: Planning,
    /// Set aside, as FOLDER.old, what is in the way
    #[arg(long)]
    pub force: bool,
    /// Show the packet when it is made
    #[arg(long)]
    pub open: bool,
    #[command(flatten)]
    pub reading: Reading,
    #[command(flatten)]
    pub showing: Showing,
}

/// Make what is published: all sizes and colourings, an archive for readers, and all it was made from
#[derive(Debug, Args)]
#[command(after_help = "\
Every size of the source as drawn and in each of its colourings, on all papers that it names, in one folder: the
packets as `build` makes them, an archive of them, the sources, and release.json, which tells the sum of every file.
The folder is written whole or not at all. The edition must be two numbers, such as \"1.0\".

Examples:
  piecewright release gull.piece                        the folder `gull-1.0` beside the source
  piecewright release patterns                          all patterns of a folder: `patterns-release`
  piecewright release gull.piece --since gull-1.0       compared with a release before: is the edition high enough?
  piecewright release --verify gull-1.0                 is every file as it was?
  piecewright release gull.piece --verify gull-1.0      and was it made of this source?")]
pub struct Release {
    /// The source, or a folder of sources
    #[arg(value_name = "SOURCE", required_unless_present = "verify")]
    pub file: Option<PathBuf>,
    /// The folder to write [default: beside the source, named like it and its edition; `FOLDER-release` for a folder]
    #[arg(short, long, value_name = "FOLDER")]
    pub output: Option<PathBuf>,
    /// The folder of the release before: the edition must rise by what changed, and foundations stay where they lay
    #[arg(long, value_name = "FOLDER")]
    pub since: Option<PathBuf>,
    /// Write nothing; say whether the release in this folder is as it was, and whether it was made of the source
    #[arg(long, value_name = "FOLDER", conflicts_with_all = ["output", "language", "thorough", "force"])]
    pub verify: Option<PathBuf>,
    /// The language of the packets, such as "de" [default: the source's, else English]
    #[arg(long, value_name = "CODE")]
    pub language: Option<String>,
    #[command(flatten)]
    pub planning: Planning,
    /// Set aside, as FOLDER.old, what is in the way
    #[arg(long)]
    pub force: bool,
    #[command(flatten)]
    pub reading: Reading,
    #[command(flatten)]
    pub showing: Showing,
}

/// Say with how few papers a source can be sewn, and how
#[derive(Debug, Args)]
#[command(after_help = "\
All sections and patches are planned anew: into the fewest papers that straight seams allow, among these with
the fewest match points, and so on in the order of the `wishes` line. The source stays as it is unless you ask
for --write.

Examples:
  piecewright plan gull.piece                 the tree of straight cuts of each block
  piecewright plan gull.piece --figures plan  the same as drawings: a folder with one of each block
  piecewright plan gull.piece --units         the same as units and joins, to paste into a source
  piecewright plan gull.piece --write         patches and seam lines in the source become units
  piecewright plan gull.piece --format json")]
pub struct Plan {
    /// The source; `-` for standard input
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// Tell the plan as units and joins in the notation
    #[arg(long, conflicts_with = "write")]
    pub units: bool,
    /// Draw the plan of each block into this folder, as SVG; of a block that cannot be planned, what is stuck
    #[arg(long, value_name = "FOLDER")]
    pub figures: Option<PathBuf>,
    /// Write the plan into the source: patches and seam lines become units, all else stays
    #[arg(long)]
    pub write: bool,
    #[command(flatten)]
    pub planning: Planning,
    #[command(flatten)]
    pub reading: Reading,
    #[command(flatten)]
    pub showing: Showing,
}

/// Lay sources out: blanks, columns and spellings; what they say stays as it is
#[derive(Debug, Args)]
#[command(after_help = "\
Sources are written anew where they stand, each whole or not at all; one that is laid out already is not touched.
What is not understood stays as it is. A source whose braces or quotes do not pair is left alone.
Faults go to standard error, with --format json to standard output.

Examples:
  piecewright fmt gull.piece          one source
  piecewright fmt patterns            all sources in a folder, and in the folders in it
  piecewright fmt --check patterns    only name those that would change
  piecewright fmt --diff gull.piece   only show what would change
  piecewright fmt - < gull.piece      from standard input to standard output")]
pub struct Fmt {
    /// The sources, or folders of them; `-` from standard input to standard output
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
    /// Write nothing; name the sources that are not laid out. Exit code 1 if there are any
    #[arg(long)]
    pub check: bool,
    /// Write nothing; show what would change, line by line. Exit code 1 if anything would
    #[arg(long)]
    pub diff: bool,
    #[command(flatten)]
    pub showing: Showing,
}

/// Say what changed between two sources, and who must print, cut, buy or sew what again
#[derive(Debug, Args)]
#[command(after_help = "\
Compared is what the sources compile to, foundation by foundation: lines that only moved are no change.
OLD and NEW are sources, folders of them, or what git holds: REV:path, from the root of the repository, or
REV:./path, from here; `:path` is what is staged.
Exit codes: 0 the same, 1 they differ, 2 they could not be compared.

Examples:
  piecewright diff gull-1.0.piece gull.piece
  piecewright diff HEAD:./gull.piece gull.piece          since the last commit
  piecewright diff v1:patterns patterns --format markdown -o changes.md
  piecewright diff HEAD~1:./gull.piece gull.piece --picture moved.svg")]
pub struct Diff {
    /// The earlier source, folder or revision
    #[arg(value_name = "OLD")]
    pub old: String,
    /// The later source, folder or revision
    #[arg(value_name = "NEW")]
    pub new: String,
    /// How to tell it
    #[arg(long, value_name = "HOW", default_value = "text")]
    pub format: Manner,
    /// The file to write it to [default: standard output]
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// Draw both over each other into this file, what moved marked
    #[arg(long, value_name = "FILE.svg")]
    pub picture: Option<PathBuf>,
    /// The finished size, such as "10 in" [default: the source's]
    #[arg(long)]
    pub size: Option<String>,
    /// The colouring, by its key or its title [default: as drawn]
    #[arg(long, value_name = "NAME")]
    pub colouring: Option<String>,
    /// The language in which it is told, such as "de" [default: English]
    #[arg(long, value_name = "CODE")]
    pub language: Option<String>,
    /// Whether to use colours
    #[arg(long, value_name = "WHEN", default_value = "auto")]
    pub color: Colour,
    #[command(flatten)]
    pub reading: Reading,
}

/// Write one unit, or all pieces of a fabric, as a drawing for a cutting machine
#[derive(Debug, Args)]
#[command(after_help = "\
The drawing is SVG at true size, a layer for each thing to do: cut, draw (seams and ticks), numbers, check.
A foundation lies printed side up, as on a sheet, and fabric right side up. What takes several mats becomes
several files: name-1.svg, name-2.svg, ...

Examples:
  piecewright machine gull.piece --unit wing                  gull-wing.svg beside the source
  piecewright machine gull.piece --unit wing --copies 4 --mat \"12 x 24 in\"
  piecewright machine gull.piece --fabric sky -o sky.svg       all pieces of a fabric
  piecewright machine gull.piece --unit wing --colours draw=#ff00ff -o - > wing.svg")]
pub struct Machine {
    /// The source; `-` for standard input
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// The foundation of this unit, in each hand and set of fabrics in which it is sewn
    #[arg(long, value_name = "NAME", conflicts_with = "fabric")]
    pub unit: Option<String>,
    /// All pieces that are cut of this fabric, by its key
    #[arg(long, value_name = "KEY")]
    pub fabric: Option<String>,
    /// So many of each foundation, 1 to 1000 [default: 1]
    #[arg(long, value_name = "N", conflicts_with = "fabric", value_parser = clap::value_parser!(u32).range(1..=1000))]
    pub copies: Option<u32>,
    #[command(flatten)]
    pub turned_over: TurnedOver,
    /// Width and height of the area in which the machine cuts
    #[arg(long, value_name = "SIZE", default_value = "12 x 12 in", value_parser = machine::mat)]
    pub mat: (Length, Length),
    /// Other colours of layers, such as "cut=#ff0000,draw=#0000ff,numbers=#000000,check=#00ff00"
    #[arg(long, value_name = "COLOURS", value_parser = machine::colours)]
    pub colours: Option<Colours>,
    /// The drawing to write; `-` for standard output [default: beside the source, named like it and what is cut]
    #[arg(short, long, value_name = "FILE.svg")]
    pub output: Option<PathBuf>,
    /// The finished size, such as "10 in" [default: the source's]
    #[arg(long)]
    pub size: Option<String>,
    /// The colouring, by its key or its title [default: as drawn]
    #[arg(long, value_name = "NAME")]
    pub colouring: Option<String>,
    /// For so many of each block: more pieces of a fabric
    #[arg(long, value_name = "N", conflicts_with = "unit")]
    pub blocks: Option<u32>,
    /// The language of the names of layers, such as "de" [default: the source's, else English]
    #[arg(long, value_name = "CODE")]
    pub language: Option<String>,
    /// Search some ten times as far as usual for a layout on fewer mats
    #[arg(long)]
    pub thorough: bool,
    /// Write over a file that is no drawing of a mat
    #[arg(long)]
    pub force: bool,
    #[command(flatten)]
    pub reading: Reading,
    #[command(flatten)]
    pub showing: Showing,
}

/// Tell more about a fault, or list all
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  piecewright explain                 all codes, with a line on each
  piecewright explain decimal-comma   one, with examples")]
pub struct Explain {
    /// The code, as it stands in brackets behind `error` or `warning`
    #[arg(value_name = "CODE")]
    pub code: Option<String>,
    /// Whether to use colours
    #[arg(long, value_name = "WHEN", default_value = "auto")]
    pub color: Colour,
}

/// Write the script that completes commands in a shell
#[derive(Debug, Args)]
#[command(after_help = "\
Example:
  piecewright completions bash > ~/.local/share/bash-completion/completions/piecewright")]
pub struct Completions {
    /// The shell
    pub shell: clap_complete::Shell,
}

/// Which side of what is cut lies up.
#[derive(Debug, Args)]
pub struct TurnedOver {
    /// The foundation with its front up instead of its printed side
    #[arg(long, conflicts_with = "fabric")]
    pub front: bool,
    /// The fabric with its wrong side up instead of its right side
    #[arg(long, conflicts_with = "unit")]
    pub wrong_side_up: bool,
}

/// How patches are planned into papers.
#[derive(Debug, Args)]
pub struct Planning {
    /// Let the planner search sixteen times as far as usual for what is not proved; a packet says so
    #[arg(long)]
    pub thorough: bool,
}

/// Where shared files come from.
#[derive(Debug, Args)]
pub struct Reading {
    /// The folder that `use` lines start from and may not leave [default: the source's own]
    #[arg(long, value_name = "FOLDER")]
    pub project: Option<PathBuf>,
}

/// How faults are shown.
#[derive(Debug, Args)]
pub struct Showing {
    /// How to show faults
    #[arg(long, value_name = "HOW", default_value = "full")]
    pub format: Format,
    /// Whether to use colours
    #[arg(long, value_name = "WHEN", default_value = "auto")]
    pub color: Colour,
    /// Show at most so many faults, errors before warnings, or `all` [default: 20; json: all]
    #[arg(long, value_name = "N", value_parser = most)]
    pub most: Option<usize>,
    /// Let warnings count as errors
    #[arg(long)]
    pub deny_warnings: bool,
    /// Say nothing but faults
    #[arg(short, long)]
    pub quiet: bool,
}

/// The manners of showing faults.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// With the lines they are about
    Full,
    /// The same in words alone, for screen readers
    Plain,
    /// One a line: `file:line:column: error[code]: message`
    Concise,
    /// One JSON object a line, for programs
    Json,
}

/// The manners of telling what changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Manner {
    /// For a terminal
    Text,
    /// For a page, a message, a comment on a proposed change
    Markdown,
    /// For programs, as docs/revision.schema.json says
    Json,
}

/// When to use colours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Colour {
    /// On a terminal, unless `NO_COLOR` is set
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

/// A kind of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Sheet {
    /// 8 1/2 x 11 in
    Letter,
    /// 210 x 297 mm
    A4,
    /// Both, each as a PDF of its own
    Both,
}

/// For whom a packet is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Whom {
    /// For those who sew
    Sewers,
    /// For those who try it first: every page is marked, and there is a report to fill in
    Testers,
}

fn most(text: &str) -> Result<usize, String> {
    match text {
        "all" => Ok(usize::MAX),
        _ => text.parse().ok().filter(|&n| n > 0).ok_or_else(|| String::from("write a number from 1, or `all`")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_command_line_is_sound() {
        use clap::CommandFactory;
        Arguments::command().debug_assert();
        assert_eq!(most("all"), Ok(usize::MAX));
        assert!(most("0").is_err());
    }
}
