//! The contents of all pages, compressed, on as many threads as there are processors.

use std::io::Write as _;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use flate2::Compression;
use flate2::write::ZlibEncoder;

use super::PdfFault;
use super::content::{Content, content};
use super::fonts::Faces;
use super::photos::Photos;
use crate::packet::leaf::Leaf;

/// Contents cost more to compress than to write. Past this level time doubles, and files shrink by a fiftieth.
const LEVEL: Compression = Compression::new(4);

/// What is compressed, in zlib's envelope.
pub(super) fn deflated(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = ZlibEncoder::new(Vec::with_capacity(bytes.len() / 3), LEVEL);
    // Writing to memory cannot fail.
    let _ = encoder.write_all(bytes);
    encoder.finish().unwrap_or_default()
}

/// The compressed contents of all leaves, in order; the same on any number of threads.
///
/// # Errors
/// [`PdfFault::Writing`] if a thread did not come to its end.
pub(super) fn contents(leaves: &[Leaf], faces: &Faces, photos: &Photos<'_>) -> Result<Vec<Content>, PdfFault> {
    let next = AtomicUsize::new(0);
    let work = || {
        let mut done = Vec::new();
        loop {
            let number = next.fetch_add(1, Ordering::Relaxed);
            let Some(leaf) = leaves.get(number) else { return done };
            let drawn = content(&leaf.page, faces, photos);
            done.push((number, Content { operators: deflated(&drawn.operators), ..drawn }));
        }
    };
    let helpers = thread::available_parallelism().map_or(1, usize::from).min(leaves.len()).saturating_sub(1);
    let mut all = thread::scope(|scope| {
        // A thread that cannot be had is done without: this one works too.
        let helpers: Vec<_> =
            (0..helpers).filter_map(|_| thread::Builder::new().spawn_scoped(scope, work).ok()).collect();
        let mut all = work();
        for helper in helpers {
            all.extend(helper.join().map_err(|_| PdfFault::Writing("a page was not finished".to_owned()))?);
        }
        Ok(all)
    })?;
    all.sort_unstable_by_key(|&(number, _)| number);
    Ok(all.into_iter().map(|(_, content)| content).collect())
}
