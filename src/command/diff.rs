//! `piecewright diff`: two sources, folders or revisions compared as what they compile to.

use std::fmt::Write as _;
use std::path::Path;

use piecewright::backend::json::{self, Compared as Record};
use piecewright::backend::{markdown, svg};
use piecewright::fault::Severity;
use piecewright::geometry::Length;
use piecewright::model::Model;
use piecewright::packet::page::Page;
use piecewright::packet::words::Words;
use piecewright::revision::{Edition, Raise, Revision, Told, TooSmall, album, judge, overlays, told};
use piecewright::{Checked, Options, Text};

use super::arguments::{Diff, Format, Manner, Showing};
use super::input::Content;
use super::show::{self, Judged};
use super::side::{self, Named, Side};
use super::voice::{Screen, Voice};
use super::{Outcome, Trouble, whole};

/// How wide the picture of a block is.
const PICTURE: Length = Length::inches(6.0);

/// A pattern on both sides.
struct Pair {
    key: String,
    was: Option<Half>,
    now: Option<Half>,
    /// What changed; nothing where it is on one side only, or has errors.
    changed: Option<(Revision, Told)>,
}

/// A pattern on one side.
struct Half {
    judged: Judged,
    /// Nothing where it has errors.
    model: Option<Model>,
}

/// Compares what was named, and tells what changed.
pub fn run(asked: &Diff, voice: &mut Voice) -> Result<Outcome, Trouble> {
    let project = asked.reading.project.as_deref();
    let (was, now) = (side::read(&asked.old, project)?, side::read(&asked.new, project)?);
    let words = words(asked.language.as_deref())?;
    let options = Options { size: asked.size.clone(), colouring: asked.colouring.clone(), ..Options::default() };
    let pairs: Vec<Pair> =
        matched(was, now)?.iter().map(|(was, now)| compare(was.as_ref(), now.as_ref(), &options, &words)).collect();
    if tell_faults(&pairs, asked, voice) {
        return Ok(Outcome::Trouble);
    }
    let told = match asked.format {
        Manner::Text => text(&pairs, Screen::output(asked.color).colour && asked.output.is_none()),
        Manner::Markdown => in_markdown(&pairs),
        Manner::Json => in_json(&pairs),
    };
    match &asked.output {
        Some(file) => whole::write(file, told.as_bytes())?,
        None => voice.say(&told),
    }
    if let Some(file) = &asked.picture {
        draw(&pairs, file, &words, voice)?;
    }
    Ok(if pairs.iter().all(Pair::is_same) { Outcome::Fine } else { Outcome::Faults })
}

/// What changed from one source to the other, for a terminal; nothing stands for one that is not there.
///
/// # Errors
/// What is wrong with a source that does not compile.
pub fn told_of(was: Option<&Side>, now: Option<&Side>, colour: bool) -> Result<String, Vec<Judged>> {
    let pairs = [compare(was, now, &Options::default(), &Words::english())];
    let broken = broken(&pairs);
    if broken.is_empty() { Ok(text(&pairs, colour)) } else { Err(broken) }
}

/// The words of a language, or the English ones.
fn words(language: Option<&str>) -> Result<Words, Trouble> {
    let Some(language) = language else { return Ok(Words::english()) };
    Words::of(language).ok_or_else(|| {
        Trouble::new(format!("there are no words in `{language}`"))
            .with_help(format!("there are words in: {}", Words::LANGUAGES.join(", ")))
    })
}

/// A source before and now; nothing where it is not there.
type Sides = (Option<Side>, Option<Side>);

/// Which source of one side is which of the other, in order of their keys.
fn matched(was: Named, now: Named) -> Result<Vec<Sides>, Trouble> {
    let (mut was, now) = match (was, now) {
        // Whatever they are called.
        (Named::One(was), Named::One(now)) => return Ok(vec![(Some(was), Some(now))]),
        (Named::Folder(was), Named::Folder(now)) => (was, now),
        (Named::One(was), Named::Folder(now)) if now.is_empty() => (vec![was], now),
        (Named::Folder(was), Named::One(now)) if was.is_empty() => (was, vec![now]),
        _ => {
            return Err(Trouble::new("a source and a folder cannot be compared")
                .with_help("name two sources, or two folders of them"));
        }
    };
    let mut pairs: Vec<Sides> = Vec::new();
    for side in now {
        let same = was.iter().position(|other| other.key == side.key);
        pairs.push((same.map(|at| was.remove(at)), Some(side)));
    }
    // A file that bears another name is known by the title of its pattern.
    for (before, after) in &mut pairs {
        if let (None, Some(side)) = (&before, &after) {
            let title = title(side);
            let same = was.iter().position(|other| title.is_some() && self::title(other) == title);
            *before = same.map(|at| was.remove(at));
        }
    }
    pairs.extend(was.into_iter().map(|side| (Some(side), None)));
    let key = |(was, now): &Sides| now.as_ref().or(was.as_ref()).map(|side| side.key.clone()).unwrap_or_default();
    pairs.sort_by_key(key);
    Ok(pairs)
}

/// The line of a source that says its title.
fn title(side: &Side) -> Option<&str> {
    let Content::Text(text) = &side.content else { return None };
    text.lines().map(str::trim).find(|line| line.starts_with("pattern")).map(|line| line["pattern".len()..].trim())
}

/// Compares a source of one side with one of the other, or looks through the only one.
fn compare(was: Option<&Side>, now: Option<&Side>, options: &Options, words: &Words) -> Pair {
    let key = now.or(was).map(|side| side.key.clone()).unwrap_or_default();
    let (mut before, mut after, mut changed) = (None, None, None);
    match (was, now) {
        (Some(was), Some(now)) => {
            let compared = piecewright::compare(&text_of(was), &text_of(now), options);
            if let (Some(revision), Some(a), Some(b)) =
                (compared.revision, compared.was.model.as_ref(), compared.now.model.as_ref())
            {
                let told = told(a, b, &revision, words);
                changed = Some((revision, told));
            }
            before = Some(compared.was);
            after = Some(compared.now);
        }
        (was, now) => {
            let look = |side: &Side| {
                let Text { name, text, shelf } = text_of(side);
                piecewright::check(name, text, shelf)
            };
            before = before.or_else(|| was.map(look));
            after = after.or_else(|| now.map(look));
        }
    }
    Pair { key, was: half(was, before), now: half(now, after), changed }
}

/// A source as the library takes it; of what is no text, nothing.
fn text_of(side: &Side) -> Text<'_> {
    let text = if let Content::Text(text) = &side.content { text } else { "" };
    Text { name: &side.name, text, shelf: side.shelf.as_ref() }
}

fn half(side: Option<&Side>, checked: Option<Checked>) -> Option<Half> {
    let (Side { content, folder, .. }, Checked { sources, faults, model, .. }) = (side?, checked?);
    let folder = folder.clone();
    Some(match content {
        Content::Text(_) => Half { judged: Judged { sources, faults, folder }, model },
        Content::Unfit(sources, fault) => {
            Half { judged: Judged { sources: sources.clone(), faults: vec![fault.clone()], folder }, model: None }
        }
    })
}

impl Pair {
    fn model_was(&self) -> Option<&Model> {
        self.was.as_ref()?.model.as_ref()
    }

    fn model_now(&self) -> Option<&Model> {
        self.now.as_ref()?.model.as_ref()
    }

    fn is_same(&self) -> bool {
        self.changed.as_ref().is_some_and(|(revision, _)| revision.is_empty())
    }

    /// The pattern, and where it is found if that is told by more than its title.
    fn name(&self, several: bool) -> String {
        let title = self.model_now().or(self.model_was()).map_or("", |model| &model.facts.title);
        if several { format!("{title} ({})", self.key) } else { title.to_owned() }
    }

    /// That the edition is not raised by enough, if so.
    fn too_low(&self) -> Option<String> {
        let (revision, _) = self.changed.as_ref()?;
        let (was, now) = (&self.model_was()?.facts.edition, &self.model_now()?.facts.edition);
        let (former, edition) = (Edition::parse(was)?, Edition::parse(now)?);
        let Err(TooSmall::Below(needed)) = judge(former, edition, revision.raise()) else { return None };
        let why = if revision.raise() == Raise::Major {
            "papers or cuts that were right are so no longer"
        } else {
            "there are changes, although none to papers or cuts"
        };
        Some(format!("This asks for edition {needed} or later, and the source says {edition}: {why}."))
    }
}

/// Tells the faults of sources that do not compile; whether there are such.
fn tell_faults(pairs: &[Pair], asked: &Diff, voice: &mut Voice) -> bool {
    let broken = broken(pairs);
    if broken.is_empty() {
        return false;
    }
    let format = if asked.format == Manner::Json { Format::Json } else { Format::Full };
    let showing = Showing { format, color: asked.color, most: None, deny_warnings: false, quiet: false };
    let shown = show::render(&broken, &showing, Screen::error(asked.color));
    voice.tell(&shown.text);
    voice.tell(&shown.closing());
    true
}

/// The errors of the sources that do not compile.
fn broken(pairs: &[Pair]) -> Vec<Judged> {
    let halves = pairs.iter().flat_map(|pair| pair.was.iter().chain(&pair.now));
    halves.filter(|half| half.model.is_none()).map(|half| errors(&half.judged)).collect()
}

fn errors(judged: &Judged) -> Judged {
    let faults = judged.faults.iter().filter(|fault| fault.severity() == Severity::Error).cloned();
    Judged { sources: judged.sources.clone(), faults: faults.collect(), folder: judged.folder.clone() }
}

/// What changed, for a terminal.
fn text(pairs: &[Pair], colour: bool) -> String {
    let bold = |words: &str| if colour { format!("\x1b[1m{words}\x1b[0m") } else { words.to_owned() };
    let mut out = String::new();
    for pair in pairs {
        let name = bold(&pair.name(pairs.len() > 1));
        match (&pair.was, &pair.now, &pair.changed) {
            (None, _, _) => _ = writeln!(out, "{name}: this pattern is new"),
            (_, None, _) => _ = writeln!(out, "{name}: this pattern is gone"),
            (_, _, Some((revision, _))) if revision.is_empty() => _ = writeln!(out, "{name}: no change"),
            (_, _, Some((_, told))) => {
                _ = writeln!(out, "{name} · {}", told.title);
                for part in &told.parts {
                    _ = writeln!(out, "\n  {}", bold(&part.heading));
                    for line in &part.lines {
                        _ = writeln!(out, "    - {line}");
                    }
                }
                for line in told.same.iter().cloned().chain(pair.too_low()) {
                    _ = writeln!(out, "\n  {line}");
                }
            }
            _ => {}
        }
    }
    out
}

/// What changed, as Markdown.
fn in_markdown(pairs: &[Pair]) -> String {
    let mut out = String::new();
    for pair in pairs {
        let name = pair.name(pairs.len() > 1);
        let heading = |words: &str| format!("## {}\n\n{words}\n", markdown::escaped(&name));
        if !out.is_empty() {
            out.push('\n');
        }
        out += &match (&pair.was, &pair.now, &pair.changed) {
            (None, _, _) => heading("This pattern is new."),
            (_, None, _) => heading("This pattern is gone."),
            (_, _, Some((revision, told))) if !revision.is_empty() => {
                markdown::revision(&format!("{name} · {}", told.title), told, 2)
            }
            _ => heading("No change."),
        };
        if let Some(line) = pair.too_low() {
            _ = writeln!(out, "\n{}", markdown::escaped(&line));
        }
    }
    out
}

/// What changed, for programs.
fn in_json(pairs: &[Pair]) -> String {
    let records = pairs.iter().map(|pair| Record {
        key: &pair.key,
        was: pair.model_was(),
        now: pair.model_now(),
        revision: pair.changed.as_ref().map(|(revision, told)| (revision, told)),
    });
    json::revisions(&records.collect::<Vec<_>>())
}

/// Draws what moved, if anything did.
fn draw(pairs: &[Pair], file: &Path, words: &Words, voice: &mut Voice) -> Result<(), Trouble> {
    let compared = pairs.iter().filter_map(|pair| {
        let (revision, _) = pair.changed.as_ref()?;
        Some((pair.name(false), overlays(pair.model_was()?, pair.model_now()?, revision, PICTURE, words)))
    });
    let drawn: Vec<(String, Page)> = compared
        .flat_map(|(name, pages)| {
            pages.into_iter().map(move |(_, page)| (format!("{name} · {}", page.title), page)).collect::<Vec<_>>()
        })
        .collect();
    let Some(page) = album(&drawn, words) else {
        voice.tell("no line moved and no fabric changed: there is no picture to draw\n");
        return Ok(());
    };
    whole::write(file, svg::draw(&page).as_bytes())
}
