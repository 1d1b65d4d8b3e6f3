//! The six panels of the body: roof and floor over everything, sides between them, front and rear between the sides.

use project::{End, Face, Side, UnitAt};

use super::{Context, Made, outwards};
use crate::piece::Piece;
use crate::{Axis, Box3, Layer, Mass, Of, Tone, Vec3};

pub(super) fn body(context: &Context<'_>, made: &mut Made) {
    let (body, inside) = (context.layout.body, context.layout.inside);
    let sheet = Mass::Density(context.skin.density);
    let piece = |face| Piece::new(Of::Body(face), Layer::Body, Tone::Body);

    let roof = Box3 { min: Vec3::new(body.min.x, body.min.y, inside.max.z), max: body.max };
    let holes = context.unit_holes(|at| matches!(at, UnitAt::Roof { .. }));
    made.add(piece(Face::Top).plate(&roof, Axis::Z, &holes, sheet));

    let floor = Box3 { min: body.min, max: Vec3::new(body.max.x, body.max.y, inside.min.z) };
    let mut holes = Vec::new();
    for (bay, fitted) in context.build.bays.iter().enumerate() {
        let plates = 0..fitted.gland_plates.len();
        holes.extend(plates.filter_map(|at| context.layout.gland_plate(bay, at, context.build, context.catalogue)));
    }
    made.add(piece(Face::Bottom).plate(&floor, Axis::MinusZ, &holes, sheet));

    for (side, face, out) in [(Side::Left, Face::Left, Axis::MinusX), (Side::Right, Face::Right, Axis::X)] {
        let (outer, inner) = match side {
            Side::Left => (body.min.x, inside.min.x),
            Side::Right => (body.max.x, inside.max.x),
        };
        let wall =
            Box3::between(Vec3::new(outer, body.min.y, inside.min.z), Vec3::new(inner, body.max.y, inside.max.z));
        let holes = context.unit_holes(|at| at == UnitAt::Side { side });
        made.add(piece(face).plate(&wall, out, &holes, sheet));
    }

    for (end, face) in [(End::Front, Face::Front), (End::Rear, Face::Rear)] {
        let (outer, inner) = match end {
            End::Front => (body.min.y, inside.min.y),
            End::Rear => (body.max.y, inside.max.y),
        };
        let panel =
            Box3::between(Vec3::new(inside.min.x, outer, inside.min.z), Vec3::new(inside.max.x, inner, inside.max.z));
        let openings: Vec<_> = context
            .layout
            .bays
            .iter()
            .enumerate()
            .filter(|(_, bay)| bay.door(end))
            .filter_map(|(bay, _)| context.layout.opening(bay, end))
            .collect();
        made.add(piece(face).plate(&panel, outwards(end), &openings, sheet));
    }
}
