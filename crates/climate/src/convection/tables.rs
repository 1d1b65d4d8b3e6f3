//! Films by table, for a year's hours.
//!
//! h = (h_n⁴ + h_w⁴)^¼
//! h_n⁴ = table(ΔT · r(T_f)) · c(T_f)⁴,  h_w = table(v · s(T)) · c(T)
//!
//! - h_n  natural film                                           [W/(m²·K)]
//! - h_w  film of the wind                                       [W/(m²·K)]
//! - T    outdoor air                                            [°C]
//! - T_f  mean of surface and outdoor air                        [°C]
//! - r    Rayleigh number per kelvin, over that of the table's air
//! - s    Reynolds number per m/s, over that of the table's air
//! - c    conductivity of the air, over that of the table's air
//!
//! The natural table holds the fourth power of the film, which grows almost in proportion to ΔT, so that a straight line
//! between points one kelvin apart misses nothing.
//!
//! Source:      `natural.rs` and `forced.rs`; the blend: Bergman et al., ch. 9, combined free and forced convection, with the
//!              exponent 4 that is named there for cross flow; from memory, to be confirmed. A usual 3 gives up to 6 % more.
//! Valid for:   ΔT to ±60 K, wind to 40 m/s, means of surface and air −80 to 90 °C; taken at the end beyond.
//! Agreement:   within 1.5 % of the formulas wherever ΔT is 2 K or more, or the wind 0.6 m/s (tests below); on a roof
//!              within 7 % near Ra = 10⁷, where McAdams' two formulas meet with a jump of 6 %.

use units::Celsius;

use super::{Gas, horizontal_film, plate_film, rayleigh, vertical_film};

/// Points of a natural table, one for each kelvin.
const STEPS: usize = 200;
/// Points of a table of winds, ten for each m/s.
const WINDS: usize = 600;
/// Points of the table in one m/s.
const PER_SPEED: f64 = 10.0;
/// Air for which a table is made, °C.
const REFERENCE: f64 = 20.0;
/// Coldest air of a table of airs, °C.
const COLDEST: f64 = -80.0;
/// Points of a table of airs, and kelvins from one to the next.
const AIRS: usize = 35;
const AIR_STEP: f64 = 5.0;

/// A blend of natural film and wind from their fourth powers, W/(m²·K).
#[must_use]
pub fn blended(natural_fourth: f64, wind_fourth: f64) -> f64 {
    (natural_fourth + wind_fourth).sqrt().sqrt()
}

/// What an outdoor air makes of films that were tabulated for another.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Correction {
    rayleigh: f64,
    reynolds: f64,
    conductivity: f64,
    fourth: f64,
}

/// Corrections over the outdoor air, at one pressure.
#[derive(Clone, Debug, PartialEq)]
pub struct AirTable(Vec<Correction>);

impl AirTable {
    /// At a pressure, Pa; `None` without air.
    #[must_use]
    pub fn of(pressure: f64) -> Option<Self> {
        let gas = |air: f64| Gas::at(Celsius(air), pressure);
        let reference = gas(REFERENCE)?;
        let points = (0..AIRS).map(|point| {
            let gas = gas(COLDEST + AIR_STEP * point as f64)?;
            let conductivity = gas.conductivity / reference.conductivity;
            let square = conductivity * conductivity;
            Some(Correction {
                rayleigh: rayleigh(&gas, 1.0, 1.0) / rayleigh(&reference, 1.0, 1.0),
                reynolds: reference.kinematic_viscosity() / gas.kinematic_viscosity(),
                conductivity,
                fourth: square * square,
            })
        });
        points.collect::<Option<_>>().map(Self)
    }

    /// What a natural film needs at the mean of surface and air, °C.
    fn natural(&self, mean: f64) -> (f64, f64) {
        let (index, share) = place(AIRS, ((mean - COLDEST) / AIR_STEP).max(0.0));
        let (low, high) = (&self.0[index], &self.0[index + 1]);
        let between = |low: f64, high: f64| low + (high - low) * share;
        (between(low.rayleigh, high.rayleigh), between(low.fourth, high.fourth))
    }

    /// The correction for an outdoor air, °C.
    #[must_use]
    pub fn at(&self, air: f64) -> Correction {
        let (index, share) = place(AIRS, ((air - COLDEST) / AIR_STEP).max(0.0));
        let (low, high) = (self.0[index], self.0[index + 1]);
        let between = |of: fn(&Correction) -> f64| of(&low) + (of(&high) - of(&low)) * share;
        Correction {
            rayleigh: between(|of| of.rayleigh),
            reynolds: between(|of| of.reynolds),
            conductivity: between(|of| of.conductivity),
            fourth: between(|of| of.fourth),
        }
    }
}

/// Natural film of one face over the difference of surface and air.
#[derive(Clone, Debug, PartialEq)]
pub struct NaturalTable {
    /// Fourth power of the film, surface warmer by 0, 1, … kelvins.
    warmer: Vec<f64>,
    /// The same, surface colder.
    colder: Vec<f64>,
}

impl NaturalTable {
    /// Of an upright face of some height, m; `None` without air.
    #[must_use]
    pub fn upright(pressure: f64, height: f64) -> Option<Self> {
        // With the mean of surface and air at the table's air, whatever their difference.
        Self::of(|difference| vertical_film(Celsius(REFERENCE - difference / 2.0), pressure, difference, height))
    }

    /// Of a roof, whose area over its perimeter is given, m; `None` without air.
    #[must_use]
    pub fn roof(pressure: f64, length: f64) -> Option<Self> {
        Self::of(|difference| {
            horizontal_film(Celsius(REFERENCE - difference / 2.0), pressure, difference, length, true)
        })
    }

    fn of(film: impl Fn(f64) -> Option<f64>) -> Option<Self> {
        let fourth = |difference: f64| {
            let film = film(difference)?;
            let square = film * film;
            Some(square * square)
        };
        let line = |sign: f64| (0..=STEPS).map(|step| fourth(sign * step as f64)).collect::<Option<Vec<_>>>();
        Some(Self { warmer: line(1.0)?, colder: line(-1.0)? })
    }

    /// Fourth power of the film at a difference of surface and air (K) and an outdoor air (°C).
    #[must_use]
    pub fn fourth(&self, difference: f64, airs: &AirTable, air: f64) -> f64 {
        let (rayleigh, fourth) = airs.natural(air + difference / 2.0);
        let line = if difference >= 0.0 { &self.warmer } else { &self.colder };
        read(line, difference.abs() * rayleigh) * fourth
    }
}

/// Film of the wind along a face.
#[derive(Clone, Debug, PartialEq)]
pub struct WindTable {
    film: Vec<f64>,
}

impl WindTable {
    /// Along a face of some length, m; `None` without air.
    #[must_use]
    pub fn of(pressure: f64, length: f64) -> Option<Self> {
        let film = |step: usize| plate_film(Celsius(REFERENCE), pressure, step as f64 / PER_SPEED, length);
        (0..=WINDS).map(film).collect::<Option<_>>().map(|film| Self { film })
    }

    /// The film at a wind, m/s, W/(m²·K).
    #[must_use]
    pub fn film(&self, wind: f64, correction: &Correction) -> f64 {
        read(&self.film, wind.max(0.0) * PER_SPEED * correction.reynolds) * correction.conductivity
    }
}

/// Index of the lower neighbour of a place in a table of so many points, and the share of the way to the next.
fn place(points: usize, at: f64) -> (usize, f64) {
    let index = (at as usize).min(points.saturating_sub(2));
    let share = at - index as f64;
    (index, if share > 1.0 { 1.0 } else { share })
}

/// Between the points of a table; at its end beyond.
fn read(line: &[f64], at: f64) -> f64 {
    let (index, share) = place(line.len(), at);
    line[index] + (line[index + 1] - line[index]) * share
}

#[cfg(test)]
mod tests {
    use super::*;

    /// McAdams' two formulas for a roof meet with a jump of 6 %, which a correction for the air moves a little aside.
    const ROOF: f64 = 0.07;

    #[test]
    fn a_table_misses_its_formula_by_little() {
        for pressure in [101_325.0, 70_000.0] {
            let airs = AirTable::of(pressure).unwrap();
            let upright = NaturalTable::upright(pressure, 1.8).unwrap();
            let roof = NaturalTable::roof(pressure, 0.2).unwrap();
            let wind = WindTable::of(pressure, 0.8).unwrap();
            for air in [-52.3, -40.0, -15.0, 5.0, 31.3, 55.0] {
                let correction = airs.at(air);
                for difference in [-30.0, -12.3, -3.1, -2.2, 2.2, 3.1, 12.3, 29.5, 58.7] {
                    let same = |table: &NaturalTable, formula: Option<f64>, within: f64| {
                        let found = blended(table.fourth(difference, &airs, air), 0.0);
                        let formula = formula.unwrap();
                        assert!((found / formula - 1.0).abs() < within, "{air} {difference}: {found} {formula}");
                    };
                    let lying = horizontal_film(Celsius(air), pressure, difference, 0.2, true);
                    same(&upright, vertical_film(Celsius(air), pressure, difference, 1.8), 0.015);
                    same(&roof, lying, if difference > 0.0 { ROOF } else { 0.015 });
                }
                for speed in [0.6, 1.3, 3.4, 12.2, 31.0] {
                    let formula = plate_film(Celsius(air), pressure, speed, 0.8).unwrap();
                    let found = wind.film(speed, &correction);
                    assert!((found / formula - 1.0).abs() < 0.015, "{air} {speed}: {found} {formula}");
                }
            }
        }
    }

    #[test]
    fn beyond_its_end_a_table_stays_as_it_is() {
        let table = NaturalTable::upright(101_325.0, 1.0).unwrap();
        let airs = AirTable::of(101_325.0).unwrap();
        let fourth = |difference| table.fourth(difference, &airs, REFERENCE);
        assert_eq!(fourth(1e9), fourth(1e8));
        assert_eq!(fourth(-1e9), fourth(-1e8));
        assert!(fourth(f64::NAN).is_nan());
    }

    #[test]
    fn wind_and_warmth_help_each_other_a_little() {
        let both = blended(256.0, 256.0);
        assert!((both - 4.0 * 2.0_f64.sqrt().sqrt()).abs() < 1e-12);
        assert_eq!(blended(0.0, 81.0), 3.0);
    }
}
