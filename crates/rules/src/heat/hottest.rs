//! The hottest hour solved: gains, losses and inside air of each compartment, for every way the sun may stand.

use project::{Face, ItemId};
use units::Celsius;

use super::cooling::{CoolingUnit, cooling_units};
use super::exposure::{Exposure, Surface, exposures, surface};
use super::formulas::balance::{self, inside_air};
use super::gap::Gap;
use super::heat_sources::{DeviceHeat, Draw, Room, UnitDraw, device_heats, room};
use super::walls::{Hour, Wall, compartments, divider_conductance, walls};
use crate::{Case, PlacedDevice};

/// Inside air above this gets no figure, °C: surface films are those of buildings, and no cabinet is kept so warm.
/// Common practice, no source.
pub const WARMEST: f64 = 100.0;

/// What a compartment gains, apart from the sun.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Gains {
    /// Own heat of its devices, W.
    pub devices: f64,
    /// Losses of conversion in it, W.
    pub losses: f64,
    /// What its fans and exchangers draw, W.
    pub fans: f64,
}

impl Gains {
    /// All of it, W.
    #[must_use]
    pub fn sum(self) -> f64 {
        self.devices + self.losses + self.fans
    }
}

/// The hour for one exposure.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// The exposure.
    pub exposure: Exposure,
    /// Sun on each compartment, W.
    pub sun: Vec<f64>,
    /// The compartments as the balance sees them.
    pub compartments: Vec<balance::Compartment>,
    /// Inside air of each, °C.
    pub air: Vec<f64>,
}

/// The hottest hour.
#[derive(Clone, Debug, PartialEq)]
pub struct Hottest<'a> {
    /// Outdoor air.
    pub outside: Celsius,
    /// Outer faces.
    pub walls: Vec<Wall>,
    /// Paint and shield.
    pub surface: Surface,
    /// Gains of each compartment.
    pub gains: Vec<Gains>,
    /// Units.
    pub units: Vec<CoolingUnit<'a>>,
    /// Conductance of the divider, W/K; 0 without one.
    pub divider: f64,
    /// One solution for each exposure.
    pub ways: Vec<Way>,
}

impl Way {
    /// Inside air of the other compartment, °C, when there is one.
    #[must_use]
    pub fn other_air(&self, compartment: usize) -> Option<f64> {
        (self.air.len() == 2).then(|| self.air[1 - compartment.min(1)])
    }
}

/// What the inside air of a compartment comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Air {
    /// This.
    At(Celsius),
    /// Somewhere above this, where a unit's map or the method itself ends.
    Above(Celsius),
    /// Another compartment lies beyond its map, and heat passes between the two.
    Unknown,
}

impl<'a> Hottest<'a> {
    /// Solves the hour.
    ///
    /// # Errors
    /// When something is missing or out of range.
    pub fn of(case: &Case<'a>) -> Result<Self, Gap> {
        let brief = &case.project.brief;
        let walls = walls(case)?;
        let units = cooling_units(case)?;
        let surface = surface(case)?;
        if case.devices.len() < case.project.build.devices.len() {
            return Err(Gap::NeedsData(case.missing_parts()));
        }
        let draws: Vec<UnitDraw> = units.iter().map(CoolingUnit::draw).collect();
        let gains = gains(&device_heats(case, Draw::Most, &draws), &units, compartments(case));
        let divider = divider_conductance(case);
        let mut hour = Self { outside: brief.hottest, walls, surface, gains, units, divider, ways: Vec::new() };
        for exposure in exposures(brief.installation, brief.sun) {
            let way = hour.way(exposure);
            if way.air.iter().any(|air| !air.is_finite()) {
                return Err(Gap::OutOfRange("figures beyond any cabinet".into()));
            }
            hour.ways.push(way);
        }
        Ok(hour)
    }

    /// The same hour with a full shield.
    #[must_use]
    pub fn with_full_shield(&self) -> Self {
        let mut hour = self.clone();
        for wall in &mut hour.walls {
            wall.shielded |= wall.face != Face::Bottom;
        }
        hour.ways = self.ways.iter().map(|way| hour.way(way.exposure.clone())).collect();
        hour
    }

    fn way(&self, exposure: Exposure) -> Way {
        let sun: Vec<f64> =
            (0..self.gains.len()).map(|index| self.surface.gain_of(&self.walls, index, &exposure)).collect();
        let compartments: Vec<_> = (0..self.gains.len())
            .map(|index| balance::Compartment {
                gain: self.gains[index].sum() + sun[index],
                conductance: conductance(&self.walls, index, &exposure),
                movers: self.units_of(index).map(|unit| unit.mover.clone()).collect(),
            })
            .collect();
        let air = inside_air(&compartments, self.divider, self.outside.0);
        Way { exposure, sun, compartments, air }
    }

    /// The units that serve a compartment.
    pub fn units_of(&self, compartment: usize) -> impl Iterator<Item = &CoolingUnit<'a>> {
        self.units.iter().filter(move |unit| unit.compartment == compartment)
    }

    /// The exposure that makes a compartment hottest.
    #[must_use]
    pub fn worst(&self, compartment: usize) -> &Way {
        let mut worst = &self.ways[0];
        for way in &self.ways[1..] {
            if way.air[compartment] > worst.air[compartment] {
                worst = way;
            }
        }
        worst
    }

    /// Heat that passes from a compartment with this inside air to the other one, W.
    #[must_use]
    pub fn to_other(&self, way: &Way, compartment: usize, inside: f64) -> f64 {
        way.other_air(compartment).map_or(0.0, |other| self.divider * (inside - other))
    }

    /// Heat that units would have to move out of a compartment to hold an inside temperature (°C), W.
    #[must_use]
    pub fn heat_to_move(&self, way: &Way, compartment: usize, inside: f64) -> f64 {
        let own = &way.compartments[compartment];
        own.gain - own.conductance * (inside - self.outside.0) - self.to_other(way, compartment, inside)
    }

    /// Inside air of a compartment for the exposure that makes it hottest.
    #[must_use]
    pub fn air(&self, compartment: usize) -> Air {
        let way = self.worst(compartment);
        let end = |index: usize| way.compartments[index].covered_to().min(WARMEST);
        if way.air[compartment] > end(compartment) {
            return Air::Above(Celsius(end(compartment)));
        }
        let beyond = (0..way.air.len()).any(|index| way.air[index] > end(index));
        if beyond && self.divider > 0.0 { Air::Unknown } else { Air::At(Celsius(way.air[compartment])) }
    }
}

/// Conductance of a compartment's outer faces at the hottest hour, W/K.
#[must_use]
pub fn conductance(walls: &[Wall], compartment: usize, exposure: &Exposure) -> f64 {
    let own = walls.iter().filter(|wall| wall.compartment == compartment);
    own.map(|wall| wall.conductance(Hour::Hottest, exposure.covered.contains(&wall.face))).sum()
}

fn gains(devices: &[DeviceHeat], units: &[CoolingUnit], count: usize) -> Vec<Gains> {
    let mut gains = vec![Gains::default(); count];
    for heat in devices {
        if let Room::Compartment(index) = heat.room {
            gains[index].devices += heat.own;
            gains[index].losses += heat.losses;
        }
    }
    for unit in units {
        gains[unit.compartment].fans += unit.own_heat();
    }
    gains
}

/// A device that sets a limit.
#[derive(Clone, Copy, Debug)]
pub struct Limited<'c, 'a> {
    /// The device.
    pub device: &'c PlacedDevice<'a>,
    /// Where it stands.
    pub room: Room,
    /// The most its inlet air may have.
    pub limit: Celsius,
}

/// The placed devices that say how warm their inlet air may be.
#[must_use]
pub fn limited<'c, 'a>(case: &'c Case<'a>) -> Vec<Limited<'c, 'a>> {
    let with_limit = |device: &'c PlacedDevice<'a>| {
        Some(Limited { device, room: room(case, device)?, limit: device.spec.inlet_max? })
    };
    case.devices.iter().filter_map(with_limit).collect()
}

/// The placed devices that give heat in a compartment and do not say how warm their inlet air may be.
#[must_use]
pub fn silent<'c, 'a>(case: &'c Case<'a>) -> Vec<&'c PlacedDevice<'a>> {
    let says_nothing = |device: &&PlacedDevice<'a>| {
        let powered = device.spec.worst_power().0 > 0.0 || device.spec.converts.is_some();
        powered && device.spec.inlet_max.is_none() && room(case, device).is_some()
    };
    case.devices.iter().filter(says_nothing).collect()
}

/// The device with the lowest limit in a compartment.
#[must_use]
pub fn lowest_limit<'c, 'a>(limited: &[Limited<'c, 'a>], compartment: usize) -> Option<Limited<'c, 'a>> {
    let mut lowest: Option<Limited> = None;
    for one in limited.iter().filter(|one| one.room == Room::Compartment(compartment)) {
        if lowest.is_none_or(|lowest| one.limit < lowest.limit) {
            lowest = Some(*one);
        }
    }
    lowest
}

/// The number of the lowest-limit device, for a finding's subject.
#[must_use]
pub fn id_of(limited: &Limited) -> ItemId {
    limited.device.fitted.id
}
