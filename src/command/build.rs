//! `piecewright build`: from a source to its packet on the disk.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use piecewright::geometry::Length;
use piecewright::model::Paper;
use piecewright::packet::{Audience, Extent};
use piecewright::{Artifact, Options, Tally};

use super::arguments::{Build, Format, Sheet, Whom};
use super::input::{self, Content, Input};
use super::packet_folder::PacketFolder;
use super::progress::Progress;
use super::shelf::Folder;
use super::show::{self, Judged};
use super::voice::{Screen, Voice};
use super::{Outcome, Trouble};

/// Builds the packet and writes it, or says why not.
pub fn run(asked: &Build, voice: &mut Voice) -> Result<Outcome, Trouble> {
    let input = input::read(&asked.file)?;
    let target = target(asked)?;
    let project = asked.reading.project.clone().unwrap_or_else(|| input.folder.clone());
    let shelf = Folder::open(&project)?;
    let source = if input::is_standard(&asked.file) { Path::new(".") } else { &asked.file };
    let packet = PacketFolder::at(&target, &[source, shelf.root(), Path::new(".")])?;
    packet.recover()?;

    let options = options(asked)?;
    let (judged, artifacts, tallies) = compile(asked, &options, input, (project, &shelf));
    let judged = [judged];
    let is_json = asked.showing.format == Format::Json;
    let screen = if is_json { Screen::output } else { Screen::error }(asked.showing.color);
    let shown = show::render(&judged, &asked.showing, screen);
    if is_json {
        voice.say(&shown.text);
    } else {
        voice.tell(&shown.text);
    }
    if !asked.showing.quiet && !shown.text.is_empty() {
        voice.tell(&shown.closing());
    }
    let outcome = shown.outcome(asked.showing.deny_warnings);
    let Some(artifacts) = artifacts.filter(|_| outcome == Outcome::Fine) else {
        return Ok(outcome);
    };

    let aside = packet.write(&artifacts, asked.force)?;
    if !asked.showing.quiet && !is_json {
        voice.say(&report(&target, &artifacts, aside.as_deref(), &tallies));
    }
    if let Some(first) = first_to_see(&artifacts).filter(|_| asked.open) {
        let path = target.join(first);
        if open(&path).is_err() {
            voice.tell(&format!("piecewright: nothing was found to show `{}` with\n", path.display()));
        }
    }
    Ok(Outcome::Fine)
}

fn compile(
    asked: &Build,
    options: &Options,
    input: Input,
    (folder, shelf): (PathBuf, &Folder),
) -> (Judged, Option<Vec<Artifact>>, Vec<Tally>) {
    let text = match input.content {
        Content::Text(text) => text,
        Content::Unfit(sources, fault) => return (Judged { sources, faults: vec![fault], folder }, None, Vec::new()),
    };
    let visible = Screen::error(asked.showing.color).terminal && !asked.showing.quiet;
    let progress = Progress::start(visible);
    let built = piecewright::build(&input.name, &text, shelf, options, &mut |what| progress.doing(what));
    (Judged { sources: built.sources, faults: built.faults, folder }, built.artifacts, built.tallies)
}

/// What was asked for, as the library understands it.
fn options(asked: &Build) -> Result<Options, Trouble> {
    let stash = match &asked.stash {
        None => None,
        Some(path) => Some((format!("--stash {}", path.display()), input::stash(path)?)),
    };
    Ok(Options {
        size: asked.size.clone(),
        papers: match asked.paper {
            None => Vec::new(),
            Some(Sheet::Letter) => vec![Paper::Letter],
            Some(Sheet::A4) => vec![Paper::A4],
            Some(Sheet::Both) => vec![Paper::Letter, Paper::A4],
        },
        sheets: asked.sheets.clone(),
        since: asked.since.as_deref().map(input::former).transpose()?,
        colouring: asked.colouring.clone(),
        language: asked.language.clone(),
        blocks: asked.blocks,
        with: asked.with.clone(),
        have: asked.have.clone(),
        stash,
        people: asked.people,
        unit: asked.unit.clone(),
        audience: match asked.audience {
            Whom::Sewers => Audience::Sewers,
            Whom::Testers => Audience::Testers,
        },
        thorough: asked.planning.thorough,
        extent: if asked.sheets_only { Extent::Sheets } else { Extent::Whole },
    })
}

/// Where the packet goes: where it was asked for, or beside the source.
fn target(asked: &Build) -> Result<PathBuf, Trouble> {
    match &asked.output {
        // Without a slash at the end, so that a name can be put together from it.
        Some(output) => Ok(output.components().collect()),
        None if input::is_standard(&asked.file) => {
            Err(Trouble::new("a source from standard input has no folder of its own")
                .with_help("say where the packet goes: `-o FOLDER`"))
        }
        // A part of a packet does not take the place of the whole.
        None => {
            let part = match (&asked.unit, asked.sheets_only) {
                (Some(unit), true) => format!("-{unit}-sheets"),
                (Some(unit), false) => format!("-{unit}"),
                (None, true) => String::from("-sheets"),
                (None, false) => String::new(),
            };
            let mut name = asked.file.file_stem().unwrap_or_default().to_owned();
            // What no name of a file may hold is no name of a unit either, and that is told by the build.
            name.push(part.replace(['/', '\\'], "-"));
            Ok(asked.file.with_file_name(name))
        }
    }
}

/// What was done and what to do next.
fn report(target: &Path, artifacts: &[Artifact], aside: Option<&Path>, tallies: &[Tally]) -> String {
    // Named as the person sees it, like the target beside which it lies.
    let aside = aside.and_then(Path::file_name).map(|name| target.with_file_name(name));
    let set_aside = aside.map(|path| format!("set aside {}\n", path.display())).unwrap_or_default();
    let next = match first_to_see(artifacts) {
        Some(path) if is_print(path) => {
            let path = target.join(path);
            format!("print {} at 100 %, and measure the bar before you sew\n", path.display())
        }
        Some(path) => format!("look at {}\n", target.join(path).display()),
        None => String::new(),
    };
    let told: String = tallies.iter().map(|tally| told(tally, tallies.len() > 1)).collect();
    format!("{set_aside}wrote {} ({} files)\n{told}{next}", target.display(), artifacts.len())
}

/// What is to be printed, and how near that is to the least.
pub fn told(tally: &Tally, several: bool) -> String {
    let Tally { paper, printed, different, at_least, roll, foundations, kept } = *tally;
    let on = if several { format!(" on {}", paper.name()) } else { String::new() };
    let sheets = |count: u32| if count == 1 { String::from("1 sheet") } else { format!("{count} sheets") };
    let each = if u32::try_from(different) == Ok(printed) { String::new() } else { format!(", {different} different") };
    let inches = |length: Length| (length.to_inches() * 100.0).round() / 100.0;
    let each = roll.map_or(each, |(length, _)| format!(", {} in of the roll", inches(length)));
    let least = if let Some((_, least)) = roll {
        format!("at least {} in", inches(least))
    } else if printed <= at_least {
        String::from("as few as can be")
    } else {
        format!("at least {at_least}")
    };
    let kept = kept.map_or(String::new(), |kept| format!("; {kept} of {foundations} papers lie where they lay"));
    format!("foundations{on}: {}{each} ({least}){kept}\n", sheets(printed))
}

/// The file to look at first: what is printed, or else what is read on a screen.
fn first_to_see(artifacts: &[Artifact]) -> Option<&str> {
    let paths = || artifacts.iter().map(|artifact| artifact.path.as_str());
    paths().find(|path| is_print(path)).or_else(|| paths().find(|path| has_ending(path, "html")))
}

fn is_print(path: &str) -> bool {
    has_ending(path, "pdf")
}

fn has_ending(path: &str, ending: &str) -> bool {
    Path::new(path).extension().is_some_and(|found| found == ending)
}

/// Shows a file with what the system shows such files with; does not wait for it.
fn open(path: &Path) -> std::io::Result<()> {
    // Not a path that could be taken for an option.
    let path = std::path::absolute(path)?;
    let mut command = match std::env::consts::OS {
        "macos" => Command::new("open"),
        "windows" => Command::new("explorer"),
        _ => Command::new("xdg-open"),
    };
    command.arg(path).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().map(drop)
}
