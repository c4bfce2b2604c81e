//! The packets of a release, each exactly as a build makes it.

use std::collections::BTreeMap;

use super::archive::{self, SUMS, sha256};
use super::compiled::{AtSize, Compiled};
use super::former::Former;
use super::manifest::PacketTold;
use super::weigh::Step;
use super::{Options, Refused, names};
use crate::front::{Artifact, Tally, artifacts};

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
        for (index, at) in models.iter().enumerate() {
            let folder = names::folder(name, &at.size, at.colouring.as_deref());
            let whose = format!("{name} at {}", at.words());
            if let Some(other) = self.folders.insert(folder.to_lowercase(), whose.clone()) {
                return Err(Refused::new(
                    format!("the packets of {other} and of {whose} would both lie in `{folder}`"),
                    "call one of the patterns or colourings otherwise, or release them apart",
                ));
            }
            let was = before.0.and_then(|step| *step.packets.get(index)?);
            let since = match (was, before.1) {
                (Some(was), Some(former)) => Some(former.sheets(was)?),
                _ => None,
            };
            let options = Options { since, ..options.clone() };
            let at_size = (index > 0).then(|| at.words());
            let mut tell = |what: &str| progress(&format!("{whose}: {what}"));
            let made = options.words(&at.model).and_then(|words| {
                artifacts::artifacts(name, &at.model, (options.brief(), options.since.as_ref()), &words, &mut tell)
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
        self.told.push(told);
        Ok(())
    }
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
