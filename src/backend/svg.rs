//! SVG. One user unit is one printer's point; the width and height in inches make it print to size.

use std::fmt::Write as _;

use svg::node::element::Element;
use svg::node::{Node as _, Text as Words};

use super::without_controls;
use crate::geometry::{Length, Point};
use crate::packet::page::{Align, Colour, Item, Layer, Page, Path, Piece, Stroke, Text, Weight, Window};
use crate::packet::typeface;

/// Draws a page or a figure.
///
/// Neighbouring items of one layer stand together in a group of that layer's class, so that a stylesheet can hide it. No ids are used:
/// several drawings can stand in one HTML page. O(n).
#[must_use]
pub fn draw(page: &Page) -> String {
    let mut drawing = tree(page).to_string();
    drawing.push('\n');
    drawing
}

/// The drawing as a tree, for those who write it in a manner of their own.
pub(super) fn tree(page: &Page) -> Element {
    let (width, height) = (page.width.to_points(), page.height.to_points());
    let mut root = element(
        "svg",
        &[
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("role", "img"),
            ("width", &format!("{}in", number(page.width.to_inches()))),
            ("height", &format!("{}in", number(page.height.to_inches()))),
            ("viewBox", &format!("0 0 {} {}", number(width), number(height))),
            ("font-family", &format!("'{}', 'Source Sans Pro', sans-serif", typeface::FAMILY)),
        ],
    );
    root.append(worded("title", &page.title));
    if !page.description.is_empty() {
        root.append(worded("desc", &page.description));
    }
    append_items(&mut root, &page.items);
    root
}

/// A number with at most three decimals, without trailing zeros and never `-0`.
fn number(value: f64) -> String {
    let mut digits = format!("{value:.3}");
    digits.truncate(digits.trim_end_matches('0').trim_end_matches('.').len());
    if digits == "-0" { "0".to_owned() } else { digits }
}

fn points(length: Length) -> String {
    number(length.to_points())
}

/// A coordinate: inches in the display list, points in the drawing.
fn coordinate(inches: f64) -> String {
    points(Length::inches(inches))
}

fn element(name: &str, attributes: &[(&str, &str)]) -> Element {
    let mut element = Element::new(name);
    for &(name, value) in attributes {
        element.assign(name, value);
    }
    element
}

fn worded(name: &str, words: &str) -> Element {
    let mut element = Element::new(name);
    element.append(Words::new(without_controls(words)));
    element
}

fn append_items(parent: &mut Element, items: &[Item]) {
    let layer_of = |item: &Item| match item {
        Item::Path(path) => Some(path.layer),
        Item::Text(text) => Some(text.layer),
        Item::Window(_) | Item::Photo(_) => None,
    };
    for run in items.chunk_by(|a, b| layer_of(a).is_some() && layer_of(a) == layer_of(b)) {
        let Some(layer) = run.first().and_then(layer_of) else {
            for item in run {
                if let Item::Window(window) = item {
                    parent.append(draw_window(window));
                }
            }
            continue;
        };
        let mut group = element("g", &[("class", class(layer))]);
        for item in run {
            match item {
                Item::Path(path) => group.append(draw_path(path)),
                Item::Text(text) => group.append(draw_text(text)),
                Item::Window(_) | Item::Photo(_) => {}
            }
        }
        parent.append(group);
    }
}

const fn class(layer: Layer) -> &'static str {
    match layer {
        Layer::Page => "page",
        Layer::Fabric => "fabric",
        Layer::Seams => "seams",
        Layer::Cutting => "cutting",
        Layer::Marks => "marks",
    }
}

/// A drawing in the drawing clips what lies outside it without an id.
fn draw_window(window: &Window) -> Element {
    let (x, y) = (coordinate(window.corner.x), coordinate(window.corner.y));
    let (width, height) = (points(window.width), points(window.height));
    let mut inner = element(
        "svg",
        &[
            ("x", &x),
            ("y", &y),
            ("width", &width),
            ("height", &height),
            ("viewBox", &format!("{x} {y} {width} {height}")),
            ("overflow", "hidden"),
        ],
    );
    append_items(&mut inner, &window.items);
    inner
}

fn draw_path(path: &Path) -> Element {
    let mut drawn = element("path", &[("d", &outline(path)), ("fill", &path.fill.map_or("none".to_owned(), colour))]);
    if path.fill.is_some() && path.subpaths.len() > 1 {
        drawn.assign("fill-rule", "evenodd");
    }
    if let Some(stroke) = &path.stroke {
        assign_stroke(&mut drawn, stroke);
    }
    drawn
}

fn assign_stroke(drawn: &mut Element, stroke: &Stroke) {
    drawn.assign("stroke", colour(stroke.colour));
    drawn.assign("stroke-width", points(stroke.width));
    if !stroke.dashes.is_empty() {
        let dashes: Vec<String> = stroke.dashes.iter().copied().map(points).collect();
        drawn.assign("stroke-dasharray", dashes.join(" "));
    }
    if stroke.round {
        drawn.assign("stroke-linecap", "round");
        drawn.assign("stroke-linejoin", "round");
    } else {
        drawn.assign("stroke-miterlimit", "10");
    }
}

fn outline(path: &Path) -> String {
    let place = |point: Point| format!("{} {}", coordinate(point.x), coordinate(point.y));
    let mut data = String::new();
    for subpath in &path.subpaths {
        // Writing to a string cannot fail.
        let _ = write!(data, "M{}", place(subpath.start));
        for &piece in &subpath.pieces {
            let _ = match piece {
                Piece::Line(to) => write!(data, "L{}", place(to)),
                Piece::Curve(first, second, to) => write!(data, "C{} {} {}", place(first), place(second), place(to)),
            };
        }
        if subpath.closed {
            data.push('Z');
        }
    }
    data
}

fn draw_text(text: &Text) -> Element {
    let (x, y) = (coordinate(text.at.x), coordinate(text.at.y));
    let mut drawn = worded("text", &text.words);
    drawn.assign("x", x.as_str());
    drawn.assign("y", y.as_str());
    drawn.assign("font-size", points(text.size));
    if text.weight == Weight::Bold {
        drawn.assign("font-weight", "700");
    }
    if text.colour != Colour::BLACK {
        drawn.assign("fill", colour(text.colour));
    }
    match text.align {
        Align::Start => {}
        Align::Middle => drawn.assign("text-anchor", "middle"),
        Align::End => drawn.assign("text-anchor", "end"),
    }
    if text.turn != 0.0 {
        drawn.assign("transform", format!("rotate({} {x} {y})", number(text.turn)));
    }
    drawn
}

fn colour(colour: Colour) -> String {
    let [red, green, blue] = colour.0;
    format!("#{red:02x}{green:02x}{blue:02x}")
}

#[cfg(test)]
mod tests {
    use super::{draw, number};
    use crate::backend::tests::sample_page;

    #[test]
    fn numbers_are_short_and_never_minus_nothing() {
        assert_eq!(number(-0.000_04), "0");
        assert_eq!(number(612.0), "612");
        assert_eq!(number(0.125), "0.125");
        assert_eq!(number(-3.1), "-3.1");
    }

    #[test]
    fn a_drawing_states_its_size_in_inches_and_escapes_its_words() {
        let drawing = draw(&sample_page());
        assert!(drawing.contains("width=\"8.5in\"") && drawing.contains("viewBox=\"0 0 612 792\""), "{drawing}");
        assert!(drawing.contains("<title>Gulls &amp; buoys</title>"), "{drawing}");
        assert!(drawing.contains(">1½ × 2 &lt;in&gt;</text>"), "{drawing}");
        assert!(drawing.contains("overflow=\"hidden\""), "{drawing}");
        assert_eq!(drawing, draw(&sample_page()));
    }
}
