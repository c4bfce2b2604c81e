//! What must not stay hidden: a print at 99.9 %, a seam that is moved by a pixel, ends short of its end or runs past it.

use std::fs;

use piecewright::backend::pdf::{DocumentFacts, LayerNames, draw};
use piecewright::geometry::{Length, Segment, Transform, Vector};
use piecewright::model::Model;
use piecewright::packet::leaf::Leaf;
use piecewright::packet::page::{Item, Page, Path, Piece, Subpath};
use piecewright::packet::sheets::Sheet;

use crate::raster::{DENSITY, Renderer};
use crate::sheet::{Finding, Kind, View, measure};
use crate::support::printed::main_print;
use crate::support::{patterns, tools};
use crate::{HALF_A_PIXEL, is_untrue};

/// A seam of a sheet: where it lies, and how findings call it.
struct Seam {
    at: Segment,
    called: String,
}

/// The first seam of a sheet that ends on another seam, with nothing past that.
fn seam_on_a_seam(model: &Model, sheet: &Sheet) -> Option<Seam> {
    let seams = sheet.foundations.iter().flat_map(|on| {
        let variant = &model.blocks[on.block].variants[on.variant];
        let unit = model.blocks[on.block].unit_of(variant);
        let ends_within = move |seam: &Segment| {
            let past = seam.end + way(*seam) * 0.06;
            let mut others = unit.sections.iter().filter_map(|section| section.seam).chain(unit.outline.edges());
            let is_inner = unit.outline.edges().all(|edge| edge.distance(seam.end) > 1e-6);
            is_inner && others.all(|other| other.distance(past) > 0.03)
        };
        let seams = unit.sections.iter().enumerate().filter_map(|(k, section)| Some((k, section.seam?)));
        let both_ways = seams.flat_map(|(k, seam)| [(k, seam), (k, seam.reversed())]);
        let within = both_ways.filter(move |(_, seam)| ends_within(seam));
        within.map(|(k, seam)| (on.matrix.apply_to_segment(seam), format!("{}, seam of {}, ", variant.mark, k + 1)))
    });
    let (at, called) = seams.into_iter().next()?;
    Some(Seam { at, called })
}

/// What is found on a sheet of a sample after a change of what is drawn, and how the seam is called that may have been changed; nothing where
/// the renderer is missing.
fn found(name: &str, renderer: Renderer, change: impl Fn(&Page, Segment) -> Page) -> Option<(Vec<Finding>, String)> {
    let (model, print) = main_print(&patterns().join("tide-flags.piece"));
    let seams = print.printing.sheets.iter().filter_map(|sheet| Some((sheet, seam_on_a_seam(&model, sheet)?)));
    let (sheet, seam) = seams.into_iter().next().expect("a seam that ends on another one");
    let page = change(&sheet.page, seam.at);
    let none = String::new;
    let layers = LayerNames { fabric: none(), seams: none(), cutting: none(), marks: none() };
    let facts =
        DocumentFacts { title: none(), author: None, subject: None, keywords: Vec::new(), language: none(), layers };
    let leaf = Leaf { page, label: none(), bookmarks: Vec::new(), places: Vec::new(), links: Vec::new() };
    let file = tools::folder(&format!("truth-found-out-{name}-{renderer:?}")).join("sheet.pdf");
    fs::write(&file, draw(&[leaf], &facts).expect("a sheet can be drawn")).expect("a file to look at");
    let raster = renderer.page(&file, 1)?;
    let view = View { raster: &raster, to_pixels: Transform::scale(DENSITY), snaps: renderer.snaps() };
    Some((measure(view, &model, sheet), seam.called))
}

/// A page on which one stretch is drawn as another.
fn redrawn(page: &Page, from: Segment, to: Segment) -> Page {
    let is_it = |path: &Path| match path.subpaths.as_slice() {
        [Subpath { start, pieces, closed: false }] => {
            start.distance(from.start) < 1e-6
                && matches!(pieces.as_slice(), [Piece::Line(end)] if end.distance(from.end) < 1e-6)
        }
        _ => false,
    };
    let mut count = 0;
    let mut items = page.items.clone();
    for item in &mut items {
        if let Item::Path(path) = item
            && is_it(path)
        {
            path.subpaths = vec![Subpath::line(to)];
            count += 1;
        }
    }
    assert_eq!(count, 1, "a seam is drawn once");
    Page { items, ..page.clone() }
}

/// What is untrue on a sheet where a seam is drawn otherwise, and how findings call that seam.
fn untrue(name: &str, renderer: Renderer, other: impl Fn(Segment) -> Segment) -> Option<(Vec<Finding>, String)> {
    let (mut findings, called) = found(name, renderer, |page, seam| redrawn(page, seam, other(seam)))?;
    findings.retain(is_untrue);
    Some((findings, called))
}

#[test]
fn what_is_drawn_as_it_is_is_true() {
    for renderer in Renderer::ALL {
        let Some((untrue, _)) = untrue("as-it-is", renderer, |seam| seam) else { continue };
        assert!(untrue.is_empty(), "{renderer:?}: {untrue:#?}");
    }
}

#[test]
fn a_print_at_99_9_percent_is_found_out() {
    let shrunk = |page: &Page, _| Page { width: page.width, height: page.height, ..page.scaled(0.999) };
    for renderer in Renderer::ALL {
        let Some((findings, _)) = found("smaller", renderer, shrunk) else { continue };
        let untrue = |kind: Kind| {
            let of = findings.iter().filter(|finding| finding.kind == kind);
            (of.clone().filter(|finding| is_untrue(finding)).count(), of.count())
        };
        for kind in [Kind::SeamEnd, Kind::Corner, Kind::Square] {
            let (found, all) = untrue(kind);
            assert!(found == all && all > 0, "{renderer:?}, {kind:?}: {found} of {all} are found out");
        }
        // Three centimetres shrink by less than a pixel.
        let (found, all) = untrue(Kind::Bar);
        assert!(found + 3 >= all, "{renderer:?}: {found} of {all} ticks are found out");
    }
}

/// One pixel, in inches.
fn pixel() -> f64 {
    Length::inches(1.0 / DENSITY).to_inches()
}

fn way(seam: Segment) -> Vector {
    (seam.end - seam.start).unit().expect("a seam has a length")
}

#[test]
fn a_seam_moved_by_a_pixel_is_found_out() {
    let moved = |seam: Segment| Transform::shift(way(seam).quarter_turned() * pixel()).apply_to_segment(seam);
    for renderer in Renderer::ALL {
        let Some((untrue, called)) = untrue("moved", renderer, moved) else { continue };
        let ends: Vec<&Finding> = untrue.iter().filter(|finding| finding.what.starts_with(&called)).collect();
        assert!(ends.iter().filter(|end| end.kind == Kind::SeamEnd).count() >= 2, "{renderer:?}: {untrue:#?}");
        assert!(ends.iter().all(|end| end.stray.is_some_and(|stray| stray > HALF_A_PIXEL)), "{renderer:?}: {ends:#?}");
    }
}

#[test]
fn a_seam_that_stops_short_is_found_out() {
    let short = |seam: Segment| Segment::new(seam.start, seam.end + way(seam) * (-16.0 * pixel()));
    for renderer in Renderer::ALL {
        let Some((untrue, called)) = untrue("short", renderer, short) else { continue };
        let gap = format!("{called}a gap");
        assert!(untrue.iter().any(|finding| finding.what == gap), "{renderer:?}: {untrue:#?}");
    }
}

#[test]
fn a_seam_that_runs_on_is_found_out() {
    let long = |seam: Segment| Segment::new(seam.start, seam.end + way(seam) * (30.0 * pixel()));
    for renderer in Renderer::ALL {
        let Some((untrue, called)) = untrue("long", renderer, long) else { continue };
        let past = |finding: &Finding| finding.what.starts_with(&called) && finding.what.ends_with("ink past it");
        assert!(untrue.iter().any(past), "{renderer:?}: {untrue:#?}");
    }
}
