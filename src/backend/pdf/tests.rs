//! What other programs, and the object tree itself, say of a document with one of everything.

use std::path::Path as FilePath;
use std::process::Command;
use std::sync::Arc;

use lopdf::{Document, Object};

use super::{DocumentFacts, LayerNames, PdfFault, draw, object_tree, real};
use crate::backend::tests::sample_page;
use crate::geometry::{Length, Point};
use crate::packet::leaf::{Bookmark, Leaf, Link, Place, Target};
use crate::packet::page::{Colour, FillRule, Item, Layer, Path, Photo};
use crate::picture::{Pixels, Raster};

fn facts() -> DocumentFacts {
    DocumentFacts {
        title: "Storm Lantern".to_owned(),
        author: Some("Tern Point Sewing Circle".to_owned()),
        subject: None,
        keywords: vec!["lantern".to_owned(), "Möwe".to_owned()],
        language: "en".to_owned(),
        layers: LayerNames {
            fabric: "Fabrics".to_owned(),
            seams: "Nähte".to_owned(),
            cutting: "Cutting lines".to_owned(),
            marks: "Marks".to_owned(),
        },
    }
}

fn leaf(label: &str) -> Leaf {
    Leaf {
        page: sample_page(),
        label: label.to_owned(),
        bookmarks: vec![Bookmark { depth: 1, title: "Gulls & Möwen".to_owned(), at: Point::new(0.5, 1.0) }],
        places: Vec::new(),
        links: Vec::new(),
    }
}

fn raster() -> Raster {
    Raster { width: 2, height: 1, pixels: Pixels::Rgb(vec![255, 0, 0, 0, 0, 255]) }
}

fn photo(raster: &Arc<Raster>) -> Item {
    Item::Photo(Photo {
        corner: Point::new(6.0, 8.0),
        width: Length::inches(1.0),
        height: Length::inches(0.5),
        raster: Arc::clone(raster),
    })
}

/// What a tool says of the document, or nothing where the tool is not installed.
fn told_by(tool: &str, before: &[&str], after: &[&str]) -> Option<String> {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("packet.pdf");
    std::fs::write(&file, draw(&[leaf("1"), leaf("2")], &facts()).unwrap()).unwrap();
    let Ok(output) = Command::new(tool).args(before).arg::<&FilePath>(&file).args(after).output() else {
        eprintln!("{tool} is not installed: its view of the document was not tested");
        return None;
    };
    assert!(output.status.success(), "{tool}: {output:?}");
    Some(String::from_utf8_lossy(&output.stdout).into_owned())
}

fn tree(leaves: &[Leaf]) -> Document {
    object_tree(leaves, &facts()).unwrap()
}

/// The operators of a page.
fn operators(tree: &Document, page: usize) -> String {
    let page = tree.page_iter().nth(page).unwrap();
    String::from_utf8_lossy(&tree.get_page_content(page)).into_owned()
}

#[test]
fn the_same_leaves_give_the_same_bytes() {
    let leaves = [leaf("1"), leaf("2"), leaf("3")];
    assert_eq!(draw(&leaves, &facts()).unwrap(), draw(&leaves, &facts()).unwrap());
    let mut other = leaf("1");
    other.bookmarks.clear();
    assert_ne!(draw(&leaves, &facts()).unwrap(), draw(&[other], &facts()).unwrap());
}

#[test]
fn the_object_tree_has_no_dates_and_prints_at_size() {
    let mut tree = tree(&[leaf("1")]);
    let written = format!("{tree:?}");
    assert!(!written.contains("CreationDate") && !written.contains("ModDate"), "{written}");
    let catalog = tree.catalog().unwrap();
    let viewer = catalog.get(b"ViewerPreferences").unwrap().as_dict().unwrap();
    assert_eq!(viewer.get(b"PrintScaling").unwrap().as_name().unwrap(), b"None");
    assert_eq!(tree.version, "1.7");
    assert_eq!(tree.max_id as usize, tree.objects.len(), "no number is left out");
    assert_eq!(tree.prune_objects(), [], "nothing is written that nothing refers to");
}

#[test]
fn words_are_in_the_encoding_of_pdf() {
    let tree = tree(&[leaf("1")]);
    let info = tree.trailer.get(b"Info").and_then(Object::as_reference).unwrap();
    let info = tree.get_dictionary(info).unwrap();
    assert_eq!(info.get(b"Title").unwrap().as_str().unwrap(), b"Storm Lantern");
    assert!(info.get(b"Keywords").unwrap().as_str().unwrap().starts_with(b"\xfe\xff\0l\0a"));
    assert_eq!(lopdf::decode_text_string(info.get(b"Keywords").unwrap()).unwrap(), "lantern, Möwe");
    assert!(!info.has(b"Subject"));
}

#[test]
fn numbers_are_rounded_and_finite() {
    assert_eq!(real(-0.000_01), Object::Real(0.0));
    assert_eq!(real(f64::NAN), Object::Real(0.0));
    assert_eq!(real(0.123_449), Object::Real(0.123));
}

#[test]
fn layers_open_and_close_within_windows() {
    let tree = tree(&[leaf("1")]);
    let content = operators(&tree, 0);
    let (mut open, mut windows) = (false, Vec::new());
    for line in content.lines() {
        match line {
            line if line.ends_with(" BDC") => {
                assert!(!open, "layers do not lie in each other: {content}");
                open = true;
            }
            "EMC" => {
                assert!(open, "{content}");
                open = false;
            }
            line if line.starts_with("q ") => windows.push(open),
            "Q" => assert_eq!(windows.pop(), Some(open), "{content}"),
            _ => {}
        }
    }
    assert!(!open && windows.is_empty(), "{content}");
    for layer in ["Fabric", "Seams", "Marks", "Cutting"] {
        assert_eq!(content.matches(&format!("/OC /{layer} BDC")).count(), 1, "{content}");
    }
    let properties = tree.catalog().unwrap().get(b"OCProperties").unwrap().as_dict().unwrap();
    let groups = properties.get(b"OCGs").unwrap().as_array().unwrap();
    let names = groups.iter().map(|group| {
        let group = tree.get_dictionary(group.as_reference().unwrap()).unwrap();
        lopdf::decode_text_string(group.get(b"Name").unwrap()).unwrap()
    });
    assert_eq!(names.collect::<Vec<_>>(), ["Fabrics", "Nähte", "Cutting lines", "Marks"]);
}

#[test]
fn fills_follow_their_rule() {
    let square = [Point::new(1.0, 1.0), Point::new(2.0, 1.0), Point::new(2.0, 2.0)];
    let area = Path::area(&square, Some(Colour([1, 2, 3])), None, Layer::Page);
    let mut one = leaf("1");
    one.page.items = vec![area.clone().into(), area.filled_by(FillRule::NonZero).into()];
    let content = operators(&tree(&[one]), 0);
    assert_eq!(content.matches("f*\n").count(), 1, "{content}");
    assert_eq!(content.matches("f\n").count(), 1, "{content}");
    assert_eq!(content.matches("rg\n").count(), 1, "what is set is not set again: {content}");
}

#[test]
fn each_photograph_is_written_once() {
    let (first, twin) = (Arc::new(raster()), Arc::new(raster()));
    let file = vec![0xff, 0xd8, 0xff, 0xd9];
    let other = Arc::new(Raster { width: 1, height: 1, pixels: Pixels::Jpeg { file, colour: false } });
    let mut leaves = [leaf("1"), leaf("2")];
    leaves[0].page.items.extend([photo(&first), photo(&first), photo(&twin)]);
    leaves[1].page.items.extend([photo(&first), photo(&other)]);
    let tree = tree(&leaves);
    let images: Vec<_> = tree
        .objects
        .values()
        .filter_map(|object| object.as_stream().ok())
        .filter(|stream| stream.dict.get(b"Subtype").and_then(Object::as_name).is_ok_and(|name| name == b"Image"))
        .collect();
    assert_eq!(images.len(), 2);
    assert_eq!(images[0].decompressed_content().unwrap(), [255, 0, 0, 0, 0, 255]);
    assert_eq!(images[1].dict.get(b"ColorSpace").unwrap().as_name().unwrap(), b"DeviceGray");
    assert_eq!(operators(&tree, 0).matches("/Photo0 Do").count(), 3);
    assert!(operators(&tree, 1).contains("q 72 0 0 36 432 180 cm /Photo0 Do Q"), "{}", operators(&tree, 1));
}

#[test]
fn a_photograph_that_is_not_whole_is_a_fault() {
    let half = Arc::new(Raster { width: 2, height: 2, ..raster() });
    let mut one = leaf("1");
    one.page.items.push(photo(&half));
    assert_eq!(draw(&[one], &facts()), Err(PdfFault::Photo { width: 2, height: 2 }));
}

#[test]
fn links_lead_to_places_on_any_leaf_or_to_addresses() {
    let link = |target| Link { from: Point::new(1.0, 1.0), to: Point::new(2.0, 1.5), target };
    let mut leaves = [leaf("1"), leaf("2")];
    leaves[0].links.push(link(Target::Place(Place::new("cutting"))));
    leaves[0].links.push(link(Target::Address("https://a.example/(Möwe)".to_owned())));
    assert_eq!(draw(&leaves, &facts()), Err(PdfFault::LostPlace("cutting".to_owned())));
    leaves[1].places.push((Place::new("cutting"), Point::new(0.5, 3.0)));
    let tree = tree(&leaves);
    let pages: Vec<_> = tree.page_iter().collect();
    let links = tree.get_dictionary(pages[0]).unwrap().get(b"Annots").unwrap().as_array().unwrap();
    let link = |k: usize| tree.get_dictionary(links[k].as_reference().unwrap()).unwrap();
    assert_eq!(link(0).get(b"Dest").unwrap().as_str().unwrap(), b"cutting");
    let action = link(1).get(b"A").unwrap().as_dict().unwrap();
    assert_eq!(action.get(b"URI").unwrap().as_str().unwrap(), b"https://a.example/(M%C3%B6we)");
    let names = tree.catalog().unwrap().get(b"Names").unwrap().as_dict().unwrap();
    let names = names.get(b"Dests").unwrap().as_dict().unwrap().get(b"Names").unwrap().as_array().unwrap();
    let place = names[1].as_array().unwrap();
    assert_eq!(place[0].as_reference().unwrap(), pages[1]);
    assert_eq!(place[2..4], [Object::Real(36.0), Object::Real(576.0)]);
    assert!(!tree.get_dictionary(pages[1]).unwrap().has(b"Annots"));
}

#[test]
fn labels_that_count_on_share_a_range() {
    let leaves = ["cover", "2", "3", "Sheet 1", "Sheet 2", "Sheet 4"].map(leaf);
    let tree = tree(&leaves);
    let labels = tree.catalog().unwrap().get(b"PageLabels").unwrap().as_dict().unwrap();
    let ranges = labels.get(b"Nums").unwrap().as_array().unwrap();
    let starts: Vec<i64> = ranges.iter().step_by(2).map(|index| index.as_i64().unwrap()).collect();
    assert_eq!(starts, [0, 1, 3, 5]);
    let last = ranges[7].as_dict().unwrap();
    assert_eq!(last.get(b"P").unwrap().as_str().unwrap(), b"Sheet ");
    assert_eq!(last.get(b"St").unwrap().as_i64().unwrap(), 4);
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
