//! Sides that git keeps: of a revision, or staged.

use std::path::{Component, Path, PathBuf};
use std::rc::Rc;

use piecewright::notation::source::MAX_SOURCE_BYTES;

use super::super::input::{self, Content};
use super::super::repository::{Entry, Kind, Listing, Repository, Shelved, State, normalised, printable};
use super::super::{Trouble, sources};
use super::{Named, Side, is_hidden};

/// A revision and a path in it, as an argument writes them.
#[derive(Debug, PartialEq, Eq)]
struct Address<'a> {
    /// The revision; nothing for what is staged.
    revision: Option<&'a str>,
    /// The side of a conflict.
    side: char,
    /// All up to the path: `HEAD~1:`, `:`, `:2:`.
    origin: &'a str,
    /// The path, from the repository's root or, behind `./` and `../`, from the current folder.
    path: &'a str,
}

impl<'a> Address<'a> {
    /// Splits at the first colon outside braces: `HEAD^{/new: gull}:gull.piece`.
    fn of(argument: &'a str) -> Option<Self> {
        let mut depth = 0_usize;
        let colon = argument.char_indices().find_map(|(at, letter)| {
            match letter {
                '{' => depth += 1,
                '}' => depth = depth.saturating_sub(1),
                ':' if depth == 0 => return Some(at),
                _ => {}
            }
            None
        })?;
        let (revision, rest) = (argument.get(..colon)?, argument.get(colon + 1..)?);
        if !revision.is_empty() {
            return Some(Self { revision: Some(revision), side: '0', origin: argument.get(..=colon)?, path: rest });
        }
        let mut letters = rest.chars();
        match (letters.next(), letters.next()) {
            (Some(side @ '0'..='3'), Some(':')) => {
                Some(Self { revision: None, side, origin: argument.get(..3)?, path: rest.get(2..)? })
            }
            _ => Some(Self { revision: None, side: '0', origin: ":", path: rest }),
        }
    }

    /// Whether the path starts from the current folder.
    fn is_from_here(&self) -> bool {
        [".", ".."].contains(&self.path) || self.path.starts_with("./") || self.path.starts_with("../")
    }

    /// What it is that the path is sought in.
    fn place(&self) -> String {
        self.revision.map_or_else(|| "what is staged".to_owned(), |revision| format!("`{}`", printable(revision)))
    }
}

/// Reads a source of a revision, or all patterns of a folder in it.
pub fn read(argument: &str, project: Option<&Path>) -> Result<Named, Trouble> {
    let shown = printable(argument);
    let repository = Repository::here();
    let Some(address) = Address::of(argument) else { return Err(no_file(repository.ok().as_ref(), argument)) };
    let repository = repository.map_err(|trouble| {
        let wanted = format!("`{shown}` is no file, and as a revision it cannot be read: {}", trouble.message);
        Trouble { message: wanted, ..trouble }
    })?;
    read_from(repository, &address, project)
}

/// Reads what lies at an address of a repository.
fn read_from(repository: Repository, address: &Address, project: Option<&Path>) -> Result<Named, Trouble> {
    let shown = printable(&format!("{}{}", address.origin, address.path));
    if address.revision.is_none() && address.path.starts_with('/') {
        return Err(Trouble::new(format!("`{shown}` is no file, and what of a commit is meant is not said"))
            .with_help("a path behind `:` starts at the repository's root, without a slash: `:gull.piece`"));
    }
    let from = if address.is_from_here() { repository.folder_here() } else { "" };
    let path =
        normalised(from, address.path).ok_or_else(|| Trouble::new(format!("`{shown}` leads out of the repository")))?;
    let state = match address.revision {
        None => State::Index(address.side),
        Some(revision) => State::Tree(repository.root_of(revision)?.ok_or_else(|| no_revision(address, &shown))?),
    };
    let Some(entry) = repository.entry(&state, &path)? else {
        return Err(no_path(&repository, &state, address, &path));
    };
    let time = Time { repository: Rc::new(repository), state, origin: address.origin.to_owned() };
    let project = project.map(|project| time.project(project)).transpose()?;
    match entry.kind {
        Kind::File => time.one(address, &path, &entry, project.as_ref()).map(Named::One),
        Kind::Folder => time.folder(address, &path, project.as_ref()).map(Named::Folder),
        Kind::Link => {
            Err(Trouble::new(format!("`{shown}` is a symbolic link, and these are not followed in a revision"))
                .with_help("name the file that it leads to"))
        }
        Kind::Submodule => Err(Trouble::new(format!("`{shown}` is a submodule: the repository of another project"))
            .with_help("go to its folder, and name a revision of its own")),
        Kind::Unmerged => Err(Trouble::new(format!("`{shown}` is in conflict: its merge is not finished"))
            .with_help(format!("`:2:{path}` is your side of it, `:3:{path}` the other", path = printable(&path)))),
    }
}

/// A time that sources are read from.
struct Time {
    repository: Rc<Repository>,
    state: State,
    /// What stands before paths: `HEAD~1:`.
    origin: String,
}

/// The folder that `use` lines start from.
struct Project {
    shelf: Shelved,
    folder: PathBuf,
}

impl Time {
    /// The project's folder, as it was at this time.
    fn project(&self, project: &Path) -> Result<Project, Trouble> {
        let path = within_repository(&self.repository, project)?;
        let files = self.repository.files(&self.state, &path)?.ok_or_else(|| {
            Trouble::new(format!(
                "the project's folder `{}` cannot be used: there is none in `{}`",
                project.display(),
                self.origin
            ))
        })?;
        let shelf = Shelved::new(&self.repository, &Rc::new(files), "");
        Ok(Project { shelf, folder: PathBuf::from(format!("{}{path}", self.origin)) })
    }

    /// The source at a path.
    fn one(&self, address: &Address, path: &str, entry: &Entry, project: Option<&Project>) -> Result<Side, Trouble> {
        let (folder, key) = path.rsplit_once('/').unwrap_or(("", path));
        let written = address.path.trim_end_matches('/');
        let content = content(&self.repository, &format!("{}{written}", self.origin), entry)?;
        let own = match project {
            Some(_) => Listing::new(),
            None => self.repository.files(&self.state, folder)?.unwrap_or_default(),
        };
        let shelf = Shelved::new(&self.repository, &Rc::new(own), "");
        let written_folder = written.rsplit_once('/').map_or("", |(folder, _)| folder);
        Ok(self.side(key, (written_folder, written), content, (shelf, project)))
    }

    /// All patterns in a folder and below.
    fn folder(&self, address: &Address, path: &str, project: Option<&Project>) -> Result<Vec<Side>, Trouble> {
        let files = Rc::new(self.repository.files(&self.state, path)?.unwrap_or_default());
        let written = address.path.trim_end_matches('/');
        let mut sides = Vec::new();
        for (key, entry) in files.iter().filter(|(key, _)| is_source(key) && !is_hidden(key)) {
            let name = if written.is_empty() { key.clone() } else { format!("{written}/{key}") };
            let content = match entry.kind {
                Kind::File => content(&self.repository, &format!("{}{name}", self.origin), entry)?,
                Kind::Unmerged => {
                    return Err(Trouble::new(format!(
                        "`{}` is in conflict: its merge is not finished",
                        printable(key)
                    ))
                    .with_help("finish the merge first"));
                }
                // What a link leads to is listed where it lies; a submodule is another project.
                Kind::Link | Kind::Submodule | Kind::Folder => continue,
            };
            let folder = key.rsplit_once('/').map_or("", |(folder, _)| folder);
            let shelf = Shelved::new(&self.repository, &files, folder);
            let written_folder = name.rsplit_once('/').map_or("", |(folder, _)| folder);
            let side = self.side(key, (written_folder, &name), content, (shelf, project));
            if side.is_pattern() {
                sides.push(side);
            }
        }
        Ok(sides)
    }

    /// A source under its written name, with the files of its own folder or of the project.
    fn side(
        &self,
        key: &str,
        (folder, name): (&str, &str),
        content: Content,
        (own, project): (Shelved, Option<&Project>),
    ) -> Side {
        let (shelf, folder) = match project {
            Some(project) => (project.shelf.clone(), project.folder.clone()),
            None => (own, PathBuf::from(format!("{}{folder}", self.origin))),
        };
        Side { key: key.to_owned(), name: format!("{}{name}", self.origin), content, folder, shelf: Box::new(shelf) }
    }
}

/// What an entry holds, as the source of this name.
pub fn content(repository: &Repository, name: &str, entry: &Entry) -> Result<Content, Trouble> {
    Ok(input::content(name, repository.bytes(entry, MAX_SOURCE_BYTES)?))
}

/// Whether a path is that of a source.
pub fn is_source(path: &str) -> bool {
    Path::new(path).extension().is_some_and(|ending| ending == sources::ENDING)
}

/// The path of a folder from the repository's root, whether or not it is there today.
pub fn within_repository(repository: &Repository, folder: &Path) -> Result<String, Trouble> {
    let outside = || {
        Trouble::new(format!("the project's folder `{}` lies outside the repository", folder.display()))
            .with_help("of a revision, only files of the repository can be used")
    };
    let (from, folder_within) = if folder.is_absolute() {
        let top = repository.top()?;
        let real = folder.canonicalize().unwrap_or_else(|_| folder.to_owned());
        let within = real.strip_prefix(top.canonicalize().unwrap_or(top)).map_err(|_| outside())?;
        (String::new(), within.to_owned())
    } else {
        (repository.folder_here().to_owned(), folder.to_owned())
    };
    let steps = folder_within.components().map(|step| match step {
        Component::CurDir => Some(".".to_owned()),
        Component::ParentDir => Some("..".to_owned()),
        Component::Normal(name) => Some(name.to_string_lossy().into_owned()),
        Component::RootDir | Component::Prefix(_) => None,
    });
    let steps: Option<Vec<String>> = steps.collect();
    steps.and_then(|steps| normalised(&from, &steps.join("/"))).ok_or_else(outside)
}

/// An argument that is neither a path nor has a colon.
fn no_file(repository: Option<&Repository>, argument: &str) -> Trouble {
    let shown = printable(argument);
    let root = repository.and_then(|repository| repository.root_of(argument).ok().flatten());
    Trouble::new(format!("there is no file or folder `{shown}`")).with_help(if root.is_some() {
        format!(
            "as a revision it is known: `{shown}:gull.piece` is a source in it, `{shown}:` stands for all its patterns"
        )
    } else {
        String::from("name a source, a folder of sources, or a source in a revision, such as `HEAD:gull.piece`")
    })
}

fn no_revision(address: &Address, shown: &str) -> Trouble {
    let help = if address.revision == Some("HEAD") {
        "nothing is committed yet"
    } else {
        "`git log --oneline` and `git branch --all` list what there is; a shallow clone has only the newest commits"
    };
    Trouble::new(format!("`{shown}` is no file, and there is no revision {}", address.place())).with_help(help)
}

/// A path that a state does not have.
fn no_path(repository: &Repository, state: &State, address: &Address, path: &str) -> Trouble {
    let (place, shown) = (address.place(), printable(path));
    let there = |path: &str| repository.entry(state, path).ok().flatten().map(|entry| entry.kind);
    let mut above = path;
    while let Some((folder, _)) = above.rsplit_once('/') {
        above = folder;
        let what = match there(folder) {
            Some(Kind::Link) => "a symbolic link, and these are not followed in a revision",
            Some(Kind::Submodule) => "a submodule: the repository of another project",
            _ => continue,
        };
        return Trouble::new(format!("`{shown}` cannot be read in {place}: `{}` is {what}", printable(folder)));
    }
    let trouble = Trouble::new(format!("there is no `{shown}` in {place}"));
    let here =
        normalised(repository.folder_here(), address.path).filter(|here| !address.is_from_here() && here != path);
    if here.is_some_and(|here| there(&here).is_some()) {
        let (origin, written) = (printable(address.origin), printable(address.path));
        return trouble.with_help(format!(
            "from the current folder it is `{origin}./{written}`; without `./` a path starts at the repository's root"
        ));
    }
    trouble.with_help(match address.revision {
        Some(revision) => format!("`git ls-tree -r --name-only {}` lists what it has", printable(revision)),
        None => String::from("`git ls-files` lists what there is; `git add` adds to it"),
    })
}

#[cfg(test)]
#[path = "revision_tests.rs"]
mod with_git;

#[cfg(test)]
mod tests {
    use super::*;

    fn split(argument: &str) -> Option<(Option<&str>, char, &str, &str)> {
        Address::of(argument).map(|address| (address.revision, address.side, address.origin, address.path))
    }

    #[test]
    fn a_revision_is_split_from_its_path() {
        assert_eq!(split("HEAD~1:a b/c.piece"), Some((Some("HEAD~1"), '0', "HEAD~1:", "a b/c.piece")));
        assert_eq!(split("HEAD^{/new: gull}:x"), Some((Some("HEAD^{/new: gull}"), '0', "HEAD^{/new: gull}:", "x")));
        assert_eq!(split("m\u{f6}we:"), Some((Some("m\u{f6}we"), '0', "m\u{f6}we:", "")));
        assert_eq!(split(":gull.piece"), Some((None, '0', ":", "gull.piece")));
        assert_eq!(split(":2:gull.piece"), Some((None, '2', ":2:", "gull.piece")));
        assert_eq!(split(":22:gull.piece"), Some((None, '0', ":", "22:gull.piece")));
        assert_eq!(split(":"), Some((None, '0', ":", "")));
        for none in ["", "gull.piece", "{:", "\u{f6}{{:}"] {
            assert_eq!(split(none), None, "{none}");
        }
    }

    proptest::proptest! {
        #[test]
        fn any_argument_is_split_into_itself(argument in "[:{}0-9a-z/.\u{f6}\u{1f426} -]{0,12}") {
            if let Some(address) = Address::of(&argument) {
                proptest::prop_assert_eq!(format!("{}{}", address.origin, address.path), argument);
            }
        }
    }
}
