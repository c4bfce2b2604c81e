//! A page of the printed packet as a reader goes through it: what is drawn, how it is numbered, what leads to it and what leads away.

use std::ops::Range;

use super::page::Page;
use crate::geometry::Point;

/// One page of the printed packet.
#[derive(Debug, Clone, PartialEq)]
pub struct Leaf {
    /// What is drawn.
    pub page: Page,
    /// What a viewer calls the page: `5`, `Sheet 2`.
    pub label: String,
    /// The bookmarks that lead to it, from its top down.
    pub bookmarks: Vec<Bookmark>,
    /// The places on it that links lead to.
    pub places: Vec<(Place, Point)>,
    /// What is linked on it.
    pub links: Vec<Link>,
}

/// A bookmark. Bookmarks of all leaves together make a tree: each hangs under the nearest one before it of a smaller depth.
#[derive(Debug, Clone, PartialEq)]
pub struct Bookmark {
    /// 1 for a part of the packet, 2 and more for what is in it.
    pub depth: u8,
    /// What it is called.
    pub title: String,
    /// Where it leads.
    pub at: Point,
}

/// A place in the packet by name, the same in print and on a screen: `cutting`, `sheet-2`, `lantern-B3`. Letters of ASCII, digits and hyphens.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place(String);

/// An area of a page that leads elsewhere.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
    /// The upper left corner of the area.
    pub from: Point,
    /// The lower right corner.
    pub to: Point,
    /// Where it leads.
    pub target: Target,
}

/// Where a link leads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Target {
    /// To a place in the packet.
    Place(Place),
    /// Out of the packet: `https://…`, `mailto:…`.
    Address(String),
}

/// What stands where on a page: what the laws of the layout speak of. Areas may lie in each other, such as the figures of a step in the step.
#[derive(Debug, Clone, PartialEq)]
pub struct Area {
    /// What it is.
    pub kind: Kind,
    /// Which element of the packet it belongs to, counted in print.
    pub element: usize,
    /// Which paragraph, row or figure of the element.
    pub member: usize,
    /// The upper left corner.
    pub from: Point,
    /// The lower right corner.
    pub to: Point,
    /// What of the page's items is drawn for it.
    pub items: Range<usize>,
}

/// What an area holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// A heading.
    Heading,
    /// One line of a paragraph.
    Line,
    /// A drawing, with the words in it, without its caption.
    Figure,
    /// The head of a table.
    Head,
    /// A row of a table.
    Row,
    /// A step, or as much of it as stands on this page.
    Step,
    /// Whatever else is set in one piece.
    Piece,
}

impl Place {
    /// The place of a name; whatever is no letter of ASCII, digit or hyphen becomes a hyphen.
    ///
    /// Names that differ only in such letters would give one place: what is built from an author's names goes through [`Self::numbered`].
    #[must_use]
    pub fn new(name: &str) -> Self {
        Self(name.chars().map(|letter| if letter.is_ascii_alphanumeric() { letter } else { '-' }).collect())
    }

    /// The place of the thing with this number among its like: `step-1-2-3`.
    #[must_use]
    pub fn numbered(kind: &str, numbers: &[usize]) -> Self {
        let numbers: Vec<String> = numbers.iter().map(ToString::to_string).collect();
        Self::new(&format!("{kind}-{}", numbers.join("-")))
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.0
    }
}

#[cfg(test)]
mod tests {
    use super::Place;

    #[test]
    fn places_are_named_by_plain_letters() {
        assert_eq!(Place::new("buoy star/2").name(), "buoy-star-2");
        assert_eq!(Place::numbered("step", &[1, 12]).name(), "step-1-12");
    }
}
