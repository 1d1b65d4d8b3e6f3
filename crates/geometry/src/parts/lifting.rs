//! Four lifting eyes over the corners of the roof.

use project::{End, Side};

use super::{Context, Made};
use crate::model::Eyes;
use crate::piece::Piece;
use crate::{Axis, Box3, Layer, Mass, Of, Tone, Vec3};

/// How far the eyes stand inside the corners of the body, mm: over the corner posts.
const INSET: f64 = 45.0;
/// Thickness of a ring's bar as a share of its inner diameter.
const BAR: f64 = 0.3;
/// Width of the drawn shank, mm.
const SHANK: f64 = 16.0;

/// Where the shanks pass through the roof: front left, front right, rear left, rear right.
pub(super) fn feet(context: &Context<'_>) -> Vec<Vec3> {
    let body = context.layout.body;
    let mut feet = Vec::with_capacity(4);
    for end in [End::Front, End::Rear] {
        for side in [Side::Left, Side::Right] {
            let x = if side == Side::Left { body.min.x + INSET } else { body.max.x - INSET };
            let y = if end == End::Front { body.min.y + INSET } else { body.max.y - INSET };
            feet.push(Vec3::new(x, y, body.max.z));
        }
    }
    feet
}

/// Diameter of the hole a shield needs for each.
pub(super) const CLEARANCE_HOLE: f64 = 2.0 * SHANK;

pub(super) fn lifting(context: &Context<'_>, made: &mut Made) {
    let Some(part) = context.build.lifting_eyes.as_ref().and_then(|part| context.catalogue.lifting_eyes.get(part))
    else {
        return;
    };
    // A ring stands clear of the shield's roof.
    let shield = context.shield().map_or(0.0, |(fitted, part)| fitted.gap.0 + part.thickness.0);
    let inner = part.ring.0 / 2.0;
    let bar = part.ring.0 * BAR;
    let removed = context.build.eyes_removed;
    let mut positions = Vec::with_capacity(4);
    for (index, foot) in feet(context).into_iter().enumerate() {
        let ring = foot + Vec3::new(0.0, 0.0, shield + inner + bar);
        positions.push(ring);
        if removed {
            continue;
        }
        let piece = Piece::new(Of::Eye(index), Layer::Lifting, Tone::Metal);
        let front = ring - Vec3::new(0.0, bar / 2.0, 0.0);
        made.add(piece.ring(front, (inner, inner + bar), Axis::Y, bar, Mass::Total(part.mass.0)));
        if shield > 0.0 {
            let half = Vec3::new(SHANK / 2.0, SHANK / 2.0, 0.0);
            let shank = Box3::between(foot - half, foot + half + Vec3::new(0.0, 0.0, shield));
            made.detail(|| piece.detail(&shank, Axis::Z));
        }
    }
    made.eyes = Some(Eyes { positions, mass_each: part.mass.0, removed });
}
