//! Whether a plant makes sense, before a run.

use catalogue::UnitMap;

use super::{Duty, Fault, Input, Mover, Plant, Unit};

/// Least distance between the on and off temperature of a thermostat, K.
const NARROWEST_BAND: f64 = 0.1;

const ABOVE_NOTHING: &str = "a number above 0";
const NOT_BELOW_NOTHING: &str = "0 or more";
const A_TEMPERATURE: &str = "−90 to 200 °C";

/// The parameters of one place, each refused in the same way.
struct Place(String);

impl Place {
    fn refused<T>(&self, what: &'static str, value: f64, allowed: &'static str) -> Result<T, Fault> {
        Err(Fault::Parameter { place: self.0.clone(), what, value, allowed })
    }

    fn demand(&self, fits: bool, what: &'static str, value: f64, allowed: &'static str) -> Result<(), Fault> {
        if fits && value.is_finite() { Ok(()) } else { self.refused(what, value, allowed) }
    }

    fn not_below_nothing(&self, what: &'static str, value: f64) -> Result<(), Fault> {
        self.demand(value >= 0.0, what, value, NOT_BELOW_NOTHING)
    }

    fn above_nothing(&self, what: &'static str, value: f64) -> Result<(), Fault> {
        self.demand(value > 0.0, what, value, ABOVE_NOTHING)
    }

    fn temperature(&self, what: &'static str, value: f64) -> Result<(), Fault> {
        self.demand(super::MEANINGFUL_AIR.contains(&value), what, value, A_TEMPERATURE)
    }
}

impl Plant {
    /// Whether the engine can reckon with it.
    ///
    /// # Errors
    /// The first parameter that makes no sense, with what is allowed.
    pub fn check(&self) -> Result<(), Fault> {
        let whole = Place("the plant".to_owned());
        let rooms = self.rooms.len();
        whole.demand((1..=2).contains(&rooms), "number of rooms", rooms as f64, "1 or 2")?;
        whole.not_below_nothing("conductance of the divider", self.divider)?;
        for (number, room) in (1..).zip(&self.rooms) {
            let place = Place(format!("room {number}"));
            place.above_nothing("heat capacity of the air", room.air_capacity)?;
            place.above_nothing("heat capacity of the mass", room.mass_capacity)?;
            place.not_below_nothing("exchange between air and mass", room.exchange)?;
            place.demand(true, "heat into the air", room.heat_to_air, "a number")?;
            place.demand(true, "heat into the mass", room.heat_to_mass, "a number")?;
        }
        for (number, unit) in (1..).zip(&self.units) {
            check_unit(unit, rooms, &Place(format!("unit {number}")))?;
        }
        Ok(())
    }
}

fn check_unit(unit: &Unit, rooms: usize, place: &Place) -> Result<(), Fault> {
    place.demand(unit.room < rooms, "room", unit.room as f64, "a room of the plant, counted from 0")?;
    match unit.duty {
        Duty::Cools { on, off, least_off } => {
            place.temperature("on temperature", on)?;
            place.temperature("off temperature", off)?;
            place.demand(
                on - off >= NARROWEST_BAND,
                "off temperature",
                off,
                "at least 0.1 K below the on temperature",
            )?;
            place.not_below_nothing("least off time", least_off)?;
        }
        Duty::Heats { on, off, least_off } => {
            place.temperature("on temperature", on)?;
            place.temperature("off temperature", off)?;
            place.demand(
                off - on >= NARROWEST_BAND,
                "off temperature",
                off,
                "at least 0.1 K above the on temperature",
            )?;
            place.not_below_nothing("least off time", least_off)?;
        }
    }
    match &unit.mover {
        Mover::Linear(conductance) => {
            place.not_below_nothing("heat moved for each K", *conductance)?;
            if let Duty::Heats { .. } = unit.duty {
                return place.refused("heat moved for each K", *conductance, "a unit that cools");
            }
        }
        Mover::Map { map, share } => {
            place.not_below_nothing("share left of the map", *share)?;
            check_map(map, place)?;
        }
    }
    match (unit.input, &unit.mover) {
        (Input::Constant(watts), _) => place.not_below_nothing("input", watts),
        (Input::OfMap, Mover::Map { .. }) => Ok(()),
        (Input::OfMap, _) => place.refused("input", f64::NAN, "a number of watts, as there is no map"),
    }
}

fn check_map(map: &UnitMap, place: &Place) -> Result<(), Fault> {
    for (what, list) in
        [("inside temperatures of the map", &map.inside), ("outside temperatures of the map", &map.outside)]
    {
        let Some(first) = list.first() else { return place.refused(what, f64::NAN, "one or more, rising") };
        place.demand(true, what, *first, "numbers, rising")?;
        for pair in list.windows(2) {
            place.demand(pair[1] > pair[0], what, pair[1], "numbers, rising")?;
        }
    }
    for (what, rows) in [("capacities of the map", &map.capacity), ("inputs of the map", &map.input)] {
        place.demand(rows.len() == map.inside.len(), what, rows.len() as f64, "one row for each inside temperature")?;
        for row in rows {
            place.demand(row.len() == map.outside.len(), what, row.len() as f64, "one for each outside temperature")?;
            for value in row {
                place.not_below_nothing(what, *value)?;
            }
        }
    }
    Ok(())
}
