//! What is published: all sizes and colourings of one pattern or of several, with an archive for readers and all that they were made from.
//!
//! [`make()`] compiles every pattern to all its models (`compiled`), compares them with a release before (`weigh`) and only then makes the packets
//! (`packets`), the archive and the [`Manifest`]. [`intact()`] holds a release against what it tells of itself.

mod archive;
mod change;
mod compiled;
mod former;
mod manifest;
mod names;
mod notes;
mod packets;
mod shelf;
mod verify;
mod weigh;

use std::collections::BTreeSet;

use super::{Artifact, Options, Tally, stem};
use crate::fault::{Fault, Label, release as faults};
use crate::notation;
use crate::notation::source::{SourceText, Sources};
use crate::pattern::{self, Shelf};
pub use crate::revision::{Edition, Raise};
pub use archive::sha256;
use compiled::{Compiled, edition_line};
pub use former::Former;
pub use manifest::{FileTold, MANIFEST, Manifest, PacketTold, PatternTold, SOURCE, Since, SourceTold};
use packets::Packets;
pub use shelf::Files;
use shelf::{Kept, Recording};
pub use verify::{Finding, Reader, Wrong, differences, intact};
use weigh::{Step, Steps};

/// A pattern to release.
#[derive(Debug, Clone)]
pub struct Source {
    /// What faults call it.
    pub name: String,
    /// Its path in the project, with forward slashes.
    pub path: String,
    /// Its text.
    pub text: String,
}

/// What is asked of a release.
#[derive(Default)]
pub struct Asked<'a> {
    /// Its name, after which the archive is called.
    pub name: &'a str,
    /// Whether the planner searches sixteen times as far as usual.
    pub thorough: bool,
    /// The language, by its code of ISO 639; nothing for that of each source.
    pub language: Option<String>,
    /// The release before.
    pub since: Option<&'a Former>,
}

/// What came of it.
pub struct Released {
    /// For each pattern all texts that were read, and what is the matter, in order of place.
    pub judged: Vec<(Sources, Vec<Fault>)>,
    /// The release; nothing when there are errors.
    pub made: Option<Made>,
    /// What there is to know besides, a sentence each.
    pub notes: Vec<String>,
}

/// A release.
pub struct Made {
    /// What it tells of itself.
    pub manifest: Manifest,
    /// All its files, the manifest among them.
    pub files: Vec<Artifact>,
    /// What is to be printed of each packet, by its folder.
    pub tallies: Vec<(String, Vec<Tally>)>,
}

/// Why no release could be made, where no source is at fault.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refused {
    /// What is the matter.
    pub message: String,
    /// What to do.
    pub help: String,
}

impl Refused {
    fn new(message: impl Into<String>, help: impl Into<String>) -> Self {
        Self { message: message.into(), help: help.into() }
    }
}

/// Whether a source is a pattern, or means to be one; otherwise it is a file that patterns share.
#[must_use]
pub fn is_pattern(text: &str) -> bool {
    notation::parse(0, text).0.items.iter().any(|item| pattern::is_of_pattern(&item.value))
}

/// The edition that a source states, if it can be released.
#[must_use]
pub fn edition_of(text: &str) -> Option<Edition> {
    edition_line(text).and_then(|line| Edition::parse(&line.value))
}

/// All that is read for a pattern, by its place in a release.
#[must_use]
pub fn sources(source: &Source, shelf: &dyn Shelf) -> Files {
    let kept = Kept::default();
    let recording = Recording::new(shelf, &kept);
    _ = pattern::read_sources(&source.name, &source.text, &recording);
    let shared = recording.taken().into_iter().map(|(path, bytes)| (format!("{SOURCE}{path}"), bytes));
    let own = (format!("{SOURCE}{}", source.path), source.text.clone().into_bytes());
    shared.chain([own]).collect()
}

/// Makes a release of all these patterns. `progress` is told, now and then, what is being done.
///
/// # Errors
/// What hinders it that is no fault of a source.
pub fn make(
    sources: &[Source],
    shelf: &dyn Shelf,
    asked: &Asked<'_>,
    progress: &mut dyn FnMut(&str),
) -> Result<Released, Refused> {
    let options = Options { thorough: asked.thorough, language: asked.language.clone(), ..Options::default() };
    let kept = Kept::default();
    let mut compiled = Vec::new();
    let mut read = Vec::new();
    for source in sources {
        progress(&format!("proving that {} can be sewn", stem(&source.path)));
        let recording = Recording::new(shelf, &kept);
        let mut pattern = Compiled::of((&source.name, &source.text), &recording, &options);
        pattern.name = stem(&source.path);
        read.push(recording.taken());
        compiled.push(pattern);
    }
    let editions = editions(&mut compiled);
    let mut steps = Steps { of: compiled.iter().map(|_| None).collect(), notes: Vec::new() };
    let is_sound = |compiled: &[Compiled]| compiled.iter().all(Compiled::is_sound);
    if let (Some(former), true) = (asked.since, is_sound(&compiled)) {
        steps = weigh::steps(&compiled, former, progress)?;
        let patterns: Vec<(Edition, &Compiled)> = editions.iter().flatten().copied().zip(&compiled).collect();
        for (index, fault) in steps.judged(&patterns, former) {
            if let Some(pattern) = compiled.get_mut(index) {
                pattern.faults.add(vec![fault], None);
            }
        }
    }
    let mut made = None;
    if is_sound(&compiled) {
        let mut packets = Packets::default();
        for (index, pattern) in compiled.iter_mut().enumerate() {
            packets.add(pattern, (steps.of.get(index).and_then(Option::as_ref), asked.since), &options, progress)?;
        }
        if is_sound(&compiled) {
            steps.notes.extend(notes::notes(&compiled, &steps.of));
            progress("packing the archive");
            made = Some(finished(sources, &read, (&compiled, &steps), (packets, asked))?);
        }
    }
    let mut judged = compiled.into_iter().map(|pattern| (pattern.sources, pattern.faults.into_sorted())).collect();
    tell_once(&mut judged);
    Ok(Released { judged, made, notes: steps.notes })
}

/// Leaves out what was told of a shared file for a pattern before.
fn tell_once(judged: &mut Vec<(Sources, Vec<Fault>)>) {
    let mut told = BTreeSet::new();
    for (sources, faults) in judged {
        let place = |label: &Label| {
            let name = sources.get(label.span.file).map_or("", SourceText::name);
            (name.to_owned(), label.span.start, label.span.end)
        };
        faults.retain(|fault| {
            let is_shared = !fault.labels.is_empty() && fault.labels.iter().all(|label| label.span.file > 0);
            let places: Vec<_> = fault.labels.iter().map(place).collect();
            !is_shared || told.insert((fault.code, fault.message.clone(), places))
        });
    }
}

/// The editions of all patterns; one that is none becomes a fault.
fn editions(compiled: &mut [Compiled]) -> Vec<Option<Edition>> {
    let edition = |pattern: &mut Compiled| {
        let edition = pattern.facts.as_ref()?.edition.clone();
        let parsed = Edition::parse(&edition);
        if parsed.is_none() {
            let fault = faults::edition_unfit(pattern.edition_span(), &edition);
            pattern.faults.add(vec![fault], None);
        }
        parsed
    };
    compiled.iter_mut().map(edition).collect()
}

/// The release of packets: with all that was read, the archive and the manifest.
fn finished(
    sources: &[Source],
    read: &[Files],
    (compiled, steps): (&[Compiled], &Steps<'_>),
    (packets, asked): (Packets, &Asked<'_>),
) -> Result<Made, Refused> {
    let Packets { mut files, told, tallies, .. } = packets;
    let patterns = compiled.iter().zip(told).zip(&steps.of).zip(sources.iter().zip(read));
    let patterns: Vec<PatternTold> = patterns
        .map(|(((pattern, packets), step), read)| pattern_told(pattern, packets, step.as_ref(), read))
        .collect();
    let day = patterns.iter().filter_map(|pattern| pattern.date.as_deref()).max();
    let name = format!("{}.zip", asked.name);
    let packed = packets::packed(&files, day)
        .map_err(|why| Refused::new(format!("the archive cannot be made: {why}"), "release fewer patterns at once"))?;
    files.extend(all_read(sources, read)?);
    files.push(Artifact { path: name.clone(), bytes: packed });
    unlike(&files)?;
    let manifest = Manifest::of((asked.thorough, asked.language.as_deref()), &name, patterns, &files);
    files.push(Artifact { path: MANIFEST.to_owned(), bytes: manifest.text().into_bytes() });
    Ok(Made { manifest, files, tallies })
}

/// What is told of a pattern: of its source and of what was read with it, of its packets, and of the release before.
fn pattern_told(
    pattern: &Compiled,
    packets: Vec<PacketTold>,
    step: Option<&Step<'_>>,
    (source, shared): (&Source, &Files),
) -> PatternTold {
    let told = |path: &str, bytes: &[u8]| SourceTold { path: format!("{SOURCE}{path}"), sha256: sha256(bytes) };
    let own = told(&source.path, source.text.as_bytes());
    let facts = pattern.facts.clone().unwrap_or_default();
    PatternTold {
        name: pattern.name.clone(),
        title: facts.title,
        edition: facts.edition,
        date: facts.date,
        since: step.map(|step| Since { edition: step.was.edition.clone() }),
        sources: std::iter::once(own).chain(shared.iter().map(|(path, bytes)| told(path, bytes))).collect(),
        packets,
    }
}

/// All that was read for any pattern, each file once.
fn all_read(sources: &[Source], read: &[Files]) -> Result<Vec<Artifact>, Refused> {
    let own = sources.iter().map(|source| (source.path.clone(), source.text.clone().into_bytes()));
    let mut all = Files::new();
    for (path, bytes) in own.chain(read.iter().flatten().map(|(path, bytes)| (path.clone(), bytes.clone()))) {
        if all.get(&path).is_some_and(|known| *known != bytes) {
            return Err(Refused::new(
                format!("two files would lie at `{SOURCE}{path}`"),
                "name the folder that holds all of them with `--project`",
            ));
        }
        all.insert(path, bytes);
    }
    Ok(all.into_iter().map(|(path, bytes)| Artifact { path: format!("{SOURCE}{path}"), bytes }).collect())
}

/// Refuses files that some systems would take for one another.
fn unlike(files: &[Artifact]) -> Result<(), Refused> {
    let mut known = BTreeSet::new();
    match files.iter().find(|file| !known.insert(file.path.to_lowercase())) {
        None => Ok(()),
        Some(file) => Err(Refused::new(
            format!("two files would be called `{}`, or differ only by capitals", file.path),
            "call one of them otherwise",
        )),
    }
}

#[cfg(test)]
#[path = "release/tests.rs"]
mod tests;
