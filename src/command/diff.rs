//! `piecewright diff`: two sources, folders or revisions compared as what they compile to.

mod faults;
mod matching;
mod targets;
mod telling;

use std::path::Path;

use piecewright::backend::svg;
use piecewright::geometry::Length;
use piecewright::model::Model;
use piecewright::packet::page::Page;
use piecewright::packet::words::Words;
use piecewright::revision::{Edition, Raise, Revision, Told, TooSmall, album, judge, overlays, told};
use piecewright::{Checked, Options, Text};

use super::arguments::{Diff, Manner};
use super::input::Content;
use super::show::Judged;
use super::side::{self, Side};
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
    targets::check(asked)?;
    let project = asked.reading.project.as_deref();
    let (was, now) = (side::read(&asked.old, project)?, side::read(&asked.new, project)?);
    let words = words(asked.language.as_deref())?;
    let options = Options { size: asked.size.clone(), colouring: asked.colouring.clone(), ..Options::default() };
    let pairs: Vec<Pair> = matching::matched(was, now)?
        .iter()
        .map(|(was, now)| compare(was.as_ref(), now.as_ref(), &options, &words))
        .collect();
    let is_broken = faults::tell(&pairs, asked, voice);
    // Of several, the others are told.
    if is_broken && pairs.len() == 1 {
        return Ok(Outcome::Trouble);
    }
    let told = match asked.format {
        Manner::Text => telling::text(&pairs, &words, Screen::output(asked.color).colour && asked.output.is_none()),
        Manner::Markdown => telling::in_markdown(&pairs, &words),
        Manner::Json => telling::in_json(&pairs),
    };
    match &asked.output {
        Some(file) => whole::write(file, told.as_bytes())?,
        None => voice.say(&told),
    }
    if let Some(file) = &asked.picture {
        draw(&pairs, file, &words, voice)?;
    }
    Ok(match pairs.iter().all(Pair::is_same) {
        _ if is_broken => Outcome::Trouble,
        true => Outcome::Fine,
        false => Outcome::Faults,
    })
}

/// What changed from one source to the other, for a terminal; nothing stands for one that is not there.
///
/// # Errors
/// What is wrong with a source that does not compile.
pub fn told_of(was: Option<&Side>, now: Option<&Side>, colour: bool) -> Result<String, Vec<Judged>> {
    let words = Words::english();
    let pairs = [compare(was, now, &Options::default(), &words)];
    let broken = faults::broken(&pairs);
    if broken.is_empty() { Ok(telling::text(&pairs, &words, colour)) } else { Err(broken) }
}

/// The words of a language, or the English ones.
fn words(language: Option<&str>) -> Result<Words, Trouble> {
    let Some(language) = language else { return Ok(Words::english()) };
    Words::of(language).ok_or_else(|| {
        Trouble::new(format!("there are no words in `{language}`"))
            .with_help(format!("there are words in: {}", Words::LANGUAGES.join(", ")))
    })
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
    let (Side { content, folder, .. }, checked) = (side?, checked?);
    let (folder, is_ok) = (folder.clone(), checked.ok());
    let Checked { sources, faults, model, .. } = checked;
    Some(match content {
        Content::Text(_) => Half { judged: Judged { sources, faults, folder }, model: model.filter(|_| is_ok) },
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

    /// Whether a side does not compile, so that nothing is known of what changed.
    fn is_broken(&self) -> bool {
        self.was.iter().chain(&self.now).any(|half| half.model.is_none())
    }

    /// The pattern, and where it is found if that is told by more than its title.
    fn name(&self, several: bool) -> String {
        match self.model_now().or(self.model_was()).map(|model| &model.facts.title) {
            Some(title) if several => format!("{title} ({})", self.key),
            Some(title) => title.to_owned(),
            None => self.key.clone(),
        }
    }

    /// That the edition is not raised by enough, if so.
    fn too_low(&self, words: &Words) -> Option<String> {
        let (revision, _) = self.changed.as_ref()?;
        let (was, now) = (&self.model_was()?.facts.edition, &self.model_now()?.facts.edition);
        let (former, edition) = (Edition::parse(was)?, Edition::parse(now)?);
        let Err(TooSmall::Below(needed)) = judge(former, edition, revision.raise()) else { return None };
        Some(words.edition_asked(needed, edition, revision.raise() == Raise::Major))
    }
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
