//! stub
use crate::geometry::Length;
use crate::packet::page::Page;
use crate::packet::words::Words;
/// stub
#[must_use]
pub fn primer(_width: Length, _words: &Words) -> Vec<Page> {
    Vec::new()
}
