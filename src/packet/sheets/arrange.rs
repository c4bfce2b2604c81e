//! From foundations to filled sheets: what is printed how often goes to the search as convex shapes, and comes back drawn where it lies.

use crate::filling::{self, Budget, Filled, FormerSheet, Medium, Page, Place, Shape, Task};
use crate::geometry::{Angle, Point, Polygon, Tolerance, Transform, Vector};
use crate::model::{Apart, Effort, Model};
use crate::packet::foundation::{self, Foundation};
use crate::packet::page::Item;
use crate::packet::words::Words;

use super::Spare;
use super::bed::Bed;
use super::former::Former;

/// Filled sheets, and what is to be said of them.
pub(super) struct Arranged {
    /// The sheets, in order.
    pub filled: Vec<FilledSheet>,
    /// What is printed more often than sewn.
    pub spares: Vec<Spare>,
    /// No filling prints fewer sheets.
    pub at_least: u32,
    /// No filling has fewer different ones.
    pub at_least_different: u32,
    /// No filling takes less of the roll, in inches, heads and margins included; 0 on single sheets.
    pub at_least_length: f64,
    /// How many foundations lie where they lay before; nothing where none was kept.
    pub kept: Option<usize>,
}

/// A sheet and what lies on it, in its own frame.
pub(super) struct FilledSheet {
    /// How often it is printed.
    pub times: u32,
    /// How far down the room for foundations what is on it reaches, in inches.
    pub reach: f64,
    /// What lies on it.
    pub foundations: Vec<Laid>,
}

/// A foundation where it lies on its sheet.
pub(super) struct Laid {
    /// The block, by index.
    pub block: usize,
    /// The foundation, by index in its block.
    pub variant: usize,
    /// Which part of how many.
    pub part: Option<(u32, u32)>,
    /// From the unit's frame to the sheet's.
    pub matrix: Transform,
    /// What is cut out.
    pub cutting_line: Polygon,
    /// What is drawn.
    pub items: Vec<Item>,
}

/// A foundation or a part of one, with how often it is sewn.
struct Wanted {
    foundation: Foundation,
    copies: u32,
}

/// Fills sheets with all foundations that are sewn.
pub(super) fn arrange(model: &Model, words: &Words, bed: Bed, former: Option<&Former>) -> Arranged {
    let wanted = wanted(model, words, bed);
    let mut arranged = Arranged {
        filled: Vec::new(),
        spares: Vec::new(),
        at_least: 0,
        at_least_different: 0,
        at_least_length: 0.0,
        kept: None,
    };
    let mut printed = vec![0_u32; wanted.len()];
    for group in groups(model, &wanted) {
        let task = task(model, bed, group.iter().map(|&index| &wanted[index]));
        let former: Vec<FormerSheet> = match former {
            Some(former) => {
                let foundations: Vec<&Foundation> = group.iter().map(|&index| &wanted[index].foundation).collect();
                former.sheets(model, bed, &foundations)
            }
            None => Vec::new(),
        };
        let filled = if former.is_empty() { filling::fill(&task) } else { filling::fill_keeping(&task, &former) };
        // What just fits its room is printed alone, should the search think otherwise.
        let mut filled = filled.unwrap_or_else(|_| alone(&task));
        for place in filled.sheets.iter_mut().flat_map(|sheet| &mut sheet.places) {
            place.shift = rounded(place.shift);
        }
        arranged.at_least += filled.printed_bound;
        arranged.at_least_different += filled.different_bound;
        if bed.paper.is_roll() {
            arranged.at_least_length +=
                filled.length_bound + f64::from(filled.printed_bound) * bed.sheet(0.0).1.to_inches();
        }
        if filled.kept {
            let kept = arranged.kept.get_or_insert(0);
            *kept += stayed(&filled, &former);
        }
        for sheet in filled.sheets {
            for place in &sheet.places {
                printed[group[place.shape]] += sheet.times;
            }
            let lay = |place: &Place| laid(model, words, bed, &wanted[group[place.shape]].foundation, place);
            let mut places = sheet.places.clone();
            places.sort_by_key(|place| place.shape);
            arranged.filled.push(FilledSheet {
                times: sheet.times,
                reach: sheet.length,
                foundations: places.iter().map(lay).collect(),
            });
        }
    }
    if arranged.kept.is_none() {
        // In the order in which they are sewn, as far as sheets can be.
        arranged.filled.sort_by_key(|sheet| sheet.foundations.iter().map(|on| (on.block, on.variant, on.part)).min());
    }
    let spares = wanted.iter().zip(printed).filter_map(|(wanted, printed)| {
        let Foundation { block, variant, part, .. } = wanted.foundation;
        let count = printed.saturating_sub(wanted.copies);
        (count > 0).then_some(Spare { block, variant, part, count })
    });
    arranged.spares = spares.collect();
    arranged
}

/// How many foundations lie where they lay before.
fn stayed(filled: &Filled, former: &[FormerSheet]) -> usize {
    let mut count = 0;
    for sheet in &filled.sheets {
        let on = |other: &FormerSheet| {
            let lies = |place: &&Place| other.places.iter().any(|former| former == *place);
            sheet.places.iter().filter(lies).count()
        };
        count += former.iter().map(on).max().unwrap_or(0);
    }
    count
}

/// Everything that is sewn on paper, drawn.
fn wanted(model: &Model, words: &Words, bed: Bed) -> Vec<Wanted> {
    let mut wanted = Vec::new();
    for (block_index, block) in model.blocks.iter().enumerate() {
        let sewn =
            block.variants.iter().enumerate().filter(|(_, variant)| variant.sewn > 0 && block.has_paper(variant));
        for (variant_index, variant) in sewn {
            let drawn = foundation::foundation(model, block_index, variant_index, bed.room(), words);
            wanted.extend(drawn.into_iter().map(|foundation| Wanted { foundation, copies: variant.sewn }));
        }
    }
    wanted
}

/// What is filled together, by index, in order.
fn groups(model: &Model, wanted: &[Wanted]) -> Vec<Vec<usize>> {
    let key = |wanted: &Wanted| match model.sheets.apart {
        Apart::Nothing => (0, 0),
        Apart::Blocks => (wanted.foundation.block, 0),
        Apart::Units => (wanted.foundation.block, wanted.foundation.variant),
    };
    let numbered: Vec<usize> = (0..wanted.len()).collect();
    numbered.chunk_by(|&a, &b| key(&wanted[a]) == key(&wanted[b])).map(<[usize]>::to_vec).collect()
}

/// Each foundation on sheets of its own, as it is drawn.
fn alone(task: &Task) -> Filled {
    let wanted = task.shapes.iter().enumerate().filter(|(_, shape)| shape.copies > 0);
    let sheet = |(shape, of): (usize, &Shape)| {
        let (from, to) = of.outline.bounds();
        let place = Place { shape, turn: Angle::default(), shift: -from.to_vector() };
        filling::FilledSheet { places: vec![place], times: of.copies, length: to.y - from.y }
    };
    let sheets: Vec<filling::FilledSheet> = wanted.map(sheet).collect();
    let least = u32::from(!sheets.is_empty());
    Filled { sheets, printed_bound: least, different_bound: least, length_bound: 0.0, complete: false, kept: false }
}

/// A shift in hundred-thousandths of an inch: `model.json` tells it exactly.
pub(super) fn rounded(shift: Vector) -> Vector {
    let near = |inches: f64| (inches * 1e5).round() / 1e5;
    Vector::new(near(shift.x), near(shift.y))
}

fn task<'w>(model: &Model, bed: Bed, wanted: impl Iterator<Item = &'w Wanted>) -> Task {
    let (width, height) = bed.room();
    let medium = if bed.paper.is_roll() { Medium::Roll } else { Medium::Pages };
    let shape = |wanted: &Wanted| Shape { outline: wanted.foundation.footprint.clone(), copies: wanted.copies };
    Task {
        shapes: wanted.map(shape).collect(),
        page: Page { width, height, medium },
        gap: model.sheets.gap.to_inches(),
        turning: model.sheets.turning,
        wish: model.sheets.wish,
        effort: match model.effort {
            Effort::Quick => Budget::QUICK,
            Effort::Usual => Budget::USUAL,
            Effort::Thorough => Budget::THOROUGH,
        },
    }
}

/// A foundation drawn where it lies. Where it is turned, it is drawn anew, so that its words stand as upright as they can, unless they would then reach past its footprint.
fn laid(model: &Model, words: &Words, bed: Bed, foundation: &Foundation, place: &Place) -> Laid {
    let to_room = place.transform();
    let to_sheet = to_room.then(Transform::shift(bed.corner().to_vector()));
    let turned = place.turn.within_turn().to_degrees();
    let drawn_anew = (turned.abs() > 1e-9).then(|| {
        let turn = Angle::degrees(foundation.turn.to_degrees() + turned);
        foundation::turned(foundation, model, turn, bed.room(), words)
    });
    let tolerance = Tolerance::of_extent(model.blocks[foundation.block].width.to_inches());
    let anew = drawn_anew.flatten().and_then(|anew| {
        let shift = Transform::shift(
            foundation.matrix.then(to_room).apply(Point::default()) - anew.matrix.apply(Point::default()),
        );
        let reach = shift.apply_to_polygon(&anew.footprint);
        to_room.apply_to_polygon(&foundation.footprint).covers(&reach, tolerance).then_some((anew, shift))
    });
    let (drawn, way) = match &anew {
        Some((anew, shift)) => (anew, shift.then(Transform::shift(bed.corner().to_vector()))),
        None => (foundation, to_sheet),
    };
    Laid {
        block: foundation.block,
        variant: foundation.variant,
        part: foundation.part,
        matrix: foundation.matrix.then(to_sheet),
        cutting_line: to_sheet.apply_to_polygon(&foundation.cutting_line),
        items: drawn.items.iter().map(|item| item.laid(way)).collect(),
    }
}
