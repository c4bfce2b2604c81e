//! The parts of the page and what is in them, element by element.

use super::markup::safe;
use super::{Screen, drawing};
use crate::packet::document::{
    Cell, Content, Cover, Element, Fact, Figure, Heading, List, Manner, Mark, Paragraph, Part, PinLabel, Reference,
    Sign, Swatch, Table, Tile,
};
use crate::packet::leaf::{Place, Target};

impl Screen<'_> {
    /// A part; `told` where it is the first in which something can be ticked, and the reader is told what becomes of the ticks.
    pub(super) fn part(&mut self, part: &Part, told: bool) {
        part.place.name().clone_into(&mut self.part);
        (self.level, self.fields) = (2, 0);
        self.out.raw("<section");
        self.id(&part.place);
        self.out.raw(if matches!(part.content, Content::Cover(_)) { " class=\"cover\">\n" } else { ">\n" });
        self.out.element("h2", "", &part.title);
        self.progress(part, told);
        match &part.content {
            Content::Cover(cover) => self.cover(cover),
            Content::Flow(elements) => elements.iter().for_each(|element| self.element(element)),
            Content::Leaves(_) => {}
        }
        self.out.raw("</section>\n");
    }

    fn cover(&mut self, cover: &Cover) {
        self.out.raw("<div class=\"opening\">\n<div>\n");
        let pictures: Vec<Figure> = cover.photo.iter().chain(&cover.fronts).cloned().collect();
        self.figures(&pictures);
        self.out.raw("</div>\n<div>\n");
        self.facts(&cover.facts);
        cover.words.iter().for_each(|words| _ = self.out.element("p", "", words));
        self.out.raw("</div>\n</div>\n");
    }

    fn element(&mut self, element: &Element) {
        match element {
            Element::Heading(heading) => self.heading(heading),
            Element::Paragraph(paragraph) => self.paragraph(paragraph),
            Element::List(list) => self.list(list),
            Element::Facts(facts) => self.facts(facts),
            Element::Table(table) => self.table(table),
            Element::Swatches(swatches) => self.swatches(swatches),
            Element::Figures(figures) => self.figures(figures),
            Element::Tiles(tiles) => self.tiles(tiles),
            Element::Labels(labels) => self.labels(labels),
            Element::Step(step) => self.step(step),
            Element::Form(lines) => self.form(lines),
            Element::See(references) => self.see(references),
        }
    }

    /// The level below the last heading, for what has a heading of its own.
    pub(super) fn below(&self) -> u8 {
        (self.level + 1).min(6)
    }

    fn heading(&mut self, heading: &Heading) {
        // A part is at level 2; one that begins with a heading of depth 3 must not jump.
        self.level = heading.depth.saturating_add(1).clamp(3, self.below());
        self.out.raw(&format!("<h{}", self.level));
        if let Some(place) = &heading.place {
            self.id(place);
        }
        self.out.raw(">");
        self.mark(heading.fabric);
        self.out.words(&heading.words).raw(&format!("</h{}>\n", self.level));
    }

    /// A fabric as it is marked on paper: its colour is for the eye, its number for everybody.
    pub(super) fn mark(&mut self, mark: Option<Mark>) {
        let Some(Mark { number, colour }) = mark else { return };
        let [red, green, blue] = colour.0;
        self.out.raw(&format!(
            "<span class=\"colour\" style=\"background:#{red:02x}{green:02x}{blue:02x}\"></span><span class=\"ring\">{number}</span> "
        ));
    }

    pub(super) fn paragraph(&mut self, paragraph: &Paragraph) {
        match &paragraph.manner {
            Manner::Plain => _ = self.out.element("p", "", &paragraph.words),
            Manner::Quiet => _ = self.out.element("p", "quiet", &paragraph.words),
            Manner::Led(lead) => {
                self.out.raw("<p><strong>").words(lead).raw("</strong> ").words(&paragraph.words).raw("</p>\n");
            }
            Manner::Labelled(label) => {
                self.out.raw("<div class=\"note\"><p><strong>").words(label).raw("</strong> ").words(&paragraph.words);
                self.out.raw("</p></div>\n");
            }
        }
    }

    fn list(&mut self, list: &List) {
        let (name, class) = match list.sign {
            Sign::Dot => ("ul", ""),
            Sign::Number => ("ol", ""),
            Sign::Box => ("ul", " class=\"boxes\""),
        };
        self.out.raw(&format!("<{name}{class}>\n"));
        for item in &list.items {
            if list.sign == Sign::Box {
                self.ticked(item);
            } else {
                self.out.element("li", "", item);
            }
        }
        self.out.raw(&format!("</{name}>\n"));
    }

    pub(super) fn facts(&mut self, facts: &[Fact]) {
        if facts.is_empty() {
            return;
        }
        self.out.raw("<dl>\n");
        for fact in facts {
            self.out.raw("<div><dt>").words(&fact.name).raw("</dt><dd>").words(&fact.value).raw("</dd></div>\n");
        }
        self.out.raw("</dl>\n");
    }

    /// A table in a box of its own, which scrolls where the screen is too narrow for it.
    fn table(&mut self, table: &Table) {
        self.out.raw("<div class=\"scroll\"").attribute("data-label", &table.caption).raw("><table>\n<caption");
        self.out.raw(if table.caption_seen { ">" } else { " class=\"heard\">" }).words(&table.caption);
        self.out.raw("</caption>\n<colgroup>");
        let shares: f64 = table.columns.iter().map(|column| column.share).sum();
        for column in &table.columns {
            // Shares are of what is left beside words that cannot be broken.
            let share = (100.0 * column.share / shares).clamp(0.0, 100.0);
            let share = if share.is_finite() { share } else { 0.0 };
            self.out.raw(&format!("<col style=\"width:{share:.0}%\">"));
        }
        self.out.raw("</colgroup>\n<thead><tr>");
        for column in &table.columns {
            // A head without words would be announced as one.
            let name = if column.head.is_empty() { "td" } else { "th scope=\"col\"" };
            self.out.raw(&format!("<{name}>")).words(&column.head).raw(&format!("</{}>", &name[..2]));
        }
        self.out.raw("</tr></thead>\n<tbody>\n");
        for row in &table.rows {
            self.row(table, row);
        }
        self.out.raw("</tbody>\n</table></div>\n");
    }

    fn row(&mut self, table: &Table, row: &[Cell]) {
        self.out.raw("<tr>");
        let title = row.first().map_or("", |cell| &cell.words);
        for (at, cell) in row.iter().enumerate() {
            let empty = cell.words.is_empty() && cell.fabric.is_none();
            let name = if at == 0 && !empty { "th scope=\"row\"" } else { "td" };
            self.out.raw(&format!("<{name}>"));
            if empty {
                let column = table.columns.get(at).map_or("", |column| &column.head);
                let label =
                    [title, column].iter().filter(|words| !words.is_empty()).copied().collect::<Vec<_>>().join(", ");
                self.blank(if label.is_empty() { &table.caption } else { &label });
            } else {
                self.mark(cell.fabric);
                self.out.words(&cell.words);
            }
            self.out.raw(&format!("</{}>", &name[..2]));
        }
        self.out.raw("</tr>\n");
    }

    fn swatches(&mut self, swatches: &[Swatch]) {
        self.out.raw("<ul class=\"swatches\">\n");
        for swatch in swatches {
            let [red, green, blue] = swatch.mark.colour.0;
            self.out.raw(&format!(
                "<li><span class=\"cloth\" style=\"background:#{red:02x}{green:02x}{blue:02x}\"></span><div><p><strong>"
            ));
            self.out.raw(&format!("<span class=\"ring\">{}</span> ", swatch.mark.number)).words(&swatch.name);
            self.out.raw("</strong></p>\n");
            swatch.lines.iter().for_each(|line| _ = self.out.element("p", "", line));
            self.out.raw("</div></li>\n");
        }
        self.out.raw("</ul>\n");
    }

    pub(super) fn figures(&mut self, figures: &[Figure]) {
        if figures.is_empty() {
            return;
        }
        self.out.raw("<div class=\"figures\">\n");
        for figure in figures {
            self.figure(figure);
        }
        self.out.raw("</div>\n");
    }

    pub(super) fn figure(&mut self, figure: &Figure) {
        let width = figure.drawing.width.to_inches() * PIXELS;
        self.out.raw(&format!("<figure style=\"--w:{}px\">", width.round().clamp(1.0, 4000.0)));
        drawing::draw(&figure.drawing, &mut self.pens, &mut self.out);
        // A caption that only says what the picture is called already would be read twice.
        if !figure.caption.is_empty() {
            let said = figure.caption == figure.drawing.description;
            self.out.raw(if said { "<figcaption aria-hidden=\"true\">" } else { "<figcaption>" });
            self.out.words(&figure.caption).raw("</figcaption>");
        }
        self.out.raw("</figure>\n");
    }

    fn tiles(&mut self, tiles: &[Tile]) {
        let level = self.below();
        self.out.raw("<ul class=\"tiles\">\n");
        for tile in tiles {
            self.out.raw(&format!("<li>\n<h{level}>")).words(&tile.title).raw(&format!("</h{level}>\n"));
            self.figure(&tile.figure);
            if !tile.words.is_empty() {
                self.out.element("p", "", &tile.words);
            }
            self.out.raw("</li>\n");
        }
        self.out.raw("</ul>\n");
    }

    /// Labels as a list: nobody pins a screen to cloth.
    fn labels(&mut self, labels: &[PinLabel]) {
        self.out.raw("<ul>\n");
        for label in labels {
            self.out.raw("<li>");
            self.mark(Some(label.mark));
            self.out.raw("<strong>").words(&label.fabric).raw("</strong>: ").words(&label.size).raw(". ");
            self.out.words(&label.count).raw(": ").words(&label.sections.join(", ")).raw("</li>\n");
        }
        self.out.raw("</ul>\n");
    }

    fn see(&mut self, references: &[Reference]) {
        self.out.raw("<ul class=\"see\">\n");
        for Reference { words, target } in references {
            self.out.raw("<li>");
            match target {
                Target::Place(place) if self.leads_to(place) => {
                    self.out.raw("<a href=\"#").raw(place.name()).raw("\">").words(words).raw("</a>");
                }
                Target::Address(address) if safe(address) => {
                    self.out.raw("<a rel=\"noreferrer\"").attribute("href", address).raw(">").words(words).raw("</a>");
                }
                Target::Place(_) => _ = self.out.words(words),
                Target::Address(address) if address == words => _ = self.out.words(words),
                Target::Address(address) => _ = self.out.words(words).raw(": ").words(address),
            }
            self.out.raw("</li>\n");
        }
        self.out.raw("</ul>\n");
    }

    fn leads_to(&self, place: &Place) -> bool {
        !place.name().is_empty() && self.targets.contains(place)
    }
}

/// The pixels of a style sheet to an inch.
const PIXELS: f64 = 96.0;
