//! The units that move heat out at the hottest hour: their curve over the inside temperature and what altitude leaves.
//!
//! Filter fans move a volume of outdoor air, so its density counts, and what a soiled filter lets through of it:
//! k = s · ρ / ρ_rated, with ρ = p(z) / (R · T_out) and the maker's share s. Of exchangers and air conditioners the maker's
//! loss counts: k = 1 − loss · z; of an exchanger whose maker states none, the density counts as of a clean fan. Unless
//! the maker says otherwise, what fans and exchangers draw becomes heat inside, and what an air conditioner draws leaves
//! with its warm side.

use catalogue::{ClimateUnit, UnitSort};
use project::{ItemId, Side, UnitAt};
use units::{Celsius, Metres};

use super::formulas::balance::Mover;
use super::formulas::unit_map::Curve;
use super::gap::Gap;
use super::heat_sources::UnitDraw;
use super::walls::compartments;
use crate::{Case, Phrase};

/// Greatest height above the sea that the Heat method covers. Above it the films, which are not corrected for thinner
/// air, would be more than about a tenth too strong.
pub const HIGHEST_SITE: Metres = Metres(3000.0);

/// Coldest outdoor air the Heat method covers, °C.
const COLDEST_AIR: f64 = -60.0;
/// Hottest outdoor air the Heat method covers, °C.
const HOTTEST_AIR: f64 = 60.0;

/// A unit that moves heat out.
#[derive(Clone, Debug, PartialEq)]
pub struct CoolingUnit<'a> {
    /// Its number.
    pub id: ItemId,
    /// Its data.
    pub spec: &'a ClimateUnit,
    /// The compartment it serves.
    pub compartment: usize,
    /// What it moves.
    pub mover: Mover,
    /// What it draws at most at this outside temperature, W.
    pub input: f64,
}

impl CoolingUnit<'_> {
    /// Heat that its own input adds inside, W.
    #[must_use]
    pub fn own_heat(&self) -> f64 {
        if self.spec.input_heats_inside() { self.input } else { 0.0 }
    }

    /// What it draws, as a load on what converts power.
    #[must_use]
    pub fn draw(&self) -> UnitDraw {
        UnitDraw { of: self.id, power: self.input }
    }
}

/// The compartment a unit serves.
#[must_use]
pub fn served(case: &Case, at: UnitAt) -> usize {
    let last = compartments(case) - 1;
    match at {
        UnitAt::Door { bay, .. } | UnitAt::Roof { bay } | UnitAt::Inside { bay } => bay.min(last),
        UnitAt::Side { side: Side::Left } => 0,
        UnitAt::Side { side: Side::Right } => last,
    }
}

/// Says so when the site lies outside the range of the Heat method.
///
/// # Errors
/// When the elevation or the outdoor air does.
pub fn site_in_range(case: &Case, outside: Celsius) -> Result<(), Gap> {
    let elevation = case.project.brief.elevation;
    if !(climate::LOWEST.0..=HIGHEST_SITE.0).contains(&elevation.0) {
        let why = Phrase::from("sites above ").value(HIGHEST_SITE).text(" or below ").value(climate::LOWEST);
        return Err(Gap::OutOfRange(why.text(" are not covered")));
    }
    if !(COLDEST_AIR..=HOTTEST_AIR).contains(&outside.0) {
        let why = Phrase::from("outdoor air of ").value(outside);
        return Err(Gap::OutOfRange(why.text(" is not covered")));
    }
    Ok(())
}

/// Density of the outdoor air over the density in which fans are rated.
#[must_use]
pub fn air_share(elevation: Metres, outside: Celsius) -> Option<f64> {
    let pressure = climate::standard_air(elevation)?.pressure;
    // k = ρ / ρ_rated
    Some(climate::density(pressure, outside)? / climate::RATED_AIR_DENSITY)
}

/// Share of a unit's capacity that is left at the site and with a soiled filter; `None` when nothing is.
#[must_use]
pub fn share_left(spec: &ClimateUnit, elevation: Metres, outside: Celsius) -> Option<f64> {
    let loss = spec.altitude_loss_per_metre;
    let by_density = match spec.sort {
        UnitSort::FilterFan => true,
        UnitSort::Exchanger => loss <= 0.0,
        UnitSort::AirConditioner | UnitSort::Heater => false,
    };
    let left = if by_density {
        // k = s · ρ / ρ_rated
        spec.soiled_share * air_share(elevation, outside)?
    } else {
        // k = 1 − loss · z
        1.0 - loss * elevation.0.max(0.0)
    };
    (left > 0.0).then_some(left)
}

/// The units that move heat out, at the hottest hour.
///
/// # Errors
/// When the site is out of range, a part is unknown, or a unit has no map or nothing left there.
pub fn cooling_units<'a>(case: &Case<'a>) -> Result<Vec<CoolingUnit<'a>>, Gap> {
    let brief = &case.project.brief;
    let outside = brief.hottest;
    site_in_range(case, outside)?;
    if case.units.len() < case.project.build.climate.len() {
        return Err(Gap::NeedsData(case.missing_parts()));
    }
    let mut units = Vec::new();
    for (fitted, spec) in case.units.iter().filter(|(_, spec)| spec.sort != UnitSort::Heater) {
        let beyond = || {
            let why = Phrase::from(spec.name.as_str()).text(" has no map at ").value(outside).text(" outside");
            Gap::OutOfRange(why)
        };
        let capacity = Curve::of(&spec.map, &spec.map.capacity, outside.0).ok_or_else(beyond)?;
        let input = Curve::of(&spec.map, &spec.map.input, outside.0).ok_or_else(beyond)?.greatest();
        let left = share_left(spec, brief.elevation, outside).ok_or_else(|| {
            let why = Phrase::from(spec.name.as_str()).text(" has nothing left at ").value(brief.elevation);
            Gap::OutOfRange(why)
        })?;
        let mover = Mover { capacity, left, starts_above: spec.set_point.0 };
        units.push(CoolingUnit { id: fitted.id, spec, compartment: served(case, fitted.at), mover, input });
    }
    Ok(units)
}
