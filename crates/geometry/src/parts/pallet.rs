//! The pallet a cabinet ships on: not among a model's solids, made on request.

use catalogue::Pallet;

use crate::piece::Piece;
use crate::{Axis, Box3, Layer, Mass, Of, Solid, Tone, Vec3};

/// Thickness of the deck's boards, mm.
const DECK: f64 = 22.0;
/// Width of a skid, mm.
const SKID: f64 = 100.0;

/// How far below the ground line the pallet's lower side lies: the model stays where it is.
pub(crate) fn lowered_by(pallet: &Pallet) -> f64 {
    pallet.size.height.0.max(0.0)
}

/// The solids of a pallet under the model: its deck's upper side is at z = 0.
pub(crate) fn pallet(part: &Pallet) -> Vec<Solid> {
    let (x, y) = (part.size.width.0 / 2.0, part.size.depth.0 / 2.0);
    let deck = DECK.min(lowered_by(part));
    let piece = Piece::new(Of::Pallet, Layer::Ground, Tone::Timber);
    let boards = Box3::between(Vec3::new(-x, -y, -deck), Vec3::new(x, y, 0.0));
    let mut solids = vec![piece.block(&boards, Axis::Z, Mass::Total(part.mass.0))];
    let half = (SKID / 2.0).min(y / 3.0);
    for middle in [-y + half, 0.0, y - half] {
        let skid = Box3::between(Vec3::new(-x, middle - half, -lowered_by(part)), Vec3::new(x, middle + half, -deck));
        solids.push(piece.block(&skid, Axis::X, Mass::Elsewhere));
    }
    solids
}
