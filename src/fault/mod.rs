//! Every fault the program can report: its code, its words, its help.
//!
//! Other rooms find the facts and call a function here to say them; the functions stand in files by topic, each named after its code.
//! The manual page of a code, which `piecewright explain` prints, is `pages/CODE.md`.

mod code;
pub mod cutting;
pub mod files;
pub mod leaves;
pub mod names;
pub mod packet;
pub mod patches;
pub mod pictures;
pub mod pieced;
pub mod plain;
pub mod points;
pub mod release;
pub mod sections;
pub mod sewing;
pub mod sizes;
pub mod text;
pub mod units;

pub use code::{Code, Severity};

use std::collections::BTreeMap;

use crate::notation::source::Span;

/// A fault or a warning, ready to be shown.
#[derive(Debug, Clone, PartialEq)]
pub struct Fault {
    /// Which fault it is; decides whether it is an error, a warning or a hint.
    pub code: Code,
    /// The fault in one line: stands alone, lower case, no full stop.
    pub message: String,
    /// The places it is about, the one to look at first in front. Empty only where no source is at fault.
    pub labels: Vec<Label>,
    /// What to do.
    pub help: Option<String>,
    /// Changes of the source that would mend it.
    pub fixes: Vec<Fix>,
}

/// A place and what it has to do with the fault.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// The place.
    pub span: Span,
    /// A few words; may be empty.
    pub text: String,
}

/// A change of the source.
#[derive(Debug, Clone, PartialEq)]
pub struct Fix {
    /// What the change does, in a few words.
    pub title: String,
    /// Whether it can be made unseen; otherwise the author should look.
    pub safe: bool,
    /// The stretches to replace and what to put there.
    pub edits: Vec<(Span, String)>,
}

impl Fault {
    /// A fault at a place.
    pub fn new(code: Code, message: impl Into<String>, span: Span) -> Self {
        Self {
            code,
            message: message.into(),
            labels: vec![Label { span, text: String::new() }],
            help: None,
            fixes: Vec::new(),
        }
    }

    /// A fault that lies in no place of a source.
    pub fn nowhere(code: Code, message: impl Into<String>) -> Self {
        Self { code, message: message.into(), labels: Vec::new(), help: None, fixes: Vec::new() }
    }

    /// Says a few words at the first place.
    #[must_use]
    pub fn saying(mut self, text: impl Into<String>) -> Self {
        if let Some(label) = self.labels.first_mut() {
            label.text = text.into();
        }
        self
    }

    /// Adds a further place.
    #[must_use]
    pub fn with_label(mut self, span: Span, text: impl Into<String>) -> Self {
        self.labels.push(Label { span, text: text.into() });
        self
    }

    /// Says what to do.
    #[must_use]
    pub fn with_help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// Offers a change that mends it.
    #[must_use]
    pub fn with_fix(mut self, title: impl Into<String>, safe: bool, edits: Vec<(Span, String)>) -> Self {
        self.fixes.push(Fix { title: title.into(), safe, edits });
        self
    }

    /// Whether it is an error, a warning or a hint.
    #[must_use]
    pub fn severity(&self) -> Severity {
        self.code.severity()
    }

    /// The place to look at first.
    #[must_use]
    pub fn span(&self) -> Option<Span> {
        self.labels.first().map(|label| label.span)
    }
}

/// Puts faults in order of place, then code, and drops exact repeats.
pub fn sort(faults: &mut Vec<Fault>) {
    faults.sort_by(|a, b| {
        let key = |fault: &Fault| (fault.span(), fault.code);
        key(a).cmp(&key(b)).then_with(|| a.message.cmp(&b.message))
    });
    faults.dedup();
    gather_repeats(faults);
    gather_strips(faults);
}

/// Makes one warning of those that the sections of one `strips` line share: only they have one place. O(n).
fn gather_strips(faults: &mut Vec<Fault>) {
    let mut kept: Vec<(Fault, usize)> = Vec::with_capacity(faults.len());
    for fault in faults.drain(..) {
        match kept.last_mut() {
            Some((last, more))
                if matches!(fault.code, Code::NarrowSection | Code::ShortSeam | Code::SharpTip)
                    && last.code == fault.code
                    && last.span() == fault.span() =>
            {
                *more += 1;
            }
            _ => kept.push((fault, 0)),
        }
    }
    faults.extend(kept.into_iter().map(|(fault, more)| if more == 0 { fault } else { sewing::shared(fault, more) }));
}

/// Makes one fault of a name that is unknown in many places, or of a row of lines in the wrong place: that is one mistake. O(n log n).
fn gather_repeats(faults: &mut Vec<Fault>) {
    let mut kept: Vec<Fault> = Vec::with_capacity(faults.len());
    let mut first_of: BTreeMap<(Code, Option<u32>, String, Option<String>), usize> = BTreeMap::new();
    for fault in faults.drain(..) {
        if !matches!(fault.code, Code::UnknownName | Code::MisplacedStatement) {
            kept.push(fault);
            continue;
        }
        let file = fault.span().map(|span| span.file);
        let first =
            *first_of.entry((fault.code, file, fault.message.clone(), fault.help.clone())).or_insert(kept.len());
        match kept.get_mut(first) {
            Some(first) => {
                for label in fault.labels {
                    first.labels.push(Label { text: "here too".into(), ..label });
                }
                for (fix, more) in first.fixes.iter_mut().zip(fault.fixes) {
                    fix.edits.extend(more.edits);
                }
            }
            None => kept.push(fault),
        }
    }
    *faults = kept;
}
