//! The technique in eight drawings, all of one unit: three cloths of a sail.
//!
//! From the second on they are seen from the printed side, turned so that line 2 is level, as the steps are: what is done is done to section 2.
//! Its line ends on the outline at the left and inside the unit at the right, so that both ways to end a seam are seen.

mod sail;
mod scene;

use crate::geometry::{Angle, Length, Point, Polygon, Segment, Transform, Vector};
use crate::packet::label::Label;
use crate::packet::page::{Colour, Layer, Page, Path, Stroke, Weight};
use crate::packet::words::Words;

use super::ACCENT;
use sail::{ALLOWANCE, LINE, Sail};
use scene::{Cloth, Scene};

/// Fabric of section 1.
const FIRST: Cloth = Cloth { mark: 2, colour: [222, 184, 132] };
/// Fabric of section 2: what is sewn on in these drawings.
const SECOND: Cloth = Cloth { mark: 3, colour: [164, 192, 208] };
/// Fabric of section 3.
const THIRD: Cloth = Cloth { mark: 4, colour: [232, 214, 166] };

/// The drawings, in the order of the work: the two sides of the paper; piece 1; folding and trimming; laying; sewing; flipping and looking;
/// trimming; taking out the paper.
#[must_use]
pub fn primer(width: Length, words: &Words) -> Vec<Page> {
    let Some(sail) = Sail::new() else { return Vec::new() };
    let wide = width.to_inches();
    let scene = || Scene::new(wide, &sail);
    let drawn = [
        (sides(wide, &sail, words), words.primer_sides_alt()),
        (first(scene()), words.primer_first_alt()),
        (fold(scene(), words), words.primer_fold_alt()),
        (lay(scene()), words.primer_lay_alt()),
        (sew(scene()), words.primer_sew_alt()),
        (look(scene()), words.primer_look_alt()),
        (trim(scene()), words.primer_trim_alt()),
        (tear(scene()), words.primer_paper_alt()),
    ];
    (1..).zip(drawn).map(|(number, (scene, alt))| scene.canvas.page(words.primer_figure(number), alt)).collect()
}

/// The printed side and, beside it, the plain side with the mirrored picture.
fn sides<'s>(wide: f64, sail: &'s Sail, words: &Words) -> Scene<'s> {
    let (from, to) = sail.paper.bounds();
    let apart = (to.x - from.x) + 0.9;
    let mut scene = Scene::showing(wide, sail, (from, Point::new(to.x + apart, to.y)));
    let turned_over = Transform::from_matrix([-1.0, 0.0, 0.0, 1.0, from.x + to.x + apart, 0.0]);
    scene.paper();
    scene.section_lines();
    scene.numbers();
    scene.plain_side(turned_over);
    let middle = f64::midpoint(from.y, to.y);
    let gap = (to.x + 0.12, to.x + 0.78);
    scene.arrow(Point::new(gap.0, middle), Point::new(gap.1, middle));
    for (name, shift) in [(words.primer_printed_side(), 0.0), (words.primer_plain_side(), apart)] {
        let at = scene.canvas.map.apply(Point::new(f64::midpoint(from.x, to.x) + shift, to.y));
        let sizes = [7.0, 6.5, 6.0, 5.5, 5.0, 4.5];
        let labels = sizes.map(|points| Label::words(&name, Length::points(points), Weight::Regular, Colour::BLACK));
        if let Some(label) = labels.into_iter().find(|label| label.width < wide / 2.0 - 0.06) {
            label.draw(at + Vector::new(0.0, 0.09), 0.0, &mut scene.canvas.items);
        }
    }
    scene.canvas.height += 0.15;
    scene
}

/// Piece 1 beneath section 1, reaching past it all round.
fn first(mut scene: Scene<'_>) -> Scene<'_> {
    let piece = scene.sail.first.clone();
    scene.wrong_side(&piece, FIRST);
    scene.paper();
    scene.through(&piece, FIRST);
    scene.section_lines();
    scene.hidden_edge(&piece, ACCENT);
    let [section, ..] = &scene.sail.sections;
    scene.canvas.outline(section, None, Stroke::plain(1.4, Colour::BLACK));
    scene.numbers();
    scene
}

/// The paper folded back along the line, a card on the fold, and what stands past the fold trimmed to one allowance.
fn fold<'s>(mut scene: Scene<'s>, words: &Words) -> Scene<'s> {
    let trimmed = scene.sail.trimmed.clone();
    let cut_off = scene.sail.cut_off.clone();
    scene.wrong_side(&trimmed, FIRST);
    let lifted = Transform::shift(Vector::new(0.0, -0.16)).apply_to_polygon(&cut_off);
    scene.faded(&lifted, FIRST);
    scene.folded(true);
    let edge = Segment::new(Point::new(-0.9, LINE - ALLOWANCE), Point::new(3.6, LINE - ALLOWANCE));
    scene.canvas.line(edge, Stroke::plain(1.2, ACCENT).dashed(&[4.0, 2.0]));
    // How much is left past the fold.
    let x = 3.85;
    let (top, bottom) = (Point::new(x, LINE - ALLOWANCE), Point::new(x, LINE));
    scene.measure(top, bottom, &words.primer_allowance());
    scene
}

/// The new piece right sides together, its edge on the trimmed edge, the paper still folded.
fn lay(mut scene: Scene<'_>) -> Scene<'_> {
    let (piece, trimmed) = (scene.sail.laid.clone(), scene.sail.trimmed.clone());
    scene.right_side(&piece, SECOND);
    scene.wrong_side(&trimmed, FIRST);
    scene.folded(false);
    scene.hidden_edge(&piece, ACCENT);
    let top = LINE - ALLOWANCE;
    scene.canvas.line(Segment::new(Point::new(-0.95, top), Point::new(3.55, top)), Stroke::plain(1.6, ACCENT));
    scene
}

/// The paper unfolded, the seam on the line: to the cutting line at the left, where the line ends on the outline; a few stitches past it at the right.
fn sew(mut scene: Scene<'_>) -> Scene<'_> {
    let (piece, trimmed) = (scene.sail.laid.clone(), scene.sail.trimmed.clone());
    scene.right_side(&piece, SECOND);
    scene.wrong_side(&trimmed, FIRST);
    through_paper(&mut scene, &trimmed, &piece);
    scene.numbers();
    scene.stitches(ACCENT);
    let (left, right) = scene.sail.stitched;
    let above = Vector::new(0.0, -0.16);
    scene.arrow(Point::new(left + 0.5, LINE) + above, Point::new(right - 0.9, LINE) + above);
    scene
}

/// The paper over both pieces, which shine through it with their edges.
fn through_paper(scene: &mut Scene<'_>, trimmed: &Polygon, piece: &Polygon) {
    scene.paper();
    scene.through(trimmed, FIRST);
    scene.through(piece, SECOND);
    scene.section_lines();
    scene.hidden_edge(trimmed, Colour::grey(130));
    scene.hidden_edge(piece, ACCENT);
}

/// Flipped open and held to the light: the piece covers the section and an allowance beyond.
fn look(mut scene: Scene<'_>) -> Scene<'_> {
    let (piece, trimmed) = (scene.sail.flipped.clone(), scene.sail.trimmed.clone());
    scene.wrong_side(&trimmed, FIRST);
    scene.wrong_side(&piece, SECOND);
    through_paper(&mut scene, &trimmed, &piece);
    let [_, section, _] = &scene.sail.sections;
    scene.canvas.outline(&scene.sail.needed, None, Stroke::plain(0.7, Colour::grey(60)).dashed(&[1.0, 1.4]));
    scene.canvas.outline(section, None, Stroke::plain(1.4, Colour::BLACK));
    scene.numbers();
    scene.stitches(Colour::grey(60));
    scene.lamp(Point::new(4.1, -0.3));
    scene
}

/// All pieces on, trimmed on the cutting line along a ruler.
fn trim(mut scene: Scene<'_>) -> Scene<'_> {
    let pieces =
        [(scene.sail.trimmed.clone(), FIRST), (scene.sail.flipped.clone(), SECOND), (scene.sail.last.clone(), THIRD)];
    let sail = scene.sail;
    let (kept, off) = (&sail.kept, Transform::shift(Vector::new(0.26, -0.05)));
    for (piece, cloth) in &pieces {
        let (piece_kept, piece_off) = kept.split(piece);
        if let Some(part) = &piece_kept {
            scene.wrong_side(part, *cloth);
        }
        if let Some(part) = &piece_off {
            scene.faded(&off.apply_to_polygon(part), *cloth);
        }
    }
    let (paper_kept, paper_off) = kept.split(&scene.sail.paper);
    if let Some(part) = &paper_kept {
        scene.canvas.outline(part, Some(Colour::WHITE), Stroke::plain(0.6, Colour::grey(150)));
    }
    if let Some(part) = &paper_off {
        let part = off.apply_to_polygon(part);
        scene.canvas.outline(&part, Some(Colour::WHITE), Stroke::plain(0.6, Colour::grey(150)));
    }
    for (piece, cloth) in &pieces {
        if let Some(part) = &kept.split(piece).0 {
            scene.through(part, *cloth);
        }
    }
    scene.section_lines();
    scene.numbers();
    scene.canvas.line(kept.edge, Stroke::plain(1.6, ACCENT).dashed(&[4.0, 2.0]));
    scene.ruler(kept.edge);
    scene
}

/// The paper of section 2 torn away along the stitches.
fn tear(mut scene: Scene<'_>) -> Scene<'_> {
    let sail = scene.sail;
    for (piece, cloth) in [(&sail.trimmed, FIRST), (&sail.last, THIRD), (&sail.flipped, SECOND)] {
        if let Some(part) = sail.within_cutting(piece) {
            scene.wrong_side(&part, cloth);
        }
    }
    let cutting = sail.cutting.clone();
    scene.canvas.outline(&cutting, None, Stroke::plain(0.7, Colour::grey(95)));
    let [rest, torn] = &sail.torn;
    let edge = || Some(Stroke::plain(0.7, Colour::grey(110)));
    let draw = |scene: &mut Scene<'_>, corners: &[Point], map: Transform| {
        let corners: Vec<Point> = corners.iter().map(|&c| scene.canvas.map.apply(map.apply(c))).collect();
        scene.canvas.items.push(Path::area(&corners, Some(Colour::WHITE), edge(), Layer::Seams).into());
    };
    draw(&mut scene, rest, Transform::IDENTITY);
    scene.lower_lines();
    scene.stitches(Colour::grey(60));
    let away =
        Transform::turn(Angle::degrees(-11.0), Point::new(1.4, 0.4)).then(Transform::shift(Vector::new(0.2, -0.42)));
    draw(&mut scene, torn, away);
    let number = scene.canvas.map.apply(away.apply(Point::new(1.4, 0.35)));
    scene.number_at("2", number);
    let [first, _, third] = &sail.sections;
    for (number, section) in [("1", first), ("3", third)] {
        let at = scene.canvas.map.apply(section.centroid() + Vector::new(0.0, 0.25));
        scene.number_at(number, at);
    }
    let from = scene.canvas.map.apply(Point::new(0.2, 0.78));
    let tip = scene.canvas.map.apply(Point::new(0.15, -0.2));
    scene.arrow_on_page(from, tip);
    scene
}
