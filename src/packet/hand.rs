//! Which way a foundation is turned over: from the unit's frame to its front and to its printed side, about the y axis.

use crate::geometry::Transform;
use crate::model::Variant;

const MIRROR: Transform = Transform::from_matrix([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);

/// The front as it is sewn: the mirror image of the drawing where the foundation is sewn in the other hand.
pub fn front(variant: &Variant) -> Transform {
    if variant.mirrored { MIRROR } else { Transform::IDENTITY }
}

/// The printed side, which is the mirror image of the front; what is sewn as the mirror image of the drawing is printed as drawn.
pub fn printed(variant: &Variant) -> Transform {
    if variant.mirrored { Transform::IDENTITY } else { MIRROR }
}
