//! Which faces the sun reaches, which faces are covered, and what the sun brings in.
//!
//! Q_sun = Σ s_f · α · G · A_f · U_f / h_o,f
//!
//! The flat practice figure G stands on the roof, one of front and rear, and one side at once. Behind a shield only the
//! share s of it counts (`formulas/shield.rs`); elsewhere s = 1.

use project::{Face, Installation, Sun};
use units::{Kind, Value};

use super::formulas::shield::{LEAST_GAP, share_let_through};
use super::gap::Gap;
use super::walls::{Hour, Wall};
use crate::{Case, Phrase};

/// One way in which the sun may stand and, at the end of a row, on which side the neighbour may be.
#[derive(Clone, Debug, PartialEq)]
pub struct Exposure {
    /// Faces with a wall or a neighbour against them.
    pub covered: Vec<Face>,
    /// Faces the sun reaches.
    pub lit: Vec<Face>,
}

/// Every exposure to reckon with; the worst one counts.
#[must_use]
pub fn exposures(installation: Installation, sun: Sun) -> Vec<Exposure> {
    use Installation::{AgainstWall, EndOfRow, EndOfRowAgainstWall, FreeStanding, MiddleOfRow, MiddleOfRowAgainstWall};
    // Covered sides, and the side left for the sun.
    let sides: &[(&[Face], Option<Face>)] = match installation {
        FreeStanding | AgainstWall => &[(&[], Some(Face::Left)), (&[], Some(Face::Right))],
        EndOfRow | EndOfRowAgainstWall => &[(&[Face::Right], Some(Face::Left)), (&[Face::Left], Some(Face::Right))],
        MiddleOfRow | MiddleOfRowAgainstWall => &[(&[Face::Left, Face::Right], None)],
    };
    let against_wall = matches!(installation, AgainstWall | EndOfRowAgainstWall | MiddleOfRowAgainstWall);
    let ends: &[Face] = if against_wall { &[Face::Front] } else { &[Face::Front, Face::Rear] };
    let mut all = Vec::new();
    for (covered_sides, side) in sides {
        let mut covered = covered_sides.to_vec();
        if against_wall {
            covered.push(Face::Rear);
        }
        for end in ends {
            let lit = match sun {
                Sun::Full => [Face::Top, *end].into_iter().chain(*side).collect(),
                Sun::Shade => Vec::new(),
            };
            let exposure = Exposure { covered: covered.clone(), lit };
            if !all.contains(&exposure) {
                all.push(exposure);
            }
        }
    }
    all
}

/// What the sun meets: paint and shield.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surface {
    /// Share of sunlight the paint takes up.
    pub absorptance: f64,
    /// Share of what the shield takes up that reaches the skin.
    pub let_through: f64,
}

/// Paint and shield of a case.
///
/// # Errors
/// When the catalogue lacks the paint, or the shield's gap is narrower than the method covers.
pub fn surface(case: &Case) -> Result<Surface, Gap> {
    let build = &case.project.build;
    let paint = case.catalogue.paints.get(&build.paint).ok_or_else(|| Gap::NeedsData(case.missing_parts()))?;
    if let Some(shield) = build.shield.as_ref().filter(|_| case.project.brief.sun == Sun::Full)
        && shield.gap.0 < LEAST_GAP
    {
        let why = Phrase::from("a shield's gap under ").value(Value::new(LEAST_GAP, Kind::Length));
        return Err(Gap::OutOfRange(why.text(" is not covered")));
    }
    Ok(Surface {
        absorptance: paint.absorptance,
        let_through: share_let_through(climate::OUTSIDE_SUMMER.coefficient, paint.emissivity),
    })
}

impl Surface {
    /// Heat that the sun brings in through a sunlit wall, W.
    #[must_use]
    pub fn gain(&self, wall: &Wall) -> f64 {
        let s = if wall.shielded { self.let_through } else { 1.0 };
        let (alpha, g) = (self.absorptance, climate::FLAT_SUN.irradiance);
        let u = wall.coefficient(Hour::Hottest);
        let h_o = wall.outside_film(Hour::Hottest).coefficient;
        // Q_sun,f = s_f · α · G · A_f · U_f / h_o,f
        s * alpha * g * wall.area * u / h_o
    }

    /// Heat that the sun brings into a compartment, W.
    #[must_use]
    pub fn gain_of(&self, walls: &[Wall], compartment: usize, exposure: &Exposure) -> f64 {
        let lit = walls.iter().filter(|wall| wall.compartment == compartment && exposure.lit.contains(&wall.face));
        // An empty sum of floats is −0.
        0.0 + lit.map(|wall| self.gain(wall)).sum::<f64>()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(installation: Installation, ways: usize, covered: usize, lit: usize) {
        let all = exposures(installation, Sun::Full);
        assert_eq!(all.len(), ways, "{installation:?}");
        for exposure in &all {
            assert_eq!((exposure.covered.len(), exposure.lit.len()), (covered, lit), "{installation:?}");
            assert!(exposure.lit.iter().all(|face| !exposure.covered.contains(face)), "{exposure:?}");
        }
    }

    #[test]
    fn the_sun_reaches_roof_one_end_and_one_free_side() {
        check(Installation::FreeStanding, 4, 0, 3);
        check(Installation::AgainstWall, 2, 1, 3);
        check(Installation::EndOfRow, 4, 1, 3);
        check(Installation::EndOfRowAgainstWall, 2, 2, 3);
        check(Installation::MiddleOfRow, 2, 2, 2);
        check(Installation::MiddleOfRowAgainstWall, 1, 3, 2);
    }

    #[test]
    fn nothing_is_lit_in_the_shade() {
        assert_eq!(exposures(Installation::FreeStanding, Sun::Shade).len(), 1);
        assert!(exposures(Installation::EndOfRow, Sun::Shade).iter().all(|exposure| exposure.lit.is_empty()));
    }

    #[test]
    fn the_gain_of_a_bare_wall_comes_out_by_hand() {
        let wall =
            Wall { face: Face::Top, compartment: 0, area: 1.0, layers: vec![], shielded: false, on_ground: false };
        let surface = Surface { absorptance: 0.5, let_through: 0.25 };
        // 0.5 · 753 · 1 · 5.44 / 17 = 120.48
        assert!((surface.gain(&wall) - 120.48).abs() < 1e-9);
        // Behind the shield: U = 4, h_o = 8: 0.25 · 0.5 · 753 · 4 / 8 = 47.0625
        let behind = Wall { shielded: true, ..wall };
        assert!((surface.gain(&behind) - 47.0625).abs() < 1e-9);
    }
}
