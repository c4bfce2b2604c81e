//! What a release tells of itself: `release.json`, a promise to other programs, described by `docs/release.schema.json`.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::archive::sha256;
use crate::front::{Artifact, leads_down};
use crate::revision::Edition;

/// The name of the file.
pub const MANIFEST: &str = "release.json";
/// The folder of all that was read.
pub const SOURCE: &str = "source/";
/// The number of the shape; it rises when a reader of the old shape would misread the new one.
const SCHEMA: u32 = 1;
/// Who makes such files.
const MADE_BY: &str = "piecewright";

/// What a release tells of itself.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Manifest {
    schema: u32,
    made_by: String,
    /// The version of the program.
    pub version: String,
    /// Whether the planner searched further than usual.
    pub thorough: bool,
    /// The language that was asked for; none for that of each source.
    pub language: Option<String>,
    /// The file for readers.
    pub archive: String,
    /// The patterns, by name.
    pub patterns: Vec<PatternTold>,
    /// Every file of the release but this one, by path.
    pub files: Vec<FileTold>,
}

/// A pattern of a release.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PatternTold {
    /// The name of its source without folders and ending.
    pub name: String,
    /// Its title.
    pub title: String,
    /// Its edition.
    pub edition: String,
    /// The day of this edition, as the author gives it.
    pub date: Option<String>,
    /// The edition of the release that this one was made after.
    pub since: Option<Since>,
    /// All that was read for it, its own source in front.
    pub sources: Vec<SourceTold>,
    /// Its packets.
    pub packets: Vec<PacketTold>,
}

/// The release before, as far as a pattern is concerned.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Since {
    /// Its edition of the pattern.
    pub edition: String,
}

/// A text or a picture that was read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SourceTold {
    /// Where it lies in the release.
    pub path: String,
    /// Its sum.
    pub sha256: String,
}

/// A packet of a pattern.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PacketTold {
    /// Its folder.
    pub folder: String,
    /// The finished size.
    pub size: String,
    /// The colouring, by its key; none as drawn.
    pub colouring: Option<String>,
    /// The papers it is printed on, the main one in front.
    pub papers: Vec<String>,
    /// The sum of its `model.json`.
    pub model_sha256: String,
}

/// A file of a release.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FileTold {
    /// Its path.
    pub path: String,
    /// How many bytes it has.
    pub bytes: u64,
    /// Its sum.
    pub sha256: String,
}

impl PacketTold {
    /// Where its `model.json` lies in the release.
    #[must_use]
    pub fn model_path(&self) -> String {
        format!("{}/model.json", self.folder)
    }
}

impl Manifest {
    /// Tells of these patterns and files, made by this program; `how` is whether it searched further than usual, and in what language.
    pub(super) fn of(
        how: (bool, Option<&str>),
        archive: &str,
        mut patterns: Vec<PatternTold>,
        files: &[Artifact],
    ) -> Self {
        let file = |file: &Artifact| FileTold {
            path: file.path.clone(),
            bytes: file.bytes.len() as u64,
            sha256: sha256(&file.bytes),
        };
        let mut files: Vec<FileTold> = files.iter().map(file).collect();
        files.sort_by(|a, b| a.path.cmp(&b.path));
        patterns.sort_by(|a, b| a.name.cmp(&b.name));
        Self {
            schema: SCHEMA,
            made_by: MADE_BY.to_owned(),
            version: env!("CARGO_PKG_VERSION").to_owned(),
            thorough: how.0,
            language: how.1.map(str::to_owned),
            archive: archive.to_owned(),
            patterns,
            files,
        }
    }

    /// The file's text.
    #[must_use]
    pub fn text(&self) -> String {
        // Writing texts, numbers and lists into memory cannot fail.
        let text = serde_json::to_string_pretty(self);
        debug_assert!(text.is_ok());
        text.unwrap_or_default() + "\n"
    }

    /// Reads the file's text, and looks whether it can be true.
    ///
    /// # Errors
    /// Why it tells of no release, in words.
    pub fn read(text: &str) -> Result<Self, String> {
        #[derive(Deserialize)]
        struct Head {
            schema: u32,
            made_by: String,
        }
        let head: Head = serde_json::from_str(text).map_err(|error| error.to_string())?;
        if head.made_by != MADE_BY {
            return Err(String::from("it was made by another program"));
        }
        if head.schema != SCHEMA {
            return Err(format!("it has the shape {}, and this version of the program knows {SCHEMA}", head.schema));
        }
        let manifest: Self = serde_json::from_str(text).map_err(|error| error.to_string())?;
        manifest.holds_together()?;
        Ok(manifest)
    }

    /// The file at this path.
    #[must_use]
    pub fn file(&self, path: &str) -> Option<&FileTold> {
        let place = self.files.binary_search_by(|file| file.path.as_str().cmp(path)).ok()?;
        self.files.get(place)
    }

    /// The files that the archive holds besides the sums: all packets.
    pub fn archived(&self) -> impl Iterator<Item = &FileTold> {
        self.files.iter().filter(|file| is_archived(&file.path))
    }

    /// Whether one part says what the other does.
    fn holds_together(&self) -> Result<(), String> {
        if !self.files.is_sorted_by(|a, b| a.path < b.path) {
            return Err(String::from("its files are not in order"));
        }
        if let Some(file) = self.files.iter().find(|file| !leads_down(&file.path)) {
            return Err(format!("`{}` is no path in a release", file.path));
        }
        let sum_of = |path: &str, sha256: &str| match self.file(path) {
            Some(file) if file.sha256 == sha256 => Ok(()),
            Some(_) => Err(format!("it tells two sums of `{path}`")),
            None => Err(format!("it does not list `{path}`")),
        };
        if self.file(&self.archive).is_none() || self.archive.contains('/') {
            return Err(format!("it does not list `{}`", self.archive));
        }
        let mut folders = BTreeSet::new();
        for pattern in &self.patterns {
            if Edition::parse(&pattern.edition).is_none() {
                return Err(format!("`{}` is no edition", pattern.edition));
            }
            if pattern.sources.is_empty() || pattern.sources.iter().any(|source| !source.path.starts_with(SOURCE)) {
                return Err(format!("`{}` has no source in `{SOURCE}`", pattern.name));
            }
            for source in &pattern.sources {
                sum_of(&source.path, &source.sha256)?;
            }
            for packet in &pattern.packets {
                sum_of(&packet.model_path(), &packet.model_sha256)?;
                if !folders.insert(&packet.folder) {
                    return Err(format!("it tells of `{}` twice", packet.folder));
                }
            }
        }
        Ok(())
    }

    /// The sums of all that was read, by path; `None` where a pattern is not in the release.
    #[must_use]
    pub fn sources_of(&self, name: &str) -> Option<BTreeMap<&str, &str>> {
        let pattern = self.patterns.iter().find(|pattern| pattern.name == name)?;
        Some(pattern.sources.iter().map(|source| (source.path.as_str(), source.sha256.as_str())).collect())
    }
}

/// What the name of a page ends in that tells what changed of a pattern.
pub(super) const CHANGES: &str = "-changes.md";

/// Whether readers get a file.
pub(super) fn is_archived(path: &str) -> bool {
    (path.contains('/') || path.ends_with(CHANGES)) && !path.starts_with(SOURCE)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::backend::schema;

    const SCHEMA_TEXT: &str = include_str!("../../../docs/release.schema.json");

    fn artifact(path: &str, text: &str) -> Artifact {
        Artifact { path: path.into(), bytes: text.into() }
    }

    fn manifest(since: Option<&str>) -> Manifest {
        let files = [
            artifact("gull-8-in/model.json", "{}"),
            artifact("gull-8-in/gull.pdf", "%PDF"),
            artifact("source/gull.piece", "pattern"),
            artifact("gull-1.0.zip", "PK"),
        ];
        let sum = |path: &str| sha256(&files.iter().find(|file| file.path == path).expect("a file").bytes);
        let pattern = PatternTold {
            name: "gull".into(),
            title: "Gull".into(),
            edition: "1.0".into(),
            date: since.map(|_| "2026-11-01".into()),
            since: since.map(|edition| Since { edition: edition.into() }),
            sources: vec![SourceTold { path: "source/gull.piece".into(), sha256: sum("source/gull.piece") }],
            packets: vec![PacketTold {
                folder: "gull-8-in".into(),
                size: "8 in".into(),
                colouring: since.map(|_| "dawn".into()),
                papers: vec!["letter".into(), "a4".into()],
                model_sha256: sum("gull-8-in/model.json"),
            }],
        };
        Manifest::of((false, since.map(|_| "de")), "gull-1.0.zip", vec![pattern], &files)
    }

    #[test]
    fn what_is_told_is_what_the_schema_says() {
        for manifest in [manifest(None), manifest(Some("0.9"))] {
            let told = manifest.text();
            assert_eq!(schema::fault(SCHEMA_TEXT, &told), None);
            let sum = sha256(b"pattern");
            assert!(schema::fault(SCHEMA_TEXT, &told.replace(&sum, "short")).is_some());
        }
    }

    #[test]
    fn the_schema_promises_every_key_and_no_other() {
        schema::promises_every_key_and_no_other(SCHEMA_TEXT);
    }

    #[test]
    fn what_is_told_is_read_again() {
        let manifest = manifest(Some("0.9"));
        assert_eq!(Manifest::read(&manifest.text()), Ok(manifest.clone()));
        let archived: Vec<&str> = manifest.archived().map(|file| file.path.as_str()).collect();
        assert_eq!(archived, ["gull-8-in/gull.pdf", "gull-8-in/model.json"]);
        assert_eq!(manifest.file("source/gull.piece").map(|file| file.bytes), Some(7));
        assert_eq!(manifest.file("source"), None);
    }

    #[test]
    fn what_cannot_be_true_is_not_believed() {
        let text = manifest(None).text();
        let (sum_of_source, sum_of_model) = (sha256(b"pattern"), sha256(b"{}"));
        for (old, new, why) in [
            ("\"schema\": 1", "\"schema\": 2", "the shape 2"),
            ("\"piecewright\"", "\"another\"", "another program"),
            ("\"thorough\": false,", "", "missing field"),
            ("\"thorough\"", "\"hasty\"", "unknown field"),
            ("gull-8-in/gull.pdf", "../gull.pdf", "not in order"),
            (
                "\"source/gull.piece\",\n      \"bytes\"",
                "\"source/../gull.piece\",\n      \"bytes\"",
                "no path in a release",
            ),
            ("\"edition\": \"1.0\"", "\"edition\": \"1\"", "no edition"),
            ("\"archive\": \"gull-1.0.zip\"", "\"archive\": \"other.zip\"", "does not list `other.zip`"),
            ("\"folder\": \"gull-8-in\"", "\"folder\": \"tern-8-in\"", "does not list `tern-8-in/model.json`"),
            (sum_of_source.as_str(), sum_of_model.as_str(), "two sums of `source/gull.piece`"),
            ("\"source/gull.piece\",\n          \"sha256\"", "\"gull.piece\",\n          \"sha256\"", "no source in"),
            ("{", "", ""),
        ] {
            assert!(text.contains(old), "{old}");
            let found = Manifest::read(&text.replacen(old, new, 1)).expect_err(new);
            assert!(found.contains(why), "{new}: {found}");
        }
    }
}
