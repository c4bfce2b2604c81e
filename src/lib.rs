//! Piecewright: from one plain-text source of a foundation-pieced block to a packet that can be sewn from.

pub mod fault;
pub mod notation;
