//! What a cutting machine is given of every sample: read as another program reads it, and held against the model.

#![allow(
    clippy::expect_used,
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test may stop at what it did not expect"
)]

mod support;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use piecewright::backend::svg::Colours;
use piecewright::fault::Code;
use piecewright::geometry::{Angle, Length, Point, Segment, Transform, Vector};
use piecewright::model::{Model, PrintDirection, Section, Shape, Variant};
use piecewright::packet::contents::Audience;
use piecewright::packet::mats::{GAP, SideUp};
use piecewright::packet::page::Colour;
use piecewright::packet::sheets::sheets;
use piecewright::packet::words::Words;
use piecewright::{MachineAsked, Machined, Options, Stuff, check, machine};
use usvg::roxmltree::{Document, Node};

use support::{Folder, patterns, samples, stem};

const MILLIMETRES: f64 = 25.4;
/// What rounding may move a corner by, in millimetres.
const ROUNDED: f64 = 0.001;

/// A drawing of a mat, in millimetres.
struct Drawing {
    width: f64,
    height: f64,
    cut: Vec<Vec<Point>>,
    drawn: Vec<Vec<Point>>,
    names: Vec<(Point, String)>,
    square: Vec<Point>,
    /// By layer, the colour.
    colours: BTreeMap<String, String>,
}

fn number(node: Node<'_, '_>, attribute: &str) -> f64 {
    node.attribute(attribute).unwrap().parse().unwrap()
}

/// The corners of a path of straight lines, and whether it closes.
fn corners(path: Node<'_, '_>) -> (Vec<Point>, bool) {
    let data = path.attribute("d").unwrap();
    let (data, closed) = data.strip_suffix('Z').map_or((data, false), |data| (data, true));
    let corner = |words: &str| {
        let (x, y) = words.split_once(',').unwrap();
        Point::new(x.parse().unwrap(), y.parse().unwrap())
    };
    (data.strip_prefix('M').unwrap().split('L').map(corner).collect(), closed)
}

/// Reads a drawing, and asserts all that machines rely on.
fn read(drawing: &str) -> Drawing {
    let tree = Document::parse(drawing).expect("well-formed");
    for node in tree.descendants().filter(Node::is_element) {
        for never in ["transform", "clip-path", "mask", "style", "class"] {
            assert_eq!(node.attribute(never), None, "{node:?}");
        }
    }
    let root = tree.root_element();
    let sizes = ["width", "height"].map(|side| root.attribute(side).unwrap().strip_suffix("mm").unwrap());
    assert_eq!(
        root.attribute("viewBox").unwrap(),
        format!("0 0 {} {}", sizes[0], sizes[1]),
        "one unit is a millimetre"
    );
    let [width, height] = sizes.map(|size| size.parse::<f64>().unwrap());
    let seen = usvg::Tree::from_str(drawing, &usvg::Options::default()).expect("drawn by others");
    assert!((f64::from(seen.size().width()) - width / MILLIMETRES * 96.0).abs() < 0.01, "true size");
    let mut read = Drawing {
        width,
        height,
        cut: Vec::new(),
        drawn: Vec::new(),
        names: Vec::new(),
        square: Vec::new(),
        colours: BTreeMap::new(),
    };
    for layer in root.children().filter(|node| node.has_tag_name("g")) {
        let id = layer.attribute("id").unwrap().to_owned();
        let convention = "http://www.inkscape.org/namespaces/inkscape";
        let label = layer.attribute((convention, "label")).unwrap();
        assert_eq!(layer.attribute((convention, "groupmode")), Some("layer"));
        assert_eq!(layer.attribute("data-name"), Some(label));
        assert_eq!(layer.attribute("fill"), Some("none"));
        for thing in layer.children().filter(Node::is_element) {
            match thing.tag_name().name() {
                "title" => assert_eq!(thing.text(), Some(label)),
                "path" => {
                    assert_eq!(thing.attributes().len(), 1, "its colour is the layer's");
                    let (corners, closed) = corners(thing);
                    match id.as_str() {
                        "cut" => {
                            assert!(closed, "what is cut comes out");
                            read.cut.push(corners);
                        }
                        "draw" => read.drawn.push(corners),
                        "check" => read.square = corners,
                        other => panic!("no paths in the layer {other}"),
                    }
                }
                "text" => {
                    assert_eq!(id, "numbers");
                    let at = Point::new(number(thing, "x"), number(thing, "y"));
                    read.names.push((at, thing.text().unwrap().to_owned()));
                }
                other => panic!("a {other}"),
            }
        }
        assert!(read.colours.insert(id, layer.attribute("stroke").unwrap().to_owned()).is_none());
    }
    read
}

fn edges(corners: &[Point]) -> Vec<Segment> {
    corners.iter().zip(corners.iter().cycle().skip(1)).map(|(&a, &b)| Segment::new(a, b)).collect()
}

/// Twice the area, positive where the corners run clockwise as seen.
fn doubled_area(corners: &[Point]) -> f64 {
    edges(corners).iter().map(|edge| edge.start.to_vector().cross(edge.end.to_vector())).sum()
}

/// The inner side of each edge of a clockwise outline is its right.
fn is_inside(corners: &[Point], point: Point) -> bool {
    edges(corners).iter().all(|edge| (edge.end - edge.start).cross(point - edge.start) > 0.0)
}

fn distance(a: &[Point], b: &[Point]) -> f64 {
    let one = |a: &[Point], b: &[Point]| {
        let edges = edges(b);
        let of = |point: &Point| edges.iter().map(|edge| edge.distance(*point)).fold(f64::INFINITY, f64::min);
        a.iter().map(of).fold(f64::INFINITY, f64::min)
    };
    one(a, b).min(one(b, a))
}

/// Everything lies on its mat, and nothing on anything else; the square to measure is one of an inch.
fn assert_laid_apart(name: &str, drawings: &[Drawing]) {
    for drawing in drawings {
        assert_mat(name, drawing);
    }
}

fn assert_mat(name: &str, drawing: &Drawing) {
    for (k, piece) in drawing.cut.iter().enumerate() {
        assert!(doubled_area(piece) > 0.0, "{name}: outlines run clockwise");
        for corner in piece {
            let within = (-ROUNDED..=drawing.width + ROUNDED).contains(&corner.x)
                && (-ROUNDED..=drawing.height + ROUNDED).contains(&corner.y);
            assert!(within, "{name}: {corner:?} is off the mat");
        }
        for other in &drawing.cut[..k] {
            // Convex outlines that neither come near each other nor hold a corner of each other are apart.
            let apart = distance(piece, other);
            assert!(apart > GAP * MILLIMETRES - 2.0 * ROUNDED, "{name}: {apart} mm between {piece:?} and {other:?}");
            assert!(!is_inside(piece, other[0]) && !is_inside(other, piece[0]), "{name}: one piece on another");
        }
    }
    let inch = edges(&drawing.square).iter().all(|edge| (edge.length() - MILLIMETRES).abs() < 2.0 * ROUNDED);
    assert!(drawing.square.len() == 4 && inch, "{name}: {:?}", drawing.square);
}

/// The samples, and two sources with squares cut from corner to corner and with motifs.
fn sources() -> Vec<PathBuf> {
    let fixtures = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures");
    let more = ["cut-lines", "fussy"].map(|name| fixtures.join(format!("{name}.piece")));
    samples().into_iter().chain(more).collect()
}

fn shelf(source: &Path) -> Folder {
    Folder(source.parent().expect("a file lies in a folder").to_owned())
}

fn asked(what: Stuff, side: SideUp, (width, height): (f64, f64)) -> MachineAsked {
    MachineAsked { what, side, mat: (Length::inches(width), Length::inches(height)), colours: Colours::default() }
}

fn made(source: &Path, asked: &MachineAsked) -> Machined {
    let text = fs::read_to_string(source).expect("a readable sample");
    machine(&format!("{}.piece", stem(source)), &text, &shelf(source), &Options::default(), asked)
}

fn drawings(source: &Path, asked: &MachineAsked) -> Vec<Drawing> {
    made(source, asked).drawings.expect("a sample can be cut").iter().map(|drawing| read(drawing)).collect()
}

fn model(source: &Path) -> Model {
    let text = fs::read_to_string(source).expect("a readable sample");
    check(&format!("{}.piece", stem(source)), &text, &shelf(source)).model.expect("a sample can be sewn")
}

/// The rigid motions that carry one outline to another, those that mirror or those that do not.
fn motions(from: &[Point], to: &[Point], mirrored: bool) -> Vec<Transform> {
    let flip = Transform::from_matrix([if mirrored { -1.0 } else { 1.0 }, 0.0, 0.0, 1.0, 0.0, 0.0]);
    let mut from: Vec<Point> = from.iter().map(|&corner| flip.apply(corner)).collect();
    if mirrored {
        from.reverse();
    }
    // The longest edge tells best how far it is turned.
    let long = |k: &usize| from[*k].distance(from[(k + 1) % from.len()]);
    let longest = (0..from.len()).max_by(|a, b| long(a).total_cmp(&long(b))).unwrap();
    let motion = |shift: usize| {
        let (a, b) = (from[longest], from[(longest + 1) % from.len()]);
        let (p, q) = (to[(shift + longest) % to.len()], to[(shift + longest + 1) % to.len()]);
        let turn = Transform::turn(
            Angle::degrees((q - p).angle().to_degrees() - (b - a).angle().to_degrees()),
            Point::default(),
        );
        let map = turn.then(Transform::shift(p - turn.apply(a)));
        let fits =
            from.iter().enumerate().all(|(k, &corner)| map.apply(corner).distance(to[(shift + k) % to.len()]) < 0.01);
        fits.then(|| flip.then(map))
    };
    if from.len() == to.len() { (0..to.len()).filter_map(motion).collect() } else { Vec::new() }
}

/// Whether a foundation's outline, seams and cutting line all lie in a drawing as this piece, in one hand.
fn lies_so(
    model: &Model,
    (block, variant): (usize, &Variant),
    cut: &[Point],
    drawing: &Drawing,
    mirrored: bool,
) -> bool {
    let unit = model.blocks[block].unit_of(variant);
    let scale = Transform::scale(MILLIMETRES);
    let own: Vec<Point> = unit.cutting_line.corners().iter().map(|&corner| scale.apply(corner)).collect();
    let is_drawn = |line: Segment| {
        drawing.drawn.iter().flat_map(|path| edges(path)).any(|edge| {
            let same = edge.start.distance(line.start).max(edge.end.distance(line.end));
            same.min(edge.start.distance(line.end).max(edge.end.distance(line.start))) < 0.01
        })
    };
    motions(&own, cut, mirrored).into_iter().any(|map| {
        let place = scale.then(map);
        let lines = unit.sections.iter().filter_map(|section| section.seam).chain(unit.outline.edges());
        lines.into_iter().all(|line| is_drawn(place.apply_to_segment(line)))
    })
}

#[test]
fn every_unit_lies_as_it_is_printed_and_with_front_the_other_way_round() {
    let mut told_apart = 0;
    for source in sources() {
        let model = model(&source);
        let sheets = sheets(&model, &Words::english(), Audience::Sewers, None).sheets;
        for (b, block) in model.blocks.iter().enumerate() {
            for unit in &block.units {
                let here = |(_, variant): &(usize, &Variant)| {
                    block.unit_of(variant).name == unit.name && block.has_paper(variant) && variant.sewn > 0
                };
                let variants: Vec<(usize, &Variant)> = block.variants.iter().enumerate().filter(here).collect();
                let elsewhere = model
                    .blocks
                    .iter()
                    .enumerate()
                    .any(|(other, of)| other != b && of.units.iter().any(|other| other.name == unit.name));
                if variants.is_empty() || elsewhere {
                    continue;
                }
                for side in [SideUp::Usual, SideUp::Other] {
                    let asked = asked(Stuff::Unit(unit.name.clone(), 2), side, (24.0, 24.0));
                    let name = format!("{}, {}", stem(&source), unit.name);
                    let drawings = drawings(&source, &asked);
                    let pieces = drawings.iter().flat_map(|drawing| drawing.cut.iter().map(move |cut| (cut, drawing)));
                    let pieces: Vec<(&Vec<Point>, &Drawing)> = pieces.collect();
                    assert_eq!(pieces.len(), 2 * variants.len(), "{name}: two of each");
                    assert_laid_apart(&name, &drawings);
                    for &(v, variant) in &variants {
                        let placed = sheets.iter().flat_map(|sheet| &sheet.foundations);
                        let on_sheet = placed.filter(|on| on.block == b && on.variant == v).map(|on| on.matrix);
                        let printed = on_sheet.map(Transform::is_mirroring).next().expect("a foundation is printed");
                        let mirrored = printed == (side == SideUp::Usual);
                        let count = |mirrored: bool| {
                            let lies = |(cut, drawing): &&(&Vec<Point>, &Drawing)| {
                                lies_so(&model, (b, variant), cut, drawing, mirrored)
                            };
                            pieces.iter().filter(lies).count()
                        };
                        assert!(count(mirrored) >= 2, "{name}: {} in its hand", variant.id);
                        // Alone, and not its own mirror image.
                        if variants.len() == 1 && count(!mirrored) == 0 {
                            told_apart += 1;
                        }
                    }
                    let areas = unit.sections.iter().flat_map(Section::areas).count();
                    let names: usize = drawings.iter().map(|drawing| drawing.names.len()).sum();
                    assert_eq!(names, 2 * variants.len() * areas, "{name}: each section bears its number");
                }
            }
        }
    }
    assert!(told_apart > 20, "hands are told apart: {told_apart}");
}

/// How far each corner of an outline is from the next one and from the one after that, clockwise, in millimetres: the same, from some corner on, for the
/// same shape in the same hand alone.
fn distances(corners: &[Point]) -> Vec<[f64; 2]> {
    let corner = |k: usize| corners[k % corners.len()];
    (0..corners.len()).map(|k| [1, 2].map(|step| corner(k).distance(corner(k + step)))).collect()
}

fn is_same_shape(a: &[Point], b: &[Point]) -> bool {
    let (a, b) = (distances(a), distances(b));
    let near = |[a, c]: [f64; 2], [b, d]: [f64; 2]| (a - b).abs().max((c - d).abs()) < 5.0 * ROUNDED;
    a.len() == b.len() && (0..b.len()).any(|shift| (0..a.len()).all(|k| near(a[k], b[(k + shift) % b.len()])))
}

/// Asserts that pieces are the same, one by one, in any order.
fn assert_same_pieces(name: &str, laid: &[Vec<Point>], mut told: Vec<Vec<Point>>) {
    for piece in laid {
        let found = told.iter().position(|told| is_same_shape(piece, told));
        told.swap_remove(found.unwrap_or_else(|| panic!("{name}: nobody asked for {piece:?}")));
    }
    assert!(told.is_empty(), "{name}: {told:?} is not cut");
}

fn all_cut(drawings: &[Drawing]) -> Vec<Vec<Point>> {
    drawings.iter().flat_map(|drawing| drawing.cut.clone()).collect()
}

fn mirrored(corners: &[Point]) -> Vec<Point> {
    corners.iter().rev().map(|corner| Point::new(-corner.x, corner.y)).collect()
}

/// All pieces that a model cuts of a fabric, right side up: from the cuts as they lie on the front of their units.
fn pieces_cut(model: &Model, fabric: usize) -> Vec<Vec<Point>> {
    let mut pieces = Vec::new();
    for variant in model.blocks.iter().flat_map(|block| &block.variants) {
        for cut in variant.cuts.iter().filter(|cut| variant.fabric_of(cut.section, cut.strip) == Some(fabric)) {
            let scale = Transform::scale(MILLIMETRES);
            let corners: Vec<Point> = cut.corners.iter().map(|&corner| scale.apply(corner)).collect();
            let piece = if variant.mirrored { mirrored(&corners) } else { corners };
            pieces.extend((0..cut.count).map(|_| piece.clone()));
        }
    }
    pieces
}

/// Whether a line runs along the threads of a fabric on a mat.
fn on_thread(way: Vector) -> bool {
    way.x.abs().min(way.y.abs()) < 4.0 * ROUNDED
}

#[test]
fn every_fabric_is_cut_whole_and_on_its_threads() {
    let mut shapes = [0; 4];
    for source in sources() {
        let model = model(&source);
        for cutting in &model.cutting {
            let fabric = &model.fabrics[cutting.fabric];
            let name = format!("{}, {}", stem(&source), fabric.key);
            let asked = asked(Stuff::Fabric(fabric.key.clone()), SideUp::Usual, (24.0, 24.0));
            let drawings = drawings(&source, &asked);
            assert_laid_apart(&name, &drawings);
            for piece in drawings.iter().flat_map(|drawing| &drawing.cut) {
                let ways: Vec<Vector> = edges(piece).iter().map(|edge| edge.end - edge.start).collect();
                assert!(ways.iter().any(|&way| on_thread(way)), "{name}: {piece:?} lies on the threads");
                if piece.len() == 4 && ways.iter().filter(|&&way| on_thread(way)).count() < 4 {
                    shapes[3] += 1;
                }
            }
            assert_same_pieces(&name, &all_cut(&drawings), pieces_cut(&model, cutting.fabric));
            let area: f64 = drawings.iter().flat_map(|of| &of.cut).map(|piece| doubled_area(piece) / 2.0).sum();
            let expected: f64 = cutting
                .pieces
                .iter()
                .map(|group| {
                    let whole = group.width.to_millimetres() * group.height.to_millimetres();
                    let each = match group.shape {
                        Shape::Rectangle => whole,
                        Shape::HalfSquare => whole / 2.0,
                        Shape::QuarterSquare => whole / 4.0,
                        Shape::Trapezoid { trim: [left, right] } => {
                            let trimmed = f64::midpoint(left.to_millimetres().abs(), right.to_millimetres().abs());
                            whole - trimmed * group.height.to_millimetres()
                        }
                    };
                    each * f64::from(group.count)
                })
                .sum();
            assert!((area - expected).abs() < expected * 1e-4, "{name}: {area} of {expected} mm²");
            // Prints with a direction stand upright: as wide and as high as the chart says.
            if fabric.print.direction != PrintDirection::None {
                shapes[0] += 1;
                let mut told: Vec<Vector> = Vec::new();
                for group in &cutting.pieces {
                    let size = Vector::new(group.width.to_millimetres(), group.height.to_millimetres());
                    told.extend((0..group.count).map(|_| size));
                }
                for piece in &all_cut(&drawings) {
                    let (from, to) = bounds(piece);
                    let found = told.iter().position(|told| (*told + (from - to)).length() < 5.0 * ROUNDED);
                    told.swap_remove(found.unwrap_or_else(|| panic!("{name}: {piece:?} does not stand upright")));
                }
                assert!(told.is_empty(), "{name}: {told:?} is not cut");
                assert!(drawings.iter().flat_map(|of| &of.names).all(|(_, words)| words.contains('↑')), "{name}");
            }
            for drawing in &drawings {
                assert!(drawing.drawn.is_empty(), "{name}: nothing is drawn on fabric");
                assert_eq!(drawing.names.len(), drawing.cut.len(), "{name}: each piece is named");
                for (piece, (at, words)) in drawing.cut.iter().zip(&drawing.names) {
                    assert!(is_inside(piece, *at), "{name}: {words} stands on its piece");
                }
            }
            for group in &cutting.pieces {
                match group.shape {
                    Shape::HalfSquare => shapes[1] += 1,
                    Shape::QuarterSquare => shapes[2] += 1,
                    _ => {}
                }
            }
        }
    }
    assert!(
        shapes.iter().all(|&count| count > 0),
        "directions, halves, quarters, trapezoids are all among them: {shapes:?}"
    );
}

fn bounds(corners: &[Point]) -> (Point, Point) {
    let first = corners[0];
    corners.iter().fold((first, first), |(a, b), p| {
        (Point::new(a.x.min(p.x), a.y.min(p.y)), Point::new(b.x.max(p.x), b.y.max(p.y)))
    })
}

#[test]
fn wrong_side_up_is_the_mirror_image() {
    for source in sources() {
        let model = model(&source);
        let fabric = &model.fabrics[model.cutting[0].fabric];
        let cut = |side| all_cut(&drawings(&source, &asked(Stuff::Fabric(fabric.key.clone()), side, (24.0, 24.0))));
        let turned_over = cut(SideUp::Other).iter().map(|piece| mirrored(piece)).collect();
        assert_same_pieces(&stem(&source), &cut(SideUp::Usual), turned_over);
    }
}

#[test]
fn several_mats_hold_all_pieces_together() {
    let source = patterns().join("harbour-series.piece");
    let model = model(&source);
    let cutting =
        model.cutting.iter().max_by_key(|cutting| cutting.pieces.iter().map(|of| of.count).sum::<u32>()).unwrap();
    let longest = cutting.pieces.iter().map(|of| of.width.max(of.height).to_inches()).fold(0.0, f64::max);
    let key = model.fabrics[cutting.fabric].key.clone();
    let drawings = drawings(&source, &asked(Stuff::Fabric(key), SideUp::Usual, (longest, longest)));
    assert!(drawings.len() > 1);
    assert_laid_apart("harbour-series", &drawings);
    assert_same_pieces("harbour-series", &all_cut(&drawings), pieces_cut(&model, cutting.fabric));
}

#[test]
fn layers_have_the_colours_that_are_asked_for() {
    let source = patterns().join("storm-lantern.piece");
    let colours = Colours { draw: Colour([1, 2, 254]), ..Colours::default() };
    let asked = MachineAsked { colours, ..asked(Stuff::Unit("roof".to_owned(), 1), SideUp::Usual, (12.0, 12.0)) };
    let [only] = &drawings(&source, &asked)[..] else { panic!("one mat") };
    let told: Vec<(&str, &str)> =
        only.colours.iter().map(|(layer, colour)| (layer.as_str(), colour.as_str())).collect();
    assert_eq!(told, [("check", "#00ff00"), ("cut", "#ff0000"), ("draw", "#0102fe"), ("numbers", "#000000")]);
}

#[test]
fn what_cannot_be_cut_is_a_fault() {
    let source = patterns().join("storm-lantern.piece");
    let codes = |what: Stuff, mat: (f64, f64)| {
        let made = made(&source, &asked(what, SideUp::Usual, mat));
        assert!(made.drawings.is_none());
        let errors = made.faults.iter().map(|fault| (fault.code, fault.help.clone().unwrap_or_default()));
        errors.filter(|(code, _)| code.severity() == piecewright::fault::Severity::Error).collect::<Vec<_>>()
    };
    let unit = |name: &str| Stuff::Unit(name.to_owned(), 1);
    let fabric = |key: &str| Stuff::Fabric(key.to_owned());
    let large = (12.0, 12.0);
    for (what, known) in [(unit("rof"), "roof"), (fabric("nigt"), "night"), (fabric(""), "night")] {
        let [(Code::UnknownName, help)] = &codes(what.clone(), large)[..] else { panic!("{what:?}") };
        assert!(help.contains(known), "{help}");
    }
    for what in [unit("roof"), fabric("night")] {
        assert!(matches!(codes(what, (1.0, 1.0))[..], [(Code::LargerThanMat, _)]));
    }
}

fn run(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_piecewright")).current_dir(folder).args(arguments).output().expect("it runs")
}

fn names_in(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

#[test]
fn the_command_writes_drawings_whole_and_over_nothing_else() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    let source = patterns().join("storm-lantern.piece");
    let source = source.to_str().unwrap();
    let machine = |more: &[&str]| run(folder, &[&["machine", source], more].concat());

    let said = machine(&["--unit", "roof", "-o", "-"]);
    assert_eq!(said.status.code(), Some(0));
    assert!(!read(&String::from_utf8(said.stdout).unwrap()).cut.is_empty());
    assert_eq!(names_in(folder), [""; 0], "nothing is left behind");

    assert_eq!(machine(&["--unit", "roof", "-o", "roof.svg"]).status.code(), Some(0));
    assert_eq!(machine(&["--unit", "roof", "-o", "roof.svg", "--front"]).status.code(), Some(0), "over its own");
    assert_eq!(
        machine(&["--unit", "roof", "--copies", "3", "--mat", "10 x 5 in", "-o", "many.svg"]).status.code(),
        Some(0)
    );
    assert_eq!(names_in(folder)[..2], ["many-1.svg", "many-2.svg"]);
    let held: usize = names_in(folder)
        .iter()
        .filter(|name| name.starts_with("many"))
        .map(|name| read(&fs::read_to_string(folder.join(name)).unwrap()).cut.len())
        .sum();
    assert_eq!(held, 3);

    fs::write(folder.join("mine.svg"), "<svg/>").unwrap();
    assert_eq!(machine(&["--unit", "roof", "-o", "mine.svg"]).status.code(), Some(2));
    assert_eq!(fs::read_to_string(folder.join("mine.svg")).unwrap(), "<svg/>");
    assert_eq!(machine(&["--unit", "roof", "-o", "mine.svg", "--force"]).status.code(), Some(0));

    for (wrong, code) in [
        (&[][..], 2),
        (&["--unit", "roof", "--fabric", "night"], 2),
        (&["--fabric", "night", "--copies", "2"], 2),
        (&["--unit", "roof", "--mat", "12 in"], 2),
        (&["--unit", "roof", "--colours", "cut=red"], 2),
        (&["--unit", "roof", "-o", "."], 2),
        (&["--unit", "roof", "-o", "nowhere/roof.svg"], 2),
        (&["--unit", "roof", "--copies", "9", "-o", "-"], 2),
        (&["--unit", "rof"], 1),
        (&["--fabric", "nite", "-o", "x.svg"], 1),
        (&["--unit", "roof", "--mat", "2 x 2 in", "-o", "x.svg"], 1),
    ] {
        let said = machine(wrong);
        assert_eq!(said.status.code(), Some(code), "{wrong:?}: {said:?}");
        assert!(!said.stderr.is_empty() && said.stdout.is_empty(), "{wrong:?}");
    }
    assert!(!names_in(folder).iter().any(|name| name == "x.svg" || name.ends_with(".piecewright")));
}
