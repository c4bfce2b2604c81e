//! Pages as other programs rasterise them, in greys.

use std::path::Path;

use crate::support::tools::made_by;

/// Pixels to the inch.
pub const DENSITY: f64 = 600.0;

/// A program that rasterises.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Renderer {
    MuPdf,
    Poppler,
}

impl Renderer {
    pub const ALL: [Self; 2] = [Self::MuPdf, Self::Poppler];

    /// Whether it moves level and upright strokes to whole pixels.
    pub fn snaps(self) -> bool {
        self == Self::Poppler
    }

    /// A page of a file, counted from 1; nothing where the program is missing and need not be there.
    pub fn page(self, file: &Path, number: usize) -> Option<Raster> {
        let (density, number) = (DENSITY.to_string(), number.to_string());
        let bytes = match self {
            Self::MuPdf => {
                let before = ["draw", "-q", "-r", &density, "-c", "gray", "-F", "pgm", "-o", "-"];
                made_by("mutool", &before, file, &[&number])
            }
            Self::Poppler => made_by("pdftoppm", &["-r", &density, "-gray", "-f", &number, "-l", &number], file, &[]),
        };
        Some(Raster::read(bytes?))
    }
}

/// A page in greys. The pixel in column x and row y covers the square from (x, y) to (x + 1, y + 1).
pub struct Raster {
    pub width: usize,
    pub height: usize,
    /// The file.
    bytes: Vec<u8>,
    /// Where its pixels begin.
    from: usize,
}

impl Raster {
    /// Reads a binary PGM of one byte a pixel.
    fn read(bytes: Vec<u8>) -> Self {
        let mut from = 0;
        let mut word = || {
            while bytes[from].is_ascii_whitespace() || bytes[from] == b'#' {
                if bytes[from] == b'#' {
                    from += bytes[from..].iter().position(|&byte| byte == b'\n').expect("a comment ends");
                }
                from += 1;
            }
            let start = from;
            from += bytes[from..].iter().position(u8::is_ascii_whitespace).expect("a word of the header ends");
            std::str::from_utf8(&bytes[start..from]).expect("a header in ASCII").to_owned()
        };
        assert_eq!(word(), "P5");
        let [width, height, white] = [word(), word(), word()].map(|word| word.parse::<usize>().expect("a number"));
        assert_eq!(white, 255);
        let from = from + 1;
        assert_eq!(bytes.len() - from, width * height, "all pixels are there");
        Self { width, height, bytes, from }
    }

    /// How much of a pixel is inked: 0 is white, 1 is black; white outside the page.
    pub fn ink(&self, x: i64, y: i64) -> f64 {
        let (Ok(x), Ok(y)) = (usize::try_from(x), usize::try_from(y)) else { return 0.0 };
        if x >= self.width || y >= self.height {
            return 0.0;
        }
        1.0 - f64::from(self.bytes[self.from + y * self.width + x]) / 255.0
    }
}
