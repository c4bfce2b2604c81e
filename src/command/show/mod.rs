//! Faults on a screen: which of them, in what manner, and the line that counts them.

mod full;
mod json;
mod page;
mod words;

use std::collections::BTreeSet;
use std::fmt::Write;
use std::path::{Path, PathBuf};

use piecewright::fault::{Code, Fault, Severity};
use piecewright::notation::source::Sources;

use super::Outcome;
use super::arguments::{Format, Showing};
use super::voice::Screen;
use page::Page;

/// How many faults are shown unless something else is asked for.
const MOST: usize = 20;

/// A source with what is the matter with it.
#[derive(Debug)]
pub struct Judged {
    /// All texts that were read.
    pub sources: Sources,
    /// Its faults, in order of place.
    pub faults: Vec<Fault>,
    /// The project's folder, which the names of shared files start from.
    pub folder: PathBuf,
}

/// Faults, ready to be printed, and how many there are.
#[derive(Debug)]
pub struct Shown {
    /// What to print.
    pub text: String,
    format: Format,
    errors: usize,
    warnings: usize,
    hints: usize,
    hidden: usize,
    // The code to look up first: that of the first error, or else of the first warning.
    first: Option<Code>,
}

/// Puts faults into the manner that was asked for. The most important ones are chosen, but all stand in order of place.
pub fn render(judged: &[Judged], showing: &Showing, screen: Screen) -> Shown {
    let severities: Vec<_> = judged.iter().flat_map(|one| &one.faults).map(Fault::severity).collect();
    let errors = severities.iter().filter(|&&severity| severity == Severity::Error).count();
    let most = showing.most.unwrap_or(if showing.format == Format::Json { usize::MAX } else { MOST });
    let chosen = choose(&severities, most);

    let mut text = String::new();
    let mut explained = BTreeSet::new();
    let mut number = 0;
    for one in judged {
        let pages: Vec<_> = one
            .sources
            .iter()
            .enumerate()
            .map(|(file, source)| Page::new(source, name(source.name(), file, &one.folder)))
            .collect();
        for fault in &one.faults {
            if chosen.contains(&number) {
                let off = off_switch(fault, &mut explained);
                match showing.format {
                    Format::Full => full::write(&mut text, fault, &pages, off.as_deref(), screen),
                    Format::Plain => words::plain(&mut text, fault, &pages, off.as_deref()),
                    Format::Concise => words::concise(&mut text, fault, &pages),
                    Format::Json => json::write(&mut text, fault, &pages),
                }
            }
            number += 1;
        }
    }
    let warnings = severities.iter().filter(|&&severity| severity == Severity::Warning).count();
    let codes = || judged.iter().flat_map(|one| &one.faults).map(|fault| fault.code);
    let first = codes().find(|code| code.severity() == Severity::Error).or_else(|| codes().next());
    let (hints, hidden) = (severities.len() - errors - warnings, severities.len() - chosen.len());
    Shown { text, format: showing.format, errors, warnings, hints, hidden, first }
}

/// Leaves each fault where it is told first: one of a file that several sources share would be told with each of them.
pub fn once(judged: &mut [Judged]) {
    let mut told = BTreeSet::new();
    for Judged { sources, faults, folder } in judged {
        let key = |fault: &Fault| {
            let span = fault.span()?;
            let file = span.file as usize;
            let place = name(sources.iter().nth(file)?.name(), file, folder);
            Some((place, span.start, span.end, fault.code, fault.message.clone()))
        };
        faults.retain(|fault| key(fault).is_none_or(|key| !told.contains(&key)));
        told.extend(faults.iter().filter_map(key));
    }
}

/// The numbers of at most `most` faults, errors first, so that no error hides behind warnings.
fn choose(severities: &[Severity], most: usize) -> BTreeSet<usize> {
    let of = |wanted: Severity| (0..severities.len()).filter(move |&number| severities.get(number) == Some(&wanted));
    of(Severity::Error).chain(of(Severity::Warning)).chain(of(Severity::Hint)).take(most).collect()
}

/// The name of a file as the person sees it: shared files are named from the project's folder, but opened from here.
fn name(name: &str, file: usize, folder: &Path) -> String {
    // What is named by an argument lies in no folder of the project.
    if file == 0 || folder == Path::new(".") || name.starts_with("--") {
        name.into()
    } else if folder.to_string_lossy().ends_with(':') {
        // The root of a revision: `HEAD~1:`.
        format!("{}{name}", folder.display())
    } else {
        folder.join(name).display().to_string()
    }
}

/// How to silence a warning or a hint, said once for each code.
fn off_switch(fault: &Fault, explained: &mut BTreeSet<Code>) -> Option<String> {
    let silenced = fault.severity() != Severity::Error && fault.code != Code::UnusedAllow;
    let word = severity_word(fault.severity());
    (silenced && explained.insert(fault.code)).then(|| format!("`allow {}` silences this {word}", fault.code.slug()))
}

impl Shown {
    /// What the faults mean for the outcome of the run.
    pub fn outcome(&self, deny_warnings: bool) -> Outcome {
        if self.errors > 0 || (deny_warnings && self.warnings > 0) { Outcome::Faults } else { Outcome::Fine }
    }

    /// The lines that follow the faults: how many are not shown, and how many there are. Nothing for programs.
    pub fn closing(&self) -> String {
        let mut text = String::new();
        if self.format == Format::Json {
            return text;
        }
        if self.hidden > 0 {
            _ = writeln!(text, "and {} more; `--most all` shows them", self.hidden);
        }
        let count = |n: usize, word: &str| match n {
            0 => None,
            1 => Some(format!("1 {word}")),
            n => Some(format!("{n} {word}s")),
        };
        let counts = [count(self.errors, "error"), count(self.warnings, "warning"), count(self.hints, "hint")];
        let counts: Vec<_> = counts.into_iter().flatten().collect();
        _ = match self.first {
            Some(code) => writeln!(text, "{}; `piecewright explain {}` tells more", counts.join(", "), code.slug()),
            None => writeln!(text, "nothing is the matter"),
        };
        text
    }
}

/// The word for a severity.
pub fn severity_word(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Hint => "hint",
    }
}

#[cfg(test)]
mod tests;
