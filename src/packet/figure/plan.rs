//! What the planner decides, as figures: the papers of a block tinted, with the order of sewing and of joining; and what no straight seam divides.

use super::canvas::{Canvas, Room};
use super::name_sizes;
use crate::geometry::{Length, Point, Polygon, Segment, Tolerance, Transform};
use crate::packet::label::Label;
use crate::packet::page::{Colour, Layer, Page, Path, Stroke, Weight};
use crate::packet::words::Words;

/// The tints of papers: light, and each of another lightness, so that neighbours differ in grey too.
const TINTS: [Colour; 6] = [
    Colour([250, 240, 214]),
    Colour([206, 227, 233]),
    Colour([226, 206, 214]),
    Colour([203, 217, 190]),
    Colour([240, 214, 186]),
    Colour([190, 198, 222]),
];
/// The tint of what is stuck.
const STUCK: Colour = Colour([243, 199, 138]);
/// The colour of joins and of seams that are added.
const JOIN: Colour = Colour([146, 43, 33]);
/// How much of the figure stays free round the block, in inches.
const BORDER: f64 = 0.2;

/// A plan to draw; lengths in grid steps of the block.
pub struct PlanFigure<'p> {
    /// The block's name.
    pub name: &'p str,
    /// Its outline.
    pub outline: &'p Polygon,
    /// Its papers: the name of each, and what is sewn on it in the order of sewing.
    pub papers: Vec<(&'p str, Vec<&'p Polygon>)>,
    /// What stands as the source has it: its name, and its units.
    pub standing: Vec<(&'p str, Vec<&'p Polygon>)>,
    /// The joins in the order of sewing.
    pub joins: Vec<Segment>,
}

/// The block with its papers tinted and named, the order of sewing on each, and the joins numbered in theirs. O(n²) in its areas.
#[must_use]
pub fn plan_figure(plan: &PlanFigure<'_>, width: Length, words: &Words) -> Page {
    let wide = width.to_inches();
    let mut canvas = canvas(plan.outline, wide);
    let hulls: Vec<Vec<&Polygon>> = plan.papers.iter().chain(&plan.standing).map(|(_, areas)| areas.clone()).collect();
    for (tint, areas) in tints(plan.outline, &hulls).into_iter().zip(&hulls) {
        canvas.outlines(areas.iter().copied(), Some(tint), None);
    }
    let all = || hulls.iter().flatten().copied();
    canvas.outlines(all(), None, Some(Stroke::plain(0.5, Colour::grey(90))));
    for &seam in &plan.joins {
        canvas.line(seam, Stroke::plain(1.8, JOIN));
    }
    canvas.outline(plan.outline, None, Stroke::plain(1.8, Colour::BLACK));
    for area in all() {
        canvas.ground_over(area);
    }
    for (number, &seam) in (1..).zip(&plan.joins) {
        number_join(&mut canvas, number, seam);
    }
    let sizes = name_sizes(wide);
    let mut write = |area: &Polygon, words: &str, weight: Weight| {
        let fits =
            canvas.name(area, words, weight, sizes, false) || canvas.name(area, words, weight, &[5.0, 4.5], true);
        if !fits {
            canvas.leader(area, plan.outline, words, weight);
        }
    };
    // Small areas choose first; the largest of a paper has its name besides.
    let mut numbered: Vec<(&Polygon, usize)> = Vec::new();
    for (_, areas) in plan.papers.iter().filter(|(_, areas)| areas.len() > 1) {
        let largest = areas.iter().map(|area| area.area()).fold(0.0, f64::max);
        numbered.extend(areas.iter().zip(1..).filter(|(area, _)| area.area() < largest).map(|(area, k)| (*area, k)));
    }
    numbered.sort_by(|a, b| a.0.area().total_cmp(&b.0.area()));
    for (area, number) in numbered {
        write(area, &number.to_string(), Weight::Regular);
    }
    let stands = plan.standing.iter().map(|paper| (paper, false));
    for ((name, areas), is_planned) in plan.papers.iter().map(|paper| (paper, true)).chain(stands) {
        let largest = areas.iter().zip(1_usize..).max_by(|a, b| a.0.area().total_cmp(&b.0.area()));
        let Some((area, number)) = largest else { continue };
        write(area, name, Weight::Bold);
        // Equally large ones have their numbers here, too.
        for (other, k) in areas.iter().zip(1_usize..).filter(|_| is_planned && areas.len() > 1) {
            if k == number || other.area() >= area.area() {
                write(other, &k.to_string(), Weight::Regular);
            }
        }
    }
    let description = words.figure_plan_alt(plan.name, plan.papers.len(), plan.joins.len());
    canvas.page(plan.name.to_owned(), description)
}

/// The block with the areas tinted that no straight seam divides, and the seams that would free them. `regions` are lists of areas by number.
#[must_use]
pub fn stuck_figure(
    (name, outline): (&str, &Polygon),
    areas: &[Polygon],
    regions: &[Vec<usize>],
    cures: &[Segment],
    width: Length,
    words: &Words,
) -> Page {
    let mut canvas = canvas(outline, width.to_inches());
    for region in regions {
        let stuck = || region.iter().filter_map(|&area| areas.get(area));
        canvas.outlines(stuck(), Some(STUCK), None);
    }
    canvas.outlines(areas, None, Some(Stroke::plain(0.5, Colour::grey(90))));
    for region in regions {
        let stuck = || region.iter().filter_map(|&area| areas.get(area));
        canvas.outlines(stuck(), None, Some(Stroke::plain(1.6, Colour::BLACK)));
    }
    canvas.outline(outline, None, Stroke::plain(1.8, Colour::BLACK));
    for &seam in cures {
        canvas.line(seam, Stroke::plain(2.2, JOIN).dashed(&[5.0, 3.0]));
    }
    let locked: usize = regions.iter().map(Vec::len).sum();
    canvas.page(name.to_owned(), words.figure_stuck_alt(name, locked, cures.len()))
}

fn canvas(outline: &Polygon, wide: f64) -> Canvas {
    let room = Room { width: wide, most_high: wide * 1.4, beside: BORDER, above: BORDER };
    Canvas::new(outline.bounds(), Transform::IDENTITY, room)
}

/// The number of a join on its line, white on the colour of the line, where it is free nearest to the middle.
fn number_join(canvas: &mut Canvas, number: usize, seam: Segment) {
    let label = Label::words(&number.to_string(), Length::points(7.0), Weight::Bold, Colour::WHITE);
    let radius = (label.width / 2.0).max(label.height / 2.0) + 0.025;
    let line = canvas.map.apply_to_segment(seam);
    let boxed = |centre: Point| {
        let (a, b) = (radius, -radius);
        [(b, b), (a, b), (a, a), (b, a)].map(|(x, y)| Point::new(centre.x + x, centre.y + y))
    };
    let spots = (0..9).map(|k| 0.5 + f64::from((k + 1) / 2) * if k % 2 == 0 { 0.1 } else { -0.1 });
    let spots: Vec<Point> = spots.map(|share| line.start.along(line.end, share)).collect();
    let free = spots.iter().find(|&&spot| canvas.is_free(&boxed(spot), 0.0));
    let Some(&centre) = free.or(spots.first()) else { return };
    canvas.items.push(Path::circle(centre, radius, Some(JOIN), None, Layer::Marks).into());
    canvas.keep_clear(&boxed(centre));
    label.draw(centre, 0.0, &mut canvas.items);
}

/// A tint for each paper, neighbours different as far as the tints go. O(n²).
fn tints(outline: &Polygon, papers: &[Vec<&Polygon>]) -> Vec<Colour> {
    let (from, to) = outline.bounds();
    let tolerance = Tolerance::of_extent((to.x - from.x).max(to.y - from.y));
    let hulls: Vec<Option<Polygon>> = papers
        .iter()
        .map(|areas| Polygon::hull(areas.iter().flat_map(|area| area.corners()).copied(), tolerance))
        .collect();
    let touch = |a: &Polygon, b: &Polygon| {
        a.edges().any(|edge| {
            b.edges().any(|other| {
                let inner = [0.1, 0.5, 0.9].map(|share| edge.start.along(edge.end, share));
                let outer = [0.1, 0.5, 0.9].map(|share| other.start.along(other.end, share));
                inner.iter().any(|&p| tolerance.is_zero(other.distance(p)))
                    || outer.iter().any(|&p| tolerance.is_zero(edge.distance(p)))
            })
        })
    };
    let mut chosen: Vec<usize> = Vec::with_capacity(papers.len());
    for (k, hull) in hulls.iter().enumerate() {
        let beside: Vec<usize> = (0..k)
            .filter(|&other| matches!((hull, &hulls[other]), (Some(a), Some(b)) if touch(a, b)))
            .map(|other| chosen[other])
            .collect();
        // Where all tints stand beside it, it shares the one that is used least there.
        let count = |tint: &usize| beside.iter().filter(|other| *other == tint).count();
        chosen.push((0..TINTS.len()).min_by_key(count).unwrap_or(0));
    }
    chosen.into_iter().map(|tint| TINTS[tint]).collect()
}
