//! `piecewright git staged`: what would be committed, looked at before it is.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;

use piecewright::notation::source::{SourceText, Sources};
use piecewright::{ReadFault, Shelf, notation, pattern};

use super::super::arguments::{Format, Showing, Staged};
use super::super::input::Content;
use super::super::repository::{Entry, Kind, Listing, Repository, Shelved, State, normalised, printable};
use super::super::show::{self, Judged};
use super::super::side::revision::{content, is_source, within_repository};
use super::super::voice::{Screen, Voice};
use super::super::{Outcome, Trouble, fmt};
use super::config;
use piecewright::release::is_pattern;

/// The next commit, as far as sources are concerned.
struct Index {
    repository: Rc<Repository>,
    /// All files in it.
    files: Rc<Listing>,
    /// The paths that it would change.
    staged: BTreeSet<String>,
    /// The folder that `use` lines start from, from the root; nothing where it is each source's own.
    project: Option<String>,
}

/// What is the matter with one source.
struct Looked {
    path: String,
    judged: Judged,
    laid_out: bool,
}

/// Looks at each staged source, and at each pattern that uses a staged file.
pub fn run(asked: &Staged, voice: &mut Voice) -> Result<Outcome, Trouble> {
    let repository = Repository::here()?;
    let staged = repository.staged()?;
    if staged.is_empty() {
        return Ok(Outcome::Fine);
    }
    let project = match &asked.reading.project {
        Some(project) => Some(within_repository(&repository, project)?),
        None => config::project(&repository)?.and_then(|project| normalised("", &project)),
    };
    let files = Rc::new(repository.files(&State::Index('0'), "")?.unwrap_or_default());
    let index = Index { repository: Rc::new(repository), files, staged, project };
    let mut looked = Vec::new();
    for (path, entry) in index.files.iter().filter(|(path, entry)| is_source(path) && entry.kind == Kind::File) {
        looked.extend(index.look(path, entry)?);
    }
    Ok(tell(&index.repository, looked, &asked.showing, voice))
}

impl Index {
    /// What is the matter with a source; nothing where the commit does not concern it.
    fn look(&self, path: &str, entry: &Entry) -> Result<Option<Looked>, Trouble> {
        let name = format!(":{path}");
        let is_staged = self.staged.contains(path);
        let (shelf, folder) = self.shelf(path);
        let folder = format!(":{folder}").into();
        let looked = |judged: Judged, laid_out: bool| Some(Looked { path: path.to_owned(), judged, laid_out });
        let text = match content(&self.repository, &name, entry)? {
            Content::Text(text) => text,
            Content::Unfit(sources, fault) if is_staged => {
                return Ok(looked(Judged { sources, faults: vec![fault], folder }, true));
            }
            Content::Unfit(..) => return Ok(None),
        };
        let is_pattern = is_pattern(&text);
        if !(is_staged || is_pattern && self.is_touched(&name, &text, &shelf)) {
            return Ok(None);
        }
        let judged = if is_pattern {
            let checked = piecewright::check(&name, &text, &shelf);
            Judged { sources: checked.sources, faults: checked.faults, folder }
        } else {
            let mut sources = Sources::default();
            sources.add(SourceText::new(name.as_str(), text.as_str()));
            Judged { sources, faults: notation::parse(0, &text).1, folder }
        };
        // A pattern that only uses what is staged is not written anew by this commit.
        let laid_out = !is_staged || piecewright::format(&name, &text).text == text;
        Ok(looked(judged, laid_out))
    }

    /// The files that a source may use, and their folder from the root.
    fn shelf(&self, path: &str) -> (Shelved, String) {
        let own = path.rsplit_once('/').map_or("", |(folder, _)| folder);
        let folder = self.project.as_deref().unwrap_or(own);
        (Shelved::new(&self.repository, &self.files, folder), folder.to_owned())
    }

    /// Whether a pattern uses a file that the commit would change, or take away.
    fn is_touched(&self, name: &str, text: &str, shelf: &Shelved) -> bool {
        let noted = Noted { shelf, asked: RefCell::default() };
        _ = pattern::read_sources(name, text, &noted);
        let asked = noted.asked.into_inner();
        asked.iter().any(|path| self.staged.contains(path))
    }
}

/// A shelf that notes what is asked for.
struct Noted<'a> {
    shelf: &'a Shelved,
    asked: RefCell<BTreeSet<String>>,
}

impl Noted<'_> {
    fn note(&self, path: &str) {
        self.asked.borrow_mut().extend(self.shelf.path(path));
    }
}

impl Shelf for Noted<'_> {
    fn read(&self, path: &str) -> Result<String, ReadFault> {
        self.note(path);
        self.shelf.read(path)
    }

    fn read_bytes(&self, path: &str, _: usize) -> Result<Vec<u8>, ReadFault> {
        self.note(path);
        // That it is asked for is all there is to know.
        Err(ReadFault::NotFound)
    }
}

/// Shows the faults as `check` does, names what is not laid out, and says what to do.
fn tell(repository: &Repository, looked: Vec<Looked>, showing: &Showing, voice: &mut Voice) -> Outcome {
    let count = looked.len();
    let names = |one: &Looked| fmt::named(&format!(":{}", printable(&one.path)), showing.format);
    let loose: String = looked.iter().filter(|one| !one.laid_out).map(names).collect();
    let paths: Vec<String> =
        looked.iter().filter(|one| !one.laid_out).map(|one| from_here(repository.folder_here(), &one.path)).collect();
    let mut judged: Vec<Judged> = looked.into_iter().map(|one| one.judged).collect();
    show::once(&mut judged);
    // Whoever commits has no option at hand with which to see the rest.
    let showing = &Showing { most: showing.most.or(Some(usize::MAX)), ..*showing };
    let shown = show::render(&judged, showing, Screen::output(showing.color));
    voice.say(&shown.text);
    let speaks = !showing.quiet && showing.format != Format::Json;
    let outcome = shown.outcome(showing.deny_warnings);
    if speaks && judged.iter().any(|one| !one.faults.is_empty()) {
        voice.tell(&shown.closing());
    }
    if !loose.is_empty() {
        let heading = if speaks { "not laid out:\n" } else { "" };
        voice.say(&format!("{heading}{loose}"));
    }
    if speaks && count > 0 {
        voice.tell(&closing(count, outcome, &paths));
    }
    if loose.is_empty() { outcome } else { Outcome::Faults }
}

/// The line that says what to do before the commit.
fn closing(count: usize, outcome: Outcome, loose: &[String]) -> String {
    let sources = if count == 1 { String::from("1 source") } else { format!("{count} sources") };
    let loose = loose.join(" ");
    match (outcome, loose.is_empty()) {
        (Outcome::Fine, true) => format!("{sources} looked at, ready to commit\n"),
        (Outcome::Fine, false) => format!("lay out what is not: piecewright fmt {loose} && git add {loose}\n"),
        (_, true) => String::from("put the errors right, then `git add` what you changed\n"),
        (_, false) => format!(
            "put the errors right, then `git add` what you changed; lay out the rest: piecewright fmt {loose} && git add {loose}\n"
        ),
    }
}

/// A path from the root as one writes it in the current folder, for a shell.
fn from_here(here: &str, path: &str) -> String {
    let mut ups = String::new();
    let mut folder = here;
    let within = loop {
        if folder.is_empty() {
            break path;
        }
        if let Some(within) = path.strip_prefix(folder).and_then(|rest| rest.strip_prefix('/')) {
            break within;
        }
        ups.push_str("../");
        folder = folder.rsplit_once('/').map_or("", |(above, _)| above);
    };
    let path = printable(&format!("{ups}{within}"));
    let plain = |letter: char| letter.is_alphanumeric() || "./_-+,=@%".contains(letter);
    if path.chars().all(plain) && !path.starts_with('-') { path } else { format!("'{}'", path.replace('\'', r"'\''")) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_are_told_from_where_one_stands() {
        assert_eq!(from_here("", "patterns/gull.piece"), "patterns/gull.piece");
        assert_eq!(from_here("patterns", "patterns/gull.piece"), "gull.piece");
        assert_eq!(from_here("patterns/new", "patterns/m\u{f6}we.piece"), "../m\u{f6}we.piece");
        assert_eq!(from_here("patterns", "patterns-2/gull.piece"), "../patterns-2/gull.piece");
        assert_eq!(from_here("", "sea birds/it's.piece"), r"'sea birds/it'\''s.piece'");
    }

    #[test]
    fn what_to_do_is_told() {
        assert_eq!(closing(2, Outcome::Fine, &[]), "2 sources looked at, ready to commit\n");
        let loose = ["gull.piece".to_owned()];
        let told = closing(1, Outcome::Fine, &loose);
        assert!(told.ends_with("piecewright fmt gull.piece && git add gull.piece\n"), "{told}");
        assert!(closing(1, Outcome::Faults, &loose).contains("git add"));
    }
}
