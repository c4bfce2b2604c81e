//! A release that was made before.

use std::collections::BTreeSet;

use serde_json::Value;

use super::archive::sha256;
use super::compiled::Compiled;
use super::manifest::{FileTold, Manifest, PacketTold, PatternTold, SOURCE};
use super::shelf::Files;
use super::{Options, Refused};
use crate::backend::json;
use crate::model::Model;
use crate::packet::sheets;

/// A release that was made before: what it tells of itself, its sources and its models.
pub struct Former {
    manifest: Manifest,
    files: Files,
    /// What lies in `source/`, by its path in the project.
    sources: Files,
}

impl Former {
    /// The files that must be read of a release before another can follow it: its sources, and the models of its packets.
    pub fn needed(manifest: &Manifest) -> impl Iterator<Item = &FileTold> {
        let models: BTreeSet<String> =
            manifest.patterns.iter().flat_map(|pattern| &pattern.packets).map(PacketTold::model_path).collect();
        manifest.files.iter().filter(move |file| file.path.starts_with(SOURCE) || models.contains(&file.path))
    }

    /// A release with the files that are needed of it.
    ///
    /// # Errors
    /// The first of them that is not what the release tells, and how.
    pub fn try_new(manifest: Manifest, files: Files) -> Result<Self, String> {
        for told in Self::needed(&manifest) {
            match files.get(&told.path) {
                Some(bytes) if sha256(bytes) == told.sha256 => {}
                Some(_) => return Err(format!("`{}` is not as it was", told.path)),
                None => return Err(format!("`{}` is missing", told.path)),
            }
        }
        let in_project =
            |(path, bytes): (&String, &Vec<u8>)| Some((path.strip_prefix(SOURCE)?.to_owned(), bytes.clone()));
        let sources = files.iter().filter_map(in_project).collect();
        Ok(Self { manifest, files, sources })
    }

    /// What it tells of itself.
    pub fn manifest(&self) -> &Manifest {
        &self.manifest
    }

    /// For each pattern of today, by name and title, the one that it was: the one of its name; else, if its source may have been renamed, the one of its title,
    /// where no other that is left bears that title, neither then nor today. None is given to two.
    pub(super) fn patterns(&self, today: &[(&str, &str)]) -> Vec<Option<&PatternTold>> {
        let by_name = |name: &str| self.manifest.patterns.iter().find(|pattern| pattern.name == name);
        let mut found: Vec<Option<&PatternTold>> = today.iter().map(|(name, _)| by_name(name)).collect();
        let is_left = |pattern: &&PatternTold| !today.iter().any(|(name, _)| *name == pattern.name);
        let left: Vec<&PatternTold> = self.manifest.patterns.iter().filter(is_left).collect();
        let titles: Vec<&str> =
            today.iter().zip(&found).filter(|(_, was)| was.is_none()).map(|((_, title), _)| *title).collect();
        for ((_, title), was) in today.iter().zip(&mut found).filter(|(_, was)| was.is_none()) {
            let is_alone = titles.iter().filter(|other| *other == title).count() == 1;
            let mut bearing = left.iter().filter(|pattern| pattern.title == *title);
            if let (true, Some(one), None) = (is_alone, bearing.next(), bearing.next()) {
                *was = Some(one);
            }
        }
        found
    }

    /// Compiles a pattern of it anew.
    pub(super) fn compiled(&self, pattern: &PatternTold) -> Result<Compiled, Refused> {
        let path = pattern.sources.first().and_then(|source| source.path.strip_prefix(SOURCE)).unwrap_or_default();
        let text = self.sources.get(path).and_then(|bytes| std::str::from_utf8(bytes).ok()).unwrap_or_default();
        let options = Options { thorough: self.manifest.thorough, ..Options::default() };
        let compiled = Compiled::of((path, text), &self.sources, &options);
        if compiled.is_sound() {
            return Ok(compiled);
        }
        let first =
            compiled.faults.into_sorted().into_iter().find(|fault| fault.severity() == crate::fault::Severity::Error);
        let why = first.map(|fault| format!(": {}", fault.message)).unwrap_or_default();
        Err(Refused::new(
            format!("`{path}` of the release before has errors for this version of the program{why}"),
            "leave `--since` out, or use the version that made it, which its `release.json` tells",
        ))
    }

    /// Where the foundations of a packet lay.
    pub(super) fn sheets(&self, packet: &PacketTold) -> Result<sheets::Former, Refused> {
        let path = packet.model_path();
        sheets::Former::read(self.text(&path)).map_err(|why| {
            Refused::new(
                format!("`{path}` of the release before tells of no sheets: {why}"),
                "leave `--since` out: then sheets are filled from scratch",
            )
        })
    }

    /// Whether the model of a packet is the same when it is compiled today. Where its foundations lie does not belong to it.
    pub(super) fn compiles_alike(&self, packet: &PacketTold, model: &Model) -> bool {
        let parsed = |text: &str| {
            let mut value: Value = serde_json::from_str(text).ok()?;
            let root = value.as_object_mut()?;
            root.remove("printing");
            root.remove("sheets");
            // Neither does in which edition a foundation last changed.
            let blocks = root.get_mut("blocks").and_then(Value::as_array_mut).into_iter().flatten();
            let variants = blocks.filter_map(|block| block.get_mut("variants")?.as_array_mut()).flatten();
            for variant in variants.filter_map(Value::as_object_mut) {
                variant.remove("last_changed");
            }
            Some(value)
        };
        parsed(self.text(&packet.model_path())) == parsed(&json::model(model, &[], &[]))
    }

    fn text(&self, path: &str) -> &str {
        self.files.get(path).and_then(|bytes| std::str::from_utf8(bytes).ok()).unwrap_or_default()
    }
}
