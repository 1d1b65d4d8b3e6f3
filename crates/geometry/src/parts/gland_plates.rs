//! Gland plates, flush in the floor: used knock-outs are open, the others marked.

use super::{Context, Made};
use crate::piece::{Piece, drill};
use crate::{Axis, Layer, Mass, Of, Tone, Vec3};

/// Most knock-outs drawn in one plate; the count itself is the catalogue's.
const MOST_DRAWN: u32 = 60;

pub(super) fn gland_plates(context: &Context<'_>, made: &mut Made) {
    for (bay, fitted) in context.build.bays.iter().enumerate() {
        for (plate, chosen) in fitted.gland_plates.iter().enumerate() {
            let Some(part) = context.catalogue.gland_plates.get(&chosen.part) else { continue };
            let Some(fills) = context.layout.gland_plate(bay, plate, context.build, context.catalogue) else {
                continue;
            };
            let piece = Piece::new(Of::GlandPlate { bay, plate }, Layer::Body, Tone::Metal);
            let mut solid = piece.plate(&fills, Axis::MinusZ, &[], Mass::Density(part.density));
            let places = grid(part.knock_outs.min(MOST_DRAWN), part.width.0, part.depth.0);
            let middle = |[x, y]: [f64; 2]| Vec3::new(fills.centre().x + x, fills.centre().y + y, fills.max.z);
            let used = places.len().min(chosen.used as usize);
            let (open, shut) = places.split_at(used);
            drill(&mut solid, &open.iter().map(|place| middle(*place)).collect::<Vec<_>>(), part.knock_out.0);
            made.add(solid);
            for place in shut {
                made.detail(|| piece.in_tone(Tone::Dark).disc(middle(*place), part.knock_out.0 / 2.0, Axis::Z, 0.5));
            }
        }
    }
}

/// The middles of `count` knock-outs in rows over a plate, from its own middle.
fn grid(count: u32, width: f64, depth: f64) -> Vec<[f64; 2]> {
    if count == 0 {
        return Vec::new();
    }
    let columns = (f64::from(count) * width / depth.max(1.0)).sqrt().ceil().clamp(1.0, f64::from(count)) as u32;
    let rows = count.div_ceil(columns);
    (0..count)
        .map(|index| {
            let along = |at: u32, of: u32, length: f64| ((f64::from(at) + 0.5) / f64::from(of) - 0.5) * length;
            [along(index % columns, columns, width), along(index / columns, rows, depth)]
        })
        .collect()
}
