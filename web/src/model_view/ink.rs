//! The edges of a solid as lines. Each knows the two faces that meet in it, so that the drawing can leave out what is
//! turned away and draw an outline thicker, whatever the direction of view.

use geometry::{Of, Solid, Vec3};

/// How a line is drawn; its width stands in the shader beside the same number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub(crate) enum Stroke {
    /// Details: thin.
    Fine = 0,
    /// Everything else.
    Edge = 1,
    /// Edges of the shield: thick where they are its outline.
    Outline = 2,
    /// Across a round side: drawn where it is the outline only.
    Round = 3,
    /// The rim of a thin sheet: drawn where its cap is turned to the eye, so that two rims never make one thick line.
    Rim = 4,
    /// As `Rim`, of the shield.
    OutlineRim = 5,
    /// The shield when it is off: a phantom line.
    Phantom = 6,
    /// The way of a cable, seen from everywhere.
    Wire = 7,
}

/// A line to be drawn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Line {
    pub(crate) ends: [Vec3; 2],
    /// Outward normals of the faces that meet; the first is that of a cap where a cap meets a side.
    pub(crate) normals: [Vec3; 2],
    pub(crate) stroke: Stroke,
}

/// Sides that turn by less than this are one round side: its cosine. Rings have twelve sides, 30° each.
const ROUND: f64 = 0.8;

/// Sheets up to this thickness show one rim, mm: at the fitted scale both rims fall on one pixel.
const THIN: f64 = 8.0;

/// Details up to this thickness are flat: marks on a surface without sides, mm.
const FLAT: f64 = 3.0;

/// Whether a solid is a mark on a surface, of which only the front shows.
pub(crate) fn is_flat(solid: &Solid) -> bool {
    solid.detail && solid.thickness <= FLAT
}

/// The lines of a solid.
pub(crate) fn lines(solid: &Solid) -> Vec<Line> {
    let frame = &solid.frame;
    let (cap, flat) = (frame.normal(), is_flat(solid));
    let thin = flat || solid.thickness <= THIN;
    let (edge, rim) = match (solid.detail, solid.of) {
        (true, _) | (_, Of::Insulation(_)) => (Stroke::Fine, Stroke::Fine),
        (_, Of::Shield) => (Stroke::Outline, if thin { Stroke::OutlineRim } else { Stroke::Outline }),
        _ => (Stroke::Edge, if thin { Stroke::Rim } else { Stroke::Edge }),
    };
    let mut lines = Vec::new();
    for ring in solid.outline.rings() {
        let normals: Vec<_> = around(ring).map(|(from, to)| side_normal(solid, from, to)).collect();
        let before = normals.iter().cycle().skip(normals.len().saturating_sub(1));
        for (((from, to), side), before) in around(ring).zip(&normals).zip(before) {
            let mut add = |a, b, normals, stroke| lines.push(Line { ends: [a, b], normals, stroke });
            let at = |point, out| frame.point(point, out);
            add(at(from, solid.thickness), at(to, solid.thickness), [cap, *side], rim);
            if flat {
                continue;
            }
            add(at(from, 0.0), at(to, 0.0), [cap * -1.0, *side], rim);
            if !thin {
                let stroke = if before.dot(*side) > ROUND { Stroke::Round } else { edge };
                add(at(from, 0.0), at(from, solid.thickness), [*before, *side], stroke);
            }
        }
    }
    lines
}

/// The sides of a ring, from each point to the next.
fn around(ring: &[[f64; 2]]) -> impl Iterator<Item = ([f64; 2], [f64; 2])> + '_ {
    ring.iter().copied().zip(ring.iter().copied().cycle().skip(1))
}

/// The outward normal of the side over one edge of a ring: to the right of it, since outer rings run counter-clockwise
/// and holes clockwise.
fn side_normal(solid: &Solid, from: [f64; 2], to: [f64; 2]) -> Vec3 {
    let (along, across) = (to[0] - from[0], to[1] - from[1]);
    let length = along.hypot(across);
    if length > 0.0 {
        (solid.frame.u.vector() * across - solid.frame.v.vector() * along) * (1.0 / length)
    } else {
        solid.frame.u.vector()
    }
}
