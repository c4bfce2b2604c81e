//! What a reader fills in: steps and boxes to tick off, lines to write on. Everything is whole without a script; the script remembers it.

use super::Screen;
use crate::packet::document::{Content, Element, FormLine, Part, Sign, Step};

/// Whether there is something to tick off in a part.
pub(super) fn has_ticks(part: &Part) -> bool {
    ticks(part) > 0
}

/// How many things there are to tick off in a part.
fn ticks(part: &Part) -> usize {
    let Content::Flow(elements) = &part.content else { return 0 };
    elements
        .iter()
        .map(|element| match element {
            Element::Step(_) => 1,
            Element::List(list) if list.sign == Sign::Box => list.items.len(),
            _ => 0,
        })
        .sum()
}

impl Screen<'_> {
    /// How far the reader is in a part, and the way back to its beginning. Hidden until the script counts.
    pub(super) fn progress(&mut self, part: &Part, told: bool) {
        let count = ticks(part);
        if count == 0 {
            return;
        }
        let words = self.look.words;
        self.out.raw("<div class=\"progress\" hidden>\n<p role=\"status\"");
        self.out.attribute("data-words", &words.screen_count("{done}", "{count}")).raw("></p>\n");
        self.out.raw("<button type=\"button\" class=\"anew\"");
        self.out.attribute("data-question", &words.screen_anew_question(part.title.as_str()));
        self.out.raw(">").words(&words.screen_anew());
        if !part.title.is_empty() {
            self.out.raw("<span class=\"heard\">: ").words(&part.title).raw("</span>");
        }
        self.out.raw("</button>\n<div class=\"bar\"><span></span></div>\n");
        self.out
            .raw("<a class=\"next\" href=\"#")
            .raw(part.place.name())
            .raw("\" hidden>")
            .words(&words.screen_next())
            .raw("</a>\n");
        if told {
            self.out.raw("<p class=\"quiet kept\"").attribute("data-not", &words.screen_not_kept()).raw(">");
            self.out.words(&words.screen_kept()).raw("</p>\n");
        }
        self.out.raw("</div>\n");
    }

    pub(super) fn step(&mut self, step: &Step) {
        let level = self.below();
        self.out.raw("<article class=\"step\"");
        self.id(&step.place);
        self.out.raw(&format!(">\n<div class=\"title\"><h{level}>"));
        self.mark(step.fabric);
        self.out.words(&step.title).raw(&format!("</h{level}>\n"));
        self.out.raw("<label class=\"tick\"><input type=\"checkbox\" autocomplete=\"off\"");
        self.out.attribute("data-field", step.place.name()).raw("> <span>").words(&self.look.words.screen_done());
        self.out.raw("<span class=\"heard\">: ").words(&step.title).raw("</span></span></label></div>\n");
        // On a narrow screen the figures stand between the numbers and the words that both speak of.
        self.out.raw("<div class=\"work\">\n<div class=\"numbers\">\n");
        self.facts(&step.facts);
        self.out.raw("</div>\n<div class=\"shown\">\n");
        self.figures(&step.figures);
        self.out.raw("</div>\n<div class=\"told\">\n");
        step.text.iter().for_each(|paragraph| self.paragraph(paragraph));
        self.out.raw("</div>\n</div>\n</article>\n");
    }

    /// An item of a list that can be ticked off.
    pub(super) fn ticked(&mut self, words: &str) {
        self.out.raw("<li><label class=\"tick\"><input type=\"checkbox\" autocomplete=\"off\"");
        self.field();
        self.out.raw("> <span>").words(words).raw("</span></label></li>\n");
    }

    pub(super) fn form(&mut self, lines: &[FormLine]) {
        self.out.raw("<div class=\"form\">\n");
        for line in lines {
            self.out.raw("<label><span>").words(&line.label).raw("</span>\n");
            if line.lines > 1 {
                self.out.raw(&format!("<textarea autocomplete=\"off\" rows=\"{}\"", line.lines));
                self.field();
                self.out.raw("></textarea></label>\n");
            } else {
                self.out.raw("<input type=\"text\" autocomplete=\"off\"");
                self.field();
                self.out.raw("></label>\n");
            }
        }
        self.out.raw("</div>\n");
    }

    /// A cell that is filled in by hand.
    pub(super) fn blank(&mut self, label: &str) {
        self.out.raw("<input type=\"text\" autocomplete=\"off\"").attribute("aria-label", label);
        self.field();
        self.out.raw(">");
    }

    /// The name under which something is remembered: its number among the things to fill in of its part.
    fn field(&mut self) {
        self.fields += 1;
        // An underscore is in no place, so that no step has the same name.
        let name = format!("{}_{}", self.part, self.fields);
        self.out.attribute("data-field", &name);
    }

    /// The question before a part begins anew. One serves all parts.
    pub(super) fn question(&mut self) {
        let words = self.look.words;
        self.out.raw("<dialog aria-labelledby=\"_question\">\n<p id=\"_question\"></p>\n<div class=\"answers\">\n");
        self.out.raw("<button type=\"button\" class=\"no\">").words(&words.screen_anew_no()).raw("</button>\n");
        self.out
            .raw("<button type=\"button\" class=\"yes\">")
            .words(&words.screen_anew_yes())
            .raw("</button>\n</div>\n</dialog>\n");
    }
}
