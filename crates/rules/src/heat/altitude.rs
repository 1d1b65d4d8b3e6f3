//! **H09 `altitude`** – what does the height above the sea leave of the air and of the units?
//!
//! σ = ρ / ρ₀,  ρ = p / (R · T),  p = 101 325 · (1 − 0.0065 · h / 288.15)^5.25588
//!
//! - σ   density of the air over that of standard air at sea level   [–]
//! - ρ   density at the site's hottest hour                          [kg/m³]
//! - p   pressure at the site's height                               [Pa]
//! - h   height above the sea, geopotential                          [m]
//! - k   share of a unit's capacity that is left                     [–]
//! - s   share of a filter fan's air flow that a soiled filter lets through, part of k  [–]
//!
//! Source:      US Standard Atmosphere 1976 / ISO 2533; the makers' losses for k.
//! Valid for:   up to 3 000 m.
//! Agreement:   tests/published/air.toml, T04-01…06 within 0.05 %, T04-11 within 0.2 %.
//! Not covered: weather.

use catalogue::UnitSort;
use units::{Kind, Value};

use super::cooling::{share_left, site_in_range};
use crate::sources::{CATALOGUE, STANDARD_ATMOSPHERE};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "H09",
    name: "altitude",
    topic: Topic::Heat,
    question: "What does the height above the sea leave of the air and of the units?",
    formula: "σ = ρ / ρ_0,  ρ = p / (R · T)",
    symbols: &[
        Symbol { symbol: "σ", meaning: "density over that of standard air at sea level", kind: Kind::Share },
        Symbol { symbol: "ρ", meaning: "density at the hottest hour", kind: Kind::Density },
        Symbol { symbol: "ρ_0", meaning: "density of standard air at sea level", kind: Kind::Density },
        Symbol { symbol: "p", meaning: "air pressure", kind: Kind::AirPressure },
        Symbol { symbol: "T", meaning: "outdoor air, hottest hour", kind: Kind::Temperature },
        Symbol { symbol: "k", meaning: "share of a unit's capacity that is left", kind: Kind::Share },
        Symbol {
            symbol: "s",
            meaning: "share of a filter fan's air flow that a soiled filter lets through, part of k",
            kind: Kind::Share,
        },
    ],
    sources: &[&STANDARD_ATMOSPHERE, &CATALOGUE],
    valid: "up to 3 000 m above the sea",
    leaves_out: "weather; films, which are not corrected for thinner air",
    caution: None,
    asked: Some(crate::Asked::Hottest),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let brief = &case.project.brief;
    if let Err(gap) = site_in_range(case, brief.hottest) {
        return vec![gap.finding(check, Subject::Cabinet)];
    }
    let air = climate::standard_air(brief.elevation);
    let density = air.and_then(|air| climate::density(air.pressure, brief.hottest));
    let (Some(air), Some(density)) = (air, density) else {
        return vec![Finding::out_of_range(check, Subject::Cabinet, "no air at that height and temperature")];
    };
    let kilograms = |number: f64| Value::new(number, Kind::Density);
    let sigma = Value::new(density / climate::SEA_LEVEL_DENSITY, Kind::Share);
    let mut working = vec![
        Step::input("z", "height above the sea", brief.elevation),
        Step::input("p", "air pressure", Value::new(air.pressure, Kind::AirPressure)).from_source(&STANDARD_ATMOSPHERE),
        Step::input("T", "outdoor air, hottest hour", brief.hottest),
        Step::input("ρ", "density at the hottest hour", kilograms(density)).from_source(&STANDARD_ATMOSPHERE),
        Step::computed(
            "σ",
            "density over that of standard air at sea level",
            "ρ / ρ_0",
            Phrase::new().number(kilograms(density)).text(" / ").number(kilograms(climate::SEA_LEVEL_DENSITY)),
            sigma,
        ),
    ];
    for (_, spec) in case.units.iter().filter(|(_, spec)| spec.sort != UnitSort::Heater) {
        let name = Phrase::from(spec.name.as_str());
        let Some(left) = share_left(spec, brief.elevation, brief.hottest) else {
            let why = name.text(" has nothing left at ").value(brief.elevation);
            return vec![Finding::out_of_range(check, Subject::Cabinet, why).working(working)];
        };
        if spec.soiled_share < 1.0 {
            let soiled = Value::new(spec.soiled_share, Kind::Share);
            let what = Phrase::from(spec.name.as_str()).text(": air flow through a soiled filter");
            working.push(Step::input("s", what, soiled).from_source(&CATALOGUE));
        }
        let left = Value::new(left, Kind::Share);
        working.push(Step::input("k", name.text(": capacity left"), left).from_source(&CATALOGUE));
    }
    vec![Finding::tells(check, Subject::Cabinet, sigma).working(working)]
}

#[cfg(test)]
mod tests {
    use units::{Celsius, Metres};

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};

    fn desk(elevation: f64) -> Desk {
        let mut desk = Desk::new();
        desk.project.brief.elevation = Metres(elevation);
        desk
    }

    #[test]
    fn hot_thin_air_is_lighter_than_standard_air() {
        // 89 876.3 Pa at 1000 m (standard atmosphere), 40 °C: 89 876.3 / (287.053 · 313.15) = 0.99983 kg/m³
        let finding = &desk(1000.0).run(&CHECK)[0];
        assert_eq!(finding.outcome, Outcome::Holds);
        assert!((step(finding, "ρ") - 0.99983).abs() < 5e-4);
        assert!((finding.given.unwrap().number - 0.99983 / 1.225).abs() < 5e-4);
    }

    #[test]
    fn a_conditioner_loses_what_its_maker_says() {
        let mut desk = desk(1500.0);
        desk.conditioner(1000.0, 0);
        assert!((step(&desk.run(&CHECK)[0], "k") - 0.85).abs() < 1e-12);
    }

    #[test]
    fn a_filter_fan_loses_what_its_air_and_its_soiled_filter_do() {
        // 0.99983 kg/m³ as above; rated in 1.204 kg/m³, and 0.7 of it through the soiled filter.
        let mut desk = desk(1000.0);
        desk.conditioner(1000.0, 0);
        for unit in desk.catalogue.units.values_mut() {
            unit.sort = UnitSort::FilterFan;
            unit.soiled_share = 0.7;
        }
        let finding = &desk.run(&CHECK)[0];
        assert_eq!(step(finding, "s"), 0.7);
        assert!((step(finding, "k") - 0.7 * 0.99983 / 1.204).abs() < 5e-4, "{}", step(finding, "k"));
    }

    #[test]
    fn a_unit_with_nothing_left_is_out_of_range() {
        let mut desk = desk(3000.0);
        desk.conditioner(1000.0, 0);
        for unit in desk.catalogue.units.values_mut() {
            unit.altitude_loss_per_metre = 1.0 / 3000.0;
        }
        assert_eq!(desk.run(&CHECK)[0].outcome, Outcome::OutOfRange);
    }

    #[test]
    fn says_so_outside_its_range() {
        for elevation in [3000.1, -430.1, f64::NAN] {
            assert_eq!(desk(elevation).run(&CHECK)[0].outcome, Outcome::OutOfRange, "{elevation}");
        }
        let mut hot = desk(0.0);
        hot.project.brief.hottest = Celsius(61.0);
        assert_eq!(hot.run(&CHECK)[0].outcome, Outcome::OutOfRange);
    }
}
