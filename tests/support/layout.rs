//! What holds for every page and figure, and for the pages of a packet together: the laws of the layout.

use std::collections::{BTreeMap, BTreeSet};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::atomic::{AtomicUsize, Ordering};

use piecewright::geometry::{Angle, Point, Vector};
use piecewright::model::Facts;
use piecewright::packet::document::{Document, Medium};
use piecewright::packet::label::apart;
use piecewright::packet::leaf::{Area, Kind, Leaf, Target};
use piecewright::packet::page::{Align, Item, Layer, Page, Piece, Subpath, Text};
use piecewright::packet::typeface;
use piecewright::packet::{Packet, Print};

/// Words may reach so far into each other, and lines into words, in inches: no eye sees it.
const TOUCH: f64 = 0.004;
/// A page of the flow holds at least so much, in inches.
const LEAST: f64 = 1.5;
/// A row so high, in inches, may be broken.
const HIGHEST_ROW: f64 = 5.9;

/// Runs a test on everything, on as many threads as there are cores.
pub fn at_once<T: Sync>(all: &[T], test: impl Fn(&T) + Sync) {
    let (next, failed) = (AtomicUsize::new(0), AtomicUsize::new(0));
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                while let Some(one) = all.get(next.fetch_add(1, Ordering::Relaxed)) {
                    // All that fail are told, not only the first.
                    if catch_unwind(AssertUnwindSafe(|| test(one))).is_err() {
                        failed.fetch_add(1, Ordering::Relaxed);
                    }
                }
            });
        }
    });
    assert_eq!(failed.into_inner(), 0, "of {} so many failed, each as told above", all.len());
}

/// An upright box: left, top, right, bottom.
type Bounds = [f64; 4];

fn bounds(corners: &[Point]) -> Bounds {
    corners.iter().fold([f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY], |b, corner| {
        [b[0].min(corner.x), b[1].min(corner.y), b[2].max(corner.x), b[3].max(corner.y)]
    })
}

fn meet(a: Bounds, b: Bounds) -> bool {
    a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
}

/// A line of text with the box round its capitals and digits.
struct Inked<'t> {
    text: &'t Text,
    corners: [Point; 4],
    bounds: Bounds,
}

fn inked(text: &Text) -> Inked<'_> {
    let (sin, cos) = Angle::degrees(text.turn).sin_cos();
    let (along, down) = (Vector::new(cos, sin), Vector::new(-sin, cos));
    let length = typeface::width(&text.words, text.size, text.weight).to_inches();
    let before = match text.align {
        Align::Start => 0.0,
        Align::Middle => length / 2.0,
        Align::End => length,
    };
    let start = text.at - along * before;
    let up = down * (-typeface::CAPITALS * text.size.to_inches());
    let corners = [start, start + along * length, start + along * length + up, start + up];
    Inked { text, corners, bounds: bounds(&corners) }
}

/// The corners of the box round the capitals and digits of a line of text.
pub fn ink(text: &Text) -> [Point; 4] {
    inked(text).corners
}

/// Asserts that no words collide, and that neither words nor lines nor pictures leave the margins, in inches.
pub fn assert_laid_out(name: &str, page: &Page, margin: f64) {
    assert_apart(name, page, margin, &page.texts().into_iter().map(inked).collect::<Vec<_>>());
}

fn assert_apart(name: &str, page: &Page, margin: f64, texts: &[Inked<'_>]) {
    let (width, height) = (page.width.to_inches(), page.height.to_inches());
    let within = |place: Point, slack: f64| {
        let (near, right, low) = (margin - slack, width - margin + slack, height - margin + slack);
        place.x >= near && place.x <= right && place.y >= near && place.y <= low
    };
    // From left to right, so that each is compared only with those that begin before it ends.
    let mut sorted: Vec<&Inked<'_>> = texts.iter().collect();
    sorted.sort_by(|a, b| a.bounds[0].total_cmp(&b.bounds[0]));
    for (i, one) in sorted.iter().enumerate() {
        for &corner in &one.corners {
            assert!(
                within(corner, 0.0),
                "{name}, {}: “{}” leaves the margins at {corner:?}",
                page.title,
                one.text.words
            );
        }
        for other in sorted[i + 1..].iter().take_while(|other| other.bounds[0] < one.bounds[2]) {
            let clear = !meet(one.bounds, other.bounds) || apart(&one.corners, &other.corners, -TOUCH);
            assert!(clear, "{name}, {}: “{}” collides with “{}”", page.title, one.text.words, other.text.words);
        }
    }
    for item in &page.items {
        for place in reach(item) {
            assert!(within(place, 0.01), "{name}, {}: a line leaves the margins at {place:?}", page.title);
        }
    }
}

/// The outermost places of what is drawn, but for words.
fn reach(item: &Item) -> Vec<Point> {
    let area = |corner: Point, width: f64, height: f64| vec![corner, Point::new(corner.x + width, corner.y + height)];
    match item {
        Item::Path(path) => path.subpaths.iter().flat_map(Subpath::places).collect(),
        Item::Photo(photo) => area(photo.corner, photo.width.to_inches(), photo.height.to_inches()),
        // What lies outside of a window is not seen, and a window may be larger than what is seen through it.
        Item::Window(window) => {
            let (from, wide, high) = (window.corner, window.width.to_inches(), window.height.to_inches());
            let seen = |place: &Point| {
                let right = place.x - from.x;
                let down = place.y - from.y;
                right >= 0.0 && right <= wide && down >= 0.0 && down <= high
            };
            window.items.iter().flat_map(reach).filter(seen).collect()
        }
        Item::Text(_) => Vec::new(),
    }
}

/// Asserts the laws of the layout for a packet: its figures, and its pages on every paper.
pub fn assert_packet(name: &str, packet: &Packet) {
    for print in &packet.prints {
        assert_print(&format!("{name} on {}", print.paper.word()), &packet.document, print);
    }
    for figures in &packet.figures {
        let steps = figures
            .steps
            .iter()
            .flatten()
            .flat_map(|of| std::iter::once(&of.front).chain(&of.printed).chain(&of.strips));
        let of_block = [&figures.front, &figures.map, &figures.outline].into_iter().chain(&figures.foundations);
        for figure in of_block.chain(steps).chain(figures.joins.iter().flatten()).chain(&figures.colourings) {
            assert_laid_out(name, figure, 0.0);
            assert!(!figure.description.is_empty(), "{name}: figures say what they show");
        }
    }
}

fn assert_print(name: &str, document: &Document, print: &Print) {
    assert_eq!(print.leaves.len(), print.areas.len(), "{name}: areas of every page");
    for (number, (leaf, areas)) in print.leaves.iter().zip(&print.areas).enumerate() {
        let name = format!("{name}, page {}", number + 1);
        let sheet = print.printing.sheets.iter().find(|sheet| sheet.page.title == leaf.page.title);
        let margin = sheet.map_or(print.paper.margin(), |sheet| sheet.bed.margin).to_inches() - 0.002;
        let texts: Vec<Inked<'_>> = leaf.page.texts().into_iter().map(inked).collect();
        assert_apart(&name, &leaf.page, margin, &texts);
        if let Some(stamp) = &document.stamp {
            let stamped = texts.iter().any(|inked| inked.text.words.contains(stamp.as_str()));
            assert!(stamped, "{name}: a tester's page says so");
        }
        if let Some(sheet) = sheet {
            let of_page: Vec<&Inked<'_>> = texts.iter().filter(|inked| inked.text.layer == Layer::Page).collect();
            assert_uncrossed(&name, &of_page, &seen_lines(&leaf.page.items, Layer::Page));
            let all: Vec<&Inked<'_>> = texts.iter().collect();
            assert_uncrossed(&name, &all, &seen_lines(&leaf.page.items, Layer::Cutting));
            for foundation in &sheet.foundations {
                if let Some((part, of)) = foundation.part {
                    let numbered = |words: &str| {
                        let numbers: Vec<&str> = words.split(|letter: char| !letter.is_ascii_digit()).collect();
                        let numbers: Vec<u32> = numbers.iter().filter_map(|number| number.parse().ok()).collect();
                        numbers.windows(2).any(|two| two == [part, of])
                    };
                    let named = texts.iter().any(|inked| numbered(&inked.text.words));
                    assert!(named, "{name}: part {part} of {of} is named on it");
                }
                for inked in of_page.iter().filter(|inked| inked.bounds[1] < foundation.cutting_line.bounds().0.y) {
                    let clear = apart(&inked.corners, foundation.cutting_line.corners(), 0.02);
                    assert!(clear, "{name}: “{}” lies on a foundation", inked.text.words);
                }
            }
        } else {
            // `3 of 14`, `3 von 14`.
            let (own, all) = ((number + 1).to_string(), print.leaves.len().to_string());
            let says = |words: &str| words.split(' ').next() == Some(&own) && words.rsplit(' ').next() == Some(&all);
            assert!(texts.iter().any(|inked| says(&inked.text.words)), "{name}: it says that it is {own} of {all}");
            assert!(!areas.is_empty(), "{name}: something stands on it");
            assert_areas(&name, leaf, areas);
        }
    }
    assert_running(name, document, print);
    assert_breaks(name, print);
    assert_links(name, document, print);
}

/// The straight lines of a layer, of those behind a window what is seen through it.
fn seen_lines(items: &[Item], layer: Layer) -> Vec<[Point; 2]> {
    let mut lines = Vec::new();
    for item in items {
        match item {
            Item::Path(path) if path.layer == layer => lines.extend(path.subpaths.iter().flat_map(straightened)),
            Item::Window(window) => {
                let far = Vector::new(window.width.to_inches(), window.height.to_inches());
                let seen = seen_lines(&window.items, layer);
                lines.extend(seen.into_iter().filter_map(|line| clipped(line, window.corner, window.corner + far)));
            }
            Item::Path(_) | Item::Text(_) | Item::Photo(_) => {}
        }
    }
    lines
}

/// What of a line lies in an upright rectangle.
fn clipped([from, to]: [Point; 2], least: Point, most: Point) -> Option<[Point; 2]> {
    let along = to - from;
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    for (speed, before, after) in
        [(along.x, least.x - from.x, most.x - from.x), (along.y, least.y - from.y, most.y - from.y)]
    {
        if speed.abs() < 1e-12 {
            if before > 0.0 || after < 0.0 {
                return None;
            }
        } else {
            enter = enter.max((before / speed).min(after / speed));
            leave = leave.min((before / speed).max(after / speed));
        }
    }
    (enter < leave).then(|| [from + along * enter, from + along * leave])
}

/// Asserts that the last page of a packet, on every paper, has the heading of the editions and tells them all.
pub fn assert_editions_last(name: &str, facts: &Facts, packet: &Packet) {
    let part = packet.document.parts.last().expect("a packet has parts");
    assert_eq!(part.place.name(), "editions", "{name}: the editions are the last part");
    for print in &packet.prints {
        let name = format!("{name} on {}", print.paper.word());
        let last = print.leaves.last().expect("a packet has pages");
        let texts: Vec<&str> = last.page.texts().iter().map(|text| text.words.as_str()).collect();
        assert!(texts.contains(&part.title.as_str()), "{name}: the last page tells the editions");
        // What stands on several lines is read as one.
        let read = texts.join(" ");
        for told in &facts.history {
            assert!(texts.contains(&told.edition.as_str()), "{name}: the last page tells of edition {}", told.edition);
            assert!(read.contains(&told.words), "{name}: the last page tells what edition {} brought", told.edition);
        }
    }
}

/// No word is crossed by a line.
fn assert_uncrossed(name: &str, texts: &[&Inked<'_>], lines: &[[Point; 2]]) {
    for line in lines {
        let spread = bounds(line);
        for inked in texts {
            let near = spread[0] <= inked.bounds[2] && inked.bounds[0] <= spread[2];
            let near = near && spread[1] <= inked.bounds[3] && inked.bounds[1] <= spread[3];
            let clear = !near || apart(line, &inked.corners, -TOUCH);
            assert!(clear, "{name}: “{}” is crossed by a line from {:?} to {:?}", inked.text.words, line[0], line[1]);
        }
    }
}

/// The straight pieces of a subpath; a curve in eight.
fn straightened(subpath: &Subpath) -> Vec<[Point; 2]> {
    let mut lines = Vec::new();
    let mut at = subpath.start;
    let mut to = |next: Point| lines.push([std::mem::replace(&mut at, next), next]);
    let mut from = subpath.start;
    for piece in &subpath.pieces {
        match *piece {
            Piece::Line(next) => {
                to(next);
                from = next;
            }
            Piece::Curve(first, second, end) => {
                for k in 1..=8 {
                    let (t, s) = (f64::from(k) / 8.0, 1.0 - f64::from(k) / 8.0);
                    let sum = from.to_vector() * (s * s * s)
                        + first.to_vector() * (3.0 * s * s * t)
                        + second.to_vector() * (3.0 * s * t * t)
                        + end.to_vector() * (t * t * t);
                    to(Point::default() + sum);
                }
                from = end;
            }
        }
    }
    if subpath.closed {
        to(subpath.start);
    }
    lines
}

/// On one page: figures lie clear of each other and of all words but their own, no line crosses a word, nothing is drawn outside its area.
fn assert_areas(name: &str, leaf: &Leaf, areas: &[Area]) {
    let figures: Vec<&Area> = areas.iter().filter(|area| area.kind == Kind::Figure).collect();
    let of_figures: BTreeSet<usize> = figures.iter().flat_map(|figure| figure.items.clone()).collect();
    let free = || leaf.page.items.iter().enumerate().filter(|(index, _)| !of_figures.contains(index));
    let texts: Vec<Inked<'_>> =
        free().filter_map(|(_, item)| if let Item::Text(text) = item { Some(inked(text)) } else { None }).collect();
    for (i, figure) in figures.iter().enumerate() {
        let area = bounds(&[figure.from, figure.to]).map(|edge| (edge * 1e6).round() / 1e6);
        let shrunk = [area[0] + TOUCH, area[1] + TOUCH, area[2] - TOUCH, area[3] - TOUCH];
        for other in &figures[i + 1..] {
            assert!(!meet(shrunk, bounds(&[other.from, other.to])), "{name}: figures lie on each other");
        }
        for inked in &texts {
            assert!(!meet(shrunk, inked.bounds), "{name}: “{}” lies on a figure", inked.text.words);
        }
    }
    let paths = free().filter_map(|(_, item)| if let Item::Path(path) = item { Some(path) } else { None });
    let lines: Vec<[Point; 2]> = paths.flat_map(|path| path.subpaths.iter().flat_map(straightened)).collect();
    assert_uncrossed(name, &texts.iter().collect::<Vec<_>>(), &lines);
    for area in areas {
        for item in leaf.page.items.get(area.items.clone()).expect("the items of an area") {
            let places = if let Item::Text(text) = item { inked(text).corners.to_vec() } else { reach(item) };
            let (left, top) = (area.from.x - 0.02, area.from.y - 0.02);
            for place in places {
                let inside =
                    place.x >= left && place.x <= area.to.x + 0.02 && place.y >= top && place.y <= area.to.y + 0.05;
                assert!(
                    inside,
                    "{name}: {:?} is drawn to {place:?}, outside {:?} to {:?}",
                    area.kind, area.from, area.to
                );
            }
        }
    }
    for heading in areas.iter().filter(|area| area.kind == Kind::Heading) {
        let follows = |area: &&Area| area.kind != Kind::Heading && area.to.y > heading.to.y + 0.1;
        let followed = areas.iter().find(follows);
        assert!(followed.is_some(), "{name}: a heading at {:?} stands last", heading.from);
    }
    for head in areas.iter().filter(|area| area.kind == Kind::Head) {
        let mut rows = areas.iter().filter(|area| area.kind == Kind::Row && area.element == head.element);
        assert!(rows.any(|row| row.from.y >= head.to.y - 1e-6), "{name}: a table's head stands alone");
    }
    for row in areas.iter().filter(|area| area.kind == Kind::Row) {
        let mut heads = areas.iter().filter(|area| area.kind == Kind::Head && area.element == row.element);
        assert!(heads.any(|head| head.to.y <= row.from.y + 1e-6), "{name}: a row without the head of its table");
    }
}

/// Title and edition run above every page but the cover and the sheets.
fn assert_running(name: &str, document: &Document, print: &Print) {
    let start: String = document.title.chars().take(12).collect();
    let edition: String = document.running.chars().take(8).collect();
    for (number, (leaf, areas)) in print.leaves.iter().zip(&print.areas).enumerate().skip(1) {
        let mut above = leaf.page.items.iter().filter_map(|item| match item {
            Item::Text(text) if text.at.y < 0.7 => Some(text.words.as_str()),
            _ => None,
        });
        let told = above.clone().any(|words| words.starts_with(&start)) && above.any(|words| words.contains(&edition));
        assert!(told || areas.is_empty(), "{name}, page {}: title and edition run above it", number + 1);
    }
}

/// Where pages break: rows stay whole, paragraphs leave no line alone, no page is nearly empty.
fn assert_breaks(name: &str, print: &Print) {
    let mut rows: BTreeMap<(usize, usize), (BTreeSet<usize>, f64)> = BTreeMap::new();
    let mut lines: BTreeMap<(usize, usize), BTreeMap<usize, usize>> = BTreeMap::new();
    for (page, area) in
        print.areas.iter().enumerate().flat_map(|(page, areas)| areas.iter().map(move |area| (page, area)))
    {
        let key = (area.element, area.member);
        match area.kind {
            Kind::Row => {
                let (pages, high) = rows.entry(key).or_default();
                pages.insert(page);
                *high += area.to.y - area.from.y;
            }
            Kind::Line => *lines.entry(key).or_default().entry(page).or_default() += 1,
            _ => {}
        }
    }
    for (pages, high) in rows.values() {
        assert!(pages.len() == 1 || *high > HIGHEST_ROW, "{name}: a row is split over pages {pages:?}");
    }
    for by_page in lines.values().filter(|by_page| by_page.len() > 1) {
        assert!(by_page.values().all(|&count| count > 1), "{name}: a line stands alone: {by_page:?}");
    }
    let begins = |page: usize| {
        let (Some(leaf), Some(areas)) = (print.leaves.get(page), print.areas.get(page)) else { return true };
        let top = areas.iter().map(|area| area.from.y).fold(f64::INFINITY, f64::min);
        areas.is_empty() || leaf.bookmarks.iter().any(|mark| mark.depth == 1 && mark.at.y <= top + 1e-6)
    };
    for (page, areas) in print.areas.iter().enumerate().filter(|(_, areas)| !areas.is_empty()) {
        let (top, low) =
            areas.iter().fold((f64::INFINITY, 0.0_f64), |(t, l), area| (t.min(area.from.y), l.max(area.to.y)));
        let whole = begins(page) && begins(page + 1);
        assert!(low - top >= LEAST || whole, "{name}: page {} holds but {:.2} in", page + 1, low - top);
    }
}

/// Every link has its place, every place one page, every part its bookmark.
fn assert_links(name: &str, document: &Document, print: &Print) {
    let mut places = BTreeSet::new();
    for (place, _) in print.leaves.iter().flat_map(|leaf| &leaf.places) {
        assert!(places.insert(place.name()), "{name}: {} is twice in the packet", place.name());
    }
    for (leaf, link) in print.leaves.iter().flat_map(|leaf| leaf.links.iter().map(move |link| (leaf, link))) {
        if let Target::Place(place) = &link.target {
            assert!(places.contains(place.name()), "{name}, {}: a link to {} leads nowhere", leaf.label, place.name());
        }
        let (right, low) = (leaf.page.width.to_inches(), leaf.page.height.to_inches());
        let drawn = link.from.x < link.to.x && link.from.y < link.to.y && link.from.x >= 0.0 && link.from.y >= 0.0;
        assert!(drawn && link.to.x <= right && link.to.y <= low, "{name}, {}: {link:?}", leaf.label);
    }
    let marked: Vec<&str> = print
        .leaves
        .iter()
        .flat_map(|leaf| &leaf.bookmarks)
        .filter(|mark| mark.depth == 1)
        .map(|mark| mark.title.as_str())
        .collect();
    let parts: Vec<&str> = document
        .parts
        .iter()
        .filter(|part| part.medium != Medium::Screen)
        .map(|part| if part.place.name() == "block" { document.title.as_str() } else { part.title.as_str() })
        .collect();
    assert_eq!(marked, parts, "{name}: every part is bookmarked, in order");
}
