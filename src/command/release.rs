//! `piecewright release`: all sizes and colourings of one pattern or of a folder of them, in one folder and one archive.

mod read;
mod report;
mod standing;
mod verify;

use std::path::{Path, PathBuf};

use piecewright::release::{self, Former, Made, Refused, Released, SOURCE, Source};

use super::arguments::{Format, Release};
use super::input;
use super::packet_folder::PacketFolder;
use super::progress::Progress;
use super::shelf::Folder;
use super::show::{self, Judged};
use super::voice::{Screen, Voice};
use super::{Outcome, Trouble};
use read::Reading;

impl From<Refused> for Trouble {
    fn from(refused: Refused) -> Self {
        Self::new(refused.message).with_help(refused.help)
    }
}

/// Makes the release and writes it, or says why not; or looks at one that was made.
pub fn run(asked: &Release, voice: &mut Voice) -> Result<Outcome, Trouble> {
    if let Some(folder) = &asked.verify {
        return verify::run(asked, folder, voice);
    }
    let Some(file) = &asked.file else { return Err(Trouble::new("nothing was named that could be released")) };
    let reading = read::sources(file, asked.reading.project.as_deref())?;
    let target = target(asked, file, &reading)?;
    let root = reading.shelf.root().to_owned();
    let own = reading.sources.iter().map(|source| root.join(&source.path)).chain([file.clone(), root.clone()]);
    let packet = match place(&target, asked.since.as_deref(), &own.collect::<Vec<_>>()) {
        // A folder that nobody named is that of the release before only because the edition did not rise, and that is told first.
        Err(trouble) if asked.output.is_some() => return Err(trouble),
        packet => packet,
    };
    packet.as_ref().map_or(Ok(()), PacketFolder::recover)?;
    let former = asked.since.as_deref().map(read::former).transpose()?;

    let (judged, made, notes) = compile(asked, &target, reading, former.as_ref())?;
    let is_json = asked.showing.format == Format::Json;
    let screen = if is_json { Screen::output } else { Screen::error }(asked.showing.color);
    let shown = show::render(&judged, &asked.showing, screen);
    let speaks = !asked.showing.quiet && !is_json;
    if is_json {
        voice.say(&shown.text);
    } else {
        voice.tell(&shown.text);
    }
    if speaks && !shown.text.is_empty() {
        voice.tell(&shown.closing());
    }
    if speaks {
        for note in notes {
            voice.tell(&format!("{note}\n"));
        }
    }
    let outcome = shown.outcome(asked.showing.deny_warnings);
    let Some(made) = made.filter(|_| outcome == Outcome::Fine) else { return Ok(outcome) };
    // What the sources use is known only now.
    let read = made.files.iter().filter_map(|file| file.path.strip_prefix(SOURCE)).map(|path| root.join(path));
    place(&target, None, &read.collect::<Vec<_>>())?;
    let packet = packet?;
    let aside = match standing::hindrance(&target, &made.manifest) {
        Some(trouble) if !asked.force => return Err(trouble),
        Some(_) => packet.write_beside(&made.files)?,
        None => packet.write(&made.files, asked.force)?,
    };
    if speaks {
        voice.say(&report::report(&target, &made, aside.as_deref()));
    }
    Ok(Outcome::Fine)
}

/// The folder to write. Neither the release before may suffer from it, nor what is to be kept, nor the folder one works in.
fn place(target: &Path, since: Option<&Path>, keep: &[PathBuf]) -> Result<PacketFolder, Trouble> {
    if let Some(since) = since {
        let refuse = || {
            let (target, since) = (target.display(), since.display());
            let what =
                format!("`{target}` cannot become a release: it is, holds or lies in `{since}`, the release before");
            Trouble::new(what).with_help("name another folder with `-o FOLDER`, and keep the release before as it is")
        };
        let packet = PacketFolder::at(target, &[since]).map_err(|_| refuse())?;
        if packet.lies_in(since) {
            return Err(refuse());
        }
    }
    let keep: Vec<&Path> = keep.iter().map(PathBuf::as_path).chain([Path::new(".")]).collect();
    PacketFolder::at(target, &keep)
}

/// What the tool found out about each source, the release, and what else there is to say.
type Compiled = (Vec<Judged>, Option<Made>, Vec<String>);

fn compile(asked: &Release, target: &Path, reading: Reading, former: Option<&Former>) -> Result<Compiled, Trouble> {
    let Reading { sources, unfit, skipped, shelf, folder } = reading;
    let mut judged = unfit;
    let mut notes: Vec<String> = skipped
        .iter()
        .map(|path| format!("left out {}: it is no pattern, but a file to share", path.display()))
        .collect();
    // What cannot be read at all hinders the release; of the others the faults are told nevertheless.
    let hindered = !judged.is_empty();
    let asks = release::Asked {
        name: &name(target)?,
        thorough: asked.planning.thorough,
        language: asked.language.clone(),
        since: former.filter(|_| !hindered),
    };
    let Released { judged: found, made, notes: more } = make(asked, &sources, &shelf, &asks)?;
    judged.extend(found.into_iter().map(|(sources, faults)| Judged { sources, faults, folder: folder.clone() }));
    notes.extend(more);
    Ok((judged, made.filter(|_| !hindered), notes))
}

/// Makes a release, and tells a person how far it is.
fn make(asked: &Release, sources: &[Source], shelf: &Folder, asks: &release::Asked<'_>) -> Result<Released, Trouble> {
    let visible = Screen::error(asked.showing.color).terminal && !asked.showing.quiet;
    let progress = Progress::start(visible);
    Ok(release::make(sources, shelf, asks, &mut |what| progress.doing(what))?)
}

/// Where the release goes: where it was asked for, or beside the source.
fn target(asked: &Release, file: &Path, reading: &Reading) -> Result<PathBuf, Trouble> {
    if let Some(output) = &asked.output {
        // Without a slash at the end, so that a name can be put together from it.
        return Ok(output.components().collect());
    }
    let beside = |file: &Path, ending: &str| {
        let mut name = if file.is_dir() { file.file_name() } else { file.file_stem() }?.to_owned();
        name.push(ending);
        Some(file.with_file_name(name))
    };
    if file.is_dir() {
        // `.` and `..` have names only as they really are.
        let real =
            if file.file_name().is_some() { file.components().collect() } else { reading.shelf.root().to_owned() };
        return beside(&real, "-release").ok_or_else(|| {
            Trouble::new(format!("nothing can lie beside `{}`", file.display()))
                .with_help("say where the release goes: `-o FOLDER`")
        });
    }
    let edition = reading.sources.first().and_then(|source| release::edition_of(&source.text));
    // Without an edition nothing will be written.
    let ending = edition.map_or_else(|| String::from("-release"), |edition| format!("-{edition}"));
    beside(file, &ending).ok_or_else(|| Trouble::new(format!("`{}` has no name", file.display())))
}

/// The name of a release, after which its archive is called.
fn name(target: &Path) -> Result<String, Trouble> {
    // Of a folder such as `..`, as it really is.
    let real =
        if target.file_name().is_some() { target.to_owned() } else { std::path::absolute(target).unwrap_or_default() };
    let name = real.file_name().and_then(|name| name.to_str()).map(str::to_owned);
    name.ok_or_else(|| {
        Trouble::new(format!("`{}` is no name for a release", target.display()))
            .with_help("name the folder with letters that every system knows: `-o FOLDER`")
    })
}

/// The folder of a project: the one that was named, or that of the source.
fn project(file: &Path, named: Option<&Path>) -> PathBuf {
    match named {
        Some(named) => named.to_owned(),
        None if file.is_dir() => file.to_owned(),
        None => input::folder_of(file),
    }
}
