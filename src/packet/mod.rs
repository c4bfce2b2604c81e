//! What a packet says and shows: pages, sheets, figures, charts, steps, as one display list in physical units.

pub mod chart;
mod compose;
pub mod contents;
pub mod document;
pub mod edges;
mod embed;
pub mod figure;
pub mod foundation;
pub mod hand;
mod hatch;
mod join_end;
pub mod label;
pub mod layout;
pub mod leaf;
pub mod mats;
pub mod measure;
pub mod page;
#[cfg(test)]
pub(crate) mod sample;
#[cfg(test)]
pub(crate) mod sample_steps;
pub mod shape;
pub mod sheets;
pub mod steps;
pub mod typeface;
pub mod words;

pub use compose::{BlockFigures, Brief, Packet, Print, compose};
pub use contents::{Audience, Extent};
