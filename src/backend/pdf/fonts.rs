//! The typeface in a document: only the letters that it shows, in code of two bytes each.

use std::collections::{BTreeMap, BTreeSet};

use printpdf::{FontId, FontMetrics, Op, ParsedFont, PdfFont, PdfFontHandle, PdfFontMap, Pt, TextItem};
use subsetter::GlyphRemapper;

use super::content::face_name;
use super::{PdfFault, hash};
use crate::packet::leaf::Leaf;
use crate::packet::page::{Item, Weight};
use crate::packet::typeface;

const WEIGHTS: [Weight; 2] = [Weight::Regular, Weight::Bold];

/// Which letters a document shows in each weight, and by which code.
#[derive(Debug, Default)]
pub(super) struct Faces {
    regular: Coded,
    bold: Coded,
}

/// The letters of one weight with their codes, which are the numbers of their glyphs in the subset.
#[derive(Debug, Default)]
struct Coded {
    letters: Letters,
    /// The code of each letter of ASCII, 0 where it is not shown.
    plain: Vec<u16>,
    others: BTreeMap<char, u16>,
}

/// A set of letters. Almost all that is added is ASCII, and there again and again.
#[derive(Debug, Default)]
struct Letters {
    plain: u128,
    others: BTreeSet<char>,
}

impl Letters {
    fn add(&mut self, words: &str) {
        for letter in words.chars().map(shown) {
            if letter.is_ascii() {
                self.plain |= 1 << u32::from(letter);
            } else {
                self.others.insert(letter);
            }
        }
    }

    /// All of them, in order.
    fn all(&self) -> impl Iterator<Item = char> + '_ {
        let plain = (0..128_u8).filter(|code| self.plain >> code & 1 == 1).map(char::from);
        plain.chain(self.others.iter().copied())
    }
}

/// A letter as it is set: control characters become blanks.
fn shown(letter: char) -> char {
    if letter.is_control() { ' ' } else { letter }
}

impl Faces {
    /// The letters of all leaves. O(n log n) in the letters.
    pub(super) fn of(leaves: &[Leaf]) -> Self {
        let mut faces = Self::default();
        for leaf in leaves {
            faces.add(&leaf.page.items);
        }
        for weight in WEIGHTS {
            faces.coded_mut(weight).number(weight);
        }
        faces
    }

    fn add(&mut self, items: &[Item]) {
        for item in items {
            match item {
                Item::Text(text) => self.coded_mut(text.weight).letters.add(&text.words),
                Item::Window(window) => self.add(&window.items),
                Item::Path(_) | Item::Photo(_) => {}
            }
        }
    }

    const fn coded(&self, weight: Weight) -> &Coded {
        match weight {
            Weight::Regular => &self.regular,
            Weight::Bold => &self.bold,
        }
    }

    const fn coded_mut(&mut self, weight: Weight) -> &mut Coded {
        match weight {
            Weight::Regular => &mut self.regular,
            Weight::Bold => &mut self.bold,
        }
    }

    /// Writes words as a string of codes. A letter that the typeface lacks, a fault of the source that is reported before, shows as an empty box.
    pub(super) fn write(&self, words: &str, weight: Weight, out: &mut Vec<u8>) {
        let coded = self.coded(weight);
        out.push(b'(');
        for letter in words.chars().map(shown) {
            for byte in coded.code(letter).to_be_bytes() {
                match byte {
                    b'(' | b')' | b'\\' => out.extend([b'\\', byte]),
                    // A carriage return would be read as the end of a line.
                    b'\r' => out.extend(b"\\r"),
                    _ => out.push(byte),
                }
            }
        }
        out.push(b')');
    }

    /// The subsets to embed, by the name that pages call them by.
    pub(super) fn embedded(&self) -> Result<PdfFontMap, PdfFault> {
        let mut fonts = PdfFontMap::default();
        for weight in WEIGHTS {
            let coded = self.coded(weight);
            if coded.letters.all().next().is_some() {
                fonts.map.insert(FontId(face_name(weight).to_owned()), PdfFont::new(coded.subset(weight)?));
            }
        }
        Ok(fonts)
    }

    /// Operators that show each letter once: printpdf embeds and names what it sees shown.
    pub(super) fn specimen(&self) -> Vec<Op> {
        let mut ops = Vec::new();
        for weight in WEIGHTS {
            // Where two letters share a glyph, it is read back as the last one shown: the plainer.
            let mut letters: Vec<char> = self.coded(weight).letters.all().collect();
            letters.reverse();
            let font = PdfFontHandle::External(FontId(face_name(weight).to_owned()));
            ops.push(Op::SetFont { font, size: Pt(1.0) });
            ops.push(Op::ShowText { items: vec![TextItem::Text(letters.into_iter().collect())] });
        }
        ops
    }
}

impl Coded {
    fn remapped(&self, weight: Weight) -> (GlyphRemapper, Vec<(char, u16, u16)>) {
        let mut remapper = GlyphRemapper::new();
        let Some(face) = typeface::face(weight) else { return (remapper, Vec::new()) };
        let mut coded = Vec::new();
        for letter in self.letters.all() {
            let Some(glyph) = face.glyph_index(letter) else { continue };
            let code = remapper.remap(glyph.0);
            coded.push((letter, code, face.glyph_hor_advance(glyph).unwrap_or_default()));
        }
        (remapper, coded)
    }

    fn number(&mut self, weight: Weight) {
        self.plain = vec![0; 128];
        for (letter, code, _) in self.remapped(weight).1 {
            if let Some(place) = self.plain.get_mut(letter as usize) {
                *place = code;
            } else {
                self.others.insert(letter, code);
            }
        }
    }

    fn code(&self, letter: char) -> u16 {
        let plain = self.plain.get(letter as usize).copied();
        plain.or_else(|| self.others.get(&letter).copied()).unwrap_or_default()
    }

    /// The typeface with these letters only.
    fn subset(&self, weight: Weight) -> Result<ParsedFont, PdfFault> {
        let fault = |reason: &str| PdfFault::Typeface(reason.to_owned());
        let face = typeface::face(weight).ok_or_else(|| fault("it cannot be read"))?;
        let (remapper, coded) = self.remapped(weight);
        let file =
            subsetter::subset(typeface::file(weight), 0, &remapper).map_err(|reason| fault(&reason.to_string()))?;
        let name = format!("{}+SourceSans3-{}", self.tag(), face_name(weight));
        let glyphs = coded.iter().map(|&(letter, code, _)| (u32::from(letter), code)).collect();
        let widths = coded.iter().map(|&(_, code, width)| (code, width)).collect();
        let metrics = FontMetrics { ascent: face.ascender(), descent: face.descender() };
        let mut font = ParsedFont::with_glyph_data(file, 0, Some(name), glyphs, widths, face.units_per_em(), metrics);
        let bounds = face.global_bounding_box();
        let stub = &mut font.pdf_font_metrics;
        (stub.x_min, stub.y_min, stub.x_max, stub.y_max) = (bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max);
        stub.us_weight_class = face.weight().to_number();
        Ok(font)
    }

    /// The six capitals by which a subset is told from other subsets of the same face.
    fn tag(&self) -> String {
        let mut rest = hash(self.letters.all().collect::<String>().as_bytes());
        let mut tag = String::new();
        for _ in 0..6 {
            let letter = (rest % 26) as u8;
            tag.push(char::from(b'A' + letter));
            rest /= 26;
        }
        tag
    }
}
