//! `piecewright git driver`: what git calls for each file that it compares, in the place of its own comparison.
//!
//! git passes the path, then file, object and mode of the old and of the new side, and after a renaming the new path and words about it. The files may
//! lie anywhere, and of which revision they are git does not say; so the files that they use are those that lie in the folder of the path today.
//! Whatever happens, git is told that all went well: it would stop in the midst of its list otherwise.
//!
//! git calls this for `git difftool` too, whatever tool is asked for; then the tool is what a person wants, and gets (`hand_on`).

use std::ffi::{OsStr, OsString};
use std::fs::File;
use std::path::{Path, PathBuf};
use std::process::Command;

use piecewright::Shelf;

use super::super::arguments::{Colour, Driver, Format, Showing};
use super::super::input::{self, Content};
use super::super::repository::{Repository, printable};
use super::super::shelf::Folder;
use super::super::show;
use super::super::side::{Bare, NOTHING, Side};
use super::super::voice::{Screen, Voice};
use super::super::{Outcome, Trouble, diff, lines, reason};
use super::config;
use piecewright::release::is_pattern;

/// The mode of a symbolic link.
const LINK: &str = "120000";

/// What git runs for `git difftool`, and where it says so.
const TOOL: (&str, &str) = ("GIT_EXTERNAL_DIFF", "git-difftool--helper");

/// One side as git passes it.
struct Half<'a> {
    /// Its path in the repository.
    path: &'a Path,
    /// Where it can be read now.
    file: &'a Path,
    /// Its mode; `.` where there is none.
    mode: &'a OsStr,
}

impl Half<'_> {
    fn is_there(&self) -> bool {
        self.file.as_os_str() != NOTHING
    }

    /// The name in the lines of a comparison: `a/patterns/gull.piece`.
    fn name(&self, letter: char) -> String {
        if self.is_there() { format!("{letter}/{}", shown(self.path)) } else { NOTHING.to_owned() }
    }
}

/// Tells what changed in one file.
pub fn run(asked: &Driver, voice: &mut Voice) -> Result<Outcome, Trouble> {
    if !asked.tool && std::env::var_os(TOOL.0).is_some_and(|program| program == TOOL.1) {
        return hand_on(&asked.arguments);
    }
    let arguments: Vec<&Path> = asked.arguments.iter().map(Path::new).collect();
    match arguments.as_slice() {
        [] => {
            return Err(Trouble::new("git calls this for each file that it compares")
                .with_help("`piecewright git install` tells git so; `git diff` shows it"));
        }
        // Of a file in conflict git passes the path alone.
        [path] => voice.say(&format!("* Unmerged path {}\n", shown(path))),
        // All files at once, in two folders without what they use.
        [_, old, ..] if asked.tool && old.is_dir() => voice.complain(
            &Trouble::new("patterns are compared one at a time")
                .with_help("`git difftool -t piecewright` without `--dir-diff` does so"),
        ),
        [path, old, _, old_mode, new, _, new_mode, rest @ ..] => {
            let new_path = rest.first().copied().unwrap_or(path);
            let was = Half { path, file: old, mode: old_mode.as_os_str() };
            let now = Half { path: new_path, file: new, mode: new_mode.as_os_str() };
            voice.say(&headline(&was, &now, rest.get(1).map(|words| words.as_os_str())));
            compare(&was, &now, voice);
        }
        _ => voice.complain(&Trouble::new("git passed fewer words than a comparison has")),
    }
    Ok(Outcome::Fine)
}

/// Lets the tool of `git difftool` show the file.
fn hand_on(arguments: &[OsString]) -> Result<Outcome, Trouble> {
    let helper = TOOL.1.strip_prefix("git-").unwrap_or(TOOL.1);
    let ended = Command::new("git").arg(helper).args(arguments).status();
    let ended = ended.map_err(|error| Trouble::new(format!("git cannot be run: {}", reason(&error))))?;
    Ok(if ended.success() { Outcome::Fine } else { Outcome::Faults })
}

/// The lines that git itself would begin with.
fn headline(was: &Half, now: &Half, renamed: Option<&OsStr>) -> String {
    let mode = |half: &Half| printable(&half.mode.to_string_lossy());
    let names = format!("diff --git a/{} b/{}\n", shown(was.path), shown(now.path));
    let modes = match (was.is_there(), now.is_there()) {
        (false, true) => format!("new file mode {}\n", mode(now)),
        (true, false) => format!("deleted file mode {}\n", mode(was)),
        // A tool passes no modes.
        _ if was.mode != now.mode => format!("old mode {}\nnew mode {}\n", mode(was), mode(now)),
        _ => String::new(),
    };
    let renamed = renamed.map(OsStr::to_string_lossy).unwrap_or_default();
    let renamed: Vec<String> = renamed.lines().map(|line| printable(line) + "\n").collect();
    names + &modes + &renamed.concat()
}

/// Tells what changed by consequence where both sides are patterns that compile, else line by line.
fn compare(was: &Half, now: &Half, voice: &mut Voice) {
    let halves = read(was).and_then(|old| Ok((old, read(now)?)));
    let (old, new) = match halves {
        Ok(halves) => halves,
        Err(trouble) => return voice.complain(&trouble),
    };
    if old == new {
        return;
    }
    let is_link = [was, now].iter().any(|half| half.mode == LINK);
    let (old_side, new_side) = (side(was, old.as_deref(), 'a'), side(now, new.as_deref(), 'b'));
    let patterns = [&old_side, &new_side].into_iter().flatten().all(|side| match &side.content {
        Content::Text(text) => is_pattern(text),
        Content::Unfit(..) => true,
    });
    if !is_link && patterns && told(old_side.as_ref(), new_side.as_ref(), voice) {
        return;
    }
    let text = |bytes: Option<Vec<u8>>| String::from_utf8_lossy(&bytes.unwrap_or_default()).into_owned();
    let names = (was.name('a'), now.name('b'));
    let lines = lines::difference((&names.0, &names.1), (&text(old), &text(new)));
    voice.say(&lines.unwrap_or_else(|| String::from("it is too long to be compared line by line\n")));
}

/// Tells what changed from one pattern to the other; nothing stands for one that is not there. False where nothing was told but why not: a source has
/// errors.
fn told(was: Option<&Side>, now: Option<&Side>, voice: &mut Voice) -> bool {
    let screen = Screen::output(Colour::Auto);
    match diff::told_of(was, now, screen.colour) {
        Ok(told) => {
            voice.say(&told);
            true
        }
        Err(judged) => {
            let showing = Showing {
                format: Format::Full,
                color: Colour::Auto,
                most: Some(usize::MAX),
                deny_warnings: false,
                quiet: false,
            };
            voice.say(&show::render(&judged, &showing, screen).text);
            false
        }
    }
}

/// The bytes of a side, at most one more than a source may have; nothing where it is not there.
fn read(half: &Half) -> Result<Option<Vec<u8>>, Trouble> {
    if !half.is_there() {
        return Ok(None);
    }
    let read = File::open(half.file).and_then(input::capped);
    read.map(Some).map_err(|error| Trouble::new(format!("`{}` cannot be read: {}", shown(half.file), reason(&error))))
}

/// A side as a source, with the files that lie in the folder of its path today.
fn side(half: &Half, bytes: Option<&[u8]>, letter: char) -> Option<Side> {
    let bytes = bytes?;
    let name = half.name(letter);
    let folder = folder(half.path);
    let shelf: Box<dyn Shelf> = match Folder::open(&folder) {
        Ok(folder) => Box::new(folder),
        Err(_) => Box::new(Bare),
    };
    let key = half.path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    Some(Side { key, content: input::content(&name, bytes.to_vec()), name, folder, shelf })
}

/// The folder that the `use` lines of a path start from. git calls from the root of the repository.
fn folder(path: &Path) -> PathBuf {
    let project = Repository::here().and_then(|repository| config::project(&repository)).ok().flatten();
    let own = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    project.map_or_else(|| own.to_owned(), PathBuf::from)
}

/// A path for the screen; in quotes, as git has it, where there is something odd in it.
fn shown(path: &Path) -> String {
    let text = path.to_string_lossy();
    if text.contains(|letter: char| letter.is_control() || letter == '"' || letter == '\\') {
        format!("{text:?}")
    } else {
        text.into_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn half<'a>(path: &'a str, file: &'a str, mode: &'a str) -> Half<'a> {
        Half { path: Path::new(path), file: Path::new(file), mode: OsStr::new(mode) }
    }

    #[test]
    fn headlines_are_gits_own() {
        let (a, b) = (half("m\u{f6}we.piece", "/t/1", "100644"), half("m\u{f6}we.piece", "/t/2", "100755"));
        assert_eq!(
            headline(&a, &b, None),
            "diff --git a/m\u{f6}we.piece b/m\u{f6}we.piece\nold mode 100644\nnew mode 100755\n"
        );
        let gone = half("a.piece", NOTHING, ".");
        assert!(headline(&gone, &half("a.piece", "a.piece", "100644"), None).ends_with("\nnew file mode 100644\n"));
        assert!(headline(&a, &half("m\u{f6}we.piece", NOTHING, "."), None).ends_with("\ndeleted file mode 100644\n"));
        let renamed =
            headline(&a, &half("b.piece", "b.piece", "100644"), Some(OsStr::new("rename from a\nrename to b\u{7}\n")));
        assert!(renamed.ends_with("b/b.piece\nrename from a\nrename to b\u{fffd}\n"), "{renamed}");
        assert_eq!(shown(Path::new("a\u{1b}[31m\n.piece")), "\"a\\u{1b}[31m\\n.piece\"");
    }
}
