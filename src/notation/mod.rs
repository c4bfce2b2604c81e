//! Text to syntax tree, with a place in the text on every node. Only here are pest's types seen.
//!
//! [`parse()`] runs the grammar once over the text (`grammar`), sorts what it finds into blocks and units (`structure`), turns each
//! statement into its node (`lower`), says what is wrong with those the grammar refused (`amiss`), and looks at every
//! character that a word processor may have put in (`characters`). [`layout`] goes from text to text.

pub mod layout;
pub mod near;
pub mod parse;
pub mod source;
pub mod syntax;

mod amiss;
mod characters;
mod grammar;
mod lower;
mod structure;
mod words;

pub use parse::parse;
