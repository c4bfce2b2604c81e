//! Foundations larger than the page: how they are cut into parts that lap, are glued together and are sewn on as one paper.
//!
//! A foundation whose cutting line fits the room of a sheet in some turn is printed whole. Any other is cut by one straight lap across, and each half
//! again by a lap of its own, until every part fits: [`count`] tells how few parts that takes, by their shapes alone, and [`search`] finds among the
//! ways to cut that few the one with the least [`faults`].

pub(super) mod count;
mod faults;
mod marks;
mod search;

use crate::geometry::{Angle, Line, Point, Polygon, Segment, Tolerance, Transform};
use crate::model::{Block, Model, Section, Variant};
use crate::packet::hand;
use crate::packet::words::Words;

use super::{Foundation, LAP, Subject};
use count::Room;
use faults::Drawn;
pub(super) use search::Tree;

/// Nearness for cuts that are made here, finer than a pen.
fn fine() -> Tolerance {
    Tolerance::of_extent(0.5)
}

/// A foundation in parts, on the printed side: inches, the frame of its front mirrored about the y axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Split {
    /// What is cut out, lapping; in the order in which they are glued, each on those before it.
    pub parts: Vec<Polygon>,
    /// The same without the laps, cut along their middles: for the map.
    pub cells: Vec<Polygon>,
    /// Where two parts are glued.
    pub laps: Vec<Lap>,
    /// The part in which each section, or strip of a pieced one, is numbered at any rate, by index: the one that shows most of it beside the strips
    /// that lap; of one that lies wholly in such strips, most that no other part is glued over.
    pub mains: Vec<usize>,
}

/// Where two parts of a foundation are glued: a strip that both show.
#[derive(Debug, Clone, PartialEq)]
pub struct Lap {
    /// The part that lies below, by index.
    pub below: usize,
    /// The part on top of it, by index.
    pub above: usize,
    /// Along the middle of the strip; the part on top lies to its right.
    pub middle: Segment,
    /// What both parts show.
    pub strip: Polygon,
    /// The places of the crosses, which both parts show, with their letters.
    pub marks: Vec<(Point, String)>,
}

/// The foundation of a unit on sheets with this room, width and height in inches: whole where that holds it in some turn, else in lapped parts.
#[must_use]
pub fn foundation(
    model: &Model,
    block: usize,
    variant: usize,
    (width, height): (f64, f64),
    words: &Words,
) -> Vec<Foundation> {
    let (of_block, of_variant) = (&model.blocks[block], &model.blocks[block].variants[variant]);
    let cutting = hand::printed(of_variant).apply_to_polygon(&of_block.unit_of(of_variant).cutting_line);
    let subject = |turn| Subject { model, block, variant, turn, words };
    if let Some(fitting) = cutting.turn_to_fit(width, height) {
        // Rather in a turn in which labels beside the paper find room too.
        let quarter = Angle::degrees(fitting.to_degrees() + 90.0);
        for turn in [fitting, quarter] {
            let (wide, high) = cutting.turned_extent(turn);
            let whole = subject(turn).whole(width, height, true);
            if wide <= width && high <= height && whole.width <= width && whole.height <= height {
                return vec![whole];
            }
        }
        return vec![subject(fitting).whole(width, height, false)];
    }
    let split = split(of_block, of_variant, &cutting, (width, height));
    let draw = |index: usize| {
        let turn = split.parts[index].turn_to_fit(width, height).unwrap_or_default();
        subject(split.as_read(turn)).part(&split, index, (width, height))
    };
    (0..split.parts.len()).map(draw).collect()
}

/// The same foundation or part drawn anew in another turn, in this room.
#[must_use]
pub fn turned(
    foundation: &Foundation,
    model: &Model,
    turn: Angle,
    room: (f64, f64),
    words: &Words,
) -> Option<Foundation> {
    let &Foundation { block, variant, part, .. } = foundation;
    let subject = Subject { model, block, variant, turn, words };
    let Some((number, _)) = part else { return Some(subject.whole(room.0, room.1, false)) };
    let split = split_of(&model.blocks[block], &model.blocks[block].variants[variant], room)?;
    let index = usize::try_from(number).ok()?.checked_sub(1)?;
    (index < split.parts.len()).then(|| subject.part(&split, index, room))
}

/// Whether a foundation has to be split to be printed on sheets with this room, in inches; quicker than drawing it.
#[must_use]
pub fn needs_splitting(model: &Model, (width, height): (f64, f64), block: usize, variant: usize) -> bool {
    let (block, variant) = (&model.blocks[block], &model.blocks[block].variants[variant]);
    let cutting = hand::printed(variant).apply_to_polygon(&block.unit_of(variant).cutting_line);
    cutting.turn_to_fit(width, height).is_none()
}

/// How many parts a foundation with this cutting line, in inches, is printed in on sheets with this room; 1 where it fits whole.
///
/// By its shape alone, so that its mirror image, or the same in another turn, takes as many.
#[must_use]
pub fn parts_of(cutting_line: &Polygon, room: (f64, f64)) -> u32 {
    Room::new(room).parts(cutting_line)
}

/// How a foundation is cut, as it is printed on sheets of the model's paper with this room; `None` where it is printed whole.
#[must_use]
pub fn split_of(block: &Block, variant: &Variant, (width, height): (f64, f64)) -> Option<Split> {
    let cutting = hand::printed(variant).apply_to_polygon(&block.unit_of(variant).cutting_line);
    let whole = cutting.turn_to_fit(width, height).is_some();
    (!whole).then(|| split(block, variant, &cutting, (width, height)))
}

fn split(block: &Block, variant: &Variant, cutting: &Polygon, room: (f64, f64)) -> Split {
    let drawn = drawn(block, variant);
    let tree = search::best(cutting, &Room::new(room), &drawn);
    let mut split = Split { parts: Vec::new(), cells: Vec::new(), laps: Vec::new(), mains: Vec::new() };
    gather(&tree, cutting, &mut split);
    meet(&tree, 0, &mut split);
    marks::mark(&mut split, &drawn);
    split.mains = drawn.areas.iter().map(|area| split.main(area)).collect();
    split
}

/// What is drawn on a foundation, on the printed side.
fn drawn(block: &Block, variant: &Variant) -> Drawn {
    let (unit, hand) = (block.unit_of(variant), hand::printed(variant));
    let own = unit.sections.iter().filter_map(|section| section.seam);
    let within = unit.sections.iter().flat_map(|section| section.pieced.iter().filter_map(|strip| strip.seam));
    let seams = own.chain(within).map(|seam| hand.apply_to_segment(seam)).collect();
    let areas = unit.sections.iter().flat_map(Section::areas).map(|area| hand.apply_to_polygon(area)).collect();
    Drawn::new(seams, areas, &hand.apply_to_polygon(&unit.outline))
}

/// The leaves of a tree, in order: as parts and without the laps.
fn gather(tree: &Tree, cell: &Polygon, split: &mut Split) {
    match tree {
        Tree::Part(part) => {
            split.parts.push(part.clone());
            split.cells.push(cell.clone());
        }
        Tree::Lap { middle, halves } => {
            let (left, right) = cell.cut(*middle, fine());
            for (half, cell_of) in halves.iter().zip([left, right]) {
                gather(half, cell_of.as_ref().unwrap_or(cell), split);
            }
        }
    }
}

/// The parts that meet at the laps of a tree whose first part has this index; gives the number of its parts.
fn meet(tree: &Tree, first: usize, split: &mut Split) -> usize {
    let Tree::Lap { middle, halves } = tree else { return 1 };
    let [left, right] = &**halves;
    let of_left = meet(left, first, split);
    let of_right = meet(right, first + of_left, split);
    for below in first..first + of_left {
        for above in first + of_left..first + of_left + of_right {
            if let Some(lap) = lap(split, *middle, below, above) {
                split.laps.push(lap);
            }
        }
    }
    of_left + of_right
}

/// Where two parts on either side of a lap are glued; `None` where they meet in no more than a corner that others show too.
fn lap(split: &Split, middle: Line, below: usize, above: usize) -> Option<Lap> {
    const STEPS: u16 = 64;
    let strip = split.parts[below].intersection(&split.parts[above], fine())?;
    let chord = strip.chord(middle, fine())?;
    let others = || split.parts.iter().enumerate().filter(|(k, _)| *k != below && *k != above);
    let is_alone = |at: Point| others().all(|(_, part)| part.distance_outside(at) > 0.0);
    let alone =
        (0..=STEPS).filter(|&k| is_alone(chord.start.along(chord.end, f64::from(k) / f64::from(STEPS)))).count();
    (alone > 1).then(|| Lap { below, above, middle: chord, strip, marks: Vec::new() })
}

impl Split {
    /// What of a part is left beside the strips in which it laps others; where `covered` only, beside those that others are glued over.
    #[must_use]
    pub fn open(&self, part: usize, covered: bool) -> Option<Polygon> {
        let laps = self.laps.iter().filter(|lap| lap.below == part || (!covered && lap.above == part));
        laps.filter_map(|lap| Some((lap, lap.middle.line()?))).try_fold(
            self.parts[part].clone(),
            |open, (lap, middle)| {
                if lap.below == part {
                    open.cut(middle.shifted_right(LAP / -2.0), fine()).0
                } else {
                    open.cut(middle.shifted_right(LAP / 2.0), fine()).1
                }
            },
        )
    }

    fn main(&self, section: &Polygon) -> usize {
        let shown = |part: usize, covered: bool| self.open(part, covered)?.intersection(section, fine());
        let share = |part: usize| {
            let (open, bare) = (shown(part, false), shown(part, true));
            let area = |of: &Option<Polygon>| of.as_ref().map_or(0.0, Polygon::area);
            let roomy = |of: &Option<Polygon>| of.as_ref().is_some_and(faults::is_named);
            // First where a number has room beside all strips, then where it has room at all.
            let ranks = [(roomy(&open), 1e4 * area(&open)), (roomy(&bare), area(&bare)), (true, 1e-4 * area(&bare))];
            ranks.into_iter().filter(|(does, _)| *does).map(|(_, share)| share).fold(0.0, f64::max)
        };
        let shown: Vec<f64> = (0..self.parts.len()).map(share).collect();
        // Shares that are alike but for rounding go to the earlier part.
        let better = |best: usize, part: usize| if shown[part] > shown[best] + 1e-6 { part } else { best };
        (1..shown.len()).fold(0, better)
    }

    /// A turn, or the half turn from it, so that parts are numbered to the right or down, as one reads.
    fn as_read(&self, turn: Angle) -> Angle {
        let (Some(first), Some(last)) = (self.cells.first(), self.cells.last()) else { return turn };
        let onward = Transform::turn(turn, Point::default()).apply_to_vector(last.centroid() - first.centroid());
        if onward.x + onward.y < -1e-6 { Angle::degrees(turn.to_degrees() + 180.0) } else { turn }
    }

    /// The same in another frame, which does not mirror it.
    #[must_use]
    pub(super) fn framed(&self, frame: Transform) -> Self {
        let polygons = |of: &[Polygon]| of.iter().map(|polygon| frame.apply_to_polygon(polygon)).collect();
        let lap = |lap: &Lap| Lap {
            middle: frame.apply_to_segment(lap.middle),
            strip: frame.apply_to_polygon(&lap.strip),
            marks: lap.marks.iter().map(|(at, letter)| (frame.apply(*at), letter.clone())).collect(),
            ..*lap
        };
        Self {
            parts: polygons(&self.parts),
            cells: polygons(&self.cells),
            laps: self.laps.iter().map(lap).collect(),
            mains: self.mains.clone(),
        }
    }
}
