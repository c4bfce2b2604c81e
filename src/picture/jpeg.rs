//! JPEG: kept as it is compressed, without anything that is not the picture.
//!
//! A file is a run of segments, each with a marker, and scans of packed pixels between them. What tells of the camera, the place and the day
//! stands in segments of its own (`APPn` and `COM`), which are left out; one plain JFIF head is put in their stead, by which every reader takes the
//! colours for `Y'CbCr`.

use super::{Kind, PictureFault, Pixels, Raster, check_pixels};

/// Scans of one picture at the most: files of thousands are made to stop readers.
const MOST_SCANS: usize = 100;

/// `FF D8`, then the head of JFIF 1.01: no density, no thumbnail.
const HEAD: [u8; 20] = [0xFF, 0xD8, 0xFF, 0xE0, 0, 16, b'J', b'F', b'I', b'F', 0, 1, 1, 0, 0, 1, 0, 1, 0, 0];

const BROKEN: PictureFault = PictureFault::Broken(Kind::Jpeg);

/// What the head of the picture says.
#[derive(Clone, Copy)]
struct Frame {
    width: u32,
    height: u32,
    colour: bool,
}

/// Takes a JPEG apart and keeps what is the picture. O(n).
pub(super) fn raster(bytes: &[u8]) -> Result<Raster, PictureFault> {
    let mut kept = HEAD.to_vec();
    let mut at = 2;
    let mut frame: Option<Frame> = None;
    let (mut scans, mut tables, mut codes) = (0, false, false);
    loop {
        let marker = marker(bytes, &mut at)?;
        if marker == 0xD9 {
            break;
        }
        let start = at;
        let segment = segment(bytes, &mut at)?;
        match marker {
            0xE0..=0xEF | 0xFE => {
                if marker == 0xE1 && orientation(segment).is_some_and(|turn| turn > 1) {
                    return Err(PictureFault::Turned);
                }
                // Adobe's word that three colours are red, green and blue as they are.
                if marker == 0xEE && segment.starts_with(b"Adobe") && segment.get(11) == Some(&0) {
                    let of_three = frame.is_none_or(|frame| frame.colour);
                    if of_three && plain_colours(bytes, at) {
                        return Err(PictureFault::SeldomJpeg);
                    }
                }
                continue;
            }
            0xC0..=0xC2 => {
                if frame.is_some() {
                    return Err(BROKEN);
                }
                frame = Some(head(segment)?);
            }
            0xC4 => codes = true,
            0xDB => tables = true,
            0xDD => {}
            0xDA => {
                scans += 1;
                if frame.is_none() || !codes || segment.is_empty() {
                    return Err(BROKEN);
                }
                if scans > MOST_SCANS {
                    return Err(PictureFault::SeldomJpeg);
                }
                skip_scan(bytes, &mut at)?;
            }
            0xC3 | 0xC5..=0xCF => return Err(PictureFault::SeldomJpeg),
            _ => return Err(BROKEN),
        }
        kept.extend([0xFF, marker]);
        kept.extend_from_slice(bytes.get(start..at).ok_or(BROKEN)?);
    }
    let frame = frame.filter(|_| scans > 0 && tables).ok_or(BROKEN)?;
    kept.extend([0xFF, 0xD9]);
    let Frame { width, height, colour } = frame;
    Ok(Raster { width, height, pixels: Pixels::Jpeg { file: kept, colour } })
}

/// The next marker; any number of `FF` may stand before it.
fn marker(bytes: &[u8], at: &mut usize) -> Result<u8, PictureFault> {
    if bytes.get(*at) != Some(&0xFF) {
        return Err(BROKEN);
    }
    while bytes.get(*at) == Some(&0xFF) {
        *at += 1;
    }
    let marker = *bytes.get(*at).ok_or(BROKEN)?;
    *at += 1;
    Ok(marker)
}

/// The words of a segment, without its length.
fn segment<'b>(bytes: &'b [u8], at: &mut usize) -> Result<&'b [u8], PictureFault> {
    let length = usize::from(number(bytes, *at).ok_or(BROKEN)?);
    let segment = bytes.get(*at + 2..(*at + length).max(*at + 2)).filter(|_| length >= 2).ok_or(BROKEN)?;
    *at += length;
    Ok(segment)
}

fn number(bytes: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_be_bytes([*bytes.get(at)?, *bytes.get(at + 1)?]))
}

/// Size and colours.
fn head(segment: &[u8]) -> Result<Frame, PictureFault> {
    let (precision, count) = (*segment.first().ok_or(BROKEN)?, *segment.get(5).ok_or(BROKEN)?);
    let (height, width) = (number(segment, 1).ok_or(BROKEN)?, number(segment, 3).ok_or(BROKEN)?);
    let components = segment.get(6..).unwrap_or_default();
    if components.len() != usize::from(count) * 3 || width == 0 || height == 0 {
        return Err(BROKEN);
    }
    match count {
        1 | 3 => {}
        4 => return Err(PictureFault::PressColours),
        _ => return Err(BROKEN),
    }
    let ids: Vec<u8> = components.iter().step_by(3).copied().collect();
    if precision != 8 || ids == *b"RGB" {
        return Err(PictureFault::SeldomJpeg);
    }
    let sampled = |factors: u8| (1..=4).contains(&(factors >> 4)) && (1..=4).contains(&(factors & 15));
    if !components.iter().skip(1).step_by(3).all(|&factors| sampled(factors)) {
        return Err(BROKEN);
    }
    let (width, height) = (u32::from(width), u32::from(height));
    check_pixels(width, height)?;
    Ok(Frame { width, height, colour: count == 3 })
}

/// Past the packed pixels, to the marker that ends them.
fn skip_scan(bytes: &[u8], at: &mut usize) -> Result<(), PictureFault> {
    loop {
        let ahead = bytes.get(*at..).unwrap_or_default();
        let found = ahead.iter().position(|&byte| byte == 0xFF).ok_or(BROKEN)?;
        match ahead.get(found + 1).ok_or(BROKEN)? {
            // A byte `FF` of the pixels, or a mark to start afresh from.
            0x00 | 0xD0..=0xD7 => *at += found + 2,
            0xFF => *at += found + 1,
            _ => {
                *at += found;
                return Ok(());
            }
        }
    }
}

/// Whether the head that follows tells of three colours.
fn plain_colours(bytes: &[u8], mut at: usize) -> bool {
    while let Ok(marker) = marker(bytes, &mut at) {
        let Ok(segment) = segment(bytes, &mut at) else { return false };
        if matches!(marker, 0xC0..=0xC2) {
            return segment.get(5) == Some(&3);
        }
        if marker == 0xDA {
            return true;
        }
    }
    false
}

/// The way the camera was held, by the tag of EXIF; 1 is upright.
fn orientation(segment: &[u8]) -> Option<u16> {
    let tiff = segment.strip_prefix(b"Exif\0\0")?;
    let little = match tiff.get(..4)? {
        [b'I', b'I', 42, 0] => true,
        [b'M', b'M', 0, 42] => false,
        _ => return None,
    };
    let short = |at: usize| {
        let pair = [*tiff.get(at)?, *tiff.get(at.checked_add(1)?)?];
        Some(if little { u16::from_le_bytes(pair) } else { u16::from_be_bytes(pair) })
    };
    let (low, high) = if little { (short(4)?, short(6)?) } else { (short(6)?, short(4)?) };
    let start = usize::from(high) << 16 | usize::from(low);
    let count = usize::from(short(start)?);
    (0..count)
        .map_while(|entry| start.checked_add(2 + entry * 12))
        .find(|&entry| short(entry) == Some(0x0112))
        .and_then(|entry| short(entry.checked_add(8)?))
}

#[cfg(test)]
mod tests {
    use super::orientation;

    #[test]
    fn the_way_the_camera_was_held_is_read_in_both_orders_of_bytes() {
        let little = b"Exif\0\0II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0\x06\0\0\0";
        let big = b"Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x08\0\0";
        assert_eq!([orientation(little), orientation(big)], [Some(6), Some(8)]);
        for end in 0..little.len() - 2 {
            assert!(orientation(&little[..end]).is_none_or(|turn| turn == 6), "{end}");
        }
        assert_eq!(orientation(b"Exif\0\0II*\0\xff\xff\xff\xff"), None);
        assert_eq!(orientation(b"http://ns.adobe.com/xap/1.0/"), None);
    }
}
