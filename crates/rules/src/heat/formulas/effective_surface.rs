//! The effective cooling surface of an enclosure.
//!
//! A_e = Σ A_0 · b
//!
//! - A_e  effective cooling surface                [m²]
//! - A_0  surface of a face over the outside       [m²]
//! - b    surface factor of the face               [–]
//!
//! Source:      IEC TR 60890 (VDE 0660-507), surface factors recalled; the seven printed sums follow from them.
//! Valid for:   enclosures without ventilation and without partitions; the floor does not count.
//! Agreement:   tests/published/heat.toml, T05-01…05, to the last printed figure.

use project::{Face, Installation};

/// Factor of an exposed roof.
pub const TOP_EXPOSED: f64 = 1.4;
/// Factor of a covered roof.
pub const TOP_COVERED: f64 = 0.7;
/// Factor of an exposed front, rear or side.
pub const SIDE_EXPOSED: f64 = 0.9;
/// Factor of a front, rear or side covered by a wall or a neighbour.
pub const SIDE_COVERED: f64 = 0.5;

/// Which of front, rear, left and right a wall or a neighbour covers. At the end of a row the left one is taken.
#[must_use]
pub const fn covered(installation: Installation, face: Face) -> bool {
    use Installation::{AgainstWall, EndOfRowAgainstWall, FreeStanding, MiddleOfRow, MiddleOfRowAgainstWall};
    match face {
        Face::Rear => matches!(installation, AgainstWall | EndOfRowAgainstWall | MiddleOfRowAgainstWall),
        Face::Left => !matches!(installation, FreeStanding | AgainstWall),
        Face::Right => matches!(installation, MiddleOfRow | MiddleOfRowAgainstWall),
        Face::Front | Face::Top | Face::Bottom => false,
    }
}

/// Surface factor of a face; `top_covered`: something stands closely over the roof, such as a shield.
#[must_use]
pub const fn surface_factor(installation: Installation, top_covered: bool, face: Face) -> f64 {
    match face {
        Face::Top if top_covered => TOP_COVERED,
        Face::Top => TOP_EXPOSED,
        Face::Bottom => 0.0,
        _ if covered(installation, face) => SIDE_COVERED,
        _ => SIDE_EXPOSED,
    }
}

/// Surface of a face of a box over the outside, m²; width, height, depth in m.
#[must_use]
pub const fn face_surface(face: Face, [width, height, depth]: [f64; 3]) -> f64 {
    match face {
        Face::Front | Face::Rear => width * height,
        Face::Left | Face::Right => depth * height,
        Face::Top | Face::Bottom => width * depth,
    }
}

/// Effective cooling surface of a box, m²; width, height, depth over the outside in m.
#[must_use]
pub fn effective_surface(installation: Installation, top_covered: bool, size: [f64; 3]) -> f64 {
    // A_e = Σ A_0 · b
    let part = |face| face_surface(face, size) * surface_factor(installation, top_covered, face);
    Face::ALL.into_iter().map(part).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_printed_sums_follow_from_the_factors() {
        let size @ [w, h, d] = [0.7, 1.9, 0.8];
        let check = |installation, printed: f64| {
            let ours = effective_surface(installation, false, size);
            assert!((ours - printed).abs() < 1e-12, "{installation:?}: {ours} against {printed}");
        };
        check(Installation::FreeStanding, 1.8 * h * (w + d) + 1.4 * w * d);
        check(Installation::AgainstWall, 1.4 * w * (h + d) + 1.8 * d * h);
        check(Installation::EndOfRow, 1.4 * d * (h + w) + 1.8 * w * h);
        check(Installation::EndOfRowAgainstWall, 1.4 * h * (w + d) + 1.4 * w * d);
        check(Installation::MiddleOfRow, 1.8 * w * h + 1.4 * w * d + d * h);
        check(Installation::MiddleOfRowAgainstWall, 1.4 * w * (h + d) + d * h);
        let covered = effective_surface(Installation::MiddleOfRowAgainstWall, true, size);
        assert!((covered - (1.4 * w * h + 0.7 * w * d + d * h)).abs() < 1e-12);
    }
}
