//! The content of a page: the display list as operators.
//!
//! Only what changes is written: colours, pens and faces stay set until another is needed or a window closes.

use std::collections::BTreeSet;

use super::super::number::Thousandths;
use super::fonts::Faces;
use super::photos::Photos;
use crate::geometry::{Angle, Length, Point};
use crate::packet::page::{
    Align, Colour, FillRule, Item, Layer, Page, Path, Photo, Piece, Stroke, Text, Weight, Window,
};
use crate::packet::typeface;

/// The content of a page, and what it needs by name.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct Content {
    /// The operators.
    pub(super) operators: Vec<u8>,
    /// The layers that something lies in.
    pub(super) layers: BTreeSet<Layer>,
    /// The photographs that are shown, by their number in the document.
    pub(super) photos: BTreeSet<usize>,
}

/// Where the display list's places lie on a PDF page: points, y up.
#[derive(Debug, Clone, Copy)]
pub(super) struct Frame {
    height: f64,
}

impl Frame {
    pub(super) fn of(page: &Page) -> Self {
        Self { height: page.height.to_points() }
    }

    pub(super) fn place(self, point: Point) -> [f64; 2] {
        [Length::inches(point.x).to_points(), self.height - Length::inches(point.y).to_points()]
    }
}

/// What a page calls a layer among its resources; nothing for what belongs to none.
pub(super) const fn layer_name(layer: Layer) -> Option<&'static str> {
    match layer {
        Layer::Page => None,
        Layer::Fabric => Some("Fabric"),
        Layer::Seams => Some("Seams"),
        Layer::Cutting => Some("Cutting"),
        Layer::Marks => Some("Marks"),
    }
}

/// What a page calls a face among its resources.
pub(super) const fn face_name(weight: Weight) -> &'static str {
    match weight {
        Weight::Regular => "Regular",
        Weight::Bold => "Bold",
    }
}

/// What a page calls a photograph among its resources.
pub(super) fn photo_name(number: usize) -> String {
    format!("Photo{number}")
}

/// The content of a page. O(n).
pub(super) fn content(page: &Page, faces: &Faces, photos: &Photos<'_>) -> Content {
    let mut writer = Writer {
        frame: Frame::of(page),
        faces,
        photos,
        pen: Pen::default(),
        layer: Layer::Page,
        content: Content::default(),
    };
    writer.items(&page.items);
    writer.content
}

/// What is set at a place in the stream; at first, what a viewer sets.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Pen {
    fill: Colour,
    stroke: Colour,
    width: Thousandths,
    dashes: Vec<Thousandths>,
    round: bool,
    face: Option<(Weight, Thousandths)>,
}

impl Default for Pen {
    fn default() -> Self {
        Self {
            fill: Colour::BLACK,
            stroke: Colour::BLACK,
            width: Thousandths::whole(1),
            dashes: Vec::new(),
            round: false,
            face: None,
        }
    }
}

struct Writer<'d> {
    frame: Frame,
    faces: &'d Faces,
    photos: &'d Photos<'d>,
    pen: Pen,
    /// The layer that is open; marked content and windows close in the order opposite to that in which they opened.
    layer: Layer,
    content: Content,
}

impl Writer<'_> {
    fn word(&mut self, word: &str) {
        self.content.operators.extend_from_slice(word.as_bytes());
    }

    fn number(&mut self, number: Thousandths) {
        self.content.operators.extend_from_slice(number.digits().as_bytes());
        self.content.operators.push(b' ');
    }

    fn numbers(&mut self, numbers: impl IntoIterator<Item = f64>) {
        for number in numbers {
            self.number(Thousandths::of(number));
        }
    }

    fn place(&mut self, point: Point) {
        self.numbers(self.frame.place(point));
    }

    fn items(&mut self, items: &[Item]) {
        for item in items {
            match item {
                Item::Path(path) => self.path(path),
                Item::Text(text) => self.text(text),
                Item::Window(window) => self.window(window),
                Item::Photo(photo) => self.photo(photo),
            }
        }
        self.enter(Layer::Page);
    }

    fn enter(&mut self, layer: Layer) {
        if layer == self.layer {
            return;
        }
        if layer_name(self.layer).is_some() {
            self.word("EMC\n");
        }
        if let Some(name) = layer_name(layer) {
            self.word("/OC /");
            self.word(name);
            self.word(" BDC\n");
            self.content.layers.insert(layer);
        }
        self.layer = layer;
    }

    fn window(&mut self, window: &Window) {
        self.enter(Layer::Page);
        let outside = self.pen.clone();
        let [x, y] = self.frame.place(window.corner);
        let (width, height) = (window.width.to_points(), window.height.to_points());
        self.word("q ");
        self.numbers([x, y - height, width, height]);
        self.word("re W n\n");
        self.items(&window.items);
        self.word("Q\n");
        self.pen = outside;
    }

    fn photo(&mut self, photo: &Photo) {
        let Some(number) = self.photos.number(&photo.raster) else { return };
        self.enter(Layer::Page);
        let [x, y] = self.frame.place(photo.corner);
        let (width, height) = (photo.width.to_points(), photo.height.to_points());
        self.word("q ");
        self.numbers([width, 0.0, 0.0, height, x, y - height]);
        self.word("cm /");
        self.word(&photo_name(number));
        self.word(" Do Q\n");
        self.content.photos.insert(number);
    }

    fn path(&mut self, path: &Path) {
        let paint = match (path.fill.is_some(), path.stroke.is_some(), path.rule) {
            (true, true, FillRule::EvenOdd) => "B*\n",
            (true, true, FillRule::NonZero) => "B\n",
            (true, false, FillRule::EvenOdd) => "f*\n",
            (true, false, FillRule::NonZero) => "f\n",
            (false, true, _) => "S\n",
            (false, false, _) => return,
        };
        if path.subpaths.is_empty() {
            return;
        }
        self.enter(path.layer);
        if let Some(fill) = path.fill {
            self.fill_with(fill);
        }
        if let Some(stroke) = &path.stroke {
            self.draw_with(stroke);
        }
        for subpath in &path.subpaths {
            self.place(subpath.start);
            self.word("m\n");
            for &piece in &subpath.pieces {
                match piece {
                    Piece::Line(to) => {
                        self.place(to);
                        self.word("l\n");
                    }
                    Piece::Curve(first, second, to) => {
                        self.place(first);
                        self.place(second);
                        self.place(to);
                        self.word("c\n");
                    }
                }
            }
            if subpath.closed {
                self.word("h\n");
            }
        }
        self.word(paint);
    }

    fn text(&mut self, text: &Text) {
        self.enter(text.layer);
        self.fill_with(text.colour);
        let before = match text.align {
            Align::Start => 0.0,
            Align::Middle => typeface::width(&text.words, text.size, text.weight).to_points() / 2.0,
            Align::End => typeface::width(&text.words, text.size, text.weight).to_points(),
        };
        let [x, y] = self.frame.place(text.at);
        self.word("BT ");
        let face = (text.weight, Thousandths::of(text.size.to_points()));
        if self.pen.face != Some(face) {
            self.pen.face = Some(face);
            self.word("/");
            self.word(face_name(text.weight));
            self.word(" ");
            self.number(face.1);
            self.word("Tf ");
        }
        if text.turn == 0.0 {
            self.numbers([x - before, y]);
            self.word("Td ");
        } else {
            let (sin, cos) = Angle::degrees(text.turn).sin_cos();
            // Clockwise as seen is a negative turn where y runs up.
            self.turn(cos);
            self.turn(-sin);
            self.turn(sin);
            self.turn(cos);
            self.numbers([x - before * cos, y + before * sin]);
            self.word("Tm ");
        }
        self.faces.write(&text.words, text.weight, &mut self.content.operators);
        self.word(" Tj ET\n");
    }

    /// A number between -1 and 1 to six decimals: the end of a long line must lie where it should.
    fn turn(&mut self, share: f64) {
        let mut digits = format!("{share:.6}");
        digits.truncate(digits.trim_end_matches('0').trim_end_matches('.').len());
        self.word(if digits == "-0" { "0" } else { &digits });
        self.word(" ");
    }

    fn fill_with(&mut self, colour: Colour) {
        if self.pen.fill != colour {
            self.pen.fill = colour;
            self.colour(colour, "g\n", "rg\n");
        }
    }

    fn draw_with(&mut self, stroke: &Stroke) {
        if self.pen.stroke != stroke.colour {
            self.pen.stroke = stroke.colour;
            self.colour(stroke.colour, "G\n", "RG\n");
        }
        let width = Thousandths::of(stroke.width.to_points());
        if self.pen.width != width {
            self.pen.width = width;
            self.number(width);
            self.word("w\n");
        }
        let dash = |length: &Length| Thousandths::of(length.to_points());
        if !self.pen.dashes.iter().copied().eq(stroke.dashes.iter().map(dash)) {
            self.pen.dashes = stroke.dashes.iter().map(dash).collect();
            self.word("[");
            for length in &stroke.dashes {
                self.number(dash(length));
            }
            self.word("] 0 d\n");
        }
        if self.pen.round != stroke.round {
            self.pen.round = stroke.round;
            self.word(if stroke.round { "1 J 1 j\n" } else { "0 J 0 j\n" });
        }
    }

    fn colour(&mut self, colour: Colour, grey: &str, coloured: &str) {
        let [red, green, blue] = colour.0.map(|level| f64::from(level) / 255.0);
        if colour.0 == [colour.0[0]; 3] {
            self.numbers([red]);
            self.word(grey);
        } else {
            self.numbers([red, green, blue]);
            self.word(coloured);
        }
    }
}
