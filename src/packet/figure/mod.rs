//! Figures: the block from the front, its map, every step from the front and from the printed side, the joins, the technique.
//!
//! Each is a page of the width that is asked for, as high as it needs, with a description for those who cannot see it. Type is drawn at the size at
//! which it is read: a figure is shown at the width for which it was drawn.
//!
//! One manner throughout: paper is white with a dashed cutting line, fabrics are tinted and hatched, and what is done now is drawn in one accent.

mod block;
mod broken;
mod canvas;
mod cloth;
mod join;
mod order;
mod overlay;
mod pieced;
mod plain;
mod plan;
mod primer;
mod step;
mod told;
mod window;

pub use block::{block_coloured, block_front, colouring_page, unit_map};
pub use cloth::{cloth, cloth_letters};
pub use join::join_front;
pub use order::order_front;
pub use overlay::{Overlay, overlay};
pub use plan::{PlanFigure, plan_figure, stuck_figure};
pub use primer::primer;
pub use step::View;
pub use told::place_of;
pub use window::{MotifWindow, windows};

use super::page::Colour;

/// What is there but not spoken of.
const FAINT: Colour = Colour::grey(165);
/// Edges of paper and units.
const EDGE: Colour = Colour::grey(95);
/// What is sewn already, seen from the printed side.
const PALE: Colour = Colour::grey(226);
/// The accent of figures: what is done now.
const ACCENT: Colour = Colour([176, 58, 46]);
/// A piece of fabric seen directly, where its fabric does not matter.
const CLOTH: Colour = Colour([240, 205, 196]);
/// The same seen through paper.
const CLOTH_BENEATH: Colour = Colour([250, 235, 231]);
/// The same seen through paper and what is sewn already.
const CLOTH_BENEATH_SEWN: Colour = Colour([228, 211, 207]);

/// The sizes of names in a figure of this width in inches, largest first, in printer's points.
const fn name_sizes(width: f64) -> &'static [f64] {
    if width > 2.4 { &[9.0, 8.0, 7.0, 6.0, 5.5, 5.0] } else { &[7.0, 6.0, 5.5, 5.0] }
}
