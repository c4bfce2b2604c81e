//! Rough cuts, slack, grain, strips, fabric to buy. All lengths are inches at one finished size; all shapes are in the frame of the unit as drawn.

mod exact;
mod needed;
mod rough;
pub mod stock;
mod strip;
mod strips;

pub use exact::cut_to_size;
pub use needed::{Need, needs};
pub use rough::{Laid, Measures, Orientation, lay};
pub use strip::{Between, lay_strip, strip_needs};
pub use strips::{Cloth, Item, LaidPiece, LaidStrip, Layout, purchase, strips};
