//! What a packet says and shows: pages, sheets, figures, charts, steps, as one display list in physical units.

pub mod edges;
pub mod foundation;
pub mod label;
pub mod measure;
pub mod page;
#[cfg(test)]
pub(crate) mod sample;
#[cfg(test)]
pub(crate) mod sample_steps;
mod sheet_words;
pub mod sheets;
pub mod steps;
pub mod typeface;
pub mod words;
