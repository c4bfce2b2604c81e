//! What holds for every page and figure: words neither collide nor leave it.

use piecewright::geometry::{Angle, Point, Vector};
use piecewright::packet::label::apart;
use piecewright::packet::page::{Align, Item, Page, Subpath, Text};
use piecewright::packet::typeface;

/// The box round the capitals and digits of a line of text.
fn inked(text: &Text) -> [Point; 4] {
    let (sin, cos) = Angle::degrees(text.turn).sin_cos();
    let (along, down) = (Vector::new(cos, sin), Vector::new(-sin, cos));
    let length = typeface::width(&text.words, text.size, text.weight).to_inches();
    let before = match text.align {
        Align::Start => 0.0,
        Align::Middle => length / 2.0,
        Align::End => length,
    };
    let start = text.at - along * before;
    let up = down * (-typeface::CAPITALS * text.size.to_inches());
    [start, start + along * length, start + along * length + up, start + up]
}

/// Asserts that no words collide, and that neither words nor lines leave the margins, in inches.
pub fn assert_laid_out(name: &str, page: &Page, margin: f64) {
    let (width, height) = (page.width.to_inches(), page.height.to_inches());
    let texts = page.texts();
    for (i, text) in texts.iter().enumerate() {
        let corners = inked(text);
        for corner in corners {
            let inside =
                corner.x >= margin && corner.x <= width - margin && corner.y >= margin && corner.y <= height - margin;
            assert!(inside, "{name}, {}: “{}” leaves the margins at {corner:?}", page.title, text.words);
        }
        for other in &texts[i + 1..] {
            let clear = apart(&corners, &inked(other), -0.004);
            assert!(clear, "{name}, {}: “{}” collides with “{}”", page.title, text.words, other.words);
        }
    }
    for item in &page.items {
        if let Item::Path(path) = item {
            for place in path.subpaths.iter().flat_map(Subpath::places) {
                let inside = place.x >= margin - 0.01 && place.x <= width - margin + 0.01;
                let inside = inside && place.y >= margin - 0.01 && place.y <= height - margin + 0.01;
                assert!(inside, "{name}, {}: a line leaves the margins at {place:?}", page.title);
            }
        }
    }
}
