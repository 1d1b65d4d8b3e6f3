//! Climate units: the housing outside, the part that stands inside, and their drawn faces.

use catalogue::UnitSort;
use project::{Side, UnitAt};

use super::{Context, Made, UnitSpot, outwards};
use crate::piece::Piece;
use crate::{Axis, Box3, Frame, Layer, Mass, Of, Tone, Vec3};

pub(super) fn units(context: &Context<'_>, made: &mut Made) {
    for unit in &context.units {
        let first = made.solids.len();
        unit_solids(made, unit);
        if let UnitAt::Door { bay, end } = unit.at {
            made.hang(bay, end, first);
        }
    }
}

fn unit_solids(made: &mut Made, unit: &UnitSpot<'_>) {
    let outside = match unit.at {
        UnitAt::Door { end, .. } => outwards(end),
        UnitAt::Side { side: Side::Left } => Axis::MinusX,
        UnitAt::Side { side: Side::Right } => Axis::X,
        UnitAt::Roof { .. } => Axis::Z,
        UnitAt::Inside { .. } => Axis::Y,
    };
    let layer = if matches!(unit.at, UnitAt::Door { .. }) { Layer::Doors } else { Layer::Units };
    let piece = Piece::new(Of::Unit(unit.id), layer, Tone::Unit);
    // The mass is shared by volume: nobody states it for each half.
    let volume = |of: Option<Box3>| of.map_or(0.0, |of| of.size().x * of.size().y * of.size().z);
    let (out, inn) = (volume(unit.outer), volume(unit.inner));
    let share = |part: f64| Mass::Total(if out + inn > 0.0 { unit.part.mass.0 * part / (out + inn) } else { 0.0 });

    if let Some(outer) = unit.outer {
        made.add(piece.block(&outer, outside, share(out)));
        outer_face(made, piece, unit.part.sort, &Front::of(&outer, outside));
    }
    if let Some(inner) = unit.inner {
        made.add(piece.block(&inner, outside.opposite(), share(inn)));
        inner_face(made, piece, unit.part.sort, &Front::of(&inner, outside.opposite()));
    }
}

/// A surface that is drawn on: shares of its width and height from its lower left corner, as seen.
pub(super) struct Front {
    frame: Frame,
    pub(super) width: f64,
    pub(super) height: f64,
    facing: Axis,
}

impl Front {
    /// The surface of a box on the side it faces.
    pub(super) fn of(fills: &Box3, facing: Axis) -> Self {
        let mut frame = Frame::facing(facing, fills);
        let (_, size) = frame.shadow(fills);
        frame.origin = frame.point([0.0, 0.0], crate::piece::along(facing, fills));
        Self { frame, width: size[0], height: size[1], facing }
    }

    /// A block on it, between two corners in mm, standing out by `out` mm.
    pub(super) fn block(&self, piece: Piece, low: [f64; 2], high: [f64; 2], out: f64) -> crate::Solid {
        piece.detail(&Box3::between(self.frame.point(low, 0.0), self.frame.point(high, out)), self.facing)
    }

    fn point(&self, at: [f64; 2], out: f64) -> Vec3 {
        self.frame.point(at, out)
    }
}

/// Slots in a field of shares of the front.
fn slots(made: &mut Made, piece: Piece, front: &Front, field: [f64; 4], count: u32) {
    let [left, bottom, right, top] = field;
    for index in 0..count {
        let middle = bottom + (top - bottom) * (f64::from(index) + 0.5) / f64::from(count);
        let half = (top - bottom) / f64::from(count) * 0.2;
        made.detail(|| {
            front.block(
                piece.in_tone(Tone::Dark),
                [left * front.width, (middle - half) * front.height],
                [right * front.width, (middle + half) * front.height],
                1.5,
            )
        });
    }
}

/// A fan: a dark ring with its hub, at shares of the front.
fn fan(made: &mut Made, piece: Piece, front: &Front, [x, y]: [f64; 2], radius: f64) {
    let at = [x * front.width, y * front.height];
    made.detail(|| {
        let ring = piece.in_tone(Tone::Dark).ring(
            front.point(at, 0.0),
            (radius * 0.45, radius),
            front.facing,
            4.0,
            Mass::Elsewhere,
        );
        crate::Solid { detail: true, ..ring }
    });
    made.detail(|| piece.in_tone(Tone::Metal).disc(front.point(at, 0.0), radius * 0.4, front.facing, 6.0));
}

fn outer_face(made: &mut Made, piece: Piece, sort: UnitSort, front: &Front) {
    match sort {
        UnitSort::FilterFan => slots(made, piece, front, [0.12, 0.12, 0.88, 0.88], 5),
        UnitSort::Exchanger => {
            slots(made, piece, front, [0.15, 0.62, 0.85, 0.92], 6);
            slots(made, piece, front, [0.15, 0.08, 0.85, 0.38], 6);
        }
        UnitSort::AirConditioner => {
            fan(made, piece, front, [0.5, 0.72], 0.36 * front.width.min(front.height / 2.0));
            slots(made, piece, front, [0.15, 0.08, 0.85, 0.44], 8);
        }
        UnitSort::Heater => {}
    }
}

fn inner_face(made: &mut Made, piece: Piece, sort: UnitSort, front: &Front) {
    let radius = 0.32 * front.width.min(front.height / 2.0);
    match sort {
        UnitSort::FilterFan => fan(made, piece, front, [0.5, 0.5], 0.38 * front.width.min(front.height)),
        UnitSort::Exchanger => {
            fan(made, piece, front, [0.5, 0.76], radius);
            fan(made, piece, front, [0.5, 0.24], radius);
        }
        UnitSort::AirConditioner => {
            fan(made, piece, front, [0.5, 0.76], radius);
            slots(made, piece, front, [0.15, 0.1, 0.85, 0.4], 4);
        }
        UnitSort::Heater => slots(made, piece, front, [0.15, 0.15, 0.85, 0.85], 4),
    }
}
