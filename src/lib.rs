//! Piecewright: from one plain-text source of a foundation-pieced block to a packet that can be sewn from.

pub mod backend;
pub mod fault;
pub mod geometry;
pub mod model;
pub mod notation;
pub mod packet;
