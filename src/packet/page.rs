//! The display list: pages of items at places. Every drawing backend draws these and decides nothing.
//!
//! Coordinates are inches from the upper left of the page, y down.

use crate::geometry::{Length, Point};

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
}

/// Lines or an area: one or more subpaths, painted together (even-odd).
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    /// The subpaths.
    pub subpaths: Vec<Subpath>,
    /// The fill.
    pub fill: Option<Colour>,
    /// The pen.
    pub stroke: Option<Stroke>,
    /// The layer it belongs to.
    pub layer: Layer,
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
