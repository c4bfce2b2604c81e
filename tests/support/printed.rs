//! The printed packet of a source: the file, and what it was made from.

use std::fs;
use std::path::Path;

use piecewright::model::Model;
use piecewright::packet::words::Words;
use piecewright::packet::{Brief, Print, compose};
use piecewright::{Options, build, check, model, piecing};

use super::{Folder, patterns, resolved, stem};

/// Whether the name of a file ends so.
pub fn has_end(file: &str, end: &str) -> bool {
    Path::new(file).extension().is_some_and(|extension| extension == end)
}

/// The PDF in the packet of a source; of several the one on the main paper.
pub fn printed(source: &Path) -> Vec<u8> {
    let text = fs::read_to_string(source).expect("a readable sample");
    let name = format!("{}.piece", stem(source));
    let built = build(&name, &text, &Folder(patterns()), &Options::default(), &mut |_| {});
    let files = built.artifacts.expect("a sample builds");
    files.into_iter().find(|file| has_end(&file.path, "pdf")).expect("a packet has a PDF").bytes
}

/// The model of a source, and its packet on the main paper, as they are in what [`printed`] gives.
pub fn main_print(source: &Path) -> (Model, Print) {
    let text = fs::read_to_string(source).expect("a readable sample");
    let checked = check(&format!("{}.piece", stem(source)), &text, &Folder(patterns()));
    let mut model = checked.model.expect("a sample can be sewn");
    // A check plans the cutting in haste; the packet has it as a build plans it.
    let pattern = resolved(source);
    let proof = piecing::prove(&pattern).expect("a sample can be sewn");
    let built = model::build(&pattern, &proof, 0).expect("a size of the pattern");
    (model.cutting, model.in_colourings, model.effort) = (built.cutting, built.in_colourings, built.effort);
    let packet = compose(&model, Brief::default(), &Words::english(), None, &mut |_| {});
    let main = packet.prints.into_iter().next().expect("a packet is printed on some paper");
    (model, main)
}
