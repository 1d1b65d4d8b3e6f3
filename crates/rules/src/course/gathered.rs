//! From the columns of a run to what a course says of rooms, devices, units and batteries.
//!
//! Hours above a limit count the part of each hour in which the air was above it, as if the air had gone evenly from the
//! hour's lowest to its highest.
//!
//! ageing = mean of 2^((T − 25)/10)
//!
//! A battery has the temperature of the masses of its room, in the plinth that of the outdoor air, hour by hour.

use std::ops::RangeInclusive;

use catalogue::DeviceKind;

use super::duty::Runs;
use super::envelope::Outdoors;
use super::limits::Limits;
use super::moment::{LIT_FACES, Moment};
use super::{BatteryYear, DeviceYear, Peak, Room, RoomYear, Series, Span, UnitYear};
use crate::Case;
use crate::heat::formulas::unit_map::Curve;
use crate::heat::heat_sources::{Room as Place, room};
use crate::thermal::{Duty, Input, Mover, Plant, Run, Surroundings, Unit};

/// J in a kWh.
const KILOWATT_HOUR: f64 = 3.6e6;

/// A span of a run over moments, one step to each.
#[must_use]
pub fn span(moments: &[Moment], run: &Run, step_hours: f64) -> Span {
    let of = |value: fn(&Moment) -> f64| moments.iter().map(value).collect::<Series>();
    let column = |values: &Vec<f64>| values.iter().copied().collect::<Series>();
    Span {
        step: step_hours,
        outside: of(|moment| moment.outside),
        sun: of(|moment| moment.global),
        sun_height: of(|moment| moment.sun_height),
        sun_bearing: of(|moment| moment.sun_bearing),
        faces: (0..LIT_FACES).map(|face| moments.iter().map(|moment| moment.on_face(face)).collect()).collect(),
        air: run.rooms.iter().map(|room| column(&room.mean)).collect(),
        highest: run.rooms.iter().map(|room| column(&room.highest)).collect(),
        duty: run.units.iter().map(|unit| column(&unit.duty)).collect(),
    }
}

/// Lowest and highest air of each hour: of a room, or of the outdoors.
struct Air<'r> {
    lowest: &'r [f64],
    highest: &'r [f64],
}

impl Air<'_> {
    /// Hours above a limit.
    fn above(&self, limit: f64) -> f64 {
        let share = |(low, high): (&f64, &f64)| {
            if *high <= limit {
                0.0
            } else if *low >= limit {
                1.0
            } else {
                (high - limit) / (high - low)
            }
        };
        self.lowest.iter().zip(self.highest).map(share).sum()
    }

    /// Hours below a limit.
    fn below(&self, limit: f64) -> f64 {
        let at = self.lowest.iter().zip(self.highest).filter(|(low, high)| **low == limit && **high == limit).count();
        self.lowest.len() as f64 - self.above(limit) - at as f64
    }

    fn ends(&self) -> (f64, f64) {
        let lowest = self.lowest.iter().copied().fold(f64::INFINITY, f64::min);
        (lowest, self.highest.iter().copied().fold(f64::NEG_INFINITY, f64::max))
    }
}

/// Place of the first greatest value.
fn greatest(values: impl Iterator<Item = f64>) -> usize {
    let mut best = (0, f64::NEG_INFINITY);
    for (index, value) in values.enumerate() {
        if value > best.1 {
            best = (index, value);
        }
    }
    best.0
}

fn hour(index: usize) -> u32 {
    u32::try_from(index).unwrap_or(u32::MAX)
}

/// What each room went through.
#[must_use]
pub fn room_years(rooms: &[Room], limits: &[Limits], moments: &[Moment], run: &Run) -> Vec<RoomYear> {
    let outside: Vec<f64> = moments.iter().map(|moment| moment.outside).collect();
    let outdoors = Air { lowest: &outside, highest: &outside };
    let outdoor_ends = outdoors.ends();
    let mut years = Vec::new();
    for (index, (room, column)) in rooms.iter().zip(&run.rooms).enumerate() {
        let air = Air { lowest: &column.lowest, highest: &column.highest };
        let (lowest, highest) = air.ends();
        // A device in the plinth is told with the first room.
        let own = limits.iter().filter(|device| device.room.map_or(index == 0, |room| room == index));
        let devices = own.map(|device| {
            let (air, (lowest, highest)) =
                if device.room.is_some() { (&air, (lowest, highest)) } else { (&outdoors, outdoor_ends) };
            DeviceYear {
                id: device.id,
                highest,
                lowest,
                hours_above: device.most.map(|limit| air.above(limit)),
                hours_below: device.least.map(|limit| air.below(limit)),
            }
        });
        years.push(RoomYear {
            highest,
            highest_at: hour(greatest(column.highest.iter().copied())),
            lowest,
            lowest_at: hour(greatest(column.lowest.iter().map(|air| -air))),
            mean: mean(&column.mean),
            hours_above: room.hot_limit.map(|limit| air.above(limit)),
            hours_below: air.below(room.cold_limit),
            devices: devices.collect(),
        });
    }
    years
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len().max(1) as f64
}

/// What a unit's own map covers, °C: beyond it a unit that runs is no longer what its maker says.
#[derive(Clone, Debug)]
pub struct Covers {
    inside: RangeInclusive<f64>,
    outside: RangeInclusive<f64>,
}

impl Covers {
    /// The ends at which the balance has a unit run on: of a map read point by point the warm end of the inside air, of a
    /// unit that follows a law all of them.
    #[must_use]
    pub fn of(runs: &Runs<'_>) -> Self {
        let ends = |list: &[f64]| match list {
            [first, .., last] => *first..=*last,
            [only] => *only..=*only,
            [] => f64::NEG_INFINITY..=f64::INFINITY,
        };
        let (inside, outside) = (ends(&runs.spec.map.inside), ends(&runs.spec.map.outside));
        match runs.unit.mover {
            Mover::Linear(_) => Self { inside, outside },
            Mover::Map { .. } => {
                Self { inside: f64::NEG_INFINITY..=*inside.end(), outside: f64::NEG_INFINITY..=f64::INFINITY }
            }
        }
    }
}

/// What each unit did; `covers` says for each where its map ends, `month_ends` what each had used at the end of each
/// month, J.
#[must_use]
pub fn unit_years(
    plant: &Plant,
    covers: &[Covers],
    moments: &[Moment],
    run: &Run,
    month_ends: &[Vec<f64>],
) -> Vec<UnitYear> {
    let units = plant.units.iter().zip(covers).zip(&run.units).enumerate();
    units
        .map(|(number, ((unit, covers), ran))| {
            let used = |ends: Option<&Vec<f64>>| ends.and_then(|ends| ends.get(number)).copied().unwrap_or(0.0);
            let in_month = |month: usize| {
                used(month_ends.get(month)) - used(month.checked_sub(1).and_then(|before| month_ends.get(before)))
            };
            let room = &run.rooms[unit.room];
            let within = |hour: usize| {
                let air = [room.lowest[hour], room.highest[hour]];
                air.iter().all(|air| covers.inside.contains(air)) && covers.outside.contains(&moments[hour].outside)
            };
            let beyond = (0..moments.len()).filter(|hour| ran.duty[*hour] > 0.0 && !within(*hour)).count();
            UnitYear {
                starts: ran.starts,
                most_starts: ran.most_starts,
                hours: ran.seconds / 3600.0,
                heat: ran.heat / KILOWATT_HOUR,
                electricity: ran.electricity / KILOWATT_HOUR,
                electricity_by_month: std::array::from_fn(|month| in_month(month) / KILOWATT_HOUR),
                hours_beyond_map: ran.refused + hour(beyond),
            }
        })
        .collect()
}

/// Where the heat of the hottest hour of each room came from.
#[must_use]
pub fn peaks(plant: &Plant, outdoors: &Outdoors<'_>, years: &[RoomYear], run: &Run) -> Vec<Peak> {
    let mut peaks = Vec::new();
    for (index, year) in years.iter().enumerate() {
        let (room, column, at) = (&plant.rooms[index], &run.rooms[index], year.highest_at as usize);
        let air = column.mean[at];
        let outside = outdoors.outside(at);
        let sun = outdoors.through(at, index, air).sun;
        let devices = room.heat_to_air + room.heat_to_mass;
        let divider = match run.rooms.get(1 - index.min(1)).filter(|_| run.rooms.len() == 2) {
            Some(other) => plant.divider * (other.mean[at] - air),
            None => 0.0,
        };
        let units: f64 = (plant.units.iter().zip(&run.units))
            .filter(|(unit, _)| unit.room == index)
            .map(|(unit, ran)| {
                let moved = ran.heat_flow[at];
                let heats = matches!(unit.duty, Duty::Heats { .. });
                let input = if unit.input_inside { input(unit, air, outside) * ran.duty[at] } else { 0.0 };
                if heats { moved + input } else { input - moved }
            })
            .sum();
        // What was kept at the end of the hour before and is not at the end of this one.
        let before = at.checked_sub(1);
        let kept = |values: &[f64]| before.map_or(0.0, |before| values[before] - values[at]);
        let stored = (room.air_capacity * kept(&column.end) + room.mass_capacity * kept(&column.mass_end)) / 3600.0;
        let envelope = -(devices + sun + divider + units + stored);
        peaks.push(Peak { hour: year.highest_at, devices, sun, envelope, divider, units, stored });
    }
    peaks
}

/// What a unit draws while it runs, W, at an inside and an outside temperature.
fn input(unit: &Unit, inside: f64, outside: f64) -> f64 {
    match (unit.input, &unit.mover) {
        (Input::Constant(watts), _) => watts,
        (Input::OfMap, Mover::Map { map, .. }) => {
            Curve::of(map, &map.input, outside).and_then(|curve| curve.at(inside)).unwrap_or(0.0)
        }
        (Input::OfMap, _) => 0.0,
    }
}

/// The temperature of each battery over the year.
#[must_use]
pub fn batteries(case: &Case, moments: &[Moment], run: &Run) -> Vec<BatteryYear> {
    let mut years = Vec::new();
    for device in case.devices.iter().filter(|device| device.spec.kind == DeviceKind::Battery) {
        let values: Vec<f64> = match room(case, device) {
            None => continue,
            Some(Place::Plinth) => moments.iter().map(|moment| moment.outside).collect(),
            Some(Place::Compartment(index)) => run.rooms[index].mass_end.clone(),
        };
        let air = Air { lowest: &values, highest: &values };
        let (lowest, highest) = air.ends();
        // ageing = mean of 2^((T − 25)/10)
        let ageing = values.iter().map(|t| libm::exp2((t - 25.0) / 10.0)).sum::<f64>() / values.len().max(1) as f64;
        let hours_below_freezing = values.iter().filter(|t| **t < 0.0).count() as f64;
        years.push(BatteryYear {
            id: device.fitted.id,
            mean: mean(&values),
            highest,
            lowest,
            ageing,
            hours_below_freezing,
        });
    }
    years
}
