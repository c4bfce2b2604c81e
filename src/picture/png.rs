//! PNG: unpacked to red, green and blue, on white where it is transparent.

use std::io::Cursor;

use ::png::{BitDepth, ColorType, Decoder, Limits, Transformations};

use super::{Kind, PictureFault, Pixels, Raster, check_pixels};

/// What unpacking may take at most, in bytes: four for each pixel of the largest picture, and as much again for rows and tables.
const MOST_MEMORY: usize = 128 << 20;

/// Unpacks a PNG. Animated ones give their first frame.
pub(super) fn raster(bytes: &[u8]) -> Result<Raster, PictureFault> {
    let broken = PictureFault::Broken(Kind::Png);
    let mut decoder = Decoder::new_with_limits(Cursor::new(bytes), Limits { bytes: MOST_MEMORY });
    decoder.set_transformations(Transformations::EXPAND | Transformations::STRIP_16);
    decoder.set_ignore_text_chunk(true);
    decoder.set_ignore_iccp_chunk(true);
    let header = decoder.read_header_info().map_err(|_| broken)?;
    let (width, height) = (header.width, header.height);
    check_pixels(width, height)?;
    let mut reader = decoder.read_info().map_err(|_| broken)?;
    let mut unpacked = vec![0; reader.output_buffer_size().filter(|size| *size <= MOST_MEMORY).ok_or(broken)?];
    let frame = reader.next_frame(&mut unpacked).map_err(|_| broken)?;
    if (frame.width, frame.height, frame.bit_depth) != (width, height, BitDepth::Eight) {
        return Err(broken);
    }
    unpacked.truncate(frame.buffer_size());
    let rgb: Vec<u8> = match frame.color_type {
        ColorType::Rgb => unpacked,
        ColorType::Rgba => pixels::<4>(&unpacked)
            .flat_map(|[red, green, blue, a]| [red, green, blue].map(|c| on_white(c, a)))
            .collect(),
        ColorType::Grayscale => unpacked.iter().flat_map(|&grey| [grey; 3]).collect(),
        ColorType::GrayscaleAlpha => pixels::<2>(&unpacked).flat_map(|[grey, a]| [on_white(grey, a); 3]).collect(),
        // Palettes are expanded.
        ColorType::Indexed => return Err(broken),
    };
    if rgb.len() as u64 != u64::from(width) * u64::from(height) * 3 {
        return Err(broken);
    }
    Ok(Raster { width, height, pixels: Pixels::Rgb(rgb) })
}

fn pixels<const N: usize>(bytes: &[u8]) -> impl Iterator<Item = [u8; N]> + '_ {
    bytes.as_chunks::<N>().0.iter().copied()
}

/// A colour of some opacity, laid on white.
fn on_white(colour: u8, opacity: u8) -> u8 {
    let (colour, opacity) = (u32::from(colour), u32::from(opacity));
    u8::try_from((colour * opacity + 255 * (255 - opacity) + 127) / 255).unwrap_or(u8::MAX)
}

#[cfg(test)]
mod tests {
    use super::on_white;

    #[test]
    fn what_is_seen_through_lies_on_white() {
        assert_eq!([on_white(0, 255), on_white(0, 0), on_white(200, 255), on_white(0, 128)], [0, 255, 200, 127]);
    }
}
