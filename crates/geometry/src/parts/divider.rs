//! What stands between two bays: hollow posts at the front and rear, and the divider's sheet if it is wanted.

use project::End;

use super::{Context, Made};
use crate::piece::Piece;
use crate::{Axis, Box3, Layer, Mass, Of, Tone, Vec3};

/// Depth of a centre post, mm.
const POST_DEPTH: f64 = 40.0;

pub(super) fn divider(context: &Context<'_>, made: &mut Made) {
    let (layout, sheet) = (context.layout, Mass::Density(context.skin.density));
    let (low, high) = (layout.inside.min.z + layout.insulation.bottom, layout.inside.max.z - layout.insulation.top);
    let piece = Piece::new(Of::Divider, Layer::Body, Tone::Inner);
    for pair in layout.bays.windows(2) {
        let [left, right] = pair else { continue };
        let (from, to) = (left.right, right.left);
        if to <= from {
            continue;
        }
        let depth = POST_DEPTH.min(layout.inside.size().y / 4.0);
        for end in [End::Front, End::Rear] {
            let (near, far) = match end {
                End::Front => (layout.inside.min.y, layout.inside.min.y + depth),
                End::Rear => (layout.inside.max.y, layout.inside.max.y - depth),
            };
            let post = Box3::between(Vec3::new(from, near, low), Vec3::new(to, far, high));
            made.add(piece.frame(&post, Axis::Z, layout.skin, sheet));
        }
        if context.build.divider {
            let half = layout.skin.min(to - from) / 2.0;
            let middle = (from + to) / 2.0;
            let wall = Box3::between(
                Vec3::new(middle - half, layout.inside.min.y + depth, low),
                Vec3::new(middle + half, layout.inside.max.y - depth, high),
            );
            made.add(piece.plate(&wall, Axis::X, &[], sheet));
        }
    }
}
