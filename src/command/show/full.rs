//! The full manner: the fault, the lines it is about with the words underlined, and what to do. Drawn by miette.

use std::collections::BTreeMap;
use std::fmt;

use miette::{
    Diagnostic, GraphicalTheme, LabeledSpan, MietteHandler, MietteHandlerOpts, ReportHandler, Severity as Weight,
    SourceCode,
};
use piecewright::fault::{Fault, Label, Severity};

use super::page::{Page, harmless_words};
use super::{severity_word, words};
use crate::command::voice::Screen;

/// The width where no terminal says otherwise.
const WIDTH: usize = 80;
/// Labels over more lines than this are shown by their first line.
const MOST_LINES: usize = 8;
/// Lines longer than this, in bytes, are not drawn: they would fill the screen many times.
const LONGEST_LINE: usize = 400;

/// Writes a fault with the lines it is about.
pub fn write(text: &mut String, fault: &Fault, pages: &[Page], off: Option<&str>, screen: Screen) {
    let Some(snippets) = snippets(fault, pages) else {
        words::plain(text, fault, pages, off);
        return;
    };
    let severity = fault.severity();
    let help = [fault.help.as_deref().map(harmless_words), off.map(String::from)];
    let help = help.into_iter().flatten().collect::<Vec<_>>().join("\n");
    let mut reports = Vec::new();
    for (file, labels) in snippets {
        let is_first = reports.is_empty();
        // The labels in a further file follow in a note of its own, which has no words but those of its labels.
        let message = if is_first { harmless_words(&fault.message) } else { String::from("this has to do with it") };
        let weight = match severity {
            _ if !is_first => Weight::Advice,
            Severity::Error => Weight::Error,
            Severity::Warning => Weight::Warning,
            Severity::Hint => Weight::Advice,
        };
        reports.push(Report { message, weight, page: file.and_then(|file| pages.get(file)), labels, help: None });
    }
    if let Some(last) = reports.last_mut().filter(|_| !help.is_empty()) {
        last.help = Some(help);
    }
    let headings = [format!("{}[{}]:", severity_word(severity), fault.code.slug()), String::from("note:")];
    let [first, further] = headings.map(|heading| handler(heading, screen));
    for (number, report) in reports.iter().enumerate() {
        let handler = if number == 0 { &first } else { &further };
        let drawn = fmt::from_fn(|f| handler.debug(report, f)).to_string();
        // The heading stands at the margin, as in the other manners.
        let drawn = drawn.strip_prefix("  ").unwrap_or(&drawn);
        text.extend(drawn.lines().flat_map(|line| [line.trim_end(), "\n"]));
    }
    text.push('\n');
}

/// The labels by file, the file of the first label in front; nothing if a line is too long to be drawn.
fn snippets(fault: &Fault, pages: &[Page]) -> Option<Vec<(Option<usize>, Vec<LabeledSpan>)>> {
    let mut by_file: BTreeMap<usize, Vec<&Label>> = BTreeMap::new();
    let has_lines = |label: &&Label| pages.get(label.span.file as usize).is_some_and(|page| !page.is_empty());
    for label in fault.labels.iter().filter(has_lines) {
        by_file.entry(label.span.file as usize).or_default().push(label);
    }
    let main = fault.span().map(|span| span.file as usize);
    let mut snippets = Vec::new();
    for (file, labels) in by_file {
        let page = pages.get(file)?;
        let mut spans = Vec::new();
        for label in labels {
            let mut range = page.range(label.span);
            let line = page.line_of(range.start);
            if page.line_of(range.end) - line > MOST_LINES {
                range.end = page.line_range(line).end.max(range.start);
            }
            let around = line.saturating_sub(1)..=(page.line_of(range.end) + 1).min(page.last_line());
            if around.into_iter().any(|line| page.line_range(line).len() > LONGEST_LINE) {
                return None;
            }
            let words = Some(harmless_words(&label.text)).filter(|words| !words.is_empty());
            let is_first = main == Some(file) && spans.is_empty();
            let new = if is_first { LabeledSpan::new_primary_with_span } else { LabeledSpan::new_with_span };
            spans.push(new(words, range));
        }
        snippets.push((Some(file), spans));
    }
    snippets.sort_by_key(|(file, _)| (*file != main, *file));
    if snippets.is_empty() {
        snippets.push((None, Vec::new()));
    }
    Some(snippets)
}

/// The drawing hand. Its builder is used rather than the handler itself because only the builder asks for the terminal's width.
fn handler(heading: String, screen: Screen) -> MietteHandler {
    let mut theme = if screen.colour { GraphicalTheme::unicode() } else { GraphicalTheme::unicode_nocolor() };
    if screen.colour {
        // The sixteen colours of the terminal, which its owner can read.
        theme.styles = miette::ThemeStyles::ansi();
    }
    theme.characters.error.clone_from(&heading);
    theme.characters.warning.clone_from(&heading);
    theme.characters.advice = heading;
    let options = MietteHandlerOpts::new()
        .force_graphical(true)
        .graphical_theme(theme)
        .color(screen.colour)
        .terminal_links(false)
        .context_lines(1)
        .tab_width(4);
    if screen.terminal { options.build() } else { options.width(WIDTH).build() }
}

/// A fault in the shape that miette draws.
#[derive(Debug)]
struct Report<'a> {
    message: String,
    weight: Weight,
    page: Option<&'a Page<'a>>,
    labels: Vec<LabeledSpan>,
    help: Option<String>,
}

impl fmt::Display for Report<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Report<'_> {}

impl Diagnostic for Report<'_> {
    fn severity(&self) -> Option<Weight> {
        Some(self.weight)
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.help.as_ref().map(|help| Box::new(help) as Box<dyn fmt::Display>)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.page.map(|page| page as &dyn SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        Some(Box::new(self.labels.iter().cloned()))
    }
}
