//! Photographs and signs that a publisher puts into a packet: from the bytes of a file to what every backend can show.
//!
//! Pure: bytes come in from the shelf. What a file is, its first bytes tell, not its name. What is kept holds nothing but the picture: no place,
//! camera or date of a photograph leaves with a packet.

mod jpeg;
mod png;
mod svg;

/// The largest file that is taken, in bytes: a photograph of a page's width is a tenth of that.
pub const MOST_BYTES: usize = 2 << 20;
/// The most pixels on a side; at 300 to the inch that is more than a page.
pub const MOST_PIXELS: u32 = 4_000;
/// The most points in all paths of a drawing, handles of curves not counted.
pub const MOST_POINTS: usize = 20_000;
/// How many times longer than the other a side may be.
pub const MOST_PROPORTION: f64 = 20.0;

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
    /// A whole JPEG file without any metadata. True for colour (red, green, blue as `Y'CbCr`), false for grey.
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

/// Why a file cannot be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PictureFault {
    /// The file is larger than [`MOST_BYTES`].
    Bytes,
    /// A side has more pixels than [`MOST_PIXELS`].
    Pixels(u32, u32),
    /// The paths of the drawing have more points than [`MOST_POINTS`].
    Points,
    /// One side is more than [`MOST_PROPORTION`] times as long as the other.
    Narrow,
    /// A picture or document of another kind, such as "a GIF".
    OtherKind(&'static str),
    /// No picture at all.
    NoPicture,
    /// A file of this kind that ends too early or does not hold together.
    Broken(Kind),
    /// A JPEG in the colours of a printing press.
    PressColours,
    /// A JPEG of a seldom kind: without loss, arithmetic, 12 bits a colour, or not as `Y'CbCr`.
    SeldomJpeg,
    /// A JPEG that has to be turned before it is looked at.
    Turned,
    /// A drawing with something besides plain areas and lines.
    Beyond(Feature),
}

/// The kinds of files that can be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// PNG.
    Png,
    /// JPEG.
    Jpeg,
    /// SVG.
    Svg,
}

/// What a drawing may hold that is no plain area or line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Feature {
    /// A colour that runs into another.
    Gradient,
    /// An area filled with a pattern.
    Pattern,
    /// Words.
    Text,
    /// A picture within the drawing.
    Picture,
    /// A mask.
    Mask,
    /// A part cut off by another.
    Clip,
    /// A blur, a shadow, ….
    Filter,
    /// Something that is seen through.
    Opacity,
    /// A dashed line.
    Dashes,
    /// A copy that is linked to its original.
    Link,
    /// An arrowhead or another mark along a line.
    Marker,
    /// Groups in groups, very deep.
    Depth,
    /// A line that is wider one way than another.
    UnevenLine,
    /// Something beyond the edge of the drawing.
    Overhang,
    /// Text blocks defined in the head of the file.
    Entity,
    /// Rules of style that go on for pages.
    Style,
    /// Nothing to be seen.
    Nothing,
}

impl Picture {
    /// Looks at the bytes of a file. O(bytes + pixels); nothing is unpacked before its size is known to be within the limits.
    ///
    /// # Errors
    /// Why it cannot be shown.
    pub fn try_new(bytes: &[u8]) -> Result<Self, PictureFault> {
        if bytes.len() > MOST_BYTES {
            return Err(PictureFault::Bytes);
        }
        if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
            return png::raster(bytes).map(Self::Raster);
        }
        if bytes.starts_with(&[0xFF, 0xD8]) {
            return jpeg::raster(bytes).map(Self::Raster);
        }
        if let Some(kind) = other_kind(bytes) {
            return Err(PictureFault::OtherKind(kind));
        }
        let Ok(text) = std::str::from_utf8(bytes) else { return Err(PictureFault::NoPicture) };
        let text = text.trim_start_matches('\u{feff}').trim_start();
        if text.starts_with('<') { svg::drawing(text).map(Self::Drawing) } else { Err(PictureFault::NoPicture) }
    }

    /// Width and height, in pixels or in units of the drawing; both above zero.
    #[must_use]
    pub fn size(&self) -> (f64, f64) {
        match self {
            Self::Raster(raster) => (f64::from(raster.width), f64::from(raster.height)),
            Self::Drawing(drawing) => (drawing.width, drawing.height),
        }
    }
}

/// What a file is that is often taken for a picture that can be shown.
fn other_kind(bytes: &[u8]) -> Option<&'static str> {
    let starts = |start: &[u8]| bytes.starts_with(start);
    let brand = bytes.get(4..12).unwrap_or_default();
    Some(match () {
        () if starts(b"GIF8") => "a GIF",
        () if starts(b"RIFF") && bytes.get(8..12) == Some(b"WEBP") => "a WebP",
        () if starts(b"II*\0") || starts(b"MM\0*") => "a TIFF or a camera's raw file",
        () if starts(b"BM") && bytes.get(6..10) == Some(&[0; 4]) => "a BMP",
        () if brand.starts_with(b"ftyp") && brand.ends_with(b"avif") => "an AVIF",
        () if brand.starts_with(b"ftyphe") || brand.starts_with(b"ftypmi") => "a HEIC",
        () if starts(b"%PDF") => "a PDF",
        () if starts(b"%!PS") => "a PostScript drawing",
        () if starts(b"8BPS") => "a Photoshop file",
        () if starts(&[0x1F, 0x8B]) => "a compressed file",
        () => return None,
    })
}

/// Checks the size of a picture in pixels.
fn check_pixels(width: u32, height: u32) -> Result<(), PictureFault> {
    if width > MOST_PIXELS || height > MOST_PIXELS {
        return Err(PictureFault::Pixels(width, height));
    }
    check_proportion(f64::from(width), f64::from(height))
}

fn check_proportion(width: f64, height: f64) -> Result<(), PictureFault> {
    let fits = width <= height * MOST_PROPORTION && height <= width * MOST_PROPORTION;
    if fits { Ok(()) } else { Err(PictureFault::Narrow) }
}
