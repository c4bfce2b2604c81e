//! Text to syntax tree, with a place in the text on every node. Only here are pest's types seen.

pub mod near;
pub mod source;
pub mod syntax;
