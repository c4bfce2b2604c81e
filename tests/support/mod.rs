//! What several tests need: samples and fixtures compiled from the files of the repository.

#![allow(dead_code, reason = "each test uses its own part of this")]
#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

pub mod cloth;
pub mod laws;
pub mod layout;
pub mod nesting;
pub mod printed;
pub mod tools;

use std::fs;
use std::path::{Path, PathBuf};

use piecewright::model::{self, Model};
use piecewright::pattern::{self, Cloth, CutWish, Pattern, ReadFault, Shelf, Size};
use piecewright::piecing;
use piecewright::piecing::plan::Budget;

/// The folder of the samples.
pub fn patterns() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("patterns")
}

/// The samples: every pattern of the folder that is not a shared file.
pub fn samples() -> Vec<PathBuf> {
    let mut all: Vec<PathBuf> = fs::read_dir(patterns())
        .expect("the samples are there")
        .map(|entry| entry.expect("a readable entry").path())
        .filter(|path| path.extension().is_some_and(|end| end == "piece"))
        .filter(|path| fs::read_to_string(path).expect("a readable sample").contains("\npattern "))
        .collect();
    all.sort();
    all
}

/// The fixtures with rings and inset corners that can be sewn.
pub fn rounds() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures");
    let names = ["ring", "ring-of-three", "ring-of-five", "ring-of-groups", "inset", "inset-pressed"];
    names.map(|name| folder.join(format!("{name}.piece"))).to_vec()
}

/// A folder from which sources use shared files.
pub struct Folder(pub PathBuf);

impl Shelf for Folder {
    fn read(&self, path: &str) -> Result<String, ReadFault> {
        fs::read_to_string(self.0.join(path)).map_err(|_| ReadFault::NotFound)
    }

    fn read_bytes(&self, path: &str, most: usize) -> Result<Vec<u8>, ReadFault> {
        let bytes = fs::read(self.0.join(path)).map_err(|_| ReadFault::NotFound)?;
        if bytes.len() > most { Err(ReadFault::TooLarge) } else { Ok(bytes) }
    }
}

/// A shelf without files.
pub struct Bare;

impl Shelf for Bare {
    fn read(&self, _: &str) -> Result<String, ReadFault> {
        Err(ReadFault::NotFound)
    }
}

/// The name of a source without its folder and ending.
pub fn stem(path: &Path) -> String {
    path.file_stem().expect("a file has a name").to_string_lossy().into_owned()
}

/// The resolved pattern of a source that has no errors, as it is sewn: without patches.
pub fn resolved(path: &Path) -> Pattern {
    as_sewn(&drawn(path, path.parent().expect("a file lies in a folder")))
}

/// A pattern without all that its source says of how pieces are cut and from what cloth.
pub fn plainly_cut(mut pattern: Pattern) -> Pattern {
    pattern.cut = CutWish::default();
    pattern.cloth = Cloth::usual(pattern.units);
    for fabric in &mut pattern.fabrics {
        (fabric.cut, fabric.stock) = (CutWish::default(), None);
    }
    for unit in pattern.blocks.iter_mut().flat_map(|block| &mut block.units) {
        unit.cut = CutWish::default();
        for section in &mut unit.sections {
            (section.cut, section.motif) = (CutWish::default(), None);
        }
    }
    pattern
}

/// A pattern with its patches planned into units, as a build plans them.
pub fn as_sewn(drawn: &Pattern) -> Pattern {
    piecewright::as_sewn(drawn, Budget::USUAL).expect("a pattern that can be planned").into_owned()
}

/// The pattern of a source that has no errors and uses the shared files of a folder, as drawn.
pub fn drawn(path: &Path, shared: &Path) -> Pattern {
    let text = fs::read_to_string(path).expect("a readable source");
    let shelf = Folder(shared.to_owned());
    let reading = pattern::read_sources(&stem(path), &text, &shelf);
    assert_eq!(reading.faults, [], "{}", path.display());
    let (pattern, faults, _) = pattern::resolve(&reading);
    assert_eq!(faults, [], "{}", path.display());
    pattern.expect("a pattern without faults")
}

/// The models of a pattern with its first block finished in each of these widths.
pub fn models_at(pattern: &Pattern, inches: &[f64]) -> Vec<Model> {
    let mut pattern = pattern.clone();
    let (_, to) = pattern.blocks[0].outline.bounds();
    let drawn = pattern.blocks[0].step.to_inches() * to.x;
    pattern.sizes =
        inches.iter().map(|width| Size { label: format!("{width} in wide"), factor: width / drawn }).collect();
    let proof = piecing::prove(&pattern).expect("a sample can be sewn");
    (0..inches.len()).map(|size| model::build(&pattern, &proof, size).expect("a size of the pattern")).collect()
}
