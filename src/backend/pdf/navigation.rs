//! How a reader finds the way: bookmarks, page labels, places and links.

use std::collections::BTreeMap;

use lopdf::{Dictionary, Document, Object, ObjectId, StringFormat};

use super::content::Frame;
use super::{PdfFault, real, words};
use crate::geometry::Point;
use crate::packet::leaf::{Bookmark, Leaf, Link, Target};

/// A place on a page, at the left and upper edge of the window, with the magnification as it is.
fn destination(leaf: &Leaf, page: ObjectId, at: Point) -> Object {
    let [left, top] = Frame::of(&leaf.page).place(at).map(real);
    Object::Array(vec![page.into(), Object::from("XYZ"), left, top, Object::Null])
}

// Bookmarks.

/// Where a bookmark hangs, by the numbers of others; 0 is the root.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
struct Knot {
    parent: usize,
    before: Option<usize>,
    after: Option<usize>,
    /// First, last and how many.
    children: Option<(usize, usize, i64)>,
}

/// The root and the bookmarks in order, each under the nearest one before it of a smaller depth. O(n).
fn tree_of(depths: impl Iterator<Item = u8>) -> Vec<Knot> {
    let mut knots = vec![Knot::default()];
    // The way from the root to the last bookmark, with depths that grow.
    let mut way: Vec<(u8, usize)> = Vec::new();
    for depth in depths {
        while way.last().is_some_and(|&(above, _)| above >= depth) {
            way.pop();
        }
        let (parent, own) = (way.last().map_or(0, |&(_, knot)| knot), knots.len());
        let mut before = None;
        if let Some(above) = knots.get_mut(parent) {
            before = above.children.map(|(_, last, _)| last);
            above.children =
                Some(above.children.map_or((own, own, 1), |(first, _, count)| (first, own, count.saturating_add(1))));
        }
        if let Some(sibling) = before.and_then(|before| knots.get_mut(before)) {
            sibling.after = Some(own);
        }
        knots.push(Knot { parent, before, ..Knot::default() });
        way.push((depth, own));
    }
    knots
}

/// Writes the bookmarks of all leaves as a tree that is open at its first level; nothing without a bookmark.
pub(super) fn add_bookmarks(tree: &mut Document, leaves: &[Leaf], pages: &[ObjectId]) -> Option<ObjectId> {
    let bookmarks: Vec<(&Leaf, ObjectId, &Bookmark)> = (leaves.iter().zip(pages))
        .flat_map(|(leaf, &page)| leaf.bookmarks.iter().map(move |bookmark| (leaf, page, bookmark)))
        .collect();
    let knots = tree_of(bookmarks.iter().map(|(_, _, bookmark)| bookmark.depth));
    let root = knots.first().filter(|root| root.children.is_some())?;
    let ids: Vec<ObjectId> = knots.iter().map(|_| tree.new_object_id()).collect();
    let set = |entry: &mut Dictionary, key: &str, knot: Option<usize>| {
        if let Some(&id) = knot.and_then(|knot| ids.get(knot)) {
            entry.set(key, id);
        }
    };
    let with_children = |knot: &Knot, open: bool| {
        let mut entry = Dictionary::new();
        if let Some((first, last, count)) = knot.children {
            set(&mut entry, "First", Some(first));
            set(&mut entry, "Last", Some(last));
            // Less than nothing: closed, and so many come to sight when it is opened.
            entry.set("Count", if open { count } else { -count });
        }
        entry
    };
    for ((knot, &id), (leaf, page, bookmark)) in knots.iter().zip(&ids).skip(1).zip(bookmarks) {
        let mut entry = with_children(knot, false);
        entry.set("Title", words(&bookmark.title));
        entry.set("Dest", destination(leaf, page, bookmark.at));
        set(&mut entry, "Parent", Some(knot.parent));
        set(&mut entry, "Prev", knot.before);
        set(&mut entry, "Next", knot.after);
        tree.set_object(id, entry);
    }
    let mut outlines = with_children(root, true);
    outlines.set("Type", Object::from("Outlines"));
    let &id = ids.first()?;
    tree.set_object(id, outlines);
    Some(id)
}

// Page labels.

/// A label as words and the number at its end, if it ends in one that is written as viewers would.
fn split(label: &str) -> (&str, Option<u32>) {
    let before = label.trim_end_matches(|letter: char| letter.is_ascii_digit());
    let digits = label.get(before.len()..).unwrap_or_default();
    match digits.parse() {
        Ok(number) if number > 0 && !digits.starts_with('0') => (before, Some(number)),
        _ => (label, None),
    }
}

/// The page labels: one range for labels that count on, `5`, `6` or `Sheet 1`, `Sheet 2`, and one for each other.
pub(super) fn labels(leaves: &[Leaf]) -> Object {
    let mut ranges = Vec::new();
    let mut last: Option<(&str, u32)> = None;
    for (index, leaf) in (0_i64..).zip(leaves) {
        let (prefix, number) = split(&leaf.label);
        let own = number.map(|number| (prefix, number));
        let counts_on = own.is_some_and(|(prefix, number)| last == Some((prefix, number.wrapping_sub(1))));
        last = own;
        if counts_on {
            continue;
        }
        let mut range = Dictionary::new();
        if let Some(number) = number {
            range.set("S", Object::from("D"));
            range.set("St", i64::from(number));
        }
        if !prefix.is_empty() {
            range.set("P", words(prefix));
        }
        ranges.extend([Object::from(index), range.into()]);
    }
    Dictionary::from_iter([("Nums", Object::Array(ranges))]).into()
}

// Places and links.

/// The places of all leaves by name; of two with one name, the first. O(n log n).
pub(super) struct Places<'l>(BTreeMap<&'l str, Object>);

impl<'l> Places<'l> {
    pub(super) fn of(leaves: &'l [Leaf], pages: &[ObjectId]) -> Self {
        let mut places = BTreeMap::new();
        for (leaf, &page) in leaves.iter().zip(pages) {
            for (place, at) in &leaf.places {
                places.entry(place.name()).or_insert_with(|| destination(leaf, page, *at));
            }
        }
        Self(places)
    }

    /// The name tree by which links, of this file and of others, find their places; nothing without a place.
    pub(super) fn named(self) -> Option<Object> {
        if self.0.is_empty() {
            return None;
        }
        // Names of ASCII are in the order that a name tree asks for.
        let names = self.0.into_iter().flat_map(|(name, place)| [Object::string_literal(name), place]);
        let places = Dictionary::from_iter([("Names", Object::Array(names.collect()))]);
        Some(Dictionary::from_iter([("Dests", Object::from(places))]).into())
    }

    /// Writes the links of a leaf; their ids.
    ///
    /// # Errors
    /// [`PdfFault::LostPlace`] for a link to a place that is on no leaf.
    pub(super) fn add_links(&self, tree: &mut Document, leaf: &Leaf) -> Result<Vec<Object>, PdfFault> {
        leaf.links.iter().map(|link| Ok(tree.add_object(self.annotation(leaf, link)?).into())).collect()
    }

    fn annotation(&self, leaf: &Leaf, link: &Link) -> Result<Dictionary, PdfFault> {
        let frame = Frame::of(&leaf.page);
        let ([left, top], [right, bottom]) = (frame.place(link.from), frame.place(link.to));
        let area = [left.min(right), top.min(bottom), left.max(right), top.max(bottom)].map(real);
        let mut annotation = Dictionary::from_iter([
            ("Type", Object::from("Annot")),
            ("Subtype", Object::from("Link")),
            ("Rect", Object::Array(area.to_vec())),
            ("Border", Object::Array(vec![0.into(), 0.into(), 0.into()])),
        ]);
        match &link.target {
            Target::Place(place) if self.0.contains_key(place.name()) => {
                annotation.set("Dest", Object::string_literal(place.name()));
            }
            Target::Place(place) => return Err(PdfFault::LostPlace(place.name().to_owned())),
            Target::Address(address) => {
                let address = Object::String(escaped(address).into_bytes(), StringFormat::Literal);
                annotation.set("A", Dictionary::from_iter([("S", Object::from("URI")), ("URI", address)]));
            }
        }
        Ok(annotation)
    }
}

/// An address in the letters that addresses are made of; the bytes of all others as `%E2`.
fn escaped(address: &str) -> String {
    use std::fmt::Write as _;
    let mut escaped = String::with_capacity(address.len());
    for byte in address.trim().bytes() {
        if byte.is_ascii_graphic() && !b"\"<>\\^`{|}".contains(&byte) {
            escaped.push(char::from(byte));
        } else {
            let _ = write!(escaped, "%{byte:02X}");
        }
    }
    escaped
}

#[cfg(test)]
mod tests {
    use super::{Knot, escaped, split, tree_of};

    fn parents(depths: &[u8]) -> Vec<usize> {
        tree_of(depths.iter().copied()).iter().skip(1).map(|knot| knot.parent).collect()
    }

    #[test]
    fn bookmarks_hang_under_the_nearest_of_a_smaller_depth() {
        assert_eq!(parents(&[1, 2, 2, 1, 2]), [0, 1, 1, 0, 4]);
        assert_eq!(parents(&[1, 3, 2, 3]), [0, 1, 1, 3], "a jump hangs under what is there");
        assert_eq!(parents(&[3, 2, 1]), [0, 0, 0], "the first may be deep");
    }

    #[test]
    fn bookmarks_know_their_neighbours() {
        let knots = tree_of([1, 2, 1].into_iter());
        let expected = [
            Knot { children: Some((1, 3, 2)), ..Knot::default() },
            Knot { after: Some(3), children: Some((2, 2, 1)), ..Knot::default() },
            Knot { parent: 1, ..Knot::default() },
            Knot { before: Some(1), ..Knot::default() },
        ];
        assert_eq!(knots, expected);
    }

    #[test]
    fn labels_are_split_before_a_number_that_counts() {
        assert_eq!(split("12"), ("", Some(12)));
        assert_eq!(split("Sheet 3"), ("Sheet ", Some(3)));
        assert_eq!(split("A07"), ("A07", None));
        assert_eq!(split("0"), ("0", None));
        assert_eq!(split("cover"), ("cover", None));
        assert_eq!(split("99999999999"), ("99999999999", None));
    }

    #[test]
    fn addresses_are_written_in_their_own_letters() {
        assert_eq!(escaped(" https://a.example/Möwe (1)?q=50%25#b "), "https://a.example/M%C3%B6we%20(1)?q=50%25#b");
        assert_eq!(escaped("mailto:post@a.example"), "mailto:post@a.example");
    }
}
