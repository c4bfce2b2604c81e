//! Photographs and signs that a publisher puts into a packet: from the bytes of a file to what every backend can show.
//!
//! Pure: bytes come in from the shelf. What is kept holds nothing but the picture: no place, camera or date of a photograph leaves with a packet.

/// A picture.
#[derive(Debug, Clone, PartialEq)]
pub enum Picture {
    /// A photograph.
    Raster(Raster),
    /// A drawing of plain areas and lines.
    Drawing(Drawing),
}

/// A photograph, as it is embedded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Raster {
    /// Its width in pixels.
    pub width: u32,
    /// Its height in pixels.
    pub height: u32,
    /// Its pixels.
    pub pixels: Pixels,
}

/// The pixels of a photograph.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Pixels {
    /// A whole JPEG file without any metadata. True for colour (red, green, blue as Y'CbCr), false for grey.
    Jpeg {
        /// The file.
        file: Vec<u8>,
        /// Whether it has colour.
        colour: bool,
    },
    /// Red, green and blue of each pixel, row by row from the upper left.
    Rgb(Vec<u8>),
}

/// A drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// Its width, in units of its own.
    pub width: f64,
    /// Its height.
    pub height: f64,
    /// What is drawn, first things lowest.
    pub shapes: Vec<Shape>,
}

/// An area or line of a drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// Its subpaths.
    pub outlines: Vec<Outline>,
    /// Its fill: red, green, blue.
    pub fill: Option<[u8; 3]>,
    /// Whether its fill is by even-odd; otherwise by winding.
    pub even_odd: bool,
    /// Its pen: colour, and width in units of the drawing.
    pub stroke: Option<([u8; 3], f64)>,
}

/// A run of straight and curved pieces, in units of the drawing, y down.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    /// Where it begins.
    pub start: [f64; 2],
    /// Its pieces: the two handles and the end of each cubic curve; for a straight piece the handles lie on its ends.
    pub curves: Vec<[[f64; 2]; 3]>,
    /// Whether it closes on its beginning.
    pub closed: bool,
}
