//! Rough cuts, slack, grain, strips, fabric to buy. All lengths are inches at one finished size; all shapes are in the frame of the unit as drawn.

mod exact;
mod needed;
mod rough;
mod slack;
pub mod stock;
mod strip;
mod strips;
mod trapezoid;
mod triangle;

pub use exact::cut_to_size;
pub use needed::{Need, needs};
pub use rough::{Laid, Measures, Orientation, Shape, lay};
pub use slack::Play;
pub use strip::{Between, lay_strip, strip_needs};
pub use strips::{Item, LaidPiece, LaidStrip, Layout, SheetLayout, few_widths, sheets, strips};
pub use trapezoid::lay_trapezoid;
pub use triangle::lay_triangle;
