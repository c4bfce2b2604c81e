//! What the packet says and shows of cutting is what the model cuts: in the drawings of the cloth, on the labels, in the files for a spreadsheet, on the
//! windows for motifs, and of edges on the bias.
//!
//! `FIGURES=folder cargo test --test cutting_packet -- --ignored` writes packets of cuttings that no sample has, to look at.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

use piecewright::backend::{csv, html, pdf, svg};
use piecewright::geometry::{Length, Point, Segment, Tolerance, Vector};
use piecewright::model::{
    self, Amount, FabricCutting, Fit, Model, OwnCloth, OwnedPiece, Purchase, Shape, Stock, StripPiece,
};
use piecewright::packet::document::{Content, Document, Element, PinLabel, Table};
use piecewright::packet::figure::{cloth, cloth_letters, windows};
use piecewright::packet::measure::Measures;
use piecewright::packet::page::{Item, Layer, Page, Subpath};
use piecewright::packet::steps::bias::bias_edges;
use piecewright::packet::words::Words;
use piecewright::packet::{Brief, chart, compose};
use piecewright::pattern::{CutShape, Pattern, fat_quarter};
use piecewright::piecing;
use support::layout::{assert_laid_out, assert_packet};
use support::{resolved, samples, stem};

fn built(pattern: &Pattern) -> Model {
    let proof = piecing::prove(pattern).expect("a sample can be sewn");
    model::build(pattern, &proof, 0).expect("the size it is drawn for")
}

/// The samples cut in every way: as drawn, as triangles and trapezoids for a class of eight, with motifs, from fat quarters, from the sewer's own cloth.
fn models() -> Vec<(String, Model)> {
    let mut all = Vec::new();
    for path in samples() {
        let pattern = resolved(&path);
        let name = stem(&path);
        all.push((name.clone(), built(&pattern)));
        for shape in [CutShape::Triangles, CutShape::Trapezoid] {
            let mut pattern = pattern.clone();
            (pattern.cut.shape, pattern.people) = (Some(shape), 8);
            all.push((format!("{name} as {}", shape.word()), built(&pattern)));
        }
        all.push((format!("{name} with motifs"), with_motifs(&pattern)));
        all.push((format!("{name} from fat quarters"), from_fat_quarters(&pattern)));
        all.push((format!("{name} from own cloth"), from_own_cloth(&pattern)));
    }
    all
}

/// Every second section is cut round a motif in its middle.
fn with_motifs(pattern: &Pattern) -> Model {
    let mut pattern = pattern.clone();
    for block in &mut pattern.blocks {
        for unit in block.units.iter_mut().filter(|unit| unit.kind == model::UnitKind::Paper) {
            for section in unit.sections.iter_mut().step_by(2).filter(|section| section.pieced.is_empty()) {
                section.motif = Some(section.polygon.centroid());
            }
        }
    }
    built(&pattern)
}

/// The strips of every fabric that fits come from fat quarters, as many on each as it is long.
fn from_fat_quarters(pattern: &Pattern) -> Model {
    let mut pattern = pattern.clone();
    pattern.cloth.stock = Stock::FatQuarters;
    let mut model = built(&pattern);
    let (width, length) = fat_quarter(model.units);
    for cutting in &mut model.cutting {
        cutting.sheet = (width, Some(length));
        let (mut sheet, mut used) = (0, Length::ZERO);
        for strip in &mut cutting.strips {
            if used > Length::ZERO && used + strip.width > length {
                (sheet, used) = (sheet + 1, Length::ZERO);
            }
            used = used + strip.width;
            strip.sheet = sheet;
        }
        let count = u32::try_from(sheet + 1).expect("few");
        cutting.buy = Purchase { amount: Amount::FatQuarters(count), fat_quarter: false, fat_eighth: false };
    }
    model
}

/// There is a fat quarter of every fabric, which gives the first strip; of every second fabric that is enough.
fn from_own_cloth(pattern: &Pattern) -> Model {
    let mut model = built(pattern);
    for (at, cutting) in model.cutting.iter_mut().enumerate() {
        let used = vec![
            (OwnedPiece::FatQuarter, cutting.strips.iter().take(1).cloned().collect()),
            (OwnedPiece::Scrap(Length::inches(9.0), Length::inches(7.0)), Vec::new()),
        ];
        cutting.own =
            Some(OwnCloth { used, short: (at % 2 == 0).then_some(cutting.buy), rest: cutting.strips.clone() });
        cutting.other_widths = vec![(Length::inches(54.0), cutting.buy)];
        cutting.price = Some(Length::inches(2.0));
    }
    model
}

/// The outlines of the blanks in a drawing: rectangles that are drawn as fabric.
fn drawn_blanks(page: &Page) -> Vec<(Point, Point)> {
    let outline = |item: &Item| match item {
        Item::Path(path) if path.layer == Layer::Fabric => {
            let corners: Vec<Point> = path.subpaths.iter().flat_map(Subpath::places).collect();
            let (from, to) = bounds(&corners);
            let upright = corners.iter().all(|c| {
                [from.x, to.x].iter().any(|x| (x - c.x).abs() < 1e-9)
                    && [from.y, to.y].iter().any(|y| (y - c.y).abs() < 1e-9)
            });
            let mut distinct: Vec<(i64, i64)> = corners.iter().map(|c| (key(c.x), key(c.y))).collect();
            distinct.sort_unstable();
            distinct.dedup();
            (upright && distinct.len() == 4).then_some((from, to))
        }
        _ => None,
    };
    page.items.iter().filter_map(outline).collect()
}

#[expect(clippy::cast_possible_truncation, reason = "places on a page are small")]
fn key(inches: f64) -> i64 {
    (inches * 1e7).round() as i64
}

fn bounds(corners: &[Point]) -> (Point, Point) {
    let least = Point::new(f64::INFINITY, f64::INFINITY);
    let most = Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY);
    corners.iter().fold((least, most), |(a, b), p| {
        (Point::new(a.x.min(p.x), a.y.min(p.y)), Point::new(b.x.max(p.x), b.y.max(p.y)))
    })
}

/// How far a blank reaches along its strip and across it.
fn sides(cutting: &FabricCutting, piece: &StripPiece) -> (f64, f64) {
    let blank = cutting.pieces[piece.group].blanks[piece.blank];
    let (width, height) = (blank.width.to_inches(), blank.height.to_inches());
    if piece.turned { (height, width) } else { (width, height) }
}

#[test]
fn the_drawings_show_every_strip_and_every_blank_of_it_once_at_one_scale() {
    let words = Words::english();
    let mut seen = 0;
    for (name, model) in models() {
        let measures = Measures::new(&words, model.units);
        for cutting in &model.cutting {
            let pages = cloth(&model, cutting, measures);
            let mut drawn: Vec<(Point, Point)> = Vec::new();
            for page in &pages {
                assert_laid_out(&format!("{name} {}", page.title), page, 0.0);
                drawn.extend(drawn_blanks(page));
            }
            // Equal strips of one sheet, and equal sheets, are drawn once.
            let mut sheets: BTreeMap<usize, Vec<(usize, usize)>> = BTreeMap::new();
            for run in chart::runs(&cutting.strips) {
                sheets.entry(cutting.strips[run.0].sheet).or_default().push(run);
            }
            let mut once: Vec<Vec<(usize, usize)>> = Vec::new();
            for runs in sheets.into_values() {
                let content = |runs: &[(usize, usize)]| {
                    let each =
                        runs.iter().map(|&(at, n)| (n, cutting.strips[at].width, cutting.strips[at].pieces.clone()));
                    each.collect::<Vec<_>>()
                };
                if !once.iter().any(|other| content(other) == content(&runs)) {
                    once.push(runs);
                }
            }
            let told: usize = chart::runs(&cutting.strips).iter().map(|run| run.1).sum();
            assert_eq!(told, cutting.strips.len(), "{name}");
            let blanks = once.iter().flatten().flat_map(|run| &cutting.strips[run.0].pieces);
            let wanted: Vec<(f64, f64, f64)> = blanks
                .map(|piece| {
                    let (along, across) = sides(cutting, piece);
                    (piece.x.to_inches(), along, across)
                })
                .collect();
            assert_eq!(drawn.len(), wanted.len(), "{name}: each blank is drawn once");
            let Some(first) = drawn.first().zip(wanted.first()) else { continue };
            let scale = (first.0.1.x - first.0.0.x) / first.1.1;
            let left = first.0.0.x - first.1.0 * scale;
            for ((from, to), (x, along, across)) in drawn.iter().zip(&wanted) {
                let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-6, "{name}: {a} is not {b}");
                near(from.x, left + x * scale);
                near(to.x - from.x, along * scale);
                near(to.y - from.y, across * scale);
                assert!(to.x <= left + cutting.sheet.0.to_inches() * scale + 1e-6, "{name}: within the cloth");
                seen += 1;
            }
            // Every blank bears its sections or its letter, unless it is smaller than any type.
            let letters = cloth_letters(cutting, measures);
            let mut labels: BTreeMap<&str, usize> = BTreeMap::new();
            for run in once.iter().flatten() {
                for piece in &cutting.strips[run.0].pieces {
                    let label = letters.get(piece.group).unwrap_or(&cutting.pieces[piece.group].label);
                    *labels.entry(label.as_str()).or_default() += 1;
                }
            }
            for (label, count) in labels {
                let there = pages.iter().flat_map(Page::texts).filter(|text| text.words == label).count();
                assert_eq!(there, count, "{name}: {label} in the drawing");
            }
        }
    }
    assert!(seen > 1_000, "{seen}");
}

fn tables(document: &Document) -> Vec<&Table> {
    let flows = document.parts.iter().filter_map(|part| match &part.content {
        Content::Flow(elements) => Some(elements),
        _ => None,
    });
    flows.flatten().filter_map(|element| if let Element::Table(table) = element { Some(table) } else { None }).collect()
}

fn labels(document: &Document) -> Vec<&PinLabel> {
    let part = document.parts.iter().find(|part| part.place.name() == "labels").expect("a part of labels");
    let Content::Flow(elements) = &part.content else { panic!("labels flow") };
    elements
        .iter()
        .filter_map(|e| if let Element::Labels(labels) = e { Some(labels) } else { None })
        .flatten()
        .collect()
}

#[test]
fn every_size_has_one_label_and_a_row_in_each_table_and_file() {
    let words = Words::english();
    // Each way of cutting on another sample.
    for (name, model) in models().into_iter().step_by(7) {
        let packet = compose(&model, Brief::default(), &words, None, &mut |_| {});
        assert_packet(&name, &packet);
        let groups: Vec<(usize, &model::PieceGroup)> = model
            .cutting
            .iter()
            .flat_map(|cutting| cutting.pieces.iter().map(|group| (cutting.fabric, group)))
            .collect();
        let labels = labels(&packet.document);
        assert_eq!(labels.len(), groups.len(), "{name}");
        for (label, (fabric, group)) in labels.iter().zip(&groups) {
            assert_eq!(label.fabric, model.fabrics[*fabric].name, "{name}");
            assert_eq!(label.sections.join(", "), group.label, "{name}");
            let number = group.count / model.people;
            let told = if number == 1 { "one piece".to_owned() } else { format!("{number} pieces") };
            let told = if model.people > 1 { format!("{told} in each kit") } else { told };
            assert_eq!(label.count, told, "{name}");
        }
        // What goes into all kits together is what is cut.
        let kits = tables(&packet.document)
            .into_iter()
            .find(|table| table.caption == format!("In each of the {} kits", model.people));
        assert_eq!(kits.is_some(), model.people > 1, "{name}");
        if let Some(kits) = kits {
            let per_kit: u32 = kits.rows.iter().map(|row| row[2].words.parse::<u32>().expect("a number")).sum();
            assert_eq!(per_kit * model.people, groups.iter().map(|(_, group)| group.count).sum::<u32>(), "{name}");
        }
        let text = csv::chart(&model);
        let rows: Vec<Vec<String>> = text.lines().map(fields).collect();
        assert!(rows.iter().all(|row| row.len() == rows[0].len()), "{name}");
        assert_eq!(rows.len(), groups.len() + 1, "{name}");
        let column = |head: &str| rows[0].iter().position(|field| field == head).expect("a column");
        let number = |row: &[String], head: &str| row[column(head)].parse::<f64>().unwrap_or(0.0);
        for (row, (_, group)) in rows.iter().skip(1).zip(&groups) {
            assert_eq!(row[column("count")], group.count.to_string());
            let made = number(row, "blanks") * number(row, "gives") + number(row, "odd_blanks");
            if group.fit == Fit::Motif {
                assert_eq!(row[column("shape")], "motif");
            } else {
                assert!((made - number(row, "left_over") - f64::from(group.count)).abs() < 1e-9, "{name}: {row:?}");
            }
        }
        let text = csv::strips(&model);
        let rows: Vec<Vec<String>> = text.lines().skip(1).map(fields).collect();
        let mut of_fabric: BTreeMap<&str, usize> = BTreeMap::new();
        for row in &rows {
            let number = |at: usize| row[at].parse::<usize>().expect("a number");
            *of_fabric.entry(row[0].as_str()).or_default() += number(3) + 1 - number(2);
        }
        for cutting in &model.cutting {
            let told = of_fabric.get(model.fabrics[cutting.fabric].key.as_str()).copied().unwrap_or(0);
            assert_eq!(told, cutting.strips.len(), "{name}");
        }
    }
}

/// The fields of a line of comma-separated values.
fn fields(line: &str) -> Vec<String> {
    let (mut found, mut quoted) = (vec![String::new()], false);
    for letter in line.chars() {
        match letter {
            '"' => quoted = !quoted,
            ',' if !quoted => found.push(String::new()),
            _ => found.last_mut().expect("at least one").push(letter),
        }
    }
    found
}

#[test]
fn windows_have_their_true_size_and_stand_upright() {
    let words = Words::english();
    let mut seen = 0;
    for path in samples() {
        let model = with_motifs(&resolved(&path));
        let found = windows(&model, &words);
        let mut wanted = Vec::new();
        for block in &model.blocks {
            for variant in block.variants.iter().filter(|variant| variant.sewn > 0) {
                wanted.extend(variant.cuts.iter().filter(|cut| cut.motif.is_some()).map(|cut| (block, variant, cut)));
            }
        }
        assert_eq!(found.len(), wanted.len());
        let mut paths: Vec<String> = found.iter().map(|window| window.path(&model)).collect();
        paths.sort();
        paths.dedup();
        assert_eq!(paths.len(), found.len(), "each window is a file of its own");
        for (window, (block, variant, cut)) in found.iter().zip(wanted) {
            assert_laid_out(&window.name, &window.page, 0.0);
            let drawn = |layer: Layer| {
                let path = window.page.items.iter().find_map(|item| match item {
                    Item::Path(path) if path.layer == layer => Some(path),
                    _ => None,
                });
                path.expect("is drawn").subpaths.iter().flat_map(Subpath::places).collect::<Vec<_>>()
            };
            let (from, to) = bounds(&drawn(Layer::Cutting));
            assert!((to.x - from.x - cut.width.to_inches()).abs() < 1e-6, "{}", window.name);
            assert!((to.y - from.y - cut.height.to_inches()).abs() < 1e-6, "{}", window.name);
            let section = &block.unit_of(variant).sections[cut.section];
            let inner = piecewright::geometry::Polygon::hull(drawn(Layer::Seams), Tolerance::of_extent(1.0));
            let area = inner.expect("an area").area();
            assert!((area - section.polygon.area()).abs() < 1e-6, "{}: {area}", window.name);
            // From the front: as the unit is drawn, or its mirror image where it is sewn so.
            let turn = |corners: &[Point]| -> f64 {
                corners.iter().zip(corners.iter().cycle().skip(1)).map(|(a, b)| a.x * b.y - b.x * a.y).sum()
            };
            let outer: Vec<Point> = window
                .page
                .items
                .iter()
                .find_map(|item| match item {
                    Item::Path(path) if path.layer == Layer::Cutting => {
                        let subpath = &path.subpaths[0];
                        Some(std::iter::once(subpath.start).chain(subpath.places().skip(1).step_by(3)).collect())
                    }
                    _ => None,
                })
                .expect("is drawn");
            assert_eq!(turn(&outer) > 0.0, !variant.mirrored, "{}", window.name);
            seen += 1;
        }
    }
    assert!(seen > 50, "{seen}");
}

#[test]
fn the_edges_on_the_bias_are_the_outer_edges_far_off_the_threads() {
    let mut seen = [0, 0];
    for (name, model) in models() {
        for block in &model.blocks {
            let told = bias_edges(block);
            let near = Tolerance::of_extent(block.width.max(block.height).to_inches());
            let mut wanted: Vec<Segment> = Vec::new();
            for place in &block.placements {
                let variant = &block.variants[place.variant];
                for (k, section) in block.unit_of(variant).sections.iter().enumerate() {
                    for (s, area) in section.areas().enumerate() {
                        let strip = (!section.pieced.is_empty()).then_some(s);
                        let cuts: Vec<_> =
                            variant.cuts.iter().filter(|cut| cut.section == k && cut.strip == strip).collect();
                        // Which of several is for this place is another matter.
                        let [cut] = cuts.as_slice() else { continue };
                        let threads = Vector::at_bearing(cut.grain);
                        for edge in area.edges() {
                            let way = (edge.end - edge.start).unit().expect("an edge has length");
                            // The grain is told from the x axis, a bearing from above: across or along is the same here.
                            let off = way.dot(threads).abs().max(way.cross(threads).abs());
                            let edge = place.transform.apply_to_segment(edge);
                            let outer = block.outline.edges().any(|outer| {
                                [edge.start, edge.end].iter().all(|&end| near.is_zero(outer.distance(end)))
                            });
                            if outer {
                                seen[0] += 1;
                            }
                            if outer && off < cosine_of_22_5_degrees() - 1e-9 {
                                wanted.push(edge);
                            }
                        }
                    }
                }
            }
            for edge in &wanted {
                let is = |other: &Segment| {
                    near.is_zero(other.start.distance(edge.start)) && near.is_zero(other.end.distance(edge.end))
                };
                assert!(told.iter().any(|told| is(&told.edge)), "{name}: {edge:?} is not told");
            }
            let several = told.len() - wanted.len().min(told.len());
            let many_turns =
                block.variants.iter().any(|variant| variant.cuts.iter().any(|cut| cut.turn.to_degrees() > 0.0));
            assert!(several == 0 || many_turns, "{name}: {several} too many");
            seen[1] += wanted.len();
        }
    }
    assert!(seen[0] > 200 && seen[1] > 5, "{seen:?}");
}

/// The cosine of 22.5 degrees.
fn cosine_of_22_5_degrees() -> f64 {
    (2.0 + std::f64::consts::SQRT_2).sqrt() / 2.0
}

#[test]
fn shapes_of_every_kind_occur() {
    let mut kinds = BTreeMap::new();
    for (_, model) in models() {
        for group in model.cutting.iter().flat_map(|cutting| &cutting.pieces) {
            let kind = match group.shape {
                _ if group.fit == Fit::Motif => "motif",
                Shape::Rectangle => "rectangle",
                Shape::HalfSquare => "half",
                Shape::QuarterSquare => "quarter",
                Shape::Trapezoid { .. } => "trapezoid",
            };
            *kinds.entry(kind).or_insert(0) += 1;
        }
    }
    assert!(kinds.len() >= 4, "{kinds:?}");
}

#[test]
#[ignore = "writes files to look at"]
fn write_packets() {
    let folder = PathBuf::from(std::env::var_os("FIGURES").expect("a folder"));
    let wanted = std::env::var("SAMPLE").unwrap_or_default();
    fs::create_dir_all(&folder).expect("a folder");
    for (name, model) in models().into_iter().filter(|(name, _)| name.contains(&wanted)) {
        for words in [Words::english(), Words::of("de").expect("German")] {
            let name = format!("{}-{}", name.replace(' ', "-"), words.language());
            let packet = compose(&model, Brief::default(), &words, None, &mut |_| {});
            let layers =
                pdf::LayerNames { fabric: "a".into(), seams: "b".into(), cutting: "c".into(), marks: "d".into() };
            let facts =
                pdf::DocumentFacts { title: name.clone(), language: words.language(), layers, ..Default::default() };
            let bytes = pdf::draw(&packet.prints[0].leaves, &facts).expect("a document");
            fs::write(folder.join(format!("{name}.pdf")), bytes).expect("a file");
            let page = html::document(&packet.document, &html::Look { words: &words, key: "look" });
            fs::write(folder.join(format!("{name}.html")), page).expect("a file");
            for window in packet.windows.iter().take(2) {
                fs::write(folder.join(format!("{name}-{}.svg", window.name)), svg::draw(&window.page)).expect("a file");
            }
        }
    }
}
