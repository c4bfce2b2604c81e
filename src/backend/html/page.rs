//! The packet as one self-contained page for a telephone or a screen reader: headings, tables, figures with words for what they show.

use crate::backend::svg;
use crate::model::Model;
use crate::packet::chart::FabricChart;
use crate::packet::page::Page;
use crate::packet::steps::{BlockSteps, Step};
use crate::packet::words::Words;
use crate::packet::{BlockFigures, Packet};

/// The look of the page.
const STYLE: &str = include_str!("page.css");

/// What the page tells.
#[derive(Clone, Copy)]
pub struct Content<'p> {
    /// The model.
    pub model: &'p Model,
    /// The packet.
    pub packet: &'p Packet,
    /// The words.
    pub words: &'p Words,
}

/// The page.
#[must_use]
pub fn page(content: &Content<'_>) -> String {
    let mut out = Html { text: String::new() };
    let (words, facts) = (content.words, &content.model.facts);
    out.raw("<!doctype html>\n<html lang=\"");
    out.say(&words.language());
    out.raw("\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>");
    out.say(&facts.title);
    out.raw("</title>\n<style>\n");
    out.raw(STYLE);
    out.raw("</style>\n</head>\n<body>\n<main>\n");
    out.element("h1", &facts.title);
    let edition = match &facts.date {
        Some(date) => words.packet_dated(&facts.edition, date),
        None => words.packet_edition(&facts.edition),
    };
    let author = facts.author.as_ref().map(|author| format!(" · {author}")).unwrap_or_default();
    out.raw("<p class=\"quiet\">");
    out.say(&format!("{edition} · {}{author}", content.model.size));
    out.raw("</p>\n");
    out.navigation(words);
    out.raw("<section id=\"block\">\n");
    out.element("h2", &words.front_title());
    for (block, figures) in content.model.blocks.iter().zip(&content.packet.figures) {
        out.raw("<div class=\"pair\">\n");
        out.figure(&figures.front, &words.front_caption(&block.name));
        out.figure(&figures.map, &words.map_caption());
        out.raw("</div>\n");
    }
    out.element("h3", &words.facts_title());
    out.facts(&content.packet.facts);
    facts.notes.iter().for_each(|note| out.note(&words.note_label(), note));
    out.raw("</section>\n");
    out.cautions(content);
    out.chart(content);
    out.foundations(content);
    out.raw("<section id=\"primer\">\n");
    out.element("h2", &words.primer_title());
    content.packet.primer.iter().for_each(|line| out.element("p", line));
    out.raw("</section>\n<section id=\"steps\">\n");
    out.element("h2", &words.steps_title());
    out.element("p", &content.packet.steps.convention);
    for (steps, figures) in content.packet.steps.blocks.iter().zip(&content.packet.figures) {
        out.block(steps, figures, words);
    }
    out.raw("</section>\n<footer class=\"quiet\">\n");
    out.element(
        "p",
        &match content.model.units {
            crate::model::Units::Inches => words.footer_made(),
            crate::model::Units::Metric => words.footer_made_metric(),
        },
    );
    out.raw("</footer>\n</main>\n</body>\n</html>\n");
    out.text
}

struct Html {
    text: String,
}

impl Html {
    fn raw(&mut self, html: &str) {
        self.text.push_str(html);
    }

    /// Words, with what means something in HTML made harmless.
    fn say(&mut self, words: &str) {
        for letter in words.chars() {
            match letter {
                '&' => self.text.push_str("&amp;"),
                '<' => self.text.push_str("&lt;"),
                '>' => self.text.push_str("&gt;"),
                '"' => self.text.push_str("&quot;"),
                letter if letter.is_control() => self.text.push(' '),
                letter => self.text.push(letter),
            }
        }
    }

    fn element(&mut self, name: &str, words: &str) {
        self.raw(&format!("<{name}>"));
        self.say(words);
        self.raw(&format!("</{name}>\n"));
    }

    fn navigation(&mut self, words: &Words) {
        self.raw("<nav aria-label=\"");
        self.say(&words.nav_title());
        self.raw("\">\n<ul>\n");
        let links = [
            ("cautions", words.nav_cautions()),
            ("cutting", words.nav_cutting()),
            ("foundations", words.foundations_title()),
            ("primer", words.nav_primer()),
            ("steps", words.nav_steps()),
        ];
        for (id, name) in links {
            self.raw(&format!("<li><a href=\"#{id}\">"));
            self.say(&name);
            self.raw("</a></li>\n");
        }
        self.raw("</ul>\n</nav>\n");
    }

    fn figure(&mut self, page: &Page, caption: &str) {
        self.raw("<figure>\n<div role=\"img\" aria-label=\"");
        self.say(&page.description);
        self.raw("\">");
        let drawing = svg::draw(page);
        // Inside a page the drawing stands without the head of a file of its own, and its title would only repeat the label.
        let start = drawing.find("<svg").unwrap_or(0);
        self.raw(&drawing[start..]);
        self.raw("</div>\n<figcaption>");
        self.say(caption);
        self.raw("</figcaption>\n</figure>\n");
    }

    fn facts(&mut self, facts: &[(String, String)]) {
        self.raw("<dl class=\"facts\">\n");
        for (name, value) in facts {
            self.element("dt", name);
            self.element("dd", value);
        }
        self.raw("</dl>\n");
    }

    fn note(&mut self, label: &str, note: &str) {
        self.raw("<div class=\"note\"><p><strong>");
        self.say(label);
        self.raw(":</strong> ");
        self.say(note);
        self.raw("</p></div>\n");
    }

    fn cautions(&mut self, content: &Content<'_>) {
        self.raw("<section id=\"cautions\">\n");
        self.element("h2", &content.words.cautions_title());
        let Some((intro, cautions)) = content.packet.cautions.split_first() else { return };
        self.element("p", intro);
        self.raw("<ul class=\"cautions\">\n");
        for caution in cautions {
            self.element("li", caution);
        }
        self.raw("</ul>\n</section>\n");
    }

    fn table(&mut self, caption: &str, head: &[String], rows: &[[String; 3]]) {
        self.raw("<div class=\"scroll\"><table>\n");
        self.element("caption", caption);
        self.raw("<thead><tr>");
        for words in head {
            self.raw("<th scope=\"col\">");
            self.say(words);
            self.raw("</th>");
        }
        self.raw("</tr></thead>\n<tbody>\n");
        for [first, rest @ ..] in rows {
            self.raw("<tr><th scope=\"row\">");
            self.say(first);
            self.raw("</th>");
            for cell in rest {
                self.raw("<td>");
                self.say(cell);
                self.raw("</td>");
            }
            self.raw("</tr>\n");
        }
        self.raw("</tbody>\n</table></div>\n");
    }

    fn chart(&mut self, content: &Content<'_>) {
        let words = content.words;
        self.raw("<section id=\"cutting\">\n");
        self.element("h2", &words.chart_title());
        for line in &content.packet.chart.intro {
            self.element("p", line);
        }
        let head = [words.chart_fabric(), words.chart_buy(), words.chart_uses()];
        let rows: Vec<[String; 3]> = content
            .packet
            .chart
            .fabrics
            .iter()
            .map(|fabric| [fabric.name.clone(), fabric.buy.clone(), fabric.uses.clone()])
            .collect();
        self.table(&words.chart_shopping_caption(), &head, &rows);
        for fabric in &content.packet.chart.fabrics {
            self.fabric(fabric, words);
        }
        self.raw("</section>\n");
    }

    fn fabric(&mut self, fabric: &FabricChart, words: &Words) {
        let [r, g, b] = fabric.colour;
        self.raw(&format!(
            "<h3><span class=\"swatch\" style=\"background:#{r:02x}{g:02x}{b:02x}\" aria-hidden=\"true\"></span><span class=\"ring\">{}</span>",
            fabric.mark
        ));
        self.say(&fabric.name);
        self.raw("</h3>\n");
        if !fabric.print.is_empty() {
            self.element("p", &fabric.print);
        }
        let strips = [words.chart_strip(), words.chart_strip_width(), words.chart_strip_pieces()];
        self.table(&words.chart_strips_caption(&fabric.name), &strips, &fabric.strips);
        let pieces = [words.chart_size(), words.chart_count(), words.chart_for()];
        self.table(&words.chart_pieces_caption(&fabric.name), &pieces, &fabric.pieces);
    }

    fn foundations(&mut self, content: &Content<'_>) {
        let words = content.words;
        self.raw("<section id=\"foundations\">\n");
        self.element("h2", &words.foundations_title());
        self.element("p", &words.foundations_reduced());
        self.element("p", &words.foundations_why_mirrored());
        self.raw("<div class=\"grid\">\n");
        for (block, figures) in content.model.blocks.iter().zip(&content.packet.figures) {
            for (variant, page) in block.variants.iter().zip(&figures.foundations) {
                let name = words.steps_foundation(&variant.mark, &block.unit_of(variant).name);
                self.figure(page, &words.foundation_caption(name, variant.sewn));
            }
        }
        self.raw("</div>\n</section>\n");
    }

    fn block(&mut self, steps: &BlockSteps, figures: &BlockFigures, words: &Words) {
        self.element("h3", &steps.title);
        steps.notes.iter().for_each(|note| self.note(&words.note_label(), note));
        for (foundation, figures) in steps.foundations.iter().zip(&figures.steps) {
            self.element("h3", &foundation.title);
            foundation.intro.iter().for_each(|line| self.element("p", line));
            foundation.notes.iter().for_each(|note| self.note(&words.note_label(), note));
            for (step, (front, printed)) in foundation.steps.iter().zip(figures) {
                self.raw("<div class=\"step\">\n");
                self.step(step, words);
                self.raw("<div class=\"pair\">\n");
                self.figure(printed, &words.figure_printed_caption());
                self.figure(front, &words.figure_front_caption());
                self.raw("</div>\n</div>\n");
            }
            self.element("h4", &words.trim_heading());
            self.element("p", &foundation.trim.join(" "));
        }
        if !steps.joins.is_empty() {
            self.element("h3", &words.joins_heading());
            steps.joins_intro.iter().for_each(|line| self.element("p", line));
            for (step, figure) in steps.joins.iter().zip(&figures.joins) {
                self.raw("<div class=\"step\">\n");
                self.step(step, words);
                self.figure(figure, &words.figure_front_caption());
                self.raw("</div>\n");
            }
        }
        self.element("h3", &words.block_heading());
        self.element("p", &steps.finish.join(" "));
    }

    fn step(&mut self, step: &Step, words: &Words) {
        self.element("h4", &step.title);
        self.facts(&step.facts);
        if step.own {
            self.note(&words.own_label(), &step.text.join(" "));
        } else {
            self.element("p", &step.text.join(" "));
        }
        step.notes.iter().for_each(|note| self.note(&words.note_label(), note));
    }
}

#[cfg(test)]
mod tests {
    use super::Html;

    #[test]
    fn words_cannot_become_markup() {
        let mut html = Html { text: String::new() };
        html.say("<b>&\"\u{7}");
        assert_eq!(html.text, "&lt;b&gt;&amp;&quot; ");
    }
}
