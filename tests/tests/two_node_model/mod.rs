//! The reference's two-node cabinet as the engine takes it.

mod steps;
mod units;

use rules::thermal::{Boundary, Duty, Input, Mover, Plant, Room, Temperatures, Unit};
use serde_json::Value;

pub use steps::Steps;
use units::{ALWAYS, moving};

/// The reference's parameters of one case.
pub struct Parameters<'v>(pub &'v Value);

/// Exchanger, air conditioner and heater, each with the name it has in the reference.
pub const UNITS: [&str; 3] = ["hx", "ac", "heater"];

impl Parameters<'_> {
    pub fn number(&self, name: &str) -> f64 {
        self.0[name].as_f64().unwrap_or_else(|| panic!("{name} in {}", self.0))
    }

    /// The units of the case, each with its name.
    fn units(&self) -> Vec<(&'static str, Unit)> {
        let unit = |duty, mover| Unit { room: 0, duty, mover, input: Input::Constant(0.0), input_inside: false };
        let cools = |on, off| Duty::Cools { on: self.number(on), off: self.number(off), least_off: 0.0 };
        let mut units = Vec::new();
        let kept = self.0["hx"].as_str().expect("how the exchanger is kept");
        if kept != "none" {
            let duty = if kept == "always" { ALWAYS } else { cools("hx_on", "hx_off") };
            units.push((UNITS[0], unit(duty, Mover::Linear(self.number("Kx")))));
        }
        if self.number("Qc") > 0.0 {
            let mover = moving(self.number("Qc"), self.number("ac_slope_per_k"), self.number("ac_ref_c"));
            units.push((UNITS[1], unit(cools("ac_on", "ac_off"), mover)));
        }
        if self.number("Qh") > 0.0 {
            let duty = Duty::Heats { on: self.number("heat_on"), off: self.number("heat_off"), least_off: 0.0 };
            units.push((UNITS[2], unit(duty, moving(self.number("Qh"), 0.0, 0.0))));
        }
        units
    }

    /// The names of the units, in the order of the plant.
    pub fn unit_names(&self) -> Vec<&'static str> {
        self.units().into_iter().map(|(name, _)| name).collect()
    }

    pub fn plant(&self) -> Plant {
        let room = Room {
            air_capacity: self.number("Ca"),
            mass_capacity: self.number("Cm"),
            exchange: self.number("G"),
            heat_to_air: self.number("Pa"),
            heat_to_mass: self.number("Pm"),
        };
        Plant { rooms: vec![room], divider: 0.0, units: self.units().into_iter().map(|(_, unit)| unit).collect() }
    }

    pub fn start(&self) -> [Temperatures; 1] {
        [Temperatures { air: self.number("Ta0"), mass: self.number("Tm0") }]
    }

    /// What acts on the room at this outdoor air (°C), sun (W) and further heat into the air (W).
    pub fn boundary(&self, outside: f64, sun: f64, more: f64) -> Boundary {
        let (air, mass, share) = (self.number("Kw"), self.number("Kmo"), self.number("fa"));
        Boundary {
            air_source: air * outside + share * sun + more,
            air_conductance: air,
            mass_source: mass * outside + (1.0 - share) * sun,
            mass_conductance: mass,
        }
    }
}
