//! `piecewright release --verify`: whether a release is as it was, and what it was made of.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use piecewright::release::{self, Asked, Finding, Former, MANIFEST, Manifest, Wrong, differences, intact, sha256};
use serde_json::json;

use super::super::arguments::{Format, Release};
use super::super::voice::Voice;
use super::super::{Outcome, Trouble};
use super::read::{self, Reading};

/// What came of the comparison with a source.
enum Origin {
    /// No source was named.
    NotAsked,
    /// These are other sources.
    Other,
    /// These are the sources, and they make the same bytes.
    Same,
    /// These are the sources, and they do not make the same bytes.
    OtherMade,
    /// These are the sources, and they have errors today.
    Faults,
    /// These are the sources; it was not made anew, and why.
    NotMade(String),
}

/// Looks at the release in a folder.
pub fn run(asked: &Release, folder: &Path, voice: &mut Voice) -> Result<Outcome, Trouble> {
    let manifest = read::manifest(folder)?;
    let present = read::present(folder)?;
    let mut findings = intact(&manifest, &present, &mut |path, most| read::file(folder, path, most));
    let is_intact = findings.is_empty();
    let (origin, more) = match &asked.file {
        None => (Origin::NotAsked, Vec::new()),
        Some(file) => origin(asked, file, &manifest)?,
    };
    findings.extend(more);
    let is_made_of = match origin {
        Origin::NotAsked => None,
        Origin::Same | Origin::NotMade(_) => Some(true),
        Origin::Other | Origin::OtherMade | Origin::Faults => Some(false),
    };
    if asked.showing.format == Format::Json {
        voice.say(&told(is_intact, is_made_of, &origin, &findings));
    } else {
        for finding in &findings {
            voice.say(&format!("{} {}\n", folder.join(&finding.path).display(), finding.wrong));
        }
        if !asked.showing.quiet {
            voice.tell(&closing(folder, &manifest, is_intact, &origin));
        }
    }
    Ok(if is_intact && is_made_of != Some(false) { Outcome::Fine } else { Outcome::Faults })
}

/// Whether a release was made of a source or of those in a folder.
fn origin(asked: &Release, file: &Path, manifest: &Manifest) -> Result<(Origin, Vec<Finding>), Trouble> {
    let reading = read::sources(file, asked.reading.project.as_deref())?;
    if let Some(unfit) = reading.unfit.iter().flat_map(|one| &one.faults).next() {
        return Err(Trouble::new(format!("the source cannot be compared: {}", unfit.message)));
    }
    let other = other_sources(&reading, manifest);
    if !other.is_empty() {
        return Ok((Origin::Other, other));
    }
    match (after(manifest), &asked.since) {
        (Some(editions), None) => {
            let why = format!(
                "it was made after edition {editions}: name the release of that with `--since`, \
                 and it is made anew and compared byte for byte"
            );
            Ok((Origin::NotMade(why), Vec::new()))
        }
        (Some(_), Some(since)) => {
            let former = read::former(since)?;
            let other = other_edition(manifest, former.manifest(), since).map_or(Ok(()), Err);
            other.and_then(|()| made_anew(asked, &reading, manifest, Some(&former)))
        }
        (None, _) => made_anew(asked, &reading, manifest, None),
    }
}

/// The editions that a release was made after; nothing where it stands for itself.
fn after(manifest: &Manifest) -> Option<String> {
    let since = manifest.patterns.iter().filter_map(|pattern| pattern.since.as_ref());
    let editions: BTreeSet<&str> = since.map(|since| since.edition.as_str()).collect();
    (!editions.is_empty()).then(|| editions.into_iter().collect::<Vec<_>>().join(", "))
}

/// Says that a release was made after another edition than the one that was named.
fn other_edition(manifest: &Manifest, former: &Manifest, since: &Path) -> Option<Trouble> {
    manifest.patterns.iter().find_map(|pattern| {
        let wanted = &pattern.since.as_ref()?.edition;
        let was = former.patterns.iter().find(|was| was.name == pattern.name && was.edition != *wanted)?;
        let (name, edition, since) = (&pattern.name, &pattern.edition, since.display());
        let what =
            format!("{name} {edition} was made after edition {wanted}, and `{since}` holds edition {}", was.edition);
        Some(Trouble::new(what).with_help(format!("name with `--since` the release of edition {wanted}")))
    })
}

/// How the sources at hand differ from those of a release.
fn other_sources(reading: &Reading, manifest: &Manifest) -> Vec<Finding> {
    let told = manifest.patterns.iter().flat_map(|pattern| &pattern.sources);
    let told: BTreeMap<&str, &str> = told.map(|source| (source.path.as_str(), source.sha256.as_str())).collect();
    let at_hand = reading.sources.iter().flat_map(|source| release::sources(source, &reading.shelf));
    let at_hand: Vec<(String, String)> = at_hand.map(|(path, bytes)| (path, sha256(&bytes))).collect();
    let now = at_hand.iter().map(|(path, sum)| (path.as_str(), sum.as_str())).collect();
    differences(&told, &now, [Wrong::OtherSource, Wrong::NoSource, Wrong::NewSource])
}

/// Makes a release anew, in memory, and compares every byte.
fn made_anew(
    asked: &Release,
    reading: &Reading,
    manifest: &Manifest,
    since: Option<&Former>,
) -> Result<(Origin, Vec<Finding>), Trouble> {
    let asks = Asked {
        name: manifest.archive.strip_suffix(".zip").unwrap_or(&manifest.archive),
        thorough: manifest.thorough,
        language: manifest.language.clone(),
        since,
    };
    let Some(made) = super::make(asked, &reading.sources, &reading.shelf, &asks)?.made else {
        return Ok((Origin::Faults, Vec::new()));
    };
    let words = [Wrong::OtherMade, Wrong::OtherMade, Wrong::OtherMade];
    let mut other = differences(&sums_of(manifest), &sums_of(&made.manifest), words);
    // The version alone may be another.
    let mut told = made.manifest;
    told.version.clone_from(&manifest.version);
    if other.is_empty() && told != *manifest {
        other.push(Finding { path: MANIFEST.to_owned(), wrong: Wrong::OtherMade });
    }
    Ok((if other.is_empty() { Origin::Same } else { Origin::OtherMade }, other))
}

/// The sums of all files of a release.
fn sums_of(manifest: &Manifest) -> BTreeMap<&str, &str> {
    manifest.files.iter().map(|file| (file.path.as_str(), file.sha256.as_str())).collect()
}

/// What was found, for programs.
fn told(is_intact: bool, is_made_of: Option<bool>, origin: &Origin, findings: &[Finding]) -> String {
    let anew = match origin {
        Origin::Same => Some(true),
        Origin::OtherMade | Origin::Faults => Some(false),
        _ => None,
    };
    let finding = |finding: &Finding| json!({ "path": finding.path, "wrong": finding.wrong.word() });
    let findings: Vec<_> = findings.iter().map(finding).collect();
    json!({ "intact": is_intact, "made_of_source": is_made_of, "same_bytes": anew, "findings": findings }).to_string()
        + "\n"
}

/// What was found, in words.
fn closing(folder: &Path, manifest: &Manifest, is_intact: bool, origin: &Origin) -> String {
    let shown = folder.display();
    let intact = if is_intact { "is intact: every file is as it was" } else { "is not intact" };
    let program = if manifest.version == env!("CARGO_PKG_VERSION") {
        String::new()
    } else {
        format!(" (version {} of the program made it, and this is {})", manifest.version, env!("CARGO_PKG_VERSION"))
    };
    let origin = match origin {
        Origin::NotAsked => String::new(),
        Origin::Other => String::from("it was not made of this source\n"),
        Origin::Same => String::from("it was made of this source: made anew, every byte is the same\n"),
        Origin::OtherMade => format!("this source does not make the same files{program}\n"),
        Origin::Faults => format!("this source has errors, which `piecewright check` tells{program}\n"),
        Origin::NotMade(why) => format!("all sources are those it was made of; {why}\n"),
    };
    format!("{shown} {intact}\n{origin}")
}
