//! The object tree of a document, walked as a viewer would.

use std::collections::BTreeSet;

use lopdf::{Dictionary, Document, Object, ObjectId};
use piecewright::packet::page::{Item, Layer, Page};

/// A bookmark as a viewer shows it.
#[derive(Debug, PartialEq, Eq)]
pub struct Shown {
    /// 1 for those that are seen at first.
    pub depth: usize,
    pub title: String,
    /// The page that it leads to, from 0.
    pub page: usize,
}

pub fn get<'t>(tree: &'t Document, dictionary: &'t Dictionary, key: &str) -> Option<&'t Object> {
    let object = dictionary.get(key.as_bytes()).ok()?;
    Some(tree.dereference(object).expect("an object that is there").1)
}

fn at<'t>(tree: &'t Document, path: &[&str]) -> Option<&'t Object> {
    let mut object: Option<&Object> = None;
    for key in path {
        let inside = object.map_or_else(|| tree.catalog().unwrap(), |object| object.as_dict().unwrap());
        object = Some(get(tree, inside, key)?);
    }
    object
}

fn text(object: &Object) -> String {
    lopdf::decode_text_string(object).expect("words")
}

fn number(object: &Object) -> f32 {
    object.as_float().expect("a number")
}

/// The page of a destination, from 0; it must lie on that page.
fn page_of(tree: &Document, destination: &Object) -> usize {
    let parts = destination.as_array().expect("a destination");
    let page = parts[0].as_reference().expect("a page");
    assert_eq!(parts[1].as_name().unwrap(), b"XYZ");
    let sheet = tree.get_dictionary(page).unwrap().get(b"MediaBox").unwrap().as_array().unwrap();
    let (left, top) = (number(&parts[2]), number(&parts[3]));
    assert!((0.0..=number(&sheet[2])).contains(&left) && (0.0..=number(&sheet[3])).contains(&top), "{parts:?}");
    tree.page_iter().position(|known| known == page).expect("a page of this document")
}

/// All bookmarks, parents before children.
pub fn bookmarks(tree: &Document) -> Vec<Shown> {
    let mut shown = Vec::new();
    if let Some(outlines) = at(tree, &["Outlines"]) {
        let root = tree.catalog().unwrap().get(b"Outlines").unwrap().as_reference().unwrap();
        let count = gather(tree, root, outlines.as_dict().unwrap(), 1, &mut shown);
        assert_eq!(outlines.as_dict().unwrap().get(b"Count").unwrap().as_i64().unwrap(), count);
    }
    shown
}

/// Gathers what hangs under a bookmark; how many that are.
fn gather(tree: &Document, parent: ObjectId, above: &Dictionary, depth: usize, shown: &mut Vec<Shown>) -> i64 {
    let (mut next, mut before, mut count) = (above.get(b"First").ok(), None, 0);
    while let Some(object) = next {
        let id = object.as_reference().unwrap();
        let entry = tree.get_dictionary(id).unwrap();
        assert_eq!(entry.get(b"Parent").unwrap().as_reference().unwrap(), parent);
        assert_eq!(entry.get(b"Prev").ok().map(|id| id.as_reference().unwrap()), before);
        let page = page_of(tree, entry.get(b"Dest").unwrap());
        shown.push(Shown { depth, title: text(entry.get(b"Title").unwrap()), page });
        let under = gather(tree, id, entry, depth + 1, shown);
        let closed = entry.get(b"Count").map_or(0, |count| count.as_i64().unwrap());
        assert_eq!(closed, -under, "what lies deeper is closed at first");
        (before, count) = (Some(id), count + 1);
        next = entry.get(b"Next").ok();
    }
    assert_eq!(above.get(b"Last").ok().map(|id| id.as_reference().unwrap()), before);
    count
}

/// The label of each page.
pub fn labels(tree: &Document) -> Vec<String> {
    let ranges = at(tree, &["PageLabels", "Nums"]).expect("page labels").as_array().unwrap();
    let start = |range: &[Object]| usize::try_from(range[0].as_i64().unwrap()).unwrap();
    let of_page = |page: usize| {
        let range = ranges.chunks(2).rfind(|range| start(range) <= page).expect("a range from the first page on");
        let label = range[1].as_dict().unwrap();
        let mut words = get(tree, label, "P").map(text).unwrap_or_default();
        if let Some(style) = get(tree, label, "S") {
            assert_eq!(style.as_name().unwrap(), b"D");
            let first = usize::try_from(label.get(b"St").unwrap().as_i64().unwrap()).unwrap();
            words.push_str(&(first + page - start(range)).to_string());
        }
        words
    };
    (0..tree.page_iter().count()).map(of_page).collect()
}

/// Every link and every place by name leads to a page, every address is one.
pub fn assert_ways_lead_somewhere(name: &str, tree: &Document) {
    let places = at(tree, &["Names", "Dests", "Names"]).map_or(&[][..], |names| names.as_array().unwrap());
    let names: Vec<&[u8]> = places.iter().step_by(2).map(|name| name.as_str().unwrap()).collect();
    assert!(names.is_sorted_by(|a, b| a < b), "{name}: viewers look names up by halves");
    for place in places.iter().skip(1).step_by(2) {
        page_of(tree, place);
    }
    for link in links(tree).iter().flatten() {
        let area = link.get(b"Rect").unwrap().as_array().unwrap();
        assert!(number(&area[0]) < number(&area[2]) && number(&area[1]) < number(&area[3]), "{name}: {link:?}");
        if let Some(place) = get(tree, link, "Dest") {
            assert!(names.contains(&place.as_str().unwrap()), "{name}: {link:?}");
        } else {
            let action = link.get(b"A").unwrap().as_dict().unwrap();
            assert!(action.get(b"URI").unwrap().as_str().unwrap().is_ascii(), "{name}: {link:?}");
        }
    }
    bookmarks(tree);
}

/// The links of each page.
pub fn links(tree: &Document) -> Vec<Vec<&Dictionary>> {
    let of_page = |page| {
        let links = get(tree, tree.get_dictionary(page).unwrap(), "Annots");
        let links = links.map_or(&[][..], |links| links.as_array().unwrap());
        links.iter().map(|link| tree.dereference(link).unwrap().1.as_dict().unwrap()).collect()
    };
    tree.page_iter().map(of_page).collect()
}

/// The names of the layers, in the order of a viewer's list.
pub fn layers(tree: &Document) -> Vec<String> {
    let groups = at(tree, &["OCProperties", "D", "Order"]).expect("layers").as_array().unwrap();
    groups
        .iter()
        .map(|group| text(get(tree, tree.dereference(group).unwrap().1.as_dict().unwrap(), "Name").unwrap()))
        .collect()
}

/// Layers open and close one by one, within windows that open and close; what a page opens it has by name; it opens what is drawn in layers.
pub fn assert_layers_are_those_of(name: &str, tree: &Document, page: ObjectId, drawn: &Page) {
    let content = tree.get_page_content(page);
    let content = String::from_utf8_lossy(&content).into_owned();
    let (mut open, mut opened, mut windows) = (None, BTreeSet::new(), Vec::new());
    for line in content.lines() {
        if let Some(layer) = line.strip_prefix("/OC /").and_then(|line| line.strip_suffix(" BDC")) {
            assert_eq!(open, None, "{name}: layers do not lie in each other");
            open = Some(layer.to_owned());
            opened.insert(layer.to_owned());
        } else if line == "EMC" {
            assert!(open.take().is_some(), "{name}: only what is open closes");
        } else if line.starts_with("q ") && !line.ends_with(" Q") {
            windows.push(open.clone());
        } else if line == "Q" {
            assert_eq!(windows.pop(), Some(open.clone()), "{name}: a window closes in the layer in which it opened");
        }
    }
    assert!(open.is_none() && windows.is_empty(), "{name}: all that opens closes");
    let resources = get(tree, tree.get_dictionary(page).unwrap(), "Resources").unwrap().as_dict().unwrap();
    let named: BTreeSet<String> = get(tree, resources, "Properties")
        .map(|named| {
            named.as_dict().unwrap().iter().map(|(name, _)| String::from_utf8(name.clone()).unwrap()).collect()
        })
        .unwrap_or_default();
    let mut expected = BTreeSet::new();
    gather_layers(&drawn.items, &mut expected);
    assert_eq!(opened, named, "{name}");
    assert_eq!(opened, expected, "{name}");
}

fn gather_layers(items: &[Item], found: &mut BTreeSet<String>) {
    for item in items {
        let layer = match item {
            Item::Path(path) if path.fill.is_none() && path.stroke.is_none() => continue,
            Item::Path(path) if path.subpaths.is_empty() => continue,
            Item::Path(path) => path.layer,
            Item::Text(text) => text.layer,
            Item::Window(window) => {
                gather_layers(&window.items, found);
                continue;
            }
            Item::Photo(_) => continue,
        };
        if layer != Layer::Page {
            found.insert(format!("{layer:?}"));
        }
    }
}
