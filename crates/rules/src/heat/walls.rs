//! The outer faces of each compartment: areas, layers, films.

use project::Face;
use units::{Kind, Value};

use super::formulas::resistance::{Layer, overall_coefficient};
use super::gap::Gap;
use crate::{Case, Phrase};

/// The hour that the films belong to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hour {
    /// Hottest design hour.
    Hottest,
    /// Coldest design hour.
    Coldest,
}

/// An outer face, or the part of it that belongs to one compartment.
#[derive(Clone, Debug, PartialEq)]
pub struct Wall {
    /// Face.
    pub face: Face,
    /// Compartment, counted from 0.
    pub compartment: usize,
    /// Area over the skin, cut-outs counted as wall, m².
    pub area: f64,
    /// Skin, and insulation where there is any.
    pub layers: Vec<Layer>,
    /// Whether the solar shield stands before it.
    pub shielded: bool,
    /// Whether it stands on the ground.
    pub on_ground: bool,
}

impl Wall {
    /// Film outside, W/(m²·K).
    ///
    /// Hottest hour: still air behind a shield and under the floor, the summer film elsewhere. Coldest hour: still air
    /// under the floor, the winter film elsewhere, also behind a shield, through which the wind blows.
    #[must_use]
    pub fn outside_film(&self, hour: Hour) -> climate::Film {
        match hour {
            _ if self.face == Face::Bottom => climate::STILL,
            Hour::Hottest if self.shielded => climate::STILL,
            Hour::Hottest => climate::OUTSIDE_SUMMER,
            Hour::Coldest => climate::OUTSIDE_WINTER,
        }
    }

    /// Overall heat-transfer coefficient, W/(m²·K).
    #[must_use]
    pub fn coefficient(&self, hour: Hour) -> f64 {
        overall_coefficient(climate::INSIDE.coefficient, &self.layers, self.outside_film(hour).coefficient)
    }

    /// Conductance, W/K; `covered`: a wall or a neighbour stands against it.
    ///
    /// Both hours lean to the safe side: at the hottest hour a covered face and a floor on the ground lose nothing, at the
    /// coldest they lose as if they stood free.
    #[must_use]
    pub fn conductance(&self, hour: Hour, covered: bool) -> f64 {
        if hour == Hour::Hottest && (covered || self.on_ground) { 0.0 } else { self.area * self.coefficient(hour) }
    }
}

/// How many compartments a build has: two bays with a divider between them make two.
#[must_use]
pub fn compartments(case: &Case) -> usize {
    let build = &case.project.build;
    if build.divider && build.bays.len() == 2 { 2 } else { 1 }
}

/// What a compartment is called: "bay A", or nothing when it is the whole cabinet.
#[must_use]
pub fn compartment_name(case: &Case, compartment: usize) -> Phrase {
    if compartments(case) == 1 { Phrase::new() } else { format!("bay {}", crate::bay_letter(compartment)).into() }
}

/// The outer faces of each compartment.
///
/// # Errors
/// When the catalogue lacks a part.
pub fn walls(case: &Case) -> Result<Vec<Wall>, Gap> {
    let build = &case.project.build;
    let lacks = || Gap::NeedsData(case.missing_parts());
    let model = case.model.as_ref().ok_or_else(lacks)?;
    let skin = case.catalogue.skins.get(&build.skin).ok_or_else(lacks)?;
    let skin = Layer { thickness: skin.thickness.0 / 1000.0, conductivity: skin.conductivity };
    let faces = model.faces();
    let mut walls = Vec::new();
    for face in Face::ALL {
        let mut layers = vec![skin];
        if let Some(insulated) = build.insulation.get(face) {
            let part = case.catalogue.insulations.get(&insulated.part).ok_or_else(lacks)?;
            layers.push(Layer { thickness: insulated.thickness.0 / 1000.0, conductivity: part.conductivity });
        }
        for (compartment, share) in shares(case, face) {
            walls.push(Wall {
                face,
                compartment,
                area: faces.get(face).area_m2 * share,
                layers: layers.clone(),
                shielded: model.covered_by_shield(face),
                on_ground: face == Face::Bottom && build.plinth.is_none(),
            });
        }
    }
    Ok(walls)
}

/// Which share of a face belongs to which compartment.
fn shares(case: &Case, face: Face) -> Vec<(usize, f64)> {
    let Some(layout) = case.layout().filter(|_| compartments(case) == 2) else { return vec![(0, 1.0)] };
    match face {
        Face::Left => vec![(0, 1.0)],
        Face::Right => vec![(1, 1.0)],
        _ => {
            let (left, right) = (layout.bays[0].right, layout.bays[1].left);
            let middle = (left + right) / 2.0;
            let share = (middle - layout.body.min.x) / layout.body.size().x;
            vec![(0, share), (1, 1.0 - share)]
        }
    }
}

/// Conductance of the divider between two compartments, W/K: still air on both sides of one sheet.
#[must_use]
pub fn divider_conductance(case: &Case) -> f64 {
    let build = &case.project.build;
    let parts = (case.catalogue.families.get(&build.family), case.catalogue.skins.get(&build.skin), case.layout());
    let (Some(family), Some(skin), Some(layout)) = parts else { return 0.0 };
    if compartments(case) == 1 {
        return 0.0;
    }
    let size = layout.inside.size();
    let sheet = Layer { thickness: family.divider_thickness.0 / 1000.0, conductivity: skin.conductivity };
    let film = climate::INSIDE.coefficient;
    size.y * size.z * 1e-6 * overall_coefficient(film, &[sheet], film)
}

/// A face in words.
#[must_use]
pub const fn face_name(face: Face) -> &'static str {
    match face {
        Face::Front => "front",
        Face::Rear => "rear",
        Face::Left => "left side",
        Face::Right => "right side",
        Face::Top => "roof",
        Face::Bottom => "floor",
    }
}

/// Several faces in words: "roof, front and left side".
#[must_use]
pub fn face_names(faces: &[Face]) -> String {
    let names: Vec<_> = faces.iter().copied().map(face_name).collect();
    match names.split_last() {
        None => "no face".to_owned(),
        Some((last, [])) => (*last).to_owned(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
    }
}

/// A conductance as a value.
#[must_use]
pub const fn conductance(number: f64) -> Value {
    Value::new(number, Kind::Conductance)
}
