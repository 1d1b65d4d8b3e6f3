//! **B05 `bus-window`** – does the bus stay within what the loads bear, from boost to the end of a discharge?
//!
//! V_low = V_end − ΔV ≥ 40.5 V;  V_high = max(n · v_boost, n · (v_float + c · (T_cold − 25 °C))) ≤ 57.0 V
//!
//! - V_low    voltage at the loads at the end of a discharge               [V]
//! - V_end    voltage at which the strings are taken off                   [V]
//! - ΔV       most that a load loses on its way from the bus, as P08 has it [V]
//! - V_high   highest voltage of the bus                                   [V]
//! - n        cells in series                                              [–]
//! - v_boost  of a cell on boost at 25 °C                                  [V]
//! - v_float  of a cell on float at 25 °C                                  [V]
//! - c        compensation                                                 [V/K]
//! - T_cold   coldest cells                                                [°C]
//!
//! Source:      ETSI EN 300 132-2, from memory; voltages of cells, from memory; the fall as P08 has it, or while it is not known
//!              its limit.
//! Valid for:   −48 V plants.
//! Agreement:   tests/published/backup.toml, T09-01, T09-02 and T09-18.
//! Not covered: transients; narrower windows of a device. ATIS-0600315 gives −40 to −56.7 V (from memory).
//!
//! It is tight within half a volt of an end. Common practice, no source.

use units::Kind;

use super::formulas::string::float_volts;
use super::plant::{NoPlant, Plant};
use super::temperatures::cold;
use super::words::{no_plant, times, volts};
use crate::network::{NodeKind, charge_volts};
use crate::power::all_fed::CAUTION;
use crate::power::circuits::BUS_TO_LOAD;
use crate::power::voltage_drop_dc::greatest_fall;
use crate::sources::{CATALOGUE, CELLS, CODE_DROP, EN_300_132_2, PRACTICE};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, count};

/// The voltages between which equipment of −48 V works, V.
pub const WINDOW: (f64, f64) = (40.5, 57.0);

/// Within this of an end it is tight, and the length of its scale, V.
const NEAR: f64 = 0.5;
const SCALE: f64 = 5.0;

/// The check.
pub static CHECK: Check = Check {
    code: "B05",
    name: "bus-window",
    topic: Topic::Backup,
    question: "Does the bus stay within what the loads bear, from boost to the end of a discharge?",
    formula: "V_end − ΔV ≥ 40.5 V;  max(n · v_boost, n · (v_float + c · (T_cold − 25 °C))) ≤ 57.0 V",
    symbols: &[
        Symbol { symbol: "V_low", meaning: "voltage at the loads at the end of a discharge", kind: Kind::Voltage },
        Symbol { symbol: "V_end", meaning: "voltage at which the strings are taken off", kind: Kind::Voltage },
        Symbol { symbol: "ΔV", meaning: "most that a load loses on its way from the bus", kind: Kind::Voltage },
        Symbol { symbol: "V_high", meaning: "highest voltage of the bus", kind: Kind::Voltage },
        Symbol { symbol: "n", meaning: "cells in series", kind: Kind::Count },
        Symbol { symbol: "v_boost", meaning: "of a cell on boost at 25 °C", kind: Kind::Voltage },
        Symbol { symbol: "v_float", meaning: "of a cell on float at 25 °C", kind: Kind::Voltage },
        Symbol { symbol: "T_cold", meaning: "coldest cells", kind: Kind::Temperature },
    ],
    sources: &[&EN_300_132_2, &CELLS, &CATALOGUE, &CODE_DROP, &PRACTICE],
    valid: "−48 V plants",
    leaves_out: "transients; narrower windows of a device",
    caution: Some(CAUTION),
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    vec![case.lacking(check).unwrap_or_else(|| judge(check, case))]
}

fn judge(check: &Check, case: &Case) -> Finding {
    let subject = Subject::Supply;
    let plant = match Plant::of(case) {
        Ok(plant) => plant,
        Err(NoPlant::NoBattery) => {
            return Finding::holds(check, subject, "without batteries the rectifiers hold the bus");
        }
        Err(why) => return no_plant(check, why),
    };
    let cold = match cold(case) {
        Ok(cold) => cold,
        Err(gap) => return gap.finding(check, subject),
    };
    let of = plant.figures();
    let (fall, way, source) = match greatest_fall(case) {
        Some(fall) => (fall, "most that a load loses on its way from the bus", &CODE_DROP),
        None => (BUS_TO_LOAD, "what may be lost up to a load, as conductors are not known", &PRACTICE),
    };
    let low = plant.cut_off - fall;
    let charged = charge_volts(Some(plant.chemistry));
    let float = float_volts(f64::from(plant.cells), charged, of.compensation, cold.cells.0);
    let boost = plant.volts(of.boost);
    let high = float.max(boost);
    let above = low - WINDOW.0;
    let below = WINDOW.1 - high;

    let switched = case.network.of_kind(NodeKind::CutOut).next().is_some();
    let end = if switched {
        "voltage at which the strings are taken off, or the cells are empty"
    } else {
        "end of the cells; nothing takes them off"
    };
    let mut steps = vec![
        Step::input("n", "cells in series", count(plant.cells as usize)).from_source(&CATALOGUE),
        Step::input("V_end", end, volts(plant.cut_off)).from_source(&CELLS),
        Step::input("ΔV", way, volts(fall)).from_source(source),
        Step::computed(
            "V_low",
            "at the loads at the end of a discharge",
            "V_end − ΔV",
            Phrase::new().number(volts(plant.cut_off)).text(" − ").number(volts(fall)),
            volts(low),
        ),
        Step::input("v_float", "of a cell on float at 25 °C", volts(charged)).from_source(&CELLS),
    ];
    steps.extend(cold.steps);
    steps.push(Step::input("V_float", "float of the coldest cells, compensated", volts(float)).from_source(&CELLS));
    let numbers = times(count(plant.cells as usize), volts(of.boost));
    steps.push(Step::computed("V_boost", "boost at 25 °C", "n · v_boost", numbers, volts(boost)).from_source(&CELLS));
    steps.push(Step::input("V_high", "highest voltage of the bus", volts(high)));

    let (given, allowed, margin) = if above <= below { (low, WINDOW.0, above) } else { (high, WINDOW.1, below) };
    // used = 1 − margin / 5 V
    let used = (1.0 - margin / SCALE).max(0.0);
    let reserve = 1.0 - NEAR / SCALE;
    let finding = Finding::on_scale(check, subject, volts(given), volts(allowed), volts(margin), used, reserve);
    let finding =
        if switched { finding } else { finding.because("nothing takes the strings off before they are drained") };
    let help = if above <= below {
        "A low-voltage disconnect that opens earlier would help"
    } else {
        "A lower boost, less compensation in the cold or warmer batteries would help"
    };
    finding.working(steps).help(help)
}

#[cfg(test)]
mod tests {
    use catalogue::Chemistry;
    use units::Celsius;

    use super::super::testing::{battery, direct, disconnect, lead, lithium, plant};
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, end: f64, high: f64) {
        let found = desk.run(&CHECK).remove(0);
        assert_eq!(found.outcome, outcome, "{found:?}");
        let fall = step(&found, "ΔV");
        assert!((0.0..=1.0).contains(&fall), "{fall}");
        let low = end - fall;
        let near = (step(&found, "V_low") - low).abs() < 1e-9 && (step(&found, "V_high") - high).abs() < 1e-6;
        assert!(near, "{found:?}");
    }

    fn warm(devices: Vec<catalogue::Device>) -> Desk {
        let mut desk = plant(devices, vec![direct(100.0)]);
        desk.project.brief.coldest = Celsius(30.0);
        desk
    }

    #[test]
    fn plants_of_every_chemistry_stay_within() {
        check(&warm(vec![lead(24, 100.0)]), Outcome::Holds, 43.2, 56.4);
        check(&warm(vec![lithium(15, 100.0)]), Outcome::Holds, 42.0, 52.5);
        check(&warm(vec![lithium(16, 100.0)]), Outcome::Holds, 44.8, 56.0);
        check(&warm(vec![battery(Chemistry::Nickel, 38, 100.0)]), Outcome::Holds, 41.8, 56.24);
    }

    #[test]
    fn what_a_load_loses_on_its_way_counts() {
        let fall = |watts: f64| {
            let mut desk = plant(vec![lead(24, 100.0)], vec![direct(watts)]);
            desk.project.brief.coldest = Celsius(30.0);
            step(&desk.run(&CHECK).remove(0), "ΔV")
        };
        assert!(fall(200.0) > 0.0 && fall(400.0) > 1.5 * fall(200.0), "{} and {}", fall(200.0), fall(400.0));
    }

    #[test]
    fn a_disconnect_raises_the_end() {
        check(&warm(vec![lithium(15, 100.0), disconnect(43.2)]), Outcome::Holds, 43.2, 52.5);
    }

    #[test]
    fn frost_raises_the_float_too_far() {
        let mut desk = plant(vec![lead(24, 100.0)], vec![direct(0.0)]);
        desk.project.brief.daily_range = units::Kelvins(0.0);
        // 24 · (2.27 + 0.003 · (25 + 10)) = 57.0 at −10 °C
        desk.project.brief.coldest = Celsius(-9.9);
        check(&desk, Outcome::Tight, 43.2, 24.0 * (2.27 + 0.003 * 34.9));
        desk.project.brief.coldest = Celsius(-10.1);
        check(&desk, Outcome::Fails, 43.2, 24.0 * (2.27 + 0.003 * 35.1));
    }

    #[test]
    fn without_batteries_there_is_nothing_to_judge() {
        let found = plant(vec![], vec![direct(10.0)]).run(&CHECK).remove(0);
        assert_eq!((found.outcome, found.given), (Outcome::Holds, None));
    }
}
