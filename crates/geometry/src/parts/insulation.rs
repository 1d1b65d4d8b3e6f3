//! Insulation inside the skin: on the sides over their whole area, on roof and floor between the sides, on doors within
//! the opening (it swings with them), on fixed panels between all others.

use project::{End, Face, Side, UnitAt};

use super::{Context, Made, outwards};
use crate::piece::Piece;
use crate::{Axis, Box3, Layer, Mass, Of, Tone, Vec3};

pub(super) fn insulation(context: &Context<'_>, made: &mut Made) {
    sides(context, made);
    roof_and_floor(context, made);
    for (end, face) in [(End::Front, Face::Front), (End::Rear, Face::Rear)] {
        for bay in 0..context.layout.bays.len() {
            end_of_bay(context, made, bay, end, face);
        }
    }
}

/// Density of the insulation on a face, when there is any.
fn laid(context: &Context<'_>, face: Face) -> Option<(f64, Mass)> {
    let thickness = *context.layout.insulation.get(face);
    let part = &context.build.insulation.get(face).as_ref().filter(|_| thickness > 0.0)?.part;
    Some((thickness, Mass::Density(context.catalogue.insulations.get(part)?.density)))
}

fn piece(face: Face, layer: Layer) -> Piece {
    Piece::new(Of::Insulation(face), layer, Tone::Inner)
}

/// Room that units need through the insulation: their holes and their inner boxes.
fn room(context: &Context<'_>, at: impl Fn(UnitAt) -> bool + Copy) -> Vec<Box3> {
    let mut room = context.unit_holes(at);
    room.extend(context.units.iter().filter(|unit| at(unit.at)).filter_map(|unit| unit.inner));
    room
}

fn sides(context: &Context<'_>, made: &mut Made) {
    let inside = context.layout.inside;
    for (side, face, facing) in [(Side::Left, Face::Left, Axis::X), (Side::Right, Face::Right, Axis::MinusX)] {
        let Some((thickness, mass)) = laid(context, face) else { continue };
        let mut fills = inside;
        match side {
            Side::Left => fills.max.x = inside.min.x + thickness,
            Side::Right => fills.min.x = inside.max.x - thickness,
        }
        let holes = room(context, |at| at == UnitAt::Side { side });
        made.add(piece(face, Layer::Inside).plate(&fills, facing, &holes, mass));
    }
}

/// What is left inside the side walls' insulation.
fn between_sides(context: &Context<'_>) -> Box3 {
    let mut room = context.layout.inside;
    room.min.x += context.layout.insulation.left;
    room.max.x -= context.layout.insulation.right;
    room
}

fn roof_and_floor(context: &Context<'_>, made: &mut Made) {
    let room_left = between_sides(context);
    if let Some((thickness, mass)) = laid(context, Face::Top) {
        let mut fills = room_left;
        fills.min.z = fills.max.z - thickness;
        let holes = room(context, |at| matches!(at, UnitAt::Roof { .. }));
        made.add(piece(Face::Top, Layer::Inside).plate(&fills, Axis::MinusZ, &holes, mass));
    }
    if let Some((thickness, mass)) = laid(context, Face::Bottom) {
        let mut fills = room_left;
        fills.max.z = fills.min.z + thickness;
        let mut holes = Vec::new();
        for (bay, fitted) in context.build.bays.iter().enumerate() {
            let plates = 0..fitted.gland_plates.len();
            holes.extend(plates.filter_map(|at| context.layout.gland_plate(bay, at, context.build, context.catalogue)));
        }
        made.add(piece(Face::Bottom, Layer::Inside).plate(&fills, Axis::Z, &holes, mass));
    }
}

fn end_of_bay(context: &Context<'_>, made: &mut Made, bay: usize, end: End, face: Face) {
    let Some((thickness, mass)) = laid(context, face) else { return };
    let Some(planes) = context.layout.bays.get(bay) else { return };
    let (body, inside, laid) = (context.layout.body, context.layout.inside, context.layout.insulation);
    let inwards = if end == End::Front { 1.0 } else { -1.0 };
    if planes.door(end) {
        let Some(opening) = context.layout.opening(bay, end) else { return };
        let leaf = if end == End::Front { body.min.y } else { body.max.y };
        let fills = Box3::between(
            Vec3::new(opening.min.x, leaf, opening.min.z),
            Vec3::new(opening.max.x, leaf + inwards * thickness, opening.max.z),
        );
        let first = made.solids.len();
        let holes = room(context, |at| at == UnitAt::Door { bay, end });
        made.add(piece(face, Layer::Doors).plate(&fills, outwards(end), &holes, mass));
        made.hang(bay, end, first);
    } else {
        let skin = if end == End::Front { inside.min.y } else { inside.max.y };
        let free = between_sides(context);
        let fills = Box3::between(
            Vec3::new(planes.left.max(free.min.x), skin, inside.min.z + laid.bottom),
            Vec3::new(planes.right.min(free.max.x), skin + inwards * thickness, inside.max.z - laid.top),
        );
        made.add(piece(face, Layer::Inside).plate(&fills, outwards(end), &[], mass));
    }
}
