//! The outer faces of a cabinet's rooms through the moments of a day or a year.
//!
//! Q = Σ_f (gain_f − conductance_f · (T_i − T_o)) − K_0 · (T_i − T_o) − K_g · (T_i − T_g)
//!
//! - K_0  what loses to outdoor air at a fixed rate: covered faces, a floor over a plinth, leaks   [W/K]
//! - K_g  floor on the ground: 1/U = 1/h_i + Σ t/λ + A / (S · λ_g),  S = 2 D, D = 2 √(A/π)           [W/K]
//! - T_g  ground: mean outdoor air of the day or the year                                           [°C]
//!
//! Source:      faces as in `skin.rs`; the ground: shape factor of a disc on a half space (Bergman et al., ch. 4), λ_g of
//!              [`GROUND`]; films inside and under the floor as in the heat checks, their convective part weakened by thin
//!              air with the root of its pressure. Leaks past gaskets: [`LEAK`], common practice, no source.
//! Valid for:   sites as in the heat checks, inside air mixed.
//! Agreement:   energy over a year to 1e-6 of what passes (tests/tests/course.rs).
//! Not covered: openings other than gaskets, water, snow; a skin that stores heat; ground hotter than the air in the sun.
//!
//! A face against a wall or a neighbour has still air at outdoor temperature before it and neither sun nor sky. At the end
//! of a row the side with less sun over the year is taken to be the covered one. In the shade there is no beam.

use std::cell::Cell;
use std::f64::consts::PI;

use climate::convection::{AirTable, NaturalTable, WindTable, between_sheets, sky_split};
use project::{Face, Installation, Sun};

use super::Problem;
use super::moment::Moment;
use super::overhang::Overhang;
use super::prepared::PreparedClimate;
use super::skin::{Around, Before, Films, Skin, Through};
use super::vented_gap::VentedGap;
use crate::Case;
use crate::heat::formulas::shield::GAP_CONVECTION;
use crate::heat::gap::Gap;
use crate::heat::walls::{Wall, compartments, walls};
use crate::thermal::{Boundary, Surroundings};

/// Conductivity of the ground, W/(m·K). Common practice, no source.
const GROUND: f64 = 1.5;
/// Air past a metre of door gasket, m³/h. Common practice, no source.
const LEAK: f64 = 0.1;
/// Pressure at sea level, Pa.
const SEA_LEVEL: f64 = 101_325.0;

/// What of a room loses heat at a fixed rate.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Fixed {
    to_air: f64,
    to_ground: f64,
}

/// The outer faces of the rooms.
#[derive(Clone, Debug)]
pub struct Envelope {
    films: Films,
    rooms: Vec<(Vec<Skin>, Fixed)>,
}

/// The place of a face in a span; the floor has none.
const fn place(face: Face) -> Option<usize> {
    match face {
        Face::Front => Some(0),
        Face::Rear => Some(1),
        Face::Left => Some(2),
        Face::Right => Some(3),
        Face::Top => Some(4),
        Face::Bottom => None,
    }
}

/// Faces with a wall or a neighbour against them.
#[must_use]
pub fn covered(installation: Installation, climate: &PreparedClimate) -> Vec<Face> {
    use Installation::{AgainstWall, EndOfRow, EndOfRowAgainstWall, FreeStanding, MiddleOfRow, MiddleOfRowAgainstWall};
    let on = |face: usize| climate.year.iter().map(|moment| moment.on_face(face)).sum::<f64>();
    let mut covered = match installation {
        FreeStanding | AgainstWall => vec![],
        MiddleOfRow | MiddleOfRowAgainstWall => vec![Face::Left, Face::Right],
        EndOfRow | EndOfRowAgainstWall => vec![if on(2) < on(3) { Face::Left } else { Face::Right }],
    };
    if matches!(installation, AgainstWall | EndOfRowAgainstWall | MiddleOfRowAgainstWall) {
        covered.push(Face::Rear);
    }
    covered
}

impl Envelope {
    /// Of a case in a climate.
    ///
    /// # Errors
    /// When the catalogue lacks a part or the site is out of range.
    pub fn of(case: &Case, climate: &PreparedClimate) -> Result<Self, Problem> {
        let lacks = || Problem::from(Gap::NeedsData(case.missing_parts()));
        let build = &case.project.build;
        let model = case.model.as_ref().ok_or_else(lacks)?;
        let paint = case.catalogue.paints.get(&build.paint).ok_or_else(lacks)?;
        let size = model.layout.body.size();
        let (width, depth, height) = (size.x / 1000.0, size.y / 1000.0, size.z / 1000.0);
        let no_air = || Problem::new("elevation", "no air there", "a height of the atmosphere");
        let roof = width * depth / (2.0 * (width + depth));
        let films = Films {
            airs: AirTable::of(climate.pressure).ok_or_else(no_air)?,
            natural: [
                NaturalTable::upright(climate.pressure, height).ok_or_else(no_air)?,
                NaturalTable::roof(climate.pressure, roof).ok_or_else(no_air)?,
            ],
            wind: WindTable::of(climate.pressure, f64::midpoint(width, depth)).ok_or_else(no_air)?,
        };
        let thin = (climate.pressure / SEA_LEVEL).sqrt();
        let still = climate::INSIDE.coefficient - GAP_CONVECTION * (1.0 - thin);
        let covered = covered(case.project.brief.installation, climate);
        let mut rooms: Vec<(Vec<Skin>, Fixed)> =
            (0..compartments(case)).map(|_| (Vec::new(), Fixed::default())).collect();
        for wall in walls(case)? {
            let layers: f64 = wall.layers.iter().map(|layer| layer.thickness / layer.conductivity).sum();
            let resistance = 1.0 / still + layers;
            let (skins, fixed) = &mut rooms[wall.compartment];
            let Some(face) = place(wall.face).filter(|_| !covered.contains(&wall.face)) else {
                if wall.on_ground {
                    // S = 2 D of a disc as large as the whole floor
                    let area = width * depth;
                    let diameter = 2.0 * (area / PI).sqrt();
                    fixed.to_ground += wall.area / (resistance + area / (2.0 * diameter * GROUND));
                } else {
                    fixed.to_air += wall.area / (resistance + 1.0 / still);
                }
                continue;
            };
            let tilt = if wall.face == Face::Top { 0.0 } else { 90.0 };
            skins.push(Skin {
                face,
                area: wall.area,
                inner: 1.0 / resistance,
                absorptance: paint.absorptance,
                emissivity: paint.emissivity,
                sky: sky_split(tilt).sky * climate.sky_share[face],
                roof: wall.face == Face::Top,
                beam: case.project.brief.sun == Sun::Full,
                overhang: overhang(case, &wall),
                shield: shield(case, &wall, climate.pressure, height, f64::midpoint(width, depth))
                    .map(|gap| (gap, between_sheets(paint.emissivity, paint.emissivity))),
                last: Cell::new(Before::BARE),
            });
        }
        let density = climate::density(climate.pressure, units::Celsius(20.0)).ok_or_else(no_air)?;
        for (bay, _) in model.layout.bays.iter().enumerate() {
            let room = bay.min(rooms.len() - 1);
            for end in [project::End::Front, project::End::Rear] {
                let Some(leaf) = model.layout.leaf(bay, end) else { continue };
                let leaf = leaf.size();
                let metres = 2.0 * (leaf.x + leaf.z) / 1000.0;
                rooms[room].1.to_air += LEAK * metres / 3600.0 * density * climate::SPECIFIC_HEAT;
            }
        }
        Ok(Self { films, rooms })
    }

    /// What all faces share at each moment.
    fn around(&self, moments: &[Moment]) -> Vec<Around> {
        moments.iter().map(|moment| Around::at(moment, &self.films)).collect()
    }
}

/// The gap behind the shield before a wall.
fn shield(case: &Case, wall: &Wall, pressure: f64, height: f64, across: f64) -> Option<VentedGap> {
    let fitted = case.project.build.shield.as_ref().filter(|_| wall.shielded)?;
    let gap = fitted.gap.0 / 1000.0;
    if wall.face == Face::Top {
        VentedGap::of(pressure, gap, None, across)
    } else {
        VentedGap::of(pressure, gap, Some(height), height)
    }
}

/// The edge of the shield's roof over a wall.
fn overhang(case: &Case, wall: &Wall) -> Overhang {
    let build = &case.project.build;
    let fitted = build.shield.as_ref();
    let part = fitted.and_then(|fitted| case.catalogue.shields.get(&fitted.part));
    let (Some(fitted), Some(part), Some(layout)) = (fitted, part, case.layout()) else { return Overhang::default() };
    let size = layout.body.size();
    // As the shield's solids have it: past the doors by the overhang, past the sides by gap and sheets.
    let aside = fitted.gap.0 + 2.0 * part.thickness.0;
    let before = if wall.shielded { fitted.gap.0 + part.thickness.0 } else { 0.0 };
    let (out, past, width) = match wall.face {
        Face::Front | Face::Rear => (fitted.overhang.0, aside, size.x),
        Face::Left | Face::Right => (aside, fitted.overhang.0, size.y),
        Face::Top | Face::Bottom => return Overhang::default(),
    };
    Overhang { out: (out - before).max(0.0), past, above: fitted.gap.0, width, height: size.z }
}

/// An envelope over the moments of a day or a year.
#[derive(Clone, Debug)]
pub struct Outdoors<'c> {
    envelope: Envelope,
    moments: &'c [Moment],
    around: Vec<Around>,
    ground: f64,
    step_seconds: f64,
    /// Steps in all, the moment of the first, and how many steps each moment stands for.
    steps: usize,
    first: usize,
    each: usize,
    /// More conductance to outdoor air, such as through an open door, W/K.
    opened: Vec<f64>,
}

impl<'c> Outdoors<'c> {
    /// Once through the moments, each a step of so many seconds.
    #[must_use]
    pub fn once(envelope: &Envelope, moments: &'c [Moment], step_seconds: f64) -> Self {
        let ground = moments.iter().map(|moment| moment.outside).sum::<f64>() / moments.len().max(1) as f64;
        Self {
            around: envelope.around(moments),
            opened: vec![0.0; envelope.rooms.len()],
            envelope: envelope.clone(),
            moments,
            ground,
            step_seconds,
            steps: moments.len(),
            first: 0,
            each: 1,
        }
    }

    /// From one moment on, round the day, in finer steps: so many in all, and so many to a moment.
    #[must_use]
    pub fn from(mut self, first: usize, steps: usize, each: usize) -> Self {
        (self.first, self.steps) = (first, steps);
        self.step_seconds = self.step_seconds * self.each as f64 / each as f64;
        self.each = each;
        self
    }

    /// With a door of one room open, W/K.
    #[must_use]
    pub fn opened(mut self, room: usize, conductance: f64) -> Self {
        if let Some(opened) = self.opened.get_mut(room) {
            *opened += conductance;
        }
        self
    }

    fn index(&self, step: usize) -> usize {
        (self.first + step / self.each) % self.moments.len().max(1)
    }

    /// What passes through all that separates a room from outdoors.
    #[must_use]
    pub fn through(&self, step: usize, room: usize, inside_air: f64) -> Through {
        let index = self.index(step);
        let (moment, around) = (&self.moments[index], &self.around[index]);
        let (skins, fixed) = &self.envelope.rooms[room];
        let constant = fixed.to_air + self.opened[room];
        let mut sum = Through {
            conductance: constant + fixed.to_ground,
            gain: fixed.to_ground * (self.ground - around.air),
            sun: 0.0,
        };
        for skin in skins {
            let through = skin.through(&self.envelope.films, around, moment, inside_air - around.air);
            sum.conductance += through.conductance;
            sum.gain += through.gain;
            sum.sun += through.sun;
        }
        sum
    }
}

impl Surroundings for Outdoors<'_> {
    fn steps(&self) -> usize {
        self.steps
    }

    fn step_seconds(&self) -> f64 {
        self.step_seconds
    }

    fn outside(&self, step: usize) -> f64 {
        self.around[self.index(step)].air
    }

    fn boundary(&self, step: usize, room: usize, inside_air: f64) -> Boundary {
        let through = self.through(step, room, inside_air);
        let air_source = through.gain + through.conductance * self.outside(step);
        Boundary { air_source, air_conductance: through.conductance, ..Boundary::default() }
    }
}
