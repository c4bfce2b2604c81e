//! A document made by hand, with everything that a packet may hold.

use std::fs;
use std::path::Path as FilePath;
use std::sync::Arc;

use lopdf::{Document, Object};
use piecewright::backend::pdf::{DocumentFacts, LayerNames, PdfFault, draw};
use piecewright::geometry::{Length, Point};
use piecewright::packet::leaf::{Bookmark, Leaf, Link, Place, Target};
use piecewright::packet::page::{Colour, FillRule, Item, Layer, Page, Path, Photo, Text, Weight, Window};
use piecewright::picture::{Pixels, Raster};

use crate::support::tools::{self, told_by, told_nothing};
use crate::tree::{self, Shown};

/// A grey JPEG of eight by eight pixels, black above and white below.
const GREY: [u8; 164] = [
    0xff, 0xd8, 0xff, 0xe0, 0x00, 0x10, 0x4a, 0x46, 0x49, 0x46, 0x00, 0x01, 0x01, 0x00, 0x00, 0x01, 0x00, 0x01, 0x00,
    0x00, 0xff, 0xdb, 0x00, 0x43, 0x00, 0x1b, 0x12, 0x14, 0x17, 0x14, 0x11, 0x1b, 0x17, 0x16, 0x17, 0x1e, 0x1c, 0x1b,
    0x20, 0x28, 0x42, 0x2b, 0x28, 0x25, 0x25, 0x28, 0x51, 0x3a, 0x3d, 0x30, 0x42, 0x60, 0x55, 0x65, 0x64, 0x5f, 0x55,
    0x5d, 0x5b, 0x6a, 0x78, 0x99, 0x81, 0x6a, 0x71, 0x90, 0x73, 0x5b, 0x5d, 0x85, 0xb5, 0x86, 0x90, 0x9e, 0xa3, 0xab,
    0xad, 0xab, 0x67, 0x80, 0xbc, 0xc9, 0xba, 0xa6, 0xc7, 0x99, 0xa8, 0xab, 0xa4, 0xff, 0xc0, 0x00, 0x0b, 0x08, 0x00,
    0x08, 0x00, 0x08, 0x01, 0x01, 0x11, 0x00, 0xff, 0xc4, 0x00, 0x14, 0x00, 0x01, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00,
    0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0xff, 0xc4, 0x00, 0x17, 0x10, 0x00, 0x03, 0x01, 0x00,
    0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x16, 0x62, 0xa1, 0xff, 0xda, 0x00,
    0x08, 0x01, 0x01, 0x00, 0x00, 0x3f, 0x00, 0x2f, 0x46, 0x1f, 0xff, 0xd9,
];

const LAYERS: [Layer; 4] = [Layer::Fabric, Layer::Seams, Layer::Cutting, Layer::Marks];

fn facts() -> DocumentFacts {
    DocumentFacts {
        title: "Sturmmöwe (an “example”)".to_owned(),
        author: Some("Tern Point Sewing Circle".to_owned()),
        subject: Some("edition 1.2".to_owned()),
        keywords: vec!["gull".to_owned(), "foundation".to_owned()],
        language: "en".to_owned(),
        layers: LayerNames {
            fabric: "Fabrics".to_owned(),
            seams: "Nähte".to_owned(),
            cutting: "Cutting lines".to_owned(),
            marks: "Marks".to_owned(),
        },
    }
}

/// A black square of an inch.
fn square(x: f64, y: f64, layer: Layer) -> Item {
    let corners = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)].map(|(a, b)| Point::new(x + a, y + b));
    Path::area(&corners, Some(Colour::BLACK), None, layer).into()
}

fn leaf(label: &str, items: Vec<Item>) -> Leaf {
    let page = Page {
        width: Length::inches(6.0),
        height: Length::inches(8.0),
        title: label.to_owned(),
        description: String::new(),
        items,
    };
    Leaf { page, label: label.to_owned(), bookmarks: Vec::new(), places: Vec::new(), links: Vec::new() }
}

/// A square of an inch in each layer, half an inch from the left, one above the other; those on the right through a window half an inch wide.
fn layered() -> Leaf {
    let mut items: Vec<Item> =
        (0..4_u8).map(|k| square(0.5, 0.5 + 1.5 * f64::from(k), LAYERS[usize::from(k)])).collect();
    items.push(Item::Window(Window {
        corner: Point::new(3.0, 0.0),
        width: Length::inches(0.5),
        height: Length::inches(8.0),
        items: (0..4_u8).map(|k| square(3.0, 0.5 + 1.5 * f64::from(k), LAYERS[usize::from(k)])).collect(),
    }));
    leaf("cover", items)
}

fn leaves() -> Vec<Leaf> {
    let bookmark = |depth, title: &str, y| Bookmark { depth, title: title.to_owned(), at: Point::new(0.0, y) };
    let link = |target| Link { from: Point::new(1.0, 1.0), to: Point::new(3.0, 1.25), target };
    let words = |y, words: &str| Item::from(Text::line(Point::new(1.0, y), words, 11.0, Weight::Regular));
    let mut leaves = vec![layered()];
    leaves[0].bookmarks = vec![bookmark(1, "Cover", 0.0), bookmark(3, "Tern → “gull”", 1.0), bookmark(2, "Facts", 2.0)];
    let mut steps = leaf("2", vec![words(1.2, "Sew B3 ½ in from (the) edge \\ of the möwe")]);
    steps.bookmarks = vec![bookmark(1, "Steps", 0.0), bookmark(2, "Unit A", 1.0), bookmark(2, "Unit B", 4.0)];
    steps.places = vec![(Place::numbered("step", &[1]), Point::new(0.0, 1.0))];
    steps.links = vec![
        link(Target::Place(Place::new("sheet-1"))),
        link(Target::Address("https://tern-point.example/Möwe(1)?a=b c".to_owned())),
    ];
    let mut sheet = leaf("Sheet 1", vec![words(2.0, "Sheet 1")]);
    sheet.bookmarks = vec![bookmark(1, "Sheet 1", 0.0)];
    sheet.places = vec![(Place::new("sheet-1"), Point::new(0.5, 0.5))];
    sheet.links = vec![link(Target::Place(Place::numbered("step", &[1])))];
    leaves.extend([steps, leaf("3", vec![words(1.0, "three")]), sheet, leaf("Sheet 2", Vec::new())]);
    leaves
}

fn file(name: &str, bytes: &[u8]) -> std::path::PathBuf {
    let file = tools::folder(name).join("made.pdf");
    fs::write(&file, bytes).expect("a file to look at");
    file
}

/// The grey of the pixels of a file's first page at 36 pixels an inch, and how many stand in a row.
fn pixels(tool: &str, file: &FilePath) -> Option<(Vec<u8>, usize)> {
    let folder = file.parent().unwrap();
    let output = folder.join(format!("{tool}.pgm"));
    let there = if tool == "mutool" {
        told_nothing(tool, &["draw", "-q", "-r", "36", "-c", "gray", "-o", output.to_str().unwrap()], file, &["1"])
    } else {
        let prefix = folder.join(tool);
        told_nothing(tool, &["-r", "36", "-gray", "-f", "1", "-singlefile"], file, &[prefix.to_str().unwrap()])
    };
    there.then(|| {
        let bytes = fs::read(output).expect("a picture");
        let width = 6 * 36;
        (bytes[bytes.len() - width * 8 * 36..].to_vec(), width)
    })
}

fn is_dark(pixels: &(Vec<u8>, usize), x: f64, y: f64) -> bool {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a place on the page")]
    let [column, row] = [x, y].map(|inches| (inches * 36.0) as usize);
    pixels.0[row * pixels.1 + column] < 128
}

#[test]
fn it_is_sound_and_shows_what_it_says() {
    let bytes = draw(&leaves(), &facts()).unwrap();
    assert_eq!(bytes, draw(&leaves(), &facts()).unwrap());
    let file = file("made", &bytes);
    if let Some(said) = told_by("qpdf", &["--check"], &file, &[]) {
        assert!(said.contains("No syntax or stream encoding errors found"), "{said}");
    }
    if let Some(said) = told_by("pdfinfo", &[], &file, &[]) {
        for words in ["Sturmmöwe (an “example”)", "Tern Point Sewing Circle", "edition 1.2", "gull, foundation"] {
            assert!(said.contains(words), "{said}");
        }
        assert!(!said.contains("Date:"), "{said}");
    }
    if let Some(said) = told_by("pdftotext", &["-raw"], &file, &["-"]) {
        assert!(said.contains("Sew B3 ½ in from (the) edge \\ of the möwe"), "{said}");
    }
    if let Some(said) = told_by("mutool", &["show"], &file, &["outline"]) {
        let titles = ["Cover", "Tern → “gull”", "Facts", "Steps", "Unit A", "Unit B", "Sheet 1"];
        let places: Vec<_> = titles.iter().map(|title| said.find(title).unwrap_or_else(|| panic!("{said}"))).collect();
        assert!(places.is_sorted(), "{said}");
    }
}

#[test]
fn its_bookmarks_nest_and_its_labels_and_ways_are_those_of_the_leaves() {
    let tree = Document::load_mem(&draw(&leaves(), &facts()).unwrap()).unwrap();
    tree::assert_ways_lead_somewhere("made by hand", &tree);
    let shown = |depth, title: &str, page| Shown { depth, title: title.to_owned(), page };
    let expected = [
        shown(1, "Cover", 0),
        shown(2, "Tern → “gull”", 0),
        shown(2, "Facts", 0),
        shown(1, "Steps", 1),
        shown(2, "Unit A", 1),
        shown(2, "Unit B", 1),
        shown(1, "Sheet 1", 3),
    ];
    assert_eq!(tree::bookmarks(&tree), expected);
    assert_eq!(tree::labels(&tree), ["cover", "2", "3", "Sheet 1", "Sheet 2"]);
    let links: Vec<usize> = tree::links(&tree).iter().map(Vec::len).collect();
    assert_eq!(links, [0, 2, 0, 1, 0]);
    let page = tree.page_iter().next().unwrap();
    tree::assert_layers_are_those_of("made by hand", &tree, page, &leaves()[0].page);
}

#[test]
fn a_link_into_nothing_is_a_fault() {
    let mut leaves = leaves();
    leaves[3].places.clear();
    assert_eq!(draw(&leaves, &facts()), Err(PdfFault::LostPlace("sheet-1".to_owned())));
}

#[test]
fn a_layer_that_is_switched_off_is_not_seen_and_the_others_are() {
    let bytes = draw(&[layered()], &facts()).unwrap();
    for tool in ["pdftoppm", "mutool"] {
        for off in [None, Some(0), Some(1), Some(2), Some(3)] {
            let mut tree = Document::load_mem(&bytes).unwrap();
            assert_eq!(tree::layers(&tree), ["Fabrics", "Nähte", "Cutting lines", "Marks"]);
            let properties = tree.catalog_mut().unwrap().get_mut(b"OCProperties").unwrap().as_dict_mut().unwrap();
            let groups = properties.get(b"OCGs").unwrap().as_array().unwrap().clone();
            let shown = properties.get_mut(b"D").unwrap().as_dict_mut().unwrap();
            shown.remove(b"ON");
            let hidden = off.map(|k: usize| groups[k].clone());
            shown.set("OFF", Object::Array(hidden.into_iter().collect()));
            let mut switched = Vec::new();
            tree.save_to(&mut switched).unwrap();
            let Some(seen) = pixels(tool, &file(&format!("layers-{tool}"), &switched)) else { continue };
            for (k, y) in [1.0, 2.5, 4.0, 5.5].into_iter().enumerate() {
                assert_eq!(is_dark(&seen, 1.0, y), off != Some(k), "{tool}: square {k} without {off:?}");
                assert_eq!(is_dark(&seen, 3.25, y), off != Some(k), "{tool}: window {k} without {off:?}");
                assert!(!is_dark(&seen, 3.75, y), "{tool}: beside the window");
            }
        }
    }
}

#[test]
fn photographs_lie_upright_in_their_place() {
    let photo = |x: f64, pixels, size| {
        let raster = Raster { width: size, height: size, pixels };
        let (width, height) = (Length::inches(2.0), Length::inches(2.0));
        Item::Photo(Photo { corner: Point::new(x, 1.0), width, height, raster: Arc::new(raster) })
    };
    let jpeg = Pixels::Jpeg { file: GREY.to_vec(), colour: false };
    // Black, white; white, white.
    let rgb = Pixels::Rgb([[0; 3], [255; 3], [255; 3], [255; 3]].concat());
    let bytes = draw(&[leaf("1", vec![photo(0.5, jpeg, 8), photo(3.5, rgb, 2)])], &facts()).unwrap();
    for tool in ["pdftoppm", "mutool"] {
        let Some(seen) = pixels(tool, &file(&format!("photos-{tool}"), &bytes)) else { continue };
        assert!(is_dark(&seen, 1.5, 1.2) && !is_dark(&seen, 1.5, 2.8), "{tool}: black above, white below");
        assert!(is_dark(&seen, 3.7, 1.2), "{tool}: the upper left pixel");
        assert!(!is_dark(&seen, 5.3, 1.2) && !is_dark(&seen, 3.7, 2.8), "{tool}: the others");
    }
}

#[test]
fn a_star_is_filled_by_its_rule() {
    let tip = |k: u32| {
        let angle = f64::from(k) * 4.0 * std::f64::consts::PI / 5.0;
        Point::new(3.0 + 2.0 * libm::sin(angle), 4.0 - 2.0 * libm::cos(angle))
    };
    let corners: Vec<Point> = (0..5).map(tip).collect();
    let star = Path::area(&corners, Some(Colour::BLACK), None, Layer::Page);
    for (rule, middle) in [(FillRule::EvenOdd, false), (FillRule::NonZero, true)] {
        let page = leaf("1", vec![star.clone().filled_by(rule).into()]);
        let bytes = draw(std::slice::from_ref(&page), &facts()).unwrap();
        for tool in ["pdftoppm", "mutool"] {
            let Some(seen) = pixels(tool, &file(&format!("star-{tool}"), &bytes)) else { continue };
            assert_eq!(is_dark(&seen, 3.0, 4.0), middle, "{tool}: {rule:?}");
            assert!(is_dark(&seen, 3.0, 2.5), "{tool}: a point of the star");
        }
        let drawing = piecewright::backend::svg::draw(&page.page);
        assert_eq!(drawing.contains("evenodd"), !middle, "{drawing}");
    }
}
