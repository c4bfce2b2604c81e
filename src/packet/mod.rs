//! What a packet says and shows: pages, sheets, figures, charts, steps, as one display list in physical units.

pub mod edges;
pub mod label;
pub mod page;
#[cfg(test)]
mod sample;
mod sheet_words;
pub mod typeface;
