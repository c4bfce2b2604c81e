//! The release that stands where a new one is to go: what was published is never replaced by something else of the same edition.

use std::path::Path;

use piecewright::release::{MANIFEST, Manifest, PatternTold};

use super::super::Trouble;
use super::read;

/// Why what stands at a place may not be replaced by a release, other than by force; nothing where it may.
pub fn hindrance(target: &Path, made: &Manifest) -> Option<Trouble> {
    // A link that leads nowhere and a folder that cannot be read are told of when it is written.
    if !target.join(MANIFEST).exists() {
        return None;
    }
    let shown = target.display();
    let aside = format!("set it aside as `{shown}.old` with `--force`");
    let Ok(standing) = read::manifest(target) else {
        let what = format!("`{shown}` is in the way: its `{MANIFEST}` cannot be read, so nobody knows what it holds");
        return Some(Trouble::new(what).with_help(format!("choose another folder with `-o FOLDER`, or {aside}")));
    };
    standing.patterns.iter().find_map(|was| {
        let now = made.patterns.iter().find(|now| now.name == was.name && now.edition == was.edition)?;
        let (name, edition) = (&was.name, &was.edition);
        if made.sources_of(name) != standing.sources_of(name) {
            let what = format!("`{shown}` is a release of {name} {edition} already, and it was made of other sources");
            let help = format!(
                "raise the edition and compare with the latest release, which may be this one: `--since {shown}`; \
                 or, if it was never published, {aside}"
            );
            return Some(Trouble::new(what).with_help(help));
        }
        let former = lost_since(was, now)?;
        let what = format!("`{shown}` is the release of {name} {edition} that was made after edition {former}");
        let help =
            format!("name with `--since` the release of edition {former}; or, if it was never published, {aside}");
        Some(Trouble::new(what).with_help(help))
    })
}

/// The edition that a pattern was released after, where now it would not be.
fn lost_since<'p>(was: &'p PatternTold, now: &PatternTold) -> Option<&'p str> {
    let former = was.since.as_ref().filter(|_| was.since != now.since)?;
    Some(&former.edition)
}
