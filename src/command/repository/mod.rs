//! The repository of the current folder, spoken to through the installed git.
//!
//! git is run without a shell, and nothing that a person wrote ever stands among its options: names of revisions go in by standard input, and
//! everything else is asked for by the number of an object. [`blobs`] reads what files hold, [`shelf`] gives sources the shared files of their own state.

mod blobs;
mod shelf;

use std::collections::{BTreeMap, BTreeSet};
use std::ffi::OsStr;
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

pub use shelf::Shelved;

use super::{Trouble, reason};
use blobs::Blobs;

/// The repository that the current folder lies in.
#[derive(Debug)]
pub struct Repository {
    // The folder that git is run in.
    folder: PathBuf,
    // This folder from the repository's root, with forward slashes; empty at the root.
    here: String,
    blobs: Blobs,
}

/// All files at one time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum State {
    /// Those of a revision, by the object number of its root.
    Tree(String),
    /// Those that are staged; while a merge is not finished, of its conflicts the side of this number: 1 the base, 2 ours, 3 theirs.
    Index(char),
}

/// What lies at a path.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A file.
    File,
    /// A symbolic link.
    Link,
    /// The repository of another project.
    Submodule,
    /// A folder.
    Folder,
    /// A file whose merge is not finished.
    Unmerged,
}

/// A path of a state.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// What lies there.
    pub kind: Kind,
    /// The number of its object.
    pub id: String,
}

/// Files by their paths from a folder, with forward slashes. Bytes of a name that are no text are replaced.
pub type Listing = BTreeMap<String, Entry>;

impl Repository {
    /// The repository of the current folder.
    pub fn here() -> Result<Self, Trouble> {
        Self::at(Path::new("."))
    }

    /// The repository that a folder lies in; this folder takes the place of the current one.
    pub fn at(folder: &Path) -> Result<Self, Trouble> {
        let repository = Self { folder: folder.to_owned(), here: String::new(), blobs: Blobs::default() };
        let here = line(&repository.ask(&["rev-parse", "--show-prefix"])?);
        Ok(Self { here: here.trim_end_matches('/').to_owned(), ..repository })
    }

    /// git with these arguments, in this repository.
    pub fn git<S: AsRef<OsStr>>(&self, arguments: &[S]) -> Command {
        let mut command = git(arguments);
        command.current_dir(&self.folder);
        command
    }

    /// What git answers to these arguments.
    pub fn ask<S: AsRef<OsStr>>(&self, arguments: &[S]) -> Result<Vec<u8>, Trouble> {
        Ok(succeeded(run(self.git(arguments), b"")?)?.stdout)
    }

    /// The current folder from the repository's root, with forward slashes; empty at the root.
    pub fn folder_here(&self) -> &str {
        &self.here
    }

    /// The number and the kind of the object that a name means: `HEAD~1^{tree}`.
    pub fn object(&self, name: &str) -> Result<Option<(String, String)>, Trouble> {
        // One line is one name.
        if name.contains(['\n', '\0']) {
            return Ok(None);
        }
        let output = run(self.git(&["cat-file", "--batch-check"]), format!("{name}\n").as_bytes())?;
        let told = line(&succeeded(output)?.stdout);
        // Of a name without an object it is repeated, and no name can look like a number, a kind and a size.
        let words: Vec<&str> = told.split(' ').collect();
        let &[id, kind, size] = words.as_slice() else { return Ok(None) };
        let found = is_id(id) && ["blob", "tree", "commit", "tag"].contains(&kind) && size.parse::<u64>().is_ok();
        Ok(found.then(|| (id.to_owned(), kind.to_owned())))
    }

    /// The number of the root of a revision: a commit, a tag or a tree.
    pub fn root_of(&self, revision: &str) -> Result<Option<String>, Trouble> {
        Ok(self.object(&format!("{revision}^{{tree}}"))?.map(|(id, _)| id))
    }

    /// What lies at a path from the root; nothing where there is nothing.
    pub fn entry(&self, state: &State, path: &str) -> Result<Option<Entry>, Trouble> {
        let (folder, name) = path.rsplit_once('/').unwrap_or(("", path));
        if name.is_empty() {
            return Ok(Some(Entry { kind: Kind::Folder, id: String::new() }));
        }
        match state {
            State::Tree(root) => Ok(match self.folder(root, folder)? {
                Some(folder) => tree_entries(&self.ask(&["ls-tree", "-z", "--full-tree", &folder])?).remove(name),
                None => None,
            }),
            State::Index(_) => {
                let mut all = self.files(state, "")?.unwrap_or_default();
                let within = format!("{path}/");
                let is_folder = all.range(within.clone()..).next().is_some_and(|(file, _)| file.starts_with(&within));
                Ok(if is_folder { Some(Entry { kind: Kind::Folder, id: String::new() }) } else { all.remove(path) })
            }
        }
    }

    /// All files in a folder and below, by their paths from it; nothing where there is no such folder.
    pub fn files(&self, state: &State, folder: &str) -> Result<Option<Listing>, Trouble> {
        match state {
            State::Tree(root) => Ok(match self.folder(root, folder)? {
                Some(folder) => Some(tree_entries(&self.ask(&["ls-tree", "-r", "-z", "--full-tree", &folder])?)),
                None => None,
            }),
            State::Index(side) => {
                let all = index_entries(&self.ask(&["ls-files", "-s", "-z", "--full-name", "--", ":/"])?, *side);
                if folder.is_empty() {
                    return Ok(Some(all));
                }
                let within = format!("{folder}/");
                let below =
                    all.into_iter().filter_map(|(path, entry)| Some((path.strip_prefix(&within)?.into(), entry)));
                let below: Listing = below.collect();
                Ok((!below.is_empty()).then_some(below))
            }
        }
    }

    /// The number of a folder of a tree.
    fn folder(&self, root: &str, folder: &str) -> Result<Option<String>, Trouble> {
        if folder.is_empty() {
            return Ok(Some(root.to_owned()));
        }
        let found = self.object(&format!("{root}:{folder}"))?;
        Ok(found.filter(|(_, kind)| kind == "tree").map(|(id, _)| id))
    }

    /// What a file holds: at most one byte more than `most`, so that the reader sees whether it is larger.
    pub fn bytes(&self, entry: &Entry, most: usize) -> Result<Vec<u8>, Trouble> {
        self.blobs.read(|| self.git(&["cat-file", "--batch"]), &entry.id, most)
    }

    /// The paths from the root that the next commit would change, come and gone ones among them.
    pub fn staged(&self) -> Result<BTreeSet<String>, Trouble> {
        let before = match self.root_of("HEAD")? {
            Some(root) => root,
            // Before the first commit there is nothing.
            None => line(&succeeded(run(self.git(&["hash-object", "-t", "tree", "--stdin"]), b"")?)?.stdout),
        };
        let paths = self.ask(&[
            "diff-index",
            "--cached",
            "--name-only",
            "--no-renames",
            "--ita-invisible-in-index",
            "-z",
            &before,
            "--",
        ])?;
        let paths = paths.split(|&byte| byte == 0).filter(|path| !path.is_empty());
        Ok(paths.map(|path| String::from_utf8_lossy(path).into_owned()).collect())
    }

    /// The folder that its files are checked out in.
    pub fn top(&self) -> Result<PathBuf, Trouble> {
        self.ask(&["rev-parse", "--show-toplevel"]).map(|bytes| path(&bytes))
    }
}

/// A path without `.`, `..` and double slashes, seen from the root; `None` where it leads out of it.
pub fn normalised(from: &str, to: &str) -> Option<String> {
    let mut steps: Vec<&str> = Vec::new();
    for step in from.split('/').chain(to.split('/')) {
        match step {
            "" | "." => {}
            ".." => _ = steps.pop()?,
            step => steps.push(step),
        }
    }
    Some(steps.join("/"))
}

/// git with these arguments and nothing of what people set up for their own eyes.
fn git<S: AsRef<OsStr>>(arguments: &[S]) -> Command {
    let mut command = Command::new("git");
    command.arg("--no-pager").args(arguments);
    command.env("LC_ALL", "C").env("GIT_OPTIONAL_LOCKS", "0");
    for manner in ["LITERAL", "GLOB", "NOGLOB", "ICASE"] {
        command.env_remove(format!("GIT_{manner}_PATHSPECS"));
    }
    command
}

/// Runs git to its end.
pub fn run(mut command: Command, input: &[u8]) -> Result<Output, Trouble> {
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().map_err(|error| not_run(&error))?;
    if let Some(mut to) = child.stdin.take() {
        // Who has heard enough closes the pipe.
        _ = to.write_all(input);
    }
    child.wait_with_output().map_err(|error| not_run(&error))
}

/// The output of a run that went well; else what git says.
pub fn succeeded(output: Output) -> Result<Output, Trouble> {
    if output.status.success() {
        return Ok(output);
    }
    let said = String::from_utf8_lossy(&output.stderr);
    if said.contains("not a git repository") {
        return Err(Trouble::new("there is no repository here")
            .with_help("go to a folder that git keeps, or let it keep this one: `git init`"));
    }
    let first = said.lines().next().unwrap_or_default();
    let first = first.strip_prefix("fatal: ").or_else(|| first.strip_prefix("error: ")).unwrap_or(first);
    Err(Trouble::new(format!("git could not do its part: {}", printable(first))))
}

fn not_run(error: &std::io::Error) -> Trouble {
    match error.kind() {
        ErrorKind::NotFound => Trouble::new("git is not installed, or is not in PATH")
            .with_help("files and folders can be compared without it; revisions and what is staged cannot"),
        _ => Trouble::new(format!("git cannot be run: {}", reason(error))),
    }
}

/// The first line of an answer, as text.
fn line(bytes: &[u8]) -> String {
    let text = String::from_utf8_lossy(bytes);
    text.strip_suffix('\n').unwrap_or(&text).to_owned()
}

/// The path on a line.
pub fn path(bytes: &[u8]) -> PathBuf {
    let bytes = bytes.strip_suffix(b"\n").unwrap_or(bytes);
    #[cfg(unix)]
    {
        use std::os::unix::ffi::OsStrExt as _;
        PathBuf::from(OsStr::from_bytes(bytes))
    }
    #[cfg(not(unix))]
    PathBuf::from(String::from_utf8_lossy(bytes).into_owned())
}

/// Words for the screen, without what a terminal would obey.
pub fn printable(words: &str) -> String {
    words.chars().map(|letter| if letter.is_control() { char::REPLACEMENT_CHARACTER } else { letter }).collect()
}

fn is_id(word: &str) -> bool {
    word.len() >= 40 && word.bytes().all(|byte| byte.is_ascii_hexdigit())
}

/// Reads `mode kind number TAB path`, each closed by a zero.
fn tree_entries(told: &[u8]) -> Listing {
    let entries = told.split(|&byte| byte == 0).filter_map(|entry| {
        let (head, path) =
            String::from_utf8_lossy(entry).split_once('\t').map(|(a, b)| (a.to_owned(), b.to_owned()))?;
        let mut words = head.split(' ');
        let (mode, _, id) = (words.next()?, words.next()?, words.next()?);
        Some((path, Entry { kind: kind(mode), id: id.to_owned() }))
    });
    entries.collect()
}

/// Reads `mode number side TAB path`, each closed by a zero. Side 0 is what is merged; a path with other sides only is not.
fn index_entries(told: &[u8], wanted: char) -> Listing {
    let mut entries = Listing::new();
    for entry in told.split(|&byte| byte == 0) {
        let entry = String::from_utf8_lossy(entry);
        let Some((head, path)) = entry.split_once('\t') else { continue };
        let words: Vec<&str> = head.split(' ').collect();
        let &[mode, id, side] = words.as_slice() else { continue };
        let entry = Entry { kind: kind(mode), id: id.to_owned() };
        if side == "0" || side.starts_with(wanted) {
            entries.insert(path.to_owned(), entry);
        } else if wanted == '0' {
            entries.insert(path.to_owned(), Entry { kind: Kind::Unmerged, ..entry });
        }
    }
    entries
}

fn kind(mode: &str) -> Kind {
    match mode {
        "120000" => Kind::Link,
        "160000" => Kind::Submodule,
        "040000" => Kind::Folder,
        _ => Kind::File,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_are_told_from_the_root() {
        assert_eq!(normalised("", "patterns//gull.piece").as_deref(), Some("patterns/gull.piece"));
        assert_eq!(normalised("patterns", "./gull.piece").as_deref(), Some("patterns/gull.piece"));
        assert_eq!(normalised("patterns", "../gull.piece").as_deref(), Some("gull.piece"));
        assert_eq!(normalised("patterns", "..").as_deref(), Some(""));
        assert_eq!(normalised("patterns", "../../gull.piece"), None);
    }

    #[test]
    fn what_git_lists_is_read_whatever_the_bytes() {
        let id = "0123456789012345678901234567890123456789";
        let told = format!("100644 blob {id}\ta b/ö\tc.piece\0120000 blob {id}\tl\0160000 commit {id}\ts\0");
        let entries = tree_entries(told.as_bytes());
        let kinds: Vec<_> = entries.iter().map(|(path, entry)| (path.as_str(), entry.kind)).collect();
        assert_eq!(kinds, [("a b/ö\tc.piece", Kind::File), ("l", Kind::Link), ("s", Kind::Submodule)]);
        assert_eq!(tree_entries(b"\0\xff\t\xff\0 \t \0\t\0").len(), 0);
        assert_eq!(tree_entries(b"100644 blob 12\t\xff.piece\0").keys().collect::<Vec<_>>(), ["\u{fffd}.piece"]);
    }

    #[test]
    fn a_conflict_has_sides() {
        let told = b"100644 11 0\ta\x00100644 12 1\tb\x00100644 13 2\tb\x00100644 14 3\tb\0";
        let ids =
            |side| index_entries(told, side).into_values().map(|entry| (entry.kind, entry.id)).collect::<Vec<_>>();
        assert_eq!(ids('0')[0], (Kind::File, "11".to_owned()));
        assert_eq!(ids('0')[1].0, Kind::Unmerged);
        assert_eq!(ids('2'), [(Kind::File, "11".to_owned()), (Kind::File, "13".to_owned())]);
    }
}
