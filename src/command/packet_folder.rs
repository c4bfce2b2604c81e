//! A packet's folder, written whole or not at all.
//!
//! A packet is a folder that holds the manifest [`MANIFEST`], which lists the files that the tool wrote. Beside the packet `gull`, a
//! hidden folder `.gull.piecewright` lives for as long as a run works on it:
//!
//! - `lock`: locked by the run that is at work; the system unlocks it however that run ends;
//! - `new`: the packet that is being written;
//! - `old`: the packet that was there before, between the two renames;
//! - `gone`: the same, while it is being deleted.
//!
//! A run writes `new`, renames `gull` to `old`, `new` to `gull`, `old` to `gone`, and deletes `gone`. Whenever it is killed, the next
//! run can tell where:
//!
//! | what is there | where it was killed | what the next run does |
//! | --- | --- | --- |
//! | `new` | while writing; `gull` is untouched | deletes `new` |
//! | `old`, no `gull` | between the renames | renames `old` back to `gull`: the whole old packet |
//! | `old` and `gull` | after the renames; `gull` is the whole new packet | deletes `old`, by way of `gone` |
//! | `gone` | while deleting; `gull` is the whole new packet | goes on deleting |
//!
//! So at every moment the whole old or the whole new packet is at `gull` or, for the moment between two renames, at `old`.
//!
//! What the tool did not write is never deleted. A folder or file in the way that is no packet, and a packet with further files in it,
//! are refused, and by force set aside as `gull.old`, or `gull.old-2` and so on. Deleting goes by the manifest, file by file, and what
//! is left then (files that came in meanwhile) is set aside too. Symbolic links are never followed.

use std::collections::BTreeSet;
use std::ffi::{OsStr, OsString};
use std::fs::{self, File, TryLockError};
use std::io::{self, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};

use piecewright::{Artifact, leads_down};
use serde::{Deserialize, Serialize};

use super::{Trouble, reason};

/// The file that marks a packet and lists its files.
pub const MANIFEST: &str = "piecewright-packet.json";
/// A manifest beyond this size is none of ours.
const LARGEST_MANIFEST: u64 = 1 << 26;
/// Files that file managers strew about; nobody misses them.
const LITTER: [&str; 4] = [".DS_Store", "Thumbs.db", "desktop.ini", ".directory"];

#[derive(Serialize, Deserialize)]
struct Manifest {
    made_by: String,
    files: BTreeSet<String>,
}

/// Where a packet is to be.
#[derive(Debug)]
pub struct PacketFolder {
    parent: PathBuf,
    name: OsString,
    // As the person named it.
    shown: String,
}

/// What is at the packet's place.
#[derive(Debug, PartialEq, Eq)]
enum Found {
    Nothing,
    /// A packet, or an empty folder.
    Packet,
    /// A packet with files in it that the tool did not write: the first of them, and how many.
    Mixed(String, usize),
    /// Something that the tool did not make.
    Foreign,
}

/// What becomes of a packet that was there before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Former {
    /// It is deleted.
    Goes,
    /// It is set aside.
    Stays,
}

impl PacketFolder {
    /// The packet at this path, which may not be a folder that holds one of `keep`, or one of them itself.
    pub fn at(path: &Path, keep: &[&Path]) -> Result<Self, Trouble> {
        let shown = path.display().to_string();
        let fail = |error: io::Error| Trouble::new(format!("`{shown}` cannot be written: {}", reason(&error)));
        // A link to a folder stands for the folder.
        let real = fs::canonicalize(path).or_else(|_| {
            let whole = std::path::absolute(path)?;
            match (whole.parent(), whole.file_name()) {
                (Some(parent), Some(name)) => Ok(fs::canonicalize(parent).unwrap_or_else(|_| parent.into()).join(name)),
                _ => Ok(whole),
            }
        });
        let real = real.map_err(fail)?;
        let held = keep.iter().filter_map(|kept| fs::canonicalize(kept).ok()).any(|kept| kept.starts_with(&real));
        let (Some(parent), Some(name), false) = (real.parent(), real.file_name(), held) else {
            return Err(Trouble::new(format!(
                "`{shown}` cannot become a packet: it is or holds the source, or the folder you work in"
            ))
            .with_help("name a folder of its own with `-o FOLDER`"));
        };
        Ok(Self { parent: parent.into(), name: name.into(), shown })
    }

    /// Mends what a killed run has left behind. Does nothing while another run is at work.
    pub fn recover(&self) -> Result<(), Trouble> {
        if fs::symlink_metadata(self.work_path()).is_err() {
            return Ok(());
        }
        match Work::begin(self) {
            Ok(Some(work)) => work.recover().map_err(|error| self.fail(&error)),
            Ok(None) => Ok(()),
            Err(error) => Err(self.fail(&error)),
        }
    }

    /// Writes the packet. Gives the place where what was in the way has been set aside, if so.
    pub fn write(&self, artifacts: &[Artifact], force: bool) -> Result<Option<PathBuf>, Trouble> {
        self.write_with(artifacts, force, Former::Goes)
    }

    /// The same by force, but a packet too is set aside and never deleted.
    pub fn write_beside(&self, artifacts: &[Artifact]) -> Result<Option<PathBuf>, Trouble> {
        self.write_with(artifacts, true, Former::Stays)
    }

    fn write_with(&self, artifacts: &[Artifact], force: bool, former: Former) -> Result<Option<PathBuf>, Trouble> {
        for artifact in artifacts {
            if !leads_down(&artifact.path) || artifact.path == MANIFEST {
                return Err(Trouble::new(format!(
                    "the packet has a file with an impossible name: `{}`",
                    artifact.path
                )));
            }
        }
        fs::create_dir_all(&self.parent).map_err(|error| self.fail(&error))?;
        let Some(work) = Work::begin(self).map_err(|error| self.fail(&error))? else {
            return Err(Trouble::new(format!("another run is writing `{}` at this moment", self.shown)));
        };
        work.recover().map_err(|error| self.fail(&error))?;
        if !force {
            self.refuse(inspect(&self.path()).map_err(|error| self.fail(&error))?)?;
        }
        work.fill(artifacts).and_then(|()| work.put(former)).map_err(|error| self.fail(&error))
    }

    /// Whether it would lie in this folder.
    pub fn lies_in(&self, folder: &Path) -> bool {
        fs::canonicalize(folder).is_ok_and(|folder| self.parent.starts_with(folder))
    }

    fn refuse(&self, found: Found) -> Result<(), Trouble> {
        let shown = &self.shown;
        let aside = format!("choose another folder with `-o FOLDER`, or set it aside as `{shown}.old` with `--force`");
        match found {
            Found::Nothing | Found::Packet => Ok(()),
            Found::Foreign => Err(Trouble::new(format!("`{shown}` is in the way, and is no packet")).with_help(aside)),
            Found::Mixed(first, 1) => {
                Err(Trouble::new(format!("`{shown}` holds a file that is not of the packet: `{first}`"))
                    .with_help(aside))
            }
            Found::Mixed(first, n) => {
                let message = format!("`{shown}` holds files that are not of the packet: `{first}` and {} more", n - 1);
                Err(Trouble::new(message).with_help(aside))
            }
        }
    }

    fn path(&self) -> PathBuf {
        self.parent.join(&self.name)
    }

    fn sibling(&self, before: &str, after: &str) -> PathBuf {
        let mut name = OsString::from(before);
        name.push(&self.name);
        name.push(after);
        self.parent.join(name)
    }

    fn work_path(&self) -> PathBuf {
        self.sibling(".", ".piecewright")
    }

    fn fail(&self, error: &io::Error) -> Trouble {
        let trouble = Trouble::new(format!("`{}` cannot be written: {}", self.shown, reason(error)));
        if fs::symlink_metadata(self.work_path().join("old")).is_ok() {
            return trouble
                .with_help(format!("what was there is safe in `{}`", self.work_path().join("old").display()));
        }
        trouble
    }
}

/// The hidden folder beside a packet, with its lock held.
struct Work<'a> {
    packet: &'a PacketFolder,
    folder: PathBuf,
    // Held for as long as the work goes on.
    _lock: File,
}

impl<'a> Work<'a> {
    /// Makes the hidden folder, or takes over what a killed run has left; nothing if another run is at work.
    fn begin(packet: &'a PacketFolder) -> io::Result<Option<Self>> {
        let folder = packet.work_path();
        loop {
            match fs::create_dir(&folder) {
                Err(error) if error.kind() != ErrorKind::AlreadyExists => return Err(error),
                _ => {}
            }
            let path = folder.join("lock");
            let lock = match File::options().create(true).truncate(false).write(true).open(&path) {
                // Another run has ended in between and taken its folder away.
                Err(error) if error.kind() == ErrorKind::NotFound => continue,
                result => result?,
            };
            match lock.try_lock() {
                Ok(()) => {}
                Err(TryLockError::WouldBlock) => return Ok(None),
                Err(TryLockError::Error(error)) if error.kind() == ErrorKind::Unsupported => {}
                Err(TryLockError::Error(error)) => return Err(error),
            }
            // If it has been taken away since it was opened, the lock is worth nothing.
            if fs::symlink_metadata(&path).is_ok() {
                return Ok(Some(Self { packet, folder, _lock: lock }));
            }
        }
    }

    fn part(&self, name: &str) -> PathBuf {
        self.folder.join(name)
    }

    /// Brings the packet back to what it was before or after a killed run, as the table above tells.
    fn recover(&self) -> io::Result<()> {
        remove_all(&self.part("new"))?;
        if exists(&self.part("old")) {
            if exists(&self.packet.path()) {
                self.put_away()?;
            } else {
                fs::rename(self.part("old"), self.packet.path())?;
            }
        }
        self.delete_gone().map(drop)
    }

    /// Writes all files to `new`, the manifest last.
    fn fill(&self, artifacts: &[Artifact]) -> io::Result<()> {
        let new = self.part("new");
        fs::create_dir(&new)?;
        let files = artifacts.iter().map(|artifact| artifact.path.clone()).collect();
        let manifest = serde_json::to_string_pretty(&Manifest { made_by: "piecewright".into(), files })?;
        let all = artifacts.iter().map(|artifact| (artifact.path.as_str(), artifact.bytes.as_slice()));
        for (path, bytes) in all.chain([(MANIFEST, format!("{manifest}\n").as_bytes())]) {
            let path = new.join(path);
            if let Some(parent) = path.parent() {
                fs::create_dir_all(parent)?;
            }
            // Two files of one name, even if only the file system takes them for one, are a fault.
            File::create_new(path)?.write_all(bytes)?;
        }
        Ok(())
    }

    /// Puts `new` in the packet's place.
    fn put(&self, former: Former) -> io::Result<Option<PathBuf>> {
        match former {
            Former::Goes => self.swap(),
            Former::Stays => self.swap_aside(),
        }
    }

    /// Puts `new` in the packet's place, and what was there away.
    fn swap(&self) -> io::Result<Option<PathBuf>> {
        let (path, old) = (self.packet.path(), self.part("old"));
        let was_there = exists(&path);
        if was_there {
            fs::rename(&path, &old)?;
        }
        if let Err(error) = fs::rename(self.part("new"), &path) {
            if was_there {
                fs::rename(&old, &path)?;
            }
            return Err(error);
        }
        if was_there { self.put_away() } else { Ok(None) }
    }

    /// Sets aside what is in the packet's place, and puts `new` there. Killed in between, it has left the former packet whole, aside.
    fn swap_aside(&self) -> io::Result<Option<PathBuf>> {
        let path = self.packet.path();
        if !exists(&path) {
            return self.swap();
        }
        let aside = self.set_aside(&path)?;
        if let Err(error) = fs::rename(self.part("new"), &path) {
            fs::rename(&aside, &path)?;
            return Err(error);
        }
        Ok(Some(aside))
    }

    /// Deletes `old` if it is a packet and nothing else, and sets it aside otherwise.
    fn put_away(&self) -> io::Result<Option<PathBuf>> {
        if inspect(&self.part("old"))? == Found::Packet {
            fs::rename(self.part("old"), self.part("gone"))?;
            self.delete_gone()
        } else {
            self.set_aside(&self.part("old")).map(Some)
        }
    }

    /// Deletes from `gone` what the manifest lists; what is left then is set aside.
    fn delete_gone(&self) -> io::Result<Option<PathBuf>> {
        let gone = self.part("gone");
        if !exists(&gone) {
            return Ok(None);
        }
        // The manifest goes last: without it a killed run could not be taken up again.
        if let Some(manifest) = manifest(&gone) {
            for file in files(&gone)?.iter().filter(|file| is_ours(file, &manifest) && file.as_str() != MANIFEST) {
                fs::remove_file(gone.join(file))?;
            }
            remove_empty(&gone)?;
            if files(&gone)?.iter().eq([MANIFEST]) {
                fs::remove_file(gone.join(MANIFEST))?;
            }
        }
        remove_empty(&gone)?;
        if exists(&gone) { self.set_aside(&gone).map(Some) } else { Ok(None) }
    }

    /// Gives what lies in the hidden folder the first free name beside the packet.
    fn set_aside(&self, from: &Path) -> io::Result<PathBuf> {
        let endings = std::iter::once(String::from(".old")).chain((2..).map(|n| format!(".old-{n}")));
        let free = endings.map(|ending| self.packet.sibling("", &ending)).find(|path| !exists(path));
        let to = free.ok_or(ErrorKind::AlreadyExists)?;
        fs::rename(from, &to)?;
        Ok(to)
    }
}

impl Drop for Work<'_> {
    fn drop(&mut self) {
        // If anything fails here, the next run mends it; a folder that is not empty stays.
        _ = remove_all(&self.part("new"));
        if !exists(&self.part("old")) && !exists(&self.part("gone")) {
            _ = fs::remove_file(self.part("lock"));
            _ = fs::remove_dir(&self.folder);
        }
    }
}

fn exists(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok()
}

/// Looks at what is in the packet's place. O(files in it).
fn inspect(path: &Path) -> io::Result<Found> {
    match fs::symlink_metadata(path) {
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Found::Nothing),
        Err(error) => return Err(error),
        Ok(metadata) if !metadata.is_dir() => return Ok(Found::Foreign),
        Ok(_) => {}
    }
    let Some(manifest) = manifest(path) else {
        // A folder that was made for the packet beforehand holds nothing to lose.
        let is_empty = fs::read_dir(path)?.next().is_none();
        return Ok(if is_empty { Found::Packet } else { Found::Foreign });
    };
    let mut others = files(path)?.into_iter().filter(|file| !is_ours(file, &manifest));
    Ok(match others.next() {
        None => Found::Packet,
        Some(first) => Found::Mixed(first, 1 + others.count()),
    })
}

/// The manifest of a packet; nothing if there is none that can be believed.
fn manifest(folder: &Path) -> Option<Manifest> {
    let path = folder.join(MANIFEST);
    let metadata = fs::symlink_metadata(&path).ok()?;
    let mut text = String::new();
    if metadata.is_file() {
        File::open(&path).ok()?.take(LARGEST_MANIFEST).read_to_string(&mut text).ok()?;
    }
    serde_json::from_str(&text).ok().filter(|manifest: &Manifest| manifest.made_by == "piecewright")
}

fn is_ours(file: &str, manifest: &Manifest) -> bool {
    file == MANIFEST || manifest.files.contains(file) || is_litter(file)
}

/// Whether a file manager has left this.
pub fn is_litter(file: &str) -> bool {
    LITTER.contains(&file.rsplit('/').next().unwrap_or(file))
}

/// All in a folder that is no folder, links included, in order, by paths with forward slashes. Follows no link.
pub fn files(folder: &Path) -> io::Result<Vec<String>> {
    let mut found = Vec::new();
    let mut open = vec![(folder.to_path_buf(), String::new())];
    while let Some((folder, prefix)) = open.pop() {
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            let name = format!("{prefix}{}", listed(&entry.file_name()));
            if entry.file_type()?.is_dir() {
                open.push((entry.path(), format!("{name}/")));
            } else {
                found.push(name);
            }
        }
    }
    found.sort();
    Ok(found)
}

/// A file's name as a manifest would list it. One that is not Unicode is turned into what no manifest lists.
fn listed(name: &OsStr) -> String {
    name.to_str().map_or_else(|| format!("{}\u{fffd}", name.to_string_lossy()), String::from)
}

/// Removes a folder and the folders in it, as far as they are empty.
fn remove_empty(folder: &Path) -> io::Result<()> {
    if !fs::symlink_metadata(folder).is_ok_and(|metadata| metadata.is_dir()) {
        return Ok(());
    }
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        if entry.file_type()?.is_dir() {
            remove_empty(&entry.path())?;
        }
    }
    match fs::remove_dir(folder) {
        Err(error) if error.kind() != ErrorKind::DirectoryNotEmpty => Err(error),
        _ => Ok(()),
    }
}

/// Removes the tool's own unfinished work, with all that is in it.
fn remove_all(folder: &Path) -> io::Result<()> {
    if exists(folder) { fs::remove_dir_all(folder) } else { Ok(()) }
}

#[cfg(test)]
#[path = "packet_folder_tests.rs"]
mod tests;
