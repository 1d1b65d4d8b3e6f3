//! The concrete pad the cabinet stands on: drawn only.

use super::{Context, Made};
use crate::piece::Piece;
use crate::{Axis, Box3, Layer, Mass, Of, Tone, Vec3};

/// How far the drawn pad reaches past the cabinet, mm. The real pad is the customer's.
const MARGIN: f64 = 150.0;
/// Height of the drawn pad, mm.
const HEIGHT: f64 = 100.0;

pub(super) fn pad(context: &Context<'_>, made: &mut Made) {
    let over = context.layout.over_doors();
    let fills = Box3::between(
        Vec3::new(over.min.x - MARGIN, over.min.y - MARGIN, -HEIGHT),
        Vec3::new(over.max.x + MARGIN, over.max.y + MARGIN, 0.0),
    );
    made.add(Piece::new(Of::Pad, Layer::Ground, Tone::Pad).block(&fills, Axis::Z, Mass::Elsewhere));
}
