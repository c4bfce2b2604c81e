//! SVG: plain areas and lines become shapes in the units of the drawing, with all transforms applied.
//!
//! The text is looked through before it is given to `usvg`, which resolves styles, shapes and transforms: for depth and number, so that no file
//! overflows anything, and for what `usvg` would leave out in silence.

use usvg::roxmltree::{Document, Node, ParsingOptions};
use usvg::tiny_skia_path::{PathSegment, Point, Transform};

use super::{Drawing, Feature, Kind, MOST_POINTS, Outline, PictureFault, Shape, check_proportion};

/// Nodes of the file at the most.
const MOST_NODES: u32 = 60_000;
/// Elements in elements at the most.
const MOST_DEPTH: u32 = 100;
/// Bytes of rules of style at the most: each is compared with every element.
const MOST_STYLE: usize = 16 << 10;
/// How far an area or the middle of a line may reach past the edge of the drawing, of its longer side.
const OVERHANG: f64 = 0.02;

const BROKEN: PictureFault = PictureFault::Broken(Kind::Svg);

/// Makes the drawing. O(n), but for styles: O(rules × elements).
pub(super) fn drawing(text: &str) -> Result<Drawing, PictureFault> {
    if text.contains("<!ENTITY") {
        return Err(PictureFault::Beyond(Feature::Entity));
    }
    let options = ParsingOptions { allow_dtd: true, nodes_limit: MOST_NODES, ..ParsingOptions::default() };
    let document = Document::parse_with_options(text, options).map_err(|error| match error {
        usvg::roxmltree::Error::NodesLimitReached => PictureFault::Points,
        _ => BROKEN,
    })?;
    if document.root_element().tag_name().name() != "svg" {
        return Err(PictureFault::NoPicture);
    }
    look_through(&document)?;
    let tree = usvg::Tree::from_xmltree(&document, &usvg::Options::default()).map_err(|_| BROKEN)?;
    let (width, height) = (f64::from(tree.size().width()), f64::from(tree.size().height()));
    if !(width.is_normal() && height.is_normal() && width > 0.0 && height > 0.0) {
        return Err(BROKEN);
    }
    check_proportion(width, height)?;
    let mut drawn = Drawn { drawing: Drawing { width, height, shapes: Vec::new() }, points: 0 };
    drawn.group(tree.root())?;
    if drawn.drawing.shapes.is_empty() {
        return Err(PictureFault::Beyond(Feature::Nothing));
    }
    Ok(drawn.drawing)
}

/// What is drawn only where something refers to it.
const REFERRED_TO: [&str; 9] =
    ["defs", "symbol", "pattern", "clipPath", "mask", "marker", "filter", "linearGradient", "radialGradient"];

/// What is known of a node from those round it.
#[derive(Clone, Copy, Default)]
struct Around {
    depth: u32,
    /// It is drawn only where something refers to it.
    aside: bool,
}

/// Refuses what is too deep or too much, what would be left out in silence, and all that refers to something else:
/// such references may form chains of any length.
fn look_through(document: &Document<'_>) -> Result<(), PictureFault> {
    let mut all: Vec<Around> = Vec::new();
    let mut style = 0;
    for node in document.descendants() {
        let outer = node.parent().and_then(|parent| all.get(parent.id().get_usize())).copied().unwrap_or_default();
        if outer.depth > MOST_DEPTH {
            return Err(PictureFault::Beyond(Feature::Depth));
        }
        let name = node.tag_name().name();
        let aside = outer.aside || REFERRED_TO.contains(&name);
        all.resize(node.id().get_usize() + 1, Around::default());
        if let Some(last) = all.last_mut() {
            *last = Around { depth: outer.depth + 1, aside };
        }
        if !node.is_element() {
            continue;
        }
        let feature = match name {
            "style" => {
                let rules = || node.children().filter_map(|child| child.text());
                style += rules().map(str::len).sum::<usize>();
                if style > MOST_STYLE {
                    Some(Feature::Style)
                } else {
                    rules().find_map(|rules| in_rules(document, rules))
                }
            }
            _ if aside => None,
            "text" if has_words(node) => Some(Feature::Text),
            "image" => Some(Feature::Picture),
            "use" => Some(Feature::Link),
            _ => node.attributes().find_map(|attribute| match attribute.name() {
                "style" => in_rules(document, attribute.value()),
                property => in_value(document, property, attribute.value()),
            }),
        };
        if let Some(feature) = feature {
            return Err(PictureFault::Beyond(feature));
        }
    }
    Ok(())
}

/// What the first rule with a reference is about.
fn in_rules(document: &Document<'_>, rules: &str) -> Option<Feature> {
    rules.split(['{', '}', ';']).find_map(|rule| {
        let (property, value) = rule.split_once(':')?;
        in_value(document, property.trim(), value)
    })
}

/// What a property that refers to something else is about.
fn in_value(document: &Document<'_>, property: &str, value: &str) -> Option<Feature> {
    let (_, target) = value.split_once("url(")?;
    Some(match property {
        "clip-path" => Feature::Clip,
        "mask" => Feature::Mask,
        "filter" => Feature::Filter,
        _ if property.starts_with("marker") => Feature::Marker,
        _ => {
            let id = target.trim_start_matches(['#', '"', '\'', ' ']).split([')', '"', '\'']).next().unwrap_or("");
            let patterns = document.descendants().filter(|node| node.tag_name().name() == "pattern");
            let is_pattern = patterns.into_iter().any(|pattern| pattern.attribute("id") == Some(id));
            if is_pattern { Feature::Pattern } else { Feature::Gradient }
        }
    })
}

fn has_words(node: Node<'_, '_>) -> bool {
    node.descendants().filter_map(|inner| inner.text()).any(|text| !text.trim().is_empty())
}

struct Drawn {
    drawing: Drawing,
    points: usize,
}

impl Drawn {
    fn group(&mut self, group: &usvg::Group) -> Result<(), PictureFault> {
        let beyond = |feature| Err(PictureFault::Beyond(feature));
        if group.opacity().get() < 1.0 || group.blend_mode() != usvg::BlendMode::Normal {
            return beyond(Feature::Opacity);
        }
        if group.mask().is_some() {
            return beyond(Feature::Mask);
        }
        if group.clip_path().is_some() {
            return beyond(Feature::Clip);
        }
        if !group.filters().is_empty() {
            return beyond(Feature::Filter);
        }
        for node in group.children() {
            match node {
                usvg::Node::Group(group) => self.group(group)?,
                usvg::Node::Path(path) => self.path(path)?,
                usvg::Node::Image(_) => return beyond(Feature::Picture),
                usvg::Node::Text(_) => return beyond(Feature::Text),
            }
        }
        Ok(())
    }

    fn path(&mut self, path: &usvg::Path) -> Result<(), PictureFault> {
        if !path.is_visible() {
            return Ok(());
        }
        let transform = path.abs_transform();
        let fill = path.fill().map(|fill| plain(fill.paint(), fill.opacity().get())).transpose()?;
        let even_odd = path.fill().is_some_and(|fill| fill.rule() == usvg::FillRule::EvenOdd);
        let stroke = path.stroke().map(|stroke| pen(stroke, transform)).transpose()?;
        if fill.is_none() && stroke.is_none() {
            return Ok(());
        }
        let outlines = self.outlines(path.data(), transform)?;
        if outlines.is_empty() {
            return Ok(());
        }
        let bounds = path.abs_bounding_box();
        let (width, height) = (self.drawing.width, self.drawing.height);
        let most = width.max(height) * OVERHANG;
        let [left, top, right, bottom] = [bounds.left(), bounds.top(), bounds.right(), bounds.bottom()].map(f64::from);
        if !(left >= -most && top >= -most && right <= width + most && bottom <= height + most) {
            return Err(PictureFault::Beyond(Feature::Overhang));
        }
        let shapes = &mut self.drawing.shapes;
        if let (Some(_), Some(_), usvg::PaintOrder::StrokeAndFill) = (fill, stroke, path.paint_order()) {
            shapes.push(Shape { outlines: outlines.clone(), fill: None, even_odd, stroke });
            shapes.push(Shape { outlines, fill, even_odd, stroke: None });
        } else {
            shapes.push(Shape { outlines, fill, even_odd, stroke });
        }
        Ok(())
    }

    fn outlines(&mut self, path: &usvg::tiny_skia_path::Path, by: Transform) -> Result<Vec<Outline>, PictureFault> {
        let at = |point: Point| place(point, by);
        let mut outlines: Vec<Outline> = Vec::new();
        // A path goes on from where it closed.
        let mut start: Option<[f64; 2]> = None;
        let mut open = false;
        let mut here = [0.0; 2];
        for segment in path.segments() {
            self.points += 1;
            if self.points > MOST_POINTS {
                return Err(PictureFault::Points);
            }
            let curve = match segment {
                PathSegment::MoveTo(to) => {
                    here = at(to).ok_or(BROKEN)?;
                    (start, open) = (Some(here), false);
                    continue;
                }
                PathSegment::Close => {
                    if let Some(outline) = outlines.last_mut().filter(|_| open) {
                        outline.closed = true;
                    }
                    (here, open) = (start.unwrap_or(here), false);
                    continue;
                }
                PathSegment::LineTo(to) => {
                    let to = at(to).ok_or(BROKEN)?;
                    [here, to, to]
                }
                PathSegment::QuadTo(handle, to) => {
                    let (handle, to) = (at(handle).ok_or(BROKEN)?, at(to).ok_or(BROKEN)?);
                    let toward =
                        |end: [f64; 2]| [0, 1].map(|axis| round(end[axis] + (handle[axis] - end[axis]) * 2.0 / 3.0));
                    [toward(here), toward(to), to]
                }
                PathSegment::CubicTo(first, second, to) => {
                    [at(first).ok_or(BROKEN)?, at(second).ok_or(BROKEN)?, at(to).ok_or(BROKEN)?]
                }
            };
            if !open {
                outlines.push(Outline { start: here, curves: Vec::new(), closed: false });
                open = true;
            }
            here = curve[2];
            if let Some(outline) = outlines.last_mut() {
                outline.curves.push(curve);
            }
        }
        Ok(outlines)
    }
}

/// A point of a path in the units of the drawing; `None` where it is no place.
fn place(point: Point, by: Transform) -> Option<[f64; 2]> {
    let (x, y) = (f64::from(point.x), f64::from(point.y));
    let [sx, ky, kx, sy, tx, ty] = [by.sx, by.ky, by.kx, by.sy, by.tx, by.ty].map(f64::from);
    let placed = [round(sx * x + kx * y + tx), round(ky * x + sy * y + ty)];
    placed.iter().all(|value| value.is_finite()).then_some(placed)
}

/// To a ten-thousandth, below which single precision says nothing anyway.
fn round(value: f64) -> f64 {
    (value * 10_000.0).round() / 10_000.0
}

fn plain(paint: &usvg::Paint, opacity: f32) -> Result<[u8; 3], PictureFault> {
    match paint {
        usvg::Paint::Color(colour) if opacity >= 1.0 => Ok([colour.red, colour.green, colour.blue]),
        usvg::Paint::Color(_) => Err(PictureFault::Beyond(Feature::Opacity)),
        usvg::Paint::LinearGradient(_) | usvg::Paint::RadialGradient(_) => Err(PictureFault::Beyond(Feature::Gradient)),
        usvg::Paint::Pattern(_) => Err(PictureFault::Beyond(Feature::Pattern)),
    }
}

/// Colour and width of a line; its width must be the same each way.
fn pen(stroke: &usvg::Stroke, by: Transform) -> Result<([u8; 3], f64), PictureFault> {
    let colour = plain(stroke.paint(), stroke.opacity().get())?;
    if stroke.dasharray().is_some() {
        return Err(PictureFault::Beyond(Feature::Dashes));
    }
    let [sx, ky, kx, sy] = [by.sx, by.ky, by.kx, by.sy].map(f64::from);
    let (along, across) = (libm::hypot(sx, ky), libm::hypot(kx, sy));
    let skew = (sx * kx + ky * sy).abs();
    if (along - across).abs() > 0.02 * along.max(across) || skew > 0.02 * along * across {
        return Err(PictureFault::Beyond(Feature::UnevenLine));
    }
    Ok((colour, round(f64::from(stroke.width().get()) * (along * across).sqrt())))
}
