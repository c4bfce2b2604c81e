//! The same file with what is on its pages turned a little.
//!
//! Poppler moves strokes that are exactly level or upright to whole pixels. Turned by a degree there are none, and what it shows is what the file says.

use lopdf::Document;
use piecewright::geometry::{Angle, Point, Transform};
use piecewright::model::Paper;

use crate::raster::DENSITY;

/// How far.
const DEGREES: f64 = 1.0;

fn turn(middle: Point) -> Transform {
    Transform::turn(Angle::degrees(DEGREES), middle)
}

/// The middle of a page of so many units to the inch.
fn middle(paper: Paper, units: f64) -> Point {
    let (width, height) = paper.size();
    Point::new(width.to_inches() * units / 2.0, height.to_inches() * units / 2.0)
}

/// From inches on a sheet to pixels, where it is turned.
pub fn to_pixels(paper: Paper) -> Transform {
    Transform::scale(DENSITY).then(turn(middle(paper, DENSITY)))
}

/// A PDF of which these pages, counted from 1, are turned.
pub fn pages(bytes: &[u8], numbers: &[usize], paper: Paper) -> Vec<u8> {
    let mut tree = Document::load_mem(bytes).expect("a PDF");
    // Up is up in a PDF, so that a turn clockwise is undone there.
    let matrix = turn(middle(paper, 72.0)).inverse().expect("a turn").to_matrix();
    let matrix = matrix.map(|number| format!("{number:.9}")).join(" ");
    let all: Vec<_> = tree.page_iter().collect();
    for number in numbers {
        let page = all[number - 1];
        let content = tree.get_page_content(page);
        let turned = [format!("q {matrix} cm\n").as_bytes(), &content, b"\nQ\n"].concat();
        tree.change_page_content(page, turned).expect("a page has content");
    }
    let mut written = Vec::new();
    tree.save_to(&mut written).expect("a PDF");
    written
}
