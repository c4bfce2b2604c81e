//! A small model made by hand, with one of everything, for the tests of what is written from a model.

#![allow(clippy::too_many_lines, clippy::type_complexity, clippy::unused_self, reason = "a model by hand is long")]

use crate::geometry::{Angle, Length, Line, Point, Polygon, Segment, Tolerance, Transform};
use crate::model::{
    Amount, Blank, Block, Cut, Effort, Fabric, FabricCutting, Facts, Fit, Join, JoinKind, MatchPoint, Model, Nesting,
    Paper, PieceGroup, PieceUse, Placement, Press, Print, PrintDirection, Purchase, Section, Shape, SheetRules, Slack,
    Stock, Strip, StripPiece, Tree, Unit, UnitKind, Units, Variant,
};
use crate::pattern::CutWish;

fn at((x, y): (f64, f64)) -> Point {
    Point::new(x, y)
}

fn polygon(corners: &[(f64, f64)]) -> Polygon {
    let corners: Vec<Point> = corners.iter().copied().map(at).collect();
    Polygon::try_new(&corners, Tolerance::of_extent(8.0)).unwrap()
}

fn section(fabric: usize, corners: &[(f64, f64)], seam: Option<((f64, f64), (f64, f64))>) -> Section {
    let shape = polygon(corners);
    Section {
        fabric,
        seam: seam.map(|(a, b)| Segment::new(at(a), at(b))),
        extended: shape.grown(0.25),
        pieced: Vec::new(),
        needed: shape.grown(0.25),
        polygon: shape,
        notes: Vec::new(),
        own_step: None,
    }
}

fn cut(section: usize, seam: bool, size: (f64, f64), corners: [(f64, f64); 4], turn: f64) -> Cut {
    Cut {
        section,
        strip: None,
        turn: Angle::degrees(0.0),
        count: 2,
        width: Length::inches(size.0),
        height: Length::inches(size.1),
        shape: Shape::Rectangle,
        up: (at(corners[0]) - at(corners[3])).unit().unwrap(),
        motif: None,
        corners: corners.map(at).to_vec(),
        overhang: seam.then_some([Length::inches(0.4), Length::inches(0.8)]),
        slack: Slack {
            along: [Length::inches(0.25); 2],
            across: [Length::inches(0.125), Length::inches(0.25)],
            turn: [Angle::degrees(turn), Angle::degrees(7.5)],
        },
        grain: Angle::degrees(0.0),
        bias_edges: vec![1],
    }
}

fn fabric(mark: u32, key: &str, name: &str, colour: [u8; 3], direction: PrintDirection) -> Fabric {
    let print = Print { direction, across: direction == PrintDirection::TwoWay };
    Fabric { key: key.to_owned(), mark, name: name.to_owned(), colour, print, cut: CutWish::default(), stock: None }
}

/// A roof of three sections over a flag of two, eight inches square; the roof's second section is not where the author left it to the compiler.
pub(crate) fn model() -> Model {
    let mut roof = Unit {
        kind: UnitKind::Paper,
        name: "roof".to_owned(),
        mark: "A".to_owned(),
        outline: polygon(&[(0.0, 0.0), (8.0, 0.0), (8.0, 4.0), (0.0, 4.0)]),
        cutting_line: polygon(&[(-0.25, -0.25), (8.25, -0.25), (8.25, 4.25), (-0.25, 4.25)]),
        sections: vec![
            section(0, &[(0.0, 4.0), (4.0, 0.0), (8.0, 4.0)], None),
            section(1, &[(0.0, 0.0), (4.0, 0.0), (0.0, 4.0)], Some(((0.0, 4.0), (4.0, 0.0)))),
            section(1, &[(4.0, 0.0), (8.0, 0.0), (8.0, 4.0)], Some(((4.0, 0.0), (8.0, 4.0)))),
        ],
        notes: vec!["Press the roof from the back.".to_owned()],
    };
    if let Some(last) = roof.sections.last_mut() {
        last.notes.push("The gull's wing may end here.".to_owned());
    }
    let mut flag = Unit {
        kind: UnitKind::Paper,
        name: "flag".to_owned(),
        mark: "B".to_owned(),
        outline: polygon(&[(0.0, 4.0), (8.0, 4.0), (8.0, 8.0), (0.0, 8.0)]),
        cutting_line: polygon(&[(-0.25, 3.75), (8.25, 3.75), (8.25, 8.25), (-0.25, 8.25)]),
        sections: vec![
            section(2, &[(0.0, 4.0), (8.0, 4.0), (0.0, 8.0)], None),
            section(0, &[(8.0, 4.0), (8.0, 8.0), (0.0, 8.0)], Some(((8.0, 4.0), (0.0, 8.0)))),
        ],
        notes: Vec::new(),
    };
    flag.sections[1].own_step = Some("Sew the flag's lower half on as you like.".to_owned());
    let variants = vec![
        Variant {
            id: "roof/1".to_owned(),
            mark: "A".to_owned(),
            unit: 0,
            mirrored: false,
            fabrics: vec![0, 1, 1],
            pieced: Vec::new(),
            sewn: 2,
            last_changed: None,
            cuts: vec![
                cut(0, false, (9.0, 5.0), [(-0.5, -0.5), (8.5, -0.5), (8.5, 4.5), (-0.5, 4.5)], 9.0),
                cut(1, true, (6.5, 3.5), [(5.2, -0.8), (-0.8, 5.2), (-2.6, 3.4), (3.4, -2.6)], 3.5),
                cut(2, true, (6.5, 3.5), [(9.0, 1.0), (3.0, 1.0), (3.0, -1.0), (9.0, -1.0)], 8.0),
            ],
        },
        Variant {
            id: "flag/1".to_owned(),
            mark: "B".to_owned(),
            unit: 1,
            mirrored: true,
            fabrics: vec![2, 0],
            pieced: Vec::new(),
            sewn: 2,
            last_changed: None,
            cuts: vec![
                cut(0, false, (9.0, 5.0), [(-0.5, 3.5), (8.5, 3.5), (8.5, 8.5), (-0.5, 8.5)], 9.0),
                cut(1, true, (9.5, 5.0), [(-0.5, 8.5), (8.5, 3.5), (9.0, 8.0), (0.0, 12.0)], 9.0),
            ],
        },
    ];
    let over = Line::through(at((4.0, 0.0)), at((4.0, 1.0))).unwrap();
    let placement = |id: &str, name: &str, variant: usize, transform: Transform, outline: &Polygon| Placement {
        id: id.to_owned(),
        name: name.to_owned(),
        variant,
        transform,
        outline: transform.apply_to_polygon(outline),
    };
    let block = Block {
        name: "lantern".to_owned(),
        copies: 2,
        width: Length::inches(8.0),
        height: Length::inches(8.0),
        finished: "8 in".to_owned(),
        outline: polygon(&[(0.0, 0.0), (8.0, 0.0), (8.0, 8.0), (0.0, 8.0)]),
        placements: vec![
            placement("roof#1", "roof", 0, Transform::IDENTITY, &roof.outline),
            placement("flag#1", "flag", 1, Transform::mirror(over), &flag.outline),
        ],
        units: vec![roof, flag],
        variants,
        joins: vec![Join {
            kind: JoinKind::Straight,
            name: Some("whole".to_owned()),
            left: vec![1],
            right: vec![0],
            seam: Segment::new(at((0.0, 4.0)), at((8.0, 4.0))),
            press: Press::Left,
            press_stated: true,
            match_points: vec![MatchPoint { at: at((2.5, 4.0)), nesting: Nesting::Nests, layers: 14, spins: false }],
            tips: vec![at((6.0, 4.0))],
            notes: vec!["Pin well.".to_owned()],
            own_step: None,
        }],
        pressing_proved: true,
        division: crate::model::Division::default(),
        tree: Tree::Join { join: 0, left: Box::new(Tree::Unit(1)), right: Box::new(Tree::Unit(0)) },
        notes: vec!["It glows <best> & brightest by \"night\".".to_owned()],
    };
    Model {
        cloth: crate::model::Cloth::usual(Units::Inches),
        people: 1,
        in_colourings: Vec::new(),
        effort: Effort::Usual,
        facts: Facts {
            title: "Storm <Lantern> & Gulls".to_owned(),
            edition: "1.2".to_owned(),
            author: Some("Tern Point Sewing Circle".to_owned()),
            date: Some("2026-11-01".to_owned()),
            licence: Some("For your own sewing and for gifts.".to_owned()),
            notes: vec!["Read everything once before you cut.".to_owned()],
            ..Facts::default()
        },
        size: "8 in".to_owned(),
        allowance: Length::inches(0.25),
        ease: Length::inches(0.25),
        units: Units::Inches,
        paper: Paper::Letter,
        papers: vec![Paper::Letter],
        sheets: SheetRules::default(),
        language: None,
        colouring: None,
        colourings: Vec::new(),
        fabrics: vec![
            fabric(1, "iron", "Ironwork", [0x4a, 0x4d, 0x52], PrintDirection::None),
            fabric(2, "night", "Night, \"deep\" sky", [0x22, 0x31, 0x4e], PrintDirection::OneWay),
            fabric(3, "mist", "Sea <mist> & foam", [0xc9, 0xd6, 0xd8], PrintDirection::TwoWay),
        ],
        cutting: vec![
            cutting(0, &[("A1", 9.0, 5.0, 2, (0, 0)), ("B2", 9.5, 5.0, 2, (1, 1))]),
            cutting(1, &[("A2, A3", 6.5, 3.5, 4, (0, 1))]),
            cutting(2, &[("B1", 9.0, 5.0, 2, (1, 0))]),
        ],
        blocks: vec![block],
    }
}

fn cutting(fabric: usize, groups: &[(&str, f64, f64, u32, (usize, usize))]) -> FabricCutting {
    let strips: Vec<Strip> = groups
        .iter()
        .enumerate()
        .map(|(group, &(_, width, height, count, _))| Strip {
            sheet: 0,
            width: Length::inches(height),
            pieces: (0..count)
                .map(|k| StripPiece {
                    group,
                    blank: 0,
                    x: Length::inches(width * f64::from(k)),
                    y: Length::ZERO,
                    turned: k == 1 && fabric == 1,
                })
                .collect(),
        })
        .collect();
    FabricCutting {
        fabric,
        pieces: groups
            .iter()
            .map(|&(label, width, height, count, (variant, section))| PieceGroup {
                fit: Fit::Rough,
                shape: Shape::Rectangle,
                blanks: vec![Blank { width: Length::inches(width), height: Length::inches(height), count, gives: 1 }],
                label: label.to_owned(),
                width: Length::inches(width),
                height: Length::inches(height),
                count,
                uses: vec![PieceUse { block: 0, variant, section }],
            })
            .collect(),
        length: strips.iter().map(|strip| strip.width).sum(),
        strips,
        lower_bound: Length::inches(3.1),
        fewest_sheets: None,
        price: None,
        other_widths: Vec::new(),
        own: None,
        stock: Stock::Bolt(vec![Length::inches(40.0)]),
        sheet: (Length::inches(40.0), None),
        buy: Purchase { amount: Amount::Length(Length::inches(13.5)), fat_quarter: true, fat_eighth: fabric == 1 },
    }
}
