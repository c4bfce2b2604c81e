//! What a release says when it is written.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::Path;

use piecewright::Tally;
use piecewright::release::{Made, Manifest, PacketTold, PatternTold};

use super::super::build::told;

/// What was done and what to do next.
pub fn report(target: &Path, made: &Made, aside: Option<&Path>) -> String {
    let aside = aside.and_then(Path::file_name).map(|name| target.with_file_name(name));
    let aside = aside.map(|path| format!("set aside {}\n", path.display())).unwrap_or_default();
    let packets = counted(made.tallies.len());
    let of_packet = |(folder, tallies): &(String, Vec<Tally>)| {
        let line = |tally| format!("{folder}: {}", told(tally, tallies.len() > 1));
        tallies.iter().map(line).collect::<Vec<_>>().concat()
    };
    let tallies = made.tallies.iter().map(of_packet).collect::<Vec<_>>().concat();
    let revised = made.manifest.patterns.iter().map(|pattern| revised(&made.manifest, pattern)).collect::<String>();
    let (files, archive) = (made.files.len(), target.join(&made.manifest.archive));
    let (target, archive) = (target.display(), archive.display());
    format!(
        "{aside}wrote {target} ({packets}, {files} files)\n{tallies}{revised}\
         publish {archive}, and keep the folder: the next release is compared with it\n"
    )
}

/// What is in a release for those who have the edition before of a pattern; nothing where none is told.
fn revised(manifest: &Manifest, pattern: &PatternTold) -> String {
    let Some(since) = &pattern.since else { return String::new() };
    let (name, was) = (&pattern.name, &since.edition);
    let mut lines = String::new();
    if manifest.file(&format!("{name}-changes.md")).is_some() {
        _ = writeln!(lines, "{name}-changes.md tells what changed since edition {was}");
    }
    // One for each paper that the packet is printed on.
    let of_packet = |packet: &PacketTold| -> BTreeSet<String> {
        let files = manifest.files.iter().filter_map(|file| file.path.strip_prefix(&format!("{}/", packet.folder)));
        let stem = format!("{name}-correction");
        let printed = |file: &&str| file.strip_prefix(&stem).is_some_and(|rest| rest.strip_suffix(".pdf").is_some());
        files.filter(printed).map(str::to_owned).collect()
    };
    let printed: Vec<BTreeSet<String>> = pattern.packets.iter().map(of_packet).collect();
    let count = printed.iter().filter(|files| !files.is_empty()).count();
    let names = printed.into_iter().flatten().collect::<BTreeSet<_>>().into_iter().collect::<Vec<_>>().join(", ");
    if count > 0 {
        let place = if count == pattern.packets.len() { String::from("each packet") } else { counted(count) };
        _ = writeln!(lines, "{names} in {place}: for those who have edition {was}");
    }
    lines
}

fn counted(packets: usize) -> String {
    if packets == 1 { String::from("1 packet") } else { format!("{packets} packets") }
}
