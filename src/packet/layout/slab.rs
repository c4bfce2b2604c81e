//! A slab: a piece of a column that no page break divides.

use std::rc::Rc;

use super::super::leaf::{Area, Bookmark, Kind, Link, Place, Target};
use super::super::page::{Item, Page};
use super::lines::{Line, Type};
use crate::geometry::{Point, Vector};

/// A piece of a column. Everything on it is placed from its upper left corner; lengths are inches.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Slab {
    /// How high it is.
    pub height: f64,
    /// The white above it, which is dropped at the top of a page.
    pub before: f64,
    /// Whether it must stand on the page of the slab after it.
    pub keeps_next: bool,
    /// What is set above it again where a page begins with it: the head of a table.
    pub head: Option<Rc<Slab>>,
    /// What is drawn.
    pub items: Vec<Item>,
    /// Bookmarks that lead to it.
    pub bookmarks: Vec<Bookmark>,
    /// Places that links lead to.
    pub places: Vec<(Place, Point)>,
    /// Links.
    pub links: Vec<Link>,
    /// What stands where on it.
    pub areas: Vec<Area>,
}

impl Slab {
    /// Sets a line at the foot of it, indented; it grows by the line.
    pub fn line(&mut self, kind: Type, line: &Line, indent: f64) {
        kind.draw(line, Point::new(indent, self.height), &mut self.items);
        self.height += kind.line();
    }

    /// Sets lines one below the other.
    pub fn lines(&mut self, kind: Type, lines: &[Line], indent: f64) {
        for line in lines {
            self.line(kind, line, indent);
        }
    }

    /// Puts a drawing on it, with its upper left corner at a place; it does not grow.
    pub fn drawing(&mut self, page: &Page, at: Point) {
        let from = self.items.len();
        self.items.extend(page.items.iter().map(|item| item.moved(at.to_vector())));
        let to = Point::new(at.x + page.width.to_inches(), at.y + page.height.to_inches());
        let member = self.areas.iter().filter(|area| area.kind == Kind::Figure).count();
        self.areas.push(Area { kind: Kind::Figure, element: 0, member, from: at, to, items: from..self.items.len() });
    }

    /// Says what all of it is, to its full width in inches.
    #[must_use]
    pub fn told(mut self, kind: Kind, member: usize, wide: f64) -> Self {
        let (from, to) = (Point::default(), Point::new(wide, self.height));
        self.areas.insert(0, Area { kind, element: 0, member, from, to, items: 0..self.items.len() });
        self
    }

    /// Bookmarks it at its top.
    pub fn bookmark(&mut self, depth: u8, title: &str) {
        self.bookmarks.push(Bookmark { depth, title: title.to_owned(), at: Point::default() });
    }

    /// Lets links lead to its top.
    pub fn place(&mut self, place: &Place) {
        self.places.push((place.clone(), Point::default()));
    }

    /// Makes an area of it lead elsewhere.
    pub fn link(&mut self, from: Point, to: Point, target: &Target) {
        self.links.push(Link { from, to, target: target.clone() });
    }

    /// Puts other slabs below it, one after another; it grows by them.
    pub fn append(&mut self, others: &[Self]) {
        for other in others {
            self.height += other.before;
            self.take_in(other, Vector::new(0.0, self.height));
            self.height += other.height;
        }
    }

    /// Puts another slab on it.
    pub fn take_in(&mut self, other: &Self, at: Vector) {
        let before = self.items.len();
        let moved = |area: &Area| Area {
            from: area.from + at,
            to: area.to + at,
            items: area.items.start + before..area.items.end + before,
            ..area.clone()
        };
        self.areas.extend(other.areas.iter().map(moved));
        self.items.extend(other.items.iter().map(|item| item.moved(at)));
        self.bookmarks.extend(other.bookmarks.iter().map(|mark| Bookmark { at: mark.at + at, ..mark.clone() }));
        self.places.extend(other.places.iter().map(|(place, point)| (place.clone(), *point + at)));
        let moved = |link: &Link| Link { from: link.from + at, to: link.to + at, target: link.target.clone() };
        self.links.extend(other.links.iter().map(moved));
    }
}
