//! SVG. One user unit is one printer's point; the width and height in inches make it print to size.

mod mat;
mod raster;

pub use mat::{Colours, MADE_BY, Operation, draw_mat};

use svg::node::element::Element;
use svg::node::{Node as _, Text as Words};

use super::number::Thousandths;
use super::without_controls;
use crate::geometry::{Length, Point};
use crate::packet::page::{
    Align, Colour, FillRule, Item, Layer, Page, Path, Photo, Piece, Stroke, Subpath, Text, Weight, Window,
};
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
    Thousandths::of(value).digits().as_str().to_owned()
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
    // What lies in a layer; windows hold layers of their own, and photographs belong to none.
    let layer_of = |item: &Item| match item {
        Item::Path(path) => Some(path.layer),
        Item::Text(text) => Some(text.layer),
        Item::Window(_) | Item::Photo(_) => None,
    };
    for run in items.chunk_by(|a, b| layer_of(a).is_some() && layer_of(a) == layer_of(b)) {
        let Some(layer) = run.first().and_then(layer_of) else {
            for item in run {
                match item {
                    Item::Window(window) => parent.append(draw_window(window)),
                    Item::Photo(photo) => parent.append(draw_photo(photo)),
                    Item::Path(_) | Item::Text(_) => {}
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

/// A photograph within the drawing itself. One that cannot be written as a file of its own is left out: the PDF reports it.
fn draw_photo(photo: &Photo) -> Element {
    let mut drawn = element(
        "image",
        &[
            ("x", &coordinate(photo.corner.x)),
            ("y", &coordinate(photo.corner.y)),
            ("width", &points(photo.width)),
            ("height", &points(photo.height)),
            ("preserveAspectRatio", "none"),
        ],
    );
    if let Some(address) = raster::data_address(&photo.raster) {
        drawn.assign("href", address);
    }
    drawn
}

fn draw_path(path: &Path) -> Element {
    let mut drawn = element("path", &[("d", &outline(path)), ("fill", &path.fill.map_or("none".to_owned(), colour))]);
    if path.fill.is_some() && path.rule == FillRule::EvenOdd && !is_round(&path.subpaths) {
        drawn.assign("fill-rule", "evenodd");
    }
    if let Some(stroke) = &path.stroke {
        assign_stroke(&mut drawn, stroke);
    }
    drawn
}

/// Whether there is one outline that bends one way only and goes round once: both rules fill it alike. Most are, and need not say by which.
fn is_round(subpaths: &[Subpath]) -> bool {
    let [subpath] = subpaths else { return false };
    let places: Vec<Point> = subpath.places().collect();
    let mut steps = Vec::with_capacity(places.len());
    let ends = places.iter().skip(1).chain(places.first());
    steps.extend(places.iter().zip(ends).map(|(&from, &to)| to - from).filter(|step| step.length() > 0.0));
    let following = || steps.iter().skip(1).chain(steps.first());
    let bends = |way: f64| steps.iter().zip(following()).all(|(a, b)| a.cross(*b) * way >= -1e-12);
    let runs_right = |x: f64| x > 0.0;
    // Straight up and down counts with what comes before.
    let ways: Vec<bool> = steps.iter().map(|step| step.x).filter(|x| x.abs() > 1e-9).map(runs_right).collect();
    let turns = ways.iter().zip(ways.iter().skip(1).chain(ways.first())).filter(|(a, b)| a != b).count();
    turns <= 2 && (bends(1.0) || bends(-1.0))
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
    let mut data = String::new();
    for subpath in &path.subpaths {
        push_place(&mut data, 'M', subpath.start);
        for &piece in &subpath.pieces {
            match piece {
                Piece::Line(to) => push_place(&mut data, 'L', to),
                Piece::Curve(first, second, to) => {
                    push_place(&mut data, 'C', first);
                    push_place(&mut data, ' ', second);
                    push_place(&mut data, ' ', to);
                }
            }
        }
        if subpath.closed {
            data.push('Z');
        }
    }
    data
}

fn push_place(data: &mut String, before: char, place: Point) {
    data.push(before);
    for (coordinate, after) in [(place.x, " "), (place.y, "")] {
        data.push_str(Thousandths::of(Length::inches(coordinate).to_points()).digits().as_str());
        data.push_str(after);
    }
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
    use std::sync::Arc;

    use super::{draw, is_round};
    use crate::backend::tests::sample_page;
    use crate::geometry::{Angle, Length, Point};
    use crate::packet::page::{Colour, FillRule, Item, Layer, Path, Photo, Subpath};
    use crate::picture::{Pixels, Raster};

    #[test]
    fn a_drawing_states_its_size_in_inches_and_escapes_its_words() {
        let drawing = draw(&sample_page());
        assert!(drawing.contains("width=\"8.5in\"") && drawing.contains("viewBox=\"0 0 612 792\""), "{drawing}");
        assert!(drawing.contains("<title>Gulls &amp; buoys</title>"), "{drawing}");
        assert!(drawing.contains(">1½ × 2 &lt;in&gt;</text>"), "{drawing}");
        assert!(drawing.contains("overflow=\"hidden\""), "{drawing}");
        assert_eq!(drawing, draw(&sample_page()));
    }

    #[test]
    fn a_photograph_stands_in_its_place() {
        let mut page = sample_page();
        let raster = Raster { width: 1, height: 1, pixels: Pixels::Rgb(vec![1, 2, 3]) };
        let (width, height) = (Length::inches(2.0), Length::inches(1.0));
        page.items.push(Item::Photo(Photo { corner: Point::new(1.0, 2.0), width, height, raster: Arc::new(raster) }));
        let drawing = draw(&page);
        assert!(drawing.contains("<image height=\"72\" href=\"data:image/png;base64,"), "{drawing}");
        assert!(drawing.contains("width=\"144\" x=\"72\" y=\"144\"/>"), "{drawing}");
    }

    /// Corners on a circle, each so many degrees from the one before.
    fn corners(count: u32, degrees: f64) -> Vec<Point> {
        let at = |k: u32| Angle::degrees(f64::from(k) * degrees).sin_cos();
        (0..count).map(|k| Point::new(2.0 + at(k).1, 2.0 + at(k).0)).collect()
    }

    #[test]
    fn only_what_goes_round_once_needs_no_rule() {
        let round = |corners: &[Point]| is_round(&[Subpath::round_corners(corners).unwrap()]);
        assert!(round(&corners(5, 72.0)) && round(&corners(5, -72.0)) && round(&corners(4, 90.0)));
        assert!(is_round(&[Subpath::circle(Point::new(1.0, 1.0), 1.0)]));
        assert!(!round(&corners(5, 144.0)), "a star with five points goes round twice");
        let mut bow = corners(4, 90.0);
        bow.swap(1, 2);
        assert!(!round(&bow));
    }

    #[test]
    fn fills_follow_their_rule() {
        let mut page = sample_page();
        let star = Path::area(&corners(5, 144.0), Some(Colour::BLACK), None, Layer::Page);
        page.items = vec![star.clone().into()];
        assert!(draw(&page).contains("fill-rule=\"evenodd\""));
        page.items = vec![star.filled_by(FillRule::NonZero).into()];
        assert!(!draw(&page).contains("fill-rule"));
    }
}
