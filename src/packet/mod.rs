//! What a packet says and shows: pages, sheets, figures, charts, steps, as one display list in physical units.

pub mod measure;
pub mod page;
pub mod words;
