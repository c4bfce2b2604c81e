//! Sides that lie on the disk.

use std::fs;
use std::path::{Path, PathBuf};

use super::super::input::{self, Input};
use super::super::shelf::Folder;
use super::super::{Trouble, sources};
use super::{Named, Side};

/// Reads a source, or all patterns of a folder.
pub fn read(path: &Path, project: Option<&Path>) -> Result<Named, Trouble> {
    if input::is_standard(path) || !path.is_dir() {
        let key = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        return Ok(Named::One(side(key, input::read(path)?, project)?));
    }
    let mut trouble = None;
    let mut found = Vec::new();
    sources::search(path, &mut found, &mut |one| {
        trouble.get_or_insert(one);
    });
    if let Some(trouble) = trouble {
        return Err(trouble);
    }
    let mut sides = Vec::new();
    for file in found.iter().filter(|file| !is_foreign(path, file)) {
        let side = side(key(path, file), input::read(file)?, project)?;
        if side.is_pattern() {
            sides.push(side);
        }
    }
    sides.sort_by(|a, b| a.key.cmp(&b.key));
    Ok(Named::Folder(sides))
}

/// The source with the files that it may use.
fn side(key: String, input: Input, project: Option<&Path>) -> Result<Side, Trouble> {
    let folder = project.map_or(input.folder, Path::to_path_buf);
    let shelf = Box::new(Folder::open(&folder)?);
    Ok(Side { key, name: input.name, content: input.content, folder, shelf })
}

/// Whether a file is one that a revision of the folder would not have: a link, or a file of a repository in it.
fn is_foreign(folder: &Path, file: &Path) -> bool {
    let is_link = fs::symlink_metadata(file).is_ok_and(|data| data.is_symlink());
    let folders = file.ancestors().skip(1).take_while(|above| *above != folder);
    is_link || folders.into_iter().any(|above| fs::symlink_metadata(above.join(".git")).is_ok())
}

/// The path of a file from the folder, with forward slashes.
fn key(folder: &Path, file: &Path) -> String {
    let within: PathBuf = file.strip_prefix(folder).unwrap_or(file).into();
    let steps: Vec<_> = within.components().map(|step| step.as_os_str().to_string_lossy()).collect();
    steps.join("/")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn keys(named: Named) -> Vec<String> {
        match named {
            Named::One(side) => vec![side.key],
            Named::Folder(sides) => sides.into_iter().map(|side| side.key).collect(),
        }
    }

    #[test]
    fn a_folder_gives_its_patterns_and_what_cannot_be_read() {
        let desk = tempfile::tempdir().expect("a folder");
        let pattern: &[u8] = b"pattern \"Gull\"\n";
        let files: [(&str, &[u8]); 7] = [
            ("b.piece", pattern),
            ("a/sea gull.piece", pattern),
            ("a/palette.piece", b"fabric sky \"Sky\" #abc\n"),
            ("a/m\u{f6}we.piece", b"pattern \"M\xf6we\"\n"),
            (".drafts/c.piece", pattern),
            ("other/.git/HEAD", b""),
            ("other/d.piece", pattern),
        ];
        for (name, bytes) in files {
            let path = desk.path().join(name);
            fs::create_dir_all(path.parent().expect("a parent")).expect("makes folders");
            fs::write(path, bytes).expect("writes");
        }
        #[cfg(unix)]
        std::os::unix::fs::symlink("b.piece", desk.path().join("link.piece")).expect("links");
        let Ok(named) = read(desk.path(), None) else { panic!("a folder is read") };
        assert_eq!(keys(named), ["a/m\u{f6}we.piece", "a/sea gull.piece", "b.piece"]);
        let Ok(one) = read(&desk.path().join("a/palette.piece"), None) else { panic!("a single source is what it is") };
        assert_eq!(keys(one), ["palette.piece"]);
        assert!(read(&desk.path().join("none.piece"), None).is_err());
        assert!(read(&desk.path().join("b.piece"), Some(&desk.path().join("none"))).is_err());
    }
}
