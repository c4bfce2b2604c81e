//! Pictures: what is taken, what is refused and why, and that no bytes whatever stop the program.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use piecewright::picture::{Drawing, Feature, Kind, MOST_BYTES, Outline, Picture, PictureFault, Pixels, Raster, Shape};
use proptest::prelude::*;

fn bytes(name: &str) -> Vec<u8> {
    fs::read(Path::new("tests/pictures").join(name)).expect("the picture is there")
}

fn raster(name: &str) -> Raster {
    match Picture::try_new(&bytes(name)) {
        Ok(Picture::Raster(raster)) => raster,
        other => panic!("{name}: {other:?}"),
    }
}

fn rgb(name: &str) -> Vec<u8> {
    match raster(name).pixels {
        Pixels::Rgb(pixels) => pixels,
        Pixels::Jpeg { .. } => panic!("{name} is a JPEG"),
    }
}

fn drawing(text: &str) -> Result<Drawing, PictureFault> {
    match Picture::try_new(text.as_bytes())? {
        Picture::Drawing(drawing) => Ok(drawing),
        Picture::Raster(_) => panic!("a drawing became pixels"),
    }
}

fn refused(name: &str) -> PictureFault {
    Picture::try_new(&bytes(name)).expect_err(name)
}

#[test]
fn every_kind_of_png_becomes_the_same_picture() {
    let plain = rgb("gull.png");
    assert_eq!(plain.len(), 48 * 32 * 3);
    assert_eq!(rgb("interlaced.png"), plain);
    let alpha = rgb("alpha.png");
    for (half, whole) in alpha.iter().zip(&plain) {
        let expected = 255 - (255 - i32::from(*whole)) / 2;
        assert!((i32::from(*half) - expected).abs() <= 2, "{half} for {whole} at half of it");
    }
    let grey = rgb("grey16.png");
    assert!(grey.len() == plain.len() && grey.chunks(3).all(|pixel| pixel[0] == pixel[1] && pixel[1] == pixel[2]));
    let few: std::collections::BTreeSet<&[u8]> = rgb("palette.png").leak().chunks(3).collect();
    assert!((2..=6).contains(&few.len()));
}

#[test]
fn jpegs_are_kept_without_what_the_camera_wrote() {
    for (name, has_colour) in [
        ("baseline.jpg", true),
        ("progressive.jpg", true),
        ("comment.jpg", true),
        ("upright.jpg", true),
        ("grey.jpg", false),
    ] {
        let Raster { width, height, pixels: Pixels::Jpeg { file, colour } } = raster(name) else {
            panic!("{name} was unpacked")
        };
        assert_eq!((width, height, colour), (48, 32, has_colour), "{name}");
        let holds = |words: &[u8]| file.windows(words.len()).any(|window| window == words);
        assert!(!holds(b"Exif") && !holds(b"quay") && !holds(b"camera") && holds(b"JFIF"), "{name}");
        // What was left is taken as it is.
        let again = Picture::try_new(&file).expect("is a JPEG still");
        assert!(
            matches!(again, Picture::Raster(Raster { pixels: Pixels::Jpeg { file: again, .. }, .. }) if again == file)
        );
    }
    let (plain, noted) = (raster("baseline.jpg"), raster("upright.jpg"));
    assert_eq!(plain, noted);
}

#[test]
fn what_cannot_be_printed_is_told_apart() {
    assert_eq!(refused("press.jpg"), PictureFault::PressColours);
    assert_eq!(refused("turned.jpg"), PictureFault::Turned);
    assert_eq!(refused("gull.gif"), PictureFault::OtherKind("a GIF"));
    for (bytes, why) in [
        (&b""[..], PictureFault::NoPicture),
        (b"pattern \"Gull\"", PictureFault::NoPicture),
        (b"\xff\xff\xff\xff", PictureFault::NoPicture),
        (b"<html></html>", PictureFault::NoPicture),
        (b"%PDF-1.7", PictureFault::OtherKind("a PDF")),
        (b"RIFF....WEBPVP8 ", PictureFault::OtherKind("a WebP")),
        (b"\0\0\0\x18ftypheic", PictureFault::OtherKind("a HEIC")),
        (b"\xff\xd8\xff\xd9", PictureFault::Broken(Kind::Jpeg)),
        (b"\x89PNG\r\n\x1a\n", PictureFault::Broken(Kind::Png)),
        (b"<svg", PictureFault::Broken(Kind::Svg)),
    ] {
        assert_eq!(Picture::try_new(bytes), Err(why));
    }
    assert_eq!(Picture::try_new(&vec![b' '; MOST_BYTES + 1]), Err(PictureFault::Bytes));
}

/// A PNG that says it is 60,000 pixels on a side, and a JPEG likewise.
#[test]
fn the_size_is_known_before_anything_is_unpacked() {
    let mut png = bytes("gull.png");
    png[16..24].copy_from_slice(&[0, 0, 0xEA, 0x60, 0, 0, 0xEA, 0x60]);
    // The head's own check must hold, or it is told as damaged.
    let check = crc32(&png[12..29]);
    png[29..33].copy_from_slice(&check.to_be_bytes());
    assert_eq!(Picture::try_new(&png), Err(PictureFault::Pixels(60_000, 60_000)));
    let mut jpeg = bytes("baseline.jpg");
    let head = jpeg.windows(2).position(|pair| pair == [0xFF, 0xC0]).expect("a head");
    jpeg[head + 5..head + 9].copy_from_slice(&[0xEA, 0x60, 0xEA, 0x60]);
    assert_eq!(Picture::try_new(&jpeg), Err(PictureFault::Pixels(60_000, 60_000)));
    jpeg[head + 5..head + 9].copy_from_slice(&[0, 1, 0, 21]);
    assert_eq!(Picture::try_new(&jpeg), Err(PictureFault::Narrow));
}

fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!0, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |crc, _| if crc & 1 == 1 { crc >> 1 ^ 0xEDB8_8320 } else { crc >> 1 })
    })
}

#[test]
fn a_drawing_has_its_transforms_applied() {
    let plain = drawing(&String::from_utf8(bytes("plain.svg")).expect("is text")).expect("is plain");
    // Forty millimetres at 96 to the inch; the view box is scaled to it.
    let scale = 40.0 / 25.4 * 96.0 / 40.0;
    assert!((plain.width - 40.0 * scale).abs() < 1e-3 && (plain.height - 20.0 * scale).abs() < 1e-3);
    let [rect, arch] = plain.shapes.as_slice() else { panic!("{:?}", plain.shapes) };
    assert_eq!((rect.fill, rect.stroke), (Some([0x22, 0x31, 0x4e]), None));
    let near = |a: [f64; 2], x: f64, y: f64| (a[0] - x * scale).abs() < 1e-3 && (a[1] - y * scale).abs() < 1e-3;
    let [Outline { start, curves, closed: true }] = rect.outlines.as_slice() else { panic!("{:?}", rect.outlines) };
    assert!(near(*start, 10.0, 0.0) && near(curves[1][2], 20.0, 20.0), "{start:?} {curves:?}");
    let Some((colour, width)) = arch.stroke else { panic!("no line") };
    assert_eq!((colour, arch.fill), ([0xb9, 0x3a, 0x32], None));
    assert!((width - scale).abs() < 1e-3);
    // Turned by half a turn about 30, 10; the handle of the quadratic curve is two thirds of the way.
    let outline = &arch.outlines[0];
    assert!(near(outline.start, 35.0, 0.0) && near(outline.curves[0][2], 25.0, 0.0), "{outline:?}");
    assert!(near(outline.curves[0][0], 35.0 - 10.0 / 3.0, 40.0 / 3.0), "{outline:?}");
}

#[test]
fn lines_below_their_area_are_a_shape_of_their_own() {
    let ring = drawing(&String::from_utf8(bytes("ring.svg")).expect("is text")).expect("is plain");
    let [
        Shape { fill: None, stroke: Some(_), .. },
        Shape { fill: Some([0, 0, 0]), stroke: None, even_odd: true, outlines },
    ] = ring.shapes.as_slice()
    else {
        panic!("{:?}", ring.shapes)
    };
    assert_eq!(outlines.len(), 2);
}

/// A drawing with these words in it.
fn svg(inside: &str) -> String {
    format!("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 10 10'>{inside}</svg>")
}

#[test]
fn what_is_no_plain_area_or_line_is_named() {
    let rect = "<rect width='5' height='5'";
    for (inside, feature) in [
        (
            "<linearGradient id='g'><stop offset='0' stop-color='red'/><stop offset='1'/></linearGradient><rect width='5' height='5' fill='url(#g)'/>",
            Feature::Gradient,
        ),
        (
            "<pattern id='p' width='1' height='1'><rect width='1' height='1'/></pattern><rect width='5' height='5' fill='url(#p)'/>",
            Feature::Pattern,
        ),
        ("<text x='1' y='5'>Tern</text>", Feature::Text),
        ("<image width='5' height='5' href='gull.png'/>", Feature::Picture),
        (
            "<mask id='m'><rect width='2' height='2' fill='white'/></mask><rect width='5' height='5' mask='url(#m)'/>",
            Feature::Mask,
        ),
        (
            "<clipPath id='c'><rect width='2' height='2'/></clipPath><rect width='5' height='5' clip-path='url(#c)'/>",
            Feature::Clip,
        ),
        (
            "<filter id='f'><feGaussianBlur stdDeviation='1'/></filter><rect width='5' height='5' filter='url(#f)'/>",
            Feature::Filter,
        ),
        ("<rect width='5' height='5' opacity='0.5'/>", Feature::Opacity),
        ("<rect width='5' height='5' fill-opacity='0.5'/>", Feature::Opacity),
        ("<path d='M0 0H10' stroke='red' stroke-dasharray='1 1'/>", Feature::Dashes),
        ("<rect id='r' width='5' height='5'/><use href='#r'/>", Feature::Link),
        ("<marker id='a'/><path d='M0 0H10' stroke='red' marker-end='url(#a)'/>", Feature::Marker),
        ("<path d='M1 1H4' stroke='red' transform='scale(2 1)'/>", Feature::UnevenLine),
        ("<rect width='50' height='5'/>", Feature::Overhang),
        ("<rect width='5' height='5' fill='none'/>", Feature::Nothing),
        ("", Feature::Nothing),
    ] {
        assert_eq!(drawing(&svg(inside)), Err(PictureFault::Beyond(feature)), "{inside}");
    }
    for (styled, feature) in [
        ("<style>.a { opacity: 1; fill: url(#g) }</style>", Feature::Gradient),
        ("<rect width='5' height='5' style='stroke:none;mask:url(\"#m\")'/>", Feature::Mask),
        ("<pattern id='p'/><style>.a { fill: url( '#p' ) }</style>", Feature::Pattern),
    ] {
        assert_eq!(drawing(&svg(styled)), Err(PictureFault::Beyond(feature)), "{styled}");
    }
    // What nothing refers to does no harm.
    let idle = "<defs><text>Tern</text><marker id='a'/><g id='r' clip-path='url(#c)'/></defs><clipPath id='c'/>";
    assert!(drawing(&svg(&format!("{idle}{rect}/>"))).is_ok());
    assert!(drawing(&svg(&format!("{rect}/>"))).is_ok());
    let entity = "<!DOCTYPE svg [<!ENTITY a 'aaaa'>]><svg xmlns='http://www.w3.org/2000/svg'/>";
    assert_eq!(drawing(entity), Err(PictureFault::Beyond(Feature::Entity)));
}

#[test]
fn drawings_made_to_stop_the_program_do_not() {
    let deep = |count: usize| svg(&("<g>".repeat(count) + "<rect width='1' height='1'/>" + &"</g>".repeat(count)));
    assert_eq!(drawing(&deep(10_000)), Err(PictureFault::Beyond(Feature::Depth)));
    assert_eq!(drawing(&deep(290_000)), Err(PictureFault::Points));
    assert!(drawing(&deep(90)).is_ok());
    let unclosed = format!("<svg xmlns='http://www.w3.org/2000/svg'>{}", "<g>".repeat(600_000));
    assert!(drawing(&unclosed).is_err());
    let mut path = String::from("<path d='M0 0");
    for k in 0..20_001 {
        let _ = write!(path, "L{} {}", k % 10, k % 7);
    }
    assert_eq!(drawing(&svg(&(path + "'/>"))), Err(PictureFault::Points));
    let rules = (0..2_000).fold(String::new(), |all, k| all + &format!(".c{k} {{ fill: red }}\n"));
    assert_eq!(drawing(&svg(&format!("<style>{rules}</style>"))), Err(PictureFault::Beyond(Feature::Style)));
    for size in
        ["width='1e30' height='1'", "width='0' height='1'", "width='-1' height='5'", "width='1e-30' height='1e-30'"]
    {
        let text = format!("<svg xmlns='http://www.w3.org/2000/svg' {size}><rect width='1' height='1'/></svg>");
        assert!(drawing(&text).is_err(), "{size}");
    }
}

const ALL: [&str; 14] = [
    "gull.png",
    "alpha.png",
    "palette.png",
    "grey16.png",
    "interlaced.png",
    "baseline.jpg",
    "progressive.jpg",
    "grey.jpg",
    "press.jpg",
    "comment.jpg",
    "turned.jpg",
    "upright.jpg",
    "plain.svg",
    "ring.svg",
];

/// No picture that ends too early is taken for whole, unless nothing but its closing words is missing.
#[test]
fn what_ends_too_early_is_refused() {
    for name in ALL {
        let whole = bytes(name);
        let closing = if name.ends_with("png") { 40 } else { 3 };
        for end in 0..whole.len().saturating_sub(closing) {
            assert!(Picture::try_new(&whole[..end]).is_err(), "{name} cut off at {end}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1_500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn damaged_pictures_are_taken_or_refused(
        which in 0..ALL.len(),
        changes in proptest::collection::vec((any::<prop::sample::Index>(), any::<u8>(), 0..4_u8), 1..8),
    ) {
        let mut bytes = bytes(ALL[which]);
        for (at, byte, kind) in changes {
            let at = at.index(bytes.len());
            match kind {
                0 => bytes[at] = byte,
                1 => bytes.insert(at, byte),
                2 => bytes[at] ^= 1 << (byte % 8),
                _ => bytes.truncate(at + 1),
            }
        }
        if let Ok(picture) = Picture::try_new(&bytes) {
            let (width, height) = picture.size();
            prop_assert!(width > 0.0 && height > 0.0 && width.is_finite() && height.is_finite());
            match picture {
                Picture::Raster(Raster { width, height, pixels: Pixels::Rgb(rgb) }) => {
                    prop_assert_eq!(rgb.len() as u64, u64::from(width) * u64::from(height) * 3);
                }
                Picture::Raster(Raster { pixels: Pixels::Jpeg { file, .. }, .. }) => {
                    prop_assert!(Picture::try_new(&file).is_ok());
                }
                Picture::Drawing(drawing) => {
                    let places = drawing.shapes.iter().flat_map(|shape| &shape.outlines);
                    let mut places = places.flat_map(|outline| outline.curves.iter().flatten().flatten());
                    prop_assert!(places.all(|place| place.is_finite()));
                }
            }
        }
    }

    #[test]
    fn anything_at_all_is_taken_or_refused(start in 0..4_usize, rest in proptest::collection::vec(any::<u8>(), 0..400)) {
        let starts: [&[u8]; 4] = [b"", b"\x89PNG\r\n\x1a\n", b"\xff\xd8", b"<svg xmlns='http://www.w3.org/2000/svg'>"];
        let bytes = [starts[start], &rest].concat();
        prop_assert!(Picture::try_new(&bytes).is_err());
    }
}
