//! Lengths, points, lines, polygons, transforms: pure plane geometry, without trade words, places in a text, or I/O.
//!
//! # Conventions
//!
//! - x runs to the right, y runs **down**, as on a page. Angles run clockwise as seen; so do polygons.
//! - Coordinates are plain numbers in the unit of the *frame* a shape lives in: grid steps in a drawing, inches in a model or on a sheet.
//!   A shape changes frame only through a [`Transform`]. A length that is spoken of outside its frame (an allowance, the width of a cut) is a [`Length`].
//! - Every decision that depends on how near two things are takes a [`Tolerance`]; no other module holds a small number of its own.
//! - Trigonometry comes from `libm`, so that results agree to the last bit on every machine.

mod arrangement;
mod fit;
mod length;
mod line;
mod point;
mod polygon;
mod right_triangle;
mod tolerance;
mod transform;

pub use arrangement::{Arrangement, arrangement};
pub use length::Length;
pub use line::{Line, Segment, Side};
pub use point::{Angle, Point, Vector};
pub use polygon::{OutlineFault, Polygon};
pub use right_triangle::RightTriangle;
pub use tolerance::Tolerance;
pub use transform::Transform;
