//! A block before and after a revision, over each other: the former lines dashed beneath the new ones, and what moved marked.

use super::canvas::{Canvas, Room, bounds};
use super::{ACCENT, CLOTH, EDGE, FAINT};
use crate::geometry::{Length, Point, Polygon, Segment, Transform};
use crate::packet::page::{Colour, Layer, Page, Path, Stroke, Weight};
use crate::packet::words::Words;

/// How far from where it was a corner is drawn with a line from there, in inches on the page.
const SEEN: f64 = 0.04;
/// More corners than these are not ringed: the dashes say enough.
const MOST_RINGS: usize = 60;
/// How far from a line, in inches of the block, one that lies on it may run.
const NEAR: f64 = 1e-4;
/// The radius of the ring round a corner that moved, in inches on the page.
const RING: f64 = 0.055;

/// What is drawn of a block before and after, in inches in the block's frame.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Overlay {
    /// Its outline.
    pub outline: Option<Polygon>,
    /// All its areas as they are.
    pub lines: Vec<Polygon>,
    /// Its units as they are.
    pub units: Vec<Polygon>,
    /// The areas that are others than before, or of another fabric.
    pub changed: Vec<Polygon>,
    /// The areas of before that are no longer there.
    pub former: Vec<Polygon>,
    /// Corners that moved: from where to where.
    pub moved: Vec<(Point, Point)>,
    /// Where the marks of foundations stand that changed.
    pub marks: Vec<(Polygon, String)>,
}

/// The picture of a block called `name`; none where there is nothing to draw.
#[must_use]
pub fn overlay(of: &Overlay, name: &str, width: Length, words: &Words) -> Option<Page> {
    let wide = width.to_inches();
    let corners = of.outline.iter().chain(&of.former).flat_map(Polygon::corners).copied();
    let (from, to) = bounds(corners);
    if to.x <= from.x || to.y <= from.y {
        return None;
    }
    let room = Room { width: wide, most_high: wide * 1.4, beside: 0.12, above: 0.12 };
    let mut canvas = Canvas::new((from, to), Transform::IDENTITY, room);
    canvas.outlines(&of.changed, Some(CLOTH), None);
    canvas.outlines(&of.lines, None, Some(Stroke::plain(0.4, FAINT)));
    canvas.outlines(&of.changed, None, Some(Stroke::plain(0.9, Colour::BLACK)));
    canvas.outlines(&of.units, None, Some(Stroke::plain(1.0, EDGE)));
    if let Some(outline) = &of.outline {
        canvas.outline(outline, None, Stroke::plain(1.0, Colour::BLACK));
    }
    for edge in former_edges(&of.former, &of.lines) {
        canvas.line(edge, Stroke::plain(0.9, ACCENT).dashed(&[3.0, 2.0]));
    }
    rings(&mut canvas, &of.moved);
    for (area, mark) in &of.marks {
        canvas.name(area, mark, Weight::Bold, &[12.0, 10.0, 8.0, 6.0], true);
    }
    let marks: Vec<&str> = of.marks.iter().map(|(_, mark)| mark.as_str()).collect();
    Some(canvas.page(name.to_owned(), words.change_picture_alt(name, words.list(&once(&marks)), of.marks.len())))
}

/// Rings where corners are now, with a line from where they were.
fn rings(canvas: &mut Canvas, moved: &[(Point, Point)]) {
    if moved.len() > MOST_RINGS {
        return;
    }
    for &(from, to) in moved {
        let (from, to) = (canvas.map.apply(from), canvas.map.apply(to));
        let pen = Stroke::plain(0.9, ACCENT);
        canvas.items.push(Path::circle(to, RING, None, Some(pen.clone()), Layer::Marks).into());
        let distance = from.distance(to);
        if distance > RING + SEEN {
            let end = from.along(to, (distance - RING) / distance);
            canvas.items.push(Path::lines([Segment::new(from, end)], pen, Layer::Marks).into());
            canvas.items.push(Path::circle(from, 0.018, Some(ACCENT), None, Layer::Marks).into());
        }
    }
}

/// The edges of areas of before that are no lines now. Those that lie on others are left out: their dashes would fill each other's gaps.
fn former_edges(former: &[Polygon], lines: &[Polygon]) -> Vec<Segment> {
    let mut edges: Vec<Segment> = former.iter().flat_map(Polygon::edges).collect();
    edges.sort_by(|a, b| b.length().total_cmp(&a.length()));
    let lies_on = |edge: &Segment, other: &Segment| {
        let near = |point: Point| other.distance(point) < NEAR;
        near(edge.start) && near(edge.end)
    };
    let mut found: Vec<Segment> = Vec::new();
    for edge in edges {
        let still_there = lines.iter().flat_map(Polygon::edges).any(|line| lies_on(&edge, &line));
        if !still_there && !found.iter().any(|other| lies_on(&edge, other)) {
            found.push(edge);
        }
    }
    found
}

fn once<'w>(words: &[&'w str]) -> Vec<&'w str> {
    let mut found: Vec<&str> = Vec::new();
    for word in words {
        if !found.contains(word) {
            found.push(word);
        }
    }
    found
}
