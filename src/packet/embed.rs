//! A publisher's pictures as drawings of the packet.

use std::sync::Arc;

use super::page::{Colour, FillRule, Item, Layer, Page, Path, Photo, Piece, Stroke, Subpath};
use crate::geometry::{Length, Point};
use crate::model::Image;
use crate::picture::{Drawing, Outline, Picture, Shape};

/// A picture at this width in inches, with what it shows for those who cannot see it.
#[must_use]
pub fn picture(image: &Image, width: f64) -> Page {
    let (high, items) = match image.picture.as_ref() {
        Picture::Raster(raster) => {
            let height = width * f64::from(raster.height) / f64::from(raster.width.max(1));
            let photo = Photo {
                corner: Point::default(),
                width: Length::inches(width),
                height: Length::inches(height),
                raster: Arc::new(raster.clone()),
            };
            (height, vec![Item::Photo(photo)])
        }
        Picture::Drawing(drawing) => {
            let scale = width / drawing.width.max(1e-9);
            (drawing.height * scale, shapes(drawing, scale))
        }
    };
    Page {
        width: Length::inches(width),
        height: Length::inches(high),
        title: String::new(),
        description: image.shows.clone(),
        items,
    }
}

fn shapes(drawing: &Drawing, scale: f64) -> Vec<Item> {
    drawing.shapes.iter().map(|shape| Item::Path(path(shape, scale))).collect()
}

fn path(shape: &Shape, scale: f64) -> Path {
    Path {
        subpaths: shape.outlines.iter().map(|outline| subpath(outline, scale)).collect(),
        fill: shape.fill.map(Colour),
        rule: if shape.even_odd { FillRule::EvenOdd } else { FillRule::NonZero },
        stroke: shape.stroke.map(|(colour, width)| Stroke {
            colour: Colour(colour),
            width: Length::inches(width * scale),
            dashes: Vec::new(),
            round: false,
        }),
        layer: Layer::Page,
    }
}

fn subpath(outline: &Outline, scale: f64) -> Subpath {
    let at = |[x, y]: [f64; 2]| Point::new(x * scale, y * scale);
    Subpath {
        start: at(outline.start),
        pieces: outline
            .curves
            .iter()
            .map(|&[first, second, end]| Piece::Curve(at(first), at(second), at(end)))
            .collect(),
        closed: outline.closed,
    }
}
