//! The solar shield: a roof sheet with a turned-down edge, side sheets, and leaves before doors and panels, all clear of
//! what is behind them by the air gap.

use catalogue::ShieldCover;
use project::{End, Side, UnitAt};

use super::{Context, Made, lifting, outwards, sign};
use crate::piece::{Piece, drill};
use crate::{Axis, Box3, Layer, Mass, Of, Tone, Vec3};

/// Greatest height of the roof's turned-down edge, mm; it stays above the body's roof.
const EDGE: f64 = 30.0;
/// Air kept round a unit that passes through the shield, mm.
const ROUND_UNITS: f64 = 10.0;
/// Width of a standoff, mm, and how far it stands inside the corner.
const STANDOFF: f64 = 20.0;
const STANDOFF_INSET: f64 = 110.0;

pub(super) fn shield(context: &Context<'_>, made: &mut Made) {
    let Some((fitted, part)) = context.shield() else { return };
    let cover = Cover { gap: fitted.gap.0, sheet: part.thickness.0, mass: Mass::Density(part.density) };
    let past = past_seal(context, fitted.overhang.0);
    roof(context, made, &cover, &past);
    if part.covers != ShieldCover::Roof {
        sides(context, made, &cover);
    }
    if part.covers == ShieldCover::Full {
        for bay in 0..context.layout.bays.len() {
            for end in [End::Front, End::Rear] {
                leaf(context, made, &cover, bay, end);
            }
        }
    }
}

struct Cover {
    gap: f64,
    sheet: f64,
    mass: Mass,
}

const PIECE: Piece = Piece::new(Of::Shield, Layer::Shield, Tone::Shield);

/// Outline in plan past which nothing of the roof reaches at front and rear: the leaves' outer plane and the overhang.
fn past_seal(context: &Context<'_>, overhang: f64) -> (f64, f64) {
    let over = context.layout.over_doors();
    (over.min.y - overhang, over.max.y + overhang)
}

/// Units that pass through a sheet, with air round them. `all` widens along x, y and z: only the shadow counts.
fn round_units(context: &Context<'_>, at: impl Fn(UnitAt) -> bool) -> Vec<Box3> {
    let by = Vec3::new(ROUND_UNITS, ROUND_UNITS, ROUND_UNITS);
    context
        .units
        .iter()
        .filter(|unit| at(unit.at))
        .filter_map(|unit| unit.outer)
        .map(|outer| Box3 { min: outer.min - by, max: outer.max + by })
        .collect()
}

fn roof(context: &Context<'_>, made: &mut Made, cover: &Cover, &(front, rear): &(f64, f64)) {
    let body = context.layout.body;
    // Over the side sheets and its own turned-down edge.
    let aside = cover.gap + 2.0 * cover.sheet;
    let under = body.max.z + cover.gap;
    let fills = Box3::between(
        Vec3::new(body.min.x - aside, front, under),
        Vec3::new(body.max.x + aside, rear, under + cover.sheet),
    );
    let holes = round_units(context, |at| matches!(at, UnitAt::Roof { .. }));
    let mut sheet = PIECE.plate(&fills, Axis::Z, &holes, cover.mass);
    if context.build.lifting_eyes.is_some() {
        drill(&mut sheet, &lifting::feet(context), lifting::CLEARANCE_HOLE);
    }
    made.add(sheet);

    let edge = Box3 {
        min: Vec3::new(fills.min.x, fills.min.y, under - EDGE.min(cover.gap)),
        max: Vec3::new(fills.max.x, fills.max.y, under),
    };
    made.add(PIECE.frame(&edge, Axis::MinusZ, cover.sheet, cover.mass));

    for x in [body.min.x + STANDOFF_INSET, body.max.x - STANDOFF_INSET - STANDOFF] {
        for y in [body.min.y + STANDOFF_INSET, body.max.y - STANDOFF_INSET - STANDOFF] {
            let low = Vec3::new(x, y, body.max.z);
            let foot = Box3 { min: low, max: low + Vec3::new(STANDOFF, STANDOFF, cover.gap) };
            made.detail(|| PIECE.in_tone(Tone::Metal).detail(&foot, Axis::Z));
        }
    }
}

fn sides(context: &Context<'_>, made: &mut Made, cover: &Cover) {
    let body = context.layout.body;
    for (side, facing) in [(Side::Left, Axis::MinusX), (Side::Right, Axis::X)] {
        let (near, out) = if side == Side::Left { (body.min.x, -1.0) } else { (body.max.x, 1.0) };
        let fills = Box3::between(
            Vec3::new(near + out * cover.gap, body.min.y, body.min.z),
            Vec3::new(near + out * (cover.gap + cover.sheet), body.max.y, body.max.z + cover.gap),
        );
        let holes = round_units(context, |at| at == UnitAt::Side { side });
        made.add(PIECE.plate(&fills, facing, &holes, cover.mass));
    }
}

/// The shield's leaf before a door, which swings with it, or before a fixed panel.
fn leaf(context: &Context<'_>, made: &mut Made, cover: &Cover, bay: usize, end: End) {
    let layout = context.layout;
    let Some(planes) = layout.bays.get(bay) else { return };
    let behind = layout.leaf(bay, end).unwrap_or(Box3 {
        min: Vec3::new(planes.left, layout.body.min.y, layout.body.min.z),
        max: Vec3::new(planes.right, layout.body.max.y, layout.body.max.z),
    });
    let out = sign(end);
    let from = if end == End::Front { behind.min.y } else { behind.max.y } + out * cover.gap;
    let fills = Box3::between(
        Vec3::new(behind.min.x, from, behind.min.z),
        Vec3::new(behind.max.x, from + out * cover.sheet, behind.max.z),
    );
    let first = made.solids.len();
    let holes = round_units(context, |at| at == UnitAt::Door { bay, end });
    made.add(PIECE.plate(&fills, outwards(end), &holes, cover.mass));
    for x in [fills.min.x + STANDOFF, fills.max.x - 2.0 * STANDOFF] {
        for z in [fills.min.z + STANDOFF, fills.max.z - 2.0 * STANDOFF] {
            let low = Vec3::new(x, from, z);
            let foot = Box3::between(low, low + Vec3::new(STANDOFF, -out * cover.gap, STANDOFF));
            made.detail(|| PIECE.in_tone(Tone::Metal).detail(&foot, outwards(end)));
        }
    }
    made.hang(bay, end, first);
}
