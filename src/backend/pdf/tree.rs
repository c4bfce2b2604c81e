//! The object tree: what printpdf makes of the pages, with our own contents and what it has no words for.

use std::collections::BTreeSet;
use std::io;

use lopdf::{Dictionary, Document, Object, ObjectId, Stream, StringFormat};
use printpdf::{PdfDocument, PdfPage, PdfSaveOptions, Pt, Rect};

use super::content::{Content, layer_name, photo_name};
use super::fonts::Faces;
use super::navigation::{Places, add_bookmarks, labels};
use super::photos::Photos;
use super::{DocumentFacts, LayerNames, PdfFault, numbering, single, streams, words};
use crate::packet::leaf::Leaf;
use crate::packet::page::Layer;

/// The whole tree, ready to be written.
pub(super) fn object_tree(leaves: &[Leaf], facts: &DocumentFacts) -> Result<Document, PdfFault> {
    let (faces, photos) = (Faces::of(leaves), Photos::of(leaves)?);
    let contents = streams::contents(leaves, &faces, &photos)?;
    let mut tree = skeleton(leaves, &faces)?;
    let pages: Vec<ObjectId> = tree.page_iter().collect();
    let unused = unused_resources(&tree, &pages);
    let photos = photos.embed(&mut tree);
    let layers = Layers::add(&mut tree, &contents, &facts.layers);
    let places = Places::of(leaves, &pages);
    for ((leaf, &page), content) in leaves.iter().zip(&pages).zip(contents) {
        let links = places.add_links(&mut tree, leaf)?;
        dress(&mut tree, page, content, links, &layers, &photos);
    }
    let outline = add_bookmarks(&mut tree, leaves, &pages);
    let catalog = tree.catalog_mut().map_err(|reason| PdfFault::Writing(reason.to_string()))?;
    catalog.set("ViewerPreferences", viewer_preferences());
    catalog.set("Lang", words(&facts.language));
    if !leaves.is_empty() {
        catalog.set("PageLabels", labels(leaves));
    }
    if let Some(outline) = outline {
        catalog.set("Outlines", outline);
        catalog.set("PageMode", Object::from("UseOutlines"));
    }
    if let Some(places) = places.named() {
        catalog.set("Names", places);
    }
    if let Some(properties) = layers.properties() {
        catalog.set("OCProperties", properties);
    }
    if let Ok(info) = tree.trailer.get(b"Info").and_then(Object::as_reference) {
        tree.set_object(info, information(facts));
    }
    // Layers ask for 1.5.
    "1.7".clone_into(&mut tree.version);
    numbering::remove(&mut tree, &unused);
    identify(&mut tree)?;
    Ok(tree)
}

/// printpdf's document: pages of the right sizes, the typeface, and on the first page each letter once, until our own contents take its place.
fn skeleton(leaves: &[Leaf], faces: &Faces) -> Result<Document, PdfFault> {
    let mut document = PdfDocument::new("");
    document.resources.fonts = faces.embedded()?;
    let pages = leaves.iter().map(|leaf| {
        let (width, height) = (leaf.page.width.to_points(), leaf.page.height.to_points());
        let sheet = Rect {
            x: Pt(0.0),
            y: Pt(0.0),
            width: Pt(single(width)),
            height: Pt(single(height)),
            mode: None,
            winding_order: None,
        };
        PdfPage { media_box: sheet.clone(), trim_box: sheet.clone(), crop_box: sheet, ops: Vec::new() }
    });
    document.pages = pages.collect();
    if let Some(first) = document.pages.first_mut() {
        first.ops = faces.specimen();
    }
    let options = PdfSaveOptions { optimize: false, subset_fonts: false, secure: true, image_optimization: None };
    let mut tree = document.to_lopdf_document(&options, &mut Vec::new());
    for object in tree.objects.values_mut() {
        if let Object::Stream(stream) = object {
            compress(stream);
        }
    }
    Ok(tree)
}

/// Compresses a stream that is not yet.
fn compress(stream: &mut Stream) {
    if stream.allows_compression && !stream.content.is_empty() && !stream.dict.has(b"Filter") {
        let content = streams::deflated(&stream.content);
        stream.dict.set("Filter", Object::from("FlateDecode"));
        stream.set_content(content);
        stream.allows_compression = false;
    }
}

/// What printpdf lists for all pages together and ours do not use.
fn unused_resources(tree: &Document, pages: &[ObjectId]) -> Vec<ObjectId> {
    let resources = pages.first().and_then(|&page| tree.get_dictionary(page).ok()?.get(b"Resources").ok());
    let resources = resources.and_then(|resources| tree.get_dictionary(resources.as_reference().ok()?).ok());
    let kinds = ["XObject", "ExtGState", "Shading"].iter();
    kinds.filter_map(|kind| resources?.get(kind.as_bytes()).ok()?.as_reference().ok()).collect()
}

/// Gives a page its content, its resources and its links.
fn dress(
    tree: &mut Document,
    page: ObjectId,
    content: Content,
    links: Vec<Object>,
    layers: &Layers,
    photos: &[ObjectId],
) {
    let Ok(dictionary) = tree.get_dictionary(page) else { return };
    let reference = |key: &[u8]| dictionary.get(key).and_then(Object::as_reference);
    let (Ok(stream), Ok(old)) = (reference(b"Contents"), reference(b"Resources")) else { return };
    let mut resources = Dictionary::new();
    if let Ok(fonts) = tree.get_dictionary(old).and_then(|old| old.get(b"Font")) {
        resources.set("Font", fonts.clone());
    }
    let shown = content.photos.iter().filter_map(|&number| Some((photo_name(number), photos.get(number)?)));
    let shown: Dictionary = shown.map(|(name, &id)| (name, Object::from(id))).collect();
    if !shown.is_empty() {
        resources.set("XObject", shown);
    }
    let used = layers.0.iter().filter(|group| content.layers.contains(&group.layer));
    let used: Dictionary = used.filter_map(|group| Some((layer_name(group.layer)?, Object::from(group.id)))).collect();
    if !used.is_empty() {
        resources.set("Properties", used);
    }
    tree.set_object(old, resources);
    let filter = Dictionary::from_iter([("Filter", Object::from("FlateDecode"))]);
    tree.set_object(stream, Stream::new(filter, content.operators).with_compression(false));
    if let Ok(page) = tree.get_dictionary_mut(page) {
        if links.is_empty() {
            page.remove(b"Annots");
        } else {
            page.set("Annots", links);
        }
    }
}

/// The layers that are drawn in, in the order of a viewer's list.
struct Layers(Vec<Group>);

struct Group {
    layer: Layer,
    id: ObjectId,
}

impl Layers {
    fn add(tree: &mut Document, contents: &[Content], names: &LayerNames) -> Self {
        let used: BTreeSet<Layer> = contents.iter().flat_map(|content| content.layers.iter().copied()).collect();
        let groups = used.into_iter().filter_map(|layer| {
            let group = Dictionary::from_iter([("Type", Object::from("OCG")), ("Name", words(names.of(layer)?))]);
            Some(Group { layer, id: tree.add_object(group) })
        });
        Self(groups.collect())
    }

    /// All of them, on to begin with.
    fn properties(&self) -> Option<Dictionary> {
        if self.0.is_empty() {
            return None;
        }
        let all = || Object::Array(self.0.iter().map(|group| group.id.into()).collect());
        let shown = Dictionary::from_iter([("BaseState", Object::from("ON")), ("ON", all()), ("Order", all())]);
        Some(Dictionary::from_iter([("OCGs", all()), ("D", shown.into())]))
    }
}

/// Printed at the size it has, on paper of that size.
fn viewer_preferences() -> Dictionary {
    Dictionary::from_iter([
        ("PrintScaling", Object::from("None")),
        ("DisplayDocTitle", true.into()),
        ("PickTrayByPDFSize", true.into()),
    ])
}

/// What the document says of itself: no dates, which would differ from run to run.
fn information(facts: &DocumentFacts) -> Dictionary {
    const MAKER: &str = concat!("piecewright ", env!("CARGO_PKG_VERSION"));
    let mut information = Dictionary::from_iter([("Title", words(&facts.title))]);
    let keywords = (!facts.keywords.is_empty()).then(|| facts.keywords.join(", "));
    for (key, fact) in [("Author", &facts.author), ("Subject", &facts.subject), ("Keywords", &keywords)] {
        if let Some(fact) = fact {
            information.set(key, words(fact));
        }
    }
    information.set("Creator", words(MAKER));
    information.set("Producer", words(MAKER));
    information
}

// Writing.

/// Sets the identifier of the file from what is in it.
fn identify(tree: &mut Document) -> Result<(), PdfFault> {
    tree.trailer.remove(b"ID");
    let mut digest = Digest::default();
    tree.save_to(&mut digest).map_err(|reason| PdfFault::Writing(reason.to_string()))?;
    let identifier = Object::String(digest.0.to_be_bytes().to_vec(), StringFormat::Hexadecimal);
    tree.trailer.set("ID", vec![identifier.clone(), identifier]);
    Ok(())
}

pub(super) fn bytes_of(tree: &mut Document) -> Result<Vec<u8>, PdfFault> {
    let mut bytes = Vec::new();
    tree.save_to(&mut bytes).map_err(|reason| PdfFault::Writing(reason.to_string()))?;
    Ok(bytes)
}

/// FNV-1a of 128 bits: to tell contents apart, not to keep secrets.
struct Digest(u128);

impl Default for Digest {
    fn default() -> Self {
        Self(0x6c62_272e_07bb_0142_62b8_2175_6295_c58d)
    }
}

impl Digest {
    fn add(&mut self, bytes: &[u8]) {
        const PRIME: u128 = 0x0000_0000_0100_0000_0000_0000_0000_013b;
        self.0 = bytes.iter().fold(self.0, |hash, &byte| (hash ^ u128::from(byte)).wrapping_mul(PRIME));
    }
}

impl io::Write for Digest {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.add(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// What tells bytes apart from others.
pub(super) fn hash(bytes: &[u8]) -> u128 {
    let mut digest = Digest::default();
    digest.add(bytes);
    digest.0
}
