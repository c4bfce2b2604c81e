//! The packets of a release, each exactly as a build makes it.

use std::collections::BTreeMap;

use super::archive::{self, SUMS, sha256};
use super::compiled::{AtSize, Compiled};
use super::former::Former;
use super::manifest::{CHANGES, PacketTold};
use super::weigh::{Before, Offer, Step};
use super::{Options, Refused, names};
use crate::backend::markdown;
use crate::front::{Artifact, Tally, artifacts};
use crate::model::Model;
use crate::packet::sheets;
use crate::packet::words::Words;
use crate::revision::{Revision, already, told};

/// The packets that are made so far.
#[derive(Default)]
pub struct Packets {
    /// Their files.
    pub files: Vec<Artifact>,
    /// What is told of them, pattern by pattern.
    pub told: Vec<Vec<PacketTold>>,
    /// What is to be printed of each, by its folder.
    pub tallies: Vec<(String, Vec<Tally>)>,
    // Folders in small letters, and whose they are.
    folders: BTreeMap<String, String>,
}

impl Packets {
    /// Adds all packets of a pattern; what is the matter with them joins its faults. A release before tells where their foundations lay.
    pub fn add(
        &mut self,
        pattern: &mut Compiled,
        before: (Option<&Step<'_>>, Option<&Former>),
        options: &Options,
        progress: &mut dyn FnMut(&str),
    ) -> Result<(), Refused> {
        let Compiled { name, faults, models, .. } = pattern;
        let mut told = Vec::new();
        // What changed, packet by packet, for those who announce it.
        let mut changes = String::new();
        if let (Some(step), Some(first)) = (before.0, models.first())
            && let Ok(words) = options.words(&first.model)
        {
            changes.push_str(&offer_page(step, &first.model, &words));
        }
        for (index, at) in models.iter_mut().enumerate() {
            let folder = names::folder(name, &at.size, at.colouring.as_deref());
            let whose = format!("{name} at {}", at.words());
            if let Some(other) = self.folders.insert(folder.to_lowercase(), whose.clone()) {
                return Err(Refused::new(
                    format!("the packets of {other} and of {whose} would both lie in `{folder}`"),
                    "call one of the patterns or colourings otherwise, or release them apart",
                ));
            }
            let was = before.0.and_then(|step| step.packets.get(index)?.as_ref());
            let since = match (was, before.1) {
                (Some(was), Some(former)) => Some(former.sheets(was.told)?),
                _ => None,
            };
            if let (Some(step), Some(was), Some(sheets)) = (before.0, was, &since) {
                tell_last_changes(&mut at.model, was, sheets, &step.was.edition);
            }
            let options = Options { since, ..options.clone() };
            let at_size = (index > 0).then(|| at.words());
            let mut tell = |what: &str| progress(&format!("{whose}: {what}"));
            let made = options.words(&at.model).and_then(|words| {
                let brief = (options.brief(), options.since.as_ref());
                let (mut files, tallies) = artifacts::artifacts(name, &at.model, brief, &words, &mut tell)?;
                let revised = was.and_then(|was| was.revised.as_ref());
                if let Some((was, revision)) = revised.filter(|(_, revision)| revision.concerns_readers()) {
                    files.extend(artifacts::correction(name, (was, &at.model), revision, &words)?);
                    changes.push_str(&change_page((was, &at.model), revision, &words));
                }
                Ok((files, tallies))
            });
            match made {
                Ok((files, tallies)) => {
                    told.push(packet_told(&folder, at, &files));
                    self.tallies.push((folder.clone(), tallies));
                    let path = |file: &Artifact| format!("{folder}/{}", file.path);
                    self.files.extend(files.into_iter().map(|file| Artifact { path: path(&file), ..file }));
                }
                Err(fault) => faults.add(vec![*fault], at_size.as_deref()),
            }
        }
        if !changes.is_empty() {
            self.files.push(Artifact { path: format!("{name}{CHANGES}"), bytes: changes.into_bytes() });
        }
        self.told.push(told);
        Ok(())
    }
}

/// Says of each foundation that is as it was in which edition it last changed: as the packet before says, or else in that packet's own.
fn tell_last_changes(model: &mut Model, before: &Before<'_>, sheets: &sheets::Former, edition: &str) {
    let Some((was, revision)) = &before.revised else { return };
    for (block_index, block) in model.blocks.iter_mut().enumerate() {
        for (index, variant) in block.variants.iter_mut().enumerate() {
            let former = revision.was(block_index, index).filter(|_| !revision.is_printed_anew(block_index, index));
            let named = former.and_then(|(block, variant)| {
                let block = was.blocks.get(block)?;
                Some((block.name.as_str(), block.variants.get(variant)?.id.as_str()))
            });
            variant.last_changed =
                named.map(|(block, variant)| sheets.last_changed(block, variant).unwrap_or(edition).to_owned());
        }
    }
}

/// Which sizes and colourings came and went, as Markdown; nothing where none did.
fn offer_page(step: &Step<'_>, now: &Model, words: &Words) -> String {
    let line = |offer: &Offer| {
        let (about, name) = match offer {
            Offer::Size { label, .. } => ("sizes", label),
            Offer::Colouring { title, .. } => ("colouring", title),
        };
        let what = words.change_said(about, "", "no");
        let told = if offer.is_gone() { words.change_said_gone(what, name) } else { words.change_said_new(what, name) };
        format!("- {}\n", markdown::escaped(&told))
    };
    if step.offers.is_empty() {
        return String::new();
    }
    let title = words.change_title(&step.was.edition, &now.facts.edition, "no");
    let heading = markdown::escaped(&format!("{} · {title}", now.facts.title));
    format!("## {heading}\n\n{}\n", step.offers.iter().map(line).collect::<String>())
}

/// What changed of a packet, as Markdown.
fn change_page((was, now): (&Model, &Model), revision: &Revision, words: &Words) -> String {
    let told = told(was, now, &revision.for_readers(), words);
    let colouring = now.colouring.as_ref().map(|colouring| format!(" · {colouring}")).unwrap_or_default();
    let title = format!("{} · {}{colouring} · {}", now.facts.title, now.size, told.title);
    let mut page = markdown::revision(&title, &told, 2);
    let already = already(was, now, revision, words);
    if !already.is_empty() {
        page.push_str(&markdown::list(&words.correction_already(), &already, 3));
    }
    format!("{page}\n")
}

fn packet_told(folder: &str, at: &AtSize, files: &[Artifact]) -> PacketTold {
    let model = files.iter().find(|file| file.path == "model.json");
    PacketTold {
        folder: folder.to_owned(),
        size: at.size.clone(),
        colouring: at.colouring.clone(),
        papers: at.model.papers.iter().map(|paper| paper.word().to_owned()).collect(),
        model_sha256: sha256(model.map_or(&[], |file| &file.bytes)),
    }
}

/// The archive of packets: their files, and the sums of these.
pub fn packed(files: &[Artifact], day: Option<&str>) -> Result<Vec<u8>, String> {
    let told: Vec<(&str, String)> = files.iter().map(|file| (file.path.as_str(), sha256(&file.bytes))).collect();
    let text = archive::sums(told.iter().map(|(path, sum)| (*path, sum.as_str())));
    let sums = Artifact { path: SUMS.to_owned(), bytes: text.into_bytes() };
    let all: Vec<&Artifact> = files.iter().chain([&sums]).collect();
    archive::pack(&all, day).map_err(|error| archive::reason(&error))
}
