//! How long a document of two hundred leaves takes to draw, and what it weighs: `cargo bench --bench document`.
//!
//! Nothing is asserted; the figures are for people.

#![allow(
    clippy::expect_used,
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    clippy::disallowed_methods,
    missing_docs,
    reason = "a bench may stop at what it did not expect, and its figures are for people"
)]

use std::time::{Duration, Instant};

use piecewright::backend::pdf::{self, DocumentFacts};
use piecewright::backend::svg;
use piecewright::geometry::{Length, Point, Segment};
use piecewright::packet::leaf::{Bookmark, Leaf, Link, Place, Target};
use piecewright::packet::page::{Colour, Item, Layer, Page, Path, Stroke, Text, Weight};

const LEAVES: u32 = 200;
const RUNS: usize = 7;

fn main() {
    let leaves: Vec<Leaf> = (0..LEAVES).map(leaf).collect();
    let facts = DocumentFacts { title: "Moorings".to_owned(), language: "en".to_owned(), ..DocumentFacts::default() };
    println!("{LEAVES} leaves of 2,000 pieces of paths and 60 lines of text each");
    let mut bytes = 0;
    let time = median(|| bytes = pdf::draw(&leaves, &facts).expect("a document").len());
    println!("pdf::draw {:>8.1} ms, {:.2} MiB", time.as_secs_f64() * 1e3, bytes as f64 / 1_048_576.0);
    let alone = [Leaf { links: Vec::new(), ..leaves[0].clone() }];
    let time = median(|| bytes = pdf::draw(&alone, &facts).expect("a document").len());
    println!("one leaf  {:>8.1} ms, {:.1} KiB", time.as_secs_f64() * 1e3, bytes as f64 / 1024.0);
    let time = median(|| bytes = leaves.iter().map(|leaf| svg::draw(&leaf.page).len()).sum());
    println!("svg::draw {:>8.1} ms, {:.2} MiB", time.as_secs_f64() * 1e3, bytes as f64 / 1_048_576.0);
}

fn median(mut run: impl FnMut()) -> Duration {
    let mut times: Vec<Duration> = (0..RUNS)
        .map(|_| {
            let start = Instant::now();
            run();
            start.elapsed()
        })
        .collect();
    times.sort();
    times[RUNS / 2]
}

/// Numbers that look as if they came by chance, and come the same each time.
struct Scatter(u64);

impl Scatter {
    fn below(&mut self, limit: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64 * limit
    }

    fn point(&mut self) -> Point {
        Point::new(0.5 + self.below(7.5), 0.5 + self.below(10.0))
    }
}

fn leaf(number: u32) -> Leaf {
    const WORDS: [&str; 8] = ["harbour", "lantern", "seam", "allowance", "press", "toward", "the", "edge"];
    let mut scatter = Scatter(u64::from(number) + 1);
    let mut items: Vec<Item> = Vec::new();
    for k in 0..250_u8 {
        let corners: Vec<Point> = (0..4).map(|_| scatter.point()).collect();
        let fill = Some(Colour([k % 7 * 30, 90, 120]));
        items.push(Path::area(&corners, fill, Some(Stroke::plain(0.5, Colour::BLACK)), Layer::Fabric).into());
        let lines = [(); 4].map(|()| Segment::new(scatter.point(), scatter.point()));
        items.push(Path::lines(lines, Stroke::plain(0.8, Colour::grey(90)).dashed(&[4.0, 2.0]), Layer::Seams).into());
    }
    for k in 0..60 {
        let mut line = String::new();
        while line.len() < 60 {
            line.push_str(WORDS[scatter.below(8.0) as usize]);
            line.push(' ');
        }
        let weight = if k % 10 == 0 { Weight::Bold } else { Weight::Regular };
        items.push(Text::line(Point::new(0.6, 0.6 + f64::from(k) * 0.16), &line, 10.0, weight).into());
    }
    let page = Page {
        width: Length::inches(8.5),
        height: Length::inches(11.0),
        title: format!("Leaf {number}"),
        description: String::new(),
        items,
    };
    let at = Point::new(0.5, 0.5);
    let next = Place::numbered("leaf", &[(number + 1) as usize % LEAVES as usize]);
    let own = Place::numbered("leaf", &[number as usize]);
    let link = |target: &Place| Link { from: at, to: Point::new(2.0, 1.0), target: Target::Place(target.clone()) };
    Leaf {
        page,
        label: format!("{}", number + 1),
        bookmarks: vec![Bookmark { depth: 1, title: format!("Leaf {number}"), at }],
        links: vec![link(&own), link(&next)],
        places: vec![(own, at)],
    }
}
