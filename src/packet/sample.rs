//! A small model made by hand, for the tests of this room: three units of a lantern, one placed twice, once as its mirror image.

#![allow(clippy::too_many_lines, clippy::type_complexity, clippy::unused_self, reason = "a model by hand is long")]

use crate::geometry::{Angle, Length, Line, Point, Polygon, Segment, Tolerance, Transform, Vector};
use crate::model::{
    Block, Cut, Effort, Fabric, Facts, Join, JoinKind, MatchPoint, Model, Nesting, Paper, Placement, Press, Print,
    PrintDirection, Section, Shape, SheetRules, Slack, Tree, Unit, UnitKind, Units, Variant,
};
use crate::pattern::CutWish;

/// The lantern at so many inches for each of its sixteen steps.
pub fn lantern(step: f64) -> Model {
    let allowance = 0.25;
    let fabric = |key: &str, mark: u32, name: &str, colour: [u8; 3]| Fabric {
        key: key.to_owned(),
        mark,
        name: name.to_owned(),
        colour,
        print: Print { direction: PrintDirection::None, across: false },
        cut: CutWish::default(),
        stock: None,
    };
    let fabrics = vec![
        fabric("night", 1, "Night sky", [0x22, 0x31, 0x4e]),
        fabric("glow", 2, "Lamp glow", [0xf4, 0xc9, 0x5d]),
        fabric("iron", 3, "Ironwork", [0x4a, 0x4d, 0x52]),
        fabric("mist", 4, "Sea mist", [0xc9, 0xd6, 0xd8]),
    ];
    let drawing = Drawing { step, allowance };
    let roof = drawing.unit(
        "roof",
        "A",
        &[(0.0, 0.0), (16.0, 0.0), (16.0, 6.0), (0.0, 6.0)],
        &[
            (2, &[(3.0, 6.0), (8.0, 1.0), (13.0, 6.0)], None),
            (0, &[(0.0, 0.0), (7.0, 0.0), (8.0, 1.0), (3.0, 6.0), (0.0, 6.0)], Some(((3.0, 6.0), (8.0, 1.0)))),
            (0, &[(7.0, 0.0), (16.0, 0.0), (16.0, 6.0), (13.0, 6.0)], Some(((7.0, 0.0), (13.0, 6.0)))),
        ],
    );
    let side = drawing.unit(
        "side",
        "B",
        &[(0.0, 6.0), (4.0, 6.0), (4.0, 16.0), (0.0, 16.0)],
        &[
            (2, &[(4.0, 6.0), (4.0, 16.0), (3.5, 16.0), (3.5, 6.0)], None),
            (0, &[(1.0, 6.0), (3.5, 6.0), (3.5, 16.0)], Some(((3.5, 6.0), (3.5, 16.0)))),
            (3, &[(0.0, 6.0), (1.0, 6.0), (3.5, 16.0), (0.0, 16.0)], Some(((1.0, 6.0), (3.5, 16.0)))),
        ],
    );
    let lamp = drawing.unit(
        "lamp",
        "C",
        &[(4.0, 6.0), (12.0, 6.0), (12.0, 16.0), (4.0, 16.0)],
        &[
            (1, &[(6.0, 10.0), (10.0, 10.0), (10.0, 14.0), (6.0, 14.0)], None),
            (1, &[(6.0, 7.0), (10.0, 7.0), (10.0, 10.0), (6.0, 10.0)], Some(((6.0, 10.0), (10.0, 10.0)))),
            (2, &[(5.6, 7.0), (6.0, 7.0), (6.0, 14.0), (5.6, 14.0)], Some(((6.0, 7.0), (6.0, 14.0)))),
            (2, &[(10.0, 7.0), (10.4, 7.0), (10.4, 14.0), (10.0, 14.0)], Some(((10.0, 7.0), (10.0, 14.0)))),
            (0, &[(4.0, 7.0), (5.6, 7.0), (5.6, 14.0), (4.0, 14.0)], Some(((5.6, 7.0), (5.6, 14.0)))),
            (0, &[(10.4, 7.0), (12.0, 7.0), (12.0, 14.0), (10.4, 14.0)], Some(((10.4, 7.0), (10.4, 14.0)))),
            (2, &[(4.0, 6.0), (12.0, 6.0), (12.0, 7.0), (4.0, 7.0)], Some(((4.0, 7.0), (12.0, 7.0)))),
            (3, &[(4.0, 14.0), (12.0, 14.0), (12.0, 16.0), (4.0, 16.0)], Some(((4.0, 14.0), (12.0, 14.0)))),
        ],
    );
    let units = vec![roof, side, lamp];
    let variant = |id: &str, mark: &str, unit: usize, mirrored: bool| Variant {
        id: id.to_owned(),
        mark: mark.to_owned(),
        unit,
        mirrored,
        fabrics: units[unit].sections.iter().map(|section| section.fabric).collect(),
        pieced: Vec::new(),
        sewn: 2,
        last_changed: None,
        cuts: drawing.cuts(&units[unit]),
    };
    let variants = vec![
        variant("roof/1", "A", 0, false),
        variant("side/1", "Ba", 1, false),
        variant("side/2", "Bb", 1, true),
        variant("lamp/1", "C", 2, false),
    ];
    let middle = Line::through(drawing.at((8.0, 0.0)), drawing.at((8.0, 1.0))).unwrap();
    let place = |id: &str, name: &str, variant: usize, transform: Transform| Placement {
        id: id.to_owned(),
        name: name.to_owned(),
        variant,
        transform,
        outline: transform.apply_to_polygon(&units[variants[variant].unit].outline),
    };
    let placements = vec![
        place("roof#1", "roof", 0, Transform::IDENTITY),
        place("side#1", "side 1", 1, Transform::IDENTITY),
        place("side#2", "side 2", 2, Transform::mirror(middle)),
        place("lamp#1", "lamp", 3, Transform::IDENTITY),
    ];
    let join = |left: &[usize],
                right: &[usize],
                seam: ((f64, f64), (f64, f64)),
                matches: &[(f64, f64)],
                tips: &[(f64, f64)]| Join {
        kind: JoinKind::Straight,
        name: None,
        left: left.to_vec(),
        right: right.to_vec(),
        seam: Segment::new(drawing.at(seam.0), drawing.at(seam.1)),
        press: Press::Left,
        press_stated: false,
        match_points: matches
            .iter()
            .map(|&at| MatchPoint { at: drawing.at(at), nesting: Nesting::Nests, layers: 6, spins: false })
            .collect(),
        tips: tips.iter().map(|&tip| drawing.at(tip)).collect(),
        notes: Vec::new(),
        own_step: None,
    };
    let joins = vec![
        join(&[1], &[3], ((4.0, 6.0), (4.0, 16.0)), &[], &[]),
        join(&[1, 3], &[2], ((12.0, 6.0), (12.0, 16.0)), &[], &[]),
        join(&[1, 2, 3], &[0], ((0.0, 6.0), (16.0, 6.0)), &[(4.0, 6.0), (12.0, 6.0)], &[(3.0, 6.0)]),
    ];
    let tree = Tree::Join {
        join: 2,
        left: Box::new(Tree::Join {
            join: 1,
            left: Box::new(Tree::Join { join: 0, left: Box::new(Tree::Unit(1)), right: Box::new(Tree::Unit(3)) }),
            right: Box::new(Tree::Unit(2)),
        }),
        right: Box::new(Tree::Unit(0)),
    };
    let block = Block {
        name: "lantern".to_owned(),
        copies: 2,
        width: Length::inches(16.0 * step),
        height: Length::inches(16.0 * step),
        finished: "8 in".to_owned(),
        outline: drawing.polygon(&[(0.0, 0.0), (16.0, 0.0), (16.0, 16.0), (0.0, 16.0)]),
        units,
        variants,
        placements,
        joins,
        pressing_proved: true,
        division: crate::model::Division::default(),
        tree,
        notes: Vec::new(),
    };
    Model {
        cloth: crate::model::Cloth::usual(Units::Inches),
        people: 1,
        in_colourings: Vec::new(),
        effort: Effort::Usual,
        facts: Facts { title: "Storm Lantern".to_owned(), edition: "1.2".to_owned(), ..Facts::default() },
        size: "8 in".to_owned(),
        allowance: Length::inches(allowance),
        ease: Length::inches(0.25),
        units: Units::Inches,
        paper: Paper::Letter,
        papers: vec![Paper::Letter],
        sheets: SheetRules::default(),
        language: None,
        colouring: None,
        colourings: Vec::new(),
        fabrics,
        blocks: vec![block],
        cutting: Vec::new(),
    }
}

type Corner = (f64, f64);
type Drawn<'a> = (usize, &'a [Corner], Option<(Corner, Corner)>);

struct Drawing {
    step: f64,
    allowance: f64,
}

impl Drawing {
    fn tolerance(&self) -> Tolerance {
        Tolerance::of_extent(16.0 * self.step)
    }

    fn at(&self, corner: Corner) -> Point {
        Point::new(corner.0 * self.step, corner.1 * self.step)
    }

    fn polygon(&self, corners: &[Corner]) -> Polygon {
        let path: Vec<Point> = corners.iter().map(|&corner| self.at(corner)).collect();
        // A section that turns inward cannot be; where the lantern's drawing has one, its hull stands for it.
        Polygon::hull(path, self.tolerance()).unwrap()
    }

    fn unit(&self, name: &str, mark: &str, outline: &[Corner], sections: &[Drawn]) -> Unit {
        let outline = self.polygon(outline);
        let cutting_line = outline.grown(self.allowance);
        let sections = sections.iter().map(|&(fabric, corners, seam)| {
            let polygon = self.polygon(corners);
            Section {
                fabric,
                seam: seam.map(|(start, end)| Segment::new(self.at(start), self.at(end))),
                extended: polygon.clone(),
                pieced: Vec::new(),
                needed: polygon.grown(self.allowance).intersection(&cutting_line, self.tolerance()).unwrap(),
                polygon,
                notes: Vec::new(),
                own_step: None,
            }
        });
        Unit {
            kind: UnitKind::Paper,
            name: name.to_owned(),
            mark: mark.to_owned(),
            sections: sections.collect(),
            outline,
            cutting_line,
            notes: Vec::new(),
        }
    }

    fn cuts(&self, unit: &Unit) -> Vec<Cut> {
        let cut = |(index, section): (usize, &Section)| {
            let along = section.seam.and_then(Segment::line).map_or(Vector::new(1.0, 0.0), Line::direction);
            let down = along.quarter_turned();
            let (left, right) = section.needed.extent(along);
            let (top, bottom) = section.needed.extent(down);
            let ease = 0.25;
            let corner = |x: f64, y: f64| Point::default() + along * x + down * y;
            Cut {
                section: index,
                strip: None,
                turn: Angle::degrees(0.0),
                count: 2,
                width: Length::inches(right - left + 2.0 * ease),
                height: Length::inches(bottom - top + 2.0 * ease),
                shape: Shape::Rectangle,
                up: -down,
                motif: None,
                corners: vec![
                    corner(left - ease, top - ease),
                    corner(right + ease, top - ease),
                    corner(right + ease, bottom + ease),
                    corner(left - ease, bottom + ease),
                ],
                overhang: section.seam.map(|_| [Length::inches(0.75), Length::inches(0.5)]),
                slack: Slack { along: [Length::ZERO; 2], across: [Length::ZERO; 2], turn: [Angle::degrees(0.0); 2] },
                grain: Angle::degrees(0.0),
                bias_edges: Vec::new(),
            }
        };
        unit.sections.iter().enumerate().map(cut).collect()
    }
}
