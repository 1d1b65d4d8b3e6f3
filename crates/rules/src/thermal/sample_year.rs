//! A year of invented weather and an invented cabinet of two rooms, for the engine's own tests.

use catalogue::UnitMap;

use super::{Boundary, Duty, Input, Mover, Plant, Room, Surroundings, Unit};

/// Hours of invented weather.
pub struct Invented {
    outside: Vec<f64>,
    sun: Vec<f64>,
    wind: Vec<f64>,
    /// Steps in an hour.
    pub parts: usize,
    /// Whether the inside film follows the inside air.
    pub films: bool,
}

impl Invented {
    /// A year with a warm summer, or so many hours from its start.
    pub fn hours(hours: usize) -> Self {
        let (mut outside, mut sun, mut wind) = (Vec::new(), Vec::new(), Vec::new());
        let mut random = 12_345_u64;
        let mut weather = 0.0;
        for hour in 0..hours {
            random = random.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let chance = (random >> 33) as f64 / (1_u64 << 31) as f64;
            weather = 0.98 * weather + (chance - 0.5);
            let turn = std::f64::consts::TAU;
            let season = -libm::cos(turn * hour as f64 / 8760.0);
            let day = libm::sin(turn * (hour as f64 - 9.0) / 24.0);
            outside.push(18.0 + 12.0 * season + 6.0 * day + 2.0 * weather);
            sun.push(
                (250.0 + 100.0 * season) * libm::sin(turn * (hour as f64 - 6.0) / 24.0).max(0.0) * (0.4 + 0.6 * chance),
            );
            wind.push(1.0 + 5.0 * chance);
        }
        Self { outside, sun, wind, parts: 1, films: true }
    }
}

impl Surroundings for Invented {
    fn steps(&self) -> usize {
        self.outside.len() * self.parts
    }

    fn step_seconds(&self) -> f64 {
        3600.0 / self.parts as f64
    }

    fn outside(&self, step: usize) -> f64 {
        self.outside[step / self.parts]
    }

    fn boundary(&self, step: usize, room: usize, inside_air: f64) -> Boundary {
        let hour = step / self.parts;
        let (outside, sun) = (self.outside[hour], self.sun[hour] * if room == 0 { 1.0 } else { 0.7 });
        let inside_film = if self.films { 1.5 + 0.5 * (inside_air - outside).abs().sqrt() } else { 3.0 };
        let outside_film = 8.0 + 3.0 * self.wind[hour];
        let conductance = 5.0 / (1.0 / inside_film + 1.0 / outside_film);
        Boundary {
            air_source: conductance * (outside + sun / (5.0 * outside_film)),
            air_conductance: conductance,
            mass_source: 0.0,
            mass_conductance: 0.0,
        }
    }
}

/// A map of so many W for each K from 0 to 60 °C inside, and from −30 to 50 °C outside.
fn exchanger_map(conductance: f64) -> UnitMap {
    let inside: Vec<f64> = (0..=12).map(|step| 5.0 * f64::from(step)).collect();
    let outside: Vec<f64> = (0..=8).map(|step| 10.0 * f64::from(step) - 30.0).collect();
    let table = |of: &dyn Fn(f64, f64) -> f64| -> Vec<Vec<f64>> {
        inside.iter().map(|inside| outside.iter().map(|outside| of(*inside, *outside)).collect()).collect()
    };
    let capacity = table(&|inside, outside| conductance * (inside - outside).max(0.0));
    let input = table(&|_, _| 60.0);
    UnitMap { capacity, input, inside, outside }
}

/// A map of a unit that knows no inside air: so many W at an outdoor air, and a share of it more for each K above that.
pub fn steady_map(heat: f64, share_per_kelvin: f64, reference: f64) -> UnitMap {
    let outside = vec![-60.0, 60.0];
    let row: Vec<f64> = outside.iter().map(|air| heat * (1.0 + share_per_kelvin * (air - reference))).collect();
    UnitMap { inside: vec![-90.0, 200.0], input: vec![vec![0.0; 2]; 2], capacity: vec![row; 2], outside }
}

/// A map of a cooling unit from 20 to 50 °C inside and −20 to 55 °C outside.
fn conditioner_map(rated: f64) -> UnitMap {
    let inside = vec![20.0, 25.0, 30.0, 35.0, 40.0, 50.0];
    let outside = vec![-20.0, 20.0, 35.0, 50.0, 55.0];
    let table = |of: &dyn Fn(f64, f64) -> f64| -> Vec<Vec<f64>> {
        inside.iter().map(|inside| outside.iter().map(|outside| of(*inside, *outside)).collect()).collect()
    };
    let capacity = table(&|inside, outside| rated * (1.0 + 0.02 * (inside - 35.0) - 0.008 * (outside - 35.0)));
    let input = table(&|_, outside| rated * (0.4 + 0.004 * (outside - 35.0)));
    UnitMap { capacity, input, inside, outside }
}

/// Two rooms: one with exchanger, conditioner and heater, one with a conditioner.
pub fn plant() -> Plant {
    let room = |heat| Room {
        air_capacity: 25e3,
        mass_capacity: 400e3,
        exchange: 60.0,
        heat_to_air: 0.4 * heat,
        heat_to_mass: 0.6 * heat,
    };
    let unit = |room, duty, mover, input| Unit { room, duty, mover, input, input_inside: false };
    let map = |map| Mover::Map { map, share: 0.95 };
    Plant {
        rooms: vec![room(500.0), room(350.0)],
        divider: 6.0,
        units: vec![
            unit(0, Duty::Cools { on: 28.0, off: 22.0, least_off: 60.0 }, map(exchanger_map(40.0)), Input::OfMap),
            unit(0, Duty::Cools { on: 35.0, off: 30.0, least_off: 180.0 }, map(conditioner_map(1000.0)), Input::OfMap),
            unit(
                0,
                Duty::Heats { on: 5.0, off: 10.0, least_off: 0.0 },
                Mover::Map { map: steady_map(300.0, 0.0, 0.0), share: 1.0 },
                Input::Constant(300.0),
            ),
            unit(1, Duty::Cools { on: 35.0, off: 30.0, least_off: 180.0 }, map(conditioner_map(800.0)), Input::OfMap),
        ],
    }
}

/// The same rooms with little in them and much heat: units start a dozen times an hour, and wait for it.
pub fn light() -> Plant {
    let mut plant = plant();
    for room in &mut plant.rooms {
        (room.air_capacity, room.mass_capacity, room.exchange) = (9e3, 50e3, 125.0);
        (room.heat_to_air, room.heat_to_mass) = (500.0, 50.0);
    }
    plant.divider = 3.0;
    plant.units.remove(0);
    plant
}
