//! Piecewright: from one plain-text source of a foundation-pieced block to a packet that can be sewn from.
//!
//! # The pipeline
//!
//! The folders are its steps, in this order; each imports only from those above it.
//!
//! 1. [`geometry`]: lengths, points, convex polygons; pure.
//! 2. [`notation`]: text to syntax tree, with a place in the text on every node.
//! 3. [`pattern`]: syntax to the resolved pattern, in grid steps: names bound, sections and units tiled.
//! 4. [`piecing`]: the proof that it can be sewn: the seam of every section, the tree of joins, match points, pressing.
//! 5. [`cutting`]: rough cuts, slack, strips, fabric to buy.
//! 6. [`model`]: all of it at one finished size.
//! 7. [`packet`]: what the packet says, as one document; what it shows, as one display list.
//! 8. [`revision`]: two models to what changed between them, and whom it concerns.
//! 9. [`backend`]: document, display list or model to bytes.
//!
//! [`filling`] lays shapes on pages; like `geometry` it knows no trade words. [`picture`] takes in photographs and signs, for `pattern` and all after it. [`fault`] has the words for everything that can go wrong on the way. [`check`] runs steps 1 to 6, [`build`] all of them; [`compare`] tells what changed between two sources, [`release`] makes what is published, [`format`](format()) lays a source out. None of them touches a file.

pub mod backend;
pub mod cutting;
pub mod fault;
pub mod filling;
pub mod geometry;
pub mod model;
pub mod notation;
pub mod packet;
pub mod pattern;
pub mod picture;
pub mod piecing;
pub mod revision;

mod front;

pub use front::{
    Artifact, BlockPlan, Built, Checked, Compared, MachineAsked, Machined, Options, Planned, Stuff, Tally, Text,
    as_sewn, build, check, compare, leads_down, machine, plan, release,
};
pub use notation::layout::{Formatted, format};
pub use pattern::{ReadFault, Shelf};
