//! Photographs: each is written once, however often it is shown.

use std::collections::BTreeMap;
use std::sync::Arc;

use lopdf::{Dictionary, Document, Object, ObjectId, Stream};

use super::PdfFault;
use super::streams::deflated;
use crate::packet::leaf::Leaf;
use crate::packet::page::Item;
use crate::picture::{Pixels, Raster};

/// The photographs of a document, numbered in the order in which they are first shown.
#[derive(Debug, Default)]
pub(super) struct Photos<'l> {
    rasters: Vec<&'l Raster>,
    /// The number of the raster at an address. Only looked up, never gone through.
    numbers: BTreeMap<usize, usize>,
}

impl<'l> Photos<'l> {
    /// All that leaves show. O(n) in the items, and once for each raster in those before it.
    ///
    /// # Errors
    /// [`PdfFault::Photo`] if a photograph has not as many pixels as its size says.
    pub(super) fn of(leaves: &'l [Leaf]) -> Result<Self, PdfFault> {
        let mut photos = Self::default();
        leaves.iter().try_for_each(|leaf| photos.add(&leaf.page.items))?;
        Ok(photos)
    }

    fn add(&mut self, items: &'l [Item]) -> Result<(), PdfFault> {
        for item in items {
            match item {
                Item::Photo(photo) => self.add_raster(&photo.raster)?,
                Item::Window(window) => self.add(&window.items)?,
                Item::Path(_) | Item::Text(_) => {}
            }
        }
        Ok(())
    }

    fn add_raster(&mut self, raster: &'l Arc<Raster>) -> Result<(), PdfFault> {
        let address = Arc::as_ptr(raster).addr();
        if self.numbers.contains_key(&address) {
            return Ok(());
        }
        if !is_whole(raster) {
            return Err(PdfFault::Photo { width: raster.width, height: raster.height });
        }
        let number = self.rasters.iter().position(|known| **known == **raster).unwrap_or_else(|| {
            self.rasters.push(raster);
            self.rasters.len() - 1
        });
        self.numbers.insert(address, number);
        Ok(())
    }

    /// The number of a photograph.
    pub(super) fn number(&self, raster: &Arc<Raster>) -> Option<usize> {
        self.numbers.get(&Arc::as_ptr(raster).addr()).copied()
    }

    /// Writes them into the tree; their ids by number.
    pub(super) fn embed(&self, tree: &mut Document) -> Vec<ObjectId> {
        self.rasters.iter().map(|raster| tree.add_object(embedded(raster))).collect()
    }
}

fn is_whole(raster: &Raster) -> bool {
    let area = u64::from(raster.width) * u64::from(raster.height);
    match &raster.pixels {
        Pixels::Jpeg { file, .. } => area > 0 && !file.is_empty(),
        Pixels::Rgb(bytes) => area > 0 && area.checked_mul(3) == u64::try_from(bytes.len()).ok(),
    }
}

fn embedded(raster: &Raster) -> Stream {
    let (space, filter, content) = match &raster.pixels {
        Pixels::Jpeg { file, colour: true } => ("DeviceRGB", "DCTDecode", file.clone()),
        Pixels::Jpeg { file, colour: false } => ("DeviceGray", "DCTDecode", file.clone()),
        Pixels::Rgb(bytes) => ("DeviceRGB", "FlateDecode", deflated(bytes)),
    };
    let dictionary = Dictionary::from_iter([
        ("Type", Object::from("XObject")),
        ("Subtype", Object::from("Image")),
        ("Width", i64::from(raster.width).into()),
        ("Height", i64::from(raster.height).into()),
        ("ColorSpace", Object::from(space)),
        ("BitsPerComponent", 8.into()),
        ("Interpolate", true.into()),
        ("Filter", Object::from(filter)),
    ]);
    Stream::new(dictionary, content).with_compression(false)
}
