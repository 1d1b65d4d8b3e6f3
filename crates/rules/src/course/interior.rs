//! What is inside a room: air, masses, and the heat the devices give off.
//!
//! C_a = [`AIR_FACTOR`] · ρ · c_p · V + [`THIN`] · Σ m · c
//! C_m = (1 − [`THIN`]) · Σ m · c + Σ m_b · c + m_f · c_f,  G = h · (Σ A_box + m_f · a) + [`WASHED`] · ρ · c_p · Σ V̇
//!
//! - V        inside the skin of the room, less the boxes of its devices    [m³]
//! - m, m_b   mass of each device, and of each battery                      [kg]
//! - c        specific heat of it                                           [J/(kg·K)]
//! - m_f, c_f rails, frame and fittings, steel: 2 mm sheet, bare on both sides
//! - A_box    surface of each device's box                                  [m²]
//! - h        still film inside                                             [W/(m²·K)]
//! - V̇        air that the devices blow through themselves                  [m³/s]
//!
//! A device that blows its own air gives its heat to the air; a still one and a battery warm up themselves first, and pass
//! it on by their surface. A device in the plinth is in a room of its own at outdoor temperature.
//!
//! Source:      specific heats and the air's factor: common practice, no source. Electronics [`ELECTRONICS`] lie between
//!              steel (460), aluminium (900) and board (1100); batteries [`BATTERY`]. The factor stands for what follows the
//!              air at once: cables, brackets, the coil of a unit; building simulation multiplies a room's air likewise. Of a
//!              device a quarter is taken to be thin sheet and fins that follow the air in a minute or two.
//!              Of the air a device blows through itself half is taken to come out as warm as its metal.
//! Valid for:   air well mixed, devices of one temperature each room.
//! Agreement:   the two-node model against tests/reference/thermal_two_node_*.csv (`thermal`).
//! Not covered: a battery's own temperature apart from the other masses, the skin's heat, layers of warmer air.
//!
//! A device without a stated mass counts as none: peaks then come out higher, and lows lower.

use catalogue::{AirDirection, Device, DeviceKind};
use units::Celsius;

use crate::backup::loads::kept_heats;
use crate::heat::heat_sources::{Draw, Room as Place, UnitDraw, device_heats, room};
use crate::heat::walls::compartments;
use crate::{Case, thermal};

/// How much more heat than the air alone the air node keeps.
const AIR_FACTOR: f64 = 5.0;
/// Share of a device that follows the air at once: its thin sheet.
const THIN: f64 = 0.25;
/// Specific heat of electronics, J/(kg·K).
const ELECTRONICS: f64 = 700.0;
/// Specific heat of batteries, J/(kg·K).
const BATTERY: f64 = 1000.0;
/// Specific heat of steel, J/(kg·K), and surface of 2 mm sheet, m²/kg.
const STEEL: f64 = 460.0;
const SHEET: f64 = 2.0 / (7850.0 * 0.002);
/// Share of the air blown through a device that takes on the temperature of its metal.
const WASHED: f64 = 0.5;
/// Least volume of the air in a room, m³, whatever the boxes of its devices leave.
const LEAST_VOLUME: f64 = 0.05;
/// Least heat capacity of the masses, J/K: an empty cabinet still has something inside.
const LEAST_MASS: f64 = 1000.0;

/// Which heat the devices give off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Load {
    /// None: everything is off.
    Off,
    /// As the draw says.
    On(Draw),
    /// What goes on without supply at its most draw: with the strings on the bus, or once these give no more.
    Kept {
        /// Whether the strings are on the bus.
        strings: bool,
    },
}

/// The rooms of a case; `draws` are climate units, whose converters lose heat.
#[must_use]
pub fn rooms(case: &Case, load: Load, draws: &[UnitDraw], pressure: f64) -> Vec<thermal::Room> {
    let count = compartments(case);
    let mut rooms = vec![Inside::default(); count];
    let build = &case.project.build;
    if let (Some(layout), Some(family)) = (case.layout(), case.catalogue.families.get(&build.family)) {
        let inside = layout.inside.size();
        for (bay, planes) in layout.bays.iter().enumerate() {
            let room = &mut rooms[bay.min(count - 1)];
            room.volume += (planes.right - planes.left) * inside.y * inside.z * 1e-9;
            let fittings = family.fittings_per_unit.0 * f64::from(build.units);
            room.add_mass(fittings, STEEL, fittings * SHEET);
        }
    }
    for device in &case.devices {
        let (Some(Place::Compartment(index)), Some(space)) = (room(case, device), device.space) else { continue };
        let size = space.size();
        let surface = 2.0 * (size.x * size.y + size.y * size.z + size.z * size.x) * 1e-6;
        let (heat, thin) = if device.spec.kind == DeviceKind::Battery { (BATTERY, 0.0) } else { (ELECTRONICS, THIN) };
        let mass = device.spec.mass.map_or(0.0, |mass| mass.0);
        rooms[index].add_mass(mass * (1.0 - thin), heat, surface);
        rooms[index].thin += mass * thin * heat;
        rooms[index].volume -= size.x * size.y * size.z * 1e-9;
        rooms[index].airflow += device.spec.airflow.0 / 3600.0;
    }
    let mut give = |id, watts: f64| {
        let Some(device) = case.device(id) else { return };
        let Some(Place::Compartment(index)) = room(case, device) else { return };
        let to = if blows(device.spec) { &mut rooms[index].to_air } else { &mut rooms[index].to_mass };
        *to += watts;
    };
    match load {
        Load::Off => {}
        Load::On(draw) => {
            device_heats(case, draw, draws).into_iter().for_each(|heat| give(heat.id, heat.own + heat.losses));
        }
        Load::Kept { strings } => {
            kept_heats(case, strings).into_iter().for_each(|heat| give(heat.id, heat.watts));
        }
    }
    rooms.into_iter().map(|room| room.of_pressure(pressure)).collect()
}

/// Whether a device moves air through itself.
fn blows(device: &Device) -> bool {
    device.kind != DeviceKind::Battery && (device.air != AirDirection::Still || device.airflow.0 > 0.0)
}

#[derive(Clone, Copy, Debug, Default)]
struct Inside {
    volume: f64,
    capacity: f64,
    thin: f64,
    surface: f64,
    airflow: f64,
    to_air: f64,
    to_mass: f64,
}

impl Inside {
    fn add_mass(&mut self, mass: f64, heat: f64, surface: f64) {
        self.capacity += mass * heat;
        self.surface += surface;
    }

    fn of_pressure(self, pressure: f64) -> thermal::Room {
        let density = climate::density(pressure, Celsius(20.0)).unwrap_or(climate::RATED_AIR_DENSITY);
        // Heat a cubic metre of air carries for each kelvin.
        let carried = density * climate::SPECIFIC_HEAT;
        thermal::Room {
            air_capacity: AIR_FACTOR * carried * self.volume.max(LEAST_VOLUME) + self.thin,
            mass_capacity: self.capacity.max(LEAST_MASS),
            exchange: climate::INSIDE.coefficient * self.surface + WASHED * carried * self.airflow,
            heat_to_air: self.to_air,
            heat_to_mass: self.to_mass,
        }
    }
}

#[cfg(test)]
mod tests {
    use project::Place as At;
    use units::{Kilograms, Watts};

    use super::*;
    use crate::heat::testing::{Desk, device, rack};

    #[test]
    fn the_masses_come_out_by_hand() {
        let mut desk = Desk::new();
        desk.add(Device { power: Watts(100.0), ..device(1) }, rack(0, 1));
        let fan = Device { power: Watts(50.0), air: AirDirection::FrontToBack, ..device(2) };
        desk.add(fan, rack(0, 5));
        desk.add(Device { power: Watts(7.0), ..device(1) }, At::Unplaced);
        let room = desk.with(|case| rooms(case, Load::On(Draw::Most), &[], 101_325.0))[0];
        // Three quarters of 2 · 10 kg · 700, and 20 kg of fittings · 460
        assert!((room.mass_capacity - (0.75 * 2.0 * 7000.0 + 20.0 * 460.0)).abs() < 1e-6, "{room:?}");
        assert_eq!((room.heat_to_mass, room.heat_to_air), (100.0, 50.0));
        let off = desk.with(|case| rooms(case, Load::Off, &[], 101_325.0))[0];
        assert_eq!((off.heat_to_mass, off.heat_to_air, off.mass_capacity), (0.0, 0.0, room.mass_capacity));
    }

    #[test]
    fn a_battery_warms_up_itself_and_the_plinth_is_outdoors() {
        let mut desk = Desk::new();
        let battery = Device {
            kind: DeviceKind::Battery,
            power: Watts(10.0),
            air: AirDirection::FrontToBack,
            mass: Some(Kilograms(30.0)),
            ..device(1)
        };
        desk.add(battery.clone(), rack(0, 1));
        let inside = |desk: &Desk| desk.with(|case| rooms(case, Load::On(Draw::Ordinary), &[], 101_325.0))[0];
        let before = inside(&desk);
        assert_eq!((before.heat_to_mass, before.heat_to_air), (10.0, 0.0));
        assert!((before.mass_capacity - (30.0 * 1000.0 + 20.0 * 460.0)).abs() < 1e-6);
        let place = desk.plinth();
        desk.add(battery, place);
        let after = inside(&desk);
        assert_eq!((after.mass_capacity, after.heat_to_mass), (before.mass_capacity, 10.0));
    }
}
