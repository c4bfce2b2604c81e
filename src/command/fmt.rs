//! `piecewright fmt`: sources in their canonical layout.

mod files;

use std::path::Path;

use piecewright::notation;
use piecewright::notation::source::{SourceText, Sources};

use super::arguments::{Fmt, Format};
use super::input::{self, Content, Input};
use super::lines;
use super::show::{self, Judged};
use super::sources;
use super::voice::{Screen, Voice};
use super::{Outcome, Trouble};

/// A source before and after.
struct Laid {
    judged: Judged,
    /// The name by which it is spoken of.
    name: String,
    before: String,
    after: String,
    /// Whether it is a text at all.
    fit: bool,
    /// Whether it was left alone for its faults.
    left: bool,
}

impl Laid {
    fn changes(&self) -> bool {
        self.before != self.after
    }
}

/// Lays out every source that was named, even if one of them cannot be read or written.
pub fn run(asked: &Fmt, voice: &mut Voice) -> Result<Outcome, Trouble> {
    let streams = asked.files.iter().filter(|path| input::is_standard(path)).count();
    if streams > 0 && asked.files.len() > 1 {
        return Err(Trouble::new("standard input cannot be laid out together with other sources")
            .with_help("write `-` alone, or name the files"));
    }
    let only_looks = asked.check || asked.diff;
    let speaks = !asked.showing.quiet && asked.showing.format != Format::Json;
    let mut outcome = Outcome::Fine;
    let mut judged = Vec::new();
    let (mut looked_at, mut changed) = (0, 0);
    for path in sources::all(&asked.files, &mut |trouble| {
        voice.complain(&trouble);
        outcome = Outcome::Trouble;
    }) {
        let laid = match input::read(&path) {
            Ok(input) => lay_out(input, only_looks),
            Err(trouble) => {
                voice.complain(&trouble);
                outcome = Outcome::Trouble;
                continue;
            }
        };
        looked_at += 1;
        changed += usize::from(laid.changes());
        if only_looks && laid.changes() {
            outcome = outcome.max(Outcome::Faults);
        }
        if let Err(trouble) = finish(asked, &path, &laid, voice) {
            voice.complain(&trouble);
            outcome = Outcome::Trouble;
        }
        if laid.left && speaks {
            voice.tell(&format!("left {} alone: its braces or quotes do not pair\n", laid.name));
        }
        judged.push(laid.judged);
    }
    let on_output = asked.showing.format == Format::Json && streams == 0 && !asked.diff;
    let screen = if on_output { Screen::output(asked.showing.color) } else { Screen::error(asked.showing.color) };
    let shown = show::render(&judged, &asked.showing, screen);
    if on_output {
        voice.say(&shown.text);
    } else {
        voice.tell(&shown.text);
    }
    if speaks {
        if judged.iter().any(|one| !one.faults.is_empty()) {
            voice.tell(&shown.closing());
        }
        if streams == 0 {
            voice.tell(&closing(only_looks, looked_at, changed));
        }
    }
    Ok(outcome.max(shown.outcome(asked.showing.deny_warnings)))
}

/// The line that counts the sources.
fn closing(only_looks: bool, looked_at: usize, changed: usize) -> String {
    let sources = |n: usize| if n == 1 { String::from("1 source") } else { format!("{n} sources") };
    match (only_looks, changed) {
        (true, 0) => format!("{} looked at, nothing would change\n", sources(looked_at)),
        (false, 0) => format!("{} looked at, nothing to change\n", sources(looked_at)),
        (true, _) => format!("{changed} of {} would change\n", sources(looked_at)),
        (false, _) => format!("{changed} of {} laid out\n", sources(looked_at)),
    }
}

/// Lays a source out. Its faults are placed in the text that will stand there: the new one, unless it is only looked at.
fn lay_out(input: Input, only_looks: bool) -> Laid {
    let Input { name, content, folder } = input;
    match content {
        Content::Text(before) => {
            let formatted = piecewright::format(&name, &before);
            let (sources, faults) = if only_looks {
                let mut sources = Sources::default();
                sources.add(SourceText::new(name.as_str(), before.as_str()));
                (sources, notation::parse(0, &before).1)
            } else {
                (formatted.sources, formatted.faults)
            };
            Laid {
                judged: Judged { sources, faults, folder },
                name,
                before,
                after: formatted.text,
                fit: true,
                left: !formatted.laid_out,
            }
        }
        Content::Unfit(sources, fault) => {
            let text = sources.get(0).map(|source| source.text().to_owned()).unwrap_or_default();
            let judged = Judged { sources, faults: vec![fault], folder };
            Laid { judged, name, before: text.clone(), after: text, fit: false, left: false }
        }
    }
}

/// Writes what was laid out, or tells of it.
fn finish(asked: &Fmt, path: &Path, laid: &Laid, voice: &mut Voice) -> Result<(), Trouble> {
    if input::is_standard(path) && !asked.check && !asked.diff {
        // Text that stays as it is goes on too: whoever pipes it through loses nothing.
        if laid.fit {
            voice.say(&laid.after);
        }
        return Ok(());
    }
    if !laid.changes() {
        return Ok(());
    }
    if asked.diff {
        let name = laid.name.as_str();
        voice.say(
            &lines::difference((name, name), (&laid.before, &laid.after))
                .unwrap_or_else(|| format!("{name} would change; it is too long to be compared line by line\n")),
        );
    } else if asked.check {
        voice.say(&named(&laid.name, asked.showing.format));
    } else {
        files::write(path, &laid.after)?;
        if !asked.showing.quiet && asked.showing.format != Format::Json {
            voice.tell(&format!("wrote {}\n", laid.name));
        }
    }
    Ok(())
}

/// The name of a source that is not laid out, on a line.
pub(super) fn named(name: &str, format: Format) -> String {
    match format {
        Format::Json => serde_json::json!({ "file": name, "laid_out": false }).to_string() + "\n",
        _ => format!("{name}\n"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sources_are_counted() {
        assert_eq!(closing(true, 3, 0), "3 sources looked at, nothing would change\n");
        assert_eq!(closing(true, 3, 1), "1 of 3 sources would change\n");
        assert_eq!(closing(false, 1, 1), "1 of 1 source laid out\n");
    }
}
