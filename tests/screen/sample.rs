//! A document with one of everything, and with words that would do harm if they became markup.

use std::sync::Arc;

use piecewright::geometry::{Length, Point};
use piecewright::packet::document::{
    Cell, Column, Content, Cover, Document, Element, Fact, Figure, FormLine, Heading, List, Manner, Mark, Medium,
    Paragraph, Part, PinLabel, Reference, Sign, Start, Step, Swatch, Table, Tile,
};
use piecewright::packet::leaf::{Leaf, Place, Target};
use piecewright::packet::page::{Colour, Item, Layer, Page, Path, Photo, Stroke, Text, Weight};
use piecewright::picture::{Pixels, Raster};

/// Words that try to get out of whatever holds them.
pub const HOSTILE: &str =
    "\"><script>document.title='broken'</script><img src=x onerror=\"document.title='broken'\"> & ' gull";

fn words(text: &str) -> String {
    text.to_owned()
}

fn fact(name: &str, value: &str) -> Fact {
    Fact { name: words(name), value: words(value) }
}

fn paragraph(text: &str, manner: Manner) -> Element {
    Element::Paragraph(Paragraph { words: words(text), manner })
}

fn heading(depth: u8, text: &str, place: Option<&str>) -> Element {
    let place = place.map(Place::new);
    Element::Heading(Heading { depth, words: words(text), fabric: None, place, bookmarked: true })
}

fn mark(number: u32) -> Mark {
    let colour = [[31, 79, 110], [236, 220, 178], [178, 58, 46], [250, 250, 248]][number as usize % 4];
    Mark { number, colour: Colour(colour) }
}

/// A boat of two areas.
fn figure(description: &str, caption: &str) -> Figure {
    let [keel, bow, mast, sail] = [(0.5, 1.6), (2.7, 1.6), (1.4, 0.3), (2.5, 1.4)].map(|(x, y)| Point::new(x, y));
    let hull = [keel, bow, Point::new(2.2, 2.1), Point::new(1.0, 2.1)];
    let pen = || Some(Stroke::plain(1.0, Colour::BLACK));
    let items = vec![
        Path::area(&hull, Some(mark(0).colour), pen(), Layer::Fabric).into(),
        Path::area(&[mast, sail, Point::new(1.4, 1.4)], Some(mark(1).colour), pen(), Layer::Fabric).into(),
        Text::line(Point::new(1.4, 1.9), "A1", 9.0, Weight::Bold).into(),
    ];
    let drawing = Page {
        width: Length::inches(3.2),
        height: Length::inches(2.4),
        title: words("A1"),
        description: words(description),
        items,
    };
    Figure { drawing, caption: words(caption) }
}

/// A photograph of four pixels.
fn photo() -> Figure {
    let pixels = Pixels::Rgb(vec![31, 79, 110, 236, 220, 178, 178, 58, 46, 250, 250, 248]);
    let (width, height) = (Length::inches(3.0), Length::inches(2.0));
    let raster = Arc::new(Raster { width: 2, height: 2, pixels });
    let item = Item::Photo(Photo { corner: Point::new(0.0, 0.0), width, height, raster });
    let (title, description) = (words("Lugger"), words("The finished block on the quay wall."));
    Figure { drawing: Page { width, height, title, description, items: vec![item] }, caption: words("On the quay") }
}

fn step(number: usize, title: &str) -> Element {
    Element::Step(Box::new(Step {
        place: Place::numbered("step", &[1, number]),
        title: words(title),
        fabric: None,
        facts: vec![
            fact("Cut piece", "3½\u{a0}×\u{a0}2¼\u{a0}in"),
            fact("Sewing line", "2⅞ in"),
            fact("Past the line, left and right", "½ in and ⅜ in"),
        ],
        text: vec![
            Paragraph {
                words: words(
                    "Fold the paper back along the line before section A2 and trim what stands beyond it to ¼ in. Lay the next piece right side up beneath it, edge to edge.",
                ),
                manner: Manner::Plain,
            },
            Paragraph {
                words: words("The tip is thin: look before you press."),
                manner: Manner::Labelled(words("Care:")),
            },
        ],
        figures: vec![
            figure(
                "The printed side: the line before section A2 is folded, the new piece lies beneath.",
                "From the printed side",
            ),
            figure("The front with sections A1 and A2 sewn.", "From the front"),
        ],
    }))
}

fn list(sign: Sign, items: &[&str]) -> Element {
    Element::List(List { sign, items: items.iter().map(|item| words(item)).collect() })
}

fn column(head: &str) -> Column {
    Column { head: words(head), share: 0.25 }
}

fn cell(text: &str) -> Cell {
    Cell { fabric: None, words: words(text) }
}

fn tables() -> [Element; 2] {
    let row = |number: u32, name: &str, size: &str| {
        vec![
            Cell { fabric: Some(mark(number)), words: words(name) },
            cell(size),
            cell(&number.to_string()),
            cell("A1, A4 and the long strip below the sail"),
        ]
    };
    let cutting = Table {
        caption: words("Pieces to cut"),
        caption_seen: true,
        columns: ["Fabric", "Size", "Pieces", "For"].map(column).into(),
        rows: vec![
            row(1, "Beam", "3½\u{a0}×\u{a0}2¼\u{a0}in"),
            row(2, "Harbourmasterofficebrickred", "1¾\u{a0}×\u{a0}6\u{a0}in"),
        ],
    };
    let report = Table {
        caption: words("What you measured"),
        caption_seen: false,
        columns: ["", "Should be", "Measured"].map(column).into(),
        rows: vec![vec![cell("Hull"), cell("6½ in"), cell("")], vec![cell(""), cell("4 in"), cell("")]],
    };
    [Element::Table(cutting), Element::Table(report)]
}

fn part(place: &str, title: &str, medium: Medium, content: Content) -> Part {
    Part { place: Place::new(place), title: words(title), start: Start::NewPage, medium, content }
}

fn reference(text: &str, target: Target) -> Reference {
    Reference { words: words(text), target }
}

fn references() -> Element {
    let place = |name: &str| Target::Place(Place::new(name));
    let address = |address: &str| Target::Address(words(address));
    Element::See(vec![
        reference("Cutting", place("cutting")),
        reference("Step 2", place("step-1-2")),
        reference("Sheet 1", place("sheet-1")),
        reference("Nowhere", place("nowhere")),
        reference("The harbour's page", address("https://harbour.example/?a=1&b=2")),
        reference("Write to the keeper", address("mailto:keeper@harbour.example")),
        reference("Trap", address("javascript:document.title='broken'")),
        reference("Another trap", address("data:text/html,<script>1</script>")),
    ])
}

fn cover() -> Content {
    Content::Cover(Box::new(Cover {
        line: words("Edition 1.2 · 8 in · by the keeper"),
        logo: Some(figure("The sign of Quay Patterns.", "")),
        photo: Some(photo()),
        fronts: vec![figure("The block Lugger from the front: a boat under one sail.", "Lugger, from the front")],
        facts: vec![fact("Finished size", "8 × 8 in"), fact("Papers", "3"), fact("Sections", "17")],
        words: vec![words("A boat that every child on our quay can draw.")],
    }))
}

fn fabric() -> Content {
    let [cutting, _] = tables();
    let label = |swatch: Swatch| PinLabel {
        mark: swatch.mark,
        fabric: swatch.name.clone(),
        size: "half of a 3½ in square".to_owned(),
        count: "2 pieces".to_owned(),
        sections: vec!["A1".to_owned(), swatch.name],
        pattern: HOSTILE.to_owned(),
    };
    let swatch = |number: u32, name: &str| Swatch {
        mark: mark(number),
        name: words(name),
        lines: vec![words("¼ yd, at least 40 in wide"), words("printed one way")],
    };
    Content::Flow(vec![
        paragraph("Cut generously; every size has its allowance in it.", Manner::Plain),
        Element::Swatches(vec![swatch(1, "Beam"), swatch(2, "Red lead"), swatch(3, HOSTILE)]),
        Element::Labels(vec![label(swatch(1, "Beam")), label(swatch(3, HOSTILE))]),
        Element::Heading(Heading {
            depth: 2,
            words: words("Beam"),
            fabric: Some(mark(1)),
            place: Some(Place::new("beam")),
            bookmarked: true,
        }),
        cutting,
        heading(3, "Out of the scraps", None),
        paragraph("Small pieces come out of what is left.", Manner::Quiet),
        heading(2, "Tools", None),
        list(Sign::Box, &["An iron", "A ruler with a lip", HOSTILE]),
        list(Sign::Dot, &["Thread", "Pins"]),
        list(Sign::Number, &["Wash", "Press"]),
    ])
}

fn sewing() -> Content {
    Content::Flow(vec![
        heading(3, "A heading that begins too deep", Some("deep")),
        Element::Facts(vec![fact("Stitch", "1.5 mm"), fact("Needle", "80")]),
        step(1, "Sections A1 and A2 · beam"),
        step(2, HOSTILE),
        heading(2, "Joining", None),
        step(3, "Join the hull to the sail"),
        Element::Figures(vec![figure("", "No description"), figure("Both are said.", "Both are said.")]),
        Element::Tiles(vec![
            Tile {
                figure: figure("A paper folded back.", ""),
                title: words("Fold"),
                words: words("Along the printed line."),
            },
            Tile { figure: figure("A seam.", ""), title: words("Sew"), words: words("Through paper and fabric.") },
        ]),
        references(),
    ])
}

fn report() -> Content {
    let [_, report] = tables();
    let line = |label: &str, lines: u8| FormLine { label: words(label), lines };
    Content::Flow(vec![
        paragraph("For testers.", Manner::Labelled(words("Note:"))),
        report,
        Element::Form(vec![line("Hours", 1), line("Where a piece came up short", 4)]),
    ])
}

/// One of everything.
pub fn document() -> Document {
    let leaf = Leaf {
        page: figure("Never seen on a screen.", "").drawing,
        label: words("Sheet 1"),
        bookmarks: Vec::new(),
        places: vec![(Place::new("sheet-1"), Point::new(0.0, 0.0))],
        links: Vec::new(),
    };
    let print_only = vec![paragraph("Only on paper.", Manner::Plain)];
    Document {
        title: words("Lugger"),
        running: words("Edition 1.2 · 8 in"),
        stamp: Some(words("For testers only")),
        parts: vec![
            part("cover", "The block", Medium::Both, cover()),
            part("cutting", "Fabric and cutting", Medium::Both, fabric()),
            part("print", "How to print", Medium::Print, Content::Flow(print_only)),
            part("sheets", "Foundations", Medium::Both, Content::Leaves(vec![leaf])),
            part("steps", "Sewing, step by step", Medium::Both, sewing()),
            part("report", "Report", Medium::Screen, report()),
        ],
    }
}
