//! The steps as plain text, for those who print without figures or have them read aloud.

use crate::packet::steps::{Step, Steps};
use crate::packet::words::Words;

/// The longest line, in characters.
const MEASURE: usize = 78;

/// The steps as text; lines end in a line feed.
#[must_use]
pub fn steps(title: &str, steps: &Steps, words: &Words) -> String {
    let mut out = Out { text: String::new(), words };
    out.heading(title, '=');
    out.paragraph(&steps.convention, 0);
    for block in &steps.blocks {
        out.heading(&block.title, '=');
        block.notes.iter().for_each(|note| out.paragraph(note, 0));
        for foundation in &block.batches {
            out.heading(&foundation.title, '-');
            foundation.intro.iter().chain(&foundation.notes).for_each(|line| out.paragraph(line, 0));
            foundation.steps.iter().for_each(|step| out.step(step));
            if !foundation.trim.is_empty() {
                out.paragraph(&foundation.trim.join(" "), 0);
            }
        }
        if !block.joins.is_empty() {
            out.heading(&block.joins_intro.join(" "), ' ');
            block.joins.iter().for_each(|step| out.step(step));
        }
        if !block.finish.is_empty() {
            out.paragraph(&block.finish.join(" "), 0);
        }
    }
    out.text
}

struct Out<'w> {
    text: String,
    words: &'w Words,
}

impl Out<'_> {
    fn heading(&mut self, words: &str, underline: char) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        if underline == ' ' {
            self.paragraph(words, 0);
            return;
        }
        let length = words.chars().count().min(MEASURE);
        let line = String::from(underline).repeat(length);
        self.text.extend([words, "\n", &line, "\n\n"]);
    }

    fn step(&mut self, step: &Step) {
        self.paragraph(&step.title, 0);
        let facts: Vec<String> = step.facts.iter().map(|(name, value)| format!("{name}: {value}")).collect();
        if !facts.is_empty() {
            self.paragraph(&facts.join("; "), 4);
        }
        step.text.iter().for_each(|part| self.paragraph(&part.told(), 4));
        let (care, note) = (self.words.care_label(), self.words.note_label());
        step.cautions.iter().for_each(|words| self.paragraph(&format!("{care}: {words}"), 4));
        step.notes.iter().for_each(|words| self.paragraph(&format!("{note}: {words}"), 4));
    }

    /// A paragraph, wrapped at blanks (never at no-break blanks) and indented, with an empty line after it.
    fn paragraph(&mut self, words: &str, indent: usize) {
        let mut line = String::new();
        let margin = " ".repeat(indent);
        for word in words.split([' ', '\n']).filter(|word| !word.is_empty()) {
            if !line.is_empty() && indent + line.chars().count() + 1 + word.chars().count() > MEASURE {
                self.text.extend([&margin, line.as_str(), "\n"]);
                line.clear();
            }
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
        }
        self.text.extend([&margin, line.as_str(), "\n\n"]);
    }
}
