//! PDF, at exact size, with embedded subsets of the typeface and text that can be searched and copied.
//!
//! `printpdf` lays out the document; what it has no words for is put right in its object tree before that is written.

use std::collections::{BTreeMap, BTreeSet};

use lopdf::{Dictionary, Document, Object, ObjectId};
use printpdf::{
    DictItem, FontId, FontMetrics, Op, ParsedFont, PdfDocument, PdfFont, PdfFontHandle, PdfPage, PdfSaveOptions, Pt,
    Rect, TextItem, TextMatrix,
};
use subsetter::GlyphRemapper;

use super::without_controls;
use crate::geometry::{Angle, Length, Point};
use crate::packet::page::{Align, Colour, Item, Page, Path, Piece, Stroke, Text, Weight, Window};
use crate::packet::typeface;

/// What the document says of itself.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct DocumentFacts {
    /// The title, shown in the viewer's title bar.
    pub title: String,
    /// Who publishes it.
    pub author: Option<String>,
    /// What it is, in a line.
    pub subject: Option<String>,
    /// The language of its words, `en`.
    pub language: String,
}

/// Why a document could not be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PdfFault {
    /// The typeface could not be read or made smaller.
    Typeface(String),
    /// The object tree could not be written.
    Writing(String),
}

impl std::fmt::Display for PdfFault {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Typeface(reason) => write!(formatter, "the typeface cannot be embedded: {reason}"),
            Self::Writing(reason) => write!(formatter, "the PDF cannot be written: {reason}"),
        }
    }
}

impl std::error::Error for PdfFault {}

/// Writes the pages, in order, each with a bookmark of its title.
///
/// The same pages and facts give the same bytes: no date, no random identifier. O(n log n) in the number of objects.
///
/// # Errors
/// [`PdfFault::Typeface`] if a subset of the typeface cannot be made; [`PdfFault::Writing`] if the object tree cannot be written.
pub fn draw(pages: &[Page], facts: &DocumentFacts) -> Result<Vec<u8>, PdfFault> {
    let mut document = object_tree(pages, facts)?;
    document.compress();
    bytes_of(&mut document)
}

fn object_tree(pages: &[Page], facts: &DocumentFacts) -> Result<Document, PdfFault> {
    let mut document = PdfDocument::new(&without_controls(&facts.title));
    document.metadata.info.author = without_controls(facts.author.as_deref().unwrap_or_default());
    document.metadata.info.subject = without_controls(facts.subject.as_deref().unwrap_or_default());
    concat!("piecewright ", env!("CARGO_PKG_VERSION")).clone_into(&mut document.metadata.info.creator);
    document.metadata.info.producer.clone_from(&document.metadata.info.creator);
    for weight in [Weight::Regular, Weight::Bold] {
        let letters = letters_of(pages, weight);
        if !letters.is_empty() {
            document.resources.fonts.map.insert(font_id(weight), PdfFont::new(subset(weight, &letters)?));
        }
    }
    document.pages = pages.iter().map(page_of).collect();
    // Our own operators count as unknown to printpdf, which drops them if told to be secure.
    let options = PdfSaveOptions { optimize: false, subset_fonts: false, secure: false, image_optimization: None };
    let mut tree = document.to_lopdf_document(&options, &mut Vec::new());
    finish(&mut tree, pages, facts);
    identify(&mut tree)?;
    Ok(tree)
}

// Typeface.

fn font_id(weight: Weight) -> FontId {
    FontId(resource(weight).to_owned())
}

const fn resource(weight: Weight) -> &'static str {
    match weight {
        Weight::Regular => "Regular",
        Weight::Bold => "Bold",
    }
}

fn letters_of(pages: &[Page], weight: Weight) -> BTreeSet<char> {
    let texts = pages.iter().flat_map(Page::texts).filter(|text| text.weight == weight);
    texts.flat_map(|text| without_controls(&text.words).chars().collect::<Vec<_>>()).collect()
}

/// The typeface with these letters only, its glyphs numbered anew.
fn subset(weight: Weight, letters: &BTreeSet<char>) -> Result<ParsedFont, PdfFault> {
    let fault = |reason: &str| PdfFault::Typeface(reason.to_owned());
    let face = typeface::face(weight).ok_or_else(|| fault("it cannot be read"))?;
    let mut remapper = GlyphRemapper::new();
    let (mut glyphs, mut widths) = (BTreeMap::new(), BTreeMap::new());
    for &letter in letters {
        // A letter that the typeface lacks is a fault of the source, reported before; here it shows as an empty box.
        let Some(glyph) = face.glyph_index(letter) else { continue };
        let code = remapper.remap(glyph.0);
        glyphs.insert(u32::from(letter), code);
        widths.insert(code, face.glyph_hor_advance(glyph).unwrap_or_default());
    }
    let file = subsetter::subset(typeface::file(weight), 0, &remapper).map_err(|reason| fault(&reason.to_string()))?;
    let name = format!("{}+SourceSans3-{}", tag(letters), resource(weight));
    let metrics = FontMetrics { ascent: face.ascender(), descent: face.descender() };
    let mut font = ParsedFont::with_glyph_data(file, 0, Some(name), glyphs, widths, face.units_per_em(), metrics);
    let bounds = face.global_bounding_box();
    let stub = &mut font.pdf_font_metrics;
    (stub.x_min, stub.y_min, stub.x_max, stub.y_max) = (bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max);
    stub.us_weight_class = face.weight().to_number();
    Ok(font)
}

/// The six capitals by which a subset is told from other subsets of the same face.
fn tag(letters: &BTreeSet<char>) -> String {
    let mut rest = hash(letters.iter().collect::<String>().as_bytes());
    let mut tag = String::new();
    for _ in 0..6 {
        let letter = (rest % 26) as u8;
        tag.push(char::from(b'A' + letter));
        rest /= 26;
    }
    tag
}

// Pages.

/// Where the display list's places lie on a PDF page: points, y up.
struct Frame {
    height: f64,
}

impl Frame {
    fn place(&self, point: Point) -> [f64; 2] {
        [Length::inches(point.x).to_points(), self.height - Length::inches(point.y).to_points()]
    }
}

/// A number as it is written: rounded while it is still exact, so that the same drawing gives the same digits.
fn real(value: f64) -> f32 {
    let rounded = (value * 10_000.0).round() / 10_000.0;
    #[expect(clippy::cast_possible_truncation, reason = "PDF numbers are of single precision")]
    let single = rounded as f32;
    if single.is_finite() && single != 0.0 { single } else { 0.0 }
}

fn page_of(page: &Page) -> PdfPage {
    let frame = Frame { height: page.height.to_points() };
    let sheet = Rect {
        x: Pt(0.0),
        y: Pt(0.0),
        width: Pt(real(page.width.to_points())),
        height: Pt(real(page.height.to_points())),
        mode: None,
        winding_order: None,
    };
    let mut ops = Vec::new();
    for item in &page.items {
        draw_item(&frame, item, &mut ops);
    }
    PdfPage { media_box: sheet.clone(), trim_box: sheet.clone(), crop_box: sheet, ops }
}

fn operator(key: &str, operands: impl IntoIterator<Item = f64>) -> Op {
    Op::Unknown {
        key: key.to_owned(),
        value: operands.into_iter().map(|operand| DictItem::Real(real(operand))).collect(),
    }
}

fn draw_item(frame: &Frame, item: &Item, ops: &mut Vec<Op>) {
    match item {
        Item::Path(path) => draw_path(frame, path, ops),
        Item::Text(text) => draw_text(frame, text, ops),
        Item::Window(window) => draw_window(frame, window, ops),
        Item::Photo(_) => {}
    }
}

fn draw_window(frame: &Frame, window: &Window, ops: &mut Vec<Op>) {
    let [x, y] = frame.place(window.corner);
    let (width, height) = (window.width.to_points(), window.height.to_points());
    ops.push(Op::SaveGraphicsState);
    ops.push(operator("re", [x, y - height, width, height]));
    ops.push(operator("W", []));
    ops.push(operator("n", []));
    for item in &window.items {
        draw_item(frame, item, ops);
    }
    ops.push(Op::RestoreGraphicsState);
}

fn draw_path(frame: &Frame, path: &Path, ops: &mut Vec<Op>) {
    let paint = match (path.fill.is_some(), path.stroke.is_some()) {
        (true, true) => "B*",
        (true, false) => "f*",
        (false, true) => "S",
        (false, false) => return,
    };
    if path.subpaths.is_empty() {
        return;
    }
    if let Some(fill) = path.fill {
        ops.push(operator("rg", shares(fill)));
    }
    if let Some(stroke) = &path.stroke {
        set_pen(stroke, ops);
    }
    for subpath in &path.subpaths {
        ops.push(operator("m", frame.place(subpath.start)));
        for &piece in &subpath.pieces {
            ops.push(match piece {
                Piece::Line(to) => operator("l", frame.place(to)),
                Piece::Curve(first, second, to) => {
                    operator("c", [first, second, to].into_iter().flat_map(|p| frame.place(p)))
                }
            });
        }
        if subpath.closed {
            ops.push(operator("h", []));
        }
    }
    ops.push(operator(paint, []));
}

fn set_pen(stroke: &Stroke, ops: &mut Vec<Op>) {
    ops.push(operator("RG", shares(stroke.colour)));
    ops.push(operator("w", [stroke.width.to_points()]));
    let dashes = stroke.dashes.iter().map(|dash| DictItem::Real(real(dash.to_points()))).collect();
    ops.push(Op::Unknown { key: "d".to_owned(), value: vec![DictItem::Array(dashes), DictItem::Int(0)] });
    let style = i64::from(stroke.round);
    ops.push(Op::Unknown { key: "J".to_owned(), value: vec![DictItem::Int(style)] });
    ops.push(Op::Unknown { key: "j".to_owned(), value: vec![DictItem::Int(style)] });
}

fn shares(colour: Colour) -> [f64; 3] {
    colour.0.map(|level| f64::from(level) / 255.0)
}

fn draw_text(frame: &Frame, text: &Text, ops: &mut Vec<Op>) {
    let words = without_controls(&text.words);
    let width = typeface::width(&words, text.size, text.weight).to_points();
    let before = match text.align {
        Align::Start => 0.0,
        Align::Middle => width / 2.0,
        Align::End => width,
    };
    let (sin, cos) = Angle::degrees(text.turn).sin_cos();
    let [x, y] = frame.place(text.at);
    // Clockwise as seen is a negative turn where y runs up.
    let matrix = [cos, -sin, sin, cos, x - before * cos, y + before * sin].map(real);
    ops.push(operator("rg", shares(text.colour)));
    ops.push(Op::StartTextSection);
    ops.push(Op::SetFont {
        font: PdfFontHandle::External(font_id(text.weight)),
        size: Pt(real(text.size.to_points())),
    });
    ops.push(Op::SetTextMatrix { matrix: TextMatrix::Raw(matrix) });
    ops.push(Op::ShowText { items: vec![TextItem::Text(words)] });
    ops.push(Op::EndTextSection);
}

// The object tree.

/// Puts in what printpdf has no words for, and takes out what would differ from run to run.
fn finish(tree: &mut Document, pages: &[Page], facts: &DocumentFacts) {
    "1.7".clone_into(&mut tree.version);
    let page_ids: Vec<ObjectId> = tree.page_iter().collect();
    let outline = add_bookmarks(tree, pages, &page_ids);
    let viewer = Dictionary::from_iter([
        ("PrintScaling", Object::from("None")),
        ("DisplayDocTitle", Object::Boolean(true)),
        ("PickTrayByPDFSize", Object::Boolean(true)),
    ]);
    if let Ok(catalog) = tree.catalog_mut() {
        catalog.set("ViewerPreferences", viewer);
        catalog.set("Lang", Object::string_literal(facts.language.as_str()));
        if let Some(outline) = outline {
            catalog.set("Outlines", outline);
            catalog.set("PageMode", Object::from("UseOutlines"));
        }
    }
    let info = tree.trailer.get(b"Info").and_then(Object::as_reference);
    if let Ok(info) = info.and_then(|id| tree.get_dictionary_mut(id)) {
        for key in ["CreationDate", "ModDate", "GTS_PDFXVersion", "Identifier", "Keywords", "Trapped"] {
            info.remove(key.as_bytes());
        }
        if facts.author.is_none() {
            info.remove(b"Author");
        }
        if facts.subject.is_none() {
            info.remove(b"Subject");
        }
    }
    for &id in &page_ids {
        if let Ok(page) = tree.get_dictionary_mut(id) {
            page.remove(b"Annots");
        }
    }
}

/// A bookmark for each page that has a title; neighbouring pages of one title share one.
fn add_bookmarks(tree: &mut Document, pages: &[Page], page_ids: &[ObjectId]) -> Option<ObjectId> {
    let mut titled: Vec<(&str, ObjectId)> =
        pages.iter().map(|page| page.title.as_str()).zip(page_ids.iter().copied()).collect();
    titled.retain(|(title, _)| !title.is_empty());
    titled.dedup_by(|later, earlier| later.0 == earlier.0);
    let root = tree.new_object_id();
    let ids: Vec<ObjectId> = titled.iter().map(|_| tree.new_object_id()).collect();
    let (&first, &last) = (ids.first()?, ids.last()?);
    for (i, &(title, page)) in titled.iter().enumerate() {
        let target = vec![page.into(), Object::from("Fit")];
        let mut bookmark = Dictionary::from_iter([
            ("Title", lopdf::text_string(&without_controls(title))),
            ("Parent", Object::from(root)),
            ("Dest", Object::Array(target)),
        ]);
        if let Some(&before) = i.checked_sub(1).and_then(|before| ids.get(before)) {
            bookmark.set("Prev", before);
        }
        if let Some(&after) = ids.get(i + 1) {
            bookmark.set("Next", after);
        }
        if let Some(&id) = ids.get(i) {
            tree.set_object(id, bookmark);
        }
    }
    let count = i64::try_from(ids.len()).unwrap_or(i64::MAX);
    let outline = Dictionary::from_iter([
        ("Type", Object::from("Outlines")),
        ("First", first.into()),
        ("Last", last.into()),
        ("Count", count.into()),
    ]);
    tree.set_object(root, outline);
    Some(root)
}

/// Sets the identifier of the file from what is in it.
fn identify(tree: &mut Document) -> Result<(), PdfFault> {
    tree.trailer.remove(b"ID");
    let content = bytes_of(tree)?;
    let identifier = Object::String(hash(&content).to_be_bytes().to_vec(), lopdf::StringFormat::Hexadecimal);
    tree.trailer.set("ID", vec![identifier.clone(), identifier]);
    Ok(())
}

fn bytes_of(tree: &mut Document) -> Result<Vec<u8>, PdfFault> {
    let mut bytes = Vec::new();
    tree.save_to(&mut bytes).map_err(|reason| PdfFault::Writing(reason.to_string()))?;
    Ok(bytes)
}

/// FNV-1a of 128 bits: to tell contents apart, not to keep secrets.
fn hash(bytes: &[u8]) -> u128 {
    const PRIME: u128 = 0x0000_0000_0100_0000_0000_0000_0000_013b;
    const BASIS: u128 = 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d;
    bytes.iter().fold(BASIS, |hash, &byte| (hash ^ u128::from(byte)).wrapping_mul(PRIME))
}

#[cfg(test)]
mod tests {
    use std::path::Path;
    use std::process::Command;

    use super::{DocumentFacts, draw, object_tree, real};
    use crate::backend::tests::sample_page;

    fn facts() -> DocumentFacts {
        DocumentFacts {
            title: "Storm Lantern".to_owned(),
            author: Some("Tern Point Sewing Circle".to_owned()),
            subject: None,
            language: "en".to_owned(),
        }
    }

    /// What a tool says of the document, or nothing where the tool is not installed.
    fn told_by(tool: &str, before: &[&str], after: &[&str]) -> Option<String> {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("packet.pdf");
        std::fs::write(&file, draw(&[sample_page(), sample_page()], &facts()).unwrap()).unwrap();
        let Ok(output) = Command::new(tool).args(before).arg::<&Path>(&file).args(after).output() else {
            eprintln!("{tool} is not installed: its view of the document was not tested");
            return None;
        };
        assert!(output.status.success(), "{tool}: {output:?}");
        Some(String::from_utf8_lossy(&output.stdout).into_owned())
    }

    #[test]
    fn the_same_pages_give_the_same_bytes() {
        let pages = [sample_page()];
        assert_eq!(draw(&pages, &facts()).unwrap(), draw(&pages, &facts()).unwrap());
        let mut other = sample_page();
        other.title = "Terns".to_owned();
        assert_ne!(draw(&pages, &facts()).unwrap(), draw(&[other], &facts()).unwrap());
    }

    #[test]
    fn the_object_tree_has_no_dates_and_prints_at_size() {
        let tree = object_tree(&[sample_page()], &facts()).unwrap();
        let written = format!("{tree:?}");
        assert!(!written.contains("CreationDate") && !written.contains("ModDate"), "{written}");
        let catalog = tree.catalog().unwrap();
        let viewer = catalog.get(b"ViewerPreferences").unwrap().as_dict().unwrap();
        assert_eq!(viewer.get(b"PrintScaling").unwrap().as_name().unwrap(), b"None");
        assert_eq!(tree.version, "1.7");
    }

    #[test]
    fn numbers_are_rounded_and_finite() {
        assert_eq!(real(-0.000_01).to_bits(), 0.0_f32.to_bits());
        assert_eq!(real(f64::NAN), 0.0);
        assert_eq!(real(0.123_449), 0.1234);
    }

    #[test]
    fn the_file_is_sound() {
        if let Some(said) = told_by("qpdf", &["--check"], &[]) {
            assert!(said.contains("No syntax or stream encoding errors found"), "{said}");
        }
    }

    #[test]
    fn the_typeface_is_embedded_in_part() {
        if let Some(said) = told_by("pdffonts", &[], &[]) {
            for face in ["SourceSans3-Regular", "SourceSans3-Bold"] {
                let line = said.lines().find(|line| line.contains(face)).expect(face);
                let words: Vec<&str> = line.split_whitespace().collect();
                // name, type (three words), encoding, embedded, subset, Unicode.
                assert_eq!(&words[1..8], &["CID", "TrueType", "Identity-H", "yes", "yes", "yes", words[7]], "{said}");
            }
        }
    }

    #[test]
    fn its_text_can_be_read_back() {
        if let Some(said) = told_by("pdftotext", &[], &["-"]) {
            assert!(said.contains("1½ × 2 <in>") && said.contains("Möwe → B3"), "{said}");
        }
    }

    #[test]
    fn its_pages_are_of_the_exact_size() {
        if let Some(said) = told_by("pdfinfo", &[], &[]) {
            assert!(said.contains("612 x 792 pts (letter)") && said.contains("Pages:           2"), "{said}");
            assert!(said.contains("Tern Point Sewing Circle"), "{said}");
        }
    }
}
