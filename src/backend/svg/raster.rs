//! Photographs as addresses that hold them.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use crate::picture::{Pixels, Raster};

/// A photograph as a `data:` address: a JPEG as it is, pixels as a PNG; nothing where there are not as many pixels as its size says.
pub(super) fn data_address(raster: &Raster) -> Option<String> {
    let (kind, mut address) = match &raster.pixels {
        Pixels::Jpeg { file, .. } => ("jpeg", STANDARD.encode(file)),
        Pixels::Rgb(bytes) => ("png", STANDARD.encode(png_file(raster, bytes)?)),
    };
    address.insert_str(0, &format!("data:image/{kind};base64,"));
    Some(address)
}

fn png_file(raster: &Raster, bytes: &[u8]) -> Option<Vec<u8>> {
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, raster.width, raster.height);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    let mut writer = encoder.write_header().ok()?;
    writer.write_image_data(bytes).ok()?;
    writer.finish().ok()?;
    Some(file)
}

#[cfg(test)]
mod tests {
    use base64::Engine as _;
    use base64::engine::general_purpose::STANDARD;

    use super::data_address;
    use crate::picture::{Pixels, Raster};

    #[test]
    fn pixels_become_a_png_that_reads_back() {
        let raster = Raster { width: 2, height: 1, pixels: Pixels::Rgb(vec![255, 0, 0, 0, 0, 255]) };
        let address = data_address(&raster).unwrap();
        let file = STANDARD.decode(address.strip_prefix("data:image/png;base64,").unwrap()).unwrap();
        let mut reader = png::Decoder::new(std::io::Cursor::new(file)).read_info().unwrap();
        let mut pixels = vec![0; reader.output_buffer_size().unwrap()];
        reader.next_frame(&mut pixels).unwrap();
        assert_eq!(pixels, [255, 0, 0, 0, 0, 255]);
        assert_eq!(data_address(&Raster { width: 3, ..raster }), None);
    }

    #[test]
    fn a_jpeg_stays_as_it_is() {
        let pixels = Pixels::Jpeg { file: vec![0xff, 0xd8, 0xff], colour: true };
        assert_eq!(
            data_address(&Raster { width: 1, height: 1, pixels }).as_deref(),
            Some("data:image/jpeg;base64,/9j/")
        );
    }
}
