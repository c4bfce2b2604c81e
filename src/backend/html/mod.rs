//! The packet as one self-contained page for a telephone, a tablet or a screen reader: one file without any request, that says in HTML's own
//! elements what the document says.
//!
//! `document` writes the head and the order of the parts; `part` writes what is in them, `tick` what a reader fills in, `drawing` the figures.
//! Everything but the order of letters is in `html.css`, everything that moves in `html.js`; the page is whole without the latter.

mod drawing;
mod markup;
mod part;
mod tick;

use std::collections::BTreeSet;

use self::drawing::Pens;
use self::markup::Markup;
use crate::packet::document::{self, Cover, Document, Element, Medium, Part};
use crate::packet::leaf::Place;
use crate::packet::words::Words;

/// The look of the page.
const STYLE: &str = include_str!("html.css");

/// What remembers the ticks.
const SCRIPT: &str = include_str!("html.js");

/// The SHA-256 of [`SCRIPT`]: a browser runs this script and no other. A test tells what it must be.
const SCRIPT_HASH: &str = "sha256-S0vvZjgG4QMR9ig3Sm7gMsZ8xf94srYf8BQu1Xq0N3c=";

/// How a document is shown on a screen.
#[derive(Clone, Copy)]
pub struct Look<'w> {
    /// The language, and the words for the page's own labels.
    pub words: &'w Words,
    /// The name under which a browser remembers what was ticked and filled in: see [`key`].
    pub key: &'w str,
}

/// The name under which a browser remembers what was ticked in a packet: another edition or size begins anew.
#[must_use]
pub fn key(title: &str, edition: &str, size: &str) -> String {
    format!("piecewright/{title}/{edition}/{size}")
}

/// The page. Parts that are only printed, and pages drawn already, are left out; links to them become plain words. O(n log n).
#[must_use]
pub fn document(document: &Document, look: &Look<'_>) -> String {
    let parts: Vec<&Part> = document.parts.iter().filter(|part| shown(part)).collect();
    let mut screen = Screen {
        out: Markup::default(),
        look: *look,
        pens: Pens::default(),
        targets: targets(&parts),
        taken: BTreeSet::new(),
        level: 2,
        part: String::new(),
        fields: 0,
    };
    screen.body(document, &parts);
    let Screen { out: body, pens, .. } = screen;

    let mut out = Markup::default();
    out.raw("<!doctype html>\n<html lang=\"")
        .words(&look.words.language())
        .raw("\">\n<head>\n<meta charset=\"utf-8\">\n");
    out.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    out.raw("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; script-src '");
    out.raw(SCRIPT_HASH).raw("'; img-src data:; base-uri 'none'; form-action 'none'\">\n");
    out.raw("<meta name=\"color-scheme\" content=\"light dark\">\n<meta name=\"referrer\" content=\"no-referrer\">\n<title>");
    out.words(&format!("{} · {}", document.title, document.running));
    out.raw("</title>\n<style>\n").raw(STYLE).raw(&pens.rules()).raw("</style>\n</head>\n");
    out.raw(&body.text).raw("<script>").raw(SCRIPT).raw("</script>\n</body>\n</html>\n");
    out.text
}

/// Whether a part is read on a screen.
fn shown(part: &Part) -> bool {
    part.medium != Medium::Print && !matches!(part.content, document::Content::Leaves(_))
}

/// Every place that links on the page can lead to.
fn targets(parts: &[&Part]) -> BTreeSet<Place> {
    let mut places = BTreeSet::new();
    for part in parts {
        places.insert(part.place.clone());
        let document::Content::Flow(elements) = &part.content else { continue };
        for element in elements {
            match element {
                Element::Heading(heading) => places.extend(heading.place.clone()),
                Element::Step(step) => _ = places.insert(step.place.clone()),
                _ => {}
            }
        }
    }
    places
}

/// The page while it is written.
struct Screen<'w> {
    out: Markup,
    look: Look<'w>,
    pens: Pens,
    /// The places that exist on the page.
    targets: BTreeSet<Place>,
    /// The places whose ids are given out.
    taken: BTreeSet<Place>,
    /// The level of the last heading.
    level: u8,
    /// The name of the part that is written.
    part: String,
    /// How many things to fill in the part has so far.
    fields: usize,
}

impl Screen<'_> {
    fn body(&mut self, document: &Document, parts: &[&Part]) {
        let words = self.look.words;
        // No place has an underscore in it: these ids are the page's own.
        self.out.raw("<body data-key=\"").words(self.look.key).raw("\">\n<a class=\"skip\" href=\"#_main\">");
        self.out.words(&words.screen_skip()).raw("</a>\n");
        self.head(document, parts);
        self.navigation(parts);
        self.out.raw("<main id=\"_main\" tabindex=\"-1\">\n");
        let mut told = false;
        for part in parts {
            let ticked = tick::has_ticks(part);
            self.part(part, ticked && !told);
            told |= ticked;
        }
        self.out
            .raw("</main>\n<footer>\n<p>")
            .words(&format!("{} · {}", document.title, document.running))
            .raw("</p>\n");
        if let Some(stamp) = &document.stamp {
            self.out.element("p", "stamp", stamp);
        }
        self.out.raw("</footer>\n");
        self.question();
    }

    /// The title. Of a cover, the line and the sign of the publisher stand here; the rest is a part like others.
    fn head(&mut self, document: &Document, parts: &[&Part]) {
        let cover = parts.iter().find_map(|part| match &part.content {
            document::Content::Cover(cover) => Some(&**cover),
            _ => None,
        });
        self.out.raw("<header>\n");
        if let Some(Cover { logo: Some(logo), .. }) = cover {
            self.out.raw("<div class=\"logo\">");
            self.figure(logo);
            self.out.raw("</div>\n");
        }
        if let Some(stamp) = &document.stamp {
            self.out.element("p", "stamp", stamp);
        }
        self.out.element("h1", "", &document.title);
        self.out.element("p", "line", cover.map_or(&document.running, |cover| &cover.line));
        self.out.raw("</header>\n");
    }

    fn navigation(&mut self, parts: &[&Part]) {
        self.out.raw("<nav aria-label=\"").words(&self.look.words.screen_parts()).raw("\">\n<ol>\n");
        for part in parts {
            self.out.raw("<li><a href=\"#").raw(part.place.name()).raw("\">").words(&part.title).raw("</a></li>\n");
        }
        self.out.raw("</ol>\n</nav>\n");
    }

    /// The attribute that makes an element the aim of links; nothing where the place is given out already.
    fn id(&mut self, place: &Place) {
        if !place.name().is_empty() && self.taken.insert(place.clone()) {
            self.out.raw(" id=\"").raw(place.name()).raw("\"");
        }
    }
}

#[cfg(test)]
mod tests {
    use base64::Engine as _;
    use base64::engine::general_purpose::STANDARD;
    use sha2::{Digest as _, Sha256};

    use super::{SCRIPT, SCRIPT_HASH};

    #[test]
    fn the_script_is_the_one_that_the_page_allows() {
        assert_eq!(SCRIPT_HASH, format!("sha256-{}", STANDARD.encode(Sha256::digest(SCRIPT))));
    }
}
