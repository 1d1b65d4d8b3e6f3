//! How warm the cells are.
//!
//! cold: T = T_cold + ΔT/2 in the plinth;  T = T_cold + ΔT/2 + (P_min + Q_heat) / U·A in the body, at most 25 °C
//!
//! - T_cold  outdoor air at the coldest hour                                   [°C]
//! - ΔT      daily range: cells are too heavy to follow the hours of a day     [K]
//! - P_min   heat of the devices in ordinary use                               [W]
//! - Q_heat  heaters, as far as their thermostats ask                          [W]
//! - U·A     conductance of the outer faces, winter film                       [W/K]
//!
//! Source:      heat balance as in H07; that cells stand at the mean of the coldest day is common practice, no source.
//! Valid for:   as H07; the supply fails after a day of ordinary use.
//! Agreement:   none outside; a calculation by hand beside this file.
//! Not covered: how the cells cool while they are discharged.

use catalogue::UnitSort;
use units::{Celsius, Kind, Value};

use crate::heat::cooling::{served, site_in_range};
use crate::heat::gap::Gap;
use crate::heat::heat_sources::{Draw, Room, device_heats, room};
use crate::heat::hottest::{Air, Hottest};
use crate::heat::walls::{Hour, compartments, conductance, walls};
use crate::network::NodeKind;
use crate::sources::{CATALOGUE, HEAT_BALANCE, PRACTICE};
use crate::{Case, PlacedDevice, Step};

/// Temperature at which capacities are rated; above it nothing is credited.
pub const RATED: Celsius = Celsius(25.0);

/// Temperature of the cells at the coldest hour, and how it comes about.
#[derive(Clone, Debug, PartialEq)]
pub struct Cold {
    /// Of the coldest battery.
    pub cells: Celsius,
    /// Working.
    pub steps: Vec<Step>,
}

/// Rooms in which batteries stand.
fn rooms(case: &Case) -> Vec<Room> {
    let device = |id| case.device(id).and_then(|device: &PlacedDevice<'_>| room(case, device));
    let batteries = case.network.of_kind(NodeKind::Battery);
    let mut rooms = Vec::new();
    for of in batteries.filter_map(|(_, node)| device(node.item()?)) {
        if !rooms.contains(&of) {
            rooms.push(of);
        }
    }
    rooms
}

/// The coldest cells of a case.
///
/// # Errors
/// When something is missing, or out of the range of the heat balance.
pub fn cold(case: &Case) -> Result<Cold, Gap> {
    let brief = &case.project.brief;
    site_in_range(case, brief.coldest)?;
    let mean = Celsius(brief.coldest.0 + brief.daily_range.0 / 2.0);
    let mut coldest: Option<Cold> = None;
    for room in rooms(case) {
        let here = match room {
            Room::Plinth => in_plinth(case, mean),
            Room::Compartment(index) => in_body(case, index, mean)?,
        };
        if coldest.as_ref().is_none_or(|coldest| here.cells < coldest.cells) {
            coldest = Some(here);
        }
    }
    Ok(coldest.unwrap_or_else(|| in_plinth(case, mean)))
}

fn of_day(case: &Case, mean: Celsius) -> Vec<Step> {
    let half = Value::new(case.project.brief.daily_range.0 / 2.0, Kind::TemperatureDifference);
    vec![
        Step::input("T_cold", "outdoor air, coldest hour", case.project.brief.coldest),
        Step::input("ΔT/2", "half the daily range; cells do not follow the hours of a day", half)
            .from_source(&PRACTICE),
        Step::input("T_mean", "outdoor air, mean of the coldest day", mean),
    ]
}

fn in_plinth(case: &Case, mean: Celsius) -> Cold {
    let cells = Celsius(mean.0.min(RATED.0));
    let mut steps = of_day(case, mean);
    steps.push(Step::input("T", "cells, in the plinth", cells));
    Cold { cells, steps }
}

fn in_body(case: &Case, index: usize, mean: Celsius) -> Result<Cold, Gap> {
    let walls = walls(case)?;
    let own = walls.iter().filter(|wall| wall.compartment == index);
    let ua: f64 = own.map(|wall| wall.conductance(Hour::Coldest, false)).sum();
    let heats = device_heats(case, Draw::Ordinary, &[]);
    let own = heats.iter().filter(|heat| heat.room == Room::Compartment(index));
    let devices: f64 = own.map(|heat| heat.own + heat.losses).sum();
    if !(ua > 0.0 && ua.is_finite() && devices.is_finite()) || index >= compartments(case) {
        return Err(Gap::OutOfRange("figures beyond any cabinet".into()));
    }
    let mut heat = 0.0;
    let heaters =
        case.units.iter().filter(|(fitted, spec)| spec.sort == UnitSort::Heater && served(case, fitted.at) == index);
    for (_, spec) in heaters {
        // The least of its map, which is the safe side.
        let most = spec.map.capacity.iter().flatten().copied().fold(f64::INFINITY, f64::min);
        // A heater warms the room no further than to where it stops: Q ≤ U·A · (T_set − T_mean) − P
        let asked = (ua * (spec.set_point.0 - mean.0) - devices - heat).max(0.0);
        heat += asked.min(if most.is_finite() { most } else { 0.0 });
    }
    let warm = mean.0 + (devices + heat) / ua;
    let cells = Celsius(warm.min(RATED.0));
    let watts = |number: f64| Value::new(number, Kind::Power);
    let mut steps = of_day(case, mean);
    steps.push(
        Step::input("P_min", "heat of the devices in ordinary use", watts(0.0 + devices)).from_source(&CATALOGUE),
    );
    steps.push(Step::input("Q_heat", "heaters, as far as they are asked", watts(heat)).from_source(&CATALOGUE));
    steps.push(Step::input("U·A", climate::OUTSIDE_WINTER.about, conductance(ua)));
    let numbers = crate::Phrase::new()
        .number(mean)
        .text(" + (")
        .number(watts(devices))
        .text(" + ")
        .number(watts(heat))
        .text(") / ")
        .number(conductance(ua));
    let step =
        Step::computed("T", "cells; at most 25 °C is credited", "T_mean + (P_min + Q_heat) / U·A", numbers, cells);
    steps.push(step.from_source(&HEAT_BALANCE));
    Ok(Cold { cells, steps })
}

/// The warmest cells of a case at the hottest hour, as far as the heat balance goes; for a curve beside others.
#[must_use]
pub fn hot(case: &Case) -> Option<Celsius> {
    let mut warmest: Option<Celsius> = None;
    let mut hour = None;
    for room in rooms(case) {
        let here = match room {
            Room::Plinth => case.project.brief.hottest,
            Room::Compartment(index) => {
                if hour.is_none() {
                    hour = Some(Hottest::of(case).ok()?);
                }
                match hour.as_ref()?.air(index) {
                    Air::At(air) => air,
                    Air::Above(_) | Air::Unknown => return None,
                }
            }
        };
        if warmest.is_none_or(|warmest| here > warmest) {
            warmest = Some(here);
        }
    }
    warmest
}

#[cfg(test)]
mod tests {
    use units::{Kelvins, Watts};

    use super::super::testing::{direct, lead, plant};
    use super::*;
    use crate::heat::testing::{Desk, rack};

    fn desk(watts: f64) -> Desk {
        let mut desk = plant(vec![lead(24, 100.0)], vec![direct(watts)]);
        desk.project.brief.coldest = Celsius(-20.0);
        desk.project.brief.daily_range = Kelvins(10.0);
        desk
    }

    #[track_caller]
    fn check(desk: &Desk, expected: f64) {
        let found = desk.with(|case| cold(case).unwrap().cells);
        assert!((found.0 - expected).abs() < 1e-6, "{found:?} instead of {expected}");
    }

    /// Conductance of the desk's faces at the coldest hour, W/K.
    fn conductance(desk: &Desk) -> f64 {
        desk.with(|case| walls(case).unwrap().iter().map(|wall| wall.conductance(Hour::Coldest, false)).sum())
    }

    #[test]
    fn cells_in_the_body_are_as_warm_as_the_devices_make_it() {
        let desk = desk(190.0);
        // Rectifiers of 95 % lose 10 W; the day's mean is −15 °C.
        check(&desk, -15.0 + 200.0 / conductance(&desk));
        check(&self::desk(3000.0), 25.0);
    }

    #[test]
    fn a_heater_warms_them_up_to_where_it_stops() {
        let mut weak = desk(0.0);
        weak.heater(100.0, 0);
        check(&weak, -15.0 + 100.0 / conductance(&weak));
        let mut strong = desk(0.0);
        strong.heater(5000.0, 0);
        check(&strong, 10.0);
    }

    #[test]
    fn cells_in_the_plinth_are_as_warm_as_the_day() {
        let mut desk = desk(500.0);
        let place = desk.plinth();
        desk.add(lead(24, 100.0), place);
        check(&desk, -15.0);
        desk.project.brief.elevation = units::Metres(3001.0);
        assert!(desk.with(|case| cold(case).is_err()));
    }

    #[test]
    fn the_warmest_are_those_of_the_hottest_hour() {
        let mut desk = Desk::new();
        let place = desk.plinth();
        desk.add(lead(24, 100.0), place);
        assert_eq!(desk.with(hot), Some(desk.project.brief.hottest));
        let mut inside = desk.clone();
        inside.add(catalogue::Device { power: Watts(200.0), ..lead(24, 100.0) }, rack(0, 5));
        assert!(inside.with(hot) > desk.with(hot));
    }
}
