//! What the face of a device shows, by its kind: few blocks, enough to tell kinds apart in grey.

use catalogue::DeviceKind;

use super::Made;
use super::units::Front;
use crate::piece::Piece;
use crate::{Axis, Box3, Tone};

/// Faces lower than this have one row, mm: a little over one unit.
const ONE_ROW: f64 = 60.0;
/// Faces higher than this carry upright cards, mm: three units.
const CARDS: f64 = 130.0;

/// Draws the face of a device on its front.
pub(super) fn face(made: &mut Made, piece: Piece, kind: DeviceKind, front: &Front, body: &Box3) {
    let dark = piece.in_tone(Tone::Dark);
    let low = front.height <= ONE_ROW;
    let mut field = |piece: Piece, columns: u32, rows: u32, area: [f64; 4], fill: f64, out: f64| {
        grid(made, piece, front, (columns, rows), area, (fill, out));
    };
    match kind {
        DeviceKind::Network if front.height > CARDS => field(piece, 8, 1, [0.08, 0.08, 0.92, 0.92], 0.86, 4.0),
        DeviceKind::Network => field(dark, 8, 1, [0.14, 0.3, 0.86, 0.7], 0.7, 1.0),
        DeviceKind::Fibre => field(dark, 6, if low { 1 } else { 2 }, [0.1, 0.25, 0.9, 0.75], 0.6, 3.0),
        DeviceKind::Compute => field(piece, 4, if low { 1 } else { 2 }, [0.1, 0.14, 0.72, 0.86], 0.9, 3.0),
        DeviceKind::Power => {
            field(piece, 5, 1, [0.08, 0.12, 0.92, 0.88], 0.88, 4.0);
            field(dark, 5, 1, [0.08, 0.2, 0.92, 0.34], 0.4, 6.0);
        }
        DeviceKind::Battery => {
            field(piece, 1, 1, [0.2, 0.35, 0.8, 0.65], 1.0, 1.5);
            let top = Front::of(body, Axis::Z);
            grid(made, dark, &top, (2, 1), [0.1, 0.06, 0.9, 0.2], (0.14, 14.0));
        }
        DeviceKind::Cable => field(dark, 1, 1, [0.14, 0.36, 0.86, 0.64], 1.0, 1.0),
    }
}

/// Blocks in columns and rows over an area given in shares of the front; each fills a share of its cell.
fn grid(
    made: &mut Made,
    piece: Piece,
    front: &Front,
    (columns, rows): (u32, u32),
    [left, bottom, right, top]: [f64; 4],
    (fill, out): (f64, f64),
) {
    let cell = [(right - left) / f64::from(columns) * front.width, (top - bottom) / f64::from(rows) * front.height];
    for column in 0..columns {
        for row in 0..rows {
            let low = [
                left * front.width + (f64::from(column) + (1.0 - fill) / 2.0) * cell[0],
                bottom * front.height + (f64::from(row) + (1.0 - fill) / 2.0) * cell[1],
            ];
            let high = [low[0] + fill * cell[0], low[1] + fill * cell[1]];
            made.detail(|| front.block(piece, low, high, out));
        }
    }
}
