//! Masses, centres of gravity, areas and outer sizes, all from the one list of solids.

use catalogue::{Pallet, ShieldCover};
use project::{Face, Faces};

use crate::model::Model;
use crate::{Box3, Mass, Of, Solid, Vec3, parts};

/// A sum of masses.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MassSum {
    /// Sum, kg.
    pub kg: f64,
    /// Centre of gravity, mm; the origin when nothing weighs anything.
    pub centre: Vec3,
    /// What belongs to the sum but has no stated mass.
    pub unknown: Vec<Of>,
}

impl MassSum {
    /// The sum of some solids.
    pub fn of<'a>(solids: impl Iterator<Item = &'a Solid>) -> Self {
        let mut sum = Moments::default();
        for solid in solids {
            match solid.mass {
                Mass::Elsewhere => {}
                Mass::Unknown => sum.unknown.push(solid.of),
                Mass::Density(_) | Mass::Total(_) => sum.add(solid.mass_kg().unwrap_or(0.0), solid.centroid()),
            }
        }
        sum.total()
    }

    /// With another sum added.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        let mut sum = Moments { unknown: self.unknown, ..Moments::default() };
        sum.add(self.kg, self.centre);
        sum.add(other.kg, other.centre);
        sum.unknown.extend(other.unknown);
        sum.total()
    }
}

#[derive(Default)]
struct Moments {
    kg: f64,
    moment: Vec3,
    unknown: Vec<Of>,
}

impl Moments {
    fn add(&mut self, kg: f64, at: Vec3) {
        self.kg += kg;
        self.moment = self.moment + at * kg;
    }

    fn total(self) -> MassSum {
        // r = Σ mᵢ rᵢ ∕ Σ mᵢ
        let centre = if self.kg > 0.0 { self.moment * (1.0 / self.kg) } else { Vec3::default() };
        MassSum { kg: self.kg, centre, unknown: self.unknown }
    }
}

/// One outer face of the body.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FaceArea {
    /// Area over the skin, openings and cut-outs included, m².
    pub area_m2: f64,
    /// Left to right as seen, mm.
    pub width: f64,
    /// Bottom to top as seen, mm; of roof and floor front to rear.
    pub height: f64,
    /// Area of the holes that climate units need in it, m².
    pub cut_out_m2: f64,
}

impl Model {
    /// The mass of the solids that `pick` takes. The pad weighs nothing here: it is drawn only.
    pub fn mass(&self, pick: impl Fn(&Solid) -> bool) -> MassSum {
        MassSum::of(self.solids.iter().filter(|solid| pick(solid)))
    }

    /// The cabinet with its options and climate units, as it stands, without devices.
    #[must_use]
    pub fn empty_mass(&self) -> MassSum {
        self.mass(|solid| !matches!(solid.of, Of::Device(_)))
    }

    /// The cabinet with everything placed in it, as it stands: without lifting eyes when they are taken off.
    #[must_use]
    pub fn equipped_mass(&self) -> MassSum {
        self.mass(|_| true)
    }

    /// The equipped cabinet as it hangs on the hook: with its lifting eyes, also when they are taken off later.
    #[must_use]
    pub fn lifted_mass(&self) -> MassSum {
        let mut sum = Moments::default();
        if let Some(eyes) = self.eyes.as_ref().filter(|eyes| eyes.removed) {
            for position in &eyes.positions {
                sum.add(eyes.mass_each, *position);
            }
        }
        self.equipped_mass().and(sum.total())
    }

    /// The equipped cabinet on its pallet, with its lifting eyes.
    #[must_use]
    pub fn shipping_mass(&self, pallet: &Pallet) -> MassSum {
        self.lifted_mass().and(MassSum::of(parts::pallet(pallet).iter()))
    }

    /// The solids of a pallet under the cabinet, whose deck takes the place of the ground.
    #[must_use]
    pub fn pallet(&self, pallet: &Pallet) -> Vec<Solid> {
        parts::pallet(pallet)
    }

    /// Height of the shipment, mm: pallet, cabinet, and everything on its roof, eyes included.
    #[must_use]
    pub fn shipping_height(&self, pallet: &Pallet) -> f64 {
        self.overall(true).max.z + parts::lowered_by(pallet)
    }

    /// The box round everything fixed, without the pad; with or without the shield. Lifting eyes count when fitted.
    #[must_use]
    pub fn overall(&self, with_shield: bool) -> Box3 {
        let counted = |solid: &Solid| solid.of != Of::Pad && (with_shield || solid.of != Of::Shield);
        self.bounds(counted).unwrap_or_default()
    }

    /// What stands on the ground, seen from above, mm: the plinth, or the body without one.
    #[must_use]
    pub fn footprint(&self) -> Box3 {
        let body = self.layout.body;
        let low = Vec3::new(body.min.x, body.min.y, 0.0);
        Box3 { min: low, max: Vec3::new(body.max.x, body.max.y, 0.0) }
    }

    /// Centres of the lifting eyes' rings, fitted or taken off; empty without eyes.
    #[must_use]
    pub fn eye_positions(&self) -> &[Vec3] {
        self.eyes.as_ref().map_or(&[], |eyes| &eyes.positions)
    }

    /// The outer faces of the body, over its skin.
    #[must_use]
    pub fn faces(&self) -> Faces<FaceArea> {
        let size = self.layout.body.size();
        let mut faces = Faces::default();
        for face in Face::ALL {
            let (width, height) = match face {
                Face::Front | Face::Rear => (size.x, size.z),
                Face::Left | Face::Right => (size.y, size.z),
                Face::Top | Face::Bottom => (size.x, size.y),
            };
            let holes: f64 = self.cut_outs.iter().filter(|(on, _)| *on == face).map(|(_, area)| area).sum();
            *faces.get_mut(face) = FaceArea { area_m2: width * height * 1e-6, width, height, cut_out_m2: holes * 1e-6 };
        }
        faces
    }

    /// Whether the solar shield covers a face.
    #[must_use]
    pub fn covered_by_shield(&self, face: Face) -> bool {
        match (self.shield, face) {
            (None, _) | (_, Face::Bottom) => false,
            (Some(_), Face::Top) => true,
            (Some(covers), Face::Left | Face::Right) => covers != ShieldCover::Roof,
            (Some(covers), Face::Front | Face::Rear) => covers == ShieldCover::Full,
        }
    }
}
