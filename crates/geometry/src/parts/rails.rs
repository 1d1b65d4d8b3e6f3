//! Four rails a bay, and its frame. Their mass is one figure of the family (rails, frame, latches, fittings per unit).

use project::{End, Side};

use super::{Context, Made, sign};
use crate::layout::BayLayout;
use crate::piece::Piece;
use crate::shape::{reversed, ring_area};
use crate::{Axis, Box3, Frame, Layer, Mass, Of, Outline, Tone, Vec3};

/// Thickness of a rail's sheet, mm.
const SHEET: f64 = 2.5;
/// Length of a rail's leg along the depth, mm.
const LEG: f64 = 35.0;
/// Height of a bay's floor and roof frame, mm.
const FRAME_HEIGHT: f64 = 20.0;
/// Thickness of that frame, mm.
const FRAME_WALL: f64 = 2.0;

pub(super) fn rails(context: &Context<'_>, made: &mut Made) {
    let layout = context.layout;
    let (low, high) = (layout.inside.min.z + layout.insulation.bottom, layout.inside.max.z - layout.insulation.top);
    for (bay, planes) in layout.bays.iter().enumerate() {
        for end in [End::Front, End::Rear] {
            for side in [Side::Left, Side::Right] {
                let piece = Piece::new(Of::Rail { bay, end, side }, Layer::Inside, Tone::Metal);
                let frame = Frame { origin: Vec3::new(0.0, 0.0, low), u: Axis::X, v: Axis::Y };
                made.add(piece.extruded(angle(planes, end, side), frame, high - low, Mass::Elsewhere));
            }
        }

        // One frame at the floor and one under the roof, half the mass each: their middle is the bay's.
        let mass = context.family.fittings_per_unit.0 * f64::from(context.build.units);
        let piece = Piece::new(Of::Fittings { bay }, Layer::Inside, Tone::Metal);
        for bottom in [low, high - FRAME_HEIGHT] {
            let fills = Box3::between(
                Vec3::new(planes.left, layout.inside.min.y, bottom),
                Vec3::new(planes.right, layout.inside.max.y, bottom + FRAME_HEIGHT),
            );
            made.add(piece.frame(&fills, Axis::Z, FRAME_WALL, Mass::Total(mass / 2.0)));
        }
    }
}

/// The section of a rail seen from above: a flange from the clear opening to the panel's edge, and a leg inwards.
fn angle(planes: &BayLayout, end: End, side: Side) -> Outline {
    let out = if side == Side::Left { -1.0 } else { 1.0 };
    let inwards = -sign(end);
    let plane = planes.rails(end);
    let (near, far) =
        (planes.centre() + out * planes.opening_width / 2.0, planes.centre() + out * planes.panel_width / 2.0);
    let ring = vec![
        [near, plane],
        [far, plane],
        [far, plane + inwards * LEG],
        [far - out * SHEET, plane + inwards * LEG],
        [far - out * SHEET, plane + inwards * SHEET],
        [near, plane + inwards * SHEET],
    ];
    let outer = if ring_area(&ring) < 0.0 { reversed(ring) } else { ring };
    Outline { outer, holes: Vec::new() }
}
