//! `piecewright check`: what is the matter with sources.

use super::arguments::Check;
use super::input::{self, Content, Input};
use super::shelf::Folder;
use super::show::{self, Judged};
use super::voice::{Screen, Voice};
use super::{Outcome, Trouble};

/// Checks every source that was named, even if one of them cannot be read.
pub fn run(asked: &Check, voice: &mut Voice) -> Result<Outcome, Trouble> {
    if asked.files.iter().filter(|path| input::is_standard(path)).count() > 1 {
        return Err(Trouble::new("standard input can be read only once").with_help("write `-` once"));
    }
    let mut outcome = Outcome::Fine;
    let mut judged = Vec::new();
    for path in &asked.files {
        match input::read(path).and_then(|input| judge(input, asked)) {
            Ok(one) => judged.push(one),
            Err(trouble) => {
                voice.complain(&trouble);
                outcome = Outcome::Trouble;
            }
        }
    }
    let shown = show::render(&judged, &asked.showing, Screen::output(asked.showing.color));
    voice.say(&shown.text);
    if !asked.showing.quiet {
        voice.tell(&shown.closing());
    }
    Ok(outcome.max(shown.outcome(asked.showing.deny_warnings)))
}

fn judge(input: Input, asked: &Check) -> Result<Judged, Trouble> {
    let folder = asked.reading.project.clone().unwrap_or(input.folder);
    match input.content {
        Content::Text(text) => {
            let checked = piecewright::check(&input.name, &text, &Folder::open(&folder)?);
            Ok(Judged { sources: checked.sources, faults: checked.faults, folder })
        }
        Content::Unfit(sources, fault) => Ok(Judged { sources, faults: vec![fault], folder }),
    }
}
