//! Cable management beside the front rails: an upright channel open to the front, with fingers, rings or spools.

use catalogue::{Manager, ManagerSort, RACK_UNIT};
use project::Side;

use super::{Context, Made};
use crate::piece::Piece;
use crate::{Axis, Box3, Frame, Layer, Mass, Of, Outline, Tone, Vec3};

/// Thickness of the channel's sheet, mm.
const SHEET: f64 = 1.5;
/// Most repeats drawn over the height.
const MOST_REPEATS: u32 = 30;

pub(super) fn managers(context: &Context<'_>, made: &mut Made) {
    let layout = context.layout;
    for (bay, (planes, chosen)) in layout.bays.iter().zip(&context.build.bays).enumerate() {
        for (side, part) in [(Side::Left, &chosen.manager_left), (Side::Right, &chosen.manager_right)] {
            let Some(part) = part.as_ref().and_then(|part| context.catalogue.managers.get(part)) else { continue };
            let (width, half) = (part.width.0, planes.panel_width / 2.0);
            let left = match side {
                Side::Left => planes.centre() - half - width,
                Side::Right => planes.centre() + half,
            };
            let fills = Box3::between(
                Vec3::new(left, planes.front_rails - part.depth.0, layout.inside.min.z + layout.insulation.bottom),
                Vec3::new(left + width, planes.front_rails, layout.inside.max.z - layout.insulation.top),
            );
            let piece = Piece::new(Of::Manager { bay, side }, Layer::Inside, Tone::Cable);
            let mass = Mass::Total(part.mass_per_unit.0 * f64::from(context.build.units));
            let frame = Frame { origin: fills.min, u: Axis::X, v: Axis::Y };
            made.add(piece.extruded(channel(width, part.depth.0), frame, fills.size().z, mass));
            furniture(made, piece, part, &fills, context.build.units);
        }
    }
}

/// The channel seen from above, open to the front.
fn channel(width: f64, depth: f64) -> Outline {
    if width <= 2.0 * SHEET || depth <= SHEET {
        return Outline::rectangle(width, depth);
    }
    let (right, back) = (width - SHEET, depth - SHEET);
    let outer = vec![
        [0.0, 0.0],
        [SHEET, 0.0],
        [SHEET, back],
        [right, back],
        [right, 0.0],
        [width, 0.0],
        [width, depth],
        [0.0, depth],
    ];
    Outline { outer, holes: Vec::new() }
}

/// What holds the cables, drawn only.
fn furniture(made: &mut Made, piece: Piece, part: &Manager, fills: &Box3, units: u32) {
    let every = match part.sort {
        ManagerSort::Fingers => 2,
        ManagerSort::Rings => 4,
        ManagerSort::Spools => 6,
    };
    let (width, depth) = (part.width.0, part.depth.0);
    for index in 0..(units / every).min(MOST_REPEATS) {
        let z = fills.min.z + (f64::from(index) + 0.5) * f64::from(every) * RACK_UNIT;
        if z + 6.0 > fills.max.z {
            break;
        }
        let bar = |from: f64, to: f64| {
            Box3::between(
                Vec3::new(fills.min.x + from, fills.min.y, z - 4.0),
                Vec3::new(fills.min.x + to, fills.min.y + 3.0, z + 4.0),
            )
        };
        let metal = piece.in_tone(Tone::Metal);
        match part.sort {
            ManagerSort::Fingers => {
                made.detail(|| metal.detail(&bar(0.0, width * 0.35), Axis::MinusY));
                made.detail(|| metal.detail(&bar(width * 0.65, width), Axis::MinusY));
            }
            ManagerSort::Rings => made.detail(|| metal.detail(&bar(0.0, width), Axis::MinusY)),
            ManagerSort::Spools => {
                let centre = Vec3::new(fills.centre().x, fills.max.y - SHEET, z);
                let radius = part.bend_radius.0.min(width * 0.4);
                made.detail(|| metal.disc(centre, radius, Axis::MinusY, depth * 0.6));
            }
        }
    }
}
