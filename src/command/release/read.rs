//! What a release is made of: the sources of a folder, and the release before.

use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::{ErrorKind, Read as _};
use std::path::{Path, PathBuf};

use piecewright::release::{Files, Former, MANIFEST, Manifest, Source, intact, is_pattern};

use super::super::input::{self, Content};
use super::super::packet_folder;
use super::super::shelf::Folder;
use super::super::show::Judged;
use super::super::{Trouble, reason};

/// A manifest beyond this size is none.
const LARGEST_MANIFEST: u64 = 1 << 26;

/// The sources that were named.
pub struct Reading {
    /// The patterns, by name.
    pub sources: Vec<Source>,
    /// What cannot be compiled at all.
    pub unfit: Vec<Judged>,
    /// Files of the folder that patterns share.
    pub skipped: Vec<PathBuf>,
    /// Where shared files come from.
    pub shelf: Folder,
    /// The same, as the person named it.
    pub folder: PathBuf,
}

/// Reads a source, or all patterns that lie in a folder.
pub fn sources(file: &Path, project: Option<&Path>) -> Result<Reading, Trouble> {
    if input::is_standard(file) {
        return Err(Trouble::new("a source from standard input cannot be released: what was read goes with a release")
            .with_help("write it to a file, and name that"));
    }
    let folder = super::project(file, project);
    let paths = if file.is_dir() { in_folder(file)? } else { vec![file.to_owned()] };
    // A file that is not there is spoken of before its folder.
    let inputs = paths.iter().map(|path| input::read(path)).collect::<Result<Vec<_>, _>>()?;
    let shelf = Folder::open(&folder)?;
    let mut reading = Reading { sources: Vec::new(), unfit: Vec::new(), skipped: Vec::new(), shelf, folder };
    for (path, input) in paths.into_iter().zip(inputs) {
        match input.content {
            Content::Text(text) if file.is_dir() && !is_pattern(&text) => reading.skipped.push(path),
            Content::Text(text) => {
                let in_project = in_project(&path, reading.shelf.root())?;
                reading.sources.push(Source { name: input.name, path: in_project, text });
            }
            Content::Unfit(sources, fault) => {
                reading.unfit.push(Judged { sources, faults: vec![fault], folder: reading.folder.clone() });
            }
        }
    }
    if reading.sources.is_empty() && reading.unfit.is_empty() {
        return Err(Trouble::new(format!("there is no pattern in `{}`", file.display()))
            .with_help("name a source, or a folder in which sources lie; folders in it are not searched"));
    }
    Ok(reading)
}

/// The sources in a folder, by name; not those in folders in it, where former releases may lie.
fn in_folder(folder: &Path) -> Result<Vec<PathBuf>, Trouble> {
    let fail = |error: &std::io::Error| {
        Trouble::new(format!("the folder `{}` cannot be read: {}", folder.display(), reason(error)))
    };
    let mut paths = Vec::new();
    for entry in fs::read_dir(folder).map_err(|error| fail(&error))? {
        let path = entry.map_err(|error| fail(&error))?.path();
        let hidden = path.file_name().is_none_or(|name| name.to_string_lossy().starts_with('.'));
        if !hidden && path.extension().is_some_and(|ending| ending == "piece") && path.is_file() {
            paths.push(path);
        }
    }
    paths.sort();
    Ok(paths)
}

/// The path of a source in its project, with forward slashes; of one that lies elsewhere, its name.
fn in_project(path: &Path, root: &Path) -> Result<String, Trouble> {
    let unfit = || {
        Trouble::new(format!("`{}` has a name that not every system can hold", path.display()))
            .with_help("give the source another name")
    };
    let name = path.file_name().ok_or_else(unfit)?;
    let real = fs::canonicalize(input::folder_of(path)).map(|folder| folder.join(name));
    let inner = real.ok().and_then(|real| real.strip_prefix(root).ok().map(Path::to_owned));
    let inner = inner.unwrap_or_else(|| PathBuf::from(name));
    let parts: Option<Vec<&str>> = inner.iter().map(|part| part.to_str()).collect();
    Ok(parts.ok_or_else(unfit)?.join("/"))
}

/// What a release in a folder tells of itself.
pub fn manifest(folder: &Path) -> Result<Manifest, Trouble> {
    let path = folder.join(MANIFEST);
    let shown = folder.display();
    let no_release = |why: &str| {
        Trouble::new(format!("`{shown}` is no release: {why}"))
            .with_help("name the folder that `piecewright release` made, not a packet and not the archive")
    };
    let mut text = String::new();
    let file = File::open(&path).map_err(|error| match error.kind() {
        ErrorKind::NotFound if !folder.exists() => match left_behind(folder) {
            Some(old) => Trouble::new(format!("`{shown}` is not there: a run was killed while it wrote it"))
                .with_help(format!("make the release again; the one before lies in `{}`", old.display())),
            None => Trouble::new(format!("there is no folder `{shown}`")),
        },
        ErrorKind::NotFound | ErrorKind::NotADirectory => no_release(&format!("there is no `{MANIFEST}` in it")),
        _ => Trouble::new(format!("`{}` cannot be read: {}", path.display(), reason(&error))),
    })?;
    let read = file.take(LARGEST_MANIFEST).read_to_string(&mut text);
    read.map_err(|error| no_release(&format!("`{MANIFEST}` cannot be read: {}", reason(&error))))?;
    Manifest::read(&text).map_err(|why| no_release(&format!("`{MANIFEST}` cannot be true: {why}")))
}

/// Where a killed run has left what was at this place.
fn left_behind(folder: &Path) -> Option<PathBuf> {
    let name = folder.file_name()?.to_str()?;
    let old = folder.with_file_name(format!(".{name}.piecewright")).join("old");
    old.is_dir().then_some(old)
}

/// A file of a release, of at most so many bytes and one more.
pub fn file(folder: &Path, path: &str, most: u64) -> Result<Vec<u8>, String> {
    let path = folder.join(path);
    let fail = |error: std::io::Error| reason(&error);
    if !fs::metadata(&path).map_err(fail)?.is_file() {
        return Err(String::from("it is not a file"));
    }
    let mut bytes = Vec::new();
    File::open(&path).and_then(|file| file.take(most.saturating_add(1)).read_to_end(&mut bytes)).map_err(fail)?;
    Ok(bytes)
}

/// The files of a release that are there, without what file managers leave and the mark of the folder.
pub fn present(folder: &Path) -> Result<BTreeSet<String>, Trouble> {
    let files = packet_folder::files(folder)
        .map_err(|error| Trouble::new(format!("`{}` cannot be read: {}", folder.display(), reason(&error))))?;
    Ok(files.into_iter().filter(|file| !packet_folder::is_litter(file) && file != packet_folder::MANIFEST).collect())
}

/// Reads a release that was made before. It must be intact, to the last file.
pub fn former(folder: &Path) -> Result<Former, Trouble> {
    let manifest = manifest(folder)?;
    let shown = folder.display();
    let broken = |why: &str| {
        Trouble::new(format!("the release in `{shown}` is not intact: {why}")).with_help(format!(
            "`piecewright release --verify {shown}` tells all; fetch it anew from where you keep it"
        ))
    };
    let needed: BTreeSet<String> = Former::needed(&manifest).map(|told| told.path.clone()).collect();
    let mut files = Files::new();
    let found = intact(&manifest, &present(folder)?, &mut |path, most| {
        let bytes = file(folder, path, most)?;
        if needed.contains(path) {
            files.insert(path.to_owned(), bytes.clone());
        }
        Ok(bytes)
    });
    if let Some(first) = found.first() {
        let more = match found.len() - 1 {
            0 => String::new(),
            1 => String::from(", and 1 more file is not as it should be"),
            more => format!(", and {more} more files are not as they should be"),
        };
        return Err(broken(&format!("`{}` {}{more}", first.path, first.wrong)));
    }
    Former::try_new(manifest, files).map_err(|why| broken(&why))
}
