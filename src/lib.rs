//! Piecewright: from one plain-text source of a foundation-pieced block to a packet that can be sewn from.

pub mod fault;
pub mod geometry;
pub mod model;
pub mod notation;
pub mod packet;
mod stand_in;

pub use stand_in::{Artifact, Built, Checked, Options, ReadFault, Shelf, build, check};
