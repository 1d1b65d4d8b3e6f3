//! Door leaves: a sheet with turned-in edges, its seal, latch and hinges.

use project::{End, HingeSide, UnitAt};

use super::{Context, Made, outwards, sign};
use crate::model::Hinge;
use crate::piece::Piece;
use crate::{Axis, Box3, Layer, Mass, Of, Tone, Vec3};

/// Depth of the seal between leaf and frame, mm.
const SEAL: f64 = 8.0;

pub(super) fn doors(context: &Context<'_>, made: &mut Made) {
    for bay in 0..context.layout.bays.len() {
        for end in [End::Front, End::Rear] {
            door(context, made, bay, end);
        }
    }
}

fn door(context: &Context<'_>, made: &mut Made, bay: usize, end: End) {
    let Some(side) = context.hinge_side(bay, end) else { return };
    let (Some(leaf), Some(opening)) = (context.layout.leaf(bay, end), context.layout.opening(bay, end)) else { return };
    let piece = Piece::new(Of::Door { bay, end }, Layer::Doors, Tone::Leaf);
    let sheet = Mass::Density(context.skin.density);
    let out = sign(end);
    let (outer, inner) = if end == End::Front { (leaf.min.y, leaf.max.y) } else { (leaf.max.y, leaf.min.y) };
    let turned = outer - out * context.layout.skin.min(context.layout.leaf_depth);
    let slab = |of: &Box3, from: f64, to: f64| {
        Box3::between(Vec3::new(of.min.x, from, of.min.z), Vec3::new(of.max.x, to, of.max.z))
    };

    made.hinges.push(hinge(context, bay, end, side, &leaf));
    let first = made.solids.len();

    let holes = context.unit_holes(|at| at == UnitAt::Door { bay, end });
    made.add(piece.plate(&slab(&leaf, outer, turned), outwards(end), &holes, sheet));
    made.add(piece.frame(&slab(&leaf, turned, inner), outwards(end), context.layout.skin, sheet));

    // The seal runs round the opening; latch, hinges, stop and gasket weigh together and evenly round the leaf.
    let lap = context.layout.door_frame / 2.0;
    let round = super::wider(&opening, lap * 0.75);
    let mut seal = piece.in_tone(Tone::Dark).frame(
        &slab(&round, inner, inner + out * SEAL.min(context.layout.leaf_depth)),
        outwards(end),
        (lap / 2.0).max(1.0),
        Mass::Total(context.door.fittings.0),
    );
    seal.detail = true;
    made.add(seal);

    hardware(made, piece, end, side, &leaf, outer);
    made.hang(bay, end, first);
}

/// Handle and hinges, drawn only.
fn hardware(made: &mut Made, piece: Piece, end: End, side: HingeSide, leaf: &Box3, outer: f64) {
    // Seen from outside, a door's left is the cabinet's left at the front and its right at the rear.
    let hinged_low = (side == HingeSide::Left) == (end == End::Front);
    let (hinged, inward) = if hinged_low { (leaf.min.x, 1.0) } else { (leaf.max.x, -1.0) };
    let free = if hinged_low { leaf.max.x } else { leaf.min.x };
    let middle = leaf.centre().z;
    let out = sign(end);
    let at = |x: f64, z: f64, out_from: f64| Vec3::new(x, outer + out * out_from, z);

    let plate =
        Box3::between(at(free - inward * 22.0, middle - 95.0, 0.0), at(free - inward * 48.0, middle + 95.0, 3.0));
    made.detail(|| piece.in_tone(Tone::Metal).detail(&plate, outwards(end)));
    let lever =
        Box3::between(at(free - inward * 28.0, middle - 85.0, 3.0), at(free - inward * 42.0, middle + 20.0, 18.0));
    made.detail(|| piece.in_tone(Tone::Dark).detail(&lever, outwards(end)));

    let height = leaf.size().z;
    for share in [0.12, 0.5, 0.88] {
        let z = leaf.min.z + share * height;
        let knuckle =
            Box3::between(at(hinged - inward * 6.0, z - 30.0, -6.0), at(hinged + inward * 6.0, z + 30.0, 6.0));
        made.detail(|| piece.in_tone(Tone::Metal).detail(&knuckle, Axis::Z));
    }
}

/// The axis is at the leaf's outer edge, so that the leaf clears the body at any angle.
fn hinge(context: &Context<'_>, bay: usize, end: End, side: HingeSide, leaf: &Box3) -> Hinge {
    let axis_y = if end == End::Front { leaf.min.y } else { leaf.max.y };
    let axis_x = if (side == HingeSide::Left) == (end == End::Front) { leaf.min.x } else { leaf.max.x };
    // Seen from above, a door hinged on its left swings clockwise, at either end.
    let way = if side == HingeSide::Left { -1.0 } else { 1.0 };
    let of = Of::Door { bay, end };
    Hinge { of, bay, end, axis_x, axis_y, open_angle_deg: way * context.door.stop_angle, solids: Vec::new() }
}
