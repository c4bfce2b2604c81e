//! Words of the faults of pictures: files that are not there, too large, or not of a kind that can be printed.

use super::{Code, Fault};
use crate::notation::source::Span;
use crate::picture::{Feature, Kind, MOST_BYTES, MOST_PIXELS, MOST_POINTS, PictureFault};

/// A picture that cannot be read; `reason` says why where it is more than that there is none.
#[must_use]
pub fn picture_not_found(span: Span, path: &str, reason: Option<&str>) -> Fault {
    match reason {
        None => Fault::new(Code::PictureNotFound, format!("there is no picture `{path}`"), span)
            .with_help("name it as seen from the file that this line stands in; mind capitals and the ending"),
        Some(reason) => {
            Fault::new(Code::PictureNotFound, format!("the picture `{path}` cannot be read: {reason}"), span)
                .with_help("correct the name, or put the file there")
        }
    }
}

/// A picture outside the project's folder.
#[must_use]
pub fn picture_outside(span: Span, path: &str) -> Fault {
    Fault::new(Code::UseOutside, format!("the picture `{path}` lies outside the project's folder"), span).with_help(
        "a pattern may show only what lies in its own folder or below; move the file there, \
         or give a folder that holds both with `--project`",
    )
}

/// A picture that was read and cannot be shown.
#[must_use]
pub fn picture_unfit(span: Span, path: &str, why: PictureFault) -> Fault {
    let (code, what, help) = match why {
        PictureFault::Bytes => (
            Code::PictureTooLarge,
            format!("is larger than {} megabytes", MOST_BYTES >> 20),
            String::from("save a photograph as JPEG, about 1,500 pixels wide; simplify a drawing"),
        ),
        PictureFault::Pixels(width, height) => (
            Code::PictureTooLarge,
            format!("has {width} x {height} pixels, and {MOST_PIXELS} on a side are enough for a page"),
            String::from("scale it down: 1,500 pixels are plenty for a cover"),
        ),
        PictureFault::Points => (
            Code::PictureTooLarge,
            format!("is drawn with more than {MOST_POINTS} points"),
            String::from("simplify its paths in the drawing program"),
        ),
        other => {
            let (what, help) = unfit(other);
            (Code::PictureUnfit, what, String::from(help))
        }
    };
    Fault::new(code, format!("the picture `{path}` {what}"), span).with_help(help)
}

fn unfit(why: PictureFault) -> (String, &'static str) {
    let plain = "save it as PNG or JPEG, or a drawing as SVG";
    match why {
        PictureFault::OtherKind(kind) => (format!("is {kind}"), plain),
        PictureFault::NoPicture => ("is no picture that is known here".into(), plain),
        PictureFault::Narrow => {
            ("is more than twenty times as long as it is wide".into(), "cut it to what is to be seen")
        }
        PictureFault::Broken(kind) => {
            let kind = match kind {
                Kind::Png => "PNG",
                Kind::Jpeg => "JPEG",
                Kind::Svg => "SVG",
            };
            (format!("is a damaged {kind}: it cannot be read to its end"), "open it and save it anew")
        }
        PictureFault::PressColours => {
            ("is in the four colours of a printing press".into(), "save it in the colours of a screen (RGB)")
        }
        PictureFault::SeldomJpeg => {
            ("is a JPEG of a seldom kind".into(), "save it anew as a usual JPEG: 8 bits a colour, RGB or grey")
        }
        PictureFault::Turned => (
            "lies on its side: the camera only noted which way is up".into(),
            "turn it in a picture program and save it, so that its pixels stand upright",
        ),
        PictureFault::Beyond(feature) => beyond(feature),
        PictureFault::Bytes | PictureFault::Pixels(..) | PictureFault::Points => ("is too large".into(), plain),
    }
}

fn beyond(feature: Feature) -> (String, &'static str) {
    let (what, help) = match feature {
        Feature::Gradient => ("has a gradient", "fill its areas with one colour each"),
        Feature::Pattern => ("has an area filled with a pattern", "fill its areas with one colour each"),
        Feature::Text => ("has words in a typeface", "turn the words into paths in the drawing program"),
        Feature::Picture => {
            ("holds another picture", "save a photograph as JPEG; a drawing holds areas and lines only")
        }
        Feature::Mask => ("has a mask", "cut the areas themselves: a drawing holds plain areas and lines"),
        Feature::Clip => {
            ("has an area that cuts off others", "cut the areas themselves: a drawing holds plain areas and lines")
        }
        Feature::Filter => {
            ("has a blur, a shadow or another filter", "take it out: a drawing holds plain areas and lines")
        }
        Feature::Opacity => ("has something that is seen through", "give every area and line its full colour"),
        Feature::Dashes => ("has a dashed line", "draw a whole line, or turn the dashes into areas"),
        Feature::Link => {
            ("has copies that are linked to an original", "unlink the copies (`use`) in the drawing program")
        }
        Feature::Marker => {
            ("has arrowheads or other marks along lines", "turn the marks into areas in the drawing program")
        }
        Feature::Depth => ("has groups in groups too deep", "ungroup all of it in the drawing program"),
        Feature::UnevenLine => ("has a line that is wider one way than the other", "turn the line into an area"),
        Feature::Overhang => ("reaches beyond its own edge", "fit the page of the drawing to what is drawn"),
        Feature::Entity => ("has text blocks defined in its head", "save it as plain SVG in the drawing program"),
        Feature::Style => ("has rules of style that go on for pages", "save it as plain SVG in the drawing program"),
        Feature::Nothing => ("shows nothing", "draw plain areas and lines, within the edge of the drawing"),
    };
    (what.into(), help)
}
