//! The printed packet of every sample as a document: sound, readable in order, with ways that lead somewhere, and the same each time.
//!
//! Other programs look at it; where one of them is missing its view is not tested, unless `CI_TOOLS=required`.

#![allow(
    clippy::expect_used,
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test may stop at what it did not expect"
)]

mod made;
#[path = "../support/mod.rs"]
mod support;
mod tree;

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use lopdf::Document;
use piecewright::packet::page::Page;

use support::printed::{has_end, main_print, printed};
use support::tools::{self, told_by, told_nothing};
use support::{samples, stem};

/// The PDF of a sample.
struct Printed {
    name: String,
    bytes: Vec<u8>,
    file: PathBuf,
    /// What is drawn on its pages.
    pages: Vec<Page>,
}

static PRINTED: LazyLock<Vec<Printed>> = LazyLock::new(|| {
    let folder = tools::folder("samples");
    let print = |source: PathBuf| {
        let name = stem(&source);
        let bytes = printed(&source);
        let file = folder.join(format!("{name}.pdf"));
        fs::write(&file, &bytes).expect("a file to look at");
        Printed { bytes, file, pages: drawn(&source), name }
    };
    samples().into_iter().map(print).collect()
});

/// What is drawn on the pages of a source's packet, in order.
fn drawn(source: &Path) -> Vec<Page> {
    main_print(source).1.leaves.into_iter().map(|leaf| leaf.page).collect()
}

/// Words without any blanks: where lines are broken and words spaced is the business of whoever reads them.
fn solid(words: &str) -> String {
    words.chars().filter(|letter| !letter.is_whitespace()).collect()
}

#[test]
fn samples_are_sound_files() {
    for printed in PRINTED.iter() {
        if let Some(said) = told_by("qpdf", &["--check"], &printed.file, &[]) {
            assert!(said.contains("No syntax or stream encoding errors found"), "{}: {said}", printed.name);
        }
    }
}

#[test]
fn every_page_of_the_samples_renders_without_a_complaint() {
    let folder = tools::folder("rendered");
    let pictures = |name: &str, end: &str| {
        let made = fs::read_dir(&folder).expect("a folder").map(|file| file.expect("a readable entry").file_name());
        made.filter_map(|file| file.into_string().ok())
            .filter(|file| file.starts_with(name) && has_end(file, end))
            .count()
    };
    for printed in PRINTED.iter() {
        let prefix = folder.join(&printed.name);
        let prefix = prefix.to_str().expect("a plain path");
        if told_nothing("pdftoppm", &["-r", "24", "-gray"], &printed.file, &[prefix]) {
            assert_eq!(pictures(&printed.name, "pgm"), printed.pages.len(), "{}", printed.name);
        }
        let output = format!("{prefix}-%d.png");
        if told_nothing("mutool", &["draw", "-q", "-r", "24", "-o", &output], &printed.file, &[]) {
            assert_eq!(pictures(&printed.name, "png"), printed.pages.len(), "{}", printed.name);
        }
    }
}

#[test]
fn the_text_of_the_samples_reads_in_the_order_in_which_it_is_drawn() {
    for printed in PRINTED.iter() {
        let Some(said) = told_by("pdftotext", &["-raw"], &printed.file, &["-"]) else { return };
        let read: Vec<String> = said.split('\u{c}').map(solid).collect();
        assert_eq!(read.len(), printed.pages.len() + 1, "{}: a page feed closes each page", printed.name);
        for (k, (page, read)) in printed.pages.iter().zip(&read).enumerate() {
            let drawn: String = page.texts().iter().map(|text| solid(&text.words)).collect();
            assert_eq!(*read, drawn, "{}, page {}", printed.name, k + 1);
        }
    }
}

#[test]
fn the_titles_of_the_parts_are_read_in_the_order_of_the_pages() {
    for printed in PRINTED.iter() {
        let tree = Document::load_mem(&printed.bytes).expect("a PDF");
        let parts = tree::bookmarks(&tree);
        assert!(parts.len() > 1, "{}: parts are bookmarked", printed.name);
        let Some(said) = told_by("pdftotext", &[], &printed.file, &["-"]) else { return };
        let read: Vec<String> = said.split('\u{c}').map(|page| solid(page).to_lowercase()).collect();
        // The page, and how far it is read.
        let mut last = (0, 0);
        let labels = tree::labels(&tree);
        // Sheets have a heading of their own in the place of the part's.
        let headed = |part: &&tree::Shown| part.depth == 1 && !labels[part.page].starts_with("Sheet");
        for part in parts.iter().filter(headed) {
            let title = solid(&part.title).to_lowercase();
            let from = if part.page == last.0 { last.1 } else { 0 };
            let there = read[part.page].get(from..).and_then(|rest| rest.find(&title));
            let there = there.unwrap_or_else(|| panic!("{}: “{}” is not read", printed.name, part.title));
            assert!(part.page >= last.0, "{}: “{}” stands in order", printed.name, part.title);
            last = (part.page, from + there + title.len());
        }
    }
}

#[test]
fn samples_give_the_same_bytes_again() {
    for (source, before) in samples().iter().zip(PRINTED.iter()) {
        assert!(printed(source) == before.bytes, "{}", before.name);
    }
}

#[test]
fn samples_lead_their_readers_to_places_on_pages() {
    for printed in PRINTED.iter() {
        let tree = Document::load_mem(&printed.bytes).expect("a PDF");
        tree::assert_ways_lead_somewhere(&printed.name, &tree);
        let labels = tree::labels(&tree);
        assert_eq!(labels.len(), printed.pages.len(), "{}", printed.name);
        let mut sorted = labels.clone();
        sorted.sort();
        sorted.dedup();
        assert_eq!(sorted.len(), labels.len(), "{}: each page has a label of its own: {labels:?}", printed.name);
    }
}

#[test]
fn samples_draw_each_layer_as_such() {
    for printed in PRINTED.iter() {
        let tree = Document::load_mem(&printed.bytes).expect("a PDF");
        let names = tree::layers(&tree);
        assert_eq!(names, ["Fabrics", "Seam lines", "Cutting lines", "Numbers and marks"], "{}", printed.name);
        for (page, drawn) in tree.page_iter().zip(&printed.pages) {
            tree::assert_layers_are_those_of(&printed.name, &tree, page, drawn);
        }
    }
}
