//! A repository of its own for a test, without anything that the machine sets up for git.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

const PROGRAM: &str = env!("CARGO_BIN_EXE_piecewright");

/// A hook that has nothing to do with patterns.
pub const FOREIGN_HOOK: &str = "#!/bin/sh\n# piecewright git staged would be good here\nexit 0\n";

/// A pattern that is laid out and without errors; it uses a palette.
pub const PATTERN: &str = r#"pattern  "Harbour Light"
edition  "0.1"
use      "palette.piece"
finished 8 in

block light 16 x 16 {
  point top   8, 0
  point rim   5, 6
  point rim-r mirror rim over upright 8

  unit lamp {
    outline 0, 0 -- 16, 0 -- 16, 6 -- 0, 6
    1 glow  around 8, 5
    2 slate beyond level 3
    3 dusk  beyond top -- rim
    4 dusk  beyond top -- rim-r
  }

  unit tower {
    outline 0, 6 -- 16, 6 -- 16, 16 -- 0, 16
    1 glow  around 8, 8
    2 slate beyond level 11
    3 dusk  beyond level 14
  }

  join lamp tower
}
"#;
/// The palette that it uses.
pub const PALETTE: &str =
    "fabric dusk  \"Dusk sky\"   #2f3e5c\nfabric glow  \"Lamp glow\"  #f6d77a\nfabric slate \"Slate roof\" #3c4046\n";

/// A folder with a repository in it.
pub struct Desk {
    folder: tempfile::TempDir,
}

/// How a run ended.
pub struct Ran {
    pub code: Option<i32>,
    pub out: String,
    pub err: String,
}

impl Desk {
    pub fn new() -> Self {
        let desk = Self::without_repository();
        desk.git(&["init", "--quiet"]);
        desk
    }

    pub fn without_repository() -> Self {
        Self { folder: tempfile::tempdir().expect("a folder") }
    }

    /// A repository with a pattern and its palette committed, and all installed.
    pub fn installed() -> Self {
        let desk = Self::new();
        desk.put_pattern("gull.piece");
        assert_eq!(desk.piecewright(&["git", "install"]).code, Some(0));
        desk.commit("one");
        desk
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub fn text(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).expect("is there")
    }

    pub fn put(&self, name: &str, text: impl AsRef<[u8]>) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("makes folders");
        fs::write(path, text).expect("writes");
    }

    /// Puts a good pattern down, with its palette beside it, and stages both.
    pub fn put_pattern(&self, name: &str) {
        let palette = Path::new(name).with_file_name("palette.piece").display().to_string();
        self.put(name, PATTERN);
        self.put(&palette, PALETTE);
        self.git(&["add", "--", name, &palette]);
    }

    /// Changes words of a file that stand there.
    pub fn change(&self, name: &str, old: &str, new: &str) {
        let text = self.text(name);
        assert!(text.contains(old), "`{old}` in {name}");
        self.put(name, text.replacen(old, new, 1));
    }

    /// Commits all that lies there, whatever the hook thinks of it.
    pub fn commit(&self, words: &str) {
        self.git(&["add", "--all"]);
        self.git(&["commit", "--quiet", "--no-verify", "--message", words]);
    }

    /// What git answers; it must go well.
    pub fn git(&self, arguments: &[&str]) -> String {
        let ran = self.try_git(arguments);
        assert_eq!(ran.code, Some(0), "{arguments:?}: {}{}", ran.out, ran.err);
        ran.out
    }

    pub fn try_git(&self, arguments: &[&str]) -> Ran {
        self.git_with_path(&usual_path(), arguments)
    }

    pub fn git_with_path(&self, path: &str, arguments: &[&str]) -> Ran {
        let who = ["-c", "user.name=A", "-c", "user.email=a@example.org", "-c", "core.quotePath=false", "--no-pager"];
        ended(self.command("git", "", path).args(who).args(arguments))
    }

    pub fn piecewright(&self, arguments: &[&str]) -> Ran {
        self.run_in("", arguments)
    }

    pub fn run_in(&self, folder: &str, arguments: &[&str]) -> Ran {
        ended(self.command(PROGRAM, folder, &usual_path()).args(arguments))
    }

    pub fn run_with_path(&self, path: &str, arguments: &[&str]) -> Ran {
        ended(self.command(PROGRAM, "", path).args(arguments))
    }

    pub fn program(&self, program: &str, arguments: &[&str]) -> Ran {
        ended(self.command(program, "", &usual_path()).args(arguments))
    }

    /// Runs a program before whose usual folders another is searched.
    pub fn program_before(&self, folder: &str, program: &str, arguments: &[&str]) -> Ran {
        let path = format!("{}:{}", self.path(folder).display(), usual_path());
        ended(self.command(program, "sea birds", &path).args(arguments))
    }

    fn command(&self, program: &str, folder: &str, path: &str) -> Command {
        let mut command = Command::new(program);
        for (name, _) in std::env::vars_os() {
            if name.to_string_lossy().starts_with("GIT_") {
                command.env_remove(name);
            }
        }
        command.current_dir(self.path(folder)).stdin(Stdio::null()).env("PATH", path);
        command.env("HOME", "/nowhere").env("GIT_CONFIG_GLOBAL", "/dev/null").env("GIT_CONFIG_NOSYSTEM", "1");
        command.env_remove("XDG_CONFIG_HOME").env_remove("NO_COLOR").env_remove("FORCE_COLOR");
        // A desk without a repository must not find one around it.
        command.env("GIT_CEILING_DIRECTORIES", self.folder.path().parent().unwrap_or(self.folder.path()));
        command
    }

    /// A folder of PATH in which git is, and this program is not.
    pub fn folder_of_git(&self) -> String {
        let bin = self.path(".git/bin");
        fs::create_dir_all(&bin).expect("makes folders");
        let path = std::env::var_os("PATH").expect("a path");
        for tool in ["git", "sh"] {
            let real = std::env::split_paths(&path).map(|folder| folder.join(tool)).find(|file| file.is_file());
            #[cfg(unix)]
            std::os::unix::fs::symlink(real.expect("is installed"), bin.join(tool)).expect("links");
            #[cfg(not(unix))]
            assert!(real.is_some());
        }
        bin.display().to_string()
    }

    /// All files that a person or this program may write: the working tree, the configuration and the hooks.
    pub fn everything(&self) -> BTreeMap<String, Vec<u8>> {
        let mut found = BTreeMap::new();
        list(self.folder.path(), self.folder.path(), &mut found);
        found.retain(|path, _| !path.starts_with(".git/") || path == ".git/config" || path.starts_with(".git/hooks/"));
        found
    }
}

fn usual_path() -> String {
    let own = Path::new(PROGRAM).parent().expect("a folder").display().to_string();
    format!("{own}:{}", std::env::var("PATH").expect("a path"))
}

fn ended(command: &mut Command) -> Ran {
    let output = command.output().expect("runs");
    let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
    let ran = Ran { code: output.status.code(), out: text(output.stdout), err: text(output.stderr) };
    assert!(!ran.err.contains("panicked") && !ran.err.contains("os error"), "{}", ran.err);
    ran
}

fn list(root: &Path, folder: &Path, found: &mut BTreeMap<String, Vec<u8>>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            list(root, &path, found);
        } else {
            let name = path.strip_prefix(root).expect("within").display().to_string();
            found.insert(name, fs::read(&path).expect("reads"));
        }
    }
}
