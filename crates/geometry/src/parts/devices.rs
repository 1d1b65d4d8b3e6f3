//! Devices: a body, the front panel with its ears for those made for a rack, and a drawn face.

use catalogue::{Device, DeviceKind, Mount};
use project::{Build, End, FittedDevice, ItemId, Place, Side};

use super::units::Front;
use super::{Context, Made, faces, outwards, sign};
use crate::layout::SHELF_BOARD;
use crate::model::Placed;
use crate::piece::Piece;
use crate::{Axis, Box3, Layer, Mass, Of, Tone, Vec3};

/// Thickness of a front panel, mm.
const PANEL: f64 = 2.0;

pub(super) fn devices(context: &Context<'_>, made: &mut Made) {
    let shelves = shelves(context.build);
    let shelf_faces: Vec<_> = context.build.devices.iter().filter(|device| shelves.contains(&device.id)).collect();
    for device in &context.build.devices {
        let Some(spec) = device.resolve(context.catalogue) else { continue };
        let Some(body) = context.layout.device_box(device, context.build, context.catalogue) else { continue };
        let under = match device.at {
            Place::Shelf { shelf, .. } => shelf_faces.iter().find(|one| one.id == shelf).map(|one| one.at),
            other => Some(other),
        };
        let face = match (device.at, under) {
            // What stands on a shelf looks to the end whose rails hold the shelf.
            (Place::Shelf { .. }, Some(Place::Rack { rails, .. })) => outwards(rails),
            (at, _) => looks(at),
        };
        let bay = device.at.bay().or_else(|| under?.bay()).unwrap_or_else(|| nearest_bay(context, &device.at));
        made.placed.push(Placed { id: device.id, body, face, bay, end: under.and_then(held_at) });

        let first = made.solids.len();
        let piece = Piece::new(Of::Device(device.id), layer(&device.at), tone(spec.kind));
        let mass = spec.mass.map_or(Mass::Unknown, |mass| Mass::Total(mass.0));
        if shelves.contains(&device.id) {
            let board = Box3 { min: body.min, max: Vec3::new(body.max.x, body.max.y, body.min.z + SHELF_BOARD) };
            made.add(piece.block(&board, Axis::Z, mass));
        } else {
            made.add(piece.block(&body, face, mass));
            let front = front_panel(context, made, piece, device, spec, &body);
            faces::face(made, piece, spec.kind, &Front::of(&front.unwrap_or(body), face), &body);
        }
        if let Place::Door { bay, end, .. } = device.at {
            made.hang(bay, end, first);
        }
    }
}

/// The devices on which others stand.
fn shelves(build: &Build) -> Vec<ItemId> {
    let on = |device: &FittedDevice| match device.at {
        Place::Shelf { shelf, .. } => Some(shelf),
        _ => None,
    };
    build.devices.iter().filter_map(on).collect()
}

const fn layer(at: &Place) -> Layer {
    match at {
        Place::Door { .. } => Layer::Doors,
        _ => Layer::Devices,
    }
}

/// Which way the face of a device looks.
fn looks(at: Place) -> Axis {
    match at {
        Place::Rack { facing, .. } => outwards(facing),
        Place::Wall { side: Side::Left, .. } => Axis::X,
        Place::Wall { side: Side::Right, .. } => Axis::MinusX,
        Place::Door { end: End::Front, .. } => Axis::Y,
        Place::Door { end: End::Rear, .. } | Place::Floor { .. } | Place::Shelf { .. } | Place::Unplaced => {
            Axis::MinusY
        }
    }
}

/// The end whose rails or door hold a device.
const fn held_at(at: Place) -> Option<End> {
    match at {
        Place::Rack { rails: end, .. } | Place::Door { end, .. } => Some(end),
        Place::Shelf { .. } | Place::Wall { .. } | Place::Floor { .. } | Place::Unplaced => None,
    }
}

fn nearest_bay(context: &Context<'_>, at: &Place) -> usize {
    match at {
        Place::Wall { side: Side::Right, .. } => context.layout.bays.len().saturating_sub(1),
        _ => 0,
    }
}

const fn tone(kind: DeviceKind) -> Tone {
    match kind {
        DeviceKind::Network => Tone::Network,
        DeviceKind::Fibre => Tone::Fibre,
        DeviceKind::Compute => Tone::Compute,
        DeviceKind::Power => Tone::Power,
        DeviceKind::Battery => Tone::Battery,
        DeviceKind::Cable => Tone::Cable,
    }
}

/// The panel before the rails, or the ears that hold a device standing before or behind them, and adapters where the rails
/// are wider than the panel. Gives the panel's box when the device's face is on it.
fn front_panel(
    context: &Context<'_>,
    made: &mut Made,
    piece: Piece,
    device: &FittedDevice,
    spec: &Device,
    body: &Box3,
) -> Option<Box3> {
    let (Place::Rack { bay, rails, facing, forward, .. }, Mount::Rack(_)) = (device.at, spec.mount) else {
        return None;
    };
    let planes = context.layout.bays.get(bay)?;
    let plane = planes.rails(rails);
    let out = sign(rails);
    let own = if spec.rack == 23 { 584.2 } else { 482.6 };
    let strip = |from: f64, to: f64| {
        Box3::between(
            Vec3::new(planes.centre() + from, plane, body.min.z),
            Vec3::new(planes.centre() + to, plane + out * PANEL, body.max.z),
        )
    };
    let half = spec.width.0 / 2.0;
    let mut front = None;
    if forward.0 == 0.0 {
        let panel = strip(-own / 2.0, own / 2.0);
        made.add(piece.block(&panel, outwards(rails), Mass::Elsewhere));
        front = (facing == rails).then_some(panel);
    } else if half < own / 2.0 {
        made.add(piece.block(&strip(-own / 2.0, -half), outwards(rails), Mass::Elsewhere));
        made.add(piece.block(&strip(half, own / 2.0), outwards(rails), Mass::Elsewhere));
    }
    if own < planes.panel_width {
        let adapter = piece.in_tone(Tone::Metal);
        let wide = planes.panel_width / 2.0;
        made.detail(|| adapter.detail(&strip(-wide, -own / 2.0), outwards(rails)));
        made.detail(|| adapter.detail(&strip(own / 2.0, wide), outwards(rails)));
    }
    front
}
