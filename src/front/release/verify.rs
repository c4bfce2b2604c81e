//! A release held against what it tells of itself, and against another that was made of the same sources.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use super::archive::{self, SUMS, sha256};
use super::manifest::{MANIFEST, Manifest};

/// Something that is not as a release tells.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Finding {
    /// Which file.
    pub path: String,
    /// What is wrong with it.
    pub wrong: Wrong,
}

/// What is wrong with a file of a release.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wrong {
    /// It is not there.
    Missing,
    /// It is there, and the release does not tell of it.
    Extra,
    /// It is not as it was.
    Altered,
    /// It cannot be read, and why.
    Unreadable(String),
    /// The archive lacks it.
    NotInArchive,
    /// The archive has it, and should not.
    ExtraInArchive,
    /// The archive has another file of this name.
    OtherInArchive,
    /// The archive cannot be opened, and why.
    NoArchive(String),
    /// The source at hand is another.
    OtherSource,
    /// It was made from this source, which is not at hand.
    NoSource,
    /// The source at hand is read for the pattern, and was not.
    NewSource,
    /// The same sources make another file.
    OtherMade,
}

impl Wrong {
    /// The word for it, for programs.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Missing => "missing",
            Self::Extra => "extra",
            Self::Altered => "altered",
            Self::Unreadable(_) => "unreadable",
            Self::NotInArchive => "not-in-archive",
            Self::ExtraInArchive => "extra-in-archive",
            Self::OtherInArchive => "other-in-archive",
            Self::NoArchive(_) => "no-archive",
            Self::OtherSource => "other-source",
            Self::NoSource => "no-source",
            Self::NewSource => "new-source",
            Self::OtherMade => "other-made",
        }
    }
}

impl fmt::Display for Wrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing => f.write_str("is missing"),
            Self::Extra => f.write_str("does not belong to the release"),
            Self::Altered => f.write_str("is not as it was"),
            Self::Unreadable(why) => write!(f, "cannot be read: {why}"),
            Self::NotInArchive => f.write_str("is not in the archive"),
            Self::ExtraInArchive => f.write_str("is in the archive and should not be"),
            Self::OtherInArchive => f.write_str("is not the same in the archive"),
            Self::NoArchive(why) => write!(f, "is no archive: {why}"),
            Self::OtherSource => f.write_str("is not what lies at hand"),
            Self::NoSource => f.write_str("was read then, and is not now"),
            Self::NewSource => f.write_str("is read now, and was not then"),
            Self::OtherMade => f.write_str("is not what these sources make"),
        }
    }
}

/// Reads a file of a release, of at most so many bytes and one more; or says why it cannot.
pub type Reader<'a> = dyn FnMut(&str, u64) -> Result<Vec<u8>, String> + 'a;

/// Holds a release against what it tells of itself. `present` are the files that are there.
pub fn intact(manifest: &Manifest, present: &BTreeSet<String>, read: &mut Reader<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut find = |path: &str, wrong: Wrong| findings.push(Finding { path: path.to_owned(), wrong });
    let mut packed = None;
    for file in &manifest.files {
        if !present.contains(&file.path) {
            find(&file.path, Wrong::Missing);
            continue;
        }
        match read(&file.path, file.bytes) {
            Ok(bytes) if bytes.len() as u64 == file.bytes && sha256(&bytes) == file.sha256 => {
                if file.path == manifest.archive {
                    packed = Some(bytes);
                }
            }
            Ok(_) => find(&file.path, Wrong::Altered),
            Err(why) => find(&file.path, Wrong::Unreadable(why)),
        }
    }
    for path in present.iter().filter(|path| path.as_str() != MANIFEST && manifest.file(path).is_none()) {
        find(path, Wrong::Extra);
    }
    // An archive that is not as it was is told of already.
    if let Some(packed) = packed {
        findings.extend(in_archive(manifest, &packed));
    }
    findings.sort();
    findings
}

/// Holds the archive of a release against the files beside it.
fn in_archive(manifest: &Manifest, bytes: &[u8]) -> Vec<Finding> {
    let finding = |path: &str, wrong: Wrong| Finding { path: path.to_owned(), wrong };
    let sums = archive::sums(manifest.archived().map(|file| (file.path.as_str(), file.sha256.as_str())));
    let mut wanted: BTreeMap<&str, (u64, String)> =
        manifest.archived().map(|file| (file.path.as_str(), (file.bytes, file.sha256.clone()))).collect();
    wanted.insert(SUMS, (sums.len() as u64, sha256(sums.as_bytes())));
    let packed = match archive::unpack(bytes, &|path| wanted.get(path).map_or(0, |(bytes, _)| *bytes)) {
        Ok(packed) => packed,
        Err(error) => return vec![finding(&manifest.archive, Wrong::NoArchive(archive::reason(&error)))],
    };
    let mut findings = Vec::new();
    for file in packed {
        match wanted.remove(file.path.as_str()) {
            Some((_, sum)) if file.sha256.as_deref() == Some(sum.as_str()) => {}
            Some(_) => findings.push(finding(&file.path, Wrong::OtherInArchive)),
            None => findings.push(finding(&file.path, Wrong::ExtraInArchive)),
        }
    }
    findings.extend(wanted.into_keys().map(|path| finding(path, Wrong::NotInArchive)));
    findings
}

/// Which of these sums differ: those that a release tells, and those of the same things at hand. The words are for one that differs, lacks now, and is new.
#[must_use]
pub fn differences(told: &BTreeMap<&str, &str>, now: &BTreeMap<&str, &str>, words: [Wrong; 3]) -> Vec<Finding> {
    let [differs, lacks, is_new] = words;
    let mut findings = Vec::new();
    for path in told.keys().chain(now.keys()).collect::<BTreeSet<_>>() {
        let wrong = match (told.get(path), now.get(path)) {
            (Some(then), Some(now)) if then == now => continue,
            (Some(_), Some(_)) => differs.clone(),
            (Some(_), None) => lacks.clone(),
            _ => is_new.clone(),
        };
        findings.push(Finding { path: (*path).to_owned(), wrong });
    }
    findings
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn differences_are_told_from_both_sides() {
        let (then, now) = (
            BTreeMap::from([("a", "1"), ("b", "1"), ("c", "1")]),
            BTreeMap::from([("b", "1"), ("c", "2"), ("d", "1")]),
        );
        let found = differences(&then, &now, [Wrong::OtherSource, Wrong::NoSource, Wrong::NewSource]);
        let found: Vec<_> = found.iter().map(|finding| (finding.path.as_str(), finding.wrong.word())).collect();
        assert_eq!(found, [("a", "no-source"), ("c", "other-source"), ("d", "new-source")]);
    }

    /// What programs may read is what the page on releases promises.
    #[test]
    fn every_word_for_programs_is_told() {
        let page = include_str!("../../../docs/release.md");
        let why = String::new;
        for wrong in [
            Wrong::Missing,
            Wrong::Extra,
            Wrong::Altered,
            Wrong::Unreadable(why()),
            Wrong::NotInArchive,
            Wrong::ExtraInArchive,
            Wrong::OtherInArchive,
            Wrong::NoArchive(why()),
            Wrong::OtherSource,
            Wrong::NoSource,
            Wrong::NewSource,
            Wrong::OtherMade,
        ] {
            assert!(page.contains(&format!("`{}`", wrong.word())), "{}", wrong.word());
        }
    }
}
