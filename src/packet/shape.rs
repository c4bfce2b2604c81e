//! Shapes of cuts in words: `3 × 2½ in`, `half of a 3½ in square`.

use super::measure::Measures;
use crate::geometry::Length;
use crate::model::Shape;

/// What a piece is cut as, with its size.
#[must_use]
pub fn shaped(shape: Shape, (width, height): (Length, Length), measures: Measures<'_>) -> String {
    let words = measures.words();
    match shape {
        Shape::Rectangle => measures.exact_rectangle(width, height),
        Shape::HalfSquare => words.shape_half(measures.exact(width)),
        Shape::QuarterSquare => words.shape_quarter(measures.exact(width)),
        Shape::Trapezoid { trim } => {
            let size = measures.exact_rectangle(width, height);
            let trimmed = trims(trim, measures);
            if trimmed.is_empty() { size } else { words.shape_trapezoid(size, words.list(&trimmed)) }
        }
    }
}

/// What is trimmed off a rectangle at its corners, as it lies right side up with the edge along its seam below.
fn trims(trim: [Length; 2], measures: Measures<'_>) -> Vec<String> {
    let words = measures.words();
    let at = [["upper-left", "lower-left"], ["upper-right", "lower-right"]];
    let told = trim.into_iter().zip(at).filter(|(trim, _)| is_trimmed(*trim)).map(|(trim, [far, near])| {
        let off = Length::inches(trim.to_inches().abs());
        words.shape_trim(measures.exact(off), if trim.to_inches() > 0.0 { far } else { near })
    });
    told.collect()
}

fn is_trimmed(trim: Length) -> bool {
    trim.to_inches().abs() > 1e-4
}

/// Whether a shape differs from its mirror image, so that it must be cut from a single layer, right side up.
#[must_use]
pub fn has_hand(shape: Shape) -> bool {
    match shape {
        Shape::Rectangle | Shape::HalfSquare | Shape::QuarterSquare => false,
        Shape::Trapezoid { trim: [left, right] } => (left.to_inches() - right.to_inches()).abs() > 1e-4,
    }
}
