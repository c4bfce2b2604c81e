//! The display list: pages of items at places. Every drawing backend draws these and decides nothing.
//!
//! Coordinates are inches from the upper left of the page, y down.

use std::borrow::Cow;
use std::sync::Arc;

use crate::geometry::{Length, Point, Polygon, Segment, Transform, Vector};
use crate::picture::Raster;

/// One page or figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// How wide it is.
    pub width: Length,
    /// How high it is.
    pub height: Length,
    /// What it is called: in bookmarks, as the title of an SVG.
    pub title: String,
    /// What it shows, in words, for those who cannot see it; empty where the text on it says it all.
    pub description: String,
    /// What is drawn, first things lowest.
    pub items: Vec<Item>,
}

/// Something drawn.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// Lines or an area.
    Path(Path),
    /// One line of text.
    Text(Text),
    /// Other items, seen through a rectangular window.
    Window(Window),
    /// A photograph.
    Photo(Photo),
}

/// A photograph, upright.
#[derive(Debug, Clone, PartialEq)]
pub struct Photo {
    /// The upper left corner.
    pub corner: Point,
    /// How wide it is.
    pub width: Length,
    /// How high it is.
    pub height: Length,
    /// What is in it.
    pub raster: Arc<Raster>,
}

/// Items of which only what lies in an upright rectangle is seen.
#[derive(Debug, Clone, PartialEq)]
pub struct Window {
    /// The upper left corner.
    pub corner: Point,
    /// How wide it is.
    pub width: Length,
    /// How high it is.
    pub height: Length,
    /// What is seen through it, at the same coordinates as outside.
    pub items: Vec<Item>,
}

/// Lines or an area: one or more subpaths, painted together.
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    /// The subpaths.
    pub subpaths: Vec<Subpath>,
    /// The fill.
    pub fill: Option<Colour>,
    /// What of the plane the fill covers.
    pub rule: FillRule,
    /// The pen.
    pub stroke: Option<Stroke>,
    /// The layer it belongs to.
    pub layer: Layer,
}

/// What of the plane lies within subpaths that overlap.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum FillRule {
    /// What an odd number of outlines goes round: a ring is two circles, whatever way they turn.
    #[default]
    EvenOdd,
    /// What outlines go round more often one way than the other.
    NonZero,
}

/// A run of straight and curved pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct Subpath {
    /// Where it begins.
    pub start: Point,
    /// Its pieces.
    pub pieces: Vec<Piece>,
    /// Whether it closes on its beginning.
    pub closed: bool,
}

/// A piece of a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Piece {
    /// Straight to a place.
    Line(Point),
    /// A cubic curve to a place, by two handles.
    Curve(Point, Point, Point),
}

/// A pen.
#[derive(Debug, Clone, PartialEq)]
pub struct Stroke {
    /// Its colour.
    pub colour: Colour,
    /// Its width.
    pub width: Length,
    /// Lengths of dashes and gaps in turn; empty for a whole line.
    pub dashes: Vec<Length>,
    /// Whether ends and corners are round; otherwise ends are square off at the point and corners are mitred.
    pub round: bool,
}

/// Red, green, blue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Colour(pub [u8; 3]);

impl Colour {
    /// Black.
    pub const BLACK: Self = Self([0, 0, 0]);
    /// White.
    pub const WHITE: Self = Self([255, 255, 255]);

    /// A grey: 0 is black, 255 white.
    #[must_use]
    pub const fn grey(level: u8) -> Self {
        Self([level; 3])
    }

    /// How light it looks, from 0 (black) to 1 (white): the weights of Rec. 709 on the values as they are.
    #[must_use]
    pub fn lightness(self) -> f64 {
        let [red, green, blue] = self.0.map(f64::from);
        (0.2126 * red + 0.7152 * green + 0.0722 * blue) / 255.0
    }

    /// The colour that fraction of the way to another.
    #[must_use]
    pub fn toward(self, other: Self, fraction: f64) -> Self {
        let mix = |a: u8, b: u8| {
            let value = f64::from(a) * (1.0 - fraction) + f64::from(b) * fraction;
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to what fits")]
            let level = value.round().clamp(0.0, 255.0) as u8;
            level
        };
        Self([mix(self.0[0], other.0[0]), mix(self.0[1], other.0[1]), mix(self.0[2], other.0[2])])
    }
}

/// One line of text.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// Where its baseline begins, ends or has its middle, by [`Self::align`].
    pub at: Point,
    /// The words.
    pub words: String,
    /// The size of the type.
    pub size: Length,
    /// The weight of the type.
    pub weight: Weight,
    /// The colour.
    pub colour: Colour,
    /// Which point of the baseline lies at [`Self::at`].
    pub align: Align,
    /// Degrees clockwise by which it is turned about [`Self::at`].
    pub turn: f64,
    /// The layer it belongs to.
    pub layer: Layer,
}

/// The weight of the type.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Weight {
    /// For reading.
    Regular,
    /// For headings and marks.
    Bold,
}

/// Which point of a line of text lies at its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Align {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// What a thing on the page is part of; drawings can be shown layer by layer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// Everything else.
    Page,
    /// Fabric: fills and hatching.
    Fabric,
    /// Seam lines and outlines.
    Seams,
    /// Cutting lines.
    Cutting,
    /// Marks, numbers, ticks.
    Marks,
}

/// How far the handles of a quarter circle's curve lie from its ends, in radii.
const QUARTER_CIRCLE: f64 = 0.552_284_749_830_793_6;

impl Subpath {
    /// Straight from one place to another.
    #[must_use]
    pub fn line(segment: Segment) -> Self {
        Self { start: segment.start, pieces: vec![Piece::Line(segment.end)], closed: false }
    }

    /// Round the corners, closed; `None` without a corner.
    #[must_use]
    pub fn round_corners(corners: &[Point]) -> Option<Self> {
        let (&start, rest) = corners.split_first()?;
        Some(Self { start, pieces: rest.iter().copied().map(Piece::Line).collect(), closed: true })
    }

    /// A circle.
    #[must_use]
    pub fn circle(centre: Point, radius: f64) -> Self {
        let at = |x: f64, y: f64| centre + Vector::new(x, y) * radius;
        let k = QUARTER_CIRCLE;
        let pieces = vec![
            Piece::Curve(at(1.0, k), at(k, 1.0), at(0.0, 1.0)),
            Piece::Curve(at(-k, 1.0), at(-1.0, k), at(-1.0, 0.0)),
            Piece::Curve(at(-1.0, -k), at(-k, -1.0), at(0.0, -1.0)),
            Piece::Curve(at(k, -1.0), at(1.0, -k), at(1.0, 0.0)),
        ];
        Self { start: at(1.0, 0.0), pieces, closed: true }
    }

    /// All places that define it, handles of curves among them: their hull covers it.
    pub fn places(&self) -> impl Iterator<Item = Point> + '_ {
        let places = self.pieces.iter().flat_map(|&piece| match piece {
            Piece::Line(to) => [to, to, to],
            Piece::Curve(first, second, to) => [first, second, to],
        });
        std::iter::once(self.start).chain(places)
    }

    fn scaled(&self, factor: f64) -> Self {
        let point = |point: Point| Point::default() + point.to_vector() * factor;
        let pieces = self.pieces.iter().map(|&piece| match piece {
            Piece::Line(to) => Piece::Line(point(to)),
            Piece::Curve(first, second, to) => Piece::Curve(point(first), point(second), point(to)),
        });
        Self { start: point(self.start), pieces: pieces.collect(), closed: self.closed }
    }

    fn laid(&self, by: Transform) -> Self {
        let pieces = self.pieces.iter().map(|&piece| match piece {
            Piece::Line(to) => Piece::Line(by.apply(to)),
            Piece::Curve(first, second, to) => Piece::Curve(by.apply(first), by.apply(second), by.apply(to)),
        });
        Self { start: by.apply(self.start), pieces: pieces.collect(), closed: self.closed }
    }

    fn moved(&self, by: Vector) -> Self {
        let pieces = self.pieces.iter().map(|&piece| match piece {
            Piece::Line(to) => Piece::Line(to + by),
            Piece::Curve(first, second, to) => Piece::Curve(first + by, second + by, to + by),
        });
        Self { start: self.start + by, pieces: pieces.collect(), closed: self.closed }
    }
}

impl Stroke {
    /// A whole line with mitred corners; its width in printer's points.
    #[must_use]
    pub fn plain(points: f64, colour: Colour) -> Self {
        Self { colour, width: Length::points(points), dashes: Vec::new(), round: false }
    }

    /// The same pen, drawing dashes; lengths of dashes and gaps in turn in printer's points.
    #[must_use]
    pub fn dashed(mut self, points: &[f64]) -> Self {
        self.dashes = points.iter().copied().map(Length::points).collect();
        self
    }

    /// The same pen with round ends and corners.
    #[must_use]
    pub fn rounded(mut self) -> Self {
        self.round = true;
        self
    }
}

impl Path {
    /// Lines drawn with one pen.
    #[must_use]
    pub fn lines(segments: impl IntoIterator<Item = Segment>, stroke: Stroke, layer: Layer) -> Self {
        let subpaths = segments.into_iter().map(Subpath::line).collect();
        Self { subpaths, fill: None, rule: FillRule::EvenOdd, stroke: Some(stroke), layer }
    }

    /// An area with these corners, filled, outlined, or both.
    #[must_use]
    pub fn area(corners: &[Point], fill: Option<Colour>, stroke: Option<Stroke>, layer: Layer) -> Self {
        let subpaths = Subpath::round_corners(corners).into_iter().collect();
        Self { subpaths, fill, rule: FillRule::EvenOdd, stroke, layer }
    }

    /// A polygon, filled, outlined, or both.
    #[must_use]
    pub fn polygon(polygon: &Polygon, fill: Option<Colour>, stroke: Option<Stroke>, layer: Layer) -> Self {
        Self::area(polygon.corners(), fill, stroke, layer)
    }

    /// A circle, filled, outlined, or both; its radius in inches.
    #[must_use]
    pub fn circle(centre: Point, radius: f64, fill: Option<Colour>, stroke: Option<Stroke>, layer: Layer) -> Self {
        Self { subpaths: vec![Subpath::circle(centre, radius)], fill, rule: FillRule::EvenOdd, stroke, layer }
    }

    /// The same, filled by another rule.
    #[must_use]
    pub fn filled_by(self, rule: FillRule) -> Self {
        Self { rule, ..self }
    }
}

impl Text {
    /// A line of black text that begins at a place, upright; its size in printer's points.
    #[must_use]
    pub fn line(at: Point, words: &str, points: f64, weight: Weight) -> Self {
        Self {
            at,
            words: words.to_owned(),
            size: Length::points(points),
            weight,
            colour: Colour::BLACK,
            align: Align::Start,
            turn: 0.0,
            layer: Layer::Page,
        }
    }
}

impl Item {
    /// The same, shifted.
    #[must_use]
    pub fn moved(&self, by: Vector) -> Self {
        match self {
            Self::Path(path) => Self::Path(Path {
                subpaths: path.subpaths.iter().map(|subpath| subpath.moved(by)).collect(),
                ..path.clone()
            }),
            Self::Text(text) => Self::Text(Text { at: text.at + by, ..text.clone() }),
            Self::Window(window) => Self::Window(Window {
                corner: window.corner + by,
                items: window.items.iter().map(|item| item.moved(by)).collect(),
                ..window.clone()
            }),
            Self::Photo(photo) => Self::Photo(Photo { corner: photo.corner + by, ..photo.clone() }),
        }
    }
}

impl Item {
    /// The same, turned and shifted by a map that keeps lengths and mirrors nothing. Windows and photographs stay upright: only their corners go along.
    #[must_use]
    pub fn laid(&self, by: Transform) -> Self {
        match self {
            Self::Path(path) => Self::Path(Path {
                subpaths: path.subpaths.iter().map(|subpath| subpath.laid(by)).collect(),
                ..path.clone()
            }),
            Self::Text(text) => {
                Self::Text(Text { at: by.apply(text.at), turn: text.turn + by.angle().to_degrees(), ..text.clone() })
            }
            Self::Window(window) => Self::Window(Window {
                corner: by.apply(window.corner),
                items: window.items.iter().map(|item| item.laid(by)).collect(),
                ..window.clone()
            }),
            Self::Photo(photo) => Self::Photo(Photo { corner: by.apply(photo.corner), ..photo.clone() }),
        }
    }
}

impl Page {
    /// The same drawing at this width in inches, if it is wider; lines and type grow thinner and smaller with it.
    #[must_use]
    pub fn fitted(&self, width: f64) -> Cow<'_, Self> {
        let factor = width / self.width.to_inches().max(1e-9);
        if factor >= 1.0 - 1e-9 { Cow::Borrowed(self) } else { Cow::Owned(self.scaled(factor)) }
    }

    /// The same drawing, so many times as large: lines and type too.
    #[must_use]
    pub fn scaled(&self, factor: f64) -> Self {
        Self {
            width: self.width * factor,
            height: self.height * factor,
            items: self.items.iter().map(|item| item.scaled(factor)).collect(),
            ..self.clone()
        }
    }
}

impl From<Path> for Item {
    fn from(path: Path) -> Self {
        Self::Path(path)
    }
}

impl Item {
    /// The same, so many times as large, about the upper left of the page.
    fn scaled(&self, factor: f64) -> Self {
        let point = |point: Point| Point::default() + point.to_vector() * factor;
        match self {
            Self::Path(path) => Self::Path(Path {
                subpaths: path.subpaths.iter().map(|subpath| subpath.scaled(factor)).collect(),
                stroke: path.stroke.as_ref().map(|stroke| Stroke {
                    width: stroke.width * factor,
                    dashes: stroke.dashes.iter().map(|&dash| dash * factor).collect(),
                    ..stroke.clone()
                }),
                ..path.clone()
            }),
            Self::Text(text) => Self::Text(Text { at: point(text.at), size: text.size * factor, ..text.clone() }),
            Self::Window(window) => Self::Window(Window {
                corner: point(window.corner),
                width: window.width * factor,
                height: window.height * factor,
                items: window.items.iter().map(|item| item.scaled(factor)).collect(),
            }),
            Self::Photo(photo) => Self::Photo(Photo {
                corner: point(photo.corner),
                width: photo.width * factor,
                height: photo.height * factor,
                raster: Arc::clone(&photo.raster),
            }),
        }
    }
}

impl From<Text> for Item {
    fn from(text: Text) -> Self {
        Self::Text(text)
    }
}

impl Page {
    /// All lines of text on it, in the order in which they are drawn.
    #[must_use]
    pub fn texts(&self) -> Vec<&Text> {
        fn gather<'a>(items: &'a [Item], texts: &mut Vec<&'a Text>) {
            for item in items {
                match item {
                    Item::Path(_) | Item::Photo(_) => {}
                    Item::Text(text) => texts.push(text),
                    Item::Window(window) => gather(&window.items, texts),
                }
            }
        }
        let mut texts = Vec::new();
        gather(&self.items, &mut texts);
        texts
    }
}
