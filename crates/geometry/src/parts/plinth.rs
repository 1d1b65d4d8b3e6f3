//! The plinth: four walls on a turned-in foot with the anchor holes. A battery plinth has a floor, and an opening with a
//! door before each bay; a cable plinth a louvred panel there.

use catalogue::PlinthUse;
use project::{End, HingeSide};

use super::{Context, Made};
use crate::model::{Anchor, Hinge};
use crate::piece::{Piece, drill};
use crate::{Axis, Box3, Layer, Mass, Of, Tone, Vec3};

/// How far anchor holes stand inside the body's outline without a plinth, mm. An assumption: no part says.
const BODY_ANCHOR_INSET: f64 = 50.0;
/// Diameter of those holes, mm. An assumption: no part says.
const BODY_ANCHOR_HOLE: f64 = 14.0;
/// Width of the frame left round an opening in the wall, mm.
const RIM: f64 = 35.0;
/// How far a plinth's door laps over its opening, mm.
const LAP: f64 = 12.0;
/// Least height of a plinth in which an opening makes sense, mm.
const LEAST_OPENING: f64 = 150.0;

pub(super) fn plinth(context: &Context<'_>, made: &mut Made) {
    let body = context.layout.body;
    let Some((fitted, part)) = context.plinth() else {
        made.anchors = anchors(&body, BODY_ANCHOR_INSET, BODY_ANCHOR_HOLE);
        return;
    };
    made.anchors = anchors(&body, part.anchor_inset.0, part.anchor_hole.0);
    let (height, sheet) = (fitted.height.0, part.thickness.0);
    let piece = Piece::new(Of::Plinth, Layer::Body, Tone::Plinth);
    let mass = Mass::Density(part.density);
    let over = Box3 { min: Vec3::new(body.min.x, body.min.y, 0.0), max: Vec3::new(body.max.x, body.max.y, height) };
    let battery = part.used_for == PlinthUse::Battery;

    let foot = Box3 { min: over.min, max: Vec3::new(over.max.x, over.max.y, sheet) };
    let mut foot = if battery {
        piece.plate(&foot, Axis::Z, &[], mass)
    } else {
        piece.frame(&foot, Axis::Z, 2.0 * part.anchor_inset.0, mass)
    };
    let holes: Vec<_> = made.anchors.iter().map(|anchor| anchor.position).collect();
    drill(&mut foot, &holes, part.anchor_hole.0);
    made.add(foot);

    let openings: Vec<_> = if battery && height >= LEAST_OPENING {
        context
            .layout
            .bays
            .iter()
            .map(|bay| {
                Box3::between(
                    Vec3::new(bay.left + RIM, over.min.y, sheet + RIM),
                    Vec3::new(bay.right - RIM, over.min.y + sheet, height - RIM),
                )
            })
            .collect()
    } else {
        Vec::new()
    };
    let wall = |min: Vec3, max: Vec3| Box3 { min, max };
    let (low, high) = (over.min + Vec3::new(0.0, 0.0, sheet), over.max);
    made.add(piece.plate(&wall(low, Vec3::new(high.x, low.y + sheet, high.z)), Axis::MinusY, &openings, mass));
    made.add(piece.plate(&wall(Vec3::new(low.x, high.y - sheet, low.z), high), Axis::Y, &[], mass));
    let (front, rear) = (low.y + sheet, high.y - sheet);
    made.add(piece.plate(
        &wall(Vec3::new(low.x, front, low.z), Vec3::new(low.x + sheet, rear, high.z)),
        Axis::MinusX,
        &[],
        mass,
    ));
    made.add(piece.plate(
        &wall(Vec3::new(high.x - sheet, front, low.z), Vec3::new(high.x, rear, high.z)),
        Axis::X,
        &[],
        mass,
    ));

    for (bay, opening) in openings.iter().enumerate() {
        door(context, made, piece, bay, opening, sheet, mass);
    }
    if part.used_for == PlinthUse::Cable && height >= LEAST_OPENING / 2.0 {
        for bay in &context.layout.bays {
            let front = Box3::between(
                Vec3::new(bay.left + RIM, over.min.y, sheet + RIM / 2.0),
                Vec3::new(bay.right - RIM, over.min.y, height - RIM / 2.0),
            );
            louvres(made, piece, &front);
        }
    }
}

/// The door of a battery room, hinged as the bay's front door is; it swings with it on screen.
fn door(context: &Context<'_>, made: &mut Made, piece: Piece, bay: usize, opening: &Box3, sheet: f64, mass: Mass) {
    let side = context.hinge_side(bay, End::Front).unwrap_or(HingeSide::Left);
    let first = made.solids.len();
    let lapped = super::wider(opening, LAP);
    let leaf = Box3 {
        min: Vec3::new(lapped.min.x, opening.min.y - sheet, lapped.min.z),
        max: Vec3::new(lapped.max.x, opening.min.y, lapped.max.z),
    };
    let piece = Piece { layer: Layer::Doors, ..piece };
    made.add(piece.plate(&leaf, Axis::MinusY, &[], mass));
    louvres(made, piece, &Box3 { min: super::wider(&leaf, -RIM).min, max: super::wider(&leaf, -RIM).max });
    let (axis_x, way) = match side {
        HingeSide::Left => (leaf.min.x, -1.0),
        HingeSide::Right => (leaf.max.x, 1.0),
    };
    made.hinges.push(Hinge {
        of: Of::Plinth,
        bay,
        end: End::Front,
        axis_x,
        axis_y: leaf.min.y,
        open_angle_deg: way * context.door.stop_angle,
        solids: (first..made.solids.len()).collect(),
    });
}

/// Louvres in the front of a box: upright strips of short slots, drawn only.
fn louvres(made: &mut Made, piece: Piece, front: &Box3) {
    const STRIPS: u32 = 6;
    let size = front.size();
    if size.x < 100.0 || size.z < 30.0 {
        return;
    }
    for index in 0..STRIPS {
        let z = front.min.z + size.z * (f64::from(index) + 0.5) / f64::from(STRIPS);
        let slot = Box3::between(
            Vec3::new(front.min.x + size.x * 0.08, front.min.y - 2.0, z - 2.0),
            Vec3::new(front.max.x - size.x * 0.08, front.min.y, z + 2.0),
        );
        made.detail(|| piece.in_tone(Tone::Dark).detail(&slot, Axis::MinusY));
    }
}

fn anchors(body: &Box3, inset: f64, hole: f64) -> Vec<Anchor> {
    let (x, y) = ((body.max.x - inset).max(0.0), (body.max.y - inset).max(0.0));
    [(-x, -y), (x, -y), (-x, y), (x, y)]
        .into_iter()
        .map(|(x, y)| Anchor { position: Vec3::new(x, y, 0.0), hole })
        .collect()
}
